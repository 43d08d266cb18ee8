"""What a workshop looks at and does to a vehicle, of which "ok" is said as well as of a module: parts of the wiring,
lamps, and work. In small letters without accents.

Sources: common practice in English, German, French and Spanish.
"""

from __future__ import annotations

from triage.intake.plain.phrases import word_set

#: What has no memory for faults, whatever it is called with.
PARTS = word_set("""
    fuse fuses relay relays plug plugs connector connectors connection connections wiring wire wires harness loom cable
    cables ground grounds earth earths gnd feed feeds supply pin pins terminal terminals lamp lamps light lights bulb
    bulbs resistance continuity mil
    sicherung sicherungen relais stecker steckers steckverbindung steckverbindungen kabel kabelbaum leitung leitungen
    masse massen massepunkt versorgung spannungsversorgung klemme klemmen kontrolllampe kontrollleuchte warnleuchte
    leuchte leuchten lampe lampen
    fusible fusibles connecteur connecteurs prise faisceau fil fils masses alimentation voyant voyants temoin
    temoins ampoule
    rele reles conector conectores clavija cableado masa masas alimentacion testigo testigos luz luces fusiblera
""")
#: What drives the generator; its bare name is also that of a module for seat belts.
BELTS = word_set("""
    belt belts drivebelt fanbelt riemen keilriemen keilrippenriemen courroie courroies correa correas
""")
#: The same where the name of a module stands before it: these are words of names too.
BEHIND_NAMES = word_set("""
    sensor sensors pump motor switch button valve power voltage signal sensorik geber pumpe schalter spannung strom
    can canbus bus lin capteur capteurs pompe moteur interrupteur bouton tension sonde sensores bomba
    interruptor boton tensions
""")
#: What is done to a vehicle.
DONE = word_set("""
    fitted refitted installed replaced swapped renewed changed repaired mended soldered reseated seated cleaned refixed
    unplugged plugged replugged reconnected removed adjusted bled calibrated recalibrated coded recoded programmed
    reprogrammed flashed reflashed paired relearned relearnt
    ersetzt getauscht ausgetauscht erneuert eingebaut verbaut gesteckt aufgesteckt repariert gereinigt kalibriert
    codiert kodiert programmiert angelernt eingestellt abgesteckt
    remplace remplacee remplaces remplacees monte montee repare reparee nettoye nettoyee rebranche rebranchee calibre
    calibree etalonne reprogramme reprogrammee appaire
    sustituido sustituida reemplazado reemplazada cambiado cambiada montado montada reparado reparada limpiado
    limpiada enchufado enchufada calibrado calibrada codificado codificada reprogramado reprogramada emparejado
""")
#: A memory that was emptied, or did not let itself be.
CLEARED = word_set("""
    cleared clr'd erased wiped deleted geloscht geloescht efface effacee effaces effacees borrado borrada borrados
    borradas nrc refused
""")
#: What is said of all that was looked at, without a word for codes.
WELL = word_set("""
    ok okay o k fine good is was are were all everything still looks seems now pass passed
    i in io ordnung gut alles ist sind bon bons bonne bien est tout sont todo bien correcto correcta esta estan
    perfect spot on nickel impec impeccable perfecto perfecta tiptop tip top tipptopp sain saine
""")

__all__ = ["BEHIND_NAMES", "BELTS", "CLEARED", "DONE", "PARTS", "WELL"]
