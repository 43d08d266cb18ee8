"""Short names in sentences that a hyphen joins to further letters: another module than the one without them.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import printed


@pytest.mark.parametrize(("text", "told"), [
    ("The PSM-L reports U3000 and B1317.", "PSM-L: U3000 B1317"),
    ("AUX-GEN and SRS ok, no codes.", "AUX-GEN: clean; SRS: clean"),
    ("ABS-ok. SRS has B0001.", "ABS: clean; SRS: B0001"),
    ("Das ABS-Steuergerät hat C0035.", "ABS-Steuergerät: C0035"),
])
def test_the_whole_name(text: str, told: str) -> None:
    assert printed(text) == told
