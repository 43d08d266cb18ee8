"""Modules that were silent together at a good supply and answer again are a fault that came and went (common practice).
All invented."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, Json, code, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

NOW = {"status": "current"}
BEHIND = ("gateway", "door, front left", "climate control")


def page(state: Json = HELD, by: tuple[str, ...] = ("engine control", "anti-lock brakes"), **rest: Any) -> Assessment:
    holders = ("engine control", "anti-lock brakes", "restraints")
    first = snapshot("before-clear", *(scan(name, *([code("U0146", **NOW)] if name in by else [])) for name in holders),
                     *(scan(name, responds=False) for name in BEHIND), **state)
    return assess(job(first, snapshot("after-clear", *(scan(name) for name in (*holders, *BEHIND)), **HELD), **rest),
                  tables())


def test_it_stands_on_the_list_though_no_code_came_back() -> None:
    (root,) = page().short_list
    assert root.title.startswith("gateway, door, front left and climate control drop off the network together")
    assert "ground and plug of the gateway, the gateway itself" in root.title
    assert "2 modules reported their loss meanwhile: engine control, anti-lock brakes" in root.why
    assert any("prove nothing" in reason for reason in root.why)


@pytest.mark.parametrize("found", [
    {"state": FLAT}, {"by": ("engine control",)},
    {"events": [{"what": "replaced", "module": name} for name in BEHIND]}], ids=["low", "one misses it", "mended"])
def test_at_a_low_supply_missed_by_one_or_mended_since_it_does_not(found: dict[str, Any]) -> None:
    assert not any("drop off" in root.title for root in page(**found).short_list)
