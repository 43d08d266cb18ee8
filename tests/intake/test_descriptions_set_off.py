"""Statuses behind descriptions and before lists, lists of modules in a line, and what stands in cells beside codes."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of, scans, told
from triage.intake.read import read_text

_SENTENCES = [
    # A status behind a description between commas.
    ("The left headlamp reports U0131, lost contact with the steering, not active. ABS has C0035, wheel sensor, loose "
     "plug, failing now; C0040 (31), right wheel sensor, in memory.",
     {"headlamp, left": ["U0131 stored"], "anti-lock brakes": ["C0035 current", "C0040-31 stored"]}),
    ("Engine has P0562, supply low, stored, P0113, intake air, active. ABS has U0100, wheel loose, C0035.",
     {"engine control": ["P0562 stored", "P0113 current"], "anti-lock brakes": ["U0100", "C0035"]}),
    # "There is" leads from a name that no table holds to its codes.
    ("In the XQU there is B1A67, internal fault, pending. In the ZBU there is B1A68, active; U0101, stored.",
     {"XQU": ["B1A67 pending"], "ZBU": ["B1A68 current", "U0101 stored"]}),
    ("In der XQU gibt es B1A67, gespeichert. ABS hat C0035, aktiv.",
     {"XQU": ["B1A67 stored"], "anti-lock brakes": ["C0035 current"]}),
    ("In the glove box there is a note: P0562. ABS has C0035.",
     {"module not stated": ["P0562"], "anti-lock brakes": ["C0035"]}),
    # A status that opens its sentence.
    ("Stored are P0562 in the engine, U0100 in the cluster and C0035 in the ABS. Active is only U0140 in the cluster.",
     {"engine control": ["P0562 stored"], "instrument cluster": ["U0100 stored", "U0140 current"],
      "anti-lock brakes": ["C0035 stored"]}),
    ("Aktuell vorhanden sind P0562 im Motor und U0100 im Kombiinstrument. Gespeichert ist C0035 im ABS.",
     {"engine control": ["P0562 current"], "instrument cluster": ["U0100 current"],
      "anti-lock brakes": ["C0035 stored"]}),
    ("Active is P0562 in the ECM.", {"engine control": ["P0562 current"]}),
    ("Still present was the noise. P0562 in the ECM, U0100 in the BCM.",
     {"engine control": ["P0562"], "body control": ["U0100"]}),
    ("Présent : C0035 dans ABS, U0428 dans ABS. En mémoire : U0121 dans ECM, U0415 dans BCM.",
     {"anti-lock brakes": ["C0035 current", "U0428 current"], "engine control": ["U0121 stored"],
      "body control": ["U0415 stored"]}),
    # Of which codes it is said.
    ("ABS/TC had C0750 and C0755, those are active. ECM has P0562, P0563. They are both stored.",
     {"anti-lock brakes": ["C0750 current", "C0755 current"], "engine control": ["P0562 stored", "P0563 stored"]}),
    ("The gateway is free of faults, as is the seat module. The radio is silent, as is usual. ABS has C0035.",
     {"gateway": ["clean"], "seat": ["clean"], "radio": ["silent"], "anti-lock brakes": ["C0035"]}),
    # In brackets behind their codes names that no table holds stand as known ones do.
    ("Current: U0155 (87) (EPS), U3006 (17) (XQU), P0562 (ECM)",
     {"power steering": ["U0155-87 current"], "XQU": ["U3006-17 current"], "engine control": ["P0562 current"]}),
]


@pytest.mark.parametrize(("text", "modules"), _SENTENCES)
def test_sentences_tell_statuses_and_names(text: str, modules: dict[str, list[str]]) -> None:
    assert modules_of(text) == modules


_LINES = [
    # Several modules in a line, also such as no table knows.
    ("Gateway 0 faults; ABS C0035[96] inactive; Exhaust treatment U0151[87] inactive; Radio no codes",
     {"gateway": ["clean"], "anti-lock brakes": ["C0035-96 stored"], "reductant": ["U0151-87 stored"],
      "radio": ["clean"]}),
    ("bcm b14c3 active / ret not fitted / xqu u0184 + u3006 not present / ecm no comms",
     {"body control": ["B14C3 current"], "xqu": ["U0184 stored", "U3006 stored"], "engine control": ["silent"]}),
    ("ABS C0035 stored; open circuit C0040; Airbag ok",
     {"anti-lock brakes": ["C0035 stored", "C0040"], "restraints": ["clean"]}),
    # A line that ends a sentence is not wrapped.
    ("central electrics? B1A4C:00, U3003:16 and U0151.\naudio unit (IHU)? B14C3.\nbrakes? U0415:86.",
     {"body control": ["B1A4C-00", "U3003-16", "U0151"], "radio": ["B14C3"], "anti-lock brakes": ["U0415-86"]}),
    # A computer of the vehicle is a module, whatever a vehicle's name makes of other lines.
    ("Ordenador de vehículo\n    U0415 81: Datos – presente ahora\nRadio\n    U3006 16: Tensión – memorizado",
     {"Ordenador de vehículo": ["U0415-81 current"], "radio": ["U3006-16 stored"]}),
    # The failure type with what it means.
    ("| System | Code | Fault type | Status |\n| --- | --- | --- | --- |\n| ABS | C0035 | 00 no subtype | active |\n"
     "| Airbag | U0140 | 87 missing message | stored |",
     {"anti-lock brakes": ["C0035-00 current"], "restraints": ["U0140-87 stored"]}),
    ("Module,Code,Fault type,Status\nABS,C0035,12 V supply low,active\nECM,P0562,16,stored",
     {"anti-lock brakes": ["C0035 current"], "engine control": ["P0562-16 stored"]}),
    # A maker's own number with its description and status.
    ("Module,Scan result,DTC\nECM,answered,U0151 No messages (not present)\nABS,answered,01976 Pump relay (active)\n"
     "Radio,no fault codes,",
     {"engine control": ["U0151 stored"], "anti-lock brakes": ["01976 current"], "radio": ["clean"]}),
    # What can't be read is not clean.
    ("Module,Scan result,DTC\nECM,answered,U0151 No messages (not present)\nABS,answered,1976 Pump relay\n"
     "Radio,no fault codes,",
     {"engine control": ["U0151 stored"], "radio": ["clean"]}),
    # Commas in quotation marks part no cells.
    ('phase,module,dtc,description,state\nbefore clear,Engine,P0562,"Supply voltage, low",stored\n'
     'before clear,Engine,P0491,"Secondary air, bank 1",active\nbefore clear,Cluster,U0100,"Engine, missing",stored',
     {"engine control": ["P0562 stored", "P0491 current"], "instrument cluster": ["U0100 stored"]}),
]


@pytest.mark.parametrize(("text", "modules"), _LINES)
def test_lines_and_cells_tell_modules_and_codes(text: str, modules: dict[str, list[str]]) -> None:
    assert modules_of(text) == modules


def test_name_keeps_its_kind_before_a_bracket() -> None:
    assert scans("Calculateur moteur (CMM) : P0562 mémorisé") == [" | Calculateur moteur (CMM): P0562 stored"]


_SUPPLY = [
    ("Terminal 30,11.2 V\nModule,Scan result,DTC\nECM,answered,P0562 (stored)",
     "11.2 V | engine control: P0562 stored"),
    ("System voltage;12.9 V;min.;10.8 V\nUnit;Outcome;DTC\nECM;answered;P0562 (stored)",
     "12.9/10.8 V | engine control: P0562 stored"),
    ("Scan;Voltage;Min. voltage;Module;Code;Status\nbefore clear;12.1;9.8;ABS;C0035;stored\n"
     "before clear;12.1;9.8;ECM;P0562;stored",
     "before-clear 12.1/9.8 V | anti-lock brakes: C0035 stored; engine control: P0562 stored"),
    ("ABS has C0035. Alternator was new in May, it's putting out 14.3 V now", "14.3 V | anti-lock brakes: C0035"),
    ("ABS has C0035. Changed the wheel sensor, it's putting out 11.3 V", " | anti-lock brakes: C0035"),
    ("tipper,  24v sys  22.4 v\n\nABS - C0035 active", "22.4 V | anti-lock brakes: C0035 current"),
    ("The customer says it began after the winch was fitted.\nABS: C0035 stored", " | anti-lock brakes: C0035 stored"),
    ("Warning lamp came on after new brake pads were fitted.\nABS: C0035 stored", " | anti-lock brakes: C0035 stored"),
    ("Passing this on as it came in.\nABS: C0035 stored", " | anti-lock brakes: C0035 stored"),
    ("Scan as it came in.\nABS: C0035 stored", "before-clear | anti-lock brakes: C0035 stored"),
]


@pytest.mark.parametrize(("text", "line"), _SUPPLY)
def test_supply_and_phase_are_told(text: str, line: str) -> None:
    assert told(text).startswith(line)


@pytest.mark.parametrize(("when", "volts"), [("when I plugged in", (10.7, None)), ("while cranking", (None, 10.7))])
def test_what_the_supply_was_down_to_is_its_lowest_only_where_more_is_told(
        when: str, volts: tuple[float | None, float | None]) -> None:
    scan = read_text(f"Battery was down to 10.7 V {when}. ABS has C0035 stored.", load()).snapshots[0]
    assert (scan.volts, scan.lowest_volts) == volts


def test_arrows_stand_around_what_is_said_of_a_scan() -> None:
    text = "ABS - C0035 active\n\n>>>> cleared it all & read again  >>>>  12.9 v\n\nABS - none"
    assert scans(text)[1] == "after-clear 12.9 V | ABS: clean"


def test_a_module_without_codes_heads_none_below_it() -> None:
    text = ("ABS - C0035 - memorizado\nMódulo de remolque - 0 fallos\nMódulo de carrocería - B1000 - permanente\n"
            "Sensor de ángulo de dirección - C0460 - memorizado")
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored"], "trailer": ["clean"],
                                "body control": ["B1000 current"], "steering angle sensor": ["C0460 stored"]}


@pytest.mark.parametrize("mark", ["  ", ": ", " - "])
@pytest.mark.parametrize(("first", "second", "third"), [
    ("active", "stored and present now", "pending"), ("aktiv", "gespeichert", "sporadisch"),
    ("présent", "mémorisé", "en attente"), ("activo", "memorizado", "pendiente")])
def test_a_description_that_is_a_name_behind_a_status_and_a_code(
        mark: str, first: str, second: str, third: str) -> None:
    text = (f"SRS{mark}{first} B 1052:13 Belt buckle left open; {second} B 0028:1F Right side airbag deployment "
            f"control; {third} U 0140:00 Lost communication with body control module\n")
    read = modules_of(text)
    assert list(read) == ["restraints"]
    assert [entry.split()[0] for entry in read["restraints"]] == ["B1052-13", "B0028-1F", "U0140-00"]


def test_names_before_their_statuses_are_no_descriptions() -> None:
    assert modules_of("SRS  active B0028; ABS stored C0035; Radio pending U0100\n") == {
        "restraints": ["B0028 current"], "anti-lock brakes": ["C0035 stored"], "radio": ["U0100 pending"]}


@pytest.mark.parametrize(("told", "status"), [
    ("ABS has U0100 and U0121, the two of them historic.", "stored"),
    ("ABS has U0100 and U0121, the two of them unconfirmed", "pending"),
    ("ABS hat U0100 und U0121, alle beide passiv", "stored"),
    ("ABS : U0100 et U0121, tous deux inactifs", "stored"),
    ("ABS has U0100 - the two of them are in the radio", None),
])
def test_a_status_of_the_two_of_them_is_that_of_both(told, status):
    scan = read_text(f"BCM: P0562 stored\n{told}\nRadio: ok\n", load()).snapshots[0]
    [abs_] = [module for module in scan.modules if module.module == "anti-lock brakes"]
    assert {code.status for code in abs_.codes} == {status}
