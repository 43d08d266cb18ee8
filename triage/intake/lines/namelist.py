"""Names behind a code: the modules that "U0100: BCM, TCM (stored)", "P0562 in ECM" or "U0140 (ABS, EPS) - lost" tell.

>>> from triage.intake.lines.rows import rows_of
>>> row = rows_of("U0100-87 -> BCM, TCM (gearbox) and ABS [stored]")[0]
>>> [row.text[start:end] for start, end in parts(row, lambda name: name in ("BCM", "TCM (gearbox)", "ABS"))]
['BCM', 'TCM (gearbox)', 'ABS']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.codes.pieces import COUNTED
from triage.intake.lines.row import Row
from triage.intake.lines.unknown import is_one_of_short
from triage.intake.naming import IsName
from triage.intake.naming.joined import joined
from triage.intake.naming.linking import trailing_status
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import has_digit, has_letter, low
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said import states
from triage.intake.words.module_words import KIND_FIRST, SIDES

Span = tuple[int, int]

#: What leads from a code to its modules.
_LEAD = lazily(
    r"[\s,]*(?:[-=]*>|<[-=]+|:|;|=|-+|\|)?\s*(?:(?:stored|set|logged|reported|found|codes?|gespeichert|gemeldet)\s+)?"
    r"(?:(?:in|im|in der|dans|en|from|aus|von|by|bei|at|@|module|ecu)\s+)?(?:(?:the|dem|der|le|la|el|both)\s+|l')?"
)
#: The same behind a status: "P0562 not present in ECM".
_LEAD_IN = lazily(
    r"(?:in|im|in der|dans|en|from|aus|von|by|bei|at)\s+(?:(?:the|dem|der|le|la|el|both)\s+|l')?"
)
#: A mark that leads from a code's status to its modules: "P1A10 not active: ABS, ECM".
_LEAD_MARK = lazily(
    r"\s*(?:[-=]*>|<[-=]+|:|-+(?=\s)|\|)\s*(?:(?:in|im|dans|en|from|aus|von)\s+)?(?:(?:the|dem|der|le|la|el)\s+)?"
)
#: Where the names end unless what is behind belongs to a name: a bracket, a spaced hyphen, a bar, a colon.
_STOP = lazily(r"\s*[(\[|;]|\s[-=]*[->]\s|:\s|\s\s")
#: A second name for the same module inside a name: "BCM (body)", "BCM - body", "heating & climate".
_INNER = lazily(r"\S \([^()]+\)$|\S (?:-|&|/) \S")
#: The short form of the name before it.
_SHORT = lazily(r"\s?[(\[][A-Z][A-Z0-9/+-]{0,8}[)\]]")
_CELL_STOP = lazily(r"\s*[(\[]|\s-+\s|:\s")
_JOINT = lazily(r"\s*[,;]\s*|\s+\+\s+|\s+(?:and|und|et|y|e|sowie|plus)\s+")
#: What closes in a list of names that does not stand right behind its code.
_HARD_BEFORE, _HARD_AFTER = lazily(r"[(\[;|:>]|\s-+(?=\s)"), re.compile(r"\s*(?:[)\];|:]|\s-+\s|$)")
_PLUS = lazily(r"\s*[,;]\s*|\s+\+\s+")
_TIGHT_JOINT = lazily(r"\s*[&+]\s*|\s+(?:/|and|und|et|y|e)\s+")
_ARROW = lazily(r"[\])]?\s*(?:[-=]*>|<[-=]+)\s+")
#: An arrow behind a description: "P0562 System voltage low -> BCM, ABS".
_FAR_ARROW = lazily(r"\s[-=]{1,3}>\s+(?=[^\W\d])")
_SIDE_WORDS = word_set("side seite cote lado drvr drv pass psgr door")
_BRACKETS = {"(": ")", "[": "]"}
_OPEN = {close: mark for mark, close in _BRACKETS.items()}
_KIND = "Module "
_LONGEST, _MOST_WORDS, _MOST = 160, 6, 12
_EDGE = " \t,;:-|/"


def known(names: Names) -> IsName:
    """Whether a text is the name of a module: listed, or put together from names of one module ("BCM (body)")."""

    def is_name(text: str) -> bool:
        if names.listed(text):
            return True
        if _JOINT.search(text) is not None and _is_one(text, names):
            return True
        if " / " in text and ((several := joined(text, names)) or all(map(names.listed, text.split(" / ")))):
            # "Radio / Retarder" are two modules that share a code, "ABS / stability control" and "Clock spring / SAS"
            # are one.
            return not several
        inner = _INNER.search(text)
        if inner is None or "," in text or ";" in text or len(joined(text, names)) > 2:
            return False
        if any(states.of_cell(part) is not None for part in low(text).replace(" (", " - ").split(" - ")):
            return False
        if names.score(text) < (60.0 if text.endswith(")") else 90.0):
            return False
        # "ECM - fuel pump control" and "Engine - coolant temperature" are a module and what its code is about.
        head, mark, rest = text.partition(" - ")
        whole = names.match(text)
        same = not names.listed(head) or _is_side(low(rest)) or names.match(head).canonical == whole.canonical
        return not mark or (whole.second is None and same)

    return is_name


def _is_one(text: str, names: Names) -> bool:
    """Whether a name with a word for "and" and both that this joins are all names of one module: "heating and air
    conditioning", "key and start"."""
    halves = _JOINT.split(text)
    if len(halves) != 2 or any(names.score(name) < 85.0 for name in (*halves, text)):
        return False
    return len({names.match(part).canonical for part in (text, *halves)}) == 1


