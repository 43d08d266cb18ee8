"""Names that are one as a whole: "Mirror and wiper control" in a heading, in a cell or before "has" is one module.

Cut at "and" it would be two modules with the same codes. The word behind both, in the singular, says that it is one; it
is two where both halves stand by themselves elsewhere in the text, or one is an abbreviation ("ABS and airbag module").

"Battery charger 12V" above codes is the module of that voltage, and says nothing of what fed the vehicle.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> _ = adopted(lines("Mirror and wiper control: P0562\\nABS and airbag module: U0100"), names)
>>> names.listed("mirror and wiper control"), names.listed("ABS and airbag module")
(True, False)
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.naming.names import Names, tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.slips import one_off
from triage.intake.said import phases
from triage.intake.said.outside import spans

_AND = (" and ", " & ", " und ")
_CONTROL = "|".join(sorted({"control", *one_off("control")}, key=len, reverse=True))
_KIND = rf"(?:(?:{_CONTROL})(?: (?:unit|module|ecu))?|module|unit|controller|ecu)(?![a-z])"
_WORDS = r"(?:[a-z][a-z-]* ){1,3}"
#: The whole of a heading or a cell, or what a verb in the singular tells of.
_WHOLE = lazily(
    rf"(?:^[^a-z]*|[|;\t>\"]\s*|,(?=\S)|\s{{2,}})(?P<cell>(?:(?:in )?the )?{_WORDS}(?:and|&|und) {_WORDS}{_KIND})"
    r"(?=\s*(?:$|[|:;\t<\"(]|,\S|\s-|\s\s))|"
    rf"(?<![a-z])(?:in )?the (?P<told>{_WORDS}(?:and|&|und) {_WORDS}{_KIND})"
    r"(?= (?:has|had|shows|showed|gives|gave|reports|reported|is|was|does|did|holds|i)(?![a-z]))"
)
#: The name of a device with the voltage that it is made for, alone in its line.
_NOMINAL = lazily(r"[^a-z]*(?P<name>(?:[a-z][a-z/-]* ){1,4}(?:12|24|48) ?v)(?P<mark>\s*\]?:|\s*\])\s*$")
_CODE = lazily(r"[^a-z0-9]*(?:[pcbu][0-3][0-9a-f]{3}|spn ?[0-9])")
#: A word for "and", or a voltage.
_SIGN = signs.of_words(lambda word: word in ("and", "und") or word[-1] == "v") | signs.of_parts(
    "&", "==", "**", "##", "--")
#: A name between marks as a heading has them: "*** Kneeling and Ramp ***".
_MARKED = lazily(r"\s*([*=#~+_>-]{2,8}|\[|<{1,3})\s*([A-Z][\w &/.,-]{3,40}?)\s*"
                 r"(?:[*=#~+_<-]{2,8}|\]|>{1,3})"
                 r"\s*(?:[:;-].*)?$")
_SIDE = lazily(
    r", (?:(?:front|rear|driver|passenger|upper|lower)(?:'?s)? )?(?:right|left|front|rear|side|upper|lower)$")
#: So many lines before and behind are looked at for others.
_NEAR = 60
_JOINT = lazily(r" (?:and|&|und) ")


def adopted(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines as they are; ``names`` lists such names of theirs. Linear."""
    for at in signs.places(found, _SIGN):
        line, below = found[at], found[at + 1] if at + 1 < len(found) else None
        if below is not None and (of_voltage := _of_voltage(line, below)) and not names.listed(of_voltage):
            names.adopt_whole(of_voltage)
        joined = any(word in line.low for word in _AND)
        marked = _MARKED.match(line.text) if joined or ", " in line.low else None
        if marked is not None and (joined or _SIDE.search(marked[2].lower())) and not _tells_scan(line.low):
            same = sum(other.text.lstrip().startswith(marked[1]) and _MARKED.match(other.text) is not None
                       for other in found[max(0, at - _NEAR) : at + _NEAR])
            if same > 2 and not names.listed(marked[2]):
                _adopt(names, marked[2])
                continue
        for match in _WHOLE.finditer(line.low) if joined else ():
            group = "cell" if match["cell"] else "told"
            printed = tidy(line.text[match.start(group) : match.end(group)].removeprefix("In ").removeprefix("in "))
            if not names.listed(printed) and _is_one(printed, found, names):
                names.adopt_whole(printed)
    return found


def _adopt(names: Names, printed: str) -> None:
    """List a name as one; without the abbreviation before it, it may be one that is known."""
    _, _, long = printed.partition(" ")
    if printed.split(" ")[0].isupper() and names.match(long).known:
        names.adopt_pair(printed, long)
    else:
        names.adopt_whole(printed)


def _tells_scan(low: str) -> bool:
    """Whether a heading is one of a scan: "=== Battery charged and codes cleared ==="."""
    return phases.find(low) is not None or phases.scan_head(low) is not None or bool(phases.events(low))


def _of_voltage(line: Line, below: Line) -> str:
    """The name in a line that is a device which might feed the vehicle and its voltage, right above a code; or ""."""
    match = _NOMINAL.match(line.low) if line.low[-4:].rstrip(" :])")[-1:] == "v" else None
    if match is None or not spans(match["name"]) or _CODE.match(below.low) is None:
        return ""
    return line.text[match.start("name") : match.end("name")]


def _is_one(printed: str, found: Sequence[Line], names: Names) -> bool:
    """Whether two names of modules in one text are the name of one."""
    halves = _JOINT.split(printed)
    if len(halves) != 2 or any(
        names.score(half) < 60.0 or half != tidy(half) or names.abbreviates(half.split()[0].lower()) for half in halves
    ):
        return False
    if all(names.score(half) >= 85.0 for half in halves):
        # "Engine and transmission control": each is a module by itself, not as often a part as "horn" is.
        return False
    return not all(_stands_alone(half.lower(), found) for half in halves)


def _stands_alone(half: str, found: Sequence[Line]) -> bool:
    """Whether a name fills a heading, a cell or a piece of a list somewhere in the text."""
    before, behind = r"(?:^[^a-z]*|[|;:,\t>\"(]\s*|\s\s|the )", r"\s*(?:$|[|;:,.\t<\")(]|\s-|\s\s| ha[sd] )"
    alone = re.compile(rf"{before}{re.escape(half)}{behind}")
    return any(half in line.low and alone.search(line.low) is not None for line in found)


__all__ = ["adopted"]
