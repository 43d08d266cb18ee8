"""Verdicts, outcomes, and what is learned from them. Arithmetic is held against scipy and scikit-learn."""

import random
from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.errors import StoreError
from triage.model.session import Event
from triage.model.snapshot import CodeEntry, ModuleScan, Snapshot
from triage.model.verdict import CAUSES
from triage.store.calibration import band, brier, calibration, percentage, reliability
from triage.store.outcomes import Counts, beta_update, forecasts, prior_keys
from triage.store.rows import Outcome
from triage.store.store import Store
from triage.units import to_decibans

FORECASTS = st.lists(st.tuples(st.floats(0.0, 1.0), st.booleans()), min_size=1, max_size=60)


def verdict(*faults: tuple[str, str, str | None, float, str]) -> dict:
    """A verdict with the parts that an outcome looks at."""
    return {"job": "van", "faults": [
        {"module": module, "code": code, "failure_type": kind, "decibans": to_decibans(chance), "standing": standing,
         "causes": {"hard": chance, "history": 1 - chance}} for module, code, kind, chance, standing in faults]}


@pytest.fixture
def van(store: Store) -> Store:
    """A store with one session of three faults."""
    store.open_session("van")
    store.add_paste("van", "x", [Snapshot(phase=None, modules=[
        ModuleScan(module="engine control", printed="ECM", codes=[
            CodeEntry(code="P0118"), CodeEntry(code="P0562", failure_type="16"),
            CodeEntry(code="P0562", failure_type="17")]),
        ModuleScan(module="gateway", codes=[CodeEntry(code="U0100", failure_type="00")])])])
    return store


def test_outcome_keeps_what_the_verdict_said(van: Store) -> None:
    van.save_verdict("van", verdict(("engine control", "P0118", None, 0.4, "unsettled")), "0.1", "t1")
    van.save_verdict("van", verdict(("engine control", "P0118", None, 0.97, "short list")), "0.2", "t2")
    van.record_outcome("van", "ecm", "p0118", done="sensor replaced", cured="yes", who="first shift",
                       rates={"prior.electronic.hard": True, "prior.electronic.history": False})
    van.record_outcome("van", "gateway", "U0100", done="nothing", found_cause="low-voltage")
    first, second = van.outcomes("van")
    assert (first.module, first.code, first.failure_type) == ("engine control", "P0118", None)
    assert first.said == pytest.approx(0.97)
    assert (first.standing, first.who, first.was_there) == ("short list", "first shift", True)
    assert (second.said, second.standing, second.cured, second.was_there) == (None, None, "unknown", False)
    assert second.failure_type == "00"
    assert van.rate_counts() == {"prior.electronic.hard": Counts(1, 0), "prior.electronic.history": Counts(0, 1)}
    assert van.calibration().count == 1
    assert van.entries("van")[-1].words == "gateway U0100-00: nothing, cured or not: unknown, found low-voltage"
    van.undo("van")
    van.undo("van")
    assert van.outcomes() == []
    assert van.rate_counts() == {}
    assert [(v.engine_version, v.tables_version) for v in van.verdicts("van")] == [("0.1", "t1"), ("0.2", "t2")]


@pytest.mark.parametrize(("asked", "message"), [
    (("gateway", "P0118", None), "session 'van' holds no fault gateway P0118"),
    (("gateway", "U0100", "16"), "session 'van' holds no fault gateway U0100-16"),
    (("ECM", "P0562", None), "session 'van' holds several faults ECM P0562: engine control P0562-16, "
                             "engine control P0562-17; say which"),
])
def test_outcome_of_no_such_fault(van: Store, asked: tuple[str, str, str | None], message: str) -> None:
    with pytest.raises(StoreError) as raised:
        van.record_outcome("van", *asked, done="x", cured="yes")
    assert str(raised.value) == message


