"""Lists of the same modules one after the other in a text that tells of other scans by their phases, with own words
between them ("Fuse renewed:", "8:40 engine running, 12.2 V"), and scans of one line each, led by such words. Codes of
one list and the answers of the next are never one scan: where a list denies the one above it (no codes then codes,
silent then answering), or stands under words for what was done or another supply, it is headed as a scan of its own.

>>> from triage.intake.plain.characters import lines
>>> said = "before clear 9.8 V\\nABS: no reply\\nEPS: none\\nFuse renewed:\\nABS: C0035\\nEPS: none"
>>> found, heads = told(lines(said), {"abs", "eps"}.__contains__)
>>> [line.text for line in found][3:5], [head.number for head in heads]
(['Scan 51:', 'Fuse renewed:'], [4])
>>> said = "Before clear 9.8 V: ABS C0035; EPS none\\nHot, 14.1 V: ABS none; EPS none"
>>> [line.text for line in told(lines(said), {"abs", "eps"}.__contains__)[0]]
['Before clear 9.8 V:', 'ABS C0035', 'EPS none', 'Scan 51: Hot, 14.1 V:', 'ABS none', 'EPS none']
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from triage.intake.lines.goingon import LINKS, last_word
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, line_of, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import conditions, dates, phases, states, volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.tidying.scanlead import is_lead

_CODE = lazily(r"(?<![a-z0-9])(?:[pcbu][0-9a-f]{4}(?![0-9a-f])|spn ?[0-9]{1,6})")
#: The name of a module, and the codes or the answer behind it.
_ENTRY = lazily(
    r"[\s|>*-]*([a-z][a-z0-9 /_.()-]{0,38}?)\s*(?:[:=|\t]|\s{2,}|\s-+(?=[\s;,]|$)|"
    r"\s(?=(?:[pcbu][0-9a-f]{4}|spn ?[0-9]|ok|none|nil|"
    r"nothing|clean|clear|silent|dead|no|not|all|still|kein|keine|nichts|aucun|rien|pas|sin|ningun|nada)(?![a-z]))|$)"
)
_DASHES = lazily(r"[\s:=-]*-[\s-]*")
#: What parts the modules of a scan told in one line, and what leads the first of them.
_PARTS = lazily(r"\s*[;|]\s+|,\s+")
_LED = lazily(r"\s?:\s+|\s(?:-{1,2}|\u2013|\u2014)\s+")
#: That a module answers at all says nothing of its codes.
_ANSWERS = lazily(r"[\s:=-]*(?:ok(?:ay)?|i\.? ?o\.?|answer\w*|respond\w*|present|online|connected|communicat\w*|"
                  r"reached|alive)[\s.]*")
#: Words of a list that stands beside others of the same scan.
_KINDS = lazily(
    r"(?<![a-z])(?:modes?|services?|memor(?:y|ies|ia)|memoire|\w*speicher|readiness|monitors?|freeze|details?|overview|"
    r"summary|topology|ubersicht|zusammenfassung|resume[ns]?|modos?|communication|kommunikation)(?![a-z])|\$[0-9a-f]{2}")
#: So few words beside a phase leave it the heading that it is.
_WORD, _FEW = lazily(r"[a-z]+"), 2
_RULE = lazily(r"[\s=*_~#|:+-]*")
_WORDS = lazily(r"[a-z]{2}")
_LONGEST, _LONGEST_LEAD, _MOST_PARTS, _FIRST_NUMBER = 160, 90, 40, 51
#: A letter or two alone are a status.
_SHORTEST = 3


@dataclass(slots=True)
class _Entry:
    """What a line, or a name and the lines below it, tells of a module."""

    at: int
    name: str
    codes: set[str] = field(default_factory=set)
    #: "silent", "clean", or "" where nothing is said; a module that merely answers is not clean.
    answer: str = ""
    rows: int = 1

    def denies(self, before: _Entry) -> bool:
        """Whether both can't be said of one module in one scan."""
        mine, theirs = self.codes, before.codes
        if mine and theirs:
            return bool(theirs - mine and theirs & mine)
        told, other = self.answer or ("codes" if mine else ""), before.answer or ("codes" if theirs else "")
        return bool(told and other) and told != other


