"""Ticks and crosses: "✅ Engine", "Airbag ✓" are modules without codes; a cross alone tells no answer.

>>> from triage.intake.lines.rows import rows_of
>>> rows = rows_of("\\u2705 Engine\\n\\u274c ABS - C0031 (active)\\nAirbag \\u2713")
>>> [row.text for row in told(rows, lambda name: name in ("Engine", "Airbag"))]
['Engine: ok', 'ABS - C0031 (active)', 'Airbag: ok']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import spoken

_TICKS = "\u2713\u2714\u2611\u2705"
_CROSSES = "\u2717\u2718\u274c\u2715\u2716\u274e"
_SIGNS = frozenset(_TICKS + _CROSSES)
_CROSS = frozenset(_CROSSES + "-")
#: Shown in colours, a sign has another behind it that is not seen.
_AROUND = " \t\ufe0f\ufe0e"
_FIRST = lazily(rf"[\u2022{_CROSSES}]\s*")
_LAST = lazily(r"\s*[:=.\u2013-]*\s*\u2022+\s*$")


def told(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows with a tick beside a module's name written out as an answer, and without crosses at their start.

    Where ticks stand before codes, or below a line that says what is listed, they are bullets; where many stand
    at other things, they are a checklist. Linear."""
    signs = [_signs(row) for row in rows]
    if not any(signs):
        return list(rows)
    found = list(rows)
    if _is_checklist(rows, signs, is_name):
        return found
    bullets = any(sign and sign[0] in _TICKS and row.finds.codes for row, sign in zip(rows, signs, strict=True))
    listed = False
    for at, row in enumerate(rows):
        if row.blank:
            continue
        sign = signs[at]
        if sign is None:
            listed = row.text.endswith(":") or bool(spoken(row.low))
            continue
        first, last = sign
        match = _FIRST.match(row.text)
        begin = match.end() if match is not None else 0
        tail = _LAST.search(row.text, begin) if last in _TICKS else None
        name = row.text[begin : tail.start() if tail is not None else len(row.text)].rstrip(" :=.-")
        ticked = tail is not None or (first in _TICKS and not bullets and not listed)
        if ticked and not row.finds.codes and is_name(tidy(name)) and not _heads_codes(rows, at):
            text = f"{name}: ok"
        elif match is not None and first in _CROSSES and begin < len(row.text):
            text = row.text[begin:]
        else:
            continue
        found[at] = row.part(begin).saying(text)
        found[at].later = row.later
    return found


def _is_checklist(
    rows: Sequence[Row], signs: Sequence[tuple[str, str] | None], is_name: Callable[[str], bool]
) -> bool:
    """Whether more than a quarter of what is ticked is no module ("tyres", "oil level"): brakes that somebody looked
    at are not free of codes."""
    ticked = [
        row
        for row, sign in zip(rows, signs, strict=True)
        if sign is not None and not _CROSS.issuperset(sign) and not row.finds.codes and not spoken(row.low)
    ]
    others = sum(not is_name(tidy(_LAST.sub("", row.text).strip("\u2022 "))) for row in ticked)
    return 4 * others > len(ticked)


def _signs(row: Row) -> tuple[str, str] | None:
    """The sign with which a line begins and the one with which it ends as pasted ("-" for none); None without any."""
    raw = row.line.raw
    if row.blank or raw.isascii() or len(raw) > 400:
        return None
    bare = raw.strip(_AROUND)
    first = bare[0] if bare[:1] in _SIGNS and not has_letter(row.line.text[: row.start]) else "-"
    last = bare[-1] if bare[-1:] in _SIGNS and row.start + len(row.text) >= len(row.line.text.rstrip()) else "-"
    return None if first == last == "-" else (first, last)


def _heads_codes(rows: Sequence[Row], at: int) -> bool:
    """Whether the line below starts with a code: it is that of the module named here."""
    below = next((row for row in rows[at + 1 : at + 3] if not row.blank), None)
    if below is None or not below.finds.codes:
        return False
    return re.search("[a-z]", below.low[: below.finds.codes[0].start]) is None


__all__ = ["told"]
