"""Random scans with known truth, written down in many layouts and with many kinds of sloppiness, and a scorer.

All invented. The layouts are of our own making; none is that of a program.
"""

from __future__ import annotations

import csv
import random
from collections import Counter
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import lru_cache
from pathlib import Path

import code_tables
from code_tables import Tables, load
from triage.intake.naming.modules import is_module_name, resolve
from triage.intake.read import Reading

STATUS = {
    "en": {
        "current": ["current", "active", "present", "failing now"],
        "stored": ["stored", "history", "not present", "inactive"],
        "pending": ["pending"],
        "confirmed": ["confirmed"],
        "permanent": ["permanent"],
    },
    "de": {
        "current": ["vorhanden", "aktiv", "statisch", "permanent"],
        "stored": ["gespeichert", "sporadisch", "nicht vorhanden", "passiv"],
        "pending": ["ausstehend"],
        "confirmed": ["bestätigt"],
        "permanent": ["permanent DTC"],
    },
    "fr": {
        "current": ["présent", "actif", "permanent"],
        "stored": ["mémorisé", "non présent", "fugitif"],
        "pending": ["en attente"],
        "confirmed": ["confirmé"],
        "permanent": ["permanent DTC"],
    },
    "es": {
        "current": ["presente", "activo", "permanente"],
        "stored": ["almacenado", "no presente", "memorizado"],
        "pending": ["pendiente"],
        "confirmed": ["confirmado"],
        "permanent": ["permanent DTC"],
    },
}
ANSWER = {
    "en": {
        "silent": ["no response", "did not answer", "no communication", "not responding", "timeout"],
        "clean": ["no codes", "OK", "no faults", "clean", "no DTCs stored", "0 codes"],
        "not fitted": ["not fitted", "not installed"],
        "not scanned": ["not scanned", "skipped"],
    },
    "de": {
        "silent": ["keine Antwort", "nicht erreichbar", "antwortet nicht"],
        "clean": ["kein Fehler", "i.O.", "keine Fehler", "ohne Fehler"],
        "not fitted": ["nicht verbaut"],
        "not scanned": ["nicht gelesen", "übersprungen"],
    },
    "fr": {
        "silent": ["pas de réponse", "ne répond pas", "aucune réponse"],
        "clean": ["aucun défaut", "RAS", "pas de défaut"],
        "not fitted": ["non monté", "non équipé"],
        "not scanned": ["non lu", "non interrogé"],
    },
    "es": {
        "silent": ["sin respuesta", "no responde", "sin comunicación"],
        "clean": ["sin fallos", "sin códigos", "ningún fallo"],
        "not fitted": ["no montado", "no equipado"],
        "not scanned": ["no leído", "omitido"],
    },
}
PHASE = {
    "en": {
        "before-clear": ["Before clear", "Pre-scan", "before clearing codes"],
        "after-clear": ["After clear", "after clearing all codes"],
        "after-run": ["After 5 min idle", "After run", "After road test"],
        "after-repair": ["After repair"],
    },
    "de": {
        "before-clear": ["Vor dem Löschen"],
        "after-clear": ["Nach dem Löschen"],
        "after-run": ["Nach Probefahrt", "Nach 5 min Leerlauf"],
        "after-repair": ["Nach Reparatur"],
    },
    "fr": {
        "before-clear": ["Avant effacement"],
        "after-clear": ["Après effacement"],
        "after-run": ["Après essai routier"],
        "after-repair": ["Après réparation"],
    },
    "es": {
        "before-clear": ["Antes de borrar"],
        "after-clear": ["Después de borrar"],
        "after-run": ["Tras 5 min al ralentí"],
        "after-repair": ["Tras la reparación"],
    },
}
VOLTS = {
    "en": ["Battery voltage: {}", "Battery {}", "supply {}", "Voltage: {}", "batt {}"],
    "de": ["Batteriespannung: {}", "Spannung {}", "Kl. 30: {}"],
    "fr": ["Tension batterie : {}", "Tension: {}"],
    "es": ["Tensión de batería: {}", "Batería {}"],
}
LOWEST = {
    "en": ["lowest {}", "min {}", "dropped to {}"],
    "de": ["tiefster Wert {}", "min. {}"],
    "fr": ["minimum {}"],
    "es": ["mínimo {}"],
}
HEADS = {
    "en": {
        "module": ["Module", "Control unit", "ECU"],
        "code": ["Code", "DTC", "Fault code"],
        "ft": ["Failure type", "FTB", "Type"],
        "status": ["Status", "State"],
        "text": ["Description", "Text", "Meaning"],
    },
    "de": {
        "module": ["Steuergerät", "Modul"],
        "code": ["Fehlercode", "Code"],
        "ft": ["Fehlerart"],
        "status": ["Status", "Zustand"],
        "text": ["Beschreibung", "Fehlertext"],
    },
    "fr": {
        "module": ["Calculateur"],
        "code": ["Code défaut", "Code"],
        "ft": ["Type de défaut"],
        "status": ["État", "Statut"],
        "text": ["Libellé", "Description"],
    },
    "es": {
        "module": ["Centralita", "Módulo"],
        "code": ["Código", "DTC"],
        "ft": ["Tipo de fallo"],
        "status": ["Estado"],
        "text": ["Descripción"],
    },
}


