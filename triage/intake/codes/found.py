"""Codes in the wild: every trouble code in a line, whatever it is written like, and nothing that only looks like one.

>>> [str(code) for code in find("PO562-16 stored; u0100 87, P 0A1F [2F] and P030116").codes]
['P0562-16', 'U0100-87', 'P0A1F-2F', 'P0301-16']
>>> find("connector C0123, part no. B1234, P0420 12.4 V").codes[0].text
'P0420'
>>> [refusal.message for refusal in find("P4000 stored").refusals]
['P4000: the first digit of a code can only be 0 to 3, seen 4']
"""

from __future__ import annotations

import re
from functools import lru_cache

from triage.intake.codes.finds import NOTHING, Finds, Found, Refusal
from triage.intake.codes.ownnumbers import ANY
from triage.intake.codes.sharedletters import written_out
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import near
from triage.intake.words.vocabulary import TYPE_LABEL
from triage.model import codes as model_codes

#: Digits with less than a code's length between them. A code has a digit in it, so that nothing else is looked at.
_DIGITS = lazily(r"[0-9]+(?:[^0-9]{1,8}[0-9]+)*")
_REACH = 8
_X = "[0-9A-Fa-f]"
#: A letter with four characters, and two more where a failure type is joined on. 13 and 24 belong to slips of the pen.
_CANDIDATE = lazily(
    r"(?<![^\W_])(?:([A-Za-z])(?!\|[PCBUpcbu][0-9O]{4})"  # "P|C1111": a cell before that of the code
    r"([0-9OoIilQqSsZz|][0-9A-FOIQGSZa-gilosqz|?*]{3})([0-9A-FOIa-filo]{2})?(?![^\W_])"
    r"|([PCBUpcbu])([ ._-]|[ ]-[ ])([0-3OIoli][0-9A-FOIa-filo]{3})([0-9A-Fa-f]{2})?(?![^\W_])"
    r"|([PCBUpcbu][0-3Oo])[ ]([0-9]{3})(?![^\W_])"
    rf"|([PCBUpcbu][0-3](?:{_X}[ ]{_X}{_X}|{_X}{_X}[ ]{_X}|[ ]{_X}{_X}{_X}|{_X}-{_X}{_X}(?!-)))(?![^\W_])"
    r"|([PUpu][0-9]{3}|[PCBUpcbu][0-9A-F]{5})(?![^\W_]))"
)
_CLEAN = lazily(r"[PCBU][0-3][0-9A-F]{3}")
_HEX = frozenset("0123456789ABCDEFabcdef")
#: A date in the next cell: "P0AA6:00,14.08.24,inactive".
_DATE = r"[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{2,4}(?![0-9])"
_UNIT = (
    r"(?![0-9A-Za-z])(?![ -]?(?:v|volts?|km|mi|miles|min|minutes?|minuten|x|times|rpm|h|s|sec|mal|fois|veces|of|"
    r"von|codes?|dtcs?|faults?|fehler|mv|ms|cycles?|ohms?|amps?|kw|hz|mm|kpa|bar|psi|nm|deg)\b|\s?[%°]|"
    rf"[.,:/](?!{_DATE})[0-9])"
)
#: Right behind a mark it is a failure type also where a letter for the status and a text stand behind: ":4B X sensor".
_UNIT_JOINED = _UNIT.replace("|x|", "|x(?! [a-z])|")
_SLIP2 = r"((?:[0-9A-Fa-f][0-9A-Fa-f]|[0-9][OIlo]|[OIlo][0-9]|[Oo]{2}))"
#: Failure type after a code, from the surest form to the weakest.
_JOINED = lazily(
    rf"(?:-{_SLIP2}h?(?![0-9A-Za-z]|[.:/](?!{_DATE})[0-9]|,(?!{_DATE})[0-9]{{1,2}}(?:\s?v|(?![0-9,;-])))|[-:/_#.](?:0x|\$)?{_SLIP2}h?{_UNIT_JOINED}|"
    # "/ 2F-Radio" is the address of a module and its name.
    rf"\s?[-:/_#]\s?(?:0x|\$)?([0-9a-f]{{2}})h?(?!-[^\W\d_]{{2}}){_UNIT})",
    re.IGNORECASE,
)
#: Three capitals with no digit ("[FFH]") are short for a module.
_NO_NAME = r"(?-i:(?![A-F]{2}H))"
_BRACKETED = lazily(
    rf"\s{{0,3}}[\[({{]\s?{_NO_NAME}(?:0x|\$|(?:ftb?|failure type|type|"
    rf"sub)\s?[:=]?\s?)?{_SLIP2}h?\s?[\])}}]",
    re.IGNORECASE,
)
_SPACED = lazily(rf"[ ](?:0x|\$)?([0-9a-f]{{2}})h?{_UNIT}", re.IGNORECASE)
_LABELLED = lazily(
    rf"[\s,;|/(\[-]{{0,4}}(?:(?:with|mit|avec|con) )?{TYPE_LABEL}\s*[:=#]?\s{{0,2}}(?:0x\s?|\$)?{_SLIP2}h?{_UNIT}",
    re.IGNORECASE,
)
#: Failure type and status byte behind colons: "P2187:00:2C".
_TYPE_AND_BYTE = lazily(r":([0-9A-Fa-f]{2}):([0-9A-Fa-f]{2})(?![0-9A-Za-z]|[:.,/][0-9])")
_PART_TAIL = lazily(
    r"-[0-9]{3}|-[0-9A-Za-z]{1,4}-|-(?=[A-Za-z]*[0-9])(?=[0-9]*[A-Za-z])[0-9A-Za-z]{3,}|/[0-9]{2}R"
)
_PART_SIGNS = ("-", "/")
_STATUS_BYTE = lazily(
    r"[\s,;|/(\[-]{0,4}(?:status(?: ?byte)?|state|st|statusbyte)\s{0,2}[:=#]?\s{0,2}(?:0x|\$)?([0-9A-Fa-f]{2})h?"
    rf"(?![0-9A-Za-z])|\s{{0,3}}[\[({{/-]\s?{_NO_NAME}"
    r"(?:0x|\$)?([0-9A-Fa-f]{2})h?\s?[\])}]|[\s/-]{1,3}(?:0x|\$)([0-9A-Fa-f]{2})\b"
    r"|\s{1,3}([0-9][A-Fa-f]|[A-F][0-9])(?![0-9A-Za-z])",
    re.IGNORECASE,
)
_STATUS_BITS = lazily(
    r"[\s,;|/(\[-]{0,4}(?:status(?: ?byte)?)\s{0,2}[:=]?\s{0,2}(?:0b)?([01]{8})b?\b", re.IGNORECASE
)
_SA = r"(?:sa|src|source(?: address)?|addr(?:ess)?|adresse?|direccion)[ :=#.]{0,3}(0x[0-9a-f]{1,2}|[0-9]{1,3})\b"
_J1939 = lazily(
    rf"\bspn[ :=#.-]{{0,3}}([0-9]{{1,7}})(?:\b[ ,;/|.:()\[\]-]{{0,4}})?fmi[ :=#.-]{{0,3}}"
    r"([0-9]{1,3}(?![0-9]|[lio](?![a-z]))|(?=[lio]{0,2}[0-9])[0-9lio]{2}(?![0-9a-z]))(?:[ ,;/|"
    rf"()\[\]-]{{0,4}}{_SA})?"
    r"|\bspn(?: ?[/-] ?fmi)?[ :=#]{0,3}([0-9]{1,7}) ?[/.-] ?([0-9]{1,2})\b"
    r"|\bfmi[ :=#.-]{0,3}([0-9]{1,3})(?:\b[ ,;/|-]{0,4})?spn[ :=#.-]{0,3}([0-9]{1,7})\b"
)
#: Letters read for digits in an FMI: "FMI l8".
_FOR_LETTERS = str.maketrans("lio", "110")
_SA_BEFORE = lazily(rf"\b{_SA}[ ,;/|)(\]\[:-]{{0,4}}$")
_MID = lazily(
    r"\bmid[ :=#.]{0,3}[0-9]{1,3}[ ,;/|.:-]{1,4}(?:p?pid|p?sid)[ :=#.]{0,3}[0-9]{1,3}[ ,;/|.:-]{1,4}"
    r"fmi[ :=#.]{0,3}[0-9]{1,2}\b"
)


