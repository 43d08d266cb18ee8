"""Bytes of a file: told apart (text in some encoding, HTML, JSON job, PDF, something that is no scan), then read.

Only here does an input end the reading: :class:`InputError` with one line that says what was seen and what was
expected. Nothing is opened here; whoever has the bytes hands them over.
"""

from __future__ import annotations

import json
import re
from datetime import date
from typing import Any

from code_tables import Tables
from triage.errors import InputError, JobError
from triage.intake import noscan, pdfcolumns, pdftables
from triage.intake.plain.patterns import lazily
from triage.intake.text import Reading, read_text
from triage.model.notices import Notice
from triage.model.session import Event, Session, Vehicle, session_from
from triage.model.snapshot import Snapshot

#: No scan of a vehicle is larger; a file that is was taken by mistake.
LARGEST = 64 * 1024 * 1024
_PICTURES: tuple[tuple[bytes, str], ...] = (
    (b"\x89PNG", "a PNG picture"),
    (b"\xff\xd8\xff", "a JPEG picture"),
    (b"GIF8", "a GIF picture"),
    (b"BM", "a BMP picture"),
    (b"II*\x00", "a TIFF picture"),
    (b"MM\x00*", "a TIFF picture"),
    (b"\x00\x00\x01\x00", "an icon"),
)
_ARCHIVES: tuple[tuple[bytes, str], ...] = (
    (b"PK\x03\x04", "a zip archive or an office document"),
    (b"\x1f\x8b", "a gzip archive"),
    (b"7z\xbc\xaf", "an archive"),
    (b"Rar!", "an archive"),
    (b"\xd0\xcf\x11\xe0", "an office document"),
    (b"\x7fELF", "a program"),
    (b"MZ", "a program"),
    (b"SQLite format 3", "a database"),
    (b"OggS", "a sound"),
    (b"ID3", "a sound"),
    (b"{\\rtf", "a rich-text document"),
)
_SIGNS = lazily(
    r"(?<![a-z])(?:codes?|dtcs?|faults?|modules?|ecus?|fehler(?:speicher|codes?)?|steuergerate?|defauts?|"
    r"calculateurs?|codigos?|averias?|centralitas?)"
    r"(?![a-z])"
)
_CLEAN = lazily(
    r"(?<![a-z])(?:no|keine?|aucun|pas de|sin|ningun)\s+(?:\w+\s+){0,2}(?:codes?|dtcs?|faults?|"
    r"fehler\w*|defauts?|codigos?|averias?|fallos?)"
)
_EXPECTED = "expected a scan as text: modules with their trouble codes"


def read_bytes(data: bytes, tables: Tables, *, source: str | None = None, day: date | None = None) -> Reading:
    """Read the bytes of a file. Raises InputError (one line) where they can't be used as a whole.

    ``source`` names the file in the notices; ``day`` is that of a time of day without a date.
    """
    if len(data) > LARGEST:
        raise InputError(
            _at(
                source,
                f"{len(data) / 1e6:.0f} MB, more than the {LARGEST / 1048576:.0f} MiB a scan can have; {_EXPECTED}",
            )
        )
    if not data.strip():
        raise InputError(_at(source, f"the input is empty; {_EXPECTED}"))
    if data[:1024].lstrip().startswith(b"%PDF-"):
        text, undrawn = _pdf_text(data, source)
        pages = _checked(read_text(text, tables, source=source, day=day), source, pdf=True)
        return pages._replace(notices=pages.notices + _undrawn(undrawn, source)) if undrawn else pages
    _refuse_binary(data, source)
    text = decode(data, source)
    stripped = text.lstrip("\ufeff \t\r\n")
    if stripped[:1] in "{[":
        reading = _json(stripped, tables, source)
        if reading is not None:
            return reading
    return _checked(read_text(text, tables, source=source, day=day), source, text=text)


def _at(source: str | None, message: str) -> str:
    return f"{source}: {message}" if source else message


