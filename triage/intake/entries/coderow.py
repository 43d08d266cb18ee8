"""Rows with codes in them that no column heads explain: the module by the style of the text, and what stands beside
each code."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import replace
from functools import lru_cache

from triage.intake.codes.finds import Found
from triage.intake.codes.pieces import Details, runs_on
from triage.intake.codes.tails import read_pieces
from triage.intake.entries import leads, nameplaces
from triage.intake.entries.clauses import is_title
from triage.intake.entries.headname import without_volts
from triage.intake.lines import counted, namegaps, namelist, partwords
from triage.intake.lines.behind import before_names, wordy
from triage.intake.lines.row import Row
from triage.intake.lines.shapes import shape_of
from triage.intake.lines.unknown import is_one_of_short
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links, trailing_status
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, plain_words
from triage.intake.said import describing, engine_state, phases, states, voltmoments
from triage.intake.said.answers import spoken
from triage.intake.said.near import small
from triage.intake.scan.assembly import NOT_STATED, CodeDraft, ModuleDraft
from triage.intake.scan.context import Context
from triage.intake.scan.style import HEADING, Place
from triage.intake.words.answerwords import CODES
from triage.model.snapshot import StatusWord

#: What ends the description of a code within a line, and what leads to one.
_NEXT_CLAUSE = lazily(r"[,;]|\.\s|\s/\s|\s(?:and|but|while|und|aber|et|mais|y|pero)\s")
_STOP = lazily(rf"[a-z)]\.{NOT_SHORT}\s")
_ANOTHER = lazily(r"(?:\s/|[;,.])\s[^/:;,.]{2,40}:\s*$")
_MARK_BEFORE = lazily(r"(?:\s-+|[:|\]>])\s*$")
_MARKED_OFF = lazily(r"\s+-+\s|\s*[:|\])]\s|\s\s")
#: Between what is said of a code and the next code.
_JOINED = lazily(r"\s(?:and|und|et|y|sowie|plus)\s*$")
#: What heavy vehicles call a code that is no longer there, cut short.
_PREVIOUSLY_ACTIVE = ("PA", "P.A", "P/A")
#: A name in short, or an address, behind the whole one.
_BRACKET_BEHIND = lazily(r"\s*(?:\([^()]*\)|\[[^][]*\])$")
#: Without one of these no place holds several names.
_LIST_MARKS = (",", "+", "&", "/", " and ", " und ", " et ", " y ", ";")
_EVERYWHERE = frozenset(("everywhere", "uberall", "partout", "en todos", "en todas"))
_ANDS = (" and ", " und ", " et ", " y ")
#: From a code to its modules, right behind it.
_INTO = lazily(r"(?<![a-z])(?:in|im|dans|en) (?:the |der |dem |le |la |el )?$")
_read_cached = lru_cache(maxsize=8192)(read_pieces)


def read(context: Context, row: Row) -> None:
    """One row with codes: name its module, add its codes."""
    if row.finds.refusals:
        context.refuse(row)
    context.in_freeze_frame = False
    place = HEADING if row.entry else context.style.places.get(shape_of(row), HEADING)
    modules, used = _modules(context, row, place)
    used = nameplaces.with_address(row, used)
    before_status = _status_before(context, row)
    codes = row.finds.codes
    led, starts = leads.of_row(context, row, named=used[1] > 0)
    pending: list[tuple[Found, Details]] = []
    for at, code in enumerate(codes):
        stop = codes[at + 1].start if at + 1 < len(codes) else len(row.text)
        pending.append((code, beside(context, row, code, leads.stop_before(starts, code.start, stop), used)))
    leads.share(context, row, pending, None if led else before_status)
    for at, (code, details) in enumerate(pending):
        if details.status is None and code.start in led:
            pending[at] = code, replace(details, status=led[code.start])
    part = partwords.part_behind(context.names, row.text[used[0] : used[1]], modules[0].printed) if used[1] else None
    added: CodeDraft | None = None
    for module in modules:
        for code, details in pending:
            added = add(context, module, row, code, details)
            added.text = added.text or part
            if len(pending) == 1 and details.volts is not None:
                _voltage(context, row, module, added, details.volts)
    context.open_code, context.open_row, context.tail = added, row, ""
    context.tail_status = pending[-1][1].status if before_status is None else None


def is_line_of_list(context: Context, row: Row) -> bool:
    """Whether a row is surely one code with its description, whatever modules and answers that speaks of: "ABS - U0151
    - No response from restraints", or "U0151 No response from restraints" below a heading."""
    if len(row.finds.codes) != 1:
        return False
    if row.entry:
        return True
    code = row.finds.codes[0]
    shape = shape_of(row)
    if not strip_links(row.text[: code.start]) or states.is_status(row.low[: code.start].strip(" ;:,.-")):
        if nameplaces.IN.match(row.low, code.end) is not None:
            # "U0100 in ABS: no response from gateway, stored" among others that are told so.
            named = nameplaces.behind_in(context, row, code.end) if shape in context.style.described else None
            return named is not None and row.text[named[1] : named[1] + 1] == ":"
        place = context.style.places.get(shape, HEADING)
        return (context.under_heading and place == HEADING) or (
            place.many and nameplaces.set_off_behind(context, row))
    if context.style.places.get(shape, HEADING).many and nameplaces.set_off_behind(context, row):
        return True
    if phases.find(row.low[: code.start]) is not None or engine_state.spans(row.low[: code.start]):
        # "Before clearing - the ECM has P0380 - nothing stored in the radio" is a message.
        return False
    said = [hit for hit in spoken(row.low) if states.of_cell(row.low[hit.start : hit.end]) is None]
    if any(hit.start > code.end and _ANOTHER.search(row.low, max(code.end, hit.start - 48), hit.start) for hit in said):
        # "Engine: P0562 active / ABS: no answer"
        return False
    behind = [hit for hit in said if hit.start > code.end and not is_title(row, hit)]
    if any(_STOP.search(row.low, code.end, hit.start) for hit in behind):
        # "From the ECM: P0562 stored. No faults in the radio."
        return False
    usual = shape in context.style.described
    if usual and _MARK_BEFORE.search(row.text, 0, code.start) and "," not in row.text[: code.start]:
        return True
    for hit in said:
        between = row.low[code.end : hit.start] if hit.start >= code.end else ","
        if is_title(row, hit):
            continue
        if _NEXT_CLAUSE.search(between):
            return False
        if between.strip(" -:|[]()") and not usual and not _MARKED_OFF.match(between):
            return False
    return bool(said)


