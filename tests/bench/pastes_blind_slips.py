"""Slips of a careless hand in invented texts: typos, lost spaces and line breaks, wrapped lines, forwarded mail."""

from __future__ import annotations

import random
import re
import textwrap

from pastes_blind_draw import Snap

_CODE_START = re.compile(r"^[\s\-*•]*[PCBU]\d[0-9A-F]{3}\b")
_WORD = re.compile(r"[^\W\d_]{6,}")
_GLUE = re.compile(r"\b([PCBU][0-3][0-9A-F]{3}) (?=[A-Z][g-z])")


def misspell(rng: random.Random, word: str) -> str:
    """One letter swapped, dropped or doubled, never the first."""
    at = rng.randrange(1, len(word) - 1)
    kind = rng.randrange(3)
    if kind == 0 and word[at] != word[at + 1]:
        return word[:at] + word[at + 1] + word[at] + word[at + 2 :]
    if kind == 1:
        return word[:at] + word[at + 1 :]
    return word[:at] + word[at] + word[at:]


def typos(rng: random.Random, text: str, snaps: list[Snap], share: float) -> str:
    """Misspelt words, but for the names of modules and the codes."""
    kept = {w.casefold() for s in snaps for m in s.modules for w in _WORD.findall(m.name.printed + " " + m.name.short)}

    def one(match: re.Match[str]) -> str:
        word = match[0]
        return word if word.casefold() in kept or rng.random() > share else misspell(rng, word)

    return _WORD.sub(one, text)


def _lost_breaks(rng: random.Random, lines: list[str]) -> list[str]:
    """Now and then a line that starts with a code is joined to the line before it."""
    out: list[str] = []
    for line in lines:
        if out and out[-1].strip() and _CODE_START.match(line) and rng.random() < 0.3:
            out[-1] = out[-1].rstrip() + rng.choice((" ", "  ", "; ")) + re.sub(r"^[\s\-*•]+", "", line)
        else:
            out.append(line)
    return out


def _wrapped(rng: random.Random, lines: list[str], codes: set[str]) -> list[str]:
    """Long lines broken by a mail program, never inside a code."""
    width = rng.choice((56, 64, 72))
    out: list[str] = []
    for line in lines:
        held = line
        for code in codes:
            held = re.sub(
                re.escape(code), lambda m: m[0].replace(" ", "\0").replace("-", "\1"), held, flags=re.IGNORECASE
            )
        parts = (
            textwrap.wrap(held, width, break_long_words=False, break_on_hyphens=False) if len(line) > width else [line]
        )
        out += [p.replace("\0", " ").replace("\1", "-") for p in parts or [""]]
    return out


def _case(rng: random.Random, text: str) -> str:
    kind = rng.random()
    if kind < 0.3:
        return text.lower()
    if kind < 0.4:
        return text.upper()
    if kind < 0.6:
        return _WORD.sub(
            lambda m: m[0].upper() if rng.random() < 0.08 else m[0].lower() if rng.random() < 0.1 else m[0], text
        )
    return text


def forwarded(rng: random.Random, text: str) -> str:
    """The text as quoted in a mail."""
    mark = rng.choice(("> ", "> ", ">> ", ">", "| "))
    head = rng.choice(
        (
            "---- Forwarded message ----\nFrom: workshop\nSubject: scan\n\n",
            "On Tuesday Ana wrote:\n",
            "Begin forwarded message:\n\n",
            "see below\n\n",
            "",
        )
    )
    if mark == "| " and "|" in text:
        mark = "> "
    return head + "\n".join((mark + line).rstrip() for line in text.split("\n"))


def careless(rng: random.Random, text: str, snaps: list[Snap], family: str) -> str:
    """``text`` with the slips that fit its family: ``list``, ``pages``, ``table``, ``csv``, ``html`` or ``prose``."""
    codes = {c.shown for s in snaps for m in s.modules for c in m.codes}
    if rng.random() < 0.6:
        text = typos(rng, text, snaps, rng.choice((0.03, 0.06))) if family != "html" else text
    if family == "html":
        return text
    lines, joined, wrapped = text.split("\n"), False, False
    if family == "list" and rng.random() < 0.4:
        lines, joined = _lost_breaks(rng, lines), True
    if family in ("list", "prose") and rng.random() < 0.3 and not joined:
        lines, wrapped = _wrapped(rng, lines, codes), True
    if rng.random() < 0.3 and family not in ("csv", "pages"):
        lines = [line for line in lines if line.strip() or rng.random() < 0.4]
    text = "\n".join(lines)
    if family in ("list", "prose") and rng.random() < 0.3:
        text = _GLUE.sub(lambda m: m[1] if rng.random() < 0.3 else m[0], text)
        text = re.sub(r", (?=[A-Za-z])", lambda m: "," if rng.random() < 0.3 else m[0], text)
        text = re.sub(r"(?<=[a-z]): (?=[A-Za-z])", lambda m: ":" if rng.random() < 0.3 else m[0], text)
    if family in ("list", "prose") and rng.random() < 0.3 and not joined and not wrapped:
        text = re.sub(r"(?<=[a-z,]) (?=[a-z])", lambda m: "  " if rng.random() < 0.1 else m[0], text)
    if rng.random() < 0.15:
        text = "\n".join(line + " " * rng.randrange(3) for line in text.split("\n"))
    text = _case(rng, text)
    if rng.random() < 0.2 and family != "csv":
        text = forwarded(rng, text)
    return text
