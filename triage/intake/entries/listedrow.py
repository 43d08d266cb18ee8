"""Names in the lines below a heading that tells what they all did, such as "No answer:"; and where such a list ends."""

from __future__ import annotations

from triage.intake.entries import names_of_list
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.phrases import plain_words
from triage.intake.said import phases, volts
from triage.intake.said.answers import answer_of_cell
from triage.intake.scan.context import Context
from triage.intake.words.answerwords import CODES, SEVERAL

#: What mail programs put above the signature.
_OVER_SIGNATURE = "--"
_FEW_WORDS = 4
#: No further above a line, past blank ones, stands the item before it.
_NEAR = 4


def read(context: Context, row: Row) -> bool:
    """Names under a heading such as "No answer:"."""
    if context.list_of is None or len(row.text) > 300:
        return False
    if row.text.endswith(":") or _heads_anew(context, row) or (
            not _is_marked_alike(context, row) and phases.find(row.low) is not None
            and context.names.score(row.text) < 60.0) or (
            any(volt.of == "supply" and volt.labelled for volt in volts.find(row.low))):
        # A name with a colon heads what follows it; the supply is none, nor is the heading of the next scan.
        context.list_of = None
        return False
    if _is_note(context, row):
        return True
    whole = tidy(row.text)
    one = context.names.score(whole) >= 60.0 and not names_of_list.is_list(context.names, whole)
    names = [whole] if one else names_of_list.of_list(context.names, row.text)
    good = [name for name in names if context.names.score(name) >= 60.0]
    if len(good) < 0.5 * len(names) and not (
        len(names) == 1
        and len(names[0].split()) <= 5
        and (context.blanks == 0 or (context.blanks == 1 and _is_marked(row)))
        and row.low[:1].isalnum()
        and not row.text.endswith((".", ":"))
        and not _lacks_mark(context, row)
    ):
        context.list_of = None
        return False
    answer = context.list_of
    if _holds_its_own(context, row):
        context.list_of = context.list_item = None
        return False
    if context.list_item is not None and context.list_item[0] == answer and row.line.indent < context.list_item[1]:
        # Further left than the names of the list: the list is at its end.
        context.list_of = context.list_item = None
        return False
    context.list_item = context.list_item or (answer, row.line.indent)
    for name in names:
        place = max(row.text.find(name), 0)
        module = context.builder.name_module(name, row.line, row.start + place, row.start + place + len(name))
        context.builder.answer(module, answer)
    context.list_of = answer
    context.under_heading = False
    context.builder.module = None
    return True


def is_item(context: Context, row: Row) -> bool:
    """Whether a line stands where the names of such a list do, and is neither a key nor a number: "Phone tray" in it
    tells no number of a phone."""
    if context.list_of is None or ":" in row.text or "=" in row.text or has_digit(row.low):
        return False
    above = context.rows[context.at - 1] if context.at else row
    set_in = row.line.indent == context.list_item[1] > 0 if context.list_item else row.line.indent > above.line.indent
    return context.blanks == 0 and (_is_marked(row) or set_in)


def is_short_item(context: Context, row: Row) -> bool:
    """Whether such a line is of two words at most: "Phone tray", not "phone the owner"."""
    return is_item(context, row) and len(row.text.split()) <= 2


def _is_note(context: Context, row: Row) -> bool:
    """Whether a line among the names is one that somebody put there in brackets ("(keys are at the desk)"), and the
    next is a name again, where those of the list stand."""
    at = context.at + 1
    below = context.rows[at] if at < len(context.rows) else row
    if row.text[0] != "(" or row.text[-1] != ")" or below.blank or context.list_item is None:
        return False
    if below.line.indent != context.list_item[1] or below.finds.codes or context.names.find(row.low) or (
            answer_of_cell(row.low) is not None):
        return False
    # Set in deeper than the note, a name that nobody knows is one too.
    short = row.line.indent < below.line.indent and len(below.text.split()) <= _FEW_WORDS and ":" not in below.text
    return short or context.names.likely(tidy(below.text))


def _heads_anew(context: Context, row: Row) -> bool:
    """Whether a line is a heading below a list: marked as one where the names are not ("### Airbag"), or of the modules
    that do hold codes ("Modules with faults")."""
    above = context.rows[context.at - 1] if context.at else row
    above = context.rows[context.at - 2] if above.blank and context.at > 1 else above
    if row.text[0] == "#" and above.text[:1] != "#":
        return context.list_item is not None
    told = plain_words(row.low)
    return not SEVERAL.isdisjoint(told) and not CODES.isdisjoint(told) and answer_of_cell(row.low) is None


def _holds_its_own(context: Context, row: Row) -> bool:
    """Whether the line below a name tells codes or an answer and stands further right or below a rule, or has codes
    where the name lacks the mark of the items above: the name heads it, and a list that stood above is at its end."""
    rows, at = context.rows, context.at
    ruled = at + 1 < len(rows) and rows[at + 1].kind == "rule"
    below = rows[at + 1 + ruled] if at + 1 + ruled < len(rows) else None
    if below is None or below.blank:
        return False
    if below.finds.codes and not ruled and below.line.indent == row.line.indent and not _is_marked(row):
        above = next((rows[place] for place in range(at - 1, max(at - 3, -1), -1) if not rows[place].blank), row)
        return _is_marked(above)
    if not ruled and below.line.indent <= row.line.indent:
        return False
    return bool(below.finds.codes) or answer_of_cell(below.low) is not None


def _lacks_mark(context: Context, row: Row) -> bool:
    """Whether a line that no table has stands without the bullet of the last item, and apart from it, or right below
    the dashes over a signature: who signs below a list of modules is none."""
    at = context.at - 1
    if at > 0 and context.rows[at].text.strip() == _OVER_SIGNATURE:
        return True
    while at > 0 and not has_letter(context.rows[at].text):
        at -= 1
    return 0 <= at < context.at - 1 and _is_marked(context.rows[at]) and not _is_marked(row)


def _is_marked(row: Row) -> bool:
    """Whether a bullet or a number stood before the line."""
    return bool(_marks(row))


def _is_marked_alike(context: Context, row: Row) -> bool:
    """Whether a line bears a bullet or a number, and the item above it no other one: below "- Radio", the sides of
    ">> After clear" are those of a heading."""
    if not _is_marked(row):
        return False
    mark = _marks(row)
    above = next((context.rows[at] for at in range(context.at - 1, max(context.at - _NEAR, -1), -1)
                  if not context.rows[at].blank), row)
    return has_digit(mark) or context.list_item is None or not _is_marked(above) or _marks(above) == mark


def _marks(row: Row) -> str:
    return row.line.text[: row.start].strip()
