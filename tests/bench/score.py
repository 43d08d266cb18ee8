"""Scores verdicts against the truth of invented sessions, beside plain rules and a model trained on the truth.

    python tests/bench/score.py verdicts.jsonl truth.jsonl jobs.jsonl [--no-trained]

Persisting means hard or intermittent. F1 at probability one half; average precision as the area under the stepwise
precision-recall curve; log loss in nats over the five causes, probabilities held to 1e-6 and more; expected
calibration error over ten bins of equal width of the probability that the fault persists, weighted by count.

Roots in the first five: share of the true roots that stand among the first five lines. Lines are the faults of the
short list, then the unsettled, each by decibans, without those that are ``explained_by`` something. Beside it the
same with one line more for each thing that explains faults and is no fault itself: it tells a root if it names it
(a silent module), and no other root of the faults it takes in (a supply event).
"""

from __future__ import annotations

import argparse
import gzip
import json
import math
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from worlds_rules import CAUSES, RULES, Key, plain_rules, sightings, trained

FLOOR = 1e-6
Faults = dict[Key, dict[str, Any]]


def binary(persist: list[float], truth: list[bool]) -> dict[str, float]:
    """Precision, recall, F1 at one half (a half itself counts as yes) and average precision."""
    said = [p >= 0.5 for p in persist]
    hits = sum(1 for s, t in zip(said, truth, strict=True) if s and t)
    precision = hits / sum(said) if any(said) else 0.0
    recall = hits / sum(truth) if any(truth) else 0.0
    both = precision + recall
    return {
        "precision": precision,
        "recall": recall,
        "F1": 2 * precision * recall / both if both else 0.0,
        "average precision": average_precision(persist, truth),
    }


def average_precision(persist: list[float], truth: list[bool]) -> float:
    """Sum of precision times the recall gained, over the distinct probabilities from high to low."""
    total = sum(truth)
    if not total:
        return 0.0
    order = sorted(zip(persist, truth, strict=True), key=lambda pair: -pair[0])
    area, hits, before = 0.0, 0, 0
    for seen, (value, real) in enumerate(order, 1):
        hits += real
        if seen == len(order) or order[seen][0] != value:
            area += (hits - before) / total * hits / seen
            before = hits
    return area


def calibration_error(persist: list[float], truth: list[bool], bins: int = 10) -> float:
    """Expected calibration error over ``bins`` of equal width."""
    sums: list[list[float]] = [[0.0, 0.0] for _ in range(bins)]
    for value, real in zip(persist, truth, strict=True):
        held = sums[min(bins - 1, int(value * bins))]
        held[0] += value
        held[1] += real
    return sum(abs(p - t) for p, t in sums) / max(1, len(persist))


def log_loss(causes: list[dict[str, float]], truth: list[str]) -> float:
    """Mean of minus the natural logarithm of the probability given to the true cause."""
    return sum(-math.log(max(FLOOR, said.get(real, 0.0))) for said, real in zip(causes, truth, strict=True)) / max(
        1, len(truth)
    )


def lines(faults: Iterable[dict[str, Any]], *, groups: bool = True) -> list[list[dict[str, Any]]]:
    """The lines of a verdict in reading order, each the faults it stands for."""
    faults = list(faults)
    names = {
        name
        for f in faults
        for name in (f"{f['module']} {f['code']}", f"{f['module']} {f['code']}-{f['failure_type']}")
    }
    rank = {"short list": 0, "unsettled": 1}
    ordered = sorted(
        (f for f in faults if f["standing"] in rank), key=lambda f: (rank[f["standing"]], -f["decibans"])
    )
    found: dict[str, list[dict[str, Any]]] = {}
    for number, fault in enumerate(ordered):
        why = fault["explained_by"]
        if why is None:
            found[f"#{number}"] = [fault]
        elif groups and why not in names:
            found.setdefault(why, []).append(fault)
    return list(found.values())


def key_of(fault: dict[str, Any]) -> Key:
    """Identity of a fault within its job."""
    return fault["module"], fault["code"], fault["failure_type"]


