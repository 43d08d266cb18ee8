"""Which scan a row is of, where rows of several take turns: a column says it, or the words beside a module's name."""

from __future__ import annotations

from triage.intake.entries import metarow
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases
from triage.intake.scan.context import Context
from triage.intake.tidying import scannames
from triage.model.snapshot import Phase

#: No text explains more scans before they come.
_MOST = 24
#: How far or how long the vehicle ran.
_FIGURES = lazily(r"[0-9]{1,3}(?:[.,][0-9])?(?=\s?(?:km|mi|mn|h|s)(?![a-z])|\s?(?:mile|min|hour|stunde|sec|sek))")


def turn(context: Context, low: str, *others: str) -> None:
    """Go on in the scan that a text names; a new one where it changes to one not seen before. ``others``: what is told
    of the scan beside its name."""
    key, phase = _key(context, low, *others)
    fresh = key not in context.scans
    go_on(context, key, phase)
    if fresh and len(context.scans) <= _MOST:
        # Scans that the text has only explained so far come later.
        now = context.builder.snapshot
        explained = [scan for scan in context.scans.values() if scan.empty and scan is not now]
        for number, scan in enumerate(explained, now.number + 1):
            scan.number = number


def _key(context: Context, *lows: str) -> tuple[str, Phase | None]:
    """What a scan is known by, and its phase: by a name beside which its phase may be told, or by the phase alone."""
    told = [(low, phases.of_cell(low)) for low in lows]
    phase = next((phase for _, phase in told if phase is not None), None)
    name = next((low for low, phase in told if phase is None), None)
    if name is None:
        # Of two scans after a run the distance tells one from the other.
        return f"{phase} {' '.join(_FIGURES.findall(lows[0]))}".rstrip(), phase
    key = scannames.name_of(name)
    known = context.scans.get(key)
    if known is not None and phase is not None and known.phase not in (None, phase):
        # One number for all that was read in a visit.
        key = f"{key} {phase}"
    return key, phase


def go_on(context: Context, key: str, phase: Phase | None) -> None:
    """Go on in the scan of a name, which is a new one where it was not seen before."""
    known = context.scans.get(key)
    builder = context.builder
    if known is None:
        if context.scans or builder.snapshot.phase not in (None, phase):
            builder.new_snapshot(named=True)
        known = context.scans[key] = builder.snapshot
        known.named = True
    elif known is not builder.snapshot:
        # Rows of several scans may take turns: the scan named goes on.
        builder.snapshots.remove(known)
        builder.snapshots.append(known)
        builder.module = builder.code = None
    known.phase = known.phase or phase


def named(context: Context, row: Row) -> None:
    """A row that names the scan which what stands below it is of, and perhaps tells of it."""
    if row.names_scan is None:
        return
    name, start = row.names_scan
    key, phase = _key(context, name)
    context.close_module()
    context.section, context.section_of_module, context.list_of = None, False, None
    context.live_data = context.under_heading = context.key_block = False
    builder = context.builder
    before = builder.snapshot
    if context.scans.get(key) is not before:
        metarow.flush(context)
    if key not in context.scans and not before.empty:
        # What stands above has another name, or none.
        builder.new_snapshot()
    go_on(context, key, phase)
    builder.module = builder.code = None
    builder.may_restart = False
    rest = row.part(start)
    if not rest.blank:
        metarow.read(context, rest, quiet=not builder.snapshot.empty)
        builder.snapshot.phase = builder.snapshot.phase or builder.next_phase or phases.of_cell(rest.low)
        builder.next_phase = None


def read(context: Context, row: Row) -> None:
    """A row about the scan that stood beside the name of a module."""
    context.close_module()
    metarow.flush(context)
    if context.builder.snapshot.phase is None and not context.builder.snapshot.empty:
        # What stands above is of a scan that the text does not name.
        context.builder.new_snapshot()
    turn(context, row.low)
    metarow.apply(context, row, top=True)
