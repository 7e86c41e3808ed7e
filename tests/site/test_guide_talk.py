"""The guide as it is talked with: on, back, knowingly past, and aware of the work."""

from __future__ import annotations

import pytest

from assistant.guide.steps import steps
from assistant.limits.cautions import cautions_at
from assistant.reply.speaking_time import PIECE_S, speaking_seconds
from tests.site.conftest import Morning


def step(floor: Morning) -> tuple[str | None, bool]:
    """The step of the last reply, and whether it was said to be met."""
    told = floor.data["step"]
    assert set(told) == {"id", "number", "of", "met"}
    return told["id"], told["met"]


def test_it_begins_where_the_job_stands(morning: type[Morning]) -> None:
    floor = morning("guide")
    assert floor.turn.reply.headline.startswith("Step 1 of 26, walk the site: Walk the room")
    assert floor.data == {"step": {"id": "walk", "number": 1, "of": 26, "met": False}}
    assert floor.turn.reply.say == (
        "Step one. Walk the room and say what the floor is, for instance floor is concrete. "
        "Mind old adhesive."
    )
    assert [caution.id for caution in floor.turn.reply.cautions] == ["old-adhesive"]
    assert floor.turn.recorded == ("guide-started",)

    begun = morning("floor is tile", "air 20 degrees", "slab 17 degrees", "humidity 50 percent",
                    "room 8 by 6 metres", "guide")  # fmt: skip
    assert step(begun) == ("product", False)
    assert begun.turn.reply.details[0] == (
        "Done already: walk the site, moisture in the slab, temperature and dew point and "
        "the outline."
    )


def test_an_unmet_step_says_so_and_is_passed_with_a_second_word(morning: type[Morning]) -> None:
    floor = morning("guide")
    floor.say("done")
    assert step(floor) == ("walk", False)
    assert "is not done: What the floor is" in floor.turn.reply.headline
    assert "skip because" in floor.turn.reply.details[0]
    assert floor.turn.recorded == ("step-questioned",)
    floor.say("next step")
    assert step(floor) == ("moisture", False)
    assert "Passed knowingly: walk the site." in floor.turn.reply.details
    assert floor.job.guide.done == {"walk": False}


def test_a_second_word_is_for_its_own_step(morning: type[Morning]) -> None:
    floor = morning("guide", "done", "done", "done")
    assert floor.turn.recorded == ("step-questioned",)
    floor.say("step back", "done")
    assert floor.turn.recorded == ("step-questioned",)


def test_readings_may_come_in_between(morning: type[Morning]) -> None:
    floor = morning("guide", "done", "B3 -18", "air 20 degrees", "done")
    assert step(floor) == ("moisture", False)
    assert floor.job.readings.keys() == {"B3"}


def test_a_step_that_the_work_meets_is_told_beside_the_answer(morning: type[Morning]) -> None:
    floor = morning("guide", "floor is concrete")
    assert floor.turn.reply.headline == "The floor is concrete."
    assert floor.turn.reply.details[-1] == (
        "Step 1, walk the site: The floor is concrete. Next step goes on."
    )
    assert floor.turn.reply.say == "The floor is concrete. Step one is met."
    floor.say("floor is screed")  # met before already: not said again
    assert floor.turn.reply.say == "The floor is screed."
    floor.say("done")
    assert step(floor) == ("moisture", False)


def test_work_done_ahead_is_passed_over(morning: type[Morning]) -> None:
    floor = morning("room 8 by 6 metres", "product example standard", "guide")
    for _ in range(3):
        floor.say("skip because it is looked at later")
    assert step(floor) == ("grid", False)
    assert "Done already: the outline and the product and its card." in floor.turn.reply.details[1]
    floor.say("grid 2 metres", "next step")
    assert step(floor) == ("settle", False)


def test_a_reason_is_recorded_and_told_when_it_matters(morning: type[Morning]) -> None:
    floor = morning("guide", "skip because the client wants it")
    assert floor.turn.recorded == ("step-skipped",)
    assert "client wants it" in floor.job.guide.skipped["walk"]
    floor.say("ready to pour")
    assert any(line.startswith("Skipped: walk the site, in the speaker's words") for line in
               floor.turn.reply.details)  # fmt: skip
    assert "substrate" in {reason["id"] for reason in floor.data["ready"]["reasons"]}
    floor.say("floor is concrete", "ready to pour")
    assert not any(line.startswith("Skipped") for line in floor.turn.reply.details)


