"""Layouts in which the random scans of :mod:`pastes` are written down. Each takes the scans and a random source and
gives the text with the set of what it leaves out."""

from __future__ import annotations

import html
import random
from collections.abc import Callable

from pastes import ANSWER, HEADS, LOWEST, PHASE, STATUS, VOLTS, TrueCode, TrueModule, TrueSnapshot

Layout = Callable[[random.Random, list[TrueSnapshot], str], tuple[str, set[str]]]


def number(rng: random.Random, value: float, language: str) -> str:
    text = f"{value:.1f}"
    if language != "en" and rng.random() < 0.8:
        text = text.replace(".", ",")
    return text + rng.choice([" V", "V", " V", " Volt" if language == "de" else " V"])


def stamp(rng: random.Random, snapshot: TrueSnapshot, language: str) -> str:
    at = snapshot.at
    assert at is not None
    if language == "en":
        return rng.choice(
            [f"{at:%Y-%m-%d %H:%M}", f"{at:%d/%m/%Y %H:%M}", f"{at:%d %B %Y %H:%M}", f"{at:%Y-%m-%dT%H:%M}"]
        )
    return rng.choice([f"{at:%d.%m.%Y %H:%M}", f"{at:%d.%m.%Y, %H:%M}", f"{at:%Y-%m-%d %H:%M}"])


def header(rng: random.Random, snapshot: TrueSnapshot, language: str, key: bool = False) -> list[str]:
    """The lines above a scan: phase, date, voltage, in one line or several."""
    parts = []
    if snapshot.phase:
        phase = rng.choice(PHASE[language][snapshot.phase])
        parts.append(f"Phase: {phase}" if key and language == "en" else phase)
    if snapshot.at:
        label = {"en": "Date: ", "de": "Datum: ", "fr": "Date : ", "es": "Fecha: "}[language]
        parts.append((label if key or rng.random() < 0.5 else "") + stamp(rng, snapshot, language))
    if snapshot.volts:
        text = rng.choice(VOLTS[language]).format(number(rng, snapshot.volts, language))
        if snapshot.lowest:
            text += ", " + rng.choice(LOWEST[language]).format(number(rng, snapshot.lowest, language))
        parts.append(text)
    if rng.random() < 0.3 and language == "en":
        parts.append(rng.choice(["Key on, engine off", "Engine running", "KOEO"]))
    return [" - ".join(parts)] if rng.random() < 0.3 and not key and parts else parts


def shown(rng: random.Random, code: TrueCode, form: str) -> str:
    if code.failure_type is None:
        return code.code
    return form.format(code=code.code, ft=code.failure_type)


FORMS = ["{code}-{ft}", "{code}-{ft}", "{code}:{ft}", "{code}{ft}", "{code} [{ft}]", "{code} {ft}", "{code} ({ft})"]


def pick(rng: random.Random, module: TrueModule, language: str) -> str:
    return rng.choice(ANSWER[language][module.answer])


def state(rng: random.Random, code: TrueCode, language: str) -> str:
    return rng.choice(STATUS[language][code.status or "stored"])


def headings(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    form, mark, indent = (
        rng.choice(FORMS),
        rng.choice(["{}", "{}:", "## {}", "=== {} ===", "[{}]", "**{}**"]),
        rng.choice(["  ", "    ", "\t", "- ", "  * "]),
    )
    gap = rng.choice(["  ", " - ", ", ", "   "])
    counts = rng.random() < 0.3
    status_at = rng.choice(["last", "brackets", "second"])
    blank = rng.random() < 0.7
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language), ""]
        for module in snapshot.modules:
            name = mark.format(module.printed)
            if module.answer == "codes":
                suffix = (
                    f" - {len(module.codes)} code{'s' if len(module.codes) > 1 else ''}"
                    if counts and language == "en"
                    else ""
                )
                out.append(name + suffix if mark in ("{}", "## {}") else name)
                for code in module.codes:
                    bits = [shown(rng, code, form), code.text]
                    bits.insert(
                        {"last": 2, "brackets": 2, "second": 1}[status_at],
                        f"({state(rng, code, language)})" if status_at == "brackets" else state(rng, code, language),
                    )
                    out.append(
                        indent + (gap.join(bits) if status_at != "brackets" else gap.join(bits[:2]) + " " + bits[2])
                    )
            elif rng.random() < 0.5 and mark in ("{}", "{}:"):
                out.append(f"{module.printed}: {pick(rng, module, language)}")
            else:
                out += [name, indent + pick(rng, module, language)]
            if blank:
                out.append("")
        out.append("")
    return "\n".join(out), set()