def add(context: Context, module: ModuleDraft, row: Row, code: Found, details: Details) -> CodeDraft:
    """Add one code with what stands beside it."""
    if code.failure_type is None and details.failure_type is not None:
        code = code._replace(failure_type=details.failure_type)
    if context.section_status() is not None and not context.style.doubtful_states and runs_on(row.low[code.end :]):
        details = replace(details, status=None)
    status = details.status or context.section_status()
    if status is None and code.kind == "J1939" and details.text in _PREVIOUSLY_ACTIVE:
        status, details = "stored", replace(details, texts=[])
    draft = context.builder.add_code(module, code, status, details.text, row.line, row.start)
    draft.listed = details.status is None and status == "stored" == context.section_status()
    if details.status_byte is not None and draft.status_byte is None:
        draft.status_byte = details.status_byte
    if details.count is not None and draft.count is None:
        draft.count = details.count
    for name, value in details.freeze.items():
        draft.freeze.setdefault(name, value)
    if row.behind and row.finds.codes and code.start == row.finds.codes[-1].start:
        count, values = counted.told(row.behind)
        draft.count = count if draft.count is None else draft.count
        draft.freeze = {**values, **draft.freeze}
    return draft


_NOMINAL = (6.0, 12.0, 24.0, 48.0)
_NAMING = lazily(r"(?<![0-9.,])(6|12|24|48) ?-?v(?:olts?)? (?=[a-z]{3})"
                  r"(?!at |while |when |with |stored|active|current)")


