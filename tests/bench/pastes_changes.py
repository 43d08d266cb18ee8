"""Changes of what stands around the words of a text: none of them changes what a careful technician reads in it.

What mail programs, editors, browsers and terminals do to a text, and the marks that one hand puts where another puts
others. A change that finds nothing to do gives None.
"""

from __future__ import annotations

import html
import re
import unicodedata
from collections.abc import Callable
from dataclasses import replace
from random import Random

from pastes_blind_draw import Module, Paste

Change = Callable[[Paste, Random], Paste | None]


def of_text(way: Callable[[str], str]) -> Change:
    """A change that leaves the truth alone."""

    def change(paste: Paste, rng: Random) -> Paste | None:
        text = way(paste.text)
        return None if text == paste.text else replace(paste, text=text)

    return change


def of_lines(way: Callable[[int, str], str]) -> Change:
    """A change of each line that holds something, by its number and what stands in it."""

    def text(text: str) -> str:
        return "\n".join(way(i, line) if line.strip() else line for i, line in enumerate(text.split("\n")))

    return of_text(text)


def of_letters(way: Callable[[str], str]) -> Change:
    """A change of letters, in the names of the truth too."""

    def change(paste: Paste, rng: Random) -> Paste | None:
        text = way(paste.text)
        return None if text == paste.text else renamed(replace(paste, text=text), way)

    return change


def renamed(paste: Paste, way: Callable[[str], str]) -> Paste:
    """The truth with other names; the text is the caller's affair."""
    return replace(paste, snapshots=[
        replace(snap, modules=[_called(module, way(module.name.printed)) for module in snap.modules])
        for snap in paste.snapshots])


def _called(module: Module, printed: str) -> Module:
    return replace(module, name=replace(module.name, printed=printed))


def sub(pattern: str, by: str) -> Change:
    found = re.compile(pattern, re.MULTILINE)
    return of_text(lambda text: found.sub(by, text))


#: What is the same in capitals and in small letters only to a reader of words: marks of pages and colours, and an l in
#: the place of a 1.
_MARKUP = re.compile(r"(\x1b?\[[\d;]*m|&#?\w+;|<[^<>\n]*>|\b(?=\w*\d)\w*l\w*)")


def _words_only(way: Callable[[str], str]) -> Change:
    """A change of all that is no markup."""
    return of_text(lambda text: "".join(part if i % 2 else way(part) for i, part in enumerate(_MARKUP.split(text))))


def bullets(paste: Paste, rng: Random) -> Paste | None:
    """Another mark before the items of a list."""
    mark = rng.choice(["• ", "* ", "– ", "» ", "▪ ", "+ "])
    return sub(r"^(\s*)[-•*–·] (?=\S)(?!.*[-•*–·]$)", rf"\1{mark}")(paste, rng)


def _page(text: str) -> str:
    return f"<html><body><pre>{html.escape(text, quote=False)}</pre></body></html>"


def _divs(text: str) -> str:
    """As a mail program keeps it: an element a line."""
    return "\n".join(f"<div>{html.escape(line, quote=False)}</div>" for line in text.split("\n"))


def _greeted(text: str) -> str:
    return f"Hi, see below please, thanks\n\n{text}\n\nRegards\nTom"


def _signed(text: str) -> str:
    """With a foot of numbers that are no codes."""
    return (f"{text}\n\n--\nTom Baker\nWorkshop foreman\nPhone +44 20 7946 0812, ext. 4417\n"
            "Our order no. 0031875, plate LX08 KPB\n")


def _in_a_mail(text: str) -> str:
    return f"Hi Karl, here is what I read this morning:\n\n{text}\n\nThanks, Tom\n"


def _printed(text: str) -> str:
    return f"{text}\n\nPage 1 of 1\n"


def _boxed(text: str) -> str:
    """Within the sides of a box."""
    if "\t" in text:
        return text
    lines = [line.rstrip() for line in text.split("\n")]
    width = max(map(len, lines))
    return "\n".join(f"| {line.ljust(width)} |" if line else "" for line in lines)


def _stopped(text: str) -> str:
    """Full stops at the ends of lines, where no line is the rest of the one above."""
    if re.search(r"\n[ \t]*(?:[^\W\d_A-Z]|[(&])", text) and re.search(r"(?m)^[A-Z]", text):
        return text
    return re.sub(r"(?m)(?<=[\w)])(?<!\[0m)$", ".", text)


def _umlauts(text: str) -> str:
    """As typed on a keyboard that has none."""
    for letter, two in (("ä", "ae"), ("ö", "oe"), ("ü", "ue"), ("ß", "ss"), ("Ä", "Ae"), ("Ö", "Oe"), ("Ü", "Ue")):
        text = text.replace(letter, two)
    return text


def _accents(text: str) -> str:
    """Accents dropped, as by old printers; ä, ö and ü stay."""
    return "".join(
        letter if letter in "äöüÄÖÜ" else "".join(part for part in unicodedata.normalize("NFD", letter)
                                                  if not unicodedata.combining(part))
        for letter in text)


#: What programs do to lines and pages.
PROGRAMS: dict[str, Change] = {
    "line ends": of_text(lambda text: text.replace("\n", "\r\n")),
    "trailing": of_lines(lambda _, line: f"{line}   "),
    "blank": sub(r"\n", "\n\n"),
    "wider": sub(r"\n\n", "\n\n\n"),
    "no blank": sub(r"\n\s*\n+", "\n"),
    "indent": of_lines(lambda _, line: f"    {line}"),
    "tab indent": of_lines(lambda _, line: f"\t{line}"),
    "dedent": of_lines(lambda _, line: line.lstrip()),
    "quote": of_lines(lambda _, line: f"> {line}"),
    "quote twice": of_lines(lambda _, line: f">> {line}"),
    "fence": of_text(lambda text: f"```\n{text}\n```"),
    "number": of_lines(lambda i, line: f"{i + 1:4d}  {line}"),
    "stamp": of_lines(lambda i, line: f"[{9 + i // 60:02d}:{i % 60:02d}] {line}"),
    "pipe": of_text(_boxed),
    "page": of_text(_page),
    "divs": of_text(_divs),
    "no-break": of_text(lambda text: text.replace(" ", "\u00a0")),
    "greeting": of_text(_greeted),
    "mail": of_text(_in_a_mail),
    "signature": of_text(_signed),
    "foot": of_text(_printed),
    "wide gaps": sub(r"(?<=\S) {2,}(?=\S)", r"\g<0>  "),
    "double": sub(r"(?<=\S) (?=\S)", "  "),
}

#: Marks and letters that one hand puts where another puts others.
MARKS: dict[str, Change] = {
    "upper": _words_only(str.upper),
    "lower": _words_only(str.lower),
    "umlauts": of_letters(_umlauts),
    "accents": of_letters(_accents),
    "bullets": bullets,
    "round to square": of_letters(lambda text: re.sub(r"\(([^()\n]*)\)", r"[\1]", text)),
    "semicolon": of_text(lambda text: text if ";" in text else re.sub(r"(?<=\S), (?=\S)", "; ", text)),
    "full stop": of_text(_stopped),
    "long dash": sub(r" - ", " — "),
    "short dash": sub(r" [–—] ", " - "),
    "dash for hyphen": sub(r"-", "–"),
    "one dot": sub(r"\.\.\.", "…"),
    "no colon": sub(r":[ ]*$", ""),
    "apostrophe": sub(r"(?<=\w)'(?=\w)", "’"),
    "spaced colon": sub(r"(?<=[^\W\d]): ", " : "),
}
