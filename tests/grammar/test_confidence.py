"""How sure it is of a row, by the evidence."""

from __future__ import annotations

from math import log

import numpy as np
import pytest

from grammar.confidence import KINDS, Evidence, confidence, evidence
from grammar.likely import WEIGHTS

PLAIN = {
    "score": 0.2, "rival": -0.6, "none": -0.8, "first": 0.2, "strange": 0, "words": 6, "values": 0,
    "reported": False, "unsure": False, "denies": False, "asks": False,
}  # fmt: skip


def found(**other: object) -> Evidence:
    return evidence(**{**PLAIN, **other})  # type: ignore[arg-type]


def test_leads_and_counts_are_cut_where_more_says_no_more() -> None:
    plain = found()
    assert plain.rival == pytest.approx(0.8)
    assert plain.none == pytest.approx(1.0)
    assert plain.behind == 0
    assert plain.words == pytest.approx(log(6))
    assert found(rival=-9.0).rival == found(rival=-1.3).rival == pytest.approx(1.5)
    assert found(none=-9.0).none == pytest.approx(1.5)
    assert found(first=0.5).behind == pytest.approx(-0.3)
    assert found(first=0.1).behind == 0
    assert found(strange=7).strange == found(strange=3).strange == 3
    assert found(values=5).values == 3
    assert (found(words=2).short, found(words=3).short) == (1, 0)
    flags = ("reported", "unsure", "denies", "asks")
    assert [getattr(found(**{flag: True}), flag) for flag in flags] == [1, 1, 1, 1]
    assert [getattr(plain, flag) for flag in flags] == [0, 0, 0, 0]


@pytest.mark.parametrize("kind", KINDS)
def test_it_is_a_logistic_of_the_evidence(kind: str) -> None:
    with np.load(WEIGHTS) as file:
        row = file["confidence"][KINDS.index(kind)]
    assert len(row) == len(Evidence._fields) + 1
    total = float(row[:-1] @ np.array(found()) + row[-1])
    assert confidence(kind, found()) == pytest.approx(1 / (1 + np.exp(-total)), rel=1e-6)


@pytest.mark.parametrize("kind", KINDS)
def test_the_further_ahead_the_surer(kind: str) -> None:
    plain = confidence(kind, found())
    assert 0 < plain < 1
    assert confidence(kind, found(score=0.5, first=0.5, rival=-0.3, none=-0.5)) > plain
    assert confidence(kind, found(rival=0.1)) < plain
    assert confidence(kind, found(none=0.1)) < plain
    assert confidence(kind, found(first=0.9)) < plain


def test_what_reports_or_asks_is_hardly_a_change() -> None:
    plain = confidence("change", found())
    assert confidence("change", found(reported=True)) < plain
    assert confidence("change", found(asks=True)) < plain
