"""Rows: lines without the marks that mails, chats and lists put before them; page heads and feet told apart.

>>> [(row.text, row.start) for row in rows_of("> 1) ECM P0562\\n[08:12] - Max: ABS ok\\n  • P0300")]
[('ECM P0562', 5), ('ABS ok', 15), ('P0300', 4)]
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Callable, Container, Sequence
from itertools import islice, pairwise

from triage.intake.codes.found import find
from triage.intake.lines import numbering, unknown
from triage.intake.lines.goingon import ends_with_status
from triage.intake.lines.idents import alone
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, has_digit, has_letter, indent_of, lines, low
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import LONGEST, remembered
from triage.intake.said import dates, phases, states
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.counts import stated_count
from triage.intake.words.vocabulary import STATES

_QUOTE = lazily(r"\s*(?:>+\s?)+(?=[^>]|$)")
_STAMP = lazily(
    r"\s*(?:\[(?:[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{1,4},?\s+)?[0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?(?:\s?[ap]m)?(?:,\s*[0-9./-]{6,10})?\]"
    r"|[0-9]{1,2}[./][0-9]{1,2}[./][0-9]{2,4},?\s+[0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?(?:\s?[ap]m)?\s+-(?=\s)"
    r"|[0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?\s+-(?=\s+[A-Z][\w .]{0,20}:))\s*-?\s*",
    re.IGNORECASE,
)
_SENDER = lazily(r"(?![PCBU][0-9Oo][0-9A-FOo]{3})([A-Z\u00c0-\u00de][\w.' -]{0,24}):\s+(?=\S)")
_BULLET = lazily(
    # A comment among the rows of a table; a cell that is empty is followed by others, or by a code.
    r"\s*(?://+\s+(?=[^\W\d])|;\s?(?=[^\W\d]{2}[^;]{10,}$)|"
    r"[-*+\u2022]+[ ]+(?![|;,]|\s*=|[0-9]{1,3}\s?/\s?[0-9]{1,3}\s?-(?:\s\s|$))|"
    r"[*\u2022]\s+(?!\s*=)|-\t(?=[^\t]*$)|\u2022|\(?[0-9]{1,3}[.)]\s+|"
    r"\(?[a-z][)]\s+|\[[ xX]?\]\s+|"
    # "#2 scan, 12.1 V" counts the scans.
    r"#[0-9]{1,3}[.:)]?\s+(?!(?i:scan|read(?:ing|-?out)?|\w{0,8}lesung|abfrage|lecture|lectura)(?:\s*[:=(~),-]|\s*$))|"
    r"\[\s?[0-9]{1,3}\s?(?:/|of|von|de|sur)\s?[0-9]{1,3}\s?\]\s*|\([0-9]{1,3}/[0-9]{1,3}\)\s+(?=[^\W\d]{2})|"
    r"(?:no|nr)\.\s?"
    r"[0-9]{1,3}[:.)]?\s+|[0-9]{1,3}\s?[:]\s+(?=\S))"
)
_AFTER_A_LETTER = (")", ".")
_PAGE = lazily(
    r"(?<![a-z])(?:page|seite|pag(?:e|ina)?\.?|blatt|sheet|feuille|"
    r"hoja)\s*[:#]?\s*[0-9]{1,3}(?:\s*(?:of|/|von|de|sur)\s*[0-9]{1,3})?"
    r"(?![a-z0-9])|^[-\s]*[0-9]{1,3}\s?(?:/|of|von|de|sur)\s?[0-9]{1,3}[-\s]*$|^(?:-+\s*)?[0-9]{1,3}\s*-+$"
    r"|^-\s?[0-9]{1,3}\s?(?:/|of|von|de|sur)\s?[0-9]{1,3}\s?-(?=\s\s)"
    r"|(?:^|\s)(?:pg?|s|bl|f|h)\.\s?[0-9]{1,3}(?:\s?/\s?[0-9]{1,3})?$"
    r"|(?<=[0-9][./-][0-9]{2})[0-9]{0,2}\s+-+\s?[0-9]{1,3}\s?-+$"
)
_PAGE_SIGNS = lazily(r"pag|seite|blatt|sheet|feuille|hoja|^[-\s]*[0-9]|(?:^|\s)(?:pg?|s|bl|f|h)\.\s?[0-9]")
#: What the title of a report or a list is called.
TITLE = lazily(
    r"(?<![a-z])(?:scan|re-?scan|report|results?|summary|list|listing|\w*bericht|\w*bericht\w*|rapport|informe|"
    r"\w*protokoll|overview|survey|read-?outs?|read out|print-?out|diagnos\w+|memory|\w*speicher|memoire|memoria|"
    r"test|check|checks|session|log|page|health|inspection|\w*auslesung|\w*auslesen|\w*abfrage|\w*ubersicht|\w*uebersicht|"
    r"releve|bilan|lecture|lectura|listado|liste|resumen|inventory|record|sheet|printed|vehicle|fahrzeug|vehicule|"
    r"vehiculo|codes|faults|dtcs|fehler|defauts|averias|fallos)(?![a-z])"
)
#: Behind a line: "  # seen last week too", " <- look at this first", " ??"; "Engine #1" is a number.
_COMMENT = lazily(r"\s+(?:(?:#(?![0-9])|<-+|//)\s?[^\s|].{0,80}|[?!]{2,})$")
_NAME_END, _LONGEST_NAME = lazily(r"\s?[:|(\[;]|\s-+\s|\s\s"), 48
#: A legend explains the sign: "# = confirmed".
_SIGN_TOLD = lazily(r"(?:^|(?<=[\s,;|/(:\[\"']))#\s?[)\]\"']?\s*[=:-]\s*([^\W\d][^=,;|/]{2,40})")
_MARK = lazily(r"\s?[:=]|\s-+>?\s|->")
_DIGITS, _LONG = lazily(r"[0-9]+"), lazily(r"[0-9]{4}")
#: So many lines on each side of a page number are its page's head and foot at most.
_MOST_TITLES, _MOST_HEAD, _LONGEST_DATE = 4, 12, 24


def rows_of(text: str, is_module: Callable[[str], bool] = lambda name: False) -> list[Row]:
    """The rows of a text. ``is_module`` tells a module's name from the name of who wrote a message."""
    return rows_from(lines(text), is_module)