def test_outcome_in_wrong_words(van: Store) -> None:
    with pytest.raises(StoreError, match="cured: expected yes, no or unknown, seen 'perhaps'"):
        van.record_outcome("van", "ECM", "P0118", done="x", cured="perhaps")  # type: ignore[arg-type]
    with pytest.raises(StoreError, match=r"found cause: expected one of hard, .*, seen 'rust'"):
        van.record_outcome("van", "ECM", "P0118", done="x", found_cause="rust")  # type: ignore[arg-type]


def test_verdict_is_stale_once_the_session_changed(van: Store) -> None:
    seen = van.session("van").revision
    saved = verdict(("engine control", "P0118", None, 0.97, "short list"))
    van.save_verdict("van", saved, "0.1", "t1")
    assert van.verdicts("van")[0].verdict == saved
    van.record_outcome("van", "ECM", "P0118", done="sensor replaced", cured="yes")
    assert not van.verdicts("van")[0].stale
    van.undo("van")
    assert not van.verdicts("van")[0].stale
    van.add_event("van", Event(what="drove"))
    assert van.verdicts("van")[0].stale
    van.save_verdict("van", saved, "0.1", "t1")
    van.save_verdict("van", saved, "0.1", "t1", revision=seen)  # made before the event came
    assert [kept.stale for kept in van.verdicts("van")] == [True, True, False]
    van.undo("van")
    assert [kept.stale for kept in van.verdicts("van")] == [True, True, True]


def outcome(code: str = "P0118", said: float | None = 0.9, **fields: object) -> Outcome:
    """An outcome with the usual values."""
    given = {"found_cause": None, "cured": "yes", "rates": (), **fields}
    return Outcome(1, "van", datetime(2025, 3, 3, tzinfo=UTC), None, "engine control", code, None, "work",
                   said=said, standing="short list", **given)


def test_what_an_outcome_tells() -> None:
    assert outcome(cured="no").was_there is True
    assert outcome(cured="unknown").was_there is None
    assert [outcome(cured="unknown", found_cause=cause).was_there for cause in CAUSES] == [
        True, True, False, False, False]


def test_forecasts_take_the_last_outcome_of_each_fault() -> None:
    found = [outcome(cured="no"), outcome(found_cause="echo"), outcome("P0562", said=None),
             outcome("P0340", cured="unknown"), outcome("P0420", said=0.2)]
    assert forecasts(found) == [(0.9, False), (0.2, True)]


def test_brier_by_hand() -> None:
    # 0.1^2 + 0.2^2 + 0.7^2 + 0.6^2 = 0.90; over 4.
    assert brier([(0.9, True), (0.2, False), (0.3, True), (0.6, False)]) == pytest.approx(0.225)
    assert brier([(1.0, True), (0.0, False)]) == 0.0


@settings(deadline=None)  # the first example imports the reference
@given(FORECASTS)
def test_brier_and_bins_agree_with_scikit_learn(pairs: list[tuple[float, bool]]) -> None:
    metrics = pytest.importorskip("sklearn.metrics")
    curves = pytest.importorskip("sklearn.calibration")
    said, came = [pair[0] for pair in pairs], [int(pair[1]) for pair in pairs]
    assert brier(pairs) == pytest.approx(metrics.brier_score_loss(came, said, pos_label=1))
    true, mean = curves.calibration_curve(came, said, n_bins=4, pos_label=1)
    bins = reliability(pairs, bins=4)
    assert [part.came_true for part in bins] == pytest.approx(list(true))
    assert [part.said for part in bins] == pytest.approx(list(mean))
    assert sum(part.count for part in bins) == len(pairs)


@given(FORECASTS)
def test_bins_hold_every_forecast_within_their_edges(pairs: list[tuple[float, bool]]) -> None:
    found = calibration(pairs)
    assert sum(part.count for part in found.bins) == found.count == len(pairs)
    for part in found.bins:
        assert part.low - 1e-12 <= part.said <= part.high + 1e-12
    # The mean over the bins of what came true is the share of all.
    assert sum(part.count * part.came_true for part in found.bins) / len(pairs) == pytest.approx(found.share)


