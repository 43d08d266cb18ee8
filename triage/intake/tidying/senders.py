"""Chats without times, in which each message begins with its sender: "Ann: in the ABS there is C0035". Whoever tells of
modules again and again is none; the name is left out, as are those of others who ask or take note.

>>> from triage.intake.plain.characters import lines
>>> text = "Ann: before clear\\nAnn: the abs has C0035 stored\\nBen: and the rest?\\nAnn: no codes in the radio"
>>> def find(low): return [(at, at + len(name), True) for name in ("abs", "radio") if (at := low.find(name)) >= 0]
>>> [line.text for line in left_out(lines(text), lambda name: name == "ABS", find)]
['before clear', 'the abs has C0035 stored', 'and the rest?', 'no codes in the radio']
>>> text = "<Ann> the abs has C0035\\n<Ben> go on\\n<Ann> no codes in the radio"
>>> [line.text for line in left_out(lines(text), lambda name: name == "ABS", find)]
['the abs has C0035', 'go on', 'no codes in the radio']
>>> text = "Ann: C0035\\nAnn: C0040 signal of the abs\\nAnn: C0045 signal of the radio"
>>> [line.text for line in left_out(lines(text), lambda name: name == "ABS", find)][0]
'Ann: C0035'
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Sequence

from triage.intake.naming.heads import role_of
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.near import small
from triage.intake.tidying import hearsay
from triage.intake.words.phase_ways import PHASE_WORDS
from triage.intake.words.scan_words import counts_scans
from triage.intake.words.vocabulary import STATES

#: One name or two before the first colon of a line.
_HEAD = lazily(r"\s*(?P<name>[^\W\d_][^\W\d_'-]{1,14}(?:[ ][^\W\d_][^\W\d_'-]{0,14}\.?)?)\s?:\s+(?=\S)")
#: The same between angle brackets, as a chat of lines has it: "<Ann> ABS: C0035".
_ANGLED = lazily(r"\s*<(?P<name>[^\W\d_][^\W\d_'-]{1,14}(?:[ ][^\W\d_][^\W\d_'-]{0,14}\.?)?)>:?\s+(?=\S)")
#: A code, or its digits.
_CODED = lazily(r"[pcbu] ?[0-3ol][0-9a-fol]{3}|[0-9]{4}|spn\s?[0-9]")
_CODE = lazily(r"(?<![a-z0-9])(?:[pcbu] ?[0-3ol][0-9a-fol]{3}(?![a-z])|spn\s?[0-9])")
#: Before a name that is no more than said of: "the ABS".
_ARTICLE = lazily(r"(?:the|der|die|das|le|la|les|l'|el|los)?\s*")
#: Between a code and the module that it is in: "C0035 stored in the ABS".
_IN = lazily(r"(?<![a-z])(?:in|inside|bei|im|dans|en)(?: (?:the|der|dem|den|le|la|el|l'))? ?$")
#: What takes note and says no more, as it would of a module.
_NOTED = lazily(r"(?:ok(?:ay)?|k|vale|d'accord|gut|bien|fine|good)(?:[\s,.!]+|$)(?=[^:;/]{0,40}$)")
_FEWEST, _FEWEST_SAID = 3, 2
Find = Callable[[str], Sequence[tuple[int, int, bool]]]


def left_out(found: Sequence[Line], is_name: Callable[[str], bool], find: Find) -> list[Line]:
    """The lines without their senders. ``is_name``: likely names of modules; ``find``: those in running text.
    Linear."""
    if angled := _angled(found, is_name):
        return [reworded(line, 0, angled[at], "") if at in angled else line for at, line in enumerate(found)]
    heads = {at: match for at, line in enumerate(found) if ":" in line.text[:36] and (match := _HEAD.match(line.text))}
    said: defaultdict[str, list[int]] = defaultdict(list)
    for at, match in heads.items():
        said[match["name"]].append(at)
    if max(map(len, said.values()), default=0) < _FEWEST:
        return list(found)
    tellers = {name for name, places in said.items() if len(places) >= _FEWEST_SAID and _is_person(name, is_name)
               and _tells([small(found[at].text[heads[at].end() :]) for at in places], find)}
    if not any(len(said[name]) >= _FEWEST for name in tellers):
        return list(found)
    kept = list(found)
    for at, match in heads.items():
        if match["name"] in tellers:
            kept[at] = reworded(found[at], 0, match.end(), "")
            continue
        low = small(found[at].text[match.end() :])
        noted = _NOTED.match(low)
        end = noted.end() if noted is not None else 0
        if not (_CODED.search(low) or spoken(low[end:]) or find(low)) and _is_person(match["name"], is_name):
            kept[at] = reworded(found[at], 0, match.end() + end, "")
    return kept


def _angled(found: Sequence[Line], is_name: Callable[[str], bool]) -> dict[int, int]:
    """Where the messages begin behind senders between angle brackets, behind an "ok" that only takes note too; empty
    where no sender comes again or one is a module."""
    heads = {at: match for at, line in enumerate(found) if "<" in line.text[:8] and (match := _ANGLED.match(line.text))}
    said = Counter(match["name"] for match in heads.values())
    if len(heads) < _FEWEST or max(said.values()) < _FEWEST_SAID or not all(_is_person(name, is_name) for name in said):
        return {}
    ends = {}
    for at, match in heads.items():
        noted = _NOTED.match(small(found[at].text), match.end())
        ends[at] = noted.end() if noted is not None else match.end()
    return ends


def _is_person(name: str, is_name: Callable[[str], bool]) -> bool:
    """Whether words before a colon may be a name of somebody: they are no module, no key, no answer and no status, and
    head no scan."""
    low = small(name)
    return not (signs.of(low) & PHASE_WORDS or counts_scans(low) or role_of(low) is not None or is_name(name)
                or answer_of_cell(low) is not None or STATES.find(low) or hearsay.remark_end(f"{low}: "))


def _tells(said: Sequence[str], find: Find) -> bool:
    """Whether messages are those of somebody who tells of modules: most name one before its codes or its answer, or
    tell when a scan was taken; one has codes, and in one words stand before the name."""
    told = phase = led = coded = 0
    for low in said:
        named = find(low)
        if not named or _CODED.search(low, 0, named[0][0]) is not None:
            phase += phases.find(low) is not None or phases.scan_head(low) is not None
            told += bool(named) and _IN.search(low, 0, named[0][0]) is not None
            continue
        code = _CODE.search(low, named[0][1]) is not None
        if not code and not spoken(low):
            continue
        told += 1
        coded += code
        led += low[: named[0][0]].strip() != "" and _ARTICLE.fullmatch(low, 0, named[0][0]) is None
    return told >= _FEWEST_SAID and coded > 0 and led + phase > 0 and 2 * (told + phase) >= len(said)


__all__ = ["left_out"]
