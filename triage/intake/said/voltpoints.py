"""The supply read at several points along its way: "batt 14.3 / fuse box 12.9 / obd 12.8 with lights on". The first is
the supply, what is missing at the others is lost on the feed.

>>> drops("batt 14.3 / fuse box 12.9 / obd 12.8 with lights, blower on")[1]
(('feed drop batt 14.3 V to fuse box 12.9 V, with lights, blower on', 1.4), ('feed drop batt 14.3 V to obd 12.8 V, \
with lights, blower on', 1.5))
>>> drops("battery 12.5, at fuse 12 12.5"), drops("battery 12.4 v, alternator 14.2 v")
((((25, 29),), ()), ((), ()))
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

_SOURCE = (r"(?:(?:main |starter )?(?:batt(?:ery|erie)?\.?|bat|bateria)(?: (?:posts?|terminals?|b?\+|plus|pole|"
           r"klemmen))?|"
           r"alternator(?: b ?\+| stud| output)?|lichtmaschine|alternateur|alternador)")
_AWAY = (
    r"(?:(?:main |engine |rear |front )?(?:fuse ?(?:box|board|panel)|junction box|power distribution|sicherungskasten|"
    r"boite (?:a|de) fusibles|caja de fusibles)(?: (?:b ?\+|in|feed|supply|plus))?|"
    r"(?:obd|dlc|diag\w*)(?: (?:socket|plug|port|connector|stecker))?(?: pin ?16)?|pin ?16|"
    r"jump (?:post|point|stud|terminal)|starter(?: (?:stud|b ?\+|terminal))?|b ?\+ (?:stud|post|terminal)|"
    r"(?:at )?fuse \w{1,4}(?: (?:in|out))?|"
    r"between (?:the )?(?:engine |motor )?(?:block|engine|body|ground|earth) and (?:the )?(?:b ?\+|starter|"
    r"alternator))")
_AT = r"[ ]{0,2}[:=@]?[ ]{0,2}(?:(?:at|is|reads?|only|hat|a) )?"
_READ = r"(?<![0-9.,])([0-9]{1,2}[.,][0-9]{1,2})(?![0-9]|[.,:][0-9])(?: ?v(?:olts?)?(?![a-z]))?"
_BREAK = (r"[ ]?(?:/|,|;|\||-?>|&|\+|-(?= )|(?<= )(?:and|but|und|et|y|then|only)(?= ))[ ]?"
          r"(?:(?:only|but|at|at the|the) )?")
_CHAIN = lazily(rf"(?<![a-z])({_SOURCE}){_AT}{_READ}((?:{_BREAK}{_AWAY}{_AT}{_READ}){{1,5}})")
_NEXT = lazily(rf"({_AWAY}){_AT}{_READ}")
#: The same with the places behind: "14.3 at the battery, 12.9 at the fuse box".
_BEHIND = r"[ ](?:(?:at|on|across|an|am|a|en) )?(?:the |der |dem |la |le |el )?"
_CHAIN_BEHIND = lazily(rf"{_READ}{_BEHIND}({_SOURCE})(?![a-z])((?:{_BREAK}{_READ}{_BEHIND}{_AWAY}(?![a-z])){{1,5}})")
_NEXT_BEHIND = lazily(rf"{_READ}{_BEHIND}({_AWAY})(?![a-z])")
_LOADS = lazily(r"(?<![a-z])(?:lights?|headl\w+|lamps?|beams?|blower|demist\w*|defrost\w*|heat(?:er|ed)\w*|loads?|"
                r"loaded|"
                r"fans?|crank\w*|consumers|licht|geblase|verbraucher|last|phares|luces|everything on|all on)(?![a-z])")
_UNLOADED = lazily(r"(?<![a-z])(?:no|without|off|ohne|sans|sin) (?:loads?|last|charge|carga)|unloaded|lights off")
_CLAUSE_END = lazily(r"\.\s|[;|()]|$")
#: What the tables call too much on a whole positive path, V: less says nothing where nobody told of a load.
_NOTABLE = 0.5
_LEAST, _MOST, _LONGEST_NAME = 3.0, 33.0, 118

Drops = tuple[tuple[tuple[int, int], ...], tuple[tuple[str, float], ...]]


@remembered
def drops(low: str) -> Drops:
    """The places of the figures that are no supply of the vehicle, and the drops to their points by name."""
    chain, behind = _CHAIN.search(low), False
    if chain is None:
        chain, behind = _CHAIN_BEHIND.search(low), True
    if chain is None:
        return (), ()
    source, first = (chain[2], chain[1]) if behind else (chain[1], chain[2])
    supply = float(first.replace(",", "."))
    end = _CLAUSE_END.search(low, chain.end())
    tail = low[chain.end() : end.start() if end else len(low)].strip(" ,:-")
    loaded = _LOADS.search(low) is not None and _UNLOADED.search(low) is None
    places, lost = [], []
    for point in (_NEXT_BEHIND if behind else _NEXT).finditer(low, chain.start(3), chain.end(3)):
        name, figure = (point[2], 1) if behind else (point[1], 2)
        value = float(point[figure].replace(",", "."))
        drop = round(supply - value, 3)
        if drop < -_NOTABLE:
            continue  # "12.3 at battery, 16.8 V at B+ post": more than the source is made elsewhere
        places.append(point.span(figure))
        if _LEAST <= value <= _MOST and drop >= 0 and (loaded or drop > _NOTABLE):
            told = f"feed drop {source} {supply:g} V to {name} {value:g} V"
            lost.append((f"{told}, {tail}"[:_LONGEST_NAME].strip(" ,") if loaded and tail else told, drop))
    return tuple(places), tuple(lost)


def of_point(start: int, end: int, places: tuple[tuple[int, int], ...]) -> bool:
    """Whether a voltage stands at one of such places."""
    return any(first <= start < last or start <= first < end for first, last in places)


__all__ = ["drops", "of_point"]
