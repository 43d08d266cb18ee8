"""A line of running text as tokens: codes, statuses, answers, names of modules, the small words, each with its part.

>>> from code_tables import load
>>> names = Names(load())
>>> text = "the ABS has P0562 (low voltage) and U0100, both stored. Nothing in the radio"
>>> kinds(tokens(text, low(text), names))
'tnvc&c,ls.atn'
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from triage.intake.codes.found import find
from triage.intake.naming.names import Names
from triage.intake.plain.characters import low
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import spoken
from triage.intake.said.states import in_text
from triage.intake.speech import sayings
from triage.intake.words import clause_words

#: A word with what is written on to it, or a mark.
_PIECE = lazily(r"[0-9]+(?:[.,:][0-9]+)+[^\s,;:()\[\]\"!?=|]*|[^\s,;:()\[\]\"!?=|]+|[,;:()\[\]\"!?=|]")
#: "l'ABS", "j'ai", "qu'il": a word of its own.
_ELIDED = lazily(r"(?:l|d|j|n|s|m|t|c|qu|jusqu)'(?=[a-z0-9])")
_OWNER = lazily(r"'s$")
_ENDS = lazily(r"(?<![0-9])\.+$|\.{2,}$|\.$")
_ABBREVIATED = frozenset((
    "ca.", "z.b.", "nr.", "no.", "min.", "max.", "temp.", "tel.", "incl.", "inkl.", "l.", "r.", "izq.", "der.", "av.",
    "arr.", "g.", "d."))
#: A maker's own number: five digits, four with a letter among them, one or two letters and digits.
_OWN = lazily(r"(?:[0-9]{5}|(?=[0-9a-f]*[0-9])(?=[0-9a-f]*[a-f])[0-9a-f]{4}|[a-z]{1,2}[0-9]{4})(?![0-9a-z])")
#: A figure, a time of day, with its unit.
_NUMBER = lazily(r"[0-9]+(?:[.,:h][0-9]+)*(?:v|volts?|a|ma|km|%|%\.|h|min)?")
_PARTED = lazily(r"[,;:]\s*")
#: A word of agreement is an answer only at the end of a clause.
_OKAY = lazily(r"ok(?:ay)?$")
_ENDED = lazily(r"\s*(?:$|[,.;)!-])")
#: A code behind "I see", "nothing except": it is told of like others.
_AFTER_ALL = lazily(r"(?<![a-z])(?:(?:i|we|can) see|expected|except(?: for)?|but|ausser|sauf|excepto|salvo) "
                    r"([pcbu][0-3][0-9a-f]{3}(?:-[0-9a-f]{2})?)(?![0-9a-z])")
#: The same behind a word for it.
_LED = lazily(r"(?=[0-9a-z]*[0-9])[0-9a-z]{4,7}|[0-9]{3}")
_MARKS = {",": ",", ";": ";", ":": ":", "=": ":", "!": ".", "?": "?", "|": ".", "(": "(", ")": ")", "[": "(",
          "]": ")", '"': '"'}
_DASHES = frozenset(("-", "--", ">", "->"))
#: What a description may be at the most, in tokens.
_LONGEST = 24
#: A status in brackets, with few other words.
_STATUS = lazily(r"[slviptd,:.&kuexay-]{1,7}")
_FEW = 2


@dataclass(slots=True, frozen=True)
class Token:
    """One token: its part, its place, and what an answer, a status or a code says."""

    kind: str
    start: int
    end: int
    said: str = ""
    #: A status in brackets: that of the code before it alone.
    bracketed: bool = False


def kinds(found: Sequence[Token]) -> str:
    """The parts of tokens, a letter each."""
    return "".join([token.kind for token in found])


def tokens(text: str, small: str, names: Names) -> list[Token]:
    """The tokens of a line, descriptions behind codes left out. Linear in its length."""
    whole = _wholes(text, small, names)
    starts = sorted(whole)
    found: list[Token] = []
    upto = 0
    for start, end in _pieces(small):
        start = max(start, upto)
        while start < end:
            hit = whole.get(start)
            if hit is not None:
                found.append(hit)
                start = upto = hit.end
                continue
            after = bisect_right(starts, start)
            stop = min(starts[after] if after < len(starts) else end, end)
            found += _word(small, start, stop)
            start = stop
    bare = _joined(_without_descriptions(_with_numbers(_with_statuses(found, small), small)))
    return _with_statuses(bare, small)


def _with_statuses(found: list[Token], small: str) -> list[Token]:
    """The tokens, words right behind a code that are a letter off a status, or an answer in other places, as its
    status."""
    for at in range(1, len(found)):
        token = found[at]
        if token.kind == "s" and small[token.start : token.end].endswith("showing") and (
                found[at + 1].kind in "ck" if at + 1 < len(found) else False):
            found[at] = Token("v", token.start, token.end)
            continue
        if token.kind == "s" and small[token.start : token.end] in clause_words.PARTS and (
                found[at - 1].kind in "nxq") and (found[at + 1].kind in "ctk" if at + 1 < len(found) else False):
            # "The headlamp logged U3006, inactive now"
            found[at] = Token("v", token.start, token.end)
            continue
        if token.kind == "a" and found[at - 1].kind == "," and "c" in kinds(found[max(at - 12, 0) : at]) and (
                found[at - 2].kind in "nx" and states.is_status(small[token.start : token.end])):
            found[at] = Token("s", token.start, token.end)
            continue
        if token.kind == "x" and found[at - 1].kind == "(" and states.slip_for(small[token.start : token.end]):
            found[at] = Token("s", token.start, token.end)
            continue
        before = next((each.kind for each in reversed(found[max(at - 4, 0) : at]) if each.kind not in "(-ivl,:e"), "")
        if before != "c":
            continue
        word = small[token.start : token.end]
        if (token.kind == "a" and token.said in ("not fitted", "silent") and states.is_status(word)) or (
                token.kind == "x" and states.slip_for(word) is not None):
            found[at] = Token("s", token.start, token.end)
    return found


def _pieces(small: str) -> Iterator[tuple[int, int]]:
    """The places of words and marks, an elided one before a word for itself."""
    for match in _PIECE.finditer(small):
        start, end = match.span()
        elided = _ELIDED.match(small, start)
        if elided is not None and elided.end() < end:
            yield start, elided.end()
            start = elided.end()
        yield start, end


def _behind_comma(name: tuple[int, int, bool], small: str) -> tuple[int, int, bool]:
    """A name without what stands before a comma in it: "8.6 V, ECU" is no name."""
    start = max([name[0], *(match.end() for match in _PARTED.finditer(small, name[0], name[1]))])
    return start, name[1], name[2]


def _wholes(text: str, small: str, names: Names) -> dict[int, Token]:
    """Codes, answers, names and statuses by their first character; of two in one place the first kind counts."""
    hits = [Token("c", code.start, code.end) for code in find(text, small).codes]
    hits += [Token("c", match.start(1), match.end(1)) for match in _AFTER_ALL.finditer(small)]
    listed = [name for name in names.find(small) if small[name[0] : name[1]] not in clause_words.ARTICLES or (
        text[name[0] : name[1]].isupper())]
    listed = [_behind_comma(name, small) for name in listed]
    long = [Token("n", start, end) for start, end, _ in listed if " " in small[start:end].strip()]
    hits += long
    hits += [Token(kind, start, end) for start, end, kind in sayings.phrases(small)]
    said = [Token("a", hit.start, hit.end, hit.answer) for hit in spoken(small)
            if _OKAY.match(small, hit.start, hit.end) is None or _ENDED.match(small, hit.end)]
    said += [Token("a", start, end, answer) for start, end, answer in sayings.answers(small)]
    said += [Token("s", hit.start, hit.end, hit.status) for hit in in_text(small, True)]
    hits += sorted(said, key=lambda hit: hit.start - hit.end)
    hits += [Token("n", start, end) for start, end, _ in listed if " " not in small[start:end].strip()]
    taken: dict[int, Token] = {}
    covered: set[int] = set()
    for hit in hits:
        places = range(hit.start, hit.end)
        if hit.end > hit.start and covered.isdisjoint(places):
            taken[hit.start] = hit
            covered.update(places)
    return taken


def _word(small: str, start: int, end: int) -> list[Token]:
    """The tokens of one word: itself, the full stop behind it."""
    word = small[start:end]
    if word in _MARKS:
        return [Token(_MARKS[word], start, end)]
    if word[:1] == "-" and len(word) > 1 and word[1].isalpha() and not small[:start].strip():
        return [Token("-", start, start + 1), *_word(small, start + 1, end)]
    if word in ("/", "+", "&"):
        return [Token("&", start, end)]
    if word in _DASHES:
        return [Token("-", start, end)]
    stop = _ENDS.search(word) if word not in _ABBREVIATED else None
    last = start + stop.start() if stop is not None else end
    found: list[Token] = []
    if last > start:
        plain = small[start:last].strip("'")
        owner = _OWNER.search(plain)
        part = clause_words.PARTS.get(plain) or (clause_words.PARTS.get(plain[: owner.start()]) if owner else None)
        part = part or ("y" if _NUMBER.fullmatch(plain) else None)
        found.append(Token(part or "x", start, last - (2 if owner is not None and part is None else 0)))
    if stop is not None:
        found.append(Token(".", last, end))
    return found


def _with_numbers(found: list[Token], small: str) -> list[Token]:
    """The tokens, makers' own numbers among them as codes: behind a word for a code, or in a list with codes."""
    for at, token in enumerate(found):
        if token.kind not in "xy" or _LED.fullmatch(small, token.start, token.end) is None:
            continue
        before = found[at - 1] if at else None
        led = before is not None and before.kind == "k" and (
            small[before.start : before.end] in clause_words.NUMBER_LEADS)
        if led or (_OWN.fullmatch(small, token.start, token.end) is not None and _listed(found, at)):
            found[at] = Token("c", token.start, token.end, "own")
    return found


