"""The public face of intake: pasted text, or the bytes of a file, to snapshots with notices.

>>> from code_tables import load
>>> reading = read_text("cluster has U0100 and U0140 stored, brakes did not answer, battery 10.7", load())
>>> [(module.module, module.responds, [code.code for code in module.codes]) for module in reading.snapshots[0].modules]
[('instrument cluster', True, ['U0100', 'U0140']), ('anti-lock brakes', False, [])]
>>> reading.snapshots[0].volts
10.7
"""

from __future__ import annotations

from triage.intake.files import read_bytes
from triage.intake.text import Reading, read_text

__all__ = ["Reading", "read_bytes", "read_text"]
