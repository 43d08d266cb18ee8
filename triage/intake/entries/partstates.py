"""What was found open or the wrong way round, or was tried to find a fault, as something noted: "80 A link: blown",
"leads the wrong way round", "sprayed the plug with water".

Such a line names no module that answered; the judge of the supply and of silent modules reads the note.
"""

from __future__ import annotations

from itertools import pairwise

from triage.intake.entries import happened, scanned
from triage.intake.lines.row import Row
from triage.intake.naming.ampere import is_no_name
from triage.intake.plain.patterns import lazily
from triage.intake.said import measuring, phases, remarks, tocome, volts
from triage.intake.said.answers import spoken
from triage.intake.said.outside import outside_supply
from triage.intake.said.partsof import part_at
from triage.intake.scan.context import Context
from triage.model.feeding import tells_feeding
from triage.model.parts import names_part
from triage.model.session import Event

_PART = (r"(?:(?:fusible |fuse ?-?|main |battery |alternator |generator |mega ?-?|midi ?-?|maxi ?-?)*"
         r"(?:fuses?|links?)(?! ?(?:box|board|panel|holder|to ))|f ?[0-9]{1,3}|relays?(?! ?box)|"
         r"(?:haupt|schmelz|vor)?sicherung(?:en)?|relais|fusibles?|rel[eé]s?)")
_STATE = (r"(?:open(?: circuit)?|blown|blew|burn(?:t|ed)(?: out| through)?|melted|popped|tripped|durch(?:gebrannt)?|"
          r"defekt|unterbrochen|grille(?:e|s|es)?|fondue?s?|coupee?s?|hs|quemad[oa]s?|fundid[oa]s?|abiert[oa]s?)")
#: "Main fuse is blown", "F23 15 A radio: open", "blown fuse F12".
_OPEN = lazily(
    rf"(?<![a-z0-9]){_PART}(?![a-z])[^.;!?\n]{{0,44}}?(?<![a-z]){_STATE}(?=\s*(?:[.,;:!)]|$|and|und|et|y|again|"
    rf"too|as well|both))|(?<![a-z])(?:blown|burnt|burned|open|melted|durchgebrannte?|defekte?) {_PART}(?![a-z])")
_DENIED = lazily(
    r"(?<![a-z])(?:not?|none|never|nothing|isn'?t|wasn'?t|nicht|kein\w*|nie|pas|aucune?|ning\w+|if|whether|check|could|"
    r"may(?:be)?|might|would|may have|wenn|falls|ob|si)(?![a-z])|\?")
_LEADS = (r"(?:(?:jump(?:er)? |booster |battery )?(?:leads?|cables?|clamps?|clips?)|batter(?:y|ie)|batt|bateria|"
          r"charger|jump[ -]?pack|booster|polarity|starthilfe(?:kabel)?|kabel|klemmen|cables de (?:demarrage|arranque)|"
          r"pinces|pinzas|cosses|polarite|polaridad|jump[ -]?start\w*)")
_WRONG = (r"(?:(?:the )?wrong way (?:a?round|on)|back to front|revers(?:ed|e polarity)|reversed polarity|crossed over|"
          r"crossed|verpolt|falsch ?herum|vertauscht|a l'envers|invers(?:ee?s?|ion)|al reves|invertid[oa]s?)")
_REVERSED = lazily(
    rf"(?<![a-z]){_LEADS}(?![a-z])[^.;!?\n]{{0,40}}?(?<![a-z]){_WRONG}(?![a-z])|"
    r"(?<![a-z])(?:reversed? polarity|polarity reversed|verpolung|verpolt|inversion de polarite|"
    rf"polaridad invertida)(?![a-z])|(?<![a-z])reversed? (?:the )?{_LEADS}(?![a-z])")
#: "Reverse polarity protection" is a part.
_GUARDED = lazily(r"[ -](?:protect\w*|diode|relay|schutz\w*)")
#: What somebody did to a part to see what comes of it.
_TRIED = lazily(
    r"^(?:[0-9]{1,2}[:h.][0-9]{2},? |then |now |next |i |we |have |he )*(?:(?:unplugg|spray|wett|soak|hos|shook|shak|"
    r"wiggl)(?:ed|ing|en)?|(?:heat|warm|cool|freez|froze|mov|bridg|bypass|tapp|isolat|press|pour)(?:ed|ing|en)?"
    r"(?= (?:the|it|this|that|both|each|all|water)(?![a-z]))|disconnected|pulled|took off|plugged) "
    r"(?!(?:charger|jump|booster|battery|in|on|over|up|to|into|out|away|off|the (?:vehicle|car|van|truck))(?![a-z]))"
    r"(?=[a-z0-9])|"
    r"(?<![a-z])(?:abgesteckt|ausgesteckt|abgezogen|angespruht|bespruht|nass gemacht|geruttelt|gewackelt|erwarmt|"
    r"gekuhlt|"
    r"uberbruckt|debranchee?|arrosee?|mouillee?|secouee?|chauffee?|refroidie?|pontee?|desconectad[oa]|desenchufad[oa]|"
    r"mojad[oa]|rociad[oa]|sacudid[oa]|movid[oa]|calentad[oa]|enfriad[oa]|puentead[oa])(?![a-z])")
