"""What freeze frames and counts of occurrences say, worked out one fault at a time for the second method."""

from __future__ import annotations

import math
from dataclasses import dataclass

from triage.assess import Worked
from triage.evidence.hypotheses import LOW_VOLTAGE as LOW
from triage.evidence.opportunity import minutes_run
from triage.evidence.parameters import NOISES, Parameters
from triage.model import triggers
from triage.model.casebook import INVALID, LOST, POINTER, SEEN, SILENT, Casebook
from triage.model.crash import crash_record
from triage.model.stored import OLDER_BY, newest_distance


@dataclass
class Rival:
    """One hypothesis: a cause and one value of what is unknown about it."""

    cause: int
    share: float
    chances: list[float]
    cured: bool = False
    locked: bool = False


def logistic(x: float) -> float:
    return 1.0 / (1.0 + math.exp(-max(-40.0, min(40.0, x))))


def odds_chance(x: float) -> float:
    return 1.0 / (1.0 + math.exp(-max(-30.0, min(30.0, x))))


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
        if any(starved(work, params, i, at) for at in range(work.book.seen.shape[1])):
            ratio = min(ratio, 1.0)
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


def started_clean(work: Worked, params: Parameters, s: int, k: int) -> bool:
    """An earlier start since the clear set none of the codes, and the supply is read as good now."""
    book, minutes = work.book, minutes_run(work.book, params)
    faults = range(int(book.first_fault[s]), int(book.first_fault[s + 1]))
    for at in range(k):
        read = [int(book.seen[i, at]) for i in faults]
        if book.exists[s, at] and book.phase[s, at] > 0 and minutes[s, at] > 0 and 0 in read and 1 not in read:
            return float(book.volts[s, k]) / float(work.line.scale[s]) >= params.rate("level.most")
    return False


def charges_again(work: Worked, params: Parameters, i: int) -> bool:
    """A code of what charges is gone since its module was repaired, in a run that reads as charging well."""
    book, s = work.book, int(work.book.fault_session[i])
    mended = [any(work.line.repaired[book.fault_module[i], :k + 1]) for k in range(book.exists.shape[1])]
    good = params.rate("charging.good") * float(work.line.scale[s])
    return any(word in book.facts[i].title for word in ("generator", "DC/DC converter")) and any(
        mended[k] and int(book.seen[i, k]) == 0 and book.engine_on[s, k] == 1 and book.outside[s, k] != 1
        and float(book.volts[s, k]) >= good for k in range(len(mended)))


def unwitnessed(work: Worked, params: Parameters, i: int, k: int) -> bool:
    """Its module's own low-supply code is gone since the clear, and is not back in any scan, at a good supply."""
    book, s, m = work.book, int(work.book.fault_session[i]), int(work.book.fault_module[i])
    if book.facts[i].supply is not None or "supply" in (book.facts[i].noise, book.facts[i].system):
        return False
    own = [j for j in range(book.faults) if book.fault_module[j] == m and book.facts[j].supply in ("low", "fault")]
    seen = [[int(book.seen[j, at]) for at in range(book.exists.shape[1])] for j in own]
    since = [bool(book.phase[s, at] > 0) for at in range(book.exists.shape[1])]
    gone = any(sees[k] == 0 and since[k] and any(see == 1 and not late for see, late in zip(sees, since, strict=True))
               for sees in seen)
    back = any(see == 1 and late for sees in seen for see, late in zip(sees, since, strict=True))
    return gone and not back and float(book.volts[s, k]) / float(work.line.scale[s]) >= params.rate("level.most")


def tells(book: Casebook, s: int, i: int) -> bool:
    """The complaint says that what it complains of comes and goes, or the words beside fault ``i`` say with what."""
    vehicle = book.sessions[s].vehicle
    return triggers.comes_and_goes(vehicle.complaint if vehicle else None) or (
        triggers.told_trigger(book.texts.get(i, ())) is not None)


