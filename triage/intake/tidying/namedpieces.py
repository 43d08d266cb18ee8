"""Lists of codes in which one piece of each line is the name of its module: "P0562 - Voltage low - Radio [HU]",
"U0100, stored, in Radio". One mark parts the pieces of every line, whatever gaps stand in them by a slip.

Which piece it is, the lines tell together: the one that "in" leads to, or the one that holds known names, or names with
their short form in brackets, where no other does. So a name that nobody knows, and a description that speaks of another
module, are read as what they are.

>>> from code_tables import load
>>> from triage.intake.lines.rows import rows_of
>>> text = "P0562 - Voltage low - Radio\\nU0140 - BCM not heard - Loader arm\\nU0100-87 - ECM lost - ABS\\n"
>>> found = rows_of(text)
>>> adopt(found, Names(load()))
>>> [row.text[slice(*row.named)] for row in found if row.named]
['Radio', 'Loader arm', 'ABS']
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Sequence

from triage.intake.lines import namelist
from triage.intake.lines.namelist import acceptable, with_sides
from triage.intake.lines.row import Row
from triage.intake.lines.unknown import is_short
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.near import small

Span = tuple[int, int]

#: What may part the pieces of a line; one of them parts those of all.
_MARKS = (lazily(r"\s+-+\s+"), lazily(r"\s*,\s+"), lazily(r"\s+/\s+"))
_SIGNS = (" -", ",", " /")
_PLUS = lazily(r"\s\+\s")
#: Right behind the code, a name in brackets with a short form in brackets of its own, behind a mark perhaps.
_ENCLOSED = lazily(r"\s?[,;:-]?\s*(?:[\[(]([^][()]{2,60}(?:[\[(][^][()]{1,20}[\])])?)\s*[\])])")
#: A name in brackets, with a short form in brackets of its own perhaps, at the end.
_LAST = lazily(r"(?:\s{2,}|\t)[\[(]([^\W\d_][^][()]{1,40}(?:[\[(][^][()]{1,12}[\])])?)\s*[\])]\s*$")
#: A name in square brackets at the end, or before the mark of the next piece, one blank before it.
_SQUARE = lazily(r"(?<=[^\s|;,:(\[-])\s\[([^\W\d_][^][]{1,40})\]\s*(?=$|[|;,]|\s-\s|\s{2})")
_PIECE = lazily(r"[^\W\d_][^|;,:()\[\]]{0,40}$")
_APART = lazily(r"\s-\s|\s{2,}|[|;,]")
_NAMES, _MOST_LONG = 2, 2
#: Rows that bars or tabs part are tables.
_TABLES = ("|", "\t", ";", "rule")
#: Those whose pieces may hold the name beside something else.
_PARTED = ("|", ";")
_LED = lazily(r"\s*(?:in|im|dans|en|aus|from|@)(?: (?:the|der|dem|le|la|el))?\s+(?=\S)")
#: A sign for "at", or an arrow back, and the name that it leads to, with its short form perhaps.
_POINTED = lazily(r"(?:(?:\s|(?<=[\])]))@\s?|\s*<[-=]+\s*)(?P<name>[^\W\d][^()\[\]/|;,:<>@\t]{1,48}?"
                  r"(?:\s[(\[][A-Z][A-Z0-9/+-]{1,7}[\])])?)\s*(?=$|[(\[/|;,:]|\s-+\s|\s{2,})")
_ARROW = "<-"
#: A name with its short form in brackets, and one behind it.
_WITH_SHORT = lazily(r".*[^\W\d_]{2}.*\s[\[(](?=[^\])]*[A-Z])[A-Z0-9][A-Z0-9/+-]{0,8}[\])]$")
_LONG_BEHIND = lazily(r"\s-\s[^\W\d_][^:;|,(]{2,40}?(?=\s?:\s)")
#: So many lines make a list; so many of them have names in the piece, and so much more than in any other.
_FEWEST, _MOST, _NAMED, _MORE = 3, 0.8, 0.6, 0.25
#: So many listed ones, where those that nobody lists come again.
_LISTED = 0.3
_SAMPLE, _LISTS, _MOST_ADOPTED = 60, 0.3, 40
_SURE, _LIKE, _DEEPEST, _LONGEST = 85.0, 60.0, 4, 300


def adopt(rows: Sequence[Row], names: Names) -> None:
    """Set ``named`` of the rows of such lists, and take them for uncut. Linear."""
    coded = [row for row in rows if row.finds.codes]
    if any(row.entry or row.roles is not None for row in coded):
        return
    listed = [row for row in coded if _may_be(row) or (row.kind in _PARTED and _may_be(row, row.kind))]
    told = [row for row in listed if _tells(row)]
    if len(told) < _FEWEST or _are_headed(rows, {id(row) for row in listed}, {id(row) for row in told}, names):
        return
    # Codes alone below a name, as another scan of the text lists them, have no piece that names it.
    listed = told if len(told) < len(listed) and _ENCLOSED.match(told[0].text, told[0].finds.codes[0].end) else listed
    listed = _closing(_enclosed(_pointed(listed, names), names), names)
    listed = [row for row in listed if row.kind not in _PARTED]
    for mark, sign in zip(_MARKS, _SIGNS, strict=True):
        group = [row for row in listed if sign in row.text and row.named is None and _is_cut(row, mark)]
        led = any(">" in row.text for row in group)
        if len(group) < _FEWEST or led or _are_lists(group, names):
            # What arrows and other marks lead to is read where it stands.
            continue
        parts = [_parts(row, mark) for row in group]
        for row, span in zip(group, _column(group, parts, names), strict=True):
            if span is not None:
                _name(row, span)
    _adopt_names(told, names)


def _adopt_names(rows: Sequence[Row], names: Names) -> None:
    """List the names of several words that nobody knows, in this text alone: another scan may head its codes so."""
    texts = {tidy(row.text[slice(*row.named)]) for row in rows if row.named is not None}
    # Several names in one piece are parted where lists of names are read: known ones, or such as stand alone elsewhere.
    lists = {text: parts for text in texts if "," in text and len(parts := with_sides(text.split(", "))) > 1
             and all(part in texts or names.listed(part) for part in parts)}
    joint = {part for parts in lists.values() for part in parts if not names.listed(part)}
    texts = {text for text in texts if " " in text and not _PLUS.search(text) and not names.likely(text)} - lists.keys()
    for text in sorted(joint | texts)[:_MOST_ADOPTED]:
        names.adopt_whole(text)


def _are_lists(rows: Sequence[Row], names: Names) -> bool:
    """Whether several names stand behind the code in some rows: lists with marks of their own."""
    known = namelist.known(names)
    told = 0
    for row in rows[:_SAMPLE]:
        texts = [tidy(row.text[start:end]) for start, end in namelist.parts(row, known)]
        told += len(texts) > 1 and all(known(text) or names.sure(text) for text in texts)
    return told >= _LISTS * min(len(rows), _SAMPLE)


def _are_headed(rows: Sequence[Row], listed: set[int], told: set[int], names: Names) -> bool:
    """Whether the name of a module stands right above one of the first lines of such lists. ``told``: those of them
    with something behind the code."""
    above: Row | None = None
    headed = False
    for row in rows:
        if row.blank:
            continue
        if id(row) not in listed:
            headed = False
        elif above is not None and id(above) not in listed and not above.finds.codes:
            text = names.bare(tidy(above.text))
            headed = ":" not in text and names.score(text) >= _LIKE and states.of_cell(above.low) is None
        if headed and id(row) in told:
            return True
        above = row
    return False


def _tells(row: Row) -> bool:
    """Whether anything stands behind the code of a row."""
    return bool(row.text[row.finds.codes[0].end :].strip())


def _is_cut(row: Row, mark: re.Pattern[str]) -> bool:
    """Whether a mark parts what is behind the code of a row, or stands between both."""
    end = _told_end(row)
    found = mark.search(row.text, end)
    return found is not None and (row.text[end : end + 1] == " " or found.start() == end)


def _pointed(rows: list[Row], names: Names) -> list[Row]:
    """The rows but those with the name behind a sign that leads to it, where nearly all have one such: whatever names
    nobody knows among them."""
    found = [(row, _unstated(row, matches[0].span("name"))) for row in rows
             if len(matches := list(_POINTED.finditer(row.text, row.finds.codes[0].end))) == 1
             and _may_name(matches[0]["name"])]
    if len(found) < _FEWEST or len(found) < _MOST * len(rows):
        return rows
    if not any(names.score(tidy(row.text[slice(*span)])) >= _LIKE for row, span in found):
        return rows
    for row, span in found:
        _name(row, span)
    return [row for row in rows if row.named is None]


def _unstated(row: Row, span: Span) -> Span:
    """A name without the status in capitals behind it, which stands as a short form does: "Radio (INACT)"."""
    start, end = span
    opening = max(row.text.rfind(mark, start, end) for mark in "([")
    if opening > start and states.of_cell(row.low[opening:end]) is not None:
        end = opening
    return start, start + len(row.text[start:end].rstrip())


def _enclosed(rows: list[Row], names: Names) -> list[Row]:
    """The rows but those with the name in brackets right behind the code: listed, or told again among listed ones."""
    found = [(row, match.span(1)) for row in rows
             if (match := _ENCLOSED.match(row.text, row.finds.codes[0].end)) is not None
             and states.of_cell(row.low[slice(*match.span(1))]) is None]
    if len(found) < _FEWEST or len(found) < _MOST * len(rows):
        return rows
    group, spans = [row for row, _ in found], [span for _, span in found]
    if (share := _share(group, spans, names, {})) < _NAMED and (share < _LISTED or not _come_again(found, names)):
        return rows
    for row, span in found:
        _name(row, span)
    return [row for row in rows if row.named is None]


def _come_again(found: Sequence[tuple[Row, Span]], names: Names) -> bool:
    """Whether most of the names in brackets are listed or of several lines that hold no more than that, as in lists by
    status ("Stored: P0562 (ECM), B1318 (CHAIR LIFT), U0100 (CHAIR LIFT)"). Several listed ones hold a code of their
    own: "U0100 (ECM)", "U0140 (BCM)" among "U0121 (no signal)" tell whom others lost."""
    codes: defaultdict[str, set[str]] = defaultdict(set)
    for row, span in found:
        if row.text[span[1] :].strip(" )]."):
            return False
        codes[tidy(row.text[slice(*span)])].add(row.finds.codes[0].text)
    sure = {text for text in codes
            if names.listed(text) or names.score(text) >= _SURE or _WITH_SHORT.fullmatch(text) is not None}
    if sum(any(code[:1] != "U" for code in codes[text]) for text in sure) < _NAMES:
        return False
    told = sum(len(codes[text]) > 1 or text in sure or is_short(text)
               for text in (tidy(row.text[slice(*span)]) for row, span in found))
    return told >= _MOST * len(found) and all(map(_may_name, codes))


def _closing(rows: list[Row], names: Names) -> list[Row]:
    """The rows but those with the name in brackets at their end, where most have one, short, likely or told again."""
    found = _ending(rows, _LAST, names)
    if len(found) < _FEWEST or len(found) < _MOST * len(rows):
        # One blank before the bracket parts a remark as well: names are told by how many are known.
        found = _ending(rows, _SQUARE, names)
        group, spans = [row for row, _ in found], [span for _, span in found]
        if len(found) < _FEWEST or len(found) < _MOST * len(rows) or _share(group, spans, names, {}) < _LISTED or (
                _MOST_LONG * sum(_is_short_of(row, span, names) for row, span in found) >= len(found)):
            return rows
    texts = Counter(row.text[slice(*span)] for row, span in found)
    told = sum(many for text, many in texts.items() if is_short(text) or many > 1 or names.score(tidy(text)) >= _LIKE)
    if told < _NAMED * len(found) or len(texts) < _NAMES or not all(map(_may_name, texts)):
        return rows
    for row, span in found:
        _name(row, span)
    return [row for row in rows if row.named is None]


def _is_short_of(row: Row, span: Span, names: Names) -> bool:
    """Whether what is in a bracket is the short form of a name right before it: "Gearbox control [TCM]"."""
    before = _APART.split(row.text[row.finds.codes[0].end : span[0] - 1])[-1].strip()
    return _PIECE.fullmatch(before) is not None and names.score(tidy(before)) >= _LIKE


def _ending(rows: Sequence[Row], bracket: re.Pattern[str], names: Names) -> list[tuple[Row, Span]]:
    """The rows with such a bracket behind the text of their code, and the place of what is in it, no status; a module
    may be called by words for one ("Passive entry")."""
    return [(row, match.span(1)) for row in rows
            if (match := bracket.search(row.text, row.finds.codes[0].end)) is not None
            and match.start() > row.finds.codes[0].end and (
                states.of_cell(row.low[slice(*match.span(1))]) is None or names.listed(tidy(match[1])))]


def _name(row: Row, span: Span) -> None:
    """Take a place of a row for the name of its module, a long name behind the short one with it ("HLL - Headlamp left:
    low"), and the row for uncut."""
    long = _LONG_BEHIND.match(row.text, span[1]) if row.text[slice(*span)].strip().isupper() else None
    if long is not None:
        span = span[0], long.end()
    row.named, row.cells, row.kind, row.shape = span, None, "", None


def _may_be(row: Row, kind: str = "") -> bool:
    """Whether a row begins with its only code, and is no row of a table of another kind."""
    return (len(row.finds.codes) == 1 and not row.finds.codes[0].start and not row.described
            and (row.kind == kind or row.kind not in _TABLES) and not row.head and len(row.text) <= _LONGEST
            and "{" not in row.text and "<" not in row.text.replace(_ARROW, ""))


def _told_end(row: Row) -> int:
    """Where the code of a row ends, with a status in brackets behind it."""
    end = row.finds.codes[0].end
    if row.text[end : end + 2].lstrip()[:1] not in ("(", "["):
        return end
    close = row.text.find(")" if "(" in row.text[end : end + 2] else "]", end)
    return close + 1 if close > 0 and states.of_cell(row.low[end : close + 1]) is not None else end


def _parts(row: Row, mark: re.Pattern[str]) -> list[Span]:
    """The pieces behind the code of a row that are no status, a side with the name before it."""
    found: list[Span] = []
    at = row.finds.codes[0].end
    ends = [match.span() for match in mark.finditer(row.text, at)]
    for start, end in [*ends, (len(row.text), len(row.text))]:
        piece = row.low[at:start]
        if found and len(with_sides([row.text[slice(*found[-1])], row.text[at:start].strip()])) == 1:
            found[-1] = found[-1][0], start
        elif piece.strip(" ()[]") and states.of_cell(piece) is None:
            found.append((at, start))
        at = end
    return found


def _column(rows: Sequence[Row], parts: Sequence[list[Span]], names: Names) -> list[Span | None]:
    """The piece of each row that names its module; None where it has none, for all where they do not agree."""
    led = [[(match.end(), end) for start, end in spans if (match := _LED.match(row.low, start, end)) is not None
            and _may_name(row.text[match.end() : end])] for row, spans in zip(rows, parts, strict=True)]
    if sum(len(spans) == 1 for spans in led) >= _MOST * len(rows):
        return [spans[0] if len(spans) == 1 else None for spans in led]
    known: dict[str, float] = {}
    columns: list[tuple[float, list[Span | None]]] = []
    for at in (*range(_DEEPEST), *range(-1, -_DEEPEST, -1)):
        column = [spans[at] if -len(spans) <= at < len(spans) else None for spans in parts]
        if sum(span is not None for span in column) >= _MOST * len(rows):
            columns.append((_share(rows, column, names, known), column))
    if not columns:
        return [None] * len(rows)
    best, chosen = max(columns, key=lambda each: each[0])
    others = [share for share, column in columns
              if sum(one != two for one, two in zip(column, chosen, strict=True)) > (1 - _MOST) * len(rows)]
    if best < _NAMED or best < max(others, default=0.0) + _MORE:
        return [None] * len(rows)
    return [_whole(row, span, spans, names) if span is not None and _may_name(row.text[slice(*span)]) else None
            for row, span, spans in zip(rows, chosen, parts, strict=True)]


def _whole(row: Row, span: Span, spans: Sequence[Span], names: Names) -> Span:
    """A piece with the one beside it where both together are a listed name ("SRS - Airbag")."""
    at = spans.index(span)
    for first, last in zip(spans[max(at - 1, 0) : at + 1], spans[max(at, 1) : at + 2], strict=False):
        if first != last and names.listed(tidy(row.text[first[0] : last[1]])):
            return first[0], last[1]
    return span


def _share(rows: Sequence[Row], column: Sequence[Span | None], names: Names, known: dict[str, float]) -> float:
    """How much of a column is names."""
    told = 0.0
    for row, span in zip(rows, column, strict=True):
        text = tidy(row.text[slice(*span)]) if span is not None else ""
        if text not in known:
            known[text] = _worth(text, names)
        told += known[text]
    return told / len(rows)


def _worth(text: str, names: Names) -> float:
    """How much a piece looks like a name."""
    if not _may_name(text):
        return 0.0
    if _WITH_SHORT.fullmatch(text) is not None:
        return 1.0
    text = text.partition(" + ")[0]
    score = 100.0 if names.listed(text) else names.score(text)
    return 1.0 if score >= _SURE else 0.5 if score >= _LIKE else 0.0


def _may_name(text: str) -> bool:
    """Whether a piece may be a name, or several with a plus between them."""
    parts = [tidy(part) for part in text.split(" + ")]
    return all(acceptable(part) and has_letter(part) and role_of(small(part)) is None for part in parts)


__all__ = ["adopt"]
