"""What fed the vehicle from outside during a scan: a charger, a jump pack, another vehicle, or said to be nothing.

>>> [outside_supply(text) for text in ("jump pack on, 12.9v", "no charger", "mit ladegerat", "onboard charger: ok")]
['jump pack', 'none', 'charger', None]
>>> [outside_supply(text) for text in ("12 min run, pack off, 14.2v", "pack taken off", "battery pack off")]
['none', 'none', None]
"""

from __future__ import annotations

import re

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import doubts, tocome
from triage.intake.said.usedparts import put_in
from triage.model.snapshot import OutsideSupply

#: Behind the name of a device: it is a module, or part of one, and no outside supply.
_NO_DEVICE = (
    r"(?![a-z])(?! ?(?:module|control|ecu|unit(?! conn)|sensor|pressure|solenoid|valve|relay|circuit|fan|"
    r"air|embarque|de bord|a bordo|de a bordo|an bord|interno|integre)(?![a-z]))"
    r"(?! ?(?:12|24|48) ?v (?:i (?:found|got|see|have)|has|had|shows?|gives?|reports?)(?![a-z]))"
    r"(?! (?:shows?|gives?|reports?|has|zeigt|meldet|gibt|donne|affiche|indique|a|da|muestra|tiene|presenta)"
    r"(?: \w+){0,3} [pcbu][0-3][0-9a-f]{3})"
    r"(?!\s*[:=-]?\s*(?:(?:says? |said |gives? |gave |answers? |answered )?(?:nrc|"
    r"neg(?:ative|\.)? (?:resp|reply|answer|antwort)|"
    r"refused|rejected|not accepted|denied|conditions? (?:not|non)|would ?n[o']?t|7f ?(?:14|04)|abgelehnt|verweigert|"
    r"refuse(?![a-z])|rechazad|reponse negative|respuesta negativa)|"
    r"no (?:answer|response|reply|comm\w*|codes?|faults?|dtcs?)|(?:did|does|do|would|could|"
    r"has|had|have)"
    r"(?: not|n'?t)? (?:resp\w+|answ\w+|repl\w+|comm\w+|codes?|no|[pcbu][0-3])|[pcbu][0-3][0-9a-f]{3}|clean|silent|"
    r"keine (?:antwort|komm\w+|fehler)|antwortet|pas de (?:reponse|comm\w+|defaut)|ne repond|sin (?:respuesta|"
    r"comu\w+)|"
    r"no responde))"
)
#: What every text has that names a device or says that there is none.
_SIGNS = lazily(
    r"ch[ar]{0,3}g|jump|donor|donneur|donante|(?:second|other) (?:vehicle|car|van|truck)|lead|spender|starthilf|"
    r"fremd|bos+ter|"
    r"cables? de|pin[cz]|boost|demarreur|arranca|pack|support|mainten|maintain|tender|condition|power supply|psu|"
    r"stabil|bench|lade|stutz|stuetz|erhaltung|netzteil|alimenta|cargador|mantened|fuente|nothing|nichts|rien de|nada |"
    r"outside|extern|extra|kabel |cables |"
    r"own batt|battery only"
)
#: A word of each of those, a quick check before them.
_WORDS = signs.of_pattern(
    r"ch[ar]{0,3}g|bos+ter|nichts|rien|nada|jump|donor|donneur|donante|second|other|lead|spender|starthilf|fremd|cable|pin[cz]|boost|demarreur|arranca|"
    r"pack|support|mainten|maintain|tender|condition|power|psu|stabil|bench|lade|stutz|stuetz|erhaltung|netzteil|"
    r"alimenta|cargador|mantened|fuente|nothing|outside|extern|extra|batt|kabel"
)
#: Behind a word that tells of another vehicle only where it says that it feeds this one, or no longer does.
_ON_IT = (
    r"(?= (?:(?:is|was|are|still|now|yet|left|just|ist|war|noch|wieder|nicht|mehr|est|etait|encore|toujours|esta|"
    r"estaba|todavia|aun|sigue) ){0,3}(?:on|connected|hooked|attached|clipped|off|disconnected|removed|unhooked|taken|"
    r"dran|angeklemmt|angeschlossen|ab|weg|abgeklemmt|branche|connecte|debranche|retire|conectado|puesto|desconectado|"
    r"quitado)(?![a-z]))"
)
#: Behind leads that nobody called jump leads: said to be off, they were those.
_OFF_IT = (r"(?= (?:(?:is|was|are|were|now|all|then|ist|sind|jetzt|wieder|est|sont) ){0,2}(?:off|removed|taken off|"
           r"unhooked|unclipped|ab|weg|runter|abgenommen|retiree?s?|enlevee?s?|otee?s?|quitad[oa]s?|sacad[oa]s?)(?![a-z]))")
