"""Which module a printed name means.

:func:`resolve` looks a name up among the aliases of the tables: as written, then folded (see
:mod:`triage.intake.module_words`), with its side or number taken off, piece by piece ("Engine (ECM)",
"[BCM] Body"), and last by likeness, for slips of the pen. Two modules that differ in side or number never get one
name; a name nobody knows keeps itself.

>>> class Some:
...     aliases = {"ECM": "engine control", "engine control module": "engine control", "door": "door"}
>>> some = Some()
>>> resolve("Engine (ECM) $7E8", some).canonical
'engine control'
>>> resolve("Door, LF", some).canonical, resolve("RF door module", some).canonical
('door, front left', 'door, front right')
>>> match = resolve("Flux unit", some)
>>> match.canonical, match.known
('Flux unit', False)

Scores, 0 to 100: 100 as listed; 99 folded; 97 several pieces that agree; 95 without words that may be left out; 92
with pieces nobody knows beside it; 85 the first of pieces that name different modules; 86 to 99 by likeness. A
second candidate and its score show doubt. The scale is the project's own choice.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Protocol

from triage.intake.module_words import (
    FILLERS,
    Instance,
    drop_fillers,
    drop_soft,
    fold,
    plain,
    take_instance,
    tokens,
    words_of,
)

__all__ = ["ModuleMatch", "fold", "is_module_name", "resolve"]

#: Likeness below this is another name (the project's own choice, from slips of one or two letters).
CUTOFF = 86.0
#: No name is longer, in characters and in words.
LONGEST, MOST_WORDS = 160, 14

#: Abbreviations in use for a second module as well: the rival of the one in the table. Common practice.
RIVALS = {
    "tcu": "telematics", "hcm": "hybrid powertrain", "hcu": "anti-lock brakes", "icm": "ignition control",
    "scm": "seat", "psm": "power steering", "ccm": "climate control", "dcu": "door", "bms": "battery monitor",
    "bsm": "battery monitor", "pas": "power steering", "pdm": "power distribution", "tbm": "telematics",
    "acm": "reductant", "apm": "DC/DC converter", "ecp": "electric compressor", "gsm": "telematics",
    "acc": "air conditioning", "fcm": "camera, front", "lcm": "lighting, rear", "esm": "seat", "tpm": "immobiliser",
    "cdc": "suspension", "fdm": "door",
}

#: A name with one of these and no filler word may as well be a part or a fault's description.
PARTS = words_of(
    "sensor pump motor switch actuator compressor heater heating generator alternator starter fan lamp headlamp "
    "antenna aerial battery horn mirror window wiper plug throttle clutch differential charger converter inverter "
    "turbo turbocharger supercharger coolant fuel yaw rain injection ignition charging display screen blower pedal "
    "lock lever injector clock light shutter seat valve relay fuse tank temperature pressure voltage power tuner siren"
)

_BRACKETS = re.compile(r"[(\[{<]([^()\[\]{}<>]{0,80})[)\]}>]")
_ADDRESS = re.compile(
    r"(?:(?<![\w])(?:can[ -]?id|addr(?:ess)?|adresse|ecu[ -]?id|id|sa)\s?[:=#]?\s?)?"
    r"(?:\$\s?[0-9a-f]{1,8}|(?<!\w)0x[0-9a-f]{1,8}|(?<!\w)18d[ab][0-9a-f]{4}|(?<!\w)7[0-9a-f]{2}h?)(?!\w)")
_LIST_NUMBER = re.compile(r"^\s*[#*•·\-–>]*\s*(?:(?=[0-9a-f]*\d)[0-9a-f]{1,3}\s*[.:)\]\-–]+\s+|\d{2,3}\s+)(?=\S)")
_NUMBER_ONLY = re.compile(r"\s*(?:0x|\$)?(?=[0-9a-f]*\d)[0-9a-f]{2,8}h?\s*")
_SEPARATOR = re.compile(r"\s[-–—]+\s|\s*[:|,/;=+&]\s*|\s{2,}|\t")
_CODE = re.compile(r"[pcbu][0-3][0-9a-f]{3}")
_TYPE_NUMBER = re.compile(r"(?=[^\W_]*\d)[^\W_]{3,}")


class HasAliases(Protocol):
    """What is read of the tables: alias as written, to canonical name. Hashed by identity."""

    @property
    def aliases(self) -> Mapping[str, str]: ...

    def __hash__(self) -> int: ...


@dataclass(frozen=True, slots=True)
class ModuleMatch:
    """What a name means. ``canonical`` is the name as printed (white space tidied) when ``known`` is False.

    ``score`` 0..100 of the canonical name (0 when unknown); ``second`` the next candidate with its score, None if
    there is none near; ``instance`` the side or number in words, None if there is none.
    """

    canonical: str
    score: float
    second: str | None
    second_score: float
    known: bool
    instance: str | None


@dataclass(frozen=True, slots=True)
class _Hit:
    """A candidate on the way: base or full canonical name, score, rival name, and how it was found."""

    name: str
    score: float
    rival: str | None
    rival_score: float
    how: str


class _Index:
    """The aliases of one tables object, folded once."""

    def __init__(self, aliases: Mapping[str, str]) -> None:
        self.names = frozenset(aliases.values())
        pairs = {name: name for name in sorted(self.names)} | dict(aliases)
        self.light: dict[str, str] = {}
        self.folded: dict[str, list[str]] = {}
        self.listed: dict[str, list[str]] = {}
        for alias, name in pairs.items():
            words = tokens(alias)
            for key in (" ".join(words), " ".join(sorted(words))):
                self.light.setdefault(key, name)
            bare = drop_fillers(words)
            for key in (" ".join(bare), " ".join(sorted(bare))):
                names = self.folded.setdefault(key, [])
                if name not in names:
                    names.append(name)
            if len(" ".join(bare)) >= 5:
                for choice in {" ".join(words), " ".join(sorted(words)), " ".join(sorted(bare))}:
                    self.listed.setdefault(choice, []).append(name)
        self.choices = list(self.listed)

    def exact(self, words: tuple[str, ...]) -> _Hit | None:
        """The candidate listed under these words, in any order, fillers or soft words left out if need be."""
        for how, score, bare in (("listed", 100.0, words), ("soft", 95.0, drop_soft(words))):
            key, turned = " ".join(bare), " ".join(sorted(bare))
            name = self.light.get(key) or self.light.get(turned)
            if name:
                return self._with_rival(key, name, score, how)
            folded = drop_fillers(bare)
            key = " ".join(folded)
            names = self.folded.get(key) or self.folded.get(" ".join(sorted(folded)))
            if names:
                own = self.light.get(key, names[0])
                other = next((name for name in names if name != own), None)
                if other and key not in self.light:
                    return _Hit(own, 90.0, other, 88.0, "folded")
                return self._with_rival(key, own, score - 1, "folded")
            if bare == drop_soft(bare) and how == "listed":
                return None
        return None

    def _with_rival(self, key: str, name: str, score: float, how: str) -> _Hit:
        rival = RIVALS.get(key)
        if rival is None or rival == name or rival not in self.names:
            return _Hit(name, score, None, 0.0, how)
        return _Hit(name, 90.0, rival, 86.0, how)

    def alike(self, words: tuple[str, ...]) -> list[tuple[str, float]]:
        """Up to two names most like ``words``, best first, with likeness 0..100; none for less than five letters."""
        from rapidfuzz import fuzz, process

        best: dict[str, float] = {}
        for query in {" ".join(words), " ".join(sorted(drop_fillers(words)))}:
            if len(query) < 5:
                continue
            found = process.extract(query, self.choices, scorer=fuzz.ratio, score_cutoff=CUTOFF - 6, limit=8)
            asked = query.split()
            for choice, score, _ in found:
                if _words_agree(asked, choice.split()):
                    for name in self.listed[choice]:
                        best[name] = max(best.get(name, 0.0), min(score, 99.0))
        return sorted(best.items(), key=lambda pair: -pair[1])[:2]


def _words_agree(asked: list[str], listed: list[str]) -> bool:
    """Each word has its like on the other side; short words are abbreviations or numbers and must be equal."""
    from rapidfuzz import fuzz

    for ours, theirs in ((asked, listed), (listed, asked)):
        for word in ours:
            if word in theirs or word in FILLERS:
                continue
            if len(word) <= 4 or not any(len(w) > 3 and fuzz.ratio(word, w) >= 75.0 for w in theirs):
                return False
    return True


@lru_cache(maxsize=8)
def _index(tables: HasAliases) -> _Index:
    return _Index(tables.aliases)


@lru_cache(maxsize=16384)
def resolve(name: str, tables: HasAliases) -> ModuleMatch:
    """The module ``name`` means. Any text; never raises. ``tables`` is told apart by identity."""
    return _resolve(name, tables)[0]


def is_module_name(text: str, tables: HasAliases) -> float:
    """How surely ``text`` alone is the name of a module, 0..100.

    90 and more: a heading. 60: a name that is as often a part ("coolant pump", "NOx sensor 1"): a module only where
    the place says so. 0: not a module's name. Descriptions of faults score 0.
    """
    if len(text) > LONGEST or any(map(_CODE.fullmatch, tokens(text))):
        return 0.0
    match, how = _resolve(text, tables)
    words = tokens(text)
    if not match.known or how == "rest":
        return 0.0
    if PARTS.intersection(words) and not FILLERS.intersection(words):
        return 60.0
    return min(match.score, 85.0) if how == "alike" else max(match.score, 90.0)


@lru_cache(maxsize=16384)
def _resolve(name: str, tables: HasAliases) -> tuple[ModuleMatch, str]:
    """The match and how it was found: listed, soft, folded, pieces, rest, alike or unknown."""
    index = _index(tables)
    printed = " ".join(name[:4 * LONGEST].split())
    hit: _Hit | None = None
    instance = Instance()
    nearest: tuple[str | None, float] = (None, 0.0)
    if 0 < len(printed) <= LONGEST:
        words = tokens(printed)
        if 0 < len(words) <= MOST_WORDS:
            hit = index.exact(words)
            if hit is None:
                hit, instance, nearest = _search(printed, index)
    if hit is None:
        return ModuleMatch(printed, 0.0, *nearest, False, None), "unknown"
    canonical = _compose(hit.name, instance, index.names)
    rival = hit.rival and _compose(hit.rival, instance, index.names)
    which = _instance_of(canonical)
    return ModuleMatch(canonical, hit.score, rival, hit.rival_score, True, which), hit.how


def _search(printed: str, index: _Index) -> tuple[_Hit | None, Instance, tuple[str | None, float]]:
    """The hit for a name that is not listed as it stands, its instance, and the nearest name when there is no hit."""
    text = _clean(printed)
    words = tokens(text)
    nothing = Instance()
    for hit in (index.exact(words), _cover(words, index)):
        if hit:
            return hit, nothing, (None, 0.0)
    base, instance = take_instance(words)
    if instance and base:
        hit = index.exact(base) or _cover(base, index)
        if hit:
            return hit, instance, (None, 0.0)
    hit = _pieces(text, index)
    if hit:
        return hit, instance, (None, 0.0)
    tried = [(words, nothing)] + ([(base, instance)] if instance and base else [])
    nearest: tuple[str | None, float] = (None, 0.0)
    for asked, which in tried:
        alike = index.alike(asked)
        if alike and alike[0][1] >= CUTOFF:
            name, score = alike[0]
            rival, rival_score = alike[1] if len(alike) > 1 else (None, 0.0)
            return _Hit(name, score, rival, rival_score, "alike"), which, (None, 0.0)
        if alike and alike[0][1] > nearest[1]:
            nearest = alike[0]
    return None, nothing, nearest


def _clean(printed: str) -> str:
    """``printed`` folded to plain characters, without addresses, list numbers and numbers in brackets."""
    text = plain(printed)
    bare = _BRACKETS.sub(lambda found: " " if _NUMBER_ONLY.fullmatch(found[1]) else found[0], text)
    bare = _LIST_NUMBER.sub("", _ADDRESS.sub(" ", bare))
    return bare if _has_word(bare) else text


def _has_word(text: str) -> bool:
    return any(char.isalpha() for char in text)


def _cover(words: tuple[str, ...], index: _Index) -> _Hit | None:
    """The module when the words are several of its names one after the other ("ECM engine control")."""
    found: list[_Hit] = []
    at = 0
    while at < len(words):
        for end in range(len(words), at, -1):
            hit = index.exact(words[at:end])
            if hit:
                found.append(hit)
                at = end
                break
        else:
            if words[at] not in FILLERS and not _TYPE_NUMBER.fullmatch(words[at]):
                return None
            at += 1
    names = _agreed(found)
    if len(names) != 1:
        return None
    return _Hit(names.pop(), 97.0, None, 0.0, "pieces")


def _agreed(found: list[_Hit]) -> set[str]:
    """The names the hits stand for; one that has its rival among the others counts as that."""
    sure = {hit.name for hit in found if hit.rival is None}
    return {hit.rival if hit.rival in sure and hit.rival else hit.name for hit in found}


def _pieces(text: str, index: _Index) -> _Hit | None:
    """The module by pieces of ``text``: outside and inside brackets, between separators."""
    outside = _BRACKETS.sub(" \t ", text)
    parts = [*_SEPARATOR.split(outside), *_BRACKETS.findall(text)]
    asked = [words for words in map(tokens, parts) if words and any(map(str.isalpha, "".join(words)))]
    if len(asked) < 2:
        return None
    found: list[_Hit] = []
    rest = 0
    for words in asked:
        base, instance = take_instance(words)
        hit = index.exact(words) or _cover(words, index) or (index.exact(base) if instance and base else None)
        if hit:
            found.append(hit)
        elif base and not (len(words) == 1 and (len(words[0]) <= 6 or _TYPE_NUMBER.fullmatch(words[0]))):
            rest += 1
    if not found:
        return None
    names = _agreed(found)
    how = "rest" if rest else "pieces"
    if len(names) == 1:
        return _Hit(names.pop(), 92.0 if len(found) < len(asked) else 97.0, None, 0.0, how)
    other = next(hit.name for hit in found[1:] + found if hit.name != found[0].name)
    return _Hit(found[0].name, 85.0, other, 80.0, how)


def _stem(name: str) -> str:
    """``name`` without its side or number: "door" of "door, front left", "NOx sensor" of "NOx sensor A"."""
    head, comma, _ = name.partition(", ")
    if comma:
        return head
    head, _, last = name.rpartition(" ")
    return head if head and (last.isdecimal() or (len(last) == 1 and last.isupper())) else name


def _instance_of(canonical: str) -> str | None:
    return canonical[len(_stem(canonical)):].strip(", ") or None


def _compose(name: str, instance: Instance, names: frozenset[str]) -> str:
    """The canonical name of the ``instance`` of the module ``name``, of those listed if one is."""
    if not instance:
        return name
    stem = _stem(name)
    side, number = instance.side, instance.number
    if number in ("L", "R") and side is None and f"{stem} {number}" not in names:
        side, number = ("left" if number == "L" else "right"), None
    own = set(name.replace(",", "").split())
    side = " ".join(word for word in (side or "").split() if word not in own or "," in name)
    if side:
        return f"{stem}, {side} {number}" if number else f"{stem}, {side}"
    if not number:
        return name
    return _numbered(name, stem, number, names)


def _numbered(name: str, stem: str, number: str, names: frozenset[str]) -> str:
    """``stem`` with its number or letter as the table has it; the first of several may be listed without one."""
    other = chr(ord("A") + int(number) - 1) if number.isdecimal() and 0 < int(number) < 15 else number
    if number.isalpha():
        other = str(ord(number) - ord("A") + 1)
    for mark in (number, other):
        if f"{stem} {mark}" in names:
            return f"{stem} {mark}"
    if {number, other} == {"1", "A"} and (f"{stem} B" in names or f"{stem} 2" in names):
        return stem
    return f"{name} {number}" if name == stem else f"{stem} {number}"
