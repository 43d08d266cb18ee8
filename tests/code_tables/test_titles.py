"""titles.csv: its form, its reach, and what its titles say, held against public texts.

"second-hand" is a text that quotes the standard; "from memory" is the numbering as the trade knows it.
"""

from __future__ import annotations

import csv
import re
from functools import lru_cache
from pathlib import Path

import pytest

TABLES = Path(__file__).parents[2] / "code_tables"
HEADER = ["code", "title", "monitor", "trips", "needs", "noise", "source"]
MONITORS = {"key on", "commanded output", "network", "running", "warm", "speed", "drive cycle", "cold soak", "event",
            "high voltage"}
NOISES = {"network", "supply", "self", "electronic", "mechanical"}
NEEDS = {"repair", "procedure", "supply", "nothing"}

#: Words that keep their capitals: trade abbreviations, letters that name one of several, terminals and phases.
ABBREVIATIONS = {
    "A/C", "ABS", "AC/AC", "AC/DC", "CAN", "DC/AC", "DC/DC", "ECM/PCM", "EEPROM", "EGR", "HV", "HVAC", "NOx", "O2",
    "PM", "RAM", "ROM", "SCR", "TCM", "VIN", "hybrid/EV",
}
ONE_OF_SEVERAL = re.compile(r"[A-QU-Y]")

SECOND_HAND = "SAE J2012DA (second-hand)"
MEMORY = "SAE J2012DA (from memory)"
MEMORY_2002 = "SAE J2012 APR2002 (from memory)"

#: Codes that public texts name, each line with the text; "a-b" is a span counted in decimal, "a..b" in hexadecimal.
NAMED = [
    (SECOND_HAND, "P0127 P0560-P0563 P0A8B P0A8D P0A8E P0A0D P0A7E P0A7F P0A80 P0A95 P0A9D P0A9E P0AA6"),
    (SECOND_HAND, "P0ABB..P0ABD P0ABF..P0AC2 P0AED..P0AF0 P0AF8 P0AFA..P0AFD P0B24..P0B26"),
    (SECOND_HAND, "U3000..U3017 U0064-U0072 U0073..U007B U0080-U0088"),
    (SECOND_HAND, "U0100-U0109 U010A U010B U010C U010D U010E U010F U0110-U0119 U011A U011B U011C U011D U011E"),
    (SECOND_HAND, "U0120-U0129 U012A U012B U012D U0130-U0139 U013C U0140-U0159 U0160-U0169 U016A U016B U016D"),
    (SECOND_HAND, "U0170..U017F U0180-U0191 U0193-U0199 U019A U019B U019C U019E U019F U01A0 U01B0"),
    (SECOND_HAND, "U0200-U0228 U0230-U0236 U0241 U0242 U0245 U0250 U0253-U0257 U0264..U0270 U0284 U0287-U0289"),
    (SECOND_HAND, "U0291-U0299 U029A..U029E U02A2 U02A3 U02A6"),
    (SECOND_HAND, "U0300-U0305 U0310-U0313 U0315-U0318 U0320-U0324 U0326-U0331 U0335-U0337"),
    (SECOND_HAND, "U0401-U0409 U040A U040B U040D U040F U0410-U0419 U041E U0420-U0438 U043A U0441-U0443"),
    (SECOND_HAND, "U042E U0447 U0448 U0452-U0457 U0459 U045A U0461 U0463-U0469 U046A..U046C U0471 U0481 U0483"),
    (SECOND_HAND, "U0485 U0487 U0498 U0499 U049A U049C U049F U04A1 U04B1 U0501 U0507 U0509 U0546 U0551 U0554"),
    (SECOND_HAND, "U0555 U0557 U0565 U0585 U0592-U0595 U0599 U059B U059E U059F"),
    (SECOND_HAND, "C0020-C0023 C0030-C0038 C003A C0040-C0046 C0050 C0052-C0055 C0061-C0065 C0081"),
    (SECOND_HAND, "B0001-B0005 B0010-B0013 B0020-B0022 B0039"),
    ("ISO 14229-1:2013 (second-hand), tables 287 to 289", "P0805 P0A9B P2522"),
    ("ISO 15031-6 / ISO 15031-5, examples (second-hand)", "P0143 P0196 P0234 P02CD P0357 P0A24 P0443 P0133 U0073"),
    ("13 CCR 1968.2 (2007 text), thermostat; oxygen sensor, catalyst and leak by the trade", "P0128 P0420"),
    (MEMORY, "P0600-P0607 P0620-P0622 P0625 P0626 P0641-P0643 P0651-P0653 P0685-P0690 P0700 P0AC4 P2503-P2505"),
    (MEMORY, "P0A1A P0A1B P0A1D P0A7D P0A81..P0A85 P0A94 P0A9C P0AA0..P0AA5 P0AA7 P0ABA P0ABE P0300 P3400 P3450"),
    (MEMORY, "P0030 P0118 P0A0A P0A0B P0A0C P0A0E C0800 C0899 C006A B0028 B0050-B0056 B0081 P2BAD"),
    (MEMORY, "U0001-U0009 U0010-U0018 U0019-U0027 U0028-U0036 U0037-U0045 U0046-U0054 U0055-U0063"),
    (MEMORY_2002, "C0000-C0004 C0010 C0011 C0014 C0015 C0018 C0019 C001C C001D C0039 C003B C0051 C0072 C0077"),
    (MEMORY_2002, "C0078 C0089"),
]

