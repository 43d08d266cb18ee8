"""Forms: a row of boxes for each module, one of them ticked for what it did: "[ ] faults [x] no answer [ ] not read".

What is ticked is told behind the name or in the place of the boxes; where it is that there are codes, those below tell.
So it is with boxes for the status of a code, on either side of what else its line tells, and with those for where the
scan stands: "Snapshot: [ ] before clear [x] after clear".

>>> from triage.intake.plain.characters import lines
>>> text = "ABS\\n  [ ] codes [ ] clean [x] no answer\\nTCM  \\u2610 codes \\u2611 clean \\u2610 no answer\\n" + \
    "EPS\\n  (X) codes ( ) clean ( ) no answer\\n  C0545"
>>> [line.text for line in told(lines(text))]
['ABS', '  no answer', 'TCM: clean', 'EPS', '  C0545']
>>> text = "  [ ] active [x] pending   04711 valve stuck\\n  B1004   [x] stored [ ] active"
>>> [line.text for line in told(lines(text))]
['  04711 valve stuck   pending', '  B1004   stored']
>>> [line.text for line in told(lines("Scan: [ ] before clear [x] after clear\\n[x] new battery [ ] tyres"))]
['Scan: after clear', '[x] new battery [ ] tyres']
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.plain.characters import Line, has_digit, has_letter, low, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, states
from triage.intake.said.answers import answer_of_cell
from triage.model.snapshot import StatusWord

_TICKED, _OPEN = "\u2611\u2612\u2705\u25a0\u25a3\u25c9\u25cf\u2b24", "\u2610\u25a1\u25a2\u25cb\u25ef\u25fb"
_CROSSED = "\u2713\u2714\u2717\u2718\u2715\u2716\u00d7"
_BOX = lazily(rf"[\[(<{{]\s?(?P<in>[xX*+vV_.\u2022{_CROSSED}-]?)\s?[\])>}}]|(?P<sign>[{_TICKED}{_OPEN}{_CROSSED}])"
              r"|(?<![^\s|])(?:(?P<on>[xX])|_{1,3})(?=\s)")
_NO = frozenset("_.-\u2717\u2718\u2715\u2716\u00d7")
_EDGE = " \t,;|/"
#: A label goes no farther than to these.
_ENDS = lazily(r":|\s{3,}|\t")
_MOST_WORDS, _FEWEST, _LONGEST = 5, 2, 240


class _Form(NamedTuple):
    """What stands before the first box, the labels with whether each is ticked, and what is behind the last label."""

    lead: str
    labels: list[tuple[str, bool]]
    rest: str


def told(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, with what is ticked for such boxes; the same lines where there are none. Linear."""
    may = [at for at, line in enumerate(found) if len(line.text) <= _LONGEST and _BOX.search(line.raw)]
    if not may:
        return found
    forms = {at: form for at in may if (form := _form(_drawn(found[at]))) is not None}
    worded = {at: line for at, form in forms.items() if (line := _of_status(found[at], form)) is not None}
    forms = {at: form for at, form in forms.items() if at not in worded and not find(form.lead).codes}
    if worded:
        found = [worded.get(at, line) for at, line in enumerate(found)]
    out: list[Line] = []
    done = 0
    for at in forms:
        if at < done:
            continue
        stop = at + 1
        while not _are_phases(forms[at].labels) and stop in forms and not forms[stop].lead and not forms[stop - 1].rest:
            stop += 1
        labels = [label for form in (forms[place] for place in range(at, stop)) for label in form.labels]
        answers = {answer for label, _ in labels if (answer := answer_of_cell(low(label))) is not None}
        ticked = [label for label, is_ticked in labels if is_ticked]
        if len(ticked) != 1 or not (len(answers) >= _FEWEST or _are_phases(labels)):
            continue
        out += found[done:at]
        text = ticked[0] if len(answers) < _FEWEST or answer_of_cell(low(ticked[0])) is not None else ""
        text = ": ".join(filter(None, (forms[at].lead, text or forms[stop - 1].rest)))
        if text:
            line = found[at]
            indent = len(line.text) - len(line.text.lstrip())
            out.append(reworded(line, indent, len(line.text), text))
        done = stop
    return [*out, *found[done:]] if done else found


