"""What stands near a code: the slips of the pen inside it, the labels before it that say it is no code, and the
words that say it is only spoken of.

Sources: common practice (which letters are taken for which digits, what a workshop writes before a part number).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Protocol, TypeVar

from triage.intake.plain.characters import has_digit
from triage.intake.plain.characters import low as small
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import gone, identnumbers, references, states

__all__ = [
    "Labels",
    "can_be_spaced_type",
    "digits_for_letters",
    "is_slip",
    "not_a_spaced_code",
    "only_spoken_of",
    "part_of_a_number",
    "small",
    "stands_alone",
    "stands_as_code",
]

#: The digit that a letter most likely stands for. G, ? and * could be several.
_DIGIT_FOR = str.maketrans("OoQqIil|SsZz", "000011115522")
#: Words in front of a number that would be read as a code: parameter, channel and unit numbers, "code 1".
_NUMBERED_WORD = lazily(r"CODE[0-9]|COD[0-9]{2}|[PCU]ID[0-9]{2}")
_READABLE = frozenset("0123456789ABCDEFabcdef")
#: "P 0562 voltage low" tells of no volts.
_UNIT_AFTER = lazily(r"\s?(?:(?:rpm|v|volts?|km|mi|miles|min|euro?s?|eur|usd|kg|mm|hours?|h)(?![a-z])|%|€|\$)")
#: Labels after which no code follows, whatever its letter.
_LABEL = lazily(
    r"(?:(?<![a-z0-9])(?:connectors?|conn|splices?|bays?|bins?|stalls?"
    r"|(?:parking|parked in(?: the)?) (?:space|lot|place|spot)"
    r"|gar(?:ee?|er) (?:a la |en )?place|shelf|rooms?|slot"
    r"|parts? ?(?:no|nos|number|numbers|nr|#)|parts?|part|p/n|pn|(?:calibration|cal|software|sw|firmware|flash|"
    r"program(?:me)?|coding|update|data) ?(?:files?|set|image|version|block)|calibrations?(?: id)?|cal(?: ?id)?|calid"
    r"|cvn|serial(?: ?(?:no|number|nr))?|s/n|sn|ref(?:erence)?|invoice|order|job|ro|wo|ticket|quote|fax"
    r"|(?:job|work|order|time) ?(?:card|sheet|slip|ticket)|worksheet|estimate|claim|dossier"
    r"|(?<![a-z] )(?:customer|client|unit|fleet|stock|asset|vehicle|bay|case|record|wagen|fahrzeug) ?"
    r"(?=(?:no|nr|number|num|id|#)(?![a-z]))|(?:kunden|rechnungs|fahrzeug|wagen|vorgangs|werkstattauftrags|auftrags)-?(?:nr|nummer)|rechnung"
    r"|werkstattauftrag|vorgang|lieferschein|facture|devis|fiche|ordre de reparation|factura|expediente"
    r"|orden(?: de (?:trabajo|reparacion))?|n° ?or|ot"
    r"|plates?|reg(?:istration)?|licen[cs]e|tyres?|tires?|key ?(?:no|tag|number)|locker|page"
    r"|software(?: ?(?:no|number|id|version|level|part))?|sw|firmware|fw|hardware(?: ?(?:no|number|id|version|"
    r"part))?|hw|version|ver|revision|rev|drawing|diagram|bulletin|tsb|pinpoint test|test step|vin|stecker"
    r"|steckverbinder|steckverbindung|kupplungsstecker|teilenummer|teile-?nr|sachnummer|kennzeichen|auftrag|"
    r"auftragsnummer|stellplatz|halle|platz|datenstand|softwarestand|connecteur|broche|piece|plaque"
    r"|\w{0,10}formular|form(?:ulaire|ulario)?(?: (?:de )?garanti[ae])?|plaza|poste|llavero|schlusselanhanger"
    r"|emplacement|travee|conector|pieza|referencia|matricula|pedido|clavija|calibracion|etalonnage|"
    r"kalibrierung|kalibrierungs-?(?:nr|nummer|id|datei)|datensatz|(?:software|flash|daten|kalibrier)-?datei"
    r"|(?:fichier|archivo|fichero) (?:de )?(?:flash|logiciel|programmation|programacion|software))"
    r"|n°|#)[\s:=#.°\"'(-]*(?:(?:no|nos|nr|number|numbers|num|id|ids|numero|nummer|n(?=[.°]))(?![a-z])"
    r"[\s:=#.°-]*)?(?:(?:is|at|in|ist|est|es)\s+)?$"
)
#: Labels that only count before C and B, because descriptions of P and U codes end in the same words.
_WEAK_LABEL = lazily(
    r"(?<![a-z0-9])(?:(?<!glow )plugs?|pins?|fuses?|relays?|grounds?|earths?|terminals?|row|sicherung|relais|"
    r"fusible|rele|pin|massepunkt|masse|harness|loom|inline|sensor plug|cavity|circuit no|sheet|see)"
    r"[\s:=#.°\"'(-]*(?:(?:no|nr|number|id)(?![a-z])[\s:=#.-]*)?$"
)
_CONNECTOR_AFTER = lazily(
    r"[\s,:(-]{0,3}(?:connector|plug|pins?|stecker|broche|clavija|conector|connecteur|"
    r'harness|cavity|bay\b|shelf|terminal(?! "?(?:15|30|50|87)[a-z]?"? [a-z])|fuse)\b'
    r"(?! (?:voltage|volts?|supply|circuit|signal|feed|short|open|line|box)\b)|-[0-9]{1,2}\s{0,2}\(?pin"
)
_JOINER = lazily(r"[\s,;&/+]*(?:(and|und|et|y|e|or|to)\s+)?[\s,;&/+]*(?:connector\s+)?")
#: The first cell of a line and what parts it from the next: "Job no.;B1263".
_FIRST_CELL = lazily(r"[\s>\"'*|]{0,6}([^\s;,~|\"'][^;,~|\t\"']{2,30}?)[\s\"'*]{0,4}[;,~|\t][\s\"'*]{0,4}$")
_PLURAL = lazily(r"[a-z](?:s|nos|numbers)[\s:=]*$")
_MENTION = lazily(
    r"(?<![a-z])(?:(?<!can )(?<!i )(?<!we )(?<!could )(?<!did )(?<!i also )(?<!still )"
    r"(?<!now )see|see also|refer to|referring to|siehe|siehe auch|vgl\.?|voir|voir aussi|vease|cf\.?|without|"
    r"except|instead of|unlike|no sign of|not|no|kein|keine|keinen|sans|sin|ohne|pas de|causes?|caused by|"
    r"related to|triggered by|set by|because of|due to|wegen|e\.g\.|such as|like|including e\.g\.|ningun|aucun|"
    r"expecting|expected)\s+(?:also\s+|any\s+"
    r"|more\s+|longer\s+)?(?:(?:the\s+)?(?:codes?|dtcs?|fehler|defaut|codigo)\s+)?\(?$"
)
#: Before a code: another one and "and", or an abbreviation in capitals.
_BEHIND = lazily(r"[0-9A-Fa-fOo]{4} (?:and|und|et|y|e)$|(?<![^\W_])[A-Z]{2,6}$")
#: Behind a code in a list.
_AND_MORE = lazily(r"(?:and|und|et|y|e|in|im|dans|en)\s")
_NUMBERING = lazily(r"(?<![a-z])no\.\s*$")
#: The last words of the labels and of what leads to a mention: where none of them stands before a code, no pattern
#: need be tried.
_LABEL_ENDS = word_set(
    "card sheet slip worksheet estimate claim dossier kundennr kundennummer rechnungsnr rechnungsnummer fahrzeugnr "
    "fahrzeugnummer wagennr wagennummer vorgangsnr vorgangsnummer werkstattauftragsnr werkstattauftragsnummer "
    "auftragsnr rechnung werkstattauftrag vorgang lieferschein facture devis fiche reparation factura expediente orden "
    "trabajo or ot space lot place spot "
    "connector connectors conn splice splices bay bays bin bins stall stalls shelf room rooms slot no nos nr number "
    "numbers num id ids numero "
    "nummer parts part n pn calibration calibrations cal calid cvn s sn ref reference invoice order job ro wo "
    "ticket quote fax plate plates reg "
    "registration license licence tyre tyres tire tires tag key locker page version level software sw firmware fw "
    "hardware hw ver revision rev "
    "drawing diagram bulletin tsb test vin stecker steckverbinder steckverbindung kupplungsstecker teilenummer "
    "teile sachnummer kennzeichen "
    "auftrag auftragsnummer stellplatz halle platz datenstand softwarestand connecteur broche piece "
    "plaque emplacement travee form formular garantieformular formulaire formulario garantie garantia plaza poste "
    "conector pieza matricula pedido clavija calibracion etalonnage is at in ist est es serial p plug plugs pin "
    "file files set image block datei datensatz kalibrierungsdatei softwaredatei flashdatei datendatei kalibrierdatei "
    "flash logiciel programmation programacion "
    "kalibrierung kalibrierungsnr kalibrierungsnummer referencia matricula llavero schlusselanhanger "
    "pins fuse fuses relay relays "
    "ground grounds earth earths terminal terminals row sicherung relais fusible rele massepunkt masse harness loom "
    "inline cavity see"
)
_MENTION_ENDS = word_set(
    "see also to siehe auch vgl voir aussi vease cf without except of unlike not no kein keine keinen sans sin ohne "
    "de cause causes by as like "
    "wegen g any more longer code codes dtc dtcs fehler defaut codigo expecting expected ningun aucun"
) | references.ENDS
_LAST_WORD = lazily(r"[^a-z]*([a-z]*)")


def _last_word(text: str) -> str:
    """The last word of ``text``. Looked for from the end, so that no place is tried in vain."""
    match = _LAST_WORD.match(text[::-1])
    return match[1][::-1] if match is not None else ""


class _Spot(Protocol):
    """Anything with a place in a line."""

    @property
    def start(self) -> int: ...
    @property
    def end(self) -> int: ...


SpotT = TypeVar("SpotT", bound=_Spot)

_MAIL_OR_TYRE = lazily(r"@|/[0-9]{2,3}\s?(?:r|zr)[0-9]", re.IGNORECASE)
_WINDOW = 34
_CLOSES = lazily(r"(?:[-:\u2013 ]?[0-9a-f]{2})?\)")  # the bracket round a code and its failure type


class Labels:
    """The labels of one line, asked from left to right: a list after a label ("connectors C0123 and C0124") is all
    of its kind."""

    def __init__(self, low: str) -> None:
        self._low = low
        self._labelled_until = -1
        self._plural = False

    def before(self, start: int, end: int, text: str) -> bool:
        """Whether the place ``start``..``end`` is named by a label as something else than a code."""
        low = self._low
        if start == 0 and (low[0] not in "cb" or not _CONNECTOR_AFTER.match(low, end)):
            return False
        if identnumbers.holds(low, start, end):
            return True
        window = low[max(0, start - _WINDOW) : start]
        ends = _last_word(window[-20:]) in _LABEL_ENDS or "#" in window[-3:] or "\u00b0" in window[-3:]
        found = (ends and _LABEL.search(window) is not None) or (start <= _WINDOW and self._fills_a_cell(window))
        # "Pump relay (C0265)": a code in brackets of its own stands behind its description.
        weak = low[start] in "cb" and not (low[start - 1 : start] == "(" and _CLOSES.match(low, end) is not None)
        if not found and weak:
            found = ends and _WEAK_LABEL.search(window) is not None
            # No connector has a number as long as a code with its failure type.
            if not found and end - start < 7 and _CONNECTOR_AFTER.match(low, end):
                celled = low[:start].rstrip().endswith(("|", "\t", ";")) or low[start - 1] == low[end : end + 1] == ","
                found = not celled and bool(low[:start].strip(" \t-*\u2022>|"))
        if not found and self._labelled_until >= 0 and start - self._labelled_until <= 16:
            joint = _JOINER.fullmatch(low, self._labelled_until, start)
            found = joint is not None and (self._plural or joint[1] is not None or "&" in joint[0])
        elif found:
            self._plural = _PLURAL.search(window) is not None
        if found:
            self._labelled_until = end
        return found

    @staticmethod
    def _fills_a_cell(before: str) -> bool:
        """Whether the first cell of a line, all that stands before a place, holds a label and nothing else."""
        cell = _FIRST_CELL.match(before)
        return cell is not None and _last_word(cell[1]) in _LABEL_ENDS and _LABEL.match(cell[1]) is not None


def digits_for_letters(body: str) -> str | None:
    """``body`` with letters that stand for digits read as those; None where a character could be several."""
    read = body.translate(_DIGIT_FOR)
    return read if set(read) <= _READABLE else None


def is_slip(letter: str, body: str, digits: int) -> bool:
    """Whether a word with letters for digits is more likely a code than a word of a language."""
    word = (letter + body).upper()
    if _NUMBERED_WORD.fullmatch(word):
        return False
    odd = [c for c in body if c not in _READABLE]
    if any(c in "SsZz" for c in odd):
        return digits >= 3
    if digits >= 2 and body[0].isdigit() and not body.strip("0123456789O"):
        # "p03OO": no word has capital letters O behind its digits.
        return True
    if digits and letter.islower() and "O" in body and body[0] in "O0123" and not (
            body.strip("Oabcdef0123456789")):
        # "pOaa6", "cOO3a": no word has capital letters O among small ones.
        return True
    if digits >= 2:
        return letter.isupper() or not any(c.isupper() for c in body) or digits >= 3
    if digits == 0:
        return False
    if letter.isupper():
        # "P" and capitals: POAA6, Ul5CF. A word with a number is written in small letters.
        small = body.count("o") + body.count("i")
        return not any(c in "abcdef" for c in body) and (not small or any(c in "ABCDEF" for c in body))
    return body.islower() and not body[:-1].isalpha()


def may_be_slip(letter: str, body: str) -> bool:
    """Whether a word that :func:`is_slip` does not take for a code may be one nevertheless ("poaa6", "POS62")."""
    word = (letter + body).upper()
    digits = sum(c.isdigit() for c in body)
    if letter not in "PCBUpcbu" or not digits or word[:4] == "CODE" or word[1:3] == "ID":
        return False
    if (letter + body).islower() or not body.strip("0123456789Oo"):
        return True
    if digits >= 2 and body[0].isdigit() and body[-1].isdigit() and not body.strip("0123456789OABCDEF"):
        # "b1OA2": capitals among the digits behind a small letter.
        return True
    return word[:3] == "COD" or (digits >= 2 and (letter + body).isupper())


def can_be_spaced_type(pair: str) -> bool:
    """Whether two characters after a space may be a failure type: a digit must be in it ("de", "AB" are words)."""
    return has_digit(pair)


def not_a_spaced_code(text: str, low: str, start: int, end: int) -> bool:
    """A single letter and a number apart from each other: more often something else than a code."""
    before = low[max(0, start - 14) : start]
    if _UNIT_AFTER.match(low, end) or re.search(
        r"(?:plan|group|bank|class|category|type|option|level|vitamin|"
        r"hepatitis|"
        r"part|section|zone|channel|gruppe|bus)\s*$",
        before,
    ):
        return True
    if text[start].isupper() or start == 0 or before[-1:] in "|\t ;,\"'=":
        return False
    # "Wiring fault (p-1290)"; "(p.1290)" may be a page.
    return before[-1:] not in "([" or text[start + 1] not in "- "


#: Codes with a mark between them, perhaps behind dots that lead from a name ("ABS...P0562/P0563").
_SIDE_BY_SIDE = lazily(
    r"(?:[^\s0-9]{0,24}\.\.)?(?:(?:[0-9]{1,3}-)?(?:[PCBUpcbu][0-3][0-9A-Fa-f]{3}(?:[-:]?[0-9A-Fa-f]{2})?[-/.]){1,4}|[0-9]{1,3}[-/.])"
)


#: One group more of a number, no failure type: "51-P0620-A".
_RUNS_ON = lazily(
    r"[-/._](?![0-9A-Fa-f]{2}(?![0-9A-Za-z]))(?:[A-Za-z]|[0-9]{3,4}|[0-9]{1,3}[A-Za-z]{1,3})(?![0-9A-Za-z])"
)


def part_of_a_number(text: str, start: int, end: int) -> bool:
    """Whether the place is the middle of a longer number: 8P0-P0562-B, P0205/55R16, 12.B1234, an address or a path."""
    if start and text[start - 1] in "-/._@\\":
        head = re.search(r"[^\s|;,:()\[\]]*$", text[max(0, start - 24) : start])
        if head is not None and (has_digit(head[0]) or "@" in head[0] or "\\" in head[0]):
            # "P0562/P0563" and "P0562-P0563" are two codes side by side; "03-P0562" may be a line number.
            return not _SIDE_BY_SIDE.fullmatch(head[0]) or (
                head[0][:-1].isdigit() and _RUNS_ON.match(text, end) is not None)
    return text[end : end + 1] in ("@", "/") and _MAIL_OR_TYRE.match(text, end) is not None


def stands_alone(text: str, start: int, end: int) -> bool:
    """Whether the place is where a code would stand: first in its line or cell, or followed by one's usual company."""
    before = text[max(0, start - 60) : start].rstrip()
    after = text[end : end + 40].lstrip()
    first = (
        not before
        or before[-1] in "|;,:-*\u2022>)(/"
        or _GAP_BEFORE.search(text, max(0, start - 4), start) is not None
    )
    last = not after or after[0] in "|;,:-)(/" or _GAP_BEHIND.match(text, end) is not None
    return first or last or (start <= 60 and len(before.split()) <= 4)


