"""Trouble codes: the forms they are written in, and one contract for all of them.

SAE J2012 / ISO 15031-6
-----------------------
A letter for the system (P powertrain, C chassis, B body, U network), a first digit 0 to 3 and three hexadecimal
digits. Two bits hold the letter, two the first digit, so P4000 can't exist. An optional failure type (ISO 14229-1
format, two hexadecimal digits) is written after a hyphen; "00" says that there is no sub-type and is kept as read.

>>> parse("p0562"), parse("U0073 04"), parse("P0562 [16]")
(Code('P0562'), Code('U0073-04'), Code('P0562-16'))
>>> [compact(text) for text in ("P 0562", "P0562:16", "P0562-16", "P056216")]
['P0562', 'P056216', 'P056216', 'P056216']
>>> format("p0a9b", "17")
'P0A9B-17'
>>> [is_valid(text) for text in ("P0A7F", "P4000", "P030", "X0300", "P0G00")]
[True, False, False, False, False]
>>> print(explain_invalid("P4000"))
P4000: the first digit of a code can only be 0 to 3, seen 4

On the wire a code is two bytes, or three with its failure type. Letters start at P 0x0000, C 0x4000, B 0x8000 and
U 0xC000.

>>> from_bytes(bytes.fromhex("C07304"))
Code('U0073-04')
>>> to_bytes(parse("U3003-16")).hex(" ")
'f0 03 16'

SAE J1939-73
------------
A suspect parameter number (SPN, 0 to 524287) with a failure mode (FMI, 0 to 31); the source address (SA, 0 to 255)
names the module that sent it and is no part of the code's own text.

>>> code = parse("SPN:168, FMI 4 (SA 0)")
>>> code, code.text, code.source_address
(Code('SPN 168 FMI 4 SA 0'), 'SPN 168 FMI 4', 0)
>>> from_j1939_bytes(bytes.fromhex("B804030A"))
Code('SPN 1208 FMI 3')

A maker's own number
--------------------
One of the forms of `own_forms.FORMS`, or the MID with PID or SID and FMI of older heavy vehicles. Such text can be
anything, so :func:`parse` never takes it; whoever knows from its place that it is a code asks :func:`own`.

>>> parse("01314"), own("01314"), own("9a12b4"), own("mid 128 pid 94 fmi 1"), own("D-2240B"), own("0x9a12")
(None, Code('01314'), Code('9A12B4'), Code('MID 128 PID 94 FMI 1'), Code('D-2240B'), Code('0x9A12'))

Which range is whose and what a number means stands in the tables, not here. Sources: SAE J2012 and J2012DA (read
second-hand), ISO 15031-6, ISO 14229-1, SAE J1939-73 (read second-hand); makers' own forms are common practice.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from triage.model.own_forms import FORMS, accepted

Kind = Literal["J2012", "J1939", "own"]

#: The letters in the order of their two bits.
LETTERS = "PCBU"
SPN_MAX = 524287
FMI_MAX = 31

#: Nothing longer than this is looked at as one code.
_LONGEST = 64
_DASHES = {ord(dash): "-" for dash in "\u00ad\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe58\ufe63\uff0d"}

# Every repetition below is bounded or separated by a fixed word, so matching is linear.
_HEX2 = r"(?:0X)?([0-9A-F]{2})H?"
_J2012 = re.compile(
    r"([PCBU])[ .-]?([0-3][0-9A-F]{3})"
    rf"(?:(?: ?[-:./_# ] ?)?{_HEX2}| ?\[ ?{_HEX2} ?\]| ?\( ?{_HEX2} ?\))?"
)
_GAP = r"[ :=#./,;()-]{0,3}"
_ADDRESS = rf"SA{_GAP}(0X[0-9A-F]{{1,2}}|[0-9]{{1,3}})"
_J1939 = re.compile(
    rf"(?:{_ADDRESS}{_GAP})?SPN{_GAP}([0-9]{{1,7}}){_GAP}FMI{_GAP}([0-9]{{1,3}})(?:{_GAP}{_ADDRESS}\)?)?"
    r"|SPN(?: ?[/-] ?FMI)?[ :=]{0,2}([0-9]{1,7}) ?[/.-] ?([0-9]{1,3})"
)
_MID = re.compile(
    rf"MID{_GAP}([0-9]{{1,3}}){_GAP}(P?PID|P?SID){_GAP}([0-9]{{1,3}}){_GAP}FMI{_GAP}([0-9]{{1,2}})"
)
_OWN = re.compile(r"(?=[A-F]{0,5}[0-9])([0-9A-F]{4,6})H?|" + accepted(FORMS))
# P030, C0O35 and B4000 have the form of a maker's number, but far more often a J2012 code with a slip in it. With a
# digit too many as well (B40001) it is one of a maker.
_NEARLY_J2012 = re.compile(
    r"[PCBU][OQIL]?[0-9]{3}|[PCBU][0-9OQIL][0-9]{3}|[PCBU][0-3OQIL][0-9]{3}[0-9A-F]|[PCBU][0-9A-F]{4}")
# What may stand where a code must: letters with digits, or three digits and more with a mark between.
_PLACED = re.compile(
    r"(?=[A-Z0-9]{0,5}[.-]?[A-Z]{0,5}[0-9])(?=.{3,14}$)(?=[A-Z0-9.-]*[A-Z]|[0-9.-]*[.-])[A-Z0-9]{1,6}"
    r"(?:[.-][A-Z0-9]{1,6}){0,2}")
_MEASURED = re.compile(r"[0-9]+(?:[.,][0-9]+)?(?:M?V|M?A|AH|KM|KMH|MI|X|H|MIN|M?S|RPM|C|F|K?W|BAR|KPA|K?HZ|NM|MM|MG|L)")
# Nearly a standard code, however it is split; dates; letters that number other things.
_NO_CODE = re.compile(
    r"[PCBU][.-]?[0-3OIL](?:[0-9A-F]{2}|[0-9A-Z]{2,4}$)|[0-9]+\.[0-9]+$|[0-9]{1,4}[.-][0-9]{1,2}[.-][0-9]{2,4}$|(?:SPN|FMI|PID|MID|SID|HW|SW|SA)[.-]?[0-9]")
# Networks by the number of their SAE standard, which descriptions name: "J1939 network 1".
_NETWORKS = frozenset({"J1587", "J1708", "J1850", "J1939", "J2284", "J2411", "J2602", "J2716"})
_SEPARATORS = re.compile(r"[\s\-:./_#,;=()\[\]{}]+")
_SHAPE = re.compile(r"([A-Z])([0-9A-Z]+)")


@dataclass(frozen=True, slots=True, repr=False)
class Code:
    """One trouble code.

    ``text`` is the canonical text without failure type and source address ("P0562", "SPN 168 FMI 4", a maker's own
    number as written, in capitals, but for the "0x" of some); ``failure_type`` is two hexadecimal digits in capitals or
    None. ``spn`` and ``fmi`` are set for J1939 only, ``source_address`` there if it was given.
    """

    text: str
    failure_type: str | None = None
    kind: Kind = "J2012"
    spn: int | None = None
    fmi: int | None = None
    source_address: int | None = None

    @property
    def letter(self) -> str | None:
        """P, C, B or U; None for another kind."""
        return self.text[0] if self.kind == "J2012" else None

    @property
    def digits(self) -> str | None:
        """The four characters after the letter; None for another kind."""
        return self.text[1:] if self.kind == "J2012" else None

    @property
    def number(self) -> int | None:
        """The two-byte value, 0 to 65535; None for another kind."""
        if self.kind != "J2012":
            return None
        return LETTERS.index(self.text[0]) << 14 | int(self.text[1:], 16)

    def __str__(self) -> str:
        if self.failure_type is not None:
            return f"{self.text}-{self.failure_type}"
        if self.source_address is not None:
            return f"{self.text} SA {self.source_address}"
        return self.text

    def __repr__(self) -> str:
        return f"Code({str(self)!r})"


def _plain(text: str) -> str:
    """Plain hyphens, and plain characters where one stands for another."""
    return text if text.isascii() else unicodedata.normalize("NFKC", text.translate(_DASHES))


def _fold(text: str) -> str:
    """Capitals, plain hyphens, single plain spaces, no space at the ends."""
    return " ".join(_plain(text).upper().split())


def compact(text: str) -> str:
    """The shortest writing of ``text``: capitals, no separators. Takes any text, a code or not.

    >>> compact("spn 168 / fmi 4"), compact(" no code ")
    ('SPN168FMI4', 'NOCODE')
    """
    code = parse(text)
    if code is None:
        return _SEPARATORS.sub("", _fold(text))
    return _SEPARATORS.sub("", str(code))


@lru_cache(maxsize=65536)
def parse(text: str) -> Code | None:
    """The J2012 or J1939 code that ``text`` is as a whole, or None. Never raises; cached."""
    if len(text) > _LONGEST:
        return None
    folded = _fold(text)
    match = _J2012.fullmatch(folded)
    if match is not None:
        failure = match[3] or match[4] or match[5]
        return Code(match[1] + match[2], failure)
    match = _J1939.fullmatch(folded)
    if match is None:
        return None
    spn, fmi = int(match[2] or match[5]), int(match[3] or match[6])
    address = match[1] or match[4]
    source = None if address is None else int(address, 0 if address.startswith("0X") else 10)
    return _j1939(spn, fmi, source)


def _j1939(spn: int, fmi: int, source: int | None = None) -> Code | None:
    """The code for an SPN and an FMI, or None out of range."""
    if spn > SPN_MAX or fmi > FMI_MAX or (source is not None and source > 255):
        return None
    return Code(f"SPN {spn} FMI {fmi}", None, "J1939", spn, fmi, source)


def is_valid(text: str) -> bool:
    """Whether ``text`` as a whole is a J2012 or J1939 code, in any of the forms."""
    return parse(text) is not None


def format(code: Code | str, failure_type: str | None = None) -> str:
    """The canonical writing: ``P0562``, ``P0562-16``, ``SPN 168 FMI 4``, ``SPN 168 FMI 4 SA 0``.

    ``failure_type`` (two hexadecimal digits) is used where the code brings none. Text that is no code is returned
    with its outer spaces removed.

    >>> format(" 01314 "), format("U0100:87"), format("P0562", "0f")
    ('01314', 'U0100-87', 'P0562-0F')
    """
    found = parse(code) if isinstance(code, str) else code
    if found is None:
        return str(code).strip() if failure_type is None else f"{str(code).strip()}-{failure_type.upper()}"
    if failure_type is not None and found.failure_type is None:
        return f"{found.text}-{failure_type.upper()}"
    return str(found)


@lru_cache(maxsize=4096)
def own(text: str) -> Code | None:
    """``text`` as a maker's own number, or None where it has no such form or is (nearly) a J2012 or J1939 code."""
    if len(text) > _LONGEST or parse(text) is not None or not _plain(text).isascii():
        return None
    folded = _fold(text)
    match = _MID.fullmatch(folded)
    if match is not None:
        return Code(f"MID {int(match[1])} {match[2]} {int(match[3])} FMI {int(match[4])}", None, "own")
    match = _OWN.fullmatch(folded)
    if match is None or _NEARLY_J2012.fullmatch(folded) or folded in _NETWORKS:
        return None
    return Code(match[1] or _signed(folded), None, "own")


