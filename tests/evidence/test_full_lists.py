"""A module at the limit of its list; that modules keep a limited number of codes is common practice. All invented."""

from __future__ import annotations

from made_sessions import FLAT, HELD, RUNS, job, tables, van

from triage.assess import Worked
from triage.model.casebook import NOT_READABLE, NOT_SEEN

CODES = [f"B1{number:03X}" for number in range(0x100, 0x10C)]


def worked(*counts: tuple[int, int]) -> Worked:
    """Body control listing the codes from one place to another in each scan."""
    states = (("before-clear", FLAT), ("after-clear", HELD), ("after-run", RUNS))
    return Worked([job(*(van(phase, {"body control": CODES[first:last]}, **state)
                         for (phase, state), (first, last) in zip(states, counts, strict=False)))], tables())


def sight(work: Worked, code: str, column: int) -> int:
    return int(work.book.seen[work.book.code.index(code), column])


def test_the_same_number_of_other_codes_is_a_full_list() -> None:
    work = worked((0, 8), (4, 12), (4, 6))
    assert sight(work, CODES[0], 1) == NOT_READABLE
    assert sight(work, CODES[9], 0) == NOT_READABLE
    assert sight(work, CODES[9], 2) == NOT_SEEN
    assert any("its list may be full" in notice.message for notice in work.book.notices[0])


def test_shorter_lists_longer_ones_and_lists_that_stay_are_not_full() -> None:
    for counts in (((0, 7), (4, 11)), ((0, 8), (4, 12), (2, 12)), ((0, 8), (0, 8)), ((0, 9), (1, 9))):
        work = worked(*counts)
        assert not (work.book.seen == NOT_READABLE).any()
        assert not work.book.notices[0] or all("full" not in notice.message for notice in work.book.notices[0])
