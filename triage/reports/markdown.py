"""The same content as Markdown (CommonMark, no tables, no HTML), fit to be sent as a message."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from triage.model.assessment import Assessment
from triage.reports.entries import Bundle, Check, Item, Line, View
from triage.reports.notes import by_safety, reasons, tell
from triage.reports.terminal import MARKS, SAYS_DB, by_system, vehicle_line
from triage.reports.text import listing, many
from triage.reports.view import view
from triage.reports.work import AFTER_WORK, AFTER_WORK_SAYS, GATES, head

# What CommonMark would read as markup: an underscore only at the edge of a word, an ampersand only before a name.
_ACTIVE = re.compile(r"[\\`*\[\]#~]|(?<![^\W_])_|_(?![^\W_])|&(?=[#\w])")
# What opens a list or a quotation at the beginning of a point.
_OPENER = re.compile(r"\A(\d{0,9})([-+>.)])(?=\s|\Z)|\A()(>)")


def escape(text: str) -> str:
    """``text`` so that CommonMark shows it as it stands.

    >>> escape("ECM_A *P0118* <b> [x](y)")
    'ECM_A \\\\*P0118\\\\* &lt;b> \\\\[x\\\\](y)'
    """
    text = _ACTIVE.sub(lambda found: "&amp;" if found.group() == "&" else "\\" + found.group(), text)
    return _OPENER.sub(lambda found: f"{found.group(1) or ''}\\{found.group(2) or found.group(4)}", text).replace(
        "<", "&lt;")


def markdown(assessment: Assessment, *, show_all: bool = False, ledger: bool = False) -> str:
    """The assessment as Markdown, ending in a line feed. ``show_all`` and ``ledger`` as on the terminal."""
    shown = view(assessment)
    blocks = [
        *_opening(shown), *_snapshots(shown), *_points(GATES.capitalize(), shown.gates),
        *_short_list(shown, show_all), *_unsettled(shown, show_all),
        *_aside(shown, show_all), f"**{escape(shown.count)}**",
        *_points(f"{AFTER_WORK.capitalize()}: {AFTER_WORK_SAYS}", shown.after_work), *_proofs(shown),
        *_points("Found besides", shown.stories),
        *_points("Not tested", shown.untested), *_checks(shown.checks, show_all),
        *_points("What would change this", shown.changes), *_points("Cautions", shown.cautions),
        *(_ledgers(shown, show_all) if ledger else []), *_notices(shown),
    ]
    return "\n\n".join(block for block in blocks if block) + "\n"


def _opening(shown: View) -> list[str]:
    told = [f"# {escape(shown.title)}", escape(vehicle_line(shown)), f"**Supply:** {escape(shown.supply)}"]
    if shown.answer:
        told.append(f"**Complaint:** {escape(shown.answer)}")
    return told


def _snapshots(shown: View) -> list[str]:
    lines = []
    for snap in shown.snaps:
        parts = [snap.supply, snap.state, snap.read, *([f"values: {listing(snap.readings)}"] if snap.readings else [])]
        when = f", {snap.at}" if snap.at else ""
        lines.append(f"{snap.number}. {escape(snap.phase + when + ': ' + '; '.join(parts))}")
    events = [f"- {escape(f'{deed.when}: ' if deed.when else '')}{escape(deed.what)}"
              for deed in shown.deeds if deed.snap is None]
    marks = ", ".join(f"{mark} {sight}" for sight, mark in MARKS.items())
    return [f"## Snapshots{': ' + escape(shown.day) if shown.day else ''}", "\n".join(lines) or "none",
            "\n".join(events), f"Marks: {marks}, in the order of the snapshots. The {SAYS_DB}."]


def _short_list(shown: View, show_all: bool) -> list[str]:
    number = sum(len(item.lines) for item in shown.items)
    if not shown.items:
        return ["## Short list", "No code is established as a fault that persists."]
    told = [f"## Short list: {many(len(shown.items), 'root')}, {many(number, 'code')}"]
    full, short, hidden = shown.ranked(show_all)
    for system, items in by_system(full):
        told += [f"*{escape(system)}*", "\n".join(_item(item, show_all) for item in items)]
    if short:
        told += ["*also on the short list*", "\n".join(_item(item, show_all) for item in short)]
    if hidden:
        told.append(f"and {hidden} more, none of a safety class")
    return told


def _item(item: Item, show_all: bool) -> str:
    safety = f"; safety class: {item.safety}" if item.safety and item.safety != item.system else ""
    if item.fault:
        line = item.lines[0]
        judged = f"{line.sure}, {line.decibans}; {line.cause}; {line.needs}{safety}"
        return _nested(f"- **{escape(line.name)}** {escape(line.meaning)}: {judged}",
                       [_signs(line), *map(escape, reasons(line))])
    judged = "; ".join(part for part in (item.judged, item.needs) if part)
    head = f"- **{escape(item.title)}**: {judged}{safety}"
    told, hidden = Bundle("", item.lines).shown(show_all)
    rows = [f"{_signs(line)} {escape(line.name)}: {line.sure}, {line.decibans}" for line in told]
    return _nested(head, [*map(escape, item.why), *rows, *([f"and {hidden} more that say the same"] if hidden else [])])


def _nested(head: str, points: Iterable[str]) -> str:
    return "\n".join([head, *(f"  - {point}" for point in points if point)])


def _signs(line: Line) -> str:
    return "  ".join(f"{MARKS[sign.sight]} {sign.words}" for sign in line.signs)


def _group(lines: Sequence[Line]) -> str:
    """Faults in short with their reasons, shared ones below under their letters."""
    told, shared = tell(lines)
    rows = []
    for entry in told:
        line = entry.line
        safety = f"; {line.safety}" if line.safety else ""
        letters = f" ({entry.letters})" if entry.letters else ""
        head = f"- **{escape(line.name)}** {escape(line.meaning)}: {line.sure}, {line.decibans}{safety}{letters}"
        rows.append(_nested(head, [_signs(line), escape("; ".join(entry.own))]))
    rows += [f"- ({letter}) {escape(reason)}" for letter, reason in shared]
    return "\n".join(rows)


def _unsettled(shown: View, show_all: bool) -> list[str]:
    number = sum(len(bundle.lines) for bundle in shown.unsettled)
    told = [f"## Unsettled: {many(number, 'code') if number else 'none'}"]
    for bundle in shown.unsettled:
        lines, hidden = bundle.shown(show_all)
        told += [f"**{escape(bundle.head)}** ({many(len(bundle.lines), 'code')})", _group(lines)]
        if hidden:
            told.append(f"and {hidden} more, none of a safety class")
    return told


def _aside(shown: View, show_all: bool) -> list[str]:
    number = sum(len(bundle.lines) for bundle in shown.aside)
    told = [f"## Set aside: {many(number, 'code') if number else 'none'}"]
    if show_all:
        for bundle in shown.aside:
            told += [f"**{escape(bundle.head)}** ({many(len(bundle.lines), 'code')})", _group(bundle.lines)]
        return told
    rows = [_nested(f"- {len(bundle.lines)} {escape(bundle.head)}",
                    [f"{name}: {escape(codes)}" for name, codes in by_safety(bundle.lines)]) for bundle in shown.aside]
    return [*told, "\n".join(rows)]


def _points(head: str, texts: Sequence[str]) -> list[str]:
    return [f"## {head}", "\n".join(f"- {escape(text)}" for text in texts)] if texts else []


def _proofs(shown: View) -> list[str]:
    return _points(head(shown.proofs).capitalize(), [f"{proof.state}: {proof.names}: {proof.told}"
                                                     for proof in shown.proofs]) if shown.proofs else []


def _checks(checks: Sequence[Check], show_all: bool) -> list[str]:
    if not checks:
        return []
    rows = []
    for number, check in enumerate(checks, start=1):
        settles = f", on {listing(check.settles, None if show_all else 5)}" if check.settles else ""
        said = [f"first: {check.gate}" if check.gate else "", f"where: {check.where}", f"takes {check.minutes}",
                f"passes if {check.passes}", f"removes {check.gain} of doubt{settles}"]
        rows.append("\n".join([f"{number}. **{escape(check.do)}**",
                               *(f"   - {escape(text)}" for text in said if text)]))
    return ["## Next checks", "\n".join(rows)]


def _ledgers(shown: View, show_all: bool) -> list[str]:
    aside = {id(line) for bundle in shown.aside for line in bundle.lines}
    told = ["## Sums, in dB"]
    for line in shown.lines:
        if line.sums and (show_all or id(line) not in aside):
            rows = [f"- {row.decibans} {escape(row.what)} ({escape(row.source)})" for row in line.sums]
            bound = [f"- {escape(line.clean)}"] if line.clean else []
            told += [f"**{escape(line.name)}**", "\n".join([*rows, f"- **{line.total} total: {line.sure}**", *bound])]
    return told


def _notices(shown: View) -> list[str]:
    told = []
    for notice in shown.notices:
        head, *place = notice.show(90).split("\n")
        told.append(f"- {escape(head)}")
        if place:
            told.append("\n".join(["", *(f"  {line}" for line in place), ""]))
    return ["## Notices about the input", "\n".join(told)] if told else []


__all__ = ["escape", "markdown"]
