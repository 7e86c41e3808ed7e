"""Two things that may have been said: the question that names them, and what answers it."""

from __future__ import annotations

import pytest

from assistant.conversation.conversation import Conversation
from assistant.conversation.either_or import Choice, choice_named, differing_parts
from assistant.ears.script import heard_text
from assistant.listening.listening import Listening
from assistant.record.journal import Journal
from grammar import short_form, understand
from tests.speech.stand_in_hearing import FIFTEEN, FIFTY, heard, readings, said


def test_nearly_sure_is_asked_naming_the_two(listening: Listening, talk: Conversation) -> None:
    taken = listening.take(heard(FIFTEEN, FIFTY))
    assert taken.tier == "ask"
    assert taken.turn is not None
    assert taken.turn.reply.ask == "B3 -15 mm or B3 -50 mm?"
    assert said(taken) == "One five or five zero?"
    assert talk.pending is not None
    assert readings(talk) == {}


ANSWERS = [
    ("fifteen", -15),
    ("fifty", -50),
    ("minus fifteen", -15),
    ("minus fifty millimetres", -50),
    ("15", -15),
    (FIFTY, -50),
    ("B3 -15", -15),
    ("confirm", -15),
]


@pytest.mark.parametrize(("words", "mm"), ANSWERS)
def test_the_value_itself_answers(
    listening: Listening, talk: Conversation, journal: Journal, words: str, mm: int
) -> None:
    listening.take(heard(FIFTEEN, FIFTY))
    turn = listening.take(heard_text(words)).turn
    assert turn is not None
    assert turn.ok
    assert turn.recorded
    assert readings(talk) == {"B3": mm}
    assert talk.pending is None
    assert journal.entries()[-1].said == f"{FIFTEEN}\n{words}"


@pytest.mark.parametrize(("words", "mm"), ANSWERS)
def test_typed_it_answers_as_well(
    listening: Listening, talk: Conversation, words: str, mm: int
) -> None:
    listening.take(heard(FIFTEEN, FIFTY))
    assert talk.hear(words).recorded
    assert readings(talk) == {"B3": mm}


def test_cancel_that_leaves_it(listening: Listening, talk: Conversation) -> None:
    listening.take(heard(FIFTEEN, FIFTY))
    listening.take(heard_text("cancel that"))
    assert readings(talk) == {}
    assert talk.pending is None


def test_another_reading_lets_the_question_lapse_and_says_so(
    listening: Listening, talk: Conversation
) -> None:
    listening.take(heard(FIFTEEN, FIFTY))
    taken = listening.take(heard_text("charlie two minus nine millimetres"))
    assert readings(talk) == {"C2": -9}
    assert "question about B3 lapsed" in said(taken)


@pytest.mark.parametrize(
    ("words", "asked"),
    [
        (
            ("bravo two plus three millimetres", "bravo two minus three millimetres"),
            "Plus or minus?",
        ),
        (("alfa one minus six millimetres", "alfa two minus six millimetres"), "One or two?"),
        (
            ("bravo one minus six millimetres", "delta one minus six millimetres"),
            "Bravo or delta?",
        ),
        (("alfa one minus six inches", "alfa one minus six millimetres"), "Inches or millimetres?"),
        (
            ("alfa one minus twenty five millimetres", "alfa one minus twenty millimetres"),
            "Twenty five or twenty?",
        ),
        (
            # As a recogniser may spell it.
            ("Bravo 2 minus fifteen millimeters.", "Bravo two minus 50 mm."),
            "One five or five zero?",
        ),
        (
            ("strike point bravo one", "tally"),
            "Strike bravo one or tally?",
        ),
    ],
)
def test_only_what_differs_is_said(
    listening: Listening, talk: Conversation, words: tuple[str, str], asked: str
) -> None:
    talk.hear("B1 -4")
    assert said(listening.take(heard(*words))) == asked


def test_one_that_has_no_rival_is_read_back_for_a_yes(
    listening: Listening, talk: Conversation
) -> None:
    taken = listening.take(heard(FIFTEEN, FIFTY, chances=(0.995, 0.005)))
    assert said(taken) == f"{FIFTEEN.capitalize()}? Confirm, or cancel that."
    listening.take(heard_text("confirm"))
    assert readings(talk) == {"B3": -15}


