"""What else can stand in an invented vehicle's lists: faults that persist, echoes, and what imitates a fault."""

from __future__ import annotations

from worlds_catalog import POINTERS, CodeKind
from worlds_faults import Fault, Module, Vehicle, poisson
from worlds_supply import log_uniform


class Builder(Vehicle):
    """Draws all faults of one session; ``faults`` holds what could be seen, ``roots`` the true roots."""

    # Faults that persist ----------------------------------------------------------------------------------------

    def add_persisting(self) -> None:
        """None on some vehicles, else a few roots: single codes, a shared reference, a module that is not fed."""
        rng, style = self.rng, self.style
        if rng.random() < style.none:
            return
        if rng.random() < style.silent_module:
            self._silent_module()
        for _ in range(poisson(rng, style.mean_extra) + (rng.random() < 0.8) + (not self.roots)):
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
        fault = Fault(
            module,
            kind.code,
            self.failure_type(module, kind.monitor + kind.ease),
            "hard",
            kind.monitor,
            kind.ease,
            kind.trips if style.two_trips else 1,
            chance=style.seen,
        )
        if style.simple_monitors:
            fault.monitor = "K" if kind.monitor in "KNO" else "R"
        self.make_rate(fault, root is None)
        fault.tau = log_uniform(rng, 0.3, 3)
        fault.wakes = kind.monitor == "K" and rng.random() < 0.12
        fault.root = root or f"{module.printed} {fault.code}" + (
            f"-{fault.failure_type}" if fault.failure_type else ""
        )
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
        """A module without feed, ground or branch: silent at good supply, missed by those that listen to it."""
        rng = self.rng
        module = rng.choice(
            [m for m in self.modules if m.kind.lost and m.kind.name not in ("engine control", "gateway")]
        )
        module.silent = "unfed" if rng.random() < 0.8 else "rebooting"
        share, rate = rng.uniform(0.15, 0.35), log_uniform(rng, 0.1, 2.0)
        self.root(module.printed, "silent module", module.printed, None)
        reporters = [m for m in self.modules if m is not module and rng.random() < share]
        for reporter in reporters or [self.modules[0]]:
            fault = self.misses(reporter, module, "hard", module.printed)
            if fault is not None and module.silent == "rebooting":
                fault.cause, fault.rate = "intermittent", rate

    def _lone_reporter(self) -> None:
        """A module whose own link to the bus is bad misses several others, and nobody else does."""
        rng = self.rng
        module = rng.choice(self.modules)
        partners = [m for m in self.modules if m.kind.lost and m is not module]
        self.root(module.printed, "lone reporter", module.printed, None)
        for partner in rng.sample(partners, rng.randint(2, 4)):
            self.misses(module, partner, "hard", module.printed)

    def _shared_reference(self) -> None:
        """The engine module's 5 V reference pulled down, and the sensors on it with it."""
        module = self.by_name.get("engine control")
        if module is None:
            return
        first = self.persisting(module, CodeKind("P0642", "K", "e"))
        if first is not None:
            for code in self.rng.sample(
                ("P0122", "P0107", "P0532", "P2122", "P0522", "P0192"), self.rng.randint(1, 3)
            ):
                other = self.persisting(module, CodeKind(code, "K", "e"), first.root)
                if other is not None:
                    other.cause, other.rate, other.trigger = first.cause, first.rate, first.trigger

    # What imitates a fault --------------------------------------------------------------------------------------

    def add_imitations(self) -> None:
        """History, echoes, codes that outlive a clear, codes set by work or by an unplugged connector."""
        rng, style = self.rng, self.style
        for _ in range(poisson(rng, style.history)):
            module = rng.choice(self.modules)
            kind = self.pick(module, hard=True)
            failure = self.failure_type(module, kind.monitor + kind.ease)
            self.add(Fault(module, kind.code, failure, "history", kind.monitor, kind.ease))
        self._echoes()
        restraints = self.by_name.get("restraints")
        if restraints is not None and rng.random() < style.locked:
            for _ in range(rng.randint(1, 2)):
                code = rng.choice(("B0001", "B0010", "B0020", "B0028", f"B{rng.randint(0x1000, 0x1FFF):04X}"))
                failure = "68" if restraints.failure_types else None
                self.add(Fault(restraints, code, failure, "history", "E", "m", locked=True))
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
                asks = target.module.kind.name == name and owner in self.by_name
                if asks and rng.random() < (0.5 if target.persists else 0.12):
                    self._echo(self.by_name[owner], code, target, "R")
            invalid = target.module.kind.invalid
            if invalid and rng.random() < self.style.echoes * (0.5 if target.persists else 0.03):
                others = [m for m in self.modules if m is not target.module]
                for reporter in rng.sample(others, rng.choice((1, 1, 2, 3))):
                    self._echo(reporter, invalid, target, "N")

    def _echo(self, reporter: Module, code: str, target: Fault, monitor: str) -> None:
        failure = self.failure_type(reporter, "invalid") if monitor == "N" else None
        fault = Fault(reporter, code, failure, "echo", monitor, "n", 1, target.root, chance=0.93, target=target)
        fault.safety = reporter.kind.safety or target.module.kind.safety
        self.add(fault)

    def _unplugged(self, partner: Module, born: int | None = None) -> None:
        """Key on with a module unplugged for the work: its partners noted it, at a good supply."""
        rng = self.rng
        born = rng.randint(1, len(self.supply.intervals) - 1) if born is None else born
        for reporter in rng.sample(self.modules, rng.randint(2, 5)):
            if reporter is not partner and partner.kind.lost:
                self.misses(reporter, partner, "history", "work", born=born)

    def _replaced(self) -> None:
        """A module put in new: programmed, it leaves codes of the work; not programmed, it says so until it is."""
        rng = self.rng
        open_ends = {f.module.printed for f in self.faults.values() if f.persists}
        spare = [
            m
            for m in self.modules
            if m.kind.safety != "high voltage" and not m.silent and m.printed not in open_ends
        ]
        if not spare:
            return
        module = rng.choice(spare)
        module.replaced = born = rng.randint(2, len(self.supply.intervals) - 1)
        self.programmed = rng.random() < 0.6
        name = f"{module.printed} set-up"
        for number in range(rng.randint(1, 2)):
            own = f"{module.kind.letter}{rng.randint(0x1000, 0x1FFF):04X}"
            code = "U3000" if number == 0 and rng.random() < 0.3 else own
            cause, root = ("history", "work") if self.programmed else ("hard", name)
            failure = self.failure_type(module, "work")
            self.add(Fault(module, code, failure, cause, "K", "x", 1, root, chance=self.style.seen, born=born))
        if not self.programmed:
            self.root(name, "set-up", module.printed, None)
        if rng.random() < 0.4:
            self._unplugged(module, born)