#: A word that may be a maker's own number.
_TOKEN = lazily(rf"(?<![^\W_]){ANY}")
_FEW_OWN = 40  # so few are sooner looked for one by one
_MARK_FORMS = (_JOINED, _LABELLED)
_BRACKET_FORMS = _LABEL_FORMS = (_BRACKETED, _LABELLED)
_SPACED_FORMS = (_SPACED,)
_LABEL_SIGNS = frozenset({"ft", "fa", "su", "sy", "fe", "ty", "ti", "un", "so", "wi", "mi", "av", "co"})
_PAIR_SIGNS = _HEX | {"$"}
_SOFT_MARKS = " ,;|/({[-\t"
#: What a status byte, or the word before it, may start with.
_BYTE_SIGNS = _HEX | {"$", "s"}


def find(text: str, low: str | None = None) -> Finds:
    """The codes of one line or cell. Linear in its length; ``low`` is the same text in small letters."""
    if not has_digit(text):
        return NOTHING
    if len(text) <= 160:
        return _find_cached(text)
    return _find(text, near.small(text) if low is None else low)


def with_own(finds: Finds, text: str, low: str, own: frozenset[str]) -> Finds:
    """What was found, with the makers' own numbers among it that are known to be codes of the text.

    >>> text = "R27606 (no data), part no. R27606"
    >>> [(code.text, code.start) for code in with_own(find(text), text, text.lower(), frozenset({"R27606"})).codes]
    [('R27606', 0)]
    """
    if not has_digit(text) or (len(own) <= _FEW_OWN and not any(map(text.__contains__, own))):
        return finds
    label = near.Labels(low)
    found: list[Found] = []
    for match in _TOKEN.finditer(text):
        start, end = match.span()
        if match[0] not in own or label.before(start, end, text):
            continue
        if any(code.start < end and start < code.end for code in (*finds.codes, *finds.mentions)):
            continue
        finds = finds.allowed(start, end)
        if (number := model_codes.own(match[0])) is not None:
            found.append(Found(start, end, number.text, kind="own", bare=end))
    if not found:
        return finds
    kept, mentions = near.only_spoken_of(low, sorted((*finds.codes, *found), key=lambda code: code.start))
    return finds._replace(codes=tuple(kept), mentions=(*finds.mentions, *mentions))


