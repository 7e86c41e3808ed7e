"""Heights along a line: begun, read in one breath or many, put right, ended; nothing slides."""

from __future__ import annotations

import pytest

from assistant.decide.questions import WhichSide
from assistant.floor.proof_lines import profile_of, profiles_of
from assistant.job import being_read, fold
from assistant.job.proof import Proof
from grammar.errors import GrammarError
from tests.job.conftest import Site
from tests.there import there

ROOM = ("room 8 by 6 metres", "grid 2 metres", "product example standard")
POURED = (*ROOM, "A1 -18", "B1 -17", "pour finished")
LINE = "line 1 from A1 to D1 every 300 millimetres"
# A1 to D1 is 6 m: 21 values at 300 mm, both ends counted (exact arithmetic).


def values(floor: Site, line: int = 1) -> list[float]:
    return [float(height.mm) for height in being_read(floor.job).proof.lines[line].values]


def test_a_line_is_read_in_breaths_and_read_back_by_count_and_last_value(site: type[Site]) -> None:
    floor = site(*POURED)
    reply = floor.told(LINE)
    assert reply.first_line == "Finished floor: Line 1 from A1 to D1 every 300 mm."
    assert reply.details[0] == "6 m long: 21 values."
    reply = floor.told("0, minus 1, minus 1, plus 2")
    assert reply.first_line == "Finished floor: Line 1: 4 values, point 4 2 mm above."
    assert reply.say == "Line one, point four, two millimetres above."
    assert reply.details == ("17 values to go.",)
    for line, come_to in (("minus 3", -3), ("0", 0), ("level", 0), ("same", 0), ("+1", 1)):
        floor.told(line)
        assert values(floor)[-1] == come_to, line
    assert values(floor) == [0, -1, -1, 2, -3, 0, 0, 0, 1]
    assert floor.data["line"]["n"] == 9
    assert not being_read(floor.job).readings
    assert floor.told("hold").headline == "Line 1 1 mm above."


def test_a_value_is_put_right_by_its_number_or_as_the_last_one(site: type[Site]) -> None:
    floor = site(*POURED, LINE, "0 -1 -1 +2")
    assert floor.told("line 1 point 4 is minus 2").details[0].startswith("Replaces 2 mm above")
    floor.told("value 1 is 1 below")
    assert values(floor) == [-1, -1, -1, -2]
    assert "4 values, and no number 5" in floor.refused("line 1 point 5 is minus 2")
    assert "no number 99" in floor.refused("value 99 is minus 2")
    assert isinstance(floor.asked("value 2 is 3"), WhichSide)
    floor.told("take that back")
    assert values(floor) == [0, -1, -1, -2]


def test_what_names_a_point_stays_the_points_and_what_names_none_the_lines(
    site: type[Site],
) -> None:
    floor = site(*POURED, LINE, "0 -1")
    reply = floor.told("B3 -2")
    assert reply.details == ("A value without a point is number 3 of line 1.",)
    assert being_read(floor.job).readings.keys() == {"B3"}
    floor.told("C1 +1, D1 -1", "minus 2")
    assert values(floor) == [0, -1, -2]
    assert floor.told("next point").headline == "Next: line 1, point 4 of 21."
    assert floor.data["line"] == 1
    # sent to a point, the next value is that point's; the line rests
    floor.told("go to A2", "minus 5")
    assert being_read(floor.job).readings["A2"].mm == -5
    floor.told("go on with line 1", "minus 1")
    assert values(floor) == [0, -1, -2, -1]


def test_a_line_too_short_or_too_long_for_its_run_is_asked_about(site: type[Site]) -> None:
    floor = site(*POURED, "line 2 from A1 to B1 every 500 mm", "0 -1 -1 0")
    assert "has 4 of 5 values, 1.5 m of 2 m" in floor.asked("end line").text
    floor.told("+1")
    assert floor.reply.details == ("All of its run is read. If that was all: end line.",)
    question = floor.asked("minus 2")
    assert "2 m, 5 values at its spacing; this would be 6" in question.text
    assert floor.told("end line").headline == "Line 2 ended: 5 of 5 values, the last 1 mm above."
    floor.told("minus 2")  # now it is a point's
    assert being_read(floor.job).readings["A1"].mm == -2
    assert values(floor, 2) == [0, -1, -1, 0, 1]
    assert "ended already" in floor.refused("end line 2")
    assert "No line is being read" in floor.refused("end line")
    assert "shorter than its spacing" in floor.refused("line 3 from A1 to B1 every 3 metres")


