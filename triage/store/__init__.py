"""Sessions that are kept: SQLite in the user's data folder by default, PostgreSQL by URL.

The database parts need the extra ``store`` (SQLAlchemy, Alembic) and are imported when first used; the rest
(comparing sessions, guessing a phase, learning from outcomes, calibration) needs nothing beyond the model.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from triage.errors import StoreError
from triage.model.phases import Guess, guess_phase
from triage.store.calibration import Calibration, band, calibration, percentage
from triage.store.compare import Comparison, PastFault, compare_sessions, past_faults
from triage.store.outcomes import STRENGTH, Counts, UpdatedRate, beta_update, forecasts, prior_keys
from triage.store.place import default_path

if TYPE_CHECKING:
    from triage.store.store import Store

__all__ = [
    "STRENGTH", "Calibration", "Comparison", "Counts", "Guess", "PastFault", "UpdatedRate", "band", "beta_update",
    "calibration", "compare_sessions", "default_path", "forecasts", "guess_phase", "open_store", "past_faults",
    "percentage", "prior_keys",
]


def open_store(place: str | Path | None = None, now: Callable[[], datetime] | None = None) -> Store:
    """Open the store at ``place``: a file or a database URL; None: the user's data folder.

    It is made or migrated as needed; ``now`` stands in for the clock. Close it, or use it in a ``with`` block.
    Raises StoreError with one line: not reachable, written by a newer version, not a store, or an extra missing.
    """
    try:
        from triage.store.store import Store

        return Store(place, now)
    except ModuleNotFoundError as error:
        if (error.name or "").partition(".")[0] in ("sqlalchemy", "alembic"):
            raise StoreError(f"the store needs {error.name}: pip install 'lowvolt-triage[store]'") from error
        raise
