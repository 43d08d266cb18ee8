"""Attribution: whose codes and answers a sentence tells of.

Names, codes and answers alternate. A run of names between two facts belongs to the one before it where "in" or "from"
leads to it, to the one behind it where it is the subject of a verb or stands before a colon, and is parted at a comma
where it is both: "P0562 in the engine, cluster and brakes did not answer".

>>> low = "u0100 in abs and bcm, ecm has p0562; no codes in radio"
>>> at = lambda word: (low.index(word), low.index(word) + len(word))
>>> facts = attribute(low, [at("abs"), at("bcm"), at("ecm"), at("radio")], [at("u0100"), at("p0562")], [at("no codes")])
>>> [(low[fact.start:fact.end], [low[start:end] for start, end in fact.owners]) for fact in facts]
[('u0100', ['abs', 'bcm']), ('p0562', ['ecm']), ('no codes', ['radio'])]
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import IntEnum
from itertools import pairwise

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, word_set, words
from triage.intake.said import states
from triage.intake.said.counts import counts_codes

Span = tuple[int, int]

_STRONG = lazily(
    rf"\.{NOT_SHORT}(?=\s|$)|[!?](?=\s|$)|;|\n|\s-+(?=\s)|\s/(?=\s[^/:]{{2,40}}:\s)|"
    r"(?<![a-z])(?:but|while|whereas|aber|wahrend|mais|pero|mientras)\s"
)
_COMMA = lazily(r"(?<![0-9]),|,(?![0-9])")
_STOP = lazily(rf"(?:[!?;]|\.{NOT_SHORT})(?=\s)")
_PARTED = lazily(rf"{_COMMA.pattern}|{_STOP.pattern}")
_AND = lazily(r"(?<![a-z])(?:and|und|et|y|e|sowie|plus)(?![a-z])|[&+/]")
AND = word_set("and und et y e sowie plus")
_ONE_SAYS = word_set(
    "has shows gives reports sets throws holds stores carries flags contains hat zeigt meldet speichert enthalt a "
    "affiche indique remonte contient tiene muestra presenta registra contiene da is was ist war est esta reads"
)
SAYS = _ONE_SAYS | word_set(
    "have had show showing showed gave report reported log logs logged set threw got gets get having with "
    "haben melden zeigen ont affichent remontent tienen muestran are were sind waren sont etaient estan estaban did "
    "does i we"
)
_TELLS = word_set("got gets get gave gives has have shows show reports logged hat haben zeigt meldet tiene muestra "
                  "hatte hatten avait tenia")
LEADS = word_set(
    "in from off im in aus vom von dans du de en del by on at under for with to of out inside within mit zu zum zur "
    "con avec bei beim inside"
)
_FILLER = word_set(
    "the a an der die das dem den le la les el los las l both all codes code dtc dtcs fault faults stored set logged "
    "history either also only still now back at is are was were one two three present module modules control unit "
    "steuergerat steuergerate calculateur calculateurs boitier centralita centralitas unidad mando modulo modul "
    "fehler fehlercodes defauts codigos again as memory there und and me my our this that so far same came come comes "
    "straight right kam kamen kommt wieder zuruck revient revenu revenue est volvio vuelve otra vez"
)

#: Between the names of one list.
_IN_LIST = AND | LEADS | _FILLER | word_set("or oder ou o nor noch ni neither weder then plus auch aussi tambien")
#: The module named last is meant: "What about the ABS? It has C0035", "engine ok, P0700 stored in it".
_IT = lazily(
    r"[\s,]*(?:(?:and|und|et|y|but|well)\s)?(?:it|that one|this one|er|sie|es|il|elle|ese|este|"
    r"(?:(?:the |le |la |el )?(?:very )?(?:same|mismo|misma|meme)|this|that|dasselbe|dieses|ce|este|esta) "
    r"(?:(?:control )?(?:module|unit|ecu)|steuergerat|calculateur|boitier|modulo|centralita|unidad))"
    r"(?:'s| is| was| also| still| only| too| just| does)*\s(?:has|had|got|shows?|says?|gives|gave|reports?|holds?|"
    r"hat|hatte|zeigt|meldet|tiene|tenia|da|avait|affiche)(?![a-z])"
)
#: "There are three codes in the ABS. P0562 is present": codes are counted, and the next sentence begins with one.
_IT_IS = lazily(
    r"\s*(?:(?:it|they|these|this|that|one|(?:the )?first(?: one)?|es|das|ce|son|es el|c'est)"
    r"(?:'s|\s(?:is|are|was|were|ist|sind|sont))?\s)?"
)
_DESCRIPTION, _BUT = lazily(r"\s*\([^()\n]{3,80}\)"), lazily(r",?\s(?:but|aber|mais|pero)\s")
_DASH = lazily(r"\s(?:-+|:)\s")
_MARKED = lazily(r"\s(?:first|next|then|now)?\s*[-=>:]+\s*")
OTHERS = lazily(
    r"(?<![a-z])(?:everything else|everyone else|every other (?:module|unit|one)|(?:all )?(?:the )?(?:others|"
    r"other modules|other units)|(?:the )?rest(?: of (?:it|them))?|alle (?:anderen|ubrigen)|alles andere|"
    r"(?:tous )?les autres|le reste|(?:todos )?los demas|lo demas|el resto)(?:\s[a-z]+){0,3}\s?:?\s?$"
)
#: "Airbag: same but also B0100"
_SAME_BUT = lazily(
    r"\s?:?\s(?:the |das |le |lo )?(?:same|selbe|gleiche|meme|mismo|clean|ok|fine)?\s?"
    r"(?:but|aber|mais|pero)\s(?:(?:also|with|has|plus|auch|aussi|tambien)\s){1,2}"
)
#: What stands behind a list of names, and what may belong to its answer.
_MORE = lazily(r"\s([a-z']+)")
_BEHIND_LIST = LEADS | _FILLER | word_set(
    "after when even despite twice again today yet tried whatsoever anymore either neither because since while during "
    "before as any now control module nach nachdem trotz mehr apres tras aunque all or but")
_IN_IT = lazily(
    r"(?: (?:was|is|now|also|still|stored|pending|current|active|logged|confirmed|set|gespeichert)){0,3} "
    r"(?:(?:in|on|from|inside) (?:it|there|that one)|drin|darin|dedans|dentro)(?![a-z])"
)
_MOST_BEFORE = 80


class Link(IntEnum):
    """How surely a run of names belongs to the fact on one side of it."""

    NONE = 0
    WEAK = 1
    CLEAR = 2


@dataclass(slots=True)
class Fact:
    """Codes that stand together, or one answer; ``owners`` are the places of the names it is told of."""

    start: int
    end: int
    codes: list[int] = field(default_factory=list)
    answer: int | None = None
    owners: list[Span] = field(default_factory=list)
    #: Codes of modules that the sentence does not name: "everything else U0100".
    of_others: bool = False
    #: The name before it is the only one of its sentence.
    lone: bool = False


def attribute(low: str, names: Sequence[Span], codes: Sequence[Span], answers: Sequence[Span],
              objects: Sequence[int] = ()) -> list[Fact]:
    """The facts of a sentence in small letters, in order, each with its owners as far as the sentence names them.

    ``names``, ``codes``, ``answers``: places in ``low``, each list from left to right, none within another;
    ``objects``: which answers want their module right behind them ("could not reach").
    """
    facts = _facts(low, names, codes, answers)
    runs: list[list[Span]] = [[] for _ in range(len(facts) + 1)]
    place = 0
    for name in names:
        while place < len(facts) and facts[place].start < name[0]:
            place += 1
        runs[place].append(name)
    result: list[Fact] = []
    for at, run in enumerate(runs):
        before = result[-1] if result else None
        if before is not None and before.answer is not None and before.owners:
            before = None
        after = facts[at] if at < len(facts) else None
        if run:
            if after is not None:
                after.lone = len(run) == 1 or _STRONG.search(low, run[-2][1], run[-1][0]) is not None
            later = runs[at + 1] if after is not None else []
            following = facts[at + 1] if later and at + 1 < len(facts) else None
            if after is not None and following is not None and _each_answers(low, run, after, later, following):
                # "Airbag clean ABS clean": each answer is of the name before it.
                later = []
            back, ahead = _part(low, run, before, after, later, objects)
            if back and before is not None:
                _give(low, result, _objects(low, back) if before.answer is not None else back, codes)
            if ahead and after is not None:
                after.owners = ahead
        if after is not None:
            result.append(after)
    _carry(low, result)
    return result


def _each_answers(low: str, run: list[Span], after: Fact, later: list[Span], following: Fact) -> bool:
    """Whether names stand right before their answers, one behind the other."""
    answers = after.answer is not None and following.answer is not None
    return answers and _ahead(low, run, after) == Link.CLEAR == _ahead(low, later, following)


def _objects(low: str, run: list[Span]) -> list[Span]:
    """The names that an answer before them is told of: not the last behind a comma that more is said of ("can't reach
    the airbag, engine fine")."""
    if len(run) < 2 or _AND.search(low, run[-2][1], run[-1][0]) or not _COMMA.search(low, run[-2][1], run[-1][0]):
        return run
    more = _MORE.match(low, run[-1][1])
    return run[:-1] if more is not None and more[1] not in _BEHIND_LIST else run


def _facts(low: str, names: Sequence[Span], codes: Sequence[Span], answers: Sequence[Span]) -> list[Fact]:
    """Codes that stand together as one fact, each answer as one, in order."""
    starts = [name[0] for name in names]
    found: list[Fact] = []
    events = sorted([(start, end, at, True) for at, (start, end) in enumerate(codes)]
                    + [(start, end, at, False) for at, (start, end) in enumerate(answers)])
    named = 0
    for start, end, at, is_code in events:
        fresh = False
        while named < len(starts) and starts[named] < start:
            named, fresh = named + 1, True
        last = found[-1] if found else None
        if is_code and last is not None and last.codes and not fresh and not _parts(low[last.end:start]):
            last.codes.append(at)
            last.end = end
        else:
            found.append(Fact(start, end, [at] if is_code else [], None if is_code else at))
    return found


def _parts(gap: str) -> bool:
    """Whether what stands between two codes parts them: a sentence ends, or somebody says something anew."""
    if OTHERS.search(gap) is not None:
        return True
    if not _without_states(gap):
        # "Got U1829, history; B0146, active in the door": one list.
        return any(mark in gap for mark in ".!?\n")
    return _STRONG.search(gap) is not None or any(word in _TELLS for word, _, _ in words(gap[-40:]))


def _part(low: str, run: list[Span], before: Fact | None, after: Fact | None, later: list[Span],
          objects: Sequence[int]) -> tuple[list[Span], list[Span]]:
    """The names of ``run`` that belong to the fact before it, and those of the fact after it."""
    if after is not None:
        apart = [at for at in range(1, len(run)) if not _is_list(gap := low[run[at - 1][1] : run[at][0]]) and (
            after.codes or _COMMA.search(gap))]
        if apart:
            # "ABS quiet, airbag has B1000": only the last list is the subject of the codes.
            back, _ = _part(low, run[: apart[-1]], before, None, [], objects)
            _, ahead = _part(low, run[apart[-1] :], None, after, later, objects)
            return back, ahead
    cut = [at for at in range(1, len(run)) if _STRONG.search(low, run[at - 1][1], run[at][0])]
    if cut:
        back, ahead = run[:cut[0]], run[cut[-1]:]
        return (back if before is not None and _back(low, before, back, objects) else [],
                ahead if after is not None and _ahead(low, ahead, after) else [])
    back_link = _back(low, before, run, objects) if before is not None else Link.NONE
    ahead_link = _ahead(low, run, after) if after is not None else Link.NONE
    if after is not None and back_link == Link.NONE and ahead_link == Link.WEAK and after.codes and later and (
            _back(low, after, later, objects) == Link.CLEAR and _PARTED.search(low, run[-1][1], after.start)):
        # "... in the dash, P0606 in the engine": the codes have names of their own.
        return [], []
    if not back_link or not ahead_link or after is None or before is None:
        return (run if back_link else []), (run if ahead_link and not back_link else [])
    if before.owners and back_link < Link.CLEAR:
        return [], run
    if before.codes and not before.owners and _STOP.search(low, run[-1][1], after.start):
        # "U0100 is in the ABS. It has C0035 too"
        return run, run
    # The fact behind has names of its own behind it: "P0300 in the engine, U0100 in the brakes".
    # Between marks a description may lead there too: "P0562 low in the engine - U0100 lost in the brakes".
    least = Link.WEAK if not low[run[-1][1] : after.start].strip(" -,;/") else Link.CLEAR
    own = bool(later) and _back(low, after, later, objects) >= least
    if own or ahead_link == Link.WEAK:
        if back_link == Link.WEAK and not own:
            return _halves(low, run, after) if _is_led_to(low, run) else ([], run)
        if own or len(run) == 1 or _COMMA.search(low, run[-1][1], after.start):
            return run, []
        # "P2122 in the engine, ABS stays empty"
        return _halves(low, run, after)
    if len(run) == 1:
        return (run, []) if back_link == Link.CLEAR and not before.owners else ([], run)
    return _halves(low, run, after)


def _is_list(gap: str) -> bool:
    """Whether nothing but what joins the names of a list stands between two names."""
    return _STRONG.search(gap) is None and ":" not in gap and all(word in _IN_LIST for word, _, _ in words(gap))


def _is_led_to(low: str, run: list[Span]) -> bool:
    """Whether "in the" or the like stands right before the first of several names that a comma parts."""
    lead = [word for word, _, _ in words(low[max(0, run[0][0] - 16) : run[0][0]])]
    led = any(word in LEADS for word in lead[-2:]) and lead[-1] in LEADS | _FILLER
    return led and any(_COMMA.search(low, run[at - 1][1], run[at][0]) for at in range(1, len(run)))


def _halves(low: str, run: list[Span], after: Fact) -> tuple[list[Span], list[Span]]:
    """A run that ends the fact before it and is the subject of the one behind it, parted at a comma."""
    commas = [at for at in range(1, len(run)) if _COMMA.search(low, run[at - 1][1], run[at][0])]
    said = [word for word, _, _ in words(low[run[-1][1]:after.start])]
    one = any(word in _ONE_SAYS for word in said[:2]) or (len(run) - 1 in commas)
    at = len(run) - 1 if one or not commas else commas[0]
    return run[:at], run[at:]


def _back(low: str, fact: Fact, run: list[Span], objects: Sequence[int]) -> Link:
    """How surely ``run`` ends the fact before it."""
    gap = _undescribed(low[fact.end:run[0][0]]) if fact.codes else low[fact.end:run[0][0]]
    if _STRONG.search(gap):
        return Link.NONE
    told = _without_states(gap)
    led = bool(told) and any(word in LEADS for word in told)
    plain = all(word in LEADS or word in _FILLER for word in told)
    if fact.answer is not None:
        # A word of its own before the name ("could not talk to the centrel gateway") parts nothing.
        nearly = all(word in LEADS or word in _FILLER for word in told[:-1]) and "," not in gap
        object_behind = fact.answer in objects and ((plain and not (fact.owners and "," in gap)) or nearly)
        bare = not gap.strip(" (") and not fact.owners
        return Link.CLEAR if (led and plain and "," not in gap) or object_behind or bare else Link.NONE
    if not told and not gap.strip(" (["):
        # "P0562 (ECM)": nothing stands between, and nothing else claims the code.
        return Link.NONE if fact.owners else Link.CLEAR
    if not led:
        return Link.NONE
    return Link.CLEAR if plain and "," not in gap else Link.WEAK if plain or not fact.owners else Link.NONE


def _undescribed(gap: str) -> str:
    """What stands behind a code without its description in brackets, and without the word between two statuses of it
    ("(bus off) stored but not active in the")."""
    bracket = _DESCRIPTION.match(gap)
    gap = gap[bracket.end() :] if bracket is not None else gap
    if _BUT.search(gap) is None:
        return gap
    found = [(state.start, state.end) for state in states.in_text(gap)]
    spans = [*found, *((first[1], second[0]) for first, second in pairwise(found))]
    for match in _BUT.finditer(gap):
        if any(start <= match.start() and match.end() <= end for start, end in spans):
            gap = gap[: match.start()] + " " * len(match[0]) + gap[match.end() :]
    return gap


def _without_states(gap: str) -> list[str]:
    """The words of a gap but those of a status."""
    spans = [(state.start, state.end) for state in states.in_text(gap)] if gap.strip() else []
    return [word for word, start, _ in words(gap) if not any(first <= start < last for first, last in spans)]


def _ahead(low: str, run: list[Span], fact: Fact) -> Link:
    """How surely ``run`` is the subject of the fact behind it."""
    gap = low[run[-1][1]:fact.start]
    if gap.strip() and not gap.strip(" -=>:"):
        # "Radio - U0100": a mark alone leads from a name to its codes.
        return Link.CLEAR
    if _MARKED.fullmatch(gap) or (_DASH.match(gap) and not _without_states(gap)):
        # "Radio - confirmed U0100"
        return Link.CLEAR
    strong = _STRONG.search(gap)
    if strong is not None:
        # "What about the ABS? It has C0035"
        it = _STRONG.search(gap, strong.end()) is None and not gap[: strong.start()].strip()
        same = _SAME_BUT.fullmatch(gap) is not None
        if same or (it and _IT.match(gap, strong.end())):
            return Link.CLEAR
        return Link.WEAK if fact.lone and fact.codes and _are_counted(low, run[-1], fact.start) else Link.NONE
    said = [word for word, _, _ in words(gap)]
    if ":" in gap or "=" in gap or any(word in SAYS for word in said):
        return Link.CLEAR
    if "," in gap:
        return Link.WEAK
    return Link.CLEAR if all(word in _FILLER or word in LEADS for word in said) else Link.WEAK


def _are_counted(low: str, name: Span, stop: int) -> bool:
    """Whether the sentence of a name counts codes, and the next begins with one of them at ``stop``."""
    ends = list(_STRONG.finditer(low, name[1], stop))
    if len(ends) != 1 or low[ends[0].start()] not in ".!\n" or not _IT_IS.fullmatch(low, ends[0].end(), stop):
        return False
    begin = max((match.end() for match in _STRONG.finditer(low, max(0, name[0] - _MOST_BEFORE), name[0])),
                default=max(0, name[0] - _MOST_BEFORE))
    return counts_codes(low[begin : ends[0].start()])


def _give(low: str, facts: list[Fact], names: list[Span], codes: Sequence[Span]) -> None:
    """Give names that stand behind the last of ``facts`` to it; where it has a subject, to its last codes alone."""
    last = facts[-1]
    if not last.owners:
        last.owners = names
        return
    at = _second_list(low, [codes[place] for place in last.codes])
    if at is None:
        return
    rest = last.codes[at:]
    facts.append(Fact(codes[rest[0]][0], last.end, rest, None, names))
    last.codes, last.end = last.codes[:at], codes[last.codes[at - 1]][1]


def _second_list(low: str, spans: Sequence[Span]) -> int | None:
    """Where a second list begins among codes: behind the comma that follows a whole list ("P1 and P2, U1"), else
    behind the last comma; None without one."""
    places = range(len(spans) - 1, 0, -1)
    last = next((at for at in places if _STRONG.search(low, spans[at - 1][1], spans[at][0])), None)
    if last is not None:
        return last
    for at in range(1, len(spans)):
        gap = low[spans[at - 1][1]:spans[at][0]]
        if not _COMMA.search(gap):
            continue
        ended = at > 1 and _AND.search(low, spans[at - 2][1], spans[at - 1][0]) is not None
        if ended or _without_states(gap) != [word for word, _, _ in words(gap)]:
            return at
        last = at
    return last


def _carry(low: str, facts: list[Fact]) -> None:
    """Codes without a name of their own are those of the module the sentence spoke of last."""
    owners: list[Span] = []
    last: Fact | None = None
    for fact in facts:
        if fact.codes and not fact.owners and OTHERS.search(low, last.end if last is not None else 0, fact.start):
            fact.of_others, owners = True, []
        elif fact.owners:
            owners = fact.owners if fact.codes else []
        elif fact.codes:
            if last is not None and last.owners and (
                    _IN_IT.match(low, fact.end) or _IT.match(low[last.end : fact.start].lstrip(" .;"))):
                owners = last.owners
            fact.owners = owners
        last = fact


__all__ = ["AND", "LEADS", "OTHERS", "SAYS", "Fact", "Span", "attribute"]
