"""A line as it would be written with care, and what is asked or supposed in other words."""

from __future__ import annotations

import pytest

from grammar import Misunderstood, short_form, understand
from grammar.asked_aside import names_a_place, without_what_is_beside
from grammar.effect_asked import changes_supposed
from grammar.gist import gist
from grammar.plain_words import in_plain_words
from grammar.words import split_words

TAKEN = (
    ("oh for fuck's sake it's minus 26 on D8", "D8 -26"),
    ("c2 minu 12", "C2 -12"),
    ("b6 mins 10 thx mate", "B6 -10"),
    ("neg 19 bravo five", "B5 -19"),
    ("point c two we have minus twelve comma five", "C2 -12.5"),
    ("B3, no sorry D3, minus 18", "D3 -18"),
    ("minus 18, no wait minus 19, at c2", "C2 -19"),
    ("can you write down minus 15 for charlie two pls", "C2 -15"),
    ("staff on D5 reads minus 9", "D5 -9"),
    ("f8 dead level with the zero", "F8 level"),
    ("zero at B6", "B6 level"),
    ("next is bang on zero", "level"),
    ("sorry A4 was minus 9 not minus 19", "correct A4 -9"),
    ("checked zero, all good", "check zero level"),
    ("wats the average depth", "mean depth"),
    ("leave e4, kitchen units sat on it", "skip E4 because kitchen units sat on it"),
)
NOT_TAKEN = (
    # What is written down, or came up, has no side; an "in" before a point may be inches.
    "write down 15 for c2",
    "D5 came up 9",
    "minus 3 in A5",
    "put me down as minus 3 in A5",
    # Two heights that nobody put right, and a nod that opens no reading.
    "C2 minus 12 or 13",
    "D4 minus 12 D5",
    "cheers, thirty eight",
    "leave b1 alone",
    "is B2 minus 1",
)
SUPPOSED = (
    ("how many bags if we go up 5", "what if raise finish 5"),
    ("how many bags at 10% waste", "what if waste 10 percent"),
    ("supposing c1 was minus 20, how many bags", "what if C1 -20"),
    ("how much would lifting it a mil cost me in bags", "what if raise finish 1 mil"),
    ("bags without waste", "what if no waste"),
    ("if finish is plus five what then", "what if finish +5"),
)


def _meant(line: str) -> str | None:
    found = gist(line)
    return short_form(found.command) if found and found.command else None


def test_what_is_said_with_oaths_slips_and_nods_is_taken_as_it_would_be_without() -> None:
    assert [(line, short_form(understand(line)[0])) for line, _ in TAKEN] == [*TAKEN]


@pytest.mark.parametrize("line", NOT_TAKEN)
def test_what_may_mean_another_thing_is_not_taken(line: str) -> None:
    with pytest.raises(Misunderstood):
        understand(line)


def test_a_name_and_words_of_ones_own_stay_as_they_are() -> None:
    for line in ("note wot a mess", "client da silva", "skip B2 because em is on it"):
        assert in_plain_words(split_words(line)) is None, line
    assert in_plain_words(split_words("tally")) is None


def test_an_amount_that_is_asked_for_with_a_change_supposes_the_change() -> None:
    found = [
        (line, (_meant(line) or "").replace(" mm", "").replace("1 mil", "1"))
        for line, _ in SUPPOSED
    ]
    wanted = [(line, form.replace("1 mil", "1")) for line, form in SUPPOSED]
    assert [(line, form.replace("waste 0 percent", "no waste")) for line, form in found] == wanted
    assert _meant("how many litres of water go in one bag") != "what if water in"
    assert [*changes_supposed("tally")] == []


def test_what_a_question_says_beside_what_it_asks_for_is_left_out() -> None:
    for line, less in (
        ("what have you got for row a", "show readings"),
        ("average depth in inches", "average depth"),
        ("any points over 15 deep", "deepest"),
        ("anything under 3 mil", "thinnest"),
        ("water for 2 bags", "water a bag"),
        ("readings in feet", None),
        ("bags for just the kitchen zone", None),
    ):
        assert next(without_what_is_beside(line), None) == less, line


def test_a_point_named_by_what_stands_there_is_asked_for() -> None:
    for line, asked in (
        ("what was one by window", True),
        ("skip one under stairs", True),
        ("he is by window", False),
        ("tally", False),
    ):
        assert names_a_place(line) is asked, line
