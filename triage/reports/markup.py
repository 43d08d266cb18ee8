"""Elements of HTML and SVG as text: everything put into one is escaped, unless it is an element itself.

Figures are tied to their units by no-break spaces on the way.

>>> element("p", "a < b & ", element("b", "c"), class_="x")
'<p class="x">a &lt; b &amp; <b>c</b></p>'
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from triage.reports.text import tie

#: Elements that HTML writes without an end tag.
_VOID = frozenset({"br", "hr", "meta", "link", "img"})


class Markup(str):
    """Text that is markup already."""

    __slots__ = ()


Child = str | Iterable["Child"] | None


def element(name: str, /, *children: Child, **attributes: str | float | None) -> Markup:
    """One element. Attribute names: a trailing underscore is dropped, others become hyphens; None leaves it out."""
    said = "".join(f' {key.rstrip("_").replace("_", "-")}="{escape(_plain(value), quote=True)}"'
                   for key, value in attributes.items() if value is not None)
    if name in _VOID:
        return Markup(f"<{name}{said}>")
    return Markup(f"<{name}{said}>{join(children)}</{name}>")


def join(children: Iterable[Child]) -> Markup:
    """The children one after another, text escaped."""
    return Markup("".join(_text(child) for child in children))


def _text(child: Child) -> str:
    if child is None:
        return ""
    if isinstance(child, Markup):
        return str(child)
    if isinstance(child, str):
        return escape(tie(child), quote=False)
    return join(child)


def _plain(value: str | float) -> str:
    """Numbers with two decimals at most, as drawings need them."""
    return value if isinstance(value, str) else f"{round(value, 2):g}"


__all__ = ["Markup", "element", "join"]
