"""Facts of codes against the standards they come from; the source stands beside each check."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from code_tables import CodeFacts, load, words
from code_tables.reading import FOLDER
from code_tables.tables import Tables
from triage.model import codes

TABLES = load()


@pytest.mark.parametrize(("code", "control"), [
    # SAE J2012 APR2002, contents pages.
    ("P0420", "standard"), ("P1420", "maker"), ("P2BAD", "standard"), ("B1000", "maker"), ("B2FFF", "maker"),
    ("C1ABC", "maker"), ("C2000", "maker"), ("B3000", "reserved"), ("C3000", "reserved"), ("C0FFF", "standard"),
    # SAE J2012 (read second-hand): the third thousand of P is split.
    ("P3105", "maker"), ("P33FF", "maker"), ("P3400", "standard"), ("P3450", "standard"),
    # SAE J2012 section 5.7 (from memory); U3xxx assigned by the digital annex (read second-hand).
    ("U0100", "standard"), ("U1000", "maker"), ("U2FFF", "maker"), ("U3003", "standard"),
])
def test_who_controls_a_range(code: str, control: str) -> None:
    assert TABLES.facts(code).control == control


@pytest.mark.parametrize(("code", "group"), [
    # SAE J2012 (read second-hand), third character.
    ("P0562", "vehicle speed, idle control, auxiliary inputs"), ("P0700", "transmission"),
    ("P0A80", "hybrid propulsion"), ("P0300", "ignition or misfire"), ("P0601", "computer and auxiliary outputs"),
    ("P0171", "fuel and air metering"), ("P0201", "fuel and air metering, injector circuits"),
    ("P0401", "auxiliary emission controls"), ("B0028", "restraints"),
])
def test_system_group(code: str, group: str) -> None:
    assert TABLES.facts(code).group == group


@pytest.mark.parametrize(("code", "target"), [
    # SAE J2012DA (read second-hand).
    ("U0100", "engine control"), ("U0121", "anti-lock brakes"), ("U0151", "restraints"),
    ("U0155", "instrument cluster"), ("U0293", "hybrid powertrain"), ("U0101", "transmission control"),
])
def test_lost_communication_names_its_target(code: str, target: str) -> None:
    facts = TABLES.facts(code)
    # Further targets may follow the first: one module does another's work on some vehicles.
    assert (facts.relation, facts.targets[0], facts.system, facts.monitor) == (
        "lost communication", target, "network", "network")


#: Lost communication and its invalid-data partner, SAE J2012DA (read second-hand).
PAIRS = {
    "U0100": "U0401", "U0101": "U0402", "U0104": "U0405", "U0109": "U0410", "U010F": "U040A", "U0110": "U0411",
    "U0111": "U0412", "U0114": "U0414", "U0115": "U0442", "U0116": "U0456", "U0117": "U0465", "U0118": "U0467",
    "U0119": "U0468", "U0120": "U0469", "U0121": "U0415", "U0122": "U0416", "U0126": "U0428", "U0127": "U0430",
    "U0128": "U0417", "U0129": "U0418", "U012D": "U042E", "U0130": "U0419", "U0131": "U0420", "U0132": "U0421",
    "U0140": "U0422", "U0141": "U0431", "U0146": "U0447", "U0151": "U0452", "U0152": "U0453", "U0154": "U0455",
    "U0155": "U0423", "U0164": "U0424", "U0166": "U0425", "U0167": "U0426", "U0168": "U0427", "U0170": "U0471",
    "U0184": "U0485", "U0198": "U0499", "U0199": "U049A", "U0200": "U0501", "U0212": "U0429", "U0235": "U0433",
    "U0250": "U0551", "U0293": "U0594", "U0298": "U0599", "U029D": "U059E",
}


@pytest.mark.parametrize(("lost", "invalid"), list(PAIRS.items()))
def test_invalid_data_names_the_same_target(lost: str, invalid: str) -> None:
    first, second = TABLES.facts(lost), TABLES.facts(invalid)
    assert first.relation == "lost communication"
    assert second.relation == "invalid data"
    assert first.targets == second.targets != ()


@pytest.mark.parametrize(("code", "kind", "targets"), [
    ("P0700", "pointer", ("transmission control",)),      # SAE J2012DA (from memory)
    ("P0AC4", "pointer", ("hybrid powertrain",)),         # SAE J2012DA (from memory)
    ("U0301", "incompatible software", ("engine control",)),   # SAE J2012DA (read second-hand)
    ("U0073", "bus", ()),                                 # SAE J2012DA (read second-hand)
])
def test_other_relations(code: str, kind: str, targets: tuple[str, ...]) -> None:
    facts = TABLES.facts(code)
    assert facts.relation == kind
    assert facts.targets == targets


def test_c0035_is_marked_as_meaning_two_things() -> None:
    # SAE J2012DA (read second-hand) against older lists: left front sensor, or right front sensor supply.
    facts = TABLES.facts("C0035")
    assert facts.note is not None
    assert "edition" in facts.note
    assert not {"left", "right", "front", "rear"} & set(facts.title.replace(",", "").split())


@pytest.mark.parametrize("code", ["C0040", "C0045", "C0050", "B1317", "B1318", "U3003", "B3012", "C3FFF", "U0294"])
def test_other_conflicts_carry_a_note(code: str) -> None:
    assert TABLES.facts(code).note


@pytest.mark.parametrize(("failure_type", "meaning"), [
    # SAE J2012DA (read second-hand), in words of our own.
    ("13", "circuit open"), ("16", "circuit voltage below limit"), ("87", "message missing"), ("88", "bus off"),
    ("54", "calibration missing"), ("55", "not configured"), ("56", "configuration invalid or incompatible"),
    ("11", "circuit short to ground"), ("12", "circuit short to battery"), ("1f", "circuit intermittent"),
    ("64", "signal implausible"), ("00", "no sub-type"),
])
def test_failure_type(failure_type: str, meaning: str) -> None:
    assert TABLES.facts("B1234", failure_type).failure == meaning


@pytest.mark.parametrize(("high", "category"), [
    # SAE J2012DA (read second-hand): the category is the high nibble.
    ("1", "general electrical"), ("2", "general signal"), ("4", "system internal"), ("5", "system programming"),
    ("6", "algorithm based"), ("7", "mechanical"), ("8", "bus signal or message"), ("9", "component"),
])
def test_failure_type_without_a_row_falls_back_on_its_category(high: str, category: str) -> None:
    failure = TABLES.facts("B1234", f"{high}0").failure
    assert failure is not None
    assert failure.startswith(category)


@pytest.mark.parametrize("failure_type", ["51", "54", "55", "56"])
def test_programming_types_ask_for_a_procedure(failure_type: str) -> None:
    # SAE J2012DA (read second-hand): category 5 is set right by configuring or programming.
    facts = TABLES.facts("P0605", failure_type)
    assert (facts.needs, facts.noise) == ("procedure", "self")


def test_precedence_of_the_monitor() -> None:
    # Common practice: an open or short circuit of a wheel speed sensor shows at key on, its plausibility in motion.
    assert TABLES.facts("C0031").monitor == "speed"
    for circuit in ("11", "12", "13", "14", "15"):
        facts = TABLES.facts("C0031", circuit)
        assert (facts.monitor, facts.monitor_named) == ("key on", True)
    assert TABLES.facts("C0031", "64").monitor == "speed"
    assert TABLES.facts("P0101", "64").monitor == "running"
    # A failure type that only hints stands back behind the code's own row ...
    row = TABLES.facts("C0031", "77")
    assert (row.monitor, row.monitor_named) == ("speed", True)
    # ... and goes before the range where there is no row.
    assert not TABLES.facts("C1777").monitor_named
    hint = TABLES.facts("C1777", "77")
    assert (hint.monitor, hint.monitor_named) == ("commanded output", False)


def test_failure_type_in_the_text_and_beside_it() -> None:
    assert TABLES.facts("p0562-16") == TABLES.facts("P0562", "16")
    assert TABLES.facts("P0562-16", "17").failure == TABLES.facts("P0562", "17").failure
    assert TABLES.facts("P0562", "zz") == TABLES.facts("P0562")


@pytest.mark.parametrize(("code", "failure_type", "supply"), [
    # SAE J2012DA (read second-hand); failure types of U3003 from memory.
    ("P0560", None, "fault"), ("P0561", None, "fault"), ("P0562", None, "low"), ("P0563", None, "high"),
    ("P0A8B", None, "fault"), ("P0A8D", None, "low"), ("P0A8E", None, "high"), ("P2503", None, "low"),
    ("P2504", None, "high"), ("U3003", None, "fault"), ("U3003", "16", "low"), ("U3003", "17", "high"),
    ("U3006", "16", "low"), ("U3007", None, "fault"), ("P0562", "17", "low"), ("C0899", None, "low"),
    # SAE J1939-73 (read second-hand): failure mode 4 low, 3 high, 1 and 18 low, 0 and 16 high.
    ("SPN 168 FMI 4", None, "low"), ("SPN 168 FMI 3", None, "high"), ("SPN 158 FMI 18", None, "low"),
    ("SPN 167 FMI 1", None, "low"), ("SPN 444 FMI 16", None, "high"), ("SPN 627 FMI 2", None, "fault"),
    # Not a supply: a sensor supply, a power relay, a maker's own number.
    ("P0642", None, None), ("P0685", None, None), ("B1318", None, None), ("SPN 620 FMI 4", None, None),
    ("P0171", "16", None),
])
def test_supply_codes(code: str, failure_type: str | None, supply: str | None) -> None:
    facts = TABLES.facts(code, failure_type)
    assert facts.supply == supply
    if supply:
        assert (facts.system, facts.needs) == ("supply", "supply")


@pytest.mark.parametrize(("code", "safety"), [
    # High-voltage isolation, interlock and contactors, restraint targets: SAE J2012DA (read second-hand), policy.
    ("P0AA6", "high voltage"), ("P0A0D", "high voltage"), ("P0A95", "high voltage"), ("P0AA1", "high voltage"),
    ("B0001", "restraints"), ("B00FF", "restraints"), ("U0151", "restraints"), ("U0154", "restraints"),
    ("U0170", "restraints"), ("U017F", "restraints"), ("U0250", "restraints"), ("U0452", "restraints"),
    ("U0551", "restraints"), ("U0121", "brakes"), ("U0415", "brakes"), ("U0131", "steering"), ("U0420", "steering"),
    ("U0111", "high voltage"), ("U0298", "high voltage"), ("C0020", "brakes"), ("C0051", "steering"),
    ("C0063", "brakes"), ("C1234", "brakes"), ("SPN 789 FMI 5", "brakes"), ("SPN 2011 FMI 9", "brakes"),
    ("P0562", None), ("P0300", None), ("U0100", None), ("U0155", None), ("B1234", None), ("C0077", None),
    ("C0899", None), ("P0A8D", None),
])
def test_safety_class(code: str, safety: str | None) -> None:
    assert TABLES.facts(code).safety == safety


@pytest.mark.parametrize(("code", "monitor"), [
    # Common practice: what each group of monitors needs.
    ("P0442", "cold soak"), ("P0420", "drive cycle"), ("P0301", "running"), ("U0100", "network"),
    ("P0AA6", "high voltage"), ("B0001", "key on"), ("U3012", "event"), ("P0562", "running"),
])
def test_monitor_class(code: str, monitor: str) -> None:
    assert TABLES.facts(code).monitor == monitor


def test_j1939() -> None:
    # SAE J1939-73 (read second-hand): failure modes 3 to 6 are electrical, 9 and 19 speak of the network.
    for mode in (3, 4, 5, 6):
        facts = TABLES.facts(f"SPN 100 FMI {mode}")
        assert (facts.title, facts.monitor, facts.monitor_named) == ("engine oil pressure", "key on", True)
    assert TABLES.facts("SPN 100 FMI 1").monitor == "running"
    assert TABLES.facts("SPN 100 FMI 19").relation == "invalid data"
    # SAE J1939 digital annex (from memory): 2000 and on name an address that is not heard; 11 is the brakes'.
    lost = TABLES.facts("SPN 2011 FMI 9")
    assert (lost.relation, lost.targets) == ("lost communication", ("anti-lock brakes",))
    assert "address 200" in TABLES.facts("SPN 2200 FMI 9").title
    # A parameter in no list still says what it is.
    other = TABLES.facts("SPN 60001 FMI 5")
    assert (other.known, other.title, other.monitor) == (False, "J1939 parameter 60001", "key on")
    assert TABLES.facts("SPN 520192 FMI 1").control == "maker"


def test_makers_own_numbers() -> None:
    facts = TABLES.facts("01314")
    assert (facts.code, facts.title, facts.control) == ("01314", "maker's own number", "maker's own number")
    # SAE J1939-73: the failure modes of the older numbers are the same.
    old = TABLES.facts("MID 128 PID 94 FMI 4")
    assert (old.monitor, old.failure) == ("key on", "voltage below normal or shorted low")
    assert TABLES.facts("P4000").title == "not the form of any code in this table"


def _sound(facts: CodeFacts) -> None:
    assert facts.title
    assert facts.control in words.CONTROLS
    assert facts.group
    assert facts.system in words.SYSTEMS
    assert facts.monitor in words.MONITORS
    assert facts.trips in (1, 2)
    assert facts.safety in (*words.SAFETIES, None)
    assert facts.supply in (*words.SUPPLIES, None)
    assert facts.relation in (*words.RELATIONS, None)
    assert facts.noise in words.NOISES
    assert facts.needs in words.NEEDS
    assert facts.sources
    assert "unknown code" not in facts.title


def test_every_two_byte_value_is_answered() -> None:
    modules = TABLES.modules
    for number in range(0x10000):
        text = codes.from_number(number).text
        facts = TABLES._find_facts(text, None)
        _sound(facts)
        assert facts.code == text
        assert all(target in modules for target in facts.targets)


def test_every_failure_type_is_answered() -> None:
    for byte in range(256):
        for code in ("P0562", "C0031", "U0100", "B1234", "U3003", "P0AA6", "01314"):
            facts = TABLES.facts(code, f"{byte:02X}")
            _sound(facts)
            assert facts.failure


@given(st.integers(0, codes.SPN_MAX), st.integers(0, codes.FMI_MAX))
def test_every_parameter_is_answered(spn: int, fmi: int) -> None:
    facts = TABLES.facts(f"SPN {spn} FMI {fmi}")
    _sound(facts)
    assert facts.failure


@given(st.text(), st.one_of(st.none(), st.text(max_size=3)))
def test_any_text_is_answered(text: str, failure_type: str | None) -> None:
    _sound(TABLES.facts(text, failure_type))
    assert TABLES.module(text).name == text


@given(st.from_regex(r"\A(MID|SPN|FMI|[PCBU])[ 0-9A-Fx]{0,12}( FMI [0-9²]{1,4})?\Z"))
def test_near_codes_are_answered(text: str) -> None:
    _sound(TABLES.facts(text))


def test_modules() -> None:
    restraints = TABLES.module("restraints")
    assert (restraints.system, restraints.safety, restraints.awake) == ("restraints", "restraints", "key")
    # An instance that has no row takes the facts of its base.
    camera = TABLES.module("camera 44")
    assert (camera.name, camera.instance_of, camera.system) == ("camera 44", "camera", "body")
    assert TABLES.module("door, tail end").instance_of == "door"
    neutral = TABLES.module("left-handed widget")
    assert (neutral.system, neutral.safety, neutral.instance_of, neutral.awake) == ("other", None, None, "any")
    assert TABLES.aliases["engine control"] == "engine control"
    assert set(TABLES.aliases.values()) <= set(TABLES.modules)


def test_the_answer_is_kept() -> None:
    assert TABLES.facts("P0562", "16") is TABLES.facts("P0562", "16")
    assert load() is TABLES


def test_enough_codes_have_a_title() -> None:
    assert len(TABLES.listed_codes) >= 1000


def test_the_other_tables_answer_where_titles_has_no_row(tmp_path: Path) -> None:
    for path in FOLDER.glob("*.csv"):
        shutil.copy(path, tmp_path)
    titles = tmp_path / "titles.csv"
    titles.write_text(titles.read_text(encoding="utf-8").splitlines()[0] + "\n", encoding="utf-8")
    bare = load(tmp_path)
    supply = bare.facts("P0562")
    assert (supply.known, supply.title) == (False, "standard powertrain code, vehicle speed, idle control, "
                                                   "auxiliary inputs")
    assert (supply.supply, supply.needs, supply.noise, supply.monitor_named) == ("low", "supply", "supply", True)
    assert bare.facts("C0035").title == "wheel speed sensor or its supply, which wheel is not certain"
    pointer = bare.facts("P0700")
    assert (pointer.needs, pointer.targets) == ("nothing", ("transmission control",))
    lost = bare.facts("U0100")
    assert (lost.noise, lost.monitor, lost.monitor_named) == ("network", "network", True)
    mismatch = bare.facts("U0301")
    assert (mismatch.noise, mismatch.needs, mismatch.monitor) == ("self", "procedure", "key on")


def test_every_listed_failure_type_has_a_row() -> None:
    # SAE J2012DA (mostly read second-hand): the sub-types in use.
    listed = [f"{high}{low}" for high, lows in {
        "0": "0123456789", "1": "123456789ABCDEF", "2": "123456789ABF", "3": "123456789A", "4": "123456789AB",
        "5": "1234567", "6": "12345678", "7": "123456789ABCEF", "8": "12345678F", "9": "123456789A"}.items()
        for low in lows]
    for failure_type in listed:
        failure = TABLES.facts("B1234", failure_type).failure
        assert failure is not None
        assert "not in this table" not in failure
    assert "not in this table" in str(TABLES.facts("B1234", "4F").failure)


def test_codes_answered_alike_differ_in_the_code_alone() -> None:
    # Fresh tables: what one of them keeps of the first code of a range must be right for every other.
    own = replace(load()._content, by_range={})
    kept, alone = Tables(replace(own, by_range={})), Tables(own)
    for code in ("B1A23", "B1A24", "C1E00", "P1A23", "U1D46", "B1A25"):
        for failure_type in (None, "11", "88", "7F", "ZZ"):
            own.by_range.clear()
            expected = alone.facts(code, failure_type)
            assert kept.facts(code, failure_type) == expected
            assert expected.code == code
    alike = [kept.facts(code, "88") for code in ("B1A23", "B1A24", "C1E00", "P0300")]
    assert alike[0].alike == alike[1].alike != alike[2].alike
    assert alike[0] == replace(alike[1], code="B1A23")
    assert alike[3].alike == 0
