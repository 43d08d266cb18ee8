"""Names that nobody knows, in a place of a sentence where only a module can stand: what an answer leads to ("could not
reach the awning motor", "no faults in Fnordia, steering and retarder"), and what does the answering or has the codes
("the awning motor and the step drive would not talk").

The noun phrase is a name whole, whichever of its words is one elsewhere ("hay camera"). Somebody or something that
answers no tester ("no reply from the owner") is none, and of a thing that is only "ok" or "dead" nothing is said.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import pairwise

from triage.intake.entries.wholenames import LEADING, NO_NAME
from triage.intake.lines import unknown
from triage.intake.lines.row import Row
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, word_set, words
from triage.intake.said import phases, states
from triage.intake.said.answeraround import Spoken
from triage.intake.said.answers import spoken, takes_object, without_links
from triage.intake.said.attribution import LEADS, SAYS, Span
from triage.intake.words.answerwords import CONTACT, MUTE, NO, TRIES, UNIT
from triage.intake.words.device_words import is_device, is_other
from triage.intake.words.saying_words import VERBS
from triage.intake.words.vocabulary import STATES
from triage.intake.words.work_words import BEHIND_NAMES

#: Between an answer and the mark before its list: "no codes in - ABS / radio".
_LINKED = lazily(r"\s*(?:in|with|from|at|mit|bei|zu|von|dans|avec|de|du|en|con)(?=\s?[-:>])")
#: From an answer to those that it is of, and the same behind one that leads to them itself ("could not reach").
_LINK = lazily(
    r"\s(?:in|from|of|at|on|to|with|im|bei|beim|von|vom|aus|auf|zu|zum|zur|mit|dans|de|du|des|avec|en|del|con|sur|a)"
    r"(?=\s)|\s?:(?=\s)")
#: From a code, or the description in brackets behind it, to its module.
_FROM = lazily(
    r"\s(?:(?:is|are|sits?|came|comes?|stored|logged|held|steht|stehen|kommt|kommen|est|sont|vient|esta|viene) )?"
    r"(?:in|from|out of|im|aus|vom|dans|en|del|du)(?=\s)")
_TOLD = lazily(r"\s?\([^()]{2,120}\)")
_STOP = lazily(
    rf"\.{NOT_SHORT}(?=\s|$)|[;!?()\[\]\n]|:(?=\s|$)|\s-+(?=\s)|"
    r"\s(?:but|while|whereas|then|because|aber|wahrend|dann|weil|mais|puis|pero|luego|porque)(?=\s)")
_JOINT = lazily(
    r"\s?[,+&/](?![0-9])\s?(?:(?:and|und|et|y|e|or|oder|ou|o|nor|noch|ni)\s)?|"
    r"\s(?:and|und|et|y|e|or|oder|ou|o|nor|noch|ni)\s")
#: Before a piece of a list of names.
_OPENED = lazily(r"(?:^|[,;:.!?&/+]|(?<![a-z])(?:in|from|of|on|with|im|bei|von|dans|de|du|en|and|und|et|y|e|or|oder|ou|"
                 r"o|the|der|die|das|den|dem|le|la|les|el|los|las))\s*$")
_PLAIN = lazily(r"[^\W\d_](?:[^\W\d_]|[' .\u2019-])*(?: [^\W\d_]?[1-9][0-9]?)?")
_LETTERED = lazily(r"[a-z][1-9][0-9]?")
_ARTICLE = lazily(r"(?<![a-z])(?:(?:the|der|die|das|de[mrn]|vom|zum|zur|le|la|les|el|los|las|du|del|au)\s|l')$")
_ARTICLES = word_set("the der die das den dem le la les el los las")
#: What stands between the words of a name, and is none.
_INNER = _ARTICLES - {"the"} | word_set("a d de del du des l pour para of au aux")
#: No word of a name: verbs, who speaks, when and how often.
_NO_WORDS = (NO_NAME | LEADS | CONTACT | MUTE | NO | TRIES | VERBS | word_set(
    "s but aber mais pero ne n se sich me nous uns both beide would will neither weder noch ni only once these times "
    "until even yet up down away off over through test road hold got back i alle alles andere anderen ubrigen gleiche "
    "selbe autres tous toutes auch ebenfalls aussi tambien tampoco meme mismo misma este otros demas todos todas"
)) - _INNER - word_set(
    "display displays record log lists x two three four five second dos tres deux trois zwei drei com access")
#: "After a test drive engine ECU silent"
_OPENERS = LEADING | {"drive", "run"}
_LOST = word_set("lost lose loses losing loss verloren perdu perdue perdida perdido")
_MARKS = frozenset(":-=>()[]|")
_FLAT = word_set("dead empty leer vide vacia vacio tot mort morte muerto muerta")
#: What is no name by itself.
_BARE = unknown.NOT_NAMED | BEHIND_NAMES | UNIT | word_set("actuator board drive interface terminal server")
#: Behind the name of another module these are a part's, and no second module.
_OF_A_PART = BEHIND_NAMES | word_set(
    "drive actuator heater fan lift winch compressor blower gauge counter reader board camera screen display panel "
    "monitor")
_MOST_WORDS, _LONGEST, _FAR, _LONGEST_ROW, _SURE = 4, 44, 300, 1200, 85.0


def filled(names: Names, row: Row, known: Sequence[Span], said: Sequence[Spoken]) -> list[Span]:
    """The names of a sentence with those that nobody knows in the places of its answers (``said``) and codes."""
    found = list(known)
    if len(row.low) > _LONGEST_ROW:
        return found
    listed = [(start, end) for start, end, _ in names.find(row.low)]
    for start, hit in _facts(row, said):
        free = [one for one in listed if not any(one[0] < end and start < one[1] for start, end in found)]
        every = sorted([*found, *free])
        items = _items(row, every, said, start, hit)
        capital = len(items) > 1 and hit is not None and not hit.doubtful and all(
            row.text[item[0]].isupper() or item in found for item in items) and items[0][0] > start
        amid = _amid(row, items, every, hit)
        for at, span in enumerate(items):
            if span not in found and not _is_name(
                    names, row, span, every, hit, nearest=not at, capital=capital, amid=span in amid):
                if not any(one[0] < span[1] and span[0] < one[1] for one in every):
                    break
                continue
            found = sorted({span, *(one for one in found if one[1] <= span[0] or span[1] <= one[0])})
    return found


#: No sentence names so many: each is held against all others.
_MOST_NAMES = 100


def devices(row: Row, known: Sequence[Span]) -> list[Span]:
    """The names that are known, and the devices of several words that may be one, in a row."""
    if len(known) > _MOST_NAMES:
        return list(known)
    found = set(known)
    ends = [0, *(match.end() for match in _STOP.finditer(row.low)), len(row.low)]
    for first, last in (piece for begin, end in pairwise(ends) for piece in _cut(row, known, begin, end)):
        for behind in (True, False):
            item = _phrase(row, known, first, last, behind=behind)[1]
            if item is not None and is_device(low := row.low[slice(*item)]) and low not in _BARE:
                found.add(item)
    return sorted(one for one in found if not any(
        other[0] <= one[0] and one[1] <= other[1] for other in found if other != one))


def told_of(names: Names, row: Row, said: Sequence[Spoken]) -> bool:
    """Whether a sentence gives its answer to several names of which no table lists one, or to one that more than an
    article stands beside; where a mark parts them, it is a line of a list."""
    link = _LINK.match(row.low, said[-1].end) or _LINKED.match(row.low, said[-1].end)
    # "No codes in - door / hay camera", "No codes in: door / hay camera"
    led = row.low[link.end() :].lstrip()[:1] if link is not None else ""
    beside = row.low[: said[0].start].rstrip()[-1:], row.low[said[-1].end :].lstrip()[:1], led
    if row.cells or not _MARKS.isdisjoint(beside):
        return False
    found = [row.text[start:end] for start, end in filled(names, row, (), said)]
    told = [tidy(without_links(text)) for text in (row.text[: said[0].start], row.text[said[-1].end :])]
    return any(not names.listed(name) for name in found) and (len(found) > 1 or found[0] not in told)


def unfilled(row: Row, known: Sequence[Span], said: Sequence[Spoken], hit: Spoken) -> bool:
    """Whether something that may be a module stands in the place of an answer's, and was not taken for one."""
    return any(not is_other(row.low[slice(*item)]) for item in _items(row, known, said, hit.start, hit))


