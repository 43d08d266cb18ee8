"""Layouts of invented texts that are tables: pipes, Markdown, tabs, aligned, CSV in several kinds, HTML."""

from __future__ import annotations

import html

from pastes_blind_draw import Hand, Module, Snap, heading

_KINDS = ("pipes", "markdown", "tabs", "aligned", "csv;", "csv,", "csv;", "boxed")


def _columns(hand: Hand) -> list[str]:
    out = ["module", "code"]
    if hand.chance("type column", 0.35):
        out.append("type")
    if hand.chance("title column", 0.85):
        out.append("title")
    out += [c for c, share in (("status", 0.97), ("count", 0.25), ("km", 0.15)) if hand.chance(f"{c} column", share)]
    if hand.sloppy and hand.chance("columns out of order", 0.5):
        hand.rng.shuffle(out)
    elif hand.chance("code column first", 0.2):
        out.remove("code")
        out.insert(0, "code")
    return out


def _rows(hand: Hand, snap: Snap, columns: list[str]) -> list[list[str]]:
    """Rows of text under ``columns``; the module's cell may be left empty after its first row if it stands first."""
    repeat = columns[0] != "module" or not hand.chance("cells left out", 0.3)
    ditto = hand.keep("ditto", ("", "", '"')) if not hand.sloppy else ""
    rows = []
    for module in snap.modules:
        name = heading(hand, module.name)
        if module.kind != "codes":
            rows.append(_absent_row(hand, module, name, columns))
            continue
        for index, code in enumerate(module.codes):
            cells = {
                "module": name if repeat or index == 0 else ditto,
                "code": hand.code(code, typed="type" not in columns),
                "type": code.failure_type or "",
                "title": code.title,
                "status": code.said,
                "count": str(hand.rng.randrange(1, 50)),
                "km": str(hand.rng.randrange(9_000, 300_000)),
            }
            if "status" not in columns:
                code.status = "none"
            rows.append([cells[c] for c in columns])
    return rows


def _absent_row(hand: Hand, module: Module, name: str, columns: list[str]) -> list[str]:
    places = [c for c in ("code", "title", "status") if c in columns]
    place = hand.keep("absent place", places)
    blank = hand.keep("blank cell", ("", "-", "", "--", "n/a")) if module.kind in ("clean", "silent") else ""
    text = hand.absent(module)
    out = []
    for column in columns:
        out.append(name if column == "module" else text if column == place else blank if column in places else "")
    return out


def table(hand: Hand, snap: Snap, kind: str | None = None) -> list[str]:
    """A table as text."""
    kind = kind or hand.keep("table kind", _KINDS)
    columns = _columns(hand)
    rows = _rows(hand, snap, columns)
    heads = [hand.head(c) for c in columns]
    if hand.chance("heads upper", 0.2):
        heads = [h.upper() for h in heads]
    headless = hand.chance("no heads", 0.08) and not {"type", "count", "km"} & set(columns)
    everything = rows if headless else [heads, *rows]
    if kind == "markdown":
        return [
            f"| {' | '.join(heads)} |",
            "|" + "|".join("---" for _ in columns) + "|",
            *(f"| {' | '.join(r)} |" for r in rows),
        ]
    if kind == "pipes":
        mark = hand.keep("pipe", (" | ", "|", " ¦ "))
        return [mark.join(row).rstrip() if not hand.sloppy else mark.join(row) for row in everything]
    if kind == "tabs":
        return ["\t".join(row) for row in everything]
    if kind.startswith("csv"):
        mark = kind[3]
        quoted = hand.chance("all quoted", 0.35)
        return [mark.join(_quoted(cell, mark, quoted) for cell in row) for row in everything]
    widths = [max(len(row[i]) for row in [heads, *rows]) + 2 for i in range(len(columns))]
    if kind == "boxed":
        rule = "+" + "+".join("-" * (w + 1) for w in widths) + "+"
        lines = [
            "|" + "|".join(f" {cell:<{w}}" for cell, w in zip(row, widths, strict=True)) + "|" for row in everything
        ]
        return [rule, lines[0], rule, *lines[1:], rule]
    lines = ["".join(f"{cell:<{w}}" for cell, w in zip(row, widths, strict=True)).rstrip() for row in everything]
    if hand.chance("underlined", 0.4) and not headless:
        lines.insert(1, "-" * min(sum(widths), 100))
    return lines


def _quoted(cell: str, mark: str, always: bool) -> str:
    if always or mark in cell or '"' in cell:
        return '"' + cell.replace('"', '""') + '"'
    return cell


def html_page(hand: Hand, snap: Snap) -> list[str]:
    """A page with a table: one for all, module names spanning a row, or a heading and a table a module."""
    form = hand.keep("html form", ("one", "spans", "each", "one"))
    escape = (lambda t: html.escape(t).replace(" ", "&nbsp;")) if hand.chance("hard spaces", 0.2) else html.escape
    td = hand.keep("cell tag", ("td", "td", 'td class="c"', 'td style="padding:2px"', "TD"))
    out: list[str] = []
    if form == "one":
        columns = _columns(hand)
        rows = _rows(hand, snap, columns)
        out.append(hand.keep("table tag", ("<table>", '<table border="1">', '<TABLE class="dtc">')))
        out.append("<tr>" + "".join(f"<th>{escape(hand.head(c))}</th>" for c in columns) + "</tr>")
        out += ["<tr>" + "".join(f"<{td}>{escape(cell)}</{td.split()[0]}>" for cell in row) + "</tr>" for row in rows]
        out.append("</table>")
    elif form == "spans":
        out.append("<table>")
        for module in snap.modules:
            name = escape(heading(hand, module.name))
            if module.kind != "codes":
                out.append(f'<tr><th colspan="2">{name}</th><{td}>{escape(hand.absent(module))}</{td.split()[0]}></tr>')
                continue
            out.append(f'<tr><th colspan="3">{name}</th></tr>')
            for code in module.codes:
                cells = (hand.code(code), code.title, code.said)
                out.append("<tr>" + "".join(f"<{td}>{escape(c)}</{td.split()[0]}>" for c in cells) + "</tr>")
        out.append("</table>")
    else:
        tag = hand.keep("heading tag", ("h3", "h2", "h4", "b", 'p class="mod"'))
        for module in snap.modules:
            out.append(f"<{tag}>{escape(heading(hand, module.name))}</{tag.split()[0]}>")
            if module.kind != "codes":
                out.append(f"<p>{escape(hand.absent(module))}</p>")
                continue
            out.append("<ul>")
            out += [
                "<li>" + escape(" - ".join(x for x in (hand.code(c), c.title, c.said) if x)) + "</li>"
                for c in module.codes
            ]
            out.append("</ul>")
    return ["".join(out)] if hand.chance("one long line", 0.2) else out
