"""Codes with the modules that report them behind or below: "U0155 No dash data - reported by TCU (active); ECM". They
are written out as a table, a module and a code a row.

>>> from triage.intake.lines.rows import rows_of
>>> text = "U0155 No dash - reported by TCU (active); ECM (stored)\\nU0100: no engine\\n  - TCU (stored)\\n  - ABS"
>>> for row in tabled(rows_of(text), *2 * (("TCU", "ECM", "ABS").__contains__,)):
...     print(row.text.rstrip(" |"))
ecu | kode | desc | stat
TCU | U0155 | No dash | active
ECM | U0155 | No dash | stored
TCU | U0100 | no engine | stored
ABS | U0100 | no engine
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words
from triage.intake.said import phases, states
from triage.intake.said.answers import spoken
from triage.intake.said.near import small
from triage.intake.tidying.codefirst import OPEN_ENDS
from triage.intake.tidying.scancells import row_like
from triage.intake.words.vocabulary import STATES

_BY = (
    r"(?:reported|found|stored|logged|set|seen|held|present|recorded|registered|flagged|raised|noted|kept|read|told|"
    r"shown) (?:by|in|at|from)|report(?:ers?|ing (?:modules?|units?|ecus?))|"
    r"(?:gemeldet|gesetzt|gesehen|erkannt) (?:von|vom|durch|in|im)|(?:gespeichert|abgelegt|eingetragen|vorhanden|"
    r"steht) (?:in|im|bei)|(?:signale|memorise|enregistre|vue?|present|releve|stocke|lue?)e? (?:par|dans)|"
    r"(?:visto|registrado|informado|guardado|almacenado|senalado|presente|reportado|memorizado|leido) (?:por|en)"
)
_THE = r"(?:\s+(?:the|der|die|das|dem|den|le|la|les|el|los))?\s*:?\s+"
#: Behind words that lead to a name: "in module ABS", "reported by the ECU Radio". In French and Spanish the name begins
#: with it.
_A_MODULE = r"(?:(?:control )?module|control unit|ecu|controller|steuergerat|sg|modul)(?=\s+[^\s])"
#: Behind the text of a code, and first in a line below it; a small word leads there as well.
_INSIDE = lazily(
    rf"(?:^|[\s,;:(\u2013-]+)(?:(?:is|was|are|also|ist|wird|est|es|esta) )?(?:{_BY}){_THE}|\s@\s+")
_BEFORE = lazily(
    rf"(?:[-=]*>\s*)?(?:@\s*|(?:{_BY}){_THE}(?:{_A_MODULE}\s+)?|(?:in|by|from|at|im|von|vom|aus|bei|dans|par|du|en|por|del)"
    rf"{_THE}{_A_MODULE}\s+|(?:in|by|from|at|bei|von|dans|par|en|por|units?|modules?|ecus?|steuergerate?|"
    r"calculateurs?|unidad(?:es)?|modulos?)(?:\s*:\s*|\s+(?=[^a-z]|[a-z]+(?: |$))))?")
_MARK = lazily(r"\s*[,;|]\s*")
#: What stands in names as well parts known ones alone.
_WEAK = lazily(r"\s*[+&/]\s*|\s+(?:and|und|et|y)\s+")
_CLOSED = {"(": ")", "[": "]", "<": ">", "{": "}"}
_DENIED = lazily(r"(?<![a-z])(?:not|no longer|nicht|nicht mehr|non|pas|plus|ya no|no)\s+$")
#: Before a name in a list: "in the combi and in the airbag".
_LEAD = lazily(
    r"(?:(?:in|by|from|dans|par|en|por|von|im|vom)\s+)?"
    r"(?:(?:the|le|la|les|el|los|der|die|das|dem|den)\s+|l')?(?=[^\s])")
_OPEN = (",", ";", "+", "&", "/", "(")
_BEFORE_CODE, _TRIM, _STATUS_EDGES = " *_#=<[(", " \t,;:.-|*_", " ()[]<>{}-:=."
_HEADS = "ecu | kode | desc | stat"
_LONGEST, _MOST_NAMES, _LONGEST_NAME, _MOST_WEAK = 600, 24, 48, 4
#: So many of the names are like known ones, so many of the codes have theirs.
_KNOWN, _MOST_CODES = 0.6, 0.7


class Reporter(NamedTuple):
    """A module that reports a code, and the status it gives; "" for none."""

    name: str
    status: str


class _Entry(NamedTuple):
    """A row with a code: its description, the modules that report it, how many rows below it name them, and whether
    words, a colon or a list tell that they do; names alone may head what is below them."""

    row: Row
    text: str
    reporters: list[Reporter]
    below: int
    led: bool


def tabled(rows: list[Row], is_name: IsName, is_sure: IsName) -> list[Row]:
    """The rows, those with codes and the modules that report them as rows of a table; the same list where the text does
    not put its modules so. Linear. ``is_name`` tells what is like the name of a module, ``is_sure`` what is one."""
    entries: dict[int, _Entry] = {}
    coded = [at for at, row in enumerate(rows) if row.finds.codes and row.aside is None]
    known: dict[str, bool] = {}
    for at in coded:
        if (entry := _entry(rows, at, is_sure)) is not None:
            entries[at] = entry
            known.update({each.name: is_name(each.name) for each in entry.reporters if each.name not in known})
    named = [known[each.name] for entry in entries.values() for each in entry.reporters]
    led = any(entry.led for entry in entries.values())
    if not led or sum(named) < _KNOWN * len(named) or len(entries) < _MOST_CODES * len(coded):
        return rows
    below = {at + count for at, entry in entries.items() for count in range(1, entry.below + 1)}
    if any(is_name(tidy(head.text)) for head in _heads(rows, coded, below)):
        # What stands below its module and a code goes on with the text of the code.
        return rows
    found: list[Row] = []
    at = 0
    while at < len(rows):
        entry = entries.get(at)
        if entry is None:
            found.append(rows[at])
            at += 1
            continue
        if not found or not found[-1].closes:
            found.append(row_like(rows[at], _HEADS))
        else:
            found[-1].closes = False
        found += _rows(entry)
        found[-1].closes = True
        at += 1 + entry.below
    return found


def _heads(rows: Sequence[Row], coded: Sequence[int], below: Container[int]) -> Iterator[Row]:
    """The rows right above those with codes that no entry takes up."""
    for at in coded:
        above = next((place for place in range(at - 1, max(at - 3, -1), -1) if not rows[place].blank), None)
        if above is not None and above not in below and not rows[above].finds.codes:
            yield rows[above]


def _rows(entry: _Entry) -> list[Row]:
    """The rows of a table that an entry is."""
    code = entry.row.finds.codes[0]
    start, end = code.start, code.end
    cells = [(each.name, entry.row.text[start:end], entry.text, each.status) for each in entry.reporters]
    return [row_like(entry.row, " | ".join(cell.replace("|", "/") for cell in each)) for each in cells]


def _entry(rows: Sequence[Row], at: int, is_name: IsName) -> _Entry | None:
    """A row that begins with its only code, with the modules behind or below it; None where they can't be told."""
    row = rows[at]
    code = row.finds.codes[0]
    if len(row.finds.codes) > 1 or row.text[: code.start].strip(_BEFORE_CODE) or len(row.text) > _LONGEST:
        return None
    behind = row.text[code.end :]
    matches = list(_INSIDE.finditer(row.low[code.end :]))
    if matches and (held := _reporters(behind[matches[-1].end() :], is_name)):
        link = matches[-1]
        verb = _verb(link[0])
        # "Not present in": the status begins before what leads to the list.
        stop = link.start() + link[0].find(verb) + len(verb) if verb else link.start()
        text, status = _described(behind[:stop])
        if verb and not status:
            denied = _DENIED.search(small(behind[: stop - len(verb)]))
            start = denied.start() if denied is not None else stop - len(verb)
            text, status = behind[:start].strip(_TRIM), behind[start:stop].strip()
        return _Entry(row, text, [each._replace(status=each.status or status) for each in held], 0, True)
    if row.text.split()[-1] in OPEN_ENDS:
        return None
    texts: list[tuple[str, str]] = []
    place = at
    while place + 1 < len(rows) and (below := _below(row, rows[place + 1])) is not None:
        begins, listed, told = below
        last, verb = texts[-1] if texts else ("", "")
        if texts and _is_status(listed):
            # A line of its own tells the status that the modules above report, perhaps behind a key for it.
            stated = listed.rpartition(":")[2].strip()
            texts = [(text, verb or stated) for text, verb in texts]
        elif texts and not begins and (last[-1:] in _OPEN or not _ends_whole(last, is_name)):
            texts[-1] = f"{last} {listed}", verb
        elif _reporters(listed, is_name):
            texts.append((listed, told))
        else:
            break
        place += 1
    found = [each._replace(status=each.status or verb) for text, verb in texts for each in _reporters(text, is_name)]
    if not found or len(found) > _MOST_NAMES:
        return None
    text, status = _described(behind)
    led = len(found) > len(texts) or any(":" in text for text, _ in texts) or any(
        (lead := _BEFORE.match(other.low)) is not None and lead.end() > 0 for other in rows[at + 1 : place + 1])
    return _Entry(row, text, [each._replace(status=each.status or status) for each in found], place - at, led)


