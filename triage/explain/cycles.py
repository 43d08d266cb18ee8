"""The cycles of on-board diagnostics as pure functions: the life of a code, warm-ups, trips, readiness.

A two-trip code fails once and is pending; failing again in the next cycle in which its monitor runs confirms it and
lights the lamp. A clean cycle erases the pending code; three put the lamp out; forty warm-ups may erase the code.

>>> figures = Figures()
>>> once = after_cycle(CodeLife(), Cycle(ran=True, failed=True), figures)
>>> once.pending, once.confirmed, after_cycle(once, Cycle(ran=True), figures).pending
(True, False, False)

Sources: 13 CCR 1968.2 (2007 text) (d)(2); 40 CFR 86.010-18, 86.1806-05, 86.010-2 (2015 edition); 40 CFR 85.2222. The
figures stand in ``code_tables/limits.csv``, each with its own source; :class:`Figures` repeats them as defaults.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Literal, NamedTuple

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.snapshot import Completeness


class Figures(NamedTuple):
    """The figures of the regulations. Cycles, seconds, km/h, degrees Celsius, kelvin, metres."""

    cycles_to_confirm: int = 2
    good_cycles_to_lamp_off: int = 3
    warm_ups_to_erase: int = 40
    warm_up_rise: float = 22.0
    warm_up_coolant: float = 71.0
    warm_up_coolant_diesel: float = 60.0
    engine_seconds: float = 600.0
    moving_seconds: float = 300.0
    moving_speed: float = 40.0
    idle_seconds: float = 30.0
    ambient_lowest: float = -7.0
    altitude_highest: float = 2400.0
    similar_speed: float = 375.0
    similar_load: float = 20.0


@lru_cache(maxsize=4)
def figures_of(tables: Tables) -> Figures:
    """The figures in ``tables`` (limits.csv). Raises TableError where one is missing."""
    limit = tables.limit
    return Figures(
        int(limit("cycles to confirm")), int(limit("good cycles to lamp off")), int(limit("warm-ups to erase")),
        limit("warm-up rise"), limit("warm-up coolant"), limit("warm-up coolant diesel"), limit("trip engine seconds"),
        limit("trip moving seconds"), limit("trip moving speed"), limit("trip idle seconds"),
        limit("trip ambient lowest"), limit("trip altitude highest"), limit("similar conditions engine speed"),
        limit("similar conditions load"))


# --- the life of one code --------------------------------------------------------------------------------------

@dataclass(frozen=True, slots=True)
class Cycle:
    """One driving cycle as one monitor saw it.

    ``similar``: the conditions of the first failure came up; only misfire and fuel system ask for it. ``trip``: the
    cycle met the criteria of :func:`meets_trip`. Raises ValueError for a failure of a monitor that did not run.
    """

    ran: bool
    failed: bool = False
    warm_up: bool = False
    similar: bool = True
    trip: bool = False

    def __post_init__(self) -> None:
        if self.failed and not self.ran:
            raise ValueError("a monitor that did not run can't have failed")


class CodeLife(NamedTuple):
    """Where a code stands at the end of a driving cycle.

    ``failures``: failing cycles in a row, ``passes``: passing ones with the lamp on, both among the cycles in which the
    monitor ran. ``warm_ups``: without the fault and with the lamp off. ``cleared``: a clear came after the code was
    made permanent; ``passed_since`` and ``trip_since`` are what it has collected towards its own erasure since.
    """

    pending: bool = False
    confirmed: bool = False
    lamp: bool = False
    permanent: bool = False
    failures: int = 0
    passes: int = 0
    warm_ups: int = 0
    cleared: bool = False
    passed_since: bool = False
    trip_since: bool = False

    def may_be_erased(self, figures: Figures) -> bool:
        """Whether the module may erase the stored code by itself: 40 CFR 86.1806-05 (e)(3)."""
        return self.confirmed and not self.lamp and self.warm_ups >= figures.warm_ups_to_erase


def after_cycle(
    life: CodeLife, cycle: Cycle, figures: Figures, *, trips: int | None = None, ratio: bool = True,
) -> CodeLife:
    """The code at the end of ``cycle``.

    ``trips``: failing cycles until it is confirmed (None: two; 1: at once, for example limp-home). ``ratio``: its
    monitor has a minimum in-use ratio, which decides how a permanent code goes after a clear.
    """
    if cycle.failed:
        # 13 CCR 1968.2 (d)(2.2.1)-(2.2.2); 40 CFR 86.010-18 (b)(2)(i)-(ii), (vi). A failure also starts the counts
        # towards erasure anew (read so; the text says "without a failure").
        reached = life.failures + 1 >= (trips or figures.cycles_to_confirm)
        lit = life.lamp or reached
        return life._replace(
            pending=True, confirmed=life.confirmed or reached, lamp=lit, permanent=life.permanent or reached,
            failures=life.failures + 1, passes=0, warm_ups=0, passed_since=False, trip_since=False,
            cleared=life.cleared and not lit)
    was_lit = life.lamp
    if cycle.ran and cycle.similar:
        life = _passed(life, figures)
    if cycle.warm_up and life.confirmed and not was_lit:
        life = life._replace(warm_ups=life.warm_ups + 1)
    return _permanent(life, cycle, ratio) if life.permanent and life.cleared else life


def _passed(life: CodeLife, figures: Figures) -> CodeLife:
    """A cycle in which the monitor ran and found nothing: 40 CFR 86.010-18 (b)(2)(ii), (b)(3)(i), (b)(3)(iii)(A)."""
    passes = life.passes + 1 if life.lamp else 0
    out = life.lamp and passes >= figures.good_cycles_to_lamp_off
    return life._replace(pending=False, failures=0, passes=0 if out else passes, lamp=life.lamp and not out,
                         permanent=life.permanent and not out)


def _permanent(life: CodeLife, cycle: Cycle, ratio: bool) -> CodeLife:
    """A permanent code after a clear, in a cycle without a failure: 40 CFR 86.010-18 (b)(3)(iii)(B) and (C)."""
    if ratio:
        return life._replace(permanent=not cycle.ran, cleared=not cycle.ran)
    passed, trip = life.passed_since or cycle.ran, life.trip_since or cycle.trip
    gone = passed and trip
    return life._replace(permanent=not gone, cleared=not gone, passed_since=passed and not gone,
                         trip_since=trip and not gone)


def after_clear(life: CodeLife) -> CodeLife:
    """The code after a clear by a tester, or after its power was taken: a permanent code stays, all else goes.

    40 CFR 86.010-18 (k)(4)(iv)(F): no command and no loss of power erases it.
    """
    return CodeLife(permanent=life.permanent, cleared=life.permanent)


def has_ratio(monitor: str) -> bool:
    """Whether a monitor class has a minimum in-use ratio: the once-per-cycle monitors do, circuits and misfire don't.

    Which class a monitor belongs to is worked out here from 40 CFR 86.010-18 (b)(3)(iii) and 86.1806-05 (e)(4).
    """
    return monitor in ("warm", "drive cycle", "cold soak")


def similar_conditions(
    first: tuple[float, float, bool], now: tuple[float, float, bool], figures: Figures,
) -> bool:
    """Whether engine speed (1/min), load (%) and warm state of ``now`` are those of the first failure.

    40 CFR 86.1806-05 (d)(1); "within 20 percent" of the load is taken of the load of the first failure.
    """
    return (abs(now[0] - first[0]) <= figures.similar_speed
            and abs(now[1] - first[1]) <= figures.similar_load / 100.0 * first[1] and first[2] == now[2])


# --- warm-ups and trips ----------------------------------------------------------------------------------------

def is_warm_up(start: float, highest: float, figures: Figures, *, diesel: bool = False) -> bool:
    """Whether a run from ``start`` to ``highest`` degrees Celsius of coolant is a warm-up cycle.

    >>> is_warm_up(15.6, 73.9, Figures()), is_warm_up(54.4, 73.9, Figures())
    (True, False)
    """
    least = figures.warm_up_coolant_diesel if diesel else figures.warm_up_coolant
    return highest - start >= figures.warm_up_rise and highest >= least


class Trip(NamedTuple):
    """What a driving cycle held: seconds since the start, seconds at 40 km/h and more, longest idle in one piece, s.

    Degrees Celsius and metres outside; None: not known. (Heavy diesels count seconds at 1150 1/min and more instead.)
    """

    engine_seconds: float
    moving_seconds: float
    idle_seconds: float
    ambient: float | None = None
    altitude: float | None = None


def meets_trip(trip: Trip, figures: Figures) -> bool:
    """The criteria a permanent code of a monitor without a ratio asks for: 40 CFR 86.010-18 (b)(3)(iii)(C)."""
    return (trip.engine_seconds >= figures.engine_seconds and trip.moving_seconds >= figures.moving_seconds
            and trip.idle_seconds >= figures.idle_seconds)


def counts_trip(trip: Trip, figures: Figures) -> bool | None:
    """Whether the general denominator counts this trip (40 CFR 86.010-18 (d)(4)(ii)); None where it can't be said."""
    if not meets_trip(trip, figures):
        return False
    cold = trip.ambient is not None and trip.ambient < figures.ambient_lowest
    high = trip.altitude is not None and trip.altitude >= figures.altitude_highest
    if cold or high:
        return False
    return None if trip.ambient is None or trip.altitude is None else True


