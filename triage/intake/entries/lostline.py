"""Lines that name a module and were understood by nobody: told in a notice, and given to no code of another line.

"TCM P2Z 63 active" below "ECM P0562" is of the gearbox, whatever it says: its "active" is no status of P0562. A line
that goes on with a wrapped description may begin with a name too ("Lost communication with" above "ABS control module
stored"): then it stands further right, or the line above ends with a word that leads on, is full, or ends with its
code.
"""

from __future__ import annotations

from itertools import pairwise

from triage.intake.entries import headings
from triage.intake.lines import shortnumbers
from triage.intake.lines.goingon import IN_DESCRIPTIONS, LINKS, ends_with_code, ends_with_status, last_word
from triage.intake.lines.row import Row
from triage.intake.lines.shapes import shape_of
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, word_set
from triage.intake.said import near, states
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import small
from triage.intake.scan.context import Context

Span = tuple[int, int]

#: What parts a name from what is said of its module, and no words of one description.
_MARK = lazily(r"\s*(?::|=|-{0,2}>)\s*(?=\S)|\s+-\s+(?=\S)")
#: What is shaped like a code once the spaces in it are closed, or stands glued to a word.
_SHAPED = lazily(
    r"(?<![^\W_])(?:[PCBUpcbu](?! ?[^ ]{4}(?![^\W_])) ?[0-3](?: ?[0-9A-Fa-fOo]){3}|[A-Za-z]{2,}[PCBU][0-3][0-9A-F]{3}"
    r"|[PCBU][0-3][0-9A-F]{3}[A-Za-z]+|[PUpu][0-3][0-9A-Fa-f]-[0-9A-Fa-f]{2}(?!-))(?![^\W_])"
)
_LONGEST_NAME, _LONGEST, _MOST_WORDS, _FEW_WORDS = 50, 160, 6, 3
#: What is said of a vehicle rather than of its modules.
_OF_THE_VEHICLE = word_set(
    "petrol gasoline gas benzin diesel essence gasolina gasoil hybrid electric automatic automatik manual manuel "
    "manuell speed gears turbo litre liter litres ccm cc hp kw ps bhp fitted"
)
#: Only a line as long as this, or longer, is full.
_FULL = 45


def names_another(context: Context, row: Row, at: int) -> bool:
    """Whether a row begins with a name, or with what looks like a code, and does not go on with the code of the line
    above."""
    named, marked = _name(context, row)
    shaped = _shaped(row)
    own = named is not None or (shaped is not None and not shaped[0])
    return own and not _wraps(context, row, at, marked)


def read(context: Context, row: Row, at: int) -> bool:
    """Tell of a row that names a module, or holds what looks like a code, and that nobody understood; whether it is
    one."""
    if len(row.text) > _LONGEST or row.finds.mentions or context.live_data or context.in_freeze_frame:
        return False
    named, marked = _name(context, row)
    shaped = _shaped(row)
    if (named is None and shaped is None) or _wraps(context, row, at, marked):
        return False
    if shaped is None and not _may_tell(context, row, named, marked):
        return False
    context.close_module()
    if named is None and context.builder.module is not None:
        context.builder.module.unclear = True
    if named is not None and not context.under_heading and _put_in(context, row, at, named, shaped, marked):
        return True
    start, end = named or shaped or (0, 0)
    context.builder.notice(
        "warning",
        f"{row.text[start:end]}: this line is not understood; write its code in one piece, or \"no codes\" or \"no "
        "answer\" behind the module's name",
        row.line, row.start, row.start + len(row.text),
    )
    return True


def tells_number(context: Context, row: Row, at: int) -> bool:
    """Tell of a row that begins with a number as if it were its code, in a list of codes, that nobody read: its
    form says too little. Whether it is one; it is no part of the code above."""
    module, above = context.builder.module, context.open_row
    if above is not None:
        inside = row.line.indent <= above.line.indent and bool(above.finds.codes) and not above.finds.codes[0].start
    else:
        inside = module is not None and context.under_heading and not context.blanks
    number = shortnumbers.begins(row, surely=not inside) if not (context.live_data or context.in_freeze_frame) else ""
    if not number or last_word(context.rows[at - 1].low) in IN_DESCRIPTIONS:
        return False
    context.open_code = context.open_row = None
    context.builder.notice(
        "warning",
        f"{number}: not read as a code, since years, counts and parts are written so too; write \"fault {number}\" if "
        "it is one",
        row.line, row.start, row.start + len(row.text),
    )
    return True


def opens(context: Context, row: Row) -> None:
    """Open the module that a row names before a code that can't be read ("ABS: P12??"): what stands below is of it, and
    of no module above. Behind a name that nobody knows no module is open."""
    mark = _MARK.search(row.text, 1, _LONGEST_NAME) if len(row.text) <= _LONGEST else None
    if mark is None or mark.end() > row.finds.refusals[0].start:
        return
    head = row.text[: mark.start()]
    name = tidy(head)
    low = small(name)
    if not has_letter(name) or role_of(low) is not None or states.in_text(low) or answer_of_cell(low) is not None:
        return
    if context.names.sure(context.names.bare(name)):
        start = max(head.find(name), 0)
        module = context.builder.name_module(name, row.line, row.start + start, row.start + start + len(name))
        module.unclear = True
        context.under_heading = False
    elif not context.under_heading and len(name.split()) <= _FEW_WORDS and name[0].isupper():
        context.builder.module = None


