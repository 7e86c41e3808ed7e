"""What is listed nowhere: a question is answered, a change is offered, and nothing is made up."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from assistant.record.journal import Journal
from assistant.reply.replies import Turn
from grammar import understand

Say = Callable[..., Turn]

FLOOR = ("room 12 by 8 metres", "product example standard", "grid 2 metres", "B3 -18", "C3 -17")


@pytest.fixture
def floor(say: Say) -> Say:
    for line in FLOOR:
        assert say(line).ok
    return say


def test_a_question_is_answered_and_says_what_it_was_taken_for(floor: Say) -> None:
    listed = floor("how deep at B3")
    turn = floor("how deep would B3 be")
    assert turn.ok
    assert turn.taken_as == turn.canonical == "how deep at B3"
    assert turn.reply.headline == f"Taken as how deep at B3. {listed.reply.headline}"
    assert turn.reply.say.startswith("Taken as how deep at bravo three. ")
    assert turn.reply.data == listed.reply.data
    assert listed.taken_as is None


def test_a_change_is_offered_and_done_on_a_yes(floor: Say, journal: Journal) -> None:
    before = journal.last_utterance()
    turn = floor("amend the one at B3 to minus 16")
    assert turn.ok
    assert turn.reply.ask == "Did you mean: correct B3 -16?"
    assert turn.recorded == ()
    assert journal.last_utterance() == before
    done = floor("yes")
    assert done.recorded == ("reading-corrected",)
    assert "16 mm below" in done.reply.headline


def test_what_a_client_wants_is_offered_and_is_no_name(floor: Say) -> None:
    turn = floor("the customer wants it two mil higher")
    assert turn.reply.ask == "Did you mean: raise finish 2 mm?"
    assert turn.recorded == ()
    told = floor("client laughing her head off").reply
    assert not told.ask
    assert "stands a name" in told.headline


@pytest.mark.parametrize("answer", ["no", "nope", "leave it", "C3 -16"])
def test_an_offer_is_forgotten_on_all_else(floor: Say, answer: str) -> None:
    floor("amend the one at B3 to minus 16")
    turn = floor(answer)
    assert turn.reply.ask is None
    assert "lapsed" not in turn.reply.say
    assert not floor("yes").ok


def test_what_is_offered_is_still_held_against_the_floor(floor: Say) -> None:
    floor("amend the one at B3 to minus 910")
    turn = floor("yes")
    assert turn.recorded == ()
    assert turn.reply.ask is not None
    assert "910" in turn.reply.ask


def test_an_offer_takes_no_place_of_a_question_that_waits(floor: Say) -> None:
    asked = floor("D3 -910").reply.ask
    assert asked is not None
    turn = floor("amend the one at B3 to minus 16")
    assert not turn.ok
    assert turn.reply.ask == asked
    assert "Nearest: correct B3 -16" in turn.reply.headline
    assert "reading-taken" in floor("yes").recorded


def test_what_the_job_cannot_take_is_not_offered(floor: Say) -> None:
    turn = floor("amend the one at E4 to minus 16")
    assert not turn.ok
    assert turn.reply.ask is None
    assert "E4 has no reading" in turn.reply.headline


def test_what_if_goes_the_same_way(floor: Say, journal: Journal) -> None:
    before = journal.last_utterance()
    turn = floor("suppose we raise the finish 3 mm")
    assert turn.taken_as == "what if raise finish 3 mm"
    assert journal.last_utterance() == before


@pytest.mark.parametrize("line", ["zzz", "is the moon high", "grind it down by 4 mm", "B3 banana"])
def test_a_miss_is_said_in_eight_words(floor: Say, line: str) -> None:
    turn = floor(line)
    assert not turn.ok
    assert len(turn.reply.say.split()) <= 8


def test_an_offer_is_not_kept_for_the_next_opening(floor: Say, journal: Journal) -> None:
    floor("amend the one at B3 to minus 16")
    assert journal.left_open() is None


@pytest.mark.parametrize(
    ("written", "point"),
    [("be three minus 18 mm", "B3"), ("see two minus 18", "C2"), ("dee to 18 low", "D2")],
)
def test_what_a_phone_writes_is_taken_where_only_its_point_sounds_alike(
    floor: Say, written: str, point: str
) -> None:
    turn = floor(written)
    assert turn.recorded == ("reading-taken",)
    assert turn.reply.headline.startswith(f"{point} 18 mm below")
    assert turn.taken_as is not None


@pytest.mark.parametrize(
    ("written", "offered"),
    [
        ("before minus 17", "B4 -17"),
        ("eight two minus 17", "A2 -17"),
        ("83 minus 17", "A3 -17"),
        ("see two minus ate", "C2 -8"),
        ("correct see three to minus 16", "correct C3 -16"),
    ],
)
def test_and_asked_about_where_it_may_be_meant_as_it_stands(
    floor: Say, written: str, offered: str
) -> None:
    turn = floor(written)
    assert turn.recorded == ()
    assert turn.reply.ask == f"Did you mean: {offered}?"


def test_a_question_as_a_phone_writes_it_is_answered(floor: Say) -> None:
    assert floor("how deep at bee 3").taken_as == "how deep at B3"


def test_it_is_an_answer_where_a_reading_is_asked_about(floor: Say) -> None:
    assert floor("D3 -910").reply.ask is not None
    turn = floor("dee three minus 19")
    assert turn.recorded == ("reading-taken",)
    assert turn.reply.ask is None


@pytest.mark.parametrize(
    "line", ["you two 5 low", "are 3 minus 5", "why three below", "tea for two"]
)
def test_a_column_that_the_floor_does_not_have_is_no_column(floor: Say, line: str) -> None:
    turn = floor(line)
    assert (turn.recorded, turn.reply.ask) == ((), None)


def test_a_line_that_is_not_understood_ends_an_offer(floor: Say) -> None:
    floor("amend the number at B3 to minus 16")
    assert floor("the kettle is on").reply.ask is None
    assert floor("yes").recorded == ()


@pytest.mark.parametrize("line", ["yse", "ears clsoed", "cnfirm"])
def test_an_answer_is_never_guessed(floor: Say, line: str) -> None:
    floor("D3 -910")
    turn = floor(line)
    assert turn.recorded == ()
    assert turn.taken_as is None


def test_what_if_is_never_about_a_point_that_is_not_named(
    monkeypatch: pytest.MonkeyPatch, floor: Say
) -> None:
    raised = understand("what if raise finish 2 mm")
    bare = understand("what if minus 2 mm")
    monkeypatch.setattr("grammar.understanding.parse", lambda _words: (*bare, *raised))
    understand.cache_clear()
    try:
        assert understand("what if up 2 mm") == raised
        assert floor("what if up 2 mm").canonical == "what if raise finish 2 mm"
    finally:
        understand.cache_clear()


def test_what_a_phone_wrote_of_a_question_may_have_no_answer(say: Say) -> None:
    for line in ("room 12 by 8 metres", "grid 2 metres", "B3 -18"):
        say(line)
    turn = say("difference um B3 to eight four")
    assert not turn.ok
    assert "A4 has no reading" in turn.reply.headline


def test_a_point_alone_that_is_not_there_is_told_so(floor: Say) -> None:
    turn = floor("K9")
    assert "There is no point K9" in turn.reply.headline
    assert turn.reply.ask is None
