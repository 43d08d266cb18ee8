"""Plain sentences for one fault: why it stands where it stands, and how long clean is clean."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from triage.explain.moving_parts import moving, moving_words
from triage.explain.records import is_record
from triage.explain.shared import FED, drop_at
from triage.model.casebook import ANSWERS, BUS, INVALID, LOST, POINTER, Casebook, Links, Story, Timeline
from triage.model.chargers import CHARGERS
from triage.model.crash import follows_crash
from triage.model.snapshot import PHASES, STATUS_WORDS
from triage.model.stored import older_words
from triage.units import to_probability

if TYPE_CHECKING:
    from triage.model.casebook import Floats

#: Below this the supply of a 12 V system is low enough to be named as the reason, V.
LOW = 11.8
#: From here on it is called good, V: a battery above half charge (common practice).
GOOD = 12.2
#: Above this nobody calls it good, V: more than charging gives in the cold (charging cold highest of limits.csv).
TOO_MUCH = 15.4
#: Place of "permanent" among the status words.
PERMANENT = STATUS_WORDS.index("permanent")
#: With less of a chance to run than this a monitor that found nothing says little.
COULD_SHOW = 0.35
#: How the reason ends that tells of a module reported lost.
STAYS_SILENT = "which it reports lost, stays silent"
ANSWERS_SCAN = "which it reports lost, answers the scan"
#: How the reason of a supply code begins.
WITNESS = "it is the witness of"
#: Failure types of a voltage below its limit or out of its range (SAE J2012DA).
VOLTAGE_TYPES = ("16", "1C")
#: How the reason of an entry begins that its module never let go.
REFUSED = "still listed, for its module refused the clear"
BANDS = ((0.99, "all but certain"), (0.95, "very likely"), (0.75, "likely"), (0.5, "more likely than not"),
         (0.25, "open"), (0.05, "unlikely"), (0.01, "very unlikely"), (0.0, "all but ruled out"))


#: A module took a clear at this chance and more; below it nobody knows that its codes ever went.
CLEARED = 0.6
NOT_SURELY_CLEARED = ": it is not known that its module took the clear"
#: What is said of a code that came back at a good supply.
CAME_BACK = ("it went and came back at a good supply: quiet runs only tell how seldom it shows, so its cause is looked "
             "for")


def band(decibans: float, *, back: bool = False) -> str:
    """Words for how sure it is that a fault persists; words come before decibans. ``back``: it came back at a good
    supply, which no number of quiet runs makes unlikely.

    >>> band(13.8)
    'very likely'
    >>> band(-7.4, back=True)
    'not ruled out: it came back'
    """
    chance = to_probability(decibans)
    if back and chance < 0.25:
        return "not ruled out: it came back"
    return next(words for least, words in BANDS if chance >= least)


def clean_bound(runs: int) -> float:
    """Upper 95 % bound on the rate per run after ``runs`` clean ones: 1 - 0.05^(1/n), the rule of three.

    >>> [round(clean_bound(n), 3) for n in (1, 2, 3, 5, 10, 30)]
    [0.95, 0.776, 0.632, 0.451, 0.259, 0.095]
    """
    return 1.0 - math.pow(0.05, 1.0 / runs)


def phase_words(book: Casebook, session: int, column: int) -> str:
    """The snapshot in words: "after the clear at 12.6 V"."""
    phase = int(book.phase[session, column])
    name = ("before the clear", "after the clear", "after the run", "after the repair")[phase] if phase >= 0 else (
        f"in snapshot {column + 1}")
    return f"{name} {volts_words(book, session, column)}"


def volts_words(book: Casebook, session: int, column: int) -> str:
    """ "at 12.6 V", "at an unknown supply", with the lowest where it tells more."""
    volts, lowest = float(book.volts[session, column]), float(book.lowest[session, column])
    if volts != volts:
        return "at an unknown supply" if lowest != lowest else f"at a supply with a lowest of {lowest:.1f} V"
    if lowest == lowest and lowest < volts - 0.5:
        return f"at {volts:.1f} V (lowest read {lowest:.1f} V)"
    return f"at {volts:.1f} V"


def reasons(
    book: Casebook, line: Timeline, link: Links, causes: Floats, refused: Floats, opportunity: Floats, fault: int,
) -> list[str]:
    """Why this fault stands where it stands, strongest first. One sentence a reason."""
    session = int(book.fault_session[fault])
    columns = range(len(book.order[session]))
    facts = book.facts[fault]
    said = _test_words(line, session, fault)
    target = int(link.target[fault])
    if target >= 0 and link.lost[fault] >= 0.5:
        said.append(f"{book.shown(target)}, {STAYS_SILENT}")
    elif link.relation[fault] == LOST and target >= 0 and book.state[target].max() == 1:
        said.append(f"{book.shown(target)}, {ANSWERS_SCAN}")
    if fault in link.contradictions:
        said.append(link.contradictions[fault].what)
    back = [column for column in columns if book.phase[session, column] > 0 and book.seen[fault, column] == 1]
    gone = [column for column in columns if book.phase[session, column] > 0 and book.seen[fault, column] == 0]
    before = [column for column in columns if book.phase[session, column] <= 0 and book.seen[fault, column] == 1]
    if back and all(book.status[fault, column] == PERMANENT for column in back):
        said.append("listed as permanent alone since the clear: such a code outlives a clear by design and says "
                    "nothing about now")
    elif back and line.never_took(int(book.fault_module[fault]), back[-1]):
        now = book.status[fault, back[-1]] == 0
        said.append(f"{REFUSED}: " + ("what it calls it now counts" if now else "that says nothing of now"))
    elif back:
        scans = _scans_since(back, gone, opportunity[fault])
        cleared = not before or (line.clear[book.fault_module[fault], before[-1] + 1 : back[0] + 1] >= CLEARED).any()
        verb = ("came back" if cleared else "still listed") if before else "first seen"
        said.append(f"{verb} {phase_words(book, session, back[0])}{scans}{'' if cleared else NOT_SURELY_CLEARED}")
    if fault in link.recurrences:
        said.append(link.recurrences[fault].what)
    if refused[fault] > 0.5 and back:
        said.append(f"the whole list of {book.shown(int(book.fault_module[fault]))} stayed: its clear did not take")
    if gone and not back and before:
        said.append(f"seen {phase_words(book, session, before[0])}, not seen {phase_words(book, session, gone[-1])}")
    if before and not back and not gone:
        since = " and not readable since" if before[-1] < columns[-1] else ""
        said.append(f"seen {phase_words(book, session, before[0])}{since}")
    if gone and not back:
        chance = max(float(opportunity[fault, column]) for column in gone)
        if chance < COULD_SHOW:
            said.append(f"its monitor ({_monitor(facts.monitor)}) had no real chance to run since the clear, so its "
                        "absence says little")
    said += _told_beside(book, link, fault)
    for story in link.stories.get(session, ()):
        if story.head == fault:
            said.insert(0, f"{on_it(book, story)} are silent on that network")
    empty = _empty_words(book, link, fault, target)
    if empty:
        said.insert(0, empty)
    said.extend(_cause_words(book, line, link, causes, fault, target))
    current = [column for column in columns if book.status[fault, column] == 0]
    if current:
        said.append(f"the module calls it current {phase_words(book, session, current[-1])}")
    return said


def _told_beside(book: Casebook, link: Links, fault: int) -> list[str]:
    """What stands beside the code of a fault, in words or in what is stored with it, as reasons."""
    said, facts, texts = [], book.facts[fault], book.texts.get(fault, ())
    if not link.relation[fault] and follows_crash(texts):
        said.append("printed as what a crash made its module do: it follows from that")
    if older := older_words(book, fault):
        said.append(older)
    safety = facts.safety or book.module_facts[book.fault_module[fault]].safety
    if (told := moving(texts, facts.title, safety)) is not None:
        said.append(moving_words(told))
    return said


def _scans_since(back: list[int], gone: list[int], opportunity: Floats) -> str:
    """In how many of the scans since the clear a code was seen; an absence in one that had no chance to show it says
    nothing against it."""
    if len(back) + len(gone) < 2:
        return ""
    could = [column for column in gone if float(opportunity[column]) >= COULD_SHOW]
    if gone and not could:
        scans = "the only scan" if len(back) == 1 else f"all {len(back)} scans"
        return f", in {scans} that could show it"
    return f", in {len(back)} of {len(back) + len(gone)} scans since"


def _test_words(line: Timeline, session: int, fault: int) -> list[str]:
    """What a part that was unplugged for the last scan says of a fault."""
    test = line.tests.get(session)
    if test is not None and fault in test.went:
        return [f"gone with {test.part} unplugged: that part or its wires come first, and the absence proves nothing"]
    made = test is not None and fault in test.made
    return [f"came with {test.part} unplugged: its open plug makes it"] if test is not None and made else []


def on_it(book: Casebook, story: Story) -> str:
    """The silent modules of a network that is reported, as printed: "HVAC, driver door and seat"."""
    names = [book.shown(module) for module in story.modules]
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) < 6 else (
        f"{', '.join(names[:4])} and {len(names) - 4} more")


def _cause_words(book: Casebook, line: Timeline, link: Links, causes: Floats, fault: int, target: int) -> list[str]:
    top = int(causes[fault].argmax())
    facts = book.facts[fault]
    if top == 4 and link.relation[fault] == LOST and _beside_network(book, link, fault):
        return ["reported together with a network that fails: its wires come first"]
    if top == 4 and target >= 0:
        points = "only asks for the lamp on behalf of" if facts.known else "only points at"
        verb = points if link.relation[fault] == POINTER else "repeats what it gets from"
        return [f"it {verb} {book.shown(target)}"]
    if top == 4 and link.relation[fault] == INVALID:
        return ["it reports data of another module that it can't use: the fault is looked for where they come from"]
    if top == 4:
        return ["it only tells that another fault holds the engine back: look for that one"
                if "torque reduced" in facts.title else "it only asks for the lamp on behalf of another module"]
    if facts.supply and (top in (2, 3) or lasting_witness(book, link, fault)):
        return [_witness_words(book, link, fault)]
    said = []
    if facts.supply and (is_lone(book, link, fault) or link.events[int(book.fault_session[fault])].local):
        said.append(_witness_words(book, link, fault))
    if "isolation fault" in facts.title:
        said.append("seen even once, it stays open until a qualified person has measured the isolation")
    if is_record(book, fault):
        said.append("a record of an event, not weighed as a fault: no low supply writes one")
    elif top == 2:
        said.append(_low_words(book, line, link, fault))
    return said


def _beside_network(book: Casebook, link: Links, fault: int) -> bool:
    """Whether its module reported the network in a snapshot in which this was seen."""
    mine = np.flatnonzero((link.relation == BUS) & (book.fault_module == book.fault_module[fault]))
    return bool(((book.seen[mine] == 1) & (book.seen[fault] == 1)).any())


def _empty_words(book: Casebook, link: Links, fault: int, target: int) -> str | None:
    """A pointer whose target shows nothing, where it was read at last; None otherwise."""
    if target < 0 or link.relation[fault] not in (POINTER, INVALID):
        return None
    readable = np.flatnonzero(book.seen[fault] >= 0)
    if not readable.size or book.seen[fault, readable[-1]] != 1 or (
            link.relation[fault] == INVALID and book.phase[book.fault_session[fault], readable[-1]] <= 0):
        return None
    quiet = link.target_state[fault, readable[-1]] == ANSWERS and link.target_active[fault, readable[-1]] == 0
    return f"{book.shown(target)}, which it points at, shows nothing: read that again first" if quiet else None


def lasting_witness(book: Casebook, link: Links, fault: int) -> bool:
    """Whether a supply code was read while the supply still failed, the engine running and nothing connected."""
    events = link.events[int(book.fault_session[fault])]
    return events.lasting is not None and book.facts[fault].supply in (events.lasting, "fault") and bool(
        (book.seen[fault, events.lasting_from:] == 1).any())


def is_lone(book: Casebook, link: Links, fault: int) -> bool:
    """Whether one module alone holds this supply code since the clear at a full supply that has not failed since."""
    return bool((link.lone[fault] > 1).any()) and link.events[int(book.fault_session[fault])].lasting is None


def _witness_words(book: Casebook, link: Links, fault: int) -> str:
    """What a supply code is the witness of: an event, or the feed of the one module that holds it."""
    events = link.events[int(book.fault_session[fault])]
    if book.facts[fault].supply == "high":
        return f"{WITNESS} an overvoltage, not a fault of its own"
    if (events.local or is_lone(book, link, fault)) and (path := drop_at(
            book, int(book.fault_session[fault]), book.shown(int(book.fault_module[fault])))) is not None:
        peers = ", and its peers hold no such code" if is_lone(book, link, fault) else ""
        return f"{FED} ({path}){peers}: that path comes before the module and its parts"
    if events.local:
        return ("the supply was good and a drop was measured on a path: it speaks of the feed or ground of "
                f"{book.shown(int(book.fault_module[fault]))}, held against that path first")
    if events.lone or is_lone(book, link, fault):
        return ("one module alone holds it while its peers do not: it speaks of the feed or ground of "
                f"{book.shown(int(book.fault_module[fault]))}")
    return f"{WITNESS} a supply event, not a fault of its own"


def _low_words(book: Casebook, line: Timeline, link: Links, fault: int) -> str:
    """How low the supply was for a code that a low supply explains best."""
    session = int(book.fault_session[fault])
    columns = [column for column in range(len(book.order[session])) if book.seen[fault, column] == 1]
    # What came back after a clear was not set by a dip before it.
    since = [column for column in columns if book.phase[session, column] > 0]
    columns = since or columns
    supply = [float(np.fmin(book.lowest[session, column], book.volts[session, column])) for column in columns]
    events = link.events[session]
    if events.lasting == "low" and since and since[0] >= events.lasting_from:
        limit = ", and its type speaks of a voltage" if book.failure_type[fault] in VOLTAGE_TYPES else ""
        return (f"it came while the charging failed, {np.nanmin(supply):.1f} V read{limit}: mend that, "
                "clear and read again")
    if any(volts < LOW * line.scale[session] for volts in supply):
        return f"the supply fell to {np.nanmin(supply):.1f} V when it was seen, low enough to set it"
    highest = max((volts for column in columns if (volts := float(book.volts[session, column])) == volts), default=0.0)
    if highest > TOO_MUCH * line.scale[session]:
        return f"the supply stood at {highest:.1f} V when it was seen: too much, which may be what set it"
    if supply and all(volts == volts for volts in supply):
        level = "good" if min(supply) >= GOOD * line.scale[session] else f"no lower than {min(supply):.1f} V"
        when = "in every scan that shows it since the clear" if since else "whenever it was read"
        # A dip is only held against a code where something shows that the supply was weak in that time.
        shown = bool((link.supply_codes[session, columns] > 0).any()) if since else link.events[session].low
        tail = ("a drop was measured on a path, which may be what set it" if link.events[session].local else
                "a dip that nobody noted could have set it" if shown else "nothing shows a dip between the scans")
        return f"the supply was {level} {when}; {tail}"
    return "a low supply could have set it; nobody read how low the supply was"


def _monitor(name: str) -> str:
    return {"key on": "runs at key on", "commanded output": "needs the output commanded", "network": "runs at key on",
            "running": "needs the engine running", "warm": "needs a warm engine", "speed": "needs road speed",
            "drive cycle": "needs a mixed drive", "cold soak": "needs a cold soak of hours",
            "event": "needs its event", "high voltage": "needs the drive enabled"}[name]


def clean_words(book: Casebook, link: Links, tested: Floats, fault: int) -> str | None:
    """How long clean is clean: clean runs since it was last seen, with the 95 % bound on its rate per run. No code of
    what charges was tested clean in a run that was measured not to charge.

    ``tested`` (N x K): chance that its monitor came to a result, zero at a supply that is low or was not read.
    """
    session = int(book.fault_session[fault])
    columns = list(range(len(book.order[session])))
    seen = [column for column in columns if book.seen[fault, column] == 1]
    since = [column for column in columns if book.phase[session, column] > 0 and book.seen[fault, column] == 0
             and float(tested[fault, column]) >= 0.5 and (not seen or column > seen[-1])]
    events = link.events[session]
    if events.uncharged_from >= 0 and any(word in book.facts[fault].title for word in CHARGERS):
        since = [column for column in since if column < events.uncharged_from]
    if not since:
        return None
    runs = len(since)
    if runs == 1:
        return "did not return in one clean test, which rules out no intermittent"
    return (f"did not return in {runs} clean tests: an intermittent that shows in up to {clean_bound(runs) * 100:.0f} "
            "% of such tests could still hide (95 % bound), where its trigger was present")


__all__ = ["CAME_BACK", "PHASES", "band", "clean_bound", "clean_words", "phase_words", "reasons", "volts_words"]
