"""Names that are written twice, in short and in long: "TIM / Towing module", "CCM Air conditioning".

Where several modules of a text are written so, and what is short and long of them is mostly known to be the same, the
long name says which module is meant, whatever the short one means elsewhere.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> _ = adopted(lines("BCM / Body control module: P0562\\nTIM / Towing module: U0100"), names)
>>> names.match("TIM / Towing module").canonical, names.listed("BCM / Radio")
('trailer', False)
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from triage.intake.naming.joined import joined
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import small

#: A short name in capitals, no number of a code, and a long one at the start of a line or a cell, up to the end of it.
_PAIR = lazily(
    r"(?:^[\s\W]*|(?:[|;\t]\s*|,(?=\S))\"?|\s\s|\s[/-]\s+|\s::\s+)"
    r"(?P<pair>(?P<short>(?![A-Z]{1,2}[0-9]{3})[A-Z][A-Z0-9]{1,5}(?:/[A-Z]{2,5})?)(?P<mark>\s/\s|\s)"
    r"(?P<long>[^\W\d_](?:/[a-z](?![^\W_])|[a-z\u00df-\u00ff]+(?:(?! - )[^|;:\t()\[\]<>=,/\"]){2,44}?)))"
    r"(?=\s*(?:$|[|;:\t(\[=<,\"]|->|=>|\s-\s|\s/\s)|\s\s)"
)
#: The same in two columns, with an answer or a count behind them and no code.
_COLUMNS = lazily(
    r"\s*(?P<short>(?![A-Z]{1,2}[0-9]{3})[A-Z][A-Z0-9]{1,5})(?P<gap>\s{2,})(?P<long>[^\W\d_][^|;:\t()\[\]<>=,/\"]{2,44}?)"
    r"(?=\s{2,}|\s*$|\s?:\s)"
)
#: One name and another of the same module in brackets, up to the end of a line or a cell, or a mark.
_BRACKETED = lazily(
    r"(?:^[\s\W]*|[|;\t]\s*|,(?=\S)|\s\s|\s[/>-]\s+)"
    r"(?P<pair>(?P<one>[^\W\d_][\w /&'.-]{1,44}?) \((?P<two>[^\W\d_][\w /&'.-]{1,44})\))"
    r"(?=\s*(?:$|[|;:\t<=,]|->|\s[-/]\s)|\s\s)"
)
_DASHED = lazily(
    r"[\s*>\u2022-]*(?P<pair>(?P<one>[A-Z][a-z][\w /&'.-]{1,40}?) - (?P<two>[A-Z][A-Z0-9]{1,5}))(?=\s*(?::|$))")
_CODE = lazily(r"(?<![A-Za-z0-9])[PCBUpcbu][0-3][0-9A-Fa-f]{3}(?![A-Za-z])")
#: Behind the name of a module whose list goes on.
_GOES_ON = frozenset(("continued", "cont", "cont.", "cont'd", "contd", "fortsetzung", "forts.", "suite",
                      "continuacion"))
#: So many of such pairs are no chance.
_FEWEST = 2


def adopted(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines, such pairs in two columns closed up; ``names`` lists those of theirs. Linear."""
    found = _closed_up(found, names)
    _adopt_bracketed(found, names)
    _adopt_dashed(found, names)
    pairs: dict[str, dict[str, tuple[str, str]]] = defaultdict(dict)
    for text in dict.fromkeys(line.text for line in found if len(line.text) <= 400):
        for match in _PAIR.finditer(text):
            pairs[match["mark"].strip()].setdefault(match["pair"], (match["short"], tidy(match["long"])))
    for mark, kinds in pairs.items():
        sure = {pair: halves for pair, halves in kinds.items() if names.sure(halves[1])}
        same = sum(_are_same(pair, *halves, names) for pair, halves in sure.items())
        other = sum(names.listed(short) and not _are_same(pair, short, long, names)
                    for pair, (short, long) in sure.items())
        if len(sure) < _FEWEST or not same or (mark and other > same):
            # "ABS / Radio": two modules; with nothing between them they are hardly written so.
            continue
        for pair, (_, long) in sure.items():
            if joined(pair, names) or names.score(pair) < 90.0 or names.match(pair).second is not None:
                names.adopt_pair(pair, long)
    return found


def _adopt_bracketed(found: Sequence[Line], names: Names) -> None:
    """List the names with another one in brackets behind them, where both are mostly known to be of one module: "Door
    FL (Front door left)", "Air suspension (Air springs)"."""
    pairs: dict[str, tuple[str, str]] = {}
    for text in dict.fromkeys(line.text for line in found if "(" in line.text and len(line.text) <= 400):
        for match in _BRACKETED.finditer(text):
            one, two = match["one"], match["two"]
            low = small(two)
            if states.of_cell(low) is None and answer_of_cell(low) is None and low not in _GOES_ON:
                pairs.setdefault(match["pair"], (one, two))
    both = [halves for halves in pairs.values() if all(map(names.sure, halves))]
    same = sum(names.match(one).canonical == names.match(two).canonical for one, two in both)
    if same < _FEWEST or len(both) > 2 * same:
        return
    for pair, (one, two) in pairs.items():
        if not names.listed(pair) and (names.sure(one) or names.sure(two)):
            names.adopt_pair(pair, one if names.sure(one) else two)


def _adopt_dashed(found: Sequence[Line], names: Names) -> None:
    """List the names with their own abbreviation behind a dash, before a colon or alone in a line: "Body control module
    - BCM"."""
    for line in found:
        match = _DASHED.match(line.text) if " - " in line.text and len(line.text) <= 400 else None
        known = match is not None and names.listed(match["two"]) and names.sure(match["one"])
        if match is None or not known or names.listed(match["pair"]):
            continue
        if names.match(match["one"]).canonical == names.match(match["two"]).canonical:
            names.adopt_pair(match["pair"], match["one"])


def _closed_up(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines with one space between the short and the long name of one module, where they stand in columns."""
    pairs = {
        at: match for at, line in enumerate(found)
        if (match := _COLUMNS.match(line.text)) is not None and len(line.text) <= 200 and not _CODE.search(line.text)
    }
    same = [at for at, match in pairs.items()
            if _are_same(f"{match['short']} {tidy(match['long'])}", match["short"], tidy(match["long"]), names)]
    if len(same) < _FEWEST or len(same) < len(pairs) / 2:
        return found
    known = {at for at, match in pairs.items() if at in same or names.sure(tidy(match["long"]))}
    return [reworded(line, *pairs[at].span("gap"), " ") if at in known else line for at, line in enumerate(found)]


def _are_same(pair: str, short: str, long: str, names: Names) -> bool:
    """Whether both names are known to be of one module."""
    if names.listed(short) and names.match(short).canonical == names.match(long).canonical:
        return True
    known = names.match(pair)
    return names.score(pair) >= 90.0 and known.second is None and not joined(pair, names)


__all__ = ["adopted"]
