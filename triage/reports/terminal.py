"""The short list on a terminal: plain text that carries everything, wrapped to the width, nothing cut off."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from triage.model.assessment import Assessment, Sight
from triage.reports.entries import Bundle, Check, Item, Line, Sign, Snap, View
from triage.reports.notes import by_safety, reasons, tell
from triage.reports.text import TIED, columns, listing, many, pad, tie, wrap
from triage.reports.view import view
from triage.reports.work import AFTER_WORK, AFTER_WORK_SAYS, GATES
from triage.reports.work import head as work_head

MARKS: dict[Sight, str] = {"seen": "●", "not seen": "○", "not readable": "–"}
PLAIN_MARKS: dict[Sight, str] = {"seen": "X", "not seen": "o", "not readable": "-"}
LEAST_WIDTH = 40
#: Live values told of one snapshot.
READINGS = 8
STRONG, FAINT = "\x1b[1m", "\x1b[2m"
_OFF = "\x1b[0m"
SAYS_DB = ("words and dB say whether a fault persists: 10 log10 of the odds, so +12.8 dB is 95 %, 0 dB is even, "
           "-20 dB is 1 %")


class Paper:
    """Lines of text of at most ``width`` columns, with a style each that only colour shows."""

    def __init__(self, width: int, colour: bool, marks: dict[Sight, str]) -> None:
        self.width = max(LEAST_WIDTH, width)
        self.colour = colour
        self.marks = marks
        self.lines: list[str] = []

    def put(self, text: str, first: str = "", rest: str | None = None, style: str = "") -> None:
        """One paragraph."""
        for line in wrap(tie(text), self.width, first, rest):
            plain = line.replace(TIED, " ")
            self.lines.append(f"{style}{plain}{_OFF}" if style and self.colour and plain else plain)

    def blank(self) -> None:
        """One empty line, never two."""
        if self.lines and self.lines[-1]:
            self.lines.append("")

    def head(self, title: str, rest: str = "") -> None:
        """The head of a section."""
        self.blank()
        self.put(title.upper() + (f"  {rest}" if rest else ""), style=STRONG)

    def points(self, texts: Iterable[str]) -> None:
        """Short paragraphs, one a line."""
        for text in texts:
            self.put(text, "  - ", "    ")


def terminal(
    assessment: Assessment, *, width: int = 100, show_all: bool = False, ledger: bool = False, colour: bool = False,
    ascii_marks: bool = False,
) -> str:
    """The assessment as text of at most ``width`` columns (40 at least), ending in a line feed.

    ``show_all`` tells every line, ``ledger`` the sums of all lines told; ``colour`` adds bold and faint and no word.
    """
    shown = view(assessment)
    paper = Paper(width, colour, PLAIN_MARKS if ascii_marks else MARKS)
    _opening(paper, shown)
    _snapshots(paper, shown, show_all)
    if shown.gates:
        paper.head(GATES)
        paper.points(shown.gates)
    _short_list(paper, shown, show_all)
    _unsettled(paper, shown, show_all)
    _aside(paper, shown, show_all)
    paper.blank()
    paper.put(shown.count, style=STRONG)
    if shown.after_work:
        paper.head(AFTER_WORK, AFTER_WORK_SAYS)
        paper.points(shown.after_work)
    _proofs(paper, shown)
    if shown.stories:
        paper.head("found besides")
        paper.points(shown.stories)
    _checks(paper, shown.checks, show_all)
    if shown.changes:
        paper.head("what would change this")
        paper.points(shown.changes)
    if shown.cautions:
        paper.head("cautions")
        paper.points(shown.cautions)
    if ledger:
        _ledgers(paper, shown, show_all)
    _notices(paper, shown)
    return "\n".join(paper.lines) + "\n"


def _opening(paper: Paper, shown: View) -> None:
    tail = vehicle_line(shown)
    paper.put(shown.title, style=STRONG)
    if tail:
        paper.put(tail, style=FAINT)
    paper.blank()
    pairs = [("supply", shown.supply)]
    if shown.answer:
        pairs.append(("complaint", shown.answer))
    for name, text in pairs:
        paper.put(text, pad(name, 11), " " * 11)


def vehicle_line(shown: View) -> str:
    """What is known of the vehicle, in one line."""
    words = {"VIN": "VIN {}", "model year": "model year {}"}
    return ", ".join(words.get(name, "{}").format(value) for name, value in shown.facts)


def _snapshots(paper: Paper, shown: View, show_all: bool) -> None:
    paper.head("snapshots", shown.day)
    if not shown.snaps:
        paper.put("none", "  ")
        return
    first = max(max(columns(f"{snap.number} {snap.phase}"), columns(snap.at) + 2) for snap in shown.snaps) + 3
    second = max(columns(snap.supply) for snap in shown.snaps) + 3
    narrow = paper.width - first - second < 30
    for snap in shown.snaps:
        name = f"{snap.number} {snap.phase}"
        if narrow:
            parts = (f"{name}   {snap.supply}", snap.at, snap.state, snap.read)
            paper.put("; ".join(part for part in parts if part), "  ", "    ")
        else:
            below = " " * (2 + first + second)
            lead = f"  {pad(name, first)}{pad(snap.supply, second)}"
            paper.put(snap.state if snap.at else f"{snap.state}; {snap.read}", lead, below)
            if snap.at:
                paper.put(snap.read, pad(f"    {snap.at}", 2 + first + second), below)
        if snap.readings:
            told = listing(snap.readings, None if show_all else READINGS)
            paper.put(told, " " * (2 if narrow else 2 + first) + "read: ")
    done = [f"{deed.when} {deed.what}".strip() for deed in shown.deeds if deed.snap is None]
    if done:
        paper.put("; ".join(done), "  done: ", "    ")
    paper.blank()
    marks = "   ".join(f"{mark} {sight}".replace(" ", TIED) for sight, mark in paper.marks.items())
    paper.put(f"{marks}   in the order of the snapshots, each after its supply (? V: not read)", "  ", style=FAINT)
    paper.put(SAYS_DB, "  ", style=FAINT)


def _short_list(paper: Paper, shown: View, show_all: bool) -> None:
    number = sum(len(item.lines) for item in shown.items)
    # A root may be modules that came and went, and no code.
    codes = f", {many(number, 'code')}" if number else ""
    paper.head("short list", f"{many(len(shown.items), 'root')}{codes}" if shown.items else "")
    if not shown.items:
        paper.put("no code is established as a fault that persists", "  ")
        return
    full, short, hidden = shown.ranked(show_all)
    for system, items in by_system(full):
        paper.blank()
        paper.put(system, "  ", style=FAINT)
        for item in items:
            _item(paper, item, shown.snaps, show_all)
    if short:
        paper.blank()
        paper.put("also on the short list", "  ", style=FAINT)
        for item in short:
            _item_briefly(paper, item, show_all)
    if hidden:
        paper.put(f"and {hidden} more, none of brakes, steering, restraints or high voltage (--all shows them)", "    ")


def by_system(items: Sequence[Item]) -> list[tuple[str, list[Item]]]:
    """The roots under their systems, in the order in which the systems first come up."""
    groups: dict[str, list[Item]] = {}
    for item in items:
        groups.setdefault(item.system, []).append(item)
    return list(groups.items())


def _item(paper: Paper, item: Item, snaps: Sequence[Snap], show_all: bool) -> None:
    if item.fault:
        line = item.lines[0]
        paper.put(f"{line.module}  {line.code}  {line.meaning}", "    ", "      ", STRONG)
        paper.put("; ".join(_judged(line, item.safety)), "      ")
        paper.put("   ".join(_long_sign(paper, sign, snap) for sign, snap in zip(line.signs, snaps, strict=False)),
                  "      ")
        _because(paper, line)
        return
    paper.put(item.title, "    ", "      ", STRONG)
    safety = f"; safety class: {item.safety}" if item.safety and item.safety != item.system else ""
    paper.put("; ".join(part for part in (item.judged, item.needs) if part) + safety, "      ")
    for reason in item.why:
        paper.put(reason, "      - ", "        ")
    told, hidden = Bundle("", item.lines).shown(show_all)
    for line in told:
        _row(paper, line, "      ")
    if hidden:
        paper.put(f"and {hidden} more that say the same (--all shows them)", "      ")


def _item_briefly(paper: Paper, item: Item, show_all: bool) -> None:
    if item.fault:
        _row(paper, item.lines[0], "    ", reasons(item.lines[0]))
        return
    paper.put("; ".join(part for part in (item.title, item.judged) if part), "    ", "      ")
    told, hidden = Bundle("", item.lines).shown(show_all)
    if told:
        paper.put(listing([line.name for line in told]) + (f" and {hidden} more" if hidden else ""), "      ")


def _judged(line: Line, safety: str | None) -> list[str]:
    """Words before decibans, then the likeliest cause and what it asks for."""
    said = [f"{line.sure}, {line.decibans}", line.cause, line.needs]
    if safety and safety != line.system:
        said.append(f"safety class: {safety}")
    return said


def _because(paper: Paper, line: Line) -> None:
    for reason in reasons(line):
        paper.put(reason, "      - ", "        ")


def _long_sign(paper: Paper, sign: Sign, snap: Snap) -> str:
    return f"{snap.number} {paper.marks[sign.sight]} {sign.words}".replace(" ", TIED)


def _short_signs(paper: Paper, signs: Sequence[Sign]) -> str:
    """The marks side by side, each after its supply, all of one width so that they stand in columns."""
    return "  ".join(f"{sign.figure:>4} V {paper.marks[sign.sight]}".replace(" ", TIED) for sign in signs)


def _row(paper: Paper, line: Line, indent: str, said: Sequence[str] = (), tail: str = "") -> None:
    """One fault in short: marks in columns at the left where they leave room, else below; then its reasons."""
    signs = _short_signs(paper, line.signs)
    judged = f"{line.sure}, {line.decibans}" + (f"; {line.safety}" if line.safety else "")
    text = f"{line.module}  {line.code}  {line.meaning}; {judged}{tail}"
    beside = 0 < columns(signs) <= 0.45 * paper.width
    below = indent + " " * (columns(signs) + 2 if beside else 2)
    paper.put(text, f"{indent}{signs}  " if beside else indent, below)
    if not beside and signs:
        paper.put(signs, below)
    if said:
        paper.put("; ".join(said), below, style=FAINT)


def _rows(paper: Paper, lines: Sequence[Line], indent: str) -> None:
    """Faults in short with their reasons; those that several of them share are told once, below."""
    told, shared = tell(lines)
    for entry in told:
        _row(paper, entry.line, indent, entry.own, f" [{entry.letters}]" if entry.letters else "")
    for letter, reason in shared:
        paper.put(reason, f"{indent}[{letter}] ", style=FAINT)


def _unsettled(paper: Paper, shown: View, show_all: bool) -> None:
    number = sum(len(bundle.lines) for bundle in shown.unsettled)
    paper.head("unsettled", f"{many(number, 'code')}, under the one step that settles most; safety first"
               if number else "none")
    for bundle in shown.unsettled:
        paper.blank()
        paper.put(f"{bundle.head} ({many(len(bundle.lines), 'code')})", "  ", style=STRONG)
        told, hidden = bundle.shown(show_all)
        _rows(paper, told, "    ")
        if hidden:
            paper.put(f"and {hidden} more, none of a safety class (--all shows them)", "    ")


def _aside(paper: Paper, shown: View, show_all: bool) -> None:
    number = sum(len(bundle.lines) for bundle in shown.aside)
    hint = "" if show_all or not number else " (--all shows each)"
    paper.head("set aside", f"{many(number, 'code')}{hint}" if number else "none")
    wide = max((len(str(len(bundle.lines))) for bundle in shown.aside), default=1)
    for bundle in shown.aside:
        paper.put(bundle.head, f"  {len(bundle.lines):>{wide}}  ")
        if show_all:
            _rows(paper, bundle.lines, "    ")
            paper.blank()
        elif bundle.safety:
            for name, codes in by_safety(bundle.safety):
                paper.put(codes, " " * (wide + 4) + f"{name}: ", " " * (wide + 6), FAINT)


def _proofs(paper: Paper, shown: View) -> None:
    """Where each fault stands since the repair; readiness."""
    if not shown.proofs:
        return
    paper.head(work_head(shown.proofs))
    for state, group in groupby(shown.proofs, key=lambda proof: proof.state):
        paper.put(state, "  ", style=FAINT)
        for proof in group:
            paper.put(f"{proof.names}: {proof.told}", "    - ", "      ")


def _checks(paper: Paper, checks: Sequence[Check], show_all: bool) -> None:
    if not checks:
        return
    paper.head("next checks", "what is sure first, then most doubt per minute")
    for number, check in enumerate(checks, start=1):
        paper.put(check.do, f"  {number} ", "    ", STRONG)
        place = f"{check.where}; {check.minutes}" if check.where else check.minutes
        pairs = [("first", check.gate), ("where", place), ("passes if", check.passes),
                 ("removes", f"{check.gain} of doubt" + (
                     f", on {listing(check.settles, None if show_all else 5)}" if check.settles else ""))]
        for name, text in pairs:
            if text:
                paper.put(text, f"    {pad(name, 11)}", " " * 15)


def _ledgers(paper: Paper, shown: View, show_all: bool) -> None:
    kept = [*(line for item in shown.items for line in item.lines),
            *(line for bundle in shown.unsettled for line in bundle.lines)]
    paper.head("sums", "in dB, from before any sighting to the total")
    for line in shown.lines if show_all else kept:
        paper.blank()
        paper.put(f"{line.module}  {line.code}", "  ")
        for row in line.sums:
            paper.put(f"{row.what}  [{row.source}]", f"  {row.decibans:>7}  ", " " * 13)
        paper.put(f"total: {line.sure}", f"  {line.total:>7}  ", style=STRONG)
        if line.clean:
            paper.put(line.clean, " " * 11, " " * 13)
    left = len(shown.lines) - len(kept)
    if left and not show_all:
        paper.blank()
        paper.put(f"the sums of the {many(left, 'code')} set aside: --all", "  ", style=FAINT)


def _notices(paper: Paper, shown: View) -> None:
    if not shown.notices:
        return
    paper.head("notices about the input")
    for notice in shown.notices:
        head, *place = notice.show(paper.width - 4).split("\n")
        paper.put(head, "  ", "    ")
        paper.lines.extend(f"  {line[2:]}" for line in place)


__all__ = ["MARKS", "PLAIN_MARKS", "SAYS_DB", "by_system", "terminal", "vehicle_line"]