def _described(text: str) -> tuple[str, str]:
    """The description behind a code, and the status behind that, or in its place."""
    text = text.strip(_TRIM)
    return ("", text) if _is_status(text) else _parted(text)


def _verb(lead: str) -> str:
    """The status that the words before a list say: "stored in", "present in the"; "" where they say none."""
    words = plain_words(lead.strip(_STATUS_EDGES))
    found = (" ".join(words[:end]) for end in range(len(words), 0, -1))
    return next((text for text in found if states.of_cell(text) is not None), "")


def _below(row: Row, other: Row) -> tuple[bool, str, str] | None:
    """Whether a line below one with a code begins a list of modules by its mark, what the list is, and the status that
    leads to it; None where the line is no part of the entry."""
    if other.blank or other.finds.codes or other.aside is not None or len(other.text) > _LONGEST:
        return None
    lead = _BEFORE.match(other.low)
    end = lead.end() if lead is not None else 0
    marked = other.start > other.line.indent
    deeper = other.line.indent > row.line.indent or (
        other.line.indent == row.line.indent and marked and row.start == row.line.indent)
    if not (deeper or (end and other.line.indent >= row.line.indent)):
        return None
    return bool(end) or marked, other.text[end:].rstrip(), _verb(other.low[:end])


def _ends_whole(text: str, is_name: IsName) -> bool:
    """Whether the last of a list is a known name, or one with its status."""
    last = _items(text, is_name)[-1:]
    return bool(last) and (bool(_parted(last[0])[1]) or is_name(_bare(last[0])))


