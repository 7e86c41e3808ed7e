"""The phrase table put together: terminals that words share, and the short form of a command."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from grammar.language import name_openers, rule_table, short_form, terminal_of, terminals, words_of
from grammar.phrases import PHRASES
from grammar.words import split_words
from tests.grammar.every_rule import every_rule


def test_words_that_play_the_same_parts_share_a_terminal() -> None:
    known = terminals()
    assert known["millimetres"] == known["millimeters"]
    assert known["five"] != known["fifty"]
    assert known["x"] != known["w"], "x is also a by"


def test_each_terminal_leads_back_to_its_words() -> None:
    for terminal, words in words_of().items():
        assert all(terminals()[word] == terminal for word in words)


@pytest.mark.parametrize(
    ("word", "terminal"),
    [
        ("18", "NUMERAL"),
        ("1/2", "FRACTION"),
        ("b3", "LABEL"),
        ("qq", "LETTERS"),
        ("zzz", "UNKNOWN"),
    ],
)
def test_a_word_that_is_in_no_phrase_has_the_terminal_of_its_kind(word: str, terminal: str) -> None:
    assert terminal_of(split_words(word)[0]) == terminal


def test_names_stand_after_these_words_only() -> None:
    alone = {words[0] for words in name_openers() if len(words) == 1}
    assert alone == {"product", "because", "help", "note", "remark", "comment", "memo",
                     "client", "customer", "address", "spec"}  # fmt: skip
    several = {" ".join(words) for words in name_openers() if words[-1] not in alone}
    assert several == {
        "rename job to", "rename this to", "this job to", "call job", "call this job", "name job",
        "name this job", "job name to", "of job to", "copy job to", "copy job as", "this job as",
        "save job as", "a copy as", "duplicate job as", "bring back job", "take out job",
    }  # fmt: skip


def test_every_phrase_is_a_way_to_start() -> None:
    start = [
        rule.expansion[0].name for rule in every_rule(rule_table()) if rule.origin.name == "start"
    ]
    made = {
        rule.origin.name for rule in every_rule(rule_table()) if rule.origin.name.startswith("ph_")
    }
    assert len(start) == len(made) == len(PHRASES)
    assert set(start) == made


def test_a_command_without_a_phrase_has_no_short_form() -> None:
    @dataclass(frozen=True)
    class Dance:
        steps: int = 1

    with pytest.raises(ValueError, match="no phrase says"):
        short_form(Dance())  # type: ignore[arg-type]
