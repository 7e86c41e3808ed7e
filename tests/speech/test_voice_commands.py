"""``leadsman listen``, ``voice check``, ``voice fetch``, ``voice misses``; chats that speak."""

from __future__ import annotations

import io
import sys
import time
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from assistant.__main__ import main
from assistant.command_line.voice_check import Parts, check_voice
from assistant.command_line.voice_commands import settings_of
from assistant.command_line.voice_fetch import examine_model, fetch_model
from assistant.ears.script import ScriptEngine
from assistant.errors import EarsError, LeadsmanError
from assistant.record.journal import Journal
from assistant.sound.chunks import MissingSound
from assistant.sound.devices import DeviceError
from assistant.sound.microphone_check import MicrophoneCheck
from assistant.voice.silence import Silence

Run = Callable[..., tuple[int, str, str]]
B3 = "bravo three minus eighteen millimetres"


def spoken(seconds: float = 0.5, pause: float = 0.8) -> np.ndarray:
    at = np.arange(int(16_000 * seconds)) / 16_000
    quiet = np.zeros(int(16_000 * pause), np.float32)
    return np.concatenate((np.sin(2 * np.pi * 200 * at).astype(np.float32) / 4, quiet))


class Loud:
    """Takes what is loud for speech."""

    def __call__(self, frame: np.ndarray) -> float:
        return float(np.max(np.abs(frame)) > 0.01)

    def reset(self) -> None:
        pass


