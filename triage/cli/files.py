"""Files and standard input for the commands: the only place of the command line that reads them."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, cast, get_args

from triage.errors import InputError
from triage.model.notices import Notice, stop_at_several_vehicles
from triage.model.session import Session
from triage.model.snapshot import PHASES, OutsideSupply, Phase

if TYPE_CHECKING:
    from triage.intake.gather import Part
    from triage.intake.read import Reading
    from triage.supply.trace import Trace

#: A scan of 60 modules is some 100 kB; more than this is a log or a picture.
LARGEST = 64 * 1024 * 1024
#: Several hours of a voltage log at 1 kHz.
LARGEST_TRACE = 512 * 1024 * 1024
OUTSIDE: tuple[str, ...] = get_args(OutsideSupply)
#: A branch is taken for a module (its gateway) only where its name surely is one.
SURELY = 95.0


def read_input(file: Path, largest: int = LARGEST) -> bytes:
    """The bytes of ``file`` (- is standard input), at most ``largest``. Raises InputError in one line."""
    if str(file) == "-":
        return sys.stdin.buffer.read(largest + 1)
    try:
        size = file.stat().st_size
        if size > largest:
            raise InputError(f"{file}: {size / 1e6:.0f} MB is too large for a scan; at most {largest / 1e6:.0f} MB are "
                             "read: save the scan alone, or use `triage trace` for a voltage log")
        return file.read_bytes()
    except IsADirectoryError:
        raise InputError(f"{file}: this is a folder; give the files in it") from None
    except OSError as error:
        raise InputError(f"{file}: can't be read: {error.strerror or error}") from None


def write_output(file: Path, content: str | bytes) -> None:
    """Write ``content`` to ``file`` whole or not at all. Raises InputError in one line."""
    beside = file.with_name(f"{file.name}.part")
    try:
        beside.write_bytes(content if isinstance(content, bytes) else content.encode())
        beside.replace(file)
    except OSError as error:
        raise InputError(f"{file}: can't be written: {error.strerror or error}") from None


def read_file(file: Path) -> Reading:
    """What the reader makes of ``file``."""
    from code_tables import load
    from triage.intake.read import read_bytes

    return read_bytes(read_input(file), load(), source="standard input" if str(file) == "-" else str(file))


def stop_if_strict(notices: Sequence[Notice], strict: bool) -> None:
    """With --strict the first warning is fatal."""
    first = next((notice for notice in notices if notice.severity == "warning"), None) if strict else None
    if first is not None:
        raise InputError(first.show().replace(": warning:", ":", 1))


def session_from_files(
    files: Sequence[Path], phases: Sequence[str] | None, volts: Sequence[str] | None, lowest: Sequence[str] | None,
    outside: Sequence[str] | None, *, strict: bool,
) -> tuple[Session, list[Notice]]:
    """One session of ``files``; the lists say phase, volts, lowest volts and outside supply by file order."""
    from triage.intake.gather import Part, gather

    parts: list[Part] = []
    for place, file in enumerate(files):
        reading = read_file(file)
        part = Part(str(file), reading.snapshots, reading.vehicle, reading.events, reading.notices)
        part.phase = cast("Phase | None", _choice(_at(phases, place), PHASES, "--phase"))
        part.volts = _number(_at(volts, place), "--volts")
        part.lowest_volts = _number(_at(lowest, place), "--lowest")
        part.outside_supply = cast("OutsideSupply | None", _choice(_at(outside, place), OUTSIDE, "--outside-supply"))
        parts.append(part)
    session, notices = gather(_job_name(files), parts)
    stop_at_several_vehicles(notices)
    stop_if_strict(notices, strict)
    return session, notices


def add_trace(session: Session, notices: list[Notice], file: Path) -> Session:
    """``session`` with the supply that the voltage log in ``file`` tells; what was taken is added to ``notices``."""
    from triage.supply.filling import with_trace

    trace, guessed = trace_of(file)
    filled, taken = with_trace(session, trace)
    notices += [*guessed, *taken]
    return filled


def trace_of(file: Path) -> tuple[Trace, list[Notice]]:
    """The trace in ``file`` and what was guessed of it. Raises InputError if it holds no readable voltage."""
    from triage.supply.trace import read_trace

    trace, notices = read_trace(_text(file), source=str(file))
    if trace is None:
        raise InputError(notices[-1].message if notices else f"{file}: no voltages found")
    return trace, notices


def _text(file: Path) -> str:
    """The text of a voltage log, whatever its encoding."""
    data = read_input(file, largest=LARGEST_TRACE)
    for encoding in ("utf-16",) if data[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8-sig", "latin-1"):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise InputError(f"{file}: not text; expected rows of time and volts, for example '12.5,12.43'")


def topology_in(file: Path, notices: list[Notice]) -> dict[str, str]:
    """Canonical module -> branch, as ``file`` has it; rows that can't be used are added to ``notices``."""
    from code_tables import load
    from triage.intake.naming.modules import resolve
    from triage.relations.topology import read_topology

    tables = load()

    def branch_name(text: str) -> str:
        match = resolve(text, tables)
        return match.canonical if match.score >= SURELY else text

    data = read_input(file)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("latin-1")
    found, told = read_topology(text, lambda name: resolve(name, tables).canonical, branch_name, source=str(file))
    if not found:
        raise InputError(f"{file}: no branch in it; expected one module a line, for example 'ABS,chassis CAN'")
    notices += told
    return found


def demo_files() -> list[Path]:
    """The demo's scans, installed with the program."""
    return sorted((Path(__file__).parent.parent / "demo").glob("*.txt"))


def _job_name(files: Sequence[Path]) -> str:
    stems = [file.stem for file in files if str(file) != "-"]
    return stems[0] if stems else "standard input"


def _at(values: Sequence[str] | None, place: int) -> str | None:
    value = values[place] if values and place < len(values) else None
    return None if value in (None, "-", "") else value


def _choice(value: str | None, allowed: Sequence[str], option: str) -> str | None:
    if value is None:
        return None
    word = value.strip().lower().replace("_", "-") if option == "--phase" else value.strip().lower()
    if word in allowed:
        return word
    raise InputError(f"{option}: seen {value!r}, expected one of {', '.join(allowed)}")


def _number(value: str | None, option: str) -> float | None:
    if value is None:
        return None
    try:
        number = float(value.strip().rstrip("Vv").replace(",", "."))
    except ValueError:
        raise InputError(f"{option}: seen {value!r}, expected volts, for example 12.4, or - to leave it out") from None
    if not 0.0 <= number <= 40.0:
        raise InputError(f"{option}: seen {value!r}, expected 0 to 40 V")
    return number
