"""Characters: text as it came is cut into lines and written in plain characters, each still tied to its place.

A paste from a mail, a printout or a spreadsheet holds dashes, spaces and quotes of many kinds, letters of other
alphabets that look like ours, ligatures and marks nobody sees. Everything after this file reads :attr:`Line.text`,
where all of that is plain; :meth:`Line.span` leads from there back to the line as it was pasted.

>>> line = lines("\\ufeffＥＣＭ\\u00a0P0562\\u201116")[0]
>>> line.text, line.span(4, 9)
('ECM P0562-16', (5, 10))
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from triage.intake.plain.patterns import lazily


def _translator(table: Mapping[int, str]) -> Callable[[str], str]:
    """``str.translate`` with a table for texts that hold few of its characters: no other one is looked up in it."""
    written = {chr(code): char for code, char in table.items()}
    pattern = lazily(f"[{''.join(map(re.escape, written))}]")
    return lambda text: pattern.sub(lambda match: written[match[0]], text)


#: One character for one character.
_PLAIN: dict[int, str] = {
    **dict.fromkeys(map(ord, "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe58\ufe63\uff0d\u2500\u2501\u2550"), "-"),
    **dict.fromkeys(
        map(
            ord,
            "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a"
            "\u202f\u205f\u3000\x0b\x0c\x1c\x1d\x1e\x1f",
        ),
        " ",
    ),
    **dict.fromkeys(map(ord, "\u201c\u201d\u201e\u201f\u00ab\u00bb\u2033"), '"'),
    **dict.fromkeys(map(ord, "\u2018\u2019\u201a\u201b\u00b4\u02bc\u2032\u2039\u203a"), "'"),
    **dict.fromkeys(map(ord, "\u2502\u2503\u2551\u00a6\uff5c\u2506\u250a"), "|"),
    **dict.fromkeys(
        map(
            ord,
            "\u250c\u2510\u2514\u2518\u251c\u2524\u252c\u2534\u253c\u2554\u2557\u255a\u255d"
            "\u2560\u2563\u2566\u2569\u256c",
        ),
        "+",
    ),
    **dict.fromkeys(
        map(
            ord,
            "\u2022\u2023\u25aa\u25ab\u25cf\u25cb\u25e6\u00b7\u2219\u25a0\u25a1\u2043\u25b6\u25ba"
            "\u2794\u279c\u2705\u2713\u2714\u25c6\u25c7\u2756\u204c\u2610\u2611\u2612",
        ),
        "\u2022",
    ),
    **dict.fromkeys(map(ord, "\u2192\u21d2"), ">"),
    ord("\u00ba"): "\u00b0",
    ord("\u02da"): "\u00b0",
    ord("\u2236"): ":",
    ord("\ua789"): ":",
    ord("\u2215"): "/",
    ord("\u2044"): "/",
    ord("\u066b"): ",",
    # Raised figures and letters are signs of footnotes: joined on to a code as plain ones they would be digits of it.
    **dict.fromkeys(
        map(ord, "\u00b9\u2070\u2074\u2075\u2076\u2077\u2078\u2079\u1d43\u1d47\u1d48\u1d49\u1d9c"), "\u2020"),
}
#: Hollow marks, which a key may tell from the filled ones beside them.
_HOLLOW = "\u25cb\u25e6\u25a1\u25c7\u25ab"
_TOLD_APART = lazily(f"[{_HOLLOW}]\\s?[=:-]\\s?[^\\W\\d_]")
_plain, _with_hollow = _translator(_PLAIN), _translator({**_PLAIN, **dict.fromkeys(map(ord, _HOLLOW), "o")})
#: Two of them are also of units: "m/s\u00b2".
_RAISED = lazily("(?<=[0-9A-F)\\]])[\u00b2\u00b3]")
#: Letters of other alphabets that are drawn as ours. Read as ours only in a word that mixes alphabets.
_DRAWN_ALIKE = str.maketrans(
    "\u0410\u0412\u0421\u0415\u041d\u0406\u0408\u041a\u041c\u041e\u0420\u0405\u0422\u0425\u0430\u0441\u0435\u043e"
    "\u0440\u0445\u0443\u0456\u0391\u0392\u0395\u0397\u0399\u039a\u039c\u039d\u039f\u03a1\u03a4\u03a7\u03bf\u054d"
    "\u0555\u216d\u0417\u03f9\u03f2",
    "ABCEHIJKMOPSTXaceopxyiABEHIKMNOPTXoUOC3Cc",
)
#: Small letters of other alphabets whose capitals are drawn as ours, and a code that one of them begins.
_SMALL_ALIKE = str.maketrans("\u0432\u043a\u043c\u043d\u0442\u03b2\u03c1\u03c5", "bkmhtbpu")
_CODED = lazily(r"(?<![^\W_])[bpuBPU][0-3oO][0-9a-fA-FoO]{3}(?:[0-9a-fA-F]{2})?(?![0-9a-zA-Z])")
_APART = lazily(
    r"(?<![^\W_])(?:[\u0391-\u03a9\u03f2\u03f9\u0400-\u042f\u0440](?=[ -][0-3oOIl][0-9a-fA-FoOIl]{3}(?:[0-9a-fA-F]{2})?"
    r"(?![0-9a-zA-Z]))|"
    r"[\u0432\u0441](?=[ -](?!20[0-9]{2}(?!-[0-9]))[0-3oO][0-9a-fA-FoO]{3}(?:[0-9a-fA-F]{2})?"
    r"(?![0-9a-zA-Z])))"
)
_UNACCENTED = {
    code: base[0]
    for code in range(0xC0, 0x250)
    for base in [unicodedata.normalize("NFD", chr(code))]
    if base[0].isascii()
} | {0xDF: "s", 0xF8: "o", 0xD8: "O", 0xE6: "a", 0x153: "o", 0x130: "I", 0x141: "L", 0x142: "l"}
_unaccented = _translator(_UNACCENTED)
_BLANKS = (" ", "\t")
#: ASCII that is not shown, or shown as a space.
_UNUSUAL = lazily("[\x00-\x08\x0b-\x1f\x7f]")
_UNSEEN = lazily("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\ufe0e\ufe0f\ufeff\x00-\x08\x0e-\x1b\x7f]")
_FOREIGN = lazily("[\u0370-\u058f\u2160-\u217f]")
_WORD = lazily(r"[^\s\x00-\x2f:;<=>?@\[\]^_`{|}~]+")
_ENTITY = lazily(r"&(?:#[0-9]{2,5}|#[xX][0-9A-Fa-f]{2,5}|[A-Za-z]{2,8}[0-9]{0,2});")
_LINE_ENDS = lazily("\r\n|\r|\x85|\u2028|\u2029")
#: What tells a terminal to change its colour or to move its cursor, with the escape itself or as it is written out; and
#: what is left of it where a copy has lost the escape.
# "[memorizado]" is a word in brackets.
_COLOUR = r"\[(?:[0-9]{1,3}(?:;[0-9]{1,3}){0,6}[mK](?!\])|[mK](?![^\W\d_A-Z]|\]))"
_TERMINAL = lazily(
    r"(?:(?:\x1b|\u241b|\^\[|\\(?:x1[bB]|u001[bB]|033|e))\[|\x9b)[0-9;?]{0,24}[A-Za-z]|\x1b[()][0-9A-Z]|" + _COLOUR
)
#: The x of a hexadecimal number, or that of a count, in a text written in capitals: "0X1A", "STORED 12X".
_LARGE_X = lazily(r"(?<![^\W_])(?:0(?=X[0-9A-F])|[0-9]{1,3} ?(?=X(?:[\s,;|)\]]|$)))X")
#: A colour is ended again, which tells it from a length in brackets.
_ENDED = lazily(r"\[(?:0{1,2}|39)m(?!\])|\[m(?![^\W\d_A-Z]|\])")


@dataclass(slots=True)
class Line:
    """One line: ``number`` from 1, ``raw`` as pasted, ``text`` in plain characters, ``offsets`` from one to the
    other (None: the same), ``low`` the text in small letters without accents, character by character, ``indent`` the
    columns before the first character, a tab taken as four."""

    number: int
    raw: str
    text: str
    offsets: tuple[int, ...] | None
    low: str
    indent: int
    #: The makers' own numbers of the whole text that are codes wherever they stand in it.
    own: frozenset[str] = frozenset()
    #: It tells of work, or of what was looked at, and of no module whether it holds codes.
    work: bool = False

    def span(self, start: int, end: int) -> tuple[int, int]:
        """The place in ``raw`` of ``text[start:end]``."""
        if not self.offsets:
            return start, end
        last = len(self.offsets) - 1
        begin = self.offsets[min(start, last)]
        if end <= start:
            return begin, begin
        return begin, max(begin, self.offsets[min(end - 1, last)]) + 1


def low(text: str) -> str:
    """``text`` in small letters without accents, one character for one character.

    >>> low("Steuerger\u00e4t \u00c9TAT gro\u00df")
    'steuergerat etat gros'
    """
    if text.isascii():
        return text.lower()
    plain = _unaccented(text)
    small = plain.lower()
    return small if len(small) == len(text) else "".join(c.lower()[:1] for c in plain)


_A_DIGIT = lazily(r"\d")
_A_LETTER = lazily(r"[^\W\d_]")


def has_digit(text: str) -> bool:
    """Whether a digit stands in ``text``."""
    return _A_DIGIT.search(text) is not None


def has_letter(text: str) -> bool:
    """Whether a letter stands in ``text``."""
    return _A_LETTER.search(text) is not None


def line_of(
    number: int, raw: str, text: str, offsets: tuple[int, ...] | None = None, own: frozenset[str] = frozenset()
) -> Line:
    """A line by its plain characters."""
    return Line(number, raw, text, offsets, low(text), indent_of(text) if text[:1] in _BLANKS else 0, own)


def reworded(line: Line, start: int, end: int, text: str) -> Line:
    """The line with ``text`` in the place of ``line.text[start:end]``, every character still tied to its place.

    >>> line = reworded(lines("  aft 12.5")[0], 2, 5, "after")
    >>> line.text, line.span(2, 7), line.span(8, 12)
    ('  after 12.5', (2, 5), (6, 10))
    """
    places = line.offsets or tuple(range(len(line.text)))
    inside = tuple(places[min(start + at, end - 1)] for at in range(len(text)))
    if text:
        inside = (*inside[:-1], places[end - 1])
    found = line_of(line.number, line.raw, line.text[:start] + text + line.text[end:],
                    places[:start] + inside + places[end:], line.own)
    found.work = line.work
    return found


def indent_of(text: str) -> int:
    """The columns before the first character of ``text``, a tab taken as four."""
    lead = text[: len(text) - len(text.lstrip(" \t"))]
    return len(lead.expandtabs(4)) if "\t" in lead else len(lead)


def lines(text: str) -> list[Line]:
    """The lines of ``text``, whatever its line ends. Linear in its length; takes any text."""
    if "\r" in text or not text.isascii():
        text = _LINE_ENDS.sub("\n", text)
    apart = not text.isascii() and _TOLD_APART.search(text) is not None
    coloured = "\x1b" in text or ("m" in text and _ENDED.search(text) is not None)
    found: list[Line] = []
    for number, raw in enumerate(text.split("\n"), 1):
        written = _written(raw) if "&" in raw and ";" in raw else []
        if coloured and _TERMINAL.search(raw) is not None:
            written = sorted([*written, *((*match.span(), "") for match in _TERMINAL.finditer(raw))])
        if written:
            found.append(_with_pieces(number, raw, written))
        elif raw.isascii() and (raw.isprintable() or not _UNUSUAL.search(raw)):
            indent = indent_of(raw) if raw[:1] in _BLANKS else 0
            found.append(Line(number, raw, raw, None, raw.lower(), indent))
        else:
            found.append(_line(number, raw, _with_hollow if apart else _plain))
    return list(map(_with_small_x, found)) if "X" in text and _LARGE_X.search(text) is not None else found


def _with_small_x(line: Line) -> Line:
    """The line with a small x in numbers and counts.

    >>> lines("C1200 0X54 (12X) X12 4X4")[0].text
    'C1200 0x54 (12x) X12 4X4'
    """
    if "X" in line.text:
        line.text = _LARGE_X.sub(lambda match: match[0].replace("X", "x"), line.text)
    return line


def _line(number: int, raw: str, written: Callable[[str], str] = _plain) -> Line:
    """One line in plain characters. ``written``: the character for each other one."""
    if raw.isascii():
        if not _UNSEEN.search(raw):
            return line_of(number, raw, raw.replace("\x0c", " ").replace("\x0b", " "))
        return _line_with_offsets(number, raw)
    plain = written(raw)
    if "\u00b2" in plain or "\u00b3" in plain:
        plain = _RAISED.sub("\u2020", plain)
    if _FOREIGN.search(plain):
        plain = _APART.sub(_letter_as_drawn, _WORD.sub(_as_drawn, plain))
    if _UNSEEN.search(plain) or not unicodedata.is_normalized("NFKC", plain.replace("\u00b2", "")):
        return _line_with_offsets(number, raw, plain)
    return line_of(number, raw, plain)


def _written(raw: str) -> list[tuple[int, int, str]]:
    """The characters written by name or number, each with its place.

    >>> lines("doesn&#x27;t &amp; R&D;")[0].text
    "doesn't & R&D;"
    """
    places = [match.span() for match in _ENTITY.finditer(raw)]
    if not places:
        return []
    from html import unescape  # few texts hold any

    return [(start, end, char) for start, end in places if len(char := unescape(raw[start:end])) == 1]


def _with_pieces(number: int, raw: str, written: Sequence[tuple[int, int, str]]) -> Line:
    """One line with one character or none in the place of each of the given pieces.

    >>> [line.text for line in lines("\\x1b[32mABS [1mC0035[0m")]
    ['ABS C0035']
    """
    pieces: list[str] = []
    places: list[int] = []
    at = 0
    for start, end, char in written:
        pieces += [raw[at:start], char]
        places += [*range(at, start), *([start] if char else [])]
        at = end
    line = _line(number, "".join([*pieces, raw[at:]]))
    places += range(at, len(raw))
    offsets = tuple(places[at] for at in (line.offsets or range(len(line.text)))) if places else ()
    return Line(number, raw, line.text, offsets or (0,), line.low, line.indent)


def _letter_as_drawn(match: re.Match[str]) -> str:
    """The letter of a code that stands apart from its digits, in ours where it has a twin."""
    letter = match[0].translate(_DRAWN_ALIKE).translate(_SMALL_ALIKE)
    return letter if letter in "PBCUpbcu" else match[0]


def _as_drawn(match: re.Match[str]) -> str:
    """A word with foreign letters, in ours where it mixes alphabets and every letter of it has a twin."""
    word = match[0]
    if _FOREIGN.search(word) is None:
        return word
    drawn = word.translate(_DRAWN_ALIKE)
    if not drawn.isascii():
        small = drawn.translate(_SMALL_ALIKE)
        drawn = small if _CODED.search(small) is not None else word
    mixed = any(c.isascii() and c.isalnum() for c in word)
    return drawn if mixed and drawn.isascii() else word


def _line_with_offsets(number: int, raw: str, plain: str | None = None) -> Line:
    """A line in which one character stands for several, or several for one, or for none."""
    plain = raw if plain is None else plain
    out: list[str] = []
    offsets: list[int] = []
    for place, char in enumerate(plain):
        if char == "\t" or (char.isascii() and char.isprintable()):
            out.append(char)
            offsets.append(place)
        elif _UNSEEN.match(char):
            continue
        elif unicodedata.combining(char) and out:
            joined = unicodedata.normalize("NFC", out[-1] + char)
            if len(joined) == 1:
                out[-1] = joined
        else:
            spread = char if char in "\u00b0\u00b2\u00b3" else unicodedata.normalize("NFKC", char)
            for piece in _plain(spread):
                out.append(" " if piece.isspace() else piece)
                offsets.append(place)
    text = "".join(out)
    return line_of(number, raw, text, tuple(offsets) if offsets else (0,))
