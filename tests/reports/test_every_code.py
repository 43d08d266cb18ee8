"""Every code read is accounted for in every report, counts close, and the sums add up as they are printed."""

from __future__ import annotations

import dataclasses
import re
import xml.etree.ElementTree as ElementTree
from html.parser import HTMLParser

import pytest

from triage.model.assessment import Assessment, FaultLine, Root
from triage.model.verdict import CAUSES
from triage.reports.as_json import verdict_json
from triage.reports.brief import brief
from triage.reports.html import html
from triage.reports.markdown import escape, markdown
from triage.reports.picture import picture
from triage.reports.sheet import VERDICT, room
from triage.reports.terminal import terminal
from triage.reports.text import clean
from triage.reports.view import view

WIDE = 10_000  # so that no name is wrapped


class Words(HTMLParser):
    """The text of a page without its style sheet."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.said: list[str] = []
        self.silent = False

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.silent = self.silent or tag == "style"

    def handle_endtag(self, tag: str) -> None:
        self.silent = self.silent and tag != "style"

    def handle_data(self, data: str) -> None:
        if not self.silent:
            self.said.append(data)


def words(page: str) -> str:
    """What a reader sees, with plain spaces."""
    parser = Words()
    parser.feed(page)
    return "".join(parser.said).replace("\u00a0", " ").replace("\u2212", "-")


def lines(assessment: Assessment) -> list[FaultLine]:
    return [line for group in (*assessment.short_list, *assessment.unsettled, *assessment.set_aside)  # type: ignore[attr-defined]
            for line in group.lines]


def code(line: FaultLine) -> str:
    kind = line.verdict["failure_type"]
    return clean(line.verdict["code"] + (f"-{kind}" if kind else ""))


def section(text: str, head: str) -> str:
    """One section of the terminal's text."""
    found = re.search(rf"^{head}.*?(?=^\S|\Z)", text, re.S | re.M)
    assert found, head
    return found.group()


def test_the_count_closes_and_agrees_with_the_lines(any_assessment: Assessment) -> None:
    total, *parts = (int(number) for number in re.findall(r"\d+", any_assessment.count))
    assert total == sum(parts) == len(lines(any_assessment)) == len(any_assessment.verdict["faults"])
    for text in (terminal(any_assessment, width=WIDE), markdown(any_assessment), brief(any_assessment),
                 words(html(any_assessment)), picture(any_assessment)):
        assert any_assessment.count in text


def test_every_code_stands_in_the_full_reports(any_assessment: Assessment) -> None:
    text = terminal(any_assessment, width=WIDE, show_all=True, ledger=True)
    message = markdown(any_assessment, show_all=True, ledger=True)
    page = words(html(any_assessment))
    shown = verdict_json(any_assessment.verdict)
    for line in lines(any_assessment):
        module = clean(line.printed)
        assert f"{module}  {code(line)}  " in text
        assert f"{escape(f'{module} {code(line)}')}" in message
        assert f"{module} {code(line)}" in page
        assert f'"code": "{line.verdict["code"]}"' in shown


@pytest.mark.parametrize("rows", [1, 25, 1000])
def test_the_picture_tells_every_code_by_name_or_count(any_assessment: Assessment, rows: int) -> None:
    drawing = ElementTree.fromstring(picture(any_assessment, rows=rows))
    said = (drawing.findtext("{http://www.w3.org/2000/svg}desc") or "").replace("\u00a0", " ")
    rows_told = sum(f"{clean(line.printed)} {code(line)}, " in said for line in lines(any_assessment))
    counted = sum(int(number) for number in re.findall(r"(\d+) codes? set aside, ", said))
    hidden = sum(int(number) for number in re.findall(r"and (\d+) more", said))
    assert rows_told + counted + hidden == len(lines(any_assessment))


def test_shown_and_counted_add_up_on_the_terminal(any_assessment: Assessment) -> None:
    text = terminal(any_assessment, width=WIDE)
    for head, groups in (("UNSETTLED", any_assessment.unsettled), ("SET ASIDE", any_assessment.set_aside)):
        told = section(text, head)
        hidden = sum(int(number) for number in re.findall(r"and (\d+) more", told))
        shown = len(re.findall(r"; [a-z ]+, [+-]?\d+\.\d dB", told))
        counts = sum(int(number) for number in re.findall(r"^ +(\d+)  \S", told, re.M))
        assert shown + hidden + counts == sum(len(group.lines) for group in groups)


