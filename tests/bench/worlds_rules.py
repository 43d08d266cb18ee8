"""What the engine is compared with: three plain rules, and a model trained on the truth as an upper bound.

A fault here is (module, code, failure type) of one job. The rules give 0 or 1; the trained model gives five
causes. Its features are plain: where the fault was seen, the volts of those scans, status, its module's list.
"""

from __future__ import annotations

import os
import zlib
from typing import Any

from worlds_catalog import module_kinds

Key = tuple[str, str, str | None]
CAUSES = ("hard", "intermittent", "low-voltage", "history", "echo")
RULES = ("in the last scan", "in every scan after the clear", "came back at 11.5 V or more")


def sightings(job: dict[str, Any]) -> dict[Key, list[dict[str, Any] | None]]:
    """For each fault an entry a snapshot: its code, {} where its module answered without it, None unreadable."""
    answers: list[dict[str, dict[tuple[str, str | None], dict[str, Any]] | None]] = []
    keys: dict[Key, None] = {}
    for snapshot in job["snapshots"]:
        found: dict[str, dict[tuple[str, str | None], dict[str, Any]] | None] = {}
        for module in snapshot["modules"]:
            found[module["module"]] = (
                None
                if module.get("responds") is False
                else {(code["code"], code.get("failure_type")): code for code in module["codes"]}
            )
            for code in module["codes"]:
                keys[module["module"], code["code"], code.get("failure_type")] = None
        answers.append(found)
    table: dict[Key, list[dict[str, Any] | None]] = {}
    for key in keys:
        lists = [found.get(key[0]) for found in answers]
        table[key] = [None if codes is None else codes.get(key[1:], {}) for codes in lists]
    return table


def plain_rules(job: dict[str, Any]) -> dict[Key, tuple[bool, bool, bool]]:
    """The three rules of RULES for every fault. A scan of unknown volts is none at 11.5 V or more."""
    after = [n for n, s in enumerate(job["snapshots"]) if s["phase"] != "before-clear"]
    scale = (job.get("vehicle") or {}).get("nominal_volts", 12.0) / 12.0
    good = [n for n in after if (job["snapshots"][n].get("volts") or 0.0) >= 11.5 * scale]
    return {
        key: (bool(row[-1]), bool(after) and all(row[n] for n in after), any(row[n] for n in good))
        for key, row in sightings(job).items()
    }


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
        context += [
            (shot.get("volts") or nan) / scale,
            (shot.get("lowest_volts") or nan) / scale,
            shot.get("ran_minutes", nan),
            float(shot["drove"]) if "drove" in shot else nan,
            float(shot.get("engine") == "running"),
            listed[n] / max(1, len(table)) if n is not None else nan,
            silent[n] if n is not None else nan,
            float(shot.get("outside_supply", "none") != "none"),
        ]
    context += [len(table), len(shots)]
    after = [n for n, shot in enumerate(shots) if shot["phase"] != "before-clear"]
    lowest = [
        min(s.get("lowest_volts", nan), s.get("volts", nan), key=lambda v: v if v == v else 99.0) / scale
        for s in shots
    ]
    share = [count / max(1, len(table)) for count in listed]
    return list(table), [
        _row(key, row, slots, by_module, by_code, scale)
        + _summary(row, after, lowest, share)
        + _target(key[1], shots)
        + context
        for key, row in table.items()
    ]


_TARGETS = {
    code: kind.names
    for drive in ("petrol", "diesel", "hybrid", "electric")
    for kind in module_kinds(drive)
    for code in (kind.lost, kind.invalid)
    if code
}


def _target(code: str, shots: list[dict[str, Any]]) -> list[float]:
    """Of the module a network code points to: scans with an answer, without one, most codes it listed."""
    names = _TARGETS.get(code)
    if names is None:
        return [float("nan")] * 3
    found = [m for s in shots for m in s["modules"] if m["module"] in names]
    silent = sum(1 for m in found if m.get("responds") is False)
    return [len(found) - silent, silent, max((len(m["codes"]) for m in found), default=0)]


def _summary(
    row: list[dict[str, Any] | None], after: list[int], lowest: list[float], share: list[float]
) -> list[float]:
    """Over the scans after the clear: how often seen, and at what lowest volts and among how many others."""
    seen = [n for n in after if row[n]]
    missed = [n for n in after if row[n] == {}]
    known = [lowest[n] for n in seen if lowest[n] == lowest[n]]
    clean = [lowest[n] for n in missed if lowest[n] == lowest[n]]
    nan = float("nan")
    return [
        len(seen),
        len(missed),
        max(known, default=nan),
        min(known, default=nan),
        min(clean, default=nan),
        max(clean, default=nan),
        min((share[n] for n in seen), default=nan),
        max((share[n] for n in seen), default=nan),
    ]


