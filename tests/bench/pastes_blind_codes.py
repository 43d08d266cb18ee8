"""Codes of invented vehicles, and the forms in which they are written."""

from __future__ import annotations

import random
from dataclasses import dataclass

from pastes_blind_titles import FAILURES, FAULTS, FOREIGN, PARTS, SPNS, TARGETS, TITLES

_POWERTRAIN = {"engine", "transmission", "glow", "fuelpump", "scr", "transfer", "inverter", "obc", "dcdc", "hvbattery"}
_CHASSIS = {
    "abs",
    "eps",
    "epb",
    "sas",
    "suspension",
    "awd",
    "radar",
    "tpms",
    "frontcam",
    "truckbrake",
    "ecas",
    "retarder",
}


@dataclass
class Code:
    """One code of the truth: canonical form, failure type, status word; with the words and the form printed for it."""

    code: str
    failure_type: str | None
    status: str | None
    title: str
    opaque: bool = False
    said: str = ""
    shown: str = ""


def _letters(group: str) -> str:
    if group in _POWERTRAIN or group.startswith("truckeng"):
        return "PPPPU"
    return "CCUU" if group in _CHASSIS else "BBBUUU"


def title_of(rng: random.Random, code: str, lang: str) -> str:
    """Words printed beside a code."""
    if lang in FOREIGN:
        return rng.choice(FOREIGN[lang]).format(x=rng.choice(TARGETS[lang]))
    known = TITLES.get(code)
    return known or f"{rng.choice(PARTS).capitalize()} {rng.choice(FAULTS)}"


def draw_codes(rng: random.Random, group: str, lang: str, count: int, typed: float, opaque: bool) -> list[Code]:
    """``count`` different codes of one module; ``typed`` is how often one has a failure type."""
    out: dict[str, Code] = {}
    while len(out) < count:
        if opaque:
            code = _opaque(rng)
        elif rng.random() < 0.75:
            letter = rng.choice(_letters(group))
            code = rng.choice([c for c in TITLES if c[0] == letter])
        else:
            letter = rng.choice(_letters(group))
            code = f"{letter}{rng.choice('12')}{rng.randrange(4096):03X}"
        kind = rng.choice(FAILURES) if not opaque and rng.random() < typed else None
        out.setdefault(code, Code(code, kind, None, title_of(rng, code, lang), opaque))
    codes = list(out.values())
    first = codes[0]
    if first.failure_type and rng.random() < 0.06:
        other = rng.choice([f for f in FAILURES if f != first.failure_type])
        codes.insert(1, Code(first.code, other, None, first.title))
    return codes


def _opaque(rng: random.Random) -> str:
    """A maker's own number that no standard form explains."""
    kind = rng.randrange(4)
    if kind == 0:
        return f"{rng.randrange(200, 20000):05d}"
    if kind == 1:
        return f"{rng.choice('9AD')}{rng.randrange(16):X}{rng.randrange(10)}{rng.randrange(4096):03X}"
    if kind == 2:
        return f"{rng.choice(('E', 'K', 'M', 'T'))}{rng.randrange(100, 9999)}"
    return f"{rng.choice(('DF', 'EL', 'SG', 'HK'))}{rng.randrange(100, 999)}"


def draw_spns(rng: random.Random, count: int) -> list[Code]:
    """``count`` different codes of one module of a truck: SPN and FMI."""
    out: dict[str, Code] = {}
    while len(out) < count:
        spn = rng.choice(list(SPNS))
        code = f"{spn} FMI {rng.choice((0, 1, 2, 3, 4, 5, 6, 7, 9, 12, 14, 16, 18, 19, 31))}"
        out.setdefault(code, Code(code, None, None, SPNS[spn]))
    return list(out.values())


_WORDS = {
    "0": ("zero", "oh", "o"),
    "1": ("one",),
    "2": ("two",),
    "3": ("three",),
    "4": ("four",),
    "5": ("five",),
    "6": ("six",),
    "7": ("seven",),
    "8": ("eight",),
    "9": ("nine",),
}
_ALIKE = {"P": "\u0420", "C": "\u0421", "B": "\u0412"}


def spoken(rng: random.Random, code: str) -> str:
    """A code as a dictation writes it."""
    kind = rng.randrange(4)
    if kind == 0:
        zero = rng.choice(_WORDS["0"][:2])
        said = [zero if c == "0" else _WORDS.get(c, (c.lower(),))[0] for c in code[1:]]
        return f"{code[0]} {' '.join(said)}"
    if kind == 1:
        return " ".join(code)
    if kind == 2:
        return f"{code[0]} {code[1:]}"
    return f"{code[:3]} {code[3:]}" if code[3:].isdigit() else code.lower()


def in_the_wild(rng: random.Random, code: str) -> str:
    """A code of the standard form as careless hands or odd printers write it."""
    kind = rng.randrange(8)
    body = code[1:]
    if kind == 0 and "0" in body:
        at = rng.choice([i for i, c in enumerate(code) if c == "0"])
        return code[:at] + rng.choice("OOo") + code[at + 1 :]
    if kind == 1 and code[0] in _ALIKE:
        return _ALIKE[code[0]] + body
    if kind == 2:
        return f"{code[0]} {body}"
    if kind == 3:
        return f"{code[0]}-{body}"
    if kind == 4:
        return f"{code[0].lower()} {body}"
    if kind == 5 and "0" in body:
        return code.replace("0", "O")
    return code.lower()


def with_type(rng: random.Random, form: str, code: Code, shown: str) -> str:
    """The code with its failure type, in one of the forms ``dash``, ``colon``, ``bare``, ``space``, ``word``."""
    kind = code.failure_type
    if kind is None:
        return shown
    if form == "bare" and (not shown[-4:].isalnum() or " " in shown or kind == "00"):
        form = "dash"
    marks = {"dash": "-", "colon": ":", "bare": "", "word": " FTB ", "ndash": "\u2013", "spaced": " - "}
    return f"{shown}{marks[form]}{kind}"
