"""Breaks: a line that breaks off within a sentence or a name, joined with the next, whatever the widths of the lines.

>>> from triage.intake.lines.rows import rows_of
>>> names = {"Transmission", "Transmission control", "engine", "ABS"}
>>> text = "P0562 (stored) in the\\nengine. C0044 (active) in the\\nABS."
>>> [row.text for row in mended(rows_of(text), names.__contains__)]
['P0562 (stored) in the engine. C0044 (active) in the ABS.']
>>> [row.text for row in mended(rows_of("Transmission\\ncontrol: no codes\\nABS: no\\nresponse"), names.__contains__)]
['Transmission control: no codes', 'ABS: no response']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.lines import goingon, supplyrow, unknown
from triage.intake.lines.glue import glued
from triage.intake.lines.pages import is_page_count
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, WORD, word_set
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.attribution import LEADS
from triage.intake.said.listheads import status_of_head
from triage.intake.tidying.tornentries import begins_with_code, is_marked, leads_below, tears_entry
from triage.intake.words.vocabulary import ANSWERS, STATES

#: The last word of a line that may begin an answer, or lead on to one.
_LEADS_ON = goingon.OPEN | ANSWERS.starts | {"fmi", "spn", "n'ont", "n'a"}
#: The first piece of a list that goes on.
_PIECE = lazily(
    r"([^,.;:()]{2,40}?)(?:,|\.?$|\s(?:and|or|nor|und|oder|et|ou|y|o|is|are|was|were|did|do|all|came|had)\s)"
)
#: Before the last name of a list ("no codes in radio and" above "Brakes").
_ANDS = word_set("and or nor und oder noch et ou ni y o")
_INTO = lazily(r"(?<![a-z])(?:in|from|of|im|aus|dans|en|du|del)(?:\s(?:the|der|dem|le|la|el))?$")
_I_DID = word_set("got get found have had see saw read did")
#: What is said of each name of a list that the line above breaks off with.
_OF_EACH = word_set("each both all jeweils beide alle chacun cada ambos")
_I_FOUND = lazily(r"(?<![a-z])(?:i|we|have|has) found$")
_SPN = lazily(r"spn\s?:?\s?[0-9]{1,7}/?$")
_STOP = lazily(rf"\.{NOT_SHORT}(?=\s|$)|[!?](?=\s|$)")
#: Behind a failure type the sentence goes on; behind the number of a list a name stands.
_TYPE = lazily(r"\[[0-9A-Fa-f]{2}\](?=\s*(?:$|[(,.;]|(?:and|und|et|y)\s))")
#: A verb of saying with more behind it, at the end of a line.
_GAVE = lazily(
    r"(?<![a-z])(?:(?:gave|gives|shows?|showed) (?:me|us)|c[ao]mes? (?:back|up) with|me (?:da|dio)|m'a donne)$")
_KEYED = lazily(r"([^\W\d][\w/&-]*(?: [\w/&-]+){0,2})\s*:(?:\s|$)")
#: A description in brackets that ends a line; where a status ends that goes before something else.
_TEXT_LAST, _STATUS_ENDS = lazily(r"\s?\([^()]{3,100}\)"), lazily(r"[,;.](?:\s|$)|\s(?:and|und|et|y)\s")
_LETTER_LAST, _DIGITS_FIRST = lazily(r"(?<![^\s,;(])[PCBUpcbu]$"), lazily(r"[0-3][0-9A-Fa-f]{3}(?![^\W_])")
_CLOCK = lazily(r"[0-2]?[0-9][:h][0-5][0-9](?::[0-5][0-9])?\s+(?=\S)")
_HAVE = goingon.SHOWS | {"ont", "tienen"}
_LONGEST, _MOST, _LONG = 1500, 40, 60
#: So far from the break a bracket opens and closes.
_REACH, _BRACKET = 24, 64


def mended(rows: Sequence[Row], is_name: IsName) -> list[Row]:
    """The rows, those that go on in the next one joined with it. ``is_name``: listed names."""
    found: list[Row] = []
    joined = 0
    for at, row in enumerate(rows):
        above = found[-1] if found else None
        if above is None or not row.text:
            found.append(row)
            continue
        if not above.text and len(found) > 1 and (_is_torn(found[-2], row) or leads_below(found[-2], row)):
            found.pop()
            above = found[-1]
        even = row.line.indent == above.line.indent
        if (even or leads_below(above, row)) and above.text and joined < _MOST:
            row = _numbered(row) if above.low.endswith(" fmi") else row
            if _tears_code(above, row) or tears_entry(above, row) or (
                    _ends_before_status(above, row, rows[at + 1 : at + 2])) or (
                    _may_go_on(above, row) and _goes_on(above, row, is_name)):
                found[-1] = glued(above, row)
                joined += 1
                continue
        found.append(row)
        joined = 0
    return found


def _ends_before_status(above: Row, row: Row, below: Sequence[Row]) -> bool:
    """Whether a line between a code behind its key and the key of its status ends the description, whatever it is."""
    if len(above.finds.codes) != 1 or not below or row.finds.codes or ":" in row.text or "=" in row.text:
        return False
    said, key = above.finds.codes[0], _KEYED.match(below[0].low)
    return (
        key is not None and role_of(key[1]) == "status" and below[0].line.indent == row.line.indent
        and above.text[said.end :].lstrip().startswith((":", "-")) and len(above.text) > said.end + 8
        and role_of(above.low[: said.start].strip(" :=-")) == "code"
    )


def _tears_code(above: Row, row: Row) -> bool:
    """Whether a code written with a space is torn at it: "gives P 0562 (stored), U" above "0151 (stored)"."""
    return bool(above.finds.codes) and _LETTER_LAST.search(above.text) is not None and (
        _DIGITS_FIRST.match(row.text) is not None)


def _numbered(row: Row) -> Row:
    """The row with the number before it, which was taken for that of a line of a list ("9. The hydraulics")."""
    number = row.line.text[: row.start].strip()
    if not number[:-1].isdigit() or number[-1] != ".":
        return row
    return Row(row.line, row.line.text.strip(), len(row.line.text) - len(row.line.text.lstrip()))


def _may_go_on(above: Row, row: Row) -> bool:
    """Whether two lines may be parts of one sentence at all: text at one indent, a mark in the second or a word at the
    end of the first that no line ends with."""
    text, low = row.text, above.low
    if text[0].isdigit() and low[0].isdigit() and _CLOCK.match(text) and _CLOCK.match(low):
        # Two messages, each with its time.
        return False
    stated = _begins_with_status(above, row)
    ends = not (stated or low[-1].isalnum() or low[-1] in ",:" or _is_one_more(above, row))
    if ends or is_page_count(low) or is_page_count(row.low):
        return False
    marked = ":" in text or ")" in text or "." in text or "!" in text or "?" in text
    leads_on = stated or goingon.last_word(low) in _LEADS_ON or (
        _begins_with_type(above, row) or _leads_to_codes(above, row))
    if not marked and ". " not in low and not leads_on:
        return False
    if len(above.text) + len(text) > _LONGEST:
        return False
    return (text[0].isalnum() or text[0] in "([" or _begins_with_type(above, row)) and not is_marked(row)


def _goes_on(above: Row, row: Row, is_name: IsName) -> bool:
    """Whether the sentence or the name of a line goes on in the next one."""
    ends = WORD.findall(above.low[-40:])
    starts = WORD.search(row.low[:24])
    if not ends or starts is None or _are_rows(above, row):
        return False
    keyed = _KEYED.match(row.text)
    if keyed is not None and row.finds.codes and not row.finds.codes[0].start:
        # "SPN: 168 FMI: 4" is no key with its value.
        keyed = None
    if keyed is not None and (is_name(keyed[1]) or role_of(keyed[1].lower()) is not None):
        # "ABS: no codes" begins anew, but behind "from the".
        sentence = above.finds.codes or ". " in above.text
        return bool(sentence) and is_name(keyed[1]) and _INTO.search(above.low) is not None
    if above.text[-1] == ":" and not row.finds.codes:
        return False
    # No sentence goes on behind a status, whatever small word it ends with ("liegt an").
    end = ends[-1] if goingon.last_word(above.low) else ""
    told = (
        (ends[-1] in ("fmi", "spn") and row.text[0].isdigit())
        or (starts[0][:3] == "fmi" and _SPN.search(above.low) is not None)
        or goingon.tears_bracket(above.text[-_BRACKET:], row.text[:_REACH])
        or (keyed is not None and _is_rest_of_name(above, row, keyed, is_name))
        or _spans(above, row)
        or (_begins_with_status(above, row) and _is_told(above))
        or _begins_with_type(above, row)
        or (_has_stop(above, row) and _is_prose(above, row, end, starts[0], is_name))
        or _is_wrapped(above, row)
        or _leads_to_codes(above, row)
        or _is_one_more(above, row)
        # "The ABS and the radio had" above "no codes"
        or (end in _HAVE and not above.finds.codes and answer_of_cell(row.low.strip(" .;")) is not None)
        or (end in _ANDS and bool(spoken(above.low)) and (is_name(tidy(row.text)) or _ends_as_name(row)))
    )
    last, first = above.text.rfind(". ") + 1, row.text.find(". ")
    beside = above.text[last:], row.text[: first if first >= 0 else len(row.text)]
    return told and not any(map(goingon.LIST_LIKE.search, beside))


def _are_rows(above: Row, row: Row) -> bool:
    """Whether two lines are cut by as many commas, as the rows of a table are, and begin with a code or have no blank
    behind any of them: "no codes,Gateway," above "P0420,Tail lift,stored"."""
    if not above.text.count(",") == row.text.count(",") > 1:
        return False
    codes = [each.finds.codes[0].start for each in (above, row) if each.finds.codes]
    return codes == [0, 0] or (", " not in above.text and ", " not in row.text)


def _ends_as_name(row: Row) -> bool:
    """Whether a line is a few words that end as names of modules do: "Main body module"."""
    found = WORD.findall(row.low)
    return 1 < len(found) < 5 and found[-1] in unknown.KINDS and not row.finds.codes and not spoken(row.low)


def _has_stop(above: Row, row: Row) -> bool:
    """Whether a sentence ends in one of the lines."""
    return any(
        ("." in low or "!" in low or "?" in low) and _STOP.search(low) is not None for low in (row.low, above.low)
    )


def _begins_with_status(above: Row, row: Row) -> bool:
    """Whether a line begins with the status, in brackets, of the code that the line above ends with, or with that of
    one whose description in brackets it ends with: "C0110 (pump)" above "active, no answer from radio"."""
    if not goingon.begins_with_status(row.low):
        return False
    if row.text[0] == "(":
        return goingon.ends_with_code(above)
    end = above.finds.codes[-1].end if above.finds.codes else len(above.text)
    stop = _STATUS_ENDS.search(row.low, 0, _LONG) if _TEXT_LAST.fullmatch(above.text, end) is not None else None
    return stop is not None and states.of_cell(row.low[: stop.start()]) is not None


def _begins_with_type(above: Row, row: Row) -> bool:
    """Whether a line begins with the failure type, in brackets, of the code that the line above ends with."""
    last = above.finds.codes[-1] if above.finds.codes else None
    if last is None or last.end < len(above.text) or last.failure_type is not None:
        return False
    return _TYPE.match(row.text) is not None


def _lead_to_codes(above: Row, row: Row) -> bool:
    """Whether each of two lines is a status and its code: "no longer present U0073" above "pend. C1693"."""
    return all(len(each.finds.codes) == 1 and goingon.begins_with_status(each.low) and _is_lead(each)
               for each in (above, row))


def _is_lead(row: Row) -> bool:
    """Whether nothing but a status stands before the first code of a row."""
    said = STATES.find(row.low[: row.finds.codes[0].start])
    return bool(said) and not row.low[said[-1].end : row.finds.codes[0].start].strip(" .:-([")


def _is_told(above: Row) -> bool:
    """Whether a line is of a sentence."""
    return any(word in goingon.PROSE for word in WORD.findall(above.low))


def _is_torn(above: Row, row: Row) -> bool:
    """Whether a blank line stands within a sentence: in a bracket, before a status, or between a verb and its codes."""
    if above.blank:
        return False
    if ". " in above.text and row.line.indent == above.line.indent:
        if row.text[0].islower() and goingon.begins_with_status(row.low) and goingon.ends_with_code(above):
            return True
        if goingon.last_word(above.low) in goingon.OPEN and row.finds.codes and not row.finds.codes[0].start:
            return True
        if above.finds.codes and _INTO.search(above.low) is not None and row.text[0].isalpha():
            return True
        first = WORD.match(row.low) if row.text[0].islower() and above.text[-1].isalnum() else None
        if first is not None and first[0] in goingon.TELLS | goingon.GOES_ON and (row.finds.codes or spoken(row.low)):
            return True
    if ")" not in row.text[:32]:
        return False
    if _begins_with_status(above, row):
        return True
    return goingon.tears_bracket(above.text, row.text, _REACH)


def _is_rest_of_name(above: Row, row: Row, keyed: re.Match[str], is_name: IsName) -> bool:
    """Whether a name breaks off above and ends here before its colon ("Transmission" above "control: no codes")."""
    if not (len(keyed[0]) >= len(row.text) or spoken(row.low) or row.finds.codes) or ":" in above.text:
        return False
    return is_name(f"{above.text} {keyed[1]}") and not above.finds.codes


def _spans(above: Row, row: Row) -> bool:
    """Whether an answer begins above and ends here, with nothing behind it in its clause ("no" above "response");
    "Active (0): none" is told to its end."""
    key, colon, _ = above.low.partition(":")
    if colon and status_of_head(key, True)[0] is not None:
        return False
    if ANSWERS.starts.isdisjoint(WORD.findall(above.low[-goingon.NEAR :])):
        return False
    for before, said, behind in goingon.torn(above.low, row.low, ANSWERS.find):
        if (row.text[0].isupper() or row.text[-1] == ":") and ANSWERS.find(row.low[: len(row.low) - len(behind)]):
            # "OK, no codes:" is one of its own below "stored and present now".
            continue
        if not behind.strip() or behind.lstrip()[0] in ".,;!)(":
            return True
        # "Nothing" alone, or first in its sentence, and below it "found in ECM."
        alone = not before.strip() or before.rstrip()[-1] in ".!?;"
        leads = said.split()[-1] in LEADS or behind.split()[0] in LEADS
        return alone and leads and row.text[0].islower()
    return False


def _is_wrapped(above: Row, row: Row) -> bool:
    """Whether a line in small letters goes on with a sentence of codes that began with a capital letter: with the
    description of its last code, or with the next code."""
    if not (above.finds.codes and above.text[0].isupper() and row.text[0].islower() and above.text[-1].isalnum()):
        return False
    if not any(word in goingon.TELLS for word in WORD.findall(above.low[: above.finds.codes[-1].start])):
        return False
    last = above.low[above.low.rfind(". ") + 1 :]
    told = row.finds.codes or row.text[-1] == "." or STATES.find(row.low)
    return bool(told) and not spoken(row.low) and not spoken(last) and not volts.find(row.low)


def _leads_to_codes(above: Row, row: Row) -> bool:
    """Whether a line ends with a verb of saying behind what was told of another module, and the next begins with codes:
    "BCM has B1000 (active), radio logged" above "U0140 / U0155 - stored"; or breaks off before that verb, or before the
    "each" that it is told of."""
    if not (above.finds.codes or spoken(above.low) or ("; " in above.low and volts.find(above.low))):
        return False
    first, _, others = row.low.partition(" ")
    of_each = first in _OF_EACH and others.partition(" ")[0] in goingon.TELLS
    first = f"{first} {others.partition(' ')[0]}" if of_each else first
    if (of_each or first in goingon.TELLS) and above.text[-1].isalnum() and row.finds.codes:
        return row.finds.codes[0].start == len(first) + 1 and (of_each or "," in above.text)
    ends = above.low.rpartition(" ")[2] in goingon.TELLS or _GAVE.search(above.low) is not None
    return ends and begins_with_code(row)


def _is_one_more(above: Row, row: Row) -> bool:
    """Whether a line begins with one more code of a sentence that breaks off behind what is told of the one above it:
    "Got U0168 (pending)" above "and U0158 (stored) in the ABS"."""
    first = WORD.match(row.low)
    if first is None or first[0] not in _ANDS or not (above.finds.codes and row.finds.codes):
        return False
    return above.low[-1] in ")]" and row.finds.codes[0].start == first.end() + 1


def _lists_on(above: Row, row: Row, is_name: IsName) -> bool:
    """Whether a list of names breaks off at a comma ("..., ABS," above "BCM and radio came back clean.")."""
    last = above.text[max(above.text.rfind(mark) for mark in (". ", "! ", "? ")) + 1 :]
    before, first = last.rstrip(",").rsplit(",", 1)[-1].strip(), _PIECE.match(row.text)
    if first is None or any(code.end > len(above.text) - len(last) for code in above.finds.codes):
        return False
    answered = spoken(row.low) or spoken(above.low[len(above.text) - len(last) :])
    for lead in (" from ", " to ", " in "):
        # "No answer from DDM,"
        before = before.rsplit(lead, 1)[-1]
    named = [tidy(before), tidy(first[1])]
    return bool(answered) and all(is_name(name) or unknown.is_short(name) for name in named)


def _breaks_off(above: Row, row: Row, is_name: IsName) -> bool:
    """Whether a long line ends within a sentence that began with a capital letter and tells of nothing yet, and the
    next, in small letters, is its end: "... just history. I asked the gateway three" above "times and got nothing."."""
    begin = above.text.rfind(". ") + 2
    last = above.text[begin:]
    if begin < 2 or len(above.text) < _LONG or not (last[:1].isupper() and last[-1:].isalpha()):
        return False
    if not row.text[0].islower():
        return False
    if spoken(above.low[begin:]) or volts.find(above.low[begin:]) or any(
            code.end > begin for code in above.finds.codes) or ". " not in row.text:
        return False
    first = row.text.split()[:3]
    return last.count(" ") > 1 and not any(is_name(" ".join(first[:many]).rstrip(".,;:")) for many in (1, 2, 3))


def _is_prose(above: Row, row: Row, ends: str, starts: str, is_name: IsName) -> bool:
    """Whether a line that ends in a full stop, or holds one, goes on with a sentence that the line above begins."""
    if is_name(above.text.lstrip("0123456789.) ")):
        # "Air con" is a name, its last word no "with".
        return False
    if not above.finds.codes and ". " not in above.text and phases.find(above.low) is not None and ends in LEADS:
        # "As it came in" heads a scan.
        return False
    small = _is_told(above)
    coded = begins_with_code(row)
    if above.text[-1] == ",":
        return small and (row.text[0].islower() or coded or _lists_on(above, row, is_name))
    if above.text[-1] == ":":
        # "Battery 23.3 V. From the engine:" above its codes.
        last = WORD.findall(above.low[above.low.rfind(". ") + 1 :])
        return coded and ". " in above.text and bool(last) and last[0] in LEADS
    if (ends in goingon.OPEN and not above.text[-1].isupper()) or _I_FOUND.search(above.low) is not None:
        return not (not row.text[0].islower() and goingon.is_answered(above.low))
    if _begins_with_status(above, row):
        return True
    if not small:
        return False
    if _breaks_off(above, row, is_name):
        return True
    if (ends == "i" and starts in _I_DID) or (starts == "i" and row.low[2:].split(" ", 1)[0] in _I_DID):
        return True
    if not row.text[0].isupper() and not supplyrow.alone(row.low) and (
            starts in goingon.GOES_ON or (goingon.ends_with_code(above) and goingon.begins_with_status(row.low)
                                          and not _lead_to_codes(above, row))):
        return True
    return goingon.tears_name(above.text, row.text, is_name)