_SENTENCES = lazily(r"[.;!](?=\s|$)")
#: A comma in brackets parts nothing: "fuse 14 (ABS, 10 A) blown".
_CLAUSES = lazily(r"[.;!](?=\s|$)|,\s(?![^()\n]{0,40}\))")
#: The number of a fuse: once told whose it is, it is so where it is named again.
_NUMBER = lazily(r"(?<![a-z0-9])(?:fuse|sicherung|fusible)(?: (?:no|nr|n°)\.?)? ?(?P<number>[a-z]?[0-9]{1,3})(?![0-9])|"
                 r"(?<![a-z0-9])(?P<short>f ?[0-9]{1,3})(?![0-9])")
_SIGNS = lazily(r"(?<![a-z])(?:open|blow|blew|burn|melt|popp|tripp|durch|defekt|unterbr|grill|fond|coup|hs|quem|fund|"
                r"abier|wrong|back to|revers|cross|verpol|falsch|vertausch|a l'env|inver|al rev)|polarity")
_LONGEST = 320


def note(context: Context, row: Row) -> bool:
    """Keep what a line tells so; whether it tells nothing else."""
    if len(row.low) > _LONGEST or row.finds.codes:
        return False
    if (tried := _TRIED.search(row.low)) is not None:
        return _tried(context, row, tried.start())
    if tells_feeding(row.low):
        _feeding(context, row)
    if _SIGNS.search(row.low) is None:
        return False
    told = _REVERSED.search(row.low)
    if told is not None and not _is_denied(row.low, *told.span()) and not _GUARDED.match(row.low, told.end()):
        begin = max((cut.end() for cut in _SENTENCES.finditer(row.low, 0, told.start())), default=0)
        stop = _SENTENCES.search(row.low, told.end())
        _record(context, None, row.text[begin : stop.start() if stop is not None else len(row.text)])
        return False
    ends = [0, *(cut.end() for cut in _CLAUSES.finditer(row.low)), len(row.low)]
    found = [(begin, end) for begin, end in pairwise(ends)
             if (told := _OPEN.search(row.low, begin, end)) is not None and not _is_denied(row.low, begin, told.end())]
    if not found or remarks.is_plan(row.low):
        return False
    for begin, end in found:
        module = _module(context, row, begin, end) or _owner_told(context, row.low[begin:end])
        _record(context, module, row.text[begin:end])
    return not (volts.find(row.low) or phases.events(row.low))


def _tried(context: Context, row: Row, start: int) -> bool:
    """Keep what was tried, of the module that is named first; whether nothing else is told in the line."""
    if row.cells or measuring.says_figures(row.low):
        return False  # "pulled F4 0.71": a current, read elsewhere
    if phases.events(row.low) or phases.find(row.low) or outside_supply(row.low) or remarks.is_plan(row.low) or (
            tocome.done(row.low) != row.low) or _DENIED.search(row.low, 0, start) or "?" in row.low:
        return False
    named = list(scanned.named(context, row))
    happened.record(context, Event(at=happened.clock_of(context, row), what="other", note=row.text.strip(" -*\u2022,;"),
                                   module=named[0].module if named else None))
    answered = bool(spoken(row.low) and named)
    return not answered


def _feeding(context: Context, row: Row) -> None:
    """Keep what hangs on a fuse, in the sentence that says it."""
    ends = [0, *(cut.end() for cut in _SENTENCES.finditer(row.low)), len(row.low)]
    for begin, end in pairwise(ends):
        if tells_feeding(row.low[begin:end]):
            happened.record(context, Event(what="other", note=row.text[begin:end].strip(" -*\u2022,;.")))


def _is_denied(low: str, begin: int, end: int) -> bool:
    """Whether a state was not found so, or was only asked for."""
    return _DENIED.search(low, begin, end) is not None or low[end : end + 2].lstrip()[:1] == "?" or (
        tocome.done(low[begin:end]) != low[begin:end])


def _module(context: Context, row: Row, begin: int, end: int) -> str | None:
    """The one module that a part is named after: "80 A EPS link"; one that only stands beside it is of the scans."""
    seen = {context.names.match(module.printed).canonical for scan in context.builder.snapshots
            for module in scan.modules.values()}
    places = [place for place in scanned.named(context, row) if begin <= place.start < end]
    owners = {module for start, last, module in places if not names_part(module)
              and not is_no_name(row.low, row.low[start:last], start, last)
              and (part := part_at(row.low, start, last)) is not None and part.wiring
              and _OPEN.search(row.low, part.start, end) is not None}
    told = owners or {place.module for place in places} & seen
    return told.pop() if len(told) == 1 else None


def _owner_told(context: Context, low: str) -> str | None:
    """The module that an earlier note gives a fuse of the same number to: "fuse 14 blown again"."""
    number = _numbers(low)
    return next((event.module for event in reversed(context.builder.events) if event.module is not None and number
                 and not number.isdisjoint(_numbers((event.note or "").casefold()))), None)


def _numbers(low: str) -> set[str]:
    return {(match["number"] or match["short"]).replace(" ", "").removeprefix("f") for match in _NUMBER.finditer(low)}


def _record(context: Context, module: str | None, words: str) -> None:
    happened.record(context, Event(what="other", module=module, note=words.strip(" -*\u2022,;.!\"")))


__all__ = ["note"]
