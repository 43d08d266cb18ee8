"""Questions about modules with their answers beneath, or behind: the module is named in the question alone, or what is
asked after in the question and the modules in the answer.

>>> from triage.intake.plain.characters import lines
>>> text = "> Which codes does EPS have?\\nU0100, stored.\\n> Did ABS answer?\\nNo.\\n> And the radio?\\nA: none"
>>> for line in answered(lines(text), lambda name: name in ("EPS", "ABS", "radio")):
...     print(line.text)
EPS: U0100, stored.
ABS: no answer
radio: no codes
>>> asked = lines("> Anything that didn't answer?\\nOnly the ABS.\\n> Which are clean?\\nEPS and radio")
>>> [line.text for line in answered(asked, lambda name: name in ("ABS", "EPS", "radio"))]
['no answer: ABS', 'no codes: EPS and radio']
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.lines.glue import together
from triage.intake.naming import IsName
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import Line, has_letter, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.near import small
from triage.intake.words.volt_words import LABEL

_ASKS = lazily(r"[\s>|*#-]*(?:(?:q|f|p|frage|question|pregunta)\s?[0-9]{0,2}\s?[:.)]\s*)?[¿\"']?\s*")
_ANSWERS = lazily(r"[\s>|*#-]*(?:(?:a|r|antwort|answer|reponse|respuesta)\s?[0-9]{0,2}\s?[:.)]\s*)?")
#: Words around the name in a question.
_AROUND = word_set(
    "and or what what's whats is are in on at the which codes code faults fault dtcs dtc entries does do did has "
    "have had "
    "any anything something how about with from for of then also now was were there got get say says tell memory list "
    "status please still hold holds show shows report reports answer answered respond responded responding reply "
    "replied "
    "read scanned tested checked fitted installed equipped reachable alive online clean ok set stored left found "
    "und welche welcher fehler fehlercodes codes eintrage hat haben ist sind im der die das dem den mit bei beim "
    "vom zum "
    "steht stehen gibt es etwas irgendwas noch denn im speicher geantwortet antwortet erreichbar meldet gelesen "
    "ausgelesen "
    "gespeichert verbaut eingebaut sauber "
    "et quels quel quelle quelles defauts defaut dans le la les l il y a t-il qu'y a-t-il que qu'est-ce est du de "
    "des au "
    "aux pour repondu repond monte lu scanne memorises "
    "hay en el los las del tiene codigos averias fallos cuales con contesto contesta responde respondio esta montado "
    "instalado leido y")
#: What is asked, by a word of the question; else for codes.
_ASKED = {
    **dict.fromkeys(word_set(
        "answer answered respond responded responding reply replied reachable alive online geantwortet antwortet "
        "erreichbar meldet repondu repond contesto contesta responde respondio"), "no answer"),
    **dict.fromkeys(word_set("fitted installed equipped verbaut eingebaut monte montado instalado"), "not fitted"),
    **dict.fromkeys(word_set("read scanned tested checked gelesen ausgelesen lu scanne leido"), "not scanned"),
}
_NO = lazily(r"(?:no|nope|nein|non|nee|none|nothing|nichts|keine[rs]?|rien|aucune?|nada|"
    r"ningun[oa]?)(?![a-z-])[\s,.;!:-]*")
_YES = lazily(r"(?:yes|yep|yeah|ja|oui|si)(?![a-z-])[\s,.;!:-]*")
#: What repeats the answer: "no, it did not".
_ECHO = lazily(
    r"(?:(?:it|they|that|he|she|there|es|er|sie|das|il|elle|ca)\s+)?(?:(?:did|does|do|is|are|was|were|has|have|hat|"
    r"ist|war|a|"
    r"est)(?:\s?n[o']?t| not| nicht| pas)?)?(?: (?:any|one|either|at all))?[\s.!]*$")
_SPLIT = lazily(r"\S+")
#: A code with a digit that was not read: "P12?".
_UNREAD = lazily(r"(?<![a-z])[pcbu] ?[0-9][^\s]*\?$")
#: A question that asks for the modules, and what stands around these in its answer.
_WHICH = lazily(
    r"(?:(?:and|so|ok|und|et|y)[ ,]+)?(?:which|what|any(?:thing|one|body)?|who|welche[rs]?|irgendwelche|irgendwas|"
    r"was|wer|quels?|quelles?|lesquels|qui|cuales|que|quien(?:es)?|algun[oa]?s?)(?![a-z])")
_ONLY = lazily(r"(?:(?:yes|yep|ja|oui|si|only|just|nur|bloss|seulement|juste|uniquement|solo|solamente)[ ,]+){0,2}"
               r"(?:the |das |der |die |le |la |l'|el )?")
_PARTS = lazily(r"\s*(?:[,;&+]|(?<![a-z])(?:and|und|et|y)(?![a-z]))\s*(?:and |und |et |y )?"
                r"(?:the |das |der |die |le |la |l'|el )?")
_KINDS = lazily(r"(?:ones|modules?|units?|ecus?|steuergerate?|calculateurs?|modulos|centralitas|else|other)(?![a-z])")
_SAID = {"silent": "no answer", "clean": "no codes", "not fitted": "not fitted", "not scanned": "not scanned"}
_EDGE = " \t?.,:;!'\"()"
_LONGEST, _LONGEST_NAME, _MOST_WORDS, _MOST_LINES, _KNOWN = 120, 48, 6, 30, 0.6


class _Pair(NamedTuple):
    """A question: where the name stands in its line, what was asked, where it ends; and the lines that answer it, from
    one to before another, and whether one stands in its own line."""

    start: int
    end: int
    denial: str
    stop: int
    first: int
    last: int


def answered(found: list[Line], is_name: IsName) -> list[Line]:
    """The lines, each answer behind the name that its question asks for. ``is_name``: what is like a module. Linear."""
    if not any("?" in line.text for line in found):
        return found
    found = _which(found, is_name)
    pairs = {at: pair for at, line in enumerate(found) if "?" in line.text and (pair := _pair(found, at)) is not None}
    named = {at: is_name(tidy(found[at].text[pair.start : pair.end])) for at, pair in pairs.items()}
    if not named:
        return found
    if sum(named.values()) < _KNOWN * len(named) or len(named) < 2:
        pairs = {at: pair for at, pair in pairs.items() if named[at]}
    kept: list[Line] = []
    at = 0
    while at < len(found):
        pair = pairs.get(at)
        if pair is None:
            kept.append(found[at])
            at += 1
        else:
            kept += _told(found, at, pair)
            at = max(pair.last, at + 1)
    return kept


def _which(found: list[Line], is_name: IsName) -> list[Line]:
    """The lines, each answer that names nothing but modules behind what its question asks after."""
    kept: list[Line] = []
    skip = -1
    for at, line in enumerate(found):
        if at <= skip:
            continue
        told = _told_which(found, at, is_name) if "?" in line.text and len(line.text) <= _LONGEST else None
        if told is not None:
            line, skip = told
        kept.append(line)
    return kept


def _told_which(found: Sequence[Line], at: int, is_name: IsName) -> tuple[Line, int] | None:
    """A line with the answer to the question at a place, and the place of the line that gave it."""
    line = found[at]
    lead, stop = _ASKS.match(line.low), line.text.index("?") + 1
    start = lead.end() if lead is not None else 0
    if _WHICH.match(line.low, start) is None or find(line.text).codes:
        return None
    said = {hit.answer for hit in spoken(line.low[start : stop - 1])}
    own = bool(line.text[stop:].strip(" \t\"'"))
    below = next((place for place in range(at + 1, min(at + 3, len(found))) if found[place].text.strip()), at)
    if len(said) != 1 or (not own and below == at):
        return None
    answer = line if own else found[below]
    begin = stop if own else _bare(answer)[0]
    only = _ONLY.match(answer.low, begin + len(answer.low[begin:]) - len(answer.low[begin:].lstrip()))
    begin = only.end() if only is not None else begin
    end = len(answer.text.rstrip(" .!\t"))
    names = [tidy(part) for part in _PARTS.split(answer.text[begin:end])]
    if end <= begin or len(answer.text) > _LONGEST or not all(name and is_name(name) for name in names):
        place = _name_in(line.text[:stop], start)
        # "Which ones did not answer?" tells nothing by itself.
        unnamed = place is None or _KINDS.match(line.low, place[0]) is not None
        return (reworded(line, start, stop, ""), at) if unnamed else None
    # The head is of the question, each character of the names of the answer.
    return together((line, start, start), f"{_SAID[said.pop()]}: ", (answer, begin, end)), at if own else below


def _pair(found: Sequence[Line], at: int) -> _Pair | None:
    """A line that asks for one module, with the lines of its answer; None for any other line."""
    line = found[at]
    stop = line.text.index("?") + 1
    lead = _ASKS.match(line.low)
    start = lead.end() if lead is not None else 0
    if stop - start > _LONGEST or _UNREAD.search(line.low, start, stop) or line.text[stop : stop + 1] == "?":
        return None
    place = _name_in(line.text[:stop], start)
    if place is None or find(line.text[:stop]).codes or LABEL.search(line.low, *place) is not None:
        return None
    words = {word.strip(_EDGE) for word in line.low[start:stop].split()}
    denial = next((said for word, said in _ASKED.items() if word in words), "no codes")
    if line.text[stop:].strip(" \t\"'"):
        pair = _Pair(*place, denial, stop, at, at + 1)
        return pair if _answer(line.text[stop:], denial) is not None else None
    first = at + 1
    while first < len(found) and first < at + 3 and not found[first].text.strip():
        first += 1
    last = first
    while last < len(found) and last < first + _MOST_LINES and found[last].text.strip() and "?" not in found[last].text:
        last += 1
    if last == first:
        return None
    pair = _Pair(*place, denial, stop, first, last)
    return pair if _answer(_bare(found[first])[1], denial) is not None else None


def _name_in(text: str, start: int) -> tuple[int, int] | None:
    """Where the name stands in a question, without the words around it; None where nothing, or much, is left."""
    words = [(match.start(), match.end(), small(match[0]).strip(_EDGE)) for match in _SPLIT.finditer(text, start)]
    words = [word for word in words if word[2]]
    while words and words[0][2] in _AROUND:
        words.pop(0)
    while words and words[-1][2] in _AROUND:
        words.pop()
    if not words or len(words) > _MOST_WORDS:
        return None
    begin, end = words[0][0], words[-1][1]
    for article in ("l'", "d'", "\u00bf"):
        begin += len(article) * text[begin:end].lower().startswith(article)
    name = text[begin:end].rstrip("?. ,:;!")
    return (begin, begin + len(name)) if has_letter(name) and len(name) <= _LONGEST_NAME else None


def _bare(line: Line) -> tuple[int, str]:
    """Where an answer begins behind the mark before it, and its text."""
    lead = _ANSWERS.match(line.low)
    start = lead.end() if lead is not None else 0
    return start, line.text[start:]


def _answer(text: str, denial: str) -> tuple[int, str] | None:
    """Where what is said of the module begins in an answer, and what stands for that where it is yes or no alone; None
    for what answers nothing."""
    low = small(text)
    lead = len(low) - len(low.lstrip())
    yes, no = _YES.match(low, lead), _NO.match(low, lead)
    if find(text).codes:
        return yes.end() if yes is not None else lead, ""
    if no is not None and _ECHO.match(low, no.end()) is not None:
        return lead, denial
    if yes is not None and answer_of_cell(low[yes.end() :]) is not None:
        return yes.end(), ""
    if no is not None and denial != "no codes" and answer_of_cell(low[no.end() :]) is not None:
        return no.end(), ""
    return (lead, "") if answer_of_cell(low[lead:].strip()) is not None else None


def _told(found: Sequence[Line], at: int, pair: _Pair) -> list[Line]:
    """The lines of a question and its answer, the name before what is said of it."""
    line = found[at]
    name = (line, pair.start, pair.end)
    own = pair.first == at
    below = list(found[pair.first + 1 : pair.last])
    begin, text = (pair.stop, line.text[pair.stop :]) if own else _bare(found[pair.first])
    told = _answer(text, pair.denial)
    start, said = told if told is not None else (0, "")
    if said:
        return [together(name, f": {said}"), *below]
    answer = found[pair.first]
    listed = [other for other in (answer, *below) if (codes := find(_bare(other)[1]).codes) and not codes[0].start]
    if not own and len(listed) > 1 and len(listed) == 1 + len(below):
        return [together(name, ":"), answer, *below]
    return [together(name, ": ", (answer, begin + start, len(answer.text.rstrip()))), *below]


__all__ = ["answered"]
