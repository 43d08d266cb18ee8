"""What the reader asks first, so that a long paste takes no longer than it must: quick ways that tell the same."""

from __future__ import annotations

import random
from collections.abc import Callable

import pytest
from rapidfuzz import process
from rapidfuzz.distance import OSA

from triage.intake.plain.characters import _UNACCENTED, _unaccented
from triage.intake.plain.phrases import Phrasebook
from triage.intake.plain.slips import Choices, nearest
from triage.intake.said import counts, refvolts

WORDS = ("stored", "pending", "store", "current", "currently", "history", "gespeichert", "aktiv", "active", "passive")


@pytest.mark.parametrize("most", [1, 2])
def test_words_by_their_length_give_the_same_nearest_one(most: int) -> None:
    rng, choices = random.Random(1), Choices(WORDS)
    for _ in range(3000):
        word = list(rng.choice(WORDS))
        for _ in range(rng.randint(0, 3)):
            word[rng.randrange(len(word))] = rng.choice(("", "a", "e", "st"))
        text = "".join(word)
        best = process.extractOne(text, WORDS, scorer=OSA.distance, score_cutoff=most)
        assert nearest(text, choices, most) == (None if best is None else best[0]), text


@pytest.mark.parametrize(("low", "count"), [
    ("ecm" + " " * 300 + "3 codes", (3, 3, 310)),
    ("ecm = 3 codes", (3, 3, 13)),
    ("ecm: total of = 12 faults stored", (12, 3, 32)),
    ("ecm -- found: 2 dtcs", (2, 3, 20)),
])
def test_a_count_begins_with_what_parts_it_from_the_name(low: str, count: tuple[int, int, int]) -> None:
    assert counts.stated_count(low) == count


def test_letters_with_accents_are_written_as_the_table_says() -> None:
    text = "".join(map(chr, range(0x20, 0x300))) + "\u2013\u0416\u4e2d"
    assert _unaccented(text) == text.translate(_UNACCENTED)


def test_a_pattern_of_phrases_is_tried_by_its_second_word() -> None:
    book = Phrasebook({"silent": "no answer"}, {
        "clean": [("no | not any", "|stored|more", "codes | faults"), ("all", "ok | good")],
        "silent": [("dead", "|right", "now")],
    })
    told = {"no codes": "clean", "no stored faults": "clean", "not any more codes": "clean", "all good": "clean",
            "no answer": "silent", "dead now": "silent", "dead right now": "silent"}
    assert {low: book.find(low)[0].meaning for low in told} == told
    assert [book.find(low) for low in ("no key", "all stored", "no", "dead right")] == [()] * 4


def test_what_was_read_above_is_asked_for_where_the_line_leaves_it_open() -> None:
    asked: list[str] = []

    def told(low: str) -> Callable[[], bool]:
        return lambda: not asked.append(low)

    for low in ("sensor 3 supply: 4.9 v", "unplugged the map sensor: 5.0 v"):
        refvolts.find(low, low, told(low))
    assert asked == ["unplugged the map sensor: 5.0 v"]
