"""The hand-off for the lead technician: one self-contained page that prints on A4 and Letter.

The front says what to do; behind it stand the picture and, on a sheet of their own, the sums.

Built from elements that escape whatever is put into them (:mod:`triage.reports.markup`); no script, no remote
resource, no address. A page of its own carries its style sheet; a server that forbids inline styles takes
:func:`body` and serves ``STYLE`` beside it.
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.model.assessment import Assessment
from triage.reports.entries import Bundle, Check, Deed, Item, Line, Sign, View
from triage.reports.html_sums import sums
from triage.reports.markup import Child, Markup, element, join
from triage.reports.notes import Told, by_module, by_safety, reasons, tell
from triage.reports.page_style import STYLE
from triage.reports.picture import draw, mark, minus
from triage.reports.terminal import MARKS, SAYS_DB, by_system, vehicle_line
from triage.reports.text import listing, many
from triage.reports.view import view
from triage.reports.work import AFTER_WORK, AFTER_WORK_SAYS, GATES, head

#: Faults drawn one by one in the picture of the page before those set aside become counts.
DRAWN = 14
#: Height at which a drawing ends and another begins, so that each fits on a printed sheet.
TALL = 880.0


def html(assessment: Assessment) -> str:
    """The whole page, UTF-8 text beginning with its document type."""
    shown = view(assessment)
    head = element("head", element("meta", charset="utf-8"),
                   element("meta", name="viewport", content="width=device-width, initial-scale=1"),
                   element("title", f"{shown.title}: short list"), element("style", Markup(STYLE)))
    return "<!doctype html>\n" + element("html", head, element("body", body_of(shown)), lang="en") + "\n"


def body(assessment: Assessment) -> str:
    """What stands between the body tags, for a page that has its own head."""
    return body_of(view(assessment))


def body_of(shown: View) -> Markup:
    """The parts of the page, in the order a lead technician asks for them."""
    return join([
        _header(shown), _section("What was done", _deeds(shown)), _section("Supply", _supply(shown)),
        _section(GATES.capitalize(), _points(shown.gates)), _section("Short list", _short_list(shown)),
        _section("Unsettled", _open(shown)), _section("Set aside", _aside(shown)),
        _section(AFTER_WORK.capitalize(), _after_work(shown)),
        _section(head(shown.proofs).capitalize(), _proofs(shown)),
        _section("Found besides", _points(shown.stories)), _section("Not tested", _points(shown.untested)),
        _section("Next checks", _checks(shown.checks)), _section("What would change this", _points(shown.changes)),
        _section("Cautions", _points(shown.cautions)), _section("About the input", _notices(shown)),
        element("h2", "What was seen, and the supply at the time", class_="behind"),
        [element("div", drawing, class_="drawing", tabindex="0", role="group", aria_label="what was seen")
         for drawing in draw(shown, rows=DRAWN, named=False, tall=TALL)],
        sums(shown),
    ])


def _section(head: str, content: Child) -> Child:
    """A section with its head in the margin; nothing at all without content."""
    if not content:
        return None
    return element("section", element("h2", head), element("div", content))


def _header(shown: View) -> Markup:
    facts = [vehicle_line(shown)] if shown.facts else []
    return element(
        "header", element("h1", shown.title),
        element("p", ", ".join([*facts, f"job {shown.job}"]), class_="faint"),
        element("p", element("strong", "Complaint "), shown.answer, class_="lead") if shown.answer else None,
        element("p", element("strong", "Supply "), shown.supply_briefly or shown.supply, class_="lead"),
        element("p", shown.count, class_="count"),
    )


def _deeds(shown: View) -> Child:
    """Snapshots and events in one table, with the supply of each snapshot."""
    rows = [element("tr", element("td", deed.when, class_="tight"), _deed(deed)) for deed in shown.deeds]
    return [element("p", shown.day, class_="faint") if shown.day else None,
            element("table", element("tbody", rows), class_="stack close")]


def _deed(deed: Deed) -> Child:
    snap = deed.snap
    if snap is None:
        return element("td", deed.what, colspan="3")
    values = element("small", f"; values: {listing(snap.readings)}") if snap.readings else None
    return [element("td", element("strong", f"{snap.number} {snap.phase}"), class_="tight"),
            element("td", snap.supply, class_="tight"), element("td", f"{snap.state}; {snap.read}", values)]


def _supply(shown: View) -> Child:
    rows = [element("tr", element("th", part.called, class_="tight"), element("td", part.said, class_="tight"),
                    element("td", part.why)) for part in shown.parts if part.state != "not tested"]
    return element("table", element("tbody", rows), class_="stack close") if rows else None


def _short_list(shown: View) -> Child:
    if not shown.items:
        return element("p", "No code is established as a fault that persists.")
    full, short, hidden = shown.ranked()
    told: list[Child] = []
    for system, items in by_system(full):
        told.append(element("p", system, class_="system"))
        told.extend(_item(item, shown) for item in items)
    if short:
        told.append(element("p", "also on the short list", class_="system"))
        told.extend(_item(item, shown) for item in short)
    if hidden:
        rest = [line for item in shown.items if item not in (*full, *short) for line in item.lines]
        told.append(element("p", f"and {hidden} more, none of a safety class: {by_module(rest)}", class_="faint"))
    marks = [[_mark(Sign(sight, "", "?")), f" {sight}, "] for sight in MARKS]
    told.append(element("p", marks, f"in the order of the snapshots. The {SAYS_DB}.", class_="shared"))
    return told


def _item(item: Item, shown: View) -> Markup:
    if item.fault:
        line = item.lines[0]
        said = [f"{line.sure}, {minus(line.decibans)}", line.cause, line.needs]
        if line.safety and line.safety != line.system:
            said.append(f"safety class: {line.safety}")
        return element("div", element("h3", f"{line.module} ", element("span", line.code, class_="code"),
                                      f": {line.meaning}"),
                       element("p", "; ".join(said), class_="judged"), _signs(line.signs, shown),
                       _points(reasons(line), "why"), class_="entry")
    safety = f"; safety class: {item.safety}" if item.safety and item.safety != item.system else ""
    judged = "; ".join(part for part in (item.judged.replace(" -", " \u2212"), item.needs) if part) + safety
    return element("div", element("h3", item.title), element("p", judged, class_="judged"),
                   _points(item.why, "why"), _rows(item.lines, reasoned=False) if item.lines else None, class_="entry")


def _signs(signs: Sequence[Sign], shown: View) -> Markup:
    """The marks of one fault in a line, each with its snapshot, status and supply."""
    return element("p", [element("span", f"{snap.number} ", _mark(sign), f" {sign.words}", class_="sign")
                         for sign, snap in zip(signs, shown.snaps, strict=False)], class_="signs")


def _mark(sign: Sign) -> Markup:
    """The mark as a small drawing of its own, the same shape as in the picture."""
    return element("svg", mark(sign.sight, 7.0, 7.0), viewBox="0 0 14 14", class_="mark", role="img",
                   aria_label=sign.sight)


def _rows(lines: Sequence[Line], reasoned: bool = True) -> Child:
    """Faults as a table: a mark a snapshot with its supply, then the fault; shared reasons below."""
    told, shared = tell(lines) if reasoned else ([Told(line, (), "") for line in lines], [])
    rows = []
    # Up to four marks stand beside their figures, more of them above.
    sight = "sight" if lines and len(lines[0].signs) <= 4 else "sight stacked"
    for entry in told:
        line = entry.line
        judged = f"{line.sure}, {minus(line.decibans)}" + (f"; {line.safety}" if line.safety else "")
        rows.append(element(
            "tr", [element("td", _mark(sign), element("small", f" {sign.figure} V"), class_=sight)
                   for sign in line.signs],
            element("td", element("strong", f"{line.module} ", element("span", line.code, class_="code")),
                    f" {line.meaning}; {judged}", element("small", f" [{entry.letters}]") if entry.letters else None,
                    element("p", "; ".join(entry.own), class_="faint") if entry.own else None)))
    return [element("table", element("tbody", rows), class_="stack"),
            [element("p", f"[{letter}] {reason}", class_="shared") for letter, reason in shared]]


def _open(shown: View) -> Child:
    if not shown.unsettled:
        return element("p", "Nothing is left open.")
    told: list[Child] = []
    for bundle in shown.unsettled:
        told.append(element("p", f"{bundle.head} ({many(len(bundle.lines), 'code')})", class_="step"))
        lines, hidden = bundle.shown(False)
        told.append(_rows(lines))
        if hidden:
            # On paper nobody can ask for more: the rest stands here by name.
            rest = [line for line in bundle.lines if line not in lines]
            told.append(element("p", f"and {hidden} more, none of a safety class: {by_module(rest)}", class_="faint"))
    return told


def _aside(shown: View) -> Child:
    if not shown.aside:
        return element("p", "Nothing was set aside.")
    rows = [element("tr", element("td", str(len(bundle.lines)), class_="figure tight"), element("td", _reason(bundle)))
            for bundle in shown.aside]
    return element("table", element("tbody", rows))


def _reason(bundle: Bundle) -> Child:
    """A reason for setting aside, with every code it covers: the safety classes first."""
    others = [line for line in bundle.lines if not line.safety]
    named = [element("p", f"{name}: {codes}", class_="faint") for name, codes in by_safety(bundle.lines)]
    if others:
        lead = "others: " if named else ""
        named.append(element("p", f"{lead}{by_module(others)}", class_="faint"))
    return [element("p", bundle.head), named]


def _points(texts: Sequence[str], kind: str = "plain") -> Child:
    return element("ul", [element("li", text) for text in texts], class_=kind) if texts else None


def _after_work(shown: View) -> Child:
    if not shown.after_work:
        return None
    return [element("p", f"{AFTER_WORK_SAYS[:1].upper()}{AFTER_WORK_SAYS[1:]}."), _points(shown.after_work)]


def _proofs(shown: View) -> Child:
    """Where each fault stands since the repair, by state; what would prove it."""
    rows = [element("tr", element("th", proof.state, class_="tight"),
                    element("td", element("strong", proof.names), f": {proof.told}")) for proof in shown.proofs]
    return element("table", element("tbody", rows), class_="stack") if rows else None


def _checks(checks: Sequence[Check]) -> Child:
    if not checks:
        return None
    return element("ol", [element("li", element("strong", check.do), _terms(check)) for check in checks],
                   class_="plain checks")


def _terms(check: Check) -> Child:
    """The gate comes before the minutes, so that nobody starts without it."""
    removes = f"{check.gain} of doubt" + (f", on {listing(check.settles, 6)}" if check.settles else "")
    pairs = [("First:", check.gate), ("Where:", check.where), ("Takes", check.minutes), ("Passes if", check.passes),
             ("Removes", removes)]
    return element("p", [[element("em", name), f" {text}. "] for name, text in pairs if text])


def _notices(shown: View) -> Child:
    told: list[Child] = []
    for notice in shown.notices:
        head, *place = notice.show(90).split("\n")
        told.append(element("p", head))
        if place:
            told.append(element("pre", "\n".join(place)))
    return told


__all__ = ["STYLE", "body", "html"]
