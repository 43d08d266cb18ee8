"""What somebody takes back in the same breath: "ABS - U0121... no wait, that's the gearbox one".

Which of the two modules is meant would be a guess, so that the code stays where it was first said, with a warning. A
code, or its failure type, in whose place another is put right behind it is not one.

>>> [is_taken_back(text) for text in (" no wait thats the gearbox", ", nein, das ist vom getriebe", " no comms")]
[True, True, False]
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.characters import low as small
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
_LEAST, _LONGEST = 8, 300
_CODE = (r"(?:[pcbu][0-3][0-9a-f]{3}(?:-[0-9a-f]{2})?(?![a-z0-9])|spn\s?[0-9]{1,6}(?:\s?fmi\s?[0-9]{1,2})?"
         r"(?![a-z0-9]))")
#: What takes back the code right before it or, with a "?", denies it.
_NO = (r"(?:[\s,.;-]{0,3}(?:no,? wait|wait,? no|no,? sorry|sorry,? no|sorry,?(?= i mean)|actually,? no|scratch that|"
       r"correction|oops|whoops|make that|nein,? (?:warte|moment|sorry|falsch)|falsch|korrektur|non,? pardon|"
       r"no,? perdon)|\s?\?{1,3}\s?(?:no|nope|nein|non)(?:,? (?:sorry|wait|pardon|perdon))?)"
       r"(?![a-z])[\s,.:;-]{0,3}(?:(?:it'?s|that'?s|it is|i meant?|make that|ich meine?|"
       r"je veux dire)[\s,:]{1,2})?")
_ANOTHER = lazily(rf"(?<![a-z0-9])({_CODE}){_NO}(?={_CODE})")
#: A failure type that is put in the place of the one of the code before it: "B0001-1A stage 1?? no sorry 1B above".
_TYPE = lazily(
    rf"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{{3}}-([0-9a-f]{{2}})(?![a-z0-9])((?:(?!{_CODE})[^\n]){{0,90}}?)({_NO})"
    r"([0-9a-f]{2})(?![\w.,])(?! ?(?:v|volts?|a|km|min|h|%)(?![a-z]))( (?:above|instead|there|of course))?")


def is_taken_back(low: str) -> bool:
    """Whether words behind a code take back what was said."""
    if len(low) <= _LEAST or not signs.of(low) & _SIGNS:
        return False
    return _TAKEN_BACK.search(low) is not None or _ASKED.match(low) is not None


def written_out(found: Sequence[Line]) -> list[Line]:
    """The lines without a code that the next one right behind it is put in the place of, and with the failure type that
    is put in the place of another.

    >>> from triage.intake.plain.characters import lines
    >>> text = "ABS C0035? no sorry C0036 stored\\nB0001-1A stage 1?? no sorry 1B above active\\nC0035 ok? no, lost"
    >>> [line.text for line in written_out(lines(text))]
    ['ABS C0036 stored', 'B0001-1B stage 1 active', 'C0035 ok? no, lost']
    """
    out = list(found)
    for at, line in enumerate(out):
        if len(line.low) > _LONGEST or not signs.of(line.low) & _SIGNS:
            continue
        for match in reversed(list(_ANOTHER.finditer(line.low))):
            line = reworded(line, match.start(), match.end(), "")
        if (told := _TYPE.search(line.low)) is not None:
            line = reworded(line, told.start(3), told.end(), "")
            line = reworded(line, *told.span(1), told[4].upper())
        out[at] = line
    return out


def _followed(context: Context, row: Row) -> None:
    """Tell what was taken back in a line and left out."""
    raw = small(row.line.raw)
    for match in (_ANOTHER.search(raw), _TYPE.search(raw)):
        message = match and f"{match[1].upper()}: taken back in the same line, what stands behind it is taken instead"
        # A line that tells a whole scan is read module by module.
        told = any(each.line == row.line.number and each.message == message for each in context.builder.notices[-9:])
        if message is not None and not told:
            context.builder.notice("note", message, row.line, row.start, row.start + len(row.text))


def note(context: Context, row: Row) -> None:
    """Warn of codes of a row just read that may be taken back behind them."""
    # Asked of the row, whose signs are known, before what stands behind its codes.
    if not signs.of(small(row.line.raw)) & _SIGNS:
        return
    if row.line.low != small(row.line.raw):
        _followed(context, row)
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


__all__ = ["is_taken_back", "note", "written_out"]
