"""A module that others lose together at a good supply: its feed, ground and relay, shaken, come first (common
practice). All invented."""

from __future__ import annotations

from made_sessions import DRIVEN, HELD, Json, job, tables, van

from triage.assess import assess
from triage.model.assessment import Assessment

QUIET = HELD | {"outside_supply": "none"}
MISSED = {"anti-lock brakes": ["U0100"], "instrument cluster": ["U0100"]}


def found(after: dict[str, list[Json | str]], complaint: str = "cuts out over cobbles", **rest: Json) -> Assessment:
    shots = [van("before-clear", after, **QUIET), van("after-clear", **QUIET), van("after-run", **DRIVEN),
             van("after-run", after, **DRIVEN | rest)]
    return assess(job(*shots, events=[{"what": "cleared", "answer": "accepted"}], vehicle={"complaint": complaint}),
                  tables())


def sure(page: Assessment, text: str) -> float:
    return next(fault["decibans"] for fault in page.verdict["faults"] if fault["code"] == text)


def test_its_feed_shaken_is_the_first_check() -> None:
    page = found({"engine control": ["P0687"], **MISSED})
    first = page.next_checks[0]
    assert first["do"].startswith("measure feed and ground of engine control under load while connector")
    assert "as the complaint says" in first["do"]
    assert "P0687" in first["do"]
    assert not any(check["do"].startswith("test the circuit of engine control P0687") for check in page.next_checks)
    explained = {fault["explained_by"] for fault in page.verdict["faults"] if fault["code"] == "U0100"}
    assert explained == {"engine control P0687"}


def test_its_witnesses_do_not_count_against_it() -> None:
    assert sure(found({"engine control": ["P0687"], **MISSED}), "P0687") > sure(
        found({"engine control": ["P0687"]}), "P0687")


def test_a_sag_that_several_notice_is_no_feed_of_one() -> None:
    for other in ({"body control": ["U3003"]}, {"body control": ["U0121"]}):
        page = found({"engine control": ["P0687"], **MISSED, **other})
        assert not any("lost it together" in check["do"] for check in page.next_checks)
    page = found({"engine control": ["P0687"], **MISSED}, lowest_volts=8.4)
    assert not any("lost it together" in check["do"] for check in page.next_checks)


def test_three_who_miss_it_ask_for_its_feed_without_a_code_of_its_own() -> None:
    three = {**MISSED, "transmission control": ["U0100"]}
    assert found(three).next_checks[0]["do"].startswith("measure feed and ground of engine control")
    assert not any("lost it together" in check["do"] for check in found(MISSED).next_checks)


def test_nobody_shakes_what_fires_an_airbag() -> None:
    three = {name: ["U0151"] for name in ("anti-lock brakes", "instrument cluster", "body control")}
    check = next(check for check in found(three).next_checks if "lost it together" in check["do"])
    assert "shaken" not in check["do"]
    assert "qualified person" in str(check["gate"])
