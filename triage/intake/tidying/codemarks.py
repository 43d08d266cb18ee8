"""Marks beside codes that a key explains, wherever that stands, and what a sentence says of the codes that have none:
"P0562*, P0563" with "* = failing now", "All stored unless marked (active)".

The mark of each code is written out as its status, before or behind which the text puts it; the key is left blank.

>>> from triage.intake.plain.characters import lines
>>> text = "ECM: P0562\\u00b9, P0563; U0100-16\\u00b2\\n\\u00b9: failing now, no mark = stored, \\u00b2 = pending"
>>> found, status = told(lines(text))
>>> [line.text for line in found], status
(['ECM: P0562 (current), P0563 (stored); U0100-16 (pending)', ''], 'stored')
>>> found, status = told(lines("All of them are history, except where ! is shown.\\nABS: C0035!, C0040"))
>>> [line.text for line in found], status
(['', 'ABS: C0035 (current), C0040'], 'stored')
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.plain.characters import Line, line_of, low, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import phases, states
from triage.intake.said.languages import language
from triage.intake.said.legendentries import LEAD
from triage.model.snapshot import StatusWord

_RAISED = "\u00b9\u00b2\u00b3\u2070\u2074-\u2079\u1d43\u1d47\u1d48\u1d49\u1d9c"
#: A sign, or a raised figure, drawn once to four times.
_MARK = (rf"(?:[{_RAISED}]{{1,2}}|([*!#+^~\u00b0\u00a7\u2020\u2021\u2190-\u21ff\u25a0-\u27bf])\1{{0,3}})"
         .replace(r"\1", r"(?P=sign)").replace("([*", "(?P<sign>[*"))
_ANY_MARK = lazily(rf"[*!#+^~\u00b0\u00a7\u2020\u2021\u2190-\u21ff\u25a0-\u27bf{_RAISED}]")
#: Signs that stand in any text, and are marks only where one says so.
_TOLD_SIGN = r"[-?](?=\s?[)\]}>]?\s?[=:]\s)"
_OPEN, _CLOSE = r"[(\[{<\"'\u201c\u2018\u00ab\u201e]?\s?", r"\s?[)\]}>\"'\u201d\u2019\u00bb\u201c]?"
#: A figure or a letter is a mark in brackets, or behind a sign that raises it.
_FIGURE = r"(?:\^?[a-z0-9])"
_NAMED = {"*": "asterisk star stern sternchen asterisque etoile asterisco estrella", "!": "exclamation ausrufezeichen",
          "\u2020": "dagger kreuz croix cruz", "#": "hash raute diese almohadilla"}
_SIGN_OF = {word: sign for sign, words in _NAMED.items() for word in words.split()}
_NAMES = lazily(rf"(?<![a-z])(?:{'|'.join(_SIGN_OF)})(?![a-z])")
_NO_MARK = (
    r"(?:(?:codes? |those |faults? |all )?(?:no|without|w/o|ohne|sans|sin)(?: (?:an?|any|the|une?|eine?n?))?"
    r" (?:mark(?:s|ing|er|ierung)?|sign|star|asterisk|symbol|footnote|zeichen|stern(?:chen)?|fussnote|kennzeichnung|"
    r"marque|signe|asterisque|etoile|renvoi|symbole|marca|signo|asterisco|simbolo|llamada|nota)|"
    r"unmarked(?: codes?| ones?)?|plain(?: codes?)?|not marked|(?:all )?(?:the )?(?:others?|rest)|"
    r"(?:every|any)thing else|(?:alle )?anderen?|nicht markiert(?:e)?|"
    r"ubrige|(?:les )?autres?|(?:los |las )?demas|(?:el )?resto|le reste)")
#: What may lead to a mark that is told of: "Codes with a * are ...", "marked * :".
_LEADS = (
    r"(?:(?:los|las|les|die|der|den|codes?|those|ones?|the|dtcs?|faults?|fehler|defauts?|averias?|codigos?|marked|"
    r"flagged|with|by|mit|avec|con|an?|ein(?:em|e[nr]?)?|une?|markiert|marques?|marcad[oa]s?|carrying|bearing|show(?:n|ing|s)?)\s+){0,5}")
_HEAD = lazily(
    rf"(?<![^\s,;|/(\[])(?:{_LEADS}{_OPEN}(?P<mark>{_MARK}|{_TOLD_SIGN}|{_FIGURE}){_CLOSE}|(?P<none>{_NO_MARK}))"
    r"(?:\s*(?:->|=>|[=:,\u2013\u2014-])\s*|\s+(?:(?:are|is|means?|stands? for|sind|ist|heisst|bedeutet|sont|est|"
    r"signifie|veut dire|son|estan?|significa)\s+)?)(?=[a-z])")
_EXCEPTED = (
    r"(?<![a-z])(?:unless|except(?:ing|ed)?(?: (?:for|where|when|if))?|other than|apart from|save(?: for| where)?|"
    r"but not|if not|where not|aus?ser(?: wo| wenn)?|ausgenommen|bis auf|(?:sofern|wenn|falls|soweit|wo) nicht|"
    r"es sei denn|nicht anders|sauf|excepte[es]*|hormis|a moins|a l'exception|salvo|excepto|menos|a menos|a no ser|"
    r"con excepcion)(?![a-z])")
_EXCEPT = lazily(_EXCEPTED)
_MAY_TELL = lazily(rf"{_EXCEPTED}|mark|flagged|^\W*[a-z0-9]\s?[=:)\]]|(?<!\S)[(\[]?[?-][)\]]?\s?=\s")
_TOLD_MARK = lazily(
    rf"[(\[<\"'\u201c\u2018\u00ab\u201e]\s?(?P<word>[^()\[\]<>\"']{{1,40}}?)\s?[)\]>\"'\u201d\u2019\u00bb\u201c]|"
    rf"(?<![\w.,]){_MARK}(?![^\s.,;)])")
_MARKED = lazily(r"(?<![a-z])(?:mark|flagg|tagg|shown|stated|noted|otherwise|indicat|star|asterisk|sign|angegeben|"
                 r"vermerk|gekennzeichnet|markier|anders|stern|zeichen|mention|indique|precis|contraire|signal|marque|"
                 r"indica|dice|contrario|marca|senal)")
#: Words beside the status of all codes.
_BESIDE = word_set("""all any every each everything them these those of the a are is for in this here list below above
    scan codes code dtc dtcs fault faults entries entry status state condition default defaults by note nb assume
    taken as read so otherwise listed ones alle alles samtliche sind ist fehler codes eintrage hier liste im bei fur
    zustand standard tout tous toutes les le la des de ce cette sont est defauts statut etat pour par defaut ici todo
    todos todas toda los las el estan son esta codigos averias fallos estado para por defecto aqui lista""")
_WORDS = lazily(r"[a-z']+")
_PARTS = lazily(r"\s*[,;(]\s*|\s+-+\s+|\s+(?:and|und|et|y)\s+")
_OPENING = " \t([\"'"
#: A maker's own number at the start of a line behind a mark, with words behind it.
_OWN = lazily(r"[^\w\s]{1,4}\s{0,4}(?P<own>(?=[A-Z]{0,5}[0-9])[0-9A-Z]{4,7})(?=\s+[^\W\d_]{2}|\s*$)")
_LONGEST, _TITLE = 220, 60


class _Key(NamedTuple):
    """What lines explain: statuses by marks as they are drawn, that of the codes that have none, and their places."""

    marks: dict[str, StatusWord]
    none: StatusWord | None
    places: list[int]
    #: Blanks alone stand between a mark and its meaning.
    bare: bool = False


def told(found: Sequence[Line]) -> tuple[Sequence[Line], StatusWord | None]:
    """The lines with marks written out and their key left blank, and the status of the codes without one; the same
    lines where no such key stands. Linear."""
    may = [at for at, line in enumerate(found) if 3 < len(line.text) <= _LONGEST
           and (_ANY_MARK.search(line.raw) or _MAY_TELL.search(line.low))]
    if not may:
        return found, None
    keys = _keys(found, may)
    if not keys:
        return found, None
    coded = {at: codes for at, line in enumerate(found) if (codes := _codes(line))}
    if not coded:
        return found, None
    out, none = list(found), None
    # Of several scans each may have a sentence of its own.
    several = len({hit.phase for line in found if len(line.low) <= _TITLE and (hit := phases.find(line.low))}) > 1
    for key in keys:
        used = {at: spans for at in coded if (spans := _marked(out[at], key.marks))} if key.marks else {}
        is_default = key.none is not None and _is_default(found[key.places[0]])
        ahead = _are_ahead(out, used)
        different = {span[3] for spans in used.values() for span in spans}
        if (not used and not is_default) or (ahead and key.bare and len(different) < 2):
            # A sign before each code with blanks behind it where it is explained is the bullet of a list.
            continue
        for at, spans in used.items():
            out[at] = _written(out[at], spans, key.marks, ahead)
        for at in key.places:
            whole = several and is_default
            text = f"All codes of this scan are {key.none}" if whole else ""
            line = out[at]
            out[at] = reworded(line, 0, len(line.text), text) if text else line_of(line.number, line.raw, "", (0,))
        none = none or (None if several and is_default else key.none)
    if none is not None:
        for at in coded:
            out[at] = _with_status_of_others(out[at], none)
    return out, none


def _codes(line: Line) -> Sequence[tuple[int, int]]:
    """Where the codes of a line stand; without any, a maker's own number that may have a mark before it."""
    found = [(code.start, code.end) for code in find(line.text, line.low).codes]
    own = None if found else _OWN.match(line.text, len(line.text) - len(line.text.lstrip()))
    return found if own is None else [own.span("own")]


