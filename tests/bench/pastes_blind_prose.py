"""Layouts of invented texts in sentences: mail and chat, dictated and thumb-typed notes."""

from __future__ import annotations

import pastes_blind_words as words
from pastes_blind_codes import Code, spoken
from pastes_blind_draw import NOT_SAID, Hand, Module, Snap

_HAS = {
    "en": (
        "{m} has {c}",
        "the {m} shows {c}",
        "{c} in the {m}",
        "{m}: {c}",
        "in the {m} I found {c}",
        "{m} came up with {c}",
        "got {c} from the {m}",
        "{m} throws {c}",
        "{m} gave me {c}",
        "{m} - {c}",
        "then the {m} with {c}",
    ),
    "de": ("{m} hat {c}", "{m}: {c}", "{c} im {m}", "{m} meldet {c}", "im {m} steht {c}"),
    "fr": ("{m} : {c}", "{m} affiche {c}", "{c} dans {m}", "{m} remonte {c}"),
    "es": ("{m} tiene {c}", "{m}: {c}", "{c} en {m}", "{m} muestra {c}"),
}
_CLEAN = {
    "en": (
        "{m} clean",
        "nothing in the {m}",
        "{m} has no codes",
        "no codes in the {m}",
        "{m} ok, no codes",
        "{m} is clear",
        "no faults in {m}",
        "{m} came back clean",
        "zero codes in {m}",
        "{m} all good",
    ),
    "de": ("{m} ohne Fehler", "{m} ist sauber", "kein Fehler im {m}", "{m} i.O."),
    "fr": ("{m} sans défaut", "rien dans {m}", "aucun défaut dans {m}"),
    "es": ("{m} sin fallos", "nada en {m}", "ningún fallo en {m}"),
}
_SILENT = {
    "en": (
        "{m} did not answer",
        "no answer from the {m}",
        "could not talk to the {m}",
        "no comms with {m}",
        "{m} does not respond",
        "{m} won't talk to the scanner",
        "couldn't get into the {m}",
        "no communication with {m}",
        "{m} is not responding",
        "{m} stays silent",
        "cannot reach the {m}",
        "{m} didn't reply",
    ),
    "de": ("{m} antwortet nicht", "keine Antwort vom {m}", "{m} meldet sich nicht", "keine Verbindung zum {m}"),
    "fr": ("{m} ne répond pas", "pas de réponse de {m}", "pas de communication avec {m}"),
    "es": ("{m} no responde", "sin respuesta de {m}", "sin comunicación con {m}"),
}
_NOT_FITTED = {
    "en": ("{m} is not fitted", "no {m} fitted on this one", "{m} not fitted"),
    "de": ("{m} ist nicht verbaut",),
    "fr": ("{m} non équipé",),
    "es": ("{m} no equipado",),
}
_NOT_SCANNED = {
    "en": ("did not scan the {m}", "have not read the {m} yet", "{m} not scanned", "skipped the {m}"),
    "de": ("{m} nicht ausgelesen",),
    "fr": ("{m} pas lu",),
    "es": ("{m} no leído",),
}
_ABSENT = {"clean": _CLEAN, "silent": _SILENT, "not fitted": _NOT_FITTED, "not scanned": _NOT_SCANNED}
_SAID = {
    "current": {
        "en": ("{c} active", "{c} current", "{c} present now", "{c} as current", "active {c}"),
        "de": ("{c} (aktiv)", "{c} aktuell vorhanden"),
        "fr": ("{c} présent", "{c} (actif)"),
        "es": ("{c} activo", "{c} (presente)"),
    },
    "stored": {
        "en": (
            "{c} stored",
            "{c} in history",
            "{c} not active",
            "{c} (history)",
            "stored {c}",
            "{c} stored, not current",
        ),
        "de": ("{c} gespeichert", "{c} (nicht vorhanden)"),
        "fr": ("{c} mémorisé", "{c} (mémorisé)"),
        "es": ("{c} memorizado",),
    },
    "pending": {
        "en": ("{c} pending", "{c} as pending", "pending {c}"),
        "de": ("{c} (pending)",),
        "fr": ("{c} en attente",),
        "es": ("{c} pendiente",),
    },
    "confirmed": {
        "en": ("{c} confirmed", "confirmed {c}"),
        "de": ("{c} bestätigt",),
        "fr": ("{c} confirmé",),
        "es": ("{c} confirmado",),
    },
    "permanent": {
        "en": ("{c} permanent", "{c} as a permanent code"),
        "de": ("{c} (permanent, Service 0A)",),
        "fr": ("{c} (permanent, service 0A)",),
        "es": ("{c} (permanente, servicio 0A)",),
    },
    NOT_SAID: dict.fromkeys(("en", "de", "fr", "es"), ("{c}",)),
}
_AND = {"en": "and", "de": "und", "fr": "et", "es": "y"}


