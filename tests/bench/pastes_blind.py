"""Invented texts as technicians paste them, each with the truth a reader must give back, as a function of a seed.

    python tests/bench/pastes_blind.py --seed 1 --count 3

prints texts with their truth. Nothing in them comes from a real vehicle or a real printout; the generator was written
without a look at the reader or at its tests, so that it measures and does not repeat what the reader expects. About a
third of the texts is sloppy. Where a careful reader could doubt, the truth says nothing (None: not scored).
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Callable
from dataclasses import replace

import pastes_blind_around as around
import pastes_blind_words as words
from pastes_blind_draw import Hand, Paste, Snap, visit
from pastes_blind_lists import blocks, code_first, module_lines, screen_list
from pastes_blind_pages import printed_pages
from pastes_blind_prose import dictated, prose
from pastes_blind_slips import careless, misspell
from pastes_blind_tables import html_page, table
from pastes_blind_trucks import truck

Body = Callable[[Hand, Snap], list[str]]
BODIES: dict[str, tuple[Body, str]] = {
    "screen list": (screen_list, "list"),
    "code first": (code_first, "list"),
    "module lines": (module_lines, "list"),
    "table": (table, "table"),
    "csv": (lambda h, s: table(h, s, h.keep("csv kind", ("csv;", "csv,"))), "csv"),
    "blocks": (blocks, "list"),
    "prose": (prose, "prose"),
    "printed pages": (printed_pages, "pages"),
    "html": (html_page, "html"),
    "dictated": (dictated, "prose"),
    "truck": (truck, "list"),
}
LAYOUTS = {
    "screen list": 14,
    "code first": 9,
    "module lines": 10,
    "table": 12,
    "csv": 7,
    "blocks": 7,
    "prose": 11,
    "printed pages": 7,
    "html": 6,
    "several": 12,
    "dictated": 5,
    "truck": 6,
    "mixed": 7,
}
_PLAIN = ("screen list", "code first", "module lines", "table", "blocks")
_SHEETS = ("screen list", "module lines", "table", "prose", "code first")
_LANGUAGES = {"en": 70, "de": 14, "fr": 8, "es": 8}
_TITLES = {
    "en": (
        "Scan report",
        "Full vehicle scan",
        "Diagnostic scan",
        "Fault code readout",
        "All modules",
        "DTC report",
        "Health check",
    ),
    "de": ("Fehlerspeicher auslesen", "Gesamtabfrage"),
    "fr": ("Lecture des défauts", "Test global"),
    "es": ("Lectura de averías", "Test global"),
}
_SCAN = {"en": "Scan", "de": "Abfrage", "fr": "Lecture", "es": "Lectura"}


def paste(seed: int, number: int) -> Paste:
    """Text ``number`` of a seed."""
    rng = random.Random(f"pastes:{seed}:{number}")
    layout = rng.choices(list(LAYOUTS), list(LAYOUTS.values()))[0]
    lang = "en" if layout == "dictated" else rng.choices(list(_LANGUAGES), list(_LANGUAGES.values()))[0]
    kind = "truck" if layout == "truck" else rng.choices(("car", "van", "electric"), (5, 3, 2))[0]
    sloppy = layout == "dictated" or rng.random() < 0.3
    hand = Hand(rng, lang, sloppy, kind)
    if layout == "several":
        text, snaps, family = _several(hand)
    elif layout == "mixed":
        text, snaps, family = _mixed(hand)
    else:
        text, snaps, family = _single(hand, layout)
    if sloppy:
        text = careless(rng, text, snaps, family)
    if family == "csv" and rng.random() < 0.4:
        text = "\ufeff" + text
    if rng.random() < 0.2:
        text = text.replace("\n", "\r\n")
    return Paste(layout, sloppy, lang, text, snaps)


def _draw(hand: Hand, body: str, passes: int = 1) -> list[Snap]:
    rng = hand.rng
    talk = body in ("prose", "dictated")
    family = "talk" if talk and hand.lang == "en" and rng.random() < 0.75 else None
    snaps = visit(rng, hand.lang, hand.kind, passes, family, rng.randrange(2, 8) if talk else 0)
    if talk:
        for module in (m for s in snaps for m in s.modules):
            module.codes = [c for c in module.codes if not c.opaque][:4]
            if module.kind == "codes" and not module.codes:
                module.kind = "clean"
    if hand.sloppy and not talk and rng.random() < 0.15:
        long = [m.name for m in snaps[0].modules if len(m.name.printed) > 11 and m.name.printed.isalpha()]
        if long:
            old = rng.choice(long)
            new = replace(old, printed=misspell(rng, old.printed))
            for module in (m for s in snaps for m in s.modules if m.name == old):
                module.name = new
    return snaps


def _single(hand: Hand, layout: str) -> tuple[str, list[Snap], str]:
    body, family = BODIES[layout]
    (snap,) = _draw(hand, layout)
    lines = body(hand, snap)
    if layout in ("prose", "dictated"):
        return "\n".join(_letter(hand, snap, lines)), [snap], family
    text = "\n".join(_report(hand, snap, lines, family == "html"))
    return text, [snap], "table" if hand.tabular else family


def _letter(hand: Hand, snap: Snap, lines: list[str]) -> list[str]:
    rng = hand.rng
    out = [around.opening(rng, hand.lang), ""] if rng.random() < 0.5 else []
    if rng.random() < 0.4:
        out += (
            around.vehicle(rng, hand.kind, hand.lang)[:2]
            if rng.random() < 0.5
            else [rng.choice(around.NOTES[hand.lang])]
        )
    if rng.random() < 0.2:
        snap.phase = "before-clear"
        lines = [_phase_words(hand, snap.phase) + ":", *lines]
    out += lines
    if rng.random() < 0.3:
        out.append(rng.choice(around.NOTES[hand.lang]))
    if rng.random() < 0.15:
        out.append(rng.choice(words.DISTRACTORS[hand.lang]))
    return [*out, "", around.closing(rng, hand.lang)] if rng.random() < 0.4 else out


def _phase_words(hand: Hand, phase: str) -> str:
    return words.pick(hand.rng, words.PHASES[phase], hand.lang).rstrip(":")


def _report(hand: Hand, snap: Snap, lines: list[str], page: bool = False) -> list[str]:
    """The lines of one scan with what stands above and below it."""
    rng = hand.rng
    top: list[str] = [rng.choice(_TITLES[hand.lang])] if rng.random() < 0.5 else []
    if rng.random() < 0.6:
        top += around.vehicle(rng, hand.kind, hand.lang)
    if rng.random() < 0.3:
        label = {"de": "Datum", "fr": "Date", "es": "Fecha"}.get(hand.lang, "Date")
        top.append(f"{label}: {around.date(rng, hand.lang, snap.day, snap.minutes)}")
    if rng.random() < 0.2:
        snap.phase = rng.choice(("before-clear", "before-clear", "after-clear", "after-run"))
        top.append(_phase_words(hand, snap.phase))
    low: list[str] = []
    volts = hand.volts(snap)
    if volts:
        (low if rng.random() < 0.12 else top).append(volts)
        if rng.random() < 0.1:
            snap.lowest = round(float(snap.volts or 0) * 0.75, 1)
            form = words.pick(rng, words.LOWEST, hand.lang)
            top.append(form.format(v=words.number(rng, snap.lowest, hand.comma)))
    if rng.random() < 0.2:
        trucks = words.TRUCK_DISTRACTORS
        top.append(rng.choice(trucks if hand.kind == "truck" else words.DISTRACTORS[hand.lang]))
    if rng.random() < 0.2:
        top.append(rng.choice(around.NOTES[hand.lang]))
    if rng.random() < 0.15:
        low.append(rng.choice(around.LEGENDS))
    if rng.random() < 0.15:
        total = sum(len(m.codes) for m in snap.modules)
        low.append(
            {"en": f"Total codes: {total}", "de": f"Fehler gesamt: {total}", "fr": f"Total défauts : {total}"}.get(
                hand.lang, f"Total: {total}"
            )
        )
    if rng.random() < 0.2:
        low.append(rng.choice(around.NOTES[hand.lang]))
    if page:
        return _page(rng, top, lines, low)
    gap = [""] if rng.random() < 0.8 else []
    return [*top, *(gap if top else []), *lines, *(gap if low else []), *low]


def _page(rng: random.Random, top: list[str], lines: list[str], low: list[str]) -> list[str]:
    """The parts of a page, with or without its frame."""
    if rng.random() < 0.5:
        out = [*(f"<p>{t}</p>" for t in top), *lines, *(f"<p>{t}</p>" for t in low)]
    else:
        out = ["<div>", *(f"{t}<br>" for t in top), "</div>", *lines, *(f"<div>{t}</div>" for t in low)]
    if rng.random() < 0.4:
        return out
    style = "<style>td{font:12px sans-serif}</style>" if rng.random() < 0.5 else ""
    return [f"<html><head><title>Report</title>{style}</head><body>", *out, "</body></html>"]


def _several(hand: Hand) -> tuple[str, list[Snap], str]:
    """Two to four passes, each under its own heading."""
    rng = hand.rng
    body = rng.choices((*_PLAIN, "prose"), (5, 3, 4, 3, 1, 3))[0]
    passes = rng.choices((2, 3, 4), (6, 3, 1))[0]
    snaps = _draw(hand, body, passes)
    phases = ["before-clear", *(["after-clear", "after-run", "after-repair"][: passes - 1])]
    by = hand.keep("pass heads", ("phase", "phase", "both", "number", "date"))
    out = [*around.vehicle(rng, hand.kind, hand.lang), ""] if rng.random() < 0.5 else []
    frame = hand.keep(
        "pass frame",
        ("=== {t} ===", "{t}", "{t}:", "### {t}", "----- {t} -----", "** {t} **", "{t}\n---------------", "[{t}]"),
    )
    for number, (snap, phase) in enumerate(zip(snaps, phases, strict=True), 1):
        head = _phase_words(hand, phase)
        date = around.date(rng, hand.lang, snap.day, snap.minutes)
        text = {
            "phase": head,
            "both": f"{date} {head}",
            "number": f"{_SCAN[hand.lang]} {number} - {head}",
            "date": f"{_SCAN[hand.lang]} {date}",
        }[by]
        snap.phase = None if by == "date" else phase
        out.append(frame.format(t=text))
        lines = BODIES[body][0](hand, snap)
        if body == "prose" and number > 1 and hand.lang == "en" and rng.random() < 0.3:
            lines += _gone(rng, snaps[number - 2], snap)
        volts = hand.volts(snap) if body != "prose" else None
        out += [*([volts] if volts else []), *lines, *([""] if not hand.sloppy or rng.random() < 0.7 else [])]
    return "\n".join(out), snaps, BODIES[body][1]


def _gone(rng: random.Random, before: Snap, now: Snap) -> list[str]:
    """A word about a code that has gone from every module."""
    left = {c.code for m in now.modules for c in m.codes}
    gone = sorted({c.code for m in before.modules for c in m.codes if not c.failure_type} - left)
    if not gone:
        return []
    return [
        rng.choice(("{c} did not come back.", "{c} is gone.", "No more {c}.", "{c} has not returned.")).format(
            c=rng.choice(gone)
        )
    ]


_SHEET = {
    "en": (
        "Complaint: does not start",
        "Complaint: warning lamps after jump start",
        "Checked: fuses ok",
        "Load test battery: failed",
        "Work: charged overnight",
        "Customer waits",
        "Battery: AGM 12 V 70 Ah",
        "Key-off draw: 38 mA",
        "Earth straps: tight",
        "Keys: 2",
    ),
    "de": (
        "Beanstandung: startet nicht",
        "Geprüft: Sicherungen i.O.",
        "Batterie: 12 V 80 Ah AGM",
        "Ruhestrom: 35 mA",
        "Schlüssel: 2",
    ),
    "fr": ("Plainte : ne démarre pas", "Contrôlé : fusibles OK", "Batterie : 12 V 70 Ah", "Clés : 2"),
    "es": ("Queja: no arranca", "Comprobado: fusibles correctos", "Batería: 12 V 70 Ah", "Llaves: 2"),
}


def _mixed(hand: Hand) -> tuple[str, list[Snap], str]:
    """An intake sheet, then one or two scans, each in its own layout."""
    rng = hand.rng
    sheet = around.vehicle(rng, hand.kind, hand.lang) + rng.sample(_SHEET[hand.lang], rng.randrange(2, 5))
    rng.shuffle(sheet)
    passes = rng.choice((1, 2, 2))
    first = rng.choice(_SHEETS)
    snaps = _draw(hand, first, passes)
    out, family = [*sheet, ""], "list"
    for snap, phase in zip(snaps, ("before-clear", rng.choice(("after-clear", "after-run"))), strict=False):
        body = first if rng.random() < 0.6 or first == "prose" else rng.choice(_PLAIN)
        family = "table" if body == "table" else family
        snap.phase = phase
        out.append(_phase_words(hand, phase) + rng.choice(("", ":", " -")))
        lines = BODIES[body][0](hand, snap)
        volts = hand.volts(snap) if body != "prose" else None
        out += [*([volts] if volts else []), *lines, ""]
    if rng.random() < 0.5:
        out.append(rng.choice(around.NOTES[hand.lang]))
    return "\n".join(out), snaps, family


def pastes(seed: int, count: int) -> list[Paste]:
    """``count`` texts of a seed; a shorter run is the start of a longer one."""
    return [paste(seed, number) for number in range(count)]


def truth_lines(paste: Paste) -> list[str]:
    """The truth in a few words, for the eye."""
    out = []
    for snap in paste.snapshots:
        out.append(f"phase {snap.phase}, volts {snap.volts}")
        for m in snap.modules:
            codes = ", ".join(f"{c.code}{'-' + c.failure_type if c.failure_type else ''} {c.status}" for c in m.codes)
            out.append(f"  {m.name.printed}: {codes or m.kind}")
    return out


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=3)
    args = parser.parse_args()
    for number, item in enumerate(pastes(args.seed, args.count)):
        print(f"##### {number} {item.layout} {item.lang} {'sloppy' if item.sloppy else 'neat'}\n{item.text}\n--- truth")
        print("\n".join(truth_lines(item)), "\n")


if __name__ == "__main__":
    main()
