"""A misread or misheard value, talked over before it is on record."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest

from assistant.conversation.conversation import Conversation
from assistant.reply.json_lines import json_line
from assistant.reply.replies import Turn

Say = Callable[..., Turn]
FIRST = ("A1 -15", "B1 -16", "C1 -15", "D1 -16", "D2 -15", "C2 -16", "B2 -15")


@pytest.fixture
def doubted(say: Say) -> Turn:
    """A2 is next: fifteen, taken for fifty."""
    return say(*FIRST, "A2 -50")


def test_nothing_is_recorded_till_it_is_settled(doubted: Turn, talk: Conversation) -> None:
    assert doubted.ok
    assert doubted.recorded == ()
    assert doubted.reply.ask is not None
    assert doubted.reply.ask.startswith("A2 50 mm below? The floor around says 1")
    assert "A2" not in talk.job.readings
    assert talk.pending is not None


def test_a_slip_among_the_first_readings_is_asked_about(say: Say, talk: Conversation) -> None:
    asked = say("A1 -9", "B1 -8", "C1 -9", "D1 -60").reply.ask
    assert asked is not None
    assert asked.startswith("D1 60 mm below? What was read so far says ")
    assert "D1" not in talk.job.readings
    assert say("D1 -6").reply.ask is None
    assert talk.pending is None


def test_as_json(doubted: Turn) -> None:
    line = json.loads(json_line(1, doubted))
    assert (line["ok"], line["recorded"]) == (True, [])
    assert line["ask"]
    suspect = line["data"]["suspect"]
    assert suspect["value_mm"] == -50
    assert -20 < suspect["expected_mm"] < -12
    assert suspect["sd_mm"] > 1
    assert "A2 -15 mm" in suspect["likely"]
    assert line["canonical"] == "A2 -50 mm"


@pytest.mark.usefixtures("doubted")
def test_confirm_keeps_it(say: Say, talk: Conversation) -> None:
    turn = say("confirm")
    assert turn.recorded == ("reading-taken", "reading-accepted")
    assert talk.job.readings["A2"].mm == -50
    assert turn.reply.ask is None
    assert say("A2 -50").reply.ask is None  # not asked about again


@pytest.mark.parametrize("again", ["A2 -50", "point alpha two minus five zero", "A2 50"])
@pytest.mark.usefixtures("doubted")
def test_the_same_value_again_keeps_it_too(say: Say, talk: Conversation, again: str) -> None:
    turn = say(again)
    assert turn.recorded == ("reading-taken", "reading-accepted")
    assert talk.job.readings["A2"].mm == -50


@pytest.mark.parametrize(
    "bare", ["-50", "minus five zero", "50", "-15", "fifteen below", "minus one five", "-90", "15"]
)
def test_a_value_alone_is_taken_for_no_point(
    doubted: Turn, say: Say, talk: Conversation, bare: str
) -> None:
    """It may be the answer, or the next point's, said before the question was seen."""
    before = talk.job.readings
    turn = say(bare)
    assert not turn.ok
    assert turn.recorded == ()
    assert turn.reply.headline.startswith("Which point is that for? A2 is still open")
    assert turn.reply.ask == doubted.reply.ask
    assert talk.job.readings == before
    assert say("next point").reply.data["next"] == "A2"


@pytest.mark.parametrize("other", ["A2 -15", "A2 fifteen below", "correct A2 to minus one five"])
@pytest.mark.usefixtures("doubted")
def test_another_value_is_taken_instead(say: Say, talk: Conversation, other: str) -> None:
    turn = say(other)
    assert turn.recorded == ("reading-taken",)
    assert talk.job.readings["A2"].mm == -15
    assert talk.job.last_point == "A2"
    assert "lapsed" not in " ".join(turn.reply.details)
    assert talk.pending is None


