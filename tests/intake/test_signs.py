"""Signs of lines: a quick check that no text may fail in which the pattern, or the pass, behind it finds anything."""

from __future__ import annotations

import gc
import random
import re
from collections.abc import Callable, Sequence
from functools import _lru_cache_wrapper
from typing import TypeAlias

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pastes import tables

from triage.intake.codes import ownnumbers
from triage.intake.entries import corrections
from triage.intake.naming.names import Names
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, lines
from triage.intake.plain.phrases import word_set
from triage.intake.plain.remember import _Remembered
from triage.intake.read import Reading, read_text
from triage.intake.said import counts, doubts, longago, outside, phases
from triage.intake.tidying import loosely, speechfillers, spokenmarks
from triage.intake.words.phase_ways import PHASE_SIGNS, PHASE_WORDS

#: By the pattern: its quick check, and words and parts of words of which its texts consist.
CHECKS = {
    "phases": (PHASE_SIGNS, PHASE_WORDS, (
        "aft b4 post pre press prefill lect prima primary tras ante na nach vor danach bef prior ehe initial final as "
        "found received arrived asxfound apres avant despues scan rescan clear closing read arriv ankunft eingang "
        "ausgang ausles erste losch follow once luego erase noch repair it item when again erneut wieder relu relect "
        "leid with a the new fixed mended repar instandg une fois una vez volta nueva lectura nouvelle lecture dopo "
        "voor gewist cancellat all'arrivo inizial aankomst binnenkomst eindscan shaft electronic e p0562 12.1")),
    "supply from outside": (outside._SIGNS, outside._WORDS, (
        "charger jump donor donneur donante second other vehicle car lead spender starthilfe fremd cable cables de "
        "pinces boost arranca pack support maintain tender condition power supply psu stabil bench lade stutz netzteil "
        "alimenta fuente nothing outside extern extra own batt battery only engine p0562 12.1 v")),
    "counts": (counts.COUNT, counts._SIGNS, (
        "2 3 codes code defauts fehlercodes dtc dtcs faults flts errors errs fehler eintrage averias fallos codigos "
        "errores ecm x stored total of - : ( )")),
    "counts behind": (counts.COUNT_AFTER, counts._SIGNS, (
        "2 3 codes: code dtcs: faults= fehlercodes: fehler: defauts: codigos: averias: fallos: number anzahl ecm (")),
    "years ago": (longago._LONG_AGO, longago._SIGNS, (
        "last previous year years summer month months ago back two a some owner keeper user former first letztes jahr "
        "vor jahren monat langer zeit vorbesitzer l'an dernier passe l'annee il y trois ans an mois ancien "
        "proprietaire ano mes pasado hace dos anos antiguo dueno in 1998 2019 since p0562 abs scan")),
    "doubts": (doubts._DOUBT, doubts._SIGNS, (
        "i forget forgot can't remember say tell could n't don't know recall dunno no idea not sure certain unsure "
        "maybe perhaps possibly might may have think reckon guess believe presumably probably or weiss ich nicht "
        "keine ahnung vielleicht eventuell evtl vermutlich glaube sicher oder auch vergessen sais pas souviens plus "
        "peut etre oublie j'ai crois ou non sans doute acuerdo me recuerdo lo se quiza "
        "tal vez a mejor creo que estoy seguro o cleared "
        "if it was codes erased whether")),
    "corrections": (corrections._TAKEN_BACK, corrections._SIGNS, (
        "no wait sorry actually, scratch that correction oops whoops i mean nein, warte moment falsch, das ist "
        "korrektur quatsch non, pardon c'est je veux dire perdon, espera es quiero decir digo p0562 abs stored")),
}


@pytest.mark.parametrize("name", CHECKS)
def test_no_text_that_the_pattern_matches_lacks_a_word_of_it(name: str) -> None:
    pattern, sign, text = CHECKS[name]
    pieces = sorted(word_set(text))
    rng = random.Random(3)
    found = 0
    for _ in range(12000):
        line = "".join(rng.choice(pieces) + rng.choice((" ", " ", " ", " ", "-", ".", "", "\u00e9")) for _ in range(4))
        if pattern.search(line) is not None:
            found += 1
            assert signs.of(line) & sign, line
    assert found > 200


