"""Statuses that lead to their codes: "stored: P0562, P0563 active: P0118", "ACTIVE: ECM P0562, ABS C0035".

What stands before a colon is said of what follows, so that no such word may be read as that of the code before it: the
mistake would hide a hard fault.

>>> low = "ecm stored: p0562, p0563 active: p0118"
>>> places = [(low.index(code), low.index(code) + 5) for code in ("p0562", "p0563", "p0118")]
>>> [(low[lead.start:lead.end], lead.status, lead.codes) for lead in find(low, places, [(0, 3)])]
[('stored:', 'stored', (0, 1)), ('active:', 'current', (2,))]
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Sequence
from itertools import pairwise
from typing import NamedTuple

from triage.intake.codes.finds import Found
from triage.intake.codes.pieces import Details
from triage.intake.entries import setoff
from triage.intake.lines.row import Row
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said import states
from triage.intake.scan.context import Context
from triage.intake.words.vocabulary import SERVICE, STATE_FILLER
from triage.model.snapshot import StatusWord

Span = tuple[int, int]

#: Words of a list's head beside its status: "Active fault codes (2):".
_LIST_WORDS = STATE_FILLER | word_set(
    "trouble list liste lista eintrage eintraege averias fallos codigos only now also still nur noch"
)
#: Nothing but these between codes that stand together.
JOINTS = frozenset({"", "and", "und", "et", "y", "e", "plus", "or", "as well as", "sowie"})
_BRACKETS = lazily(r"[(\[][^()\[\]]{1,80}[)\]]")
_COUNT = lazily(r"\s*[(\[]?\s*(?:x\s?)?[0-9]{1,3}\s*[)\]]?\s*$")
#: What may stand between codes of one list, and between a word of its own and the codes beside it.
_JOINT = lazily(
    r"[\s,;&+/|.()\[\]-]*+(?:(?:x\s?[0-9]{1,3}|[0-9]{1,3}\s?(?:x|times|mal|fois|veces)|"
    r"(?:count(?:er)?|occurrences?|compteur|contador|zahler|anzahl)\s?[:=]?\s?[0-9]{1,3})(?![a-z0-9])"
    r"[\s,;&+/|.()\[\]-]*+)?(?:(?:(?:(?:and|und|et|y)\s)?(?:also|dazu|auch|ausserdem|zudem|aussi|egalement|"
    r"tambien|ademas|as well)|"
    r"and|und|et|y|e|plus|mas|sowie)(?![a-z]))?[\s,;&+/|.()\[\]-]*+")
#: A status cut short, with the full stop that says so: "hist. P0562, conf. P0563".
_CUT_SHORT = lazily(
    r"(?<![a-z])(?:conf|cnf|hist|pend|perm|curr?|act|inact|interm|spor|sporad|mem|gesp|akt|inakt|prov)\.$")
_LINK = lazily(r"[\s,;:(\[|/-]*(?:(?:the|a|an|code|codes|dtc|dtcs|module|der|die|das|le|la|el)\s+)?")
#: What leads from a code to its own module, and from that to the next code.
_OPENS_NAME = lazily(r"\s{0,3}(?:[(\[]|@|[-/]\s|(?:in|from|im|in der|dans|en)\s)\s?(?:the |dem |der |le |la |el )?")
_CLOSES_NAME = lazily(r"\s?[)\]]?\s?[,;&+]?\s{0,3}(?:(?:and|und|et|y|e|plus|sowie)\s)?\s?")
_DESCRIBED = lazily(r"\s?\([^()]{3,100}\)\s?[,;&+]?\s{0,3}(?:(?:and|und|et|y|e|plus|sowie)\s)?\s?")
_COLON_SIGNS = lazily(r"[:=]")
#: Between the status and its colon; before a status that is the value of a key.
_PLAIN = lazily(r"[a-z\s]*")
#: Behind a status that opens its sentence, what leads on as a colon does: "Stored are P0562 and P0113".
_ARE = lazily(r"\s(?:is|are|was|were|ist|sind|war|waren|est|sont|es|son|estan?)(?:\s(?:only|also|nur|auch|aussi))?$")
_BOX = lazily(r"[(\[]\s?([^()\[\]]{2,40}?)\s?[)\]]\s?$")
_PARTED = (";", "|", ",", "/", "+", "&")
_SENTENCE_ENDS = ("", ".", ";", "!", "?", "\n")
_KEYED = lazily(r"(?:status|state|zustand|etat|statut|estado|condition)\s*[:=]\s*$")
_REACH, _FEWEST, _LONGEST_SHORT = 60, 2, 9
_PLUS = lazily(r"(\s*plus)\s.*")
#: The last mark before a status, or the last word that joins it to the code in front.
_LAST_MARK = lazily(
    r"(?:[,;:&+/|>=)]|\s-|(?:^|\s)(?:and|und|et|y|plus|mas|sowie|also|dazu|aussi|ademas)(?=\s))(?=[^,;:&+/|>=)]*$)")
#: Before the status of one code, with a word for it perhaps: "P0560 stored plus a live P0171".
_ONE = lazily(
    r"(?<![a-z0-9])(?:a|an|one|another|ein(?:e[nrms]?)?|une?|una|otr[oa]|autre)"
    r"(?: (?:code|fault|dtc|fehler(?:code)?|defaut|averia|codigo|fallo))? $"
)
#: The same with the ending that a German word for a status has behind it: "ein gespeicherter P0560".
_EIN = lazily(
    r"(?<![a-z])eine?[nrms]? ((?:(?:noch|aktuell|derzeit) )?[a-z]{4,14}?)e[nrms]?(?: fehler(?:code)?)? ?$"
)
_ENDED = lazily(r"[!?\n]|\.\s")
#: A status at the end of a row, with a word that says it of all its codes.
_OF_ALL = lazily(
    r"(?:[(\[]|[-:,;]?\s)\s*(?:all|both|each|every one|the (?:two|three|four|lot)(?= of )|"
    r"alle|beide|jeweils|(?:tou(?:te)?s )?(?:les )?deux|tous|toutes|l[oa]s dos|"
    r"amb[oa]s|todos|todas)(?: (?:of them|are|is|sind|sont|estan))?[\s:]+([^()\[\]]{2,40}?)\s*[)\]]?[\s.;]*$"
)


class Lead(NamedTuple):
    """A status at ``start``..``end`` (with its colon) and the numbers of the codes that it is said of."""

    start: int
    end: int
    status: StatusWord
    codes: tuple[int, ...]


def find(low: str, codes: Sequence[Span], names: Sequence[Span], translated: bool = False) -> list[Lead]:
    """The statuses of a row that lead to codes; empty where the row has none.

    ``codes`` and ``names``: their places, from left to right. A status with a module's name before it is of the codes
    up to the next name, one before names is of all up to the next such status. Linear in the row's length.
    """
    starts = [_before(low, codes, at, names, translated) for at in range(len(codes))]
    if not any(starts):
        return []
    if any(start is not None and not start.colon and not start.single for start in starts):
        starts = _where_all(low, codes, starts, translated)
    found: list[Lead] = []
    led: list[list[int]] = []
    alone = False
    for at, start in enumerate(starts):
        if start is not None:
            alone = start.single
            found.append(Lead(start.start, start.end, start.status, (at,)))
            led.append([at])
        elif found and at and not alone and not _left(low, found[-1], codes, names, at):
            led[-1].append(at)
    return [lead._replace(codes=tuple(numbers)) for lead, numbers in zip(found, led, strict=True)]


def stop_before(starts: Sequence[int], at: int, stop: int) -> int:
    """Where what is said of a code at a place ends: at ``stop``, or at a status that leads to the next codes."""
    place = bisect_right(starts, at)
    return min(stop, starts[place]) if place < len(starts) else stop


def is_lead(low: str) -> bool:
    """Whether a text is nothing but a status with words of a list beside it, and perhaps a count.

    >>> is_lead("stored codes (2)"), is_lead("ecm stored")
    (True, False)
    """
    count = _COUNT.search(low)
    head = low[: count.start()] if count is not None else low
    hits = states.in_text(head)
    spans = [(hit.start, hit.end) for hit in hits]
    return bool(hits) and all(
        word in _LIST_WORDS or any(first <= start < last for first, last in spans) for word, start, _ in words(head)
    )


def of_row(context: Context, row: Row, *, named: bool = True) -> tuple[dict[int, StatusWord], list[int]]:
    """By the place of a code: the status that leads to it; and the places where such statuses begin, in order. In a row
    of one module, not ``named`` in it, that begins with a status what looks like names are descriptions: "Stored: B1676
    Battery monitor, U0100"."""
    codes = row.finds.codes
    if len(codes) < 2 and not _COLON_SIGNS.search(row.low, 0, codes[0].start) and not _EIN.search(
            row.low, 0, codes[0].start):
        return {}, []
    of_one = not named and is_lead(row.low[: codes[0].start].rstrip(" :=-"))
    names = [] if of_one else [(start, end) for start, end, _ in context.names.find(row.low)]
    found = find(row.low, [(code.start, code.end) for code in codes], names, context.translated)
    told = {codes[at].start: lead.status for lead in found for at in lead.codes}
    return told, [lead.start for lead in found]


