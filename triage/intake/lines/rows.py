"""Rows: lines without the marks that mails, chats and lists put before them.

>>> [(row.text, row.start) for row in rows_of("> 1) ECM P0562\\n[08:12] - Max: ABS ok\\n  • P0300")]
[('ECM P0562', 5), ('ABS ok', 15), ('P0300', 4)]
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from triage.intake.codes.found import find
from triage.intake.lines import unknown
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, indent_of, lines, low
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import LONGEST
from triage.intake.said import dates, phases, states
from triage.intake.said.answers import answer_of_cell, spoken

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
#: Behind a line: "  # seen last week too", " <- look at this first", " ??"; "Engine #1" is a number.
_COMMENT = lazily(r"\s+(?:(?:#(?![0-9])|<-+|//)\s?[^\s|].{0,80}|[?!]{2,})$")
_NAME_END, _LONGEST_NAME = lazily(r"\s?[:|(\[;]|\s-+\s|\s/\s|\s\s"), 48
#: A legend explains the sign: "# = confirmed".
_SIGN_TOLD = lazily(r"(?:^|(?<=[\s,;|/(:\[\"']))#\s?[)\]\"']?\s*[=:-]\s*([^\W\d][^=,;|/]{2,40})")
_MARK = lazily(r"\s?[:=]|\s-+>?\s|->")


def rows_of(text: str, is_module: Callable[[str], bool] = lambda name: False) -> list[Row]:
    """The rows of a text. ``is_module`` tells a module's name from the name of who wrote a message."""
    return rows_from(lines(text), is_module)


def rows_from(found: Sequence[Line], is_module: Callable[[str], bool]) -> list[Row]:
    """The rows of lines already cut."""
    rows: list[Row] = []
    known: dict[str, Row] = {}
    dated = _dates_scans(found)
    for line in found:
        like = known.get(line.text)
        if like is None:
            row = known[line.text] = _row(line, is_module, dated)
        else:
            line.indent = like.line.indent
            row = Row(line, like.text, like.start, like.low, like.finds)
        rows.append(row)
    return rows


def _dates_scans(found: Sequence[Line]) -> bool:
    """Whether the days and times that lines begin with are those of scans: fewer than half of the lines have one, as
    nobody's messages do."""
    stamped = sum(line.text[:1].isdigit() and _STAMP.match(line.text) is not None for line in found)
    return 0 < 2 * stamped < sum(bool(line.text.strip()) for line in found)


def _row(line: Line, is_module: Callable[[str], bool], dated: bool = False) -> Row:
    """One line without the marks before it; ``dated``: not without the day and the time of a scan."""
    text = line.text
    bare = text.strip()
    if not bare:
        return Row(line, "", 0)
    start = 0 if bare[0] == text[0] else len(text) - len(text.lstrip())
    if bare[0].isalpha() and bare[1:2] not in _AFTER_A_LETTER and bare[0] not in "nN":
        return Row(line, bare, start)
    return _unmarked(line, start, start + len(bare), is_module, dated)


def _unmarked(line: Line, start: int, stop: int, is_module: Callable[[str], bool], dated: bool) -> Row:
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
        sender = _SENDER.match(text, match.end()) if match is not None else None
        of_scan = of_scan or (dated and match is not None and text[start] != "[" and sender is None and bool(
            find(text[match.end() : stop]).codes or spoken(line.low[match.end() : stop])))
        if match is not None and match.end() < stop and not of_scan:
            start = match.end()
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
