"""JSON is the verdict itself, as the job-file contract has it."""

from __future__ import annotations

import json
from typing import Any

from triage.model.verdict import Verdict


def verdict_json(verdict: Verdict, *, ledger: bool = False, indent: int | None = None) -> str:
    """The verdict as JSON without a line feed at the end; the sums of the faults only with ``ledger``."""
    said: dict[str, Any] = dict(verdict)
    if not ledger:
        said["faults"] = [{key: value for key, value in fault.items() if key != "ledger"}
                          for fault in verdict["faults"]]
    return json.dumps(said, ensure_ascii=False, indent=indent)


__all__ = ["verdict_json"]
