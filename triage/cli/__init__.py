"""The command line: ``triage``. Heavy imports stand inside the commands, so that help stays quick."""

from __future__ import annotations

from triage.cli.main import app, main

__all__ = ["app", "main"]
