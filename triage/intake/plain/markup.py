"""HTML as rows of text: a table's cells between bars, a heading or a paragraph in a line of its own.

>>> [line.text for line in lines_of_html("<table><tr><th>ECU<th>DTC<tr><td>ABS<td>C0031</table><p>no&nbsp;more</p>")]
['| ECU | DTC |', '| ABS | C0031 |', '', 'no more']
"""

from __future__ import annotations

import re
from html import unescape
from html.parser import HTMLParser

from triage.intake.plain.characters import Line, line_of, lines
from triage.intake.plain.patterns import lazily

_TAGS = lazily(
    r"<(?:!doctype html|html|body|table|tr|td|th|div|p|br|span|head|ul|ol|li|h[1-6]|dl|dt|dd|section|article|tbody|"
    r"pre)\b[^>]{0,400}>",
    re.IGNORECASE,
)
_PAGE = lazily(r"<(?:!doctype|html|body|div|p|br|span|ul|ol|h[1-6]|pre)\b", re.IGNORECASE)
_BLOCKS = frozenset(
    [
        "p",
        "div",
        "li",
        "ul",
        "ol",
        "h1",
        "h2",
        "h3",
        "h4",
        "h5",
        "h6",
        "tr",
        "table",
        "thead",
        "tbody",
        "section",
        "article",
        "header",
        "footer",
        "hr",
        "pre",
        "dl",
        "dt",
        "dd",
        "blockquote",
        "title",
        "caption",
    ]
)
_SKIPPED = frozenset({"script", "style"})
#: A tag that lost its end: it would swallow the next one.
_TORN = lazily(r"(</?[A-Za-z][A-Za-z0-9]{0,9})(?=\s*<)")
#: A tag copied from a page that shows it, with hard spaces between its parts.
_HARD = lazily("<[A-Za-z][A-Za-z0-9]{0,9}\xa0[^<>]{0,400}>")
#: What stands for a line break inside a cell: a wide gap, as a page shows it.
_BREAK = "  "
_SPACES = lazily(r"[ \t\n\r\f]+")
#: The source goes on in its next line, which shows as a space; several blanks in one line were typed.
_SOURCE_BREAK = lazily(r"[ \t\f]*[\n\r][ \t\n\r\f]*")
_BLANK = " \t\n\r\f"


def is_html(text: str) -> bool:
    """Whether ``text`` is HTML rather than text with a stray tag."""
    head = text[:20000]
    if "</" not in text:
        return False
    whole = text.rstrip().endswith(">") and _TAGS.match(head.lstrip()) is not None
    return whole or len(_TAGS.findall(head)) >= 3


def written(text: str) -> str:
    """The text with its marks themselves where they are all written out: "&lt;td&gt;ABS&lt;/td&gt;"."""
    if "</" in text or "&lt;/" not in text:
        return text
    return unescape(text)


def lines_of_html(text: str) -> list[Line]:
    """The lines a reader of the page would see, numbered by the lines of the source."""
    parser = _Rows(plain=_PAGE.search(text) is None)
    parser.feed(_TORN.sub(r"\1>", _HARD.sub(lambda match: match[0].replace("\xa0", " "), text)))
    parser.close()
    parser.end_line()
    return parser.found


def _span(attrs: list[tuple[str, str | None]], name: str) -> int:
    """How many rows or columns a cell reaches over, at most 200."""
    value = next((value or "" for key, value in attrs if key == name), "")
    return max(1, min(200, int(value))) if value.isascii() and value.isdigit() else 1


_EMPTY_LINE = lazily(r"\n[ \t\r]*\n")


