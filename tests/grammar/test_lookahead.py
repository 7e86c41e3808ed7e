"""A parser that looks ahead understands, and misses, just what one does that does not."""

from __future__ import annotations

from random import Random

import pytest

from grammar.errors import Impossible
from grammar.expected import expected_terminals
from grammar.lookahead import Lookahead
from grammar.match import NoParse, parse
from grammar.words import split_words
from tests.fuzz import mangled, noise

LINES = [
    (noise, mangled, mangled)[number % 3](random)
    for random in [Random(23)]
    for number in range(240)
]


def outcome(text: str) -> object:
    words = split_words(text)
    if not words:
        return None
    try:
        return [repr(command) for command in parse(words)]
    except NoParse as stop:
        return stop.at, expected_terminals(stop.state)
    except Impossible as trouble:
        return str(trouble), trouble.start


def test_it_comes_to_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    ahead = [outcome(text) for text in LINES]
    next_is = Lookahead.next_is
    with monkeypatch.context() as patch:
        patch.setattr(Lookahead, "next_is", lambda self, _terminal: next_is(self, None))
        plainly = [outcome(text) for text in LINES]
    assert ahead == plainly
    assert sum(isinstance(each, list) for each in ahead) > 40
    assert sum(isinstance(each, tuple) for each in ahead) > 40


def test_hints_are_the_same_in_every_run() -> None:
    """The words of the language are in the order of the table, whatever Python's hash seed."""
    from grammar.language import terminals

    words = list(terminals())
    assert words.index("correct") < words.index("strike") < words.index("wall")