def one_line(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    form = rng.choice(FORMS)
    gap = rng.choice(["  ", " - ", "   ", "\t", ", ", " | ", " "])
    order = rng.choice(["mcts", "mcst", "mcts", "cmts", "ctsm", "msct"])
    width = max(len(module.printed) for snapshot in snapshots for module in snapshot.modules) + 2
    pad = gap == "   " and rng.random() < 0.7
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language), ""]
        for module in snapshot.modules:
            if module.answer != "codes":
                out.append(module.printed + (": " if gap in (", ", " ") else gap) + pick(rng, module, language))
            for code in module.codes:
                bits = {
                    "m": module.printed,
                    "c": shown(rng, code, form),
                    "t": code.text,
                    "s": state(rng, code, language),
                }
                if pad:
                    bits["m"], bits["c"], bits["t"] = bits["m"].ljust(width), bits["c"].ljust(12), bits["t"].ljust(40)
                out.append(gap.join(bits[key] for key in order).rstrip())
        out.append("")
    return "\n".join(out), set()


def colon_lists(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    form = rng.choice(FORMS[:4])
    mark = rng.choice([": ", " - ", " = ", ":"])
    brackets = rng.random() < 0.5
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language), ""]
        for module in snapshot.modules:
            if module.answer != "codes":
                out.append(f"{module.printed}{mark}{pick(rng, module, language)}")
                continue
            codes = [
                f"{shown(rng, code, form)} ({state(rng, code, language)})"
                if brackets
                else f"{shown(rng, code, form)} {state(rng, code, language)}"
                for code in module.codes
            ]
            out.append(f"{module.printed}{mark}{rng.choice([', ', '; ']).join(codes)}")
        out.append("")
    return "\n".join(out), set()


