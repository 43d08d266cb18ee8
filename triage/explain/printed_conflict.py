"""Where the text that a scan prints for a standard code names another place or part than the tables do.

Makers give standard numbers meanings of their own, and the module at hand is the maker's (common practice). The words
that decide where somebody works are compared: side, end, seat, kind of restraint and stage, trailer; in English,
German, French and Spanish.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

#: Category -> what it can be -> words for it.
_WORDS: dict[str, dict[str, str]] = {
    "side": {"left": r"left|lh|links|linke[rsn]?|gauche|izquierd[oa]|izq|"
                     r"lf|lr|fl|rl|vl|hl|avg|arg",
             "right": r"right|rh|rechts|rechte[rsn]?|droite?|derech[oa]|der|"
                      r"rf|rr|fr|vr|hr|avd|ard"},
    "end": {"front": r"front|vorn|vorne|vordere[rsn]?|avant|delanter[oa]|lf|rf|fl|fr|vl|vr|avg|avd",
            "rear": r"rear|hinten|hintere[rsn]?|heck|arriere|traser[oa]|lr|rr|rl|hl|hr|arg|ard"},
    "seat": {"driver": r"driver'?s?|fahrer(?:seite|airbag)?|conducteur|conductor",
             "passenger": r"passenger|co-?driver|beifahrer(?:seite|airbag)?|passager|pasajero|acompanante"},
    "restraint": {"knee": r"knee|knie\w*|genoux?|rodillas?",
                  "curtain": r"curtain|kopfairbag|fensterairbag|rideaux?|cortina",
                  "side bag": r"side (?:air ?)?bag|side impact bag|seitenairbag|airbag lateral(?:e|es)?|lateral airbag",
                  "front bag": r"frontal|front (?:air ?)?bag|frontairbag",
                  "belt": r"buckle|gurtschloss|boucle|hebilla", "pretensioner": r"pretensioner|gurtstraffer|"
                  r"pretensionneur|pretensor"},
    "trailer": {"trailer": r"trailer|anhanger|auflieger|remorque|remolque|semirremolque"},
}
_COMPILED = {kind: {what: re.compile(rf"(?<![a-z])(?:{words})(?![a-z])") for what, words in of.items()}
             for kind, of in _WORDS.items()}
_STAGE = re.compile(r"(?<![a-z])(?:stage|stufe|zundstufe|etage|niveau|etapa|nivel|squib|loop) ?([1-4])(?![0-9])|"
                    r"(?<![0-9])([1-4])(?:st|nd|rd|\.|e|a) (?:stage|stufe|etage|etapa)")
#: Characters of a text that are asked.
_LONGEST = 160


@lru_cache(maxsize=4096)
def _told(text: str) -> dict[str, frozenset[str]]:
    decomposed = unicodedata.normalize("NFKD", text[:_LONGEST].casefold())
    low = "".join(char for char in decomposed if not unicodedata.combining(char))
    found = {kind: frozenset(what for what, words in of.items() if words.search(low)) for kind, of in _COMPILED.items()}
    found["stage"] = frozenset(one or two for one, two in _STAGE.findall(low))
    return found


def conflicts(title: str, text: str, *, restraints: bool = False) -> bool:
    """Whether a printed text names another place or part than a title, or a trailer that the title does not;
    ``restraints``: of a code of airbags and belts, where the stage and the kind count too.

    >>> conflicts("driver knee airbag", "Driver frontal stage 2", restraints=True)
    True
    >>> conflicts("lost communication, ABS module", "lost communication with trailer brake module")
    True
    >>> conflicts("left front wheel speed sensor", "wheel speed sensor LH front"), conflicts("airbag", "front airbag")
    (False, False)
    >>> [conflicts("left front wheel speed sensor", f"{wheel} wheel speed") for wheel in ("RF", "LF", "VR", "AVG")]
    [True, False, True, False]
    """
    ours, theirs = _told(title), _told(text)
    if theirs["trailer"] and not ours["trailer"]:
        return True
    kinds = ("side", "end", "seat", *(("restraint", "stage") if restraints else ()))
    return any(theirs[kind] and ours[kind] and theirs[kind].isdisjoint(ours[kind]) for kind in kinds) or (
        restraints and bool(theirs["stage"]) and bool(ours["restraint"] - {"front bag"}) and not ours["stage"])


__all__ = ["conflicts"]
