"""From drafts to the model: names to canonical names, voltages judged together, counts held against what was read."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from triage.intake import nominalsupply
from triage.intake.entries import furthervolts, goneonly
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.said import complained, conditioned, fleet, vehiclekind
from triage.intake.said.answers import spoken
from triage.intake.said.near import small
from triage.intake.scan.assembly import NOT_STATED, CodeDraft, ModuleDraft, SnapshotDraft
from triage.intake.scan.context import Context
from triage.model.notices import SEVERAL_VEHICLES, TWO_NUMBERS
from triage.model.session import Event, Vehicle
from triage.model.snapshot import Phase, Reading, SinceClear, Snapshot

#: A match below this, or with a rival this near, is said to be in doubt (scale of triage.intake.naming.modules).
SURE, NEAR = 90.0, 4.0


def snapshots(context: Context) -> list[Snapshot]:
    """The snapshots of the text, without those in which nothing was read."""
    # Scans that took turns stand in the order in which they began.
    context.builder.snapshots.sort(key=lambda draft: draft.number)
    nominalsupply.judge(context)
    said: set[str] = set()
    found = []
    _fill_rest(context)
    _keep_measured(context.builder.snapshots)
    goneonly.answer(context, context.builder.snapshots)
    for draft in context.builder.snapshots:
        _drop_hollow(context, draft)
        if draft.empty and not context.saw_scan:
            continue
        if draft.empty and any(not other.empty for other in context.builder.snapshots):
            continue
        found.append(_snapshot(context, draft, said))
    _check_totals(context)
    return found


def _keep_measured(drafts: list[SnapshotDraft]) -> None:
    """What was measured where no module was read ("Tuesday 7 am: draw 0.8 A") goes with the scan before, or the first;
    a voltage of the supply holds for its own moment only."""
    kept = [draft for draft in drafts if not draft.empty]
    for draft in drafts if kept else ():
        if draft.empty and draft.readings:
            above = [other for other in kept if drafts.index(other) < drafts.index(draft)]
            (above[-1] if above else kept[0]).readings.extend(
                reading for reading in draft.readings if not furthervolts.is_of_supply(reading.name))


def _fill_rest(context: Context) -> None:
    """Where the text says that everything else is clean: the modules that answered in a scan before have no codes."""
    answered: dict[str, ModuleDraft] = {}
    before: Phase | None = None
    above: dict[str, ModuleDraft] = {}
    for draft in context.builder.snapshots:
        ran = (draft.said.ran_minutes or 0) > 0 or draft.said.drove
        before_and_now = (before, draft.phase)
        if ran and before_and_now in (("after-clear", "after-clear"), ("after-clear", None), ("after-run", None)):
            # Several scans after one clear, from the second on each after a run.
            draft.phase = "after-run"
        before = draft.phase
        named = {_canonical(context, module): module for module in draft.modules.values()}
        if draft.like_above is not None:
            _take_over(context, draft, draft.like_above, above, named)
            named = {_canonical(context, module): module for module in draft.modules.values()}
        above = named if not draft.empty else above
        if draft.rest_clean is not None:
            # A code under a name that nobody held it by may be of the module that did.
            loose = {code.code for name, module in named.items() if name not in answered for code in module.codes}
            others = {name: module for name, module in answered.items() if name not in named
                      and loose.isdisjoint(code.code for code in module.codes)}
            for module in others.values():
                draft.modules[module.printed] = replace(
                    module, codes=[], by_number={}, answer="clean", stated=None, volts=None, unclear=False
                )
            told = (f"no codes are taken for the {len(others)} modules that answered before and are not named here"
                    if others else "modules not named here are not entered one by one")
            context.builder.notice("note", told, *draft.rest_clean)
        answered |= {name: module for name, module in named.items() if module.answer != "silent" or module.codes}


def _take_over(context: Context, draft: SnapshotDraft, place: tuple[Line, int, int], above: dict[str, ModuleDraft],
               named: dict[str, ModuleDraft]) -> None:
    """Give a scan the codes of the one before, in the modules that are not named in it; their status is not told."""
    taken = {name: module for name, module in above.items() if name not in named and module.codes}
    for module in taken.values():
        codes = [replace(code, status=None, status_byte=None, count=None, freeze={}) for code in module.codes]
        draft.modules[module.printed] = replace(module, codes=codes, by_number={}, indexed=0, answer=None, stated=None,
                                                volts=None, unclear=False)
    context.builder.notice("note", f"the codes of {len(taken)} modules are taken over from the scan before, without "
                           "their status: write them out if another scan is meant", *place)


def _canonical(context: Context, module: ModuleDraft) -> str:
    """The canonical name; a printed name that nobody knows is its own, as it was written."""
    return module.canonical or context.names.as_written(context.names.match(module.printed).canonical)


def _snapshot(context: Context, draft: SnapshotDraft, said: set[str]) -> Snapshot:
    """One draft as a snapshot of the model."""
    have = draft.said
    for change in reversed(draft.changes):
        have.outside_supply = have.outside_supply or change.outside_supply
        have.engine = have.engine or change.engine
    since = None
    if any(value is not None for value in (have.warm_ups, have.distance_km, have.minutes)):
        since = SinceClear(warm_ups=have.warm_ups, distance_km=have.distance_km, minutes=have.minutes)
    if draft.volts is None and draft.phase is not None:
        draft.volts = context.supply_by_phase.get(draft.phase)
    if draft.volts is None and draft.by_engine is not None:
        _volts_by_engine(context, draft)
    if draft.volts is None:
        draft.volts = draft.end_volts
    if draft.volts is None:
        _common_volts(draft)
    if draft.volts is None and len(draft.row_volts) == 1:
        draft.volts = next(iter(draft.row_volts))
    nominalsupply.set_right(context, draft)
    _own_names(context, draft)
    of_all = draft.of_all or context.unmarked
    for code in [code for module in draft.modules.values() for code in module.codes] if of_all else ():
        if code.status is None and code.status_byte is None:
            code.status = of_all
    modules = [_module(context, module, said) for module in draft.modules.values()]
    names = {module.printed: scan["module"] for module, scan in zip(draft.modules.values(), modules, strict=True)}
    readings = [
        reading.model_copy(update={"module": reading.module and names.get(reading.module, reading.module),
                                   "name": context.names.as_written(reading.name)})
        for reading in draft.readings
    ]
    # In one go: a call of the model for every code would take as long as reading it.
    return Snapshot.model_validate(
        {
            "phase": draft.phase,
            "at": draft.at,
            "engine": have.engine,
            "ran_minutes": have.ran_minutes,
            "drove": have.drove,
            "max_speed_kmh": have.max_speed_kmh,
            "coolant_c": have.coolant_c,
            "volts": draft.volts,
            "lowest_volts": draft.lowest,
            "low_seconds": have.low_seconds,
            "outside_supply": have.outside_supply,
            "lamps": have.lamps,
            "lists_read": have.lists_read or None,
            "since_clear": since,
            "readiness": draft.readiness,
            "modules": modules,
            "readings": readings or None,
        }
    )


def _volts_by_engine(context: Context, draft: SnapshotDraft) -> None:
    """Of two readings, with the engine off and running, that of the engine during the scan; where nothing tells it, the
    one with the engine off, and that it was taken so."""
    if draft.by_engine is None:
        return
    both, line = draft.by_engine
    if draft.said.engine in (None, "unknown"):
        draft.said.engine = "off"
        context.builder.notice(
            "note", f"{both.off:g} V with the engine off, {both.running:g} V running: taken as read with it off; say "
            "which the scan was read with", line, 0, len(line.text))
    draft.volts = both.running if draft.said.engine == "running" else both.off
    if draft.volts != both.running:
        draft.readings.append(Reading(name="voltage running", value=both.running, unit="V"))


def _own_names(context: Context, draft: SnapshotDraft) -> None:
    """A word that names a module in this text alone is no second name of one that stands beside it, the engine's
    control unit holds no codes of the body or the chassis, and with no other module named it may be of any: then it is
    kept as printed."""
    own = [module for module in draft.modules.values() if context.names.is_own(module.printed)]
    if not own:
        return
    others = [
        _canonical(context, module) for module in draft.modules.values() if not context.names.is_own(module.printed)
    ]
    alone = not others and not any(
        module.printed != NOT_STATED and not context.names.is_own(module.printed)
        for other in context.builder.snapshots for module in other.modules.values()
    )
    for module in own:
        meant = _canonical(context, module)
        if alone or meant in others or any(code.code[:1] in "BC" for code in module.codes):
            module.canonical = context.names.as_written(module.printed)
            _doubt(context, module, False, 0.0, "", meant, 0.0)


def _common_volts(draft: SnapshotDraft) -> None:
    """One voltage printed beside every module is the vehicle's, and so is a single one behind the last."""
    last = next(reversed(draft.modules.values()), None)
    if last is not None and last.volts_in_line and sum(m.volts is not None for m in draft.modules.values()) == 1:
        draft.volts, last.volts = last.volts, None
        return
    values = [module.volts for module in draft.modules.values() if module.volts is not None]
    rows = draft.column_volts
    # A table says it in each of its rows, of one module or of many.
    first = next(iter(draft.modules.values()), None)
    alone = len(rows) == 1 and draft.volts is None and len(draft.modules) > 2
    if first is not None and alone and (not values or (len(values) == 1 and first.volts is not None)):
        # Merged cells of a column: told beside the first row alone, which may be of a module that is left out.
        draft.volts, first.volts = rows[0], None
        return
    in_rows = len(rows) > 1 and len({*rows, *values}) == 1 and 2 * len(rows) >= len(draft.modules)
    if in_rows or (len(values) >= 3 and len(set(values)) == 1 and len(values) >= 0.8 * len(draft.modules)):
        # Of rows whose modules are left out the column alone tells it.
        draft.volts = (values or rows)[0]
        for module in draft.modules.values():
            module.volts = None


