"""One line of text as hexadecimal bytes: what stands before them, whose they are, and whether they are an answer.

Lines may bring a time, a channel, a direction, a CAN identifier (11 or 29 bit), a length, words before a colon,
and the bytes with or without spaces, ``0x``, commas or hyphens; all of it common practice, no one program's layout.
"""

from __future__ import annotations

import re

from triage.intake.plain.patterns import lazily
from triage.intake.raw.kinds import RawLine, address_in_bytes, classify, group_fits, is_29bit, is_diagnostic
from triage.intake.raw.shapes import READ_SERVICES
from triage.intake.raw.values import DIAGNOSTIC_GROUPS, ELECTRICAL_GROUP

_TOKEN = lazily(r"[^\s|]+")
_HEX = frozenset("0123456789abcdefABCDEF")
_HEXISH = _HEX | frozenset("xX,;-#")
#: The commonest writing: an identifier or none, then bytes with one space between them.
_REGULAR = lazily(r"[ \t]*(?:([0-7][0-9A-Fa-f]{2}|[01][0-9A-Fa-f]{7})[ \t]+|([0-9A-Fa-f]): ?)?"
                      r"([0-9A-Fa-f]{2}(?: [0-9A-Fa-f]{2})*)[ \t\r]*")
#: Answers and requests that are a single byte.
_SINGLE = frozenset(("44", "54", "03", "04", "07", "0a"))
_PIECE = lazily(r"[^,;\-]+")
_ID11 = lazily(r"(?:id[=:]?|\()?(?:0x)?0{0,5}([0-7][0-9a-f]{2})h?[:,)]*", re.I)
_ID29 = lazily(r"(?:id[=:]?|\()?(?:0x)?([01][0-9a-f]{7})[xh]?[:,)]*", re.I)
_NUMERIC = lazily(r"[(\[<]?[-+]?[0-9][0-9.,:_-]*m?s?[)\]>]?[:,]?")
_MARK = lazily(r"[rtdxs]|[rt]x[:>]?|<=?-*|-*=?>|<+|>+|rec(?:eived|v)?:?|rcv|sent|send|std|ext|id[:=]?"
                   r"|dlc[:=]?[0-9]?|v?s?l?can[0-9]?:?|ch(?:annel)?[0-9]?:?|\[0?[0-8]\]|[-=*•]", re.I)
_SENT = lazily(r"tx[:>]?|t|sent|send|>+|-+>", re.I)
_GROUP = lazily(r"(?:dm(\d{1,2})|pgn[ :=]*(?:0x)?([0-9a-f]{4,5}))\b", re.I)
_SOURCE = lazily(r"\b(?:sa|source(?: address)?)[ :=]*(0x[0-9a-f]{1,2}|\d{1,3})\b", re.I)
_SEGMENT = lazily(r"\s*([0-9a-fA-F]):\s*(?=[0-9a-fA-F]{2})")
_LENGTH = lazily(r"\s*(0[0-9a-fA-F]{2})\s*")
_SEPARATOR = lazily(r"[:>=|\t]\s*$")
#: Words that say that the digits after them are something else.
_NOT_BYTES = lazily(
    r"\b(?:tele?(?:fon|phone|fono|phone)?|phone|mobile|fax|parts?|number|nummer|num[eé]ro|n[o°]|nr|p/n|serial|s/n|vin|"
    r"cal(?:ibration)?|cvn|hardware|software|hw|sw|version|date|datum|odometer|mileage|plate|order|invoice|ref\w*|key|"
    r"kilom\w*|laufleistung|count(?:er)?|z(?:ä|ae|a)hler|compteur|contador|occurrences?|h(?:ä|ae|a)ufigkeit|frecuencia|"
    r"barcode|batch|lot|assembly|teile\w*|id|tyres?|fuses?|bay|pin|connector)\b", re.I)
#: Words that name the bytes, not the module.
_PLAIN_WORDS = lazily(
    r"\b(?:(?:mode|service|sid|pid|request|nr)(?:[ :=]*(?:0x)?[0-9a-f]{2})?|responses?|answer(?:s|ed)?|reply|raw|data|"
    r"hex|bytes?|payload|messages?|frames?|ecu|uds|obd|can|result|dtcs?|codes?)\b", re.I)
#: Lines longer than this are no answer of any module (ISO-TP carries 4095 bytes; 0x and separators included).
_LONGEST = 40_000