class _Start(NamedTuple):
    """A status right before a code, or before the name right before it; ``colon`` whether a colon leads on, ``boxed``
    whether it stands in brackets, ``single`` whether "a" before it says it of one code."""

    start: int
    end: int
    status: StatusWord
    colon: bool
    boxed: bool = False
    single: bool = False


def _before(low: str, codes: Sequence[Span], at: int, names: Sequence[Span], translated: bool) -> _Start | None:
    """The status that leads to a code."""
    stop, least = codes[at][0], codes[at - 1][1] if at else 0
    place = bisect_left(names, (stop, stop)) - 1
    if place >= 0 and names[place][0] >= least and _LINK.fullmatch(low, names[place][1], stop):
        named = _ending(low, least, names[place][0], translated)
        if named is not None and named.colon:
            return named
        return None
    return _ending(low, least, stop, translated)


def _ending(low: str, least: int, stop: int, translated: bool) -> _Start | None:
    """A status that ends right before a place, behind ``least``."""
    first = max(least, stop - _REACH)
    if (box := _BOX.search(low, first, stop)) is not None:
        status = states.of_cell(box[1], translated)
        return _Start(box.start(), box.end(), status, colon=False, boxed=True) if status is not None else None
    text = low[first:stop].rstrip(" \t(['\"*")
    dash = text[-1:] in ("-", ">")
    verb = _ARE.search(text)
    text = text[: verb.start()] if verb is not None else text
    colon = dash or text[-1:] in (":", "=")
    head = text.rstrip(" :=->" if dash else " :=")
    count = _COUNT.search(head) if colon else None
    if count is not None and head[: count.start()].strip():
        head = head[: count.start()]
    if has_digit(head[-3:]) and (service := SERVICE.search(head)) is not None:
        # "Permanent DTC (mode $0A): P0715"
        head = head[: service.start()]
    if (joined := _PLUS.fullmatch(head)) is not None and least:
        # "stored P0562 plus active P0118": between two codes an English "plus" joins them, no French one denies.
        head = head[: joined.end(1)].replace("plus", " " * 4) + head[joined.end(1) :]
    if _CUT_SHORT.search(head) is not None:
        head = head[:-1]
    if not colon and "ein" in head and (ein := _EIN.search(head)) is not None and (
            status := states.of_cell(ein[1], True)) is not None:
        return _Start(first + ein.start(), first + len(text), status, colon=False, single=True)
    hits = states.in_text(head, translated)
    if not hits or _PLAIN.fullmatch(head, hits[-1].end) is None:
        return _short_word(head, first, len(text), colon, translated)
    if head[hits[-1].start : hits[-1].end] == "is showing" or (
            not colon and head.endswith(" logged")):
        # "BCM is showing P0562 and B1318", "BCM logged P0562" only say that it holds them.
        return None
    last = hits[-1]
    if _KEYED.search(head, 0, last.start):
        return None
    if any(word not in _LIST_WORDS for word, start, _ in words(head) if start >= last.end):
        return None
    start = last.start
    for hit in reversed(hits[:-1]):
        if head[hit.end : start].strip(" /&+") in ("", "and", "und", "et", "y", "or"):
            start = hit.start
    if dash and low[: first + start].strip(" *-"):
        # "ACTIVE - P0304 (ECM), C1288 (ABS)" is a lead; behind other words a dash parts pieces of one code's line.
        return None
    opens = low[max(0, first + start - 8) : first + start].rstrip(" \t")[-1:] in _SENTENCE_ENDS
    if verb is not None and not (opens and states.is_status(head[start:])):
        return None
    status = states.of_cell(head[start:], translated) or last.status
    colon = colon or verb is not None
    single = not colon and _ONE.search(head, 0, start) is not None
    return _Start(first + start, first + len(text), status, colon, single=single)