def _signed(folded: str) -> str:
    """A folded number with the sign for hexadecimal digits as everybody writes it."""
    return "0x" + folded[2:] if folded.startswith("0X") else folded


def placed(text: str) -> Code | None:
    """``text`` that fills a place made for a code, a cell or the value of a key: any short word of letters and digits
    that is no standard code with a slip, no count and no measure; None for another.

    >>> placed("K1204-02"), placed("E-401A"), placed("11.05"), placed("12"), placed("P030"), placed("12V")
    (Code('K1204-02'), Code('E-401A'), None, None, None, None)
    """
    code = own(text)
    if code is not None or len(text) > _LONGEST or parse(text) is not None or not _plain(text).isascii():
        return code
    folded = _fold(text)
    if not _PLACED.fullmatch(folded) or _MEASURED.fullmatch(folded) or _NEARLY_J2012.fullmatch(folded):
        return None
    return None if _NO_CODE.match(folded) or folded in _NETWORKS else Code(_signed(folded), None, "own")


@lru_cache(maxsize=65536)
def from_number(number: int, failure_type: str | None = None) -> Code:
    """The J2012 code of a two-byte value. Raises ValueError outside 0 to 65535.

    >>> from_number(0x9234)
    Code('B1234')
    """
    if not 0 <= number <= 0xFFFF:
        raise ValueError(f"a J2012 code is a number from 0 to 65535, seen {number}")
    return Code(f"{LETTERS[number >> 14]}{number & 0x3FFF:04X}", failure_type)


