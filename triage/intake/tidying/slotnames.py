"""Names that nobody knows, in the places where the sentences of a text have those of modules: before "has" and a code,
between "in" and "there is", behind "in" at the end of a sentence of codes, as a whole beside an answer. A noun phrase
with a capital letter that stands in two such places, or in one of a form that the text has with known names, is a name
of the whole text; where the text writes the names that are known in small letters, so is one in small letters.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> text = "In Radio steht U0100. In ABS steht C0031. In Quersperre hinten steht C0035. ABS - C0040, Ladekran - B1318"
>>> _ = adopted(lines(text), names)
>>> names.listed("Quersperre hinten"), names.listed("Ladekran")
(True, False)
>>> _ = adopted(lines(f"{text}. Keine Antwort von Ladekran."), names)
>>> names.listed("Ladekran")
True
>>> _ = adopted(lines("le clim donne U0100. radio donne P0562. saleuse avant donne U0001. l'orage donne P0300."), names)
>>> names.listed("saleuse avant"), names.listed("Clim donne")
(True, False)
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from triage.intake.lines.unlistednames import may_name
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links, trailing_status
from triage.intake.naming.names import Names, tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, plain_words, word_set
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import spoken, takes_object
from triage.intake.said.attribution import AND, LEADS, SAYS
from triage.intake.said.near import small
from triage.intake.words.device_words import is_device, is_other
from triage.intake.words.saying_words import PEOPLE, VERBS
from triage.intake.words.vocabulary import STATES

#: Where a clause may begin, and what leads to it.
_BEGINS = lazily(rf"(?:[!?;,]|\.{NOT_SHORT})\s+")
#: A sentence ends: no short form stands before the full stop, or the next begins with an article.
_ENDED = lazily(r"[a-z]{6}[.!?]\s|[a-z]{2}[.!?]\s(?:the|der|die|das|les?|la|el|los|las)\s")
_LINKS = lazily(
    r"(?:(?:and|und|et|y|then|next|also|dann|danach|weiter|puis|ensuite|luego|despues|but|aber|mais|pero)(?:,|\s)\s*)*"
    r"(?P<lead>(?:in|im|en|dans|from|aus|bei|inside)\s)?(?:(?:the|der|die|das|dem|le|la|el)\s|l')?")
_CODE = r"(?<![a-z0-9])(?:[pcbu] ?[0-3o][0-9a-fol]{3}(?![g-z])|spn ?[0-9]|(?:df|[a-z][0-9]?-)[0-9]{3,4}(?![0-9a-z]))"
_STATUS = r"(?:[(\[]?[a-z ]{3,30}[)\]]?:?\s)?"
_NAME = r"(?P<name>[a-z0-9][^\s,;:()]{0,24}(?: [a-z0-9][^\s,;:()]{0,24}){0,4}?)"
#: A name, what says that it has codes, and the first of them.
_SAYS = lazily(
    rf"{_NAME}(?:\s(?P<verb>has|had|shows|showed|gave|gives|reports|with|hat|hatte|zeigt|meldet|mit|a|affiche|donne|avec|"
    r"tiene|da|muestra|con|steht|stehen|hay|there is|there are|il y a|liegt|liegen|"
    r"i (?:read|get|got|have|see|saw|found|find)|j'ai|je (?:lis|trouve)|habe ich|lese ich|finde ich|leo|veo|encuentro|"
    r"came (?:back|up) with|-{1,2})"
    rf"|\s?(?P<mark>[:=]))\s{_STATUS}{_CODE}")
_BOTH = lazily(r"^(?:both|all|each|beide|alle|jeweils|(?:tous )?les (?:deux|trois)|tous|los (?:dos|tres)|todos)\s")
#: Between the names of a list.
_JOINED = lazily(r",\s|\s(?:and|or|und|oder|et|ou|y|o|&|/)\s")
_CODED = lazily(r"(?<![a-z0-9])(?:[pcbu][ -]?[0-3o][0-9a-fol]{3}(?![g-z])|spn ?[0-9])")
#: Behind what leads to it, a name right before its codes.
_INSIDE = lazily(rf"(?P<name>[a-z0-9][^,;:()]{{1,60}}?):?\s(?={_CODE})")
#: The time of a message, and what tells the scan before its first module.
_STAMP = lazily(r"[0-9]{1,2}:[0-9]{2}\s+|[^\w\s]+\s+|[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{2,4}\s?[:-]\s+")
_SCAN = lazily(r"[^:;]{4,60}:\s+")
#: Behind the names that an answer is told of.
_ARE = lazily(
    r"\s(?:is|are|was|were|has|have|had|stays?|still|now|ist|sind|war|waren|hat|haben|bleibt|noch|jetzt|est|sont|etait|"
    r"ont|n'a|n'ont|reste|toujours|esta|estan|estaba|es|son|tienen?|sigue|siguen|ahora|no)$")
#: Behind what a clause begins with, who found its codes.
_FOUND = lazily(
    r"\s(?:(?:i|we|ich|j'ai|on)\s)?(?:found|got|have|had|see|encontre|hay|habia|trouve|vois|gefunden|steht|stehen|"
    r"stand)$")
#: At the end of a sentence that begins with its codes: the module that they are in.
_IN = lazily(rf"(?:.*[^a-z])?(?P<lead>in|im|from|aus|bei|dans|en)\s(?:(?:the|der|dem|le|la|el)\s|l')?{_NAME}$", 0)
_FIRST = lazily(
    r"(?:(?:i )?(?:got|found|have)\s|there (?:is|are)\s|il y a\s|hay\s|(?:j'ai )?trouve\s|encontre\s|gefunden\s|"
    r"codes?\s)?"
    rf"{_STATUS}{_CODE}")
_NO_NAME = (SAYS | VERBS | LEADS | AND | PEOPLE | word_set(
    "then next when after before during again now still also only all any that which who first last here there so "
    "as if not no rest others other same nothing none everything code codes dtc fault faults fehler scan test reading "
    "koeo koer jetzt nun heute gestern maintenant ensuite ahora luego hoy")
) - word_set("a de en la log set del du d des")
#: A sentence that ends within its line, a list, a verb of saying, or what leads to a module.
_SIGN = signs.of_parts(". ", "; ") | signs.of_words((SAYS | AND | word_set(
    "with mit avec con steht stehen hay there il liegt liegen came donne in im from aus dans en hatte a")).__contains__)
#: From one code of a sentence to the next, with what is of both.
_CODES = lazily(
    rf"(?:,\s|\s(?:and|und|et|y)\s|^)?{_CODE}(?:[ :-]{{0,2}}(?:[0-9a-f]{{2}}|\([0-9a-f]{{2}}\))(?![a-z0-9]))?,?")
#: The form of a sentence that is nothing but codes and what they are in.
_WHOLE = "codes alone"
#: The form of one in which nothing but a status stands between a name and its codes.
_BARE = "bare"
#: The form of one that begins with what leads to the module.
_LED = "led to"
_LONGEST, _MOST, _MOST_WORDS, _TAIL, _LEAST = 4000, 24, 5, 90, 2


def adopted(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines as they are; ``names`` lists such names of theirs. Linear: a text has few of them."""
    places: defaultdict[str, list[str]] = defaultdict(list)
    known: defaultdict[str, set[str]] = defaultdict(set)
    plain: defaultdict[str, list[str]] = defaultdict(list)
    for line in {found[at].text: found[at] for at in signs.places(found, _SIGN)}.values():
        for name, form in _slots(line, names) if len(line.low) <= _LONGEST else ():
            if names.listed(name):
                known[form].add(name)
            else:
                (plain if name[:1].islower() else places)[name].append(form)
    told = [name for name in plain if _is_name(name) and may_name(name) and not is_other(small(name))] if (
        _in_small_letters(known)) else []
    known[_WHOLE] = known[_LED] = known[_WHOLE] | known[_LED]
    told = [name for name in told if _is_told(name, plain[name], known, names)]
    # Who writes stands before a colon in line after line.
    opening = Counter(line.text.partition(":")[0].strip(" >*-") for line in found)
    several = {form for form, many in Counter(
        form for name, forms in places.items() if _is_name(name) and may_name(name) and opening[name] <= _LEAST
        for form in set(forms) if form != _BARE).items() if many >= _LEAST}
    for name, forms in places.items():
        # Of what is in part a name, or a device, one other of the form says enough.
        least = 1 if names.find(small(name)) or is_device(small(name)) else _LEAST
        beside = may_name(name) and opening[name] <= _LEAST
        least = _LEAST if forms == [_BARE] else least
        sure = len(forms) >= _LEAST or _WHOLE in forms or any(
            (beside and form in several) or len(known[form]) >= least for form in forms)
        sure = sure and not (set(forms) <= {"answered", "answer"} and is_other(small(name)))
        if sure and _is_name(name):
            told.append(name)
    for name in told[:_MOST]:
        names.adopt_whole(name)
    return found


