"""Several modules in a line with strokes, bars or semicolons between them, with codes or an answer: a line each.

>>> from triage.intake.lines.rows import rows_of
>>> known = {"pcm", "bcm", "abs"}
>>> names_of = lambda low: [(at, at + 3, True) for at in range(len(low)) if low[at : at + 3] in known]
>>> names = lambda low: [(0, 3, True)] if low[:3] in known else []
>>> [row.text for row in parted(rows_of("pcm ok / bcm b1517 / abs no answer"), names)]
['pcm ok', 'bcm b1517', 'abs no answer']
>>> [row.text for row in parted(rows_of("pcm none  bcm none abs c0035 stored"), names_of)]
['pcm none', 'bcm none', 'abs c0035 stored']
>>> [row.text for row in parted(rows_of("pcm p0118 short / open\\nabs c0035 / wheel ok"), names)]
['pcm p0118 short / open', 'abs c0035 / wheel ok']
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Callable, Sequence

from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, words
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import answer_of_cell, rest_of, spoken
from triage.intake.said.near import small
from triage.intake.tidying.scanlead import dated, is_lead
from triage.intake.words.vocabulary import ANSWERS

_MARKS = (re.compile(r"\s+/\s+"), re.compile(r"\s*\|\s*"), re.compile(r"\s*;\s+"), re.compile(r"\s*/\s*"),
          re.compile(rf"\.{NOT_SHORT}\s+"))
#: An answer that heads the list of its modules.
_HEADS = lazily(r"([^:;,./]{4,40}):\s")
#: Two strokes, but not those of an address.
_STROKES = lazily(r"\s*(?<!:)//+\s*")
#: Between a name and its codes or its answer.
_LINK = lazily(r"[\s:=>-]+")
#: Behind a scan in a line.
_SENTENCE = lazily(r"\s{2,}|\s*\|\s*|[.;]\s+")
#: A short name that no table knows, a word of an answer, and what stands behind one.
_CAPITALS = lazily(r"[A-Z][A-Z0-9]{1,5}(?![A-Za-z0-9])")
_WORD = lazily(r"[a-z/]+")
_GAP = lazily(r"[\s,;.]*")
_OTHERS = lazily(r"(?<![a-z])(?:(?:all |the )?others|(?:the )?rest|alle anderen|die anderen|les autres|los demas)"
                 r"(?= (?:none|ok|okay|clean|no |keine|ohne|rien|sin |nada|aucun))")
_VOLTS = lazily(r"[0-9]{1,2}(?:[.,][0-9]{1,2})? ?v(?:olts?)?(?![a-z0-9])")
_SHORT = lazily(r"[a-z]{2,4}")
_LONGEST, _MOST, _LONGEST_LEAD, _LONGEST_ANSWER = 1200, 48, 60, 30
Find = Callable[[str], Sequence[tuple[int, int, bool]]]


def parted(rows: Sequence[Row], names: Find, is_like: Callable[[str], bool] = lambda name: False) -> list[Row]:
    """The rows, such lines as one row a module. ``names`` finds the names of modules in a text, ``is_like`` tells what
    is like one; of two modules both must be known by more than a plain word."""
    found: list[Row] = []
    beside = any(_heads_scans(row) for row in rows)
    for row in rows:
        coded = bool(row.finds.codes) and len(row.text) <= _LONGEST
        spans = _by_strokes(row, names) if "//" in row.text and len(row.text) <= _LONGEST else ()
        spans = spans or ((_led(row.low) or _spans(row, names, is_like, beside) or _chain(row, names)) if coded else ())
        if spans:
            found += [Row(row.line, row.text[start:end], row.start + start) for start, end in spans]
        else:
            found.append(row)
    return found


def _by_strokes(row: Row, names: Find) -> Sequence[tuple[int, int]]:
    """Where the modules of a line stand that two strokes part, as nothing else does in it: each part tells codes or an
    answer, and half of them begin with a known name ("ABS: C0035 // Winch: no codes"); or what the supply was."""
    cuts = [match.span() for match in _STROKES.finditer(row.text)]
    if not 1 <= len(cuts) < _MOST:
        return ()
    starts, ends = [0, *(end for _, end in cuts)], [*(start for start, _ in cuts), len(row.text)]
    spans = [(start, end) for start, end in zip(starts, ends, strict=True) if start < end]
    codes = [code.start for code in row.finds.codes]
    known = measured = 0
    date, behind = dated(row.low[: spans[0][1]])
    lead = behind or _lead(row.low, spans[0][1])
    for start, end in spans:
        low = row.low[max(start, lead) : end]
        if not start and not lead and is_lead(low.strip()):
            # "after clear // ABS: C0035 // ..."
            measured += 1
            continue
        named = [name[1] for name in names(low) if not name[0]]
        known += bool(named)
        keyed = bool(named) and low[named[0] :].lstrip()[:1] in (":", "=", "-")
        if bisect_left(codes, start) == bisect_left(codes, end) and not (keyed or spoken(low)):
            if named or not (has_digit(low) and volts.find(low)):
                return ()
            measured += 1
    if not known or 2 * known < len(spans) - measured:
        return ()
    # "06.07.2024: ABS C0035 // Radio: no codes" is a scan of that day.
    return [(0, date), (behind, spans[0][1]), *spans[1:]] if date else spans


def _chain(row: Row, names: Find) -> Sequence[tuple[int, int]]:
    """Where the modules of a line stand that nothing but their answers parts, up to the one with codes and behind it:
    "PCM none  BCM none ABS C0035 stored TCM none"; half of them are known by more than a plain word."""
    first, last = row.finds.codes[0].start, row.finds.codes[-1].end
    # To find names takes less time than to find answers.
    named = {start: (end, sure) for start, end, sure in names(row.low)}
    if not named or not spoken(row.low):
        return ()
    # What tells the scan before them stays with the first: "after run 20 min: PCM P0335 confirmed, BCM none".
    colon = row.low.rfind(": ", 0, first)
    lead = colon + 2 if colon > 0 and phases.find(row.low[:colon]) is not None else 0
    starts, known = _pairs(row, lead, first, named)
    if not starts or starts[-1] < 0:
        starts = [lead]
    rest = _OTHERS.search(row.low, last)
    told = [*(start for start in named if start >= last), *([rest.start()] if rest is not None else [])]
    for at in sorted(told)[:1]:
        behind, others = _pairs(row, at, len(row.low), named)
        told_of = row.low[last:at].strip(" ,;.")
        # "B1305 Sunload sensor left  not present" is one code with its description.
        led = starts[-1] in named and (told_of or len(behind) > 2)
        if behind and behind[-1] < 0 and led and "/" not in told_of and _is_status(told_of):
            starts, known = [*starts, *behind[:-1]], known + others + (len(starts) == 1)
    if len(starts) < 2 or 2 * known < len(starts):
        return ()
    starts[0] = 0
    return [(start, start + len(row.text[start:stop].rstrip(" ,;.")))
            for start, stop in zip(starts, [*starts[1:], len(row.text)], strict=True)]


def _pairs(row: Row, at: int, stop: int, named: dict[int, tuple[int, bool]]) -> tuple[list[int], int]:
    """Where names begin that stand one behind the other, each with its answer, from a place up to ``stop``: the last
    may stand right before it; -1 ends them where all have answers. None where something else stands there; and how many
    of them are known."""
    starts: list[int] = []
    known = 0
    while at < stop:
        token = _OTHERS.match(row.low, at) or _CAPITALS.match(row.text, at)
        end, sure = named.get(at, (token.end() if token is not None else at, False))
        link = _LINK.match(row.low, end, stop) if end > at else None
        if link is None:
            return [], 0
        starts.append(at)
        known += sure
        if link.end() == stop:
            return starts, known
        ends = [word.end() for word in _WORD.finditer(row.low, link.end(), min(stop, link.end() + _LONGEST_ANSWER))]
        answered = next((end for end in ends[2::-1] if answer_of_cell(row.low[link.end() : end]) is not None), None)
        gap = _GAP.match(row.low, answered) if answered is not None else None
        if gap is None:
            return [], 0
        at = gap.end()
    return [*starts, -1], known


def _is_status(low: str) -> bool:
    """Whether nothing but a status stands in a text, and perhaps a voltage."""
    bare = _VOLTS.sub(" ", low).strip(" ,;.")
    return not bare or states.of_cell(bare) is not None


def _led(low: str) -> Sequence[tuple[int, int]]:
    """Where the scans of a line stand that each begin with words for the scan: "Before clear: ECM P0562. After clear:
    none"; () for any other line."""
    colon = low.find(":", 0, _LONGEST_LEAD)
    if colon < 0 or low.find(":", colon + 1) < 0 or not is_lead(low[:colon]):
        return ()
    starts = [0, *(match.end() for match in _SENTENCE.finditer(low) if _lead(low[match.end() :], _LONGEST_LEAD))]
    ends = [*starts[1:], len(low)]
    return [(start, start + len(low[start:end].rstrip(" |;"))) for start, end in zip(starts, ends, strict=True)
            ] if len(starts) > 1 else ()