def _joined(hand: Hand, items: list[str]) -> str:
    word = _AND[hand.lang]
    if len(items) == 1:
        return items[0]
    form = (
        hand.keep("and", (f" {word} ", f", {word} ", " + ", " & ", ", ", "/"))
        if hand.sloppy
        else hand.keep("and", (f" {word} ", f" {word} ", ", "))
    )
    return ", ".join(items[:-1]) + form + items[-1]


def _codes(hand: Hand, module: Module, speak: bool) -> str:
    """All codes of a module, grouped by status where more than one has the same."""
    groups: dict[str, list[Code]] = {}
    for code in module.codes:
        if code.status is None or code.status not in _SAID:
            code.status = NOT_SAID
        groups.setdefault(code.status, []).append(code)
    if len(groups) > 1:
        for code in groups.get(NOT_SAID, []):
            code.status = None
    titles = not speak and hand.chance("titles told", 0.3)
    out = []
    for status, codes in sorted(groups.items(), key=lambda pair: pair[0] == NOT_SAID, reverse=True):
        form = hand.rng.choice(_SAID[status][hand.lang])
        if form.startswith("{c}") is False and len(groups) > 1:
            form = _SAID[status][hand.lang][0]
        items = []
        for code in codes:
            shown = hand.code(code)
            if speak and not code.failure_type and hand.rng.random() < 0.6:
                shown = code.shown = spoken(hand.rng, code.code)
            told = titles and hand.rng.random() < 0.6 and (form == "{c}" or len(codes) == 1)
            items.append(f"{shown} ({_lower(code.title)})" if told else shown)
        parted = len(codes) > 1 and status != NOT_SAID and len(groups) > 1
        if parted:
            out += [form.format(c=item) for item in items]
        else:
            if (
                len(codes) > 1
                and "both" not in form
                and hand.lang == "en"
                and form.startswith("{c} ")
                and status != NOT_SAID
                and hand.rng.random() < 0.4
            ):
                form = form.replace("{c}", "{c}, both" if len(codes) == 2 else "{c}, all")
            out.append(form.format(c=_joined(hand, items)))
            doubtful = "(" in form or not any(f" {w} " in out[-1] for w in (_AND[hand.lang], "&", "+", "both", "all"))
            if len(codes) > 1 and status != NOT_SAID and doubtful and form.startswith("{c}") and "{c}, " not in form:
                for code in codes[:-1]:
                    code.status = None
            elif len(codes) > 1 and form.endswith("{c}") and form != "{c}":
                for code in codes[1:]:
                    code.status = None
    join = f", {_AND[hand.lang]} " if hand.chance("and groups", 0.5) else ", "
    return join.join(out)


def _lower(title: str) -> str:
    return title[0].lower() + title[1:] if title[1:2].islower() else title


def _name(hand: Hand, module: Module) -> str:
    text = module.name.printed
    if hand.lang == "en" and (not text.isupper() or not hand.sloppy):
        text = text.lower() if hand.chance("names lower", 0.6) and not text.isupper() else text
    return text


