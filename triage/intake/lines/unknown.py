"""Names that nobody knows, joined in a sentence to one that is listed: "the tailgate and the VDM are clean".

Three to five capital letters in a text of small ones, right before or behind a listed name with "and" or a comma
between, are a module like it.

>>> from triage.intake.lines.rows import rows_of
>>> row = rows_of("Tailgate and the VDM are clean, MIL off")[0]
>>> [row.text[start:end] for start, end in joined(row, [(0, 8)], spoken(row.low))]
['Tailgate', 'VDM']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.layouts import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said.answers import Spoken, spoken
from triage.intake.words.vocabulary import STATES

Span = tuple[int, int]

_AND = r"(?:\s?,\s?(?:(?:and|und|et|y|or|oder|ou|o|nor|noch|ni)\s)?|\s(?:and|und|et|y|or|oder|ou|o|nor|noch|ni|&)\s)"
_THE = r"(?:(?:the|der|die|das|dem|den|le|la|el)\s)?"
_TOKEN = r"([A-Z][A-Z0-9]{1,3}[A-Z])"
_BEFORE = lazily(rf"(?<![A-Za-z0-9/-]){_TOKEN}{_AND}{_THE}$")
_BEHIND = lazily(rf"{_AND}{_THE}{_TOKEN}(?![A-Za-z0-9/-])")
#: Capital letters that name no module.
_OTHERS = word_set(
    "dtc dtcs vin obd koeo koer mil ok no nr and or the not all none clear pass fail ecu ecus usb can lin moq asap fyi "
    "btw tbc tbd soc oem tsb led lcd gps nok nil awd fwd rwd lost dead gone bad pdf csv html xml json cca agm efb"
)
_REACH = 16


def joined(row: Row, names: Sequence[Span], said: Sequence[Spoken]) -> list[Span]:
    """The names of a sentence with those unknown ones that stand beside them in a list. Linear in the row."""
    if not any("a" <= char <= "z" for char in row.text):
        return list(names)
    taken = [*names, *((code.start, code.end) for code in row.finds.codes), *((hit.start, hit.end) for hit in said)]
    found: set[Span] = set()
    for start, end in names:
        before = _BEFORE.search(row.text, max(0, start - _REACH), start)
        behind = _BEHIND.match(row.text, end)
        found |= {match.span(1) for match in (before, behind) if match is not None}
    kept = [span for span in found if _may_be_name(row.low[span[0] : span[1]]) and not _overlaps(span, taken)]
    return sorted([*names, *kept])


def is_short(text: str) -> bool:
    """Whether a text is such a name, from its first letter to its last.

    >>> is_short("VDM"), is_short("DTC"), is_short("Vdm")
    (True, False, False)
    """
    return 3 <= len(text) <= 5 and text.isascii() and text.isalnum() and text.isupper() and _may_be_name(text.lower())


def _may_be_name(low: str) -> bool:
    """Whether capital letters may name a module: they are no status, no answer, and nothing else they stand for."""
    return low not in _OTHERS and not spoken(low) and not STATES.find(low)


def _overlaps(span: Span, taken: Sequence[Span]) -> bool:
    return any(start < span[1] and span[0] < end for start, end in taken)


__all__ = ["is_short", "joined"]
