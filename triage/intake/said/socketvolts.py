"""A feed read with nothing drawing on it and with a lamp, at the socket of a trailer or at a connector of a part: what
it loses is lost in the feed, a pin, a fuse or a cable (common practice).

>>> line = "ISO socket pin 1: 27.6 V no load, with 21 W lamp 9.4 V. Pin 2 27.7"
>>> [(one.place, one.number, one.load, one.value) for one in find(line, line.lower())]
[('trailer socket', '1', 'open', 27.6), ('trailer socket', '1', 'loaded', 9.4), ('trailer socket', '2', None, 27.7)]
>>> find("battery 12.4 V no load, 11.9 V with lamps", "battery 12.4 v no load, 11.9 v with lamps")
[]
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from triage.intake.plain.patterns import lazily
from triage.model.connector_words import load_of, places
from triage.model.measured_words import TRAILER_SOCKET

_OUTLET = (r"(?:sockets?|plugs?|connectors?|dose|steckdose|stecker|buchse|kupplung|prise|connecteur|toma|enchufe|"
           r"conector)")
#: A module has a connector; the socket that is called after the brakes is that of their trailer (ISO 7638-1).
_TRAILER = lazily(
    rf"(?<![a-z])(?:(?:semi-?)?trailer|tow(?:ing|bar)?|caravan|suzi|iso(?: ?(?:7638|12098|1185|3731|1724))?|"
    rf"anh(?:a|ae)nger|auflieger|remorque|remolque)[ -]{{0,2}}(?:(?:ebs|abs|electric(?:al)?) ?)?{_OUTLET}(?![a-z])|"
    rf"(?<![a-z])(?:ebs|abs)[ -]?(?:socket|dose|steckdose)(?![a-z])|"
    rf"(?<![a-z])(?:anhanger|anhaenger|auflieger)-?(?:steck)?(?:dose|er|kupplung)(?![a-z])|"
    rf"(?<![a-z])(?:prise|connecteur|toma|enchufe|conector) (?:de (?:la )?|del )?(?:semi-?)?"
    r"(?:remorque|remolque)(?![a-z])|"
    r"(?<![a-z])iso ?(?:7638|12098)(?![0-9])")
_NUMBER = r"(?:pins?|broches?|clavijas?|pol) ?(?:no\.?|nr\.?)? ?#? ?(?P<{}>[0-9]{{1,2}})(?![0-9.,])"
_PIN = lazily(rf"(?<![a-z]){_NUMBER.format('number')}")
_VALUE = lazily(
    r"(?<![\w.,])(?P<volts>[0-9]{1,2}(?:[.,][0-9]{1,2})?) ?v(?:olts?)?(?![a-z0-9])|"
    rf"(?<![a-z]){_NUMBER.format('before')}\s?[:=]?\s?(?P<bare>[0-9]{{1,2}}[.,][0-9]{{1,2}})(?![\w.,]| ?[a-z])")
_PARTS = lazily(r"[;,](?=\s|[a-z])|\.(?=\s|$)|\s(?:and|but|und|aber|et|mais|y|pero)\s")
_MOST, _LONGEST = 36.0, 200


class AtSocket(NamedTuple):
    """One reading of a feed at such a place, in V."""

    place: str
    number: str | None
    load: Literal["open", "loaded"] | None
    value: float


def find(text: str, low: str) -> list[AtSocket]:
    """The readings of a line at the socket of a trailer, or at a place of a part that was read with a load and without;
    none where the line tells of anything else in volts."""
    if len(low) > _LONGEST or "v" not in low:
        return []
    trailer = _TRAILER.search(low) is not None
    values = list(_VALUE.finditer(low))
    if not values or not (trailer or places(low)):
        return []
    place = TRAILER_SOCKET if trailer else _place(text, low, values[0].start())
    begin, number, found = 0, None, []
    for value, after in zip(values, [*(value.start() for value in values[1:]), len(low)], strict=True):
        cut = _PARTS.search(low, value.end(), after)
        end = cut.start() if cut is not None else after if after == len(low) else value.end()
        piece = low[begin:end]
        pin = _PIN.search(piece)
        number = pin["number"] if pin is not None else number
        told = float((value["volts"] or value["bare"]).replace(",", "."))
        found.append(AtSocket(place, number, load_of(piece), told))
        begin = end if cut is None else cut.end()
    paired = {one.load for one in found} >= {"open", "loaded"}
    fits = bool(place) and all(one.value <= _MOST for one in found) and (
        paired or (trailer and all(one.number or one.load for one in found)))
    return found if fits else []


def _place(text: str, low: str, first: int) -> str:
    """The place as the line calls it, before its first figure."""
    pin = _PIN.search(low, 0, first)
    return " ".join(text[: pin.start() if pin is not None else first].split()).strip(" -*,:;.=(")


__all__ = ["AtSocket", "find"]
