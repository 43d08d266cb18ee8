"""The ledger: the sum for one fault, row by row, from prior to total.

Each row is the log odds that the fault persists after it minus before it, rounded so that the printed rows add up
to the printed total to the last decimal. The rows of one fault are not independent pieces (one unknown level and
one unknown rate run through all of them), so a row's figure holds in this order only.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.hypotheses import HARD, INTERMITTENT
from triage.evidence.parameters import KINDS
from triage.evidence.prior import EARLIER, READING, kinds
from triage.evidence.weigh import CURED
from triage.model.casebook import Casebook, Floats, Links
from triage.model.snapshot import PHASES, STATUS_WORDS
from triage.model.stored import kilometres_back, stored_words
from triage.model.verdict import LedgerRow
from triage.units import FLOOR

if TYPE_CHECKING:
    from triage.evidence.engine import Evidence

_SIGHT = {1: "seen", 0: "not seen", -1: "not readable"}


def ledgers(book: Casebook, link: Links, evidence: Evidence) -> list[list[LedgerRow]]:
    """One ledger a fault."""
    steps = [_log_odds(prior[:, HARD] + prior[:, INTERMITTENT], prior.sum(axis=1)) for prior in evidence.prior.steps]
    running, repaired = evidence.weighed.running, evidence.weighed.repaired
    # The weights of the readings come from other faults; they are in force from the first snapshot on.
    for k in range(1, running.shape[0]):
        # What a later repair cured persists until then.
        cured = np.where(repaired[:, k - 1], 0.0, running[k, :, CURED])
        steps.append(_log_odds(running[k, :, HARD] + running[k, :, INTERMITTENT] + cured, running[k].sum(axis=1)))
    sums = np.array(steps)
    cents = np.round(sums, 1)
    cents[-1] = np.round(evidence.decibans, 1)
    rows = np.round(np.diff(cents, axis=0, prepend=0.0), 1)
    kind, back = kinds(book, link), kilometres_back(book)
    later = len(evidence.prior.steps)
    result: list[list[LedgerRow]] = []
    for fault in range(book.faults):
        name = KINDS[kind[fault]]
        ledger: list[LedgerRow] = [{"what": f"before any sighting: {name} code", "decibans": _plain(rows[0, fault]),
                                    "source": f"rates: prior.{name}"}]
        for step, words in enumerate(evidence.prior.names, start=1):
            if evidence.prior.touched[step - 1][fault]:
                what, source = _relation(link, words, fault)
                ledger.append({"what": what, "decibans": _plain(rows[step, fault]), "source": source})
        session = int(book.fault_session[fault])
        for column in range(len(book.order[session])):
            ledger.append({"what": _what(book, fault, session, column, float(back[fault])),
                           "decibans": _plain(rows[later + column, fault]),
                           "source": f"snapshot {column + 1}; rates: level.{book.facts[fault].noise}, monitor "
                                     f"{book.facts[fault].monitor}"})
        result.append(ledger)
    return result


def _relation(link: Links, words: str, fault: int) -> tuple[str, str]:
    """What a step of the prior says of ``fault``, and where that comes from."""
    if words == READING:
        return link.contradictions[fault].what, link.contradictions[fault].source
    if words == EARLIER:
        return link.recurrences[fault].what, "earlier session; rates: earlier.persisted, earlier.returned"
    return words, "relations"


def _log_odds(part: Floats, whole: Floats) -> Floats:
    chance = np.clip(part / whole, FLOOR, 1.0 - FLOOR)
    return np.asarray(10.0 * np.log10(chance / (1.0 - chance)))


def _plain(value: float) -> float:
    """A float without a negative zero."""
    return float(value) + 0.0


def _what(book: Casebook, fault: int, session: int, column: int, back: float) -> str:
    phase = int(book.phase[session, column])
    parts = [PHASES[phase].replace("-", " ") if phase >= 0 else f"snapshot {column + 1}",
             _SIGHT[int(book.seen[fault, column])]]
    status = int(book.status[fault, column])
    if status >= 0:
        parts.append(STATUS_WORDS[status])
    if book.status_byte[fault, column] >= 0:
        parts.append(f"status {int(book.status_byte[fault, column]):02X} hex")
    own = book.module_volts[book.fault_module[fault], column]
    volts = own if not np.isnan(own) else book.volts[session, column]
    parts.append("supply unknown" if np.isnan(volts) else f"{volts:.1f} V")
    lowest = book.lowest[session, column]
    if not np.isnan(lowest):
        parts.append(f"lowest {lowest:.1f} V")
    frame = book.frame_volts[fault, column]
    if not np.isnan(frame):
        parts.append(f"freeze frame {frame:.1f} V")
    return ", ".join(parts if column or phase > 0 else [*parts, *stored_words(book, fault, back)])
