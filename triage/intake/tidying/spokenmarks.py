"""Marks that were dictated: written as their names at the end of a line ("C0035 full stop"), or told by a word that
parts the modules of a scan ("... C0035 active then gateway clean ok next no codes in the dash").

Who dictates says no full stop. One is written in the place of such a word where what stands before it ends what is told
of a module, and what stands behind it begins to tell of another.

>>> from triage.intake.plain.characters import lines
>>> names = lambda low: [(low.index(name), low.index(name) + len(name), True) for name in ("dash",) if name in low]
>>> said = "ABS has C0035 stored full stop\\nRadio clean period\\nU0100 wrong period"
>>> [line.text for line in written(lines(said), names)]
['ABS has C0035 stored', 'Radio clean', 'U0100 wrong period']
>>> said = "ABS C0035 active then dash clean\\nABS no codes ok next no answer from dash\\nABS C0035 next to the dash"
>>> [line.text for line in written(lines(said), names)]
['ABS C0035 active. dash clean', 'ABS no codes. no answer from dash', 'ABS C0035 next to the dash']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import spoken
from triage.intake.said.outside import outside_supply

Find = Callable[[str], list[tuple[int, int, bool]]]

_TURN = lazily(
    r"[ ,]{1,3}(?:(?:ok(?:ay)?|and|und|et|y|so|right)[ ,]{1,2})?(?:then|dann|danach|after that|"
    r"next(?! (?:to|time|week|day|month|year|of)(?![a-z]))(?: up)?|weiter|ensuite|puis|luego|despues)[ ,]{1,3}(?=[a-z])"
)
_SIGNS = (" then ", " next ", " dann ", " danach ", " after that ", " weiter ", " ensuite ", " puis ", " luego ",
          " despues ", " then,", " next,")
#: A word of them, or one that begins it all.
_TURNS = signs.of_words(word_set(
    "then next dann danach after weiter ensuite puis luego despues ok okay right so alright well also gut bon bueno "
    "vale").__contains__)
#: A code at the end of a text, a space in it or not.
_CODED = lazily(r"(?<![a-z0-9])[pcbu][ -]?[0-3o](?: ?[0-9a-fo]){3}(?:(?:[ :-]{0,2}| ftb )[0-9a-f]{2})?$")
_CODE_BEHIND = lazily(
    r" (?:(?:has|had|shows?|with|got|gave|gives|throws|stored|active|current|pending|confirmed|permanent|two|three) )"
    r"{0,3}(?:[pcbu][ -]?[0-3o](?: ?[0-9a-fo]){3}|spn ?[0-9])")
_SPN = lazily(r"fmi[ :=]{0,2}[0-9]{1,2}$")
#: What may stand before the name that begins a turn.
_LEADING = word_set(
    "the a an in on from to of for with no not zero and also we got i have had found has there is are was codes code "
    "faults fault der die das den dem im beim keine le la les du dans el los en sin"
)
_SUPPLY = lazily(
    r"(?:the )?(?:battery|batt?|voltage|volts|supply|batterie|spannung|bordspannung|tension|bateria|voltaje|ubat|"
    r"kl\.? ?30|b\+(?= ?[0-9]))(?![a-z])|[0-9]{1,2}[.,][0-9]{1,2} ?v(?:olts?)?(?![a-z])")
#: What somebody says before he begins.
_QUOTE = " \t>|-*"
_BEGINS = ("o", "r", "s", "a", "w", "g", "b", "v")
_BEGUN = lazily(
    r"[ \t>|*-]{0,12}((?:(?:ok(?:ay)?|right|so|alright|well|also|gut|bon|bueno|vale)[ ,]{1,2}){1,3})(?=[a-z])"
)
_FIRST_PART = lazily(r"[,;.]\s")
_CODE_FIRST = lazily(r"(?<![a-z0-9])(?:[pcbu][ -]?[0-3o](?: ?[0-9a-fo]){3}|spn ?[0-9])")
#: Of so many words that part modules in a line those before names that nobody knows do so too.
_REACH, _DICTATED, _MOST_WORDS = 60, 4, 6
#: Words that end nothing else, and words of their own, which are marks behind a code, a status or an answer alone.
_MARKS = (" full stop", " fullstop", " punto final", " point final")
_MAYBE = (" period", " comma", " semicolon", " colon", " new line", " punkt", " komma", " virgule", " coma")
_EVERY = (*_MARKS, *_MAYBE)
_SIGN = signs.of_words(frozenset(mark.split()[-1] for mark in _EVERY).__contains__)


def written(found: Sequence[Line], names: Find) -> Sequence[Line]:
    """The lines without such names of marks, each turn to another module behind a full stop. ``names``: where the
    names of modules stand."""
    return _parted(_left_out(found), names)


def _left_out(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without such a mark at their end."""
    mended: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        low = line.low.rstrip(" .,")
        if not low.endswith(_EVERY):
            continue
        mark = next(mark for mark in _EVERY if low.endswith(mark))
        if not (start := len(low) - len(mark)) or not (mark in _MARKS or _ends(low[:start])):
            continue
        mended = mended or list(found)
        mended[at] = reworded(line, start, len(line.text), "")
    return mended or found