def sentences(hand: Hand, snap: Snap, speak: bool = False) -> list[str]:
    """What was read, a sentence a module or one for several without codes."""
    rng, out = hand.rng, []
    waiting = list(snap.modules)
    if hand.chance("codes first", 0.6):
        waiting.sort(key=lambda m: m.kind != "codes")
    while waiting:
        module = waiting.pop(0)
        if module.kind == "codes":
            form = (
                rng.choice(_HAS[hand.lang])
                if not speak
                else rng.choice(("{m} {c}", "{m} has {c}", "{m} {c}", "{m} shows {c}"))
            )
            out.append(form.format(m=_name(hand, module), c=_codes(hand, module, speak)))
            continue
        alike = [m for m in waiting if m.kind == module.kind]
        take = [module, *alike] if alike and rng.random() < 0.5 else [module]
        waiting = [m for m in waiting if not any(m is t for t in take)]
        form = rng.choice(_ABSENT[module.kind][hand.lang])
        if len(take) > 1 and not form.startswith("{m}") and module.kind != "clean":
            form = _ABSENT[module.kind][hand.lang][0]
        out.append(form.format(m=_several(hand, [_name(hand, m) for m in take])))
    return out


def _several(hand: Hand, names: list[str]) -> str:
    if len(names) == 1:
        return names[0]
    return f"{', '.join(names[:-1])} {_AND[hand.lang]} {names[-1]}"


def prose(hand: Hand, snap: Snap) -> list[str]:
    """Mail or chat; the supply is told within it."""
    parts = sentences(hand, snap)
    if isinstance(snap.volts, float):
        told = words.pick(hand.rng, words.VOLTS_SAID, hand.lang).format(
            v=words.number(hand.rng, snap.volts, hand.comma)
        )
        parts.insert(hand.rng.choice((0, len(parts))), told)
    form = hand.keep("prose form", ("sentences", "sentences", "lines", "commas", "semicolons", "dots"))
    if form == "lines":
        return parts
    if form in ("commas", "semicolons") and len(parts) > 1:
        return ["; ".join(parts) + "."]
    if form == "dots" and hand.sloppy:
        return [" ... ".join(parts)]
    capital = not hand.sloppy or hand.rng.random() < 0.5
    return [
        " ".join(
            (p[0].upper() + p[1:] if capital and p[:1].isalpha() and not p[1:2].isdigit() else p) + "." for p in parts
        )
    ]


_DIGITS = (
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
)


def said_volts(hand: Hand, volts: float) -> str:
    """A voltage as dictated: words, digits or a mix."""
    whole, tenth = divmod(round(volts * 10), 10)
    if whole < len(_DIGITS) and hand.rng.random() < 0.5:
        return f"{_DIGITS[whole]} point {_DIGITS[tenth]}"
    return hand.rng.choice(
        (f"{whole}.{tenth}", f"{whole} point {tenth}", f"{whole}.{tenth} volts", f"{whole}.{tenth}v")
    )


def dictated(hand: Hand, snap: Snap) -> list[str]:
    """A note spoken or typed with a thumb: lower case, little punctuation."""
    parts = sentences(hand, snap, speak=True)
    if isinstance(snap.volts, float):
        snap.volts = round(snap.volts, 1)
        said = said_volts(hand, snap.volts)
        told = hand.rng.choice(
            (f"battery {said}", f"battery voltage {said}", f"battery is at {said}", f"voltage on the battery {said}")
        )
        parts.insert(hand.rng.choice((0, len(parts))), told)
    link = hand.keep("spoken link", (" next ", ", ", ". ", "\n", " then ", " ok next ", ", "))
    text = link.join(parts)
    if hand.rng.random() < 0.3:
        text = hand.rng.choice(("ok so ", "okay ", "note to self ", "voice note: ")) + text
    return (text.lower() if hand.rng.random() < 0.7 else text).split("\n")
