"""Wordings for invented texts: phases, voltages with distractors, heads of columns."""

from __future__ import annotations

import random

PHASES: dict[str, dict[str, tuple[str, ...]]] = {
    "before-clear": {
        "en": (
            "Before clearing",
            "before clear",
            "Scan before clearing codes",
            "Codes as found, nothing cleared yet",
            "As arrived, before any clearing",
            "BEFORE CLEAR",
            "Initial scan (before clearing)",
            "Pre-clear scan",
        ),
        "de": ("Vor dem Löschen", "vor Löschen", "Auslesen vor dem Löschen"),
        "fr": ("Avant effacement", "avant effacement des défauts"),
        "es": ("Antes de borrar", "Antes del borrado"),
    },
    "after-clear": {
        "en": (
            "After clearing",
            "after clear",
            "Codes cleared, read again",
            "Rescan after clearing codes",
            "AFTER CLEAR",
            "Post-clear scan",
            "after clearing, key on engine off",
            "Cleared all and re-read:",
        ),
        "de": ("Nach dem Löschen", "nach Löschen", "Gelöscht und neu ausgelesen"),
        "fr": ("Après effacement", "après effacement des défauts"),
        "es": ("Después de borrar", "Tras el borrado"),
    },
    "after-run": {
        "en": (
            "After running the engine 10 min",
            "after engine run",
            "After test drive",
            "after road test 12 km",
            "After drive",
            "AFTER ENGINE RUN",
            "Engine ran 15 minutes, read again",
        ),
        "de": ("Nach Probefahrt", "nach Motorlauf 10 min"),
        "fr": ("Après essai routier", "Après essai sur route"),
        "es": ("Después de prueba en carretera", "Tras prueba de ruta"),
    },
    "after-repair": {
        "en": (
            "After repair",
            "after repair of ground strap",
            "After repairs, final scan",
            "AFTER REPAIR",
            "Final scan after repair",
        ),
        "de": ("Nach Reparatur", "nach der Reparatur"),
        "fr": ("Après réparation",),
        "es": ("Después de la reparación", "Tras reparación"),
    },
}