def with_sides(parts: Sequence[str]) -> list[str]:
    """The parts of a list cut at commas, sides joined to the name before them.

    >>> with_sides(["ABS", "seat", "rear left", "radio"])
    ['ABS', 'seat, rear left', 'radio']
    """
    found: list[str] = []
    for part in parts:
        if found and not part.isdigit() and tells_apart(_SHORT.sub("", part).split()):
            found[-1] += f", {part}"
        else:
            found.append(part)
    return found


def tells_apart(parts: Sequence[str]) -> bool:
    """Whether words are a number or sides, which tell modules of one name apart."""
    if len(parts) == 1 and parts[0].isdigit():
        return len(parts[0]) < 3
    return bool(parts) and all(low(part) in SIDES for part in parts)


def zone(row: Row, is_name: IsName) -> Span:
    """Where the names behind the last code of a row would stand; an empty place where nothing does."""
    end = row.finds.codes[-1].end
    text = row.text
    told = states.leading(row.low, end)
    at = told if text[told : told + 1] in _BRACKETS else end + len(text[end:]) - len(text[end:].lstrip(" \t"))
    if text[at : at + 1] in _BRACKETS:
        close = _closing(text, at)
        if states.of_cell(row.low[at + 1 : close]) is None:
            return at + 1, close
        told = close + 1 + len(text[close + 1 :]) - len(text[close + 1 :].lstrip(" "))
        if _marked(row, told) is None:
            return end, end
    stops = _STOP
    near = _ARROW.match(text, told)
    if row.cells and row.kind not in ("", "rule") and near is None:
        filled = (cell for cell in row.cells if cell.start >= end and cell.text and states.of_cell(cell.low) is None)
        cell = next(filled, None)
        if cell is None:
            return end, end
        led = _LEAD_IN.match(row.low, cell.start, cell.end) if row.kind == "gap" else None
        start, last, stops = led.end() if led is not None else cell.start, cell.end, _CELL_STOP
    else:
        led = near or (_marked(row, told) if told > end else None)
        arrow = None if led is not None else _led_by_arrow(row, end)
        stops = _CELL_STOP if arrow is not None else stops
        lead = led or arrow or _LEAD.match(row.low, end)
        start, last = lead.end() if lead is not None else end, len(text)
        if start >= len(_KIND) and KIND_FIRST.match(text, start - len(_KIND)):
            start -= len(_KIND)
    if last - start > 2 * _LONGEST:
        return end, end
    counted = COUNTED.search(row.low, start, last) if has_digit(row.low[max(start, last - 12) : last]) else None
    last = counted.start() if counted is not None and counted.start() > start else last
    last = _without_status(row, start, last, is_name)
    if not _is_list(row, (start, last), is_name, stops):
        stop = stops.search(text, start, last)
        while stop is not None and near is not None and (short := _SHORT.match(text, stop.start())) and (
                states.of_cell(row.low[slice(*short.span())]) is None):
            stop = stops.search(text, short.end(), last)
        last = _without_status(row, start, stop.start() if stop is not None else last, is_name)
    return (start, last) if 0 < last - start <= _LONGEST else (end, end)


