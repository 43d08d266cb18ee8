"""Lists of a generic scan tool, named by the service of SAE J1979 by which they were read: "Mode 03: P0171", "Mode 07
(pending): none", "Mode 0A". They are lists of the module named above, else of the engine's, and no modules.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> said = "OBD, ECM 7E8\\nMode 03 (stored): P0171\\nMode 07: none\\nMode $0A: P0171\\nFreeze frame for P0171: 2150 rpm"
>>> [line.text for line in told(lines(said), Names(load()))[0]][1:]
['ECM', 'Stored codes: P0171', 'Pending codes: none', 'Permanent codes: P0171', 'Freeze frame P0171: 2150 rpm']
>>> [line.text for line in told(lines("Mode 03 request sent\\nMode 1: sport"), Names(load()))[0]]
['Mode 03 request sent', 'Mode 1: sport']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from triage.intake.codes.found import find
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import Line, line_of, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import small

#: The service, and words that say once more what it lists.
_SERVICE = lazily(
    r"[\s*>-]*(?:obd(?:[ -]?(?:ii|2))?[ -]?)?(?:mode|service|sid|modus|dienst|servicio|modo)[ -]?(?:0x|\$)?"
    r"(?P<number>0?[37a]|10)(?![0-9a-z])"
    r"(?:[\s(\[,/-]*(?:stored|confirmed|current|active|pending|permanent\w*|gespeicherte?|bestatigte?|anstehende?|"
    r"memorises?|confirmes?|en attente|permanents?|almacenad[oa]s|confirmad[oa]s|pendientes?|dtcs?|codes?|faults?|"
    r"trouble|list|fehler(?:codes?)?|defauts?|averias?)(?![a-z])[)\]]?)*"
    r"(?P<mark>\s*(?:[:=]|-{1,2}>?(?=\s))\s*|\s*$|\s+(?=[pcbu0-9]|none|no |keine?|aucun|ningun))"
)
_LISTS = {"3": "Stored codes: ", "7": "Pending codes: ", "a": "Permanent codes: ", "10": "Permanent codes: "}
_FROZEN = lazily(
    r"\s*(?:freeze[ -]?frame|snapshot data|standbild|umgebungsdaten)(?P<link>\s+(?:data\s+)?(?:for|of|von|zu|fur)\s+)"
    r"(?=[pcbu][0-3])")
#: The address by which a module answers a generic tool: ISO 15765-4.
_ADDRESS = lazily(r"(?<![a-z0-9])(?:0x|\$)?7e[8-9a-f](?![a-z0-9])")
#: What parts the cells of a row of a list.
_CELLS = lazily(r"\s{2,}|\t|\s+-+\s+|\s*[,;|:=]\s*")
GUESSED = "no module is named for this list: taken for the engine's; put its name in a line above"
#: So many lines above the first list may name its module.
_NEAR = 6
_ENGINE = "engine control"
_ANY = "ECM"


def told(found: Sequence[Line], names: Names) -> tuple[list[Line], Line | None]:
    """The lines, those of such lists as heads with a status, below the name of their module; and the first of a list
    that names none, in a text without one of the engine. Linear."""
    lists = {at: match for at, line in enumerate(found) if (match := _match(line)) is not None
             and not _names_its_own(found, at, names)}
    if not lists:
        return list(found), None
    kept: list[Line] = []
    guessed: Line | None = None
    for at, line in enumerate(found):
        if (match := lists.get(at)) is None:
            frozen = _FROZEN.match(line.low)
            kept.append(line if frozen is None else reworded(line, *frozen.span("link"), " "))
            continue
        above = next((other for other in range(at - 1, -1, -1) if found[other].text.strip()), -1)
        if above not in lists and not _heads(found[above], names, above >= 0):
            name = _owner(found, at, names)
            guessed = guessed if name else guessed or line
            name = name or _ANY
            kept.append(replace(line_of(line.number, name, name), indent=line.indent))
        start, end, word = match
        kept.append(reworded(line, start, end, word))
    return kept, guessed


def _match(line: Line) -> tuple[int, int, str] | None:
    """Where the name of such a list stands in a line, and what it says; None for any other."""
    match = _SERVICE.match(line.low)
    if match is None:
        return None
    rest = line.text[match.end() :].strip()
    codes = find(rest).codes
    if rest and not (codes and not codes[0].start) and answer_of_cell(small(rest)) != "clean":
        return None
    start = len(line.text) - len(line.text.lstrip(" *>-\t"))
    word = _LISTS[match["number"].lstrip("0")]
    return start, match.end(), word if rest else word.rstrip()


def _names_its_own(found: Sequence[Line], at: int, names: Names) -> bool:
    """Whether the first row below the bare head of a list names a module beside its code or answer: then each row has
    its own, and the list is the engine's no more."""
    match = _match(found[at])
    if match is None or found[at].text[match[1] :].strip() or at + 1 == len(found):
        return False
    cells = _CELLS.split(found[at + 1].text.strip())
    return len(cells) > 1 and _match(found[at + 1]) is None and any(
        names.listed(names.bare(tidy(cell))) for cell in cells if cell)


def _heads(line: Line, names: Names, there: bool) -> bool:
    """Whether a line is nothing but the name of a module."""
    return there and names.listed(names.bare(tidy(line.text.strip(" :=*#-"))))


def _owner(found: Sequence[Line], at: int, names: Names) -> str:
    """The name of the module that a list is of: the nearest one above that tells no code, else that of the engine;
    "" where the text names neither."""
    for other in range(at - 1, max(at - 1 - _NEAR, -1), -1):
        name = _engine(found[other], names)
        if name:
            return name
    return next((name for line in found if (name := _engine(line, names))), "")


def _engine(line: Line, names: Names) -> str:
    """The name of the engine's module, or of one with its address, in a line without codes; "" where none is."""
    if find(line.text).codes:
        return ""
    for start, end, sure in names.find(line.low):
        text = line.text[start:end]
        if sure and text.isupper() and (names.match(text).canonical == _ENGINE or _ADDRESS.search(line.low, end)):
            return text
    return ""


__all__ = ["GUESSED", "told"]
