"""A scan that begins in the line of its first modules: "After clear: ECM ok, TCM P0700" becomes a heading and the rest,
and so do a date ("07.05.2024 10:12: the ECM is clean ...") and a sentence about the supply before the first module
("Battery 11.4 V. P0562 in the ECM").

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("Scan 2 - after clear, 12.8 V: ECM ok\\nAfter clear: U0100")
>>> [row.text for row in parted(found, lambda low: [(0, 3, True)] if "ecm" in low else [])]
['Scan 2 - after clear, 12.8 V', 'ECM ok', 'After clear: U0100']
>>> [row.text for row in parted(rows_of("Battery 11.8 V, ECM P0562"), lambda low: [(0, 3, True)])]
['Battery 11.8 V', 'ECM P0562']
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from itertools import pairwise

from triage.intake.lines import supplyrow
from triage.intake.lines.row import Row
from triage.intake.lines.supplyrow import SMALL
from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, word_set, words
from triage.intake.plain.remember import remembered
from triage.intake.said import conditions, dates, engine_state, otherthings, outside, phases, voltpairs, volts
from triage.intake.said.answers import answer_of_cell, rest_of, spoken
from triage.intake.words.phase_ways import PHASE_WORDS
from triage.intake.words.scan_words import BEFORE_DATE
from triage.intake.words.volt_words import LABEL, LOWEST

_MARK = lazily(r"\s?:(?=\s)|\s(?:-{1,2}|\u2013|\u2014|=>?|->)(?=\s)|(?<!batt)[.!,;](?=\s)")
#: What stands in each of those.
_MARKED = lazily("[:.!,;=>\u2013\u2014-]\\s")
_VOLTAGE = r"[0-9]{1,2}(?:[.,][0-9]{1,2})?\s?v(?:olts?|dc)?(?![a-z0-9])"
#: A voltage with its unit, and one that is all there is.
_VOLTS = lazily(_VOLTAGE)
_VOLTS_ALONE = lazily(rf"\s*{_VOLTAGE}\s*")
#: Tables and keys with their values have cells of their own.
_CELLS = lazily(r"[|\t\"{}<]|(?<! )>|>(?! )")
#: Between the scan and the module in a row of a table.
_CELL_ENDS = lazily(r"[;,](?=[^\s0-9])|\s{3}")
_LONGEST, _MOST_DAYS, _FEWEST_TOLD = 80, 12, 2
#: The date of a scan, perhaps with its time, before what it tells, and the same behind a word for a scan or a date.
_MONTH = (
    r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|mai|okt|dez|fev|avr|juin|juil|aout|ene|abr|ago|dic)[a-z]{0,7}\.?"
)
_DATE = (
    r"(?:[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}|[0-9]{1,2}[./-][0-9]{1,2}[./-](?:20)?[0-9]{2}|[0-9]{1,2}\.? (?:de )?" + _MONTH
    + r" (?:de )?20[0-9]{2})(?:[ ,t]{1,2}[0-9]{1,2}[:h.][0-9]{2}(?::[0-9]{2})?(?: ?(?:uhr|h))?)?"
)
_DATED = lazily(
    rf"\s*(?P<on>(?:on|am|vom|le|du|el|del|on the)\s)?(?P<date>{_DATE})"
    r"(?: (?:scan|read-?out|reading|auslesung|lecture|lectura|escaneo)(?=\s?:))?"
    r"(?:\s?(?::|-{1,2}|\u2013|\u2014)|\.)(?:\s+|$|(?<=[a-z]:))")
_SCAN_OF = lazily(rf"\s*(?P<scan>{BEFORE_DATE}{_DATE})\s?(?::|-{{1,2}}|[,.;])\s+")
_DATE_CELL = lazily(rf"[(]?{_DATE}[)]?\s?[;,|](?=\S)")
_OF_CODES = word_set("codes dtcs faults fehler fehlercodes defauts codes averias codigos")
#: What brings the list of a scan: "after the drive the tester gave:", "this is what we got:".
_INTRODUCES = word_set(
    "tool tester reader gave give gives find found get picture list result results what these follows following looked "
    "looks like as listed came come comes returned per again once where stood stands situation anything everything "
    "ergab zeigte zeigten ergebnis bild folgendes wir habe gelesen folgt stand "
    "donnait donne voici resultat resultats releve lu ai "
    "daba dio da salio salia resultado sale esto siguiente nada"
)
#: How far or how long it was driven.
_FAR = lazily(r"(?:of )?[0-9]{1,4}(?:[.,][0-9])? ?(?:km|miles?|mi|min(?:s|utes?|uten|utos)?)(?![a-z0-9])")
#: No further from its beginning stands the repair that a text begins with ("scan after the new ...").
_BEGIN = 12
#: Where a sentence begins that may bring another scan, and how far behind its colon stands at most.
_SENTENCE, _FARTHEST = lazily(rf"(?:[!?\n]|\.{NOT_SHORT})\s+"), 120
#: The first word of a phase.
_BEGINS = lazily(
    r"[#*=> -]{0,4}(?:after|before|post|pre|final|initial|as |once|following|nach|vor|apres|avant|antes|despues|tras|"
    r"luego)"
)
#: A short beginning, what stands in brackets behind it, and the rest.
_BRACKETED = lazily(r"([^()|\t]{4,60}?)\s*\(([^()|\t]{4,120})\)[\s,.;-]*([^()|\t]*)$")
#: The heading of a scan between marks, before what was found in it: "** scan C 13:48 ** READY, no codes in the BMS".
_SET_OFF = lazily(r"[^|]{4,60}?(?:\s(?:\*{1,8}|={1,8}|#{1,8}|~{1,8}|_{2,8}|-{2,8})|\])\s+(?=\S)")
#: Between a phase and the first name behind it.
_ARTICLE = lazily(r"(?: (?:the |my |all )?(?:codes?|dtcs?|faults?|lot|them))? (the )")
#: What links a code to the next.
_LINKED = lazily(r"[\s,;&+]*(?:\b(?:and|und|et|y))?[\s,;&+]*$")
#: A word of a phase or a deed, of a supply, or that begins the number of a scan.
_SIGN = PHASE_WORDS | signs.of_pattern(
    r"(?:auslesung|abfrage)$|^(?:scan|snapshot|read|pass|pasada|run|lauf|session|messung|durchgang|lectur|escaneo|balayage|"
    r"releve|test|query|interrog|consulta|sitzung|seance|sesion|"
    r"first|second|third|fourth|1st|2nd|3rd|4th|next|erste|zweite|dritte|premier|deuxieme|troisieme|primer|segund|"
    r"tercer|after|before|post|pre(?!s)|final|initial|as$|once|following|nach|vor|apres|avant|antes|despues|tras|luego|"
    r"back|out|raus)|(?:^|[0-9])v(?:olts?|dc)?$|clear|clr|eras|delet|wip|reset|losch|geloes|effac|borra|cancell|gewist"
)
Find = Callable[[str], Sequence[tuple[int, int, bool]]]


def parted(rows: Sequence[Row], names: Find) -> list[Row]:
    """The rows, each that begins with the heading of a scan as the heading and the rest. ``names`` finds the names of
    modules in a text."""
    found: list[Row] = []
    led = False
    told = [part for each in rows for one in _by_number(each) for whole in _by_date(one)
            for part in _by_sentence(whole)]
    of_days = _of_days(told)
    for at, row in enumerate(told):
        stamp = _DATED.match(row.low)
        if at in of_days and stamp is not None:
            found += [row.part(*stamp.span("date")), row.part(stamp.end())] if stamp.end() < len(row.low) else [row]
            led = True
            continue
        stamp = stamp if stamp is not None and stamp.end() < len(row.low) else None
        of_scan = _SCAN_OF.match(row.low) if stamp is None else None
        if stamp is not None and (
                _tells_of_several(row, stamp.end(), names) or _heads_answer(told, at, stamp.end(), names)
                or (stamp["on"] and _holds(row, stamp.end(), len(row.low)))):
            found += [row.part(*stamp.span("date")), row.part(stamp.end())]
            led = True
            continue
        if of_scan is not None and _tells_of_several(row, of_scan.end(), names):
            found += [Row(row.line, row.text[: of_scan.end("scan")], row.start), row.part(of_scan.end())]
            led = False
            continue
        if not signs.of(row.low) & _SIGN:
            led = led and row.blank
            found.append(row)
            continue
        if (mark := _SET_OFF.match(row.low)) is not None and phases.scan_head(row.low) is not None and (
                spoken(row.low[mark.end() :])):
            found += [Row(row.line, row.text[: mark.end()].rstrip(), row.start), row.part(mark.end())]
            led = False
            continue
        if len(pieces := _bracketed(row, names) or _came_back(row, names)) > 1:
            found += pieces
            led = False
            continue
        cut = _cut(row, names, led) if len(row.low) > 6 else None
        led = cut is not None or (led and row.blank)
        if cut is None:
            found.append(row)
            continue
        lead, rest = cut
        found.append(Row(row.line, row.text[:lead].rstrip(), row.start))
        found.append(Row(row.line, row.text[rest:], row.start + rest))
    return found


def _of_days(rows: Sequence[Row]) -> frozenset[int]:
    """The places of the rows that begin with a date and a mark, where these are the days of scans: each another one,
    and several things are told from each to the next, as in no log with a line for each."""
    stamps = {at: stamp["date"] for at, row in enumerate(rows)
              if row.low[:1].isdigit() and "|" not in row.low and (stamp := _DATED.match(row.low)) is not None}
    places = list(stamps)
    if not 1 < len(places) <= _MOST_DAYS or len(set(stamps.values())) < len(places):
        return frozenset()
    for start, stop in pairwise([*places, len(rows)]):
        told = sum(len(row.finds.codes) + len(spoken(row.low)) for row in rows[start:stop])
        if told < _FEWEST_TOLD:
            return frozenset()
    return frozenset(places)


def _by_number(row: Row) -> list[Row]:
    """A row parted at each sentence that says which scan follows and no more ("Scan 1, 12 May. ABS U0100. Scan 2. ABS
    clean"), where modules are told of behind each."""
    if ". " not in row.low or row.cells or not signs.of(row.low) & _SIGN:
        return [row]
    starts = [0, *(match.end() for match in _SENTENCE.finditer(row.low)), len(row.low)]
    leads = [(start, end) for start, end in pairwise(starts)
             if end - start <= _LONGEST and phases.scan_head(lead := row.low[start:end].rstrip(" .!")) is not None
             and is_lead(lead)]
    if not leads or not all(
            _holds(row, end, stop) for (_, end), stop in zip(leads, [*(start for start, _ in leads[1:]), len(row.low)],
                                                            strict=True)):
        return [row]
    places = sorted({0, len(row.low), *(place for lead in leads for place in lead)})
    return [row.part(start, end) for start, end in pairwise(places)]


def _by_date(row: Row) -> list[Row]:
    """A row parted at each sentence that begins with the date of another scan: "On 3 May 2024: ABS U0100. On 5 May
    2024: ABS clean"."""
    if ": " not in row.low or row.cells or "|" in row.low:
        return [row]
    begins = [0, *(match.end() for match in _SENTENCE.finditer(row.low))]
    starts = [start for start in begins if (stamp := _DATED.match(row.low, start)) is not None and (
        stamp["on"] is not None or (start > 0 and _DATED.match(row.low) is not None))]
    if starts in ([], [0]):
        return [row]
    return [row.part(start, end) for start, end in pairwise(sorted({0, *starts, len(row.low)}))]


def _holds(row: Row, start: int, end: int) -> bool:
    """Whether a stretch of a row tells a code or an answer."""
    return any(start <= code.start < end for code in row.finds.codes) or bool(spoken(row.low[start:end]))


def _by_sentence(row: Row) -> list[Row]:
    """A row parted where a sentence in it brings another scan ("... all clear. After the drive it gave: ECM P0562"),
    behind what the one before tells of its modules."""
    if ": " not in row.low or "|" in row.low or not signs.of(row.low) & _SIGN:
        return [row]
    starts, told, seen = [0], False, 0
    codes = [code.start for code in row.finds.codes]
    for match in _SENTENCE.finditer(row.low):
        colon = row.low.find(": ", match.end(), match.end() + _FARTHEST)
        if colon < 0 or bisect_left(codes, match.end()) < bisect_left(codes, colon) or (
                not is_lead(row.low[match.end() : colon])):
            continue
        told = told or bisect_left(codes, seen) < bisect_left(codes, match.start()) or (
            bool(spoken(row.low[seen : match.start()]) or phases.events(row.low[seen : match.start()])))
        seen = match.end()
        if told:
            starts.append(match.end())
            told = False
    if len(starts) == 1:
        return [row]
    return [row.part(start, end) for start, end in zip(starts, [*starts[1:], len(row.text)], strict=True)]


def _tells_of_several(row: Row, start: int, names: Find) -> bool:
    """Whether a sentence behind a date tells of more than one module: in a log each line tells of one."""
    rest = row.low[start:]
    told = sum(code.start >= start for code in row.finds.codes) + len(spoken(rest))
    return told > 1 and len(names(rest)) > 1


def _heads_answer(rows: Sequence[Row], at: int, start: int, names: Find) -> bool:
    """Whether a sentence behind a date begins with the answer of a module, and the line below tells of another without
    a date: "3 May 2024 11:08: nothing stored in the tail lift", else the date would be taken for the module. In a log
    the lines around have their own."""
    row, low = rows[at], rows[at].low[start:]
    told = spoken(low)
    if not told or told[0].start or row.finds.codes or len(names(low)) != 1:
        return False
    below = rows[at + 1] if at + 1 < len(rows) else None
    return below is not None and _holds(below, 0, len(below.low)) and not any(
        _DATED.match(near.low) for near in (*rows[max(0, at - 1) : at], below))


def _bracketed(row: Row, names: Find) -> list[Row]:
    """The parts of a row that begins with a clear and tells of modules in brackets ("All cleared (ABS still dead),
    booster on"); empty for any other row."""
    match = _BRACKETED.match(row.low) if "(" in row.low[4:64] and len(row.low) < 240 else None
    if match is None or names(match[1]) or not any(deed.what == "cleared" for deed in phases.events(match[1])):
        return []
    if not spoken(match[2]) or not names(match[2]) or names(match[3]):
        return []
    return [Row(row.line, row.text[start:end].rstrip(" ."), row.start + start)
            for start, end in map(match.span, (1, 2, 3)) if end > start]


def _came_back(row: Row, names: Find) -> list[Row]:
    """The parts of a row that tells what was done and, with no name, which codes came back ("Cleared it, ran it, came
    back with C0040"); one for each code, since each is of the module that held it; empty for any other row."""
    codes = row.finds.codes if " back" in row.low else ()
    lead = row.low[: codes[0].start].rstrip(" :") if codes else ""
    if not lead.endswith((" back", " back with")) or names(row.low) or phases.find(lead) is None:
        return []
    starts = [0, *(code.start for code in codes)]
    ends = [len(lead), *(code.start for code in codes[1:]), len(row.text)]
    return [Row(row.line, _LINKED.sub("", row.text[start:end]), row.start + start)
            for start, end in zip(starts, ends, strict=True)]


def _cut(row: Row, names: Find, led: bool) -> tuple[int, int] | None:
    """Where the heading ends in a row and where the rest begins; None where none leads it. ``led``: one leads the row
    above."""
    low = row.low
    best: tuple[int, int] | None = None
    for match in _MARK.finditer(low, 0, _LONGEST) if _MARKED.search(low) is not None else ():
        lead = low[: match.start()]
        if lead.count("(") > lead.count(")"):
            # "Before clearing: it sat at 12.1 V (lowest seen: 9.8 V)"
            continue
        if match[0] in (",", ";"):
            # "After clearing: battery 12.7 V; ABS clean"
            leads = _tells_supply(low[best[1] : match.start()] if best is not None else lead)
        else:
            leads = is_lead(lead) or (":" not in match[0] and _tells_supply(lead))
        if leads:
            best = match.start(), match.end() + len(low[match.end() :]) - len(low[match.end() :].lstrip())
        elif match[0] not in (",", ";") and (best is not None or not lead[:1].isdigit()):
            # A number or a time of day may stand before the phase with a mark of its own.
            break
    if best is None and _BEGINS.match(low):
        best = _unmarked(low, names)
    best = best or _supply_unmarked(low, names)
    if best is None or _CELLS.search(low) is not None or _CELL_ENDS.search(low[: best[0]].rstrip()) is not None:
        return None
    if low[best[0] : best[1]].strip() == "-" and (dash := low.find(" - ", best[1])) > 0 and (
            told := spoken(low[dash:])) and told[0].start <= len(" - ") and row.finds.codes:
        # A message that parts its clauses so: "before clearing - in ECM I get P0380 - nothing stored in CGW".
        return None
    if _DATE_CELL.match(low, best[1]) is not None:
        # The first cell of a row: "After clear - 2026-05-03 13:20;P0101;ABS"
        return None
    if otherthings.alone(low):
        # "Repairs done: none" leads no scan.
        return None
    halves = voltpairs.halves(low)
    if len(halves) == 2 and halves[0].start < best[1] <= halves[1].start:
        # "Battery A 12.4 V, battery B 12.5 V, load test passed"
        return None
    return best if _tells(row, best[1], names, led) else None


def _tells(row: Row, start: int, names: Find, led: bool) -> bool:
    """Whether what stands behind a place tells of modules that it names."""
    rest = row.low[start:]
    told = [code.start - start for code in row.finds.codes if code.start >= start]
    told += [hit.start for hit in spoken(rest)]
    if not rest or not told:
        return False
    if names(rest) or rest_of(rest) is not None:
        return True
    # A name that nobody knows, or all of them; below a module's own heading "After: still P0562" is its own.
    several = led or len(words(row.low[:start])) >= 2
    return several and (answer_of_cell(rest) == "clean" or bool(words(rest[: min(told)])))


def _unmarked(low: str, names: Find) -> tuple[int, int] | None:
    """A phase with no mark behind it, right before an answer or the name of a module: "After clear no codes in the
    ECM", "After clearing codes the ABS was clean"."""
    hit = phases.find(low[:_LONGEST]) if "  " not in low[:_LONGEST] else None
    if hit is None or hit.start > 2:
        return None
    article = _ARTICLE.match(low, hit.end)
    named = names(low[article.end() :]) if article is not None else ()
    if article is not None and named and not named[0][0]:
        return hit.end, article.start(1)
    said = spoken(low[hit.end :])
    gap = low[hit.end : hit.end + said[0].start] if said else "-"
    return (hit.end, hit.end + len(gap)) if gap == " " else None


def _tells_supply(low: str) -> bool:
    """Whether a text tells the supply, with its unit, and no more."""
    if "v" not in low or _VOLTS.search(low) is None:
        return False
    return supplyrow.alone(low) or _VOLTS_ALONE.fullmatch(low) is not None


def _supply_unmarked(low: str, names: Find) -> tuple[int, int] | None:
    """The supply with no mark behind it, right before the name of a module: "battery 10.8 v ecm P0562"."""
    match = _VOLTS.search(low, 0, _LONGEST) if "v" in low else None
    if match is None or low[match.end() : match.end() + 1] != " " or not supplyrow.alone(low[: match.end()]):
        return None
    behind = names(low[match.end() + 1 :])
    return (match.end(), match.end() + 1) if behind and behind[0][2] and not behind[0][0] else None


def dated(low: str) -> tuple[int, int]:
    """Where the date ends that a text begins with, and where what it tells begins behind its mark; 0 where none does.

    >>> dated("06.07.2024 08:30: abs c0035"), dated("abs 06.07.2024: c0035")
    ((16, 18), (0, 0))
    """
    stamp = _DATED.match(low) if low[:1].isdigit() else None
    return (stamp.end("date"), stamp.end()) if stamp is not None and stamp.end() < len(low) else (0, 0)


@remembered
def is_lead(low: str) -> bool:
    """Whether a text says which scan it is and nothing of a module: its number, phase, time, supply.

    >>> [is_lead(low) for low in ("scan 2 - after clear", "10:40 as found, 11.9 v", "after clear ecm", "supply 12 v")]
    [True, True, False, False]
    """
    low = " ".join(low.split())
    head = phases.scan_head(low)
    spans = [head.span()] if head is not None else []
    rest, repaired, opens = low, 0, False
    for _ in range(3):
        hit = phases.find(rest)
        if hit is None or hit.end == hit.start:
            break
        spans.append((hit.start, hit.end))
        if hit.phase == "after-repair":
            repaired, opens = hit.end, hit.start <= _BEGIN
        rest = rest[: hit.start] + "#" * (hit.end - hit.start) + rest[hit.end :]
    if not spans:
        return False
    if repaired:
        # What was mended may be named: "scan after the new alternator went in, supply 13.9 v".
        mark = _MARK.search(low, repaired)
        if mark is None:
            return len(words(low)) <= 10
        if mark[0].strip() == "," and opens and len(words(low[: mark.start()])) <= 10:
            spans.append((0, mark.start()))
    spans += [(stamp.start, stamp.end) for stamp in dates.find(low)]
    clock = dates.clock(low)
    spans += [clock[1:]] if clock is not None else []
    spans += [(volt.start, volt.end) for volt in volts.find(low)]
    spans += [match.span() for pattern in (LABEL, LOWEST, _FAR) for match in pattern.finditer(low)]
    spans += [*outside.spans(low), *engine_state.spans(low), *conditions.run_spans(low)]
    return all(
        word in SMALL or word in _OF_CODES or word in _INTRODUCES or (word.isdigit() and len(word) <= 2)
        or any(start <= first < end for start, end in spans)
        for word, first, _ in words(low)
    )
