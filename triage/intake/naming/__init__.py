"""Names of modules and of columns."""

from __future__ import annotations

from collections.abc import Callable

#: Tells whether a text is the name of a module, as whoever asks takes one for it.
IsName = Callable[[str], bool]
