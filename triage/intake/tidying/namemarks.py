"""Marks in brackets before the names of modules, or behind them, that a legend of the text explains: each is written
out as the answer that it stands for.

>>> from triage.intake.plain.characters import lines
>>> text = ("[!] ABS\\n    C0035\\n[ ] EPS Steering\\n[?] Radio\\n[-] Horn  not fitted\\n"
...     "[!] faults stored  [ ] no faults  [?] no reply  [-] not fitted")
>>> [line.text for line in told(lines(text), lambda name: name in ("ABS", "EPS Steering", "Radio"))]
['ABS', '    C0035', 'EPS Steering    no faults', 'Radio    no reply', 'Horn  not fitted', '']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from triage.intake.codes.found import find
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import Line, low, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell, spoken

_MARK = r"(?:\[\s{0,2}([^\s\[\]]{0,3})\s{0,2}\]|\(\s?([^\s()a-zA-Z0-9]{1,2})\s?\)|<\s?([^\s<>]{0,2})\s?>)"
_FIRST, _LAST = lazily(rf"\s*{_MARK}\s{{1,4}}(?=[^\W\d_])"), lazily(rf"[\s.]+{_MARK}\s*$")
_ENTRY = lazily(rf"(?<!\w){_MARK}\s*(?:[=:]|-+>?|\u2013)?\s*(?=[^\W\d_])")
#: What a legend says of a module that holds codes; those are listed below it.
_CODES = lazily(
    r"(?:(?:has|with|mit|hat|avec|con)\s)?(?:(?:active|stored|gespeicherte?r?)\s)?(?:faults?|dtcs?|(?:trouble |"
    r"fault )?codes?|"
    r"fehler(?:codes?|speichereintrag)?|eintrage?|defauts?|averias?|fallos?|codigos?)(?:\s(?:present|found|stored|set|"
    r"logged|gespeichert|vorhanden|gefunden|memorises?|presents?|almacenad[oa]s?|presentes?|en memoria))?(?:\s?\(s\))?"
)
_EDGE, _LONGEST, _FEWEST = " \t,;|/=:.-\u2013", 240, 2


def told(found: Sequence[Line], is_name: Callable[[str], bool]) -> Sequence[Line]:
    """The lines, such marks as answers and the legend left blank; the same lines where none explains any. Linear."""
    may = [at for at, line in enumerate(found) if ("[" in line.text or "(" in line.text or "<" in line.text)
           and len(line.text) <= _LONGEST]
    if len(may) <= _FEWEST:
        return found
    meant: dict[str, str] = {}
    legend: set[int] = set()
    for at in may:
        if entries := _entries(found[at]):
            meant |= entries
            legend.add(at)
    if len(meant) < _FEWEST or not any(meant.values()):
        return found
    marked = {at: match for at in may if at not in legend and (match := _marked(found[at], meant)) is not None}
    names = sum(is_name(tidy(_without(found[at], match))) for at, match in marked.items())
    if len(marked) < _FEWEST or 2 * names < len(marked):
        return found
    out = list(found)
    for at in legend:
        out[at] = reworded(found[at], 0, len(found[at].text), "")
    for at, match in marked.items():
        out[at] = _written(found[at], match, meant[_mark(match)])
    return out


def _mark(match: re.Match[str]) -> str:
    """What stands in the brackets."""
    return next((part for part in match.groups() if part), "").lower()


def _entries(line: Line) -> dict[str, str]:
    """What a line of a legend says that marks stand for, "" for codes that are listed; empty for any other line."""
    heads = list(_ENTRY.finditer(line.text))
    if not heads or (heads[0].start() and not line.text[: heads[0].start()].rstrip().endswith((":", "=", "-"))
                     and line.text[: heads[0].start()].strip()):
        return {}
    found: dict[str, str] = {}
    stops = [*(head.start() for head in heads[1:]), len(line.text)]
    for head, stop in zip(heads, stops, strict=True):
        said = line.text[head.end() : stop].strip(_EDGE)
        if answer_of_cell(low(said)) is not None:
            found[_mark(head)] = said
        elif _CODES.fullmatch(low(said)) is not None:
            found[_mark(head)] = ""
        else:
            return {}
    return found


def _marked(line: Line, meant: dict[str, str]) -> re.Match[str] | None:
    """The mark before the name of a module, or behind it."""
    match = _FIRST.match(line.text) or _LAST.search(line.text, max(0, len(line.text) - 80))
    return match if match is not None and _mark(match) in meant and not find(line.text, line.low).codes else None


def _without(line: Line, match: re.Match[str]) -> str:
    """The text of a line without its mark, up to a gap."""
    text = line.text[match.end() :] if match.end() < len(line.text) else line.text[: match.start()]
    return re.split(r"\s{3,}", text.strip(" ."))[0]


def _written(line: Line, match: re.Match[str], answer: str) -> Line:
    """The line without its mark and with the answer behind the name, where it tells none itself."""
    behind = match.end() == len(line.text)
    start = match.start() if behind else match.end(0) - len(match[0].lstrip())
    bare = line.low[: match.start()] if behind else line.low[match.end() :]
    told = not answer or bool(spoken(bare)) or bool(states.in_text(bare))
    end = len(line.text) if not behind else start
    if not told:
        line = reworded(line, end, len(line.text), f"    {answer}")
    elif behind:
        return reworded(line, start, len(line.text), "")
    return line if behind else reworded(line, start, match.end(), "")


__all__ = ["told"]
