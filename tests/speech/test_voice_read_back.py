"""How long an answer takes to say, and whether it can still be made out."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator

import numpy as np
import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.listening.spoken_reply import spoken_reply
from assistant.listening.voice_settings import READ_BACK_SPEED
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.sound.resample import resample_all
from assistant.voice.choose import voice_for
from assistant.voice.high_pass import high_passed
from assistant.voice.speaker import Voice, as_played
from assistant.voice.time_stretch import stretch_to_fit, time_stretched
from assistant.voice.trim import trim_pauses
from grammar import understand
from grammar.spoken import Spoken
from tests.there import need

RATE_HZ = 24_000

BEFORE = ("room 8 by 6 metres", "grid 2 metres", "product example standard")
COMMON = (
    # what is said, and how it is answered; in this order on one floor
    ("A1 -18", "Alfa one, one eight millimetres below."),
    ("minus 16", "Bravo one, one six millimetres below."),
    ("C1 -18.5", "Charlie one, one eight point five millimetres below."),
    ("D1 -22", "Delta one, two two millimetres below."),
    ("take that back", "Undone: delta one, two two millimetres below."),
    ("D1 -21", "Delta one, two one millimetres below."),
    ("B3 18", None),
    ("below", "Bravo three, one eight millimetres below."),
    ("hold", "Bravo three, one eight millimetres below."),
    ("next point", "Next, charlie three."),
    ("how deep at B3", "Bravo three, one eight millimetres."),
    ("cut for B3", "Bravo three, cut one eight millimetres."),
    ("check zero level", None),
    ("air 21 degrees", "Air two one degrees Celsius."),
    ("survey check", None),
)
"""The most common by what an installer does all day; no count of real days stands behind it."""
WITH_MORE = (
    # on the floor that is there then, without what answers on the screen say at length
    ("C3 -12", "Charlie three, one two millimetres below. Shallowest."),
    ("C3 -17", "Charlie three, one seven millimetres below. Replaced."),
    # what stops the work is said in full
    (
        "D3 -75",
        "Delta three, seven five millimetres below. Stop: too deep. Lower the finish, or pour in "
        "lifts.",
    ),
    # less than the minimum is the shallowest too, and that it is too little says more
    (
        "A2 -2",
        "Alfa two, two millimetres below. Stop: too shallow. Grind it, or raise the finish.",
    ),
    ("A2 -17", "Alfa two, one seven millimetres below. Replaced."),
    ("D3 -18", "Delta three, one eight millimetres below. Replaced."),
    ("raise finish 3 millimetres", None),
    ("B2 -18", "Bravo two, one eight millimetres below. Depth two one."),
    ("finish at zero", None),
    ("A3 7/8 inches below", "Alfa three, seven eighths inch below."),
    (
        "C2 6 above",
        "Charlie two, six millimetres above. Stop: high spot. Grind it, or raise the finish.",
    ),
)
QUESTIONS = ("One five or five zero?", "Below or above?", "I was speaking. Say that again.")


def seconds(voice: Voice, text: str) -> float:
    speech = as_played(list(voice.speech(text)))
    return len(speech.samples) / speech.rate_hz


@pytest.fixture(scope="module", params=["hibari", "espeak"])
def voice(request: pytest.FixtureRequest) -> Voice:
    if request.param == "hibari":
        pytest.importorskip("hibari", reason="hibari-tts is not installed")
    elif shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed")
    return voice_for(request.param, READ_BACK_SPEED)


@pytest.fixture
def talk() -> Iterator[Conversation]:
    with Journal.open(None) as journal:
        talk = Conversation(journal, World(cards_in(shipped_folder())))
        for line in BEFORE:
            talk.hear(line)
        yield talk


def answered(talk: Conversation, line: str, expected: str | None) -> str:
    before = talk.job
    said = spoken_reply(talk.hear(line), before, talk.job, talk.pending)
    assert expected in (None, said)
    return said


@pytest.mark.voice
@pytest.mark.slow
def test_common_answers_take_less_than_two_seconds(voice: Voice, talk: Conversation) -> None:
    took = {}
    for line, expected in COMMON:
        said = answered(talk, line, expected)
        if line != "B3 18":  # asks what is missing, and says first what it has
            took[said] = seconds(voice, said)
    took |= {said: seconds(voice, said) for said in QUESTIONS}
    assert {said: round(s, 2) for said, s in took.items() if s >= 2.0} == {}
    assert min(took.values()) > 0.4
    assert np.mean(list(took.values())) > 1.0  # of words, not of what was cut from them


def longer_answers(talk: Conversation) -> Iterator[str]:
    for line, expected in COMMON:
        answered(talk, line, expected)
    for line, expected in WITH_MORE:
        said = answered(talk, line, None)
        if talk.pending is not None:
            said = answered(talk, "confirm", None)
        if expected is not None:
            assert said == expected
            yield said


def test_what_must_be_known_at_once_is_said_in_few_words(talk: Conversation) -> None:
    assert len(list(longer_answers(talk))) > 8


def test_other_answers_than_readings_say_it_at_length(talk: Conversation) -> None:
    for line, _ in COMMON:
        talk.hear(line)
    said = answered(talk, "lower finish 14 millimetres", None)
    assert "Stop: too shallow" in said
    assert "Shallowest" not in said


def test_the_last_point_brings_the_bags(talk: Conversation) -> None:
    for line in ("room 4 by 4 metres", "A1 -8", "B1 -8", "A2 -9"):
        talk.hear(line)
    said = answered(talk, "B2 -9", None)
    assert re.fullmatch(r"Bravo two, nine millimetres below\. \w+ bags\.", said), said


@pytest.mark.voice
@pytest.mark.slow
def test_what_must_be_known_at_once_adds_little(talk: Conversation) -> None:
    pytest.importorskip("hibari", reason="hibari-tts is not installed")
    voice = voice_for("hibari", READ_BACK_SPEED)
    took = {said: seconds(voice, said) for said in longer_answers(talk)}
    took |= {
        said: seconds(voice, said)
        for said in (
            "November one two, one eight millimetres below. Replaced.",
            "Juliett one one, one and three eighths inches below. Shallowest.",
            # half a millimetre with more than this takes up to 2.6 s
            "Echo five, one eight point five millimetres below. Shallowest.",
            "Bravo two, one eight millimetres below. Sixty six bags.",
        )
    }
    # A STOP is worth three seconds more: it says what to do.
    most = {said: 4.5 if "Stop: " in said else 2.0 for said in took}
    assert {said: round(s, 2) for said, s in took.items() if s >= most[said]} == {}


@pytest.mark.voice
@pytest.mark.slow
def test_so_quick_it_is_still_made_out_beside_a_mixer() -> None:
    """Our own ears are the listener: whom else could a test ask."""
    need("hibari", "onnxruntime", "moonshine_voice")
    from assistant.ears.builtin import BuiltinEngine
    from tests.benchmarks.speech.noise import mixed, mixer

    engine, voice, noise = (
        BuiltinEngine(Spoken("digits")),
        voice_for("hibari", READ_BACK_SPEED),
        mixer(),
    )
    said = (
        "bravo three minus one eight millimetres",
        "charlie two plus five zero millimetres",
        "golf four minus one five millimetres",
        "echo one minus nine millimetres",
        "delta six plus two four millimetres",
        "hotel five minus six three millimetres",
    )
    for seed, words in enumerate(said):
        speech = as_played(list(voice.speech(f"{words}.")))
        sound = resample_all(speech.samples, speech.rate_hz)
        for behind in (None, noise):
            engine.start()
            engine.feed(mixed(sound, behind, 10, seed=seed))
            heard = engine.finish()
            # Beside the mixer it may ask, as it does over anybody.
            found = [other.command for other in heard.alternatives[: 1 if behind is None else 2]]
            assert understand(words)[0] in found, (words, heard.text)


# --- quicker -----------------------------------------------------------------------------------


def humming(seconds: float, hz: float = 150.0) -> np.ndarray:
    """A voice without words: a tone with overtones, louder and softer."""
    at = np.arange(round(seconds * RATE_HZ)) / RATE_HZ
    sound = sum(np.sin(2 * np.pi * hz * k * at) / k for k in range(1, 6))
    return (0.1 * sound * (1.2 + np.sin(2 * np.pi * 3 * at))).astype(np.float32)


def pitch_hz(sound: np.ndarray) -> float:
    spectrum = np.abs(np.fft.rfft(sound * np.hanning(len(sound))))
    return float(np.argmax(spectrum) * RATE_HZ / len(sound))


@pytest.mark.parametrize("factor", [1.2, 1.5, 2.0, 2.5])
@pytest.mark.parametrize("hz", [90.0, 150.0, 240.0])
def test_quicker_is_shorter_at_the_same_pitch_and_level(factor: float, hz: float) -> None:
    sound = humming(2.0, hz)
    made = time_stretched(sound, RATE_HZ, factor)
    assert len(made) == round(len(sound) / factor)
    middle = made[RATE_HZ // 10 : -RATE_HZ // 10]
    assert pitch_hz(middle) == pytest.approx(hz, rel=0.02)
    assert np.std(middle) == pytest.approx(np.std(sound), rel=0.1)
    # A piece that does not fit on the one before clicks.
    assert np.max(np.abs(np.diff(middle))) < 1.3 * np.max(np.abs(np.diff(sound)))


def test_nothing_at_the_ends_is_lost() -> None:
    sound = np.zeros(RATE_HZ, np.float32)
    for at in (400, RATE_HZ - 1200):
        sound[at : at + 800] = humming(1.0)[:800]
    made = time_stretched(sound, RATE_HZ, 1.5)
    loud = np.flatnonzero(np.abs(made) > 0.01)
    assert loud[0] < 800
    assert loud[-1] > len(made) - 1600


@pytest.mark.parametrize("samples", [0, 1, 500, 2000])
def test_what_is_too_short_for_it_stays(samples: int) -> None:
    sound = np.ones(samples, np.float32)
    assert time_stretched(sound, RATE_HZ, 1.5) is sound
    assert time_stretched(humming(1.0), RATE_HZ, 1.0).shape == (RATE_HZ,)


def spoken_for(seconds: float) -> np.ndarray:
    """Two words with a comma between them that take so long once squeezed and tight."""
    word = humming((seconds - 0.07) / 2 * 1.5)
    return np.concatenate((word, np.zeros(RATE_HZ // 4, np.float32), word))


@pytest.mark.parametrize(
    ("plainly", "takes"), [(1.9, (1.86, 1.94)), (2.05, (1.9, 2.0)), (2.35, (1.9, 2.0)),
                           (2.6, (2.56, 2.64)), (6.0, (5.95, 6.05))],
)  # fmt: skip
def test_only_what_is_just_too_long_is_hurried(plainly: float, takes: tuple[float, float]) -> None:
    made = stretch_to_fit(spoken_for(plainly), RATE_HZ, 1.5, 2.0)
    assert takes[0] < len(made) / RATE_HZ < takes[1]
    if plainly < 2.0 or plainly > 2.5:  # a list keeps its pace
        assert np.array_equal(
            made, trim_pauses(time_stretched(spoken_for(plainly), RATE_HZ, 1.5), RATE_HZ)
        )


# --- brighter ----------------------------------------------------------------------------------


def part_above(sound: np.ndarray, hz: float) -> float:
    powers = np.abs(np.fft.rfft(sound)) ** 2
    return float(powers[np.fft.rfftfreq(len(sound), 1 / RATE_HZ) > hz].sum() / powers.sum())


def test_brighter_turns_the_low_notes_down_and_nothing_up_in_all() -> None:
    sound = humming(1.0)
    made = high_passed(sound)
    assert made.dtype == np.float32
    assert made.shape == sound.shape
    assert np.std(made) == pytest.approx(np.std(sound), rel=0.01)
    # Exact arithmetic: what is taken off is 0.7 of the sample before, so 10.5 dB of the lowest
    # notes go against 3.0 dB of those at 3 kHz.
    assert part_above(made, 400) > 1.1 * part_above(sound, 400)
    low, high = np.sin(2 * np.pi * np.array([[100.0], [3000.0]]) * np.arange(RATE_HZ) / RATE_HZ)
    both = high_passed((0.4 * low + 0.4 * high).astype(np.float32))
    level = np.abs(np.fft.rfft(both))
    assert 20 * np.log10(level[3000] / level[100]) == pytest.approx(10.45 - 3.0, abs=0.2)


def test_brighter_never_clips_and_leaves_silence_alone() -> None:
    # A loud low note, which goes, with clicks, which stay.
    sound = 0.6 * np.sin(2 * np.pi * 100 * np.arange(RATE_HZ) / RATE_HZ)
    sound[::2400] += 0.39
    assert np.max(np.abs(high_passed(sound.astype(np.float32)))) == pytest.approx(1.0)
    for samples in (0, 10):
        assert not high_passed(np.zeros(samples, np.float32)).any()


# --- tight -------------------------------------------------------------------------------------


def test_silence_before_between_and_after_is_cut_short_and_words_are_not() -> None:
    word, nothing = humming(0.4), np.zeros(RATE_HZ // 2, np.float32)
    made = trim_pauses(np.concatenate((nothing, word, nothing, word, nothing)), RATE_HZ)
    assert len(made) / RATE_HZ == pytest.approx(0.8 + 0.02 + 0.06 + 0.02, abs=0.03)
    assert np.sum(made**2) == pytest.approx(2 * np.sum(word**2), rel=0.001)


def test_a_short_pause_stays() -> None:
    word, pause = humming(0.4), np.zeros(RATE_HZ * 5 // 100, np.float32)
    sound = np.concatenate((word, pause, word))
    assert len(trim_pauses(sound, RATE_HZ)) == len(sound)


@pytest.mark.parametrize("samples", [0, 10, 5000])
def test_of_silence_nothing_is_cut(samples: int) -> None:
    sound = np.zeros(samples, np.float32)
    assert trim_pauses(sound, RATE_HZ) is sound
