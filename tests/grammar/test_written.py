"""How a recogniser may write a word, and back: a spelling lost is a word not heard."""

from __future__ import annotations

import pytest

from grammar.language import terminals
from grammar.spoken import Spoken, plain_words
from grammar.vocabulary import vocabulary
from grammar.written import PLAIN, SPELLINGS, ways_to_write


def test_every_other_spelling_leads_back_to_its_word() -> None:
    for word, others in SPELLINGS.items():
        for other in others:
            if word != "ph":  # cut lower-cased anyway
                assert plain_words(other) == [word], (other, word)
            assert PLAIN[other] == word


def test_only_words_of_the_spoken_language_have_others() -> None:
    said = set(vocabulary(Spoken(names=("ph",))))
    assert set(SPELLINGS) - said <= {"ph"}
    assert "ph" in terminals()


@pytest.mark.parametrize(
    ("word", "first", "written"),
    [
        ("bravo", False, ("bravo", "Bravo")),
        ("minus", False, ("minus",)),
        ("minus", True, ("minus", "Minus")),
        ("nine", False, ("nine", "niner")),
        ("+5", True, ("+5",)),
    ],
)
def test_capitals_are_for_names_and_for_the_first_word(
    word: str, first: bool, written: tuple[str, ...]
) -> None:
    assert tuple(dict.fromkeys(ways_to_write(word, first))) == written
