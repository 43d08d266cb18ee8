"""The voltages of a text judged together by the nominal supply of the vehicle."""

from __future__ import annotations

from triage.intake.entries.voltplaces import take_loose_nominal
from triage.intake.plain.characters import Line
from triage.intake.scan.assembly import SnapshotDraft
from triage.intake.scan.context import Context

#: Two readings of one supply differ by less than this, V: the project's own choice.
_ROUNDED = 0.2
#: What a 12 V battery at rest and one being charged show, V: common practice.
_FULL, _MOST_OF_12 = 12.0, 15.5


def judge(context: Context) -> None:
    """Voltages of a 24 V vehicle are no supply of a 12 V one, and the other way round; what can't be is not used."""
    for draft in context.builder.snapshots:
        if draft.phase is not None and take_loose_nominal(context, draft):
            draft.volts = None
    seen = [value for value, _, _ in context.volts_seen]
    if not seen:
        return
    vehicle = context.builder.vehicle | context.facts.values
    nominal = vehicle.get("nominal_volts")
    high = [value for value in seen if value > 18.0]
    # The lowest of a 24 V vehicle falls far on cranking, though seldom below half of what it has.
    low = [value for value, _, volt in context.volts_seen
           if value <= 16.5 and (volt.of != "lowest" or not high or value < min(high) / 2)]
    if (nominal is None or (nominal == 12.0 and context.builder.of_one_battery)) and high and not low:
        # Two batteries of "12 V 95 Ah" feed a 24 V vehicle.
        context.builder.vehicle["nominal_volts"] = 24.0
        context.builder.notice(
            "note",
            f'{high[0]:g} V: taken as the supply of a 24 V vehicle; say "12 V vehicle" if it is not',
            *_spot(context, high[0]),
        )
        return
    if nominal == 24.0 and not high:
        _doubt_24(context)
    if nominal == 24.0 or not high:
        return
    why = "a 12 V vehicle" if nominal == 12.0 else "a vehicle whose other readings are of 12 V"
    for value in sorted(set(high)):
        context.builder.notice(
            "warning",
            f'{value:g} V can\'t be the supply of {why}: not used; say "24 V vehicle" if it is one',
            *_spot(context, value),
        )
    bad = set(high)
    for draft in context.builder.snapshots:
        draft.volts = None if draft.volts in bad else draft.volts
        draft.lowest = None if draft.lowest in bad else draft.lowest
        draft.end_volts = None if draft.end_volts in bad else draft.end_volts
        draft.column_volts = [value for value in draft.column_volts if value not in bad]
        for module in draft.modules.values():
            module.volts = None if module.volts in bad else module.volts


def set_right(context: Context, draft: SnapshotDraft) -> None:
    """A supply below its own lowest: which of the two is none nobody can tell, and neither is used."""
    volts, lowest = draft.volts, draft.lowest
    if volts is None or lowest is None or lowest - volts <= _ROUNDED:
        return
    context.builder.notice(
        "warning", f"{volts:g} V can't be the supply of a scan whose lowest was {lowest:g} V: neither is used; "
        f'write the supply as "battery 12.4 V, lowest 11.8 V"', *_spot(context, volts))
    draft.volts = draft.lowest = None


def _doubt_24(context: Context) -> None:
    """A warning where every supply read is of a 12 V battery that is not even flat: a support of 24 V would be named
    for a vehicle that it breaks."""
    read = [draft.volts for draft in context.builder.snapshots if draft.volts is not None]
    if read and all(_FULL <= value <= _MOST_OF_12 for value in read):
        context.builder.notice(
            "warning",
            f'{read[0]:g} V can hardly be the supply of a 24 V vehicle: connect nothing of 24 V before its batteries '
            'are looked at; say "12 V vehicle" if it is one',
            *_spot(context, read[0]),
        )


def _spot(context: Context, value: float) -> tuple[Line | None, int, int]:
    """The line and the place of a voltage seen; none of one that came with its column."""
    for number, row, volt in context.volts_seen:
        if number == value:
            return row.line, row.start + volt.start, row.start + volt.end
    return None, 0, 0


__all__ = ["judge", "set_right"]
