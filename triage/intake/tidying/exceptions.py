"""What is said of all modules but some, written out in a line for these and one for all the others.

>>> from code_tables import load
>>> from triage.intake.naming.names import Names
>>> from triage.intake.plain.characters import lines
>>> said = "all clean except airbag B0028\\nonly C0545 in EPS came back, rest clean\\neverything ok but the ABS"
>>> [line.text for line in written_out(lines(said), Names(load()))][:4]
['everything else no codes', 'airbag B0028', 'C0545 in EPS came back', 'rest clean']
>>> [line.text for line in written_out(lines(said), Names(load()))][4:]
['everything else no codes', 'the ABS:']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.naming.names import Names
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said import clearanswers
from triage.intake.said.answers import rest_of, spoken

_ALL = (
    r"(?:(?:all|every)(?: (?:of )?(?:the )?(?:other )?(?:modules?|units?|ecus?|systems?))?|everything|"
    r"all(?:es?)?(?: (?:anderen )?steuergerate)?|tout|tous(?: les calculateurs)?|todos?(?: los modulos)?)"
)
_BE = r"(?:(?: (?:is|are|was|were|now|came back|read|reads|ist|sind|est|sont|esta|estan))*[ :]{1,2})"
_CLEAN = (
    r"(?:clean|clear|ok(?:ay)?|fine|good|empty|no (?:codes?|faults?|dtcs?)|sauber|leer|fehlerfrei|in ordnung|"
    r"ohne fehler|propres?|vides?|bons?|bon|sans defauts?|limpi[oa]s?|bien|sin (?:codigos|fallos|averias))"
)
_NONE = (
    r"(?:no (?:codes?|faults?|dtcs?)(?: (?:stored|anywhere|in (?:all|any)(?: (?:of the )?modules?)?))?|"
    r"nothing(?: back)?)"
)
_BUT = (
    r"(?:except(?:ed|ing)?(?: for| in| from)?|excepted:?|apart from|but(?: for| in)?|bar|other than|save(?: for)?|"
    r"bis auf|aus?ser|ausgenommen|sauf|a part|hormis|excepte|menos|excepto|salvo)"
)
_SAID = lazily(rf"[\s*>-]{{0,6}}(?:{_ALL}{_BE}{_CLEAN}|{_NONE})[\s,;:(-]{{1,4}}{_BUT}\s+(?=\S)")
#: All that stands behind the last of such marks.
_TAIL = lazily(r"[,;.](?:\s+(?:and|und|et|y))?\s+(?=(?:the |all |der |le |tout |el |lo )?(?:rest|others|reste|resto|"
               r"everything else|alles andere|demas)(?![a-z]))")
#: The same before the last or in front of all that is told, of no module by its name.
_AMONG = lazily(
    rf"(?:^[\s*>-]{{0,6}}|[,;.:]\s+(?:(?:and|und|et|y|now|then|jetzt|dann|maintenant|"
    rf"ahora)\s+){{0,2}})(?:(?:all )?the (?:rest|others)|everything else|all (?:the )?others?|"
    r"(?:der |alles )?(?:rest|andere|ubrige)|(?:alle anderen|die anderen)|tout le reste|le reste|todo lo demas|"
    r"lo demas|el resto)"
    rf"(?:(?: (?:is|are|was|were|came up|came back|ist|sind|war|waren|est|sont|esta|estan|now|jetzt|again|still))*)"
    rf"\s?:?\s{_CLEAN}(?=\s*[,;])"
)
_LATER = lazily(r"[.!?]\s+\S")
#: No name before a code: "nur B0028 im Airbag wieder da, Rest sauber".
_ONLY = lazily(r"\s*(?:only|just|nur|seulement|uniquement|seul|solo|solamente|unicamente)\s+(?=\S)")
_SIGN = signs.of_words(frozenset([
    "except", "excepted", "excepting", "apart", "but", "bar", "other", "save", "bis", "ausser", "auser", "ausgenommen",
    "sauf", "part", "hormis", "excepte", "menos", "excepto", "salvo", "rest", "others", "else", "andere",
    "reste", "resto", "demas"]).__contains__)
_BESIDE = word_set("the a and or module unit ecu control der die das dem den und im in steuergerat le la les et l el "
                   "los las y calculateur centralita modulo")
_LONGEST, _LONGEST_SAID = 240, 2000


def written_out(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines, those with such a sentence parted."""
    out: list[Line] | None = None
    done = 0
    for at in signs.places(found, _SIGN):
        low = found[at].low
        # Of a clear its answers are told: "cleared, airbag refused, rest ok".
        short = len(low) <= _LONGEST and not clearanswers.answers(low, names.sure)
        parts = (_parts(found[at], names) if short else []) or (_among(found[at]) if len(low) <= _LONGEST_SAID else [])
        if parts:
            out = out if out is not None else []
            out += [*found[done:at], *parts]
            done = at + 1
    return [*out, *found[done:]] if out is not None else found


def _only_names(low: str, names: Names) -> bool:
    """Whether a text names modules and says nothing of them."""
    spans = names.find(low)
    return all(word in _BESIDE or any(start <= at < end for start, end, _ in spans) for word, at, _ in words(low))


def _among(line: Line) -> list[Line]:
    """The same of a sentence that says it of all others before it tells of one more: "P0299 in the engine, everything
    else clean, radio silent"; empty for any other line."""
    said = _AMONG.search(line.low)
    if said is None or _LATER.search(line.low, said.end()) or not (
            find(line.text[: said.start()]).codes + find(line.text[said.end() :]).codes):
        return []
    left = reworded(line, said.start(), said.end(), "")
    return [reworded(left, 0, len(left.text) - len(left.text.lstrip(" ,;")), ""),
            reworded(line, 0, len(line.text), "everything else no codes")]


def _parts(line: Line, names: Names) -> list[Line]:
    """The two lines of such a sentence; empty for any other line."""
    low, size = line.low, len(line.text)
    said = _SAID.match(low)
    if said is not None and names.find(low[said.end() :]):
        rest = reworded(line, 0, said.end(), "")
        if not find(rest.text, rest.low).codes and not spoken(rest.low):
            if not _only_names(rest.low, names):
                # "All ok except the airbag lamp" tells of no scan.
                return []
            # Of those it is said that they are not clean, and no more.
            end = len(rest.text.rstrip(" .!)"))
            rest = reworded(rest, end, len(rest.text), ":")
        return [reworded(line, 0, size, "everything else no codes"), rest]
    tail = _TAIL.search(low)
    if tail is None or rest_of(low[tail.end() :]) != "clean" or names.find(low[tail.end() :]):
        return []
    if not find(line.text[: tail.start()], low[: tail.start()]).codes or find(line.text[tail.end() :]).codes:
        return []
    told = reworded(line, tail.start(), size, "")
    only = _ONLY.match(told.low)
    return [reworded(told, *only.span(), "") if only is not None else told, reworded(line, 0, tail.end(), "")]


__all__ = ["written_out"]
