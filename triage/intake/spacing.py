"""Doubled spaces: text copied out of a printout or set to both margins, in which two spaces stand for one.

Two spaces are a gap between columns elsewhere, so that a line is only taken for such text where every gap in it is
doubled and a line of the text so written is a sentence.

>>> from triage.intake.characters import lines
>>> [line.text for line in single(lines("No  reply  from  the  gateway.\\n  ABS  silent\\nP0562  low voltage"))]
['No reply from the gateway.', '  ABS silent', 'P0562  low voltage']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.characters import Line
from triage.intake.patterns import lazily
from triage.intake.phrases import WORD, word_set
from triage.intake.remember import remembered

_GAP = lazily(r"(?<=\S) +(?=\S)")
_WIDE = lazily(r"(?<=\S) {3,}(?=\S)")
_MARK = lazily(r"[.:,;!?](?:  |$)")
_SMALL_WORDS = word_set(
    "the in has have had is are was were of from with on at for and a an no not did still der die das und im in mit "
    "hat ist von nicht kein keine le la les des du et dans est pas de el los y en con sin tiene no muestra del"
)
#: So many gaps, all doubled, make a sentence; in a text with columns of wide gaps it takes more.
_LEAST, _LEAST_BESIDE_COLUMNS = 3, 6


def single(found: Sequence[Line]) -> list[Line]:
    """The lines, those with doubled spaces written with half of them; each still tied to its place as pasted."""
    gaps = [_doubled(line.text) if "  " in line.text else 0 for line in found]
    columns = any(
        not count and ("\t" in line.text or _WIDE.search(line.text) is not None)
        for line, count in zip(found, gaps, strict=True)
        if "  " in line.text
    )
    least = _LEAST_BESIDE_COLUMNS if columns else _LEAST
    told = [at for at, count in enumerate(gaps) if count >= least and _is_sentence(found[at])]
    if not told:
        return list(found)
    taken = {at for at, count in enumerate(gaps) if count and not columns} | set(told)
    return [_closed(line) if at in taken else line for at, line in enumerate(found)]


@remembered
def _doubled(text: str) -> int:
    """The number of gaps in a line if each is two spaces wide (four where two stood there before), else 0."""
    widths = [match.end() - match.start() for match in _GAP.finditer(text)]
    return len(widths) if widths and all(width in (2, 4) for width in widths) else 0


def _is_sentence(line: Line) -> bool:
    """Whether a line has a mark of a sentence or a small word in it."""
    return _MARK.search(line.text) is not None or not _SMALL_WORDS.isdisjoint(WORD.findall(line.low))


def _closed(line: Line) -> Line:
    """A line with half as many spaces in its gaps."""
    kept: list[int] = []
    done = 0
    for match in _GAP.finditer(line.text):
        kept += range(done, (match.start() + match.end()) // 2)
        done = match.end()
    kept += range(done, len(line.text))
    places = kept if line.offsets is None else [line.offsets[at] for at in kept]
    text, low = ("".join(text[at] for at in kept) for text in (line.text, line.low))
    return Line(line.number, line.raw, text, tuple(places), low, line.indent)

