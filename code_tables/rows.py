"""A pydantic row model for each table: what every cell may hold. For the checker and the tests; loading goes without.

Every cell is text as it stands in the file. An error says what was expected; the checker adds file, row, column and
what was seen.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Annotated, ClassVar

from pydantic import AfterValidator, BaseModel, ConfigDict

from code_tables import words
from triage.model import codes

HEX = frozenset("0123456789ABCDEF")
#: Titles and meanings are a few words, not a sentence.
LONGEST_TITLE = 72


def _check(passes: Callable[[str], bool], expected: str) -> AfterValidator:
    """A validator that keeps the text where ``passes`` says so."""

    def validate(text: str) -> str:
        if not passes(text):
            raise ValueError(expected)
        return text

    return AfterValidator(validate)


def _one_of(allowed: Sequence[str], *, empty: bool = False) -> AfterValidator:
    """A validator for a word of ``allowed``."""
    expected = f"one of {', '.join(allowed)}" + (" or nothing" if empty else "")
    return _check(lambda text: text in allowed or (empty and not text), expected)


def _is_number(text: str) -> bool:
    try:
        return math.isfinite(float(text))
    except ValueError:
        return False


def _is_code(text: str) -> bool:
    found = codes.parse(text)
    return found is not None and found.kind == "J2012" and found.failure_type is None and found.text == text


def _is_supply_code(text: str) -> bool:
    if _is_code(text):
        return True
    head, _, tail = text.partition(" FMI ")
    spn = codes.parse(f"{head} FMI {tail or '0'}")
    return spn is not None and spn.kind == "J1939" and spn.text == f"{head} FMI {tail or '0'}"


def _is_failure(text: str) -> bool:
    return len(text) == 2 and text[0] in HEX and (text[1] in HEX or text[1] == "_")


def _is_whole(most: int) -> AfterValidator:
    return _check(lambda text: text.isascii() and text.isdigit() and int(text[:12]) <= most,
                  f"a whole number from 0 to {most}")


def _are_pairs(text: str) -> bool:
    pairs = [pair.partition("=") for pair in text.split("|")] if text else []
    return all(system in words.SYSTEMS and monitor in words.MONITORS for system, _, monitor in pairs)


def _is_tidy(text: str) -> bool:
    return text == " ".join(text.split())


def _is_title(text: str) -> bool:
    return bool(text) and _is_tidy(text) and len(text) <= LONGEST_TITLE and not text.endswith(".")


def _is_list(text: str) -> bool:
    names = text.split("|") if text else []
    return all(name and _is_tidy(name) for name in names) and len(set(names)) == len(names)


def _is_pattern(text: str) -> bool:
    groups = [group.removeprefix("-") for group in text.split(" + ")]
    return all(_is_list(group) and bool(group) for group in groups) and not text.startswith("-")


def _are_of(allowed: Sequence[str]) -> AfterValidator:
    """A validator for words of ``allowed`` separated by |, or nothing."""
    return _check(lambda text: _is_list(text) and all(word in allowed for word in text.split("|") if word),
                  f"words of {', '.join(allowed)} separated by |, or nothing")


def _is_ratio(text: str) -> bool:
    return _is_number(text) and 1.0 < float(text) <= words.MOST_RATIO


def _is_template(text: str) -> bool:
    try:
        text.format(**dict.fromkeys(words.READING_FIELDS, ""))
    except (KeyError, IndexError, ValueError, AttributeError):
        return False
    return _is_tidy(text) and "{reading}" in text


Key = Annotated[str, _check(lambda text: bool(text) and _is_tidy(text), "a key")]
CodeCell = Annotated[str, _check(_is_code, "a code as P0562, in capitals")]
TitleCell = Annotated[str, _check(_is_title, f"a few words, {LONGEST_TITLE} characters at most, no full stop")]
OptionalTitle = Annotated[str, _check(lambda text: not text or _is_title(text),
                                      f"a few words, {LONGEST_TITLE} characters at most, or nothing")]
Citation = Annotated[str, _check(lambda text: len(text) > 5 and _is_tidy(text), "a citation")]
Tidy = Annotated[str, _check(_is_tidy, "text with single spaces and none at its ends")]
Listed = Annotated[str, _check(_is_list, "names separated by |, each once, without outer spaces")]
Number = Annotated[str, _check(_is_number, "a finite number with a decimal point")]
OptionalNumber = Annotated[str, _check(lambda text: not text or _is_number(text), "a finite number or nothing")]
Sources = Annotated[str, _check(lambda text: bool(text) and _is_list(text), "keys of sources.csv separated by |")]
YesNo = Annotated[str, _one_of(("yes", "no"), empty=True)]
System = Annotated[str, _one_of(words.SYSTEMS)]
OptionalSystem = Annotated[str, _one_of(words.SYSTEMS, empty=True)]
Monitor = Annotated[str, _one_of(words.MONITORS, empty=True)]
Trips = Annotated[str, _one_of(("1", "2"), empty=True)]
Noise = Annotated[str, _one_of(words.NOISES, empty=True)]
Needs = Annotated[str, _one_of(words.NEEDS, empty=True)]
Relation = Annotated[str, _one_of(words.RELATIONS, empty=True)]
Safety = Annotated[str, _one_of(words.SAFETIES, empty=True)]
Pattern = Annotated[str, _check(_is_pattern, "groups of words: any|of these + and|of these + -none|of these")]


class Row(BaseModel):
    """Base of the row models; ``identity`` names the cells that no two rows may share."""

    model_config = ConfigDict(extra="forbid", strict=True)
    identity: ClassVar[tuple[str, ...]] = ()


class SourceRow(Row):
    """A source: citation, and how it was read."""

    identity = ("key",)
    key: Key
    citation: Citation
    how: Annotated[str, _one_of(words.HOWS)]


class RangeRow(Row):
    """A range of J2012 codes; an empty cell inherits from the wider range around it."""

    low: CodeCell
    high: CodeCell
    control: Annotated[str, _one_of(words.CONTROLS[:3], empty=True)]
    group: Tidy
    system: OptionalSystem
    monitor: Monitor
    trips: Trips
    noise: Noise
    needs: Needs
    relation: Relation
    source: Sources
    note: Tidy


class TitleRow(Row):
    """A code with short words of our own; an empty cell takes the range's."""

    identity = ("code",)
    code: CodeCell
    title: TitleCell
    monitor: Monitor
    trips: Trips
    needs: Needs
    noise: Noise
    source: Sources


