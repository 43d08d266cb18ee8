"""Module names in a text: a quick look-up of those listed, and a budget for the slow ones that are only alike.

One :class:`Names` serves one text. Looking for likeness costs a tenth of a millisecond a name, so a text may ask for so
many different names (hundreds of modules, far more than a vehicle has) and no more; past that only listed names are
known and the rest is kept as printed.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from code_tables import Tables
from triage.intake.naming.addresses import AT_BEHIND, BEFORE, BEHIND, LABELLED_BEHIND, MARKED, OF_WORK
from triage.intake.naming.ampere import is_no_name, is_rating, says_i
from triage.intake.naming.heads import role_of
from triage.intake.naming.hyphens import with_hyphened
from triage.intake.naming.modules import ModuleMatch, is_module_name, resolve
from triage.intake.naming.shortforms import to_full_stop
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.characters import low as small
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, long_words, word_set, words
from triage.intake.words.module_words import FILLERS, SIDES

#: How many different names of one text are looked up by likeness.
BUDGET = 1000
LONGEST_NAME = 70
#: So many lines of a text are remembered with their names.
_RECENT = 2048

#: Names as often used of a part, or in a sentence, as of a module: not enough alone to make running text name one.
_PLAIN = word_set(
    "cab eng "
    "engine motor moteur battery bateria batterie fan heater clock horn light lights seat steering door doors key "
    "ignition "
    "radio charging clutch pump turbo throttle body suspension vehicle alarm keys mirror wiper wipers fuel coolant "
    "display "
    "screen trailer roof tank sunroof moteur frein freins sensor supply phone voltage charger converter generator "
    "starter "
    "lighting lamp lamps head cooling heating glow injection ignicion ambient start stop transfer access entry tyre "
    "tyres "
    "information media audio horloge puerta siege porte motor sitz tur dach uhr licht hydraulics hydraulik hydraulique "
    "hidraulica linkage hitch armrest loader boom crane ramp guidance implement articulation gelenk rampe rampa fleche "
    "pluma grue grua kran kipper benne joystick beacon elevador relevage kneeling tipper "
    "motore cambio freni sterzo porta portiera sedile luci fari specchi schermo accensione iniezione sospensioni "
    "remmen deur stoel verlichting vering koplampen ontsteking freios travoes direcao luzes farois assento espelho "
    "ignicao injecao suspensao buzina silnik hamulce drzwi fotel zaplon swiatla reflektory zawieszenie bromsar dorr "
    "sate belysning tandning"
)
_NEVER = word_set(
    "date time datum zeit vehicle customer technician vin mileage odometer voltage battery volts phase scan report "
    "page "
    "code codes dtc dtcs status fault faults module modules description system systems control unit total summary "
    "legend note "
    "notes result results complaint address name job order workshop garage fehler fahrzeug kunde spannung "
    "calculateur "
    "defaut defauts vehicule client fecha vehiculo cliente averias text state lamp lamps hours test tests reading "
    "readings data "
    "live pending stored confirmed permanent current history other others all rest everything nothing none active "
    "clear run repair "
    "before after idle drive snapshot model year type battery batteries supply start end"
)
#: A number or letter behind a name; letters that are words of a language left out.
_NUMBERED = lazily(r"[1-9][0-9]?|[bcdfghjklmnp]")
_PARTS = lazily(r"\s-+\s|[;!?]\s|[)\]][.,;:]\s")
_ARTICLES = word_set("the a an der die das den dem le la les l el los las un une una our my this that its")


@lru_cache(maxsize=4)
def _listed(tables: Tables) -> tuple[dict[str, str], dict[str, int]]:
    """Listed names by their words, and the most words of a name that starts with a word."""
    names: dict[str, str] = {}
    longest: dict[str, int] = {}
    pairs = {name: name for name in tables.aliases.values()} | dict(tables.aliases)
    find, most = WORD.findall, longest.get
    for alias, name in pairs.items():
        parts = find(alias.lower() if alias.isascii() else small(alias))
        if parts:
            names.setdefault(" ".join(parts), name)
            if len(parts) > most(parts[0], 0):
                longest[parts[0]] = len(parts)
    return names, longest


@lru_cache(maxsize=4)
def listed_words(tables: Tables) -> frozenset[str]:
    """The words of all listed names, in small letters without accents."""
    return frozenset(" ".join(_listed(tables)[0]).split(" "))


class Names:
    """The module names of one text."""

    def __init__(self, tables: Tables) -> None:
        self._tables = tables
        self._names, self._longest = _listed(tables)
        self._scores: dict[str, float] = {}
        self._is_listed: dict[str, bool] = {}
        self._found: dict[str, list[tuple[int, int, bool]]] = {}
        #: Words that are names in this text alone.
        self._own: dict[str, str] = {}
        #: Several words that are.
        self._wholes: set[str] = set()
        #: Names in short and in long, and the long one.
        self._pairs: dict[str, str] = {}
        #: Names with an address behind, as first printed: of two of one name the second keeps its own.
        self._addressed: dict[str, str] = {}
        self._left = BUDGET
        self._written: list[tuple[str, str]] = []

    def adopt(self, word: str, canonical: str, written: str) -> None:
        """List a word as the name of a module in this text alone, where it stands for another that was ``written``."""
        self._names, self._longest = {**self._names, word: canonical}, {**self._longest, word: 1}
        self._own[word] = canonical
        self._written += [(word, written), (word.upper(), written.upper()), (word.capitalize(), written.capitalize())]
        for kept in (self._scores, self._is_listed, self._found):
            kept.clear()

    def adopt_whole(self, printed: str) -> None:
        """List several words as one name of a module that nobody knows, in this text alone.

        >>> from code_tables import load
        >>> names = Names(load())
        >>> names.adopt_whole("Mirror and wiper control")
        >>> names.listed("mirror and wiper control"), names.match("Mirror and wiper control").known
        (True, False)
        """
        parts = WORD.findall(small(printed))
        whole, most = " ".join(parts), max(len(parts), self._longest.get(parts[0], 0))
        self._names, self._longest = {**self._names, whole: printed}, {**self._longest, parts[0]: most}
        self._wholes.add(whole)
        for kept in (self._scores, self._is_listed, self._found):
            kept.clear()

    def adopt_pair(self, pair: str, long: str) -> None:
        """List a short and a long name of one module as one name of it, in this text alone: the long one is meant."""
        self.adopt_whole(pair)
        self._pairs[" ".join(WORD.findall(small(pair)))] = long

    def is_whole(self, text: str) -> bool:
        """Whether a text is such a name."""
        return bool(self._wholes) and " ".join(WORD.findall(small(text))) in self._wholes

    def is_own(self, printed: str) -> bool:
        """Whether ``printed`` is such a word."""
        return bool(self._own) and small(printed).strip(_EDGE) in self._own

    def as_written(self, text: str) -> str:
        """``text`` with what was written in place of the words that stand for it.

        >>> from code_tables import load
        >>> names = Names(load())
        >>> names.adopt("ecv", "engine control", "ecu")
        >>> names.as_written("The ECV shows P0562, the ABS nothing"), names.listed("ECV"), names.is_own("ecv")
        ('The ECU shows P0562, the ABS nothing', True, True)
        """
        for word, written in self._written:
            text = text.replace(word, written)
        return text

    def listed(self, text: str) -> bool:
        """Whether ``text`` is a name as listed. Quick."""
        known = self._is_listed.get(text)
        if known is None:
            known = " ".join(WORD.findall(small(text))) in self._names if len(text) <= LONGEST_NAME else False
            if len(self._is_listed) < 100_000 and len(text) <= LONGEST_NAME:
                self._is_listed[text] = known
        return known

    def score(self, text: str) -> float:
        """How surely ``text`` alone is a module's name, 0..100 (as :func:`is_module_name`)."""
        known = self._scores.get(text)
        if known is not None:
            return known
        score = 0.0
        if 2 <= len(text) <= LONGEST_NAME and has_letter(text):
            parts = WORD.findall(small(text))
            listed = " ".join(parts) in self._names
            if parts and len(parts) <= 10 and ((listed and len(parts) > 1) or not set(parts) <= _NEVER):
                if listed:
                    own = (len(parts) == 1 and parts[0] in self._own) or " ".join(parts) in self._wholes
                    score = 95.0 if own else max(is_module_name(text, self._tables), 60.0)
                elif self._left > 0:
                    self._left -= 1
                    score = is_module_name(text, self._tables)
        if len(self._scores) < 100_000:
            self._scores[text] = score
        return score

    def bare(self, printed: str) -> str:
        """``printed`` without a list number or an address beside it, where what is left is a module's name."""
        key, mark, value = printed.partition(":" if ":" in printed else "=")
        if mark and value.strip() and len(key) <= 24 and role_of(small(key.strip())) == "module":
            # "SYSTEM: Power liftgate"
            printed = value.strip()
        if self.listed(printed) or not (has_digit(printed) or printed.endswith(")")):
            return printed
        for pattern in (AT_BEHIND, BEFORE, BEHIND, LABELLED_BEHIND, OF_WORK):
            match = pattern.fullmatch(printed)
            if match is not None and (self.listed(match[1]) or self.score(match[1]) >= 60.0 or (
                    pattern is BEHIND and MARKED.search(printed, match.end(1)) is not None)):
                first = pattern in (BEFORE, OF_WORK) or self._addressed.setdefault(match[1], printed) == printed
                return match[1] if first else printed
        return printed

    def match(self, printed: str) -> ModuleMatch:
        """The module ``printed`` means; past the budget an unlisted name keeps itself."""
        if self.is_own(printed):
            return ModuleMatch(self._own[small(printed).strip(_EDGE)], 95.0, None, 0.0, True, None)
        if self._pairs and (long := self._pairs.get(" ".join(WORD.findall(small(printed))))) is not None:
            return self.match(long)
        if printed not in self._scores and not self.listed(printed):
            if self._left <= 0:
                return ModuleMatch(printed, 0.0, None, 0.0, False, None)
            self._left -= 1
        return resolve(printed, self._tables)

    def sure(self, text: str) -> bool:
        """Whether ``text`` is listed, or very like a listed name."""
        return self.listed(text) or self.score(text) >= 85.0

    def likely(self, text: str) -> bool:
        """Whether ``text`` may be the name of a module, or of a part of one."""
        return self.score(text) >= 60.0

    def abbreviates(self, low: str) -> bool:
        """Whether a name in small letters is listed as an abbreviation, in capital ones.

        >>> from code_tables import load
        >>> names = Names(load())
        >>> names.abbreviates("abs"), names.abbreviates("radio")
        (True, False)
        """
        aliases = self._tables.aliases
        return low.upper() in aliases and low not in aliases

    def differ(self, texts: Sequence[str]) -> bool:
        """Whether texts are the names of as many modules, each known by itself ("radio", "retarder")."""
        if len(texts) < 2 or not all(map(self.sure, texts)):
            return False
        return len({self.match(text).canonical for text in texts}) == len(texts)

    def run(self, text: str) -> list[str]:
        """The names that stand in a piece of a list one after the other without commas; ``text`` itself for any other.

        >>> from code_tables import load
        >>> names = Names(load())
        >>> names.run("airbag cluster"), names.run("seat heater"), names.run("airbag thing"), names.run("radio Radio")
        (['airbag', 'cluster'], ['seat heater'], ['airbag thing'], ['radio Radio'])
        """
        if " " not in text or self.score(text) >= 60.0:
            return [text]
        low = small(text)
        spans = [(start, end) for start, end, _ in self.find(low)]
        parts = [text[start:end] for start, end in spans]
        return parts if " ".join(parts) == text and self.differ(parts) else [text]

    def find(self, low: str) -> list[tuple[int, int, bool]]:
        """Listed names in running text: start, end, and whether the name is more than a plain word. Not to be changed:
        a line asks several times."""
        known = self._found.get(low)
        if known is None:
            if len(self._found) >= _RECENT:
                self._found.clear()
            known = self._found[low] = self._find(low)
        return known

    def _is_article(self, low: str, parts: tuple[tuple[str, int, int], ...], at: int) -> bool:
        """Whether "das" stands right before another name: "Das Motorsteuergerat hat P0562"."""
        after = at + 1
        return after < len(parts) and low[parts[at][2] : parts[after][1]] == " " and self._name_at(parts, after) > 0

    def _find(self, low: str) -> list[tuple[int, int, bool]]:
        """As :meth:`find`, not remembered."""
        found: list[tuple[int, int, bool]] = []
        before = ""
        parts = words(low) if len(low) <= 400 else long_words(low)
        at = 0
        while at < len(parts):
            if parts[at][0] not in self._longest:
                # No name begins with most words.
                at += 1
                continue
            size = self._size_at(low, parts, at)
            if size:
                first, last = at, at + size
                sure = size > 1 or parts[at][0] not in _PLAIN
                while first > 0 and parts[first - 1][0] in SIDES and parts[first - 1][0] not in ("l", "r") and (
                    not low[parts[first - 1][2] : parts[first][1]].strip(" -")
                ):
                    first, sure = first - 1, True
                while last < len(parts) and not says_i(parts, last) and not self._of_the_next(low, parts, last) and (
                    parts[last][0] in SIDES or parts[last][0] in FILLERS or _NUMBERED.fullmatch(parts[last][0])
                ):
                    gap = low[parts[last - 1][2] : parts[last][1]]
                    if not re.fullmatch(r"[ ,(]{1,2}", gap) or ("," in gap and parts[last][0] in FILLERS):
                        break
                    if low[parts[last][2] : parts[last][2] + 1] in ("'", "/") and len(parts[last][0]) == 1:
                        # "L'airbag n'a rien"
                        break
                    if _DECIMAL.match(low, parts[last][2]) or _SPACED_CODE.match(low, parts[last][1]):
                        break
                    last, sure = last + 1, True
                if size == 1:
                    first, last = with_hyphened(low, parts, first, last)
                meant = self._names[" ".join(part[0] for part in parts[at : at + size])]
                if found and meant == before and low[found[-1][1] : parts[first][1]].isspace():
                    # "The brakes ABS" is one module.
                    found[-1] = (found[-1][0], parts[last - 1][2], True)
                else:
                    found.append((parts[first][1], parts[last - 1][2], sure))
                at, before = last, meant
            else:
                at += 1
        return found

    def _size_at(self, low: str, parts: tuple[tuple[str, int, int], ...], at: int) -> int:
        """How many parts the longest name that begins at a place has, without what belongs to what follows."""
        size = self._name_at(parts, at)
        while size > 1 and (_PARTS.search(low, parts[at][2], parts[at + size - 1][1]) or (
                parts[at][0] == "active" and low[parts[at][2]] in ",.;")):
            # "B2482 active - steering angle", "C0035 active, steering": one ends there, and another begins.
            size -= 1
        size = to_full_stop(low, parts, at, size, self._names)
        if size > 1 and parts[at + size - 1][0] in FILLERS and low[parts[at + size - 2][2]] == ".":
            # "No answer from the transfer case. ECU clean"
            size -= 1
        if size > 1 and (_SPACED_CODE.match(low, parts[at + size - 1][1]) or (
                parts[at + size - 1][0] in SIDES and self._of_the_next(low, parts, at + size - 1))):
            size -= 1
        if size > 1 and says_i(parts, at + size - 1):
            size -= 1
        if size > 0 and " ".join(part[0] for part in parts[at : at + size]) not in self._names:
            size = 0
        article = size == 1 and parts[at][0] == "das" and self._is_article(low, parts, at)
        return 0 if article or (size and at and is_no_name(low, *parts[at])) else size

    def _of_the_next(self, low: str, parts: tuple[tuple[str, int, int], ...], at: int) -> bool:
        """Whether sides behind a comma, or words of its kind, are those of the name that follows ("brakes, rear right
        door", "BSI, calculateur airbag"), or of its fuse ("ABS, 10 A")."""
        if "," not in low[parts[at - 1][2] : parts[at][1]]:
            return False
        if is_rating(low, *parts[at]):
            return True
        first = at
        while at < len(parts) and (parts[at][0] in SIDES or parts[at][0] in FILLERS or parts[at][0].isdigit()):
            at += 1  # "Tailgate, 10 Headlamp right"
        if self._name_at(parts, first) > at - first:
            # "Radar, left blind spot"
            return True
        return at < len(parts) and "," not in low[parts[at - 1][2] : parts[at][1]] and self._name_at(parts, at) > 0

    def _name_at(self, parts: tuple[tuple[str, int, int], ...], at: int) -> int:
        """The number of words of the longest name that starts at a word, 0 if none does."""
        most = min(self._longest.get(parts[at][0], 0), len(parts) - at, 7)
        for size in range(most, 0, -1):
            name = " ".join([part[0] for part in parts[at : at + size]]) if size > 1 else parts[at][0]
            if name in self._names:
                word = parts[at][0]
                if size == 1 and (word in _NEVER or len(word) < 2 or word.isdigit()):
                    return 0
                return size
        return 0