def _module(context: Context, draft: ModuleDraft, said: set[str]) -> dict[str, object]:
    """One module as :class:`ModuleScan` takes it: its canonical name, with a notice where that is in doubt."""
    if draft.printed == NOT_STATED:
        canonical, printed = draft.canonical or NOT_STATED, None
    elif draft.canonical is not None:
        canonical, printed = draft.canonical, draft.printed
    else:
        match = context.names.match(draft.printed)
        canonical, printed = match.canonical, draft.printed
        if printed not in said:
            said.add(printed)
            _doubt(context, draft, match.known, match.score, match.canonical, match.second, match.second_score)
    silent = draft.answer == "silent" and not draft.codes
    if draft.answer == "silent" and draft.codes:
        context.builder.notice(
            "warning",
            f"{draft.printed}: said to be silent, and codes stand under it: taken as answering",
            draft.line,
            draft.start,
            draft.end,
        )
    if draft.stated is not None and draft.stated[0] != len(draft.codes) and not silent:
        number, line, start, end = draft.stated
        context.builder.notice(
            "warning",
            f"{draft.printed}: the text says {_codes(number)}, {_codes(len(draft.codes))} read",
            line,
            start,
            end,
        )
    return {
        "module": canonical,
        "printed": printed and context.names.as_written(printed),
        "responds": not silent,
        "volts": draft.volts,
        "status_mask": draft.status_mask,
        "codes": [_code(context, code) for code in draft.codes],
    }


