"""Idents: the numbers by which a module tells its software, hardware or part, behind its name in a heading.

>>> from triage.intake.lines.rows import rows_of
>>> rows = rows_of("Radio HW 88-10 SW unknown\\nABS (HW 2201, SW n/a): no codes\\nDash, part no. n.a.: B1000")
>>> [row.text for row in taken_off(rows)]
['Radio', 'ABS: no codes', 'Dash: B1000']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain import signs
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words, word_set, words
from triage.intake.plain.remember import remembered

#: Groups of digits and capital letters behind a wide gap, to the end of the line.
_COLUMN = lazily(r"(?:\s{2,}|\t)\s*((?:[A-Z0-9]{1,12}[ ./-]){0,7}[A-Z0-9]{1,12})$")
#: The same joined by hyphens, a letter among them: no date.
_GROUP = r"(?:[A-Z]{0,2}[0-9]{1,8}[A-Z]{0,2}|[A-Z]{1,2})"
_HYPHENED = lazily(rf"\s(?=[0-9-]*[A-Z])({_GROUP}(?:-{_GROUP}){{2,4}})$")
_FEWEST_DIGITS = 6

_IDENTS = word_set(
    "n sw hw fw software hardware firmware part parts no nr number version ver cal calibration id serial sn pn rev "
    "revision stand teilenummer teile teilenr teilnummer ref reference softwarestand hardwarestand index sachnummer "
    "sachnr artikelnummer bestellnummer seriennummer softwareversion hardwareversion datenstand codierung coding "
    "numero num piece pieza pieces piezas serie serien referencia reff logiciel materiel programa spare assembly assy "
    "ident identification config item catalogue catalog katalog calid cvn flash dataset datensatz calibracion"
)
#: Of those, what surely leads to such a number.
_KEYS = _IDENTS - word_set("n no nr number index stand item version revision flash programa num numero spare ver rev")
_SIGN = signs.of_words(_KEYS.__contains__)
#: In the place of a number that nobody could read.
_UNKNOWN = word_set(
    "na n/a unknown unbekannt unbek inconnu inconnue inconnus desconocido desconocida unavailable available verfugbar "
    "angabe indisponible disponible known none nil unreadable lesbar lisible illisible legible ilegible"
)
_BESIDE_UNKNOWN = word_set("n a k not nicht keine non no pas")
_PAIRS = ("p/n", "s/n")
#: Between two of those.
_TIES = word_set("de du des of the la le der n p s y et und and &")
_SHORT = 3
#: So many digits no count has.
_LONG = 4
_APART = lazily(r"\s{2,}")


def before_idents(low: str) -> int:
    """Where the numbers by which a module names itself begin ("Airbag   SW 0412", "Brakes, part no. 4K0 907"); the end
    of the text where there are none.

    >>> before_idents("brakes  hw 04 sw 1103"), before_idents("hw gateway 2"), before_idents("gateway 2")
    (6, 12, 9)
    >>> before_idents("brakes, part no 51-c0412-a"), before_idents("seat sw left a")
    (6, 14)
    """
    found = words(low)
    at = next((at for at, (word, _, _) in enumerate(found) if at and word in _IDENTS), None)
    if at is None:
        return len(low)
    at -= at > 1 and found[at][0] == "n" and low[found[at - 1][1] : found[at][2]] in _PAIRS
    rest = [word for word, _, _ in found[at:]]
    # A letter alone is the number's index: "part no 51-4410-A".
    numbered = [
        has_digit(word) or (len(word) == 1 and (has_digit(rest[place - 1]) or not place))
        for place, word in enumerate(rest)
    ]
    sure = all(digit or word in _IDENTS for word, digit in zip(rest, numbered, strict=True))
    if not sure or not any(map(has_digit, rest)):
        return len(low)
    return len(low[: found[at][1]].rstrip(" ,;:([|-"))


@remembered
def alone(low: str) -> bool:
    """Whether a line holds nothing but such numbers: it stands below a heading and is none.

    >>> alone("part no. 620 946 e  sw 7901"), alone("num. de pieza 4f0 910"), alone("hw gateway 2"), alone("part no.")
    (True, True, False, False)
    >>> alone("sw 77 b1325   depot code 00123"), alone("sw 77 b1325   codes 0"), alone("sw 77   door 4")
    (True, False, False)
    """
    pieces = _APART.split(low) if "  " in low and len(low) <= 200 else ()
    if len(pieces) > 1 and alone(pieces[0]) and all(alone(piece) or _is_numbered(piece) for piece in pieces[1:]):
        return True
    found = words(low) if len(low) <= 100 else ()
    found = found[1:] if low.startswith(_PAIRS) else found
    if not found or found[0][0] not in _IDENTS:
        return False
    if found[0][0] in _KEYS and len(found) > 1 and _unread(found):
        return True
    if not any(has_digit(word) for word, _, _ in found):
        # "Software ---   Part number ---"
        return "--" in low and found[0][0] in _KEYS and all(word in _IDENTS for word, _, _ in found)
    second = next((word for word, _, _ in found[1:3] if word not in _TIES), "")
    if found[0][0] in ("no", "n") and not (has_digit(second) or second in _IDENTS):
        # "No DTC 0" is an answer.
        return False
    kept = [word for word, _, _ in found[1:] if not (has_digit(word) or word in _IDENTS or word in _TIES)]
    return all(len(word) <= _SHORT for word in kept) and len(kept) <= 3


def _is_numbered(low: str) -> bool:
    """Whether words end with a number as long as those are, and what they are called is nothing that is read."""
    found = words(low)
    if not 2 <= len(found) <= 4 or has_digit(low[: found[-1][1]]) or not found[-1][0].isdigit():
        return False
    return len(found[-1][0]) >= _LONG and role_of(low[: found[-1][1]]) in (None, "other")


def _unread(found: Sequence[tuple[str, int, int]]) -> bool:
    """Whether words are such numbers and words for those that nobody could read ("sw n/a"), at least one of these."""
    texts = [word for word, _, _ in found]
    if not any(_is_unknown(texts, at) for at in range(len(texts))):
        return False
    return all(
        word in _IDENTS or word in _UNKNOWN or word in _BESIDE_UNKNOWN or word in _TIES or has_digit(word)
        for word in texts
    )


def _is_unknown(texts: Sequence[str], at: int) -> bool:
    """Whether the word at a place, or it with the one before, says that a number is not known: "unknown", "n/a"."""
    before = texts[at - 1] if at else ""
    return texts[at] in _UNKNOWN or (texts[at] == "a" and before in ("n", "k"))


def taken_off(rows: Sequence[Row]) -> list[Row]:
    """The rows, without the numbers of a module behind its name that nobody could read, or that stand in brackets."""
    found = list(rows)
    for at in signs.places(rows, _SIGN):
        if _holds_key(rows[at].low) and _may_hold(rows[at]) and not alone(rows[at].low):
            found[at] = _one(rows[at])
    return found


def _holds_key(low: str) -> bool:
    """Whether a word that leads to such a number stands in a line, and not first."""
    return len(low) <= 160 and not _KEYS.isdisjoint(plain_words(low)[1:])


def _may_hold(row: Row) -> bool:
    """Whether such numbers stand behind a name in a row that holds a key for them; a table has columns for them."""
    if "|" in row.text or "\t" in row.text or ";" in row.text:
        return False
    return is_as_pasted(row)


def _one(row: Row) -> Row:
    """One row without the numbers behind its first words."""
    stop = row.finds.codes[0].start if row.finds.codes else len(row.low)
    found = [part for part in words(row.low) if part[1] < stop]
    first = next((at for at, (word, _, _) in enumerate(found) if at and word in _KEYS), None)
    if first is None or not has_letter(row.low[: found[first][1]]):
        return row
    begin = len(row.low[: found[first][1]].rstrip(" ,;:([/-"))
    bracket = row.low[begin : found[first][1]].strip(" ,;:/-")
    if bracket:
        closed = row.low.find(")" if bracket == "(" else "]", begin)
        inside = [part for part in found[first:] if part[1] < closed]
        return without(row, (begin, closed + 1)) if _are_idents(inside) else row
    if _all_blank(row.low[found[first][1] : stop], found[first:]) and not row.finds.codes:
        return without(row, (begin, len(row.text)))
    end = None
    for last in range(first + 1, len(found) + 1):
        behind = row.low[found[last - 1][2] : found[last][1] if last < len(found) else stop]
        marked = last == len(found) or behind.lstrip(".")[:1] == ":" or " - " in behind or ">" in behind
        if marked and _unread(found[first:last]) and found[last - 1][0] not in _IDENTS - {"n"}:
            end = found[last - 1][2] + (behind[:1] == ".")
    return row if end is None else without(row, (begin, end))


def _all_blank(low: str, found: Sequence[tuple[str, int, int]]) -> bool:
    """Whether a text holds keys of such numbers and a dash or a question mark in each one's place."""
    return low[-1:] in ("-", "?") and all(word in _IDENTS for word, _, _ in found)


def _are_idents(found: Sequence[tuple[str, int, int]]) -> bool:
    """Whether words are such numbers with their keys, known or not."""
    numbered = any(has_digit(word) for word, _, _ in found)
    return _unread(found) or (numbered and all(has_digit(word) or word in _IDENTS for word, _, _ in found))


def behind_gap(text: str) -> int | None:
    """Where a part number begins that stands in a column of its own behind a name; None where there is none.

    >>> behind_gap("Transmission        A 000 446 66 10"), behind_gap("Engine    12"), behind_gap("Engine    12.4 V")
    (12, None, None)
    >>> behind_gap("Transmission 51-44120-A"), behind_gap("Transmission 12-05-2024"), behind_gap("Mid-roof 4-way")
    (12, None, None)
    """
    match = _COLUMN.search(text) if "  " in text or "\t" in text else None
    if match is None and text.count("-") > 1:
        match = _HYPHENED.search(text)
    if match is None or sum(map(str.isdecimal, match[1])) < _FEWEST_DIGITS:
        return None
    return min(match.start(), before_idents(text.lower()))
