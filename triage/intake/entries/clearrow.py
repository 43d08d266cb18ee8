"""Rows that tell what modules answered to a clear: each an event of its own, and none of them a module of a scan."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from triage.intake.entries import happened, metarow
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import clearanswers, phases
from triage.intake.said.outside import outside_supply
from triage.intake.scan.assembly import NOT_STATED
from triage.intake.scan.context import Context
from triage.model.session import Event

#: Beside an answer no jump pack is meant.
_IN_FULL = {"booster": "brake booster"}
#: What says of a name only that it is one.
_WORDS = lazily(r"(?<![a-z])(?:module|mod|unit|ecu|control|controller|steuergerat|calculateur|the)(?![a-z])")


def read(context: Context, row: Row) -> bool:
    """Read a row that tells of a clear and what modules answered to it; whether it is such a row."""
    if (part := context.clear_answers.get(context.at)) is not None:
        _record(context, row, (part,))
        context.open_code = context.open_row = None
        return True
    module = context.builder.module
    if module is not None and context.under_heading and clearanswers.is_refusal(row.low):
        _refused(context, row, module.printed)
        return True
    told = clearanswers.answers(row.low, lambda name: _is_name(context, name))
    if clearanswers.heads(row.low):
        context.clear_answers |= _below(context, bool(told))
    if row.finds.codes and clearanswers.refused_beside(row.low, row.finds.codes[0].start) and not any(
            deed.what == "cleared" and deed.answer != "refused" for deed in phases.events(row.low)):
        return False  # what the module listed after it refused: "SRS: clear refused, B0001 stored"
    if not told or any(not any(part.start <= code.start < part.end for part in told) for code in row.finds.codes):
        return False
    builder = context.builder
    known = len(builder.events)
    named = tuple(part for part in told if not part.who or part.answer == "accepted" or _is_held(context, part.who))
    if len(named) < len(told):
        # One refused that no scan holds: it may be any of them, so that nothing is accepted by all.
        told = tuple(part for part in named if part.who)
    context.close_module()
    rest = _without(row, told)
    metarow.read(context, rest)
    found = [event for event in builder.events[known:] if event.what == "cleared"]
    whole = next((event for event in found if event.module is None), None)
    general = next((part.answer for part in told if not part.who and not part.own), None)
    if whole is None and general == "accepted" and happened.refused_by_one(
            context, rest, happened.clock_of(context, row)):
        told = tuple(part for part in told if part.who)
    elif whole is not None:
        whole.answer = whole.answer or (general if told else None)
        told = tuple(part for part in told if part.who)
    _record(context, row, told, next((event.at for event in found), None))
    context.open_code = context.open_row = None
    return True


def note_refused(context: Context, row: Row) -> None:
    """Keep what a row says before its first code: that its module refused the clear."""
    module = context.builder.module
    if module is not None and row.finds.codes and module.printed != NOT_STATED and clearanswers.refused_beside(
            row.low, row.finds.codes[0].start):
        _refused(context, row, module.printed)


def _refused(context: Context, row: Row, printed: str) -> None:
    happened.record(context, Event(at=happened.clock_of(context, row), what="cleared", answer="refused",
                                   module=context.names.match(printed).canonical))


def _record(context: Context, row: Row, told: Sequence[clearanswers.Part], at: datetime | None = None) -> None:
    """An event for each answer, that of all others first: what one module answered holds against it."""
    at = at or happened.clock_of(context, row)
    for part in sorted(told, key=lambda part: part.who != ""):
        if not part.own:
            module = _module(context, part.who) if part.who else None
            happened.record(context, Event(at=at, what="cleared", module=module, answer=part.answer))


def _below(context: Context, sure: bool) -> dict[int, clearanswers.Part]:
    """The answers in the lines right below a row that tells of a clear, one a line, by their place; none where all of
    them may be what the modules held."""
    found: dict[int, clearanswers.Part] = {}
    for at in range(context.at + 1, len(context.rows)):
        row = context.rows[at]
        one = clearanswers.listed(row.low, lambda name: _is_name(context, name)) if not row.finds.codes else None
        if one is None:
            break
        found[at] = one[0]
        sure |= one[1]
    return found if sure else {}


def _is_name(context: Context, name: str) -> bool:
    """Whether a text is the name of a module, and not of what feeds the vehicle."""
    if name.removesuffix(" module") in _IN_FULL:
        return True
    return (context.names.listed(name) or context.names.score(name) >= 85.0) and outside_supply(name) is None


def _is_held(context: Context, name: str) -> bool:
    """Whether a text is the name of a module, a listed one or one that begins a line of the text."""
    return _is_name(context, name) or any(
        row.low.lstrip(" -*").startswith(name) for at, row in enumerate(context.rows) if at != context.at)


def _without(row: Row, told: tuple[clearanswers.Part, ...]) -> Row:
    """The row with blanks in place of the answers, so that all else keeps its place."""
    text, low = row.text, row.low
    for part in told:
        gap = " " * (part.end - part.start)
        text = text[: part.start] + gap + text[part.end :]
        low = low[: part.start] + gap + low[part.end :]
    return Row(row.line, text.rstrip(), row.start, low=low.rstrip())


def _module(context: Context, name: str) -> str:
    """The module of a name, as the scans before tell it: "door module" is the only door they hold, "booster" the brake
    booster."""
    found = context.names.match(_IN_FULL.get(name.removesuffix(" module"), name)).canonical
    held = {context.names.match(module.printed).canonical: module.printed.lower()
            for scan in context.builder.snapshots for module in scan.modules.values()}
    if found in held:
        return found
    words = set(_WORDS.sub(" ", name).split())
    like = [module for module, printed in held.items() if words and words <= set(printed.replace("-", " ").split())]
    return like[0] if len(like) == 1 else found


__all__ = ["read"]
