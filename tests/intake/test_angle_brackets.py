"""Text between angle brackets: XML as keys and values, names in brackets behind a code, characters by their names.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import modules_of, printed

from code_tables import load
from triage.intake.read import read_text

XML = [
    ('<ecu name="Airbag">\n  <dtc code="B0051" status="in memory"/>\n  <dtc code="u 3006" status="stored"/>\n</ecu>\n'
     '<ecu name="Trailer module" result="doesn&#x27;t respond"/>\n', "Airbag: B0051 U3006; Trailer module: silent"),
    ("<Module>ECU</Module>\n<Code>P0562</Code>\n<Module>ABS</Module>\n<Code>C0035</Code>\n", "ECU: P0562; ABS: C0035"),
    ('<?xml version="1.0"?>\n<ecu id="7E8" name="Engine">\n  <dtc id="P0562" name="System voltage low"/>\n</ecu>\n'
     '<ecu id="761" name="Radio" answer="no response">\n</ecu>\n', "Engine: P0562; Radio: silent"),
    ('<system name="Gateway"><fault code="U0140-00" state="current" text="Lost &amp; more"/></system>\n'
     '<system name="Radio"><fault code="B1A98" state="stored"/></system>\n', "Gateway: U0140-00; Radio: B1A98"),
    ("<modules>\n <module>\n  <name>ABS</name>\n  <codes>\n   <code>C0035</code>\n   <status>stored</status>\n"
     "  </codes>\n </module>\n <module>\n  <name>Radio</name>\n  <codes/>\n  <response>none</response>\n </module>\n"
     "</modules>\n",
     "ABS: C0035; Radio: silent"),
    ("<ABS>\n  <dtc>C0035</dtc>\n</ABS>\n", "ABS: C0035"),
    ("<control-unit name='Brakes' faults='1'>\n  <fault number='1' code='C0035' failure-type='1C'>Wheel</fault>\n"
     "</control-unit>\n", "Brakes: C0035-1C"),
    ('<ecu name="ABS">\n  <dtc status="stored">C0035</dtc>\n  <dtc status="active">C0040</dtc>\n</ecu>\n',
     "ABS: C0035 C0040"),
    # No XML.
    ("<ABS>\nC0035 stored\n<Quantum>\nB1318\n", "ABS: C0035; Quantum: B1318"),
    ("<ABS>: C0035\n<ECM>: no codes\n", "ABS: C0035; ECM: clean"),
]


@pytest.mark.parametrize(("text", "read"), XML)
def test_elements_are_keys_with_their_values(text: str, read: str) -> None:
    assert printed(text) == read


def test_statuses_and_texts_of_elements_stand_beside_their_codes() -> None:
    text = ('<system name="Gateway"><fault code="U0140-00" state="current" text="Lost &amp; more"/></system>\n'
            '<system name="Radio"><fault code="B1A98" state="stored">Speaker</fault></system>\n')
    modules = read_text(text, load()).snapshots[0].modules
    assert [(code.status, code.text) for module in modules for code in module.codes] == [
        ("current", "Lost & more"), ("stored", "Speaker"),
    ]


def test_a_status_before_the_code_of_an_element_is_its_own() -> None:
    text = '<ecu name="ABS">\n  <dtc status="stored">C0035</dtc>\n  <dtc status="active">C0040</dtc>\n</ecu>\n'
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored", "C0040 current"]}


def test_a_notice_points_at_the_element_as_pasted() -> None:
    text = '<ecu name="Quantum flummery">\n  <dtc code="B0051"/>\n</ecu>\n'
    notice = next(notice for notice in read_text(text, load()).notices if "flummery" in notice.message)
    assert notice.start is not None
    assert text[notice.start : notice.end] == "Quantum flummery"


@pytest.mark.parametrize("said", ["doesn&#x27;t respond", "doesn&#39;t respond", "doesn&apos;t&nbsp;respond"])
def test_characters_by_name_or_number(said: str) -> None:
    assert modules_of(f"ABS: {said}\nBCM: B1318\n") == {"anti-lock brakes": ["silent"], "body control": ["B1318"]}


BEHIND = [
    ("P0562  System voltage low, stored  <Engine Control Module>\nC0035  Wheel speed, active  <ABS>\n",
     "Engine Control Module: P0562; ABS: C0035"),
    ("U0101-16  Keine Kommunikation mit Getriebesteuergerät, nicht vorhanden  <Zentralelektronik>\n"
     "P0562  Systemspannung zu niedrig  <Motorelektronik>\n", "Zentralelektronik: U0101-16; Motorelektronik: P0562"),
    ("P0562  System voltage low, stored  <Quantum flummery>\nU0121  Lost communication  <Body Control Module>\n",
     "Quantum flummery: P0562; Body Control Module: U0121"),
    ("P0562 System voltage < 9 V, stored - <ECM>\nC0035 Speed < 5 km/h, stored - <ABS>\n", "ECM: P0562; ABS: C0035"),
]


@pytest.mark.parametrize(("text", "read"), BEHIND)
def test_a_name_in_angle_brackets_is_printed_without_them(text: str, read: str) -> None:
    assert printed(text) == read
