"""The names in a sentence: listed ones that are no part of a description, and those that the grammar leaves room for.

A name that no table lists is taken in front of a verb or a colon ("crane interface has P0562"), behind a word that
leads to one ("P0562 in the crane interface"), and where it is joined to a listed one.
"""

from __future__ import annotations

from triage.intake import dates, engine_state, phases, volts
from triage.intake.answers import Spoken, spoken, takes_object, without_links
from triage.intake.characters import has_letter
from triage.intake.clause_words import (
    ARTICLES,
    BACK_FILL,
    CIRCUMFIX,
    COMMS,
    COUNT_TAIL,
    COUNTED,
    DOES,
    JOINED_BEFORE,
    LEADS_IN,
    LED,
    LIGHT,
    NAME_JOIN,
    NO_NAME,
    NOT_ALONE,
    OF,
    PIECE,
    PIECE_MARK,
    SAYS,
    SLOT_END,
    THROUGH,
    clause_end,
    strong,
)
from triage.intake.context import Context
from triage.intake.layouts import Row
from triage.intake.linking import strip_links
from triage.intake.names import tidy
from triage.intake.near import small
from triage.intake.phrases import WORD, covered
from triage.intake.vocabulary import STATES
from triage.intake.volt_words import LABEL

Span = tuple[int, int]
#: How far a word that leads to a name may stand from what it belongs to, and how long a name's place may be.
NEAR = 48
FAR = 90
#: How many codes and answers of a sentence are looked at for a subject that is not listed.
_MOST = 60


