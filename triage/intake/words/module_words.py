"""The words module names are made of: folding, filler words, sides and numbers.

A module's name is printed in many ways. Folding takes away what carries no meaning (case, accents, punctuation,
the words "module" or "control unit"), so that what is left can be looked up. The side or number that tells one
of several equal modules from the others is taken off apart, and never lost.

>>> fold("Engine Control Module")
'engine'
>>> fold("Türsteuergerät")
'tur'
>>> tokens("A.B.S. / DC-DC (12 V)")
('abs', 'dcdc', '12v')
>>> take_instance(tokens("Door module, LF"))
(('door', 'module'), Instance(side='front left', number=None))
>>> take_instance(tokens("Camera no. 2"))
(('camera',), Instance(side=None, number='2'))

Words: common practice of the trade in English, German, French and Spanish; the commonest of Italian, Dutch,
Portuguese, Polish and Swedish.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Container, Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from triage.intake.plain.patterns import lazily


def words_of(text: str) -> frozenset[str]:
    """The words of ``text``, between spaces."""
    return frozenset(text.split())


#: Words that say only that the thing is a control unit.
FILLERS = words_of(
    "module control controller controlled unit ecu system computer assembly "
    "steuergerat steuergeraet steuereinheit steuerung modul einheit elektronik "
    "calculateur boitier unite commande controle gestion systeme modulo unidad centralita sistema mando dispositivo "
    "uce cm gerat geraet appareil aparato centralina unita controllo apparaat regeleenheid stuurapparaat stuureenheid "
    "besturing sterownik styrenhet styrdon unidade"
)

#: Words that tie others together.
STOPS = words_of("the of for and in on to de del des du la le les el los las et y und der die das fur von im")

#: Words that may be left out when a name is not found with them.
SOFT = words_of(
    "electronic electric electrical electro elektronisch elektronische elektronischer elektronisches elektrisch "
    "elektrische electronique electrique electronico electronica electrico electrica main primary master integrated "
    "vehicle automatic auto central centrale zentral zentrale zentraler zentrales digital digitale numerique advanced "
    "intelligent intelligente 12v 14v 24v 48v brain brains"
)

#: What a code is called that is counted ("Event 1"), and no module is.
ENTRIES = words_of(
    "event ereignis evenement evento entry eintrag fehlereintrag entree entrada incident incidente record "
    "enregistrement registro storung stoerung"
)

#: Short and variant spellings, each to the one used here.
SPELLINGS = {short: word for short, _, word in (pair.partition(":") for pair in words_of(
    "eng:engine trans:transmission xmission:transmission inst:instrument instr:instrument pwr:power elec:electric "
    "elect:electric ctrl:control cntrl:control ctl:control cont:control mod:module mdl:module sys:system batt:battery "
    "snsr:sensor sens:sensor temp:temperature veh:vehicle brk:brake brks:brake strg:steering steer:steering "
    "susp:suspension "
    "clust:cluster frt:front frnt:front pass:passenger psgr:passenger drv:driver drvr:driver tire:tyre center:centre "
    "hyd:hydraulic windshield:windscreen headlight:headlamp cam:camera immobilizer:immobiliser leveling:levelling "
    "stabilization:stabilisation colour:color getr:getriebe stg:steuergerat sg:steuergerat calc:calculateur "
    "cent:central mem:memory aux:auxiliary comp:compressor clk:clock mgmt:management mgt:management mgmnt:management"
))}

_SIDE_WORDS = {
    "front": (
        "vorn vorne vorder vordere vorderer vorderes avant av delantero delantera delanteros delant anterior "
        "anteriore anteriori dianteiro dianteira przod przedni przednia fram framre voor"
    ),
    "rear": (
        "back hinten hinter hintere hinterer hinteres arriere ar trasero trasera tras posterior posteriore "
        "posteriori achter traseiro traseira tyl tylny tylna bakre"
    ),
    "left": (
        "lh lhs links linke linker linkes gauche izquierdo izquierda izq izqdo izqda izda nearside sinistro "
        "sinistra sx esquerdo esquerda lewy lewa vanster"
    ),
    "right": (
        "rh rhs rechts rechte rechter rechtes droit droite derecho derecha dcho dcha drcha offside destro "
        "destra dx direito direita prawy prawa hoger"
    ),
    "driver": (
        "fahrer fahrerseite conducteur conductor guidatore conducente bestuurder motorista condutor kierowca "
        "forare"
    ),
    "passenger": (
        "beifahrer beifahrerseite passager pasajero acompanante acomp copiloto beif passeggero passagier "
        "passageiro pasazer passagerare"
    ),
    "front left": "fl lf vl avg lhf nsf linksvoor", "front right": "fr rf vr avd rhf osf rechtsvoor",
    "rear left": "rl lr hl arg lhr nsr linksachter", "rear right": "rr hr ard rhr osr rechtsachter",
    "upper": "", "lower": "", "inner": "", "outer": "", "middle": "",
}
#: Side words by token, each as one or two words of ours.
SIDES = {word: side for side, words in _SIDE_WORDS.items() for word in (side, *words.split()) if " " not in word}
_ORDER = ("front", "middle", "rear", "upper", "lower", "left", "right", "driver", "passenger", "inner", "outer")

_FIRST_LETTERS = {"l": "left", "r": "right"}
#: Sides written as two short words ("vo. li.", "L/H"), each to the one used here.
_PAIRED = {
    ("vo", "li"): "vl", ("vo", "re"): "vr", ("hi", "li"): "hl", ("hi", "re"): "hr", ("v", "li"): "vl",
    ("v", "re"): "vr",
    ("h", "li"): "hl", ("h", "re"): "hr", ("li", "vo"): "vl", ("re", "vo"): "vr", ("li", "hi"): "hl",
    ("re", "hi"): "hr",
    ("l", "h"): "lh", ("r", "h"): "rh", ("v", "l"): "vl", ("v", "r"): "vr", ("h", "l"): "hl", ("h", "r"): "hr",
    ("av", "g"): "avg", ("av", "d"): "avd", ("ar", "g"): "arg", ("ar", "d"): "ard",
}
_NUMBER_WORDS = words_of("no nr num number n numero nummer")
_SIDE_NOISE = words_of("side seite cote lado hand")
_ROMAN = {"ii": "2", "iii": "3", "iv": "4"}

_QUOTES = frozenset("'’´`")
_JOINS = frozenset("/-–.")
_ELISION = lazily(r"(?<![^\W_])[dl]['’´`](?=[^\W_])")
_DOTTED = lazily(r"(?<![^\W_])(?:[^\W\d_]\.){2,6}")
#: "Puerta del. der.": with a full stop they are no articles.
_SPANISH_SIDE = lazily(r"(?<![a-z])(?:del\.|(?<=\. )der(?:\.|$)|(?<=rasera )der\.)")
_SPANISH = {"del.": "delantera ", "der": "derecha", "der.": "derecha"}
_AIR_CON = lazily(r"(?<![^\W_])a\s?[/.\-]\s?c(?![^\W_])")
_CONVERTER = lazily(r"(?<![^\W_])([ad]c)[ ]?[-/–][ ]?([ad]c)(?![^\W_])")
_VOLTS = lazily(r"(?<![\w.,])(\d{2,3})[ \-]?v(?:olts?)?(?![^\W_])")
_WORD = lazily(r"[^\W_]+")
_WORD_NUMBER = lazily(r"([^\W\d_]{3,}?)(\d{1,2})")
_COMPOUND = lazily(r"(.{2,})(?:steuergerate?|steuergeraete?|steuereinheit|steuermodul|(?<=.{3})stg)")
_BUILT = lazily(
    r"((.{3,}?)(?:e?[ns])?)(?:elektronik|steuerung|regelung|modul|einheit|system|"
    r"funktion|rechner|elektronica|regeling|besturing|stuurapparaat|styrning|styrenhet|styrdon)")


@dataclass(frozen=True, slots=True)
class Instance:
    """Which of several equal modules: ``side`` in words ("front left"), ``number`` a letter or number, upper case."""

    side: str | None = None
    number: str | None = None

    def __bool__(self) -> bool:
        return self.side is not None or self.number is not None

    def __str__(self) -> str:
        return " ".join(part for part in (self.side, self.number) if part)


#: Letters whose stroke no decomposition takes off.
_STROKED = {ord("\u0142"): "l", ord("\u0141"): "L", ord("\u00f8"): "o", ord("\u00d8"): "O", ord("\u0111"): "d"}


class _Unaccented(dict[int, str]):
    """Each character without its accents, worked out once."""

    def __missing__(self, char: int) -> str:
        if char in _STROKED:
            return _STROKED[char]
        parts = unicodedata.normalize("NFKD", chr(char))
        self[char] = found = "".join(c for c in parts if not unicodedata.combining(c))
        return found


_UNACCENTED = _Unaccented()
_NOT_ASCII = lazily(r"[^\x00-\x7f]")


def plain(text: str) -> str:
    """``text`` in lower case without accents, abbreviations joined ("a/c" to "ac"); punctuation stays."""
    if not text.isascii():
        text = _NOT_ASCII.sub(lambda match: _UNACCENTED[ord(match[0])], text)
    text = text.casefold()
    if text.replace(" ", "").isalpha():
        return text
    # Ten thousand names are read at every start: a pattern is only tried where its mark is there.
    if not _QUOTES.isdisjoint(text):
        text = _ELISION.sub("", text)
    if "." in text:
        text = _SPANISH_SIDE.sub(lambda found: _SPANISH[found[0]], text) if ". d" in text or "el." in text else text
        text = _DOTTED.sub(lambda found: found[0].replace(".", ""), text)
    if not _JOINS.isdisjoint(text):
        text = _CONVERTER.sub(r"\1\2", _AIR_CON.sub("ac", text))
    return _VOLTS.sub(r"\1v", text) if "v" in text else text


@lru_cache(maxsize=8192)
def _stem(word: str) -> str:
    """``word`` in its one spelling, without a plural s."""
    word = SPELLINGS.get(word, word)
    if len(word) > 4 and word[-1] == "s" and word[-2] != "s" and word not in SIDES:
        word = word[:-1]
        return SPELLINGS.get(word, word)
    return word


@lru_cache(maxsize=8192)
def _core(word: str) -> str:
    """``word`` without "control unit" in it: empty for a filler word."""
    if word in FILLERS:
        return ""
    compound = _COMPOUND.fullmatch(word)
    return compound[1] if compound else word


def tokens(text: str) -> tuple[str, ...]:
    """The words of ``text`` in their one spelling, words that only tie others together left out."""
    text = plain(text)
    words = text.split() if text.replace(" ", "").isalpha() else _WORD.findall(text)
    found = [_stem(word) for word in words]
    return tuple([word for word in found if word not in STOPS]) or tuple(found)


def drop_fillers(words: tuple[str, ...]) -> tuple[str, ...]:
    """``words`` without those that only say "control unit"; unchanged if nothing would be left."""
    return tuple([core for word in words if (core := _core(word))]) or words


class _Kept(dict[str, str]):
    """What ``work`` makes of a word, worked out once: as quick as a look-up."""

    def __init__(self, work: Callable[[str], str]) -> None:
        super().__init__()
        self._work = work

    def __missing__(self, word: str) -> str:
        self[word] = found = self._work(word)
        return found


def all_tokens(texts: Iterable[str]) -> list[tuple[tuple[str, ...], tuple[str, ...]]]:
    """:func:`tokens` of each of many texts, and the same without fillers: some ten thousand names at every start."""
    stems, cores = _Kept(_stem), _Kept(_core)
    result = []
    for text in texts:
        text = text.lower() if text.isascii() and text.replace(" ", "").isalpha() else plain(text)
        found = [stems[word] for word in (text.split() if text.replace(" ", "").isalpha() else _WORD.findall(text))]
        words = tuple(found) if STOPS.isdisjoint(found) else tuple(
            [word for word in found if word not in STOPS]) or tuple(found)
        result.append((words, tuple([core for word in words if (core := cores[word])]) or words))
    return result


def unbuilt(words: tuple[str, ...], known: Container[str]) -> Iterator[tuple[str, ...]]:
    """``words`` with the German compounds nobody knows cut to what stands before "electronics" or "control" in them.

    Once with the letters that join the parts ("Heckklappen"), once without them.
    """
    cut = [_BUILT.fullmatch(word) if len(word) > 8 and word not in known else None for word in words]
    if any(cut):
        for part in (1, 2):
            yield tuple(found[part] if found else word for found, word in zip(cut, words, strict=True))


def drop_soft(words: tuple[str, ...]) -> tuple[str, ...]:
    """``words`` without those that may be left out; unchanged if nothing would be left."""
    return tuple(word for word in words if word not in SOFT) or words


def fold(name: str) -> str:
    """The key of ``name``: lower case, no accents, punctuation, plurals or filler words. Any text; never raises."""
    return " ".join(drop_fillers(tokens(name)))


def take_instance(words: tuple[str, ...], known: Container[str] | None = None) -> tuple[tuple[str, ...], Instance]:
    """``words`` without side words and the number at the end, and the instance these name.

    A number run on ("camera2") is taken off where the word before it is ``known``; None: off any.
    """
    rest = _paired(words)
    number = _take_number(rest, known)
    named = []
    if len(rest) > 1 and rest[0] in _FIRST_LETTERS:
        named.append(_FIRST_LETTERS[rest.pop(0)])
    named += [SIDES[word] for word in rest if word in SIDES]
    kept = [word for word in rest if word not in SIDES and not (named and word in _SIDE_NOISE)]
    return tuple(kept), Instance(_side(named), number)


def outer_instances(
    words: tuple[str, ...], known: Container[str] | None = None,
) -> Iterator[tuple[tuple[str, ...], Instance]]:
    """As :func:`take_instance`, but side words taken off one end only, fewest first ("driver assistance, left")."""
    rest = list(words)
    number = _take_number(rest, known)
    for end in (-1, 0):
        core, named = list(rest), []
        while len(core) > 1 and core[end] in SIDES:
            named.append(SIDES[core.pop(end)])
            yield tuple(core), Instance(_side(named), number)
    if number:
        yield tuple(rest), Instance(None, number)


def _paired(words: tuple[str, ...]) -> list[str]:
    """``words`` with two short ones that tell a side as one."""
    rest = list(words)
    at = 1
    while at < len(rest):
        side = _PAIRED.get((rest[at - 1], rest[at]))
        # A first word is the name itself ("AV G" is nothing).
        if side and len(rest) > 2:
            rest[at - 1 : at + 1] = [side]
        at += 1
    return rest


def _side(named: list[str]) -> str | None:
    """The side in words, in one order; a front seat is the driver's or the passenger's."""
    sides = {word for side in named for word in side.split()}
    if {"front"} < sides and sides & {"driver", "passenger"}:
        sides.discard("front")
    return " ".join(word for word in _ORDER if word in sides) or None


def _take_number(rest: list[str], known: Container[str] | None) -> str | None:
    """Take the number or letter at the end off ``rest`` (filler words may follow it)."""
    at = len(rest) - 1
    while at > 0 and rest[at] in FILLERS:
        at -= 1
    if at < 0:
        return None
    last = rest[at]
    glued = _WORD_NUMBER.fullmatch(last)
    if glued:
        word = _stem(glued[1])
        if known is None or (word in known and last not in known):
            rest[at] = word
            return glued[2].lstrip("0") or "0"
    if at == 0:
        return None
    number = _ROMAN.get(last, last)
    if number.isdecimal() and number.isascii() and len(number) <= 2:
        number = number.lstrip("0") or "0"
    elif not (len(number) == 1 and "a" <= number <= "r"):
        return None
    del rest[at]
    if at > 1 and rest[at - 1] in _NUMBER_WORDS:
        del rest[at - 1]
    return number.upper()

#: The word for a module before a name that it belongs to, as the French and the Spanish print it ("Module pompe \u00e0
#: carburant"), and no label ("module ABS", "Module of the radio"); likewise "all" of "All wheel drive", and the word
#: before what is no name alone ("unit K7").
KIND_FIRST = lazily(
    r"(?:Module|M[o\u00f3]dulo|Calculateur)\s"
    r"(?!(?:of|in|for|the|de|du|des|del|la|le|is|was|has|no|not|did|does)\s)[^\W\d_A-Z]|"
    r"(?i:all[ -]wheel)(?![a-z])|(?i:unit|module|ecu)\s[A-Za-z][0-9]{1,2}(?![\w.])"
)
