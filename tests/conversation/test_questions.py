"""Which of two things was said: what answers the question, and what makes it lapse."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields

import pytest

from assistant.conversation.conversation import Conversation
from assistant.conversation.either_or import Choice
from assistant.conversation.which import WhichHeard, WhichMeant
from assistant.decide import Question
from assistant.decide.questions import ReallySo, WhichSide, WhichUnit, YesOrNo
from assistant.reply.replies import Turn
from grammar import understand
from grammar.commands.talk import ChooseSide, Confirm

Say = Callable[..., Turn]

FIFTEEN, FIFTY = "bravo three minus fifteen", "bravo three minus fifty"


def choice(words: str) -> Choice:
    return Choice(understand(words)[0], words)


def either(talk: Conversation, *words: str) -> Turn:
    return talk.hear_either([choice(each) for each in words], words[0])


def lapsed(turn: Turn) -> bool:
    return any("lapsed" in line for line in turn.reply.details)


def test_both_are_named_and_neither_is_recorded(talk: Conversation) -> None:
    turn = either(talk, FIFTEEN, FIFTY)
    assert turn.recorded == ()
    assert turn.reply.ask == "B3 -15 mm or B3 -50 mm?"
    assert turn.reply.data["which"] == ["B3 -15 mm", "B3 -50 mm"]
    assert {"fifteen", "fifty"} <= set(talk.expected)


@pytest.mark.parametrize(
    ("answer", "mm"),
    [("confirm", -15), ("fifty", -50), ("B3 -50", -50), ("minus fifteen", -15)],
)
def test_an_answer_names_one_of_them(talk: Conversation, answer: str, mm: int) -> None:
    either(talk, FIFTEEN, FIFTY)
    turn = talk.hear(answer)
    assert turn.recorded == ("reading-taken",)
    assert not lapsed(turn)
    assert talk.job.readings["B3"].mm == mm


@pytest.mark.parametrize(("answer", "mm"), [("minus", -15), ("plus", 15), ("above", 15)])
def test_a_side_names_the_one_that_is_on_it(talk: Conversation, answer: str, mm: int) -> None:
    either(talk, FIFTEEN, "bravo three plus fifteen")
    assert talk.hear(answer).recorded == ("reading-taken",)
    assert talk.job.readings["B3"].mm == mm


def test_a_side_that_both_are_on_names_neither(talk: Conversation) -> None:
    either(talk, FIFTEEN, FIFTY)
    assert talk.hear("minus").recorded == ()
    assert talk.pending is not None


def test_the_same_two_heard_again_leave_the_question_standing(talk: Conversation) -> None:
    either(talk, FIFTEEN, FIFTY)
    assert not lapsed(either(talk, FIFTY, FIFTEEN))


def test_one_of_the_two_heard_beside_a_third_is_still_about_it(talk: Conversation) -> None:
    either(talk, FIFTEEN, FIFTY)
    assert not lapsed(either(talk, "charlie three minus fifty", FIFTY))


def test_two_others_let_it_lapse(talk: Conversation) -> None:
    either(talk, FIFTEEN, FIFTY)
    assert lapsed(either(talk, "charlie three minus fifteen", "charlie three minus fifty"))
    talk.hear("confirm")
    assert set(talk.job.readings) == {"C3"}


@pytest.mark.parametrize(
    ("kind", "confirmed"),
    [(YesOrNo, True), (ReallySo, True), (WhichHeard, False), (WhichUnit, False),
     (WhichSide, None), (WhichMeant, None)],
)  # fmt: skip
def test_what_confirm_settles(kind: type[Question], confirmed: bool | None) -> None:
    """Heard right is not yet so: what was only heard is still looked at before it counts."""
    command = understand("B3 -50 mm")[0]
    settled = kind("?", "?", command).settled_by_word(Confirm())
    assert (settled and settled.confirmed) is confirmed


def test_a_side_is_no_answer_to_yes_or_no() -> None:
    question = YesOrNo("?", "?", understand("close room")[0])
    assert question.settled_by_word(ChooseSide("below")) is None


def test_a_kind_of_question_that_knows_no_answer_cannot_be_asked() -> None:
    @dataclass(frozen=True, slots=True)
    class Forgotten(Question):
        """Says nothing of what settles it."""

    with pytest.raises(TypeError, match="settled_by_word"):
        Forgotten("?", "?", understand("close room")[0])  # type: ignore[abstract]


def test_no_module_tells_kinds_of_questions_apart_by_a_word() -> None:
    assert "kind" not in {field.name for field in fields(Question)}


def test_asked_once_more_a_question_still_lists_its_choices(talk: Conversation) -> None:
    either(talk, FIFTEEN, FIFTY)
    assert talk.hear("say again").reply.data["which"] == ["B3 -15 mm", "B3 -50 mm"]


def test_a_question_put_in_place_of_another_is_said_as_a_question(talk: Conversation) -> None:
    talk.hear("B3 18")
    turn = talk.hear("C3 15")
    assert turn.reply.say == (
        "Charlie three, one five millimetres. Below or above? "
        "The question about B3 lapsed, nothing recorded for it."
    )


@pytest.mark.parametrize("asked", ["B3 three eighths low", "B3 18", "B3 -910"])
def test_another_value_for_the_point_is_an_answer_too(talk: Conversation, asked: str) -> None:
    """Whatever was asked about the reading of a point, the point's reading settles it."""
    assert not talk.hear(asked).recorded
    turn = talk.hear("B3 -13")
    assert turn.reply.headline.startswith("B3 13 mm below")
    assert not lapsed(turn)
    talk.hear(asked)
    assert lapsed(talk.hear("C3 -13"))


