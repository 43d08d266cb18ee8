"""What a scan was taken after, told by the drive alone: "town drive 10 km dry: none", "motorway wet, 20 min: lamp on".

Such a line heads the scan of its drive. It is written so behind the first codes of a text; before them it is a
complaint.

>>> from triage.intake.plain.characters import lines
>>> text = "motorway run: lamp on\\nABS C0035\\ntown drive 8 km dry: none (14.2 V)\\nradio run: ok"
>>> [line.text for line in written_out(lines(text))][2:]
['after run (town drive 8 km dry): none (14.2 V)', 'radio run: ok']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set

#: One of these must be in it, and nothing but these and a distance or a time.
_ROADS = word_set(
    "motorway highway freeway interstate autobahn landstrasse carriageway town city urban rural country stretch drive "
    "ride trip road autoroute autopista autovia carretera stadtfahrt fahrt strecke trajet parcours recorrido")
_BESIDE = _ROADS | word_set(
    "run test loop route km kms mi miles mile min mins minutes hour hours h kmh mph dry wet rain raining rainy cold "
    "hot warm "
    "night snow snowy spray same next day again long short slow fast straight constant speed rough way home then in on "
    "at of the a with no load loaded trailer dual speed steady traffic stop go and nass trocken regen gleiche selbe "
    "am tag darauf nachsten auf der pluie sec mouille humide sur la meme le jour suivant lluvia seco mojado misma dia "
    "siguiente por")
_SIGN = signs.of_words(_ROADS.__contains__)
_HEAD = lazily(r"[\s*\u2022-]*([a-z][a-z0-9 ,./&+-]{6,58}?)\s*(?::(?=\s)|$)")
_TOKEN = lazily(r"[a-z]+|[0-9.,/]+")
_CODE = lazily(r"(?<![a-z0-9])(?:[pcbu][0-3][0-9a-f]{3}(?![a-z0-9])|spn ?[0-9])")


def written_out(found: Sequence[Line]) -> list[Line]:
    """The lines, such heads behind the first code as the reader knows them. Linear in their length."""
    out = list(found)
    places = signs.places(found, _SIGN)
    first = next((at for at, line in enumerate(found) if _CODE.search(line.low)), len(found)) if places else len(found)
    for at in places:
        line = found[at]
        head = _HEAD.match(line.low) if at > first else None
        if head is None or _CODE.search(line.low) is not None or not _is_drive(head[1]):
            continue
        start, end = head.span(1)
        line = reworded(line, end - 1, end, f"{line.text[end - 1]})")
        out[at] = reworded(line, start, start + 1, f"after run ({line.text[start]}")
    return out


def _is_drive(low: str) -> bool:
    """Whether nothing but a drive is told: two words at least, or one with a figure."""
    told = _TOKEN.findall(low)
    words = [word for word in told if word[0].isalpha()]
    return len(told) > 1 and any(word in _ROADS for word in words) and all(word in _BESIDE for word in words)


__all__ = ["written_out"]
