"""Changes of names, codes and words of a text, with its truth: as right a reading as before, by another scan tool."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from random import Random

from pastes_blind_codes import Code
from pastes_blind_draw import Paste
from pastes_changes import Change, of_text, renamed


def _listed(words: str) -> list[str]:
    return words.split(";")


#: Names that no table has, of devices that a workshop may meet.
UNLISTED = _listed(
    "Tail lift;Cool box;Bord-Kühlbox;Lampe de toit;Plataforma trasera;Winch ctrl;ZKX;Dust fan;Ladebordwand;Vigie;QRT2;"
    "Awning box;Salt spreader;Kehrmaschine;Boîtier frigo;Grúa;Step motor unit;PTO box;Hoist;Mast light"
)
LISTED = _listed(
    "ABS;Airbag;PCM;TCM;Body control module;Instrument cluster;Gateway;Telematics;Parking assist;EPS;Motorsteuergerät;"
    "Getriebesteuerung;Kombiinstrument;Türsteuergerät vorne links;Calculateur moteur;Combiné d'instruments;"
    "Boîtier servitude;Cuadro de instrumentos;Unidad motor;Central de puertas;Seat module driver;Rear HVAC;Radio;"
    "Front camera;Blind spot left;Trailer module;Immobiliser;Steering angle sensor;Headlamp left;DC/DC converter;"
    "Tyre pressure monitor;Sunroof module;Suspension control;Fuel pump module"
)
#: Status words, each row of one meaning.
STATUSES = [_listed(row) for row in (
    "stored;history;inactive;passive;intermittent;sporadic;in memory;not present;not active",
    "active;current;present;failing now;present now;active now",
    "gespeichert;sporadisch;passiv;inaktiv;nicht aktiv;momentan nicht vorhanden",
    "aktiv;vorhanden;aktuell vorhanden;liegt an",
    "mémorisé;fugitif;intermittent;passé;non présent",
    "présent;actif;présent actuellement",
    "memorizado;pasivo;esporádico;inactivo;no presente",
    "presente;activo;presente ahora",
    "pending;unconfirmed",
)]
#: What a code is called, each row in one language.
CODE_WORDS = [_listed(row) for row in (
    "fault code;trouble code;DTC;error code",
    "fault codes;trouble codes;DTCs;error codes",
    "Fehlercode;Störungscode;DTC",
    "code défaut;DTC;code d'anomalie",
    "código de avería;DTC;código de falla",
)]
_STANDARD = re.compile(r"[PCBU][0-3][0-9A-F]{3}")


def any_of(words: Sequence[str]) -> str:
    """A pattern of these words, the longest first."""
    return "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))


def named(pool: Sequence[str]) -> Change:
    """Each module under another name of ``pool``, where the names of the text can be told from its other words."""

    def change(paste: Paste, rng: Random) -> Paste | None:
        names = sorted({module.name.printed for snap in paste.snapshots for module in snap.modules})
        if len(names) > len(pool) or any(a != b and a.lower() in b.lower() for a in names for b in names):
            return None
        new = dict(zip(names, rng.sample(list(pool), len(names)), strict=True))
        whole = r"(?<!\w)(?:{})(?!\w)"
        found = re.compile(whole.format(any_of(names)))
        if set(found.findall(paste.text)) != set(names):
            return None
        if re.search(whole.format(any_of(list(new.values()))), paste.text, re.IGNORECASE):
            return None
        return renamed(replace(paste, text=found.sub(lambda m: new[m[0]], paste.text)), new.__getitem__)

    return change


def _coded(make: Callable[[Code, Random], Code | None]) -> Change:
    """Each standard code for another; None of ``make`` leaves the text out."""

    def change(paste: Paste, rng: Random) -> Paste | None:
        new: dict[str, Code] = {}
        for code in _codes(paste):
            if not code.opaque and _STANDARD.fullmatch(code.code) and code.code not in new:
                made = make(code, rng)
                if made is None or made.code in paste.text or made.code in {other.code for other in new.values()}:
                    return None
                new[code.code] = made
        found = re.compile(any_of(list(new)) or r"(?!)")
        if not new or set(found.findall(paste.text)) != set(new):
            return None

        def swapped(code: Code) -> Code:
            if code.code not in new:
                return code
            shown = found.sub(lambda m: new[m[0]].code, code.shown)
            return replace(code, code=new[code.code].code, opaque=new[code.code].opaque, shown=shown)

        snaps = [replace(snap, modules=[replace(module, codes=[swapped(code) for code in module.codes])
                                        for module in snap.modules]) for snap in paste.snapshots]
        return replace(paste, text=found.sub(lambda m: new[m[0]].code, paste.text), snapshots=snaps)

    return change


def _codes(paste: Paste) -> list[Code]:
    return [code for snap in paste.snapshots for module in snap.modules for code in module.codes]


def _other(code: Code, rng: Random) -> Code:
    """Another standard code of the same letter, of which the reader knows nothing."""
    digits = rng.choice("0012" if code.code[0] == "P" else "0123") + f"{rng.randrange(600, 1000):03d}"
    return replace(code, code=code.code[0] + digits)


def _own(form: Callable[[Random], str]) -> Change:
    """A maker's own number in the place of each code that stands alone."""

    def make(code: Code, rng: Random) -> Code | None:
        number = form(rng)
        alone = code.failure_type is None and code.shown == code.code
        return replace(code, code=number, opaque=not number.startswith("SPN")) if alone else None

    return _coded(make)


