"""The automaton takes each sentence of its templates and no other: ears hear nothing else."""

from __future__ import annotations

from functools import cache

import pytest

from grammar.automaton import Automaton
from grammar.template import Node, read_template


@cache
def _slots(name: str) -> tuple[Node, ...]:
    return read_template({"digit": "(one | two)", "size": "<digit> [point <digit>]"}[name])


def _taken_from(*sentences: str, written: bool = False) -> Automaton:
    return Automaton([read_template(sentence) for sentence in sentences], _slots, written)


@pytest.mark.parametrize(
    ("words", "taken"),
    [
        ("go one", True),
        ("go one point two", True),
        ("go one point two now", True),
        ("go", False),
        ("go one point", False),
        ("go point two", False),
        ("go one two", False),
        ("one", False),
        ("", False),
    ],
)
def test_it_takes_its_sentences_whole(words: str, taken: bool) -> None:
    assert _taken_from("go <size> [now]").accepts(words.split()) is taken


def test_a_word_leads_to_one_state_only_also_where_sentences_begin_alike() -> None:
    both = _taken_from("cut list", "cut <digit>", "cut list now")
    states = [state for state, word, _ in both.everywhere() if word == "cut"]
    assert states == [0]
    for words in ("cut list", "cut one", "cut list now"):
        assert both.accepts(words.split())
    assert not both.accepts(["cut"])


def test_everywhere_reaches_each_arc_once() -> None:
    arcs = list(_taken_from("go <size> [now]", "stop").everywhere())
    assert len(arcs) == len({(state, word) for state, word, _ in arcs})
    assert {word for _, word, _ in arcs} == {"go", "one", "two", "point", "now", "stop"}


def test_a_walk_stops_where_a_word_does_not_fit() -> None:
    go = _taken_from("go <size>")
    assert go.walk(["go", "three"]) is None
    after = go.walk(["go", "one"])
    assert after is not None
    assert go.is_final(after)
    assert set(go.arcs(after)) == {"point"}


def test_what_is_added_for_a_while_leaves_the_rest_as_it_was() -> None:
    go = _taken_from("go <digit>")
    answer = read_template("the first")
    state = go.also([answer])
    assert go.accepts(["the", "first"], state)
    assert go.accepts(["go", "one"], state)
    assert not go.accepts(["the", "first"])
    assert go.also([answer]) == state


def test_written_words_have_other_spellings_and_capitals_at_the_start_only() -> None:
    heard = _taken_from("metres metres", written=True)
    for words, taken in (
        ("Meters meters", True),
        ("metre m", True),
        ("metres Metres", False),
    ):
        assert heard.accepts(words.split()) is taken, words
    assert _taken_from("how many litres", written=True).accepts("How many liters".split())
