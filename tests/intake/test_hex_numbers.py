"""Makers' own numbers printed with the sign for hexadecimal digits keep it, wherever they stand. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

GATEWAY, RADIO = "gateway", "radio"


@pytest.mark.parametrize("text", [
    "Radio\n  U0140 lost the body controller, stored\n  0x7B41 aerial feed open, active\nGateway: no codes\n",
    "Module;Code;Text;State\nRadio;U0140;body controller lost;stored\nRadio;0x7B41;aerial feed open;active\n"
    "Gateway;;no codes;\n",
    "Unit: Radio\nCode: U0140\nState: stored\n\nUnit: Radio\nCode: 0x7b41\nState: active\n\nUnit: Gateway\n"
    "Result: no codes\n",
    "Steuergerät: Radio\nFehlercode: U0140\nStatus: gespeichert\n\nSteuergerät: Radio\nFehlercode: 0x7B41\n"
    "Status: aktiv\n\nSteuergerät: Gateway\nErgebnis: keine Fehler\n",
    "Calculateur | Code | État\nRadio | U0140 | mémorisé\nRadio | 0x7B41 | présent\nPasserelle | aucun défaut |\n",
    "Radio:\n - U0140: pérdida de comunicación, almacenado\n - 0x7B41: antena abierta, presente\n"
    "Gateway: sin averías\n",
    "Radio has U0140 (body lost, stored) and 0x7B41 (aerial open, active). Gateway has no codes.\n",
])
def test_the_sign_stays(text: str) -> None:
    assert modules_of(text) == {RADIO: ["U0140 stored", "0x7B41 current"], GATEWAY: ["clean"]}


@pytest.mark.parametrize("line", [
    "Radio (0x70C4): U0140 stored", "Radio 0x70C: U0140 stored", "0x2C - Radio: U0140 stored",
    "Radio: U0140 stored\nIdentifier 0xF190 read, software 0x0042",
])
def test_addresses_and_identifiers(line: str) -> None:
    assert modules_of(f"{line}\nGateway: no codes\n") == {RADIO: ["U0140 stored"], GATEWAY: ["clean"]}
