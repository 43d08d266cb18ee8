"""Answers that speak of "the control unit" below the name of a module, and of none by name.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import printed

SILENT = [
    "No response from control unit",
    "no communication with the module",
    "Control unit does not respond",
    "unable to communicate with ECU",
    "keine Kommunikation mit Steuergerät möglich",
    "Steuergerät antwortet nicht",
    "aucune réponse du boîtier",
    "pas de communication avec le calculateur",
    "no hay comunicación con la unidad de control",
    "la centralita no responde",
    "No reply from this unit, tried twice",
    "No response from the module. Checked the fuse.",
]
CLEAN = [
    "No codes in control unit",
    "no faults stored in module",
    "keine Fehler im Steuergerät gespeichert",
    "pas de défaut mémorisé dans ce calculateur",
    "sin averías en la unidad",
]


@pytest.mark.parametrize(
    ("wording", "answer"), [*((text, "silent") for text in SILENT), *((text, "clean") for text in CLEAN)]
)
def test_an_answer_of_the_module_is_of_the_heading_above(wording: str, answer: str) -> None:
    assert printed(f"Airbag\n  {wording}\nClimate\n  P0562 stored\n") == f"Airbag: {answer}; Climate: P0562"
    assert printed(f"ECM\nP0300\n\nAirbag\n{wording}\n\nClimate\nno codes\n") == (
        f"ECM: P0300; Airbag: {answer}; Climate: clean"
    )


OTHERS = [
    ("ECM\n  P0300\nNo response from control unit\n  ABS\n  SRS\n", "ECM: P0300; ABS: silent; SRS: silent"),
    ("ECM: P0300\nNo response from module:\nABS\nSRS\n", "ECM: P0300; ABS: silent; SRS: silent"),
    ("ECM\nP0300\n\nNo response from module\nABS\n", "ECM: P0300; ABS: silent"),
    ("Airbag\n  U0140\n  No communication with module\nClimate\n  P0562\n", "Airbag: U0140; Climate: P0562"),
    ("Airbag\n  No response from ABS\nClimate\n  P0562\n", "ABS: silent; Climate: P0562"),
    (
        "| Module | Result |\n|---|---|\n| Airbag | No response from control unit |\n| Climate | P0562 stored |\n",
        "Airbag: silent; Climate: P0562",
    ),
]


@pytest.mark.parametrize(("text", "read"), OTHERS)
def test_such_an_answer_elsewhere(text: str, read: str) -> None:
    assert printed(text) == read


@pytest.mark.parametrize(("key", "mark"), [
    ("Remark", ": "), ("Note", " : "), ("Bemerkung", ":"), ("Remarque", "="), ("Observación", " : "),
    ("Hinweis", " -> "),
])
def test_a_remark_that_is_an_answer_is_of_the_module_above(key: str, mark: str) -> None:
    text = "".join(f"Module{mark}{name}\n{below}\n\n" for name, below in (
        ("Radio", f"{key}{mark}no answer"), ("ABS", f"Code{mark}C0035\n{key}{mark}looked at it twice"),
        ("Airbag", f"{key}{mark}no faults found")))
    assert printed(text) == "Radio: silent; ABS: C0035; Airbag: clean"


@pytest.mark.parametrize(("key", "answer"), [
    ("Remark", "clean"), ("Note", "ok"), ("Bemerkung", "fehlerfrei"), ("Note", "sans défaut"),
    ("Observación", "sin fallos")])
def test_a_remark_below_a_name_alone_in_its_line(key: str, answer: str) -> None:
    text = f"[Radio]\n{key} -> {answer}\n---\n[ABS]\nC0035\n{key} -> {answer}\n---\n[Airbag]\n{key} -> fuse {answer}\n"
    assert printed(text) == "Radio: clean; ABS: C0035"


@pytest.mark.parametrize("mark", [" => ", " -> ", " - ", " : ", " | ", " ("])
@pytest.mark.parametrize("answer", ["clean", "fehlerfrei", "ok", "no reply"])
def test_an_answer_behind_a_name_that_a_key_leads_to(mark: str, answer: str) -> None:
    read = "silent" if answer == "no reply" else "clean"
    text = f"Unit: Cluster{mark}{answer}\nUnit: ABS\n  C0035\nUnit: Radio{mark}no answer\nUnit: Crane box\n  P0700"
    assert printed(text) == f"Cluster: {read}; ABS: C0035; Radio: silent; Crane box: P0700"
