"""Makers' own numbers in lines that hold one between marks and tell what only a fault has: "stored; 10812; relay open".

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("stored; 10812; open\\nactive; DF513; pump\\nready; 10813; pads\\nDF514\\trelay\\tABS\\tstored")
>>> adopt(found, lambda name: name == "ABS")
>>> [[code.text for code in row.finds.codes] for row in found]
[['10812'], ['DF513'], [], []]
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Iterator, Sequence
from typing import NamedTuple

from triage.intake.codes.ownnumbers import SIGN, TOKEN, pattern
from triage.intake.lines import namelist, outline
from triage.intake.lines.ownevidence import (
    OTHER_KEYS,
    goes_on,
    is_head,
    is_named,
    of_other_use,
    own_at,
    put,
    tells_status,
)
from triage.intake.lines.row import Row
from triage.intake.lines.unknown import is_one_of_short
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import trailing_status
from triage.intake.plain import signs
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.counts import stated_count
from triage.intake.said.listheads import status_of_head
from triage.intake.said.remarks import is_remark
from triage.model.own_forms import OF_MODULES

_WHOLE = lazily(pattern("sure", "usual", "short", "weak"))
_LEADING = lazily(TOKEN)
#: What stands between a number and its description.
_BEHIND = lazily(r"\s*[:;|,]\s*[^\W\d]{2}|\s+(?:[-=]+>?\s+)?[^\W\d]{2}")
_OF_MODULES = lazily(rf"(?i:{'|'.join(OF_MODULES)})[0-9]")
_FIRST = lazily(rf"({TOKEN})(?:\s+[-/|;]|:)?\s+(?:@\s?)?(?=[^\W\d]{{2}})")
#: From a description to the name of its module.
_TO_NAME = lazily(r"\s-\s|\s?@\s?")
#: The name at its end.
_CLOSING = lazily(r"(?<=\s)\[([^\[\]()]{2,40}(?:\([^()]{1,12}\))?)\]$")
#: One kind of mark cuts a line.
_ARROW = lazily(r"\s*[-=]+>\s*")
_MARKS = (("->", _ARROW), ("=>", _ARROW), ("::", lazily(r"\s*::\s*")), ("|", lazily(r"\s*\|\s*")),
          ("\t", lazily(r"\s*\t\s*")), (";", lazily(r"\s*;\s*")), ("  ", lazily(r"\s{2,}")),
          ("/", lazily(r"\s+/\s+")), ("-", lazily(r"\s+-+\s+")), (",", lazily(r",\s*")), (":", lazily(r":\s+")))
_BRACKET = lazily(r"[(\[]([^()\[\]]{2,60})[)\]]")
#: What stands around a status so that it is seen, and around the letter for one.
_STRESSED, _ENCLOSING, _MOST_LETTERS = "*!_~", "*!_~()[]<>{}", 4
_LONGEST, _MOST_PIECES, _MOST_WORDS, _FEW, _ALL, _NEARLY = 200, 6, 3, 2, 3, 0.8
_LONGEST_TOKEN, _MOST_BELOW = 8, 3


class _Place(NamedTuple):
    """A number in a row that may be a code: where it stands, the shape of the line, and what else the line tells."""

    row: Row
    start: int
    token: str
    shape: tuple[str, int]
    status: bool
    name: bool
    led: bool
    #: An arrow leads from the number and its description to what may be names.
    arrow: bool = False
    #: A hyphen, or a sign for "at", leads to a name at its end, or it stands there in square brackets.
    last: bool = False
    #: A short name that nobody knows stands in brackets behind it.
    short: bool = False
    #: The pieces of the line that hold no more than a few letters, which the text may explain.
    letters: tuple[str, ...] = ()
    #: The line stands in a list that a status heads.
    headed: bool = False


def adopt(rows: Sequence[Row], is_name: IsName, with_codes: Sequence[Row] = (), explained: Sequence[Row] = (),
          letters: Collection[str] = ()) -> None:
    """Give rows their numbers as codes: where a status stands right before one, or where several, with a status or a
    name, are of one shape, or others of that shape (``with_codes``) have a code in that place. A letter is a status
    where one of the rows ``explained`` says for which it stands, or one of ``letters``. Linear.

    >>> from triage.intake.lines.rows import rows_of
    >>> found = rows_of("ABS | P | K-2210 | pump\\nEPS | M | K-4371 | relay\\nP = present; M = stored")
    >>> adopt(found, ("ABS", "EPS").__contains__, explained=found)
    >>> [code.text for row in found for code in row.finds.codes]
    ['K-2210', 'K-4371']
    """
    found: dict[tuple[str, int], list[_Place]] = defaultdict(list)
    coded: dict[tuple[str, int], int] = defaultdict(int)
    for row in rows:
        usable = not row.finds.codes and len(row.text) <= _LONGEST
        if usable and (place := _place(row, is_name)) is not None:
            # What begins its line begins those that are cut otherwise as well.
            found[place.shape if place.start else ("", 0)].append(place)
    headed = _below_statuses(explained) if found else set()
    for alike in found.values() if headed else ():
        alike[:] = [place._replace(status=True, headed=True) if id(place.row) in headed else place for place in alike]
    if any(place.letters and not place.status for places in found.values() for place in places):
        told_of = {*letters, *(letter for row in explained if "=" in row.text or ":" in row.text
                               for letter, _ in states.legend_of(row.low))}
        for alike in found.values():
            alike[:] = [place._replace(status=place.status or not told_of.isdisjoint(place.letters)) for place in alike]
    for row in with_codes if found else ():
        if (shape := shape_between(row)) is not None:
            coded[shape] += 1
    for places in map(_with_short_names, found.values()):
        told = [place for place in places if place.status or place.name]
        most = len(told) > 0.6 * len(places)
        several = len({place.token for place in told}) >= _FEW and most
        some = any(place.status for place in told)
        named_last = sum(place.last for place in places) >= _ALL
        for place in places:
            marked = bool(place.shape[0])
            known = coded[place.shape] >= _FEW and marked and most
            all_named = marked and len(told) == len(places) >= _ALL
            listed = several and (
                (place.status and marked) or place.headed
                or (place.name and (place.status or some or all_named)) or place.arrow
                or (place.last and named_last))
            if place.led or known or listed:
                put(place.row, place.start, place.token)


def _below_statuses(rows: Sequence[Row]) -> set[int]:
    """The rows, by their identity, of lists of several that a status heads: "Stored:" above "E11C | open | ABS"."""
    found: set[int] = set()
    under = False
    for row in rows:
        if row.blank or row.finds.codes:
            under = under and not row.blank
        elif _heads_list(row):
            under = True
        elif under:
            found.add(id(row))
    return found


def _with_short_names(places: Sequence[_Place]) -> Sequence[_Place]:
    """The numbers of one shape, a short name that nobody knows behind each taken for one where known names stand so in
    others, and one or the other in nearly all."""
    short = sum(place.short for place in places)
    known = sum(place.name and not place.short for place in places)
    if not short or known < _FEW or short + known < _NEARLY * len(places):
        return places
    return [place._replace(name=place.name or place.short) for place in places]


def adopt_likewise(rows: Sequence[Row]) -> None:
    """Give the lines that are left the number at their start, where a mark cuts them as it cuts more others that begin
    with such a code, whatever stands in their other pieces. Linear.

    >>> from triage.intake.lines.rows import rows_of
    >>> found = rows_of("E6771 :: ABS :: open\\n12345 :: BCM :: stuck\\nDF670 :: EPS :: low\\nK9141 :: KQM :: high")
    >>> _ = [put(row, 0, row.text[:5]) for row in found[:3]]
    >>> adopt_likewise(found)
    >>> [code.text for code in found[3].finds.codes]
    ['K9141']
    """
    found = Counter(
        shape for row in rows if row.finds.codes and row.finds.codes[0].kind == "own"
        and (shape := shape_between(row)) is not None and not shape[1])
    left: dict[tuple[str, int], list[tuple[Row, str]]] = defaultdict(list)
    for row in rows if found else ():
        if row.blank or row.finds.codes or row.roles or row.head or len(row.text) > _LONGEST or of_other_use(row):
            continue
        for mark, pieces in _cuts(row.text):
            token = row.text[slice(*pieces[0])]
            if found[mark, 0] >= _ALL and _WHOLE.fullmatch(token) is not None and own_at(row, 0, token) is not None:
                left[mark, 0].append((row, token))
                break
    for shape, places in left.items():
        if found[shape] >= len(places):
            for row, token in places:
                put(row, 0, token)


def adopt_headed(rows: Sequence[Row], is_name: IsName) -> None:
    """Give the lines that begin with such a number it as their code where several lists of the text below the names of
    modules hold lines of one level that begin so, whatever letters the single one has. Linear.

    >>> from triage.intake.lines.rows import rows_of
    >>> found = rows_of("ABS\\nE6771   Open\\nSG587   Stuck\\n\\nBCM\\n14702\\n    Horn open\\n\\nSRS\\nDF107  Low")
    >>> adopt_headed(found, lambda name: name.isupper())
    >>> [code.text for row in found for code in row.finds.codes]
    ['E6771', 'SG587', '14702', 'DF107']
    """
    begins = {at: token for at in signs.places(rows, SIGN) if (token := _begins(rows, at))}
    alone = {at for at, row in enumerate(rows) if len(row.text) <= _LONGEST_TOKEN and at not in begins
             and not row.blank and _is_alone(row)}
    if len({*begins.values(), *(rows[at].text for at in alone)}) <= _FEW:
        return
    found: dict[tuple[outline.Level, bool], list[tuple[Row, str, bool, int]]] = defaultdict(list)
    above: dict[outline.Level, tuple[bool, int]] = {}
    head, named = -1, False
    for at, row in enumerate(rows):
        if row.blank or row.note or row.aside is not None or (at not in begins and is_remark(row.text, row.low)):
            continue
        level = outline.level_of(row)
        token = row.text if at in alone else begins.get(at)
        if token is None:
            if not row.finds.codes and (not named or level[0] <= rows[head].line.indent) and (
                    head < 0 or states.of_cell(row.low.rstrip(" :")) is None):
                # A status heads its codes below the name: "ABS", "Stored:", "17383", "    Horn open".
                head, named, above = at, is_head(row, is_name) or _is_counted(row), {}
            continue
        if level not in above:
            above[level] = named, head
        found[level, at in alone].append((row, token, *above[level]))
    told_at = {at for places in found.values() for _, _, told, at in places if told}
    styles = Counter(style for at in told_at if (style := _style(rows[at])) is not None)
    for (_, are_alone), places in found.items():
        # One that nobody lists is a heading where it has the marks of others: "- Loader arm:".
        places = [
            (row, token, told or (at >= 0 and (style := _style(rows[at])) is not None and styles[style] >= _FEW), at)
            for row, token, told, at in places]
        heads = {at: told for _, _, told, at in places}
        if are_alone and not all(told and outline.level_of(rows[at])[1] for at, told in heads.items()):
            # A number alone may be anything's, below anything but a heading with a mark of its own.
            continue
        letters = {token.rstrip("0123456789") for _, token, _, _ in places if not token.isdigit()}
        if len({token for _, token, _, _ in places}) <= _FEW or sum(heads.values()) < max(_FEW, 0.6 * len(heads)):
            continue
        if len(letters) < _FEW and all(_OF_MODULES.match(token) for _, token, _, _ in places):
            continue
        for row, token, told, _ in places:
            if told:
                put(row, 0, token)


def _style(row: Row) -> tuple[outline.Level, bool] | None:
    """The marks of a heading, none where it has neither one before it nor a colon behind."""
    level, colon = outline.level_of(row), row.text.endswith(":")
    return (level, colon) if level[1] or colon else None


def _is_counted(row: Row) -> bool:
    """Whether a row counts the codes of what it names, though nobody lists it: "Axle scale: 3 faults"."""
    stated = stated_count(row.low)
    return stated is not None and has_letter(row.text[: stated[1]])


def _begins(rows: Sequence[Row], at: int) -> str | None:
    """Such a number with which a row begins, if it may be a code: words stand behind it, or in a line of its own below
    it, further right."""
    row = rows[at]
    if row.finds.codes or row.roles or row.head or len(row.text) > _LONGEST:
        return None
    match = _LEADING.match(row.text)
    if match is None or of_other_use(row, *match.span()) or own_at(row, 0, match[0]) is None or (
            goes_on(row.low, match.end())):
        return None
    if match.end() < len(row.text):
        return match[0] if _BEHIND.match(row.text, match.end()) is not None else None
    below = rows[at + 1] if at + 1 < len(rows) else None
    told = below is not None and below.line.indent > row.line.indent and below.text[:1].isalpha()
    return match[0] if told else None


def adopt_alone(rows: Sequence[Row]) -> None:
    """Give the lines that hold nothing but such a number it as their code where a key below tells its status:
    "K4729", "  Description: relay open", "  State: stored"; where others of their bullet hold nothing but a code; or
    where its description is set in below it, as below such others or below the head of a list ("Stored faults:").
    Linear."""
    alone = [at for at, row in enumerate(rows) if len(row.text) <= _LONGEST_TOKEN and _is_alone(row)]
    coded = Counter(
        outline.level_of(row) for row in (rows if alone else ()) if len(row.finds.codes) == 1 and not row.roles
        and not row.finds.codes[0].start and row.finds.codes[0].end == len(row.text))
    for at in alone:
        row = rows[at]
        level = outline.level_of(row)
        described = coded[level] >= _FEW or (at > 0 and _heads_list(rows[at - 1]))
        if any(_status_key(below) for below in _below(rows, at)) or (level[1] and coded[level] >= _FEW) or (
                described and _is_described(row, next(_below(rows, at), None))):
            put(row, 0, row.text)


def _heads_list(row: Row) -> bool:
    """Whether a row heads a list of codes by their status."""
    return row.text.endswith(":") and not row.finds.codes and status_of_head(row.low, True)[0] is not None


def _is_described(row: Row, below: Row | None) -> bool:
    """Whether the line below a row is set in further and tells something in words."""
    return below is not None and below.line.indent > row.line.indent and below.text[:1].isalpha() and (
        ":" not in below.text)


def _is_alone(row: Row) -> bool:
    """Whether a row is nothing but such a number."""
    return not (row.finds.codes or row.roles or row.head or len(row.text) > _LONGEST_TOKEN) and (
        _WHOLE.fullmatch(row.text) is not None and own_at(row, 0, row.text) is not None)


def _below(rows: Sequence[Row], at: int) -> Iterator[Row]:
    """The lines right below one, to the next blank one, code or number alone."""
    for row in rows[at + 1 : at + 1 + _MOST_BELOW]:
        if row.blank or row.finds.codes or _is_alone(row):
            return
        yield row


def _status_key(row: Row) -> bool:
    """Whether a row is a key for a status with one behind it."""
    key, _, value = row.low.partition(":")
    return has_letter(value) and len(key) <= 30 and role_of(key.strip()) == "status"


def _cuts(text: str) -> Iterator[tuple[str, list[tuple[int, int]]]]:
    """Each mark that cuts a line into three pieces or more, and the pieces."""
    for mark, cut in _MARKS:
        if mark in text:
            ends = [match.span() for match in cut.finditer(text)][: _MOST_PIECES - 1]
            if len(ends) >= _FEW:
                starts = [0, *(end for _, end in ends)]
                yield mark, list(zip(starts, [*(start for start, _ in ends), len(text)], strict=True))


def shape_between(row: Row) -> tuple[str, int] | None:
    """The mark and the place of the piece that the only code of a row fills."""
    if len(row.finds.codes) == 1 and len(row.text) <= _LONGEST:
        code = row.finds.codes[0]
        for mark, pieces in _cuts(row.text):
            if (code.start, code.end) in pieces:
                return mark, pieces.index((code.start, code.end))
    return None


def _place(row: Row, is_name: IsName) -> _Place | None:
    """The number of a row that fills a piece of it, or begins it."""
    for mark, pieces in _cuts(row.text):
        for at, (start, end) in enumerate(pieces):
            token = row.text[start:end]
            if _WHOLE.fullmatch(token) is not None and own_at(row, start, token) is not None:
                return None if of_other_use(row) else _between(row, mark, pieces, at, is_name)
    match = _FIRST.match(row.text) if signs.of(row.low) & SIGN else None
    if match is None or of_other_use(row) or of_other_use(row, 0, match.end(1)) or own_at(row, 0, match[1]) is None:
        return None
    rest = row.text[match.end() :]
    described, said = trailing_status(rest)
    status = said is not None or tells_status(row, match.end(1))
    parts = _TO_NAME.split(described)
    last = (len(parts) > 1 and is_named(parts[-1].strip(" ()[]"), is_name)) or (
        (closing := _CLOSING.search(described)) is not None and is_named(closing[1], is_name))
    words = rest.split(" ")[:_MOST_WORDS]
    enclosed = [inside[1] for inside in _BRACKET.finditer(rest)]
    names = any(is_named(inside, is_name) for inside in enclosed) or any(
        is_named(" ".join(words[:many]), is_name) for many in range(1, len(words) + 1))
    arrow = namelist.behind_arrow(row, match.end(1), is_name)
    short = any(map(is_one_of_short, enclosed)) and not any(is_named(inside, is_name) for inside in enclosed)
    names = names or last or any(map(is_name, arrow))
    return _Place(row, 0, match[1], ("", 0), status, names, False, bool(arrow), last, short)


def _between(row: Row, mark: str, pieces: list[tuple[int, int]], at: int, is_name: IsName) -> _Place | None:
    """The number that fills a piece of a row, with what the other pieces are."""
    others = [piece for place, piece in enumerate(pieces) if place != at]
    if at and role_of(row.low[slice(*pieces[at - 1])]) in OTHER_KEYS:
        return None
    told = [states.of_cell(row.low[first:last].strip(_STRESSED)) is not None for first, last in others]
    letters = tuple(low for first, last in others if (low := row.low[first:last].strip(_ENCLOSING)).isalpha()
                    and len(low) <= _MOST_LETTERS)
    words = sum(has_letter(row.low[first:last]) for first, last in others)
    names = any(is_named(row.text[slice(*piece)], is_name) for piece, status in zip(others, told, strict=True)
                if not status)
    named, said = trailing_status(row.text[slice(*others[-1])])
    if said is not None and is_named(named.strip(" -([,"), is_name):
        # "Radio [stored]"
        told, names = [*told[:-1], True], True
    led = bool(at) and told[at - 1] and words > 1
    return _Place(row, pieces[at][0], row.text[slice(*pieces[at])], (mark, at), any(told), names, led,
                  letters=letters)


__all__ = ["adopt", "adopt_alone", "adopt_headed", "adopt_likewise", "shape_between"]
