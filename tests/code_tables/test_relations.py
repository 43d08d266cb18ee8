"""Who each network and pointer code is about, against SAE J2012DA (second-hand: read in texts that quote it)."""

from __future__ import annotations

import csv
from importlib.resources import files

import pytest

from code_tables import load
from triage.model import codes

TABLES = load()
ROWS = {row["code"]: row for row in
        csv.DictReader(files("code_tables").joinpath("relations.csv").read_text(encoding="utf-8").splitlines())}

# Lost communication and invalid data, SAE J2012DA (second-hand), both read in one stored list.
PAIRS = [pair.split() for pair in """
U0100 U0401; U0101 U0402; U0102 U0403; U0103 U0404; U0104 U0405; U0105 U0406; U0106 U0407; U0107 U0408
U0108 U0409; U0109 U0410; U010A U040B; U010C U040D; U010E U040F; U010F U040A; U0110 U0411; U0111 U0412
U0112 U0413; U0113 U0441; U0114 U0414; U0115 U0442; U0116 U0456; U0117 U0465; U0118 U0467; U0119 U0468
U011D U041E; U0120 U0469; U0121 U0415; U0122 U0416; U0125 U0432; U0126 U0428; U0127 U0430; U0128 U0417
U0129 U0418; U012D U042E; U0130 U0419; U0131 U0420; U0132 U0421; U0133 U0434; U0134 U0435; U0135 U0436
U0136 U0437; U0137 U0438; U0139 U043A; U0140 U0422; U0141 U0431; U0142 U0443; U0146 U0447; U0147 U0448
U0151 U0452; U0152 U0453; U0153 U0454; U0154 U0455; U0155 U0423; U0156 U0457; U0158 U0459; U0159 U045A
U0160 U0461; U0162 U0463; U0163 U0464; U0164 U0424; U0165 U0466; U0166 U0425; U0167 U0426; U0168 U0427
U0169 U046A; U016A U046B; U016B U046C; U0170 U0471; U0180 U0481; U0182 U0483; U0184 U0485; U0186 U0487
U0197 U0498; U0198 U0499; U0199 U049A; U019B U049C; U019E U049F; U01A0 U04A1; U01B0 U04B1; U0200 U0501
U0206 U0507; U0208 U0509; U0212 U0429; U0235 U0433; U0245 U0546; U0250 U0551; U0253 U0554; U0254 U0555
U0256 U0557; U0264 U0565; U0284 U0585; U0291 U0592; U0292 U0593; U0293 U0594; U0294 U0595; U0298 U0599
U029A U059B; U029D U059E; U029E U059F
""".replace("\n", ";").split(";") if pair.strip()]

# First target of some codes, in words of our own: SAE J2012DA (second-hand).
TARGETS = """
U0100 engine control; U0101 transmission control; U0102 transfer case; U0103 gear shift A; U0104 cruise control
U0109 fuel pump; U010E reductant; U0110 drive motor A; U0111 battery energy control; U0112 battery energy control B
U0115 engine control B; U0121 anti-lock brakes; U0122 vehicle dynamics; U0126 steering angle sensor; U0127 tyre pressure
U0128 park brake; U0129 brake system; U0131 power steering; U0134 power steering, rear; U0140 body control
U0141 body module A; U0142 body module B; U0146 gateway; U0147 gateway B; U0151 restraints
U0152 side restraints, left; U0153 side restraints, right; U0154 occupant classification; U0155 instrument cluster
U0164 climate control; U0165 climate control, rear; U0167 immobiliser; U0168 security; U0184 radio; U0186 amplifier
U0198 telematics; U0199 door A; U0200 door B; U0208 seat A; U0212 steering column; U0235 front distance sensor
U0250 impact classification; U0264 camera, rear; U0265 camera 1; U0270 camera 12; U0292 drive motor B
U0293 hybrid powertrain; U0295 AC/AC converter; U0298 DC/DC converter; U029D NOx sensor A; U029E NOx sensor B
U0171 restraints sensor B; U017D restraints sensor N; U0201 door C; U0205 door G; U0232 side obstacle, left
U0233 side obstacle, right; U0236 column lock; U0241 headlamp A; U0287 transmission fluid pump; U019B battery charger
U01B0 battery monitor; U0231 rain sensor; U0230 power tailgate; U0137 trailer brakes; U019A tachograph
"""
FIRST = [item.strip().split(" ", 1) for item in TARGETS.replace("\n", ";").split(";") if item.strip()]

# Software incompatibility and the lost-communication code of the same module, SAE J2012DA (second-hand).
SOFTWARE = [pair.split() for pair in """
U0301 U0100;U0302 U0101;U0303 U0102;U0304 U0103;U0305 U0104;U0310 U0109;U0311 U0110;U0312 U0111;U0313 U0112;U0315 U0121
U0316 U0122;U0317 U0128;U0318 U0129;U0320 U0131;U0321 U0132;U0322 U0140;U0323 U0155;U0324 U0164;U0326 U0167;U0327 U0168
U0328 U0126;U0329 U0212;U0330 U0127;U0331 U0141;U0335 U029A;U0336 U0151;U0337 U019B
""".replace("\n", ";").split(";") if pair]


