"""The cuts read out in walking order, a piece at a time, while somebody cuts."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.record.journal import Journal
from assistant.reply.replies import Turn
from assistant.reply.speaking_time import MORE, PIECE_S, speaking_seconds

WALK = [f"{column}1" for column in "ABCDEF"] + [f"{column}2" for column in "FEDCBA"]
NAMES = {"A": "Alfa", "B": "Bravo", "C": "Charlie", "D": "Delta", "E": "Echo", "F": "Foxtrot"}
ROWS = {"1": "one", "2": "two"}
Say = Callable[..., Turn]


@pytest.fixture
def talk(world: World) -> Conversation:
    talk = Conversation(Journal.open(None), world)
    for line in ("room 12 by 4 metres", "grid 2 metres", *(f"{p} -{9 + n}" for n, p in
                 reversed(list(enumerate(WALK)))), "B2 +1"):  # fmt: skip
        talk.hear(line)
    if talk.pending is not None:
        talk.hear("confirm")
    return talk


def aloud(point: str) -> str:
    return f"{NAMES[point[0]]} {ROWS[point[1]]},"


def pieces(say: Say) -> list[str]:
    said = [say("cut list").reply.say]
    while said[-1].endswith(MORE):
        said.append(say("more").reply.say)
    return said


def test_every_cut_is_read_in_walking_order_in_short_pieces(say: Say) -> None:
    said = pieces(say)
    assert len(said) > 1
    assert all(speaking_seconds(piece) <= PIECE_S for piece in said)
    whole = " ".join(said)
    places = [whole.index(aloud(point)) for point in WALK]
    assert places == sorted(places)
    assert whole.startswith("Eleven pins to cut. One point without. Alfa one, nine millimetres.")
    assert "Bravo two, no pin." in whole
    assert "Foxtrot one, one four millimetres." in whole


def test_it_waits_while_other_things_are_asked(say: Say) -> None:
    first, second, *_ = pieces(say)
    assert say("cut list").reply.say == first
    say("how deep at B1", "how many points left", "gibberish here")
    assert say("more").reply.say == second
    assert say("say again").reply.say == second


def test_what_is_recorded_ends_it(say: Say) -> None:
    say("cut list")
    turn = say("raise finish 1 mm")
    assert turn.recorded
    assert "Charlie" not in say("more").reply.say


def test_the_guide_has_its_own_more(say: Say) -> None:
    say("guide", "cut list", "where am I")
    first = say("cut list").reply.say
    assert first.startswith("Eleven pins")
    say("next step")
    assert "Foxtrot" not in say("more").reply.say


def test_a_screen_has_all_of_it_at_once(say: Say) -> None:
    reply = say("cut list").reply
    assert [row[0] for row in reply.tables[0].rows] == WALK


def test_however_short_replies_are_to_be_the_list_is_read(say: Say) -> None:
    usual = pieces(say)
    say("shorter")
    assert pieces(say) == usual


def test_in_inches(say: Say) -> None:
    said = say("readings in inches", "cut list").reply.say
    # 9 mm is 5.67 sixteenths, rounded down so that no pin stands proud.
    assert "Alfa one, five sixteenths inch." in said
