"""Puts the rows together into one answer for a code.

Order of precedence, cell by cell: the failure type where it settles the matter, the code's own row in titles.csv,
the supply, safety and relation tables, a failure type that only hints, the code's range. So there is an answer for
every code of the space, never "unknown code".
"""

from __future__ import annotations

from dataclasses import replace
from itertools import count
from typing import NamedTuple

from code_tables.content import Content, Failure, Fmi, Relation, SupplyCode, Title
from code_tables.facts import CodeFacts
from code_tables.spans import Cells
from triage.model import codes
from triage.model.codes import LETTERS, SPN_MAX

#: From here on the numbers belong to makers (SAE J1939 digital annex, from memory).
MAKERS_SPN = 516096
#: Addresses of nodes not heard: parameter numbers 2000 to 2255 (SAE J1939 digital annex, from memory).
FIRST_NODE_SPN, LAST_NODE_SPN = 2000, 2255

_LETTER_WORDS = {"P": "powertrain", "C": "chassis", "B": "body", "U": "network"}
_CONTROL_WORDS = {"standard": "standard", "maker": "maker-defined", "reserved": "reserved or maker-defined"}
_RELATION_MONITORS = {"lost communication": "network", "invalid data": "network", "bus": "network",
                      "incompatible software": "key on"}
_RELATION_NOISES = {"lost communication": "network", "invalid data": "network", "bus": "network",
                    "incompatible software": "self"}
_STRUCTURAL_TITLES = {
    "lost communication": "lost communication, module not in this table",
    "invalid data": "invalid data, module not in this table",
    "incompatible software": "software mismatch, module not in this table",
    "bus": "network fault, bus not in this table",
}
#: Answers by range kept at most: every range with every failure type is far less.
MOST_KEPT = 65536
_ALIKE = count(1)
_NO_ROW = Failure("", "", False, {}, "", "", "", "", "", False, "", ())


def failure_of(content: Content, failure_type: str | None) -> Failure:
    """The row for ``failure_type``, its category's where it has none, an empty row for None or no hexadecimal text."""
    if failure_type is None or len(failure_type) != 2:
        return _NO_ROW
    key = failure_type.upper()
    row = content.failures.get(key)
    if row is not None:
        return row
    category = content.failures.get(f"{key[0]}_")
    if category is None or key[1] not in "0123456789ABCDEF":
        return _NO_ROW
    return category._replace(meaning=f"{category.meaning}, sub-type {key} not in this table", firm=False)


def j2012(content: Content, text: str, failure_type: str | None) -> CodeFacts:
    """Facts of the J2012 code ``text`` ("P0562")."""
    number = LETTERS.index(text[0]) << 14 | int(text[1:], 16)
    cells, safety, doubt = content.ranges.at(number), content.safety.at(number), content.ambiguous.at(number)
    assert cells is not None  # the loader has checked that no code is without a range
    row, relation = content.titles.get(text), content.relations.get(text)
    supply = content.supply.get((text, (failure_type or "").upper())) or content.supply.get((text, ""))
    if row or relation or supply or doubt:
        return _together(content, text, cells, failure_of(content, failure_type),
                         Own(row, supply, relation, safety, doubt))
    # Most codes have no row of their own: all those of a range and a failure type have the same answer.
    kept, key = content.by_range, (text[0], failure_type, cells, safety)
    found = kept.get(key)
    if found is None:
        if len(kept) >= MOST_KEPT:
            kept.clear()
        found = _together(content, text, cells, failure_of(content, failure_type), Own(safety=safety))
        kept[key] = found = replace(found, alike=next(_ALIKE))
    return found.of(text)


class Own(NamedTuple):
    """What the tables hold of one code itself, beside its range."""

    row: Title | None = None
    supply: SupplyCode | None = None
    relation: Relation | None = None
    safety: Cells | None = None
    doubt: Cells | None = None


def _together(content: Content, text: str, cells: Cells, failure: Failure, own: Own) -> CodeFacts:
    """The answer for ``text`` from its own rows, its failure type and the ``cells`` of its range."""
    control, group, system, range_monitor, trips, range_noise, range_needs, range_relation, range_source = cells
    row, supply, relation, safety, doubt = own
    if supply is not None:
        system = "supply"
    kind = relation.relation if relation else range_relation or ("" if supply else failure.relation)
    own_kind = relation.relation if relation else ""
    targets = relation.targets if relation else ()
    hint = failure.by_system.get(system, failure.monitor)
    firm = hint if failure.firm else ""
    named = firm or (row.monitor if row else "") or (supply.monitor if supply else "") \
        or _RELATION_MONITORS.get(own_kind, "")
    return CodeFacts(
        code=text,
        title=(doubt[0] if doubt else "") or (row.title if row else "") or structural_title(text[0], control, group,
                                                                                           range_relation),
        known=row is not None, control=control, group=group, system=system,
        monitor=named or hint or range_monitor, monitor_named=bool(named),
        trips=(row.trips if row else 0) or int(trips),
        safety=(safety[0] if safety else None) or target_safety(content, targets),
        supply=_direction(supply, failure.supply), relation=kind or None, targets=targets,
        noise=failure.noise or (row.noise if row else "") or ("supply" if supply else "")
        or _RELATION_NOISES.get(own_kind, range_noise),
        needs=(failure.needs if row is None or not _has_no_zero(row.title) else "") or (row.needs if row else "")
        or ("supply" if supply else "") or ("nothing" if own_kind == "pointer" else range_needs),
        note=joined(doubt[1] if doubt else "", supply.note if supply else "", failure.note),
        failure=failure.meaning or None,
        sources=unique(row.sources if row else (), relation.sources if relation else (),
                       supply.sources if supply else (), safety[1:] if safety else (), doubt[2:] if doubt else (),
                       failure.sources, tuple(range_source.split("|"))),
        sag=failure.sag, flicker=failure.flicker,
    )


