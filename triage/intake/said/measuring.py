"""Measurements in the words of who took them, piece by piece: the current with the key off, a voltage drop, a load
test, ripple, a line of a bus, a pin of a connector. Each figure is one by the words of its own piece of the line, or of
the pieces before it.

>>> line = "V drops: neg post to block cranking 1.9 V, B+ post to starter stud 0.3 V. Draw after an hour: 40 mA"
>>> [(found.name, found.value, found.unit) for found in find(line, line.lower())]
[('voltage drop: neg post to block cranking', 1.9, 'V'), ('voltage drop B+ post to starter stud', 0.3, 'V'), \
('Draw after an hour', 40.0, 'mA')]
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import NamedTuple

from triage.intake.plain.characters import low as plain_low
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import bothsides, buslines, pins
from triage.intake.said.answers import spoken
from triage.model.connector_words import UNLOADED, load_of, pin_of, places
from triage.model.measured_words import MEASURED, between_points, pulled

#: The kinds that words tell surely; a rested voltage, a crank and one with the engine running are the supply's own.
_TERMS: dict[str, re.Pattern[str]] = {
    kind: lazily(rf"(?<![a-z])(?:{'|'.join(re.escape(plain_low(word)) for word in words)})"
                 r"(?:s|es|en|aufnahme|messung)?(?![a-z])")
    for kind, words in MEASURED if kind in ("draw", "drop", "ripple", "load test")}
_FIGURE = lazily(r"(?<![\w.,])([0-9]{1,5}(?:[.,][0-9]{1,3})?) ?(mv|v|volts?|ma|milliamps?|amps?|a|k ?ohms?|ohms?|"
                 r"\u03c9)(?: ?(?:ac|dc))?(?![\w/])")
#: "12.4 open circuit but 7.9 volts with a bulb": the first without its unit.
_BARE = lazily(rf"(?<![\w.,])([0-9]{{1,2}}[.,][0-9]{{1,2}}) (?={UNLOADED}(?![a-z])|(?:loaded|under load|"
               rf"unter last)(?![a-z]))")
_SENTENCES = lazily(r"(?<=[a-z0-9)])[.;!]\s+(?=[a-z0-9])")
#: What parts one measurement from the next; words in brackets explain the one before them.
_PARTS = lazily(r"[;,](?=\s|[a-z])|\((?=\s|[a-z])(?![a-z .,/'-]{1,60}\))|\s(?:and|und|et|y|but|aber|mais|pero|"
                r"then|dann|puis)\s|\.\s|\s[/|-]\s|->|"
                r"\s(?=(?:dropp?(?:s|ed|ing)?|fall(?:s|ing|en)?|fell|goes|went|down|sinks?) (?:it )?(?:down )?to\s)|"
                r"\s(?:to|auf|hasta)\s(?=[0-9])")
#: A figure that was not measured.
_NOT_TAKEN = lazily(r"(?<![a-z])(?:limit|max(?:imum)?|should|spec|allowed|less than|below|under(?! (?:load|crank|"
                    r"start|full|heavy|test|light))|not measured|"
                    r"grenzwert|soll|to be|aim|target|consigne|limite|maximal|more than|at most|up to|mehr als|"
                    r"hochstens|plus de|au plus|mas de)(?![a-z])|(?<![-=])[<>]")
#: "Draw after an hour locked": of the whole vehicle, not of a part of it that runs.
_DRAW = lazily(r"(?<![a-z])(?:draws?|drawing|drain|drawn|stromaufnahme|verbrauch|consommation|consumo)(?![a-z])")
_ASLEEP = lazily(r"(?<![a-z])(?:locked?|locking|asleep|(?:to )?sleep|key[ -]?off|ign(?:ition)? off|shut ?down|parked|"
                 r"standing|verriegelt|abgeschlossen|eingeschlafen|verrouillee?|endormi|cerrado|dormido|"
                 r"(?:after|nach|apres|tras|despues de) (?:an?|half an|[0-9]{1,3}) ?(?:hours?|hrs?|h|min\w*|std|"
                 r"heures?|horas?))(?![a-z])")
_OF_A_PART = lazily(r"(?<![a-z])(?:starter|pump|motors?|fan|glow|heater|lamps?|bulbs?|compressor|coil|injector|running|"
                    r"cranking|alternator|charger|plug)(?! (?:module|fuse|relay|unit))(?![a-z])")
_FUSE = lazily(r"(?<![a-z])(?:f|fuse|fuses|sicherung|si|fusible) ?[0-9]{0,3},? ?\(?$")
_AMPS, _VOLTS, _OHMS = "a", "v", "o"
#: The pins of the vehicle's own connector, and the numbers of terminals.
_PIN = lazily(r"(?<![a-z])(?:pins?|broches?|clavijas?|cavity|cav|pin ?no\.?) ?\.?#? ?(?!16\b)[0-9]{1,3}[a-z]?(?![0-9])|"
              r"(?<![a-z])(?:supply|feed|power|ground|earth|masse|plus) pin(?![a-z])")
_NUMBER = lazily(r"(?<![a-z])(?:pins?|broches?|clavijas?|cavity|cav) ?\.?#? ?([0-9]{1,3}[a-z]?)\b")
_DECIMAL = lazily(r"[0-9][.,][0-9]")
_AROUND = " -*\u2022.:=,;("
#: Higher than any drop that leaves something running, V; and than one that no word of its own calls a drop.
_MOST_DROP, _MOST_CARRIED = 8.0, 2.5
#: So much is lost only across a part that is open or burnt, V; less may be that of the meter, with nothing drawing.
_LOST = 2.0
#: What was pulled stands in its place again.
_BACK = lazily(r"(?<![a-z])(?:back|refit(?:ted)?|in again|put in|reconnected|plugged in|wieder|remise?|rebranche\w*|"
               r"repuest[oa]|recon[en]ect\w*|de nuevo|otra vez)(?![a-z])")
#: Higher than what draws on a vehicle that sleeps, A.
_MOST_DRAW = 60.0
_LONGEST, LONGEST_NAME = 320, 120


class Measure(NamedTuple):
    """One figure: the piece of the line that tells it, what it is of, its name, value and unit. ``kind`` "none": it was
    not measured."""

    start: int
    end: int
    kind: str
    name: str
    value: float
    unit: str
    #: Whether nothing but a pin of a connector, or points to measure at, tells what it is.
    loose: bool = False


class _Figure(NamedTuple):
    start: int
    end: int
    value: float
    unit: str
    written: str

    @property
    def base(self) -> float:
        """The value in V, A or ohm."""
        return self.value / 1000.0 if self.unit in ("mv", "ma", "milliamp", "milliamps") else self.value

    @property
    def of(self) -> str:
        """ "v", "a" or "o": what its unit measures."""
        return {"m": _VOLTS if self.unit == "mv" else _AMPS, "v": _VOLTS, "a": _AMPS}.get(self.unit[0], _OHMS)


@remembered
def tells(low: str) -> bool:
    """Whether a line may hold a measurement: asked of every line."""
    return len(low) <= _LONGEST and (_FIGURE.search(low) is not None or _BARE.search(low) is not None)


def says_figures(low: str) -> bool:
    """Whether a text holds a number with a decimal or a unit."""
    return _FIGURE.search(low) is not None or _DECIMAL.search(low) is not None


def find(text: str, low: str) -> list[Measure]:
    """The measurements of a line, in its order."""
    if not tells(low):
        return []
    if sides := bothsides.find(text, low):
        return [Measure(one.start, one.end, "drop" if one.volts >= _LOST else "none", one.name, one.volts, "V")
                for one in sides]
    found: list[Measure] = []
    ends = [0, *(end.end() for end in _SENTENCES.finditer(low)), len(low)]
    for begin, end in pairwise(ends):
        mine = _in_sentence(text, low, begin, end, found)
        if mine and mine[0].kind == "draw" and not pulled(mine[0].name.lower()):
            last = max((cut for cut in ends if cut < begin), default=begin)
            before = low[last:begin]
            # "F27 pulled and left out. Draw 28 mA": no current of the whole vehicle.
            if pulled(before) and _BACK.search(before) is None and not any(last <= one.start < begin for one in found):
                name = f"{mine[0].name}, {' '.join(text[last:begin].split()).strip(_AROUND + '!')}"
                mine[0] = mine[0]._replace(name=name[:LONGEST_NAME])
        found += mine
    return _feeds_compared(low, found)


def _in_sentence(text: str, low: str, begin: int, end: int, before: list[Measure]) -> list[Measure]:
    """The measurements of one sentence; ``before``: those of the sentences before it."""
    buses = {line.start: line for line in buslines.find(low) if begin <= line.start < end}
    figures = _figures(low, begin, end)
    starts = {figure.start for figure in figures}
    figures = sorted([*figures, *(_Figure(line.start, line.end, line.value, line.unit.lower(), line.unit)
                                  for line in buses.values() if line.start not in starts)])
    found: list[Measure] = []
    start = begin
    for place, figure in enumerate(figures):
        after = figures[place + 1].start if place + 1 < len(figures) else end
        cut = _PARTS.search(low, figure.end, min(after + 1, end))
        bus = buses.get(figure.start)
        stop = _stop(low, figure.end, cut.start() if cut is not None else None, after, end)
        told = [*before, *found]
        last = told[-1] if told else None
        first = _shortened(low, start, figure, stop)
        kind = "bus" if bus is not None else _kind(low, first, figure, stop, last, bool(found))
        sure = cut is not None or after == end or kind in ("bus", "pin")
        piece = f"{low[first : figure.start]} {low[figure.end : stop]}"
        if kind is not None and sure:
            if _NOT_TAKEN.search(piece) is not None:
                found.append(Measure(first, stop, "none", "", figure.value, figure.written))
            else:
                name = bus.name if bus is not None else _name(text, low, kind, first, figure, stop, told)
                loose = kind == "pin" or (kind == "drop" and (
                    _TERMS["drop"].search(low) is None or _at_named_plug(low[:first], piece)))
                unit = bus.unit if bus is not None else figure.written
                found.append(Measure(first, stop, kind, name, figure.value, unit, loose))
        start = stop if cut is None else cut.end()
        tail = pulled(low[start:after]) and [*_PARTS.finditer(low, start, after)]
        if kind == "draw" and found and tail and pulled(low[start : tail[0].start()]):
            # "0.03 A, F27 pulled, 0.8 A with it in": said of the one before it or behind it, and neither passes by it.
            name = f"{found[-1].name}, {text[start : tail[0].start()].strip()}"
            found[-1] = found[-1]._replace(name=name[:LONGEST_NAME])
    return found


def _figures(low: str, begin: int, end: int) -> list[_Figure]:
    """The figures with a unit, and those that words call loaded or not."""
    found = [_Figure(*match.span(), float(match[1].replace(",", ".")), match[2].replace(" ", ""), _written(match[2]))
             for match in _FIGURE.finditer(low, begin, end)
             if match[2] not in ("a", "amp", "amps")
             or _FUSE.search(low, max(begin, match.start() - 20), match.start()) is None]
    taken = {figure.start for figure in found}
    found += [_Figure(*match.span(1), float(match[1].replace(",", ".")), "v", "V")
              for match in _BARE.finditer(low, begin, end) if match.start() not in taken]
    return sorted(found)


def _stop(low: str, end_of_figure: int, cut: int | None, after: int, end: int) -> int:
    """Where the piece of a figure ends: what stands behind the last one tells how it was taken, unless it answers."""
    if after != end:
        return cut if cut is not None else end_of_figure
    if cut is None or spoken(low[cut:end]):
        return end if cut is None else cut
    # "0.02 V at the splice, should be 2.4": told of another figure.
    other = _DECIMAL.search(low, cut, end) or (_NOT_TAKEN.search(low, cut, end) and any(map(str.isdigit, low[cut:end])))
    return cut if other and not pulled(low[cut:end]) else end


def _written(unit: str) -> str:
    """A unit as readings have it."""
    if unit[0] == "m":
        return "mV" if unit == "mv" else "mA"
    return {"v": "V", "a": "A", "k": "kohm"}.get(unit[0], "ohm")


def _shortened(low: str, start: int, figure: _Figure, stop: int) -> int:
    """Where the piece of a figure begins: behind what tells of something else, where another number stands in that;
    what was pulled while a current was read tells of the current."""
    for cut in [*_PARTS.finditer(low, start, figure.start)][::-1]:
        if figure.of == _AMPS and pulled(low[start : cut.start()]):
            continue
        if any(char.isdigit() and low[at - 1 : at + 2].strip("0123456789") for at, char in
               enumerate(low[start : cut.start()], start)) and _kind(low, cut.end(), figure, stop, None, False):
            return cut.end()
    return start


def _kind(low: str, start: int, figure: _Figure, stop: int, last: Measure | None, same: bool) -> str | None:
    """What a figure is of by the words of its piece, or by the measurement before it (``same``: of its sentence)."""
    piece = f"{low[start : figure.start]} {low[figure.end : stop]}"
    of = figure.of
    carried = last.kind if last is not None else None
    if of == _AMPS and figure.base <= _MOST_DRAW:
        return "draw" if _is_draw(piece, figure, carried) else None
    if of != _VOLTS:
        path = pins.of(low[start : figure.start], low[figure.end : stop])
        to_ground = path.far != "pin" and (path.pin == "ground" or (path.pin is None and path.far == "minus"))
        return "pin" if of == _OHMS and _PIN.search(piece) and to_ground and pin_of(piece) is not None else None
    for kind in ("load test", "ripple"):
        if _TERMS[kind].search(piece) is not None:
            return kind
    fell_to = figure.base > _MOST_CARRIED and _TO.search(low, max(start, figure.start - 5), figure.start) is not None
    if figure.base <= _MOST_DROP and not fell_to and (_TERMS["drop"].search(piece) or _V_DROP.search(piece)):
        return "drop"
    if figure.base <= _MOST_CARRIED and (between_points(piece) or _DROP.search(piece) or _is_ground(piece)):
        return "drop"
    if figure.base <= _MOST_CARRIED and same and carried == "drop":
        return "drop"
    if places(piece) and _PIN.search(piece) is not None:
        path = pins.of(low[start : figure.start], low[figure.end : stop])
        if path.number is not None and path.far == "pin":
            return "pin"
        if path.pin is not None or (path.far == "minus" and figure.base >= pins.FED):
            return "drop" if path.pin == "ground" and figure.base <= _MOST_CARRIED else "pin"
    if same and carried == "pin" and pin_of(piece) == "ground" and figure.base <= _MOST_CARRIED:
        return "drop"
    if same and carried == "pin" and load_of(piece) is not None:
        return "pin"
    return "ripple" if same and carried == "ripple" and figure.base <= _MOST_CARRIED else None


#: "V drops", "drops 40 mV", "0.03 V drop"; not "battery 12.6 V dropped to".
_V_DROP = lazily(r"(?<![a-z0-9.,])(?<![0-9] )v[ -]?drops?(?![a-z])", re.IGNORECASE)
#: "Drop on cranking to 7.9 V" tells what was left.
_TO = lazily(r"(?<![a-z])(?:to|auf|a|hasta) $")
_DROP = lazily(r"(?<![a-z])drops?(?: of)?(?! to| down| out)(?![a-z])")


_GROUND = (r"(?:ground|earth|masse|motormasse|massepunkt|masa|tierra|gnd)s?")
_LOSES = lazily(rf"(?<![a-z])(?:{_GROUND}(?: [a-z]{{1,12}}){{0,2}} (?:loses|lost|drops|verliert|perd|pierde)|"
                rf"(?:lost|loses|verliert|perd|pierde) (?:[a-z]{{1,6}} ){{0,3}}{_GROUND})(?![a-z])")
#: A ground and where its meter stood, and nothing else: "engine ground 0.08 V cranking", "masa 0,02 V".
_ONLY_GROUND = lazily(
    rf"(?=.*(?<![a-z]){_GROUND}(?![a-z]))(?:(?:{_GROUND}|engine|motor|moteur|block|bloc|bloque|body|chassis|frame|"
    r"karosserie|caisse|carroceria|gearbox|getriebe|boite|caja|strap|band|masseband|tresse|trenza|battery|batterie|"
    r"bateria|minus|negative|post|pole|pol|side|main|now|jetzt|nun|maintenant|ahora|then|cranking|crank|starting|on|"
    r"while|when|at|to|the|of|beim|starten|anlassen|au|demarrage|al|arrancar|el|la|le|du|de|del|von|vom|zu|zur|a|"
    r"with|under|load|unter|last|sous|charge|con|carga|lights|licht|phares|luces|measured|gemessen|mesuree?|medida|"
    r"side|ok|good|gut|bon|bien|v|volts?)(?![a-z])[ ,:=()/.-]{0,3})+")


_BARE_GROUND = lazily(rf"(?:the |its |la |le |die |der |seine )?{_GROUND}"
                      r"(?: ?(?:side|pin|seite|broche|under load|unter last|sous charge|con carga|of|von|de))?")
_DROP_WORDS = lazily(r"(?<![a-z])(?:(?:voltage|volt) ?-?drops?|drops?|spannungs(?:ab)?fall|spannungsverlust|"
                     r"chute de tension|caida de tension)(?![a-z])")


def _is_ground(piece: str) -> bool:
    """Whether a piece of a line speaks of a ground of all, and of what is lost on it.

    >>> [_is_ground(piece) for piece in ("masa ", "engine ground cranking", "engine earth loses", "abs ground", "box")]
    [True, True, True, False, False]
    """
    piece = " ".join(piece.split())
    return _LOSES.search(piece) is not None or _ONLY_GROUND.fullmatch(piece) is not None


def _at_named_plug(before: str, piece: str) -> bool:
    """Whether a drop is called by nothing but a ground, behind a plug that the line names: its own ground.

    >>> [_at_named_plug("eps plug: feed 12.6 v, ", piece) for piece in ("ground drop ", "engine ground drop ")]
    [True, False]
    """
    words = " ".join(_DROP_WORDS.sub(" ", piece).split()).strip(_AROUND)
    return bool(places(before)) and _BARE_GROUND.fullmatch(words) is not None


def _is_draw(piece: str, figure: _Figure, carried: str | None) -> bool:
    """Whether a current is what the whole vehicle draws with the key off."""
    if _TERMS["draw"].search(piece) is not None or carried == "draw":
        return True
    milli = figure.unit.startswith("m")
    if _DRAW.search(piece) is not None and not _OF_A_PART.search(piece):
        return milli or _ASLEEP.search(piece) is not None or figure.value < 5.0
    return milli and (_ASLEEP.search(piece) is not None or pulled(piece))


#: Words that call a measurement only with the next one.
_NO_NOUN = (" after", "parasitic", "quiescent")
_CALLED = {"draw": "key-off draw", "drop": "voltage drop", "ripple": "ripple", "load test": "load test"}


def _name(text: str, low: str, kind: str, first: int, figure: _Figure, stop: int, told: list[Measure]) -> str:
    """The name of a measurement: the words of its piece, with those before that say what is measured."""
    name = " ".join(f"{text[first : figure.start]} {text[figure.end : stop]}".split()).strip(_AROUND)
    name = name.replace(" ,", ",").replace(" )", "")
    if kind == "pin":
        path = pins.of(low[first : figure.start], low[figure.end : stop])
        number = path.number or next(
            (match[1] for one in told[::-1] if (match := _NUMBER.search(one.name.lower()))), None)
        what = path.judged(figure.value, _written(figure.unit)) or "feed"
        behind = " ".join(text[figure.end : stop].split()).strip(_AROUND + "!")
        load = path.load
        state = "open circuit" if load == "open" else behind or "under load" if load is not None else ""
        where = f"across pins {number} and {path.far_number}" if path.far == "pin" and path.number else (
            f"{what} at pin {number}" if number else what)
        return f"{where}{f', {state}' if state else ''}"[:LONGEST_NAME]
    if kind == "drop":
        name = _V_DROP.sub(_CALLED[kind], name)
    if _TERMS[kind].search(plain_low(name)) is None:
        said = _TERMS[kind].search(low, 0, figure.start)
        called = text[slice(*said.span())] if said is not None else ""
        name = name.partition(" ")[2] if kind == "draw" and _DRAW.match(name.lower()) else name
        name = f"{called if called and not called.lower().endswith(_NO_NOUN) else _CALLED[kind]} {name}".strip()
    if len(name) > LONGEST_NAME and pulled(name.lower()) and not pulled(name[:LONGEST_NAME].lower()):
        return f"{_CALLED[kind]} {name[len(_CALLED[kind]) + 1 - LONGEST_NAME :]}"
    return name[:LONGEST_NAME]


def _feeds_compared(low: str, found: list[Measure]) -> list[Measure]:
    """The measurements; where a feed was read without a load and with one, what it loses is one more."""
    out: list[Measure] = []
    for one in found:
        out.append(one)
        piece = low[one.start : one.end]
        if one.kind != "pin" or not one.name.startswith("feed") or load_of(piece) != "loaded":
            continue
        bare = next((other for other in found if other.kind == "pin" and load_of(low[other.start : other.end]) == "open"
                     and other.name.split(",")[0] == one.name.split(",")[0] and other.value >= one.value), None)
        if bare is not None:
            lost = round(_base(bare) - _base(one), 3)
            name = f"feed drop{one.name.split(',')[0][4:]}, {bare.value:g} V without and {one.value:g} V with its load"
            out.append(Measure(one.start, one.end, "drop", name, lost, "V", True))
    return out


def _base(one: Measure) -> float:
    return one.value / 1000.0 if one.unit.lower() == "mv" else one.value


__all__ = ["LONGEST_NAME", "Measure", "find", "says_figures", "tells"]
