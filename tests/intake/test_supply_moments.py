"""When a voltage was read: on arrival, at the scan, or as a code was set. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import printed
from triage.intake.read import read_text

ECM = "\nEngine: P0562 stored"


def supply(text: str) -> tuple[float | None, float | None]:
    """The voltage and the lowest of the first scan."""
    scan = read_text(text, load()).snapshots[0]
    return scan.volts, scan.lowest_volts


def stored(text: str) -> list[tuple[str, float | None, float | None]]:
    """Each code with its module's voltage and the one stored with it."""
    return [
        (code.code, module.volts, code.freeze_frame.volts if code.freeze_frame else None)
        for module in read_text(text, load()).snapshots[0].modules
        for code in module.codes
    ]


@pytest.mark.parametrize(
    "line",
    [
        "found the battery at 9.8V when i got there. put a charger on and then scanned it, battery now 12.4V.",
        "Battery was dead (9.8V when I arrived), charged it overnight, 12.4 V at the time of the scan.",
        "battery was flat (9.8V at the posts when i got there). charged it overnight, battery now 12.4V.",
        "battery was 9.8 V on arrival, 12.4 V with charger on",
        "9.8 V when I got there, 12.4 V now",
        "Battery 12.4 V now (9.8 V when I arrived)",
        "Battery read 9.8V this morning. 12.4V now.",
        "Battery 9.8 V before charging, 12.4 V after.",
        "Battery 9.8 V as found\nCharged to 12.4 V, then scanned:",
        "Battery at arrival: 9.8 V\nBattery at scan: 12.4 V",
        "Batterie bei Ankunft 9,8 V, nach dem Laden 12,4 V.",
        "Batterie à 9,8 V à mon arrivée, chargée, 12,4 V au moment du scan.",
        "Batería a 9,8 V al llegar, cargada, ahora 12,4 V",
    ],
)
def test_what_was_found_gives_way_to_the_supply_of_the_scan(line: str) -> None:
    assert supply(line + ECM) == (12.4, 9.8)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # Nothing was read after it: it is the supply.
        ("Battery 9.8 V when I arrived" + ECM, (9.8, None)),
        ("Battery 12.6 V on arrival, 11.4 V now" + ECM, (12.6, None)),
        # A charge behind the scan changes nothing of it.
        ("Battery 10.1 V" + ECM + "\nABS: no codes\n\nCharged to 12.4 V", (10.1, None)),
        # What is said behind a code is said of it.
        ("Van. Lowest voltage was 9.3 V. ECM gave me P0562 failing now.", (None, 9.3)),
    ],
)
def test_one_that_gives_no_way(text: str, expected: tuple[float | None, float | None]) -> None:
    assert supply(text) == expected


@pytest.mark.parametrize(
    "line",
    [
        "Voltage when code was set 9.6 V", "Voltage at fault: 9.6 V", "Battery voltage at time of fault 9.6 V",
        "Spannung bei Fehlereintritt: 9,6 V", "Tension lors du défaut : 9,6 V",
        "Tensión en el momento de la avería: 9,6 V",
    ],
)
def test_the_voltage_at_which_a_code_was_set(line: str) -> None:
    text = f"Engine: P0562 stored\n{line}\nABS: no codes\nSupply now 12.2 V"
    assert (stored(text), supply(text)) == ([("P0562", None, 9.6)], (12.2, None))
    assert stored(f"Engine\n  P0562-16 stored\n  {line}\nABS\n  C0035") == [("P0562", None, 9.6), ("C0035", None, None)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Engine: P0562 stored (9.6 V when set)", [("P0562", None, 9.6)]),
        ("Module | Code | Status | Voltage at fault\nECM | P0562 | stored | 9.6 V\nABS | C0035 | stored | 10.1 V",
         [("P0562", None, 9.6), ("C0035", None, 10.1)]),
        # Of which of two codes, nothing tells.
        ("Engine: P0562, P0563 stored\nVoltage when code was set 9.6 V",
         [("P0562", None, None), ("P0563", None, None)]),
    ],
)
def test_where_it_stands(text: str, expected: list[tuple[str, float | None, float | None]]) -> None:
    assert stored(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # Asked in one line of a chat, answered in the next.
        ("volts?\n11.6" + ECM, (11.6, None)),
        ("Max: volts?\nJo: 11.6" + ECM, (11.6, None)),
        ("[10:02] Max: what's the battery at?\n[10:03] Jo: 11.6 V rn\n[10:04] Jo: ECM P0562 stored", (11.6, None)),
        ("Spannung?\n11,6" + ECM, (11.6, None)),
        ("radio?\n11.6" + ECM, (None, None)),
        # Letters for digits, and words for them.
        ("Batt: l2.2 V" + ECM, (12.2, None)),
        ("Battery 1O.9V" + ECM, (10.9, None)),
        ("Battery eleven point eight volts" + ECM, (11.8, None)),
        ("Battery 11 point 8 volts" + ECM, (11.8, None)),
        ("was 9 point 1 on arrival, now 13 point 4 with charger" + ECM, (13.4, 9.1)),
        ("Batterie 11 Komma 8 Volt" + ECM, (11.8, None)),
        ("looked at pin 9 point 2 again" + ECM, (None, None)),
        ("Batterie 9,4 V beim Eintreffen, Ladegerät dran, jetzt 12,6" + ECM, (12.6, 9.4)),
        ("Bat 9,1 V bei der Ankunft. Lader dran, jetzt 12,8" + ECM, (12.8, 9.1)),
        ("batterie 9,3 V en arrivant, maintenant 12,4 V" + ECM, (12.4, 9.3)),
        ("battery is at twelve point one volts, lowest nine point six" + ECM, (12.1, 9.6)),
        ("Batterie elf Komma acht Volt" + ECM, (11.8, None)),
        ("Tension batterie onze virgule huit volts" + ECM, (11.8, None)),
        ("Batería a once coma ocho voltios" + ECM, (11.8, None)),
    ],
)
def test_a_voltage_written_as_it_is_spoken(text: str, expected: tuple[float | None, float | None]) -> None:
    assert supply(text) == expected


