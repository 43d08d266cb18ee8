"""Clauses: a sentence cut at commas and stops, with the module names, codes and answers of each piece.

A name behind "with" ("lost communication with the gateway") is part of a description, a plain word ("brakes") a name
only where it does something.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from triage.intake.codes.finds import Found
from triage.intake.entries import leads, likewise, slots, subjects, wholenames
from triage.intake.entries.wholenames import is_subject
from triage.intake.lines import unknown
from triage.intake.lines.row import Row
from triage.intake.naming.heads import NO_MODULES, role_of
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, plain_words, word_set, words
from triage.intake.said import codetexts, describing, phases, states
from triage.intake.said.answeraround import Spoken, untried
from triage.intake.said.answers import spoken, without_links
from triage.intake.said.attribution import AND, LEADS
from triage.intake.said.near import small
from triage.intake.scan.context import Context
from triage.intake.words.answerwords import CONTACT
from triage.intake.words.device_words import is_other
from triage.intake.words.saying_words import VERBS

_CLAUSE = lazily(
    rf"\.{NOT_SHORT}(?=\s|$)|[!?](?=\s|$)|;|(?<![0-9]),|,(?![0-9])|(?<=\s)-+(?=\s)|\n|(?<=\s)/(?=\s[^/:]{{2,40}}:\s)|"
    r"\s(?:but|while|whereas|aber|wahrend|mais|"
    r"tandis que|pero|mientras)\s|"
    r"\s(?:and|und|et|y)\s(?:then|the|der|die|das|le|la|el)\s"
)
_SAYS = lazily(
    r"\s*(?::|=|\s-)\s*$|\s(?:has|have|had|shows?|reads|showing|showed|with|gave|gives|reports?|reported|"
    r"logged|logs|sets?|threw|throws|got|gets|is (?:giving|showing|reporting|holding|storing)|"
    r"(?:came|comes) (?:back|up) with|brings? up|brought up|throwing|giving|"
    r"(?:i|we) (?:found|find|get|see|saw|read|pulled)|on (?:a|trouve|lit)|nous avons|"
    r"(?:ich|wir) (?:habe|haben|hab|lese|lesen)|"
    r"hat|haben|hatten?|meldeten?|zeigten?|avait|avaient|tenian?|meldet|melden|zeigt|zeigen|mit|affiche|affichent|"
    r"indique|remonte|avec|donne|steht|stehen|liegen|hay|se trouve|figure|da|dan|tiene|tienen|"
    r"muestra|muestran|presenta|con|stores|there (?:is|are|was|were)|gibt es|gab es|il y a|il y avait|habia|"
    r"holds|flagged|still has|also has|registra|speichert|came|comes?|kam|kamen|kommt|kommen|viennent|vient|"
    r"vienen|viene|salen?|salio)\s(?:(?:code|codes|dtc|dtcs|fault|faults|"
    r"only|just|now|stored|still|also|me|us|den|die|le|"
    r"les|el|los|fehler|fehlercode|defaut|codigo|a|both)\s)*$"
)
_FULL_STOP = lazily(rf"\.{NOT_SHORT}")
#: A clause that is a name and a mark before an answer.
#: Right before a code, in other languages than English.
_HAS = lazily(r"\s(?:a|ont|ha|han)\s*$")
_NAME_MARK = lazily(r"[,;.]\s([^\W\d_][^,;.:()\n]{2,50}?)\s?(?::|\s-)\s$")
_NEITHER = lazily(r"^[\s,.;]*(?:(?:neither|weder|ni)\s(?:l['\u2019])?|l['\u2019])(?=\S)", re.IGNORECASE)
_THE_ONE = lazily(
    r"\s(?:(?:is|was) the (?:only|first|last)|(?:ist|war) (?:das|der|die) einzige|est (?:le|la) seule?|es (?:el|la) "
    r"[u\u00fa]nic[oa])(?![a-z]).*$", re.IGNORECASE)
_FOUND = lazily(r"\s(?:i|we|there|gibt|gab|il y|hay|habia)\s")
#: Codes come from somewhere: "from the ladder unit came U0100".
_CAME = word_set("came come comes kam kamen kommt kommen viennent vient vienen viene sale salen salio")
_FROM = lazily(r"[\s,.;:-]*(?:(?:and|but|then|only|und|et|y)\s)?(?:from|out of|in|aus|von|vom|du|de|des|del|dans|en)\s")
#: What leads to the module of a code, with an article, which no description has in it.
_LEADS_TO = lazily(
    r"(?<![a-z])(?:(?:in|from|on) the|out of(?: the)?|im|in der|aus de[mr]|vom|von der|dans (?:le|la|l')|"
    r"en (?:el|la))\s*$"
)
#: Who says it, before the verb.
_WHO = lazily(r"\s(?:I|i|we|ich|wir)\s*$")
_MESSAGES = word_set(
    "memo note notes message msg dictation transcript recording voicemail email mail sms whatsapp sprachnachricht "
    "nachricht notiz vocal vocale nota mensaje grabacion")
#: A voltage between a name and the next: "alternator 14.2 V, ABS C0035" lists no two modules.
_MEASURED = lazily(
    r"\s*(?:at |[:=]\s?)?[0-9]{1,2}(?:[.,][0-9]{1,2})?\s?v(?:olts?)?\s?[,;.]\s*(?:(?:and|und|et|y|the)\s)*")
#: What says something, and who has no name: "talks now and shows C0545", "Rest: fine".
_NO_SUBJECT = (VERBS | CONTACT | word_set(
    "rest others else everything everyone everybody now it still also then and again the")) - word_set(
    "display displays record records log")
#: The description right behind a code.
_BRACKET = lazily(r"\s*[(\[][^()\[\]\n]{1,80}(?:\([^()\[\]\n]{1,40}\)[^()\[\]\n]{0,40})?[)\]]")
_FAR, _MOST_WORDS, _LONGEST_NAME = 30, 4, 40
_OK = lazily(r"ok(?:ay)? ([a-z]+)")
_GOES_ON = AND | LEADS | word_set("but after before when now then no not aber nach vor mais apres pero")
_STOPS = lazily(r"[.;!?]\s")
#: What parts an answer from the description of the code before it.
_BREAK = lazily(
    rf"\.{NOT_SHORT}(?=\s|$)|[!?](?=\s|$)|;|,(?=\s)|\s-+\s|\n|\s/(?=\s[^/:]{{2,40}}:\s)|"
    r"\s(?:but|while|and|then|und|aber|dann|et|mais|puis|y|pero|luego)\s"
)

Span = tuple[int, int]


@dataclass(slots=True)
class Clause:
    """One clause of a line: where it stands and what is in it."""

    start: int
    end: int
    names: list[tuple[int, int]] = field(default_factory=list)
    codes: list[Found] = field(default_factory=list)
    answers: list[Spoken] = field(default_factory=list)
    #: Names in the descriptions of its codes that may be meant for the modules themselves.
    doubtful: list[tuple[int, int]] = field(default_factory=list)


def clauses_of(context: Context, row: Row) -> list[Clause]:
    """The clauses of a row with their names, codes and answers; kept while the row is being read."""
    if context.clauses is None or context.clauses[0] is not row:
        context.clauses = row, _cut(context, row)
    return context.clauses[1]


def unmarked(row: Row) -> Row:
    """The row with blanks where a text is marked as the description of a code ("U0422 "no message from the cluster"").
    """
    low = codetexts.unmarked(row.low, [(code.start, code.end) for code in row.finds.codes])
    if low.count(" / ") > 1:
        # "ECM P0562 / TCM none / ABS no comms"
        low = low.replace(" / ", " ; ")
    if low is row.low:
        return row
    text = "".join(char if left != " " else " " for char, left in zip(row.text, low, strict=True))
    return Row(row.line, text, row.start, low, row.finds)


def _cut(context: Context, row: Row) -> list[Clause]:
    """Cut a row into clauses. Linear in its length."""
    row = unmarked(row)
    codes = row.finds.codes
    said = [hit for hit in answers_in(row) if _of_a_name(context, row, hit) or not (
        _of_a_code(row, hit) or _is_begun(context, row, hit))]
    said = sorted([*said, *beside_names(context, row, said)], key=lambda hit: hit.start)
    names = subjects.with_slips(context, row, subjects.subjects_of(context, row, said), said)
    names = wholenames.mended(context, row, wholenames.bracketed(context, row, names), said)
    led = unknown.led(row, names, not context.builder.snapshot.empty)
    names = wholenames.bracketed(context, row, unknown.joined(row, led, said))
    names = slots.filled(context.names, row, unknown.opening(row, names), said)
    names = [one for one, two in pairwise([*names, (len(row.low) + _FAR + 1,) * 2])
             if two[0] - one[1] > _FAR or not _MEASURED.fullmatch(row.low, one[1], two[0])]
    # "Puerta del. izq." is shortened to its end.
    names = [(start, end + (row.low[end : end + 1] == "." and _FULL_STOP.match(row.low, end) is None))
             for start, end in names]
    covered = subjects.cover(row, [*names, *((code.start, code.end) for code in codes)])
    hits = [hit for hit in said if not covered[hit.start]]
    for hit in hits:
        covered[hit.start + 1 : hit.end] = b"\1" * (hit.end - hit.start - 1)
    for code in codes:
        # "P0420 (efficiency low, bank 1) as current" is one clause.
        if (bracket := _BRACKET.match(row.low, code.end)) is not None:
            covered[bracket.start() : bracket.end()] = b"\1" * (bracket.end() - bracket.start())
    cuts = [
        match.start()
        for match in _CLAUSE.finditer(row.low)
        if not (covered[match.start()] and covered[match.start() - 1])
    ]
    clauses = [
        Clause(start, end) for start, end in zip([0, *cuts], [*cuts, len(row.low)], strict=True) if end > start
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
    for before, clause in pairwise(clauses):
        if (name := _before_dash(row, before, clause)) is not None:
            before.names = [name]
    if codes:
        _describe(row, clauses)
    return clauses


def _before_dash(row: Row, before: Clause, clause: Clause) -> Span | None:
    """A name that nobody knows, alone in its sentence but for its answer behind a dash: "Fnord box - no answer"."""
    if before.names or before.codes or before.answers or clause.codes or not clause.answers:
        return None
    hit = clause.answers[0]
    if hit.doubtful or row.low[clause.start : hit.start].strip("- ") or row.low[hit.end : clause.end].strip(" "):
        return None
    lead = row.text[before.start : before.end]
    name = lead.lstrip(" .;!?")
    if (before.start and lead[:1] not in (".", ";", "!", "?")) or not name[:1].isupper() or len(name) > _LONGEST_NAME:
        return None
    told = words(small(name))
    if not 1 <= len(told) <= _MOST_WORDS or any(word in _NO_SUBJECT for word, _, _ in told):
        return None
    low = small(name).strip()
    if role_of(low) is not None or phases.find(low) is not None or is_other(low) or _is_message(name):
        return None
    start = before.end - len(name)
    return start, start + len(name.rstrip())


def _describe(row: Row, clauses: Sequence[Clause]) -> None:
    """Take the names that stand in descriptions of codes out of their clauses."""
    names = [name for clause in clauses for name in clause.names]
    codes = [(code.start, code.end) for clause in clauses for code in clause.codes]
    said = [(hit.start, hit.end) for clause in clauses for hit in clause.answers]
    told = {hit[:2]: hit.sure for hit in describing.within(row.low, names, codes, said)}
    for clause in clauses if told else ():
        clause.doubtful = [name for name in clause.names if not told.get(name, True)]
        clause.names = [name for name in clause.names if name not in told]


def leads_to(low: str, at: int) -> bool:
    """Whether "in the", "out of" or the like stands before a place, as no description has it."""
    return _LEADS_TO.search(low, max(0, at - 24), at) is not None


def says_before(row: Row, at: int) -> bool:
    """Whether a verb of saying leads to what stands at a place: "the airbag is showing", "ECM came up with"."""
    says = _SAYS.search(row.low[max(0, at - 60) : at])
    return says is not None and says[0].strip()[:1].isalpha()


def beside_names(context: Context, row: Row, said: Sequence[Spoken]) -> list[Spoken]:
    """The answers of a row that only the name beside them makes one."""
    if not likewise.may_tell(row.low):
        return []
    names = slots.devices(row, [(start, end) for start, end, _ in context.names.find(row.low)])
    return likewise.told(row.low, names, said, [code.start for code in row.finds.codes])


def _of_a_code(row: Row, hit: Spoken) -> bool:
    """Whether an answer only goes on with the description of a code ("U0100 no communication with engine")."""
    before = bisect_right(row.finds.codes, hit.start, key=lambda code: code.end)
    if not before:
        return False
    return _BREAK.search(row.low, row.finds.codes[before - 1].end, hit.start) is None or is_title(row, hit)


def _of_a_name(context: Context, row: Row, hit: Spoken) -> bool:
    """Whether the name of a module that opens its clause leads to an answer with a mark: "..., Radio - Timeout", as
    German writes its nouns."""
    lead = _NAME_MARK.search(row.low, 0, hit.start)
    if lead is None or not row.finds.codes or row.finds.codes[0].start > hit.start:
        return False
    return context.names.listed(tidy(row.text[lead.start(1) : lead.end(1)]))


def is_title(row: Row, hit: Spoken) -> bool:
    """Whether an answer is the description in a cell of its own ("U0126, stored, No data from steering angle")."""
    lead = row.text[: hit.start].rstrip()
    if not lead.endswith((",", "-", ";", "/")):
        return False
    return row.text[hit.start].isupper() and not row.text[hit.start : hit.end].isupper()


def answers_in(row: Row) -> list[Spoken]:
    """The answers of a row. Beside a code "not present" is its status."""
    hits = spoken(row.low)
    if not row.finds.codes:
        return list(hits)
    return [hit for hit in hits if states.of_cell(row.low[hit.start : hit.end]) is None
            and not codetexts.of_work(row.low, hit.start)]


def _unlisted(context: Context, row: Row, clause: Clause) -> tuple[int, int] | None:
    """A subject that is not listed as it stands: what comes before "has", "shows", a colon, or an answer."""
    facts = [code.start for code in clause.codes] + [hit.start for hit in clause.answers]
    if not facts:
        return None
    lead = row.low[clause.start : min(facts)]
    says = _SAYS.search(lead) or (_HAS.search(lead) if context.translated else None)
    if says is None and (clause.codes or not clause.answers):
        return None
    text = row.text[clause.start : clause.start + (says.start() if says is not None else len(lead))]
    if says is not None and not _CAME.isdisjoint(plain_words(says[0])) and _FROM.match(small(text)) is None:
        # "Only these came: U0100"
        return None
    if says is not None and says[0].strip()[:1].isalpha():
        # "In the head unit I got U0100"
        text = _WHO.sub("", text)
    if says is not None and ": " in text:
        # "After clearing: the cab shows": what stands before the colon is no part of the name.
        text = text[text.rindex(": ") + 2 :]
    text = _NEITHER.sub("", _THE_ONE.sub("", text))
    printed = tidy(without_links(text) if says is None else strip_links(untried(text)))
    if not printed and says is not None and text.rstrip()[-3:].lower() == "ecu":
        # "In the ECU I get P0562"
        printed = text.rstrip()[-3:]
    if (")" in printed and "(" not in printed) or printed[:1] == "(":
        # The rest of a description: "(heater open) in history, U1113"
        return None
    if not printed or len(printed.split()) > 6 or len(printed) > 60 or not any(c.isalpha() for c in printed):
        return None
    if all(word in _NO_SUBJECT for word, _, _ in words(small(printed))):
        return None
    if role_of(small(printed), exactly=True) in NO_MODULES and not context.names.listed(printed):
        # "C0035, state: stored", "Supply: none"
        return None
    if leads.is_lead(small(text)):
        # "Stored codes (2):", "En mémoire :" are said of the codes behind them.
        return None
    start = row.text.find(printed, clause.start)
    if start < 0 or any(name[0] <= start and start + len(printed) <= name[1] for name in clause.names):
        return None
    inside = [name for name in clause.names if start <= name[0] and name[1] <= start + len(printed)]
    edges = [(0, start), *inside, (start + len(printed), 0)] if inside else []
    if any(subjects.ANOTHER.match(row.low, first[1], second[0]) for first, second in pairwise(edges[1:])):
        # "Towbar and radio are fine"
        return None
    if says is not None and _FOUND.match(says[0]) and context.names.score(printed) < 60.0:
        # "In the workshop I found P0301", "Yesterday we found": only what is written as a name is one.
        opens = start == clause.start + len(text) - len(text.lstrip(" .,;"))
        if not any(word.isupper() or (word[0].isupper() and not opens) for word in printed.split()):
            return None
    if context.names.score(printed) < 60.0:
        if any(name[0] < min(facts) for name in clause.names) or (clause.names and not is_subject(small(printed))):
            return None
        if phases.find(small(printed)) is not None or is_other(small(printed), coded=bool(says and clause.codes)):
            return None
        if says is None and (clause.names or not unknown.ends_as_name(printed)):
            return None
        if _is_message(printed):
            return None
    return start, start + len(printed)


def _is_message(text: str) -> bool:
    """Whether what stands before a colon is how the text came: "voice memo: okay, full scan"."""
    return not _MESSAGES.isdisjoint(word for word, _, _ in words(small(text)))


def _is_begun(context: Context, row: Row, hit: Spoken) -> bool:
    """Whether "ok" behind a colon is how somebody begins to speak: "phone call: ok so the engine has P0562"."""
    lead = row.text[: hit.start].rstrip()
    behind = _OK.match(row.low, hit.start)
    if behind is None or not lead.endswith(":") or behind[1] in _GOES_ON:
        return False
    name = tidy(_STOPS.split(lead)[-1])
    return _is_message(name) or not (context.names.score(name) >= 60.0 or unknown.is_short(name))


