"""Remarks about work in which something is "ok" that holds no codes: a fuse, a plug, a lamp, a clear. "ABS fuse ok"
does not say that the ABS was read; such an "ok" is taken out, so that nothing of it is taken for a clean module.

>>> from code_tables import load
>>> from triage.intake.naming.names import Names
>>> from triage.intake.plain.characters import lines
>>> said = "ABS: power ok, ground ok, no comms\\nABS fuse ok, ground ok\\ncleared, ABS fine\\nRain sensor ok"
>>> [(line.text, line.work) for line in told(lines(said), Names(load()))]
[('ABS: no comms', False), ('ABS fuse , ground ', True), ('cleared', True), ('Rain sensor ok', False)]
"""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import replace
from typing import NamedTuple

from triage.intake.lines.row import finds_of
from triage.intake.naming.names import Names
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, plain_words, words
from triage.intake.said import clearanswers, phases
from triage.intake.said.answeraround import Spoken
from triage.intake.said.answers import rest_of, spoken
from triage.intake.words.work_words import BEHIND_NAMES, BELTS, CLEARED, DONE, PARTS, WELL

_OK = signs.of_words(frozenset(["ok", "okay", "k", "fine", "good", "io", "ordnung", "gut", "bon", "bien",
                                "correcto", "perfect", "spot", "nickel", "impec", "impeccable", "perfecto", "perfecta",
                                "tiptop", "tipptopp", "tip", "sain", "saine"]).__contains__)
_WORK = PARTS | BELTS | BEHIND_NAMES | DONE
_DONE = signs.of_words(frozenset(["confirmed", "accepted", "acknowledged", "bestatigt", "quittiert", "acceptes",
                                  "confirmes", "aceptados", "confirmados"]).__contains__)
_DRIVES = frozenset(["drive", "road", "probefahrt", "essai", "prueba"])
_SIGN = signs.of_words((_WORK | CLEARED | _DRIVES | {"clr", "to", "ok"}).__contains__)
#: Behind one of these another reading is told: "cleared, drove 5 km, ABS ok", "ABS sensor replaced, rescan: ABS ok".
_ANEW = lazily(
    r"(?<![a-z])(?:re-?scan(?:ned)?|scan(?:ned)?(?: again)?|re-?read|read (?:again|out)|then|since|again|drove|driven|"
    r"ran|road ?test(?:ed)?|running|dann|danach|wieder|ausgelesen|gefahren|laufen|relu|lecture|"
    r"ensuite|puis|roule|leido|lectura|luego|despues)(?![a-z])"
)
_SENTENCE = lazily(rf"(?:[;!?]|\s//|\.{NOT_SHORT})\s+")
_PIECE = lazily(r";|,(?=[\s,])|[.!?](?=\s)|\s-+\s|\s*\||\t|\s/{1,2}\s|"
                r"\s(?:but|and|next|then|aber|und|dann|mais|et|puis|pero|y|luego)\s")
_CLEARED = lazily(r"(?<![a-z])(?:cleared|clr'?d|clr all|clear(?= ok)|erased|wiped|deleted|geloscht|geloescht|"
                  r"effacee?s?|borrad[oa]s?|nrc)(?![a-z])")
_CODE = lazily(r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}")
#: It may be driven; that was not asked of its memory.
_FOR_USE = lazily(r" (?:to (?:drive|go|use|leave|release|hand)|for (?:now|use|driving|the road)|"
                   r"on (?:the |a |its )?(?:road ?test|test ?drive|road)|when (?:driven|driving)|"
                   r"auf der (?:probefahrt|strasse)|"
                   r"bei der probefahrt|(?:sur (?:la )?|en )route|a l'essai|en (?:la )?(?:carretera|prueba))(?![a-z])")
#: How the vehicle went is said of no module: "test drive ok"; but "after the test drive ok".
_RAN_WELL = lazily(
    r"(?<![a-z])(?<!after )(?<!after a )(?<!after the )(?<!nach )(?<!nach der )(?<!apres )(?<!tras )"
    r"(?:(?:test|road|trial) ?-?(?:drive|run|test)|probefahrt|essai (?:routier|sur route)|prueba (?:de|en) carretera)"
    r"(?: (?:was|is|done|all|war|est|fue))*[ :,=-]{1,3}$"
)
#: Between a module and a lamp that is listed beside it: "ABS and MIL are ok".
_LISTED = lazily(r"\s*(?:,\s*|\s(?:and|und|et|y)\s+)")
#: A voltage right before a place.
_MEASURED = lazily(r"(?:[0-9]\s?v(?:olts?)?|(?:point|dot)(?: [a-z0-9]{1,6}){1,3})\s+$")
#: What ties the next piece to one that goes.
_AND = ("and", "und", "et", "y")
_JOINT = lazily(r"\s*[,;]?\s*(?:(?:but|and|yet|still|aber|und|mais|et|pero|y)\s+)?")
#: "Cleared everything, all modules confirmed (door module excepted, it doesn't talk)": who is named did not clear.
_CONFIRMED = lazily(r"(?<![a-z])(?:confirmed|accepted|acknowledged|bestatigt|quittiert|acceptes|confirmes|aceptados|"
                    r"confirmados)(?![a-z])")
