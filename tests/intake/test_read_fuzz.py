"""Mutated pastes raise nothing and never bring a code that no reading of the text supports.

``TRIAGE_FUZZ_RUNS`` sets the number of runs (a million on demand; a few thousand by default).
"""

from __future__ import annotations

import os
import random
import re

from hypothesis import given, settings
from hypothesis import strategies as st
from paste_held_out import HELD_OUT
from paste_layouts import LAYOUTS
from paste_noise import make_paste
from pastes import tables

from triage.intake.plain.characters import lines
from triage.intake.plain.markup import is_html, lines_of_html
from triage.intake.read import Reading, read_text
from triage.intake.text import IN_PARTS, NOT_READ

RUNS = int(os.environ.get("TRIAGE_FUZZ_RUNS", "1500"))
#: What each character of a code may have been written as.
_WRITTEN = {"0": "[0OoQ]", "1": "[1Il|]", "5": "[5Ss]", "2": "[2Zz]"}
_GLUE = "ECMABSP0U1-:;,.|()[]/ \t\n#*>=\u00a0\u2013\u2026é\x00°"
_DIGITS = {
    "zero": "0", "oh": "0", "nought": "0", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6",
    "seven": "7", "eight": "8", "nine": "9", "ten": "10", "twenty": "20", "thirty": "30", "forty": "40", "fifty": "50",
    "sixty": "60", "seventy": "70", "eighty": "80", "ninety": "90",
}
_SPOKEN = re.compile(rf"\b(?:{'|'.join(_DIGITS)})\b", re.IGNORECASE)
_WORDS = (
    "P0562",
    "U0100-87",
    "no response",
    "ECM",
    "stored",
    "SPN 168 FMI 4",
    "12.4 V",
    "| |",
    "connector C0123",
    "after clear",
    "\n\n",
    "P0",
    "OO",
    "59 02 FF 40 31 23 2F",
    "Module:",
    "not present",
    "03/04/2025",
    "<td>",
    "```",
)


def supported(reading: Reading, text: str) -> None:
    """Every code read must stand in the text, its characters as written or as slips of the pen for them."""
    # In a page, and in a paragraph that was wrapped, a line's end is a space.
    found = lines_of_html(text) if is_html(text) else lines(text)
    plain = " ".join(" ".join(line.text for line in found).split())
    joined = re.sub(r"[^0-9A-Fa-f]", "", plain).upper()
    for snapshot in reading.snapshots:
        for scan in snapshot.modules:
            for entry in scan.codes:
                assert _stands(entry.code, plain) or _as_bytes(entry.code, joined), (entry.code, text)


def _stands(code: str, plain: str) -> bool:
    if code.startswith(("SPN", "MID")):
        return all(re.search(rf"(?<![0-9])0*{''.join(_WRITTEN.get(c, c) for c in number)}(?![0-9])", plain)
                   for number in re.findall(r"[0-9]+", code))
    digits = r"[ -]?".join(_WRITTEN.get(char, char) for char in code[1:])
    # "u0415/0422": the second code shares the letter of the first.
    pattern = rf"{code[0]}(?:(?: - |[ ._-])?|[0-9OI][0-9A-FOI]{{3}}\b.*[^0-9A-Z]){digits}"
    if re.search(pattern, plain, re.IGNORECASE) is not None:
        return True
    dictated = _in_digits(plain)
    return dictated != plain and _stands(code, dictated)


def _in_digits(plain: str) -> str:
    """The text with the digits that were dictated written as digits."""
    return _SPOKEN.sub(lambda word: _DIGITS[word[0].lower()], plain)


def _as_bytes(code: str, joined: str) -> bool:
    """A code that came as response bytes."""
    if not re.fullmatch(r"[PCBU][0-3][0-9A-F]{3}", code):
        return False
    return f"{'PCBU'.index(code[0]) << 14 | int(code[1:], 16):04X}" in joined


def placed(reading: Reading, text: str) -> None:
    """Every notice points into the line it names."""
    raw = [line.raw for line in lines(text)]
    assert not any(NOT_READ in notice.message or IN_PARTS in notice.message for notice in reading.notices), text
    for notice in reading.notices:
        if notice.line is None:
            continue
        assert 1 <= notice.line <= len(raw)
        assert notice.start is not None
        assert notice.end is not None
        assert 0 <= notice.start <= notice.end <= len(notice.text or "")
        assert notice.show()


def mutate(rng: random.Random, text: str) -> str:
    for _ in range(rng.randint(1, 12)):
        at, kind = rng.randint(0, len(text)), rng.random()
        end = min(len(text), at + rng.choice([1, 1, 2, 5, 20, 80]))
        if kind < 0.3:
            text = text[:at] + text[end:]
        elif kind < 0.6:
            text = text[:at] + "".join(rng.choice(_GLUE) for _ in range(rng.randint(1, 4))) + text[at:]
        elif kind < 0.8:
            text = text[:at] + rng.choice(_WORDS) + text[at:]
        elif kind < 0.9:
            text = text[:at] + text[at:end] * 2 + text[end:]
        else:
            other = rng.randint(0, len(text))
            text = text[:at] + text[other : other + 60] + text[at:]
    return text


def test_mutated_pastes_raise_nothing_and_invent_nothing() -> None:
    layouts = {**LAYOUTS, **HELD_OUT}
    for run in range(RUNS):
        rng = random.Random(run)
        paste = make_paste(run % 97, layouts)
        # A stretch of the paste is enough and keeps a run to a few milliseconds.
        start = rng.randint(0, max(0, len(paste.text) - 900))
        text = mutate(rng, paste.text[start : start + rng.randint(40, 900)])
        reading = read_text(text, tables())
        supported(reading, text)
        placed(reading, text)


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=400))
def test_any_text_is_read_without_an_exception(text: str) -> None:
    reading = read_text(text, tables())
    supported(reading, text)
    placed(reading, text)


@settings(max_examples=300, deadline=None)
@given(
    st.lists(
        st.sampled_from(
            [
                *_WORDS,
                " ",
                " - ",
                ": ",
                "\n",
                "  ",
                "ABS",
                "door front left",
                "P0301",
                "pending",
                "has",
                "and",
                ";",
                "\t",
            ]
        ),
        max_size=40,
    )
)
def test_any_mix_of_the_words_of_a_scan_is_read_without_an_exception(parts: list[str]) -> None:
    text = "".join(parts)
    reading = read_text(text, tables())
    supported(reading, text)
    placed(reading, text)


def test_a_colon_that_leads_a_line_names_no_other_module() -> None:
    text = "Seat module: P2620\n: sense A signal high\nRadio: B1000\n"
    placed(read_text(text, tables()), text)
