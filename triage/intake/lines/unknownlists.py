"""Short names and names with a capital letter that nobody knows, told by the other rows or by the mark before them."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.lines import namelist, unknown
from triage.intake.lines.row import Row
from triage.intake.lines.unlistednames import OF_FAULTS, may_name
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words, word_set
from triage.intake.said import phases, volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.attribution import SAYS
from triage.intake.said.near import small
from triage.intake.said.voltthings import is_rated
from triage.intake.words.saying_words import PEOPLE, VERBS
from triage.intake.words.vocabulary import STATES
from triage.intake.words.work_words import PARTS

_ITEM = lazily(r"(?:the |der |die |das |le |la |el )?([A-Z\u00c0-\u00de][\w-]{1,24}(?: [\w.-]{1,20}){0,3})")
_MOST_ROWS = 400
#: No name in a list has them: it tells what was done to parts then ("no answer: plug corroded").
_NO_ITEM = (PARTS | SAYS | VERBS) - word_set("light lights")
#: Of so many letters a word is more than one that joins others.
_LONG = 4


def behind_mark(row: Row, texts: Sequence[str], known: Callable[[str], bool] = lambda text: False) -> bool:
    """Whether the first of several texts stands behind a colon or the like, and each may be a name that nobody knows;
    behind an answer and nothing else in small letters too, beside names that are ``known``.

    >>> from triage.intake.lines.rows import rows_of
    >>> row = rows_of("No reply: HOPPER GATE, Mast node left")[0]
    >>> behind_mark(row, ["HOPPER GATE", "Mast node left"]), behind_mark(row, ["Mast node left"])
    (True, False)
    >>> row = rows_of("No codes: hopper gate, mast pump 2, I/O module 1")[0]
    >>> behind_mark(row, ["hopper gate", "mast pump 2", "I/O module 1"])
    True
    """
    lead = row.text[: max(row.text.find(texts[0]), 0)].rstrip()
    if not lead.endswith((":", " -", "=", ">")):
        return False
    if all(_ITEM.fullmatch(text) and not spoken(small(text)) and not STATES.find(small(text)) for text in texts):
        return True
    label = small(lead).rstrip(" :-=>")
    return answer_of_cell(label) is not None and all(
        not hit.doubtful for hit in spoken(label)) and all(known(text) or _may_be_listed(text) for text in texts)


def _may_be_listed(text: str) -> bool:
    """Whether a text may be a name in a list of those that gave one answer: the list tells what it is of, so words of
    descriptions may stand in it ("voltage stabiliser") and what a module may be called after ("phone tray")."""
    low = small(text)
    said = plain_words(low)
    told = any(len(word) >= _LONG and word not in OF_FAULTS for word in said)
    if is_rated(low):
        return True
    other = low.split()[0] in PEOPLE or any(len(word) > 1 and word in _NO_ITEM for word in said)
    return told and may_name(text) and not (
        other or spoken(low) or STATES.find(low) or phases.find(low) or volts.find(low))


def adopt_joined(rows: Sequence[Row], names: Names) -> None:
    """List the short names behind codes that a stroke joins and nobody knows, in this text alone, where one of them
    stands there without the others in another row: "P0562 -> PNQ / ABS" among "U0100 -> ABS"."""
    rows = rows[:_MOST_ROWS]
    if not any(" / " in row.text for row in rows):
        return
    is_name = namelist.known(names)
    texts = {tidy(row.text[start:end]) for row in rows for start, end in namelist.parts(row, is_name)}
    for text in sorted(text for text in texts if " / " in text):
        parts = [tidy(part) for part in text.split(" / ")]
        if not texts.isdisjoint(parts) and all(map(unknown.is_one_of_short, parts)):
            for part in parts:
                if not names.listed(part):
                    names.adopt_whole(part)


__all__ = ["adopt_joined", "behind_mark"]