def _with_status_of_others(line: Line, none: StatusWord) -> Line:
    """The line with the status of codes without a mark behind each that nothing is said of, where another stands behind
    it: the mark of the last is not for all."""
    codes = find(line.text, line.low).codes
    for code, other in reversed(list(pairwise(codes))):
        if not line.text[code.end : other.start].strip(" \t,;|/+&"):
            line = reworded(line, code.end - 1, code.end, f"{line.text[code.end - 1]} ({none})")
    return line


def _drawn(line: Line) -> str:
    """The text of a line with each character as it was pasted."""
    raw = line.raw
    if line.text == raw:
        return raw
    found = [raw[line.span(at, at + 1)[0]] for at in range(len(line.text))]
    return "".join(char if _ANY_MARK.match(char) else own for char, own in zip(found, line.text, strict=True))


def _keys(found: Sequence[Line], may: Sequence[int]) -> list[_Key]:
    """The keys that lines hold: each sentence about all codes, and the entries of lines close together as one."""
    translated = language([line.low for line in found if line.text]) != "en"
    keys: list[_Key] = []
    marks: dict[str, StatusWord] = {}
    none: StatusWord | None = None
    places: list[int] = []
    done = -1
    for at in may:
        if at <= done or find(found[at].text, found[at].low).codes:
            continue
        drawn = _drawn(found[at])
        if (default := _default(drawn, translated)) is not None:
            keys.append(_Key(*default, [at]))
            continue
        entries = _entries(drawn, translated)
        if entries is None:
            continue
        done = at
        if at + 1 < len(found) and found[at + 1].text.strip() and not find(found[at + 1].text).codes:
            # A key that is wrapped goes on where its last meaning does, or with more marks.
            more = _entries(f"{drawn.rstrip()} {_drawn(found[at + 1]).strip()}", translated)
            if more is not None and _HEAD.match(low(_drawn(found[at + 1]))) is None:
                entries, done = more, at + 1
        if places and (at - places[-1] > 2 or entries[0].keys() & marks.keys()):
            keys.append(_Key(marks, none, places, all(map(_is_bare, map(found.__getitem__, places)))))
            marks, none, places = {}, None, []
        marks, none, places = marks | entries[0], none or entries[1], [*places, *range(at, done + 1)]
    bare = all(map(_is_bare, map(found.__getitem__, places)))
    keys.append(_Key(marks, none, places, bare))
    return [key for key in keys if key.marks or (key.none and _is_default(found[key.places[0]]))]