# --- readiness and inspection ----------------------------------------------------------------------------------

class ReadinessLimit(NamedTuple):
    """How many monitors may be unset under one rule. ``only``: words of the monitors it may be (empty: any)."""

    rule: Literal["federal", "California"]
    years: str
    allowed: int
    only: tuple[str, ...]
    source: str

    @property
    def words(self) -> str:
        """The limit in words: "no more than 1 monitor not complete, the evaporative system only"."""
        if not self.allowed:
            return "every monitor complete"
        tail = {_EVAP: ", the evaporative system only", _DIESEL: ", particulate filter and NMHC catalyst only"}
        return (f"no more than {self.allowed} monitor{'s' if self.allowed > 1 else ''} not complete"
                f"{tail.get(self.only, '')}")


_EVAP = ("evap",)
_DIESEL = ("particulate", "pm filter", "dpf", "nmhc")


def federal_limits(tables: Tables) -> tuple[ReadinessLimit, ReadinessLimit]:
    """The two federal limits, 1996 to 2000 and 2001 on: 40 CFR 85.2222 (c)(2)."""
    old, new = "readiness unset allowed 1996 to 2000", "readiness unset allowed 2001 on"
    return (ReadinessLimit("federal", "1996 to 2000", int(tables.limit(old)), (), tables.limit_row(old).source),
            ReadinessLimit("federal", "2001 on", int(tables.limit(new)), (), tables.limit_row(new).source))