def _refuse_binary(data: bytes, source: str | None) -> None:
    """Raise for pictures, archives and programs, known by their first bytes."""
    head = data[:16]
    for start, kind in (*_PICTURES, *_ARCHIVES):
        if head.startswith(start) and (len(start) > 2 or not _texty(data[:400])):
            more = "; copy the text of the scan instead" if "picture" in kind or "document" in kind else ""
            raise InputError(_at(source, f"this is {kind}, not text; {_EXPECTED}{more}"))
    if head[:4] == b"RIFF" or head[4:8] == b"ftyp":
        raise InputError(_at(source, f"this is a picture, a sound or a film, not text; {_EXPECTED}"))


def _texty(data: bytes) -> bool:
    return bool(data) and sum(byte >= 32 or byte in (9, 10, 13) for byte in data) >= 0.97 * len(data)


def decode(data: bytes, source: str | None = None) -> str:
    """The text of ``data``: UTF-8, UTF-16 or UTF-32 with or without a byte-order mark, else Windows-1252.

    Raises InputError where the bytes are no text.
    """
    for mark, name in (
        (b"\xef\xbb\xbf", "utf-8-sig"),
        (b"\xff\xfe\x00\x00", "utf-32"),
        (b"\x00\x00\xfe\xff", "utf-32"),
        (b"\xff\xfe", "utf-16"),
        (b"\xfe\xff", "utf-16"),
    ):
        if data.startswith(mark):
            return data.decode(name, errors="replace")
    sample = data[:4096]
    nulls = sample.count(0)
    if nulls > 0.2 * len(sample):
        even, odd = sample[::2].count(0), sample[1::2].count(0)
        if max(even, odd) > 0.6 * len(sample) / 2 and min(even, odd) < 0.1 * len(sample) / 2:
            return data.decode("utf-16-be" if even > odd else "utf-16-le", errors="replace")
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        text = data.decode("cp1252", errors="replace")
        if sum(byte >= 0x80 for byte in sample) > 0.3 * len(sample):
            raise InputError(_at(source, f"binary data, not text; {_EXPECTED}")) from None
    odd_characters = sum(ord(c) < 32 and c not in "\t\n\r\x0b\x0c\x1b" for c in text[:4096]) + text[:4096].count(
        "\ufffd"
    )
    if odd_characters > 0.02 * min(len(text), 4096) + 2:
        raise InputError(_at(source, f"binary data, not text; {_EXPECTED}"))
    return text


def _pdf_text(data: bytes, source: str | None) -> tuple[str, list[int]]:
    """The text of a PDF, page after page, by the extra ``pdf``, and the numbers of the pages whose lines are no
    drawing: what stands in which cell of a table is not known there."""
    try:
        import pypdf
    except ImportError:
        raise InputError(
            _at(source, "a PDF needs the extra: pip install 'lowvolt-triage[pdf]', or paste the text of the report")
        ) from None
    import io
    import logging

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)
    try:
        pages = pypdf.PdfReader(io.BytesIO(data)).pages
        texts = [_page_text(page) for page in pages]
    except Exception as error:
        raise InputError(
            _at(source, f"the PDF can't be read ({type(error).__name__}); paste the text of the report instead")
        ) from None
    if not any(text.strip() for text, _ in texts):
        raise InputError(
            _at(source, "the PDF holds no text (pictures of pages?); paste the text of the report instead")
        )
    return "\n\f\n".join(text for text, _ in texts), [at for at, (_, drawn) in enumerate(texts, 1) if not drawn]


def _page_text(page: Any) -> tuple[str, bool]:
    """The text of one page, its columns kept apart where pypdf can, its ruled tables cell by cell; and whether its
    drawing could be followed for that."""
    try:
        plain = str(page.extract_text(extraction_mode="layout"))
    except Exception:
        return str(page.extract_text()), False
    columns = pdfcolumns.one_below_another(plain)
    try:
        return pdftables.text_of(page, columns), True
    except (ValueError, TypeError, IndexError):  # a drawing that is none: the text is there all the same
        return columns, False


def _undrawn(pages: list[int], source: str | None) -> list[Notice]:
    """One notice for the pages that were read without the lines drawn on them."""
    places = f"page{'s' if len(pages) > 1 else ''} {', '.join(map(str, pages))}"
    message = (f"the lines drawn on {places} can't be followed: what stands in which cell of a table is not sure "
               "there; compare its modules with the report")
    return [Notice("warning", message, source)]