class Microphone:
    """Somebody speaks into it twice, and then no more."""

    def __init__(self, wanted: str | None = None) -> None:
        self.wanted = wanted
        self.overhear: Callable[[np.ndarray], None] | None = None
        self.mouth_says: Callable[[np.ndarray | None], None] | None = None

    def open_now(self) -> None:
        pass

    def __enter__(self) -> Iterator[np.ndarray | MissingSound]:
        return iter([spoken(), spoken()])

    def __exit__(self, *_: object) -> None:
        pass

    @contextmanager
    def ears_closed(self, _said: np.ndarray | None = None) -> Iterator[None]:
        yield

    def check(self, seconds: float = 2.0) -> MicrophoneCheck:
        return MicrophoneCheck(
            "Collar", 48_000, 1, seconds, -43.0, -20.0, -61.0, 0.0, "Turn it up."
        )


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Exit code, standard output and standard error; microphone and detector are stand-ins."""
    monkeypatch.setattr("assistant.sound.microphone.Microphone", Microphone)
    monkeypatch.setattr("assistant.ears.utterances.SileroDetector", Loud)
    monkeypatch.setenv("LEADSMAN_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("COLUMNS", "80")

    def ran(*arguments: str | Path, typed: Any = ()) -> tuple[int, str, str]:
        monkeypatch.setattr("sys.stdin", typed)
        try:
            code = main([str(argument) for argument in arguments])
        except SystemExit as left:
            code = int(left.code or 0)
        out, err = capsys.readouterr()
        return code, out, err

    return ran


@pytest.fixture
def script(tmp_path: Path) -> Callable[..., list[str]]:
    def made(*lines: str) -> list[str]:
        path = tmp_path / "script.txt"
        path.write_text("\n".join(lines))
        return ["--engine", "script", "--model", str(path)]

    return made


class Typing(io.StringIO):
    """A keyboard at which somebody waits for the ears before they type the rest."""

    def __init__(self, wait_s: float, *lines: str) -> None:
        super().__init__()
        self._lines, self._wait_s = lines, wait_s

    def isatty(self) -> bool:
        return True

    def __iter__(self) -> Iterator[str]:  # type: ignore[override]
        time.sleep(self._wait_s)
        yield from self._lines


# --- listen --------------------------------------------------------------------------------


def test_a_session_with_ears(run: Run, script: Any, tmp_path: Path) -> None:
    job = tmp_path / "floor.leadsman"
    code, out, err = run(
        "listen", "--plain", "--quiet", "--hands-free", "--keep-audio", "--job", job,
        *script("room 8 by 6 metres", B3),
        typed=Typing(1.5, "C3 -4\n"),
    )  # fmt: skip
    assert (code, err) == (0, "")
    assert f"“{B3}” (sure, 100 %)\n" in out
    with Journal.open(job) as journal:
        assert [entry.said for entry in journal.entries()] == ["room 8 by 6 metres", B3, "C3 -4"]
    assert len(list((tmp_path / "floor.audio").glob("*-sure.wav"))) == 2


def test_nothing_is_kept_of_the_sound_unless_asked(run: Run, script: Any, tmp_path: Path) -> None:
    job = tmp_path / "floor.leadsman"
    run("listen", "--plain", "--quiet", "--hands-free", "--job", job, *script(B3),
        typed=Typing(1.5))  # fmt: skip
    assert not (tmp_path / "floor.audio").exists()


def test_a_microphone_that_is_not_there(
    run: Run, script: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Gone(Microphone):
        def __enter__(self) -> Iterator[np.ndarray | MissingSound]:
            raise DeviceError("No microphone was found. Plug one in.")

    monkeypatch.setattr("assistant.sound.microphone.Microphone", Gone)
    code, _, err = run("listen", "--plain", "--quiet", "--job", tmp_path / "j.leadsman", *script())
    assert (code, err) == (2, "leadsman: No microphone was found. Plug one in.\n")


def test_without_a_voice_listening_says_how_to_get_one(
    run: Run, script: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "hibari", None)
    # The loudspeaker is looked for first, and may not be there either.
    monkeypatch.setattr("assistant.voice.choose._player", lambda *_: None)
    code, _, err = run("listen", "--plain", "--job", tmp_path / "j.leadsman", *script(B3))
    assert code == 2
    assert "pip install 'leadsman[voice]'" in err


def test_the_typed_chat_speaks_where_it_is_told_to(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []

    class Speaks(Silence):
        def say(self, text: str) -> None:
            said.append(text)

    chosen: list[tuple[str, Any]] = []

    def speaker_for(kind: str, **settings: Any) -> Silence:
        chosen.append((kind, settings))
        return Speaks()

    monkeypatch.setattr("assistant.voice.speaker_for", speaker_for)
    job = tmp_path / "floor.leadsman"
    code, out, _ = run(
        "--speak", "--voice", "espeak:en-us", "--speed", "1.5", "--plain", "--job", job,
        typed=Typing(0.0, "B3 -18\n"),
    )  # fmt: skip
    assert code == 0
    assert "B3 18 mm below" in out
    assert said[0].startswith("Bravo three, one eight millimetres below.")
    ((kind, settings),) = chosen
    assert (kind, settings["voice"], settings["speed"]) == ("espeak", "en-us", 1.5)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--voice", "parrot"], "there is no voice “parrot”; hibari, espeak"),
        (["--speed", "9"], "a speed from 0.5 to 2.5"),
        (["--speed", "quick"], "a speed from 0.5 to 2.5"),
    ],
)
def test_what_no_voice_can_do(run: Run, script: Any, arguments: list[str], message: str) -> None:
    code, _, err = run("listen", "--plain", *arguments, *script(B3))
    assert code == 2
    assert message in err


def test_settings_have_their_usual_values() -> None:
    settings = settings_of(SimpleNamespace(manner="digits", hands_free=True))  # type: ignore[arg-type]
    assert (settings.engine, settings.manner, settings.hands_free) == ("builtin", "digits", True)
    assert (settings.kind, settings.voice_name, settings.speed) == ("hibari", None, 1.5)
    assert settings.speaks
    assert not settings.keeps_audio


# --- voice check -----------------------------------------------------------------------------


def fails(message: str) -> Callable[..., Any]:
    def get(*_: object) -> Any:
        raise LeadsmanError(message)

    return get


def test_a_check_tells_of_each_part() -> None:
    told: list[str] = []
    parts = Parts(lambda: ScriptEngine([B3]), Microphone, lambda _: Silence(), Loud)
    assert check_voice(parts, told.append, lambda: 5.0)
    assert told == [
        "Ears: script, loaded in 0.0 s.",
        "  engine: a script of lines",
        "Microphone: be quiet for two seconds …",
        "Microphone: Collar, 48000 Hz, mono; level -43 dB, peak -20 dB, noise -61 dB. Turn it up.",
        "Say now: bravo three, minus one eight millimetres.",
        told[5],
        "Mouth: This is how I answer: bravo three, one eight millimetres below.",
    ]
    assert told[5].startswith(f"  heard “{B3}” (sure, 100 %")
    assert told[5].endswith("which is B3 -18 mm")


def test_a_part_that_is_missing_leaves_the_others() -> None:
    told: list[str] = []
    parts = Parts(fails("no model"), fails("no microphone"), fails("no voice"), Loud)
    assert not check_voice(parts, told.append)
    assert told == ["Ears: no model", "Microphone: no microphone", "Mouth: no voice"]


def test_a_microphone_into_which_nobody_speaks() -> None:
    class Quiet(Microphone):
        def __enter__(self) -> Iterator[np.ndarray | MissingSound]:
            return (np.zeros(16_000, np.float32) for _ in range(1000))

    told: list[str] = []
    parts = Parts(lambda: ScriptEngine([B3]), Quiet, lambda _: Silence(), Loud)
    assert not check_voice(parts, told.append)
    assert "  nothing was heard in 10 s" in told


def test_a_mouth_that_makes_no_sound_is_told_of() -> None:
    told: list[str] = []

    def mute(on_fault: Callable[[LeadsmanError], None]) -> Silence:
        on_fault(DeviceError("The loudspeaker “Desk” stopped playing."))
        return Silence()

    parts = Parts(lambda: ScriptEngine([B3]), Microphone, mute, Loud)
    assert not check_voice(parts, told.append)
    assert told[-1] == "Mouth: The loudspeaker “Desk” stopped playing."


def test_check_on_the_command_line(run: Run, script: Any) -> None:
    code, out, _ = run("voice", "check", "--voice", "silence", *script(B3))
    assert code == 0
    assert "Microphone: Collar" in out
    assert B3 in out


# --- voice fetch -------------------------------------------------------------------------------

NAME = "vosk-model-small-en-us-0.0"


class FakeVosk:
    """A vosk whose network and models are the test's."""

    def __init__(self, arrives: Callable[[Path], object], loads: bool = True) -> None:
        self.MODEL_DIRS = ["elsewhere"]
        fake = self

        class Model:
            def __init__(self, path: str) -> None:
                if not loads:
                    raise Exception("Failed to create a model")
                self.path = path

            def get_model_by_lang(self, language: str) -> Path:
                assert language == "en-us"
                (folder,) = fake.MODEL_DIRS
                arrives(Path(folder))
                return Path(folder) / NAME

        self.Model = Model


