"""Keys with the path of what they tell of, as properties and flattened files have them, in blocks of plain keys:
"ecu.1.name=Brakes", "ecu.1.dtc.1=C0035", "ecu.1.dtc.1.state=stored", "modules[0].faults[1].code: U0100".

>>> from triage.intake.plain.characters import lines
>>> text = "ecu.1.dtc.1=C0035\\necu.1.dtc.1.state=stored\\necu.1.name=Brakes\\necu.2.name=Radio\\necu.2.dtc=none"
>>> [line.text for line in written_out(lines(text))]
['module: Brakes', 'code: C0035', 'state: stored', 'module: Radio', 'code: none']
>>> text = "brakes.dtc.1=C0035\\nbrakes.dtc.1.state=stored\\nradio.dtc=none\\nscan=2\\nbrakes.dtc=none"
>>> [line.text for line in written_out(lines(text), ("brakes", "radio").__contains__)][3:]
['module: radio', 'code: none', 'scan=2', 'module: brakes', 'code: none']
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_LINE = lazily(r"\s*([A-Za-z][\w.\[\]/-]{2,70})\s*[:=]\s*(?=\S)")
_NAMED = lazily(r"\s*(?P<name>[A-Za-z][\w -]{1,40})\.(?P<rest>[A-Za-z][\w.\[\]/-]{1,40})\s*[:=]\s*(?=\S)")
#: What a path that begins with a name goes on with.
_TOLD = frozenset(("code", "count_of_codes", "answer", "reply", "status"))
_PARTS = lazily(r"[0-9]+|[a-z]+(?:-[a-z]+)*")
#: What a path of several is told by, and what it is told of.
_FEWEST = 2
_LIST_ENDS = ("s", "es", "")


class _Entry(NamedTuple):
    """A line with such a key: the path to the module with its number, the rest of the path, and where the key and the
    value begin."""

    at: int
    path: tuple[str, ...]
    rest: tuple[str, ...]
    start: int
    value: int


def written_out(found: Sequence[Line], is_name: IsName = lambda name: False) -> Sequence[Line]:
    """The lines with plain keys, those of one module together, its name first; a text without such paths as it is.
    ``is_name``: listed names. Linear."""
    entries = [entry for at, line in enumerate(found) if (entry := _entry(at, line)) is not None]
    modules: dict[tuple[str, ...], list[_Entry]] = {}
    for entry in entries:
        modules.setdefault(entry.path, []).append(entry)
    named = [path for path, own in modules.items() if any(_is_name(entry) for entry in own)]
    if len(entries) < _FEWEST or not named or not any(_code_path(entry) is not None for entry in entries):
        return _by_names(found, is_name)
    held = {entry.at for entry in entries}
    blocks = {own[0].at: own for own in modules.values()}
    mended: list[Line] = []
    for at, line in enumerate(found):
        if at in blocks:
            mended += _block(found, blocks[at])
        elif at not in held:
            mended.append(line)
    return mended


def _by_names(found: Sequence[Line], is_name: IsName) -> Sequence[Line]:
    """The same where the paths begin with the names of the modules; those of one scan stand together."""
    entries: dict[int, _Entry] = {}
    for at, line in enumerate(found):
        match = _NAMED.match(line.text) if "." in line.text else None
        if match is not None and is_name(match["name"].replace("_", " ")):
            rest = tuple(_PARTS.findall(line.low[match.start("rest") : match.end("rest")].replace("_", " ")))
            if rest and _role(rest[0]) in _TOLD:
                name = match["name"].replace("_", " ")
                entries[at] = _Entry(at, (name,), rest, match.start("name"), match.end())
    if len(entries) < _FEWEST or not any(_code_path(entry) is not None for entry in entries.values()):
        return found
    mended: list[Line] = []
    run: dict[tuple[str, ...], list[_Entry]] = {}
    for at, line in enumerate(found):
        if (entry := entries.get(at)) is not None:
            run.setdefault(entry.path, []).append(entry)
            continue
        if line.text.strip():
            mended += [line for own in run.values() for line in _block(found, own)]
            run = {}
        mended.append(line)
    return [*mended, *(line for own in run.values() for line in _block(found, own))]


def _entry(at: int, line: Line) -> _Entry | None:
    """A line as such an entry: a number in the path of its key, right behind a word for modules or else the first."""
    match = _LINE.match(line.text) if "." in line.text or "[" in line.text or "_" in line.text else None
    if match is None:
        return None
    parts = tuple(_PARTS.findall(line.low[match.start(1) : match.end(1)].replace("_", " ")))
    numbers = [place for place, part in enumerate(parts) if place and part.isdigit()]
    if not numbers or numbers[0] + 1 >= len(parts):
        return None
    cut = next((place for place in numbers if _role(parts[place - 1]) == "module"), numbers[0]) + 1
    return _Entry(at, parts[:cut], parts[cut:], match.start(1), match.end()) if cut < len(parts) else None


def _role(word: str) -> str | None:
    """The role of a word, or of the one thing of which it names several."""
    roles = (role_of(word[: len(word) - len(end)], exactly=True) for end in _LIST_ENDS if word.endswith(end))
    return role_of(word, exactly=True) or next((role for role in roles if role is not None), None)


def _is_name(entry: _Entry) -> bool:
    """Whether a line holds the name of the module."""
    return len(entry.rest) == 1 and _role(entry.rest[0]) == "module"


def _code_path(entry: _Entry) -> tuple[str, ...] | None:
    """The path to one code with its number, () for all of them; None for what is told of the module."""
    number = next((place for place, part in enumerate(entry.rest) if part.isdigit()), None)
    if number is None:
        return () if len(entry.rest) == 1 and _role(entry.rest[0]) == "code" else None
    return entry.rest[: number + 1] if number and _role(entry.rest[number - 1]) in ("code", "count_of_codes") else None


def _block(found: Sequence[Line], own: Sequence[_Entry]) -> list[Line]:
    """The lines of one module: its name, what is told of it, and each code before what is told of that."""
    names = [entry for entry in own if _is_name(entry)]
    block = [_keyed(found, names[0], "module")] if names else []
    if not names:
        line, first = found[own[0].at], own[0]
        block.append(reworded(line, first.start, len(line.text), f"module: {' '.join(first.path[-2:])}"))
    codes: dict[tuple[str, ...], list[tuple[bool, Line]]] = {}
    for entry in own:
        path = _code_path(entry)
        if path is None and entry not in names:
            block.append(_keyed(found, entry, " ".join(entry.rest)))
        elif path is not None:
            told = entry.rest[len(path) :] if path else ()
            role = _role(told[-1]) if told else "code"
            # A code has no name but its description.
            key = "code" if role == "code" else "text" if role == "module" else told[-1] if role else "info"
            codes.setdefault(path, []).append((role != "code", _keyed(found, entry, key)))
    for of_one in codes.values():
        block += [line for _, line in sorted(of_one, key=lambda told: told[0])]
    return block


def _keyed(found: Sequence[Line], entry: _Entry, key: str) -> Line:
    """The line of an entry under another key."""
    return reworded(found[entry.at], entry.start, entry.value, f"{key}: ")


__all__ = ["written_out"]
