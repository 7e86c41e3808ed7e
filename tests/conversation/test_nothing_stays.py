"""A line that recorded nothing does not change how the next line is understood."""

from __future__ import annotations

from functools import cache
from random import Random

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.reply.replies import Turn
from grammar.phrases import PHRASES
from grammar.sentences import random_sentence
from tests.fuzz import mangled

WORLD = World(cards_in(shipped_folder()))
JOBS = {
    "begun": ("room 8 by 6 metres", "grid 2 metres", "benchmark 1 at +40", "A1 -15", "B1 -16"),
    "in inches": ("readings in inches", "room 20 by 16 ft", "grid 6 ft", "A1 -1/2"),
    "moved": ("room 8 by 6 metres", "grid 2 metres", "A1 -15", "new set up", "tie on A1 -20"),
    "no grid": ("room 8 by 6 metres",),
}
NEXT = ("-12", "12 low", "12", "level", "-3/8", "-4 1/2", "C2 -12", "C2 12", "C2 -12 mm")
SLIPS = (
    "C2 -14 feet", "C2 -50 cm", "C2 14 in", "-14 feet", "900 mm low", "C2 -3/8", "-1 3/8",
    "Z9 -14 in", "correct C2 to -3 in", "finish 3 ft above", "tie on C2 -3 in",
    "C2 -400 410 405 in", "what if C2 -3 in", "what if readings in inches", "grid 2 feet",
    "what if new set up", "door 1 left -3 in right 4", "point C2 at 90 by 90 ft",
    "what if C2 -14 feet", "how deep at 3 by 3 ft", "check zero -14 in", "C2 hot", "C2 -14 litres",
)  # fmt: skip


def begun(job: str) -> Conversation:
    talk = Conversation(Journal.open(None), WORLD)
    for line in JOBS[job]:
        assert talk.hear(line).recorded, line
    return talk


def meant(turn: Turn) -> tuple[object, ...]:
    return turn.ok, turn.canonical, turn.recorded, turn.reply.headline


@cache
def without(job: str, line: str) -> tuple[object, ...]:
    """What a line comes to in a job where nothing was said before it."""
    return meant(begun(job).hear(line))


def end(talk: Conversation, how: str) -> None:
    """See to it that no question waits."""
    if how == "cancelled":
        talk.hear("cancel that")
    elif how == "unanswered":
        talk.let_lapse()
    else:
        # Its own question takes the place of the other; left alone as well, it is the last.
        talk.hear("strike A1" if how == "another, refused" else "finish 3 m above")
        talk.let_lapse()


ENDS = ("cancelled", "unanswered", "another, asked", "another, refused")


def anything(seed: int) -> str:
    random = Random(seed)
    if random.random() < 0.5:
        return mangled(random)
    return random_sentence(random.choice(PHRASES), random).text


@pytest.mark.parametrize("slip", SLIPS)
@pytest.mark.parametrize("following", ["-12", "C2 12", "C2 -12"])
def test_after_a_slip(slip: str, following: str) -> None:
    for how in ("cancelled", "unanswered"):
        talk = begun("begun")
        assert not talk.hear(slip).recorded
        end(talk, how)
        assert meant(talk.hear(following)) == without("begun", following), how


@pytest.mark.slow
@settings(max_examples=150, deadline=None)
@given(
    st.sampled_from(list(JOBS)),
    st.lists(st.sampled_from(SLIPS) | st.integers(0, 2**32).map(anything), min_size=1, max_size=3),
    st.sampled_from(ENDS),
    st.sampled_from(NEXT),
)
def test_after_lines_of_every_kind(job: str, lines: list[str], how: str, following: str) -> None:
    talk = begun(job)
    for line in lines:
        assume(not talk.hear(line).recorded)
    if talk.pending is not None:
        end(talk, how)
    assume(len(talk.job.history) == len(JOBS[job]))
    assert meant(talk.hear(following)) == without(job, following)


@pytest.mark.parametrize(
    ("slip", "following", "short"),
    [
        ("C2 -14 feet", "C2 12", "C2 12 mm"),
        ("C2 -14 feet", "C2 -12", "C2 -12 mm"),
        ("C2 -50 cm", "C2 -14", "C2 -14 mm"),
        ("C2 -20 in", "C2 -20", "C2 -20 mm"),
        ("C2 -3/8", "C2 -14", "C2 -14 mm"),
        ("C2 3 in", "C2 -3", "C2 -3 mm"),
        ("correct A1 to -14 feet", "A1 -14", "A1 -14 mm"),
    ],
)
def test_the_unit_in_doubt_is_not_the_next_ones(slip: str, following: str, short: str) -> None:
    """While the question still waits: the value is said again, and in the job's unit."""
    talk = begun("begun")
    assert not talk.hear(slip).recorded
    turn = talk.hear(following)
    assert turn.canonical is not None
    assert turn.canonical.removeprefix("correct ").replace("to ", "") == short


def test_the_same_part_again_is_the_same_part() -> None:
    talk = begun("begun")
    talk.hear("C2 -20 3/8 in")
    assert talk.hear("C2 -20 3/8").recorded
    assert float(talk.job.readings["C2"].mm) == -20.375 * 25.4
