"""Where the name of a module stands in a row with codes: behind "in" or "@", in its column, before the code, or in a
piece behind it, by the style of the text."""

from __future__ import annotations

from triage.intake.lines import namelist, ownstatus
from triage.intake.lines.behind import in_brackets, text_within, wordy
from triage.intake.lines.row import Row
from triage.intake.lines.shapes import shape_of
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links, trailing_status
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words, word_set
from triage.intake.said import states
from triage.intake.said.near import small
from triage.intake.scan.context import Context
from triage.intake.scan.style import Place

IN = lazily(
    r"[\s,]*(?:(?:stored|pending|current|confirmed|present|active|permanent|intermittent|in history|in memory|"
    r"not present|set|logged)\s+)?(?:in|im|dans|en|from|out of|aus|by|@)\s+(?!(?:memory|history)(?![a-z]))"
    r"(?:the\s+|dem\s+|der\s+|le\s+|la\s+|el\s+|l')?"
)
#: What leads to a name, right before it.
#: A number in brackets is surely an address where it is written as one, or where a mark ends the name with it.
_ADDRESS = lazily(
    r"\s?[(\[]\s?(?:(?:0x|\$|@)[0-9a-f]{1,4}h?\s?[)\]]|(?=[a-f]*[0-9])[0-9a-f]{1,3}h?\s?[)\]](?=\s?:|\s+[-|>/]))")
_LEAD = lazily(r"(?<![a-z])(?:in|im|dans|en|aus|from|@)(?: (?:the|der|dem|le|la|el))?\s+$")
#: Words of a name that nobody knows.
_MOST_WORDS = 3
_IN_WORDS = word_set("in im dans en from out aus by")
_NAME_STOP = lazily(
    r"[:;(\[|]|\s-\s|,\s(?!(?:left|right|front|rear|links|rechts|vorn|hinten|gauche|droite|"
    r"avant|arriere)\b)"
)


_BOTH = lazily(r"[A-Z][A-Z0-9]{1,5} - ([^:;|,(]{3,40}?)(?=\s?:)")
_DASH_BEFORE, _DASH = lazily(r"\s-+\s+$"), lazily(r"\s+-+\s+")


def span(context: Context, row: Row, place: Place) -> tuple[int, int]:
    """Where in the row's text the module's name stands by the style of the text."""
    code = row.finds.codes[0]
    if row.entry:
        return 0, 0
    if place.within and (inner := text_within(row, place.within)) is not None:
        return inner[0], inner[0] + len(inner[1])
    if "@" in row.text and (marked := _behind_at(context, row, code.end)) is not None:
        return marked
    leads = code.start == 0 or (row.kind == "gap" and not strip_links(row.text[: code.start]))
    if leads and (inside := behind_in(context, row, code.end)) is not None:
        return inside
    if place.cell is not None and row.cells and place.cell < len(row.cells):
        cell = row.cells[place.cell]
        return cell.start, cell.start + ownstatus.name_end(cell.low, context.translated)
    if place.before:
        begin = 0
        if row.cells:
            begin = next(
                (cell.start for cell in row.cells if cell.start <= code.start < max(cell.end, cell.start + 1)), 0
            )
            if not strip_links(row.text[begin : code.start]):
                begin = 0
        text, _ = trailing_status(row.text[begin : code.start])
        if context.names.listed(tidy(strip_links(row.text[begin : code.start]))):
            # "direction active" is a name, its last word no status.
            return begin, code.start
        return begin, begin + len(text)
    if place.piece is not None:
        tail = wordy(row)
        if place.bracketed and len(enclosed := [piece for piece in tail if in_brackets(row, *piece)]) == 1:
            return enclosed[0][0], enclosed[0][0] + len(enclosed[0][1].rstrip())
        if -len(tail) <= place.piece < len(tail):
            return _with_neighbour(context, row, tail, place.piece % len(tail))
        return 0, 0
    if place.lead or place.tail:
        found = context.names.find(row.low[code.end :])
        if found and place.lead and not row.low[code.end : code.end + found[0][0]].strip(" -:,;(["):
            return code.end + found[0][0], code.end + found[0][1]
        if found and place.tail:
            return code.end + found[-1][0], code.end + found[-1][1]
    return 0, 0


