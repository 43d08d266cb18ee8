"""Which pin a figure measured at a connector is of, and where the other probe of the meter stood.

>>> of("pin 25 to battery minus loaded: ", "")
PinPath(pin=None, number='25', far='minus', far_pin=None, far_number=None, load='loaded')
>>> of("feed pin 25 to ground pin 38 -> ", " with a 21 w bulb")
PinPath(pin='feed', number='25', far='pin', far_pin='ground', far_number='38', load='loaded')
>>> of("big plug feed ", " ground fine").pin, of("pin 1 ", " pin 4 gnd ok").number, of("", " on pin 1").number
('feed', '1', '1')
"""

from __future__ import annotations

from functools import lru_cache
from typing import Literal, NamedTuple

from triage.intake.plain.patterns import lazily
from triage.model.connector_words import Pin, load_of, pin_of

_PIN = r"(?:pins?|broches?|clavijas?|cavity|cav) ?(?:no)?\.?#? ?([0-9]{1,3}[a-z]?)(?![0-9a-z])"
_NUMBER = lazily(rf"(?<![a-z]){_PIN}")
#: The other end of what was measured: "to battery minus", "to chassis", "to ground pin 38".
_AGAINST = lazily(
    r"\s?(?:(?<=\s)(?:to|against|and|gegen|nach|zu|vers|et|contra|hacia|y)|->|<->|/)\s?(?:the |a |good )?"
    rf"(?:((?:feed|supply|power|ground|earth|gnd|masse|masa) )?{_PIN}|"
    r"(?:batt(?:ery|erie)?\.? ?|bat ?|bateria |vehicle |engine |clean )?(?:"
    r"(minus|neg(?:ative)?|ground|earth|gnd|masse|masa|tierra|chassis|body|frame|block|-(?![0-9a-z]))|"
    r"(plus|pos(?:itive)?|positif|positivo|b ?\+|\+(?![0-9a-z]))))(?![a-z0-9])"
)
#: Another pin, or another line of the connector.
_ANOTHER = lazily(rf"(?<![a-z])(?:{_PIN}|feeds?|supply|power|grounds?|earth|gnd|masse|masa)(?![a-z])")
#: A pin with so many volts to minus is one of the feeds, whatever it is called: no bus or signal line shows as much.
FED = 9.0


class PinPath(NamedTuple):
    """The pin by its word and its number; ``far``: what the other probe was on, if the text says so."""

    pin: Pin | None
    number: str | None
    far: Literal["minus", "plus", "pin", ""] = ""
    far_pin: Pin | None = None
    far_number: str | None = None
    load: Literal["open", "loaded"] | None = None

    def with_roles(self, roles: dict[str, Pin]) -> PinPath:
        """The same; pins named by their number alone are what ``roles`` has them for."""
        return self._replace(pin=self.pin or roles.get(self.number or ""),
                             far_pin=self.far_pin or roles.get(self.far_number or ""))

    def judged(self, value: float, unit: str) -> Pin | None:
        """The pin that a figure tells of by itself: none where it was read between two pins of the connector."""
        if self.far == "pin":
            return None
        if self.pin is not None:
            return self.pin
        if unit.lower().endswith("ohm"):
            return "ground"
        return "feed" if unit.lower() == "v" and value >= FED and self.far != "plus" else None


def without_far(low: str) -> str:
    """A line without what it says of the other probe, in which a battery or a vehicle may be named."""
    return _AGAINST.sub(" ", low)


@lru_cache(maxsize=2048)
def of(before: str, behind: str) -> PinPath:
    """The pin of a figure by the words before it and behind it; those behind where those before tell none."""
    for words in (before, behind):
        against = _AGAINST.search(words)
        near = words[: against.start()] if against is not None else words
        number, pin = _NUMBER.search(near), pin_of(near)
        if number is None and pin is None:
            continue
        if words is before and (another := _ANOTHER.search(behind)) is not None:
            behind = behind[: another.start()]
        load = load_of(f"{before} {behind}")
        path = PinPath(pin, number[1] if number is not None else None, load=load)
        if against is None:
            return path
        if against[2] is not None:
            return path._replace(far="pin", far_pin=pin_of(against[1] or ""), far_number=against[2])
        return path._replace(far="minus" if against[3] is not None else "plus")
    return PinPath(pin_of(f"{before} {behind}"), None, load=load_of(f"{before} {behind}"))


__all__ = ["FED", "PinPath", "of", "without_far"]