_SUPPLY_NOUN: tuple[tuple[OutsideSupply, re.Pattern[str]], ...] = (
    (
        "donor vehicle",
        lazily(
            rf"(?<![a-z])(?:donor (?:vehicle|car|van|truck|bus|lorry)|(?:donor|spender|donneur|donante){_ON_IT}|"
            r"(?:second|other|another) (?:vehicle|car|van|truck|bus|lorry|tractor)|"
            r"jump(?:er)? (?:leads?|cables?)|"
            r"jump(?:ed|[ -]?started) (?:from|off)|jump (?:from|off(?= (?:an?|the|another|our|my|his|her)(?![a-z])))|"
            # "21.8 V, jump off": what was connected no longer is.
            r"jump(?= (?:is |was |now )?(?:off|on|removed|disconnected|connected)\s*(?:[,.;)|]|$))|"
            r"leads? (?:still |are |were )?(?:on|connected|attached)|"
            r"spenderfahrzeug|starthilfekabel|fremdfahrzeug|"
            rf"vehicule donneur|cables de demarrage|pinces|pince{_OFF_IT}|vehiculo donante|cables de arranque|"
            rf"pinzas|pinza{_OFF_IT}|(?<!plug )(?<!ht )(?<!coil )(?<!test )(?<!meter )(?<!scope )leads{_OFF_IT}|"
            rf"(?<!battery )(?<!earth )(?<!ground )cables{_OFF_IT}|"
            r"kabel(?= (?:(?:ist|sind|jetzt|wieder) ){0,2}(?:ab|weg|runter|abgenommen)\s*(?:[,.;!)]|$)))" + _NO_DEVICE
        ),
    ),
    (
        "jump pack",
        lazily(
            r"(?<![a-z])(?:jump[ -]?pac?k|jump[ -]?starter|jump ?box|"
            r"(?<!charger/)(?<!charger / )b(?=o+s)[ost]{2,5}e?r(?: pack)?(?![ /-]{1,3}ch[ar]{0,3}ge?r)|"
            r"starthilfe(?:gerat|geraet|box)?|booster de demarrage|demarreur autonome|"
            r"arrancador(?: de bateria)?|start booster|power pack|"
            r"(?<=pulled the )pack|(?<=unhooked the )pack|(?<=removed the )pack|(?<=took the )pack|"
            r"(?<=with the )pack|(?<=with a )pack|(?<=without the )pack|(?<=without a )pack|"
            r"(?<!battery )(?<!hv )(?<!traction )pack(?= (?:(?:is|was|now|still|taken|just|clipped|hooked|left) ){0,3}"
            r"(?:on|off|connected|"
            r"disconnected|removed)(?![a-z])))" + _NO_DEVICE
        ),
    ),
    (
        "charger",
        lazily(
            r"(?<![a-z-])(?<!on-board )(?<!onboard )(?<!on board )(?:"
            r"(?:battery |bench |mains )?ch[ar]{0,3}(?:ge?r|rger)(?!,(?! ?[12][0-9][.,][0-9]))|"
            r"(?:on|with) (?:a |the )?ch[ar]{1,3}ge?r|"
            r"(?<!since )(?:on|under) charge|(?:on|under) (?:(?:12|24) ?v |low voltage |voltage |power |"
            r"battery )?support"
            r"(?! (?:arm|bracket|leg|frame|call|ticket|line|team)(?![a-z]))|"
            r"support(?= (?:at |mode |@ ?)?[0-9]{1,2}(?:[.,][0-9]{1,2})? ?v(?![a-z]))|"
            r"battery (?:support(?: unit)?|maintainer|"
            r"tender|conditioner)|maintainer|"
            r"power supply(?= (?:(?:is|was|still|now|just) )*(?:on|connected|hooked|attached|clipped|off|"
            r"disconnected|removed)(?![a-z])(?! circuit))|"
            r"(?<![a-z])lader(?= (?:(?:noch|wieder|jetzt|ist|war|nicht|nich) ){0,3}(?:dran|an|ab|weg|angeklemmt|"
            r"angeschlossen)(?![a-z]))|"
            r"power supply unit|support unit|psu|stabili[sz]ed supply|bench supply|"
            r"(?:stutz|stuetz|batterie|erhaltungs|werkstatt)?lade?gera(?:e)?t|stutzgerat|stuetzgeraet|"
            r"ladeerhaltung(?:sgerat)?|"
            r"erhaltungsladegerat|stutzbetrieb|netzteil|chargeur|mainteneur|en charge|alimentation stabilisee|"
            r"cargador|mantenedor|fuente)" + _NO_DEVICE
        ),
    ),
)
_OFF = lazily(
    r"(?<![a-z])(?:no|nil|not used|nicht|nich|ned|net|nie|never|pas|non|nunca|(?:is|was|were)(?:n ?'? ?t|nt)|"
    r"ain ?'? ?t|pulled(?! down| up)|unhooked|unclipped|off(?! (?:an?|the|of|another|our|my|his|her|"
    r"its|one|battery)(?![a-z]))|without|disconnected|"
    r"unplugged|removed|not|none|kein(?:e|en|er|es|s)?|ohne|ab|"
    r"abgeklemmt|abgenommen|abgesteckt|abgezogen|entfernt|weg|runter|enlevee?s?|otee?s?|"
    r"aus|sans|pas de|debranchee?s?|deconnectee?s?|retiree?s?|sin|desconectad[oa]s?|quitad[oa]s?|quit[eo]|quitamos|"
    r"retirad[oa]s?|sacad[oa]s?|saque|fuera|nothing|taken off|took off|"
    r"not connected|"
    r"aucune?|ningun[oa]?)(?![a-z])"
)
#: What parts the device from what is said of another thing: "engine off / jump pack on", but "charger / off".
_PARTS = lazily(r"[,;.]\s|\s[/|-]\s|\||\s{3,}|\t")
_PARTS_BEHIND = lazily(r"[,;.]|(?<=[a-z])\s*\|\s*|(?<=[a-z])\s[/-]\s")
#: What else than the device is off.
_OTHER_OFF = lazily(
    r"(?<![a-z])(?:engine|ignition|ign|key|motor|zundung|zuendung|moteur|contact|encendido|lights?|headlights?|licht|"
    r"loads?|consumers)\s+(?:(?:is|was|are|switched|turned)\s+)?(?:off|aus)(?![a-z])|"
    r"(?<![a-z])(?:engine|motor|moteur)\s+(?:is\s+|was\s+)?(?:not (?:running|started|on)|nicht an|pas demarre)(?![a-z])"
)
_NO_SUPPLY = lazily(
    r"(?<![a-z])(?:(?:outside|external|extra|support) (?:supply|power|feed|source)\s*[:=]?\s*(?:none|no|off|"
    r"nothing)(?![a-z])|"
    r"(?:no|without(?: a)?|not? on|ohne|sans|sin) (?:battery )?(?:charger|ladegerat|chargeur|"
    r"cargador)(?=\s*(?:[,.;)]|$))|"
    r"(?:(?:battery|batt|supply|posts?|terminals?|rested|resting|at rest)|[0-9] ?v(?:olts?)?|[0-9][.,][0-9]{1,2})"
    r"(?:,| with)? nothing on(?: it(?![a-z])|"
    r"(?=\s*(?:[,;.)!]|$)))|"
    r"(?:nichts|rien de|nada) (?:angeschlossen|angeklemmt|dran|branche|conectado)|"
    r"nothing (?:else )?(?:connected|hooked up|attached|plugged in|clipped on|on the battery)|(?:no|without|not any|"
    r"ohne|sans|sin) (?:(?:outside |external |extra |battery )?support|"
    r"(?:outside|external|extra) (?:supply|power))"
    r"(?: connected| on(?: it)?)?(?=\s*(?:[,;.)]|$))|(?:fremdspannung|"
    r"externe versorgung|"
    r"fremdeinspeisung)\s*[:=]?\s*"
    r"(?:keine|nein|ohne)|(?:alimentation externe)\s*[:=]?\s*(?:aucune|non|sans)|(?:alimentacion externa)\s*[:=]?\s*"
    r"(?:ninguna|no|sin)|(?:sin|ninguna|sans|aucune|ohne|keine) (?:(?:alimentacion|fuente) externa|"
    r"alimentation ext(?:erne|erieure)|externe (?:versorgung|speisung|einspeisung)|"
    r"fremd(?:spannung|einspeisung|versorgung))|"
    r"on its own battery|vehicle battery only|own battery only)"
)