@dataclass
class TrueCode:
    code: str
    failure_type: str | None
    status: str | None
    text: str


@dataclass
class TrueModule:
    printed: str
    canonical: str
    answer: str  # "codes", "clean", "silent", "not fitted", "not scanned"
    codes: list[TrueCode] = field(default_factory=list)
    volts: float | None = None


@dataclass
class TrueSnapshot:
    phase: str | None
    at: datetime | None
    volts: float | None
    lowest: float | None
    modules: list[TrueModule]


@dataclass
class Paste:
    layout: str
    language: str
    snapshots: list[TrueSnapshot]
    text: str
    sloppy: bool
    #: What this layout leaves out (it prints no status, say), so that nobody is asked for it.
    without: frozenset[str] = frozenset()


@lru_cache(maxsize=1)
def tables() -> Tables:
    return load()


@lru_cache(maxsize=1)
def titles() -> list[tuple[str, str]]:
    path = Path(code_tables.__file__).parent / "titles.csv"
    with path.open(encoding="utf-8") as lines:
        return [(row["code"], row["title"]) for row in csv.DictReader(lines)]


@lru_cache(maxsize=1)
def names() -> dict[str, list[str]]:
    """Printable names by canonical name: those that mean one module beyond doubt."""
    found: dict[str, list[str]] = {}
    for alias, canonical in sorted(tables().aliases.items()):
        match = resolve(alias, tables())
        if (
            match.canonical == canonical
            and match.score >= 95
            and is_module_name(alias, tables()) >= 90
            and len(alias) >= 2
        ):
            found.setdefault(canonical, []).append(alias)
    return found


def make_code(rng: random.Random, style: str) -> TrueCode:
    code, text = rng.choice(titles())
    if rng.random() < 0.15:
        code = rng.choice("PCBU") + rng.choice("0123") + "".join(rng.choice("0123456789ABCDEF") for _ in range(3))
        text = "maker's own " + rng.choice(["fault", "circuit", "signal missing", "configuration"])
    failure = None
    if style == "typed" or (style == "mixed" and rng.random() < 0.5):
        failure = rng.choice(["00", "11", "13", "16", "17", "1C", "2F", "49", "54", "62", "87", "88", "9A", "01", "1F"])
    status = rng.choices(["current", "stored", "pending", "confirmed", "permanent"], [5, 6, 2, 2, 0.3])[0]
    return TrueCode(code, failure, status, text)


def make_snapshots(rng: random.Random, language: str) -> list[TrueSnapshot]:
    count = rng.choices([1, 2, 3], [6, 2, 2])[0]
    canonicals = rng.sample(sorted(names()), rng.randint(5, 45) if count == 1 else rng.randint(4, 16))
    fleet = [(rng.choice(names()[canonical]), canonical) for canonical in canonicals]
    seen: set[str] = set()
    fleet = [pair for pair in fleet if not (pair[0].lower() in seen or seen.add(pair[0].lower()))]
    style = rng.choice(["typed", "mixed", "plain"])
    at = (
        datetime(2025, rng.randint(1, 12), rng.randint(13, 28), 8, rng.randint(0, 59))
        if rng.random() < 0.6 or count > 1
        else None
    )
    phases = (
        ["before-clear", "after-clear", "after-run"][:count]
        if count > 1
        else [rng.choice([None, "before-clear", "after-clear", "after-run"])]
    )
    found = []
    for phase in phases:
        modules = []
        for printed, canonical in fleet:
            answer = rng.choices(["codes", "clean", "silent", "not fitted", "not scanned"], [6, 3, 1.2, 0.3, 0.3])[0]
            module = TrueModule(printed, canonical, answer)
            if answer == "codes":
                known = set()
                for _ in range(rng.choices([1, 2, 3, 5], [5, 3, 2, 1])[0]):
                    code = make_code(rng, style)
                    if code.code not in known:
                        known.add(code.code)
                        module.codes.append(code)
            modules.append(module)
        volts = round(rng.uniform(9.5, 14.6), 1) if rng.random() < 0.8 else None
        lowest = round(volts - rng.uniform(0.5, 2.5), 1) if volts and rng.random() < 0.3 else None
        found.append(TrueSnapshot(phase, at, volts, lowest, modules))
        at = at + timedelta(minutes=rng.randint(20, 50)) if at else None
    return found


