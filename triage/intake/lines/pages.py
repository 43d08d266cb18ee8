"""Printed pages: which lines are a page's foot or the next one's head, and no part of what is listed on them.

>>> from triage.intake.lines.rows import rows_of
>>> rows = rows_of("ABS\\nC0035 short\\nPage 1 of 2\\nHealth report\\nC0040 open\\nPage 2 of 2")
>>> sorted(page_marks(rows))
[3, 4, 6]
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Container, Sequence
from itertools import islice, pairwise

from triage.intake.lines import pagecounts
from triage.intake.lines.goingon import ends_with_status
from triage.intake.lines.idents import alone
from triage.intake.lines.outline import level_of
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import dates, phases, states, volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.counts import stated_count
from triage.intake.words.vocabulary import STATES

#: Behind the name of a module whose list goes on behind the end of a page.
CONTINUED = lazily(
    r"\s*[(\[]?\s*(?<![a-z])(?:continued|cont(?:inued|'d|d)?\.?|fortsetzung|forts\.?|suite|"
    r"continuacion|ff\.)\s*[)\]]?\s*:?\s*$"
)
_PAGE = lazily(
    r"(?<![a-z])(?:page|seite|pag(?:e|ina)?\.?|blatt|sheet|feuille|"
    r"hoja)\s*[:#]?\s*[0-9]{1,3}(?:\s*(?:of|/|\||von|de|sur)\s*[0-9]{1,3})?"
    r"(?![a-z0-9])|^[-~(\[\s]*[0-9]{1,3}\s?(?:/|of|von|de|sur)\s?[0-9]{1,3}[-~)\]\s]*$|^(?:[-~]+\s*)?[0-9]{1,3}\s*[-~]+$"
    r"|^[0-9]{1,3}\s?/\s?[0-9]{1,3}(?=\s{2,}[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{1,4}$)"
    r"|^-\s?[0-9]{1,3}\s?(?:/|of|von|de|sur)\s?[0-9]{1,3}\s?-(?=\s\s)"
    # The dash before the number was taken for a bullet.
    r"|^(?:-\s?)?[0-9]{1,3}\s?-(?=\s{2,}[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{1,4}$)"
    r"|(?:^|\s)(?:pg?|s|bl|f|h)\.\s?[0-9]{1,3}(?:\s?/\s?[0-9]{1,3})?$"
    r"|(?<=[0-9][./-][0-9]{2})[0-9]{0,2}\s+-+\s?[0-9]{1,3}\s?-+$|(?<=\s\s)-+\s?[0-9]{1,3}\s?-+$"
)
_PAGE_SIGNS = lazily(r"pag|seite|blatt|sheet|feuille|hoja|^[-~(\[\s]*[0-9]|(?:^|\s)(?:pg?|s|bl|f|h)\.\s?[0-9]|"
                      r"\s\s-+\s?[0-9]{1,3}\s?-+$")
#: What the title of a report or a list is called.
TITLE = lazily(
    r"(?<![a-z])(?:scan|re-?scan|report|results?|summary|list|listing|\w*bericht|\w*bericht\w*|rapport|informe|"
    r"\w*protokoll|overview|survey|read-?outs?|read out|print-?out|diagnos\w+|memory|\w*speicher|memoire|memoria|"
    r"test|check|checks|session|log|page|health|inspection|\w*auslesung|\w*auslesen|\w*abfrage|\w*ubersicht|\w*uebersicht|"
    r"releve|bilan|lecture|lectura|listado|liste|resumen|inventory|record|sheet|printed|vehicle|fahrzeug|vehicule|"
    r"vehiculo|codes|faults|dtcs|fehler|defauts|averias|fallos)(?![a-z])"
)
_DIGITS, _LONG = lazily(r"[0-9]+"), lazily(r"[0-9]{4}")
_HEAD = 5
_KEYED = lazily(r"([a-z][a-z /_-]{1,28}?)[ ._]*[:=]\s*(?=\S)")
_OF_LISTS = frozenset(("module", "code", "spn", "fmi", "failure_type", "status", "status_byte", "answer", "reply"))
#: What firms are called that print such pages.
_FIRM = lazily(
    r"(?<![a-z])(?:garage|workshop|motors|trucks|vans|depot|fleet (?:care|services?)|repairs?|roadside|autos?|"
    r"\w*werkstatt|\w*werkstatten|autohaus|taller(?:es)?|ateliers?|carrosserie|services?$|"
    r"gmbh|kg|e\.? ?k|ltd|limited|llc|inc|sarl|sas|s\.l|s\.a|& (?:co|sons?|sohne?|fils|hijos))\.?(?![a-z])"
)
#: Whom a page is for.
_NOTICE = lazily(
    r"(?<![a-z])(?:confidential|vertraulich|confidentiel(?:le)?|confidencial|copyright|all rights reserved|"
    r"(?:for )?(?:workshop|internal|dealer) use only|nur fur (?:den )?(?:internen|werkstatt)\w*|usage interne|"
    r"usage atelier|uso interno|solo para (?:el )?taller)(?![a-z])"
)
#: So many lines on each side of a page number are its page's head and foot at most.
_MOST_TITLES, _MOST_HEAD, _LONGEST_DATE = 4, 12, 24


def _tells(low: str) -> bool:
    """Whether a line is the status of a code or the answer of a module: no page's head or foot, nor is what it is
    said of."""
    return states.of_cell(low) is not None or answer_of_cell(low) is not None


@remembered
def _keyed(low: str) -> bool:
    """Whether a line is a key of a module or a code with its value: "Active: yes" stands last on many a page."""
    key = _KEYED.match(low)
    return key is not None and role_of(key[1]) in _OF_LISTS


def page_marks(rows: Sequence[Row], is_module: Callable[[str], bool] = lambda name: False) -> set[int]:
    """The numbers of the lines that are a page's head or foot: they count pages, or stand at each of those again."""
    found: set[int] = set()
    counted: list[int] = []
    without_word = pagecounts.of(rows)
    for at, row in enumerate(rows):
        if at in without_word or (
            not row.blank
            and not row.finds.codes
            and len(row.text) <= 120
            and not (row.roles and row.kind in ("|", ";", ",", "\t"))
            and _counts_pages(row.low)
        ):
            counted.append(at)
            found.add(row.line.number)
    if not counted:
        return found
    # What stands at the same distance from a page number again and again is head or foot too.
    places = [
        (near - at, near)
        for at in counted
        for near in range(max(0, at - 3), min(len(rows), at + 4))
        if near != at and not rows[near].blank and not rows[near].head and not rows[near].finds.codes
        and not _tells(rows[near].low) and not _keyed(rows[near].low) and not ends_with_status(rows[near].low) and not (
            near + 1 < len(rows) and _tells(rows[near + 1].low))
    ]
    beside = Counter((distance, _DIGITS.sub("#", rows[near].low)) for distance, near in places)
    for distance, near in places:
        row = rows[near]
        if beside[distance, _DIGITS.sub("#", row.low)] >= max(2, 0.6 * len(counted)) and not (
            is_module(row.text) or spoken(row.low) or answer_of_cell(row.low) or stated_count(row.low)
        ):
            found.add(row.line.number)
    heads, others = _heads(rows, counted, is_module)
    found = (found | _titles(rows, counted, is_module) | heads) - others
    return found | _amid_lists(rows, found, set(counted))


