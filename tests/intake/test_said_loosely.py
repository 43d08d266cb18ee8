"""Facts told with a slip of the pen, in short or the long way round. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import modules_of


@pytest.mark.parametrize(
    "silent",
    [
        "ABS\nUnable to establish communication",
        "ABS - Could not establish communication",
        "ABS: wasn't able to establish a connection",
        # Without its apostrophe.
        "ABS couldnt be reached",
        "Couldnt reach ABS",
        "ABS doesnt answer",
        "ABS wasnt reachable",
        "ABS hasnt answered",
    ],
)
def test_no_answer_is_told(silent: str) -> None:
    assert modules_of(f"Engine P0562\n{silent}") == {"engine control": ["P0562"], "anti-lock brakes": ["silent"]}
