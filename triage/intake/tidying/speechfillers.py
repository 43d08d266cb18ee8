"""What somebody who dictates says to go on to the next module, left out: "Moving on, no faults in the ABS"; and what
opens a message, its greeting, the vehicle that it is about in a line of its own: "hi, the van, no codes in the radio".

>>> from triage.intake.plain.characters import lines
>>> text = "Moving on, no faults in ABS. Right then: EPS clean, next up the radio did not answer\\nMoving: U0100"
>>> [line.text for line in left_out(lines(text))]
['no faults in ABS. EPS clean, the radio did not answer', 'Moving: U0100']
>>> [line.text for line in left_out(lines("hi, the van, no codes in the radio\\nABS clean"))]
['the van, ', 'no codes in the radio', 'ABS clean']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.plain.remember import remembered
from triage.intake.said import complaints
from triage.intake.said.answers import spoken

#: What may stand before such words, and what may say the same alone where more follows it.
_LEAD = r"(?:(?:ok(?:ay)?|and|so|right|well|now|alright|gut|also|bon|alors|bueno|vale)[ ,]{1,2}){0,2}"
_ON = (
    r"(?:(?:mov|carry|go|gett|press|crack|keep)ing (?:on|along|ahead|swiftly on)(?: to (?:the )?next(?: one)?)?|"
    r"next up|next one(?: up)?|next in line|on to (?:the )?next(?: one)?|on we go|"
    r"(?:right|now|okay|ok|well) then|right so|let'?s see|here we go|"
    r"weiter geht(?:'?s| es)?|(?:als )?nachstes(?: dann)?|der nachste|machen wir weiter|"
    r"(?:(?:on )?passons|on passe)(?: a la suite| au suivant)?|passe (?:a la suite|au suivant)|on continue|au suivant|"
    r"la suite|"
    r"seguimos|sigo|continuamos|el siguiente|pasamos al siguiente|vamos con el siguiente|"
    # What opens a message, and what only says that the names behind its codes all hold them.
    r"(?:just a |a )?quick (?:one|note|update|message)|heads[ -]?up|fyi|for your info|"
    r"kurze (?:info|meldung|nachricht)|kurz gesagt|"
    r"zur info|petit (?:mot|message)|pour (?:info|information)|mensaje rapido|para tu informacion|"
    r"(?:the |it'?s (?:the )?)?same (?:code |fault |thing )?everywhere|"
    r"(?:ist |steht )?uberall (?:das ?)?(?:gleiche?|selbe|dasselbe)|"
    r"(?:c'est )?(?:partout (?:pareil|le meme|la meme chose|identique)|(?:pareil|le meme|la meme chose) partout)|"
    r"(?:lo mismo|igual) en (?:todos(?: lados)?|todas partes)|en (?:todos(?: lados)?|todas partes) (?:lo mismo|igual))"
)
_TALK = lazily(rf"(?:^|(?<=[.!?;,:] ))[ \t>]*({_LEAD}{_ON}(?:\s*[,:;.]|\s-+)\s+)(?=\S)")
#: Before a code without a mark: "fyi C0800 in the radio".
_TOLD = lazily(r"^[ \t>]*((?:fyi|quick one|zur info|pour info)\s)(?=[pcbu] ?[0-3][0-9a-f]{3}(?![0-9a-z])|spn ?[0-9])")
#: The same without a mark behind it.
_UP = lazily(r"(?:^|(?<=[.!?;,] ))((?:and )?next up,?\s(?:is |was |we have )?)(?=[a-z])")
#: Before what heads a scan: "ok after clear:".
_HEADS = lazily(
    r"^[ \t>]*((?:ok(?:ay)?|right|so|well|now|alright|bon|alors|bueno|vale|gut|also)[ ,]+)"
    r"(?=(?:the )?(?:as (?:found|it came|received|it was)|so wie|tel que|tal como|before|after|prior|pre|post|with|"
    r"re-?scan|second|2nd|first|1st|scan|nach|vor|avant|apres|antes|"
    r"despues|tras|this is|das ist|voici)(?![a-z])[^:]{0,60}:)"
)
#: "Ok" before a name of which a verb tells more: "okay engine did not answer".
_OKAY = lazily(
    r"^[ \t>]*(ok(?:ay)?,? )(?=(?:the )?[a-z][a-z0-9/ -]{1,30}? (?:has|have|had|shows?|gives?|gave|reports?|is|are|was|"
    r"were|did|does|didn'?t|doesn'?t|won'?t|stays|stayed|remains|came|comes|hat|ist|zeigt|meldet|antwortet|est|a|ne|"
    r"affiche|tiene|muestra|esta) )"
)
#: A greeting before what a line tells: "hi, no codes in the radio".
_HELLO = lazily(
    r"^[ \t>]*((?:hi|hello|hey|hiya|hallo|moin(?: moin)?|servus|gruss gott|salut|bonjour|bonsoir|hola|"
    r"buenas(?: tardes)?|buenos dias|guten (?:morgen|tag|abend)|good (?:morning|afternoon|evening)|morning(?=,))"
    r"(?: [a-z]{2,12}| a tous| a todos)?[,!.]\s+)(?=\S)"
)
#: The vehicle that all of a text is about: "the estate car, no codes in the radio", "Kombi AB-C 123, radio clean".
_PLATE = (
    r"(?!(?:has|had|hat|hatte|a|tiene|tenia) |[a-z0-9]{0,4}[ -]?[pcbu][0-3][0-9a-f]{3}(?![a-z0-9]))"
    r"(?=[a-z0-9 -]{0,7}[0-9])(?:[a-z0-9]{1,4}[ -]?){1,2}[a-z0-9]{1,4}")
_VEHICLE = lazily(
    rf"^[ \t>]*({_LEAD}(?:(?:for|pour|para|fur|re|on) )?(?:the |this |my |our |le |la |el |un |une |una |"
    r"der |die |das |den |dem |ein |einen )?(?:white |black |blue |red |silver |grey |green |blanc |blanco |weisser |"
    r"delivery |courier |panel )?(?:(?:van|truck|lorry|car|minibus|pick-?up|camper(?: ?van)?|motorhome|ambulance|"
    r"estate(?: car)?|saloon|transporter|lieferwagen|kastenwagen|lkw|pkw|wohnmobil|krankenwagen|"
    r"rettungswagen|fourgon(?:nette)?|camion(?:nette)?|voiture|"
    rf"utilitaire|camping-?car|furgon(?:eta)?|coche|turismo|autocaravana|ambulancia)(?: {_PLATE})?|"
    rf"(?:kombi|break|bus|limousine|berline|berlina) {_PLATE}),\s+)"
    r"(?=(?!vin|fin|km|odo|wip|bj)[a-z]|[0-3]?[0-9]\.[01]?[0-9]\.20[0-9]{2}(?![0-9]))"
)
#: That it answers again says nothing of its codes: "radio answers again, no codes", "ABS antwortet wieder: C0035".
_AGAIN = lazily(
    r"^[ \t>*\u2022-]*[a-z][^,:;.|\t]{1,60}?(\s(?:"
    r"(?:(?:is|are) )?(?:now )?(?:answers?|answering|responds?|responding|replies|reply|talks?|talking|reachable|"
    r"communicat(?:es?|ing)) (?:now )?again|(?:is|are) (?:now )?back online|"
    r"(?:antworte(?:t|n)|reagier(?:t|en)|kommunizier(?:t|en)|melde(?:t|n) sich) (?:jetzt |nun )?wieder|"
    r"(?:ist|sind) (?:jetzt |nun )?wieder (?:erreichbar|ansprechbar|da|online)|"
    r"(?:repond(?:ent)?|communique(?:nt)?|dialogue(?:nt)?) (?:maintenant )?(?:a|de) nouveau|"
    r"(?:est|sont) (?:a|de) nouveau joignables?|"
    r"(?:responden?|contestan?|comunican?) (?:ahora )?(?:de nuevo|otra vez|nuevamente)|"
    r"vuelven? a (?:responder|contestar|comunicar)"
    r")(?:\s?[,:;]|\s-+)(?=\s))"
)
#: The word for a code between others and the next: "U0100 (no data) and code U0140 (low), both active".
_CODE = lazily(
    r"(?:(?<=[,;:])|(?<=(?<![a-z])and)|(?<=(?<![a-z])und)|(?<=(?<![a-z])et)|(?<=(?<![a-z])y)|(?<=(?<![a-z])plus))\s"
    r"((?:code|dtc|fehlercode|codigo)\s)(?=([a-z]{0,2}[0-9][0-9a-z]{2,6})\s?[(,.;]|[pcbu][0-3][0-9a-f]{3}(?![a-z0-9]))")
_CODE_SIGN = signs.of_words(word_set("code dtc fehlercode codigo").__contains__)
_PATTERNS = (_TALK, _TOLD, _UP, _HEADS, _OKAY)
#: One of them stands in whatever those find.
_SIGN = signs.of_words(word_set(
    "moving carrying going getting pressing cracking keeping next on then so see here weiter nachstes nachste passons "
    "passe continue suivant suite seguimos sigo continuamos siguiente pasamos vamos ok okay right well now alright bon "
    "alors bueno vale gut also quick heads fyi info kurz kurze petit pour mensaje para everywhere uberall partout "
    "todos todas").__contains__)
_HELLO_SIGN = signs.of_words(word_set(
    "hi hello hey hiya hallo moin servus gruss salut bonjour bonsoir hola buenas buenos guten good morning afternoon "
    "evening").__contains__)
_AGAIN_SIGN = signs.of_words(word_set("again back wieder nouveau nuevo vez nuevamente vuelve vuelven").__contains__)
_VEHICLE_SIGN = signs.of_words(word_set("""
    van truck lorry car minibus pickup pick camper campervan motorhome ambulance estate saloon transporter lieferwagen
    kastenwagen lkw pkw wohnmobil krankenwagen rettungswagen fourgon fourgonnette camion camionnette voiture utilitaire
    camping campingcar furgon furgoneta coche turismo autocaravana ambulancia kombi break bus limousine berline
    berlina""").__contains__)


def left_out(found: Sequence[Line]) -> list[Line]:
    """The lines without such words. Linear in their length."""
    kept = list(found)
    for at in signs.places(found, _SIGN):
        if _holds(found[at].low):
            kept[at] = _one(found[at])
    own = frozenset(number.lower() for number in kept[0].own) if kept else frozenset()
    for at in signs.places(kept, _CODE_SIGN):
        kept[at] = _uncalled(kept[at], own)
    for at in signs.places(kept, _HELLO_SIGN):
        match = _HELLO.match(kept[at].low)
        if match is not None and _tells(kept[at], match.end()):
            kept[at] = reworded(kept[at], *match.span(1), "")
    for at in signs.places(kept, _AGAIN_SIGN):
        match = _AGAIN.match(kept[at].low)
        if match is not None and _tells(kept[at], match.end(), first=True):
            kept[at] = reworded(kept[at], *match.span(1), ":")
    led = {at: match for at in signs.places(kept, _VEHICLE_SIGN) if (match := _VEHICLE.match(kept[at].low)) is not None}
    if len(led) == 1 and _tells(kept[at := next(iter(led))], led[at].end()):
        # Where several are told apart so, it is for others to say.
        line, (start, end) = kept[at], led[at].span(1)
        alone = [] if has_digit(line.text[start:end]) else [reworded(line, end, len(line.text), "")]
        kept[at : at + 1] = [*alone, reworded(line, start, end, "")]
    return kept


def _tells(line: Line, start: int, *, first: bool = False) -> bool:
    """Whether a line tells of codes or of an answer from a place on, right there (``first``), and of nothing that is
    wrong with the vehicle."""
    start += len(line.low[start:]) - len(line.low[start:].lstrip())
    low = line.low[start:]
    codes, answers = find(line.text[start:], low).codes, spoken(low)
    if first and not (codes and not codes[0].start) and not (answers and not answers[0].start):
        return False
    return complaints.told(line.text, line.low) is None and bool(codes or answers)


def _uncalled(line: Line, own: frozenset[str]) -> Line:
    """A line without the word for a code before those that are told to be some."""
    for match in reversed(list(_CODE.finditer(line.low))):
        if match[2] is None or match[2] in own:
            line = reworded(line, *match.span(1), "")
    return line


@remembered
def _holds(low: str) -> bool:
    """Whether such words stand in a line."""
    return any(pattern.search(low) is not None for pattern in _PATTERNS)


def _one(line: Line) -> Line:
    """A line without them."""
    for pattern in _PATTERNS:
        line = _without(line, pattern)
    return line


def _without(line: Line, pattern: re.Pattern[str]) -> Line:
    """A line without what the first group of a pattern finds in it."""
    for match in reversed(list(pattern.finditer(line.low))):
        line = reworded(line, *match.span(1), "")
    return line


__all__ = ["left_out"]