def _is_told(name: str, forms: Sequence[str], known: Mapping[str, set[str]], names: Names) -> bool:
    """Whether a name in small letters stands in places of two forms, or where known ones do: several in one form, or
    one where it comes again or codes lead to it; where they lead to nothing else, what is in part a name needs none."""
    sure = [form for form in forms if not form.startswith("code ")]
    least = 1 if len(sure) >= _LEAST else _LEAST
    part = bool(names.find(small(name))) or is_device(small(name))
    return len(set(sure)) >= _LEAST or any(
        len(known[form]) >= ((not part) if form in (_WHOLE, _LED) else least) for form in sure)


def _in_small_letters(known: Mapping[str, set[str]]) -> bool:
    """Whether a text begins the names that are known, but the abbreviations, with small letters."""
    listed = {name for name in set().union(*known.values()) if not name.isupper()}
    low = {name for name in listed if name[:1].islower()}
    return len(low) >= _LEAST and 2 * len(low) > len(listed)


def _slots(line: Line, names: Names) -> Iterator[tuple[str, str]]:
    """What stands in the places of modules in the sentences of a line, each with the form of its sentence."""
    low = line.low
    told = ". " in low
    stamped = match.end() if (match := _STAMP.match(low)) is not None else 0
    scan = _SCAN.match(low, stamped)
    starts = [0, *(match.end() for match in _BEGINS.finditer(low))]
    starts[0] = scan.end() if scan is not None and phases.find(low[stamped : scan.end()]) is not None else stamped
    opens = starts[0]
    for start, end in pairwise([*starts, len(low) + 1]):
        lead = _LINKS.match(low, start)
        if lead is None:
            continue
        begin = lead.end()
        stop = len(low[: end - 1].rstrip(" .;,!?"))
        said = _SAYS.match(low, begin)
        if said is not None and said.end("name") <= stop and (told or said["verb"]):
            yield line.text[slice(*said.span("name"))], _LED if lead["lead"] else (said["verb"] or "-").strip("-")
        elif lead["lead"] and (said := _INSIDE.match(low, begin)) is not None:
            name = trailing_status(line.text[slice(*said.span("name"))])[0]
            found = _FOUND.search(small(name.rstrip()))
            yield tidy(name[: found.start()] if found is not None else name), _LED
        elif start and not lead["lead"] and told and (said := _INSIDE.match(low, begin)) is not None and (
                said.end("name") <= stop):
            yield tidy(trailing_status(line.text[slice(*said.span("name"))])[0]), _BARE
        elif stop - start <= _TAIL:
            of_list = _LINKS.match(low, opens)
            answered = _answered(line, of_list.end(), stop, names) if of_list is not None and opens < start else []
            answered = answered if len(answered) > 1 else _answered(line, begin, stop, names)
            yield from answered if len(answered) > 1 or told or len(spoken(low)) >= _LEAST else ()
        if low[stop : stop + 1] in (".", ";", "!", "?", ""):
            first = _LINKS.match(low, opens)
            if first is not None and _FIRST.match(low, first.end(), stop):
                inside = _IN.fullmatch(low, max(first.end(), stop - _TAIL), stop)
                if inside is not None and states.of_cell(low[inside.start("lead") : stop]) is None:
                    whole = _tells_codes(low[first.end() : inside.start("lead")])
                    yield line.text[slice(*inside.span("name"))], _WHOLE if whole else f"code {inside['lead']}"
            opens = end


