"""Layouts written after the reader was: it has never been steered by them before their first run."""

from __future__ import annotations

import random
import textwrap

from paste_layouts import Layout, header, number, pick, shown, state, write_table
from pastes import HEADS, STATUS, TrueCode, TrueModule, TrueSnapshot


def underlined(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language), ""]
        for module in snapshot.modules:
            out += [module.printed, rng.choice("-=~") * len(module.printed)]
            if module.answer != "codes":
                out += [pick(rng, module, language), ""]
                continue
            for code in module.codes:
                failure = f", failure type {code.failure_type}" if code.failure_type else ""
                out.append(f"Code {code.code}{failure}: {code.text} [{state(rng, code, language)}]")
            out.append("")
    return "\n".join(out), set()


def spanning_rows(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    kind = rng.choice(["pipe", ";", "\t", "html"])
    out = []
    for snapshot in snapshots:
        rows = []
        for module in snapshot.modules:
            if module.answer != "codes":
                rows.append([module.printed, "", pick(rng, module, language), ""])
                continue
            rows.append([module.printed, "", "", ""])
            rows += [
                ["", shown(rng, code, "{code}-{ft}"), state(rng, code, language), code.text] for code in module.codes
            ]
        heads = [rng.choice(HEADS[language][name]) for name in ("module", "code", "status", "text")]
        out += [*header(rng, snapshot, language), "", *write_table(kind, heads, rows), ""]
    return "\n".join(out), set()


def status_first(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    mark = rng.choice(["[{}] ", "{}: ", "({}) "])
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language), ""]
        for module in snapshot.modules:
            if module.answer != "codes":
                out += [f"{module.printed} - {pick(rng, module, language)}", ""]
                continue
            out.append(f"{module.printed}:")
            out += [
                "  " + mark.format(state(rng, code, language)) + f"{shown(rng, code, '{code}-{ft}')} {code.text}"
                for code in module.codes
            ]
            out.append("")
    return "\n".join(out), set()


def wrapped_mail(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    out = []
    for snapshot in snapshots:
        lead = "Hi, this is what I got"
        if snapshot.phase:
            lead += {
                "before-clear": " before clearing anything",
                "after-clear": " after the clear",
                "after-run": " after a short run",
                "after-repair": " after the repair",
            }[snapshot.phase]
        parts = [lead + "."]
        if snapshot.volts:
            parts.append(f"Battery was at {snapshot.volts:.1f} V.")
        for module in snapshot.modules:
            name = module.printed
            if module.answer == "silent":
                parts.append(rng.choice([f"No answer from the {name}.", f"The {name} did not answer."]))
            elif module.answer == "clean":
                parts.append(rng.choice([f"No codes in the {name}.", f"{name} is clean."]))
            elif module.answer == "codes":
                codes = [
                    f"{shown(rng, code, '{code}-{ft}')} ({STATUS['en'][code.status or 'stored'][0]})"
                    for code in module.codes
                ]
                joint = codes[0] if len(codes) == 1 else ", ".join(codes[:-1]) + " and " + codes[-1]
                parts.append(
                    rng.choice(
                        [
                            f"The {name} has {joint}.",
                            f"In the {name} there {'is' if len(codes) == 1 else 'are'} {joint}.",
                        ]
                    )
                )
        out += [
            textwrap.fill(" ".join(parts), rng.choice([68, 72, 78]), break_on_hyphens=False, break_long_words=False),
            "",
        ]
    return "\n".join(out), {"lowest", "at", "clean"}


def by_status(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    words = {
        "current": "Current",
        "stored": "Stored",
        "pending": "Pending",
        "confirmed": "Confirmed",
        "permanent": "Permanent",
    }
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, "en"), ""]
        for status, word in words.items():
            lines = [
                f"  {module.printed}: {shown(rng, code, '{code}-{ft}')} {code.text}"
                for module in snapshot.modules
                for code in module.codes
                if code.status == status
            ]
            if lines:
                out += [f"{word} codes:", *lines, ""]
        for answer, word in (("silent", "No response"), ("clean", "No codes in")):
            found = [module.printed for module in snapshot.modules if module.answer == answer]
            if found:
                out += [f"{word}:", *(f"  {name}" for name in found), ""]
    return "\n".join(out), set()


def module_behind(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    form = rng.choice(
        [
            "{code} in {module}: {text}; {state}",
            "{code} ({module}) {text} - {state}",
            "{code} [{module}] {state} {text}",
            "{code} / {module} / {state} / {text}",
        ]
    )
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language), ""]
        for module in snapshot.modules:
            if module.answer != "codes":
                out.append(f"{module.printed}: {pick(rng, module, language)}")
            out += [
                form.format(
                    code=shown(rng, code, "{code}-{ft}"),
                    module=module.printed,
                    text=code.text,
                    state=state(rng, code, language),
                )
                for code in module.codes
            ]
        out.append("")
    return "\n".join(out), set()