def told(found: Sequence[Line], is_name: IsName) -> tuple[list[Line], list[Line]]:
    """The lines with each such list headed, and the lines that were taken for headings. Linear."""
    cut, led = _cut(found, is_name)
    entries = _entries(cut, is_name)
    heads = sorted({*_heads(cut, entries), *led}) if len({entry.name for entry in entries}) < len(entries) else []
    if not heads:
        return list(found), []
    numbers = {at: number for number, at in enumerate(heads, _FIRST_NUMBER)}
    parts = [_head(line, numbers[at]) if at in numbers else [line] for at, line in enumerate(cut)]
    return [line for each in parts for line in each], [cut[at] for at in heads]


def _head(line: Line, number: int) -> list[Line]:
    """What heads a scan, above the words that tell of it, or before them where they tell its one supply."""
    text = f"Scan {number}:"
    if len(volts.find(line.low)) == 1 and line.text[:1].strip():
        return [reworded(line, 0, 1, f"{text} {line.text[0]}")]
    return [line_of(line.number, line.raw, text, (0,) * len(text), line.own), line]


def _part(line: Line, start: int, end: int) -> Line:
    """A stretch of a line as a line of its own."""
    places = line.offsets or tuple(range(len(line.text) + 1))
    return line_of(line.number, line.raw, line.text[start:end], tuple(places[start:end]), line.own)


def _cut(found: Sequence[Line], is_name: IsName) -> tuple[list[Line], list[int]]:
    """The lines, each scan told in one line cut into its words and its modules: where two or more tell of the same
    modules, and words stand before one of them that no other pass takes for a scan; and the places of those words, but
    of the first scan."""
    cuts = {at: spans for at, line in enumerate(found) if (spans := _spans(line, is_name))}
    names = [frozenset(_name(found[at], span) for span in spans[1:]) for at, spans in cuts.items()]
    leads = [found[at].low[spans[0][0] : spans[0][1]].rstrip(" :-") for at, spans in cuts.items()]
    if len(cuts) < 2 or all(map(is_lead, leads)) or not all(len(one & two) > 1 for one, two in pairwise(names)):
        return list(found), []
    whole: list[Line] = []
    led = []
    for at, line in enumerate(found):
        if at in cuts and at > min(cuts):
            led.append(len(whole))
        whole += [_part(line, *span) for span in cuts[at]] if at in cuts else [line]
    return whole, [at for at in led if not _opens(whole[at].low)]


def _name(line: Line, span: tuple[int, int]) -> str:
    """The name that a stretch begins with."""
    entry = _ENTRY.match(line.low[span[0] : span[1]])
    return entry[1] if entry is not None else ""


def _spans(line: Line, is_name: IsName) -> list[tuple[int, int]]:
    """The places of the words that lead a scan told in one line, and of each of its modules; none in any other line."""
    low = line.low
    marks = [match.span() for match in _PARTS.finditer(low)] if len(low) < 1200 and (";" in low or "," in low) else []
    if not 1 <= len(marks) <= _MOST_PARTS:
        return []
    lead = next((match.end() for match in _LED.finditer(low, 0, _LONGEST_LEAD) if (name := _ENTRY.match(
        low[match.end() : match.end() + _LONGEST])) is not None and is_name(name[1])), 0)
    if not lead:
        return []
    stops = [*(start for start, _ in marks[1:]), len(low)]
    marks = [mark for mark, stop in zip(marks, stops, strict=True)
             if mark[0] > lead and _begins(low[mark[1] : stop], is_name)]
    spans = list(zip([0, lead, *(end for _, end in marks)], [lead, *(start for start, _ in marks), len(low)],
                     strict=True))
    if len(spans) < 3 or any(_result(low[start:end])[1:] == (set(), "") for start, end in spans[1:]):
        return []
    return [(start, start + len(low[start:end].rstrip())) for start, end in spans]


