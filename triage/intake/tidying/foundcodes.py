"""Sentences that begin with a code, or with who found it: "il y a U0415 dans le moteur" becomes "U0415 dans le
moteur", "U0100 is back in the ABS" becomes "U0100 in the ABS". Who found it is no module. A German "bei" before the
name is written "in", and "komme nicht in ... rein" as the reader knows it.

>>> from code_tables import load
>>> from triage.intake.naming.names import Names
>>> from triage.intake.plain.characters import lines
>>> text = "encontré P0615 en el motor\\nU0100 (stored) is back in the ABS\\nP0600 abgelegt bei Tacho\\nhay agua en ABS"
>>> [line.text for line in written_out(lines(text), Names(load()))]
['P0615 en el motor', 'U0100 (stored) in the ABS', 'P0600 abgelegt in Tacho', 'hay agua en ABS']
>>> [line.text for line in written_out(lines("Komme nicht in ABS, Radio und Tacho rein"), Names(load()))]
['keine Antwort von ABS, Radio und Tacho']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.naming.names import Names
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states
from triage.intake.words.vocabulary import STATES

_CODE = r"(?:[pcbu] ?[0-3o][0-9a-foil]{3}(?![a-z])|spn ?:?[0-9])"
#: Who found it, where a line or a sentence begins, before a code or its status.
_FOUND = lazily(
    r"(?:^[\s*>\u2022\u2013-]{0,6}|(?<=[.;/!] )|(?<=: )|(?<=, )(?=hay |il y a ))"
    r"((?:(?:et|puis|ensuite|y|luego|despues|and|then|und|dann) )?(?:"
    r"(?:j'ai |on a )?(?:trouve|vu)|(?:il )?y a(?: aussi)?|j'(?:ai|avais)(?: encore)?|on (?:a|avait)|"
    r"il (?:ne |me )?reste(?: encore| plus)?(?: que)?|ne reste que|(?:(?:ya )?solo |aun |todavia )?quedan?|"
    r"(?:(?:yo )?tengo|tenia|tenemos|teniamos|(?:aun |todavia |me )(?:salen?|sale|da))(?: aun| todavia)?|"
    r"(?:i |we )(?:have|had|got|have got)(?: still)?|(?:ich |wir )(?:habe|hatte|haben|hatten)(?: noch| nur)*|"
    r"(?:he |hemos )?(?:encontre|encontramos|encontrado|visto)|(?:tambien )?hay)[ :]{1,2})"
    rf"(?:[a-z]{{4,12}} )?(?={_CODE})"
)
#: That a code is there, between it and the word that leads to its module.
_IS_IN = lazily(
    rf"(?:{_CODE}(?:[-: ]{{1,2}}(?:fmi ?:?)?[0-9a-f]{{1,2}}(?![0-9a-z]))?|\))"
    r"( (?:is|are|was|were|ist|sind|steht|stehen|est|sont|esta|estan)(?: (?:back|again|still|also|wieder|wieder da|"
    r"noch|auch|zuruck|de retour|revenue?s?|encore|otra vez|de nuevo)){0,2})"
    r"(?= (?:in|inside|im|bei|dans|en) )"
)
#: Before a module's name in German; in French and Spanish, where another word may lead to a place as well.
_BEI = lazily(
    r"(?<= )(?:(bei|beim)|(au|aux|(?:a|sur)(?= l')|(?:a|sur|cote)(?= l[ea]s? ))|(al|(?:a|sobre)(?= (?:el|la) )))(?= )")
_LED_AS = ("", "in", "dans", "en")
_LONGEST_BEFORE = 60
#: "Komme nicht in X, Y und Z rein"
_NOT_IN = lazily(
    r"(?<![a-z])((?:ich )?(?:komm|komme|kam|kamen|kommt)(?: (?:ich|man|wir))?(?: auch| noch)? nicht (?:in|ins|an|ans) "
    r"(?:das |die |den )?)[^.;:!?/()\n]{2,160}?( (?:rein|hinein|ran|heran))(?![a-z])"
)
_SIGN = signs.of_words(word_set(
    "trouve vu y encontre encontramos encontrado visto hay is are was were ist sind steht stehen est sont esta estan "
    "bei beim rein hinein ran heran ai avais avait a reste queda quedan tengo tenia tenemos teniamos sale salen da "
    "have had got habe hatte haben hatten au aux sur cote al sobre").__contains__)
_LONGEST = 2000


def written_out(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines with those written out. Linear in their length."""
    kept: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        if len(line.low) > _LONGEST:
            continue
        new = _left_out(_bei(line, names)) if has_digit(line.low) else line
        new = _not_in(new)
        if new is not line:
            kept = kept or list(found)
            kept[at] = new
    return kept or found


def _left_out(line: Line) -> Line:
    """The line without who found its codes, and without the verb between one and the place it is in."""
    places = [match.span(1) for match in _FOUND.finditer(line.low) if _leads(line.low, match.end(1), match.end())]
    places += [match.span(1) for match in _IS_IN.finditer(line.low)]
    for start, end in sorted(places, reverse=True):
        line = reworded(line, start, end, "")
    return line


def _leads(low: str, start: int, end: int) -> bool:
    """Whether nothing but a status stands there before the code."""
    return start == end or states.of_cell(low[start:end].strip()) is not None


def _bei(line: Line, names: Names) -> Line:
    """The line with "in" for a "bei" between a code, or its status, and a name: "P0335 aktuell bei Motor", "U0121
    mémorisé au combiné"."""
    for match in reversed(list(_BEI.finditer(line.low))):
        before = line.low[max(0, match.start() - _LONGEST_BEFORE) : match.start()]
        codes = [code.end() for code in _A_CODE.finditer(before)]
        hits = STATES.find(before) if codes else ()
        ends = max(codes[-1] if codes else 0, hits[-1].end if hits else 0)
        if codes and not before[ends:].strip(" )],") and names.find(line.low[match.end() + 1 :][:40])[:1]:
            line = reworded(line, *match.span(), _LED_AS[match.lastindex or 1])
    return line


#: A code with its failure type.
_A_CODE = lazily(rf"{_CODE}(?:[0-9 ]{{0,8}}(?:[-:/ ]{{1,2}}(?:fmi ?:?)?[0-9a-f]{{1,2}}(?![0-9a-z]))?)")


def _not_in(line: Line) -> Line:
    """The line with "keine Antwort von" for modules that nobody gets into."""
    for match in reversed(list(_NOT_IN.finditer(line.low)) if " nicht " in line.low else []):
        line = reworded(line, *match.span(2), "")
        line = reworded(line, *match.span(1), "keine Antwort von ")
    return line


__all__ = ["written_out"]
