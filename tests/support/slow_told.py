"""What freeze frames and counts of occurrences say, worked out one fault at a time for the second method."""

from __future__ import annotations

import math

from triage.assess import Worked
from triage.evidence.parameters import Parameters


def frame(work: Worked, params: Parameters, i: int, k: int) -> float:
    """How much likelier the stored voltage of fault ``i`` in snapshot ``k`` is under low voltage."""
    book = work.book
    value = float(book.frame_volts[i, k])
    if math.isnan(value) or (k and abs(value - float(book.frame_volts[i, k - 1])) < 1e-9):
        return 1.0
    s = int(book.fault_session[i])
    scale = float(work.line.scale[s])
    value = min(max(value / scale, 0.0), 60.0)
    noise = float(params.level_mean.mean())
    low = 0.5 / (1 + math.exp(min((value - noise - 0.8) / 0.35, 700.0))) + 0.002
    usual = (0.65 * math.exp(-0.5 * ((value - 13.2) / 0.9) ** 2) / 0.9 / 2.507
             + 0.35 * math.exp(-0.5 * ((value - 10.5) / 1.8) ** 2) / 1.8 / 2.507 + 0.002)
    ratio, read = low / usual, float(book.volts[s, k]) / scale
    if ratio > 1 and not math.isnan(read):
        near, share = math.exp(-0.5 * ((value - read) / 0.5) ** 2) / 0.5 / 2.507, params.rate("frame.at_scan")
        ratio = min(ratio, max(low / ((1 - share) * usual + share * near), 1.0))
    return min(max(ratio, 0.02), 8.0)


def counted(work: Worked, params: Parameters, i: int, *, not_taken: bool) -> float:
    """What the counts of fault ``i`` say of a clear that was taken or not."""
    anew = on = False
    last = -1
    for k, now in enumerate(work.book.count[i].tolist()):
        if now < 0:
            continue
        if last >= 0 and float(work.line.clear[work.book.fault_module[i], k]) > 0.5:
            anew, on = anew or now < last, on or now >= last >= 3
        last = now
    if not_taken:
        return params.rate("count.anew") if anew else 1.0
    return params.rate("count.goes_on") if on and not anew else 1.0
