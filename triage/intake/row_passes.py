"""The passes over the rows of a text, before the first is read: one thing told in each, what was wrapped put together,
names without what stands beside them, columns. Their order is here and nowhere else."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from code_tables import Tables
from triage.intake.entries import (
    besidename,
    countbehind,
    emptylists,
)
from triage.intake.lines import (
    alikenumbers,
    counted,
    idents,
    namelist,
    numbering,
    outline,
    owncodes,
    slipplaces,
    straygaps,
)
from triage.intake.lines.layouts import split_rows
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.names import Names
from triage.intake.tidying import (
    across,
    addressed,
    answeredheads,
    answerlists,
    asstatus,
    blockaddresses,
    breaks,
    codefirst,
    columnkey,
    countedentries,
    dashes,
    described,
    endedentries,
    entrylines,
    fields,
    halves,
    hearsay,
    heavylist,
    inline,
    keyedbehind,
    keyedheads,
    keymarks,
    logs,
    lookedat,
    lostbreaks,
    marginnotes,
    markedheads,
    marknotes,
    matrix,
    namedcolumn,
    namedpieces,
    namelead,
    namesbelow,
    numberednames,
    paragraphs,
    phasecells,
    repeated,
    reporters,
    saidbelow,
    saidofall,
    scanlead,
    senderkeys,
    sharedcolumn,
    shortheads,
    shortstops,
    sidebyside,
    sumsbelow,
    ticks,
    torntypes,
    turnsofspeech,
    wordystatuses,
    wraps,
)
from triage.model.snapshot import StatusWord


def whole_rows(all_rows: list[Row], names: Names, width: int, is_module: IsName) -> list[Row]:
    """The rows, what was wrapped put together, and each code that has its modules behind or below it with those."""

    def is_like(name: str) -> bool:
        return names.score(names.bare(name)) >= 60.0

    # Lines below a code are no part of its text where they name its modules; a wrapped list is whole thereafter.
    joined = _joined(reporters.tabled(all_rows, is_like, is_module), names, width)
    return reporters.tabled(sumsbelow.in_front(joined), is_like, is_module)


def parted(all_rows: Sequence[Row], names: Names) -> list[Row]:
    """The rows, each with one thing told in it where several stood in a line, without what numbers and stamps them."""
    worded = wordystatuses.told(marginnotes.told(all_rows, names.likely))
    told = lookedat.told(shortstops.told(turnsofspeech.commas(worded)))
    found = markedheads.told(marknotes.told(hearsay.marked(told), names.likely))
    found = repeated.left_out(blockaddresses.left_out(found), names.likely)
    found = numbering.uncounted(numbering.unfinished(numbering.unnumbered(found)))
    found = keymarks.told(answerlists.parted(logs.unstamped(found)), names.likely)
    found = senderkeys.told(found, names.likely)
    keyedbehind.adopt(found, names)
    found = fields.cut(keyedbehind.barred(found, names.likely, names.is_whole))
    found = inline.parted(shortheads.written_out(found), names.find, names.likely)
    led = scanlead.parted(phasecells.parted(found), names.find)
    found = namelead.parted(saidofall.parted(asstatus.told(led)), names)
    return emptylists.taken_off(counted.taken_off(found))


def with_bare_names(all_rows: Sequence[Row], names: Names, tables: Tables) -> list[Row]:
    """The rows without what stands beside the names of modules: ticks, counts, answers, addresses."""
    found = ticks.told(all_rows, names.likely)
    found = countbehind.taken_off(found, names.likely, lambda name: names.match(name).canonical in tables.modules)
    found = keyedheads.taken_off(answeredheads.taken_off(found, names.likely), names.likely)
    found = besidename.taken_off(idents.taken_off(found), names.likely, names.find)
    return addressed.taken_off(numberednames.taken_off(lostbreaks.cut(found), names.likely), names.likely)


def in_columns(all_rows: list[Row], names: Names, statuses: Mapping[str, StatusWord]) -> list[Row]:
    """The rows cut into the columns they stand in, scans side by side unfolded, each code behind its module."""
    alikenumbers.adopt_headed(all_rows, lambda name: names.likely(names.bare(name)))
    outline.adopt(all_rows, lambda name: names.likely(names.bare(name)), names.sure)
    described.adopt(all_rows, names)
    split_rows(all_rows)
    straygaps.closed(all_rows)
    gridless = matrix.written_out(all_rows, lambda name: names.score(names.bare(name)) >= 60.0, statuses)
    halved = halves.unfolded(sharedcolumn.doubled(columnkey.named(gridless)), names.find)
    beside = sidebyside.unfolded(halved, statuses)
    beside = across.turned(beside, lambda name: names.score(names.bare(name)) >= 60.0)
    if (beside := dashes.told(beside, names.likely)) is not all_rows:
        all_rows = beside
        split_rows(all_rows)
    namedcolumn.adopt(all_rows, names.listed)
    heavylist.adopt(all_rows, names.listed)
    known = namelist.known(names)

    def is_name(name: str) -> bool:
        return known(name := names.bare(name)) or (len(name) > 5 and names.score(name) >= 85.0)

    slipplaces.adopt(all_rows, is_name)
    owncodes.adopt(all_rows, is_name, statuses)
    namedpieces.adopt(all_rows, names)
    return codefirst.in_front(all_rows, names.listed, names)


def _joined(all_rows: Sequence[Row], names: Names, width: int) -> list[Row]:
    """The rows with what was wrapped put together: paragraphs, sentences that break off, full lines of a width, entries
    with a piece in each line."""
    entries = countedentries.joined(torntypes.joined(all_rows), names.listed)
    whole = namesbelow.joined(saidbelow.joined(hearsay.marked(entries), names.find), names.listed)
    found = breaks.mended(paragraphs.join(whole, names.listed), names.listed)
    return entrylines.joined(endedentries.joined(wraps.joined(found, width, names.listed), names.listed), names.listed)


__all__ = ["in_columns", "parted", "whole_rows", "with_bare_names"]
