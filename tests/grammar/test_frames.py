"""What a line is about, by the concepts it evokes and the frames of the rows."""

from __future__ import annotations

import pytest

from grammar.commands import Change
from grammar.concepts import CONCEPTS
from grammar.frame_table import FRAMES
from grammar.frames import SUPPOSE, matches, read_frame, read_line, root
from grammar.gist import gist
from grammar.language import short_form
from grammar.phrases import PHRASES
from grammar.words import split_words


def first(line: str) -> str:
    return matches(read_line(split_words(line), frozenset()))[0].phrase.template


@pytest.mark.parametrize(
    ("word", "stem"),
    [
        ("measures", "measur"), ("measuring", "measur"), ("running", "run"), ("glass", "glass"),
        ("bus", "bus"), ("poured", "pour"), ("laid", "laid"), ("dried", "dri"), ("dry", "dry"),
        ("boxes", "box"), ("can't", "can't"), ("primer's", "primer"), ("falling", "fall"),
        # A note is no "not", and what is supposed to be is not supposed.
        ("noted", "note"), ("not", "not"), ("supposed", "supposed"), ("suppose", "suppos"),
    ],
)  # fmt: skip
def test_a_word_is_known_by_its_root(word: str, stem: str) -> None:
    assert root(word) == stem


def test_each_frame_is_of_a_row_and_needs_something() -> None:
    templates = {phrase.template for phrase in PHRASES}
    for template, frames in FRAMES.items():
        assert template in templates
        for text in frames:
            frame = read_frame(text)
            assert frame.needed, (template, text)
            assert not {term for terms in frame.needed for term in terms} & set(frame.never)


def test_each_concept_is_used_and_none_is_named_twice() -> None:
    used = {
        term
        for frames in FRAMES.values()
        for frame in map(read_frame, frames)
        for terms in (*frame.needed, frame.beside, frame.never)
        for term in terms
    }
    assert set(CONCEPTS) - used <= {SUPPOSE}
    for concept, words in CONCEPTS.items():
        assert len(words.split()) == len(set(words.split())), concept


@pytest.mark.parametrize(
    ("line", "template"),
    [
        ("how long does the stuff stay runny after stirring", "working time"),
        ("which places stick up the most", "high spots"),
        ("what amount of primer should be fetched", "how much primer"),
        # Words of one term, with others between.
        ("stop going on and take that awful shot back", "undo [that]"),
    ],
)
def test_the_row_that_most_was_said_of_comes_first(line: str, template: str) -> None:
    assert first(line) == template


def test_one_word_never_counts_for_two_concepts() -> None:
    # "Door" and "step" are both needed of a door's step.
    assert "doors" not in [
        m.phrase.template for m in matches(read_line(split_words("door"), frozenset()))
    ]


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("the customer wants it two mil higher", "raise finish 2 mil"),
        ("shave two mil off the finish", "lower finish 2 mm"),
        ("I reckon the lad moved the tripod", "reference moved"),
        ("tell me about the step at door 1", "how is door 1"),
        ("what depth 2 metres along and 3 metres up", "how deep at 2 by 3 m"),
        ("on door 2 the right side is 7 down and the left is 4 down", "door 2 left -4 right -7"),
        ("say we go four mil up, what then", "what if raise finish 4 mm"),
        ("the load's fine because the engineer signed it off",
         "accept weight because the engineer signed it off"),
        ("I'm working in inches", "readings in inches"),
        ("it's a wooden floor underneath", "floor is timber"),
        ("18 sacks in the van, is that enough", "are 18 bags enough"),
        ("bags are 22 euros each", "bag costs 22 euros"),
    ],
)  # fmt: skip
def test_values_go_where_they_belong(line: str, meant: str) -> None:
    found = gist(line)
    assert found is not None
    assert found.command is not None
    assert short_form(found.command) == meant.replace("mil", "mm")


@pytest.mark.parametrize(
    "line",
    [
        "they told me the primer was down",
        "we could have gone 3 mm higher",
        "we won't be going 3 mm higher",
        "he said shave two mil off the finish",
        "what would 3 mm higher look like, was it",
    ],
)
def test_what_is_only_told_changes_nothing(line: str) -> None:
    found = gist(line)
    assert found is None or not isinstance(found.command, Change)


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("end up the line", "end line"),
        ("start up the pour", "start pour"),
    ],
)
def test_a_row_without_a_frame_is_known_by_its_own_words(line: str, meant: str) -> None:
    assert meant not in FRAMES
    found = gist(line)
    assert found is not None
    assert found.command is not None
    assert short_form(found.command) == meant
