"""A line that is not taken: what the reply says, how much it shows, and where it cuts words."""

from __future__ import annotations

import pytest

from grammar import Misunderstood, understand
from grammar.words import WORD, split_words


def _miss(line: str) -> Misunderstood:
    with pytest.raises(Misunderstood) as caught:
        understand(line)
    return caught.value


@pytest.mark.parametrize(
    "line",
    [
        "point",  # any point would do
        "check zero",  # any height would do
        "room twelve by 8",  # any unit would do
        "wall north 5 decimetre",  # rightly spelt, so no slip of another
        "room 13 by 9 kilometres",
        "B3 2,5 mm",
        "2,5",
        "tally B3",  # the point was said for something
        "waste 7 mm",  # and so was the unit
    ],
)
def test_no_value_and_no_unit_is_put_in_or_left_out_unasked(line: str) -> None:
    assert _miss(line).nearest is None


# --- in words --------------------------------------------------------------------------------


def test_the_list_is_offered_only_where_nothing_was_understood() -> None:
    nothing, within = _miss("zzz"), _miss("wall north 5 decimetre")
    assert nothing.explain().endswith("for the list.")
    assert "I would take" not in nothing.explain()
    assert "for the list" not in within.explain()
    assert "I would take a unit: mm, cm, m, in or ft." in within.explain()


@pytest.mark.parametrize(("length", "shown"), [(60, "q" * 60), (61, "q" * 60 + "…")])
def test_sixty_signs_of_what_was_said_are_shown(length: int, shown: str) -> None:
    assert f"I don't know “{shown}” at the start" in _miss("q" * length).explain()
    assert f"but not “{shown}” after it" in _miss("tally " + "q" * length).explain()


@pytest.mark.parametrize(
    ("line", "taken"),
    [
        ("warnings zzz", "I would take nothing more."),
        ("new zzz", "I would take column, line, row or set."),
        ("undo zzz", "I would take a number or last."),
    ],
)
def test_what_would_have_been_taken_is_listed(line: str, taken: str) -> None:
    assert taken in _miss(line).explain()


def test_of_many_things_six_are_listed() -> None:
    miss = _miss("what if zzz")
    assert len(miss.accepted) > 6
    listed = miss.explain().partition("I would take ")[2].partition(".")[0]
    assert listed == f"{', '.join(miss.accepted[:5])} or {miss.accepted[5]}"


# --- words -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("twenty-five", ["twenty", "five"]),
        ("x-ray", ["x", "ray"]),
        ("x-rays", ["x", "rays"]),
        ("x-eight", ["x", "-", "eight"]),  # a letter and a minus
        ("b-eight", ["b", "-", "eight"]),
        ("b-ray", ["b", "-", "ray"]),
        ("b-18", ["b", "-", "18"]),
        ("um-eight", ["eight"]),
        ("1-1/2", ["1", "1/2"]),
        ("1 -1/2", ["1", "-", "1/2"]),
        ("1-18", ["1", "-", "18"]),
        ("b3-18", ["b3", "-", "18"]),
        ("b3 -18", ["b3", "-", "18"]),
    ],
)
def test_a_dash_ties_two_words_or_is_a_minus(text: str, words: list[str]) -> None:
    assert [word.text for word in split_words(text)] == words


@pytest.mark.parametrize(("said", "cut_to"), [(40, 40), (41, 41), (42, 41), (90, 41)])
def test_no_more_words_are_cut_than_make_a_line_too_long(said: int, cut_to: int) -> None:
    words = split_words(" ".join(["tally"] * said))
    assert len(words) == cut_to
    assert {word.kind for word in words[:40]} == {WORD}
    # The last one stands for the rest, and is then no word that a line could end with.
    assert (words[-1].kind == WORD) is (said == cut_to)


@pytest.mark.parametrize("before", ["B3", "wall", "door 1", "room 12", "what if"])
@pytest.mark.parametrize("after", ["", " 18", " 18 mm low", " tally tally"])
def test_what_would_have_been_taken_does_not_hang_on_what_came_later(
    before: str, after: str
) -> None:
    assert _miss(f"{before} zzz{after}").accepted == _miss(f"{before} zzz").accepted


def test_a_line_that_nothing_would_finish_does_not_say_so_twice() -> None:
    told = _miss("make it inches").explain()
    assert "nothing more" not in told
    assert told.endswith("Say 'help' for the list.")
