"""A parser that looks ahead understands, and misses, just what one does that does not."""

from __future__ import annotations

from random import Random

import pytest
from lark.grammar import NonTerminal, Rule, Symbol

from grammar.commands.room import SetRoom
from grammar.errors import Impossible
from grammar.expected import expected_terminals
from grammar.language import rule_table
from grammar.lookahead import Lookahead
from grammar.match import NoParse, parse
from grammar.phrases import PHRASES
from grammar.productions import productions
from grammar.rule_table import ToSymbol
from grammar.template import Node
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


@pytest.mark.slow
def test_it_comes_to_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    ahead = [outcome(text) for text in LINES]
    before = Lookahead.before
    with monkeypatch.context() as patch:
        patch.setattr(Lookahead, "before", lambda self, _terminal: before(self, None))
        plainly = [outcome(text) for text in LINES]
    assert ahead == plainly
    assert sum(isinstance(each, list) for each in ahead) > 40
    assert sum(isinstance(each, tuple) for each in ahead) > 40


def test_what_a_phrase_begins_with_is_known_before_its_rules_are_written_out() -> None:
    table = rule_table()
    for number, phrase in enumerate(PHRASES):
        waiting: list[Symbol] = [NonTerminal(f"ph_{number}")]
        before, found = set(table.firsts(waiting[0])), set[Symbol]()
        while waiting:
            for first in {rule.expansion[0] for rule in table.made_of(waiting.pop())}:
                # A part of the template may have got a rule of its own.
                is_part = first.name.lstrip("_").startswith("ph_")
                (waiting.append if is_part else found.add)(first)
        assert before == found, phrase.template


def test_a_line_writes_out_only_phrases_that_begin_as_it_does(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    written: list[str] = []

    def noted(name: str, nodes: tuple[Node, ...], symbol: ToSymbol) -> list[Rule]:
        written.append(name)
        return productions(name, nodes, symbol)

    monkeypatch.setattr("grammar.rule_table.productions", noted)
    afresh = Lookahead(rule_table())
    monkeypatch.setattr("grammar.match.parser", lambda: afresh)
    assert parse(split_words("room 4 by 3 metres"))
    room = f"_ph_{[phrase.command for phrase in PHRASES].index(SetRoom)}_"
    assert any(name.startswith(room) for name in written)
    assert len(written) < len(PHRASES) / 5


def test_hints_are_the_same_in_every_run() -> None:
    """The words of the language are in the order of the table, whatever Python's hash seed."""
    from grammar.language import terminals

    words = list(terminals())
    assert words.index("correct") < words.index("strike") < words.index("wall")