def test_a_choice_that_the_job_cannot_take_is_not_offered(listening: Listening) -> None:
    taken = listening.take(heard("strike bravo three", FIFTEEN))
    assert taken.turn is not None
    assert taken.turn.reply.ask == "B3 -15 mm: confirm, or cancel that?"


def test_where_the_job_can_take_neither_it_says_why(listening: Listening) -> None:
    taken = listening.take(heard("strike bravo three", "strike delta three"))
    assert taken.turn is not None
    assert not taken.turn.ok
    assert "B3" in taken.turn.reply.headline


@pytest.mark.parametrize("answer", ["confirm", "cancel that", "say again"])
def test_an_unsure_answer_settles_nothing(
    listening: Listening, talk: Conversation, answer: str
) -> None:
    listening.take(heard(FIFTEEN, FIFTY))
    taken = listening.take(heard(answer, "tally"))
    assert taken.tier == "again"
    assert said(taken) == "Say again. One five or five zero?"
    assert talk.pending is not None
    assert readings(talk) == {}


def test_an_unsure_value_settles_nothing_either(listening: Listening, talk: Conversation) -> None:
    listening.take(heard(FIFTEEN, FIFTY))
    taken = listening.take(heard(FIFTY, FIFTEEN))
    assert said(taken) == "Five zero or one five?"
    assert readings(talk) == {}


def test_say_again_repeats_the_question(listening: Listening) -> None:
    listening.take(heard(FIFTEEN, FIFTY))
    assert said(listening.take(heard_text("say again"))) == "One five or five zero?"


def test_a_question_lapses_to_not_done(listening: Listening, talk: Conversation) -> None:
    listening.take(heard(FIFTEEN, FIFTY))
    reply = talk.let_lapse()
    assert reply is not None
    assert reply.say == "No answer. bravo three not done."
    assert talk.pending is None
    assert not talk.hear("confirm").recorded
    assert talk.let_lapse() is None


def test_a_bare_reading_that_is_asked_about_is_the_next_points(
    listening: Listening, talk: Conversation
) -> None:
    taken = listening.take(heard("minus fifteen millimetres", "minus fifty millimetres"))
    assert taken.turn is not None
    assert taken.turn.reply.ask == "A1 -15 mm or A1 -50 mm?"
    listening.take(heard_text("minus fifty millimetres"))
    assert readings(talk) == {"A1": -50}


def test_the_ears_are_told_what_would_answer(listening: Listening, talk: Conversation) -> None:
    assert listening.expected == {}
    listening.take(heard(FIFTEEN, FIFTY))
    answers = {words: short_form(command) for words, command in listening.expected.items()}
    fifteen, fifty = "B3 -15 mm", "B3 -50 mm"
    assert answers == {
        "fifteen": fifteen, "fifty": fifty, "one five": fifteen, "five zero": fifty,
    }  # fmt: skip
    talk.hear("confirm")
    assert listening.expected == {}
    talk.hear("B3 18")
    assert listening.expected == {}


# --- what counts as an answer -----------------------------------------------------------


def choice(words: str) -> Choice:
    return Choice(understand(words)[0], words)


def test_words_that_tell_the_two_apart() -> None:
    bravo, delta = choice("bravo three minus six"), choice("delta three minus six")
    assert choice_named("bravo", (), [bravo, delta]) == bravo.command
    assert choice_named("delta three", (), [bravo, delta]) == delta.command
    assert choice_named("three", (), [bravo, delta]) is None
    assert choice_named("echo three", (), [bravo, delta]) is None


def test_a_piece_of_both_is_no_answer() -> None:
    five, fifty_five = choice("alfa one minus five"), choice("alfa one minus fifty five")
    assert differing_parts([five.words, fifty_five.words]) == ["five", "fifty five"]
    assert choice_named("five", understand("five"), [five, fifty_five]) == five.command
    assert choice_named("fifty", understand("fifty"), [five, fifty_five]) is None


def test_a_size_that_both_have_is_no_answer() -> None:
    plus, minus = choice("alfa one plus five"), choice("alfa one minus five")
    assert choice_named("five", understand("five"), [plus, minus]) is None
    assert choice_named("minus", (), [plus, minus]) == minus.command
    assert choice_named("minus five", understand("minus five"), [plus, minus]) == minus.command
    assert choice_named("5 above", understand("5 above"), [plus, minus]) == plus.command
