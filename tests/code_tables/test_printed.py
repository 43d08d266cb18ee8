"""A maker's code that its printed text calls a supply code (common practice). All texts are invented."""

from __future__ import annotations

import pytest

from code_tables import load
from code_tables.printed import direction, with_text
from code_tables.printed_network import spoken
from code_tables.printed_pointers import pointed_at


@pytest.mark.parametrize(("text", "said"), [
    ("ECU supply voltage below limit", "low"), ("Control module supply voltage too low", "low"),
    ("Undervoltage", "low"),
    ("Unterspannung Klemme 30", "low"), ("tension d'alimentation insuffisante", "low"),
    ("tensi\u00f3n de la bater\u00eda demasiado baja", "low"), ("Battery voltage too high", "high"),
    ("\u00dcberspannung", "high"), ("Battery voltage", None), ("Reference voltage low", None),
    ("Spannung Kl.30 unterschritten", "low"), ("Kl. 30: zu hoch", "high"), ("Spannung Kl. 15 unterschritten", None),
    ("Key battery voltage low", None), ("Battery cell 4 undervoltage", None), ("Washer fluid low", None)])
def test_the_words_for_the_supply(text: str, said: str | None) -> None:
    assert direction(text) == said


def test_only_a_code_no_table_knows_is_asked_for_its_text() -> None:
    maker, known = load().facts("B1318"), load().facts("P0118")
    assert not maker.known
    module = load().module
    told = with_text(maker, ["Battery voltage low"], module)
    assert (told.supply, told.system, told.noise, told.needs) == ("low", "supply", "supply", "supply")
    assert with_text(known, ["Battery voltage low"], module) is known
    assert with_text(maker, ["Battery voltage low", "Battery voltage high"], module) is maker


@pytest.mark.parametrize(("text", "said"), [
    ("No communication with instrument cluster", ("lost communication", "instrument cluster")),
    ("Instrument cluster: no communication", ("lost communication", "instrument cluster")),
    ("perte de communication avec le combin\u00e9", ("lost communication", "combine")),
    ("Sin comunicaci\u00f3n con la BCM", ("lost communication", "bcm")),
    ("No message from radio", ("lost communication", "radio")),
    ("Implausible signal from steering angle sensor", ("invalid data", "steering angle sensor")),
    ("datos no v\u00e1lidos recibidos de la BCM", ("invalid data", "bcm")),
    ("manufacturer code: no communication with radio", ("lost communication", "radio")),
    ("Speed signal implausible", None), ("no signal from wheel sensor", None), ("timeout", None), ("Door open", None)])
def test_the_words_for_another_module(text: str, said: tuple[str, str] | None) -> None:
    assert spoken(text) == said


def test_a_text_that_names_no_listed_module_or_two_tells_of_none() -> None:
    maker, module = load().facts("60931"), load().module
    told = with_text(maker, ["no communication with instrument cluster"], module)
    assert (told.relation, told.targets, told.noise) == ("lost communication", ("instrument cluster",), "network")
    assert with_text(maker, ["no communication with left flux unit"], module) is maker
    assert with_text(maker, [f"no communication with {name}" for name in ("radio", "instrument cluster")],
                     module) is maker


@pytest.mark.parametrize(("text", "name"), [
    ("Lamp request by instrument cluster", "instrument cluster"), ("radio requests the warning lamp", "radio"),
    ("note: fault codes stored in: BCM", "bcm"), ("Malfunction reported by seat module", "seat module"),
    ("Check the fault memory of the radio", "radio"), ("BCM: read fault codes", "bcm"),
    ("hill hold off, see park brake", "park brake"), ("Cruise disabled due to fault in radar", "radar"),
    ("Fehlerspeicher des Kombiinstruments auslesen", "kombiinstruments"), ("ABS: Fehlerspeicher abfragen", "abs"),
    ("St\u00f6rung im T\u00fcrsteuerger\u00e4t gespeichert", "tursteuergerat"),
    ("Warnleuchtenanforderung vom Airbag", "airbag"), ("Start gesperrt, siehe Wegfahrsperre", "wegfahrsperre"),
    ("d\u00e9faut m\u00e9moris\u00e9 dans l\u2019airbag", "airbag"),
    ("lire les d\u00e9fauts de la direction", "direction"), ("aide inhib\u00e9e, voir ABS", "abs"),
    ("demande d'allumage du voyant par le calculateur ABS", "calculateur abs"),
    ("Aver\u00eda memorizada en la direcci\u00f3n", "direccion"),
    ("leer la memoria de aver\u00edas del airbag", "airbag"), ("solicitud de testigo de motor por el cambio", "cambio"),
    ("Lane keeping off - fault in the radar", "radar"), ("function limited, fault in BCM", "bcm"),
    ("Tempomat abgeschaltet, Fehler im Radar", "radar"), ("Funktion wegen Fehler im Radar gesperrt", "radar"),
    ("Funktion gesperrt wegen Fehler im Radar", "radar"),
    ("aide d\u00e9sactiv\u00e9e, d\u00e9faut du radar", "radar"),
    ("funci\u00f3n limitada por fallo en el radar", "radar"),
    ("lamp off, open circuit in the radio", None), ("supply limited, fault code", None),
    ("warning lamp circuit open", None), ("lamp request implausible", None), ("fault in the radio", None),
    ("Fehlerspeicher voll", None), ("check the wiring of the radio", None), ("aver\u00eda el\u00e9ctrica", None)])
def test_the_words_that_point_at_another_module(text: str, name: str | None) -> None:
    assert pointed_at(text) == name


def test_a_makers_pointer_has_what_a_standard_one_has() -> None:
    maker, module = load().facts("60931"), load().module
    told, standard = with_text(maker, ["lamp request from radio"], module, "engine control"), load().facts("P0700")
    assert (told.relation, told.noise, told.monitor, told.needs) == (
        standard.relation, standard.noise, standard.monitor, standard.needs)
    assert told.targets == ("radio",)
    assert with_text(maker, ["see the anti-lock brakes"], module).safety == "brakes"
    for texts in (["fault stored in memory"], ["see service manual"], ["see the radio", "see the instrument cluster"]):
        assert with_text(maker, texts, module) is maker
    # The module that holds the code is no other module.
    assert with_text(maker, ["see the radio"], module, "radio") is maker
