"""``triage explain`` and ``triage schema``."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from code_tables import CodeFacts, Tables
    from triage.model.codes import Code

#: What the class of a monitor means for a code that did not come back.
ABSENCE = {
    "key on": "its monitor runs at key on: gone after a clear and a key cycle at good supply is a clean test",
    "commanded output": "its monitor runs when the output is commanded: absence at idle says little",
    "network": "its monitor runs some seconds after key on: gone after a clear at good supply is a clean test",
    "running": "its monitor needs the engine running: absence with the key on says nothing",
    "warm": "its monitor needs a warm engine and minutes of running: a two-minute idle does not test it",
    "speed": "its monitor needs the vehicle moving: absence at standstill says nothing",
    "drive cycle": "its monitor needs a mixed drive of 10 to 30 minutes: absence before that says nothing",
    "cold soak": "its monitor needs hours at rest: absence on the day of the clear says nothing",
    "event": "it is set by an event: absence says nothing until the event comes again",
    "high voltage": "its monitor runs when the drive is enabled or shut down: key on tests it only in part",
}


def explain_code(text: str, *, as_json: bool = False) -> str:
    """What a code is, in lines or as JSON; of several one after the other, as JSON a list. Any text is taken: what
    can't be a code is said to be none, and why."""
    from code_tables import load
    from triage.errors import InputError
    from triage.model.codes import explain_invalid

    tables = load()
    codes = _codes(text)
    if codes is None:
        raise InputError(explain_invalid(text) or f"{text!r} is no trouble code")
    found = [(tables.facts(code.text, code.failure_type), code.failure_type) for code in codes]
    if as_json:
        told = [_as_json(*one) for one in found]
        return json.dumps(told[0] if len(told) == 1 else told, ensure_ascii=False, indent=2) + "\n"
    return "\n\n".join("\n".join(_lines(*one, tables)) for one in found) + "\n"


#: "SPN 168 FMI 4"
_MOST_WORDS = 4


def _codes(text: str) -> list[Code] | None:
    """The codes of a text, one or several; None where something in it is none."""
    from triage.model.codes import own, parse

    if (whole := parse(text) or own(text)) is not None:
        return [whole]
    words, found = text.split(), []
    while words:
        sizes = range(min(_MOST_WORDS, len(words)), 0, -1)
        size, code = next(((size, code) for size in sizes if (code := parse(" ".join(words[:size])))), (0, None))
        if code is None:
            return None
        found.append(code)
        words = words[size:]
    return found or None


def _as_json(facts: CodeFacts, failure_type: str | None) -> dict[str, object]:
    return {name: getattr(facts, name) for name in (
        "code", "title", "known", "control", "group", "system", "monitor", "trips", "safety", "supply", "relation",
        "targets", "needs", "note", "failure")} | {"failure_type": failure_type, "valid": True}


def _lines(facts: CodeFacts, failure_type: str | None, tables: Tables) -> list[str]:
    defined = {"standard": "defined by ISO/SAE", "maker": "defined by the vehicle maker: look it up there",
               "reserved": "range reserved, or used by makers"}.get(facts.control, facts.control)
    lines = [f"{facts.code}{'-' + failure_type if failure_type else ''}  {facts.title}",
             f"  {defined}; group: {facts.group}"]
    if facts.failure:
        lines.append(f"  {'failure type ' + failure_type if failure_type else 'failure mode'}: {facts.failure}")
    if facts.relation:
        whom = f" {' or '.join(facts.targets)}" if facts.targets else ""
        lines.append("  " + {
            "pointer": f"a pointer: asks for the lamp on behalf of{whom}; read that module",
            "lost communication": f"lost communication with{whom or ' a module'}; check that module before the one "
                                  "that complains",
            "invalid data": f"invalid data from{whom or ' another module'}; look there first",
            "incompatible software": f"software does not fit{whom}: configuration work, not wiring",
            "bus": "about the network itself"}[facts.relation])
    if facts.supply:
        lines.append(f"  a supply code ({facts.supply}): the witness of a supply event; it dates the event, it never "
                     "gives the voltage")
    if facts.safety:
        lines.append(f"  safety class: {facts.safety}; never set aside without a clean test at good supply")
    lines.append(f"  {'' if facts.monitor_named else 'judged by its range alone: '}{ABSENCE[facts.monitor]}")
    if facts.trips == 2:
        lines.append("  two trips before it is confirmed: after one run read pending codes too")
    if facts.note:
        lines.append(f"  note: {facts.note}")
    lines.append("  sources: " + "; ".join(dict.fromkeys(tables.cite(key) for key in facts.sources)))
    return lines


def schemas() -> str:
    """JSON Schema of the job file and of the verdict."""
    from pydantic import TypeAdapter

    from triage.model.session import Session
    from triage.model.verdict import Verdict

    found = {"job": Session.model_json_schema(), "verdict": TypeAdapter(Verdict).json_schema()}
    return json.dumps(found, indent=2) + "\n"