#: What a vehicle does each time is no state of a scan: "starts only with the booster, dies after an hour".
_HABIT = lazily(
    r"(?<![a-z])(?:starts|(?:will|would|can) (?:only |just )?start|springt|startet|demarre|arranca)"
    r"(?: (?:up|only|just|fine|ok|every time|always|nur|immer|an|jedes mal|seulement|uniquement|toujours|que|solo|"
    r"siempre|bien)){0,3} (?:with|off|from|on|mit|avec|con) "
    r"(?:(?:a|an|the|my|our|dem|der|einem|einer|le|la|un|une|el|una) )?$")
#: It is there all the same: "starts only with jump pack connected".
_CONNECTED = lazily(
    r" ?(?:connected|attached|hooked up|clipped on|angeschlossen|dran|branche|connecte|conectado)(?![a-z])")
#: "8.8 without the pack, 12.5 with": of two readings the later.
_WITH_IT = lazily(r"[0-9] ?v? (?:with|mit|avec|con)(?: (?:it|one|ihm|lui|el))?\s*(?:[.,;)]|$)")
_ALONE = lazily(
    r"\s*(?:(?:the|a|an) )?(?:(?:battery|bench|mains|workshop) )?(?:charger|maintainer|support unit|booster|"
    r"jump[ -]?pack|"
    r"maintainer ?/ ?charger|ladegerat|batterieladegerat|chargeur(?: de batterie)?|cargador(?: de bateria)?)"
    r"(?: (?:is|was|still|left|not|ist|war|noch|nicht|nich|est|etait|pas|encore|non|esta|estaba|no)){0,3} (?:on|"
    r"connected|hooked up|attached|plugged in|"
    r"running|"
    r"clipped on|angeschlossen|an|dran|branche|connecte|conectado|enchufado|puesto|off|disconnected|removed)"
    r"(?=\s*(?:[,.;!(]|-\s|[0-9]{1,2}[.,][0-9]|$))|"
    r"\s*(?:battery |bench |mains )?"
    r"(?:charger|maintainer|support unit|booster|jump[ -]?pack|ladegerat|chargeur|cargador)(?: (?:at|mit|a))? "
    r"[0-9]{1,2}[.,][0-9]{1,2} ?v(?:olts?)?(?=\s*(?:[,.;!]|$))|"
    r"\s*(?:on|with|mit|am|an|sous|avec|con|en)\s(?:(?:the|a|an|dem|einem|le|un|une|el)\s)?(?:battery |bench |mains )?"
    r"(?:charger|charge|maintainer|support unit|booster|jump[ -]?pack|ladegerat|chargeur|cargador)"
    r"(?=\s*(?:[,.;!(]|-\s|[0-9]{1,2}[.,][0-9]|$))|"
    r"\s*(?:battery |bench )?(?:charger|maintainer|support unit|booster|jump[ -]?pack|ladegerat|chargeur|cargador)"
    r"\s*[:=]\s*(?:yes|no|on|off|connected|not connected|ja|nein|an|ab|oui|non|branche|si|conectado)\s*$|"
    r"\s*(?:(?:(?:battery|external|outside) )?(?:support (?:unit|supply)|maintainer|stabili[sz]er)|battery support|"
    r"(?:(?:external|bench|mains) )?(?:charger|power supply)|jump[ -]?pack|(?:batterie)?(?:stutz|lade)gerat|chargeur|"
    r"cargador)\s*[:=]\s*(?:none|nil|not used|keine?[sr]?|aucune?|ningun[oa]?|-{1,2})\s*$"
)

