"""Readings: taken, replaced, put right, asked about."""

from __future__ import annotations

from decimal import Decimal

import pytest

from assistant.decide.questions import WhichSide
from grammar.commands import Measure
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres")


def test_a_reading_is_read_back_name_first_digit_by_digit(site: type[Site]) -> None:
    reply = site(*FLOOR).told("B3 -18")
    assert reply.headline == "B3 18 mm below. Depth 18 mm."
    assert reply.say == "Bravo three, one eight millimetres below."
    assert reply.data["reading"]["depth_mm"] == 18.0


def test_a_reading_in_inches_stays_as_it_was_said(site: type[Site]) -> None:
    floor = site(*FLOOR, "readings in inches", "B3 -1 5/8")
    assert floor.job.readings["B3"].said == Measure(Decimal("1.625").copy_negate(), "in")
    # 1 5/8 in is 41.275 mm (exact by definition of the inch)
    assert floor.data["reading"]["depth_mm"] == 41.275
    assert floor.reply.headline == "B3 1 5/8 in below. Depth 1 5/8 in."
    assert floor.reply.say == "Bravo three, one and five eighths inches below."


def test_with_the_finish_off_the_zero_the_depth_is_said_as_well(site: type[Site]) -> None:
    reply = site(*FLOOR, "finish 4 millimetres above zero").told("B3 -18")
    assert reply.headline == "B3 18 mm below. Depth 22 mm."
    assert reply.say.endswith("Depth two two millimetres.")


def test_a_bare_reading_goes_to_the_next_point_to_and_fro(site: type[Site]) -> None:
    floor = site("room 6 by 4 metres", "grid 2 metres")  # A1 B1 C1, then C2 B2 A2
    headlines = [floor.told(f"minus {n}").headline.split()[0] for n in range(11, 17)]
    assert headlines == ["A1", "B1", "C1", "C2", "B2", "A2"]
    assert "That was the last one: 6 points, all read." in floor.reply.details
    assert floor.reply.say.endswith("All points read.")
    assert "Every point has a reading" in floor.refused("minus 17")


def test_the_walk_goes_on_from_the_last_point_read_and_comes_round(site: type[Site]) -> None:
    floor = site("room 6 by 4 metres", "grid 2 metres", "C2 -18", "minus 17")
    assert floor.reply.headline.startswith("B2")
    assert floor.told("minus 16").headline.startswith("A2")
    assert floor.told("minus 15").headline.startswith("A1")


def test_a_correction_does_not_move_the_walk(site: type[Site]) -> None:
    floor = site(
        "room 6 by 4 metres", "grid 2 metres", "A1 -18", "B1 -17", "correct A1 to minus 16"
    )
    assert floor.told("next point").data == {"next": "C1"}


def test_a_struck_last_point_is_the_next_to_read(site: type[Site]) -> None:
    floor = site("room 6 by 4 metres", "grid 2 metres", "A1 -18", "B1 -17", "strike B1")
    assert floor.told("minus 15").headline.startswith("B1")


def test_a_bare_reading_without_points_is_refused(site: type[Site]) -> None:
    assert "no next point" in site().refused("minus 18")


# --- below or above? -----------------------------------------------------------------------


def test_a_reading_without_a_side_is_asked_about_never_guessed(site: type[Site]) -> None:
    floor = site(*FLOOR)
    question = floor.asked("B3 18")
    assert isinstance(question, WhichSide)
    assert question.text == "B3, 18 mm: below or above?"
    assert question.spoken == "Bravo three, one eight millimetres. Below or above?"
    assert floor.sided("B3 18", "below").headline.startswith("B3 18 mm below")
    assert floor.sided("C3 3", "above").headline == "C3 3 mm above. Stands 3 mm above the finish."


def test_level_and_nothing_need_no_side(site: type[Site]) -> None:
    assert site(*FLOOR).told("B3 level").headline == "B3 level. Depth 0 mm."
    assert site(*FLOOR).at_once("B3 0").headline.startswith("B3 level")