def _row(
    key: Key,
    row: list[dict[str, Any] | None],
    slots: list[int | None],
    by_module: dict[str, Any],
    by_code: dict[str, Any],
    scale: float,
) -> list[float]:
    """What is peculiar to one fault."""
    nan = float("nan")
    out: list[float] = []
    peers, twins = by_module[key[0]], by_code[key[1]]
    others = len(peers) - 1
    for n in slots:
        entry = row[n] if n is not None else None
        if n is None or entry is None:
            out += [nan, nan, nan, nan, nan, nan, nan, nan]
            continue
        words = ("stored", "confirmed", "pending", "current", "permanent")
        byte = entry.get("status_byte")
        out += [
            float(bool(entry)),
            words.index(entry["status"]) if "status" in entry else nan,
            float(byte & 1) if byte is not None else nan,
            float(byte & 0x20) if byte is not None else nan,
            entry.get("freeze_frame", {}).get("volts", nan) / scale,
            entry.get("count", nan),
            (sum(1 for p in peers if p[n]) - bool(entry)) / others if others else nan,
            sum(1 for t in twins if t[n]) / len(twins),
        ]
    number = int(key[1][1:], 16) if len(key[1]) == 5 else -1
    out += [
        "PCBU".find(key[1][0]),
        number,
        number >> 8,
        int(key[2], 16) if key[2] else nan,
        len(peers),
        len(twins),
        zlib.crc32(key[0].encode()) % 251,
    ]
    return out


def _rates(pairs: list[tuple[dict[str, Any], dict[str, Any]]]) -> dict[str, list[float]]:
    """How often each code, and each first three characters, went with each cause; four faults' worth of doubt."""
    counts: dict[str, list[float]] = {}
    total = [0.0] * len(CAUSES)
    for _, truth in pairs:
        for fault in truth["faults"]:
            for name in (fault["code"], fault["code"][:3]):
                counts.setdefault(name, [0.0] * len(CAUSES))[CAUSES.index(fault["cause"])] += 1
            total[CAUSES.index(fault["cause"])] += 1
    base = [t / sum(total) for t in total]
    return {"": base} | {
        name: [(c + 4 * b) / (sum(row) + 4) for c, b in zip(row, base, strict=True)]
        for name, row in counts.items()
    }


def trained(pairs: list[tuple[dict[str, Any], dict[str, Any]]]) -> dict[str, dict[Key, dict[str, float]]]:
    """Causes for the second half of the sessions from a model trained on the truth of the first half."""
    os.environ.setdefault("OMP_NUM_THREADS", "1")  # more threads wait for each other on a busy machine
    import numpy as np
    from sklearn.ensemble import HistGradientBoostingClassifier

    half = len(pairs) // 2
    quarter = half // 2
    rates = [_rates(pairs[quarter:half]), _rates(pairs[:quarter]), _rates(pairs[:half])]

    def rows_of(job: dict[str, Any], known: dict[str, list[float]]) -> tuple[list[Key], list[list[float]]]:
        keys, rows = features(job)
        return keys, [
            row + known.get(key[1], known.get(key[1][:3], known[""])) + known.get(key[1][:3], known[""])
            for key, row in zip(keys, rows, strict=True)
        ]

    rows: list[list[float]] = []
    causes: list[int] = []
    for number, (job, truth) in enumerate(pairs[:half]):
        cause = {(f["module"], f["code"], f["failure_type"]): CAUSES.index(f["cause"]) for f in truth["faults"]}
        # Rates come from the quarter that the session is not in, or they would give its answers away.
        for key, row in zip(*rows_of(job, rates[0] if number < quarter else rates[1]), strict=True):
            rows.append(row)
            causes.append(cause[key])
    model = HistGradientBoostingClassifier(
        max_iter=120,
        learning_rate=0.12,
        max_leaf_nodes=16,
        min_samples_leaf=20,
        l2_regularization=1.0,
        random_state=0,
    )
    table = np.array(rows)
    used = [c for c in range(table.shape[1]) if len(np.unique(table[:, c][~np.isnan(table[:, c])])) > 1]
    model.fit(table[:, used], np.array(causes))
    out: dict[str, dict[Key, dict[str, float]]] = {}
    keys: list[tuple[str, Key]] = []
    wide: list[list[float]] = []
    for job, _ in pairs[half:]:
        out[job["job"]] = {}
        named, lines = rows_of(job, rates[2])
        keys += [(job["job"], key) for key in named]
        wide += lines
    for (name, key), chances in zip(keys, model.predict_proba(np.array(wide)[:, used]), strict=True):
        out[name][key] = {CAUSES[c]: float(p) for c, p in zip(model.classes_, chances, strict=True)}
    return out
