"""Sloppiness: what hands, mails, scanners and spreadsheets do to a text. Each keeps the truth readable."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

from pastes import Paste, make_snapshots

Noise = Callable[[random.Random, str], str]
_CODE = re.compile(r"(?<![A-Za-z0-9])[PCBU][0-3][0-9A-F]{3}(?![A-Za-z0-9])")


def small_codes(rng: random.Random, text: str) -> str:
    return _CODE.sub(lambda match: match[0].lower() if rng.random() < 0.6 else match[0], text)


def letters_for_digits(rng: random.Random, text: str) -> str:
    def slip(match: re.Match[str]) -> str:
        word = match[0]
        if rng.random() > 0.15 or sum(c.isdigit() for c in word[1:]) < 4:
            return word
        at = [place for place, c in enumerate(word) if c in "01" and place]
        if not at:
            return word
        place = rng.choice(at)
        return word[:place] + {"0": "O", "1": rng.choice("Il")}[word[place]] + word[place + 1 :]

    return _CODE.sub(slip, text)


def dashes(rng: random.Random, text: str) -> str:
    dash = rng.choice("\u2010\u2011\u2012\u2013\u2014\u2212")
    return re.sub(r"(?<=[0-9A-F])-(?=[0-9A-F]{2})| - ", lambda match: match[0].replace("-", dash), text)


def hard_spaces(rng: random.Random, text: str) -> str:
    return "".join("\u00a0" if c == " " and rng.random() < 0.4 else c for c in text)


def quoted_mail(rng: random.Random, text: str) -> str:
    return "Hi, see below.\n\n" + "\n".join("> " + line for line in text.split("\n"))


def numbered(rng: random.Random, text: str) -> str:
    number = 0
    out = []
    for line in text.split("\n"):
        if line and not line[0].isspace() and _CODE.search(line) and "|" not in line:
            number += 1
            line = rng.choice([f"{number}) ", f"{number}. "]) + line
        out.append(line)
    return "\n".join(out)


def bullets(rng: random.Random, text: str) -> str:
    mark = rng.choice(["- ", "* ", "\u2022 "])
    return "\n".join(
        re.sub(r"^(\s*)(?=\S)", rf"\1{mark}", line) if _CODE.search(line) and "|" not in line else line
        for line in text.split("\n")
    )


def windows_ends(rng: random.Random, text: str) -> str:
    return text.replace("\n", "\r\n")


def blank_lines_doubled(rng: random.Random, text: str) -> str:
    return text.replace("\n", "\n\n")


def shouting(rng: random.Random, text: str) -> str:
    return text.upper() if "<" not in text else text


def no_indent(rng: random.Random, text: str) -> str:
    return "\n".join(line.lstrip(" \t") for line in text.split("\n"))


def extra_spaces(rng: random.Random, text: str) -> str:
    return re.sub(r" (?=\S)", lambda match: "  " if rng.random() < 0.03 else " ", text)


def greeting(rng: random.Random, text: str) -> str:
    return (
        "Morning all,\nhere is what I got from the van today.\nTel. 0161 496 0123, bay B12, part no. 8P0-907-115-C.\n\n"
        + text
        + "\n\nCheers\nSam\n"
    )


def tail_spaces(rng: random.Random, text: str) -> str:
    return "\n".join(line + " " * rng.choice([0, 0, 1, 3]) for line in text.split("\n"))


def typed_names(rng: random.Random, paste_text: str, printed: list[str]) -> str:
    """A slip in some long module names: a letter left out, doubled, or two swapped."""
    for name in printed:
        if len(name) < 9 or rng.random() > 0.25:
            continue
        places = [
            at
            for at in range(1, len(name) - 1)
            if name[at].isalpha()
            and name[at + 1].isalpha()
            and name[at].isascii()
            and name[at - 1].isalpha()
            and len(re.search(r"[^\W\d_]*$", name[:at])[0] + re.match(r"[^\W\d_]*", name[at:])[0]) >= 6
        ]  # type: ignore[index]
        if not places:
            continue
        at = rng.choice(places)
        kind = rng.choice(["drop", "double", "swap"])
        wrong = {
            "drop": name[:at] + name[at + 1 :],
            "double": name[:at] + name[at] + name[at:],
            "swap": name[:at] + name[at + 1] + name[at] + name[at + 2 :],
        }[kind]
        paste_text = re.sub(rf"(?<![\w]){re.escape(name)}(?![\w])", lambda _, wrong=wrong: wrong, paste_text)
    return paste_text


NOISES: dict[str, Noise] = {
    "small codes": small_codes,
    "letters for digits": letters_for_digits,
    "dashes": dashes,
    "hard spaces": hard_spaces,
    "quoted mail": quoted_mail,
    "numbered": numbered,
    "bullets": bullets,
    "windows ends": windows_ends,
    "greeting": greeting,
    "tail spaces": tail_spaces,
    "no indent": no_indent,
    "extra spaces": extra_spaces,
    "shouting": shouting,
    "doubled lines": blank_lines_doubled,
}
#: Noise that a layout can't bear without losing what it says.
UNFIT = {
    "sections": {"no indent"},
    "printed report": {"doubled lines", "numbered", "bullets"},
    "keys and values": {"doubled lines", "numbered", "bullets"},
    "table": {"extra spaces", "no indent", "numbered", "bullets"},
    "one line": {"extra spaces", "doubled lines"},
    "prose": {"numbered", "shouting", "bullets"},
    "headings": {"extra spaces"},
    "pairs": {"shouting"},
    "colon lists": set(),
    "wrapped mail": {"doubled lines", "numbered", "bullets", "shouting"},
    "by status": {"no indent"},
    "chat": {"numbered", "bullets", "quoted mail"},
    "numbered tree": {"numbered", "bullets", "doubled lines"},
    "spanning rows": {"numbered", "bullets", "extra spaces"},
    "codes in a cell": {"numbered", "bullets", "extra spaces"},
    "table each": {"numbered", "bullets", "extra spaces", "no indent"},
    "separate values": {"numbered", "bullets", "doubled lines"},
    "addressed": {"numbered"},
    "underlined": {"numbered"},
    "status first": set(),
    "module behind": {"extra spaces"},
}


def make_paste(
    seed: int, layouts: dict[str, object], *, layout: str | None = None, noise: list[str] | None = None
) -> Paste:
    """One paste with its truth: a third are sloppy, with one to three kinds of noise."""
    rng = random.Random(seed)
    name = layout or rng.choice(sorted(layouts))
    language = (
        "en"
        if name in ("prose", "sections", "pairs", "wrapped mail", "by status", "chat")
        else rng.choices(["en", "de", "fr", "es"], [6, 2, 1, 1])[0]
    )
    snapshots = make_snapshots(rng, language)
    text, without = layouts[name](rng, snapshots, language)  # type: ignore[operator]
    sloppy = rng.random() < 1 / 3
    names = noise if noise is not None else (rng.sample(sorted(NOISES), rng.randint(1, 3)) if sloppy else [])
    for each in sorted(names, key="windows ends".__eq__):
        if each not in UNFIT.get(name, set()):
            text = NOISES[each](rng, text)
    if sloppy and noise is None and rng.random() < 0.4:
        text = typed_names(rng, text, [module.printed for module in snapshots[0].modules])
    return Paste(name, language, snapshots, text, sloppy, frozenset(without))
