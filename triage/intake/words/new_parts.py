"""Parts that are changed for another, and how it is said that one is new since a day or so."""

from __future__ import annotations

#: What is changed for another: of anything else "changed" says little.
CHANGED = (
    r"battery|batt|batteries|alternator|generator|starter|sensor|module|unit|fuse|relay|strap|cable|ecu|[a-z]*batterie|"
    r"lichtmaschine|steuergerat|[a-z]*sensor|alternateur|calculateur|capteur")
#: When it was, behind what is new: a day or so ago.
LATELY = (r"(?:yesterday|today|this morning|last night|just now|gestern|heute|hier|aujourd'hui|ce matin|ayer|hoy)"
           r"(?=\s*(?:[,.;]|$))")
#: "New battery yesterday", of a part that is there and not of one that somebody wants.
NEW_LATELY = (
    rf"(?<!a )(?<!the )new (?:{CHANGED}) {LATELY}|put (?:an? |the )?new (?:{CHANGED}) in(?![a-z])|"
    rf"(?<!eine )(?<!die )neue[rns]? (?:{CHANGED}) {LATELY}|"
    rf"(?:{CHANGED}|bateria|alternador) (?:neu(?:f|ve)|nuev[oa]) (?:d'|de )?{LATELY}")

__all__ = ["CHANGED", "LATELY", "NEW_LATELY"]
