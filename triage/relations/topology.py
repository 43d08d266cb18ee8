"""Which module sits on which branch: a small file beside the scans, ``module,branch``, one module a line.

A branch that bears a module's name lies behind that module (a gateway). Comma, semicolon or tab; a heading, empty
lines and lines that start with # are passed over.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from triage.model.casebook import Casebook
from triage.model.notices import Notice

#: A vehicle has some hundred modules.
MOST = 2000
_HEADINGS = ("module", "modules", "ecu", "steuergerät", "calculateur", "módulo", "modulo", "centralita")


def read_topology(
    text: str, canonical: Callable[[str], str], branch_name: Callable[[str], str], *, source: str | None = None,
) -> tuple[dict[str, str], list[Notice]]:
    """Canonical module -> branch, and what could not be used.

    ``canonical`` names a module; ``branch_name`` does so where a branch surely is one, and leaves any other as it is.

    >>> read_topology("module,branch\\nABS,chassis CAN\\n# spare\\nradio;", str.lower, str)[0]
    {'abs': 'chassis CAN'}
    """
    found: dict[str, str] = {}
    notices: list[Notice] = []
    for number, line in enumerate(text.removeprefix("\ufeff").splitlines(), start=1):
        bare = line.strip()
        if not bare or bare.startswith("#"):
            continue
        mark = next((mark for mark in (";", "\t", ",") if mark in bare), ",")
        # A name may hold a comma ("door, front left"): the branch stands behind the last one.
        head, _, branch = bare.rpartition(mark)
        module, branch = head.strip(" \"\t"), branch.strip(" \"\t")
        if module.casefold() in _HEADINGS:
            continue
        if not module or not branch or len(bare) > 300:
            notices.append(Notice("warning", f"seen {bare[:60]!r}, expected module,branch", source, number))
            continue
        if len(found) >= MOST:
            notices.append(Notice("warning", f"more than {MOST} modules; the rest is left out", source, number))
            break
        name, place = canonical(module), branch_name(branch)
        if found.get(name, place) != place:
            notices.append(Notice("warning", f"{module} stands on {found[name]} and on {place}; the later is taken",
                                  source, number))
        found[name] = place
    return found, notices


def named_as_scanned(book: Casebook, topology: Mapping[str, str]) -> dict[str, str]:
    """``topology`` (canonical names) with each module, and each branch that is a module, named as ``book`` has it."""
    scanned = {facts.name: name for facts, name in zip(book.module_facts, book.module_name, strict=True)}
    return {name: scanned.get(topology[facts.name], topology[facts.name])
            for facts, name in zip(book.module_facts, book.module_name, strict=True) if facts.name in topology}
