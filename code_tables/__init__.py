"""The tables of trouble codes, modules, rates and limits: CSV files, a loader and a checker.

>>> tables = load()
>>> facts = tables.facts("P0562", "16")
>>> facts.control, facts.system, facts.supply, facts.failure
('standard', 'supply', 'low', 'circuit voltage below limit')
>>> tables.facts("C0035").note is not None
True
>>> tables.cite("40cfr85.2222")
'40 CFR 85.2222 and 85.2207, on-board diagnostic inspection (standard)'

Every row cites a key of sources.csv. Loading uses the csv module alone; ``python -m code_tables`` checks every row
against its model.
"""

from __future__ import annotations

from code_tables.facts import CodeFacts, Limit, ModuleFacts, Rate
from code_tables.loader import load
from code_tables.tables import Tables

__all__ = ["CodeFacts", "Limit", "ModuleFacts", "Rate", "Tables", "load"]
