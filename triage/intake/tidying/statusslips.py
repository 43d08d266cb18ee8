"""Slips of the pen written as the words that were meant, right before the rows are read, so that every reader sees
these: statuses in the line of a code ("P0562 stord", "P0118-00 in ECM (curent)", "C0287 actve"), and the phrases of
:mod:`triage.intake.said.phraseslips` in any line ("no respons", "befor clear").

Only a word beside a code, beside a mark or last in its line is a status: descriptions hold words like them.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in mended(lines("P0562 stord, P0563\\nC0035 in ABS (curent)\\nP0340 the scored wheel\\nstord"))]
['P0562 stored, P0563', 'C0035 in ABS (current)', 'P0340 the scored wheel', 'stord']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from triage.intake.lines.spacing import with_word
from triage.intake.plain import signs
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.plain.remember import LONGEST
from triage.intake.said import phraseslips, states

#: With letters for figures too ("PO335", "P06l5"), or a space behind the first.
_A_CODE = r"[pcbu] ?(?=[a-z]{0,3}[0-9])[0-3oil][0-9a-foils]{3}"
#: First in a line a maker's own number, of five digits or in hexadecimal ones, is a code as well.
_CODE = lazily(
    rf"(?<![^\W_]){_A_CODE}(?:-?[0-9a-foils]{{2}})?(?![^\W_])|(?<![a-z])fmi|"
    r"^\W*(?:[a-z]{1,4}[:=]\s?)?(?:[0-9]{5}|(?=[0-9]*[a-f])(?=[a-f]*[0-9])[0-9a-f]{4,6})(?=[^\w.,-])")
_WORD = lazily(r"(?<![^\W_])[a-z]{5,14}(?![^\W_])")
#: A mark that a word of a status stands behind or before, and a code.
_AFTER = lazily(
    r"(?:[,;:|=()\[\]>\t/*_`~-]|\.\.|(?<![a-z])(?:not|no|nicht|pas|non|all|al|both|is|now|still|as|as an?|als|comme|"
    r"como))\s*$")
_BEFORE = lazily(rf"\s*(?:$|[,;|=()\[\]\t/*_`~-]|[:.](?:[\s.]|$)|{_A_CODE})")
_BEHIND_CODE = lazily(rf"{_A_CODE}(?:\s?[-:]?[0-9a-f]{{2}}|\s?[(\[][0-9a-f]{{2}}[)\]])?\s*$")
#: "Hst" behind a code with a name before it. In capitals, or before a code, it is the hydrostatic transmission.
_HISTORY = lazily(
    r"[^\s-](?: (?:[|-] )?|[;|,\t])[PCBUpcbu][0-3][0-9A-Fa-f]{3}(?:[-:]?[0-9A-Fa-f]{2})?(?: (?:[|-] )?|[;|,\t])(hst)"
    r"(?=\s*(?:$|[,;|)\t]))"
)
#: Words of their own that are a letter off.
_REAL = word_set("scored stared shored sorted stores native motive octave presence presents presented currents")
_REACH = 24
#: So many lines below its code a status may stand; marks around one that is alone in its line.
_NEAR, _MARKS = 4, " ()[]-*"
#: A word that one letter parts from a status, or "hst".
_SIGN = signs.of_words(lambda word: len(word) > 4 and word.isalpha() and states.slip_for(word)) | signs.of_parts("hst")


def mended(found: Sequence[Line], is_name: Callable[[str], bool] = lambda name: False) -> Sequence[Line]:
    """The lines, those with a code with the statuses that were meant. ``is_name``: listed names."""
    kept: list[Line] | None = None
    for at in signs.places(found, _SIGN | phraseslips.SIGN):
        line = found[at]
        low = line.low
        if len(low) > LONGEST:
            continue
        slips = [slip for slip in phraseslips.places(low) if not is_name(line.text[slip[0] : slip[1]])]
        if signs.of(low) & _SIGN and _CODE.search(low) is not None:
            taken = {start for start, _, _ in slips}
            found_here = (match for match in _WORD.finditer(low) if match.start() not in taken)
            slips += [(*match.span(), meant) for match in found_here if (meant := _meant(line, match, is_name))]
            slips += [(*match.span(1), "hist") for match in _HISTORY.finditer(line.text) if "hst" in line.text]
        elif signs.of(low) & _SIGN and not slips and (alone := _alone(found, at)) is not None:
            slips.append(alone)
        for start, end, meant in sorted(slips, reverse=True):
            line = with_word(line, start, end, meant)
        if slips:
            kept = kept or list(found)
            kept[at] = line
    return kept or found


def _alone(found: Sequence[Line], at: int) -> tuple[int, int, str] | None:
    """The place of a word alone in its line, a line below a code, and what it is meant for, where the text holds a
    line that is that very status, or another one, below a code as well."""
    low = found[at].low
    match = _WORD.fullmatch(low.strip())
    meant = states.slip_for(match[0]) if match is not None and match[0] not in _REAL else None
    if match is None or meant is None or not any(
            _CODE.search(line.low) is not None for line in found[max(0, at - _NEAR) : at]):
        return None
    start = low.index(match[0])
    told = any(line is not found[at] and states.of_cell(line.low.strip(_MARKS)) is not None for line in found)
    return (start, start + len(match[0]), meant) if told else None


def _meant(line: Line, match: re.Match[str], is_name: Callable[[str], bool]) -> str | None:
    """The status that a word of a line is meant for; None for any other word."""
    low, word = line.low, match[0]
    meant = states.slip_for(word) if word not in _REAL else None
    if meant is None:
        return None
    before = low[max(0, match.start() - _REACH) : match.start()]
    beside = _AFTER.search(before) or _BEHIND_CODE.search(before) or _BEFORE.match(low, match.end())
    # "Injector restricted stord telematics unit"
    return meant if beside or is_name(line.text[match.end() :].strip()) else None


__all__ = ["mended"]