_EXCEPTED = lazily(r"(?<![a-z])(?:except(?:ed|ing)?|apart from|but|bar|other than|aus(?:s?er|genommen)|bis auf|sauf|"
                   r"excepte|menos|excepto|salvo)(?![a-z])")
_LONGEST, _MOST = 300, 12


class _Piece(NamedTuple):
    """What stands between two marks: its place, that of its first word for a part or for work, whether it names a
    module."""

    start: int
    end: int
    work: int | None
    named: bool


def told(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines without what is said to be well and is no memory for faults."""
    mended: list[Line] | None = None
    for at in signs.places(found, _OK | _DONE):
        line = found[at]
        if clearanswers.answers(line.low, names.sure):
            # Read as answers to a clear, where the rows are read.
            continue
        if _is_cleared_but(line.low) and not finds_of(line, line.text, line.low).codes:
            mended = mended or list(found)
            mended[at] = replace(line, work=True)
            continue
        if len(line.low) > _LONGEST or not signs.of(line.low) & _SIGN:
            continue
        new = _without(line, names)
        if new is not line:
            mended = mended or list(found)
            mended[at] = new
    return mended or found


def _is_cleared_but(low: str) -> bool:
    """Whether a sentence tells that all modules but some confirmed a clear."""
    confirmed = _CONFIRMED.search(low[:_LONGEST])
    if confirmed is None:
        return False
    first = max((match.end() for match in _SENTENCE.finditer(low, 0, confirmed.start())), default=0)
    last = _SENTENCE.search(low, confirmed.end())
    return _CLEARED.search(low, first, confirmed.start()) is not None and _EXCEPTED.search(
        low, confirmed.end(), last.start() if last is not None else len(low)) is not None


def _without(line: Line, names: Names) -> Line:
    """The line without such words; marked where it says nothing else."""
    low = line.low
    said = spoken(low)
    good = [hit for hit in said if hit.answer == "clean" and WELL.issuperset(plain_words(low[hit.start : hit.end]))]
    named = names.find(low)
    # "Belt ok" is said of the one that drives the generator: a bare part is no module.
    belt = not BELTS.isdisjoint(plain_words(low))
    if not good or not (named or belt or rest_of(low)) or len(good) > _MOST:
        return line
    spans = [name for name in named if low[name[0] : name[1]] not in BELTS]
    first = len(low) - len(low.lstrip(" \t-*#>"))
    known = [(start, _with_bracket(low, end)) for start, end, sure in spans if sure or start == first]
    pieces = _pieces(low, known, [hit.start for hit in good],
                     [(hit.start, hit.end) for hit in said if hit not in good],
                     {start for start, _, sure in spans if not sure})
    silent = [hit.start for hit in said if hit.answer == "silent"]
    of_work = [hit for hit in good if _is_of_work(low, hit, pieces, [start for start, _ in known], silent)]
    if not of_work:
        return line
    more = len(said) > len(of_work) or bool(finds_of(line, line.text, low).codes)
    masks = sorted(_mask(low, hit, pieces, more) for hit in of_work)
    for at, (start, end, text) in reversed(list(enumerate(masks))):
        if at + 1 == len(masks) or end <= masks[at + 1][0]:
            # Of two in a piece the later one takes all of it out.
            line = reworded(line, start, end, text)
    line.work = not more
    return line


#: Behind a name, before its answer: "Generator (LIN): ok".
_BRACKET = lazily(r"\s?(?:\([^()]{1,16}\)|\[[^\[\]]{1,16}\])(?=\s*(?:[:=|\t]|\.{2}|\s-+\s))")


def _with_bracket(low: str, end: int) -> int:
    """Where a name ends with what stands in brackets behind it, which tells it from others."""
    match = _BRACKET.match(low, end)
    return match.end() if match is not None else end


def _pieces(
    low: str, spans: Sequence[tuple[int, int]], good: Sequence[int], answers: Sequence[tuple[int, int]],
    plain: Container[int],
) -> list[_Piece]:
    """The pieces of a line. ``spans``: where its modules are named; ``good``: where something is said to be well,
    ``answers``: what else is answered ("not fitted"); ``plain``: where words stand that may name one ("motor ok")."""
    found: list[_Piece] = []
    start = 0
    places = words(low)
    for end, after in [*(match.span() for match in _PIECE.finditer(low)), (len(low), len(low))]:
        if end < after and low[end:after].strip() in _AND and not any(start <= at < end for at in good):
            # "Power and ground ok"
            continue
        first = min((name[0] for name in spans if start <= name[0] < end), default=None)
        free = [(word, begin) for word, begin, _ in places if start <= begin < end and not any(
            name[0] <= begin < name[1] for name in (*spans, *answers)) and not any(
            _LISTED.fullmatch(low, name[1], begin) for name in spans)]
        work = next((begin for word, begin in free if word in PARTS or word in BELTS or word in DONE
                     or low[begin : begin + 2] == "b+" or (
                         word in BEHIND_NAMES and (begin not in plain if first is None else first < begin))), None)
        found.append(_Piece(start, end, work, first is not None))
        start = after
    return found


def _is_of_work(low: str, hit: Spoken, pieces: Sequence[_Piece], named: Sequence[int], silent: Sequence[int]) -> bool:
    """Whether something is well that is no memory for faults. ``named``: where modules are named, ``silent``: where it
    is said that there is no answer."""
    begin = _anew(low, hit.start)
    if _FOR_USE.match(low, hit.end) or _cleared(low, hit) is not None or _RAN_WELL.search(
            low, max(0, hit.start - 40), hit.start):
        return True
    first, stop = _sentence(low, hit, begin)
    at = next(at for at, piece in enumerate(pieces) if hit.start < piece.end or at + 1 == len(pieces))
    own = pieces[at]
    if own.work is not None:
        # "Battery voltage 12.3 V ok next radio ..."
        return begin <= own.work and _MEASURED.search(low, own.start, hit.start) is None
    if not own.named:
        # "EPS connector checked, ok"; "rest ok" speaks of others.
        before = [piece for piece in pieces[:at] if piece.start >= first or piece.end > first]
        return bool(before) and before[-1].work is not None and rest_of(low[own.start : own.end]) is None
    if not any(own.start <= name < hit.start for name in named):
        # "All ok except the ABS, no answer"
        return False
    for piece in pieces[at + 1 :]:
        if piece.named or piece.start >= stop:
            return False
        if piece.work is not None or any(piece.start <= place < piece.end for place in silent):
            return True
    return False


def _sentence(low: str, hit: Spoken, begin: int) -> tuple[int, int]:
    """The sentence around an answer, from a place on."""
    first = max((match.end() for match in _SENTENCE.finditer(low, begin, hit.start)), default=begin)
    last = _SENTENCE.search(low, hit.end)
    return first, last.start() if last is not None else len(low)


def _cleared(low: str, hit: Spoken) -> tuple[int, int] | None:
    """Where a sentence tells of a clear before an answer, and of no code that came back."""
    first, stop = _sentence(low, hit, _anew(low, hit.start))
    match = _CLEARED.search(low, first, hit.start)
    return match.span() if match is not None and _CODE.search(low, match.end(), stop) is None else None


def _anew(low: str, end: int) -> int:
    """Where the last reading begins to be told before a place: behind the words for it."""
    marks = [match.end() for match in _ANEW.finditer(low, 0, end)]
    phase = phases.find(low[:end])
    if phase is not None:
        # "After repair of the ground: ABS ok"
        marks.append(max(phase.end, low.find(": ", phase.end, end)))
    return max(marks, default=0)


def _mask(low: str, hit: Spoken, pieces: Sequence[_Piece], more: bool) -> tuple[int, int, str]:
    """What is put in the place of what, so that one such word is not read; where something else is said besides, the
    part that it is said of goes with it."""
    own = next((piece for piece in pieces if hit.start < piece.end), pieces[-1])
    cleared = _cleared(low, hit)
    if cleared is not None and (cleared[0] >= own.start or not own.named):
        return hit.start, hit.end, "accepted"
    if cleared is not None:
        # "Cleared, ABS fine": the clear was not of the ABS alone.
        return max(own.start - 1, cleared[1]), hit.end, ""
    if not more:
        return hit.start, hit.end, ""
    end = hit.end
    start = own.work if own.work is not None and own.work < hit.start else hit.start
    if start == hit.start and not own.named:
        start = own.start
    joint = _JOINT.match(low, end)
    following = next((piece for piece in pieces if piece.start >= end), None)
    if own.named and (following is None or following.named):
        # "ABS fuse ok, airbag: no codes"
        start = own.start
    if joint is not None and (start == own.start or (following is not None and not following.named)):
        end = joint.end()
    return start, end, ""


__all__ = ["told"]
