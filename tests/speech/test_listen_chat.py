"""Typed and spoken in one session: who speaks, and what becomes of questions."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from assistant.listening.adjusted import AdjustedSpeaker
from assistant.listening.listen_chat import ASK_AGAIN_S, LAPSE_S
from assistant.listening.open_ears import Notice, SpeechBegan
from assistant.reply.manner import Manner
from assistant.reply.replies import Reply
from assistant.voice.espeak import SystemSpeaker
from assistant.voice.gain import with_loudness
from tests.speech.stand_in_chat import B3, FIFTEEN_OR_FIFTY, Mouth, Room


def test_typed_and_spoken_are_one_talk(room: Room) -> None:
    room.hear(B3)
    room.chat.typed("C3 -4")
    room.hear("take that back")
    assert room.readings == {"B3": -18}
    assert room.shown.startswith(f"> “{B3}” (sure, 100 %)\nB3 18 mm below. Depth 18 mm.\n")
    assert room.mouth.said[0].startswith("Bravo three, one eight millimetres below.")
    assert len(room.mouth.said) == 3


def test_how_sure_it_was_is_shown(room: Room) -> None:
    room.hear(replace(FIFTEEN_OR_FIFTY, snr_db=12.4, heard_s=0.31))
    assert room.shown.startswith(
        "> “bravo three minus fifteen millimetres”\n  (ask, 60 %, 12 dB over the noise, 0.3 s)\n"
    )
    assert "B3 -15 mm or B3 -50 mm?" in room.shown
    assert room.mouth.said == ["One five or five zero?"]


def test_a_question_that_was_heard_is_answered_by_typing(room: Room) -> None:
    room.hear(FIFTEEN_OR_FIFTY)
    room.chat.typed("50")
    assert room.readings == {"B3": -50}


def test_a_question_that_was_typed_is_answered_by_saying(room: Room) -> None:
    room.chat.typed("B3 18")
    room.hear("minus eighteen millimetres")
    assert room.readings == {"B3": -18}


def test_every_utterance_gets_an_answer(room: Room) -> None:
    for words in ("mind the door", "product nothing of the kind", "strike bravo three", "tally"):
        room.hear(words)
    assert len(room.mouth.said) == 4
    assert room.mouth.said[0] == "Say again."
    assert "mind the door" in room.shown


def test_nothing_heard_after_the_key_is_answered_but_silence_is_not(room: Room) -> None:
    room.hear("")
    assert (room.shown, room.mouth.said) == ("", [])
    room.hear("", by_key=True)
    assert room.mouth.said == ["Nothing heard."]


def test_a_half_heard_utterance_is_asked_for_again(room: Room) -> None:
    room.hear(B3, whole=False)
    assert room.readings == {}
    assert room.mouth.said == ["Say again."]


def test_a_key_or_new_speech_stops_the_mouth(room: Room) -> None:
    stops: tuple[Callable[[], object], ...] = (
        room.chat.key,
        room.chat.press,
        lambda: room.chat.arrived(SpeechBegan()),
    )
    for number, stop in enumerate(stops, start=1):
        stop()
        assert room.mouth.stopped == number


def test_a_notice_is_shown(room: Room) -> None:
    room.chat.arrived(Notice("The microphone “Collar” went away. Nothing is heard."))
    assert "went away" in room.shown
    assert room.mouth.said == []
    room.chat.arrived(Notice("The ears failed.", ears_gone=True))
    assert room.mouth.said == ["I hear nothing any more."]


def test_a_clock_is_shown_and_said(room: Room) -> None:
    room.chat.tell(Reply("Clock: priming coat dry.", "The primer is dry."))
    assert "Clock: priming coat dry." in room.shown
    assert room.mouth.said == ["The primer is dry."]


def test_a_chat_without_ears_says_so(room: Room) -> None:
    room.chat.typed("ears open")
    assert "leadsman listen" in room.shown
    assert room.chat.status() == ""


# --- the question that waits ------------------------------------------------------------


def test_unanswered_it_is_asked_again_and_then_lapses(room: Room) -> None:
    room.hear(FIFTEEN_OR_FIFTY)
    assert not room.chat.tick()
    room.clock.now += ASK_AGAIN_S
    assert not room.chat.tick()
    assert room.mouth.said == ["One five or five zero?"] * 2
    room.clock.now += LAPSE_S - 1
    assert not room.chat.tick()
    room.clock.now += 1
    assert room.chat.tick()
    room.chat.lapse()
    assert room.talk.pending is None
    assert room.readings == {}
    assert "not done and nothing is recorded" in room.shown
    room.hear("confirm")
    assert room.readings == {}


def test_as_long_as_somebody_speaks_it_does_not_lapse(room: Room) -> None:
    room.hear(FIFTEEN_OR_FIFTY)
    room.clock.now += ASK_AGAIN_S
    room.mouth.speaking = True
    assert not room.chat.tick()
    assert room.mouth.said == ["One five or five zero?"]
    room.mouth.speaking = False
    room.clock.now += ASK_AGAIN_S - 1
    room.chat.arrived(SpeechBegan())
    room.clock.now += 2
    assert not room.chat.tick()
    assert room.mouth.said == ["One five or five zero?"]


def test_a_typed_question_waits_for_ever(room: Room) -> None:
    room.chat.typed("B3 18")
    for _ in range(3):
        room.clock.now += 1000
        assert not room.chat.tick()
    room.chat.typed("below")
    assert room.readings == {"B3": -18}


def test_a_new_question_has_its_own_time(room: Room) -> None:
    room.hear(FIFTEEN_OR_FIFTY)
    room.clock.now += ASK_AGAIN_S
    room.chat.tick()
    room.hear("cancel that")
    room.hear(FIFTEEN_OR_FIFTY)
    room.clock.now += ASK_AGAIN_S - 1
    assert not room.chat.tick()
    assert len(room.mouth.said) == 4


# --- sound that is kept ---------------------------------------------------------------------


def test_sound_is_kept_where_it_was_asked_for(room: Room) -> None:
    sound = np.zeros(160, np.float32)
    room.hear(B3, sound=sound)
    assert [path.name for path in (room.folder / "kept.audio").iterdir()] == [
        "20260504-120000-000000-sure.wav"
    ]


def test_sound_that_cannot_be_kept_is_told_of_once(room: Room) -> None:
    (room.folder / "kept.audio").write_text("in the way")
    for words in (B3, "tally"):
        room.hear(words, sound=np.zeros(160, np.float32))
    assert room.shown.count("could not be kept") == 1
    assert room.readings == {"B3": -18}


# --- how it is said ----------------------------------------------------------------------------


def test_quiet_leaves_nothing_aloud_but_what_stops_the_work(room: Room) -> None:
    room.chat.typed("product example standard")
    room.chat.typed("quiet")
    before = len(room.mouth.said)
    room.chat.typed("A1 -9")
    assert "".join(room.mouth.said[before:]) == ""
    room.chat.typed("B1 plus 4")
    assert "Stop: high spot." in room.mouth.said[-1]
    room.chat.typed("speak")
    assert room.mouth.said[-1] == "Speaking."


def test_the_mouth_is_adjusted_by_a_word(room: Room) -> None:
    asked: list[tuple[float, float, bool]] = []

    def adjust(manner: Manner, *, speaks: bool) -> str:
        asked.append((manner.speed, manner.loudness, speaks))
        return ""

    room.chat._adjust = adjust
    for word in ("faster", "louder", "speak"):
        room.chat.typed(word)
    assert asked == [(1.15, 1.0, False), (1.15, 1.4, False), (1.15, 1.4, True)]


def test_a_mouth_that_is_to_sound_otherwise_is_made_anew() -> None:
    made: list[Manner] = []

    def open_mouth(manner: Manner) -> Mouth:
        made.append(manner)
        return Mouth()

    speaker = AdjustedSpeaker(open_mouth, Manner(), speaks=False)
    speaker.adjust(Manner(speed=1.15))
    assert made == [], "asked to be silent, it stays so"
    speaker.adjust(Manner(speed=1.15), speaks=True)
    speaker.adjust(Manner(speed=1.15, length="short"))
    speaker.adjust(Manner(speed=1.15, loudness=1.4))
    assert [manner.loudness for manner in made] == [1.0, 1.4]


def test_a_voice_that_plays_by_itself_says_that_it_gets_no_louder(room: Room) -> None:
    speaker = AdjustedSpeaker(lambda _manner: SystemSpeaker(("true",)), Manner())
    room.chat._adjust = speaker.adjust
    room.chat.typed("louder")
    assert "plays by itself" in room.shown
    assert room.mouth.said[-1].startswith("This voice plays by itself")
    room.chat.typed("faster")
    assert room.mouth.said[-1] == "Faster."


def test_louder_speech_stays_within_its_ends() -> None:
    samples = np.linspace(-1, 1, 101, dtype=np.float32)
    for loudness in (0.25, 1.0, 1.4, 4.0):
        made = with_loudness(samples, loudness)
        assert made.dtype == np.float32
        assert np.abs(made).max() <= 1
        assert np.all(np.diff(made) > 0)
    assert with_loudness(samples, 4.0)[60] > samples[60]
