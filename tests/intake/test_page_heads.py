"""What stands between two pages: a foot with the page's number, and the head of the next page with a firm and a date.
All invented; layout: common practice of printed reports."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

FEET = ["Page 1 of 2", "page 1|2", "- 1 -", "Seite 1 von 2", "Página 1 de 2", "Blatt 1/2", "1 / 2", "[1/2]", "(1/2)",
        "~ 1 ~", "Hollow Yard Ltd   9.2.24   Sheet 1 of 2"]
HEADS = ["Miller Brothers\nDate 2024-02-09\n",
         "\n\nMiller Brothers   9.2.24\n\n", "Miller Brothers\n09/02/2024 15:30\n",
         "Miller Brothers\nTel. 0123 456789\nPrinted on 9.2.24\n", "9.2.24\n", "Motorenhof GmbH\n",
         "\nAtelier du Pont\n\n"]
ABOVE = ("Full check - Yard 7\nDate: 3.2.24 08:10\nRadio\n  U0100 Engine lost  stored\n"
         "Cluster\n  U0140 Body lost  active\n")
FIRST = " | Radio: U0100 stored; Cluster: U0140 current"


@pytest.mark.parametrize("foot", FEET)
@pytest.mark.parametrize("head", HEADS)
def test_the_head_of_a_page_opens_no_scan_and_names_no_module(foot: str, head: str) -> None:
    text = (f"{ABOVE}{foot}\n{head}  U0155 Display lost  pending\nTrailer\n  B1342 Unit defective  active\n"
            f"{foot.replace('1', '2', 1)}\n")
    assert scans(text) == [f"{FIRST} U0155 pending; Trailer: B1342 current"]


@pytest.mark.parametrize("mark", ["■ ", "## ", "", "{}. "])
@pytest.mark.parametrize("gap", ["", "\n"])
@pytest.mark.parametrize("date", ["2024-02-09", "9.2.24 10:15"])
def test_the_list_of_a_status_goes_on_over_three_pages(mark: str, gap: str, date: str) -> None:
    radio, airbag, cluster = (f"{mark.format(at)}{name}" for at, name in enumerate(
        ("Radio", "Airbag", "Kombiinstrument"), 1))
    head = f"{gap}Autowerk Lindner\nDatum {date}\n{gap}"
    text = (f"Meldungen - Hof am Berg\nDatum: 3.2.24 08:10\n{radio}\n  Aktive Fehler\n    U0100 Motor fehlt\n"
            f"  Gespeichert\nSeite 1 von 3\n{head}    U0101 Getriebe fehlt\n{airbag}\n  Aktive Fehler\n"
            f"    B1342 Gerät defekt\nSeite 2 von 3\n{head}Airbag (Fortsetzung)\n    B1000 intern defekt\n"
            f"  Gespeichert\n    U0140 fehlt\n{cluster}\n  keine Fehler\nSeite 3 von 3\n")
    assert scans(text) == [" | Radio: U0100 current U0101 stored; Airbag: B1342 current B1000 current U0140 stored; "
                           "Kombiinstrument: clean"]


@pytest.mark.parametrize("name", ["{}\n-----\n", "{}:\n", "## {}\n", "[{}]\n"])
def test_a_line_without_the_marks_of_the_headings_is_none_right_behind_a_foot(name: str) -> None:
    text = ("Check\nJob 1812\n" + name.format("Radio") + "  U0100 Engine lost  stored\n" + name.format("Cluster")
            + "  U0140 Body lost  active\nPage 1 of 2\n{}  U0155 Display lost  pending\n" + name.format("Trailer")
            + "  B1342 Unit defective  active\nPage 2 of 2\n")
    assert scans(text.format("Miller Brothers\n")) == [f"{FIRST} U0155 pending; Trailer: B1342 current"]
    assert scans(text.format(name.format("Quimby flange"))) == [
        f"{FIRST}; Quimby flange: U0155 pending; Trailer: B1342 current"]


@pytest.mark.parametrize("foot", ["Page 1 of 2\n", "- 1 -\n", "\nSeite 1 von 2\n\n"])
@pytest.mark.parametrize(("below", "second"), [
    ("Radio\n  U0101 Gearbox lost  stored\nCluster\n  no codes\n", " | Radio: U0101 stored; Cluster: clean"),
    ("Cluster\n  no codes\nRadio\n  no codes\n", " | Cluster: clean; Radio: clean"),
    ("After clearing\nRadio\n  no codes\nCluster\n  no codes\n", "after-clear | Radio: clean; Cluster: clean"),
])
def test_a_date_above_the_same_modules_opens_a_scan_on_the_next_page(foot: str, below: str, second: str) -> None:
    text = f"{ABOVE}{foot}Yard 7\n5.2.24 09:00\n{below}{foot.replace('1', '2', 1)}"
    assert scans(text.replace("Full check - ", "").replace("Date: ", "")) == [FIRST, second]


def test_behind_the_last_page_another_report_begins() -> None:
    text = f"{ABOVE}Page 1 of 1\nYard 7\n5.2.24 09:00\nTrailer\n  no codes\nRadio\n  no codes\nPage 1 of 1\n"
    assert scans(text.replace("Full check - ", "").replace("Date: ", "")) == [FIRST, " | Trailer: clean; Radio: clean"]


def test_a_heading_over_a_rule_as_the_one_above() -> None:
    rule = "______________\n"
    text = (f"Job 1812\n\nHVAC\n{rule}  U0418   Charging potential low at this   active\n          control unit\n"
            f"QRX\n{rule}   no faults found\nABS\n{rule}  U0121   Link lost   confirmed\n")
    assert scans(text) == [" | HVAC: U0418 current; QRX: clean; ABS: U0121 confirmed"]


def test_a_date_beside_the_title_of_a_page_opens_no_scan_though_modules_come_again_below() -> None:
    text = ("Yard report\nBay 4\n\n5 Jul 2023\nRadio\n  U0100 Engine lost  stored\nCluster\n  U0140 Body lost  active\n"
            "Page 1 of 2\nYard report   2023-07-09\n  U0155 Display lost  pending\n6 Jul 2023\nRadio\n  no codes\n"
            "Cluster\n  no codes\nPage 2 of 2\n")
    assert scans(text) == [f"{FIRST} U0155 pending", " | Radio: clean; Cluster: clean"]
