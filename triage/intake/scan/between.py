"""Of which scan a voltage is that stands between two: of the one above it or of the one that starts below.

A blank line parts it from the codes above, and the heading of the next scan comes below it. The whole text tells where
it keeps its voltages: behind the last codes of all, or above the first.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import conditions, dates, otherthings, phases, voltmoments, volts
from triage.intake.said.answers import spoken
from triage.intake.scan.assembly import SnapshotDraft
from triage.model.snapshot import Phase

#: What was done to come to the next scan ("charged it to 12.8 V"), where no event is told by it.
_DONE = lazily(
    r"(?<![a-z])(?:charged|jumped|started it|then|next|geladen|danach|dann|recharge|ensuite|puis|cargado|despues|luego)"
    r"(?![a-z])"
)
_DEVICES = ("charger", "jump pack", "donor vehicle")
_CHARGED = lazily(r"(?<![a-z])(?:charged|jumped|geladen|recharge|cargad[oa])(?![a-z])")
#: A state of the scan, though it names what fed the vehicle: "on charger, 12.9 V".
_STATE = lazily(r"\s*(?:on|with|mit|am|avec|sous|sur|con|en)\s")

#: "## After clear", "=== After clear ===", "[After clear]".
_MARKED = lazily(r"[\s>]{0,8}(?:#{1,6} ?\w|[=*-]{2,12} ?\w|\[\w)")


class Held(NamedTuple):
    """A row about the scan that stands behind the modules of ``snapshot``, at a place of the text; ``parted`` from
    them by a blank line."""

    row: Row
    snapshot: SnapshotDraft
    at: int
    parted: bool
    #: It tells what was changed between two scans: of the one above it says nothing.
    changes: bool = False


#: The engine was started or stopped, or what feeds the vehicle was put on or taken off, at some moment.
_STARTED = lazily(
    r"(?<![a-z])(?:(?:engine|motor|eng) (?:was |then )?started|(?:re)?started (?:the |up the )?(?:engine|motor|eng|it|"
    r"car|vehicle|van)|fired (?:it|her|the engine) up|(?:engine|motor) (?:gestartet|arrancado)|"
    r"moteur (?:demarre|lance)|"
    r"(?:engine|ignition) (?:switched|turned|shut) (?:off|on)|motor (?:abgestellt|apagado|parado) (?:um|a las)|"
    r"moteur (?:arrete|coupe) a)(?![a-z])"
)
_SHORT = 30
_AMPS = lazily(r"(?<![0-9.,])[0-9]{1,3} ?a(?:mps?)?(?![a-z0-9])")
_CHANGED = lazily(
    r"(?<![a-z])(?:put|took|taken|unplugged|unhooked|hooked up|plugged in|disconnected|removed|abgeklemmt|angeklemmt|"
    r"angesteckt|abgesteckt|abgenommen|debranchee?|branchee?|retiree?|desconectad[oa]|quitad[oa]|retirad[oa])(?![a-z])"
)


@remembered
def tells_change(low: str) -> bool:
    """Whether a row tells that the supply from outside or the engine was changed, at a moment of its own or by the
    verb for it, and neither a voltage nor that the vehicle ran.

    >>> [tells_change(low) for low in ("10:40 charger off, engine started", "chargeur debranche, moteur demarre")]
    [True, True]
    >>> [tells_change(low) for low in ("charger on", "12.9 v, charger removed", "10:55 engine running 12 min")]
    [False, False, False]
    """
    deeds = {deed.what for deed in phases.events(low)}
    fed = not deeds.isdisjoint(("outside supply on", "outside supply off"))
    started = _STARTED.search(low) is not None
    if not fed and not started:
        return False
    said = conditions.find(low)
    if said.ran_minutes is not None or said.drove or volts.find(low) or phases.find(low) or phases.scan_head(low):
        return False
    if fed and _AMPS.search(low) is not None:
        # "Charger connected 30 A", behind the modules of a scan
        return True
    if fed and ("cleared" in deeds or ("outside supply off" in deeds and len(low) <= _SHORT)):
        # "Cleared, ABS refused, charger on"; "charger off" alone behind the modules.
        return True
    return started or dates.clock(low) is not None or _CHANGED.search(low) is not None


class Habit(NamedTuple):
    """Where a text keeps its voltages, each a set of "supply" and "lowest": above the first heading of a scan, above
    the first codes and answers, and behind the last."""

    above_head: frozenset[str]
    leading: frozenset[str]
    trailing: frozenset[str]


def habit(rows: Sequence[Row]) -> Habit:
    """The habit of a text."""
    above_head: set[str] | None = None
    leading: set[str] = set()
    for row in rows:
        if _of_modules(row):
            break
        if above_head is None and not row.blank and _heads(row.low):
            above_head = set(leading)
        leading |= kinds(row)
    trailing: set[str] = set()
    for row in reversed(rows):
        if _of_modules(row):
            break
        trailing |= kinds(row)
    return Habit(frozenset(above_head or ()), frozenset(leading), frozenset(trailing))


def is_of_the_scan_above(held: Held, rows: Sequence[Row], at: int, told: Habit) -> bool:
    """Whether a held row is of its own snapshot and not of the one that starts with the row at ``at``."""
    here = kinds(held.row)
    apart = any(row.blank for row in rows[held.at : at + 1])
    if not held.parted and apart:
        # It stands right below the modules, and apart from what follows.
        return not any(deed.what == "cleared" for deed in phases.events(held.row.low))
    if "supply" in here and _is_measured(held.row.low) and _cleared_behind(rows, held.at, at):
        # Read before the clear, and the scan below has a supply of its own.
        return True
    if not here or leads_on(held.row.low, bool(told.trailing)):
        return False
    if told.trailing and not here & told.leading:
        return True
    if here & told.above_head:
        return False
    if here & _own(rows, at):
        return True
    if not apart and not _is_marked(rows[at]):
        # It stands right above the heading of the scan below, and apart from the codes above.
        return False
    if "supply" in here:
        return held.snapshot.volts is None
    return held.snapshot.lowest is None


def _is_measured(low: str) -> bool:
    """Whether a row tells what the vehicle had with its engine running, and of nothing that feeds or charged it."""
    said = conditions.find(low)
    return said.engine == "running" and said.outside_supply not in _DEVICES and _CHARGED.search(low) is None and not (
        said.ran_minutes or said.drove)


def _cleared_behind(rows: Sequence[Row], held: int, at: int) -> bool:
    """Whether the codes were cleared between a held row and the scan at a place, and the supply read behind that."""
    clear = next((place for place in range(held + 1, min(at + 1, len(rows))) if any(
        deed.what == "cleared" for deed in phases.events(rows[place].low))), None)
    return clear is not None and "supply" in _own(rows, clear)


def _is_marked(row: Row) -> bool:
    """Whether a row is set as the heading of a section: what stands above it is of the section before."""
    return _MARKED.match(row.line.text) is not None


_SENTENCES = lazily(r"[;|.](?=\s)")
_PARTS = lazily(r"[,;/|](?=\s)|\s(?:and|then|und|dann|et|puis|y|luego)\s")
#: "Right after" and "after 20 min" are of the scan that is being told.
_BARE = lazily(r"(?<![a-z])(?:(before(?! (?:i|we) )|vorher|avant|antes)|(?<!right )(?<!just )(?<!straight )"
               r"(?<!directly )(?:after|nachher|danach|apres|despues)(?! [0-9]))(?![a-z])")

_MINUTES_ON = lazily(r"(?:after|nach|apres|despues de|tras) [0-9]{1,3} ?min[a-z]*[ :=]{1,3}"
                      r"[0-9]{1,2}[.,][0-9]{1,2} ?v?")


@remembered
def by_phase(low: str) -> tuple[tuple[Phase, float], ...]:
    """The supply of several scans told in one line, each by its phase; () where fewer than two are.

    >>> by_phase("battery: 11.3 v before, 12.8 v after clear"), by_phase("after clear 12.8 v, lowest 11.1 v")
    ((('before-clear', 11.3), ('after-clear', 12.8)), ())
    """
    if len(low) > 160 or len(volts.find(low)) < 2:
        return ()
    if any(voltmoments.moment(low, volt.start, volt.end) == "earlier" for volt in volts.find(low)):
        # "9.8 V before charging, 12.4 V after" is of one scan.
        return ()
    for cut in (_SENTENCES, _PARTS):
        found: dict[Phase, float] = {}
        for part in cut.split(low):
            told = [volt for volt in volts.find(part) if volt.of != "nominal"]
            hit, bare = phases.find(part), _BARE.search(part)
            if hit is not None and _MINUTES_ON.fullmatch(part.strip()):
                hit = None  # "12.2 V READY, after 10 min 12.0 V": of the scan that is being told
            fits = len(told) == 1 and told[0].of in ("supply", "bare", "named") and 3.0 <= told[0].value <= 36.0
            if fits and (hit is not None or bare is not None):
                phase: Phase = hit.phase if hit is not None else "before-clear" if bare and bare[1] else "after-clear"
                found.setdefault(phase, told[0].value)
        if len(found) >= 2:
            return tuple(found.items())
    return ()


#: "12.1 V, after 2 min 11.9", "11,9 nach 3 min": right beside a voltage.
_OVER_TIME = lazily(r"(?:after|nach|apres|despues de|tras|al cabo de) [1-5] ?min[a-z]*")


@remembered
def over_time(low: str) -> bool:
    """Whether a row tells how a voltage went within some minutes, which is no run behind which a scan was taken.

    >>> [over_time(low) for low in ("running 12.1 v and falling, 11.9 after 2 min", "after 2 min 14.1 v")]
    [True, False]
    """
    told = _OVER_TIME.search(low)
    found = volts.find(low) if told is not None else ()
    return told is not None and len(found) > 1 and any(
        0 <= told.start() - volt.end <= 3 or 0 <= volt.start - told.end() <= 3 for volt in found)


def _own(rows: Sequence[Row], at: int) -> set[str]:
    """The voltages of a scan that starts at a place, up to its first module."""
    found: set[str] = set()
    for row in rows[at : at + 12]:
        if _of_modules(row):
            break
        found |= kinds(row)
    return found


def kinds(row: Row) -> set[str]:
    """Which voltages of the vehicle a row without codes states: "supply", "lowest"."""
    if row.blank or row.finds.codes:
        return set()
    of = {volt.of for volt in volts.find(row.low)}
    return ({"supply"} if of & {"supply", "bare", "end", "made"} else set()) | ({"lowest"} & of)


@remembered
def _heads(low: str) -> bool:
    return phases.find(low) is not None or phases.scan_head(low) is not None


def _of_modules(row: Row) -> bool:
    """Whether a row tells of modules: a code, an answer, a row of a table."""
    return not row.blank and bool(
        row.finds.codes or row.roles or (spoken(row.low) and not otherthings.alone(row.low)))


def leads_on(low: str, often: bool) -> bool:
    """Whether a row tells what was done before the scan below: a deed, a run. ``often``: voltages stand behind the
    scans of this text, also those taken with a charger on."""
    said = conditions.find(low)
    if said.ran_minutes is not None or said.drove or _DONE.search(low):
        return True
    for deed in phases.events(low):
        fed = deed.what in ("outside supply on", "outside supply off")
        if not fed or not (often or _STATE.match(low)):
            return True
    return False
