"""Notes that somebody put at the end of a line of a scan, behind a gap and a mark for them: "P0562 ECM: low (stored)
  note: plug was wet", "Gateway:   -> as last week". They name no module, and a heading stays one with them.

>>> from triage.intake.lines.rows import rows_of
>>> text = "Radio:   -> as last week\\nU0100 (stored)   ?? ask Ann\\nU0140 (stored)   note: plug wet\\nABS:   -> silent"
>>> [row.text for row in told(rows_of(text), lambda name: name == "Radio")]
['Radio:', 'U0100 (stored)', 'U0140 (stored)', 'ABS:   -> silent']
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import spoken

_REST = r"\s*(?=[^\W\d_])([^\t|;]{2,80})$"
#: Behind a line of any kind; behind one whose status or heading is at its end; behind a heading alone.
_ASKED = lazily(rf"(?<=\S)\s{{2,}}(?:\?\?+|!!+){_REST}")
_LABELLED = lazily(
    rf"(?<=[)\]:])\s{{2,}}(?:note|n\.?b\.?|notiz|hinweis|anmerkung|bemerkung|remarque|nota|observacion)\s?:{_REST}",
    re.IGNORECASE)
_POINTED = lazily(rf"(?<=:)\s{{2,}}(?:-+>|<-+|//+){_REST}")
_SIGNS = ("??", "!!", "->", "<-", "//", ":  ", ")  ", "]  ")


def told(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows without such notes. ``is_name``: likely names of modules. Linear."""
    return [_without(row, is_name) if "  " in row.text and any(sign in row.text for sign in _SIGNS) else row
            for row in rows]


def _without(row: Row, is_name: Callable[[str], bool]) -> Row:
    """A row without the note at its end, if that tells no code, answer, status, deed, voltage or name."""
    if row.cells or row.note or row.aside is not None or row.roles:
        return row
    match = _ASKED.search(row.text) or _LABELLED.search(row.text)
    if match is None and not row.finds.codes:
        match = _POINTED.search(row.text)
    if match is None or any(code.end > match.start() for code in row.finds.codes):
        return row
    low = row.low[match.start(1) :]
    if spoken(low) or states.in_text(low) or volts.find(low) or phases.find(low) is not None or phases.events(low):
        return row
    return row if is_name(tidy(match[1])) else Row(row.line, row.text[: match.start()], row.start)


__all__ = ["told"]
