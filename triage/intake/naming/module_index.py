"""The aliases of the tables, folded once: exact look-up in any word order, and likeness for slips of the pen.

Likeness goes word by word, so that a name with one word nobody knows costs next to nothing: each word must have a
word like it among those of the aliases, and the alias must have all of them. Short words are abbreviations or
numbers; they must be equal ("APS" is not "ABS").
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import NamedTuple

from triage.intake.naming.shortforms import by_consonants, written_out
from triage.intake.plain.slips import Choices, nearest
from triage.intake.words.module_words import (
    FILLERS,
    SIDES,
    SOFT,
    SPELLINGS,
    all_tokens,
    drop_fillers,
    drop_soft,
    tokens,
    words_of,
)

Words = tuple[str, ...]

#: German umlauts as they are written where the keyboard has none.
_WRITTEN_OUT = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "Ä": "Ae", "Ö": "Oe", "Ü": "Ue"})

#: Likeness below this is another name (the project's own choice, from slips of one or two letters).
CUTOFF = 86.0
#: Abbreviations in use for a second module as well: the rival of the one in the table. Common practice.
RIVALS = {
    "tcu": "telematics", "hcm": "hybrid powertrain", "hcu": "anti-lock brakes", "icm": "ignition control",
    "scm": "seat", "psm": "power steering", "ccm": "climate control", "dcu": "door", "bms": "battery monitor",
    "bsm": "battery monitor", "pas": "power steering", "pdm": "power distribution", "tbm": "telematics",
    "acm": "reductant", "apm": "DC/DC converter", "gsm": "telematics",
    "acc": "air conditioning", "fcm": "camera, front", "lcm": "lighting, rear", "esm": "seat", "tpm": "immobiliser",
    "cdc": "suspension", "fdm": "door", "afs": "active steering", "rpa": "tyre pressure", "rfk": "camera, rear",
    "hkl": "climate control", "fcam": "front distance sensor", "dcm": "telematics", "vcm": "engine control",
    "motor control": "engine control",
}

#: A name with one of these and no filler word may as well be a part or a fault's description.
PARTS = words_of(
    "sensor pump motor switch actuator compressor heater heating generator alternator starter fan lamp headlamp "
    "antenna aerial battery horn mirror window wiper plug throttle clutch turbo turbocharger supercharger coolant fuel "
    "yaw rain injection ignition charging blower pedal lever injector clock light shutter valve relay fuse tank "
    "temperature voltage siren memory distance trip weight boot traction etc "
    "motore sensore pompa tergicristallo fari luci sterzo"
)

#: Words that name nothing by themselves.
_WEAK = SOFT | frozenset(SIDES) | {"power", "heck"}
#: Words that are a letter off a side: "le moteur avait P0562", "ABS read", "au second passage".
_NO_SIDE = frozenset(["avait", "ayant", "read", "passage"])
#: Words in which a slip is put right ("link" is a word of its own).
_RIGHT_WORDS = Choices(
    [*sorted(w for w in FILLERS if len(w) > 4), *sorted(w for w in SIDES if len(w) > 3 and w != "links")])


#: Variant spellings long enough for a slip in them, and the word at the end of German compounds.
_VARIANTS = sorted(short for short in SPELLINGS if len(short) > 6)
_UNIT = "steuergerat"
#: So many words looked up by likeness are remembered.
_REMEMBERED = 20_000


class Hit(NamedTuple):
    """A candidate on the way: base or full canonical name, score, rival name, and how it was found."""

    name: str
    score: float
    rival: str | None
    rival_score: float
    how: str


class Index:
    """The aliases of one tables object."""

    def __init__(self, aliases: Mapping[str, str]) -> None:
        self.names = frozenset(aliases.values())
        self._aliases = aliases
        #: Canonical name by alias as written, but for its capitals: all that a scan with listed names asks for.
        self._written = {name.casefold(): name for name in self.names}
        self._written |= {alias.casefold(): name for alias, name in aliases.items()}
        self._like: dict[str, set[int]] = {}
        self._righted: dict[str, str] = {}

    @cached_property
    def rows(self) -> list[tuple[Words, Words, str]]:
        """Words, words without fillers, canonical name of each alias."""
        pairs = {name: name for name in sorted(self.names)} | dict(self._aliases)
        pairs |= {alias.translate(_WRITTEN_OUT): name for alias, name in self._aliases.items() if not alias.isascii()}
        return [(words, core, name) for (words, core), name in zip(all_tokens(pairs), pairs.values(), strict=True)
                if words]

    @cached_property
    def light(self) -> dict[Words, str]:
        """The names by their words."""
        # The first of several rows counts.
        return {words: name for words, _, name in reversed(self.rows)}

    @cached_property
    def folded(self) -> dict[Words, list[str]]:
        """The names by their words without fillers."""
        found: dict[Words, list[str]] = {}
        for _, core, name in self.rows:
            _add(found, core, name)
        return found

    @cached_property
    def _turned(self) -> tuple[dict[Words, str], dict[Words, list[str]]]:
        """The names by their words in alphabetical order: as written, and folded."""
        light: dict[Words, str] = {}
        folded: dict[Words, list[str]] = {}
        for words, core, name in self.rows:
            light.setdefault(tuple(sorted(words)), name)
            _add(folded, tuple(sorted(core)), name)
        return light, folded

    def as_written(self, text: str, words: Words) -> Hit | None:
        """The candidate listed under ``text``, whose words are ``words``; what :meth:`exact` says, only sooner."""
        name = self._written.get(text.casefold())
        return self._with_rival(words, name, 100.0, "listed") if name else None

    def exact(self, words: Words) -> Hit | None:
        """The candidate listed under these words, in any order, fillers or soft words left out if need be."""
        for how, score, bare in (("listed", 100.0, words), ("soft", 95.0, drop_soft(words))):
            name = self.light.get(bare) or self._turned[0].get(tuple(sorted(bare)))
            if name:
                return self._with_rival(bare, name, score, how)
            folded = drop_fillers(bare)
            names = self.folded.get(folded) or self._turned[1].get(tuple(sorted(folded)))
            # "Coolant temperature" alone is no module, "coolant temperature control" is one.
            if names and (folded != bare or not PARTS.intersection(folded)):
                own = self.light.get(folded, names[0])
                other = next((name for name in names if name != own), None)
                if other and folded not in self.light:
                    return Hit(own, 90.0, other, 88.0, "folded")
                return self._with_rival(folded, own, score - 1, "folded")
            if bare == drop_soft(bare) and how == "listed":
                return None
        return None

    def cover(self, words: Words) -> Hit | None:
        """The module when the words are several of its names one after the other ("ECM engine control")."""
        found: list[Hit] = []
        at = stop = 0
        while at < len(words):
            if stop <= at:
                # No name goes on across a word that none has.
                stop = next((place for place in range(at, len(words)) if not self._may_be_in_a_name(words[place])),
                            len(words))
            for end in range(stop, at, -1):
                hit = self.exact(words[at:end])
                if hit:
                    found.append(hit)
                    at = end
                    break
            else:
                if words[at] not in FILLERS and not self.is_type(words[at]):
                    return None
                at += 1
        names = agreed(found)
        return Hit(names.pop(), 97.0, None, 0.0, "pieces") if len(names) == 1 else None

    def _may_be_in_a_name(self, word: str) -> bool:
        """Whether a name may have a word, or may be meant by words with it: it has it, or it may be left out."""
        return word in self.vocabulary or word in SOFT or word in FILLERS or (
            drop_fillers((word,))[0] in self.vocabulary)

    def own(self, name: str) -> str:
        """The table's own name where ``name`` is only an alias of it."""
        hit = None if name in self.names else self.exact(tokens(name))
        return hit.name if hit and hit.score >= 99.0 else name

    def _with_rival(self, key: Words, name: str, score: float, how: str) -> Hit:
        rival = RIVALS.get(" ".join(key))
        if rival is None or rival == name or rival not in self.names:
            return Hit(name, score, None, 0.0, how)
        return Hit(name, 90.0, rival, 86.0, how)

    @cached_property
    def _by_word(self) -> dict[str, set[int]]:
        """Rows by word, fillers left out."""
        found: dict[str, set[int]] = {}
        for at, (words, core, _) in enumerate(self.rows):
            if len(" ".join(core)) >= 5 and not _WEAK.issuperset(core):
                for word in (*words, *core):
                    if word not in FILLERS:
                        found.setdefault(word, set()).add(at)
        return found

    @cached_property
    def _run_on(self) -> dict[str, set[str]]:
        """The names by their words written without spaces ("tailgate module", "bodym odule")."""
        found: dict[str, set[str]] = {}
        for words, _, name in self.rows:
            found.setdefault("".join(words), set()).add(name)
        return found

    @cached_property
    def vocabulary(self) -> frozenset[str]:
        """Every word of an alias."""
        return frozenset(word for words, core, _ in self.rows for word in (*words, *core))

    def is_type(self, word: str) -> bool:
        """Whether ``word`` is a type number of a supplier: letters and digits, but no known word with a number."""
        return len(word) > 2 and any(map(str.isdecimal, word)) and word.rstrip("0123456789") not in self.vocabulary

    def right(self, words: Words) -> Words:
        """``words`` with those written out that lack vowels ("clstr"), and with a slip put right in the longer filler
        and side words ("moduel", "frnot"), in variant spellings ("headights") and in the end of a compound
        ("Motorsteuererät")."""
        right = []
        for word in words:
            if len(word) > 3 and word not in self.vocabulary and word not in SIDES:
                if len(self._righted) >= _REMEMBERED:
                    self._righted.clear()
                if word not in self._righted:
                    self._righted[word] = self._right_word(word)
                word = self._righted[word]
            right.append(word)
        return tuple(right)

    def _right_word(self, word: str) -> str:
        """One word that no alias has, put right."""
        whole = self._written_out(word)
        if whole is not None:
            return whole
        near = nearest(word, _RIGHT_WORDS) if word not in _NO_SIDE else None
        if near is not None:
            return near
        if len(word) > 5:
            # A plural's s is taken off each word, also where a slip only put it last ("keylses").
            for asked, listed in ((word, _VARIANTS), (f"{word}s", self._ending_in_s)):
                like = nearest(asked, listed)
                if like is not None and _one_slip(asked, like):
                    return SPELLINGS.get(like, like)
        return self._right_compound(word)

    @cached_property
    def _without_vowels(self) -> dict[str, list[str]]:
        """The words of aliases by their consonants."""
        return by_consonants(sorted(self.vocabulary))

    def _written_out(self, word: str) -> str | None:
        """The word that lacks vowels in this one; of several, one that is alone the name of the only module."""
        whole = written_out(word, self._without_vowels)
        if len(whole) < 2:
            return whole[0] if whole else None
        named = {hit.name: other for other in reversed(whole) if (hit := self.exact((other,))) is not None}
        return next(iter(named.values())) if len(named) == 1 else None

    @cached_property
    def _ending_in_s(self) -> list[str]:
        """The longer words of aliases that end in s."""
        return sorted(word for word in self._by_word if len(word) > 6 and word[-1] == "s")

    def _right_compound(self, word: str) -> str:
        """A German compound with a slip in "steuergerät": what stands before it must be a word of an alias."""
        from rapidfuzz.distance import OSA

        for size in (len(_UNIT), len(_UNIT) - 1, len(_UNIT) + 1):
            head, tail = word[:-size], word[-size:]
            if head in self.vocabulary and OSA.distance(tail, _UNIT) == 1:
                return head + _UNIT
        return word

    @cached_property
    def _long_words(self) -> dict[int, list[str]]:
        """The words of more than three letters by their length."""
        found: dict[int, list[str]] = {}
        for word in self._by_word:
            if len(word) > 3:
                found.setdefault(len(word), []).append(word)
        return found

    def rows_like(self, word: str) -> set[int]:
        """Rows with ``word`` or a word like it. Not to be changed: texts ask for the same words again and again."""
        rows = self._by_word.get(word)
        if rows is None:
            rows = self._like.get(word)
        if rows is None:
            if len(self._like) >= _REMEMBERED:
                self._like.clear()
            rows = self._like[word] = self._rows_like(word)
        return rows

    def _rows_like(self, word: str) -> set[int]:
        """Rows with a word like ``word``: of a length that so many slips can make."""
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        if len(word) < 3 or not word.isalpha():
            return set()
        slips = _slips(word)
        near: list[tuple[int, str]] = []
        for length in range(len(word) - slips, len(word) + slips + 1):
            choices = self._long_words.get(length, ())
            found = process.extract(word, choices, scorer=OSA.distance, score_cutoff=slips, limit=8)
            near += [(int(distance), like) for like, distance, _ in found]
        near.sort(key=lambda pair: pair[0])
        return set().union(*(self._by_word[like] for _, like in near[:8]))

    def alike(self, words: Words) -> list[tuple[str, float]]:
        """Up to two names most like ``words``, best first, with likeness 0..100; none for less than five letters."""
        run = "".join(words)
        names = self._run_on.get(run, ()) if len(run) > 5 else ()
        if len(names) == 1:
            return [(next(iter(names)), 95.0)]
        core = drop_fillers(words)
        if len(" ".join(core)) < 5:
            return []
        rows: set[int] | None = None
        # Words that are listed cost nothing: where no name has them all, the others need not be looked for.
        for word in sorted(core, key=lambda word: word not in self._by_word):
            like = self.rows_like(word)
            rows = like if rows is None else rows & like
            if not rows:
                return []
        best: dict[str, float] = {}
        for at in rows or ():
            score = _likeness(words, core, *self.rows[at][:2])
            if score >= CUTOFF - 6:
                name = self.rows[at][2]
                best[name] = max(best.get(name, 0.0), score)
        return sorted(best.items(), key=lambda pair: -pair[1])[:2]