def _heads_scans(row: Row) -> bool:
    """Whether a row with bars heads scans that stand side by side."""
    parts = [part for part in row.low.split("|") if part.strip()] if "|" in row.low else []
    return len(parts) > 1 and not row.finds.codes and sum(phases.find(part.strip()) is not None for part in parts) > 1


def _spans(row: Row, names: Find, is_like: Callable[[str], bool], beside: bool) -> Sequence[tuple[int, int]]:
    """Where the modules of a line stand; () where it is no such line. ``beside``: bars part scans in this text."""
    if not any(mark in row.text for mark in ("/", "|", ";", ". ")):
        return ()
    for mark in _MARKS:
        cuts = [match.span() for match in mark.finditer(row.text)]
        if not 1 <= len(cuts) < _MOST or (beside and "|" in row.text):
            continue
        starts, ends = [0, *(end for _, end in cuts)], [*(start for start, _ in cuts), len(row.text)]
        spans = [(start, end) for start, end in zip(starts, ends, strict=True) if start < end]
        lead = _lead(row.low, spans[0][1])
        kinds: list[str] = []
        for start, end in spans:
            kind = _kind(row, max(start, lead), end, names, is_like, len(spans) > 2)
            if kind is None:
                break
            kinds.append(kind)
        if kinds.count("volts") > 1:
            continue
        few = kinds.count("unknown") * 2 < len(kinds) + (len(kinds) > 3)
        if len(kinds) == len(spans) and "answer" in kinds and few and (
                len(kinds) > 2 or "unknown" not in kinds) and len(kinds) > 1:
            return spans
    return ()


