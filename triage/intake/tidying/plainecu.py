"""A plain "ECU" where modules stand: the name of a module, though it means any control unit elsewhere.

"ECU" is a key ("ECU: ABS"), the head of a column, part of a wording ("no answer from ECU") and of names ("engine ECU").
In a heading, a cell of a module, a list of names or before its codes it names a module of its own, most often the
engine's; taken for the general word there, its codes would be those of the module before. Where it names one, each line
gets another word of as many letters in its place, which no table of words holds and this text alone lists as a name.
:meth:`triage.intake.naming.names.Names.as_written` puts back what stood there.

>>> from code_tables import load
>>> from triage.intake.naming.names import Names
>>> from triage.intake.plain.characters import lines
>>> texts = ("ECU: P0622\\nABS: no faults", "ECU: ABS\\nDTC: P0562", "ABS\\n  B1000 ECU fault", "### ECU\\n- P0685")
>>> ["".join(line.text[:7] for line in named(lines(text), Names(load()))) for text in texts]
['ECV: P0ABS: no', 'ECU: ABDTC: P0', 'ABS  B1000', '### ECV- P0685']
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from triage.intake.codes.found import find
from triage.intake.naming.names import Names
from triage.intake.plain.characters import Line
from triage.intake.said.answers import answer_of_cell
from triage.intake.tidying import ecuplaces

#: What stands for "ECU" where that is a name: the first of them that a text does not hold.
_STAND_INS = ("ecv", "ecq", "eqv")
#: The module that a plain "ECU" is, where the text names no other so.
_ENGINE = "engine control"


def named(found: Sequence[Line], names: Names) -> list[Line]:
    """The lines, each "ECU" in them that is a module's name written as a word that ``names`` lists. Linear."""
    held = [at for at, line in enumerate(found) if "ecu" in line.low and ecuplaces.plain(line.low)
            and not _heads_list(found, at)]
    word = _stand_in(line.low for line in found) if held else None
    places = ecuplaces.of_names(found, held, names) if word is not None else {}
    if word is None or not places:
        return list(found)
    names.adopt(word, _ENGINE, "ecu")
    result = list(found)
    for at, starts in places.items():
        result[at] = _with(found[at], starts, word)
    return result


def _heads_list(found: Sequence[Line], at: int) -> bool:
    """Whether a line is an answer of any control units, over the names of those that gave it ("ECU silent:")."""
    line = found[at]
    below = next((other for other in found[at + 1 : at + 3] if other.text.strip()), None)
    if below is None or not line.low.rstrip().endswith(":") or below.indent <= line.indent or find(below.text).codes:
        return False
    label = line.low.strip(" :*#->").removeprefix("ecu").strip()
    return answer_of_cell(label) is not None and answer_of_cell(below.low) is None


def alone(name: str) -> bool:
    """Whether a text is nothing but a plain "ECU"."""
    return name.strip(" :[]*").lower() == "ecu"


def _stand_in(lows: Iterable[str]) -> str | None:
    """The word that stands for "ECU" in a text of lines in small letters; None where it holds all of them."""
    left = list(_STAND_INS)
    for low in lows:
        left = [word for word in left if word not in low]
    return left[0] if left else None


def _with(line: Line, starts: Sequence[int], word: str) -> Line:
    """A line with the word in place of each "ECU" that starts at one of the places, in capitals where that is."""
    text, low = line.text, line.low
    for start in starts:
        end = start + len(word)
        letters = zip(text[start:end], word, strict=True)
        text = text[:start] + "".join(new.upper() if old.isupper() else new for old, new in letters) + text[end:]
        low = low[:start] + word + low[end:]
    return replace(line, text=text, low=low)


__all__ = ["alone", "named"]
