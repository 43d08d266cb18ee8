"""What people type and dictate in short or loosely, written as the reader knows it: "w/o", "the airbag one", and the
verb of saying between the name of a module and its code.

>>> from code_tables import load
>>> from triage.intake.naming.names import Names
>>> from triage.intake.plain.characters import lines
>>> text = "dash says U0100 & the airbag one coughed up B0100, no comms w/ abs + steering"
>>> [line.text for line in written_out(lines(text), Names(load()))]
['dash has U0100 & the airbag has B0100, no comms with abs and steering']
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from triage.intake.naming.names import Names
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.attribution import SAYS
from triage.intake.tidying import firstsecond, foundcodes, roundabout, sametoo
from triage.intake.words.saying_words import ADVERBS, BEFORE, BEHIND, PEOPLE, SPEAKS, VERBS

#: Short forms and what they stand for.
_SHORT = lazily(
    r"(?<![a-z0-9/])(?:(w/o)(?= [a-z])|(w/) ?(?=[a-z])|(b4)(?= (?:i |we |the )?(?:clear|clr|eras|delet|reset|wip|run|"
    r"driv|repair))|"
    r"(nich|nciht|nihct|nict|nixht)(?![a-z'])|(nto)(?= [a-z])|(n/r)(?![a-z0-9/])|(mods)(?= (?:not|that|which|with|"
    r"w/|without|no |silent|offline|dead|responding|"
    r"answering|in |are |all )))"
)
#: Names that are cut short, whose full stop ends no sentence: "ABS ok, getr. ohne Fehler".
_CUT_SHORT = lazily(r"(?<![\w.])(?i:getr|airb|komf|wegfahrsp|standhzg)\.(?= [a-z\u00df-\u00ff])")
_SHORT_SIGNS = ("/", "b4", "mods", "nich", "nciht", "nihct", "nict", "nixht", "nto ")
_MEANT = ("without", "with ", "before", "nicht", "not", "no response", "modules")
_A_CODE = lazily(
    r"\s?:?\s?(?:(?:stored|pending|current|confirmed|active|permanent|intermittent|historic|history|present|"
    r"gespeichert|"
    r"two|three|codes?|faults?|dtcs?|and) ){0,3}(?:[pcbu][0-3][0-9a-f]{3}(?![a-z])|spn\W{0,2}[0-9])"
)
#: "The engine one"; a door or a camera one is the first of several.
_ONE = lazily(r" one(?= (?![pcbu][0-3][0-9a-f]{3} ?v)|[,.:;!?)]|$)")
_THE = lazily(r"(?<![a-z])the\s(?:other\s)?$")
#: "No communication with the following: ABS, radio"
_FOLLOWING = lazily(
    r"(?<= )(?:(?:the|these|all|den|les|los|las)\s)?(?:following|folgende[nr]?|suivants?|siguientes)"
    r"(?: (?:modules?|ecus?|units?|control units|systems|steuergerate[n]?|calculateurs|modulos|centralitas))?"
    r"(?=\s*:\s*[a-z])"
)
#: Between the name that somebody takes back and the one that is meant.
_MEANT_INSTEAD = lazily(
    r"[\s,.-]{1,4}(?:(?:no|sorry|wait|oops|correction|scratch that|nein|pardon|perdon|non)[\s,]{1,2}){0,2}"
    r"(?:i mean[t]?|i should say|make that|correction|scratch that|ich meine|ich meinte|je veux dire|quiero decir)"
    r"[\s,]{1,2}(?:(?:the|das|den|die|le|la|l'|el) ?)?"
)
#: Behind two names that head the same codes.
_HEADS = lazily(r"\s*(?:[:=>|]|-+\s|[pcbu][0-3][0-9a-f]{3}(?![a-z0-9]))")
_PLUS = lazily(r" ?\+ ?(?=(?:the )?[a-z])")
#: "The engine's got P0562": a verb, no owner.
_HAS_IT = lazily(r"'s(?= (?:got|had|been)(?![a-z]))")
_IS = lazily(
    r"'s(?= (?:[a-z]+ing|still|just|only|now|also|clean|clear|fine|okay?|good|dead|silent|not|offline|empty)(?![a-z]))"
)
_AN_ANSWER = lazily(
    r"\s(?:nothing|nowt|none|nil|no (?:codes?|faults?|dtcs?|errors?)|nichts|nix|keine (?:fehler|codes)|rien|aucun|nada|"
    r"ningun)(?![a-z])"
)
_CODES = lazily(r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}('?s)(?![a-z0-9])")
_OPENS = lazily(r"(?:^|[.,;!?])\s*(?:the\s)?$")
_CLAUSE = lazily(r"[^.,;!?]+")
_GOT_INTO = lazily(r"(?<![a-z])(?:got|get|getting|gets|went|came|log(?:ged)?) (?:in ?to|in)\s(?:the\s)?$")
_FINE = lazily(
    r"(?: (?:module|ecu|unit))? (?:just )?(?:fine|ok|okay|alright|all right|no problem|easily)(?=\s*(?:[.,;!:-]|$))"
)
_CLR = lazily(r"(?: is| was| all| now)? (clr)(?![a-z'])")
_CLOSES = lazily(r"\s*(?:[.,;!?/]|$)")
_OPENS_CLEAR = lazily(r"(?:^|[.,;:!?/]|(?<![a-z])(?:and|but|clean|clear))\s*(?:the\s)?$")
_GLUED = lazily(r"(?<![a-z0-9])([a-z]{3,14}?)(module|unit|computer|controller)(?![a-z0-9])")
#: "No climate fitted on this one"
_NO = lazily(r"(?<![a-z])(?:(?:(?:there(?: is|'s)|has|it has) )?no|keine?n?|pas (?:de|d')|sin) ?$")
_LACKS = ("no ", " have a", "without", "kein", "pas d", "sin ")
#: "This van has no heater panel", "the bus doesn't have a retarder".
_HAS_NONE = lazily(
    r"(?:^|[.,;!?(-] ?|(?<![a-z])(?:and|but|since|because) )((?:(?:this|the|that|my|our) )?(?:vehicle|van|truck|lorry|"
    r"bus|coach|car|tractor|trailer|one|model|spec|it) (?:(?:has|have|had) (?:got )?no|(?:does ?n['o]?t|does not|"
    r"has ?n['o]?t|has not|did ?n['o]?t) (?:have|got) (?:an? |any )?|(?:is )?without (?:an? |any )?)) ?$"
)
_FITTED = lazily(
    r"(?: (?:module|unit|ecu|control unit|steuergerat))?(?: (?:fitted|installed|equipped|verbaut|eingebaut|monte|"
    r"equipe|installe|montado|instalado)(?: (?:on|in|to|at) (?:(?:this|that|the) )?(?:one|car|van|truck|bus|vehicle|"
    r"model|all))?| (?:on|in) this (?:one|car|van|truck|bus|vehicle|model))(?![a-z])"
)
#: What ends the words before a code.
_TO_CODE = lazily(r":|(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}")
#: A line without one of these is as the reader knows it.
_SIGN = (
    signs.of_parts("w/", "b4", "n/r", "mods", "? ", " clr", "'s", "+", "mean", "mein", "make that", "dire", "following",
                   "folgende", "suivant", "siguiente")
    | signs.of_words((VERBS | ADVERBS | word_set(
        "one got get getting gets went came log logged fitted installed equipped verbaut eingebaut monte "
        "equipe installe montado instalado this vehicle van truck lorry bus coach car tractor trailer model "
        "spec it nich nciht nihct nict nixht nto getr airb komf wegfahrsp standhzg")).__contains__)
    | signs.of_pattern(r"[a-z]{3}(?:module|unit|computer|controller)$|^[pcbu][0-3][0-9a-f]{3}s$")
)
#: Words for filling before a verb; no message has a longer line.
_MOST_WORDS = 4
_MOST, _LONGEST = 5, 1000


def written_out(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines with those words written out. Linear in their length."""
    mended: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        if len(line.low) > _LONGEST:
            continue
        new = _verbs(_ones(_short(_singular(_parted(line, names)), names), names), names)
        new = _clear(_asked(_reached(new, names), names), names)
        new = _lacking(_instead(_following(_joined(_said(new, names), names)), names), names)
        if new is not line:
            mended = mended or list(found)
            mended[at] = new
    told = foundcodes.written_out(sametoo.written_out(firstsecond.written_out(mended or found), names), names)
    return roundabout.written_out(told, names)