def _lead(low: str, stop: int) -> int:
    """Where the first module begins behind words for the scan: "After clear: ECM ok / ABS C0035"."""
    colon = low.find(":", 0, stop)
    if colon < 0 or not is_lead(low[:colon]):
        return 0
    return colon + 1 + len(low[colon + 1 :]) - len(low[colon + 1 :].lstrip())


def _kind(row: Row, start: int, end: int, names: Find, is_like: Callable[[str], bool], several: bool) -> str | None:
    """Whether a part of a line is a module with its codes ("codes") or with its answer ("answer"), one that no table
    knows with either ("unknown"), or what the supply was ("volts"); None for any other text. ``several``: the line has
    more than two parts."""
    low = row.low[start:end]
    named = [name for name in names(low) if not name[0]]
    stop = named[0][1] if named else 0
    codes = [code for code in row.finds.codes if start <= code.start < end]
    if codes:
        link = _LINK.match(row.low, start + stop)
        if stop and link is not None and link.end() == codes[0].start and (named[0][2] or several):
            return "codes"
        # Among others a short word, or what is like a name, is one that no table knows.
        name = tidy(row.text[start : codes[0].start])
        if not several or states.in_text(small(name)) or not (_SHORT.fullmatch(small(name)) or is_like(name)):
            return None
        return "unknown"
    if answer_of_cell(low) is not None:
        return None
    if several and (head := _HEADS.match(low)) is not None and answer_of_cell(head[1]) is not None:
        return "answer"
    if several and not named and has_digit(low) and volts.find(low):
        return "volts"
    link = _LINK.match(low, stop) if stop and (named[0][2] or several) else None
    if link is not None and _answers(low[link.end() :]):
        return "answer"
    for word, first, last in words(low)[:2] if several else ():
        if word in ANSWERS.starts or states.of_cell(word) is not None:
            return None
        link = _LINK.match(low, last)
        if first >= 0 and link is not None and answer_of_cell(low[link.end() :]) is not None:
            return "unknown"
    return None


def _answers(low: str) -> bool:
    """Whether a text is an answer, that of all the rest behind it perhaps: "silent, rest ok"; "stored, not present" is
    the status of a code."""
    if states.of_cell(low) is not None and ("," in low or states.leading(low, 0) < len(low)):
        return False
    own, mark, rest = low.partition(",")
    return answer_of_cell(low) is not None or bool(mark and answer_of_cell(own) and rest_of(rest))


__all__ = ["parted"]
