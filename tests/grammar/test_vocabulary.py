"""The words that a recogniser is given, each in a spelling that it knows."""

from __future__ import annotations

from grammar.spoken import Spoken
from grammar.vocabulary import fit_vocabulary, recogniser_phrases, vocabulary

SPOKEN = Spoken()


def test_it_is_what_the_automaton_can_say_in_order() -> None:
    words = vocabulary(SPOKEN)
    assert list(words) == sorted(set(words))
    assert {"bravo", "minus", "millimetres", "eighteen", "tally"} <= set(words)
    assert not {"b", "below", "mm", "niner"} & set(words)


def test_each_manner_has_its_own_numbers() -> None:
    words, digits = set(vocabulary(SPOKEN)), set(vocabulary(Spoken("digits")))
    assert "eighteen" in words
    assert "eighteen" not in digits
    assert "zero" in digits


def test_our_spelling_goes_first_and_what_is_in_no_spelling_is_named() -> None:
    all_known = fit_vocabulary(SPOKEN, lambda _word: True)
    assert all(word == spelling for word, spelling in all_known.spelling.items())
    assert all_known.missing == ()
    american = fit_vocabulary(SPOKEN, lambda word: "metre" not in word and word != "tally")
    assert american.spelling["millimetres"] == "millimeters"
    assert american.missing == ("tally",)
    assert "tally" not in american.spelling


def test_every_word_that_follows_another_or_ends_a_line_does_so_in_a_sentence() -> None:
    given = recogniser_phrases(SPOKEN, fit_vocabulary(SPOKEN, lambda _word: True))
    said = [sentence.split() for sentence in given]
    pairs = {pair for words in said for pair in zip(words, [*words[1:], ""], strict=True)}
    onward: dict[int, set[str]] = {}
    arcs = list(SPOKEN.automaton.everywhere())
    for state, word, _ in arcs:
        onward.setdefault(state, set()).add(word)
    for _, word, following in arcs:
        ends = {""} if SPOKEN.automaton.is_final(following) else set()
        assert not {(word, second) for second in onward.get(following, set()) | ends} - pairs, word


def test_no_sentence_holds_a_word_that_is_not_known() -> None:
    fit = fit_vocabulary(SPOKEN, lambda word: word != "tally")
    given = recogniser_phrases(SPOKEN, fit)
    assert given
    assert all("tally" not in sentence.split() for sentence in given)
    assert all(SPOKEN.automaton.accepts(sentence.split()) for sentence in given[:200])
