"""A sentence without a subject that goes on with the module which the one before it begins with: "EPS not calibrated?
shows C0051-54". The code is written behind that module, so that it is no other one's, and then what was said.

>>> from triage.intake.plain.characters import lines
>>> text = "EPS not calibrated? shows C0051-54\\nABS fine. EPS not set. it has C0051-54\\nDash dark. P0118 in engine"
>>> for line in joined(lines(text), lambda low: [(0, 3, True)] * low.startswith("eps")):
...     print(line.text)
EPS: C0051-54 not calibrated
ABS fine. EPS: C0051-54 not set
Dash dark. P0118 in engine
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import spoken

_VERBS = ("shows", "show", "has", "holds", "stores", "stored", "reports", "logs", "logged", "gives", "got", "zeigt",
          "hat", "meldet", "speichert", "bringt", "affiche", "montre", "signale", "donne", "remonte", "muestra",
          "tiene", "marca", "guarda", "da")
_SIGN = signs.of_words(frozenset(_VERBS).__contains__)
_GOES_ON = lazily(
    rf"(?<=[a-z0-9)\"])[.?!]{{1,2}} (?:it |er |es |sie |il |elle )?(?:{'|'.join(_VERBS)}) "
    r"(?:(?:now|only|still|code|codes|jetzt|nur|noch|den|toujours|le|ahora|solo|el) ){0,2}"
    r"(?P<code>[pcbu][0-3][0-9a-f]{3}(?![0-9a-z])(?:-[0-9a-f]{2}(?![0-9a-z]))?)")
_CODE = lazily(r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}")
_SENTENCE = lazily(r"[.;!?]\s")
#: What names one more module; a second name beside the first only describes what is wrong with it.
_NEXT = lazily(r"[,;:&+/|]|(?<![a-z])(?:and|und|et|y|or|oder|ou|o)(?![a-z])")
#: Two digits behind a code would be its status.
_BYTE = lazily(r"^(?:[0-9A-Fa-f]{1,2}\s)+")
_LEAD, _EDGE = " \t-*#>(", " .?!,-"
FindNames = Callable[[str], Sequence[tuple[int, int, bool]]]
_LONGEST = 240


def joined(found: Sequence[Line], find: FindNames) -> Sequence[Line]:
    """The lines, the code of such a sentence behind the name that the one before begins with, where that holds no code
    and no answer."""
    mended: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        for match in reversed(list(_GOES_ON.finditer(line.low)) if len(line.low) <= _LONGEST else []):
            first = max((cut.end() for cut in _SENTENCE.finditer(line.low, 0, match.start())), default=0)
            before = line.low[first : match.start()]
            names = find(before)
            begins = len(before) - len(before.lstrip(_LEAD))
            if not names or names[0][0] != begins or not names[0][2] or _NEXT.search(before) or spoken(before) or (
                    _CODE.search(before)):
                continue
            mended = mended or list(found)
            said = _BYTE.sub("", line.text[first + names[0][1] : match.start()].strip(_EDGE))
            if said and not line.low[match.end() :].strip(_EDGE):
                line = reworded(line, match.end(), len(line.text), f" {said}")
            line = mended[at] = reworded(line, first + names[0][1], match.start("code"), ": ")
    return mended or found


__all__ = ["joined"]
