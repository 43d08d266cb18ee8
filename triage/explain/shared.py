"""What several codes of one module share, so that the list tells it once.

- The sensors of a module hang on a reference voltage it gives them (5 V as a rule, common practice): a code of that
  voltage and codes of sensors that come and go with it are one fault, the reference.
- Without one, several signals that read wrong the same way at once are one check first: a ground or feed they share.
- Circuits of several modules that run through one part are told as that part (:mod:`triage.explain.one_part`).
- What several modules report of their network is one fault of its wires, and the losses seen with it are its echo.
- A module that alone misses several others, which answer, is itself suspect: its network lines or ground.
- A module that asks for several procedures is set up once (program, then calibrate) before its codes are judged.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from triage.explain.meaning import meaning, wants_procedure
from triage.explain.one_part import beside_part, one_part, part_named, shared_part, through_wheel
from triage.explain.silent_part import one_silent_part
from triage.model.assessment import FaultLine
from triage.model.bus_reports import bus_groups
from triage.model.casebook import INVALID, LOST, NOT_READABLE, SEEN, Casebook, Links
from triage.model.measured_words import REFERENCE, UNPLUGGED, is_drop
from triage.model.verdict import name_of

if TYPE_CHECKING:
    from triage.explain.case import Figures
    from triage.model.casebook import Bools, Floats, Ints

#: The failure type of a module that was never set up (SAE J2012DA).
NOT_CONFIGURED = "55"
#: Codes by which a module says the same of itself (SAE J2012): initial configuration not complete, incompatible.
UNSET_CODES = ("U2100", "U2101")
#: A drop of more, in V, is too much on any path (limits.csv, drop positive path).
DROP = 0.5
#: How the reason begins of a supply code whose module is fed badly.
FED = "a drop was measured on its path"
#: Words of a module's name that places and paths are called by as well.
NO_MODULE = frozenset(("engine", "body", "motor", "control", "module", "unit", "system", "power", "battery", "ecu",
                       "front", "rear", "left", "right", "main", "supply"))
#: So many modules tell of a part before it is told as one.
SEVERAL = 2
#: So many signals that read wrong the same way share a reason.
SHARED_LEAST = 3
#: Places of the standings, as :mod:`triage.explain.standing` counts them.
LISTED, UNSETTLED = 0, 1
#: So far from 5 V a sensor supply is not what it should be, V (plausibility.csv, reference low and high).
_REFERENCE_OFF = 0.5
#: Sensors of two wires hang on a resistor in the module, not on the reference voltage (common practice).
OWN_PULL_UP = ("temperature", "fuel level")


class Signal(NamedTuple):
    """A fault as far as it matters here; ``name`` as lists name it, ``hangs_on`` the name of what explains it."""

    module: object
    code: str
    title: str
    failure_type: str | None
    name: str
    hangs_on: str | None


def told_together(
    book: Casebook, link: Links, persists: Bools, standing: np.ndarray, decibans: Floats,
) -> Iterator[tuple[int, int]]:
    """(fault, head) for each fault that the list tells with another one, the head.

    ``persists``, ``standing`` (the less the surer), ``decibans``: N. The head is never less sure than what it tells.
    """
    yield from _fed_badly(book, link, persists, standing)
    yield from _hung_on_references(book, persists, standing)
    yield from _through_one_part(book, persists, standing, decibans)
    yield from _after_set_up(book, persists, standing, decibans)
    yield from _on_the_bus(book, link, persists, decibans)
    yield from _speed_of_the_wheels(book, link, standing)
    for group in one_silent_part(book, persists).values():
        first, *rest = sorted(group, key=lambda fault: (standing[fault], -float(decibans[fault])))
        yield from ((fault, first) for fault in rest if _together(book, fault, first))
    missed = (link.relation == LOST) & (link.target >= 0) & (link.lost < 0.5)
    alone = missed & ~np.isin(np.arange(book.faults), drop_outs(book, link, persists))
    for chosen in (alone, book.flags(lambda facts: facts.needs == "procedure")):
        heads: dict[int, int] = {}
        faults = np.flatnonzero(chosen & persists)
        for fault in faults[np.lexsort((-decibans[faults], standing[faults]))].tolist():
            head = heads.setdefault(int(book.fault_module[fault]), fault)
            if head != fault:
                yield fault, head


def _fed_badly(book: Casebook, link: Links, persists: Bools, standing: np.ndarray) -> Iterator[tuple[int, int]]:
    """(fault, head) where one module alone says of itself that it is fed badly and a drop was measured on its feed or
    ground: what else it says of its parts, and the reports of its loss, are looked at again once it is fed (common
    practice). The head is its supply code."""
    own = book.flags(lambda facts: facts.supply in ("low", "fault"))
    for head in np.flatnonzero(own & persists & (link.lone > 1).any(axis=1)).tolist():
        module, session = int(book.fault_module[head]), int(book.fault_session[head])
        if not drop_at(book, session, book.shown(module)):
            continue
        for fault in range(int(book.first_fault[session]), int(book.first_fault[session + 1])):
            held = book.fault_module[fault] == module and persists[fault] and not own[fault] and (
                link.relation[fault] == 0 and book.facts[fault].needs == "repair")
            missed = link.relation[fault] == LOST and link.target[fault] == module and link.lost[fault] < 0.5
            back = bool(((book.phase[session] > 0) & (book.seen[fault] == SEEN)).any())
            if back and (missed or (held and standing[fault] >= standing[head])):
                yield fault, head


def drop_at(book: Casebook, session: int, shown: str) -> str | None:
    """The name of a reading of too great a drop on a path that is called after a module; None where there is none."""
    words = set(re.findall(r"[^\W_]{3,}", shown.casefold())) - NO_MODULE
    for snapshot in book.sessions[session].snapshots:
        for reading in snapshot.readings or ():
            if is_drop(reading) and abs(reading.value) > DROP and words & set(
                    re.findall(r"[^\W_]{3,}", f"{reading.module or ''} {reading.name}".casefold())):
                return reading.name
    return None


def _through_one_part(
    book: Casebook, persists: Bools, standing: np.ndarray, decibans: Floats,
) -> Iterator[tuple[int, int]]:
    """(circuit, head) for the circuits of a session that persist, run through one part and came and went together."""
    by_session: dict[int, list[int]] = {}
    own = np.flatnonzero(persists & book.flags(lambda facts: facts.relation is None and facts.supply is None)).tolist()
    for fault in own:
        if through_wheel(meaning(book.facts[fault], book.texts.get(fault, ()))):
            by_session.setdefault(int(book.fault_session[fault]), []).append(fault)
    for faults in by_session.values():
        head, *rest = sorted(faults, key=lambda fault: (standing[fault], -float(decibans[fault])))
        yield from ((fault, head) for fault in rest if _together(book, fault, head))
    yield from _of_one_part(book, own, standing, decibans)


def _of_one_part(
    book: Casebook, own: Sequence[int], standing: np.ndarray, decibans: Floats,
) -> Iterator[tuple[int, int]]:
    """(fault, head) where several modules tell of one part in numbers of their own, and what they say came and went
    together. Two codes of one module may be two circuits of it, and one number in two modules is one fault as it is."""
    named: dict[tuple[int, str], list[int]] = {}
    beside: dict[tuple[int, str], list[int]] = {}
    for fault in own:
        title, session = meaning(book.facts[fault], book.texts.get(fault, ())), int(book.fault_session[fault])
        if (part := part_named(title)) is not None:
            named.setdefault((session, part), []).append(fault)
        elif (part := beside_part(title)) is not None:
            beside.setdefault((session, part), []).append(fault)
    # What another module gets from it goes with it, whatever it is taken for by itself.
    for fault in np.flatnonzero(book.flags(lambda facts: facts.relation == "invalid data")).tolist():
        if (part := part_named(meaning(book.facts[fault], book.texts.get(fault, ())))) is not None:
            beside.setdefault((int(book.fault_session[fault]), part), []).append(fault)
    for key, faults in named.items():
        everything = [*faults, *beside.get(key, ())]
        if len({int(book.fault_module[fault]) for fault in everything}) < SEVERAL:
            continue
        head = min(faults, key=lambda fault: (standing[fault], -float(decibans[fault])))
        yield from ((fault, head) for fault in everything if book.code[fault] != book.code[head]
                    and standing[fault] >= standing[head] and _together(book, fault, head))


def _after_set_up(
    book: Casebook, persists: Bools, standing: np.ndarray, decibans: Floats,
) -> Iterator[tuple[int, int]]:
    """(fault, head) for what other modules say of configuration, VIN or key while one module says of itself that it is
    not configured: it may only follow from that (common practice), and is read again after it is set up."""
    unset = np.flatnonzero(persists & np.array([kind == NOT_CONFIGURED or code in UNSET_CODES for kind, code in zip(
        book.failure_type, book.code, strict=True)], dtype=bool))
    for session in dict.fromkeys(book.fault_session[unset].tolist()):
        mine = unset[book.fault_session[unset] == session]
        if len(set(book.fault_module[mine].tolist())) > 1:
            continue  # several at once: none of them is the one that the others follow from
        head = min(mine.tolist(), key=lambda fault: (standing[fault], -float(decibans[fault])))
        for fault in range(int(book.first_fault[session]), int(book.first_fault[session + 1])):
            if persists[fault] and book.fault_module[fault] != book.fault_module[head] and (
                    standing[fault] >= standing[head]) and wants_procedure(
                    book.facts[fault], book.texts.get(fault, ())) and _together(book, fault, head):
                yield fault, head


def _on_the_bus(book: Casebook, link: Links, persists: Bools, decibans: Floats) -> Iterator[tuple[int, int]]:
    """(fault, head) where several modules report that one network fails: the surest report is the head of the others
    and of the losses of modules that answer which were seen with it, whether those persist by themselves or not."""
    back = (book.phase > 0)[book.fault_session] & (book.seen == SEEN)
    for group in bus_groups(book, link, persists & back.any(axis=1)):
        # The one that modules fell silent with is told as their network: no other report is a second one.
        heads = {story.head for story in link.stories.get(int(book.fault_session[group[0]]), ())}
        faults = sorted(group, key=lambda fault: (fault not in heads, -float(decibans[fault])))
        failing = back[faults].any(axis=0)
        lost = (link.relation == LOST) & (link.lost < 0.5) & (book.fault_session == book.fault_session[faults[0]])
        for fault in (*faults[1:], *np.flatnonzero(lost & (back & failing).any(axis=1)).tolist()):
            yield fault, faults[0]


def _speed_of_the_wheels(book: Casebook, link: Links, standing: np.ndarray) -> Iterator[tuple[int, int]]:
    """(vehicle speed, wheel speed) where a module misses the speed of the vehicle in a scan in which it gets invalid
    data from the one that holds an established fault of a wheel speed sensor: it has its speed from there (common
    practice).
    """
    invalid = np.flatnonzero((link.relation == INVALID) & (link.target >= 0))
    speed = book.flags(lambda facts: "vehicle speed sensor" in facts.title or "vehicle speed signal" in facts.title)
    if not invalid.size or not speed.any():
        return
    for fault in np.flatnonzero(speed & (standing == UNSETTLED)).tolist():
        gets = invalid[(book.fault_module[invalid] == book.fault_module[fault]) & (
            (book.seen[invalid] == SEEN) & (book.seen[fault] == SEEN)).any(axis=1)]
        wheels = np.flatnonzero(np.isin(book.fault_module, link.target[gets]) & (standing == LISTED)).tolist()
        yield from ((fault, head) for head in wheels if "wheel speed" in meaning(
            book.facts[head], book.texts.get(head, ())).lower())


def _hung_on_references(book: Casebook, persists: Bools, standing: np.ndarray) -> Iterator[tuple[int, int]]:
    """(sensor, reference) for each sensor that persists and came and went with a reference voltage of its module.

    ``persists``: N; ``standing``: N, the less the surer. A reference less sure than the sensor explains nothing.
    """
    references = np.flatnonzero(persists & book.flags(lambda facts: is_reference(facts.title)))
    for reference in references.tolist():
        # Low or open at the reference, the sensors read low; high there, high (common practice). Where it came back
        # with a part unplugged, the meter tells more than the way they read wrong.
        ways = {"high"} if book.facts[reference].title.endswith(" high") else {"low"}
        ways |= {"high", "low"} if pulls_down(book, int(book.fault_session[reference])) is not None else set()
        beside = persists & (book.fault_module == book.fault_module[reference]) & (standing >= standing[reference])
        for fault in np.flatnonzero(beside).tolist():
            title = book.facts[fault].title
            if not is_reference(title) and _way_of(title, book.failure_type[fault]) in ways and not any(
                    word in title for word in OWN_PULL_UP) and _together(book, fault, reference):
                yield fault, reference


def _together(book: Casebook, fault: int, reference: int) -> bool:
    """Whether two faults were seen in one snapshot after a clear, and agree in the last in which both could be read.

    Not each list shows each code: a pending one may not have been read, a run may have been too short for one of them.
    """
    mine, other = book.seen[fault], book.seen[reference]
    after = (book.phase > 0)[book.fault_session[fault]] & (mine != NOT_READABLE) & (other != NOT_READABLE)
    mine, other = mine[after], other[after]
    return bool(((mine == SEEN) & (other == SEEN)).any() and mine[-1] == other[-1])


def drop_outs(book: Casebook, link: Links, persists: Bools) -> Ints:
    """Reports that persist of the loss of a module which answers, made by several modules: it drops off the network,
    and the list tells that once. One report alone may be the fault of the module that makes it."""
    back = ((book.phase > 0)[book.fault_session] & (book.seen == 1)).any(axis=1)
    reports = np.flatnonzero((link.relation == LOST) & (link.target >= 0) & (link.lost < 0.5) & persists & back)
    pairs = {(int(link.target[fault]), int(book.fault_module[fault])) for fault in reports.tolist()}
    reporters = Counter(target for target, _ in pairs)
    return reports[[reporters[target] > 1 for target in link.target[reports].tolist()]] if reports.size else reports


def shared_signals(
    book: Casebook, figures: Figures, explained_by: Sequence[str | None], faults: Sequence[int],
) -> list[list[int]]:
    """Groups of ``faults`` (of the short list), each of one module, whose signals share a reason.

    The reference voltage of the sensors, where it is among them, stands first.
    """
    mine = [fault for fault in faults if not figures.relation[fault] and not book.facts[fault].supply
            and book.facts[fault].needs != "procedure"]
    return [[mine[place] for place in group] for group in _groups([
        Signal(figures.module[fault], book.code[fault], book.facts[fault].title, book.failure_type[fault],
               figures.names[fault], explained_by[fault]) for fault in mine])]


def shared_lines(lines: Sequence[FaultLine]) -> list[list[FaultLine]]:
    """The same groups among lines of the short list."""
    verdicts = [line.verdict for line in lines]
    return [[lines[place] for place in group] for group in _groups([
        Signal(verdict["module"], verdict["code"], line.title, verdict["failure_type"],
               name_of(verdict), verdict["explained_by"]) for line, verdict in zip(lines, verdicts, strict=True)])]


def _groups(signals: Sequence[Signal]) -> list[list[int]]:
    """Places of the signals that share a reason."""
    heads = {signal.name: [place] for place, signal in enumerate(signals)}
    by_way: dict[tuple[object, str], list[int]] = {}
    for place, signal in enumerate(signals):
        if signal.hangs_on in heads:
            heads[signal.hangs_on].append(place)
        elif not is_reference(signal.title) and (way := _way_of(signal.title, signal.failure_type)):
            by_way.setdefault((signal.module, way), []).append(place)
    alike = [places for places in by_way.values() if len({signals[place].code for place in places}) >= SHARED_LEAST]
    return [places for places in heads.values() if len(places) > 1] + alike


def _way_of(title: str, failure_type: str | None) -> str | None:
    """Which way a signal reads wrong: "high", "low"; by title or failure type (SAE J2012DA)."""
    words = title.split(",")[0]
    if "sensor" not in words and "signal" not in words and "pedal" not in words:
        return None
    if words.endswith(" high") or failure_type in ("12", "15", "17"):
        return "high"
    return "low" if words.endswith(" low") or failure_type in ("11", "14", "16") else None


def lines_words(lines: Sequence[FaultLine]) -> str:
    """What a group of lines is, in words, the first of them being what the others hang on."""
    codes, first = [line.verdict["code"] for line in lines], lines[0]
    if is_fed_badly(first):
        return f"its feed or ground ({codes[0]}) first; {_listed(codes[1:])} to be read again once it is fed"
    if (part := one_part([line.title for line in lines])) is not None:
        tell = "run through" if shared_part(part) is None else "tell of"
        return f"{_listed(codes)} {tell} one part, {part}: that comes before each of them"
    if not is_reference(first.title) and lines[1].verdict["explained_by"] == name_of(first.verdict):
        if any(line.verdict["module"] != first.verdict["module"] for line in lines):
            return f"{codes[0]} {first.title}, and {_listed(sorted({*codes} - {codes[0]}))} that go with it"
        if first.verdict["needs"] == "procedure":
            return f"{_listed(codes)} ask for one visit: program and calibrate it before they are judged"
        return (f"{_listed(codes)} report modules that answer and that nobody else misses: check its own network lines "
                "and ground first")
    return shared_words(codes, reference=is_reference(first.title))


def is_fed_badly(line: FaultLine) -> bool:
    """Whether a line is the supply code of a module on whose feed or ground a drop was measured."""
    return any(reason.startswith(FED) for reason in line.why)


def shared_words(codes: Sequence[str], *, reference: bool) -> str:
    """What a group of signals is, in words; ``codes`` in its order."""
    if reference:
        return f"{codes[0]} first: the sensors of {_listed(codes[1:])} hang on that reference voltage or its ground"
    return f"{_listed(codes)} read wrong the same way at once: a ground, reference voltage or feed they share"


def _listed(codes: Sequence[str]) -> str:
    return codes[0] if len(codes) == 1 else f"{', '.join(codes[:-1])} and {codes[-1]}"


def pulls_down(book: Casebook, session: int) -> str | None:
    """The part without which a reference voltage came back that a meter read low or high before; None where nobody
    unplugged one for that."""
    read = [one for snapshot in book.sessions[session].snapshots for one in snapshot.readings or ()
            if one.name.startswith(REFERENCE) and (one.unit or "").casefold() == "v"]
    wrong = any(UNPLUGGED not in one.name and abs(one.value - 5.0) > _REFERENCE_OFF for one in read)
    parts = [one.name.partition(UNPLUGGED)[2] for one in read
             if UNPLUGGED in one.name and abs(one.value - 5.0) <= _REFERENCE_OFF]
    return f"the {parts[-1]}" if wrong and parts else None


def is_reference(title: str) -> bool:
    """Whether a code is about the reference voltage that sensors share."""
    return "sensor reference voltage" in title


__all__ = ["FED", "drop_at", "drop_outs", "is_fed_badly", "is_reference", "lines_words", "pulls_down",
           "shared_lines", "shared_signals", "shared_words", "told_together"]
