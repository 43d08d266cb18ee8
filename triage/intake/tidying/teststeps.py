"""Protocols of test steps, some of which read the memory of a module: "Step 3: read fault memory: ABS / Result: C0035".
The name is put alone in its line, and what was found below it without its label; other steps, measured or looked at,
get their result into their own line and tell of no module.

>>> from triage.intake.plain.characters import lines
>>> said = "1. Look at the earths\\n   -> ok\\n2. Read codes: ABS\\n   -> C0035\\n3. Read codes: Radio\\n   -> none"
>>> [line.text for line in told(lines(said))]
['Look at the earths: ok', 'ABS', '    C0035', 'Radio: no codes']
>>> said = "Test 1 | Fehler lesen: ABS | Befund: C0035 lose // C0040\\nTest 2 | Fehler lesen: Radio | Befund: keine"
>>> [line.text for line in told(lines(said))]
['ABS', '    C0035 lose', '    C0040', 'Radio: no codes']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.lines.glue import lines_glued, together
from triage.intake.plain.characters import Line, has_digit, has_letter, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell

#: What numbers a step, behind the marks of a quote: "Step 3:", "3.", "03 |".
_STEP = lazily(r"[\s>]*(?P<word>[a-z]{3,16}|)\s{0,3}[0-9]{1,3}(?:\.[0-9]{1,2})?\s?(?P<mark>[.:|)])\s*(?=[a-z])")
_WORD = lazily(r"\s*([^\s:=|-]+)")
_READS = word_set(
    "read reading reads readout retrieve retrieving query querying interrogate interrogating poll polling "
    "auslesen lesen abfragen abfrage auslesung ausgelesen lire lecture relever releve interroger "
    "leer lectura consultar consulta interrogar"
)
_FAULTS = word_set(
    "fault faults dtc dtcs code codes memory memories error errors trouble fehlerspeicher fehlerspeichers fehler "
    "fehlercode fehlercodes fehlereintrage ereignisspeicher speicher defauts defaut erreurs memoire averia averias "
    "fallo fallos errores memoria codigos"
)
_FILLERS = word_set(
    "out the all stored any of from in at for des de du la le les l en dans sur der die das den dem vom von im aus "
    "el los las del al d'erreur d'erreurs"
)
#: What stands between the act and the name, and between the name and what was found.
_APART = lazily(r"\s*(?:[:=|]|-+>?)\s*")
_ENDS = lazily(r"\||[-=]>|\t|(?<=\s)>(?=\s)")
_LABEL = lazily(r"[\s>]*([a-z]{3,16})\s?:(?!\S)\s*")
_ARROW = lazily(r"[\s>]*[-=]+>\s*")
_BARE = lazily(r"[\s>]*")
#: What a code begins with, of whatever form.
_ENTRY = lazily(r"[\[(*]?(?:[a-z]{1,3}[ -]?)?[0-9][0-9a-f]{2}|[\[(*]?[0-9a-f]{2,6}(?=[ :]|$)(?=[^ :]*[0-9])")
_STROKES = " // "
#: With them no line ends; so much of the widest line makes one full.
_OPEN, _NEARLY = (":", "|", "//"), 0.85
_LONGEST_NAME = 80
_INDENT, _FEWEST, _LONGEST_WRAPPED, _MOST, _FAR = "    ", 2, 200, 200, 1000


class _Step(NamedTuple):
    """A step: its line, with what was wrapped of it; where its words begin and end; whether they are the name of a
    module whose memory is read; the lines below that are of it too, and how many lines it takes."""

    line: Line
    start: int
    end: int
    reads: bool
    below: list[Line]
    takes: int


def told(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, such steps written out; the same lines where no two steps read a memory. Linear."""
    starts = {at: match for at, line in enumerate(found)
              if has_digit(line.low[:24]) and (match := _STEP.match(line.low)) is not None}
    reading = [at for at, match in starts.items() if _name_at(found[at].low, match.end()) is not None]
    if len({found[at].low[starts[at].end() :] for at in reading}) < _FEWEST:
        return found
    width = max(len(line.text.rstrip()) for line in found)
    kinds = {(starts[at]["word"], starts[at]["mark"]) for at in reading}
    steps = {at: _step(found, at, end, starts[at].end(), width) for at, end in pairwise([*starts, len(found)])
             if (starts[at]["word"], starts[at]["mark"]) in kinds}
    labels = _labels(steps.values())
    out: list[Line] = []
    done = 0
    for at, step in steps.items():
        if lines := _written(step, labels):
            out += [*found[done:at], *lines]
            done = at + step.takes
    return [*out, *found[done:]]


def _name_at(low: str, at: int) -> int | None:
    """Where the name of the module begins whose memory the words from a place on are about to read; else None."""
    told = set[str]()
    while (match := _WORD.match(low, at)) is not None and match[1] in _READS | _FAULTS | _FILLERS:
        told.add(match[1])
        at = match.end()
    apart = _APART.match(low, at)
    if apart is None or _READS.isdisjoint(told) or _FAULTS.isdisjoint(told):
        return None
    at = apart.end()
    ends = _ENDS.search(low, at)
    name = low[at : ends.start() if ends is not None else len(low)].strip()
    if apart[0].strip() == "|" or not 1 < len(name) <= _LONGEST_NAME or not has_letter(name) or find(name).codes:
        return None
    return at if answer_of_cell(name) is None and states.of_cell(name) is None else None