def _codes(number: int) -> str:
    return "1 code" if number == 1 else f"{number} codes"


def _doubt(
    context: Context,
    draft: ModuleDraft,
    known: bool,
    score: float,
    canonical: str,
    second: str | None,
    second_score: float,
) -> None:
    """A notice where the name is unknown, or could be another module's."""
    if not known:
        near = f"; nearest is {second}" if second else ""
        message = f"{draft.printed}: no module of this name is known: kept as printed{near}"
    elif second is not None and score - second_score < NEAR:
        message = f"{draft.printed}: taken as {canonical}; could be {second}"
    elif score < SURE:
        message = f"{draft.printed}: taken as {canonical}" + (f"; could be {second}" if second else "")
    else:
        return
    context.builder.notice("note", message, draft.line, draft.start, draft.end)


def _code(context: Context, draft: CodeDraft) -> dict[str, object]:
    """One code as :class:`CodeEntry` takes it."""
    return {
        "code": draft.code,
        "failure_type": draft.failure_type,
        "status": draft.status,
        "status_byte": draft.status_byte,
        "count": draft.count,
        "text": draft.text and context.names.as_written(draft.text),
        "freeze_frame": draft.freeze or None,
    }


def _drop_hollow(context: Context, draft: SnapshotDraft) -> None:
    """Headings that turned out to be none: a guessed name with nothing below, a summary line of a module told later."""
    for key, module in list(draft.modules.items()):
        if module.codes or module.answer is not None:
            continue
        if module.volts is not None and not module.unclear and _canonical(context, module) == "generator":
            # "Alternator 14.4 V" with nothing below it: what it gave was the supply, where nothing else tells that.
            draft.end_volts = draft.end_volts or module.volts
            del draft.modules[key]
            continue
        sure = module.unclear or (not module.guessed and context.names.score(module.printed) >= 90.0)
        if sure and module.stated is None:
            # A name with nothing understood below it says neither that the module is clean nor that it is silent.
            why = "what is said of it is not understood" if module.unclear else "nothing is said of it"
            context.builder.notice(
                "warning" if module.unclear else "note",
                f"{module.printed}: {why}: left out of the scan; write its codes, \"no codes\" or \"no answer\"",
                module.line,
                module.start,
                module.end,
            )
            del draft.modules[key]
            draft.left_out.append(module.printed)
            if not module.unclear and not any(other.volts is not None for other in draft.modules.values()):
                # A voltage below a line that looked like a name was read of the vehicle as much as of that.
                draft.end_volts = draft.end_volts or module.volts
            continue
        if module.stated is not None and module.stated[0] > 0:
            canonical = context.names.match(module.printed).canonical
            others = [other for other in draft.modules.values() if other is not module and other.codes]
            if any(context.names.match(other.printed).canonical == canonical for other in others):
                del draft.modules[key]
            continue
        if module.guessed or context.names.score(module.printed) < 90.0:
            del draft.modules[key]


