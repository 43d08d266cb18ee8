"""A question for the supply and its answer in the next line: "volts?" and "11.6" become one line.

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in joined(rows_of("what's the battery at?\\n11.6\\nradio?\\n12.1"))]
['Battery: 11.6', 'radio?', '12.1']
>>> [row.text for row in joined(rows_of("08:57 voltage?\\n\\n09:04 12v"))]
['09:04 Battery: 12v']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.words.volt_words import LABEL

#: A voltage alone, and when and who said it.
_ANSWER = lazily(
    r"(?P<clock>[0-2]?[0-9][:h][0-5][0-9]\s)?(?:[a-z][\w.'-]{0,15}:\s{0,2})?"
    r"(?:(?:it'?s|about|around|just|ca\.?|es|est|ist|son) )?(?P<volts>[0-9]{1,2}(?:[.,][0-9]{1,2})?)"
    r"\s?(?:v(?:olts?)?|volt)?(?: (?:rn|now|at the moment|atm|jetzt|maintenant|ahora))?[ .!]*"
)
_LONGEST = 60
_LEAST, _MOST = 3.0, 36.0


def joined(rows: Sequence[Row]) -> list[Row]:
    """The rows, the answers to those that ask for the supply with their label in their place: what is asked for is of
    the scan told above, from which nothing may part it. Linear."""
    found: list[Row] = []
    at = 0
    while at < len(rows):
        row = rows[at]
        told = None
        if row.low[-1:] == "?" and not row.finds.codes and len(row.low) <= _LONGEST and LABEL.search(row.low):
            # Who answers may stand in a line of its own, which is blank by now.
            told = at + 2 if at + 2 < len(rows) and rows[at + 1].blank else at + 1
        answer = _answer(rows[told]) if told is not None and told < len(rows) else None
        if answer is None or told is None:
            found.append(row)
            at += 1
            continue
        while found and found[-1].blank:
            found.pop()
        found.append(answer)
        at = told + 1
    return found


def _answer(row: Row) -> Row | None:
    """A row that is nothing but a voltage, with its label."""
    answer = _ANSWER.fullmatch(row.low) if len(row.low) <= _LONGEST else None
    if answer is None or not _LEAST <= float(answer["volts"].replace(",", ".")) <= _MOST:
        return None
    text = f"{answer['clock'] or ''}Battery: {row.text[answer.start('volts') :]}"
    return Row(row.line, text, row.start + answer.start("volts"), text.lower())