def test_no_deed_stands_in_a_text_without_a_sign_of_deeds() -> None:
    pieces = sorted(word_set(
        "cleared erased codes all the out raus cycle key off test drove driven contact battery unplugged jump charger "
        "lent programmed learned replaced new module fuse neue sicherung eingebaut getauscht batterie geloscht effaces "
        "borrado remplace monte pose installe montado instalo sustituido cambiado put in changed reset wiped abs"))
    rng, found = random.Random(8), 0
    for _ in range(6000):
        low = " ".join(rng.choice(pieces) for _ in range(5))
        if any(pattern.search(low) for _, _, pattern in phases._DEEDS):
            found += 1
            assert signs.of(low) & phases._DEED_SIGNS, low
    assert found > 200


def test_a_text_without_a_sign_is_told_by_its_words() -> None:
    assert not signs.of("p0340 camshaft electronic pressure, primary circuit low") & PHASE_WORDS
    sign = signs.of_pattern("^ab|c$")
    assert [bool(signs.of(text) & sign) for text in ("x abx", "xc ab", "xab cx", "", "  ab ")] == [
        True, True, False, False, True]


def test_a_sign_of_a_text_sees_marks_and_words_together() -> None:
    sign = signs.of_text(r"\.[a-z]")
    assert [bool(signs.of(text) & sign) for text in ("x.y", "x. y", "x y.", "  x.y ")] == [True, False, False, True]


def test_the_lines_as_one_text_hold_what_one_of_them_holds() -> None:
    assert signs.whole(lines("Ab\n\nC d")) == "ab\n\nc d"


def test_places_are_those_of_the_lines_that_bear_one_of_several_signs() -> None:
    one, two = signs.of_words({"pump"}.__contains__), signs.of_parts("!")
    told = lines("Pump\nvalve\nvalve!\npumps")
    assert [signs.places(told, sign) for sign in (one, two, one | two)] == [[0], [2], [0, 2]]


def test_no_maker_s_own_number_lacks_its_sign() -> None:
    pattern, rng, found = re.compile(ownnumbers.TOKEN), random.Random(4), 0
    pieces = ("pump", "-", ".", " ", " ", "P0562", "C0A4F", "x", *"ABKMPU", *"0123459", "20417", "214", "9A1")
    for _ in range(20000):
        text = "".join(rng.choice(pieces) for _ in range(rng.randint(2, 7)))
        for match in pattern.finditer(text):
            if ownnumbers.found(match.start(), match[0]) is not None and text[match.start() - 1 : match.start()] in (
                    "", " ", "-", "."):
                found += 1
                assert signs.of(text.lower()) & ownnumbers.SIGN, text
    assert found > 500


#: Words of the lines that passes over what people say change, and of their signs.
SAID = """
the ABS|ECM|engine|radio|Bodymodule|bodyunit|says|coughed up|definitely|has|U0100|U0100s|P0562's|w/|w/o|b4|
clear|n/r|mods|
not|one|two|got into|fine|clr|'s|got|still|?|dead|following|:|ABS, radio|sorry|i mean|make that|+|no|fitted|this van|
has no|it has no|without|then|next|next up|moving on|right then|right so|okay|ok|so|well|also|weiter|ensuite|,|.|-|&|
let's see|here we go|alors|bueno|on to the next|after clear|before|did not answer|shows|clean|none""".replace(
    "\n", "").split("|")


@pytest.mark.parametrize("told", [
    lambda found, names: loosely.written_out(found, names),
    lambda found, names: speechfillers.left_out(found),
    lambda found, names: spokenmarks.written(found, names.find),
])
def test_no_line_without_its_sign_would_be_changed(
    told: Callable[[list[Line], Names], Sequence[Line]], monkeypatch: pytest.MonkeyPatch
) -> None:
    rng, names = random.Random(6), Names(tables())
    text = "\n".join(" ".join(rng.choice(SAID) for _ in range(rng.randint(2, 7))) for _ in range(4000))
    signed = [line.text for line in told(lines(text), names)]
    monkeypatch.setattr(signs, "places", lambda found, sign: list(range(len(found))))
    assert signed == [line.text for line in told(lines(text), names)]
    assert signed != text.split("\n")


