"""The bands a voltage falls into: state of charge at rest, load test, charging. Figures from the limits table."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple

from triage.supply.limits import cite, interpolate, limit, series

if TYPE_CHECKING:
    from triage.model.session import BatteryType

ChargingBand = Literal["not charging", "undercharge", "low", "normal", "high", "overcharge", "overvoltage"]
#: The tables of state of charge hold at this temperature of the battery (degrees Celsius).
_TABLE_CELSIUS = 25.0


class ChargeBand(NamedTuple):
    """A state of charge in percent, from ``low`` to ``high``, and its word."""

    low: float
    high: float
    word: str
    source: str


def charge_band(volts: float, battery: BatteryType, system: int = 12,
                temperature_c: float | None = None) -> ChargeBand | None:
    """The state of charge of a rested lead-acid battery (or pair); None for lithium, which rests too flat for it.

    The tables differ by up to 0.1 V, so that every voltage means a band. An unknown type takes in both tables.

    >>> charge_band(12.24, "flooded").word
    'about half charged'
    """
    if battery == "lithium":
        return None
    single = volts * 12.0 / system
    spread = limit("rested table spread") / 2.0
    if temperature_c is not None:
        spread += limit("rested widening by temperature") * abs(temperature_c - _TABLE_CELSIUS)
    keys = {"flooded": ("flooded",), "AGM": ("AGM",)}.get(battery, ("flooded", "AGM"))
    names = [f"rested volts {key} by charge" for key in keys]
    tables = [tuple((value, charge) for charge, value in series(name)) for name in names]
    low = min(interpolate(table, single - spread) for table in tables)
    high = max(interpolate(table, single + spread) for table in tables)
    return ChargeBand(low, high, _charge_word(0.5 * (low + high)), cite(*names))


def _charge_word(percent: float) -> str:
    """The trade's word for a charge."""
    for least, word in ((87.5, "full"), (62.5, "about three quarters charged"), (37.5, "about half charged"),
                        (12.5, "about a quarter charged")):
        if percent >= least:
            return word
    return "flat"


def load_test_limit(temperature_c: float | None) -> float:
    """The least voltage at half the cold cranking current for 15 s, at the battery's temperature (12 V battery).

    Straight between the rows of the table. Unknown temperature: the figure for 20 degrees Celsius.

    >>> round(load_test_limit(4.4), 2), round(load_test_limit(-1.1), 2), load_test_limit(None)
    (9.31, 9.1, 9.6)
    """
    return interpolate(series("load test lowest by temperature"), 20.0 if temperature_c is None else temperature_c)


def load_test_end() -> float:
    """The lowest temperature of the load test's table (degrees Celsius); below it the maker's figure counts."""
    return series("load test lowest by temperature")[0][0]


def charging_high(system: int, temperature_c: float | None) -> float:
    """The voltage above which charging is overcharging, for a battery at ``temperature_c`` (volts).

    In the cold more is normal: the highest end-of-charge voltage at that temperature, where it is above the usual
    limit.
    """
    usual = limit("overcharge above", system)
    if temperature_c is None:
        return usual
    ends = interpolate(series("charging end maintenance-free by temperature"), temperature_c) * system / 12.0
    return max(usual, min(ends, limit("charging cold highest", system)))


def charging_band(volts: float, system: int = 12, temperature_c: float | None = None) -> ChargingBand:
    """What ``volts`` with the engine running and nothing connected means for a conventional system.

    >>> charging_band(13.9), charging_band(12.7), charging_band(15.3), charging_band(11.6)
    ('normal', 'undercharge', 'overcharge', 'not charging')
    """
    if volts < limit("not charging below", system):
        return "not charging"
    if volts < limit("undercharge below", system):
        return "undercharge"
    if volts < limit("charging lowest", system):
        return "low"
    if volts <= limit("charging highest warm", system):
        return "normal"
    if volts <= charging_high(system, temperature_c):
        return "high"
    return "overcharge" if volts <= limit("overvoltage above", system) else "overvoltage"