@pytest.mark.parametrize(
    ("asked", "told"),
    [("B3 three eighths low", "B3 3/8 in below"), ("B3 -910", "B3 910 mm below")],
)
def test_yes_is_a_yes(talk: Conversation, asked: str, told: str) -> None:
    assert not talk.hear(asked).recorded
    assert talk.hear("yes").reply.headline.startswith(told)


def test_yes_says_neither_below_nor_above(talk: Conversation) -> None:
    talk.hear("B3 18")
    assert not talk.hear("yes").recorded
    assert talk.hear("below").reply.headline.startswith("B3 18 mm below")


def test_how_big_it_is_may_be_said_by_itself(talk: Conversation) -> None:
    """Of a column of which only the place was said."""
    assert talk.hear("column at B2").reply.headline.startswith("How big is the column?")
    turn = talk.hear("0.4 by 0.4 m")
    assert turn.recorded == ("obstacle-added",)
    assert not lapsed(turn)
    assert talk.pending is None
    assert not talk.hear("pillar at 6 by 2 m").recorded
    turn = talk.hear("round column 0.3 m at 6 by 2 m")
    assert turn.recorded
    assert not lapsed(turn)
    assert not talk.hear("hole at C1").recorded
    assert talk.hear("0.2 m").canonical == "round hole 0.2 m at C1"
    assert not talk.hear("hole at C3").recorded
    assert lapsed(talk.hear("A1 -10"))
    assert not talk.hear("confirm").ok


# --- undo while a question waits ----------------------------------------------------------------


@pytest.mark.parametrize("word", ["undo", "take that back", "oops"])
def test_undo_takes_back_what_is_asked_about_and_not_what_was_recorded_before(
    say: Say, talk: Conversation, word: str
) -> None:
    """Else the next value would be read at a point that has been read already."""
    say("A1 -9", "-10")
    assert say("18").reply.ask
    turn = say(word)
    assert (turn.ok, turn.recorded, turn.reply.ask) == (True, (), None)
    assert turn.reply.headline == (
        "C1: left as it was, nothing recorded. To take back what was recorded before it: undo "
        "once more."
    )
    assert list(talk.job.readings) == ["A1", "B1"]
    assert say("-13").recorded
    assert list(talk.job.readings) == ["A1", "B1", "C1"]


def test_undo_once_more_takes_back_what_was_recorded(say: Say, talk: Conversation) -> None:
    say("A1 -9", "-10", "18", "undo", "undo")
    assert list(talk.job.readings) == ["A1"]


def test_so_many_undone_are_of_what_was_recorded(say: Say, talk: Conversation) -> None:
    say("A1 -9", "-10", "18", "undo 2")
    assert not talk.job.readings
