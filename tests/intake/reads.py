"""What a text was read as, in short, for the tests of the reader."""

from __future__ import annotations

from code_tables import load
from triage.intake.read import read_text


def modules_of(text: str) -> dict[str, list[str]]:
    """By module: its codes with failure type and status, or "silent" or "clean"."""
    found: dict[str, list[str]] = {}
    for module in read_text(text, load()).snapshots[0].modules:
        entries = []
        for code in module.codes:
            typed = f"{code.code}-{code.failure_type}" if code.failure_type else code.code
            entries.append(f"{typed} {code.status}" if code.status else typed)
        found[module.module] = entries or ["clean" if module.responds else "silent"]
    return found


def told(text: str) -> str:
    """The first scan in one line: phase, volts, lowest volts and engine, then each module with what it holds."""
    scan = read_text(text, load()).snapshots[0]
    volts = "/".join(str(value) for value in (scan.volts, scan.lowest_volts) if value is not None)
    head = " ".join(part for part in (scan.phase, volts and f"{volts} V", scan.engine) if part)
    return f"{head} | " + "; ".join(f"{name}: {', '.join(held)}" for name, held in modules_of(text).items())


def scans(text: str) -> list[str]:
    """Each scan in one line: phase, volts and lowest volts, then each module with its codes, "clean" or "silent"."""
    found = []
    for scan in read_text(text, load()).snapshots:
        volts = "/".join(str(value) for value in (scan.volts, scan.lowest_volts) if value is not None)
        head = " ".join(part for part in (scan.phase, volts and f"{volts} V") if part)
        held = [f"{module.printed}: {' '.join(f'{code.code} {code.status or str()}'.strip() for code in module.codes)}"
                if module.codes else f"{module.printed}: {'clean' if module.responds else 'silent'}"
                for module in scan.modules]
        found.append(f"{head} | {'; '.join(held)}")
    return found


def printed(text: str) -> str:
    """The first scan in one line: its volts, then each module as printed with its own volts and what it holds."""
    scan = read_text(text, load()).snapshots[0]
    parts = [f"{scan.volts} V"] if scan.volts is not None else []
    for module in scan.modules:
        own = f" {module.volts} V" if module.volts is not None else ""
        held = [f"{code.code}-{code.failure_type}" if code.failure_type else code.code for code in module.codes]
        parts.append(f"{module.printed}{own}: {' '.join(held) or ('clean' if module.responds else 'silent')}")
    return "; ".join(parts)