def test_a_missing_sign_is_asked_for_and_of_several_nothing_is_taken(site: type[Site]) -> None:
    floor = site(*POURED, LINE, "0 -1")
    question = floor.asked("3")
    assert question.text == "Line 1 point 3, 3 mm: below or above?"
    floor.sided("3", "below")
    assert values(floor) == [0, -1, -3]


def test_values_before_any_line_and_lines_that_are_not_there(site: type[Site]) -> None:
    floor = site(*POURED)
    assert "said with its point" in floor.refused("0")
    assert "No line is being read" in floor.refused("values 0 -1")
    assert "no line 4" in floor.refused("line 4 values 0 -1")
    assert "no line 4" in floor.refused("go on with line 4")
    assert floor.told("lines").headline == "No line has been read."
    floor.told("-1 -2")  # without a line a run is of the next points
    assert set(being_read(floor.job).readings) == {"A1", "B1"}


def test_a_jump_is_asked_about_before_it_counts(site: type[Site]) -> None:
    floor = site(*POURED, LINE, "0 -1")
    question = floor.asked("-1 -15 -1")
    assert (
        "jumps from point 3 to 4, down 14 mm and 4 to 5, up 14 mm: 1 mm below, then"
        in question.text
    )
    assert "then 15 mm below, then 1 mm below." in question.text
    assert values(floor) == [0, -1]
    floor.told("-1 -15 -1")
    assert values(floor) == [0, -1, -1, -15, -1]
    assert "jumps" in floor.asked("line 1 point 1 is minus 20").text


def test_a_line_over_what_stands_there_is_asked_about(site: type[Site]) -> None:
    floor = site(*ROOM, "column 0.4 by 0.4 metres at 4 by 1 metres", "A2 -18", "pour finished")
    line = "line 1 from 0.5 by 1 metres to 7.5 by 1 metres every 300 mm"
    assert "runs through column 1" in floor.asked(line).text
    assert (
        "leaves the floor"
        in floor.asked(line.replace("7.5", "9.5").replace("by 1 m", "by 2 m")).text
    )
    assert "off the floor" in floor.refused("line 1 from 9 by 1 m to 9 by 2 m every 100 mm")
    floor.told(line.replace("by 1 ", "by 2 "))
    assert being_read(floor.job).proof.lines[1].holds == 24
    assert "has no place" in site("line 5 every 300 mm").refused(LINE)


def test_a_line_whose_place_nobody_said_takes_any_number(site: type[Site]) -> None:
    floor = site("line 5 every 300 mm", "0 -1 -1", "+1 +1", "end line")
    line = floor.job.proof.lines[5]
    assert (line.holds, line.ends_m, len(line.values)) == (None, None, 5)
    assert [profile.heights_mm for profile in profiles_of(floor.job)] == [(0, -1, -1, 1, 1)]


def test_a_line_that_has_values_is_not_begun_anew_unasked(site: type[Site]) -> None:
    floor = site(*POURED, LINE, "0 -1")
    assert "has 2 values already" in floor.asked(LINE).text
    reply = floor.told("line 2 from A2 to D2")
    assert reply.details[-1] == "Line 1 rests at 2 of 21 values; go on with line 1."
    assert floor.told("drop line 2").headline == "Line 2 dropped."
    assert "There are 1" in floor.refused("drop line 2")


def test_set_ups_in_the_middle_of_a_line_are_put_together_by_their_ties(site: type[Site]) -> None:
    floor = site(*POURED, "benchmark 1 at plus 40", LINE, "0 -1", "new set up", "-11")
    shown = being_read(floor.job)
    assert profile_of(shown, shown.proof.lines[1]) is None
    assert "nothing ties together" in floor.reply.details[-1]
    floor.told("tie on benchmark 1 plus 30")  # the zero lies 10 mm higher
    shown = being_read(floor.job)
    profile = profile_of(shown, shown.proof.lines[1])
    assert profile is not None
    assert [round(height, 3) for height in profile.heights_mm] == [0, -1, -1]


