"""What the vehicle does after a start, as who drives it tells: no word of when the scan was taken.

>>> left_out("the charging lamp flickers for a second after start. u0100").split()
['the', 'charging', 'lamp', 'flickers', 'for', 'a', 'second', '.', 'u0100']
>>> left_out("scan after start: lamp flickers") == "scan after start: lamp flickers"
True
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.words.phase_words import STARTED, STARTED_ELSEWHERE

_START = rf"(?:{STARTED}|{STARTED_ELSEWHERE})(?![a-z])"
#: What a lamp, the steering or the engine does.
_DOES = lazily(
    r"(?<![a-z])(?:goes (?:heavy|hard|stiff|dim|dark|dead|light|blank|off|out|limp)|"
    r"(?:gets|feels|is|becomes|turns|went|got|felt) (?:very |quite |really |too )?"
    r"(?:heavy|hard|stiff|dim|noisy|rough|hot|light)|flicker(?:s|ed|ing)?|"
    r"blink(?:s|ed|ing)?|flash(?:es|ed|ing)|rattl(?:es|ed|ing)|knock(?:s|ed|ing)|smok(?:es|ed)|stall(?:s|ed|ing)|"
    r"shak(?:es|ed)|squeal(?:s|ed)|whin(?:es|ed)|hunts|surges|cuts out|dies|lights? up|(?:lamps?|lights?) "
    r"(?:(?:come|comes|came|stays?|goes|go) )(?:on|off|out)|"
    r"flackert|blinkt|leuchtet|ruckelt|klappert|quietscht|(?:geht|wird) (?:aus|schwer|an)|"
    r"(?:lampe|leuchte) (?:geht|ging)|"
    r"clignote|vacille|s'allume|broute|cale|fume|devient dure?|parpadea|se enciende|se apaga|tiembla|se cala|"
    r"se pone dur[oa])(?![a-z])"
)
_THEN_START = lazily(rf"[^.,;:!?|()]{{0,40}}?(?<![a-z])({_START})")
_START_FIRST = lazily(rf"(?<![a-z])({_START}),?(?= (?!i |we |ich |wir |je |on )[a-z' ]{{2,50}}$)")
_CODE = lazily(
    r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}|"
    r"(?<![a-z])(?:scan\w*|codes?|dtcs?|faults?|read|fehler\w*|defauts?|averias?)(?![a-z])"
)
#: When the complaint began is no word of when the scan was taken: "it began after the winch was fitted".
_BEGAN = lazily(
    r"(?<![a-z])(?:(?:it all|this|that|problems?|troubles?|issues?|faults?|noises?|complaints?) (?:(?:has|have|had|all|"
    r"only|first) ){0,2}(?:started|appeared)|(?:lamps?|lights?) (?:first )?(?:came on|appeared)|began|begun|begann|"
    r"fing an|trat(?: erst)? auf|commence|apparue?s?|empezo|comenzo|aparecio)"
    r"(?: (?:straight|right|just|shortly|soon|directly|only|erst|kurz|direkt|juste|justo)){0,2} "
    r"(after|following|nach|apres|tras|despues)(?![a-z])"
)
_OPENS = ".;!?|\n:"


def left_out(low: str) -> str:
    """A line in small letters with spaces in place of a start after which the vehicle did something, and of the "after"
    behind which a complaint began, as long as it was."""
    for began in _BEGAN.finditer(low):
        begin = max(low.rfind(mark, 0, began.start()) for mark in _OPENS) + 1
        if _CODE.search(low, begin, began.start()) is None:
            low = low[: began.start(1)] + " " * (began.end(1) - began.start(1)) + low[began.end(1) :]
    if "start" not in low and "demarr" not in low and "arran" not in low and "anlassen" not in low:
        return low
    for does in _DOES.finditer(low):
        begin = max(low.rfind(mark, 0, does.start()) for mark in _OPENS) + 1
        start = _THEN_START.match(low, does.end()) or _START_FIRST.search(low[: does.start()].rstrip(), begin)
        if start is not None and _CODE.search(low, begin, max(does.start(), start.start(1))) is None:
            low = low[: start.start(1)] + " " * (start.end(1) - start.start(1)) + low[start.end(1) :]
    return low


__all__ = ["left_out"]
