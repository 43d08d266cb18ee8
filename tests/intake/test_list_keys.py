"""Dumps whose keys only their structure explains: lists of codes by any name, scans in a list. All invented."""

from __future__ import annotations

import json

import pytest

from tests.intake.reads import modules_of, scans

HELD = [{"unit": "ABS", "LIST": [{"code": "C0035", "state": "stored"}, {"code": "C0040", "state": "active"}]},
        {"unit": "Winch node", "LIST": [{"code": "U0100", "state": "active"}]}, {"unit": "Radio", "LIST": []},
        {"unit": "Gateway", "result": "no answer"}]
READ = "ABS: C0035 stored C0040 current; Winch node: U0100 current; Radio: clean; Gateway: silent"


def _keys(value: object, lead: str = "") -> str:
    """A value set in below its keys, without braces."""
    if isinstance(value, dict):
        return "".join(
            f"{lead}{key}: []\n" if each == [] else f"{lead}{key}:\n{_keys(each, lead + '  ')}"
            if isinstance(each, list) else f"{lead}{key}: {each}\n" for key, each in value.items())
    assert isinstance(value, list)
    return "".join(f"{lead}- {_keys(each, lead + '  ').lstrip()}" for each in value)


@pytest.mark.parametrize("key", ["entries", "items", "found", "fehlerliste", "eintraege", "liste_defauts", "registros"])
@pytest.mark.parametrize("form", ["line", "printed", "keys"])
def test_a_list_of_codes_by_any_name(key: str, form: str) -> None:
    held = json.loads(json.dumps({"units": HELD}).replace("LIST", key))
    text = {"line": json.dumps(held), "printed": json.dumps(held, indent=2), "keys": _keys(held)}[form]
    assert scans(text) == [f" | {READ}"]


@pytest.mark.parametrize("key", ["label", "note", "name", "what", "title"])
@pytest.mark.parametrize("heads", [
    ("Scan 1", "Scan 2"), ("Messung 1 - 03.06.2023 09:57", "Messung 2 - 03.06.2023 11:02"), ("Lecture 1", "Lecture 2"),
    ("Lectura 1", "Lectura 2")])
@pytest.mark.parametrize("form", ["line", "printed", "keys"])
def test_scans_in_a_list(key: str, heads: tuple[str, str], form: str) -> None:
    held = json.loads(json.dumps({"scans": [{key: head, "units": HELD} for head in heads]}).replace("LIST", "entries"))
    text = {"line": json.dumps(held), "printed": json.dumps(held, indent=2), "keys": _keys(held)}[form]
    assert scans(text) == [f" | {READ}", f" | {READ}"]


def test_the_name_of_a_module_is_no_such_key() -> None:
    text = "unit: ABS\nstate: read\nGateway:\n  - code: U0100\n  - code: U0140\nRadio:\n  - code: B1318\n"
    assert {name: held for name, held in modules_of(text).items() if name in ("gateway", "radio")} == {
        "gateway": ["U0100", "U0140"], "radio": ["B1318"]}


def test_a_list_without_codes_is_no_answer() -> None:
    text = json.dumps({"units": [
        {"unit": "ABS", "codes": [{"code": "C0035"}], "options": []}, {"unit": "Radio", "options": []}]})
    assert scans(text) == [" | ABS: C0035"]


@pytest.mark.parametrize(("number", "answer", "code", "text", "count"), [
    ("part_no", "result", "dtc", "text", "count"), ("partNumber", "response", "faultCode", "faultText", "count"),
    ("teilenummer", "antwort", "fehlercode", "fehlertext", "anzahl"),
    ("pieza", "respuesta", "codigo", "texto", "contador"),
])
def test_sections_whose_numbers_stand_first(number: str, answer: str, code: str, text: str, count: str) -> None:
    dump = (f"[ABS]\n{number}=2X5-7002-A\n{code}1=C0035\n{text}1=Bus message timeout\n{count}1=4\n{code}2=C0040\n"
            f"{text}2=no signal\n{count}2=9\n[Winch node]\n{number}=4X5-5065-E\n{answer}=no communication\n[Radio]\n"
            f"{number}=6X3-3265-A\n{answer}=no codes\n[Loader arm]\n{number}=7X5-3960-A\n{answer}=no codes\n")
    assert scans(dump) == [" | ABS: C0035 C0040; Winch node: silent; Radio: clean; Loader arm: clean"]
