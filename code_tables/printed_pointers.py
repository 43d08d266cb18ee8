"""What the text printed beside a maker's code tells of a fault that another module holds: this one asks for the lamp on
its behalf, says that the fault is stored there, or sends the reader to that module's list (common practice).

>>> pointed_at("Function off, see the brake module"), pointed_at("lamp request from the inverter")
('brake module', 'inverter')
>>> pointed_at("Fehlerspeicher des Getriebes auslesen"), pointed_at("aver\u00eda memorizada en el ABS")
('getriebes', 'abs')
>>> pointed_at("brake lamp circuit open"), pointed_at("fault in the inverter")
(None, None)
"""

from __future__ import annotations

import re
from functools import lru_cache

from code_tables.printed_network import NAME, folded, pieces

_SMALL = (r"(?:the|by|from|of|in|der|des|dem|den|das|im|vom|von|fur|le|la|les|du|de|des|dans|el|los|las|del|en|"
          r"module(?= de| du| d'))")
_TO = rf"(?:\s*:\s*|\s+)(?:{_SMALL}\s+|[ld]')*{NAME}"
_OF = rf"{NAME}\s*[,:;-]\s*"
#: What parts a function that is off from the fault that it is off for.
_MARK = r"\s*[,;:(-]\s*"

#: Faults as lists speak of them, by language; the memory they stand in; the lamp.
_FAULT = r"(?:an? )?(?:faults?|malfunctions?|errors?|failures?|dtcs?|(?:(?:trouble|fault|error) )?codes?)"
_MEMORY = (r"(?:the )?(?:(?:fault|error|event|trouble code|dtc) (?:memory|memories|store)|"
           r"(?:(?:stored|trouble|fault) )?(?:faults|codes|dtcs?))")
_LAMP = (r"(?:(?:warning|indicator|malfunction|malfunction indicator|check engine|engine) )?"
         r"(?:lamp|light|mil|indicator)")
_FEHLER = r"(?:fehler(?:codes?|eintrag|eintrage)?|storung(?:en)?|fehlfunktion)"
_SPEICHER = r"(?:fehler|ereignis)(?:speicher(?:eintrag|eintrage)?|liste)"
_LESEN = r"(?:auslesen|abfragen|beachten|prufen|lesen|ansehen|abarbeiten)"
_LEUCHTE = r"(?:mil|(?:motor)?(?:kontroll|warn|storungs)?(?:leuchten?|lampen?))"
_AUS = r"(?:aus|abgeschaltet|ausgeschaltet|deaktiviert|gesperrt|eingeschrankt|nicht verfugbar|reduziert)"
_DEFAUT = r"(?:(?:codes? )?defauts?|codes?|pannes?|anomalies?)"
_LIRE = (r"(?:lire|consulter|verifier|controler|interroger|voir) (?:(?:la |les )?memoires? (?:de |des )?|les )?"
         rf"{_DEFAUT}")
_VOYANT = r"(?:voyant|temoin|lampe|mil)(?: (?:mil|moteur|d'alerte|(?:de |d')?(?:defaut|anomalie|diagnostic)))?"
_AVERIA = r"(?:averias?|fallos?|defectos?|errores|error|codigos?(?: de (?:averias?|fallos?|error))?)"
_LEER = rf"(?:leer|consultar|comprobar|revisar|ver) (?:(?:la )?memoria (?:de )?|las |los )?{_AVERIA}"
_TESTIGO = r"(?:testigo|lampara|luz|mil|piloto)(?: (?:mil|(?:de |del )?(?:motor|averias?|aviso|fallo)))?"

