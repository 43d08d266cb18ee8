"""Column heads and keys: what a column, or the value after a key, is.

>>> role_of("Fault code".lower()), role_of("failure type (hex)"), role_of("steuergerat"), role_of("steuergrat")
('code', 'failure_type', 'module', 'module')
>>> is_head(["module", "dtc", "state"]), is_head(["ecm", "p0562", "stored"])
(True, False)
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import covered, phrase_set, plain_words, word_set
from triage.intake.plain.slips import Choices, nearest
from triage.intake.words.answerwords import ANSWER_KEYS
from triage.intake.words.column_words import ROLES
from triage.intake.words.module_words import ENTRIES, SPELLINGS
from triage.intake.words.scan_words import SESSIONS
from triage.intake.words.vocabulary import STATES
from triage.intake.words.volt_words import LOWEST

#: Keys that lead from a code to its module, and mean something else in any other place ("From: ..." in a mail).
_KEYS = phrase_set(
    "in | from | by | at | im | in der | aus | von | bei | dans | en | sur | par | source | origin | quelle"
)
#: Heads of a column of modules, in a table without a surer one; as keys they mean something else ("Source: ...").
SENDERS = phrase_set("""
    source | sender | origin | originator | sent by | raised by | from | source ecu | source unit | source name |
    source controller | sending unit | sending ecu | source node | where | quelle | absender | sender ecu | herkunft |
    quellsteuergerat | ursprung | source calculateur | emetteur | origine | emis par | provenance | origen | emisor |
    fuente | procedencia | remitente | gerat | geraet | appareil | dispositivo | controlador | controleur""")
#: Columns named by a status: a mark, or the codes themselves, stand in them.
_FLAGS = {
    "current": phrase_set(
        "active | current | present | aktiv | aktuell | vorhanden | actif | actuel | activo | presente"
    ),
    "pending": phrase_set("pending | ausstehend | anstehend | en attente | pendiente"),
    "confirmed": phrase_set("confirmed | bestatigt | confirme | confirmado"),
    "stored": phrase_set("""
        stored | history | historic | inactive | memory | memorised | past | gespeichert | passiv | historie |
        memorise | enregistre | fugitif | almacenado | memorizado | pasado | inactivo | historico"""),
    "permanent": phrase_set("permanent"),
}
#: Statuses that name a scan or a column of dates as well.
_MOMENTS = phrase_set("logged | saved | recorded | occurred | waiting | open | hard | constant | continuous")
#: The same, unless the other column is named by a status too.
_TIMES = phrase_set("now | old | previous | prev | live | on now | jetzt | alt | fruher | ancien | ahora | anterior")
#: Words that may stand beside a status in the head of its column.
_BESIDE = frozenset(("in", "im", "en", "yet", "noch", "still", "encore", "aun", "is", "ist", "est", "esta", "now"))
_OF_CODES = lazily(
    r"\s*(?:codes?|dtcs?|faults?|fehler|defauts?|averias?|codigos?)$|^(?:codes?|dtcs?|faults?|fehler|defauts?|averias?|"
    r"codigos?)\s+(?=[a-z])"
)
_FLAG = {phrase: f"flag {status}" for status, phrases in _FLAGS.items() for phrase in phrases}
_ROLE = {phrase: role for role, phrases in ROLES.items() for phrase in phrases}
#: Long enough that a slip of one or two letters still leaves one meaning.
_LONG = {phrase: role for phrase, role in _ROLE.items() if len(phrase) >= 5}
_LONG_NAMES = Choices(_LONG)
#: Keys of programs, which write several words as one: "lowestVoltage".
_RUN_TOGETHER = {phrase.replace(" ", ""): role for phrase, role in _ROLE.items() if " " in phrase and len(phrase) >= 9}
#: "Steuergeraet"
_UMLAUT = lazily(r"([ao])e")
_UNIT_TAIL = lazily(r"\s*[(\[](?:v|volts?|hex|km|min|s|dec|bin|optional|°c|rpm|km/h|0x|dtc|text)[)\]]\s*$")
#: "Supply V", "Batt V": the unit behind the name of a voltage.
_VOLT_TAILS = (" v", " volts", " volt")
_OF_SUPPLY = lazily(
    r"(?:voltage|volts|spannung|tension|voltaje)(?: (?:at|on|an|a|en|de|du))? (.{2,20})|(.{2,20}) (?:voltage|spannung)")
_NUMBER_TAIL = lazily(r"[\s_.-]*(?:(?:no|nr|n°|num|number)\.?)?[\s_]*#?(?:[0-9]{1,2}[.-])?[0-9]{1,2}$")
#: Keys that count the modules of a scan: "ECU 3: body", "Steuergerät 2: Klima".
_NUMBERED_MODULES = phrase_set("""
    module | control module | control unit | ecu | unit | system | controller | node | device | steuergerat |
    steuergeraet | stg | modul | steuereinheit | calculateur | boitier | centralita | unidad | modulo | sistema |
    systeme | unite | ucu | uce | unidad de control | unidad de mando | einheit | baugruppe | organe | module name |
    ecu name | ug | calc | name | nombre | nom | controller name | system name""")
#: Keys that count the codes of a module: "Fault 1:", "Ereignis 2:".
_NUMBERED_CODES = ENTRIES | ROLES["code"] - {"numero", "code no"}
#: "Unit name", "Steuergerätebezeichnung", "nom du calculateur".
_NAME_OF = lazily(
    r"(.{2,24}?)(?:[ _-]{1,2}|(?<=[a-z])e?(?=bez))(?:name|designation|title|label|bezeichnung|desc\.?)|"
    r"(?:name of(?: the)?|name d(?:es|er)|bezeichnung d(?:es|er)|nom d(?:u|e la|e)|nombre de(?:l| la)?|"
    r"denominacion de(?:l| la)?|designation d(?:u|e la)) (.{2,24}?)(?<=[a-z])(?:e?s)?"
)
#: "DTC 1 status", "fault 2 text".
_OF_A_CODE = lazily(r"(?:dtc|code|fault|fehler|fehlercode|defaut|codigo|averia)[\s._-]*#?[0-9]{1,2}[ _.-]+(?=[a-z])")
#: Columns in which the codes of a module stand, their number, or what it answered.
_TELLING = frozenset(("code", "spn", "count_of_codes", "answer", "reply", "status"))
_COLONS, _QUOTES = (":", "="), ("\"", "'")
#: What is called by its name; a customer's is none of them.
_MODULE_WORDS = frozenset(phrase for phrase in _NUMBERED_MODULES if phrase.split()[-1] not in ("name", "nombre", "nom"))
#: Words of a head over SPN and FMI in one cell: "DTC (SPN/FMI)".
_PAIRED = word_set("spn fmi dtc dtcs code codes fault faults and no number fehler fehlercode defaut codigo")
#: Beside one of these "nombre" is how often, and no name.
_FRENCH = word_set("calculateur calculateurs boitier organe systeme libelle statut defaut etat")
#: The statuses that a column or a key may tell, in brackets behind its name.
_CHOICE = lazily(r"([^()\[\]]{2,30}?)[ _]{0,2}[(\[]([a-z ]{3,20}(?:[/|,][a-z ]{3,20}){1,4})[)\]]")
_KINDS = word_set("kind sort class genre sorte nature klasse clase clasificacion")
_OR, _NOTHING = lazily("[/|,]"), frozenset[str]()
_EDGE = " \t*_:.=#\"'`>-\u2022"
#: What columns and keys are made for that name no module.
NO_MODULES = frozenset(("code", "volts", "status", "date", "odometer"))


@lru_cache(maxsize=8192)
def role_of(low: str, exactly: bool = False) -> str | None:
    """The role that a head or key in small letters names, or None. ``exactly``: no slip of the pen in it."""
    bare = low.strip(_EDGE) or low.strip()
    choice = _CHOICE.fullmatch(bare) if bare[-1:] in (")", "]") and len(bare) <= 60 else None
    if choice is not None and all(covered(part, STATES.find(part), _NOTHING) for part in _OR.split(choice[2])):
        # "Type (active/stored)" holds one of them.
        role = role_of(choice[1], exactly=exactly)
        return "status" if role in ("failure_type", "other") or choice[1] in _KINDS else role
    if not bare or len(bare) > 32:
        return None
    for text in (bare, _UNIT_TAIL.sub("", bare), bare.replace("_", " ").replace("-", " "), _UMLAUT.sub(r"\1", bare)):
        if (role := _ROLE.get(" ".join(text.split())) or _RUN_TOGETHER.get(text)) is not None:
            return role
    if "spn" in bare and "fmi" in bare and _PAIRED.issuperset(plain_words(bare)):
        return "spn"
    bare = bare.replace("_v", " v") if bare.endswith("_v") else bare
    if bare.endswith(_VOLT_TAILS) and role_of(bare[: bare.rfind(" ")].rstrip(" ."), exactly=exactly) == "volts":
        return "volts"  # "Batt V", "Battry V"
    of_supply = _OF_SUPPLY.match(bare)
    if of_supply is not None and _ROLE.get(of_supply[1] or of_supply[2]) == "volts":
        return "volts"  # "Spannung Kl. 30"
    written_out = " ".join(SPELLINGS.get(word.rstrip("."), word) for word in bare.split())
    if _names_modules(bare) or (written_out != bare and role_of(written_out, exactly=True) == "module"):
        return "module"  # "unit name", "ctrl mod", "cntrl unit 2"
    of_module, _, asked = bare.rpartition(" ")
    if of_module in _MODULE_WORDS and _ROLE.get(asked) in ("answer", "reply"):  # "module result"
        return _ROLE[asked]
    of_code = _OF_A_CODE.match(bare)
    if of_code is not None:
        return role_of(bare[of_code.end() :])
    counted = " ".join(_NUMBER_TAIL.sub("", bare).split())
    if counted != bare:
        role = _ROLE.get(counted) or _RUN_TOGETHER.get(counted.replace("_", ""))  # "faultText1", "trouble_code_2"
        if counted in _NUMBERED_MODULES or _names_modules(counted):
            return "module"
        if counted in _NUMBERED_CODES or (role == "code" and counted not in _ROLE):
            return "code"
        if role in ("status", "description", "failure_type", "count") or counted in ANSWER_KEYS:
            return role
    if exactly or len(bare) < 5 or has_digit(bare):
        return None
    return _LONG.get(nearest(bare, _LONG_NAMES, 1 if len(bare) < 9 else 2) or "")


def _names_modules(low: str) -> bool:
    """Whether a key asks for the name of a control unit, in any of the words for one."""
    named = _NAME_OF.fullmatch(low)
    return named is not None and (named[1] or named[2]) in _MODULE_WORDS


def roles_of(lows: Sequence[str]) -> tuple[str | None, ...]:
    """The roles of the columns of a head. One named by a status is "flag stored" and the like, unless it is the only
    one and a column of statuses as well ("present")."""
    flags = [_FLAG.get(_OF_CODES.sub("", low.strip(_EDGE))) or _flag_of_codes(low.strip(_EDGE)) for low in lows]
    told = [flag or _flag_of(low.strip(_EDGE), any(flags)) for flag, low in zip(flags, lows, strict=True)]
    several = len(set(told) - {None}) >= 2
    flags = told if several or [*filter(None, told)] == ["flag current"] else flags  # "active now?"
    roles = tuple(
        flag if flag is not None and (several or role_of(low) is None) else role_of(low)
        for low, flag in zip(lows, flags, strict=True)
    )
    if "scan" not in roles:
        roles = tuple(role or ("scan" if low.strip(_EDGE) in SESSIONS else None)
                      for role, low in zip(roles, lows, strict=True))
    roles = tuple(role or ("lowest_volts" if _is_lowest(low, roles, at) else None)
                  for at, (role, low) in enumerate(zip(roles, lows, strict=True)))
    if "module" in roles:
        french = not _FRENCH.isdisjoint(low.strip(_EDGE) for low in lows)
        return tuple("count" if french and low.strip(_EDGE) == "nombre" else role
                     for role, low in zip(roles, lows, strict=True))
    if "short_name" in roles:
        return tuple("module" if role == "short_name" else role for role in roles)
    if not {"code", "spn"}.intersection(roles):
        return roles
    senders = [at for at, low in enumerate(lows) if low.strip(_EDGE) in SENDERS]
    return tuple("module" if at in senders[:1] else role for at, role in enumerate(roles))


def _is_lowest(low: str, roles: Sequence[str | None], at: int) -> bool:
    """Whether a head is that of the lowest voltage: "U min", "Minimum (V)" beside codes, "Minimum" right behind one of
    voltages."""
    bare = LOWEST.sub("", low)
    rest = bare.strip(_EDGE + " ()[]")
    if bare == low or rest not in ("", "v", "volt", "volts"):
        return bare != low and role_of(bare) == "volts"
    if rest and not {"code", "spn"}.isdisjoint(roles):
        return True
    return "scan" in roles or ("volts" in roles and (bool(rest) or roles[at - 1] == "volts"))


def _flag_of_codes(low: str) -> str | None:
    """The flag of a head that names codes of one status, or asks after it: "old faults", "currently present"."""
    bare = _OF_CODES.sub("", low)
    meanings = {hit.meaning.rstrip("?") for hit in STATES.find(bare)} if bare != low or " " in low else set()
    return f"flag {meanings.pop()}" if len(meanings) == 1 and covered(bare, STATES.find(bare), _BESIDE) else None


def _flag_of(low: str, beside: bool) -> str | None:
    """The flag of a head that is one status in words that columns are seldom named by ("not confirmed"): among others
    of that kind it is one, and so is "now" where another is surely one (``beside``)."""
    if low in _TIMES:
        return f"flag {STATES.find(low)[0].meaning.rstrip('?')}" if beside and STATES.find(low) else None
    if not 3 < len(low) <= 32 or low in _MOMENTS or _ROLE.get(low) not in (None, "status"):
        return None
    hits = STATES.find(low)
    meanings = {hit.meaning.rstrip("?") for hit in hits}
    return f"flag {meanings.pop()}" if len(meanings) == 1 and covered(low, hits, _BESIDE) else None


def is_key(low: str) -> bool:
    """Whether a word before a colon leads from the code above to its module ("in: BCM")."""
    return low.strip(_EDGE) in _KEYS


def is_head(lows: Sequence[str]) -> bool:
    """Whether the cells are column names: at least two of them, one for the module or the code."""
    if not 2 <= len(lows) <= 24 or any(len(low) > 40 for low in lows):
        return False
    exact = sum(low.strip(_EDGE) in _ROLE for low in lows)
    if not exact or (len(lows) == 2 and exact < 2):
        return False
    if lows[1].startswith((":", "=")) or (lows[0].endswith((":", "=")) and not lows[-1].endswith((":", "="))):
        # "Unit: Speedo" is a key with its value, and so is "Status:  no  codes".
        return False
    roles = roles_of(lows)
    named = [role for role in roles if role is not None]
    if sum(role.startswith("flag") for role in named) < 2:
        named = [role for role in named if not role.startswith("flag")]
    if len(named) < 2 or not {"module", "code", "spn"}.intersection(named):
        return False
    filled = sum(bool(low.strip()) for low in lows)
    return len(named) >= 0.5 * filled and len(set(named)) >= 2


def is_keyed(lows: Sequence[str], roles: Sequence[str | None] = ("module",)) -> bool:
    """Whether cells are a key and its value, set apart by blanks before or behind the colon; no row of a table. Without
    a colon where they name a module and none of the columns (by their ``roles``) does.

    >>> is_keyed(["ecu name", ": body"]), is_keyed(["module :", "brake"]), is_keyed(["body:", "b1045"])
    (True, True, False)
    >>> is_keyed(["ecu name", "body"]), is_keyed(["ecu name", "body"], ("code", "status"))
    (False, True)
    """
    filled = [low for low in lows if low.strip()]
    if len(filled) < 2 or len(filled[0]) > 40:
        return False
    if filled[0][-1:] in _COLONS or filled[1][:1] in _COLONS:
        return role_of(filled[0].rstrip(" :="), exactly=True) is not None
    bare = len(filled) == 2 and "module" not in roles
    return bare and role_of(filled[0], exactly=True) == "module" and role_of(filled[1], exactly=True) is None


def nearly_head(lows: Sequence[str]) -> bool:
    """Whether most of three cells or more are names of columns as listed, though none for the module or the code.

    >>> nearly_head(["ctrl unit", "addr", "answer", "faults", "detail"]), nearly_head(["abs", "no", "ok"])
    (True, False)
    """
    if not 3 <= len(lows) <= 24 or any(len(low) > 40 for low in lows):
        return False
    named = {_ROLE[bare] for low in lows if (bare := low.strip(_EDGE)) in _ROLE}
    return len(named) >= 3 and 2 * len(named) > len(lows) and not _TELLING.isdisjoint(named)


def bare_value(value: str) -> tuple[int, int]:
    """Where a value begins and ends without the quotes around it and a comma behind ('"16",').

    >>> bare_value('"16",'), bare_value("'a' "), bare_value(" low,"), bare_value('the "key"'), bare_value('"16')
    ((1, 3), (1, 2), (1, 4), (0, 9), (1, 3))
    """
    begin, end = len(value) - len(value.lstrip()), len(value.rstrip(" ,"))
    if end - begin >= 2 and value[begin] in _QUOTES:
        # The second one may be gone with the mark behind it.
        return begin + 1, end - (value[end - 1] == value[begin])
    return min(begin, end), end
