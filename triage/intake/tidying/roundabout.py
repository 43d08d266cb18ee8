"""What people say of a module and its code in a roundabout way, written as the reader knows it: what a module thinks of
another, that it is not happy, where one code is everywhere, and a status that is told afterwards.

>>> from code_tables import load
>>> from triage.intake.naming.names import Names
>>> from triage.intake.plain.characters import lines
>>> text = "Neither P0300 nor P0420 is active\\nThe dash thinks the abs is gone (U0121)\\nABS isn't happy, C0035"
>>> for line in written_out(lines(f"{text}\\nradio U0140\\nthats active too, rest ok"), Names(load())):
...     print(line.text)
P0300 not active, P0420 not active
The dash has U0121
ABS has C0035
radio U0140 active
rest ok
>>> [line.text for line in written_out(lines("U0100 in everything - radio, dash and abs"), Names(load()))]
['U0100 in radio, dash and abs']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.naming.names import Names
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states

_CODE = r"[pcbu][0-3][0-9a-f]{3}(?:-[0-9a-f]{2})?"
#: "Neither P0300 nor P0420 is active"
_NEITHER = lazily(
    rf"(?<![a-z])(neither|weder|ni)\s({_CODE})((?:,?\s(?:nor|noch|ni)\s{_CODE}){{1,5}})\s"
    r"(?:(?:is|are|was|were|ist|sind|war|est|sont|n'est|ne sont|esta|estan)\s)?"
    r"((?:currently |now |still |aktuell )?[a-z]{4,12})(?![a-z])"
)
_ANEW = lazily(r"(?:,\s?(?:and|und|et|y)?|\s(?:and|und|et|y))\s?$")
_NOR = lazily(rf"{_CODE}")
_NOT = {"neither": ("not",), "weder": ("nicht",), "ni": ("no", "pas")}
#: What a module says of another, before the code that it sets for it.
_THINKS = lazily(
    r"\s(?:(?:still|also|now)\s)?(?:thinks?|believes?|reckons?|says?|claims?|complains?|moans?|whines?|misses|"
    r"is missing|(?:can ?not|can'?t|could ?n[o']?t|does ?n[o']?t|no longer) (?:see|hear|find|reach|talk to)s?|"
    r"(?:has )?lost|denkt|meint|glaubt|vermisst|croit|pense|cree|piensa|dice)"
    rf"(?![a-z])[^.;,!?:()\[\]]{{3,60}}?\s?(?:\s-\s|[,:]\s|\s?[(\[]\s?)(?={_CODE}(?![a-z0-9]))"
)
_FIRST_CODE = lazily(_CODE)
_CLOSES = lazily(rf"{_CODE}\s?[)\]]")
_IN = lazily(rf"{_CODE}\s(?:in|from|im|dans|en)\s")
#: That something is wrong with a module, before its codes.
_MOOD = lazily(
    r"\s(?:(?:is|was|seems?|looks?)(?:n't| not)|isnt|wasnt|aint|ain't)\s(?:(?:very|too|all that|really|quite|so)\s)?"
    r"(?:happy|well|right|good|great|impressed|amused|pleased|ok|okay|fine)"
    rf"\s?(?:,|:|;|\s-|\swith|\sbecause of|\sdue to)\s+(?={_CODE})|"
    r"\s(?:is|was|seems?|looks?)\s(?:(?:very|really|quite|still|also)\s)?(?:unhappy|upset|angry|grumpy|sulking|poorly|"
    r"complaining|moaning|playing up|acting up|faulty|at fault|not happy)"
    rf"\s?(?:,|:|;|\s-|\swith|\sbecause of|\sdue to)\s+(?={_CODE})"
)
#: "P0562 in everything - engine, gearbox"
_EVERYWHERE = lazily(
    r"(?<=\sin\s)(?:everything|everyone|all of them|all(?: the)? (?:modules|units|ecus)|every (?:module|unit|ecu)|"
    r"several(?: modules| units| ecus)?)\s?(?:\s-+|:|,|\()\s?(?=[a-z])"
)
#: "That's active too": said of the code before it.
_AFTERWARDS = lazily(
    r"\s*(?:and\s)?(?:that|this|it|das|es|c'est|eso)(?:'?s|\sis|\sone is|\sone's|\sist|\sest|\ses)?\s"
    r"(?:(?:also|still|auch|aussi|tambien)\s)?([a-z][a-z ]{3,20}?)\s?(?:too|as well|also|auch|aussi|tambien)?\s?"
    r"(?:[.,;!]\s*|$)"
)
_ENDS_WITH_CODE = lazily(rf"(?<![a-z0-9]){_CODE}[ .,;]*$")
#: "Couldn't get the dash to answer", "could not get a word out of the dash".
_COAXED = lazily(
    r"(?<![a-z])(?:(?:i |we )?(?:could ?n[o']?t|can ?n?[o']?t|did ?n[o']?t|was unable to|unable to|failed to|never)"
    r" (?:manage to )?get |no (?:luck|joy|way) getting )"
    r"(?:(?:the |any )?([^.,;:!?()\[\]\n]{2,80}?) to (?:answer|respond|reply|talk|communicate|connect|speak|wake up|"
    r"come (?:up|online))(?![a-z])|"
    r"(?:an? |any )?(?:answer|reply|response|word|thing|anything|connection|contact|comms) (?:out of|from|to|with) "
    r"(?:the )?(?=[a-z]))"
)
_SIGN = signs.of_parts("(") | signs.of_words(word_set(
    "get getting no zero neither weder ni everything everyone all every several that thats this it its das es c eso "
    "think thinks "
    "believe believes reckon reckons say says claim claims complain complains moan moans whine whines misses missing "
    "can cannot cant could couldnt does doesnt longer lost denkt meint glaubt vermisst croit pense cree piensa dice is "
    "was seems seem looks look isnt wasnt aint isn wasn ain").__contains__)
#: What a module does or is, before its code; and what a line begins with that tells the status of the one above.
_THINKS_SIGN = signs.of_words(word_set(
    "think thinks believe believes reckon reckons say says claim claims complain complains moan moans whine whines "
    "misses missing can cannot cant could couldn couldnt couldnot does doesn doesnt doesnot longer lost denkt meint "
    "glaubt vermisst croit pense cree piensa dice is was seems seem looks look isnt wasnt aint "
    "isn wasn ain").__contains__)
_AFTERWARDS_SIGN = signs.of_pattern(r"^(?:(?:that|this|it|das|es|eso)s?|c)$")
#: "No ABS faults"
_NO = lazily(r"(?<![a-z])(?:no|zero)\s$")
_FAULTS = lazily(r"\s(?:(?:fault |trouble |error )?codes?|faults?|dtcs?|errors?)(?=\s*(?:[.,;!)]|$)|\s(?:and|but)\s)")
_NAMED = lazily(r"\s?\(\s?([a-z][a-z0-9 /-]{1,40}?)\s?\)")
_SEVERAL = 2
#: Before a name: "the".
_NEAR = 5
_LONGEST = 1000


def written_out(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines with those words written out. Linear in their length."""
    kept: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        if len(line.low) > _LONGEST:
            continue
        new = _coaxed(_bracketed(_none_of(_everywhere(_neither(line), names), names), names))
        if signs.of(new.low) & _THINKS_SIGN and _FIRST_CODE.search(new.low) is not None:
            new = _of_module(new, names)
        above = (kept or found)[at - 1] if at else None
        told = _afterwards(above, new) if above is not None else None
        if new is not line or told is not None:
            kept = kept or list(found)
            kept[at] = new
            if told is not None:
                kept[at - 1], kept[at] = told
    return kept or found


