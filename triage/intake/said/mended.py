"""What somebody mended, as people note it beside a scan: "found green plug at rear left, cleaned it, new pins".

>>> def told(low): return [low[start:end] for start, end in find(low)]
>>> told("found green plug at rear left, cleaned it, new pins. cleared. 14.2v")
['found green plug at rear left, cleaned it, new pins']
>>> told("repaired wire at rear left plug, cleared, 14.2v"), told("stecker gereinigt"), told("plug not cleaned yet")
(['repaired wire at rear left plug'], ['stecker gereinigt'], [])
>>> told("cleaned the windscreen"), told("wire to be repaired"), told("connecteur nettoye, efface")
([], [], ['connecteur nettoye'])
"""

from __future__ import annotations

from itertools import pairwise

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import doubts, tocome

_DONE = lazily(
    r"(?<![a-z])(?:cleaned|repaired|mended|fixed|re-?soldered|soldered|spliced|rewired|re-?crimped|crimped|tightened|"
    r"re-?seated|refitted|re-?attached|reconnected|bolted (?:back|up|on)|pushed (?:together|home|in|back)|re-?sealed|"
    r"(?:wieder |neu )?(?:angeschraubt|befestigt|zusammengesteckt)|wieder (?:montiert|angeschlossen|eingesteckt)|"
    r"remontee?s?|revissee?s?|rebranchee?s?|re-?emboitee?s?|montad[oa]s? de nuevo|atornillad[oa]s?|"
    r"reconectad[oa]s?|sealed|dried(?: out)?|new (?:pins?|terminals?|eyelets?|crimps?)|gereinigt|sauber gemacht|"
    r"repariert|instand ?gesetzt|(?:nach|ver)?gelotet|geflickt|festgezogen|nachgezogen|getrocknet|neue (?:pins?|"
    r"kontakte)|"
    r"nettoye(?:e?s?)?|repare(?:e?s?)?|(?:res)?soude(?:e?s?)?|resserre(?:e?s?)?|seche(?:e?s?)?|limpiad[oa]s?|reparad[oa]s?|"
    r"soldad[oa]s?|apretad[oa]s?|secad[oa]s?)(?![a-z])")
#: What it is that makes a mended thing one of the vehicle's wiring.
_PART = lazily(
    r"(?<![a-z])(?:plugs?|connectors?|pins?|wires?|wiring|loom|harness|terminals?|cables?|leads?|straps?|grounds?|earths?|"
    r"contacts?|splices?|joints?|eyelets?|fuse ?box|[a-z]{0,12}stecker|pins?|kontakte?|[a-z]{0,12}kabel(?:baum)?|"
    r"[a-z]{0,10}leitung|masse\w{0,10}|klemmen?|connecteurs?|fils?|faisceau|cosses?|prises?|broches?|masses?|"
    r"conector(?:es)?|cables?|cableado|mazo|bornes?|bornas?|clavijas?|masas?|"
    r"tresses?(?: de masse)?|trenzas?(?: de masa)?)(?![a-z])")
_DENIED = lazily(
    r"(?<![a-z])(?:not|never|no|none|nothing|without|needs?|must|should|to be|if|when|nicht|nich|nix|kein\w*|muss|"
    r"wenn|pas|"
    r"rien|sans|faut|si|sin|nada|hay que)(?![a-z])|\?")
_SENTENCES = lazily(r"[.;!](?=\s|$)")
#: What stands before it: of which scan, and when.
_WHEN = lazily(r"\s*(?:scan [0-9]{1,3}:\s*)?(?:[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{2,4}\s*)?(?:[0-9]{1,2}[:h.][0-9]{2}"
               r"(?: ?[ap]m)?(?![0-9])\s*)?[,:-]?\s*")
#: What goes on about the same thing: "cleaned it, new pins".
_COMMA = lazily(r",\s(?![^()\n]{0,40}\))|\s(?:then|and then|dann|puis|luego)\s")


@remembered
def find(low: str) -> tuple[tuple[int, int], ...]:
    """The places of a line in small letters that say that a part of the wiring was mended, what it was among them."""
    if len(low) > 400 or _DONE.search(low) is None:
        return ()
    sure = doubts.left_out(tocome.done(low))
    ends = [0, *(cut.end() for cut in _SENTENCES.finditer(low)), len(low) + 1]
    found: list[tuple[int, int]] = []
    for begin, end in pairwise(ends):
        stop = len(low[begin:end].rstrip(" .;!")) + begin
        cuts = [begin, *(cut.end() for cut in _COMMA.finditer(low, begin, stop))]
        clauses = list(zip(cuts, [*(cut.start() for cut in _COMMA.finditer(low, begin, stop)), stop], strict=True))
        done = [clause for clause in clauses if _DONE.search(sure, *clause) and not _DENIED.search(low, *clause)]
        named = [clause for clause in clauses if _PART.search(low, *clause) and clause <= (done or [(0, 0)])[-1]]
        if done and named:
            start = min(done[0][0], named[0][0])
            when = _WHEN.match(low, start)
            found.append((when.end() if when is not None else start, done[-1][1]))
    return tuple(found)


def whole(low: str) -> tuple[int, int] | None:
    """The place of what was mended where a line tells nothing else, but when.

    >>> [whole(low) for low in ("08:20 plug cleaned and refitted", "plug cleaned. drove 6 km", "masseband befestigt")]
    [(6, 31), None, (0, 19)]
    """
    found = find(low)
    if len(found) != 1 or low[found[0][1] :].strip(" .!"):
        return None
    lead = _WHEN.match(low)
    return found[0] if found[0][0] <= (lead.end() if lead is not None else 0) else None


__all__ = ["find", "whole"]
