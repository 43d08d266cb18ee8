"""Blocks of keys in which a blank parts key and value, whatever the other lines of the block. All invented."""

from __future__ import annotations

from tests.intake.reads import told

SURE = "Unit Radio\nNo. 3\nFault B1000\nState stored\n\nUnit ABS\nNo. 4\nFault C0035\nState present\n\n"
READ = " | radio: B1000 stored; anti-lock brakes: C0035 current; "


def test_a_key_of_one_block_is_one_in_the_others() -> None:
    text = SURE + "Unit Ampl. rack\nShort AR\nNo. $3C\nFault U0131\nState stored"
    assert told(text) == READ + "Ampl. rack: U0131 stored"


def test_a_number_between_keys() -> None:
    assert told(SURE + "Unit Gateway\n# $21\nFault U0100\nState present") == READ + "gateway: U0100 current"
    assert told("Module Moteur\nN° 1\nDefaut U0121\nStatut inactif\n\nModule Radio\nAbrév. RAD\nN° 2\n"
                "Resultat aucune reponse") == " | engine control: U0121 stored; radio: silent"


def test_keys_with_written_out_umlauts() -> None:
    assert told("Steuergeraet Bremse\nNr. 4\nFehler C0035\n\nSteuergeraet Radio\nNr. 5\nZustand Speicher leer") == (
        " | anti-lock brakes: C0035; radio: clean")


def test_spaced_codes_behind_such_a_key() -> None:
    text = "System radio\nReply u 3006 (previously actvie) / b 1000 (active)\n\nSystem abs\nReply c 0035 (active)"
    assert told(text) == (
        " | radio: U3006 stored, B1000 current; anti-lock brakes: C0035 current")


def test_a_status_of_two_words_with_a_slip() -> None:
    assert told(SURE + "Unit Gateway\nFault U0100\nState failled once") == READ + "gateway: U0100 pending"
