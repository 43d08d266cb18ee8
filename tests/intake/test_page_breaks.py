"""Entries that a page break parts. All invented; layout: common practice of printed reports."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans, told

NEXT = "   U3003-16    Battery voltage low  stored\nRain sensor   No DTC"


@pytest.mark.parametrize(
    "parting",
    [
        "\n\nPage 1 of 2\n\nHealth report\n=====\n",
        "\nPage 1 of 2\nHealth report\n",
        "\n\n- 1 -\n\n",
        "\n\nPage 1 of 2\n\nWorkshop on the hill\n\n",
        "\n\nSeite 1 von 2\n\nFahrzeugdiagnose, Bericht\n-----\n",
        "\n\nPágina 1 de 2\n\nInforme\n",
    ],
)
@pytest.mark.parametrize(
    ("above", "below", "code"),
    [
        ("P0700-15    Transmission control system", "          MIL request  pending", "P0700-15 pending"),
        ("U0155-87    Lost communication with instrument panel", "               cluster   confirmed",
         "U0155-87 confirmed"),
        ("P0700-15    Transmission control system", "               confirmed", "P0700-15 confirmed"),
        ("P0700-15    Transmission control system", "               MIL request", "P0700-15"),
        ("U0155-87    Lost communication with", "               cluster", "U0155-87"),
        ("U0155-87    Lost communication with", "               cluster\n               Status: confirmed",
         "U0155-87 confirmed"),
    ],
)
def test_the_rest_of_an_entry_behind_a_page_break(parting: str, above: str, below: str, code: str) -> None:
    text = f"BCM\n   {above}{parting}{below}\n{NEXT}"
    assert modules_of(text) == {"body control": [code, "U3003-16 stored"], "rain sensor": ["clean"]}


@pytest.mark.parametrize("parting", [
    "Page 1 of 3\nVIN: 0XXYY00Z0AA123456   04.03.2022 10:10\n",
    "04.03.2022   Page 1 of 3\n\nVIN: 0XXYY00Z0AA123456   04.03.2022 10:10\n",
    "Page 1 of 3\n\nVIN: 0XXYY00Z0AA123456   04.03.2022 10:10\nDTC   Text\n",
])
@pytest.mark.parametrize(("above", "below", "code"), [
    # Behind its key, in brackets, or alone as with the other codes; no further right than the code.
    ("P0700-15 Transmission request", "  State: passive", "P0700-15 stored"),
    ("P0700-15 Transmission request", "  (not present)", "P0700-15 stored"),
    ("P0700-15 Transmission request", "  no longer active", "P0700-15 stored"),
    # The rest of a description in small letters, as far left as the code.
    ("P0700-15 Transmission control -", "  missing message; passive", "P0700-15 stored"),
    # Above it only what each page begins with, though it breaks off within a clause.
    ("P0700-15 Transmission request or", "    fault (stored, not present)", "P0700-15 stored"),
])
def test_what_goes_on_below_the_head_of_a_page(parting: str, above: str, below: str, code: str) -> None:
    text = (f"VIN: 0XXYY00Z0AA123456   04.03.2022 10:10\nHealth report\nBCM\n  {above}\n{parting}{below}\n"
            "  U3003-16 Battery voltage low (active)\n  B1234 Circuit open (active)\nPage 2 of 3\n\n"
            "VIN: 0XXYY00Z0AA123456   04.03.2022 10:10\nRain sensor\n  no codes")
    assert modules_of(text) == {"body control": [code, "U3003-16 current", "B1234 current"], "rain sensor": ["clean"]}
    assert len(scans(text)) == 1


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # What told its status is at its end; a heading stays one.
        ("BCM\n   P0700-15    Transmission  stored\n\nPage 1 of 2\n\nRain sensor\n   B1234   Circuit  stored",
         " | body control: P0700-15 stored; rain sensor: B1234 stored"),
        ("BCM\n   P0700-15    Transmission\n\nPage 1 of 2\n\nRain sensor\n   B1234   Circuit  stored",
         " | body control: P0700-15; rain sensor: B1234 stored"),
        ("BCM\n   P0700-15    Transmission\n\nPage 1 of 2\n\n   Pending codes:\n   B1234   Circuit",
         " | body control: P0700-15, B1234 pending"),
        # An answer behind the break is of a module.
        ("BCM\n   P0700-15    Transmission\n\nPage 1 of 2\n\nRain sensor\n   no response",
         " | body control: P0700-15; rain sensor: silent"),
        ("BCM\n   P0700-15    Transmission\n\nPage 1 of 2\n\n     Rain sensor\n     not present",
         " | body control: P0700-15"),
    ],
)
def test_what_no_entry_goes_on_in(text: str, expected: str) -> None:
    assert told(text) == expected


def test_a_page_number_between_dashes_is_no_code() -> None:
    text = ("Codes as SPN/FMI\nUnit: Retarder\n168/4  Supply low\n\n- 1 / 2 -   printed 12.03.2023\n\nThe yard\n"
            "Unit: Tachograph\n- 96/3 - Fuel level\n\n- 2 / 2 -   printed 12.03.2023\n")
    assert modules_of(text) == {"retarder": ["SPN 168 FMI 4"], "tachograph": ["SPN 96 FMI 3"]}


def test_the_words_of_a_code_alone_in_its_line_on_the_next_page() -> None:
    text = ("ECU: Radio\nB1318-1C\nSupply low\nstored\nU0184-00\n\nPage 1 of 2\nThe yard, report 118\n"
            "Aerial amplifier lost\npresent\nECU: Cluster\nU0100\nEngine lost\nstored\n\nPage 2 of 2\n"
            "The yard, report 118\n")
    assert modules_of(text) == {
        "radio": ["B1318-1C stored", "U0184-00 current"], "instrument cluster": ["U0100 stored"]}


def test_the_heading_of_a_scan_beside_the_foot_of_a_page() -> None:
    text = ("The yard\nBay 4\n\n--- Scan 1 ---\nbattery 24.3 V\n\nRadio\nB1318 low\n\nCluster: no codes\n\n"
            "--- Scan 2 ---\nbattery 24.1 V\n\nPage 1 of 2\nThe yard\nRadio: no codes\nCluster\nU0100 lost\n"
            "Page 2 of 2\nThe yard\n")
    assert scans(text) == ["24.3 V | Radio: B1318; Cluster: clean", "24.1 V | Radio: clean; Cluster: U0100"]


@pytest.mark.parametrize("date", ["", " 2024-03-12 13:24", "   12.03.2024"])
def test_the_title_that_tells_of_a_memory_with_the_date_of_the_report(date: str) -> None:
    text = ("Fault memory report\nLorry: 12 t\nRadio:\nB1318 Supply low, check the\nfuse\n\n"
            f"Page 1/2\nFault memory report{date}\nStatus: in memory\nB1342 Aerial open\nStatus: present\n"
            "Cluster:\nU0100 Engine lost\nStatus: present\nPage 2/2\n")
    assert scans(text) == [" | Radio: B1318 stored B1342 current; Cluster: U0100 current"]


@pytest.mark.parametrize("number", ["K465", "T41N", "20417"])
def test_the_rest_of_a_makers_number_on_the_next_page(number: str) -> None:
    text = (f"Radio:\nE207 Speaker left open Inactive\n{number} Clock signal wrong, pulse outside of\n"
            "Page 1 of 2\nWorkshop report 12.03.2024\n\nthe range allowed Present now\n"
            "ABS:\nE208 Speed sensor Inactive\nPage 2 of 2\n")
    assert modules_of(text) == {
        "radio": ["E207 stored", f"{number} current"], "anti-lock brakes": ["E208 stored"]}


def test_a_status_in_two_words_ends_its_line() -> None:
    text = ("Zentrales Gateway\nU0101-87 Keine Kommunikation mit\nGetriebesteuergerät - liegt an\nU0073-00 Bus A aus - "
            "liegt an\nAnhänger\nU3003-00 Batteriespannung - liegt an\nU0141-87 Keine Kommunikation mit\n"
            "Lenkwinkelsensor - sporadisch\n")
    assert modules_of(text) == {
        "gateway": ["U0101-87 current", "U0073-00 current"], "trailer": ["U3003-00 current", "U0141-87 stored"]}


def test_the_head_of_a_page_goes_on_with_nothing_above_it() -> None:
    text = ("Fehlerprotokoll Werkstatt\nZentrales Gateway\nU0151-00 Keine Kommunikation mit Airbag - liegt\nan\n"
            "U0121-87 Keine Kommunikation mit ABS - liegt an\nSeite 1 von 2\n\n"
            "Fehlerprotokoll Werkstatt   2023-07-01\n"
            "U0131-87 Keine Kommunikation mit Servolenkung -\nliegt an\nABS-Steuergerät\n"
            "U0073-00 Bus A aus - liegt an\nSeite 2 von 2\n")
    assert modules_of(text) == {
        "gateway": ["U0151-00 current", "U0121-87 current", "U0131-87 current"],
        "anti-lock brakes": ["U0073-00 current"]}


def test_a_title_that_is_dated_on_a_later_page_is_the_title_again() -> None:
    text = ("Fault memory report\nNavigation:\nU0073 Bus A off\nStatus: pending\nFuel pump control:\n"
            "P0627 Pump circuit\n\nPage 1/2\nFault memory report 2025-12-05 13:24\nStatus: stored\n"
            "U0101 Lost communication with TCM\nStatus: stored\nPage 2/2\nSupply: 12.4 V\n")
    assert scans(text) == [
        "12.4 V | Navigation: U0073 pending; Fuel pump control: P0627 stored U0101 stored"]


def test_nothing_but_the_numbered_headings_names_modules() -> None:
    text = ("1  Yaw sensor\nB1000 (1C)  not active\nLost message from ABS\n"
            "B1001 (87)  pending\nLost message from radio\nB1002 (16)  pending\n"
            "No message - the supply was below its limit\nfor longer than the waiting\ntime\n2  ABS\n"
            "C0035 (00)  not active\n\nPage 1 of 2\nReport of the vehicle   2016-11-06 10:14\n\nSensor front\n"
            "3  Gateway\nno answer\n")
    assert modules_of(text) == {
        "yaw rate sensor": ["B1000-1C stored", "B1001-87 pending", "B1002-16 pending"],
        "anti-lock brakes": ["C0035-00 stored"], "gateway": ["silent"]}


def test_a_voltage_behind_a_freeze_frame_told_in_one_line() -> None:
    text = "ABS\nC0035  stored\nSensor front\nFreeze frame: 320 rpm, intake 20 °C\n\n"
    text += "Battery: 11.6 V\nlowest 9.8 V on crank"
    assert told(text) == "11.6/9.8 V | anti-lock brakes: C0035 stored"


def paged(head: str, foot: str, pages: list[str], blanks: int) -> str:
    """Pages with a head and a foot each, filled up with blank lines; "#" stands for the number of the page."""
    filled = [f"{head}\n\n{page}{chr(10) * blanks}{foot}\n".replace("#", f"{number}/{len(pages)}")
              for number, page in enumerate(pages, 1)]
    return "\n".join(filled)


@pytest.mark.parametrize(("head", "foot"), [
    ("Depot west, van 4 #", "printed by the night shift"), ("Flotte Nord, fourgon 4", "\u00e9dit\u00e9 la nuit  (#)"),
    ("Wagen 4, Halle Ost - # -", "gedruckt von der Annahme"),
])
@pytest.mark.parametrize("blanks", [1, 14])
def test_a_name_that_nobody_knows_above_the_end_of_its_page(head: str, foot: str, blanks: int) -> None:
    first = "ABS\n\nC0035 stored\nC0040 stored\nC0041 stored\n\nGearbox\n\nP0700 stored\nP0715 stored\n\nZorbel rack\n"
    text = paged(head, foot, [first, "C0045 stored\n\nRadio\n\nno codes\n"], blanks)
    assert modules_of(text) == {
        "anti-lock brakes": ["C0035 stored", "C0040 stored", "C0041 stored"],
        "transmission control": ["P0700 stored", "P0715 stored"], "Zorbel rack": ["C0045 stored"], "radio": ["clean"]}


def test_entries_that_are_counted_are_no_pages() -> None:
    lists = "".join(f"Fault {number}/9\nCode: C00{30 + number}\nStatus: stored\nSeen at: 11.4 V\n"
                    for number in range(1, 10))
    assert modules_of(f"ABS\n{lists}Radio\nFault 1/1\nCode: B1000\n") == {
        "anti-lock brakes": [f"C00{30 + number} stored" for number in range(1, 10)], "radio": ["B1000"]}
