"""Prose: "cluster has U0100 and U0140 stored, brakes did not answer, battery 10.7".

:mod:`triage.intake.clauses` tells which names each code and answer is of; here it is decided whether a row is a
sentence at all, and what it says is put into the snapshot.
"""

from __future__ import annotations

import re

from triage.intake import engine_state, metarow, phases, states, volts
from triage.intake.answers import apply_answer
from triage.intake.assembly import ModuleDraft
from triage.intake.clause_words import (
    BACK_FILL,
    LED,
    PIECE,
    SLOT_END,
    STATUS_LEAD,
    VERB,
    clause_end,
    subject_of,
)
from triage.intake.clauses import Item, cut
from triage.intake.coderow import NOT_STATED, add, module_for
from triage.intake.context import Context
from triage.intake.found import Found
from triage.intake.layouts import Row
from triage.intake.linking import strip_links, trailing_status
from triage.intake.names import tidy
from triage.intake.near import small
from triage.intake.phrases import covered
from triage.intake.pieces import Details, soft_pieces, take
from triage.intake.style import shape_of
from triage.intake.vocabulary import STATES
from triage.model.snapshot import StatusWord

#: What a sentence has and few lines of a list: a verb, a word that leads to a name, a clause's end, an answer.
_SIGNS = re.compile(
    r"(?<![a-z])(?:in|from|im|aus|dans|en|on|has|have|had|hat|haben|show\w*|came|log\w*|got|found|steht|meldet|"
    r"zeigt|a|"
    r"ont|affiche|tiene|muestra|gave|report\w*|no|not|did\w*|won|could\w*|can\w*|ok|clean|fine|silent|dead|"
    r"nothing|keine?|"
    r"nicht|antwort\w*|ohne|pas|aucun|sans|ne|sin|and|und|et|y|skipped|with|at|koe[or]|eng\w*|motor|moteur)(?![a-z])|"
    r"\s/\s|;|\.\s|[0-9]\s?v(?![a-z])"
)
_TAIL = re.compile(r"[\s,;:()\[\].!-]*")


def is_prose(context: Context, row: Row) -> bool:
    """Whether a row with codes is a sentence rather than a line of a list."""
    if row.cells is not None and row.kind in ("|", "\t", ";", ","):
        return False
    first = row.finds.codes[0]
    if row.cells is not None and any(
        cell.start <= first.start and cell.end <= first.end for cell in row.cells if cell.end > first.start
    ):
        return False
    if _SIGNS.search(row.low) is None:
        return False
    before = tidy(strip_links(trailing_status(row.text[: first.start])[0])) if first.start else ""
    items = cut(context, row)
    facts = [item for item in items if item.kind != "names" and item.of is not None]
    if len({id(item.of) for item in facts}) > 1:
        return True
    led = [item for item in facts if item.kind == "codes" and item.behind]
    if led:
        # "there is U0100 in the cluster, stored"; "P0562 in ECM: low" is a code with its description.
        one = first.start == 0 and len(row.finds.codes) == 1
        if one and not (_ends(context, row, led[0]) or _again(row, items, led[0])):
            return False
        return not _is_description(context, row, led[0])
    subject = next((item.of for item in facts if item.kind == "codes"), None)
    if subject is None or subject.start > first.start:
        return False
    if VERB.search(row.low, subject.end, first.start) is not None and subject_of(row.low, subject.end, first.start):
        return True
    if _more_than_a_list(context, row, subject):
        return True
    named = bool(before) and context.names.score(before) >= 60.0
    # "IPC: U0151", where the other lines of the text do not put their modules there.
    place = context.style.places.get(shape_of(row))
    return named and place is not None and not place.before and place.cell is None and not row.cells


def _more_than_a_list(context: Context, row: Row, subject: Item) -> bool:
    """Whether a line that names its module before its codes says something of the scan too: "after clear: EPS: B0131",
    "HVAC: P1722, battery was at 11.7 V, engine off"."""
    low = row.low
    if row.cells or not (engine_state.spans(low) or phases.find(low) or any(volt.labelled for volt in volts.find(low))):
        return False
    lead = low[: subject.start]
    if strip_links(lead) and PIECE.search(lead + " ") is not None:
        return True
    return PIECE.search(low, row.finds.codes[-1].end) is not None