def _voltage(context: Context, row: Row, module: ModuleDraft, draft: CodeDraft, value: float) -> None:
    """A voltage in a code's own line is the stored one where the line says so, else the module's; a nominal one before
    a word is part of a name: "12V battery voltage low"."""
    if value in _NOMINAL and any(float(match[1]) == value for match in _NAMING.finditer(row.low)):
        return
    if draft.freeze or voltmoments.tells_fault(row.low) or any(
        word in row.low for word in ("freeze", "frame", "fig", "umgeb", "congel", "stored at", "set at", " at ")
    ):
        draft.freeze.setdefault("volts", value)
    elif module.volts is None:
        module.volts = value


def module_for(context: Context, row: Row, code: Found | None) -> ModuleDraft:
    """The module of the heading above; the source address of a J1939 code where there is none; else a stand-in."""
    builder = context.builder
    if builder.module is not None and builder.module.printed != NOT_STATED:
        if builder.next_phase is not None and not builder.snapshot.empty:
            return builder.name_module(builder.module.printed, row.line, row.start, row.start)
        answered = builder.module.answer is not None and not builder.module.codes
        if not answered or context.under_heading:
            return builder.module
    if code is not None and code.source_address is not None:
        return builder.name_module(
            f"source address {code.source_address}", row.line, row.start + code.start, row.start + code.end
        )
    return builder.unnamed(code, row.line, row.start)


def same_sender(context: Context, code: Found) -> bool:
    """Whether the address of the sender stands with the code of the row above as well: the module is the same."""
    above, module = context.open_row, context.builder.module
    if above is None or module is None or context.open_code is None or context.open_code not in module.codes:
        return False
    return any(found.source_address == code.source_address for found in above.finds.codes)


def _modules(context: Context, row: Row, place: Place) -> tuple[list[ModuleDraft], tuple[int, int]]:
    """The modules of a row, and the span of its text that their names took."""
    if row.named is not None:
        sure = bool if " + " in row.text[slice(*row.named)] else context.names.sure  # a plus joins several
        spans = namelist.several(row, row.named, namelist.known(context.names), sure) or [row.named]
        context.under_heading = False
        return [context.builder.name_module(tidy(row.text[start:end]), row.line, row.start + start, row.start + end)
                for start, end in spans], nameplaces.with_lead(row, row.named)
    if place.many and _names_stand_behind(context, row):
        places = [(start, end) for start, end in namelist.parts(row, namelist.known(context.names))
                  if row.low[start:end].strip() not in _EVERYWHERE]
        texts = [context.names.bare(tidy(row.text[start:end])) for start, end in places]
        if texts and all(namelist.acceptable(text) for text in texts):
            context.under_heading = False
            found = [
                context.builder.name_module(text, row.line, row.start + start, row.start + end)
                for text, (start, end) in zip(texts, places, strict=True)
            ]
            closed = places[-1][1] + (row.text[places[-1][1] : places[-1][1] + 1] in (")", "]"))
            end = row.finds.codes[-1].end
            told = row.low[end : places[0][0]]  # "liegt nicht an [Radio]": a link, or the end of a status
            apart = namelist.described(row, places) or any(map(states.of_cell, (told, before_names(told))))
            return found, (places[0][0] if apart else end, closed)
    if (place.many or place.piece is not None or place.within) and not context.under_heading:
        # Each line of this text names its own module: the one of the line above is not this line's.
        context.builder.module = None
    return _named(context, row, place)


def _names_stand_behind(context: Context, row: Row) -> bool:
    """Whether nothing before the code of a row names its module: a status, or words that nobody knows ("status 2F")."""
    lead = row.text[: row.finds.codes[0].start].strip(" -*#.()[")
    if not lead or not shape_of(row)[2]:
        return not lead or any(states.of_cell(small(text)) is not None for text in (lead, strip_links(lead)))
    if context.names.score(lead) >= 60.0:
        return False
    few = len(lead.split()) <= 3 or states.leading(small(lead), 0) > 0
    # A description may speak of other modules: "No message from gateway - U0140 - radio - stored".
    return (few and not context.names.find(small(lead))) or nameplaces.set_off_behind(context, row)