def _listed(found: Sequence[Token], at: int) -> bool:
    """Whether a number stands where a code would: behind a verb, before a status, joined to a code."""
    before = "".join([token.kind for token in found[max(at - 3, 0) : at]])
    after = "".join([token.kind for token in found[at + 1 : at + 4]])
    if after[:1] == "(" and before[-1:] in ("", ".", ";", ",", ":", "v", "&"):
        return True
    return (before.endswith((")&", "),", "c,", "c&", "s,", "s&", "c,&", "s,&")) or before[-1:] in ("v", ":", "w")) and (
        after[:1] in ("", ",", "&", "s", "(", "l", ".", "-") or after.startswith("ps"))


def _without_descriptions(found: Sequence[Token]) -> list[Token]:
    """The tokens, a status in brackets one of them, and other brackets, or quotes, that hold no code: those behind a
    code left out, those elsewhere one token each."""
    kept: list[Token] = []
    at = 0
    while at < len(found):
        token = found[at]
        end = _closing(found, at) if token.kind in ('(', '"') else None
        if end is None:
            if token.kind not in '()"':
                kept.append(token)
            at += 1
            continue
        inner, last = found[at + 1 : end], found[end]
        part = kinds(inner)
        if token.kind == "(" and "s" in part and _STATUS.fullmatch(part) and part.count("x") <= _FEW:
            kept.append(Token("s", token.start, last.end, next(
                each.said for each in inner if each.kind == "s"), True))
        elif "c" in part or "r" in part:
            kept += [Token(".", token.start, token.end), *inner, Token(".", last.start, last.end)]
        elif not (kept and kept[-1].kind in "cs"):
            kept.append(Token("q", token.start, last.end))
        elif kept[-1].said == "own":
            # What a maker's own number stands for tells that it is one.
            kept[-1] = Token("c", kept[-1].start, last.end, "own")
        at = end + 1
    return kept


def _joined(found: Sequence[Token]) -> list[Token]:
    """The tokens, statuses that stand side by side one: "old inactive"."""
    kept: list[Token] = []
    for token in found:
        if token.kind == "s" and kept and kept[-1].kind == "s" and not kept[-1].bracketed and not token.bracketed:
            kept[-1] = Token("s", kept[-1].start, token.end, token.said)
        else:
            kept.append(token)
    return kept


def _closing(found: Sequence[Token], at: int) -> int | None:
    """Where the bracket or quote is closed that opens at a token."""
    mark = ")" if found[at].kind == "(" else '"'
    return next((to for to in range(at + 1, min(at + _LONGEST, len(found))) if found[to].kind == mark), None)


__all__ = ["Token", "kinds", "low", "tokens"]