VOLTS = {
    "en": (
        "Battery voltage: {v} V",
        "Battery: {v}V",
        "System voltage {v} V",
        "Supply voltage: {v} volts",
        "Battery {v} V (key on, engine off)",
        "Voltage at connector: {v} V",
        "Vbatt = {v} V",
        "KL30: {v} V",
        "Battery voltage at start of scan: {v}V",
        "Terminal 30  {v} V",
        "VBAT {v}V",
        "Supply at diagnostic socket: {v} V",
        "Batt. volts: {v}",
        "Battery voltage [V]: {v}",
        "Vehicle voltage: {v} V",
        "Measured at battery posts {v} V",
        "U_batt: {v} V",
        "Voltage during scan: {v} V",
        "Battery voltage: {mv} mV",
        "battery reads {v} volts",
        "Ignition on, {v} V at the battery",
        "Battery (V): {v}",
    ),
    "de": (
        "Batteriespannung: {v} V",
        "Bordnetzspannung {v} V",
        "Spannung Klemme 30: {v} V",
        "Batterie {v} V",
        "Ubat: {v} V",
        "Spannung an der Batterie {v} Volt",
    ),
    "fr": (
        "Tension batterie : {v} V",
        "Tension d'alimentation : {v} V",
        "Batterie {v} V",
        "Tension batterie: {v} volts",
    ),
    "es": ("Tensión de batería: {v} V", "Voltaje batería: {v} V", "Batería {v} V", "Tensión batería {v} voltios"),
}
VOLTS_SAID = {
    "en": (
        "battery {v}",
        "battery was at {v}",
        "battery at {v} volts",
        "had {v} V on the battery",
        "{v} volts at the battery",
        "battery showing {v}V",
        "supply {v} V",
        "battery is sitting at {v} V",
        "meter on the battery says {v}",
        "{v}v batt",
        "battery only {v} V",
        "voltage on the battery was {v} V during the scan",
    ),
    "de": ("Batterie {v} V", "Batterie hatte {v} Volt", "{v} V an der Batterie", "Bordspannung war {v} V"),
    "fr": ("batterie à {v} V", "{v} V à la batterie", "tension batterie {v} V"),
    "es": ("batería a {v} V", "la batería tenía {v} V", "tensión de batería {v} V"),
}
LOWEST = {
    "en": (
        "Lowest voltage while cranking: {v} V",
        "Minimum during cranking {v} V",
        "dropped to {v} V when cranking",
        "Lowest seen {v} V",
    ),
    "de": ("Minimum beim Starten {v} V", "Niedrigste Spannung {v} V"),
    "fr": ("Tension minimale au démarrage : {v} V",),
    "es": ("Mínimo durante el arranque: {v} V",),
}
DISTRACTORS = {
    "en": (
        "Battery type: AGM 12 V 80 Ah",
        "12 V outlet in the boot does not work",
        "fuse F15 (15 A) ok",
        "Allowed range 9.0 ... 16.0 V",
        "Battery 12V 95Ah 850A, fitted 2021",
        "Sensor reference 5 V ok",
        "12V socket dead since last week",
        "Load test: 520 A measured, 760 A rated",
        "Limit 10.5 V",
        "Fuse 5 (10A) blown, replaced",
        "bulbs are 12V 55W",
        "Key-off draw 38 mA",
        "Starter draws 180 A",
    ),
    "de": (
        "Batterie 12 V 80 Ah AGM",
        "Sicherung F15 15 A in Ordnung",
        "12-V-Steckdose ohne Funktion",
        "Ruhestrom 35 mA",
    ),
    "fr": ("Batterie 12 V 70 Ah", "Fusible F15 15 A OK", "Prise 12 V hors service"),
    "es": ("Batería 12 V 70 Ah", "Fusible F15 15 A correcto", "Toma de 12 V sin función"),
}
TRUCK_DISTRACTORS = (
    "24 V system",
    "2 x 12 V 225 Ah",
    "24V supply, two batteries",
    "fuse F31 20 A ok",
    "Vehicle system: 24 V",
)
HEADS = {
    "module": {
        "en": ("Module", "Control unit", "System", "ECU", "Unit", "Control module"),
        "de": ("Steuergerät", "System"),
        "fr": ("Calculateur", "Système"),
        "es": ("Módulo", "Unidad de control", "Sistema"),
    },
    "code": {
        "en": ("Code", "DTC", "Fault code", "Trouble code", "Error code"),
        "de": ("Fehlercode", "Code", "Fehler"),
        "fr": ("Code défaut", "Code"),
        "es": ("Código", "Código de avería"),
    },
    "type": {
        "en": ("FTB", "Failure type", "Sub-type", "Failure type byte"),
        "de": ("Fehlertyp", "FTB"),
        "fr": ("Type de défaut", "FTB"),
        "es": ("Tipo de fallo", "FTB"),
    },
    "title": {
        "en": ("Description", "Text", "Fault", "Meaning", "Title", "Fault description"),
        "de": ("Beschreibung", "Fehlertext", "Text"),
        "fr": ("Description", "Libellé"),
        "es": ("Descripción", "Texto"),
    },
    "status": {
        "en": ("Status", "State", "Fault status", "DTC status"),
        "de": ("Status", "Zustand"),
        "fr": ("État", "Statut"),
        "es": ("Estado",),
    },
    "count": {
        "en": ("Count", "Occurrences", "Occ.", "Freq"),
        "de": ("Häufigkeit",),
        "fr": ("Occurrences",),
        "es": ("Contador",),
    },
    "km": {
        "en": ("Mileage", "Odometer", "km"),
        "de": ("Kilometerstand", "km-Stand"),
        "fr": ("Kilométrage",),
        "es": ("Kilometraje",),
    },
}


def pick(rng: random.Random, table: dict[str, tuple[str, ...]], lang: str) -> str:
    """One wording in the language, or an English one."""
    return rng.choice(table.get(lang) or table["en"])


def number(rng: random.Random, volts: float, comma: bool) -> str:
    """A voltage as printed: one or two decimals, point or comma."""
    text = f"{volts:.2f}" if rng.random() < 0.25 and volts * 10 % 1 else f"{volts:g}"
    if "." not in text:
        text = f"{volts:.1f}"
    return text.replace(".", ",") if comma else text
