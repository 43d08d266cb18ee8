"""What a read-out of all modules is called, as the head of a column or before its number, in small letters without
accents.

Source: common practice.
"""

from __future__ import annotations

from triage.intake.plain.phrases import phrase_set

#: Heads of columns and keys that tell which scan it is.
SCANS = phrase_set("""
    phase | scan | snapshot | when | pass | scan no | lauf | durchgang | etape | fase | scan name | reading |
    round | stage | messung | which scan | releve | lectura | lecture | snapshot no | reading no | scan nr | wann |
    quand | cuando | scan number | auslesung nr | lesung nr | lecture no | lectura no | moment | momento""")
#: Heads of a column of scans that mean something else as keys ("Session: extended").
SESSIONS = phrase_set("""
    session | sitzung | seance | sesion | visit | besuch | visite | visita | run | readout | read-out | scan title |
    lesung | auslesung | abfrage | durchlauf | pruflauf | passage | escaneo | pasada""")
#: What is counted as a scan, beside those: "Protokoll: 2".
_COUNTED = phrase_set("protokoll | protocol | protocole | protocolo | read out | rescan | test | balayage | consulta")
_NOT_COUNTED = frozenset(("when", "wann", "quand", "cuando", "moment", "momento"))
#: Before the date of a scan, in a pattern: "Scan of 3.5.24", "Datum: 3.5.24".
BEFORE_DATE = (
    r"(?:date|datum|fecha|scan|scanned|re-?scan|read(?:ing|-?out)?|abfrage|auslesung|ausgelesen|messung|lecture|releve|"
    r"lectura|escaneo)(?: (?:of|on|from|vom|am|du|le|del|de|el))?\s?:?\s"
)
_COUNT_TAILS = (" no", " nr", " n°", " number", " num")


def counts_scans(low: str) -> bool:
    """Whether a number behind a word is that of a scan.

    >>> counts_scans("scan no."), counts_scans("lesung"), counts_scans("when"), counts_scans("module")
    (True, True, False, False)
    """
    bare = " ".join(low.split()).strip(" .:#")
    for tail in _COUNT_TAILS:
        bare = bare.removesuffix(tail)
    return bare not in _NOT_COUNTED and (bare in SCANS or bare in SESSIONS or bare in _COUNTED)


__all__ = ["BEFORE_DATE", "SCANS", "SESSIONS", "counts_scans"]