def table(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    kind = rng.choice(["pipe", "markdown", ";", ",", "\t", "html", "aligned", "box"])
    split = rng.random() < 0.6
    columns = ["module", "code", *(["ft"] if split else []), "status", "text"]
    if rng.random() < 0.5:
        rng.shuffle(columns)
    blanks = rng.random() < 0.2 and columns[0] == "module" and kind != "aligned"
    headed = rng.random() < 0.8 or kind in ("markdown", "html", "aligned") or columns[0] != "module" or split
    heads = [rng.choice(HEADS[language][column]) for column in columns]
    form = rng.choice(FORMS)
    out: list[str] = []
    for snapshot in snapshots:
        rows: list[list[str]] = []
        for module in snapshot.modules:
            if module.answer != "codes":
                answer = pick(rng, module, language)
                where = rng.choice(["status", "text", "code"])
                rows.append(
                    [
                        {"module": module.printed, where: answer}.get(column, rng.choice(["", "-", ""]))
                        for column in columns
                    ]
                )
            for at, code in enumerate(module.codes):
                cells = {
                    "module": "" if blanks and at else module.printed,
                    "code": code.code if split else shown(rng, code, form),
                    "ft": code.failure_type or "",
                    "status": state(rng, code, language),
                    "text": code.text,
                }
                rows.append([cells[column] for column in columns])
        out += [*header(rng, snapshot, language), ""]
        out += write_table(kind, heads if headed else None, rows)
        out.append("")
    text = "\n".join(out)
    if kind == "html":
        text = "<html><body>" + text + "</body></html>"
    return text, set()


def write_table(kind: str, heads: list[str] | None, rows: list[list[str]]) -> list[str]:
    every = ([heads] if heads else []) + rows
    if kind == "html":
        body = ["<tr>" + "".join(f"<td>{html.escape(cell)}</td>" for cell in row) + "</tr>" for row in every]
        return ["<table>", *body, "</table>"]
    if kind in (";", ","):
        return [kind.join(f'"{cell}"' if kind in cell or '"' in cell else cell for cell in row) for row in every]
    if kind == "\t":
        return ["\t".join(row) for row in every]
    widths = [max(len(row[at]) for row in every) for at in range(len(every[0]))]
    padded = [[cell.ljust(width) for cell, width in zip(row, widths, strict=True)] for row in every]
    if kind == "aligned":
        return ["   ".join(row).rstrip() for row in padded]
    if kind == "box":
        lines = ["│ " + " │ ".join(row) + " │" for row in padded]
        rule = "├" + "┼".join("─" * (width + 2) for width in widths) + "┤"
        return [lines[0], rule, *lines[1:]]
    lines = ["| " + " | ".join(row) + " |" for row in padded]
    if kind == "markdown" or (kind == "pipe" and heads):
        lines.insert(1, "|" + "|".join("-" * (width + 2) for width in widths) + "|")
    return lines


def key_values(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    mark = rng.choice([": ", " = ", ": ", ":  "])
    repeat = rng.random() < 0.5
    heads = {name: rng.choice(options) for name, options in HEADS[language].items()}
    order = rng.choice(
        [["code", "ft", "status", "text"], ["code", "text", "status", "ft"], ["code", "status", "ft", "text"]]
    )
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language, key=True), ""]
        for module in snapshot.modules:
            first = f"{heads['module']}{mark}{module.printed}"
            if module.answer != "codes":
                out += [first, f"{heads['status']}{mark}{pick(rng, module, language)}", ""]
                continue
            for at, code in enumerate(module.codes):
                if repeat or at == 0:
                    out.append(first)
                values = {
                    "code": code.code,
                    "ft": code.failure_type,
                    "status": state(rng, code, language),
                    "text": code.text,
                }
                out += [f"{heads[key]}{mark}{values[key]}" for key in order if values[key]]
                if repeat or rng.random() < 0.5:
                    out.append("")
            out.append("")
    return "\n".join(out), set()


def prose(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    out = []
    for snapshot in snapshots:
        parts = []
        for module in snapshot.modules:
            name = module.printed
            if module.answer == "silent":
                parts.append(
                    f"{name} {rng.choice(['did not answer', 'no response', 'is not responding', 'did not respond'])}"
                )
            elif module.answer == "clean":
                parts.append(f"{name} {rng.choice(['has no codes', 'is clean', 'no faults'])}")
            elif module.answer == "codes":
                codes = [
                    f"{shown(rng, code, '{code}-{ft}')} {rng.choice(STATUS['en'][code.status or 'stored'][:1])}"
                    for code in module.codes
                ]
                listed = codes[0] if len(codes) == 1 else ", ".join(codes[:-1]) + " and " + codes[-1]
                parts.append(
                    rng.choice(
                        [
                            f"{name} has {listed}",
                            f"{name} shows {listed}",
                            f"{name}: {listed}",
                            f"{name} with {listed}",
                        ]
                    )
                )
        if snapshot.volts:
            parts.insert(rng.choice([0, len(parts)]), f"battery {snapshot.volts:.1f}" + rng.choice(["", " V"]))
        joint = rng.choice([", ", "; ", ". ", "\n"])
        lead = [
            " ".join(
                bit
                for bit in (
                    (rng.choice(PHASE["en"][snapshot.phase]) if snapshot.phase else ""),
                    (f"{snapshot.at:%Y-%m-%d %H:%M}" if snapshot.at else ""),
                )
                if bit
            )
        ]
        out += [*([lead[0] + ":"] if lead[0] else []), joint.join(parts) + ".", ""]
    return "\n".join(out), {"lowest"}


def sections(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    form = rng.choice(FORMS[:3])
    words = {
        "current": "Current codes",
        "stored": "Stored codes",
        "pending": "Pending codes",
        "confirmed": "Confirmed codes",
        "permanent": "Permanent codes",
    }
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, "en"), ""]
        for module in snapshot.modules:
            out.append(module.printed)
            if module.answer != "codes":
                out += ["  " + pick(rng, module, "en"), ""]
                continue
            for status, word in words.items():
                codes = [code for code in module.codes if code.status == status]
                if codes:
                    out.append(f"  {word}:")
                    out += [f"    {shown(rng, code, form)}  {code.text}" for code in codes]
            out.append("")
    return "\n".join(out), set()


