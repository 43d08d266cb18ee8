"""Tables whose cells nothing parts any more: the head and what each column holds tell where they end."""

from __future__ import annotations

import pytest
from reads import modules_of, scans, told

TEXTS: list[tuple[str, dict[str, list[str]]]] = [
    (
        "Control unit Trouble code Fault text State Occurrences\n"
        "front radar B1000 internal fault confirmed 3\n"
        "front radar U0100 no messages from engine not present 12\n"
        "seat heater P0562 supply low pending 2\n"
        "roof module no response",
        {"front distance sensor": ["B1000 confirmed", "U0100 stored"], "seat heating": ["P0562 pending"],
         "sunroof": ["silent"]},
    ),
    (
        "DTC Module Status Description\n"
        "P0562 engine control stored supply low\n"
        "U0100 ABS active no data from engine",
        {"engine control": ["P0562 stored"], "anti-lock brakes": ["U0100 current"]},
    ),
    (
        "Module DTC FTB Description Status Count\n"
        "Engine P0562 16 supply low active 3\n"
        "Body U0100 00 engine lost stored 4",
        {"engine control": ["P0562-16 current"], "body control": ["U0100-00 stored"]},
    ),
    (
        "Module Code Description Status\n"
        "Engine P0562 supply low permanent (service 0A)\n"
        "ABS 01276 pump V64 signal missing active\n"
        "ABS C0035 sensor front left",
        {"engine control": ["P0562 permanent"], "anti-lock brakes": ["01276 current", "C0035"]},
    ),
    (
        "Steuergerät Code Zustand Text\n"
        "Lenkhilfe P0562 sporadisch 12-Volt-Seite niedrig\n"
        "Lenkhilfe U0100 aktuell vorhanden keine Daten\n"
        "Klimaanlage keine Fehler",
        {"power steering": ["P0562 stored", "U0100 current"], "climate control": ["clean"]},
    ),
    (
        "Engine P0562 supply low stored 3\n"
        "Engine U0100 lost active 1\n"
        "ABS C0035 sensor front left not present 22\n"
        "Body: no codes",
        {"engine control": ["P0562 stored", "U0100 current"], "anti-lock brakes": ["C0035 stored"],
         "body control": ["clean"]},
    ),
]


@pytest.mark.parametrize(("text", "modules"), TEXTS)
def test_lost_columns(text: str, modules: dict[str, list[str]]) -> None:
    assert modules_of(text) == modules


def test_two_blanks_between_a_date_and_a_time_are_no_cells() -> None:
    table = "Module  Code  Status\nABS  C0035  {}\nECM  no faults\n"
    first, second = (table.format(status) for status in ("stored", "active"))
    assert scans(f"Reading 03.04.2025 08:11\n{first}\nReading 03.04.2025  09:40\n{second}") == [
        " | ABS: C0035 stored; ECM: clean", " | ABS: C0035 current; ECM: clean"]


@pytest.mark.parametrize(
    ("said", "status"),
    [
        ("confirmed, not active now", "stored"),
        ("(confirmed, but not currently failing)", "stored"),
        ("confirmed / inactive", "stored"),
        ("in memory, not failling now", "stored"),
        ("bestätigt, aktuell nicht vorhanden", "stored"),
        ("confirmé, non actif actuellement", "stored"),
        ("confirmado, ya no presente", "stored"),
        ("confirmed and active", "current"),
        ("bestätigt, noch vorhanden", "current"),
        ("failed, not confirmed", "pending"),
        ("détecté, pas encore confirmé", "pending"),
    ],
)
@pytest.mark.parametrize(
    "text", ["ABS\n  C0035 {}", "ABS\n  C0035 pump motor - {}", "Module: ABS\nCode: C0035\nStatus: {}"])
def test_what_a_memory_holds_and_what_is_so_now(said: str, status: str, text: str) -> None:
    assert told(text.format(said)).endswith(f"anti-lock brakes: C0035 {status}")