def _entries(drawn: str, translated: bool) -> tuple[dict[str, StatusWord], StatusWord | None] | None:
    """The statuses of the marks that a line explains, and that of the codes without any; None where it holds anything
    else."""
    small = low(drawn)
    # "No mark = stored" is no word for a legend.
    lead = LEAD.match(small) if _HEAD.match(small, len(small) - len(small.lstrip(_OPENING))) is None else None
    at = lead.end() if lead is not None else 0
    at += len(small) - at - len(small[at:].lstrip(_OPENING))
    heads = list(_HEAD.finditer(small, at))
    # Before the first mark the status of all may stand: "Stored by default; * = active".
    none = _of_all(small[at : heads[0].start()], translated) if heads else None
    if not heads or (heads[0].start() != at and none is None):
        return None
    marks: dict[str, StatusWord] = {}
    for head, stop in zip(heads, [*(head.start() for head in heads[1:]), len(small)], strict=True):
        meaning = small[head.end() : stop].strip(" \t,;|/.()[]\"'")
        status = states.of_cell(re.sub(r"\s+(?:and|und|et|y)$", "", meaning), translated)
        if status is None:
            return None
        if not head["mark"]:
            none = status
        elif (used := _used_as(drawn, *head.span("mark"))) is not None:
            marks[used] = status
        else:
            return None
    return marks, none


def _used_as(drawn: str, start: int, end: int) -> str | None:
    """The pattern of a mark beside codes, by the place where it is explained; None for a letter that is no mark."""
    mark = drawn[start:end]
    if not mark[-1].isascii() or not mark[-1].isalnum():
        return rf"[(\[{{<]?\s?{re.escape(mark)}\s?[)\]}}>]?"
    if mark[0] == "^" or drawn[end : end + 2].strip(" ")[:1] in ("=", ":"):
        return rf"\^{mark[-1]}(?![^\W_])"
    return rf"[(\[]\s?{mark}\s?[)\]]" if drawn[end : end + 1] in (")", "]") else None


