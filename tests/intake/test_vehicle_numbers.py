"""Numbers of the vehicle at the head of a scan: no label of them names a module. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, told

VIN = "XX1AB5H3R3LA57209"


@pytest.mark.parametrize(
    "line",
    [
        f"Chassis no. {VIN}", f"Chassis number {VIN}", f"Chassis: {VIN}", f"Chassis {VIN}", "Chassis no.: 572092",
        f"VIN {VIN}", f"V.I.N. {VIN}", "Frame no. 24471", "Reg. no. AB12 CDE", "Licence plate XX 123 YZ",
        "Fleet no. 4471", "Unit no. 17", "Engine no. XX4471K", "Engine number 33812", "Gearbox no. 33871",
        "Body no. 33871", "Trailer no. 33871", "Order no. 4471/25", "Job card 4471", "Asset 20417",
        f"Fahrgestellnummer {VIN}", "Fahrgestell-Nr. 572092", f"Fz-Ident-Nr. {VIN}", "Kennzeichen XX-YZ 123",
        "Motornummer XX4471K", "Motor-Nr. 4471220", "Getriebe-Nr. 4471", "Wagen-Nr. 17",
        f"N° de châssis {VIN}", f"Châssis n° {VIN}", "Moteur n° 4471220", "Immatriculation XX-123-YZ",
        f"N° de bastidor: {VIN}", f"Bastidor {VIN}", "Matrícula 1234 XYZ", "Caja n° 44712",
        "Transmission: automatic", "Getriebe: Schaltgetriebe", "Gearbox: 6-speed manual", "Boîte: automatique",
        f"Chassis no. {VIN} (engine no. 33812)",
    ],
)
def test_a_number_of_the_vehicle_takes_no_supply(line: str) -> None:
    assert told(f"{line}\nVbat 11.6 V\nECM: P0562 stored") == "11.6 V | engine control: P0562 stored"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (f"Chassis no. {VIN}, Vbat 11.6 V\nECM: P0562", "11.6 V | engine control: P0562"),
        (f"Chassis no. {VIN} | 88 210 km | Vbat 11.6 V\nECM: P0562", "11.6 V | engine control: P0562"),
        # The number of a control unit stands in its heading.
        ("Engine no. 4K0907115\n  P0562 stored", " | engine control: P0562 stored"),
        ("Chassis control no. 4K0907379\n  C0035", " | chassis control A: C0035"),
        ("Chassis\n  C0035 stored", " | chassis control A: C0035 stored"),
        # A line that looked like a name and held nothing gives its voltage back.
        ("Telematics unit 4471\nVbat 11.6 V\nECM: P0562", "11.6 V | engine control: P0562"),
    ],
)
def test_what_stands_beside_it(text: str, expected: str) -> None:
    assert told(text) == expected


@pytest.mark.parametrize("title", [f"Chassis no. {VIN}", "Chassis no. 1234", "Transmission: automatic", "Body"])
def test_a_title_above_a_table_that_names_its_modules_heads_none_of_it(title: str) -> None:
    table = (
        "P1A0C | Passenger door module | PEND | Maker code, supply relay\n"
        "C0561-62 | Glow plug control | stored | System disabled\n"
        "P0420-11 | Steering column module | PEND | Catalyst efficiency below threshold\n"
        "U0155-49 | ABS | stored | Lost communication with instrument panel cluster"
    )
    assert modules_of(f"{title}\n{table}") == modules_of(table)
