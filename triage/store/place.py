"""Where the store is: the user's data folder by the rules of the platform, a file, or a database URL."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from pathlib import Path

FOLDER = "lowvolt-triage"
FILE = "sessions.db"


def default_path(
    environ: Mapping[str, str] | None = None, platform: str | None = None, home: Path | None = None,
) -> Path:
    """The file of the default store, whether it exists or not.

    Unix: ``$XDG_DATA_HOME``, else ``~/.local/share`` (a relative value is ignored, as the XDG Base Directory
    Specification wants). macOS: ``~/Library/Application Support``. Windows: ``%LOCALAPPDATA%``, else
    ``~/AppData/Local``. The arguments stand in for the machine's own values.
    """
    environ = os.environ if environ is None else environ
    platform = sys.platform if platform is None else platform
    home = Path.home() if home is None else home
    if platform == "win32":
        base = Path(environ.get("LOCALAPPDATA") or home / "AppData" / "Local")
    elif platform == "darwin":
        base = home / "Library" / "Application Support"
    else:
        given = Path(environ.get("XDG_DATA_HOME") or "")
        base = given if given.is_absolute() else home / ".local" / "share"
    return base / FOLDER / FILE


def is_url(place: str) -> bool:
    """Whether ``place`` is a database URL rather than the name of a file."""
    return "://" in place