def test_no_line_of_a_safety_class_stands_behind_a_count(any_assessment: Assessment) -> None:
    text, message, phone = (terminal(any_assessment, width=WIDE), markdown(any_assessment), brief(any_assessment))
    for group in any_assessment.unsettled:
        for line in group.lines:
            if line.safety:
                assert f"{clean(line.printed)}  {code(line)}  " in text
                assert escape(f"{clean(line.printed)} {code(line)}") in message
                assert code(line) in phone
    for root in any_assessment.short_list:
        if root.safety:
            assert all(code(line) in text and code(line) in message for line in root.lines if line.safety)
            assert clean(root.title) in phone or code(root.lines[0]) in phone
    for group in any_assessment.set_aside:
        assert all(code(line) in section(text, "SET ASIDE") for line in group.lines if line.safety)


def test_short_list_tells_three_roots_in_full_five_at_most_then_a_count(small: Assessment) -> None:
    """Nine roots, the last but one of a safety class: 1 to 5 and 8 are told, 6, 7 and 9 counted."""
    root = small.short_list[1]
    roots = [dataclasses.replace(root, safety="steering" if place == 8 else None, lines=[dataclasses.replace(
        root.lines[0], printed=f"unit {place}", safety="steering" if place == 8 else None)]) for place in range(1, 10)]
    nine = dataclasses.replace(small, short_list=roots)
    full, short, hidden = view(nine).ranked()
    assert [item.lines[0].module for item in full] == ["unit 1", "unit 2", "unit 3"]
    assert [item.lines[0].module for item in short] == ["unit 4", "unit 5", "unit 8"]
    assert hidden == 3
    for text in (terminal(nine, width=WIDE), markdown(nine)):
        assert sorted(set(re.findall(r"unit \d", text))) == [f"unit {place}" for place in (1, 2, 3, 4, 5, 8)]
        assert "and 3 more, none of" in text
    assert sorted(set(re.findall(r"unit \d", terminal(nine, show_all=True)))) == [f"unit {n}" for n in range(1, 10)]
    assert sorted(set(re.findall(r"unit \d", brief(nine)))) == [f"unit {place}" for place in (1, 2, 3, 8)]


def test_ledger_rows_add_up_as_printed_on_the_terminal(any_assessment: Assessment) -> None:
    text = terminal(any_assessment, width=WIDE, show_all=True, ledger=True)
    if not lines(any_assessment):
        return
    blocks = section(text, "SUMS").strip().split("\n\n")[1:]
    assert len(blocks) == len(lines(any_assessment))
    for block in blocks:
        *rows, total = (round(10 * float(number)) for number in re.findall(r"^ +([+-]?\d+\.\d)  \S", block, re.M))
        assert sum(rows) == total, block


def test_ledger_rows_add_up_as_printed_on_the_page(any_assessment: Assessment) -> None:
    page = html(any_assessment).replace("\u2212", "-").replace("\u00a0", " ")
    ledgers = re.findall(r'<div class="ledger">.*?</table></div>', page)
    one_line = re.findall(r'<span class="rows">([-+.\d ]+)</span><span class="total"> = ([-+.\d]+)</span>', page)
    assert len(ledgers) + len(one_line) == len(lines(any_assessment))
    for block in ledgers:
        *rows, total = (round(10 * float(number)) for number in re.findall(r'class="figure">([-+.\d]+)<', block))
        assert sum(rows) == total
    for row, total in one_line:
        assert sum(round(10 * float(number)) for number in row.split()) == round(10 * float(total))


def test_a_story_may_lead_the_list_without_a_code_and_without_decibans(small: Assessment) -> None:
    """A supply that still fails is no code: it leads the list and leaves the count as it is."""
    root = Root("charging: 11.4 V with the engine running and nothing connected", "supply", None, float("nan"),
                ["it is not charging"], "supply", [])
    led = dataclasses.replace(small, short_list=[root, *small.short_list])
    for text in (terminal(led, width=WIDE), markdown(led), brief(led), words(html(led)), words(picture(led))):
        assert root.title in text
        assert "nan" not in text
        assert small.count in text
    assert "7 read" in terminal(led)
    assert ", ;" not in terminal(led)


def test_the_longest_verdict_fits_into_its_column() -> None:
    assert room(VERDICT - 8.0, 10.0, True) >= max(len(f"{cause} -60.0 dB") for cause in CAUSES)