class Sentence:
    """One row: ``spans`` of its names, ``codes``, ``answers``; ``about``: where it speaks of the scan as a whole."""

    def __init__(self, context: Context, row: Row) -> None:
        self.context, self.row, self.low, self.text = context, row, row.low, row.text
        self.codes = list(row.finds.codes)
        self.taken = bytearray(len(self.low) + 1)
        for code in self.codes:
            self._take(code.start, code.end)
        self.about = self._about()
        self.answers = [
            hit
            for hit in spoken(self.low)
            if not self._is_taken(hit.start, hit.end)
            and not any(start <= hit.start < end for start, end in self.about)
            and not self._beside_a_code(hit)
        ]
        for hit in self.answers:
            self._take(hit.start, hit.end)
        self.spans: list[Span] = []

    def find(self) -> None:
        """Find the names, and the answers around names."""
        self._listed()
        self._circumfixes()
        for code in self.codes:
            self._led_to(code.end)
        for hit in self.answers:
            self._object(hit)
        places = sorted([*(code.start for code in self.codes), *(hit.start for hit in self.answers)])
        for place in places[:_MOST]:
            self._subject(place)
        self._joined_before()

    def _take(self, start: int, end: int) -> None:
        self.taken[start:end] = b"\1" * (end - start)

    def _is_taken(self, start: int, end: int) -> bool:
        return 1 in self.taken[start:end]

    def _beside_a_code(self, hit: Spoken) -> bool:
        """Whether the wording of an answer is part of a code's entry: its status ("not present"), or what it says
        ("U0151 - no response from the airbag module")."""
        before = self.low[max(0, hit.start - NEAR) : hit.start]
        last = max((code.end for code in self.codes if code.end <= hit.start), default=-1)
        if last < 0:
            return False
        whole = STATES.find(self.low[hit.start : hit.end])
        if (
            whole
            and covered(self.low[hit.start : hit.end], whole, BACK_FILL)
            and before.rstrip().endswith((",", "(", "-", ":"))
            and not strong(self.low, last, hit.start)
        ):
            # "found P2555 in the engine module, not present"
            return True
        if hit.start - last > NEAR:
            return False
        between = before[len(before) - (hit.start - last) :]
        if "," in between or strong(self.low, last, hit.start):
            return False
        hits = STATES.find(self.low[hit.start : hit.end])
        if hits and covered(self.low[hit.start : hit.end], hits, BACK_FILL):
            return True
        states = STATES.find(between)
        return not states and covered(between, (), BACK_FILL)

    def _about(self) -> list[Span]:
        """Where the sentence speaks of the scan and not of modules: phases, dates, the engine's state, voltages."""
        low = self.low
        found = engine_state.spans(low)
        hit = phases.find(low) if len(low) <= 600 and "  " not in low else None
        if hit is not None:
            colon = low.find(":", hit.end, hit.end + 24)
            rest = low[hit.end : colon] if colon >= 0 else ","
            found.append((hit.start, hit.end if "," in rest or "." in rest or ";" in rest else colon + 1))
        found += [(stamp.start, stamp.end) for stamp in dates.find(self.text, self.context.order)]
        for volt in volts.find(low):
            start = volt.start
            for label in LABEL.finditer(low, max(0, volt.start - 40), volt.start):
                if not PIECE.search(low, label.end(), volt.start):
                    start = min(start, label.start())
            found.append((start, volt.end))
        return found

    def _listed(self) -> None:
        """Listed names that are no part of a description or of the scan's own facts."""
        for start, end, sure in self.context.names.find(self.low):
            start, end = self._within(start, end)
            if self._is_taken(start, end) or any(begin < end and start < stop for begin, stop in self.about):
                continue
            lead = self.low[max(0, start - 60) : start]
            through = THROUGH.search(lead)
            if (
                through is not None
                and COMMS.search(lead[: through.start()].rstrip())
                and not any(hit.end >= start - len(lead) and hit.end <= start for hit in self.answers)
            ):
                continue
            if sure or self._acts(start, end):
                self.spans.append((start, end))

    def _within(self, start: int, end: int) -> Span:
        """A listed name without what only stands beside it: "gateway, 11", "rear right, power steering"."""
        head, comma, tail = self.low[start:end].partition(",")
        if comma and tail.strip()[:1].isdigit():
            return start, start + len(head)
        if comma:
            behind = self.low[end - len(tail.lstrip()) : end + 40]
            ahead = self.context.names.find(behind)
            if ahead and ahead[0][0] == 0 and ahead[0][1] > len(tail.strip()):
                # "control unit, left blind spot": the side belongs to what follows.
                self.spans.append((start, start + len(head)))
                return end - len(tail.lstrip()), end - len(tail.lstrip()) + ahead[0][1]
        if comma and self.context.names.listed(tidy(tail)):
            # "rear right, power steering", "radio, amplifier"
            if self.context.names.listed(head):
                self.spans.append((start, start + len(head)))
            return end - len(tail.lstrip()), end
        count = COUNT_TAIL.search(self.low, start, end)
        if count is not None and COUNTED.match(self.low, end):
            return start, count.start()
        return start, end

    def _acts(self, start: int, end: int) -> bool:
        """Whether a plain word ("brakes") does something here: a verb, an answer, a code or a colon follows, or a word
        leads to it."""
        low = self.low
        if DOES.match(low, end) or LED.search(low[max(0, start - 24) : start]):
            return True
        if self.spans and start - self.spans[-1][1] <= 12 and NAME_JOIN.fullmatch(low, self.spans[-1][1], start):
            return True
        follows = next((hit.start for hit in self.answers if hit.start >= end), -1)
        return 0 <= follows - end <= 24 and LIGHT.fullmatch(low, end, follows) is not None

    def _circumfixes(self) -> None:
        """Names inside an answer: "no gateway fitted", "no ABS codes", "kein Anhängersteuergerät verbaut"."""
        for match in CIRCUMFIX.finditer(self.low):
            start, end = match.span("name")
            if self._is_taken(match.start(), match.end()):
                continue
            printed = tidy(self.text[start:end])
            if self.context.names.score(printed) < 60.0 and match["fit"] is None:
                continue
            meaning = "not fitted" if match["fit"] else "clean" if match["codes"] else "silent"
            self.spans = [span for span in self.spans if span[1] <= start or span[0] >= end]
            self.spans.append((start, end))
            self._take(match.end("name"), match.end())
            self.answers.append(Spoken(meaning, match.end("name"), match.end(), False))
        self.answers.sort(key=lambda hit: hit.start)

    def _led_to(self, end: int) -> None:
        """A name that no table lists behind a code and "in": "found P0562 in the crane interface"."""
        window = self.low[end : end + NEAR + 12]
        match = LEADS_IN.search(window)
        if match is None:
            return
        # "in memory", "en attente": the word is part of a status.
        if any(hit.start <= match.start() < hit.end for hit in STATES.find(window)):
            match = LEADS_IN.search(window, match.end())
        if match is not None and self.clear(end, end + match.start()):
            self._slot(end + match.end())

    def clear(self, start: int, end: int) -> bool:
        """Whether nothing but status words and links stands between two places."""
        between = self.low[start:end]
        return (
            not self._is_taken(start, end)
            and not strong(self.low, start, end)
            and covered(between, STATES.find(between), BACK_FILL)
        )

    def _object(self, hit: Spoken) -> None:
        """A name behind an answer that no table lists."""
        place = self.object_place(hit)
        if place is not None:
            self._slot(place)

    def object_place(self, hit: Spoken) -> int | None:
        """Where the name that an answer leads to starts, None where it leads to none."""
        low = self.low
        match = OF.match(low, hit.end)
        if match is None and takes_object(low, hit):
            match = ARTICLES.match(low, hit.end)
        return match.end() if match is not None and match.end() < len(low) else None

    def _slot(self, start: int) -> None:
        """The name whose place starts here: a longer one than the listed one where that is a name too."""
        stop = SLOT_END.search(self.low, start, start + FAR)
        end = stop.start() if stop is not None else min(len(self.low), start + FAR)
        taken = self.taken.find(1, start, end)
        end = taken if taken >= 0 else end
        whole = PIECE_MARK.search(self.low, start, start + FAR)
        longer = tidy(self.text[start : whole.start() if whole is not None else start + FAR])
        if len(longer) > end - start and self.context.names.listed(longer.replace("&", "and")):
            # "Heating & A/C": the joint is part of the name.
            self._fill(start, start + len(longer), None, sure=True)
            return
        listed = next((span for span in self.spans if span[0] <= start < span[1] or span[0] == start), None)
        state = next((hit.start for hit in STATES.find(self.low[start:end]) if hit.start), None)
        if state is not None and (listed is None or start + state >= listed[1]):
            end = start + state
        self._fill(start, end, listed, sure=False)

    def _fill(self, start: int, end: int, listed: Span | None, *, sure: bool) -> None:
        """Take ``start``..``end`` as a name: where it is one by its words, or where none is listed there."""
        printed = tidy(strip_links(self.text[start:end]) if listed is None else self.text[start:end])
        if not printed or len(printed) > 60 or not has_letter(printed):
            return
        begin = self.text.find(printed, start)
        if begin < 0 or (listed is not None and listed[0] <= begin and begin + len(printed) <= listed[1]):
            return
        names = self.context.names
        if names.score(printed) < 60.0:
            if listed is None:
                if not (sure or _may_be_a_name(printed)):
                    return
            elif names.match(printed).canonical != names.match(tidy(self.text[slice(*listed)])).canonical:
                return
        stop = begin + len(printed)
        self.spans = [span for span in self.spans if span[1] <= begin or span[0] >= stop]
        self.spans.append((begin, stop))

    def _subject(self, place: int) -> None:
        """A subject that is not listed as it stands: what comes before "has", "shows", a colon, or an answer."""
        low = self.low
        first = max(0, place - FAR)
        first = max(first, self.taken.rfind(1, first, place) + 1)
        first = max([first, *(end for start, end in self.about if start < place and end <= place)])
        for match in PIECE.finditer(low, first, place):
            inside = any(start < match.end() and match.start() < end for start, end in self.spans)
            if not inside and not (match[0] == "." and clause_end(low, match.start(), match.end() + 1) < 0):
                first = match.end()
        lead = low[first:place]
        says = SAYS.search(lead)
        if says is not None and not self.context.translated and says[0].split()[0] == "a":
            # An article, and no verb.
            says = None
        if says is None and any(found.start == place for found in self.codes):
            return
        stop = first + (says.start() if says is not None else len(lead))
        first = max(first, low.rfind(": ", first, stop) + 2 if ": " in low[first:stop] else first)
        text = self.text[first:stop]
        printed = tidy(strip_links(text) if says is not None else without_links(text))
        begin = self.text.find(printed, first) if printed else -1
        end = begin + len(printed)
        if begin < 0 or len(printed.split()) > 6:
            return
        listed = next((span for span in self.spans if span[0] < end and begin < span[1]), None)
        sure = (says is not None or self._joined_to(first)) and _may_be_a_name(printed)
        self._fill(begin, end, listed, sure=sure)

    def _joined_to(self, place: int) -> bool:
        """Whether a listed name is joined to what follows here: "ABS and brkaes did not answer"."""
        return any(end <= place and NAME_JOIN.fullmatch(self.low, end, place) for _, end in self.spans)

    def _joined_before(self) -> None:
        """Names that no table lists in front of listed ones: "emgine module and BCM did not respond"."""
        for start, _ in list(self.spans):
            match = JOINED_BEFORE.search(self.low, max(0, start - 60), start)
            if match is None or self._is_taken(match.start(1), match.end(1)):
                continue
            if any(span[0] < match.end(1) and match.start(1) < span[1] for span in self.spans + self.about):
                continue
            self._fill(match.start(1), match.end(1), None, sure=False)


def _may_be_a_name(printed: str) -> bool:
    """Whether words that no table lists can be a module's name where the grammar asks for one."""
    parts = WORD.findall(small(printed))
    return (
        1 <= len(parts) <= 4
        and not any(part in NO_NAME for part in parts)
        and not all(part in NOT_ALONE or part.isdigit() for part in parts)
        and any(c.isalpha() for c in parts[0])
    )