def structural_title(letter: str, control: str, group: str, relation: str) -> str:
    """A title for a code without a row: who defines it and what its range is about."""
    if control == "standard" and relation:
        return _STRUCTURAL_TITLES.get(relation, relation)
    subject = _LETTER_WORDS[letter]
    title = f"{_CONTROL_WORDS[control]} {subject} code"
    return title if group == subject else f"{title}, {group}"


def j1939(content: Content, spn: int, fmi: int) -> CodeFacts:
    """Facts of the J1939 code SPN ``spn`` FMI ``fmi``."""
    cells = content.spn.at(spn)
    title, system, monitor, noise, needs, relation, safety, source = cells or ("", "other", "running", "electronic",
                                                                               "", "", "", "own")
    mode = content.fmi[fmi]
    text = f"SPN {spn} FMI {fmi}"
    supply = content.supply.get((text, "")) or content.supply.get((f"SPN {spn}", ""))
    address: tuple[str, ...] = ()
    if FIRST_NODE_SPN <= spn <= LAST_NODE_SPN:
        address = content.addresses.get(spn - FIRST_NODE_SPN, ())
        node = f"module at address {spn - FIRST_NODE_SPN} ({address[0] if address else 'unassigned'})"
        # How it was noticed tells what is wrong: no message, or a message with wrong data in it.
        relation = mode.relation or relation
        title = f"wrong data from the {node}" if relation == "invalid data" else f"{node} not heard"
    named = (supply.monitor if supply else "") or (mode.monitor if mode.firm else "") or (monitor if title else "")
    return CodeFacts(
        code=text, title=title or f"J1939 parameter {spn}", known=bool(title),
        control="standard" if spn < MAKERS_SPN or spn == SPN_MAX else "maker", group="J1939 parameter", system=system,
        monitor=named or mode.monitor or monitor, monitor_named=bool(named), trips=1,
        safety=safety or target_safety(content, address[:1]), supply=_direction(supply, mode.direction),
        relation=relation or ("" if supply else mode.relation) or None, targets=address[:1],
        # A node's or a supply's own parameter keeps its class: the failure mode only says how it was noticed.
        noise=noise if noise in ("network", "supply") else mode.noise or noise,
        needs="supply" if supply else mode.needs or needs or "repair",
        note=joined(supply.note if supply else "", mode.note), failure=mode.meaning,
        sources=unique(tuple(source.split("|")), supply.sources if supply else (), address[1:], mode.sources),
    )


def makers_own(content: Content, text: str, failure_type: str | None) -> CodeFacts:
    """Facts of a maker's own number, or of any other text: what little can be said."""
    failure = failure_of(content, failure_type)
    mode = _trailing_fmi(content, text)
    firm = (failure.monitor if failure.firm else "") or (mode.monitor if mode and mode.firm else "")
    title = "maker's own number" if codes.own(text) else "not the form of any code in this table"
    return CodeFacts(
        code=text, title=title, known=False, control="maker's own number", group="maker's own number",
        system="other", monitor=firm or failure.monitor or "running", monitor_named=bool(firm), trips=1, safety=None,
        supply=None, relation=failure.relation or (mode.relation if mode else "") or None, targets=(),
        noise=failure.noise or (mode.noise if mode else "") or "electronic",
        needs=failure.needs or (mode.needs if mode else "") or "repair", note=joined(failure.note),
        failure=failure.meaning or (mode.meaning if mode else None) or None,
        sources=unique(failure.sources, mode.sources if mode else (), ("own",)), sag=failure.sag,
        flicker=failure.flicker,
    )


def _has_no_zero(title: str) -> bool:
    """Whether a part has nothing to be calibrated: the bias of a wheel speed sensor is its air gap, ring or wiring
    (common practice).

    >>> _has_no_zero("right front wheel speed sensor"), _has_no_zero("steering wheel angle sensor")
    (True, False)
    """
    return "wheel speed sensor" in title


def _trailing_fmi(content: Content, text: str) -> Fmi | None:
    """The failure mode at the end of an older heavy vehicle's number ("MID 128 PID 94 FMI 1")."""
    _, mark, tail = text[-8:].upper().rpartition("FMI ")
    return content.fmi.get(int(tail)) if mark and tail.isascii() and tail.isdigit() else None


def _direction(supply: SupplyCode | None, direction: str) -> str | None:
    """Low, high or fault; a failure type tells low from high where the code itself doesn't."""
    if supply is None:
        return None
    return direction or "fault" if supply.supply == "fault" else supply.supply


def target_safety(content: Content, targets: tuple[str, ...]) -> str | None:
    """The safety class of the first target that has one."""
    for name in targets:
        module = content.modules.get(name)
        safety = content.safety_targets.get(name) or (module.safety if module else None)
        if safety:
            return safety
    return None


def joined(*notes: str) -> str | None:
    """The notes there are, in one text."""
    return "; ".join(note for note in notes if note) or None


def unique(*groups: tuple[str, ...]) -> tuple[str, ...]:
    """The keys of ``groups``, each once, in order."""
    return tuple(dict.fromkeys(key for group in groups for key in group))
