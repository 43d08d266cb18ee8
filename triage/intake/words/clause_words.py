"""The small words of sentences about modules and codes, in English, German, French and Spanish, each with its part: v a
verb, p a place ("in"), d "of", w "with", & "and", t an article, l "all", k a word for codes or a count of them, m
"same", e "as", r what takes back, u "not", h what was expected, g another try, i what says nothing of a code.

Sources: common practice in workshops of those languages.
"""

from __future__ import annotations

from triage.intake.plain.phrases import word_set
from triage.intake.words import saying_words

#: Verbs that stand between a module and its codes, or between codes and their module.
_VERBS = saying_words.VERBS | word_set("""
    has have had having is are was were be been shows show showed shown holds hold held holding stores contains
    contain
    reads gives got logs set sets lists listed list sits sit sitting lives live comes come came turned turns turn up
    stands belongs belong carries carry carrying keeps kept found find see sees saw seen read noted note noting
    wrote
    pulled pull had has get gets gave took take stored retained picked logging storing there's that's it's got's
    turned spat
    hat haben hatte hatten ist sind war waren zeigt zeigen zeigte meldet melden meldete steht stehen stand standen
    kommt kommen kam kamen liefert liefern bringt bringen gibt geben gab wirft werfen nennt habe finde fand gefunden
    lese las gelesen ausgelesen sehe sah notiert eingetragen hinterlegt liegt liegen lag sitzt sitzen setzt taucht
    tauchen erscheint erscheinen gehoert gehort gehoren stammt speichert fuehrt fuhrt antwortet antworten bekomme
    kriege
    spuckt hinterlegte gemeldet spricht sprechen lebt
    etait etaient repondu a ont avait avaient est sont etait affiche affichent remonte remontent signale signalent
    donne donnent presente
    presentent contient indique indiquent sort sortent renvoie renvoient enregistre stocke trouve trouvons trouvees
    trouve releve relevons lis lu vois vu vient viennent provient apparait apparaissent appartient note porte garde
    gardent memorise repond repondent ai avons parle parlent communique
    tiene tienen tenia tenian hay muestra muestran mostro da dan dio reporta reportan reporto marca marcan guarda
    guardan esta estan sale salen salio aparece aparecen aparecio encuentro encontre encontramos leo lei leemos
    leido
    veo vi viene vienen trae traen registra registran registro indica indican contiene contienen lleva llevan
    pertenece
    saco saque sacamos saca sacan apunte apunto devuelve devuelven responde responden contesta contestan tengo
    tenemos encontrado son es
    era eran estaban waren etait etaient fue arroja lanza conserva anoto anote
""")
#: Words that lead to the place of a code.
_PLACES = word_set("""
    zu zur zum in on from at under inside im in am an bei beim aus vom unter dans sur chez cote sous en desde para
    into onto for fur fuer pour sobre within
""")
#: The same, which stand inside names too.
_OF = word_set("de del du des d of von of")
_WITH = word_set("with mit avec con having w/")
_AND = word_set("and & plus + sowie und et y e or oder ou ni nor u samt nebst ainsi mas")
_ARTICLES = word_set("""
    the a an my this that those these der die das den dem des ein eine einen einem le la les l un une el los las lo
    una al ce cette mon ma este esta eso
""")
#: They make a status one of all codes before it, or an answer one of all modules before it.
_ALL = word_set("""
    both all each every jeweils beide beides alle allen alles samtlich samtliche tous toutes deux trois ambos ambas
    todos todas los dos tres two three them ones of us chacun chaque cada uno einzeln zusammen identical same
    together
""")
#: What says nothing of a code: who speaks, when, how surely.
_FILLERS = word_set("""
    i we you he she they it me us im ive i've i'd we've we'd there here then now so also again still well right ok
    okay
    yeah yes next one just only even already meanwhile otherwise actually apparently too as for to up out back down
    off
    about what when looking going opening open opened reading asking asked inside memory nothing but except tool
    tester
    scanner scan he's they're to's uh um er erm hm list lists list's memory's by got the's which that now's ones
    well's
    turning while status state marked
    ich wir du er sie es mir uns man da dort dann jetzt nun noch auch nur so also schon wieder bereits ubrigens ja
    okay
    weiter als nachstes nachster was wenn tester geraet gerat liste speicher fehlerspeicher drin dabei ausserdem
    folgendes ferner zudem dazu bisher drin genau dabei haben wurde ohm aeh ah eh bloss lediglich ausser nichts
    betrifft angeht
    je j nous on tu il elle ils elles me m y qu que ce c la alors puis ensuite maintenant aussi encore oui bon bien
    statut etat
    seulement juste ne n outil valise liste memoire euh hein donc ca sinon enfin egalement apres rien d'autre
    estado
    yet encore aun
    yo nosotros me nos se lo ahi alli luego entonces ahora tambien todavia aun si vale bueno solo solamente
    equipo maquina lista memoria eh pues ademas despues sigue siguiente aqui respecto cuanto
""")
#: Nouns for codes and numbers of them: "three codes", "mit zwei Eintragen".
_COUNTS = word_set("""
    maker's makers manufacturer's manufacturers hersteller constructeur fabricante
    code codes fault faults dtc dtcs entry entries error errors trouble one two three four five six seven eight
    fehler fehlercode fehlercodes codes eintrag eintrage eintraege eintragen ein zwei drei vier funf sechs sieben
    folgende folgenden
    defaut defauts code deux trois quatre cinq six sept suivants erreur erreurs
    averia averias fallo fallos codigo codigos dos tres cuatro cinco seis siete siguientes error errores
    1 2 3 4 5 6 7 8 9
""")
#: Before a maker's own number it tells that one follows.
NUMBER_LEADS = word_set("code codes fault dtc fehler fehlercode fehlernummer defaut averia codigo fallo error erreur")
#: No module is called so, though nobody lists the word.
_PEOPLE = word_set("""
    customer driver owner client colleague boss garage workshop tester reader scanner
    kunde kundin fahrer halter werkstatt meister kollege tester
    client chauffeur conducteur garage collegue outil cliente conductor taller companero
    somebody someone nobody something anything nothing everything etwas nichts alles rien tout nada todo algo
    after before nach vor apres avant tras antes despues since seit depuis desde then als
    derzeit momentan aktuell nein no non yes ja oui wurde habia sont
    clear erase drive clearing erasing loschen loeschen probefahrt reparatur effacement essai reparation reparacion
    repair borrado borrar ruta today yesterday morning evening which what who how why when
    hello hi update note notes result
    results notiz ergebnis nota resultado resultat hola bonjour hallo
    minimum odometer mileage kilometerstand kilometrage monday tuesday wednesday thursday friday
    montag dienstag mittwoch donnerstag freitag lundi mardi mercredi jeudi vendredi lunes martes miercoles jueves
    viernes das dass nicht not pas mit cold hot tyres tyre reifen pneus neumaticos part teil piece pieza order
    auftrag
    ordre orden spannung tension voltage volts volt kaltstart
""")
#: The same, where nothing else is said with it.
_THINGS = word_set("""
    tool charger battery batteries supply fuse relay connector plug key keys van car truck vehicle bus lamp
    lamps light lights rest others modules module units unit code codes fault faults ecu repair run test lowest low
    high
    min ladegerat ladegeraet batterie sicherung relais stecker schlussel wagen fahrzeug lampe steuergerate module
    fehler
    fahrt chargeur fusible connecteur cle voiture camion vehicule voyant reste calculateurs calculateur defauts
    cargador
    bateria rele conector llave coche furgon vehiculo luz luces resto centralitas centralita averias prueba
""")
_SAME = word_set("""
    ditto dito idem same ebenso likewise ebenfalls gleichfalls igualmente pareil gleiche gleichen dasselbe meme
    memes mismo mismos misma mismas
""")

