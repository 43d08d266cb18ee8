"""What a key below a code tells was stored with it: "Odometer: 120400 km", "RPM: 810"."""

from __future__ import annotations

import re

from triage.intake.codes.pieces import stored_values
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.scan.context import Context


def read(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    """A value that was stored with the code above, behind its key; whether it was one."""
    above = context.open_row
    if context.open_code is None or above is None or row.line.indent < above.line.indent:
        return False
    values = stored_values(low) or {}
    number = re.match(r"-?[0-9]{1,7}(?:[.,][0-9]+)?", low)
    if not values and number is not None:
        role = role_of(row.low.split(":")[0].split("=")[0].strip())
        name = {"odometer": "distance_km", "rpm": "engine_rpm", "speed": "speed_kmh", "coolant": "coolant_c"}.get(
            role or ""
        )
        if name is not None:
            values = {name: float(number[0].replace(",", "."))}
    for name, number_read in values.items():
        context.open_code.freeze.setdefault(name, number_read)
    return bool(values)


__all__ = ["read"]
