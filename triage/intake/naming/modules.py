"""Which module a printed name means.

:func:`resolve` looks a name up among the aliases of the tables: as written, then folded (see
:mod:`triage.intake.words.module_words`), with its side or number taken off, piece by piece ("Engine (ECM)",
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
with pieces nobody knows beside it; 90 an abbreviation in use for two modules; 88 an abbreviation before words nobody
knows; 85 the first of pieces that name different modules; 86 to 99 by likeness. A second candidate and its score
show doubt. The scale is the project's own choice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import NamedTuple, Protocol

from triage.intake.naming.module_index import CUTOFF, PARTS, Hit, Index, agreed
from triage.intake.plain.patterns import lazily
from triage.intake.words.module_words import (
    FILLERS,
    Instance,
    fold,
    outer_instances,
    plain,
    take_instance,
    tokens,
    unbuilt,
)
from triage.intake.words.wordings import CODES

__all__ = ["ModuleMatch", "fold", "is_module_name", "named_within", "resolve", "resolve_together"]

#: No name is longer, in characters and in words.
LONGEST, MOST_WORDS = 160, 14

_BRACKETS = lazily(r"[(\[{<]([^()\[\]{}<>]{0,80})[)\]}>]")
_ADDRESS = lazily(
    r"(?:(?<![\w])(?:can[ -]?id|addr(?:ess)?|adresse|ecu[ -]?id|id|sa)\s?[:=#]?\s?)?"
    r"(?:\$\s?[0-9a-f]{1,8}|(?<!\w)0x[0-9a-f]{1,8}|(?<!\w)18d[ab][0-9a-f]{4}|(?<!\w)7[0-9a-f]{2}h?)(?!\w)"
    r"|(?<!\w)(?:sa|source addr(?:ess)?|src addr|adresse source|quelladresse)\s?[:=#]?\s?\d{1,3}(?!\w)")
_LIST_NUMBER = lazily(
    r"^\s*[#*•·\-–>]*\s*(?:"
    r"(?:ecu|(?:control )?(?:module?|unit)|system|node|calculateur)\s?[#:.]?\s?#?\d{1,3}\s*[.:)\]\-–]*\s+"
    r"|(?:addr(?:ess)?|adresse|direccion)\.?\s?#?\s?(?=[0-9a-f]*\d)[0-9a-f]{1,3}\s*[.:)\]\-–]*\s+"
    r"|[1-9]\d?(?:\.\d{1,2}){1,2}\.?\s+(?=[^\W\d_]{2})"
    r"|(?=[0-9a-f]*\d)[0-9a-f]{1,3}\s*[.:)\]\-–]+\s+|(?=[0-9a-f]?\d)[0-9a-f]{2}-(?=[^\W\d_]{2})|\d{2}\s+)(?=\S)")
#: A count of codes behind a name: behind dots, or with the word.
_COUNT = lazily(
    r"\s*(?:\.{3,}|\u2026+|(?:\s\.){3,})\s*\d{1,3}\s*$"
    r"|[\s:\-–—(\[,]+\d{1,3}\s?(?:x\s)?(?:(?:stored|confirmed|active|pending|trouble|fault|current)\s)?"
    rf"{CODES}"
    r"(?:\s(?:stored|found|set|gespeichert|gefunden))?[)\]]?\s*:?\s*$")
#: A number alone in brackets, a count as often as an instance.
_IN_BRACKETS = lazily(r"(.*\w)\s*[(\[]\s?(\d{1,2})(?:\s?(?:/|of|von|de|sur)\s?\d{1,2})?\s?[)\]]\s*:?\s*$")
#: Which of how many: "Camera (1 of 2)".
_OF_ALL = lazily(r"([(\[]\s?\d{1,2})\s?(?:/|of|von|de|sur)\s?\d{1,2}(?=\s?[)\]]\s*$)")
_NUMBER_ONLY = lazily(r"\s*(?:0x|\$)?(?=[0-9a-f]*\d)[0-9a-f]{2,8}h?\s*")
_SEPARATOR = lazily(r"\s[-–—]+\s|\s*[:|,/;=+&]\s*|\s{2,}|\t")
_RUN_ON = lazily(r"(?<![^\W_])([^\W\d_]{3,}[a-z])([A-H])(?!\w)")
_CODE = lazily(r"[pcbu][0-3][0-9a-f]{3}")
#: Separators within one name: what stands on one side and is not known makes it another name.
_LOOSE = lazily(r"[/+&,]")


class HasAliases(Protocol):
    """What is read of the tables: alias as written, to canonical name. Hashed by identity."""

    @property
    def aliases(self) -> Mapping[str, str]: ...

    def __hash__(self) -> int: ...


class ModuleMatch(NamedTuple):
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


@lru_cache(maxsize=8)
def _index(tables: HasAliases) -> Index:
    return Index(tables.aliases)


@lru_cache(maxsize=16384)
def resolve(name: str, tables: HasAliases) -> ModuleMatch:
    """The module ``name`` means. Any text; never raises. ``tables`` is told apart by identity."""
    return _resolve(name, tables)[0]


def resolve_together(names: Iterable[str], tables: HasAliases) -> dict[str, ModuleMatch]:
    """The modules the ``names`` of one vehicle mean, by name.

    As :func:`resolve`, but an abbreviation in doubt takes its second meaning where its first is another module's sure
    name ("TCM" and "TCU" in one scan: the second is the telematics unit).
    """
    found = {name: resolve(name, tables) for name in names}
    sure = {match.canonical for match in found.values() if match.second is None}
    for name, match in found.items():
        second = match.second
        if second is not None and match.canonical in sure and second not in sure:
            found[name] = match._replace(canonical=second, score=match.second_score, second=match.canonical,
                                  second_score=match.score, instance=_instance_of(second))
    return found


def named_within(name: str, tables: HasAliases) -> tuple[str, ...]:
    """The modules whose names stand within ``name`` ("ABS pump module": anti-lock brakes), in their order.

    For a name nobody knows: what it is likely to belong to, so that a safety class is not lost with it.
    """
    index = _index(tables)
    words = tokens(name[:LONGEST])[:MOST_WORDS]
    found: list[str] = []
    at = 0
    while at < len(words):
        hit = end = None
        for end in range(len(words), at, -1):
            hit = index.exact(words[at:end])
            if hit:
                break
        if hit and hit.name not in found:
            found.append(hit.name)
        at = end if hit and end else at + 1
    return tuple(found)


def is_module_name(text: str, tables: HasAliases) -> float:
    """How surely ``text`` alone is the name of a module, 0..100.

    90 and more: a heading. 85: one with a slip. 60: a name that is as often a part ("coolant pump", "driver front
    airbag"): a module only where the place says so. 0: not a module's name. Descriptions of faults score 0.
    """
    if len(text) > LONGEST or any(map(_CODE.fullmatch, tokens(text))):
        return 0.0
    match, how = _resolve(text, tables)
    words = tokens(text)
    if not match.known or how == "rest":
        return 0.0
    if (PARTS.intersection(words) and not FILLERS.intersection(words)) or match.canonical not in _index(tables).names:
        return 60.0
    return min(match.score, 85.0) if how == "alike" else max(match.score, 90.0)


#: A short form in capitals before a name in small letters; no word of a message in capitals.
_SHORT_BEFORE = lazily(
    r"(?!(?:NO|NOT|OK|THE|IN|AND|OR|ALL|DTC|DTCS|ECU|CODE|FAULT|LOW|HIGH|BAD|LOST|OLD|NEW|BUS|CAN|LIN|MIL|AFTER|SCAN)"
    r"[ /-])(?=[A-Z0-9/-]*[A-Z]{2})[A-Z][A-Z0-9]{1,4}(?:[/-][A-Z][A-Z0-9]{0,4})? (?=[A-Z][^\W\d_]*[a-z])"
)


@lru_cache(maxsize=16384)
def _resolve(name: str, tables: HasAliases) -> tuple[ModuleMatch, str]:
    """The match and how it was found: listed, soft, folded, pieces, rest, alike or unknown."""
    index = _index(tables)
    printed = " ".join(name[:4 * LONGEST].split())
    hit: Hit | None = None
    instance = Instance()
    nearest: tuple[str | None, float] = (None, 0.0)
    if 0 < len(printed) <= LONGEST:
        words = tokens(printed)
        if 0 < len(words) <= MOST_WORDS:
            hit = None if _counted(printed) else index.as_written(printed, words) or index.exact(words)
            if hit is None:
                hit, instance, nearest = _search(printed, index)
    if hit is None:
        led = _SHORT_BEFORE.match(printed)
        if led is not None and (behind := _resolve(printed[led.end() :], tables))[0].known and behind[1] == "listed":
            # "QLK-U Glow plug control": whatever the short form is, the name behind it is one.
            return behind
        return ModuleMatch(printed, 0.0, *nearest, False, None), "unknown"
    canonical = _own(_compose(hit.name, instance, index.names), index)
    bracketed = _IN_BRACKETS.match(printed)
    if bracketed:
        plain_name = _resolve(bracketed[1], tables)[0]
        if _seldom_numbered(plain_name, canonical, index.names):
            return plain_name._replace(score=90.0, second=canonical, second_score=86.0), "pieces"
    rival = hit.rival and _own(_compose(hit.rival, instance, index.names), index)
    which = _instance_of(canonical)
    return ModuleMatch(canonical, hit.score, rival, hit.rival_score, True, which), hit.how


def _search(printed: str, index: Index) -> tuple[Hit | None, Instance, tuple[str | None, float]]:
    """The hit for a name that is not listed as it stands, its instance, and the nearest name when there is no hit."""
    nowhere: tuple[str | None, float] = (None, 0.0)
    text = _clean(printed)
    words = tokens(text)
    hit, instance = _sure(words, index)
    if hit:
        return hit, instance, nowhere
    pieces = _pieces(text, index)
    base, instance = take_instance(words, index.vocabulary)
    if pieces and pieces.how != "rest":
        return pieces, instance, nowhere
    best, nearest = _alike(words, index)
    if best:
        return best, Instance(), nowhere
    for core in unbuilt(words, index.vocabulary):
        hit, instance = _sure(core, index)
        if hit:
            return Hit(hit.name, min(hit.score, 94.0), hit.rival, hit.rival_score, "folded"), instance, nowhere
    base, instance = take_instance(words, index.vocabulary)
    right = index.right(words)
    if right != words:
        hit, instance = _sure(right, index)
        if hit:
            return Hit(hit.name, min(hit.score, 95.0), hit.rival, hit.rival_score, "alike"), instance, nowhere
        # "Enigne contrl": the second slip in a word of its own.
        best, _ = _alike(right, index)
        if best:
            return best, Instance(), nowhere
        base, instance = take_instance(right, index.vocabulary)
    best, near = _alike(base, index) if instance else (None, nowhere)
    if best:
        return best, instance, nowhere
    nearest = max(nearest, near, key=lambda pair: pair[1])
    return (pieces, instance, nearest) if pieces else (_leading(printed, index), Instance(), nearest)


def _alike(words: tuple[str, ...], index: Index) -> tuple[Hit | None, tuple[str | None, float]]:
    """The hit by likeness, and the nearest name if it is not near enough."""
    alike = index.alike(words)
    if not alike or alike[0][1] < CUTOFF:
        return None, alike[0] if alike else (None, 0.0)
    name, score = alike[0]
    rival, rival_score = alike[1] if len(alike) > 1 else (None, 0.0)
    return Hit(name, score, rival, rival_score, "alike"), (None, 0.0)


def _sure(words: tuple[str, ...], index: Index) -> tuple[Hit | None, Instance]:
    """The hit for words that are all known: as listed, with a side or number, or several names of one module."""
    hit = index.exact(words)
    if hit:
        return hit, Instance()
    base, instance = take_instance(words, index.vocabulary)
    tries = [(index.exact, base, instance)] if instance and base else []
    tries += [(index.exact, core, which) for core, which in outer_instances(words, index.vocabulary)]
    tries.append((index.cover, words, Instance()))
    tries += [(index.cover, base, instance)] if instance and base else []
    for look_up, core, which in tries:
        hit = look_up(core)
        if hit:
            return hit, which
    return None, Instance()


def _leading(printed: str, index: Index) -> Hit | None:
    """The module of an abbreviation with a supplier or type after it ("ABS Mk 60"), words nobody knows."""
    first, _, others = printed.partition(" ")
    if first.isupper() and 2 < len(first) <= 5 and not any(map(index.rows_like, tokens(others))):
        hit = index.exact(tokens(first))
        if hit:
            return Hit(hit.name, 88.0, hit.rival, hit.rival_score, "rest")
    return None


def _clean(printed: str) -> str:
    """``printed`` folded to plain characters, without addresses, list numbers and numbers in brackets; a letter run on
    ("gatewayB") apart. In small letters it is the end of a word ("motore", "stored")."""
    text = plain(_RUN_ON.sub(r"\1 \2", printed))
    text = _OF_ALL.sub(r"\1", text) if text[-1:] in (")", "]") else text
    bare = _BRACKETS.sub(lambda found: " " if _NUMBER_ONLY.fullmatch(found[1]) else found[0], text)
    bare = _COUNT.sub("", _LIST_NUMBER.sub("", _ADDRESS.sub(" ", bare)))
    return bare if _has_word(bare) else text


def _counted(printed: str) -> bool:
    """Whether a count of codes may stand at the end of ``printed``."""
    return any(map(str.isdecimal, printed)) and bool(_COUNT.search(plain(printed)))


def _seldom_numbered(bare: ModuleMatch, numbered: str, names: frozenset[str]) -> bool:
    """Whether the number in brackets behind a name is as likely a count: a module seldom fitted more than once."""
    stem = _stem(bare.canonical)
    if not bare.known or bare.canonical == numbered or stem not in names:
        return False
    return sum(other.startswith(f"{stem} ") and _stem(other) == stem for other in names) < 3


def _has_word(text: str) -> bool:
    return any(char.isalpha() for char in text)


def _pieces(text: str, index: Index) -> Hit | None:
    """The module by pieces of ``text``: outside and inside brackets, between separators.

    Beside the pieces that are names there may be a type number or a short word ("Engine - ABC"); more makes it "rest".
    """
    outside = _BRACKETS.sub(" \t ", text)
    # "Retarder - driveline" is listed as a whole.
    whole = _BRACKETS.search(text) is not None and bool(_sure(tokens(outside), index)[0])
    parts = [*([outside] if whole else _SEPARATOR.split(outside)), *_BRACKETS.findall(text)]
    asked = [words for words in map(tokens, parts) if any(map(str.isalpha, "".join(words)))]
    if len(asked) < 2:
        return None
    found: list[Hit] = []
    others: list[tuple[str, ...]] = []
    for words in asked:
        hit, _ = _sure(words, index)
        if hit:
            found.append(hit)
        elif not (len(words) == 1 and index.is_type(words[0])) and take_instance(words)[0]:
            others.append(words)
    if not found or (others and _LOOSE.search(text)):
        return None
    rest = any(len(words) > 1 or len(words[0]) > 6 for words in others)
    names = agreed(found)
    how = "rest" if rest else "pieces"
    if len(names) == 2 and len(found) == 2 and len(asked) == 2:
        for short, long in ((0, 1), (1, 0)):
            if _shortened(asked[short], asked[long]):
                return Hit(found[long].name, 90.0, found[short].name, 80.0, how)
    if len(names) == 1:
        return Hit(names.pop(), 92.0 if len(found) < len(asked) else 97.0, None, 0.0, how)
    other = next(hit.name for hit in found[1:] + found if hit.name != found[0].name)
    return Hit(found[0].name, 85.0, other, 80.0, how)


def _shortened(short: tuple[str, ...], long: tuple[str, ...]) -> bool:
    """Whether ``short`` is an abbreviation of ``long``: the letters its words begin with, in their order."""
    if len(short) != 1 or len(long) < 2 or not 2 <= len(short[0]) <= 6 or short[0][0] != long[0][0]:
        return False
    letters = iter(short[0])
    return all(word[0] in letters for word in long)


def _stem(name: str) -> str:
    """``name`` without its side or number: "door" of "door, front left", "NOx sensor" of "NOx sensor A"."""
    head, comma, _ = name.partition(", ")
    if comma:
        return head
    head, _, last = name.rpartition(" ")
    return head if head and (last.isdecimal() or (len(last) == 1 and last.isupper())) else name


def _instance_of(canonical: str) -> str | None:
    return canonical[len(_stem(canonical)):].strip(", ") or None


def _own(canonical: str, index: Index) -> str:
    """The table's own name for one composed of a module and its instance, whose module may be an alias alone ("body
    module 22": "body module B" is listed, and "body module" is another word for the body control)."""
    canonical = index.own(canonical)
    stem = _stem(canonical)
    return canonical if canonical in index.names else index.own(stem) + canonical[len(stem) :]


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
        head = stem if stem in names or "," in name else name
        return f"{head}, {side} {number}" if number else f"{head}, {side}"
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