class FailureRow(Row):
    """A failure type ("16") or a category ("1_")."""

    identity = ("failure_type",)
    failure_type: Annotated[str, _check(_is_failure, "two hexadecimal digits, or one and _")]
    meaning: TitleCell
    monitor: Monitor
    firm: YesNo
    monitor_by_system: Annotated[str, _check(_are_pairs, "pairs system=monitor separated by |")]
    noise: Noise
    needs: Needs
    relation: Relation
    supply: Annotated[str, _one_of(("low", "high"), empty=True)]
    sag: Annotated[str, _one_of(words.SAGS, empty=True)]
    flicker: YesNo
    source: Sources
    note: Tidy


class SupplyRow(Row):
    """A code that witnesses the supply; ``scope``: the vehicle's or one module's feed."""

    identity = ("code", "failure_type")
    code: Annotated[str, _check(_is_supply_code, "a code as P0562, SPN 168 or SPN 168 FMI 4")]
    failure_type: Annotated[str, _check(lambda text: not text or (_is_failure(text) and "_" not in text),
                                        "two hexadecimal digits or nothing")]
    supply: Annotated[str, _one_of(words.SUPPLIES)]
    scope: Annotated[str, _one_of(words.SCOPES)]
    monitor: Monitor
    source: Sources
    note: Tidy


class SafetyRow(Row):
    """A safety class by range of codes (low, high) or by target (module name in low)."""

    identity = ("match", "low")
    match: Annotated[str, _one_of(words.SAFETY_MATCHES)]
    low: Key
    high: Annotated[str, _check(lambda text: not text or _is_code(text), "a code as P0562 or nothing")]
    safety: Annotated[str, _one_of(words.SAFETIES)]
    source: Sources
    note: Tidy


class RelationRow(Row):
    """What a code says about other modules."""

    identity = ("code",)
    code: CodeCell
    relation: Annotated[str, _one_of(words.RELATIONS)]
    targets: Listed
    source: Sources


