"""Prose: "cluster has U0100 and U0140 stored, brakes did not answer, battery 10.7".

The line is cut into clauses. In each, a listed module name is the subject of the codes and answers that follow it, or
of those before it where "in" or "from" leads to it; a name behind "with" ("lost communication with the gateway") is
part of a description.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from triage.intake import metarow, phases, states, volts
from triage.intake.answers import Spoken, apply_answer, spoken, takes_object, without_links
from triage.intake.assembly import ModuleDraft
from triage.intake.attribution import attribute
from triage.intake.coderow import add, module_for
from triage.intake.context import Context
from triage.intake.found import Found
from triage.intake.layouts import Row
from triage.intake.linking import strip_links, trailing_status
from triage.intake.names import tidy
from triage.intake.near import small
from triage.intake.phrases import word_set, words
from triage.intake.pieces import Details, soft_pieces, take

_CLAUSE = re.compile(
    r"[.!?](?=\s|$)|;|,(?=\s)|(?<=\s)-+(?=\s)|\n|\s(?:but|while|whereas|aber|wahrend|mais|"
    r"tandis que|pero|mientras)\s|"
    r"\s(?:and|und|et|y)\s(?:then|the|der|die|das|le|la|el)\s"
)
_VERBS = word_set(
    "has have had shows show showing showed gave gives reports reported logged logs sets set threw throws got gets "
    "hat haben meldet "
    "melden zeigt zeigen affiche affichent indique remonte remontent ont tiene tienen muestra muestran presenta da "
    "with in holds stores "
    "stored storing carries flags flagged came comes is are there i we im in dans en mit avec con from also plus "
    "only still now "
    "speichert enthalt a contient contiene registra"
)
_WITH = re.compile(
    r"(?:with|to|from|by|mit|zu|von|zum|zur|avec|con|du|de|del|vers|of|for|data)\s+(?:the\s+|dem\s+|"
    r"der\s+|le\s+|la\s+|el\s+|l')?$"
)
_IN = re.compile(
    r"(?:in|from|im|in der|aus|vom|von|dans|du|de|en|del|by|on|at|under|for)\s+(?:the\s+|dem\s+|der\s+|"
    r"le\s+|la\s+|el\s+|l'|both\s+)?$"
)
_TAIL_IN = re.compile(
    r"[\s,]*(?:(?:stored|pending|current|confirmed|codes?|both|are|is|set)\s+){0,3}(?:in|im|dans|"
    r"en|from)\s"
)
_SAYS = re.compile(
    r"\s*(?::|=|\s-)\s*$|\s(?:has|have|had|shows?|showing|showed|with|gave|gives|reports?|reported|"
    r"logged|logs|sets?|threw|throws|got|gets|"
    r"hat|haben|meldet|melden|zeigt|zeigen|mit|affiche|affichent|indique|remonte|avec|tiene|tienen|"
    r"muestra|muestran|presenta|con|stores|"
    r"holds|flagged|still has|also has|registra|speichert)\s(?:(?:code|codes|dtc|dtcs|fault|faults|"
    r"only|just|now|stored|still|also|den|die|le|"
    r"les|el|los|fehler|fehlercode|defaut|codigo|a|both)\s)*$"
)
#: "ABS has ...": what stands before the code is said of the module.
_HAS = re.compile(r"\s(?:has|have|had|shows?|gives|reports|hat|zeigt|meldet|tiene|muestra|affiche)\s")
_SENTENCE = re.compile(r"[.;!?\n]\s+")
#: What parts an answer from the description of the code before it.
_BREAK = re.compile(r"[.!?](?=\s|$)|;|,(?=\s)|\s-+\s|\n|\s(?:but|while|and|und|aber|et|mais|y|pero)\s")
_COMMS = re.compile(
    r"(?:comm\w*|contact|data|signal|message|kommunikation|verbindung|daten|communication|"
    r"comunicacion|datos|lost|lamp request)"
    r"[a-z ]{0,24}$"
)


@dataclass(slots=True)
class _Clause:
    """One clause of a line: where it stands and what is in it."""

    start: int
    end: int
    names: list[tuple[int, int]] = field(default_factory=list)
    codes: list[Found] = field(default_factory=list)
    answers: list[Spoken] = field(default_factory=list)


def is_prose(context: Context, row: Row) -> bool:
    """Whether a row with codes is a sentence rather than a line of a list."""
    if row.cells is not None and row.kind in ("|", "\t", ";", ","):
        return False
    first = row.finds.codes[0]
    if row.cells is not None and any(
        cell.start <= first.start and cell.end <= first.end for cell in row.cells if cell.end > first.start
    ):
        return False
    before = tidy(strip_links(trailing_status(row.text[: first.start])[0])) if first.start else ""
    named = bool(before) and context.names.score(before) >= 60.0
    if len(row.finds.codes) == 1 and not before:
        # "there is U0100 in the cluster"; otherwise a code with its description.
        tail = row.low[first.end :]
        return (
            first.start > 0
            and _TAIL_IN.match(tail) is not None
            and any(start >= first.end for start, _ in _subjects(context, row))
        )
    if named and (_HAS.search(row.low[: first.start]) or _tells_more(row)):
        return True
    if named and not _said(row) and (len(row.finds.codes) == 1 or not context.names.find(row.low[first.end :])):
        # One module before its codes, no other behind: a line of a list.
        return False
    clauses = _clauses(context, row)
    subjects = {row.low[start:end] for clause in clauses for start, end in clause.names}
    if len(subjects) > 1 and sum(bool(clause.codes or clause.answers) for clause in clauses) > 1:
        return True
    if named or not subjects:
        return False
    if not before:
        return _TAIL_IN.match(row.low[row.finds.codes[-1].end :]) is not None
    lead = [word for word, _, _ in words(row.low[: first.start][-200:])]
    return any(word in _VERBS for word in lead) or len(lead) > 5


def _tells_more(row: Row) -> bool:
    """Whether another sentence behind the codes tells of the scan: its phase or the supply."""
    cut = _SENTENCE.search(row.low, row.finds.codes[-1].end)
    if cut is None:
        return False
    rest = row.low[cut.end() :]
    return phases.find(rest) is not None or any(volt.of in ("supply", "lowest") for volt in volts.find(rest))


def _subjects(context: Context, row: Row, said: Sequence[Spoken] = ()) -> list[tuple[int, int]]:
    """Module names of a row that are no part of a description; ``said``: its answers ("no comms with the radio")."""
    kept = []
    ends = {hit.end for hit in said}
    covered = _cover(row, ((code.start, code.end) for code in row.finds.codes))
    for start, end, sure in context.names.find(row.low):
        if 1 in covered[start:end]:
            continue
        lead = row.low[max(0, start - 60) : start]
        through = _WITH.search(lead)
        if through is not None and _COMMS.search(lead[: through.start()].rstrip()) and not any(
            end <= start and end >= start - len(lead) + through.start() - 1 for end in ends
        ):
            continue
        if sure or _acts(row.low, start, end):
            kept.append((start, end))
    return kept


def _acts(low: str, start: int, end: int) -> bool:
    """Whether a plain word ("brakes") does something here: a verb, a code or a colon follows, "in" leads to it."""
    after = low[end : end + 24]
    if re.match(
        r"\s*(?::|(?:module|control|unit|ecu)\b|(?:has|have|had|shows?|gave|gives|reports?|set|sets|did|"
        r"does|do|is|are|was|were|won|"
        r"never|hat|haben|meldet|zeigt|antwortet|ne |n'|a |affiche|tiene|no |muestra|still|also|logged|"
        r"stayed|came|ok|clean|silent|"
        r"with|not|both|silent|dead)\b)",
        after,
    ) or re.match(r"\s*[pcbu][0-3][0-9a-f]{3}", after):
        return True
    if re.match(r"\s*(?:,|and|und|et|y|&)\s", after):
        return True
    return _IN.search(low[max(0, start - 20) : start]) is not None


def read(context: Context, row: Row) -> None:
    """A sentence with codes in it, and perhaps answers, voltages and a phase."""
    context.refuse(row)
    for piece in _scans(context, row):
        if _states_phase(context, piece):
            metarow.read(context, piece)
        elif volts.find(piece.low) or context.builder.snapshot.empty:
            metarow.apply(context, piece, top=True)
        _walk(context, piece)


def _scans(context: Context, row: Row) -> list[Row]:
    """The row, parted before each sentence that opens another scan ("After the clear the ABS has C0035")."""
    starts = [0]
    for match in _SENTENCE.finditer(row.low):
        hit = phases.find(row.low[match.end() : match.end() + 60])
        if hit is None or hit.start > 12:
            continue
        told = [phases.find(row.low[start : match.start()]) for start in starts[-1:]]
        coded = any(starts[-1] <= code.start < match.start() for code in row.finds.codes)
        if coded and told[0] is not None and told[0].phase != hit.phase:
            starts.append(match.end())
    if len(starts) == 1:
        return [row]
    return [Row(row.line, row.text[start:end].rstrip(), row.start + start, row.low[start:end].rstrip())
            for start, end in zip(starts, [*starts[1:], len(row.text)], strict=True)]


def _states_phase(context: Context, row: Row) -> bool:
    """Whether the row says where the scan stands: at its beginning, or in a clause that says nothing of a module."""
    hit = phases.find(row.low)
    if hit is None:
        return False
    if hit.start <= 40:
        return True
    clause = next((clause for clause in _clauses(context, row) if clause.start <= hit.start < clause.end), None)
    return clause is not None and not (clause.codes or clause.answers)


def answers(context: Context, row: Row) -> bool:
    """A sentence with answers of modules and no code; whether any module was named."""
    clauses = _clauses(context, row)
    if not any(clause.names and clause.answers for clause in clauses) and not _spread(clauses):
        return False
    metarow.apply(context, row, top=True)
    _walk(context, row)
    return True


def _spread(clauses: list[_Clause]) -> bool:
    """Whether names and answers stand in neighbouring clauses ("brakes, airbag and steering did not answer")."""
    return any(clause.names for clause in clauses) and any(clause.answers for clause in clauses)


def _clauses(context: Context, row: Row) -> list[_Clause]:
    """The clauses of a row with their names, codes and answers; kept while the row is being read."""
    if context.clauses is None or context.clauses[0] is not row:
        context.clauses = row, _cut(context, row)
    return context.clauses[1]


def _cut(context: Context, row: Row) -> list[_Clause]:
    """Cut a row into clauses. Linear in its length."""
    codes = row.finds.codes
    said = [hit for hit in _said(row) if not _of_a_code(row, hit)]
    names = _subjects(context, row, said)
    covered = _cover(row, [*names, *((code.start, code.end) for code in codes)])
    hits = [hit for hit in said if not covered[hit.start]]
    for hit in hits:
        covered[hit.start + 1 : hit.end] = b"\1" * (hit.end - hit.start - 1)
    cuts = [
        match.start()
        for match in _CLAUSE.finditer(row.low)
        if not (covered[match.start()] and covered[match.start() - 1])
    ]
    clauses = [
        _Clause(start, end) for start, end in zip([0, *cuts], [*cuts, len(row.low)], strict=True) if end > start
    ]
    name_at = code_at = hit_at = 0
    for clause in clauses:
        while name_at < len(names) and names[name_at][0] < clause.end:
            clause.names.append(names[name_at])
            name_at += 1
        while code_at < len(codes) and codes[code_at].start < clause.end:
            clause.codes.append(codes[code_at])
            code_at += 1
        while hit_at < len(hits) and hits[hit_at].start < clause.end:
            clause.answers.append(hits[hit_at])
            hit_at += 1
        unlisted = _unlisted(context, row, clause)
        if unlisted is not None:
            clause.names = [unlisted, *(name for name in clause.names if name[0] >= unlisted[1])]
    return clauses


def _of_a_code(row: Row, hit: Spoken) -> bool:
    """Whether an answer only goes on with the description of a code ("U0100 no communication with engine")."""
    before = [code.end for code in row.finds.codes if code.end <= hit.start]
    return bool(before) and _BREAK.search(row.low, before[-1], hit.start) is None


def _cover(row: Row, spans: Iterable[tuple[int, int]]) -> bytearray:
    """One byte a character: 1 where a span is."""
    covered = bytearray(len(row.low) + 1)
    for start, end in spans:
        covered[start:end] = b"\1" * (end - start)
    return covered


def _said(row: Row) -> list[Spoken]:
    """The answers of a row. Beside a code "not present" is its status."""
    hits = spoken(row.low)
    return [hit for hit in hits if states.of_cell(row.low[hit.start : hit.end]) is None] if row.finds.codes else hits


def _unlisted(context: Context, row: Row, clause: _Clause) -> tuple[int, int] | None:
    """A subject that is not listed as it stands: what comes before "has", "shows", a colon, or an answer."""
    facts = [code.start for code in clause.codes] + [hit.start for hit in clause.answers]
    if not facts:
        return None
    lead = row.low[clause.start : min(facts)]
    says = _SAYS.search(lead)
    if says is None and (clause.codes or not clause.answers):
        return None
    text = row.text[clause.start : clause.start + (says.start() if says is not None else len(lead))]
    printed = tidy(without_links(text) if says is None else strip_links(text))
    if not printed or len(printed.split()) > 6 or len(printed) > 60 or not any(c.isalpha() for c in printed):
        return None
    start = row.text.find(printed, clause.start)
    if start < 0 or any(name[0] <= start and start + len(printed) <= name[1] for name in clause.names):
        return None
    if context.names.score(printed) < 60.0 and (
        clause.names or says is None or phases.find(small(printed)) is not None
    ):
        return None
    return start, start + len(printed)


def _walk(context: Context, row: Row) -> None:
    """Give the codes and answers of a sentence to the modules it tells them of."""
    clauses = _clauses(context, row)
    codes = [code for clause in clauses for code in clause.codes]
    said = [hit for clause in clauses for hit in clause.answers]
    facts = attribute(
        row.low, [name for clause in clauses for name in clause.names], [(code.start, code.end) for code in codes],
        [(hit.start, hit.end) for hit in said], [at for at, hit in enumerate(said) if takes_object(row.low, hit)])
    pending: list[tuple[list[ModuleDraft], Found, Details]] = []
    for fact in facts:
        modules = [_module(context, row, name) for name in fact.owners]
        if fact.answer is not None:
            for module in modules:
                apply_answer(context, module, said[fact.answer].answer)
            continue
        modules = modules or [module_for(context, row, codes[fact.codes[0]])]
        pending += [(modules, codes[at], _zone(context, row, codes[at], clauses)) for at in fact.codes]
    _add_all(context, row, pending)


def _module(context: Context, row: Row, name: tuple[int, int]) -> ModuleDraft:
    """The module of a name in the row; a known word for "module" behind it belongs to it."""
    start, end = name
    more = re.match(r"\s+(?:control\s+)?(?:module|unit|ecu)(?![a-z])", row.low[end : end + 24])
    if more is not None:
        end += more.end()
    printed = tidy(row.text[start:end])
    context.under_heading = False
    return context.builder.name_module(printed, row.line, row.start + start, row.start + end)


def _zone(context: Context, row: Row, code: Found, clauses: list[_Clause]) -> Details:
    """What stands between a code and the next code, name or end of the clause."""
    clause = next(clause for clause in clauses if clause.start <= code.start < clause.end)
    stops = [other.start for other in clause.codes if other.start > code.start]
    stops += [start for start, _ in clause.names if start > code.start]
    stop = min([*stops, clause.end])
    details = Details()
    text = row.text[code.end : stop]
    found = states.in_text(small(text), context.translated)
    if found:
        details.status = (
            found[0].status
            if len(found) == 1
            else (states.of_cell(small(text[found[0].start : found[-1].end]), context.translated) or found[0].status)
        )
    else:
        for _, part in list(soft_pieces(text))[:6]:
            take(details, part, small(part), following=False, has_type=True, translated=context.translated)
        details.texts = [text for text in details.texts if len(text.split()) > 1]
    return details


def _add_all(context: Context, row: Row, pending: list[tuple[list[ModuleDraft], Found, Details]]) -> None:
    """Add the codes; a status behind the last of several is that of all that stand together, one before them too."""
    for at in range(len(pending) - 2, -1, -1):
        _, code, details = pending[at]
        _, after, following = pending[at + 1]
        between = row.low[code.end : after.start].strip(" ,;&+/()")
        if details.status is None and between in (
            "",
            "and",
            "und",
            "et",
            "y",
            "e",
            "plus",
            "or",
            "as well as",
            "sowie",
        ):
            details.status = following.status
    for at, (modules, code, details) in enumerate(pending):
        if details.status is None:
            lead = row.low[(pending[at - 1][1].end if at else 0) : code.start]
            found = [
                state
                for state in states.in_text(lead[-40:], context.translated)
                if state.end >= len(lead[-40:].rstrip(" :,")) - 12
            ]
            if found and re.fullmatch(
                r"[\s:,]*(?:codes?|dtcs?|faults?|fault codes?|fehler(?:codes?)?|and|a|an|"
                r"the)?[\s:,]*",
                lead[-40:][found[-1].end :],
            ):
                details.status = found[-1].status
                if at:
                    details.status = found[-1].status
        for module in modules:
            add(context, module, row, code, details)
    context.open_code = context.open_row = None