@lru_cache(maxsize=32768)
def _find_cached(text: str) -> Finds:
    return _find(text, near.small(text))


def _find(text: str, low: str) -> Finds:
    """The codes of a text that holds a digit."""
    codes = _heavy(text, low) if ("spn" in low or "mid" in low) else []
    taken = bytearray(len(text) if codes else 0)
    for code in codes:
        taken[code.start : code.end] = b"\1" * (code.end - code.start)
    refusals: list[Refusal] = []
    label: near.Labels | None = None
    at = 0
    for digits in _DIGITS.finditer(text):
        first, last = digits.span()
        pos, stop = max(first - _REACH, at), last + _REACH
        while (match := _CANDIDATE.search(text, pos, stop)) is not None and match.start() < last:
            start, pos = match.span()
            if taken and taken[start]:
                continue
            if label is None:
                label = near.Labels(low)
            beside = bool(codes) and codes[-1].end == start - 1 and text[start - 1] == "/"
            result = _candidate(text, low, match, label, beside)
            if isinstance(result, Found):
                codes.append(result)
                pos = at = max(pos, result.end)
            elif result is not None:
                refusals.append(result)
    if not codes and not refusals:
        return NOTHING
    if taken:
        codes.sort(key=lambda code: code.start)
    kept, mentions = near.only_spoken_of(low, list(written_out(text, codes)) if "/" in text else codes)
    return Finds(tuple(kept), tuple(refusals), tuple(mentions))


