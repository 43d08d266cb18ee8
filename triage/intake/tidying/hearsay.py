"""Hearsay: what a remark tells of another time, or somebody else told of the vehicle, is no part of this scan.

>>> from triage.intake.lines.rows import rows_of
>>> text = "Note: another garage cleared P0300 last year\\nNote: P0300 is still active, came up last week\\nABS: C0031"
>>> [(len(row.finds.codes), row.aside) for row in marked(rows_of(text))]
[(0, ((29, 34),)), (1, None), (1, None)]
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from itertools import pairwise

from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, WORD, word_set
from triage.intake.said.answers import spoken
from triage.intake.words.vocabulary import STATES

MESSAGE = "is told of another time or by somebody else: not taken for a code of this scan"

#: The first word of a remark, and of a sentence that tells who said it or when it was.
_REMARKS = word_set(
    "note notes nb remark remarks comment comments ps fyi info hinweis anmerkung bemerkung notiz remarque nota notas "
    "observacion background complaint beanstandung plainte queja"
)
_MONTHS = word_set(
    "jan january feb february mar march apr april may jun june jul july aug august sep sept september oct october nov "
    "november dec december januar februar marz mai juni juli oktober dezember janvier fevrier mars avril juin juillet "
    "aout septembre octobre novembre decembre enero febrero marzo abril mayo junio julio agosto septiembre octubre "
    "noviembre diciembre")
_STARTS = _REMARKS | _MONTHS | word_set(
    "old original removed replaced faulty earlier prior first second "
    "another other last previous former some different the an according customer owner driver client he she they at on "
    "during kunde kundin vorbesitzer fahrer andere eine letztes letzten letzte beim laut un autre ancien selon le la "
    "l cliente otro anterior dueno propietario segun el en conducteur chauffeur"
)
_MENDED = word_set(
    "fixed repaired mended sorted cured cleared erased behoben repariert geloscht repare reparee efface reparado "
    "reparada arreglado arreglada borrado borrada")
_SIGN = signs.of_words((_STARTS | _MENDED).__contains__)
_CODE = r"[pcbu][0-3][0-9a-f]{3}(?:-[0-9a-f]{2})?"
_DONE = rf"(?:{'|'.join(sorted(_MENDED))})(?![a-z])"
#: What others do with a code as well: "had P0420 read out by a parts shop two years ago".
_READ = r"(?:read(?: out)?|scanned|found|diagnosed|pulled|ausgelesen|lue?s?|leido)(?![a-z])"
_AND_CODE = rf"(?:,? (?:and |und |et |y )?{_CODE}){{0,4}}"
#: "P0420 was fixed", "had P0420 fixed", "we fixed P0420"; words of a description stand nowhere between.
_FIXED = lazily(
    rf"(?<![a-z0-9]){_CODE}{_AND_CODE}(?: (?:was|were|has|have|had|been|got|already|both|all|then|wurden?|ist|sind|vor|"
    rf"einem|einer|zwei|drei|[0-9]{{1,2}}|jahr|jahren|monat|monaten|wochen?|schon|bereits|a|ont|ete|fue|fueron|ha|sido|"
    rf"deja|ya)){{0,6}} {_DONE}|"
    rf"(?<![a-z]){_DONE} (?:(?:the|an?|that|code|codes) ){{0,2}}{_CODE}(?![a-z0-9])"
)
#: Somebody who had it done.
_HAD_DONE = lazily(
    rf"(?:(?:the|our|last|previous) ){{0,2}}(?:customer|owner|driver|client|he|she|they) (?:has |have |once |already )*"
    rf"(?:had|got) (?:(?:the|an?|that|code|codes) ){{0,2}}{_CODE}{_AND_CODE} (?:both |all )?{_DONE}"
)
_HAD_READ = lazily(
    rf"(?:(?:the|our|last|previous) ){{0,2}}(?:customer|owner|driver|client|he|she|they|somebody|someone) "
    rf"(?:has |have |once |already )*(?:had|got) (?:(?:the|an?|that|code|codes) ){{0,2}}{_CODE}{_AND_CODE} "
    rf"(?:both |all )?{_READ}"
)
_BACK = lazily(
    r"(?<![a-z])(?:back|again|returned|returns|came|comes|since|wieder|zuruck|revenu|revient|volvio|vuelve|otra vez)"
    r"(?![a-z])"
)
_MARKED = lazily(r"\s*(?:[:.]|\s-+\s)")
_WHO = lazily(
    r"(?:an?other|other|last|previous|former|different|some) (?:garage|workshop|dealer(?:ship)?|shop|mechanic|"
    r"technician|owner|keeper|place|specialist)s?(?![a-z])|(?:customer|owner|driver|client|he|she|they) "
    r"(?:says?|said|reports?|reported|claims?|claimed|told|thinks|thought|states|mentioned)(?![a-z])|"
    r"according to (?:the )?(?:customer|owner|driver|client|another|other|last|previous)|"
    r"vorbesitzer|(?:andere[rn]?|letzte[rn]?|vorige[rn]?) werkstatt|(?:kunde|kundin|fahrer) (?:sagt|meint|berichtet)|"
    r"laut (?:kunde|fahrer|vorbesitzer)|(?:autre|ancien|dernier) (?:garage|atelier|proprietaire)|"
    r"(?:client|conducteur|chauffeur) (?:dit|signale|pense)|selon (?:le )?(?:client|conducteur|chauffeur)|"
    r"(?:old|previous|original|former|removed|replaced|faulty|alte[sn]?|vorige[sn]?|ancien|precedent|viejo|anterior) "
    r"(?:unit|module|ecu|control unit|one|box|part|steuergerat|calculateur|modulo)(?![a-z])|"
    r"otro taller|(?:dueno|propietario) anterior|(?:cliente|conductor) (?:dice|comenta)|segun (?:el )?cliente"
)
_WHEN = lazily(
    r"(?<![a-z])(?:last (?:year|month|week|summer|winter|spring|autumn|time|visit|service|inspection)|"
    r"(?:years?|months?|weeks?|days) ago|(?:previous|earlier) (?:visit|service|inspection)|back in (?:19|20)[0-9]{2}|"
    r"letzte[nrs]? (?:jahr|monat|woche|mal|besuch|winter|sommer)|vor (?:einem|einer|zwei|drei|[0-9]+) "
    r"(?:jahr|monat|woche|tag)\w*|l'an(?:nee)? derniere?|(?:mois|hiver|ete) dernier|(?:semaine|annee|fois) derniere|"
    r"il y a (?:une?|deux|trois|[0-9]+) (?:ans?|mois|semaines?)|"
    r"hace (?:una?|dos|tres|[0-9]+) (?:anos?|mes(?:es)?|semanas?)|"
    r"derniere (?:visite|fois)|(?:ano|mes|invierno|verano) pasado|semana pasada|ultima (?:visita|vez))(?![a-z])"
)
#: Of a visit before that of today, which a line below begins: "Jan visit: P0335, replaced the sensor, cleared".
_VISIT = lazily(
    rf"\s*(?:(?:in|on|at|the|am|im|en|le) ){{0,2}}(?:{'|'.join(sorted(_MONTHS))}|last|previous|first|second|1st|2nd|"
    r"earlier|prior|former|erste[rn]?|letzte[rn]?|voriger?|derniere|premiere|ultima|primera)\.?(?: (?:19|20)[0-9]{2})? "
    r"(?:visit|repair|job|besuch|reparatur|visite|reparation|visita|reparacion)(?![a-z])")
_TODAY = lazily(r"\s*(?:today|now|this (?:time|visit)|(?:scan )?today|heute|jetzt|aujourd'hui|maintenant|hoy|"
                r"ahora)(?![a-z])")
#: Said of now, unless it is denied.
_NOW = lazily(
    r"(?<![a-z])(?:still|now|today|currently|again today|heute|jetzt|noch|aktuell|encore|toujours|maintenant|"
    r"aujourd'hui|todavia|sigue|ahora|hoy)(?![a-z])"
)
_DENIED = lazily(
    r"(?<![a-z])(?:not|none|no longer|never|aucun|n't|nicht|kein\w*|pas|plus|no|ya no)(?: [a-z]+){0,4}\s*$")
_SENTENCE = lazily(rf"[!?]\s+|\.{NOT_SHORT}\s+")
#: Before who or when at the start of a sentence.
_SMALL = word_set("the a an at on during in some le la l un der die das beim bei eine laut el en")
_PARTED = lazily(r"[,;:]|\s-+\s|\s(?:but|and found|aber|mais|pero)\s")
_LONGEST, _REACH = 300, 40


def marked(rows: Sequence[Row]) -> list[Row]:
    """The rows; those of hearsay, and such a sentence of a row, without their codes, whose places are kept in
    ``aside``."""
    found: list[Row] = []
    done = 0
    for at in signs.places(rows, _SIGN):
        row = rows[at]
        if row.aside is not None:
            continue
        if row.finds.codes and _VISIT.match(row.low) and any(_TODAY.match(other.low) for other in rows[at + 1 :]):
            found += [*rows[done:at], _aside(row)]
            done = at + 1
            continue
        if row.finds.codes and ". " in row.text:
            found += [*rows[done:at], *_sentences(row)]
            done = at + 1
        elif _is_hearsay(row):
            found += [*rows[done:at], _aside(row)]
            done = at + 1
    return [*found, *rows[done:]]


def _sentences(row: Row) -> list[Row]:
    """The row, each sentence of hearsay in it as a row of its own."""
    starts = [0, *(match.end() for match in _SENTENCE.finditer(row.low)), len(row.text)]
    found: list[Row] = []
    begin = 0
    for start, end in pairwise(starts):
        first = WORD.match(row.low, start)
        if first is None or (first[0] not in _STARTS and not _is_gone(row.low[start:end])):
            continue
        part = Row(row.line, row.text[start:end].rstrip(), row.start + start)
        if not part.finds.codes or not _is_hearsay(part):
            continue
        if row.text[begin:start].strip():
            found.append(Row(row.line, row.text[begin:start].rstrip(), row.start + begin))
        found.append(_aside(part))
        begin = end
    if not begin:
        return [row]
    return [*found, Row(row.line, row.text[begin:], row.start + begin)] if begin < len(row.text) else found


def remark_end(low: str) -> int:
    """Where a remark begins behind the word that says it is one ("Note: P0562 is back"); 0 for any other text.

    >>> remark_end("note: p0562 is back"), remark_end("notes p0562"), remark_end("abs: c0031")
    (6, 0, 0)
    """
    first = WORD.match(low)
    if first is None or first[0] not in _REMARKS:
        return 0
    mark = _MARKED.match(low, first.end())
    return len(low) - len(low[mark.end() :].lstrip()) if mark is not None else 0


def _is_hearsay(row: Row) -> bool:
    """Whether a row with codes, or a remark without an answer, tells what somebody else said or did, or what was at
    another time, and nothing of now."""
    low = row.low
    # "(The last garage wrote P0128 on the invoice.)"
    first = WORD.match(low, len(low) - len(low.lstrip(" (\"'")))
    if len(low) <= _LONGEST and row.finds.codes and _is_gone(low):
        return True
    if first is None or first[0] not in _STARTS or len(low) > _LONGEST:
        return False
    remark = remark_end(low)
    if not row.finds.codes and not (remark and not spoken(low)):
        return False
    hits = [hit for hit in (_WHO.search(low, remark), _WHEN.search(low, remark)) if hit is not None]
    hits = [hit for hit in hits if remark or all(word in _SMALL for word in WORD.findall(low[: hit.start()]))]
    code = row.finds.codes[0].start if row.finds.codes else 0
    # "Customer says no start, ECM has P0562": what stands behind a comma was found here.
    if not any(_PARTED.search(low[hit.end() : code].lstrip(" ,:")) is None for hit in hits):
        return False
    return _is_past(low)


def _is_gone(low: str) -> bool:
    """Whether a sentence tells of a code that was mended at another time, or that somebody had mended, and of no
    status: "P0420 was fixed two years ago", "he had P0420 repaired"; or that somebody had read at another time."""
    once = _WHEN.search(low) is not None
    if once and _HAD_READ.match(low):
        return _BACK.search(low) is None and _is_past(low)
    fixed = _HAD_DONE.match(low) or (_FIXED.search(low) if once else None)
    if fixed is None or ":" in low[: fixed.start()]:
        return False
    return _BACK.search(low) is None and not STATES.find(low) and _is_past(low)


def _is_past(low: str) -> bool:
    """Whether nothing in a sentence is said of now."""
    return all(_DENIED.search(low, max(0, now.start() - _REACH), now.start()) for now in _NOW.finditer(low))


def _aside(row: Row) -> Row:
    """The row without its codes."""
    found = copy(row)
    found.aside = tuple((code.start, code.end) for code in row.finds.codes)
    found.finds = row.finds._replace(codes=(), refusals=())
    return found


__all__ = ["MESSAGE", "marked", "remark_end"]
