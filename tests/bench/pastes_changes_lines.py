"""Changes of what lines and their cells hold: order, columns, voltages, dates, headings, a letter mistyped."""

from __future__ import annotations

import re
from dataclasses import replace
from random import Random

from pastes_blind_draw import Module, Paste
from pastes_blind_names import Name
from pastes_changes import Change, of_text, sub
from pastes_changes_words import STATUSES, any_of

_CODE = re.compile(r"\b[PCBU][0-3][0-9A-F]{3}\b")
#: Clean modules that a text gets in addition.
_MORE = ("Seat heater rear", "Horn", "Interior lamp", "Wiper", "Klappe hinten", "Antenne", "Caméra arrière", "Bocina")
#: Headings of scans, each row of one meaning.
_HEADINGS = [row.split(";") for row in (
    "Before clearing;Prior to clearing;Before clear;Pre-clear scan",
    "After clearing;After clear;Post-clear scan;Rescan after clearing",
    "Vor dem Löschen;Vor Löschen",
    "Nach dem Löschen;Nach Löschen",
    "Avant effacement;Avant effacement des défauts",
    "Après effacement;Après effacement des défauts",
    "Antes de borrar;Antes del borrado",
    "Después de borrar;Después del borrado;Tras el borrado",
    "After road test;After test drive;After the drive",
    "Nach Probefahrt;Nach der Probefahrt",
)]
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def codes_turned(paste: Paste, rng: Random) -> Paste | None:
    """The lines of one module's codes in turned order, where they follow one another in one form."""
    lines = paste.text.split("\n")
    owners = _owners(paste)
    keys = [_form(line, owners) for line in lines]
    out, start = [], 0
    for at in range(1, len(lines) + 1):
        if at == len(lines) or keys[at] is None or keys[at] != keys[start]:
            run = lines[start:at]
            out += run[::-1] if keys[start] is not None else run
            start = at
    text = "\n".join(out)
    return None if text == paste.text else replace(paste, text=text)


def _owners(paste: Paste) -> dict[str, str]:
    """The module of each code that only one module has."""
    owners: dict[str, set[str]] = {}
    for snap in paste.snapshots:
        for module in snap.modules:
            for code in module.codes:
                owners.setdefault(code.code, set()).add(module.name.printed)
    return {code: names.pop() for code, names in owners.items() if len(names) == 1}


def _form(line: str, owners: dict[str, str]) -> tuple[str, str, int] | None:
    """What a line shares with others that may change places with it: module, what stands before the code, its cells."""
    found = list(_CODE.finditer(line))
    if len(found) != 1 or found[0][0] not in owners:
        return None
    return owners[found[0][0]], line[: found[0].start()], len(re.findall(r"\t|\||;|,| {2,}", line))


def blocks_turned(paste: Paste, rng: Random) -> Paste | None:
    """Neighbours among the modules change places, where each stands in a block of lines of its own."""
    names = {module.name.printed for snap in paste.snapshots for module in snap.modules}
    blocks = paste.text.split("\n\n")
    heads = [block.split("\n")[0] for block in blocks]
    own = [sum(name in head for name in names) == 1 and len(block.split("\n")) > 1
           and not _CODE.search(head) and not re.search(r"\d[.,]\d ?V|\d:\d\d", block)
           for head, block in zip(heads, blocks, strict=True)]
    out = list(blocks)
    at = 0
    while at + 1 < len(out):
        if own[at] and own[at + 1] and at + 2 < len(out):
            out[at], out[at + 1] = out[at + 1], out[at]
            at += 1
        at += 1
    text = "\n\n".join(out)
    return None if text == paste.text else replace(paste, text=text)


def clean_added(paste: Paste, rng: Random) -> Paste | None:
    """One more clean module, in a line like that of another which says it all."""
    lines = paste.text.split("\n")
    for number, snap in enumerate(paste.snapshots):
        for module in snap.modules:
            name = module.name.printed
            at = [i for i, line in enumerate(lines) if re.search(rf"(?<!\w){re.escape(name)}(?!\w)", line)]
            if module.kind != "clean" or len(at) != len(paste.snapshots):
                continue
            line = lines[at[number]]
            others = any(other.name.printed in line for other in snap.modules if other is not module)
            if others or not 4 < len(line.replace(name, "", 1)) < 40 or not re.search(
                    r"[^\W\d_]{2}", re.sub(r"\(.*?\)|\[.*?\]|  .*", "", line.partition(name)[2])):
                continue
            more = rng.choice([name for name in _MORE if name not in paste.text])
            lines.insert(at[number] + 1, line.replace(name, more))
            snaps = list(paste.snapshots)
            snaps[number] = replace(snap, modules=[*snap.modules, Module(Name("", more, "\0"), "clean")])
            return replace(paste, text="\n".join(lines), snapshots=snaps)
    return None


