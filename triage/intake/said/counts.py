"""Counts of codes that a line states: "ECM - 3 codes", "ABS (codes: 2)"."""

from __future__ import annotations

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.words.wordings import CODES

#: It begins where a row of marks and blanks does, which is taken whole: a wide gap is tried once.
COUNT = lazily(
    r"(?<![\s,:;/(\[-])[\s,:;/(\[-]*+"
    r"(?:(?<![a-z0-9])(?:total(?: of)?|found|has|codes?|dtcs?|faults?|fehler)?\s*+[:=]?+\s*+)?"
    r"(?<![a-z0-9.,])([0-9]{1,3})\s*(?:x\s*)?(?:(?:stored|active|current|pending|confirmed|trouble|fault|diagnostic|"
    r"error|gespeicherte|codes?)\s+)*"
    rf"({CODES}(?:\([a-z]{{1,2}}\))?)"
    r"(?:\s+(?:found|stored|gespeichert|gefunden|memorises?|trouves?|almacenad[oa]s|encontrad[oa]s|present|set|"
    r"logged|read))?(?![a-z])[\s)\]:.]*"
)
COUNT_AFTER = lazily(
    r"(?:^|(?<=[\s,(|\[-]))(?:number of |no\.? of |anzahl |nombre de |numero de |total )?(?:codes?|dtcs?|faults?|"
    r"fehlercodes?|fehler|defauts?|"
    r"codigos?|averias?|fallos?)(?: count| found| stored|"
    r" gespeichert)?\s*[:=(]\s*([0-9]{1,3})(?![0-9.,]*[0-9a-z/-])[\s)\]]*"
)
#: In the place of an answer that other lines of a list have: "Brakes    fail  2".
#: "Getriebe  Fehler 4", at the end of a short line.
_LAST = lazily(r"(?<=[a-z)\]])[\s:-]{1,30}(?:codes|dtcs|faults|fehler|defauts|averias|fallos)\s+([0-9]{1,2})\s*$")
_FAILED = lazily(r"(?:\s{2,}|\t|\s?[:|.-]{1,40}\s?)(?:fail(?:ed)?|faulty|nok)\s{1,4}[(]?([0-9]{1,2})[)]?\s*$")
#: "Brakes      2 found", "== Brakes ==  2 stored", the last of a line, set off from the name.
_FOUND = lazily(
    r"(?:\s{2,}|\t|\s?[:|.=>*-]{1,40}\s{0,8}|\s?[(\[])([0-9]{1,2})\s(?:found|stored|logged|recorded|gefunden|"
    r"gespeichert|trouves?|memorises?|encontrad[oa]s?|almacenad[oa]s?)[)\].]{0,2}\s*$"
)
#: A word of each of those.
_SIGNS = signs.of_pattern(
    "code|dtc|fault|flt|err|fehler|eintrag|defaut|averia|fallo|codigo|entr|panne|storung|anomal|malfunction|registro|"
    "^fail|^nok|^found|^stored|^logged|^recorded|^gefunden|^gespeich|^trouve|^memoris|^encontrad|^almacenad"
)
#: How often a code was seen, in a line below it.
_COUNTER = (r"(?:count(?:er)?|occurrences?|occurred|freq(?:uency)?|seen|haufigkeit|zahler|anzahl|frequence|frecuencia|"
            r"contador|compteur)")
_SEEN = lazily(_COUNTER + r"[\s.x]{1,3}([0-9]{1,4})(?:\s?(?:x|times|mal|fois|veces))?")
_COUNTER_ALONE = lazily(_COUNTER)
#: "There are two codes in the ABS", and what is told of codes that are gone.
_COUNTED = lazily(
    r"(?<![a-z])(?:[0-9]{1,2}|an?|one|two|three|four|five|six|some|several|these|following|ein(?:en)?|zwei|drei|vier|funf|"
    r"mehrere|folgende|une?|deux|trois|quatre|cinq|plusieurs|dos|tres|cuatro|cinco|varios|varias|un[oa])"
    r"(?:\s(?:trouble|fault|stored|active|diagnostic|different|more|other))?\s(?:codes?|dtcs?|faults?|errors?|fehler(?:codes?)?|"
    r"defauts?|codigos?|averias?|fallos?)(?![a-z])"
)
_DONE_WITH = lazily(r"(?<![a-z])(?:clear|eras|delet|wip|fix|repair|mend|gelosch|behob|efface|repar|borr)")
_LONGEST_SEEN = 30
_DIGIT = lazily(r"[0-9]")


def is_often(key: str, value: str) -> bool:
    """Whether a key that asks for a name in Spanish tells in French how often a fault was seen.

    >>> is_often("nombre", "3"), is_often("nombre ", "abs"), is_often("unidad", "3")
    (True, False, False)
    """
    return key.strip(" \t*_-.") == "nombre" and value.strip(" x").isdigit()


def stated_count(low: str) -> tuple[int, int, int] | None:
    """A count of codes that the line states, with its place.

    >>> stated_count("ecm - 3 codes"), stated_count("abs (codes: 2)"), stated_count("ecm")
    ((3, 3, 13), (2, 5, 14), None)
    >>> stated_count("abs   2 found")
    (2, 3, 13)
    """
    if _DIGIT.search(low) is None or not signs.of(low) & _SIGNS:
        return None
    for pattern in (COUNT, COUNT_AFTER, _FAILED, _LAST, _FOUND):
        match = pattern.search(low)
        if match is not None:
            return int(match[1]), match.start(), match.end()
    return None


@remembered
def of_a_code(low: str) -> int | None:
    """How often the code above was seen, by a line that tells nothing else and has no mark of a key.

    >>> [of_a_code(low) for low in ("count 53", "occurrences: 3", "freq. 12x", "counter", "count 3 modules")]
    [53, None, 12, None, None]
    """
    match = _SEEN.fullmatch(low) if len(low) <= _LONGEST_SEEN else None
    return int(match[1]) if match is not None else None


@remembered
def is_counter(low: str) -> bool:
    """Whether a key is that of how often a code was seen, and no name.

    >>> is_counter("counter"), is_counter("contador"), is_counter("passenger counter")
    (True, True, False)
    """
    return _COUNTER_ALONE.fullmatch(low) is not None


@remembered
def counts_codes(low: str) -> bool:
    """Whether a sentence counts codes that are there: "there are two codes in the abs"."""
    return _COUNTED.search(low) is not None and _DONE_WITH.search(low) is None
