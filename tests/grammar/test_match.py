"""Each meaning of a line is found once; a line without one gets the place or reason it fails."""

from __future__ import annotations

from dataclasses import replace

import pytest

from grammar import match
from grammar.errors import Impossible
from grammar.language import ANY
from grammar.match import NoParse, parse
from grammar.words import split_words


@pytest.mark.parametrize(
    ("line", "at"), [("B3 minus", 2), ("B3 zzz 18", 1), ("zzz", 0), ("warnings now", 1)]
)
def test_where_the_words_leave_the_language(line: str, at: int) -> None:
    with pytest.raises(NoParse) as stop:
        parse(split_words(line))
    assert stop.value.at == at
    assert bool(stop.value.state) is (line != "warnings now"), "a whole line takes nothing more"


@pytest.mark.parametrize(
    ("line", "rule", "start"),
    [
        ("B3 1 3/7 in", "halves", 3),
        ("door 100 left level right level", "1 to 99", 5),
        ("B3 minus one, two", "comma", 9),
    ],
)
def test_what_fits_and_makes_no_sense_tells_its_rule_and_place(
    line: str, rule: str, start: int
) -> None:
    with pytest.raises(Impossible, match=rule) as trouble:
        parse(split_words(line))
    assert trouble.value.start == start


def test_each_meaning_is_given_once() -> None:
    found = parse(split_words("bravo twenty five minus two inches"))
    assert len(found) == len(set(map(repr, found)))
    (one,) = parse(split_words("B3 -18 mm"))
    assert parse(split_words("b3 minus eighteen millimetres")) == (one,)


@pytest.mark.parametrize("line", ["spec din under 2", "spec of ft 3 level under 2"])
def test_a_word_that_opens_a_name_is_refused_as_it_stands_in_the_whole_line(line: str) -> None:
    """ "Under" further on says that no name follows; cut off before it, the line would be one."""
    with pytest.raises(NoParse) as stop:
        parse(split_words(line))
    assert list(stop.value.state)


def test_a_name_goes_on_to_the_end_of_the_line_unless_a_limit_stands_there() -> None:
    for line, kinds in (
        ("product harbour 3 fine", [False, True, True, True]),
        ("spec fine 3 mm", [False, True, True, True]),
        ("spec 3 mm under 2 metres", [False] * 6),
        ("spec under", [False, False]),
        ("tally product x", [False, False, True]),
        ("what if product x", [False, False, False, True]),
        ("note at b3 crack", [False, True, True, True]),
    ):
        tokens = match._tokens(split_words(line))
        assert [token.type == ANY for token in tokens] == kinds, line
    said = "skip because  The Boss, says so"
    assert [str(token) for token in match._tokens(split_words(said))] == [
        "skip", "because", "  The", " Boss", ", says", " so",
    ]  # fmt: skip
    # words made anew, with nothing that was said, are parted by a blank
    bare = [replace(word, said="") for word in split_words("product fine")]
    assert [str(token) for token in match._tokens(bare)] == ["product", " fine"]


def test_no_more_meanings_are_made_than_are_looked_at() -> None:
    assert match._distinct(iter([1, 1, 2, 1])) == [1, 2]
    most = match._distinct(iter(range(9999)))
    assert most == list(range(64))


def test_a_command_has_what_its_row_fixes_and_what_was_said() -> None:
    for line, fields in (
        ("mean depth", {"figure": "mean-depth"}),
        ("minus 3", {"point": None}),
        ("A1 -8 B1 -9", {"points": ("A1", "B1")}),
        ("B3 minus 3", {"point": "B3"}),
        ("no most depth", {"end": "most"}),
    ):
        (command,) = match.meanings_of(split_words(line))
        for name, value in fields.items():
            assert getattr(command, name) == value, line
    assert match.meanings_of([]) == ()
    assert match.meanings_of(split_words("zzz")) == ()
    assert match.meanings_of(split_words("B3 minus one, two")) == ()
