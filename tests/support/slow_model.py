"""The evidence model a second time, fault by fault in plain loops, and the arrays must agree with it to 1e-9.

The second method shares with the arrays the casebook, the timeline, the links, the opportunity table and the numbers
of the rates table; every sum over hypotheses, snapshots, readings and other faults is written out anew.
"""

from __future__ import annotations

import math
from typing import Any

import slow_told
from slow_told import Rival, comes_and_goes, left_by_work, locked_share, lowest, recorded, spoken, starved, stored

from triage.assess import Worked
from triage.evidence.lowtargets import ONLY_LOW
from triage.evidence.opportunity import exposure, minutes_run, opportunities
from triage.evidence.parameters import MONITORS, NOISES, parameters
from triage.model.casebook import LOST, SILENT
from triage.model.snapshot import STATUS_WORDS

HARD, INTERMITTENT, LOW, HISTORY, ECHO = range(5)
KEPT, FRESH, NOT_TAKEN = range(3)
DEPTHS_LATER = (0.06, 0.10, 0.16, 0.22, 0.26, 0.20)
DEPTHS_FLAT = (0.22, 0.22, 0.20, 0.16, 0.12, 0.08)
OFF_BY = {-2.0: 0.03, -1.0: 0.05, -0.4: 0.10, 0.0: 0.45, 0.6: 0.20, 1.3: 0.10, 2.5: 0.07}
NEVER, LEAST = 0.004, 1e-4