_ENGLISH = (
    rf"{_LAMP} (?:(?:illumination|activation|on) )?(?:request|requested|demand|demanded|commanded) (?:by|from|of){_TO}",
    rf"{NAME} (?:requests|asks for|demands) (?:the )?{_LAMP}",
    rf"{_FAULT} (?:is |are )?(?:stored|present|recorded|logged|registered|saved|held) in{_TO}",
    rf"{_FAULT} (?:is |was )?(?:reported|signall?ed|indicated|announced) (?:by|from){_TO}",
    rf"(?:please )?(?:check|read|see|refer to|consult|look at) {_MEMORY} (?:of|in|from){_TO}",
    rf"{_OF}(?:please )?(?:check|read|see|refer to|consult|look at) {_MEMORY}",
    rf"(?:please )?(?:see|refer to){_TO}",
    r"(?:.* )?(?:off|limited|disabled|deactivated|inhibited|restricted|unavailable|not available|reduced|suspended)"
    rf"(?:{_MARK}| (?:due to|because of|owing to|caused by) ){_FAULT} (?:of|in){_TO}",
)
_GERMAN = (
    rf"{_LEUCHTE}-? ?(?:anforderung|ansteuerung) (?:von|vom|durch){_TO}",
    rf"anforderung (?:der |von )?{_LEUCHTE} (?:von|vom|durch){_TO}",
    rf"{_FEHLER} (?:in|im){_TO} (?:abgelegt|gespeichert|vorhanden|hinterlegt|eingetragen)",
    rf"(?:fehlerspeichereintrag|fehlereintrag) (?:in|im){_TO}",
    rf"{_FEHLER} gemeldet (?:von|vom|durch){_TO}",
    rf"(?:fehler|storungs)meldung (?:von|vom|durch){_TO}",
    rf"(?:bitte )?{_SPEICHER}{_TO} {_LESEN}",
    rf"{_OF}(?:bitte )?{_SPEICHER} {_LESEN}",
    rf"(?:bitte )?siehe(?: auch)?(?: {_SPEICHER})?{_TO}",
    rf"(?:.* )?{_AUS}(?:{_MARK}| wegen (?:eines? |einer )?){_FEHLER} (?:in|im|von|vom|des|der){_TO}",
    rf"(?:.* )?wegen (?:eines? |einer )?{_FEHLER} (?:in|im|von|vom|des|der){_TO} {_AUS}",
)
_FRENCH = (
    rf"demande (?:d'allumage )?(?:(?:du|de|d'un|de la) )?{_VOYANT} (?:par|de|du){_TO}",
    rf"{_DEFAUT} (?:est |sont )?(?:memorise|enregistre|present|stocke|inscrit)e?s? dans{_TO}",
    rf"{_DEFAUT} (?:signale|transmis|indique)e?s? par{_TO}",
    rf"{_LIRE} (?:du|des|de|dans){_TO}",
    rf"{_OF}{_LIRE}",
    rf"voir{_TO}",
    r"(?:.* )?(?:(?:desactiv|inhib|limit|coup|bloqu|reduit|restreint)(?:e?e?s?|ie?s?)|indisponibles?|non disponibles?)"
    rf"(?:{_MARK}| (?:suite a|a cause d'|en raison d'|pour )(?:une? )?){_DEFAUT} (?:de|du|des|dans){_TO}",
)
_SPANISH = (
    rf"(?:peticion|solicitud|demanda) (?:de )?(?:(?:encendido|activacion) )?(?:(?:de|del|de la) )?{_TESTIGO} "
    rf"(?:por|de|del|desde){_TO}",
    rf"{_AVERIA} (?:memorizad|almacenad|registrad|guardad|grabad)[ao]s? en{_TO}",
    rf"{_AVERIA} (?:senalad|comunicad|notificad|indicad|informad)[ao]s? por{_TO}",
    rf"{_LEER} (?:del?|en){_TO}",
    rf"{_OF}{_LEER}",
    rf"(?:ver|vease){_TO}",
    r"(?:.* )?(?:(?:desactivad|limitad|inhibid|bloquead|reducid|restringid|apagad)[ao]s?|no disponibles?)"
    rf"(?:{_MARK}| (?:por|debido a|a causa de) (?:una? )?){_AVERIA} (?:en|de|del){_TO}",
)
#: A text that points holds one of these; few do, and the others are not asked any further.
_SIGN = re.compile(r"request|asks|demand|command|stored|present|recorded|logged|registered|saved|held|reported|signal|"
                   r"indicat|announced|see |refer |read |check |consult|look |due to|because|owing|caused|anforderung|"
                   r"ansteuerung|fehler|storung|ereignis|siehe|memoris|enregistr|stock|inscrit|transmis|lire|verif|"
                   r"controler|interroger|voir|peticion|solicitud|memori|almacen|registrad|guardad|grabad|senalad|"
                   r"comunicad|notificad|informad|leer|comprobar|revisar|ver |vease|off|disab|deactiv|"
                   r"inhib|restrict|limit|available|reduc|suspend|wegen|desactiv|coup|bloqu|dispon|apagad|restr|debido|causa|"
                   r"aus[ ,;:(-]|schaltet|deakti|sperrt|schrankt|verfugbar|reduz")


@lru_cache(maxsize=1)
def _forms() -> tuple[re.Pattern[str], ...]:
    """Made when the first text asks for them: most scans hold none."""
    return tuple(re.compile(rf"{form}\s*") for form in (*_ENGLISH, *_GERMAN, *_FRENCH, *_SPANISH))


@lru_cache(maxsize=8192)
def pointed_at(text: str) -> str | None:
    """How ``text`` names the module that holds the fault, in small letters; None where it tells of none."""
    low = folded(text)
    if not low or not _SIGN.search(low):
        return None
    for piece in pieces(low, clauses=True):
        for form in _forms():
            if found := form.fullmatch(piece):
                return found["name"].strip(" ,-.")
    return None
