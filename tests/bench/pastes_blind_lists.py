"""Layouts of invented texts that are lists: headings with codes below, codes first, module lines, blocks, pages."""

from __future__ import annotations

import pastes_blind_around as around
from pastes_blind_codes import Code
from pastes_blind_draw import Hand, Module, Snap, heading

_SEPARATORS = (" - ", "  ", ": ", " | ", "\t", " ", "; ", " – ", " / ", ", ", "    ", " -> ")
_COUNTS = {
    "en": ("({n})", "({n} codes)", "- {n} faults", "[{n} DTC]", ": {n} fault(s) found", "- {n} DTCs"),
    "de": ("({n} Fehler)", "- {n} Fehler", "({n})"),
    "fr": ("({n} défauts)", "({n})"),
    "es": ("({n} fallos)", "({n})"),
}


def code_line(hand: Hand, code: Code) -> list[str]:
    """Code, words and status of one code in one to three lines."""
    shown, title, said = hand.code(code), code.title, code.said
    form = hand.keep(
        "code line", ("cts", "cst", "ct[s]", "s c t", "t (c) s", "lines", "labels", "cs", "ct (s)", "cts", "cts")
    )
    sep = hand.keep("code separator", _SEPARATORS)
    if not hand.chance("has titles", 0.9):
        title = ""
    if (sep == " " and form in ("cst", "s c t", "cts")) or (code.opaque and sep == " "):
        sep = "  "
    if form == "lines":
        label = hand.head("status")
        return [shown, *([f"  {title}"] if title else []), *([f"  {label}: {said}"] if said else [])]
    if form == "labels":
        out = [
            f"{hand.head('code')}: {shown}",
            title and f"{hand.head('title')}: {title}",
            said and f"{hand.head('status')}: {said}",
        ]
        return [hand.keep("label join", ("  ", ", ", "; ", " | ")).join(x for x in out if x)]
    if form == "t (c) s" and title and not code.opaque:
        return [" ".join(x for x in (title, f"({shown})", said and f"- {said}") if x)]
    if form == "s c t" and said:
        return [sep.join(x for x in (said, shown, title) if x)]
    if form == "cst":
        return [sep.join(x for x in (shown, said, title) if x)]
    if form == "ct[s]":
        return [sep.join(x for x in (shown, title) if x) + (f" [{said}]" if said else "")]
    if form in ("cs", "ct (s)"):
        words = [shown, title] if form != "cs" or code.opaque else [shown]
        return [sep.join(x for x in words if x) + (f" ({said})" if said else "")]
    return [sep.join(x for x in (shown, title, said) if x)]


def _headed(hand: Hand, module: Module) -> str:
    text = heading(hand, module.name)
    if hand.chance("heading upper", 0.12):
        text = text.upper()
    form = hand.keep(
        "heading mark",
        (
            "{t}",
            "{t}",
            "{t}:",
            "=== {t} ===",
            "[ {t} ]",
            "## {t}",
            "**{t}**",
            "{h}: {t}",
            "--- {t}",
            "> {t}",
            "* {t}",
            "{t} ---------",
            "■ {t}",
            "{h} {t}",
        ),
    )
    if form.startswith("> ") and hand.sloppy:
        form = "{t}"
    return form.format(t=text, h=hand.head("module"))


def screen_list(hand: Hand, snap: Snap) -> list[str]:
    """Headings with the codes below."""
    rng, out = hand.rng, []
    indent = hand.keep("indent", ("", "  ", "    ", "\t", " - ", "• ", "   * ", "- "))
    if hand.chance("overview", 0.12) and any(m.codes for m in snap.modules):
        out += [*_overview(hand, snap), ""]
    for module in snap.modules:
        if hand.chance("overview", 0.12) and not module.codes:
            continue
        head = _headed(hand, module)
        count = (
            rng.choice(_COUNTS[hand.lang]).format(n=len(module.codes))
            if hand.chance("counts", 0.2) and module.codes
            else ""
        )
        if module.kind == "codes":
            out.append(f"{head.rstrip(':')} {count}" if count else head)
            if hand.chance("parts", 0.15):
                out.append(indent.replace("-", " ").replace("•", " ").replace("*", " ") + around.part(rng))
            if hand.chance("sections", 0.1) and all(c.said and c.status for c in module.codes):
                out += _sections(hand, module, indent)
                continue
            for number, code in enumerate(module.codes, 1):
                lines = code_line(hand, code)
                mark = f"{indent}{number}. " if hand.chance("numbered codes", 0.08) else indent
                out += [mark + lines[0], *(f"    {line}" for line in lines[1:])]
                if hand.chance("frames", 0.1) and rng.random() < 0.5:
                    out += [f"        {line}" for line in around.freeze(rng, hand.lang)]
        elif hand.chance("absent beside", 0.5):
            mark = hand.keep("absent mark", (" - ", ": ", "  ", " ... ", " -> ", " (", "\t"))
            out.append(head.rstrip(":") + mark + hand.absent(module) + (")" if mark == " (" else ""))
        else:
            out += [head, indent + hand.absent(module)]
        if hand.chance("blank after module", 0.6) and not (hand.sloppy and rng.random() < 0.3):
            out.append("")
    return out