def _begins(low: str, is_name: IsName) -> bool:
    """Whether a text begins with the name of a module and what is told of it."""
    entry = _ENTRY.match(low[:_LONGEST])
    return entry is not None and is_name(entry[1])


def _result(low: str) -> tuple[str, set[str], str]:
    """The name that a text begins with, and the codes or the answer behind it."""
    entry = _ENTRY.match(low)
    if entry is None:
        return "", set(), ""
    codes = set(_CODE.findall(low))
    return entry[1], codes, "" if codes else _answer(low[entry.end(1) :])


def _answer(said: str) -> str:
    """What a text says of a module that holds no codes: "silent", "clean", "answers", or nothing."""
    if len(said) > _LONGEST:
        return ""
    if _DASHES.fullmatch(said):
        return "clean"
    if _ANSWERS.fullmatch(said):
        return "answers"
    return answer_of_cell(said.strip(" :=.|-")) or ""


def _entries(found: Sequence[Line], is_name: IsName) -> list[_Entry]:
    """What is told of each module, in the order of the lines."""
    entries: list[_Entry] = []
    known: dict[str, bool] = {}
    last: _Entry | None = None
    row = 0
    for at, line in enumerate(found):
        match = _ENTRY.match(line.low) if line.low else None
        if match is not None and match[1] not in known:
            # Behind a number stands its description, which may be called like a module.
            known[match[1]] = _CODE.match(match[1]) is None and is_name(match[1])
        if match is not None and known[match[1]] and answer_of_cell(line.low.strip()) is None and (
                not _is_told_of_code(found, at)):
            _, codes, answer = _result(line.low)
            if last is not None and last.name == match[1] and at == row + 1 and not (answer or last.answer):
                # Each row has its module: two rows of one are what one list tells of it.
                last.codes |= codes
                last.rows += 1
            else:
                last = _Entry(at, match[1], codes, answer)
                entries.append(last)
            row = at
        elif last is not None and line.low.strip():
            codes = set(_CODE.findall(line.low))
            last.codes |= codes
            if not codes and at == last.at + 1 and not last.codes and not last.answer:
                last.answer = _answer(line.low)
    for entry in entries:
        entry.answer = "" if entry.codes or entry.answer == "answers" else entry.answer
    return entries


def _is_told_of_code(found: Sequence[Line], at: int) -> bool:
    """Whether a line stands right below a code that stands alone in its line, or below the status of such a one, or
    goes on with a description ("U0155 lost contact with"): it tells what that means, whatever it is called like."""
    above = at - 1
    if above >= 0 and last_word(found[above].low) in LINKS:
        return True
    if above > 0 and (low := found[above].low.strip(" ()[]<>")) and (
            len(low) < _SHORTEST or states.of_cell(low) is not None):
        above -= 1
    low = found[above].low if above >= 0 else ""
    return _CODE.search(low) is not None and _WORDS.search(_CODE.sub("", low).replace("fmi", "")) is None


@dataclass(slots=True)
class _Gap:
    """What stands between the entry before and one that comes next."""

    #: The places of lines in words of their own.
    words: list[int] = field(default_factory=list)
    blank: int | None = None
    #: A line begins a scan by itself: by its phase, its number or its date.
    opens: bool = False


def _gaps(found: Sequence[Line], entries: Sequence[_Entry]) -> list[_Gap]:
    """What stands before each entry."""
    gaps = []
    for before, entry in zip([None, *entries[:-1]], entries, strict=True):
        gap = _Gap()
        for at in range(0 if before is None else before.at + 1, entry.at):
            low = found[at].low
            if not low.strip():
                gap.blank = at
            elif _opens(low):
                gap.opens = True
            elif not (_CODE.search(low) or _RULE.fullmatch(low) or not _SHORTEST <= len(low.strip()) <= _LONGEST
                      or (before is not None and at == before.at + 1 and _answer(low))):
                gap.words.append(at)
        gaps.append(gap)
    return gaps


