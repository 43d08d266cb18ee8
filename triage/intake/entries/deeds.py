"""What was done to the vehicle, told in the same breath as what its modules held after it: "cleared everything, drove
10 min: engine P2122 only"."""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.entries.clauses import Clause
from triage.intake.naming.names import Names
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT
from triage.intake.said import conditions, phases, volts
from triage.model.snapshot import Phase

#: Done by somebody else, before anything was read.
_LONG_AGO = lazily(
    r"(?<![a-z])(?:last (?:week|month|year|time|visit)|yesterday|the other day|ago|previous(?:ly)?|earlier|already|"
    r"by (?:the|a|another|someone|somebody|his|her|their)|(?:customer|owner|driver|garage)s? (?:had |has |says |said )*"
    r"(?:he |she |they )?(?:had |has )?(?:cleared|erased|driven|drove)|gestern|letzte[nr]? (?:woche|monat|mal)|schon|"
    r"bereits|hier|deja|semaine derniere|ayer|"
    r"ya(?! (?:no|esta|estan|sin|nada|limpi)(?![a-z]))|semana pasada|anteriormente)(?![a-z])"
)
#: "Codes cleared: P0562" lists what was there before.
_LISTED = lazily(
    r"[\s,-]*(?:(?:the|all|these|following) )*(?:(?:codes?|faults?|dtcs?|fehler) )?(?:were |have been )?"
    r"(?:cleared|erased|deleted|wiped|geloscht|efface(?:e?s)?|borrad[oa]s?)"
    r"(?: (?:the )?(?:codes?|faults?|dtcs?|fehler))?\s*:"
)
_THEN = lazily(
    r"\s*(?:and |und |et |y )?(?:then|next|now|after(?:wards?| that| this| which)|once more|again|dann|danach|"
    r"anschliessend|jetzt|nun|puis|ensuite|apres|maintenant|luego|despues|ahora|entonces)(?![a-z])")
#: What was not done, or is still to be.
_NOT_YET = lazily(
    r"(?<![a-z])(?:not|never|no|won'?t|can'?t|didn'?t|will|need|needs|must|should|if|when(?:ever)?|before|prior|"
    r"earlier|vorher|zuvor|avant|antes|nicht|kein|nie|pas|jamais|sans|"
    r"nunca|wenn|quand|si|cuando|going to|want)(?![a-z])")
#: Another scan of the same modules, without a word for its phase: "put the charger on and scanned again".
_AGAIN = lazily(
    r"(?<![a-z])(?:re-?scan(?:ned|ning)?|"
    r"(?:scann?ed|read|polled|checked|went (?:round|through)|did|ran|tried)(?: (?:it|them|everything|all|the lot|"
    r"the codes|"
    r"the scan|a scan|the modules)){0,2} (?:again|once more|a second time|over again)|"
    r"(?:second|2nd|another|new|next|fresh) (?:scan|go|round|pass|sweep|read-?out|reading|run through)(?= |:)|"
    r"(?:noch ?mals?|noch einmal|erneut|wieder|neu) (?:aus)?(?:gelesen|gescannt)|"
    r"zweite[rsn]? (?:durchgang|durchlauf|scan|auslesung|runde)|"
    r"relues?|relecture|(?:lue?s?|lecture|scannee?) (?:a nouveau|encore une fois)|nouvelle lecture|"
    r"(?:deuxieme|seconde?) (?:lecture|passage|scan|tour)|releid[oa]s?|(?:leid[oa]s?|escanead[oa]s?) (?:otra vez|"
    r"de nuevo)|"
    r"(?:segunda|nueva) (?:lectura|pasada|vuelta)|segundo escaneo)(?![a-z])"
)
_MARKS = lazily(rf"[;!?\n,:]\s+|\.{{1,3}}{NOT_SHORT}\s+|\s-+\s")


def lead(low: str, clauses: Sequence[Clause]) -> int:
    """Where the first clause of a sentence that tells of a module begins, or its first name, code or answer."""
    facts = [at for clause in clauses
             for at in (*(name[0] for name in clause.names), *(code.start for code in clause.codes),
                        *(hit.start for hit in clause.answers))]
    first = min(facts, default=len(low))
    marks = list(_MARKS.finditer(low, 0, first))
    if not marks:
        return first
    # "Cleared it, ran it for ten minutes and P0420 was back", "charged it, cleared and on the second read only P0420"
    last = low[marks[-1].end() : first]
    said = conditions.find(last)
    return first if said.ran_minutes or said.drove or done(last) else marks[-1].start()


def heads_a_list(low: str) -> bool:
    """Whether a row begins with a heading of codes that were cleared."""
    return _LISTED.match(low) is not None


def behind_volts(low: str) -> int:
    """Where the deed begins that a supply is told of before: it was read for the scan behind the deed; else 0.

    >>> behind_volts("charged the battery (12.7 v), cleared and on the second read"), behind_volts("cleared, 12.7 v")
    (30, 0)
    """
    at = next((deed.start for deed in phases.events(low) if deed.what == "cleared"), 0)
    return at if at and volts.find(low[:at]) else 0


def done(low: str) -> bool:
    """Whether a text tells that the codes were cleared, or that the vehicle was driven."""
    done = any(deed.what in ("cleared", "drove") and deed.answer != "refused" for deed in phases.events(low))
    return done and _LONG_AGO.search(low) is None


def ran(low: str, told: int) -> bool:
    """Whether a sentence begins with how the engine ran or the vehicle was driven before it tells of a module (at
    ``told``): "then took the charger off and ran it for 10 mins, 14.8 V, same code".

    >>> ran("then ran it for 10 mins, engine p0562", 25), ran("engine p0562 came back when i ran it for 10 mins", 7)
    (True, False)
    """
    lead = low[:told]
    if not conditions.run_spans(lead) or _NOT_YET.search(lead) is not None or _LONG_AGO.search(lead) is not None:
        return False
    # Else it may tell how the engine ran before the scan above.
    return _THEN.match(lead) is not None or bool(volts.find(lead))


def scans_again(low: str, said: Sequence[int], start: int) -> bool:
    """Whether a sentence, which begins at a place of its row, tells that all was read once more before it tells of a
    module."""
    first = min((at - start for at in said if start <= at < start + len(low)), default=0)
    lead = low[:first]
    return (_AGAIN.search(lead) is not None and _NOT_YET.search(lead.replace("without", "")) is None
            and _LONG_AGO.search(lead) is None and not done(lead)
            and ((hit := phases.find(lead)) is None or hit.phase == "before-clear"))


def of_same(names: Names, low: str, other: str) -> bool:
    """Whether two texts in small letters name the same module."""
    named = {names.match(low[start:end]).canonical for start, end, _ in names.find(low)}
    return any(names.match(other[start:end]).canonical in named for start, end, _ in names.find(other))


def opened(low: str, said: Sequence[int]) -> tuple[Phase | None, str] | None:
    """What a sentence begins with that makes it another scan: its phase and what to say of it."""
    if runs(low, said, 0):
        return "after-run", "the engine ran since what is told above: taken for another scan"
    return (None, "read once more: taken for another scan") if scans_again(low, said, 0) else None


def runs(low: str, said: Sequence[int], start: int) -> bool:
    """Whether a sentence, which begins at a place of its row, tells how the engine ran before it tells of a module.
    ``said``: where codes and answers stand."""
    first = min((at - start for at in said if start <= at < start + len(low)), default=0)
    return ran(low, first) and phases.find(low[:first]) is None


__all__ = ["behind_volts", "done", "heads_a_list", "lead", "ran", "runs"]
