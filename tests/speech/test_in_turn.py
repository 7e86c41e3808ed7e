"""What cannot be meant while a floor is poured is less likely to be what was heard."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from assistant.conversation.conversation import Conversation
from assistant.ears.builtin import BuiltinEngine
from assistant.ears.entries import Hypothesis
from assistant.ears.hearing import hear_in_turn
from grammar import understand
from tests.floor.plans import LEVEL


def doubted(talk: Conversation, *lines: str) -> list[str]:
    return [line for line in lines if talk.out_of_turn(understand(line)[0])]


def test_what_the_pour_would_refuse_is_out_of_turn_once_it_has_begun(talk: Conversation) -> None:
    said = ("start pour", "stop pour", "pour on", "hole", "strip 1 done", "strip 9 done", "batch",
            "front at 14 metres", "front at 3 metres", "tally", "A1 -6")  # fmt: skip
    for line in LEVEL:
        talk.hear(line)
    assert doubted(talk, *said) == []
    for line in ("start pour anyway because it is tried", "batch 10 bags"):
        talk.hear(line)
    assert doubted(talk, *said) == [
        "start pour", "pour on", "hole", "strip 9 done", "front at 14 metres",
    ]  # fmt: skip
    for line in ("strip 1 done", "stop pour"):
        talk.hear(line)
    assert doubted(talk, *said) == [
        "start pour", "stop pour", "strip 1 done", "strip 9 done", "front at 14 metres",
        "front at 3 metres",
    ]  # fmt: skip
    talk.hear("pour on")
    water = ("batch 5.2 litres a bag", "batch 7.8 litres a bag", "batch 9.2 litres a bag",
             "batch 3 litres a bag", "batch 4 litres a bag")  # fmt: skip
    # the card allows 4.75 to 5.25 L
    assert doubted(talk, *water) == ["batch 9.2 litres a bag", "batch 3 litres a bag"]
    talk.hear("pour finished")
    assert doubted(talk, *said) == []


def test_it_falls_behind_by_three_nats_and_no_farther() -> None:
    best: Any = None
    for refused, words, nats in (
        ("start pour", "start pour", 3.0), ("start pour", "stop pour", 0.0), (None, "hole", 0.0),
    ):  # fmt: skip
        out = None if refused is None else lambda said, no=refused: said == understand(no)[0]
        ears: Any = SimpleNamespace(_out_of_turn=out)
        entry = Hypothesis(words, best, 0.0, tuple(understand(words)))
        assert BuiltinEngine._out_of_turn_nats(ears, entry) == nats, words
    assert BuiltinEngine._out_of_turn_nats(ears, Hypothesis("mumble", best, 0.0)) == 0


def test_an_engine_is_told_of_it_where_it_can_be() -> None:
    told: list[Any] = []
    engine: Any = SimpleNamespace(hear_in_turn=told.append)
    hear_in_turn(engine, understand)  # type: ignore[arg-type]  # any function
    assert told == [understand]
    cannot: Any = SimpleNamespace()
    hear_in_turn(cannot, None)
