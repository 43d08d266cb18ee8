"""Style: where this text puts the module of a code (before it, behind it, or in a heading above), by all of its lines.

No single line can tell a module's name from a description ("body control" is either). The lines of one shape vote:
the place in which most of them hold a listed name holds the module.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence, Set
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

from triage.intake.codes import pieces
from triage.intake.lines import namelist, ownstatus, shortcolumn, unknownlists
from triage.intake.lines.behind import behind, descriptions, in_brackets, may_name, text_within, width, wordy
from triage.intake.lines.row import Row
from triage.intake.lines.shapes import Shape, shape_of
from triage.intake.lines.supplyrow import stands_between
from triage.intake.lines.unknown import is_one_of_short
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words
from triage.intake.said import phases, states
from triage.intake.said.near import small
from triage.intake.scan import bracketcounts, statusheads
from triage.intake.scan.headed import headed_share
from triage.intake.words.vocabulary import ANSWERS, STATES


class Place(NamedTuple):
    """Where the module stands in rows of one shape: a cell (``cell``), the text before the code (``before``), the
    n-th piece behind the code from the left (``piece``) or from the right (negative), the first words behind it
    (``lead``), or one or more names right behind it (``many``), or nowhere (all None: the heading's). ``sure``: most
    rows hold a listed name there, so that one nobody knows may stand there too; ``bracketed``: in brackets; ``within``:
    the kinds of brackets behind the code in one of which it stands, whatever else does."""

    cell: int | None = None
    before: bool = False
    piece: int | None = None
    lead: bool = False
    tail: bool = False
    many: bool = False
    sure: bool = False
    bracketed: bool = False
    within: str = ""


HEADING = Place()


@dataclass(slots=True)
class Style:
    """What all lines together say of a text's habits."""

    places: dict[Shape, Place] = field(default_factory=dict)
    doubtful_states: bool = False
    counts_in_brackets: bool = False
    #: Shapes of rows most of which have words behind the code.
    described: set[Shape] = field(default_factory=set)
    #: A status in brackets is that of the code before it alone.
    own_brackets: bool = False
    #: By the shape of rows whose module is one of the pieces behind the code, the others hardly ever names: how many.
    widths: dict[Shape, int] = field(default_factory=dict)
    status_heads: bool = False  # a line that is a status and nothing else heads the codes below it


#: So many modules in one column are more than what a description names by chance.
_FEWEST_NAMED, _MOST_TOLD = 3, 0.9
_BRACKET = lazily(r"\s*[(\[]([^()\[\]]{2,40})[)\]]")
#: From one code of a list to the next.
_ON = lazily(r"[\s,;&+/|.-]{0,6}(?:(?:and|und|et|y)\s{1,3})?")


def study(rows: Sequence[Row], names: Names, marks: Set[int] = frozenset()) -> Style:
    """The style of a text. ``marks``: the numbers of the lines of a page's head or foot."""
    style = Style()
    groups: dict[Shape, list[Row]] = defaultdict(list)
    for row in rows:
        if row.finds.codes and not row.roles and not row.described:
            groups[shape_of(row)].append(row)
            if len(row.finds.codes) > 1 and not style.own_brackets:
                style.own_brackets = _has_own_bracket(row)
    style.described = {shape for shape, group in groups.items() if _are_described(group)}
    style.status_heads = statusheads.are_heads(rows, marks)
    headed = headed_share(rows, names, marks)
    for shape, group in groups.items():
        style.places[shape] = _place_of(shape, group, headed.get(shape, (0.0, 0)), rows, names)
        if style.places[shape].many:
            unknownlists.adopt_joined(group, names)
        if (piece := style.places[shape].piece) is not None and (many := width(group[:60], piece, names.listed)):
            style.widths[shape] = many
    _led_by_status(style, groups, names)
    _as_without_gap(style, groups)
    coded = [at for at, row in enumerate(rows) if row.finds.codes and not row.roles and not row.described][:400]
    told = [row for at in coded if _has_status(row := rows[at], _wrapped(rows, at), names, style.places[shape_of(row)])]
    lows = [row.low for row in told]
    texts = descriptions(rows)
    lows += [low for low in texts if (hits := STATES.find(low)) and hits[-1].end >= len(low.rstrip(" .,;)"))]
    kinds = {hits[-1].meaning for low in lows if (hits := STATES.find(low))}
    # Descriptions that end in such words by chance do not do so in several.
    style.doubtful_states = bool(lows) and len(lows) >= (0.55 if len(kinds) < 2 else 0.3) * (len(coded) + len(texts))
    style.counts_in_brackets = bracketcounts.agree(rows, marks)
    return style


def _led_by_status(style: Style, groups: dict[Shape, list[Row]], names: Names) -> None:
    """Where the cells before the codes hold a status in most rows, words there that name no module are one that nobody
    knows ("status 2F; U3001; cluster"): the module stands where the other rows have it."""
    for (kind, at, before), group in groups.items():
        others = groups.get((kind, at, False), [])
        if not before or not kind or at < 1 or len(others) < len(group):
            continue
        if style.places[kind, at, before].cell not in (None, at - 1):
            # The others have no name of their own: "15 | Radio | stored | B1000" above "   |   | stored | U0140".
            continue
        if all(row.cells and states.of_cell(row.cells[at - 1].low) is not None for row in others):
            cells = [tidy(row.cells[at - 1].text) for row in group if row.cells]
            if cells and _share(cells, names) == 0.0:
                style.places[kind, at, before] = style.places[kind, at, False]


def _as_without_gap(style: Style, groups: dict[Shape, list[Row]]) -> None:
    """A second space behind the code in a few rows makes no column: the module stands where the others have it."""
    plain, apart = ("", -1, False), groups.get(("gap", 0, False), [])
    few = 0 < len(apart) < len(groups.get(plain, ())) and all(len(row.cells or ()) == 2 for row in apart)
    if few and style.places[plain] not in (HEADING, Place(lead=True)):
        style.places["gap", 0, False] = style.places[plain]


def _has_own_bracket(row: Row) -> bool:
    """Whether a code that is not the last of its list has a status of its own in brackets."""
    if "(" not in row.text and "[" not in row.text:
        return False
    for code, following in pairwise(row.finds.codes):
        match = _BRACKET.match(row.low, code.end)
        if match is not None and _ON.fullmatch(row.low, match.end(), following.start) is not None and (
                states.of_cell(match[1]) is not None):
            return True
    return False


def _are_described(group: Sequence[Row]) -> bool:
    """Whether most of several rows hold one code with words behind it."""
    tails = [row.low[row.finds.codes[0].end :] for row in group if len(row.finds.codes) == 1]
    return len(group) >= 3 and sum(len(plain_words(tail)) >= 2 for tail in tails) >= 0.6 * len(group)


def _tell_themselves(group: Sequence[Row], place: Place) -> bool:
    """Whether rows with cells name several modules themselves, so that one name above them all is but a title; short
    words that nobody knows may be parts of it."""
    if place.cell is None or place.sure:
        return False
    told = {small(row.cells[place.cell].text) for row in group if row.cells and place.cell < len(row.cells)}
    return len(told) >= _FEWEST_NAMED


def _one_below_words(rows: Sequence[Row], group: Sequence[Row], names: Names) -> bool:
    """Whether the only row of its shape stands right below a line of words that may be a name nobody knows, and holds
    no name but one that descriptions use too ("Crane interface" above "P2503 charging")."""
    if len(group) != 1:
        return False
    at = next((at for at, row in enumerate(rows) if row is group[0]), 0)
    above = next((row for row in reversed(rows[max(at - 2, 0) : at]) if not stands_between(row.low)), None)
    if above is None or above.blank or above.finds.codes or above.head or above.cells:
        return False
    if len(above.text.split()) > 5 or has_digit(above.text) or ":" in above.text or ANSWERS.find(above.low):
        return False
    if above.text.endswith((".", "!", "?", ",")) or STATES.find(above.low) or phases.find(above.low) is not None:
        return False
    return not any(sure for _, _, sure in names.find(group[0].low[group[0].finds.codes[0].end :]))


def _wrapped(rows: Sequence[Row], at: int) -> list[str]:
    """The lines below a row with a code up to the next code or blank line, the first and the first two: what may
    have been wrapped."""
    found: list[str] = []
    for row in rows[at + 1 : at + 3]:
        if row.blank or row.finds.codes or len(row.low) > 120:
            break
        found.append(f"{found[-1]} {row.low}" if found else row.low)
    return found


def _has_status(row: Row, wrapped: list[str], names: Names, place: Place) -> bool:
    """Whether the row ends or begins with a status, or holds one on its own, its module's name left out; or whether
    what was wrapped off it ends with one."""
    code = row.finds.codes[-1]
    tail = row.low[code.end :].rstrip(" .,;|)]*")
    if len(tail) > 200:
        return False
    joined = [f"{tail} {more}".rstrip(" .,;|)]*") for more in wrapped]
    if any((hits := STATES.find(text)) and hits[-1].end >= len(text) for text in joined):
        return True
    if place.tail:
        found = names.find(tail)
        tail = tail[: found[-1][0]].rstrip() if found else tail
    if not STATES.find(tail):
        return False
    parts = [small(part) for _, part in (behind(row) if place.piece is not None else [(0, tail)])]
    named = wordy(row) if place.piece is not None else []
    if place.piece is not None and -len(named) <= place.piece < len(named):
        parts.remove(small(named[place.piece][1]))
    if place.within and (inner := text_within(row, place.within)) is not None:
        parts = [row.low[code.end : inner[0] - 1], row.low[inner[0] + len(inner[1]) + 1 :]]
    if place.many:
        start, end = namelist.zone(row, namelist.known(names))
        parts = [row.low[code.end : start], row.low[end:].lstrip(" )]")]
    return any(_at_its_end(part) for part in parts)


def _at_its_end(text: str) -> bool:
    """Whether a text is a status, starts or ends with one, or holds one between soft marks."""
    hits = STATES.find(text)
    if not hits:
        return False
    lead, rest = text[: hits[0].start].strip(" -,;:|([/"), text[hits[-1].end :].strip(" -,;:|)]/.")
    return not lead or not rest or any(states.of_cell(piece) is not None for _, piece in pieces.soft_pieces(text))


def _place_of(
    shape: Shape, group: Sequence[Row], headed: tuple[float, int], rows: Sequence[Row], names: Names
) -> Place:
    """Where rows of one shape put the module; ``headed``: the share of them below headings, and how many of these."""
    share, headings = headed
    under = share >= 0.5 and not shape[2]
    within = None if shape[2] else _within(group, names, under)
    if within is not None:
        return within
    if under and headings != 1:
        # What is told behind the codes need not be looked at: many names to try.
        return HEADING
    place = _place(shape, group, names)
    if (under and not _tell_themselves(group, place)) or (not shape[2] and _one_below_words(rows, group, names)):
        return HEADING
    if place is HEADING and not shape[2] and _share_behind_words(group, names) >= _MOST_TOLD:
        # "P1602  Supply interrupted [TCU]  present"
        return Place(within="w")
    return place


def _share_behind_words(group: Sequence[Row], names: Names) -> float:
    """The share of rows that hold a name in the brackets behind their words."""
    told = [span for row in group[:60] if (span := text_within(row, "w")) is not None]
    return _share([tidy(text) for _, text in told], names) * len(told) / min(len(group), 60) if told else 0.0


def _within(group: Sequence[Row], names: Names, under: bool) -> Place | None:
    """The kinds of brackets behind the codes that hold a name in most rows; descriptions have some of them too."""
    for marks, least in (("<{/", 0.5), ("[", 0.9)):
        told = [(row, span) for row in group[:60] if (span := text_within(row, marks)) is not None]
        usual = any(row.text[span[0] - 1] in "[/" for row, span in told)
        if len(told) < 0.6 * min(len(group), 60) or (usual and (under or len(told) < _FEWEST_NAMED)):
            continue
        share = _share([tidy(text) for _, (_, text) in told], names)
        if share >= least or (share and not usual and not under):
            return Place(within=marks)
    return None


def _place(shape: Shape, group: Sequence[Row], names: Names) -> Place:
    """Where rows of one shape put the module."""
    kind, at, before = shape
    sample = group if len(group) <= 60 else group[:: max(1, len(group) // 60)]
    if before:
        return _place_before(kind, at, sample, names)
    if kind and len({len(row.cells or ()) for row in sample}) == 1:
        best = _best_cell(sample, names, skip=at)
        if best is not None:
            return Place(cell=best)
        if (short := shortcolumn.cell(sample, at, names.listed)) is not None:
            return Place(cell=short, sure=True)
    return _place_behind(kind, sample, names)


def _place_before(kind: str, at: int, sample: Sequence[Row], names: Names) -> Place:
    """Text stands before the code: the module, unless names stand elsewhere and none there."""
    if kind and at > 0:
        inside = [
            tidy(strip_links(row.text[row.cells[at].start : row.finds.codes[0].start])) for row in sample if row.cells
        ]
        if _share(inside, names) >= 0.5:
            return Place(before=True)
        best = _best_cell(sample, names, skip=at)
        if best is not None:
            return Place(cell=best)
        wordy = [index for index in range(at) if any(row.cells and may_name(row.cells[index].text) for row in sample)]
        # No listed name anywhere: the first column of words is the likelier one, if it is short and repeats.
        texts = [row.cells[wordy[0]].text for row in sample if row.cells] if wordy else []
        if texts and max(len(text.split()) for text in texts) <= 6:
            return Place(cell=wordy[0])
        return HEADING
    texts = [tidy(strip_links(row.text[: row.finds.codes[0].start])) for row in sample]
    share = _share(texts, names)
    if share >= 0.3:
        return Place(before=True)
    behind = _place_behind(kind, sample, names)
    # "UCM - P0563 (generator control)": what short names head is described in brackets.
    told = all(map(is_one_of_short, texts)) and all(
        row.low[states.leading(row.low, row.finds.codes[0].end) :].lstrip()[:1] == "(" for row in sample)
    return Place(before=True) if told or behind == HEADING else behind


def _best_cell(sample: Sequence[Row], names: Names, skip: int) -> int | None:
    """The cell in which at least half of the rows hold a module's name, the best of them."""
    width = max((len(row.cells or ()) for row in sample), default=0)
    best, best_share, best_words, best_filled = None, 0.0, 0.0, 0
    for index in range(width):
        if index == skip:
            continue
        cells = [row.cells[index] for row in sample if row.cells and index < len(row.cells)]
        texts = [cell.text[: ownstatus.name_end(cell.low)] for cell in cells if cell.text]
        if not texts or len(texts) < 0.2 * len(sample):
            continue
        share = _share([tidy(text) for text in texts], names)
        length = sum(len(text.split()) for text in texts) / len(texts)
        # Titles speak of modules too ("left window motor"): of two that are full of names the shorter holds the module,
        # but not where it is empty in rows in which the other is not: the name once more in short.
        shorter = length < 0.6 * best_words and len(texts) >= 0.9 * best_filled
        if share > best_share + 0.05 or (share >= best_share - 0.05 and shorter):
            best, best_share, best_words, best_filled = index, share, length, len(texts)
    return best if best_share >= 0.5 else None


def _place_behind(kind: str, sample: Sequence[Row], names: Names) -> Place:
    """The module among the pieces behind the code, from the left or the right; or its first words, or its last."""
    if namelist.behind_arrows(sample, names):
        return Place(many=True, sure=True)
    tails = [[tidy(piece) for _, piece in wordy(row)] for row in sample]
    deepest = max((len(tail) for tail in tails), default=0)
    best, best_share, best_words, most_words = HEADING, 0.45, 0, 0
    for index in [*range(min(deepest, 5)), *range(-1, -1 - min(deepest, 4), -1)]:
        texts = [tail[index] for tail in tails if (len(tail) > index if index >= 0 else len(tail) >= -index)]
        if len(texts) < 0.5 * len(sample):
            continue
        share = _share(texts, names) * len(texts) / len(sample)
        length = sum(len(text.split()) for text in texts)
        most_words = max(most_words, length) if share >= 0.6 else most_words
        if share > best_share + 0.02 or (share >= best_share - 0.02 and length < 0.6 * best_words):
            best, best_share, best_words = Place(piece=index, sure=share >= 0.6), share, length
    if best.piece is not None and _are_bracketed(best.piece, sample):
        best = best._replace(bracketed=True)
    listed = namelist.share(sample, names)
    title = most_words >= 3 * len(sample) and best_words < 0.6 * most_words
    if listed >= 0.5 and not title and (listed >= best_share - 0.02 or best is HEADING):
        return Place(many=True, sure=True)
    short = shortcolumn.at(sample, names.listed) if best is HEADING else None
    if short is not None and _are_bracketed(short, sample):
        return Place(piece=short, sure=True)
    if best is HEADING and not kind:
        leads, lasts = zip(*(_edges(row, names) for row in sample), strict=True)
        if sum(leads) >= 0.6 * len(sample) and len(sample) >= 2:
            return Place(lead=True)
        if sum(lasts) >= 0.6 * len(sample) and len(sample) >= 2:
            return Place(tail=True)
    return Place(piece=short, sure=True) if short is not None else best


def _are_bracketed(at: int, sample: Sequence[Row]) -> bool:
    """Whether a piece behind the code stands in brackets in most of several rows."""
    tails = [(row, tail) for row in sample if -len(tail := wordy(row)) <= at < len(tail)]
    return len(tails) >= 3 and sum(in_brackets(row, *tail[at]) for row, tail in tails) >= 0.6 * len(sample)


def _edges(row: Row, names: Names) -> tuple[bool, bool]:
    """Whether the running text behind the code starts, or ends, with a listed name."""
    code = row.finds.codes[0]
    tail = row.low[code.end :]
    found = names.find(tail) if len(tail) <= 300 else []
    if not found:
        return False, False
    lead = not tail[: found[0][0]].strip(" -:,;([")
    rest = tail[found[-1][1] :]
    last = states.of_cell(rest) is not None or not rest.strip(" -:,;)].")
    spoken = re.search(r"(?:with|to|from|by|of|mit|zu|von|avec|con|de|du)\s+(?:the\s+)?$", tail[: found[-1][0]])
    return lead and bool(tail[found[0][1] :].strip()), last and spoken is None


def _share(texts: Sequence[str], names: Names) -> float:
    """The share of ``texts`` that are module names: listed ones first, likeness only where those leave it open."""
    filled = [names.bare(text) for text in texts if text]
    if not filled:
        return 0.0
    listed = sum(names.listed(text) for text in filled)
    if listed == len(filled):
        return 1.0
    asked = 0
    scores: dict[str, bool] = {}
    for text in filled:
        if text not in scores:
            if asked >= 12:
                continue
            asked += not names.listed(text)
            scores[text] = names.score(text) >= 60.0
    judged = [scores[text] for text in filled if text in scores]
    return sum(judged) / len(judged)
