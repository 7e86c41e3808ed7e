"""Numbers that sound alike: which they are, and what is needed to take one for the other."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.ears.confusable import (
    Confusable,
    confusables_of,
    doubled_of,
    has_confusable,
    lead_over_confusables,
    too_near,
)
from assistant.ears.judging import Measures, tier_of
from assistant.ears.rivals import confusable_wholes, sounding_alike
from assistant.ears.thresholds import load_limits
from grammar import understand
from grammar.commands import Command
from grammar.figures import in_figures, numbers_in
from grammar.numbers import in_words
from grammar.spoken import Spoken, plain_words


@pytest.mark.parametrize(
    ("number", "others"),
    [
        (13, {30, 14}), (14, {40, 13}), (15, {50}), (16, {60}), (17, {70}), (18, {80}), (19, {90}),
        (30, {13, 40}), (40, {14, 30}), (50, {15, 90}), (90, {19, 9, 50}), (36, {46}), (46, {36}),
        (6, {60}), (7, {70}), (8, {80}), (9, {90, 5}), (5, {9}), (60, {16, 6}), (70, {17, 7}),
        (80, {18, 8}), (25, {29}), (29, {25}), (55, {59}), (108, {180}), (180, {118, 108}),
        (115, {150}), (2180, {2118, 2108}), (30_000, {13_000, 40_000}),
        (12, set()), (20, set()), (21, set()), (66, set()), (100, set()), (9_500, set()),
    ],
)  # fmt: skip
def test_which_numbers_sound_alike(number: int, others: set[int]) -> None:
    # Past the thousands people read out figures, and so do we.
    said = in_words(number) if number < 10_000 else str(number)
    found = [in_figures(one.words) for one in confusables_of(f"wall north {said} millimetres")]
    assert set(found) == {f"wall north {other} millimetres" for other in others}
    assert len(found) == len(others)
    assert has_confusable(f"wall north {said} millimetres", "words") == bool(others)


@given(st.integers(0, 9_999))
def test_what_sounds_like_its_confusable_is_the_number(number: int) -> None:
    for one in confusables_of(f"wall north {in_words(number)} feet"):
        back = [in_figures(again.words) for again in confusables_of(one.words)]
        assert f"wall north {number} feet" in back


@pytest.mark.parametrize(
    ("words", "close"),
    [
        ("door fifteen at golf two", True),
        ("door fifty outside level", True),
        ("minus ninety inches", True),
        ("minus fifteen millimetres", False),
        ("minus fifteen and three eighths inches", False),
        ("minus fifteen point two inches", False),
        ("strike golf fifteen", False),
        ("wall north a hundred and fifteen inches", True),
    ],
)
def test_the_closest_stand_before_a_vowel(words: str, close: bool) -> None:
    assert any(one.close for one in confusables_of(words)) == close


def test_thirty_and_forty_are_not_told_apart_by_an_n() -> None:
    close = {in_figures(one.words): one.close for one in confusables_of("minus thirty inches")}
    assert close == {"minus 13 inches": True, "minus 40 inches": False}


@pytest.mark.parametrize(
    ("said", "other"),
    [
        ("kilo one three minus five eight", "kilo one three minus 5 eighths"),
        ("Kilo 13 minus 58.", "kilo 13 minus 5 eighths"),
        ("minus one two", "minus 1 half"),
        ("plus three four", "plus 3 quarters"),
    ],
)
def test_without_a_unit_two_digits_are_like_a_fraction(said: str, other: str) -> None:
    assert other in [one.words for one in confusables_of(said, "digits")]
    assert has_confusable(said, "digits")
    assert other not in [one.words for one in confusables_of(f"{said} millimetres", "digits")]
    assert other not in [one.words for one in confusables_of(said, "words")]


def test_decimals_stay_and_are_no_confusables_themselves() -> None:
    said = "check zero minus fifteen point one four centimetres"
    assert [one.words for one in confusables_of(said)] == ["check zero minus 50.14 centimetres"]
    assert confusables_of("check zero minus zero point one five centimetres") == ()


def test_each_number_has_its_own() -> None:
    found = [
        in_figures(one.words) for one in confusables_of("golf fifteen minus sixty millimetres")
    ]
    assert found == [
        "golf 50 minus 60 millimetres",
        "golf 15 minus 16 millimetres",
        "golf 15 minus 6 millimetres",
    ]


def test_a_label_has_its_confusable() -> None:
    found = [in_figures(one.words) for one in confusables_of("golf sixteen minus two millimetres")]
    assert found == ["golf 60 minus 2 millimetres"]


@pytest.mark.parametrize(
    ("words", "others"),
    [
        ("golf one two minus five millimetres", ["golf 12 minus 9 millimetres"]),
        ("golf nine minus eight zero millimetres", ["golf 5 minus 80 millimetres"]),
        ("minus five sixteenths inches", ["minus 9/16 inches"]),
        ("minus 9/16 inches", ["minus 5/16 inches"]),
        # Of nine, only sixteenths are said.
        ("minus five eighths inches", []),
        ("minus one three millimetres", []),
    ],
)
def test_digit_by_digit_five_is_like_nine(words: str, others: list[str]) -> None:
    assert [in_figures(one.words) for one in confusables_of(words, "digits")] == others
    assert not others or has_confusable(words, "digits")


def test_what_sounds_alike_does_so_either_way() -> None:
    """Whichever of two is heard first, the other is weighed."""
    alike = {number: set(confusable_wholes(number)) for number in range(2_000)}
    one_way = [
        (number, other)
        for number, others in alike.items()
        for other in others & alike.keys()
        if number not in alike[other]
    ]
    assert one_way == []
    assert {115, 50, 250} <= alike[150]


@pytest.mark.parametrize(
    "line",
    [
        "B3 -5 mm", "B3 -18 mm", "B12 +115 mm", "B3 -150 mm", "B3 -185 mm", "B3 -18.5 mm",
        "B3 -2 in", "B3 -3/8 in", "B3 -2 3/8 in", "-18 mm", "check zero -18 mm", "finish -18 mm",
    ],
)  # fmt: skip
def test_so_does_a_whole_command(line: str) -> None:
    spoken = Spoken(open_unit=True)
    (command,) = understand(line)
    one_way = [
        rival
        for rival in sounding_alike(command, spoken)
        if _has_a_value(rival)
        and type(rival) is type(command)
        and _names_a_point(rival) == _names_a_point(command)
        and command not in sounding_alike(rival, spoken)
    ]
    assert one_way == []


def _names_a_point(command: Command) -> bool:
    return getattr(command, "point", None) is not None


def _has_a_value(command: Command) -> bool:
    """Of a level reading nothing tells which number it may have been."""
    value = getattr(command, "reading", getattr(command, "height", None))
    return value is not None and value.number != 0


def test_what_is_said_without_a_point_is_weighed_three_ways() -> None:
    said = [understand(line)[0] for line in ("-18 mm", "check zero -18 mm", "finish -18 mm")]
    for command in said:
        assert [one for one in said if one not in sounding_alike(command, Spoken())] == [command]


def test_six_to_nine_are_rivals_of_sixty_to_ninety() -> None:
    for ones in (6, 7, 8, 9):
        for size, other in ((ones, 10 * ones), (10 * ones, ones)):
            reading = understand(f"bravo three minus {in_words(size)} millimetres")[0]
            wanted = understand(f"bravo three minus {in_words(other)} millimetres")[0]
            assert wanted in sounding_alike(reading, Spoken())


@pytest.mark.parametrize(
    ("words", "others"),
    [
        ("golf eight minus two millimetres",
         ["golf 88 minus 2 millimetres", "golf 8 minus 22 millimetres"]),
        ("golf eight eight minus two zero",
         ["golf 8 minus 20", "golf 888 minus 20", "golf 88 minus 220", "golf 88 minus 200"]),
        ("plus one five point five",
         ["plus 115.5", "plus 155.5", "plus 15.55"]),
        # Three eighths are no figures said one by one.
        ("minus three eighths inches", []),
        ("tally", []),
    ],
)  # fmt: skip
def test_a_figure_said_twice_is_like_one_said_once(words: str, others: list[str]) -> None:
    confusables = doubled_of(words, "digits")
    assert [in_figures(one.words) for one in confusables] == others
    assert all(one.doubled for one in confusables)
    assert doubled_of(words, "words") == ()
    for one in confusables:
        back = [in_figures(again.words) for again in doubled_of(one.words, "digits")]
        assert in_figures(words) in back


def test_a_figure_that_may_have_been_said_twice_is_asked_about() -> None:
    words = "alfa eight minus two zero"
    limits = load_limits().quiet
    twice = Confusable("alfa 88 minus two zero", False, doubled=True)
    for nats, tier in ((-38.9, "ask"), (limits.doubled_apart, "sure")):
        evidence = {"written": 0.0, "confusable": 0.0, **lead_over_confusables({twice: nats})}
        assert evidence["doubled_apart"] == nats
        command = Spoken("digits", open_unit=True).meanings(words)[0]
        assert tier_of(command, words, Measures(0.95, 20.0, 20.0), evidence, limits) == tier
        assert too_near({twice: nats}, limits) == (twice.words if tier == "ask" else "")


@pytest.mark.parametrize("words", ["", "tally", "golf one five minus five zero millimetres"])
def test_where_there_is_none(words: str) -> None:
    assert confusables_of(words) == ()
    assert not has_confusable(words, "words")


def test_numbers_are_found_where_they_stand() -> None:
    words = plain_words("Golf 15, minus a hundred and five point two millimetres by one five")
    found = numbers_in(words)
    assert [value for _, _, value in found] == ["15", "105.2", "15"]
    assert [words[start:end] for start, end, _ in found] == [
        ["15"], ["a", "hundred", "and", "five", "point", "two"], ["one", "five"],
    ]  # fmt: skip


def test_the_nearest_of_each_kind_is_evidence_and_the_one_too_near_is_asked_about() -> None:
    limits = replace(load_limits().quiet, confusable_apart=2.0, close_apart=20.0)
    fifty, forty, thirty = (
        Confusable(words, words == "fifty") for words in ("fifty", "forty", "thirty")
    )
    far = {fifty: 21.0, forty: 9.0, thirty: 3.0}
    assert lead_over_confusables(far) == {"apart": 3.0, "close_apart": 21.0}
    assert too_near(far, limits) == ""
    assert too_near({**far, fifty: 19.0}, limits) == "fifty"
    # The one that most is missing of.
    assert too_near({**far, fifty: 19.0, thirty: 0.5}, limits) == "thirty"
    assert (lead_over_confusables({}), too_near({}, limits)) == ({}, "")


def test_the_second_model_must_put_a_number_before_its_confusables() -> None:
    words = "bravo three minus fifteen inches"
    for limits, more, close in product(
        (load_limits().quiet, load_limits().loud), (-1.0, 0.0, 1.0), (-1.0, 0.0, 1.0)
    ):
        evidence = {
            "written": 0.0, "confusable": 1.0,
            "apart": limits.confusable_apart + more, "close_apart": limits.close_apart + close,
        }  # fmt: skip
        tier = tier_of(understand(words)[0], words, Measures(1.0, 20.0, 20.0), evidence, limits)
        assert tier == ("sure" if min(more, close) >= 0 else "ask")
        assert limits.close_apart > limits.confusable_apart