class _Rows(HTMLParser):
    """Gathers text into lines; a row of a table becomes one line with bars."""

    def __init__(self, plain: bool = False) -> None:
        super().__init__(convert_charrefs=True)
        #: Text with tables in it and no other tag: its lines are as somebody typed them.
        self._plain = plain
        self.found: list[Line] = []
        self._parts: list[str] = []
        self._cells: list[str] | None = None
        self._skip = 0
        self._number = 1
        self._in_pre = 0
        #: The block was opened right before, and holds nothing yet.
        self._just_opened = ""
        #: By column: the rows that a cell still reaches down, and its text; the cell being read, with its spans.
        self._spans: dict[int, tuple[int, str]] = {}
        self._opened: tuple[int, int, int] | None = None
        #: A span ended and nothing but blanks stands behind it yet.
        self._span_ended = self._runs_on = False
        self._open_spans = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "span":
            if self._span_ended and not self._runs_on:
                # Two of them side by side are two things, whatever the page puts between.
                self._parts.append(_BREAK)
            self._open_spans += 1
        self._span_ended = False
        self._just_opened = tag
        if tag in _SKIPPED:
            self._skip += 1
        elif tag in ("td", "th"):
            if self._cells is None:
                self.end_line()
                self._cells = []
            self._cell()
            self._fill()
            self._opened = len(self._cells), _span(attrs, "rowspan"), _span(attrs, "colspan")
            self._cells.append("")
        elif tag == "br":
            if self._cells is None:
                self._break()
            else:
                self._parts.append(_BREAK)
        elif tag in _BLOCKS:
            self._in_pre += tag == "pre"
            if tag in ("tr", "table") or self._cells is None:
                self.end_line()
                self._spans = {} if tag == "table" else self._spans
            else:
                self._parts.append(_BREAK)
            if tag in ("h1", "h2", "h3", "h4", "h5", "h6", "p", "table") and self.found and self.found[-1].text:
                self._add("")

    def handle_endtag(self, tag: str) -> None:
        self._span_ended = tag == "span" and bool(self._parts)
        self._open_spans = max(0, self._open_spans - (tag == "span"))
        if tag in _SKIPPED:
            self._skip = max(0, self._skip - 1)
        elif tag in ("td", "th"):
            self._cell()
        elif tag in ("tr", "table"):
            self.end_line()
        elif tag in _BLOCKS:
            if self._cells is None:
                if tag == self._just_opened and tag in ("div", "p"):
                    self._break()
                self.end_line(keep=self._in_pre > 0 and bool("".join(self._parts).strip()))
            self._in_pre -= tag == "pre" and self._in_pre > 0
        self._just_opened = ""

    def handle_data(self, data: str) -> None:
        self._span_ended = self._span_ended and not data.strip()
        self._just_opened = ""
        if not self._parts:
            self._runs_on = False
        # A sentence goes on behind a span, or has spans in it.
        self._runs_on = self._runs_on or bool(data.strip() and (not self._open_spans or data[-1].isspace()))
        if self._skip:
            return
        if not self._parts:
            self._number = self.getpos()[0]
        if (self._in_pre or self._plain) and self._cells is None:
            first, *rest = data.split("\n")
            self._parts.append(first)
            for line in rest:
                self.end_line(keep=self._in_pre > 0)
                self._number += 1
                self._parts.append(line)
        else:
            self._running(data)

    def _running(self, data: str) -> None:
        """Text between tags; an empty line in it was typed by somebody and parts it as in any text."""
        first, begin = self.getpos()[0], 0
        for match in _EMPTY_LINE.finditer(data) if self._cells is None else ():
            self._parts.append(self._shown(data[begin : match.start()]))
            self.end_line()
            begin = match.end()
            self._number = first + data.count("\n", 0, begin)
            if self.found and self.found[-1].text and data[begin:].strip():
                self._add("")
        self._parts.append(self._shown(data[begin:]))

    def _shown(self, data: str) -> str:
        """Text between tags without the line breaks of the source; outside of a table with the blanks within a line: a
        line of a text that was put into a block keeps its columns and its indent."""
        if self._cells is not None:
            return _SPACES.sub(" ", data)
        if not "".join(self._parts).strip() and (first := data.lstrip(_BLANK)) != data:
            lead = data[: len(data) - len(first)]
            data = first if "\n" in lead or lead == " " else lead + first
        return _SOURCE_BREAK.sub(" ", data)

    def _break(self) -> None:
        """Close the line being gathered; one with nothing in it shows as an empty line."""
        if "".join(self._parts).strip():
            self.end_line()
        elif self.found and self.found[-1].text:
            self._parts = []
            self._add("")

    def _cell(self) -> None:
        """Close the cell being gathered; one that reaches over more columns leaves those empty."""
        if self._cells:
            self._cells[-1] = (self._cells[-1] + "".join(self._parts)).strip()
            self._parts = []
        if self._cells and self._opened is not None:
            place, down, right = self._opened
            if down > 1:
                self._spans[place] = down - 1, self._cells[-1]
            self._cells += [""] * (right - 1)
            self._opened = None

    def _fill(self) -> None:
        """Put in the cells that reach down from the rows above."""
        while self._cells is not None and len(self._cells) in self._spans:
            left, text = self._spans.pop(len(self._cells))
            if left > 1:
                self._spans[len(self._cells)] = left - 1, text
            self._cells.append(text)

    def end_line(self, *, keep: bool = False) -> None:
        """Close the line being gathered."""
        if self._cells is not None:
            self._cell()
            self._fill()
            cells, self._cells = self._cells, None
            if any(cells):
                self._add("| " + " | ".join(cell.replace("|", "/") for cell in cells) + " |")
            self._parts = []
            return
        text = "".join(self._parts)
        self._parts = []
        if text.strip() or keep:
            self._add(text.rstrip())

    def _add(self, text: str) -> None:
        line = lines(text.replace("\n", " "))[0]
        self.found.append(line_of(self._number, line.raw, line.text, line.offsets))
