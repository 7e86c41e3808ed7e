"""What a line is likely about, by the words of others who meant the same."""

from __future__ import annotations

import re

import numpy as np
import pytest

from grammar import short_form
from grammar.commands import Change, Command
from grammar.commands.talk import WhatIf
from grammar.gist import any_command, gist
from grammar.likely import (
    NO_ROW,
    STRANGE,
    WEIGHTS,
    LikelyRow,
    features,
    likely_rows,
    row_name,
    rows_named,
)
from grammar.likely_meant import AHEAD, DENIED, DOUBTED, LEAST, SURELY, TURNED, doubts, likely_meant
from grammar.phrases import PHRASES
from grammar.values_said import values_said
from grammar.words import split_words
from tests.paraphrases.fit import digest, of_the_lists, paraphrases


def likely(line: str, could: object = any_command) -> str | None:
    """The short form of what a line likely means, or what is asked; None where nothing is."""
    found = likely_meant(line, split_words(line), could, ())  # type: ignore[arg-type]
    if found is None:
        return None
    return found.question if found.command is None else short_form(found.command)


def test_the_weights_are_those_of_the_paraphrases() -> None:
    with np.load(WEIGHTS) as file:
        held = bytes(file["digest"]).decode()
    assert held == digest(), "python -m tests.paraphrases.fit makes the weights anew"


def test_every_row_has_a_name_and_most_have_paraphrases() -> None:
    names = {row_name(phrase) for phrase in PHRASES}
    said = {example.row for example in paraphrases()} - {NO_ROW}
    assert said <= names
    assert len(said) > 0.9 * len(names), names - said
    assert all(rows_named(name) for name in names)


def test_nothing_is_learned_from_a_list_that_measures() -> None:
    """What is measured with must not have been seen."""
    lines = {example.line for example in (*paraphrases(), *of_the_lists())}
    assert len(lines) > 10_000
    from tests.benchmarks.talk.table import HELD_OUT, table

    held = {row.phrase for name in HELD_OUT for row in table(name)}
    assert held
    # Two people say some short things alike.
    assert len(held & lines) < 0.05 * len(held)


def test_a_line_is_told_by_roots_pairs_and_concepts() -> None:
    words = split_words("when can the tilers walk on it")
    found = list(features(words, values_said(words)[0]))
    assert {"walk", "^ when", "it $", "walk on"} <= set(found)
    assert any(re.fullmatch(r"\(.+\)", each) for each in found)


def test_a_value_is_one_word_by_its_sort() -> None:
    words = split_words("pin at c 3 please")
    assert "<point>" in list(features(words, values_said(words)[0]))


def test_the_likeliest_row_is_first_and_a_strange_word_makes_all_less_likely() -> None:
    def first(line: str) -> LikelyRow:
        words = split_words(line)
        return next(row for row in likely_rows(words, ()) if row.name != NO_ROW)

    plain, strange = first("how many sacks do we need"), first("how many xylophones do we need")
    assert plain.name == "AskFigure/figure=bags"
    assert strange.score < plain.score - STRANGE / 2
    assert likely_rows(split_words("qqq zzz"), ()) == []


@pytest.mark.parametrize(
    ("line", "form"),
    [
        ("when can the carpet lads come in", "covering time"),
        ("we just tipped another one in", "batch"),
        ("D2 was wrong, it's nine under", "correct D2 -9"),
        ("the boss wants it two millimetres higher at the finish", "raise finish 2 mm"),
        ("chuck the reading at D3", "strike D3"),
    ],
)
def test_what_nobody_listed(line: str, form: str) -> None:
    assert likely(line) == form


@pytest.mark.parametrize(
    "line",
    [
        "pass me the big hammer",
        "he told me the second coat was on",
        "don't undo that",
        "who nicked my tape",
        "the lads went to the pub at six",
    ],
)
def test_talk_means_nothing(line: str) -> None:
    assert likely(line) is None


def test_what_is_missing_is_asked() -> None:
    assert likely("amend d2, make it 12") == "Correct D2 12: below or above?"
    assert likely("delete a reading") == "Strike which point?"
    assert likely("knock the finish down a bit") == "Lower finish how much?"


def test_a_change_that_is_only_supposed_is_a_what_if() -> None:
    line = "what would happen if the finish came up 2 mm"
    found = likely_meant(line, split_words(line), any_command, ())
    assert found is not None
    assert isinstance(found.command, WhatIf)
    assert isinstance(found.command.change, Change)


def test_the_frame_of_another_row_is_doubted() -> None:
    line = "when can we walk on it"
    words = split_words(line)
    meant = likely_meant(line, words, any_command, ())
    assert meant is not None
    other = gist("how many bags do i need")
    assert other is not None
    assert not doubts(meant.command, line, words, ())
    assert doubts(other.command, line, words, ())
    assert not doubts(None, line, words, ())


