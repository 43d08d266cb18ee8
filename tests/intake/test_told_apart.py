"""Wordings that stand right beside what they are easily taken for: a voltage beside a voltage's fault, a place to park
beside a code, a title beside a name, a mark beside a bullet. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


def scans(text: str) -> list[list[tuple[str, list[tuple[str, str | None]]]]]:
    """Of each scan its modules with their codes and statuses."""
    return [[(scan.printed or "", [(code.code, code.status) for code in scan.codes]) for scan in snapshot.modules]
            for snapshot in read_text(text, load()).snapshots]


def codes(text: str) -> list[tuple[str, str | None]]:
    """The codes of the only scan of a text."""
    (modules,) = scans(text)
    return [code for _, found in modules for code in found]


@pytest.mark.parametrize("words", [
    "Voltage below limit", "voltages differ", "Volterra valve", "kmh signal lost", "minimum not reached",
])
def test_words_that_begin_as_a_unit_leave_the_code_before_them(words: str) -> None:
    assert codes(f"Present now:\n- Sunroof B 1351 {words}\n- Radio B1400 aerial\n")[0] == ("B1351", "current")


@pytest.mark.parametrize("words", ["volts", "V", "km", "h"])
def test_a_number_with_its_unit_is_still_no_code(words: str) -> None:
    assert codes(f"Radio B1400 stored\nafter that B 1351 {words} were shown\n") == [("B1400", "stored")]


@pytest.mark.parametrize("line", [
    "The lorry stands in parking space P0214.", "Parked in the lot P0214, key in the box.",
    "Fourgon gar\u00e9 place P0214.", "Wagen auf Stellplatz P0214.", "Aparcada en la plaza P0214.",
])
def test_a_place_to_park_is_no_code(line: str) -> None:
    assert codes(f"Radio\nB1400 stored\n\n{line}\n") == [("B1400", "stored")]


def test_other_words_for_a_place_leave_codes_alone() -> None:
    assert ("P0214", "stored") in codes("Motor P0214 lost its place, stored\nRadio B1400 stored\n")


@pytest.mark.parametrize("words", [
    "Batteriespg. 11,4 V", "Bordnetzspg.: 11,4 V", "Starterbatterie-Spg. 11,4 V", "Ruhespg. = 11,4 V",
])
def test_a_short_form_of_voltage_in_a_word_put_together(words: str) -> None:
    (snapshot,) = read_text(f"{words}\nRadio\nB1400 gespeichert\n", load()).snapshots
    assert snapshot.volts == 11.4


@pytest.mark.parametrize(("head", "names"), [
    ("Aucun d\u00e9faut dans :", ("Airbag",)), ("Keine Fehler in:", ("Airbag", "Radio")),
    ("No faults in:", ("Airbag", "Radio")), ("Sin fallos en:", ("Airbag",)),
])
def test_the_last_name_of_a_list_of_answers_heads_no_codes_below(head: str, names: tuple[str, ...]) -> None:
    text = head + "\n" + "".join(f"  - {name}\n" for name in names) + (
        "\nU0121 [Gateway] ABS lost\nU0155 [Gateway] cluster lost\nC0110 [ABS] pump motor\n")
    (modules,) = scans(text)
    assert [(name, [code for code, _ in found]) for name, found in modules] == [
        *((name, []) for name in names), ("Gateway", ["U0121", "U0155"]), ("ABS", ["C0110"])]


def test_a_name_with_codes_in_such_a_list_still_heads_them() -> None:
    (modules,) = scans("No faults in:\n  - Airbag\n\nGateway\n  U0121 ABS lost\n  U0155 cluster lost\n")
    assert [(name, len(found)) for name, found in modules] == [("Airbag", 0), ("Gateway", 2)]


@pytest.mark.parametrize("status", [
    "anstehend, unbest\u00e4tigt", "anstehend (noch nicht best\u00e4tigt)", "unbest\u00e4tigt / anstehend",
    "anstehend, aber unbestaetigt",
])
def test_what_is_there_and_not_confirmed_is_pending(status: str) -> None:
    text = f"Radio\nB1400 Antenne - {status}\nB1401 Display - gespeichert\nB1402 Lautsprecher - nicht mehr vorhanden\n"
    assert codes(text) == [("B1400", "pending"), ("B1401", "stored"), ("B1402", "stored")]


def test_what_is_there_beside_what_is_not_confirmed_is_current() -> None:
    text = "Radio\nB1400 Antenne - anstehend\nB1401 Display - unbest\u00e4tigt\n"
    assert codes(text) == [("B1400", "current"), ("B1401", "pending")]


def test_a_title_that_a_page_puts_between_a_keyed_name_and_its_codes_is_no_name() -> None:
    block = "Module: {}\nCode: {}\nDescription: line open\n\n"
    text = ("Workshop print-out\n\n" + block.format("Radio", "B1400") + "Module: Sunroof\n\nPage 1 of 2\n\n"
            "Workshop print-out\n\nCode: B1351\nDescription: motor\n\n" + block.format("Airbag", "B1500")
            + block.format("Trailer", "C1600") + "Page 2 of 2\n")
    (modules,) = scans(text)
    assert [(name, [code for code, _ in found]) for name, found in modules] == [
        ("Radio", ["B1400"]), ("Sunroof", ["B1351"]), ("Airbag", ["B1500"]), ("Trailer", ["C1600"])]


def test_full_stops_of_a_message_that_is_wrapped_end_its_sentences() -> None:
    text = ("here are the codes.\nRadio has 842EFC (aerial open), E76FDA (no coding) and\nE6F87A (bus down) stored.\n"
            "no answer from ABS.\nSunroof has F2A7EE (motor) stored.\nAirbag is clean.\nbattery flat.\n")
    assert codes(text) == [("842EFC", "stored"), ("E76FDA", "stored"), ("E6F87A", "stored"), ("F2A7EE", "stored")]


@pytest.mark.parametrize(("key", "statuses"), [
    ("Key: ! = present now   - = no longer active   ? = provisional", ("current", "stored", "pending")),
    ("Legende: ! = aktuell vorhanden; - = nicht mehr aktiv; ? = vorl\u00e4ufig", ("current", "stored", "pending")),
    ("L\u00e9gende : ! = pr\u00e9sent, - = absent, ? = non confirm\u00e9", ("current", "stored", "pending")),
    ("Leyenda: ! = presente - = ya no activo ? = pendiente", ("current", "stored", "pending")),
])
def test_a_dash_and_a_question_mark_are_marks_where_a_key_says_so(key: str, statuses: tuple[str, ...]) -> None:
    text = f"{key}\n\nSunroof\n  ! D23F68 Motor 30\n  - B1351 Motor\n  ? A86C33 Motor\nRadio\n  ! B1400 Antenna\n"
    assert [status for _, status in codes(text)] == [*statuses, "current"]
    assert [code for code, _ in codes(text)] == ["D23F68", "B1351", "A86C33", "B1400"]


def test_marks_in_brackets_with_a_question_mark_among_them() -> None:
    text = ("Key: [X] = present now   [o] = history   [?] = waiting for confirmation\n\nRadio\n"
            "  [o] B1400 aerial\n  [X] B1401 display\nAirbag\n  [?] B1500 igniter\n")
    assert codes(text) == [("B1400", "stored"), ("B1401", "current"), ("B1500", "pending")]


def test_a_dash_that_no_key_explains_is_a_bullet() -> None:
    text = "* = present now\n\nRadio\n  - B1400 aerial *\n  - B1401 display\n"
    assert codes(text) == [("B1400", "current"), ("B1401", None)]


@pytest.mark.parametrize("head", ["PASS - Passerelle", "PASS (Passerelle)", "PASS: Pasarela",
                                  "50-Second battery charger"])
def test_a_name_that_begins_with_an_answer_or_tells_of_a_charger_holds_its_codes(head: str) -> None:
    text = (f"14-Radio\n   B1400 stored\n   B1401 stored\n{head}\n   U0100 stored\n   B1402 stored\n"
            "16-Tailgate\n   pass\n")
    (modules,) = scans(text)
    assert [[code for code, _ in found] for _, found in modules] == [["B1400", "B1401"], ["U0100", "B1402"], []]
    assert modules[1][0] in head


def test_a_pass_of_a_module_is_still_an_answer() -> None:
    (snapshot,) = read_text("Radio pass\nAirbag - pass\nGearbox: P0700 stored\n", load()).snapshots
    assert [(scan.printed, len(scan.codes)) for scan in snapshot.modules] == [
        ("Radio", 0), ("Airbag", 0), ("Gearbox", 1)]


@pytest.mark.parametrize("told", [
    "Sunroof has B1351, but it is no longer active.", "Sunroof has B1351, but no longer active.",
    "Das Schiebedach hat B1351, liegt aber nicht mehr an.", "Das Schiebedach hat B1351, aber nicht mehr aktiv.",
    "Le toit ouvrant a B1351, mais il n'est plus actif.", "El techo solar tiene B1351, pero ya no est\u00e1 activo.",
])
def test_what_is_said_of_a_code_behind_but(told: str) -> None:
    assert codes(f"{told}\nRadio: ok.\n") == [("B1351", "stored")]


@pytest.mark.parametrize("told", [
    "Sunroof has B1351, but the radio is not active.", "Sunroof has B1351, but stored codes in the radio were cleared.",
    "Sunroof has B1351, but current draw is high.",
])
def test_what_is_said_of_another_thing_behind_but(told: str) -> None:
    assert ("B1351", None) in codes(told)
