"""Names of modules that are set in quotes wherever they stand are read without them: "“Seat module”: no answer".

Most of what stands in quotes is known as a name; quotes of another kind of thing stay ("terminal "30""), and so do
those around cells.

>>> from triage.intake.plain.characters import lines
>>> said = lines('"ABS": no codes\\n"Radio" has U0100 (terminal "30" low)\\nNo reply from "Crane box"')
>>> [line.text for line in bare(said, {"ABS", "Radio"}.__contains__)]
['ABS: no codes', 'Radio has U0100 (terminal "30" low)', 'No reply from Crane box']
>>> bare(lines('"ABS","C0035"\\n"Radio","U0100"'), {"ABS", "Radio"}.__contains__)[0].text
'"ABS","C0035"'
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.naming import IsName
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_SIGN = signs.of_parts('"')
#: A few words in quotes, no cell: no other quote stands behind the mark beside it.
_QUOTED = lazily(r'(?<!["\w=])(?<!"[,;:\t|])"(?P<name>[^\W\d_][^"\t|{}<>]{1,48}[\w)\]])"(?![\w"])(?![,;:\t|]\s?")')
#: Behind it a gap of a table goes on, or a single blank of a sentence.
_GAP = "  "
_FEWEST = 2


def bare(found: Sequence[Line], is_name: IsName) -> Sequence[Line]:
    """The lines without the quotes around names, where most of what stands in quotes is a name. Linear."""
    places = [(at, match) for at in signs.places(found, _SIGN) for match in _QUOTED.finditer(found[at].text)]
    distinct = {match["name"].casefold(): match["name"] for _, match in places}
    if len(distinct) < _FEWEST or 2 * sum(map(is_name, distinct.values())) < len(distinct):
        return found
    whole = list(found)
    for at, match in reversed(places):
        gap = _GAP if whole[at].text[match.end() : match.end() + 2] == _GAP else ""
        whole[at] = reworded(whole[at], match.start(), match.end(), match["name"] + gap)
    return whole


__all__ = ["bare"]
