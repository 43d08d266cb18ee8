"""Lines put together: what a page or a mail program broke, in one line again, each character still tied to its place.

Such a line has the number of the first of its parts, and what was pasted of them, with what joins them between.

>>> from triage.intake.plain.characters import lines
>>> line = lines_glued(*lines("> ABS: P0562\\u20111\\ufeff6,\\n> U0100"), start=2)
>>> line.text, line.raw, line.span(12, 15)
('> ABS: P0562-16, U0100', '> ABS: P0562\\u20111\\ufeff6, U0100', (12, 16))
"""

from __future__ import annotations

from triage.intake.lines.recut import is_as_pasted
from triage.intake.lines.row import Row
from triage.intake.lines.spacing import with_places
from triage.intake.plain.characters import Line, reworded

#: A part of a line, from one place of its text to another.
Part = tuple[Line, int, int]


def together(*pieces: Part | str) -> Line:
    """Parts of lines, and text of our own between them, as one line: it stands where the first of them does."""
    first = next(piece[0] for piece in pieces if not isinstance(piece, str))
    text, raw, low, places, own = "", "", "", list[int](), first.own
    tied = False
    for piece in pieces:
        if isinstance(piece, str):
            places += range(len(raw), len(raw) + len(piece))
            text, raw, low = text + piece, raw + piece, low + piece.lower()
            continue
        part, start, end = piece
        inside = part.offsets[start:end] if part.offsets is not None else range(start, min(end, len(part.text)))
        begin, stop = (min(inside), max(inside) + 1) if inside else (0, 0)
        tied = tied or part.offsets is not None
        places += [len(raw) - begin + place for place in inside]
        text, raw, low = text + part.text[start:end], raw + part.raw[begin:stop], low + part.low[start:end]
        own |= part.own
    return Line(first.number, raw, text, tuple(places) or (0,) if tied else None, low, first.indent, own)


def lines_glued(above: Line, line: Line, joint: str = " ", *, end: int | None = None, start: int = 0) -> Line:
    """A line, up to a place or without the blanks at its end, and behind it another from a place on."""
    end = len(above.text.rstrip()) if end is None else end
    return together((above, 0, end), joint, (line, start, len(line.text.rstrip())))


def glued(above: Row, row: Row, joint: str = " ") -> Row:
    """Two rows as one, which stands where the first does, behind the marks that stand before that."""
    end = above.start + len(above.text.rstrip())
    line = together((as_read(above), 0, end), joint, (as_read(row), row.start, row.start + len(row.text.rstrip())))
    return Row(line, line.text[above.start :], above.start)


def closed(line: Line, start: int = 0) -> Line:
    """A line with one space where several stand behind a place: in a sentence they are a slip, no gap between columns.

    >>> from triage.intake.plain.characters import lines
    >>> closed(lines("  no  codes   found")[0], 2).text
    '  no codes found'
    """
    if "  " not in line.text[start:]:
        return line
    return with_places(line, [at for at in range(len(line.text)) if at <= start or line.text[at - 1 : at + 1] != "  "])


def as_read(row: Row) -> Line:
    """The line of a row with the text that the row has now, which may have been written out."""
    return row.line if is_as_pasted(row) else reworded(row.line, row.start, len(row.line.text), row.text)


__all__ = ["Part", "as_read", "closed", "glued", "lines_glued", "together"]
