"""The voltage of a module in a line below its answer or its codes: "Amplifier: OK" over "  module voltage 11.3 V".

>>> from triage.intake.lines.rows import rows_of
>>> texts = ("Amp: OK\\n  module voltage 11.3 V\\nABS: OK", "ABS: OK\\n  supply 11.3 V\\nECM: P0562\\n  supply 11.4 V",
...          "ABS: OK\\nECM: P0562\\n  Battery 11.4 V", "Before: ABS ok\\n11.3 V\\nAfter: ABS ok\\n12.8 V")
>>> [sorted(places(rows_of(text))) for text in texts]
[[1], [1, 3], [], []]
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice

from triage.intake.entries import voltplaces
from triage.intake.lines.row import Row
from triage.intake.lines.supplyrow import below_a_name, of_the_module
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, volts
from triage.intake.said.answers import spoken
from triage.intake.scan.context import Context

#: What is the vehicle's where a line does not stand further right.
_OF_THE_VEHICLE = lazily(r"(?<![a-z])(?:batt?|battery|batterie|bateria|akku|vehicle|charger|obd|dlc)(?![a-z])")
_FARTHEST = 40
_LEAST, _LEAST_FLAT, _SHARE, _SHARE_DEEPER = 2, 3, 0.6, 0.4


def places(rows: Sequence[Row]) -> set[int]:
    """The places of the lines with the voltage of the module that the line above names with its answer or its codes.

    One says so, or several stand so: further right than the lines above, and below a module without codes too (with a
    code a voltage may be stored); or below most modules of a text.
    """
    told = [
        at for at, row in enumerate(rows)
        if at and row.text and not row.finds.codes and below_a_name(row.low) and _is_alone(row) and _tells(rows[at - 1])
    ]
    own = {at for at in told if of_the_module(rows[at].low)}
    own = {at for at in own if not _closes_a_list(rows, at, own)}
    if len(told) < _LEAST or all(rows[at - 1].finds.codes for at in told):
        return own
    deeper = {at for at in told if rows[at].line.indent > rows[at - 1].line.indent}
    modules = sum(_tells(row) for row in rows)
    if len(deeper) >= max(_LEAST, _SHARE_DEEPER * modules):
        own |= deeper
    plain = [at for at in told if _OF_THE_VEHICLE.search(rows[at].low) is None]
    if len(plain) >= _LEAST_FLAT and len(plain) >= _SHARE * modules:
        own |= set(plain)
    return own


def _closes_a_list(rows: Sequence[Row], at: int, own: set[int]) -> bool:
    """Whether a line stands as the only one of its kind below a list of modules, one a line and as far left: it tells
    the supply of all."""
    if at + 1 < len(rows) and not rows[at + 1].blank and _tells(rows[at + 1]):
        return False
    listed = 0
    for above in range(at - 1, max(at - _FARTHEST, -1), -1):
        if rows[above].blank or above in own:
            break
        listed += _tells(rows[above]) and rows[above].line.indent >= rows[at].line.indent
    return listed > 1


def _is_alone(row: Row) -> bool:
    """Whether a line of a voltage and nothing else is no row of a table, and tells no lowest one."""
    return row.roles is None and not row.head and all(volt.of != "lowest" for volt in volts.find(row.low))


def _tells(row: Row) -> bool:
    """Whether a line tells of a module and of no scan."""
    if row.blank or row.roles is not None or row.head or not (row.finds.codes or spoken(row.low)):
        return False
    return phases.find(row.low) is None and phases.scan_head(row.low) is None


def read(context: Context, row: Row, at: int) -> bool:
    """Give such a line's voltage to the module that the line above names; whether it named one."""
    module, above = context.builder.module, context.rows[at - 1]
    if module is None or module.line is not above.line or context.blanks:
        return False
    last = list(islice(reversed(context.builder.snapshot.modules.values()), 2))
    if len(last) > 1 and last[0] is module and last[1].line is above.line:
        # Two modules in a line, and one voltage below.
        return False
    for volt in volts.find(row.low):
        if module.volts is None and voltplaces.plausible(context, row, volt):
            module.volts = volt.value
    return True


__all__ = ["places", "read"]
