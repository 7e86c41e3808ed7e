"""How well is what people say understood?

``python -m tests.benchmarks.talk.run [said_on_site | second | third | unseen | talk]`` says each
phrase of a list into a fresh copy of one prepared job and counts what became of it, held against
what should (``table.py``). ``--wrong`` shows those that were not as they should be: whoever widens
the language learns from the first three lists, and so do the weights of ``grammar/likely.npz``.
``unseen`` is looked at by nobody, so that it says how well a new line is understood; there the word
is ``--wrong-and-spoil``. ``talk`` is ordinary talk, which must do nothing at all.
"""

from __future__ import annotations

import argparse
import tempfile
from collections import Counter
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path

from tests.benchmarks.talk.ordinary import ordinary, told_of
from tests.benchmarks.talk.outcome import Outcome, is_known, outcome
from tests.benchmarks.talk.prepared import PreparedJob
from tests.benchmarks.talk.table import DOES, HELD_OUT, LISTS, Row, ordinary_talk, table
from tests.benchmarks.talk.verdict import ANOTHER, HITS, VERDICTS, WRONG, verdict

RIGHT_GOAL = 90
"""Percent, at least: taken as meant, rightly asked, or rightly left alone."""
WRONG_GOAL = 3
"""Percent, at most, hinted at or answered with something else. Nothing else may be recorded."""


@dataclass(frozen=True, slots=True)
class Judged:
    """A phrase, what became of it, and how that stands to what should."""

    row: Row
    got: Outcome
    verdict: str


@contextmanager
def prepared() -> Iterator[PreparedJob]:
    """The job, in a folder that is taken away afterwards."""
    with tempfile.TemporaryDirectory() as folder:
        yield PreparedJob(Path(folder)).make()


def judged(job: PreparedJob, rows: Iterable[Row]) -> Iterator[Judged]:
    """Each phrase, said and judged."""
    said = cache(partial(outcome, job))
    for row in rows:
        got = outcome(job, row.before, row.phrase)
        yield Judged(row, got, verdict(row, got, partial(said, row.before)))


@dataclass(frozen=True, slots=True)
class Counts:
    """How many phrases came to what."""

    by_verdict: Counter[str]

    @property
    def all(self) -> int:
        """Phrases."""
        return self.by_verdict.total()

    @property
    def right(self) -> float:
        """Percent taken as meant, rightly asked, or rightly left alone."""
        return self.percent(*HITS)

    @property
    def wrong_hints(self) -> float:
        """Percent answered or hinted at with something else than was meant."""
        return self.percent(WRONG)

    @property
    def another_change(self) -> int:
        """Phrases that recorded what was not meant."""
        return self.by_verdict[ANOTHER]

    def percent(self, *verdicts: str) -> float:
        """The share of some verdicts."""
        return 100 * sum(self.by_verdict[each] for each in verdicts) / self.all


def counted(found: Iterable[Judged]) -> Counts:
    """The verdicts, counted."""
    return Counts(Counter(each.verdict for each in found))


def _report(name: str, found: list[Judged]) -> str:
    counts = counted(found)
    lines = [f"{name}: {counts.all} phrases"]
    for each in VERDICTS:
        lines.append(f"  {each:<24}{counts.by_verdict[each]:>5}{counts.percent(each):>8.1f} %")
    lines.append(f"  right: {counts.right:.1f} % (goal {RIGHT_GOAL})")
    lines.append(f"  wrong hints: {counts.wrong_hints:.1f} % (goal {WRONG_GOAL})")
    lines.append(f"  taken as another change: {counts.another_change} (goal 0)")
    for do in DOES:
        of_it = counted(each for each in found if each.row.do == do)
        if of_it.all:
            lines.append(f"  to {do}: {of_it.right:.1f} % of {of_it.all} right")
    return "\n".join(lines)


def _told(each: Judged) -> str:
    row, got = each.row, each.got
    wanted = " | ".join(row.want) or "nothing"
    came = got.taken_for or "-"
    return f"[{each.verdict}] {row.phrase}\n    {row.do}: {wanted}\n    {came}: {got.headline}"


def _unknown_forms(name: str) -> list[str]:
    """Wanted lines that the table of phrases does not have, for whoever labels."""
    lines = {line for row in table(name) for line in (*row.commands, *row.before)}
    return sorted(line for line in lines if "*" not in line and not is_known(line))


def main(arguments: list[str] | None = None) -> int:
    """Print the counts of a list."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.talk.run")
    parser.add_argument(
        "list", nargs="?", choices=[*LISTS, *HELD_OUT, "talk"], help="all where none is said"
    )
    parser.add_argument("--wrong", action="store_true", help="show what was not as it should be")
    parser.add_argument("--wrong-and-spoil", action="store_true", help="the same of the unseen one")
    parser.add_argument("--forms", action="store_true", help="wanted lines that are in no phrase")
    asked = parser.parse_args(arguments)
    if asked.wrong and asked.list in HELD_OUT:
        parser.error("looking at it spoils the list; if that is meant: --wrong-and-spoil")
    with prepared() as job:
        for name in [asked.list] if asked.list else [*LISTS, *HELD_OUT, "talk"]:
            if name == "talk":
                print(told_of(ordinary(job, ordinary_talk())))
                continue
            if asked.forms:
                print(*_unknown_forms(name), sep="\n")
                continue
            found = list(judged(job, table(name)))
            print(_report(name, found))
            if asked.wrong_and_spoil if name in HELD_OUT else asked.wrong:
                print(*(_told(each) for each in found if each.verdict not in HITS), sep="\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