def failing_full(work: Worked, params: Parameters, i: int, k: int, word: int) -> bool:
    """Called current in the first scan since a clear, well above every level of low voltage."""
    book, s, m = work.book, int(work.book.fault_session[i]), int(work.book.fault_module[i])
    scale, facts = float(work.line.scale[s]), book.facts[i]
    clean = started_clean(work, params, s, k)
    asked = float(work.line.clear[m, k]) >= 0.5 or bool(work.line.refused[m, k]) or clean
    low = float(book.lowest[s, k]) / scale < params.rate("supply.good")
    ran = not clean and float(minutes_run(book, params)[s, k]) > 0
    return (word == 0 and asked and float(book.volts[s, k]) / scale >= params.rate("level.most") and not low
            and not ran and facts.supply is None and facts.relation != "lost communication")


def spoken(work: Worked, params: Parameters, i: int, words: list[int]) -> tuple[float, float]:
    """How far the last of ``words`` counts beside those before it, and what it says more for low voltage."""
    book, s, m, k = work.book, int(work.book.fault_session[i]), int(work.book.fault_module[i]), len(words) - 1
    facts, word = book.facts[i], words[-1]
    fed = float(book.volts[s, k]) / float(work.line.scale[s]) >= params.rate("supply.good")
    kept = any(work.line.refused[m]) and not any(chance >= 0.5 for chance in work.line.clear[m])
    full, *before = [failing_full(work, params, i, at, words[at]) for at in range(k, -1, -1)]
    news = (kept and fed and word == 0 and 0 not in words[:-1]) or (full and not any(before))
    power = 1.0 if news else 1 / (1 + 0.5 * (sum(said >= 0 for said in words) - 1))
    stands = facts.monitor in ("running", "warm", "speed", "drive cycle") and book.engine_on[s, k] == 0
    drive = facts.monitor in ("warm", "drive cycle", "cold soak") and facts.trips == 2 and facts.monitor_named
    if not full and (stands or drive):
        power *= params.rate("word.at_rest")
    low = still_low(work, params, i, k, word)
    if word == 0 and fed:
        low *= params.rate(("word.failing_" if book.status_byte[i, k] >= 0 else "word.current_")
                           + ("full" if full else "fed"))
    return power, low


def left_by_work(work: Worked, params: Parameters, i: int) -> tuple[list[float], list[bool], float]:
    """In each snapshot: the chance that an old fault turns up new, and whether work came before; and the share of the
    old ones that work set."""
    link, done = work.links, work.line.work
    target = int(link.target[i])
    hears = [link.relation[i] == LOST and target >= 0 and state == 1 for state in link.target_state[i].tolist()]
    own = [bool(x) for x in done[work.book.fault_module[i]]]
    missed = [heard and bool(at) for heard, at in zip(hears, done[target], strict=True)]
    m = int(work.book.fault_module[i])
    new, wiped, gone = [], False, False
    for k, heard in enumerate(hears):
        new.append(params.rate("history.missed_unsaid" if heard else "history.new_accepted" if gone else "history.new"))
        wiped |= bool(work.line.accepted[m, k] or work.line.said_taken[m, k])
        gone |= wiped and int(work.book.seen[i, k]) == 0
    if any(missed) or any(own):
        share = params.rate("history.missed" if any(missed) else "history.by_work")
        return new, [a or b for a, b in zip(own, missed, strict=True)], share
    near = _work_near(work, int(work.book.fault_session[i]))
    return new, near, params.rate("history.by_work_near") if any(near) else 0.0


def _work_near(work: Worked, s: int) -> list[bool]:
    """Whether something was done at any module before each snapshot, a scan after a repair being the first to tell."""
    book, near, told = work.book, [], False
    for k in range(book.exists.shape[1]):
        repaired = bool(book.exists[s, k]) and book.phase[s, k] == 3
        noted = any(bool(work.line.work[m, k]) for m in range(int(book.first_module[s]), int(book.first_module[s + 1])))
        near.append(noted or (repaired and not told))
        told = told or repaired
    return near


def is_record(work: Worked, i: int) -> bool:
    """Whether fault ``i`` is a restraint module's record of an event."""
    facts, module = work.book.facts[i], work.book.module_facts[work.book.fault_module[i]]
    told = module.safety == "restraints" and i in work.book.texts and crash_record(facts, work.book.texts[i])
    return told or (facts.monitor == "event" and "restraints" in (facts.safety, module.safety))


