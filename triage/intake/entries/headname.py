"""The name in a line that may head the lines below: without the count of its codes, its voltage, its part numbers."""

from __future__ import annotations

import re
from dataclasses import dataclass

from triage.intake.lines.idents import before_idents, behind_gap
from triage.intake.lines.pages import CONTINUED
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import volts
from triage.intake.said.counts import stated_count
from triage.intake.said.near import small
from triage.intake.scan.context import Context


@dataclass(slots=True)
class Heading:
    """A module's name alone in its line, with a count of codes or a voltage beside it; ``again``: it says that the list
    of the module goes on ("ABS (continued)")."""

    printed: str
    start: int
    end: int
    count: int | None = None
    volts: volts.Volt | None = None
    again: bool = False


_BESIDE_NAMES = ("supply", "bare", "named", "made")
_BRACKET_COUNT = lazily(r"\s*(?:[(\[]\s*([0-9]{1,3})\s*[)\]]\s*:?|(?::|=|\s-)\s*([0-9]{1,2}))\s*$")


#: "La batterie était à 7,8 V": what something was read at is said of it in a sentence, and no name.
_WAS_AT = lazily(r"(?<![a-z])(?:etait|est|war|ist|was|is|era|estaba|esta)(?: (?:a|auf|bei|at|en|only|about))? *$")
#: What kind of vehicle it is ("Fahrzeug: Kombi", "Véhicule: Break"): no module, however close the word is.
_VEHICLE = lazily(
    r"[\s>*-]*(?:vehicle|fahrzeug|vehicule|vehiculo|kfz|fzg)\.?(?:[ -]?(?:type?|modell?o?|modele))?\s*[:=]")


def name_in(context: Context, row: Row, text: str | None = None, start: int = 0) -> Heading | None:
    """The name in a row (or in part of it) with count, voltage and marks taken off; None where no name is left."""
    text = row.text if text is None else text
    if len(text) > 110 or row.finds.refusals:
        return None
    if (text, start) not in context.headings:
        context.headings[text, start] = _name_in(context, text, row.low[start : start + len(text)], start)
    kept: Heading | None = context.headings[text, start]
    return kept


def _name_in(context: Context, text: str, low: str, start: int) -> Heading | None:
    """The name in a text with its small letters, which starts at a place of its row."""
    if not has_letter(low) or _VEHICLE.match(low) is not None:
        return None
    count: int | None = None
    volt: volts.Volt | None = None
    whole = (context.names.bare(tidy(text)) if ":" in text or "=" in text else tidy(text)).rstrip(" *=#~")
    if context.names.listed(whole) and not counted(context, low):
        begin = start + max(text.find(whole), 0)
        return Heading(whole, begin, begin + len(whole))
    stop = len(text)
    stated = stated_count(low)
    if stated is not None and tidy(text[: stated[1]]):
        count, stop = stated[0], stated[1]
    elif context.style.counts_in_brackets and (bracket := _BRACKET_COUNT.search(low)) is not None:
        count, stop = int(bracket[1] or bracket[2]), bracket.start()
    if stop < len(text) and has_digit(text[:stop]) and context.names.listed(whole := tidy(text[:stop])):
        # "[BMS 12V] (2 codes)"
        begin = start + max(text.find(whole), 0)
        return Heading(whole, begin, begin + len(whole), count)
    found = [each for each in volts.find(low) if each.of in _BESIDE_NAMES and 3.0 <= each.value <= 36.0]
    # "BMS 12V" is a name.
    found = [each for each in found if each.value % 12.0 or not context.names.listed(tidy(text[: each.end]))]
    if found and not (count is not None and found[0].start > stop + 40):
        cut = _cut_before(low, found[0].start)
        if not tidy(text[:cut]):
            return None
        if volts.is_label(small(tidy(text[:cut]))) or _WAS_AT.search(low, 0, cut) is not None:
            return None
        if tidy(text[:cut]):
            volt, stop = found[0], min(stop, cut)
    again = CONTINUED.search(low[:stop]) if any(sign in low for sign in ("cont", "fort", "suite", "ff")) else None
    goes_on = again is not None and again.start() > 1
    if goes_on and again is not None:
        stop = again.start()
    stop = min(stop, gap) if (gap := behind_gap(text)) is not None else stop
    printed = tidy(text[: before_idents(low[:stop])])
    if not printed or len(printed) > 80 or not has_letter(printed):
        return None
    printed = context.names.bare(printed)
    begin = text.find(printed)
    begin = start + max(begin, 0)
    return Heading(printed, begin, begin + len(printed), count, volt, goes_on)


def without_volts(context: Context, row: Row, printed: str, start: int) -> tuple[str, int]:
    """A name and its place without the voltage behind it: "ABS 12.1 V" before a code."""
    if not has_digit(printed) or not row.text.startswith(printed, start) or context.names.score(printed) >= 60.0:
        return printed, start
    heading = name_in(context, row, printed, start)
    return (printed, start) if heading is None or heading.volts is None else (heading.printed, heading.start)


def counted(context: Context, low: str) -> bool:
    """Whether a number in brackets at the end counts the codes below in this text."""
    return context.style.counts_in_brackets and _BRACKET_COUNT.search(low) is not None


def _cut_before(low: str, at: int) -> int:
    """Where the words about a voltage begin: the last separator, bracket or supply word before it."""
    match = re.search(
        r"[\s,;:(|\[-]*(?:(?<![a-z])(?:supply|battery|batt?|voltage|volts|spannung|tension|voltaje|u|"
        r"v|ubat|at|mit|bei|(?:(?<=batterie )|(?<=tension )|(?<=bateria )|(?<=voltaje ))a|kl\.? ?30|"
        r"versorgung|module)[\s.:=]*){0,3}[\s,;:(|\[-]*$",
        low[:at],
    )
    return match.start() if match is not None else at
