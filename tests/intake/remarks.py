"""Remarks above and below a short scan, and what was read from them, in short, for the tests of the reader."""

from __future__ import annotations

from code_tables import load
from triage.intake.read import Reading, read_text

SCAN = "ECM P0300 stored\nABS no answer\nBCM no codes"
ABOVE = ("{line}\n{scan}", "{line}\n\n{scan}")
BELOW = ("{scan}\n\n{line}", "{scan}\n{line}")
_DEEDS = ("cleared", "replaced", "programmed", "battery disconnected")


def read_around(layout: str, line: str, scan: str = SCAN) -> Reading:
    """What a remark and a scan in a layout were read as."""
    return read_text(layout.format(line=line, scan=scan), load())


def remarked(layout: str, line: str) -> str:
    """What a remark tells of the scan: its voltages, the outside supply, the engine, the phase, what was done. First
    the number of the scans and the modules, where these are not the ones of the scan."""
    reading = read_around(layout, line)
    scan = reading.snapshots[-1]
    found = []
    if len(reading.snapshots) != 1 or [module.printed for module in scan.modules] != ["ECM", "ABS", "BCM"]:
        found.append(f"{len(reading.snapshots)} scans of {[module.printed for module in scan.modules]}")
    found += [f"{scan.volts:g} V"] if scan.volts is not None else []
    found += [f"lowest {scan.lowest_volts:g} V"] if scan.lowest_volts is not None else []
    if scan.outside_supply is not None:
        found.append("no outside supply" if scan.outside_supply == "none" else scan.outside_supply)
    found += [f"engine {scan.engine}"] if scan.engine is not None else []
    found += [f"ran {scan.ran_minutes:g} min"] if scan.ran_minutes is not None else []
    found += ["drove"] if scan.drove else []
    found += [scan.phase] if scan.phase is not None else []
    done = [event.what for event in reading.events]
    return ", ".join([*found, *(deed for deed in _DEEDS if deed in done)])
