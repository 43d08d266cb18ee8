"""Messages as people type and dictate them: verbs of saying, short forms, pronouns, and modules told of in passing.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import modules_of, scans, told

from code_tables import load
from triage.intake.read import read_text

ABS, ECM, TCM, SRS, EPS = "anti-lock brakes", "engine control", "transmission control", "restraints", "power steering"
DASH, BCM, RADIO, HVAC = "instrument cluster", "body control", "radio", "climate control"


def notices(text: str) -> str:
    return " | ".join(notice.message for notice in read_text(text, load()).notices)


@pytest.mark.parametrize(("text", "expected"), [
    ("dash says u0100 and abs has p0562 stored.", {DASH: ["U0100"], ABS: ["P0562 stored"]}),
    ("ABS spat out C0051 again. Steering spat out C0460.", {ABS: ["C0051"], EPS: ["C0460"]}),
    ("gearbox moans U0100 lost comms with engine. engine moans U0101 lost comms with gearbox.",
     {TCM: ["U0100"], ECM: ["U0101"]}),
    ("airbag doesn't answer, engine answers with P0562 stored", {SRS: ["silent"], ECM: ["P0562 stored"]}),
    ("think the abs had C0035 stored. Engine definitely P0300.", {ABS: ["C0035 stored"], ECM: ["P0300"]}),
    ("what would make the steering throw C0460 and the abs throw C0460? nothing in the engine",
     {EPS: ["C0460"], ABS: ["C0460"], ECM: ["clean"]}),
    ("la caja de cambios no contesta, el motor saca U0101", {TCM: ["silent"], ECM: ["U0101"]}),
    ("Engine's got P0087 in it, gearbox is whinging about U0100", {ECM: ["P0087"], TCM: ["U0100"]}),
    ("I'm getting C0460 off the steering and U0415 off the abs", {EPS: ["C0460"], ABS: ["U0415"]}),
    ("the body reads B1318 low volts, engine reads nothing", {BCM: ["B1318"], ECM: ["clean"]}),
    ("I can see P0335 on the engine side and U0100 on the abs side", {ECM: ["P0335"], ABS: ["U0100"]}),
    ("engine light's on. ecm P0171 current. I've not looked further yet", {ECM: ["P0171 current"]}),
    ("ABS C0040, Motor ebenfalls C0040, Airbag nichts", {ABS: ["C0040"], ECM: ["C0040"], SRS: ["clean"]}),
])
def test_a_verb_of_saying_is_no_part_of_the_name_before_it(text: str, expected: dict[str, list[str]]) -> None:
    assert modules_of(text) == expected


@pytest.mark.parametrize(("text", "expected"), [
    ("ECM stored P0562, P0563, active P0118", {ECM: ["P0562 stored", "P0563 stored", "P0118 current"]}),
    ("RCM is showing U0121-96 stored and U0131-1C current.", {SRS: ["U0121-96 stored", "U0131-1C current"]}),
    ("ABS pump C0265", {"ABS pump": ["C0265"]}),
])
def test_a_status_and_the_rest_of_a_name_are_no_verb(text: str, expected: dict[str, list[str]]) -> None:
    got = modules_of(text)
    assert list(got.values()) == list(expected.values())


@pytest.mark.parametrize(("text", "expected"), [
    ("no comms w/ steering, park aid nothing", {EPS: ["silent"], "parking assist": ["clean"]}),
    ("ecm w/ P0171, tcm w/o codes, abs w/ C0035", {ECM: ["P0171"], TCM: ["clean"], ABS: ["C0035"]}),
    ("no comms w/ abs + airbag. ecm P0562 & U0121 stored",
     {ABS: ["silent"], SRS: ["silent"], ECM: ["P0562 stored", "U0121 stored"]}),
    ("abs n/r, srs n/r, ecm p0562", {ABS: ["silent"], SRS: ["silent"], ECM: ["P0562"]}),
    ("mods not responding: abs, eps. mods w/ codes: ecm P0562, bcm U0121",
     {ABS: ["silent"], EPS: ["silent"], ECM: ["P0562"], BCM: ["U0121"]}),
    ("No communication with the following: EPS, SAS. ABS: C0460.",
     {EPS: ["silent"], "steering angle sensor": ["silent"], ABS: ["C0460"]}),
    ("the engine one has P0562 and the abs one U0100, can't talk to the airbag one",
     {ECM: ["P0562"], ABS: ["U0100"], SRS: ["silent"]}),
    ("the airbag, sorry I meant the abs, has C0110", {ABS: ["C0110"]}),
    ("no comms with radio & nav, bcm has U0184", {RADIO: ["silent"], "navigation": ["silent"], BCM: ["U0184"]}),
    ("I could get into the engine (P0335) and the gearbox (no codes) but not the abs",
     {ECM: ["P0335"], TCM: ["clean"], ABS: ["silent"]}),
    ("engine holding P1000, no answer off the keyless", {ECM: ["P1000"], "keyless entry": ["silent"]}),
    ("Getriebe komme ich nicht rein, Motor wirft P0700", {TCM: ["silent"], ECM: ["P0700"]}),
    ("ok so U0100s in the abs and the dash, P0606 in the engine itself",
     {ABS: ["U0100"], DASH: ["U0100"], ECM: ["P0606"]}),
    ("ABS? dead. SRS? dead. Engine? P0562. Radio? clean.",
     {ABS: ["silent"], SRS: ["silent"], ECM: ["P0562"], RADIO: ["clean"]}),
    ("fault list was: ecm P0562 stored / tcm none / abs C0561 stored / srs no comm",
     {ECM: ["P0562 stored"], TCM: ["clean"], ABS: ["C0561 stored"], SRS: ["silent"]}),
    ("ecm p0335 tcm u0100 abs c0035", {ECM: ["P0335"], TCM: ["U0100"], ABS: ["C0035"]}),
    ("ecm clr tcm clr", {ECM: ["clean"], TCM: ["clean"]}),
    ("engine one clear, gearbox one clear, abs one has C0035", {ECM: ["clean"], TCM: ["clean"], ABS: ["C0035"]}),
    ("abs is showing charlie zero zero three five stored, engine is showing nothing",
     {ABS: ["C0035 stored"], ECM: ["clean"]}),
    ("ich komme nicht ins ABS, Motor bringt U0121", {ABS: ["silent"], ECM: ["U0121"]}),
    ("le moteur sort U0121, l'ABS est muet, l'airbag n'a rien", {ECM: ["U0121"], ABS: ["silent"], SRS: ["clean"]}),
    ("got into abs fine, C0035 and C0045. got into srs fine, nothing. steering no way in",
     {ABS: ["C0035", "C0045"], SRS: ["clean"], EPS: ["silent"]}),
    ("sólo el motor tiene algo, P0335. ABS y airbag limpios", {ECM: ["P0335"], ABS: ["clean"], SRS: ["clean"]}),
    ("neither the abs nor the steering will talk to me, engine has U0121",
     {ABS: ["silent"], EPS: ["silent"], ECM: ["U0121"]}),
])
def test_short_forms_are_read_as_what_they_stand_for(text: str, expected: dict[str, list[str]]) -> None:
    assert modules_of(text) == expected


@pytest.mark.parametrize(("text", "expected"), [
    ("Radio w/ Nav: B1234", ["Radio w/ Nav"]),
    ("ABS + ESP: C0035", ["ABS + ESP"]),
    ("P0562 ECM, U0100 TCM, C0035 ABS", ["ECM", "TCM", "ABS"]),
])
def test_a_name_of_two_stays_one(text: str, expected: list[str]) -> None:
    modules = read_text(text, load()).snapshots[0].modules
    assert [module.printed for module in modules] == expected


def test_one_behind_a_name_that_is_counted_stays() -> None:
    assert modules_of("the door one has B1000, ABS C0035") == {"door one": ["B1000"], ABS: ["C0035"]}


@pytest.mark.parametrize(("text", "expected"), [
    ("ABS U0100 stored. Same for the airbag. Cluster is clean.",
     {ABS: ["U0100 stored"], SRS: ["U0100 stored"], DASH: ["clean"]}),
    ("ECM: P0562. ditto abs", {ECM: ["P0562"], ABS: ["P0562"]}),
    ("The steering has U0415. So does the abs.", {EPS: ["U0415"], ABS: ["U0415"]}),
    ("Scanned engine, abs and airbag. Engine has P0335, the other two are clean.",
     {ECM: ["P0335"], ABS: ["clean"], SRS: ["clean"]}),
    ("Der Motor hat P0562 und das Getriebe genauso. ABS leer.", {ECM: ["P0562"], TCM: ["P0562"], ABS: ["clean"]}),
    ("Do I need to look at the abs? It has C0561.", {ABS: ["C0561"]}),
    ("Engine: P0101. What about the abs? It has C0561.", {ECM: ["P0101"], ABS: ["C0561"]}),
    ("can't get in the gearbox. engine ok though, P0700 stored in it.", {TCM: ["silent"], ECM: ["P0700 stored"]}),
])
def test_what_is_said_of_it_and_the_same_finds_its_module(text: str, expected: dict[str, list[str]]) -> None:
    assert modules_of(text) == expected


@pytest.mark.parametrize("text", [
    "ABS clean. Same for the airbag. ECM P0562",
    "ABS has C0035, no wiring fault. New engine the same",
])
def test_a_code_is_not_said_of_one_more_by_an_answer(text: str) -> None:
    assert sum(len([code for code in held if code[1:].isalnum()]) for held in modules_of(text).values()
               if held[0] not in ("clean", "silent")) == 1


def test_the_other_three_of_two_are_none() -> None:
    found = modules_of("Scanned engine, abs and airbag. Engine has P0335, the other three are clean.")
    assert found == {ECM: ["P0335"]}


@pytest.mark.parametrize(("text", "expected"), [
    ("pcm P0420 pending, abs quiet, srs has B1000 confirmed", {ECM: ["P0420 pending"], SRS: ["B1000 confirmed"]}),
    ("P2122 kam wieder im Motor, ABS bleibt leer", {ECM: ["P2122"], ABS: ["clean"]}),
    ("comms lost w/ radio & nav, bcm shows U0184", {BCM: ["U0184"]}),
    ("engine: P0562, abs: same, airbag: same but also B0100", {ECM: ["P0562"], SRS: ["B0100"]}),
    ("Read engine first - P0562 - then abs - U0100 - then airbag - nothing.",
     {ECM: ["P0562"], ABS: ["U0100"], SRS: ["clean"]}),
    ("no puedo entrar en el airbag, el motor bien, ABS C0035", {SRS: ["silent"], ABS: ["C0035"]}),
    ("The ECM has P0340 and nothing is stored in the TCM.", {ECM: ["P0340"], TCM: ["clean"]}),
    ("engine P0562 stored, everything else U0100 stored",
     {ECM: ["P0562 stored"], "module not stated": ["U0100 stored"]}),
    ("Gateway: U0121 (ABS), U0155 (cluster), U0140 (BCM)", {"gateway": ["U0121", "U0155", "U0140"]}),
    ("U0121 (ABS), U0155 (cluster), P0562 (ECM)", {ABS: ["U0121"], DASH: ["U0155"], ECM: ["P0562"]}),
    ("srs ecu: B0092 current. Rest: fine.", {SRS: ["B0092 current"]}),
    ("EPS wouldn't talk before, talks now and shows C0545. ABS ok",
     {EPS: ["silent"], "module not stated": ["C0545"], ABS: ["clean"]}),
    ("Motor leer, Lenkung weiterhin tot", {ECM: ["clean"], EPS: ["silent"]}),
    ("first the engine empty, steering continuously dead, ABS has C0035",
     {ECM: ["clean"], EPS: ["silent"], ABS: ["C0035"]}),
    ("the box under the seat has B0081 in it, engine P0562", {"box under the seat": ["B0081"], ECM: ["P0562"]}),
])
def test_a_code_goes_to_no_module_that_stands_beside_its_own(text: str, expected: dict[str, list[str]]) -> None:
    assert modules_of(text) == expected


@pytest.mark.parametrize(("text", "name"), [
    ("ABS has C0035 stored. ECM P0562. still no steering", "steering"),
    ("comms lost w/ radio, bcm shows U0184", "radio"),
    ("Gearbox won't come up. ABS has C0035", "Gearbox"),
    ("l'airbag ne dit rien, ABS C0035", "airbag"),
    ("die Lenkung sagt gar nichts, ABS C0035", "Lenkung"),
    ("engine ecu has P0234, abs happy enough", "abs"),
    ("ABS has C0035, TCM too. Radio no answer", "TCM"),
    ("dash has U0100. Wiped the lot, now the dash is clean but the bcm has it back.", "bcm"),
    ("pcm P0420 pending, abs quiet, srs has B1000 confirmed", "abs"),
])
def test_a_module_told_of_in_other_words_is_noticed(text: str, name: str) -> None:
    assert f"{name}: what is said of it is not understood" in notices(text)


@pytest.mark.parametrize("text", [
    "U0121 lost comms with abs, stored. Radio has U0140",
    "BCM has U0140 lost communication with radio, stored. ABS C0035",
    "Customer says the radio is loud. ABS has C0035",
    "ABS has C0035. Will look at the steering tomorrow",
])
def test_a_name_of_which_nothing_is_said_is_not_noticed(text: str) -> None:
    assert "not understood" not in notices(text)


@pytest.mark.parametrize(("text", "expected"), [
    ("the engine doesn't have anything, ABS C0035", {ECM: ["clean"], ABS: ["C0035"]}),
    ("Went into the abs, not a thing in there. ECM P0562", {ABS: ["clean"], ECM: ["P0562"]}),
    ("abs - zip. srs has B0100", {ABS: ["clean"], SRS: ["B0100"]}),
    ("gearbox clear of faults, the airbag is happy, ECM P0562", {TCM: ["clean"], SRS: ["clean"], ECM: ["P0562"]}),
])
def test_no_codes_in_the_words_of_a_workshop(text: str, expected: dict[str, list[str]]) -> None:
    assert modules_of(text) == expected


@pytest.mark.parametrize(("text", "expected"), [
    ("before clear ecm had p2122 stored, airbag dead, no answer from steering\n"
     "after clearing & 5 min run at 14.1: only p2122 came back, airbag still dead, steering talks now, nothing in it",
     ["before-clear | ecm: P2122 stored; airbag: silent; steering: silent",
      "after-run 14.1 V | ecm: P2122; airbag: silent; steering: clean"]),
    ("before clearing: engine p0562, airbag no comms\n"
     "cleared everything, drove 10 mins: engine p2122 only, airbag still no comms",
     ["before-clear | engine: P0562; airbag: silent", "after-run | engine: P2122; airbag: silent"]),
    ("First scan 11.8 volts. dash had U0100, engine P0562.\n"
     "Cleared it. second scan 12.6 volts, dash clean, engine clean",
     ["before-clear 11.8 V | dash: U0100; engine: P0562", "after-clear 12.6 V | dash: clean; engine: clean"]),
    ("Prior to clearing abs had C0040.\nCleared and took it round the block, C0040 came straight back in the abs",
     ["before-clear | abs: C0040", "after-run | abs: C0040"]),
    ("Borré y rodé 10 minutos, volvió P2122 en el motor", ["after-run | motor: P2122"]),
    ("cleared & drove 5 miles, airbag B0012 came straight back", ["after-run | airbag: B0012"]),
    ("cleared it down, ran it for ten minutes and P0420 was back in the engine", ["after-run | engine: P0420"]),
    ("avant : moteur P0401. effacé et roulé 5 km : moteur ok, ABS C0035",
     ["before-clear | moteur: P0401", "after-run | moteur: clean; ABS: C0035"]),
])
def test_a_deed_before_the_first_module_begins_a_scan(text: str, expected: list[str]) -> None:
    assert scans(text) == expected


def test_a_deed_to_come_begins_none() -> None:
    assert scans("ABS has C0040. Will clear it tomorrow, ECM P0562") == [" | ABS: C0040; ECM: P0562"]
    assert scans("Codes cleared: ECM P0562, ABS C0035")[0].startswith(" | ")


@pytest.mark.parametrize(("text", "expected"), [
    ("ABS has C0035 stored. Battery charger 12V was on it. ECM P0562.", ""),
    ("I've got a 14 V charger on so the scan tool shows 13.6 V. dash has U0140", "13.6 V"),
    ("Ladegerät mit 14 V hing dran. Motorsteuergerät: P2122.", ""),
    ("Scan with charger at 13.2 V. ABS has C0035", "13.2 V"),
    ("spec for the charging is 13.8 to 14.8 V. Engine has P0562", ""),
    ("Battery 12.1 V, charger off. ABS has C0035", "12.1 V"),
    ("Supply 13 V charger on\nABS C0035", "13.0 V"),
    ("Charger 14 V, ABS C0035", "14.0 V"),
    ("2x codes in engine P0171 P0174 none in anything else. 12.7v", "12.7 V"),
])
def test_what_a_charger_is_made_for_is_no_supply(text: str, expected: str) -> None:
    assert told(text).split(" | ")[0].strip() == expected


@pytest.mark.parametrize("text", [
    "engine P0130 - no wait that was P0133. gearbox clear of faults.",
    "radio U0184? no. bcm U0140 stored",
])
def test_a_code_taken_back_before_another_is_warned_of(text: str) -> None:
    assert "sounds like a correction" in notices(text)
