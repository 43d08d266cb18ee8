"""Rows of a table whose columns a head names."""

from __future__ import annotations

import re
from copy import copy
from typing import cast

from triage.intake.codes.finds import Found
from triage.intake.codes.pieces import Details, stored_values, take, take_running
from triage.intake.entries import voltplaces
from triage.intake.entries.cellanswers import answer_in
from triage.intake.entries.coderow import add, details_of, module_for, same_sender
from triage.intake.entries.shares import BREAK, is_type, share_of
from triage.intake.entries.tablecodes import (
    EMPTY,
    NUMBER,
    UNNAMED,
    codes_of,
    grouped,
    is_merged,
    is_unread,
    text_of,
    type_cell,
)
from triage.intake.entries.turns import turn
from triage.intake.lines import namelist
from triage.intake.lines.row import Cell, Row, is_empty_box
from triage.intake.naming.dittocells import is_ditto
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, phases, states, volts
from triage.intake.said.answers import answer_of_cell, reply_of
from triage.intake.said.counts import stated_count
from triage.intake.said.near import small
from triage.intake.scan.assembly import ModuleDraft
from triage.intake.scan.context import Context
from triage.intake.words.answerwords import NOTHING_SAID
from triage.intake.words.wordings import CODES
from triage.model.snapshot import StatusWord

#: Under a head such as "present?".
_YES_OR_NO: dict[str, StatusWord] = {
    **dict.fromkeys(("yes", "ja", "oui", "si", "y", "x", "true", "1", "\u2713", "\u2022"), "current"),
    **dict.fromkeys(("no", "nein", "non", "n", "false", "0"), "stored"),
}
#: Of several columns with a mark, the one that tells most about now.
_TELLS_MOST: tuple[StatusWord, ...] = ("stored", "pending", "confirmed", "current", "permanent")
_SHORT_BEHIND = lazily(r"\s?(?:\([^()]*\)|\[[^][]*\])$")
#: Columns in which the codes or the answer of a module stand.
_ANSWERS = ("answer", "status", "code", "description", "count_of_codes", "failure_type", "volts", "count")
_TELLING = ("code", "count_of_codes", "status", "answer", "reply", "description", "failure_type")


def read(context: Context, row: Row) -> None:
    """One row: its module, then its codes or its answer. The roles of the cells are set."""
    cells = row.cells or []
    roles = row.roles or ()
    by_role: dict[str, list[Cell]] = {}
    for cell, role in zip(cells, roles, strict=False):
        if role is not None:
            by_role.setdefault(role, []).append(cell)
    _scan(context, by_role)
    codes = codes_of(row, by_role)
    if not codes and voltplaces.in_cells(context, row):
        return
    name = _module_cell(context, row, by_role)
    if not codes and not name and _continues(context, row, by_role):
        return
    modules = _modules(context, row, name, codes[0] if codes else None, bool(codes))
    module = modules[0] if modules else None
    if module is None:
        context.refuse(row)
        return
    _module_values(context, row, module, by_role, bool(codes))
    if not codes:
        _answer(context, row, module, by_role)
        context.refuse(row)
        return
    context.refuse(row)
    for at, code in enumerate(codes):
        details = _details(context, row, by_role, at, codes)
        for module in modules:
            draft = add(context, module, row, code, details)
        context.open_code, context.open_row, context.tail = draft, row, ""


#: A text that begins like a code and is none that can be read.
_LIKE = lazily(r"\s*[pcbu][\s._-]*[0-9]")
#: A cell that counts the codes that follow in lines of their own.
_COUNTED = lazily(rf"\s*([1-9][0-9]?)\s+{CODES}\s*")
_FAULTY = lazily(
    r"^\s*(?:faulty|faults?|codes?|fail(?:ed)?|not ok|fehlerhaft|n\.?i\.?o\.?|fehler|defectueux|defauts?|con fallos?|"
    r"averias?)\s*[:(\[]?\s*([1-9][0-9]?)\s*[)\]]?\s*$"
)


