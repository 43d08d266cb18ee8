"""Tables printed with a cell a line, as a page copies them: the heads of the columns one below the other, then the
cells of each row. They are set in rows, each line in the cell it suits best.

>>> from triage.intake.plain.characters import lines
>>> cells = lines("Code\\nModule\\nStatus\\nC0031\\nABS\\nstored\\n-\\nEPS\\nno codes")
>>> [line.text for line in in_rows(cells, lambda name: name in ("ABS", "EPS"))]
['Code | Module | Status', 'C0031 | ABS | stored', '- | EPS | no codes']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from triage.intake.codes.found import find
from triage.intake.lines.glue import Part, together
from triage.intake.lines.pages import is_page_count, with_blanks
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import Line, has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import states, volts
from triage.intake.said.answers import answer_of_cell
from triage.intake.tidying.scancells import names_a_scan

_LONGEST_HEAD, _LONGEST_ROLE = 60, 32
#: Heads of columns one below the other, and what may stand under one: words, nothing, a maker's own code.
_FEWEST_HEADS, _MOST_HEADS = 3, 12
_OF_WORDS = frozenset(("module", "description"))
_NONE_SAID = frozenset(("-", "--", "---", "/", ".", "n/a"))
_OWN_CODE = lazily(r"(?=[A-Z-]{0,8}[0-9])[A-Z0-9-]{3,9}")
_LONGEST_CODE, _LONGEST_SHORT = 20, 6
_DIGITS = lazily(r"[0-9]+")
#: What an empty cell weighs, and a line that can't stand in a column.
_SKIPPED, _NEVER = 1.2, 1000.0
#: More than that a row of a table does not weigh.
_MOST_MISFIT = 2.0


def in_rows(found: list[Line], is_name: IsName) -> list[Line]:
    """The lines, those of tables with a cell a line set in rows and the feet and heads of pages between them left out;
    the same list where there are none. Linear."""
    short = {line.low for line in found if len(line.low) <= _LONGEST_ROLE}
    if not any(role_of(low, exactly=True) == "code" for low in short):
        return found
    paged = _of_pages(found, is_name)
    kept = [line for at, line in enumerate(found) if at not in paged]
    out: list[Line] = []
    at = copied = 0
    while at < len(kept):
        roles = _heads_below(kept, at)
        cells, last = _cells_below(kept, at, roles, is_name) if roles else ([], at + 1)
        rows = _rows_of(cells, roles, is_name)
        out += map(_side_by_side, [[[line] for line in kept[at : at + len(roles)]], *rows]) if rows else kept[at:last]
        at, copied = last, copied + bool(rows)
    return out if copied else found


def _heads_below(found: Sequence[Line], at: int) -> list[str]:
    """The roles of the heads of columns that stand one below the other from a line on; none where they head no table
    of codes and modules."""
    roles: list[str] = []
    for place in range(at, min(at + _MOST_HEADS, len(found) - 1)):
        role, after = (role_of(line.low, exactly=True) if line.text and not line.low.rstrip().endswith((":", "=")) else
                       None for line in found[place : place + 2])
        if (role is None and (after is None or not roles)) or (role in roles and role in ("code", "module")):
            break
        roles.append(role or "other")
    return roles if len(roles) >= _FEWEST_HEADS and {"code", "module"} <= {*roles} else []


def _cells_below(found: Sequence[Line], at: int, roles: list[str], is_name: IsName) -> tuple[list[Line], int]:
    """The lines below heads that may be cells, and where they end."""
    cells: list[Line] = []
    heads = [line.low for line in found[at : at + len(roles)]]
    last = place = at + len(roles)
    while place < len(found):
        line = found[place]
        if [other.low for other in found[place : place + len(heads)]] == heads:
            place += len(heads) - 1
            last = place + 1
        elif line.text.strip():
            # "C0031:62" is a code with its failure type, and no key.
            keyed = ": " in f"{line.text} " or "=" in line.text
            if len(line.text) > _LONGEST_HEAD or keyed or names_a_scan(line.low) or (
                    volts.find(line.low) and "volts" not in roles):
                break
            if place > last and not (found[place - 1].text.strip() or _misfit(line, roles[0], is_name) == 0.0):
                # What stands behind a blank line and begins no row is no longer the table's.
                break
            cells.append(line)
            last = place + 1
        place += 1
    return cells, last


def _of_pages(found: Sequence[Line], is_name: IsName) -> set[int]:
    """The places of the lines that count pages, of those that stand beside most of these again and may be no cells, and
    of the blank ones around them."""
    counted = [at for at, line in enumerate(found) if is_page_count(line.low) and _misfit(line, "", is_name)]
    beside = {(at + step, step): _DIGITS.sub("#", found[at + step].low) for at in counted for step in (-2, -1, 1, 2, 3)
              if 0 <= at + step < len(found) and found[at + step].text}
    often = Counter((step, low) for (_, step), low in beside.items())
    again = {at for (at, step), low in beside.items() if often[step, low] >= max(2, 0.6 * len(counted))}
    paged = {*counted, *(at for at in again if _misfit(found[at], "", is_name))}
    return with_blanks([not line.text.strip() for line in found], paged)


def _rows_of(cells: Sequence[Line], roles: list[str], is_name: IsName) -> list[list[list[Line]]]:
    """Lines by the row and the cell that they stand in; none where they are no table's. Each is the next cell or goes
    on with one of words: that way is taken which leaves the fewest cells empty or wrapped."""
    width = len(roles)
    # By the column of a line: what the cheapest way there costs; and the column before, and whether a row begins.
    costs = [_NEVER] * (width - 1) + [0.0]
    ways: list[list[tuple[float, int, bool]]] = []
    answered = False
    for line in cells:
        way = []
        # A name behind an answer begins a row: nothing stands in the other cells of one that is answered.
        anew = answered and is_name(tidy(line.text))
        for column, role in enumerate(roles):
            steps = [(cost + _SKIPPED * (column if anew and column <= before else (column - before - 1) % width),
                      before, column <= before) for before, cost in enumerate(costs)]
            if role in _OF_WORDS and ways:
                steps.append((costs[column] + (1.0 if line.text.lstrip()[0].islower() else 1.5), column, False))
            way.append(min(steps))
        ways.append(way)
        answered = answer_of_cell(line.low.strip()) is not None
        costs = [step[0] + _misfit(line, role, is_name) for step, role in zip(way, roles, strict=True)]
    rows: list[list[list[Line]]] = []
    column, row = costs.index(min(costs)), [list[Line]() for _ in roles]
    for line, way in zip(reversed(cells), reversed(ways), strict=True):
        row[column].insert(0, line)
        _, column, begins = way[column]
        if begins:
            rows.append(row)
            row = [list[Line]() for _ in roles]
    coded = any(has_digit(line.text) for row in rows for line in row[roles.index("code")])
    return rows[::-1] if coded and len(rows) > 1 and min(costs) <= _MOST_MISFIT * len(rows) else []


def _misfit(line: Line, role: str, is_name: IsName) -> float:
    """How ill a line suits the column of a role: 0.0 where it is what stands there. No role: that of codes, answers or
    names."""
    text, low = line.text.strip(), line.low.strip()
    codes, named = find(text, low).codes, is_name(tidy(text))
    said, state = answer_of_cell(low) is not None, states.of_cell(low) is not None
    if low in _NONE_SAID or not role:
        return 0.0 if role or codes or said or state or named else _NEVER
    if codes:
        return 0.0 if role == "code" and codes[0].start == 0 and len(text) < _LONGEST_CODE else _NEVER
    if role == "code":
        return 0.0 if said else 0.5 if _OWN_CODE.fullmatch(text) else _NEVER
    if role in ("status", "answer", "reply"):
        return 0.0 if said or state else 2.0
    if role == "short_name":
        return 0.0 if len(text) <= _LONGEST_SHORT else 1.5
    if role not in _OF_WORDS:
        suits = has_digit(text) and (role != "failure_type" or len(text) <= _LONGEST_SHORT)
        return 0.0 if suits else 1.0 if role == "other" else _NEVER
    if said or state:
        return 0.2 if said and role == "description" else 2.0
    return 0.5 if (role == "module") != named else 0.0


def _side_by_side(cells: Sequence[Sequence[Line]]) -> Line:
    """The cells of a row in one line, at the place of the first."""
    pieces: list[Part | str] = []
    for column, cell in enumerate(cells):
        pieces += [" | "] if column else []
        for number, line in enumerate(cell):
            lead = len(line.text) - len(line.text.lstrip())
            plain = replace(line, text=line.text.replace("|", "/"), low=line.low.replace("|", "/"))
            pieces += [*([" "] if number else []), (plain, lead, len(line.text.rstrip()))]
    return replace(together(*pieces), indent=0)


__all__ = ["in_rows"]
