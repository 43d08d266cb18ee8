"""Cells that say the name above them once more."""

from __future__ import annotations

from triage.intake.plain.phrases import phrase_set

#: In a column of names: the one above once more.
_DITTO = phrase_set("""
    do | ditto | dito | dto | id | idem | same | same as above | as above | s. o | s.o | wie oben | comme ci-dessus |
    lo mismo | igual""")


def is_ditto(low: str) -> bool:
    """Whether a cell of a column of names says that of the row above once more.

    >>> is_ditto("do."), is_ditto("idem"), is_ditto('"'), is_ditto("dome light")
    (True, True, True, False)
    """
    bare = low.strip(" .-'`*()")
    return bare in _DITTO or (bool(low) and not bare.strip('",'))


__all__ = ["is_ditto"]
