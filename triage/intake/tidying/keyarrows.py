"""Arrows and rows of dots between a key and its value, as the colons that they stand for: "Module -> ABS", "Result =>
no codes", "Present..... yes", a colon behind the dots or not.

>>> from triage.intake.plain.characters import lines
>>> text = "Module -> ABS\\nResult -> no codes\\nU0100 -> U0121\\nText \u2192 a -> b"
>>> [line.text for line in written_out(lines(text))]
['Module : ABS', 'Result : no codes', 'U0100 -> U0121', 'Text : a -> b']
>>> text = "[ABS]\\nResult -> no codes\\n[Radio]\\nFault 1 -> stored - U0100"
>>> [line.text for line in written_out(lines(text))]
['[ABS]', 'Result : no codes', '[Radio]', 'Fault 1 : stored - U0100']
>>> [line.text for line in written_out(lines("ABS: C0035\\ncluster, gearbox ....... nil"))]
['ABS: C0035', 'cluster, gearbox: nil']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import finds_of
from triage.intake.naming.heads import role_of
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import answer_of_cell

_KEY = lazily(r"\s*([^\W\d][^:=|>;\t]{0,30}?)\s*((?:[-=]{1,2}>|(?<=\s)>|(?:\.\s?){3,40}:?)\s*)(?=[^\s>.])")
_INSIDE = lazily(r"(?<=[^\W_])\.{3,40}:(?=\s|$)")
_SIGN = signs.of_parts(">", "...", ". . .")
#: A name of words before dots.
_NAME = lazily(r"(?:[0-9]{1,2}[:.][0-9]{2}\s)?[^:=|;\t.]{0,80}[a-z0-9)\]](\s+\.{2,4}\s+)(?=\S)")
#: Several names before dots.
_LIST = lazily(r"\s*[^\W\d][^:=|;\t.]{1,80},\s[^:=|;\t.]{1,80}?(\s*\.{3,60}\s*)(?=[^\s.])")
_LIST_SIGN = signs.of_parts("...")
_DOTS = signs.of_parts(" .. ", " ... ", " .... ")
#: A section: "[Gearbox ECU]".
_SECTION = lazily(r"\s*\[[^\W\d][^\[\]:=]{1,60}\]\s*")
#: The keys of a module's own section.
_ANSWERS = frozenset({"answer", "reply", "code", "status"})
_FEWEST = 2
#: What the key of an address leads to, whatever else its word may mean: "Dirección -> 0x5B".
_ADDRESS = lazily(r"(?:0x|\$)?(?=[a-f]*[0-9])[0-9a-f]{1,4}h?\s*$")


def written_out(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with colons for such arrows and dots, and for those between a list of names and its answer."""
    return _after_lists(_after_keys(found))


def _after_lists(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with colons for the dots between several names and one answer: "cluster, gearbox .... no codes"."""
    mended: list[Line] | None = None
    for at in signs.places(found, _LIST_SIGN):
        match = _LIST.match(found[at].text)
        if match is not None and answer_of_cell(found[at].low[match.end() :].strip()) is not None:
            mended = mended or list(found)
            mended[at] = reworded(found[at], *match.span(1), ": ")
    return mended or found


def _after_keys(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with colons for such arrows, where several lines have one and a key for modules is among them, or the
    names stand in sections above; for rows of dots in all lines then: "Present..... yes"."""
    keys = {}
    dotted = {}
    addressed = {}
    roles = set()
    for at in signs.places(found, _SIGN):
        match = _KEY.match(found[at].text)
        role = role_of(found[at].low[match.start(1) : match.end(1)], exactly=True) if match is not None else None
        if match is None:
            continue
        if match[2].startswith("."):
            dotted[at] = match, role
        elif role is not None:
            keys[at] = match
            roles.add(role)
        elif _ADDRESS.match(found[at].low, match.end()) is not None:
            addressed[at] = match
    named = "module" in roles and len(roles) >= _FEWEST
    if len(keys) < _FEWEST or not (named or (not _ANSWERS.isdisjoint(roles) and _in_sections(found))):
        keys = {}
    if {"module", "code"} <= {role for _, role in dotted.values()}:
        keys |= {at: match for at, (match, _) in dotted.items()}
    if (behind := _before_codes(found)) and not keys:
        return behind
    if not keys:
        return found
    mended = list(found)
    for at, match in (keys | addressed).items():
        mended[at] = reworded(found[at], *match.span(2), ": ")
    return [_undotted(line) if ".:" in line.text else line for line in mended] if dotted else mended


def _undotted(line: Line) -> Line:
    """A line without the dots before the colons of further keys in it: "code: C0035, active....: yes"."""
    for match in reversed(list(_INSIDE.finditer(line.text))):
        line = reworded(line, *match.span(), ":")
    return line


def _in_sections(found: Sequence[Line]) -> bool:
    """Whether several lines are nothing but a name in square brackets, which the keys below them are of."""
    return sum(_SECTION.fullmatch(line.text) is not None for line in found) >= _FEWEST


def _before_codes(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with colons for the dots between a name and its codes or its answer, where several are so written:
    "Quux unit ... P0562 (stored)"; nothing where they are not."""
    places: dict[int, tuple[int, int]] = {}
    coded = 0
    for at in signs.places(found, _DOTS):
        match = _NAME.match(found[at].low)
        if match is None:
            continue
        codes = finds_of(found[at], found[at].text[match.end() :], found[at].low[match.end() :]).codes
        begins = bool(codes) and not codes[0].start
        if begins or answer_of_cell(found[at].low[match.end() :]) is not None:
            places[at] = match.span(1)
            coded += begins
    if coded < _FEWEST:
        return ()
    return [reworded(line, *places[at], ": ") if at in places else line for at, line in enumerate(found)]


__all__ = ["written_out"]