def _neither(line: Line) -> Line:
    """The line with "not" for each code of which neither is told to be what is said."""
    for match in reversed(list(_NEITHER.finditer(line.low))):
        for no in _NOT[match[1]]:
            status = f"{no} {match[4]}"
            if states.of_cell(status) is not None:
                codes = [line.text[match.start(2) : match.end(2)]]
                codes += [line.text[match.start(3) + code.start() : match.start(3) + code.end()]
                          for code in _NOR.finditer(match[3])]
                told = ", ".join(f"{code} {status}" for code in codes)
                lead = _ANEW.search(line.low, 0, match.start())
                if lead is not None and _FIRST_CODE.search(line.low, 0, lead.start()) is not None:
                    # What was told before it may be of another module.
                    line = reworded(line, lead.start(), match.end(), f"; {told}")
                else:
                    line = reworded(line, *match.span(), told)
                break
    return line


def _everywhere(line: Line, names: Names) -> Line:
    """The line without "everything" before the names of the modules that are meant by it."""
    if " in " not in line.low:
        return line
    match = _EVERYWHERE.search(line.low)
    named = match is not None and any(0 <= start - match.end() < _NEAR for start, _, _ in names.find(line.low))
    return reworded(line, *match.span(), "") if match is not None and named else line


def _none_of(line: Line, names: Names) -> Line:
    """The line with the module behind what it has none of: "no ABS faults"."""
    if "no " not in line.low and "zero " not in line.low:
        return line
    for start, end, _ in reversed(names.find(line.low)):
        no, none = _NO.search(line.low, max(0, start - 6), start), _FAULTS.match(line.low, end)
        if no is not None and none is not None:
            line = reworded(line, start, none.end(), f"codes in the {line.text[start:end]}")
    return line


