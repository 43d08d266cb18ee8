"""What the lines of one column of a page are, before any pass has put them in order: names of modules, what is said of
each, codes. So many of them tell whether the column is a list.

>>> lines = ["[11] Radio", "1) stored: U0131 - Lost", "   steering", "== Tow hook == no codes", "wheel speed sensor"]
>>> [kind_of(line, lambda name: "Radio" in name) for line in lines]
['name', 'code', '', 'both', '']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from typing import Literal, NamedTuple

from triage.intake.codes.found import find
from triage.intake.codes.ownnumbers import TOKEN
from triage.intake.lines import goingon
from triage.intake.lines.ledcodes import LEADS
from triage.intake.lines.outline import count_at
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter, low
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, phases, states
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.counts import stated_count
from triage.intake.said.listheads import status_of_head
from triage.intake.said.near import small

#: A code; the status of the codes below; an answer; a name, alone or with what is said of it ("both"); the title of a
#: scan; "": any other.
Kind = Literal["code", "status", "answer", "name", "both", "title", ""]

_WIDE = lazily(r"\s{3,}")
#: A bullet and the number of an entry; a word for a code.
_LEAD = lazily(r"(?:[-*\u2022>+#]{1,2}\s{0,3})?(?:\(?[0-9]{1,2}(?:[.):]{1,2}\s{0,3}|\s{1,3}))?")
_WORD = lazily(rf"(?i:(?:{'|'.join(LEADS)})(?:[ -]?codes?)?\s{{0,2}}[:=#.]?\s{{1,3}})")
#: Whatever may be a code with slips in it, or a pair of numbers.
_CODE = lazily(r"[^\W_] ?[0-3oOiIlQ][0-9A-Fa-foOiIlsSzZ]{3}(?![g-zG-Z])|(?i:spn[ :]?\s?[0-9])")
_OWN = lazily(TOKEN)
#: From a name to what is said of it.
_MARK = lazily(r"\s*(?:[:=](?=\s|$)|\.{2,}|>>|->|\u2026)\s*|\s+-{1,2}(?:\s+|$)")
#: Around a name.
_AROUND = " *=#<>_~:-"
#: The key and the number of a module before its name: "Unit 63 - Radio".
_NUMBERED = lazily(r"([^\W\d][^\W\d]{0,14})\.? (?:0[xX]|\$)?[0-9a-fA-F]{1,4}h?(?:\s?[-:.)]{1,2})?\s{1,3}(?=[^\W\d])")
_LONGEST = 160
#: What rules are drawn with; a bar between columns is none.
_RULE = " \t-=_~+"


def kind_of(text: str, is_name: IsName) -> Kind:
    """What a line of a column is."""
    # Another column may stand behind it.
    bare = _WIDE.split(text.strip(), 1)[0][:_LONGEST]
    if not bare or _is_code(bare):
        return "code" if bare else ""
    told = low(bare)
    if answer_of_cell(told) is not None and goingon.last_word(told) not in goingon.IN_DESCRIPTIONS:
        # "No messages from" goes on with a name, as descriptions do.
        return "answer"
    kind = _named(bare, is_name)
    if kind:
        return kind
    if status_of_head(told, False)[0] is not None:
        return "status"
    return "title" if heads_scan(told) else ""


def heads_scan(told: str) -> bool:
    """Whether a line in small letters may be the title of a scan: it tells when."""
    return phases.find(told) is not None or phases.scan_head(told) is not None or bool(dates.find(told))


def _is_code(bare: str) -> bool:
    """Whether a line begins with a code, behind its bullet, its number, a word for it or its status."""
    lead = _LEAD.match(bare)
    at = 0 if lead is None else lead.end()
    word = _WORD.match(bare, at)
    start = at if word is None else word.end()
    if _CODE.match(bare, start) is not None or (start > 0 and _OWN.match(bare, start) is not None):
        return True
    codes = find(bare).codes
    before = low(bare[start : codes[0].start]).strip(" :,(<[-") if codes else ""
    return bool(before) and states.of_cell(before) is not None


def _named(bare: str, is_name: IsName) -> Kind:
    """Whether a line is a name, alone or with what is said of it; "" for neither."""
    lead = _LEAD.match(bare)
    for text in dict.fromkeys((bare, bare if lead is None else bare[lead.end() :])):
        numbered = _NUMBERED.match(text)
        if numbered is not None and role_of(small(numbered[1])) == "module":
            text = text[numbered.end() :]
        marks = [(text[: mark.start()], text[mark.end() :].strip()) for mark in _MARK.finditer(text)]
        if any(rest and answer_of_cell(low(rest)) is not None and has_letter(name) and role_of(small(name)) is None
               for name, rest in marks):
            return "both"
        stated = stated_count(low(text))
        name = text if stated is None else text[: stated[1]]
        if _is_name(name[: count_at(name)], is_name):
            return "both" if stated is not None and not stated[0] else "name"
        for name, rest in marks:
            if _is_name(name, is_name):
                return "both" if rest else "name"
    return ""


def _is_name(text: str, is_name: IsName) -> bool:
    """Whether a text with marks around it is a name."""
    bare = text.strip(_AROUND)
    if bare[:1] == "[" and bare[-1:] == "]":
        bare = bare[1:-1]
    return has_letter(bare) and is_name(tidy(bare))


class Entry(NamedTuple):
    """A line of a column that holds something."""

    kind: Kind
    indent: int


#: The kind of a line of a column; kept for a text, whose columns are looked for at several places.
KindOf = Callable[[str], Kind]


def kinds(is_name: IsName) -> KindOf:
    """What the lines of columns are, each asked for once."""
    return cache(lambda text: kind_of(text, is_name))


def entries(parts: Sequence[str], kind: KindOf) -> list[Entry]:
    """What the lines of a column are, those that hold nothing, or are drawn, left out."""
    return [Entry(kind(text.strip()), len(text) - len(text.lstrip())) for text in parts if text.strip(_RULE)]


class Weighed(NamedTuple):
    """How many lines of a column are names, listed ones, names with what is said of them in the line or below it, and
    codes or answers; how many stand at its left edge, and how many of these are none of all that; what is first."""

    names: int
    known: int
    told: int
    said: int
    edge: int
    strange: int
    first: Kind


def weighed(found: Sequence[Entry]) -> Weighed:
    """What speaks for a column of entries being a list of modules with what is said of each."""
    depth = min((entry.indent for entry in found), default=0)
    names = known = told = said = edge = strange = 0
    first: Kind = ""
    for at, entry in enumerate(found):
        below: Kind = found[at + 1].kind if at + 1 < len(found) else ""
        goes_on = below in ("code", "answer", "status")
        kind = entry.kind
        if entry.indent > depth and kind not in ("code", "answer"):
            # What is set in deeper goes on with a description, whatever it names.
            continue
        edge += entry.indent == depth
        if not kind and goes_on and not (at and found[at - 1].kind == "code" and below == "code"):
            # A name that nobody lists.
            kind = "name"
        strange += not kind
        names += kind in ("name", "both")
        known += entry.kind in ("name", "both")
        told += kind == "both" or (kind == "name" and goes_on)
        said += kind in ("code", "both", "answer")
        first = kind if not at else first
    return Weighed(names, known, told, said, edge, strange, first)


__all__ = ["Entry", "Kind", "KindOf", "Weighed", "entries", "heads_scan", "kind_of", "kinds", "weighed"]