def _amid_lists(rows: Sequence[Row], found: Container[int], counted: Container[int]) -> set[int]:
    """The lines that say what the head or foot of other pages does, with no blank around them: the number of that page
    was not copied, or stands elsewhere."""
    top = {row.low for row in islice((row for row in rows if not row.blank), _MOST_TITLES)}
    said = {row.low for at, row in enumerate(rows)
            if row.line.number in found and at not in counted and not row.blank and row.kind != "rule"
            and not _keyed(row.low) and (row.low in top or TITLE.search(row.low) or _FIRM.search(row.low))}
    return {row.line.number for above, row, below in zip(rows, rows[1:], rows[2:], strict=False)
            if row.low in said and not row.finds.codes and not (above.blank or below.blank)} if said else set()


@remembered
def is_page_count(low: str) -> bool:
    """Whether a line begins or ends with the number of a page, or has it between marks: nothing goes on in it.

    >>> is_page_count("page 1 of 2"), is_page_count("04.03.2022   seite 1/2"), is_page_count("on page 2 of the report")
    (True, True, False)
    """
    match = _PAGE.search(low) if len(low) <= 120 and _PAGE_SIGNS.search(low) is not None else None
    if match is None:
        return False
    before, after = low[: match.start()].rstrip(), low[match.end() :].lstrip()
    return not before.strip(" -") or not after.strip(" -") or (before[-1] in "-|/" and after[0] in "-|/")


