"""Several set-ups, ties, checks and drift: what becomes of the heights, and what is said."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from assistant.decide.questions import WhichSide
from assistant.events.readings import ReadingTaken
from assistant.floor.depths import depths_of
from assistant.floor.heights import survey_of
from assistant.floor.steps import steps_of
from assistant.job import next_number, record
from grammar.commands import Measure
from tests.job.a_floor import FLOOR, heights
from tests.job.conftest import Site

# --- one set-up: nothing changes ------------------------------------------------------


def test_with_one_set_up_a_height_is_the_reading_exactly(site: type[Site]) -> None:
    floor = site(*FLOOR, "readings in inches", "A1 -7/16", "B1 -3/8 in", "C1 -18 mm")
    assert heights(floor) == {"A1": Fraction(-889, 80), "B1": Fraction(-381, 40), "C1": -18}
    assert floor.told("cut for A1").data["cuts"][0]["cut"] == "7/16 in"


def test_good_checks_leave_the_heights_alone(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "check zero plus 1", "B1 -17", "check zero level")
    assert heights(floor) == {"A1": -18, "B1": -17}
    survey = floor.told("survey check").data["survey"]
    assert survey["verdict"] == "no objection, but unchecked"
    assert survey["unchecked"] == ["the readings against each other, with too few on the floor"]


def test_one_reading_and_no_look_at_the_zero_is_no_trust(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18")
    reply = floor.told("survey check")
    assert reply.headline.startswith("No objection, but unchecked: the zero since it was set")
    assert "Trust" not in reply.headline + reply.say
    assert len(reply.data["survey"]["unchecked"]) == 2


def test_many_readings_that_agree_and_a_zero_looked_at_are_trusted(site: type[Site]) -> None:
    points = [f"{column}{row} -18" for row in (1, 2) for column in "ABCD"]
    floor = site(*FLOOR, *points)
    assert floor.told("survey check").data["survey"]["unchecked"] == ["the zero since it was set"]
    floor.told("check zero level")
    survey = floor.told("survey check").data["survey"]
    assert (survey["verdict"], survey["unchecked"]) == ("trust it", [])


def test_a_benchmark_misread_in_the_first_set_up_is_asked_about(site: type[Site]) -> None:
    """+40 read as 56: a question, and where it is confirmed one look moves no zero."""
    floor = site(*FLOOR, "benchmark 1 at 40 mm above zero", "A1 -20")
    asked = floor.asked("check benchmark 1 plus 56")
    assert asked.text.startswith("Benchmark 1 56 mm above?")
    assert "16 mm off" in asked.text
    floor.wait(5)
    floor.told("check benchmark 1 plus 56")
    floor.wait(5)
    floor.told("B1 -18")
    assert heights(floor) == {"A1": -20, "B1": -18}
    assert "misread" in floor.told("survey check").headline + " ".join(floor.reply.details)


def test_four_millimetres_are_asked_about_and_three_are_not(site: type[Site]) -> None:
    floor = site(*FLOOR, "benchmark 1 at 40 mm above zero", "A1 -20")
    floor.asked("check benchmark 1 plus 44")
    floor.at_once("check benchmark 1 plus 43")


def test_a_set_up_whose_zero_nobody_looked_at_is_named(site: type[Site]) -> None:
    points = [f"{column}{row} -18" for row in (1, 2) for column in "ABCD"]
    floor = site(*FLOOR, *points, "check zero level", "new set up", "tie on A1 -20",
                 "tie on B1 -20", "A3 -20")  # fmt: skip
    survey = floor.told("survey check").data["survey"]
    assert survey["unchecked"] == ["the zero of set-up 2 since it was set"]


def test_a_known_offset_is_taken_off_every_reading(site: type[Site]) -> None:
    floor = site(*FLOOR, "instrument offset plus 2 mm", "A1 -18", "door 1 outside plus 3")
    assert depths_of(floor.job)["A1"] == 20
    assert (
        floor.told("A1 -18").say == "Alfa one, one eight millimetres below. "
        "Depth two zero millimetres. Replaced."
    )
    step = floor.told("doors").data["doors"][0]["step_mm"]
    assert step == 1


def test_an_offset_is_also_that_of_a_check(site: type[Site]) -> None:
    floor = site(*FLOOR, "instrument offset plus 2 mm", "A1 -18", "check zero plus 2")
    assert floor.data["check"] == {"off_mm": 0, "good": True, "doubtful": []}


# --- a display that jumps ---------------------------------------------------------------


def test_all_values_are_kept_and_the_median_counts(site: type[Site]) -> None:
    floor = site(*FLOOR)
    reply = floor.told("B3 minus 17, 18, 19")
    assert depths_of(floor.job)["B3"] == 18
    assert "all are kept" in " ".join(reply.details)
    assert not floor.data["restless"]
    assert [float(m.number) for m in floor.job.survey.shown["B3"]] == [-17, -18, -19]


def test_the_median_of_two_is_between_them(site: type[Site]) -> None:
    assert depths_of(site(*FLOOR, "B3 minus 17, 18").job)["B3"] == Fraction(35, 2)


def test_more_spread_than_the_instrument_has_says_wait(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 minus 17, 18, 25")
    assert floor.data["restless"]
    assert "read again" in floor.reply.say
    assert "restless:B3" in floor.ids
    assert floor.told("survey check").data["survey"]["suspects"][0]["point"] == "B3"
    assert "restless:B3" not in [w.id for w in floor.told("B3 -18").warnings]


def test_a_coarser_instrument_may_spread_more(site: type[Site]) -> None:
    floor = site(*FLOOR, "instrument repeatability 3 mm", "B3 minus 17, 18, 25")
    assert not floor.data["restless"]


def test_hold_says_the_last_value_once_more(site: type[Site]) -> None:
    floor = site(*FLOOR, "B3 -18")
    assert floor.told("hold").say == "Bravo three, one eight millimetres below."
    floor.told("check zero plus 1")
    assert floor.told("hold").data["hold"] == {"what": "Zero", "reading_mm": 1}
    floor.told("take that back")
    assert floor.told("hold").data["hold"]["what"] == "B3"


def test_nothing_to_hold(site: type[Site]) -> None:
    assert "Nothing has been read" in site(*FLOOR).refused("hold")


# --- a second set-up ---------------------------------------------------------------------


def test_readings_of_a_set_up_without_a_tie_have_no_height(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "new set up", "B1 -30")
    assert heights(floor) == {"A1": -18}
    assert "untied:2" in floor.ids
    assert floor.reply.headline == "B1 30 mm below. No depth yet: nothing ties set-up 2."
    assert floor.tally.depths is not None
    assert floor.tally.depths.most == 18
    assert (floor.tally.points, floor.tally.missing) == (1, 23)
    untied = "Not counted, since nothing ties their set-up: B1."
    assert untied in floor.told("tally").details
    assert "nothing ties set-up 2" in floor.refused("how deep at B1")
    assert "nothing ties set-up 2" in floor.refused("cut for B1")
    survey = floor.told("survey check").data["survey"]
    assert survey["verdict"] == "look at these"
    assert survey["suspects"][0]["what"] == "set-up 2"
    assert [entry["point"] for entry in survey["points"]] == ["A1"]
    assert any(lack["id"] == "tie:2" for lack in floor.told("what is missing").data["missing"])


def test_tied_on_a_point_of_the_first(site: type[Site]) -> None:
    """C1 reads 22 below from the first and 60 below from the second, which stands 38 higher."""
    floor = site(*FLOOR, "A1 -18", "C1 -22", "new set up", "B1 -30", "tie on C1 minus 60")
    assert floor.data["tie"] == {"set_up": 2, "zero_mm": 38, "sound": True, "look_at": []}
    assert heights(floor)["B1"] == 8
    assert heights(floor)["C1"] == -22
    assert "untied:2" not in [warning.id for warning in floor.told("warnings").warnings]


def test_tied_on_a_benchmark(site: type[Site]) -> None:
    floor = site(
        *FLOOR, "benchmark 1 at 40 millimetres above zero", "A1 -18", "new set up", "B1 -21",
        "tie on benchmark 1 plus 37",
    )  # fmt: skip
    assert heights(floor)["B1"] == -18
    assert heights(floor)["A1"] == -18


def test_a_benchmark_read_from_the_first_set_up_needs_no_height(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "tie on benchmark 2 plus 12", "new set up", "B1 -21",
                 "tie on benchmark 2 plus 2")  # fmt: skip
    assert heights(floor)["B1"] == -11


def test_sixteenths_stay_sixteenths_through_a_tie(site: type[Site]) -> None:
    floor = site(*FLOOR, "readings in inches", "A1 -7/16", "new set up", "tie on A1 -1/4",
                 "B1 -1/8")  # fmt: skip
    assert heights(floor)["B1"] == -Fraction(5, 16) * Fraction(127, 5)
    assert floor.told("cut for B1").data["cuts"][0]["cut"] == "5/16 in"


def test_two_ties_are_both_believed(site: type[Site]) -> None:
    """They differ by 2 mm: the zero is half-way, and so is what it gives."""
    floor = site(*FLOOR, "A1 -18", "C1 -22", "new set up", "B1 -30", "tie on C1 -60",
                 "tie on A1 -58")  # fmt: skip
    assert heights(floor)["B1"] == 9
    survey = floor.told("survey check").data["survey"]
    assert survey["sigma0"] == pytest.approx(0.96, abs=0.01)
    assert survey["unchecked"][0] == "the zero of set-up 1 and 2 since it was set"


def test_a_bad_tie_is_named(site: type[Site]) -> None:
    """Three ties agree, the fourth is 12 mm off: it is the one to take again."""
    floor = site(*FLOOR, "A1 -18", "B1 -17", "C1 -22", "D1 -16", "new set up",
                 "tie on A1 -58", "tie on B1 -57", "tie on C1 -62", "tie on D1 -44")  # fmt: skip
    survey = floor.told("survey check").data["survey"]
    assert survey["verdict"] == "look at these"
    assert {suspect["point"] for suspect in survey["suspects"]} == {"D1"}
    assert abs(survey["suspects"][0]["off_mm"]) == pytest.approx(12, abs=0.1)


def test_ten_set_ups_in_a_row(site: type[Site]) -> None:
    """Each stands 5 mm lower than the one before, tied on the point just read."""
    columns = "ABCDEFGHIJ"
    floor = site("room 20 by 4 metres", "grid 2 metres", "A1 -10")
    for number, letter in enumerate(columns[1:], 1):
        before = columns[number - 1]
        floor.told("new set up", f"tie on {before}1 {-10 + 5 * number:+d}", f"{letter}1 -10")
        # the tie reads the point before, 5 higher for each set-up down; then on from there
    found = heights(floor)
    # exact arithmetic: zero k = height(k - 1) - (5k - 10), height k = zero k - 10
    expected, height = {"A1": Fraction(-10)}, Fraction(-10)
    for number, letter in enumerate(columns[1:], 1):
        height = height - (5 * number - 10) - 10
        expected[f"{letter}1"] = height
    assert found == expected
    sds = survey_of(floor.job).sd_mm
    assert sds["J1"] > sds["B1"] > sds["A1"]


def test_undoing_the_new_set_up_brings_everything_back(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "new set up", "take that back", "B1 -30")
    assert heights(floor) == {"A1": -18, "B1": -30}


def test_a_correction_stays_with_the_set_up_it_was_read_from(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "C1 -22", "new set up", "tie on C1 -60", "correct A1 to -17")
    assert heights(floor)["A1"] == -17


def test_read_again_from_the_second_set_up(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "C1 -22", "new set up", "tie on C1 -60", "A1 -57")
    assert heights(floor)["A1"] == -19
    assert ", set-up 1;" in " ".join(floor.reply.details)


def test_what_if_a_tie(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "new set up", "B1 -30")
    before = floor.job
    floor.told("what if tie on A1 minus 48")
    assert floor.job is before
    assert floor.reply.data["after"]["depth_mm"]["max"] == 18


def test_a_floor_outside_a_door_goes_with_its_set_up(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "new set up", "door 1 outside minus 30")
    assert floor.told("doors").data["doors"][0]["step_mm"] is None
    floor.told("tie on A1 -58")
    assert floor.told("doors").data["doors"][0]["step_mm"] == 10


@pytest.mark.parametrize(
    ("lines", "line", "why"),
    [
        ((), "tie on A1 -18", "one set-up"),
        (("new set up",), "tie on A1 -18", "no reading"),
        (("new set up", "A1 -18"), "tie on A1 -18", "from this set-up"),
        (("new set up",), "tie on benchmark 1 -3", "no height yet"),
        ((), "check benchmark 1 -3", "no height yet"),
    ],
)
def test_ties_that_tie_to_nothing_are_refused(
    site: type[Site], lines: tuple[str, ...], line: str, why: str
) -> None:
    assert why in site(*FLOOR, *lines).refused(line)


def test_a_tie_without_a_side_is_asked_about(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "new set up")
    assert isinstance(floor.asked("tie on A1 58"), WhichSide)
    floor.sided("tie on A1 58", "below")
    assert floor.data["tie"]["zero_mm"] == 40


# --- settings ------------------------------------------------------------------------------


def test_instrument_settings(site: type[Site]) -> None:
    floor = site("instrument resolution 0.5 mm", "instrument repeatability 0.2 mm")
    assert floor.data["instrument"]["resolution_mm"] == 0.5
    assert floor.data["instrument"]["repeatability_mm"] == 0.2
    assert floor.refused("instrument resolution 0 mm")


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("step between B and D", "not next to each other"),
        ("step between B and 3", "two columns, two rows or two points"),
        ("step between B and B", "and itself"),
        ("step between X and Y", "no column X"),
        ("step between 8 and 9", "no row 8"),
        ("step between B3 and Z9", "no point Z9"),
    ],
)
def test_steps_that_are_not_there(site: type[Site], line: str, why: str) -> None:
    assert why in site(*FLOOR).refused(line)


@pytest.mark.parametrize(
    ("line", "axis", "at"),
    [
        ("step between B and C", 0, 4.0),
        ("step between 2 and 3", 1, 4.0),
        ("step between B3 and C3", 0, 4.0),
    ],
)
def test_where_a_step_lies(site: type[Site], line: str, axis: int, at: float) -> None:
    """Points stand at 1, 3, 5 metres along both sides; the step is half-way and runs across."""
    (step,) = steps_of(site(*FLOOR, line).job)
    assert step.line_m[:, axis].tolist() == [at, at]
    assert step.line_m[0, 1 - axis] != step.line_m[1, 1 - axis]


def test_columns_and_rows_need_a_grid(site: type[Site]) -> None:
    assert "Set a grid" in site().refused("step between B and C")


# --- the whole survey -------------------------------------------------------------------------


def test_a_survey_that_agrees_is_to_be_trusted(site: type[Site]) -> None:
    floor = site(*FLOOR, *(f"{c}{r} -{15 + (ord(c) + r) % 2}" for r in (1, 2) for c in "ABCDEF"))
    floor.told("check zero level")
    reply = floor.told("survey check")
    survey = reply.data["survey"]
    assert survey["verdict"] == "trust it"
    assert survey["suspects"] == []
    assert survey["sigma0"] is None
    assert survey["points"][0] == {
        "point": "A1", "height_mm": -15.0, "sd_mm": pytest.approx(1.04, abs=0.01)
    }  # fmt: skip
    assert reply.say.startswith("Trust it.")


def test_a_point_far_from_its_neighbours_is_named(site: type[Site]) -> None:
    floor = site(*FLOOR, *(f"{c}{r} -{15 + (ord(c) + r) % 2}" for r in (1, 2) for c in "ABCDEF"),
                 )  # fmt: skip
    # as an older record has it: never asked about
    event = ReadingTaken("C2", Measure(Decimal(-52), "mm"))
    floor.job = record(floor.job, next_number(floor.job), "C2 -52", (event,))
    survey = floor.told("survey check").data["survey"]
    assert survey["verdict"] == "look at these"
    assert [suspect["point"] for suspect in survey["suspects"]] == ["C2"]


def test_a_survey_mostly_in_doubt_is_to_be_done_again(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "B1 -17", "C1 -16", "D1 -18", "reference moved")
    assert floor.told("survey check").data["survey"]["verdict"] == "do it again"


def test_there_must_be_a_survey_to_check(site: type[Site]) -> None:
    assert "no survey" in site(*FLOOR).refused("survey check")