def check(verdict: dict[str, Any], job: dict[str, Any]) -> list[str]:
    """What in a verdict breaks the contract: missing, foreign and double faults, sums that do not add up."""
    wrong = []
    if "error" in verdict:
        return [f"{job['job']}: error in place of a verdict: {verdict['error']}"]
    keys = [key_of(f) for f in verdict["faults"]]
    expected = set(sightings(job))
    wrong += [
        f"{job['job']}: {key} is in the verdict and not in the job"
        for key in sorted(set(keys) - expected, key=str)
    ]
    wrong += [
        f"{job['job']}: {key} is in the job and not in the verdict"
        for key in sorted(expected - set(keys), key=str)
    ]
    if len(set(keys)) != len(keys):
        wrong.append(f"{job['job']}: a fault stands twice")
    for fault in verdict["faults"]:
        total = sum(fault["causes"].get(cause, 0.0) for cause in CAUSES)
        if abs(total - 1.0) > 0.01 or set(fault["causes"]) - set(CAUSES):
            wrong.append(f"{job['job']}: causes of {key_of(fault)} add up to {total:.3f}")
        persist = min(
            max(fault["causes"].get("hard", 0) + fault["causes"].get("intermittent", 0), FLOOR), 1 - FLOOR
        )
        stated = min(max(fault["decibans"], -35.0), 35.0)
        if abs(10 * math.log10(persist / (1 - persist)) - stated) > 1.0 and abs(stated) < 20:
            wrong.append(f"{job['job']}: decibans of {key_of(fault)} do not follow from its causes")
    return wrong


def figures(triples: list[tuple[dict[str, Any], dict[str, Any]]]) -> dict[str, float]:
    """All figures of (verdict, truth) pairs; a fault the verdict lacks has probability 0 for every cause."""
    persist: list[float] = []
    causes: list[dict[str, float]] = []
    real: list[dict[str, Any]] = []
    listed = listed_real = safety_aside = hard_aside = hard = safety_hard = clean = clean_listed = 0
    roots = found = found_strict = 0
    for verdict, truth in triples:
        said: Faults = {key_of(f): f for f in verdict.get("faults", [])}
        by_key = {key_of(f): f for f in truth["faults"]}
        for key, fault in by_key.items():
            given = said.get(key)
            real.append(fault)
            causes.append(given["causes"] if given else {})
            persist.append(sum(causes[-1].get(cause, 0.0) for cause in ("hard", "intermittent")))
            standing = given["standing"] if given else "set aside"
            listed += standing == "short list"
            listed_real += standing == "short list" and fault["persists"]
            is_hard = fault["cause"] == "hard" and fault["persists"]
            hard += is_hard
            hard_aside += is_hard and standing == "set aside"
            safety_hard += is_hard and fault["safety"] is not None
            safety_aside += is_hard and fault["safety"] is not None and standing == "set aside"
        if not any(f["persists"] for f in truth["faults"]):
            clean += 1
            clean_listed += any(f["standing"] == "short list" for f in said.values())
        names = {root["id"] for root in truth["roots"]}
        roots += len(names)
        found += len(names & _told(lines(said.values())[:5], by_key))
        found_strict += len(names & _told(lines(said.values(), groups=False)[:5], by_key))
    yes = [bool(f["persists"]) for f in real]
    out = {
        "sessions": float(len(triples)),
        "faults": len(real) / max(1, len(triples)),
        "persisting": sum(yes) / max(1, len(yes)),
    }
    out |= binary(persist, yes)
    out["log loss"] = log_loss(causes, [f["cause"] for f in real])
    out["calibration error"] = calibration_error(persist, yes)
    out["short list precision"] = listed_real / listed if listed else 1.0
    out["short list recall"] = listed_real / max(1, sum(yes))
    out["roots in the first five"] = found_strict / max(1, roots)
    out["... with grouped lines"] = found / max(1, roots)
    out["listed on sound vehicles"] = clean_listed / max(1, clean)
    out["hard set aside"] = hard_aside / max(1, hard)
    out["safety hard set aside"] = safety_aside / max(1, safety_hard)
    return out


