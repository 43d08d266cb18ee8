"""Draws the vehicle and everything that can stand in its lists: noise, faults that persist, echoes and imitations.

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
    POINTERS,
    CodeKind,
    ModuleKind,
    module_kinds,
)
from worlds_styles import Style
from worlds_supply import Supply, log_uniform

ELECTRICAL = {"K": "Ke", "O": "Oe", "R": "Re", "S": "Se"}


@dataclass(slots=True)
class Module:
    """One module of one vehicle. ``dropout``: volts at which it stops talking; ``drop``: volts lost in its feed."""

    kind: ModuleKind
    printed: str
    dropout: float
    drop: float
    base: float                       # level of its own codes, for styles that set noise by module
    memory: bool
    failure_types: bool
    own: list[CodeKind] = field(default_factory=list)
    silent: str = ""                  # "", "unfed", "rebooting", "asleep"
    mended: int = 99                  # interval from which it is fed again
    replaced: int = 99                # interval before which another module was put in
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
    threshold: float = 0.0            # low-voltage: sets below this, at the module
    seconds: float = 0.0              # ... for at least so long
    chance: float = 1.0               # ... with this chance; hard: seen, given opportunity
    rate: float = 0.0                 # intermittent: per minute
    trigger: str = ""
    tau: float = 1.0                  # minutes the monitor takes
    target: Fault | None = None       # echo: what it follows
    born: int = 0                     # first interval in which it can set
    gone: int = 99                    # interval from which it is repaired
    locked: bool = False              # outlives a clear by design
    permanent: bool = False
    wakes: bool = False               # tested at wake-up only
    safety: str | None = None

    @property
    def persists(self) -> bool:
        """Hard or intermittent, and not repaired."""
        return self.cause in ("hard", "intermittent") and self.gone == 99


class Builder:
    """Draws modules and faults of one session; ``faults`` holds what could be seen, one an identity."""

    def __init__(self, rng: random.Random, style: Style, supply: Supply) -> None:
        self.rng, self.style, self.supply = rng, style, supply
        self.drive = rng.choices(("petrol", "diesel", "hybrid", "electric"), (0.55, 0.3, 0.07, 0.08))[0]
        self.modules = self._modules()
        self.by_name = {m.kind.name: m for m in self.modules}
        self.faults: dict[tuple[str, str, str | None], Fault] = {}
        self.roots: list[dict[str, str | None]] = []
        self.programmed = False
        self.listens = 0.5 * rng.betavariate(2, 5)     # how readily modules report one another in this vehicle

    def _modules(self) -> list[Module]:
        rng, style = self.rng, self.style
        trim = rng.uniform(0.7, 2.6)          # how much of what can be fitted this vehicle has
        kinds = [k for k in module_kinds(self.drive) if k.fitted >= 1 or rng.random() < k.fitted * trim]
        wanted = rng.randint(18, 45)
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
            module = Module(kind, kind.names[pick], dropout, rng.uniform(0, 0.35), dropout + rng.gauss(0.7, 0.5), memory,
                            rng.random() < style.failure_types * (0.4 if kind.emission else 1.0))
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
        maker = rng.random() < (0.6 * self.style.maker if hard else self.style.maker * 1.25) or not module.kind.codes
        kinds: list[CodeKind] = module.own if maker else list(module.kind.codes)
        if hard:
            ease = {"s": 0.02, "x": 0.08, "e": 1.0, "m": 1.6, "n": 0.05}
            weights = [ease[k.ease] * (0.2 if k.monitor in "CE" else 1.0) for k in kinds]
        else:       # a monitor that is not running while the supply sags sets nothing
            ease = {"s": 2.5, "x": 1.4, "e": 0.4, "m": 0.05, "n": 1.5}
            weights = [ease[k.ease] * {"K": 1.0, "N": 1.0, "O": 0.15, "E": 0.15, "R": 0.15}.get(k.monitor, 0.03) for k in kinds]
        return rng.choices(kinds, weights)[0]

    # Low-voltage noise ------------------------------------------------------------------------------------------

    def add_noise(self) -> None:
        """Codes that set because the supply sagged: the modules' own, and what they say of each other."""
        style, rng = self.style, self.rng
        event = style.noise * rng.lognormvariate(0, 0.35) * 24.0 / (10 + 0.6 * len(self.modules))
        for module in self.modules:
            for _ in range(_count(rng, 1.33 * event)):
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
        # A code that a sound battery's crank could set would stand in every vehicle: such levels have a longer least time.
        least = log_uniform(rng, 3, 90) if level > 9.4 else log_uniform(rng, 0.02, 3)
        fault = Fault(module, kind.code, self.failure_type(module, kind.monitor + kind.ease), "low-voltage", kind.monitor, kind.ease,
                      kind.trips, "supply", level, least, rng.uniform(*self.style.sets_again))
        if any(sets(fault, interval.dips) for interval in self.supply.intervals):
            self.add(fault)

    def _report_noise(self, module: Module, partner: Module) -> None:
        """``module`` misses ``partner`` when that drops out first, or while it starts again later."""
        rng = self.rng
        invalid = partner.kind.invalid and rng.random() < 0.25
        code = partner.kind.invalid if invalid else partner.kind.lost
        alive = 1.0 if module.dropout + module.drop < partner.dropout + partner.drop else 0.5
        level = partner.dropout + partner.drop + rng.gauss(0.2, 0.15)
        fault = Fault(module, code or "", self.failure_type(module, "invalid" if invalid else "lost"), "low-voltage", "N", "n", 1,
                      "supply", level, log_uniform(rng, 3, 30) if level > 9.4 else log_uniform(rng, 0.1, 5), rng.uniform(*self.style.sets_again), safety=module.kind.safety or partner.kind.safety)
        if rng.random() < alive and any(sets(fault, interval.dips) for interval in self.supply.intervals):
            self.add(fault)

    # Faults that persist ----------------------------------------------------------------------------------------

    def add_persisting(self) -> None:
        """None on some vehicles, else a few roots: single codes, a shared reference, a module that is not fed."""
        rng, style = self.rng, self.style
        if rng.random() < style.none:
            return
        if rng.random() < style.silent_module:
            self._silent_module()
        for _ in range(_count(rng, style.mean_extra) + (rng.random() < 0.8) + (not self.roots)):
            draw = rng.random()
            if draw < 0.015:
                self._lone_reporter()
            elif draw < 0.055:
                self._shared_reference()
            else:
                self.persisting(rng.choices(self.modules, [len(m.kind.codes) ** 0.6 for m in self.modules])[0])

    def persisting(self, module: Module, kind: CodeKind | None = None, root: str | None = None) -> Fault | None:
        """One code that persists, hard or intermittent; its own root unless one is given."""
        rng, style = self.rng, self.style
        kind = kind or self.pick(module, hard=True)
        fault = Fault(module, kind.code, self.failure_type(module, kind.monitor + kind.ease), "hard", kind.monitor, kind.ease,
                      kind.trips if style.two_trips else 1, chance=style.seen)
        if style.simple_monitors:
            fault.monitor = "K" if kind.monitor in "KNO" else "R"
        self.make_rate(fault, root is None)
        fault.tau = log_uniform(rng, 0.3, 3)
        fault.wakes = kind.monitor == "K" and rng.random() < 0.12
        fault.root = root or f"{module.printed} {fault.code}" + (f"-{fault.failure_type}" if fault.failure_type else "")
        if self.add(fault) is None:
            return None
        if root is None:
            self.root(fault.root, "fault", module.printed, fault.code)
        return fault

    def make_rate(self, fault: Fault, allowed: bool = True) -> None:
        """Turns a share of the faults into intermittents: a rate over two decades, sometimes with a trigger."""
        rng = self.rng
        if allowed and rng.random() < self.style.intermittent:
            fault.cause, fault.rate = "intermittent", log_uniform(rng, 0.1, 10.0)
            fault.trigger = rng.choice(("wet", "heat", "cold", "bumps", "movement")) if rng.random() < 0.35 else ""

    def root(self, name: str, kind: str, module: str, code: str | None) -> None:
        """Note a true root."""
        self.roots.append({"id": name, "kind": kind, "module": module, "code": code})

    def _silent_module(self) -> None:
        """A module without feed, ground or branch: silent at good supply, and missed by those that listen to it."""
        rng = self.rng
        module = rng.choice([m for m in self.modules if m.kind.lost and m.kind.name not in ("engine control", "gateway")])
        module.silent = "unfed" if rng.random() < 0.8 else "rebooting"
        share, rate = rng.uniform(0.15, 0.35), log_uniform(rng, 0.1, 2.0)
        self.root(module.printed, "silent module", module.printed, None)
        reporters = [m for m in self.modules if m is not module and rng.random() < share]
        for reporter in reporters or [self.modules[0]]:
            fault = Fault(reporter, module.kind.lost or "", self.failure_type(reporter, "lost"), "hard", "N", "n", 1, module.printed,
                          chance=self.style.seen, safety=reporter.kind.safety or module.kind.safety)
            if module.silent == "rebooting":
                fault.cause, fault.rate = "intermittent", rate
            self.add(fault)

    def _lone_reporter(self) -> None:
        """A module whose own link to the bus is bad misses several others, and nobody else does."""
        rng = self.rng
        module = rng.choice(self.modules)
        partners = [m for m in self.modules if m.kind.lost and m is not module]
        self.root(module.printed, "lone reporter", module.printed, None)
        for partner in rng.sample(partners, rng.randint(2, 4)):
            self.add(Fault(module, partner.kind.lost or "", self.failure_type(module, "lost"), "hard", "N", "n", 1, module.printed,
                           chance=self.style.seen, safety=module.kind.safety or partner.kind.safety))

    def _shared_reference(self) -> None:
        """The engine module's 5 V reference pulled down, and the sensors on it with it."""
        module = self.by_name.get("engine control")
        if module is None:
            return
        first = self.persisting(module, CodeKind("P0642", "K", "e"))
        if first is not None:
            for code in self.rng.sample(("P0122", "P0107", "P0532", "P2122", "P0522", "P0192"), self.rng.randint(1, 3)):
                other = self.persisting(module, CodeKind(code, "K", "e"), first.root)
                if other is not None:
                    other.cause, other.rate, other.trigger = first.cause, first.rate, first.trigger

    # What imitates a fault --------------------------------------------------------------------------------------

    def add_imitations(self) -> None:
        """History, echoes, codes that outlive a clear, codes set by work or by an unplugged connector."""
        rng, style = self.rng, self.style
        for _ in range(_count(rng, style.history)):
            module = rng.choice(self.modules)
            kind = self.pick(module, hard=True)
            self.add(Fault(module, kind.code, self.failure_type(module, kind.monitor + kind.ease), "history", kind.monitor, kind.ease))
        self._echoes()
        restraints = self.by_name.get("restraints")
        if restraints is not None and rng.random() < style.locked:
            for _ in range(rng.randint(1, 2)):
                code = rng.choice(("B0001", "B0010", "B0020", "B0028", f"B{rng.randint(0x1000, 0x1FFF):04X}"))
                self.add(Fault(restraints, code, self.failure_type(restraints, "Em") and "68", "history", "E", "m", locked=True))
        if len(self.supply.intervals) > 1 and rng.random() < style.unplugged:
            self._unplugged(rng.choice([m for m in self.modules if m.kind.lost and not m.silent]))
        if len(self.supply.intervals) > 2 and rng.random() < style.work:
            self._replaced()

    def _echoes(self) -> None:
        rng = self.rng
        for target in list(self.faults.values()):
            if target.cause == "history" or target.code.startswith("U"):
                continue
            for code, owner, name in POINTERS:
                if target.module.kind.name == name and owner in self.by_name and rng.random() < (0.5 if target.persists else 0.12):
                    self._echo(self.by_name[owner], code, target, "R")
            invalid = target.module.kind.invalid
            if invalid and rng.random() < (0.5 * self.style.echoes if target.persists else 0.015 * self.style.echoes):
                others = [m for m in self.modules if m is not target.module]
                for reporter in rng.sample(others, rng.choice((1, 1, 2, 3))):
                    self._echo(reporter, invalid, target, "N")

    def _echo(self, reporter: Module, code: str, target: Fault, monitor: str) -> None:
        key = "invalid" if code.startswith("U") else "Om"
        self.add(Fault(reporter, code, self.failure_type(reporter, key) if monitor == "N" else None, "echo", monitor, "n", 1,
                       target.root, chance=0.93, target=target, safety=reporter.kind.safety or target.module.kind.safety))

    def _unplugged(self, partner: Module, born: int | None = None) -> None:
        """Key on with a module unplugged for the work: its partners noted it, at a good supply."""
        rng = self.rng
        born = rng.randint(1, len(self.supply.intervals) - 1) if born is None else born
        for reporter in rng.sample(self.modules, rng.randint(2, 5)):
            if reporter is not partner and partner.kind.lost:
                self.add(Fault(reporter, partner.kind.lost, self.failure_type(reporter, "lost"), "history", "N", "n", born=born,
                               root="work", safety=reporter.kind.safety or partner.kind.safety))

    def _replaced(self) -> None:
        """A module put in new: programmed, it leaves codes of the work behind; not programmed, it says so until it is."""
        rng = self.rng
        open_ends = {f.module.printed for f in self.faults.values() if f.persists}
        spare = [m for m in self.modules if m.kind.safety != "high voltage" and not m.silent and m.printed not in open_ends]
        if not spare:
            return
        module = rng.choice(spare)
        module.replaced = born = rng.randint(2, len(self.supply.intervals) - 1)
        self.programmed = rng.random() < 0.6
        name = f"{module.printed} set-up"
        for number in range(rng.randint(1, 2)):
            code = f"U{0x3000:04X}" if number == 0 and rng.random() < 0.3 else f"{module.kind.letter}{rng.randint(0x1000, 0x1FFF):04X}"
            failure = self.failure_type(module, "work")
            self.add(Fault(module, code, failure, "history" if self.programmed else "hard", "K", "x", born=born,
                           chance=self.style.seen, root="work" if self.programmed else name))
        if not self.programmed:
            self.root(name, "set-up", module.printed, None)
        if rng.random() < 0.4:
            self._unplugged(module, born)


def sets(fault: Fault, dips: list[tuple[float, float]]) -> bool:
    """Whether one of the dips is deep and long enough for a low-voltage code to set."""
    return any(level - fault.module.drop < fault.threshold and seconds >= fault.seconds for level, seconds in dips)


def _count(rng: random.Random, mean: float) -> int:
    """A Poisson count, by adding waiting times."""
    count, waited = 0, rng.expovariate(1.0)
    while waited < mean:
        count += 1
        waited += rng.expovariate(1.0)
    return count
