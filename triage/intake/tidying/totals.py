"""Totals: lines that count the modules of a scan and name none, in which no label may be taken for a module.

A line of several labels with a number each is left out whole; what stands before or behind such counts (the heading of
the scan, the supply) stays. One that counts the modules of one answer and names them heads their list.

>>> from triage.intake.lines.rows import rows_of
>>> text = "Control units: 20   Codes: 15\\nAfter clear: 14 modules, 2 silent\\nECM: 2\\nSilent: 2 (ABS, BCM)"
>>> [row.text for row in left_out(rows_of(text), lambda name: name in ("ABS", "BCM", "ECM"))]
['', 'After clear', '', 'ECM: 2', 'Silent:   (ABS, BCM)']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.names import tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.plain.remember import remembered
from triage.intake.said import volts
from triage.intake.said.answers import spoken
from triage.intake.said.near import small
from triage.intake.tidying import scanlead
from triage.intake.words.vocabulary import STATES

#: Modules in the plural: a single one with a number behind it is a module of that number.
_MODULES = word_set("""
    modules ecus units controllers systems nodes steuergerate steuergeraete steuereinheiten systeme calculateurs
    boitiers unites systemes centralitas unidades modulos sistemas calculadores""")
#: The same word in one language, the singular in another: counted only beside other counts of modules.
_EITHER = word_set("module modul stg ecu ecus")
_CODES = word_set("""
    code codes dtc dtcs fault faults error errors trouble fehler fehlern fehlercode fehlercodes fehlereintrage eintrage
    defaut defauts codigo codigos averia averias fallo fallos errores""")
#: What a count is called beside those, or tells of the modules counted.
_COUNTS = word_set("""
    total totals totale totaux totales sum overall altogether gesamt gesamtzahl insgesamt summe number no of count
    counts anzahl zahl nombre numero nb n scanned found read checked tested tried polled asked queried identified
    detected installed fitted reached answered answering responded responding replied replying responses answers
    communicating
    online with without faulty failed affected listed shown in all
    which thereof control gelesen gefunden gescannt gepruft geprueft abgefragt angesprochen erkannt verbaut geantwortet
    antwortend antworten davon mit ohne fehlerhaft auffallig betroffen erreicht d de des du en del los las les avec
    sans dont lus lues trouves detectes interroges scannes presents ayant repondu repondant defaillants con sin leidas
    leidos encontradas encontrados detectadas detectados escaneadas escaneados consultadas consultados responden
    respondieron contestaron que unidad mando unite und et y and muets muettes mudos mudas stumme silents
    them these denen entre eux elles ellos ellas dans en au""")
_SUMS = word_set("total totals totale totaux totales sum gesamt gesamtzahl insgesamt summe suma somme")
_OF = word_set("of de des der d in no number count anzahl nombre numero")
#: Heads of a summary, with or without a colon.
_HEADS = word_set("summary result results zusammenfassung ergebnis resume resultat resumen resultado scan statistics")
#: Between the pieces of such a line.
_PIECE = lazily(r"\s*(?:[,;|\t\u2022]|\s[-/\u2013]\s|\.\s|\s{3,})\s*")
_SEPARATOR = lazily(r"(?:[,;|\u2022(]|(?<=\s)[-/\u2013](?=\s)|\s{3,}|\.\s|:\s)\s*")
#: "12/14 modules answered"
_RATIO = lazily(r"(?<![0-9/.])[0-9]{1,3}\s?/\s?[0-9]{1,3}(?![0-9/.])")
#: Signs that join digits to one number of another kind: a voltage, a time, a date.
_JOINED = lazily(r"[0-9][.,:/-][0-9]|[0-9]\s?(?:%|v(?:olts?)?(?![a-z])|km|min|h(?![a-z]))")
_LISTED = lazily(r"\s*[:(\u2013-]\s*(?=\S)")
_NAMES = lazily(r"\s*(?:[,;/|&]|(?:and|und|et|y)(?![a-z]))\s*")
_BULLETS = " -*\u2022\t"
_NUMBER_BEHIND = lazily(r"[\s:=(]{0,4}[0-9]{1,3}(?![0-9.,/:-]*[0-9])\s?[)\]]?")
_LONGEST, _SHORT = 200, 60
#: "0 défaut(s)", "en total", "im Ganzen".
_BESIDE_SUM = word_set("s in im en au stored memory gespeichert")

_SIGN = signs.of_words((_MODULES | _EITHER | _COUNTS).__contains__)


def left_out(rows: Sequence[Row], is_name: IsName) -> list[Row]:
    """The rows, those that only count modules left blank, those that head a list of names without their count.
    ``is_name`` tells the name of a module. Linear."""
    found: list[Row] = []
    wrapped = False
    for at, row in enumerate(rows):
        wrapped = wrapped or _is_wrapped(rows, at)
        if wrapped:
            wrapped = _is_wrapped(rows, at)
            found.append(Row(row.line, "", 0))
            continue
        if row.blank or row.finds.codes or len(row.low) > _LONGEST or not _speaks(row.low):
            found.append(row)
            continue
        listed = _list(rows, at, is_name)
        found += [listed] if listed is not None else _without(row)
    return found


def _is_wrapped(rows: Sequence[Row], at: int) -> bool:
    """Whether the last count of a row has its number in the next: "Modules: 10, faulty: 6, codes" above "total: 11"."""
    row, below = rows[at], rows[at + 1] if at + 1 < len(rows) else None
    if below is None or row.blank or below.blank or len(row.low) + len(below.low) > _LONGEST or not (
            _speaks(row.low) and has_digit(below.low)):
        return False
    if row.finds.codes or below.finds.codes or _each_counted(row.low):
        return False
    return is_summary(f"{row.low} {below.low}")


def _list(rows: Sequence[Row], at: int, is_name: IsName) -> Row | None:
    """The row as the head of the names that follow it, in its line or in those below; None where none do."""
    row = rows[at]
    hits = [hit for hit in spoken(row.low) if hit.answer in ("silent", "not fitted", "not scanned", "clean")]
    if not hits:
        return None
    stop, first = _end_of_counts(row.low, hits[-1].end), 0
    head = row.low[:stop]
    numbers = _numbers(head)
    if not numbers or not _counted(head) or (len(numbers) == 1 and not numbers[0]):
        # "Number of codes: 0" is told of the module above.
        return None
    for match in _SEPARATOR.finditer(head, 0, hits[-1].start):
        if is_summary(head[: match.start()]) or _single(head[: match.start()]):
            first = match.end()
    behind = _LISTED.match(row.text, stop)
    if behind is not None:
        named = [tidy(name) for name in _NAMES.split(row.text[behind.end() :].strip(" .()"))]
        if not named or not all(is_name(name) for name in named):
            return None
    elif row.text[stop:].strip(" :.)]") or not _names_below(rows, at, is_name):
        return None
    kept = re.sub(r"[0-9]", " ", row.text[first:stop]) + row.text[stop:]
    if behind is None and not kept.rstrip().endswith(":"):
        kept = kept.rstrip(" :.([") + ":"
    start = first + len(kept) - len(kept.lstrip())
    kept = kept.strip()
    return Row(row.line, kept, row.start + start, small(kept))


def _names_below(rows: Sequence[Row], at: int, is_name: IsName) -> bool:
    """Whether the next line holds names and nothing else, and does not head codes of its own."""
    if at + 1 >= len(rows) or rows[at + 1].blank or rows[at + 1].finds.codes or len(rows[at + 1].low) > _LONGEST:
        return False
    below = rows[at + 1]
    named = [tidy(name) for name in _NAMES.split(below.text.strip(_BULLETS))]
    if not all(is_name(name) for name in named) or below.text.endswith(":"):
        return False
    after = rows[at + 2] if at + 2 < len(rows) else None
    if after is None or after.blank:
        return True
    return not after.finds.codes or after.line.indent < below.line.indent or len(named) > 1


def _end_of_counts(low: str, least: int) -> int:
    """Where the number that counts an answer ends: behind the answer ("silent: 2"), or at the answer's own end."""
    match = _NUMBER_BEHIND.match(low, least)
    return match.end() if match is not None else least


