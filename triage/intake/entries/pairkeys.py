"""SPN and FMI in rows of their own: "SPN: 168" and "FMI: 4" below it are one code."""

from __future__ import annotations

import re

from triage.intake.codes.finds import Found
from triage.intake.entries import valuecodes
from triage.intake.lines.row import Row
from triage.intake.scan.context import Context
from triage.model import codes as model_codes


def spn(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    """Read the value of a key for the SPN."""
    return _half(context, row, "spn", re.match(r"[0-9]{1,7}", low), start)


def fmi(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    """Read the value of a key for the FMI."""
    return _half(context, row, "fmi", re.match(r"[0-9]{1,3}", low), start)


def _half(context: Context, row: Row, name: str, number: re.Match[str] | None, start: int) -> bool:
    """One number of a pair of SPN and FMI that stand in rows of their own."""
    if number is None:
        return False
    context.pending_values[name] = number[0]
    return _pair(context, row, start)


def _pair(context: Context, row: Row, start: int) -> bool:
    """An SPN and an FMI in lines of their own make one code."""
    spn, fmi = context.pending_values.get("spn"), context.pending_values.get("fmi")
    code = model_codes.parse(f"SPN {int(spn)} FMI {int(fmi)}") if spn and fmi else None
    if code is not None:
        del context.pending_values["spn"], context.pending_values["fmi"]
        found = Found(start, len(row.text), code.text, kind="J1939", bare=len(row.text))
        valuecodes.add_one(context, row, found, "")
    return True


__all__ = ["fmi", "spn"]