def test_lines_of_the_slab_stay_with_the_slab(site: type[Site]) -> None:
    floor = site(*ROOM, "A1 -18", LINE, "0 -1 -2", "pour finished")
    assert floor.told("lines").headline == "No line has been read."
    assert len(floor.job.proof.lines[1].values) == 3
    floor.told(LINE, "0")
    assert len(floor.job.proof.lines[1].values) == 3
    floor.told("undo 3")
    assert floor.job.proof.line is not None  # as it stood before the pour ended
    entries = [(u.number, u.said, u.events, u.time) for u in floor.job.history]
    assert fold(entries) == floor.job
    assert Proof() != floor.job.proof


def test_in_an_inch_job_a_line_is_in_inches_and_feet(site: type[Site]) -> None:
    floor = site("readings in inches", "room 24 by 18 feet", "grid 6 feet", "line 1 from A1 to C1")
    assert floor.reply.headline == "Line 1 from A1 to C1 every 12 in."
    assert floor.reply.details[0] == "12 ft long: 13 values."
    floor.told("0", "minus 1/8, minus 1/16, plus 1/8")
    assert values(floor) == [0, -3.175, -1.5875, 3.175]


# --- gaps and defects ---------------------------------------------------------------------


def test_gaps_and_defects_are_on_record_listed_and_undone(site: type[Site]) -> None:
    floor = site(*POURED, "gap 3 millimetres under 2 metres at C2", "hollow at C3",
                 "pinholes at D1", "crack at B2")  # fmt: skip
    assert floor.told("defects").headline == "4 findings."
    assert floor.data["gaps"][0]["gap_mm"] == 3
    assert floor.data["gaps"][0]["under_m"] == 2
    floor.told("gap 4 mm under 2 m at C2")
    assert floor.reply.details == ("2 gaps there now; each placing counts by itself.",)
    floor.told("drop gap 1", "undo", "undo", "drop hollow 1")
    assert [each.kind for each in being_read(floor.job).proof.defects] == ["pinholes"]
    assert [gap.mm for gap in being_read(floor.job).proof.gaps] == [3]
    assert "on record" in floor.refused("pinholes at D1")
    assert "no point Z9" in floor.refused("hollow at Z9")
    assert "more than a tenth" in floor.refused("gap 3 metres under 2 metres at C2")
    assert "There is no gap 7. There are 1" in floor.refused("drop gap 7")
    assert site(*POURED).told("defects").headline == "No gap or defect is on record."


# --- the second survey --------------------------------------------------------------------


def test_verify_before_any_pour_is_asked_and_during_one_refused(site: type[Site]) -> None:
    floor = site(*ROOM, "A1 -18")
    assert "No pour is on record" in floor.asked("verify").text
    reply = floor.told("verify")
    assert reply.headline == "What is read from now on is of the finished floor."
    floor.told("A1 +1")
    assert floor.job.readings["A1"].mm == -18
    assert (
        floor.told("verify").headline == "The finished floor's survey is open: 1 of 12 points read."
    )
    floor.told("undo 2")
    assert floor.job.finished is None
    pouring = site(*ROOM, "A1 -18", "batch 2 bags")
    assert "The pour is going on" in pouring.refused("verify")


def test_verify_after_the_pour_says_that_the_survey_is_open_already(site: type[Site]) -> None:
    floor = site(*POURED)
    before = floor.job
    assert floor.told("verify").headline.endswith("open: 0 of 12 points read.")
    assert floor.job is before


def test_verify_while_the_pour_stands_still_begins_what_its_going_on_puts_aside(
    site: type[Site],
) -> None:
    floor = site(*ROOM, "A1 -18", "B1 -17", "batch 2 bags", "stop pour", "verify", LINE, "0 -1")
    assert floor.told("lines").headline == "1 line."
    floor.told("pour on")
    assert floor.told("lines").headline == "No line has been read."
    floor.told("pour finished")
    assert values(floor) == [0, -1]


def test_what_is_missing_of_a_finished_floor_names_lines_doors_and_the_promise(
    site: type[Site],
) -> None:
    floor = site(*ROOM, "A1 -18", "door 1 left -4 right -5", "pour finished", LINE, "0 -1")
    floor.told("what is missing")
    assert [each["id"] for each in floor.data["missing"]] == ["readings", "line:1"]
    assert [each["id"] for each in floor.data["proof"]] == ["door-jambs:1", "promise"]
    floor.told("end line", "door 1 left 0 right 0", "promised flat", "what is missing")
    assert [each["id"] for each in floor.data["missing"]] == ["readings"]
    assert "proof" not in floor.data


