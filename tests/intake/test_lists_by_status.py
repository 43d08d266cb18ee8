"""Lines that head a list of codes by their status, among the codes of one module. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize("form", [
    "-- {} faults --", "{} DTCs", "{} codes", "{} fault codes:", "[{} faults]", "  -- {} faults --", "  {} DTCs",
    "** {} codes **",
])
@pytest.mark.parametrize("code", ["{} pump open", "  {} pump open", "* {} - pump open", "- {}: pump open"])
def test_each_list_has_its_own_status(form: str, code: str) -> None:
    lists = (("Current", "U0230"), ("Stored", "B1168"), ("Pending", "B1169"), ("Confirmed", "B1170"))
    lines = [line for word, number in lists for line in (form.format(word), code.format(number))]
    text = "\n".join(["Radio", *lines, "ABS", form.format("Stored"), code.format("C0045"), "Camera: no codes\n"])
    assert modules_of(text) == {
        "radio": ["U0230 current", "B1168 stored", "B1169 pending", "B1170 confirmed"],
        "anti-lock brakes": ["C0045 stored"], "camera": ["clean"]}


@pytest.mark.parametrize("form", ["{} ({})", "  {} ({})", "  {} [{}]", "  {} ({}):", "  {}: {}"])
def test_a_status_with_the_number_of_its_codes(form: str) -> None:
    text = "\n".join(["Radio  faults: 3", form.format("Active", 1), "    B1168 | aerial open",
                      form.format("Not active", 2),
                      "    B1169 | speaker open", "    U0230 | bus off", "ABS", form.format("Failed once", 1),
                      "    C0045 | sensor", "Camera: no codes"])
    assert modules_of(text) == {"radio": ["B1168 current", "B1169 stored", "U0230 stored"],
                                "anti-lock brakes": ["C0045 pending"], "camera": ["clean"]}


def test_a_status_below_its_code_is_that_of_the_code() -> None:
    text = "Radio\n  B1168 aerial open\n    stored fault\n  B1169 speaker open\n    current fault\nABS\n  no codes\n"
    assert modules_of(text)["radio"] == ["B1168 stored", "B1169 current"]


@pytest.mark.parametrize("mark", ["; ", " | "])
def test_a_name_in_the_description_of_a_code_ends_no_list(mark: str) -> None:
    codes = mark.join(("C0035 Brake switch", "C0040 Airbag lamp", "U3003 Battery voltage"))
    assert modules_of(f"Module: Radio\nHistory codes: {codes}\n") == {"radio": [
        "C0035 stored", "C0040 stored", "U3003 stored"]}


@pytest.mark.parametrize("form", ["[ {} ]", "{}:", "{}", "=== {} ==="])
@pytest.mark.parametrize("none", ["Active (0): none", "Active: none found", "Active faults: -"])
def test_empty_lists_below_a_name_that_nobody_knows(form: str, none: str) -> None:
    lists = (("Radio", "Stored:", "B1168"), ("Winch panel 7", "Stored:", "U0073"), ("Hoist", "Pending:", "U0140"))
    text = "".join(f"{form.format(name)}\n  {none}\n  {head}\n    {code} bus fault, long text of a line here\n"
                   for name, head, code in lists)
    text += f"{form.format('Crane slew')}\n  {none}\n  Stored: none\n"
    assert modules_of(text) == {"radio": ["B1168 stored"], "Winch panel 7": ["U0073 stored"],
                                "Hoist": ["U0140 pending"], "Crane slew": ["clean"]}


@pytest.mark.parametrize(("none", "head"), [
    ("Activas (0): ninguna", "Averías memorizadas (1)"), ("Aktuelle Fehler (0): keine", "Gespeicherte Fehler (1)"),
    ("Défauts présents : aucun", "Défauts mémorisés (1)"),
])
def test_an_empty_list_goes_on_in_no_other(none: str, head: str) -> None:
    text = f"Radio\n  {none}\n  {head}\n    B1168 altavoz\n\nABS\n  {none}\n  {head}\n    C0035 sensor\n"
    assert modules_of(text) == {"radio": ["B1168 stored"], "anti-lock brakes": ["C0035 stored"]}


def test_statuses_in_the_plural_head_their_lists_beside_empty_ones() -> None:
    text = ("Centralita motor:\n  Averías presentes (0): -\n  Memorizadas (1)\n    P0420 Catalizador\n"
            "  Pendientes (0): -\n\nCarga por eje:\n  Averías presentes (1)\n    U0131 Comunicación perdida\n"
            "  Memorizadas (1)\n    U0415 Datos no válidos\n  Confirmadas (1)\n    U0073 Bus desconectado\n"
            "  Pendientes: -\n")
    assert modules_of(text) == {
        "engine control": ["P0420 stored"], "axle load": ["U0131 current", "U0415 stored", "U0073 confirmed"]}


def test_an_empty_list_at_the_end_takes_no_status_back() -> None:
    text = ("projecteur gauche\n  présents (1)\n    B1A03 [16]\n  historique: -\n\ncombiné\n  présents (1)\n"
            "    U0100 [87]\n  historique (0): -\n")
    assert modules_of(text) == {"headlamp, left": ["B1A03-16 current"], "instrument cluster": ["U0100-87 current"]}
