"""Each meaning of a line is found once; a line without one gets the place or reason it fails."""

from __future__ import annotations

import pytest

from grammar.errors import Impossible
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