def _without(row: Row) -> list[Row]:
    """A row without its counts: what stands before them and behind them, or a blank row."""
    low = row.low
    if is_summary(low) or _single(low) or _foot(low) or _sum_of_none(low):
        return [Row(row.line, "", 0)]
    marks = list(_SEPARATOR.finditer(low))
    for mark in marks[:4]:
        if scanlead.is_lead(low[: mark.start()].rstrip(" :")) and is_summary(low[mark.end() :]):
            return [Row(row.line, row.text[: mark.start()].rstrip(" :"), row.start), Row(row.line, "", 0)]
    for mark in reversed(marks):
        rest = low[mark.end() :]
        supplied = any(volt.of in ("supply", "bare", "lowest") for volt in volts.find(rest))
        if supplied and is_summary(low[: mark.start()]):
            return [Row(row.line, row.text[mark.end() :], row.start + mark.end())]
    return [row]


@remembered
def is_summary(low: str) -> bool:
    """Whether a text consists of several counts with their labels, of which one counts modules.

    >>> told = ("modules scanned 14, not responding 2", "total 14 | ok 9 | fault 3", "14 modules, 9 codes")
    >>> [is_summary(low) for low in told]
    [True, True, True]
    >>> others = ("ecm: 2, abs: 1", "stored: 2, pending: 1", "14 modules, no codes", "module 3 ok 2")
    >>> [is_summary(low) for low in others]
    [False, False, False, False]
    """
    numbers = _numbers(low)
    return numbers is not None and len(numbers) >= 2 and any(numbers) and _counted(low) and _each_counted(low)


