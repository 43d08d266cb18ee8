"""Network codes that only the maker can read, while a module stays silent that nobody names: one may tell of it.

A gateway or body module has codes of its own for the modules on its sub-buses, which no standard list names. Where
such a code stands without a text, and a module never answered, nobody may say that no module misses it (common
practice).
"""

from __future__ import annotations

from triage.model.casebook import NOT_ASKED, SEEN, SILENT, Casebook, Links


def unnamed(book: Casebook, link: Links, fault: int) -> bool:
    """Whether a fault is a network code of the maker's that was printed without a text and names no module."""
    facts = book.facts[fault]
    return (not facts.known and facts.control == "maker" and facts.code[:1] == "U" and not link.relation[fault]
            and link.target[fault] < 0 and not any(_says(text) for text in book.texts.get(fault, ())))


def never_heard(book: Casebook, link: Links, session: int) -> list[int]:
    """The modules that were asked, never answered and that no story explains."""
    explained = {module for story in link.stories.get(session, ()) for module in story.modules}
    found = []
    for module in range(int(book.first_module[session]), int(book.first_module[session + 1])):
        asked = book.state[module][book.state[module] != NOT_ASKED]
        if module not in explained and asked.size and (asked == SILENT).all():
            found.append(module)
    return found


def may_be_missed(book: Casebook, link: Links, session: int) -> list[int]:
    """The unnamed network codes that stood in the last scan of their module, where they may be about a silent one."""
    found = []
    for fault in range(int(book.first_fault[session]), int(book.first_fault[session + 1])):
        read = book.seen[fault][book.seen[fault] >= 0]
        if read.size and read[-1] == SEEN and unnamed(book, link, fault):
            found.append(fault)
    return found


def _says(text: str) -> bool:
    """Whether a printed text says more than the code itself."""
    return sum(letter.isalpha() for letter in text) > 3


__all__ = ["may_be_missed", "never_heard", "unnamed"]
