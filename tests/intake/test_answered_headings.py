"""Headings which say, behind the name, that the module answered: its codes or their absence stand below."""

from __future__ import annotations

import pytest
from reads import scans

PRINTED = """\
ALL-MODULE PRINTOUT
12 V supply: 12.0 V

Module 01  Engine                Status: answered
   Fault P0A94 ....................... DC/DC converter
   performance                         [pending]
   Fault P0560 ....................... system voltage
   malfunction                         [confirmed]
Module 02  Brakes                Status: answered
   No faults stored
Module 03  Hybrid battery        Status: answered
   Fault P0A7F ....................... hybrid battery pack
   deterioration                       [confirmed]
Module 04  Air conditioning      Status: answered
   Fault B1479 ....................... compressor inverter
   supply                              [confirmed]
Module 05  Tyre pressure         Status: no answer
"""


def test_descriptions_behind_leaders_name_no_module_below_such_headings() -> None:
    assert scans(PRINTED) == [
        "12.0 V | Engine: P0A94 pending P0560 confirmed; Brakes: clean; Hybrid battery: P0A7F confirmed; "
        "Air conditioning: B1479 confirmed; Tyre pressure: silent"
    ]


@pytest.mark.parametrize("said", ["   Status: answered", " - Status: responding", " (response: reached)",
                                  "      Communication: online"])
def test_that_a_module_answered_is_no_part_of_its_name(said: str) -> None:
    assert scans(f"Brakes{said}\n   no codes\nGearbox{said}\n   P0700 stored\nABS: no reply\n") == [
        " | Brakes: clean; Gearbox: P0700 stored; ABS: silent"
    ]


def test_an_answer_alone_is_not_read_as_no_codes() -> None:
    assert scans("Brakes    Status: answered\nGearbox   Status: no answer\nABS: P0700\n") == [
        " | Gearbox: silent; ABS: P0700"
    ]
