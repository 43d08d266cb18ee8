"""Lets every test import what several folders share (tests/support), and nothing else of this folder.

The folder itself must stay off the path: its code_tables would hide the package of that name.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from hypothesis import settings

sys.path.insert(0, str(Path(__file__).parent / "support"))

# The same examples in every automated run: a search for new ones belongs to whoever can look at what it finds.
settings.register_profile("ci", derandomize=True, print_blob=True)
if os.environ.get("CI"):
    settings.load_profile("ci")