def _named(context: Context, row: Row, place: Place) -> tuple[list[ModuleDraft], tuple[int, int]]:
    """The module of a row (several where a list of names stands in its place), and the span that its name took."""
    code = row.finds.codes[0]
    start, end = nameplaces.span(context, row, place)
    if end <= start and place.cell is None:
        return [module_for(context, row, code)], (0, 0)
    printed = tidy(strip_links(row.text[start:end])) if end > start else ""
    if end > start:
        # "Air con" is a name, its last word no link.
        whole = context.names.bare(tidy(row.text[start:end]))
        named, mark, short = whole.rpartition(" - ")
        if mark and short.isupper() and context.names.listed(named):
            # So is the first one of "Control de estabilidad - ESP".
            printed = whole
        elif context.names.listed(_BRACKET_BEHIND.sub("", whole)) or (
                place.cell is not None and not context.names.listed(printed)) or (
                # In brackets a name stands as it is printed: "[calculateur habitacle (BSH)]".
                place.within and context.names.score(whole) >= 60.0):
            printed = whole
    if row.kind == "gap" and place.cell is not None and code.start > end:
        whole = tidy(" ".join(row.text[: code.start].split()))
        slip = namegaps.holds_slip(row.text[: code.start].strip(), printed, context.names)
        if whole != printed and (slip or context.names.listed(whole)):
            # Two spaces inside a name are a slip, no gap between columns.
            printed, start, end = whole, 0, code.start
    printed = context.names.bare(printed)
    if place.before or place.cell is not None:
        printed = partwords.module_in(context.names, printed)
    if not printed or not has_letter(printed) or not _acceptable(context, row, place, printed):
        return [module_for(context, row, code)], (0, 0)
    context.under_heading = False
    # A description is no second name where each row has one, but in a sentence: "U0140 in radio, ABS and airbag".
    told = _INTO.search(row.low, code.bare, start) is not None and any(and_ in row.low[end:] for and_ in _ANDS)
    listed = not place.before and any(mark in row.text for mark in _LIST_MARKS) and (
        told or context.style.widths.get(shape_of(row)) != len(wordy(row))) and not (
            any(mark in printed for mark in _LIST_MARKS) and context.names.listed(_BRACKET_BEHIND.sub("", printed)))
    spans = namelist.around(row, (start, end), namelist.known(context.names), context.names.sure) if listed else ()
    if told and len(spans) < 2:
        spans = namelist.onwards(row, (start, end), context.names.sure)
    if len(spans) > 1:
        texts = [(context.names.bare(tidy(row.text[at:to])), at, to) for at, to in spans]
        return [
            context.builder.name_module(text, row.line, row.start + at, row.start + to) for text, at, to in texts
        ], (spans[0][0], spans[-1][1])
    begin = found if (found := row.text.find(printed, start)) >= 0 else start
    printed, begin = without_volts(context, row, printed, begin)
    module = context.builder.name_module(printed, row.line, row.start + begin, row.start + begin + len(printed))
    # Of the bracket round a name nothing is left.
    return [module], (start - bool(place.within), end + bool(place.within))


def _acceptable(context: Context, row: Row, place: Place, printed: str) -> bool:
    """Whether text in the module's place may be its name: a description under a heading is not."""
    words, score = len(printed.split()), context.names.score(printed)
    if place.cell is not None:  # "Confirmed in this cycle", set in below a heading
        inset = context.under_heading and row.line.indent > context.heading_indent
        return len(printed) <= 80 and not (inset and score < 60.0 and states.in_text(small(printed)))
    if score >= 60.0 or (place.within and words <= 6):
        return True
    if place.lead or place.tail or place.piece is not None:
        # Behind the code stands a description as well; an unlisted name is taken only where the whole text does so.
        return words <= 6 and not context.under_heading and (place.sure or context.builder.module is None)
    if context.under_heading:
        # "Engine: 0 faults" or "Engine" and "no answer", then "Grain tank: P0562": the heading's module holds no codes.
        module, lead = context.builder.module, row.text[: row.finds.codes[0].start].rstrip()
        none = module is not None and not module.codes and (
            module.answer is not None or (module.stated is not None and module.stated[0] == 0)
        )
        marked = words <= 4 and lead[-1:] in tuple(",:;|=>")
        return (marked and none) or ((marked or lead.endswith(" -")) and _heads_anew(context, row, printed))
    above = context.builder.module
    return words <= 6 and len(printed) <= 60 and describing.IS.isdisjoint(printed.split()) and not (
        above and above.codes and describing.ends_text(printed))


