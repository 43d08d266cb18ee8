"""A question for the supply and its answer in the next line: "volts?" and "11.6" become one line.

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in joined(rows_of("what's the battery at?\\n11.6\\nradio?\\n12.1"))]
['', 'Battery: 11.6', 'radio?', '12.1']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.words.volt_words import LABEL

#: A voltage alone, and who said it.
_ANSWER = lazily(
    r"(?:[a-z][\w.'-]{0,15}:\s{0,2})?(?:(?:it'?s|about|around|just|ca\.?|es|est|ist|son) )?([0-9]{1,2}[.,][0-9]{1,2})"
    r"\s?(?:v(?:olts?)?|volt)?(?: (?:rn|now|at the moment|atm|jetzt|maintenant|ahora))?[ .!]*"
)
_LONGEST = 60
_LEAST, _MOST = 3.0, 36.0


def joined(rows: Sequence[Row]) -> list[Row]:
    """The rows, those that ask for the supply left blank, the answers below them with their label. Linear."""
    found = list(rows)
    for at in range(len(found) - 1):
        row, below = found[at], found[at + 1]
        if row.low[-1:] != "?" or row.finds.codes or len(row.low) > _LONGEST or LABEL.search(row.low) is None:
            continue
        answer = _ANSWER.fullmatch(below.low) if len(below.low) <= _LONGEST else None
        if answer is None or not _LEAST <= float(answer[1].replace(",", ".")) <= _MOST:
            continue
        found[at] = Row(row.line, "", 0)
        text = f"Battery: {below.text[answer.start(1) :]}"
        found[at + 1] = Row(below.line, text, below.start + answer.start(1), text.lower())
    return found