@pytest.mark.usefixtures("doubted")
def test_another_value_without_a_side_is_asked_about_its_side(say: Say, talk: Conversation) -> None:
    assert say("A2 15").reply.ask == "A2, 15 mm: below or above?"
    assert say("below").recorded == ("reading-taken",)
    assert talk.job.readings["A2"].mm == -15


@pytest.mark.usefixtures("doubted")
def test_the_other_value_may_be_as_odd(say: Say) -> None:
    turn = say("A2 -90")
    assert turn.reply.ask is not None
    assert turn.reply.ask.startswith("A2 90 mm below?")
    assert say("A2 -15").recorded == ("reading-taken",)


@pytest.mark.usefixtures("doubted")
def test_cancelled_it_is_left_unread(say: Say, talk: Conversation) -> None:
    assert say("cancel that").recorded == ()
    assert "A2" not in talk.job.readings
    assert say("next point").reply.data["next"] == "A2"


@pytest.mark.usefixtures("doubted")
def test_another_point_goes_on_and_the_question_lapses(say: Say, talk: Conversation) -> None:
    turn = say("A3 -16")
    assert turn.recorded == ("reading-taken",)
    assert "the question about A2 lapsed" in " ".join(turn.reply.details)
    assert "A2" not in talk.job.readings


def test_an_ask_leaves_it_waiting(doubted: Turn, say: Say) -> None:
    assert say("tally").reply.ask == doubted.reply.ask
    assert say("say again").reply.headline == doubted.reply.ask
    assert say("confirm").recorded == ("reading-taken", "reading-accepted")


def test_the_wrong_side_is_put_right_with_one_word(say: Say, talk: Conversation) -> None:
    asked = say(*FIRST, "A2 plus 15")
    assert asked.reply.ask is not None
    assert say("below").recorded == ("reading-taken",)
    assert talk.job.readings["A2"].mm == -15


def test_a_side_asked_first_and_then_the_value(say: Say, talk: Conversation) -> None:
    assert say(*FIRST, "A2 50").reply.ask == "A2, 50 mm: below or above?"
    turn = say("below")
    assert turn.reply.ask is not None
    assert turn.reply.ask.startswith("A2 50 mm below?")
    assert say("A2 -15").recorded == ("reading-taken",)
    assert talk.job.readings["A2"].mm == -15


def test_a_correction_is_looked_at_too(say: Say, talk: Conversation) -> None:
    assert say(*FIRST, "correct C2 to -60").reply.ask is not None
    assert say("C2 -16").recorded == ("reading-corrected",)
    assert talk.job.readings["C2"].mm == -16


def test_a_display_that_jumps_about_something_odd(say: Say, talk: Conversation) -> None:
    assert say(*FIRST, "A2 minus 49, 50, 51").reply.ask is not None
    assert say("confirm").recorded == ("readings-taken", "reading-accepted")
    assert talk.job.readings["A2"].mm == -50


@pytest.mark.usefixtures("doubted")
def test_an_undo_takes_back_both_the_reading_and_its_acceptance(
    say: Say, talk: Conversation
) -> None:
    say("confirm")
    assert "five zero" in say("take that back").reply.say
    assert talk.job.survey.accepted == {}
    assert "A2" not in talk.job.readings


@pytest.mark.usefixtures("doubted")
def test_reopened_it_is_as_it_was(say: Say, talk: Conversation) -> None:
    from assistant.job import fold

    say("confirm", "new set up", "tie on A1 -45", "B3 minus 45, 46, 47", "grind A2 by 4 mm",
        "fix C1 at plus 2", "fall 1 percent towards A1", "step between A and B",
        "benchmark 1 at plus 40", "check zero level", "reference moved")  # fmt: skip
    assert fold(talk._journal.utterances()) == talk.job


def test_figures_typed_in_the_wrong_order_are_thought_of(say: Say) -> None:
    asked = say(*FIRST, "A2 -61").reply.ask
    assert asked is not None
    assert "“A2 -16 mm”" in asked
    assert say("A2 -16").reply.ask is None
