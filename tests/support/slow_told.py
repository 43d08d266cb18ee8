"""What freeze frames and counts of occurrences say, worked out one fault at a time for the second method."""

from __future__ import annotations

import math

from triage.assess import Worked
from triage.evidence.hypotheses import LOW_VOLTAGE as LOW
from triage.evidence.parameters import NOISES, Parameters


def stored(work: Worked, params: Parameters, i: int, k: int) -> list[float]:
    """What fault ``i`` has stored beside its code in snapshot ``k`` says for each of the five causes."""
    weight = [1.0] * 5
    weight[LOW] = frame(work, params, i, k)
    book, s = work.book, int(work.book.fault_session[i])
    if k or book.phase[s, 0] > 0:
        return weight
    back, count, lately = _back(work, i), int(book.count[i, 0]), int(book.byte_lately[i, 0])
    for cause in range(5):
        if not math.isnan(back):
            weight[cause] *= params.back_share[cause][sum(back > limit for limit in (5, 50, 300, 1500))]
        if count > 0:
            weight[cause] *= params.count_share[cause][sum(count > limit for limit in (1, 2, 4, 9))]
        if lately >= 0:
            weight[cause] *= params.lately[cause] if lately else 1 - params.lately[cause]
    return weight


def _back(work: Worked, i: int) -> float:
    """Kilometres from the first frame of fault ``i`` to the newest of its session; nan where that can't be told."""
    book = work.book
    mates = [n for n in range(book.faults) if book.fault_session[n] == book.fault_session[i]]
    read = [[float(d) for d in book.frame_distance[n] if not math.isnan(d)] for n in mates]
    if sum(bool(some) for some in read) < 3:
        return math.nan
    return max(max(some) for some in read if some) - float(book.frame_distance[i, 0])


def _moved(work: Worked, params: Parameters, i: int) -> float:
    """The odds for low voltage by the motion in the first frame of fault ``i``."""
    speed, engine = float(work.book.frame_speed[i, 0]), float(work.book.frame_rpm[i, 0])
    if math.isnan(speed) and math.isnan(engine):
        return 1.0
    return float(params.motion_ratio[2 if speed > 5 else 1 if engine > 400 else 0])


def frame(work: Worked, params: Parameters, i: int, k: int) -> float:
    """How much likelier the freeze frame of fault ``i`` in snapshot ``k`` is under low voltage."""
    volts = [float(value) for value in work.book.frame_volts[i, : k + 1]]
    before = next((value for value in reversed(volts[:k]) if not math.isnan(value)), math.nan)
    ratio = 1.0
    if not math.isnan(volts[k]) and not abs(volts[k] - before) < 1e-9:
        ratio = _by_volts(work, params, i, k)
    if k == 0 and work.book.phase[work.book.fault_session[i], 0] <= 0:
        ratio *= _moved(work, params, i)
    late = params.rate("frame.after_dip")
    return 1.0 if ratio == 1.0 else min((1 - late) * ratio + late, 8.0)


def _by_volts(work: Worked, params: Parameters, i: int, k: int) -> float:
    book, s = work.book, int(work.book.fault_session[i])
    scale = float(work.line.scale[s])
    value = min(max(float(book.frame_volts[i, k]) / scale, 0.0), 60.0)
    noise = float(params.level_mean.mean())
    low = 0.5 / (1 + math.exp(min((value - noise - 0.8) / 0.35, 700.0))) + 0.002
    usual = (0.65 * math.exp(-0.5 * ((value - 13.2) / 0.9) ** 2) / 0.9 / 2.507
             + 0.35 * math.exp(-0.5 * ((value - 10.5) / 1.8) ** 2) / 1.8 / 2.507 + 0.002)
    ratio, read = low / usual, float(book.volts[s, k]) / scale
    if ratio > 1 and not math.isnan(read):
        near, share = math.exp(-0.5 * ((value - read) / 0.5) ** 2) / 0.5 / 2.507, params.rate("frame.at_scan")
        ratio = min(ratio, max(low / ((1 - share) * usual + share * near), 1.0))
    return ratio


def still_low(work: Worked, params: Parameters, i: int, k: int, word: int) -> float:
    """What word ``word`` of fault ``i`` in snapshot ``k`` says more for low voltage by the supply at the scan."""
    book, s = work.book, int(work.book.fault_session[i])
    own = float(book.module_volts[book.fault_module[i], k])
    volts = (float(book.volts[s, k]) if math.isnan(own) else own) / float(work.line.scale[s])
    if math.isnan(volts) or volts >= params.rate("supply.good"):
        return 1.0
    noise = NOISES.index(book.facts[i].noise)
    above = 1 / (1 + math.exp(1.7 * (volts - params.level_mean[noise]) / params.level_spread[noise]))
    least, usual = params.rate("word.low_least"), float(params.word_first[LOW][0])
    failing = least + (1 - 2 * least) * above
    return float(failing / usual if word == 0 else (1 - failing) / (1 - usual))


def counted(work: Worked, params: Parameters, i: int, *, not_taken: bool) -> float:
    """What the counts of fault ``i`` say of a clear that was taken or not."""
    told = set()
    last = -1
    for k, now in enumerate(work.book.count[i].tolist()):
        if now < 0:
            continue
        if last >= 0 and float(work.line.clear[work.book.fault_module[i], k]) > 0.5:
            told.add("anew" if now < last else "few" if last < 3 else "same" if now == last else "on")
        last = now
    if not_taken:
        return params.rate("count.anew") if "anew" in told else 1.0
    if "anew" in told:
        return 1.0
    return params.rate("count.stays") if "same" in told else params.rate("count.goes_on") if "on" in told else 1.0
