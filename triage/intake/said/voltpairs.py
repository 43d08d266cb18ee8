"""The two batteries of a 24 V vehicle, each read alone: "28.2 V total, batt A 15.9 V, batt B 12.3 V".

>>> [(half.which, half.value) for half in halves("koeo 23.1 v (2 batteries: a 12.7v, b 10.4 v), crank 14.8 v")]
[('A', 12.7), ('B', 10.4)]
>>> [(half.which, half.value) for half in halves("front battery 12.7, rear battery 10.4")]
[('front', 12.7), ('rear', 10.4)]
>>> [(half.which, half.value) for half in halves("running 28.2 v, batteries 15.9 / 12.3 v")]
[('A', 15.9), ('B', 12.3)]
>>> [(half.which, half.value) for half in halves("charged; a batt 12.7 b batt 12.2 after 2h rest")]
[('A', 12.7), ('B', 12.2)]
>>> halves("battery 12.4 v, 2 12.1 v"), halves("battery a 12.4 v")
((), (Half(start=10, end=14, which='A', value=12.4),))
"""

from __future__ import annotations

from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

_BATTERY = r"(?:batter(?:y|ie)|batt?\.?|bateria|akku)"
_MANY = r"(?:batter(?:ies|ien|ie?s)|batts|baterias|akkus|halves|halften|moities|mitades)"
_READ = (r"[ ]{0,2}[:=@]?[ ]{0,2}(?:(?:at|is|reads?|has|hat|a) )?(?<![0-9.,])([0-9]{1,2}[.,][0-9]{1,2})"
         r"(?![0-9]|[.,:][0-9])")
#: "battery A 12.7", and behind the word for several the letter alone.
_NAMED = lazily(rf"(?<![a-z]){_BATTERY} ?(?:no\.? ?|nr\.? ?|#)?([ab12]){_READ}")
_LED = lazily(rf"(?<![a-z0-9])([ab]) {_BATTERY}{_READ}")
_LETTER = lazily(rf"(?<![a-z0-9])([ab]){_READ}")
_SIDE = r"front|rear|left|right|upper|lower|first|second|vordere?|hintere?|linke?|rechte?"
_SIDED = lazily(rf"(?<![a-z])({_SIDE})(?: (?:one|hand|{_BATTERY}))?{_READ}")
_TWO = lazily(rf"(?<![a-z]){_MANY}[^0-9.;]{{0,24}}?(?<![0-9.,])([0-9]{{1,2}}[.,][0-9]{{1,2}}) ?v? ?(?:/|and|&|,|"
              rf"und|et|y) ?"
              r"([0-9]{1,2}[.,][0-9]{1,2})(?![0-9]|[.,:][0-9])")
_WORD = lazily(rf"(?<![a-z])(?:{_BATTERY}|{_MANY})(?![a-z])")
_LEAST, _MOST = 3.0, 18.0
_LETTERS = {"a": "A", "b": "B", "1": "A", "2": "B", "first": "A", "second": "B", "vordere": "front", "vorder": "front",
            "hintere": "rear", "hinter": "rear", "linke": "left", "link": "left", "rechte": "right", "recht": "right"}


class Half(NamedTuple):
    """One battery of a pair; ``start``..``end`` is where its voltage stands."""

    start: int
    end: int
    which: str
    value: float

    @property
    def name(self) -> str:
        """As a reading of it is called."""
        return f"battery {self.which}" if len(self.which) == 1 else f"{self.which} battery"


@remembered
def halves(low: str) -> tuple[Half, ...]:
    """The batteries of a pair that a line gives the voltages of, each once."""
    if "bat" not in low and "akku" not in low and "hal" not in low and "moit" not in low and "mitad" not in low:
        return ()
    matches = list(_NAMED.finditer(low)) or list(_LED.finditer(low))
    if matches or _WORD.search(low) is not None:
        taken = {other.start(2) for other in matches}
        letters = [match for match in _LETTER.finditer(low) if match.start(2) not in taken]
        # "Drops to 9.6" is "baja a 9.6" and "tombe a 9.6" elsewhere: a letter alone names one of two.
        matches += letters if len({match[1] for match in (*matches, *letters)} & {"a", "b"}) > 1 else []
        sided = list(_SIDED.finditer(low))
        matches = matches or (sided if len(sided) == 2 else [])
    found = [Half(*match.span(2), _LETTERS.get(match[1], match[1]), float(match[2].replace(",", ".")))
             for match in sorted(matches, key=lambda match: match.start())]
    if not found and (two := _TWO.search(low)) is not None:
        found = [Half(*two.span(at), "AB"[at - 1], float(two[at].replace(",", "."))) for at in (1, 2)]
    if len({half.which for half in found}) != len(found) or len(found) > 2:
        return ()
    return tuple(found) if all(_LEAST <= half.value <= _MOST for half in found) else ()


__all__ = ["Half", "halves"]
