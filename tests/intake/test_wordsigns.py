"""Signs that words bear: a quick check that no text may fail which the pattern behind it matches."""

from __future__ import annotations

import random
import re

import pytest

from triage.intake.entries import corrections
from triage.intake.plain.phrases import word_set
from triage.intake.plain.wordsigns import WordSigns
from triage.intake.said import counts, outside
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
    "corrections": (corrections._TAKEN_BACK, corrections._SIGNS, (
        "no wait sorry actually, scratch that correction oops whoops i mean nein, warte moment falsch, das ist "
        "korrektur quatsch non, pardon c'est je veux dire perdon, espera es quiero decir digo p0562 abs stored")),
}


@pytest.mark.parametrize("name", CHECKS)
def test_no_text_that_the_pattern_matches_lacks_a_word_of_it(name: str) -> None:
    pattern, signs, text = CHECKS[name]
    pieces = sorted(word_set(text))
    rng = random.Random(3)
    found = 0
    for _ in range(12000):
        line = "".join(rng.choice(pieces) + rng.choice((" ", " ", " ", " ", "-", ".", "", "\u00e9")) for _ in range(4))
        if pattern.search(line) is not None:
            found += 1
            assert signs.stand_in(line), line
    assert found > 200


def test_a_text_without_a_sign_is_told_by_its_words() -> None:
    assert not PHASE_WORDS.stand_in("p0340 camshaft electronic pressure, primary circuit low")
    signs = WordSigns("^ab|c$")
    assert [signs.stand_in(text) for text in ("x abx", "xc ab", "xab cx", "")] == [True, True, False, False]


def test_the_signs_of_a_pattern_are_asked_for_once_a_word(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []

    class Counting:
        def search(self, word: str) -> re.Match[str] | None:
            asked.append(word)
            return re.search("ab", word)

    signs = WordSigns("ab")
    monkeypatch.setattr(signs, "_sign", Counting())
    assert [signs.stand_in(text) for text in ("x y", "y x", "y abc")] == [False, False, True]
    assert asked == ["x", "y", "abc"]
