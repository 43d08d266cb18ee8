"""Wordings of a status that tell of two times, or of a test: "occurred earlier, OK now", "not passing now".

Each is a sequence of slots, each slot a choice of words; "-" is no word. The last word of such a phrase alone ("now")
would say the contrary. Sources: common practice.
"""

from __future__ import annotations

Slots = tuple[str, ...]

_BUT = ",- | but | but is | but it is | and | aber | jedoch | und | mais | et | pero | y"
_ONCE = "before | earlier | in the past | previously | some time ago | a while ago | last time"
_NOW = "now | currently | at present | at the moment | right now | today"
_WELL = "ok | okay | passed | passing | passes | good | fine | gone | clear | healed | absent | inactive"
#: "OK now", "now passed", "passed since".
_WELL_NOW = (
    " | ".join(f"{word} now | now {word} | currently {word} | {word} at present" for word in _WELL.split(" | "))
    + " | is ok now | is passing now | now is ok | has passed since | passed since | test passed since | passes since |"
    " not now"
)
_EINST = "fruher | frueher | zuvor | vorher | ehemals | einst"
_GUT_JETZT = " | ".join(
    f"{now} {word}"
    for now in ("jetzt", "nun", "inzwischen", "aktuell", "derzeit", "momentan")
    for word in ("ok", "o k", "i o", "in ordnung", "bestanden", "weg", "verschwunden", "fehlerfrei")
)
_AVANT = "avant | auparavant | precedemment | plus tot"
_BIEN = "ok | correct | bon | disparu | conforme"
_BIEN_MAINTENANT = " | ".join(
    f"{word} {now} | {now} {word}" for word in _BIEN.split(" | ") for now in ("maintenant", "actuellement")
)
_ANTES = "antes | anteriormente | previamente"
_BIEN_AHORA = " | ".join(
    f"{word} {now} | {now} {word}"
    for word in ("ok", "correcto", "bien", "desaparecido", "superado")
    for now in ("ahora", "actualmente")
)
#: What was so once, and that all is well now.
STORED: tuple[Slots, ...] = (
    ("occurred | happened | seen | detected | failed | had failed | was set | was active | was present | was failing | "
     "was current | was stored | was logged | past | past fault | previous fault | old fault | active | present",
     f"- | {_ONCE}", _BUT, f",{_WELL_NOW}"),
    (f"aufgetreten | war aktiv | war vorhanden | war gesetzt | vergangen | vergangener fehler | {_EINST}",
     "- | aufgetreten | aktiv | vorhanden", _BUT, f",{_GUT_JETZT}"),
    ("etait actif | etait present | a ete actif | passe | defaut passe | apparu | vu | detecte | ancien defaut",
     f"- | {_AVANT}", _BUT, f",{_BIEN_MAINTENANT}"),
    ("estuvo activo | estaba activo | estuvo presente | estaba presente | pasado | fallo pasado | averia pasada | "
     "visto | ocurrido | detectado | ocurrio", f"- | {_ANTES}", _BUT, f",{_BIEN_AHORA}"),
)
#: A test that is not passed fails: the contrary of "not present now".
CURRENT: tuple[Slots, ...] = (
    ("not | is not | isn t | still not | not currently | currently not | no longer | test not | not yet", "passing",
     f"- | {_NOW} | at this moment | any more | anymore"),
    (f"{_NOW}", "not", "passing | ok | passed"),
    ("test", "not", "passed", f"- | {_NOW}"),
    ("does not | doesn t | won t", "pass", f"- | {_NOW}"),
    ("jetzt | aktuell | derzeit | momentan | zurzeit | prufung | pruefung | test", "nicht", "bestanden"),
    ("test", "non", "reussi | valide", "- | actuellement | maintenant"),
    ("no | prueba no | test no", "superado | superada", "- | actualmente | ahora"),
)

__all__ = ["CURRENT", "STORED"]
