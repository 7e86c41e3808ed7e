"""The search and what is made of its sentences, with a model made by hand."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from assistant.ears.hearing import EarsError
from assistant.ears.judging import (
    Entries,
    Entry,
    Fit,
    Needed,
    Speech,
    Temperature,
    Thresholds,
    evidence_of,
    fit_of,
    has_twin,
    judged,
    load_thresholds,
    probabilities_of,
    slowness,
    tier_of,
)
from assistant.ears.moonshine import END, Memory, Step
from assistant.ears.paths import Paths
from assistant.ears.pieces import Pieces, read_pieces
from assistant.ears.rivals import rivals, wholes
from assistant.ears.search import Breadth, Ears, Sentence, Unwanted, search
from grammar import understand
from grammar.automaton import Automaton
from grammar.commands import ScratchThat, TakeReading
from grammar.spoken import Spoken
from grammar.template import read

# --- pieces -----------------------------------------------------------------

_BYTES = ["<unk>", "<s>", "</s>", *(chr(n) if n < 128 else "�" for n in range(256))]
_LETTERS = ["▁", *"abcdefghijklmnopqrstuvwxyz.-0123456789XML"]


def made(*merges: str) -> Pieces:
    return Pieces([*_BYTES, *merges, *_LETTERS])


def test_the_earliest_merge_comes_first() -> None:
    pieces = made("ab", "▁a", "bc", "▁ab")
    assert [pieces.text([n]) for n in pieces.cut("abc")] == ["ab", "c"]
    # With "bc" before "ab", the word falls apart elsewhere.
    pieces = made("bc", "ab", "▁a")
    assert [pieces.text([n]) for n in pieces.cut("abc")] == ["a", "bc"]


def test_pieces_for_bytes_are_never_used() -> None:
    pieces = made("▁a")
    assert all(number >= len(_BYTES) for number in pieces.cut("abc"))
    # An exclamation mark stands there only as a byte.
    assert not pieces.can_cut("wow!")


def test_a_joined_word_has_no_space_before_it() -> None:
    pieces = made()
    assert pieces.text([*pieces.cut("one"), *pieces.cut("2", True), *pieces.cut("two")]) == (
        "one2 two"
    )


def test_a_tokenizer_file_that_is_cut_off_is_told(tmp_path: Path) -> None:
    whole = b"\x05<unk>\x03<s>\x04</s>\x02ab"
    (tmp_path / "whole").write_bytes(whole)
    (tmp_path / "cut").write_bytes(whole[:-1])
    assert read_pieces(tmp_path / "whole") == ["<unk>", "<s>", "</s>", "ab"]
    with pytest.raises(EarsError, match="cut off"):
        read_pieces(tmp_path / "cut")


# --- the search ----------------------------------------------------------------


@dataclass
class _Parrot:
    """A model that is sure of one sentence, and a little less of another."""

    size: int
    wanted: dict[tuple[int, ...], float]

    def scores(self, before: list[tuple[int, ...]]) -> np.ndarray:
        rows = np.full((len(before), self.size), -12.0, np.float32)
        for row, said in enumerate(before):
            for sentence, score in self.wanted.items():
                whole = (*sentence, END)
                if whole[: len(said)] == said and len(said) < len(whole):
                    rows[row, whole[len(said)]] = score
        return rows

    def memory(self) -> Memory:
        return Memory(np.zeros((1, 1, 1)), {}, Step(self.scores([()]), (np.zeros((1, 0), int),)))

    def step(self, _memory: Any, past: tuple[np.ndarray, ...], tokens: np.ndarray) -> Step:
        said = np.concatenate([past[0], tokens[:, None]], axis=1)
        return Step(self.scores([tuple(int(n) for n in row) for row in said]), (said,))


def parrot(pieces: Pieces, **wanted: float) -> _Parrot:
    sentences = {
        tuple(n for word in text.split("_") for n in pieces.cut(word)): score
        for text, score in wanted.items()
    }
    return _Parrot(len(_BYTES) + len(_LETTERS), sentences)


def heard_by(model: _Parrot, template: str, pieces: Pieces, breadth: Breadth, **more: Any) -> Any:
    silent = _Parrot(model.size, {})
    ears = Ears(model, model.memory(), silent.memory())  # type: ignore[arg-type]
    # Silence says nothing about any piece: the same model, with nothing wanted.
    ears = replace(ears, model=_Both(model, silent, ears.heard))  # type: ignore[arg-type]
    paths = Paths(Automaton([read(template)], read), pieces)
    return search(ears, paths, breadth, 40, **more)


@dataclass
class _Both:
    heard: _Parrot
    silent: _Parrot
    memory: Memory

    def step(self, memory: Memory, past: tuple[np.ndarray, ...], tokens: np.ndarray) -> Step:
        model = self.heard if memory is self.memory else self.silent
        return model.step(memory, past, tokens)


def test_only_sentences_of_the_grammar_come_out() -> None:
    pieces = made()
    model = parrot(pieces, cut_map=5.0, cut_list=4.0)
    found = heard_by(model, "cut (list | for)", pieces, Breadth(), free=True)
    assert pieces.text(found.sentences[0].pieces) == "cut list"
    assert pieces.text(found.free.pieces) == "cut map"
    assert found.free.log_probability > found.sentences[0].log_probability


def test_a_sentence_knows_how_far_its_pieces_were_behind() -> None:
    pieces = made()
    model = parrot(pieces, cut_map=5.0, cut_list=4.0)
    found = heard_by(model, "cut (list | for)", pieces, Breadth(margin=99.0, abreast=99.0))
    by_words = {pieces.text(s.pieces): s for s in found.sentences}
    behind = by_words["cut list"].behind
    # A piece each, and the end; "list" turns off after "cut" and its space.
    assert len(behind) == len(by_words["cut list"].pieces) + 1
    assert behind[5] == pytest.approx(1.0)
    assert sum(behind) == pytest.approx(1.0)
    assert sum(by_words["cut for"].behind) > 15.0


def test_both_ends_are_found_with_and_without_a_full_stop() -> None:
    pieces = made()
    model = _Parrot(
        len(_BYTES) + len(_LETTERS), {(*pieces.cut("tally"), *pieces.cut(".", True)): 5.0}
    )
    found = heard_by(model, "tally", pieces, Breadth(margin=30.0))
    assert {pieces.text(s.pieces) for s in found.sentences} == {"tally", "tally."}


def test_a_search_can_be_given_up() -> None:
    pieces = made()
    model = parrot(pieces, map=5.0)
    ears = Ears(model, model.memory(), model.memory())  # type: ignore[arg-type]
    ears.unwanted.set()
    with pytest.raises(Unwanted):
        search(ears, Paths(Automaton([read("map")], read), pieces), Breadth(), 40)


def test_a_floor_leaves_out_what_is_far_behind() -> None:
    pieces = made()
    model = parrot(pieces, map=5.0)
    assert heard_by(model, "(map | doors)", pieces, Breadth(), floor=-1.0).sentences
    assert not heard_by(model, "(map | doors)", pieces, Breadth(), floor=99.0).sentences


def test_spellings_of_the_same_words_do_not_fill_the_width() -> None:
    pieces = made()
    written = Automaton([read("(xray | milk) (level | lima)")], read, written=True)
    model = parrot(
        pieces,
        xray_level=5.0,
        Xray_level=4.9,
        xray_lima=4.8,
        Xray_lima=4.7,
        milk_level=4.5,
        milk_lima=4.4,
    )
    silent = _Parrot(model.size, {})
    both = _Both(model, silent, model.memory())
    ears = Ears(both, both.memory, silent.memory())  # type: ignore[arg-type]
    breadth = Breadth(width=4, margin=99.0, abreast=99.0, spellings=1)
    found = search(ears, Paths(written, pieces), breadth, 40)
    assert "milk level" in {pieces.text(s.pieces) for s in found.sentences}


def test_a_name_that_cannot_be_written_is_left_out() -> None:
    pieces = made()
    paths = Paths(Automaton([read("product (fein | fein-ß)")], read), pieces)
    model = parrot(pieces, product_fein=5.0)
    assert not pieces.can_cut("fein-ß")
    ears = Ears(_Both(model, model, model.memory()), model.memory(), model.memory())  # type: ignore[arg-type]
    assert search(ears, paths, Breadth(margin=99.0), 40).sentences


# --- what is made of it -----------------------------------------------------

LIMITS = Thresholds(
    sure_probability=Needed(quiet=0.9, loud=0.97),
    twin_probability=Needed(quiet=0.98, loud=0.999),
    sure_fit=1.0,
    short_fit=3.0,
    written_fit=0.5,
    ask_fit=-2.0,
    temperature=Temperature(0.0, 0.0),
    fit=Fit(constant=0.0, ratio=0.0, gap=1.0, words=0.0, slow=-1.0, ending=0.0, doubt=0.0),
)
BREADTH = Breadth()
QUIET = Speech(1.0, 60.0, "words")


def sentence(gap: float, number: int = 300) -> Sentence:
    return Sentence((number,), gap, 0.0, 0.0)


def entries_of(*said: tuple[str, float]) -> Entries:
    entries = Entries(BREADTH, Spoken().meanings)
    texts = {(300 + at,): text for at, (text, _) in enumerate(said)}
    entries.add([sentence(s, 300 + at) for at, (_, s) in enumerate(said)], texts.__getitem__)
    return entries


def test_spellings_count_together_for_one_command() -> None:
    ranked = entries_of(
        ("minus fifty millimetres", -1.0),
        ("minus fifteen millimetres", -1.2),
        ("Minus 15 millimeters.", -1.2),
    ).ranked(2)
    assert [entry.words for entry in ranked] == [
        "minus fifteen millimetres", "minus fifty millimetres",
    ]  # fmt: skip
    assert ranked[0].score == pytest.approx(-1.2 + np.log(2))


def test_commands_said_in_other_words_come_together() -> None:
    ranked = entries_of(("pour neat", -1.0), ("no aggregate", -1.0), ("tally", -2.0)).ranked(3)
    assert len(ranked) == 2


def test_sentences_without_a_meaning_are_left_out() -> None:
    ranked = entries_of(("minus minus", -0.1), ("tally", -2.0)).ranked(1)
    assert [entry.words for entry in ranked] == ["tally"]


def test_nothing_in_the_grammar_is_to_be_said_again() -> None:
    heard = judged([], sentence(-1.0), "pass me that", BREADTH, QUIET, LIMITS)
    assert (heard.tier, heard.text, heard.command) == ("again", "pass me that", None)


@pytest.mark.parametrize(
    ("words", "probability", "fit", "tier_named"),
    [
        ("point bravo three level", 0.95, 1.5, "sure"),
        ("point bravo three level", 0.95, 0.5, "ask"),
        ("point bravo three level", 0.85, 5.0, "ask"),
        ("point bravo three level", 1.0, -2.5, "again"),
        # Fifteen has a twin, sixty one has none.
        ("bravo three minus fifteen millimetres", 0.95, 1.5, "ask"),
        ("Bravo 3 minus 15 millimeters.", 0.99, 1.5, "sure"),
        ("bravo three minus sixty one millimetres", 0.95, 1.5, "sure"),
        # Short, and it would change the job.
        ("scratch that", 1.0, 1.5, "ask"),
        ("scratch that", 1.0, 3.5, "sure"),
        ("minus sixty one millimetres", 1.0, 3.5, "sure"),
        ("bravo three level", 1.0, 1.5, "ask"),
        ("bravo three level", 1.0, 3.5, "sure"),
        # Two words that change nothing, and one.
        ("high spots", 1.0, 1.5, "sure"),
        ("tally", 1.0, 1.5, "ask"),
        ("tally", 1.0, 3.5, "sure"),
    ],
)
def test_tiers(words: str, probability: float, fit: float, tier_named: str) -> None:
    assert tier(words, probability, fit) == tier_named


def tier(
    words: str, probability: float, fit: float, above_db: float = 60.0, written: bool = False
) -> str:
    evidence = {
        "above_db": above_db,
        "written": float(written),
        "twin": float(has_twin(words, "words")),
    }
    return tier_of(understand(words)[0], words, probability, fit, evidence, LIMITS)


def test_noise_asks_for_more() -> None:
    # Halfway between quiet and loud, half of the way.
    for above_db, needed in ((30.0, 0.9), (22.5, 0.935), (15.0, 0.97), (3.0, 0.97)):
        assert tier("bravo three level", needed + 0.001, 5.0, above_db) == "sure"
        assert tier("bravo three level", needed - 0.001, 5.0, above_db) == "ask"
    assert tier("minus fifteen millimetres", 0.99, 5.0, above_db=10.0) == "ask"


def test_what_the_model_writes_by_itself_needs_to_fit_less() -> None:
    assert tier("tally", 1.0, 0.6, written=True) == "sure"
    assert tier("tally", 1.0, 0.4, written=True) == "ask"
    # How likely it is against others is another matter.
    assert tier("tally", 0.5, 5.0, written=True) == "ask"


def test_an_ending_that_was_not_said_fits_worse() -> None:
    limits = replace(LIMITS.fit, ending=-0.5)
    free = sentence(-0.5)
    for behind, fit in (((9.0, 0.0, 1.0, 0.0), -1.0), ((0.0, 0.0, 6.0, 0.0), -3.5)):
        best = replace(sentence(-1.0), behind=behind)
        evidence = evidence_of(Entry("tally", best, -1.0), free, BREADTH, 0.3)
        assert fit_of(evidence, limits) == pytest.approx(fit)


def test_what_took_too_long_to_say_fits_worse() -> None:
    entry = Entry("tally", sentence(-1.0), -1.0)
    free = sentence(-0.5)
    quick, slow = (
        fit_of(evidence_of(entry, free, BREADTH, seconds), LIMITS.fit) for seconds in (0.3, 2.5)
    )
    assert quick == pytest.approx(-0.5)
    assert slow < quick - 1
    assert slowness("18", 1.0) < slowness("map", 1.0)


def test_habit_is_taken_off_the_ratio_but_not_off_the_gap() -> None:
    entry = Entry("tally", Sentence((300,), -3.0, -8.0, 0.0), -1.0)
    evidence = evidence_of(entry, Sentence((301,), -1.0, -2.0, 0.0), Breadth(prior=0.5), 0.3)
    assert evidence["gap"] == pytest.approx(-2.0)
    assert evidence["ratio"] == pytest.approx(-2.0 + 0.5 * 6.0)


def test_the_thresholds_that_come_with_the_program() -> None:
    limits = load_thresholds()
    for needed in (limits.sure_probability, limits.twin_probability):
        assert 0.5 < needed.quiet < needed.loud < 1
    assert limits.ask_fit < limits.sure_fit <= limits.short_fit
    assert limits.fit.slow < 0 < limits.fit.ratio


def test_the_more_doubt_the_less_sure() -> None:
    warmer = Temperature(-0.5, 0.5)
    clean, noisy = (
        probabilities_of([0.0, -2.0], {"doubt": doubt}, warmer)[0] for doubt in (0.1, 1.2)
    )
    assert 0.5 < noisy < clean < 1


@pytest.mark.parametrize(
    ("said", "rival"),
    [
        ("bravo three minus fifteen millimetres", "bravo three minus fifty millimetres"),
        ("bravo three minus fifteen millimetres", "delta three minus fifteen millimetres"),
        ("bravo three minus fifteen millimetres", "bravo three plus fifteen millimetres"),
        ("bravo three minus fifteen millimetres", "bravo three minus fifteen inches"),
        ("bravo three minus fifteen millimetres", "bravo three minus one hundred and fifteen mm"),
        ("bravo three minus fifteen millimetres", "correct bravo three to minus fifteen mm"),
        ("bravo three minus fifteen millimetres", "bravo thirteen minus fifteen millimetres"),
        ("bravo three minus fifteen millimetres", "minus fifteen millimetres"),
        ("bravo three minus fifteen millimetres", "tally"),
        ("plus three eighths inches", "plus five sixteenths inches"),
        ("plus one and a half inches", "plus one inch"),
        ("minus two point five millimetres", "minus twenty five millimetres"),
        ("what if raise finish three millimetres", "what if lower finish three millimetres"),
        ("door one at bravo two", "door nine at bravo two"),
        ("wall north two metres", "wall south two metres"),
    ],
)
def test_rivals(said: str, rival: str) -> None:
    found = rivals(understand(said)[0], Spoken())
    assert understand(rival)[0] in found
    assert understand(said)[0] not in found


def test_every_digit_may_be_dropped_changed_or_doubled() -> None:
    assert {15, 5, 1, 16, 115, 155, 105, 50} <= set(wholes(15))


def test_rivals_of_a_short_command_are_the_other_short_ones() -> None:
    found = rivals(ScratchThat(), Spoken())
    assert understand("tally")[0] in found
    assert not any(isinstance(one, TakeReading) for one in found)


def test_a_reading_of_nothing_has_no_sizes() -> None:
    found = rivals(understand("bravo three level")[0], Spoken())
    numbers = {one.reading.number for one in found if isinstance(one, TakeReading)}
    assert numbers == {Decimal(0)}