#: Who says so takes back what was said.
_TAKES_BACK = word_set("""
    sorry correction oops wrong mistake mistaken
    korrektur falsch quatsch irrtum verzeihung entschuldigung vertan
    pardon rectification desole
    perdon correccion rectifico equivocado equivocacion perdona
""")
_EXPECTS = word_set("""
    expected thought attendais attendait croyais pensais erwartet dachte vermutet esperaba creia pensaba
""")
_TRIES = word_set("try tries attempt retry versuch anlauf essai intento until later spater")
_AS = word_set("as wie que comme como")
_NOT = word_set("not nicht kein keine pas no non nein ni")


def _parts() -> dict[str, str]:
    """The part of each word; where a word may have two, the later one here."""
    found: dict[str, str] = {}
    for kind, words in (
        ("i", saying_words.BEFORE | saying_words.ADVERBS), ("i", _FILLERS), ("k", _COUNTS), ("l", _ALL), ("v", _VERBS),
        ("t", _ARTICLES), ("p", _PLACES), ("d", _OF), ("w", _WITH), ("&", _AND), ("m", _SAME), ("r", _TAKES_BACK),
        ("u", _NOT), ("e", _AS), ("h", _EXPECTS), ("g", _TRIES),
    ):
        found.update(dict.fromkeys(words, kind))
    return found


PARTS = _parts()
NO_NAMES, THINGS, ARTICLES = _PEOPLE, _THINGS, _ARTICLES

__all__ = ["ARTICLES", "NO_NAMES", "NUMBER_LEADS", "PARTS", "THINGS"]
