"""The picture that explains it: faults as rows, snapshots as columns, the supply drawn above them.

Ink only, so that it prints: a filled disc is "seen", a ring "not seen", a short bar "not readable". SVG 1.1 with
presentation attributes alone (no script, no style sheet, no remote resource); title and description say it in words.
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.model.assessment import Assessment, Sight
from triage.reports.entries import Bundle, Line, Sign, Snap, View
from triage.reports.markup import Markup, element
from triage.reports.sheet import GREY, INK, LABELS, LEAST_COLUMN, VERDICT, WIDTH, Sheet, room
from triage.reports.supply_chart import CHART, supply_chart
from triage.reports.text import many, wrap
from triage.reports.view import view

SIGHTS: tuple[Sight, ...] = ("seen", "not seen", "not readable")


def picture(assessment: Assessment, *, rows: int = 40, prefix: str = "picture") -> str:
    """The picture as one SVG element. More than ``rows`` faults: what was set aside is drawn as counts by reason,
    then the unsettled outside the safety classes. ``prefix`` keeps the ids apart where a page holds several."""
    return draw(view(assessment), rows=rows, prefix=prefix)[0]


def draw(shown: View, *, rows: int = 40, prefix: str = "picture", named: bool = True,
         tall: float = float("inf")) -> list[Markup]:
    """The picture of a view in drawings of at most ``tall`` units; ``named`` False where a head above names it."""
    column = max(LEAST_COLUMN, (WIDTH - LABELS - VERDICT) / max(1, len(shown.snaps)))
    sheet = Sheet(shown, column, tall, prefix, named, _begin)
    sheet.open()
    _faults(sheet, shown, rows)
    sheet.close(f"{shown.count}.")
    return sheet.done


def mark(sight: Sight, x: float, y: float) -> Markup:
    """The mark of one sighting, told apart by its shape."""
    if sight == "seen":
        return element("circle", cx=x, cy=y, r=5.6, fill=INK)
    if sight == "not seen":
        return element("circle", cx=x, cy=y, r=4.9, fill="#ffffff", stroke=INK, stroke_width=1.4)
    return element("line", x1=x - 6.0, x2=x + 6.0, y1=y, y2=y, stroke=INK, stroke_width=1.8)


def minus(text: str) -> str:
    """A true minus sign before a figure."""
    return text.replace("-", "\u2212", 1) if text.startswith("-") else text


def _begin(sheet: Sheet) -> None:
    """Corner, supply and heads of a drawing."""
    _corner(sheet, sheet.shown.title if sheet.named else "")
    supply_chart(sheet, LABELS)
    _heads(sheet)


def _corner(sheet: Sheet, title: str) -> None:
    """Beside the supply: the vehicle and what the marks mean."""
    # Three lines stand beside the chart; a longer name is told in full by the title of the drawing.
    lines = wrap(title, room(LABELS - 44, 12.0, True)) if title else []
    if len(lines) > 3:
        lines = [*lines[:2], f"{lines[2]} ..."]
    for place, line in enumerate(lines):
        sheet.text(0.0, 18.0 + 14.5 * place, line, 12.0, True)
    for place, sight in enumerate(SIGHTS):
        at = CHART - 34.0 + 15.0 * place
        sheet.drawn.append(mark(sight, 7.0, at))
        sheet.text(20.0, at + 3.6, sight, 10.0, colour=GREY)


def _heads(sheet: Sheet) -> None:
    """The head of each column: number and phase, then engine and outside supply."""
    top = CHART + 14.0
    deepest = top + 12.0
    for place, snap in enumerate(sheet.snaps):
        y = top
        for line in wrap(f"{snap.number} {snap.phase}", room(sheet.column - 6, 10.5, True)):
            sheet.text(sheet.centre(place), y, line, 10.5, True, "middle")
            y += 12.5
        for line in wrap(snap.noted, room(sheet.column - 6, 9.0)) if snap.noted else []:
            sheet.text(sheet.centre(place), y, line, 9.0, anchor="middle", colour=GREY)
            y += 11.0
        deepest = max(deepest, y)
        sheet.words.append(f"Snapshot {snap.number}, {snap.phase}: {snap.supply}, {snap.state}.")
    at = sheet.right - VERDICT + 8.0
    sheet.text(at, top, "likeliest cause", 9.0, colour=GREY)
    sheet.text(at, top + 11.0, "does it persist?", 9.0, colour=GREY)
    sheet.y = deepest


def _faults(sheet: Sheet, shown: View, rows: int) -> None:
    number = len(shown.lines)
    loose = number - sum(len(bundle.lines) for bundle in shown.aside)
    _section(sheet, "short list", [line for item in shown.items if item.fault for line in item.lines], 0)
    for item in shown.items:
        if not item.fault:
            _section(sheet, f"short list: {item.title}", *Bundle("", item.lines).shown(loose <= rows), alone=True)
    for bundle in shown.unsettled:
        told, hidden = bundle.shown(loose <= rows)
        _section(sheet, f"unsettled: {bundle.head}", told, hidden)
    for bundle in shown.aside:
        if number <= rows:
            _section(sheet, f"set aside: {bundle.head}", bundle.lines, 0)
        else:
            _summary(sheet, bundle)
    if not number:
        _section(sheet, "no code was read", [], 0, alone=True)


def _section(sheet: Sheet, head: str, lines: Sequence[Line], hidden: int, alone: bool = False) -> None:
    """Rows under their head; nothing without rows unless the head stands ``alone``."""
    if not lines and not alone:
        return
    parts = wrap(head, room(sheet.right, 9.5))
    sheet.make_room(12.0 * (len(parts) + 1) + 40.0)
    sheet.y += 7.0
    for part in parts:
        sheet.y += 12.0
        sheet.text(0.0, sheet.y, part, 9.5, colour=GREY)
    sheet.y += 5.0
    sheet.rule(sheet.y, INK)
    if alone:
        sheet.words.append(f"{head}.")
    for line in lines:
        _fault(sheet, line)
    if hidden:
        words = f"and {hidden} more, none of a safety class"
        sheet.text(0.0, sheet.y + 13.0, words, 9.5, colour=GREY)
        sheet.words.append(f"{words}.")
        sheet.y += 18.0


def _fault(sheet: Sheet, line: Line) -> None:
    """One row: name and meaning, a mark a column with its status, the cause and its decibans."""
    meaning = line.meaning + (f"; {line.safety}" if line.safety else "")
    names = wrap(line.name, room(LABELS - 8, 10.5, True))
    meanings = wrap(meaning, room(LABELS - 8, 9.0))
    height = max(13.0 * len(names) + 11.0 * len(meanings), 28.0) + 5.0
    sheet.make_room(height)
    top = y = sheet.y
    for part in names:
        y += 13.0
        sheet.text(0.0, y, part, 10.5, True)
    for part in meanings:
        y += 11.0
        sheet.text(0.0, y, part, 9.0, colour=GREY)
    for place, sign in enumerate(line.signs[:len(sheet.snaps)]):
        _sighting(sheet, sheet.centre(place), top + 14.0, sign, sheet.snaps[place])
    at = sheet.right - VERDICT + 8.0
    sheet.text(at, top + 13.0, f"{line.cause} {minus(line.decibans)}", 10.0, True)
    sheet.text(at, top + 25.0, line.sure, 9.0, colour=GREY)
    sheet.y = top + height
    sheet.rule(sheet.y)
    sights = ", ".join(f"{sign.sight}{' as ' + sign.status if sign.status else ''}" for sign in line.signs)
    sheet.words.append(f"{line.name}, {meaning}: {sights}; {line.cause}, {line.sure}, {line.decibans}.")


def _sighting(sheet: Sheet, x: float, y: float, sign: Sign, snap: Snap) -> None:
    sheet.drawn.append(mark(sign.sight, x, y))
    # The module's own supply is told where it differs from the connector's, which is drawn above.
    differs = sign.figure != "?" and (snap.volts is None or sign.figure != f"{snap.volts:.1f}")
    words = " ".join(part for part in (sign.status, sign.volts if differs else "") if part)
    if words:
        sheet.text(x, y + 15.0, words, 8.5, anchor="middle", colour=GREY)


def _summary(sheet: Sheet, bundle: Bundle) -> None:
    """A reason for setting aside as one row of counts."""
    number = len(bundle.lines)
    parts = wrap(f"{many(number, 'code')} set aside: {bundle.head}", room(LABELS - 8, 9.5))
    sheet.make_room(12.0 * len(parts) + 8.0)
    top = y = sheet.y + 2.0
    for part in parts:
        y += 12.0
        sheet.text(0.0, y, part, 9.5)
    counts = []
    for place in range(len(sheet.snaps)):
        seen = sum(line.signs[place].sight == "seen" for line in bundle.lines if place < len(line.signs))
        counts.append(f"{seen} of {number} seen")
        sheet.text(sheet.centre(place), top + 12.0, counts[-1], 9.5, anchor="middle")
    sheet.y = y + 6.0
    sheet.rule(sheet.y)
    sheet.words.append(f"{many(number, 'code')} set aside, {bundle.head}: {', '.join(counts)}.")


__all__ = ["draw", "mark", "minus", "picture", "room"]
