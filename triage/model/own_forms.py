"""The forms of makers' own numbers: the one table to edit for another one.

Each row has an example, the pattern of the form in capitals, and what else is written so:

- ``sure``: nothing else has so much the form of a code.
- ``usual``: counts, parts, roads or streets are written so too: a status, a name or other codes must stand beside it.
- ``short``: bytes, distances and orders are written so too: a status must, or several lines alike.
- ``bare``: years, hours, prices and counts are written so too: the lines must be those of a list of codes.
- ``apart``: names with a number are written so too: at the start of a line below a module, or a word or key for a code.
- ``weak``: connectors, terminals, versions or doors are written so too: several lines of a list that begin alike, or a
  word or key for a code.

The sign for hexadecimal digits belongs to the number ("0x9A12"): who looks it up has it so in the list.
Letters that number other things (below) make no code, whatever follows. The reader asks the table through
`triage.intake.codes.ownnumbers`. Makers' forms are common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

Weight = Literal["sure", "usual", "short", "bare", "weak", "apart"]


class Form(NamedTuple):
    """One form of a maker's own number."""

    example: str
    pattern: str
    weight: Weight

    @property
    def parted(self) -> bool:
        """Whether a mark or a blank parts the number, which is then written in capitals."""
        return not self.example.isalnum()


#: Hexadecimal digits with both letters and decimals among them.
_BOTH = r"(?=[0-9]{0,5}[A-F])(?=[A-F]{0,5}[0-9])"

FORMS = (
    Form("9A12B4", _BOTH + r"[0-9A-F]{6}", "sure"),
    Form("K20417", r"(?![PCBU])[A-Z][0-9]{5}", "sure"),
    Form("K.204", r"[A-Z]{1,2}[.-][0-9]{3}", "sure"),
    Form("K-A204", r"[A-Z]{1,2}[.-](?![OIL][0-9])[A-Z]{1,2}[0-9]{3}", "sure"),
    Form("01314", r"[0-9]{5}", "usual"),
    Form("9A12B", _BOTH + r"[0-9A-F]{5}", "usual"),
    # Shorter ones with the same sign are addresses and bytes, longer ones the identifiers of messages.
    Form("0x9A12", r"0X[0-9A-F]{4,6}", "usual"),
    Form("DF513", r"[A-Z]{1,2}[0-9]{3}", "usual"),
    Form("K4729", r"[A-Z]{1,2}[0-9]{4}", "usual"),
    # Lamp bulbs end with a W: "H21W".
    Form("K47F", r"(?![PCBU])[A-Z][0-9]{2,3}[A-VX-Z]", "usual"),
    Form("K4F27", r"(?![PCBU])[A-Z][0-9][A-Z][0-9]{2}", "usual"),
    Form("27-140", r"[0-9]{2}-[0-9]{3}", "usual"),
    Form("QM-4410", r"(?![PCBU]-[0-9]{4}(?![0-9A-Z]))[A-Z]{1,3}-[0-9]{4,5}[A-Z]?", "usual"),
    Form("X12-204", r"(?![PCBU][0-3])[A-Z]{1,2}[0-9]{1,2}-[0-9]{3,4}", "usual"),
    Form("2AAF", _BOTH + r"[0-9A-F]{4}", "short"),
    Form("6214", r"[0-9]{4}", "bare"),
    Form("123456", r"[0-9]{6}", "short"),
    Form("LMR123", r"[A-Z]{3,4}[0-9]{3}", "usual"),
    Form("LMR-123", r"[A-Z]{3,4}[.-][0-9]{3}", "usual"),
    Form("AB 123", r"[A-Z]{1,4} [0-9]{3}", "apart"),
    Form("KA-12", r"[A-Z]{2,3}-[0-9]{2}", "weak"),
    Form("NT 55", r"[A-Z]{2,3} [0-9]{2}", "weak"),
    # Months and years are written so too: "2025-11".
    Form("3301-01", r"(?!(?:19|20)[0-9]{2}-(?:0[1-9]|1[0-2]))[0-9]{4}-[0-9]{2}", "weak"),
    Form("E2-14", r"(?![PCBU][0-3])[A-Z]{1,2}[0-9]{1,2}-[0-9]{2}", "weak"),
)

#: Letters before the number of something else: a part, a version, a standard.
OF_OTHERS = ("HW", "SW", "FW", "SN", "PN", "ID", "SA", "NR", "NO", "REV", "VER", "TYP", "ISO", "SAE", "DIN", "EN",
             "ECE", "IEC", "KWP", "CAN", "MID")
#: The same where a mark or a blank is between: terminals, connectors, fuses, relays, bays.
OF_WIRING = ("KL", "CN", "CON", "PIN", "FU", "FUS", "SI", "RL", "RLY", "REL", "RY", "GND", "MA", "BAY", "PLC")
#: The same of a date, a measure, a part of a message, and plain words in a text of capitals.
OF_WORDS = ("JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC", "KM", "AM", "PM",
            "DTC", "ERR", "SPN", "FMI", "MID", "SID", "PID", "OC", "QTY", "REF", "TSB", "VIN", "AT", "IN", "ON", "TO",
            "OF", "UP", "BY", "ALL", "AUF", "BIS", "VON", "BEI", "IM", "DE", "DU", "AU", "LH", "RH", "LF", "RF", "LR",
            "RR")
#: Letters before the address of a module, if no status tells of a fault.
OF_MODULES = ("ECU", "STG", "SG", "ADDR", "NODE", "MOD", "UNIT", "CALC", "BUS", "SYS", "POS", "TERM")


def accepted(forms: Sequence[Form], small: str = "") -> str:
    """The pattern of forms, without the letters of others, which are asked for once for all. ``small``: the flag with
    which numbers in one piece may have small letters.

    A number in one piece and one that is parted never begin at one place, so that either may be tried first.
    """
    ways = []
    for parted, others, flag in ((False, OF_OTHERS, small), (True, (*OF_OTHERS, *OF_WIRING, *OF_WORDS), "")):
        if patterns := "|".join(form.pattern for form in forms if form.parted == parted):
            ways.append(rf"(?{flag}:(?!(?:{'|'.join(others)})[ .-]?[0-9])(?:{patterns}))")
    return "|".join(ways)


__all__ = ["FORMS", "OF_MODULES", "OF_OTHERS", "OF_WIRING", "OF_WORDS", "Form", "Weight", "accepted"]