@pytest.mark.parametrize(
    ("line", "volts", "lowest"),
    [
        ("Battery tested 11.92 V rested, then supporting charger on. Reading at 13.4 V.", 13.4, 11.92),
        ("Battery 11.92 V rested. Charger on, reading at 13.4 V.", 13.4, 11.92),
        ("Battery 11.9 V, then charger on. Scan at 13.4 V.", 13.4, 11.9),
        ("Battery 11.8 V at rest, then put the charger on: 13.4 V", 13.4, 11.8),
        # Nothing was read after that, or nothing went on.
        ("Battery 12.4 V rested, then charger on.", 12.4, None),
        ("Battery 12.4 V rested", 12.4, None),
        ("Battery 12.4 V, charger on. Reading at 5.1 V on the sensor.", 12.4, None),
    ],
)
def test_a_rested_battery_makes_way_for_the_reading_on_the_charger(
    line: str, volts: float, lowest: float | None
) -> None:
    scan = read_text(f"{line}\nABS: C0035\n", load()).snapshots[0]
    assert (scan.volts, scan.lowest_volts) == (volts, lowest)


@pytest.mark.parametrize(("line", "expected"), [
    ("was 12.5 V, scanned at 11.7", (11.7, None)),
    ("it was 12.6 V when I arrived, read at 11.9 V", (11.9, None)),
    ("was 7.1 volts when I got there, now 12.9 on the charger", (12.9, 7.1)),
])
def test_the_voltage_of_the_scan_makes_way_for_none(line: str, expected: tuple[float, float | None]) -> None:
    assert supply(line + ECM) == expected


@pytest.mark.parametrize("line", ["Midibus 31, 24 V.", "Coach no. 8, 24 V", "Excavator 24 V"])
def test_a_round_voltage_beside_the_vehicle_is_nominal(line: str) -> None:
    reading = read_text(line + ECM, load())
    assert reading.snapshots[0].volts is None
    assert reading.vehicle is not None
    assert reading.vehicle.nominal_volts == 24.0


@pytest.mark.parametrize(("text", "expected"), [
    ("battery 11.6 v, tcm P0700 stored", "11.6 V; tcm: P0700"),
    ("11.6 v - tcm P0700", "11.6 V; tcm: P0700"),
    ("batt 11.6 v tcm P0700", "11.6 V; tcm: P0700"),
    ("Batterie 11,6 V, TCM P0700", "11.6 V; TCM: P0700"),
    ("12.4v battery - no codes in radio", "12.4 V; radio: clean"),
    ("11.6 v at the battery, no codes\ntcm P0700", "11.6 V; tcm: P0700"),
    ("ECM 11.9 V P0562\nTCM 12.1V P0700", "ECM 11.9 V: P0562; TCM 12.1 V: P0700"),
    ("48V battery P0A80", "48V battery: P0A80"),
    ("12V DC/DC converter - no codes\ntcm P0700", "12V DC/DC converter: clean; tcm: P0700"),
])
def test_no_name_of_a_module_holds_a_voltage(text: str, expected: str) -> None:
    assert printed(text) == expected


@pytest.mark.parametrize(("line", "expected"), [
    ("11.3v at the posts with nothing on it", ("none", ["Engine"])),
    ("customer came back. supply 11.3 V, nothing on it", ("none", ["Engine"])),
    ("radio with nothing on it", (None, ["radio", "Engine"])),
])
def test_nothing_on_the_battery_is_no_answer(line: str, expected: tuple[str | None, list[str]]) -> None:
    scan = read_text(line + ECM, load()).snapshots[0]
    assert (scan.outside_supply, [module.printed for module in scan.modules]) == expected