def rows_from(found: Sequence[Line], is_module: Callable[[str], bool]) -> list[Row]:
    """The rows of lines already cut."""
    rows: list[Row] = []
    known: dict[str, Row] = {}
    numbered = numbering.line_numbers(found)
    for at, line in enumerate(found):
        like = known.get(line.text)
        if numbered:
            row = _numbered(line, numbered[at], is_module)
        elif like is None:
            row = known[line.text] = _row(line, is_module)
        else:
            line.indent = like.line.indent
            row = Row(line, like.text, like.start, like.low, like.finds)
        rows.append(row)
    return rows


def _row(line: Line, is_module: Callable[[str], bool]) -> Row:
    """One line without the marks before it."""
    text = line.text
    bare = text.strip()
    if not bare:
        return Row(line, "", 0)
    start = 0 if bare[0] == text[0] else len(text) - len(text.lstrip())
    if bare[0].isalpha() and bare[1:2] not in _AFTER_A_LETTER and bare[0] not in "nN":
        return Row(line, bare, start)
    return _unmarked(line, start, start + len(bare), is_module)


def _numbered(line: Line, end: int, is_module: Callable[[str], bool]) -> Row:
    """A line behind its number, which ends at ``end``; its indent is what stands between both."""
    bare = line.text[end:].strip()
    if not bare:
        return Row(line, "", 0)
    line.text, line.low = " " * end + line.text[end:], " " * end + line.low[end:]
    line.indent = indent_of(line.text[end + 1 :])
    start = len(line.text) - len(line.text[end:].lstrip())
    return _unmarked(line, start, start + len(bare), is_module)