def _heads_anew(context: Context, row: Row, printed: str) -> bool:
    """Whether words that nobody knows stand before a code where the codes of the heading above begin their lines: a
    short name, or words as far left as that heading where its codes are set in below it."""
    last, low = context.open_row, small(printed)
    if last is None or not last.finds.codes or last.finds.codes[0].start > 0 or role_of(low) is not None:
        return False
    if states.in_text(low) or has_digit(printed) or phases.find(low) is not None:
        return False
    # "Second code" and "Circuit low" are said of the code.
    out = row.line.indent <= context.heading_indent < last.line.indent and " " in printed and printed[0].isupper()
    named = out and CODES.isdisjoint(plain_words(low)) and not describing.ends_text(printed)
    return is_one_of_short(printed) or named


def _status_before(context: Context, row: Row) -> StatusWord | None:
    """A status between the module and the code, or in a cell left of the code ("ECM pending P0300")."""
    code = row.finds.codes[0]
    if code.start == 0:
        return None
    if row.cells:
        for cell in row.cells:
            if cell.end <= code.start and cell.text:
                status = states.of_cell(cell.low, context.translated, context.legend)
                if status is not None:
                    return status
    if code.start <= 80 and (status := states.of_cell(row.low[: code.start], context.translated)) is not None:
        return status
    text, meaning = trailing_status(row.text[: code.start])
    if _is_short_for(context, row.text[: code.start].rstrip()):
        return None
    if meaning is None or code.start > 120 or context.names.listed(tidy(strip_links(row.text[: code.start]))):
        return None
    return states.of_cell(row.low[len(text) : code.start], context.translated)


def _is_short_for(context: Context, text: str) -> bool:
    """Whether a text ends with a listed name and, in brackets, letters of it: "Seat memory [MEM]" tells no status."""
    match = _BRACKET_BEHIND.search(text)
    if match is None or not match[0].isupper() or not context.names.listed(tidy(text[: match.start()])):
        return False
    left = iter(small(text[: match.start()]))
    return all(letter in left for letter in small(match[0]).strip(" ()[]"))


def beside(context: Context, row: Row, code: Found, stop: int, used: tuple[int, int] = (0, 0)) -> Details:
    """What stands between a code and the next one (or the end of the row), without the module's name (``used``)."""
    begin = code.end
    if row.cells and row.kind != "rule":
        cells, places = row.cells, []
        for at in range(bisect_right(cells, begin, key=lambda cell: cell.end) if len(cells) > 12 else 0, len(cells)):
            cell = cells[at]
            if cell.start >= stop:
                break
            start, end = cell.start, cell.end
            start, end = start if start > begin else begin, end if end < stop else stop
            if end > start:
                places.append((start, end))
    else:
        places = [(begin, stop)]
    texts = []
    for start, end in places:
        text = row.text[start:end]
        if used[0] < used[1] and start < used[1] and used[0] < end:
            text = (
                row.text[start : used[0]] + " " + row.text[used[1] : end]
                if used[0] >= start
                else row.text[used[1] : end]
            )
            if not text.strip(" -:,;|()[]"):
                continue
        texts.append(_JOINED.sub("", text) if end == stop < len(row.text) else text)
    return details_of(context, texts, code.failure_type is not None)


def details_of(context: Context, texts: list[str], has_type: bool, doubtful: bool = False) -> Details:
    """The pieces behind a code, read together. Not to be changed: the same text gives the same object."""
    read = read_pieces if sum(map(len, texts)) > 400 else _read_cached
    return read(tuple(texts), has_type, context.translated, doubtful or context.style.doubtful_states, context.legend)