def _coaxed(line: Line) -> Line:
    """The line with "no answer from" for a module that nobody could get to answer."""
    for match in reversed(list(_COAXED.finditer(line.low))):
        name = line.text[match.start(1) : match.end(1)] if match[1] is not None else ""
        line = reworded(line, *match.span(), f"no answer from the {name}".rstrip() + ("" if name else " "))
    return line


def _bracketed(line: Line, names: Names) -> Line:
    """The line with "in the" for the bracket round the module of each code: "P0562 (ECM) and C0035 (ABS)". Behind a
    name, or where all are of the network, it says whom its module does not hear."""
    codes = list(_FIRST_CODE.finditer(line.low)) if line.low.count("(") > 1 else []
    places = [_NAMED.match(line.low, code.end()) for code in codes]
    told = [place for place in places if place is not None and names.listed(line.text[place.start(1) : place.end(1)])]
    if len(told) < _SEVERAL or len(told) < len(codes) or all(code[0][0] == "u" for code in codes):
        return line
    if any(start < codes[0].start() for start, _, _ in names.find(line.low)):
        return line
    for place in reversed(told):
        line = reworded(line, *place.span(), f" in the {line.text[place.start(1) : place.end(1)]}")
    return line


def _of_module(line: Line, names: Names) -> Line:
    """The line with "has" for what a module thinks of another, or how it is, before its code."""
    found = names.find(line.low)
    for _, end, _ in reversed(found):
        mood = _MOOD.match(line.low, end)
        if mood is not None:
            line = reworded(line, *mood.span(), " has ")
            continue
        thinks = _THINKS.match(line.low, end)
        if thinks is None or _IN.match(line.low, thinks.end()) is not None:
            continue
        if not any(end < other < thinks.end() for other, _, _ in found):
            continue
        closed = _CLOSES.match(line.low, thinks.end())
        if closed is not None:
            line = reworded(line, closed.end() - 1, closed.end(), "")
        line = reworded(line, end, thinks.end(), " has ")
    return line


def _afterwards(above: Line, line: Line) -> tuple[Line, Line] | None:
    """A line that ends with a code and the next one that begins with its status, each as it is meant."""
    told = signs.of(line.low) & _AFTERWARDS_SIGN
    ends = _ENDS_WITH_CODE.search(above.low[-24:]) if told else None
    match = _AFTERWARDS.match(line.low) if ends is not None else None
    if match is None:
        return None
    word = match[1].strip()
    status = word if states.of_cell(word) is not None else states.slip_for(word)
    if status is None or states.of_cell(status) is None:
        return None
    end = len(above.text.rstrip(" .,;"))
    return reworded(above, end, len(above.text), f" {status}"), reworded(line, 0, match.end(), "")


__all__ = ["written_out"]