def test_bands_stand_until_enough_outcomes() -> None:
    chance = random.Random(1)
    pairs = [(said, chance.random() < said) for said in (chance.random() for _ in range(30))]
    few, enough = calibration(pairs[:29]), calibration(pairs)
    assert (few.show(0.84), enough.show(0.84)) == ("probably there", "84 %")
    assert few.shown.endswith("; bands are shown until 30 are recorded")
    assert "bands" not in enough.shown
    assert calibration([]).shown == "no outcomes yet: bands are shown until 30 are recorded"
    assert calibration([(0.9, True)]).shown == (
        "1 outcome, Brier score 0.010 (0 is perfect; always saying 100 % scores 0.000); "
        "bands are shown until 30 are recorded")
    # Two bins of one band are one row.
    assert calibration([(0.96, True), (0.99, True), (0.4, False), (0.6, True)]).rows() == [
        ("open", 2, 1), ("almost surely there", 2, 2)]
    assert sum(count for _, count, _ in enough.rows()) == 30
    assert sum(there for _, _, there in enough.rows()) == sum(there for _, there in pairs)
    assert all(said.endswith(" %") for said, _, _ in enough.rows())


def test_bands_and_percentages() -> None:
    assert [band(chance) for chance in (1.0, 0.95, 0.94, 0.75, 0.25, 0.2, 0.01, 0.009, 0.0)] == [
        "almost surely there", "almost surely there", "probably there", "probably there", "open",
        "probably not there", "probably not there", "almost surely not there", "almost surely not there"]
    assert [percentage(chance) for chance in (1.0, 0.991, 0.99, 0.5, 0.01, 0.0)] == [
        "over 99 %", "over 99 %", "99 %", "50 %", "1 %", "under 1 %"]


@settings(deadline=None)  # the first example imports the reference
@given(st.floats(0.0, 1.0), st.floats(0.1, 500.0), st.integers(0, 400), st.integers(0, 400))
def test_beta_counts_agree_with_scipy(table: float, strength: float, hits: int, misses: int) -> None:
    stats = pytest.importorskip("scipy.stats")
    update = beta_update(table, strength, hits, misses)
    a, b = table * strength + hits, (1 - table) * strength + misses
    if a > 1e-9 and b > 1e-9:  # scipy knows no Beta with a count of nought
        assert update.mean == pytest.approx(stats.beta.mean(a, b))
        assert update.spread == pytest.approx(stats.beta.std(a, b), rel=1e-6, abs=1e-12)
    assert 0.0 <= update.mean <= 1.0


def test_beta_counts_by_hand() -> None:
    # (0.9 * 20 + 26) / (20 + 31) = 44 / 51; without outcomes the table stands.
    update = beta_update(0.9, 20, 26, 5)
    assert update.mean == pytest.approx(44 / 51)
    assert (update.shown, update.used) == ("table 0.90, your shop 0.84 from 31", "0.86 is used")
    assert beta_update(0.9).mean == 0.9
    assert beta_update(0.9).shown == "table 0.90, no outcome of your shop yet"
    no, inf = float("nan"), float("inf")
    for wrong in ((1.1, 20, 0, 0), (0.9, 0, 0, 0), (0.9, 20, -1, 0), (no, 20, 0, 0), (0.5, inf, 0, 0)):
        with pytest.raises(ValueError, match="no such rate"):
            beta_update(*wrong)


def test_updated_priors_of_a_kind_still_add_up() -> None:
    table = dict(zip(CAUSES, (0.065, 0.025, 0.77, 0.135, 0.005), strict=True))
    found = ["hard", "hard", "low-voltage", "echo", "history", "hard"]
    counts = {cause: [0, 0] for cause in CAUSES}
    for one in found:
        for key, hit in prior_keys("electronic", one).items():
            counts[key.removeprefix("prior.electronic.")][not hit] += 1
    assert sum(beta_update(table[cause], 20, *counts[cause]).mean for cause in CAUSES) == pytest.approx(1.0)
    assert counts["hard"] == [3, 3]
