"""What a phone's keyboard makes of what it hears."""

from __future__ import annotations

import pytest

from grammar import Misunderstood, short_form, understand
from grammar.confusable import LETTERS_WRITTEN, NUMBERS_WRITTEN
from grammar.dictation import dictated
from grammar.slots.point import PLAIN_PAIRS
from grammar.words import split_words


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("be three minus 18 mm", "B3 -18 mm"),
        ("bee 3 -18", "B3 -18"),
        ("see two level", "C2 level"),
        ("ay two minus twelve", "A2 -12"),
        ("dee to minus 14", "D2 -14"),
        ("sea for 13 low", "C4 -13"),
        ("tea too plus 3", "T2 +3"),
        ("correct see won to minus 4", "correct C1 -4"),
        ("how deep at gee 3", "how deep at G3"),
    ],
)
def test_a_letter_written_as_a_word(written: str, meant: str) -> None:
    with pytest.raises(Misunderstood):
        understand(written)
    (said, *more) = dictated(split_words(written))
    assert said.is_sure
    assert [short_form(each) for each in understand(said.line)] == [meant]
    assert not more


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("before minus 12", "B4 -12"),
        ("eight two minus 11", "A2 -11"),
        ("83 minus 17", "A3 -17"),
        ("are 3 minus 17", "R3 -17"),
        ("B3 minus ate", "B3 -8"),
        ("see two minus for", "C2 -4"),
    ],
)
def test_what_may_be_meant_as_it_stands_is_not_sure(written: str, meant: str) -> None:
    lines: dict[str, bool] = {}
    for said in dictated(split_words(written)):
        try:
            lines |= {short_form(each): said.is_sure for each in understand(said.line)}
        except Misunderstood:
            continue
    assert lines == {meant: False}


@pytest.mark.parametrize(
    "line", ["tally", "it has to go", "you see that", "B3 -18", "be quick", "see you at four"]
)
def test_other_lines_are_left_alone(line: str) -> None:
    for said in dictated(split_words(line)):
        with pytest.raises(Misunderstood):
            understand(said.line)


@pytest.mark.parametrize("word", sorted(PLAIN_PAIRS))
def test_a_plain_word_is_no_column_unless_its_number_is_joined_to_it(word: str) -> None:
    try:
        meanings = understand(f"{word} 3 minus 18")
    except Misunderstood:
        meanings = ()
    assert f"{word.upper()}3 -18" not in [short_form(each) for each in meanings]
    assert [short_form(each) for each in understand(f"{word}3 -18")] == [f"{word.upper()}3 -18"]


def test_what_sounds_alike_is_a_letter_or_a_number() -> None:
    assert set(LETTERS_WRITTEN.values()) <= set("abcdefghijklmnopqrstuvwxyz")
    assert not LETTERS_WRITTEN.keys() & NUMBERS_WRITTEN.keys()
    for number in NUMBERS_WRITTEN.values():
        assert understand(f"B3 minus {number}")


def test_each_way_to_hear_a_line_and_how_sure_it_is() -> None:
    for written, heard in (
        # A row has two figures at most, and no part.
        ("be 12 low", {"b 12 low": True}),
        ("be 123 low", {}),
        ("be .5 low", {}),
        ("be quick", {}),
        ("be, three low", {}),
        ("be twenty low", {"b twenty low": True}),
        # "A" is the eight of "83" at the start, before one or two figures.
        ("83 low", {"a 3 low": False}),
        ("833 low", {"a 33 low": False}),
        ("8333 low", {}),
        ("73 low", {}),
        ("low 83", {}),
        # A letter as it is has only its number to be mended; alone with a digit it is a point.
        ("b to low", {"b two low": True}),
        ("b two low", {}),
        ("a one", {"a1": False}),
        ("a one low", {}),
        ("a eleven", {}),
        ("a 1", {}),
        # A number that is written as another word is one after a sign, and nowhere else.
        ("plus too", {"plus two": False}),
        ("too for", {}),
        ("are 3", {"r 3": False}),
    ):
        found = {each.line: each.is_sure for each in dictated(split_words(written))}
        assert found == heard, written


def test_eight_ways_are_tried_of_twelve_words_at_most() -> None:
    assert len(dictated(split_words("be three " * 3))) == 7
    assert len(dictated(split_words("be three " * 4))) == 8
    assert len(dictated(split_words("be three" + " low" * 10))) == 1
    assert dictated(split_words("be three" + " low" * 11)) == []
    (first, *_) = dictated(split_words("be three see to"))
    assert first.line == "b three c2"
