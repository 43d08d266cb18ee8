"""Lines that a mail program wrapped at one width, put together again where a line is full and breaks off within a name,
a bracket, an answer or a list.

A line is full where the first word of the next would not have fitted behind it: none of the text is longer than that.

>>> from triage.intake.lines.rows import rows_of
>>> names = {"electric power steering", "abs"}.__contains__
>>> said = "U2101:01; Control module configuration; Electric\\npower steering; pending\\nC0035; Sensor; ABS; stored"
>>> rows = rows_of(said)
>>> [row.text for row in joined(rows, width_of([row.line for row in rows]), names)]
['U2101:01; Control module configuration; Electric power steering; pending', 'C0035; Sensor; ABS; stored']
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, takewhile

from triage.intake.lines import goingon
from triage.intake.lines.codeplaces import address_end
from triage.intake.lines.glue import lines_glued
from triage.intake.lines.goingon import fits, prefix
from triage.intake.lines.pages import is_page_count, page_marks, with_blanks
from triage.intake.lines.recut import is_as_pasted
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.said import states, volts
from triage.intake.said.answers import named_answer, spoken
from triage.intake.said.counts import stated_count
from triage.intake.tidying.namesbelow import names_begin
from triage.intake.words.volt_words import LOWEST, LOWEST_FILLED

_CODE = lazily(
    r"(?<![a-z0-9])(?:[pcbu][ -]?[0-3o][0-9a-fo]{3}(?:(?:[-: ]?| ftb )[0-9a-f]{2})?|"
    r"spn[ :=]{0,2}[0-9]{1,7}.{0,4}fmi[ :=]{0,2}[0-9]{1,2})(?![a-z0-9])"
)
#: What a sentence before the last name of a line ends with.
_TURNS = (". ", " then ", " next ", ", ")
#: What goes on with a code above.
_ONE_MORE = lazily(r"(?:and|und|et|y|plus|&|\+) ")
#: What leads from a code to the next one, at the end of a line.
_LEADS_ON = lazily(r"[\s,](?:and|und|et|y|plus|sowie|&|\+)$")
_PIECE = lazily(r"\s+[-(]|\s{2,}|[:;,(]")
_COLUMN = lazily(r"\s{2,}")
_LED_BY_ONE = lazily(r"\s?(?:-|:|\||;)\s")
_QUOTED = lazily(r'"[^"]*"')
_TIGHT = lazily(r"[;|][^ ]|,[^ 0-9]|\t")
_ENCLOSED = lazily(r"[(\[]([^()\[\]]{3,60})[)\]]")
_COUNT = lazily(r"\s*[(\[][0-9]{1,3}[)\]]$")
_POINT = lazily(r"(?:point|dot|komma|virgule|coma|punto) [a-z0-9]")
_ADDRESS = lazily(r"[(\[](?:0x|address |addr |sa |id )?[0-9a-f]{1,4}h?[)\]](?=\s*(?:$|[,;.|:]))")
#: The short name of a module behind the long one above, before the next piece.
_SHORT_NAME = lazily(r"[(\[][a-z][a-z0-9/-]{1,6}[)\]]\s*[,;]\s")
#: Lines that narrow were wrapped where the whole list tells that.
_NARROWEST, _NARROW, _WIDEST, _LONGEST = 36, 44, 80, 1200
_MOST_WORDS = 4
#: The words behind a code stand no further left.
_BEHIND = 7
_FEWEST_CODED, _FEWEST_RESTS, _FEWEST_CELLS, _MOST = 3, 2, 3, 0.8
_LED, _DOTS = 0.7, "....."
_BULLETS = ("- ", "* ", "\u2022 ", "+ ")


def width_of(found: Sequence[Line]) -> int:
    """The width of the widest line as it was pasted; 0 where nothing can have been wrapped."""
    return _wrapped_at([_width(line) for line in found if not is_page_count(line.low)])


def _wrapped_at(widths: Sequence[int]) -> int:
    width = max(widths, default=0)
    return width if _NARROWEST <= width <= _WIDEST else 0


def joined(rows: Sequence[Row], width: int, is_name: IsName) -> list[Row]:
    """The rows, those put together that were wrapped at a width, or those of codes at that of the widest of them: what
    stands above a list may be wider. ``is_name``: listed names."""
    # A line that was put together before is wider than any was pasted.
    coded = [size for row in rows if _CODE.search(row.low) and ((size := _width(row.line)) <= width or not width)]
    of_codes = _wrapped_at(coded) if len(coded) >= _FEWEST_CODED else width
    if not (width or of_codes):
        return list(rows)
    kept: list[Row] = []
    last, again, place = 0, False, -1
    marks = page_marks(rows, is_name)
    pages = with_blanks([row.blank for row in rows], {at for at, row in enumerate(rows) if row.line.number in marks})
    listed = _rests_in_lists(rows, of_codes, pages, is_name)
    bulleted = _rests_below_bullets(rows, width or of_codes)
    ruled = {at for at, (row, below) in enumerate(pairwise(rows)) if _is_underlined(row, below)}
    led = {at for at, row in enumerate(rows) if _is_led(row)}
    led = led if len(led) > _LED * sum(bool(row.finds.codes) for row in rows) else set()
    for at, row in enumerate(rows):
        if at in pages:
            kept.append(row)
            continue
        above = kept[place] if place >= 0 else None
        bare = row.line.text[prefix(row.line) :].rstrip()
        rest = place > 0 and _coded_first(kept[place - 1].low) and not goingon.ends_with_status(kept[place - 1].low)
        most = of_codes if above is not None and _CODE.search(above.low) is not None else width or of_codes
        may_join = above is not None and at not in led and at not in ruled and _may_join(above, row)
        may_join = may_join and above is not None and not _is_filled(above, row)
        if above is not None and may_join and (at in bulleted or _lists_on(above, row) or _hangs(
                above.line, row.line, is_name) or (
                last <= most and not fits(last, _unbroken(bare), most) and (
                    at in listed or ((most >= _NARROW or _surely(above.low, row.low)) and _goes_on(
                        above.line, row.line, is_name, again, rest))))):
            again = True
            # Where columns are parted by blanks, what goes on in no small letters and ends no status begins a cell.
            cell = at in listed and "  " in above.text and not bare[:1].islower() and not _spans(above.low, row.low)
            line = lines_glued(above.line, row.line, "  " if cell else " ", start=prefix(row.line))
            kept[place] = Row(line, line.text[above.start :], above.start)
        else:
            again, place = False, len(kept)
            kept.append(row)
        last = _width(row.line)
    return kept


def _is_underlined(row: Row, below: Row) -> bool:
    """Whether a row is a heading: a line of one mark as long as itself stands below it."""
    mark, size = below.text[:1], len(row.text)
    return bool(row.text) and not mark.isalnum() and len(below.text) == size > 2 and below.text == mark * size


def _is_led(row: Row) -> bool:
    """Whether a name and a colon, or a letter, lead to the first code of a row: where most do, each begins an entry."""
    lead = row.text[: row.finds.codes[0].start].rstrip() if row.finds.codes else ""
    return lead.endswith(":") or len(lead) == 1


def _unbroken(text: str) -> str:
    """A text whose code, if it begins with one, is one word: nothing is wrapped within it."""
    code = _CODE.match(text.lower())
    return text if code is None else "-" * code.end() + text[code.end() :]


def _rests_in_lists(rows: Sequence[Row], width: int, pages: set[int], is_name: IsName) -> set[int]:
    """The places of the lines without a code at their start in lists whose other lines all have one there, where each
    of them stands below a full line."""
    found: set[int] = set()
    blanks = [at for at, row in enumerate(rows) if row.blank and at not in pages]
    for start, end in pairwise([-1, *blanks, len(rows)]):
        coded = [at for at in range(start + 1, end) if _coded_first(rows[at].low)]
        if len(coded) < _FEWEST_CODED:
            continue
        heads = set(coded)
        rests = [at for at in range(coded[0] + 1, end) if at not in heads and at not in pages]
        # Behind the last code stands what ends the scan as well.
        within = [at for at in rests if at < coded[-1] and not _answers(rows[at])]
        if any(prefix(rows[at].line) < prefix(rows[coded[0]].line) for at in within):
            # Further left than the codes stand the names of their modules.
            continue
        if len(within) >= _FEWEST_RESTS and all(_is_rest(rows, at, width, is_name) for at in within):
            found.update(within)
            found.update(takewhile(
                lambda at: _is_rest(rows, at, width, is_name) and named_answer(rows[at].low) is None,
                rests[len(within) :],
            ))
    return found


def _rests_below_bullets(rows: Sequence[Row], width: int) -> set[int]:
    """The places of the lines without a bullet in lists whose others all have one before the name of a module with its
    codes or its answer, where each of them stands below a full line."""
    found: set[int] = set()
    blanks = [at for at, row in enumerate(rows) if row.blank]
    for start, end in pairwise([-1, *blanks, len(rows)]):
        first = [rows[at].line.text[prefix(rows[at].line) :][:2] for at in range(start + 1, end)]
        marked = [at for at, mark in enumerate(first, start + 1) if mark in _BULLETS]
        if len(marked) < _FEWEST_CODED or len({first[at - start - 1] for at in marked}) > 1:
            continue
        telling = sum(not _coded_first(row.low) and bool(_CODE.search(row.low) or spoken(row.low))
                      for row in (rows[at] for at in marked))
        rests = [at for at in range(marked[0] + 1, end) if at not in set(marked)]
        if telling < _MOST * len(marked) or len(rests) < _FEWEST_RESTS or any(
                goingon.STARTED.match(rows[at].line.low, prefix(rows[at].line)) for at in rests):
            continue
        if not any(fits(_width(rows[at - 1].line), rows[at].line.text.strip(), width) for at in rests):
            found.update(rests)
    return found


def _answers(row: Row) -> bool:
    """Whether a row tells what a module answered, its name in a column of its own."""
    return _COLUMN.search(row.low) is not None and named_answer(row.low) is not None


def _is_rest(rows: Sequence[Row], at: int, width: int, is_name: IsName) -> bool:
    """Whether a line may be the rest of the full one above it."""
    line, before = rows[at].line, at - 1
    while before and (rows[before].blank or is_page_count(rows[before].low)):
        before -= 1
    lead = prefix(line)
    bare = line.text[lead:].rstrip()
    name = _COUNT.sub("", bare.strip(" :"))
    if lead > prefix(rows[before].line) or goingon.STARTED.match(line.low, lead) or is_name(name) or (
            _are_rows(rows[before].low, rows[at].low)):
        return False
    if stated_count(rows[at].low) is not None or is_name(rows[at].text[address_end(rows[at]) :].strip(" :")):
        # "5F - Brakes (2 faults)", "5F - Brakes" heads the codes below it.
        return False
    if name != bare.strip(" :") and goingon.ends_with_status(rows[before].low):
        # A count behind a name that nobody knows.
        return False
    if "  " in bare and _CODE.search(line.low) is not None:
        # A row of a table: its code stands in the column of the others.
        return False
    cell = _COLUMN.split(bare, maxsplit=1)
    if len(cell) > 1 and (is_name(cell[0].strip(" :")) or named_answer(line.low[lead:].rstrip()) is not None):
        # A name in a column of its own: "Climate      no faults".
        return False
    return not fits(_width(rows[before].line), bare, width)


def _width(line: Line) -> int:
    """The width of a line as it was pasted, without the marks of a quote."""
    begin, end = line.span(0, len(line.text.rstrip()))
    return end - begin - prefix(line)


def _may_join(above: Row, row: Row) -> bool:
    """Whether two rows stand as they were pasted, in no columns, and say nothing that was read before."""
    return all(
        each.text and each.aside is None and not each.note and is_as_pasted(each) and "\t" not in each.line.text
        for each in (above, row)
    ) and (
        above.line.text.rstrip().endswith(above.text.rstrip()))


def _is_filled(above: Row, row: Row) -> bool:
    """Whether dots fill the line above up to what stands at its right edge: it is wide without being too long."""
    return _DOTS in above.text and row.line.indent <= above.line.indent and above.text.rstrip()[-1:] != "."


def _lists_on(above: Row, row: Row) -> bool:
    """Whether a line with codes ends with "and", and the next begins with one more."""
    return _LEADS_ON.search(above.low.rstrip()[-_BEHIND:]) is not None and _CODE.match(row.low) is not None and (
        _CODE.search(above.low) is not None)


def _hangs(above: Line, line: Line, is_name: IsName) -> bool:
    """Whether a line set in further than the code above is the rest of its description, with the status."""
    low, below = above.low[prefix(above) :].rstrip(), line.low[prefix(line) :].rstrip()
    if prefix(line) <= prefix(above) or goingon.STARTED.match(below) or not line.text[prefix(line) :][:1].islower():
        return False
    return not _ends_with_code(low) and len(low) <= _LONGEST and _ends_with_its_status(low, below, is_name)


def _ends_with_its_status(low: str, below: str, is_name: IsName) -> bool:
    """Whether a line ends with the status that the code above lacks, behind words of its description."""
    return _coded_first(low) and not goingon.ends_with_status(low) and goingon.ends_with_status(below) and not (
        states.leading(below.partition(":")[2].strip() or below, 0) or _CODE.search(below) is not None
        or _begins_with_name(low, below, is_name))


def _begins_with_name(low: str, below: str, is_name: IsName) -> bool:
    """Whether a line begins with a name that is not the end of one above."""
    return is_name(_PIECE.split(below, maxsplit=1)[0]) and not _rest_of_name(low, below, is_name)


def _goes_on(above: Line, line: Line, is_name: IsName, again: bool, rest: bool) -> bool:
    """Whether a full line breaks off within what the next one ends. ``again``: it was put together itself; ``rest``:
    a code that lacks its status stands above it."""
    begin, start = prefix(above), prefix(line)
    low, below = above.low[begin:].rstrip(), line.low[start:].rstrip()
    if not low or not below or start > begin or len(low) > _LONGEST:
        return False
    if below[-1] == ":" and states.of_cell(below.rstrip(" :")) is not None:
        # "Stored, no longer present:" heads the list below it.
        return False
    if above.text[:begin].count(">") != line.text[:start].count(">"):
        return False
    if _are_rows(low, below) or low[0] == low[-1] == "|":
        return False
    if goingon.tears_bracket(low, below):
        return True
    if _ADDRESS.match(below) is not None or (
            _SHORT_NAME.match(below) is not None and _coded_first(low) and not goingon.ends_with_status(low)):
        return _CODE.search(low) is not None
    if _CODE.search(low) is None and "  " in low and goingon.ends_with_status(low) and _CODE.match(below) is not None:
        # A row of a table that was wrapped between its cells, unless it ends the entry of a code above it or the next
        # has as many.
        cells, others = (len(_COLUMN.split(part.strip())) for part in (low, below))
        return not rest and start == begin and (cells != others or cells < _FEWEST_CELLS)
    if line.text[start].islower() and _ends_with_its_status(low, below, is_name):
        return True
    if volts.find(low) and volts.find(below) and any(
            LOWEST_FILLED.fullmatch(low, hit.end()) for hit in LOWEST.finditer(low)):
        # "12.9 V, lowest" above "value 12.5 V", "12.9 V, dropped to" above "10.4 V"
        return True
    if "   " not in low and _tells_of_below(low, below):
        return True
    if goingon.STARTED.match(below) is not None or "   " in low:
        return False
    if _POINT.match(below) is not None or _names_of_below(low, below, is_name) or (
            _spans(low, below) and role_of(below.partition(":")[0]) is None):
        return True
    if _CODE.search(low) is None and not (". " in low and spoken(low)):
        return False
    if _rest_of_name(low, below, is_name):
        return True
    coded = _CODE.match(below) is not None
    if low[-1] in ";,|":
        if _TIGHT.search(low) is not None or _TIGHT.search(below) is not None:
            # The last cell of a row is empty.
            return False
        # "PBM = C1BEA (active);" above "C0110 (stored)"
        return not _coded_first(low) if coded else below.count(low[-1]) < low.count(low[-1])
    if goingon.last_word(low) in goingon.LEADS_ON:
        return True
    if _begins_with_status(below) and ((below[0] in "([" and low[0] not in "([") or _ends_with_code(low)):
        return True
    if coded or low[-1] in ".!?" or not line.text[start].islower():
        return False
    if _coded_first(low) and any(map(str.isupper, above.text[begin + _BEHIND :])) and not (
            _CODE.search(below) is not None or spoken(below) or _begins_with_name(low, below, is_name)):
        return True
    # The rest of what was wrapped before, or of a title with its status behind it: no row of the text begins so.
    return again or (any(map(str.isupper, above.text)) and not _coded_first(low) and ("(" in below or ";" in below))


def _are_rows(low: str, below: str) -> bool:
    """Whether two lines are rows of a table: as many marks part the cells of one as of the other, quoted ones aside."""
    low, below = _QUOTED.sub("", low), _QUOTED.sub("", below)
    return any(
        low.count(mark) > 1 and low.count(mark) == below.count(mark)
        and (mark in "|\t" or f"{mark} " not in low or f" {mark} " in low or (mark == ";" and low.count(mark) > 2))
        for mark in (";", "|", "\t", ","))


def _coded_first(low: str) -> bool:
    """Whether a line begins with a code, a mark or a number before it or not."""
    return _CODE.match(low.lstrip(" +|*#>0123456789.)(-\u2022")) is not None


def _names_of_below(low: str, below: str, is_name: IsName) -> bool:
    """Whether a line ends with a name behind a sentence, of which the next tells: its codes, or an answer."""
    told = spoken(below[:40])
    if _coded_first(low) or (_CODE.match(below) is None and not (told and not told[0].start)) or names_begin(low):
        return False
    words = low[-60:].split(" ")[-_MOST_WORDS:]
    for size in range(len(words), 0, -1):
        name = " ".join(words[-size:])
        if is_name(name):
            return low[: len(low) - len(name)].endswith(_TURNS)
    return False


def _tells_of_below(low: str, below: str) -> bool:
    """Whether a verb of saying above leads to the code below, or that is one more than a code above."""
    if goingon.last_word(low) in goingon.SHOWS and " " in low:
        return _CODE.match(below) is not None
    more = _ONE_MORE.match(below)
    return more is not None and _CODE.match(below, more.end()) is not None and _CODE.search(low) is not None


def _rest_of_name(low: str, below: str, is_name: IsName) -> bool:
    """Whether the last words of a line and the first of the next are one name that neither is alone."""
    # A name alone in its line may be a heading.
    return not is_name(below.strip(" :")) and goingon.tears_name(low, below, is_name)


def _begins_with_status(below: str) -> bool:
    """Whether a line begins with a status that ends its piece there: "(past) SPN 110", "current, C0040", "stored"."""
    inside = _ENCLOSED.match(below)
    if inside is not None and states.of_cell(inside[1]) is not None:
        return True
    end = states.leading(below, 0)
    if end:
        return below[end - 1] in " )]" or below[end : end + 1] in ("", ",", ";", ".")
    hits = states.in_text(below[:40])
    return bool(hits) and below[: hits[0].start].strip(" (") in ("", "in", "as", "as a", "as an") and (
        below[hits[0].end : hits[0].end + 1] in ("", ",", ";", ".", ")"))


def _surely(low: str, below: str) -> bool:
    """Whether a line goes on in the next one however narrow the text is: within a status or an answer, or with the
    status in brackets of the code that it ends with."""
    return _spans(low, below) or (below[0] in "([" and _ends_with_code(low) and _begins_with_status(below))


def _ends_with_code(low: str) -> bool:
    """Whether a line ends with a code."""
    last = None
    for match in _CODE.finditer(low):
        last = match
    return last is not None and last.end() >= len(low)


def _spans(low: str, below: str) -> bool:
    """Whether an answer or a status begins at the end of a line and ends at the start of the next, which is no row that
    begins with a status of its own ("stored - B1342 - Radio")."""
    if _LED_BY_ONE.match(below, states.leading(below, 0)) is not None and states.leading(below, 0):
        return False
    return any(goingon.torn(low, below, spoken)) or any(goingon.torn(low, below, states.in_text))


__all__ = ["joined"]
