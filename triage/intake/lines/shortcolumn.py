"""A column of short names that nobody knows behind the codes, a status beside them: "P0335; QLT; present". Beside a
description it may hold one name right behind the codes, or several that come again where no status is told.

>>> from triage.intake.lines.rows import rows_of
>>> at(rows_of("P0335; QLT; present\\nP0700; QLT; stored\\nP0560; ZDM2; stored"))
0
>>> at(rows_of("P0335; HIGH; present\\nP0700; LOW; stored\\nP0560; LOW; stored"))
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.lines.behind import behind, wordy
from triage.intake.lines.namelist import acceptable
from triage.intake.lines.row import Row
from triage.intake.lines.unknown import NO_NAMES
from triage.intake.naming import IsName
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states
from triage.intake.said.near import small

_SHORT = lazily(r"(?=(?:[0-9]*[A-Z]){2})[A-Z0-9]{2,6}(?:[ /-][A-Z]{1,4})?")
#: What a failure type, or a status byte, may be.
_BYTE = lazily(r"(?:0X)?[0-9A-F]{2}H?")
#: What such a column holds that tells of the fault: how bad it is, on which bus, what kind of code; sensors, cylinders.
NO_MODULES = NO_NAMES | word_set(
    "high low med medium hi lo warn info minor major crit severe yes off none gnd bat batt open short ref sig intm "
    "sae iso hs ms ls flt type a b c d ja nein hoch tief oui non haut bas si alto bajo emis nonem red amber yellow "
    "green blue gelb rot rouge jaune rojo prio cat new old set hist curr conf pend perm act actv stat temp"
) | word_set(
    "ckp cmp maf map iat ect tps app evap egr dpf scr nox tcc iac vss wss vvt ocv afr ho2s o2s inj coil frp egt oct b1 "
    "b2 cyl cyl1 cyl2 cyl3 cyl4 cyl5 cyl6"
)
#: Oxygen sensors, relays, fuses, terminals, connectors: a letter or two and a number, or several pairs of both.
_PART = lazily(r"[A-Z][0-9]{1,4}|KL[0-9]{1,2}|(?:[A-Z][0-9]){2,3}")
#: Fewer rows, or one name alone, are no column.
_FEWEST, _NAMES, _SEVERAL, _DEEPEST = 3, 2, 3, 3
#: So often stands there what is neither short nor listed.
_AGAIN = 2


def at(rows: Sequence[Row], is_name: IsName = lambda text: False) -> int | None:
    """The place of the column among the wordy pieces behind the codes; None where there is none. Every row has a short
    word in capitals there or a listed name, or what comes again beside more of these, and most a status, or all a
    description."""
    return _column(rows, [[piece.strip(" -:,;|()[]") for _, piece in wordy(row)] for row in rows], is_name)


def cell(rows: Sequence[Row], code: int, is_name: IsName) -> int | None:
    """The same among the cells behind that of the codes, of which each row has as many: a name may be a status by
    its word."""
    place = _column(rows, [[each.text for each in (row.cells or ())[code + 1 :]] for row in rows], is_name)
    return None if place is None else code + 1 + place


def _column(rows: Sequence[Row], tails: Sequence[Sequence[str]], is_name: IsName) -> int | None:
    """The place of the column in the texts behind the codes."""
    if len(rows) < _FEWEST or not all(row.text[: row.finds.codes[0].start].strip(" -*#.|") == "" for row in rows):
        return None
    deepest = min(map(len, tails))
    for place in range(min(deepest, _DEEPEST)):
        texts = Counter(tail[place] for tail in tails)
        others = [text for text in texts if not (_may_name(text) or is_name(text))]
        if 2 * len(others) >= len(texts) or not all(map(acceptable, others)) or any(
                texts[text] < _AGAIN or states.of_cell(small(text)) is not None for text in others):
            continue
        if all(map(_BYTE.fullmatch, texts)) or all(states.of_cell(small(text)) is not None for text in texts):
            continue
        described = any(
            len({tail[other] for tail in tails}) >= _NAMES and all(" " in tail[other] for tail in tails)
            for other in range(deepest) if other != place)
        if 2 * sum(map(_tells_status, rows)) >= len(rows):
            return place if len(texts) >= _NAMES or described else None
        return place if described and len(rows) > len(texts) >= _SEVERAL else None
    return None


def _may_name(text: str) -> bool:
    """Whether a text may be the short name of a module."""
    return _SHORT.fullmatch(text) is not None and _PART.fullmatch(text) is None and small(text) not in NO_MODULES


def _tells_status(row: Row) -> bool:
    """Whether a piece behind the code is a status alone."""
    return any(states.of_cell(small(piece)) is not None for _, piece in behind(row))


__all__ = ["NO_MODULES", "at", "cell"]