def _short(line: Line, names: Names) -> Line:
    """The line with its short forms written out; between two names one is part of both: "Radio w/ Nav"."""
    for match in reversed(list(_CUT_SHORT.finditer(line.text))) if "." in line.text else ():
        line = reworded(line, match.end() - 1, match.end(), "")
    if not any(sign in line.low for sign in _SHORT_SIGNS):
        return line
    found = names.find(line.low) if "w/" in line.low else []
    ends, starts = {end for _, end, _ in found}, {start for start, _, _ in found}
    for match in reversed(list(_SHORT.finditer(line.low))):
        if match.start() - 1 in ends and (match.end() in starts or match.end() + 1 in starts):
            continue
        kind = (match.lastindex or 1) - 1
        line = reworded(line, match.start(), match.end(), _MEANT[kind])
    return line


def _ones(line: Line, names: Names) -> Line:
    """The line without "one" behind the name of a module that is no first of several: "the engine one"."""
    if " one" not in line.low:
        return line
    several = line.low.count(" one ") > 1
    for start, end, _ in reversed(names.find(line.low)):
        if line.low.endswith(" one", start, end):
            end -= len(" one")
        one = _ONE.match(line.low, end)
        if one is None or not (several or _THE.search(line.low, max(0, start - 12), start)):
            continue
        name = line.low[start:end]
        if not names.listed(f"{name} 1") or names.match(f"{name} 1").canonical == names.match(name).canonical:
            line = reworded(line, *one.span(), "")
    return line


