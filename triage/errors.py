"""Every error the program raises on purpose.

::

    TriageError                 base of all below; the command line prints it in one line and exits 1
    +-- InputError              a file, stream or job can't be used at all (where, what was seen, what was expected)
    |   +-- JobError            a job object breaks the job-file contract (names the path of the key)
    +-- TableError              a row of a code table breaks its row model (names file, row and column)
    +-- StoreError              the store can't be opened, is of another version, or holds no such session

Text that a person typed or pasted never raises: the readers return notices instead.
"""

from __future__ import annotations


class TriageError(Exception):
    """Base class; ``str(error)`` is one line fit for standard error."""


class InputError(TriageError):
    """An input can't be used as a whole: empty, not text, too large, no scan in it."""


class JobError(InputError):
    """A job object breaks the contract; ``path`` names the key, for example ``snapshots.0.modules.2.codes``."""

    def __init__(self, message: str, path: str = "", job: str | None = None) -> None:
        super().__init__(message)
        self.path = path
        self.job = job


class TableError(TriageError):
    """A row of a code table can't be used."""


class StoreError(TriageError):
    """The store can't do what was asked; nothing already stored is lost."""
