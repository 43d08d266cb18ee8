"""Headings over a list of codes, "Pending codes:": the status, or the list, of the codes below."""

from __future__ import annotations

from triage.intake.entries import metarow
from triage.intake.entries.headings import codes_alone, section
from triage.intake.entries.whatfollows import below_of
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.said import ofall, phases
from triage.intake.said.listheads import LISTS, explained, heads_several, status_of_head, without_status
from triage.intake.said.near import small
from triage.intake.scan.context import Context
from triage.intake.tidying.scanlead import is_lead
from triage.model.snapshot import ListRead, StatusWord

#: So many modules have codes where a line may speak of all.
_SEVERAL = 2


def list_in(context: Context, text: str) -> ListRead | None:
    """The list of codes that a text names ("pending codes"), or None."""
    status, _ = status_of_head(small(text), context.translated)
    return LISTS.get(status or "")


def open_section(context: Context, row: Row, status: StatusWord, at: int) -> None:
    """Open a list of codes of one status; it belongs to the module above where codes follow at once."""
    below = below_of(context, at)
    context.section = status
    # As far left as the headings, over one of them, it heads the lists of all below it.
    of_all = (below is not None and row.line.indent <= context.heading_indent and not below.finds.codes
              and context.names.sure(tidy(below.text)))
    context.section_of_module = (
        context.under_heading
        and context.builder.module is not None
        and not of_all
        and (below is None or (bool(below.finds.codes) and codes_alone(context, below)) or context.blanks == 0)
    )
    name = LISTS.get(status)
    if name is not None:
        context.saw_list(name)
    context.open_code = context.open_row = None


def tells_of_all(context: Context, row: Row) -> bool:
    """Take a line that says the status of all codes of the scan; below the name of a module it may be of that alone."""
    lead, mark, rest = row.low.partition(": ") if ": " in row.low else row.low.rstrip(" )").partition(" (")
    led = bool(mark) and is_lead(lead) and ofall.told(rest, context.translated) is not None
    if led:
        # "After 5 km: all codes in this scan are stored" heads the scan as well.
        metarow.read(context, Row(row.line, row.text[: len(lead)], row.start))
    said = ofall.told(rest if led else row.low, context.translated)
    above = context.builder.module is None and (context.builder.snapshot.empty or context.builder.may_restart)
    if said is None:
        return False
    if not said.of_scan and not above and not _ends_scan(context):
        return _of_module(context, said.status)
    context.builder.say_of_all(said.status)
    context.open_code = context.open_row = None
    return True


def _ends_scan(context: Context) -> bool:
    """Whether the line stands behind the codes of several modules, below the last code of the text or of the scan."""
    if sum(bool(module.codes) for module in context.builder.snapshot.modules.values()) < _SEVERAL:
        return False
    for row in context.rows[context.at + 1 :]:
        if phases.find(row.low) is not None or phases.scan_head(row.low) is not None:
            return True
        if row.finds.codes:
            return False
    return True


def _of_module(context: Context, status: StatusWord) -> bool:
    """Give a status to the codes of the module right above that have none; whether there are such."""
    module = context.builder.module
    if context.parted or not context.under_heading or module is None or not module.codes:
        return False
    for code in module.codes:
        code.status = code.status or status
    context.open_code = context.open_row = None
    return True


def ends_status(context: Context, row: Row) -> bool:
    """End what the headings above said, at one that tells no status of its codes: "Other codes, status unknown"."""
    if (context.section is None and context.list_of is None) or not without_status(row.low):
        return False
    context.section, context.section_of_module, context.list_of = None, False, None
    context.open_code = context.open_row = None
    return True


def heads_codes(context: Context, row: Row, at: int) -> bool:
    """Open a list below a line that surely heads one, among codes: "-- stored faults --" with codes right below it."""
    among = context.open_code is not None or explained(row.low)
    status = section(context, row) if among and heads_several(row.low) else None
    below = below_of(context, at)
    if status is None or below is None or not below.finds.codes or not codes_alone(context, below):
        return False
    open_section(context, row, status, at)
    return True