def printed_report(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    """A report copied out of a PDF: lines wrapped inside descriptions, page heads and feet between."""
    width = rng.choice([48, 56, 64, 72])
    lines = []
    for snapshot in snapshots:
        lines += [*header(rng, snapshot, language), ""]
        for module in snapshot.modules:
            lines.append(module.printed)
            if module.answer != "codes":
                lines.append("  " + pick(rng, module, language))
            for code in module.codes:
                words = f"  {shown(rng, code, '{code}-{ft}')}  {code.text}".split(" ")
                line = ""
                for word in [*words, f"({state(rng, code, language)})"]:
                    if len(line) + len(word) + 1 > width and line.strip():
                        lines.append(line)
                        line = "      " + word if rng.random() < 0.8 else word
                    else:
                        line = f"{line} {word}" if line else word
                lines.append(line)
            lines.append("")
    out = []
    page, pages = 1, len(lines) // 30 + 1
    for at, line in enumerate(lines):
        out.append(line)
        if at and at % 30 == 0:
            page += 1
            out += ["", f"Page {page - 1} of {pages}", "\fNorth street garage - vehicle check", ""]
    return "\n".join(out), set()


def log_pairs(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    mark, gap = rng.choice([(": ", ", "), ("=", " "), (": ", " | "), ("=", "; ")])
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, "en"), ""]
        for module in snapshot.modules:
            name = f'"{module.printed}"' if gap == " " else module.printed
            if module.answer != "codes":
                out.append(f"module{mark}{name}{gap}result{mark}{pick(rng, module, 'en')}")
            for code in module.codes:
                parts = [
                    ("module", name),
                    ("code", code.code),
                    ("ftb", code.failure_type),
                    ("status", rng.choice(STATUS["en"][code.status or "stored"][:1])),
                ]
                out.append(gap.join(f"{key}{mark}{value}" for key, value in parts if value))
        out.append("")
    return "\n".join(out), set()


def modules_across(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    form, mark = rng.choice(FORMS), rng.choice(["\t", ";", " | "])
    out = []
    for snapshot in snapshots:
        columns = [
            [module.printed, *([f"{shown(rng, code, form)} ({state(rng, code, language)})" for code in module.codes]
                               or [pick(rng, module, language)])]
            for module in snapshot.modules
        ]
        rows = [[column[at] if at < len(column) else "" for column in columns] for at in range(max(map(len, columns)))]
        out += [*header(rng, snapshot, language), "", *(mark.join(row) for row in rows), ""]
    return "\n".join(out), set()


LAYOUTS: dict[str, Layout] = {
    "headings": headings,
    "one line": one_line,
    "colon lists": colon_lists,
    "table": table,
    "keys and values": key_values,
    "prose": prose,
    "sections": sections,
    "printed report": printed_report,
    "pairs": log_pairs,
    "modules across": modules_across,
}
