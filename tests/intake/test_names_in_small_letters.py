"""Names that no table lists, in texts that write the names of modules in small letters.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import printed


@pytest.mark.parametrize(("text", "told"), [
    ("radio shows U0100. gateway shows P0562. hay blower unit shows U0121.",
     "radio: U0100; gateway: P0562; hay blower unit: U0121"),
    ("U0100 stored in the radio. P0562 active in the gateway. U0121 active in the hay blower.",
     "radio: U0100; gateway: P0562; hay blower: U0121"),
    ("le radio donne U0100. passerelle donne P0562. panneau de grue donne U0121.",
     "radio: U0100; passerelle: P0562; panneau de grue: U0121"),
    ("radio sin códigos. pasarela, clima y toldo delantero limpios. motor: P0562.",
     "radio: clean; pasarela: clean; clima: clean; toldo delantero: clean; motor: P0562"),
    ("radio – stored U0100; gateway – active P0562; hay blower – active U0121.",
     "radio: U0100; gateway: P0562; hay blower: U0121"),
    ("Radio zeigt U0100. Gateway zeigt P0562. Das Heugebläse zeigt U0121.",
     "Radio: U0100; Gateway: P0562; Heugebläse: U0121"),
])
def test_a_name_in_the_place_of_others(text: str, told: str) -> None:
    assert printed(text) == told


@pytest.mark.parametrize("text", [
    "radio shows U0100. gateway shows P0562. P0121 in wet weather.",
    "radio ok. gateway ok. the fuse is ok. radio shows U0100",
    "radio donne U0100. passerelle donne P0562. le client donne P0121.",
])
def test_what_is_no_name(text: str) -> None:
    named = {part.split(":")[0] for part in printed(text).split("; ")}
    assert not {"wet weather", "fuse", "client", "le client"} & named


@pytest.mark.parametrize(("text", "told"), [
    ("no codes in unit k7 and dash. radio: U0100", "unit k7: clean; dash: clean; radio: U0100"),
    ("rien dans boîtier k7 et combiné. radio : U0100", "boîtier k7: clean; combiné: clean; radio: U0100"),
    ("Unit K7 and dash both have U0401. radio ok", "Unit K7: U0401; dash: U0401; radio: clean"),
    ("unit K7: U0073 / U0146\nbrakes: P0600", "unit K7: U0073 U0146; brakes: P0600"),
    ("module ABS: C0035\nunit radio: U0100", "ABS: C0035; radio: U0100"),
])
def test_a_word_for_a_module_before_its_number(text: str, told: str) -> None:
    assert printed(text) == told


@pytest.mark.parametrize(("text", "told"), [
    ("engine has P0562. loader arm is silent. radio has U0100. loader arm U0121 stored.",
     "engine: P0562; loader arm: U0121; radio: U0100"),
    ("Radio hat U0100. Die Winde war nicht erreichbar. Kombi, Klima und Dachklima sind fehlerfrei. Gateway sauber.",
     "Radio: U0100; Winde: silent; Kombi: clean; Klima: clean; Dachklima: clean; Gateway: clean"),
    ("la dirección tiene U0100. radio y cuadro limpios. En el grupo de frío hay P0562. En el radio encontré P0563.",
     "dirección: U0100; radio: P0563; cuadro: clean; grupo de frío: P0562"),
    ("P0562 gone, radio clean. gateway clean. dash clean. P0563 gone, engine clean.",
     "radio: clean; gateway: clean; dash: clean; engine: clean"),
])
def test_lists_and_verbs_around_a_name(text: str, told: str) -> None:
    assert printed(text) == told
