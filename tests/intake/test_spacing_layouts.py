"""A code split or glued, an answer glued, a slip in a status, in every layout: the text reads as without it."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

import pytest
from paste_held_out import HELD_OUT
from paste_layouts import LAYOUTS
from paste_noise import make_paste
from pastes import tables

from triage.intake.read import read_text

EVERY = {**LAYOUTS, **HELD_OUT}
CODE = re.compile(r"(?<![\w-])[PCBU][0-3][0-9A-F]{2}[0-9](?![\w])")
STATUS = re.compile(r"(?<![a-z])(?:stored|active|current|pending|confirmed)(?![a-z])")
ANSWER = re.compile(r"(?<![a-z])no (?=(?:codes|faults|response|dtcs)(?![a-z]))")
LINK = re.compile(r"(?<=[a-z]) (?=[PCBU][0-3][0-9A-F]{3}(?!\w))")


def one_of(rng: random.Random, pattern: re.Pattern[str], text: str) -> re.Match[str] | None:
    """A place of the text where the pattern stands."""
    found = list(pattern.finditer(text))
    return rng.choice(found) if found else None


def split(rng: random.Random, text: str) -> str:
    """A space inside a code, behind its third or fourth character."""
    match = one_of(rng, CODE, text)
    at = match.start() + rng.choice((3, 4)) if match is not None else 0
    return f"{text[:at]} {text[at:]}" if at else text


def glue(rng: random.Random, text: str) -> str:
    """No space between a code and the words before it."""
    match = one_of(rng, LINK, text)
    return text if match is None else text[: match.start()] + text[match.end() :]


def slip(rng: random.Random, text: str) -> str:
    """A letter left out of the status in a line with a code before it."""
    match = one_of(rng, STATUS, text)
    if match is None or CODE.search(text, text.rfind("\n", 0, match.start()) + 1, match.start()) is None:
        return text
    at = rng.randrange(match.start() + 2, match.end() - 1)
    return text[:at] + text[at + 1 :]


def answer(rng: random.Random, text: str) -> str:
    """No space inside an answer."""
    match = one_of(rng, ANSWER, text)
    return text if match is None else text[: match.end() - 1] + text[match.end() :]


def reading(text: str) -> list[tuple[object, ...]]:
    """What was read of the modules, without the text of their codes."""
    return [
        (scan.phase, module.module, module.responds,
         [(code.code, code.failure_type, code.status) for code in module.codes])
        for scan in read_text(text, tables()).snapshots
        for module in scan.modules
    ]


@pytest.mark.parametrize("mutation", [split, glue, slip, answer])
@pytest.mark.parametrize("layout", sorted(EVERY))
def test_a_text_with_one_slip_in_its_spacing_reads_as_before(
    layout: str, mutation: Callable[[random.Random, str], str]
) -> None:
    for seed in (5001, 5004, 5007):
        text = make_paste(seed, EVERY, layout=layout, noise=[]).text
        mutated = mutation(random.Random(seed), text)
        if mutated != text:
            assert reading(mutated) == reading(text), mutated
