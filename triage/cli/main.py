"""The commands that work without a store: shortlist, read, explain, batch, trace, schema, demo."""

from __future__ import annotations

import gc
import os
import sys
from copy import copy
from pathlib import Path
from typing import Annotated

import typer
from typer.main import get_command_name

from triage.cli.keep import register
from triage.cli.keep_options import Db
from triage.cli.serve import register as register_serve
from triage.collector import collector_paused
from triage.errors import TriageError

app = typer.Typer(
    add_completion=False, no_args_is_help=True, rich_markup_mode=None, pretty_exceptions_enable=False,
    help="Separates low-voltage noise from hard faults in the trouble codes of a vehicle with a weak or dead 12 V "
         "supply: paste the scans, get a short list with its reasons.",
)

Files = Annotated[list[Path], typer.Argument(
    help="Scans in order: text, CSV, HTML, PDF or job JSON; - is standard input.", show_default=False)]
PhaseOption = Annotated[list[str] | None, typer.Option(
    "--phase", help="Phase by file order: before-clear, after-clear, after-run, after-repair.")]
VoltsOption = Annotated[list[str] | None, typer.Option("--volts", help="Supply by file order, V; - leaves it out.")]
LowestOption = Annotated[list[str] | None, typer.Option(
    "--lowest", help="Lowest supply since the scan before, by file order, V; - leaves it out.")]
OutsideOption = Annotated[list[str] | None, typer.Option(
    "--outside-supply", help="By file order: none, charger, jump pack, donor vehicle, unknown; - leaves it out.")]
StrictOption = Annotated[bool, typer.Option(
    "--strict", help="A warning about the input ends the command with status 1.")]


@app.command()
@collector_paused()
def shortlist(
    files: Files, phase: PhaseOption = None, volts: VoltsOption = None, lowest: LowestOption = None,
    outside_supply: OutsideOption = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print the verdict as JSON.")] = False,
    markdown: Annotated[bool, typer.Option("--markdown", help="Print Markdown for a message.")] = False,
    html: Annotated[bool, typer.Option("--html", help="Print the lead technician's page as one HTML file.")] = False,
    brief: Annotated[bool, typer.Option("--brief", help="Print five lines for a phone.")] = False,
    ledger: Annotated[bool, typer.Option("--ledger", help="Show the sum of every fault.")] = False,
    show_all: Annotated[bool, typer.Option("--all", help="Show every fault that was set aside.")] = False,
    trace: Annotated[Path | None, typer.Option(
        "--trace", help="Voltage log: supply at the times of scans that do not say it.")] = None,
    topology: Annotated[Path | None, typer.Option(
        "--topology", help="Which module is on which branch: a file of module,branch.")] = None,
    strict: StrictOption = False, db: Db = None,
) -> None:
    """Weigh the scans of one vehicle, or a kept session by its name, and print the short list with its reasons."""
    from triage.cli.files import add_trace, session_from_files, stop_if_strict, topology_in
    from triage.cli.keep_list import session_name, shortlist_of
    from triage.cli.output import emit, print_assessment

    name = session_name(files, db)
    if name is not None:
        from triage.cli.keep_words import quoted

        if trace or topology:
            raise typer.BadParameter("--trace and --topology go with files; a kept session keeps its own traces")
        if phase or volts or lowest or outside_supply:
            raise typer.BadParameter(f"a kept session is put right by `triage correct {quoted(name)} SNAPSHOT`")
        emit(shortlist_of(db, name, strict=strict, as_json=as_json, markdown=markdown, html=html, brief=brief,
                          ledger=ledger, show_all=show_all))
        return
    session, notices = session_from_files(files, phase, volts, lowest, outside_supply, strict=strict)
    if trace is not None:
        session = add_trace(session, notices, trace)
    branches = topology_in(topology, notices) if topology is not None else None
    stop_if_strict(notices, strict)
    emit(print_assessment(session, notices, as_json=as_json, markdown=markdown, html=html, brief=brief, ledger=ledger,
                          show_all=show_all, topology=branches))


@app.command()
@collector_paused()
def read(
    files: Files,
    as_json: Annotated[bool, typer.Option("--json", help="Print what was understood as JSON.")] = False,
    strict: StrictOption = False,
) -> None:
    """Show what was understood of a scan, with notices at their place."""
    from triage.cli.files import read_file, stop_if_strict
    from triage.cli.output import emit, print_reading

    readings = [read_file(file) for file in files]
    stop_if_strict([notice for reading in readings for notice in reading.notices], strict)
    emit(print_reading(readings, as_json=as_json))