class Slow:
    """All faults of a worked batch, one after another."""

    def __init__(self, work: Worked) -> None:
        self.work, self.book, self.line, self.link = work, work.book, work.line, work.links
        self.params = parameters(work.tables)
        self.rate = self.params.rate
        self.width = self.book.exists.shape[1]
        self.levels = [float(v) for v in self.params.levels]
        self.depths = [float(v) for v in self.params.depths]
        self.table = opportunities(self.book, self.line, self.params).tolist()
        self.exposure = exposure(self.book, self.params).tolist()
        self.minutes = minutes_run(self.book, self.params).tolist()

    # What the sightings are.
    def word(self, i: int, k: int) -> int:
        """What the module says: a status word, 5 for "passing", -1 for nothing."""
        if self.book.seen[i, k] != 1:
            return -1
        said = int(self.book.status[i, k])
        return said if said >= 0 else int(self.book.byte_word[i, k])

    def sight(self, i: int, k: int) -> int:
        after = self.book.phase[self.book.fault_session[i], k] > 0
        if after and self.word(i, k) == STATUS_WORDS.index("permanent"):
            return -1
        return int(self.book.seen[i, k])

    # What each rival says.
    def rivals(self, i: int) -> list[Rival]:
        book, rate, s = self.book, self.rate, int(self.book.fault_session[i])
        m, facts = int(book.fault_module[i]), self.book.facts[i]
        monitors = self.params.confused[MONITORS.index(facts.monitor)].tolist()
        sure = (self.params.confusion if facts.monitor_named else self.params.confusion_range)[
            MONITORS.index(facts.monitor)].tolist()
        if facts.supply is not None and facts.monitor == "key on":
            sure = [0.97, 0.01, 0.01, 0.01]
        if facts.noise == "electronic" and MONITORS.index("key on") in monitors[1:]:
            at, share = monitors.index(MONITORS.index("key on"), 1), rate("monitor.circuit")
            sure = [share if place == at else value * (1 - share) for place, value in enumerate(sure)]
            sure = [value / sum(sure) for value in sure]
        opportunity = [self.opportunity(i, s, k, monitors) for k in range(self.width)]
        own = [sum(a * b for a, b in zip(opportunity[k], sure, strict=True)) for k in range(self.width)]
        hard = [[self.reported(i, k, chance * rate("hard.seen")) for chance in opportunity[k]]
                for k in range(self.width)]
        cures, cured_at = self.since(s, self.line.repaired[m], "repair.cures", "repair.cures_unsaid")
        if any(self.line.repaired[m]) and slow_told.charges_again(self.work, self.params, i):
            cures = rate("repair.cures_proven")
        if self.link.lost[i] > 0 and self.link.target[i] >= 0:
            if self.line.repaired[int(self.link.target[i])].any():
                cures = self.rate("repair.cures")
            elif any(at and state == SILENT for at, state in zip(cured_at, self.link.target_state[i], strict=True)):
                cures = 0.0
        procedure = facts.needs == "procedure"
        begins = rate("work.wants_procedure" if procedure else "work.left_off")
        noted = bool(self.line.work[m].any())
        _, began_at = self.since(s, self.line.work[m], "repair.cures", "repair.cures")
        starts = begins if noted else begins * rate("work.unsaid") if any(began_at) else 0.0
        result: list[Rival] = []
        for j, share in enumerate(sure):
            chances = [hard[k][j] for k in range(self.width)]
            result.append(Rival(HARD, share * ((1 - starts) * (1 - cures)), chances))
            if starts > 0:
                result.append(Rival(HARD, share * starts,
                                    [c if at else NEVER for c, at in zip(chances, began_at, strict=True)]))
            if cures > 0:
                result.append(Rival(HARD, share * ((1 - starts) * cures),
                                    [NEVER if at else c for c, at in zip(chances, cured_at, strict=True)], cured=True))
        waits = rate("intermittent.waits_told" if slow_told.tells(book, s, i) else "intermittent.waits")
        there = rate("intermittent.trigger_there")
        shares = [(flicker, share * part, brought) for part, brought in ((1 - waits, 1.0), (waits, there))
                  for flicker, share in zip(self.params.rates, self.params.rate_weight, strict=True)]
        for flicker, share, brought in shares:
            came = [(1 - math.exp(-self.exposure[s][k] * flicker)) * max(own[k], 0.05) * (brought if k else 1.0)
                    for k in range(self.width)]
            result.append(Rival(INTERMITTENT, share * (1 - cures), came))
            result.append(Rival(INTERMITTENT, share * cures,
                                [NEVER if at else c for c, at in zip(came, cured_at, strict=True)], cured=True))
        result += self.old(i, s, m)
        result += self.echoes(i)
        for rival in result:
            rival.chances = [min(max(c, LEAST), 1 - LEAST) for c in rival.chances]
        return result

    def opportunity(self, i: int, s: int, k: int, monitors: list[int]) -> list[float]:
        book, tested = self.book, int(self.book.byte_tested[i, k])
        if tested >= 0 and book.seen[i, k] == 0:
            return [0.97 if tested else 0.0 for _ in monitors]
        fed = book.outside[s, k] == 1 and book.seen[i, k] != 1 and (
            book.facts[i].supply is not None or book.facts[i].system == "supply")
        share = 0.03 if fed else 1.0
        if book.facts[i].trips == 2 and k > 0:
            share *= {0: self.rate("pending.not_read"), -1: self.rate("pending.unsaid")}.get(
                int(book.pending_read[s, k]), 1.0)
        facts, on = book.facts[i], book.engine_on[s]
        if (facts.noise, facts.monitor, facts.needs) == ("self", "key on", "repair") and k > 0:
            off = self.line.cycled[s, k] or (on[k - 1] == 1 and on[k] == 0)
            share *= 1.0 if off else self.rate("key.cycled_unsaid")
        if facts.monitor == "commanded output" and facts.safety == "brakes" and k > 0 and self.stood(s, k):
            share *= self.rate("monitor.brakes_at_rest")
        return [self.table[s][k][monitor] * share for monitor in monitors]

    def stood(self, s: int, k: int) -> bool:
        book, drove = self.book, float(self.book.drove[s, k])
        minutes = float(book.minutes[s, k])
        return drove == 0 or (math.isnan(drove) and book.phase[s, k] > 0 and not book.speed[s, k] > 0
                              and (math.isnan(minutes) or minutes < 8.0))

    def reported(self, i: int, k: int, chance: float) -> float:
        if self.link.relation[i] == LOST and self.link.target_state[i, k] == SILENT:
            return min(chance, self.rate("lost.noticed"))
        return chance

    def since(self, s: int, noted: Any, said: str, unsaid: str) -> tuple[float, list[bool]]:
        """Chance that work mattered, and from which snapshot on."""
        repaired = [bool(self.book.phase[s, k] == 3) for k in range(self.width)]
        marks = [bool(x) for x in noted] if any(noted) else repaired
        on = [any(marks[:k + 1]) for k in range(self.width)]
        return (self.rate(said) if any(noted) else self.rate(unsaid) if any(repaired) else 0.0), on

    def old(self, i: int, s: int, m: int) -> list[Rival]:
        book = self.book
        before, worked, share = left_by_work(self.work, self.params, i)
        before[0] = 0.97 if book.phase[s, 0] <= 0 else 0.02
        before = [0.5 if self.line.new_module[m, k] else chance for k, chance in enumerate(before)]
        locked = locked_share(self.work, self.params, i)
        result = [Rival(HISTORY, (1 - share) * (1 - locked), list(before))]
        if locked:
            result.append(Rival(HISTORY, (1 - share) * locked, list(before), locked=True))
        if share:
            result.append(Rival(HISTORY, share, [0.6 if at else NEVER for at in worked]))
        return result

    def echoes(self, i: int) -> list[Rival]:
        """One for any fault of the target, one for each of its commonest patterns of sightings."""
        return [Rival(ECHO, share, [self.echo(i, k, pattern[k]) for k in range(self.width)])
                for pattern, share in slow_told.echo_patterns(self.work, i)]

    def echo(self, i: int, k: int, shown: int) -> float:
        if shown == 1 or self.link.target_state[i, k] == SILENT:
            return self.rate("echo.follows")
        return self.rate("echo.target_unread" if shown < 0 else "echo.alone")

    # The supply.
    def volts(self, s: int, k: int) -> float:
        value = float(self.book.volts[s, k]) / float(self.line.scale[s])
        return self.rate("supply.rest_usual") if math.isnan(value) else value

    def below(self, level: float, supply: float) -> float:
        return slow_told.logistic((level - supply) / self.rate("level.softness"))

    def depth_prior(self, s: int, k: int) -> list[float]:
        book, rate = self.book, self.rate
        if not math.isnan(lowest(self.work, self.params, s, k)):
            return list(OFF_BY.values())
        first = k == 0 and book.phase[s, 0] <= 0
        sag = rate("sag.outside") if book.outside[s, k] == 1 else rate(
            "sag.start" if self.minutes[s][k] > 0 else "sag.rest")
        if slow_told.started_clean(self.work, self.params, s, k):
            sag *= rate("sag.start_again")
        if math.isnan(book.volts[s, k]):
            sag = max(sag, rate("sag.unread"))
        if first:
            sag = rate("sag.first")
        return [sag * share for share in (DEPTHS_FLAT if first else DEPTHS_LATER)] + [1 - sag]

    def supplies(self, s: int, k: int) -> list[float]:
        rest, low = self.volts(s, k), lowest(self.work, self.params, s, k)
        if not math.isnan(low):
            return [min(low, rest) + shift for shift in OFF_BY]
        return [min(depth, rest) for depth in self.depths] + [rest]

    def reached(self, i: int, k: int, weights: list[float]) -> list[float]:
        """Chance that each level was passed long enough at the module of fault ``i``."""
        book, s = self.book, int(self.book.fault_session[i])
        scale = float(self.line.scale[s])
        order = book.order[s]
        seconds = book.sessions[s].snapshots[order[k]].low_seconds if k < len(order) else None
        short = seconds is not None and seconds < self.rate("level.least_seconds")
        sets = self.rate("level.sets") * (self.rate("level.short_share") if short else 1.0)
        own = float(book.module_volts[book.fault_module[i], k]) / scale
        result = []
        for level in self.levels:
            chance = sum(w * self.below(level, v) for w, v in zip(weights, self.supplies(s, k), strict=True))
            chance = max(chance, self.rate("level.leak")) * sets
            if not math.isnan(own) and not starved(self.work, self.params, i, k):
                chance = max(chance, self.below(level, own) * self.rate("level.sets"))
            if book.facts[i].supply == "high" and book.phase[s, k] > 0:
                chance = self.rate("level.leak")
            if book.facts[i].supply == "high" and float(book.volts[s, k]) / scale > self.rate("charging.over"):
                chance = self.rate("level.sets")
            fed = float(book.volts[s, k]) / scale >= self.rate("supply.good")
            if book.facts[i].monitor in ("warm", "drive cycle", "cold soak") and book.phase[s, k] > 0 and fed and (
                    book.facts[i].supply is None):
                chance *= self.rate("low.brief")
            if slow_told.unwitnessed(self.work, self.params, i, k):
                chance *= self.rate("low.unwitnessed")
            result.append(chance)
        return result

    # The chain.
    def likelihoods(self, i: int, rival: Rival, reading: int) -> list[float]:
        """Running likelihood before and after each snapshot."""
        shown = self.rate("fresh.shown") if reading == FRESH else self.rate("kept.shown")
        running, listed, result = 1.0, 0.0, [1.0]
        for k in range(self.width):
            clear = float(self.line.clear[self.book.fault_module[i], k])
            taken = 0.0 if reading == NOT_TAKEN or rival.locked else clear
            chance = 1 - (1 - listed * shown * (1 - taken)) * (1 - rival.chances[k])
            sight = self.sight(i, k)
            running *= chance if sight == 1 else 1 - chance if sight == 0 else 1.0
            listed = {1: 1.0, 0: 0.0}.get(sight, chance)
            result.append(running)
        return result

    def flags(self, i: int) -> tuple[bool, bool, bool]:
        """Kept and fresh differ; a listed code was gone after a clear; one stayed after a clear."""
        listed = fresh = gone = stayed = False
        for k in range(self.width):
            sight, clear = self.sight(i, k), float(self.line.clear[self.book.fault_module[i], k])
            if listed and sight >= 0:
                fresh |= clear < 1
                gone |= sight == 0 and clear > 0
                stayed |= sight == 1 and clear > 0
            listed = sight == 1 if sight >= 0 else listed
        return fresh, gone, stayed

    def words(self, i: int) -> list[list[float]]:
        """Running weight of the status words and freeze frames for each cause, and for a hard fault that was cured."""
        book, params = self.book, self.params
        result = [[1.0] * 6]
        s, m = int(book.fault_session[i]), int(book.fault_module[i])
        _, repaired = self.since(s, self.line.repaired[m], "repair.cures", "repair.cures")
        for k in range(self.width):
            word, weight, cured = self.word(i, k), [1.0] * 5, 1.0
            if word >= 0:
                first = k == 0 and book.phase[book.fault_session[i], 0] <= 0
                table = params.word_first if first else params.word_later
                weight = [float(table[cause, word]) for cause in range(5)]
                power, low = spoken(self.work, self.params, i, [self.word(i, at) for at in range(k + 1)])
                weight[LOW] *= low
                cured = weight[HISTORY]
                weight = [value ** power for value in weight]
            weight = [a * b for a, b in zip(weight, stored(self.work, self.params, i, k), strict=True)]
            weight[HARD] *= comes_and_goes(self.work, self.params, i, [self.word(i, at) for at in range(k + 1)])
            weight.append(cured if repaired[k] else weight[HARD])
            result.append([a * b for a, b in zip(result[-1], weight, strict=True)])
        return result

    # All together.
    def causes(self) -> list[list[float]]:
        book = self.book
        faults = range(book.faults)
        priors = self.work.evidence.prior
        prior = [[float(x) for x in row] for row in priors.final]
        # How deep the supply fell is voted on before anything is known of what others hold.
        leaning = bool(priors.names) and priors.names[-1] == ONLY_LOW
        first = [[float(x) for x in row] for row in priors.steps[-2]] if leaning else prior
        rivals, words = [self.rivals(i) for i in faults], [self.words(i) for i in faults]
        depths = self.depth_votes(rivals, words, first)
        for i in faults:
            noise = NOISES.index(book.facts[i].noise)
            grid = [self.reached(i, k, depths[i][k]) for k in range(self.width)]
            rivals[i] += [Rival(LOW, float(self.params.level_weight[noise, place]),
                                [grid[k][place] for k in range(self.width)]) for place in range(len(self.levels))]
        flags = [self.flags(i) for i in faults]
        total = [[self.total(i, rivals[i], reading, words[i][-1], prior[i], flags) for reading in range(3)]
                 for i in faults]
        mix = self.readings([[sum(six) for six in row] for row in total])
        result = []
        for i in faults:
            six = [sum(mix[i][reading] * total[i][reading][e] for reading in range(3)) for e in range(6)]
            six[HISTORY] += six.pop()
            result.append([value / sum(six) for value in six])
        return result

    def total(self, i: int, rivals: list[Rival], reading: int, words: list[float], prior: list[float],
              flags: list[tuple[bool, bool, bool]]) -> list[float]:
        mates = [flags[j] for j in range(self.book.faults) if self.book.fault_module[j] == self.book.fault_module[i]]
        if reading == NOT_TAKEN and (any(gone for _, gone, _ in mates) or not any(stayed for *_, stayed in mates)):
            return [0.0] * 6
        asked = reading
        if reading == FRESH and not flags[i][0]:
            reading = KEPT
        six = [0.0] * 6
        for rival in rivals:
            six[5 if rival.cured else rival.cause] += (
                rival.share * self.likelihoods(i, rival, reading)[-1] * words[5 if rival.cured else rival.cause]
                * prior[rival.cause])
        factor = recorded(self.work, self.params, i)[asked == NOT_TAKEN]
        return [value * factor for value in six]

    def depth_votes(self, rivals: list[list[Rival]], words: list[list[list[float]]],
                    prior: list[list[float]]) -> list[list[list[float]]]:
        """Chance of each unknown depth, N x K x depths, after all other faults of the session have voted."""
        book = self.book
        start = [[self.depth_prior(s, k) for k in range(self.width)] for s in range(len(book.sessions))]
        others, low = [], []
        for i in range(book.faults):
            s = int(book.fault_session[i])
            others.append(sum(r.share * self.likelihoods(i, r, KEPT)[-1] * words[i][-1][5 if r.cured else r.cause]
                              * prior[i][r.cause] for r in rivals[i]))
            noise = NOISES.index(book.facts[i].noise)
            grid = [self.reached(i, k, start[s][k]) for k in range(self.width)]
            low.append([Rival(LOW, float(self.params.level_weight[noise, place]), [
                min(max(grid[k][place], LEAST), 1 - LEAST) for k in range(self.width)])
                for place in range(len(self.levels))])
        result = [[list(weights) for weights in start[int(s)]] for s in book.fault_session]
        for k in range(self.width):
            votes = [self.vote(i, k, low, others, words, prior) for i in range(book.faults)]
            for i, s in enumerate(book.fault_session.tolist()):
                if book.exists[s, k]:
                    mates = [votes[j] for j in range(book.faults) if j != i and book.fault_session[j] == s]
                    result[i][k] = self.elected(start[s][k], [sum(vote) for vote in zip(*mates, strict=True)])
        return result

    def vote(self, i: int, k: int, low: list[list[Rival]], others: list[float],
             words: list[list[list[float]]], prior: list[list[float]]) -> list[float]:
        logs = [0.0] * (len(self.depths) + 1)
        if self.sight(i, k) >= 0:
            s = int(self.book.fault_session[i])
            before = [self.sight(i, at) for at in range(k) if self.sight(i, at) >= 0]
            clear = float(self.line.clear[self.book.fault_module[i], k])
            kept = self.rate("kept.shown") * (1 - clear) if before and before[-1] == 1 else 0.0
            runs = [self.likelihoods(i, rival, KEPT) for rival in low[i]]
            without = [rival.share * run[-1] * run[k] / max(run[k + 1], 1e-12)
                       for rival, run in zip(low[i], runs, strict=True)]
            for place, supply in enumerate(self.supplies(s, k)):
                now = sum(w * self.below(level, supply) * self.rate("level.sets")
                          for w, level in zip(without, self.levels, strict=True))
                again = kept * sum(without) + (1 - kept) * now
                said = again if self.sight(i, k) == 1 else sum(without) - again
                logs[place] = math.log(max(said * words[i][-1][LOW] * prior[i][LOW] + others[i], 1e-300))
        return logs

    def elected(self, start: list[float], logs: list[float]) -> list[float]:
        logs = logs or [0.0] * len(start)
        joint = [math.log(max(p, 1e-12)) + self.rate("votes.temper") * v for p, v in zip(start, logs, strict=True)]
        scaled = [math.exp(value - max(joint)) for value in joint]
        return [value / sum(scaled) for value in scaled]

    def readings(self, total: list[list[float]]) -> list[list[float]]:
        """Weights of the three readings of each fault, from the other faults."""
        book, faults = self.book, range(self.book.faults)
        log = [[math.log(max(value, 1e-300)) for value in row] for row in total]
        start = math.log(self.rate("kept.prior") / (1 - self.rate("kept.prior")))
        kept = [slow_told.odds_chance(start + self.rate("votes.temper") * sum(
            log[j][KEPT] - log[j][FRESH] for j in faults if j != i and book.fault_session[j] == book.fault_session[i]))
            for i in faults]
        stayed = []
        for i in faults:
            taken = math.log((kept[i] + 1e-12) * math.exp(log[i][KEPT])
                             + (1 - kept[i] + 1e-12) * math.exp(log[i][FRESH]))
            stayed.append(log[i][NOT_TAKEN] - taken if total[i][NOT_TAKEN] > 0 else -30.0)
        result = []
        for i in faults:
            mates = sum(stayed[j] for j in faults if j != i and book.fault_module[j] == book.fault_module[i])
            company = [j for j in faults if book.fault_module[j] == book.fault_module[i] and total[j][NOT_TAKEN] > 0]
            module, whole = book.fault_module[i], recorded(self.work, self.params, i)[2]
            noted = "_accepted" if any(self.line.accepted[module]) else "_said" if any(
                self.line.said_taken[module]) else ""
            taken_chance = self.rate(f"clear.taken{noted}" if len(company) > 1 or whole else "clear.taken_lone")
            odds = math.log((1 - taken_chance) / taken_chance) + mates
            refused = slow_told.odds_chance(odds) if total[i][NOT_TAKEN] > 0 else 0.0
            result.append([(1 - refused) * kept[i], (1 - refused) * (1 - kept[i]), refused])
        return result