def from_bytes(data: bytes) -> Code:
    """The J2012 code of two bytes, or of three with the failure type last. Raises ValueError at another length."""
    if len(data) not in (2, 3):
        raise ValueError(f"a J2012 code is two or three bytes, seen {len(data)}")
    return from_number(data[0] << 8 | data[1], f"{data[2]:02X}" if len(data) == 3 else None)


def from_j1939_bytes(data: bytes, source_address: int | None = None) -> Code:
    """The J1939 code of three bytes, or of four with conversion bit and count last (which are not read).

    The three bytes are SPN bits 0-7, bits 8-15, then bits 16-18 above the five bits of the FMI (SAE J1939-73,
    version 4; older versions put the SPN together in another way). Raises ValueError at another length.
    """
    if len(data) not in (3, 4):
        raise ValueError(f"a J1939 code is three or four bytes, seen {len(data)}")
    spn, fmi = data[0] | data[1] << 8 | (data[2] >> 5) << 16, data[2] & 0x1F
    return Code(f"SPN {spn} FMI {fmi}", None, "J1939", spn, fmi, source_address)


def to_bytes(code: Code) -> bytes:
    """The bytes that name the fault: two, three with a failure type; three for J1939 (without conversion bit and
    count). Raises ValueError for a maker's own number, whose bytes nobody knows."""
    if code.spn is not None and code.fmi is not None:
        return bytes((code.spn & 0xFF, code.spn >> 8 & 0xFF, code.spn >> 16 << 5 | code.fmi))
    number = code.number
    if number is None:
        raise ValueError(f"{code.text} is a maker's own number: its bytes are not known")
    return number.to_bytes(2, "big") + bytes.fromhex(code.failure_type or "")