#: Code, words its title must hold, class of its monitor, and where the meaning can be read.
MEANINGS = [
    ("P0143", "O2 sensor|low|bank 1 sensor 3", "running", "ISO 15031-5 example; meaning from memory: J2012"),
    ("P0133", "O2 sensor|slow|bank 1 sensor 1", "warm", "from memory: J2012; common practice for the monitor"),
    ("P0196", "oil temperature|implausible", "drive cycle", "ISO 15031-5 example; meaning from memory: J2012"),
    ("P0234", "boost|too high", "drive cycle", "ISO 15031-5 example; meaning from memory: J2012"),
    ("P02CD", "offset learning|upper|cylinder 1", "warm", "ISO 15031-5 example; meaning from memory: J2012DA"),
    ("P0357", "coil G", "running", "ISO 15031-5 example; meaning from memory: J2012"),
    ("P0A24", "generator torque|low", "key on", "ISO 15031-5 example; meaning from memory: J2012DA"),
    ("P0443", "purge valve|circuit", "key on", "ISO 15031-5 example; meaning from memory: J2012"),
    ("P0805", "clutch position sensor", "key on", "ISO 14229-1:2013 table 287 (second-hand)"),
    ("P0A9B", "battery temperature sensor", "key on", "ISO 14229-1:2013 table 288 (second-hand)"),
    ("P2522", "A/C request B", "key on", "ISO 14229-1:2013 table 289 (second-hand)"),
    ("P0128", "thermostat", "drive cycle", "13 CCR 1968.2 (2007 text) (e)(10)"),
    ("P0442", "leak|small", "cold soak", "1.0 mm leak of 40 CFR 86.1806-05; number from memory: J2012"),
    ("P0456", "leak|very small", "cold soak", "0.5 mm leak of 13 CCR 1968.2 (e)(4.3); number from memory: J2012"),
    ("P0455", "leak|large", "cold soak", "from memory: J2012"),
    ("P0300", "misfire|random", "running", "continuous monitor of 40 CFR 86.1806-05 (e)(4); from memory: J2012"),
    ("P0171", "lean|bank 1", "warm", "from memory: J2012"),
    ("P0175", "rich|bank 2", "warm", "from memory: J2012"),
    ("P0401", "EGR|too low", "warm", "from memory: J2012"),
    ("P0411", "secondary air", "drive cycle", "secondary air on a cold start, 40 CFR 86.010-18 (d)(4)(iv)"),
    ("P0420", "catalyst|bank 1", "drive cycle", "once a driving cycle, 13 CCR 1968.2 (from memory)"),
    ("P0118", "coolant|1|high", "key on", "from memory: J2012"),
    ("P0102", "air flow|low", "running", "from memory: J2012"),
    ("P0335", "crankshaft|A", "running", "from memory: J2012; the sensor is silent while the engine stands"),
    ("P0500", "vehicle speed", "speed", "from memory: J2012"),
    ("P0562", "voltage low", "running", "SAE J2012DA (second-hand)"),
    ("P0563", "voltage high", "running", "SAE J2012DA (second-hand)"),
    ("P0601", "checksum", "key on", "from memory: J2012"),
    ("P0602", "not programmed", "key on", "from memory: J2012"),
    ("P0642", "reference|A|low", "key on", "from memory: J2012DA"),
    ("P0700", "transmission|lamp", "key on", "from memory: J2012DA"),
    ("P0741", "torque converter", "speed", "from memory: J2012"),
    ("P0A0D", "interlock|high", "high voltage", "SAE J2012DA (second-hand)"),
    ("P0A80", "pack|judgement", "drive cycle", "SAE J2012DA (second-hand); the judgement is no order to replace"),
    ("P0A8D", "14 V|low", "running", "SAE J2012DA (second-hand)"),
    ("P0AA1", "positive contactor|closed", "high voltage", "from memory: J2012DA"),
    ("P0AA6", "isolation", "high voltage", "SAE J2012DA (second-hand)"),
    ("P2002", "particulate filter", "drive cycle", "PM filter monitor of J1979 PID 01; from memory: J2012"),
    ("P20EE", "SCR|bank 1", "drive cycle", "NOx/SCR monitor of J1979 PID 01; from memory: J2012DA"),
    ("P2138", "pedal|D and E", "key on", "from memory: J2012"),
    ("P2BAD", "NOx|unknown", "drive cycle", "from memory: J2012DA"),
    ("C0020", "ABS pump", "speed", "SAE J2012DA (second-hand)"),
    ("C0031", "left front wheel speed", "speed", "SAE J2012DA (second-hand)"),
    ("C003A", "right rear wheel speed", "speed", "SAE J2012DA (second-hand)"),
    ("C0063", "yaw rate", "speed", "SAE J2012DA (second-hand)"),
    ("B0001", "driver front|1", "key on", "SAE J2012DA (second-hand)"),
    ("B0039", "second row right|1", "key on", "ISO 15031-6 / ISO 14229-1 (second-hand)"),
    ("U0003", "high-speed CAN|(+)|open", "network", "SAE J2012DA (from memory)"),
    ("U0072", "bus E|shorted", "network", "SAE J2012DA (second-hand)"),
    ("U007B", "bus I|off", "network", "SAE J2012DA (second-hand)"),
    ("U0121", "lost|ABS", "network", "SAE J2012DA (second-hand)"),
    ("U0168", "lost|security", "network", "SAE J2012DA (second-hand); not the immobiliser, which is U0167"),
    ("U0315", "software|ABS", "network", "SAE J2012DA (second-hand)"),
    ("U0415", "invalid|ABS", "network", "SAE J2012DA (second-hand)"),
    ("U3003", "battery voltage", "key on", "SAE J2012DA (second-hand)"),
]

