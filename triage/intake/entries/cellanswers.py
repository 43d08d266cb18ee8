"""Rows of a name and its answer: "ABS: no response", "GWM; n/a; n/a; no faults"."""

from __future__ import annotations

from functools import lru_cache

from triage.intake.lines.row import Cell, Row
from triage.intake.lines.unknown import is_short
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell, named_answer
from triage.intake.said.near import small
from triage.intake.scan.context import Context
from triage.intake.words.answerwords import NOTHING_SAID

_LONGEST_SHORT = 6
#: Beside an answer in another cell these say that there is no code.
_NONE = frozenset(("n/a", "na", "n.a"))
_ADDRESS = lazily(r"(?:0x|\$|#)[0-9a-f]{1,4}|[0-9][0-9a-f]{1,2}h?|[1-9a-f]")
_NONE_CELLS = lazily(
    r"(?<=[\t;|, ])(?:\s*n[/.]?a\.?\s*(?:[\t;|,]|\s\s))+|(?:(?:\s\s|[\t;|,])\s*n[/.]?a\.?)+\s*$"
)


def read(context: Context, row: Row) -> bool:
    """A name in one cell and an answer in another, all others empty, in lines that no head explains."""
    if row.kind not in (";", ",", "|", "\t", "gap") or row.cells is None:
        return False
    filled = [cell for cell in row.cells if cell.text.strip(" -.") and not _is_address(row, cell)]
    said_of = [cell for cell in filled if cell.low.strip() not in NOTHING_SAID and cell.low.strip(" .") not in _NONE]
    if row.kind == "gap" and len(said_of) == len(filled):
        return False
    filled = said_of if len(said_of) > 1 else filled
    if not 2 <= len(filled) <= 4 or (len(row.cells) < 3 and row.kind not in ("|", "\t")):
        return False
    told = [answer_of_cell(cell.low) or ("clean" if cell.text == "0" else None) for cell in filled]
    if len(filled) < len(row.cells) and told[:2] == [None, None] and filled[0].text.isupper() and (
            len(filled[0].text) <= _LONGEST_SHORT and not is_short(filled[1].text)
            and context.names.score(tidy(filled[1].text)) >= 60.0):
        # "ESP,Fahrdynamikregelung,-,-,kein Fehler": the short form of the name stands before it.
        filled, told = filled[1:], told[1:]
    said = [answer for answer in told if answer is not None]
    if len(said) != len(filled) - 1:
        return False
    name = context.names.bare(tidy(filled[told.index(None)].text))
    if not has_letter(name) or states.of_cell(small(name), context.translated) is not None:
        return False
    if len(row.cells) < 3 and (role_of(small(name)) is not None or context.names.score(name) < 60.0):
        # Of two cells the first is a key as often as a name.
        return False
    # A count of no codes beside "not responding" tells nothing.
    answered(context, row, name, next((answer for answer in said if answer != "clean"), "clean"))
    return True


def _is_address(row: Row, cell: Cell) -> bool:
    """Whether a cell is the first of a row, and a module's address or number."""
    # One in quotation marks stands behind the first of these.
    return not row.text[: cell.start].strip("\"' ") and row.kind != "gap" and _ADDRESS.fullmatch(cell.low) is not None


_SOME = frozenset(("yes", "y", "ja", "j", "oui", "o", "si", "s", "true", "1"))
_NO = frozenset(("no", "n", "nein", "non", "false", "0", "kein", "keiner", "keins", "aucun", "nil", "nix", "nichts",
                 "rien", "nada", "ninguno"))


def answer_in(cell: Cell, role: str) -> str | None:
    """The answer in a cell: in a column of codes, or of their number, "yes" and 1 tell that there are some."""
    if role in ("code", "count_of_codes"):
        low = cell.low.strip(" .")
        if low in _SOME or low in _NO:
            return "clean" if low in _NO else None
    return answer_of_cell(cell.low, loose=True)


def answered(context: Context, row: Row, name: str, answer: str) -> None:
    """A module whose answer stands in its own line."""
    name = name.rstrip(" *=#~")
    start = row.start + max(row.text.find(name), 0)
    context.close_module()
    module = context.builder.name_module(name, row.line, start, start + len(name))
    context.builder.answer(module, answer)
    context.under_heading = context.live_data = False


@lru_cache(maxsize=8192)
def named(text: str, low: str) -> tuple[str, str] | None:
    """A name and an answer with a mark between them: "ABS: no response"."""
    bare = _NONE_CELLS.sub("  ", low).rstrip() if "na" in low or "n/a" in low else low
    found = named_answer(bare) or (named_answer(low) if bare != low else None)
    return (text[: found[0]].rstrip(" ;,|"), found[1]) if found is not None else None


__all__ = ["answer_in", "answered", "named", "read"]
