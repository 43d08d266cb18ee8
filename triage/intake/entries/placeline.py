"""What was measured at the connector of a part that is no module: "right actuator plug: 0.0 V commanded, left 12.1 V
commanded". It is no supply of the vehicle; it is kept as a reading under the words beside it.
"""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, pins
from triage.intake.said.answers import spoken
from triage.intake.scan.context import Context
from triage.model.connector_words import elsewhere
from triage.model.snapshot import Reading

_FIGURE = lazily(r"(?<![\w.,])(?P<value>[0-9]{1,2}(?:[.,][0-9]{1,3})?) ?(?P<unit>mv|v|volts?)(?![\w/])")
_PARTS = lazily(r"[;,](?=\s)|\.(?=\s)|\s(?:and|und|et|y|but|aber|mais|pero|then)\s")
#: Said of a scan, of what is allowed, or of what is still to be done.
_NO_READING = lazily(
    r"(?<![a-z])(?:engine running|lowest|after (?:the )?(?:run|clear|repair)|nothing connected|limit|max(?:imum)?|"
    r"should|spec|expected|less than|not measured|soll|measure|check|to be)(?![a-z])")
_AROUND, _LONGEST, _LONGEST_NAME = " -*\u2022.:=,;", 160, 90


def read(context: Context, row: Row) -> bool:
    """Whether a row without a code tells what was measured at such a place, and nothing else; kept."""
    low = row.low
    if len(low) > _LONGEST or elsewhere(pins.without_far(low)) != "place" or _NO_READING.search(low) or (
            phases.find(low) is not None) or spoken(low) or context.names.find(low):
        return False
    figures = list(_FIGURE.finditer(low))
    if not figures or elsewhere(low[: figures[0].start()]) != "place":
        return False
    begin, told = 0, []
    for figure, after in zip(figures, [*(figure.start() for figure in figures[1:]), len(low)], strict=True):
        cut = _PARTS.search(low, figure.end(), after)
        end = cut.start() if cut is not None and after != len(low) else after if after == len(low) else figure.end()
        before, behind = (row.text[slice(*span)].strip(_AROUND) for span in (
            (begin, figure.start()), (figure.end(), end)))
        name = f"{before}, {behind}" if before and behind else before or behind
        if not name:
            return False
        value = float(figure["value"].replace(",", ".")) / (1000.0 if figure["unit"] == "mv" else 1.0)
        told.append(Reading(name=name[:_LONGEST_NAME], value=round(value, 3), unit="V"))
        begin = end if cut is None else cut.end()
    context.builder.snapshot.readings += told
    return True


__all__ = ["read"]
