"""Sections of keys headed by a name in brackets of its own line, as files of settings have them: the name gets the key
for modules, whoever it may be.

>>> from triage.intake.plain.characters import lines
>>> text = "[ABS Brakes [ESC]]\\ncode1 = C0035\\n\\n[Loader arm]\\nresult = no answer\\n[Scan 2]\\nvolts = 12.1"
>>> [line.text for line in named(lines(text)) if line.text]
['module: ABS Brakes [ESC]', 'code1 = C0035', 'module: Loader arm', 'result = no answer', '[Scan 2]', 'volts = 12.1']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, has_letter, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, phases, states
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.listheads import status_of_head

_HEAD = lazily(r"\s*(?:\[{1,2}|\{|<)\s*([^\W_](?:[^][{}<>|=]|\[[^][]{1,12}\]){0,70}?)\s*(?:\]{1,2}|\}|>)\s*")
_PAIR = lazily(r"[\s*\u2022-]*([^\s=:][^=:]{0,30}?)\s*[=:]\s*\S")
#: Keys of what is told of a module or of its codes.
_OF_MODULES = frozenset(("code", "spn", "answer", "reply", "count"))
_FEWEST, _NEAR, _KEY = 2, 8, "module: "


def named(found: Sequence[Line]) -> list[Line]:
    """The lines, each such heading with a key before its name. Linear."""
    heads = {at: match for at, line in enumerate(found)
             if line.text.lstrip()[:1] in ("[", "{", "<") and (match := _HEAD.fullmatch(line.text)) is not None}
    told = {at: match for at, match in heads.items() if _is_keyed(found, at) and _may_name(match[1])}
    if len(told) < _FEWEST or 2 * len(told) < len(heads):
        return list(found)
    return [_with_key(line, *told[at].span(1)) if at in told else line for at, line in enumerate(found)]


def _is_keyed(found: Sequence[Line], at: int) -> bool:
    """Whether a key of a module or its codes, with its value, stands below a line, and nothing but other keys between,
    as those of its numbers and its address."""
    for line in found[at + 1 : at + 1 + _NEAR]:
        if not line.text.strip():
            continue
        pair = _PAIR.match(line.low)
        if pair is None:
            return False
        if role_of(pair[1]) in _OF_MODULES:
            return True
    return False


def _may_name(text: str) -> bool:
    """Whether a text in brackets may be a name: no scan, date, status or answer."""
    low = text.lower()
    return has_letter(text) and phases.find(low) is None and phases.scan_head(low) is None and not (
        dates.places(low)) and (
        states.of_cell(low) is None and status_of_head(low, False)[0] is None and answer_of_cell(low) is None
        and role_of(low) is None)


def _with_key(line: Line, start: int, end: int) -> Line:
    """A heading with its key in place of the bracket before its name, and without that behind it."""
    return reworded(reworded(line, end, len(line.text), ""), 0, start, _KEY)


__all__ = ["named"]
