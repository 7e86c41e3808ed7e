"""
What a line is likely about, by the words of others who meant the same.

Lines that people say who mean a row of the phrase table lie in ``tests/paraphrases/``;
``python -m tests.paraphrases.fit`` makes weights of them, for each word, pair of words and concept
and each row. Nothing is taken on a likelihood: it says which row to fill with the values of the
line, and that is answered, offered, or asked about.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields
from functools import cache
from pathlib import Path
from typing import NamedTuple

import numpy as np

from grammar.commands import Command
from grammar.frames import read_line
from grammar.language import phrases_for
from grammar.phrase import Phrase
from grammar.phrases import PHRASES
from grammar.values_said import Said
from grammar.words import Word

WEIGHTS = Path(__file__).with_suffix(".npz")
NO_ROW = ""
"""What is said to others, or is about nothing that the program knows."""


STRANGE = 0.6
"""How much less a line is about any row for each word that nobody said who meant one."""


class LikelyRow(NamedTuple):
    """A row's name and how much a line is about it; below zero it is rather not."""

    name: str
    score: float


def row_name(phrase: Phrase) -> str:
    """What rows share that mean the same: the command, and what is fixed of it."""
    fixed = (f"/{field}={value}" for field, value in sorted(phrase.fixed, key=lambda one: one[0]))
    return phrase.command.__name__ + "".join(fixed)


def row_of(command: Command) -> str:
    """The name of the row that says a command; raises ValueError where none does."""
    values = {field.name: getattr(command, field.name) for field in fields(command)}
    for phrase in phrases_for(type(command)):  # type: ignore[arg-type]
        if dict(phrase.fixed).items() <= values.items():
            return row_name(phrase)
    raise ValueError(f"no row says {command}")


@cache
def rows_named(name: str) -> tuple[Phrase, ...]:
    """The rows of a name, in the order of the table."""
    return tuple(phrase for phrase in PHRASES if row_name(phrase) == name)


def likely_rows(words: Sequence[Word], values: Sequence[Said]) -> list[LikelyRow]:
    """
    All rows, the likeliest first; none where no word of the line was ever said.

    Parameters
    ----------
    words : sequence of Word
    values : sequence of Said
        What of them are values.
    """
    known = learned()
    counts: dict[int, int] = {}
    for feature in features(words, values):
        place = known.places.get(feature)
        if place is not None:
            counts[place] = counts.get(place, 0) + 1
    strange = strange_words(words, values)
    if not counts:
        return []
    places = np.fromiter(counts, dtype=np.int64)
    told = (1 + np.log(np.fromiter(counts.values(), dtype=np.float64))) * known.idf[places]
    told /= np.sqrt((told**2).sum())
    scores = known.intercepts.copy()
    for place, much in zip(places, told, strict=True):
        held = slice(known.starts[place], known.starts[place + 1])
        scores[known.rows[held]] += much * known.weights[held]
    rows = known.names.index(NO_ROW)
    scores[:rows] -= STRANGE * strange
    scores[rows + 1 :] -= STRANGE * strange
    return [
        LikelyRow(name, float(scores[at]))
        for at in np.argsort(-scores)
        for name in [known.names[at]]
        # Weights may be older than the table.
        if name == NO_ROW or rows_named(name)
    ]


def strange_words(words: Sequence[Word], values: Sequence[Said]) -> int:
    """How many words of a line nobody said who meant a row; values are none."""
    known = learned()
    places = (known.places.get(each) for each in features(words, values) if is_word(each))
    return sum(place is None or not known.meant[place] for place in places)


def is_word(feature: str) -> bool:
    """Whether a feature is a word by itself, and no value."""
    return " " not in feature and feature[0] not in "(<"


def features(words: Sequence[Word], values: Sequence[Said]) -> Iterator[str]:
    """
    By what a line is recognised: its words, each two that follow each other, and what they evoke.

    A value counts as one word, by its sort alone.
    """
    held = {id(word): value for value in values for word in value.words}
    line = read_line(words, frozenset(at for at, word in enumerate(words) if id(word) in held))
    said: list[str] = []
    last: Said | None = None
    for word, root in zip(words, line.roots, strict=True):
        value = held.get(id(word))
        if value is None:
            said.append(root)
        elif value is not last:
            said.append(f"<{value.sort}>")
        last = value
    yield from said
    yield from (f"{one} {other}" for one, other in zip(["^", *said], [*said, "$"], strict=True))
    yield from (f"({concept})" for concept in line.evoked)


class Learned(NamedTuple):
    """Weights, in rows of a sparse table: those of feature i are from ``starts[i]`` on."""

    names: list[str]
    places: dict[str, int]
    meant: np.ndarray
    """Whether anybody said it who meant a row."""
    idf: np.ndarray
    intercepts: np.ndarray
    starts: np.ndarray
    rows: np.ndarray
    weights: np.ndarray


@cache
def learned() -> Learned:
    """The weights, read once."""
    with np.load(WEIGHTS, allow_pickle=False) as file:
        names, terms = (bytes(file[key]).decode().split("\n") for key in ("names", "features"))
        return Learned(
            names,
            {term: place for place, term in enumerate(terms)},
            file["meant"],
            file["idf"].astype(np.float64),
            file["intercepts"].astype(np.float64),
            file["starts"].astype(np.int64),
            file["rows"].astype(np.int64),
            file["weights"] * float(file["step"]),
        )
