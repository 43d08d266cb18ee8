"""An answer with the list of its modules in the middle of what somebody tells: "ABS has C0035, and no answer: radio and
dash. EPS is clean". The answer and its list get a row of their own, so that no other sentence shares its modules;
words that only lead on are left out before.

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in parted(rows_of("ABS has C0035, and no answer: radio, dash and EPS, ECM clean. 11.4 V"))]
['ABS has C0035', 'no answer: radio, dash and EPS', 'ECM clean. 11.4 V']
>>> [row.text for row in parted(rows_of("No answer: radio and dash\\nABS: C0035, no answer: 3 times"))]
['No answer: radio and dash', 'ABS: C0035, no answer: 3 times']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.lines.recut import is_as_pasted
from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, word_set
from triage.intake.said import volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.voltthings import is_rated
from triage.intake.tidying import linkwords

#: Where a clause begins, and the words that lead to it.
_BEGINS = lazily(rf"(?:[!?;,]|\.{NOT_SHORT}|\s-|\s//)\s+")
_LINKS = lazily(
    r"(?:(?:and|und|et|y|then|next|also|dann|danach|weiter|weiterhin|puis|ensuite|luego|despues(?! del?\s)|ademas|but|"
    r"aber|mais|pero|er|eh|ahm|euh|so|still|sonst)(?:,|\s)\s*)*")
_COLON = lazily(r"\s?:(?=\s)")
#: Between two names of a list, and what ends it.
_JOINT = lazily(
    r"(?P<last>,?\s(?:and|und|et|y|e|sowie)\s|\s?&\s?)|,\s+|\s/\s|;\s+(?=\S)|"
    r"(?P<end>[!?;](?=\s|$)|\.(?=\s|$)|\s//\s|$)")
#: "3 times", "(see above)", but "4x4 module", "360 camera".
_NO_NAME = lazily(r"(?!360\s)[0-9]{1,6}(?:\s|$)|[^\w\[]|_")
_ABBREVIATED = lazily(rf"\.{NOT_SHORT}(?=\s|$)|\.(?=\s*$)")
_LONGEST, _LONGEST_LEAD, _LONGEST_NAME, _MOST_WORDS, _MOST = 4000, 44, 44, 6, 40
_SIGN = signs.of_parts(": ")


def parted(rows: Sequence[Row]) -> list[Row]:
    """The rows, each with such a list among other sentences as what is before it, the list, and what is behind it.
    Linear."""
    rows = linkwords.left_out(rows)
    found: list[Row] = []
    done = 0
    for at in signs.places(rows, _SIGN):
        row = rows[at]
        if len(row.low) > _LONGEST or "\t" in row.text or "|" in row.text or row.aside or not is_as_pasted(row):
            continue
        if cuts := _cuts(row):
            found += [*rows[done:at], *(row.part(start, end) for start, end in cuts)]
            done = at + 1
    return [*found, *rows[done:]]


def _cuts(row: Row) -> list[tuple[int, int]]:
    """Where the parts of a row stand; none where it is a list alone, or has none."""
    parts: list[tuple[int, int]] = []
    at = 0
    for colon in list(_COLON.finditer(row.low))[:_MOST]:
        begin = max([at, *(match.end() for match in _BEGINS.finditer(row.low, at, colon.start()))])
        begin = match.end() if (match := _LINKS.match(row.low, begin, colon.start())) is not None else begin
        lead = row.low[begin : colon.start()]
        if begin < at or len(lead) > _LONGEST_LEAD or answer_of_cell(lead) is None:
            continue
        end = _end_of_list(row, colon.end())
        if end is not None:
            parts += [(at, begin), (begin, end)]
            at = end
    parts = [_trimmed(row, *part) for part in [*parts, (at, len(row.low))]]
    parts = [part for part in parts if part[0] < part[1]]
    return parts if len(parts) > 1 else []


def _trimmed(row: Row, start: int, end: int) -> tuple[int, int]:
    """A part without the marks and the linking words at its ends."""
    while start < end and row.low[start] in " ,;.-/":
        start += 1
    lead = _LINKS.match(row.low, start, end)
    start = lead.end() if lead is not None else start
    while True:
        bare = row.low[start:end].rstrip(" ,;-/")
        word = bare.rpartition(" ")[2] if bare.rpartition(" ")[2] in _ENDING else ""
        if len(bare) == end - start and not word:
            return start, end
        end = start + len(bare) - len(word)


_ENDING = word_set("and und et y also er eh ahm euh then next dann weiter puis ensuite luego despues")


def _end_of_list(row: Row, start: int) -> int | None:
    """Where a list of names ends that begins at a place; None where none begins there, or more is said of its last."""
    at, last, closed, mark = start, start, False, ""
    prose = ". " in row.low
    for _ in range(_MOST):
        joint = _joint(row.low, at)
        if not _is_item(row, at, joint.start()):
            # "No answer: radio, dash, EPS is clean" tells of another; what else stands there may be a name.
            return last if last > start and not closed and _tells(row, at, joint.start()) else None
        last = joint.start()
        # What stands between two names parts them all: "A, B; then C".
        # In a line without sentences a name with "and" in it goes on behind a comma.
        if joint["end"] is not None or (joint[0][0] == ";" and mark == ",") or (closed and (
                prose or _tells(row, joint.end(), _joint(row.low, joint.end()).start()))):
            return last
        closed = joint["last"] is not None
        mark = mark or joint[0][0]
        at = joint.end()
    return None


def _joint(low: str, at: int) -> re.Match[str]:
    """The next joint of a list; the point of a short form is none."""
    while True:
        joint = _JOINT.search(low, at)
        assert joint is not None  # the end of the text is one
        if joint[0] != "." or _ABBREVIATED.match(low, joint.start()) is not None:
            return joint
        at = joint.end()


def _is_item(row: Row, start: int, end: int) -> bool:
    """Whether nothing but a name stands in a place."""
    low = row.low[start:end].strip()
    if is_rated(low):
        return True
    if not low or len(low) > _LONGEST_NAME or len(low.split()) > _MOST_WORDS or _NO_NAME.match(low) is not None:
        return False
    return not _tells(row, start, end)


def _tells(row: Row, start: int, end: int) -> bool:
    """Whether a code, an answer, a voltage or a key stands in a place."""
    low = row.low[start:end]
    if is_rated(low):
        return False
    return any(start <= code.start < end for code in row.finds.codes) or ": " in f"{low} " or bool(
        spoken(low) or (has_digit(low) and volts.find(low)))


__all__ = ["parted"]