def columns_swapped(paste: Paste, rng: Random) -> Paste | None:
    """In a table whose cells marks part, the column of codes and the one behind it change places."""
    for mark in ("\t", "|", ";"):
        rows = [line.split(mark) for line in paste.text.split("\n")]
        coded = [(i, j) for i, row in enumerate(rows) for j, cell in enumerate(row) if _CODE.fullmatch(cell.strip())]
        columns = {j for _, j in coded}
        widths = {len(rows[i]) for i, _ in coded}
        if len(columns) != 1 or len(widths) != 1 or len(coded) < 3:
            continue
        column, width = columns.pop(), widths.pop()
        if width < column + 2 + (mark == "|"):
            continue
        for row in rows:
            if len(row) == width:
                row[column], row[column + 1] = row[column + 1], row[column]
        return replace(paste, text="\n".join(mark.join(row) for row in rows))
    return None


def tabs(paste: Paste, rng: Random) -> Paste | None:
    """Tabs for the gaps of a table none of whose cells is empty."""
    lines = paste.text.split("\n")
    parted = [line for line in lines if re.search(r"\S {2,}\S", line)]
    widths = {len(re.split(r" {2,}", line.strip())) for line in parted}
    if len(parted) < 4 or len(widths) != 1 or widths.pop() < 3:
        return None
    return sub(r"(?<=\S) {2,}(?=\S)", "\t")(paste, rng)


def headings(paste: Paste, rng: Random) -> Paste | None:
    """Headings of scans in other words."""
    new = {word.lower(): rng.choice([other for other in row if other != word]) for row in _HEADINGS for word in row}
    found = re.compile(rf"\b(?:{any_of(list(new))})\b", re.IGNORECASE)

    def cased(match: re.Match[str]) -> str:
        word = new[match[0].lower()]
        return word.upper() if match[0].isupper() else word if match[0][0].isupper() else word[0].lower() + word[1:]

    return of_text(lambda text: found.sub(cased, text))(paste, rng)


def dates(paste: Paste, rng: Random) -> Paste | None:
    """The month as a word, so that the day stands apart from it; only where the order of the numbers is decided."""
    found = re.compile(r"\b(\d{4})-(\d\d)-(\d\d)\b")
    return of_text(lambda text: found.sub(
        lambda m: f"{int(m[3])} {_MONTHS[int(m[2]) - 1]} {m[1]}" if 0 < int(m[2]) < 13 else m[0], text))(paste, rng)


def mistyped(paste: Paste, rng: Random) -> Paste | None:
    """Two letters turned in a long status word that stands alone in brackets or in a cell."""
    words = [word for row in STATUSES for word in row if len(word) > 7 and " " not in word]
    found = re.compile(rf"(?<=[(\[\t|])( ?)({any_of(words)})(?= ?[)\]\t|])", re.IGNORECASE)
    hits = list(found.finditer(paste.text))
    if len(hits) < 2:
        return None
    hit = rng.choice(hits)
    at = hit.start(2) + rng.randint(2, len(hit[2]) - 3)
    text = paste.text
    turned = text[:at] + text[at + 1] + text[at] + text[at + 2:]
    return None if turned == text else replace(paste, text=turned)


def quoted_names(paste: Paste, rng: Random) -> Paste | None:
    """Quotes round each name that stands in sentences."""
    names = sorted({module.name.printed for snap in paste.snapshots for module in snap.modules})
    if any(a != b and a.lower() in b.lower() for a in names for b in names):
        return None
    found = re.compile(rf"(?<![\w“\"'-])(?:{any_of(names)})(?![\w”\"'-])")
    return of_text(lambda text: found.sub(lambda m: f"“{m[0]}”", text))(paste, rng)


def _volts(pattern: str, by: str) -> Change:
    return sub(rf"(?<![\d.,]){pattern}", by)


#: What stands in lines and cells.
LINES: dict[str, Change] = {
    "codes turned": codes_turned,
    "modules turned": blocks_turned,
    "clean module": clean_added,
    "columns swapped": columns_swapped,
    "tabs": tabs,
    "headings": headings,
    "dates": dates,
    "mistyped status": mistyped,
    "quoted names": quoted_names,
    "decimal comma": _volts(r"(\d\d?)\.(\d\d?)(?= ?(?:V|Volts?|volts?)\b)", r"\1,\2"),
    "decimal point": _volts(r"(\d\d?),(\d\d?)(?= ?(?:V|Volts?|volts?)\b)", r"\1.\2"),
    "unit glued": _volts(r"(\d\d?[.,]\d\d?) V\b", r"\1V"),
    "unit apart": _volts(r"(\d\d?[.,]\d\d?)V\b", r"\1 V"),
    "unit in words": _volts(r"(\d\d?[.,]\d\d?) ?V\b", r"\1 Volt"),
}