def _led_by_arrow(row: Row, end: int) -> re.Match[str] | None:
    """The last arrow behind the description that follows a code, where no status alone stands behind it."""
    if ">" not in row.text[end:] or _ARROW.match(row.text, end) is not None:
        return None
    found = list(_FAR_ARROW.finditer(row.text, end))
    return found[-1] if found and states.of_cell(row.low[found[-1].end() :]) is None else None


def behind_arrow(row: Row, end: int, is_name: IsName) -> list[str]:
    """The names of the list that an arrow behind a description leads to; ``end``: where that begins.

    >>> from triage.intake.lines.rows import rows_of
    >>> behind_arrow(rows_of("K2041 pump relay -> ABS + winch box")[0], 5, lambda name: name == "ABS")
    ['ABS', 'winch box']
    """
    arrow = _led_by_arrow(row, end)
    if arrow is None or len(row.text) - arrow.end() > _LONGEST:
        return []
    found = _split(row, (arrow.end(), _without_status(row, arrow.end(), len(row.text), is_name)), is_name)
    texts = [tidy(row.text[start:stop]) for start, stop in found]
    return texts if all(map(acceptable, texts)) else []


def _marked(row: Row, told: int) -> re.Match[str] | None:
    """What leads from the status that ends at a place to the names behind it."""
    return _LEAD_IN.match(row.low, told) or _LEAD_MARK.match(row.low, told)


#: From one name of a list in a sentence to the next, and where the next ends.
_ONE_MORE = lazily(r"(?:\s?,\s?|\s)(?:(?:and|und|et|y)\s)?(?:(?:the|der|die|das|dem|le|la|el)\s)?")
_END = lazily(r"[,.;:()\[\]]|\s(?:and|und|et|y)\s|$")


def around(row: Row, span: Span, is_name: IsName, is_part: IsName | None = None) -> list[Span]:
    """The names of the list in which the name at ``span`` stands: between two marks, in a bracket, or joined to it;
    ``span`` alone where the list is not one of names throughout.

    >>> from triage.intake.lines.rows import rows_of
    >>> row = rows_of("U0401 bad data from ECM [BCM, ABS + EPS] confirmed")[0]
    >>> [row.text[start:end] for start, end in around(row, (29, 32), lambda name: name in ("BCM", "ABS", "EPS"))]
    ['BCM', 'ABS', 'EPS']
    """
    start, end = span
    least = max((code.end for code in row.finds.codes if code.end <= start), default=0)
    begin = max((match.end() for match in _HARD_BEFORE.finditer(row.text, least, start)), default=-1)
    stop = _HARD_AFTER.search(row.text, end)
    close = stop.start() if stop is not None else len(row.text)
    inner = row.text[close : close + 1] in _OPEN and _OPEN[row.text[close]] in row.text[max(begin, 0) : close]
    for first, last in ((begin, close + inner), span):
        if first >= 0 and (found := several(row, (first, last), is_name, is_part)):
            return found
    return [span]