def _parted(line: Line, names: Names) -> Line:
    """The line with a space between a name and the word for its module: "Bodymodule doesn't answer"."""
    if not any(kind in line.low for kind in ("module", "unit", "computer", "controller")):
        return line
    for match in reversed(list(_GLUED.finditer(line.low))):
        if not names.listed(match[0]) and (names.listed(match[1]) or names.listed(f"{match[1]} {match[2]}")):
            line = reworded(line, match.end(1), match.end(1), " ")
    return line


def _singular(line: Line) -> Line:
    """The line with each code that is written in the plural in the singular: "U0100s in the ABS and the dash"."""
    if "s" not in line.low:
        return line
    for match in reversed(list(_CODES.finditer(line.low))):
        line = reworded(line, *match.span(1), "")
    return line


def _asked(line: Line, names: Names) -> Line:
    """The line with a colon for the question mark behind a name whose answer or code follows: "ABS? dead. Engine?
    P0562"."""
    if "? " not in line.low:
        return line
    for start, end, _ in names.find(line.low):
        if line.low[end : end + 2] == "? " and _OPENS.search(line.low, max(0, start - 8), start) is not None:
            behind = _CLAUSE.match(line.low, end + 2)
            answer = behind is not None and answer_of_cell(behind[0].strip()) is not None
            if answer or _A_CODE.match(line.low, end + 1) is not None:
                line = reworded(line, end, end + 1, ":")
    return line


def _reached(line: Line, names: Names) -> Line:
    """The line without "fine" behind a module that was reached: "got into the ABS fine, C0035"."""
    if " in" not in line.low:
        return line
    for start, end, _ in reversed(names.find(line.low)):
        fine = _FINE.match(line.low, end)
        if fine is not None and _GOT_INTO.search(line.low, max(0, start - 32), start) is not None:
            line = reworded(line, *fine.span(), "")
    return line


def _clear(line: Line, names: Names) -> Line:
    """The line with "clean" for "clr" behind names: "ecm clr tcm clr"."""
    if " clr" not in line.low:
        return line
    found = names.find(line.low)
    starts = {start for start, _, _ in found}
    for start, end, _ in found:
        match = _CLR.match(line.low, end)
        if match is not None and (match.end() + 1 in starts or _CLOSES.match(line.low, match.end())) and (
                _OPENS_CLEAR.search(line.low, max(0, start - 8), start)):
            line = reworded(line, *match.span(1), "clean")
            return _clear(line, names)
    return line


def _verbs(line: Line, names: Names) -> Line:
    """The line with "has" or "is" written out behind the names of modules."""
    if "'s " not in line.low:
        return line
    for _, end, _ in reversed(names.find(line.low)):
        for form, word in ((_HAS_IT, " has"), (_IS, " is")):
            match = form.match(line.low, end)
            if match is not None:
                line = reworded(line, *match.span(), word)
                break
    return line


def _said(line: Line, names: Names) -> Line:
    """The line with "has" for a verb of saying, or a word of certainty, between a name and its code."""
    if VERBS.isdisjoint(found := {word for word, _, _ in words(line.low)}) and ADVERBS.isdisjoint(found):
        return line
    parts = words(line.low)
    places = {start: at for at, (_, start, _) in enumerate(parts)}
    known = names.find(line.low)
    for end in sorted({*(end for _, end, _ in known), *_unknown_ends(line.low, parts, known)}, reverse=True):
        first = places.get(end + 1) if line.low[end : end + 1] == " " else None
        span = _verb(line.low, parts, first) if first is not None else None
        if span is not None:
            line = reworded(line, *span, "has")
    return line