def _short_word(head: str, first: int, end: int, colon: bool, translated: bool) -> _Start | None:
    """A short form of a status that a text ends with, behind a mark or alone: "P0562, hist." """
    mark = _LAST_MARK.search(head)
    start = mark.end() if mark is not None else 0
    word = head[start:].strip()
    status = states.of_cell(word.rstrip("."), translated) if 2 < len(word) <= _LONGEST_SHORT else None
    if status is None or _KEYED.search(head, 0, start):
        return None
    return _Start(first + start + len(head[start:]) - len(head[start:].lstrip()), first + end, status, colon)


def _where_all(
    low: str, codes: Sequence[Span], starts: Sequence[_Start | None], translated: bool
) -> list[_Start | None]:
    """The statuses before codes, those without a colon only in lists in which they stand before all codes."""
    found: list[_Start | None] = []
    boxed = sum(start is not None and start.boxed for start in starts)
    if _each_led(low, codes, starts, translated, groups=boxed >= _FEWEST):
        return list(starts)
    starts = [start if start is None or not start.boxed else None for start in starts]
    begins = [code[0] if start is None else start.start for code, start in zip(codes, starts, strict=True)]
    ends = [at for at in range(1, len(codes)) if _JOINT.fullmatch(low, codes[at - 1][1], begins[at]) is None
            or _ENDED.search(low, codes[at - 1][1], codes[at][0])]
    for first, last in pairwise([0, *ends, len(codes)]):
        said, led = codes[first:last], starts[first:last]
        all_led = _all_led(low[: begins[last]] if last < len(codes) else low, said, led, translated)
        closed = (not first or _ENDED.search(low, codes[first - 1][1], said[0][0])) and (
            last == len(codes) or _ENDED.search(low, said[-1][1], codes[last][0]))
        if ends and not closed and sum(start is not None for start in led) < _FEWEST and (
                "," in low[said[0][1] : said[-1][0]]):
            # "The radio shows pending B1000, and B1001, ABS C0035 active": of how many it is said is not clear.
            all_led = False
        found += [start if start is None or start.colon or start.single or all_led else None for start in led]
    return found


