"""Two statuses beside each other: what fails now does, whatever the memory holds besides. All invented; source: the
bits of the status byte (testFailed, confirmedDTC) and common practice in the words for them."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


@pytest.mark.parametrize(("said", "status"), [
    ("[confirmed, test failed]", "current"), ("(stored, active)", "current"), ("[test failed, confirmed]", "current"),
    ("[pending; test failed]", "current"), ("stored - failing now", "current"), ("(bestätigt, aktiv)", "current"),
    ("[bestätigt, Test fehlgeschlagen]", "current"), ("(mémorisé / présent)", "current"),
    ("[confirmed] [test failed]", "current"), ("[confirmed, MIL on, test failed]", "current"),
    ("[confirmed]", "confirmed"), ("[confirmed, test not failed]", "confirmed"),
    # In memory, and said not to be failing now.
    ("[confirmed, not active]", "stored"), ("confirmed - not active", "stored"),
    ("[stored, not present]", "stored"),
])
def test_what_fails_now_outweighs_what_is_stored(said: str, status: str) -> None:
    (scan,) = read_text(f"PCM:\n P0633-00 Key not programmed {said}\n P0513-00 [confirmed]\n12.6 V", load()).snapshots
    (module,) = scan.modules
    assert [(code.code, code.status) for code in module.codes] == [("P0633", status), ("P0513", "confirmed")]
