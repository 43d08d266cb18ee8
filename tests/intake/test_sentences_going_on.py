"""Sentences that go on about the module named before, and statuses said of several codes. Invented texts."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

_SAME = [
    ("ABS has C0035 stored. The same module has U0100 pending.", "ABS: C0035 stored U0100 pending"),
    ("ABS: C0035 stored\nThe same module also holds U0100 pending.", "ABS: C0035 stored U0100 pending"),
    ("El ABS tiene C0035 presente. El mismo módulo tiene U0100 memorizado.", "ABS: C0035 current U0100 stored"),
    ("U0100 lost communication with the BCM is in the ABS. The same module has C0035.", "ABS: U0100 C0035"),
    ("ABS C0035, BCM U0100. Same module shows B1318 too.", "ABS: C0035; BCM: U0100 B1318"),
    ("The ABS has C0035. He also shows U0100.", "ABS: C0035 U0100"),
    ("ECM: U0101-87 as a pending code, and so does the ABS module.", "ECM: U0101 pending; ABS module: U0101 pending"),
    ("The BCM stores U0100 as a pending code, as does the radio.", "BCM: U0100 pending; radio: U0100 pending"),
    # Another module is named: it is that of what follows.
    ("ABS has C0035. The same fault is in the BCM, U0100.", "ABS: C0035; BCM: U0100"),
]

_COUNTED = [
    ("2. There are three codes in the hybrid control module. P0562 is present, P0A1F is present, P3000 is only in the "
     "history.", "hybrid control module: P0562 current P0A1F current P3000 stored"),
    ("The ABS module has two codes. C0035 is active. U0100 is stored.", "ABS module: C0035 current U0100 stored"),
    ("I found one code in the gateway. It is U0100, stored.", "gateway: U0100 stored"),
    ("Im ABS stehen zwei Fehler. C0035 ist aktiv, U0100 ist gespeichert.", "ABS: C0035 current U0100 stored"),
    ("Il y a deux défauts dans l'ABS. C0035 est présent, U0100 est mémorisé.", "ABS: C0035 current U0100 stored"),
    ("ECM\nP0562 stored\nThere are two codes in the ABS.\nC0035 active\nU0100 stored",
     "ECM: P0562 stored; ABS: C0035 current U0100 stored"),
    ("The ABS has two codes:\nC0035 is active", "ABS: C0035 current"),
    ("I cleared two codes in the ABS.\nP0562 active", "None: P0562 current"),
    ("The ABS has two codes and the BCM one.\nP0562 active", "None: P0562 current"),
    ("There are two codes in the ABS.\nRadio: U0100", "Radio: U0100"),
    # The code names a module of its own, none is counted, or what is counted is gone.
    ("There are two codes in the ABS. U0100 in the BCM is stored.", "BCM: U0100 stored"),
    ("There is a code in the ABS. P0562 in the ECM is the worst one.", "ECM: P0562"),
    ("There are no codes in the radio. C0035 is stored.", "radio: clean; None: C0035 stored"),
    ("The BCM has two codes, the ABS has one. P0562 is active.", "None: P0562 current"),
    ("The BCM has one code and the ABS two codes. P0562 is active.", "None: P0562 current"),
    ("The ABS lamp is on. P0562 is present.", "None: P0562 current"),
    ("There were three codes in the ABS and one in the radio. P0562 is present.", "None: P0562 current"),
]

_OF_SEVERAL = [
    ("The BCM holds B1318 and U0146, neither of them present now, both just history.",
     "BCM: B1318 stored U0146 stored"),
    ("The EPS has only C1604, which is active.", "EPS: C1604 current"),
    ("The EPS has only C1604, which was active.", "EPS: C1604 stored"),
    ("En la unidad de motor aparecen P0562 y P0113, los dos presentes.",
     "unidad de motor: P0562 current P0113 current"),
    ("BCM: B1318 and U0146, neither active.", "BCM: B1318 stored U0146 stored"),
    ("BCM has B1318 and U0146 neither of which is active.", "BCM: B1318 stored U0146 stored"),
    ("P0562 in the ECM, U0100 in the radio, both stored.", "ECM: P0562 stored; radio: U0100 stored"),
    ("The ECM holds P0562 (battery low) and P0113 (air temp), both current.", "ECM: P0562 current P0113 current"),
    ("The ECM has P0562 and P0113. Both are active.", "ECM: P0562 current P0113 current"),
    # Each keeps its own, and what is no status is none.
    ("The ECM has P0562 stored, P0113 and P0073, both active.", "ECM: P0562 stored P0113 current P0073 current"),
    ("The BCM holds B1318, which is active, and U0146, which isn't.", "BCM: B1318 current U0146"),
    ("The ECM has P0562 and P0113, both old sensors. The radio is clean, all active.",
     "ECM: P0562 P0113; radio: clean"),
    ("The ABS has C0131 and C0121, both not active. Radio gave me active U0140.",
     "ABS: C0131 stored C0121 stored; Radio: U0140 current"),
    ("ABS: C0131:14; U0146:96 (all still active)", "ABS: C0131 current U0146 current"),
    ("The ECM has P0562 and P0113, both replaced sensors.", "ECM: P0562 P0113"),
    ("Motor: P0562, P0113. Both current codes are in the ABS too.", "Motor: P0562 P0113"),
    ("The ECM has P0562 and P0113. All other modules are active.", "ECM: P0562 P0113"),
]


@pytest.mark.parametrize(("text", "want"), [*_SAME, *_COUNTED, *_OF_SEVERAL])
def test_what_goes_on_is_of_the_module_and_the_codes_before(text: str, want: str) -> None:
    assert scans(text) == [f" | {want}"]


_ASKED = [
    ("I asked the gateway three times and got nothing back from it.", "gateway: silent"),
    ("The BCM holds B1318, and this is no longer active. I asked the gateway three\n"
     "times and got nothing back from it. The HVAC has no codes.",
     "BCM: B1318 stored; gateway: silent; HVAC: clean"),
    ("I called the ABS twice and heard nothing.", "ABS: silent"),
    ("The gateway was asked three times and gave nothing.", "gateway: silent"),
    ("He preguntado tres veces al ABS y nada.", "ABS: silent"),
    ("I asked the gateway three times and got no reply.", "gateway: silent"),
    ("The gearbox controller gives no answer, on either of the two scan tools we own.", "gearbox controller: silent"),
    ("I asked the customer three times and got nothing back from him. ABS has C0035.", "ABS: C0035"),
    # What was read and held nothing is clean, and who answered is not silent.
    ("I scanned the ABS twice and found nothing.", "ABS: clean"),
    ("I asked the ABS twice and it said no codes.", "ABS: clean"),
    ("Asked the gateway twice, answered fine, no codes.", "gateway: clean"),
]

_LONG_AGO = [
    ("EPS has C1604, active. He had P0420 fixed two years ago by another shop. Mileage 98,765.", "EPS: C1604 current"),
    ("ECM P0562 active. P0420 was fixed two years ago.", "ECM: P0562 current"),
    ("ECM P0562 aktiv. P0420 wurde vor zwei Jahren repariert.", "ECM: P0562 current"),
    ("ECM P0562 active. The customer had the P0420 repaired by a friend.", "ECM: P0562 current"),
    # It is there, or is mended as another code of the scan is.
    ("ECM P0562 active. He had P0420 fixed two years ago but it is back.", "ECM: P0562 current P0420"),
    ("ECM: P0420 catalyst fixed last year", "ECM: P0420"),
    ("ECM: P0420 stored, catalyst fixed last year", "ECM: P0420 stored"),
    ("The ECM had P0420 fixed as a permanent code.", "ECM: P0420 permanent"),
]


@pytest.mark.parametrize(("text", "want"), [*_ASKED, *_LONG_AGO])
def test_who_was_asked_and_what_was_long_ago(text: str, want: str) -> None:
    assert scans(text) == [f" | {want}"]


_NONE_STORED = [
    ("El inmovilizador no contesta. El airbag y la dirección no tienen averías.",
     "inmovilizador: silent; airbag: clean; dirección: clean"),
    ("El ABS no tiene códigos. La dirección no presenta averías.", "ABS: clean; dirección: clean"),
    ("La unidad ABS y el tablero no tienen comunicación", "unidad ABS: silent; tablero: silent"),
    ("The airbag and the steering do not have codes.", "airbag: clean; steering: clean"),
    ("Der Airbag und die Lenkung haben keine Fehler.", "Airbag: clean; Lenkung: clean"),
    ("Bodymodule doesn't answer. ABS has C0035.", "Body module: silent; ABS: C0035"),
    ("Gateway, left door module, right door module: nothing found.",
     "Gateway: clean; left door module: clean; right door module: clean"),
]


@pytest.mark.parametrize(("text", "want"), _NONE_STORED)
def test_modules_with_no_codes_and_those_that_do_not_answer(text: str, want: str) -> None:
    assert scans(text) == [f" | {want}"]


@pytest.mark.parametrize("text", ["El airbag no tiene averías pendientes.", "El motor no tiene fallos de encendido."])
def test_what_lacks_one_kind_of_code_is_not_clean(text: str) -> None:
    assert "clean" not in "".join(scans(text))


@pytest.mark.parametrize(("text", "want"), [
    ("The power steering goes heavy for a second after start, and the charging lamp flickers. ABS has C0035.", ""),
    ("After start the charging lamp flickers. ABS has C0035.", ""),
    ("Die Lampe flackert nach dem Start. ABS hat C0035.", ""),
    ("La luz parpadea tras arrancar. El ABS tiene C0035.", ""),
    ("Scan after start: lamp flickers. ABS has C0035.", "after-run"),
    ("After start the ABS has C0035, lamp flickers.", "after-run"),
    ("Lamp flickers. After start I read the ABS: C0035", "after-run"),
    ("After starting it the codes came back and the lamp flickers. ABS has C0035.", "after-run"),
])
def test_what_the_vehicle_does_after_a_start_is_no_phase(text: str, want: str) -> None:
    assert scans(text) == [f"{want} | ABS: C0035"]


@pytest.mark.parametrize(("text", "want"), [
    ("The radio came up with B1318 active today. Got U0121 (pending)\nand U0155 (stored) in the ABS. The cluster has "
     "U0100 and the gateway has nothing in it at all.",
     "radio: B1318 current; ABS: U0121 pending U0155 stored; cluster: U0100; gateway: clean"),
    ("ningún código en radio; carga por eje tiene\nSPN 627 - FMI 18 y SPN: 84 FMI: 9, los dos presentes;\n"
     "batería baja, 22.3 V aquí", "radio: clean; carga por eje: SPN 627 FMI 18 current SPN 84 FMI 9 current"),
])
def test_a_sentence_that_breaks_off_before_a_code(text: str, want: str) -> None:
    assert scans(text)[0].endswith(want)
