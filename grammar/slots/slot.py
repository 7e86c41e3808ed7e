"""What a kind of value brings along: all that it takes to be typed, said, shown and tried."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal

from grammar.template import Node

if TYPE_CHECKING:
    from random import Random

    from grammar.slots.number import SpokenNumbers
    from grammar.spoken import Spoken

Manner = Literal["words", "digits"]
"""Numbers as words ("eighteen") or digit by digit ("one eight")."""


@dataclass(frozen=True, kw_only=True)
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


@dataclass(frozen=True, kw_only=True)
class TypedOnly:
    """A slot that is not said aloud."""

    why: str


@dataclass(frozen=True, kw_only=True)
class Slot:
    """What a phrase can hold at one place: ``<field:name>`` in a template."""

    name: str
    """Also the name of its lark rule."""
    rule: str
    """The right side of the rule; empty where the phrase table itself makes it."""
    build: Callable[..., Any]
    """What the rule found -> the value. Raises ``Impossible`` where it makes no sense."""
    short: Callable[[Any], str]
    """The value as it is typed for short; parses back to the same value."""
    sample: Callable[[Random], tuple[str, Any]]
    """A random way to type or say a value, and the value."""
    aloud: SpokenForm | TypedOnly
    any_words: bool = False
    """Whether it takes any words, to the end of the line."""


@dataclass(frozen=True, kw_only=True)
class ValueKind:
    """One kind of value: its slots, and what only they are made of or share with other kinds."""

    slots: tuple[Slot, ...]
    roles: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    """What a word can stand for: role -> word -> value. In rules a role is ``r_…``."""
    rules: str = ""
    """Lark rules below those of the slots."""
    builders: Mapping[str, Callable[..., Any]] = field(default_factory=dict)
    """What each of these rules comes to."""
    unbroken: tuple[str, ...] = ()
    """Rules whose words are one value, which no pause parts: "minus one, two" is not minus 12."""
    expected: Mapping[str, str] = field(default_factory=dict)
    """How a gap is named, by the rule that would fill it."""
    offered: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Words of a role that are offered to complete a line."""
    never_unsaid: Mapping[str, str] = field(default_factory=dict)
    """Roles that no hint holds unless they were said -> what they are about."""
    usual: Mapping[str, str] = field(default_factory=dict)
    """Roles of a unit that may be left out, for nothing else is taken there -> its one word."""
    spoken_pieces: Mapping[str, str] = field(default_factory=dict)
    """Templates that spoken forms are made of."""
    spoken_numbers: Mapping[Manner, Mapping[str, str]] = field(default_factory=dict)
    """The same for pieces that sound otherwise in each manner of numbers."""
    figures: Mapping[str, str] = field(default_factory=dict)
    """A spoken piece or slot written in figures, besides its words; ``+`` joins a word on."""
    apart: Mapping[str, str] = field(default_factory=dict)
    """Digits that were said one by one, written so."""
    tied: Mapping[str, str] = field(default_factory=dict)
    """Words joined by a hyphen: thirty-five."""
    spellings: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Other ways to write a word of the spoken language, or that word said of one."""


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
