"""Notes that tell what a fuse feeds: "BCM and HVAC both hang on F12", "Sicherung F12 versorgt BCM und HVAC"."""

from __future__ import annotations

import re
import unicodedata

_FUSE = (r"(?:[fk] ?[0-9]{1,3}(?![0-9])|(?:(?:main|mega|midi|maxi|mini|blade|[0-9]{1,3} ?a) ?-?){0,2}"
         r"(?:fuses?|[a-z]{0,16}sicherung|fusible)(?! ?(?:box|board|panel|holder))"
         r"(?: (?:no\.?|nr\.?)? ?[fk]?[0-9]{1,3}(?! ?a(?![a-z]))(?![0-9]))?)")
#: "Hang on F12", "fed from midi fuse 60 A (K4)".
_ON = re.compile(
    rf"(?<![a-z])(?:hangs?|fed|supplied|powered|hang(?:en|t)|haengen|versorgt|gespeist|alimente(?:e|s|es)?|"
    rf"cuelgan?|alimentad[oa]s?|dependen?|dependent) (?:all |both |beide |alle )?"
    rf"(?:on|off|from|by|via|through|an|von|uber|ueber|durch|par|de|del|por|du) (?:the |der |la |le |el |l')?"
    rf"(?P<fuse>{_FUSE})")
#: "F12 feeds BCM".
_FEEDS = re.compile(
    rf"(?<![a-z0-9])(?P<fuse>{_FUSE})[^.;\n]{{0,30}}?(?<![a-z])(?:feeds|supplies|powers|versorgt|speist|alimente|"
    r"alimenta)(?![a-z])")
_NOT = re.compile(r"(?<![a-z])(?:not|no|nicht|kein\w*|pas|ne|may|might|if|whether|ob|si)(?![a-z])|\?")
_NUMBER = re.compile(r"(?<![a-z0-9])(?:[f] ?|(?:fuse|sicherung|fusible)(?: (?:no|nr)\.?)? ?)([k]?[0-9]{1,3})"
                     r"(?![0-9])(?! ?a(?![a-z]))|(?<![a-z0-9])(k[0-9]{1,2})(?![0-9])")
#: Who is fed where a note names nobody.
_ALL = re.compile(r"(?<![a-z])(?:all|both|alle|beide|tous|toutes|les deux|todos|todas|ambos|ambas)(?![a-z])")
_LONGEST = 300


def folded(text: str) -> str:
    """A text as it is compared: small, without accents.

    >>> folded("Über F12")
    'uber f12'
    """
    parts = unicodedata.normalize("NFKD", text[:_LONGEST].casefold())
    return "".join(char for char in parts if not unicodedata.combining(char))


def tells_feeding(text: str) -> bool:
    """Whether a text says what hangs on a fuse.

    >>> [tells_feeding(text) for text in ("BCM and HVAC both hang on F12.", "all 3 fed from midi fuse 60 A (K4)",
    ...     "Sicherung F12 versorgt BCM und HVAC", "alimentés par le fusible F12", "alimentados por el fusible 12")]
    [True, True, True, True, True]
    >>> [tells_feeding(text) for text in ("F12 blown", "not fed from F12", "fed from the fuse box under the dash")]
    [False, False, False]
    """
    low = folded(text)
    found = _ON.search(low) or _FEEDS.search(low)
    return found is not None and _NOT.search(low, max(0, found.start() - 20), found.end()) is None


def fuse_number(text: str) -> str:
    """The number of the fuse that a text names, empty where it names none.

    >>> fuse_number("fuse F12 (12.5 V on one side)"), fuse_number("Sicherung 12"), fuse_number("midi fuse 60 A (K4)")
    ('12', '12', 'k4')
    """
    found = _NUMBER.search(folded(text))
    return (found[1] or found[2]) if found is not None else ""


def says_all(text: str) -> bool:
    """Whether a text that names nobody speaks of all."""
    return _ALL.search(folded(text)) is not None


__all__ = ["folded", "fuse_number", "says_all", "tells_feeding"]
