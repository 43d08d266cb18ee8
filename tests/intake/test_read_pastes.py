"""Random scans in many layouts and kinds of sloppiness are read back; layouts the reader was never steered by too."""

from __future__ import annotations

import pytest
from paste_held_out import HELD_OUT
from paste_layouts import LAYOUTS
from paste_noise import NOISES, make_paste
from pastes import Score, score, tables

from triage.intake.read import read_bytes

EVERY = {**LAYOUTS, **HELD_OUT}


def run(seeds: range, layout: str, noise: list[str] | None = None) -> Score:
    total = Score()
    for seed in seeds:
        paste = make_paste(seed, EVERY, layout=layout, noise=noise)
        total.merge(score(paste, read_bytes(paste.text.encode(), tables())))
    return total


@pytest.mark.parametrize("layout", sorted(EVERY))
def test_a_tidy_layout_is_read_back(layout: str) -> None:
    found = run(range(1000, 1008), layout, noise=[])
    assert found.f1("code") >= 0.98
    assert found.f1("code+status") >= 0.97
    assert found.f1("silent") >= 0.97
    assert found.recall("volts") >= 0.97


def test_the_whole_reaches_what_a_technician_needs() -> None:
    """A third of the pastes are sloppy. Targets: the project's own choice."""
    total = Score()
    for layout in sorted(EVERY):
        total.merge(run(range(2000, 2008), layout))
    assert total.recall("code") >= 0.995
    assert total.precision("code") >= 0.995
    assert total.f1("code+status") >= 0.99
    assert total.f1("silent") >= 0.99
    assert total.f1("volts") >= 0.99
    assert total.recall("phase") >= 0.99
    assert total.recall("at") >= 0.98


@pytest.mark.parametrize("noise", sorted(NOISES))
def test_each_kind_of_sloppiness_alone_does_little_harm(noise: str) -> None:
    total = Score()
    for layout in ("headings", "one line", "table", "keys and values", "colon lists"):
        total.merge(run(range(3000, 3003), layout, noise=[noise]))
    assert total.f1("code") >= 0.97
    assert total.f1("silent") >= 0.95
