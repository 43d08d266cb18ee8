"""Whether a replacement was of a module or of a part that hangs on it: a new part sets no new module."""

from __future__ import annotations

from triage.model.session import Event

PARTS = ("sensor", "battery", "generator", "alternator", "fuse", "relay", "wiring", "harness", "connector", "cable",
         "ground", "lamp", "bulb", "motor", "pump", "valve", "switch", "injector", "antenna", "bracket", "bearing",
         "plug", "coil", "belt", "buckle", "thermostat", "actuator")
MODULE_WORDS = ("module", "control unit", "ecu", "computer")


def of_part(event: Event) -> bool:
    """Whether the note of ``event`` speaks of a part and not of the module itself.

    >>> of_part(Event(what="replaced", module="ECM", note="coolant sensor")), of_part(Event(what="replaced"))
    (True, False)
    """
    note = (event.note or "").lower()
    return any(part in note for part in PARTS) and not any(word in note for word in MODULE_WORDS)


__all__ = ["MODULE_WORDS", "PARTS", "of_part"]
