"""What modules did when they were asked: silent, clean, not fitted and not scanned are four different things.

>>> answer_of_cell("did not answer"), answer_of_cell("no codes stored"), answer_of_cell("system voltage low")
('silent', 'clean', None)
>>> spoken("no response from abs and srs")
(Spoken(answer='silent', start=0, end=11, doubtful=False),)
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import covered, phrase_set, plain_words, word_set, words
from triage.intake.plain.remember import remembered
from triage.intake.said import clearanswer
from triage.intake.said.answeraround import (
    A_DEED,
    NOTHING,
    Spoken,
    is_state,
    told_once,
    tried,
    undone,
    untried,
    within_sentences,
)
from triage.intake.said.answerslips import without_slips
from triage.intake.said.near import small
from triage.intake.said.wholeanswer import meaning, names, names_codes
from triage.intake.words.answerwords import ANSWER_KEYS, BESIDE_IT, FLAT_THEN, FLAT_THING, IT, LEADING, SEVERAL
from triage.intake.words.module_words import KIND_FIRST
from triage.intake.words.vocabulary import ANSWER_FILLER, ANSWERS

#: Wordings that mean something else in many other places.
DOUBTFUL = phrase_set("""
        ok | okay | none | clear | clean | good | pass | passed | fine | io | i o | leer | empty | dead | silent |
        offline | timeout | time out | absent | skipped | aborted | keine | aucun | aucune | n a | nil | ninguno |
        ninguna | mudo | muda | muet | sauber | limpio | limpia | vide | propre | cancelled | excluded | ignore |
        saute | saltado | ausente | no data | no link | not run | not done | no connection | not present | nicht
        vorhanden | non present | no presente | not tested | no issues | no problems | o k | not available | o b |
        ras | correcto | left out | omitido | stumm | keine daten | pas present | 0 code | absente | not checked |
        timed out | is clean | all clear | not supported | communication error | no code | not included | nothing |
        nichts | nix | rien | nada | nuthin | nothin | nowt | nuffin | zilch | tot | nff | fehlerlos | is fine |
        was fine | is ok | was ok | is good | was good | all fine | all good | all ok | still ok | alles ok |
        alles gut | todo bien | tout va bien | not found | not seen | not detected | is happy | was happy | zip |
        are happy | seems happy | all happy | sod all | bugger all | naff all | stays mute | stays silent |
        stayed mute | stayed silent | remains mute | remains silent | perfect | spot on | nickel | perfecto | perfecta |
        impec | impeccable | tiptop | tip top | tipptopp | sain | saine""")
#: What people say of anything ("wiring looks fine").
_SEEMS = frozenset({"looks", "looked", "look", "seems", "seemed", "appears", "feels"})
_YES = word_set(
    "yes ja oui si y true 1 ok okay responded answered answers responding online reachable communicating good"
)
_NO = word_set("no nein non n false 0 failed fail none offline x not")
_NO_REPLY = _NO | word_set(
    "none keine kein aucune aucun ninguna ninguno sin error nok nio ko failure fault lost missing"
)
_GENERIC = lazily(
    r"(?<![a-z])(?:(?:all|every|the) (?:other|others|remaining|rest)(?![a-z])[a-z ]*|others|everything else|the rest|"
    r"^[\s*-]*rest(?! ?(?:[0-9]|volt|spannung|strom|current))(?=[\s:,-])|alles andere|alles ubrige|der rest|"
    r"(?:tout )?le reste|^[\s*-]*reste(?! (?:muet|inj|ind|stock))(?=[\s:,-])|(?:el )?resto|todo lo demas|"
    r"rest of(?![a-z])[a-z ]*|remaining (?:modules|units)|"
    r"all (?:the )?(?:modules|units|systems|control units)|every (?:module|unit)|alle (?:anderen|ubrigen|weiteren|"
    r"steuergerate)[a-z ]*|"
    r"(?:tous )?les autres[a-z ]*|tous les calculateurs|(?:todos )?(?:los|las) demas[a-z ]*|todas las centralitas|"
    r"todos los modulos|(?:(?:all|alle|tous les|todos los|todas las) (?:the )?|^)[0-9]{1,3} (?:modules?|units|"
    r"systems|control units|ecus|steuergerate|calculateurs|centralitas|modulos)"
    r"(?= ?[:,-]| (?:scanned|read|checked|are|gelesen|lus|leidas))|"
    r"rest of (?:the )?(?:modules|vehicle)|no other (?:codes|faults|modules)[a-z ]*)(?![a-z])"
)
LIST_WORDS = word_set(
    "modules module following units ecus systems steuergerate steuergeraten modulen systemen folgende folgenden "
    "calculateurs suivants suivantes centralitas siguientes unidades sistemas "
    "modulos control those these that which controllers list of"
)
_WHO = word_set("qui que welche who which that die")
_LINKS = word_set(
    "from in at on by for to of the a an von vom aus bei im der die das dem den du de des dans la le les en el los "
    "las del desde por para con avec "
    "pour mit with and und et y e but is are was were has have had ist sind hat est a ont esta ha tiene still again "
    "also then so it its we i "
    "module modules control unit ecu state status result response answer answers reply after when during : - all "
    "asked also both now haben hatten tienen tiene "
    "steuergerat ergebnis calculateur resultat etat centralita resultado estado modulo while which that did does qui "
    "try tried request requests que welche who "
    "twice scan here this time no communication reading read back came from: gave gives got get just only now : nor or "
    "any either finally lastly next zuletzt schliesslich enfin finalmente konnte konnten "
    "nous on ich wir yet at today whatsoever "
    "there waren sont etaient son estan estaban"
)
_CLAUSE_STOP = lazily(r"[,;.]\s|\s-\s|\s(?:but|and|aber|mais|pero|und|et|y)\s")
#: "Pass. door": the passenger's.
_PASSENGER = lazily(  # "PASS - Passerelle": short for the name behind it
    r"\.?\s*(?:side|front|rear|door|seat|window|mirror|air ?bag|belt|display|screen|module|compartment)(?![a-z])|"
    r"\s*[-:(/]?\s*pas(?:s[a-z]|a[a-z])")
#: What "did not come up on the scan" may be a fault rather than a module.
_ON_THE_SCAN = (
    " scan", " scan auf", " scan nicht", " scan nicht auf", " bus", " tool", " scanner", " escaneo", " escaner",
)
_CAME_UP = word_set(
    "come came show showed shows appear appeared pop taucht tauchte erscheint erschien apparait apparu apparaissait "
    "aparece aparecio sale salio"
)
_OF_A_FAULT = lazily(
    r"(?<![a-z])(?:codes?|dtcs?|faults?|errors?|problems?|lights?|lamps?|warnings?|values?|voltages?|data|\w*leuchte|voyants?|"
    r"fehler\w*|defauts?|pannes?|averias?|fallos?|codigos?|it|that|this|which|"
    r"nothing|[pcbu][0-9][0-9a-f]{3}\S{0,4})[\s,:-]*$"
)
#: Of a battery or a tank they say that it is flat, of what a driver sees that it fails, of no module that it is silent.
_FLAT = frozenset(["dead", "empty", "leer", "vide", "vacia", "vacio", "tot", "mort", "morte", "muerto", "muerta"])
#: "F31 left out over night"
_FUSE = lazily(r"(?<![a-z0-9])(?:f ?[0-9]{1,3}|(?:fuse|relay|sicherung|relais|fusible)(?: ?[a-z]?[0-9]{1,3})?) $")
_NO_SUCH = frozenset(["keine", "aucun", "aucune", "ninguna", "ninguno"])
_CLAUSE_ENDS = lazily(r"\s*(?:$|[.,;:!)|/]|-\s|at all|there|in there|so far|else(?=\s*[.,;]|\s*$)|drin)")
_COUNT = lazily(r"[:=]\s*[1-9][0-9]{0,2}$")
#: The last words of an answer whose module stands behind it: "could not reach", "did not scan", "nothing in".
_OBJECT_ENDS = word_set(
    "to with from into in on of reach contact access read scan check test poll query raise ping open wake see find at "
    "skipped omitted avec joindre lire a con leer contactar auf zu zum zur mit im dans en missed excluded ubersprungen "
    "off ins ans das die den"
)
#: Before the first word of a sentence.
_OPENS = ("", ".", ";", "!", "|")
_KEPT = word_set("module modules control unit ecu steuergerat calculateur centralita modulo con")
#: What stands between a name and what is said of it, and a code, which no name has in it.
_MARK = lazily(r"\s*(?:[:=|\t](?!>)|(?<=\s)[-=]*[->](?=\s)|\.{3,}|_{3,})\s*|\s{2,}")
_CODED = lazily(r"[pcbu] ?[0-9o][0-9a-fo]{3}(?![a-z])")
#: A name of a word for a module and a letter: "ECU-E".
_LETTERED = lazily(r"(?<!\S)(?i:ecu|sg|stg|calc|unit|module)-[A-Z0-9]{1,2}$")
_LONGEST_NAME, _MOST_MARKS, _LONGEST_LINE = 50, 4, 160
_AROUND = " \t.,;:()[]*-\"'!>\u2022"


@lru_cache(maxsize=8192)
def answer_of_cell(low: str, loose: bool = False) -> str | None:
    """The answer that the whole of a cell states. ``loose``: a column made for answers, where yes and no count too."""
    bare = low.strip(_AROUND)
    if not bare or len(bare) > 90:
        return None
    key, mark, value = bare.partition(":")
    if mark and key.rstrip() in ANSWER_KEYS:
        return answer_of_cell(value, loose)
    bare = without_slips(bare)
    if loose and bare in _NO:
        return "silent" if bare not in ("none", "0", "x") else "clean"
    if loose and bare in _YES:
        return "clean"
    hits = ANSWERS.find(bare)
    if hits and covered(bare, hits, ANSWER_FILLER):
        if any(hit.meaning == "silent" for hit in hits):
            return "silent"
        return None if any(undone(bare, hit) for hit in hits) else hits[0].meaning
    if _COUNT.search(bare):
        # "Not responding: 2" counts the modules of the scan.
        return None
    return meaning(bare) or (answer_of_it(low) if hits else None)


@remembered
def answer_of_it(low: str) -> str | None:
    """The answer of a text that gives it of one module without a name; None for any other text.

    >>> [answer_of_it(text) for text in ("no response from control unit", "keine fehler im steuergerat gespeichert")]
    ['silent', 'clean']
    >>> [answer_of_it(text) for text in ("no response from modules", "no response from the other module", "no comms")]
    [None, None, None]
    """
    if len(low) > 90 or low.endswith((":", "?")):
        return None
    hits = spoken(low)
    if not hits or len({hit.answer for hit in hits}) > 1:
        return None
    rest = [word for word, start, _ in words(low) if not any(hit.start <= start < hit.end for hit in hits)]
    known = all(word in IT or word in BESIDE_IT or word.isdigit() for word in rest)
    return hits[0].answer if known and not IT.isdisjoint(rest) else None


def reply_of(low: str) -> str | None:
    """What a column or a key for the reply itself ("Response", "Comm") says: "none" is silence there.

    >>> reply_of("none"), reply_of("ok"), reply_of("timeout"), reply_of("")
    ('silent', 'clean', 'silent', None)
    """
    bare = low.strip(" \t.,;:()[]*-\"'!>")
    if not bare:
        return None
    return "silent" if bare in _NO_REPLY else answer_of_cell(low, loose=True)


@remembered
def spoken(low: str) -> tuple[Spoken, ...]:
    """The answers in running text, from left to right. Linear in its length."""
    if len(low) > 4000:
        return ()
    low = without_slips(low)
    hits = told_once(low, _wordings(low))
    return _as_a_whole(low, hits) if len(low) <= _LONGEST_LINE else hits


def _as_a_whole(low: str, hits: tuple[Spoken, ...]) -> tuple[Spoken, ...]:
    """The answers of a line that as a whole, or behind its name, is one that no wording or only a part of it says."""
    begin = len(low) - len(low.lstrip())
    for at, hit in enumerate(hits[:3]):  # "Answered, no DTCs: ABS, airbag", "Pass, no codes: ABS"
        behind = low[hit.end :].lstrip()
        marked = hit.start > 1 and behind.startswith((":", "=", ">", "->") if at else (":", "-", "=", ">"))
        if marked and {each.answer for each in hits[:at]} <= {hit.answer} and _is_head(low[: hit.end], hit):
            return (Spoken(hit.answer, begin, hit.end, all(each.doubtful for each in hits[: at + 1])), *hits[at + 1 :])
    if LEADING.isdisjoint(plain_words(low)) or (len(hits) == 1 and _says_all(low, hits[0])):
        return hits
    marks = _behind_names(low)
    for start in (begin, *(start for _, start in marks))[bool(marks and names(low[begin : marks[0][0]])) :]:
        if hits and hits[0].end <= start:
            break  # "ABS: ok  BCM: no response": what holds an answer is no name.
        answer = meaning(low[start:].strip(_AROUND))
        if answer is None or (hits and hits[0].start <= start + 1 and (
                hits[0].answer == answer or not low[hits[0].end :].strip(" .)]"))):
            continue
        if names_codes(low[start:]):
            return (Spoken(answer, start, len(low.rstrip(" .)]")), answer == "clean"),)
    colon = low.find(":", 0, _LONGEST_NAME)
    answer = meaning(low[begin:colon].strip(_AROUND)) if colon > 0 and not hits else None
    if answer is not None and names_codes(low[:colon]):
        # "Modules with no handshake: ABS, SRS"
        return (Spoken(answer, begin, colon, True),)
    return hits


def _is_head(low: str, hit: Spoken) -> bool:
    """Whether all of a text, which ends with an answer, is that answer."""
    return hit.answer in (meaning(low.strip(_AROUND)), meaning(low.strip(_AROUND).replace(" and ", ", ")))


def _says_all(low: str, hit: Spoken) -> bool:
    """Whether a wording ends its line, and begins it or stands behind a colon."""
    return not low[hit.end :].strip(" .)]") and low[: hit.start].rstrip()[-1:] in ("", ":", "=")


def named_answer(low: str) -> tuple[int, str] | None:
    """Where the name ends in a line of a name, a mark and an answer, and the answer.

    >>> named_answer("abs: session refused (3x)"), named_answer("abs: lamp on"), named_answer("u0121 - no signal")
    ((3, 'silent'), None, None)
    """
    for end, start in _behind_names(low):
        answer = answer_of_cell(low[start:])
        if answer is not None:
            return end, answer
    return None


def _behind_names(low: str) -> list[tuple[int, int]]:
    """Where the name of a line may end, and what is said of it begin: at each of its first marks."""
    if not low[:1].isalnum():
        return []
    found: list[tuple[int, int]] = []
    for match in _MARK.finditer(low, 1, _LONGEST_NAME + 80):
        end, start = match.span()
        if end > _LONGEST_NAME or len(found) == _MOST_MARKS or _CODED.search(low, 0, end):
            break
        if end > 1 and start < len(low):
            found.append((end, start))
    return found


def _wordings(low: str) -> tuple[Spoken, ...]:
    """The answers in running text by their wordings."""
    found = within_sentences(low, ANSWERS.find(low))
    starts = {hit.start for hit in found if hit.meaning == "clean"}
    return tuple(
        Spoken(
            "silent" if tried(low, hit) else hit.meaning,
            hit.start,
            hit.end,
            hit.phrase in DOUBTFUL or hit.phrase.split()[0] in _SEEMS,
        )
        for hit in found
        if not undone(low, hit)
        and not (hit.meaning == "not scanned" and _FUSE.search(low[max(0, hit.start - 20) : hit.start]))
        and not ((hit.phrase == "pass" and _PASSENGER.match(low, hit.end)) or low[hit.start : hit.end] == "i/o")
        and not (
            hit.phrase.endswith(_ON_THE_SCAN)
            and not _CAME_UP.isdisjoint(hit.phrase.split())
            and _OF_A_FAULT.search(low[max(0, hit.start - 40) : hit.start])
        )
        and not (hit.phrase in _NO_SUCH and not _CLAUSE_ENDS.match(low, hit.end))
        and not (hit.phrase in _FLAT and (FLAT_THEN.match(low, hit.end) or FLAT_THING.search(low[: hit.start][-60:])))
        and (
            hit.phrase != "clear"
            or (hit.end + 1 in starts and is_state(low, hit.start))
            or _heads_a_list(low, hit.start, hit.end)
            or clearanswer.is_answer(low, hit.start, hit.end)
        )
        and (
            hit.phrase not in NOTHING
            or (
                not tried(low, hit, A_DEED)
                and hit.start > 1
                and not low[: hit.start].isspace()
                and _CLAUSE_ENDS.match(low, hit.end)
            )
        )
    )


def _heads_a_list(low: str, start: int, end: int) -> bool:
    """Whether an answer opens a sentence and a colon follows: "No comms: hitch, armrest. Clear: cab"."""
    return low[end : end + 2].lstrip()[:1] == ":" and low[max(0, start - 3) : start].rstrip()[-1:] in _OPENS


def takes_object(low: str, hit: Spoken) -> bool:
    """Whether the module of an answer stands right behind it.

    >>> low = "could not reach abs, bcm did not answer"
    >>> [takes_object(low, hit) for hit in spoken(low)]
    [True, False]
    """
    if _heads_a_list(low, hit.start, hit.end):
        return True
    return low[hit.start : hit.end].rsplit(None, 1)[-1] in _OBJECT_ENDS


@remembered
def rest_of(low: str) -> str | None:
    """The answer that a line gives of the modules it does not name; None where it speaks of none.

    >>> rest_of("everything else clear, gearbox no reply"), rest_of("all other modules did not answer"), rest_of("ok")
    ('clean', 'silent', None)
    """
    match = _GENERIC.search(low)
    if match is None:
        return None
    if match[0].startswith(("no other", "keine anderen")):
        return "clean"
    stop = _CLAUSE_STOP.search(low, match.end())
    # The words for the modules run on into those of the answer: "all other modules clear".
    last = (match[0] + low[match.end() : stop.start() if stop is not None else len(low)]).split()
    for first in range(min(len(last) - 1, 5), 0, -1):
        told = answer_of_cell(" ".join(last[-first:]))
        if told is not None:
            return told
    hits = spoken(low)
    return hits[0].answer if hits else None


def is_list_head(low: str, hits: Sequence[Spoken]) -> bool:
    """Whether a line with an answer and no name heads a list of names: "Modules that did not answer:"."""
    rest = low
    for hit in reversed(hits):
        rest = rest[: hit.start] + " " + rest[hit.end :]
    found = [word for word, _, _ in words(rest[:400])]
    named = any(word in LIST_WORDS for word in found) or any(word in SEVERAL for word, _, _ in words(low[:400]))
    others = [
        word
        for word in found
        if word not in LIST_WORDS and word not in ANSWER_FILLER and word not in _LINKS and not word.isdigit()
    ]
    return not others and (named or low.rstrip().endswith(":"))


def without_links(text: str) -> str:
    """``text`` without the words that tie an answer to a name.

    >>> without_links("from the ABS module."), without_links("and")
    ('ABS module', '')
    """
    text = untried(text)
    parts = [(word, start, end) for word, start, end in words(small(text)[:400])]
    first, last = 0, len(parts)
    if parts and parts[0][0] in ("con", "avec") and (
            text[parts[0][2] :].lstrip()[:1] in ("", ":") or (last > 1 and parts[1][0] in _LINKS)):
        # "Sin comunicacion con:", "pas de reponse avec les modules" above a list; "Air con" is a name.
        first = 1
    while first < last and parts[first][0] in _LINKS and not _letter(text, parts[first]):
        if KIND_FIRST.match(text, parts[first][1]):
            break
        first += 1
    who = bool(parts) and parts[-1][0] in _WHO  # "Calculateurs qui n'ont pas repondu : TCM"
    if all(word in _LINKS or (who and word in LIST_WORDS) for word, _, _ in parts[first:last]):
        lettered = _LETTERED.search(text.rstrip(" .:=-"))
        return lettered[0] if lettered is not None else ""
    while last > first and (word := parts[last - 1][0]) in _LINKS and word not in _KEPT and not _letter(
            text, parts[last - 1]):
        last -= 1
    if first >= last:
        return ""
    start, end = parts[first][1], parts[last - 1][2]
    start -= start > 0 and text[start - 1] in "(["
    while end < len(text) and text[end] in ")]":
        end += 1
    return text[start:end]


def _letter(text: str, part: tuple[str, int, int]) -> bool:
    """Whether a word is part of a name: a capital letter on its own ("door A", but not "the airbag I can't reach"), or
    tied to the next ("e-call", "a/c") or the one before ("CCU-AT")."""
    alone, behind, ahead = part[2] - part[1] == 1, text[part[2] : part[2] + 1], text[: part[1]][-2:]
    return (alone and text[part[1]].isupper() and part[0] != "i") or behind == "-" or part[0] + behind == "a/" or (
        ahead[1:] == "-" and ahead[0].isalnum())