def test_where_a_job_stands_tells_of_the_line_that_goes_on(site: type[Site]) -> None:
    from assistant.conversation.standing import standing_reply
    from assistant.terminal.toolbar import toolbar_line

    floor = site(*POURED, LINE, "0 -1")
    told = there(standing_reply(floor.job, waits=False))
    assert "line 1 goes on, 2 of 21 values" in told.headline
    assert toolbar_line(floor.job, floor.tally, 0, 60).startswith(
        "line 1 2/21  finished floor 0/12"
    )


def test_a_crack_of_the_finished_floor_stands_against_no_pour(site: type[Site]) -> None:
    floor = site(*POURED[:-1], "crack at A1", "pour finished")
    assert "crack:1" in [warning.id for warning in floor.told("warnings").warnings]
    reply = floor.told("crack B2 to C2")
    assert reply.warnings == ()
    assert [each["id"] for each in floor.told("defects").data["cracks"]] == [2]
    assert floor.told("crack 2 repaired", "defects").data["cracks"][0]["repaired"]
    assert "crack:2" not in [warning.id for warning in floor.told("warnings").warnings]


def test_more_values_than_a_line_takes_are_not_cut_short(site: type[Site]) -> None:
    floor = site("room 12 by 9 metres", "line 1 from 1 by 2 metres to 11 by 2 metres every 300 mm")
    twenty = "values " + ", ".join(["+2"] * 20)
    with pytest.raises(GrammarError):
        floor.told(f"{twenty}, +3")
    assert not floor.job.proof.lines[1].values
    floor.told(f"{twenty}.")
    assert len(floor.job.proof.lines[1].values) == 20


def test_a_value_is_put_right_in_other_words(site: type[Site]) -> None:
    floor = site(*POURED, LINE, "0 -1 -1 +2")
    missed = []
    lines = (
        "point 4 is minus 1", "point 4 was 2 below", "make point 4 minus 3",
        "correct point 4 to -4", "value 4 minus 5", "line 1 point 4 minus 6",
        "number 4 of line 1 is minus 7", "change value 4 on line 1 to -8",
        "last value is minus 9", "last was minus 10",
    )  # fmt: skip
    for size, line in enumerate(lines, start=1):
        floor.told(line)
        if values(floor) != [0, -1, -1, -size]:
            missed.append((line, values(floor)))
    assert missed == []
    # A point of the grid is a point of the grid.
    floor.told("point B2 is minus 2")
    assert len(values(floor)) == 4
    empty = site(*POURED, LINE)
    assert "no value yet" in empty.refused("last value is minus 2")
    assert "No line is being read" in site(*POURED).refused("last value is minus 2")


def test_a_value_is_held_against_the_floor_around(site: type[Site]) -> None:
    """The plan says level; once points are read around, they say what the floor is."""
    floor = site(*POURED, LINE)
    question = floor.asked("+18")
    assert "Line 1 point 1 18 mm above? The planned finish says at the zero" in question.text
    floor.told("+18")
    # It departed already, so what follows is not asked about again.
    floor.at_once("+18, +17")
    lies = site(*POURED, *(f"{column}{row} +9" for row in (1, 2, 3) for column in "ABCD"), LINE)
    lies.at_once("+9, +9, +8")
    question = lies.asked("0")
    assert "The floor around says 9 mm above the zero" in question.text
    # A line without a place is nowhere.
    site(*POURED, "line 2 every 300 mm").at_once("+18")


def test_a_drift_between_zero_checks_is_spread_along_a_line(site: type[Site]) -> None:
    """3 mm in proportion to time, as for points: exact arithmetic."""
    floor = site(
        *POURED, "check zero level", "line 1 every 300 mm", "0, 0, 0, 0, 0", "check zero -3"
    )
    profile = profile_of(being_read(floor.job), being_read(floor.job).proof.lines[1])
    assert profile is not None
    low, *_, high = profile.heights_mm
    assert 0 < low < high < 3
    assert list(profile.heights_mm) == sorted(profile.heights_mm)


def test_values_read_while_the_zero_moved_are_told(site: type[Site]) -> None:
    floor = site(*POURED, "check zero level", "line 1 every 300 mm", "0, 0, +1", "end line")
    floor.told("check zero -30", "check zero -30")
    told = " ".join(floor.told("line 1").details)
    assert "The zero moved or may have moved while it was read: 1, 2 and 3 may be off" in told
