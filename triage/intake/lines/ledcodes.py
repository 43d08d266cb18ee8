"""Makers' own numbers behind a word for a code: "Fault 5206  aerial low", "ABS: fault 5206 pump".

>>> from triage.intake.lines.rows import rows_of
>>> texts = "ABS: fault 5206 pump\\nABS error 5206 km ago\\nDoor: stored fault 5207\\nABS: code 5206 entered"
>>> [behind_name(row, {"ABS", "Door"}.__contains__) for row in rows_of(texts)]
[(11, '5206'), None, (19, '5207'), None]
"""

from __future__ import annotations

import re
from collections.abc import Callable

from triage.intake.lines.ownevidence import YEAR, measured
from triage.intake.lines.row import Row
from triage.intake.naming.linking import strip_links, trailing_status
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.model import codes as model_codes

#: A number behind a word for a code, with a text or nothing behind: "Fault 3117  supply low".
LEADS = ("fault", "code", "dtc", "error", "trouble", "fehler", "defaut", "erreur", "codigo", "averia", "fallo")
_LED_LINE = lazily(
    r"(?:fault|trouble|error|dtc|code|fehler|defaut|erreur|codigo|averia|fallo)(?:[ -]?(?:codes?|nummer|defaut|"
    r"erreur|de (?:averia|fallo|error|defaut)))?\s*(?:(?:no|nr)\b\.?|number|n\u00b0|#)?\s*[:=]?\s*"
    r"((?=[a-z.-]*[0-9])[0-9a-z]+(?:[.-][a-z]{0,2}[0-9]+[a-z]?)?)(?![./_-]?[0-9a-z])"
    r"(?:\s*$|\s+-+\s+|\s*[:,;|]\s+|\s+)(?=$|[a-z(\"'\[]|[0-9]{1,3} ?x(?![a-z0-9]))"
)
#: "Code 4521 entered" is one of a radio or a key.
_KEYED_IN = lazily(r"code [0-9]{4,5} ?$")
#: Where such a word stands behind another.
_WORD = lazily(rf"(?<=[\s:,>|-])(?:{'|'.join(LEADS)})")
_ELSEWHERE = lazily(r"(?:in|from|of|im|von|dans|en|del?)\s")
_LONGEST = 160


def match(row: Row, at: int) -> re.Match[str] | None:
    """A word for a code at a place of a row with a maker's own number behind, which is its first group."""
    led = _LED_LINE.match(row.low, at)
    if led is None or measured(row, led.end(1)):
        return None
    if model_codes.own(row.text[led.start(1) : led.end(1)]) is None:
        # "Code dé919": plain letters alone make a number.
        return None
    return None if _KEYED_IN.match(led[0]) else led


def behind_name(row: Row, is_name: Callable[[str], bool]) -> tuple[int, str] | None:
    """The place of a number with such a word between the name of a module and it, and the number; four digits are of a
    radio or a key where the word is "code" and no status is told."""
    word = _WORD.search(row.low) if len(row.text) <= _LONGEST else None
    led = match(row, word.start()) if word is not None else None
    if led is None:
        return None
    number = row.text[led.start(1) : led.end(1)]
    if YEAR.fullmatch(number) or _ELSEWHERE.match(row.low, led.end()):
        return None
    if len(number) < 5 and led[0].startswith("cod") and not states.in_text(row.low[led.end() :]):
        return None
    head = row.text[: led.start()]
    names = (tidy(head), tidy(strip_links(trailing_status(head)[0])))
    return (led.start(1), number) if any(name and is_name(name) for name in names) else None
