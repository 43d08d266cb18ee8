"""What modules answered to a clear, told behind it: "cleared, airbag refused, ABS refused, ecm ok, charger on".

These are answers to the request to clear and to nothing else: no list was read, and a module that took it has not been
shown to be without codes.

>>> def told(low): return [(part.who, part.answer) for part in answers(low, ("ecm", "abs", "airbag").__contains__)]
>>> told("cleared: ecm ok, airbag says conditions not correct, rest done")
[('ecm', 'accepted'), ('airbag', 'refused'), ('', 'accepted')]
>>> told("cleared, all accepted except airbag and abs")
[('', 'accepted'), ('airbag', 'refused'), ('abs', 'refused')]
>>> told("cleared all, ecm refused, abs no codes"), told("cleared. ecm ok, abs ok")
([], [])
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Literal, NamedTuple

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.said import uncleared
from triage.intake.said.answers import answer_of_cell, spoken

Answer = Literal["accepted", "refused"]


class Part(NamedTuple):
    """What one part of a line tells: who gave the answer ("" for all others), the answer, and the place of the part.
    ``own``: it names nobody and goes on about the one before."""

    start: int
    end: int
    who: str
    answer: Answer
    own: bool = False


_NRC = r"(?:\(?(?:nrc|neg\.? resp\w*\.?|code)?[ :=]{0,2}\(?(?:7f ?(?:14|04) ?)?(?:0x)?[0-9a-f]{2}h?\)?)"
#: What only a request is answered with, and no list.
_REFUSED = (
    r"(?:(?:were |was |is |has |have |been |got |still |also |both |all |each |hat |haben |wurden? |ist |a |ont |ha |"
    r"han )*"
    r"(?:refus(?:ed|es|al|ing|e|ent|ee?s?)|reject(?:ed|s)|declined|denied|not (?:accepted|taken|cleared|cleared yet|"
    r"confirmed|possible)|"
    r"abgelehnt|verweigert|nicht (?:angenommen|bestatigt|moglich|geloe?scht)|rechazad[oa]s?|rechaz[ao]|"
    r"denegad[oa]|no aceptad[oa]s?)|"
    r"(?:clear(?:ing)?|erase) (?:refused|rejected|denied|failed)|loschen (?:fehlgeschlagen|abgelehnt)|"
    r"failed to (?:clear|erase)|not clearing|(?:(?:would|will|could|can|did|does|do|was|is)(?: ?n ?'? ?t| not)|wont|"
    r"cant|"
    r"cannot) "
    r"(?:be )?(?:clear|eras|delet|wip|accept|take)(?:ed|e|d)?|(?:would|did)(?: ?n ?'? ?t| not)|"
    r"refus(?:ed|es) to (?:clear|erase)|(?:liess|lasst|konnte|kann) sich nicht losch\w+|(?:nicht|un)loschbar|"
    r"(?:pas|impossible (?:d'|a )) ?effac\w+|no se (?:deja|dejo|pudo|puede) borrar|"
    rf"neg(?:ative|\.)? ?(?:resp(?:onse|\.)?|reply|answer)(?:[ :=]{{1,2}}{_NRC})?|negative antwort(?: {_NRC})?|"
    rf"reponse negative(?: {_NRC})?|respuesta negativa(?: {_NRC})?|nrc[ :=]{{0,2}}(?:0x)?[0-9a-f]{{2}}h?|"
    r"7f ?(?:14|04) ?[0-9a-f]{2}|"
    rf"(?:conditions? (?:is |are |were )?not (?:correct|met|right|ok|fulfilled)|cnc)(?:[ ,]{{1,2}}{_NRC})?|"
    r"bedingungen? nicht (?:erfullt|korrekt)|conditions? (?:non|pas) (?:remplies?|correctes?|reunies?)|"
    r"condiciones (?:no (?:correctas|cumplidas)|incorrectas)|"
    r"(?:crash|security|impact|event) (?:data |event |memory |access )?(?:is |are )?(?:locked|denied)|"
    r"(?:data|memory|access) (?:is |are )?(?:locked|denied)|"
    r"crash (?:data|event|record|output)(?: is| are)? (?:stored|latched|set|present)|"
    # In plain words: "said no", "will nicht", "ne veut pas", "no deja".
    r"(?:says?|said|sagte?|dit|a dit|dice|dijo) (?:no(?:pe)?|nein|nee|non)|"
    r"(?:(?:would|will|did|does|do)(?: ?n ?'? ?t| not)|wont|wouldnt|didnt|doesnt) (?:have it|want (?:to|it)|let me|"
    r"play|budge)|"
    r"(?:nimmt|nahm) (?:es |ihn |das |den loschbefehl )?nicht an|(?:will|wollte) nicht|weigert sich|"
    r"(?:ne )?(?:veut|voulait|accepte|acceptait) (?:rien|pas)|"
    r"no (?:(?:se|lo|me) ){0,2}(?:deja|dejo|acepta|acepto|quiere|quiso))"
    r"(?: (?:(?:because|since|weil|car|porque) .{2,60}|it|to|too|as well|(?:to )?the clear|the request|to clear|twice|"
    r"again|every time|auch|aussi|tambien|(?:das |die )?(?:loschen|loschung)|l'effacement|el borrado|borrar(?:se)?))?"
)
_TAKEN = (
    r"(?:(?:were |was |is |has |have |been |got |now |all |both |each |hat |haben |wurden? |a |ont |ha |han )*"
    r"(?:accept(?:ed|s)|confirm(?:ed|s)|took it|positive(?: resp(?:onse)?)?|acknowledged|bestatigt|angenommen|"
    r"accepte(?:e?s)?|confirmee?s?|aceptad[oa]s?|confirmad[oa]s?|positive antwort|reponse positive|respuesta positiva))"
)
#: What a list may be answered with as well: of a clear where others of the line surely are.
_WELL = (
    r"(?:(?:were |was |is |are |all |both |went |now |cleared ?|sont |est |son |esta )*"
    r"(?:ok(?:ay|'?d)?|fine|done|good|cleared|erased|successful(?:ly)?|worked|through|i\.? ?o\.?|in ordnung|erledigt|"
    r"fertig|"
    r"geloe?scht|bien|bon|fait|effacee?s?|hechos?|borrad[oa]s?))"
)
#: Said of parts and tests as well.
_WEAK = (
    r"(?:failed|fehlgeschlagen|echoue|fallido|locked|denied|gesperrt|verrouillee?|bloquead[oa]|nok|n\.? ?i\.? ?o\.?|"
    r"nicht i\.? ?o\.?|not ok)"
)
_REST = (
    r"(?:(?:and |und |et |y )?(?:all )?(?:the )?(?:rest|others?|other (?:modules|ecus|ones)|remaining(?: (?:modules|"
    r"ones|ecus))?)|"
    r"everything else|every ?one else|all the rest|(?:die |alle )?(?:anderen|ubrigen|restlichen)|alles andere|rest|"
    r"(?:tous )?les autres|(?:tout )?le reste|(?:todos )?los demas|(?:el )?resto|todo lo demas|(?:an)?sonst (?:alles?|"
    r"uberall)|sinon tout|all else|otherwise all|(?:todas )?las demas)"
)
_ALL = (
    r"(?:all(?: [0-9]{1,2})?(?: (?:modules|ecus|units))?|both|every ?(?:thing|body|one)|each|alle(?: steuergerate|"
    r" module)?|beide|"
    r"tous(?: les (?:calculateurs|modules))?|les deux|todos(?: los (?:modulos|calculadores))?|ambos)"
)
_SAYS = r"(?:\s?(?:->|=>|[:=>-])\s?|\s(?:says?|said|gives?|gave|answer(?:s|ed)|repl(?:ies|ied)|report(?:s|ed)|with|" \
        r"came back with|sagt|meldet|gibt|antwortet(?: mit)?|dit|repond|donne|indique|dice|responde|da)(?:\s?:)?\s|\s)"
#: The same in more words than one: "negative response 7F 14 22, conditions not correct".
_REFUSALS = rf"{_REFUSED}(?:[ :]{{1,2}}{_REFUSED})?"
_PART = lazily(
    rf"(?:(?P<rest>{_REST})|(?P<all>{_ALL}))?(?:(?:^(?:says |said |gives |gave |with )?|"
    rf"{_SAYS})(?:(?P<refused>{_REFUSALS})|(?P<weak>{_WEAK})|(?P<taken>{_TAKEN})|(?P<well>{_WELL})))"
    r"(?: (?:everywhere|in all(?: modules)?|uberall|partout|en todos?))?[.!\"')\]]*")
_ENDS = lazily(rf"{_SAYS}(?:(?P<refused>{_REFUSALS})|(?P<weak>{_WEAK})|(?P<taken>{_TAKEN})|"
               rf"(?P<well>{_WELL}))[.!\"')\]]*$")
#: "All ok except the SRS", "refused by ABS": the one it is said of comes behind.
_EXCEPT = lazily(
    r"(?:(?:and |but )?(?:except(?:ed|ing)?(?: for| from)?|apart from|other than|all but|(?:everything|all) (?:except|"
    r"but|bar)|bar|not|save for|"
    r"ausser|bis auf|nicht|sauf|hormis|excepte|excepto|salvo|menos)|"
    r"(?:(?:the |das )?(?:clear(?:ing|ance)?|erase|loschen|loschung|effacement|borrado)(?: (?:request|command|codes|"
    r"was|wurde|fue|a ete))* )?"
    r"(?:refused|rejected|not accepted|denied|not cleared|failed|abgelehnt|verweigert|refuse|rechazado)"
    r"(?:\s?[:=]| by| in| from| at| on| von| vom| im| in| par| dans| por| en)|"
    r"(?:(?:could|would|can|did)(?: ?n ?'? ?t| not)|cannot|cant|unable to|not able to|failed to) (?:clear|erase))"
    r"\s?(?:the |das |der |die |le |la |l'|el )?(?P<who>[a-z].*)")
_EXCEPTED = lazily(r"(?P<who>[a-z].{1,38}?) (?:was |is |were )?(?:excepted|excluded|left out|skipped|ausgenommen|"
                   r"exclue?|excluid[oa])")
#: Goes on about the one before: "it doesn't talk".
_OF_IT = lazily(r"(?:(?:as |because |since |,)?(?:it|that one|which|der|das|die|il|elle|no)|never|still) .{2,60}|"
                r"(?:does|did|is) ?n ?'? ?o?t .{2,40}")
#: The code it is about: "airbag refused (B0051 locked)".
_LEFT = lazily(r"(?:for |on |because of )?[pcbu][0-3][0-9a-f]{3}(?:[-:][0-9a-f]{2})?"
               r"(?: (?:is |are |still |stays? |remains? )*(?:locked|latched|there|stored|stays?|remains?|permanent))?")
_MARKS = lazily(r"\s?[;,.!](?=\s|$)\s*|\s?[()\[\]\"]\s?|\s(?:but|aber|mais|pero|while|and|und|et|y)\s|"
                r"(?<=[a-z0-9 ]):\s|"
                r"\s[-\u2013/]\s|\s(?=(?:except|apart from|ausser|sauf|excepto|salvo|menos|bis auf)(?![a-z]))")
_CLEARED = lazily(
    r"(?<![a-z])(?:clear(?:ed|ing|ance|s)?|clr(?:'?d|s)?|eras(?:ed|e|ing)|delet(?:ed|e|ing)|wiped?|geloe?scht|loschen|"
    r"loschung|effac(?:e?e?s?|ement|er)|"
    r"borrad[oa]s?|borrar|borre)(?![a-z])")
_BEFORE = lazily(r"(?<![a-z])(?:before|after|post|pre|vor|nach|avant|apres|antes|despues|since|until|"
                 r"(?<!tried )(?<!trying )(?<!no )to|not|prior to)[ -](?:the |dem |de )?$")
#: Tells of a clear that was tried, and of its answer.
_TRIED = lazily(r"(?<![a-z])(?:(?:(?:would|could|will|can|did)(?: ?n ?'? ?t| not)|wont|cant|cannot) (?:be )?|"
                r"refused to |"
                r"failed to |unable to |not able to )(?:clear|erase)|"
                r"(?:no|refus(?:ed|es|al)) (?:of |to )?the clear|(?:refus(?:e|ait)|rejette) l'effacement|"
                r"(?:verweigert|verweigerte) (?:das |die )?losch(?:en|ung)|rechaz[ao] el borrado|"
                r"liess sich nicht loschen|"
                r"no se (?:dejo|pudo) borrar")
_SIGNS = signs.of_pattern(r"clear|clr|eras|delet|wip|loe?sch|effac|borr")
_SURE = lazily(
    r"(?<![a-z])(?:refus|reject|declin|denied|accept|confirm|acknowl|neg(?:ative|\.)? ?(?:resp|reply|ans)|"
    r"negative antw|nrc|7f ?(?:14|04)|"
    r"conditions? |cnc|bedingung|condiciones|locked|latched|failed|except|excluded|skipped|apart from|ausser|sauf|"
    r"salvo|bis auf|"
    r"abgelehnt|verweigert|angenommen|bestatigt|rechaz|deneg|acept|reponse|respuesta|nok(?![a-z])|n\.? ?i\.? ?o|not ok|"
    r"unable|(?:says?|said|sagte?|dit|dice|dijo) no|(?:sagte?|dit|dijo) ne|weigert|menos|no (?:deja|acepta|quiere)|"
    r"ne veut|(?:would|will|could|can|did|does|wont|cant|cannot|not|pas|nicht|no se)(?: ?n ?'? ?t)?(?![a-z]))")
#: "ABS clear request: rejected"
_REQUEST = lazily(r"(?: ?(?<![a-z])(?:clear(?:ing|ance)?|erase|loschen)(?: (?:request|command|attempt|codes))?)$")
_LEADS = lazily(r"^(?:(?:the|das|der|die|le|la|el|in|from|by) |l')")
_LONGEST, _LONGEST_NAME = 400, 40
#: Somebody refused: the words behind the one who did.
_ONE_REFUSED = lazily(
    r"(?<![a-z])(?:(?:refus(?:ed|es|al)|reject(?:ed|s)|declined|abgelehnt|lehnte? ab|verweigerte?|refusee?|"
    r"rechaz(?:ado|ada|a|o))(?! (?:to|an?|any|new|the|un|une|eine?n?|una?|la|le|el)(?! clear| erase)(?![a-z]))|"
    r"(?:says?|said|sagte?|dit|dice|dijo) no(?:pe|n)?|(?:nimmt|nahm) (?:es |ihn |das )?nicht an|"
    r"(?:(?:would|will|did)(?: ?n ?'? ?t| not)|wont) (?:be )?(?:take|accept|clear|have) ?(?:it|the clear|ed)?"
    r"(?=\s*(?:[,.;)]|$)))(?![a-z])")
#: Nobody refused, or no module: people, codes, and what is said of the clear as a whole.
_NO_MODULE = lazily(
    r"(?<![a-z])(?:not|no|none|nobody|nothing|never|no ?one|neither|without|nicht|nichts|keine?[rsnm]?|niemand|"
    r"ohne|pas|aucune?|rien|personne|sans|ni|ningun[oa]?|nada|nadie|sin|customer|owner|driver|client|cliente|kunde|"
    r"fahrer|boss|garage|he|she|i|we|they|you|all|both|everything|it|codes?|dtcs?|faults?|fehler|defauts?|averias?|clear(?:ing)?|"
    r"cleared|request|loschen|effacement|borrado|geloe?scht|tried|first|if|when|warranty|insurance)(?![a-z])|"
    r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}(?![0-9a-z])")


#: A clear that was refused, said in the words for a clear, so that it may stand beside codes.
_REFUSED_CLEAR = lazily(
    r"(?<![a-z])(?:(?:clear(?:ing|ance)?|erase|erasing|delet(?:e|ing|ion))(?: (?:was|is|request|command|of codes))* "
    r"(?:refused|rejected|denied|not (?:possible|accepted))|refuse[sd] (?:to clear|the clear|clearing)|"
    r"(?:(?:would|will|could|can|did|does)(?: ?n ?'? ?t| not)|cannot|wont|cant) (?:be )?(?:clear|eras)(?:e?d|e)?|"
    r"(?:nicht|un)loschbar|(?:nicht loschbar|loschen|loschung|loschvorgang)(?: (?:war|ist|wurde))? "
    r"(?:nicht moglich|abgelehnt|verweigert|unmoglich)|(?:lasst|liess) sich nicht losch\w+|"
    r"effacement (?:refuse|impossible|rejete)e?|(?:impossible (?:d'|a ))effac\w+|"
    r"borrado (?:rechazado|denegado|imposible)|"
    r"no se (?:deja|dejo|puede|pudo) borrar)(?![a-z])")
#: What nobody can clear is no clear that was refused.
_RECORD = lazily(r"(?<![a-z])(?:crash|impact|collision|deploy\w*|unfall|aufprall|choc|choque|permanent\w*)(?![a-z])")


def is_refusal(low: str) -> bool:
    """Whether a whole line says that a clear was refused, and no more.

    >>> is_refusal("- clear refused"), is_refusal("clear refused by the abs")
    (True, False)
    """
    return len(low) <= 60 and _REFUSED_CLEAR.fullmatch(low.strip(" .!-*\u2022")) is not None


def refused_beside(low: str, code: int) -> bool:
    """Whether a line tells of its module, before its first code (at ``code``), that it refused the clear.

    >>> [refused_beside(low, low.index("b0")) for low in ("airbag: clear refused, b0001", "airbag: b0001 stored")]
    [True, False]
    """
    return _REFUSED_CLEAR.search(low, 0, code) is not None and _RECORD.search(low) is None


def answers(low: str, is_name: Callable[[str], bool]) -> tuple[Part, ...]:
    """The answers to a clear that a line in small letters tells, in its order; none where it tells of no clear, or
    where what it says may be what the modules held. ``is_name``: whether a text is the name of a module."""
    if len(low) > _LONGEST or not signs.of(low) & _SIGNS or not _SURE.search(low) or uncleared.span(low) is not None:
        return ()
    pieces = list(_pieces(low))
    deed = next((at for at, (start, end) in enumerate(pieces)
                 if _tells_clear(low, start, end) or _TRIED.search(low, start, end)), None)
    if deed is None:
        return ()
    told = _Told(low, is_name)
    if is_name(of := _bare(_CLEARED.sub("", low[slice(*pieces[deed])]))):
        # "SRS clear: refused"
        told.wait(low.find(of, pieces[deed][0]), of)
    # "SRS refused, rest cleared"
    first = 0 if _of(low[slice(*pieces[deed])], is_name) is not None else deed + 1
    for at in range(first, len(pieces)):
        if not told.take(*pieces[at]):
            return ()
    return tuple(told.parts) if told.sure else ()


def unnamed(low: str) -> tuple[int, int] | None:
    """Where a line in small letters says that one refused who is no person, no code and not all of them; asked of a
    line that tells of a clear, without the answers that are told by name.

    >>> unnamed("cleared, thing under the seat refused, rest ok"), unnamed("cleared, customer refused a new battery")
    ((9, 37), None)
    >>> unnamed("cleared, all accepted, none refused"), unnamed("clear: refused"), unnamed("cleared, p0420 refused")
    (None, None, None)
    """
    if len(low) > _LONGEST:
        return None
    for start, end in _pieces(low):
        refused = _ONE_REFUSED.search(low, start, end)
        if refused is not None and low[start : refused.start()].strip(" :-") and not _NO_MODULE.search(
                low, start, refused.start()):
            return start, end
    return None


def heads(low: str) -> bool:
    """Whether a line tells of a clear and may head a list of the answers to it: "cleared 09:30, charger on:"."""
    return (len(low) <= _LONGEST and signs.of(low) & _SIGNS != 0 and uncleared.span(low) is None
            and _tells_clear(low, 0, len(low)))


def listed(low: str, is_name: Callable[[str], bool]) -> tuple[Part, bool] | None:
    """The answer of a line of such a list, and whether only a request is answered so; None for any other line.

    >>> names = ("ecm", "srs").__contains__
    >>> listed("srs: nrc 0x22", names), listed("ecm ok", names) is None, listed("ecm no codes", names)
    ((Part(start=0, end=13, who='srs', answer='refused', own=False), True), False, None)
    """
    found = _of(low, is_name) if len(low) <= _LONGEST_NAME + 40 else None
    if found is None or found[0] == _NOBODY:
        return None
    who, answer, sure = found
    if who and not is_name(who) and (answer == "accepted" or not sure or _NO_NAME.search(who) is not None):
        return None
    return Part(0, len(low), who, answer), sure


class _Told:
    """What the pieces of a line told so far."""

    def __init__(self, low: str, is_name: Callable[[str], bool]) -> None:
        self._low, self._is_name = low, is_name
        self._waiting: list[tuple[int, int]] = []
        #: The exception that further names may be of.
        self._except = False
        self.parts: list[Part] = []
        self.sure = False

    def wait(self, start: int, name: str) -> None:
        """Keep a name whose answer comes behind it."""
        self._waiting.append((start, start + len(name)))

    def take(self, start: int, end: int) -> bool:
        """Take one piece; False where it tells what modules held."""
        piece = self._low[start:end]
        if self.parts and self.parts[-1].answer == "refused" and _LEFT.fullmatch(piece):
            self.parts.append(Part(start, end, "", "refused", True))
            return True
        found = _of(piece, self._is_name)
        if found is not None:
            who, answer, sure = found
            self._except = answer == "refused" and _ENDS.search(piece) is None and bool(who)
            self._add(start, end, who, answer, sure)
            return True
        if self._is_name(_bare(piece)):
            if self._except:
                self._add(start, end, _bare(piece), "refused", True)
            else:
                self._waiting.append((start, end))
            return True
        if self.parts and self.parts[-1].answer == "refused" and _OF_IT.fullmatch(piece):
            self.parts.append(Part(start, end, "", "refused", True))
            return True
        self._waiting, self._except = [], False
        for at in range(len(piece)):
            if piece[at] in " :" and self._is_name(_bare(piece[:at])) and answer_of_cell(
                    piece[at:].strip(" :=-")) == "silent":
                self._add(start, end, _bare(piece[:at]), "refused", False)
                return True
        return not spoken(piece)

    def _add(self, start: int, end: int, who: str, answer: Answer, sure: bool) -> None:
        if who == _NOBODY and self._waiting:
            who, (start, _) = _bare(self._low[slice(*self._waiting[-1])]), self._waiting.pop()
        elif who == _NOBODY:
            if self.parts and self.parts[-1].answer == answer:
                self.parts.append(Part(start, end, "", answer, True))
            return
        known = not who or self._is_name(who)
        if not known and (answer == "accepted" or not sure or _NO_NAME.search(who) is not None):
            # "Battery ok", "codes would not clear": no module. "The box under the seat refused" is one, unnamed.
            self.sure |= answer == "refused" and unnamed(self._low) is not None
            return
        for name in self._waiting:
            self.parts.append(Part(*name, _bare(self._low[slice(*name)]), answer))
        self._waiting = []
        self.parts.append(Part(start, end, who, answer))
        self.sure |= sure


#: What refuses as well, or is refused.
_NO_NAME = lazily(
    r"[^a-z0-9 -]|^[^a-z]|(?<![a-z])(?:codes?|dtcs?|faults?|fehler|defauts?|averias?|it|they|them|this|that|he|she|i|"
    r"we|customer|owner|"
    r"driver|tool|scanner|tester|lamps?|lights?|light|key|memory|request|everything|nothing|none|some|on|off|"
    r"and)(?![a-z])|"
    r"(?:\S+ ){3}")
#: Stands for one that a piece doesn't name, or names by a pronoun alone.
_NOBODY = "?"
_THAT = ("that one", "this one", "it", "der", "die", "das", "dieses", "celui-ci", "lui", "il", "ese", "este")


def _pieces(low: str) -> Iterator[tuple[int, int]]:
    """The places of what stands between the marks of a line."""
    begin = 0
    for mark in _MARKS.finditer(low):
        if mark[0][0] == ":" and not _tells_clear(low, begin, mark.start()):
            continue
        if mark.start() > begin:
            yield begin, mark.start()
        begin = mark.end()
    if begin < len(low):
        yield begin, len(low)


def _tells_clear(low: str, start: int, end: int) -> bool:
    """Whether a piece tells of a clear that was done, or tried."""
    return any(not _BEFORE.search(low, max(0, each.start() - 14), each.start())
               for each in _CLEARED.finditer(low, start, end))


def _of(piece: str, is_name: Callable[[str], bool]) -> tuple[str, Answer, bool] | None:
    """Who answered in a piece, what, and whether only a request is answered so; None where it holds no such answer."""
    if (match := _PART.fullmatch(piece)) is not None:
        who = "" if match["rest"] or match["all"] else _NOBODY
    elif (match := _EXCEPT.fullmatch(piece) or _EXCEPTED.fullmatch(piece)) is not None:
        who = _bare(match["who"])
        return (who, "refused", True) if is_name(who) else None
    elif (match := _ENDS.search(piece)) is not None and 0 < match.start() <= _LONGEST_NAME:
        who = _bare(piece[: match.start()])
        who = _NOBODY if who in _THAT else who
    else:
        return None
    return who, "refused" if match["refused"] or match["weak"] else "accepted", not (match["well"] or match["weak"])


def _bare(name: str) -> str:
    """A name without the article before it and marks around it."""
    return _LEADS.sub("", _REQUEST.sub("", name.strip(" .:;,-=>*\"'"))).strip()


__all__ = ["Answer", "Part", "answers", "heads", "is_refusal", "listed", "refused_beside", "unnamed"]
