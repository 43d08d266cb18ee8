"""Headings that a word for a control unit leads without a colon, and descriptions before codes in brackets below them.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import printed

from triage.intake.lines.rows import rows_of
from triage.intake.tidying.keyedheads import taken_off

KEYED = [
    ("Control unit Addr 11 Tailgate\n\tLevel sensor no signal (U281A-55) - Active\n\nControl unit Addr 12 Radio\n"
     "\tLeft flap motor (B1015) - Inactive\n", "Tailgate: U281A-55; Radio: B1015"),
    ("Unidad de control 0x70C Radio\nBus de datos (B1015-16)\n\nUnidad de control 0x710 QZML\n"
     "Circuito abierto (U182E-21) - actual\nTensión baja (B2799-12)\n\nUnidad de control 0x714 ABS\nSin comunicación\n",
     "Unidad de control 0x70C Radio: B1015-16; 0x710 QZML: U182E-21 B2799-12; Unidad de control 0x714 ABS: silent"),
]


@pytest.mark.parametrize(("text", "read"), KEYED)
def test_a_word_for_a_control_unit_before_several_names(text: str, read: str) -> None:
    assert printed(text) == read


@pytest.mark.parametrize("text", [
    # Parts of names, one line alone, and keys with their marks.
    "System voltage\nSystem clock", "Module de porte\nModule de toit", "Control unit 0x70C Radio",
    "Control unit = 0x70C Radio\nControl unit = 0x710 ABS", "Unit : Radio\nUnit : ABS",
])
def test_what_is_no_key_stays(text: str) -> None:
    rows = rows_of(text)
    assert taken_off(rows, lambda name: name in ("Radio", "ABS")) == rows


@pytest.mark.parametrize("count", ["(1)", "[1 DTC]", ": 1 fault(s) found", "- 1 code"])
def test_descriptions_with_names_below_headings_that_count(count: str) -> None:
    text = "".join(f"* {name} {count}\n    {told}\n" for name, told in (
        ("climate", "Lost communication with door module (U0199) - present"),
        ("radio", "Aerial open circuit (B1015) - stored"), ("wiper module", "Cruise signal (B10AC:49) - stored")))
    assert printed(text) == "climate: U0199; radio: B1015; wiper module: B10AC-49"


@pytest.mark.parametrize("lead", ["0X7{}0 ", "0x7{}0 "])
def test_descriptions_below_unknown_names_with_their_addresses(lead: str) -> None:
    text = "".join(f"{lead.format(at)}{name}\nAerial low ({code})\n" for at, (name, code) in enumerate(
        (("ICM", "B152A"), ("QZML", "U0401"), ("BCM", "B1479"), ("QZMR", "U1900"))))
    assert [part.rpartition(" ")[2] for part in printed(text).split("; ")] == ["B152A", "U0401", "B1479", "U1900"]
    assert "QZML: U0401" in printed(text)
    assert "QZMR: U1900" in printed(text)


@pytest.mark.parametrize("key", ["Module {}", "Control unit {}", "Module - {}", "Steuergerät {}", "ECU {}"])
@pytest.mark.parametrize("code", ["  U2100-82  Configuration", "  02411  Battery implausible"])
def test_names_that_nobody_knows_behind_the_words_of_the_others(key: str, code: str) -> None:
    """Their codes are none of the module above."""
    names = ("Airbag", "Ladder winch", "Radio", "Barn owl")
    text = "".join(f"{key.format(name)}\n{code}  - stored\n  B1000  Internal - stored\n" for name in names)
    read = printed(text).split("; ")
    assert [part.partition(": ")[0] for part in read] == list(names)
    assert all(part.endswith("B1000") and part.count(" ") > 1 for part in read)


def test_descriptions_that_begin_with_such_words_are_no_names() -> None:
    held = "U3006\nControl module input power A\nstored\nP0562\nSystem voltage\nstored\n"
    text = "".join(f"Control module {name}\n{held}"
                   for name in ("Airbag", "Radio", "Ladder winch"))
    assert printed(text) == "Airbag: U3006 P0562; Radio: U3006 P0562; Ladder winch: U3006 P0562"
