"""Who tells what is wrong: "Driver: half the dash dead", "Fahrer: Lenkung schwer", "Client : autoradio muet".

Behind such a word a name may stand as well, or the answer of a module that is called so: what is wrong has to be told.

>>> [find(low) for low in ("driver: half the dash dead", "van. customer says: wipers do not work", "driver: j. smith")]
[(0, 8), (5, 20), None]
>>> find("driver: no codes"), find("driver door: dead"), find("driver: b1234 dead")
(None, None, None)
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

_TELLER = lazily(
    r"(?:^|(?<=[.;,|] ))\s*(?P<who>(?:the |der |die |le |la |el )?(?:driver|operator|customer|owner|crew|"
    r"farmer|fahrer(?:in)?|kundin|kunde|halter|bediener|conducteur|chauffeur|client|conductor|chofer|cliente|propietario|compl)"
    r"(?: (?:says|said|reports?|reported|states|complains|meldet|sagt|beanstandet|klagt|dit|signale|se plaint|dice|"
    r"refiere|se queja))?)\s?\.?\s?:\s*(?=\S)")
#: What is wrong, in words that a name has not.
_WRONG = lazily(
    r"(?<![a-z])(?:dead|not|no|never|stops?|stopped|slow\w*|heavy|stiff|hard|soft|nois[ey]\w*|lamps?|lights?|"
    r"lit|flash\w*|flicker\w*|fail(?:s|ed)?|broken|intermittent\w*|sometimes|stalls?|dies|cuts? out|smell\w*|smok\w+|"
    r"leaks?|warning|flat|jerks?|surges?|drops?|(?:does|do|is|will|ca|did|was)n'?t|nothing|won'?t|can'?t|"
    r"nicht|keine?n?|defekt|tot|leuchtet|lampe|schwer|hart|ruckelt|manchmal|immer|ohne|geht aus|leer|stinkt|qualmt|"
    r"pas|plus|jamais|voyants?|morte?s?|lourde?|dure?|parfois|clignot\w+|muet(?:te)?s?|cale|panne|sans|bruit\w*|fume|"
    r"nunca|sin|testigos?|luz|luces|muert[oa]s?|dur[oa]|pesad[oa]|a veces|parpade\w+|falla|ruido|huele|humo)(?![a-z])")
#: The answer of a module, and a code.
_ANSWER = lazily(
    r"(?:(?:no|none|nil|zero|keine?n?|aucune?|pas de|sans|sin|ningun[oa]?)(?: [a-z]+){0,2}|(?:is )?ok|not (?:read|"
    r"scanned|fitted)|does not answer|antwortet nicht|ne repond pas|no responde)\s*[.!]?\s*")
_CODE = lazily(r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}(?![a-z0-9])|(?<![a-z])(?:spn|fmi) ?[0-9]")
_LONGEST = 600


@remembered
def find(low: str) -> tuple[int, int] | None:
    """Where a line in small letters begins to tell who complains, and of what."""
    if len(low) > _LONGEST or ":" not in low:
        return None
    for told in _TELLER.finditer(low):
        said = low[told.end() :]
        if _WRONG.search(said) is not None and _ANSWER.fullmatch(said) is None and _CODE.search(said) is None:
            return told.start("who"), told.end()
    return None


__all__ = ["find"]
