"""Verbs of saying, as people use them of modules and codes: "the dash says U0100", "ABS coughed up C0040".

Sources: common practice in British and American workshops, in German, French and Spanish.
"""

from __future__ import annotations

from triage.intake.plain.phrases import word_set

#: English verbs with what is added to each: "flag", "flags", "flagged", "flagging".
_PLAIN = word_set("report log show return display record register list flag pop kick chuck cough")
_WITH_E = word_set("raise produce generate indicate")
_FORMS = word_set("""
    say says said saying throw throws threw throwing thrown give gives gave giving spit spits spat spitting sling slings
    slung bring brings brought bringing pull pulls pulled pulling hold holds held holding read reads reckons reckoned
    moan moans moaned moaning whinge whinges whinged whinging whine whines whined whining grumble grumbles grumbled
    grumbling bitch bitches bitched bitching gripe gripes griped griping scream screams screamed screaming shout shouts
    shouted shouting cry cries cried crying complain complains complained complaining trip trips tripped tripping flags
    flagged flagging log logs logged logging post posts posted posting pop pops popped popping dump dumps dumped
    dumping answer answers answered answering replies replied replying respond responds responded responding
    talks talked contains contained carries carried presents tells told telling comes came coming gets got getting
    picked picks picking claims claimed claiming mentions mentioned mentioning sports sported
    wirft warf schmeisst schmeist schmiss meckert meckerte mault motzt spuckt spuckte sagt sagte bringt brachte nennt
    liefert lieferte legt setzt kriegt bekommt klagt jammert
    dit disait sort sortait crache donne donnait balance renvoie renvoyait retourne signale remonte leve releve
    enregistre presente indique annonce raconte
    saca saco tira tiro dice decia marca marcaba lanza lanzo arroja arrojo suelta escupe devuelve reporta senala indica
    canta registra guarda muestra da dio conserva conservaba mantiene conserve garde gardait
""")


def _forms() -> frozenset[str]:
    """Every form of every verb."""
    found = set(_FORMS)
    for verb in _PLAIN:
        found |= {verb, f"{verb}s", f"{verb}ed", f"{verb}ing"}
    for verb in _WITH_E:
        found |= {verb, f"{verb}s", f"{verb}d", f"{verb[:-1]}ing"}
    return frozenset(found)


VERBS = _forms()
#: What stands before the verb, and behind it.
BEFORE = word_set("""
    is are was were has have had keeps kept still just also now then again only even always really definitely certainly
    probably apparently module unit ecu itself both though actually it its steuergerat hat ist aber auch noch nur
    m me te se nous vous nos mir uns immer toujours encore siempre todavia tambien aussi bien
""")
BEHIND = word_set("""
    up out back off down about of with at me us in on to a an the just only still now again also both mir uns aus raus
    uber an ab den die einen moi nous le la les un une el los unos solo nur auch noch weiter code codes
""")
#: Words of certainty with no verb: "engine definitely P0300".
ADVERBS = word_set("""
    definitely certainly surely probably apparently maybe possibly again only just still also too likewise ebenfalls
    auch nur wieder noch ebenso sicher aussi egalement encore toujours tambien igualmente todavia solo
""")
#: Who says something and is no module.
PEOPLE = word_set("""
    i we he she they you it who customer driver owner client garage dealer mechanic technician colleague apprentice boss
    somebody someone nobody tool reader scanner tester app kunde kundin fahrer fahrerin halter werkstatt meister kollege
    chauffeur conducteur proprietaire garagiste cliente conductor propietario taller mecanico ich wir er sie je nous il
    elle ils yo el ella
""")
#: Verbs of speech: "says nothing" may be silence.
SPEAKS = word_set(
    "say says said saying tell tells told answer answers answered reply replies replied respond responds responded "
    "talks talked sagt sagte dit disait dice decia raconte annonce"
)
