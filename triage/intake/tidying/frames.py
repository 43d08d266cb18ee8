"""What a program put around all lines of a text or of a part of it: the marks of a quote, the sides of a box, the
numbers of lines, the time at which each was written, the indent of all. Taken off before anything else is read, in
whatever order they stand around one another, each character still tied to its place.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in taken_off(lines("he wrote:\\n| ABS: C0035\\n|\\n| ECM: no codes"))]
['he wrote:', 'ABS: C0035', '', 'ECM: no codes']
>>> text = "> 1  [10:02] ABS:\\n> 2  [10:02]   C0035\\n> 3  [10:03] ECM: no codes"
>>> [line.text for line in taken_off(lines(text))]
['ABS:', '  C0035', 'ECM: no codes']
>>> [line.text for line in taken_off(lines("| ABS | C0035 |\\n| ECM | none |"))]
['| ABS | C0035 |', '| ECM | none |']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import pairwise

from triage.intake.codes.found import find
from triage.intake.lines import goingon
from triage.intake.lines.spacing import with_places
from triage.intake.naming.heads import is_head, role_of
from triage.intake.plain.characters import Line, has_letter, indent_of, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases
from triage.intake.said.near import small
from triage.intake.tidying import logs

_BAR, _MARK = "|", ">"
_KEY_BELOW = lazily(r"\s*\|\s+[^\W\d_][^:=|]{1,40}[:=](?:\s|$)")
#: Fewer lines with a mark may be items of a list, unless they are all of the text.
_FEWEST = 3
#: How many frames may stand around one another.
_DEEPEST = 6
#: What is quoted is set in no farther.
_WIDEST = 12
#: A line that is one cell in quotes, and the marks of comments and items.
_CELL = lazily(r'"[^"]*(?:""[^"]*)*"\s*')
_DOUBLED = lazily('""')
_COMMENT = lazily(r"[ \t]{0,8}(?:#{1,2}|//|;|%|\*|--|-|\+|\u2022)(?=\s|$)")
_FEWEST_BOXED = 4
_RULE = lazily(r"[\s|+=_-]*$")
#: The number of a line; two digits of which the first is a zero may be an address.
_NUMBER = lazily(r"\s{0,6}(?P<number>[1-9][0-9]{0,5}|0[0-9]{2,5}|0)(?:(?P<mark>[:.)|])(?=\s|$)|(?=\s|$))")
_FEWEST_NUMBERED = 4
_DAY = r"(?:[0-9]{4}[-/.][0-9]{2}[-/.][0-9]{2}|[0-9]{1,2}[-/.][0-9]{1,2}[-/.][0-9]{2,4})"
#: The time at which a line was written.
_STAMP = lazily(
    rf"\s{{0,4}}(?P<open>[\[(<]?)(?P<told>(?:(?P<day>{_DAY})[T ,]{{1,2}})?"
    r"(?P<hour>[0-2]?[0-9]):(?P<minute>[0-5][0-9])(?P<second>:[0-5][0-9](?:[.,][0-9]{1,6})?)?(?:\s?(?:[AaPp][Mm]|[Uu]hr|hrs?)(?![a-z]))?)"
    r"(?:Z|[+-][0-9]{2}:?[0-9]{2})?(?P<close>[\])>]?)(?=\s?[|-]\s|\s|$)")
#: Who wrote it.
_SENDER = lazily(r"\s([A-Z\u00c0-\u00de][\w.'-]{0,24}):\s")
#: Between the time and the text.
_DASH = lazily(r"\s?[|-](?=\s|$)")
#: So many lines that end in a full stop, and so large a part of all, with so many words at most in half of them.
_FEWEST_STOPPED, _STOPPED, _WORDS = 5, 0.8, 6
#: The full stop is that of a short form: "pend.", "Steuerg."
_SHORT_FORM = lazily(r"(?<![^\W\d_])[^\W\d_]{0,2}[bcdfghjklmnpqrstvwxz]{2}\.$")
#: A sentence ends within the line.
_SENTENCE = lazily(r"[^\W\d_]{3}[.!?]\s[^\W\d_]")
_SPLIT = lazily(r"\s*[|;\t]\s*|\s{2,}|,\s*")


def taken_off(
    found: Sequence[Line], are_messages: Callable[[Sequence[Line]], bool] = lambda lines: False
) -> list[Line]:
    """The lines without such frames. ``are_messages``: of people, whose names stand behind the times. Linear."""
    whole = list(found)
    for _ in range(_DEEPEST):
        before = whole
        for bare in (_unquoted, _uncelled, _unmarked, _unboxed, _unnumbered,
                     lambda lines: _unstamped(lines, are_messages), _set_out):
            whole = bare(whole)
        if whole is before:
            break
    return _unstopped(whole)


def _cut(line: Line, end: int) -> Line:
    """A line from a place on."""
    return reworded(line, 0, min(end, len(line.text)), "") if end else line


def _begin(line: Line) -> int:
    """Where the text of a line begins."""
    return len(line.text) - len(line.text.lstrip())


def _unquoted(found: list[Line]) -> list[Line]:
    """The lines without the mark of a quote, if all from the first to the last with one have it; those of parts of one
    that are quoted with a stroke with the common mark."""
    as_pasted, found = found, _with_one_mark(found)
    marked = [at for at, line in enumerate(found) if _MARK in line.text and line.text.lstrip()[0] == _MARK]
    if not marked or any(line.text.strip() and line.text.lstrip()[0] != _MARK
                         for line in found[marked[0] : marked[-1]]):
        # A stroke before keys alone quotes nothing: it sets in what is below a name.
        strokes = found is not as_pasted and all(_KEY_BELOW.match(as_pasted[at].text) for at in marked)
        return [_set_in(line) if _is_barred(line) else line for line in as_pasted] if strokes else found
    if len(marked) < _FEWEST and len(marked) < sum(bool(line.text.strip()) for line in found):
        return found
    kept = list(found)
    for at in marked:
        start = found[at].text.index(_MARK) + 1
        kept[at] = _cut(found[at], start + (found[at].text[start : start + 1] == " "))
    return kept


def _set_in(line: Line) -> Line:
    """A line with a blank for the stroke that it begins with."""
    start = line.text.index(_BAR)
    return reworded(line, start, start + 1, " ")


def _with_one_mark(found: list[Line]) -> list[Line]:
    """The lines, those quoted with a stroke with the common mark of a quote."""
    barred = [at for at, line in enumerate(found) if _BAR in line.text and _is_barred(line)]
    if not barred or not _quotes([found[at].text.strip() for at in barred]):
        return found
    kept = list(found)
    for at in barred:
        start = found[at].text.index(_BAR)
        kept[at] = reworded(found[at], start, start + 1, _MARK)
    return kept


def _is_barred(line: Line) -> bool:
    """Whether a line begins with a stroke; one farther to the right is drawn between the columns of a page."""
    return line.text.lstrip().startswith(_BAR) and line.text.index(_BAR) <= _WIDEST


def _quotes(texts: Sequence[str]) -> bool:
    """Whether the strokes before lines are marks of quotes: no other stands in them, or some have nothing behind them
    and none ends with one."""
    if all(text.count(_BAR) == 1 for text in texts):
        return True
    return _BAR in texts and not any(len(text) > 1 and text.endswith(_BAR) for text in texts)


def _uncelled(found: list[Line]) -> list[Line]:
    """The lines without the quotes of a cell, where each is one: a sheet with one column, as it is exported.

    >>> from triage.intake.plain.characters import lines
    >>> [line.text for line in taken_off(lines('"ABS ""front"": C0035, C0040"\\n"Radio"\\n'))]
    ['ABS "front": C0035, C0040', 'Radio', '']
    """
    if not found or found[0].text[:1] not in ('"', "") or any(line.text.strip() and _CELL.fullmatch(line.text) is None
                                                              for line in found):
        return found
    cells = [at for at, line in enumerate(found) if line.text.strip()]
    if len(cells) < 2:
        return found
    kept = list(found)
    for at in cells:
        line = kept[at]
        stop = len(line.text.rstrip()) - 1
        doubled = {match.start() for match in _DOUBLED.finditer(line.text, 1, stop)}
        kept[at] = with_places(line, [place for place in range(1, stop) if place not in doubled])
        kept[at].indent = indent_of(kept[at].text)
    return kept


def _unmarked(found: list[Line]) -> list[Line]:
    """The lines without the mark of a comment or an item that all of them begin with, at one place: it parts nothing.

    >>> from triage.intake.plain.characters import lines
    >>> [line.text for line in taken_off(lines("# ABS:\\n#   C0035\\n#\\n# Radio: no codes"))]
    ['ABS:', '  C0035', '', 'Radio: no codes']
    >>> [line.text for line in taken_off(lines("- ABS\\n  - C0035\\n- Radio"))]
    ['- ABS', '  - C0035', '- Radio']
    """
    filled = [at for at, line in enumerate(found) if line.text.strip()]
    first = _COMMENT.match(found[filled[0]].text) if len(filled) >= _FEWEST else None
    if first is None or not all(found[at].text.startswith(first[0]) for at in filled):
        return found
    rests = [rest for at in filled if (rest := found[at].text[first.end() :])]
    if not all(rest[0].isspace() for rest in rests):
        return found
    gap = all(rest[0] == " " for rest in rests)
    kept = list(found)
    for at in filled:
        kept[at] = _cut(found[at], first.end() + gap)
    return kept


def _unboxed(found: list[Line]) -> list[Line]:
    """The lines without the sides of a box that is drawn around them, which part no cells: some hold one text alone.
    The rows of a table among them keep theirs if they may be the borders of cells with nothing in them."""
    bars = [at for at, line in enumerate(found) if _BAR in line.text]
    bare = {at: found[at].text.strip() for at in bars}
    boxed = [at for at, text in bare.items() if len(text) > 1 and text[0] == text[-1] == _BAR]
    single = [at for at in boxed if bare[at].count(_BAR) == 2 and _RULE.match(bare[at]) is None]
    others = len(bars) - len(boxed)
    if others and (len(boxed) < _FEWEST_BOXED or len(single) < len(boxed)):
        return found
    inside = [text for at in boxed if (text := bare[at][1:-1].strip()) and _RULE.match(text) is None]
    edged = {text[0] == _BAR or text[-1] == _BAR for text in inside if _BAR in text}
    doubled = all(text[0] == text[-1] == _BAR for text in inside if _BAR in text)
    if not single and not (doubled and len(inside) > 1):
        return found
    rows = boxed if doubled or edged == {False} else single
    start = {at: found[at].text.index(_BAR) + 1 for at in rows}
    stop = {at: found[at].text.rindex(_BAR) for at in rows}
    least = min((begin - start[at] for at in rows if (begin := start[at] + _blanks(bare[at][1:-1])) < stop[at]),
                default=0)
    kept = list(found)
    for at in rows:
        line = reworded(found[at], stop[at], len(found[at].text), "")
        kept[at] = _cut(line, start[at] + least)
    return kept


def _blanks(text: str) -> int:
    """How many blanks a text begins with."""
    return len(text) - len(text.lstrip())


def _unnumbered(found: list[Line]) -> list[Line]:
    """The lines without their numbers, where all from the first to the last with one are counted: all of the text, or
    a part in which some are set in behind theirs or have nothing there. The items of a list have a text each.

    >>> from triage.intake.plain.characters import lines
    >>> [line.text for line in taken_off(lines(" 9: ECM\\n10:   P0562\\n11:\\n12: ABS"))]
    ['ECM', '  P0562', '', 'ABS']
    >>> [line.text for line in taken_off(lines("1: ECM\\n  P0562\\n2: ABS\\n  U0100"))]
    ['1: ECM', '  P0562', '2: ABS', '  U0100']
    """
    told = {at: match for at, line in enumerate(found) if (match := _NUMBER.match(line.text)) is not None}
    if not _count_on(found, told):
        return found
    ends = _behind_numbers(found, told)
    filled = [at for at, line in enumerate(found) if line.text.strip()]
    set_in = any(not (rest := found[at].text[end:]) or rest[0].isspace() for at, end in ends.items())
    if len(told) == len(filled):
        # "1 Radio", "2 Engine" are items: an editor sets its numbers off.
        set_off = all(found[at].text[0] == " " or end > match.end() + 1 or found[at].text[match.end() : end] == "\t"
                      for (at, match), end in zip(told.items(), ends.values(), strict=True))
        if not (set_in or set_off):
            return found
    else:
        first = next(iter(told))
        above = next((found[at].low for at in reversed(filled) if at < first), "")
        if len(told) < _FEWEST_NUMBERED or not set_in or is_head(_SPLIT.split(above.strip())):
            return found
    kept = list(found)
    for at, end in ends.items():
        kept[at] = _cut(found[at], end)
    return kept


def _count_on(found: Sequence[Line], told: dict[int, re.Match[str]]) -> bool:
    """Whether each line from the first to the last with a number has the next one, or that of its place where blank
    lines are counted, and the same mark behind it."""
    if len(told) < 2:
        return False
    first, last = min(told), max(told)
    if any(at not in told and found[at].text.strip() for at in range(first, last)):
        return False
    numbers = {at: int(match["number"]) for at, match in told.items()}
    if len({match["mark"] for match in told.values()}) > 1 or (len(told) < _FEWEST_NUMBERED and numbers[first] > 1):
        return False
    return all(two - one in (1, after - at) for (at, one), (after, two) in pairwise(numbers.items()))


def _behind_numbers(found: Sequence[Line], told: dict[int, re.Match[str]]) -> dict[int, int]:
    """Where each line goes on behind its number: in one column for all, or one gap behind each."""
    starts: dict[int, int] = {}
    gaps = {}
    for at, match in told.items():
        text, end = found[at].text, match.end()
        if text[end : end + 1] == "\t":
            gaps[at] = 1
        elif text[end:].strip():
            gaps[at] = _blanks(text[end:])
            wide = len(match["number"])
            starts[wide] = min(starts.get(wide, end + gaps[at]), end + gaps[at])
    if len(starts) > 1 and len(set(starts.values())) == 1 and "\t" not in {found[at].text[told[at].end() :][:1]
                                                                          for at in gaps}:
        return dict.fromkeys(told, next(iter(starts.values())))
    least = min(gaps.values(), default=0)
    return {at: match.end() + least for at, match in told.items()}


def _unstamped(found: list[Line], are_messages: Callable[[Sequence[Line]], bool]) -> list[Line]:
    """The lines without the time at which each was written, where all from the first to the last have one of the same
    form, none long after the one before. The first date stays, and the time before what tells of the scan."""
    told = {at: match for at, line in enumerate(found) if line.text.strip()
            and (match := _STAMP.match(line.text)) is not None}
    fewest = _FEWEST if len(told) < sum(bool(line.text.strip()) for line in found) else 2
    if len(told) < fewest or not _go_on(found, told) or are_messages(found) or _has_senders(found, told):
        return found
    first = next(iter(told))
    above = next((line.low for line in reversed(found[:first]) if line.text.strip()), "")
    if is_head(_SPLIT.split(above.strip())):
        return found
    bracketed, dated = bool(told[first]["open"]), bool(told[first]["day"])
    ends = {at: match.end() for at, match in told.items()}
    for mark in (_DASH, logs.LEVEL):
        behind = {at: match for at, end in ends.items() if (match := mark.match(found[at].text, end)) is not None}
        # "DTC" heads a column as well.
        if len(behind) == len(ends) or (mark is logs.LEVEL and 2 * len(behind) > len(ends)):
            ends |= {at: match.start() + len(match[0].rstrip()) for at, match in behind.items()}
    gaps = {at: _blanks(rest) for at, end in ends.items() if (rest := found[at].text[end:]).strip()}
    least = min(gaps.values(), default=0)
    kept: list[Line] = []
    for at, line in enumerate(found):
        if at not in told:
            kept.append(line)
            continue
        end = ends[at] + (least if at in gaps else 0)
        if at == first and dated:
            stamp = told[at].span("told")
            kept.append(_cut(reworded(line, stamp[1], len(line.text), ""), stamp[0]))
        if bracketed or dated or not _heads_scan(small(line.text[end:])):
            line = _cut(line, end)
        kept.append(line)
    return kept


def _has_senders(found: Sequence[Line], told: dict[int, re.Match[str]]) -> bool:
    """Whether half of the lines or more have a name before a colon behind their time, one of them again and again."""
    heads = [match[1].lower() for at, time in told.items() if (match := _SENDER.match(found[at].text, time.end()))]
    names = [name for name in heads if role_of(name) is None]
    return 2 * len(names) >= len(told) and len(set(names)) < len(names)


def _heads_scan(low: str) -> bool:
    """Whether what stands behind a time tells which scan it is of: the time is that of the scan too."""
    return low[:1].isalnum() and not find(low, low).codes and (
        phases.find(low) is not None or phases.scan_head(low) is not None)


def _go_on(found: Sequence[Line], told: dict[int, re.Match[str]]) -> bool:
    """Whether times of one form stand before all lines from the first to the last with one, and go on within minutes:
    scans are told apart by times that do not, unless they stand in brackets, as a chat shows them."""
    if any(at not in told and found[at].text.strip() for at in range(min(told), max(told))):
        return False
    forms = {(match["open"], match["close"], bool(match["second"])) for match in told.values()}
    days = {match["day"] for match in told.values()}
    if len(forms) > 1 or len(days) > 1:
        return False
    minutes = [60 * int(match["hour"]) + int(match["minute"]) for match in told.values()]
    most = 24 * 60 if next(iter(told.values()))["open"] else logs.APART - 1
    return all(0 <= two - one <= most for one, two in pairwise(minutes))


def _set_out(found: list[Line]) -> list[Line]:
    """The lines without the blanks and tabs that all of them begin with."""
    filled = [line for line in found if line.text.strip()]
    if not filled or any(line.text[0] not in " \t" for line in filled):
        return found
    lead = filled[0].text[: _begin(filled[0])]
    for line in filled:
        while not line.text.startswith(lead):
            lead = lead[:-1]
    return [_cut(line, len(lead)) if line.text.strip() else line for line in found] if lead else found


def _unstopped(found: list[Line]) -> list[Line]:
    """The lines without the full stop that all of a list end with, as a keyboard or somebody who dictates puts it: most
    are no sentences. One that holds sentences keeps its own.

    >>> from triage.intake.plain.characters import lines
    >>> text = "ABS.\\nCode: C0035.\\nState: stored.\\nEngine.\\nno codes.\\nWe rang. He is out."
    >>> [line.text for line in taken_off(lines(text))]
    ['ABS', 'Code: C0035', 'State: stored', 'Engine', 'no codes', 'We rang. He is out.']
    """
    texts = {at: text for at, line in enumerate(found) if (text := line.text.rstrip())}
    stopped = [at for at, text in texts.items() if text[-1] == "." and text[-2:-1] not in (".", "")]
    # Colons and commas stand in the place of a full stop.
    others = sum(text[-1] not in ":;,!?" and has_letter(text) for text in texts.values()) - len(stopped)
    if len(stopped) < _FEWEST_STOPPED or len(stopped) * (1 - _STOPPED) < others * _STOPPED:
        return found
    short = [at for at in stopped if texts[at].count(" ") < _WORDS or "  " in texts[at].strip()]
    if 2 * len(short) < len(stopped) or _goes_on(list(texts.values())):
        return found
    kept = list(found)
    for at in stopped:
        text = texts[at]
        if _SENTENCE.search(text) is None and _SHORT_FORM.search(text) is None:
            kept[at] = reworded(found[at], len(text) - 1, len(found[at].text), "")
    return kept


def _goes_on(texts: Sequence[str]) -> bool:
    """Whether a line breaks in a bracket or behind a small word: those with a full stop end sentences."""
    return any(goingon.tears_bracket(above, below) or goingon.last_word(small(above)) in goingon.LINKS
               for above, below in pairwise(texts) if above[-1] != ".")


__all__ = ["taken_off"]
