"""What one act changed in the standings of a session."""

from __future__ import annotations

from triage.model.assessment import Assessment, FaultLine, Group, Root
from triage.reports.text import clean, listing

Key = tuple[str, str, str | None]


def changes(before: Assessment, after: Assessment) -> list[str]:
    """One line a standing with the faults that came to it, those on the short list first; none if none was known."""
    old, new = _lines(before), _lines(after)
    if not old:
        return []
    moved: dict[str, list[str]] = {}
    for key, line in new.items():
        standing = line.verdict["standing"]
        was = old[key].verdict["standing"] if key in old else None
        if was != standing:
            moved.setdefault(f"{standing}, {was} before" if was else f"{standing}, new", []).append(_name(line))
    told = [f"{head}: {listing(names, 6)}" for head, names in moved.items()]
    gone = [_name(line) for key, line in old.items() if key not in new]
    if gone:
        told.append(f"no longer in the session: {listing(gone, 6)}")
    return told


def _lines(assessment: Assessment) -> dict[Key, FaultLine]:
    groups: list[Root | Group] = [*assessment.short_list, *assessment.unsettled, *assessment.set_aside]
    return {(line.verdict["module"], line.verdict["code"], line.verdict["failure_type"]): line
            for group in groups for line in group.lines}


def _name(line: FaultLine) -> str:
    kind = line.verdict["failure_type"]
    return clean(f"{line.printed} {line.verdict['code']}" + (f"-{kind}" if kind else ""))