def locked_share(work: Worked, params: Parameters, i: int) -> float:
    """The share of the old ones that no clear takes: records of events, and restraint codes that stay, but quietly."""
    if is_record(work, i):
        return params.rate("history.locked_event")
    book, s = work.book, int(work.book.fault_session[i])
    saw = [k for k in range(book.exists.shape[1]) if book.seen[i, k] == SEEN]
    quiet = bool(saw) and all(book.byte_lately[i, k] == 0 for k in saw)
    stays = quiet and any(book.phase[s, k] > 0 for k in saw)
    bags = book.module_facts[work.book.fault_module[i]].safety == "restraints"
    return params.rate("history.locked_quiet") if stays and bags else 0.0


def starved(work: Worked, params: Parameters, i: int, k: int) -> bool:
    """Whether fault ``i`` is a supply code of a module that reads much less than the vehicle has in snapshot ``k``."""
    book, s = work.book, int(work.book.fault_session[i])
    scale = float(work.line.scale[s])
    fed, own = float(book.volts[s, k]) / scale, float(book.module_volts[book.fault_module[i], k]) / scale
    return bool(book.facts[i].supply in ("low", "fault") and fed >= params.rate("supply.good")
                and fed - own >= params.rate("feed.drop"))


def may_echo(work: Worked, i: int) -> bool:
    """Whether fault ``i`` may repeat another module's: not where it reports one lost that stays silent."""
    link = work.links
    lost = link.relation[i] == LOST and link.target[i] >= 0 and SILENT not in link.target_state[i]
    return bool(link.relation[i] in (POINTER, INVALID) or lost or wordless(work, i))


def wordless(work: Worked, i: int) -> bool:
    """Whether fault ``i`` has a maker's code of which nobody says what it is about."""
    facts = work.book.facts[i]
    typed = work.book.failure_type[i] not in (None, "00")
    return not (facts.known or facts.supply or work.links.relation[i] or i in work.book.texts or typed)


def echo_patterns(work: Worked, i: int) -> list[tuple[tuple[int, ...], float]]:
    """What fault ``i`` may repeat, as sightings (1, 0, -1 not readable), with the share of each: all faults of its
    target as one, and each of their commonest patterns; of a code without words what any other module shows."""
    book, link = work.book, work.links
    if not may_echo(work, i):
        return []
    width = book.seen.shape[1]
    own = [j for j in range(book.faults) if book.fault_session[j] == book.fault_session[i] and link.relation[j] == 0]
    if wordless(work, i):
        others = [j for j in own if book.fault_module[j] != book.fault_module[i]]
        return [(tuple(int(any(book.seen[j, k] == 1 for j in others)) for k in range(width)), 1.0)]
    kept = [(tuple(link.target_active[i].tolist()), 1.0)]
    seen: dict[tuple[int, ...], int] = {}
    for j in own:
        if book.fault_module[j] == link.target[i]:
            pattern = tuple(int(sight) for sight in book.seen[j])
            seen[pattern] = seen.get(pattern, 0) + 1
    kept += sorted(((pattern, float(count)) for pattern, count in seen.items()), key=lambda entry: -entry[1])[:4]
    whole = sum(count for _, count in kept)
    return [(pattern, count / whole) for pattern, count in kept]


def comes_and_goes(work: Worked, params: Parameters, i: int, words: list[int]) -> float:
    """What the words of fault ``i`` in each snapshot up to one say for a hard fault, in that one: it was called current
    and, since the clear and with the supply good or not known, not current; and its test always runs."""
    book, s, facts = work.book, int(work.book.fault_session[i]), work.book.facts[i]
    if facts.monitor not in ("key on", "network") or not facts.monitor_named:
        return 1.0
    both, now, gone = [False], False, False
    for k, word in enumerate(words):
        low = float(book.volts[s, k]) / float(work.line.scale[s]) < params.rate("supply.good")
        now = now or word == 0
        gone = gone or (book.phase[s, k] > 0 and not low and word in (1, 3, 5))
        both.append(now and gone)
    return params.rate("word.comes_and_goes") if both[-1] and not both[-2] else 1.0


