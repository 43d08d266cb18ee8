"""Threads of messages, each with its time and its sender before it in one line ("Ann, 14:02: ABS: C0035", "14:03 Ben:
ok thanks") or in a line above it ("Ann, [03.05.24 14:02]"). The sender is left out, and so is the "ok" with which
another person takes note.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> text = "Ann, 14:02: after the clear\\nAnn, 14:03: ABS: C0035\\nBen, 14:04: ok thanks\\nAnn, 14:05: Radio: no codes"
>>> [line.text for line in told(lines(text), names)]
['after the clear', 'ABS: C0035', 'Radio: no codes']
>>> text = "Ann [3.5.24 14:02]\\nABS: C0035\\nAnn [3.5.24 14:04]\\nRadio: no codes\\nAnn [3.5.24 14:04]\\n11.4 V"
>>> [line.text for line in told(lines(text), names)]
['', 'ABS: C0035', 'Radio: no codes', '11.4 V']
>>> log = "14:02 ABS: C0035\\n14:03 Radio: no codes\\n14:04 ECM: P0562"
>>> [line.text for line in told(lines(log), names)]
['14:02 ABS: C0035', '14:03 Radio: no codes', '14:04 ECM: P0562']
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise

from triage.intake.naming.heads import role_of
from triage.intake.naming.names import Names
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import complaints, phases
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.near import small
from triage.intake.tidying import logs, senders
from triage.intake.words.phase_ways import PHASE_WORDS
from triage.intake.words.scan_words import counts_scans
from triage.intake.words.volt_words import LABEL

_CLOCK = r"(?P<clock>[0-2]?[0-9][:h.][0-5][0-9](?::[0-5][0-9])?)"
#: Somebody, by a name ("Ann", "Workshop 2", "Ben (night)") or the number of a telephone.
_NAME = (
    r"(?:~\s?)?(?P<name>[^\W\d_](?:[^\W\d_]|[.' -](?=[^\W\d_])){0,22}\.?"
    r"(?:\s(?:[0-9]{1,2}(?![0-9]|[:.][0-9])|\([^\W\d_]{1,12}\)))?|"
    r"\+[0-9](?:[0-9]|[ ()-]{1,2}(?=[0-9])){7,16})"
)
#: A time with the day, or with the half of it.
_DAY = (
    r"(?:(?:[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{1,4}|[0-9]{1,2}\.?\s[^\W\d_]{3,9}\.?(?:\s20[0-9]{2})?|today|yesterday|"
    r"heute|gestern|aujourd'hui|hier|hoy|ayer)(?:,?\s|,|T)(?:(?:at|um|a|\u00e0|a las)\s)?)?"
)
_MOMENT = rf"{_DAY}{_CLOCK}(?:\s?[APap]\.?[Mm]\.?)?(?:,\s[0-9]{{1,4}}(?:[./-][0-9]{{1,4}}){{2}})?"
#: The time before the sender, and behind it.
_FORMS = (
    lazily(rf"\s*[\[(]?{_MOMENT}[\])]?[ ,-]{{1,3}}{_NAME}\s?:\s+(?=\S)"),
    lazily(rf"\s*{_NAME},?\s[\[(]?{_MOMENT}[\])]?\s?:\s+(?=\S)"),
    lazily(rf"\s*[\[(]{_NAME},? {_MOMENT}[\])]\s?:?\s+(?=\S)"),
)
#: The same in a line of their own.
_ALONE = (
    lazily(rf"\s*[\[(<]?{_MOMENT}[\])>]?\s?[,|\u2022-]?\s?{_NAME}\s?:?\s*$"),
    lazily(rf"\s*{_NAME}\s?[,|\u2022-]?\s?[\[(<]?{_MOMENT}[\])>]?\s?:?\s*$"),
)
#: What a message takes note with, and no more of it than a short line.
_NOTED = lazily(r"(?:ok(?:ay)?|k)(?![a-z:])[\s,.!]*(?=(?P<rest>[^:;/]{0,60})$)", re.IGNORECASE)
#: A word with digits in it may be a code.
_CODED = lazily(r"[0-9]{2}")
_DIGITS = lazily(r"[0-9]+")
_SPLIT = lazily(r"\s?[:=>]|\s-+\s")
#: Before a name at the end.
_LAST = lazily(r"\s(?:<[-=]{1,2}|\u2190|\|{1,2}|#{2,3}|@|/|-)\s")
_CODE = lazily(r"[pcbu][0-3o][0-9a-fo]{3}|spn\s?[0-9]")
_FEWEST, _MOST_SENDERS, _LONG, _FEWEST_SAID = 3, 5, 6, 2
_FEW_WORDS = 4
_Find = Callable[[str], Sequence[tuple[int, int, bool]]]


def told(found: list[Line], names: Names) -> list[Line]:
    """The lines of a thread, each with its time alone before it, or those of a chat without times. Linear."""
    is_name, find = names.listed, names.find
    timed = [at for at, line in enumerate(found) if has_digit(line.text[:32])]
    if heads := _of_messages(found, timed, names):
        notes = _notes(found, heads, find)
        # A sentence that begins small would go on in that of the message above.
        small_first = any(text[:1].islower() and len(text.split()) >= _LONG
                          for at, match in heads.items() if (text := found[at].text[match.end() :]))
        clocked = small_first or not _at_once(list(heads.values()))
        return [_plain(line, heads[at], clocked) if at in heads else line
                for at, line in enumerate(found) if at not in notes]
    for form in _ALONE:
        heads = {at: match for at, match in _heads(found, timed, form, is_name, _FEWEST_SAID).items()
                 if _is_person(small(match["name"]))}
        said = [line.text for at, line in enumerate(found) if at not in heads and line.text.strip()]
        if heads and _are_messages(said, is_name, find):
            return _without(found, heads, find)
    return senders.left_out(found, names.likely, find)


def are_messages(found: Sequence[Line], names: Names) -> bool:
    """Whether lines are messages, each with its time and its sender before it."""
    return bool(_of_messages(found, [at for at, line in enumerate(found) if has_digit(line.text[:32])], names))


def _of_messages(found: Sequence[Line], timed: Sequence[int], names: Names) -> dict[int, re.Match[str]]:
    """The lines that begin with the time and the sender of a message."""
    for form in _FORMS:
        heads = _heads(found, timed, form, names.listed)
        said = [found[at].text[match.end() :] for at, match in heads.items()]
        # "14:02 Module: ABS" begins with a key.
        keyed = any(role_of(small(match["name"]), exactly=True) is not None for match in heads.values())
        if heads and not keyed and _are_messages(said, names.listed, names.find):
            return heads
    return {}


def _heads(
    found: Sequence[Line], timed: Sequence[int], form: re.Pattern[str], is_name: Callable[[str], bool],
    fewest: int = _FEWEST,
) -> dict[int, re.Match[str]]:
    """The lines that begin with a time and a sender, where one of a few senders comes again."""
    heads = {at: match for at in timed if (match := form.match(found[at].text)) is not None}
    senders = Counter(match["name"] for match in heads.values())
    if len(heads) < _FEWEST or max(senders.values()) < fewest or len(senders) > _MOST_SENDERS:
        return {}
    if any(map(is_name, senders)):
        return {}
    return heads


def _is_person(low: str) -> bool:
    """Whether words beside a time may be a name of somebody: they head no scan ("after clear 14:02") and no column."""
    return not signs.of(low) & PHASE_WORDS and not counts_scans(low) and role_of(low) is None


def _are_messages(said: list[str], is_name: Callable[[str], bool], find: _Find) -> bool:
    """Whether somebody tells of modules: names one right at the beginning, or several at the end or in sentences, or
    writes as people do."""
    return (any(is_name(_SPLIT.split(text, maxsplit=1)[0].strip()) for text in said) or _talk(said)
            or sum(is_name(_LAST.split(text)[-1].strip()) for text in said if _CODED.search(text)) >= _FEWEST_SAID
            or sum(_speaks_of_one(small(text), find) for text in said) >= _FEWEST_SAID)


def _speaks_of_one(low: str, find: _Find) -> bool:
    """Whether a message names a module that is none of the description of a code: no code stands before it."""
    named = find(low)
    return bool(named) and _CODED.search(low[: named[0][0]]) is None


def _talk(said: list[str]) -> bool:
    """Whether messages are longer than entries of modules and none is one: a code or an answer right behind a name."""
    return any(len(text.split()) >= _LONG for text in said) and not any(
        _CODE.match(low := small(text).strip()) or answer_of_cell(low) is not None for text in said)


def _at_once(heads: Sequence[re.Match[str]]) -> bool:
    """Whether messages follow one another within minutes, as those of one scan do: their times tell no scans apart."""
    clocks = [_DIGITS.findall(match["clock"]) for match in heads]
    minutes = [60 * int(hour) + int(minute) for hour, minute, *_ in clocks]
    return all(0 <= two - one < logs.APART for one, two in pairwise(minutes))


def _plain(line: Line, match: re.Match[str], clocked: bool) -> Line:
    """A line with the time of its message alone before it, if it is ``clocked``, and without an "ok" that only takes
    note."""
    noted = _NOTED.match(line.text, match.end())
    end = noted.end() if noted is not None and (noted["rest"] or match["name"]) else match.end()
    return reworded(line, 0, end, f"{match['clock']} " if clocked else "")


def _without(found: Sequence[Line], heads: Mapping[int, re.Match[str]], find: _Find) -> list[Line]:
    """The lines without those of senders and times, empty ones in the places where another goes on, and without the
    "ok" that is all of a message."""
    notes = _notes(found, heads, find)
    kept: list[Line] = []
    before = ""
    for at, line in enumerate(found):
        if at in notes:
            continue
        head = heads.get(at)
        if head is None:
            noted = _NOTED.match(line.text) if at - 1 in heads else None
            kept.append(reworded(line, 0, noted.end(), "") if noted is not None else line)
        elif head["name"] != before:
            kept.append(reworded(line, 0, len(line.text), ""))
            before = head["name"]
    return kept


def _notes(found: Sequence[Line], heads: Mapping[int, re.Match[str]], find: _Find) -> set[int]:
    """The lines of those who only take note of what another tells: "ok", "next", a thumb."""
    said: defaultdict[str, list[int]] = defaultdict(list)
    name = ""
    for at, line in enumerate(found):
        name = heads[at]["name"] if at in heads else name
        if name and line.text.strip():
            said[name].append(at)
    quiet = [places for places in said.values() if all(
        _is_note(small(found[at].text[heads[at].end() if at in heads else 0 :]).strip(), find) for at in places)]
    return {at for places in quiet for at in places}


def _is_note(low: str, find: _Find) -> bool:
    """Whether a message of another says nothing of a vehicle: a few words, no module, no answer, no phase, no figure,
    no complaint and no question for the supply."""
    noted = _NOTED.match(low)
    rest = low[noted.end() :] if noted is not None else low
    return (len(rest.split()) <= _FEW_WORDS and not has_digit(rest) and not any(mark in rest for mark in ":=")
            and not (phases.find(rest) or phases.scan_head(rest) or phases.events(rest) or spoken(rest) or find(rest)
                     or complaints.stands_in(rest) or (rest.endswith("?") and LABEL.search(rest))))


__all__ = ["are_messages", "told"]
