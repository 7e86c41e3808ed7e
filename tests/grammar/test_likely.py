"""What a line is likely about, by the words of others who meant the same."""

from __future__ import annotations

import re
from collections.abc import Callable

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
from grammar.likely_meant import (
    DENIED,
    DOUBTED,
    HEIGHT,
    LEAST,
    NEAR,
    OF_NONE,
    SHORTLY,
    TURNED,
    _side_of,
    doubts,
    likely_meant,
    weigh,
)
from grammar.phrases import PHRASES
from grammar.values_said import values_said
from grammar.words import split_words
from tests.paraphrases.fit import digest, of_the_lists, paraphrases


def likely(line: str, could: object = any_command) -> str | None:
    """The short form of what a line likely means, or what is asked; None where nothing is."""
    words = split_words(line)
    found = likely_meant(weigh(line, words), words, could, line)  # type: ignore[arg-type]
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
    assert likely_rows(split_words("vvqv qvvq"), ()) == []


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
    words = split_words(line)
    found = likely_meant(weigh(line, words), words, any_command, line)
    assert found is not None
    assert isinstance(found.command, WhatIf)
    assert isinstance(found.command.change, Change)


def test_the_frame_of_another_row_is_doubted() -> None:
    line = "when can we walk on it"
    words = split_words(line)
    weighed = weigh(line, words)
    meant = likely_meant(weighed, words, any_command, line)
    assert meant is not None
    other = gist("how many bags do i need")
    assert other is not None
    assert not doubts(meant.command, weighed)
    assert doubts(other.command, weighed)
    assert not doubts(None, weighed)


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


UNFILLED = (
    "AddWall", "AddPoint", "AddObstacle", "SetBagCost", "SetFall", "Grind", "SetOwnSpec",
    "TakePoints",
)  # fmt: skip
"""Rows that want more than one value."""


@pytest.fixture
def sure(monkeypatch: pytest.MonkeyPatch) -> Callable[[float], None]:
    """Sets how sure it is of any row."""

    def set_to(how: float) -> None:
        monkeypatch.setattr("grammar.likely_meant.confidence", lambda *_: how)

    return set_to


ROW_FORMS = {
    "ask": (BAGS, "how many bags", LEAST["ask"]),
    "change": ("GoToNextLine", "next row", LEAST["change"]),
    "voice": (FASTER, "faster", TURNED),
    "lack": ("StrikePoint", "Strike which point?", LEAST["lack"]),
}


@pytest.mark.parametrize("kind", ROW_FORMS)
def test_how_sure_it_has_to_be_of_each_kind(
    kind: str, found: _Rows, sure: Callable[[float], None]
) -> None:
    name, form, least = ROW_FORMS[kind]
    found.scores = {name: 0.5, NO_ROW: -3}
    sure(least)
    assert likely("floor side room") == form
    sure(least - 0.001)
    assert likely("floor side room") is None


def test_it_is_less_sure_of_a_row_the_nearer_another_or_none_is(found: _Rows) -> None:
    words = split_words("floor side room")

    def sureness(**scores: float) -> float:
        found.scores = {BAGS: 0.2, NO_ROW: -1.0, **scores}
        return weigh("floor side room", words).sure

    plain = sureness()
    assert sureness(**{WATER: 0.1}) < plain
    assert sureness(**{NO_ROW: 0.1}) < plain
    assert sureness(**{BAGS: 0.1}) < plain
    # A row that can't take what the line holds is likelier.
    assert sureness(TakePh=0.3) < plain


def test_of_two_that_are_as_likely_it_is_asked_which(
    found: _Rows, sure: Callable[[float], None]
) -> None:
    sure(0.1)
    found.scores = {BAGS: 0.5, WATER: 0.5 - NEAR + 0.001, NO_ROW: -3}
    assert likely("floor side room") == "How many bags or water a bag?"

    def could(command: Command) -> bool:
        return short_form(command) != "water a bag"

    assert likely("floor side room", could) is None
    found.scores[NO_ROW] = 0.1
    assert likely("floor side room") is None
    found.scores = {BAGS: 0.5, WATER: 0.5 - NEAR - 0.001, NO_ROW: -3}
    assert likely("floor side room") is None
    found.scores = {BAGS: -NEAR - 0.001, WATER: -NEAR - 0.1, NO_ROW: -3}
    assert likely("floor side room") is None


def test_of_a_word_alone_no_change_is_made(found: _Rows, sure: Callable[[float], None]) -> None:
    sure(1)
    found.scores = {"GoToNextLine": 3, NO_ROW: -3}
    assert likely("floor side") == "next row"
    assert likely("floor") is None
    found.scores = {BAGS: 3, NO_ROW: -3}
    assert likely("floor") == "how many bags"