def _candidate(
    text: str, low: str, match: re.Match[str], label: near.Labels, beside: bool
) -> Found | Refusal | None:
    """One match as a code, a refusal, or nothing; ``beside``: only a stroke parts it from the code before."""
    start, end = match.span()
    if label.before(start, end, text) or (not beside and near.part_of_a_number(text, start, end)):
        return None
    code = match[0]
    if _CLEAN.fullmatch(code) is not None:
        if text[end : end + 1] in _PART_SIGNS and _PART_TAIL.match(text, end) and not _JOINED.match(text, end):
            return None
        return _with_tail(text, low, start, end, code, None, end, False)
    if match[10]:
        return _split(text, low, start, end)
    if match[11]:
        return _wrong_length(text, match[11], start, end)
    letter, body, tail = (
        (match[1], match[2], match[3])
        if match[1]
        else ((match[4], match[6], match[7]) if match[4] else (match[8][0], match[8][1] + match[9], None))
    )
    spaced = not match[1]
    # "PO 562" is an order as well, and "CO 120" what comes out of the exhaust.
    if (spaced and not beside and near.not_a_spaced_code(text, low, start, end)) or (
            match[8] and body[0] in "Oo" and not near.stands_as_code(text, low, start, end)):
        return None
    upper = letter.upper()
    digits = sum(c.isdigit() for c in body)
    clean = body if set(body) <= _HEX else near.digits_for_letters(body)
    if clean is None:
        return _unreadable(text, start, end) if upper in "PCBU" and digits >= 2 else None
    if upper not in "PCBU" or clean[0] not in "0123":
        if digits < 3 or tail or spaced or not set(body) <= _HEX:
            return None
        if set(match[0]) <= _HEX and model_codes.own(match[0]) is not None:
            return None
        if upper == "J" and clean[0] in "123":
            # The standards of a bus or a plug are numbered so ("J1939 data link").
            return None
        message = model_codes.explain_invalid(match[0])
        own = model_codes.own(match[0]) is not None
        return Refusal(start, end, message, own) if message and near.stands_alone(text, start, end) else None
    slip = clean != body or bool(match[8])
    if clean != body and not near.is_slip(letter, body, digits):
        if not spaced and tail is None and near.may_be_slip(letter, body) and _JOINED.match(text, end):
            # A failure type behind it: no name is written so.
            return _with_tail(text, low, start, end, (upper + clean).upper(), None, end, True)
        likely = not spaced and near.may_be_slip(letter, body) and near.stands_alone(text, start, end)
        return _two_ways(text, start, end, (upper + clean).upper()) if likely else None
    if spaced and _is_loose(letter, body, clean, digits) and not near.stands_as_code(text, low, start, end):
        return None
    if tail is not None and not set(tail) <= _HEX:
        fixed = near.digits_for_letters(tail)
        tail, slip = fixed, True
        if tail is None:
            return None
    if _PART_TAIL.match(text, end) and tail is None and not _JOINED.match(text, end):
        return None
    code = (upper + clean).upper()
    return _with_tail(text, low, start, end, code, tail and tail.upper(), start + 1 + len(body), slip)


def _is_loose(letter: str, body: str, clean: str, digits: int) -> bool:
    """Whether a letter and a number apart are a code in the place of one alone, by their slips ("u o1oo", "P o562")."""
    return clean != body and (digits < 2 or letter.islower() or any(c in "oil" for c in body))


def _with_tail(
    text: str, low: str, start: int, end: int, code: str, failure: str | None, bare: int, slip: bool
) -> Found:
    """The code at ``start``..``end`` with the failure type and the status byte that follow it."""
    both = _TYPE_AND_BYTE.match(text, end) if failure is None and text[end : end + 1] == ":" else None
    if both is not None:
        shown = f"{code}-{both[1].upper()}" if slip else None
        return Found(start, both.end(), code, both[1].upper(), int(both[2], 16), "J2012", None, shown, bare)
    if failure is None:
        for form in _forms(text, low, end):
            match = form.match(text, end)
            if match is None:
                continue
            pair = match[1] or match[match.lastindex or 1]
            if (
                form is not _LABELLED
                and (form is not _BRACKETED or match[0].strip(" [](){}hH") == pair)
                and not near.can_be_spaced_type(pair)
                and (text[end : end + 1] not in "-:." or text[end + 1 : end + 2].isspace())
            ):
                continue
            read = pair if pair.isdigit() or _HEX.issuperset(pair) else near.digits_for_letters(pair)
            if read is None:
                continue
            slip = slip or read != pair
            failure, end = read.upper(), match.end()
            break
    if failure is None and not slip and "st" not in low[end : end + 12]:
        return Found(start, end, code, None, None, "J2012", None, None, bare)
    status = None
    if low[end : end + 6].lstrip(_SOFT_MARKS)[:1] in _BYTE_SIGNS:
        bits = _STATUS_BITS.match(text, end)
        if bits is not None:
            status, end = int(bits[1], 2), bits.end()
        elif failure is not None:
            match = _STATUS_BYTE.match(text, end)
            if match is not None and (not match[2] or has_digit(match[2]) or match[2] == "FF"):
                status, end = int(match[1] or match[2] or match[3] or match[4], 16), match.end()
        elif (match := _STATUS_BYTE.match(text, end)) is not None and match[1]:
            status, end = int(match[1], 16), match.end()
    shown = None if not slip else code if failure is None else f"{code}-{failure}"
    return Found(start, end, code, failure, status, "J2012", None, shown, bare)


