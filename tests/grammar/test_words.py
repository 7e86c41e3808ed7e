"""Cutting a line into words: nothing that was said may be lost, run together or invented here."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grammar import Misunderstood, short_form, understand
from grammar.commands.guide import SkipStep
from grammar.commands.talk import Confirm
from grammar.words import (
    FILLERS,
    FRACTION,
    LABEL,
    NUMERAL,
    WORD,
    filler_alone,
    join_words,
    split_words,
    without_courtesies,
)


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
    assert [(word.text, word.kind) for word in split_words(text)] == words


def test_where_figures_letters_and_dashes_part() -> None:
    for text, words in (
        ("twenty- five", "twenty - five"), ("point-b3", "point b3"), ("up-a", "up a"),
        ("look x-ray", "look x ray"),
        ("well-made", "made"), ("10-8", "10 - 8"),
        ("-½", "- 1/2"),
        ("-five", "- five"), ("1-½", "1 1/2"), ("1 - ½", "1 - 1/2"), ("½-1/2", "1/2 - 1/2"),
        ("b3-½", "b3 - 1/2"), ("3-mm", "3 - mm"), ("mm-3", "mm - 3"), ("x-ray", "x ray"),
        ("y-ray", "y - ray"), ("xx-ray", "xx ray"), ("½½", "1/2 1/2"), ("1⁄2", "1/2"),
        ("1 / 2", "1/2"), ("1234/5", "1234/5"), ("12345/6", "12345 / 6"), ("1/12345", "1 / 12345"),
        ("1/2.5", "1 / 2.5"), ("1/2/3", "1/2 / 3"), ("3.5.6", "3.5 . 6"), ("3 .5", "3 . 5"),
        ("3. 5", "3 5"), ("3..5", "3 .. 5"), ("b12", "b12"), ("b123", "b 123"), ("abc1", "abc 1"),
        ("bb12", "bb12"), ("b1.5", "b 1.5"), ("it’s", "it's"), ("5’’", '5 "'), ("5′6″", "5 ' 6 \""),
    ):  # fmt: skip
        assert " ".join(word.text for word in split_words(text)) == words, text


def test_each_way_without_courtesies_comes_once_and_none_is_nothing() -> None:
    for line, less in (
        ("tally", []), ("right", []), ("hey mate", ["hey"]), ("hey tally", ["tally"]),
        ("tally mate", ["tally"]), ("hey tally mate", ["tally mate", "hey tally", "tally"]),
        ("make a note", ["note"]), ("and a half", []), ("and tally", ["tally"]),
    ):  # fmt: skip
        found = [
            " ".join(word.text for word in less) for less in without_courtesies(split_words(line))
        ]
        assert found == less, line


def test_a_column_of_two_letters_in_capitals_is_cut_where_its_letters_stand() -> None:
    text = "column AM, row 3"
    for word in split_words(text):
        assert text[word.start : word.end].lower() == word.text
    assert [word.text for word in split_words(text)] == ["column", "a", "m", "row", "3"]
    assert "".join(word.said for word in split_words(text)).replace(" ", "") == "columnAM,row3"


def test_fillers_are_kept_after_a_note_that_a_line_begins_with() -> None:
    for line, words in (
        ("note the wall", "note the wall"), ("hey mate note the wall", "hey mate note the wall"),
        ("what if note the wall", "what if note the wall"),
        ("make a note the x", "make a note the x"),
        ("tally note the wall", "tally note wall"), ("tally the wall", "tally wall"),
        ("client the mill", "client the mill"), ("skip because the wall", "skip because the wall"),
    ):  # fmt: skip
        assert " ".join(word.text for word in split_words(line)) == words, line


def test_an_answer_of_one_filler_and_thanks() -> None:
    for line, answer in (
        ("ok", "ok"), ("Okay, thanks please.", "okay"), ("ok so", ""), ("ok tally", ""),
        ("so ok", ""),
        ("um ok", "ok"), ("thanks", ""), ("thanks ok", ""), ("ok ok", ""), ("", ""),
    ):  # fmt: skip
        assert " ".join(word.text for word in filler_alone(line)) == answer, line


def test_a_comma_between_figures_is_kept_and_others_are_a_pause() -> None:
    assert "," in [word.text for word in split_words("2,5")]
    one, two = split_words("one, two")
    assert (one.after_pause, two.after_pause) == (False, True)


@given(st.text(max_size=60))
def test_each_word_has_its_place_in_the_text(text: str) -> None:
    at = 0
    for word in split_words(text):
        assert at <= word.start < word.end <= len(text)
        at = word.end


@given(st.lists(st.sampled_from(("bravo", "three", "minus", "18", "1/2", "mm", "b3")), max_size=6))
def test_words_put_together_are_cut_the_same_again(texts: list[str]) -> None:
    again = [word.text for word in split_words(join_words(texts))]
    assert [word.text for word in split_words(join_words(again))] == again


def test_fillers_are_kept_in_a_reason() -> None:
    said = [word.text for word in split_words("confirm because the client was okay")]
    assert {"the", "okay"} <= set(said)
    assert {"the", "okay"} <= FILLERS


@pytest.mark.parametrize(
    ("polite", "plain"),
    [
        ("could you please tell me the tally, mate?", "tally"),
        ("ok", "confirm"),
        ("Ok, thanks.", "confirm"),
        ("so, right, undo", "undo"),
        ("hey can you give me the cut list please", "cut list"),
        ("I'd like to know how deep at B3", "how deep at B3"),
        ("now then, B3 minus 18 please mate", "B3 -18"),
        ("would you undo that for me", "undo"),
        ("and minus 9", "minus 9"),
    ],
)
def test_courtesies_cost_nothing(polite: str, plain: str) -> None:
    assert understand(polite) == understand(plain)


@pytest.mark.parametrize(
    ("line", "kept"),
    [
        # Words of a phrase, or of somebody's own, that are polite elsewhere.
        ("right", "right"),
        ("door 1 left minus 4 right minus 9", "door 1 left -4 right -9"),
        ("accept weight because the boss said so, mate", None),
        ("skip because the client is here now", None),
    ],
)
def test_courtesies_never_eat_a_word_that_counts(line: str, kept: str | None) -> None:
    (command,) = understand(line)
    if kept is not None:
        assert (command,) == understand(kept)
    else:
        said = line.split("because ")[1]
        assert said in (getattr(command, "words", None), getattr(command, "reason", None))


@pytest.mark.parametrize("line", ["and a half", "door 1 left minus 4 right", "right mate", "now"])
def test_a_courtesy_is_no_command_and_makes_none(line: str) -> None:
    try:
        commands = understand(line)
    except Misunderstood:
        return
    assert commands in ((), (Confirm(),)), commands


@pytest.mark.parametrize("line", ["um", "thanks", "please", "so", "ok so", "well ok"])
def test_fillers_alone_are_no_command(line: str) -> None:
    assert understand(line) == ()


@pytest.mark.parametrize(
    ("line", "kept"),
    [
        ("skip because The client, Mr Oak, says so", "The client, Mr Oak, says so"),
        ("Skip because: 2,5 mm is (just) OK; please", "2,5 mm is (just) OK; please"),
        ("skip  because  it's   wet - still", "it's wet - still"),
        ("ok mate, skip because the so-called “dry” patch is 18% wet",
         "the so-called “dry” patch is 18% wet"),
        ("skip because " + "so " * 60 + "long", "so " * 60 + "long"),
    ],
)  # fmt: skip
def test_words_of_ones_own_are_kept_as_they_were_said(line: str, kept: str) -> None:
    (command,) = understand(line)
    assert isinstance(command, SkipStep)
    assert command.reason == kept
    assert understand(short_form(command)) == (command,)


def test_a_name_is_kept_in_plain_words() -> None:
    assert understand("product  Harbour FINE 40") == understand("product harbour fine 40")
