"""Slips of the pen in the words that say when a scan was taken: "Codes claered, read again", "nach dem Lsöchen".

A word is mended where its line tells when only with the word that was meant.

>>> from triage.intake.plain.characters import lines
>>> said = "After clering\\nnach dem Lsöchen, 12,4 V\\nafter enigne run\\nthe clered zone\\nAfter clearing"
>>> [line.text for line in mended(lines(said))]
['After clearing', 'nach dem loschen, 12,4 V', 'after engine run', 'the clered zone', 'After clearing']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.spacing import with_word
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.plain.slips import one_off
from triage.intake.said import phases

_WORDS = (
    "clearing", "cleared", "erased", "erasing", "deleted", "deleting", "engine", "idling", "driving", "repair",
    "repaired", "repairs", "rescan", "scanned", "rescanned", "initial",
    "before", "after", "again", "arrival", "loschen", "loeschen",
    "geloscht", "geloescht", "probefahrt", "motorlauf", "leerlauf", "reparatur", "erneut", "vorher", "nachher",
    "effacement", "effacer", "efface", "avant", "apres", "essai", "routier", "ralenti", "moteur", "reparation",
    "borrar", "borrado", "borrados", "despues", "antes", "prueba", "marcha", "reparacion", "carretera",
)
#: Words of their own, however near.
_OTHERS = word_set("lochen engines essais")
_SLIPS = {slip: word for word in reversed(_WORDS) for slip in one_off(word)
          if len(slip) >= 5 and slip not in _OTHERS and slip not in _WORDS}
_WORD = lazily(r"[a-z]{5,14}")
_LONGEST = 160
_JOINED = lazily(r"(?<![a-z0-9_])[a-z]{2,12}(?:_[a-z]{2,12}){1,4}(?![a-z0-9_])")
_SIGN = signs.of_parts("_")


def spaced(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, the words of a phase that underscores join with spaces between them: "label = before_clear".

    >>> from triage.intake.plain.characters import lines
    >>> [line.text for line in spaced(lines("label = before_clear\\n## After_Run\\nbody_clear = 1"))]
    ['label = before clear', '## After Run', 'body_clear = 1']
    """
    kept: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        for match in _JOINED.finditer(line.low) if len(line.low) <= _LONGEST else ():
            told = match[0].replace("_", " ")
            if (hit := phases.find(told)) is not None and (hit.start, hit.end) == (0, len(told)):
                line = reworded(line, *match.span(), line.text[slice(*match.span())].replace("_", " "))
                kept = kept or list(found)
                kept[at] = line
    return kept or found


def mended(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those that tell when a scan was taken but for such slips without them."""
    kept: list[Line] | None = None
    for at, line in enumerate(found):
        low = line.low
        if len(low) > _LONGEST or _SLIPS.keys().isdisjoint(_WORD.findall(low)):
            continue
        meant = line
        for match in reversed(list(_WORD.finditer(low))):
            if match[0] in _SLIPS:
                meant = with_word(meant, *match.span(), _SLIPS[match[0]])
        told = phases.find(meant.low)
        if told is not None and phases.find(low) is None:
            kept = kept or list(found)
            kept[at] = meant
    return kept or found


__all__ = ["mended", "spaced"]
