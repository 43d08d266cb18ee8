"""Attribution: whose codes and answers a sentence tells of, without the rest of the reader.

All invented; wordings: common practice.
"""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.intake.said.attribution import Fact, attribute

_CODE = re.compile(r"[pcbu][0-3][0-9a-f]{3}")
_NAME = re.compile(r"(?<![a-z])(?:ecm|tcm|abs|bcm|eps|radio)(?![a-z])")
_ANSWER = re.compile(r"(?<![a-z])(?:no answer|no codes|did not answer|ok|could not reach)(?![a-z])")


def facts_of(low: str) -> list[Fact]:
    """The facts of a sentence made of the names, codes and answers above."""
    names, codes, answers = ([match.span() for match in pattern.finditer(low)] for pattern in (_NAME, _CODE, _ANSWER))
    objects = [at for at, (start, end) in enumerate(answers) if low[start:end].endswith("reach")]
    return attribute(low, names, codes, answers, objects)


def said(low: str) -> str:
    """Each fact with its owners: "u0100 p0562 abs,ecm; no codes radio"."""
    codes = [match[0] for match in _CODE.finditer(low)]
    told = []
    for fact in facts_of(low):
        what = " ".join(codes[at] for at in fact.codes) if fact.answer is None else low[fact.start : fact.end]
        told.append(f"{what} {','.join(low[start:end] for start, end in fact.owners)}".strip())
    return "; ".join(told)


@pytest.mark.parametrize(
    ("low", "want"),
    [
        ("ecm has p0562 and u0100", "p0562 u0100 ecm"),
        ("u0100, u0140 and p0562 in abs", "u0100 u0140 p0562 abs"),
        ("ecm shows p0562. u0100, u0140 in abs", "p0562 ecm; u0100 u0140 abs"),
        ("ecm shows p0562; got u0100 from abs; got u0140 from bcm", "p0562 ecm; u0100 abs; u0140 bcm"),
        ("ecm has p0562, u0100 in abs", "p0562 ecm; u0100 abs"),
        ("p0562 (ecm), u0100 (abs)", "p0562 ecm; u0100 abs"),
        ("p0562 in the ecm, bcm and abs did not answer", "p0562 ecm; did not answer bcm,abs"),
        ("no answer from the bcm and the radio. no codes in the ecm", "no answer bcm,radio; no codes ecm"),
        ("could not reach eps, abs has u0100", "could not reach eps; u0100 abs"),
        ("no answer from tcm - eps, ecm ok", "no answer tcm; ok eps,ecm"),
        ("abs has u0100, no codes in radio", "u0100 abs; no codes radio"),
        ("abs has u0100 while p0562 comes back", "u0100 abs; p0562 abs"),
        ("p0562 is back", "p0562"),
        ("", ""),
    ],
)
def test_each_fact_goes_to_the_names_that_lead_to_it(low: str, want: str) -> None:
    assert said(low) == want


def test_codes_behind_an_answer_are_of_no_module_that_gave_it() -> None:
    assert said("radio ok. u0100") == "ok radio; u0100"


_WORDS = st.sampled_from(
    ["ecm", "tcm", "abs", "bcm", "eps", "radio", "p0562", "u0100", "c0031", "b1000", "ok", "has", "in", "from", "the",
     "and", "shows", "got", "with", "stored", "no answer", "no codes", "did not answer", "could not reach", ",", ";",
     ".", " - ", ":", "(", ")", "\n", "\u00e9"]
)


@given(st.lists(_WORDS, max_size=40).map(" ".join))
def test_any_sentence_gives_each_code_and_answer_once_in_order(low: str) -> None:
    facts = facts_of(low)
    names = [match.span() for match in _NAME.finditer(low)]
    codes = [at for fact in facts for at in fact.codes]
    answers = [fact.answer for fact in facts if fact.answer is not None]
    assert codes == list(range(len(_CODE.findall(low))))
    assert answers == list(range(len(_ANSWER.findall(low))))
    assert [fact.start for fact in facts] == sorted(fact.start for fact in facts)
    assert all(bool(fact.codes) != (fact.answer is not None) for fact in facts)
    assert all(set(fact.owners) <= set(names) for fact in facts)


@given(st.text(alphabet="abc p0,.;-()\n", max_size=60), st.data())
def test_any_places_are_taken(low: str, data: st.DataObject) -> None:
    cuts = sorted(data.draw(st.sets(st.integers(0, len(low)), max_size=12)))
    spans = list(zip(cuts[::2], cuts[1::2], strict=False))
    kinds = [data.draw(st.integers(0, 2)) for _ in spans]
    names, codes, answers = (
        [span for span, kind in zip(spans, kinds, strict=True) if kind == each] for each in range(3)
    )
    facts = attribute(low, names, codes, answers, range(len(answers)))
    assert [at for fact in facts for at in fact.codes] == list(range(len(codes)))
    assert all(set(fact.owners) <= set(names) for fact in facts)
