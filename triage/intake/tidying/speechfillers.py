"""What somebody who dictates says to go on to the next module, left out: "Moving on, no faults in the ABS".

>>> from triage.intake.plain.characters import lines
>>> text = "Moving on, no faults in ABS. Right then: EPS clean, next up the radio did not answer\\nMoving: U0100"
>>> [line.text for line in left_out(lines(text))]
['no faults in ABS. EPS clean, the radio did not answer', 'Moving: U0100']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.plain.remember import remembered

#: What may stand before such words, and what may say the same alone where more follows it.
_LEAD = r"(?:(?:ok(?:ay)?|and|so|right|well|now|alright|gut|also|bon|alors|bueno|vale)[ ,]{1,2}){0,2}"
_ON = (
    r"(?:(?:mov|carry|go|gett|press|crack|keep)ing (?:on|along|ahead|swiftly on)(?: to (?:the )?next(?: one)?)?|"
    r"next up|next one(?: up)?|next in line|on to (?:the )?next(?: one)?|on we go|"
    r"(?:right|now|okay|ok|well) then|right so|let'?s see|here we go|"
    r"weiter geht(?:'?s| es)?|(?:als )?nachstes(?: dann)?|der nachste|machen wir weiter|"
    r"(?:on )?(?:passons|passe)(?: a la suite| au suivant)?|on continue|au suivant|la suite|"
    r"seguimos|sigo|continuamos|el siguiente|pasamos al siguiente|vamos con el siguiente)"
)
_TALK = lazily(rf"(?:^|(?<=[.!?;,] ))[ \t>]*({_LEAD}{_ON}(?:\s*[,:;.]|\s-+)\s+)(?=\S)")
#: The same without a mark behind it.
_UP = lazily(r"(?:^|(?<=[.!?;,] ))((?:and )?next up,?\s(?:is |was |we have )?)(?=[a-z])")
#: Before what heads a scan: "ok after clear:".
_HEADS = lazily(
    r"^[ \t>]*((?:ok(?:ay)?|right|so|well|now|alright|bon|alors|bueno|vale|gut|also)[ ,]+)"
    r"(?=(?:the )?(?:before|after|prior|pre|post|with|re-?scan|second|2nd|first|1st|scan|nach|vor|avant|apres|antes|"
    r"despues|tras|this is|das ist|voici)(?![a-z])[^:]{0,60}:)"
)
#: "Ok" before a name of which a verb tells more: "okay engine did not answer".
_OKAY = lazily(
    r"^[ \t>]*(ok(?:ay)?,? )(?=(?:the )?[a-z][a-z0-9/ -]{1,30}? (?:has|have|had|shows?|gives?|gave|reports?|is|are|was|"
    r"were|did|does|didn'?t|doesn'?t|won'?t|stays|stayed|remains|came|comes|hat|ist|zeigt|meldet|antwortet|est|a|ne|"
    r"affiche|tiene|muestra|esta) )"
)
#: The word for a code between others and the next: "U0100 (no data) and code U0140 (low), both active".
_CODE = lazily(
    r"(?:(?<=[,;:])|(?<=(?<![a-z])and)|(?<=(?<![a-z])und)|(?<=(?<![a-z])et)|(?<=(?<![a-z])y)|(?<=(?<![a-z])plus))\s"
    r"((?:code|dtc|fehlercode|codigo)\s)(?=([a-z]{0,2}[0-9][0-9a-z]{2,6})\s?[(,.;]|[pcbu][0-3][0-9a-f]{3}(?![a-z0-9]))")
#: One of them stands in whatever those find.
_SIGN = signs.of_words(word_set(
    "moving carrying going getting pressing cracking keeping next on then so see here weiter nachstes nachste passons "
    "passe continue suivant suite seguimos sigo continuamos siguiente pasamos vamos ok okay right well now alright bon "
    "alors bueno vale gut also code dtc fehlercode codigo").__contains__)


def left_out(found: Sequence[Line]) -> list[Line]:
    """The lines without such words. Linear in their length."""
    kept = list(found)
    own = frozenset(number.lower() for number in found[0].own) if found else frozenset()
    for at in signs.places(found, _SIGN):
        if _holds(found[at].low):
            kept[at] = _one(found[at])
        if _CODE.search(kept[at].low) is not None:
            kept[at] = _uncalled(kept[at], own)
    return kept


def _uncalled(line: Line, own: frozenset[str]) -> Line:
    """A line without the word for a code before those that are told to be some."""
    for match in reversed(list(_CODE.finditer(line.low))):
        if match[2] is None or match[2] in own:
            line = reworded(line, *match.span(1), "")
    return line


@remembered
def _holds(low: str) -> bool:
    """Whether such words stand in a line."""
    return any(pattern.search(low) is not None for pattern in (_TALK, _UP, _HEADS, _OKAY))


def _one(line: Line) -> Line:
    """A line without them."""
    for pattern in (_TALK, _UP, _HEADS, _OKAY):
        for match in reversed(list(pattern.finditer(line.low))):
            line = reworded(line, *match.span(1), "")
    return line


__all__ = ["left_out"]
