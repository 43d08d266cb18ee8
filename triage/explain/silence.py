"""What is told of silent modules beside the list of faults: who is missed, by whom, and what several of them share."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from triage.explain.pointers import MOST as MOST_POINTERS
from triage.explain.pointers import empty_pointers, pointer_words
from triage.explain.reasons import on_it
from triage.explain.silent_titles import silent_title
from triage.explain.silent_together import listed, together_words
from triage.explain.unnamed_loss import may_be_missed, never_heard
from triage.model.assessment import Root
from triage.model.casebook import ANSWERS, LOST, Casebook, Links, Story
from triage.model.session import printed_names

if TYPE_CHECKING:
    from triage.model.casebook import Floats

#: Network codes named as what a silent module may be missed by, at most.
MOST_MAY = 3
#: With what a module wakes that does not wake with the key.
AWAKE = {"trailer": "with the trailer coupled", "ready": "with the drive READY",
         "plug": "with the charging cable plugged in"}

def never_answered(book: Casebook, link: Links, session: int) -> dict[str, Root]:
    """Module -> its root, for each silent module of brakes, steering or restraints that nobody reports, at a good
    supply: it has no code to be listed by, and its lamp is on since it is silent. Likewise of one that was measured to
    be without feed or ground, whatever the reports of its loss are worth."""
    found = {}
    for story in link.stories.get(session, ()):
        facts = book.module_facts[story.modules[0]] if story.modules else None
        unfed = story.pins is not None and bool(story.pins.fuse)
        if facts is not None and story.kind == "silent module" and story.reporters and _dead(story):
            found[story.about] = _dead_root(book, story)
            continue
        if facts is None or story.kind != "silent module" or story.reporters or (
                facts.safety is None and not unfed and not story.fitted):
            continue
        answered = (book.state[story.modules[0]] == ANSWERS).any()
        there = story.fitted or (
            "it is told to hang on that fuse" if unfed else "its connector was measured" if story.pins is not None
            else "it was asked for, which tells that it may be fitted" if "retarder" in facts.name
            else "every such vehicle has one")
        since = "was heard before and" if answered else f"never answered, though {there}, and"
        why = [f"it {since} is silent at a good supply, while others answer",
               "what it holds can't be read; its lamp may be on since it is silent"]
        if facts.safety is None:
            why[1:] = ["what it holds can't be read"]
        if story.pins is not None:
            why.append(story.pins.words if unfed else f"measured at its connector: {story.pins.words}")
        if facts.awake == "trailer":
            why.append("a trailer has no neighbour that misses its brakes: not on the road with it until it answers")
        found[story.about] = Root(silent_title(book.shown(story.modules[0]), story.pins), facts.system, facts.safety,
                                  math.nan, why, "repair", [])
    return found


def _dead(story: Story) -> bool:
    """Whether a silent module was measured to have lost its feed or its ground."""
    return story.pins is not None and story.pins.lost is not None and not story.pins.fuse


def _dead_root(book: Casebook, story: Story) -> Root:
    """The root of a module that was measured to have lost feed or ground, where no report of its loss is established:
    the meter tells what the codes leave open."""
    module = story.modules[0]
    facts, words = book.module_facts[module], story.pins.words if story.pins is not None else ""
    by = listed([book.shown(other) for other in story.reporters], 4)
    return Root(silent_title(book.shown(module), story.pins), facts.system, facts.safety, math.nan, [
        f"reported lost by {by}", f"{book.shown(module)} was asked and stays silent",
        f"measured at its connector: {words}"], "repair", [])


def story_words(book: Casebook, story: Story, printed: dict[str, str] | None = None) -> str:
    """A story in one sentence: whom to check first, who speaks for it, what rivals it has."""
    shown = printed or {}
    names = [shown.get(book.module_name[module], book.module_name[module]) for module in story.reporters]
    about = shown.get(story.about, story.about)
    by = f"reported lost by {', '.join(names)}" if names else "reported lost by nobody"
    if story.kind == "lone reporter":
        return (f"{about} alone reports modules that answer: check {' or '.join(story.rivals)}"
                f" ({'; '.join(story.contradicting)})")
    head = f"{about} is silent, {by}" if story.kind == "silent module" else (
        f"all modules behind {about} are silent, {by}")
    if story.kind == "network":
        head = f"{on_it(book, story)} are silent on {about}, {by}"
    if story.pins is not None and (story.pins.sound or story.pins.wired):
        head += f"; measured at its connector: {story.pins.words}"
    against = f"; against it: {'; '.join(story.contradicting)}" if story.contradicting else ""
    return f"{head}: check {', then '.join(story.rivals)}{against}"


def _silence_words(book: Casebook, link: Links, module: int, printed: dict[str, str]) -> tuple[str, str]:
    """What the silence of a module may mean, of one alone and of several: by when it should be awake and by who misses
    it."""
    facts = book.module_facts[module]
    missed = sorted({printed.get(name, name) for fault in np.flatnonzero(link.target == module).tolist()
                     if link.relation[fault] == LOST for name in (book.module_name[book.fault_module[fault]],)})
    if missed:
        verb, ask = "misses" if len(missed) == 1 else "miss", AWAKE.get(facts.awake, "at good supply")
        told = f"; {', '.join(missed)} {verb} %s: ask %s again {ask}, then check %s feed and ground"
        return told % ("it", "it", "its"), told % ("them", "them", "what they share,")
    if facts.awake == "trailer":
        told = (": with the trailer coupled check %s socket, fuse and ground; without one %s not fitted. No module "
                "misses %s, so it proves nothing yet")
        return told % ("its", "it is", "it"), told % ("their", "they are", "them")
    if facts.awake in ("ready", "plug"):
        when = "the drive is READY" if facts.awake == "ready" else "the charging cable is plugged in"
        told = f": %s may sleep until {when}; no module misses %s, so it proves nothing"
        return told % ("it", "it"), told % ("they", "them")
    may = may_be_missed(book, link, int(book.module_session[module]))
    if may:
        codes = listed([f"{book.shown(int(book.fault_module[fault]))} {book.code[fault]}" for fault in may[:MOST_MAY]])
        told = (": asleep, not fitted or without feed; no module misses %s by name, but %s, which only the maker's "
                "list explains, may be about that: look it up")
        return told % ("it", codes), told % ("them", codes)
    told = ": asleep, not fitted or without feed; no module misses %s, so it proves nothing"
    return told % "it", told % "them"


def stories(book: Casebook, link: Links, refused: Floats, session: int) -> list[str]:
    """Findings that are about modules, not codes: silence, clears that did not take."""
    told: list[str] = []
    first, last = int(book.first_fault[session]), int(book.first_fault[session + 1])
    printed = printed_names(book.sessions[session])
    groups = link.shared.get(session, [])
    shared = {module for group in groups if not group.back for module in group.modules}
    told += [together_words(book, group) for group in groups]
    told += [story_words(book, story, printed) for story in link.stories.get(session, [])
             if not (story.kind == "silent module" and story.modules[0] in shared)]
    pointers = empty_pointers(book, link).get(session, [])
    told += [pointer_words(book, link, one, printed) for one in pointers[:MOST_POINTERS]]
    if len(pointers) > MOST_POINTERS:
        told.append(f"{len(pointers) - MOST_POINTERS} more codes point at modules that show nothing")
    told += link.findings.get(session, [])
    told += _never_heard(book, link, session, printed)
    for module in range(int(book.first_module[session]), int(book.first_module[session + 1])):
        name = printed.get(book.module_name[module], book.module_name[module])
        # A crash record outlives every clear by design and says nothing about one.
        faults = [fault for fault in range(first, last)
                  if book.fault_module[fault] == module and book.facts[fault].monitor != "event"]
        if len(faults) > 1 and all(refused[fault] > 0.5 for fault in faults):
            told.append(f"{name}: its whole list of {len(faults)} codes stayed after the clear, so the clear did not "
                        "take there; clear it again and write down the answer")
    return told


def _never_heard(book: Casebook, link: Links, session: int, printed: dict[str, str]) -> list[str]:
    """The modules that never answered and that no story explains, those of which the same is to be said in one line."""
    by_words: dict[tuple[str, str], list[str]] = {}
    for module in never_heard(book, link, session):
        by_words.setdefault(_silence_words(book, link, module, printed), []).append(
            printed.get(book.module_name[module], book.module_name[module]))
    return [f"{listed(names)} never answered{several if len(names) > 1 else alone}"
            for (alone, several), names in by_words.items()]


__all__ = ["never_answered", "stories"]
