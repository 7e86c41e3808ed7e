"""Words that are nearly a reading: what is missing is said, and nothing is offered in its place."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assistant.conversation.conversation import Conversation
from assistant.ears.beam_search import Beam, DecodedSentence
from assistant.ears.entries import Entries
from assistant.ears.hearing import Heard
from assistant.ears.judging import SpeechManner, judge_sentences
from assistant.ears.lacking import missing_part
from assistant.ears.thresholds import load_limits
from assistant.listening.listening import Listening
from grammar.spoken import Spoken
from tests.speech.stand_in_hearing import said

BREADTH = Beam()


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ("Bravo 3, minus.", "number"),
        ("bravo three plus millimetres", "number"),
        ("point golf twelve minus inches", "number"),
        ("Bravo minus 18 millimeters.", "row"),
        ("point bravo plus four", "row"),
        ("Three minus eighteen millimeters.", "letter"),
        ("twelve plus three eighths inches", "letter"),
        ("Bravo 3, eighteen millimeters.", "sign"),
        ("Drama-free eighteen millimeters.", "sign"),
        ("bravo three eighteen millimetres below", "sign"),
        ("bravo three three eighths inches low", "sign"),
        ("Alpha three eleven below.", "sign"),
        ("point bravo twelve nine high", "sign"),
        # Whole, or nothing like a reading.
        ("bravo three minus eighteen millimetres", None),
        ("bravo three minus eighteen", None),
        ("minus eighteen millimetres", None),
        ("minus", None),
        ("Bravo to minus eighteen.", None),
        ("tally", None),
        ("bravo three level", None),
        ("it was six below all week", None),
        ("six millimetres of play in that handle", None),
        ("nine inches of snow up on the hills", None),
        ("minus the lid it weighs nothing", None),
        ("plus or minus who cares", None),
        ("", None),
    ],
)
def test_which_part_is_missing(words: str, part: str | None) -> None:
    assert missing_part(words) == part


# --- the recogniser --------------------------------------------------------------------


ALWAYS_ASKS = replace(
    load_limits().quiet, sure_probability=2.0, confusable_probability=2.0, ask_fit=-1e9
)


def made_of(likeliest: str, free_words: str, *, unit: str = "mm") -> Heard:
    """What was heard where this is the likeliest command, and that was written freely."""
    language = Spoken().readings_in(unit)
    entries = Entries(BREADTH, language.meanings)
    entries.add([DecodedSentence((300,), -6.0, 0.0, 0.0)], lambda _: likeliest)
    spoken = SpeechManner(2.0, 60.0, "words", language.unit_is_plain)
    free = DecodedSentence((301,), -4.0, 0.0, 0.0)
    return judge_sentences(entries.ranked(1), free, free_words, BREADTH, spoken, ALWAYS_ASKS)


ASKED = "bravo three minus fifteen millimetres"


def test_what_it_is_held_against() -> None:
    assert made_of(ASKED, "Bravo three minors fifteen.").tier == "ask"


@pytest.mark.parametrize(
    ("likeliest", "free_words", "unit"),
    [
        # Its number, or its row, was said by nobody.
        (ASKED, "Bravo three, minus.", "mm"),
        (ASKED, "Bravo three minus millimeters.", "in"),
        (ASKED, "Bravo minus fifteen millimeters.", "mm"),
        # The unit that had to be said was not, so the nearest reading has another number.
        ("bravo three minus eight inches", "Bravo three minus eighteen.", "in"),
        ("bravo three minus one hundred millimetres", "Bravo three minus one and a half.", "mm"),
    ],
)
def test_a_value_that_nobody_said_is_not_asked_about(
    likeliest: str, free_words: str, unit: str
) -> None:
    found = made_of(likeliest, free_words, unit=unit)
    assert (found.tier, found.text) == ("again", free_words)


@pytest.mark.parametrize(
    ("likeliest", "free_words", "unit"),
    [
        # The number is the one that was said, or no unit was needed.
        ("bravo three minus eighteen inches", "Bravo three minus eighteen.", "in"),
        ("bravo three minus three eighths inches", "Bravo three minus three eighths.", "mm"),
        ("bravo three minus fifty", "Bravo three minus fifteen.", "mm"),
        ("bravo two minus eighteen", "Bravo to minus eighteen.", "mm"),
        # No reading at all.
        ("strike bravo three", "Bravo three minus.", "mm"),
    ],
)
def test_what_may_have_been_said_is(likeliest: str, free_words: str, unit: str) -> None:
    assert made_of(likeliest, free_words, unit=unit).tier == "ask"


# --- the refusal --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "aloud", "shown"),
    [
        ("Bravo 3, minus.", "Say the number, too.", "No number was heard"),
        ("Bravo minus 18 millimeters.", "Say the row, too.", "No row was heard"),
        ("Three minus 18 millimeters.", "Say the letter, too.", "No letter was heard"),
        ("Bravo 3, 18 millimeters below.", "Say plus or minus", "No plus or minus was heard"),
    ],
)
def test_a_refusal_says_what_was_missing(
    listening: Listening, talk: Conversation, words: str, aloud: str, shown: str
) -> None:
    taken = listening.take(Heard(words, (), "again"))
    assert said(taken).startswith(aloud)
    assert taken.turn is not None
    (detail,) = taken.turn.reply.details
    assert detail.startswith(shown)
    # No example in it that could be taken for what was heard.
    assert not any(sign.isdigit() for sign in detail)
    assert not talk.job.readings


def test_where_it_may_be_left_out_a_unit_is_not_what_was_missing(listening: Listening) -> None:
    taken = listening.take(Heard("Bravo three, minus two.", (), "again"))
    assert said(taken).startswith("Say again.")
    assert taken.turn is not None
    assert "unit" not in " ".join(taken.turn.reply.details)
