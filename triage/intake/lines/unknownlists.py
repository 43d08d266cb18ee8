"""Names that nobody knows in the list of an answer: "no faults in Fnordia, steering and retarder".

>>> from triage.intake.lines.rows import rows_of
>>> row = rows_of("No faults in Fnordia, Steering + Mast node. Radio is silent")[0]
>>> [row.text[start:end] for start, end in listed(row, [(22, 30), (44, 49)], spoken(row.low))]
['Fnordia', 'Steering', 'Mast node', 'Radio']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines import namelist, unknown
from triage.intake.lines.row import Row
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT
from triage.intake.said.answers import Spoken, spoken, takes_object
from triage.intake.said.near import small
from triage.intake.words.vocabulary import STATES

Span = tuple[int, int]

#: From an answer to those that it is of.
_LINK = lazily(
    r"(?:\s(?:in|from|of|at|im|bei|von|vom|aus|auf|dans|de|du|des|en|del|sur)(?:\s(?:the|den|dem|der|la|le|les|el|los|"
    r"las))?\s|\s?:\s)"
)
_STOP = lazily(rf"\.{NOT_SHORT}(?=\s|$)|[;!?](?=\s|$)|\n|\s-+\s")
_JOINT = lazily(r"\s?[,+&/]\s?(?:(?:and|und|et|y|e|or|oder|ou|o)\s)?|\s(?:and|und|et|y|e|or|oder|ou|o|nor)\s")
_ITEM = lazily(r"(?:the |der |die |das |le |la |el )?([A-Z\u00c0-\u00de][\w-]{1,24}(?: [\w.-]{1,20}){0,3})")
#: In small letters, where the last word tells of a module: "the snow blade unit".
_OF_A_KIND = lazily(r"(?:the |der |die |das |le |la |el )?([a-z\u00e0-\u00fe][\w-]{1,24}(?: [\w.-]{1,20}){1,3})")
#: The same behind an answer that leads to them itself: "could not reach".
_OBJECT = lazily(r"\s(?:the\s|den\s|dem\s|der\s|la\s|le\s|les\s|el\s|los\s|las\s)?")
_FEWEST, _LONGEST, _MOST_ROWS = 2, 300, 400


def listed(row: Row, names: Sequence[Span], said: Sequence[Spoken]) -> list[Span]:
    """The names of a sentence with those that nobody knows in a list of two or more behind an answer, or of one that
    ends with a word for a module, each of which is known, begins with a capital letter or ends so, up to the end of the
    sentence. Linear in the row."""
    found = list(names)
    if len(row.text) > _LONGEST * 4:
        return found
    for hit in said:
        of_it = takes_object(row.low, hit)
        link = (_OBJECT if of_it else _LINK).match(row.low, hit.end) if not hit.doubtful else None
        if link is None:
            continue
        end = _STOP.search(row.low, link.end())
        stop = end.start() if end is not None else len(row.text)
        again = next((other.start for other in said if link.end() <= other.start < stop), stop)
        if again < stop and row.low[:again].endswith(", "):
            # "Could not get into the ABS, no reply"
            stop = again - 2
        if stop - link.end() > _LONGEST or any(link.end() <= code.start < stop for code in row.finds.codes) or any(
                link.end() <= other.start < stop for other in said):
            continue
        items = _items(row, link.end(), stop, names)
        if items is not None and ((len(items) >= _FEWEST and not of_it) or any(
                unknown.ends_as_name(row.text[start:end]) for start, end in items)):
            found = [span for span in found if not any(start <= span[0] and span[1] <= last for start, last in items)]
            found += items
    return sorted(found)


def behind_mark(row: Row, texts: Sequence[str]) -> bool:
    """Whether the first of several texts stands behind a colon or the like, and each may be a name that nobody knows.

    >>> from triage.intake.lines.rows import rows_of
    >>> row = rows_of("No reply: HOPPER GATE, Mast node left")[0]
    >>> behind_mark(row, ["HOPPER GATE", "Mast node left"]), behind_mark(row, ["Mast node left"])
    (True, False)
    """
    lead = row.text[: max(row.text.find(texts[0]), 0)].rstrip()
    return lead.endswith((":", " -", "=", ">")) and all(
        _ITEM.fullmatch(text) and not spoken(small(text)) and not STATES.find(small(text)) for text in texts)


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


def _items(row: Row, begin: int, stop: int, names: Sequence[Span]) -> list[Span] | None:
    """The places of the names in a list; None where a part of it can be none."""
    cuts = [match.span() for match in _JOINT.finditer(row.low, begin, stop)
            if not any(start < match.start() < end for start, end in names)]
    starts, ends = [begin, *(end for _, end in cuts)], [*(start for start, _ in cuts), stop]
    found: list[Span] = []
    for start, end in zip(starts, ends, strict=True):
        known = [name for name in names if start <= name[0] and name[1] <= end]
        if len(known) == 1 and len(row.text[start:end].strip()) <= known[0][1] - known[0][0] + 4:
            found.append(known[0])
            continue
        item = _ITEM.fullmatch(row.text, start, end)
        if item is None and unknown.ends_as_name(row.text[start:end]):
            item = _OF_A_KIND.fullmatch(row.text, start, end)
        if item is None or spoken(row.low[start:end]) or STATES.find(row.low[start:end]):
            return None
        found.append(item.span(1))
    return found


__all__ = ["adopt_joined", "behind_mark", "listed"]
