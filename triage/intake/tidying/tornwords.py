"""Words that a wrap tore, with a hyphen or without, and those that a stray space parts: joined where what comes out is
a word of an answer, a status, the supply or a module's name, and not both parts are words themselves.

>>> from triage.intake.plain.characters import lines
>>> text = "Gauges  no respo\\nnse\\nSupply volt\\nage 11.7 V\\nEngine Contro l Module\\n4X4  not instal\\nled"
>>> [line.text for line in joined(lines(text), {"module", "engine", "control"}.__contains__)]
['Gauges  no response', 'Supply voltage 11.7 V', 'Engine Control Module', '4X4  not installed']
>>> [line.text for line in joined(lines("ABS no\\ncodes\\nDoor s\\nair\\nbag ok"), {"air", "bag"}.__contains__)]
['ABS no', 'codes', 'Door s', 'air', 'bag ok']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.lines.glue import lines_glued
from triage.intake.lines.spacing import with_places
from triage.intake.plain import signs
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.words.answerwords import EVERY

#: The last word of a line, and the first in small letters of the next.
_END = lazily(r"(?<![\w.'/-])([a-z]{1,14})-?$")
_BEGIN = lazily(r"[a-z]{1,14}(?![\w'/-])")
#: Two words with one space between them.
_PAIR = lazily(r"(?<![\w.'/-])([a-z]{1,14}) (?=([a-z]{1,14})(?![\w'/-]))")
#: What else is said of codes, modules and the supply.
_WORDS = EVERY | word_set("""
    awaiting waiting confirmation failing failed malfunction previously currently longer
    stored pending confirmed active inactive current live history historic permanent intermittent present absent
    installed equipped fitted supply voltage battery alternator cranking terminal status active module control system
    gespeichert aktiv inaktiv statisch permanent temporar sporadisch
    ausstehend bestatigt vorhanden verbaut spannung batterie batteriespannung
    bordspannung versorgung memorise present confirme intermittent tension alimentation almacenado presente confirmado
    pendiente tension bateria alimentacion
""")
_SHORTEST, _LONGEST, _ABBREVIATION = 5, 300, 3
#: They stand alone as words, or number what stands before them.
_ALONE = frozenset("aeiouyx")

IsWord = Callable[[str], bool]


def joined(found: Sequence[Line], of_a_name: IsWord) -> list[Line]:
    """The lines with such words whole. ``of_a_name``: words of listed names. Linear."""

    def known(word: str) -> bool:
        return word in _WORDS or of_a_name(word)

    mended: list[Line] = []
    for line in found:
        above = mended[-1] if mended else None
        if above is not None and _is_torn(above, line, known):
            end, start = len(above.text.rstrip().removesuffix("-")), len(line.text) - len(line.text.lstrip())
            mended[-1] = lines_glued(above, line, "", end=end, start=start)
        else:
            mended.append(line)
    pairs = set(_PAIR.findall(signs.whole(mended)))
    torn = [f"{first} {last}" for first, last in pairs if _is_one(first, last, known)]
    if not torn:
        return mended
    return [_closed(line, known) if any(pair in line.low for pair in torn) else line for line in mended]


def _is_torn(above: Line, line: Line, known: IsWord) -> bool:
    """Whether a word begins at the end of a line and ends at the start of the next."""
    text, low = line.text.lstrip(), above.low.rstrip()
    if not text[:1].islower() or not (low[-1:].isalpha() or low[-1:] == "-") or len(above.text) + len(text) > _LONGEST:
        return False
    end, begin = _END.search(low, max(0, len(low) - 16)), _BEGIN.match(line.low, len(line.low) - len(text))
    if end is None or begin is None or begin[0] in _ALONE or not known(end[1] + begin[0]):
        return False
    if low[-1] == "-" and end[1] + begin[0] not in _WORDS:
        # "Anti-" above "lock brakes" has its hyphen of its own.
        return False
    # Two abbreviations that make a word together, "cam" and "era", are its halves.
    short = max(len(end[1]), len(begin[0])) <= _ABBREVIATION or low[-1] == "-"
    return len(end[1] + begin[0]) >= _SHORTEST and (short or not (known(end[1]) and known(begin[0])))


def _is_one(first: str, last: str, known: IsWord) -> bool:
    """Whether two words are one with a space in it: neither is a word."""
    whole = first + last
    return len(whole) >= _SHORTEST and known(whole) and not any(
        len(part) > 1 and known(part) for part in (first, last))


def _closed(line: Line, known: IsWord) -> Line:
    """A line without the spaces inside words."""
    if len(line.text) > _LONGEST:
        return line
    gaps = {
        match.end(1) for match in _PAIR.finditer(line.low) if _is_one(match[1], match[2], known)
    }
    return with_places(line, [at for at in range(len(line.text)) if at not in gaps]) if gaps else line


__all__ = ["joined"]
