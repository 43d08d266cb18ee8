"""A deed or a connection that is denied, or that somebody isn't sure of, is neither done nor connected. All invented;
wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import Reading, read_text

_HEAD, _SCAN = "before clear 10.9 V\n", "\nEngine: P0562 stored\nABS: C0034-13 active\nAirbag: no codes\n"


def _read(line: str) -> Reading:
    reading = read_text(_HEAD + line + _SCAN, load())
    assert [module.printed for module in reading.snapshots[0].modules] == ["Engine", "ABS", "Airbag"]
    return reading


@pytest.mark.parametrize("line", [
    "Hab noch nix ersetzt.", "noch nix getauscht", "ersetzt hab ich noch nichts", "getauscht wurde nix",
    "hab nich getauscht", "ain't replaced anything", "replaced nothing yet", "rien remplacé", "aún nada cambiado",
])
def test_what_was_not_replaced_is_no_event(line: str) -> None:
    assert not _read(line).events


@pytest.mark.parametrize("line", [
    "Sicherung ersetzt, sonst nix", "fuse replaced, nothing else", "replaced nothing but the fuse",
    "hab die Sicherung getauscht", "fusible remplacé",
])
def test_what_was_replaced_stays_one(line: str) -> None:
    assert [event.what for event in _read(line).events] == ["replaced"]


@pytest.mark.parametrize("line", [
    "Ladegerät noch nicht dran", "Ladegerät nicht dran", "Ladegerät ist nich angeklemmt", "Lader nicht angeschlossen",
    "chargeur pas branché", "chargeur non branché", "charger not connected", "charger wasn't connected",
    "cargador no puesto",
])
def test_what_is_not_connected_feeds_nothing(line: str) -> None:
    reading = _read(line)
    assert reading.snapshots[0].outside_supply == "none"
    assert not reading.events


@pytest.mark.parametrize("line", ["charger connected, not running yet", "Ladegerät dran, Motor läuft nicht",
                                  "chargeur branché, moteur pas démarré", "charger on, fuse 5 not replaced"])
def test_what_is_denied_of_another_thing_takes_nothing_off(line: str) -> None:
    assert _read(line).snapshots[0].outside_supply == "charger"


@pytest.mark.parametrize("line", [
    "charger or running I forget", "charger on? I forget", "charger maybe on", "not sure if the charger was on",
    "Ladegerät dran oder nicht, weiß nicht mehr", "chargeur branché ? je ne sais plus",
    "cargador puesto, no me acuerdo",
    "replaced the ABS module, not sure", "Airbag vielleicht getauscht", "I think the BCM was replaced",
])
def test_what_is_told_with_a_doubt_is_not_taken_and_named(line: str) -> None:
    reading = _read(line)
    assert reading.snapshots[0].outside_supply is None
    assert not reading.events
    assert [notice.line for notice in reading.notices if "told with a doubt" in notice.message] == [2]


@pytest.mark.parametrize("line", ["charger on, not sure how long", "charger on. maybe the alternator is weak",
                                  "charger connected because I think the battery is weak"])
def test_a_doubt_about_another_thing_is_none(line: str) -> None:
    reading = _read(line)
    assert reading.snapshots[0].outside_supply == "charger"
    assert not any("told with a doubt" in notice.message for notice in reading.notices)
