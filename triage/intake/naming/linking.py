"""Words that only tie a module and its codes together: "in the ECM there are codes ...", "ABS has ...".

>>> strip_links("In the cluster we have codes"), strip_links("DTC:"), strip_links("ECM - fault code")
('cluster', '', 'ECM')
>>> strip_links("HVAC: 2 faults:"), strip_links("camera 2 faults:")
('HVAC', 'camera 2')
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from triage.intake.plain.characters import has_digit
from triage.intake.plain.characters import low as small
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.words.module_words import ENTRIES, KIND_FIRST
from triage.intake.words.vocabulary import SERVICE, STATES

LINKS = word_set(
    "has have had having shows show showing showed with gave gives give giving reports reported report reporting "
    "logged logs log "
    "logging set sets threw throws throwing got gets came comes up codes code dtc dtcs fault faults trouble error "
    "errors also both "
    "and is are was were there we i it see saw found find holds holding held stores storing contains "
    "lists listed listing reads reading flagged flags flagging kept keeps carries hat haben hatte hatten "
    "meldet melden meldete zeigt zeigte avait avaient tenia "
    "zeigen fehler "
    "fehlercode fehlercodes sind ist sowie und auch mit speichert abgelegt im a affiche affichent indique remonte "
    "remontent ont "
    "presente presentent code codes defaut defauts et avec tiene tienen muestra muestran presenta da dan codigo "
    "codigos averia "
    "averias fallo fallos y con registra guarda then now still only just two three four five following this these "
    "those "
    "returned returns returning back again setting number no nr p/n plus had's the steht stehen liegt liegen gibt "
    "wurde wurden findet finden hinterlegt eingetragen se trouve trouvent figure figurent "
    "donne donnent giving showing that's thats that which it's first next apparait apparaissent hay aparece aparecen "
    "figura figuran encuentra "
    "sits stand stands get habe hab ich wir bekomme bekommen sehe sehen j'ai vois tengo veo"
)
_LEADING = word_set(
    "in on from at the a an der die das den dem des im vom von aus bei dans du de la le les en el los las del desde "
    "module modul "
    "code codes dtc dtcs fault faults fehler fehlercode defaut codigo averia then now also and und et y ecu "
    "steuergerat calculateur "
    "we i have has found got there are is was were control unit modulo centralita for my our trouble error number "
    "both still with reading leyendo lisant "
    "avec con mit it its same very mismo misma meme selbe selben he she they"
)
_COUNTED = word_set(
    "code codes dtc dtcs fault faults error errors fehler fehlercode fehlercodes defaut defauts codigo codigos averia "
    "averias fallo fallos"
)
_NUMBER = word_set("no nr n number")
#: Words of two letters that are as often only words, in capitals too.
_SAID = word_set("no is it we or si ya de en la le el du et")
#: Those that are for reading by; any other module is what somebody reads.
_TO_READ_BY = word_set("lamp lamps light lights lighting")
#: Behind "I" they make it somebody, and no number of a module: "in the radio I got".
_I_DID = word_set("got get found have had see saw read did")
_PART = lazily(r"[a-z0-9]+(?:'[a-z]+)?")
_EDGE = " \t,;:.-/|>*()[]\"'=\u2022&+#_"


@lru_cache(maxsize=8192)
def strip_links(text: str) -> str:
    """``text`` without linking words and marks at its ends; "" where nothing else is left."""
    text = text.strip(_EDGE.replace("(", "").replace("[", "")).rstrip(_EDGE.replace(")", "").replace("]", ""))
    low = small(text)
    parts = [(match[0], match.start(), match.end()) for match in _PART.finditer(low)]
    if not parts:
        return ""
    if len(parts) > 40:
        return text
    if parts[0][0] in ENTRIES and parts[-1][0].isdigit() and all(word in _NUMBER for word, _, _ in parts[1:-1]):
        # "Event 1", "Eintrag Nr. 2": a code is counted.
        return ""
    if all(word in LINKS or word in _LEADING for word, _, _ in parts):
        # "control unit", "module" alone: no name, but a label. Two capital letters are as short as names get, alone
        # or before such a label in small letters ("AT control").
        alone, end = text[parts[0][1] : parts[0][2]], parts[-1][2]
        named = is_short(alone) and (len(parts) == 1 or text[parts[1][1] : end].islower())
        return text[parts[0][1] : end] if named else ""
    last = len(parts)
    # "In the radio I got": a capital letter that is who found the codes.
    while (
        last
        and parts[last - 1][0] in LINKS
        and (not _is_letter(text, parts[last - 1]) or _says_i(parts, last - 1))
        and (text[parts[last - 1][1] - 1 : parts[last - 1][1]] not in ("-", "/"))
    ):
        last -= 1
    if 1 < last < len(parts) and parts[last][0] in _COUNTED and _is_count(text, parts[last - 1]):
        last -= 1
    first = 0
    while first < last and parts[first][0] in _LEADING and first + 1 < last and not _is_letter(text, parts[first]):
        if KIND_FIRST.match(text, parts[first][1]) or (
                parts[first][0] == "reading" and parts[first + 1][0] in _TO_READ_BY):
            break
        first += 1
    kept = text[parts[first][1] : parts[last - 1][2]]
    # A bracket that opens inside closes inside: "(ECM)" or "Engine [ECM]".
    for opening, closing in ("()", "[]"):
        if kept.count(opening) > kept.count(closing) and text.find(closing, parts[last - 1][2]) >= 0:
            kept += closing
        # So does one that opens right before: "[DSH] Dash".
        if kept.count(closing) > kept.count(opening) and text[: parts[first][1]].rstrip().endswith(opening):
            kept = opening + kept
    return kept


def is_short(text: str) -> bool:
    """Whether a text is two capital letters that may name a module, though they are a word that ties names and codes.

    >>> is_short("NR"), is_short("AT"), is_short("NO"), is_short("at")
    (True, True, False, False)
    """
    return len(text) == 2 and text.isalpha() and text.isupper() and small(text) not in _SAID


def _says_i(parts: Sequence[tuple[str, int, int]], at: int) -> bool:
    """Whether a word is somebody who says what he did."""
    return parts[at][0] == "i" and at + 1 < len(parts) and parts[at + 1][0] in _I_DID


def _is_count(text: str, part: tuple[str, int, int]) -> bool:
    """Whether a word before "faults" counts them: a number, which a mark parts from the name ("HVAC: 1 fault")."""
    return part[0].isdigit() and len(part[0]) < 4 and text[: part[1]].rstrip()[-1:] in tuple(":;-(,[=>|")


def _is_letter(text: str, part: tuple[str, int, int]) -> bool:
    """Whether a word is part of a name: a capital letter on its own ("door A"), or tied to the next ("e-call")."""
    return (part[2] - part[1] == 1 and text[part[1]].isupper()) or text[part[2] : part[2] + 1] in ("-", "/")


def trailing_status(text: str) -> tuple[str, str | None]:
    """A status word at the end of the text before a code ("ECM stored P0562", "ECM: stored fault code P0562"): the
    rest, and the word's meaning."""
    low = small(text).rstrip(_EDGE)
    if len(low) > 200:
        return text, None
    if has_digit(low[-3:]) and (service := SERVICE.search(low)) is not None:
        # "TCM: permanent DTC (mode $0A)"
        asked = list(_PART.finditer(low, 0, service.start()))
        while asked and asked[-1][0] in _COUNTED:
            asked.pop()
        low = low[: asked[-1].end()] if asked else ""
    hits = STATES.find(low)
    if hits and _only_codes(low[hits[-1].end :]):
        return text[: hits[-1].start], hits[-1].meaning
    return text, None


def _only_codes(low: str) -> bool:
    """Whether a text is empty, or says only that a code follows."""
    return not low or all(word in _COUNTED or word == "trouble" for word in low.split())
