"""What happens during a visit: a session is opened, scans, events and measurements go in, slips are put right."""

from __future__ import annotations

import difflib
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar, cast

import typer

from triage.cli.keep_options import WHATS
from triage.cli.keep_words import entry_words, event_words, many, quoted, vehicle_words
from triage.errors import InputError, StoreError

if TYPE_CHECKING:
    from pydantic import BaseModel

    from triage.intake.read import Reading
    from triage.model.session import Event, Vehicle
    from triage.model.snapshot import Phase
    from triage.store.rows import KnownSession, StoredSnapshot
    from triage.store.store import Store

    Model = TypeVar("Model", bound=BaseModel)

#: What a scan may add to the vehicle's data where nobody said it.
FILLED = ("vin", "nominal_volts", "model_year", "drive", "battery", "batteries", "complaint", "label")


def kept(db: str | None, make: bool = False) -> Store:
    """The store at ``db``. Only opening and importing make one: a slip of the path must not leave a file behind."""
    from triage.store import default_path, open_store
    from triage.store.place import is_url

    place = db or default_path()
    if not make and not is_url(str(place)) and not Path(place).expanduser().exists():
        raise StoreError(f"{place}: no store there; `triage open NAME` begins one, --db names another")
    return open_store(db or None)


def built(model: type[Model], **given: Any) -> Model:
    """An object of the job file from what was typed. Raises InputError in one line."""
    from pydantic import ValidationError

    try:
        return model(**{name: value for name, value in given.items() if value is not None})
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        path = ".".join(str(step) for step in first["loc"])
        raise InputError(f"{path}: {first['msg'][:1].lower()}{first['msg'][1:]}, seen {first['input']!r}") from None


def open_session(db: str | None, name: str, vehicle: Mapping[str, Any]) -> list[str]:
    """Begin a session; says what is known of the vehicle from before."""
    from triage.model.session import Vehicle

    if name.strip() in ("", "-"):
        raise InputError(f"seen {name!r} as the name of a session; expected a word or two that you will know again")
    with kept(db, make=True) as store:
        session = store.open_session(name, built(Vehicle, **vehicle) if vehicle else None)
        lines = [f"session {name} is open in {store.shown}", f"  {vehicle_words(session.vehicle)}"]
        before = store.earlier_sessions(name)
        if before:
            lines.append(f"  {many(len(before), 'earlier session')} of this vehicle: the short list will be held "
                         f"against {before[-1].name}")
    if Path(name).exists():
        lines.append(f"  note: there is a file {name} in this folder; triage shortlist {quoted(name)} would read that")
    return [*lines, f"  next: triage paste {quoted(name)} FILE"]


def read_scan(file: Path | None, text: str | None) -> tuple[bytes, str]:
    """What was pasted and where it came from."""
    from triage.cli.files import read_input

    if text is not None:
        try:
            return text.encode("utf-8", "surrogateescape"), "text"  # a byte that was no text comes back as that byte
        except UnicodeEncodeError:
            return text.encode("utf-8", "surrogatepass"), "text"
    if file is None or str(file) == "-":
        if sys.stdin.isatty():
            sys.stderr.write("Paste the scan, then end with Ctrl-D on a line of its own (Ctrl-Z, Enter on Windows).\n")
        return read_input(Path("-")), "standard input"
    return read_input(file), str(file)


def paste(
    db: str | None, name: str, file: Path | None, text: str | None, phase: str | None, changes: Mapping[str, Any],
    rename: Mapping[str | int, str], who: str | None,
) -> tuple[list[StoredSnapshot], dict[int, int], Reading, list[str]]:
    """Keep a scan: its snapshots as they count, their places in the session, the reading, further lines."""
    from code_tables import load
    from triage.intake.read import read_bytes
    from triage.model.notices import stop_at_several_vehicles

    with kept(db) as store:
        session = store.session(name)
        data, source = read_scan(file, text)
        reading = read_bytes(data, load(), source=source, day=store.last_day(name))
        stop_at_several_vehicles(reading.notices, "; nothing was kept")
        if len(reading.snapshots) > 1 and (changes or rename):
            raise InputError(f"{source}: {len(reading.snapshots)} scans in one text; nothing was kept: paste without "
                             f"corrections, then use `triage correct {quoted(name)} SNAPSHOT`")
        # First the vehicle, so that the paste is the last entry and `triage undo` strikes that.
        lines = fill_in_vehicle(store, session, reading.vehicle)
        pasted = store.add_paste(name, _body(data), reading.snapshots, cast("Phase | None", phase), changes=changes,
                                 rename=rename, events=reading.events, source=source, who=who)
        numbers = {number for number, _, _ in pasted.snapshots}
        everything = store.snapshots(name)
    places = {snapshot.id: place for place, snapshot in enumerate(everything, start=1)}
    return [snapshot for snapshot in everything if snapshot.id in numbers], places, reading, lines


def _body(data: bytes) -> str | bytes:
    """Text where it is UTF-8 (back to the same bytes), else the bytes: what came is kept exactly."""
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return data