def _facts(row: Row, said: Sequence[Spoken]) -> list[tuple[int, Spoken | None]]:
    """Where each answer and each code begins; no answer for a code."""
    return [*((hit.start, hit) for hit in said), *((code.start, None) for code in row.finds.codes)]


def _amid(row: Row, items: Sequence[Span], known: Sequence[Span], hit: Spoken | None) -> list[Span]:
    """The noun phrases of a list to which a sure answer leads, or that has one, known names among them: what fills a
    piece of that list whole is a name as well ("no faults in the gateway, cab tilt and solar charger")."""
    if hit is None or hit.doubtful or len(items) < 2 or not any(item in known for item in items):
        return []
    if items[0][0] < hit.start and len(items) < 3:
        return []
    return [(start, end) for start, end in items
            if (not row.low[end:].strip(" .") or end == hit.start - 1 or _JOINT.match(row.low, end) is not None
                or (_STOP.match(row.low, end) is not None and row.low[end] != ":"))
            and _OPENED.search(row.low, max(0, start - 8), start) is not None]


def _is_name(names: Names, row: Row, span: Span, known: Sequence[Span], hit: Spoken | None, *, nearest: bool,
             capital: bool, amid: bool = False) -> bool:
    """Whether a noun phrase in the place of a module is the name of one that nobody knows; ``nearest``: it stands
    beside its answer; ``capital``: each in its list is known or has a capital letter; ``amid``: it fills a piece of a
    list of names."""
    low = row.low[slice(*span)]
    parts = [word for word, _, _ in words(low)]
    if names.listed(low) or span in known:
        return hit is not None
    if len(parts) == len(low.split()) == 2 and parts[0] in unknown.KINDS and _LETTERED.fullmatch(parts[1]):
        return True  # "unit K7"
    if low in unknown.NO_NAMES or is_other(low) or not unknown.NOT_NAMED.isdisjoint(parts[:-1]) or (
            len(parts) == 1 and parts[0] in _BARE):
        return False
    device = is_device(low)
    inside = [one for one in known if one[0] < span[1] and span[0] < one[1]]
    if inside:
        # "Step actuator", "ramp motor", but "radio camera" and "ABS pump" are two names.
        free = sum(end - start for start, end in inside) + len(inside) - 1 < len(low)
        first = row.text[slice(*inside[0])]
        parted = inside[0][0] == span[0] and names.abbreviates(first.lower()) and (len(first) < 4 or first.isupper())
        clean = amid and len(inside) == 1 and hit is not None and hit.answer == "clean"
        whole = (device or clean) and (free or parts[-1] in _OF_A_PART) and not parted
        return whole or (len(inside) == 1 and names.score(row.text[slice(*span)]) >= _SURE)
    if hit is None and nearest is False and _ARTICLE.search(row.low, max(0, span[0] - 6), span[0]) is not None and (
            unknown.is_one_of_short(row.text[slice(*span)])):
        return True  # "The PNQ and the ABS both show U0100"
    if hit is None or hit.doubtful:
        bare = hit is not None and (row.low[hit.start : hit.end] in _FLAT or (
            hit.answer == "clean" and parts[-1] in BEHIND_NAMES))
        return device and not bare
    led = _ARTICLE.search(row.low, max(0, span[0] - 6), span[0]) is not None
    opens = not row.low[: span[0]].strip() or row.low[: span[0]].rstrip()[-1] in ".;!?"
    return device or capital or amid or (len(parts) > 1 and (led or opens or (nearest and span[0] > hit.start)))


