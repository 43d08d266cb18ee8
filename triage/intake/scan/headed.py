"""Headings above codes, as the vote on a text's style counts them: lines that are the name of a module alone."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence, Set

from triage.intake.lines.idents import before_idents
from triage.intake.lines.row import Row
from triage.intake.lines.shapes import Shape, shape_of
from triage.intake.lines.supplyrow import stands_between
from triage.intake.lines.unknown import is_one_of_short
from triage.intake.naming.addresses import BEHIND, LABELLED_BEHIND
from triage.intake.naming.heads import is_key, role_of
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import phases, states
from triage.intake.said.answers import spoken
from triage.intake.said.counts import stated_count
from triage.intake.said.listheads import only_counts, status_of_head
from triage.intake.said.near import small
from triage.intake.said.vehiclenumbers import of_vehicle

_MOST_WORDS, _FEWEST_CELLS, _LONGEST_HEAD = 6, 2, 66
#: A count of codes; none at all heads no codes.
_COUNTED = lazily(
    r"\s*(?:[-:,(\[]\s*)?[1-9][0-9]{0,2}\s+(?:[a-z]+\s)?(?:codes?|dtcs?|faults?|errors?|entries|fehler\w*|eintrage|"
    r"d[e\u00e9]fauts?|c[o\u00f3]digos?|aver[i\u00ed]as?|fallos?|errores)[)\]]?\s*:?$|"
    r"\s*[(\[][1-9][0-9]{0,2}[)\]]\s*:?$",
    re.IGNORECASE,
)
#: "CMB   (4)"
_BARE_COUNT = lazily(r"[(\[]([1-9][0-9]?)[)\]]\s*:?$")
#: A name so like a listed one, or put together from such, is a module's.
_SURE = 90.0


def _is_name(text: str, names: Names) -> bool:
    """Whether a line is a listed name, with a count behind it or not, or behind a key for modules ("ECU: ABS")."""
    key, mark, value = text.partition(":")
    if mark and value.strip() and len(key) <= 34 and (role_of(small(key)) == "module" or is_key(small(key))):
        return True
    if names.listed(tidy(text)) or names.listed(tidy(_COUNTED.sub("", text))):
        return True
    if (bare := names.bare(tidy(text))) != text and (names.listed(bare) or names.score(bare) >= _SURE):
        # "VCU (SA 39)", "SA 17h Instrument cluster"
        return True
    if ("(" in text or "/" in text or text.isupper()) and names.score(bare) >= _SURE:
        # "Gearbox (TCM)", "TCM / gearbox", "DCM FL"
        return True
    stop = before_idents(small(text))
    return stop < len(text) and names.listed(tidy(text[:stop]))


def _is_short_head(above: Row, row: Row) -> bool:
    """Whether a line is a short name in capitals that nobody need know, with its address behind it or a colon above
    codes further right: "EECU (source address 0):"."""
    name = above.text.rstrip(" :")
    match = LABELLED_BEHIND.fullmatch(name) or BEHIND.fullmatch(name)
    if match is None and not (above.text[-1:] == ":" and row.line.indent > above.line.indent):
        return False
    return is_one_of_short(tidy(match[1] if match is not None else name))


def headed_share(rows: Sequence[Row], names: Names, marks: Set[int]) -> dict[Shape, tuple[float, int]]:
    """By shape: the share of code rows in stretches that start right below a line that is a listed name alone, and the
    number of such stretches. ``marks``: the numbers of the lines of a page's head or foot."""
    starts: dict[Shape, list[bool]] = defaultdict(list)
    headings: dict[Shape, int] = defaultdict(int)
    above: Row | None = None
    under = False
    aside = marks | _answered(rows)
    filled = [
        row for row in rows
        if not (row.blank or row.kind == "rule" or (not row.finds.codes and (
            row.line.number in aside or _is_aside(row.low) or _heads_a_list(row))))
    ]
    counting = _counting(filled)
    for row in filled:
        if row.finds.codes and not row.roles and above is not None:
            if not above.finds.codes:
                inset = above.line.indent - row.line.indent
                # What is set in further than the codes is the rest of a line above.
                under = (under and inset > 0) or (not (
                    above.head or len(above.text) > 80 or _alike(above, row)) and (
                    above.line.number in counting or _is_name(above.text, names) or _is_short_head(above, row)
                    # Right above what is set in below it a name very like a listed one is a heading.
                    or (inset < 0 and names.score(names.bare(tidy(above.text))) >= _SURE)
                ))
                headings[shape_of(row)] += under
            starts[shape_of(row)].append(under)
        above = row
    return {shape: (sum(found) / len(found), headings[shape]) for shape, found in starts.items()}


def _alike(above: Row, row: Row) -> bool:
    """Whether two rows are of one table: cut by the same mark into as many cells."""
    return row.kind == above.kind != "" and len(above.cells or ()) == len(row.cells or ()) > _FEWEST_CELLS


@remembered
def _is_aside(low: str) -> bool:
    """Whether a line between a name and its codes, or above them all, heads none: a part number, a voltage, a number of
    the vehicle ("Chassis no. 572092")."""
    return stands_between(low) or of_vehicle(low) == "sure"


def _heads_a_list(row: Row) -> bool:
    """Whether a row between a name and its codes only tells their status ("Stored:"), or names their columns."""
    if row.head or len(row.low) > 66:
        return row.head and not any(role_of(cell.low) == "module" for cell in row.cells or ())
    status, list_words = status_of_head(row.low, False)
    return status is not None and (list_words or row.text.endswith(":"))


def _answered(rows: Sequence[Row]) -> set[int]:
    """The numbers of the lines of lists that an answer heads ("No faults in:"), each behind a bullet and set off from
    what follows: the last name heads no codes below."""
    found: set[int] = set()
    run: list[int] | None = None
    for row in rows:
        if row.blank:
            found.update(run or ())
            run = None
        elif not row.finds.codes and row.text.endswith(":") and len(row.low) <= _LONGEST_HEAD and spoken(row.low):
            run = []
        elif run is not None and not row.finds.codes and row.line.text[: row.start].strip():
            run.append(row.line.number)
        else:
            run = None
    return found


def _counting(rows: Sequence[Row]) -> set[int]:
    """The numbers of the lines of words that nobody need know with the count of their codes, which stand right below
    them; at least two, since a single one may be the title of a list."""
    found: set[int] = set()
    below = 0
    for row in reversed(rows):
        if row.finds.codes:
            below += len(row.finds.codes)
            continue
        told = stated_count(row.low) if len(row.low) <= 80 else None
        if told is None and (bare := _BARE_COUNT.search(row.low[:80])) is not None:
            told = int(bare[1]), bare.start(), len(row.low)
        if told is not None and told[0] == below and _is_counted_name(row, told):
            found.add(row.line.number)
        below = 0
    return found if len(found) > 1 else set()


def _is_counted_name(row: Row, told: tuple[int, int, int]) -> bool:
    """Whether words that may name a module stand before a count and nothing behind it."""
    low = row.low[: told[1]].strip(" -:,([")
    if row.low[told[2] :].strip() or not has_letter(low) or len(low.split()) > _MOST_WORDS or role_of(low) is not None:
        return False
    return not (phases.find(low) or phases.scan_head(low) or states.in_text(low) or only_counts(row.low))
