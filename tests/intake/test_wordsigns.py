"""The signs of phases by words: a quick check that no text may fail which the pattern for all of it matches."""

from __future__ import annotations

import random

import pytest

from triage.intake.plain.phrases import word_set
from triage.intake.plain.wordsigns import WordSigns
from triage.intake.words.phase_ways import PHASE_SIGNS, PHASE_WORDS

PIECES = sorted(word_set(
    "aft b4 post pre press prefill lect prima primary tras ante na nach vor danach bef prior ehe initial final as "
    "found received arrived asxfound apres avant despues scan rescan clear closing read arriv ankunft eingang "
    "ausgang ausles erste losch follow once luego erase noch repair it item when again erneut wieder relu relect "
    "leid with a the new fixed mended repar instandg une fois una vez volta nueva lectura nouvelle lecture dopo "
    "voor gewist cancellat all'arrivo inizial aankomst binnenkomst eindscan shaft electronic e p0562 12.1"
))


@pytest.mark.parametrize("seed", range(40))
def test_no_text_with_a_sign_lacks_its_word(seed: int) -> None:
    rng = random.Random(seed)
    found = 0
    for _ in range(400):
        text = "".join(rng.choice(PIECES) + rng.choice((" ", " ", " ", "-", ".", "", "\u00e9")) for _ in range(4))
        if PHASE_SIGNS.search(text) is not None:
            found += 1
            assert PHASE_WORDS.stand_in(text), text
    assert found > 100


def test_a_text_without_a_sign_is_told_by_its_words() -> None:
    assert not PHASE_WORDS.stand_in("p0340 camshaft electronic pressure, primary circuit low")
    signs = WordSigns("^ab|c$")
    assert [signs.stand_in(text) for text in ("x abx", "xc ab", "xab cx", "")] == [True, True, False, False]