#: Lost communication and invalid data about one module, SAE J2012DA (second-hand): the partner is no fixed step away.
PARTNERS = [("U0100", "U0401"), ("U0101", "U0402"), ("U0109", "U0410"), ("U010F", "U040A"), ("U0115", "U0442"),
            ("U0121", "U0415"), ("U0126", "U0428"), ("U0131", "U0420"), ("U0140", "U0422"), ("U0151", "U0452"),
            ("U0155", "U0423"), ("U0164", "U0424"), ("U0167", "U0426"), ("U0168", "U0427"), ("U0184", "U0485"),
            ("U0212", "U0429"), ("U0235", "U0433"), ("U0250", "U0551"), ("U0293", "U0594"), ("U0298", "U0599")]


@lru_cache(maxsize=1)
def rows() -> dict[str, dict[str, str]]:
    """The rows by code; a second row of a code is kept from hiding by :func:`test_every_code_has_one_row`."""
    with (TABLES / "titles.csv").open(encoding="utf-8", newline="") as file:
        return {row["code"]: row for row in csv.DictReader(file)}


def plain() -> list[list[str]]:
    with (TABLES / "titles.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def title(code: str) -> str:
    return rows()[code]["title"]


def span(text: str) -> list[str]:
    """The codes of "P0560", "P0560-P0563" (counted in decimal) or "U300A..U3017" (in hexadecimal)."""
    for mark, base in (("..", 16), ("-", 10)):
        if mark in text:
            first, last = text.split(mark)
            digits = "04X" if base == 16 else "04d"
            return [first[0] + format(number, digits)
                    for number in range(int(first[1:], base), int(last[1:], base) + 1)]
    return [text]


def test_header_and_cells() -> None:
    lines = plain()
    assert lines[0] == HEADER
    assert all(len(line) == len(HEADER) for line in lines)
    assert all(cell == cell.strip() for line in lines for cell in line)


def test_every_code_has_one_row() -> None:
    codes = [line[0] for line in plain()[1:]]
    assert len(codes) == len(set(codes)) >= 1500


def test_codes_decode_and_stand_in_the_order_of_their_bytes() -> None:
    """Outside reference: the code of SAE J2012 as py-uds reads it, P, C, B, U in the two top bits."""
    reference = pytest.importorskip("uds.utilities")
    numbers = [reference.obd_dtc_to_int(f"{line[0]}-00") for line in plain()[1:]]
    assert numbers == sorted(numbers)


def test_no_title_for_a_number_that_is_the_makers() -> None:
    """SAE J2012 APR2002, contents pages: P1, P30 to P33, C1, C2, B1, B2 are the maker's; U1, U2 from memory."""
    maker = re.compile(r"P1...|P3[0-3]..|[CBU][12]...|[CB]3...")
    assert [code for code in rows() if maker.fullmatch(code)] == []


def test_words_of_each_column() -> None:
    with (TABLES / "sources.csv").open(encoding="utf-8", newline="") as file:
        sources = {row["key"] for row in csv.DictReader(file)}
    for code, row in rows().items():
        assert row["monitor"] in MONITORS, code
        assert row["trips"] in {"", "1", "2"}, code
        assert row["needs"] in NEEDS, code
        assert row["noise"] in NOISES, code
        assert row["source"] in sources, code


def test_titles_are_short_lower_case_words() -> None:
    for code, row in rows().items():
        words = row["title"].replace("(", " ").replace(")", " ").replace(",", " ").replace(":", " ").split()
        assert 0 < len(row["title"]) <= 60, code
        odd = [word for word in words
               if word != word.lower() and word not in ABBREVIATIONS and not ONE_OF_SEVERAL.fullmatch(word)]
        assert odd == [], code


@pytest.mark.parametrize(("source", "codes"), NAMED)
def test_codes_named_in_public_texts_have_a_row(source: str, codes: str) -> None:
    missing = [code for part in codes.split() for code in span(part) if code not in rows()]
    assert missing == [], source


@pytest.mark.parametrize(("code", "words", "monitor", "source"), MEANINGS, ids=[row[0] for row in MEANINGS])
def test_meaning(code: str, words: str, monitor: str, source: str) -> None:
    for word in words.split("|"):
        assert word in title(code), source
    assert rows()[code]["monitor"] == monitor, source


@pytest.mark.parametrize(("lost", "invalid"), PARTNERS)
def test_partner_names_the_same_module(lost: str, invalid: str) -> None:
    assert title(lost).removeprefix("lost communication, ") == title(invalid).removeprefix("invalid data from ")


def test_cylinders_count_up() -> None:
    """SAE J2012 (from memory): one number a cylinder from these starts; in groups of three for the injectors."""
    for first, step in ((201, 1), (301, 1), (671, 1), (2336, 1), (261, 3), (262, 3), (263, 3), (3401, 8), (3405, 8)):
        for cylinder in range(1, 13):
            code = f"P{first + step * (cylinder - 1):04d}"
            assert title(code).endswith(f"cylinder {cylinder}"), code


def test_coils_and_their_windings_count_up() -> None:
    """SAE J2012 (from memory): coils A to L at P0351, primary and secondary windings in threes at P2300."""
    for place, letter in enumerate("ABCDEFGHIJKL"):
        assert f"coil {letter} " in title(f"P{351 + place:04d}")
        for offset, winding in enumerate(("primary", "primary", "secondary")):
            assert f"coil {letter} {winding}" in title(f"P{2300 + 3 * place + offset}")


def test_oxygen_sensors_count_up() -> None:
    """SAE J2012 (from memory): six numbers a sensor from P0130, the sixth its heater."""
    places = [(1, 1), (1, 2), (1, 3), (2, 1), (2, 2), (2, 3)]
    starts = (130, 136, 142, 150, 156, 162)
    for start, (bank, sensor) in zip(starts, places, strict=True):
        family = [title(f"P{start + step:04d}") for step in range(6)]
        assert all(text.endswith(f"bank {bank} sensor {sensor}") for text in family)
        assert "low" in family[1]
        assert "high" in family[2]
        assert "slow" in family[3]
        assert "heater" in family[5]


@pytest.mark.parametrize("code", ["C0035", "C0040", "C0045", "C0050"])
def test_no_position_where_the_editions_differ(code: str) -> None:
    """Older lists name a wheel here, SAE J2012DA (second-hand) another wheel's supply or a brake switch or sensor."""
    assert not re.search(r"\b(left|right|front|rear|LF|RF|LR|RR)\b", title(code))


def test_set_up_work_is_a_procedure() -> None:
    """SAE J2012 (from memory): software mismatch, not programmed, not learned, VIN: nothing there to repair."""
    codes = [code for code in rows() if code.startswith("U03")]
    codes += ["P0602", "P0610", "P0630", "P0633", "P0315", "P2176", "P0949", "U3002"]
    assert {rows()[code]["needs"] for code in codes} == {"procedure"}


def test_supply_codes_need_the_supply() -> None:
    """SAE J2012DA (second-hand; P2503 and C0899 from memory): the supply is what they speak of."""
    for code in ("P0560", "P0561", "P0562", "P0563", "P0A8D", "P2503", "P2504", "U3003", "C0899"):
        assert (rows()[code]["needs"], rows()[code]["noise"]) == ("supply", "supply"), code


def test_safety_of_the_classes() -> None:
    """A weak supply does not explain a leak of insulation or a restraint circuit away (policy)."""
    assert rows()["P0AA6"]["noise"] == "mechanical"
    assert {row["monitor"] for code, row in rows().items() if code.startswith("B00")} == {"key on"}
    assert {row["monitor"] for code, row in rows().items() if code.startswith(("U01", "U04", "U05"))} == {"network"}
