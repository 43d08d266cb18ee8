"""Whatever was pasted reaches a page as text: no tag, no control of the terminal, no markup of a message."""

from __future__ import annotations

import dataclasses
import re
import unicodedata
import xml.etree.ElementTree as ElementTree
from html.parser import HTMLParser
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.model.assessment import Assessment
from triage.model.notices import Notice
from triage.model.session import Session
from triage.reports.brief import brief
from triage.reports.html import html
from triage.reports.markdown import escape, markdown
from triage.reports.markup import element
from triage.reports.picture import picture
from triage.reports.terminal import terminal
from triage.reports.text import columns, wrap

# Everything that a page of ours is made of; anything else was let through.
TAGS = {"html", "head", "meta", "title", "style", "body", "header", "h1", "h2", "h3", "p", "strong", "em", "span",
        "small", "br", "section", "div", "table", "tbody", "tr", "th", "td", "ul", "ol", "li", "pre", "svg", "desc",
        "rect", "g", "text", "line", "path", "circle"}
NASTY = '"><script>alert(1)</script><img src=x onerror=alert(2)>&amp;\'</style><!-- \x1b[31m\x07\u202e\r\n'


class Tags(HTMLParser):
    """Names of tags and attributes."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.others: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}

    def handle_comment(self, data: str) -> None:
        self.others.append(data)


def replaced(value: Any, text: str) -> Any:
    """``value`` with every string that came from outside replaced or lengthened by ``text``."""
    if isinstance(value, str):
        return value + text
    if isinstance(value, list):
        return [replaced(item, text) for item in value]
    return value


def spoiled(small: Assessment, text: str) -> Assessment:
    """The small assessment with ``text`` in every place that can hold pasted text."""
    data = small.session.model_dump(mode="json")
    data["job"] += text
    data["vehicle"] |= {"label": text, "vin": text, "complaint": text}
    data["events"] = [{**event, "note": text, "module": text} for event in data["events"]]
    data["snapshots"][2]["readings"] = [{"module": text, "name": text, "value": 1.0, "unit": text}]

    def line(old: Any) -> Any:
        verdict = {**old.verdict, "module": text, "code": text,
                   "ledger": [{**row, "what": text, "source": text} for row in old.verdict["ledger"]]}
        return dataclasses.replace(old, verdict=verdict, printed=text, title=text, failure=text, note=text,
                                   clean=text, why=replaced(old.why, text))

    def group(old: Any) -> Any:
        changes = {"title": text} if hasattr(old, "title") else {"head": text}
        return dataclasses.replace(old, **changes, why=replaced(old.why, text),
                                   lines=[line(entry) for entry in old.lines])

    checks = [{**check, "do": text, "where": text, "passes_if": text, "gate": text, "settles": [text]}
              for check in small.next_checks]
    supply = [{**part, "why": text} for part in small.verdict["supply"]]
    return dataclasses.replace(
        small, session=Session.model_validate(data), verdict={**small.verdict, "supply": supply},  # type: ignore[typeddict-item]
        headline=text, complaint=text, count=small.count, next_checks=checks,  # type: ignore[arg-type]
        columns=[dataclasses.replace(column, name=text, at=text) for column in small.columns],
        short_list=[group(root) for root in small.short_list], unsettled=[group(old) for old in small.unsettled],
        set_aside=[group(old) for old in small.set_aside], cautions=[text], stories=[text], would_change=[text],
        notices=[Notice("warning", text, text, 3, 0, 5, text)])


def check_page(page: str) -> None:
    parser = Tags()
    parser.feed(page)
    parser.close()
    assert parser.tags <= TAGS
    assert not parser.others
    assert not {name for name in parser.attributes if name.startswith("on") or name in ("href", "src", "style")}
    assert page.count("<style>") == 1


def check_drawing(drawing: str) -> None:
    elements = ElementTree.fromstring(drawing).iter()
    assert {element.tag.removeprefix("{http://www.w3.org/2000/svg}") for element in elements} <= TAGS


def check_screen(text: str, width: int) -> None:
    for line in text.split("\n"):
        assert not [char for char in line if unicodedata.category(char) in ("Cc", "Cf", "Cs", "Zl", "Zp")]
        assert columns(line) <= width


def test_nasty_text_stays_text(small: Assessment) -> None:
    bad = spoiled(small, NASTY)
    check_page(html(bad))
    check_drawing(picture(bad))
    check_screen(terminal(bad, width=80, show_all=True, ledger=True), 80)
    check_screen(brief(bad).replace("\n", " "), 10**6)
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in html(bad)


@settings(max_examples=60, deadline=None)
@given(text=st.text(min_size=1, max_size=60))
def test_any_text_stays_text(small: Assessment, text: str) -> None:
    bad = spoiled(small, text)
    check_page(html(bad))
    check_drawing(picture(bad))
    check_screen(terminal(dataclasses.replace(bad, notices=[]), width=72, show_all=True, ledger=True), 72)
    brief(bad).encode("utf-8")
    markdown(bad, show_all=True, ledger=True).encode("utf-8")


@settings(max_examples=200, deadline=None)
@given(text=st.text(alphabet=st.characters(exclude_categories=("Cc", "Cf", "Cs", "Zl", "Zp", "Cn")), max_size=300),
       width=st.integers(10, 120), first=st.sampled_from(["", "  - ", "      "]))
def test_wrap_keeps_the_width_and_loses_nothing(text: str, width: int, first: str) -> None:
    lines = wrap(text, width, first)
    assert all(columns(line) <= width for line in lines)
    assert "".join("".join(lines).split()) == "".join((first + text).split())


@settings(max_examples=150, deadline=None)
@given(text=st.text(alphabet=st.characters(exclude_categories=("Cc", "Cf", "Cs", "Zl", "Zp", "Zs", "Cn"))).map(
    lambda text: " ".join(text.split())))
def test_markdown_shows_text_as_it_stands(text: str) -> None:
    """Against a parser of CommonMark 0.31 (markdown-it-py): in a point of a list, in bold and as a heading."""
    parser = pytest.importorskip("markdown_it").MarkdownIt("commonmark")
    escaped = escape(text)
    for source, wanted in ((f"- {escaped}", text), (f"- x **a {escaped} b** y", f"x a {text} b y"),
                           (f"## {escaped}", text)):
        tokens = parser.parse(source)
        inline = [token for token in tokens if token.type == "inline"]
        said = "".join(child.content for token in inline for child in token.children or [])
        kinds = {child.type for token in inline for child in token.children or []}
        assert kinds <= {"text", "text_special", "strong_open", "strong_close"}
        assert len([token for token in tokens if token.type in ("bullet_list_open", "ordered_list_open")]) == (
            source[0] == "-")
        assert " ".join(said.split()) == " ".join(wanted.split())


def test_nothing_is_fetched_from_elsewhere(any_assessment: Assessment) -> None:
    page = html(any_assessment).replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert not re.search(r"https?:|//[a-z]|url\(|@import|<script|<link|<img|src=|href=", page)


def test_colour_adds_no_word(any_assessment: Assessment) -> None:
    plain = terminal(any_assessment, show_all=True, ledger=True)
    coloured = terminal(any_assessment, show_all=True, ledger=True, colour=True)
    assert coloured != plain
    assert re.sub(r"\x1b\[[0-9]*m", "", coloured) == plain
    assert "\x1b" not in plain


def test_plain_marks_need_no_more_than_ascii(small: Assessment) -> None:
    own = small.session.model_copy(update={"snapshots": [
        shot.model_copy(update={"readings": None}) for shot in small.session.snapshots]})
    assert terminal(dataclasses.replace(small, session=own), ascii_marks=True).isascii()


@pytest.mark.parametrize("width", [20, 40, 60, 80, 100, 132])
def test_every_width_is_kept(any_assessment: Assessment, width: int) -> None:
    text = terminal(any_assessment, width=width, show_all=True, ledger=True)
    assert max(columns(line) for line in text.split("\n")) <= max(40, width)
    assert not re.search(r"\n\n\n|\A\n|[ \t]\n", text)


def test_attributes_are_escaped() -> None:
    drawn = ElementTree.fromstring(element("p", "a", title='"><script>&', class_="x", width=1.0))
    assert drawn.attrib == {"title": '"><script>&', "class": "x", "width": "1"}