@remembered
def _counts_pages(low: str) -> bool:
    """Whether the number of a page stands in a line."""
    return _PAGE_SIGNS.search(low) is not None and _PAGE.search(low) is not None


def with_blanks(blank: Sequence[bool], places: set[int]) -> set[int]:
    """Some places of lines and those of the blank lines around them, by whether each line is blank.

    >>> with_blanks([True, False, True, False, True], {1})
    {0, 1, 2}
    """
    filled = [at for at, none in enumerate(blank) if not none and at not in places]
    runs = (range(first + 1, stop) for first, stop in pairwise([-1, *filled, len(blank)]))
    return {at for run in runs if not places.isdisjoint(run) for at in run}


def _titles(rows: Sequence[Row], counted: Sequence[int], is_module: Callable[[str], bool]) -> set[int]:
    """The lines right beside a page number that are no part of the scan: the report's title, or a line that the text
    holds once more elsewhere (the firm, the plate)."""
    places: dict[str, list[int]] = defaultdict(list)
    for at, row in enumerate(rows):
        if not row.blank:
            places[_undated(row.low)].append(at)
    top = {_undated(row.low) for row in islice((row for row in rows if not row.blank), _MOST_TITLES)}
    found: set[int] = set()
    for at in counted:
        for step in (1, -1):
            near, filled, parted = at + step, 0, False
            while 0 <= near < len(rows) and filled < _MOST_TITLES:
                row = rows[near]
                if row.blank or row.kind == "rule":
                    if parted or filled:
                        break
                    parted = True
                else:
                    if step == 1 and filled and _is_date_of_report(rows, near, at):
                        found.add(row.line.number)
                        break
                    others = [other for other in places[_undated(row.low)] if abs(other - at) > _MOST_TITLES]
                    # What the text begins with heads each page, whatever goes on below it.
                    again = _undated(row.low) in top and bool(others)
                    # One long number at several pages, a date or that of an order, is the report's wherever it stands.
                    same = [other for other in others if rows[other].low == row.low] if _LONG.search(row.low) else []
                    again = again or bool(same) or _is_dated_title(rows, near, at, top)
                    if phases.scan_head(row.low) is not None and not again and _undated(row.low) not in top:
                        # "Scan 2" below "Scan 1" is no title that stands again.
                        break
                    # A title that stands without its date at the top of the text is that of each page.
                    if step == 1 and not same and dates.places(row.low) and not any(
                            other.low.strip() == _undated(row.low).strip() for other in rows[:_HEAD]) and (
                            _opens_a_scan(rows, near, at, len(rows), is_module)):
                        break
                    if not _is_title(row, is_module, again) or not (
                            again or TITLE.search(row.low) or _NOTICE.search(row.low) or _stands_apart(rows, others)):
                        break
                    found.update(rows[other].line.number for other in same)
                    found.add(row.line.number)
                    filled += 1
                near += step
    return found


