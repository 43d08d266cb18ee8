"""Column types that keep any value exactly, on SQLite and on PostgreSQL alike.

PostgreSQL text holds no NUL and neither database holds half a surrogate pair, yet both occur in text typed or
pasted by people; SQLite forgets the zone of a time. These types close the gaps.

>>> unescape(escape("a\\x00b\\\\c")) == "a\\x00b\\\\c"
True
"""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import DateTime, Dialect, Text
from sqlalchemy.types import TypeDecorator

_AWKWARD = re.compile("[\\\\\x00\ud800-\udfff]")
_ESCAPED = re.compile(r"\\(\\|u[0-9a-f]{4})")


def escape(text: str) -> str:
    """``text`` with backslash, NUL and lone surrogates written as ``\\\\``, ``\\u0000``, ``\\ud800``."""
    return _AWKWARD.sub(lambda m: "\\\\" if m[0] == "\\" else f"\\u{ord(m[0]):04x}", text)


def unescape(text: str) -> str:
    """The text that :func:`escape` was given."""
    return _ESCAPED.sub(lambda m: "\\" if m[1] == "\\" else chr(int(m[1][1:], 16)), text)


class Words(TypeDecorator[str]):
    """Any string a person wrote: readable in the database, exact when read back."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: str | None, dialect: Dialect) -> str | None:
        return None if value is None else escape(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> str | None:
        return None if value is None else unescape(value)


class JsonText(TypeDecorator[Any]):
    """JSON as ASCII text. Not the databases' own JSON types: those reorder keys, refuse NUL or round numbers."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        return None if value is None else json.dumps(value)

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        return None if value is None else json.loads(value)


class Moment(TypeDecorator[datetime]):
    """A point in time, kept and given back in UTC."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        return None if value is None else value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)
