"""Codes with a space inside, closed where a code stands: "TCM P22 63 active", "P05 62 engine", "B1001 B10 02 U0100".

A letter and two numbers are a connector, a bay or a part number too, and three characters with a number behind may be a
maker's own number with its count. So a code is closed only in the place of one: first in its line, behind the name of
its module, behind another code or a mark; and not where the text has own numbers of that form. What looks like a code
in such a place and stays open is refused by :mod:`triage.intake.codes.found`.

>>> from triage.intake.plain.characters import lines
>>> text = "TCM P22 63 active\\nECM: P0562, P05 63\\nconnector C12 34"
>>> found, read = closed(lines(text), {"TCM", "ECM"}.__contains__)
>>> [line.text for line in found], [place.read for place in read]
(['TCM P2263 active', 'ECM: P0562, P0563', 'connector C12 34'], ['P2263', 'P0563'])
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from triage.intake.lines.spacing import Respaced, with_places
from triage.intake.naming import IsName
from triage.intake.naming.linking import strip_links, trailing_status
from triage.intake.naming.names import tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import near, states

#: A code that spaces may stand in. Its letter comes first, so that a search passes over other characters at once.
_SPLIT = lazily(
    r"[PCBUpcbu](?<![^\W_].)(?: ?[0-3OoIl](?: ?[0-9A-Fa-fOoIl]){3}"
    r"|(?<![-/._].)[0-3][0-9A-Fa-f]-[0-9A-Fa-f]{2}(?![-/._]\w))(?![^\W_])"
)
#: The first part of one as a word.
_SIGN = signs.of_pattern(r"^[pcbu](?:[0-3oil][0-9a-foil]{0,2})?$")
#: What parts a code.
_APART = lazily(r"[ -]")
_CODE = r"[PCBUpcbu][0-3][0-9A-Fa-f]{3}(?:-?[0-9A-Fa-f]{2})?"
#: The same with a blank behind its letter, or letters for zeros in it.
_LOOSE = r"[PCBUpcbu] ?(?=[Oo]{0,3}[0-9])[0-3Oo][0-9A-Fa-fOo]{3}(?:-?[0-9A-Fa-f]{2})?"
_WHOLE = lazily(rf"{_CODE}(?![^\W_])")
_TYPED = lazily(r"(?<![^\W_])[PCBUpcbu][0-3][0-9A-Fa-f]{3}-[0-9A-Fa-f]{2}(?![^\W_])")
_AS = lazily(r" as(?: an?)?(?= [a-z])")
_LAST_CODE = lazily(rf"(?<![^\W_]){_LOOSE}(?:\s(?:as(?: an?)?|als|comme|como))?\s*[(\[,-]*\s*$")
#: What leads on from a code, or from its status, to the next one.
_LEADS_ON = lazily(r"[\s,;/&+)\]]*(?:(?<![^\W_])(?i:and|und|et|y|e|plus)\s+)?$")
#: Makers' own numbers of three characters with a number behind, and of four: no code begins like them.
_OWN_OF_THREE = lazily(r"(?<![^\W_])(?:[ADE-OQ-TV-Z][0-9]|[PCBU][4-9])[0-9A-F] [0-9]{2}(?![^\W_])")
_OWN_OF_FOUR = lazily(r"(?<![^\W_])(?=[0-9]*[A-F])(?=[A-F]*[0-9])(?:[0-9ADEF]|[BC][4-9A-F])[0-9A-F]{3}(?![^\W_])")
#: What could be the first part of a split code, with none behind it.
_PART_ALONE = lazily(r"(?<![^\W_])[PCBUpcbu][0-3][0-9A-Fa-f]{1,2}(?=\s*$|\s*[,;|)(]|\s-\s|\s+[A-Za-z]{2})")
_MARK = lazily(r"[:|;,>=\t(\[/&+]|\s-+\s|[.!?]\s")
_LAST_MARKS = ":|;,>=(/&+[)]\""
_CELL_MARKS = (";", "|", ",", "\t")
_IS = lazily(r"^(?:is|are|ist|sind|est|sont|es|esta|son|as(?: an?)?|als|comme|como)$")
_AROUND = " \t,;(["
_BULLETS = " \t-*\u2022>#.)(["
_AND = word_set("and und et y e plus in im dans en from aus at")
_UNITS = word_set(
    "v volt volts km mi miles min mins minutes h hours hrs rpm kg g mm cm m psi bar kpa nm a amp amps ma mv ohm ohms "
    "kohm w kw hz khz pcs eur euro euros usd dollars deg percent liters litres l gal street st road rd avenue of"
)
_ENDS = lazily(r"\s*$|\s*[|;,:)/(\[\t&+=\"]|\.(?:\s|$)|\s-+\s|\s\s")
#: A failure type or a count.
_TYPE = lazily(
    r" (?:(?=[0-9a-f]?[0-9])[0-9a-f]{2}h?|x ?[0-9]{1,3}|[0-9]{1,3} ?x)(?=\s*(?:$|[,;|)\](]|\s-|\s[a-z]))|"
    r"\s?-[0-9a-f]{2}(?![^\W_-])"
)
_WORD = lazily(r"\s([a-z][a-z']*)")
_ABBREVIATION = lazily(r"(?<![^\W_])[A-Z]{2,6}\s*$")
#: What stands before codes alone, and what stands before other things too.
_SURE, _LIKELY = ("name", "code", "split", "led"), ("start", "mark", "cell", "link")
#: No name behind a code is longer in words; so many lines that begin with such a code make a list of codes.
_MOST_WORDS, _FEW, _REACH, _LONGEST_NUMBER = 4, 2, 160, 6
#: A code with two spaces in it.
_LOOSEST = 7


@dataclass(slots=True)
class _Place:
    """A code with a space in it: its line and place, what it is read as, and what stands before and behind it."""

    at: int
    start: int
    end: int
    code: str
    first: int
    before: str
    behind: str
    #: A hyphen parts it, as one parts the numbers of connectors, parts and bays.
    hyphened: bool = False


def closed(found: Sequence[Line], is_name: IsName) -> tuple[Sequence[Line], list[Respaced]]:
    """The lines with the codes that a space stands in closed, and what was read where. ``is_name``: sure names."""
    places = [place for at in signs.places(found, _SIGN) for place in _in_line(at, found[at], is_name)]
    if not places:
        return found, []
    text = _Text(found, places, is_name)
    kept: dict[int, list[_Place]] = {}
    read: list[Respaced] = []
    for place in places:
        beside = kept.get(place.at)
        if place.before == "split" and not (beside and _leads_on(
                found[place.at].text[beside[-1].end : place.start])):
            continue
        if text.tells(place):
            kept.setdefault(place.at, []).append(place)
            line = found[place.at]
            if _APART.sub("", line.text[place.start : place.end]).upper() == place.code:
                # Of a slip of the pen in it, whoever reads the code tells.
                read.append(Respaced(line, place.start, place.end, place.code))
    mended = list(found)
    for at, several in kept.items():
        mended[at] = _closed(found[at], several)
    return mended, read


def _in_line(at: int, line: Line, is_name: IsName) -> list[_Place]:
    """The places of a line that look like a code with a space in it."""
    places: list[_Place] = []
    for match in _SPLIT.finditer(line.text):
        if len(parts := _APART.split(match[0])) < 2 or not _is_new(parts):
            continue
        start, end = match.span()
        labels = near.Labels(line.low)
        if labels.before(start, end, line.text) or near.part_of_a_number(line.text, start, end):
            continue
        beside = bool(places) and _leads_on(line.text[places[-1].end : start])
        before = "split" if beside else _before(line.text, start, is_name)
        loosest = end - start > _LOOSEST
        behind = _behind(line, end, is_name) if before or loosest else "other"
        if not before:
            # "... and it has U 0 1 0 0 stored": behind other words the status alone tells a code.
            before, behind = "link", behind if behind == "status" else "other"
        if behind != "other":
            code = near.digits_for_letters("".join(parts)[1:]) or ""
            places.append(_Place(at, start, end, (parts[0][0] + code).upper(), len(parts[0]), before, behind,
                                 "-" in match[0]))
    return places


def _is_new(parts: Sequence[str]) -> bool:
    """Whether parts are no code that is read as it stands ("P 0562", "P0 562"), and each has a digit in it."""
    if len(parts) == 2 and (len(parts[0]) == 1 or (len(parts[0]) == 2 and parts[1].isdigit())):
        return False
    if len(parts) > 3 and max(map(len, parts[1:])) > 1:
        # Only one who spaces every digit ("p0 2 3 8") leaves more than two spaces.
        return False
    return all(has_digit(part) or len(part) == 1 == len(parts[0]) for part in parts)


def _before(text: str, start: int, is_name: IsName) -> str:
    """What stands before a place: the start of the line, a code, a cell, a mark behind a name, a name, words that lead
    to codes ("link", with a mark "led"), an abbreviation, another mark ("loose"); "" for anything else."""
    lead = text[max(0, start - _REACH) : start]
    bare = lead.strip(_BULLETS) if start <= _REACH else lead
    if not bare or (bare.replace(".", "").isdigit() and len(bare) <= _LONGEST_NUMBER):
        return "start"
    if _is_behind_code(lead):
        return "code"
    tail = lead.rstrip()
    marks = list(_MARK.finditer(tail))
    if tail[-1] in _LAST_MARKS or tail.endswith((" -", "\t-")):
        head = tail[: marks[0].start()] if marks else tail[:-1]
        if not strip_links(trailing_status(head)[0]) or states.of_cell(near.small(head)) is not None:
            return "led"
        if _is_named(tail.rstrip(_LAST_MARKS + " -"), is_name):
            return "name"
        return "mark" if _is_named(head, is_name) or _WHOLE.search(lead) else "loose"
    if len(lead) - len(tail) > 1 or "\t" in lead[len(tail) :]:
        return "cell"
    last = tail[marks[-1].end() :] if marks else tail
    if _is_named(last, is_name) or _is_named(tail, is_name):
        return "name"
    if not strip_links(trailing_status(last)[0]):
        return "link"
    return "short" if _ABBREVIATION.search(tail) else ""


def _leads_on(between: str) -> bool:
    """Whether nothing stands between two places but what leads on from one code, or from its status, to the next."""
    if len(between) > _REACH:
        return False
    joint = _LEADS_ON.search(between)
    core = between[: joint.start()] if joint is not None else between
    # "P 0 5 6 2 is stored U 0 1 0 0": a status alone parts both as well.
    return not core.strip(_AROUND) or not _IS.sub("", trailing_status(core)[0].strip(_AROUND))


def _is_behind_code(lead: str) -> bool:
    """Whether a text ends with a code, or with one and its status, and with what leads on to another."""
    joint = _LEADS_ON.search(lead)
    core = lead[: joint.start()] if joint is not None else lead
    return _LAST_CODE.search(core) is not None or _LAST_CODE.search(trailing_status(core)[0]) is not None


def _is_named(text: str, is_name: IsName) -> bool:
    """Whether a text is the name of a module, with words that lead to codes or a status behind it."""
    return is_name(tidy(text)) or is_name(tidy(strip_links(trailing_status(text)[0])))


def _behind(line: Line, end: int, is_name: IsName) -> str:
    """What stands behind a place: the end of its piece, a status, a code, a name, a failure type or count, words;
    "other" for a unit, a number and whatever else no code has behind it."""
    low = line.low
    if (leads := _AS.match(low, end)) is not None:
        # "C00 77 as pending"
        end = leads.end()
    if _ENDS.match(low, end):
        return "end"
    if _TYPE.match(low, end):
        return "type"
    if _WHOLE.match(low, end + 1) or _SPLIT.match(low, end + 1):
        return "code"
    word = _WORD.match(low, end)
    if word is None:
        return "other"
    if states.leading(low, end) > end + 1 or states.of_cell(word[1]) is not None:
        return "status"
    if word[1] in _UNITS:
        return "other"
    if word[1] in _AND:
        return "end"
    parts = line.text[end : end + 80].split()[:_MOST_WORDS]
    if any(is_name(tidy(" ".join(parts[:size]))) for size in range(1, len(parts) + 1)):
        return "name"
    return "words"


class _Text:
    """What the whole text says of places that look like a code."""

    def __init__(self, found: Sequence[Line], places: Sequence[_Place], is_name: IsName) -> None:
        self._found, self._is_name = found, is_name
        self._coded = any(has_digit(line.text) and _WHOLE.search(line.text) for line in found)
        self._typed = any(place.hyphened for place in places) and any(
            "-" in line.text and _TYPED.search(line.text) for line in found)
        # Of a list of connectors each may have words behind it.
        first = [place for place in places if place.before in (*_SURE, "start", "mark", "link")
                 and (place.behind != "words" or place.code[0] in "PU")]
        self._listed = len(first) >= _FEW
        self._own: dict[int, bool] = {}
        self._columns: set[tuple[str, int] | None] | None = None

    def tells(self, place: _Place) -> bool:
        """Whether a place is that of a code."""
        weak, words = place.code[0] in "BC", place.behind == "words"
        if place.hyphened and (self._typed or (
                place.before not in _SURE and place.behind != "status" and (weak or words))):
            # Where failure types stand behind a hyphen, a digit may be missing before one.
            told = False
        elif place.before in _SURE:
            # "Seat B1 A34 row"
            told = not (words and weak and place.first == 2)
        elif weak and place.behind in ("words", "name", "end") and place.end - place.start > _LOOSEST:
            # "C1 2 3 4 door plug": pins of a connector.
            told = False
        elif place.before in _LIKELY:
            # "Behind the panel, C12 34 is loose"
            told = not (words and weak and place.before != "start") and (
                place.behind not in ("words", "end") or self._coded or self._listed or self._is_headed(place.at)
                or (place.before == "link" and not weak))
        else:
            told = (place.behind not in ("words", "end") and self._coded and not weak) or self._in_column(place)
        return told and not self._has_own(place.first)

    def _in_column(self, place: _Place) -> bool:
        """Whether a place fills the cell of its line that a code fills in another."""
        if self._columns is None:
            self._columns = {
                _cell(line.text, *match.span()) for line in self._found for match in _WHOLE.finditer(line.text)
            }
        cell = _cell(self._found[place.at].text, place.start, place.end)
        return cell is not None and cell in self._columns

    def _is_headed(self, at: int) -> bool:
        """Whether the line above, but for blank ones, is a name."""
        above = next((line.text for line in reversed(self._found[max(0, at - 3) : at]) if line.text.strip()), "")
        return self._is_name(tidy(above))

    def _has_own(self, first: int) -> bool:
        """Whether makers' own numbers of so many characters stand in the text, or the first parts of codes alone."""
        if first not in self._own:
            pattern = {3: _OWN_OF_THREE, 4: _OWN_OF_FOUR}.get(first)
            self._own[first] = pattern is not None and any(
                pattern.search(line.text) or any(
                    len(part[0]) == first and _before(line.text, part.start(), self._is_name)
                    for part in _PART_ALONE.finditer(line.text)
                )
                for line in self._found if has_digit(line.text))
        return self._own[first]


def _cell(text: str, start: int, end: int) -> tuple[str, int] | None:
    """The mark that parts the cells of a line, and the number of the one that a place fills; None where it fills
    none."""
    before, after = text[max(0, start - 2) : start].rstrip(" ")[-1:], text[end : end + 2].lstrip(" ")[:1]
    if before not in _CELL_MARKS or after not in ("", before):
        return None
    return before, text.count(before, 0, start)


def _closed(line: Line, places: Sequence[_Place]) -> Line:
    """A line with the codes at its places closed; where columns follow, these stay where they stand."""
    kept: list[int] = []
    done = 0
    for place in places:
        inside = [at for at in range(place.start, place.end) if line.text[at] not in " -"]
        kept += [*range(done, place.start), *inside]
        if line.text[place.end : place.end + 2] == "  ":
            kept += [place.end] * (place.end - place.start - len(inside))
        done = place.end
    return with_places(line, [*kept, *range(done, len(line.text))])
