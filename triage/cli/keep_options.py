"""Options of the commands that keep sessions, and how their values are read. A wrong value is a wrong command line.

Nothing heavy is imported here: every command's help passes through.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path
from typing import Annotated, Any

import typer

#: What a reader returns for "-": the field is not known. (None is an option that was not given.)
UNKNOWN = ""
PHASES = ("before-clear", "after-clear", "after-run", "after-repair")
OUTSIDE = ("none", "charger", "jump pack", "donor vehicle", "unknown")
ENGINES = ("off", "cranking", "running", "ready", "unknown")
WHATS = ("cleared", "key cycle", "replaced", "programmed", "paired", "calibrated", "battery disconnected",
         "actuator test", "outside supply on", "outside supply off", "drove", "other")
DRIVES = ("petrol", "diesel", "hybrid", "electric", "unknown")
BATTERIES = ("flooded", "AGM", "lithium", "unknown")
PARTS = ("new", "used", "repaired")
ANSWERS = ("accepted", "refused", "unknown")
CURED = ("yes", "no", "unknown")
CAUSES = ("hard", "intermittent", "low-voltage", "history", "echo")


def one_of(words: Sequence[str], dash: bool = False) -> Callable[[str], str]:
    """A reader of one of ``words``, letter case and low lines aside; with ``dash`` "-" is "not known"."""
    folded = {word.lower(): word for word in words}

    def read(value: str) -> str:
        if dash and value.strip() == "-":
            return UNKNOWN
        seen = value.strip().lower().replace("_", "-")
        found = folded.get(seen) or folded.get(seen.replace("-", " "))
        if found is None:
            more = ", or - for not known" if dash else ""
            raise typer.BadParameter(f"seen {value!r}, expected one of {', '.join(words)}{more}")
        return found

    return read


def number(unit: str, low: float, high: float) -> Callable[[str], float]:
    """A reader of a number from ``low`` to ``high`` with or without its unit; "-" is NaN: not known."""
    def read(value: str) -> float:
        text = value.strip()
        if text == "-":
            return math.nan
        try:
            found = float(text.lower().removesuffix(unit.lower()).replace(",", "."))
        except ValueError:
            found = math.nan
        if not low <= found <= high:
            raise typer.BadParameter(f"seen {value!r}, expected {low:g} to {high:g} {unit}, or - for not known")
        return found

    return read


def moment(value: str) -> datetime:
    """A date with a time, as ISO 8601 writes it."""
    try:
        return datetime.fromisoformat(value.strip())
    except ValueError:
        raise typer.BadParameter(f"seen {value!r}, expected a time such as 2026-02-09T08:25") from None


def told(**given: Any) -> dict[str, Any]:
    """The fields that were given; NaN and "" stand for "not known"."""
    return {name: None if value == UNKNOWN or value != value else value
            for name, value in given.items() if value is not None}


Name = Annotated[str, typer.Argument(help="Name of the session.", show_default=False)]
Db = Annotated[str | None, typer.Option(
    "--db", envvar="TRIAGE_DB", metavar="PATH|URL", help="The store: a file, or postgresql://user@host/name. "
    "Without it, the user's data folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Who = Annotated[str | None, typer.Option("--who", envvar="TRIAGE_WHO", help="Who does this, for the record.")]
At = Annotated[datetime | None, typer.Option(
    "--at", parser=moment, metavar="TIME", help="When it was, for example 2026-02-09T08:25.")]

Label = Annotated[str | None, typer.Option("--vehicle", help="What the vehicle is called in the shop.")]
Vin = Annotated[str | None, typer.Option("--vin", help="Vehicle identification number; it finds the vehicle again.")]
Nominal = Annotated[float | None, typer.Option(
    "--nominal-volts", parser=number("V", 6, 48), metavar="V", help="12 or 24.")]
Drive = Annotated[str | None, typer.Option(
    "--drive", parser=one_of(DRIVES), metavar="|".join(DRIVES), help="What drives it.")]
Battery = Annotated[str | None, typer.Option(
    "--battery", parser=one_of(BATTERIES), metavar="|".join(BATTERIES), help="Kind of 12 V battery.")]
Complaint = Annotated[str | None, typer.Option("--complaint", help="The reason for the call.")]
ModelYear = Annotated[int | None, typer.Option("--model-year", min=1950, max=2100, help="Model year.")]

Phase = Annotated[str | None, typer.Option(
    "--phase", parser=one_of(PHASES), metavar="|".join(PHASES), help="Where the scan stands.")]
Volts = Annotated[float | None, typer.Option(
    "--volts", parser=number("V", 0, 40), metavar="V", help="Supply as read; - is not known.")]
Lowest = Annotated[float | None, typer.Option(
    "--lowest", parser=number("V", 0, 40), metavar="V", help="Lowest supply since the scan before; - is not known.")]
Outside = Annotated[str | None, typer.Option(
    "--outside-supply", parser=one_of(OUTSIDE, dash=True), metavar="|".join(OUTSIDE), help="What feeds the vehicle.")]
Engine = Annotated[str | None, typer.Option(
    "--engine", parser=one_of(ENGINES, dash=True), metavar="|".join(ENGINES), help="State of the engine.")]
Ran = Annotated[float | None, typer.Option(
    "--ran-minutes", parser=number("min", 0, 10000), metavar="MIN", help="Engine run before the scan.")]
Rename = Annotated[list[str] | None, typer.Option(
    "--module", metavar="OLD=NEW", help="A module that was taken for another: name as printed, then what it is.")]


def renames(given: Sequence[str] | None) -> dict[str | int, str]:
    """The pairs of OLD=NEW."""
    pairs: dict[str | int, str] = {}
    for text in given or ():
        old, sign, new = text.partition("=")
        if not sign or not old.strip() or not new.strip():
            raise typer.BadParameter(f"--module: seen {text!r}, expected OLD=NEW, for example \"ECM=engine control\"")
        pairs[old.strip()] = new.strip()
    return pairs


ScanFile = Annotated[Path | None, typer.Argument(
    help="The scan; - or nothing is standard input.", metavar="[FILE|-]", show_default=False)]

