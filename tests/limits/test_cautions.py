"""Safety words: short, with a source, and deferring to those who decide."""

from __future__ import annotations

import re

import pytest

from assistant.limits.cautions import CAUTIONS, CAUTIONS_AT, cautions_at, lifting_caution
from assistant.reply.replies import Caution

EVERY = [*CAUTIONS.values(), lifting_caution(25), lifting_caution(20)]


@pytest.mark.parametrize("caution", EVERY, ids=lambda caution: caution.message[:20])
def test_two_sentences_with_a_source(caution: Caution) -> None:
    assert len(re.findall(r"[.](?:\s|$)", caution.message)) <= 2
    assert len(caution.message.split()) <= 45
    assert caution.source
    assert re.search(r"local|safety data sheet|licensed", caution.message)


def test_the_five() -> None:
    assert set(CAUTIONS) == {
        "silica-dust",
        "wet-cement",
        "old-adhesive",
        "lifting",
        "electricity-near-water",
    }


def test_their_numbers() -> None:
    # 29 CFR 1926.1153: 50 µg/m³, action level 25 µg/m³, 8 h (published source)
    assert re.search(r"\b50 micrograms.*\b8 hours.*\b25\b", CAUTIONS["silica-dust"].message)
    assert "1926.1153" in CAUTIONS["silica-dust"].source
    # OSHA letter of 2005-05-18 (published source)
    assert "1980" not in CAUTIONS["old-adhesive"].message
    assert "never sand, grind, sweep or chip" in CAUTIONS["old-adhesive"].message
    # NIOSH 94-110: 23 kg at best (published source); 9.8 kg off the floor, by its equation
    assert "23 kg" in CAUTIONS["lifting"].message
    told = re.search(
        r"about (\d+) kg off the floor with the hands (\d+) cm", CAUTIONS["lifting"].message
    )
    assert told
    # the equation at the reach that is said: 23 · 25/H · (1 − 0.003 · 75) · (0.82 + 4.5/75)
    reach = int(told[2])
    assert round(23 * 25 / reach * (1 - 0.003 * 75) * (0.82 + 4.5 / 75)) == int(told[1])


def test_lifting_speaks_of_the_bag_in_hand() -> None:
    assert "A 25 kg bag is over the 23 kg" in lifting_caution(25).message
    assert "A 20 kg bag is under the 23 kg" in lifting_caution(20).message
    assert [c.message for c in cautions_at("order", 25)] == [lifting_caution(25).message]


def test_each_stands_at_its_moment() -> None:
    assert set(CAUTIONS_AT) == {"grind", "order", "mix", "site"}
    assert {"silica-dust", "old-adhesive"} <= set(CAUTIONS_AT["grind"])
    assert {"wet-cement", "lifting", "silica-dust"} <= set(CAUTIONS_AT["mix"])
    for moment, ids in CAUTIONS_AT.items():
        assert set(ids) <= set(CAUTIONS)
        assert [caution.id for caution in cautions_at(moment)] == list(ids)