def recorded(work: Worked, params: Parameters, i: int) -> tuple[float, float, bool]:
    """Odds that the module of fault ``i`` took the clear and that it did not, by the fault's record; whether that is
    the one from before the clear."""
    told = counted(work, i)
    taken = params.rate("count.stays") if told == "same" else 1.0
    refused = params.rate("count.anew") if told == "anew" else 1.0
    chance, anew = framed(work, params, i)
    taken *= chance
    if untouched(work, i):
        taken *= params.rate("bit.untouched")
    same = taken < 1.0
    if told == "on":
        taken *= params.rate("count.goes_on")
    if anew:
        refused *= params.rate("frame.anew")
    least = params.rate("record.least")
    return max(taken, least), max(refused, least), same


def cleared(work: Worked, i: int, k: int) -> bool:
    book = work.book
    return float(work.line.clear[book.fault_module[i], k]) > 0.5 and bool(book.exists[book.fault_session[i], k])


def counted(work: Worked, i: int) -> str | None:
    """What the counts of fault ``i`` say of the clears between them."""
    told = set()
    last = -1
    for k, now in enumerate(work.book.count[i].tolist()):
        if now < 0:
            continue
        if last >= 0 and cleared(work, i, k):
            told.add("anew" if now < last else "few" if last < 3 else "same" if now == last else "on")
        last = now
    return next((word for word in ("anew", "same", "on") if word in told), None)


def framed(work: Worked, params: Parameters, i: int) -> tuple[float, bool]:
    """The chance that a frame written anew reads like the one from before the clear; whether one reads otherwise."""
    book, back = work.book, float(newest_distance(work.book)[work.book.fault_session[i]])
    last = [math.nan] * 4
    chance, since, anew = 1.0, False, False
    for k in range(book.exists.shape[1]):
        now = [float(field[i, k]) for field in (
            book.frame_volts, book.frame_rpm, book.frame_speed, book.frame_distance)]
        since = since or cleared(work, i, k)
        like = 1.0
        old = since and back - now[3] > OLDER_BY
        if cleared(work, i, k):
            volts = abs(now[0] - last[0])
            if volts < 0.05:
                like *= params.rate("frame.same_volts")
            if now[1] == last[1] > 400:
                like *= params.rate("frame.same_engine")
            if now[2] == last[2] > 5:
                like *= params.rate("frame.same_speed")
            moved = not math.isnan(now[3] + last[3]) and now[3] != last[3]
            if (volts >= 0.05 or moved) and not old:
                anew, like = True, 1.0
        if old:
            like *= params.rate("frame.older")
        chance = min(chance, like)
        last = [before if math.isnan(value) else value for value, before in zip(now, last, strict=True)]
    return (1.0 if anew else chance), anew


def untouched(work: Worked, i: int) -> bool:
    """A byte after the clear with a failure and none since the clear, in a module that shows such bits."""
    book = work.book
    bytes_of = [value for j, row in enumerate(book.status_byte.tolist()) if book.fault_module[j] == book.fault_module[i]
                for value in row if value >= 0]
    keeps = any(value & 0x20 for value in bytes_of)
    since = False
    for k, value in enumerate(book.status_byte[i].tolist()):
        since = since or cleared(work, i, k)
        if since and keeps and value >= 0 and value & 0x2F and not value & 0x20:
            return True
    return False


def lowest(work: Worked, params: Parameters, s: int, k: int) -> float:
    """The lowest supply as read, V of a 12 V system; nan where it missed the dip of a start."""
    book, session = work.book, work.book.sessions[s]
    read = float(book.lowest[s, k]) / float(work.line.scale[s])
    electric = session.vehicle is not None and session.vehicle.drive == "electric"
    ready = any(snapshot.engine == "ready" for snapshot in session.snapshots)
    started = k > 0 and minutes_run(book, params)[s, k] > 0 and float(book.engine_on[s, k - 1]) != 1.0
    missed = started and not electric and not ready and read >= params.rate("start.leaves_at_most")
    return math.nan if missed else read
