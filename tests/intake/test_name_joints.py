"""Names with "and", a stroke or the word for a module in them. Invented texts."""

from __future__ import annotations

import pytest

from tests.intake.reads import printed

_JOINED = [
    ("ABS / stability control | C0051 | stored | Steering wheel position sensor\n", "ABS / stability control: C0051"),
    ("Access and start (IMMO) -> fault free\nABS and TCM -> fault free\n",
     "Access and start (IMMO): clean; ABS: clean; TCM: clean"),
    ("No answer: Access and start and ABS\n", "Access and start: silent; ABS: silent"),
]


@pytest.mark.parametrize(("text", "read"), _JOINED)
def test_a_name_with_and_or_a_stroke_in_it_is_one(text: str, read: str) -> None:
    assert printed(text) == read


def test_the_word_for_a_module_is_part_of_a_name_that_is_printed_with_it() -> None:
    assert printed("P0087: Module pompe à carburant (en attente)") == "Module pompe à carburant: P0087"
    assert printed("Module pompe à carburant: aucun défaut\nModule ABS : P0087\n") == (
        "Module pompe à carburant: clean; ABS: P0087")
