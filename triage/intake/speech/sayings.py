"""Wordings of several words in sentences about modules: answers, fillers, what takes back what was said, what tells of
one module what was told of another. In English, German, French and Spanish; source: common practice."""

from __future__ import annotations

from collections.abc import Iterator

from triage.intake.plain.patterns import lazily

#: Answers in the words of sentences, of which the name stands behind, before or amid them.
_ANSWERS = (
    ("silent", lazily(
        r"(?<![a-z])(?:(?:no|zero) comms?(?: at all)?|should have answered,? but (?:it )?did ?n[o']t)(?![a-z])")),
    ("not scanned", lazily(
        r"(?<![a-z])(?:(?:was |were )?(?:not|never) (?:been )?(?:read|scanned|checked)(?: yet)?|"
        r"(?:i |we )?(?:have not|haven'?t|never|did not|didn'?t) (?:yet )?(?:read|scan(?:ned)?|get to|got to|"
        r"look(?:ed)? at|check(?:ed)?|open(?:ed)?|try|tried|done|do)(?: yet)?|(?:still )?(?:not|never) "
        r"(?:scanned|read|checked|opened|done)(?: yet)?|left out|skipped|"
        r"(?:j'ai |on a )?(?:saute|zappe|laisse de cote)|(?:me he|nos hemos) saltado|"
        r"n'(?:a|ont) pas (?:encore )?ete (?:lu|scanne|interroge)e?s?|"
        r"(?:aun |todavia )?no se han? (?:leido|escaneado|consultado)|"
        r"(?:wurden? |ist |sind )?(?:noch |gar )?nicht (?:ausgelesen|gelesen|abgefragt|gescannt)(?: worden)?|"
        r"je n'ai pas (?:encore )?(?:lu|scanne|interroge|regarde|ouvert)|(?:pas encore|pas) "
        r"(?:lue?s?|scannee?s?|interrogee?s?|regardee?s?)|"
        r"(?:aun |todavia )?no (?:lo |la |los |las )?(?:he|hemos) (?:leido|escaneado|mirado|consultado|abierto)"
        r"(?: aun)?|"
        r"(?:didn'?t|did not|never) (?:get|got) (?:round )?to (?:read|scan|check|do)(?:ing)?|"
        r"no (?:me|nos) (?:dio|ha dado) tiempo (?:a|de|para) (?:escanear|leer)|"
        r"je n'ai pas eu le temps de (?:lire|scanner)|(?:sin|no) (?:leer|escanear|consultar)|"
        r"(?:noch )?nicht (?:gelesen|ausgelesen|abgefragt|gescannt|gepruft|angeschaut)|(?:habe ich )?ausgelassen|"
        r"ubersprungen)(?![a-z])")),
    ("not fitted", lazily(
        r"(?<![a-z])(?:(?:is |are )?not fitted(?: (?:here|on this one))?|(?:does not|doesn'?t) have|"
        r"(?:this one|this van|it) has no|pas (?:monte|equipe|installe)(?:e|es|s)?|"
        r"nicht (?:verbaut|eingebaut|vorhanden im fahrzeug)|no (?:esta )?(?:montado|equipado|instalado)a?s?|"
        r"no (?:lo |la )?lleva)(?![a-z])")),
)


def answers(small: str) -> Iterator[tuple[int, int, str]]:
    """Start, end and kind of the answers in the words of sentences."""
    for said, pattern in _ANSWERS:
        for match in pattern.finditer(small):
            yield match.start(), match.end(), said


#: Several words that say no more than a filler.
_PHRASES = lazily(
    r"(?<![a-z])(?:(?:and )?(?:nothing|notihng) (?:else|more|further)|(?:und )?sonst nichts|(?:und )?nichts weiter|"
    r"(?:et )?rien (?:d'autre|de plus)|(?:y )?nada mas|for example|zum beispiel|par exemple|por ejemplo|"
    r"(?:at|in) all|as (?:for|to)|en cuanto a|as i (?:first )?(?:wrote|said)|wie ich (?:erst|zuerst) schrieb|"
    r"al (?:segundo|tercer) intento(?: solo)?|au (?:deuxieme|second|troisieme) essai(?: seulement)?|"
    r"(?:erst )?beim (?:zweiten|dritten) (?:versuch|anlauf)|(?:only )?(?:on|at) the (?:second|third) (?:try|attempt)|"
    r"took (?:two|three) tries (?:and then)?|(?:but )?only after a key cycle|apres un cycle de contact|and i mean|"
    r"auf (?:dem zettel|der liste)|on my (?:sheet|list|note)|sur ma (?:feuille|liste)|en mi (?:lista|hoja)|"
    r"at the moment of reading|a la fois|you ask|fragst du|tu demandes|me preguntas)(?![a-z])")

#: The same that take back what was said.
_BACK = lazily(
    r"(?<![a-z])(?:faute de frappe|tippfehler|typing error|error de (?:tecleo|escritura)|mejor dicho|quiero decir|"
    r"je veux dire|i meant|ich meine|scratch that|stimmt nicht|das stimmt nicht|erreur de ma part|my mistake|"
    r"mixed (?:them|it) up|me he equivocado|me equivoque|je me suis trompe|habe mich vertan)(?![a-z])")

#: The same that tell of one module what was told of another.
_AGAIN = lazily(r"(?<![a-z])(?:(?:la )?meme chose|"
                r"(?:exactly |just )?the same(?: (?:code list|list|codes|story|two|three))?|"
                r"(?:genau )?das ?(?:gleiche|selbe)|lo mismo|(?:c'est )?pareil)(?![a-z])")


def phrases(small: str) -> Iterator[tuple[int, int, str]]:
    """The places of such phrases, each with its part."""
    for kind, pattern in (("i", _PHRASES), ("r", _BACK), ("m", _AGAIN)):
        for match in pattern.finditer(small):
            yield *match.span(), kind


__all__ = ["answers", "phrases"]
