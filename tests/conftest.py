"""Lets every test import what several folders share (tests/support), and nothing else of this folder.

The folder itself must stay off the path: its code_tables would hide the package of that name.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent / "support"))
