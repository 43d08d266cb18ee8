"""The clauses of running text, by the parts of its tokens: whose codes, which status, in either order.

A clause is told by the order of its parts alone, so that any verb and any filler may stand between them. What no form
fits is no clause.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from triage.intake.plain.patterns import lazily
from triage.intake.speech.tokens import SIGN, Token, kinds

#: A name: known or unknown words, with "of" among them, and an address behind.
_NP = r"t{0,2}[nx][nxy]{0,4}(?:d{1,2}t?[nx][nxy]{0,3}){0,2}q?"
_NAMES = rf"[il]*(?:ld)?{_NP}(?:,[il]*[pd]?{_NP})*(?:(?:,?&|,?l&?)[il]*[pd]?{_NP})*"
#: Behind the last name of a list: what would make it the subject of what follows.
_NO_SUBJECT = r"(?![iql]*(?:v|:|-[ik]*[cs]|w|a|[ik]*c|,?[il]*m))"
_ITEM = r"(?>k*c(?:i{0,2}[-,]?[ilpdek]*v?[ilptdek]*s+)?)"
#: Between two codes; what takes the one before back among them.
_THEN = r"(?:[,&i]{0,3}|[,.-]{0,2}[iux,]{0,3}r[iuxvtd,:]{0,6})"
CODES = rf"(?:k*s+:?k*(?={_ITEM}))?{_ITEM}(?:{_THEN}(?:(?:s+:?)?{_ITEM}))*(?:i{{0,2}}[,-]?[itvkldpe&]*s+)?"
#: The same, statuses between semicolons among them, where no name stands before.
LISTED = CODES.replace("[,&i]{0,3}|", "[,&i]{0,3}|(?<=s);&?|")
#: A name that is taken back at once: "the A, no, B has P0562".
_FIRST_ONE = rf"(?:[i&vk]*[pdw]*{_NP}[,-]i?(?:r|u[,.-])[iru,:-]*)?"
#: The forms, the likelier reading of the same letters first; a form ends where what follows would be told otherwise.
_FORMS: tuple[tuple[str, re.Pattern[str]], ...] = tuple((form, lazily(pattern)) for form, pattern in (
    # "nothing in A and B", "no answer from A"
    ("answer first", rf"[ik&v]*(?P<a>a)(?P<p>[ivk]*[pdw]?)(?P<n>{_NAMES}){_NO_SUBJECT}"),
    # "the A is clean", "in A nothing", "A: no answer"
    ("name answer", rf"{_FIRST_ONE}[i&vk]*[pdw]*(?P<n>{_NAMES})(?P<j>l?[il,]*[:-]?[il&v]*)(?P<a>a)[pivt]{{0,3}}"
                    rf"(?![pdw]*t*[nx]|,?k*c)"),
    # "P0562 stored in A and B", "what A gives": the place behind the codes
    ("codes first", rf"[i&kt:]*v[i&vkt]*(?P<c>{CODES})[,]?[ivtk]*d(?P<n>{_NAMES})"
                    rf"(?:[,-]?[iltvkdpe]*(?P<s>s)(?![:])|[vi]*)(?![iqlv]*(?:a|:|[ik]*c))"),
    ("codes first", rf"[i&vkt:]*(?P<c>{LISTED})[,]?(?:[ivtk]*[pw]+|[i]*v[id]*d|,?[ivt]*)(?<=[pdv])(?P<n>{_NAMES})"
                    rf"(?:[,-]?[iltvkdpe]*(?P<s>s)(?![:])|[vi]*)(?![iqlv]*(?:a|:|[ik]*c))"),
    # "pending in A: P0562"
    ("status first", rf"[i&vkt]*(?P<z>s+)[ikvt]*[pdw](?P<n>{_NAMES})[,:-]?[iv]*(?P<c>{CODES})(?![ivtk]*[pd]t*[nx])"),
    # "A has P0562 stored", "in A there is P0562"; with codes no place is told of behind them
    ("name first", rf"{_FIRST_ONE}[i&vk]*[pdw]*(?P<n>{_NAMES})l?(?P<j>[ilk,&]*[ivw][ivwklpt,&]*[:,-]?|[k]*[:,-]|q?)k*"
                   rf"(?P<c>{CODES})(?![ivtk]*[pd]t*[nx])"),
    # "expected P0562 in A but it was U0100", "thought A was clean but no, U0100"
    ("expected", rf"[ivt&]*h[ivt]*(?:k*c[ivt]*[pd]+(?P<n>{_NAMES})|(?P<m>{_NAMES})[vix]*a)[,]?[iurvxt&,]{{1,7}}"
                 rf"(?:(?P<c>{CODES})|(?P<a>a))(?![ivtk]*[pd]t*[nx])"),
    # "And A? P0562 stored", "A? no answer"
    ("asked", rf"[ivk&pdwtlxa]{{0,9}}?(?P<n>{_NAMES})[vikt,x]{{0,4}}\?[ivkp&,]*(?:(?P<c>{CODES})|(?P<a>a))[.]?"
              rf"(?![ivtk]*[pd]t*[nx])"),
    # "the same in B", "B likewise"
    ("same", rf"[i&vt]*m[ikvts]*(?!e)[pw]*(?P<n>{_NAMES}){_NO_SUBJECT}"),
    ("same behind", rf"[i&]*p?(?P<n>{_NAMES})[vit,]*m(?![a-z])"),
))
#: What parts clauses.
_APART = lazily(r"[,.;?&-]*")
#: A status that heads a list, and what makes a clause an entry as a list has it: "ABS: P0562".
_HEADED = lazily(r"[iktu]*s:")
_PLAIN = lazily(r"[kit,:q-]*")
#: An answer told twice: "all clear, no codes".
_AGAIN = lazily(r"[,i&]{1,3}a(?![pdw]*t*[nx])")
#: No clause has more tokens.
_FARTHEST = 120
_PAIR = 2


@dataclass(slots=True)
class Clause:
    """What a clause says: the tokens of its names, each with what it is called by; its codes, or its answer."""

    start: int
    end: int
    form: str
    names: list[tuple[int, int]]
    #: The status that heads it and, up to the end of the sentence, others: "Stored: P0562 in A; U0100 in B".
    head: Token | None = None
    #: It says no more than a name, a mark, and what follows.
    plain: bool = False
    codes: list[tuple[Token, Token | None]] = field(default_factory=list)
    answer: str = ""


#: Whether tokens from one to before another are the name of a module, by ``loose``: where only a name may stand.
IsName = Callable[[Sequence[Token], bool], bool]


def clauses(found: Sequence[Token], is_name: IsName) -> tuple[list[Clause], list[tuple[int, int]]]:
    """The clauses of a line and the stretches of tokens that are none. Linear: a form sees a sentence at the most."""
    kind = kinds(found)
    told: list[Clause] = []
    left: list[tuple[int, int]] = []
    at, began = 0, 0
    while at < len(kind):
        parting = _APART.match(kind, at)
        start = parting.end() if parting is not None else at
        if start >= len(kind):
            break
        # "U0140 no communication with A" describes a code.
        described = start and start == at and kind[start - 1 : start + 1] == "ca"
        clause = None if described else _clause(found, kind, start, is_name)
        if clause is not None:
            if began < start:
                left.append((began, start))
            _go_on(kind, told[-1] if told else None, clause)
            told.append(clause)
            clause.end = _taken_back(found, kind, clause, is_name)
            at = began = clause.end
            continue
        at = next((to for to in range(start + 1, len(kind)) if _may_begin(kind, to)), len(kind))
    if began < len(kind):
        left.append((began, len(kind)))
    return told, left


#: What takes back a name, what takes back an answer, and what denies another name or code.
_OTHER_NAME = lazily(rf"[,.;-]*[iu,]*r[riuxv,tk:]{{0,8}}?(?:u[pdt]*(?P<wrong>{_NP})[,.:;-]+)?"
                     rf"(?P<to>[iv&pdk]*(?P<n>{_NP}))[iv]*(?=[,.;-]|$)")
_NOT_THERE = lazily(rf"[,.;-]*u[pdt]+(?P<wrong>{_NP})[,.:;-]+[iv]*(?P<to>[iv&pdk]*(?P<n>{_NP}))[iv]*(?=[,.;-]|$)")
_OTHER_ANSWER = lazily(r"[,.;-]*[iu,]*(?:r|u[,.:-])[^ca.;n]{0,10}(?P<a>a)[ivt]*(?=[,.;-]|$)")
#: "did not answer at first, second try gave P0562"
_AT_LAST = lazily(rf"[,-]?[^nca.;]{{0,10}}g[^nca.;]{{0,6}}(?P<c>{CODES})(?![ivtk]*[pd]t*[nx])")
_DENIED = lazily(rf"[,-]*&?u[ipd]*(?:{_NP}|k*c)i*(?=[,.;)]|$)")


def _taken_back(found: Sequence[Token], kind: str, clause: Clause, is_name: IsName) -> int:
    """Where a clause ends with what takes back its name or its answer, which are then the other ones."""
    end = clause.end
    if clause.answer and (match := _OTHER_ANSWER.match(kind, end, end + 30)) is not None:
        clause.answer = found[match.start("a")].said
        return match.end()
    if clause.answer == "silent" and (match := _AT_LAST.match(kind, end, end + 60)) is not None:
        clause.answer, clause.codes = "", _with_status(found, kind, match)
        return match.end()
    for form in (_OTHER_NAME, _NOT_THERE):
        match = form.match(kind, end, end + 30)
        if match is None:
            continue
        (name,) = list(_names(found, kind, *match.span("n")))[:1]
        sure = match["n"].startswith("t") or match["wrong"] is not None or "p" in match["to"]
        if is_name(found[name[0] : name[1]], sure):
            clause.names = [*clause.names[:-1], name]
            return match.end()
    match = _DENIED.match(kind, end, end + 30) if clause.codes else None
    return match.end() if match is not None else end


def _go_on(kind: str, before: Clause | None, clause: Clause) -> None:
    """The status that headed the clause before is also that of this one in the same sentence."""
    if before is None or before.head is None or clause.head is not None or set(kind[before.end : clause.start]) - {
            ";", ",", "&"}:
        return
    clause.head = before.head
    clause.codes = [(code, status or before.head) for code, status in clause.codes]


def _may_begin(kind: str, at: int) -> bool:
    """Whether a clause may begin at a token: behind a mark or a filler, or with an article or a place."""
    return kind[at - 1] in ",.;?:-iq&ry" or (
        kind[at] in "tp" and kind[at - 1] not in "xn") or (kind[at] in "ca" and kind[at - 1 : at + 1] != "ca")


def _clause(found: Sequence[Token], kind: str, start: int, is_name: IsName) -> Clause | None:
    """The clause that begins at a token; None where no form fits with names of modules."""
    end = kind.find("?", start)
    until = min(end if end >= 0 else len(kind), start + _FARTHEST)
    for form, pattern in _FORMS:
        match = pattern.match(kind, start, start + _FARTHEST if form == "asked" else until)
        if match is None:
            continue
        place = "n" if match["n"] is not None else "m"
        loose = form in ("answer first", "codes first", "same") or match[place] != match[0]
        names = list(_names(found, kind, *match.span(place)))
        if len(names) == _PAIR and found[names[0][1]].said == SIGN and is_name(found[names[0][0] : names[1][1]], False):
            names = [(names[0][0], names[1][1])]
        if form.startswith("name") and len(names) > 1 and set(kind[names[0][0] : names[-1][1]]).isdisjoint("&l"):
            # "no way into the A, the B is fine, C has P0562"
            continue
        if len(names) > 1 and "&" not in kind[names[0][0] : names[-1][1]] and not all(
                "n" in kind[one:two] for one, two in names):
            # "Hello, the A has P0562"
            continue
        if not names or not all(is_name(found[one:two], loose and _framed(form, match)) for one, two in names):
            continue
        plain = form.startswith("name") and _PLAIN.fullmatch(match["j"]) is not None
        clause = Clause(start, match.end(), form, names, plain=plain)
        if "c" in match.groupdict() and match["c"] is not None:
            clause.codes = _with_status(found, kind, match)
            headed = _HEADED.match(kind, start)
            clause.head = found[headed.end() - 2] if headed is not None else None
        if "a" in match.groupdict() and match["a"] is not None:
            clause.answer = found[match.start("a")].said
            while (again := _AGAIN.match(kind, clause.end)) and found[again.end() - 1].said == clause.answer:
                clause.end = again.end()
        return clause
    return None


def _framed(form: str, match: re.Match[str]) -> bool:
    """Whether words stand around a name that only stand around names: an article, a verb, a place, a colon."""
    if form == "name first":
        return bool(re.search("[vw:-]", match["j"])) or match["n"].startswith("t")
    if form == "answer first":
        return match["p"] != "" or match["n"].startswith("t")
    if form == "name answer":
        return ("," not in match["j"] and bool(re.search("[v:-]", match["j"]))) or match["n"].startswith("t")
    return True


def _names(found: Sequence[Token], kind: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    """The names of a list, each without what stands before it."""
    for match in re.finditer(_NP, kind[start:end]):
        one, two = start + match.start(), start + match.end()
        while kind[one] == "t":
            one += 1
        yield one, two - 1 if kind[two - 1] == "q" else two


def _with_status(found: Sequence[Token], kind: str, match: re.Match[str]) -> list[tuple[Token, Token | None]]:
    """The codes of a clause with their statuses: each its own; one before them, or behind the last, is that of all that
    have none."""
    start, end = match.span("c")
    last = next((found[match.start(key)] for key in ("s", "z") if match.groupdict().get(key)), None)
    return statuses(found[start:end], last)


def statuses(found: Sequence[Token], last: Token | None = None) -> list[tuple[Token, Token | None]]:
    """The codes of a list with their statuses; ``last``: that of those which have none."""
    part = [each for each in found if each.kind in "csr"]
    led = next((each.kind for each in part if each.kind in "cs"), "c") == "s"
    pairs: list[tuple[Token, Token | None]] = []
    taken_back = False
    ahead: Token | None = None
    for each in part:
        if each.kind == "r":
            taken_back = True
        elif each.kind == "c":
            if taken_back and pairs:
                pairs.pop()
            taken_back = False
            pairs.append((each, ahead if led else None))
        elif each.kind == "s" and led:
            ahead = each
        elif each.kind == "s":
            _close(pairs, each)
    if last is not None:
        _close(pairs, last)
    return pairs


def _close(pairs: list[tuple[Token, Token | None]], status: Token) -> None:
    """A status for the codes before it that have none; a second one behind a code changes nothing."""
    for at in range(len(pairs) - 1, -1, -1):
        if pairs[at][1] is not None:
            break
        pairs[at] = (pairs[at][0], status)
        if status.bracketed:
            break


__all__ = ["LISTED", "Clause", "clauses", "statuses"]