def onwards(row: Row, span: Span, is_name: IsName) -> list[Span]:
    """The names of the list in a sentence that the name at ``span`` begins.

    >>> from triage.intake.lines.rows import rows_of
    >>> row = rows_of("U0140 in radio, ABS and airbag, all stored")[0]
    >>> [row.text[at:to] for at, to in onwards(row, (9, 14), lambda name: name in ("radio", "ABS", "airbag"))]
    ['radio', 'ABS', 'airbag']
    """
    found, joint = [span], _ONE_MORE.match(row.low, span[1])
    while joint and len(found) < _MOST:
        name = joint.end(), stop.start() if (stop := _END.search(row.low, joint.end())) else len(row.low)
        if not is_name(tidy(row.text[slice(*name)])):
            break
        found.append(name)
        joint = _ONE_MORE.match(row.low, name[1])
    return found


def several(row: Row, span: Span, is_name: IsName, is_part: IsName | None = None) -> list[Span]:
    """The names of a place that holds nothing but several of them; empty where it holds anything else. ``is_part``:
    what may be one of several, where that is more than what is a name as a whole."""
    start, end = span
    if not 0 < end - start <= _LONGEST:
        return []
    end = _without_status(row, start, end, is_name)
    if is_name(tidy(row.text[start:end])):
        return []
    found = _split(row, (start, end), is_name)
    good = is_part or is_name
    return found if 1 < len(found) <= _MOST and all(good(tidy(row.text[at:to])) for at, to in found) else []


def _closing(text: str, at: int) -> int:
    """The place of the bracket that closes the one at ``at``; the end of the text where none does."""
    depth = 0
    for place in range(at, len(text)):
        if text[place] == text[at]:
            depth += 1
        elif text[place] == _BRACKETS[text[at]]:
            depth -= 1
            if not depth:
                return place
    return len(text)


def _without_status(row: Row, start: int, last: int, is_name: IsName) -> int:
    """The end of ``start``..``last`` without statuses at its end, in brackets or not."""
    text = row.text
    for _ in range(3):
        kept = text[start:last].rstrip(_EDGE)
        last = start + len(kept)
        if not kept:
            return last
        if kept[-1] in _OPEN:
            mark = text.rfind(_OPEN[kept[-1]], start, last)
            if mark < start or states.of_cell(row.low[mark:last]) is None:
                return last
            last = mark
            continue
        before, meaning = trailing_status(kept)
        if meaning is not None and before.rstrip()[-1:] in ("/", ";", "|", ","):
            # "Brakes / permanent" is no permanent brake.
            last = start + len(before)
            continue
        if is_name(tidy(kept)) or is_name(tidy(_JOINT.split(kept)[-1])):
            # "direction active" is a name, its last word no status.
            return last
        if meaning is None:
            return last
        last = start + len(before)
    return last


def _is_list(row: Row, span: Span, is_name: IsName, stops: re.Pattern[str]) -> bool:
    """Whether the whole of a place is a list of names: half of them known, the others without a mark in them."""
    texts = [tidy(row.text[start:end]) for start, end in _split(row, span, is_name)]
    sure = [is_name(text) for text in texts]
    plain = all(good or stops.search(text) is None for text, good in zip(texts, sure, strict=True))
    return bool(texts) and plain and 2 * sum(sure) >= len(sure)


def described(row: Row, places: Sequence[Span]) -> bool:
    """Whether a description stands between the code of a row and the arrow that leads to the names at ``places``."""
    end = states.leading(row.low, row.finds.codes[-1].end)
    lead = row.text[end : places[0][0]].rstrip() if places else ""
    return lead.endswith(">") and has_letter(lead)


def parts(row: Row, is_name: IsName) -> list[Span]:
    """The places of the names of a list behind a code; two that only together are a listed name are one."""
    return _split(row, zone(row, is_name), is_name)