def stands_alone(context: Context, row: Row) -> bool:
    """Whether a row under the heads of a module's codes is no part of that table: another module's name and answer."""
    cells = [cell for cell in row.cells or () if cell.text]
    if (row.kind == "gap" and len(cells) > 1 and not row.finds.codes and answer_of_cell(row.low) is not None
            and answer_of_cell(row.low[cells[1].start :].strip(" -")) is None):
        # "No trouble  codes found": the gap is a slip; "COM  -  no codes" and "FAR  -  inaccessible" are two cells.
        return True
    roles = row.roles or ()
    kinds = [_of_scans(cell) for cell in cells if "scan" not in roles and "date" not in roles]
    if all(kinds) and kinds.count(1) == 1 and (len(kinds) > 1 or phases.scan_head(cells[0].low)):
        # "Scan 2 | 04.07.2023 10:41", above the heads once more, or a cell across all columns
        return True
    if row.finds.codes and "module" in roles and "code" not in roles:
        # Below "01  Engine  2 faults", further right: a code where this table has none.
        first = cells[0].start if cells else 0
        return row.finds.codes[0].start == first and (row.kind != "gap" or row.line.indent > 0)
    named = next((cell.low for cell, role in zip(row.cells or (), roles, strict=False) if role == "module"), "")
    if len(cells) != 2 or row.finds.codes or ("module" in roles and answer_of_cell(named) is None):
        return False
    name, said = cells
    counted = stated_count(said.low)
    return (
        (answer_of_cell(said.low) is not None or (counted is not None and not counted[1]))
        and answer_of_cell(name.low) is None
        and states.of_cell(name.low, context.translated) is None
        and name.start == 0 and has_letter(name.text)
        and (context.open_row is None or row.line.indent <= context.open_row.line.indent)
    )


def _of_scans(cell: Cell) -> int:
    """1 for a cell that names a scan, 2 for its date, its time or its voltage, 0 for any other."""
    if phases.find(cell.low) or phases.scan_head(cell.low):
        return 1
    told = dates.may_stand_in(cell.low) or dates.clock(cell.low) or volts.find(cell.low)
    return 2 if told and len(cell.low) <= 24 else 0


def _scan(context: Context, by_role: dict[str, list[Cell]]) -> None:
    """A column that says which scan the row is of: a new one where it changes."""
    if told := [cell.low for cell in by_role.get("scan", ()) if cell.low.strip() not in EMPTY]:
        turn(context, *told)


def _module_cell(context: Context, row: Row, by_role: dict[str, list[Cell]]) -> Cell | None:
    """The filled cell that names the module; of several the one that is a listed name."""
    above = context.builder.module is not None
    cells = [cell for cell in by_role.get("module", ()) if tidy(cell.text) and has_letter(cell.text)
             and not (above and is_ditto(cell.low))]
    if len(cells) > 1:
        return max(cells, key=lambda cell: context.names.score(tidy(cell.text)))
    return cells[0] if cells else None


def _continues(context: Context, row: Row, by_role: dict[str, list[Cell]]) -> bool:
    """A row with neither module nor code goes on with the description, or the status, of the row above."""
    draft = context.open_code
    if draft is None:
        return not any(text_of(by_role, role) for role in ("answer", "reply", "count_of_codes", "status"))
    text = " ".join(cell.text for cell in by_role.get("description", ()) if cell.text)
    if text:
        draft.text = f"{draft.text} {text}" if draft.text else text
    if draft.status is None:
        draft.status = states.of_cell(text_of(by_role, "status"), context.translated, context.legend)
    return True


def _modules(context: Context, row: Row, name: Cell | None, code: Found | None, coded: bool) -> list[ModuleDraft]:
    """The module of the row (several where its cell lists them): its own cell, else that of the row above where the
    table has such a column."""
    if name is not None:
        context.under_heading = False
        places = [(name.start, name.end)]
        if coded and not any(map(context.names.listed, (named := tidy(name.text), _SHORT_BEHIND.sub("", named)))):
            several = namelist.several(row, places[0], namelist.known(context.names))
            # "Ramp and kneeling" in a cell is one name, "Ramp and Doors" are two.
            cased = {row.text[start].isupper() for start, _ in several}
            places = several if several and (len(cased) == 1 or name.text[:2].isupper()) else places
        return [
            context.builder.name_module(
                context.names.bare(" ".join(tidy(row.text[start:end]).split())),
                row.line, row.start + start, row.start + end,
            )
            for start, end in places
        ]
    if coded and code is not None and code.source_address is not None and not context.under_heading and not (
            same_sender(context, code) or is_merged(context, row)):
        # Each row tells who sent its code: the module of the row above is not this one's.
        sender = f"source address {code.source_address}"
        return [context.builder.name_module(sender, row.line, row.start + code.start, row.start + code.end)]
    if coded:
        return [module_for(context, row, code)]
    return [context.builder.module] if context.builder.module is not None else []


