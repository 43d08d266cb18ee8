"""Texts that are marked as what a code means: behind "=" or in quotation marks, right behind the code or its status.

Whatever stands there says nothing of another module: not "U0422 "no message from the cluster"", not "C0800 = brake
switch not plausible and U1900". Elsewhere quotation marks are left alone: they may stand round a name.

>>> low = 'pam has c0800 (active) = brake switch open and u1900 "bus off, abs", b1d17; "ecm" has p0562'
>>> codes = [(low.index(code), low.index(code) + 5) for code in ("c0800", "u1900", "b1d17", "p0562")]
>>> unmarked(low, codes)
'pam has c0800 (active)                     and u1900               , b1d17; "ecm" has p0562'
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, words
from triage.intake.said import states
from triage.intake.said.answers import spoken
from triage.intake.said.attribution import AND, LEADS, SAYS

Span = tuple[int, int]

_BRACKET = lazily(r"\s*[(\[][^()\[\]\n]{0,40}[)\]]")
_EQUALS = lazily(r"\s*=\s*(?=[a-z])")
#: Words between a code and the quotation mark are few, and go on with it: a status with a slip, a part of the text.
_QUOTED = lazily(
    r"((?: {1,2}[a-z]+(?:['/-][a-z]+)*){0,3})\s{0,3}(?:[=:-]\s{0,3})?"
    r"(?:\"([^\"\n]{2,120})\"|'([^'\n]{2,120})'(?![a-z0-9]))"
)
#: What ends the text behind "=".
_ENDS = lazily(
    rf"\.{NOT_SHORT}(?=\s|$)|(?<![0-9]),|,(?![0-9])|[;!?:()\[\]\"|\n]|\s-+\s|\s/\s|"
    r"(?<![a-z])(?:but|while|whereas|aber|wahrend|mais|pero|mientras|in|im|aus de[mr]|dans|en|"
    r"out of(?! (?:range|tolerance|limits?|spec|bounds)))\s"
)
_AND = lazily(r"\s(?:and|und|et|y|sowie|plus|&|\+)\s")


def quoted(low: str, codes: Sequence[Span]) -> list[Span]:
    """Where the quotation marks behind codes stand, with what is in them; none round a status or another code."""
    if '"' not in low and "'" not in low:
        return []
    found: list[Span] = []
    for (_, end), stop in zip(codes, [*(start for start, _ in codes[1:]), len(low)], strict=True):
        at = behind_status(low, end, stop)
        match = _QUOTED.match(low, at, stop)
        if match is None or states.of_cell(match[2] or match[3]) is not None:
            continue
        if not any(word in AND or word in LEADS or word in SAYS for word, _, _ in words(match[1])):
            found.append((match.end(1), match.end()))
    return found


#: What a code says was not done: "configuration not done" is no module that was not read.
_WORK = lazily(
    r"(?<![a-z])(?:configuration|calibration|adaptation|adaption|initiali[sz]ation|programming|(?:variant )?coding|"
    r"learning|pairing|basic setting|alignment|\w*einstellung|\w*codierung|kalibrierung|\w*anlernen|initialisierung|"
    r"konfiguration|codage|apprentissage|initialisation|calibrage|configuracion|calibracion|codificacion|"
    r"aprendizaje|inicializacion)\s$"
)
_REACH = 40


def of_work(low: str, start: int) -> bool:
    """Whether words at a place ("not done") tell of the work that stands right before them, in the text of a code.

    >>> of_work("b2477: configuration not done", 21), of_work("radio not done", 6)
    (True, False)
    """
    return _WORK.search(low, max(0, start - _REACH), start) is not None


def unmarked(low: str, codes: Sequence[Span]) -> str:
    """A sentence in small letters with blanks in the place of the marked texts of its codes. Linear in its length."""
    if not codes or ('"' not in low and "=" not in low and "'" not in low):
        return low
    parts: list[str] = []
    at = 0
    for start, end in sorted(quoted(low, codes) + _equalled(low, codes)):
        if start >= at:
            parts += [low[at:start], " " * (end - start)]
            at = end
    return "".join([*parts, low[at:]]) if parts else low


def behind_status(low: str, at: int, stop: int) -> int:
    """The place behind a bracket and a status that stand right behind a code."""
    bracket = _BRACKET.match(low, at, stop)
    at = bracket.end() if bracket is not None else at
    end = states.leading(low, at)
    # The space belongs to what follows.
    return min(end - (end > at and low[end - 1] == " "), stop)


def _equalled(low: str, codes: Sequence[Span]) -> list[Span]:
    """Where "=" and the text behind it stand."""
    found: list[Span] = []
    for (_, end), stop in zip(codes, [*(start for start, _ in codes[1:]), len(low)], strict=True):
        at = behind_status(low, end, stop)
        match = _EQUALS.match(low, at, stop)
        if match is not None:
            found.append((at, _end_of(low, match.end(), stop)))
    return found


def _end_of(low: str, at: int, stop: int) -> int:
    """Where a text ends that begins at a place, before the next code at ``stop``: at a mark, or before "and" where that
    does not go on with it ("= no data from engine and gearbox")."""
    mark = _ENDS.search(low, at, stop)
    end = mark.start() if mark is not None else stop
    joints = [joint.start() for joint in _AND.finditer(low, at, end)]
    if not joints:
        return end
    rest = low[joints[0] : end]
    if spoken(rest) or (mark is not None and mark[0] == ":") or any(word in SAYS for word, _, _ in words(rest)):
        return joints[0]
    return joints[-1] if mark is None else end


__all__ = ["behind_status", "of_work", "quoted", "unmarked"]
