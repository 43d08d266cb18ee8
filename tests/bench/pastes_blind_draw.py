"""Invented vehicles and what was read from them, with the truth a text must give back; and the hand that writes it."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, field

import pastes_blind_states as states
import pastes_blind_words as words
from pastes_blind_codes import Code, draw_codes, draw_spns, in_the_wild, with_type
from pastes_blind_names import ADDRESSES, Name, fleet

NOT_SAID = "none"


@dataclass
class Module:
    """One module of one snapshot. ``kind``: codes, clean, silent, not fitted, not scanned."""

    name: Name
    kind: str
    codes: list[Code] = field(default_factory=list)
    phrase: str = ""


@dataclass
class Snap:
    """One pass. ``phase`` and ``volts``: a value, ``none`` (nothing printed), or None (not scored)."""

    modules: list[Module]
    phase: str | None = NOT_SAID
    volts: float | str | None = NOT_SAID
    lowest: float | str | None = NOT_SAID
    day: int = 0
    minutes: int = 0


@dataclass
class Paste:
    """One text with its truth."""

    layout: str
    sloppy: bool
    lang: str
    text: str
    snapshots: list[Snap]


class Hand:
    """Habits of one writer: a choice is kept all through a text; a sloppy hand changes its mind now and then."""

    def __init__(self, rng: random.Random, lang: str, sloppy: bool, kind: str) -> None:
        self.rng, self.lang, self.sloppy, self.kind = rng, lang, sloppy, kind
        self._kept: dict[str, object] = {}
        self.tabular = False
        self.comma = lang != "en" and rng.random() < 0.85
        self.wild = sloppy and rng.random() < 0.5
        self.form = rng.choices(("dash", "colon", "bare", "word", "ndash"), (40, 22, 18, 6, 4))[0]

    def keep(self, key: str, options: Sequence[str]) -> str:
        if key not in self._kept or (self.sloppy and self.rng.random() < 0.15):
            self._kept[key] = self.rng.choice(options)
        return str(self._kept[key])

    def chance(self, key: str, share: float) -> bool:
        """A habit that holds for the whole text, sloppy or not."""
        if key not in self._kept:
            self._kept[key] = self.rng.random() < share
        return bool(self._kept[key])

    def head(self, key: str) -> str:
        kept = f"head {key}"
        if kept not in self._kept:
            self._kept[kept] = words.pick(self.rng, words.HEADS[key], self.lang)
        return str(self._kept[kept])

    def code(self, code: Code, typed: bool = True) -> str:
        """The code as this hand writes it."""
        if code.opaque or code.code.startswith("SPN"):
            code.shown = code.code
            return code.code
        shown = code.code
        if self.wild and self.rng.random() < 0.5:
            shown = in_the_wild(self.rng, shown)
        out = with_type(self.rng, self.form, code, shown) if typed else shown
        code.shown = out
        return out

    def absent(self, module: Module) -> str:
        """What is printed for a module without codes."""
        text = self.keep(f"absent {module.kind}", states.ABSENCE[module.kind].get(self.lang) or ("",))
        module.phrase = text
        return text

    def volts(self, snap: Snap) -> str | None:
        if not isinstance(snap.volts, float):
            return None
        form = words.pick(self.rng, words.VOLTS, self.lang)
        return form.format(v=words.number(self.rng, snap.volts, self.comma), mv=round(snap.volts * 1000))


FAMILIES = {
    "en": (("abbr", 3), ("long", 5), ("talk", 1)),
    "de": (("de", 8), ("abbr", 2)),
    "fr": (("fr", 9), ("abbr", 1)),
    "es": (("es", 9), ("abbr", 1)),
}


def visit(
    rng: random.Random, lang: str, kind: str, passes: int, family: str | None = None, size: int = 0
) -> list[Snap]:
    """The snapshots of one occasion: the same modules, fewer codes each time."""
    if family is None:
        names, weights = zip(*FAMILIES[lang], strict=True)
        family = rng.choices(names, weights)[0]
    names = fleet(rng, kind, family, size or rng.randrange(3, 15))
    opaque = kind != "truck" and rng.random() < 0.1
    typed = rng.choice((0.0, 0.0, 0.5, 1.0, 0.9))
    first = [_module(rng, name, lang, kind, typed, opaque) for name in names]
    if not any(m.kind == "codes" for m in first) and rng.random() < 0.95:
        first[0] = _with_codes(rng, first[0].name, lang, kind, typed, opaque)
    decide_statuses(rng, first, lang)
    snaps = [Snap(first, day=rng.randrange(360), minutes=rng.randrange(200))]
    for index in range(1, passes):
        before = snaps[-1]
        snaps.append(
            Snap(
                [_later(rng, m) for m in before.modules],
                day=before.day + (rng.random() < 0.2),
                minutes=before.minutes + 20 + rng.randrange(40) + index,
            )
        )
        decide_statuses(rng, snaps[-1].modules, lang, likely="current")
    for snap in snaps:
        nominal = 24.6 if kind == "truck" else 12.2
        if rng.random() < 0.65:
            snap.volts = round(rng.uniform(nominal * 0.84, nominal * 1.14), rng.choice((1, 1, 2)))
    return snaps


def _module(rng: random.Random, name: Name, lang: str, kind: str, typed: float, opaque: bool) -> Module:
    what = rng.choices(("codes", "clean", "silent", "not fitted", "not scanned"), (55, 27, 11, 3.5, 3.5))[0]
    return _with_codes(rng, name, lang, kind, typed, opaque) if what == "codes" else Module(name, what)


def _with_codes(rng: random.Random, name: Name, lang: str, kind: str, typed: float, opaque: bool) -> Module:
    count = rng.choices((1, 2, 3, 4, 6, 9), (35, 27, 18, 12, 6, 2))[0]
    codes = (
        draw_spns(rng, count)
        if kind == "truck" and rng.random() < 0.85
        else (draw_codes(rng, name.group, lang, count, typed, opaque and rng.random() < 0.7))
    )
    return Module(name, "codes", codes)


def _later(rng: random.Random, module: Module) -> Module:
    if module.kind != "codes":
        return Module(module.name, module.kind)
    codes = [Code(c.code, c.failure_type, None, c.title, c.opaque) for c in module.codes if rng.random() < 0.45]
    return Module(module.name, "codes" if codes else "clean", codes)


def decide_statuses(rng: random.Random, modules: list[Module], lang: str, likely: str | None = None) -> None:
    """Status words for all codes of a snapshot; in some texts none is printed."""
    mode = rng.choices(("each", "none", "some"), (70, 20, 10))[0]
    wordings = {word: words.pick(rng, states.STATUSES[word], lang) for word in states.WEIGHTS}
    for module in modules:
        for code in module.codes:
            word = rng.choices(list(states.WEIGHTS), list(states.WEIGHTS.values()))[0]
            if likely and rng.random() < 0.5:
                word = likely
            if mode == "none" or (mode == "some" and rng.random() < 0.5):
                code.status, code.said = NOT_SAID, ""
                continue
            if rng.random() < 0.12:
                wordings[word] = words.pick(rng, states.STATUSES[word], lang)
            code.status, code.said = (None if word == "null" else word), wordings[word]


def heading(hand: Hand, name: Name) -> str:
    """The module's name with its number or its abbreviation, as this hand prints it."""
    text = name.printed
    form = hand.keep("name form", ("plain", "plain", "plain", "number", "address", "short", "paren", "hex"))
    number = f"{ADDRESSES.get(name.group, 30 + int(name.number)):02d}"
    if form == "number":
        return hand.keep("number form", ("{n} {t}", "{n}-{t}", "{n}. {t}", "[{n}] {t}", "{n}: {t}")).format(
            n=name.number, t=text
        )
    if form == "address":
        return hand.keep("address form", ("Address {n}: {t}", "{n} - {t}", "Addr {n} {t}", "{t} (address {n})")).format(
            n=number, t=text
        )
    if form == "hex":
        address = f"0x{0x700 + int(name.number) * 4:03X}"
        return hand.keep("hex form", ("{t} ({n})", "{t} [{n}]", "{n} {t}", "{t} / {n}")).format(n=address, t=text)
    if text.casefold() == name.short.casefold() or (text.isupper() and len(text) < 6):
        return text
    if form == "short":
        return hand.keep("short form", ("{s} - {t}", "{s} {t}", "{s}: {t}", "{s} / {t}")).format(s=name.short, t=text)
    if form == "paren":
        return hand.keep("paren form", ("{t} ({s})", "{t} [{s}]", "{s} ({t})")).format(s=name.short, t=text)
    return text
