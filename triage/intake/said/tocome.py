"""What is still to come: a plan tells nothing of the vehicle as it was scanned ("will put the charger on").

>>> done("charger off. will put the charger on and call you back. 11.4 v")
'charger off.                                          . 11.4 v'
>>> clauses_done("no charger, jump pack to come later"), done("after clear, had to put the charger on")
('no charger,                        ', 'after clear, had to put the charger on')
>>> clauses_done("10.8 v, je branche le booster et je te redis"), clauses_done("j'ai branche le booster et je te redis")
('10.8 v,                                     ', "j'ai branche le booster et je te redis")
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

#: Without one of these no line tells of a plan.
_SIGNS = lazily(
    r"will|'ll|shall|going|gonna|about to|needs? |plan|want|ha(?:ve|s) to|should|must|tom{1,2}or|2mor|tmrw|next|"
    r"nachste |prochain|proxim|to be |to come|to follow|"
    r"later|werde|muss|soll|noch|vais|allons|faut|faudra|demain|voy |vamos |hay que|tengo que|habra|manana|devo|"
    r"domani|moet|ill |let me |gleich|tonight|kommt|melde|bescheid|ruf |je te|je vous|te digo|te aviso|te llamo|"
    r"te cuento|os digo"
)
#: What somebody says he does, and that he will be heard of once it is done: "je branche le booster et je te redis".
_AND_THEN = (
    r"(?:je|on) (?!a |avait |viens |suis )[a-z]+ (?:[\w'-]+,? ){1,7}?(?:(?:et|puis|apres) )(?:je|on) (?:te |vous |le |"
    r"t'|re)\s?[a-z]+|"
    r"(?:ich|wir) (?!hab|hatte|war|bin|sind)[a-z]+ (?:[\w'-]+,? ){1,7}?(?:und|dann) (?:melde|sage?|rufe?|schreibe?|"
    r"gebe?) (?:ich )?(?:mich|dich|dir|euch|ihnen|bescheid)|"
    r"(?:ich|wir) (?!hab|hatte|war|bin|sind)[a-z]+ (?:[\w'-]+ ){0,2}?gleich(?! (?:nach|danach|null|geblieben))|"
    r"(?<!ich )(?:hange?|klemme?|schliesse?|stecke?|starte|losche|messe) (?:[\w'-]+ ){0,2}?gleich|"
    r"(?![a-z]+[ai]do |puesto |hecho |visto )[a-z]{3,12}o (?:el|la|un|una|los|las) (?:[\w'-]+,? ){1,6}?(?:y|luego) "
    r"(?:te|os|le) (?:digo|aviso|llamo|cuento|confirmo|escribo)"
)
_PLAN = lazily(
    r"(?<![a-z])(?:will(?! (?:not|only)(?![a-z]))|shall|going to|gonna|about to|needs? (?:to|an?|the)|"
    r"plan(?:s|ning)? (?:to|on)|(?:goes|going|comes?) (?:on|off|in) (?:later|tonight|next|once|after)|"
    r"kommt (?:[a-z]+ )?(?:spater|nachher|gleich|danach|heute abend|morgen)|"
    r"wants? to|ha(?:ve|s) to|should|must|(?:tom{1,2}|2m)or{1,2}ow|tmrw|next(?=\s?:)|"
    r"next (?:week|month|visit|monday|tuesday|wednesday|thursday|friday|saturday)|nachste woche|"
    r"(?:la )?semaine prochaine|(?:la )?(?:proxima semana|semana proxima)|to be(?= [a-z]+(?:ed|"
    r"t)(?![a-z]))|"
    r"to come|to follow|later(?=\s*(?:[.,;!]|$))|werde(?![nt])|(?:wird|werden|muss|mussen|soll) noch|kommt noch|"
    r"(?:muss|mussen|sollte?n?)(?= [a-z])|vais|allons|(?:il )?faut|faudra|demain|voy a|vamos a|hay que|tengo que|"
    r"habra que|manana(?= [a-z])|devo|domani|moet|let me|"
    r"ill(?= (?:just |now |then )?(?:hook|put|connect|clip|fit|leave|charge|jump|scan|run|drive|clear|check|try|"
    r"read|call|let|get|do|take|swap|send|change|replace|ring|come|start|boost|give|report)(?![a-z]))|"
    rf"{_AND_THEN})(?![a-z])|(?<=[a-z])'ll(?![a-z])"
)
#: Where a plan ends: with its clause, if that names no further step.
_STOP = lazily(
    r"[;!?|)\n]|\.(?=\s|$)|,\s(?!(?:and|then|put|hook|connect|clip|fit|leave|clear|check|read|und|dann|et|puis|y|luego)"
    r"(?![a-z]))|\s(?:but|aber|mais|pero)\s|\s-\s"
)


@remembered
def done(low: str) -> str:
    """A line in small letters with spaces in place of what is only planned, as long as it was."""
    return _without(low, False)


@remembered
def clauses_done(low: str) -> str:
    """The same, also without what stands before the plan in its clause ("jump pack to come later")."""
    return _without(low, True)


def _without(low: str, whole: bool) -> str:
    """A line without its plans."""
    if len(low) > 600 or _SIGNS.search(low) is None:
        return low
    last = 0
    for match in _PLAN.finditer(low):
        if match.start() < last:
            continue
        stop = _STOP.search(low, match.end())
        end = stop.start() if stop is not None else len(low)
        cuts = [cut.end() for cut in _STOP.finditer(low, last, match.start())] if whole else [match.start()]
        begin = cuts[-1] if cuts else last
        begin += len(low[begin:end]) - len(low[begin:end].lstrip())
        low, last = low[:begin] + " " * (end - begin) + low[end:], end
    return low


__all__ = ["clauses_done", "done"]
