"""Invented texts as copied from printed pages: wrapped words, heads and feet, headings said again."""

from __future__ import annotations

import textwrap

from pastes_blind_draw import Hand, Snap, heading


def printed_pages(hand: Hand, snap: Snap) -> list[str]:
    """A report as copied from pages: wrapped words, page heads and feet, headings said again on the next page."""
    rng = hand.rng
    width = rng.choice((22, 30, 38))
    title = {"de": "Diagnoseprotokoll", "fr": "Rapport de diagnostic", "es": "Informe de diagnóstico"}.get(
        hand.lang, "Diagnostic report"
    )
    page_word = {"de": "Seite", "es": "Página"}.get(hand.lang, "Page")
    again = {"de": "(Fortsetzung)", "fr": "(suite)", "es": "(continuación)"}.get(hand.lang, "(continued)")
    length, page, used = rng.choice((14, 22, 30)), 1, 0
    order = f"{rng.choice(('No.', 'Ref.'))} {rng.randrange(10_000, 99_999)}"
    total = 1 + sum(2 + 2 * len(m.codes) for m in snap.modules) // length
    out = [title, order, ""]
    feed = "\f" if hand.chance("form feed", 0.3) else ""
    for module in snap.modules:
        name = heading(hand, module.name)
        lines = [name] if module.kind == "codes" else [f"{name}", f"  {hand.absent(module)}"]
        entries = [lines] if module.kind != "codes" else [[name]]
        for code in module.codes:
            shown = hand.code(code)
            wrapped = textwrap.wrap(code.title, width) or [""]
            pad = len(shown) + 3
            first = f"{shown}   {wrapped[0]:<{width}}   {code.said}".rstrip()
            entries.append([first, *(" " * (pad if hand.chance("hanging", 0.7) else 0) + line for line in wrapped[1:])])
        for index, entry in enumerate(entries):
            if used + len(entry) > length and used:
                out += [
                    "",
                    f"{page_word} {page} / {max(total, page)}" if hand.chance("slash pages", 0.5) else f"- {page} -",
                    feed + title,
                    order,
                ]
                page, used = page + 1, 0
                if index and hand.chance("heads again", 0.7):
                    out.append(f"{name} {again}")
            out += entry
            used += len(entry)
        out.append("")
    return [*out, f"{page_word} {page} / {page}"]
