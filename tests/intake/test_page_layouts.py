"""Pages set in columns, forms with boxes, and names that stand alone in a row of a table."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans


@pytest.mark.parametrize(("text", "expected"), [
    ("VEHICLE REPORT\n\nEngine control                          Instrument cluster\n"
     "P0562 System voltage low (stored)       U0100 Lost contact with the\n"
     "P0113 Intake air sensor high            engine unit (stored)\n"
     "  (present)                             U0121 Lost contact with ABS\n"
     "                                        (present)\n"
     "Radio                                   Door left front\nNo faults                               No response\n",
     " | Engine control: P0562 stored P0113 current; Radio: clean; "
     "Instrument cluster: U0100 stored U0121 current; Door left front: silent"),
    ("ABS: C0035, C0040         Radio: no codes\nAirbag: B0028             Telematics: did not answer\n"
     "EPS: no codes             TCM: P0700, U0100",
     " | ABS: C0035 C0040; Airbag: B0028; EPS: clean; Radio: clean; Telematics: silent; TCM: P0700 U0100"),
    ("ABS                 | Airbag\n C0035 wheel speed  |  B0028 side bag\n   front left       |\n"
     " C0040 wheel        | Radio - no reply", " | ABS: C0035 C0040; Airbag: B0028; Radio: silent"),
    ("   ABS                          TCM                        Radio\n"
     "   C0035  Wheel speed sensor    P0700  Gearbox fault       no codes\n"
     "   C0040  Wheel speed sensor    U0100  Lost contact with\n"
     "                                       engine\n"
     "   EPS                          Airbag                     Cluster\n"
     "   no codes                     B0028  Side airbag         no answer\n",
     " | ABS: C0035 C0040; EPS: clean; TCM: P0700 U0100; Airbag: B0028; Radio: clean; Cluster: silent"),
])
def test_columns_of_a_page(text: str, expected: str) -> None:
    assert scans(text) == [expected]


def test_a_table_is_no_page_in_columns() -> None:
    text = ("  Fault        Meaning\nCluster        timed out\nRadio\n  U0151 [55]   No messages from\n"
            "               restraint unit\n  U0164 [14]   No messages from\n               climate control\n")
    assert scans(text) == [" | Cluster: silent; Radio: U0151 U0164"]


@pytest.mark.parametrize(("text", "expected"), [
    ("Module: ABS    Result: [ ] codes  [x] no codes  [ ] no communication\n"
     "Module: TCM    Result: [x] codes  [ ] no codes  [ ] no communication   P0700, U0100",
     " | ABS: clean; TCM: P0700 U0100"),
    ("ABS\n[ ] OK\n[X] No reply\n[ ] Not fitted\nTCM\n[X] Faults stored\n[ ] No reply\n[ ] Not fitted\nP0700 (active)",
     " | ABS: silent; TCM: P0700 current"),
    ("ABS      \u2713 clean   \u2717 codes   \u2717 no answer\n"
     "TCM      \u2717 clean   \u2713 codes   \u2717 no answer\n"
     "   P0700",
     " | ABS: clean; TCM: P0700"),
    ("ABS: clean [x] codes [ ] no answer [ ]\nTCM: clean [ ] codes [x] no answer [ ]\n   P0700\n"
     "Radio: clean [ ] codes [ ] no answer [x]", " | ABS: clean; TCM: P0700; Radio: silent"),
    ("Cuadro\n   \u25a1 con fallos / \u25a0 sin fallos / \u25a1 sin respuesta\nFrenos\n"
     "   \u25a0 con fallos / \u25a1 sin fallos / \u25a1 sin respuesta\n   Códigos: C0035-16 (presente)",
     " | Cuadro: clean; Frenos: C0035 current"),
    ("[x] Battery tested\n[ ] Charger connected\n[x] Codes read\nABS: C0035", " | ABS: C0035"),
])
def test_forms_with_boxes(text: str, expected: str) -> None:
    assert scans(text) == [expected]


@pytest.mark.parametrize("text", [
    "<table><tr><th>Status</th><th>Fault</th></tr><tr><th colspan=2>ABS</th></tr><tr><td>stored</td><td>C0035</td></tr>"
    "<tr><th colspan=2>Radio &ndash; no answer</th></tr><tr><th colspan=2>EPS</th></tr>"
    "<tr><td>active</td><td>C0545</td></tr></table>",
    "Status;Fault;Text\nABS;;\nstored;C0035;open\nRadio - no answer;;\nEPS;;\nactive;C0545;torque",
    "| ABS | | |\n| C0035 | open | stored |\n| Radio - no answer | | |\n| EPS | | |\n| C0545 | torque | active |",
])
def test_names_across_all_columns(text: str) -> None:
    assert scans(text) == [" | ABS: C0035 stored; Radio: silent; EPS: C0545 current"]