class _Rows:
    """Rows and their scores as if they had been found."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.scores: dict[str, float] = {}
        monkeypatch.setattr("grammar.likely_meant.likely_rows", lambda *_: self._rows())

    def _rows(self) -> list[LikelyRow]:
        rows = [LikelyRow(name, score) for name, score in self.scores.items()]
        return sorted(rows, key=lambda row: -row.score)


@pytest.fixture
def found(monkeypatch: pytest.MonkeyPatch) -> _Rows:
    return _Rows(monkeypatch)


BAGS, WATER, UNDO, FASTER = (
    "AskFigure/figure=bags", "AskFigure/figure=water-per-bag", "TakeBack",
    "AdjustVoice/word=faster",
)  # fmt: skip


ANSWERS = ("Confirm", "CancelThat", "ChooseSide", "ChooseUnit", "SayInstead")


def test_how_likely_each_kind_has_to_be(found: _Rows) -> None:
    least = (("ask", BAGS, LEAST["ask"]), ("change", UNDO, LEAST["change"]),
             ("voice", FASTER, TURNED))  # fmt: skip
    for kind, name, enough in least:
        form = {BAGS: "how many bags", UNDO: "undo", FASTER: "faster"}[name]
        found.scores = {name: enough + 0.001, NO_ROW: -3}
        if name == UNDO:
            # It is about the talk itself, too.
            found.scores[name] = max(enough, TURNED) + 0.001
        assert likely("floor side room") == form, kind
        found.scores[name] -= 0.002
        assert likely("floor side room") is None, kind


def test_the_likeliest_has_to_be_ahead_of_any_other_and_of_none(found: _Rows) -> None:
    for other in (WATER, NO_ROW):
        found.scores = {BAGS: 0.5, NO_ROW: -3, other: 0.5 - AHEAD["ask"] - 0.001}
        assert likely("floor side room") == "how many bags", other
    found.scores = {BAGS: 0.5, NO_ROW: 0.5 - AHEAD["ask"] + 0.001}
    assert likely("floor side room") is None
    found.scores = {BAGS: 0.5, NO_ROW: 0.6}
    assert likely("floor side room") is None


def test_of_two_that_are_as_likely_it_is_asked_which(found: _Rows) -> None:
    found.scores = {BAGS: 0.5, WATER: 0.5 - AHEAD["ask"] + 0.001, NO_ROW: -3}
    assert likely("floor side room") == "How many bags or water a bag?"

    def could(command: Command) -> bool:
        return short_form(command) != "water a bag"

    assert likely("floor side room", could) is None
    found.scores[NO_ROW] = 0.1
    assert likely("floor side room") is None


def test_a_line_of_two_words_has_to_be_surely_meant(found: _Rows) -> None:
    found.scores = {BAGS: SURELY + 0.001, NO_ROW: -3}
    assert likely("floor side") == "how many bags"
    found.scores = {BAGS: SURELY - 0.001, NO_ROW: -3}
    assert likely("floor side") is None
    found.scores = {BAGS: 3, NO_ROW: -3}
    assert likely("floor") is None


def test_no_change_is_offered_for_a_line_with_a_word_that_nobody_said(found: _Rows) -> None:
    found.scores = {UNDO: 3, NO_ROW: -3}
    assert likely("floor side room") == "undo"
    assert likely("floor side banana") is None


def test_a_denial_is_no_order(found: _Rows) -> None:
    found.scores = {"GoToNextLine": DENIED + 0.001, NO_ROW: -3}
    assert likely("there is no hm") is not None
    found.scores = {"GoToNextLine": DENIED - 0.001, NO_ROW: -3}
    assert likely("there is no hm") is None


def test_a_frame_stands_until_it_is_doubted_by_so_much(found: _Rows) -> None:
    command = gist("how many bags do i need")
    assert command is not None
    found.scores = {BAGS: 0.0, WATER: DOUBTED - 0.001}
    assert not doubts(command.command, "floor side room", split_words("floor side room"), ())
    found.scores = {BAGS: 0.0, WATER: DOUBTED + 0.001}
    assert doubts(command.command, "floor side room", split_words("floor side room"), ())


def test_the_five_likeliest_rows_are_looked_at_and_no_sixth(found: _Rows) -> None:
    """Rows that only answer a question take a place and mean nothing of their own."""
    for before, form in ((4, "how many bags"), (5, None)):
        found.scores = {name: 0.9 - number / 1000 for number, name in enumerate(ANSWERS[:before])}
        found.scores |= {BAGS: 0.8, NO_ROW: -3}
        assert likely("floor side room") == form, before
