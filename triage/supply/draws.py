"""The current from the battery with the key off: what was read with everything connected, and which circuit carries it.

A low reading behind one that failed passes only where something was mended between, or where the first may have been
taken before the modules slept: a draw that comes and goes is no good draw.
"""

from __future__ import annotations

import re
from dataclasses import replace

from triage.model.parts import battery_renewed, says_mended
from triage.model.session import Session, stamp
from triage.model.verdict import SupplyState
from triage.supply.finding import Finding
from triage.supply.limits import limit
from triage.supply.measurements import key_off_draw
from triage.supply.named import Measured
from triage.supply.record_parts import Taken, joined

#: A circuit without which less than this part of a current is left draws most of it.
_SHARE = 2.0
_CALLED = (r"(?:(?:key[- ]?off|parasitic|quiescent) (?:draw|current)|ruhestrom|courant de repos|corriente de reposo|"
           r"consumo en reposo|draw)")
#: What a name says of the measurement beside what was pulled.
_DRAW_WORDS = re.compile(rf"^{_CALLED}[ ,:]*(?:(?:it )?(?:drops|falls|down|goes) to )?|[ ,:>-]*{_CALLED}$",
                         re.IGNORECASE)
#: "Pulled fuse 31": what was done before what it was done to.
_TAKEN_OFF = re.compile(
    r"(?:i |we |ich |je |j'|on |after |when |nach |beim |apr[eè]s (?:avoir )?|en |al |tras )?(?:\b|(?<='))"
    r"(pull(?:ed|ing)?|remov(?:ed|ing|e)|unplug(?:ged|ging)?|disconnect(?:ed|ing)?|gezogen|ziehen|ziehe|zieht|abgesteckt|"
    r"abziehen|abstecken|d[ée]branch(?:[ée]e?|e|er|ant)|retir(?:[ée]e?|er|ant)|enl[eè]v(?:[ée]e?|e|er|ant)|"
    r"desenchuf(?:ad[oa]|o|ar|ando)|desconect(?:ad[oa]|o|ar|ando)|quit(?:ad[oa]|o|ar|ando)|sac(?:ad[oa]|o|ar|ando))"
    r"[ :]+(?:of |von |de )?(?:the |der |die |das |dem |den |le |la |les |el |los |l')?(?=\S)", re.IGNORECASE)
_UNPLUGGED = ("unplug", "disconn", "abge", "abst", "abzi", "debr", "débr", "desen", "descon")
#: The same behind what it was done to: "mit Sicherung 27 gezogen".
_TAKEN_BEHIND = re.compile(
    r"(?:with|mit|avec|con) (?:the |der |die |das |dem |den |le |la |el |l')?(.{1,60}?) "
    r"(gezogen|abgezogen|abgesteckt|d[ée]branch[ée]e?|retir[ée]e?|enlev[ée]e?|desenchufad[oa]|desconectad[oa]|"
    r"quitad[oa]|sacad[oa])", re.IGNORECASE)
_WITHOUT = re.compile(r"(?:without|ohne|sans|sin) (?:the |der |die |das |den |le |la |el |l')?(?=\S)", re.IGNORECASE)
_CLOCK = re.compile(r"(?<![0-9:.,])([01]?[0-9]|2[0-3])[:h]([0-5][0-9])(?![0-9:])")
_ASLEEP = re.compile(r"(?<![a-z])(?:asleep|sleep|sleeping|settled|finally|eingeschlafen|endormis?|"
                     r"dormid[oa]s?)(?![a-z])")
_DAY = 24 * 60