class AmbiguousRow(Row):
    """Codes whose number means different things in different editions or lists."""

    identity = ("low", "high")
    low: CodeCell
    high: CodeCell
    title: OptionalTitle
    note: Key
    source: Sources


class ModuleRow(Row):
    """A module and every name it goes by."""

    identity = ("module",)
    module: Key
    system: System
    safety: Safety
    instance_of: Tidy
    awake: Annotated[str, _one_of(words.AWAKE)]
    aliases: Listed
    source: Sources


class SpnRow(Row):
    """A parameter number of J1939, or a range of them."""

    identity = ("low", "high")
    low: Annotated[str, _is_whole(codes.SPN_MAX)]
    high: Annotated[str, _is_whole(codes.SPN_MAX)]
    title: OptionalTitle
    system: System
    monitor: Monitor
    noise: Noise
    needs: Needs
    relation: Relation
    safety: Safety
    source: Sources
    note: Tidy


class FmiRow(Row):
    """A failure mode of J1939."""

    identity = ("fmi",)
    fmi: Annotated[str, _is_whole(codes.FMI_MAX)]
    meaning: TitleCell
    direction: Annotated[str, _one_of(("high", "low"), empty=True)]
    monitor: Monitor
    firm: YesNo
    noise: Noise
    needs: Needs
    relation: Relation
    source: Sources
    note: Tidy


class AddressRow(Row):
    """A preferred address of J1939 and the module that holds it."""

    identity = ("address",)
    address: Annotated[str, _is_whole(253)]
    module: Key
    source: Sources
    note: Tidy


class RateRow(Row):
    """A prior, rate or level by its key."""

    identity = ("key",)
    key: Key
    value: Number
    unit: Key
    source: Sources
    note: Tidy


class LimitRow(Row):
    """A figure of supply, battery, charging or regulation; ``at`` is its place in a series."""

    identity = ("key", "at", "system_volts")
    key: Key
    at: OptionalNumber
    value: Number
    unit: Key
    system_volts: Annotated[str, _one_of(("12", "24"), empty=True)]
    source: Sources
    note: Tidy


class ReadingNameRow(Row):
    """What a live value is called: words of several languages."""

    identity = ("name",)
    name: Key
    words: Pattern
    source: Sources
    note: Tidy


class SharedPartRow(Row):
    """One part that several modules tell of in numbers of their own."""

    identity = ("part",)
    part: Key
    words: Pattern
    beside: Annotated[str, _check(lambda text: not text or _is_pattern(text), "a pattern of words or nothing")]
    where: Key
    passes_if: Key
    safety: Annotated[str, _one_of(words.SAFETIES, empty=True)]
    source: Sources
    note: Tidy


class PlausibilityRow(Row):
    """A reading that contradicts what is sound, and the codes it speaks for."""

    identity = ("key",)
    key: Key
    reading: Key
    other: Listed
    unit: Annotated[str, _one_of(words.READING_UNITS)]
    condition: Annotated[str, _one_of(words.CONDITIONS)]
    limit: Number
    other_limit: OptionalNumber
    state: Annotated[str, _one_of(words.STATES)]
    supports: Annotated[str, _check(lambda text: not text or _is_pattern(text), "a pattern of words or nothing")]
    supply: Annotated[str, _are_of(words.SUPPLIES)]
    relation: Annotated[str, _are_of(words.RELATIONS)]
    where: Annotated[str, _one_of(words.PLACES)]
    ratio: Annotated[str, _check(_is_ratio, f"an odds ratio of more than 1 and at most {words.MOST_RATIO:g}")]
    words: Annotated[str, _check(_is_template, f"a sentence with {{reading}} and no field but {words.READING_FIELDS}")]
    source: Sources
    note: Tidy


ROWS: dict[str, type[Row]] = {
    "sources": SourceRow, "ranges": RangeRow, "titles": TitleRow, "failure_types": FailureRow,
    "supply_codes": SupplyRow, "safety": SafetyRow, "relations": RelationRow, "ambiguous": AmbiguousRow,
    "modules": ModuleRow, "spn": SpnRow, "fmi": FmiRow, "addresses": AddressRow, "rates": RateRow,
    "limits": LimitRow, "reading_names": ReadingNameRow, "plausibility": PlausibilityRow,
    "shared_parts": SharedPartRow,
}
