"""Draws the vehicle, its modules and the noise that a sagging supply leaves in them.

Each fault carries the mechanism by which it sets; whether a scan shows it is worked out in ``worlds_scan``.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, field

from worlds_catalog import (
    FAILURE_TYPES,
    LEVELS,
    MAKER_KINDS,
    MAKER_RANGES,
    CodeKind,
    ModuleKind,
    module_kinds,
)
from worlds_styles import Style
from worlds_supply import Supply, log_uniform


@dataclass(slots=True)
class Module:
    """One module of one vehicle. ``dropout``: volts at which it stops talking; ``drop``: volts lost on the way."""

    kind: ModuleKind
    printed: str
    dropout: float
    drop: float
    base: float  # level of its own codes, for styles that set noise by module
    memory: bool
    failure_types: bool
    own: list[CodeKind] = field(default_factory=list)
    silent: str = ""  # "", "unfed", "rebooting", "asleep"
    mended: int = 99  # interval from which it is fed again
    replaced: int = 99  # interval before which another module was put in
    refuses: bool = False


@dataclass(slots=True)
class Fault:
    """One code in one module, its cause and what makes it set."""

    module: Module
    code: str
    failure_type: str | None
    cause: str
    monitor: str = "K"
    ease: str = "e"
    trips: int = 1
    root: str = ""
    threshold: float = 0.0  # low-voltage: sets below this, at the module
    seconds: float = 0.0  # ... for at least so long
    chance: float = 1.0  # ... with this chance; hard: seen, given opportunity
    rate: float = 0.0  # intermittent: per minute
    trigger: str = ""
    tau: float = 1.0  # minutes the monitor takes
    target: Fault | None = None  # echo: what it follows
    born: int = 0  # first interval in which it can set
    gone: int = 99  # interval from which it is repaired
    locked: bool = False  # outlives a clear by design
    wakes: bool = False  # tested at wake-up only
    safety: str | None = None

    @property
    def persists(self) -> bool:
        """Hard or intermittent, and not repaired."""
        return self.cause in ("hard", "intermittent") and self.gone == 99


class Vehicle:
    """Draws modules and faults of one session; ``faults`` holds what could be seen, one an identity."""

    def __init__(self, rng: random.Random, style: Style, supply: Supply) -> None:
        self.rng, self.style, self.supply = rng, style, supply
        self.drive = rng.choices(("petrol", "diesel", "hybrid", "electric"), (0.55, 0.3, 0.07, 0.08))[0]
        self.modules = self._modules()
        self.by_name = {m.kind.name: m for m in self.modules}
        self.faults: dict[tuple[str, str, str | None], Fault] = {}
        self.roots: list[dict[str, str | None]] = []
        self.programmed = False
        self.listens = 0.5 * rng.betavariate(2, 5)  # how readily modules report one another in this vehicle

    def _modules(self) -> list[Module]:
        rng, style = self.rng, self.style
        trim = rng.uniform(0.7, 2.6)  # how much of what can be fitted this vehicle has
        kinds = [k for k in module_kinds(self.drive) if k.fitted >= 1 or rng.random() < k.fitted * trim]
        wanted = rng.randint(18, 45)
        absent = [k for k in module_kinds(self.drive) if k not in kinds]
        kinds += rng.sample(absent, min(len(absent), max(0, 18 - len(kinds))))
        while len(kinds) > wanted:
            spare = [k for k in kinds if k.fitted < 1]
            kinds.remove(rng.choice(spare))
        short = rng.choice((True, False, None))
        memory = rng.random() < style.memory
        modules = []
        for kind in kinds:
            pick = 0 if short else (len(kind.names) - 1 if short is False else rng.randrange(len(kind.names)))
            margin = rng.uniform(0.0, 1.8)
            dropout = max(3.8, LEVELS[kind.level] - margin)
            module = Module(
                kind,
                kind.names[pick],
                dropout,
                rng.uniform(0, 0.35),
                dropout + rng.gauss(0.7, 0.5),
                memory,
                rng.random() < style.failure_types * (0.4 if kind.emission else 1.0),
            )
            module.own = self._maker_kinds(kind)
            modules.append(module)
        return modules

    def _maker_kinds(self, kind: ModuleKind) -> list[CodeKind]:
        """Codes of the maker's own numbers that this module knows."""
        rng, found = self.rng, []
        for _ in range(8):
            letter = "U" if rng.random() < 0.15 else kind.letter
            low, high = MAKER_RANGES[letter]
            marks = rng.choice(MAKER_KINDS[letter].split())
            found.append(CodeKind(f"{letter}{rng.randint(low, high):04X}", marks[0], marks[1]))
        return found

    def failure_type(self, module: Module, key: str) -> str | None:
        """A failure type that fits, in a module that gives them."""
        if not module.failure_types:
            return None
        return self.rng.choice(FAILURE_TYPES.get(key, ("00",)))

    def add(self, fault: Fault) -> Fault | None:
        """Keep ``fault`` unless its identity is taken; None if it is."""
        key = (fault.module.printed, fault.code, fault.failure_type)
        if key in self.faults:
            return None
        if fault.safety is None:
            fault.safety = fault.module.kind.safety
        self.faults[key] = fault
        return fault

    def pick(self, module: Module, hard: bool) -> CodeKind:
        """A code kind of the module, weighted by how often such a code sets."""
        rng = self.rng
        # Many modules' only standard codes are about supply and themselves: their hard faults bear own numbers.
        common = any(k.ease in "em" for k in module.kind.codes)
        maker = rng.random() < (
            0.6 * self.style.maker if hard and common else 1.0 if hard else self.style.maker * 1.25
        )
        kinds: list[CodeKind] = module.own if maker else list(module.kind.codes)
        if hard:
            ease = {"s": 0.02, "x": 0.08, "e": 1.0, "m": 1.6, "n": 0.05}
            weights = [ease[k.ease] * {"C": 0.2, "E": 0.1, "K": 0.5, "O": 0.6}.get(k.monitor, 1.0) for k in kinds]
        else:  # a monitor that is not running while the supply sags sets nothing
            ease = {"s": 2.5, "x": 1.4, "e": 0.4, "m": 0.05, "n": 1.5}
            weights = [
                ease[k.ease] * {"K": 1.0, "N": 1.0, "O": 0.15, "E": 0.15, "R": 0.15}.get(k.monitor, 0.03)
                for k in kinds
            ]
        return rng.choices(kinds, weights)[0]

    def misses(self, reporter: Module, partner: Module, cause: str, root: str, *, born: int = 0) -> Fault | None:
        """``reporter`` holds lost communication with ``partner``; safety goes by reporter, then target."""
        fault = Fault(
            reporter, partner.kind.lost or "", self.failure_type(reporter, "lost"), cause, "N", "n", 1, root
        )
        fault.chance, fault.born = self.style.seen, born
        fault.safety = reporter.kind.safety or partner.kind.safety
        return self.add(fault)

    # Low-voltage noise ------------------------------------------------------------------------------------------

    def add_noise(self) -> None:
        """Codes that set because the supply sagged: the modules' own, and what they say of each other."""
        style, rng = self.style, self.rng
        event = style.noise * rng.lognormvariate(0, 0.35) * 24.0 / (10 + 0.6 * len(self.modules))
        for module in self.modules:
            for _ in range(poisson(rng, 1.33 * event)):
                self._own_noise(module)
            partners = [m for m in self.modules if m.kind.lost and m is not module]
            for partner in rng.sample(partners, min(len(partners), rng.randint(2, 7))):
                if rng.random() < event * self.listens * 0.8:
                    self._report_noise(module, partner)

    def _level(self, module: Module, ease: str) -> float:
        """The level, at the module, below which one of its codes sets."""
        rng = self.rng
        spread = {"s": (10.4, 0.8), "e": (9.5, 0.9), "x": (7.3, 1.0), "m": (7.6, 1.0), "n": (8.8, 0.9)}[ease]
        if self.style.by_module and ease != "s":
            return module.base + rng.gauss(0, 0.3)
        return min(rng.gauss(*spread), 11.6)

    def _own_noise(self, module: Module) -> None:
        rng = self.rng
        kind = self.pick(module, hard=False)
        level = self._level(module, kind.ease)
        # What a sound battery's crank could set would stand in every vehicle: such levels take longer.
        least = log_uniform(rng, 3, 90) if level > 9.4 else log_uniform(rng, 0.02, 3)
        fault = Fault(
            module,
            kind.code,
            self.failure_type(module, kind.monitor + kind.ease),
            "low-voltage",
            kind.monitor,
            kind.ease,
            kind.trips,
            "supply",
            level,
            least,
            rng.uniform(*self.style.sets_again),
        )
        if any(sets(fault, interval.dips) for interval in self.supply.intervals):
            self.add(fault)

    def _report_noise(self, module: Module, partner: Module) -> None:
        """``module`` misses ``partner`` when that drops out first, or while it starts again later."""
        rng = self.rng
        invalid = partner.kind.invalid and rng.random() < 0.06
        code = partner.kind.invalid if invalid else partner.kind.lost
        alive = 1.0 if module.dropout + module.drop < partner.dropout + partner.drop else 0.5
        level = partner.dropout + partner.drop + rng.gauss(0.2, 0.15)
        fault = Fault(
            module,
            code or "",
            self.failure_type(module, "invalid" if invalid else "lost"),
            "low-voltage",
            "N",
            "n",
            1,
            "supply",
            level,
            log_uniform(rng, 3, 30) if level > 9.4 else log_uniform(rng, 0.1, 5),
            rng.uniform(*self.style.sets_again),
            safety=module.kind.safety or partner.kind.safety,
        )
        if rng.random() < alive and any(sets(fault, interval.dips) for interval in self.supply.intervals):
            self.add(fault)


def sets(fault: Fault, dips: list[tuple[float, float]]) -> bool:
    """Whether one of the dips is deep and long enough for a low-voltage code to set."""
    return any(level - fault.module.drop < fault.threshold and seconds >= fault.seconds for level, seconds in dips)


def poisson(rng: random.Random, mean: float) -> int:
    """A Poisson count, by adding waiting times."""
    count, waited = 0, rng.expovariate(1.0)
    while waited < mean:
        count += 1
        waited += rng.expovariate(1.0)
    return count
