"""What somebody takes back in the same breath: "ABS - U0121... no wait, that's the gearbox one".

Which of the two is meant would be a guess, so that the code stays where it was first said, with a warning.

>>> [is_taken_back(text) for text in (" no wait thats the gearbox", ", nein, das ist vom getriebe", " no comms")]
[True, True, False]
"""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.scan.context import Context

_TAKEN_BACK = lazily(
    r"(?<![a-z])(?:no,? wait|wait,? no|no,? sorry|sorry,? no|actually,? no|scratch that|correction|oops|whoops|"
    r"i meant?|make that|my mistake|nope,? (?:that|it)|"
    r"nein,? (?:warte|moment|sorry|falsch|das ist|das war|doch)|moment,? nein|falsch,? das|korrektur|quatsch|"
    r"(?:ah |euh )?non,? (?:pardon|attends?|attendez|c'est|en fait)|pardon,? (?:non|c'est)|je veux dire|"
    r"no,? (?:perdon|espera|perdona|quiero decir)|perdon,? (?:no|es|ese|eso)|digo)(?![a-z])"
)
#: "U0184? No."
_ASKED = lazily(r"\?\s(?:no|nope|nein|non)(?=[.,! ])(?! (?:code|fault|dtc|answer|comm|response|reply|idea))")
#: A word of each of those.
_SIGNS = signs.of_pattern(
    r"wait|sorry|mean|make|mistake|nope|actually|scratch|correction|oops|nein|moment|falsch|korrektur|quatsch|non|"
    r"pardon|veux|perdon|espera|quiero|digo"
) | signs.of_parts("?")
_LEAST = 8


def is_taken_back(low: str) -> bool:
    """Whether words behind a code take back what was said."""
    if len(low) <= _LEAST or not signs.of(low) & _SIGNS:
        return False
    return _TAKEN_BACK.search(low) is not None or _ASKED.match(low) is not None


def note(context: Context, row: Row) -> None:
    """Warn of codes of a row just read that may be taken back behind them."""
    # Asked of the row, whose signs are known, before what stands behind its codes.
    if not signs.of(row.low) & _SIGNS:
        return
    codes = row.finds.codes
    stops = [*(code.start for code in codes[1:]), len(row.low)]
    code = next((code for code, stop in zip(codes, stops, strict=True)
                 if stop - code.end > _LEAST and is_taken_back(row.low[code.end : stop])), None)
    if code is None:
        return
    context.builder.notice(
        "warning",
        f"{code.text}: what follows sounds like a correction and is not followed; if the code is another module's, "
        "write it behind that name",
        row.line,
        row.start + code.start,
        row.start + len(row.text),
    )


__all__ = ["is_taken_back", "note"]