def _each_led(
    low: str, codes: Sequence[Span], starts: Sequence[_Start | None], translated: bool, *, groups: bool
) -> bool:
    """Whether each code of a list has a status right before it, or each group of them one in brackets (``groups``),
    with a mark before that, and none behind its description: "stored C0035 brake switch; active U0100 engine lost",
    "[active] C0035, C0040 | [stored] U0100". Taken for those of the codes in front they would hide what fails now."""
    told = [start for start in starts if start is not None]
    if len(told) < _FEWEST or starts[0] is None or (len(told) < len(codes) and not groups):
        return False
    if groups and not all(start.boxed for start in told):
        return False
    begins = [code[0] if start is None else start.start for code, start in zip(codes, starts, strict=True)]
    stops = [*begins[1:], len(low)]
    return all(low[max(stop - 4, 0) : stop].rstrip()[-1:] in _PARTED for stop in stops[:-1]) and not any(
        states.in_text(_ENDED.split(low[end:stop])[0], translated) for (_, end), stop in zip(codes, stops, strict=True))


def _all_led(low: str, codes: Sequence[Span], starts: Sequence[_Start | None], translated: bool) -> bool:
    """Whether statuses without a colon stand before the codes of a list throughout ("stored P0562, P0563, active
    P0118"): one before the first and none behind the last."""
    behind = low[codes[-1][1] : codes[-1][1] + _REACH]
    return len(codes) > 1 and starts[0] is not None and not states.in_text(_ENDED.split(behind)[0], translated)


def _left(low: str, lead: Lead, codes: Sequence[Span], names: Sequence[Span], at: int) -> bool:
    """Whether a code is no longer one of the list that a status leads: a sentence or a name stands between, unless
    the list is one of names from the start."""
    if _ENDED.search(low, codes[at - 1][1], codes[at][0]):
        return True
    if _name_in(names, lead.end, codes[lead.codes[0]][0]):
        return False
    if _DESCRIBED.fullmatch(low, codes[at - 1][1], codes[at][0]) is not None:
        # "P0562 (aerial open) and P0563": a description in brackets speaks of other modules as well.
        return False
    if not _name_in(names, codes[at - 1][1], codes[at][0]) or _names_behind(low, codes, names, at):
        return False
    return not _is_described(low, codes, names, at)


