"""Numbers by which a module, its software or a part is identified, where groups of them look like a code.

>>> def held(text, part):
...     start = text.index(part)
...     return holds(text.lower(), start, start + len(part))
>>> held("Part number: 51-P0620-A", "P0620"), held("SW part no 77 4410 B1325", "B1325"), held("P/N AB-P0562-X", "P0562")
(True, True, True)
>>> held("SW 0412 P0562 stored", "P0562"), held("part no 4410: P0562", "P0562"), held("fuse 12 P0562", "P0562")
(False, False, False)
"""

from __future__ import annotations

from triage.intake.plain import signs
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, word_set, words

#: What surely leads to such a number; with what may stand beside it.
_KEYS = word_set(
    "part parts pn sw hw fw software hardware firmware serial sn calibration cal calid cvn teilenummer teilenr "
    "teilnummer teile sachnummer sachnr seriennummer artikelnummer bestellnummer softwarestand hardwarestand "
    "softwareversion hardwareversion datenstand reference referencia reff piece pieza serie logiciel materiel numero"
)
_BESIDE = word_set(
    "p n s no nos nr num number numbers nummer version ver id index level stand rev revision de du des of the la le "
    "del der programa etalonnage calibracion"
)
#: Of those, what leads to a number of several groups.
_GROUPED = word_set(
    "part parts pn serial sn teilenummer teilenr teilnummer teile sachnummer sachnr seriennummer artikelnummer "
    "bestellnummer reference referencia piece pieza serie no nr num number nummer numero"
)
_SIGN = signs.of_words((_KEYS | {"n"}).__contains__)
_JOINTS = ("-", "/", ".", "_")
_EDGE = lazily(r"\s{2,}|[|;,\t]")
_CODE = lazily(r"(?<![0-9a-z])[pcbu][0-3][0-9a-f]{3}(?![0-9a-z])")
#: A failure type behind a code.
_TYPE = lazily(r"-[0-9a-f]{2}(?![0-9a-z])")
_APART = lazily(r"[:=>(\[]")
_REACH, _SHORT, _GROUPS = 60, 3, 2


def holds(low: str, start: int, end: int) -> bool:
    """Whether the place ``start``..``end`` is a group of such a number: joined to another by a hyphen or the like
    behind a key for it, or set apart by a space in a piece of the line that holds nothing else."""
    joined = low[start - 1 : start] in _JOINTS
    if start < 4 or not (joined or (low[start - 1] == " " and low[start - 2].isalnum())):
        return False
    if start <= _REACH and not signs.of(low) & _SIGN:
        return False
    before = low[max(0, start - _REACH) : start]
    plain = WORD.findall(before)
    if _KEYS.isdisjoint(plain) and "n" not in plain:
        return False
    before = before[max((edge.end() for edge in _EDGE.finditer(before)), default=0) :]
    found = words(before)
    key = max((at for at, (word, _, _) in enumerate(found) if word in _KEYS or _is_pair(found, at)), default=-1)
    groups = [part for part in found[key + 1 :] if part[0] not in _BESIDE]
    if key < 0 or not groups or not all(has_digit(word) or len(word) <= _SHORT for word, _, _ in groups):
        return False
    if _APART.search(before, groups[0][2]):
        # "SW 0412: P0562"
        return False
    return joined or _fills(low, found, groups, end)


def _is_pair(found: tuple[tuple[str, int, int], ...], at: int) -> bool:
    """Whether "P/N" or "S/N" ends at a word."""
    return at > 0 and found[at][0] == "n" and found[at - 1][0] in ("p", "s")


def _fills(
    low: str, found: tuple[tuple[str, int, int], ...], groups: list[tuple[str, int, int]], end: int
) -> bool:
    """Whether a piece of a line that begins with ``found`` and goes on at ``end`` holds such a number and nothing else,
    the groups before that enough to tell."""
    first = found[0][0]
    if not (first in _KEYS or first in _BESIDE) or not has_digit(groups[-1][0]):
        return False
    several = len(groups) >= _GROUPS or any(word in _GROUPED for word, _, _ in found)
    if not several or _TYPE.match(low, end):
        return False
    if _CODE.match(low[end : end + _REACH].lstrip(" ,;&/+|")):
        # "cal 51 4412 P0562, P0563"
        return False
    edge = _EDGE.search(low, end)
    rest = low[end : edge.start() if edge is not None else len(low)]
    if _CODE.search(rest) or any(_CODE.match(word) for word, _, _ in groups):
        return False
    return all(has_digit(word) or len(word) <= _SHORT or word in _KEYS or word in _BESIDE for word, _, _ in words(rest))


__all__ = ["holds"]
