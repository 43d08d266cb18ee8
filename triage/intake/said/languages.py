"""The language of a text, as far as it changes what the words of statuses mean.

>>> language(["steuergerat: keine antwort"]), language(["p0562"])
('de', 'en')
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.plain.phrases import WORD, word_set

#: Words of headings, answers and states; not of descriptions, which are often left in English.
_LANGUAGES: dict[str, frozenset[str]] = {
    "de": word_set(
        "steuergerat steuergerate fehler fehlercode fehlercodes und nicht spannung batteriespannung aus vor nach "
        "keine kein der die das mit "
        "datum gespeichert vorhanden loschen ausstehend bestatigt sporadisch antwort erreichbar antwortet zustand "
        "beschreibung fehlerart "
        "fehlertext uhr leerlauf motorlauf probefahrt aktiv passiv statisch aktuell verbaut gelesen zundung "
        "fahrzeug reparatur kl tiefster"
    ),
    "fr": word_set(
        "calculateur calculateurs defaut defauts et les du pas aucun aucune avant apres effacement tension batterie "
        "sans memorise reponse "
        "repond ne etat statut libelle coupe arrete memorisee present fugitif actif attente confirme ras monte "
        "equipe lu interroge essai routier "
        "ralenti contact mis reparation moteur vehicule"
    ),
    "es": word_set(
        "centralita centralitas fallo fallos averia averias codigo codigos y el los del sin antes despues borrado "
        "borrar bateria respuesta "
        "responde no esta estado almacenado memorizado pendiente confirmado presente activo ningun comunicacion "
        "montado equipado leido omitido "
        "fecha tras ralenti descripcion minimo reparacion vehiculo parado"
    ),
    "en": word_set(
        "no codes stored present current history pending confirmed active inactive response answer answered "
        "responding communication "
        "before after clear clearing battery voltage status state failing now fitted scanned skipped faults "
        "lowest installed timeout meaning has is with did not clean"
    ),
    "it": word_set(
        "centralina centraline guasto guasti errore errori nessun nessuna senza prima dopo cancellazione batteria "
        "tensione memorizzato memorizzati attivo presente confermato risposta risponde comunicazione stato descrizione "
        "del della il gli motore quadro non"
    ),
    "nl": word_set(
        "regeleenheid storing storingen foutcode foutcodes fouten geen wissen accu accuspanning spanning opgeslagen "
        "aanwezig actueel bevestigd antwoord antwoordt communicatie toestand omschrijving niet het een voor na"
    ),
    "pt": word_set(
        "falha falhas avaria avarias erro erros sem nenhum nenhuma antes depois apagar bateria tensao armazenado ativo "
        "presente confirmado resposta responde comunicacao estado descricao nao dos da do modulo"
    ),
    "pl": word_set(
        "sterownik blad bledy bledow kod brak przed po kasowaniu kasowaniem akumulator napiecie zapisany aktywny "
        "potwierdzony odpowiedzi komunikacji stan opis nie"
    ),
    "sv": word_set(
        "styrenhet fel felkod felkoder inga inget efter radering batteri batterispanning spanning lagrad aktiv "
        "bekraftad svar svarar kommunikation och inte ej"
    ),
}


def language(lows: Sequence[str]) -> str:
    """ "en", "de", "fr", "es", "it", "nl", "pt", "pl" or "sv" by the words of the text; "en" where nothing tells."""
    counts: Counter[str] = Counter()
    # A few thousand lines, spread over the text, tell as much as all.
    for line in lows[:: max(1, len(lows) // 3000)]:
        counts.update(WORD.findall(line[:400]))
    scores = {name: sum(counts[word] for word in vocabulary) for name, vocabulary in _LANGUAGES.items()}
    best = max(scores, key=lambda name: (scores[name], name == "en"))
    return best if scores[best] else "en"


__all__ = ["language"]