def _is_bare(line: Line) -> bool:
    """Whether blanks alone stand between a mark and its meaning."""
    return "=" not in line.text and ":" not in line.text


def _is_default(line: Line) -> bool:
    """Whether a line says what all codes are but some."""
    return _EXCEPT.search(line.low) is not None


def _default(drawn: str, translated: bool) -> tuple[dict[str, StatusWord], StatusWord] | None:
    """The status of all codes that a sentence tells, and the mark of those that it leaves out with theirs; None for
    any other line."""
    small = low(drawn).strip()
    left_out = _EXCEPT.search(small)
    if left_out is None:
        return None
    drawn = drawn.strip()
    if (named := _NAMES.search(small, left_out.end())) is not None:
        drawn = f"{drawn[: named.start()]}{_SIGN_OF[named[0]].ljust(len(named[0]))}{drawn[named.end() :]}"
    main, start, stop = small[: left_out.start()], left_out.end(), len(small)
    if not main.strip(" (*-"):
        # "Unless marked otherwise, all are stored."
        comma = max(small.find(",", start), small.find(":", start))
        main, stop = small[comma + 1 :] if comma > 0 else "", comma
    said = [status for part in _PARTS.split(main.strip(" \t.,;:()*-"))
            if (status := _of_all(part, translated)) is not None]
    if not said or len(set(said)) > 1:
        return None
    mark = _TOLD_MARK.search(drawn, start, stop)
    rest = small[start:stop]
    if mark is None:
        return ({}, said[0]) if _MARKED.search(rest) else None
    other: StatusWord = "stored" if said[0] == "current" else "current"
    word = mark["word"]
    if word is None or not any(map(str.isalnum, word)) or (len(word) < 3 and states.of_cell(low(word)) is None):
        own = _of_all(small[mark.end() : stop].strip(" .)=:,"), translated)
        place = mark.span("word") if word is not None else mark.span()
        used = _used_as(drawn, *place)
        return ({used: own or other} if used is not None else {}), said[0]
    return ({}, said[0]) if states.of_cell(low(word), translated) is not None else None


def _of_all(part: str, translated: bool) -> StatusWord | None:
    """The status that a part of a sentence tells, with nothing beside it but words for all codes."""
    part = part.rpartition(":")[2] if part.rpartition(":")[0] else part
    status = states.of_cell(part, translated)
    if status is not None:
        return status
    return states.of_cell(" ".join(word for word in _WORDS.findall(part) if word not in _BESIDE), translated)


def _marked(line: Line, marks: dict[str, StatusWord]) -> list[tuple[int, int, bool, str]]:
    """Where marks stand beside the codes of a line: start, end, whether before the code, the mark."""
    drawn = _drawn(line)
    found: list[tuple[int, int, bool, str]] = []
    for first, last in _codes(line):
        lead = drawn[max(0, first - 8) : first]
        for mark in marks:
            if (match := re.compile(rf"\s?{mark}(?![\w*])").match(drawn, last)) is not None:
                found.append((*match.span(), False, mark))
            if (match := re.search(rf"(?<![\w*]){mark}\s?$", lead)) is not None:
                found.append((first - len(lead) + match.start(), first, True, mark))
    return found


def _are_ahead(found: Sequence[Line], used: dict[int, list[tuple[int, int, bool, str]]]) -> bool:
    """Whether a text puts its marks before codes rather than behind them: by those before the first and behind the last
    code of a line."""
    first = last = 0
    for at, spans in used.items():
        codes = _codes(found[at])
        first += any(ahead and end <= codes[0][0] for _, end, ahead, _ in spans)
        last += any(not ahead and start >= codes[-1][1] for start, _, ahead, _ in spans)
    return first > last


def _written(
    line: Line, spans: Sequence[tuple[int, int, bool, str]], marks: dict[str, StatusWord], ahead: bool
) -> Line:
    """The line with the words of statuses for the marks, each behind its code."""
    ends = dict(_codes(line))
    for start, end, before, mark in sorted(spans, reverse=True):
        if before != ahead:
            continue
        if before:
            line = reworded(line, ends[end] - 1, ends[end], f"{line.text[ends[end] - 1]} ({marks[mark]})")
            line = reworded(line, start, end, "")
        else:
            line = reworded(line, start, end, f" ({marks[mark]})")
    return line


__all__ = ["told"]
