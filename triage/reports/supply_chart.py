"""The supply above the columns of the picture: a step line, one step a snapshot, its lowest since the one before."""

from __future__ import annotations

from triage.reports.markup import element
from triage.reports.sheet import Sheet

#: Height of the chart with its margins, in units of the drawing.
CHART = 120.0
_TOP, _BOTTOM = 16.0, 112.0
_GREY, _HAIR, _INK = "#555555", "#cccccc", "#111111"
#: A lowest supply closer to the supply as read than this, V, is told in words below the step and not drawn.
_CLOSE = 1.2
#: Columns narrower than this, in units, have room for a figure but not for the word before it.
_WIDE = 84.0


def supply_chart(sheet: Sheet, left: float) -> None:
    """Draw the chart onto ``sheet``, its columns beginning at ``left``.

    A snapshot whose supply nobody read leaves a gap that says so.
    """
    read = [value for snap in sheet.snaps for value in (snap.volts, snap.lowest) if value is not None]
    if read:
        low, high = _span(read)
        _scale(sheet, left, low, high)
        _steps(sheet, left, low, high)
    for place, snap in enumerate(sheet.snaps):
        if snap.volts is None:
            words = "supply not read" if sheet.column >= _WIDE else "not read"
            sheet.text(sheet.centre(place), (_TOP + _BOTTOM) / 2, words, 9.0, anchor="middle", colour=_GREY)


def _span(read: list[float]) -> tuple[float, float]:
    """The range drawn, V: at least 3 V, with air at both ends for the figures."""
    low, high = min(read), max(read)
    air = max(0.12 * (high - low), (3.0 - (high - low)) / 2, 0.4)
    return low - air, high + air


def _height(volts: float, low: float, high: float) -> float:
    return _BOTTOM - (volts - low) / (high - low) * (_BOTTOM - _TOP)


def _scale(sheet: Sheet, left: float, low: float, high: float) -> None:
    """Hairlines at even volts, the figure at the left."""
    step = next(size for size in (1, 2, 4, 5, 10, 20, 50, 100, 1000) if (high - low) / size <= 5 or size == 1000)
    end = left + sheet.column * len(sheet.snaps)
    value = (int(low // step) + 1) * step
    while value < high:
        y = _height(value, low, high)
        sheet.drawn.append(element("line", x1=left, x2=end, y1=y, y2=y, stroke=_HAIR, stroke_width=0.5))
        sheet.text(left - 5.0, y + 3.0, f"{value:g} V", 8.5, anchor="end", colour=_GREY)
        value += step


def _steps(sheet: Sheet, left: float, low: float, high: float) -> None:
    path: list[str] = []
    joined = False
    for place, snap in enumerate(sheet.snaps):
        if snap.volts is None:
            joined = False
            continue
        start, end = left + sheet.column * place, left + sheet.column * (place + 1)
        y = _height(snap.volts, low, high)
        path.append(f"{'L' if joined else 'M'}{start:.1f} {y:.1f} L{end:.1f} {y:.1f}")
        joined = True
    if path:
        sheet.drawn.append(element("path", d=" ".join(path), fill="none", stroke=_INK, stroke_width=1.6))
    for place, snap in enumerate(sheet.snaps):
        if snap.volts is not None:
            y = _height(snap.volts, low, high)
            sheet.text(sheet.centre(place), y - 5.0, f"{snap.volts:.1f} V", 11.0, True, "middle")
        _lowest(sheet, left, place, low, high)


def _lowest(sheet: Sheet, left: float, place: int, low: float, high: float) -> None:
    """The dip to the lowest supply since the snapshot before, drawn early in the column."""
    snap = sheet.snaps[place]
    if snap.lowest is None:
        return
    words = f"lowest {snap.lowest:.1f} V" if sheet.column >= _WIDE else f"{snap.lowest:.1f} V"
    y = _height(snap.lowest, low, high)
    if snap.volts is not None and abs(snap.volts - snap.lowest) < _CLOSE:
        below = _height(snap.volts, low, high) + 12.0
        sheet.text(sheet.centre(place), below, words, 9.0, anchor="middle", colour=_GREY)
        return
    x = left + sheet.column * (place + 0.14)
    if snap.volts is not None:
        sheet.drawn.append(element("line", x1=x, x2=x, y1=_height(snap.volts, low, high), y2=y, stroke=_INK,
                                   stroke_width=1.0, stroke_dasharray="2.5 2"))
    sheet.drawn.append(element("line", x1=x - 4.0, x2=x + 4.0, y1=y, y2=y, stroke=_INK, stroke_width=1.6))
    sheet.text(x + 7.0, y + 3.2, words, 9.0, colour=_GREY)


__all__ = ["CHART", "supply_chart"]
