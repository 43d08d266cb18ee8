"""Names that nobody knows, in the place of a module in a sentence: "the tailgate and the VDM are clean".

Three to five capital letters in a text of small ones are a module where "in the" or the like leads from a code to
them, and right before or behind another name with "and" or a comma between.

>>> from triage.intake.lines.rows import rows_of
>>> row = rows_of("Tailgate and the VDM are clean, MIL off")[0]
>>> [row.text[start:end] for start, end in joined(row, [(0, 8)], spoken(row.low))]
['Tailgate', 'VDM']
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence

from triage.intake.lines import goingon
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import low as small
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words, word_set
from triage.intake.said import states
from triage.intake.said.answeraround import Spoken
from triage.intake.said.answers import spoken
from triage.intake.words.device_words import KINDS, is_device
from triage.intake.words.saying_words import ADVERBS, BEFORE, BEHIND, PEOPLE, VERBS
from triage.intake.words.vocabulary import STATES

Span = tuple[int, int]

#: Which one is meant was said before.
NOT_NAMED = KINDS | word_set(
    "the whole complete entire other same this that each every any all my our its new old of in")
_AND = r"(?:\s?,\s?(?:(?:and|und|et|y|or|oder|ou|o|nor|noch|ni)\s)?|\s(?:and|und|et|y|or|oder|ou|o|nor|noch|ni|&)\s)"
_THE = r"(?:(?:the|der|die|das|dem|den|le|la|el)\s)?"
_TOKEN = r"([A-Z][A-Z0-9]{1,3}[A-Z])"
_BEFORE = lazily(rf"(?<![A-Za-z0-9/-]){_TOKEN}{_AND}{_THE}$")
_BEHIND = lazily(rf"{_AND}{_THE}{_TOKEN}(?![A-Za-z0-9/-])")
#: Capital letters that name no module.
NO_NAMES = word_set(
    "dtc dtcs vin obd koeo koer mil ok no nr and or the not all none clear pass fail ecu ecus usb can lin moq asap fyi "
    "cel pcode fault code codes "
    "btw tbc tbd soc oem tsb led lcd gps nok nil awd fwd rwd lost dead gone bad pdf csv html xml json cca agm efb ram "
    "rom nvm eeprom pid pids usa rpm psi ign acc gnd pwm ready"
)
#: From a code to its module.
_LED = lazily(
    rf"(?<![A-Za-z])(?:[Ii]n|[Ff]rom|[Oo]ut of|[Ii]m|[Aa]us dem|[Vv]om|[Dd]ans|[Ee]n)\s{_THE}{_TOKEN}"
    r"(?=\s*(?:[.,;!?)]|$)|\s(?:and|und|et|y)\s)"
)
#: At the end of a sentence of codes, several words with capital letters: "U0100 (pending) in the Tail board node."
_LED_WHOLE = lazily(
    r"(?<![A-Za-z])(?:[Ii]n|[Ff]rom|[Oo]ut of) the ([A-Z][A-Za-z-]{2,20}"
    r"(?: (?:[A-Za-z][A-Za-z-]{0,20}|[0-9]{1,2})){1,4})"
    r"(?=\s*(?:[.;!?]\s|[.;!?]?$))"
)
#: The same without an article in a sentence that begins with its codes: "Found U0100 (pending) in Tail board node."
_LED_FOUND = lazily(
    r"(?<![A-Za-z])(?:[Ii]n|[Ff]rom|[Oo]ut of|[Aa]us|[Dd]ans|[Ee]n) ([A-Z][A-Za-z0-9-]{1,20}"
    r"(?: (?:[A-Za-z][A-Za-z-]{0,20}|[0-9]{1,2})){0,4})(?=\s*(?:[.;!?]\s|[.;!?]?$))"
)
#: The same of one to three words in small letters, behind an article: "B1000 still there in the light bar, ...".
_LED_LOW = lazily(
    r"(?<![A-Za-z])(?:in the|from the|im|in der|in dem|aus dem|aus der|vom|dans l[ae]|en el|en la|del|de la) "
    r"([^\W\d_][^\W\d_-]{2,20}(?:-[^\W\d_]{2,20})?(?: [^\W\d_]{2,20}){0,2})(?=\s*[.,;!?)](?:\s|$)|\s*$)")
#: Between a code and its place.
_LASTING = lazily(r"(?<![a-z])(?:is|are|was|sits|still|also|only|ist|sind|steht|stehen|noch|auch|nur|est|sont|encore|"
                  r"toujours|aussi|esta|sigue|todavia|aun|tambien)(?![a-z])")
_FOUND = lazily(
    r"(?:^|[.;!?]\s+)(?:(?:and|then|also|i|we|ich|wir)\s){0,2}(?:found|got|get|pulled|read|see|saw|have|"
    r"there (?:is|are|was|were)|gefunden|habe|haben|trouve|encontre|encontrado|hay)"
    r"(?:\s(?:also|still|stored|current|pending|permanent|codes?|dtcs?|faults?)){0,3}[\s:]+$"
)
_ENCLOSED = lazily(r"\([^()]{0,80}(?:\([^()]{0,40}\)[^()]{0,40})?\)")
_ENDS = lazily(r"[.;!?]\s")
#: At the beginning of a sentence, before its codes.
_OPENS = lazily(
    rf"(?:^|[.;!?:]\s+|\s-+\s+)(?:[Ii]n the|[Ii]m|[Ii]n der|[Dd]ans l[ae]|[Ee]n (?:el|la))\s{_TOKEN}(?=[\s:,])"
)
#: At the beginning of a sentence, with a dash before its codes as other names have: "EBS - C0034 stored. VDM - U0073".
_DASHED = lazily(
    rf"(?:^|[.;!?]\s+)(?:(?:[Tt]hen|[Aa]nd|[Aa]lso|[Nn]ext|[Oo]kay|[Pp]uis|[Ee]nsuite|[Dd]ann|[Uu]nd|[Ll]uego|"
    rf"[Dd]espu.s),?\s)?{_THE}{_TOKEN}\s-+\s"
)
#: In brackets behind a code, and perhaps its failure type: "U3006 (17) (HLR)".
_BRACKETED = lazily(rf"\s?(?:\([0-9A-F]{{2}}\)\s?)?\({_TOKEN}\)")
_IN_BRACKETS = lazily(r"(?:\s?\([^()]{1,80}\))?(?:, [a-z ]{3,40})?\s?")
_VERB = (r"(?:(?:has|had|shows?|gives?|gave|sets?|got|reports?|hat|hatte|zeigt|meldet|affiche|indique|tiene|muestra|"
         r"da)\s)?")
#: From a name to its code, and a short word in that place.
_TO_CODE = lazily(rf"\s{_VERB}")
_OPENING = lazily(
    rf"(?:^|[,;.]\s|(?<![A-Za-z])(?:then|next|dann|weiter|ensuite|puis|luego|despues)\s)(?:the\s)?"
    rf"([A-Za-z][A-Za-z0-9]{{2,4}})\s{_VERB}$"
)
#: Short words that are none of a name in that place.
_NO_SHORT = goingon.PROSE | goingon.TELLS | goingon.IN_DESCRIPTIONS
_NO_SHORT |= BEFORE | BEHIND | ADVERBS | PEOPLE | VERBS | word_set(
    "plus code codes dtc dtcs err old new two six ten one first last both each more many next then mit und von noch "
    "dann pcs pts gone sets such ltd etc via per with thx pls")
#: Words in small letters behind "in the" that no module is called by.
_NO_LOW = NOT_NAMED | goingon.TELLS | goingon.IN_DESCRIPTIONS | BEFORE | PEOPLE | word_set(
    "memory list scan report log history morning evening afternoon night day week meantime background rain cold heat "
    "winter summer workshop garage yard vehicle car van truck bus trailer harness loom wiring wire wires circuit plug "
    "connector end beginning moment list system systems way case past future next last second first same speicher "
    "fehlerspeicher liste protokoll regen winter kalten warmen stand werkstatt halle fahrzeug auto wagen moment "
    "kabelbaum leitung stecker kreis stromkreis system memoire liste rapport voiture vehicule camion faisceau circuit "
    "connecteur atelier matin soir nuit memoria lista informe coche vehiculo camion mazo circuito conector taller "
    "manana tarde noche sistema systeme fahrt start anfang ende")
_REACH, _FAR, _WORDS = 16, 100, 30


def joined(row: Row, names: Sequence[Span], said: Sequence[Spoken]) -> list[Span]:
    """The names of a sentence with those unknown ones that stand beside them in a list. Linear in the row."""
    if not said or not names or not any("a" <= char <= "z" for char in row.text):
        return list(names)
    taken = _covered(row, [*names, *((hit.start, hit.end) for hit in said)])
    found, at = list(names), 0
    while at < len(found):
        start, end = found[at]
        at += 1
        before = _BEFORE.search(row.text, max(0, start - _REACH), start)
        behind = _BEHIND.match(row.text, end)
        for span in (match.span(1) for match in (before, behind) if match is not None):
            if _may_be_name(row.low[span[0] : span[1]]) and 1 not in taken[span[0] : span[1]]:
                taken[span[0] : span[1]] = b"\1" * (span[1] - span[0])
                found.append(span)
    return sorted(found)


def led(row: Row, names: Sequence[Span], begun: bool = False) -> list[Span]:
    """The names of a sentence with codes, with those unknown ones that "in the" or the like leads to from a code, or
    that stand in brackets behind one as a known name does. ``begun``: other modules were told before it.

    >>> from triage.intake.lines.rows import rows_of
    >>> row = rows_of("BCM has U0073. U3000 stored in the TCUX, KOEO")[0]
    >>> [row.text[start:end] for start, end in led(row, [(0, 3)])]
    ['BCM', 'TCUX']
    """
    codes = row.finds.codes
    if not codes or not any("a" <= char <= "z" for char in row.text):
        return list(names)
    taken = _covered(row, names)
    found = list(names)
    for match in _LED.finditer(row.text, codes[0].end):
        start, end = match.span(1)
        code = codes[bisect_right(codes, start, key=lambda code: code.end) - 1]
        gap = row.low[code.end : match.start()] if match.start() - code.end <= _FAR else "."
        direct = not gap.strip(" ,(") or states.of_cell(gap) is not None
        article = row.text[match.start() : start].count(" ") > 1 or row.low[match.start() : start] in ("im ", "vom ")
        ended = gap == "." or any(mark in gap for mark in (". ", ";", "!", "?"))
        named = match[1] == "ECU" or _may_be_name(row.low[start:end])
        if (article or direct) and named and not ended and 1 not in taken[start:end]:
            found.append((start, end))
    # The first name may be that of the vehicle: "P0562 in the Delivery Van. ABS has C0035".
    first = 0 if begun else names[0][1] if names else len(row.text)
    found += _led_whole(row, first, taken)
    found += [span for span in _led_found(row, first, taken) if span not in found]
    for match in _OPENS.finditer(row.text):
        # "In the TCUX stored U3000"
        start, end = match.span(1)
        code = codes[min(bisect_right(codes, end, key=lambda code: code.start), len(codes) - 1)]
        gap = row.low[end : code.start].strip(" :,-") if end <= code.start < end + _FAR else "."
        if 1 not in taken[start:end] and _may_be_name(row.low[start:end]) and (
                not gap or states.of_cell(gap) is not None):
            found.append((start, end))
    found += [(start, end) for start, end in dashed(row) if found and 1 not in taken[start:end]]
    if any(row.text[max(0, start - 1) : start] == "(" and row.text[end : end + 1] == ")" for start, end in names):
        spans = (told.span(1) for code in codes if (told := _BRACKETED.match(row.text, code.end)) is not None)
        found += [span for span in spans if _may_be_name(row.low[slice(*span)]) and 1 not in taken[slice(*span)]]
    found += [span for span in _led_low(row, taken) if span not in found]
    return sorted(found)


def _led_low(row: Row, taken: bytearray) -> list[Span]:
    """The names in small letters at the ends of clauses that hold nothing else but codes and what became of them:
    nothing that a description ends with, and no word for a time or a place."""
    found: list[Span] = []
    for match in _LED_LOW.finditer(row.low, row.finds.codes[0].end):
        start, end = match.span(1)
        code = row.finds.codes[bisect_right(row.finds.codes, start, key=lambda code: code.end) - 1]
        gap = row.low[code.end : match.start()] if match.start() - code.end <= _REACH + _REACH else "."
        gap = _LASTING.sub(" ", gap).strip()
        said = plain_words(match[1])
        if (not gap or states.of_cell(gap) is not None) and 1 not in taken[start:end] and _may_be_name(match[1]) and (
                _NO_LOW.isdisjoint(said)):
            found.append((start, end))
    return found


def _led_whole(row: Row, first: int, taken: bytearray) -> list[Span]:
    """The names of several words, from a place on, at the ends of sentences that hold nothing else but codes and what
    stands beside these."""
    found: list[Span] = []
    for match in _LED_WHOLE.finditer(row.text, max(first, row.finds.codes[0].end)):
        start, end = match.span(1)
        code = row.finds.codes[bisect_right(row.finds.codes, start, key=lambda code: code.end) - 1]
        gap = row.low[code.end : match.start()] if match.start() - code.end <= _FAR else "."
        if (not gap.strip(" ,") or states.of_cell(gap) is not None or _IN_BRACKETS.fullmatch(gap)) and (
                1 not in taken[start:end] and _may_be_name(row.low[start:end])):
            found.append((start, end))
    return found


def _led_found(row: Row, first: int, taken: bytearray) -> list[Span]:
    """The names, from a place on, at the ends of sentences that begin with the codes they tell of."""
    found: list[Span] = []
    for match in _LED_FOUND.finditer(row.text, max(first, row.finds.codes[0].end)):
        start, end = match.span(1)
        opens = [code for code in row.finds.codes if first <= code.start < start
                 and _FOUND.search(row.low, max(0, code.start - _FAR), code.start) is not None]
        if not opens or 1 in taken[start:end] or not _may_be_name(row.low[start:end]):
            continue
        told = _ENCLOSED.sub(" ", row.low[opens[-1].end : match.start()])
        if _ENDS.search(told) is None:
            found.append((start, end))
    return found


def dashed(row: Row, at: int = 0) -> list[Span]:
    """Unknown names with a dash before their codes that begin sentences, from a place on.

    >>> from triage.intake.lines.rows import rows_of
    >>> row = rows_of("EBS - C0034 stored. VDM - U0073 pending. MIL - on")[0]
    >>> [row.text[start:end] for start, end in dashed(row, 10)]
    ['VDM']
    """
    if " - " not in row.text:
        return []
    starts = {code.start for code in row.finds.codes}
    return [match.span(1) for match in _DASHED.finditer(row.text, at)
            if match.end() in starts and _may_be_name(row.low[slice(*match.span(1))])]


def opening(row: Row, names: Sequence[Span]) -> list[Span]:
    """The names of a sentence with those unknown short ones that open a part of it right before a code, or before its
    verb, as a known name does: "abs C0035 stored, qsml U0100, then gcr has B1000".

    >>> from triage.intake.lines.rows import rows_of
    >>> row = rows_of("abs C0035 stored, qsml U0100, plus U0101, then gcr has B1000")[0]
    >>> [row.text[start:end] for start, end in opening(row, [(0, 3)])]
    ['abs', 'qsml', 'gcr']
    """
    codes = [code.start for code in row.finds.codes]
    if not any(_TO_CODE.fullmatch(row.low, end, codes[at]) for _, end in names
               if (at := bisect_right(codes, end)) < len(codes)):
        return list(names)
    taken = _covered(row, names)
    found = list(names)
    mixed = sum(map(str.islower, row.text)) > sum(map(str.isupper, row.text))
    for start in codes:
        match = _OPENING.search(row.text, max(0, start - _REACH - _REACH), start)
        if match is not None and 1 not in taken[slice(*match.span(1))] and (
                _abbreviates(match[1] if mixed else match[1].lower())):
            found.append(match.span(1))
    return sorted(found)


def _abbreviates(text: str) -> bool:
    """Whether a word is short for something: all in capitals, or in small letters with hardly a vowel among them."""
    low = text.lower()
    if low in _NO_SHORT or not _may_be_name(low):
        return False
    return text == text.upper() or (text == low and sum(map(low.count, "aeiou")) <= 1)


_LONGEST_SIDE = 4


def is_short(text: str) -> bool:
    """Whether a text is such a name, from its first letter to its last.

    >>> is_short("VDM"), is_short("DTC"), is_short("Vdm")
    (True, False, False)
    """
    return 3 <= len(text) <= 5 and text.isascii() and text.isalnum() and text.isupper() and _may_be_name(text.lower())


def is_one_of_short(text: str) -> bool:
    """Whether a text is such a name, perhaps with what tells it from others alike behind a hyphen.

    >>> is_one_of_short("PUE-DI"), is_one_of_short("VDM"), is_one_of_short("P-DI"), is_one_of_short("VDM-left")
    (True, True, False, False)
    """
    short, hyphen, side = text.partition("-")
    return is_short(short) and (not hyphen or (side.isalnum() and side.isupper() and len(side) <= _LONGEST_SIDE))


def ends_as_name(text: str) -> bool:
    """Whether a few words end with one for a module of their kind, as the name of one that nobody knows does.

    >>> ends_as_name("snow blade unit"), ends_as_name("the whole unit"), ends_as_name("snow blade")
    (True, False, False)
    """
    found = plain_words(small(text).removeprefix("the "))
    # "The 12 volt system was dead"
    return 1 < len(found) <= _LONGEST_SIDE and found[-1] in KINDS and NOT_NAMED.isdisjoint(found[:-1]) and (
        "volt" not in found)


def answers(text: str, score: Callable[[str], float]) -> bool:
    """Whether a sentence gives the answer of such a name ("The VDM did not answer"), of one that stands behind it
    ("cannot reach the vdm"), or of one that is like a listed name ("bodymodule doesn't answer")."""
    low = small(text)
    said = spoken(low)
    if any(hit.answer == "silent" and not hit.doubtful for hit in said):
        return True
    if said and any(is_short(word.strip(".,;:()")) for word in text.split()[:_WORDS]):
        return True
    if any(is_device(word) for hit in said for word in (
            *plain_words(low[: hit.start])[-_LONGEST_SIDE:], *plain_words(low[hit.end :])[: _LONGEST_SIDE + 1])):
        # "The mast unit did not answer", "no link to the mast unit"
        return True
    return bool(said) and bool(name := tidy(text[: said[0].start])) and score(name) >= 60.0


def _may_be_name(low: str) -> bool:
    """Whether capital letters may name a module: they are no status, no answer, and nothing else they stand for."""
    return low not in NO_NAMES and not spoken(low) and not STATES.find(low)


def _covered(row: Row, spans: Sequence[Span]) -> bytearray:
    """One byte a character: 1 where a span or a code is."""
    covered = bytearray(len(row.text) + 1)
    for start, end in [*spans, *((code.start, code.end) for code in row.finds.codes)]:
        covered[start:end] = b"\1" * (end - start)
    return covered


__all__ = [
    "KINDS", "NOT_NAMED", "NO_NAMES", "answers", "dashed", "ends_as_name", "is_one_of_short", "is_short", "joined",
    "led", "opening",
]
