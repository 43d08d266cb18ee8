"""Layouts of invented texts of trucks: SPN and FMI in lines, sections and tables."""

from __future__ import annotations

from pastes_blind_codes import Code
from pastes_blind_draw import Hand, Module, Snap
from pastes_blind_lists import module_lines, screen_list

_SOURCES = {
    "truckengine": 0,
    "trucktrans": 3,
    "truckbrake": 11,
    "retarder": 16,
    "truckcluster": 23,
    "vcu": 39,
    "body": 33,
    "ecas": 47,
    "cab": 49,
    "acm": 61,
    "tacho": 238,
    "lights": 30,
    "truckheater": 25,
}
_FORMS = (
    "SPN {s} FMI {f}",
    "SPN {s} / FMI {f}",
    "SPN: {s}, FMI: {f}",
    "SPN{s} FMI{f}",
    "SPN {s}, FMI {f}",
    "spn {s} fmi {f}",
    "SPN={s} FMI={f}",
    "SPN {s} - FMI {f}",
    "SPN {s} FMI {f:02d}",
)


def shown(hand: Hand, code: Code) -> str:
    if not code.code.startswith("SPN"):
        return hand.code(code)
    _, spn, _, fmi = code.code.split()
    code.shown = hand.keep("spn form", _FORMS).format(s=spn, f=int(fmi))
    return code.shown


def _heading(hand: Hand, module: Module) -> str:
    source = _SOURCES[module.name.group]
    return hand.keep(
        "source form", ("{t}", "{t} (SA {n})", "SA {n} {t}", "{t} [{n}]", "{t} (source address {n})", "SA{n:02X}h {t}")
    ).format(t=module.name.printed, n=source)


def _line(hand: Hand, code: Code) -> str:
    count = f"OC {hand.rng.randrange(1, 127)}" if hand.chance("occurrences", 0.4) else ""
    sep = hand.keep("truck separator", (" - ", "  ", "; ", " | ", "\t"))
    return sep.join(
        x for x in (shown(hand, code), code.title if hand.chance("spn titles", 0.8) else "", code.said, count) if x
    )


def _lists(hand: Hand, snap: Snap) -> list[str]:
    out = []
    for module in snap.modules:
        name = _heading(hand, module)
        if module.kind != "codes":
            out.append(f"{name}{hand.keep('truck mark', (': ', ' - ', '   '))}{hand.absent(module)}")
        else:
            out += [
                name + hand.keep("truck colon", (":", "", "")),
                *(f"  {_line(hand, code)}" for code in module.codes),
            ]
        out.append("")
    return out


def _messages(hand: Hand, snap: Snap) -> list[str]:
    """Active and previously active codes under a line each."""
    out = []
    for module in snap.modules:
        out.append(_heading(hand, module))
        if module.kind != "codes":
            out += [f"  {hand.absent(module)}", ""]
            continue
        for code in module.codes:
            code.status = "current" if code.status == "current" else "stored"
        for word, head in (
            ("current", ("Active (DM1):", "DM1 active faults", "Active codes:")),
            ("stored", ("Previously active (DM2):", "DM2 previously active", "Inactive codes:")),
        ):
            codes = [c for c in module.codes if c.status == word]
            if codes:
                out += [f" {hand.keep(f'section {word}', head)}", *(f"  {shown(hand, c)}  {c.title}" for c in codes)]
        out.append("")
    return out


def _table(hand: Hand, snap: Snap) -> list[str]:
    hand.tabular = True
    mark = hand.keep("truck table", (" | ", "\t", ";", ","))
    title = hand.chance("truck titles", 0.7)
    apart = hand.chance("spn fmi apart", 0.7)
    spn_heads = ["SPN", "FMI"] if apart else ["SPN/FMI"]
    heads = [hand.head("module"), *spn_heads, *(["Description"] if title else []), "Status"]
    rows = [heads]
    for module in snap.modules:
        name = _heading(hand, module)
        if module.kind != "codes":
            rows.append([name, *([""] * (len(heads) - 2)), hand.absent(module)])
        for code in module.codes:
            _, spn, _, fmi = code.code.split()
            code.shown = spn
            rows.append(
                [name, *([spn, fmi] if apart else [f"{spn}/{fmi}"]), *([code.title] if title else []), code.said]
            )
    return [mark.join(f'"{cell}"' if mark.strip() and mark.strip() in cell else cell for cell in row) for row in rows]


def truck(hand: Hand, snap: Snap) -> list[str]:
    """One scan of a truck."""
    standard = any(not c.code.startswith("SPN") for m in snap.modules for c in m.codes)
    form = hand.keep("truck form", ("lists", "messages", "table", "lines", "lists"))
    if standard:
        return screen_list(hand, snap) if form != "lines" else module_lines(hand, snap)
    if form == "lines":
        out = []
        for module in snap.modules:
            said = (
                hand.absent(module)
                if module.kind != "codes"
                else "; ".join(shown(hand, c) + (f" ({c.said})" if c.said else "") for c in module.codes)
            )
            out.append(f"{_heading(hand, module)}: {said}")
        return out
    return {"lists": _lists, "messages": _messages, "table": _table}[form](hand, snap)