def test_a_denial_is_no_order(found: _Rows, sure: Callable[[float], None]) -> None:
    found.scores = {"GoToNextLine": 3, NO_ROW: -3}
    sure(DENIED)
    assert likely("there is no hm") is not None
    assert likely("don't hm") is None
    sure(DENIED - 0.001)
    assert likely("there is no hm") is None


def test_a_figure_that_nobody_measured_is_never_offered(
    found: _Rows, sure: Callable[[float], None]
) -> None:
    sure(1)
    found.scores = {"GoToNextLine": 3, NO_ROW: -3}
    assert likely("fudge the numbers") is None
    assert likely("note the numbers") == "next row"


def test_a_frame_stands_until_it_is_doubted_by_so_much(found: _Rows) -> None:
    command = gist("how many bags do i need")
    assert command is not None
    line = "floor side room"
    found.scores = {BAGS: 0.0, WATER: DOUBTED - 0.001}
    assert not doubts(command.command, weigh(line, split_words(line)))
    found.scores = {BAGS: 0.0, WATER: DOUBTED + 0.001}
    assert doubts(command.command, weigh(line, split_words(line)))


def test_the_eight_likeliest_rows_are_looked_at_and_no_ninth(
    found: _Rows, sure: Callable[[float], None]
) -> None:
    sure(1)
    for before, form in ((7, "how many bags"), (8, None)):
        found.scores = {name: 0.9 - number / 1000 for number, name in enumerate(UNFILLED[:before])}
        found.scores |= {BAGS: 0.8, NO_ROW: -3}
        assert likely("floor side room") == form, before
    # Rows that only answer a question take no place.
    found.scores = dict.fromkeys(("Confirm", "CancelThat", *UNFILLED[:7]), 0.9)
    found.scores |= {BAGS: 0.8, NO_ROW: -3}
    assert likely("floor side room") == "how many bags"


def test_a_line_of_two_words_has_to_be_surely_meant(
    found: _Rows, sure: Callable[[float], None]
) -> None:
    found.scores = {BAGS: 3, NO_ROW: -3}
    sure(SHORTLY)
    assert likely("floor side") == "how many bags"
    sure(SHORTLY - 0.001)
    assert likely("floor side") is None
    assert likely("floor side room") == "how many bags"


def test_what_puts_a_height_on_record_has_to_be_surer(sure: Callable[[float], None]) -> None:
    sure(HEIGHT)
    assert likely("three proud at A6 it is") == "A6 +3"
    sure(HEIGHT - 0.001)
    assert likely("three proud at A6 it is") is None
    assert likely("we can raise the finish 2 mm then") == "raise finish 2 mm"


def test_what_is_strange_beside_a_height_or_in_a_short_line_has_to_be_named(
    found: _Rows, sure: Callable[[float], None]
) -> None:
    sure(1)
    assert likely("three proud at A6 qwxq so it is says the book of rules") is None
    found.scores = {"GoToNextLine": 3, NO_ROW: -3}
    assert likely("floor side room it is") == "next row"
    assert likely("floor side room it qwxq is") is None
    assert likely("floor side room it qwxq is and was") == "next row"


@pytest.mark.parametrize(
    "line",
    [
        "would the floor side room be",  # asks
        "floor side room maybe",  # in doubt
        "he told me floor side room",  # reports
        "no need for floor side room",
        "A1 A2",  # values alone
    ],
)
def test_what_orders_nothing_is_no_change(
    line: str, found: _Rows, sure: Callable[[float], None]
) -> None:
    sure(1)
    found.scores = {"GoToNextLine": 3, NO_ROW: -3}
    assert likely("floor side room") == "next row"
    assert likely(line) is None
    found.scores = {"GoToNextLine": 1, NO_ROW: 1.001 - OF_NONE}
    assert likely("floor side room") is None  # may be meant for nobody
    found.scores = {"GoToNextLine": 1, NO_ROW: 0.999 - OF_NONE}
    assert likely("floor side room") == "next row"


def test_a_side_is_asked_where_only_it_is_missing() -> None:
    row = rows_named("TakeReading")[-1]

    def asked(line: str) -> str:
        words = split_words(line)
        return _side_of(row, tuple(values_said(words)[0]), words)

    assert asked("B3 twelve") == "B3 twelve: below or above?"
    assert asked("B3 twelve low") == ""
    assert asked("B3 twelve qwxq") == ""
    assert asked("B3 12 mm or 9 mm") == ""
