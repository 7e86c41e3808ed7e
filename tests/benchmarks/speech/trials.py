"""Trials of what must not come on record: a number for one like it, and a word that nobody said.

``python -m tests.benchmarks.speech.trials alike --noise clean mixer:20 mixer:10 mixer:5`` says
readings whose size or row sounds like another number, with the unit and without it, each by some
voices of the half that nothing is fitted to. ``… holes`` says readings that lack their letter,
row, sign or number: there is nothing to take in them, and nothing to ask but what is missing.
``… doubled --manner digits`` says figures once, twice and three times: "one", "one one". Of what
was taken wrongly each one is printed.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterable, Sequence
from decimal import Decimal
from itertools import cycle, islice
from random import Random

from grammar.numbers import in_words, spelled_digits
from grammar.slots.point import ALPHABET
from grammar.spoken import Manner
from tests.benchmarks.speech.corpus import Clip, setting_named
from tests.benchmarks.speech.run import engine_named, rows
from tests.benchmarks.speech.score import Row
from tests.benchmarks.speech.sentences import HALVES, Half, Said, is_command, spoken_language
from tests.benchmarks.speech.voices import TALKERS, missing

SIZES = (5, 6, 7, 8, 9, 16, 17, 18, 19, 50, 60, 70, 80, 90)
"""Each is said as another where its ending is lost: -80 as -8 or -18, five as nine."""
ALIKE, HOLE, DOUBLED = "number like another", "hole", "figure twice"
_OTHERS = (2, 3, 4, 12, 20, 22)
"""What is said beside it, and sounds like nothing else."""


def alike(manner: Manner) -> tuple[Said, ...]:
    """Each size in a reading's size and in its row, by turns with its unit and without it."""
    random, found = Random(f"alike {manner}"), []
    units = cycle((" millimetres", ""))
    for size in SIZES:
        for row, number in ((random.choice(_OTHERS), size), (size, random.choice(_OTHERS))):
            sign = "plus" if random.random() < 0.25 else "minus"
            words = f"{random.choice(ALPHABET)} {_said(row, manner)} {sign} {_said(number, manner)}"
            found.append(Said(words + next(units), "reading", ALIKE, manner))
        next(units)
    return tuple(found)


def holes(manner: Manner) -> tuple[Said, ...]:
    """Readings with a word left out that cannot be left out."""
    random, found = Random(f"holes {manner}"), list[str]()
    for size in SIZES:
        letter, row = random.choice(ALPHABET), _said(random.choice(_OTHERS), manner)
        sign, number = random.choice(("plus", "minus")), _said(size, manner)
        whole = [letter, row, sign, number, "millimetres"]
        found += [" ".join(whole[:at] + whole[at + 1 :]) for at in range(4)]
        found.append(" ".join(whole[:3]))
    return tuple(Said(text, "cut", HOLE) for text in found if not is_command(text, manner))


def doubled(manner: Manner) -> tuple[Said, ...]:
    """Each figure twice and once, by turns in a reading's size and in its row."""
    random, found = Random(f"doubled {manner}"), []
    units = cycle((" millimetres", "", ""))
    for figure in range(1, 10):
        for number in (figure, 11 * figure, 111 * figure):
            row, size = random.choice(_OTHERS), number
            if number < 100 and random.random() < 0.5:
                row, size = size, row
            words = f"{random.choice(ALPHABET)} {_said(row, manner)} minus {_said(size, manner)}"
            found.append(Said(words + next(units), "reading", DOUBLED, manner))
    return tuple(found)


SETS = {"alike": alike, "holes": holes, "doubled": doubled}


def _said(number: int, manner: Manner) -> str:
    return in_words(number) if manner == "words" else spelled_digits(Decimal(number))


def trial_clips(
    said: Sequence[Said], half: Half, noises: Iterable[str], each: int, few: int | None = None
) -> list[Clip]:
    """Each sentence by so many voices, each voice saying about as many; the first few only."""
    talkers = TALKERS[half]
    count = min(each, len(talkers))
    dealt = [
        (one, talkers[(at * count + turn + at * count // len(talkers)) % len(talkers)])
        for at, one in enumerate(said)
        for turn in range(count)
    ]
    return [
        Clip(one, talker, setting_named(noise), half)
        for noise in noises
        for one, talker in islice(dealt, few)
    ]


def outcome(row: Row) -> str:
    """What came of a clip."""
    if row.tier == "sure":
        return "right" if row.sure_and_right else "wrong and sure"
    if row.tier == "ask":
        return "asked" if row.asked_with_truth else "asked, others"
    return "again"


KINDS = ("right", "asked", "asked, others", "again", "wrong and sure")


def table(found: Sequence[Row]) -> str:
    """Markdown: what came of the clips in each noise, and each that was taken wrongly."""
    lines = [f"| noise | n | {' | '.join(KINDS)} |", f"|---|---:|{'---:|' * len(KINDS)}"]
    for noise in dict.fromkeys(row.setting for row in found):
        some = [row for row in found if row.setting == noise]
        count = Counter(map(outcome, some))
        lines.append(f"| {noise} | {len(some)} | {' | '.join(str(count[k]) for k in KINDS)} |")
    lines += [
        f"{row.text} -> {row.heard} ({row.setting}, {row.voice})"
        for row in found
        if row.sure_and_wrong
    ]
    return "\n".join(lines)


def main(arguments: list[str] | None = None) -> int:
    """Hear the clips and print the table."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.speech.trials")
    parser.add_argument("set", choices=tuple(SETS))
    parser.add_argument("--half", choices=HALVES, default="report")
    parser.add_argument("--manner", choices=("words", "digits"), default="words")
    parser.add_argument("--noise", nargs="*", default=["clean", "mixer:10"], metavar="KIND:DB")
    parser.add_argument("--each", type=int, default=3, help="voices for each sentence")
    parser.add_argument("--few", type=int, help="so many clips a noise only")
    told = parser.parse_args(arguments)
    if lacking := missing(told.half):
        print(f"Not installed: {', '.join(lacking)}", file=sys.stderr)
        return 2
    engine = engine_named("assistant.ears.builtin:BuiltinEngine", spoken_language(told.manner))
    wanted = trial_clips(SETS[told.set](told.manner), told.half, told.noise, told.each, told.few)
    print(table(list(rows(engine, wanted))))
    return 0


if __name__ == "__main__":
    sys.exit(main())
