"""The unit of a reading: left out where the job's readings are in millimetres, missed elsewhere."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from assistant.conversation.conversation import Conversation
from assistant.ears.beam_search import Beam, DecodedSentence
from assistant.ears.entries import Entries
from assistant.ears.hearing import Heard
from assistant.ears.judging import SpeechManner, judge_sentences
from assistant.ears.lacking import lacks_unit, with_a_unit
from assistant.ears.rivals import sounding_alike
from assistant.ears.script import ScriptEngine
from assistant.ears.thresholds import load_limits
from assistant.listening.hearing_files import FileEars, hear_files
from assistant.listening.listening import Listening
from assistant.sound.sound_files import Recording
from grammar import short_form, understand
from grammar.aloud import said_aloud
from grammar.automaton import Automaton
from grammar.spoken import Spoken
from grammar.template import read_template
from tests.speech.stand_in_ears import Listener
from tests.speech.stand_in_hearing import FIFTEEN, FIFTY, heard, said

INCHES = "bravo three minus fifteen inches"
NO_UNIT = "Bravo three, minus two."


class Follows(ScriptEngine):
    """Notes which unit it is given, before which line."""

    def __init__(self, lines: list[str]) -> None:
        super().__init__(lines)
        self.units: list[str | None] = []

    def hear_readings_in(self, unit: str | None) -> None:
        self.units.append(unit)


class Deaf:
    """Finds no speech anywhere."""

    def __call__(self, frame: np.ndarray) -> float:
        return 0.0 * len(frame)

    def reset(self) -> None:
        pass


def test_the_ears_follow_the_unit_of_the_job(listening: Listening) -> None:
    engine = Follows(["bravo three minus eighteen", "readings in inches", "tally"])
    silence = Recording(np.zeros(16_000, np.float32), 16_000, 1)
    ears = FileEars(engine, Deaf(), lambda _: silence)
    shown: list[object] = []

    def show(_: int, one: object) -> None:
        shown.append(one)
        if len(shown) == 1:
            listening._conversation.hear("readings in inches")

    hear_files([Path("1.wav"), Path("2.wav")], ears, show, listening)
    assert engine.units == ["mm", "in"]


def test_from_a_microphone_too(listener: Callable[..., Listener]) -> None:
    here, units = listener("tally", hands_free=True), list[str | None]()
    here.engine.hear_readings_in = units.append  # type: ignore[attr-defined]
    here.ears.reading_unit = lambda: "in"
    here.microphone.speak()
    assert here.heard() is not None
    assert units == ["in"]


# --- what is offered ------------------------------------------------------------------


def test_a_unit_that_the_job_does_not_use_is_not_offered_unless_clearly_heard(
    listening: Listening,
) -> None:
    asked = listening.take(heard(FIFTEEN, INCHES, FIFTY, chances=(0.6, 0.2, 0.2))).turn
    assert asked is not None
    assert asked.reply.ask == "B3 -15 mm or B3 -50 mm?"


def test_where_it_was_clearly_heard_it_is(listening: Listening) -> None:
    asked = listening.take(heard(FIFTEEN, INCHES, FIFTY, chances=(0.6, 0.3, 0.1))).turn
    assert asked is not None
    assert asked.reply.ask == "B3 -15 mm or B3 -15 in?"


def test_in_a_job_of_inches_it_is_the_other_way_round(
    listening: Listening, talk: Conversation
) -> None:
    talk.hear("readings in inches")
    inches = (INCHES, FIFTEEN, "bravo three minus fifty inches")
    asked = listening.take(heard(*inches, chances=(0.6, 0.2, 0.2))).turn
    assert asked is not None
    assert asked.reply.ask == "B3 -15 in or B3 -50 in?"


def test_a_rival_in_the_unit_of_the_likeliest_is_offered_however_unlikely(
    listening: Listening,
) -> None:
    # Inches were heard: which point it was is another matter.
    inches = ("bravo one minus two inches", "bravo two minus two inches")
    asked = listening.take(heard(*inches, chances=(0.8, 0.1))).turn
    assert asked is not None
    assert asked.reply.ask == "B1 -2 in or B2 -2 in?"


# --- a refusal says what was missing ----------------------------------------------------


def test_a_refusal_says_that_the_unit_was_missing(listening: Listening, talk: Conversation) -> None:
    talk.hear("readings in inches")
    taken = listening.take(heard(NO_UNIT, tier="again"))
    assert taken.turn is not None
    assert "No unit was heard. Say: bravo three minus two inches." in taken.turn.reply.details
    assert said(taken).startswith("Say the unit, too.")
    assert not talk.job.readings


def test_a_fraction_is_one_of_an_inch(listening: Listening) -> None:
    taken = listening.take(heard("Bravo three, minus three eighths", tier="again"))
    assert taken.turn is not None
    assert "Say: bravo three minus three eighths inches." in taken.turn.reply.details[0]


# --- a unit that is missed is heard to be missing ------------------------------------------

MISSED = Spoken().readings_in("in")


def made_of(*likeliest: tuple[str, float]) -> Heard:
    """What an engine in a job of inches makes of sentences with these scores."""
    entries = Entries(Beam(), MISSED.meanings)
    for at, (words, score) in enumerate(likeliest):
        sentence = DecodedSentence((300 + at,), score, 0.0, 0.0)
        entries.add([sentence], lambda _, words=words: words)  # type: ignore[misc]
    manner = SpeechManner(2.0, 60.0, "words", MISSED.unit_is_plain)
    free = DecodedSentence((1,), likeliest[0][1] + 1.0, 0.0, 0.0)
    limits = replace(load_limits().quiet, ask_fit=-1e9)
    return judge_sentences(entries.ranked(3), free, likeliest[0][0], Beam(), manner, limits)


def test_in_a_job_of_inches_a_number_without_a_unit_is_not_one_with_it() -> None:
    found = made_of(("minus eighteen", -4.0), ("minus eight inches", -6.0))
    assert (found.tier, found.text) == ("again", "minus eighteen")
    assert found.command is not None
    assert lacks_unit(found.command)


def test_what_is_likelier_with_its_unit_is_asked_about_and_the_rest_is_not_offered() -> None:
    found = made_of(("minus eight inches", -4.0), ("minus eighteen", -4.5))
    assert found.tier == "ask"
    assert [one.canonical for one in found.alternatives] == ["-8 in"]


def test_several_that_lack_it_are_together_likelier() -> None:
    near = (("minus eight inches", -4.0), ("minus eighteen", -4.4), ("minus eighty", -4.4))
    assert (made_of(*near).tier, made_of(*near).text) == ("again", "minus eighteen")


def test_it_is_refused_with_what_was_missing(listening: Listening, talk: Conversation) -> None:
    talk.hear("readings in inches")
    taken = listening.take(made_of(("minus eighteen", -4.0)))
    assert said(taken).startswith("Say the unit, too.")
    assert taken.turn is not None
    assert "Say: minus eighteen inches." in taken.turn.reply.details[0]
    assert not talk.job.readings


@pytest.mark.parametrize(
    ("words", "missing"),
    [
        ("minus eighteen", True),
        ("bravo three minus two", True),
        ("check zero minus eighteen", True),
        ("what if bravo three minus two", True),
        ("minus eighteen millimetres", False),
        ("bravo three minus two and three eighths inches", False),
        ("bravo three level", False),
        ("tally", False),
    ],
)
def test_what_lacks_its_unit(words: str, missing: bool) -> None:
    assert MISSED.automaton.accepts(words.split())
    assert [lacks_unit(one) for one in MISSED.meanings(words)] == [missing]


def test_with_it_and_without_it_are_rivals() -> None:
    whole, bare = (
        MISSED.meanings(words)[0] for words in ("minus eighteen inches", "minus eighteen")
    )
    assert bare in sounding_alike(whole, MISSED)
    assert whole in sounding_alike(bare, MISSED)
    written = said_aloud(MISSED, bare, written=True)
    assert written is not None
    ways = Automaton([read_template(f"({written})")], read_template)
    assert ways.accepts("minus eighteen".split())
    assert not ways.accepts("minus eighteen inches".split())
    assert said_aloud(Spoken(), bare, written=True) is None


@pytest.mark.parametrize(
    "words", ["bravo three minus two inches", "tally", "mind the door", "", "bravo three level"]
)
def test_where_no_unit_is_missing(words: str) -> None:
    assert with_a_unit(words, "in") is None


# --- digit by digit ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("Kilo 1 3 minus 5 8.", "K13 -58 mm"),
        ("kilo 13 minus 1 8.", "K13 -18 mm"),
        ("Minus 1 0 5.", "-105 mm"),
        ("kilo 13 minus 1 8.5", "K13 -18.5 mm"),
        ("Kilo 1 3, minus 5 8 millimeters.", "K13 -58 mm"),
        ("kilo 13 minus 2 3/8 inches", "K13 -2 3/8 in"),
    ],
)
def test_figures_written_apart_are_one_number_whatever_ends_the_sentence(
    written: str, meant: str
) -> None:
    language = Spoken("digits", open_unit=True)
    assert [short_form(command) for command in language.meanings(written)] == [meant]


def test_two_readings_in_one_breath_may_be_typed_and_not_be_said() -> None:
    assert short_form(understand("kilo 13 minus 1 8")[0]) == "K13 -1 8"
    assert Spoken(open_unit=True).meanings("kilo 13 minus 1 8") == ()
