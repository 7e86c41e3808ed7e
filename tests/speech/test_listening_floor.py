"""How the floor around weighs what was heard, and a whole survey dictated in noise."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest

from assistant.conversation.conversation import Conversation
from assistant.conversation.which import WhichHeard
from assistant.decide import World
from assistant.decide.questions import ReallySo
from assistant.ears.hearing import Alternative, Heard, Tier
from assistant.ears.script import heard_text
from assistant.floor.mishearings import alternatives
from assistant.floor.suspicion import weigh_readings
from assistant.listening.listening import Listening
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from grammar import short_form, understand
from grammar.commands import Reading
from grammar.commands.readings import TakeReading
from grammar.slots.measure import spoken_measure
from tests.speech.stand_in_hearing import FIFTEEN, FIFTY, heard, readings, said


def hollow(talk: Conversation) -> None:
    for line in ("A1 -14", "B1 -15", "C1 -16", "D1 -15", "A2 -14", "B2 -15", "C2 -15", "D2 -14"):
        assert talk.hear(line).recorded, line


def test_the_floor_orders_what_is_offered(talk: Conversation) -> None:
    hollow(talk)
    taken = Listening(talk, weigh=weigh_readings).take(heard(FIFTY, FIFTEEN))
    assert said(taken) == "One five or five zero?"
    assert readings(talk).get("B3") is None


def test_the_floor_makes_nothing_sure(talk: Conversation) -> None:
    listening = Listening(talk, weigh=lambda *_: (1.0, 0.0))
    assert listening.take(heard(FIFTEEN, FIFTY, chances=(0.86, 0.14))).tier == "ask"
    assert readings(talk) == {}


def test_a_sure_reading_that_the_floor_does_not_bear_out_is_asked_about(
    talk: Conversation,
) -> None:
    hollow(talk)
    taken = Listening(talk).take(heard_text(FIFTY))
    assert taken.turn is not None
    assert taken.turn.reply.ask is not None
    assert "B3" not in readings(talk)


def test_one_question_is_enough_where_the_floor_doubts_what_was_heard(talk: Conversation) -> None:
    hollow(talk)
    taken = Listening(talk).take(heard(FIFTY, chances=(1.0,)))
    assert taken.tier == "ask"
    assert talk.pending is not None
    assert isinstance(talk.pending, ReallySo)
    assert talk.hear("confirm").recorded


def test_to_have_heard_right_is_not_to_have_read_right(talk: Conversation) -> None:
    hollow(talk)
    Listening(talk).take(heard(FIFTY, FIFTEEN))
    assert not talk.hear("confirm").recorded
    assert talk.pending is not None
    assert isinstance(talk.pending, ReallySo)
    assert "B3" not in readings(talk)


def test_a_point_that_the_floor_lacks_gives_way_to_a_rival_that_it_has(talk: Conversation) -> None:
    there, lacking = "bravo three minus fifteen millimetres", "bravo thirteen minus fifteen mm"
    taken = Listening(talk).take(heard(lacking, there, chances=(0.97, 0.03), tier="sure"))
    assert taken.tier == "ask"
    assert said(taken) == "Bravo three minus fifteen millimetres? Confirm, or cancel that."
    assert readings(talk) == {}
    assert talk.hear("confirm").recorded
    assert readings(talk) == {"B3": -15}


def test_a_point_that_the_floor_lacks_is_refused_where_no_rival_is_on_it(
    talk: Conversation,
) -> None:
    lacking, lacking_too = "bravo thirteen minus fifteen mm", "bravo thirty minus fifteen mm"
    taken = Listening(talk).take(heard(lacking, lacking_too, chances=(0.97, 0.03), tier="sure"))
    assert taken.turn is not None
    assert "The grid runs A1 to" in f"{taken.turn.reply.headline} {taken.turn.reply.details}"
    assert talk.pending is None


def test_other_things_are_not_weighed(talk: Conversation) -> None:
    def never(*_: object) -> tuple[float, float]:
        raise AssertionError

    listening = Listening(talk, weigh=never)
    listening.take(
        heard("bravo two minus three millimetres", "bravo three minus three millimetres")
    )
    listening.take(heard("tally", "map"))


# --- where nothing was read yet ---------------------------------------------------------------

FAR_OFF = "alfa one minus one eight zero zero millimetres"


@pytest.mark.parametrize(
    ("answer", "left"),
    [
        ("confirm", {"A1": -1800}),
        (FAR_OFF, {"A1": -1800}),
        ("alfa one minus eighteen millimetres", {"A1": -18}),
        ("minus eighteen millimetres", {}),  # of A1, or of the next point?
        ("cancel that", {}),
    ],
)
def test_a_sure_reading_that_no_floor_has_is_asked_about(
    listening: Listening, talk: Conversation, answer: str, left: dict[str, int]
) -> None:
    taken = listening.take(heard_text(FAR_OFF))
    assert said(taken) == (
        "Alfa one, one eight zero zero millimetres below? Far from the zero. Confirm?"
    )
    assert readings(talk) == {}
    listening.take(heard_text(answer))
    assert readings(talk) == left


def test_of_two_that_were_heard_the_far_one_is_asked_about_once_more(
    listening: Listening, talk: Conversation
) -> None:
    listening.take(heard(FAR_OFF, "alfa one minus eighteen millimetres"))
    listening.take(heard_text("confirm"))
    assert talk.pending is not None
    assert isinstance(talk.pending, ReallySo)
    assert readings(talk) == {}


# --- a whole survey, dictated in noise ------------------------------------------------------


class Mishearing:
    """Ears that mix things up as often as noisy ones do, and know how sure they are."""

    def __init__(self, seed: int) -> None:
        self._random = random.Random(seed)
        self.wrong_first = 0

    def hear(self, said: str) -> Heard:
        truth = understand(said)[0]
        others = [command for command in self._rivals(truth) if command != truth]
        kind = self._random.random()
        if not others or kind < 0.45:
            return self._heard([truth, *others[:1]], (0.97, 0.03), "sure")
        rival = self._random.choice(others)
        if kind < 0.65:
            return self._heard([truth, rival], (0.7, 0.3), "ask")
        self.wrong_first += 1
        if kind < 0.9:
            return self._heard([rival, truth], (0.6, 0.4), "ask")
        if kind < 0.95:
            more = [other for other in others if other != rival][:1]
            return self._heard([rival, *more], (0.6, 0.4), "ask")
        return self._heard([rival, truth], (0.5, 0.3), "again")

    def _rivals(self, truth: object) -> list[TakeReading]:
        if not isinstance(truth, TakeReading):
            return []
        values = [replace(truth, reading=other) for other in alternatives(truth.reading)]
        point = truth.point or ""
        near = {"B": "D", "D": "B", "C": "A", "A": "C"}.get(point[:1])
        return [*values, *([replace(truth, point=near + point[1:])] if near else [])]

    def _heard(self, commands: list[object], chances: tuple[float, ...], tier: Tier) -> Heard:
        found = tuple(
            Alternative(in_words(command), command, short_form(command), chance, 0.0)  # type: ignore[arg-type]
            for command, chance in zip(commands, chances, strict=False)
        )
        return Heard(found[0].words, found, tier, found[0].command)


def in_words(command: object) -> str:
    if not isinstance(command, TakeReading):
        return short_form(command)  # type: ignore[arg-type]
    number, unit = command.reading.number, command.reading.unit or "mm"
    sign = "minus" if number < 0 else "plus"
    return f"{command.point} {sign} {spoken_measure(abs(number), unit)}"


def answer_truthfully(asked: str, choices: list[str], truth: TakeReading) -> str:
    """What an installer says who knows what they said first."""
    assert asked
    return "confirm" if choices[:1] == [short_form(truth)] else (
        in_words(truth) if short_form(truth) in choices else "cancel that"
    )  # fmt: skip


@pytest.mark.parametrize("seed", range(8))
def test_a_survey_dictated_in_noise_has_no_silent_wrong_number(seed: int) -> None:
    """The ears are right when they say they are sure; otherwise anything may come first."""
    rng = random.Random(1000 + seed)
    ears = Mishearing(seed)
    truth: dict[str, int] = {}
    with Journal.open(None) as journal:
        talk = Conversation(journal, World(cards_in(shipped_folder())))
        for line in ("room 8 by 6 metres", "grid 2 metres"):
            talk.hear(line)
        listening = Listening(talk, weigh=weigh_readings, keep_miss=journal.note_miss)
        for row in (1, 2, 3):
            for column in "ABCD":
                size = rng.choice([13, 15, 16, 19, 30, 50, 60, 18, 9])
                truth[f"{column}{row}"] = -size
                dictate(f"{column}{row} minus {size} mm", ears, listening, talk)
        assert ears.wrong_first > 0
        assert len(journal.misses()) > 0
        assert {point: int(mm) for point, mm in readings(talk).items()} == truth


def dictate(line: str, ears: Mishearing, listening: Listening, talk: Conversation) -> None:
    """Say one reading until it is on record, answering what is asked by the truth."""
    meant = understand(line)[0]
    assert isinstance(meant, TakeReading)
    meant = replace(meant, reading=Reading(meant.reading.number, "mm"))
    for _ in range(60):
        taken = listening.take(ears.hear(line))
        for _ in range(5):
            if talk.pending is None:
                break
            settle(meant, listening, talk)
        assert taken.turn is not None
        known = talk.job.readings.get(meant.point or "")
        if known is not None:
            return
    raise AssertionError(line)


def settle(meant: TakeReading, listening: Listening, talk: Conversation) -> None:
    pending = talk.pending
    assert pending is not None
    if isinstance(pending, WhichHeard):
        forms = pending.text.removesuffix("?").split(": ")[0].split(" or ")
        words = answer_truthfully(pending.text, forms, meant)
    else:  # the floor doubts it: yes if it is what was meant
        words = "confirm" if pending.command == meant else "cancel that"
    listening.take(heard_text(words))


def test_the_survey_would_show_a_silent_wrong_number() -> None:
    """Ears that are sure of what was never said: then only the floor and the read-back help."""
    with Journal.open(None) as journal:
        talk = Conversation(journal, World({}))
        wrong = heard_text("B3 minus 50 mm")
        taken = Listening(talk).take(wrong)
        assert readings(talk) == {"B3": Fraction(-50)}
        assert said(taken).startswith("Bravo three, five zero millimetres below")