_SECTIONS = {
    "en": ("{s} codes:", "{s}:", "{s} DTCs", "-- {s} faults --"),
    "de": ("{s}:", "Fehler {s}:"),
    "fr": ("{s} :", "Défauts {s} :"),
    "es": ("{s}:", "Fallos {s}:"),
}
_SECTION_WORDS = {
    "en": {
        "current": "Current",
        "stored": "Stored",
        "pending": "Pending",
        "confirmed": "Confirmed",
        "permanent": "Permanent",
    },
    "de": {
        "current": "aktuell",
        "stored": "gespeichert",
        "pending": "Pending",
        "confirmed": "bestätigt",
        "permanent": "permanent",
    },
    "fr": {
        "current": "actuels",
        "stored": "mémorisés",
        "pending": "en attente",
        "confirmed": "confirmés",
        "permanent": "permanents",
    },
    "es": {
        "current": "activos",
        "stored": "memorizados",
        "pending": "pendientes",
        "confirmed": "confirmados",
        "permanent": "permanentes",
    },
}


def _sections(hand: Hand, module: Module, indent: str) -> list[str]:
    """The codes of one module below a line for each status."""
    out: list[str] = []
    for word, said in _SECTION_WORDS[hand.lang].items():
        codes = [c for c in module.codes if c.status == word]
        if codes:
            out.append("  " + hand.keep("section", _SECTIONS[hand.lang]).format(s=said))
            out += [
                f"{indent}{hand.code(c)}{hand.keep('section separator', (' - ', '  ', ': ', ' '))}{c.title}"
                for c in codes
            ]
        if hand.lang != "en" and word == "permanent":
            for code in codes:
                code.status = None
    return out


def code_first(hand: Hand, snap: Snap) -> list[str]:
    """One line a code, its module behind it; the modules without codes at the end or among them."""
    sep = hand.keep("first separator", (" | ", " - ", "; ", "\t", ", ", "  ", " / ", " :: "))
    form = hand.keep("first form", ("cmts", "ctms", "cmst", "scmt", "c [m] ts", "c t (m) s", "c in m: t s"))
    rows, rest = [], []
    for module in snap.modules:
        name = heading(hand, module.name) if " " not in form else module.name.printed
        if sep.strip() and sep.strip() in name:
            name = module.name.printed
        for code in module.codes:
            shown, title, said = (
                hand.code(code),
                code.title.replace(sep.strip() or "\0", " "),
                code.said.replace(sep.strip() or "\0", " "),
            )
            if form == "c [m] ts":
                row = " ".join(x for x in (shown, f"[{name}]", title, said and f"({said})") if x)
            elif form == "c t (m) s":
                row = " ".join(x for x in (shown, title, f"({name})", said) if x)
            elif form == "c in m: t s":
                row = f"{shown} in {name}: {title}" + (f", {said}" if said else "")
            else:
                order = {"c": shown, "m": name, "t": title, "s": said}
                row = sep.join(order[x] for x in form if order[x])
            rows.append(row)
        if not module.codes:
            rest.append(module)
    if hand.chance("shuffle codes", 0.4):
        hand.rng.shuffle(rows)
    return rows + _rest(hand, rest, sep)


_GROUPED = {
    "clean": {
        "en": ("No codes in: {m}", "Clean: {m}", "Modules without faults: {m}", "OK: {m}", "No faults: {m}"),
        "de": ("Ohne Fehler: {m}", "Kein Fehler in: {m}"),
        "fr": ("Sans défaut : {m}",),
        "es": ("Sin fallos: {m}",),
    },
    "silent": {
        "en": ("No response: {m}", "Did not answer: {m}", "No communication with: {m}", "Not responding: {m}"),
        "de": ("Keine Antwort von: {m}", "Antwortet nicht: {m}"),
        "fr": ("Pas de réponse : {m}",),
        "es": ("Sin respuesta: {m}",),
    },
    "not fitted": {
        "en": ("Not fitted: {m}", "Not installed: {m}"),
        "de": ("Nicht verbaut: {m}",),
        "fr": ("Non équipé : {m}",),
        "es": ("No equipado: {m}",),
    },
    "not scanned": {
        "en": ("Not scanned: {m}", "Skipped: {m}"),
        "de": ("Nicht ausgelesen: {m}",),
        "fr": ("Non lu : {m}",),
        "es": ("No leído: {m}",),
    },
}


def _rest(hand: Hand, modules: list[Module], sep: str) -> list[str]:
    """The modules without codes: grouped by kind, or a line each."""
    out = [""] if hand.chance("blank before rest", 0.5) else []
    if hand.chance("grouped rest", 0.5):
        for kind, forms in _GROUPED.items():
            names = [m.name.printed for m in modules if m.kind == kind]
            if names:
                join = hand.keep("name join", (", ", "; ", ", "))
                out.append(hand.keep(f"grouped {kind}", forms[hand.lang]).format(m=join.join(names)))
        return out
    mark = sep if sep.strip() in ("|", "-", ";") else hand.keep("rest mark", (": ", " - ", " -> "))
    return out + [f"{m.name.printed}{mark}{hand.absent(m)}" for m in modules]