def status_words(paste: Paste, rng: Random) -> Paste | None:
    """Other words of the same meaning, where the status stands apart: in brackets, a cell, at the end of a line."""
    new: dict[str, str] = {}
    for row in STATUSES:
        for word in row:
            new.setdefault(word, rng.choice([other for other in row if other != word]))

    def cased(match: re.Match[str]) -> str:
        word = new[match[2].lower()]
        like = word.upper() if match[2].isupper() else word.capitalize() if match[2][0].isupper() else word
        return match[1] + like + match[3]

    apart = re.compile(rf"((?:^|[(\[,;|\t]|  | [-–—:] ?)\s*)({any_of(list(new))})(\s*(?:$|[)\],;|\t]|  | [-–—] ))",
                       re.IGNORECASE | re.MULTILINE)
    return of_text(lambda text: apart.sub(cased, text))(paste, rng)


def code_words(paste: Paste, rng: Random) -> Paste | None:
    """Another word for a code, in heads and labels and all else."""
    text = paste.text
    for row in CODE_WORDS:
        new = {word.lower(): rng.choice([other for other in row if other != word]) for word in row}
        text = re.sub(rf"\b(?:{any_of(row)})\b", lambda m, new=new: new[m[0].lower()], text, flags=re.IGNORECASE)
    return None if text == paste.text else replace(paste, text=text)


def _typed(mark: str) -> Change:
    """The failure type written in another form."""
    return of_text(lambda text: re.sub(r"\b([PCBU][0-3][0-9A-F]{3})-([0-9A-F]{2})\b", mark, text))


#: Names, codes and words.
WORDS: dict[str, Change] = {
    "unlisted names": named(UNLISTED),
    "listed names": named(LISTED),
    "other codes": _coded(_other),
    "own decimal": _own(lambda rng: str(rng.randint(10000, 32000))),
    "own 0x": _own(lambda rng: f"0x{rng.randint(0x100000, 0xFFFFFF):06X}"),
    "own hex": _own(lambda rng: f"{rng.choice('89ABCDEF')}{rng.randrange(10)}{rng.randrange(0x10000):04X}"),
    "SPN": _own(lambda rng: f"SPN {rng.randint(50, 5000)} FMI {rng.randint(0, 14)}"),
    "status words": status_words,
    "code words": code_words,
    "small codes": of_text(lambda text: re.sub(r"\b[PCBU][0-3][0-9A-F]{3}\b", lambda m: m[0].lower(), text)),
    "parted codes": of_text(lambda text: re.sub(r"\b([PCBU])([0-3][0-9A-F]{3})\b", r"\1 \2", text)),
    "type behind colon": _typed(r"\1:\2"),
    "type glued": _typed(r"\1\2"),
    "type in brackets": _typed(r"\1 [\2]"),
}
