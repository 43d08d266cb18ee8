"""Time grows in proportion to the text, whatever stands in one line."""

from __future__ import annotations

import time

import pytest

from code_tables import load
from triage.intake.read import read_text

UNITS = {
    "codes": "P0562 stored, ",
    "modules and codes": "ECM P0562-16 stored; ",
    "sentences": "cluster has U0100 and U0140 stored, brakes did not answer. ",
    "spaces": " ",
    "a letter": "a",
    "an accent": "é",
    "foreign letters": "Р",
    "digits": "1",
    "dates": "03/04/2025 ",
    "volts": "12.4 V ",
    "unitless volts": "battery 11 ",
    "bars": "|",
    "cells": "ECM | P0562 | stored | ",
    "commas": "P0562,",
    "quotes": '";',
    "brackets": "(",
    "heavy": "SPN 168 FMI 4 ",
    "impossible codes": "X0300 ",
    "short codes": "P056 ",
    "connectors": "connectors C0123 and C0124, ",
    "answers": "ABS no response, ",
    "bytes": "59 02 FF ",
    "keys": "Module: ECM, Code: P0562, Status: stored; ",
    "gaps": "P0562  ",
    "mentions": "see P0562 and ",
    "slips": "PO",
    "links": "and ",
    "tags": "<td>",
    "joined marks": "e\u0301",
    "ligatures": "\ufb01",
}


def seconds(text: str) -> float:
    start = time.process_time()
    read_text(text, load())
    return time.process_time() - start


@pytest.mark.parametrize("name", sorted(UNITS))
def test_a_long_line_takes_time_in_proportion_to_its_length(name: str) -> None:
    unit = UNITS[name]
    seconds("ECM P0562")
    short = min(seconds((unit * (20_000 // len(unit) + 1))[:20_000]) for _ in range(2))
    long = min(seconds((unit * (100_000 // len(unit) + 1))[:100_000]) for _ in range(2))
    # Five times the text: five times the time, or anything below a fifth of a second. A pattern that backtracks takes
    # twenty-five times as long.
    assert long < max(0.4, 12 * short)
