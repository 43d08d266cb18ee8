"""Pages from templates: every value is escaped and freed of characters that steer a screen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any, NamedTuple, get_args
from urllib.parse import urlencode

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import HTMLResponse

from triage.model.assessment import Sight
from triage.model.session import BatteryType, Drive, What
from triage.model.snapshot import PHASES, Engine, OutsideSupply
from triage.reports.entries import Line
from triage.reports.markup import element
from triage.reports.picture import mark
from triage.reports.terminal import SAYS_DB
from triage.reports.text import clean, many
from triage.web.forms import Tokens
from triage.web.shown import ENGINES, OUTSIDE

Pairs = list[tuple[str, str]]
NOT_KNOWN = ("", "not known")


def _pairs(words: tuple[str, ...], told: Mapping[str, str] | None = None) -> Pairs:
    """Values of a list to choose from with their words; "unknown" is said by leaving the field empty."""
    return [NOT_KNOWN, *((word, (told or {}).get(word, word.replace("-", " "))) for word in words if word != "unknown")]


CHOICES: dict[str, Pairs | list[str]] = {
    "phase": _pairs(PHASES), "phase_guessed": [("", "as the text says"), *_pairs(PHASES)[1:]],
    "engine": _pairs(get_args(Engine), ENGINES), "outside": _pairs(get_args(OutsideSupply), OUTSIDE),
    "drive": _pairs(get_args(Drive)), "battery": _pairs(get_args(BatteryType)),
    "nominal": [NOT_KNOWN, ("12", "12 V"), ("24", "24 V")],
    "what": [(word, word) for word in get_args(What)],
    "answer": [NOT_KNOWN, ("accepted", "accepted"), ("refused", "refused")],
    "part": [("", "none"), ("new", "new"), ("used", "used"), ("repaired", "repaired")],
    "unit": [(unit, unit) for unit in ("V", "mV", "A", "mA", "ohm", "degC", "%", "other")],
    "deeds": ["charged the battery", "replaced the battery", "repaired the wiring", "cleaned a ground connection",
              "replaced the part", "programmed the module", "cleared the codes, they did not return", "nothing"],
    "measured": ["battery at rest", "load test", "charging voltage", "lowest while cranking", "key-off draw",
                 "voltage drop on the feed", "voltage drop on the ground"],
}


class Draft(dict[str, str]):
    """What stands in the fields of a form; a field that is not there is empty."""

    def __missing__(self, key: str) -> str:
        return ""

    def __getattr__(self, name: str) -> str:
        return self[name]


class Page(NamedTuple):
    """What belongs to this answer alone: the token of its forms."""

    token: str


class Pages:
    """The templates with their filters."""

    def __init__(self, tokens: Tokens, module_names: Sequence[str] = ()) -> None:
        """``tokens``: for the forms; ``module_names``: offered where a module is asked for."""
        self._tokens = tokens
        self._templates = Environment(
            loader=FileSystemLoader(Path(__file__).parent / "templates"), autoescape=True, undefined=StrictUndefined,
            trim_blocks=True, lstrip_blocks=True, finalize=_finish, auto_reload=False)
        self._templates.filters.update(
            sighting=sighting, query=query, moment=moment, plain=plain, volts=volts, whole=Whole, words=_words,
            beyond=beyond, first_big=lambda text: text[:1].upper() + text[1:].rstrip("."),
            many=lambda number, one, more=None: many(number, one, more))
        options = Markup("").join(Markup('<option value="{}">').format(name) for name in module_names)
        self._templates.globals.update(
            choices=CHOICES, module_options=options, says_db=SAYS_DB[:1].upper() + SAYS_DB[1:])

    def page(self, request: Request, name: str, status: int = 200, **values: Any) -> HTMLResponse:
        """The page of template ``name``, with the token and, for a new browser, the cookie it goes with."""
        seed, new = self._tokens.seed(request.headers)
        values.setdefault("problem", None)
        values.setdefault("draft", Draft())
        text = self._templates.get_template(name).render(page=Page(self._tokens.token(seed)), **values)
        answer = HTMLResponse(text, status)
        if new:
            answer.headers.append("Set-Cookie", self._tokens.set_cookie(seed))
        return answer


class Whole(str):
    """Text whose line ends and other characters matter: it is escaped, not cleaned."""

    __slots__ = ()


def _finish(value: object) -> object:
    """Runs over every value put into a page, before it is escaped."""
    if isinstance(value, str) and not isinstance(value, Markup | Whole):
        return clean(value)
    return value


def beyond(lines: Sequence[Line], told: Sequence[Line]) -> list[Line]:
    """The lines that are not among those told."""
    known = {id(line) for line in told}  # by identity: comparing hundreds of lines value by value takes long
    return [line for line in lines if id(line) not in known]


def sighting(sight: Sight) -> Markup:
    """The mark of a sighting as a small drawing, in the shapes of the picture."""
    return Markup(element("svg", mark(sight, 7.0, 7.0), viewBox="0 0 14 14", class_="mark", role="img",
                          aria_label=sight))


def query(pairs: Mapping[str, object]) -> str:
    """The query of an address."""
    return urlencode({name: str(value) for name, value in pairs.items()}, errors="replace")


def moment(at: datetime) -> str:
    """A time to the minute, in the zone of this machine."""
    try:
        return at.astimezone().isoformat(" ", "minutes")[:16]
    except (ValueError, OverflowError):
        return at.isoformat(" ", "minutes")[:16]


def plain(value: float | None) -> str:
    """A number as a person would type it; empty for None."""
    return "" if value is None else f"{value:.10g}"


def volts(value: float) -> str:
    """ "12.6 V"."""
    return f"{value:.1f} V"


def _words(value: str | None) -> str:
    """ "after-clear" as "after clear"."""
    return (value or "phase not known").replace("-", " ")