def _are_phases(labels: Sequence[tuple[str, bool]]) -> bool:
    """Whether boxes ask where a scan stands, all but one with labels that tell it, what is ticked among those."""
    told_by = {label: hit.phase for label, _ in labels if (hit := phases.find(low(label))) is not None}
    return (
        len(told_by) >= max(_FEWEST, len(labels) - 1)
        and len({*told_by.values()}) >= _FEWEST
        and all(label in told_by for label, is_ticked in labels if is_ticked)
    )


def _drawn(line: Line) -> str:
    """The text of a line with its boxes as they were pasted."""
    if line.raw.isascii():
        return line.text
    raw = [line.raw[line.span(at, at + 1)[0]] for at in range(len(line.text))]
    return "".join(char if _BOX.match(char) else own for char, own in zip(raw, line.text, strict=True))


def _form(drawn: str) -> _Form | None:
    """The boxes of a line that holds nothing else but a name before them, and codes behind them; None for others."""
    boxes = list(_BOX.finditer(drawn))
    if not boxes:
        return None
    signs = {box["sign"] for box in boxes} - {None}
    # A cross ticks a box where nothing else does.
    crossed = bool(signs & set("\u2713\u2714")) or bool(signs & set(_TICKED))
    holds = [_is_ticked(box, crossed) for box in boxes]
    between = [drawn[box.end() : other.start()] for box, other in pairwise(boxes)]
    first, last = drawn[: boxes[0].start()], drawn[boxes[-1].end() :]
    if last.strip(_EDGE + "."):
        lead, (last, rest) = first.strip(_EDGE + ":-=\u2022."), _last_label(last)
        texts = [*between, last]
    else:
        bare = first.strip()
        gap = first.find(bare) + bare.rfind("  ") if "  " in bare else -1
        mark = max(first.rfind(":", 0, len(first.rstrip()) - 1), gap)
        lead, rest = (first[: mark + 1].strip(_EDGE + ":-") if mark > 0 else ""), ""
        texts = [first[mark + 1 :] if mark > 0 else first, *between]
    labels = [text.strip(_EDGE + ":=.-") for text in texts]
    if not all(has_letter(label) and len(label.split()) <= _MOST_WORDS for label in labels):
        return None
    return _Form(lead if has_letter(lead) else "", list(zip(labels, holds, strict=True)), rest)


def _of_status(line: Line, form: _Form) -> Line | None:
    """The line with the status that its boxes come to, where they are about nothing else and stand beside something
    that may be a code; else None."""
    statuses = [states.of_cell(low(label)) for label, _ in form.labels]
    if len(form.labels) < _FEWEST or 2 * sum(map(bool, statuses)) < len(statuses):
        return None
    if bool(form.lead) == bool(form.rest) or not has_digit(form.lead or form.rest):
        return None
    known = [(status, holds) for status, (_, holds) in zip(statuses, form.labels, strict=True) if status is not None]
    indent = len(line.text) - len(line.text.lstrip())
    return reworded(line, indent, len(line.text), f"{form.lead or form.rest}   {status_of(known) or ''}".rstrip())


def status_of(known: Sequence[tuple[StatusWord, bool]]) -> StatusWord | None:
    """The status that boxes or answers come to, each with whether it holds."""
    status = states.first_of([status for status, holds in known if holds])
    if status is None and known and all(asked == "current" for asked, _ in known):
        return "stored"
    return status


def _last_label(text: str) -> tuple[str, str]:
    """The label of the last box, and the codes behind it."""
    codes = find(text, low(text)).codes
    bare = len(text) - len(text.lstrip())
    ends = _ENDS.search(text, bare)
    if not codes:
        # A maker's own number is known for a code only later.
        rest = text[ends.end() :].strip(_EDGE + ":-([") if ends is not None else ""
        return (text[: ends.start()], rest) if ends is not None and has_digit(rest[:1]) else (text, "")
    cut = min(codes[0].start, ends.start() if ends is not None else len(text))
    return text[:cut], text[cut:].strip(_EDGE + ":-([")


def _is_ticked(box: re.Match[str], crossed: bool) -> bool:
    """Whether a box is ticked; ``crossed``: a cross says no."""
    if box["sign"]:
        return box["sign"] not in _OPEN and (not crossed or box["sign"] not in _NO)
    return bool(box["on"] or (box["in"] and box["in"] not in "_.-"))


__all__ = ["told"]