def _json(text: str, tables: Tables, source: str | None) -> Reading | None:
    """A job file, JSON Lines of jobs, or what ``triage read --json`` printed; None where it is no JSON at all."""
    try:
        data: Any = json.loads(text)
    except RecursionError:
        raise InputError(_at(source, "JSON nested too deeply; expected a job (see `triage schema`)")) from None
    except ValueError as error:
        return _json_lines(text, source, error)
    if isinstance(data, list):
        jobs = [_session(each, source, f"job {at}") for at, each in enumerate(data, 1) if isinstance(each, dict)]
        if not jobs or len(jobs) != len(data):
            raise InputError(_at(source, "a JSON list that holds no jobs; expected a job (see `triage schema`)"))
        return _joined(jobs)
    if not isinstance(data, dict):
        return None
    return _joined([_session(data, source, "")])


def _json_lines(text: str, source: str | None, error: ValueError) -> Reading | None:
    """One job a line."""
    rows = [line for line in text.splitlines() if line.strip()]
    if not rows[0].lstrip().startswith("{"):
        return None
    jobs = []
    for at, line in enumerate(rows, 1):
        try:
            data = json.loads(line)
        except (ValueError, RecursionError):
            if at == 1:
                if re.match(r'\{\s*("|$)', text):
                    raise InputError(
                        _at(
                            source, f"not valid JSON: {error}; expected a job (see `triage schema`) or a scan as text"
                        )
                    ) from None
                return None
            raise InputError(
                _at(source, f"line {at} is not valid JSON; expected one job a line (see `triage schema`)")
            ) from None
        jobs.append(_session(data, source, f"line {at}"))
    return _joined(jobs)


def _session(data: Any, source: str | None, where: str) -> Session:
    """One JSON object as a session; what `triage read --json` prints lacks the job's name and has notices besides."""
    if isinstance(data, dict) and "job" not in data and "snapshots" in data:
        data = {"job": "read", **{key: value for key, value in data.items() if key not in ("notices", "source")}}
    try:
        return session_from(data)
    except JobError as error:
        place = ": ".join(part for part in (source, where) if part)
        raise JobError(f"{place}: {error}" if place else str(error), error.path, error.job) from None


def _joined(jobs: list[Session]) -> Reading:
    """The snapshots of one or more jobs, in their order."""
    snapshots: list[Snapshot] = []
    events: list[Event] = []
    vehicle: Vehicle | None = None
    notices: list[Notice] = []
    for job in jobs:
        for snapshot in job.snapshots:
            modules = [
                module if module.responds is not None else module.model_copy(update={"responds": True})
                for module in snapshot.modules
            ]
            snapshots.append(snapshot.model_copy(update={"modules": modules}))
        events += job.events or []
        vehicle = vehicle or job.vehicle
    return Reading(snapshots, vehicle, events, notices)


def _checked(reading: Reading, source: str | None, *, text: str = "", pdf: bool = False) -> Reading:
    """The reading, unless nothing in it looks like a scan, or it is a bill. Raises InputError then."""
    if noscan.is_bill(text):
        raise InputError(_at(source, f"a bill is no scan: its columns are of prices; {_EXPECTED}"))
    for snapshot in reading.snapshots:
        if snapshot.modules or snapshot.volts is not None or snapshot.readings:
            return reading
    low = text[:200_000].lower()
    if reading.snapshots and (_CLEAN.search(low) or _SIGNS.search(low)):
        return reading
    refused = [notice for notice in reading.notices if notice.severity == "warning" and notice.line is not None]
    if refused:
        first = refused[0]
        raise InputError(
            _at(
                source,
                f"line {first.line}: {first.message}; nothing else in the text is a code, a module or a voltage",
            )
        )
    kind = "the text of the PDF" if pdf else "the text"
    raise InputError(_at(source, f"{kind} is no scan: {noscan.what_it_is(text)}; {_EXPECTED}"))
