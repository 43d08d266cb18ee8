"""Descriptions that speak of modules: "ABS has C0063 yaw rate sensor and C0020" tells of one module, not of two.

Words right behind a code, with no verb and no preposition before them, say what that code means, even where they are a
module's name; but only where the sentence says elsewhere whose its codes are. "U0100 ECM, U0140 BCM" names two.

>>> low = "abs has u0131, c0063 yaw rate sensor and c0020; ecm p0562 bcm b1318"
>>> at = lambda word: (low.index(word), low.index(word) + len(word))
>>> names = [at("abs"), at("yaw rate sensor"), at("ecm"), at("bcm")]
>>> found = within(low, names, [at(code) for code in ("u0131", "c0063", "c0020", "p0562", "b1318")], [])
>>> [low[start:end] for start, end, sure in found]
['yaw rate sensor']
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, word_set, words
from triage.intake.said import states
from triage.intake.said.attribution import AND, LEADS, SAYS
from triage.intake.said.codetexts import behind_status

Span = tuple[int, int]

#: What a sentence says of something, and no name has in it: "the ABS lamp is on".
IS = word_set("is are was were isn't ist sind war waren est sont etait esta estan estaba")
#: A sentence ends, or another thing is told in it.
_ENDS = lazily(
    rf"\.{NOT_SHORT}(?=\s|$)|[!?](?=\s|$)|;|\n|"
    r"(?<![a-z])(?:but|while|whereas|aber|wahrend|mais|pero|mientras)\s"
)
#: What no description holds in front of the module it speaks of.
_MARKS = frozenset(",;:()[]=|>!?")
#: From a code, or the description or status behind it, to the module of all codes before.
_LEADS_IN = lazily(
    r"(?<![a-z])(?:in|from|out of|off|im|in der|aus(?: der| dem)?|vom|von der|dans|en|by|on|at)\s+"
    r"(?:(?:the|dem|den|der|le|la|el)\s+|l')?$"
)
#: Between a name and the codes that it heads.
_HEADS = lazily(r"\s*(?:[-:=>(\[]+\s*)?")
#: Words for saying that stand in descriptions too ("speed sensor A circuit").
_SAYS = SAYS - word_set("a set log with mit con da i we")
#: Inside a description they lead to nothing ("sensor de volante").
_OF = word_set("of de du del des")
#: Behind words of a description they lead to what it speaks of ("software not matching with the gearbox").
_THROUGH = word_set("with to for by mit zu zum zur avec con")
#: The last word of a part of a module, which is seldom meant for the module itself.
_PARTS = word_set(
    "sensor sensors system motor pump relay switch valve lamp lamps light lights headlamp headlight pack pressure "
    "circuit signal supply coil heater speaker antenna battery fan geber pumpe schalter ventil relais lampe druck "
    "capteur moteur pompe vanne voyant pression bomba valvula rele luz presion"
)
#: How such a word ends where it is one with that before it.
_COMPOUND = ("sensor", "motor", "geber", "pumpe", "schalter", "ventil", "relais", "lampe", "leuchte", "druck")
#: Words of any module's name.
_KIND = word_set("module control unit ecu mod steuergerat calculateur centralita modulo")
_STOPS = ",;.("
#: What the texts of codes end with, and no name does.
_ENDS_TEXT = word_set(
    "low high open short shorted erratic implausible stuck missing lost slow niedrig hoch bajo alto bas haut")
#: A bracket right behind a code, up to the first name in it.
_OPENED = lazily(r"\s*[(\[]([^()\[\]\n]*)")
_CLOSED = lazily(r"[)\]]")
#: No short name of a module is so long.
_LONG_WORD = 6
#: Behind all texts.
_NOWHERE = 1 << 60
_MOST_BEFORE, _REACH, _FAR, _LONGEST, _NEAR = 6, 24, 80, 200, 2


class Described(NamedTuple):
    """The place of a name in a description; ``sure``: words beside it, or its own last one, make it part of it."""

    start: int
    end: int
    sure: bool


def within(low: str, names: Sequence[Span], codes: Sequence[Span], answers: Sequence[Span]) -> list[Described]:
    """Those of ``names`` that stand in the description of a code; each list from left to right, none within another.
    Linear in the length of ``low``."""
    likely = {name for at, name in enumerate(names) if _may_describe(low, names, at, codes, answers)} if codes else ()
    if not likely:
        return []
    found: list[Described] = []
    begin, carried = 0, False
    for stop, mark in [*((match.end(), match[0]) for match in _ENDS.finditer(low)), (len(low) + 1, "")]:
        inside = names[bisect_left(names, (begin, 0)) : bisect_left(names, (stop, 0))]
        described = [Described(*name, _says_more(low, name, codes)) for name in inside if name in likely]
        others = [name for name in inside if name not in likely]
        place = bisect_left(codes, (begin, 0))
        owned = place < len(codes) and any(_owns(low, name, codes[place], answers, begin) for name in others)
        if owned:
            found += described
        elif described:
            # "U0131, C0063 yaw rate sensor and C0020 in the ABS", but "U0100 ECM, U0140 in the BCM".
            last = max((name[0] for name in others if _is_led(low, name, begin)), default=stop if carried else begin)
            found += [name for name in described if name.sure and name.end <= last]
        carried = mark == ";" and (owned or carried)
        begin = stop
    return found


def _may_describe(low: str, names: Sequence[Span], at: int, codes: Sequence[Span], answers: Sequence[Span]) -> bool:
    """Whether a name stands right behind a code, or behind words of its description, and heads nothing itself."""
    start, end = names[at]
    place = bisect_right(codes, (start, start)) - 1
    if place < 0 or codes[place][1] > start:
        return False
    behind = codes[place][1]
    if start - behind > _FAR:
        return False
    status = behind_status(low, behind, start)
    gap = low[behind if at and names[at - 1][1] > behind and names[at - 1][0] < status else status : start]
    if gap.strip() == "(" and low[end : end + 1] == ")" and (
            low[codes[place][0]] == "u" or (
                # A short name in a bracket is that of a module.
                end - start >= _LONG_WORD and _are_described(low, names, codes, place))):
        # "Gateway: U0121 (ABS), U0155 (cluster)": whom it does not hear.
        return True
    if (opened := _OPENED.fullmatch(gap)) is not None:
        return _in_bracket(low, names[at], opened[1], _first_behind(codes, end))
    before = [word for word, _, _ in words(gap)] if gap.strip() else []
    if not _MARKS.isdisjoint(gap) or _ENDS.search(gap) or " - " in gap or len(before) > _MOST_BEFORE:
        return False
    leading = LEADS - _OF - _THROUGH if before[:1] and before[0] not in LEADS else LEADS
    if any(word in leading or word in _SAYS or word in AND for word in before) or (before and states.in_text(gap)):
        return False
    code, answer = _first_behind(codes, end), _first_behind(answers, end)
    stop = min(code, answer, _first_behind(names, end), len(low))
    tail = low[end:stop]
    if (stop == code and _HEADS.fullmatch(tail)) or (tail.lstrip() and tail.lstrip()[0] in ":="):
        return False
    said = _own_words(tail)
    if stop == answer and len(said) == len(words(tail)):
        # "headlamp module silent"
        return False
    return not any(word in _SAYS for word in said[:2])


def _are_described(low: str, names: Sequence[Span], codes: Sequence[Span], place: int) -> bool:
    """Whether the codes beside one have a description in brackets behind them, so that what stands there behind this
    one is one too: "P0700 (transmission control), P20EE (efficiency too low)"."""
    for at in range(max(0, place - _NEAR), min(len(codes), place + _NEAR + 1)):
        opened = _OPENED.match(low, codes[at][1], codes[at][1] + _FAR) if at != place else None
        if opened is None or _CLOSED.match(low, opened.end()) is None:
            continue
        first = bisect_left(names, (opened.start(1), 0))
        named = first < len(names) and names[first][0] < opened.end()
        if not named and len(words(opened[1])) > 1 and not states.in_text(opened[1]):
            return True
    return False


def _in_bracket(low: str, name: Span, before: str, code: int) -> bool:
    """Whether a name in the bracket right behind a code, ``before`` standing between, is part of a description there:
    "P0571 (brake switch circuit), P0100". One alone ("P0562 (ECM)", "(in the ECM, stored)") is that of its module."""
    start, end = name
    closed = _CLOSED.search(low, end, min(end + _FAR, code, len(low)))
    if closed is None:
        return False
    leading = [word for word, _, _ in words(before)]
    if leading:
        return leading[0] not in LEADS and leading[0] not in AND and not states.in_text(before)
    tail = low[end : closed.start()]
    status = states.in_text(tail)
    tail = tail[: status[0].start] if status else tail
    tail = tail.rstrip(" ,;/-")
    # "(front impact sensor, unexpected operation)", "(aerial input open, stored)", but "(ECM, ABS)".
    beside = [word for word in _own_words(tail.replace(",", " ")) if len(word) >= _LONG_WORD] + _own_words(tail)
    if any(word not in _KIND for word in beside):
        return True
    # "U0146 (engine immobiliser)" says what is wrong, a status behind it or none; the name of a module ends as such
    # names do, or is a short one.
    said = words(low[start : end + len(tail)])
    return not tail.strip() and len(said) > 1 and said[-1][0] not in _KIND


def _first_behind(spans: Sequence[Span], at: int) -> int:
    """Where the first of ``spans`` behind a place begins; behind all texts where none does."""
    place = bisect_left(spans, (at, 0))
    return spans[place][0] if place < len(spans) else _NOWHERE


def _own_words(tail: str) -> list[str]:
    """The words behind a name up to a mark, "and", or the end."""
    stop = min((tail.index(mark) for mark in _STOPS if mark in tail), default=len(tail))
    found = [word for word, _, _ in words(tail[:stop])]
    return found[: next((at for at, word in enumerate(found) if word in AND), len(found))]


def _says_more(low: str, name: Span, codes: Sequence[Span]) -> bool:
    """Whether words beside a name, or its last one, tell that it is part of a description."""
    start, end = name
    gap = low[codes[bisect_right(codes, name) - 1][1] : start]
    tail = low[end : min(end + _FAR, _first_behind(codes, end))]
    status = states.in_text(tail)
    behind = _own_words(tail[: status[0].start] if status else tail)
    last = low[start:end].rsplit(None, 1)[-1]
    part = last in _PARTS or last.endswith(_COMPOUND)
    return bool(gap.strip(" ([")) or part or any(word not in _KIND for word in behind)


def _owns(low: str, name: Span, first: Span, answers: Sequence[Span], begin: int) -> bool:
    """Whether a name is the subject of the first code of its sentence, or "in" leads to it before that."""
    if not name[1] <= first[0] <= name[1] + _LONGEST or _first_behind(answers, name[1]) < first[0]:
        return False
    gap = low[name[1] : first[0]]
    if ":" in gap or _is_led(low, name, begin) or _HEADS.fullmatch(gap):
        return True
    return any(word in SAYS for word, _, _ in words(gap))


def _is_led(low: str, name: Span, begin: int) -> bool:
    """Whether "in" or the like leads to a name."""
    return _LEADS_IN.search(low, max(begin, name[0] - _REACH), name[0]) is not None


__all__ = ["IS", "Described", "within"]


def ends_text(printed: str) -> bool:
    """Whether words before a code are the end of the text of the code above, wrapped: "...P0222 sensor B" above "low,
    P2135".

    >>> ends_text("voltage too low"), ends_text("Low beam"), ends_text("abs")
    (True, False, False)
    """
    return printed.islower() and printed.split()[-1] in _ENDS_TEXT