def _tells_codes(low: str) -> bool:
    """Whether nothing but codes, each with its status, stands in a text."""
    pieces = [_BOTH.sub("", piece.strip(" ()[]")) for piece in _CODES.split(low)[1:]]
    return all(not piece or states.of_cell(piece) is not None for piece in pieces)


def _answered(line: Line, start: int, end: int, names: Names) -> list[tuple[str, str]]:
    """What is all that stands beside the answer of a clause, each name of a list on its own."""
    low = line.low[start:end]
    hits = spoken(low)
    if len(hits) != 1:
        return []
    hit = hits[0]
    if hit.end == len(low) and hit.start > 1:
        return [(name, "answered") for name in _listed(line.text[start : start + hit.start], names)]
    if not hit.start and (takes_object(low, hit) or not LEADS.isdisjoint(low[hit.end :].split()[:1])):
        return [(name, "answer") for name in _listed(strip_links(line.text[start + hit.end : end]), names)]
    return []


def _listed(text: str, names: Names) -> list[str]:
    """The names of a list in which one is known, or the second has an article, bare; any other text as one."""
    whole = tidy(text)
    while (verb := _ARE.search(small(whole))) is not None:
        whole = whole[: verb.start()]
    parts = _JOINED.split(whole)
    bare = [tidy(part[_LINKS.match(small(part)).end() :]) for part in parts]  # type: ignore[union-attr]
    several = len(bare) >= _LEAST and not names.listed(whole) and (
        " / " in whole or any(map(names.listed, bare)) or len(bare[1]) < len(parts[1].strip()))
    return bare if several else [whole]


def _is_name(name: str) -> bool:
    """Whether words may be a name: few, and none that says anything else."""
    low = small(name)
    parts = plain_words(low)
    if _ENDED.search(low) is not None:
        # "Engine unchanged. The dash has U0121"
        return False
    if _CODED.search(low) is not None or not 1 <= len(parts) <= _MOST_WORDS or not _NO_NAME.isdisjoint(parts) or (
            role_of(low) is not None):
        return False
    return not (spoken(low) or STATES.find(low) or phases.find(low) or phases.events(low) or volts.find(low)
                or is_other(low, coded=True))


__all__ = ["adopted"]