def chat(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    who = rng.choice(["Max", "Sam T", "Workshop 2"])
    form = rng.choice(
        ["[{h:02d}:{m:02d}] {who}: ", "{h:02d}:{m:02d} - {who}: ", "[03/03/2025, {h:02d}:{m:02d}:12] {who}: "]
    )
    minute = 0
    out = []
    for snapshot in snapshots:
        lines = []
        if snapshot.phase:
            lines.append(
                {
                    "before-clear": "before clear",
                    "after-clear": "after clear now",
                    "after-run": "after 5 min idle",
                    "after-repair": "after repair",
                }[snapshot.phase]
            )
        if snapshot.volts:
            lines.append(f"batt {number(rng, snapshot.volts, 'en')}")
        for module in snapshot.modules:
            if module.answer != "codes":
                lines.append(f"{module.printed} {pick(rng, module, 'en')}")
            else:
                codes = ", ".join(
                    f"{shown(rng, code, '{code}-{ft}')} {STATUS['en'][code.status or 'stored'][0]}"
                    for code in module.codes
                )
                lines.append(f"{module.printed} {codes}")
        for line in lines:
            minute += 1
            out.append(form.format(h=8 + minute // 60, m=minute % 60, who=who) + line)
    return "\n".join(out), {"lowest", "at"}


def codes_in_a_cell(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    kind = rng.choice(["pipe", ";", "\t", "aligned", "html"])
    out = []
    for snapshot in snapshots:
        rows = []
        for module in snapshot.modules:
            cell = (
                pick(rng, module, language)
                if module.answer != "codes"
                else ", ".join(
                    f"{shown(rng, code, '{code}-{ft}')} ({state(rng, code, language)})" for code in module.codes
                )
            )
            rows.append([module.printed, str(len(module.codes)), cell])
        heads = [
            rng.choice(HEADS[language]["module"]),
            {"en": "Count of codes", "de": "Anzahl Fehler", "fr": "Nombre de défauts", "es": "Número de códigos"}[
                language
            ],
            rng.choice(HEADS[language]["code"]),
        ]
        out += [*header(rng, snapshot, language), "", *write_table(kind, heads, rows), ""]
    return "\n".join(out), set()


def numbered_tree(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    tree = rng.random() < 0.5
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language), ""]
        for at, module in enumerate(snapshot.modules, 1):
            suffix = f" ({len(module.codes)})" if module.answer == "codes" else f" - {pick(rng, module, language)}"
            out.append((f"{at}. " if not tree else "") + module.printed + suffix)
            for place, code in enumerate(module.codes, 1):
                mark = ("└─ " if place == len(module.codes) else "├─ ") if tree else f"   {at}.{place} "
                out.append(mark + f"{shown(rng, code, '{code}:{ft}')} {code.text} | {state(rng, code, language)}")
    return "\n".join(out), set()


def table_each(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    kind = rng.choice(["pipe", ";", "aligned", "\t", "html"])
    heads = [rng.choice(HEADS[language][name]) for name in ("code", "ft", "text", "status")]
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language), ""]
        for module in snapshot.modules:
            title = module.printed if kind != "html" else f"<h3>{module.printed}</h3>"
            out.append(title)
            if module.answer != "codes":
                out += [
                    pick(rng, module, language) if kind != "html" else f"<p>{pick(rng, module, language)}</p>",
                    "",
                ]
                continue
            rows = [
                [code.code, code.failure_type or "", code.text, state(rng, code, language)] for code in module.codes
            ]
            out += [*write_table(kind, heads, rows), ""]
    return "\n".join(out), set()


def addressed(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    form = rng.choice(["[0x{a:03X}] {name}", "{a:02X} {name}", "{name} ({a:03X})", "0x{a:02X} - {name}"])
    volts = rng.random() < 0.5
    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language), ""]
        for at, module in enumerate(snapshot.modules):
            line = form.format(a=0x10 + at if "02X" in form else 0x740 + at, name=module.printed)
            if module.answer != "codes":
                out += [f"{line}: {pick(rng, module, language)}", ""]
                continue
            if volts:
                module.volts = 12.0 + at / 10 if at < 20 else 11.5
                line += f", {number(rng, module.volts, language)}"
            out.append(line)
            out += [
                f"  {shown(rng, code, '{code} {ft}')}  {state(rng, code, language)}  {code.text}"
                for code in module.codes
            ]
            out.append("")
    return "\n".join(out), set()


def separate_values(rng: random.Random, snapshots: list[TrueSnapshot], language: str) -> tuple[str, set[str]]:
    """One code a block, the module's name above, the values in lines with wide gaps and no colon."""
    heads = {name: rng.choice(options) for name, options in HEADS[language].items()}

    def block(module: TrueModule, code: TrueCode) -> list[str]:
        pairs = [
            (heads["code"], code.code),
            (heads["ft"], code.failure_type),
            (heads["text"], code.text),
            (heads["status"], state(rng, code, language)),
        ]
        return ["  " + key.ljust(20) + value for key, value in pairs if value]

    out = []
    for snapshot in snapshots:
        out += [*header(rng, snapshot, language), ""]
        for module in snapshot.modules:
            out.append(module.printed)
            if module.answer != "codes":
                out += ["  " + pick(rng, module, language), ""]
            for code in module.codes:
                out += [*block(module, code), ""]
    return "\n".join(out), set()


HELD_OUT: dict[str, Layout] = {
    "underlined": underlined,
    "spanning rows": spanning_rows,
    "status first": status_first,
    "wrapped mail": wrapped_mail,
    "by status": by_status,
    "module behind": module_behind,
    "chat": chat,
    "codes in a cell": codes_in_a_cell,
    "numbered tree": numbered_tree,
    "table each": table_each,
    "addressed": addressed,
    "separate values": separate_values,
}
