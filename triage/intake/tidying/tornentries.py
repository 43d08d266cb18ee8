"""Entries of lists that a line breaks off within: at what leads to the module behind a code, within the names behind an
answer, between a voltage and its unit, or between a letter of a key to the marks and its meaning.

>>> from triage.intake.lines.rows import rows_of
>>> said = "P0562 - set in:\\nRadio (stored)", "No codes in: Radio | Brakes |\\nEngine", "P0562 in:\\nRadio: no codes"
>>> [tears_entry(*rows_of(text)) for text in said]
[True, True, False]
"""

from __future__ import annotations

from triage.intake.lines import goingon
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import spoken
from triage.intake.words.vocabulary import STATES

_NUMBER_LAST, _UNIT = lazily(r"(?<![0-9.,])[0-9]{1,2}[.,][0-9]{1,2}$"), lazily(r"v(?:olts?)?(?![a-z0-9])")
#: "K -" at the end of a line.
_LAST_LETTER = lazily(r"(?<![^\s(])[a-z]{1,3}\)?\s?[-=:]$")
#: What stands behind a key, and another pair behind it.
_VALUE = lazily(r"[^,:]{1,60}(?:$|,)")
#: Before the name of the module behind a code.
_INTO_NAME = lazily(r"(?<![a-z])(?:in|by|from|at|im|von|vom|bei|dans|par|en|por)\s?:$")
_OF_A_MODULE = lazily(r"(?:in|by|from|at|of|im|von|vom|bei|beim|aus|dans|par|de|du|des|del|en|por)\s+[^\W\d]")
_AND = lazily(r"\s(?:and|und|et|y)\s")
_LISTS_ON, _PIECE = lazily(r"(?:,|\s(?:and|und|et|y|or|nor|oder|ni|ou|o))$"), lazily(r"[;.,](?:\s|$)")
_CLAUSE = lazily(r"[;,.]\s+(?:(?:and|und|et|y)\s)?")
#: What parts an entry from the name behind it.
_ARROWS = (" >", "->", "=>", ">>", " @")
#: So far from its end a line leads on.
_REACH, _LONGEST, _WORDS = 24, 80, 5


def tears_entry(above: Row, row: Row) -> bool:
    """Whether an entry of a legend is torn between its letter and its meaning ("P - pending   S -" above "stored"), a
    voltage before its unit, or a code with its arrow before the module."""
    if above.finds.codes and not row.finds.codes and above.text.endswith(_ARROWS) and not is_marked(row):
        return True
    if leads_below(above, row) or _is_cut_list(above, row) or _ends_before_its_module(above, row):
        return True
    if above.finds.codes and above.text.endswith((" -", "/")) and not is_marked(row) and (
            goingon.begins_with_status(row.low) if above.text[-1] == "-" else begins_with_code(row)):
        # "P0562 / P0563 -" above "stored; ABS: ...", "P0562 /" above "P0563 (stored)"
        return True
    if _UNIT.match(row.low) is not None and _NUMBER_LAST.search(above.low) is not None:
        return not above.finds.codes and not row.finds.codes
    if row.finds.codes or above.text[-1] not in "-=:" or _LAST_LETTER.search(above.low) is None:
        return False
    return goingon.begins_with_status(row.low) and bool(STATES.find(above.low))


def _is_cut_list(above: Row, row: Row) -> bool:
    """Whether the modules behind an answer go on below: "No codes in: radio | brakes |" above "engine | gearbox",
    "C0035 (stored); no codes in radio," above "mirror and gateway;", or those before one: "C0035 (stored); radio,"
    above "mirror and gateway are clean"."""
    if is_marked(row) or ":" in row.text[:_LONGEST]:
        return False
    if above.text[-1] in "|;":
        key, colon, _ = above.low.partition(":")
        return bool(colon and spoken(key)) and not (above.finds.codes or row.finds.codes or spoken(row.low))
    start = above.low.rfind("; ", -_LONGEST) + 2
    if start < 2 or _LISTS_ON.search(above.low, start) is None or not row.text[0].isalpha() or (
            above.finds.codes and above.finds.codes[-1].end > start):
        return False
    clause, told = above.low[start:], spoken(above.low[start:])
    if told:
        first = _PIECE.split(row.low, maxsplit=1)[0]
        return not told[0].start and len(clause) > told[-1].end + 4 and len(first) < len(row.low) and not (
            spoken(first) or (row.finds.codes and row.finds.codes[0].start < len(first)))
    told = spoken(row.low)
    return clause[-1] == "," and len(clause.split()) <= _WORDS and bool(told) and (
        _AND.search(row.low, 0, told[0].start) is not None) and not (
        row.finds.codes and row.finds.codes[0].start < told[0].start)


def _ends_before_its_module(above: Row, row: Row) -> bool:
    """Whether a line ends with an answer that begins a clause, and the next goes on with whose it is: "no codes in ABS
    and dash; no answer" above "from the gateway."."""
    if _OF_A_MODULE.match(row.low) is None or is_marked(row) or not above.low[-1].isalpha():
        return False
    clause = _CLAUSE.split(above.low[-_LONGEST:])[-1]
    told = spoken(clause) if len(clause) < min(len(above.low), _LONGEST) else ()
    return bool(told) and not told[0].start and told[-1].end == len(clause)


def leads_below(above: Row, row: Row) -> bool:
    """Whether what a line with a code ends with leads to the line below it: "P0562 low - set in:" above "Radio (new)",
    "DTC: P0562, type:" above "1C, status: stored". "Radio: no codes" begins anew."""
    if not above.finds.codes or above.text[-1] != ":" or row.finds.codes or is_marked(row):
        return False
    if _INTO_NAME.search(above.low, max(len(above.low) - _REACH, 0)) is not None:
        return ":" not in row.text and not spoken(row.low) and row.line.indent == above.line.indent
    key = above.low[above.low.rfind(",") + 1 : -1].strip()
    return row.line.indent >= above.line.indent and above.low.find(":") < len(above.low) - 1 and (
        role_of(key) is not None and _VALUE.match(row.low) is not None)


def is_marked(row: Row) -> bool:
    """Whether a bullet or a number stood before the line."""
    return not row.line.text[: row.start].isspace() and row.start > 0


def begins_with_code(row: Row) -> bool:
    """Whether a line begins with a code."""
    return bool(row.finds.codes) and not row.finds.codes[0].start


__all__ = ["begins_with_code", "is_marked", "leads_below", "tears_entry"]