def fill_in_vehicle(store: Store, session: KnownSession, found: Vehicle | None) -> list[str]:
    """Put what a scan says of the vehicle where nothing is known yet; says what was put in or does not agree."""
    if found is None:
        return []
    known = session.vehicle.model_dump(exclude_none=True) if session.vehicle else {}
    new, lines = {}, []
    for field in FILLED:
        value = getattr(found, field)
        if value is None or known.get(field) == value:
            continue
        if field not in known:
            new[field] = value
        elif field == "vin":
            lines.append(f"  warning: the scan is of VIN {value}, the session of VIN {known['vin']}: "
                         f"`triage undo {quoted(session.name)}` if this is the wrong vehicle")
    if "label" in new and "vin" not in {**known, **new}:
        # Two vans called "van" are not one vehicle.
        other = store.find_vehicle(new["label"])
        if other is not None:
            lines.append(f"  note: the scan calls the vehicle {new['label']!r}, as others are called: if it is the "
                         f"same one, `triage correct {quoted(session.name)} --vehicle {new.pop('label')!r}`")
    if new:
        store.correct_vehicle(session.name, who="read from the scan", **new)
        lines.append("  vehicle, as the scan says: " + ", ".join(
            f"{field.replace('_', ' ')} {value}" for field, value in new.items()))
    return lines


def paste_lines(
    name: str, snapshots: list[StoredSnapshot], places: Mapping[int, int], reading: Reading, more: list[str],
) -> list[str]:
    """What was understood of a paste, why the phase is taken so, and how to put it right."""
    from triage.cli.output import snapshot_words

    lines: list[str] = []
    for snapshot in snapshots:
        place = places[snapshot.id]
        remedy = f"if not: triage correct {quoted(name)} {place} --phase ..."
        lines += [f"{name}, snapshot {place}: {snapshot_words(snapshot.now)}",
                  f"  phase {snapshot.phase}: {snapshot.phase_why} ({remedy})"]
        lines += [f"  corrected: {_local(words, place)}" for words in snapshot.corrections]
    lines += [f"  event: {event_words(event)}" for event in reading.events]
    return lines + more


def _local(words: str, place: int) -> str:
    """The store's words about a correction with the snapshot's place in the session."""
    return words if not words.startswith("snapshot ") else f"snapshot {place}:{words.partition(':')[2]}"


def paste_json(snapshots: list[StoredSnapshot], places: Mapping[int, int], reading: Reading) -> dict[str, Any]:
    """The same for a program."""
    from triage.cli.output import snapshot_json

    return {
        "snapshots": [{"number": places[snapshot.id], "phase_why": snapshot.phase_why, **snapshot_json(snapshot.now)}
                      for snapshot in snapshots],
        "events": [event.model_dump(mode="json", exclude_none=True) for event in reading.events],
        "notices": [notice.as_json() for notice in reading.notices]}


def correct(
    db: str | None, name: str, number: int | None, changes: Mapping[str, Any], rename: Mapping[str | int, str],
    vehicle: Mapping[str, Any], who: str | None,
) -> list[str]:
    """Say fields of snapshot ``number`` (from 1), or of the vehicle, otherwise."""
    from triage.cli.output import snapshot_words

    with kept(db) as store:
        lines = []
        if number is not None:
            snapshots = store.snapshots(name)
            if not 1 <= number <= len(snapshots):
                there = f"{many(len(snapshots), 'snapshot')}, numbered from 1" if snapshots else "none"
                raise InputError(f"session {name!r} has no snapshot {number}; it holds {there}")
            store.correct(snapshots[number - 1].id, rename=dict(rename), who=who, **changes)
            now = store.snapshots(name)[number - 1].now
            lines.append(f"{name}, snapshot {number}: {snapshot_words(now)}")
            lines += [f"  module: {old} is {new}" for old, new in rename.items()]
        else:
            store.correct_vehicle(name, who=who, **vehicle)
            lines.append(f"{name}: {vehicle_words(store.session(name).vehicle)}")
    return [*lines, f"  the scan itself stays as it came; `triage undo {quoted(name)}` takes the correction back"]


def note_event(db: str | None, name: str, what: str, who: str | None, **more: Any) -> list[str]:
    """Keep an event; says what the next scan would count as."""
    from triage.model.session import Event

    word, note = event_word(what, more.pop("note"))
    events = told_events(note, more) if word == "other" and note else []
    events = events or [built(Event, what=word, note=note, **more)]
    with kept(db) as store:
        for event in events:
            store.add_event(name, event, who)
        guess = store.guess_phase(name)
    return [*(f"{name}: {event_words(event)}" for event in events),
            f"  the next scan would count as {guess.phase}: {guess.why}"]


def told_events(words: str, more: Mapping[str, Any]) -> list[Event]:
    """What free words say was done ("cleared all codes, jump pack off"), read as a scan's own words are; what the
    options say goes before it."""
    from code_tables import load
    from triage.intake.read import read_text

    said = {key: value for key, value in more.items() if value is not None}
    return [event.model_copy(update=said) for event in read_text(words, load()).events]


def event_word(what: str, note: str | None) -> tuple[str, str | None]:
    """The word of the job file and the note; words that are none are kept as a note. A near miss is a slip."""
    folded = " ".join(what.lower().replace("-", " ").split())
    if folded in WHATS:
        return folded, note
    near = difflib.get_close_matches(folded, WHATS, n=1, cutoff=0.75)
    if near:
        raise typer.BadParameter(f"seen {what!r}: {near[0]!r}? Else say other, with --note for the words")
    return "other", f"{what}; {note}" if note else what


def undo(db: str | None, name: str) -> list[str]:
    """Strike out the last entry that stands."""
    with kept(db) as store:
        places = {snapshot.id: place for place, snapshot in enumerate(store.snapshots(name), start=1)}
        struck = store.undo(name)
        left = store.entries(name)
    lines = [f"{name}: struck out, {entry_words(struck, places)}",
             "  it stays in the store and no longer counts; to have it back, enter it again"]
    last = f"last entry now: {entry_words(left[-1], places)}" if left else "nothing is left that counts"
    return [*lines, f"  {last}"]
