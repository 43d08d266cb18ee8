"""An answer that is said of one more module by "so is", or of some of all by "including": the answer written out behind
those modules.

>>> from triage.intake.plain.characters import lines
>>> text = "The airbag module is clean and so is the steering module. Radio\\nABS no answer, nor does the tacho"
>>> [line.text for line in written_out(lines(text), lambda low: [])]
['The airbag module is clean, the steering module is clean. Radio', 'ABS no answer, the tacho no answer']
>>> told = written_out(lines("rest clean including abs, engine P0171"), lambda low: [(0, 3, True)] * (low[:3] == "abs"))
>>> [line.text for line in told]
['rest clean, abs clean, engine P0171']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import spoken

_TOO = lazily(
    r"(?:,? and|,| -)? (?:so (?:is|are|was|were|does|do|did)|(?:neither|nor) (?:is|are|was|were|does|do|did)|"
    r"(?<=, )as (?:is|are|was|were|do|does|did)(?! (?:the (?:norm|case|rule)|usual|normal|expected|to be|often))) "
    r"(?=((?:the |my )?[a-z0-9][a-z0-9 /&'-]{1,40}))"
)
#: Which of all modules an answer was said of: "everything else clear including ABS", "Rest sauber inkl. Airbag".
_AMONG = lazily(
    r"(?:\s(?:now|again|jetzt|wieder|maintenant|ahora)|"
    r"\s(?:in|from|on|by|bei|von|dans|en) (?:any|all|allen|tous|todos|every)"
    r"(?: (?:the |les |los )?(?:modules?|units?|ecus?|steuergeraten|calculateurs|modulos))?)?"
    r"[\s,(]{1,3}(?:including|includes|incl?[. ]|inkl(?:usive)?[. ]|einschliesslich|y compris|incluid[oa]s?|"
    r"incluyendo|incluso)(?: (?:the|der|die|das|des|le|la|el|los|las)| l'| l (?=[a-z]))? ?(?=[a-z])"
)
#: Between the names of such a list; of what stands behind a comma something else may be told.
_NEXT = lazily(r"(,\s*|\s*[&+/]\s*|,?\s(?:and|und|et|y)\s)(?:the |der |die |das |le |la |l'|el )?")
_ENDS = lazily(r"\s*\)?\s*(?:[.;!)]|$)")
_SIGN = signs.of_words(frozenset((
    "so", "nor", "neither", "as", "including", "includes", "incl", "inc", "inkl", "inklusive", "einschliesslich",
    "compris", "incluido", "incluida", "incluidos", "incluidas", "incluyendo", "incluso")).__contains__)

#: Heads of lists: "Modules that answered:" and, somewhere below, "Modules that did not:".
_DID = lazily(r"(?<![a-z])(?:(?:that|which|who)\s)?(answered|answer|replied|reply|responded|respond|communicated|"
              r"communicate|connected|talked)(?=\s?[:(]|\s-|$)")
_DID_NOT = lazily(
    r"[\s*>#(-]*(?:the )?(?:(?:modules?|units?|ecus?|systems?|controllers?|those|ones|control units)\s)?"
    r"(?:(?:that|which|who)\s)?(?:did not|didn'?t|do not|don'?t|does not|would not|wouldn'?t|could not|couldn'?t)"
    r"(?=\s?[:(]|\s-)")
_NOT = signs.of_words(frozenset(("did", "didn", "didnt", "do", "don", "dont", "does", "would", "wouldn", "wouldnt",
                                 "could", "couldn", "couldnt")).__contains__)

_HEAD = 80
FindNames = Callable[[str], Sequence[tuple[int, int, bool]]]


def written_out(found: Sequence[Line], find: FindNames) -> Sequence[Line]:
    """The lines with the answer before "so is", or before "including", also behind the names that follow it."""
    mended: list[Line] | None = None
    found = _with_verb(found)
    for at in signs.places(found, _SIGN):
        line = found[at]
        for match in reversed(list(_TOO.finditer(line.low))):
            said = [hit for hit in spoken(line.low[: match.start()]) if "." not in line.low[hit.end : match.start()]]
            if said:
                name = line.text[match.start(1) : match.end(1)].rstrip()
                words = line.text[said[-1].start : said[-1].end]
                mended = mended or list(found)
                line = mended[at] = reworded(line, match.start(), match.start(1) + len(name), f", {name} {words}")
        for match in reversed(list(_AMONG.finditer(line.low))):
            said = [hit for hit in spoken(line.low[: match.start()]) if hit.end == match.start()]
            end = _last_name(line.low, match.end(), find) if said else 0
            if end:
                words = line.text[said[-1].start : said[-1].end]
                # "ABS clear" may ask for a clear.
                words = "clean" if said[-1].answer == "clean" else words
                mended = mended or list(found)
                line = mended[at] = reworded(line, match.start(), end, f", {line.text[match.end() : end]} {words}")
    return mended or found


def _with_verb(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, "did not" in the head of a list with the verb of the head above that tells who did."""
    mended: list[Line] | None = None
    heads = {at: head for at in signs.places(found, _NOT) if (head := _DID_NOT.match(found[at].low)) is not None}
    done, did = 0, False
    for at, head in heads.items():
        did = did or any(_DID.search(line.low[:_HEAD]) is not None for line in found[done:at])
        done = at
        if did:
            mended = mended or list(found)
            mended[at] = reworded(found[at], head.end(), head.end(), " answer")
    return mended or found


def _last_name(low: str, start: int, find: FindNames) -> int:
    """Where the list of names ends that begins at a place; 0 where none does. The last behind a comma may be the
    subject of what follows ("including ABS, engine P0171")."""
    ends: list[tuple[int, bool]] = []
    at = start
    while (name := next(((first, last) for first, last, _ in find(low[at:]) if not first), None)) is not None:
        joint = _NEXT.match(low, at + name[1])
        ends.append((at + name[1], joint is not None and joint[1].strip() == ","))
        if joint is None:
            break
        at = joint.end()
    if len(ends) > 1 and ends[-2][1] and not _ENDS.match(low, ends[-1][0]):
        ends.pop()
    return ends[-1][0] if ends else 0
