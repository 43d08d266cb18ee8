"""Legends: lines that explain the letters a text uses for statuses and answers, wherever they stand and however they
are set: "(S)=stored (P)=pending  n/c = no comms".

>>> from triage.intake.lines.rows import rows_of
>>> legend = adopt(rows_of("ECM P0562 (S)\\nBCM n/c\\n(S)=sotred (P)=pending  n/c = no comms"), lambda name: False)
>>> [row.text for row in legend.rows], legend.statuses, legend.answers
(['ECM P0562 (stored)', 'BCM n/c', ''], {'s': 'stored', 'p': 'pending'}, {'n/c': 'no comms'})
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from typing import NamedTuple

from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.languages import language
from triage.intake.said.legendentries import LEAD, Entry, barely, footnote, meant, others
from triage.intake.tidying import legenddigits, lettersahead, ownsigns
from triage.model.snapshot import StatusWord

_LETTERS = r"[a-z]{2,6}\.|[a-z][a-z0-9/.]{0,3}|[^\w\s=:,;|()\[\]/\"'.]{1,2}|[0-9](?=\s?[=:)\]-])"
#: A letter with its sign, or in brackets: "S =", "(S)=", "[S]".
_HEAD = lazily(
    rf"(?<![^\s,;|/(\[\"])(?:[(\[\"']\s?({_LETTERS})\s?[)\]\"']\s*(?:=|:|->|-|\s)|"
    rf"({_LETTERS})\s*(?:=|:\s|->|\s-\s))\s*"
)
_EDGE, _CODE_EDGE = " \t,;|/.()[]-&+", " \t,;|()[]<>{}\"'"
#: What looks like the number or the mark of a list: "(c) - current", "1: present", "* = pending".
_BULLET = lazily(r"(?:\(?[a-z0-9][)]|[0-9]\s?:|[*#])\s*(?:-\s*)?$")
_SIGN = lazily(r"[^\w\s]{1,2}")
#: A sign stands by itself between these.
_APART = r"\s,;|\"'()\[\]:=^\u2502"
#: Letters that few texts use by themselves, the rarest first.
_RARE = "qzxjywvkugolhbnrtidfmspace"
#: A sign explained in a sentence, which names no module: "A dash means the module answered and had nothing."
_SPOKEN = lazily(
    r"(?:^[(*\s]*|(?<=[.;!] ))(?:an? |the |ein |un |une |una )?(?:dash|hyphen|stroke|tick|cross|star|asterisk|blank|"
    r"empty cell|strich|haken|kreuz|stern|tiret|croix|coche|etoile|guion|cruz|asterisco)(?:es|s)? "
    r"(?:means?|stands? for|marks?|heisst|bedeutet|steht fur|signifie|significa)(?![a-z])")
_EXPLAINS = signs.of_pattern(r"^(?:mean|stand|mark|heisst|bedeutet|steht|signif)")
#: Without one of these between a letter and its meaning, or around the letter, no line explains any.
_MARKS = frozenset("=:-([\"'*#!+^~")
_LONGEST, _MOST = 200, 12
_MARKS_BETWEEN = str.maketrans(",;|^\u2502", "     ")
#: A sign last in a row, in brackets perhaps.
_AT_END = lazily(r"(?<![^\s=:(\[])([^\w\s()\[\]]{1,2})(\s?[)\]]?)$")
#: A letter last in a row, set off from what is before it.
_LAST = lazily(r"([(\[<{]\s?|[>)\]}]\s{1,3}|\s-\s)([A-Za-z0-9]{1,2}|[a-z]{2,6}\.)(\s?[)\]>}]?)\s*$")
#: The same in the last cell of a list of codes, a capital behind a comma too.
_LAST_CELL = lazily(r"(\s\|\s|,\s(?=[A-Z]\s*$))([A-Za-z0-9]{1,2}|[a-z]{2,6}\.)()\s*$")
_ENCLOSED = lazily(r"[(\[<{]\s?([A-Za-z0-9]{1,2})(?=\s?[)\]>}])")
_ROUND = str.maketrans("<>{}", "()()")
_LISTED = lazily(r"\s([A-Za-z0-9]{1,2})(?=\s*(?:[,.;)]|$))")
#: The short word between a code and its text, one space around it, a dash before it perhaps.
_NEXT_WORD = lazily(r"\s{1,2}(?:-\s)?([^\s()\[\]|;,-]{1,2}) (?=\w)")
#: A sign right behind a code.
_GLUED = lazily(r"([^\w\s.,;:()\[\]|/-]{1,2})(?=[\s,;]|$)")
_CELL_MARKS = frozenset(",;|\t^\u2502")
_CELLS = lazily(r"[;|\t^\u2502]|\s{2,}|,\s|,(?=[^,]?$)")
_ONE_LETTER = lazily(r"(?<![a-z0-9])[a-z](?![a-z0-9])")


class Legend(NamedTuple):
    """The rows without the lines that explain letters, and what those stand for: statuses by small letters, the wording
    of answers by the letters as they are printed; the status of the codes that have no mark."""

    rows: list[Row]
    statuses: dict[str, StatusWord]
    answers: dict[str, str]
    unmarked: StatusWord | None = None


def adopt(rows: Sequence[Row], is_name: IsName) -> Legend:
    """Take the letters of all legends. ``is_name`` tells the name of a module, which explains nothing. Linear."""
    legend = Legend([_unspoken(row) for row in rows], {}, {})
    explained = list(_explained(rows, is_name))
    # What nothing but lines of answers begins with may be the names of modules: "COM - no codes".
    named = {at for places, entries in explained if _answered(places, entries) for at in places}
    used = _used(rows) if explained else set()
    is_bullet = cache(lambda sign: _is_bullet(rows, sign))
    elsewhere = _used([row for at, row in enumerate(rows) if at not in named]) if named else used
    for places, entries in explained:
        first = entries[0].letters
        sure = len(entries) > 1 or not first.isdigit() or legenddigits.is_a_status(rows, places[0], first)
        sure = sure and not (entries[0].bare and is_bullet(first))
        words = elsewhere if _answered(places, entries) else used
        if sure and _explain(entries, words, alone=len(places) == len(entries)):
            _take(legend, places, entries)
            legend = legend._replace(unmarked=entries[-1].others or legend.unmarked)
    legend = legend._replace(rows=lettersahead.written(legend.rows, legend.statuses))
    _put_behind(legend)
    signs_told = [letters for letters in legend.statuses if _SIGN.fullmatch(letters)]
    if signs_told:
        _mark_each(legend, signs_told)
        legend = legend._replace(rows=ownsigns.told(legend.rows, legend.statuses))
        free = _free_letters(rows, legend)
        for sign in signs_told:
            status, letter = legend.statuses.pop(sign), next(free, None)
            if letter is not None:
                legend.statuses[letter] = status
                _write_out(legend.rows, sign, letter)
    _word_ends(legend)
    return legend


def _word_ends(legend: Legend) -> None:
    """Put the word of a status for its letter at the end of rows with codes, in brackets or behind a name in brackets
    or behind a dash, where it might be taken for a part of the name: "... <Parking sensors> S", "... @ ABS - (S)"."""
    for at, row in enumerate(legend.rows):
        if row.blank or not legend.statuses:
            continue
        if len(row.finds.codes) > 1 and (listed := _with_words(row, legend.statuses)) != row.text:
            legend.rows[at] = row.saying(listed)
            continue
        # Without a code in it a row may be the rest of a description: "implausible (S)".
        match = _LAST.search(row.text, row.finds.codes[-1].end if row.finds.codes else 0)
        if match is None and row.finds.codes and not row.text[: row.finds.codes[0].start].strip(_CODE_EDGE):
            match = _LAST_CELL.search(row.text, row.finds.codes[-1].end)
        if match is not None and not row.finds.codes and match[1][0] not in "([<{":
            continue
        status = legend.statuses.get(match[2].lower()) if match is not None else None
        if match is not None and status is not None:
            around = match[1].translate(_ROUND) if match[3] else match[1]
            text = f"{row.text[: match.start()]}{around}{status}{match[3].translate(_ROUND)}"
            legend.rows[at] = row.saying(text, row.finds)


def _with_words(row: Row, statuses: dict[str, StatusWord]) -> str:
    """The text of a row with words for the letters right behind several codes, or in brackets behind the text of each:
    "P0335 C, P0336 S.", "P0562 low (X), P0700 (H)"."""
    text, stop = row.text, len(row.text)
    for code in reversed(row.finds.codes):
        match = _LISTED.match(row.text, code.end, stop) or _ENCLOSED.search(row.text, code.end, stop)
        stop = code.start
        if match is not None and match[1].lower() in statuses and _is_marked(row, match[1]):
            text = f"{text[: match.start(1)]}{statuses[match[1].lower()]}{text[match.end(1) :]}"
    return text


def _put_behind(legend: Legend) -> None:
    """Put a letter or sign that stands right before or right behind the code of a row behind the row ("( ! ) P0106  MAP
    sensor", "U0401 A lost communication"), and a digit that ends each row with codes in brackets."""
    coded = [at for at, row in enumerate(legend.rows) if row.finds.codes]
    for at in coded:
        row = legend.rows[at]
        first, end = row.finds.codes[0].start, row.finds.codes[-1].end
        lead = row.low[:first].strip(_CODE_EDGE)
        next_word = _NEXT_WORD.match(row.text, end) if len(row.finds.codes) == 1 else None
        if lead and lead in legend.statuses and not _CELL_MARKS.intersection(row.text[:first]):
            text = f"{row.text[first:]}  [{row.text[:first].strip(_CODE_EDGE)}]"
            legend.rows[at] = row.part(first).saying(text)
        elif next_word is not None and next_word[1].lower() in legend.statuses and _is_marked(row, next_word[1]):
            text = f"{row.text[:end]}{row.text[next_word.end() - 1 :]} [{next_word[1]}]"
            legend.rows[at] = row.saying(text, row.finds)
    ends = {legend.rows[at].low.split()[-1] for at in coded}
    if len(coded) > 1 and all(end.isdigit() and end in legend.statuses for end in ends):
        for at in coded:
            row = legend.rows[at]
            text = row.text.rstrip()
            bare = text[:-1].rstrip()
            if len(bare) >= row.finds.codes[-1].end:
                text = f"{bare} [{text[-1]}]"
                legend.rows[at] = row.saying(text, row.finds)


def _is_celled(row: Row) -> bool:
    """Whether a row may be one of a table: makers' own numbers are not told yet."""
    return any(row.text.count(mark) > 1 for mark in (",", ";", "|", "\t"))


def _is_marked(row: Row, letter: str) -> bool:
    """Whether a letter behind a code is no small word of a text ("U0401 a fault")."""
    return not letter.islower() or row.text.islower()


def _free_letters(rows: Sequence[Row], legend: Legend) -> Iterator[str]:
    """Letters that stand by themselves nowhere in a text: a sign written as one of them is read as letters are, and
    nothing moves from its place."""
    taken = {word for row in rows for word in _ONE_LETTER.findall(row.low)}
    return (letter for letter in _RARE if letter not in taken and letter not in legend.statuses)


def _unspoken(row: Row) -> Row:
    """The row without a sentence that explains a sign."""
    if row.finds.codes or not signs.of(row.low) & _EXPLAINS:
        return row
    told = _SPOKEN.search(row.low)
    return row if told is None else Row(row.line, row.text[: told.start()].rstrip(), row.start)


def _explained(rows: Sequence[Row], is_name: IsName) -> Iterator[tuple[list[int], Sequence[Entry]]]:
    """The lines that explain several letters, and those that follow each other and explain one each."""
    waiting: dict[int, Entry] = {}
    whole: tuple[int, Sequence[Entry]] = -2, ()
    translated = cache(lambda: language([row.low for row in rows if not row.blank]) != "en")
    placed = cache(lambda: legenddigits.placed(rows))
    told = cache(lambda text, low: _told(text, low, is_name, translated, placed))
    for at, row in enumerate(rows):
        if row.blank or row.finds.codes or len(row.low) > _LONGEST:
            continue
        if _MARKS.isdisjoint(row.line.text):
            sign = footnote(row.line.low, translated)
            if sign is not None and legenddigits.is_a_status(rows, at, sign[0]):
                yield [at], [Entry(*sign, "")]
            continue
        if not (entries := told(*_with_bullet(row))) and (not row.start or len(entries := told(row.text, row.low)) < 2):
            continue
        if waiting and (len(entries) > 1 or at - 1 not in waiting):
            yield list(waiting), list(waiting.values())
            waiting = {}
        if len(entries) > 1:
            yield [at], entries
            whole = at, entries
        elif whole[0] == at - 1:
            # The last of a list that was wrapped.
            yield [at], [*whole[1], entries[0]]
        else:
            waiting[at] = entries[0]
    if waiting:
        yield list(waiting), list(waiting.values())


def _mark_each(legend: Legend, told: Sequence[str]) -> None:
    """Put the words of statuses for the signs behind the codes of rows with several, and behind those that have none:
    "P0335*, P0336" """
    for at, row in enumerate(legend.rows):
        if len(row.finds.codes) < 2:
            continue
        marks = [_sign_behind(row.text, code.end, told) for code in row.finds.codes]
        if not any(marks):
            continue
        text = row.text
        for code, mark in zip(reversed(row.finds.codes), reversed(marks), strict=True):
            word = legend.statuses[mark] if mark else legend.unmarked
            if word is not None:
                rest = text[code.end :].lstrip(" ")[len(mark) :] if mark else text[code.end :]
                text = f"{text[: code.end]} ({word}){rest}"
        legend.rows[at] = row.saying(text)


def _sign_behind(text: str, end: int, told: Sequence[str]) -> str:
    """The sign behind a code, "" where none stands there."""
    rest = text[end : end + 4].lstrip(" ")
    return next((sign for sign in told if rest.startswith(sign) and not rest[len(sign) : len(sign) + 1].isalnum()), "")


def _write_out(rows: list[Row], sign: str, letter: str) -> None:
    """Put a letter for a sign that stands by itself in rows with codes ("P0562 *", "| ! | P0562"), behind the code
    ("P0562*"), or last in a row ("State: !")."""
    mark = re.escape(sign)
    alone = re.compile(rf"[(\[]\s{mark}\s[)\]]|(?<![^{_APART}]){mark}(?![^{_APART}])")
    for at, row in enumerate(rows):
        if sign not in row.line.text or row.blank:
            continue
        codes = row.finds.codes
        ends = row.text.endswith(sign)
        if codes and row.start and row.line.text[: row.start].strip(" \t([)]") == sign:
            # It was taken for the bullet of a list.
            text = f"{row.text} {letter}"
        elif codes or _is_celled(row):
            text = alone.sub(lambda match: letter.ljust(len(match[0])), row.text)
            glued = [code.end for code in codes if _GLUED.match(text, code.end) and text.startswith(sign, code.end)]
            if codes and text == row.text and ends and len(text) - len(sign) >= codes[-1].end:
                text = f"{text[: -len(sign)].rstrip()} {letter}"
            elif text == row.text and len(glued) == 1:
                # "C0035*  wheel sensor"
                text = f"{text[: glued[0]]}{text[glued[0] + len(sign) :].rstrip()} [{letter}]"
        else:
            last = _AT_END.search(row.text)
            sure = last is not None and last[1] == sign
            text = f"{row.text[: last.start(1)]}{letter}{last[2]}" if sure and last is not None else ""
        if text and text != row.text:
            rows[at] = row.saying(text, row.finds)


def _take(legend: Legend, places: Sequence[int], entries: Sequence[Entry]) -> None:
    """Take the entries of lines at some places, and leave these blank."""
    if len(legend.statuses) + len(legend.answers) > _MOST:
        return
    for at in places:
        legend.rows[at] = Row(legend.rows[at].line, "", 0)
    for entry in entries:
        if entry.status is not None:
            # In a cell a letter is looked for without the full stop that it may be printed with.
            for letters in {entry.letters.lower(), entry.letters.lower().rstrip(".")} - {""}:
                legend.statuses[letters] = entry.status
        elif entry.answer:
            legend.answers[entry.letters] = entry.answer


def _explain(entries: Sequence[Entry], used: set[str], alone: bool) -> bool:
    """Whether entries explain letters: several, different ones, of which the text uses some; each if they stand in
    lines of their own."""
    letters = [entry.letters.lower() for entry in entries]
    if len(set(letters)) < len(letters):
        return False
    if len(letters) < 2 and not entries[0].led and not _SIGN.fullmatch(letters[0]):
        return False
    return all(letter in used for letter in letters) if alone else any(letter in used for letter in letters)


def _answered(places: Sequence[int], entries: Sequence[Entry]) -> bool:
    """Whether lines explain one answer each, with no word for a legend before it."""
    return len(places) == len(entries) and all(entry.answer and not entry.status and not entry.led for entry in entries)


def _with_bullet(row: Row) -> tuple[str, str]:
    """The text of a row, and the same in small letters, with what was taken for its bullet."""
    bullet = _BULLET.search(row.line.low, max(0, row.start - 8), row.start) if row.start else None
    if bullet is None:
        return row.text, row.low
    begin = bullet.start()
    return row.line.text[begin : row.start] + row.text, row.line.low[begin : row.start] + row.low


def _told(
    text: str, low: str, is_name: IsName, translated: Callable[[], bool], placed: Callable[[], legenddigits.Places]
) -> Sequence[Entry]:
    """The letters that a line explains in which a mark stands that a legend needs; none where it holds anything else.
    ``placed``: the digits in the places of statuses, which are that where a line explains all of them."""
    low, unmarked = others(low, translated)
    first = _first_head(low)
    if first < 0:
        return [entry._replace(others=unmarked) for entry in barely(low, translated)]
    led = bool(low[:first].strip(_EDGE))
    heads = _HEAD.finditer(low, first)
    head = next(heads, None)
    found: list[Entry] = []
    signed: list[tuple[str, bool]] = []
    while head is not None:
        following = next(heads, None)
        stop = following.start() if following is not None else len(low)
        start, end = head.span(1) if head[1] is not None else head.span(2)
        letters, meaning = text[start:end], low[head.end() : stop].strip(_EDGE)
        status = states.of_cell(meaning, translated()) or states.of_cell(meant(meaning), translated())
        answer = answer_of_cell(meaning) if status is None else None
        if states.of_cell(letters.lower()) not in (None, status) or (
                is_name(letters) and (status is None or not meaning.startswith(letters.lower().rstrip(".")))):
            # "PAS = passive", "pas. = passiv" explain letters that are a name elsewhere.
            return []
        if status is None and answer is None:
            if not led:
                return []
            meaning = ""
        found.append(Entry(letters, status, meaning, led))
        signed.append((letters, head[1] is not None or "=" in head[0] or ":" in head[0]))
        head = following
    if not any(entry.status or entry.answer for entry in found):
        return []
    found[-1] = found[-1]._replace(others=unmarked)
    return found if legenddigits.may_be_statuses(signed, low, led, placed()) else []


def _is_bullet(rows: Sequence[Row], sign: str) -> bool:
    """Whether a sign stands before lines with codes, as the bullet of a list does, or behind none of them."""
    coded = [row for row in rows if row.finds.codes]
    if any(row.line.text.strip(_CODE_EDGE).startswith(sign) for row in coded):
        return True
    return not any(row.line.low.rstrip(_CODE_EDGE).endswith(sign) or any(
        _sign_behind(row.text, code.end, (sign,)) for code in row.finds.codes) for row in coded)


@remembered
def _first_head(low: str) -> int:
    """Where the first letter with its sign stands in a line that begins with one, behind a word for a legend perhaps;
    -1 in any other line."""
    lead = LEAD.match(low)
    first = lead.end() if lead is not None else 0
    bare = len(low) - len(low[first:].lstrip(_EDGE))
    if not any(_HEAD.match(low, at) for at in range(first, bare + 1)):
        return -1
    head = _HEAD.search(low, first)
    return head.start() if head is not None and not low[first : head.start()].strip(_EDGE) else -1


def _used(rows: Sequence[Row]) -> set[str]:
    """The small letters that stand beside a code, or last in a line without one."""
    found: set[str] = set()
    for row in rows:
        if row.blank:
            continue
        if row.finds.codes or _is_celled(row):
            parts = row.line.low.translate(_MARKS_BETWEEN).split()
            found.update(part.strip(_CODE_EDGE) for part in parts)
            behind = (_GLUED.match(row.text, code.end) for code in row.finds.codes)
            found.update(glued[1] for glued in behind if glued is not None)
            within = (_ENCLOSED.match(row.low, code.end) for code in row.finds.codes)
            found.update(letters[1] for letters in within if letters is not None)
        else:
            found.add(re.split(r"[\s=:]", row.low)[-1].strip(_CODE_EDGE))
            found.update(cell.strip(_CODE_EDGE) for cell in _CELLS.split(row.low))
    return found
