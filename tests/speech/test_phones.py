"""The phone model: read, aligned, and held against the library whose files it uses."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from itertools import combinations, pairwise
from pathlib import Path

import numpy as np
import pytest

from assistant.ears.phones import alignment, cepstra, model
from assistant.ears.phones.alignment import align, likelihoods
from assistant.ears.phones.cepstra import FRAME_S, bands
from assistant.ears.phones.model import STATES, PhoneModel, load_phones, phones_folder
from assistant.ears.phones.opinion import WORST, PhoneEar
from assistant.ears.phones.pronouncing import Pronouncing, number_ways, sounded_out
from assistant.ears.phones.states import PAUSE, PhoneLattice, States, states_of
from assistant.errors import EarsError
from assistant.sound.resample import resample_all
from grammar.automaton import Automaton
from grammar.numbers import in_words
from grammar.spoken import Spoken

pytest.importorskip("pocketsphinx", reason="needs the voice extra")
pytest.importorskip("hibari", reason="needs the voice extra")
RATE = 16_000


@pytest.fixture(scope="module")
def folder() -> Path:
    return phones_folder()


@pytest.fixture(scope="module")
def phones(folder: Path) -> PhoneModel:
    return load_phones(folder)


@pytest.fixture(scope="module")
def pronouncing(folder: Path) -> Pronouncing:
    return Pronouncing(folder)


@pytest.fixture(scope="module")
def ear() -> PhoneEar:
    return PhoneEar()


@pytest.fixture(scope="module")
def voice() -> Callable[[str], np.ndarray]:
    import hibari

    mouth = hibari.Hibari()
    quiet = np.random.default_rng(1)

    def say(text: str) -> np.ndarray:
        speech = resample_all(mouth(f"{text}.", seed=0), mouth.sample_rate)
        around = np.zeros(RATE // 4, np.float32)
        sound = np.concatenate((around, speech, around))
        return (sound + quiet.standard_normal(len(sound)) * 2e-3).astype(np.float32)

    return say


# --- the files ----------------------------------------------------------------------


def test_without_the_package_it_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(model, "PACKAGE", "no-such-package-here")
    with pytest.raises(EarsError, match=r"leadsman\[voice\]"):
        phones_folder()


def test_a_package_without_the_model_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(model, "_FOLDER", "pocketsphinx/model/none-such")
    with pytest.raises(EarsError, match="carries no speech model"):
        phones_folder()


@pytest.mark.parametrize("part", model._PARTS)
@pytest.mark.parametrize("damage", ["empty", "cut", "another"])
def test_a_damaged_file_is_told(folder: Path, tmp_path: Path, part: str, damage: str) -> None:
    copy = tmp_path / "en-us"
    shutil.copytree(folder / "en-us", copy)
    whole = (copy / part).read_bytes()
    damaged = {"empty": b"", "cut": whole[: len(whole) // 2], "another": b"\7" * len(whole)}
    (copy / part).write_bytes(damaged[damage])
    with pytest.raises(EarsError, match="cannot be read"):
        load_phones(tmp_path)


def test_it_has_the_phones_of_english(phones: PhoneModel) -> None:
    # 39 phones of the Carnegie Mellon pronouncing dictionary, silence and two noises.
    assert len(phones.phones) == 42
    assert phones.phones[phones.silence] == "SIL"
    assert len(phones.plain) == 40 * STATES
    assert np.exp(phones.transitions).sum(axis=2) == pytest.approx(1.0)
    # A mixture is a whole, but for the coarse steps in which it is stored.
    assert phones.mixtures.sum(axis=1).mean() == pytest.approx(1.0, abs=0.05)


def test_a_triphone_that_is_not_there_has_the_nearest(phones: PhoneModel) -> None:
    number = phones.number_of
    known = phones.triphone(number["T"], number["IY"], number["N"], model.INSIDE)
    assert known >= len(phones.phones)
    assert phones.base_of[known] == number["T"]
    # Nobody says a silence between two others: what is left is the phone by itself.
    assert (
        phones.triphone(number["SIL"], number["SIL"], number["SIL"], model.ALONE) == number["SIL"]
    )


# --- words --------------------------------------------------------------------------


@pytest.mark.parametrize("manner", ["words", "digits"])
def test_every_word_of_the_language_is_in_the_dictionary(
    pronouncing: Pronouncing, manner: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    from assistant.ears.phones import pronouncing as module

    def not_there(word: str) -> tuple[str, ...]:
        raise AssertionError(f"no way to say: {word}")

    monkeypatch.setattr(module, "sounded_out", not_there)
    for word in words_of(Spoken(manner).automaton):  # type: ignore[arg-type]
        assert all(pronouncing.ways(word)), word


def words_of(automaton: Automaton) -> set[str]:
    """All words on all its ways."""
    waiting, seen, words = [0], {0}, set[str]()
    while waiting:
        for word, state in automaton.arcs(waiting.pop()).items():
            words.add(word)
            if state not in seen:
                seen.add(state)
                waiting.append(state)
    assert len(words) > 100
    return words


def test_a_word_has_all_its_ways_and_no_other_words(pronouncing: Pronouncing) -> None:
    in_dictionary = {("IH", "N", "CH", "AH", "Z"), ("IH", "N", "CH", "IH", "Z")}
    ways = pronouncing.ways("inches")
    assert set(ways[:2]) == in_dictionary
    assert {len(way) for way in ways} == {5}
    assert {way[1:3] for way in ways} == {("N", "CH")}
    assert pronouncing.ways("plus") == (("P", "L", "AH", "S"),)
    assert pronouncing.ways("kilo")[0] == ("K", "IY", "L", "OW")


def test_words_are_known_in_more_accents_than_one(pronouncing: Pronouncing) -> None:
    thirteen, fourteen = (pronouncing.ways(word) for word in ("thirteen", "fourteen"))
    assert ("T", "AO", "T", "IY", "N") in thirteen
    assert ("F", "ER", "T", "IY", "N") in thirteen
    assert ("F", "AO", "T", "IY", "N") in fourteen
    assert not set(thirteen) & set(fourteen)
    # An r before a vowel is always said.
    assert {way[2] for way in pronouncing.ways("zero")} == {"R"}


@pytest.mark.parametrize(
    ("word", "way"),
    [
        ("nine", "N OY N"), ("six", "S IY K S"), ("ten", "T IH N"), ("ten", "T EY N"),
        ("oscar", "AO S K AH"), ("metres", "M IY T AH Z"), ("map", "M AA P"), ("echo", "EH K AH"),
        ("three", "T R IY"), ("thirty", "T AH T IY"), ("thirty", "F ER T IY"),
    ],
)  # fmt: skip
def test_what_accents_make_of_a_word(pronouncing: Pronouncing, word: str, way: str) -> None:
    """Source: Wells, Accents of English, 1982, from memory."""
    assert tuple(way.split()) in pronouncing.ways(word)


def test_long_numbers_in_figures_are_said_in_few_ways(pronouncing: Pronouncing) -> None:
    # Every word of them in every accent would be hundreds, and take a minute.
    for figures in ("9850", "1999", "105.75"):
        for manner in ("words", None):
            (ways,) = pronouncing.sentence(figures, manner)
            assert 2 <= len(ways) <= 40
    (british,) = pronouncing.sentence("309", "words")
    three, hundred, nine = (("T", "R", "IY"), ("HH", "AH", "N", "D", "R"), ("N", "OY", "N"))
    assert any(way[-3:] == nine and way[:2] == ("TH", "R") for way in british)
    # Nobody says a Caribbean three and a Birmingham nine in one number.
    assert not any(way[-3:] == nine and way[:3] == three for way in british)
    assert any(way[3:8] == hundred for way in british)


@pytest.mark.slow
def test_a_long_number_in_figures_is_aligned(
    ear: PhoneEar, voice: Callable[[str], np.ndarray]
) -> None:
    said = "wall north nine thousand eight hundred and fifty millimetres"
    figures = ["wall north 9850 millimetres", "wall north 9350 millimetres"]
    opinions = ear.opinions(voice(said), figures, "words")
    assert opinions.scores[0] == 0.0
    assert opinions.ahead(0, 1) > 2


def test_in_no_accent_is_one_number_another(pronouncing: Pronouncing) -> None:
    said = [in_words(number) for number in (*range(20), *range(20, 100, 10))]
    ways = {word: set(pronouncing.ways(word)) for word in said}
    alike = {frozenset(pair) for pair in combinations(said, 2) if ways[pair[0]] & ways[pair[1]]}
    assert alike == set()


def test_a_name_that_nobody_knows_is_sounded_out() -> None:
    assert sounded_out("brickle") == ("B", "R", "IH", "K", "AH", "L")
    assert sounded_out("'") == ()


def test_numbers_are_said_as_the_manner_has_it(pronouncing: Pronouncing) -> None:
    worded, spelt = (pronouncing.sentence("15", manner) for manner in ("words", "digits"))
    assert worded == (pronouncing.ways("fifteen"),)
    assert spelt == (pronouncing.ways("one"), pronouncing.ways("five"))
    either, hundred = pronouncing.sentence("15"), pronouncing.sentence("105", "words")
    assert len(either) == len(hundred) == 1
    assert {worded[0][0], (*spelt[0][0], *spelt[1][0])} <= set(either[0])
    assert number_ways("7.05", "words") == ("seven point zero five",)
    assert number_ways("12345") == number_ways("9/7") == number_ways("1/3") == ()
    # What is neither a word nor a number leaves the rest as it is.
    assert pronouncing.sentence("tally .,") == pronouncing.sentence("tally")


# --- paths --------------------------------------------------------------------------


def small(phones: PhoneModel, pronouncing: Pronouncing, *sentences: str) -> States:
    lattice = PhoneLattice(phones)
    for words in sentences:
        lattice.add(pronouncing.sentence(words))
    return states_of(lattice)


def test_the_path_is_the_likeliest_of_all(phones: PhoneModel, pronouncing: Pronouncing) -> None:
    """By trying every way through by hand."""
    states = small(phones, pronouncing, "a", "oh")
    frames = 7
    sound = np.random.default_rng(3).normal(0, 6, (frames, 1, STATES, states.count))
    found = align(states, sound, 0)
    for sentence, ends in enumerate(states.ends):
        tried = [
            score
            for nodes in rows_to(states, ends)
            for score in every_way(states, nodes, sound[:, 0])
        ]
        assert found.scores[0, sentence] == pytest.approx(max(tried))
        path, fits = found.path(sentence)
        assert path[-1] // STATES in ends
        there = sound[np.arange(frames), 0, path % STATES, path // STATES]
        assert fits == pytest.approx(there)


def rows_to(states: States, ends: np.ndarray) -> list[list[int]]:
    """Every row of phones from the start to an end."""
    rows = [[int(end)] for end in ends]
    done = []
    while rows:
        row = rows.pop()
        for other in set(states.before[:, row[0]]) - {states.count}:
            if other == states.count + 1:
                done.append(row)
            else:
                rows.append([int(other), *row])
    return done


def every_way(states: States, nodes: list[int], sound: np.ndarray) -> list[float]:
    """The score of each way to share out the frames."""
    row = [(state, node) for node in nodes for state in range(STATES)]
    scores = []
    for cuts in combinations(range(1, len(sound)), len(row) - 1):
        shares = np.diff((0, *cuts, len(sound))).tolist()
        score, frame = 0.0, 0
        for (state, node), share in zip(row, shares, strict=True):
            score += (share - 1) * states.stay[state, node] + states.onward[state, node]
            score += sound[frame : frame + share, state, node].sum()
            frame += share
        scores.append(float(score))
    return scores


def test_a_sentence_too_long_for_the_sound_has_no_path(
    phones: PhoneModel, pronouncing: Pronouncing
) -> None:
    states = small(phones, pronouncing, "minus eighteen millimetres")
    found = align(states, np.zeros((20, 1, STATES, states.count)), 0)
    assert found.scores[0, 0] == -np.inf


@pytest.mark.slow
def test_words_lie_where_the_library_lays_them(
    folder: Path,
    phones: PhoneModel,
    pronouncing: Pronouncing,
    voice: Callable[[str], np.ndarray],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Source: pocketsphinx 5, forced alignment of the same sound with the same model."""
    import pocketsphinx

    # As the library does it: noise left in, all three streams in full.
    monkeypatch.setattr(cepstra, "_cleaned", lambda levels: levels + 1)
    monkeypatch.setattr(alignment, "_STREAM_PARTS", (1.0, 1.0, 1.0))
    decoder = pocketsphinx.Decoder(
        hmm=str(folder / "en-us"), dict=str(folder / "cmudict-en-us.dict"), lm=None,
        compallsen=True, topn=32, remove_noise=False, dither=False, bestpath=False,
        beam=1e-200, wbeam=1e-200, pbeam=1e-200, loglevel="FATAL",
    )  # fmt: skip
    for text in ("golf eleven plus fifteen inches", "victor nine plus seven", "dew point"):
        pcm = np.clip(voice(text) * 32768, -32768, 32767).astype(np.int16)
        decoder.set_align_text(text)
        decoder.start_utt()
        decoder.process_raw(pcm.tobytes(), full_utt=True)
        decoder.end_utt()
        theirs = [one.start_frame for one in decoder.seg() if not one.word.startswith("<")]
        states = small(phones, pronouncing, text)
        frames = cepstra.cepstra(bands(pcm / np.float32(32768), (1.0,))[0])
        sound = likelihoods(phones, frames, states.senones)
        path, _ = align(states, sound[:, None].reshape(len(sound), 1, -1, STATES)
                        .transpose(0, 1, 3, 2), 0).path(0)  # fmt: skip
        words = states.words[path // STATES]
        ours = [int(np.flatnonzero(words == word)[0]) for word in range(len(text.split()))]
        assert len(theirs) == len(ours)
        assert np.abs(np.subtract(ours, theirs)).max() * FRAME_S <= 0.03


# --- opinions -----------------------------------------------------------------------

HEARD = [
    ("bravo three minus eighteen millimetres", "bravo three minus eighty millimetres"),
    ("bravo three minus seventy millimetres", "bravo three minus seventeen millimetres"),
    ("point golf fifteen plus five inches", "point golf fifty plus five inches"),
    ("products", "product"),
    ("echo two plus nine millimetres", "echo two minus nine millimetres"),
]


@pytest.mark.parametrize(("said", "other"), HEARD)
def test_what_was_said_fits_better(
    ear: PhoneEar, voice: Callable[[str], np.ndarray], said: str, other: str
) -> None:
    opinions = ear.opinions(voice(said), [other, said], "words")
    assert opinions.scores[1] == 0.0
    assert opinions.scores[0] < -2


def test_how_far_one_is_before_another(ear: PhoneEar, voice: Callable[[str], np.ndarray]) -> None:
    sound = voice("door fourteen outside level")
    said = ["door fourteen outside level", "door nine outside level"]
    confusables = ["door 40 outside level", "door 13 outside level"]
    opinions = ear.opinions(sound, said, "words", confusables)
    # What is only compared is not among those that are put in order.
    assert opinions.scores == ear.opinions(sound, said, "words").scores
    assert opinions.ahead(0, 1) == pytest.approx(-opinions.scores[1])
    assert opinions.ahead(0, 2) == pytest.approx(-opinions.ahead(2, 0))
    assert 5 < opinions.ahead(0, 2) <= 80
    assert opinions.ahead(0, 3) > 2


def test_what_the_sound_is_too_short_for_is_behind_everything(
    ear: PhoneEar, voice: Callable[[str], np.ndarray]
) -> None:
    endless = " ".join(["minus eighteen millimetres"] * 12)
    opinions = ear.opinions(voice("map"), ["map", endless], "words", [f"{endless} by two"])
    assert (opinions.ahead(0, 1), opinions.ahead(1, 0)) == (80.0, -80.0)
    assert opinions.ahead(1, 2) == opinions.ahead(2, 1) == 0.0


def test_a_word_that_was_never_finished_fits_badly(
    ear: PhoneEar, voice: Callable[[str], np.ndarray]
) -> None:
    command = "echo one minus twelve millimetres"
    whole = ear.opinions(voice(command), [command]).evidence(0)
    broken = ear.opinions(voice("echo one minus twelve milli"), [command]).evidence(0)
    assert broken["last_word"] < whole["last_word"] - 1
    assert broken["hurried"] > whole["hurried"]


def test_what_stands_where_it_should_be_quiet_is_noticed(
    ear: PhoneEar, voice: Callable[[str], np.ndarray]
) -> None:
    talk = ear.opinions(voice("tell them we will have a tally by tomorrow noon"), ["tally"])
    alone = ear.opinions(voice("tally"), ["tally"])
    assert talk.evidence(0)["phones"] + talk.evidence(0)["pauses"] < (
        alone.evidence(0)["phones"] + alone.evidence(0)["pauses"] - 1
    )


@pytest.mark.parametrize("loudness", [0.03, 0.3, 1.0])
def test_how_loud_it_is_does_not_matter(
    ear: PhoneEar, voice: Callable[[str], np.ndarray], loudness: float
) -> None:
    sound, sentences = voice("door fourteen"), ["door fourteen", "door forty"]
    usual, other = (ear.opinions(sound * part, sentences).scores for part in (0.5, loudness))
    assert other == pytest.approx(usual, abs=3)


def test_sound_that_is_too_short_has_an_opinion_all_the_same(ear: PhoneEar) -> None:
    faint = np.random.default_rng(0).normal(0, 1e-3, RATE // 10).astype(np.float32)
    opinions = ear.opinions(faint, ["bravo three minus eighteen millimetres"])
    assert opinions.scores == (0.0,)
    assert opinions.evidence(0) == {
        "phones": WORST, "worst_word": WORST, "last_word": WORST, "pauses": WORST, "hurried": 1.0,
    }  # fmt: skip


@pytest.mark.parametrize("samples", [1, 400, 4_000, 16_000])
def test_silence_and_scraps_of_sound_harm_nothing(ear: PhoneEar, samples: int) -> None:
    opinions = ear.opinions(np.zeros(samples, np.float32), ["map", "why", "'"])
    assert np.isfinite(opinions.scores).all()
    for sentence in range(3):
        assert np.isfinite(list(opinions.evidence(sentence).values())).all()


def test_the_same_sound_has_the_same_opinion(
    ear: PhoneEar, voice: Callable[[str], np.ndarray]
) -> None:
    sound = voice("grid two metres by three metres")
    sentences = ["grid two metres by three metres", "grid ten metres by three metres"]
    first, second = (ear.opinions(sound, sentences) for _ in range(2))
    assert first.scores == second.scores
    assert first.evidence(1) == second.evidence(1)


def test_pauses_between_words_cost_little(
    ear: PhoneEar, voice: Callable[[str], np.ndarray]
) -> None:
    command = "bravo three minus eighteen millimetres"
    halves = [voice(part) for part in ("bravo three", "minus eighteen millimetres")]
    told = ear.opinions(np.concatenate(halves), [command]).evidence(0)
    assert told["worst_word"] > -4
    assert told["hurried"] < 0.5


def test_a_lattice_has_a_pause_between_words(phones: PhoneModel, pronouncing: Pronouncing) -> None:
    lattice = PhoneLattice(phones)
    lattice.add(pronouncing.sentence("dew point"))
    order = [word for word, _ in pairwise([*lattice.words, None])]
    assert order.count(PAUSE) == 3
    assert max(word for word in order if word is not None) == 1
