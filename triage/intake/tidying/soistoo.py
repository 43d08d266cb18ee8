"""An answer that is said of one more module by "so is": the answer written out behind that module.

>>> from triage.intake.plain.characters import lines
>>> text = "The airbag module is clean and so is the steering module. Radio\\nABS no answer, nor does the tacho"
>>> [line.text for line in written_out(lines(text))]
['The airbag module is clean, the steering module is clean. Radio', 'ABS no answer, the tacho no answer']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import spoken

_TOO = lazily(
    r"(?:,? and|,| -)? (?:so (?:is|are|was|were|does|do|did)|(?:neither|nor) (?:is|are|was|were|does|do|did)|"
    r"(?<=, )as (?:is|are|was|were|do|does|did)(?! (?:the (?:norm|case|rule)|usual|normal|expected|to be|often))) "
    r"(?=((?:the |my )?[a-z0-9][a-z0-9 /&'-]{1,40}))"
)
_SIGN = signs.of_words(frozenset(("so", "nor", "neither", "as")).__contains__)


def written_out(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with the answer before "so is" also behind the name that follows it."""
    mended: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        for match in reversed(list(_TOO.finditer(line.low))):
            said = [hit for hit in spoken(line.low[: match.start()]) if "." not in line.low[hit.end : match.start()]]
            if said:
                name = line.text[match.start(1) : match.end(1)].rstrip()
                words = line.text[said[-1].start : said[-1].end]
                mended = mended or list(found)
                line = mended[at] = reworded(line, match.start(), match.start(1) + len(name), f", {name} {words}")
    return mended or found
