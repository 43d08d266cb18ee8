"""What a failure type and a printed text say of the cause, and codes that work at another module sets.

Source of each expectation: common practice, unless a test says otherwise. All sessions are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, RUNS, code, job, tables, van

from triage.assess import verdicts
from triage.model.session import Session


def fault(session: Session, text: str, module: str) -> dict[str, Any]:
    (verdict,) = verdicts([session], tables())
    return next(dict(entry) for entry in verdict["faults"] if (entry["code"], entry["module"]) == (text, module))


def causes(failure_type: str) -> dict[str, float]:
    """Of B1244 with ``failure_type``, seen on a flat battery and not after the clear."""
    entry = code("B1244", failure_type=failure_type)
    session = job(van("before-clear", {"body control": [entry]}, **FLAT), van("after-clear", **HELD))
    return fault(session, "B1244", "body control")["causes"]  # type: ignore[no-any-return]


@pytest.mark.parametrize("failure_type", ["26", "29", "38", "62", "64", "77", "92", "97"])
def test_low_supply_hardly_sets_what_compares_signals_or_watches_a_part_move(failure_type: str) -> None:
    # Monitors may be switched off below 11.0 V: 40 CFR 86.010-18 (i)(5)(iv)(A). Categories: SAE J2012DA.
    assert causes(failure_type)["low-voltage"] < causes("13")["low-voltage"] - 0.1 < causes("16")["low-voltage"] - 0.1


@pytest.mark.parametrize(("failure_type", "steady"), [("1F", "13"), ("2F", "29")])
def test_a_type_that_says_intermittent_says_what_its_module_saw(failure_type: str, steady: str) -> None:
    # 1F circuit intermittent, 2F signal erratic: SAE J2012DA.
    assert causes(failure_type)["intermittent"] > 3 * causes(steady)["intermittent"]


def test_a_makers_number_follows_the_module_its_text_names() -> None:
    reports: dict[str, Any] = {"body control": [code("60931") | {"text": "no communication with the brake module"}],
                              "instrument cluster": ["U0121"], "engine control": ["U0121"]}
    quiet = ("anti-lock brakes",)
    shots = [van("before-clear", reports, silent=quiet, **FLAT), van("after-clear", reports, silent=quiet, **HELD),
             van("after-run", reports, silent=quiet, **RUNS)]
    found = fault(job(*shots), "60931", "body control")
    assert found["explained_by"] == "anti-lock brakes"
    assert found["causes"]["hard"] > 0.9


def test_a_makers_invalid_data_is_an_echo_of_the_module_its_text_names() -> None:
    held: dict[str, Any] = {"anti-lock brakes": ["C0051"],
                            "body control": [code("60932") | {"text": "Ung\u00fcltige Daten von ABS"}]}
    plain: dict[str, Any] = {**held, "body control": [code("60932") | {"text": "door contact"}]}
    for told, least, most in ((held, 0.9, 1.0), (plain, 0.0, 0.1)):
        session = job(van("before-clear", told, **FLAT), van("after-clear", told, **HELD),
                      van("after-run", told, **RUNS))
        assert least <= fault(session, "60932", "body control")["causes"]["echo"] <= most


@pytest.mark.parametrize("text", ["function off, see the brake module", "Fehlerspeicher des ABS auslesen"])
def test_a_makers_pointer_is_an_echo_of_the_module_its_text_names(text: str) -> None:
    held: dict[str, Any] = {"anti-lock brakes": ["C0051"], "body control": [code("60933") | {"text": text}]}
    session = job(van("before-clear", held, **FLAT), van("after-clear", held, **HELD), van("after-run", held, **RUNS))
    found = fault(session, "60933", "body control")
    assert found["causes"]["echo"] > 0.9
    assert found["explained_by"] == "anti-lock brakes C0051"
    # In the list of the module that it names it points nowhere.
    own: dict[str, Any] = {"anti-lock brakes": ["C0051", *held["body control"]]}
    session = job(van("before-clear", own, **FLAT), van("after-clear", own, **HELD), van("after-run", own, **RUNS))
    assert fault(session, "60933", "anti-lock brakes")["causes"]["echo"] < 0.1


def new_after(*events: dict[str, Any], phase: str = "after-run") -> float:
    """The share of history for a code that is first seen in the last scan, at good supply."""
    session = job(van("before-clear", **FLAT), van("after-clear", **HELD),
                  van(phase, {"instrument cluster": ["B1244"]}, **RUNS), events=list(events))
    return float(fault(session, "B1244", "instrument cluster")["causes"]["history"])


def test_work_at_one_module_sets_codes_in_others() -> None:
    work = {"what": "actuator test", "module": "engine control"}
    print(new_after(), new_after(work), new_after(phase="after-repair"))
    assert new_after() < 0.01 < 0.05 < new_after(work)
    assert new_after(phase="after-repair") > 0.05


def test_a_note_that_something_was_unplugged_is_work() -> None:
    at_it = {"what": "other", "module": "instrument cluster", "note": "unplugged to reach the fuse box"}
    assert new_after({**at_it, "note": "cleaned the screen"}) < 0.01 < 0.05 < new_after(at_it)


def test_a_restraint_code_that_stays_and_never_fails_again_may_be_a_record() -> None:
    # Bits 0 to 2 clear: not failing, in this cycle or the one before; bits 3 and 5 set: ISO 14229-1.
    def history(byte: int, module: str) -> float:
        held = {module: [code("B1244") | {"status_byte": byte}]}
        session = job(van("before-clear", held, **FLAT), van("after-clear", held, **HELD),
                      van("after-run", held, **RUNS))
        return float(fault(session, "B1244", module)["causes"]["history"])
    assert history(0x28, "restraints") > 3 * history(0x28, "body control")
    assert history(0x2F, "restraints") < 0.01
