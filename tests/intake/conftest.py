"""The generator of pastes stands beside the tests that use it."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
