"""Threads of messages, each with its time and its sender before it in one line: "Ann, 14:02: ABS: C0035", "14:03 Ben:
ok thanks". The sender is left out, and so is the "ok" with which another person takes note.

>>> from triage.intake.plain.characters import lines
>>> text = "Ann, 14:02: after the clear\\nAnn, 14:03: ABS: C0035\\nBen, 14:04: ok thanks\\nAnn, 14:05: Radio: no codes"
>>> [line.text for line in told(lines(text), {"ABS", "Radio"}.__contains__)]
['14:02 after the clear', '14:03 ABS: C0035', '14:04 thanks', '14:05 Radio: no codes']
>>> log = "14:02 ABS: C0035\\n14:03 Radio: no codes\\n14:04 ECM: P0562"
>>> [line.text for line in told(lines(log), {"ABS", "Radio", "ECM"}.__contains__)]
['14:02 ABS: C0035', '14:03 Radio: no codes', '14:04 ECM: P0562']
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Sequence

from triage.intake.plain.characters import Line, has_digit, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import small

_CLOCK = r"(?P<clock>[0-2]?[0-9][:h.][0-5][0-9](?::[0-5][0-9])?)"
_NAME = r"(?P<name>[^\W\d_](?:[^\W\d_]|[.' -](?=[^\W\d_])){0,22}\.?)"
#: The time before the sender, and behind it.
_FORMS = (
    lazily(rf"\s*[\[(]?{_CLOCK}[\])]?[ ,-]{{1,3}}{_NAME}\s?:\s+(?=\S)"),
    lazily(rf"\s*{_NAME},?\s[\[(]?{_CLOCK}[\])]?\s?:\s+(?=\S)"),
    lazily(rf"\s*[\[(]{_NAME},? {_CLOCK}[\])]\s?:?\s+(?=\S)"),
)
#: What a message takes note with, and no more of it than a short line.
_NOTED = lazily(r"(?:ok(?:ay)?|k)(?![a-z:])[\s,.!]*(?=(?P<rest>[^:;/]{0,60})$)", re.IGNORECASE)
#: A word with digits in it may be a code.
_CODED = lazily(r"[0-9]{2}")
_SPLIT = lazily(r"\s?[:=>]|\s-+\s")
_CODE = lazily(r"[pcbu][0-3o][0-9a-fo]{3}|spn\s?[0-9]")
_FEWEST, _MOST_SENDERS, _LONG, _FEWEST_SAID = 3, 5, 6, 2


def told(
    found: list[Line], is_name: Callable[[str], bool],
    find: Callable[[str], Sequence[tuple[int, int, bool]]] = lambda low: (),
) -> list[Line]:
    """The lines of a thread, each with its time alone before it. ``is_name``: names of modules; ``find``: those in
    running text. Linear."""
    timed = [at for at, line in enumerate(found) if has_digit(line.text[:32])]
    for form in _FORMS:
        heads = {at: match for at in timed if (match := form.match(found[at].text)) is not None}
        senders = Counter(match["name"] for match in heads.values())
        if max(senders.values(), default=0) < _FEWEST or len(senders) > _MOST_SENDERS or any(map(is_name, senders)):
            continue
        # Who tells of modules names one right behind the sender, or several in sentences, or writes as people do.
        said = [found[at].text[match.end() :] for at, match in heads.items()]
        if not (any(is_name(_SPLIT.split(text, maxsplit=1)[0].strip()) for text in said) or _talk(said)
                or sum(_speaks_of_one(small(text), find) for text in said) >= _FEWEST_SAID):
            continue
        kept = list(found)
        for at, match in heads.items():
            kept[at] = _plain(found[at], match)
        return kept
    return found


def _speaks_of_one(low: str, find: Callable[[str], Sequence[tuple[int, int, bool]]]) -> bool:
    """Whether a message names a module that is none of the description of a code: no code stands before it."""
    named = find(low)
    return bool(named) and _CODED.search(low[: named[0][0]]) is None


def _talk(said: list[str]) -> bool:
    """Whether messages are longer than entries of modules and none is one: a code or an answer right behind a name."""
    return any(len(text.split()) >= _LONG for text in said) and not any(
        _CODE.match(low := small(text).strip()) or answer_of_cell(low) is not None for text in said)


def _plain(line: Line, match: re.Match[str]) -> Line:
    """A line with the time of its message alone before it, and without an "ok" that only takes note."""
    noted = _NOTED.match(line.text, match.end())
    end = noted.end() if noted is not None and (noted["rest"] or match["name"]) else match.end()
    return reworded(line, 0, end, f"{match['clock']} ")


__all__ = ["told"]
