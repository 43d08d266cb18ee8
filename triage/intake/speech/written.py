"""Lines of running text written out: for each clause that tells of modules a line that names the module first, and what
stands between them in lines of its own. A line with a code that no clause holds is left as it is.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> text = "battery 11.4, P0562 and U0100 stored in the ABS, nothing in radio and EPS. The light bar shows U0073"
>>> for line in told(lines(text), Names(load())):
...     print(line.text)
battery 11.4
ABS: P0562 stored, U0100 stored
radio: no codes
EPS: no codes
light bar: U0073
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from triage.intake.lines.glue import lines_glued, together
from triage.intake.naming.names import Names
from triage.intake.plain.characters import Line, line_of
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD
from triage.intake.said.states import slip_for
from triage.intake.speech import paragraphs
from triage.intake.speech.grammar import LISTED, Clause, IsName, clauses, statuses
from triage.intake.speech.tokens import Token, kinds, tokens
from triage.intake.words import clause_words

#: Marks of tables and of entries: no running text.
_TABLE = lazily(r"\t|\||\S {3,}\S|[;,]{2}|\w=[\w\"']|==")
_PLAIN = lazily(r"[nx]*q?:[ckslia,&-]*\.?")
_LIKE = lazily(r"m[^.]{0,6}e|e[^.]{0,6}m")
_SAYS = lazily(r"[cqanxy]")
#: A question for one module, and an answer that names none.
_ASKED = lazily(r"(?:[ivk&,ptdwlma]|x(?=[ivptdwxn])){0,9}?(?P<n>t{0,2}[nx]{1,4}(?:dt?[nx]{1,3})?)[viktlpa]{0,4}\?[?.]*")
_REPLY = lazily(rf"[ivk&,.tux-]{{0,6}}?(?:(?P<c>{LISTED})|(?P<a>a)[iv]*)[.;]*")
#: "none of these codes is active, all stored", "all of the above in memory, none active"
_CLOSING = lazily(r"[iatdkuevx]{0,7}s?[^ncal]{0,2}(?:l[ldtkxie]*)(?P<s>s)(?:[,]?[iatukxvd]*s?)?")
_PLAINLY = {"current": "active", "stored": "stored", "pending": "pending", "confirmed": "confirmed"}
#: What is said of the other codes or modules: others read that.
_OF_REST = lazily(
    r"(?<![a-z])(?:(?:the|all|every|der|die|alle|le|el|los|las) (?:rest|others?|remaining|ubrigen|anderen|weiteren|"
    r"reste|autres|resto|demas)|alles andere|everything else|tout le reste|todo lo demas)(?![a-z])")
_NOTHING = lazily(r"(?:no[, ]+|nope[, ]+)?(?:nothing|nichts|rien|nada|nix|none|keine?|aucune?|ninguno?)"
                  r"(?: at all| in there| there| drin| da| du tout| de nada)?[.!]*")
_MEANT = {"silent": "no answer", "clean": "no codes", "not fitted": "not fitted", "not scanned": "not scanned"}
_MOST_WORDS, _LONGEST, _SHORT, _CELLS, _SHORTEST = 4, 6000, 100, 3, 6


def told(found: Sequence[Line], names: Names) -> list[Line]:
    """The lines with their clauses written out."""
    mended: list[Line] = []
    asked: Line | None = None
    torn = paragraphs.torn(found)
    for at, line in enumerate(found):
        if at in torn:
            asked = None
            mended.append(line)
            continue
        if asked is not None and line.text.strip():
            answered = _answered(asked, line, names)
            if answered is not None:
                mended[-1] = answered
                asked = None
                continue
        asked = line if line.text.rstrip().endswith("?") and len(line.text) <= _SHORT else None
        mended += _written(line, names) if _may_speak(line) else (line,)
        if asked is not None and mended[-1] is not line:
            asked = None
    return mended


def _answered(asked: Line, line: Line, names: Names) -> Line | None:
    """A question for a module with its answer in the line below; None where they are none."""
    said = tokens(asked.text, asked.low, names)
    match = _ASKED.fullmatch(kinds(said))
    told = tokens(line.text, line.low, names)
    reply = _REPLY.fullmatch(kinds(told))
    nothing = _NOTHING.fullmatch(line.low.strip()) is not None
    if match is None or (reply is None and not nothing):
        return None
    name = said[match.start("n") : match.end("n")]
    name = name[1:] if name[0].kind == "t" else name
    if not name or not namer(asked.text, asked.low, names)(name, True):
        return None
    lead = together((asked, name[0].start, name[-1].end), ": ")
    if reply is None:
        return together((asked, name[0].start, name[-1].end), ": no codes")
    if reply["a"]:
        return together((asked, name[0].start, name[-1].end), f": {_MEANT[told[reply.start('a')].said]}")
    pairs = statuses(told[reply.start("c") : reply.end("c")])
    row = _codes(line, pairs)
    return lines_glued(lead, row)


def _may_speak(line: Line) -> bool:
    """Whether a line may be running text."""
    text = line.text.strip()
    return (" " in text and len(text) <= _LONGEST and (text.count(",") < _CELLS or ", " in text)
            and _TABLE.search(text) is None and _OF_REST.search(line.low) is None)


def _written(line: Line, names: Names) -> list[Line]:
    """One line, its clauses written out where all its codes stand in clauses."""
    found = tokens(line.text, line.low, names)
    kind = kinds(found)
    if _PLAIN.fullmatch(kind) or not ("c" in kind or "a" in kind):
        return [line]
    said, left = clauses(found, namer(line.text, line.low, names))
    if all(each.plain for each in said) or (len(said) == 1 and not said[0].codes):
        return [line]
    if any(_LIKE.search(kind, one, two) for one, two in left):
        # "A: the same two as B": others read that, and need what is said of B where it stands.
        return [line]
    said, left = _sentences(kind, said, left)
    if not said:
        return [line]
    pieces: list[tuple[int, list[Line]]] = [
        (start, _rest(line, found[start:stop])) for one, two in left for start, stop in _apart(kind, one, two)]
    before: Clause | None = None
    for clause in said:
        if clause.form.startswith("same"):
            if before is None:
                return [line]
            clause.codes, clause.answer = before.codes, before.answer
        before = clause
        pieces.append((clause.start, [_row(line, found, clause, name) for name in clause.names]))
    return [each for _, part in sorted(pieces, key=lambda piece: piece[0]) for each in part]


def _apart(kind: str, start: int, end: int) -> list[tuple[int, int]]:
    """A stretch of tokens parted at its full stops."""
    stops = [at + 1 for at in range(start, end) if kind[at] == "."]
    edges = sorted({start, *stops, end})
    return list(pairwise(edges))


def _sentences(
    kind: str, said: Sequence[Clause], left: Sequence[tuple[int, int]]
) -> tuple[list[Clause], list[tuple[int, int]]]:
    """The clauses without those of sentences of which a code, or an answer with its name, is in no clause; such
    sentences stay whole."""
    left = [(one, two) for each in left for one, two in [_trimmed(kind, *each)] if one < two]
    bad = [_sentence(kind, one, two) for one, two in left
           if "c" in (rest := kind[one:two]) or ("n" in rest and ("a" in rest or "m" in rest))]
    if not bad:
        return list(said), list(left)
    whole: list[tuple[int, int]] = []
    for one, two in sorted(bad):
        begun, ended = whole.pop() if whole and one < whole[-1][1] else (one, two)
        whole.append((begun, max(two, ended)))
    kept = [each for each in said if not any(one < each.end and each.start < two for one, two in whole)]
    others = [(one, two) for one, two in left if not any(start <= one and two <= stop for start, stop in whole)]
    return kept, sorted([*others, *whole])


def _trimmed(kind: str, start: int, end: int) -> tuple[int, int]:
    """A stretch without the marks at its ends."""
    while start < end and kind[start] in ",.;&-":
        start += 1
    while start < end and kind[end - 1] in ",.;&-":
        end -= 1
    return start, end


def _sentence(kind: str, start: int, end: int) -> tuple[int, int]:
    """The sentence around a stretch of tokens."""
    before, after = kind.rfind(".", 0, max(start, 0)), kind.find(".", max(end - 1, start))
    return before + 1, after + 1 if after >= 0 else len(kind)


def _rest(line: Line, found: Sequence[Token]) -> list[Line]:
    """What stands between clauses, in a line of its own, without the words that only join."""
    found = list(found)
    while found and found[0].kind in ",.;&-?:)":
        found.pop(0)
    while found and found[-1].kind in ",;&-i.?":
        found.pop()
    closing = _CLOSING.fullmatch(kinds(found))
    if closing is not None:
        # "none of these is active, all stored"
        status = found[closing.start("s")]
        said = _PLAINLY.get(status.said) if "perman" not in line.low[status.start : status.end] else None
        return [_joined(line, [(status.start, status.start + 1, f"All of them {said}")] if said else [
            (status.start, status.start + 1, "All of them "), (status.start, status.end, None)])]
    if not found or not any(_SAYS.match(token.kind) for token in found):
        return []
    return [_cut(line, found[0].start, found[-1].end)]


def _row(line: Line, found: Sequence[Token], clause: Clause, name: tuple[int, int]) -> Line:
    """A line that names a module and tells what the clause says of it."""
    first, last = found[name[0]], found[name[1] - 1]
    parts: list[tuple[int, int, str | None]] = [(first.start, last.end, None)]
    if clause.answer:
        parts.append((last.end - 1, last.end, f": {_MEANT[clause.answer]}"))
        return _joined(line, parts)
    parts.append((last.end - 1, last.end, ": "))
    return _joined(line, [*parts, *_listed(clause.codes)], _own(line, clause.codes))


def _listed(pairs: Sequence[tuple[Token, Token | None]]) -> list[tuple[int, int, str | None]]:
    """The pieces of a list of codes, each with its status."""
    parts: list[tuple[int, int, str | None]] = []
    for at, (code, status) in enumerate(pairs):
        if at:
            parts.append((code.start, code.start + 1, ", "))
        parts.append((code.start, code.end, None))
        if status is not None:
            parts.append((status.start, status.start + 1, " "))
            parts.append((status.start, status.end, None))
    return parts


def _own(line: Line, pairs: Sequence[tuple[Token, Token | None]]) -> frozenset[str]:
    """The makers' own numbers among codes."""
    return frozenset(line.text[code.start : code.end].split()[0] for code, _ in pairs if code.said == "own")


