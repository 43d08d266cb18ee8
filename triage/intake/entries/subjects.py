"""Which names of a sentence stand for modules that it tells of.

A name behind "with" ("lost communication with the gateway") is part of a description, a plain word ("brakes") a name
only where it does something.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Container, Iterable, Sequence
from itertools import pairwise

from triage.intake.entries import misspelt
from triage.intake.lines.row import Row
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import words
from triage.intake.said import engine_state, outside, phases, states, volts
from triage.intake.said.answeraround import Spoken
from triage.intake.said.answers import spoken, takes_object
from triage.intake.said.attribution import SAYS
from triage.intake.said.outside import outside_supply
from triage.intake.scan.context import Context
from triage.intake.words.answerwords import ANSWERS

Span = tuple[int, int]

_WITH = lazily(
    r"(?:with|to|from|by|mit|zu|von|vom|zum|zur|avec|con|du|de|del|vers|(?<!out )of|for|data)\s+(?:the\s+|dem\s+|"
    r"der\s+|le\s+|la\s+|el\s+|l')?$"
)
_IN = lazily(
    r"(?:in|from|out of|off|im|in der|aus|vom|von|dans|du|de|en|del|by|on|at|under|for)\s+(?:the\s+|dem\s+|der\s+|"
    r"le\s+|la\s+|el\s+|l'|both\s+)?(?:steuergerat\s+|calculateur\s+|centralita\s+|unidad\s+)?$"
)
_COMMS = lazily(
    r"(?:comm\w*|contact\w*|data|signal|message|frame|telegram|link|kommunikation|verbindung|daten|communication|"
    r"comunicacion|datos|botschaft|nachricht|mensaje|trame|trama|telegramm|liaison|enlace|lost|lamp request)"
    r"[a-z ]{0,24}$"
)
#: Between "could not reach" and what could not be reached.
_REACHED = lazily(r"\s*:?\s+(?:(?:the|any|both|den|die|das|le|la|el)\s+)?")
#: "The box under the seat" is another module than the seat's.
_PLACED = lazily(
    r"(?<![a-z])(?:box|module|unit|thing|one|ecu|computer|controller|kasten|kastchen|steuergerat|boitier|calculateur|"
    r"caja|centralita|modulo)\s(?:(?:that|which)(?:'s| is| sits)\s|hidden\s|mounted\s)?"
    r"(?:under(?:neath)?|behind|beside|next to|near|below|above|by|in front of|unter|hinter|neben|sous|derriere|bajo|"
    r"debajo de|detras de)\s(?:(?:the|dem|der|le|la|el)\s|l')?$"
)
#: A lamp that is called by a module is none: "ABS light on and airbag no codes".
_LAMP = lazily(
    r"[ -]?(?:warning |warn|kontroll)?(?:lights?|lamps?|telltales?|lampen?|leuchten?)(?=\s*(?:$|[.,;)])|"
    r"\s(?:is|was|are|were|on|off|out|lit|comes?|came|stays?|stayed|flash\w*|still|now|and|but|leuchtet|brennt|blinkt|ist|"
    r"war|an|aus|und)(?![a-z]))")
#: What feeds the vehicle is no module that holds anything: "with the charger P0087 came straight back".
_FED = lazily(r"(?<![a-z])(?:with|on|mit|am|ohne|without|avec|sur|sans|con|sin|al) "
              r"(?:(?:the|a|dem|einem|le|un|el) )?$")
_OF_LAMP = lazily(r"(?<![a-z])(?:voyant|temoin|testigo|luz|lampara)\s(?:(?:de|du|del)\s)?(?:(?:la|el)\s|l'|d')?$")
#: Between a plain word ("steering") and the answer of its module.
_ADVERBS = lazily(
    r"(?:\s(?:is|was|are|has|had|still|again|now|also|just|all|completely|totally|always|module|unit|ecu|itself|though|"
    r"ist|war|noch|immer|weiterhin|wieder|auch|jetzt|komplett|bleibt|blieb|est|reste|toujours|encore|aussi|"
    r"sigue|sigo|esta|todavia|tambien|continuously|continues|remains|remained|stays|keeps)){0,4}\s"
)
#: The same where it opens its sentence: "Steering - no faults."
_DASH, _OPENS = lazily(r"\s-{1,2}>?\s"), ("", ".", ";", "!")
#: What joins the names of one list.
ANOTHER = lazily(
    r"\s*(?:(?:control )?(?:module|unit|ecu)s?)?\s*(?:,|and|&|und|et|y|or|oder|ou|o|nor|noch|ni)\s*"
    r"(?:and|und|et|y|nor)?\s*"
    r"(?:the|der|die|das|dem|den|le|la|les|el|los)?\s*"
)
#: Between a plain word and the code of its module.
_TO_CODE = lazily(r"\s*(?:first |next |then |now )?(?:[-=>]+\s*)?[(\[]?")
#: Right before a name what leads on from one module to the next: "then steering confirmed U0073".
_THEN = lazily(
    r"(?:[.;]|^|(?<![a-z])(?:then|next|now|dann|danach|weiter|after that|puis|ensuite|luego|despues)[:,]?) ?"
    r"(?:(?:the|der|die|das|le|la|el) |l')?$")
_STOPS = lazily(r"[,.;!?)]")
#: From one name that contact was lost with to another.
_ONE_MORE = lazily(r"\s(?:and|&|or|und|oder|et|ou|y|o)\s(?:(?:the|der|dem|den|le|la|el)\s|l')?")


def is_through(low: str, at: int) -> bool:
    """Whether a name at a place is what contact was lost with ("lost communication with the gateway")."""
    lead = low[max(0, at - 60) : at]
    through = _WITH.search(lead)
    return through is not None and _COMMS.search(lead[: through.start()].rstrip()) is not None


def says_behind(low: str, at: int) -> bool:
    """Whether a verb of saying, a colon or a code stands right behind a name."""
    behind = [word for word, _, _ in words(_STOPS.split(low[at : at + 24])[0])][:2]
    return low[at : at + 2].strip()[:1] in (":", "=") or any(word in SAYS for word in behind)


def subjects_of(context: Context, row: Row, said: Sequence[Spoken] = ()) -> list[tuple[int, int]]:
    """Module names of a row that are no part of a description; ``said``: its answers ("no comms with the radio")."""
    kept: list[tuple[int, int]] = []
    ends, starts = [hit.end for hit in said], [hit.start for hit in said]
    reached = [hit.end for hit in said if takes_object(row.low, hit)]
    coded = {code.start for code in row.finds.codes}
    dropped = len(row.low)
    engine = [*engine_state.spans(row.low), *outside.connected(row.low)]
    phase = phases.find(row.low)
    if phase is not None:
        # "After running the engine 10 min" names no module.
        engine.append((phase.start, phase.end))
    # "Pas de communication" names no parking assist, whatever it is said of.
    wordings = [(hit.start, hit.end) for hit in spoken(row.low) if " " in row.low[hit.start : hit.end]]
    covered = cover(row, [*((code.start, code.end) for code in row.finds.codes), *wordings])
    for start, end, sure in _compounds(context, row):
        placed = _PLACED.search(row.low, max(0, start - 40), start) is not None
        placed = placed or _LAMP.match(row.low, end) is not None or (
            _OF_LAMP.search(row.low, max(0, start - 24), start) is not None) or (
            _FED.search(row.low, max(0, start - 16), start) is not None
            and outside_supply(row.low[start:end]) is not None)
        # "Getr.Elektr. kein Fehler"
        placed = placed or (row.low[end : end + 1] == "." and row.low[end + 1 : end + 2].isalpha()
                            and not any(first == end + 1 for first, _, _ in context.names.find(row.low)))
        if placed or 1 in covered[start:end] or any(first <= start < last for first, last in engine):
            continue
        lead = row.low[max(0, start - 60) : start]
        through = _WITH.search(lead)
        said_at, reached_at = _last_before(ends, start), _last_before(reached, start)
        told = through is not None and said_at >= start - len(lead) + through.start() - 1
        told = told or (reached_at >= 0 and _REACHED.fullmatch(row.low, reached_at, start) is not None)
        lost = through is not None and not told and _COMMS.search(lead[: through.start()].rstrip()) is not None
        if lost or _in_bracket(row.low, dropped, start) or (
                _ONE_MORE.fullmatch(row.low, dropped, start) and not says_behind(row.low, end)):
            # "Lost comms with radio and navigation"
            dropped = end
            continue
        listed = bool(kept) and ANOTHER.fullmatch(row.low, kept[-1][1], start) is not None
        behind = bisect_right(starts, end)
        opens = row.low[:start].rstrip()[-1:] in _OPENS
        answered = behind < len(starts) and bool(
            _ADVERBS.fullmatch(row.low, end, starts[behind])
            or (opens and _DASH.fullmatch(row.low, end, starts[behind])))
        if sure or told or listed or answered or _acts(row.low, start, end, coded):
            kept.append((start, end))
    return kept


def _in_bracket(low: str, dropped: int, at: int) -> bool:
    """Whether a name stands in one bracket with one before it that contact was lost with, which ends at ``dropped``:
    "(no messages from the display in the dash)"."""
    if dropped >= at:
        return False
    opened = low.rfind("(", max(0, dropped - 80), dropped)
    return opened >= 0 and low.find(")", opened, at) < 0 and low.find("(", dropped, at) < 0


def _compounds(context: Context, row: Row) -> list[tuple[int, int, bool]]:
    """The names of a row, two with nothing but a space between them as one that no table lists ("brake horn").
    Abbreviations are more often written so without a comma, and so are names in a list."""
    found = context.names.find(row.low)
    if len(found) < 2:
        return found
    gaps = [row.low[one[1] : two[0]] for one, two in pairwise(found)]
    result: list[tuple[int, int, bool]] = []
    for at, (start, end, sure) in enumerate(found):
        beside = gaps[max(at - 2, 0) : max(at - 1, 0)] + gaps[at : at + 1]
        alone = not any(gap == " " or ANOTHER.fullmatch(gap) for gap in beside)
        if at and gaps[at - 1] == " " and alone and not any(
            context.names.abbreviates(row.low[first:last]) for first, last, _ in found[at - 1 : at + 1]
        ):
            before = result.pop()
            result.append((before[0], end, sure or before[2]))
        else:
            result.append((start, end, sure))
    return result


def with_slips(context: Context, row: Row, names: list[Span], said: Sequence[Spoken]) -> list[Span]:
    """The names of a sentence with those that have a slip in them; a part of such a one is no name of its own."""

    def is_like(text: str) -> bool:
        least = 100.0 if len(text) < 5 else 85.0 if " " not in text else 60.0
        return not context.names.listed(text) and context.names.score(text) >= least

    sure = {(start, end) for start, end, sure in context.names.find(row.low) if sure}
    taken = [name for name in names if name in sure] + [(code.start, code.end) for code in row.finds.codes]
    taken += outside.connected(row.low)
    found = misspelt.within(row.low, taken + [(hit.start, hit.end) for hit in spoken(row.low)], is_like)
    ends = [hit.end for hit in said]
    kept = []
    for start, end in found:
        lead = row.low[max(0, start - 60) : start]
        if lead.endswith("out of ") and row.low.startswith("range", start):
            # "Voltage out of range"
            continue
        if _FED.search(lead) is not None and outside_supply(row.low[start:end]) is not None:
            continue
        through = _WITH.search(lead)
        told = through is None or _last_before(ends, start) >= start - 12
        if told or through is None or not _COMMS.search(lead[: through.start()].rstrip()):
            kept.append((start, end))
    if not kept:
        return names
    covered = cover(row, kept)
    return sorted([*kept, *(name for name in names if 1 not in covered[name[0] : name[1]])])


def _last_before(ends: Sequence[int], at: int) -> int:
    """The last of ``ends``, which are in order, that is not behind a place; -99 where none is."""
    place = bisect_right(ends, at)
    return ends[place - 1] if place else -99


def _acts(low: str, start: int, end: int, codes: Container[int]) -> bool:
    """Whether a plain word ("brakes") does something here: a verb, a code (``codes``: where they begin) or a colon
    follows, "in" leads to it."""
    after = low[end : end + 24]
    verb = re.match(r" ([a-z]{4,})(?![a-z])", after)
    if (verb is not None and (verb[1] in SAYS or verb[1] in ANSWERS)) or re.match(
        r"\s*(?:first\s+|next\s+|now\s+)?(?::|(?:module|control|unit|ecu)\b|(?:that'?s got|that has|which has|"
        r"it'?s got|has|have|had|shows?|gave|gives|reports?|set|sets|did|"
        r"does|do|is|are|was|were|won|"
        r"never|threw|throws|donne|remonte|indique|steht|holds|stores|hat|hatten?|avait|tenia|meldete?|"
        r"zeigte?|da |dan |presenta|gives|giving|showing|got |"
        r"haben|meldet|zeigt|antwortet|ne |n'|a |affiche|tiene|no |muestra|still|also|logged|"
        r"stayed|came|ok|clean|silent|"
        r"with|not|both|silent|dead)\b)",
        after,
    ) or ((lead := _TO_CODE.match(low, end)) is not None and (
            lead.end() in codes or (("-" in lead[0] or _THEN.search(low, max(0, start - 16), start))
                                    and states.leading(low, lead.end()) in codes))):
        return True
    if re.match(r"\s*(?:,|and|und|et|y|&|nor|noch|ni)\s", after):
        return True
    return _IN.search(low[max(0, start - 20) : start]) is not None


def without_supply(low: str, names: list[Span]) -> list[Span]:
    """The names but those that only say what a voltage of the supply is of: "radio clean, battery 12.7 V"."""
    if not names or not has_digit(low):
        return names
    measured = [volt.start for volt in volts.find(low) if volt.of in ("supply", "lowest")]
    return [name for name in names if not any(name[0] < at <= name[1] + 1 for at in measured)] if measured else names


def cover(row: Row, spans: Iterable[tuple[int, int]]) -> bytearray:
    """One byte a character: 1 where a span is."""
    covered = bytearray(len(row.low) + 1)
    for start, end in spans:
        covered[start:end] = b"\1" * (end - start)
    return covered


__all__ = ["ANOTHER", "cover", "is_through", "says_behind", "subjects_of", "with_slips", "without_supply"]