def whole_model(folder: Path) -> None:
    for file in ("am/final.mdl", "conf/model.conf"):
        (folder / NAME / file).parent.mkdir(parents=True, exist_ok=True)
        (folder / NAME / file).touch()


def half_model(folder: Path) -> None:
    (folder / NAME / "conf").mkdir(parents=True)


def no_network(_folder: Path) -> None:
    raise ConnectionError("the name could not be resolved")


def no_such_language(_folder: Path) -> None:
    sys.exit(1)


def damaged(_folder: Path) -> None:
    raise zipfile.BadZipFile("not a zip")


def use(monkeypatch: pytest.MonkeyPatch, vosk: FakeVosk) -> FakeVosk:
    monkeypatch.setattr("assistant.command_line.voice_fetch.voice_part", lambda _: vosk)
    return vosk


def test_a_model_is_fetched_examined_and_put_in_place(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    vosk = use(monkeypatch, FakeVosk(whole_model))
    told: list[str] = []
    assert fetch_model(tmp_path / "models", told.append) == tmp_path / "models" / NAME
    assert told[-1] == f"The model is in {tmp_path / 'models' / NAME}"
    assert [path.name for path in (tmp_path / "models").iterdir()] == [NAME]
    assert vosk.MODEL_DIRS == ["elsewhere"]
    told.clear()
    fetch_model(tmp_path / "models", told.append)
    assert told == [f"There is a model already: {tmp_path / 'models' / NAME}"]


@pytest.mark.parametrize(
    ("vosk", "message"),
    [
        (FakeVosk(no_network), "Without a network: fetch a small English model"),
        (FakeVosk(no_such_language), "There is no model for “en-us”"),
        (FakeVosk(damaged), "it arrived damaged"),
        (FakeVosk(half_model), "am/final.mdl is missing"),
        (FakeVosk(whole_model, loads=False), "cannot be loaded: Failed to create a model"),
    ],
    ids=["no network", "no such language", "damaged", "half a model", "no model"],
)
def test_what_did_not_arrive_is_said_and_leaves_nothing(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, vosk: FakeVosk, message: str
) -> None:
    use(monkeypatch, vosk)
    with pytest.raises(LeadsmanError, match=message):
        fetch_model(tmp_path / "models", lambda _: None)
    assert list((tmp_path / "models").iterdir()) == []
    assert vosk.MODEL_DIRS == ["elsewhere"]


def test_the_real_download_with_no_network(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    vosk = pytest.importorskip("vosk", reason="needs the voice extra")

    def get(*_: object, **__: object) -> object:
        raise vosk.requests.exceptions.ConnectionError("no route")

    monkeypatch.setattr(vosk.requests, "get", get)
    with pytest.raises(LeadsmanError, match="no route"):
        fetch_model(tmp_path / "models", lambda _: None)


def test_the_real_download_of_something_that_is_no_model(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    vosk = pytest.importorskip("vosk", reason="needs the voice extra")
    listed = [{"name": NAME, "lang": "en-us", "type": "small", "obsolete": "false"}]
    monkeypatch.setattr(vosk.requests, "get", lambda *_, **__: SimpleNamespace(json=lambda: listed))

    def retrieve(_url: str, path: str, **_: object) -> None:
        with zipfile.ZipFile(path, "w") as made:
            made.writestr(f"{NAME}/readme", "a letter")

    monkeypatch.setattr(vosk, "urlretrieve", retrieve)
    with pytest.raises(LeadsmanError, match="is no whole model"):
        fetch_model(tmp_path / "models", lambda _: None)
    assert list((tmp_path / "models").iterdir()) == []


def test_a_file_is_no_model(tmp_path: Path) -> None:
    (tmp_path / "model.zip").touch()
    with pytest.raises(LeadsmanError, match="is no folder with a model"):
        examine_model(FakeVosk(whole_model), tmp_path / "model.zip")


# --- voice misses --------------------------------------------------------------------------------


def test_misses_are_listed(run: Run, script: Any, tmp_path: Path) -> None:
    job = tmp_path / "floor.leadsman"
    run("listen", "--plain", "--quiet", "--hands-free", "--job", job, *script("mind the door"),
        typed=Typing(1.5))  # fmt: skip
    code, out, _ = run("voice", "misses", "--job", job)
    assert code == 0
    assert out.startswith("1 utterance not understood at once.")
    assert "mind the door" in out
    assert run("voice", "misses", "--job", tmp_path / "none.leadsman")[0] == 2
    assert not (tmp_path / "none.leadsman").exists()


def test_the_engine_is_named_where_it_cannot_be_used(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_engine(*_: object) -> object:
        raise EarsError("The built-in recogniser is not installed.")

    monkeypatch.setattr("assistant.listening.voice_settings.open_engine", no_engine)
    monkeypatch.setattr("assistant.listening.listen_open.open_engine", no_engine)
    code, _, err = run("listen", "--plain", "--quiet", "--job", tmp_path / "j.leadsman")
    assert (code, err) == (2, "leadsman: The built-in recogniser is not installed.\n")