def readiness_limits(model_year: int, drive: str | None, tables: Tables) -> list[ReadinessLimit]:
    """The limits for a model year and drive ("petrol", "diesel", "hybrid"; a hybrid counts as petrol).

    Empty where no rule applies (older vehicles, electric drive); California needs the drive.
    """
    if drive == "electric" or model_year < tables.limit("readiness federal from"):
        return []
    old, new = federal_limits(tables)
    found = [old if model_year <= 2000 else new]
    if drive in ("petrol", "hybrid"):
        found.append(_california("petrol", "1996 to 1999", (), tables) if model_year <= 1999 else
                     _california("petrol", "2000 on", _EVAP, tables))
    elif drive == "diesel" and model_year >= tables.limit("readiness California diesel from"):
        found.append(_california("diesel", "1998 to 2006", (), tables) if model_year <= 2006 else
                     _california("diesel", "2007 on", _DIESEL, tables))
    return found


def _california(fuel: str, years: str, only: tuple[str, ...], tables: Tables) -> ReadinessLimit:
    row = tables.limit_row(f"readiness California {fuel} unset allowed {years}")
    return ReadinessLimit("California", years, int(row.value), only, row.source)


def unset_monitors(readiness: Mapping[str, Completeness]) -> list[str]:
    """The monitors that are fitted and not complete, in the order given."""
    return [name for name, state in readiness.items() if state == "incomplete"]


def within(unset: list[str], limit: ReadinessLimit) -> bool:
    """Whether the unset monitors keep within ``limit``."""
    return len(unset) <= limit.allowed and (not limit.only or all(
        any(word in name.lower() for word in limit.only) for name in unset))


def federal_inspection(
    limit: ReadinessLimit, unset: int, *, codes: int, lamp_commanded: bool, lamp_lit: bool | None = None,
    lamp_at_key_on: bool | None = None, connector: bool = True,
) -> tuple[Literal["pass", "fail", "not ready"], str]:
    """The outcome of the federal inspection and its ground: 40 CFR 85.2222 (c)(2), (d); 85.2207.

    ``lamp_lit`` and ``lamp_at_key_on`` None: nobody looked.
    """
    if not connector:
        return "fail", "the connector is missing or was tampered with"
    if lamp_at_key_on is False:
        return "fail", "the lamp stays dark with the key on and the engine off"
    if lamp_commanded and lamp_lit is False:
        return "fail", "the lamp is commanded on and stays dark"
    if lamp_commanded and codes:
        return "fail", f"the lamp is commanded on with {codes} stored code{'s' if codes > 1 else ''}"
    if unset > limit.allowed:
        return "not ready", f"{unset} monitors are not complete, {limit.allowed} may be"
    return "pass", "the lamp is not commanded on" if not lamp_commanded else "no code is stored with the lamp"


def just_cleared(
    unset: list[str], codes: int, tables: Tables, *, warm_ups: int | None = None, distance: float | None = None,
) -> bool:
    """Whether memory was cleared a short while ago: no code, several monitors not complete, fresh counters.

    ``warm_ups`` (255 means 255 or more) and ``distance`` (km) since the clear; None: not read. Worked out from SAE
    J1979 (counters) and 40 CFR 86.010-18 (k)(4)(i) (readiness goes with the memory).
    """
    return (codes == 0 and len(unset) >= tables.limit("just cleared monitors least")
            and (warm_ups is None or warm_ups <= tables.limit("just cleared warm-ups most"))
            and (distance is None or distance <= tables.limit("just cleared distance most")))