def read_line(text: str) -> RawLine | None:
    """The bytes on a line with what they seem to be, or None where the line does not end in hexadecimal bytes."""
    if len(text) > _LONGEST:
        return None
    regular = _REGULAR.fullmatch(text)
    if regular is not None:
        start, end = regular.span(3)
        line = RawLine(text, bytes.fromhex(regular[3]), range(start, end, 3))
        if regular[2] is not None:
            return _piece(line, int(regular[2], 16))
        if regular[1] is not None:
            line.address, line.number = regular[1].upper(), int(regular[1], 16)
        if line.number is None or line.number <= 0x7FF or is_29bit(line.number):
            return _finished(line)
    body = _without_comment(text)
    if not _may_end_in_bytes(body):
        return _announced_length(text, body)
    segment = _SEGMENT.match(body)
    if segment is not None:
        found, before = _take_bytes(text, list(_TOKEN.finditer(body, segment.end())))
        return None if found is None or before else _piece(found, int(segment[1], 16))
    tokens = list(_TOKEN.finditer(body))
    found, before = _take_bytes(text, tokens)
    if found is None or (before and not _read_prefix(found, body, before)):
        return None
    return _finished(found)


def _finished(line: RawLine) -> RawLine | None:
    """``line`` with its form decided."""
    if line.form == "message":
        if line.number is None:
            address_in_bytes(line)
        if line.data:
            classify(line)
    return line if line.data or line.form == "broken" else None


def _may_end_in_bytes(body: str) -> bool:
    """A cheap look at the last two words, which turns away nearly every line of ordinary text."""
    if len(body) < 2 or body[-1] not in _HEX or body[-2] not in _HEX:
        return False
    words = body.replace("|", " ").rsplit(None, 2)
    last = words[-1]
    if not _HEXISH.issuperset(last):
        # Bytes may follow a colon without a space ("0:43 06").
        return "#" in last or (":" in last and len(last) <= 4)
    return len(last) > 2 or len(words) < 2 or _HEXISH.issuperset(words[-2]) or last.lower() in _SINGLE


def _announced_length(text: str, body: str) -> RawLine | None:
    """A line of three digits: the length that stands above numbered pieces."""
    found = _LENGTH.fullmatch(body)
    if found is None:
        return None
    start, end = found.span(1)
    return RawLine(text, bytes.fromhex("0" + found[1]), (start, start), "length", span=(start, end))


def _without_comment(text: str) -> str:
    """``text`` without spaces, separators and a comment at its end."""
    cut = text.find("//")
    body = text if cut < 0 else text[:cut]
    body = body.rstrip(" \t\r\n,;.|")
    if body.endswith((")", "'")):
        start = body.rfind(" (" if body[-1] == ")" else "  '")
        body = body[:start].rstrip(" \t,;.|") if start > 0 else body
    return body


def _piece(line: RawLine, number: int) -> RawLine | None:
    """A piece ``0: 43 06 ...`` of an answer printed in numbered pieces of at most seven bytes."""
    if len(line.data) > 7:
        return None
    line.form, line.number = "segment", number
    line.strict = line.whole = number == 0 and len(line.data) == 6 and line.data[0] in READ_SERVICES and line.spaced
    return line


def _take_bytes(text: str, tokens: list[re.Match[str]]) -> tuple[RawLine | None, list[re.Match[str]]]:
    """The bytes at the end of a line, and the tokens before them."""
    taken: list[tuple[int, int]] = []
    spaced = False
    index = len(tokens)
    while index:
        token = tokens[index - 1]
        word = token[0]
        if "#" in word:
            return _hash_form(text, tokens, index - 1, taken)
        places = _places(word, token.start())
        if places is None:
            break
        spaced = spaced or places[0][1] - places[0][0] == 2 or word[:2] in ("0x", "0X")
        taken.extend(reversed(places))
        index -= 1
    if not taken:
        return None, tokens
    return _line_of(text, taken, spaced), tokens[:index]


def _line_of(text: str, taken: list[tuple[int, int]], spaced: bool) -> RawLine:
    """A line from the places of its bytes, last first. A place longer than two characters is joined bytes."""
    starts: list[int] = []
    for start, end in reversed(taken):
        starts.extend(range(start, end, 2))
    data = bytes.fromhex("".join(text[start:end] for start, end in reversed(taken)))
    return RawLine(text, data, starts, spaced=spaced)


def _places(word: str, offset: int) -> list[tuple[int, int]] | None:
    """Places of the hexadecimal bytes of a token, or None where it has anything else in it."""
    if len(word) == 2:
        return [(offset, offset + 2)] if word[0] in _HEX and word[1] in _HEX else None
    places = []
    for piece in _PIECE.finditer(word):
        start = piece.start() + (2 if piece[0][:2] in ("0x", "0X") else 0)
        size = piece.end() - start
        if size < 2 or size % 2 or not _HEX.issuperset(word[start:piece.end()]):
            return None
        places.append((offset + start, offset + piece.end()))
    return places or None