def _ends(context: Context, row: Row, item: Item) -> bool:
    """Whether nothing but a status stands behind the names that codes are led to."""
    assert item.of is not None
    rest = row.low[item.of.end :]
    return _TAIL.fullmatch(rest) is not None or states.of_cell(rest, context.translated) is not None


def _again(row: Row, items: list[Item], item: Item) -> bool:
    """Whether a second module is led to behind the first: "current in BCM, stored in ABS"."""
    place = next((at for at, other in enumerate(items) if other is item.of), -1)
    behind = items[place + 1] if 0 <= place < len(items) - 1 else None
    return (
        behind is not None
        and behind.kind == "names"
        and behind.led
        and not clause_end(row.low, item.end, behind.start) >= 0
    )


def _is_description(context: Context, row: Row, item: Item) -> bool:
    """Whether codes that start a row are described behind the names: "P0562 in engine control: low, stored"."""
    assert item.of is not None
    rest = row.low[item.of.end :].lstrip()
    return item.start == 0 and rest[:1] == ":" and states.of_cell(rest, context.translated) is None


def read(context: Context, row: Row) -> None:
    """A sentence with codes in it, and perhaps answers, voltages and a phase."""
    context.refuse(row)
    _say(context, row)


def answers(context: Context, row: Row, *, surely: bool = False) -> bool:
    """A sentence with answers of modules and no code; whether any module was named. ``surely``: only where each answer
    has its module, and each module is a known one."""
    said = [item for item in cut(context, row) if item.kind == "answer"]
    bound = [item for item in said if item.of is not None]
    if not bound:
        return False
    if surely:
        names = [tidy(row.text[start:end]) for item in bound if item.of is not None for start, end in item.of.names]
        if len(bound) < len(said) or any(context.names.score(name) < 60.0 for name in names):
            return False
    _say(context, row)
    return True


def _say(context: Context, row: Row) -> None:
    """What the sentence says of the scan and the vehicle, then of the modules, then of what was done after."""
    builder, low = context.builder, row.low
    hit = phases.find(low)
    first = min((item.start for item in cut(context, row)), default=0)
    if hit is not None and (hit.start <= 40 or hit.start < first):
        metarow.read(context, row)
        _walk(context, row)
        return
    metarow.deeds(context, row, 0, first)
    if builder.next_phase is not None and not builder.snapshot.empty:
        builder.new_snapshot(builder.next_phase)
        builder.next_phase = None
    metarow.apply(context, row, top=True)
    metarow.beside(context, row)
    _walk(context, row)
    metarow.deeds(context, row, first, len(low))


def _walk(context: Context, row: Row) -> None:
    """Give the codes and answers of a sentence to their modules, in the order of the sentence."""
    items = cut(context, row)
    details = _details(context, row, items)
    for at, item in enumerate(items):
        if item.kind == "answer" and item.of is not None and item.answer is not None:
            for module in _modules(context, row, item.of):
                apply_answer(context, module, item.answer.answer)
        elif item.kind == "codes":
            for modules, status in _owners(context, row, items, at):
                for code in item.codes:
                    for module in modules:
                        said = details[code]
                        _add(context, row, module, code, said, status)
    context.under_heading = False
    context.open_code = context.open_row = None


def _add(
    context: Context, row: Row, module: ModuleDraft, code: Found, details: Details, status: StatusWord | None
) -> None:
    """Add a code; ``status``: what is said of it behind the module's name."""
    own = details.status
    details.status = status or own
    add(context, module, row, code, details)
    details.status = own


def _owners(
    context: Context, row: Row, items: list[Item], at: int
) -> list[tuple[list[ModuleDraft], StatusWord | None]]:
    """The modules of codes that stand together; "current in BCM, stored in ABS" gives them to both."""
    item = items[at]
    if item.of is None:
        answered = any(other.kind == "answer" and other.of is not None for other in items[:at])
        if answered:
            # The module named last did something else.
            context.builder.module = None
        return [([module_for(context, row, item.codes[0])], None)]
    owners = [
        (_modules(context, row, item.of), None if not item.behind else _status_behind(context, row, items, item.of))
    ]
    place = at + 1
    while item.behind and place + 1 < len(items) and items[place].kind == items[place + 1].kind == "names":
        one, two = items[place], items[place + 1]
        lead = LED.search(row.low, max(one.end, two.start - 24), two.start)
        if lead is None or not two.led:
            break
        between = row.low[one.end : lead.start()].strip(" ,;")
        status = states.of_cell(between, context.translated) if between not in ("", "and", "und", "et", "y") else None
        if status is None and between not in ("", "and", "und", "et", "y"):
            break
        owners.append((_modules(context, row, two), status))
        place += 1
    return owners