#: The edges of a cell that tabs or wide gaps part from the others.
_GAP_BEFORE, _GAP_BEHIND = lazily(r"(?:\t|\s\s)\s*$"), re.compile(r"\s*(?:\t|\s\s)")


def stands_as_code(text: str, low: str, start: int, end: int) -> bool:
    """Whether the place is one of a code alone: first in its line, its list or behind its mark, and last there or
    before another code, a status or a failure type; behind a word, only before a status.

    >>> [stands_as_code(text, text, 5, 11) for text in ("abs: p o562 stored", "in a b l325 area", "srs, b l325")]
    [True, False, True]
    """
    before, after = text[max(0, start - 60) : start].rstrip(), low[end : end + 40].lstrip()
    first = (
        not before.strip("-*\u2022>#.0123456789)( ")
        or before[-1] in "|;,:=>-*\u2022(/&+"
        or _GAP_BEFORE.search(text, max(0, start - 4), start) is not None
        or _BEHIND.search(before) is not None
    )
    if _told(low, end):
        return True
    if not first:
        return False
    last = not after or after[0] in "|;,:)(/-[&+" or _GAP_BEHIND.match(text, end) is not None
    return last or bool(_AND_MORE.match(after))


def _told(low: str, end: int) -> bool:
    """Whether a status stands right behind a place."""
    return states.leading(low, end) > end + 1