def _put_in(context: Context, row: Row, at: int, named: Span, shaped: Span | None, marked: bool) -> bool:
    """Put the module of a row that tells of it into the scan, neither clean nor silent; whether the end of the scan
    tells that it was not understood."""
    start, end = named if shaped is None or shaped[0] <= named[0] else (named[0], min(named[1], shaped[0]))
    printed = row.text[start:end].rstrip()
    if shaped is None and not (marked and context.names.sure(printed)):
        return False
    module = context.builder.name_module(printed, row.line, row.start + start, row.start + start + len(printed))
    module.unclear = True
    below = context.rows[at + 1] if at + 1 < len(context.rows) else None
    if below is None or below.line.indent <= row.line.indent:
        # What stands below may be of that module or of another: it is not of the one above.
        context.builder.module = None
    return not module.codes and module.answer is None


def _may_tell(context: Context, row: Row, named: Span | None, marked: bool) -> bool:
    """Whether a row that begins with a name tells of its module, and is no sentence of something else."""
    if row.kind in ("|", ";", "\t") and context.open_code is None:
        return False
    if marked and named is not None and not ends_with_status(row.low, context.translated):
        if not _OF_THE_VEHICLE.isdisjoint(WORD.findall(row.low)):
            return False
        name = row.text[named[0] : named[1]]
        found = context.names.find(small(name))
        # "Engine: 1.4 turbo" above a scan tells of the vehicle.
        known = found[0][2] if found else context.names.sure(name)
        # "Radio: 6214 aerial open" may be a code's line that nobody could tell from a count's.
        numbered = row.text[named[1] :].lstrip(" :=->")[:4].isdigit()
        return known or (_is_usual(context) and (numbered or not context.builder.snapshot.empty))
    if marked:
        return True
    # "The ABS was fine when I drove it in on Monday"
    return len(row.text.split()) <= _MOST_WORDS and _is_usual(context)


def _name(context: Context, row: Row) -> tuple[Span | None, bool]:
    """The place of the name that a row begins with, and whether a mark parts it from the rest; one that nobody knows
    counts before a colon where the row ends with a status."""
    mark = _MARK.search(row.text, 1, _LONGEST_NAME) if len(row.text) <= _LONGEST else None
    if mark is not None:
        head = row.text[: mark.start()]
        name = tidy(head)
        known = bool(name) and role_of(small(name)) is None
        if known and (context.names.sure(name) or (mark[0].strip() == ":" and _may_be_name(context, row, name))):
            start = max(head.find(name), 0)
            return (start, start + len(name)), True
    found = context.names.find(row.low)
    if not found or not found[0][2] or tidy(row.text[: found[0][1]]) != tidy(row.text[found[0][0] : found[0][1]]):
        # "Pass door NR"
        head = row.text[: row.text.rfind(" ")] if len(row.text) <= _LONGEST_NAME and " " in row.text else ""
        begin = row.text.find(tidy(head)) if head and has_letter(head) and context.names.sure(tidy(head)) else -1
        return (None if begin < 0 else (begin, begin + len(tidy(head)))), False
    start, end, _ = found[0]
    return ((start, end), False) if row.low[end:].strip() else (None, False)


def _may_be_name(context: Context, row: Row, name: str) -> bool:
    """Whether what stands before a colon in a row that ends with a status may be a name that nobody knows: no word of
    it is a key of its own ("circuit Condition: confirmed")."""
    parts = small(name).split()
    alone = len(parts) <= 3 and all(role_of(part) is None for part in parts)
    return alone and ends_with_status(row.low, context.translated)


def _shaped(row: Row) -> Span | None:
    """The place of what looks like a code with a space in it or a word glued to it, and is labelled as nothing else."""
    match = _SHAPED.search(row.text) if has_digit(row.text) else None
    if match is None or near.Labels(row.low).before(*match.span(), row.text):
        return None
    if near.part_of_a_number(row.text, *match.span()) or near.not_a_spaced_code(row.text, row.low, *match.span()):
        return None
    return match.span()


def _is_usual(context: Context) -> bool:
    """Whether the lines with codes of this text begin with the names of their modules."""
    return any(shape[2] and place.before for shape, place in context.style.places.items())


def _wraps(context: Context, row: Row, at: int, marked: bool) -> bool:
    """Whether a row plainly goes on with the description of the code above."""
    above = context.open_row
    if above is None or context.open_code is None or context.blanks:
        return False
    if row.line.indent > above.line.indent and not marked:
        return True
    before = context.rows[at - 1]
    if last_word(before.low) in (LINKS if marked else IN_DESCRIPTIONS):
        return True
    if marked:
        return False
    if before is above and ends_with_code(above) and (not shape_of(above)[2] or _are_below(context)):
        # The description of the code stands below it.
        return not ends_with_status(row.low, context.translated) or not shape_of(above)[2]
    return len(before.line.text) >= _FULL and not headings.is_whole(context, row, at)


def _are_below(context: Context) -> bool:
    """Whether descriptions stand in the line below their codes in this text."""
    if context.described_below is None:
        context.described_below = any(
            ends_with_code(above)
            and not (row.blank or row.finds.codes or row.finds.refusals or context.names.find(row.low))
            and has_letter(row.text)
            and states.of_cell(row.low) is None
            and answer_of_cell(row.low) is None
            for above, row in pairwise(context.rows[:400])
        )
    return context.described_below


__all__ = ["names_another", "opens", "read", "tells_number"]
