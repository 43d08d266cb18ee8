"""A fault that an earlier session of the vehicle held too: it speaks for one that persists, never against one.

What was likely to persist then and is here again was not repaired, or the repair did not hold. What was set aside
then and is here again may be an intermittent that had its pause. Low supply can bring back the same noise as well, so
the odds rise by a few times only, and absence in either session never lowers them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from triage.model.casebook import Casebook, Recurrence
from triage.model.earlier import EarlierFault

if TYPE_CHECKING:
    from code_tables import Tables


def recurrences(
    book: Casebook, earlier: Sequence[EarlierFault], tables: Tables, canonical: Callable[[str], str],
) -> dict[int, Recurrence]:
    """Fault of the one session of ``book`` -> what the earlier sessions, oldest first, say of it."""
    past: dict[tuple[str, str], list[EarlierFault]] = {}
    for entry in earlier:
        past.setdefault((canonical(entry.module), entry.code.upper()), []).append(entry)
    most, aside = tables.rate("earlier.persisted"), tables.rate("earlier.returned")
    told: dict[int, Recurrence] = {}
    for fault in range(book.faults):
        name = canonical(book.module_name[book.fault_module[fault]])
        kind = book.failure_type[fault]
        same = [entry for entry in past.get((name, book.code[fault].upper()), ())
                if None in (kind, entry.failure_type) or kind == entry.failure_type]
        if same:
            likeliest = max(same, key=lambda entry: entry.persists)
            hard = 1.0 + (most - 1.0) * likeliest.persists
            told[fault] = Recurrence(
                f"the session of {likeliest.session} held it too"
                f"{'' if likeliest.persists >= 0.5 else ', and thought it gone'}",
                hard, max(hard, aside))
    return told