#: A code with a gap in it ("ABS P 0562"), or two letters ("BCM, A/C"): its letter numbers nothing.
_SPACED_CODE = lazily(r"(?:[pcb][ ._-]{1,3}[0-3oil](?: ?[0-9a-foil]){3}(?:[-:]?[0-9a-f]{2})?|[a-z]/[a-z])(?![a-z0-9])")
#: Behind the first digits of a voltage ("no charger (14.2 V)", "radio 12 V"): they number nothing.
_DECIMAL = lazily(r"[.,][0-9]|:[0-5][0-9](?![0-9])|\s?v(?:olts?)?(?![a-z0-9])")
_EDGE = " \t:;,.|-=_*#>\u2022\"'~/\u2717\u2718\u274c\u2715\u2716\u274e"


@lru_cache(maxsize=8192)
def tidy(text: str) -> str:
    """A printed name without the marks around it.

    >>> tidy("## **Engine control (ECM)**:"), tidy("[ABS]"), tidy("the brakes -")
    ('Engine control (ECM)', 'ABS', 'brakes')
    """
    text = text.strip(_EDGE)
    while len(text) >= 2 and text[0] + text[-1] in ("[]", "()", "{}", "<>") and text.count(text[0]) == 1:
        text = text[1:-1].strip(_EDGE)
    if text[-1:] in ("(", "["):
        # What stood in the bracket was cut off.
        text = text[:-1].rstrip(_EDGE)
    if text[:1] == "<" and ">" not in text:
        # Of "<ABS>" at the end of a line the second mark was taken for an arrow.
        text = text.lstrip("<").strip(_EDGE)
    text += "]" if text.count("[") > text.count("]") and text[-1:].isalnum() else ""
    if text.count("(") > text.count(")"):
        text += ")" if text.endswith(tuple("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789")) else ""
    elif text.count(")") > text.count("("):
        text = text.rstrip(")").rstrip()
    head, _, rest = text.partition(" ")
    if rest and small(head) in _ARTICLES and len(head) > 1:
        text = rest.strip(_EDGE)
    return text