def _ends(low: str) -> bool:
    """Whether a text ends with a code, a status or an answer."""
    said = spoken(low)
    if (said and said[-1].end == len(low)) or _CODED.search(low):
        return True
    told = states.in_text(low[-40:])
    return bool(told) and told[-1].end == len(low[-40:])


def _parted(found: Sequence[Line], names: Find) -> Sequence[Line]:
    """The lines, each turn to another module behind a full stop, without the word that begins it all."""
    kept: list[Line] | None = None
    for at in signs.places(found, _TURNS):
        line = found[at]
        begun = _BEGUN.match(line.low) if line.low[:40].lstrip(_QUOTE)[:1] in _BEGINS else None
        if begun is None and not any(sign in line.low for sign in _SIGNS):
            continue
        mended = line
        turns = list(_TURN.finditer(line.low))
        for match in reversed(turns):
            before, behind = line.low[: match.start()], line.low[match.end() :]
            begins = _begins_turn(behind, names) or (len(turns) >= _DICTATED and _tells_next(behind))
            if begins and (_ends_turn(before, names) or _named_with_codes(match[0], before, behind, names)):
                mended = reworded(mended, match.start(), match.end(), ". ")
        if begun is not None and _has_codes(line.low[begun.end() :], names):
            # "Ok ABS has C0035" tells nothing good of it.
            mended = reworded(mended, begun.start(1), begun.end(1), "")
        if mended is not line:
            kept = kept or list(found)
            kept[at] = mended
    return kept or found


def _tells_next(low: str) -> bool:
    """Whether a text begins with a few words, of which the first codes or an answer are told."""
    near = low[:_REACH]
    told = [hit.start for hit in spoken(near)] + [match.start() for match in (_CODE_FIRST.search(near),) if match]
    lead = near[: min(told)] if told else ""
    hits = states.in_text(lead)
    if hits and hits[0].start and hits[-1].end == len(lead.rstrip()):
        # "the step box had inactive U0401"
        lead = lead[: hits[0].start]
    return 0 < len(lead.split()) <= _MOST_WORDS and not states.in_text(lead) and phases.find(lead) is None


def _ends_turn(low: str, names: Find) -> bool:
    """Whether a text ends with a code, a status, an answer, a voltage or the name that an answer was told of."""
    low = low.rstrip(" ,")
    near = low[-_REACH:]
    if _CODED.search(near) is not None or _SPN.search(near) is not None:
        return True
    bare = near.rstrip(" )]")
    hits: list[tuple[int, int]] = [(hit.start, hit.end) for hit in states.in_text(near)]
    hits += [(hit.start, hit.end) for hit in spoken(near)]
    hits += [(volt.start, volt.end) for volt in volts.find(near)]
    if any(end == len(bare) for _, end in hits):
        return True
    # "No codes in the dash then ..."
    return bool(spoken(near)) and any(end == len(bare) for _, end, _ in names(near))


def _named_with_codes(turn: str, before: str, behind: str, names: Find) -> bool:
    """Whether "next" stands between a name, of which something was told in words nobody knows, and another with its
    codes behind it: "could not reach PSCM next SCM B1CC5"."""
    near = before[-_REACH:].rstrip(" ,")
    return "next" in turn and any(end == len(near) for _, end, _ in names(near)) and _has_codes(behind, names)


def _has_codes(low: str, names: Find) -> bool:
    """Whether a text begins with a name and its codes."""
    found = names(low[:_REACH])
    return bool(found) and _CODE_BEHIND.match(low, found[0][1]) is not None and all(
        word in _LEADING for word, start, _ in words(low[:_REACH]) if start < found[0][0])


def _begins_turn(low: str, names: Find) -> bool:
    """Whether a text begins to tell of a module, or of the supply."""
    near = low[:_REACH]
    told = spoken(near)
    if (told and not told[0].start) or _SUPPLY.match(near) is not None:
        return True
    found = [start for start, _, _ in names(near)]
    if not found or outside_supply(_FIRST_PART.split(near, maxsplit=1)[0]) is not None:
        # "Battery 11.9 V, then charger on"
        return False
    spans = [(hit.start, hit.end) for hit in told]
    return all(
        word in _LEADING or any(start <= begin < end for start, end in spans)
        for word, begin, _ in words(near) if begin < found[0])


__all__ = ["written"]
