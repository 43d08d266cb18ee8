"""Texts in layouts of all kinds, each written once by hand, and the modules, codes and answers that are in it."""

from __future__ import annotations

import pytest
from reads import modules_of

TEXTS: list[tuple[str, dict[str, list[str]]]] = [
    (
        ("ABS → C0040 (stored), C0051 (current)\nECM → ok\nGateway → no reply"),
        {"anti-lock brakes": ["C0040 stored", "C0051 current"], "engine control": ["clean"], "gateway": ["silent"]},
    ),
    (
        (
            "--------------------------------\n"
            "Code      = P0562-16\n"
            "Controller= ECM\n"
            "State     = current\n"
            "--------------------------------\n"
            "Code      = U0100-87\n"
            "Controller= BCM\n"
            "State     = stored\n"
            "--------------------------------"
        ),
        {"engine control": ["P0562-16 current"], "body control": ["U0100-87 stored"]},
    ),
    (
        (
            "Fault 1 of 3\n"
            "  P0562 System voltage low\n"
            "  Engine control module\n"
            "  Confirmed\n"
            "Fault 2 of 3\n"
            "  U0100 Lost communication with ECM\n"
            "  Body control module\n"
            "  Pending\n"
            "Fault 3 of 3\n"
            "  C0040 Brake pedal switch\n"
            "  ABS\n"
            "  Pending"
        ),
        {
            "engine control": ["P0562 confirmed"],
            "body control": ["U0100 pending"],
            "anti-lock brakes": ["C0040 pending"],
        },
    ),
    (
        (
            "             ECM     ABS     BCM\n"
            "P0562        stored  -       stored\n"
            "U0100        -       current current\n"
            ""
        ),
        {
            "engine control": ["P0562 stored"],
            "anti-lock brakes": ["U0100 current"],
            "body control": ["P0562 stored", "U0100 current"],
        },
    ),
    (
        ("Vehicle\n├── ECM\n│   ├── P0562-16 stored\n│   └── P0118 pending\n├── ABS (no response)\n└── Airbag (0)"),
        {
            "engine control": ["P0562-16 stored", "P0118 pending"],
            "anti-lock brakes": ["silent"],
            "restraints": ["clean"],
        },
    ),
    (
        ("- **ECM**\n  - `P0562` *stored*\n- **ABS**: _no comms_\n- **BCM**: none"),
        {"engine control": ["P0562 stored"], "anti-lock brakes": ["silent"], "body control": ["clean"]},
    ),
    (
        (
            "[[module]]\n"
            'name = "ECM"\n'
            'dtcs = ["P0562:stored", "P0118:pending"]\n'
            "\n"
            "[[module]]\n"
            'name = "ABS"\n'
            'status = "no response"'
        ),
        {"engine control": ["P0562 stored", "P0118 pending"], "anti-lock brakes": ["silent"]},
    ),
    (
        (
            '<module name="ECM"><dtc code="P0562" status="stored"/><dtc code="P0118" status="current"/>'
            "</module>\n"
            '<module name="ABS" state="no response"/>'
        ),
        {"engine control": ["P0562 stored", "P0118 current"], "anti-lock brakes": ["silent"]},
    ),
    (
        (
            "2024-05-01 10:02:11 INFO  ECM: session ok\n"
            "2024-05-01 10:02:12 DTC   ECM P0562 16 stored\n"
            "2024-05-01 10:02:15 DTC   ECM P0118 00 pending\n"
            "2024-05-01 10:02:18 WARN  ABS: no response\n"
            "2024-05-01 10:02:20 DTC   BCM U0100 87 current"
        ),
        {
            "engine control": ["P0562-16 stored", "P0118-00 pending"],
            "anti-lock brakes": ["silent"],
            "body control": ["U0100-87 current"],
        },
    ),
    (
        ("ecu,dtc,active,stored\nECM,P0562,0,1\nABS,C0040,1,0\nBCM,,,"),
        {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0040 current"]},
    ),
    (
        (
            "Not answering\n"
            "  ABS\n"
            "  Power steering\n"
            "Without faults\n"
            "  Gateway\n"
            "  Airbag\n"
            "With faults\n"
            "  ECM\n"
            "    P0562 stored"
        ),
        {
            "anti-lock brakes": ["silent"],
            "power steering": ["silent"],
            "gateway": ["clean"],
            "restraints": ["clean"],
            "engine control": ["P0562 stored"],
        },
    ),
    (
        (
            "Motor (2 averías)\n"
            "   P0562 - Tensión baja - memorizado\n"
            "   P0118 - Temperatura - presente\n"
            "ABS: sin comunicación\n"
            "Airbag: sin averías"
        ),
        {"engine control": ["P0562 stored", "P0118 current"], "anti-lock brakes": ["silent"], "restraints": ["clean"]},
    ),
    (
        (
            "Code défaut;Type;Organe;État;Libellé\n"
            "P0562;16;Moteur;mémorisé;Tension\n"
            ";;ABS;ne répond pas;\n"
            ";;Airbag;aucun défaut;"
        ),
        {"engine control": ["P0562-16 stored"], "anti-lock brakes": ["silent"], "restraints": ["clean"]},
    ),
    (
        (
            "Calculateur;Code défaut;Type;État;Libellé\n"
            "Moteur;P0562;16;mémorisé;Tension\n"
            "ABS;;;ne répond pas;\n"
            "Airbag;;;aucun défaut;"
        ),
        {"engine control": ["P0562-16 stored"], "anti-lock brakes": ["silent"], "restraints": ["clean"]},
    ),
    (
        (
            "Steuergerät: Motorelektronik\n"
            "  Fehlercode: P0562\n"
            "  Fehlerart: 16\n"
            "  Zustand: nicht vorhanden\n"
            "Steuergerät: ABS\n"
            "  Antwort: keine\n"
            "Steuergerät: Airbag\n"
            "  Fehler: keine"
        ),
        {"engine control": ["P0562-16 stored"], "anti-lock brakes": ["silent"], "restraints": ["clean"]},
    ),
    (
        ("P0562-16 stored [ECM 7E8]\nU0100-87 current [BCM 7A6]\nC0040-00 pending [ABS 760]"),
        {
            "engine control": ["P0562-16 stored"],
            "body control": ["U0100-87 current"],
            "anti-lock brakes": ["C0040-00 pending"],
        },
    ),
    (
        ("7E8 ECM: P0562\n760 ABS: NO DATA\n7A6 BCM: none"),
        {"engine control": ["P0562"], "anti-lock brakes": ["silent"], "body control": ["clean"]},
    ),
    (
        (
            "ECU      | Active      | Stored        | Comm\n"
            "---------+-------------+---------------+-----\n"
            "ECM      | P0118       | P0562, P0335  | OK\n"
            "ABS      |             |               | FAIL\n"
            "BCM      |             |               | OK"
        ),
        {
            "engine control": ["P0118 current", "P0562 stored", "P0335 stored"],
            "anti-lock brakes": ["silent"],
            "body control": ["clean"],
        },
    ),
    (
        ("• ECM; P0562; stored\n• ABS; no answer\n• Ice box controller; U0100; current\n• BCM; clean"),
        {
            "engine control": ["P0562 stored"],
            "anti-lock brakes": ["silent"],
            "Ice box controller": ["U0100 current"],
            "body control": ["clean"],
        },
    ),
    (
        ("ECM: PO562 stored, P0ll8 pending\nABS: C0O40 current\nBCM: UO1OO stored"),
        {
            "engine control": ["P0562 stored", "P0118 pending"],
            "anti-lock brakes": ["C0040 current"],
            "body control": ["U0100 stored"],
        },
    ),
    (
        ("Engine control: P0562-16 (stored), P0118-12 (pending),\n    P0335-31 (current)\nABS: C0040-00 (stored)"),
        {
            "engine control": ["P0562-16 stored", "P0118-12 pending", "P0335-31 current"],
            "anti-lock brakes": ["C0040-00 stored"],
        },
    ),
    (
        ("Engine control? P0562 stored\nABS? no answer\nAirbag? nothing"),
        {"engine control": ["P0562 stored"], "anti-lock brakes": ["silent"], "restraints": ["clean"]},
    ),
    (
        (
            "U0100 - Lost communication with ECM\n"
            "  * ABS (stored)\n"
            "  * BCM (current)\n"
            "P0562 - System voltage low\n"
            "  * ECM (stored)"
        ),
        {"anti-lock brakes": ["U0100 stored"], "body control": ["U0100 current"], "engine control": ["P0562 stored"]},
    ),
    (
        ("ECM: 2 codes\nP0562 stored\nP0118 stored\nABS: 0 codes\nBCM: 1 code\nU0100 current"),
        {
            "engine control": ["P0562 stored", "P0118 stored"],
            "anti-lock brakes": ["clean"],
            "body control": ["U0100 current"],
        },
    ),
    (
        ("CURRENT\nECM P0118\nBCM U0100\nSTORED\nECM P0562\nNO COMMUNICATION\nABS\nEPS"),
        {
            "engine control": ["P0118 current", "P0562 stored"],
            "body control": ["U0100 current"],
            "anti-lock brakes": ["silent"],
            "power steering": ["silent"],
        },
    ),
    (
        (
            "ECM                P0562  16  S  System voltage low\n"
            "ABS                C0040  00  C  Brake switch\n"
            "Sluice unit        B1234  11  S  Short\n"
            "legend: S = stored, C = current"
        ),
        {
            "engine control": ["P0562-16 stored"],
            "anti-lock brakes": ["C0040-00 current"],
            "Sluice unit": ["B1234-11 stored"],
        },
    ),
    (
        (
            "<dl><dt>ECM</dt><dd>P0562 stored</dd><dd>P0118 current</dd><dt>ABS</dt><dd>no response</dd>"
            "<dt>BCM</dt><dd>no codes</dd></dl>"
        ),
        {
            "engine control": ["P0562 stored", "P0118 current"],
            "anti-lock brakes": ["silent"],
            "body control": ["clean"],
        },
    ),
    (
        (
            "<table><tr><th>ECU</th><th>DTC</th><th>State</th></tr><tr><td rowspan=2>ECM</td><td>P0562</td>"
            "<td>stored</td></tr><tr><td>P0118</td><td>current</td></tr><tr><td>ABS</td>"
            "<td colspan=2>no response</td></tr></table>"
        ),
        {"engine control": ["P0562 stored", "P0118 current"], "anti-lock brakes": ["silent"]},
    ),
    (
        (
            "{ecu: ECM, dtc: P0562, status: stored}\n"
            "{ecu: ABS, dtc: C0040, status: current}\n"
            "{ecu: BCM, result: no response}"
        ),
        {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0040 current"], "body control": ["silent"]},
    ),
    (
        ("> ECM\n> | P0562 | stored |\n> | P0118 | current |\n> ABS\n> no response"),
        {"engine control": ["P0562 stored", "P0118 current"], "anti-lock brakes": ["silent"]},
    ),
    (
        ("P0562 stored @ ECM\nU0100 current @ BCM\nC0040 pending @ ABS"),
        {"engine control": ["P0562 stored"], "body control": ["U0100 current"], "anti-lock brakes": ["C0040 pending"]},
    ),
    (
        ("High speed CAN\n  ECM  P0562 stored\n  ABS  no comms\nLow speed CAN\n  BCM  U0100 current\n  HVAC ok"),
        {
            "engine control": ["P0562 stored"],
            "anti-lock brakes": ["silent"],
            "body control": ["U0100 current"],
            "climate control": ["clean"],
        },
    ),
    (
        ("ECM\tP0562\tstored\n\tP0118\tcurrent\nABS\t\tno response\nBCM\t\tno codes"),
        {
            "engine control": ["P0562 stored", "P0118 current"],
            "anti-lock brakes": ["silent"],
            "body control": ["clean"],
        },
    ),
    (
        (
            "BCM\n"
            "  U0140 Keine Kommunikation mit Gateway - gespeichert\n"
            "  U0151 Airbag antwortet nicht - vorhanden\n"
            "Gateway\n"
            "  keine Fehler"
        ),
        {"body control": ["U0140 stored", "U0151 current"], "gateway": ["clean"]},
    ),
    (
        (
            "Module: ECM\n"
            "Status: stored\n"
            "Code: P0562\n"
            "\n"
            "Module: BCM\n"
            "Status: current\n"
            "Code: U0100\n"
            "\n"
            "Module: ABS\n"
            "Status: no response"
        ),
        {"engine control": ["P0562 stored"], "body control": ["U0100 current"], "anti-lock brakes": ["silent"]},
    ),
    (
        (
            "*** ECM ***\n"
            "P0562 ... STORED\n"
            "P0118 ... CURRENT\n"
            "*** ABS ***\n"
            "!! NO RESPONSE !!\n"
            "*** BCM ***\n"
            "NO FAULTS DETECTED"
        ),
        {
            "engine control": ["P0562 stored", "P0118 current"],
            "anti-lock brakes": ["silent"],
            "body control": ["clean"],
        },
    ),
    (
        ("ECM: P0562 stored\nDash: 00778 stored\nABS: 5DF1 current\nAirbag: ok"),
        {
            "engine control": ["P0562 stored"],
            "instrument cluster": ["00778 stored"],
            "anti-lock brakes": ["5DF1 current"],
            "restraints": ["clean"],
        },
    ),
    (
        ("ECM: P0G62 stored\nABS: C0040 stored"),
        {"anti-lock brakes": ["C0040 stored"]},
    ),
    (
        ("ECM | 2 | P0562 stored; P0118 current\nABS | 0 | not responding\nBCM | 0 | -"),
        {
            "engine control": ["P0562 stored", "P0118 current"],
            "anti-lock brakes": ["silent"],
            "body control": ["clean"],
        },
    ),
]


@pytest.mark.parametrize(("text", "found"), TEXTS)
def test_a_text_is_read_as_a_technician_reads_it(text: str, found: dict[str, list[str]]) -> None:
    assert modules_of(text) == found
