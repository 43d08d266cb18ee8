"""XML as keys with their values: '<dtc code="P0562" status="stored"/>' and "<code>P0562</code>", without the marks.

>>> from triage.intake.plain.characters import lines
>>> text = '<ecu name="ABS">\\n  <dtc code="C0031" text="low"/>\\n</ecu>\\n<unit>BCM</unit>\\n<dtc id="B1" name="x"/>'
>>> [line.text for line in written_out(lines(text), lambda name: False)]
['ecu name=ABS;', 'code=C0031; text=low;', '', 'unit:BCM', 'B1; x;']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

from triage.intake.codes.found import find
from triage.intake.lines.spacing import with_places
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import answer_of_cell

_ATTRIBUTE = lazily(r"\s+([\w.:-]{1,40})\s?=\s?(?:\"[^\"]{0,400}\"|'[^']{0,400}')")
_TAG = lazily(
    r"<(?:(?P<aside>[?!][^>]{0,400})|/(?P<closed>[A-Za-z][\w.:-]{0,40})\s?|(?P<opened>[A-Za-z][\w.:-]{0,40})"
    r"(?P<attributes>(?:\s+[\w.:-]{1,40}\s?=\s?(?:\"[^\"]{0,400}\"|'[^']{0,400}')){0,40})\s?/?)>"
)
_NONE = lazily(r"\s+(?:count|number|no|n|size|total)\s?=\s?[\"']0[\"']\s*")
_WORD_ENDS = lazily(r"(?<=[a-z])(?=[A-Z])|[._-]+")
_ENDS = ("</", "/>")
#: What a tag for codes may say of one; under another key its values stand without that.
_OF_A_CODE = frozenset(("code", "status", "failure_type", "status_byte", "count", "description", "spn", "fmi"))
_CODE = "code: "
_NUMBERS = frozenset(("index", "idx", "pos", "seq", "no", "nr"))
_FEWEST, _SHARE = 2, 0.6


def written_out(found: Sequence[Line], is_name: Callable[[str], bool]) -> list[Line]:
    """The lines of a text in XML with keys in place of its tags, each still tied to its place; those of any other text
    as they are. Linear."""
    filled = [line for line in found if line.text and not line.text.isspace()]
    opening = [line for line in filled if line.text.lstrip()[0] == "<"]
    if len(opening) < max(_FEWEST, _SHARE * len(filled)) or not any(
        end in line.text for line in opening for end in _ENDS
    ):
        return list(found)
    if sum(_TAG.match(line.text.lstrip()) is not None for line in opening) < _SHARE * len(opening):
        return list(found)
    return [part for line in found for part in (_without_tags(line, is_name) if "<" in line.text else [line])]


def _without_tags(line: Line, is_name: Callable[[str], bool]) -> list[Line]:
    """One line with keys in place of its tags, one for each element with a value."""
    gone: set[int] = set()
    marks: dict[int, str] = {}
    cuts = [0]
    #: Where what stands in the element of a code begins.
    texts: set[int] = set()
    answers: dict[int, str] = {}
    for match in _TAG.finditer(line.text):
        tag = match["opened"]
        closed = line.text.find("</", match.end())
        if tag is None:
            gone.update(range(*match.span()))
        elif _is_empty(line, match) and (said := _said(tag, match["attributes"])):
            answers[match.start()] = said
            cuts.append(match.end())
        elif match["attributes"]:
            gone.update(_beside_attributes(line, match))
            for attribute in _ATTRIBUTE.finditer(line.text, *match.span("attributes")):
                # What ends a value parts it from the next key.
                gone.add(line.text.index(attribute[0][-1], attribute.end(1)))
                marks[attribute.end() - 1] = ";"
            cuts.append(match.end())
            if role_of(match["opened"].lower()) == "code" and line.text[match.end() : match.end() + 1] != "<":
                texts.add(match.end())
        elif closed > match.end() and line.text.startswith(f"</{tag}", closed):
            gone.add(match.start())
            marks[match.end() - 1] = ":"
        else:
            gone.update({match.start(), match.end() - 1} if is_name(tag) else range(*match.span()))
        if tag is not None:
            cuts.append(match.start())
    cuts.sort()
    text, low = line.text, line.low
    for at, mark in marks.items():
        text, low = f"{text[:at]}{mark}{text[at + 1 :]}", f"{low[:at]}{mark}{low[at + 1 :]}"
    marked = replace(line, text=text, low=low)
    parts: list[Line] = []
    for first, last in pairwise([*cuts, len(text)]):
        if first in answers:
            places = (line.offsets or tuple(range(len(text))))[first : first + 1] * len(answers[first])
            parts.append(Line(line.number, line.raw, answers[first], places, answers[first], line.indent))
            continue
        kept = [at for at in range(first, last) if at not in gone]
        if any(not text[at].isspace() for at in kept):
            part = _keyed(with_places(marked, kept)) if first in texts else with_places(marked, kept)
            # The code stands before what is said of it.
            parts.insert(len(parts) - part.text.startswith(_CODE), part)
    return parts or [with_places(marked, [])]


def _is_empty(line: Line, tag: re.Match[str]) -> bool:
    """Whether nothing stands in an element: "<dtcs/>", "<dtcs></dtcs>"."""
    return tag[0].endswith("/>") or line.text.startswith(f"</{tag['opened']}", tag.end())


def _said(tag: str, attributes: str) -> str:
    """What an empty element says of its module: "<noAnswer/>" that it does not answer, "<dtcs/>" or '<dtcs count="0"/>'
    that it holds no codes. "" for any other."""
    if attributes and _NONE.fullmatch(attributes) is None:
        return ""
    words = _WORD_ENDS.sub(" ", tag).lower()
    if not attributes and answer_of_cell(words) is not None:
        return words
    return "no codes" if role_of(words) in ("code", "count_of_codes") else ""


def _keyed(line: Line) -> Line:
    """What stands in the element of a code behind its key: the code itself, or a text that may be a module's name."""
    text, offsets = line.text.strip(), line.offsets or ()
    key = _CODE if find(text).codes else "text: "
    lead = len(line.text) - len(line.text.lstrip())
    places = (*offsets[lead : lead + 1] * len(key), *offsets[lead : lead + len(text)])
    return Line(line.number, line.raw, key + text, places, key + line.low[lead : lead + len(text)], line.indent)


def _beside_attributes(line: Line, tag: re.Match[str]) -> set[int]:
    """The places of a tag that are neither a key nor a value: its name where the first attribute needs none, what
    numbers a code, and names that say something else of one."""
    begin, stop = tag.start("attributes"), tag.end("attributes")
    gone = {tag.start(), *range(stop, tag.end())}
    attributes = list(_ATTRIBUTE.finditer(line.text, begin, stop))
    roles = [role_of(attribute[1].lower()) for attribute in attributes]
    if role_of(tag["opened"].lower()) != "code":
        named = role_of(f"{tag['opened']} {attributes[0][1]}".lower(), exactly=True) is not None
        return gone if named else gone | {*range(tag.start(), begin + 1)}
    gone.update(range(tag.start(), begin + 1))
    for attribute, role in zip(attributes, roles, strict=True):
        if attribute[1].lower() in _NUMBERS or (attribute[1].lower() == "number" and "code" in roles):
            gone.update(range(*attribute.span()))
        elif role not in _OF_A_CODE:
            gone.update(range(attribute.start(1), line.text.index("=", attribute.end(1)) + 1))
    return gone


__all__ = ["written_out"]