def module_lines(hand: Hand, snap: Snap) -> list[str]:
    """One line a module with all its codes."""
    out = []
    after = hand.keep("after name", (": ", " - ", " -> ", "\t", " = ", " | ", ":  "))
    join = hand.keep("code join", (", ", " / ", "; ", " + ", " | " if after != " | " else "; ", " "))
    if any(c.opaque for m in snap.modules for c in m.codes):
        join = "; "
    titles = join in ("; ", " | ") and hand.chance("line titles", 0.5)
    bullet = hand.keep("line bullet", ("", "", "- ", "* ", "• "))
    for module in snap.modules:
        name = heading(hand, module.name)
        if module.kind != "codes":
            out.append(f"{bullet}{name}{after}{hand.absent(module)}")
            continue
        same = len({c.said for c in module.codes}) == 1 and module.codes[0].said and "," not in module.codes[0].said
        whole = bool(same) and hand.chance("status of all", 0.5)
        parts = []
        last = max((i for i, c in enumerate(module.codes) if c.said), default=-1)
        for code in module.codes[:last]:
            code.status = code.status if code.said else None
        for code in [] if _shared(hand, module, parts, join, titles) else module.codes:
            shown = hand.code(code)
            title = f" {code.title.replace(';', ',')}" if titles or code.opaque else ""
            said = "" if whole or not code.said else f" ({code.said})" if join != " + " else f" [{code.said}]"
            parts.append(f"{shown}{title}{said}")
        line = f"{bullet}{name}{after}{join.join(parts)}"
        if whole:
            said = module.codes[0].said
            line += f" (all {said})" if hand.lang == "en" and len(module.codes) > 1 else f" ({said})"
            if len(module.codes) > 1 and hand.lang != "en":
                for code in module.codes:
                    code.status = None
        out.append(line)
    return out


def _shared(hand: Hand, module: Module, parts: list[str], join: str, titles: bool) -> bool:
    """Puts ``U0100/0140`` into ``parts``: the letter once for several codes, where nothing else stands beside them."""
    codes = module.codes
    plain = (
        len(codes) > 1 and not titles and not any(c.said or c.failure_type or not c.code[1:2].isdigit() for c in codes)
    )
    if (
        not plain
        or len({c.code[0] for c in codes}) > 1
        or "+" in join
        or not join.strip()
        or not hand.chance("letter once", 0.4)
    ):
        return False
    for code in codes:
        code.shown = code.code if code is codes[0] else code.code[1:]
    parts.append("/".join(c.shown for c in codes))
    return True


def _overview(hand: Hand, snap: Snap) -> list[str]:
    """A list of all modules with a count of codes, as it stands above the details."""
    words = {"en": "{n} fault(s)", "de": "{n} Fehler", "fr": "{n} défaut(s)", "es": "{n} fallo(s)"}[hand.lang]
    mark = hand.keep("overview mark", (" - ", ": ", "  ", " ........ ", "\t"))
    return [
        f"{heading(hand, m.name)}{mark}{words.format(n=len(m.codes)) if m.codes else hand.absent(m)}"
        for m in snap.modules
    ]


def blocks(hand: Hand, snap: Snap) -> list[str]:
    """Keys and values, a block a code."""
    mark = hand.keep("key mark", (": ", " = ", ":\t", " : ", "= ", " ..... ", ":"))
    order = [
        x
        for x in ("code", "type", "title", "status", "count", "km")
        if x in ("code", "title", "status", "type") or hand.chance(f"key {x}", 0.3)
    ]
    if hand.chance("keys out of order", 0.3):
        rest = order[1:]
        hand.rng.shuffle(rest)
        order = [order[0], *rest]
    apart = hand.chance("type apart", 0.4)
    rule = hand.keep("block rule", ("", "", "---", "-----------------", "***"))
    once = hand.chance("module once", 0.45)
    out: list[str] = []
    for module in snap.modules:
        name = heading(hand, module.name)
        first = f"{hand.head('module')}{mark}{name}"
        if module.kind != "codes":
            label = hand.keep(
                "result key",
                {
                    "en": ("Result", "Status", "Codes", "Fault memory"),
                    "de": ("Ergebnis", "Fehlerspeicher"),
                    "fr": ("Résultat", "Défauts"),
                    "es": ("Resultado", "Fallos"),
                }[hand.lang],
            )
            out += [first, f"{label}{mark}{hand.absent(module)}", rule]
            continue
        for index, code in enumerate(module.codes):
            if index == 0 or not once:
                out.append(first)
            values = {
                "code": hand.code(code, typed=not apart),
                "type": code.failure_type if apart else None,
                "title": code.title,
                "status": code.said,
                "count": str(hand.rng.randrange(1, 60)),
                "km": f"{hand.rng.randrange(9000, 250000)}",
            }
            out += [f"{hand.head(key)}{mark}{values[key]}" for key in order if values[key]]
            out.append(rule if not once or index == len(module.codes) - 1 else "")
    return out
