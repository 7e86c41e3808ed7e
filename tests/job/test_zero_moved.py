"""Drift, a zero that moved, and benchmarks misread: what is asked, named and left out."""

from __future__ import annotations

import pytest

from assistant.decide import Question
from assistant.floor.heights import survey_of
from tests.job.a_floor import FLOOR, heights
from tests.job.conftest import Site

# --- drift, and a zero that moved -----------------------------------------------------------


def test_a_small_drift_is_spread_in_time(site: type[Site]) -> None:
    """Checks every ten minutes read 0, 1, 2, 3: a tenth of a millimetre a minute."""
    floor = site(*FLOOR, "A1 -20")
    for number in range(1, 4):
        floor.wait(5)
        floor.told(f"{'ABCD'[number]}1 -20")
        floor.wait(5)
        floor.told(f"check zero plus {number}")
    found = heights(floor)
    assert float(found["B1"]) == pytest.approx(-20.5, abs=0.05)
    assert float(found["D1"]) == pytest.approx(-22.5, abs=0.05)
    assert "drift" in " ".join(floor.told("survey check").details)


def test_a_step_asks_for_the_zero_to_be_set_again(site: type[Site]) -> None:
    """0, 0, 0, then 8: no drift; what was read in between is in doubt."""
    floor = site(*FLOOR, "A1 -20")
    for point in ("B1", "C1"):
        floor.wait(10)
        floor.told("check zero level", f"{point} -20")
    floor.wait(10)
    asked = floor.asked("check zero plus 8")
    assert asked.text.startswith(
        "Zero 8 mm above? By what is known it should read level: 8 mm off."
    )
    floor.told("check zero plus 8")
    assert floor.data["check"] == {"off_mm": 8, "good": False, "doubtful": ["C1"]}
    assert "zero-moved" in floor.ids
    assert "Look again" in floor.reply.say
    # One look is as likely misread; a second one that agrees tells.
    floor.wait(1)
    floor.told("check zero plus 8")
    assert "Set it again" in floor.reply.say
    assert heights(floor)["C1"] == -20
    survey = floor.told("survey check").data["survey"]
    assert survey["verdict"] == "look at these"
    assert "C1" in {suspect["point"] for suspect in survey["suspects"]}
    # Set again, and the point in doubt read again: nothing is left to look at.
    floor.wait(1)
    floor.told("check zero level", "C1 -20")
    floor.wait(5)
    floor.told("check zero level")
    assert "zero-moved" not in floor.ids
    assert heights(floor)["C1"] == -20
    assert floor.told("survey check").data["survey"]["why"] == []


def test_a_benchmark_checks_the_zero_too(site: type[Site]) -> None:
    floor = site(*FLOOR, "benchmark 1 at 40 mm above zero", "A1 -20", "check benchmark 1 plus 40")
    assert floor.data["check"]["off_mm"] == 0
    floor.told("check benchmark 1 plus 46")
    assert floor.data["check"]["off_mm"] == 6


def test_a_zero_has_moved_when_a_second_look_agrees(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -20", "check zero plus 8", "B1 -12")
    assert heights(floor)["B1"] == -12
    assert list(survey_of(floor.job).doubtful) == ["A1", "B1"]
    floor.wait(1)
    floor.told("check zero plus 8")
    assert "Set it again" in floor.reply.say
    floor.told("C1 -12")
    assert heights(floor)["C1"] == -20
    assert "C1" not in survey_of(floor.job).doubtful


BENCHMARK = (*FLOOR, "benchmark 1 at 40 mm above zero", "A1 -18", "B1 -17")


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("check benchmark 1 plus 43", False),
        ("check benchmark 1 plus 44", True),
        ("check benchmark 1 plus 37", False),
        ("check benchmark 1 plus 36", True),
        ("tie on benchmark 1 plus 43", False),
        ("tie on benchmark 1 plus 44", True),
        ("check zero minus 3", False),
        ("check zero minus 4", True),
    ],
)
def test_more_than_three_steps_off_is_asked_about(site: type[Site], line: str, asked: bool) -> None:
    found = site(*BENCHMARK).unconfirmed(line)
    assert isinstance(found, Question) is asked


def test_a_second_look_that_agrees_is_not_asked_about(site: type[Site]) -> None:
    floor = site(*BENCHMARK, "check benchmark 1 plus 56")
    assert floor.at_once("check benchmark 1 plus 56").data.get("check")