def _forms(text: str, low: str, end: int) -> tuple[re.Pattern[str], ...]:
    """The forms of a failure type that the next characters leave possible, the surest first."""
    after = text[end : end + 1]
    if not after:
        return ()
    if after in "-:/_#.":
        return _MARK_FORMS
    if after in "[({":
        return _BRACKET_FORMS
    ahead = low[end : end + 6].lstrip(" ,;|/([-\t")[:2]
    if ahead in _LABEL_SIGNS:
        return _LABEL_FORMS
    if after == " ":
        second = text[end + 1 : end + 2]
        if second in "[({ ":
            return _BRACKET_FORMS
        if second in "-:/_#":
            return _MARK_FORMS
        if second in _PAIR_SIGNS:
            return _SPACED_FORMS
    return ()


def _wrong_length(text: str, token: str, start: int, end: int) -> Refusal | None:
    """Three or five digits after the letter: which code was meant can't be told."""
    if not near.stands_alone(text, start, end) or token[1] not in "0123":
        return None
    if len(token) == 4 and end < len(text) and text[end] in "-/.":
        return None
    if sum(c.isdigit() for c in token) < 3 + (len(token) > 4):
        return None
    seen = f"a code has four characters after its letter, seen {len(token) - 1}"
    return Refusal(start, end, f"{token.upper()} is not read: {seen}; which code is meant can't be told")


def _split(text: str, low: str, start: int, end: int) -> Refusal | None:
    """A code with a space in it, or a number of another kind with one behind it: which can't be told from one line."""
    token = text[start:end]
    if not has_digit(token[-1:]) or not near.stands_as_code(text, low, start, end):
        return None
    code = token.replace(" ", "").replace("-", "").upper()
    mark = "hyphen" if "-" in token else "space"
    return Refusal(start, end, f"{token}: this could be {code}; write it without the {mark} if it is")


def _unreadable(text: str, start: int, end: int) -> Refusal | None:
    """A character that could be several digits."""
    token = text[start:end]
    return Refusal(start, end, f"{token} is not read: it could be more than one code; write the digits out")


_CELL = lazily(r"([PCBUpcbu])[ ._-]?([0-9OoQqIil|][0-9A-Fa-fOoQqIil|SsZz]{3})([0-9A-Fa-fOIlo]{2})?(?![^\W_])")


def in_code_cell(text: str) -> Finds:
    """The codes of a cell or value that is made for one: there a letter in a digit's place is a slip of the pen.

    >>> [str(code) for code in in_code_cell("plad6-16").codes], [str(code) for code in in_code_cell("Pass").codes]
    (['P1AD6-16'], [])
    """
    found = find(text)
    match = _CELL.match(text)
    if found.codes or match is None:
        return found
    clean = near.digits_for_letters(match[2])
    tail = near.digits_for_letters(match[3]) if match[3] else None
    if clean is None or clean[0] not in "0123" or not (has_digit(match[0]) or match[0].isupper()):
        return found
    code = (match[1] + clean).upper()
    slip = _with_tail(text, near.small(text), 0, match.end(), code, tail and tail.upper(), match.end(2), True)
    return Finds((slip,))


def _two_ways(text: str, start: int, end: int, code: str) -> Refusal:
    """A word with a number at its end that a code with letters for its digits would look like too."""
    token = text[start:end]
    return Refusal(start, end, f"{token} is not read: it could be {code[:5]} or a name; write the digits out")


def _heavy(text: str, low: str) -> list[Found]:
    """SPN with FMI (SAE J1939-73) and MID with PID or SID (older heavy vehicles)."""
    found = []
    for match in _J1939.finditer(low):
        spn, fmi = (match[1], match[2]) if match[1] else (match[4], match[5]) if match[4] else (match[7], match[6])
        clean = fmi.translate(_FOR_LETTERS)
        code = model_codes.parse(f"SPN {int(spn)} FMI {int(clean)}")
        if code is None:
            continue
        start, address = match.start(), match[3]
        before = _SA_BEFORE.search(low, max(0, start - 30), start)
        if address is None and before is not None:
            start, address = before.start(), before[1]
        source = None if address is None else int(address, 16 if address.startswith("0x") else 10)
        end = match.end() + (low[match.end() : match.end() + 1] in (")", "]") and "(" in match[0])
        slip = code.text if clean != fmi else None
        found.append(Found(start, end, code.text, kind="J1939", source_address=source, slip=slip, bare=end))
    for match in _MID.finditer(low):
        own = model_codes.own(" ".join(re.findall(r"[a-z]+|[0-9]+", match[0])))
        if own is not None:
            found.append(Found(match.start(), match.end(), own.text, kind="own", bare=match.end()))
    return found
