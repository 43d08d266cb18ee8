"""What speaks for and against a number beside words being a maker's own code, wherever it stands: asked by every pass
that looks for such numbers in a place of its own. What such a number looks like stands in `codes/ownnumbers.py`.

>>> from triage.intake.lines.rows import rows_of
>>> told = rows_of("6214 pump stuck - stored\\n4500 rpm idle\\n27-140 cable, 12.50 each\\nKA-12 connector corroded")
>>> [tells_status(row, 5) for row in told], [of_other_use(row, 0, row.text.index(" ")) for row in told]
([True, False, False, False], [False, True, True, True])
"""

from __future__ import annotations

from triage.intake.codes import ownnumbers
from triage.intake.codes.finds import Found
from triage.intake.codes.pieces import soft_pieces
from triage.intake.lines import idents
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states
from triage.intake.said.counts import stated_count
from triage.intake.said.happenings import is_aside
from triage.intake.said.remarks import is_remark

#: Keys before a number that is no code; one for the voltage may as well name the battery's module.
OTHER_KEYS = frozenset(("odometer", "rpm", "speed", "coolant", "date", "count", "count_of_codes", "scan", "other"))
#: What is counted or measured by a number before it.
QUANTITY = lazily(
    r"\s*(?!x[0-9])(?:km|mi|miles|m?v|volts?|rpm|min|h|hours?|kg|mm|psi|bar|c|f|%|codes|dtcs|faults|modules|ecus|"
    r"pcs|years?|kpa|m?bar|k?hz|ms|k?ohms?|nm|mg|g|k?w|m?a|deg|l|amps?|steuergerate|calculateurs|centralitas|"
    r"mal|times|x|days?|cycles?|street|st|road|rd|avenue|strasse|rue|calle)(?![a-z])"
)
YEAR = lazily(r"(?:19[5-9]|20[0-4])[0-9]")
PRICED = lazily(r"(?<![0-9.])[0-9]{1,4}[.,][0-9]{2}(?![0-9]|\s?v)|[\u20ac\u00a3$]|\b(?:pcs|each|eur|usd|gbp|qty)\b")
#: What is told of a number that is none of a fault: of a lock, a part, a street.
NAMED_OTHERWISE = lazily(
    r"\b(?:(?:security|pin|radio|key|unlock|safe|post|zip) ?code|(?:part|order|job|serial|invoice|version) ?"
    r"(?:number|no)|strasse|street|road|lane|avenue|postcode)\b(?!.*(?:invalid|missing|wrong|fault|signal))|\bcode$"
)
_WIRING = (
    r"(?:connector|plug|socket|splice|ground|terminal|pin|fuse|relay|part|bay|door|stecker|sicherung|relais|masse|"
    r"klemme|connecteur|prise|fusible|borne|conector|enchufe|masa|rele)s?"
)
#: A part of the wiring, named right behind its number or in a piece of its own.
_OF_WIRING = lazily(rf"\W*{_WIRING}\b|.{{0,80}}?[,;:|/(\t]\s*{_WIRING}\s*(?:$|[,;:|/)\t])")
#: A sentence that goes on behind a measure, a count or a range: "20417 on the clock", "20-100 in the cold".
_GOES_ON = word_set(
    "is was are were to at on in of and or when if normal should since before after per the ist war bei bis auf im "
    "seit nach vor und oder est sont au depuis avant apres et en a es son al con desde cuando antes despues y range "
    "seen ok total odometer mileage kms part parts job order serial euro eur usd gbp"
)
_FAR = 400


def goes_on(low: str, end: int) -> bool:
    """Whether a sentence goes on behind a number as it does behind that of another thing."""
    words = low[end : end + 40].split(maxsplit=1)
    return bool(words) and words[0].strip(".,;:") in _GOES_ON


def measured(row: Row, end: int) -> bool:
    """Whether a unit or what is counted stands behind a number."""
    return QUANTITY.match(row.low, end) is not None


def of_other_use(row: Row, start: int | None = None, end: int = 0, told: bool = False) -> bool:
    """Whether what is told of the numbers in a row makes them none of faults: they are priced, a part's, an aside; or
    of the one at a place: it is measured, or, its letters parted from its digits, one of the wiring, of which no status
    is told (``told``: before it)."""
    if start is not None:
        wiring = not row.text[start:end].isalnum() and _OF_WIRING.match(row.low, end) is not None
        if measured(row, end) or (wiring and not told and not tells_status(row, end)):
            return True
    # A status may be called a code as well: "pending code".
    low = row.low.removesuffix(" code") if has_status(row, end) else row.low
    return is_aside(low) or any(pattern.search(low) for pattern in (PRICED, NAMED_OTHERWISE)) or (
        idents.alone(row.low) or is_remark(row.text, row.low)
    )


def has_status(row: Row, at: int) -> bool:
    """Whether words with a status of their own stand behind a number: "open circuit (active)", "switch stored"."""
    rest = row.low[at:]
    if len(rest) > _FAR:
        return False
    if any(states.of_cell(part) is not None for _, part in soft_pieces(rest)[1:]):
        return True
    words = rest.split()
    return any(states.of_cell(" ".join(words[-many:])) is not None for many in range(1, min(4, len(words))))


def tells_status(row: Row, at: int) -> bool:
    """Whether a status stands behind a place of a row: at once, or between marks."""
    begin = at + len(row.low[at:]) - len(row.low[at:].lstrip(" -:|,;"))
    return states.leading(row.low, begin) > begin or has_status(row, at)


def is_named(text: str, is_name: IsName) -> bool:
    """Whether a text is the name of a module."""
    return len(text) > 1 and has_letter(text) and is_name(tidy(text))


def tells_name(row: Row, at: int, is_name: IsName) -> bool:
    """Whether a name stands between marks behind a place of a row."""
    return any(is_named(piece, is_name) for _, piece in soft_pieces(row.text[at:])[:6])


def is_head(row: Row, is_name: IsName) -> bool:
    """Whether a row is the name of a module, with a count of its codes or without."""
    if row.finds.codes or len(row.text) > 160:
        return False
    stated = stated_count(row.low)
    return is_named(row.text if stated is None else row.text[: stated[1]], is_name)


def own_at(row: Row, start: int, text: str, few: bool = False) -> Found | None:
    """A text in a row as the code that it can be there: written as its line is, nothing that was refused, and more than
    a few digits, if not even these (``few``) are told to be one."""
    found = ownnumbers.found(start, text)
    if found is None or (ownnumbers.few_digits(text) and not few) or not ownnumbers.written_alike(text, row.text):
        return None
    refused = (each.start for each in row.finds.allowed(start, found.end).refusals if start <= each.start < found.end)
    # "B1A3 4" may be a standard code with a blank in it, and is this number with a count if that is told.
    return None if any(row.text[at] not in "PCBUpcbu" for at in refused) else found


def put(row: Row, start: int, text: str, few: bool = False) -> bool:
    """Make a text in a row its code; whether it can be one."""
    found = own_at(row, start, text, few)
    if found is not None:
        row.finds = row.finds.allowed(start, found.end)._replace(codes=(found,))
    return found is not None


__all__ = [
    "NAMED_OTHERWISE", "OTHER_KEYS", "PRICED", "QUANTITY", "YEAR", "IsName", "goes_on", "has_status", "is_head",
    "is_named", "measured", "of_other_use", "own_at", "put", "tells_name", "tells_status",
]