def test_a_word_is_asked_for_its_signs_once() -> None:
    asked: list[str] = []

    def tells(word: str) -> bool:
        asked.append(word)
        return "ab" in word

    sign = signs.of_words(tells)
    assert [bool(signs.of(text) & sign) for text in ("x y", "y x", "y abc", "y abc")] == [False, False, True, True]
    assert asked == ["x", "y", "abc"]


def test_a_sign_that_comes_later_is_seen_in_texts_that_were_asked_for_before() -> None:
    signs.of("quite new")
    one, two = signs.of_words({"new"}.__contains__), signs.of_parts("te n")
    assert [bool(signs.of("quite new") & sign) for sign in (one, two)] == [True, True]
    assert [bool(signs.of("quiet, new") & sign) for sign in (one, two)] == [True, False]


Kept: TypeAlias = "_Remembered[object] | _lru_cache_wrapper[object]"
#: What passes look for, so that a line of the texts below may bear any sign, with what makes a scan of it.
PIECES = """
2nd scan ECM: P0571|scan 2 ABS P0118|2. Auslesung Motor: P0571|
EPS not calibrated? shows C0051-54|zeigt P0118|it has P0118|lamp on.|
P0562|C0035-16|U0100|u0140|B1000|P05 62|p 0 1 1 8|U 01 00|P05-62|2AAF|6214|SPN 168 FMI 4|ABSC0035|P0562stored|
ABS|ECM|engine|radio|gearbox|brakes|test drive ok|road test|Mirror and wiper control|
seat & mirror module|Battery charger 12V|ECU|, as is the|  ?? ask|)  note: wet|ABS:  -> wet|
stored|stord|pending|curent|hst|active|not present|(stored)|[S]|S = stored|NR = no response|no response|nocodes|
notpresent|no codes|none|ok|pendingDTC=0|confirmed: 1|test failed: 1|C zero zero five one|U zero three hundred|
P oh three|full stop|period|and so is the|nor does the|neither is the|@|total 14|modules scanned: 3|2 silent|
14 modules|Note:|customer says|last year|another garage cleared|b4|aft|before clear|after clear|After clear:|
Scan 2|first scan|as found|cleared all|came back with|battery 11.4 V|11.4|12 V|(11.2 V)|at 9.4 V|1 of 3|2/5|
1 von 2|SW 0412|HW n/a|part no. 51-P0620-A|left column:|right:|Fault 1 of 3|code:|Module:|Status:|has|in the|
and the|with|the|did not answer.|In the radio there are|no, wait|n0 resp0nse|sotred|on charger|jump pack|
engine running|no respons|dosnt answer|befor|cleer|[x] Pending|[ ] Stored|Present? No|
Memory: stored|Where: radio|Source = ABS|Now: present|Module ->|Code ->|->|Moving on,|<-|###|
P0562 and U0100, the first active, the other stored.|der erste aktuell|volví a leer|
UOOOl-88|u o140:87|U 0131|kx132 - pump|, showing as current|they are all stored.|
Scan 1, 12 May. ABS U0100.|Alternator belt ok.|
PCM--processor|history.ABS=|control unit 0x70C|system|actuels :|labs ne|not fited|skiped|#1|
ok next|then|no radio fitted|nthing in the|ABS,ECM and|stored,not current,|shows|& U0140|
neither P0300 nor|is active|thinks the radio is gone|isn't happy,|in everything -|thats active too,|
All of these are stored.|every code here is pending.|Couldn't get the radio to answer.|On scan 2 the tool gave:|
cleard|scaned|asleep|fuse ok|plug reseated, ok|power good,|cleared, ABS fine|
all clean except|, rest clean|same codes as before|radio 0|ABS 0,|
er,|Und|Luego|also,|next|. No answer:|no codes: radio and dash|hay|steht|in Fnord.|Fnord box has|
<stored>|<not|active>|(failed once,|not confirmed)|[state: active]|
KA-12|anstehend|passiv|NT 55|EL-204|3 codes|codes (2)|-|:|;|,|.|/|&|(|)|?|  |    |""".replace("\n", "").split("|")


