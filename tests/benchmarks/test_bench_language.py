"""How fast lines are understood, missed and completed, nonsense among them.

Goals as in ``test_bench_speed.py``: so many times the work of the yardstick, which takes 2.15 ms.
"""

from __future__ import annotations

from itertools import cycle
from random import Random

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from grammar import Misunderstood, suggestions, understand
from grammar.dictation import dictated
from grammar.gist import gist
from grammar.language import terminals
from grammar.phrases import PHRASES
from grammar.sentences import random_sentence
from grammar.words import split_words
from tests.benchmarks.yardstick import Clocked, within
from tests.fuzz import mangled, noise

_NUMBERS = (
    "one two three four five eight twelve twenty thirty hundred thousand and a point half eighths "
    "minus plus bravo"
).split()
"""Words that run together into numbers in more ways than any others."""


def _salad(random: Random, words: list[str], count: int) -> str:
    return " ".join(random.choice(words) for _ in range(count))


def nonsense() -> list[str]:
    """Noise, broken sentences, and words of the language in no order, up to 40 of them."""
    random = Random(7)
    words = sorted(terminals())
    return [
        *(noise(random) for _ in range(100)),
        *(mangled(random) for _ in range(200)),
        *(_salad(random, words, count) for count in (4, 8, 40) for _ in range(60)),
        *(_salad(random, _NUMBERS, count) for count in (6, 12, 40) for _ in range(60)),
    ]


def sentences() -> list[str]:
    """Each phrase of the table, said in some ways."""
    random = Random(7)
    return [random_sentence(phrase, random).text for phrase in PHRASES for _ in range(3)]


@pytest.fixture(scope="module", autouse=True)
def _parser_is_there() -> None:
    """Made once, with what it first needs for lines of any kind."""
    for line in (*sentences(), *nonsense()):
        _missed(line)


def _missed(line: str) -> None:
    """All that is looked for in a line that is not taken."""
    understand.cache_clear()
    try:
        understand(line)
    except Misunderstood as miss:
        miss.explain()
        for said in dictated(split_words(line)):
            try:
                understand(said.line)
            except Misunderstood:
                continue
        gist(line)


def test_a_line_is_understood(benchmark: BenchmarkFixture) -> None:
    """Goal 10 ms, half of the lines."""
    lines = cycle(sentences())

    def parse() -> object:
        understand.cache_clear()
        return understand(next(lines))

    parsed = Clocked(parse)
    benchmark.pedantic(parsed, rounds=len(sentences()))
    within(10, parsed)


def test_a_miss_gets_its_hint(benchmark: BenchmarkFixture) -> None:
    """Goal 30 ms, nineteen lines in twenty."""
    lines = nonsense()
    said = cycle(lines)
    missed = Clocked(lambda: _missed(next(said)))
    benchmark.pedantic(missed, rounds=len(lines))
    within(30, missed, percentile=95)


def test_a_line_is_completed(benchmark: BenchmarkFixture) -> None:
    """Goal 20 ms, nineteen lines in twenty."""
    lines = [line[: len(line) // 2] for line in sentences()]
    begun = cycle(lines)
    completed = Clocked(lambda: suggestions(next(begun)))
    benchmark.pedantic(completed, rounds=len(lines))
    within(20, completed, percentile=95)
