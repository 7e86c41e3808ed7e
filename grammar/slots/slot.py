"""What defines a kind of value: how it is typed, said, shown and tried by the tests."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from typing import TYPE_CHECKING, Any, Literal

from grammar.frozen import frozen
from grammar.template import Node

if TYPE_CHECKING:
    from random import Random

    from grammar.slots.number import SpokenNumbers
    from grammar.spoken import Spoken

Manner = Literal["words", "digits"]
"""Numbers as words ("eighteen") or digit by digit ("one eight")."""


@frozen(kw_only=True)
class SpokenForm:
    """How a recogniser expects a slot, and how a value of it is said."""

    heard: str | Callable[[Spoken], tuple[Node, ...]]
    """A template of all ways that are listened for, its slots being those of ``spoken_pieces``;
    or a function where the settings of the spoken language decide."""
    say: Callable[[SpokenNumbers, Any], str]
    """A value -> a template of the ways to say it. Raises ``Unsayable`` where there is none."""
    under: Mapping[str, str] = field(default_factory=dict)
    """A setting of :class:`~grammar.spoken.Spoken` -> the spoken piece that is listened for
    under it instead."""
    needs_names: bool = False
    """Whether it can be said only where product names are known."""


@frozen(kw_only=True)
class TypedOnly:
    """A slot that is not said aloud."""

    why: str


@frozen(kw_only=True)
class Slot:
    """What a phrase can hold at one place: ``<field:name>`` in a template."""

    name: str
    """Also the name of its rule."""
    rule: str
    """
    How it is said, as a template whose words are other rules, and terminals in capitals; empty
    where the phrase table itself makes it.
    """
    build: Callable[..., Any]
    """What the rule found -> the value. Raises ``Impossible`` where it makes no sense."""
    short: Callable[[Any], str]
    """The value as it is typed for short; parses back to the same value."""
    sample: Callable[[Random], tuple[str, Any]]
    """A random way to type or say a value, and the value."""
    aloud: SpokenForm | TypedOnly
    any_words: bool = False
    """Whether it takes any words, to the end of the line."""


@frozen(kw_only=True)
class ValueKind:
    """One kind of value: its slots, and what only they are made of or share with other kinds."""

    slots: tuple[Slot, ...]
    roles: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    """What a word can stand for: role -> word -> value. In rules a role is ``r_…``."""
    rules: str = ""
    """Rules below those of the slots, one a line: ``name: template``."""
    builders: Mapping[str, Callable[..., Any]] = field(default_factory=dict)
    """Rule -> the function that makes its value of its parts."""
    unbroken: tuple[str, ...] = ()
    """Rules whose words are one value, which no pause parts: "minus one, two" is not minus 12."""
    expected: Mapping[str, str] = field(default_factory=dict)
    """How a gap is named, by the rule that would fill it."""
    offered: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Words of a role that are offered to complete a line."""
    never_unsaid: Mapping[str, str] = field(default_factory=dict)
    """Roles that a hint names only where the line speaks of them -> what they are about."""
    usual: Mapping[str, str] = field(default_factory=dict)
    """Roles of a unit that may be left out, since there is only one -> its word."""
    spoken_pieces: Mapping[str, str] = field(default_factory=dict)
    """Templates that spoken forms are made of."""
    spoken_numbers: Mapping[Manner, Mapping[str, str]] = field(default_factory=dict)
    """The same for pieces that sound different in each manner of saying numbers."""
    figures: Mapping[str, str] = field(default_factory=dict)
    """Spoken piece or slot -> how it is written in figures; ``+`` joins a word to the last."""
    apart: Mapping[str, str] = field(default_factory=dict)
    """How digits are written that were said one by one."""
    tied: Mapping[str, str] = field(default_factory=dict)
    """Words joined by a hyphen: thirty-five."""
    spellings: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Other ways to write a word of the spoken language, or its singular."""


def one_of(words: Mapping[str, Any]) -> Callable[[Random], tuple[str, Any]]:
    """Samples from a few ways to say a value."""
    return lambda random: random.choice(sorted(words.items()))


def alternatives_of(words: Any) -> str:
    """
    Any of some words, as a template.

    >>> alternatives_of(["minus", "plus"])
    '(minus | plus)'
    """
    return f"({' | '.join(words)})"