_ONE_CODE = r"[pcbu] ?[0-3o][0-9a-fo]{3}(?:[-:]?[0-9a-f]{2})?"
#: "Neither P0300 nor P0420 has come back"; neither being active is another matter.
_NEITHER = lazily(
    rf"(?<![a-z])(?:neither|weder|ni) {_ONE_CODE}(?:,? (?:nor|noch|ni) {_ONE_CODE}){{1,4}} "
    r"(?:(?:has|have|did|is|was|est|sont|ha|han|ist|sind|kam|kamen|are|not|n'est|n'ont|ne) ){0,2}"
    r"(?:come|came|returned?|reappear\w*|recur\w*|back|again|wieder|zuruck|revenu\w*|reapparu\w*|vuelto|regresado)(?![a-z])"
)


def only_spoken_of(low: str, codes: Sequence[SpotT]) -> tuple[list[SpotT], list[SpotT]]:
    """``codes`` that are reported here, and those the text only mentions: "see P0715", "no P0562", "P0562 did not
    return"."""
    neither = _NEITHER.search(low) if len(codes) > 1 and ("neither" in low or "weder" in low or "ni " in low) else None
    if neither is not None:
        return ([code for code in codes if not neither.start() < code.start < neither.end()],
                [code for code in codes if neither.start() < code.start < neither.end()])
    for code in codes:
        start = code.start
        if (start and _last_word(low[max(0, start - 20) : start]) in _MENTION_ENDS) or gone.end(low, code.end):
            break
    else:
        return list(codes), []
    kept: list[SpotT] = []
    mentions: list[SpotT] = []
    last_spoken = -99
    for place, code in enumerate(codes):
        # What stands in another column leads to nothing.
        window = low[max(0, code.start - 40) : code.start].rpartition("   ")[2]
        spoken = (_MENTION.search(window) is not None and not _NUMBERING.search(window)) or (
            bool(window) and references.points_at(low, code.start, code.end))
        if not spoken and mentions and last_spoken == place - 1:
            spoken = bool(
                re.fullmatch(r"[\s,;&/+]*(?:(?:and|or|und|oder|et|ou|y|o)\s+)?", low[mentions[-1].end : code.start])
            )
        if not spoken:
            follows = codes[place + 1].start if place + 1 < len(codes) else len(low)
            spoken = bool(gone.end(low[: min(follows, code.end + 80)], code.end))
        if spoken:
            last_spoken = place
        (mentions if spoken else kept).append(code)
    if mentions and kept:
        kept, mentions = _gone_together(low, codes, kept, mentions)
    return kept, mentions


def _gone_together(
    low: str, codes: Sequence[SpotT], kept: list[SpotT], mentions: list[SpotT]
) -> tuple[list[SpotT], list[SpotT]]:
    """ "P0562 and U0100 did not return": what is said of the last of a list is said of all."""
    lost = {id(code) for code in mentions}
    for place in range(len(codes) - 2, -1, -1):
        after = codes[place + 1]
        if id(after) in lost and gone.end(low, after.end):
            between = low[codes[place].end : after.start]
            if re.fullmatch(r"[\s,&/+]*(?:(?:and|und|et|y)\s+)?", between):
                lost.add(id(codes[place]))
    return [code for code in codes if id(code) not in lost], [code for code in codes if id(code) in lost]
