"""Codes that share the letter of the one before a stroke: "P1610/0882" is two codes.

>>> from triage.intake.codes.found import find
>>> [str(code) for code in find("P1610/0882 stored, C0035/36").codes], [str(code) for code in find("P0171/2019").codes]
(['P1610', 'P0882', 'C0035-36'], ['P0171'])
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from triage.intake.codes.finds import Found
from triage.intake.plain.patterns import lazily

_DIGITS = "[0-3][0-9A-F]{3}"
_NEXT = lazily(
    rf"\s?/\s?({_DIGITS})(?![0-9A-Za-z]|[.-][0-9]|/(?!{_DIGITS}(?![0-9A-Za-z]))[0-9]|"
    r"\s?(?:km|mi|miles|h|v|mv|rpm|hz|ohm|kpa)\b)",
    re.IGNORECASE,
)
_YEAR = lazily(r"19[5-9][0-9]|20[0-4][0-9]")


def written_out(text: str, codes: Sequence[Found]) -> Iterator[Found]:
    """The codes, those with the letter of the one before it among them. Linear."""
    for code in codes:
        yield code
        at = code.end
        if code.kind != "J2012" or code.failure_type is not None or code.status_byte is not None:
            continue
        while (match := _NEXT.match(text, at)) is not None:
            if _YEAR.fullmatch(match[1]) and match[1][:2] != code.text[1:3]:
                # "P0171 / 2019"
                break
            read, at = code.text[0] + match[1].upper(), match.end()
            yield code._replace(start=match.start(1), end=at, bare=at, text=read, slip=read)


__all__ = ["written_out"]
