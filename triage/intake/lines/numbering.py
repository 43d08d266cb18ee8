"""Numbers that only count the lines they stand before: "1 Engine", "2 Gearbox", taken off where they run on.

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("1 Engine\\n  P0562\\n2 02-Gearbox\\n  no codes\\n3 ABS\\n12 V supply")
>>> [row.text for row in unnumbered(found)]
['Engine', 'P0562', '02-Gearbox', 'no codes', 'ABS', '12 V supply']
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from triage.intake.codes.ownnumbers import TOKEN
from triage.intake.lines.recut import behind_number, is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain import signs
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words, word_set
from triage.intake.said import phases
from triage.intake.words.wordings import CODES

_NUMBERED = lazily(r"([0-9]{1,2})(?:[ \t]{1,3}(?=[^\W_])|[.)\]](?=[^\W_\d]))")
_CELL = lazily(r"[0-9]{1,2}\t")
#: The number of a code, and a maker's own number behind it.
_ENTRY, _OWN = lazily(r"([0-9]{1,2})[ \t]{1,3}(?=[^\W_])"), lazily(TOKEN)
#: The same with a letter or a Roman number.
_LETTERED = lazily(r"[(\[]?([a-z]|[ivx]{1,5})[.)\]][ \t]{1,3}(?=[^\W_])")
_ROMAN = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii")
#: A number that is glued to what it counts, codes behind that or not: "1)ecm p0562", "(2)abs", "3.P0562 ecm".
_GLUED = lazily(r"[(\[]?([0-9]{1,2})[)\].](?=[^\W\d_])")
#: Words for the place of a line in its list.
_OF_LINES = "(?:no|nr|n°|num|pos|item|line|row|entry|lfd|zeile|ligne|linea|position)"
_LINE_WORD = lazily(rf"{_OF_LINES}(?![a-z])")
#: A number that only counts, whatever stands behind it: "[2] Gearbox", "2/5 Gearbox: P0700", "Mod. 2 Gearbox".
_COUNTING = lazily(
    r"(?:[\[(#]\s?([0-9]{1,2})\s?[\])]?\s+|([0-9]{1,2})\s?(?:/|of|von|de|sur)\s?[0-9]{1,2}[.:)]?\s+|"
    r"(?:mod|module?|modulo|ecu|system|sys|unit|stg|steuergerat|calc|calculateur|ug|centralita)\.?\s?(?:no\.?|nr\.?|n°)?\s?"
    r"([0-9]{1,2})(?:\s?(?:/|of|von|de|sur)\s?[0-9]{1,2})?[.:)]?\s+|"
    rf"{_OF_LINES}\.?\s?(?:nr\.?\s?)?([0-9]{{1,2}})\s?[.:)]\s+)"
    r"(?=(?:[=*-]{2,3} )?[^\W\d_])"
)
#: A key with the name alone behind it, read as a key however unheard of the name is: "Module 2: salt spreader".
_COUNTED_KEY = lazily(
    r"([a-z][a-z ]{1,22} [0-9]{1,2})\s?[:=]\s*(?=[^\W\d_])[^:=|;,\t()\[\]]{2,48}")
#: Which of how many modules a name is, behind it: "Engine (1 of 6) - 2 codes", "Gearbox 2/6: P0700".
_OF_ALL = lazily(
    r"(?:\s*[(\[]\s?|\s*[,:-]\s*|\s+)([0-9]{1,2})\s?(?:/|of|von|de|sur|di|van)\s?([0-9]{1,2})(?:\s?[)\]]|(?![\w./]))"
    r"(?=\s*(?:$|[-:(,\u2013|]|\s\s))"
)
#: What pages are called beside their number.
_PAGES = word_set("page pages pag pagina seite blatt sheet feuille hoja")
_OF = ("/", " of ", " von ", " de ", " sur ", " di ", " van ")
_SIGN = signs.of_words(frozenset(mark.strip() for mark in _OF).__contains__) | signs.of_parts("/")
_CELL_END = lazily(r"\t|\s\s|;|\s-\s")
_LONGEST = 60
#: "Fault 1", "DTC no. 2 -": which of its module's codes follows.
_COUNTED = lazily(rf"\s*{CODES}\s?(?:no\.?|nr\.?|n°|#)?\s?[0-9]{{1,2}}[.)]?\s+(?:-\s+)?")
_AMOUNT = lazily(
    r"(?:codes?|dtcs?|faults?|errors?|fehler\w*|defauts?|averias?|fallos?|modules?|ecus?|units?|v|volts?|km|mi|miles|min|"
    r"h|hours?|x|times|mal|fois|veces|of|von|de|rpm|bar|c|mm|years?|days?|steuergerate|calculateurs)(?![a-z])"
)


def unnumbered(rows: Sequence[Row]) -> list[Row]:
    """The rows, those that are numbered 1, 2, 3 and so on without their number."""
    # "#2 scan, 12.1 V" counts the scans.
    found = [(at, match) for at, row in enumerate(rows) if (match := _match(row)) is not None
             and not (row.text.startswith("#") and phases.scan_head(row.low) is not None)]
    if any(row.finds.codes and _CELL.match(row.text) for row in rows):
        # A column of the table: the number of the scan, or of the row, which the rows with codes keep.
        found = [(at, match) for at, match in found if _CELL.match(rows[at].text) is None]
    runs: list[dict[int, int]] = [{}]
    again: dict[int, tuple[int, int]] = {}
    for at, match in found:
        if _number(match) == 1 and len(runs[-1]) > 1:
            # The next scan counts its modules anew.
            runs.append({})
        last = next(reversed(runs[-1]), None)
        if _number(match) == len(runs[-1]) + 1:
            runs[-1][at] = match.end()
        elif last is not None and _number(match) == len(runs[-1]) and (
            _first_cell(rows[at], match.end()) == _first_cell(rows[last], runs[-1][last])
        ):
            # Each row of a module has its number.
            again[at] = match.end(), last
    run = {at: end for each in runs if len(each) > 1 and _tell_apart(rows, each) for at, end in each.items()}
    run |= {at: end for at, (end, first) in again.items() if first in run}
    run = run if len(run) >= 0.5 * len(found) else {}
    # "3)climate": a bracket right before a name belongs to no name, whatever numbers are left out.
    run |= {at: match.end() for at, match in found if match[0][-1:] in (")", "]")}
    run |= _before_codes(rows)
    run = {at: end for at, end in run.items() if not _is_key(rows[at])}
    if not run:
        return list(rows)
    return [behind_number(row, run[at]) if at in run else row for at, row in enumerate(rows)]


def _is_key(row: Row) -> bool:
    """Whether a row is the key of a counted module and its name alone."""
    key = _COUNTED_KEY.fullmatch(row.low) if not row.finds.codes else None
    return key is not None and role_of(key[1]) == "module"


def _before_codes(rows: Sequence[Row]) -> dict[int, int]:
    """Where the numbers end that count the codes of each module before makers' own ones, as in other rows before
    standard ones or such: "1 18927 | stored", "2 U0100 | active", "1 18930 | stored". By the place of the row."""
    return {at: end for entry in (_ENTRY, _LETTERED) for at, end in _running(rows, entry).items()}


def _running(rows: Sequence[Row], entry: re.Pattern[str]) -> dict[int, int]:
    """The same of one way to count; with letters and Roman numbers too: "a) 18927 stored", "(ii) 9A12B4 active"."""
    found: dict[int, int] = {}
    last = counted = 0
    for at, row in enumerate(rows):
        match = entry.match(row.text) if row.text[:1] and not row.head else None
        if match is None or (row.finds.codes and row.finds.codes[0].start != match.end()) or (
                not row.finds.codes and _OWN.match(row.text, match.end()) is None):
            continue
        # The first one may be told otherwise, or lost.
        first = (1, 2) if match[1].isalpha() else (1,)
        number = next((number for number in _counted(match[1]) if number in (*first, last + 1)), 0)
        if not number:
            # An address, or how often something was there.
            return {}
        last, counted = number, counted + 1
        if not row.finds.codes:
            found[at] = match.end()
    return found if counted > 1 else {}


def _counted(text: str) -> Iterator[int]:
    """What a number, a letter or a Roman number may count."""
    if text.isdigit():
        yield int(text)
    elif text in _ROMAN:
        yield _ROMAN.index(text) + 1
    if len(text) == 1 and text.isalpha():
        yield ord(text) - ord("a") + 1


def uncounted(rows: Sequence[Row]) -> list[Row]:
    """The rows, those that begin with the number of their code ("Fault 2   P0401") without it.

    >>> from triage.intake.lines.rows import rows_of
    >>> [row.text for row in uncounted(rows_of("Fault 1   P2463   Soot\\nDTC no. 2 P0401 flow\\nCode 1: P0401"))]
    ['P2463   Soot', 'P0401 flow', 'Code 1: P0401']
    """
    found = list(rows)
    for at, row in enumerate(found):
        start = row.finds.codes[0].start if row.finds.codes else 0
        if 5 < start < _LONGEST and _COUNTED.fullmatch(row.low, 0, start) is not None:
            found[at] = row.part(start)
    return found


def unfinished(rows: Sequence[Row]) -> list[Row]:
    """The rows, those whose names are followed by their place among all of them ("Engine (1 of 6)") without it.

    >>> from triage.intake.lines.rows import rows_of
    >>> [row.text for row in unfinished(rows_of("Engine (1 of 3) - 2 codes\\nABS (2 of 3): P0562\\nScan 1 of 2"))]
    ['Engine - 2 codes', 'ABS: P0562', 'Scan 1 of 2']
    >>> [row.text for row in unfinished(rows_of("Camera (1 of 2): U0100\\nCamera (2 of 2): U0100"))]
    ['Camera (1 of 2): U0100', 'Camera (2 of 2): U0100']
    """
    runs: dict[int, list[tuple[int, re.Match[str]]]] = {}
    for at in signs.places(rows, _SIGN):
        match = _place_of_all(rows[at])
        if match is None:
            continue
        run = runs.setdefault(int(match[2]), [])
        if not run or int(match[1]) > int(run[-1][1][1]) or int(match[1]) == 1:
            run.append((at, match))
    found = list(rows)
    for total, run in runs.items():
        named = [rows[at].low[: match.start()].strip() for at, match in run]
        numbers = [int(match[1]) for _, match in run]
        if (len(run) > 1 or total == 1) and (len(set(named)) == len(named) or len(set(numbers)) < len(numbers)):
            for at, match in run:
                found[at] = without(rows[at], match.span())
    return found


def _place_of_all(row: Row) -> re.Match[str] | None:
    """The place among all modules behind the name that a row begins with; None where none stands there."""
    stop = min(row.finds.codes[0].start if row.finds.codes else len(row.text), _LONGEST)
    head = row.low[:stop]
    if not head[:1].isalpha() or not has_digit(head) or not any(sign in head for sign in _OF):
        return None
    match = _OF_ALL.search(row.low, 2, stop) if is_as_pasted(row) else None
    if match is None or not 0 < int(match[1]) <= int(match[2]):
        return None
    name = row.low[: match.start()]
    if not _PAGES.isdisjoint(plain_words(name)[-1:]):
        return None
    return match if phases.find(name) is None and phases.scan_head(name) is None and role_of(name) is None else None


def _tell_apart(rows: Sequence[Row], run: dict[int, int]) -> bool:
    """Whether the lines of a run differ without their numbers: "Module 1 Engine", "Module 2 Engine" need theirs."""
    names = [_named(rows[at], end) for at, end in run.items()]
    # "no 3:" only counts the lines of a list.
    return len(set(names)) == len(names) or not any(
        rows[at].text[:1].isalpha() and _LINE_WORD.match(rows[at].low) is None for at in run)


def _named(row: Row, end: int) -> str:
    """What stands behind the number of a row, up to a code or a colon."""
    stop = row.finds.codes[0].start if row.finds.codes else len(row.low)
    return row.low[end:stop].split(":")[0].strip()


def _first_cell(row: Row, end: int) -> str:
    """What stands behind the number of a row, up to the next cell."""
    return _CELL_END.split(_named(row, end), maxsplit=1)[0].strip()


def _number(match: re.Match[str]) -> int:
    """The number that was found."""
    return int(next(group for group in match.groups() if group is not None))


def _match(row: Row) -> re.Match[str] | None:
    """The number before the text of a row; no amount of something."""
    if not row.text or (row.text[0].isdigit() and "|" in row.text):
        return None
    if row.text[0] in "[(#" or row.text[:1].isalpha() or row.finds.codes:
        first = row.text[0] in "[(#0123456789mMeEsSuUcCnNpPiIlLrRzZ"
        return _COUNTING.match(row.low) or _GLUED.match(row.low) if first else None
    if not "0" <= row.text[0] <= "9":
        return None
    if (match := _COUNTING.match(row.low)) is not None:
        return match
    match = _NUMBERED.match(row.text)
    return None if match is None or is_amount(row.low, match.end()) else match


def is_amount(low: str, end: int) -> bool:
    """Whether a number that ends at a place, or with the gap behind it, counts or measures something: "2 faults"."""
    return _AMOUNT.match(low, end) is not None