def agreed(found: list[Hit]) -> set[str]:
    """The names the hits stand for; one that has its rival among the others counts as that."""
    sure = {hit.name for hit in found if hit.rival is None}
    return {hit.rival if hit.rival in sure and hit.rival else hit.name for hit in found}


def _add(folded: dict[Words, list[str]], core: Words, name: str) -> None:
    names = folded.setdefault(core, [])
    if name not in names and not _WEAK.issuperset(core):
        names.append(name)


def _slips(word: str) -> int:
    """How many slips (a letter too many, missing, wrong, or two turned round) a word of this length may have."""
    return 1 if len(word) < 8 else 2


def _like(listed: str, asked: str) -> bool:
    """Whether ``asked`` is ``listed`` with a slip; a letter run on at its end is an instance ("gatewayB"), no slip."""
    from rapidfuzz.distance import OSA

    run_on = asked[:-1] == listed and asked[-1] != listed[-1]
    return len(asked) > 2 and not run_on and OSA.distance(listed, asked) <= _slips(asked)


def _one_slip(asked: str, listed: str) -> bool:
    """Whether a single word is a listed one with two letters turned round, or one letter wrong, missing or too many
    within it; at its ends such a word is more often another ("started" is no starter).

    >>> _one_slip("clsuter", "cluster"), _one_slip("gatewy", "gateway"), _one_slip("started", "starter")
    (True, True, False)
    """
    from rapidfuzz.distance import OSA

    if len(asked) < 5 or OSA.distance(asked, listed) != 1:
        return False
    if sorted(asked) == sorted(listed):
        return True
    return min(len(asked), len(listed)) > 5 and asked[0] == listed[0] and asked[-1] == listed[-1]


def _likeness(words: Words, core: Words, listed: Words, listed_core: Words) -> float:
    """Likeness 0..99 of two names, 0 where a word of the listed one has no like in the other."""
    from rapidfuzz import fuzz
    from rapidfuzz.distance import OSA

    # A part's name is a module's only where the name says so ("coolant temperature control").
    if listed != listed_core and words == core and PARTS.intersection(listed_core):
        return 0.0
    for word in listed_core:
        if word not in core and not any(_like(word, other) for other in core):
            return 0.0
    pairs = [(" ".join(words), " ".join(listed)), (" ".join(sorted(core)), " ".join(sorted(listed_core)))]
    alike = max(max(fuzz.ratio(*pair), 100.0 * OSA.normalized_similarity(*pair)) for pair in pairs)
    if len(core) == len(listed_core) == 1 and _one_slip(core[0], listed_core[0]):
        alike = max(alike, CUTOFF)
    return min(99.0, alike)