#: What says that somebody connected a device, before its name and behind it; "with" and "on" where a sentence begins.
_PUT_ON = lazily(
    r"(?:(?<![a-z])(?:put|hung|hooked up|connected|clipped|plugged in|puse|pusimos|puesto|"
    r"poner|poniendo|conectar|putting|conecte|conectamos|"
    r"conectado|enchufe|enchufado|mis|branche|connecte|raccorde|angeschlossen)|"
    r"(?:^|[.;,:!(]|[0-9]\s?v?(?:olts?)?)\s*(?:with|on|con|avec|sous|mit|am|an))\s"
    r"(?:(?:the|a|an|my|our|el|un|le|du|das|dem|den|ein|einen|einem)\s)?$"
)
_OPENS = lazily(r"(?:^|[.;,:!(]|[0-9]\s?v?(?:olts?)?)\s*$")
_IS_ON = lazily(
    r"\s(?:(?:is|was|now|still|ist|war|jetzt|est|etait|esta|estaba|noch)\s){0,2}(?:connected|hooked up|attached|"
    r"clipped on|plugged in|on|angeschlossen|angeklemmt|dran|ran|branche|connecte|en place|conectado|enchufado|puesto)"
    r"(?![a-z])|"
    r",?\s(?:(?:at|set to|on|auf|bei|mit|a|regle a|en|ajustado a)\s)?[0-9]{1,2}(?:[.,][0-9]{1,2})?\s?v(?![a-z])"
)


