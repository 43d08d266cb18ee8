"""What stands around a scan in invented texts: vehicle data, greetings, work notes, legends, feet of a printout."""

from __future__ import annotations

import random

_VIN = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789"
_KINDS = {
    "car": ("estate car", "hatchback", "saloon", "SUV", "courtesy car"),
    "van": ("delivery van", "panel van, long wheelbase", "minibus", "crew van", "parcel van"),
    "truck": ("tipper 8x4", "tractor unit 4x2", "box truck 12 t", "refuse truck", "flatbed with crane"),
    "electric": ("electric van", "battery electric hatchback", "electric city car", "EV pool car"),
}
_OPEN = {
    "en": ("Hi,", "Hello all,", "Hi there", "Morning,", "Dear colleagues,", "hey", "Hi team,"),
    "de": ("Hallo,", "Moin,", "Guten Morgen,"),
    "fr": ("Bonjour,", "Salut,"),
    "es": ("Hola,", "Buenos días,"),
}
_CLOSE = {
    "en": (
        "Thanks",
        "Regards, Tom",
        "cheers",
        "Any ideas?",
        "Let me know what to do next.",
        "Sent from my phone",
        "Thanks in advance, M.",
    ),
    "de": ("Gruß", "Danke und Gruß, Jens", "Was nun?"),
    "fr": ("Merci", "Cordialement, Luc"),
    "es": ("Gracias", "Un saludo, Paco"),
}
NOTES = {
    "en": (
        "Customer says lamps came on after a jump start.",
        "Stood three weeks in the yard.",
        "Battery replaced last autumn.",
        "Two keys present.",
        "Water found in the spare wheel well, dried.",
        "Aftermarket tracker fitted behind the dash.",
        "Earth strap looks green at the chassis end.",
        "Cranks slowly when cold.",
        "Radio presets lost.",
        "Tow bar wiring was added later.",
        "Wipers run on their own sometimes.",
        "Needs to be done by Friday.",
        "Windscreen was replaced in March.",
    ),
    "de": (
        "Fahrzeug stand drei Wochen.",
        "Kunde bemängelt Warnlampen.",
        "Massekabel korrodiert.",
        "Zweiter Schlüssel liegt bei.",
    ),
    "fr": ("Véhicule immobilisé trois semaines.", "Le client signale des voyants.", "Masse oxydée."),
    "es": ("Vehículo parado tres semanas.", "El cliente indica testigos encendidos.", "Masa con óxido."),
}
LEGENDS = (
    "Legend: P powertrain, C chassis, B body, U network",
    "* = warning lamp requested",
    "Key: FTB = failure type byte",
    "Note: codes marked with an asterisk have a freeze frame",
    "P = Powertrain / B = Body / C = Chassis / U = Network communication",
    "All values without guarantee.",
    "Times are local.",
    "Counters stop at 255.",
)


def vin(rng: random.Random) -> str:
    return "XX" + "".join(rng.choice(_VIN) for _ in range(9)) + f"{rng.randrange(10**6):06d}"


def vehicle(rng: random.Random, kind: str, lang: str) -> list[str]:
    """Lines about the vehicle, some of the usual ones in any order."""
    label = {"de": "Fahrzeug", "fr": "Véhicule", "es": "Vehículo"}.get(lang, "Vehicle")
    km = rng.randrange(8_000, 420_000)
    odo = {"de": "Kilometerstand", "fr": "Kilométrage", "es": "Kilometraje"}.get(
        lang, rng.choice(("Odometer", "Mileage", "ODO"))
    )
    figure = rng.choice((f"{km}", f"{km:,}", f"{km // 1000} {km % 1000:03d}"))
    lines = [
        f"{label}: {rng.choice(_KINDS[kind])}",
        f"VIN: {vin(rng)}",
        f"{odo}: {figure} km",
        f"{rng.choice(('Order', 'Job card', 'RO', 'Ticket'))}: {rng.randrange(10_000, 99_999)}",
        f"{rng.choice(('Plate', 'Reg', 'Unit no.'))}: {_plate(rng)}",
        f"Year: {rng.randrange(2008, 2025)}",
        f"Technician: {rng.choice(('J. Meyer', 'Ana P.', 'Tom', 'R. Okafor', 'L. Petit'))}",
        *([f"Job card: B{rng.randrange(1000, 3000)}"] if rng.random() < 0.1 else []),
        f"Software: {rng.randrange(1, 9)}.{rng.randrange(99)}.{rng.randrange(1000)}",
    ]
    rng.shuffle(lines)
    return lines[: rng.randrange(1, 6)]