@pytest.mark.parametrize(("line", "minutes"), [
    ("After clear, engine run for a quarter of an hour", 15), ("after clear, ran it half an hour", 30),
    ("after clear, idled an hour", 60), ("Nach dem Löschen Motor eine halbe Stunde gelaufen", 30),
    ("apres effacement, moteur tourne une demi-heure", 30), ("tras borrar, motor en marcha tres cuartos de hora", 45),
    ("Après 8 minutes de moteur tournant", 8), ("Après 9 min avec le moteur en marche", 9),
    ("Tras 14 min con el motor en marcha", 14), ("Nach 6 Minuten mit laufendem Motor", 6),
    ("after clear, engine ran an hour ago", None), ("after clear, drove at 40 miles an hour", None),
])
def test_a_time_in_words(line: str, minutes: float | None) -> None:
    assert read_text(line + ECM, load()).snapshots[0].ran_minutes == minutes


@pytest.mark.parametrize(("line", "state"), [
    ("Read-out made during cranking", "cranking"), ("11.4 V, codes read while cranking", "cranking"),
    ("Beim Anlassen ausgelesen", "cranking"), ("Scan während des Motorstarts", "cranking"),
    ("relevé fait lors du démarrage", "cranking"), ("escaneo hecho durante el arranque", "cranking"),
    ("scan taken, fell to 9.2 V while cranking", None), ("chute à 8,8 V pendant le démarrage", None),
    ("lowest on the scan 8.1 V, dipped there during cranking", None), ("cayó a 8,2 V durante el arranque", None),
    ("Voiture en mode READY", "ready"), ("en modo ready", "ready"), ("im Ready-Modus", "ready"),
])
def test_a_scan_taken_while_the_starter_turned(line: str, state: str | None) -> None:
    scan = read_text(line + ECM, load()).snapshots[0]
    assert (scan.engine, [module.printed for module in scan.modules]) == (state, ["Engine"])


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("The lowest reading as the engine was cranked was 8.9 V; before that the meter stood at 12.2 V.", (12.2, 8.9)),
        ("dipped to 8.9 V cranking, 12.2 V before that", (12.2, 8.9)),
        ("Tiefste Spannung beim Starten 8,9 V, davor 12,2 V", (12.2, 8.9)),
        ("minimum au démarrage 8,9 V ; auparavant 12,2 V", (12.2, 8.9)),
        ("lowest was 8.9 V, before cranking 12.2 V", (12.2, 8.9)),
        ("8.9 V was the lowest on the starter, 12.2 V at rest", (12.2, 8.9)),
        ("Terminal 15 voltage: 12.2 V       Lowest while cranking: 8.9 V", (12.2, 8.9)),
        ("Tension borne 15 : 12,2 V       Minimum au démarrage : 8,9 V", (12.2, 8.9)),
        # What it was before something fed it is its lowest.
        ("With the booster 12.2 V, before that 8.9 V", (12.2, 8.9)),
    ],
)
def test_what_it_was_before_the_engine_was_cranked(line: str, expected: tuple[float | None, float | None]) -> None:
    assert supply(line + ECM) == expected


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("12v side sat at 12.2", 12.2), ("24 V circuit stood at 25.3", 25.3), ("12-V-Seite lag bei 12,2", 12.2),
        ("water under the rear seat!  batt 12.2v", 12.2), ("left over the weekend, battery 12.2 V", 12.2),
        ("battery under 12.2 V", None), ("below the minimum battery voltage 9.0 V", None),
        ("ALL SYSTEMS                 12.2 V", 12.2), ("Complete vehicle - results      24.3V", 24.3),
        ("Fuel system      12.2 V", None),
        ("battery sat at 12.2, motorway tomorow then rescan", 12.2),
        ("Batterie 12,2 V, nächste Woche Probefahrt und erneut auslesen", 12.2),
    ],
)
def test_whose_voltage_it_is_by_the_words_around_it(line: str, expected: float | None) -> None:
    assert supply(line + ECM)[0] == expected


def test_each_scan_of_a_sentence_has_the_supply_told_last_in_it() -> None:
    text = ("hi, before clearing the ecm had p0011 pending, tcm was clean. volts 12.2. after clearing ecm clean, tcm "
            "clean. volts 12.5. bill him 38.40")
    assert [(scan.phase, scan.volts) for scan in read_text(text, load()).snapshots] == [
        ("before-clear", 12.2), ("after-clear", 12.5)]


@pytest.mark.parametrize(("between", "readings"), [
    ("charged it 13 h on the bench, 12.7 V rest", {"battery at rest": 12.7}),
    ("batteries charged, A batt 12.7 B batt 12.3 after 2h rest",
     {"battery A": 12.7, "battery B": 12.3, "battery at rest": 25.0}),
])
def test_the_battery_at_rest_before_a_scan_is_not_the_supply_of_the_scan(
        between: str, readings: dict[str, float]) -> None:
    of_two = len(readings) > 1
    then, run = ("25.1", "28.2") if of_two else ("12.6", "14.2")
    text = (f"{'24' if of_two else '12'} V truck\nbefore clear\nECM: P0562\nABS: no codes\n{between}\ncleared 15:00\n"
            f"15:10 ign on {then} V\nECM: no codes\nABS: no codes\n15:40 engine run {run} V\nECM: no codes\n"
            "ABS: no codes\n")
    _, after, last = read_text(text, load()).snapshots
    assert (after.volts, last.volts, last.engine) == (float(then), float(run), "running")
    assert {one.name: one.value for one in after.readings or []} == readings