def test_a_misread_benchmark_shifts_nothing_and_is_named_itself(site: type[Site]) -> None:
    floor = site(*BENCHMARK, "check benchmark 1 plus 56", "C1 -16", "D1 -18")
    assert heights(floor) == {"A1": -18, "B1": -17, "C1": -16, "D1": -18}
    assert list(survey_of(floor.job).doubtful) == ["A1", "B1", "C1", "D1"]
    floor.told("check benchmark 1 plus 40")
    found = survey_of(floor.job)
    assert dict(found.doubtful) == {}
    assert [(misfit.what, round(misfit.off_mm)) for misfit in found.misfits] == [
        ("check on benchmark 1", 16)
    ]
    assert heights(floor) == {"A1": -18, "B1": -17, "C1": -16, "D1": -18}


def test_a_zero_that_reads_level_since_may_have_been_set_anew(site: type[Site]) -> None:
    floor = site(*BENCHMARK, "check benchmark 1 plus 56", "check zero level")
    assert list(survey_of(floor.job).doubtful) == ["A1", "B1"]


def test_a_good_tie_is_not_blamed_for_a_misread_benchmark(site: type[Site]) -> None:
    floor = site(*BENCHMARK, "check benchmark 1 plus 56", "C1 -16", "check benchmark 1 plus 40",
                 "new set up", "tie on benchmark 1 plus 30", "tie on A1 -28",
                 "tie on B1 -27")  # fmt: skip
    assert [m.what for m in survey_of(floor.job).misfits] == ["check on benchmark 1 from set-up 1"]
    assert heights(floor)["C1"] == -16


def test_ties_from_other_set_ups_say_that_an_odd_look_was_misread(site: type[Site]) -> None:
    """C1 and D1 were read after the look and are found as they were read: no zero moved."""
    floor = site(*BENCHMARK, "check benchmark 1 plus 56", "C1 -16", "D1 -18")
    assert list(survey_of(floor.job).doubtful) == ["A1", "B1", "C1", "D1"]
    floor.told("new set up", "tie on benchmark 1 plus 30", "tie on D1 -28", "E1 -28")
    found = survey_of(floor.job)
    assert [(m.what, round(m.off_mm)) for m in found.misfits] == [
        ("check on benchmark 1 from set-up 1", 16)
    ]
    assert dict(found.doubtful) == {}


def test_ties_on_what_came_before_an_odd_look_clear_no_more_than_that(site: type[Site]) -> None:
    floor = site(*BENCHMARK, "C1 -16", "check benchmark 1 plus 56", "D1 -2",
                 "new set up", "tie on benchmark 1 plus 30", "tie on B1 -27")  # fmt: skip
    assert survey_of(floor.job).doubtful == {"C1": "step", "D1": "step"}
    told = " ".join(floor.told("survey check").details)
    assert "or one look at benchmark 1 from set-up 1 was misread" in told


def test_of_two_looks_at_a_benchmark_of_no_given_height_the_one_borne_out_counts(
    site: type[Site],
) -> None:
    """The first look is the misread one; the second is held against it, and is right."""
    floor = site(*FLOOR, "benchmark 2 at 78 mm above zero", "tie on benchmark 1 plus 56",
                 "A1 -18", "B1 -17", "C1 -16",
                 "check benchmark 1 plus 40", "new set up", "tie on benchmark 1 plus 30",
                 "tie on benchmark 2 plus 68", "tie on C1 -26", "tie on B1 -27", "D1 -28",
                 )  # fmt: skip
    assert [(m.what, round(m.off_mm)) for m in survey_of(floor.job).misfits] == [
        ("tie on benchmark 1 from set-up 1", 16)
    ]
    assert float(heights(floor)["D1"]) == -18
    assert dict(survey_of(floor.job).doubtful) == {}


def test_ties_that_find_what_an_odd_look_says_leave_it_a_move(site: type[Site]) -> None:
    floor = site(*BENCHMARK, "check benchmark 1 plus 56", "C1 0", "D1 -2",
                 "new set up", "tie on benchmark 1 plus 30", "tie on D1 -28")  # fmt: skip
    assert survey_of(floor.job).misfits == ()
    assert list(survey_of(floor.job).doubtful) == ["A1", "B1", "C1"]


def test_what_alone_is_to_blame_does_not_move_the_heights(site: type[Site]) -> None:
    """+40 read as 56 on a benchmark that nobody gave a height: all the other ties agree."""
    floor = site(*FLOOR, "tie on benchmark 1 plus 56", "A1 -18", "B1 -17", "C1 -16", "new set up",
                 "tie on benchmark 1 plus 30", "tie on A1 -28", "tie on B1 -27", "D1 -28",
                 "new set up", "tie on benchmark 1 plus 20", "tie on C1 -36", "E1 -38")  # fmt: skip
    assert [(m.what, round(m.off_mm), m.left_out) for m in survey_of(floor.job).misfits] == [
        ("tie on benchmark 1 from set-up 1", 16, True)
    ]
    assert (float(heights(floor)["D1"]), float(heights(floor)["E1"])) == (-18, -18)
    assert "Left out of the heights" in " ".join(floor.told("survey check").details)