def _unknown_ends(
    low: str, parts: Sequence[tuple[str, int, int]], known: Sequence[tuple[int, int, bool]],
) -> list[int]:
    """Where a few words that begin a sentence end before a verb of saying: "Fridge unit came up with U0100". Words
    among which a known name stands, and those of a status ("one trip only"), are none."""
    found = []
    for at, (word, start, _) in enumerate(parts):
        before = low[:start].rstrip()
        if before and before[-1] not in ".;!?":
            continue
        upto = min(at + _MOST_WORDS + 1, len(parts))
        verb = next((more for more in range(at + 1, upto) if parts[more][0] in VERBS), 0)
        told = {word for word, _, _ in parts[at : verb + 1]}
        if verb and word not in VERBS and told.isdisjoint(PEOPLE) and parts[verb][0] not in SPEAKS and (
                low[start : parts[verb][1]].replace(" ", "").isalnum()) and not (
                any(first < parts[verb][1] and end > start for first, end, _ in known)
                or states.of_cell(_TO_CODE.split(low[start:], maxsplit=1)[0].strip())):
            found.append(parts[verb - 1][2])
    return found


def _verb(low: str, parts: Sequence[tuple[str, int, int]], first: int) -> tuple[int, int] | None:
    """The place of the words of saying from the word ``first`` on, where a code stands behind them."""
    at, told = first, False
    while at < min(first + _MOST, len(parts)):
        word, start, end = parts[at]
        if at > first and low[parts[at - 1][2] : start] != " ":
            return None
        if (word in VERBS and word not in SAYS) or (word in ADVERBS and not told):
            told = True
        elif word not in (BEHIND if told else BEFORE):
            return None
        at += 1
        if told and (_A_CODE.match(low, end) is not None or (
                word not in SPEAKS and word in VERBS and _AN_ANSWER.match(low, end) is not None)):
            return parts[first][1], end
    return None


def _following(line: Line) -> Line:
    """The line without "the following" before the colon of a list."""
    if ":" not in line.low:
        return line
    match = _FOLLOWING.search(line.low)
    return reworded(line, *match.span(), "") if match is not None else line


def _instead(line: Line, names: Names) -> Line:
    """The line without a name that another is put in the place of: "the airbag, sorry I meant the ABS, has C0110"."""
    if "mean" not in line.low and "mein" not in line.low and "make that" not in line.low and "dire" not in line.low:
        return line
    found = names.find(line.low)
    for (start, end, _), (after, _, _) in reversed(list(pairwise(found))):
        if _MEANT_INSTEAD.fullmatch(line.low, end, after) is not None:
            line = reworded(line, start, after, "")
    return line


def _joined(line: Line, names: Names) -> Line:
    """The line with "and" for the "+" between two names that are no one name together."""
    if "+" not in line.low:
        return line
    found = names.find(line.low)
    for (start, end, _), (after, stop, _) in reversed(list(pairwise(found))):
        plus = _PLUS.match(line.low, end)
        heads = plus is not None and _HEADS.match(line.low, stop) is not None
        if plus is None or heads or names.listed(line.low[start:stop]):
            continue
        if line.low[plus.end() : after] in ("", "the "):
            line = reworded(line, *plus.span(), " and ")
    return line


def _lacking(line: Line, names: Names) -> Line:
    """The line with "not fitted" behind a name for "no ... fitted" around it, or "this van has no ..." before it."""
    if not any(word in line.low for word in _LACKS):
        return line
    for start, end, _ in reversed(names.find(line.low)):
        no = _NO.search(line.low, max(0, start - 24), start)
        fitted = _FITTED.match(line.low, end)
        has_none = _HAS_NONE.search(line.low, max(0, start - 40), start)
        if no is not None and fitted is not None:
            line = reworded(line, *fitted.span(), " not fitted")
            line = reworded(line, no.start(), start, "")
        elif has_none is not None and _CLOSES.match(line.low, end) is not None:
            line = reworded(line, end, end, " not fitted")
            line = reworded(line, has_none.start(1), start, "")
    return line


__all__ = ["written_out"]
