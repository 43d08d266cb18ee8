"""The commands that keep sessions; `triage shortlist FILES` needs none of them. Imports stand inside each."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from triage.cli import keep_options as o


def open_(
    name: o.Name, vehicle: o.Label = None, vin: o.Vin = None, nominal_volts: o.Nominal = None, drive: o.Drive = None,
    battery: o.Battery = None, complaint: o.Complaint = None, model_year: o.ModelYear = None, db: o.Db = None,
) -> None:
    """Begin a session: one occasion at one vehicle, kept under a name."""
    from triage.cli.keep_visit import open_session
    from triage.cli.keep_words import lines_out
    from triage.cli.output import emit

    emit(lines_out(open_session(db, name, o.told(
        label=vehicle, vin=vin, nominal_volts=nominal_volts, drive=drive, battery=battery, complaint=complaint,
        model_year=model_year))))


def paste(
    name: o.Name, file: o.ScanFile = None,
    text: Annotated[str | None, typer.Option("--text", help="The scan itself, in place of a file.")] = None,
    phase: o.Phase = None, volts: o.Volts = None, lowest: o.Lowest = None, outside_supply: o.Outside = None,
    engine: o.Engine = None, ran_minutes: o.Ran = None, module: o.Rename = None, who: o.Who = None, db: o.Db = None,
    as_json: o.Json = False,
) -> None:
    """Add a scan to a session; its phase is guessed from what came before, and the reason said."""
    from triage.cli.keep_visit import paste as keep_paste
    from triage.cli.keep_visit import paste_json, paste_lines
    from triage.cli.keep_words import json_out, lines_out, notice_lines
    from triage.cli.output import emit

    if file is not None and text is not None:
        raise typer.BadParameter("give a file or --text, not both")
    changes = o.told(volts=volts, lowest_volts=lowest, outside_supply=outside_supply, engine=engine,
                     ran_minutes=ran_minutes)
    snapshots, places, reading, more = keep_paste(db, name, file, text, phase, changes, o.renames(module), who)
    if as_json:
        emit(json_out(paste_json(snapshots, places, reading)))
        return
    emit(lines_out(paste_lines(name, snapshots, places, reading, more)) + notice_lines(reading.notices))


def correct(
    name: o.Name,
    snapshot: Annotated[int | None, typer.Argument(
        min=1, help="Number of the snapshot, from 1; without it, the vehicle is corrected.",
        show_default=False)] = None,
    phase: o.Phase = None, volts: o.Volts = None, lowest: o.Lowest = None, outside_supply: o.Outside = None,
    engine: o.Engine = None, ran_minutes: o.Ran = None, at: o.At = None, module: o.Rename = None,
    vehicle: o.Label = None, vin: o.Vin = None, nominal_volts: o.Nominal = None, drive: o.Drive = None,
    battery: o.Battery = None, complaint: o.Complaint = None, model_year: o.ModelYear = None, who: o.Who = None,
    db: o.Db = None,
) -> None:
    """Put right what was understood of a scan, or what is known of the vehicle; the scan stays as it came."""
    from triage.cli.keep_visit import correct as keep_correction
    from triage.cli.keep_words import lines_out
    from triage.cli.output import emit

    changes = o.told(phase=phase, volts=volts, lowest_volts=lowest, outside_supply=outside_supply, engine=engine,
                     ran_minutes=ran_minutes, at=at)
    rename = o.renames(module)
    about = o.told(label=vehicle, vin=vin, nominal_volts=nominal_volts, drive=drive, battery=battery,
                   complaint=complaint, model_year=model_year)
    if snapshot is None and (changes or rename):
        raise typer.BadParameter("say the number of the snapshot these are about: triage correct NAME SNAPSHOT ...")
    if snapshot is not None and about:
        raise typer.BadParameter("the vehicle is corrected without the number of a snapshot")
    if not (changes or rename or about):
        raise typer.BadParameter("nothing to correct was given; see triage correct --help")
    emit(lines_out(keep_correction(db, name, snapshot, changes, rename, about, who)))


def note(
    name: o.Name,
    what: Annotated[str | None, typer.Argument(
        help="What was done: " + ", ".join(o.WHATS) + "; free words are read for these, else kept as a note.",
        show_default=False)] = None,
    module: Annotated[str | None, typer.Option("--module", help="The module it was done to, or measured in.")] = None,
    part: Annotated[str | None, typer.Option(
        "--part", parser=o.one_of(o.PARTS), metavar="|".join(o.PARTS), help="Kind of part fitted.")] = None,
    answer: Annotated[str | None, typer.Option(
        "--answer", parser=o.one_of(o.ANSWERS), metavar="|".join(o.ANSWERS), help="What the module answered.")] = None,
    remark: Annotated[str | None, typer.Option("--note", help="Further words.")] = None,
    at: o.At = None,
    reading: Annotated[list[str] | None, typer.Option(
        "--reading", metavar='"NAME=VALUE UNIT"', help="A measurement, for example \"key-off draw=0.05 A\".")] = None,
    snapshot: Annotated[int | None, typer.Option("--snapshot", min=1, help="Snapshot the measurement is of.")] = None,
    trace: Annotated[Path | None, typer.Option("--trace", metavar="FILE", help="A voltage log.")] = None,
    who: o.Who = None, db: o.Db = None,
) -> None:
    """Keep what was done (cleared, replaced, drove, ...), a measurement, or a voltage log."""
    from triage.cli.keep_measured import note_readings, note_trace, reading_of
    from triage.cli.keep_visit import note_event
    from triage.cli.keep_words import lines_out
    from triage.cli.output import emit

    if sum(map(bool, (what, reading, trace))) != 1:
        raise typer.BadParameter("give one of these: what was done, --reading (several may be), or --trace")
    if not what and (part or answer or remark or at):
        raise typer.BadParameter("--part, --answer, --note and --at go with what was done: " + ", ".join(o.WHATS))
    if snapshot is not None and not reading:
        raise typer.BadParameter("--snapshot goes with --reading")
    if what:
        lines = note_event(db, name, what, who, module=module, part=part, answer=answer, note=remark, at=at)
    elif trace:
        lines = note_trace(db, name, trace, who)
    else:
        lines = note_readings(db, name, [reading_of(text, module) for text in reading or ()], snapshot, who)
    emit(lines_out(lines))


def sessions(
    name: Annotated[str | None, typer.Argument(
        help="One session in full: snapshots by number, who did what when.", show_default=False)] = None,
    vehicle: Annotated[str | None, typer.Option("--vehicle", help="Only those of this vehicle (name or VIN).")] = None,
    db: o.Db = None, as_json: o.Json = False,
) -> None:
    """List the sessions, or show one in full, with what was struck out."""
    from triage.cli.keep_list import record_lines, session_lines, sessions_of
    from triage.cli.keep_visit import kept
    from triage.cli.keep_words import json_out, lines_out, record_json, session_json
    from triage.cli.output import emit

    if name is not None and vehicle is not None:
        raise typer.BadParameter("give the name of a session or --vehicle, not both")
    with kept(db) as store:
        if as_json:
            emit(json_out(record_json(store, name) if name is not None
                          else [session_json(session) for session in sessions_of(store, vehicle)]))
        else:
            emit(lines_out(record_lines(store, name) if name is not None else session_lines(store, vehicle)))


def undo(name: o.Name, db: o.Db = None) -> None:
    """Strike out the last entry of a session; it stays in the store and no longer counts."""
    from triage.cli.keep_visit import undo as strike
    from triage.cli.keep_words import lines_out
    from triage.cli.output import emit

    emit(lines_out(strike(db, name)))


def export(
    names: Annotated[list[str] | None, typer.Argument(
        help="Names of the sessions; none: all.", metavar="[NAME]...", show_default=False)] = None,
    out: Annotated[Path | None, typer.Option(
        "--out", metavar="FILE", help="The job file; else standard output.")] = None,
    db: o.Db = None,
) -> None:
    """Write sessions as a job file, one JSON object a line: scans, events and measurements as they count."""
    from triage.cli.files import write_output
    from triage.cli.keep_list import export as jobs_of
    from triage.cli.keep_list import left_behind
    from triage.cli.keep_visit import kept
    from triage.cli.keep_words import lines_out, many
    from triage.cli.output import emit

    with kept(db) as store:
        text = jobs_of(store, names)
        more = left_behind(store, names)
    if out is None or str(out) == "-":
        emit(text)
        return
    write_output(out, text)
    emit(lines_out([f"{many(text.count(chr(10)), 'session')} written to {out}", *more]))


def import_(
    file: Annotated[Path, typer.Argument(help="A job file: JSON or JSON Lines; - is standard input.")],
    who: o.Who = None, db: o.Db = None,
) -> None:
    """Add the sessions of a job file, all or none; one that is there already and the same is passed over."""
    from triage.cli.files import read_input
    from triage.cli.keep_list import read_jobs
    from triage.cli.keep_visit import kept
    from triage.cli.keep_words import lines_out, many
    from triage.cli.output import emit

    jobs = read_jobs(read_input(file), "standard input" if str(file) == "-" else str(file))
    with kept(db, make=True) as store:
        added = store.import_jobs(jobs, who)
    there = len(jobs) - len(added)
    emit(lines_out([f"{many(len(added), 'session')} added" + (f", {there} there already" if there else ""),
                    *(f"  {name}" for name in added)]))


def compare(
    earlier: Annotated[str, typer.Argument(help="Name of the earlier session.", show_default=False)],
    later: Annotated[str, typer.Argument(help="Name of the later one.", show_default=False)],
    db: o.Db = None, as_json: o.Json = False,
) -> None:
    """Hold two sessions side by side: what came back, what is new, and where the earlier verdict was wrong."""
    from triage.cli.keep_list import compare as hold_against
    from triage.cli.keep_list import comparison_json, comparison_lines
    from triage.cli.keep_visit import kept
    from triage.cli.keep_words import json_out, lines_out
    from triage.cli.output import emit

    with kept(db) as store:
        found, remarks = hold_against(store, earlier, later)
    emit(json_out(comparison_json(found, remarks)) if as_json else lines_out(comparison_lines(found, remarks)))


def outcome(
    name: o.Name,
    module: Annotated[str | None, typer.Argument(help="Module of the fault.", show_default=False)] = None,
    code: Annotated[str | None, typer.Argument(
        help="Its code, with the failure type if several are held: C0051-54.", show_default=False)] = None,
    done: Annotated[str, typer.Option("--done", help="What was done about it.", show_default=False)] = ...,  # type: ignore[assignment]
    cured: Annotated[str, typer.Option(
        "--cured", parser=o.one_of(o.CURED), metavar="|".join(o.CURED), help="Whether that cured it.",
        show_default=False)] = ...,  # type: ignore[assignment]
    found: Annotated[str | None, typer.Option(
        "--found", parser=o.one_of(o.CAUSES), metavar="|".join(o.CAUSES), help="The cause that was found.")] = None,
    rest: Annotated[bool, typer.Option(
        "--rest", help="All faults of the session that have no outcome yet, in place of MODULE CODE.")] = False,
    who: o.Who = None, db: o.Db = None, as_json: o.Json = False,
) -> None:
    """Record what was done about a fault and whether it cured it; the rates learn from the causes found."""
    from triage.cli.keep_learn import record_outcome
    from triage.cli.keep_words import json_out, lines_out
    from triage.cli.output import emit

    if rest == (module is not None) or (module is None) != (code is None):
        raise typer.BadParameter("give MODULE and CODE of one fault, or --rest for all without an outcome")
    fault = None if module is None or code is None else (module, code)
    lines, answer = record_outcome(db, name, fault, done=done, cured=cured, found=found, who=who)
    emit(json_out(answer) if as_json else lines_out(lines))


def calibration(db: o.Db = None, as_json: o.Json = False) -> None:
    """Hold what the verdicts said against what came true, and show the rates as your outcomes have changed them."""
    from code_tables import load
    from triage.cli.keep_learn import calibration_json, calibration_lines
    from triage.cli.keep_rates import learned
    from triage.cli.keep_visit import kept
    from triage.cli.keep_words import json_out, lines_out
    from triage.cli.output import emit

    with kept(db) as store:
        found, now = store.calibration(), learned(store, load())
    emit(json_out(calibration_json(found, now)) if as_json else lines_out(calibration_lines(found, now)))


def register(app: typer.Typer) -> None:
    """Put these commands on ``app``."""
    for name, command in (
        ("open", open_), ("paste", paste), ("correct", correct), ("note", note), ("undo", undo),
        ("sessions", sessions), ("compare", compare), ("export", export), ("import", import_), ("outcome", outcome),
        ("calibration", calibration),
    ):
        app.command(name)(command)
