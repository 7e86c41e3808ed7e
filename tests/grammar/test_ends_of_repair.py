"""How far off a line may be until nothing is near it, and what is put in, left out or taken for."""

from __future__ import annotations

import pytest

from grammar import Misunderstood, understand
from grammar.words import WORD, cut


def _miss(line: str) -> Misunderstood:
    with pytest.raises(Misunderstood) as caught:
        understand(line)
    return caught.value


@pytest.mark.parametrize(
    ("line", "nearest"),
    [
        # three slips are mended, and four are another line
        ("dor 2 left minus 5 right minus 8", "door 2 left -5 right -8"),
        ("dor 2 lft minus 5 right minus 8", "door 2 left -5 right -8"),
        ("dor 2 lft minus 5 rite minus 8", "door 2 left -5 right -8"),
        ("dor 2 lft minus 5 rite minus 8 milimetres", None),
        ("tally x y z", "tally"),
        ("tally x y z w", None),
        # two letters of five may be wrong, and three are another word
        ("taxxy", "tally"),
        ("txxxy", None),
        ("txlxy", "tally"),
        # a word of three letters may be a slip, one of two may not
        ("wal north 5 m", "wall north 5 m"),
        ("finish pls 3 mm", "finish +3 mm"),
        ("it is B7", None),
        ("go 18 mm low zzz", None),
    ],
)
def test_a_line_is_mended_up_to_so_many_slips(line: str, nearest: str | None) -> None:
    assert _miss(line).nearest == nearest
    if nearest is not None:
        assert understand(nearest)


@pytest.mark.parametrize(
    ("line", "nearest"),
    [
        # a slip is likelier than a word left out, that than a word too many
        ("how deep B3", "how deep at B3"),
        ("step between B C", "step between B and C"),
        ("step B and C", "step between B and C"),
        ("ready pour", "ready to pour"),
        ("readings inches", "readings in inches"),
        ("map mep", "map"),
        ("wall zzz north 4 m", "wall north 4 m"),
        ("B7 level 3", "B7 level"),
        # of a line with a gap, a word in place of another costs more than one put in
        ("what misisng", "what is missing"),
        ("cut B3 for", "cut for B3"),
        ("point K1 at 3 bi 4 metres", "point K1 at 3 by 4 m"),
        ("grnd B7 bi 2 milimetres", "grind B7 2 mm"),
        ("lower finish tree milimetres", "lower finish 3 mm"),
    ],
)
def test_the_likeliest_way_to_mend_a_line(line: str, nearest: str) -> None:
    assert _miss(line).nearest == nearest
    assert understand(nearest)


@pytest.mark.parametrize(
    "line",
    [
        "point",  # any point would do
        "product",  # any words would do
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


@pytest.mark.parametrize(
    ("line", "nearest"),
    [
        ("b 3 minus 18 milimetres", "B3 -18 mm"),
        ("waste seven prcent", "waste 7 percent"),
        ("room twelve by eight mtres", "room 12 by 8 m"),
        ("B3 half inch lo", "B3 1/2 in"),
        ("bravo three minus three quarters of an inhc", "B3 -3/4 in"),
        ("bravo three minus a quarter of an inhc", "B3 -1/4 in"),
    ],
)
def test_a_value_said_in_words_is_the_one_in_figures(line: str, nearest: str) -> None:
    assert _miss(line).nearest == nearest


# --- in words --------------------------------------------------------------------------------


def test_the_list_is_offered_only_where_nothing_was_understood_and_nothing_is_near() -> None:
    nothing, near, within = _miss("zzz"), _miss("tolly"), _miss("wall north 5 decimetre")
    assert nothing.explain().endswith("Say 'what can I say' for the list.")
    assert "I would take" not in nothing.explain()
    assert "for the list" not in near.explain()
    assert near.explain().endswith("Nearest: tally")
    assert "for the list" not in within.explain()
    assert "I would take a unit: mm, cm, m, in or ft." in within.explain()


@pytest.mark.parametrize(("length", "shown"), [(60, "q" * 60), (61, "q" * 60 + "…")])
def test_sixty_signs_of_what_was_said_are_shown(length: int, shown: str) -> None:
    assert f"I don't know “{shown}” at the start" in _miss("q" * length).explain()
    assert f"but not “{shown}” after it" in _miss("tally " + "q" * length).explain()


@pytest.mark.parametrize(
    ("line", "taken"),
    [
        ("tally zzz", "I would take nothing more."),
        ("how zzz", "I would take deep."),
        ("new zzz", "I would take set."),
        ("undo zzz", "I would take a number, last or that."),
        ("door 1 zzz", "I would take at, left or outside."),
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
    assert [word.text for word in cut(text)] == words


@pytest.mark.parametrize(("said", "cut_to"), [(40, 40), (41, 41), (42, 41), (90, 41)])
def test_no_more_words_are_cut_than_make_a_line_too_long(said: int, cut_to: int) -> None:
    words = cut(" ".join(["tally"] * said))
    assert len(words) == cut_to
    assert {word.kind for word in words} == {WORD}