def _told(shown: list[list[dict[str, Any]]], truth: Faults) -> set[str]:
    """Roots of the persisting faults among ``shown`` lines; of explained faults only a root that explains them."""
    told = set()
    for fault in (fault for line in shown for fault in line):
        fact, why = truth.get(key_of(fault)), fault["explained_by"]
        if fact is not None and fact["persists"] and (why is None or fact["root"] in why):
            told.add(fact["root"])
    return told


def rule_figures(pairs: list[tuple[dict[str, Any], dict[str, Any]]]) -> dict[str, dict[str, float]]:
    """Precision, recall and F1 of the three plain rules."""
    said: list[list[float]] = [[], [], []]
    yes: list[bool] = []
    for job, truth in pairs:
        rules = plain_rules(job)
        for fault in truth["faults"]:
            yes.append(bool(fault["persists"]))
            for number, value in enumerate(rules[key_of(fault)]):
                said[number].append(float(value))
    return {name: binary(values, yes) for name, values in zip(RULES, said, strict=True)}


def trained_figures(pairs: list[tuple[dict[str, Any], dict[str, Any]]]) -> dict[str, float]:
    """The figures of the trained model on the half it did not see."""
    chances = trained(pairs)
    persist: list[float] = []
    causes: list[dict[str, float]] = []
    facts = [(truth["job"], f) for _, truth in pairs[len(pairs) // 2 :] for f in truth["faults"]]
    for job, fault in facts:
        causes.append(chances[job][key_of(fault)])
        persist.append(causes[-1].get("hard", 0.0) + causes[-1].get("intermittent", 0.0))
    yes = [bool(f["persists"]) for _, f in facts]
    return binary(persist, yes) | {
        "log loss": log_loss(causes, [f["cause"] for _, f in facts]),
        "calibration error": calibration_error(persist, yes),
    }


def read(path: Path) -> list[dict[str, Any]]:
    """The objects of a JSON Lines file, packed or not."""
    with gzip.open(path, "rt", encoding="utf-8") if path.suffix == ".gz" else path.open(encoding="utf-8") as file:
        return [json.loads(line) for line in file if line.strip()]


def _table(title: str, columns: dict[str, dict[str, float]]) -> None:
    """Prints figures as rows, one column each."""
    print(f"\n{title}")
    names = list(next(iter(columns.values())))
    print(" " * 28 + "".join(f"{column[:13]:>14}" for column in columns))
    for name in names:
        print(f"{name:<28}" + "".join(f"{values.get(name, math.nan):>14.4f}" for values in columns.values()))


def main(arguments: list[str] | None = None) -> int:
    """Prints the figures; 1 if a verdict breaks the contract."""
    parser = argparse.ArgumentParser(description="Score verdicts against the truth.")
    parser.add_argument("verdicts", type=Path, help="verdicts, or - for none (rules and trained model only)")
    parser.add_argument("truth", type=Path)
    parser.add_argument("jobs", type=Path)
    parser.add_argument("--no-trained", action="store_true")
    options = parser.parse_args(arguments)
    truths = {t["job"]: t for t in read(options.truth)}
    jobs = [job for job in read(options.jobs) if job["job"] in truths]
    pairs = [(job, truths[job["job"]]) for job in jobs]
    wrong: list[str] = []
    if str(options.verdicts) != "-":
        verdicts = {v["job"]: v for v in read(options.verdicts)}
        wrong = [f"{job['job']}: no verdict" for job in jobs if job["job"] not in verdicts]
        judged = [(job, verdicts[job["job"]], truth) for job, truth in pairs if job["job"] in verdicts]
        for job, verdict, _ in judged:
            wrong += check(verdict, job)
        columns = {"all": figures([(v, t) for _, v, t in judged])}
        for style in sorted({t["style"] for _, _, t in judged}):
            columns[style] = figures([(v, t) for _, v, t in judged if t["style"] == style])
        _table("verdicts", columns)
    _table("plain rules", rule_figures(pairs))
    if not options.no_trained and len(pairs) >= 40:
        _table("trained on the truth of the first half, scored on the second", {"trained": trained_figures(pairs)})
    print(f"\n{len(wrong)} errors in the verdicts" + "".join(f"\n  {line}" for line in wrong[:10]))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