def test_a_tie_that_does_not_fit_the_others_is_asked_about(site: type[Site]) -> None:
    floor = site(*BENCHMARK, "new set up", "tie on A1 -58")
    assert floor.asked("tie on B1 -44").text.startswith("B1 44 mm below? By what is known")
    floor.at_once("tie on B1 -60")


def test_two_looks_within_their_own_noise_change_nothing(site: type[Site]) -> None:
    """1.96 and 2.58 standard deviations of a difference are 2.9 and 3.8 mm here."""
    floor = site(*FLOOR, "A1 -20")
    floor.wait(30)
    floor.told("B1 -20")
    floor.wait(30)
    floor.told("check zero plus 3")
    assert heights(floor) == {"A1": -20, "B1": -20}


def test_what_two_looks_take_out_is_told(site: type[Site]) -> None:
    floor = site(*FLOOR, "instrument resolution 0.5 mm", "instrument repeatability 0.2 mm",
                 "A1 -20")  # fmt: skip
    floor.wait(30)
    floor.told("B1 -20")
    floor.wait(30)
    told = " ".join(floor.told("check zero plus 1 mm").details)
    assert "B1 changed by -0.5 mm" in told
    assert float(heights(floor)["B1"]) == pytest.approx(-20.5, abs=0.01)


def test_reference_moved_puts_readings_since_the_last_good_check_in_doubt(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "B1 -17", "check zero level", "C1 -16", "D1 -18")
    floor.told("reference moved")
    assert floor.data["moved"] == {"set_up": 2, "doubtful": ["C1", "D1"]}
    assert "doubtful" in floor.ids
    floor.told("E1 -25")
    assert "E1" not in heights(floor)


def test_tied_again_where_it_was_the_doubt_is_gone(site: type[Site]) -> None:
    floor = site(*FLOOR, "benchmark 1 at 40 mm above zero", "A1 -18", "B1 -17", "reference moved")
    assert survey_of(floor.job).doubtful == {"A1": "moved", "B1": "moved"}
    floor.told("tie on benchmark 1 plus 41")
    assert survey_of(floor.job).doubtful == {}


def test_tied_again_elsewhere_the_doubt_stays_until_read_again(site: type[Site]) -> None:
    floor = site(*FLOOR, "benchmark 1 at 40 mm above zero", "A1 -18", "B1 -17", "reference moved",
                 "tie on benchmark 1 plus 30")  # fmt: skip
    assert list(survey_of(floor.job).doubtful) == ["A1", "B1"]
    floor.told("A1 -28", "B1 -27")
    assert survey_of(floor.job).doubtful == {}
    assert heights(floor)["A1"] == -18


def test_two_ties_that_agree_do_not_show_that_the_move_came_later(site: type[Site]) -> None:
    """Both may have been read after it: the zero stood still between them, no more."""
    floor = site(*FLOOR, "A1 -18", "B1 -17", "C1 -16", "reference moved",
                 "tie on A1 -28", "tie on B1 -27")  # fmt: skip
    assert survey_of(floor.job).doubtful == dict.fromkeys(("A1", "B1", "C1"), "moved")


# --- one look that is off ---------------------------------------------------------------------


def test_one_odd_look_is_said_one_way_and_no_move_is_claimed(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -20", "B1 -19", "C1 -18")
    floor.wait(5)
    floor.told("check zero plus 8")
    assert "may have moved" in floor.reply.say
    assert "zero moved" not in floor.reply.say.lower()
    for line in ("survey check", "warnings"):
        assert "zero moved" not in floor.told(line).say.lower()
    assert "misread" in " ".join(floor.told("survey check").details)


def test_a_second_look_that_agrees_says_that_the_zero_has_moved_and_nothing_else(
    site: type[Site],
) -> None:
    floor = site(*FLOOR, "A1 -20", "B1 -19", "check zero plus 8")
    floor.wait(1)
    say = floor.told("check zero plus 8").say
    assert "has moved" in say
    assert "may have" not in say


def test_one_odd_look_with_all_points_in_doubt_is_looked_at_not_done_again(
    site: type[Site],
) -> None:
    """One look may be misread; to read the whole floor again takes a second ground."""
    floor = site(*FLOOR, "A1 -20", "B1 -19", "C1 -18", "D1 -18")
    floor.wait(5)
    floor.told("check zero plus 8")
    assert len(survey_of(floor.job).doubtful) == 4
    assert floor.told("survey check").data["survey"]["verdict"] == "look at these"
    floor.wait(1)
    floor.told("check zero plus 8")  # the second ground
    assert floor.told("survey check").data["survey"]["verdict"] == "do it again"
