"""What the module that holds a code tells of it where the code's own number does not.

A chassis code by its range waits for road speed, as those of the brakes do. Power steering watches its own torque and
position sensors, its motor and its feed from the moment it assists, standing (common practice).

>>> from code_tables import load
>>> tables = load()
>>> code = tables.facts("C0545")
>>> [in_module(code, tables.module(name)).monitor for name in ("power steering", "anti-lock brakes")]
['running', 'speed']
>>> (code.safety, in_module(code, tables.module("power steering")).safety)
('brakes', 'steering')
"""

from __future__ import annotations

from dataclasses import replace

from code_tables.facts import CodeFacts, ModuleFacts

_OF_CHASSIS = frozenset(("chassis", "steering"))


def in_module(facts: CodeFacts, module: ModuleFacts) -> CodeFacts:
    """``facts`` of a code as those of one that ``module`` holds; the same where its own row tells when it runs."""
    if module.system != "steering" or facts.monitor != "speed" or facts.monitor_named or (
            facts.system not in _OF_CHASSIS):
        return facts
    return replace(facts, monitor="running", safety=module.safety or facts.safety)


__all__ = ["in_module"]