def _unmarked(line: Line, start: int, stop: int, is_module: Callable[[str], bool]) -> Row:
    """The line between ``start`` and ``stop`` without quote marks, time stamp and sender, bullets and numbers."""
    text = line.text
    first = text[start]
    if first == ">":
        match = _QUOTE.match(text, start)
        if match is not None:
            start = match.end()
            # What was quoted keeps the indent that it had; a mark that is set in itself is a bullet.
            line.indent += indent_of(text[start:stop])
    if start < stop and (text[start] == "[" or text[start].isdigit()):
        match = _STAMP.match(text, start)
        # "23/02/2025 08:44 - as found:" tells of a scan, and nobody wrote it in a chat.
        of_scan = match is not None and text[start] != "[" and phases.find(line.low[match.end() : stop]) is not None
        if match is not None and match.end() < stop and not of_scan:
            start = match.end()
            sender = _SENDER.match(text, start)
            named = sender is not None and (is_module(sender[1]) or _is_key(sender[1].lower()))
            if sender is not None and not named and not _may_be_module(sender[1], line, sender.end(), stop):
                start = sender.end()
    for _ in range(2):
        if start < stop and not text[start].isalpha():
            if text[start].isdigit() and (
                    dates.begins(line.low[start : start + 40]) or phases.scan_head(line.low[start:stop])):
                break
            match = _BULLET.match(text, start)
            if match is not None and match.end() < stop:
                start = match.end()
                continue
        elif text[start + 1 : start + 2] in (")", ".") or text[start : start + 2].lower() in ("no", "nr"):
            match = _BULLET.match(text, start)
            if match is not None and match.end() < stop and "." in match[0] + text[start : start + 2]:
                start = match.end()
        break
    while start < stop and text[start].isspace():
        start += 1
    return Row(line, text[start:stop], start)


def uncommented(rows: Sequence[Row], is_module: Callable[[str], bool] = lambda name: False) -> list[Row]:
    """The rows, those with codes without what somebody wrote behind them ("# seen last week too", "??"); two strokes
    part modules as well ("ABS: C0035 // Radio: no codes")."""
    found = list(rows)
    told = any(_explains_hash(row) for row in rows)
    back = _point_back(rows, is_module)
    for at, row in enumerate(found):
        text = row.text
        if not row.finds.codes or text[-1] == "|":
            continue
        if "#" not in text and "<-" not in text and "//" not in text and text[-1] not in "?!":
            continue
        comment = _COMMENT.search(row.text, row.finds.codes[-1].end)
        if comment is not None and not (told and comment[0].lstrip()[0] == "#") and not (
                back and comment[0].lstrip()[0] == "<") and not (
                comment[0].lstrip().startswith("//") and (
                    _parts_cells(row, comment.start()) or _tells_of_module(comment[0].lstrip()[2:], is_module))):
            found[at] = Row(row.line, row.text[: comment.start()], row.start)
    return found


def _point_back(rows: Sequence[Row], is_module: Callable[[str], bool]) -> bool:
    """Whether arrows lead back from names to the codes before them ("P0562 <- ABS: low"), not to what somebody wrote: a
    few words before a mark stand behind each, some of them a listed name."""
    texts = [_NAME_END.split(row.text.partition("<-")[2].lstrip("- "), maxsplit=1)[0] for row in rows
             if "<-" in row.text and row.finds.codes and row.finds.codes[-1].end < row.text.index("<-")]
    return len(texts) > 1 and all(0 < len(text) <= _LONGEST_NAME for text in texts) and any(map(is_module, texts))


def _parts_cells(row: Row, start: int) -> bool:
    """Whether the two strokes at a place part cells of the row: others do before the code or behind it, or a status
    stands behind them ("ABS // C0035 // stored", "C0035 // stored")."""
    text = row.text
    if "http" in text:
        return False
    return "//" in text[:start] or text.count("//") > 1 or states.of_cell(row.low[start:].strip(" /.")) is not None


def _tells_of_module(text: str, is_module: Callable[[str], bool]) -> bool:
    """Whether a text gives the answer of a module, or names one before a mark."""
    for part in text.split("//"):
        said = spoken(low(part))
        lead = part[: said[0].start] if said else _MARK.split(part, maxsplit=1)[0]
        if (said and lead.rstrip().endswith(":")) or (lead != part and is_module(lead.strip(" :=>-"))):
            return True
    return False


def _explains_hash(row: Row) -> bool:
    """Whether a line without a code tells what "#" stands for."""
    if "#" not in row.line.text or row.finds.codes or len(row.line.low) > LONGEST:
        return False
    return any(states.of_cell(match[1].strip(" .)]")) is not None for match in _SIGN_TOLD.finditer(row.line.low))


