"""Cutting a line into words: nothing that was said may be lost, run together or invented here."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grammar.words import FILLERS, FRACTION, LABEL, NUMERAL, WORD, cut, joined


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("B3 -18mm", [("b3", LABEL), ("-", WORD), ("18", NUMERAL), ("mm", WORD)]),
        ("1 1/2", [("1", NUMERAL), ("1/2", FRACTION)]),
        ("½", [("1/2", FRACTION)]),
        (".5", [(".5", NUMERAL)]),
        ("5' 3\"", [("5", NUMERAL), ("'", WORD), ("3", NUMERAL), ('"', WORD)]),
        ("7%", [("7", NUMERAL), ("%", WORD)]),
        ("12 × 8", [("12", NUMERAL), ("x", WORD), ("8", NUMERAL)]),
        ("−18", [("-", WORD), ("18", NUMERAL)]),
        ("Tally.", [("tally", WORD)]),
        ("please um tally", [("tally", WORD)]),
        ("", []),
        (" , ;", []),
    ],
)
def test_a_line_in_words(text: str, words: list[tuple[str, str]]) -> None:
    assert [(word.text, word.kind) for word in cut(text)] == words


def test_a_comma_between_figures_is_kept_and_others_are_a_pause() -> None:
    assert "," in [word.text for word in cut("2,5")]
    one, two = cut("one, two")
    assert (one.after_pause, two.after_pause) == (False, True)


@given(st.text(max_size=60))
def test_each_word_has_its_place_in_the_text(text: str) -> None:
    at = 0
    for word in cut(text):
        assert at <= word.start < word.end <= len(text)
        at = word.end


@given(st.lists(st.sampled_from(("bravo", "three", "minus", "18", "1/2", "mm", "b3")), max_size=6))
def test_words_put_together_are_cut_the_same_again(texts: list[str]) -> None:
    again = [word.text for word in cut(joined(texts))]
    assert [word.text for word in cut(joined(again))] == again


def test_fillers_are_kept_in_a_reason() -> None:
    said = [word.text for word in cut("confirm because the client was okay")]
    assert {"the", "okay"} <= set(said)
    assert {"the", "okay"} <= FILLERS
