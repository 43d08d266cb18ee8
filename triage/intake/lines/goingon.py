"""Signs that a line goes on in the next one, or is told to its end, asked by every pass that puts together what a page
or a mail program broke.

Each is a sign and no proof: a pass tells which it takes in what text, and what must be so besides.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Protocol

from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states
from triage.intake.said.answers import spoken, takes_object
from triage.intake.words.vocabulary import STATES


class Found(Protocol):
    """A place of a text."""

    @property
    def start(self) -> int: ...

    @property
    def end(self) -> int: ...


#: Small words that no line ends with, whatever it is of.
LINKS = word_set(
    "with from by of to the an and or mit von zu und oder der die das dem bei avec de du et ou con del y le la "
    "les el los"
)
#: And those that no description of a fault ends with.
IN_DESCRIPTIONS = LINKS | word_set(
    "a for in at on than below above not no des unter uber la le les par el los o por between is was has too lost "
    "invalid"
)
#: And those that no full line of a list ends with.
LEADS_ON = LINKS | word_set("as in at not is has have was are als im hat ist nicht des dans est en como")
#: Verbs of saying before codes.
SHOWS = word_set(
    "has have had shows show showing gives gave give giving reports reporting reported threw throws got get hat haben "
    "hatte meldet melden zeigt zeigen affiche indique remonte donne tiene tienen muestra presenta da dan came comes "
    "come gibt hay steht"
)
#: And those that say a status as well.
TELLS = SHOWS | word_set("logged logs holds held set sets guarda muestran")
#: No sentence ends with one of these.
OPEN = LINKS | SHOWS | word_set(
    "a in at does did no not is are was were den im aus vom kein keine ist sind nicht le la les un une dans des ont "
    "ne pas aucun aucune est sont el los las en o ningun sin son"
)
#: No sentence begins with one of these.
GOES_ON = word_set(
    "steht stehen gibt hay donne remonte giving threw came comes back did does do is are was were has have had and or "
    "but shows show gives gave reports stayed would could in from hat hatte haben ist sind war und oder aber zeigt "
    "meldet antwortet im aus a ont est sont et ou mais dans affiche indique ha han son esta y o pero en tiene muestra"
)
#: Other words that a sentence has before its end.
_WITHIN = word_set(
    "this there that on it we i then but also both after before es wir dann aber auch nach vor ein eine il puis mais "
    "apres avant aussi ha han ningun tambien se luego pero despues antes uno una como nothing as running would could "
    "cannot stayed dropped went down nichts stehen rien nada donnent remonte muestran gets"
)
#: The small words that tell prose from a list, and those that a line of a paragraph breaks behind.
PROSE = OPEN | GOES_ON | _WITHIN
BREAKS = OPEN | _WITHIN
#: All of them.
_SMALL = PROSE | IN_DESCRIPTIONS | LEADS_ON | TELLS
#: What parts the cells of rows, and stands in no sentence.
LIST_LIKE = lazily(r"[|\t]|=(?! ?[0-9]+[.,][0-9])|;(?! |$)|\s{3,}|\.{4}|_{4}")
#: What begins a row of a list, or a line of its own: a mark, a number, a key.
STARTED = lazily(r"(?:[-*\u2022#=|+_<{\[\"',;]|[0-9]{1,3}[.)] |[a-z][\w /-]{1,33}(?:=|:(?:\s|$)))")
_QUOTE, _QUOTES = lazily(r"[ \t>]*"), frozenset(" \t>")
_CLOSING = " )].,;|"
#: So near the break begins and ends what it tears.
NEAR = 30
#: No name has more words on either side of a break.
_MOST_WORDS = 4
_EDGES = " .,;:)(|"


def prefix(line: Line) -> int:
    """Where a line begins behind its indent and the marks of a quote."""
    if line.text[:1] not in _QUOTES:
        return 0
    match = _QUOTE.match(line.text)
    return match.end() if match is not None else 0


def fits(above: int, below: str, width: int) -> bool:
    """Whether the first word of a line would have had room behind the one above, of so many characters.

    >>> fits(30, "servo no codes", 36), fits(30, "control: no codes", 36)
    (True, False)
    """
    return above + 1 + len(below.split(" ", 1)[0]) <= width


def ends_with_status(low: str, translated: bool = False) -> bool:
    """Whether a line ends with the status of a code.

    >>> ends_with_status("p0562 low voltage (stored)."), ends_with_status("p0562 stored voltage")
    (True, False)
    """
    low = low.rstrip(_CLOSING)
    told = states.in_text(low, translated)
    return bool(told) and told[-1].end >= len(low)


def ends_with_code(row: Row) -> bool:
    """Whether nothing stands behind the last code of a row."""
    return bool(row.finds.codes) and row.finds.codes[-1].end >= len(row.text)


def last_word(low: str) -> str:
    """What stands behind the last space of a line, without a bracket before it; "" where that ends a status.

    >>> last_word("u0100 lost contact with"), last_word("u0100 motor - liegt an")
    ('with', '')
    """
    last = low.rpartition(" ")[2].lstrip("([")
    return "" if last in _SMALL and ends_with_status(low, True) else last


def begins_with_status(low: str) -> bool:
    """Whether a line begins with a status, in round brackets or not: angular ones begin rows of a list.

    >>> begins_with_status("(stored), P0563"), begins_with_status("low voltage (stored)")
    (True, False)
    """
    told = STATES.find(low[:40])
    return bool(told) and not low[: told[0].start].strip("( ")


def torn(above: str, below: str, find: Callable[[str], Sequence[Found]]) -> Iterator[tuple[str, str, str]]:
    """What begins at the end of a line and ends at the start of the next, with what stands before and behind it."""
    head, tail = above[-NEAR:], below[:NEAR]
    whole = f"{head} {tail}"
    for hit in find(whole):
        if hit.start < len(head) < hit.end:
            yield head[: hit.start], whole[hit.start : hit.end], below[hit.end - len(head) - 1 :]


def is_answered(low: str) -> bool:
    """Whether a line ends with an answer that leads to no name: "gateway antwortet nicht" is told to its end."""
    said = spoken(low)
    return bool(said) and said[-1].end >= len(low) and not takes_object(low, said[-1])


def tears_bracket(above: str, below: str, reach: int | None = None) -> bool:
    """Whether a bracket opens in a line and closes in the next, so far from the break at most.

    >>> tears_bracket("P0562 (not", "present), P0563"), tears_bracket("P0562 (stored)", "P0563 (stored)")
    (True, False)
    """
    head, tail = (above, below) if reach is None else (above[-reach:], below[:reach])
    closed = tail.find(")")
    return head.rfind("(") > head.rfind(")") and closed > 0 and "(" not in tail[:closed]


def tears_name(above: str, below: str, is_name: IsName) -> bool:
    """Whether the last words of a line and the first of the next are one name.

    >>> tears_name("No codes: Radio, brake", "servo, gateway", {"brake servo"}.__contains__)
    True
    """
    ends, starts = above[-60:].split(" ")[-_MOST_WORDS:], below[:60].split(" ")[:_MOST_WORDS]
    return ends[-1][-1:].isalnum() and any(
        is_name(" ".join([*ends[-left:], *starts[:right]]).strip(_EDGES))
        for left in range(1, len(ends) + 1) for right in range(1, len(starts) + 1))


__all__ = [
    "BREAKS", "GOES_ON", "IN_DESCRIPTIONS", "LEADS_ON", "LINKS", "LIST_LIKE", "NEAR", "OPEN", "PROSE", "SHOWS",
    "STARTED", "TELLS", "begins_with_status", "ends_with_code", "ends_with_status", "fits", "is_answered", "last_word",
    "prefix", "tears_bracket", "tears_name", "torn",
]
