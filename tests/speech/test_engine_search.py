"""The search, with a model made by hand, and the rivals that are looked for on purpose."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from assistant.ears.beam_search import Beam, Ears, Unwanted, beam_search
from assistant.ears.decoding_graph import DecodingGraph
from assistant.ears.moonshine import END, Attended, DecoderStep
from assistant.ears.rivals import confusable_wholes, sounding_alike
from assistant.ears.tokens import Tokens, read_tokens
from assistant.errors import EarsError
from grammar import understand
from grammar.automaton import Automaton
from grammar.commands.readings import TakeReading
from grammar.commands.talk import TakeBack
from grammar.spoken import Spoken
from grammar.template import read_template

# --- pieces -----------------------------------------------------------------

_BYTES = ["<unk>", "<s>", "</s>", *(chr(n) if n < 128 else "�" for n in range(256))]
_LETTERS = ["▁", *"abcdefghijklmnopqrstuvwxyz.-0123456789XML"]


def made(*merges: str) -> Tokens:
    return Tokens([*_BYTES, *merges, *_LETTERS])


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
    assert read_tokens(tmp_path / "whole") == ["<unk>", "<s>", "</s>", "ab"]
    with pytest.raises(EarsError, match="cut off"):
        read_tokens(tmp_path / "cut")


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

    def memory(self) -> Attended:
        return Attended(
            np.zeros((1, 1, 1)), {}, DecoderStep(self.scores([()]), (np.zeros((1, 0), int),))
        )

    def step(self, _memory: Any, past: tuple[np.ndarray, ...], tokens: np.ndarray) -> DecoderStep:
        said = np.concatenate([past[0], tokens[:, None]], axis=1)
        return DecoderStep(self.scores([tuple(int(n) for n in row) for row in said]), (said,))


def parrot(pieces: Tokens, **wanted: float) -> _Parrot:
    sentences = {
        tuple(n for word in text.split("_") for n in pieces.cut(word)): score
        for text, score in wanted.items()
    }
    return _Parrot(len(_BYTES) + len(_LETTERS), sentences)


def heard_by(model: _Parrot, template: str, pieces: Tokens, breadth: Beam, **more: Any) -> Any:
    silent = _Parrot(model.size, {})
    ears = Ears(model, model.memory(), silent.memory())  # type: ignore[arg-type]
    # Silence says nothing about any piece: the same model, with nothing wanted.
    ears = replace(ears, model=_Both(model, silent, ears.heard))  # type: ignore[arg-type]
    paths = DecodingGraph(Automaton([read_template(template)], read_template), pieces)
    return beam_search(ears, paths, breadth, 40, **more)


@dataclass
class _Both:
    heard: _Parrot
    silent: _Parrot
    memory: Attended

    def side_by_side(self, work: Callable[[Any], Any], given: Iterable[Any]) -> list[Any]:
        return [work(one) for one in given]

    def step(
        self, memory: Attended, past: tuple[np.ndarray, ...], tokens: np.ndarray
    ) -> DecoderStep:
        model = self.heard if memory is self.memory else self.silent
        return model.step(memory, past, tokens)


def test_only_sentences_of_the_grammar_come_out() -> None:
    pieces = made()
    model = parrot(pieces, cut_map=5.0, cut_list=4.0)
    found = heard_by(model, "cut (list | for)", pieces, Beam(), free=True)
    assert pieces.text(found.sentences[0].pieces) == "cut list"
    assert pieces.text(found.free.pieces) == "cut map"
    assert found.free.log_probability > found.sentences[0].log_probability


def test_a_sentence_knows_how_far_its_pieces_were_behind() -> None:
    pieces = made()
    model = parrot(pieces, cut_map=5.0, cut_list=4.0)
    found = heard_by(model, "cut (list | for)", pieces, Beam(margin=99.0, abreast=99.0))
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
    found = heard_by(model, "tally", pieces, Beam(margin=30.0))
    assert {pieces.text(s.pieces) for s in found.sentences} == {"tally", "tally."}


def test_a_search_can_be_given_up() -> None:
    pieces = made()
    model = parrot(pieces, map=5.0)
    ears = Ears(model, model.memory(), model.memory())  # type: ignore[arg-type]
    ears.unwanted.set()
    with pytest.raises(Unwanted):
        beam_search(
            ears,
            DecodingGraph(Automaton([read_template("map")], read_template), pieces),
            Beam(),
            40,
        )


def test_a_floor_leaves_out_what_is_far_behind() -> None:
    pieces = made()
    model = parrot(pieces, map=5.0)
    assert heard_by(model, "(map | doors)", pieces, Beam(), floor=-1.0).sentences
    assert not heard_by(model, "(map | doors)", pieces, Beam(), floor=99.0).sentences


def test_spellings_of_the_same_words_do_not_fill_the_width() -> None:
    pieces = made()
    written = Automaton(
        [read_template("(xray | milk) (level | lima)")], read_template, written=True
    )
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
    breadth = Beam(width=4, margin=99.0, abreast=99.0, spellings=1)
    found = beam_search(ears, DecodingGraph(written, pieces), breadth, 40)
    assert "milk level" in {pieces.text(s.pieces) for s in found.sentences}


def test_a_name_that_cannot_be_written_is_left_out() -> None:
    pieces = made()
    paths = DecodingGraph(
        Automaton([read_template("product (fein | fein-ß)")], read_template), pieces
    )
    model = parrot(pieces, product_fein=5.0)
    assert not pieces.can_cut("fein-ß")
    ears = Ears(_Both(model, model, model.memory()), model.memory(), model.memory())  # type: ignore[arg-type]
    assert beam_search(ears, paths, Beam(margin=99.0), 40).sentences


# --- rivals ------------------------------------------------------------------


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
    found = sounding_alike(understand(said)[0], Spoken())
    assert understand(rival)[0] in found
    assert understand(said)[0] not in found


def test_everything_that_may_be_said_has_rivals() -> None:
    """Also what is yes or no of one thing: “hole” and “no hole”, each the other's rival."""
    spoken = Spoken()
    for phrase in spoken.phrases:
        for example in phrase.examples:
            assert sounding_alike(understand(example)[0], spoken), example
    hole, none = understand("hole")[0], understand("no hole")[0]
    assert none in sounding_alike(hole, spoken)
    assert hole in sounding_alike(none, spoken)


def test_every_digit_may_be_dropped_changed_or_doubled() -> None:
    assert {15, 5, 1, 16, 115, 155, 105, 50} <= set(confusable_wholes(15))


def test_rivals_of_a_short_command_are_the_other_short_ones() -> None:
    found = sounding_alike(TakeBack(), Spoken())
    assert understand("tally")[0] in found
    assert not any(isinstance(one, TakeReading) for one in found)


def test_a_reading_of_nothing_has_no_sizes() -> None:
    found = sounding_alike(understand("bravo three level")[0], Spoken())
    numbers = {one.reading.number for one in found if isinstance(one, TakeReading)}
    assert numbers == {Decimal(0)}