# --- scoring -------------------------------------------------------------------------------------------------------


@dataclass
class Score:
    """Counts of what was asked and what was found, by kind."""

    counts: Counter[str] = field(default_factory=Counter)

    def add(self, kind: str, right: int, missed: int, wrong: int) -> None:
        self.counts[f"{kind} right"] += right
        self.counts[f"{kind} missed"] += missed
        self.counts[f"{kind} wrong"] += wrong

    def recall(self, kind: str) -> float:
        return self.counts[f"{kind} right"] / max(1, self.counts[f"{kind} right"] + self.counts[f"{kind} missed"])

    def precision(self, kind: str) -> float:
        return self.counts[f"{kind} right"] / max(1, self.counts[f"{kind} right"] + self.counts[f"{kind} wrong"])

    def f1(self, kind: str) -> float:
        recall, precision = self.recall(kind), self.precision(kind)
        return 2 * recall * precision / max(1e-9, recall + precision)

    def merge(self, other: Score) -> None:
        self.counts.update(other.counts)


KINDS = ("code", "code+status", "silent", "clean", "volts", "lowest", "phase", "snapshots", "at")


def score(paste: Paste, reading: Reading) -> Score:
    """Compare what was read with the truth, snapshot by snapshot in their order."""
    result = Score()
    read = reading.snapshots
    result.add("snapshots", int(len(read) == len(paste.snapshots)), int(len(read) != len(paste.snapshots)), 0)
    for at in range(max(len(read), len(paste.snapshots))):
        true = paste.snapshots[at] if at < len(paste.snapshots) else None
        seen = read[at] if at < len(read) else None
        want: Counter[tuple[object, ...]] = Counter()
        want_status: Counter[tuple[object, ...]] = Counter()
        silent, clean = set(), set()
        for module in true.modules if true else ():
            for code in module.codes:
                want[module.canonical, code.code, code.failure_type] += 1
                want_status[
                    module.canonical, code.code, code.failure_type, None if "status" in paste.without else code.status
                ] += 1
            if module.answer == "silent":
                silent.add(module.canonical)
            if module.answer == "clean":
                clean.add(module.canonical)
        got: Counter[tuple[object, ...]] = Counter()
        got_status: Counter[tuple[object, ...]] = Counter()
        got_silent, got_clean = set(), set()
        for scan in seen.modules if seen else ():
            for entry in scan.codes:
                got[scan.module, entry.code, entry.failure_type] += 1
                got_status[scan.module, entry.code, entry.failure_type, entry.status] += 1
            if scan.responds is False:
                got_silent.add(scan.module)
            elif not scan.codes:
                got_clean.add(scan.module)
        _compare(result, "code", want, got)
        _compare(result, "code+status", want_status, got_status)
        _compare(result, "silent", Counter(silent), Counter(got_silent))
        if "clean" not in paste.without:
            _compare(result, "clean", Counter(clean), Counter(got_clean))
        for kind, name in (("volts", "volts"), ("lowest", "lowest_volts"), ("phase", "phase"), ("at", "at")):
            if kind in paste.without:
                continue
            value = getattr(true, {"lowest_volts": "lowest"}.get(name, name)) if true else None
            other = getattr(seen, name) if seen else None
            result.add(
                kind,
                int(value is not None and value == other),
                int(value is not None and value != other),
                int(other is not None and value != other),
            )
    return result


def _compare(
    result: Score,
    kind: str,
    want: Counter[tuple[object, ...]] | Counter[str],
    got: Counter[tuple[object, ...]] | Counter[str],
) -> None:
    right = sum((want & got).values())
    result.add(kind, right, sum(want.values()) - right, sum(got.values()) - right)
