"""The places of a text in which a plain "ECU" is the name of a module.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> text = "[ECU]\\nP0171 lean\\nNo answer from ECU and ABS. The BCM is fine, no answer from the ECU connector"
>>> found = lines(text)
>>> of_names(found, [0, 2], Names(load()))
{0: [1], 2: [15]}
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.codes.finds import Found
from triage.intake.codes.found import find
from triage.intake.lines import idents, supplyrow
from triage.intake.naming.heads import is_head, role_of
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import answeraround, states
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.attribution import SAYS
from triage.intake.said.counts import stated_count
from triage.intake.tidying import ecunumbers

#: By the place of a line: where each "ECU" in it begins that is a name.
Places = dict[int, list[int]]

_ECU = lazily(r"(?<![a-z0-9_$-])ecu(?!-?[a-z0-9_])")
#: What is said of a control unit, or a thing of it.
_THING = lazily(
    r"[\s:#(]*\$?[0-9][0-9a-f]*h?(?![0-9a-f]|\s*(?:x\s*)?(?:\w+\s)?(?:codes?|dtcs?|faults?|errors?|fehler|defauts?|"
    r"averias?|codigos?|fallos?)|[)\]]|[.,][0-9]|\s*v(?:olts?)?(?![a-z]))|"
    r" (?:internal|intern[eoa]?|fault(?! codes?|s?:)|failure|error|memory|speicher|supply|voltage|power|ground|earth|"
    r"hardware|software|sw|hw|firmware|id|ident\w*|name|number|no\.|nr|type|address|addr|part|serial|version|reset|"
    r"temperature|temp|relay|connectors?|plug|pins?|fuse|box|wiring|loom|harness|unit|module|modul|coding|calibration|"
    r"processor|rom|ram|eeprom|not programmed|flash\w*|replaced|swapped|changed|repaired|cloned|sent)(?![a-z])"
)
#: Words that may stand right before it.
_LEADS = word_set(
    "the my our le la el l il lo die das der den dem and und et y e or oder ou o nor noch ni plus sowie from in with "
    "by of to at on im vom von aus mit zu zum bei dans de du del en con avec but aber mais pero while then both reach "
    "is"
)
_WORD_BEFORE = lazily(r"([a-z0-9]+)[\s']*$")
_THE = r"(?:(?:the|my|our|le|la|el|die|das|der)\s+|l')?"
#: Before it in a line that starts with it, or with a word for a module.
_OPENS = lazily(rf"[^a-z]*(?:{_THE}|(?:control module|module?|steuergerat|calculateur|centralita)\s+)")
_AND = "(?:and|und|et|y|e|or|oder|ou|o|nor|noch|ni)"
_LEFT = rf"\s*(?:[,;]\s*(?:{_AND}\s+)?|\s{_AND}\s+|\s[/&+]\s+)"
#: Between it and a name in a list of names: a status in brackets may stand behind each.
_BEFORE_NAME = lazily(rf"(?:\s?[(\[][^()\[\]]{{0,40}}[)\]])?{_LEFT}{_THE}")
_SENTENCE = lazily(r"[.!?;](?=\s)|\s-+\s")
_CLAUSE = lazily(
    rf"(?:(?P<hard>^[^a-z0-9]*|[.!?;]\s+)|,\s+|(?<![a-z])(?:and|but|und|aber|et|mais|y|pero|while|then)\s+){_THE}$"
)
_IN_IT = lazily(
    rf"(?:^|[.!?;,]\s+|(?<![a-z])(?:and|but|und|aber|et|mais|y|pero)\s+)\W*(?:in|from|im|in der|dans|en)\s+{_THE}$"
)
_ONE_FINDS = lazily(r"\s*,?\s*(?::|(?:i|we|ich|wir|on|there|es|hay|se)\s)")
_FROM_CODE = lazily(rf"[\s(),:-]*(?:in|from|out of|im|in der|aus|aus dem|dans|en|del?)\s+{_THE}")
_KEY = lazily(r"(?:^|[\s,;{<|(])([a-z][a-z .]{1,24}?)[\"']?\s*[:=]\s*[\"']?$")
_VALUE_ENDS = lazily(r"[\"']?\s*(?:$|[,;|}>/)]|\s\s|\s[a-z_]+\s?[=:])")
_TIMES = lazily(r"(?:[0-9a-f]{2}\s){3}")
_BRACKET_COUNT = lazily(r"\s*[(\[]\s*[0-9]{1,2}\s*[)\]]\s*:?")
_ADDRESS = lazily(r"\s*(?:[(\[]\s?(?:0x|\$)?[0-9a-f]{2,8}h?\s?[)\]]|/ ?(?:0x|\$)[0-9a-f]{2,8}h?(?=\s))")
_VOLTS = lazily(r"[\s:,(@=-]{0,8}[0-9]{1,2}(?:[.,][0-9]{1,2})?\s?v(?:olts?)?\)?\s*")
_LED_COUNT = lazily(r"\s*(?:\.\s?){3,40}[0-9]{1,3}\s*$")
_EDGE = " \t|;,:=->*\"'`.[](){}<>#_~"
#: Words between two cells that belong together.
_OPEN_ENDS = word_set("with from by of to the and or mit von zu und oder der die das avec de du et ou con del y o")
#: So many lines are looked through for a name in the place of one; so long a line is, and so often it holds the word.
_MOST_LINES, _LONGEST, _MOST = 300, 1000, 12


def plain(low: str) -> bool:
    """Whether a plain "ECU" stands in a line in small letters: no part of a longer word, number or name. A line that
    nobody would write is not gone through."""
    return len(low) <= _LONGEST and low.count("ecu") <= _MOST and _ECU.search(low) is not None


def of_names(found: Sequence[Line], held: Sequence[int], names: Names) -> Places:
    """The places of the names among the lines at ``held``, which hold a plain "ECU"."""
    text = _Text(found, names)
    keyed = any(text.is_key(at) for at in held)
    told = [at for at in held if (start := text.opens(at)) is not None and text.tells(at, start, keyed=keyed)]
    opening = text.without_keys(told)
    places: Places = {}
    left = []
    for at in held:
        starts = []
        for match in _ECU.finditer(found[at].low):
            first = match.start() == text.opens(at)
            if (first and (at in opening or text.heads(at, match.start()))) or text.names_one(at, match.start()):
                starts.append(match.start())
            elif text.may_stand(at, match.start()):
                left.append((at, match.start()))
        if starts:
            places[at] = starts
    for at, start in left if len(found) <= 10 * _MOST_LINES else ():
        if text.stands_like_a_name(at, start):
            places.setdefault(at, []).append(start)
    return places

class _Text:
    """The lines of a text and what is asked of them."""

    def __init__(self, found: Sequence[Line], names: Names) -> None:
        self._lines, self._names = found, names
        self._like: set[tuple[str, str]] | None = None

    def _codes(self, at: int) -> tuple[Found, ...]:
        return tuple(find(self._lines[at].text, self._lines[at].low).codes)

    def opens(self, at: int) -> int | None:
        """Where it begins, if the line starts with it."""
        low = self._lines[at].low
        match = _ECU.search(low)
        return match.start() if match is not None and _OPENS.fullmatch(low, 0, match.start()) else None

    def is_key(self, at: int) -> bool:
        """Whether it is a key before a module's name: "ECU: ABS"."""
        low, start = self._lines[at].low, self.opens(at)
        rest = low[start + 3 :].lstrip(" \"'") if start is not None else ""
        value = tidy(rest[1:]) if rest[:1] in (":", "=") else ""
        return bool(value) and (self._names.score(value) >= 60.0 or plain(value[:4]))

    def tells(self, at: int, start: int, *, keyed: bool) -> bool:
        """Whether its codes or its answer stand behind it in the line that it starts."""
        line, behind = self._lines[at], start + 3
        address = _ADDRESS.match(line.low, behind)
        if address is not None and any("a" <= char <= "f" or char in "x$" for char in address[0]):
            behind = address.end()
        rest = line.low[behind:]
        if (keyed and rest.lstrip(" \"'")[:1] in (":", "=")) or _TIMES.search(rest) or _THING.match(rest):
            return False
        codes = self._codes(at)
        if not codes:
            return self._answer(rest) is not None or ecunumbers.stands_so(self._lines, at, start, self._names)
        between = line.text[behind : codes[0].start]
        count = _BRACKET_COUNT.match(between) or None
        stated = stated_count(between.lower())
        if count is not None:
            between = between[count.end() :]
        elif stated is not None:
            between = between[: stated[1]] + between[stated[2] :]
        told = strip_links(between)
        return codes[0].start > start and (not told or states.of_cell(told.lower()) is not None)

    def _answer(self, rest: str) -> str | None:
        """The answer that stands behind the name, alone or first in a sentence."""
        rest = rest.strip(" \t|;,:=>")
        whole = answer_of_cell(rest)
        hits = spoken(rest) if whole is None and ": " not in rest else ()
        if hits and not hits[0].doubtful and not strip_links(rest[: hits[0].start]):
            return hits[0].answer
        return whole

    def without_keys(self, opening: Sequence[int]) -> set[int]:
        """Of the lines that start with it those in which it is no key below the name of a module ("ABS" and below
        "ECU: C0031"). Codes of the body or the chassis stand in no engine's control unit; a second module so told is
        none either."""
        below = [at for at in opening if self._is_below_a_name(at)]
        keys = set(below) if len(below) > 1 else {
            at for at in below if all(code.text[:1] in "BC" for code in self._codes(at)[:1])}
        return {at for at in opening if at not in keys and not self._is_within(at)}

    def _is_below_a_name(self, at: int) -> bool:
        """Whether a name alone stands right above, with no more than part numbers or a voltage between."""
        above = at - 1
        while above >= 0 and supplyrow.stands_between(self._lines[above].low.strip()):
            above -= 1
        return above >= 0 and (self._is_name(above) or self._is_heading(above))

    def _is_heading(self, at: int) -> bool:
        """Whether a line is set as a heading: "**Brakes**", "## Brakes"."""
        text = self._lines[at].text.strip()
        marked = text.startswith("#") or (text.startswith("**") and text.endswith("**"))
        return marked and not self._codes(at) and answer_of_cell(tidy(text).lower()) is None

    def _is_name(self, at: int) -> bool:
        text = tidy(self._lines[at].text)
        return bool(text) and self._names.listed(self._names.bare(text)) and not self._codes(at)

    def _is_within(self, at: int) -> bool:
        """Whether the line stands below a name alone, further right than that: it tells of the module so named."""
        indent = self._lines[at].indent
        for above in range(at - 1, max(at - 40, -1), -1):
            line = self._lines[above]
            if indent and line.low.strip() and line.indent < indent:
                return self._is_name(above)
        return False

    def heads(self, at: int, start: int) -> bool:
        """Whether it stands alone in its line, over codes or an answer or among names so written."""
        low = self._lines[at].low
        rest = low[start + 3 :]
        stated = stated_count(rest)
        counted = stated is not None and not rest[: stated[1]].strip(_EDGE) and not rest[stated[2] :].strip(_EDGE)
        counted = counted or _BRACKET_COUNT.fullmatch(rest.rstrip(" *=_-")) is not None
        counted = counted or _LED_COUNT.match(rest) is not None
        bare = not rest.strip(_EDGE) or _VOLTS.fullmatch(rest) is not None or idents.before_idents(low) <= start + 3
        if not (bare or counted) or self._is_within(at):
            return False
        below = self._below(at)
        if below is None:
            return counted or self._is_listed(at)
        lower = self._lines[below].low.strip()
        told = bool(self._codes(below)) or bool(spoken(lower)) or bool(states.in_text(lower))
        told = told or role_of(lower.partition(":")[0]) in ("code", "status", "count_of_codes", "answer", "reply")
        # What tells its part number is a module.
        told = told or (at + 1 < below and idents.alone(self._lines[at + 1].low.strip()))
        return counted or told or is_head(re.split(r"\s{2,}|[|;\t]", lower)) or self._is_listed(at)

    def _below(self, at: int) -> int | None:
        """The next line that tells something of a module: no rule, part number or voltage."""
        for below in range(at + 1, min(at + 8, len(self._lines))):
            low = self._lines[below].low.strip()
            if low.strip("-=_*~+|# ") and not supplyrow.stands_between(low):
                return below
        return None

    def _is_listed(self, at: int) -> bool:
        """Whether it stands among names alone in their lines, in a list of them: "No answer:" and below it each."""
        above, below = at - 1, at + 1
        under = above >= 0 and self._is_name(above)
        head = above >= 0 and bool(spoken(self._lines[above].low))
        over = below < len(self._lines) and self._is_name(below)
        ends = below >= len(self._lines) or not self._lines[below].low.strip()
        return (under and (over or ends)) or (head and (over or ends))

    def may_stand(self, at: int, start: int) -> bool:
        """Whether nothing beside it says that a thing of any control unit is meant."""
        low = self._lines[at].low
        if start and low[start - 1] in "\"'" and low[start + 3 : start + 5] == low[start - 1] + ":":
            return False  # '{"ecu": "ABS", "code": "C0031"}'
        if ecunumbers.is_key_behind(low, start, self._names) and any(code.end < start for code in self._codes(at)):
            return False
        before = _WORD_BEFORE.search(low, max(0, start - 16), start)
        joined = before is not None and not low[before.end(1) : start].strip(" '") and before[1] not in _LEADS
        coded = joined and any(code.end == before.end(1) for code in self._codes(at)) if before is not None else False
        return (not joined or coded or "  " in low[start - 2 : start]) and _THING.match(low, start + 3) is None

    def names_one(self, at: int, start: int) -> bool:
        """Whether it is one of a list of names, the value of a key, a cell, or what a sentence tells of."""
        if self._is_value(at, start):
            return True
        if not self.may_stand(at, start):
            return False
        if self._is_cell(at, start) or self._is_one_of(at, start):
            return True
        return start != self.opens(at) and (self._is_listed_behind(at, start) or self._is_told_of(at, start))

    def _is_listed_behind(self, at: int, start: int) -> bool:
        """Whether it is all of a list behind an answer and a colon: "No answer from: ECU"."""
        low = self._lines[at].low
        if low[start + 3 :].strip(" .,;") or low[:start].rstrip()[-1:] not in (":", "="):
            return False
        return answer_of_cell(low[:start].rstrip(" :=")) is not None and not self._is_within(at)

    def _is_value(self, at: int, start: int) -> bool:
        """Whether it stands behind a key for modules: "Module: ECU", "Control module ECU" among others so told."""
        low = self._lines[at].low
        lead = low[:start].strip(_EDGE) if not low[start + 3 :].strip(_EDGE) else ""
        if role_of(lead) == "module" and sum(line.low.strip(_EDGE).startswith(f"{lead} ") for line in self._lines) > 2:
            return True
        key = _KEY.search(low, max(0, start - 32), start)
        return key is not None and role_of(key[1]) == "module" and _VALUE_ENDS.match(low, start + 3) is not None

    def _is_one_of(self, at: int, start: int) -> bool:
        """Whether a listed name stands beside it in a list of names."""
        low = self._lines[at].low
        if self._labels(at) or (low[start - 1 : start] == ";" and self._answer(low[start + 3 :]) is not None):
            # "ABS;ECU does not answer" are two cells of a table.
            return False
        for first, last, _ in self._names.find(low):
            if _BEFORE_NAME.fullmatch(low, last, start) or _BEFORE_NAME.fullmatch(low, start + 3, first):
                return True
        return False

    def _is_cell(self, at: int, start: int) -> bool:
        """Whether it fills a cell in a row with codes or an answer, or among cells that are names."""
        line = self._lines[at]
        mark = next((mark for mark in ("|", ";", "\t") if mark in line.low), "")
        mark = mark or ("," if line.low.count(",") > 1 and ", " not in line.low else "  " if "  " in line.low else "")
        if not mark:
            return False
        cells = re.split(r"\s{2,}" if mark == "  " else re.escape(mark), line.low.strip())
        filled = [cell.strip(_EDGE) for cell in cells]
        if "ecu" not in filled or is_head(filled) or self._labels(at):
            return False
        place = filled.index("ecu")
        others = filled[:place] + filled[place + 1 :]
        if mark == "  " and place and filled[place - 1].rpartition(" ")[2] in _OPEN_ENDS:
            return False
        beside = filled[place + 1] if place + 1 < len(filled) else ""
        if self._codes(at) or any(answer_of_cell(cell) is not None for cell in others if cell):
            return not self._names.listed(beside)  # "ECU | ABS | C0035": a key in every row.
        listed = sum(self._names.listed(cell) for cell in others if cell)
        return listed > 1 and listed == sum(map(bool, others))

    def _labels(self, at: int) -> bool:
        """Whether it stands before a row of names as their head, and another label stands below it: "ECU | ABS | SRS"
        above "DTC 1 | C0031 | B0001"."""
        low = self._lines[at].low
        mark = next((mark for mark in ("|", ";", "\t") if mark in low), "")
        if not mark or low.strip("| ").partition(mark)[0].strip(_EDGE) != "ecu" or self._codes(at):
            return False
        below = self._below(at)
        first = self._lines[below].low.strip("| ").partition(mark)[0].strip(_EDGE) if below is not None else ""
        return bool(first) and not find(first).codes and answer_of_cell(first) is None

    def _is_told_of(self, at: int, start: int) -> bool:
        """Whether a sentence tells of its codes or its answer: "The ECU has P0562", "nothing from ECU. The ABS ..."."""
        line = self._lines[at]
        codes = self._codes(at)
        said = spoken(line.low)
        after = next((code.start for code in codes if code.start > start), None)
        if _IN_IT.search(line.low, max(0, start - 40), start) and _ONE_FINDS.match(line.low, start + 3):
            return after is not None or not line.low[start + 3 :].strip(" :")
        if self._holds(at, start, codes):
            return True
        opens = _CLAUSE.search(line.low, max(0, start - 40), start)
        hard = opens is not None and opens["hard"] is not None
        if opens is not None and (after is not None or (hard and start + 40 > len(line.low))):
            told = strip_links(line.text[start + 3 : after]) if after is not None else ""
            verb = (line.low[start + 3 :].split() or [""])[0]
            if verb in SAYS and (not told or states.of_cell(told.lower()) is not None):
                return True
        return self._answers(at, start, said, hard=hard)

    def _holds(self, at: int, start: int, codes: Sequence[Found]) -> bool:
        """Whether "in" leads to it from a code or its status, in a line that tells of another module in another
        sentence: "P1000 (present) in the ECU. The TCM is silent"."""
        low = self._lines[at].low
        last = max((code.end for code in codes if code.end <= start), default=0)
        lead = _FROM_CODE.fullmatch(low, states.leading(low, last), start) or _FROM_CODE.fullmatch(low, last, start)
        if not last or lead is None or low[start + 3 : start + 4] not in (".", ",", ";", ""):
            return False
        begin, end = self._sentence(at, start)
        return any(not begin <= first < end for first, _, _ in self._names.find(low))

    def _sentence(self, at: int, start: int) -> tuple[int, int]:
        """Where the sentence around a place begins and ends."""
        low = self._lines[at].low
        begin = max((match.end() for match in _SENTENCE.finditer(low, 0, start)), default=0)
        stop = _SENTENCE.search(low, start)
        return begin, stop.start() if stop is not None else len(low)

    def _answers(self, at: int, start: int, said: Sequence[answeraround.Spoken], *, hard: bool) -> bool:
        """Whether an answer of a sentence is its own, in a line that tells of another module in another sentence."""
        low = self._lines[at].low
        begin, end = self._sentence(at, start)
        spans = [(first, last) for first, last, _ in self._names.find(low)]
        if any(begin <= first < end for first, _ in spans) or not spans:
            return False
        for hit in said:
            behind = hit.end <= start and hit.start >= begin and not strip_links(low[hit.end : start])
            ahead = hard and (hit.start == start or 0 <= hit.start - start - 3 < 4)
            if behind or ahead:
                return True
        return False

    def stands_like_a_name(self, at: int, start: int) -> bool:
        """Whether a listed name stands in another line with a code between the same marks as it."""
        if self._like is None:
            self._like = set()
            coded = 0
            for other, line in enumerate(self._lines):
                if coded >= _MOST_LINES or not (codes := self._codes(other) or ecunumbers.first(self._lines[other])):
                    continue
                coded += 1
                spans = [(first, last) for first, last, _ in self._names.find(line.low)]
                self._like |= {self._beside(other, span, codes) for span in spans}
        codes = self._codes(at) or ecunumbers.first(self._lines[at])
        beside = self._beside(at, (start, start + 3), codes) if codes else ("", "")
        return bool(beside[0]) and beside in self._like

    def _beside(self, at: int, span: tuple[int, int], codes: Sequence[Found]) -> tuple[str, str]:
        """The mark or the word before a name and what stands behind it; "" where that tells no place."""
        low = self._lines[at].low
        start, end = span
        lead = re.sub(r"(?<![a-z])(?:the|le|la|el|der|die|das|dem)\s+$", "", low[:start])
        before = lead.rstrip(" ")
        if any(code.end == len(before) for code in codes):
            mark = "code"
        else:
            word = _WORD_BEFORE.search(before)
            mark = (before[-1:] if word is None else word[1]) or ""
        if mark.isalpha() and mark not in ("code", "in", "im", "en", "dans", "at"):
            return "", ""
        behind = low[end:].lstrip(" ")
        if behind[:1].isalpha():
            return (mark, "status") if states.leading(low, end) > end + 1 else ("", "")
        return mark, behind[:1]