def _split(row: Row, span: Span, is_name: IsName) -> list[Span]:
    """A place cut at commas and the words for "and"; at "&" and "/" only where names stand on both sides."""
    start, end = span
    text = row.text
    if is_name(tidy(text[start:end])):
        return [span]
    found: list[Span] = []
    # "Mirror and wiper box (MWX) + ABS"
    for at, stop in _cut(text, span, _PLUS if " + " in text[start:end] else _JOINT):
        if not text[at:stop].strip() or states.of_cell(row.low[at:stop]) is not None:
            continue
        part = tidy(text[at:stop])
        if found and not is_name(part) and (_is_side(row.low[at:stop]) or is_name(tidy(text[found[-1][0] : stop]))):
            found[-1] = found[-1][0], stop
            continue
        tight = _cut(text, (at, stop), _TIGHT_JOINT) if not is_name(part) else []
        # "ABS & TCM" are two modules, "Heating & A/C" is one.
        short = len(tight) > 2 or " / " in text[at:stop] or all(last - first <= 4 for first, last in tight)
        if len(tight) > 1 and short and all(is_name(tidy(text[first:last])) for first, last in tight):
            found += tight
        else:
            found.append((at, stop))
    return found


def _cut(text: str, span: Span, joint: re.Pattern[str]) -> list[Span]:
    """The pieces of a place between joints."""
    found: list[Span] = []
    at, end = span
    for match in joint.finditer(text, at, end):
        found.append((at, match.start()))
        at = match.end()
    return [*found, (at, end)]


def _is_side(low: str) -> bool:
    """Whether a part only says which of several modules ("driver side", "rear left")."""
    found = [word for word, _, _ in words(low)]
    return bool(found) and all(word in SIDES or word in _SIDE_WORDS for word in found)


def acceptable(text: str) -> bool:
    """Whether a part may be the name of a module nobody knows, where the other lines name theirs in that place."""
    return bool(text) and len(text.split()) <= _MOST_WORDS and has_letter(text) and ": " not in text


def behind_arrows(sample: Sequence[Row], names: Names) -> bool:
    """Whether an arrow leads to names in each row, right behind the code or behind its description."""
    is_name = known(names)
    sure = far = 0
    short: set[str] = set()
    for row in sample:
        places = parts(row, is_name) if ">" in row.text or "<" in row.text else []
        texts = [tidy(row.text[start:end]) for start, end in places]
        led = described(row, places)
        if not texts or not all(map(acceptable, texts)) or not (
                led or _ARROW.match(row.text, states.leading(row.low, row.finds.codes[-1].end))):
            return False
        far += led
        sure += any(is_name(text) or names.score(text) >= 85.0 for text in texts)
        if not led and row.text.startswith(":", places[-1][1]):
            short.update(filter(is_one_of_short, texts))
    # Behind a description an arrow may lead to what is to be done as well.
    return (sure > 0 or len(short) > 1) and sure >= 0.5 * far


def share(sample: Sequence[Row], names: Names) -> float:
    """How sure it is that names stand behind the code: the share of rows where all of them are known, or that of the
    names known where most rows hold several."""
    good = filled = sure_names = told = first = 0
    is_name = known(names)
    for row in sample:
        places = parts(row, is_name)
        texts = [tidy(row.text[start:end]) for start, end in places][:_MOST]
        sure = [is_name(text) or (acceptable(text) and names.score(text) >= 60.0) for text in texts]
        filled += bool(texts)
        good += bool(texts) and all(sure)
        # Half a score is that of a part, which descriptions speak of as well.
        sure_names += sum(is_name(text) or names.score(text) >= 85.0 for text in texts)
        first += bool(sure) and sure[0]
        told += len(texts)
    if not filled:
        return 0.0
    # A description before a name makes no list of both.
    several = sure_names / told if told >= 1.5 * filled and first >= 0.2 * filled else 0.0
    return max(good, several * filled) / len(sample)