def _may_be_module(name: str, line: Line, start: int, stop: int) -> bool:
    """Whether what stands before a colon is like the name of a module, and codes or an answer and nothing else behind
    it: an abbreviation, or words of which only the first begins with a capital."""
    others = name.split()[1:]
    if not unknown.is_short(name) and not (others and all(word.islower() for word in others)):
        return False
    rest = line.low[start:stop]
    codes = find(line.text[start:stop]).codes
    return bool(codes and not codes[0].start) or answer_of_cell(rest) is not None


def _is_key(low: str) -> bool:
    """Whether what stands before a colon is a key or an answer ("Not answering: radio"), and no one's name."""
    return role_of(low) is not None or bool(spoken(low))


def _tells(low: str) -> bool:
    """Whether a line is the status of a code or the answer of a module: no page's head or foot, nor is what it is
    said of."""
    return states.of_cell(low) is not None or answer_of_cell(low) is not None


def page_marks(rows: Sequence[Row], is_module: Callable[[str], bool] = lambda name: False) -> set[int]:
    """The numbers of the lines that are a page's head or foot: they count pages, or stand at each of those again."""
    found: set[int] = set()
    counted: list[int] = []
    for at, row in enumerate(rows):
        if (
            not row.blank
            and not row.finds.codes
            and len(row.text) <= 120
            and not (row.roles and row.kind in ("|", ";", ",", "\t"))
            and _counts_pages(row.low)
        ):
            counted.append(at)
            found.add(row.line.number)
    if not counted:
        return found
    # What stands at the same distance from a page number again and again is head or foot too.
    places = [
        (near - at, near)
        for at in counted
        for near in range(max(0, at - 3), min(len(rows), at + 4))
        if near != at and not rows[near].blank and not rows[near].head and not rows[near].finds.codes
        and not _tells(rows[near].low) and not ends_with_status(rows[near].low) and not (
            near + 1 < len(rows) and _tells(rows[near + 1].low))
    ]
    beside = Counter((distance, _DIGITS.sub("#", rows[near].low)) for distance, near in places)
    for distance, near in places:
        row = rows[near]
        if beside[distance, _DIGITS.sub("#", row.low)] >= max(2, 0.6 * len(counted)) and not (
            is_module(row.text) or spoken(row.low) or answer_of_cell(row.low) or stated_count(row.low)
        ):
            found.add(row.line.number)
    return found | _titles(rows, counted, is_module)


@remembered
def is_page_count(low: str) -> bool:
    """Whether a line begins or ends with the number of a page, or has it between marks: nothing goes on in it.

    >>> is_page_count("page 1 of 2"), is_page_count("04.03.2022   seite 1/2"), is_page_count("on page 2 of the report")
    (True, True, False)
    """
    match = _PAGE.search(low) if len(low) <= 120 and _PAGE_SIGNS.search(low) is not None else None
    if match is None:
        return False
    before, after = low[: match.start()].rstrip(), low[match.end() :].lstrip()
    return not before.strip(" -") or not after.strip(" -") or (before[-1] in "-|/" and after[0] in "-|/")


@remembered
def _counts_pages(low: str) -> bool:
    """Whether the number of a page stands in a line."""
    return _PAGE_SIGNS.search(low) is not None and _PAGE.search(low) is not None


def with_blanks(blank: Sequence[bool], places: set[int]) -> set[int]:
    """Some places of lines and those of the blank lines around them, by whether each line is blank.

    >>> with_blanks([True, False, True, False, True], {1})
    {0, 1, 2}
    """
    filled = [at for at, none in enumerate(blank) if not none and at not in places]
    runs = (range(first + 1, stop) for first, stop in pairwise([-1, *filled, len(blank)]))
    return {at for run in runs if not places.isdisjoint(run) for at in run}