def _module_values(
    context: Context, row: Row, module: ModuleDraft, by_role: dict[str, list[Cell]], coded: bool
) -> None:
    """Voltage of the module, and the count of codes that the table states."""
    low = text_of(by_role, "volts")
    match = NUMBER.search(low)
    if match is not None and (len(low) <= 12 or volts.find(low)):
        value = float(match[1].replace(",", ".")) / (1000 if "mv" in low else 1)
        stored = coded and any(role in by_role for role in ("odometer", "rpm"))
        if stored and context.builder.code is not None:
            context.pending_freeze_volts = value
        else:
            if not stored:
                cell = by_role["volts"][0]
                context.builder.snapshot.column_volts.append(value)
                context.volts_seen.append((value, row, volts.Volt(cell.start, cell.end, value, "supply", True)))
            if _is_of_the_scan(context, row, by_role) and 3.0 <= value <= 36.0:
                context.builder.snapshot.row_volts.add(value)
            module.volts = value if module.volts is None else module.volts
    match = NUMBER.search(text_of(by_role, "lowest_volts"))
    if match is not None:
        volt = volts.Volt(0, 0, float(match[1].replace(",", ".")), "lowest", True)
        voltplaces.to_snapshot(context.builder.snapshot, volt)
    for role in ("count_of_codes", "code"):
        number = text_of(by_role, role).strip()
        if number.isdigit() and len(number) <= 3 and not coded:
            module.stated = (int(number), row.line, row.start, row.start + len(row.text))
            if int(number) == 0 and module.answer is None:
                module.answer = "clean"


def _is_of_the_scan(context: Context, row: Row, by_role: dict[str, list[Cell]]) -> bool:
    """Whether the voltages of a table may be those of its scans: a column tells the scan or its time, or they stand
    before the modules."""
    if any(role in by_role for role in ("odometer", "rpm", "speed", "coolant")):
        return False
    if "scan" in by_role or context.at in context.row_times:
        return True
    return "module" in by_role and by_role["volts"][0].start < by_role["module"][0].start


def _answer(context: Context, row: Row, module: ModuleDraft, by_role: dict[str, list[Cell]]) -> None:
    """What a module without a code in its row did: the wording may stand in any column."""
    # "None" in a column of replies is silence, and no empty cell.
    reply = next((reply_of(cell.low) for cell in by_role.get("reply", ()) if _says(cell)), None)
    if reply is not None and reply != "clean":
        context.builder.answer(module, reply)
        return
    places = () if is_unread(by_role) else _ANSWERS  # "answered | 1976 pump relay" is anything but clean
    for role in places:
        for cell in by_role.get(role, ()):
            answer = answer_in(cell, role) if _says(cell) else None
            if answer == "clean" and role == "code":
                # "none | no response from module": it has none to give.
                beside = (answer_of_cell(other.low) for other in by_role.get("description", ()) if _says(other))
                answer = next((each for each in beside if each is not None), answer)
            if answer is not None:
                context.builder.answer(module, answer)
                return
    for cell in row.cells or () if places else ():
        answer = answer_of_cell(cell.low) if _says(cell) else None
        if answer is not None:
            context.builder.answer(module, answer)
            return
    if reply is not None and places:
        context.builder.answer(module, reply)
        return
    told = [cell for role in _TELLING for cell in by_role.get(role, ())]
    known = bool(module.codes) or module.answer is not None or module.stated is not None
    if known:
        # A code may be meant all the same.
        told = [cell for cell in by_role.get("code", ()) if module.codes and _LIKE.match(cell.low)]
    filled = [cell for cell in told if cell.low.strip() not in EMPTY]
    said = next(
        (cell for cell in filled if _says(cell)),
        next((cell for cell in filled if answer_of_cell(cell.low) is None), None),
    )
    count = None if said is None or known else _FAULTY.search(said.low) or _COUNTED.fullmatch(said.low)
    if said is not None and count is not None:
        # "1 fault", "faulty (2)": the codes follow.
        module.stated = (int(count[1]), row.line, row.start + said.start, row.start + said.end)
        return
    if said is not None:
        module.unclear = True
        context.builder.notice(
            "warning",
            f"{module.printed}: {said.text!r} is neither a code nor an answer: not read; write the code, "
            '"no codes" or "no answer"',
            row.line,
            row.start + said.start,
            row.start + said.end,
        )
    elif not known and any(cell.text.strip() for cell in told):
        # A dash where the codes of other modules stand; "n/a" in all places is said of what is not there.
        absent = any(cell.text and not _says(cell) and answer_of_cell(cell.low) == "not fitted" for cell in told)
        context.builder.answer(module, "not fitted" if absent else "clean")


def _says(cell: Cell) -> bool:
    """Whether a cell is filled, and with more than that there is nothing to say."""
    low = cell.low.strip()
    return bool(low) and low not in NOTHING_SAID


