"""How likely a row is meant: worked out by hand from how many rows a word belongs to."""

from __future__ import annotations

from math import log

import pytest

from grammar.kindred import KINDRED
from grammar.language import terminals
from grammar.phrases import PHRASES
from grammar.weighing import Weighed, senses, stem, weigh_rows

MOST = log(len(PHRASES) + 1)
"""What a word weighs that one row has, or none."""


def best(*words: str, asks: bool = False) -> Weighed:
    return weigh_rows(words, asks=asks)[0]


def likely(template: str, *words: str, asks: bool = False) -> float:
    return max(
        (row.likely for row in weigh_rows(words, asks=asks) if row.phrase.template == template),
        default=0.0,
    )


@pytest.mark.parametrize(
    ("word", "about"),
    [
        ("bags", "bag"), ("gas", "gas"), ("bus", "bus"), ("pins", "pin"), ("glass", "glass"),
        ("radius", "radius"), ("basis", "basis"), ("primer's", "primer"), ("it's", "it"),
        ("pouring", "pour"), ("living", "living"), ("pourings", "pour"),
        ("poured", "pour"), ("speed", "speed"), ("needed", "need"), ("speeds", "speed"),
        ("finished", "finished"), ("working", "working"),
    ],
)  # fmt: skip
def test_a_word_is_about_what_it_is_without_its_ending(word: str, about: str) -> None:
    assert stem(word) == about


def test_kindred_words_are_said_for_each_other() -> None:
    assert senses("sacks") == {"sack", "bag"}
    assert senses("zzzz") == {"zzzz"}


def test_a_row_that_was_said_whole_is_as_likely_as_can_be() -> None:
    for phrase in PHRASES:
        plain = phrase.template.replace("[", "").replace("]", "")
        if "<" in plain or "(" in plain:
            continue
        rows = weigh_rows(plain.lower().split())
        if not rows:  # all its words are such as say nothing by themselves
            continue
        assert phrase in [row.phrase for row in rows if row.likely > 1 - 1e-9], plain


def test_a_word_that_no_row_has_takes_its_own_weight_off() -> None:
    # Two rows have "undo"; a word of none weighs as much as one of a single row.
    undo = log((len(PHRASES) + 1) / 2)
    assert likely("undo [that]", "undo") == pytest.approx(1)
    assert likely("undo [that]", "undo", "undo", "the", "12") == pytest.approx(1)
    assert likely("undo [that]", "undo", "zzzz") == pytest.approx(undo / (undo + MOST))


def test_a_kindred_word_counts_for_nineteen_of_twenty() -> None:
    # Of the line, and of three quarters of what is to be said.
    assert likely("are <bags:count> bags enough", "sacks") == pytest.approx(
        0.95 * (0.25 + 0.75 * 0.95)
    )
    assert likely("are <bags:count> bags enough", "bags") == pytest.approx(1)


def test_what_was_left_unsaid_takes_off_three_quarters_of_its_part() -> None:
    # "survey check" with "survey" alone; its two words weigh by the rows that have them.
    whole, part = likely("survey check", "survey", "check"), likely("survey check", "survey")
    assert whole == pytest.approx(1)
    rows = {word: len({row.phrase.template for row in weigh_rows([word])}) for word in ("survey",)}
    assert rows["survey"] >= 2
    survey = log((len(PHRASES) + 1) / 2)
    check = survey * (1 / ((part - 0.25) / 0.75) - 1)
    # "check" is in more rows than "survey", so it weighs less.
    assert 0 < check < survey


def test_a_word_that_says_little_takes_off_little() -> None:
    undo = log((len(PHRASES) + 1) / 2)
    beside = likely("undo [that]", "undo", "roughly")
    # "roughly" is in no row, and counts for 15 of 100.
    assert beside == pytest.approx(undo / (undo + 0.15 * MOST))


@pytest.mark.parametrize("asks", [True, False])
def test_a_thing_beside_it_says_little_where_the_line_asks(asks: bool) -> None:
    told = likely("tally", "tally", "slab", asks=asks)
    alone = likely("tally", "tally")
    assert told < alone
    assert (told > 0.85) is asks


def test_what_is_less_than_likely_is_not_looked_at() -> None:
    assert weigh_rows(["bags", "zzzz"]) == []  # 0.36 of the line
    assert best("undo", "zzzz").likely > 0.45
    assert weigh_rows(["the", "of", "12"]) == weigh_rows([]) == []


def test_the_likeliest_row_comes_first() -> None:
    rows = weigh_rows(["survey", "check"])
    assert [row.likely for row in rows] == sorted((row.likely for row in rows), reverse=True)
    assert rows[0].phrase.template == "survey check"
    assert all(0.45 <= row.likely <= 1 for row in rows)
    assert best("tally").is_telling
    assert not best("tally").is_about_a_thing


def test_words_are_said_for_a_word_that_a_phrase_has() -> None:
    about = {word for phrase in PHRASES for word in phrase.about.split()}
    assert KINDRED.keys() <= terminals().keys() | about


def test_the_tallest_is_about_the_highest() -> None:
    assert senses("tallest") & senses("highest") - {stem("tallest")}


def test_of_ways_that_are_as_likely_the_first_is_taken() -> None:
    """ "Grind A1 by 3 mm", or "grind 3 mm off A1": the order of its gaps is that of the first."""
    row = next(row for row in weigh_rows(["grind"]) if row.phrase.template.startswith("grind ["))
    ways = list(row.phrase.every_way)
    assert len(ways) > 1
    assert row.nodes == ways[0]