def _items(row: Row, known: Sequence[Span], said: Sequence[Spoken], start: int, hit: Spoken | None) -> list[Span]:
    """The noun phrases, and names that are known, in the place of the modules of an answer, or of a code, which begins
    at a place: the nearest first."""
    codes = [(code.start, code.end) for code in row.finds.codes]
    marks = sorted([*codes, *((other.start, other.end) for other in said)])
    before = list(_before(row, known, marks, start, hit is None))
    if hit is None:
        end = next(last for first, last in codes if first == start)
        end = told.end() if (told := _TOLD.match(row.low, end)) is not None else end
        stated = states.leading(row.low, end)
        # The blank behind a status is no part of what leads to the module.
        stated -= stated > end and row.low[stated - 1] == " "
        link = _FROM.match(row.low, end) or _FROM.match(row.low, stated)
        return before if before or link is None else list(_pieces(row, known, marks, link.end()))
    if (before and before[0] in known and not takes_object(row.low, hit)):
        return before
    return list(_behind(row, known, marks, hit)) or before


def _behind(row: Row, known: Sequence[Span], marks: Sequence[Span], hit: Spoken) -> Iterator[Span]:
    """What an answer leads to."""
    link = _LINK.match(row.low, hit.end)
    if (link is None and not takes_object(row.low, hit)) or not _LOST.isdisjoint(
            word for word, _, _ in words(row.low[hit.start : hit.end])):
        # "Lost comms with the radio" is what another module tells.
        return
    yield from _pieces(row, known, marks, link.end() if link is not None else hit.end)