def _codes(line: Line, pairs: Sequence[tuple[Token, Token | None]]) -> Line:
    """A line of codes alone, each with its status."""
    return _joined(line, _listed(pairs), _own(line, pairs))


def _cut(line: Line, start: int, end: int) -> Line:
    """A piece of a line as a line."""
    return _joined(line, [(start, end, None)])


def _joined(
    line: Line, parts: Sequence[tuple[int, int, str | None]], own: frozenset[str] = frozenset()
) -> Line:
    """A line of pieces of another: of its own characters, or of others that stand for the place of one."""
    places = line.offsets or range(len(line.text))
    text: list[str] = []
    offsets: list[int] = []
    for start, end, written in parts:
        text.append(line.text[start:end] if written is None else written)
        offsets += places[start:end] if written is None else [places[start]] * len(written)
    found = line_of(line.number, line.raw, "".join(text), tuple(offsets), line.own | own)
    found.work = line.work
    return found


def namer(text: str, small: str, names: Names) -> IsName:
    """Whether tokens of a text are a name: a listed one or one alike, or ``loose``, where only names may stand, some
    words that nobody lists."""

    def is_name(found: Sequence[Token], loose: bool) -> bool:
        start, end = found[0].start, found[-1].end
        name, words = text[start:end], WORD.findall(small[start:end])
        if any(token.kind == "y" and not small[token.start : token.end].isdigit() for token in found):
            # "lowest 9.9 V"
            return False
        if not clause_words.NO_NAMES.isdisjoint(words) or all(
                word.isdigit() or word in clause_words.THINGS for word in words):
            return bool(words) and found[0].kind == "n" and names.listed(name)
        if all(token.kind == "n" for token in found) or names.score(names.bare(name)) >= 60.0:
            return True
        if name.isupper() and 1 < len(name) <= _SHORTEST and len(words) == 1 and not text.isupper():
            return True
        if found[0].kind == "n" and found[-1].kind == "x" and text[found[-1].start].islower():
            # "The headlamp first looked dead"
            return False
        return loose and len(words) <= _MOST_WORDS and len(words[0]) > 1 and slip_for(words[-1]) is None

    return is_name


__all__ = ["namer", "told"]