def _hash_form(text: str, tokens: list[re.Match[str]], index: int, taken: list[tuple[int, int]],
               ) -> tuple[RawLine | None, list[re.Match[str]]]:
    """``7E8#0643...``: identifier, a hash, joined bytes."""
    name, _, digits = tokens[index][0].partition("#")
    start = tokens[index].start() + len(name) + 1
    places = _places(digits, start) if digits else None
    address = _ID11.fullmatch(name) or _ID29.fullmatch(name)
    if taken or places is None or address is None:
        return None, tokens
    line = _line_of(text, list(reversed(places)), True)
    line.address, line.number = address[1].upper(), int(address[1], 16)
    return line, tokens[:index]


def _read_prefix(line: RawLine, body: str, before: list[re.Match[str]]) -> bool:
    """Sort what stands before the bytes: identifier, marks, words. False where the line is something else."""
    head = body[:line.starts[0]]
    group = _GROUP.search(head) if line.address is None else None
    if group is not None:
        return _read_group(line, head, group)
    place = _find_address(line, before)
    marks = [bool(_MARK.fullmatch(token[0])) for token in before]
    line.sent = any(mark and _SENT.fullmatch(token[0]) for mark, token in zip(marks, before, strict=True))
    words = [index for index, token in enumerate(before)
             if index != place and not marks[index] and not _NUMERIC.fullmatch(token[0])]
    if line.address is None and any(token[0].startswith("+") for token in before):
        return False  # An international telephone number.
    if not words:
        return line.address is not None or not all(set(t[0].rstrip(",;")) <= _HEX for t in before) or _odd_bytes(
            line, before)
    end = before[place].start() if words[-1] < place else len(head)
    label = body[before[words[0]].start():end]
    if len(words) > 8 or _NOT_BYTES.search(label):
        return False
    if line.address is None and not _SEPARATOR.search(head):
        return False
    if line.address is None or words[-1] < place:
        line.label = _PLAIN_WORDS.sub("", label).strip(" \t:=<>-|()[],;") or None
    return True


def _find_address(line: RawLine, before: list[re.Match[str]]) -> int:
    """The token with the identifier nearest to the bytes (taken into ``line``), or -1.

    A single digit between it and the bytes is a length; anything more is a broken line.
    """
    if line.address is not None:
        return -1
    for place in range(len(before) - 1, -1, -1):
        token = before[place][0]
        found = _ID29.fullmatch(token) or (_ID11.fullmatch(token) if len(token) > 2 else None)
        if found is None:
            continue
        line.address, line.number = found[1].upper(), int(found[1], 16)
        between = [t for t in before[place + 1:] if set(t[0]) <= _HEX and not (t[0] == "d" or t[0] == "D")]
        if len(between) > 1 or any(t[0] not in "012345678" for t in between):
            line.form, line.trouble = "broken", "bytes of two hexadecimal digits"
            odd = next((t for t in between if len(t[0]) % 2), between[0])
            line.span = odd.span()
            line.strict = is_diagnostic(line)
        return place
    return -1


def _odd_bytes(line: RawLine, before: list[re.Match[str]]) -> bool:
    """A line that is hexadecimal throughout, with a piece of one digit in it."""
    odd = before[-1]
    if len(before) < 2 or len(odd[0]) > 3:
        return False
    line.form, line.trouble = "broken", "bytes of two hexadecimal digits"
    line.span = odd.span()
    return True


def _read_group(line: RawLine, head: str, group: re.Match[str]) -> bool:
    """``DM1 04 FF ...``, ``PGN 65226 SA 0: 04 FF ...``."""
    if group[1] is not None:
        number = next((n for n, (name, _) in DIAGNOSTIC_GROUPS.items() if name == f"DM{int(group[1])}"), None)
    else:
        number = int(group[2], 10) if group[2].isdigit() and len(group[2]) == 5 else int(group[2], 16)
    if number not in DIAGNOSTIC_GROUPS and number != ELECTRICAL_GROUP:
        return False
    source = _SOURCE.search(head)
    line.form, line.number = "group", number << 8 | 0xFF
    if source is not None:
        value = int(source[1], 0 if source[1][:2].lower() == "0x" else 10)
        line.address, line.number = f"SA {value}", number << 8 | (value & 0xFF)
    line.strict = line.whole = len(line.data) >= 6 and (number == ELECTRICAL_GROUP or group_fits(line.data))
    return True