def _may_stand_in(low: str) -> bool:
    """Whether a line may name what feeds the vehicle."""
    return signs.of(low) & _WORDS != 0 and _SIGNS.search(low) is not None


@remembered
def alone(low: str) -> bool:
    """Whether a line starts with a device and that it is on or off ("on charger, ..."), and so names no module.

    >>> alone("battery charger on, ubat = 12.1 v"), alone("charger 13.4 v, cleared"), alone("charger on 13.4v")
    (True, True, True)
    >>> alone("charger not connected"), alone("ladegerat noch nicht dran")
    (True, True)
    >>> alone("battery charger: no answer"), alone("charger"), alone("charger 12.1 v no codes")
    (False, False, False)
    """
    return _may_stand_in(low) and _ALONE.match(low) is not None


@remembered
def spans(low: str) -> tuple[tuple[int, int], ...]:
    """Where a line names what feeds the vehicle."""
    if not _may_stand_in(low):
        return ()
    return tuple(match.span() for _, noun in _SUPPLY_NOUN for match in noun.finditer(low))


@remembered
def connected(low: str) -> tuple[tuple[int, int], ...]:
    """Where a sentence names a device that somebody connected, and so no module.

    >>> connected("puse el cargador: motor sin fallos"), connected("charger connected: engine clean")
    (((8, 16),), ((0, 7),))
    >>> connected("charger no faults, engine clean"), connected("no comms with charger")
    ((), ())
    """
    found = spans(low)
    return tuple(
        (start, end) for start, end in found
        if _IS_ON.match(low, end) or _PUT_ON.search(low, max(0, start - 24), start)
        or (low.startswith(("on ", "with "), start) and _OPENS.search(low, max(0, start - 8), start))) if found else ()


@remembered
def outside_supply(low: str) -> OutsideSupply | None:
    """What fed the vehicle from outside, "none" where the text says that nothing did."""
    if not _may_stand_in(low):
        return None
    low = doubts.left_out(tocome.clauses_done(low))
    if _NO_SUPPLY.search(low):
        return "none"
    found: OutsideSupply | None = None
    for kind, noun in _SUPPLY_NOUN:
        # "Jump leads on, started, leads off": the last that is said of it holds.
        match = None
        for next_ in noun.finditer(low):
            # "Jump off another van" is one.
            match = match if match is not None and not low[match.end() : next_.start()].strip() else next_
        if match is None or (kind == "donor vehicle" and put_in(low)):
            # "A module from a donor car fitted": no car that feeds another.
            continue
        habit = _HABIT.search(low, max(0, match.start() - 40), match.start()) is not None
        if habit and _CONNECTED.match(low, match.end()) is None:
            continue
        before = _PARTS.split(low[max(0, match.start() - 24) : match.start()])[-1]
        behind = _PARTS_BEHIND.split(low[match.end() : match.end() + 22])[0]
        off = _OFF.search(_OTHER_OFF.sub("", f"{before[-16:]} # {behind}"))
        if not off or _WITH_IT.search(low, match.end()) is not None:
            return kind
        # "Jump pack off, charger 13.6 V": another device may still be on.
        found = "none"
    return found