def set_off_behind(context: Context, row: Row) -> bool:
    """Whether dashes part the code of a row from what stands before it and from a name behind it, or a name stands in
    square brackets behind the code and its status: "U0415 stored [Radio] No message from ABS"."""
    code = row.finds.codes[0]
    dashed = _DASH.match(row.text, code.end) if _DASH_BEFORE.search(row.text, 0, code.start) is not None else None
    if dashed is None and "[" not in row.text:
        return False
    places = namelist.parts(row, namelist.known(context.names))
    if dashed is not None:
        return bool(places) and not row.text[dashed.end() : places[0][0]].strip()
    if not places or code.start or row.text[places[0][0] - 1] != "[":
        return False
    return states.of_cell(row.low[code.end : places[0][0] - 1]) is not None


def with_lead(row: Row, place: tuple[int, int]) -> tuple[int, int]:
    """The place of a name with the word that leads to it."""
    lead = _LEAD.search(row.low, max(0, place[0] - 12), place[0])
    return (lead.start() if lead is not None else place[0]), place[1]


def with_address(row: Row, place: tuple[int, int]) -> tuple[int, int]:
    """The place of a name behind its code with the address in brackets between it and a mark: "C0035 - ABS (21): speed
    sensor". It is no failure type, which stands with the code."""
    match = _ADDRESS.match(row.low, place[1]) if place[1] > row.finds.codes[0].end else None
    return (place[0], match.end()) if match is not None else place


def _with_neighbour(context: Context, row: Row, tail: list[tuple[int, str]], at: int) -> tuple[int, int]:
    """The piece ``at``, with the one before or behind it where both together are a listed name ("seat, rear left")."""
    start, end = tail[at][0], tail[at][0] + len(tail[at][1])
    for other in (at - 1, at + 1):
        if 0 <= other < len(tail):
            first, last = min(start, tail[other][0]), max(end, tail[other][0] + len(tail[other][1]))
            if context.names.listed(tidy(row.text[first:last])):
                return first, last
    return start, end


def behind_in(context: Context, row: Row, end: int) -> tuple[int, int] | None:
    """The place of a module's name behind "in": "P0562 in engine control: low, stored"."""
    rest = row.low[end:]
    if _IN_WORDS.isdisjoint(plain_words(rest)) and "@" not in rest:
        return None
    lead = IN.match(row.low, states.leading(row.low, end)) or IN.match(row.low, end)
    if lead is None:
        return None
    if (whole := _short_and_long(context, row, lead.end())) is not None:
        return whole
    stop = _NAME_STOP.search(row.text, lead.end())
    for last in (stop.start() if stop is not None else len(row.text), None):
        if last is not None and context.names.score(tidy(row.text[lead.end() : last])) >= 60.0:
            return lead.end(), last
    found = context.names.find(row.low[lead.end() : lead.end() + 80])
    if found and found[0][0] == 0:
        return lead.end(), lead.end() + found[0][1]
    if stop is not None and stop[0] == ":" and shape_of(row) in context.style.described:
        # "U0208 in KQM: lost messages" among others that are told so.
        name = tidy(row.text[lead.end() : stop.start()])
        told = states.of_cell(small(name)) is not None or role_of(small(name)) is not None or has_digit(name)
        return None if told or len(name.split()) > _MOST_WORDS else (lead.end(), stop.start())
    return None


def _short_and_long(context: Context, row: Row, at: int) -> tuple[int, int] | None:
    """The place of a short name and the long one behind a dash, before the colon of a description: "P0562 in HLL -
    Headlamp left: low"."""
    both = _BOTH.match(row.text, at)
    return both.span() if both is not None and context.names.score(tidy(both[1])) >= 60.0 else None


def _behind_at(context: Context, row: Row, end: int) -> tuple[int, int] | None:
    """The place of a module's name behind the last "@": "C0035 wheel speed sensor @ ABS current"."""
    at = row.text.rfind("@", end) + 1
    if at <= 0 or not row.text[at:].strip():
        return None
    at += len(row.text[at:]) - len(row.text[at:].lstrip())
    if (whole := _short_and_long(context, row, at)) is not None:
        return whole
    text, _ = trailing_status(row.text[at:])
    if context.names.score(tidy(text)) >= 60.0:
        return at, at + len(text)
    found = context.names.find(row.low[at:])
    return (at, at + found[0][1]) if found and found[0][0] == 0 else None


__all__ = ["IN", "behind_in", "span"]