def _is_described(low: str, codes: Sequence[Span], names: Sequence[Span], at: int) -> bool:
    """Whether the first name between two codes begins the description of the one in front, which goes on behind it to
    a mark right before the next code: "C0035 brake switch; C0040 lamp"."""
    least, stop = codes[at - 1][1], codes[at][0]
    start, end = names[bisect_left(names, (least, least))]
    if low[least:start].strip(" -:/"):
        return False
    told = low[end:stop].rstrip()
    return told[-1:] in (";", "|") and told[:1] == " " and bool(told[:-1].strip())


def _names_behind(low: str, codes: Sequence[Span], names: Sequence[Span], at: int) -> bool:
    """Whether the one name before a code is that of the code in front of it: "P0304 (ECM), C1288 (ABS)"."""
    least, stop = codes[at - 1][1], codes[at][0]
    place = bisect_left(names, (least, least))
    start, end = names[place]
    if _CLOSES_NAME.fullmatch(low, end, stop) is None:
        return False
    # "P0304 ECM, C1288 ABS": the comma closes what is said of the first.
    beside = not low[least:start].strip() and low[end:stop].lstrip()[:1] in (",", ";")
    return beside or _OPENS_NAME.fullmatch(low, least, start) is not None


def _name_in(names: Sequence[Span], start: int, end: int) -> bool:
    """Whether a name stands between two places."""
    place = bisect_left(names, (start, start))
    return place < len(names) and names[place][0] < end


def joint(low: str, joined: bool) -> str:
    """What stands between two codes without marks and the descriptions in brackets that say nothing of a status, where
    a word joins the two: in a list of commas each code stands for itself, unless a word joins its last two
    (``joined``): "P0562 (low), P0300 (misfire) and P0301 (cylinder 1) stored"."""
    bare = _BRACKETS.sub(lambda match: match[0] if states.in_text(match[0]) else "", low)
    return (bare if joined or bare.strip(" ,;") else low).strip(" ,;&+/|()")


def share(context: Context, row: Row, pending: list[tuple[Found, Details]], before: StatusWord | None) -> None:
    """ "U0100 and U0140 stored": a status behind the last of several codes is that of all that stand together; where
    it says of how many it is told ("neither active"), that of so many. In some texts one in brackets is of its code
    alone."""
    # What was read of a piece may be remembered.
    pending[:] = [(code, details.again()) for code, details in pending]
    said = None
    for last, (behind, own) in enumerate(pending):
        said = setoff.of_several(row.low, behind.end, context.translated)
        if said is not None and len(pending) > said.codes > 1 and row.low[said.end : said.end + 1] in (")", "]"):
            # Of all of them in brackets: "C0545 low; C0044 open; C0061 no signal (both stored)".
            said = said._replace(codes=len(pending))
        if said is not None:
            own.status = said.status
            for _, details in pending[max(last + 1 - said.codes, 0) : last]:
                details.status = details.status or said.status
    of_all = _OF_ALL.search(row.low, pending[-1][0].end) if said is None and len(pending) > 1 else None
    status = states.of_cell(of_all[1], context.translated) if of_all is not None else None
    for _, details in pending:
        details.status = details.status or status
    hand_back(context, row, pending)
    for _, details in pending:
        details.status = details.status or before


def hand_back(
    context: Context, row: Row, pending: Sequence[tuple[Found, Details]], parted: Collection[int] = ()
) -> None:
    """Give each code without a status that of the next, where both stand together. ``parted``: the places of codes that
    are of another module than the next."""
    joined = False
    for at in range(len(pending) - 2, -1, -1):
        (code, details), (after, following) = pending[at : at + 2]
        low = row.low[code.end : after.start]
        between = joint(low, joined)
        if between == "-" and "|" not in low:
            # "P0562 - P0113 - P0073 all stored"
            between = ""
        own = context.style.own_brackets and row.low[after.end :].lstrip()[:1] in ("(", "[")
        joins = details.status is None and between in JOINTS and not own and at not in parted
        joined = joins and (joined or between != "")
        if joins:
            details.status = following.status
