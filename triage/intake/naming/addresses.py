"""Addresses of modules beside their names; what is left of a line is its first group."""

from __future__ import annotations

from triage.intake.plain.patterns import lazily

#: "0x2C - Radio", "[11] Brakes", "ECU 17: Cluster".
BEFORE = lazily(
    r"(?:(?:[eE][cC][uU](?: [iI][dD])?|[sS][tT]?[gG]|[iI][dD]|[cC][aA][nN](?: [iI][dD])?)\s?[:=#]?\s?"
    r"(?:0[xX]|\$)?(?=[0-9a-fA-F]*[0-9])[0-9a-fA-F]{2,8}h?|"
    r"(?:(?i:sa|source address|addr(?:ess)?|adresse?|direcci(?:o|\u00f3)n)\s?[:=#]?\s?)?"
    r"(?:\[\s?(?:0[xX]|\$)?[0-9a-fA-F]{1,8}h?\s?\]|(?:0[xX]|\$)[0-9a-fA-F]{1,8}|"
    r"(?=[0-9a-fA-F]*[0-9])[0-9a-fA-F]{1,3}h?))"
    r"(?:\s*[-:.)\]]{0,2}\s+|-)([^\W\d_].*)"
)
#: "Radio (0x2C)", "Radio / 0x2C".
BEHIND = lazily(
    r"(.*\S)(?:\s*[\[(]\s?(?:0[xX]|\$)?(?=[0-9a-fA-F]*[0-9])[0-9a-fA-F]{2,8}h?\s?[\])]|"
    r"(?:\s+[/@|-]\s*|,\s+)0[xX][0-9a-fA-F]{1,8})"
)
#: One that nothing else is, whatever the name before it.
MARKED = lazily(r"[\[(]\s?(?:0[xX]|\$)[0-9a-fA-F]{2,4}\s?[\])]$")
#: The same with the word for it: "EBS (SA 11)", "Body [source address 33]", "Tacho - address 0xEE".
LABELLED_BEHIND = lazily(
    r"(.*[^\s,;:(\[-])\s*(?:[\[(]\s?|,\s?|\s-\s)(?i:sa|source[ -]address|addr(?:ess)?|adresse?|"
    r"direcci(?:o|\u00f3)n|diag(?:nostic)? (?:id|address)|can id|ecu id|ecu|id|node)"
    r"\.?\s?[:=#]?\s?(?:0[xX]|\$)?(?=[0-9a-fA-F]*[0-9])[0-9a-fA-F]{1,8}h?\s?[\])]?"
)
#: "Roof @ 0x3C", "Engine @ $1A".
AT_BEHIND = lazily(r"(.*\S)\s*@\s?(?:(?:0x|\$)[0-9a-fA-F]{1,4}|(?=[0-9a-fA-F]*[0-9])[0-9a-fA-F]{1,3}h?)")
#: What was done to a module, in brackets behind its name: "BCM (new, p/n as ordered)", "ABS (used part)".
OF_WORK = lazily(
    r"(?i)(.{2,40}?)\s*\((?:new|used|second[ -]?hand|replaced|refurbished|exchange|repaired|reconditioned|fitted|"
    r"renewed|aftermarket|neu|gebraucht|ersetzt|getauscht|neuf|neuve|d'occasion|remplace|nuev[oa]|usad[oa])(?![a-z])[^()]{0,40}\)")