def _step(found: Sequence[Line], at: int, end: int, start: int, width: int) -> _Step:
    """The step that begins in a line, and goes on at most to another."""
    line, below, stop = found[at], list[Line](), at + 1
    barred = "|" in line.text[start:] or line.text[:start].rstrip().endswith("|")
    column = _column(line)
    while stop < min(end, at + _MOST) and found[stop].text.strip(" \t>"):
        more = found[stop]
        before = found[stop - 1].text.rstrip()
        full = len(before) + 1 + len(more.text.split()[0]) > _NEARLY * width and width <= _LONGEST_WRAPPED
        torn = barred and (before.endswith(_OPEN) or more.text.lstrip().startswith("|"))
        if not full and not torn and _column(more) <= column and not _is_led(more, line):
            break
        if barred:
            line = lines_glued(line, more, " ", start=_column(more))
        else:
            below.append(more)
        stop += 1
    name = _name_at(line.low, start)
    first = start if name is None else name
    ends = _ENDS.search(line.low, first)
    last = len(line.low[first : None if ends is None else ends.start()].rstrip(" \t-=")) + first
    return _Step(line, first, last, name is not None, below, stop - at)


def _column(line: Line) -> int:
    """Where the words of a line begin, behind the marks of a quote."""
    match = _BARE.match(line.text)
    return 0 if match is None else match.end()


def _is_led(line: Line, step: Line) -> bool:
    """Whether an arrow leads to what a line below a step tells; one is read as the mark of a quote."""
    if _ARROW.match(line.text) is not None:
        return True
    return line.text[: _column(line)].count(">") > step.text[: _column(step)].count(">")


def _labels(steps: Iterable[_Step]) -> set[str]:
    """The words that lead to what was found, each in several steps."""
    firsts = (step.line.low[_behind(step) :] or (step.below[0].low if step.below else "") for step in steps)
    told = Counter(match[1] for low in firsts if (match := _LABEL.match(low)) is not None)
    return {label for label, many in told.items() if many >= _FEWEST and states.of_cell(label) is None}


def _behind(step: _Step) -> int:
    """Where in its own line begins what stands behind the words of a step."""
    ends = _ENDS.search(step.line.low, step.end)
    at = len(step.line.low) if ends is None else ends.end()
    return at + len(step.line.low[at:]) - len(step.line.low[at:].lstrip())


def _written(step: _Step, labels: set[str]) -> list[Line]:
    """The lines of a step written out; none where nothing tells what was found."""
    results = _inline(step, labels) or _below(step, labels)
    words = together((step.line, step.start, step.end))
    if step.reads and len(results) == 1 and answer_of_cell(results[0].low) == "clean":
        # That is said of the memory, and not of a part that the module is called like.
        results = [reworded(results[0], 0, len(results[0].text), "no codes")]
    if step.reads and (len(results) != 1 or has_digit(results[0].text)):
        below = [together((words, 0, 0), _INDENT, (line, 0, len(line.text))) for line in results]
        return [words, *(below or step.below)]
    if not results:
        return []
    line = together((words, 0, len(words.text)), ": ", (results[0], 0, len(results[0].text)))
    line.work = not step.reads and not has_digit(results[0].text)
    return [line, *results[1:]]


def _inline(step: _Step, labels: set[str]) -> list[Line]:
    """What was found as it stands in the line of a step."""
    line, start = step.line, _behind(step)
    label = _LABEL.match(line.low, start)
    start = label.end() if label is not None and label[1] in labels else start
    found: list[Line] = []
    for piece in line.text[start:].split(_STROKES):
        bare = piece.strip()
        if bare:
            first = start + piece.find(bare)
            found.append(together((line, first, first + len(bare))))
        start += len(piece) + len(_STROKES)
    return found


def _below(step: _Step, labels: set[str]) -> list[Line]:
    """What was found as it stands below a step: a piece at each arrow, or in the column that begins behind a label."""
    found: list[Line] = []
    column = 0
    for line in step.below:
        label = _LABEL.match(line.low)
        is_led = label is not None and label[1] in labels
        arrow = None if is_led else _ARROW.match(line.low)
        start = _column(line)
        if label is not None and is_led:
            column = start = label.end()
        elif arrow is not None or _is_led(line, step.line):
            column, is_led = _FAR, True
            start = max(start, arrow.end() if arrow is not None else 0)
        end = len(line.text.rstrip())
        if not column:
            # Nothing leads to what was found.
            return []
        goes_on = abs(start - column) > 1 or line.text[start : start + 1] == "("
        if found and not is_led and goes_on and _ENTRY.match(line.low, start) is None:
            found[-1] = lines_glued(found[-1], line, " ", start=start)
        elif start < end:
            found.append(together((line, start, end)))
    return found


__all__ = ["told"]