def number(code: str) -> int:
    return int(code[1:], 16)


def test_there_are_99_pairs_and_70_of_them_follow_one_rule() -> None:
    # The invalid-data number is usually the lost-communication number + 0x301; 29 early ones are exceptions.
    assert len(PAIRS) == 99
    assert sum(number(invalid) - number(lost) == 0x301 for lost, invalid in PAIRS) == 70


@pytest.mark.parametrize(("lost", "invalid"), PAIRS)
def test_a_pair_is_about_one_module(lost: str, invalid: str) -> None:
    first, second = TABLES.facts(lost), TABLES.facts(invalid)
    assert (first.relation, second.relation) == ("lost communication", "invalid data")
    assert first.targets == second.targets
    # U0113 is a missing set of messages, not a module.
    assert bool(first.targets) == (lost != "U0113")
    assert "j2012da" in first.sources
    assert "j2012da" in second.sources


@pytest.mark.parametrize(("code", "module"), FIRST)
def test_target(code: str, module: str) -> None:
    assert TABLES.facts(code).targets[0] == module


@pytest.mark.parametrize(("lost", "invalid"), [
    ("U0151", "U0452"), ("U0121", "U0415"), ("U0184", "U0485"), ("U0293", "U0594"),
])
def test_partners_that_informal_lists_get_wrong(lost: str, invalid: str) -> None:
    assert TABLES.facts(lost).targets == TABLES.facts(invalid).targets != ()


@pytest.mark.parametrize(("software", "lost"), SOFTWARE)
def test_software_incompatibility(software: str, lost: str) -> None:
    assert TABLES.facts(software).relation == "incompatible software"
    assert TABLES.facts(software).targets == TABLES.facts(lost).targets


def test_internal_software_incompatibility_has_no_target() -> None:
    assert ROWS["U0300"] == {"code": "U0300", "relation": "incompatible software", "targets": "", "source": "j2012da"}


def test_bus_codes() -> None:
    # High, medium and low speed, A to F: nine faults each; buses A to I off: nine. J2012DA (second-hand, from memory).
    bus = {code for code, row in ROWS.items() if row["relation"] == "bus"}
    assert len(bus) == 9 * 9 + 9
    assert {"U0001", "U0009", "U0010", "U0028", "U0064", "U0073", "U007A", "U007B", "U0088"} <= bus
    assert all(ROWS[code]["targets"] == "" for code in bus)


def test_pointer_codes() -> None:
    # P0700 and P0AC4 ask for the lamp on another module's behalf; P0600 does not. J2012DA (from memory).
    assert (TABLES.facts("P0700").relation, TABLES.facts("P0700").targets) == ("pointer", ("transmission control",))
    assert (TABLES.facts("P0AC4").relation, TABLES.facts("P0AC4").targets) == ("pointer", ("hybrid powertrain",))
    assert {code for code, row in ROWS.items() if row["relation"] == "pointer"} == {"P0700", "P0AC4", "P25A2"}
    for code in ("P0600", "P0856", "P2637", "P0A1D", "P1700"):
        assert TABLES.facts(code).relation != "pointer"


def test_restraint_targets_are_a_safety_class() -> None:
    # U0151 to U0154, U0170 to U017F, U0250 and their partners: policy of this project on restraint systems.
    lost = [*(f"U{n:04X}" for n in (*range(0x151, 0x155), *range(0x170, 0x180))), "U0250"]
    for code in lost:
        assert TABLES.facts(code).safety == "restraints", code
    partners = [code for code, row in ROWS.items() if row["relation"] == "invalid data"
                and row["targets"] in {ROWS[lost_code]["targets"] for lost_code in lost}]
    assert len(partners) == len(lost)
    for code in partners:
        assert TABLES.facts(code).safety == "restraints", code


def test_every_row_is_a_code_of_the_right_group_with_known_targets() -> None:
    groups = {"lost communication": ("U01", "U02"), "invalid data": ("U04", "U05"), "incompatible software": ("U03",),
              "bus": ("U00",), "pointer": ("P",)}
    for code, row in ROWS.items():
        assert codes.format(code) == code
        assert code.startswith(groups[row["relation"]])
        assert all(target in TABLES.modules for target in row["targets"].split("|") if target)


def test_a_module_is_the_first_target_of_one_code_of_a_kind() -> None:
    seen: dict[tuple[str, str], str] = {}
    for code, row in ROWS.items():
        first = row["targets"].split("|")[0]
        if first:
            assert seen.setdefault((row["relation"], first), code) == code


def test_partners_not_in_the_list_follow_the_rule_and_say_so() -> None:
    # Between and after pairs that follow the rule the numbers run on; such rows are marked as worked out.
    lost = {row["targets"]: code for code, row in ROWS.items() if row["relation"] == "lost communication"}
    for code, row in ROWS.items():
        if row["source"] == "worked-out":
            assert number(code) - number(lost[row["targets"]]) == 0x301
