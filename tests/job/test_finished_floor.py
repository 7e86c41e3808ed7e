"""Two surveys of one floor: what is read after the pour never touches what was read before it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from assistant.decide import decide, resolve
from assistant.decide.questions import ReallySo
from assistant.errors import Refusal, SurveyError
from assistant.events.readings import FinishedFloorBegun
from assistant.events.site import ClockStarted
from assistant.floor.depths import depths_of
from assistant.floor.heights import survey_of
from assistant.job import being_read, finished_floor, fold, next_number, record
from assistant.job.state import Job
from grammar import PHRASES, understand
from grammar.commands import Change
from grammar.commands.kinds import OPEN_FLOOR, WHOLE_JOB
from grammar.commands.talk import BringBack, TakeBack
from tests.job.conftest import Site, command_of
from tests.there import there

ROOM = ("room 8 by 6 metres", "grid 2 metres", "product example standard")
SLAB = (-18, -16, -17, -15, -14, -16, -18, -19, -17, -15, -16, -18)
READ = tuple(f"{mm:+} mm" for mm in SLAB)
SURVEYED = (*ROOM, *READ, "check zero level", "door 1 left -4 right -5 outside +2", "door 1 at A1")
WORKED_OUT = ("tally", "order", "cut list", "cut for A1", "weight", "high spots", "low spots",
              "how deep at A1", "warnings", "best finish", "hidden high spots", "where next",
              "map of the slab", "readings of the slab", "what is missing on the slab",
              "doors of the slab", "survey check of the slab", "ready to pour")  # fmt: skip


def _worked_out(floor: Site) -> dict[str, object]:
    said: dict[str, object] = {}
    for line in WORKED_OUT:
        reply = floor.told(line)
        details = [each for each in reply.details if not each.startswith("Finished floor")]
        said[line] = (reply.headline, details, reply.tables, reply.data, reply.warnings)
    return said


def _slab_of(job: Job) -> Job:
    return replace(job, finished=None)


@pytest.fixture
def poured(site: type[Site]) -> Site:
    return site(*SURVEYED, "pour finished")


# --- the slab stays as it was read ---------------------------------------------------------


def test_the_finished_floor_does_not_overwrite_the_slab(poured: Site) -> None:
    before = _worked_out(poured)
    poured.told("A1 level", "plus 1", "C1 -2", "correct C1 to -1", "strike B1", "new set up",
                "benchmark 1 at plus 40", "tie on benchmark 1 plus 38", "check zero plus 5",
                "door 1 left 0 right 0 outside +2", "fix B1 at plus 2", "step between A and B",
                "grind A1 by 1 mm", "instrument range 20 mm", "instrument offset plus 2 mm",
                "B2 minus 1, 2, 1", "point K1 at 3.3 by 2.2 metres", "K1 +1")  # fmt: skip
    assert _worked_out(poured) == before
    assert poured.job.readings["A1"].mm == -18


OPEN_CHANGES = [
    example
    for phrase in PHRASES
    if phrase.command.SPEAKS_OF == OPEN_FLOOR and issubclass(phrase.command, Change)
    for example in phrase.examples
]


@pytest.mark.parametrize("example", OPEN_CHANGES)
def test_nothing_that_is_said_of_what_lies_open_reaches_the_slab(
    poured: Site, example: str
) -> None:
    poured.told("A1 level", "B3 level", "C3 level", "new set up", "benchmark 1 at +40 mm")
    slab = _slab_of(poured.job)
    for command in understand(example):
        try:
            command = resolve(poured.job, command)
            events = decide(poured.job, command, poured.world, confirmed=True).events
        except (Refusal, SurveyError):
            continue
        after = record(poured.job, next_number(poured.job), example, events)
        assert _slab_of(after) == slab


OTHER_CHANGES = [
    example
    for phrase in PHRASES
    if phrase.command.SPEAKS_OF == WHOLE_JOB and issubclass(phrase.command, Change)
    for example in phrase.examples
]


@pytest.mark.parametrize("example", OTHER_CHANGES)
def test_what_is_said_of_the_whole_job_is_no_reading_of_either_floor(
    poured: Site, example: str
) -> None:
    """A command that reads, ties or checks has to say that it speaks of what lies open."""
    for line in ("A1 level", "B3 level", "new set up"):
        poured.told(line)
    readings = poured.job.readings, poured.job.survey, poured.job.doors, poured.job.finished
    for command in understand(example):
        try:
            command = resolve(poured.job, command)
            events = decide(poured.job, command, poured.world, confirmed=True).events
        except (Refusal, SurveyError):
            continue
        if isinstance(command, TakeBack | BringBack):
            continue
        after = record(poured.job, next_number(poured.job), example, events)
        assert (after.readings, after.survey, after.doors, after.finished) == readings, (
            f"{type(command).__name__} needs SPEAKS_OF in {type(command).__module__}"
        )


# --- the finished floor ----------------------------------------------------------------------


def test_the_end_of_the_pour_says_what_readings_are_of_from_then_on(site: type[Site]) -> None:
    reply = site(*SURVEYED).told("pour finished")
    assert reply.details[-1] == (
        "What is read from now on is of the finished floor; the slab's readings stay as they are "
        "(readings of the slab). Not finished after all: undo."
    )


def test_its_points_are_walked_anew_and_every_answer_says_which_floor(poured: Site) -> None:
    assert poured.told("next point").first_line.startswith("Finished floor: Next: A1. 12 points")
    reply = poured.told("minus 1")
    assert reply.first_line == "Finished floor: A1 1 mm below the finish."
    assert reply.details == ("Next: B1.",)
    assert poured.told("level").first_line == "Finished floor: B1 level, at the finish."
    assert poured.told("readings").first_line == "Finished floor: 2 points read."
    assert poured.told("map").first_line.startswith("Finished floor: Heights below the finish")
    assert poured.told("what is missing").first_line.startswith("Finished floor: 1 thing missing. "
                                                              "First: 10 readings")  # fmt: skip
    assert poured.data["survey"] == "finished floor"
    assert poured.told("readings of the slab").first_line == "Slab: 12 points read."
    assert poured.data["survey"] == "slab"
    assert poured.told("map of the slab").first_line.startswith(
        "Slab: Depths in millimetres, 12 of"
    )


def test_before_the_pour_there_is_one_survey_and_no_name_for_it(site: type[Site]) -> None:
    floor = site(*SURVEYED)
    assert floor.told("readings").headline == "12 points read."
    assert floor.told("readings of the slab").headline == "12 points read."
    assert "survey" not in floor.data


def test_heights_are_held_against_a_finish_that_is_not_the_zero(site: type[Site]) -> None:
    floor = site("finish 4 mm above zero", *SURVEYED, "pour finished")
    reply = floor.told("A1 plus 3")
    assert reply.first_line == "Finished floor: A1 3 mm above. 1 mm below the finish."
    assert reply.say.endswith("One millimetre below the finish.")
    assert depths_of(being_read(floor.job)) == {"A1": Fraction(1)}


def test_no_limit_of_a_pour_is_held_against_what_is_poured(poured: Site) -> None:
    assert poured.told("A1 plus 1").warnings == ()
    assert poured.told("B1 -45").warnings == ()


def test_what_its_own_survey_warns_of_stands_beside_the_warnings(poured: Site) -> None:
    reply = poured.told("A1 level", "check zero plus 5", "warnings")
    assert reply.details[0] == "Limits are those of the pour over the slab."
    assert reply.details[1].startswith("Finished floor: One look at the zero is off by 5 mm")
    assert [warning.id for warning in reply.warnings] == ["weight"]


def test_it_is_not_held_against_the_slab(poured: Site) -> None:
    """Sixteen millimetres above all that was read of the slab, and nothing odd in that."""
    for line in ("A1 level", "plus 1", "level", "minus 1", "level", "plus 1"):
        poured.at_once(line)


def test_a_slab_s_reading_is_not_said_to_be_none_at_all(poured: Site) -> None:
    poured.told("B1 level")
    assert "readings of the slab" in poured.refused("correct A1 to -3")
    assert poured.refused("strike A1").startswith("A1 has no reading of the finished floor yet.")


def test_it_is_held_against_itself(poured: Site) -> None:
    poured.told("A1 level", "plus 1", "level", "minus 1", "level", "plus 1", "level", "level")
    assert isinstance(poured.asked("minus 16"), ReallySo)


def test_set_ups_go_on_from_the_slabs(site: type[Site]) -> None:
    floor = site(*ROOM, "benchmark 1 at plus 40", "A1 -18", "new set up", "tie on benchmark 1 +50",
                 "B1 -6", "pour finished")  # fmt: skip
    assert depths_of(floor.job) == {"A1": 18, "B1": 16}
    floor.told("A1 +10", "new set up", "tie on benchmark 1 +30", "B1 -11")
    shown = there(finished_floor(floor.job))
    assert depths_of(shown) == {"A1": 0, "B1": 1}
    assert [float(there(zero)) for zero in survey_of(shown).zeros_mm] == [0, -10, 10]
    assert depths_of(floor.job) == {"A1": 18, "B1": 16}


def test_a_point_of_the_slab_ties_nothing_once_it_is_covered(poured: Site) -> None:
    poured.told("new set up")
    assert "A1 has no reading" in poured.refused("tie on A1 -18")
    assert "A1 has no reading" in poured.refused("correct A1 to -17")
    assert "A1 has no reading" in poured.refused("strike A1")


def test_doors_keep_their_places_and_are_read_anew(poured: Site) -> None:
    assert being_read(poured.job).doors[1].point == "A1"
    assert being_read(poured.job).doors[1].left is None
    poured.told("door 1 left 0 right +1")
    assert there(poured.job.doors[1].left).mm == -4
    assert there(being_read(poured.job).doors[1].right).mm == 1


def test_a_point_placed_after_the_pour_is_none_of_the_slabs(poured: Site) -> None:
    poured.told("point K1 at 3.3 by 2.2 metres")
    assert poured.tally.missing == 0
    assert "K1" in there(finished_floor(poured.job)).layout.own_points
    assert "stays where it was" in poured.refused("point A1 at 3.3 by 2.4 metres")


def test_the_guide_does_not_go_back_to_closing_the_survey_of_the_slab(site: type[Site]) -> None:
    from assistant.guide.checks import CHECKS
    from assistant.guide.looks import CheckContext
    from assistant.reply.times import UNTIMED

    floor = site(*SURVEYED[:-2], "pour finished", "A1 level")
    assert CHECKS["zero_closed"](CheckContext(floor.job, UNTIMED, "close")).met


# --- the plan once it is poured ------------------------------------------------------------


@pytest.mark.parametrize("line", ["raise finish 2 mm", "finish +4 mm", "lower finish 1 mm",
                                  "waste 7 percent", "product example deep fill",
                                  "aggregate 20 percent", "no aggregate"])  # fmt: skip
def test_a_change_of_what_was_poured_is_asked_about(poured: Site, line: str) -> None:
    assert "The pour is finished: this changes what is on record" in poured.asked(line).text
    poured.told(line)  # confirmed, it is taken


@pytest.mark.parametrize("line", ["room 9 by 6 metres", "grid 1 metre", "wall east 4 metres"])
def test_a_slab_that_was_read_is_not_laid_out_anew(poured: Site, line: str) -> None:
    assert "the finished floor is read at the slab's own points" in poured.refused(line)


def test_where_nothing_was_read_before_the_pour_the_room_can_still_be_told(
    site: type[Site],
) -> None:
    floor = site("pour finished", *ROOM, "A1 +1")
    assert there(finished_floor(floor.job)).readings.keys() == {"A1"}
    assert floor.told("clocks").data["clocks"][0]["ends"] is not None  # a card was chosen since


# --- undone, said twice, and of older records --------------------------------------------------


def test_a_pour_that_was_not_finished(site: type[Site]) -> None:
    floor = site(*SURVEYED[:7], "pour finished")
    reply = floor.told("undo")
    assert reply.headline == "Undone: pour finished."
    assert reply.details[0] == "What is read from now on is of the slab."
    before = floor.job
    assert floor.told("minus 15").headline == "D2 15 mm below. Depth 15 mm."
    assert before.finished is None


def test_undone_through_and_back_it_is_as_it_was(poured: Site) -> None:
    poured.told("A1 level", "plus 1", "new set up")
    whole = poured.job
    poured.told("undo 5")
    assert poured.job.finished is None
    assert poured.told("redo 5").details[0] == (
        "What is read from now on is of the finished floor."
    )
    assert poured.job == whole
    entries = [(u.number, u.said, u.events, u.time) for u in whole.history]
    assert fold(entries) == whole


def test_said_twice_the_readings_go_on(poured: Site) -> None:
    poured.told("A1 level")
    reply = poured.told("pour finished")
    assert reply.details[-1] == "The finished floor's readings go on."
    assert being_read(poured.job).readings.keys() == {"A1"}


def _older(floor: Site, line: str) -> None:
    """As `pour finished` was recorded when there was one survey."""
    job = floor.job
    floor.job = record(job, next_number(job), line, (ClockStarted("pour"),))


def test_an_older_record_keeps_what_it_read_after_the_pour_with_the_slab(site: type[Site]) -> None:
    floor = site(*SURVEYED)
    _older(floor, "pour finished")
    job = floor.job
    floor.job = record(job, next_number(job), "A1 level", decide(
        site(*SURVEYED).job, understand("A1 0 mm")[0], floor.world, confirmed=True
    ).events)  # fmt: skip
    assert floor.job.readings["A1"].mm == 0
    assert floor.job.finished is None


def test_what_is_read_on_in_an_older_record_is_of_the_finished_floor(site: type[Site]) -> None:
    floor = site(*SURVEYED)
    _older(floor, "pour finished")
    assert floor.told("readings").first_line == "Finished floor: No readings yet."
    assert floor.job.finished is None  # nothing is recorded by asking
    assert floor.told("A1 level").first_line == "Finished floor: A1 level, at the finish."
    assert floor.job.readings["A1"].mm == -18
    assert floor.job.history[-1].events[0] == FinishedFloorBegun()
    assert floor.told("B1 level").first_line == "Finished floor: B1 level, at the finish."
    assert floor.told("undo 2").say.endswith("back to before alfa one, level.")


def test_what_was_to_be_ground_off_the_slab_is_not_off_the_finished_floor(site: type[Site]) -> None:
    floor = site(*SURVEYED, "grind A1 by 4 mm", "step between A and B", "B1 minus 12, 13, 14",
                 "pour finished", "A1 level")  # fmt: skip
    shown = there(finished_floor(floor.job))
    assert depths_of(shown) == {"A1": 0}
    assert shown.survey.steps == ()
    assert shown.survey.shown == {}
    assert depths_of(floor.job)["A1"] == 22
    assert floor.job.survey.steps == (("A", "B"),)


def test_the_second_survey_is_begun_once(poured: Site) -> None:
    for line in ("A1 -2", "B1 -3", "check zero level"):
        decision = decide(poured.job, command_of(line), poured.world)
        assert FinishedFloorBegun not in [type(event) for event in decision.events]
        assert decision.events
        poured.told(line)


# --- a pour that stands still ------------------------------------------------------------------

POURING = (*SURVEYED, "start pour anyway because this is a test", "batch 2 bags")


def test_what_is_read_while_a_pour_stands_still_is_of_the_finished_floor(site: type[Site]) -> None:
    floor = site(*POURING)
    reply = floor.told("stop pour because it rains in")
    assert "What is read meanwhile is of the poured floor" in reply.details[-1]
    assert floor.job.finished is None  # begun with the first reading
    assert floor.told("A1 minus 1").first_line == "Finished floor: A1 1 mm below the finish."
    assert floor.job.readings["A1"].mm == -18
    assert "The finished floor's readings go on." in floor.told("pour finished").details
    assert being_read(floor.job).readings.keys() == {"A1"}


def test_once_the_pour_goes_on_the_slab_lies_open_again(site: type[Site]) -> None:
    for going_on in ("pour on", "batch 2 bags"):
        floor = site(*POURING)
        floor.told("stop pour", "A1 minus 1", "point K1 at 3.3 by 2.2 metres", going_on)
        assert floor.told("B1 minus 12").first_line.startswith("Slab: B1 12 mm below."), going_on
        assert floor.job.readings["B1"].mm == -12, going_on
        assert "K1" not in floor.job.layout.own_points, going_on
        floor.told("stop pour", "B1 minus 2")
        assert floor.job.readings["B1"].mm == -12, going_on
        read = {name: height.mm for name, height in being_read(floor.job).readings.items()}
        assert read == {"A1": -1, "B1": -2}, going_on
        assert "K1" in being_read(floor.job).layout.own_points, going_on
        entries = [(u.number, u.said, u.events, u.time) for u in floor.job.history]
        assert fold(entries) == floor.job, going_on


def test_an_instrument_moved_meanwhile_stands_where_it_was_moved_to(site: type[Site]) -> None:
    """Otherwise a reading of the slab would be taken from a zero that is gone."""
    floor = site(*POURING, "benchmark 1 at plus 40", "stop pour")
    floor.told("A1 minus 1", "new set up", "tie on benchmark 1 plus 30", "pour on", "B1 minus 22")
    assert floor.job.readings["B1"].set_up == 1
    # 10 mm higher than the first zero: 40 - 30
    assert survey_of(floor.job).heights_mm["B1"] == -12
    floor.told("new set up", "tie on benchmark 1 plus 35", "pour finished", "C1 minus 7")
    shown = there(finished_floor(floor.job))
    assert survey_of(shown).heights_mm == {"A1": -1, "C1": -2}


def test_a_stop_with_nothing_read_leaves_no_second_survey(site: type[Site]) -> None:
    floor = site(*POURING, "stop pour", "pour on")
    assert floor.job.finished is None
    assert floor.told("A1 minus 15").first_line.startswith("A1 15 mm below.")
    floor.told("stop pour", "A1 minus 1", "undo 2")
    assert floor.told("A1 minus 17").first_line.startswith("A1 17 mm below.")


# --- its first points against the plan ---------------------------------------------------------


def test_the_first_points_are_held_against_the_planned_finish(poured: Site) -> None:
    question = poured.asked("C1 minus 30")
    assert isinstance(question, ReallySo)
    assert "The planned finish says level" in question.text
    assert "Planned, level" in question.spoken
    poured.at_once("A1 minus 9")
    # Its zero is far off: asked once, and no more once that was confirmed.
    poured.told("B1 minus 40")
    poured.at_once("D1 minus 41")


def test_a_finish_off_the_zero_is_the_plan(site: type[Site]) -> None:
    floor = site("finish 40 mm above zero", *ROOM, "A1 -8", "pour finished")
    floor.at_once("A1 plus 40")
    assert "says 4" in floor.asked("B1 level").text


def test_the_slab_is_held_against_no_plan(site: type[Site]) -> None:
    site(*ROOM).at_once("A1 minus 60")