def test_a_correction_and_a_finish_without_a_side_are_asked_about_too(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18")
    assert isinstance(floor.asked("correct B3 to 16"), WhichSide)
    assert floor.asked("finish 4 millimetres").text == "Finish, 4 mm: below or above?"
    assert isinstance(floor.asked("what if B3 25"), WhichSide)


# --- second readings -------------------------------------------------------------------------


def test_a_second_reading_replaces_the_first_and_says_so(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18")
    reply = floor.told("B3 -16")
    assert reply.details[0] == "Replaces 18 mm below; both stay in the record."
    assert "Replaced." in reply.say
    assert floor.tally.points == 1
    assert [len(utterance.events) for utterance in floor.job.history[-2:]] == [1, 1]


def test_a_correction_needs_something_to_correct(site: type[Site]) -> None:
    assert "none has been taken yet" in site(*FLOOR).refused("correct B3 to minus 16")
    floor = site(*FLOOR, "A1 -18")
    assert floor.refused("correct B3 to minus 16") == "B3 has no reading. Read so far: A1."
    assert floor.refused("strike B3") == "B3 has no reading. Read so far: A1."


def test_a_struck_reading_says_what_it_was(site: type[Site]) -> None:
    reply = site(*FLOOR, "B3 -18").told("strike B3")
    assert reply.headline == "B3 struck; it was 18 mm below."


# --- places ------------------------------------------------------------------------------------


def test_a_point_off_the_grid_is_refused_with_how_to_add_it(site: type[Site]) -> None:
    why = site(*FLOOR).refused("K1 -18")
    assert "The grid runs A1 to F4" in why
    assert "point K1 at" in why


def test_without_a_grid_any_point_is_taken_but_has_no_place(site: type[Site]) -> None:
    floor = site("B3 -18")
    assert "no place yet" in floor.reply.details[0]
    assert (floor.tally.points, floor.tally.volume_m3) == (1, None)


def test_the_shallowest_and_the_deepest_so_far_are_told(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "B1 -16")
    assert "Deepest so far. Next: D1." in floor.told("C1 -20").details
    assert "Shallowest so far." in floor.told("D1 -10").details[-1]
    assert not [line for line in floor.told("E1 -12").details if "so far" in line]


# --- limits ------------------------------------------------------------------------------------


def test_a_reading_past_a_limit_says_so_in_a_breath(site: type[Site]) -> None:
    floor = site(*FLOOR, "product example standard", "A1 -45")
    assert "over-maximum:A1" in floor.ids
    assert "Over the product's maximum." in floor.reply.say


def test_a_reading_past_the_instruments_range_is_kept_and_warned_of(site: type[Site]) -> None:
    # 300 mm until said otherwise (common practice, no source)
    floor = site(*FLOOR, "A1 -301")
    assert "out-of-range:A1" in floor.ids
    assert "A1" in floor.job.readings
    assert "out-of-range:B1" not in site(*FLOOR, "B1 -300").ids
    assert "out-of-range:C1" in site(*FLOOR, "instrument range 50 mm", "C1 -51").ids


def test_only_what_is_new_or_its_own_stands_beside_a_reading(site: type[Site]) -> None:
    floor = site(*FLOOR, "product example standard", "A1 -45")
    floor.told("B1 -46")
    assert "over-maximum:B1" in floor.ids
    assert "over-maximum:A1" not in floor.ids
    floor.told("A1 -45.5")
    assert "over-maximum:A1" in floor.ids


def test_the_grinding_words_come_with_the_first_high_spot_only(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18")
    first = {caution.id for caution in floor.told("B1 plus 3").cautions}
    assert first == {"silica-dust", "old-adhesive"}
    assert floor.told("C1 plus 4").cautions == ()


@pytest.mark.parametrize("unit", ["inches", "millimetres"])
def test_a_change_of_unit_leaves_readings_as_they_were(site: type[Site], unit: str) -> None:
    floor = site(*FLOOR, "B3 -18 mm", "C3 -1/2 in")
    before = floor.job.readings
    floor.told(f"readings in {unit}")
    assert floor.job.readings == before