def _pieces(row: Row, known: Sequence[Span], marks: Sequence[Span], begin: int) -> Iterator[Span]:
    """The noun phrases of a list that begins at a place."""
    end = _STOP.search(row.low, begin + 1)
    stop = min(end.start() if end is not None else len(row.low), begin + _FAR,
               *(mark[0] for mark in marks if mark[0] >= begin))
    for first, last in _cut(row, known, begin, stop):
        whole, item = _phrase(row, known, first, last, behind=True)
        if item is not None and not (last == stop and any(mark[0] == stop for mark in marks)):
            yield item
        if not whole:
            return


def _before(row: Row, known: Sequence[Span], marks: Sequence[Span], start: int, coded: bool) -> Iterator[Span]:
    """What stands before an answer, or before the verb of a code, from right to left."""
    place = bisect_right(marks, (start, -1)) - 1
    begin = max([marks[place][1] if place >= 0 else 0, start - _FAR, *(
        match.end() for match in _STOP.finditer(row.low, max(0, start - _FAR), start)
        # "The mast board answered but has no codes"
        if match[0][0] != " " or any(word not in _NO_WORDS for word, _, _ in words(row.low[match.end() : start])))])
    pieces = _cut(row, known, begin, start)
    if place >= 0 and begin == marks[place][1] and row.low[slice(*pieces[0])].strip():
        # What goes on behind a code or an answer is no subject.
        pieces = pieces[1:]
    for at, (first, last) in enumerate(reversed(pieces)):
        if coded and not at and not any(word in SAYS | VERBS for word, _, _ in words(row.low[first:last])[1:]):
            return
        whole, item = _phrase(row, known, first, last, behind=False, verb=not at)
        if item is not None:
            yield item
        if not whole:
            return


def _cut(row: Row, known: Sequence[Span], begin: int, stop: int) -> list[Span]:
    """The pieces of a list."""
    cuts = [match.span() for match in _JOINT.finditer(row.low, begin, stop)
            if not any(start < match.start() < end for start, end in known)]
    return list(zip([begin, *(end for _, end in cuts)], [*(start for start, _ in cuts), stop], strict=True))


def _phrase(row: Row, known: Sequence[Span], begin: int, stop: int, *, behind: bool,
            verb: bool = False) -> tuple[bool, Span | None]:
    """The noun phrase, or the name that is known, in a piece of a list, and whether it is all of the piece. ``behind``:
    it begins the piece, else it ends it, before a ``verb`` perhaps."""
    parts = [(word, begin + start, begin + end) for word, start, end in words(row.low[begin:stop])]
    inside = [any(start <= part[1] < end for start, end in known) for part in parts]
    whole = True
    while parts and parts[0][0] in LEADING and not inside[0]:
        del parts[0], inside[0]
    if behind:
        free = [part[0] not in _NO_WORDS or held for part, held in zip(parts, inside, strict=True)]
        at = free.index(False) if False in free else len(parts)
        whole = at == len(parts)
        parts = parts[:at]
    else:
        while verb and parts and parts[-1][0] in _NO_WORDS and not inside[len(parts) - 1]:
            del parts[-1]
        at = next((at + 1 for at in range(len(parts) - 1, -1, -1) if not inside[at] and (
            parts[at][0] in _NO_WORDS or (parts[at][0] in _ARTICLES and at and parts[at - 1][0] not in _INNER))), 0)
        whole = not at
        parts = parts[at:]
    while parts and parts[-1][0] in _INNER:
        del parts[-1]
    while parts and parts[0][0] in _OPENERS:
        del parts[0]
    if not parts:
        return False, None
    start, end = parts[0][1], parts[-1][2]
    over = [name for name in known if name[0] < end and start < name[1]]
    if len(over) == 1 and over[0][0] <= start and end <= over[0][1]:
        return whole, over[0] if start == over[0][0] or end != over[0][1] else (start, end)
    text, low = row.text[start:end], row.low[start:end]
    if any(name[0] < start or end < name[1] for name in over) or len(text) > _LONGEST or (
            sum(word not in _INNER for word, _, _ in parts) > _MOST_WORDS or _PLAIN.fullmatch(text) is None):
        return False, None
    stated = any(low[: hit.start].split()[-1:] != ["de"] for hit in STATES.find(low))
    if spoken(low) or stated or phases.find(low) is not None:
        return False, None
    return whole, (start, end)


__all__ = ["filled", "unfilled"]
