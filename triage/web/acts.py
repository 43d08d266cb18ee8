"""What the forms of a session do. Each act is whole or not at all, and says where to go next."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from triage.errors import InputError
from triage.intake.files import decode
from triage.model.session import Event, Vehicle
from triage.model.snapshot import PHASES, Phase, Reading, Snapshot
from triage.web.entering import enter_paste
from triage.web.forms import Filed
from triage.web.learn import CURED, FOUND, chosen_fault, record_outcome
from triage.web.render import query
from triage.web.workbench import Workbench

M = TypeVar("M", bound=BaseModel)
#: An act gets the form and the name of the session, and says where to go: a place on its page, or another page.
Act = Callable[[Workbench, Filed, str], str]
VEHICLE_FIELDS = ("complaint", "label", "vin", "model_year", "drive", "battery", "nominal_volts")
#: Fields of the form that corrects a scan: name, words, least and most.
FIGURES = (("volts", "supply", 0.0, 40.0), ("lowest_volts", "lowest supply", 0.0, 40.0),
           ("ran_minutes", "minutes run", 0.0, 100_000.0))

def made(model: type[M], values: dict[str, Any]) -> M:
    """The object, or InputError with one line about the first field that does not fit."""
    try:
        return model.model_validate({name: value for name, value in values.items() if value is not None})
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        raise InputError(f"{' '.join(map(str, first['loc'])).replace('_', ' ')}: {first['msg']}") from None


def phase_of(form: Filed) -> Phase | None:
    """The phase chosen; None: left to the text. Raises InputError."""
    phase = form.text("phase")
    if phase is not None and phase not in PHASES:
        raise InputError(f"phase: seen {phase[:40]!r}, expected one of {', '.join(PHASES)}")
    return phase


def paste(bench: Workbench, form: Filed, name: str) -> str:
    """Keep a scan, typed or as a file."""
    file, text = form.files.get("file"), form.fields.get("text", "")
    if file is not None and text.strip():
        raise InputError("both a text and a file were given: send them one after the other")
    if file is None and not text.strip():
        raise InputError("nothing was pasted and no file was chosen")
    # A form sends every line end as CR LF, whatever was pasted into it.
    body: str | bytes = text.replace("\r\n", "\n") if file is None else file[1]
    pasted, _ = enter_paste(bench, name, body, phase_of(form), None if file is None else file[0] or None, form.who)
    return f"entry-{pasted.entry_id}"


def correct(bench: Workbench, form: Filed, name: str) -> str:
    """Correct a scan; what stands as it stood is no correction."""
    number = form.whole("snapshot", "scan")
    now = bench.snapshot_of(name, number)
    wanted: dict[str, Any] = {"phase": phase_of(form), "engine": form.text("engine"),
                              "outside_supply": form.text("outside_supply")}
    wanted |= {field: form.number(field, words, least, most) for field, words, least, most in FIGURES}
    # "unknown" and nothing at all look the same in the form.
    changes = {field: value for field, value in wanted.items() if field in form.fields
               and value != getattr(now, field) and (value, getattr(now, field)) != (None, "unknown")}
    if changes.get("phase", "") is None:
        raise InputError("phase: choose one of the four")
    rename = _rename(form, now)
    if not changes and not rename:
        raise InputError("nothing was corrected: every field stands as it stood")
    bench.store.correct(number, rename=rename, who=form.who, **changes)
    return "scans"


def _rename(form: Filed, now: Snapshot) -> dict[str | int, str]:
    new = form.text("rename")
    if form.text("module") is None:
        if new is not None:
            raise InputError("module: choose the one that has a wrong name")
        return {}
    at = form.whole("module", "module")
    if at >= len(now.modules):
        raise InputError("module: the scan has no such module")
    if new is None:
        raise InputError("module: fill in what it is in truth")
    return {} if now.modules[at].module == new else {at: new}


def event(bench: Workbench, form: Filed, name: str) -> str:
    """Add an event; without a time of its own it happened now."""
    bench.store.add_event(name, made(Event, {
        "what": form.need("what", "event"), "module": form.text("module"), "part": form.text("part"),
        "answer": form.text("answer"), "note": form.text("note"), "at": form.moment("at", "time of the event")}),
        form.who)
    return "events"


def reading(bench: Workbench, form: Filed, name: str) -> str:
    """Add a measurement."""
    unit = form.text("unit")
    value = form.number("value", "value", -1e9, 1e9)
    if value is None:
        raise InputError("value: nothing was filled in")
    bench.store.add_reading(name, made(Reading, {
        "name": form.need("what", "measurement"), "value": value, "unit": None if unit == "other" else unit,
        "module": form.text("module")}), who=form.who)
    return "measurements"


def trace(bench: Workbench, form: Filed, name: str) -> str:
    """Keep a voltage trace that can be read."""
    file, text = form.files.get("file"), form.fields.get("text", "")
    label = None
    if file is not None:
        label, text = file[0] or None, decode(file[1], file[0] or None)
    if not text.strip():
        raise InputError("no trace was chosen and no rows were pasted")
    found, notices = bench.trace(text, label)
    if found is None:
        raise InputError(notices[0].message if notices else "no voltages found")
    entry = bench.store.add_trace(name, text, label, form.who)
    return f"/trace?{query({'name': name, 'entry': entry})}"


def vehicle(bench: Workbench, form: Filed, name: str) -> str:
    """Correct what is known of the vehicle."""
    new = vehicle_of(form).model_dump()
    known = bench.store.session(name).vehicle
    old = (known or Vehicle()).model_dump()
    changes = {field: new[field] for field in VEHICLE_FIELDS if field in form.fields and new[field] != old[field]
               and (new[field], old[field]) != (None, "unknown")}
    if not changes:
        raise InputError("nothing was corrected: every field stands as it stood")
    bench.store.correct_vehicle(name, who=form.who, **changes)
    return "vehicle"


def vehicle_of(form: Filed) -> Vehicle:
    """The vehicle as the form has it."""
    return made(Vehicle, {field: form.text(field) for field in VEHICLE_FIELDS})


def undo(bench: Workbench, form: Filed, name: str) -> str:
    """Strike out the last entry, if it is still the one that was shown."""
    shown = form.whole("entry", "entry")
    standing = [entry.id for entry in bench.store.entries(name)]
    if not standing or standing[-1] != shown:
        raise InputError("another entry was added meanwhile: nothing was struck out; look again at the record")
    bench.store.undo(name)
    return "record"


def outcome(bench: Workbench, form: Filed, name: str) -> str:
    """Record what was done about a fault, or about all that have no outcome, and whether it cured it."""
    chosen = chosen_fault(form.need("fault", "fault"))
    cured, found = form.need("cured", "cured"), form.text("found")
    if cured not in CURED or (found is not None and found not in FOUND):
        raise InputError("cured, cause: choose one of the list")
    record_outcome(bench, name, chosen, done=form.need("done", "what was done"), cured=cured, found=found, who=form.who)
    return f"/outcomes?{query({'name': name})}#recorded"


ACTS: dict[str, Act] = {"paste": paste, "correct": correct, "event": event, "reading": reading, "trace": trace,
                        "vehicle": vehicle, "undo": undo, "outcome": outcome}
