"""The passes over the lines of a text, before they are cut into rows: whole words and names, codes in digits, keys in
place of other marks, what the layout of a page tells written out. Their order is here and nowhere else."""

from __future__ import annotations

from collections.abc import Sequence

from code_tables import Tables
from triage.intake.lines import (
    namegaps,
    spacing,
)
from triage.intake.naming import IsName
from triage.intake.naming.names import Names, listed_words
from triage.intake.plain import delimiters
from triage.intake.plain.characters import Line
from triage.intake.tidying import (
    alikecodes,
    answerboxes,
    answerlabels,
    atsigns,
    blocks,
    cellsbelow,
    codemarks,
    columnnames,
    countsahead,
    dictated,
    dittos,
    dottedkeys,
    doublespaced,
    eitherway,
    framednames,
    gluedwords,
    heavylist,
    jointnames,
    jsonpairs,
    keyarrows,
    keysections,
    labelledaddresses,
    lastnames,
    listkeys,
    lonecells,
    loosely,
    lostcolumns,
    makersown,
    namedlists,
    namemarks,
    namesagain,
    namesincells,
    ownlists,
    paddedheads,
    pairednames,
    phaseslips,
    plainecu,
    plurals,
    printcolumns,
    quotedbreaks,
    quotednames,
    runningleads,
    saidnumbers,
    scanbreaks,
    scannumbers,
    sectionnumbers,
    sectionrows,
    slotnames,
    smallnumbers,
    soistoo,
    speechfillers,
    splitcodes,
    spokencodes,
    spokenmarks,
    statusbrackets,
    statuscounts,
    statusslips,
    subjectless,
    tabbedkeys,
    teststeps,
    tightcommas,
    toldagain,
    tornrows,
    tornwords,
    wrappedcells,
    wrappedlefts,
    xmlkeys,
)
from triage.model.snapshot import StatusWord


def scans_told(found: Sequence[Line], is_name: IsName) -> tuple[Sequence[Line], list[Line]]:
    """The lines with the scans headed that only their lists tell, and the lines that were taken for such heads."""
    whole, parted = scanbreaks.told(found, is_name)
    return (whole, parted) if len(whole) > len(found) or parted else toldagain.told(whole, is_name)


def laid_out(found: Sequence[Line], names: Names) -> tuple[list[Line], StatusWord | None]:
    """The lines with what their layout tells written out: dittos, cells, columns of a page, boxes, the marks of a key;
    and the status of the codes that such a key leaves unmarked."""
    found = namemarks.told(phaseslips.spaced(found), lambda name: names.likely(names.bare(name)))
    found = tabbedkeys.coloned(paddedheads.bare(teststeps.told(found)))
    found = quotednames.bare(dittos.repeated(found), lambda name: names.score(names.bare(name)) >= 60.0)
    found = labelledaddresses.left_out(wrappedcells.joined(quotedbreaks.closed(found)))
    found = namesincells.parted(found, lambda name: names.likely(names.bare(name)))
    whole = tornrows.joined(wrappedlefts.joined(found, names.listed))
    whole = jsonpairs.laid_out(doublespaced.closed(whole))
    whole = listkeys.told(whole, names.likely)
    whole = delimiters.unstroked(delimiters.unquoted(delimiters.unbranched(whole)))
    whole = countsahead.behind(lonecells.bared(delimiters.barred(whole)))
    cut = printcolumns.below(whole, lambda name: names.likely(names.bare(name)))
    paired = heavylist.written_out(sectionnumbers.set_in(cut), names.likely)
    parted = lostcolumns.tabbed(paired, lambda name: names.score(names.bare(name)) >= 60.0)
    marked, unmarked = codemarks.told(answerboxes.told(sectionrows.headed(parted)))
    return list(marked), unmarked


def keyed(found: Sequence[Line], names: Names) -> tuple[Sequence[Line], list[spacing.Respaced]]:
    """The lines with digits for look-alike letters, keys in place of other marks and makers' own numbers told, and what
    was read where."""
    digits, alike = alikecodes.written(gluedwords.behind_spaced(statusbrackets.told(found)))
    keyed = xmlkeys.written_out(dottedkeys.written_out(
        keysections.named(smallnumbers.written(digits)), names.listed), names.listed)
    own = makersown.marked(keyarrows.written_out(keyed), names)
    return ownlists.marked(saidnumbers.marked(own, names), names), alike


def with_whole_names(
    whole: Sequence[Line], names: Names, tables: Tables
) -> tuple[Sequence[Line], list[spacing.Respaced], list[spacing.Respaced]]:
    """The lines with every word and name in one piece, and what was closed or opened for that."""
    found = dictated.joined(spacing.single(statuscounts.left_out(answerlabels.shortened(plurals.closed(whole)))))
    found = runningleads.told(speechfillers.left_out(found), names)
    found = tornwords.joined(found, listed_words(tables).__contains__)

    def is_name(name: str) -> bool:
        return names.score(names.bare(name)) >= 60.0 or plainecu.alone(name)

    found = blocks.parted(cellsbelow.in_rows(found, is_name), is_name)
    found, respaced, unread = _respaced(namegaps.closed(found, names.listed), names)
    found = slotnames.adopted(namesagain.adopted(pairednames.adopted(found, names), names), names)
    found = framednames.adopted(columnnames.adopted(jointnames.adopted(found, names), names), names)
    found = plainecu.named(found, names)
    return found, respaced, unread


def _respaced(found: Sequence[Line], names: Names) -> tuple[list[Line], list[spacing.Respaced], list[spacing.Respaced]]:
    """The lines with the codes in digits that were dictated, those closed that a space stands in, and opened what is
    written without one; what was read where, and what was dictated and can't be told."""
    found, spoken, unread = spokencodes.written(tightcommas.opened(found))
    found = subjectless.joined(scannumbers.parted(found, names.find), names.find)
    found = soistoo.written_out(spokenmarks.written(loosely.written_out(found, names), names.find), names.find)
    found = lastnames.written_out(atsigns.written_out(found, names.likely), names.listed)
    opened, glued = gluedwords.opened(found, names.sure)
    closed, split = splitcodes.closed(opened, names.sure)
    mended = eitherway.told(phaseslips.mended(statusslips.mended(namedlists.told(closed), names.listed)))
    return list(mended), [*spoken, *glued, *split], unread


__all__ = ["keyed", "laid_out", "scans_told", "with_whole_names"]