@app.command()
def explain(
    code: Annotated[list[str], typer.Argument(help="A code in any spelling: P0562, U0100-87, 'SPN 168 FMI 4'.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Say what a code is: who defines it, what it is about, what its monitor needs, whom it points to."""
    from triage.cli.output import emit
    from triage.cli.words import explain_code

    emit(explain_code(" ".join(code), as_json=as_json))


@app.command()
def batch(
    jobs: Annotated[Path, typer.Argument(help="Job file, one JSON object a line; - is standard input.")],
    out: Annotated[Path | None, typer.Option("--out", help="Where the verdicts go; else standard output.")] = None,
    ledger: Annotated[bool, typer.Option("--ledger", help="Each fault with its sum.")] = False,
) -> None:
    """Weigh many sessions: JSON Lines in, one verdict a line out. A line that can't be used becomes an error line."""
    from triage.cli.stream import run_batch

    raise typer.Exit(run_batch(jobs, out, ledger=ledger))


@app.command()
def trace(
    file: Annotated[Path, typer.Argument(help="Voltage log: seconds or clock times and volts, any delimiter.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print segments and findings as JSON.")] = False,
    picture: Annotated[Path | None, typer.Option(
        "--picture", help="Draw the log with its segments and scans: a name that ends in .svg or .png.")] = None,
    scans: Annotated[list[Path] | None, typer.Option(
        "--scan", help="Scan or job file made beside the log, repeatable: times, events, outside supply.")] = None,
    nominal: Annotated[float | None, typer.Option("--nominal-volts", help="12 or 24; else by the trace.")] = None,
    battery: Annotated[str, typer.Option("--battery", help="flooded, AGM, lithium or unknown.")] = "unknown",
    outside_supply: Annotated[str | None, typer.Option(
        "--outside-supply", help="What was connected: none, charger, jump pack, donor vehicle, unknown.")] = None,
    outside_from: Annotated[float | None, typer.Option(
        "--outside-from", help="Second of the log at which it was put on; else connected from the start.")] = None,
    outside_to: Annotated[float | None, typer.Option(
        "--outside-to", help="Second of the log at which it was taken off; else connected to the end.")] = None,
    temperature: Annotated[float | None, typer.Option("--temperature", help="Of the battery, degrees Celsius.")] = None,
    rested: Annotated[float | None, typer.Option("--rested-hours", help="Hours the vehicle stood before.")] = None,
) -> None:
    """Find rest, crank, charging, sag and cycling in a voltage log, with what each figure means."""
    from triage.cli.output import emit
    from triage.cli.traces import Beside, print_trace

    beside = Beside(nominal, battery, outside_supply, outside_from, outside_to, temperature, rested, tuple(scans or ()))
    emit(print_trace(file, beside, as_json=as_json, picture=picture))


@app.command()
def schema() -> None:
    """Print the JSON Schema of the job file and of the verdict."""
    from triage.cli.output import emit
    from triage.cli.words import schemas

    emit(schemas())


@app.command()
def demo(
    ledger: Annotated[bool, typer.Option("--ledger", help="Show the sum of every fault.")] = False,
    show_all: Annotated[bool, typer.Option("--all", help="Show every fault that was set aside.")] = False,
) -> None:
    """Run the invented demo: a delivery van, lights left on through a cold week, three scans."""
    from triage.cli.files import demo_files, session_from_files
    from triage.cli.output import emit, print_assessment

    files = demo_files()
    emit("Invented demo data. The same with your own files: triage shortlist " + " ".join(f.name for f in files) + "\n")
    session, notices = session_from_files(files, None, None, None, None, strict=False)
    emit(print_assessment(session, notices, ledger=ledger, show_all=show_all))


register(app)
register_serve(app)


def narrowed(first: str) -> typer.Typer:
    """The app with no more than the command that ``first`` names; the whole app where it names none.

    typer works out the options of every command it is given, a twentieth of the time of a short list.
    """
    commands = {info.name or get_command_name(info.callback.__name__): info
                for info in app.registered_commands if info.callback is not None}
    if first not in commands:
        return app
    narrow = copy(app)
    # Of a single command typer makes a program without commands: one that takes no options stands beside it.
    narrow.registered_commands = [commands[first], commands["schema"]]
    return narrow


def main() -> None:
    """Run the command line; an error of the program's own is one line on standard error and exit status 1."""
    # To look for plugins, pydantic reads the metadata of every installed package; these models use none.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    # What a start loads stays to the end: nothing is found by going through it every 700 objects.
    gc.set_threshold(50_000, 20, 20)
    try:
        narrowed(sys.argv[1] if len(sys.argv) > 1 else "")()
    except TriageError as error:
        typer.echo(f"triage: {error}", err=True)
        sys.exit(1)
    except BrokenPipeError:
        # The reader of a pipe went away (head, less): nothing is wrong with the input.
        sys.stderr.close()
        sys.exit(0)
    finally:
        # The process ends here: without this the interpreter looks for cycles in all that was loaded once more.
        gc.freeze()
