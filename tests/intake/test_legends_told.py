"""Lines that explain the letters of a text, in many settings. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, told

READ = {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0035 pending"], "radio": ["silent"]}


@pytest.mark.parametrize(
    ("letters", "line"),
    [
        (("S", "P", "n/c"), "(S)=stored (P)=pending  n/c = no comms"),
        (("(S)", "(P)", "n/c"), "(S)=stored (P)=pending  n/c = no comms"),
        (("[S]", "[P]", "[N/C]"), "Legend: [S] stored, [P] pending, [N/C] no communication"),
        (("S", "P", "NR"), "S = sotred, P = pending, NR = no response"),
        (("S", "P", "NR"), "S = stord P = pendng NR = no response"),
        (("S", "P", "X"), "S: stored / P: pending / X: no reply"),
        (("G", "V", "KA"), "(G)=gespeichert (V)=vorläufig  KA = keine Antwort"),
        (("M", "A", "NR"), "M = mémorisé, A = en attente, NR = pas de réponse"),
        (("A", "P", "SR"), "(A) almacenado (P) pendiente (SR) sin respuesta"),
        (("s", "p", "x"), "(s) - stored   (p) - pending   (x) - no answer"),
    ],
)
@pytest.mark.parametrize("place", ["above", "below", "apart"])
def test_letters_explained_in_one_line(letters: tuple[str, str, str], line: str, place: str) -> None:
    scan = f"Engine P0562 {letters[0]}\nABS C0035 {letters[1]}\nRadio {letters[2]}"
    text = {"above": f"{line}\n{scan}", "below": f"{scan}\n{line}", "apart": f"{scan}\n\n{line}"}[place]
    assert modules_of(text) == READ


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Engine P0562 A\nABS C0035 H\nA - active\nH - history",
         " | engine control: P0562 current; anti-lock brakes: C0035 stored"),
        ("Engine P0562 S\nABS C0035 P\nS=stord\nP=pendng",
         " | engine control: P0562 stored; anti-lock brakes: C0035 pending"),
        ("* = pending\nEngine P0562 *\nABS C0035", " | engine control: P0562 pending; anti-lock brakes: C0035"),
        # Names explain nothing.
        ("ABS: ok  BCM: no response\nECM P0562",
         " | anti-lock brakes: clean; body control: silent; engine control: P0562"),
    ],
)
def test_letters_in_lines_of_their_own(text: str, expected: str) -> None:
    assert told(text) == expected


@pytest.mark.parametrize("line", [
    "Legend: 1 = present; 2 = stored; 3 = pending", "(1=present, 2=stored, 3=pending)",
    "1 - present  2 - stored  3 - pending", "Status: 1: present, 2: stored, 3: pending",
    "1: present; 2: stored; 3: pending", "1 = vorhanden, 2 = gespeichert, 3 = noch nicht bestätigt",
])
@pytest.mark.parametrize("mark", [" | ", "\t", ";", "   "])
@pytest.mark.parametrize("above", [True, False])
def test_digits_that_are_explained(line: str, mark: str, above: bool) -> None:
    rows = (("Engine", "P0562:16", "2", "Supply low"), ("ABS", "C0035", "3", "Wheel, bank 1"), ("BCM", "U0100", "1"))
    scan = "\n".join(mark.join(row) for row in rows)
    assert modules_of(f"{line}\n\n{scan}" if above else f"{scan}\n\n{line}") == {
        "engine control": ["P0562-16 stored"], "anti-lock brakes": ["C0035 pending"], "body control": ["U0100 current"]}


def test_digits_in_the_column_of_statuses() -> None:
    text = "Status: 1=present 2=stored 3=pending\nModule;Code;Status;Count\nABS;C0035;2;3\nECM;P0301;1;2"
    assert told(text) == " | anti-lock brakes: C0035 stored; engine control: P0301 current"


def test_a_dash_may_stand_in_what_a_digit_means() -> None:
    legend = "Legend: 1 = active, 0 = not active - history only, 2 = confirmed"
    text = f"{legend}\nModule;Code;Status\nABS;C0035;2\nECM;P0301;0"
    assert told(text) == " | anti-lock brakes: C0035 confirmed; engine control: P0301 stored"


@pytest.mark.parametrize("mark", ["; ", ";", "// ", "# "])
def test_a_legend_may_be_a_comment_above_the_table(mark: str) -> None:
    text = f"{mark}Status: 1 = active, 0 = stored, 2 = pending\nModule,Code,Status\nABS,C0035,2\nECM,P0301,0"
    assert told(text) == " | anti-lock brakes: C0035 pending; engine control: P0301 stored"


@pytest.mark.parametrize("line", ["Codes: 3 - stored, 2 - pending", "1 current, 2 stored", "1 = stored", ""])
def test_digits_that_count_explain_nothing(line: str) -> None:
    assert told(f"{line}\nABS | C0035 | 2 | Wheel speed\n") == " | anti-lock brakes: C0035"


@pytest.mark.parametrize("line", [
    "Explanation of status: 1 - current, 0 - stored", "Meaning of the digits: 0 - stored, 1 - current",
    "1 - active; 0 - not active",
])
def test_digits_in_brackets_behind_several_codes(line: str) -> None:
    text = f"Module\tNo.\tCodes\nABS\t2\tC0035 16 (1)\tC0040 (0)\nECM\t1\tP0301 (0)\nRadio\t0\tno codes\n{line}"
    assert told(text) == (
        " | anti-lock brakes: C0035-16 current, C0040 stored; engine control: P0301 stored; radio: clean")


def test_a_line_of_counts_is_no_status_of_the_code_above() -> None:
    assert told("ECM P0562 low voltage\nABS C0035 sensor\n1 - current, 3 - stored") == (
        " | engine control: P0562; anti-lock brakes: C0035")


def test_the_number_of_a_cylinder_is_no_status() -> None:
    assert told("0 = not present, 1 = present\nABS C0035 (1)\nECM P0301 Misfire cylinder 1") == (
        " | anti-lock brakes: C0035 current; engine control: P0301")


@pytest.mark.parametrize(("mark", "line"), [
    ("N", "Key: N = now"), ("N", "Legend: N - present now"), ("A", "Key: A active"), ("*", "*  present now"),
    ("A", "Status: A active"), ("#", "# = active"), ("!", "! active at time of scan")])
def test_one_letter_or_sign_alone(mark: str, line: str) -> None:
    text = f"Unit;Code;Text;State\nEngine;P0562;System voltage;{mark}\nABS;C0035;Wheel speed;{mark}\n\n{line}\n"
    assert modules_of(text) == {"engine control": ["P0562 current"], "anti-lock brakes": ["C0035 current"]}


def test_the_bullet_of_a_list_explains_nothing() -> None:
    text = "* Engine: P0562 low\n* ABS: C0035 open\n* present now\n"
    assert modules_of(text)["engine control"] == ["P0562"]


@pytest.mark.parametrize("torn", ["L - live   M - memory   P - pending   X -\nconfirmed",
                                  "L = live, M = memory, P = pending, X =\nconfirmed"])
def test_a_legend_that_breaks_off(torn: str) -> None:
    text = f"Key: {torn}\n\nEngine\nP0562 low\nStatus: X\n\nABS\nC0035 open\nStatus: M\n"
    assert modules_of(text) == {"engine control": ["P0562 confirmed"], "anti-lock brakes": ["C0035 stored"]}


def test_a_letter_behind_a_dash_and_before_the_text() -> None:
    text = "Key: C - current, M - memory\nEngine\nP0562 - C System voltage\nABS\nC0035 - M Wheel speed\n"
    assert modules_of(text) == {"engine control": ["P0562 current"], "anti-lock brakes": ["C0035 stored"]}


@pytest.mark.parametrize("line", [
    "Status: *  active   o  stored", "Legend: *  current, o  history", "Explanation: o  passive / *  present / #",
    "Key: * active now; o stored",
])
def test_signs_and_letters_with_blanks_before_their_meanings(line: str) -> None:
    text = f"{line}\n\nEngine\nP0562 voltage low (*)\nABS\nC0035 sensor left (o)\n"
    assert modules_of(text) == {"engine control": ["P0562 current"], "anti-lock brakes": ["C0035 stored"]}


def test_letters_that_are_the_name_of_a_module_elsewhere() -> None:
    text = ("Status: act = active, pas = passive\nModule;Code;Text;St.\nEngine;P0562;voltage low;act\n"
            "ABS;C0035;sensor left;pas\n")
    assert modules_of(text) == {"engine control": ["P0562 current"], "anti-lock brakes": ["C0035 stored"]}


def test_here_now() -> None:
    text = "Module;Code;State\nEngine;P0562;here now\nABS;C0035;not currently present\n"
    assert modules_of(text) == {"engine control": ["P0562 current"], "anti-lock brakes": ["C0035 stored"]}


@pytest.mark.parametrize("line", [
    "* S = stored, P = pending", "** S = stored, P = pending", "(Key) S = stored, P = pending",
    "[Legend] (S) = stored, (P) = pending", "(Legende) S = gespeichert, P = vorläufig",
    "* M = mémorisé, P = en attente", "(Leyenda) A = almacenado, P = pendiente"])
def test_a_bullet_or_a_word_in_brackets_before_the_letters(line: str) -> None:
    stored = next(letter for letter in "SMA" if f"{letter} =" in line or f"({letter}) =" in line)
    text = f"Engine:\n  - [{stored}] P0562\nABS:\n  - [P] C0035\n\n{line}\n"
    assert modules_of(text) == {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0035 pending"]}


def test_a_bullet_before_one_meaning_stays_its_sign() -> None:
    assert modules_of("Engine P0562 *\nABS C0035\n* = pending\n") == {
        "engine control": ["P0562 pending"], "anti-lock brakes": ["C0035"]}


@pytest.mark.parametrize("line", [
    "Erklärung: akt. = aktiv; pas. = passiv", "Status: akt. = aktiv; pas. = passiv", "akt. = aktiv, pas. = passiv",
    "Legende\takt. = aktiv  pas. = passiv", "Legende,akt. = aktiv; pas. = passiv"])
@pytest.mark.parametrize("below", [True, False])
def test_letters_with_a_full_stop(line: str, below: bool) -> None:
    text = "Steuergerät;Code;Status\nMotor;P0562;akt.\nABS;C0035;pas.\n"
    assert modules_of(f"{text}\n{line}\n" if below else f"{line}\n\n{text}") == {
        "engine control": ["P0562 current"], "anti-lock brakes": ["C0035 stored"]}


def test_a_longer_short_form_with_its_full_stop() -> None:
    text = "gesp. = gespeichert; best. = bestätigt\n\nMotor:\nP0562 Spannung (gesp.)\nABS:\nC0035 Sensor <best.>\n"
    assert modules_of(text) == {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0035 confirmed"]}


@pytest.mark.parametrize("line", [
    '"Legend"|"A = active, S = stored"', 'Légende;"A = actif; S = mémorisé"', "Key\tA = active, S = stored",
    "Leyenda | A = activo, S = almacenado"])
def test_a_word_for_a_legend_in_a_cell_of_its_own(line: str) -> None:
    text = f"{line}\n\nModule;Code;Status\nABS;C0035;S\nAirbag;B0028;A\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored"], "restraints": ["B0028 current"]}


def test_the_head_of_a_column_leads_to_no_letter() -> None:
    text = "Status;Text;Module;Code\nA;open;ABS;C0035\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035"]}


@pytest.mark.parametrize("around", ["<{}>", "{{{}}}", "({})", "[{}]"])
def test_letters_in_any_brackets_behind_descriptions(around: str) -> None:
    now, then = around.format("A"), around.format("S")
    text = f"ABS - 2 faults\nC0035: Wheel sensor left {now}\nC0040: Wheel sensor right {then}\n\n"
    text += "A = active  S = stored\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 current", "C0040 stored"]}
