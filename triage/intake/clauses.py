"""Clauses: what a sentence says, as names, codes and answers in their order, and of which modules each is.

A name stands before what it did ("ABS did not answer", "cluster has U0100") or behind a word that leads to it ("no
codes in the gearbox", "U0100 in the cluster, stored"). Names joined by "and" or commas stand together.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from triage.intake.answers import Spoken
from triage.intake.clause_words import CODE_JOIN, LED, NAME_JOIN, OPENS, strong, subject_of
from triage.intake.context import Context
from triage.intake.found import Found
from triage.intake.layouts import Row
from triage.intake.names import tidy
from triage.intake.phrases import WORD
from triage.intake.sentence import NEAR, Sentence, Span
from triage.intake.vocabulary import STATES

#: More characters are no sentence (:mod:`triage.intake.paragraphs` cuts what runs on).
LONGEST = 4000


@dataclass(slots=True)
class Item:
    """Names that stand together, codes that stand together, or one answer. ``of``: the names that codes or an answer
    are of, None where none stands in the sentence; ``behind``: those names stand behind it."""

    kind: Literal["names", "codes", "answer"]
    start: int
    end: int
    names: list[Span] = field(default_factory=list)
    codes: list[Found] = field(default_factory=list)
    answer: Spoken | None = None
    of: Item | None = None
    behind: bool = False
    used: bool = False
    #: The word before the names leads to them ("in the ABS").
    led: bool = False


def cut(context: Context, row: Row) -> list[Item]:
    """The items of a row, each code and answer bound to its names; none of a row longer than any sentence."""
    if len(row.low) > LONGEST:
        return []
    if context.clauses is None or context.clauses[0] is not row:
        sentence = Sentence(context, row)
        sentence.find()
        found = _merged(sentence)
        _split(sentence, found)
        _bind(sentence, found)
        context.clauses = row, found
    return context.clauses[1]


def _merged(sentence: Sentence) -> list[Item]:
    """Names, codes and answers in order, those that stand together as one item."""
    low = sentence.low
    single: list[Item] = [Item("names", start, end, names=[(start, end)]) for start, end in sentence.spans]
    single += [Item("codes", code.start, code.end, codes=[code]) for code in sentence.codes]
    single += [Item("answer", hit.start, hit.end, answer=hit) for hit in sentence.answers]
    single.sort(key=lambda item: item.start)
    found: list[Item] = []
    for item in single:
        last = found[-1] if found else None
        if last is not None and last.kind == item.kind and item.start - last.end <= NEAR:
            gap = low[last.end : item.start]
            if item.kind == "names" and _one_name(sentence, last, item):
                last.names[-1] = (last.names[-1][0], item.end)
                last.end = item.end
                continue
            if (item.kind == "names" and NAME_JOIN.fullmatch(gap)) or (item.kind == "codes" and _joined(gap)):
                last.names += item.names
                last.codes += item.codes
                last.end = item.end
                continue
        item.led = item.kind == "names" and LED.search(low[max(0, item.start - 24) : item.start]) is not None
        found.append(item)
    return found


def _one_name(sentence: Sentence, last: Item, item: Item) -> bool:
    """Whether two listed names are one printed twice: "TCM - Transmission", "gateway module (GWM)"."""
    gap = sentence.low[last.end : item.start]
    if gap.strip() not in ("-", "(", "") or len(gap) > 3:
        return False
    whole = sentence.text[last.names[-1][0] : item.end] + (")" if "(" in gap else "")
    if sentence.context.names.listed(tidy(whole)):
        return True
    match = sentence.context.names.match
    return (
        match(tidy(sentence.text[slice(*last.names[-1])])).canonical
        == match(tidy(sentence.text[item.start : item.end])).canonical
    )


def _joined(gap: str) -> bool:
    """Whether codes on both sides of a gap stand together: joints and status words only."""
    for hit in reversed(STATES.find(gap)):
        gap = gap[: hit.start] + gap[hit.end :]
    return CODE_JOIN.fullmatch(gap) is not None


def _split(sentence: Sentence, found: list[Item]) -> None:
    """Part what only looks like one list: a name that is led to from one that does something ("no codes in ECM, ABS did
    not answer"), codes of a subject from codes that are led to ("ABS has P0606, P0700 in the gearbox")."""
    low = sentence.low
    at = 1
    while at < len(found):
        item, above = found[at], found[at - 1]
        follows = found[at + 1] if at + 1 < len(found) else None
        if item.kind == "names" and len(item.names) > 1 and above.kind != "names" and follows is not None:
            place = sentence.object_place(above.answer) if above.answer is not None else None
            if (item.led or place is not None) and subject_of(low, item.end, follows.start):
                found.insert(at + 1, _parted_names(low, item))
                at += 1
        elif (
            item.kind == "codes"
            and len(item.codes) > 1
            and follows is not None
            and follows.led
            and _has_subject(low, found, at)
        ):
            led = LED.search(low, max(item.end, follows.start - 24), follows.start)
            if led is not None and sentence.clear(item.end, led.start()):
                found.insert(at + 1, _parted(low, item))
                at += 1
        at += 1


def _parted_names(low: str, item: Item) -> Item:
    """The names behind the last comma of a list ("in the door, steering and gearbox had none"), else its last name."""
    cut = len(item.names) - 1
    for place in range(1, len(item.names)):
        if "," in low[item.names[place - 1][1] : item.names[place][0]]:
            cut = place
    rest, item.names = item.names[cut:], item.names[:cut]
    item.end = item.names[-1][1]
    return Item("names", rest[0][0], rest[-1][1], names=rest)


def _has_subject(low: str, found: list[Item], at: int) -> bool:
    """Whether a name before codes is their subject: "ABS has P0606", with other codes between or not."""
    place = at - 1
    if OPENS.search(low, found[place].end if place >= 0 else 0, found[at].start):
        return False
    while place >= 0 and found[place].kind == "codes":
        if place and OPENS.search(low, found[place - 1].end, found[place].start):
            return False
        place -= 1
    if place < 0 or found[place].kind != "names" or found[place].led:
        return False
    if strong(low, found[place].end, found[at].start):
        return False
    return subject_of(low, found[place].end, found[place + 1].start)


def _parted(low: str, item: Item) -> Item:
    """The codes of a list that no longer belong to it: those behind the comma that a status or "and" stands before
    ("P2BAD current, B0EB2", "U0415 plus C0431, P0109 and U0422"), else its last code."""
    cut, ended = len(item.codes) - 1, False
    for place in range(1, len(item.codes)):
        gap = low[item.codes[place - 1].end : item.codes[place].start]
        if "," in gap and (ended or STATES.find(gap.partition(",")[0])):
            cut = place
        ended = "," not in gap
    rest, item.codes = item.codes[cut:], item.codes[:cut]
    item.end = item.codes[-1].end
    return Item("codes", rest[0].start, rest[-1].end, codes=rest)


def _bind(sentence: Sentence, found: list[Item]) -> None:
    """Give each code and answer its names."""
    low = sentence.low
    for at, item in enumerate(found):
        before = found[at - 1] if at else None
        behind = found[at + 1] if at + 1 < len(found) else None
        if item.kind == "codes":
            item.of, item.behind = _of_codes(sentence, found, at)
        elif item.kind == "answer" and item.answer is not None:
            place = sentence.object_place(item.answer)
            if (
                behind is not None
                and behind.kind == "names"
                and ((place is not None and place >= behind.start) or _heads_a_list(low, item, before, behind))
            ):
                item.of, item.behind = behind, True
            elif before is not None:
                item.of = _subject_of_answer(low, item, before)
        if item.of is not None:
            item.of.used = True
    _bind_across_joints(low, found)


def _bind_across_joints(low: str, found: list[Item]) -> None:
    """Give codes and names the company of those they are joined to by a mark that else ends a clause."""
    for item, behind in reversed(list(pairwise(found))):
        joint = low[item.end : behind.start]
        if item.kind == behind.kind == "codes" and item.of is None and behind.behind:
            if _joined(joint.replace(";", ",")):
                # "P0562; P0606 in the ECM"
                item.of, item.behind = behind.of, True
        elif (
            item.kind == behind.kind == "names"
            and joint.strip() == "/"
            and behind.used
            and not (item.used or behind.led)
            and not any(other.of is behind and other.behind for other in found)
        ):
            # "ABS / EPS no response"
            behind.names = [*item.names, *behind.names]


def _heads_a_list(low: str, item: Item, before: Item | None, behind: Item) -> bool:
    """Whether names behind a colon are what an answer is of: "no answer: HVAC", "2 ECUs did not respond: radio"."""
    gap = low[item.end : behind.start].strip()
    return gap in (":", "-", "=") and (before is None or before.kind != "names" or strong(low, before.end, item.start))


def _subject_of_answer(low: str, item: Item, before: Item) -> Item | None:
    """The names before an answer, with nothing but small words between; or those of the answer before it."""
    if not subject_of(low, before.end, item.start):
        return None
    if before.kind == "names":
        if item.answer is not None and item.answer.doubtful and item.start - before.end > NEAR:
            return None
        return None if before.used and before.led else before
    return before.of if before.kind == "answer" and not before.behind else None


def _of_codes(sentence: Sentence, found: list[Item], at: int) -> tuple[Item | None, bool]:
    """The names that codes are of: those that "in" leads to right behind them, else the ones before."""
    low = sentence.low
    item = found[at]
    behind = found[at + 1] if at + 1 < len(found) else None
    subject = next((other for other in reversed(found[:at]) if other.kind == "names"), None)
    if subject is not None and (
        strong(low, subject.end, item.start)
        or (
            subject.used
            and any(other.of is subject and other.behind and other.kind == "answer" for other in found[:at])
        )
    ):
        subject = None
    if behind is not None and behind.kind == "names" and behind.led:
        lead = LED.search(low, max(item.end, behind.start - 24), behind.start)
        between = low[item.end : lead.start() if lead is not None else behind.start]
        follows = found[at + 2] if at + 2 < len(found) else None
        forward = (
            subject is not None
            and "," in between
            and follows is not None
            and subject_of(low, behind.end, follows.start)
        )
        if lead is not None and not forward and sentence.clear(item.end, lead.start()):
            return behind, True
        if (
            lead is not None
            and subject is None
            and not strong(low, item.end, behind.start)
            and len(WORD.findall(between)) <= 7
        ):
            return behind, True
    return subject, False