def _modules(context: Context, row: Row, item: Item) -> list[ModuleDraft]:
    """The modules of names that stand together; a known word for "module" behind one belongs to it."""
    found = []
    for start, end in item.names:
        more = re.match(r"\s+(?:control\s+)?(?:module|unit|ecu)(?![a-z])", row.low[end : end + 24])
        if more is not None:
            end += more.end()
        printed = context.names.bare(tidy(row.text[start:end]))
        if printed != NOT_STATED:
            found.append(context.builder.name_module(printed, row.line, row.start + start, row.start + end))
    return found


def _status_behind(context: Context, row: Row, items: list[Item], names: Item) -> StatusWord | None:
    """The status behind the names that codes were led to: "in the dash, currently active"."""
    after = next((item.start for item in items if item.start >= names.end), len(row.low))
    text = row.low[names.end : min(after, names.end + 80)]
    if LED.search(text[-24:]) is not None and after < len(row.low):
        # "current in BCM, stored in ABS": that status is of what follows.
        return None
    text = text.lstrip(" ,;:(-[")
    end = SLOT_END.search(text)
    piece = text[: end.start()] if end is not None else text
    found = states.of_cell(piece, context.translated) or states.of_cell(STATUS_LEAD.sub("", piece), context.translated)
    if found is None and end is not None:
        # Commas inside: "stored, not present".
        found = states.of_cell(text[: (text.find(".") if ". " in text else len(text))], context.translated)
    return found


def _details(context: Context, row: Row, items: list[Item]) -> dict[Found, Details]:
    """What stands beside each code; a status behind the last of several is that of all, one before them too."""
    found: dict[Found, Details] = {}
    for at, item in enumerate(items):
        if item.kind != "codes":
            continue
        stop = items[at + 1].start if at + 1 < len(items) else len(row.low)
        behind = items[at + 1] if item.behind and at + 1 < len(items) else None
        if behind is not None:
            lead = LED.search(row.low, max(item.end, behind.start - 24), behind.start)
            stop = lead.start() if lead is not None else stop
        for place, code in enumerate(item.codes):
            end = item.codes[place + 1].start if place + 1 < len(item.codes) else stop
            found[code] = _zone(context, row, code, end)
        _share(context, row, item, items[at - 1].end if at else 0, found)
    return found


def _zone(context: Context, row: Row, code: Found, stop: int) -> Details:
    """What stands between a code and the next code, name or end of the clause."""
    end = clause_end(row.low, code.end, stop)
    text = row.text[code.end : stop if end < 0 else end][:400]
    details = Details()
    for _, part in list(soft_pieces(text))[:8]:
        low = small(part)
        if low.strip(" .,") in ("and", "und", "et", "y", "plus"):
            continue
        take(
            details,
            STATUS_LEAD.sub("", part),
            STATUS_LEAD.sub("", low),
            following=False,
            has_type=True,
            translated=context.translated,
        )
    if details.status is None:
        found = states.in_text(small(text), context.translated)
        sure = [state for state in found if state.sure] or (found if len(found) == 1 else [])
        if (sure and covered(small(text), STATES.find(small(text)), BACK_FILL)) or (sure and sure[0].sure):
            details.status = sure[0].status
    details.texts = [text for text in details.texts if len(strip_links(text).split()) > 1]
    return details


def _share(context: Context, row: Row, item: Item, before: int, found: dict[Found, Details]) -> None:
    """Give codes without a status the one behind the codes they stand with, or the one right before them."""
    for place in range(len(item.codes) - 2, -1, -1):
        details = found[item.codes[place]]
        if details.status is None:
            details.status = found[item.codes[place + 1]].status
    lead = row.low[max(before, item.start - 40) : item.start]
    if all(found[code].status is None for code in item.codes):
        said = [
            state
            for state in states.in_text(lead, context.translated)
            if lead[state.start : state.end] not in ("logged", "recorded", "saved", "occurred")
        ]
        rest = lead[said[-1].end :] if said else ","
        if "," not in rest and ";" not in rest and covered(rest, (), BACK_FILL):
            for code in item.codes:
                found[code].status = said[-1].status