@remembered
def _undated(low: str) -> str:
    """A line with "#" for its numbers, without its date where it holds more: a title is dated on some pages alone."""
    taken = dates.places(low) if has_digit(low) else frozenset()
    bare = "".join(sign for place, sign in enumerate(low) if place not in taken).strip(" -|,")
    return _DIGITS.sub("#", bare if has_letter(bare) else low)


def _is_title(row: Row, is_module: Callable[[str], bool], again: bool = False) -> bool:
    """Whether nothing in a line tells of a module, an answer or a phase. ``again``: the text begins with it."""
    if row.finds.codes or row.finds.refusals or row.head or row.roles or len(row.text) > 100 or is_module(row.text):
        return False
    if " " not in row.text and has_digit(row.low) and has_letter(row.low):
        # A maker's own number, like others but for its digits.
        return False
    if ":" in row.text.replace("://", "") and not again and not dates.find(row.text):
        return False
    if stated_count(row.low) or spoken(row.low) or answer_of_cell(row.low) or (
            ":" in _undated(row.low) and STATES.find(row.low)):
        return False
    # "Fault memory report" tells no status where the text begins with it.
    return phases.find(row.low) is None and not (STATES.find(row.low) and not (again and TITLE.search(row.low)))


def _is_date_of_report(rows: Sequence[Row], at: int, page: int) -> bool:
    """Whether a line below the title of a report, at the head of a page, is a date alone, and no other date heads the
    report: another would be that of another scan."""
    return _is_reports_date(rows, rows[at].low.strip(), page)


def _is_dated_title(rows: Sequence[Row], at: int, page: int, top: Container[str]) -> bool:
    """Whether a line at the edge of a page is the title that the text begins with and, behind it, the date of the
    report."""
    low = rows[at].low
    begin = next((place for place, sign in enumerate(low) if sign.isdigit()), 0)
    return low[:begin].rstrip(" ,:|-") in top and _is_reports_date(rows, low[begin:].strip(), page)


def _is_reports_date(rows: Sequence[Row], low: str, page: int) -> bool:
    """Whether a text is a date alone, and no other one heads the report."""
    if not has_digit(low[:4]) or len(low) > _LONGEST_DATE or not set(range(len(low))) <= dates.places(low) | {
            place for place, sign in enumerate(low) if sign in " ,:"}:
        return False
    heads = [row.low for row in rows[: min(page, _MOST_HEAD)] if not row.blank and not row.finds.codes]
    return all(low in head for head in heads if dates.places(head))


def _stands_apart(rows: Sequence[Row], places: Sequence[int]) -> bool:
    """Whether a line that stands at several places stands over no code or answer there: it is no heading."""
    below = [
        next((row for row in rows[at + 1 : at + 4] if not (row.blank or alone(row.low))), None) for at in places[:8]
    ]
    return bool(below) and not any(
        row is not None and (row.finds.codes or spoken(row.low) or answer_of_cell(row.low)) for row in below
    )


def _going_on(rows: Sequence[Row], counted: Sequence[int]) -> Container[int]:
    """The places of the page numbers behind which the same report goes on with the head of its next page: not behind
    the last one of a report, unless the numbers stand at the heads."""
    numbers = [_number(rows[at].low) for at in counted]
    filled = sum(not row.blank for row in islice(rows, counted[0]))
    if filled < _MOST_TITLES:
        return [at for at, number in zip(counted, numbers, strict=True) if number[0] > 1]
    later = [*numbers[1:], (0, 0)]
    return [at for at, (number, total), (other, _) in zip(counted, numbers, later, strict=True)
            if number < total or (other == number + 1 and total in (0, other))]


def _number(low: str) -> tuple[int, int]:
    """The number of a page and how many there are; 0 where that is not told."""
    match = _PAGE.search(low)
    found = [int(number) for number in _DIGITS.findall(match[0])] if match is not None else []
    return (found[0] if found else 0, found[1] if len(found) > 1 else 0)


