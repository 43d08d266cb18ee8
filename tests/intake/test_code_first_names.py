"""Lines that begin with a code and name its module behind it: in short and in long, with its number or address. All
invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed

CODES = (("C0562", "Parking brake", "05"), ("B1000", "Gateway", "19"), ("B1341", "Radio", "56"),
         ("U0155", "Radio", "56"))
READ = {"park brake": ["C0562 stored"], "gateway": ["B1000 stored"], "radio": ["B1341 stored", "U0155 stored"]}


@pytest.mark.parametrize("form", [
    "{code} / {number} - {name} / circuit open / stored", "{code} :: {number} - {name} :: open :: stored",
    "{code}, {number} - {name}, circuit open, stored", "stored / {code} / {number}: {name} / circuit open",
    "{code} | {number} {name} | circuit open | stored", "{code}; {name} (address {number}); circuit open; stored",
    "{code} / circuit open / {name} (address {number}) / stored", "{code} | open | {name} (ECU {number}) | stored",
    "{code} - {number} - {name} - circuit open - stored"])
def test_a_number_of_the_module_is_no_failure_type(form: str) -> None:
    text = "\n".join(form.format(code=code, name=name, number=number) for code, name, number in CODES)
    assert modules_of(f"{text}\n") == READ


@pytest.mark.parametrize("form", [
    "{code}  [{number}] {name}  Circuit open", "{code} - {number} {name} - open - stored"])
def test_a_number_that_comes_again_with_its_name_is_that_of_the_module(form: str) -> None:
    told = [*CODES, ("U0101", "Radio", "56"), ("B1001", "Gateway", "19")]
    text = "\n".join(form.format(code=code, name=name, number=number) for code, name, number in told)
    others = "".join(f"P056{at}  Engine control  Circuit open\n" for at in range(3))
    codes = {code.split()[0] for held in modules_of(f"{text}\n{others}").values() for code in held}
    assert codes == {*(code for code, _, _ in told), "P0560", "P0561", "P0562"}


def test_failure_types_that_differ_for_one_name_stay() -> None:
    text = "B1341  [13] Radio  Open\nB1342  [16] Radio  Low\nB1343  [13] Gateway  Open\nB1344  [16] Gateway  Low\n"
    assert modules_of(text) == {"radio": ["B1341-13", "B1342-16"], "gateway": ["B1343-13", "B1344-16"]}


def test_a_failure_type_of_the_code_stays() -> None:
    text = "\n".join(f"{code}-16 / {number} - {name} / circuit open / stored" for code, name, number in CODES)
    assert modules_of(f"{text}\n") == {
        name: [code.replace(" ", "-16 ") for code in codes] for name, codes in READ.items()}


@pytest.mark.parametrize("text", [
    "P0562 - 16 - Alternator - stored\nP0620 - 13 - Battery - stored\n",
    "Engine\nP0562 - 16 - Supply voltage low - stored\nP0620 - 13 - Alternator - stored\n",
    "ECM: P0562 / 16 / low / stored\nECM: P0620 / 13 / open / stored\n"])
def test_failure_types_before_descriptions(text: str) -> None:
    assert [code for codes in modules_of(text).values() for code in codes] == ["P0562-16 stored", "P0620-13 stored"]


@pytest.mark.parametrize("form", [
    "{code} / {name} / circuit open / stored", "{code} | circuit open | {name} | stored", "{name}: {code} open, stored",
    "{name} | {code} | stored", "{name} -> {code} (stored)"])
@pytest.mark.parametrize("mark", [" / ", " "])
def test_short_and_long_names_are_one(form: str, mark: str) -> None:
    told = (("BCM", "Body control module", "B1000"), ("EPS", "Power steering", "C0562"),
            ("TIM", "Towing module", "B1341"), ("BSML", "Blind spot module left", "B1342"),
            ("CCM", "Air conditioning", "B1343"))
    text = "\n".join(form.format(code=code, name=f"{short}{mark}{long}") for short, long, code in told)
    names = ["body control", "power steering", "trailer", "side obstacle, left", "air conditioning"]
    assert list(modules_of(f"{text}\n")) == names
    if mark not in form:
        assert printed(f"{text}\n") == "; ".join(f"{short}{mark}{long}: {code}" for short, long, code in told)


def test_two_modules_beside_each_other_stay_two() -> None:
    text = "ABS / Radio | U0100; U0155\nEPS / Airbag | U0155; U0199\n"
    assert printed(text) == "ABS: U0100 U0155; Radio: U0100 U0155; EPS: U0155 U0199; Airbag: U0155 U0199"


@pytest.mark.parametrize("title", ["Data bus fault, receive error", "Control unit", "Sensor A - signal implausible"])
@pytest.mark.parametrize("status", ["stored", "confirmed / test not complete", "history DTC"])
def test_a_name_in_brackets_where_the_other_lines_have_theirs(title: str, status: str) -> None:
    lines = [f"{code} Circuit open ({name}) stored" for code, name, _ in CODES]
    assert "rdm: " in printed("\n".join([*lines, f"U1900 {title} (RDM) {status}\n"])).lower()


def test_commas_with_and_without_a_space() -> None:
    lines = ("C0562,Circuit open, Parking brake, stored", "B1000, Supply voltage low,Gateway,stored",
             "B1341, Fluid level low, Radio,stored", "U0155,Lost contact with park aid, Radio, stored")
    assert modules_of("\n".join(lines)) == READ


def test_lists_of_names_behind_codes_stay_lists() -> None:
    text = "U0100 BCM, ABS, stored\nU0155 Radio, BCM, stored\nU0140 ABS, cluster, stored\n"
    assert modules_of(text)["body control"] == ["U0100 stored", "U0155 stored"]
    assert modules_of(text)["anti-lock brakes"] == ["U0100 stored", "U0140 stored"]


def test_words_among_statuses_before_codes_are_no_module() -> None:
    lines = [f"stored; {code}; {name}; circuit open" for code, name, _ in CODES]
    text = "\n".join([*lines[:2], "status 2F; U0140; Radio; low", *lines[2:]])
    assert modules_of(f"{text}\n") == {**READ, "radio": ["U0140", *READ["radio"]]}
    text = "Radio:\n  lamp on; B1000; aerial open\n  stored; B1001; speaker\n  active; B1002; open\nABS:\n  no codes\n"
    assert modules_of(text) == {"radio": ["B1000", "B1001 stored", "B1002 current"], "anti-lock brakes": ["clean"]}


def test_a_status_before_a_single_code() -> None:
    assert modules_of("Current DTC; C0562; Parking brake; circuit open\nRadio: no codes\n") == {
        "park brake": ["C0562 current"], "radio": ["clean"]}
    assert modules_of("Radio:\n  not present; 06070; supply low\nABS:\n  no codes\n")["radio"] == ["06070 stored"]


def test_a_description_behind_a_status_and_a_code_is_no_answer() -> None:
    text = ("Radio\n  b1341; no answer of gateway [stored]\n"
            "  stored; b1342; no contact with cluster\nABS\n  no codes\n")
    assert modules_of(text) == {"radio": ["B1341 stored", "B1342 stored"], "anti-lock brakes": ["clean"]}


@pytest.mark.parametrize("code", ["U0100", "U0100-17"])
def test_three_capitals_in_brackets_are_a_name_and_no_byte(code: str) -> None:
    assert modules_of(f"{code} [FFH] bus off\nC0035 [ABS] sensor open\n") == {
        "auxiliary heater": [code], "anti-lock brakes": ["C0035"]}
    assert modules_of(f"ABS\n{code} (0xFF) bus off\n{code} (FFh) bus off\n").keys() == {"anti-lock brakes"}


@pytest.mark.parametrize("row", ["{code},{name},open,stored", '"{code}","{name}","open","stored"',
                                 "{code}  {name:<24}  open  stored", "open,{name},{code},stored"])
def test_a_short_name_that_means_another_module_elsewhere_in_a_table(row: str) -> None:
    told = (("B1000", "BCM / Body control module"), ("C0562", "EPS / Power steering"),
            ("U0155", "CCM / Air conditioning"), ("U0121", "CCM / Air conditioning"))
    head = row.format(code="Code", name="Module").replace("open", "Text").replace("stored", "Status")
    text = "\n".join([head, *(row.format(code=code, name=name) for code, name in told)])
    assert list(modules_of(f"{text}\n")) == ["body control", "power steering", "air conditioning"]


@pytest.mark.parametrize("word", ["Address", "ADDRESS", "addr", "Adresse", "Dirección", "SA"])
def test_the_address_before_a_name_in_any_letters(word: str) -> None:
    text = f"Module;Code;Status\n{word} 38: TEL;U0100;stored\n{word.swapcase()} 38: TEL;U0155;stored\n"
    assert printed(text) == "TEL: U0100 U0155"


@pytest.mark.parametrize("title", ["No communication with gateway", "Keine Kommunikation mit Gateway"])
def test_descriptions_that_sound_like_answers_keep_their_status(title: str) -> None:
    text = f"C0562 in ABS: Supply low, confirmed\nU0155 in Radio: {title}, stored\nB1000 in Gateway: Open, pending\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0562 confirmed"], "radio": ["U0155 stored"],
                                "gateway": ["B1000 pending"]}


@pytest.mark.parametrize("form", [
    "{pair}\n  {code} (pending)", "<li><b>{pair}</b><ul><li>{code} (pending)</li></ul></li>", "{pair}: {code} pending",
    "{code}\n   > {pair} / pending", "{code} | {pair} | pending", "- **{pair}**\n    - {code} - pending"])
def test_a_second_name_in_brackets(form: str) -> None:
    """One of both is known, as most of such pairs are known to be of one module."""
    pairs = {"C0045": "Parking brake (Electric parking brake)", "U0100": "Air suspension (Air springs)",
             "P0700": "Gearbox control (Transmission control module)", "B1342": "Aux heater (Night heater)"}
    text = "\n".join(form.format(pair=pair, code=code) for code, pair in pairs.items())
    found = printed(f"<ul>\n{text}\n</ul>" if "<" in form else text)
    assert found == "; ".join(f"{pair}: {code}" for code, pair in pairs.items())


def test_what_stands_in_brackets_may_be_another_thing() -> None:
    assert modules_of("Radio (stored)\n  B1000\nABS (engine running)\n  C0035\nGearbox (Engine)\n  P0700 stored\n") == \
        modules_of("Radio (stored)\n  B1000\n\nABS (engine running)\n  C0035\n\nGearbox (Engine)\n  P0700 stored\n")


def test_a_second_name_in_brackets_heads_a_list_in_a_list() -> None:
    page = ("<ul><li><b>Parking brake (Electric parking brake)</b>: OK</li><li><b>Air suspension (Air springs)</b><ul>"
            "<li>U0100(82) (confirmed entry)</li></ul></li><li><b>Gearbox control (Transmission control module)</b>: "
            "free of faults</li><li><b>Stability (Roll control)</b><ul><li>C0045</li></ul></li></ul>")
    assert modules_of(page)["suspension"] == ["U0100-82 confirmed"]
    assert modules_of(page)["vehicle dynamics"] == ["C0045"]


@pytest.mark.parametrize("arrow", ["->", "=>", "-->"])
@pytest.mark.parametrize("joint", [" + ", ", ", "; "])
def test_an_arrow_behind_the_description_leads_to_the_names(arrow: str, joint: str) -> None:
    told = (("P0562", "Supply low, engine off", "ABS"), ("C1042", "ECU has a fault", "Winch box"),
            ("U0122", "No message from ABS", f"Winch box{joint}Airbag"), ("B1000", "Internal error", "Crane arm"),
            ("U0155", "Bus to cluster lost", f"Crane arm{joint}Winch box{joint}ABS"), ("U0140", "Frames lost", "BCM"))
    text = "\n".join(f"{code} {title} {arrow} {names}" for code, title, names in told)
    assert printed(f"{text}\n\nEPS - no codes\n") == (
        "ABS: P0562 U0155; Winch box: C1042 U0122 U0155; Airbag: U0122; Crane arm: B1000 U0155; BCM: U0140; EPS: clean")


@pytest.mark.parametrize("codes", [
    ("DF214", "DF377", "DF080"), ("TL-104", "TL-220", "LK-0017"), ("7C11", "9B30", "A2D4")])
def test_an_arrow_leads_from_the_numbers_of_a_maker(codes: tuple[str, ...]) -> None:
    first, second, third = codes
    text = (f"{first} Wake-up line open -> ABS, Winch box\n{second} Pump relay -> Airbag (Restraint control module)\n"
            f"{third} Tilt switch, no signal -> Winch box\n")
    assert printed(text) == (
        f"ABS: {first}; Winch box: {first} {third}; Airbag (Restraint control module): {second}")


def test_an_arrow_leads_to_what_was_done() -> None:
    text = "ABS\nP0562 Supply low -> charge it\nC0035 Wheel sensor -> replace it\nU0140 Lost BCM -> check fuse\n"
    assert printed(text) == "ABS: P0562 C0035 U0140"


@pytest.mark.parametrize("bullet", ["", "- ", "* "])
@pytest.mark.parametrize("behind", ["", "  / confirmed code", "  / still pending", " (stored)", "  3x"])
def test_names_set_in_below_their_codes(bullet: str, behind: str) -> None:
    told = (("SPN 96 FMI 4", "Fuel level", ("Dash (Instrument cluster)",)), ("SPN 111 FMI 1", "Low", ("Tipper box",)),
            ("SPN 168 FMI 18", "Battery potential", ("Tipper box", "Suspension (Air suspension)")),
            ("SPN 629 FMI 12", "Controller 1", ("Dash (Instrument cluster)", "Gearbox ECU (Transmission)")),
            ("SPN 639 FMI 9", "Network 1", ("Gearbox ECU (Transmission)", "tipper box")),
            ("SPN 84 FMI 2", "Road speed", ("Dash (Instrument cluster)",)), ("SPN 190 FMI 2", "Speed", ("ABS",)))
    text = "\n".join("\n".join([f"{code}  {title}", *(f"    {bullet}{name}{behind}" for name in names)])
                     for code, title, names in told)
    found = {name: [code.rpartition(" FMI")[0] for code in codes] for name, codes in modules_of(f"{text}\n").items()}
    assert found == {
        "instrument cluster": ["SPN 96", "SPN 629", "SPN 84"], "Tipper box": ["SPN 111", "SPN 168", "SPN 639"],
        "suspension": ["SPN 168"], "transmission control": ["SPN 629", "SPN 639"], "anti-lock brakes": ["SPN 190"]}


def test_descriptions_set_in_below_codes_name_nothing() -> None:
    text = "P0562\n   Alternator\nU0140\n   Bus fault\nC0035\n   Wheel sensor left\nB1000\n   Gateway\n"
    assert list(modules_of(f"ABS\n{text}")) == ["anti-lock brakes"]


BEHIND_KEYS = [
    # Names behind a key for them, which nobody knows.
    ("P0560 / Unit: Crane box, stored\nB1676 / Unit: Crane box, present\nC0110 / Unit: Winch box, not present",
     {"Crane box": ["P0560 stored", "B1676 current"], "Winch box": ["C0110 stored"]}),
    ("P0560 / Einheit: Fnordanlage, passiv\nB1676 / Einheit: Fnordanlage, vorhanden",
     {"Fnordanlage": ["P0560 stored", "B1676 current"]}),
    ("SPN 105 FMI 3 / Control unit: crane box, no longer failing\nclean: rain sensor",
     {"crane box": ["SPN 105 FMI 3 stored"], "rain sensor": ["clean"]}),
    # A plain "ECU" as that key, behind a description that ends with the name of a module.
    ("P0106, pressure not plausible / ECU: radio\nU0103, no signal from shift lever / ECU: radio",
     {"radio": ["P0106", "U0103"]}),
]  # fmt: skip
BEHIND_WORDS = [
    # In brackets behind the words of a description, in every line.
    ("P1602  Supply interrupted [TCU]  currently present\nP0130 73  Sensor circuit [SCCM]  still failing",
     {"transmission control": ["P1602 current"], "steering column": ["P0130-73 current"]}),
    # In brackets behind a status with brackets of its own.
    ("P0118 - Sensor input high - permanent (not erasable by tool) (boot lid module)\n"
     "P0625 - Alternator field low - permanent (not erasable by tool) (boot lid module)",
     {"power tailgate": ["P0118 permanent", "P0625 permanent"]}),
    # A status in brackets behind the name in its cell.
    ("P0670 | Horn output | CGW (confirmed)\nB1676 | Battery voltage out of range | tow module (not present any more)",
     {"gateway": ["P0670 confirmed"], "trailer": ["B1676 stored"]}),
    # A short description before the sign.
    ("P0620 | Charging @ passenger door\nP0562 | System voltage much too low @ passenger door",
     {"door, passenger": ["P0620", "P0562"]}),
]


@pytest.mark.parametrize(("text", "expected"), [*BEHIND_KEYS, *BEHIND_WORDS])
def test_names_behind_keys_and_words(text: str, expected: dict[str, list[str]]) -> None:
    assert modules_of(text) == expected


def test_names_behind_codes_that_descriptions_stand_before() -> None:
    text = "No message from radio or TCM - U0184 - Gateway - stored"
    assert modules_of(text) == {"gateway": ["U0184 stored"]}
    more = "Supply not plausible - U3003 - ABS - present\nLost contact with the TCM - U0101 - Gateway - pending"
    assert modules_of(f"{text}\n{more}") == {
        "gateway": ["U0184 stored", "U0101 pending"], "anti-lock brakes": ["U3003 current"]}


def test_arrows_that_lead_back_to_the_codes() -> None:
    text = "both active: C0035 C0040 <- ABS\nstored: U0140 & B1000 <-- Gateway\npending: B1341 <- Radio\nTCM -> 0 codes"
    assert modules_of(text) == {
        "anti-lock brakes": ["C0035 current", "C0040 current"], "gateway": ["U0140 stored", "B1000 stored"],
        "radio": ["B1341 pending"], "transmission control": ["clean"]}


BY_CODE: list[tuple[str, dict[str, list[str]]]] = [
    (
        # Names that nobody lists stand where the others do.
        "B1A68 left speaker open\n  * GWM: Present\nC0051 angle sensor\n  * Quux panel: stored, not present\n"
        "U0100 no data\n  * Quux panel: active\n  * GWM: pending\nNo answer: radio",
        {"gateway": ["B1A68 current", "U0100 pending"], "Quux panel": ["C0051 stored", "U0100 current"],
         "radio": ["silent"]},
    ),
    (
        "B10A3-12 rain sensor: park assist (PAS) = Confirmed, Quux panel (QXP) = stored\n"
        "C0051 angle sensor: Brake booster (EBB) = active, camera, rear (RVC) = stored\n"
        "U0001 bus: Quux panel (QXP) = failed, not confirmed\nU0002 bus: lane keeping\nDid not answer: gateway",
        {"parking assist": ["B10A3-12 confirmed"], "Quux panel (QXP)": ["B10A3-12 stored", "U0001 pending"],
         "brake system": ["C0051 current"], "camera, rear": ["C0051 stored"], "lane keeping": ["U0002"],
         "gateway": ["silent"]},
    ),
    (
        "B10A3 Regensensor: Einparkhilfe (aktiv), Quux-Einheit (bestätigt)\nC0051: Quux-Einheit\nU0001 Bus: ABS, Radio",
        {"parking assist": ["B10A3 current"], "Quux-Einheit": ["B10A3 confirmed", "C0051"],
         "anti-lock brakes": ["U0001"], "radio": ["U0001"]},
    ),
    (
        # One status behind several names is that of all.
        "P0562: Airbag, ABS (stored)\nU0100: Airbag, Radio (stored)",
        {"restraints": ["P0562 stored", "U0100 stored"], "anti-lock brakes": ["P0562 stored"],
         "radio": ["U0100 stored"]},
    ),
]


@pytest.mark.parametrize(("text", "modules"), BY_CODE)
def test_modules_with_their_statuses_below_or_behind_a_code(text: str, modules: dict[str, list[str]]) -> None:
    assert modules_of(text) == modules


@pytest.mark.parametrize(("lines", "said"), [
    (("B1015 Squib open (Past) in: Airbag", "C0051 Angle lost (Present) in: ABS", "U0140 BCM unheard in: Radio"),
     ("stored", "current", "")),
    (("B1015; Squib open; active in module: Airbag", "C0051; Angle; pending in module: ABS",
      "U0140; BCM unheard; past in module: Radio"), ("current", "pending", "stored")),
    (("B1015, Squib open, => permanent (mode $0A) in: Airbag", "C0051, Angle lost, => past in: ABS",
      "U0140, BCM unheard, => active in: Radio"), ("permanent", "stored", "current")),
    (("B1015 Zünder offen (aktiv) bei: Airbag", "C0051 Winkel fehlt (passiv) bei: ABS", "U0140 stumm bei: Radio"),
     ("current", "stored", "")),
    (("B1015 - Allumeur - Etat du défaut: permanent dans: Airbag",
      "C0051 - Angle - Etat du défaut: non présent dans: ABS",
      "U0140 - Muet - Etat du défaut: présent dans: Radio"), ("current", "stored", "current")),
    (("B1015 Detonador [presente] en: Airbag", "C0051 Ángulo [pasado] en: ABS", "U0140 Mudo [presente] en: Radio"),
     ("current", "stored", "current"))])
def test_a_status_before_the_word_that_leads_to_the_name(lines: tuple[str, ...], said: tuple[str, ...]) -> None:
    assert modules_of("Scan\n\n" + "\n".join(f"{at}) {line}" for at, line in enumerate(lines, 1)) + "\n") == {
        name: [f"{code} {status}".strip()] for name, code, status in zip(
            ("restraints", "anti-lock brakes", "radio"), ("B1015", "C0051", "U0140"), said, strict=True)}


def test_a_word_of_the_description_before_the_name_is_no_status() -> None:
    text = ("B1015 Squib open (left) in: Airbag\nC0051 Wheel sensor passive in: ABS\n"
            "U0140 Lock motor active in: Radio\n")
    assert modules_of(text) == {"restraints": ["B1015"], "anti-lock brakes": ["C0051"], "radio": ["U0140"]}