def draw(measured: Taken, session: Session) -> tuple[SupplyState, str]:
    """State and reason of the key-off draw, by what was read with nothing pulled; other readings tell the branch."""
    most = limit("key-off draw")
    if not measured.draws:
        if not measured.branches:
            return "not tested", "nobody measured the current after the modules went to sleep"
        told = joined([f"{one.value:.0f} mA ({one.name})" for one in measured.branches])
        if (least := min(one.value for one in measured.branches)) > most:
            return "failed", f"{told}: even so above {most:.0f} mA ({least:.0f} mA at least)"
        return "not tested", f"{told}: nobody measured the current with everything connected"
    found = _standing(measured.draws, session)
    whole = found.figures.get("milliamps")
    if found.state == "proven" or not isinstance(whole, float):
        return found.state or "not tested", found.text
    told = joined([f"{'down to ' if one.value < whole else ''}{one.value:.0f} mA {_branch(one)}: " + (
        "its circuit draws it" if one.value <= max(most, whole / _SHARE) else "its circuit is not all of it"
        if one.value < whole else "not its circuit") for one in measured.branches])
    minutes = found.figures.get("minutes")
    named = any(one.value <= most for one in measured.branches) and isinstance(minutes, (int, float)) and (
        minutes >= limit("modules asleep from"))
    # With one thing pulled all else sleeps: what draws is no module that only needs more time.
    state = "failed" if named else found.state or "not tested"
    text = found.text
    if named:
        text = f"key-off draw {whole:.0f} mA {minutes:.0f} min after locking against {most:.0f} mA: too much"
    return state, f"{text}{'; ' if told else ''}{told}"


def _standing(draws: list[tuple[int, Measured]], session: Session) -> Finding:
    """The reading that counts: the last, unless an earlier one failed and nothing was mended since."""
    place, one = draws[-1]
    last = _judged(one)
    clocks = [_clock(read) for _, read in draws]
    first = next((clock for clock in clocks if clock is not None), None)
    for (before, earlier), clock in zip(draws[-2::-1], clocks[-2::-1], strict=True):
        found = _judged(earlier)
        if last.state == "failed" or found.state != "failed" or _mended(session, before, place):
            continue
        # Without a time nobody knows whether the modules slept; by the clock they had at least since the first.
        since = None if clock is None or first is None else (clock - first) % _DAY
        awake = earlier.hours is None and (since is None or since < limit("modules asleep to"))
        later = f"; {one.value:.0f} mA when read once more, with nothing mended between"
        if not awake:
            return replace(found, text=f"{found.text}{later}: it comes and goes")
        if one.hours is None and clocks[-1] is None and not _ASLEEP.search(one.name.casefold()):
            return replace(found, text=f"{found.text.partition(':')[0]}{later}, and nobody says how long after "
                                       "locking: read it again, locked for an hour", state="not tested")
    return last


def _judged(one: Measured) -> Finding:
    minutes = None if one.hours is None else one.hours * 60.0
    return key_off_draw(one.value, minutes=minutes, asleep=one.hours is None)


def _clock(one: Measured) -> int | None:
    """The time of day in a name, in minutes."""
    told = _CLOCK.search(one.name)
    return int(told[1]) * 60 + int(told[2]) if told is not None else None


def _mended(session: Session, before: int, place: int) -> bool:
    """Whether something that may have drawn was mended between two snapshots, or in the one of both readings."""
    if any(shot.phase == "after-repair" for shot in session.snapshots[before + 1 : place + 1]):
        return True
    start = session.snapshots[before].at
    return any((event.what == "replaced" or says_mended(event)) and not battery_renewed(event) and (
        event.at is None or start is None or stamp(event.at) >= stamp(start)) for event in session.events or ())


def _branch(one: Measured) -> str:
    """What was pulled, as the name has it, told in one way whatever it was put down in."""
    words = _DRAW_WORDS.sub("", one.name).strip(" ,:")
    if (behind := _TAKEN_BEHIND.fullmatch(words)) is not None:
        return f"with {behind[1]} {'unplugged' if behind[2].casefold().startswith(_UNPLUGGED) else 'pulled'}"
    if (bare := _WITHOUT.match(words)) is not None:
        return f"without {words[bare.end():]}"
    if words.casefold().startswith(("with", "mit", "ohne", "avec", "sans", "con", "sin")):
        return words[:1].lower() + words[1:]
    if (found := _TAKEN_OFF.match(words)) is not None:
        verb = "unplugged" if found[1].casefold().startswith(_UNPLUGGED) else "pulled"
        return f"with {words[found.end():]} {verb}"
    return f"({words or one.name})"


__all__ = ["draw"]