def explain_invalid(text: str) -> str | None:
    """One plain line why ``text`` is no J2012 or J1939 code; None where it is one.

    >>> print(explain_invalid("X0300"))
    X0300: a code starts with P, C, B or U, seen X
    """
    if parse(text) is not None:
        return None
    folded = _fold(text)
    shown = folded if len(folded) <= 40 else folded[:37] + "..."
    if not folded:
        return "empty: a code is a letter P, C, B or U with four hexadecimal digits, or an SPN with its FMI"
    if folded.startswith(("SPN", "SA", "FMI")) and any(c.isdigit() for c in folded):
        return f"{shown}: {_explain_j1939(folded)}"
    match = _SHAPE.fullmatch(_SEPARATORS.sub("", folded[:_LONGEST]))
    if match is None or not any(c.isdigit() for c in match[2]):
        return f"{shown}: not a letter P, C, B or U with four hexadecimal digits, nor an SPN with its FMI"
    return f"{shown}: {_explain_j2012(match[1], match[2])}"


def _explain_j2012(letter: str, rest: str) -> str:
    """What is wrong with a letter and the characters after it."""
    if letter not in LETTERS:
        return f"a code starts with P, C, B or U, seen {letter}"
    wrong = next((c for c in rest if c not in "0123456789ABCDEF"), None)
    if wrong is not None:
        hint = {"O": " (the digit 0?)", "Q": " (the digit 0?)", "I": " (the digit 1?)", "L": " (the digit 1?)"}
        return f"{wrong} is not a hexadecimal digit (0-9, A-F){hint.get(wrong, '')}"
    if rest[0] not in "0123":
        return f"the first digit of a code can only be 0 to 3, seen {rest[0]}"
    if len(rest) < 4:
        return f"a code has four characters after its letter, seen {len(rest)}: too short"
    return f"a code has four characters after its letter, or six with a failure type, seen {len(rest)}"


def _explain_j1939(folded: str) -> str:
    """What is wrong with text that starts like a J1939 code."""
    spn = re.search(rf"SPN{_GAP}([0-9]{{1,12}})", folded)
    fmi = re.search(rf"FMI{_GAP}([0-9]{{1,12}})", folded)
    address = re.search(rf"SA{_GAP}([0-9]{{1,12}})", folded)
    if spn is not None and int(spn[1]) > SPN_MAX:
        return f"an SPN is 0 to {SPN_MAX}, seen {spn[1]}"
    if fmi is not None and int(fmi[1]) > FMI_MAX:
        return f"an FMI is 0 to {FMI_MAX}, seen {fmi[1]}"
    if address is not None and int(address[1]) > 255:
        return f"a source address (SA) is 0 to 255, seen {address[1]}"
    if spn is None:
        return "the SPN is missing"
    return "the FMI is missing" if fmi is None else "not written as SPN number FMI number"