def _heads(rows: Sequence[Row], counted: Sequence[int], is_module: Callable[[str], bool]) -> tuple[set[int], set[int]]:
    """The lines behind a page's foot down to a date, whatever date that is, and no further than the name of a firm
    where there is none; and the dates there that open another scan."""
    found, others = set[int](), set[int]()
    signs = _heading_signs(rows, is_module)
    going_on = _going_on(rows, counted)
    for at, stop in pairwise([*counted, len(rows)]):
        head: list[int] = []
        kept = 0
        for near in range(at + 1, min(stop, at + _MOST_HEAD)):
            row = rows[near]
            if row.blank or row.kind == "rule":
                continue
            if len(head) == _MOST_TITLES or not _is_title(row, is_module, True) or (
                    phases.scan_head(row.low) is not None or volts.find(row.low)):
                break
            head.append(near)
            if dates.places(row.low):
                other = _opens_a_scan(rows, near, at, stop, is_module) if at in going_on else (
                    any(below.finds.codes or is_module(_lead(below)) for below in rows[near + 1 : stop]))
                kept = 0 if other else len(head)
                # Beside a title the date is that of the report.
                others.update({row.line.number} if other and not has_letter(_undated(row.low)) else ())
                break
            if len(head) == 1 and at in going_on and (
                    _FIRM.search(row.low) or (signs and _sign(rows, near) not in signs)):
                kept = 1
        found.update(rows[place].line.number for place in head[:kept])
    return found, others


def _heading_signs(rows: Sequence[Row], is_module: Callable[[str], bool]) -> set[tuple[str, bool, bool, bool]]:
    """What marks the headings of a text, listed names alone in their lines: nothing if many have no mark."""
    named = [at for at, row in enumerate(rows)
             if not (row.blank or row.finds.codes or row.cells) and is_module(row.text)]
    found = [sign for at in named if any(sign := _sign(rows, at))]
    return set(found) if len(found) >= max(2, 0.6 * len(named)) else set()


def _sign(rows: Sequence[Row], at: int) -> tuple[str, bool, bool, bool]:
    """What marks a line as a heading: marks or a number before it, a colon, the count of its codes, a rule below it."""
    row = rows[at]
    lead = level_of(row)[1] or _DIGITS.sub("#", row.line.text[: row.start].strip())
    ruled = at + 1 < len(rows) and rows[at + 1].kind == "rule"
    return lead, row.text.endswith(":"), row.counted is not None or stated_count(row.low) is not None, ruled


def _opens_a_scan(rows: Sequence[Row], date: int, page: int, stop: int, is_module: Callable[[str], bool]) -> bool:
    """Whether what stands below a date at the head of a page is of another scan: it tells which, or modules are
    listed there that were before, but for the one whose list the page broke."""
    below = next((row for row in rows[date + 1 : stop] if not row.blank and row.kind != "rule"), None)
    if below is not None and (phases.find(below.low) is not None or phases.scan_head(below.low) is not None):
        return True
    named = [lead for row in rows[date + 1 : stop] if is_module(lead := _lead(row))]
    above = [lead for row in rows[:page] if is_module(lead := _lead(row))]
    # A summary names them before their lists do.
    above = [_lead(row) for row, below in pairwise(rows[:page]) if below.finds.codes and is_module(_lead(row))] or above
    again = named[1:] if named[:1] == above[-1:] else named
    return len(set(above)) == len(above) and not set(above).isdisjoint(again)


def _lead(row: Row) -> str:
    """The first cell of a row, what stands behind a key for modules in it, or all of it."""
    if row.cells:
        return row.cells[0].text
    key = _KEYED.match(row.low)
    return row.text[key.end() :].strip() if key is not None and role_of(key[1]) == "module" else row.text