def _reporters(text: str, is_name: IsName) -> list[Reporter]:
    """The modules of a list, each with a status of its own or with that behind the last; none where the list is no such
    thing."""
    found: list[Reporter] = []
    for item in _items(text.strip(_TRIM), is_name):
        if found and _is_status(item):
            whole = f"{found[-1].status}, {item.strip(_STATUS_EDGES)}"
            if found[-1].status and _is_status(whole):
                # "Gearbox: confirmed, not active now" is one status.
                found[-1] = found[-1]._replace(status=whole)
                continue
            # "Gearbox, stored": said of those above that have none.
            found = [each if each.status else each._replace(status=item.strip(_STATUS_EDGES)) for each in found]
            continue
        name, status = _bare(item), _parted(item)[1]
        if not _may_be_name(name):
            return []
        found.append(Reporter(name, status))
    return found if len(found) <= _MOST_NAMES else []


def _items(text: str, is_name: IsName) -> list[str]:
    """The items of a list, parted by marks outside brackets; a stronger mark is the one that parts it."""
    inside, closing = [False] * len(text), ""
    for at, char in enumerate(text):
        if closing:
            inside[at] = True
            closing = "" if char == closing else closing
        elif char in _CLOSED and _CLOSED[char] in text[at:]:
            closing = _CLOSED[char]
    cuts = [match for match in _MARK.finditer(text) if not inside[match.start()]]
    if any(match[0].strip() == ";" for match in cuts):
        cuts = [match for match in cuts if match[0].strip() == ";"]
    starts, ends = [0, *(match.end() for match in cuts)], [*(match.start() for match in cuts), len(text)]
    items = [text[start:end].strip() for start, end in zip(starts, ends, strict=True) if text[start:end].strip()]
    return [part for item in items for part in _known_parts(item, is_name)]


def _known_parts(item: str, is_name: IsName) -> list[str]:
    """The known names that "and" or the like parts in an item, most of them; else the item."""
    marks = list(_WEAK.finditer(item))[:_MOST_WEAK]
    if not marks or is_name(_bare(item)):
        return [item]
    for count in range(len(marks), 0, -1):
        for chosen in combinations(marks, count):
            starts, ends = [0, *(mark.end() for mark in chosen)], [*(mark.start() for mark in chosen), len(item)]
            parts = [item[start:end] for start, end in zip(starts, ends, strict=True)]
            # "Ramp and kneeling" is one name, "Ramp and Doors" are two.
            alike = len({part[:1].isupper() for part in map(_bare, parts)}) == 1
            if alike and all(is_name(_bare(part)) for part in parts):
                return parts
    return [item]


def _bare(item: str) -> str:
    """The name of an item without its status, and without the small words before it."""
    name = _parted(item)[0]
    lead = _LEAD.match(small(name))
    return tidy(name[lead.end() :] if lead is not None else name)


def _parted(text: str) -> tuple[str, str]:
    """A name or a description, and the status behind it in brackets, behind a dash, a colon or a comma."""
    text = text.strip()
    if text[-1:] in _CLOSED.values():
        opening = next(mark for mark, closing in _CLOSED.items() if closing == text[-1])
        depth, start = 0, -1
        for at in range(len(text) - 1, -1, -1):
            depth += (text[at] == text[-1]) - (text[at] == opening)
            if not depth:
                start = at
                break
        inside = text[start + 1 : -1].strip() if start >= 0 else ""
        if inside and (_is_status(inside) or (STATES.find(small(inside)) and " " in inside)):
            return text[:start].rstrip(_TRIM), inside
    for mark in (" - ", ": ", " = ", ", "):
        head, _, tail = text.rpartition(mark)
        if head and _is_status(tail):
            return head.rstrip(_TRIM), tail.strip(_STATUS_EDGES)
    return text.rstrip(_TRIM), ""


def _is_status(text: str) -> bool:
    return states.of_cell(small(text).strip(_STATUS_EDGES)) is not None


def _may_be_name(name: str) -> bool:
    """Whether a text may name a module: no sentence, no answer, no code, no scan."""
    low = small(tidy(name))
    return (0 < len(low) <= _LONGEST_NAME and has_letter(low) and len(plain_words(low)) <= 6 and not find(low).codes
            and not any(mark in low for mark in (": ", "= ", "; ")) and not spoken(low) and phases.find(low) is None)


__all__ = ["Reporter", "tabled"]
