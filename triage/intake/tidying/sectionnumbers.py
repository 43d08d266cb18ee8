"""Numbered sections, "3 Units", "3.2 ABS", "3.2.1 C0035": what stands under what is told by the numbers alone. They are
taken off, and each line is set in as deep as its number has parts; lines without one belong to the number above.

>>> from triage.intake.plain.characters import lines
>>> text = "1. Vehicle\\n1.1 Kiel van\\n2. Units\\n2.1 ABS\\na) C0035\\n2.2 Engine\\na) P0562\\n2.3 Radio: none"
>>> for line in set_in(lines(text)):
...     print(line.text)
Vehicle
  Kiel van
Units
  ABS:
    a) C0035
  Engine:
    a) P0562
  Radio: none
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

#: "3.2", "3.2.1)", "B.2:", "Section 3.2 -"; the first level may be a number alone.
_NUMBER = lazily(
    r"\s*(?:(?:section|abschnitt|punkt|point|punto|§)\s?)?([a-z]|[0-9]{1,2})((?:\.[0-9]{1,2}){1,4}|(?=[.):]|\s))[.):]?"
    r"(?:\s+-+)?\s+(?=\S)(?!(?:v|volts?|voltios|l|km|mm|s|min|h|bar|ah?|mv)(?![a-z]))")
_STEP = "  "
#: So many numbers of several parts tell that a text is numbered; so far may the next be off, where a line was lost.
_FEWEST, _MOST_LOST = 3, 30

#: A number, by its parts.
Parts = tuple[int, ...]


def set_in(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without the numbers of sections, each as deep as its own. Linear."""
    numbers = [(at, parts, end) for at, line in enumerate(found) if (told := _number(line)) for parts, end in (told,)]
    if sum(len(parts) > 1 for _, parts, _ in numbers) < _FEWEST:
        return found
    run = _run(numbers)
    parted = [at for at, (parts, _) in run.items() if len(parts) > 1]
    if len(parted) < _FEWEST or len(parted) < 0.8 * sum(len(parts) > 1 for _, parts, _ in numbers):
        return found
    laid: list[Line] = []
    depth = 0
    for at, line in enumerate(found):
        if at in run:
            parts, end = run[at]
            depth = len(parts)
            laid.append(_at(line, end, depth - 1))
        elif depth and line.text.strip():
            laid.append(_at(line, len(line.text) - len(line.text.lstrip()), depth))
        else:
            laid.append(line)
    return [_heading(line, laid[at + 1 : at + 3]) if found[at] is not line else line for at, line in enumerate(laid)]


def _heading(line: Line, below: Sequence[Line]) -> Line:
    """A line that stands right above one with a code that is set in further, with the colon of a heading."""
    entry = next((other for other in below if other.text.strip()), None)
    text = line.text.rstrip()
    if entry is None or entry.indent <= line.indent or ":" in text or not (text[-1:].isalnum() or text[-1:] == ")"):
        return line
    # Of one part is the title of the sections below it.
    if not line.indent or find(text).codes or not find(entry.text).codes:
        return line
    return reworded(line, len(text) - 1, len(line.text), f"{text[-1]}:")


def _at(line: Line, start: int, depth: int) -> Line:
    """A line from a place on, set in."""
    if not start:
        return reworded(line, 0, 1, _STEP * depth + line.text[0])
    return reworded(line, 0, start, _STEP * depth)


def _number(line: Line) -> tuple[Parts, int] | None:
    """The number before a line, and where it ends."""
    if line.text.lstrip()[:1] == "" or (match := _NUMBER.match(line.low)) is None:
        return None
    first = int(match[1]) if match[1].isdigit() else ord(match[1]) - ord("a") + 1
    if not match[2] and not match[1].isdigit():
        # "a)" counts the entries of a list.
        return None
    return (first, *map(int, match[2].split(".")[1:])), match.end()


def _run(numbers: Sequence[tuple[int, Parts, int]]) -> dict[int, tuple[Parts, int]]:
    """By the places of lines: the numbers that follow one another, with where they end."""
    run: dict[int, tuple[Parts, int]] = {}
    last: Parts = ()
    for place, (at, parts, end) in enumerate(numbers):
        below = numbers[place + 1][1] if place + 1 < len(numbers) else ()
        # A number alone may count anything: a section has others below it.
        heads = len(parts) > 1 or below == (*parts, 1)
        if heads and (not last or _follows(last, parts)):
            run[at] = parts, end
            last = parts
    return run


def _follows(last: Parts, parts: Parts) -> bool:
    """Whether a number may come next: the first below, or the next of its own level or of one above."""
    same = next((at for at, (one, two) in enumerate(zip(last, parts, strict=False)) if one != two), None)
    if same is None:
        return len(parts) > len(last) and all(part == 1 for part in parts[len(last) :])
    return 0 < parts[same] - last[same] <= _MOST_LOST and all(part == 1 for part in parts[same + 1 :])


__all__ = ["set_in"]