def _check_totals(context: Context) -> None:
    """Totals the text states, held against all codes read in the text or in one of its snapshots."""
    counts = [sum(len(module.codes) for module in draft.modules.values()) for draft in context.builder.snapshots]
    for number, line, start, end in context.builder.restated:
        if number not in counts and number != sum(counts):
            context.builder.notice(
                "warning", f"the text says {_codes(number)} in all, {_codes(sum(counts))} read", line, start, end
            )


def vehicle(context: Context) -> Vehicle | None:
    """What was said of the vehicle, or None."""
    values = context.builder.vehicle | context.facts.values
    told = [at for at, row in enumerate(context.rows) if not row.blank and (row.finds.codes or spoken(row.low))]
    if several := fleet.named([row.low for row in context.rows], told):
        context.builder.notice(
            "warning", f"{len(several)} {SEVERAL_VEHICLES} ({', '.join(several)}): a list of one is no evidence on "
            "another; give them one at a time, each with its own scans")
    if len(context.facts.vins) > 1:
        context.builder.notice(
            "warning",
            f"{len(context.facts.vins)} {TWO_NUMBERS}: {' and '.join(context.facts.vins[:3])}; taken as one vehicle, "
            "the first: take out what is not of this vehicle, unless a used part brought its number along",
        )
    wrong, when = _complained(context)
    if complaint := conditioned.conditioned(complained.joined(values.get("complaint"), wrong), when):
        values["complaint"] = complaint
    if "drive" not in values and any(
            not row.finds.codes and vehiclekind.is_electric(small(row.line.text)) for row in context.rows):
        values["drive"] = "electric"
    return Vehicle(**{key: _written(context, value) for key, value in values.items()}) if values else None


_CODE = lazily(r"(?<![A-Za-z0-9])(?:[PCBUpcbu][0-3][0-9A-Fa-f]{3}(?![A-Za-z0-9])|SPN)")


def _complained(context: Context) -> tuple[list[str], list[str]]:
    """What is said to be wrong with the vehicle above the first list, and the conditions told beside it."""
    lists = {module.line.number for draft in context.builder.snapshots for module in draft.modules.values()}
    found: list[str] = []
    when: list[str] = []
    for row in context.rows if lists else ():
        if not row.finds.codes and ((row.line.number in lists and spoken(row.low)) or row.line.number > max(lists)):
            break
        # A list may begin in the line that tells what is wrong.
        said = _CODE.split(row.line.text, maxsplit=1)[0] if row.finds.codes else row.line.text
        found += complained.clauses(said)
        when += conditioned.conditions(said)
        if row.finds.codes:
            break
    return found, when


def events(context: Context) -> list[Event]:
    """What was done to the vehicle, as the text tells it."""
    return [Event(**{key: _written(context, value) for key, value in event}) for event in context.builder.events]


def _written(context: Context, value: Any) -> Any:
    return context.names.as_written(value) if isinstance(value, str) else value
