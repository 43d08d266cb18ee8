"""Makers' own numbers in texts: the forms of `triage.model.own_forms` as patterns, and what was found as a code.

>>> from triage.intake.plain.patterns import lazily
>>> [bool(lazily(TOKEN).match(text)) for text in ("9A12B4 pump", "DF513: low", "27-140-2", "HW123", "6214 pump")]
[True, True, False, False, False]
>>> found(4, "9a12b4")
Found(start=4, end=10, text='9A12B4', failure_type=None, status_byte=None, kind='own', source_address=None, slip=None, \
bare=10)
"""

from __future__ import annotations

import re
from functools import lru_cache
from string import hexdigits

from triage.intake.codes.finds import Found
from triage.intake.plain import signs
from triage.model import codes as model_codes
from triage.model.own_forms import FORMS, Weight, accepted

#: Fewer digits alone are those of anything.
_FEWEST_DIGITS = 5
#: A number that goes on is another one: "27-140-2", "12.500", "20417/17".
_ENDS = r"(?![./_-]?[^\W_]|[,:][0-9])"
#: Each form has a digit that soon; most words have none, and are passed by at once.
_DIGIT = r"(?=[A-Za-z]{0,5}[ .-]?[A-Za-z]{0,2}[0-9])"


def pattern(*weights: Weight) -> str:
    """The forms of such weights as a pattern of one whole number."""
    forms = [form for form in FORMS if form.weight in weights]
    return rf"(?:{_DIGIT}(?:{accepted(forms, 'i')}){_ENDS})"


#: What may be such a number where the places or the words beside it tell that it is a code.
TOKEN = pattern("sure", "usual", "short")
#: The sign of a text that may hold one of these, or one of digits alone: so long a part of a number, no standard
#: code.
SIGN = signs.of_pattern("^(?![pcbu][0-3][0-9a-f]{3}$)(?=[a-z]*[0-9]).{3}")
#: What may be one in a place made for a code.
ANY = pattern("sure", "usual", "short", "bare", "weak", "apart")


def found(start: int, text: str) -> Found | None:
    """A text at a place as the code it is; None where it has no form of one."""
    own = model_codes.own(text)
    end = start + len(text)
    return Found(start, end, own.text, kind="own", bare=end) if own is not None else None


def placed(start: int, text: str) -> Found | None:
    """A text that fills a place made for a code as the code that it is there, whatever its form."""
    own = model_codes.placed(text)
    end = start + len(text)
    return Found(start, end, own.text, kind="own", bare=end) if own is not None else None


@lru_cache(maxsize=4096)
def weight(text: str) -> Weight | None:
    """How much the form of a number alone is worth."""
    text = text.upper()
    return next((form.weight for form in FORMS if re.fullmatch(form.pattern, text)), None)


def few_digits(text: str) -> bool:
    """Whether a number is one of years, counts and hours as well."""
    return text.isdigit() and len(text) < _FEWEST_DIGITS


def written_alike(text: str, line: str) -> bool:
    """Whether the letters of a number that are no hexadecimal digits are capitals, or its line has none."""
    return not text[0].isalpha() or text.isupper() or line.islower() or set(text) <= set(hexdigits)


__all__ = ["ANY", "SIGN", "TOKEN", "few_digits", "found", "pattern", "placed", "weight", "written_alike"]