def _details(context: Context, row: Row, by_role: dict[str, list[Cell]], at: int, codes: list[Found]) -> Details:
    """What the other columns say of one code of the row, and what stands beside it in its own cell."""
    code = codes[at]
    details = Details()
    has_type = code.failure_type is not None
    own = next((cell for cell in row.cells or () if cell.start <= code.start < cell.end), None)
    if own is not None:
        following = [other.start for other in codes if other.start > code.start]
        inside = row.text[code.end : min([own.end, *following])].rstrip(" ,;/+")
        if inside.strip(" ,;/()-"):
            details = copy(details_of(context, [BREAK.sub("  ", inside)], has_type))
            details.texts, details.freeze = list(details.texts), dict(details.freeze)
    if (beside := grouped(row, by_role, code)) is not by_role and own is not None:
        by_role, codes = beside, [other for other in codes if own.start <= other.start < own.end]
        at = codes.index(code)
    shares = (len(codes), at) if len(codes) > 1 else (1, 0)
    details.status = details.status or _flagged(context, row, code)
    for cell in filter(_says, by_role.get("failure_type", ())):
        type_cell(context, details, share_of(cell.text, shares, is_type), has_type)
    for cell in by_role.get("status", ()):
        text = share_of(cell.text, shares, lambda low: states.of_cell(low, context.translated, context.legend))
        status = states.of_cell(small(text), context.translated, context.legend) or _YES_OR_NO.get(small(text).strip())
        if status is not None:
            details.status = status
        elif _says(cell):
            rest = take_running(details, text, small(text), context.translated, True)
            if details.status is None or rest != text:
                take(Details() if details.status else details, rest, small(rest), following=False, has_type=True)
    _more(context, row, by_role, details, has_type, shares)
    if context.pending_freeze_volts is not None:
        details.freeze["volts"] = context.pending_freeze_volts
        context.pending_freeze_volts = None
    return details


def _flagged(context: Context, row: Row, code: Found) -> StatusWord | None:
    """The status by the columns that are named by one: the code stands in it, or a mark or "yes" does."""
    flags = [
        (cast("StatusWord", role[5:]), cell)
        for cell, role in zip(row.cells or (), row.roles or (), strict=False)
        if role is not None and role.startswith("flag ")
    ]
    if context.translated and "current" not in dict(flags):
        flags = [("current" if status == "permanent" else status, cell) for status, cell in flags]
    for status, cell in flags:
        if cell.start <= code.start < cell.end:
            return status
    told = {status: _YES_OR_NO.get(cell.low.strip()) for status, cell in flags if not is_empty_box(row, cell)}
    said = [status for status, answer in told.items() if answer == "current"]
    if said:
        return max(said, key=_TELLS_MOST.index)
    if len(flags) == 1:
        status, cell = flags[0]
        whole = states.of_cell(cell.low, context.translated, context.legend)
        return whole or ("stored" if status == "current" and told.get(status) == "stored" else None)
    return None


def _more(
    context: Context, row: Row, by_role: dict[str, list[Cell]], details: Details, has_type: bool,
    shares: tuple[int, int],
) -> None:
    """Status byte, count, stored values, answer column used as status, description, and columns no head explains."""
    byte = re.fullmatch(r"(?:0x|\$)?([0-9a-f]{2})h?", text_of(by_role, "status_byte").strip())
    if byte is not None:
        details.status_byte = int(byte[1], 16)
    count = text_of(by_role, "count").strip(" x")
    if count.isdigit():
        details.count = int(count)
    for role, name in (
        ("odometer", "distance_km"),
        ("rpm", "engine_rpm"),
        ("speed", "speed_kmh"),
        ("coolant", "coolant_c"),
        ("volts_at_fault", "volts"),
    ):
        low = text_of(by_role, role)
        match = NUMBER.search(low)
        if match is not None:
            value = float(match[1].replace(",", "."))
            details.freeze[name] = stored_values(low).get(name, value)
    for role in ("answer", "reply", "date", "scan"):
        status = states.of_cell(text_of(by_role, role), context.translated, context.legend) if role in by_role else None
        details.status = details.status or status
    described = filter(_says, by_role.get("description", ()))
    told = [share_of(cell.text, shares) for cell in described if cell.text.strip(" -")]
    details.texts += told
    doubtful = context.style.doubtful_states and "status" not in by_role
    for text in told if details.status is None else ():
        take_running(details, text, small(text), context.translated, doubtful)
    roles = row.roles or ()
    for cell, named in zip(row.cells or (), roles, strict=False):
        # What stands beside the code in its own cell was read with it.
        holds = any(cell.start <= code.start < cell.end for code in row.finds.codes)
        if named is None and cell.text and not holds and cell in by_role.get(UNNAMED, (cell,)):
            take(details, cell.text, cell.low, following=False, has_type=has_type, translated=context.translated,
                 legend=context.legend)
