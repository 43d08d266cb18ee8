"""What was done to the vehicle, as events: when, to which modules, and what they answered."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said import clearanswers, dates, joining, mended, phases, programming, tried
from triage.intake.said.outside import outside_supply
from triage.intake.said.partsof import Part, alone, part_at
from triage.intake.scan.context import Context
from triage.model.parts import battery_renewed
from triage.model.session import REFUSED_BY_ONE, Event

#: "Cleared the codes in the engine": a plain word is a module there.
_LEADS_TO = lazily(r"(?<![a-z])(?:in|of|from|im|in der|dans|en)\s(?:the |dem |der |le |la |el )?$")
#: "12.7 on the meter": what the volts were read on is no cluster.
_MEASURED_WITH = lazily(r"(?<![a-z])(?:on|with|by|at|per) (?:the |my |a |our )$")
#: A clear of every module, whatever else the line names.
_OF_ALL = lazily(r"(?<![a-z])(?:cleared|erased|wiped|deleted|geloscht|efface|borrado) (?:all|everything|the lot|"
                 r"the whole lot|alles|tout|todo)"
                 r"(?=\s*(?:[.,;]|$| and | then | codes?[.,;]| und | et | y ))|(?<![a-z])(?:all|everything|"
                 r"alles|tout|todo) (?:codes |faults |dtcs )?(?:was |were |then |now )*"
                 r"(?:cleared|erased|wiped|geloscht|efface|borrado)")
#: "Cleared, ignition off and on": the key's.
_SWITCHED = lazily(r"\s?(?:was |is )?(?:off|aus|coupee?|quitado|on|an|ein|mis|puesto|cycled)(?![a-z])")
#: What names of one thing that was done stand beside each other with: "BCM + IPC", "SAS / clock spring".
_JOINED = lazily(r"\s?(?:[+&/,]|and|und|et|y)\s?(?:the |das |den |die |le |la |l'|el )?")
#: What lies between modules is neither of them: "the wiring between ECM and ABS".
_BETWEEN = lazily(r"(?<![a-z])(?:between|zwischen|entre|from|von|wiring|harness|cable|kabel|leitung|cableado|faisceau|"
                  r"connector|fuse|relay|line|wires?)(?![a-z])")
#: A link of the supply, which leaves no new module behind: "fusible link found open, replaced".
_LINK = lazily(r"(?<![a-z])(?:(?:fusible|main|mega|midi|battery|alternator|generator)[ -]?)+(?:fuse|link)s?(?![a-z])"
               r"(?! ?(?:box|board|panel))|(?<![a-z])fuse[ -]?links?(?![a-z])|"
               r"(?<![a-z])(?:haupt|schmelz)sicherung(?![a-z])", re.IGNORECASE)
#: Says how the engine was, and nothing of its module: "engine running warm", "Motor en marcha".
_ENGINES = word_set("engine eng motor moteur motore")
_HOW_IT_WAS = lazily(
    r"\s(?:(?:is|was|still|now|ist|war|est|left|kept|not|at|im|au|al|en|a) )*(?:yet )?(?:running|run|off|on|idle|"
    r"idling|stopped|started|warm|hot|cold|ticking|aus|an|lauft|laeuft|lief|kalt|steht|gestartet|leerlauf|tournant|tourne|"
    r"marche|arrete|arret|coupe|chaud|froid|demarre|ralenti|marcha|parado|apagado|encendido|caliente|frio|arrancado)(?![a-z])"
)
#: All that a sentence says that leaves its object to the one before: "Module swapped. Programmed and calibrated today."
_LEFT_OUT = word_set(
    "replaced swapped renewed fitted installed put programmed reprogrammed flashed reflashed coded paired learned "
    "relearned calibrated recalibrated updated new used another one it unit module part control has been was is now "
    "then and also again now second time try successful said says nochmal wieder erfolgreich encore fois otra vez "
    "today successfully ok in on by with the a ersetzt getauscht ausgetauscht programmiert codiert "
    "angelernt kalibriert eingebaut neu neue neuer neues wurde und dann steuergerat modul remplace "
    "remplacee programme programmee reprogramme calibre calibree appaire neuf neuve et puis calculateur sustituido "
    "reemplazado cambiado programado reprogramado calibrado emparejado nuevo nueva y luego modulo centralita"
)
#: How things stood at a clear, or when it was, is not what was cleared: "cleared with the radio unplugged".
_MEANWHILE = lazily(
    r"(?<![a-z])(?:with(?:out)?|while|after|before|once|mit|ohne|nach|vor|bei|avec|sans|apres|avant|con|sin|tras|"
    r"antes de)\s(?:[a-z/'-]+\s){0,3}$"
)
#: "Cleared 2 Mar, new alternator": what was put in is not what was cleared.
_NEW = lazily(r"(?<![a-z])(?:new|another|neue[rnsm]?|nouvel(?:le)?|nuev[oa]) $")
#: Between one thing that was put in and the next, and behind the last: no word of what came of it.
_GOES_ON = lazily(r"[\s,]*(?:(?:and|und|et|y|as well as|a|the|new|also) )*")
_ENDS = lazily(r"(?: (?:module|unit|ecu|control unit|steuergerat|calculateur|modulo))?\s*"
               r"(?:[.;,]|$|(?:and|und|et|y|with) )")
#: Characters before a clause in which the thing stands that it leaves out.
_NEAR = 80
_SENTENCE = lazily(r"[.;!](?=\s|$)")
#: A comma in brackets parts nothing: "fuse 14 (ABS, 10 A) renewed".
_CLAUSE = lazily(r"[.;,!](?=\s|$)(?![^()\n]{0,40}\))")
#: What is done to a module, not to the whole vehicle.
_TO_MODULES = ("replaced", "programmed", "paired", "calibrated", "cleared", "actuator test")


def put(context: Context, row: Row, deed: phases.Deed, stamps: Sequence[dates.Stamp]) -> None:
    """One deed as an event for each module it was done to."""
    parts = _parts(context, row) if deed.what == "replaced" else {}
    lone = _lone_part(context, row, deed, parts) if deed.what == "replaced" else None
    at = next((stamp.value for stamp in stamps), None) or clock_of(context, row)
    if lone is not None:
        record(context, Event(at=at, what="replaced", part=deed.part, answer=deed.answer,
                              note=_words(row, lone)))
        return
    about = _modules(context, row, deed, parts) if deed.what in _TO_MODULES else [None]
    if deed.what == "cleared" and None in about and refused_by_one(context, row, at):
        return
    if parts and _only_parts(context, row, deed, parts):
        about = [None]
    first, last = _part_of(row, deed)
    told = [(place, part) for place, part in parts.items() if part is not None and first <= place[0] < last]
    for place, part in told:
        # Wiring mends the way to a module, and no fault of its own; a fuse or strap beside a module is no news.
        module = None if part.wiring else _owner(context, row.text[place[0] : place[1]])
        if not part.wiring or about == [None]:
            record(context, Event(at=at, what="replaced", module=module, part=deed.part, answer=deed.answer,
                                  note=_words(row, part)))
    for module in about if not told or about != [None] else ():
        battery = deed.what == "replaced" and module is None and _of_battery(row, deed)
        link = _LINK.search(row.text) if deed.what == "replaced" and module is None and not battery else None
        held = programming.programmed_at(row.low) if deed.what == "programmed" else ()
        supply = f"supply {held[-1].value:g} V" if held else None
        note = deed.note or supply or ("battery" if battery else link[0] if link is not None else None)
        record(context, Event(at=at, what=deed.what, module=module, part=deed.part, answer=deed.answer, note=note))


def refused_by_one(context: Context, row: Row, at: datetime | None) -> bool:
    """Keep a clear that one module refused whose name is not understood, with a notice; whether it was such a one."""
    one = clearanswers.unnamed(row.low)
    if one is None:
        return False
    record(context, Event(at=at, what="cleared", answer="unknown", note=REFUSED_BY_ONE))
    context.builder.notice(
        "warning", f"{row.text[slice(*one)].strip()}: which module refused the clear is not understood, so that it is "
        "not known of any that it took it; write its name as the scan prints it", row.line, row.start + one[0],
        row.start + one[1])
    return True


def _words(row: Row, part: Part) -> str:
    """The words for a part, a bracket that they open closed: "fuse 14 (ABS, 10 A)"."""
    told = row.text[part.start : part.end]
    close = row.text.find(")", part.end, part.end + _NEAR) if told.count("(") > told.count(")") else -1
    return row.text[part.start : close + 1] if close >= 0 else told


def _lone_part(context: Context, row: Row, deed: phases.Deed, parts: Mapping[tuple[int, int], Part | None],
               ) -> Part | None:
    """The part that was put in where its own clause names no module: what stands in the next one only tells what came
    of it ("fitted new fuse, ABS wakes up"), unless it goes on with what was put in ("new fuse, ABS and a relay").

    Where the clause names nothing, the part is what was found bad right before: "fuse 14 blown, fitted a new one".
    """
    first, last = _part_of(row, deed)
    places = [name[:2] for name in context.names.find(row.low)]
    phrase = next((one for one in joining.find(row.low) if first <= one[0] < last), None)
    if phrase is not None and joining.beside(row.low, phrase, (deed.start, deed.end), last):
        return Part(*phrase, wiring=True)
    if _says_battery(row.text[first:last]) or any(first <= place[0] < last for place in places):
        return None
    if _goes_on(row, last, places, parts):
        return None
    part = Part(*phrase, wiring=True) if phrase is not None else alone(row.low, first, last)
    if part is not None or not all(word in _LEFT_OUT for word, _, _ in words(row.low[first:last])):
        return part
    told = [(place[0], one) for place, one in parts.items() if one is not None and place[1] <= first]
    found = alone(row.low, max(0, first - _NEAR), first)
    told += [(found.start, found)] if found is not None else []
    before = max(told, default=None, key=lambda one: one[0])
    return before[1] if before is not None and before[1].wiring and not any(
        place[0] > before[1].end for place in places if place[1] <= first) else None


def _goes_on(row: Row, last: int, places: Sequence[tuple[int, int]], parts: Mapping[tuple[int, int], Part | None],
             ) -> bool:
    """Whether a module behind a clause is one more thing that was put in: "fuse 5, ABS module and a relay"."""
    further = next((place for place in places if place[0] >= last), None)
    return (further is not None and further not in parts and _ENDS.match(row.low, further[1]) is not None
            and _GOES_ON.fullmatch(row.low, last, further[0]) is not None)


def _only_parts(context: Context, row: Row, deed: phases.Deed, parts: Mapping[tuple[int, int], Part | None]) -> bool:
    """Whether all that the clause of a deed names is parts: "EPS ground strap replaced, engine starts"."""
    first, last = _part_of(row, deed)
    places = [name[:2] for name in context.names.find(row.low)]
    own = [place for place in places if first <= place[0] < last]
    return bool(own) and all(place in parts for place in own) and not _goes_on(row, last, places, parts)


def put_tried(context: Context, row: Row) -> None:
    """What was unplugged for the scan that the row tells of: "unplugged the boost sensor, cleared again, 12.9 V"."""
    for start, end in tried.find(row.low):
        named = [name[:2] for name in context.names.find(row.low) if start <= name[0] < end]
        module = context.names.match(row.text[slice(*named[0])]).canonical if len(named) == 1 and part_at(
            row.low, *named[0]) is None else None
        record(context, Event(at=clock_of(context, row), what="other", module=module, note=row.text[start:end]))


def put_mended(context: Context, row: Row) -> None:
    """What was mended on the wiring, in the words of the row: "cleaned the plug at rear left"; to no module, for wires
    only lead there."""
    for start, end in mended.find(row.low):
        record(context, Event(at=clock_of(context, row), what="other", note=row.text[start:end]))


def _of_battery(row: Row, deed: phases.Deed) -> bool:
    """Whether it is the battery that was replaced, by the words of its own part of the line, or of the one before it
    where that part begins with the deed: "battery was weak too, replaced 3 weeks ago"."""
    first, last = _part_of(row, deed)
    if _says_battery(row.text[first:last]):
        return True
    if first == 0 or row.low[first : deed.start].strip(" ,"):
        return False
    before = [0, *(match.end() for match in _CLAUSE.finditer(row.low, 0, first - 1))][-1]
    return _says_battery(row.text[before:last])


def _part_of(row: Row, deed: phases.Deed) -> tuple[int, int]:
    """The place of the clause that tells of a deed."""
    first = max((match.end() for match in _CLAUSE.finditer(row.low, 0, deed.start)), default=0)
    last = _CLAUSE.search(row.low, deed.end)
    return first, last.start() if last is not None else len(row.text)


def _says_battery(text: str) -> bool:
    """Whether words name the battery itself."""
    return battery_renewed(Event(what="replaced", note=text))


def record(context: Context, event: Event) -> None:
    """Keep an event, once, and what a clear of the whole vehicle tells of the scans around it."""
    builder = context.builder
    if any(known.what == event.what and known.module == event.module and known.at == event.at
           and known.note == event.note and (event.what != "programmed" or known.answer == event.answer)
           for known in builder.events):
        if _clears_all(event) and builder.snapshot.empty and len(builder.snapshots) > 1:
            # Once more, in the heading of a later scan: "charger off, cleared again".
            builder.next_phase = "after-clear"
        return
    builder.events.append(event)
    if _clears_all(event):
        # In the heading of the second scan it tells where the first stands as well.
        first, only = builder.snapshots[0], len(builder.snapshots) - builder.snapshot.empty == 1
        if only and first.phase is None and not first.empty:
            first.phase = "before-clear"
        builder.next_phase = "after-clear"


def _clears_all(event: Event) -> bool:
    """Whether an event is a clear of the whole vehicle."""
    return event.what == "cleared" and event.module is None and event.answer != "refused"


def _owner(context: Context, name: str) -> str:
    """The module that a part belongs to: where the part sits ("ABS avant gauche") makes no other one of it."""
    whole = context.names.match(name).canonical
    alone = context.names.match(whole.partition(",")[0]).canonical
    return alone if whole.startswith(f"{alone},") else whole


def _parts(context: Context, row: Row) -> dict[tuple[int, int], Part | None]:
    """By the place of a module's name: the part that was replaced and is only called by it; None where that part has a
    name of its own: "airbag clock spring"."""
    places = [name[:2] for name in context.names.find(row.low)]
    found: dict[tuple[int, int], Part | None] = {}
    joined = [Part(*phrase, wiring=True) for phrase in joining.find(row.low)]
    for place in places:
        # Of "ground strap engine to body" neither is what was replaced.
        if (lead := next((one for one in joined if one.start <= place[0] < one.end), None)) is not None:
            found[place] = lead
            continue
        part = part_at(row.low, *place)
        behind = next((other for other in places if other[0] == place[1] + 1), None)
        if part is not None:
            inner = any(part.start <= other[0] and other[1] <= part.end and other != place for other in places)
            found[place] = None if inner else part
        elif behind is not None and part_at(row.low, *behind) is not None:
            found[place] = None
    return found


def _modules(
    context: Context, row: Row, deed: phases.Deed, parts: Mapping[tuple[int, int], Part | None],
) -> Sequence[str | None]:
    """The modules that something was done to; None for the whole vehicle."""
    if deed.what == "cleared" and _OF_ALL.search(row.low[max(0, deed.start - 16) : deed.end + 6]):
        # "Reflashed the gearbox, cleared all"
        return [None]
    # What feeds the vehicle is named beside deeds ("cleared, no charger on"): it is not what they were done to.
    named = [name for name in context.names.find(row.low) if outside_supply(row.low[name[0] : name[1]]) is None
             and _MEASURED_WITH.search(row.low, 0, name[0]) is None and not _is_switched(row.low, name[:2])
             and row.text[name[0] : name[1]] not in ("pas", "das")
             and not _is_engine_state(row.low, name[:2])
             and name[:2] not in parts
             and not (deed.what == "cleared" and any(first <= name[0] < last for first, last in (
                 *tried.find(row.low), *mended.find(row.low))))
             and not (deed.what == "cleared" and name[1] <= deed.start and _says_battery(row.low[name[0] : name[1]]))
             and not (deed.what == "cleared" and (_MEANWHILE.search(row.low, deed.end, name[0])
                                                  or _NEW.search(row.low, 0, name[0])))]
    # "Pulled the seat, pin 1 12.7 V. Fitted new door module", "SAS replaced. codes cleared again"
    begin = max((mark.end() for mark in _SENTENCE.finditer(row.low, 0, deed.start)), default=0)
    stop = _SENTENCE.search(row.low, deed.end)
    end = stop.start() if stop else len(row.low)
    told = [name for name in named if begin <= name[0] < end]
    if deed.what == "replaced" and _of_battery(row, deed):
        # "Battery replaced, engine running": a module beside it stands in the words of the deed, or right before them.
        first, last = _part_of(row, deed)
        told = [name for name in told if first <= name[0] < last or (
            name[1] <= first and not row.low[name[1] : first].strip(" ,"))]
        named = [name for name in told if not _says_battery(row.low[name[0] : name[1]])]
    elif told or deed.what == "cleared":
        named = told
    else:
        said = (word for word, _, _ in words(row.low[begin:end]) if not word.isdigit())
        # What broke off was told of before: "Update of the TCM started at 9. Programming aborted, voltage too low"
        goes_on = (deed.what == "programmed" and deed.answer == "refused") or all(word in _LEFT_OUT for word in said)
        named = [name for name in named if name[1] <= begin] if goes_on else []
    if not named or not (named[0][2] or deed.what != "cleared" or _LEADS_TO.search(row.low, 0, named[0][0])):
        return [None]
    return [context.names.match(row.text[name[0] : name[1]]).canonical for name in _together(row.low, named)]


def _together(low: str, named: Sequence[tuple[int, int, bool]]) -> Iterator[tuple[int, int, bool]]:
    """The first name and those that stand beside it as one of several: "BCM + IPC"."""
    last = None
    for name in named:
        if last is not None and (_JOINED.fullmatch(low, last, name[0]) is None or not name[2]
                                 or _BETWEEN.search(low, max(0, named[0][0] - 24), named[0][0])):
            return
        yield name
        last = name[1]


def _is_switched(low: str, span: Sequence[int]) -> bool:
    """Whether a name is only the key's: "ignition off and on"."""
    word = low[span[0] : span[1]]
    return word in ("ignition", "zundung", "contact", "contacto", "key") and _SWITCHED.match(low, span[1]) is not None


def _is_engine_state(low: str, span: Sequence[int]) -> bool:
    """Whether a name only tells how the engine was: "engine running"."""
    return low[span[0] : span[1]] in _ENGINES and _HOW_IT_WAS.match(low, span[1]) is not None


def clock_of(context: Context, row: Row) -> datetime | None:
    """The time of day of a row, on the date last named."""
    clock = dates.clock(row.low) if context.last_date is not None else None
    if clock is None or context.last_date is None:
        return None
    return datetime.combine(context.last_date.date(), clock[0], tzinfo=context.last_date.tzinfo)


__all__ = ["clock_of", "put", "put_mended", "put_tried", "record", "refused_by_one"]
