"""Sentences and names that break off at the end of a line, whatever the widths. Invented texts."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

_BROKEN = [
    ("P0562 (stored) in the\nengine. C0044 (active) in the\nABS.",
     {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0044 current"]}),
    ("The ECM has P0562\nconfirmed and B1342 (active). The DDM shows U1123-81.",
     {"engine control": ["P0562 confirmed", "B1342 current"], "door, driver": ["U1123-81"]}),
    ("Radio hat U1123. Zentrales Gateway\nmeldet P0230-31 und U2789-87. Keine\nFehler in Klima.",
     {"radio": ["U1123"], "gateway": ["P0230-31", "U2789-87"], "climate control": ["clean"]}),
    ("La radio tiene U1123. El\nABS no responde. Hay P0562 en el\nmotor.",
     {"radio": ["U1123"], "anti-lock brakes": ["silent"], "engine control": ["P0562"]}),
    ("Transmission\ncontrol: no codes\nAnti-lock brakes:\nno response\nBody control:\nB1342-49 stored",
     {"transmission control": ["clean"], "anti-lock brakes": ["silent"], "body control": ["B1342-49 stored"]}),
    ("The fuel pump gives P0A7D. In the passenger\ndoor I got C0044-87 (in memory) and P2252 (not\nconfirmed yet).",
     {"fuel pump": ["P0A7D"], "door, passenger": ["C0044-87 stored", "P2252 pending"]}),
    ("The telematics unit has C0034-01 and P2135-87,\nboth past. The immo is clean.",
     {"telematics": ["C0034-01 stored", "P2135-87 stored"], "immobiliser": ["clean"]}),
    ("moin, im motor steht spn 102/fmi\n10 (aktiv). abs ohne fehler.",
     {"engine control": ["SPN 102 FMI 10 current"], "anti-lock brakes": ["clean"]}),
    ("En SCR hay\nU0726-71 (actual). Nada en Unidad de motor.",
     {"reductant": ["U0726-71 current"], "engine control": ["clean"]}),
    ("Battery 23.3 V. From the engine:\nP0562 historic and C0051 pending. The radio is fine.",
     {"engine control": ["P0562 stored", "C0051 pending"], "radio": ["clean"]}),
    ("as found: from the radio: b1000. from the\nclimate control: p0128 and u0734. abs is fine.",
     {"radio": ["B1000"], "climate control": ["P0128", "U0734"], "anti-lock brakes": ["clean"]}),
    ("The door shows U0401-44 active and P0725-31 (not\n\nactive). From the radio: B1000 active.",
     {"door": ["U0401-44 current", "P0725-31 stored"], "radio": ["B1000 current"]}),
    ("The engine shows C3662 current. P1000 (current),\nB1318 current and P2135 (current) in the radio.",
     {"engine control": ["C3662 current"], "radio": ["P1000 current", "B1318 current", "P2135 current"]}),
    ("The TCM shows SPN168\nFMI1 (active). In the ECM I\ngot U0146-71.",
     {"transmission control": ["SPN 168 FMI 1 current"], "engine control": ["U0146-71"]}),
    ("As found:\nFound U0415 (active now) in the radio.\nThe dash threw C0044.",
     {"radio": ["U0415 current"], "instrument cluster": ["C0044"]}),
    ("In the body computer I got P2135-4B\n(not present), U3003-23 (confirmed) and U0121-96 (not\npresent). "
     "The radio is fine.",
     {"body control": ["P2135-4B stored", "U3003-23 confirmed", "U0121-96 stored"], "radio": ["clean"]}),
    ("hi, the cab controller came back with spn 3216 fmi 4 and spn 3031 fmi\n9. The radio is fine.",
     {"cab control": ["SPN 3216 FMI 4", "SPN 3031 FMI 9"], "radio": ["clean"]}),
    ("Batt 11.3 V. In the engine\ncontrol I got C003A-17 current and U3003-44 confirmed",
     {"engine control": ["C003A-17 current", "U3003-44 confirmed"]}),
    ("Found u2780-01 stored in the radio. The gearbox threw\n\nb1000-96 pending and b0001-23 (present).",
     {"radio": ["U2780-01 stored"], "transmission control": ["B1000-96 pending", "B0001-23 current"]}),
    ("From the DDM: B1000 stored. From the radio: U0212-00 passive and U3639-81\n\npresent. The ABS is clean.",
     {"door, driver": ["B1000 stored"], "radio": ["U0212-00 stored", "U3639-81 current"],
      "anti-lock brakes": ["clean"]}),
    ("ABS: no\nresponse\nBody control: no\ncodes", {"anti-lock brakes": ["silent"], "body control": ["clean"]}),
]
_WHOLE = [
    # Each line is a row of its own: a key begins anew, and a list goes on without a sentence.
    ("ABS: C0035 lost comms with the\nBCM: no codes.", {"anti-lock brakes": ["C0035"], "body control": ["clean"]}),
    ("the abs has c0035\nbcm no codes. radio silent.",
     {"anti-lock brakes": ["C0035"], "body control": ["clean"], "radio": ["silent"]}),
    ("No response:\nABS\nBCM\nEngine:\nno codes",
     {"anti-lock brakes": ["silent"], "body control": ["silent"], "engine control": ["clean"]}),
]


@pytest.mark.parametrize(("text", "told"), _BROKEN + _WHOLE)
def test_a_sentence_goes_on_in_the_next_line(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize(("text", "told"), [
    ("Found P0562 in the ECM and U0100 in the radio. The BCM has B0237, all in memory.",
     {"engine control": ["P0562 stored"], "radio": ["U0100 stored"], "body control": ["B0237 stored"]}),
    ("ECM\nP0562/16-ST\nP0563/17-ACT\n(ST = stored, ACT = active)",
     {"engine control": ["P0562-16 stored", "P0563-17 current"]}),
    ("In the engine control module I got B3057-87 stored. No faults in the radio.",
     {"engine control": ["B3057-87 stored"], "radio": ["clean"]}),
    ("Found B12FA-54 (confirmed), B396E-13 passive in the eng. No faults in the trailer.",
     {"engine control": ["B12FA-54 confirmed", "B396E-13 stored"], "trailer": ["clean"]}),
    ("Post-clear: The armrest threw U2385-87 and U0101-17. The radio has P1572-54.",
     {"armrest": ["U2385-87", "U0101-17"], "radio": ["P1572-54"]}),
    ("the pdc shows p039b-17 (confirmed) and poaa6-29 (history).",
     {"parking assist": ["P039B-17 confirmed", "P0AA6-29 stored"]}),
    ("engine first that's got P0562 stored", {"engine control": ["P0562 stored"]}),
])
def test_statuses_of_several_codes_and_legends(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize(("text", "told"), [
    # The rest of a description, whatever it would be alone: no module that is not fitted.
    ("SCR\n   U0155-54  lost comms with\n             cluster   not present\n   U0100-29  lost comms with ECM\n"
     "             detected during self test   not present", {"reductant": ["U0155-54 stored", "U0100-29 stored"]}),
    # Two spaces inside a status: half of it would say the opposite.
    ("Airbags\n   P0128  thermostat below temp\n             at control unit,  see test plan   not  present",
     {"restraints": ["P0128 stored"]}),
    ("the ebs brakes show  b10a2 active. from the  ecm: p0562 pending  and  p0118 (not  active). the  radio  is  fine.",
     {"anti-lock brakes": ["B10A2 current"], "engine control": ["P0562 pending", "P0118 stored"], "radio": ["clean"]}),
    # What is said behind a full stop is of another module, whatever most lines look like.
    ("In the ABS: C0035 sensor stored.\nFrom the ECM: P0562 supply low.\n"
     "From the BCM: B1000 not present. No faults in the radio. The door is dead.",
     {"anti-lock brakes": ["C0035 stored"], "engine control": ["P0562"], "body control": ["B1000 stored"],
      "radio": ["clean"], "door": ["silent"]}),
    # A status at the end of each page is no page's foot.
    ("ABS\n   C0035 sensor\n      State: active\n\nPage 1 of 3\n\n   C0040 pump\n      State: active\n\nPage 2 of 3\n\n"
     "   C0044 valve\n      State: active\n\nPage 3 of 3",
     {"anti-lock brakes": ["C0035 current", "C0040 current", "C0044 current"]}),
])
def test_what_a_line_goes_on_with(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize("text", [
    # Each line is whole: a name that ends like a small word, a phase over a heading, an answer over a name with a
    # stop in it, statuses before their codes.
    "01 Door\n  no faults found\n02 Air con\nPart no. 945\nP2153 stored",
    "# As it came in\nCamera module:\n  U0100 stored\n\nECM module:\n  U0151 stored",
    "STEERING - no faults found\nPASS. DOOR - U0121 stored",
    "not present b1000 - elec. park brake\npresent u0073 - dcdc",
])
def test_whole_lines_stay_apart(text: str) -> None:
    assert len(modules_of(text)) == 2


def test_an_answer_that_breaks_off_behind_its_first_word_is_of_the_module_below() -> None:
    read = modules_of("Nothing\nfound in ECM.\nABS C0035\n")
    assert read == {"engine control": ["clean"], "anti-lock brakes": ["C0035"]}


def test_a_failure_type_may_begin_the_next_line_of_a_sentence_and_the_number_of_a_list_is_none() -> None:
    sentence = "The Rear climate: U0073\n[1A] (pending) and U0422 [F0] (permanent). Driver door module is clean.\n"
    assert modules_of(sentence)["climate control, rear"] == ["U0073-1A pending", "U0422-F0 permanent"]
    assert modules_of("[01] Motor: P0087\n[03] Bremsen: antwortet nicht\n[1A] Airbag: ok\n") == {
        "engine control": ["P0087"], "anti-lock brakes": ["silent"], "restraints": ["clean"]}


def test_an_address_before_a_name_begins_a_line_of_its_own() -> None:
    text = ("6C - Calculateur moteur\n  * U0415 Données invalides reçues\nD2 - Combiné ... ne répond pas\n"
            "94 - Pression pneus  mémoire vide\n0C - Module de carrosserie\n  * U3003 Tension\n")
    assert modules_of(text)["tyre pressure"] == ["clean"]


@pytest.mark.parametrize(("gone", "first", "last"), [
    ("no longer present", "conf.", "pend."), ("nicht mehr vorhanden", "best.", "pend."),
    ("plus présent", "act.", "conf."), ("ya no presente", "conf.", "pend.")])
def test_a_status_that_leads_to_its_own_code_ends_no_line_above(gone: str, first: str, last: str) -> None:
    read = modules_of(f"ABS\n  {first} C0040 FTB 11\n  {gone} U0121 FTB 96\n  {last} C0051\n")["anti-lock brakes"]
    assert [entry.split()[0] for entry in read] == ["C0040-11", "U0121-96", "C0051"]
    assert read[1].endswith(" stored")
    assert not read[2].endswith(" stored")


def test_a_status_below_its_code_still_ends_the_line_above() -> None:
    assert modules_of("The ABS has C0040\nstored and U0121. The radio is fine.") == {
        "anti-lock brakes": ["C0040 stored", "U0121"], "radio": ["clean"]}


@pytest.mark.parametrize(("verb", "told"), [
    ("logged", "as history"), ("holds", "as history"), ("has", "stored"), ("meldet", "gespeichert"),
    ("indique", "mémorisé"), ("muestra", "guardado")])
def test_a_line_that_ends_with_a_verb_before_codes(verb: str, told: str) -> None:
    text = (f"Hello,\nthe dash {verb} B 1330-12 ({told}), ABS {verb}\nC 0110-64 / U 0122-86 - {told}, radio {verb}\n"
            f"B 1331 / B 1332 - {told}, HVAC: B 1020-88 {told}.\n")
    read = modules_of(text)
    assert {name: [code.split()[0] for code in codes] for name, codes in read.items()} == {
        "instrument cluster": ["B1330-12"], "anti-lock brakes": ["C0110-64", "U0122-86"],
        "radio": ["B1331", "B1332"], "climate control": ["B1020-88"]}


def test_a_status_before_the_next_entry_of_a_list_stays() -> None:
    assert modules_of("ABS C0110 logged\nRadio B1330 logged\n") == {
        "anti-lock brakes": ["C0110 stored"], "radio": ["B1330 stored"]}
    assert modules_of("ABS\nC0110 logged\nU0122 logged\nRadio\nB1330 set\n")["anti-lock brakes"] == [
        "C0110 stored", "U0122 stored"]


@pytest.mark.parametrize("told", ["not active any more", "stored but not present", "nicht mehr aktiv", "plus présent",
                                  "ya no activo"])
def test_a_line_that_ends_with_a_dash_before_the_status_of_its_codes(told: str) -> None:
    text = (f"Hello,\nradio is clean; ABS: C0110-64 / U0122-86 / C0051-12 -\n{told}; HVAC: B1020-88 - {told}; and the\n"
            f"dash: B1330 / B1331 /\nB1332 - {told};\n")
    assert modules_of(text) == {
        "radio": ["clean"], "anti-lock brakes": ["C0110-64 stored", "U0122-86 stored", "C0051-12 stored"],
        "climate control": ["B1020-88 stored"], "instrument cluster": ["B1330 stored", "B1331 stored", "B1332 stored"]}


def test_a_line_that_breaks_off_before_its_verb() -> None:
    text = ("Codes after clear: dash: B1330 confirmed and B1331 active, ABS\nlogged C0110 and U0122 - stored but not\n"
            "present, radio ok, no\ncodes.\n")
    assert modules_of(text) == {"instrument cluster": ["B1330 confirmed", "B1331 current"],
                                "anti-lock brakes": ["C0110 stored", "U0122 stored"], "radio": ["clean"]}


@pytest.mark.parametrize(("joint", "told", "status"), [
    (" / ", "(stored)", "stored"), (" and ", "(as history)", "stored"), (", ", "(active)", "current"),
    (" und ", "(nur gespeichert)", "stored"), (" et ", "(mémorisé)", "stored"), (" y ", "(presente)", "current")])
def test_a_status_in_brackets_behind_several_codes_of_a_message(joint: str, told: str, status: str) -> None:
    text = f"the dash has B1330{joint}B1331 {told}, the ABS has C0110{joint}U0122 {told}, radio ok, no codes."
    assert modules_of(text) == {"instrument cluster": [f"B1330 {status}", f"B1331 {status}"],
                                "anti-lock brakes": [f"C0110 {status}", f"U0122 {status}"], "radio": ["clean"]}
    apart = f"the dash has B1330 (pending){joint}B1331 {told}, the ABS has C0110{joint}U0122 {told}, radio ok."
    assert modules_of(apart)["anti-lock brakes"] == ["C0110", f"U0122 {status}"]


def test_a_status_below_the_description_of_its_code() -> None:
    text = ("Scanned it today.\nradio is fine, dash: B1330-12 (Lamp circuit open)\ncurrently failing, no answer from "
            "the park brake\nunit, ABS: C0110 (Pump motor) and U0122 (No data)\nin memory, HVAC has B1020.\n")
    read = modules_of(text)
    assert (read["instrument cluster"], read["anti-lock brakes"], read["park brake"]) == (
        ["B1330-12 current"], ["C0110 stored", "U0122 stored"], ["silent"])


@pytest.mark.parametrize(("text", "modules"), [
    ("ECM hat U0122 (fehlt) und U0100 (keine Daten vom Motor), gespeichert.", ["U0122 stored", "U0100 stored"]),
    ("ECM tiene U0122 (falta) y U0100 (ninguna señal), guardado.", ["U0122 stored", "U0100 stored"]),
    ("ECM hat U0122 und U0100, beide nicht aktiv.", ["U0122 stored", "U0100 stored"])])
def test_a_description_that_denies_something_says_it_of_no_code(text: str, modules: list[str]) -> None:
    assert modules_of(text) == {"engine control": modules}
