"""The phrase table combined with its slots: rules, words and short forms."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import fields
from functools import cache, partial
from typing import Any

from lark.grammar import NonTerminal, Rule, Symbol, Terminal

from grammar.commands import Change, Command
from grammar.phrase import Phrase
from grammar.phrases import PHRASES
from grammar.rule_table import RuleTable
from grammar.slots import ANY_WORDS, ROLES, RULES, SLOTS
from grammar.slots.point import PLAIN_PAIRS
from grammar.template import (
    Literal,
    Node,
    SlotNode,
    binding_rule,
    read_template,
    render_template,
    words_of_templates,
)
from grammar.words import END, FRACTION, LABEL, NUMERAL, WORD, Word


@cache
def terminals() -> dict[str, str]:
    """
    Word -> name of its lark terminal.

    Words that play the same parts everywhere share one terminal, so that the
    grammar stays small; a word that also stands in a template has its own.
    """
    parts: dict[str, frozenset[str]] = {}
    for role, words in ROLES.items():
        for word in words:
            parts[word] = parts.get(word, frozenset()) | {role}
    # In the order of the table, so that a line that is not understood gets the same hint each time.
    of_phrases = words_of_templates(text for phrase in PHRASES for text in phrase.templates)
    own = dict.fromkeys(word.lower() for word in of_phrases)
    groups: dict[str | frozenset[str], str] = {}
    return {
        word: groups.setdefault(word if word in own else parts[word], f"T{len(groups)}")
        for word in (parts | own)
    }


@cache
def words_of() -> dict[str, tuple[str, ...]]:
    """Terminal -> the words it stands for, the short one first."""
    found: dict[str, list[str]] = {}
    for word, name in terminals().items():
        found.setdefault(name, []).append(word)
    return {name: tuple(words) for name, words in found.items()}


TYPED = {NUMERAL: "NUMERAL", FRACTION: "FRACTION", LABEL: "LABEL"}
UNKNOWN = "UNKNOWN"
"""A word that is in no phrase."""
ANY = "ANY"
"""Any word at all, inside a name."""


_MOST_BEFORE_A_NAME = 3


@cache
def name_openers() -> frozenset[tuple[str, ...]]:
    """
    Words after which a name stands, to the end of the line, wherever they follow each other.

    They are the last that stand before it in a template, three at most, so that "to" opens none
    but after "rename job".
    """
    holds_name = re.compile(rf"[<:](?:{'|'.join(ANY_WORDS)})>")
    found: set[tuple[str, ...]] = set()
    for phrase in PHRASES:
        for template in filter(holds_name.search, phrase.templates):
            _collect_openers(read_template(template), frozenset({()}), found)
    return frozenset(found)


def _collect_openers(
    nodes: Sequence[Node], before: frozenset[tuple[str, ...]], found: set[tuple[str, ...]]
) -> frozenset[tuple[str, ...]]:
    """What may stand before the end of some nodes, with what opens a name in them `found`."""
    for node in nodes:
        if isinstance(node, Literal):
            word = node.word.lower()
            before = frozenset((*words, word)[-_MOST_BEFORE_A_NAME:] for words in before)
        elif isinstance(node, SlotNode):
            if node.slot in ANY_WORDS:
                found |= before - {()}
            before = frozenset({()})
        else:
            ways = [_collect_openers(way, before, found) for way in node.ways]
            before = frozenset().union(*ways, before if node.optional else ())
    return before


def opens_name(texts: Sequence[str]) -> bool:
    """Whether a name stands after these words."""
    return any(
        tuple(texts[-count:]) in name_openers()
        for count in range(1, min(len(texts), _MOST_BEFORE_A_NAME) + 1)
    )


def terminal_of(word: Word) -> str:
    """The lark terminal of a word that was said."""
    if word.kind == END:
        return "END"
    if word.kind in TYPED:
        return TYPED[word.kind]
    known = terminals().get(word.text) if word.kind == WORD else None
    if known:
        return known
    two = word.kind == WORD and len(word.text) == 2 and word.text.isascii()
    return "LETTERS" if two and word.text not in PLAIN_PAIRS else UNKNOWN


def rule_table() -> RuleTable:
    """The whole language as a grammar over words: the productions of all slots and phrases."""
    table = RuleTable()
    table.add_rules(RULES)

    @cache
    def terminal(word: str) -> Terminal:
        return Terminal(terminals()[word.lower()])

    def symbol(leaf: Literal | SlotNode) -> Symbol:
        if isinstance(leaf, Literal):
            return terminal(leaf.word)
        binding = binding_rule(leaf)
        if binding not in table:
            table.add(Rule(NonTerminal(binding), [NonTerminal(leaf.slot)]))
        return NonTerminal(binding)

    def of_role(words: Iterable[str]) -> list[Symbol]:
        return [Terminal(name) for name in dict.fromkeys(terminals()[word] for word in words)]

    for role, words in ROLES.items():
        table.add_choice(f"r_{role}", partial(of_role, words))
    phrases = {NonTerminal(f"ph_{number}"): phrase for number, phrase in enumerate(PHRASES)}
    for made, phrase in phrases.items():
        table.add_phrase(made.name, phrase.templates, symbol)
    changes = [made for made, phrase in phrases.items() if issubclass(phrase.command, Change)]
    table.add_choice("change", lambda: changes)
    table.add_choice("start", lambda: list(phrases))
    return table


def short_form(command: Command) -> str:
    """
    A command in its short typed form, which parses back to the same command.

    >>> from decimal import Decimal
    >>> from grammar.commands import Reading
    >>> from grammar.commands.readings import TakeReading
    >>> short_form(TakeReading("B3", Reading(Decimal(-18), "mm")))
    'B3 -18 mm'
    """
    values = {
        field.name: getattr(command, field.name)
        for field in fields(command)
        if getattr(command, field.name) is not None
    }
    for phrase in phrases_for(type(command)):  # type: ignore[arg-type]
        fixed = dict(phrase.fixed)
        if phrase.fields | fixed.keys() >= values.keys() and fixed.items() <= values.items():
            words = render_template(
                phrase.nodes, values, lambda slot, value: SLOTS[slot].short(value)
            )
            if words is not None:
                return words
    raise ValueError(f"no phrase says {command}")


@cache
def phrases_for(kind: Any) -> tuple[Phrase, ...]:
    """The rows that say a kind of command."""
    # The fewest optional slots first: "grid 2 m" before "grid 2 by 2 m".
    return tuple(sorted((p for p in PHRASES if p.command is kind), key=lambda p: len(p.fields)))
