"""Small readers for the tests of raw responses."""

from __future__ import annotations

import csv
from pathlib import Path

from uds.addressing import AddressingType
from uds.can import CanAddressingInformation, CanSegmenter
from uds.can.addressing import CanAddressingFormat
from uds.message import UdsMessage

from triage.intake.raw.blocks import RawModule, RawReading, read_raw
from triage.model.codes import format
from triage.model.notices import Notice
from triage.model.snapshot import CodeEntry

REFERENCE = Path(__file__).parents[2] / "fixtures" / "reference"


def rows(name: str) -> list[dict[str, str]]:
    with (REFERENCE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def read(text: str) -> tuple[RawReading, list[Notice]]:
    reading, notices = read_raw(text.strip("\n").split("\n"), "bytes.txt")
    assert reading is not None
    return reading, notices


def only(text: str) -> RawModule:
    """The one module of a text that raises no notice."""
    reading, notices = read(text)
    assert notices == []
    assert len(reading.modules) == 1
    return reading.modules[0]


def shown(entry: CodeEntry) -> str:
    byte = "" if entry.status_byte is None else f"{entry.status_byte:02X}"
    return f"{format(entry.code, entry.failure_type)}/{entry.status or ''}/{byte}"


def texts(module: RawModule) -> list[str]:
    return [format(entry.code, entry.failure_type) for entry in module.codes]


def frames(payload: bytes, identifier: int = 0x7E8, layout: str = "{id:03X} {data}") -> list[str]:
    """The ISO-TP frames of a message, as an independent library cuts them."""
    address = CanAddressingInformation(
        CanAddressingFormat.NORMAL_ADDRESSING,
        tx_physical_params={"can_id": identifier}, rx_physical_params={"can_id": identifier - 8},
        tx_functional_params={"can_id": identifier}, rx_functional_params={"can_id": 0x7DF})
    packets = CanSegmenter(addressing_information=address).segmentation(UdsMessage(payload, AddressingType.PHYSICAL))
    return [layout.format(id=identifier, data=bytes(packet.raw_frame_data).hex(" ").upper(),
                          joined=bytes(packet.raw_frame_data).hex().upper()) for packet in packets]