def _titles(rows: Sequence[Row], counted: Sequence[int], is_module: Callable[[str], bool]) -> set[int]:
    """The lines right beside a page number that are no part of the scan: the report's title, or a line that the text
    holds once more elsewhere (the firm, the plate)."""
    places: dict[str, list[int]] = defaultdict(list)
    for at, row in enumerate(rows):
        if not row.blank:
            places[_undated(row.low)].append(at)
    top = {_undated(row.low) for row in islice((row for row in rows if not row.blank), _MOST_TITLES)}
    found: set[int] = set()
    for at in counted:
        for step in (1, -1):
            near, filled, parted = at + step, 0, False
            while 0 <= near < len(rows) and filled < _MOST_TITLES:
                row = rows[near]
                if row.blank or row.kind == "rule":
                    if parted or filled:
                        break
                    parted = True
                else:
                    if step == 1 and filled and _is_date_of_report(rows, near, at):
                        found.add(row.line.number)
                        break
                    others = [other for other in places[_undated(row.low)] if abs(other - at) > _MOST_TITLES]
                    # What the text begins with heads each page, whatever goes on below it.
                    again = _undated(row.low) in top and bool(others)
                    # One long number at several pages, a date or that of an order, is the report's wherever it stands.
                    same = [other for other in others if rows[other].low == row.low] if _LONG.search(row.low) else []
                    again = again or bool(same) or _is_dated_title(rows, near, at, top)
                    if phases.scan_head(row.low) is not None and not again and _undated(row.low) not in top:
                        # "Scan 2" below "Scan 1" is no title that stands again.
                        break
                    if not _is_title(row, is_module, again) or not (
                            again or TITLE.search(row.low) or _stands_apart(rows, others)):
                        break
                    found.update(rows[other].line.number for other in same)
                    found.add(row.line.number)
                    filled += 1
                near += step
    return found


@remembered
def _undated(low: str) -> str:
    """A line with "#" for its numbers, without its date where it holds more: a title is dated on some pages alone."""
    taken = dates.places(low) if has_digit(low) else frozenset()
    bare = "".join(sign for place, sign in enumerate(low) if place not in taken).strip(" -|,")
    return _DIGITS.sub("#", bare if has_letter(bare) else low)


def _is_title(row: Row, is_module: Callable[[str], bool], again: bool = False) -> bool:
    """Whether nothing in a line tells of a module, an answer or a phase. ``again``: the text begins with it."""
    if row.finds.codes or row.finds.refusals or row.head or row.roles or len(row.text) > 100 or is_module(row.text):
        return False
    if ":" in row.text.replace("://", "") and not again and not dates.find(row.text):
        return False
    if stated_count(row.low) or spoken(row.low) or answer_of_cell(row.low) or (
            ":" in _undated(row.low) and STATES.find(row.low)):
        return False
    # "Fault memory report" tells no status where the text begins with it.
    return phases.find(row.low) is None and not (STATES.find(row.low) and not (again and TITLE.search(row.low)))


def _is_date_of_report(rows: Sequence[Row], at: int, page: int) -> bool:
    """Whether a line below the title of a report, at the head of a page, is a date alone, and no other date heads the
    report: another would be that of another scan."""
    return _is_reports_date(rows, rows[at].low.strip(), page)


def _is_dated_title(rows: Sequence[Row], at: int, page: int, top: Container[str]) -> bool:
    """Whether a line at the edge of a page is the title that the text begins with and, behind it, the date of the
    report."""
    low = rows[at].low
    begin = next((place for place, sign in enumerate(low) if sign.isdigit()), 0)
    return low[:begin].rstrip(" ,:|-") in top and _is_reports_date(rows, low[begin:].strip(), page)


def _is_reports_date(rows: Sequence[Row], low: str, page: int) -> bool:
    """Whether a text is a date alone, and no other one heads the report."""
    if not has_digit(low[:4]) or len(low) > _LONGEST_DATE or not set(range(len(low))) <= dates.places(low) | {
            place for place, sign in enumerate(low) if sign in " ,:"}:
        return False
    heads = [row.low for row in rows[: min(page, _MOST_HEAD)] if not row.blank and not row.finds.codes]
    return all(low in head for head in heads if dates.places(head))


def _stands_apart(rows: Sequence[Row], places: Sequence[int]) -> bool:
    """Whether a line that stands at several places stands over no code or answer there: it is no heading."""
    below = [
        next((row for row in rows[at + 1 : at + 4] if not (row.blank or alone(row.low))), None) for at in places[:8]
    ]
    return bool(below) and not any(
        row is not None and (row.finds.codes or spoken(row.low) or answer_of_cell(row.low)) for row in below
    )
