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
from triage.intake.plain.characters import Line
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


__all__ = ["mended"]
