"""What a name that no table lists can mean among the modules of one vehicle: of "lost communication with rear module"
the rear fuse box module, where nothing else there is called rear."""

from __future__ import annotations

from collections.abc import Iterable

#: Words that any module may be called by.
_ANY = frozenset(("module", "modul", "mod", "mdl", "control", "unit", "ecu", "the", "system", "calculateur",
                  "centralita", "steuergerat"))


def name_words(name: str) -> set[str]:
    """The words of a module's name that tell it from others.

    >>> sorted(name_words("Rear fuse-box module")), name_words("control unit")
    (['box', 'fuse', 'rear'], set())
    """
    return set("".join(char if char.isalnum() else " " for char in name.casefold()).split()) - _ANY


def the_one_called(name: str, modules: Iterable[tuple[str, str]]) -> str | None:
    """The one of ``modules`` (each with the name it is printed by) that has all words of ``name``; None for several.

    >>> the_one_called("rear module", [("power distribution, rear", "rear fuse box"), ("radio", "")])
    'power distribution, rear'
    >>> the_one_called("door module", [("door, left", ""), ("door, right", "")]) is None
    True
    """
    wanted = name_words(name)
    found = [module for module, printed in modules if wanted and wanted <= name_words(f"{module} {printed}")]
    return found[0] if len(found) == 1 else None


__all__ = ["name_words", "the_one_called"]