def test_step_back_and_on_again(morning: type[Morning]) -> None:
    floor = morning("floor is tile", "guide")
    assert step(floor) == ("climate", False)
    floor.say("step back")
    assert step(floor) == ("moisture", True)
    floor.say("step back")
    assert step(floor) == ("walk", True)
    assert "first step" in floor.refused("step back")
    floor.say("done")
    assert step(floor) == ("climate", False)


def test_what_the_work_undoes_is_told(morning: type[Morning]) -> None:
    floor = morning("room 8 by 6 metres", "grid 4 metres", "A1 -11", "-12", "-13", "-12", "guide")
    while floor.job.guide.open != "closing":
        floor.say("next step")
    floor.say("step back", "next step")
    assert floor.job.guide.done["readings"] is True
    floor.say("strike B1", "where am I")
    assert step(floor) == ("closing", False)
    assert "Not met any more: the readings. 1 of 4 points is still missing; next is B1." in (
        floor.turn.reply.details
    )
    floor.say("guide")
    assert floor.job.guide.open == "readings"


def test_time_undoes_a_step(morning: type[Morning]) -> None:
    floor = morning("floor is tile", "air 20 degrees", "slab 17 degrees", "humidity 50 percent",
                    "guide", "step back", "next step")  # fmt: skip
    assert step(floor) == ("outline", False)
    floor.later(hours=5).say("where am I")
    assert "Not met any more: temperature and dew point." in floor.turn.reply.details[-1]


def test_why_and_more(morning: type[Morning]) -> None:
    floor = morning("guide", "why")
    assert floor.turn.reply.headline == steps()[0].why
    assert step(floor) == ("walk", False)
    floor.say("more")
    assert floor.turn.reply.details == steps()[0].more
    assert steps()[0].more[0] in floor.turn.reply.say
    said = []
    while floor.turn.reply.rest:
        said.append(floor.turn.reply.say)
        assert said[-1].endswith("Say more for the rest.")
        floor.say("more")
    said.append(floor.turn.reply.say)
    assert all(speaking_seconds(piece) <= PIECE_S for piece in said)
    words = " ".join(said)
    for line in (*steps()[0].more, *cautions_at("grind")[1].sentences):
        assert line in words
    floor.say("more")  # from the beginning once more
    assert floor.turn.reply.say == said[0]


def test_where_am_i_says_it_again(morning: type[Morning]) -> None:
    floor = morning("guide", "where am I")
    assert floor.turn.reply.headline.startswith("Step 1 of 26")
    assert floor.turn.recorded == ()


@pytest.mark.parametrize(
    "line",
    ["done", "next step", "step back", "skip because of the rain", "where am I", "why", "more"],
)
def test_without_the_guide_it_says_how_to_begin(morning: type[Morning], line: str) -> None:
    assert morning().refused(line) == (
        "The guide is not on. To be led through the job, say: guide."
    )


def test_to_the_end_and_back(morning: type[Morning]) -> None:
    floor = morning("guide")
    for _ in steps():
        floor.say("skip because it is only a rehearsal")
    assert floor.turn.reply.headline == ("All steps are through, 26 of them left out or not met.")
    assert floor.data == {"step": {"id": None, "number": None, "of": 26, "met": False}}
    assert "All steps are through" in floor.refused("done")
    floor.say("where am I", "step back")
    assert step(floor) == ("record", False)


def test_undone_steps(morning: type[Morning]) -> None:
    floor = morning("guide", "skip because of the rain", "take that back")
    assert floor.turn.reply.say == "Undone: skipping the step walk."
    assert floor.job.guide.open == "walk"
    floor.say("redo")
    assert floor.job.guide.open == "moisture"


def test_it_survives_a_restart(morning: type[Morning]) -> None:
    floor = morning("guide", "done", "done")
    before = floor.job
    floor.reopen()
    assert floor.job == before
    floor.say("where am I")
    assert step(floor) == ("moisture", False)


def test_every_line_of_the_guide_can_be_said_aloud(morning: type[Morning]) -> None:
    import re

    floor = morning("guide")
    for _ in steps():
        for line in ("where am I", "why", "more"):
            said = floor.say(line).reply.say
            assert not re.search(r"[-+]\d|[_@#|]", said)
        floor.say("skip because it is only a rehearsal")
