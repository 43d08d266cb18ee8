"""The text behind a code, cell by cell or in one piece: status, failure type, counts, values, description.

>>> details = read_pieces(("System voltage low", "stored", "3x"), False, False, False, ())
>>> details.status, details.count, details.text
('stored', 3, 'System voltage low')
>>> read_pieces((" - circuit current low, not present",), True, False, False, ()).status
'stored'
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.pieces import Details, Legend, is_plain, soft_pieces, take, take_running, with_said
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.near import small
from triage.intake.words.vocabulary import STATES

#: How often a code was set, said last in its line: "active x25", "(3 times)", "past count: 31".
_COUNT_LAST = lazily(
    r"(?<=\S)[\s,;]+[(\[]?(?:x\s?([0-9]{1,3})|([0-9]{1,3})\s?(?:x|times|mal|fois|veces)|"
    r"(?:count|counter|occ|occurrences|freq|anzahl|haufigkeit|zahler|compteur|contador)\s?[:=]?\s?([0-9]{1,3}))[)\]]?$"
)
_STATUS_KEY = lazily(
    r"(?:^|(?<=[\s,;(\[-]))(?:(?:dtc|fault|code|present|current|actual|latest|aktueller)[ -])?"
    r"(?:status|state|condition|zustand|fehlerstatus|etat|statut|"
    r"estado)(?: (?:now|actuel|actual))?\s*[:=]\s*"
)
_PIECE_END = lazily(r"[,;|(\[]|\s-\s|\s\s")
#: How many statuses may be asked after in one line ("confirmed: yes, present: no").
_MOST_ASKED = 6
_COUNT_REACH = 16
_DENIES = lazily(r"\s*(?:not|no longer|nicht|non|pas|plus|no|ya no)\s")
_JOINTS = frozenset((" +", " &"))
_COUNT_ENDS = frozenset("0123456789)]xsl")


def read_pieces(texts: tuple[str, ...], has_type: bool, translated: bool, doubtful: bool, legend: Legend) -> Details:
    """Read the cells (or the one running text) behind a code.

    ``has_type``: the code brings its failure type; ``doubtful``: words that descriptions use too ("current") may be a
    status at the end of a text.
    """
    details = Details()
    following = True
    if len(texts) == 1:
        text = texts[0].rstrip()
        if text[-2:] in _JOINTS:
            # "... input power = sporadic + U0212": it only joins the next code.
            text = text[:-2]
        _take(details, text, following, has_type, False, translated, doubtful, legend)
        return details
    said = [states.of_cell(small(text), translated, legend) for text in texts]
    # A cell that is a status leaves no doubt about words of the description.
    settled = any(status is not None for status in said)
    for text, status in zip(texts, said, strict=True):
        if settled and is_plain(text) and (status is not None or (6 < len(text) <= 100 and not has_digit(text))):
            # The commonest cells: a status, or a description in words.
            if status is not None:
                details.status = with_said(details, status, small(text), translated)
            else:
                details.texts.append(text.strip(" ,;|"))
            following = False
            continue
        _take(details, text, following, has_type, settled, translated, doubtful, legend)
        following = following and not text.strip(" -:,;|")
    return details


def _take(
    details: Details,
    text: str,
    following: bool,
    has_type: bool,
    settled: bool,
    translated: bool,
    doubtful: bool,
    legend: Legend,
) -> None:
    """One cell, or running text: as a whole, else cut at soft marks, else its ends. ``settled``: the status stands in
    a cell of its own."""
    may_count = text[-1:] in _COUNT_ENDS and has_digit(text[-_COUNT_REACH:]) and details.count is None
    if may_count and (count := _COUNT_LAST.search(text)) is not None:
        details.count = int(next(number for number in count.groups() if number))
        text = text[: count.start()]
    if ":" in text or "=" in text or "?" in text:
        text = _keyed(details, text, translated, legend)
        settled = settled or details.status is not None
    low = small(text)
    parts = soft_pieces(text)
    if len(parts) > 1 and ("  " in text or ". " in text) and states.of_cell(low, translated, legend) is not None:
        # "not  present": two spaces inside a status are a slip; "z. Zt. nicht vorhanden": it is cut short.
        parts = parts[:1]
    said = _any_state([part for _, part in parts] if len(parts) > 1 else [low], translated, legend)
    if said and len(parts) > 1:
        parts = _whole_states(text, low, parts)
    if not settled and not said:
        if legend:
            text, low, parts = _by_letter(details, text, low, parts, legend)
        before = details.status
        text = take_running(details, text, low, translated, doubtful)
        if details.status is not before:
            low = small(text)
            parts = soft_pieces(text)
    if len(parts) <= 1:
        take(details, text, low, following, has_type, translated, legend)
        return
    texts = []
    for place, (start, part) in enumerate(parts[:40]):
        known = len(details.texts)
        take(
            details,
            part,
            low[start : start + len(part)],
            following and place == 0,
            has_type,
            translated,
            legend,
        )
        if len(details.texts) > known:
            texts.append(details.texts.pop())
    if texts:
        details.texts.append(", ".join([piece.strip(" ,;") for piece in texts]))
    if details.status is None and not settled:
        for place in range(len(texts) - 1, -1, -1):
            # "seat heater, current above threshold" starts with no status.
            take_running(details, texts[place], small(texts[place]), translated, doubtful, place == 0)


def _whole_states(text: str, low: str, parts: list[tuple[int, str]]) -> list[tuple[int, str]]:
    """The pieces with those as one that one wording holds together: "confirmed", "not active now"."""
    found = parts[:1]
    for start, part in parts[1:]:
        begin, end = found[-1][0], start + len(part.rstrip())
        begin += len(found[-1][1]) - len(found[-1][1].lstrip())
        hits = STATES.find(low[begin:end])
        if len(hits) == 1 and hits[0].end - hits[0].start == end - begin:
            found[-1] = begin, text[begin:end]
        elif _DENIES.match(low, start) is not None and _any_state((found[-1][1],), False, ()) and _any_state(
                (part,), False, ()):
            found[-1] = start, part  # "confirmed, not actvie": what is so now, with a slip in it
        else:
            found.append((start, part))
    return found


def _keyed(details: Details, text: str, translated: bool, legend: Legend) -> str:
    """Take a status behind its key ("Misfire Condition: stored"); what is left of the text. Nothing is surer."""
    low = small(text)
    for _ in range(_MOST_ASKED):
        asked = states.yes_or_no(low)
        if asked is None:
            break
        # What is true now says more than what is not.
        start, end, status = asked
        details.status = status if details.status in (None, "stored") and status is not None else details.status
        text = text[:start] + text[end:]
        low = low[:start] + low[end:]
    key = _STATUS_KEY.search(low)
    if key is None:
        return text
    for end in (len(low), *(match.start() for match in _PIECE_END.finditer(low, key.end()))):
        status = states.of_cell(low[key.end() : end], translated, legend)
        if status is not None:
            details.status = status
            return text[: key.start()] + text[end:]
    return text


def _by_letter(
    details: Details, text: str, low: str, parts: list[tuple[int, str]], legend: Legend
) -> tuple[str, str, list[tuple[int, str]]]:
    """Take a letter of the legend that stands last; what is left of the text."""
    head, _, last = low.rstrip(" .,;").rpartition(" ")
    status = dict(legend).get(last.strip("()[]"))
    if status is None or details.status is not None or not head or last.isdigit():
        # "Cylinder 1" names no status.
        return text, low, parts
    details.status = status
    text = text[: len(head)]
    return text, head, soft_pieces(text)


def _any_state(parts: Sequence[str], translated: bool, legend: Legend) -> bool:
    """Whether one of the pieces is a status as a whole."""
    return any(states.of_cell(small(part), translated, legend) is not None for part in parts)
