"""The built-in engine: without its model, and with it."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from threading import Event

import numpy as np
import pytest

from assistant.conversation.conversation import Conversation
from assistant.conversation.either_or import Choice, answers_to
from assistant.decide import World
from assistant.ears import moonshine
from assistant.ears.beam_search import DecodedSentence, Ears
from assistant.ears.builtin import BuiltinEngine
from assistant.ears.entries import Hypothesis
from assistant.ears.hearing import Heard, expect, hear_readings_in
from assistant.ears.moonshine import Moonshine, model_folder
from assistant.ears.thresholds import Limits, Thresholds
from assistant.errors import EarsError, LeadsmanError
from assistant.listening.listening import Listening
from assistant.record.journal import Journal
from grammar import short_form, understand
from grammar.figures import in_figures
from grammar.spoken import Spoken

RATE = 16_000
NOON = datetime(2026, 3, 9, 12, tzinfo=UTC)

# --- without the model ------------------------------------------------------------


def test_without_the_package_it_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(moonshine, "PACKAGE", "no-such-package-here")
    with pytest.raises(EarsError, match=r"leadsman\[voice\]"):
        model_folder()


def test_a_package_without_the_model_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(moonshine, "PACKAGE", "pytest")
    monkeypatch.setattr(moonshine, "_FOLDER", "moonshine_voice/assets/none-such")
    with pytest.raises(EarsError, match="carries no speech model"):
        model_folder()


def test_without_the_runtime_it_says_how_to_get_it(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setitem(sys.modules, "onnxruntime", None)
    with pytest.raises(LeadsmanError, match=r"leadsman\[voice\]"):
        Moonshine(tmp_path)


# --- with it ------------------------------------------------------------------------


@pytest.fixture(scope="module")
def engine() -> BuiltinEngine:
    pytest.importorskip("onnxruntime", reason="onnxruntime is not installed")
    try:
        return BuiltinEngine()
    except EarsError as missing:
        pytest.skip(str(missing))


def hear(engine: BuiltinEngine, sound: np.ndarray, ahead: bool = False) -> Heard:
    engine.start()
    for at in range(0, len(sound), 1_600):
        engine.feed(sound[at : at + 1_600])
    if ahead:
        engine.maybe_end()
    return engine.finish()


@pytest.fixture(scope="module")
def say() -> Callable[[str], np.ndarray]:
    """A voice, with the quiet that an utterance comes with."""
    voice = pytest.importorskip("hibari", reason="hibari-tts is not installed").Hibari()

    def said(words: str) -> np.ndarray:
        sound = voice(words, seed=0)
        at = np.arange(0, len(sound), 24_000 / RATE)
        resampled: np.ndarray = np.interp(at, np.arange(len(sound)), sound).astype(np.float32)
        return resampled

    return said


@pytest.fixture(scope="module")
def reading(say: Callable[[str], np.ndarray]) -> np.ndarray:
    return say("Bravo three, minus eighteen millimeters.")


@pytest.mark.voice
@pytest.mark.slow
def test_the_packages_own_code_is_not_loaded(engine: BuiltinEngine) -> None:
    assert engine.info()["runtime"].startswith("onnxruntime")
    assert "moonshine_voice" not in sys.modules


@pytest.mark.voice
@pytest.mark.slow
def test_it_says_which_models_it_has(engine: BuiltinEngine) -> None:
    assert "Moonshine" in engine.info()["model"]
    assert "English phones (pocketsphinx 5" in engine.info()["second model"]


@pytest.mark.voice
@pytest.mark.slow
def test_a_reading_is_heard(engine: BuiltinEngine, reading: np.ndarray) -> None:
    heard = hear(engine, reading)
    assert (heard.canonical, heard.tier) == ("B3 -18 mm", "sure")
    assert heard.confidence > 0.9
    assert [one.canonical for one in heard.alternatives][1:] != []
    assert heard.speech_s == pytest.approx(len(reading) / RATE)


@pytest.mark.voice
@pytest.mark.slow
def test_a_reading_that_broke_off_is_not_finished_for_the_speaker(
    engine: BuiltinEngine, say: Callable[[str], np.ndarray]
) -> None:
    heard = hear(engine, say("Echo one, minus twelve milli."))
    assert heard.canonical == "E1 -12 mm", "the first model likes its sentences whole"
    assert heard.tier != "sure"
    assert heard.evidence["last_word"] < -2


@pytest.mark.voice
@pytest.mark.slow
def test_a_number_is_held_against_its_confusables(
    engine: BuiltinEngine, say: Callable[[str], np.ndarray]
) -> None:
    close = hear(engine, say("Door fourteen, outside level."))
    assert close.canonical == "door 14 outside level"
    # Forty, of which a vowel follows both, and thirteen.
    assert close.evidence["close_apart"] > 5
    assert close.evidence["apart"] > 0
    plain = hear(engine, say("Bravo three, minus eighteen millimeters."))
    assert plain.evidence["apart"] > 5
    assert "close_apart" not in plain.evidence
    assert "apart" not in hear(engine, say("Bravo three, minus twelve millimeters.")).evidence


@pytest.mark.voice
@pytest.mark.slow
@pytest.mark.parametrize("found", [True, False])
def test_the_confusable_that_it_hardly_differs_from_is_what_is_asked_about(
    engine: BuiltinEngine, say: Callable[[str], np.ndarray], found: bool
) -> None:
    def entry(words: str, score: float) -> Hypothesis:
        best = DecodedSentence((), score, 0.0, 1.0)
        return Hypothesis(words, best, score, engine._meanings(words))

    leading = [entry("door fourteen outside level", 40.0), entry("door nine outside level", 7.0)]
    leading += [entry("Door 40 outside level.", 1.0)] if found else []
    memory = engine._model.remember(say("Door fourteen, outside level."))
    ears = Ears(engine._model, memory, engine._silence)
    assert engine._with_confusable(ears, leading, 30) == leading
    leading[0].confusable = "door 40 outside level"
    first, second, third = engine._with_confusable(ears, leading, 30)
    assert (first, third) == (leading[0], leading[1])
    assert [short_form(command) for command in second.commands or ()] == ["door 40 outside level"]
    # One that the search had dropped is given its score now.
    assert second.score == 1.0 if found else 0.0 < second.score < 40.0
    # In this grammar there is no such command, so there is nothing to ask about.
    leading[0].confusable = "no such thing 40"
    assert engine._with_confusable(ears, leading, 30) == leading


@pytest.mark.voice
@pytest.mark.slow
def test_which_of_two_that_are_hardly_told_apart_is_asked(
    engine: BuiltinEngine, say: Callable[[str], np.ndarray], monkeypatch: pytest.MonkeyPatch
) -> None:
    sound = say("Door fourteen, outside level.")
    assert hear(engine, sound).tier == "sure"
    far = (replace(one, close_apart=1000.0) for one in (engine._limits.quiet, engine._limits.loud))
    monkeypatch.setattr(engine, "_limits", Limits(*far))
    heard = hear(engine, sound)
    assert heard.tier == "ask"
    assert [one.canonical for one in heard.alternatives][:2] == [
        "door 14 outside level", "door 40 outside level",
    ]  # fmt: skip


@pytest.mark.voice
@pytest.mark.slow
def test_digit_by_digit_numbers_have_no_such_confusables(
    engine: BuiltinEngine, say: Callable[[str], np.ndarray]
) -> None:
    engine.use(Spoken("digits"))
    try:
        heard = hear(engine, say("Bravo three, minus one eight millimeters."))
    finally:
        engine.use(Spoken())
    assert heard.canonical == "B3 -18 mm"
    assert "apart" not in heard.evidence


@pytest.mark.voice
@pytest.mark.slow
def test_in_inches_a_reading_without_its_unit_is_no_other_one_with_it(
    engine: BuiltinEngine, say: Callable[[str], np.ndarray]
) -> None:
    hear_readings_in(engine, "in")
    try:
        # Before, eighty was asked about: eighty inches, or eight?
        bare = ("Bravo three, minus eighty.", "Check zero, minus eighteen.", "Minus five.")
        found = [hear(engine, say(words)) for words in bare]
        assert [one.tier for one in found] == ["again"] * 3
        texts = [in_figures(one.text) for one in found]
        assert texts == ["bravo 3 minus 80", "check 0 minus 18", "minus 5"]
        whole = hear(engine, say("Bravo three, minus eighteen inches."))
        assert (whole.canonical, whole.tier) == ("B3 -18 in", "sure")
        other = hear(engine, say("Bravo three, minus eighteen millimeters."))
        assert (other.canonical, other.tier) == ("B3 -18 mm", "sure")
    finally:
        hear_readings_in(engine, None)


@pytest.mark.voice
@pytest.mark.slow
def test_the_likeliest_is_held_against_a_figure_said_twice_whichever_it_is(
    engine: BuiltinEngine, say: Callable[[str], np.ndarray]
) -> None:
    engine.use(Spoken("digits", open_unit=True))
    try:
        sound = say("Alpha eight eight, minus two zero.")
        heard = hear(engine, sound)
        assert heard.canonical == "A88 -20 mm"
        assert heard.evidence["doubled_apart"] > 5
        # Where the second listening puts another one first, that one.
        once = Hypothesis("alfa eight minus two zero", DecodedSentence((), 0.0, 0.0, 1.0), 0.0)
        (once,) = engine._doubled(sound, [once], engine._limits.quiet)
        assert once.phones["doubled_apart"] < -5
        assert in_figures(once.confusable) == "alfa 88 minus 20"
    finally:
        engine.use(Spoken())


@pytest.mark.voice
@pytest.mark.slow
def test_work_done_ahead_gives_the_same_and_is_not_done_again(
    engine: BuiltinEngine, reading: np.ndarray, monkeypatch: pytest.MonkeyPatch
) -> None:
    late = hear(engine, reading)
    heard: list[int] = []
    work_out = engine.hear

    def counted(sound: np.ndarray, unwanted: Event | None = None) -> Heard:
        heard.append(len(sound))
        return work_out(sound, unwanted)

    monkeypatch.setattr(engine, "hear", counted)
    engine.start()
    engine.feed(reading)
    engine.maybe_end()
    assert engine.finish().canonical == late.canonical
    assert heard == [len(reading)]


@pytest.mark.voice
@pytest.mark.slow
def test_speech_that_goes_on_after_a_pause_is_not_lost(
    engine: BuiltinEngine, reading: np.ndarray
) -> None:
    half = len(reading) * 2 // 5
    engine.start()
    engine.feed(reading[:half])
    engine.maybe_end()
    engine.feed(reading[half:])
    assert engine.finish().canonical == "B3 -18 mm"


@pytest.mark.voice
@pytest.mark.slow
def test_one_utterance_knows_nothing_of_the_last(
    engine: BuiltinEngine, reading: np.ndarray
) -> None:
    hear(engine, reading)
    engine.start()
    assert engine.finish().tier == "none"


@pytest.mark.voice
@pytest.mark.slow
@pytest.mark.parametrize("sound", [np.zeros(0), np.zeros(RATE), np.full(RATE // 20, 0.1)])
def test_silence_is_nothing(engine: BuiltinEngine, sound: np.ndarray) -> None:
    heard = hear(engine, sound.astype(np.float32))
    assert (heard.tier, heard.command) == ("none", None)


@pytest.mark.voice
@pytest.mark.slow
def test_what_is_no_number_does_not_stop_it(engine: BuiltinEngine, reading: np.ndarray) -> None:
    broken = reading.copy()
    broken[100:110] = np.nan
    assert hear(engine, broken).canonical == "B3 -18 mm"


@pytest.mark.voice
@pytest.mark.slow
def test_noise_is_never_taken(engine: BuiltinEngine) -> None:
    noise = np.random.default_rng(1).standard_normal(2 * RATE).astype(np.float32) * 0.1
    assert hear(engine, noise).tier != "sure"


@pytest.mark.voice
@pytest.mark.slow
def test_a_long_talk_is_not_decoded(engine: BuiltinEngine) -> None:
    noise = np.random.default_rng(1).standard_normal(20 * RATE).astype(np.float32) * 0.1
    heard = hear(engine, noise)
    assert heard.tier == "again"
    assert heard.heard_s < 0.2


@pytest.mark.voice
@pytest.mark.slow
def test_a_command_that_takes_long_is_heard(
    engine: BuiltinEngine, say: Callable[[str], np.ndarray]
) -> None:
    # Past nine seconds the networks want the sound's length in another way.
    said = say("Door seven at bravo three.")
    pause = np.random.default_rng(0).normal(0, 1e-3, 9 * RATE).astype(np.float32)
    heard = hear(engine, np.concatenate((pause, said)))
    assert heard.canonical == hear(engine, said).canonical == "door 7 at B3"
    assert len(pause) + len(said) > 10 * RATE


@pytest.mark.voice
@pytest.mark.slow
def test_settings_can_change_between_utterances(engine: BuiltinEngine, reading: np.ndarray) -> None:
    engine.use(Spoken("digits", names=("Fine 40", "Бета")))
    try:
        info = engine.info()
        assert (info["numbers"], info["missing words"]) == ("digits", "none")
        engine.use(Spoken("digits", names=("Fine 40", "ᚠᚢᚦ")))
        assert engine.info()["missing words"] == "ᚠᚢᚦ"
    finally:
        engine.use(Spoken())
    assert hear(engine, reading).canonical == "B3 -18 mm"


# --- while a question waits --------------------------------------------------------------


def asked(*said: str) -> list[Choice]:
    return [Choice(understand(words)[0], words) for words in said]


FIFTEEN_OR_FIFTY = asked(
    "bravo three minus fifteen millimetres", "bravo three minus fifty millimetres"
)


@pytest.fixture
def waits(engine: BuiltinEngine) -> Iterator[Callable[[list[Choice]], None]]:
    """Has a question wait."""
    yield lambda choices: expect(engine, answers_to(choices))
    expect(engine, {})


@pytest.mark.voice
@pytest.mark.slow
@pytest.mark.parametrize(
    ("choices", "words", "canonical"),
    [
        (FIFTEEN_OR_FIFTY, "One five.", "B3 -15 mm"),
        (FIFTEEN_OR_FIFTY, "Five zero.", "B3 -50 mm"),
        (FIFTEEN_OR_FIFTY, "Confirm.", "confirm"),
        (FIFTEEN_OR_FIFTY, "Cancel that.", "cancel that"),
        (FIFTEEN_OR_FIFTY, "Bravo three, minus eighteen millimeters.", "B3 -18 mm"),
        (FIFTEEN_OR_FIFTY, "Say again.", "say again"),
        (asked("bravo three level", "delta three level"), "Delta.", "D3 level"),
        (asked("alfa one minus nine inches", "alfa one plus nine inches"), "Plus.", "A1 +9 in"),
        (asked("alfa one minus six inches", "alfa one minus six millimetres"), "Inches.",
         "A1 -6 in"),
    ],
)  # fmt: skip
def test_the_answer_to_a_question_is_heard(
    engine: BuiltinEngine,
    say: Callable[[str], np.ndarray],
    waits: Callable[[list[Choice]], None],
    choices: list[Choice],
    words: str,
    canonical: str,
) -> None:
    waits(choices)
    heard = hear(engine, say(words))
    assert (heard.canonical, heard.tier) == (canonical, "sure")


@pytest.mark.voice
@pytest.mark.slow
@pytest.mark.parametrize(
    ("words", "mm"), [("Five zero.", -50), ("Confirm.", -15), ("Cancel that.", None)]
)
def test_the_answer_settles_the_question(
    engine: BuiltinEngine, say: Callable[[str], np.ndarray], words: str, mm: int | None
) -> None:
    with Journal.open(None, lambda: NOON) as journal:
        talk = Conversation(journal, World({}))
        for line in ("room 8 by 6 metres", "grid 2 metres"):
            assert talk.hear(line).ok
        listening = Listening(talk, clock=lambda: NOON)
        talk.hear_either(FIFTEEN_OR_FIFTY, "bravo three minus fifteen millimetres")
        expect(engine, listening.expected)
        taken = listening.take(hear(engine, say(words)))
        assert (taken.tier, talk.pending) == ("sure", None)
        found = talk.job.readings.get("B3")
        assert (found.mm if found else None) == mm
        assert listening.expected == {}
        expect(engine, listening.expected)


@pytest.mark.voice
@pytest.mark.slow
def test_an_answer_is_none_once_no_question_waits(
    engine: BuiltinEngine,
    say: Callable[[str], np.ndarray],
    waits: Callable[[list[Choice]], None],
) -> None:
    one_five = say("One five.")
    waits(FIFTEEN_OR_FIFTY)
    assert hear(engine, one_five, ahead=True).canonical == "B3 -15 mm"
    expect(engine, {})
    assert hear(engine, one_five).tier == "again"


@pytest.mark.voice
@pytest.mark.slow
def test_other_numbers_are_no_answer(
    engine: BuiltinEngine,
    say: Callable[[str], np.ndarray],
    waits: Callable[[list[Choice]], None],
) -> None:
    waits(FIFTEEN_OR_FIFTY)
    for words in ("One six.", "Five.", "Fifty five.", "Nine zero."):
        assert hear(engine, say(words)).tier != "sure", words


@pytest.mark.voice
@pytest.mark.slow
def test_an_answer_is_looked_for_from_the_beginning(
    engine: BuiltinEngine, waits: Callable[[list[Choice]], None]
) -> None:
    def is_a_way(word: str) -> bool:
        place = engine._paths.start
        for piece in engine._pieces.cut(word):
            onward = engine._paths.onward(place)
            if piece not in onward.pieces:
                return False
            place = int(onward.places[list(onward.pieces).index(piece)])
        return True

    assert (is_a_way("Fifteen"), is_a_way("Confirm")) == (False, True)
    waits(FIFTEEN_OR_FIFTY)
    assert (is_a_way("Fifteen"), is_a_way("Confirm")) == (True, True)


@pytest.mark.voice
@pytest.mark.slow
def test_a_confusable_said_as_a_word_again_is_trusted_least(
    engine: BuiltinEngine, waits: Callable[[list[Choice]], None]
) -> None:
    def limits(words: str) -> Thresholds:
        commands = engine._meanings(words)
        leading = [Hypothesis(words, DecodedSentence((), 0.0, 0.0, 1.0), 0.0, commands)]
        return engine._limits_of(leading, engine._limits.at(60.0))

    usual = limits("bravo three minus fifteen millimetres")
    assert limits("confirm") == limits("cancel that") == usual
    waits(FIFTEEN_OR_FIFTY)
    digits, word = limits("one five"), limits("fifteen")
    assert limits("bravo three minus fifteen millimetres") == word
    assert word.confusable_probability > engine._limits.loud.confusable_probability
    assert digits.confusable_probability == usual.sure_probability
    # Cancelling records nothing, so it needs least.
    fits = [limits(words).short_fit for words in ("cancel that", "one five", "confirm", "tally")]
    assert fits == sorted(fits)
    assert fits[0] < fits[1] < fits[-1]
    assert limits("cancel that").sure_fit == limits("cancel that").short_fit
    # A third reading is trusted as little; what only asks, as ever.
    other = limits("bravo three minus twelve millimetres")
    assert other.sure_probability == other.confusable_probability == word.confusable_probability
    assert limits("tally") == usual


@pytest.mark.voice
@pytest.mark.slow
def test_a_question_costs_only_its_first_words_at_the_start_of_an_utterance(
    engine: BuiltinEngine,
    waits: Callable[[list[Choice]], None],
) -> None:
    graph, made = engine._paths, []
    for ones in range(3, 10):
        known = len(graph._before)
        waits(asked(f"bravo three minus {ones + 10}", f"bravo three minus {ones * 10}"))
        made.append(len(graph._before) - known)
    # The first words are put together once a question; all paths after them are those there are.
    assert made == [1] * 7
    assert engine._paths is graph


@pytest.mark.voice
@pytest.mark.slow
def test_a_unit_left_out_is_understood_where_the_job_is_in_millimetres(
    engine: BuiltinEngine, say: Callable[[str], np.ndarray]
) -> None:
    sound = say("bravo three minus eighteen")
    assert hear(engine, sound).tier != "sure"
    try:
        engine.hear_readings_in("mm")
        short, full = (
            hear(engine, sound),
            hear(engine, say("bravo three minus eighteen millimetres")),
        )
        inches = hear(engine, say("bravo three minus eighteen inches"))
    finally:
        engine.hear_readings_in(None)
    assert [(one.tier, one.canonical) for one in (short, full)] == [("sure", "B3 -18 mm")] * 2
    assert inches.canonical == "B3 -18 in"
