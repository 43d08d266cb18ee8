"""Where a list, a page or a description ends: headings below bullets, the number of a page between dashes, the rest of
a text that was wrapped. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans
from triage.intake.said import volts


@pytest.mark.parametrize(("absent", "before", "after"), [
    ("Not fitted", "Before clearing", "After clearing"),
    ("Nicht verbaut", "Vor dem L\u00f6schen", "Nach dem L\u00f6schen"),
    ("Non mont\u00e9", "Avant effacement", "Apr\u00e8s effacement"),
    ("No montado", "Antes de borrar", "Despu\u00e9s de borrar"),
])
@pytest.mark.parametrize("mark", [">>", "**"])
def test_the_heading_of_the_next_scan_is_no_item(absent: str, before: str, after: str, mark: str) -> None:
    text = (f"{mark} {before}\nC0045 [ABS] pump\n\n{absent}:\n- Radio\n\n{mark} {after}\n12.7 V\nC0050 [ABS] pump\n")
    assert [scan.partition(" ")[0] for scan in scans(text)] == ["before-clear", "after-clear"]


def test_an_item_called_like_a_phase_stays_one() -> None:
    text = "ABS: C0045\nNo answer:\n- Radio\n- After-run pump\n"
    assert scans(text) == [" | ABS: C0045; Radio: silent; After-run pump: silent"]


@pytest.mark.parametrize("head", [
    "Neue Batterie verbaut, erneut ausgelesen", "Batterie neuve mont\u00e9e, nouvelle lecture",
    "[Bater\u00eda nueva montada, nueva lectura (4/11/2025)]", "____ Masa soldada, relectura ____",
])
def test_what_was_fitted_and_read_again(head: str) -> None:
    assert scans(f"{head}\nABS: C0045\n") == ["after-repair | ABS: C0045"]


@pytest.mark.parametrize("head", [
    "Radar nicht verbaut, erneut ausgelesen", "Radar pas mont\u00e9, nouvelle lecture",
    "Remolque no montado, nueva lectura",
])
def test_what_is_not_fitted_is_no_repair(head: str) -> None:
    assert not scans(f"{head}\nABS: C0045\n")[0].startswith("after-repair")


@pytest.mark.parametrize("foot", ["Order 7719  - {} -", "- {} -   04.06.2024", "{}/3   04/06/2024"])
def test_a_list_goes_on_behind_the_number_of_its_page(foot: str) -> None:
    text = ("Report\nRadio: no codes\nSnow plough unit: 2 codes\n" + foot.format(1) + "\nReport\nB1205 tuner\n"
            "U0155 No communication with\n" + foot.format(2) + "\nReport\nbody control\nU0121 lost\nABS: 1 code\n"
            "C0045 pump\n" + foot.format(3) + "\n")
    assert scans(text) == [" | Radio: clean; Snow plough unit: B1205 U0155 U0121; ABS: C0045"]


def test_a_finished_text_leaves_the_name_behind_the_page() -> None:
    text = "Report\nRadio\nU0155 lost\nPage 1/2\nReport\nABS\nC0045 pump\nPage 2/2\n"
    assert scans(text) == [" | Radio: U0155; ABS: C0045"]


def test_the_rest_of_a_text_tells_of_no_other_scan() -> None:
    text = ("1. Instrument cluster\n   no answer\n2. Radio\nU0155 Lost communication with\n  instrument cluster\n"
            "U0140 lost\n3. ABS\nU0155 Lost communication with\n  instrument cluster\nC0045 pump\n")
    assert len(scans(text)) == 1


@pytest.mark.parametrize("kind", ["Vehicle: Combi", "Fahrzeug: Kombi", "V\u00e9hicule: Break", "Veh\u00edculo = Combi"])
def test_the_kind_of_vehicle_is_no_module(kind: str) -> None:
    assert scans(f"Report\n{kind}\nTotal faults: 20\nECU: ABS\nC0045 pump\n") == [" | ABS: C0045"]


@pytest.mark.parametrize(("head", "rows", "held"), [
    ("Module Code Text Status", ["ABS - C0045 Supply out of", "  range inactive", "ABS - C0050 Pump", "  still active",
                                 "ABS - C0051 Pump worn stored"], ["C0045 stored", "C0050 current", "C0051 stored"]),
    ("Unidad C\u00f3digo Texto Estado", ["ABS - C0045 Tensi\u00f3n fuera", "  de rango inactivo", "ABS - C0050 Bomba",
                                         "  todav\u00eda activo", "ABS - 30417 Motor", "  bloqueado inactivo"],
     ["C0045 stored", "C0050 current", "30417 stored"]),
])
def test_a_status_at_the_end_of_a_wrapped_cell(head: str, rows: list[str], held: list[str]) -> None:
    assert modules_of("\n".join([head, *rows, ""])) == {"anti-lock brakes": held}


def test_a_word_for_none_that_goes_on_below_is_no_empty_list() -> None:
    text = ("Steuerger\u00e4t Fehlercode Beschreibung Zustand\nRadio - U0146 AKTIV Keine\nKommunikation mit Gateway\n"
            "Radio - U0155 BEST\u00c4TIGT Keine\nKommunikation mit Kombi\nABS - C0045 PASSIV Pumpe\n")
    assert modules_of(text) == {"radio": ["U0146 current", "U0155 confirmed"], "anti-lock brakes": ["C0045 stored"]}


def test_a_text_below_a_code_with_its_module_silences_no_other() -> None:
    text = ("Belt unit - U0146 stored\nNo communication with gateway\nBelt unit - B0081 stored\nSeat not calibrated\n"
            "Radio - no codes\n")
    assert "gateway" not in modules_of(text)


def test_a_name_in_brackets_behind_the_status() -> None:
    text = ("U0101 nicht mehr aktiv [Radio] Keine Kommunikation mit Getriebe\nC0045 aktiv [ABS] Pumpe\n"
            "B1205 aktiv [Radio] Tuner\nU0415 passiv [Airbag] Daten vom ABS\n"
            "B0012 liegt derzeit nicht an [Airbag] Kreis\n")
    assert scans(text) == [" | Radio: U0101 stored B1205 current; ABS: C0045 current; "
                           "Airbag: U0415 stored B0012 stored"]


@pytest.mark.parametrize(("low", "found"), [
    ("kl. 30 = 12.6 v / min. voltage 8.8 v", [(12.6, "supply"), (8.8, "lowest")]),
    ("battery falls 0.1 v / min.", [(0.1, "other")]),
    ("niedriste spannung 9.4 v", [(9.4, "lowest")]),
])
def test_the_lowest_behind_a_stroke(low: str, found: list[tuple[float, str]]) -> None:
    assert [(volt.value, volt.of) for volt in volts.find(low)] == found


def test_rows_of_as_many_semicolons_are_no_paragraph() -> None:
    text = ("C\u00f3digo de aver\u00eda; Descripci\u00f3n; Unidad; Estado\n"
            "B1205; Sin comunicaci\u00f3n con la antena; radio; activo\n"
            "C0045; Sin se\u00f1al de la rueda del eje; abs; memorizado\n")
    assert scans(text) == [" | radio: B1205 current; abs: C0045 stored"]


@pytest.mark.parametrize(("said", "answer"), [
    ("Fehlerfre: Radio", "clean"), ("Zeit\u00fcberschritung: Radio", "silent"), ("Radio: in Ordnng", "clean"),
    ("Radio: memoria vacia", "clean"), ("Radio: memorie vide", "clean"), ("Radio: memry empty", "clean"),
    ("No se pudo comuicar: Radio", "silent"), ("Radio: no respnde", "silent"),
])
def test_slips_in_answers(said: str, answer: str) -> None:
    assert scans(f"ABS: C0045\n\n{said}\n") == [f" | ABS: C0045; Radio: {answer}"]


@pytest.mark.parametrize("said", ["Radio: in Anordnung", "Radio: nicht in Ordnng", "Fehlerfeld: Radio"])
def test_other_words_are_no_answer(said: str) -> None:
    assert "clean" not in scans(f"ABS: C0045\n\n{said}\n")[0]


@pytest.mark.parametrize("rows", [
    ("Radio ... does not answer", "Engine control ... does not answer", "Cluster (1 code)", "\tU0155\tpresent"),
    ("Radio ... meldet sich nicht", "Motorelektronik ... meldet sich nicht", "Kombi (1 Fehler)", "\tU0155\tvorhanden"),
])
def test_dots_before_an_answer_end_no_sentence(rows: tuple[str, ...]) -> None:
    held = modules_of("\n".join(rows) + "\n")
    assert held["instrument cluster"] == ["U0155 current"]
    assert held["radio"] == held["engine control"] == ["silent"]


def test_numbers_of_headings_end_no_sentence() -> None:
    text = ("Key: A=active; S=stored\n1. Radio\nU0155 Lost contact with the instrument cluster\nA\n2. ABS\n"
            "C0045 Battery voltage S\n3. Airbag\nB0012 Circuit of the driver's first stage open\nS\n")
    assert modules_of(text) == {"radio": ["U0155 current"], "anti-lock brakes": ["C0045 stored"],
                                "restraints": ["B0012 stored"]}


def test_the_rest_of_a_text_with_its_letter_heads_no_codes() -> None:
    text = ("Key: A=active; S=stored\n1. Radio\n64120 Compressor start failed, low\nsupply S\n"
            "00536 Undervoltage shut-off A\n2. ABS\n52938 Supply voltage too low S\n")
    assert modules_of(text) == {"radio": ["64120 stored", "00536 current"], "anti-lock brakes": ["52938 stored"]}


def test_a_list_of_answers_below_a_remark_is_no_paragraph() -> None:
    text = ('U3006 "Input A" in ABS\nB1205 in Radio\n\nlunch break, went on after that\n'
            "Steering wheel module - clean\nInstrument cluster - failed to respond\nLane camera - failed to respond\n"
            "Tow bar module - not checked\nBlind spot right - not tested\n")
    held = modules_of(text)
    assert (held["steering column"], held["instrument cluster"]) == (["clean"], ["silent"])


def test_the_number_of_a_sensor_is_no_count() -> None:
    assert scans("P0560: Engine\nP20E8: NOx sensor 1\nP2202: Capteur NOx 2\nU0155: Radio x 3\n") == [
        " | Engine: P0560; NOx sensor 1: P20E8; Capteur NOx 2: P2202; Radio: U0155"]


def test_past_before_a_code_is_its_status() -> None:
    assert modules_of("ABS - 2 d\u00e9fauts\n  pass\u00e9: C0045\n  historique: C0050\n") == {
        "anti-lock brakes": ["C0045 stored", "C0050 stored"]}
    assert scans("Radio: aucun d\u00e9faut\nOn passe: ABS sans d\u00e9faut\n") == [" | Radio: clean; ABS: clean"]


@pytest.mark.parametrize("mark", ["/", ";", ","])
def test_the_last_letter_of_a_wrapped_key(mark: str) -> None:
    text = (f"L\u00e9gende : P=pr\u00e9sent {mark} M=m\u00e9moris\u00e9 {mark} A=en attente {mark}\nC=confirm\u00e9\n"
            "ABS - C0045 D\u00e9faut interne (C)\nRadio - U0155 Perte (M)\n")
    assert scans(text) == [" | ABS: C0045 confirmed; Radio: U0155 stored"]


def test_a_heading_in_brackets_over_an_answer_behind_any_key() -> None:
    text = ("[ABS]\nremark:1 fault\ndtc:C0045\nstatus:active\n\n[Loader arm]\nremark:no answer\n\n"
            "[Salt spreader]\nremark:no faults\n")
    assert scans(text) == [" | ABS: C0045 current; Loader arm: silent; Salt spreader: clean"]


def test_an_answer_in_brackets_belongs_to_its_name() -> None:
    text = ("Navigation [0x785] : 2 Fehler\n - 2133FA  Position nicht angelernt\n"
            " - 3A35BA  Datenbus Komfort unplausibles Signal\nTotwinkel rechts [0x78E] (keine Fehler)\n"
            "Lichtsteuerung [0x797] : 1 Fehler\n - U3003  Batteriespannung\n")
    assert modules_of(text)["side obstacle, right"] == ["clean"]