def _single(low: str) -> bool:
    """Whether a text is one count of modules: "14 modules scanned", "Silent modules: 2"."""
    numbers = _numbers(low)
    if numbers is None or len(numbers) != 1 or not numbers[0] or not _each_counted(low):
        return False
    if not any(word in _MODULES for word, _, _ in words(low)):
        return False
    # "No codes, 14 modules" tells of all of them.
    return low.rstrip(" )].")[-1:].isdigit() or not any(hit.answer == "clean" for hit in spoken(low))


def _foot(low: str) -> bool:
    """Whether a text is the last row of a table, which adds up its columns: "Total | 14 | 3"."""
    found = [word for word, _, _ in words(low)]
    celled = any(sign in low for sign in ("|", "\t", ";", "  ")) or low.count(",") > 1
    return celled and found[0] in _SUMS and all(
        word in _SUMS or word in _MODULES or word in _CODES or word in _OF or word.isdigit() for word in found)


def _sum_of_none(low: str) -> bool:
    """Whether a text is the sum of all codes, which is none: "Total: 0 faults / 7". The sum is no module without any.

    >>> [_sum_of_none(low) for low in ("total: 0 dtc", "summe: 0 fehler / 6", "total: 2 dtc", "abs: 0 dtc")]
    [True, True, False, False]
    """
    found = [word for word, _, _ in words(low)] if len(low) <= _SHORT else []
    if not found or not (_SUMS & {found[0], found[-1]}) or not any(word in _CODES for word in found):
        return False
    numbers = [int(word) for word in found if word.isdigit()]
    return 1 <= len(numbers) <= 2 and numbers[0] == 0 and all(
        word in _SUMS or word in _CODES or word in _COUNTS or word in _BESIDE_SUM or word.isdigit() for word in found)


@remembered
def _speaks(low: str) -> bool:
    """Whether a line may count modules at all."""
    return has_digit(low) and (signs.of(low) & _SIGN != 0 or bool(spoken(low)))


def _numbers(low: str) -> list[int] | None:
    """The numbers of a text of counts and their labels; None where it holds anything else."""
    if _JOINED.search(_RATIO.sub("0", low)):
        return None
    spans = [(hit.start, hit.end) for hit in spoken(low) if "\t" not in low[hit.start : hit.end]]
    spans += [(hit.start, hit.end) for hit in STATES.find(low)]
    found: list[int] = []
    #: The end of the number right before this word.
    beside = -1
    for word, start, end in words(low):
        if word.isdigit():
            # "#15" is which of them it is.
            if len(word) > 3 or low[start - 1 : start] == "#" or (beside >= 0 and low[beside:start].strip() != "/"):
                return None
            found.append(int(word))
            beside = end
            continue
        beside = -1
        if not (
            word in _MODULES or word in _EITHER or word in _CODES or word in _COUNTS or word in _HEADS
            or any(first <= start < stop for first, stop in spans)
        ):
            return None
    return found


def _counted(low: str) -> bool:
    """Whether one of the labels is of modules: their name in the plural, or what they answered."""
    found = [word for word, _, _ in words(low)]
    if any(word in _MODULES for word in found):
        return True
    states = [(hit.start, hit.end) for hit in STATES.find(low)]
    answers = [
        hit for hit in spoken(low)
        if hit.answer in ("silent", "clean", "not scanned") and not low[hit.start].isdigit()
        and not any(start < hit.end and hit.start < end for start, end in states)
    ]
    either = sum(word in _EITHER for word in found)
    # "Module: 14, Fehler: 9, ohne Antwort: 2", and not "module 3: no answer".
    behind = either == 1 and low[:1].isalpha() and found[-1].isdigit() and sum(map(str.isdigit, found)) > 2
    return bool(answers) and (not either or behind)


def _each_counted(low: str) -> bool:
    """Whether every piece of the text holds its number: "14 modules, no codes" tells that there are none."""
    pieces = [piece for piece in _PIECE.split(low) if piece.strip(" .:")]
    return all(has_digit(piece) or {word for word, _, _ in words(piece)} <= _HEADS for piece in pieces)