def _plate(rng: random.Random) -> str:
    return f"{rng.choice(('KX', 'LT', 'WM'))}-{rng.randrange(10, 99)} {rng.choice(('ABC', 'TRV', 'HNK'))}"


def date(rng: random.Random, lang: str, day: int, minutes: int) -> str:
    """A date with a time of day."""
    hour, minute = 8 + minutes // 60 % 9, minutes % 60
    month = 1 + day % 12
    d = 1 + day % 28
    forms = {
        "en": (
            f"2025-{month:02d}-{d:02d} {hour:02d}:{minute:02d}",
            f"{d} {_MONTHS[month - 1]} 2025, {hour:02d}:{minute:02d}",
            f"2025/{month:02d}/{d:02d} {hour:02d}:{minute:02d}:17",
        ),
        "de": (f"{d:02d}.{month:02d}.2025 {hour:02d}:{minute:02d}", f"{d}.{month}.2025, {hour:02d}:{minute:02d} Uhr"),
    }
    latin = (f"{d:02d}/{month:02d}/2025 {hour:02d}:{minute:02d}",)
    return rng.choice(forms.get(lang, latin))


_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def opening(rng: random.Random, lang: str) -> str:
    return rng.choice(_OPEN[lang])


def closing(rng: random.Random, lang: str) -> str:
    return rng.choice(_CLOSE[lang])


def part(rng: random.Random) -> str:
    """A line with the part number of a module."""
    number = f"{rng.randrange(1000, 9999)} {rng.randrange(100, 999)} {rng.randrange(100, 999)}"
    return rng.choice(
        (
            f"Part no.: {number} {rng.choice('KLMN')}",
            f"HW {rng.randrange(1, 99):02d}  SW {rng.randrange(100, 9999):04d}",
            f"PN {number.replace(' ', '-')}",
            f"Software version: {rng.randrange(1, 30):02d}.{rng.randrange(10):02d}",
            f"Coding: {rng.randrange(10**6):07d}",
            f"Serial no. {rng.randrange(10**9):010d}",
            f"Hardware: H{rng.randrange(10, 99)}",
        )
    )


def freeze(rng: random.Random, lang: str) -> list[str]:
    """Lines of a freeze frame below a code."""
    volts = rng.choice(("9.8", "11.2", "8.7", "12.1"))
    en = [
        f"Odometer: {rng.randrange(9_000, 200_000)} km",
        f"Control module voltage: {volts} V",
        "Engine speed: 0 rpm",
        f"Coolant temperature: {rng.randrange(2, 95)} °C",
        "Vehicle speed: 0 km/h",
        f"Occurrence counter: {rng.randrange(1, 99)}",
    ]
    other = {
        "de": [
            f"Kilometerstand: {rng.randrange(9_000, 200_000)} km",
            f"Spannung: {volts.replace('.', ',')} V",
            "Drehzahl: 0 /min",
        ],
        "fr": [f"Kilométrage : {rng.randrange(9_000, 200_000)} km", "Régime moteur : 0 tr/min"],
        "es": [f"Kilometraje: {rng.randrange(9_000, 200_000)} km", "Régimen del motor: 0 rpm"],
    }
    lines = list(other.get(lang, en))
    rng.shuffle(lines)
    head = {"de": "Umgebungsbedingungen:", "fr": "Trame figée :", "es": "Cuadro congelado:"}.get(lang, "Freeze frame:")
    return [head, *lines[: rng.randrange(1, 4)]]