def _opens(low: str) -> bool:
    """Whether a line begins a scan wherever it stands: words beside a phase may hide it."""
    bare = low.strip(" >#=*-_:.|")
    if is_lead(bare) or phases.scan_head(bare) is not None or dates.find(low):
        return True
    hit = phases.find(bare)
    return hit is not None and len(_WORD.findall(bare[: hit.start] + " " + bare[hit.end :])) <= _FEW


def _heads(found: Sequence[Line], entries: Sequence[_Entry]) -> list[int]:
    """The places of the lines that head a scan though nothing else tells it."""
    gaps, heads, parted = _gaps(found, entries), [], 0
    scan: dict[str, int] = {}
    for place, entry in enumerate(entries):
        if gaps[place].opens:
            scan, parted = {}, 0
        elif gaps[place].words or (gaps[place].blank is not None and scan and entry.name == next(iter(scan))):
            # In a list whose rows each name their module a note stands between two rows of one.
            goes_on = place and entries[place - 1].name == entry.name and any(
                entries[at].rows > 1 for at in scan.values())
            parted = parted if goes_on else place
        if entry.name in scan and parted > scan[entry.name]:
            run = _run(entries, gaps, parted)
            above = {name: entries[at] for name, at in scan.items()}
            head = _head_of(found, gaps[parted]) if _is_again(found, gaps, parted, above, run) else None
            if head is not None:
                heads.append(head)
                scan = {other.name: at for at, other in enumerate(entries[parted:place], parted)}
        scan.setdefault(entry.name, place)
    return heads


def _run(entries: Sequence[_Entry], gaps: Sequence[_Gap], start: int) -> dict[str, _Entry]:
    """The entries from a place on, up to one that comes again or a line that begins a scan."""
    run: dict[str, _Entry] = {}
    for at in range(start, min(len(entries), start + _MOST_PARTS)):
        if entries[at].name in run or (run and gaps[at].opens):
            break
        run[entries[at].name] = entries[at]
    return run


def _is_again(found: Sequence[Line], gaps: Sequence[_Gap], start: int, above: Mapping[str, _Entry],
              run: Mapping[str, _Entry]) -> bool:
    """Whether a list tells of the modules above it once more, in another scan."""
    shared, least = above.keys() & run.keys(), min(len(above), len(run))
    lows = [found[at].low for at in gaps[start].words]
    if 2 * len(shared) < least or any(_is_of_kind(low) for low in lows):
        return False
    if least < 2:
        # Of one module alone, below a list of several: one that was silent answers, or the other way round. A key that
        # names each module ("Unit=") stands above all alone.
        name = next(iter(shared))
        told, before = run[name], above[name]
        return bool(lows) and len(above) > 1 and told.denies(before) and "silent" in (told.answer, before.answer)
    return any(run[name].denies(above[name]) for name in shared) or any(map(_tells_of_scan, lows))


def _is_of_kind(low: str) -> bool:
    """Whether words head a list of one kind, which may be of the same scan as the one above: "Pending:"."""
    answers = low.rstrip()[-1:] == ":" and bool(spoken(low))
    return answers or _KINDS.search(low) is not None or bool(states.in_text(low))


def _tells_of_scan(low: str) -> bool:
    """Whether words tell what was done before a scan, or how the engine ran in it."""
    said = conditions.find(low)
    return bool(phases.events(low) or said.ran_minutes or said.drove or (said.engine and volts.find(low)))


def _head_of(found: Sequence[Line], gap: _Gap) -> int | None:
    """The line that heads such a list: of the words right above it the last that tells of a scan, or the last; the gap
    where no words stand. None where they tell of modules."""
    if not gap.words:
        return gap.blank
    nearest = gap.words[-1:]
    for at in reversed(gap.words[:-1]):
        if at + 1 != nearest[-1]:
            break
        nearest.append(at)
    head = next((at for at in nearest if _tells_of_scan(found[at].low) or volts.find(found[at].low)), nearest[0])
    return None if spoken(found[head].low) or role_of(found[head].low.strip(" :")) is not None else head


__all__ = ["told"]