@pytest.fixture(scope="module")
def kept() -> list[Kept]:
    """What is kept of the lines read before, which was found out with their signs; not what is kept of tables."""
    read_text("ECM: P0562", tables())
    found: list[Kept] = [each for each in gc.get_objects() if isinstance(each, _Remembered)]
    found += [each for each in gc.get_objects() if isinstance(each, _lru_cache_wrapper)
              and str(each.__module__).startswith("triage.intake") and (each.cache_parameters()["maxsize"] or 0) > 4000]
    return found


#: Lines that passes change as they stand.
LINES = """
Mirror and wiper control: P0562|Seat & mirror module has U0100|Battery charger 12V:|ECM: P0562 stord|
ABS clean period|ABS: c zero zero four zero stored|no codes @ gearbox|
The airbag module is clean and so is the steering module.|TCM P22 63 active|SRS: nocodes|ABSC0035 stored|
Control units: 20   Codes: 15|After clear: 14 modules, 2 silent|Note: another garage cleared P0300 last year|
P0420 was fixed two years ago|Bodymodule|flickers after start|
b4 11.7|aft: ECM ok|Engine (1 of 3): P0562|ABS (2 of 3): P0118|Radio HW 88-10 SW unknown|
ABS (HW 2201, SW n/a): no codes|Scan 2 - after clear, 12.8 V: ECM ok|Battery 11.8 V, ECM P0562|
All cleared (ABS still dead), booster on|Cleared it, ran it, came back with C0040|ECM (before clear): P0562|
Left: before clear. Right: after clear|    Left   Right|ECM   P0562   -|SW 0412 B1325|Part number: 51-P0620-A|
Fault 1 of 3|P0562 low|  Module: ABS|The cluster has U0100 and the brakes did|
not answer. In the radio there are no codes.|n0 resp0nse|ECM  P0562 (stored), U0100|BCM   P0118   stored|
After clear no codes in the ECM|SW 0412 77 B1325|cal 51 4412 B1325""".replace("\n", "").split("|")

#: The same of lines that stand together.
STRETCHES = [
    "b4 11.7\nECM P0562\naft 12.8\nECM ok",
    "Engine (1 of 3) - 2 codes\n  P0562\n  P0118\nABS (2 of 3): P0563",
    "The cluster has U0100 and the brakes did\nnot answer. In the radio there are no\ncodes.",
    "Left: before clear. Right: after clear, 12.8 V\n\n    Left   Right\nECM   P0562   -",
    "B1000/44, ecu  internal, radio\nB19F1, signal, brakes\nC0760, signal, brakes\nP2135, pedal, brakes",
    "Fault 1 of 2\nP0562 low\n  Module: ABS\nFault 2 of 2\nU0100 lost\n  in: BCM",
]


def _forget(kept: list[Kept]) -> None:
    for each in kept:
        each.clear() if isinstance(each, _Remembered) else each.cache_clear()


def _read_anew(text: str, kept: list[Kept]) -> Reading:
    _forget(kept)
    return read_text(text, tables())


@settings(max_examples=150, deadline=None)
@given(lines=st.lists(st.one_of(
    st.sampled_from(LINES + STRETCHES), st.lists(st.sampled_from(PIECES), min_size=1, max_size=9).map(" ".join)
), min_size=1, max_size=9))
def test_a_text_is_read_as_if_every_line_bore_every_sign(kept: list[Kept], lines: list[str]) -> None:
    text = "\n".join(lines)
    told = _read_anew(text, kept)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(signs, "of", lambda low: -1)
        looked_at = _read_anew(text, kept)
    _forget(kept)
    assert told == looked_at
