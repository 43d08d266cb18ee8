"""What the engine is compared with: three plain rules, and a model trained on the truth as an upper bound.

A fault here is (module, code, failure type) of one job. The rules give 0 or 1; the trained model gives five causes. Its
features are plain: where the fault was seen, the volts of those scans, status, what else its module listed.
"""

from __future__ import annotations

import zlib
from typing import Any

Key = tuple[str, str, str | None]
CAUSES = ("hard", "intermittent", "low-voltage", "history", "echo")
RULES = ("in the last scan", "in every scan after the clear", "came back at 11.5 V or more")


def sightings(job: dict[str, Any]) -> dict[Key, list[dict[str, Any] | None]]:
    """For each fault one entry a snapshot: its code entry, {} where its module answered without it, None unreadable."""
    answers: list[dict[str, dict[tuple[str, str | None], dict[str, Any]] | None]] = []
    keys: dict[Key, None] = {}
    for snapshot in job["snapshots"]:
        found: dict[str, dict[tuple[str, str | None], dict[str, Any]] | None] = {}
        for module in snapshot["modules"]:
            found[module["module"]] = None if module.get("responds") is False else {
                (code["code"], code.get("failure_type")): code for code in module["codes"]}
            for code in module["codes"]:
                keys[module["module"], code["code"], code.get("failure_type")] = None
        answers.append(found)
    table: dict[Key, list[dict[str, Any] | None]] = {}
    for key in keys:
        lists = [found.get(key[0]) for found in answers]
        table[key] = [None if codes is None else codes.get(key[1:], {}) for codes in lists]
    return table


def plain_rules(job: dict[str, Any]) -> dict[Key, tuple[bool, bool, bool]]:
    """The three rules of RULES for every fault. A scan that does not know its volts is no scan at 11.5 V or more."""
    after = [n for n, s in enumerate(job["snapshots"]) if s["phase"] != "before-clear"]
    scale = (job.get("vehicle") or {}).get("nominal_volts", 12.0) / 12.0
    good = [n for n in after if (job["snapshots"][n].get("volts") or 0.0) >= 11.5 * scale]
    return {key: (bool(row[-1]), bool(after) and all(row[n] for n in after), any(row[n] for n in good))
            for key, row in sightings(job).items()}


def features(job: dict[str, Any]) -> tuple[list[Key], list[list[float]]]:
    """Plain features of every fault; NaN where not known."""
    nan = float("nan")
    table = sightings(job)
    scale = (job.get("vehicle") or {}).get("nominal_volts", 12.0) / 12.0
    shots = job["snapshots"]
    phases = ("before-clear", "after-clear", "after-run", "after-repair")
    slots = [next((n for n, s in enumerate(shots) if s["phase"] == phase), None) for phase in phases[:2]]
    runs = [n for n, s in enumerate(shots) if s["phase"] == "after-run"]
    slots += [runs[0] if runs else None, runs[1] if len(runs) > 1 else None]
    slots.append(next((n for n, s in enumerate(shots) if s["phase"] == "after-repair"), None))
    listed = [sum(1 for row in table.values() if row[n]) for n in range(len(shots))]
    by_module: dict[str, list[list[dict[str, Any] | None]]] = {}
    by_code: dict[str, list[list[dict[str, Any] | None]]] = {}
    for key, row in table.items():
        by_module.setdefault(key[0], []).append(row)
        by_code.setdefault(key[1], []).append(row)
    silent = [sum(1 for m in s["modules"] if m.get("responds") is False) for s in shots]
    context: list[float] = []
    for n in slots:
        shot = shots[n] if n is not None else {}
        context += [(shot.get("volts") or nan) / scale, (shot.get("lowest_volts") or nan) / scale, shot.get("ran_minutes", nan),
                    float(shot["drove"]) if "drove" in shot else nan, float(shot.get("engine") == "running"),
                    listed[n] / max(1, len(table)) if n is not None else nan, silent[n] if n is not None else nan,
                    float(shot.get("outside_supply", "none") != "none")]
    context += [len(table), len(shots)]
    return list(table), [_row(key, row, slots, by_module, by_code, scale) + context for key, row in table.items()]


def _row(key: Key, row: list[dict[str, Any] | None], slots: list[int | None], by_module: dict[str, Any], by_code: dict[str, Any],
         scale: float) -> list[float]:
    """What is peculiar to one fault."""
    nan = float("nan")
    out: list[float] = []
    peers, twins = by_module[key[0]], by_code[key[1]]
    for n in slots:
        entry = row[n] if n is not None else None
        if n is None or entry is None:
            out += [nan, nan, nan, nan, nan, nan, nan, nan]
            continue
        words = ("stored", "confirmed", "pending", "current", "permanent")
        byte = entry.get("status_byte")
        out += [float(bool(entry)), words.index(entry["status"]) if "status" in entry else nan,
                float(byte & 1) if byte is not None else nan, float(byte & 0x20) if byte is not None else nan,
                entry.get("freeze_frame", {}).get("volts", nan) / scale, entry.get("count", nan),
                sum(1 for p in peers if p[n]) / len(peers), sum(1 for t in twins if t[n]) / len(twins)]
    number = int(key[1][1:], 16) if len(key[1]) == 5 else -1
    out += ["PCBU".find(key[1][0]), number, number >> 8, int(key[2], 16) if key[2] else nan, len(peers), len(twins),
            zlib.crc32(key[0].encode()) % 251]
    return out


def trained(pairs: list[tuple[dict[str, Any], dict[str, Any]]]) -> dict[str, dict[Key, dict[str, float]]]:
    """Causes for the second half of the sessions from a model trained on the truth of the first half."""
    import numpy as np
    from sklearn.ensemble import HistGradientBoostingClassifier

    half = len(pairs) // 2
    rows: list[list[float]] = []
    causes: list[int] = []
    for job, truth in pairs[:half]:
        cause = {(f["module"], f["code"], f["failure_type"]): CAUSES.index(f["cause"]) for f in truth["faults"]}
        for key, row in zip(*features(job), strict=True):
            rows.append(row)
            causes.append(cause[key])
    model = HistGradientBoostingClassifier(max_iter=350, learning_rate=0.05, max_leaf_nodes=24, min_samples_leaf=20,
                                           l2_regularization=1.0, random_state=0)
    table = np.array(rows)
    used = [c for c in range(table.shape[1]) if len(np.unique(table[:, c][~np.isnan(table[:, c])])) > 1]
    model.fit(table[:, used], np.array(causes))
    out: dict[str, dict[Key, dict[str, float]]] = {}
    for job, _ in pairs[half:]:
        keys, lines = features(job)
        if not keys:
            out[job["job"]] = {}
            continue
        chances = model.predict_proba(np.array(lines)[:, used])
        out[job["job"]] = {key: {CAUSES[c]: float(p) for c, p in zip(model.classes_, line, strict=True)}
                           for key, line in zip(keys, chances, strict=True)}
    return out
