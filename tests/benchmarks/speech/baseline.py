"""Is it no worse than before? A run of the benchmark held against the one that was kept.

``python -m tests.benchmarks.speech.baseline --words FILE --digits FILE``, with the files that
``run --again --rows FILE`` keeps. What came of each clip stands in ``baseline.json``, with the
counts by goal; the two are compared on the clips that both heard, so a part of a run is enough. It
ends with 1 where anything is worse: a command or talk taken wrongly more often than before, a goal
that was met on these clips missed, or fewer right or more asked than chance explains. ``--keep``
puts these in its place.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from scipy.stats import binom

from tests.benchmarks.speech.run import BASELINE, read_rows
from tests.benchmarks.speech.score import Goal, Row, goals, goals_table
from tests.benchmarks.speech.trials import outcome

CHANCE = 0.05
"""How seldom chance alone may do as much for it to count as worse."""
ClipName = tuple[str, str, str]
"""What was said, by whom, in which noise."""
Came = Mapping[ClipName, str]
"""What came of each clip."""

WRONG, ASKED, RIGHT = "wrong and sure", ("asked", "asked, others"), ("right", "asked")
_MEASURES: dict[str, tuple[Callable[[str], bool], bool]] = {
    "right": (lambda came: came in RIGHT, True),
    "wrong and sure": (lambda came: came == WRONG, False),
    "asked": (lambda came: came in ASKED, False),
}
"""What is counted of commands -> whether a clip is one, and whether more of it is better."""


@dataclass(frozen=True, slots=True)
class Change:
    """One count, before and now, on the same clips."""

    what: str
    of: int
    """Clips that both heard."""
    before: int
    now: int
    worse: int
    """Clips that it was well with before, and is not now."""
    better: int
    never: bool
    """Whether it must not go up at all."""
    goal: Goal | None = None
    """The goal that it is counted for, reached as it is now."""

    @property
    def is_missed(self) -> bool:
        """Whether its goal was met on these clips, and is not."""
        if self.goal is None or not self.of:
            return False
        was = replace(self.goal, reached=self.before / self.of)
        return was.met and not replace(self.goal, reached=self.now / self.of).met

    @property
    def is_worse(self) -> bool:
        """Whether it is: at all, or of the clips that changed more than chance explains."""
        if self.never and self.now > self.before:
            return True
        changed = self.worse + self.better
        by_chance = float(binom.sf(self.worse - 1, changed, 0.5)) if changed else 1.0
        return self.is_missed or by_chance < CHANCE


def clip_name(row: Row) -> ClipName:
    """The clip of a row."""
    return row.text, row.voice, row.setting


def what_came(rows: Iterable[Row]) -> dict[ClipName, str]:
    """What came of each clip."""
    return {clip_name(row): outcome(row) for row in rows}


def changes(before: Came, rows: Sequence[Row]) -> list[Change]:
    """Each count on the clips that both heard: by noise, and talk by itself."""
    both = [row for row in rows if clip_name(row) in before]
    bounds = {goal.what: goal for goal in goals(both)}
    found = []
    for setting in dict.fromkeys(row.setting for row in both):
        said = [row for row in both if row.setting == setting and row.truth is not None]
        for name, (holds, better) in _MEASURES.items():
            found.append(_change(f"{setting}, {name}", said, before, holds, better))
    talk = [row for row in both if row.truth is None]
    found.append(_change("talk taken as sure", talk, before, lambda came: came == WRONG, False))
    return [replace(one, goal=bounds.get(one.what)) for one in found]


def _change(
    what: str, rows: Sequence[Row], before: Came, holds: Callable[[str], bool], better: bool
) -> Change:
    was = [holds(before[clip_name(row)]) for row in rows]
    now = [holds(outcome(row)) for row in rows]
    lost = sum(one and not other for one, other in zip(was, now, strict=True))
    won = sum(other and not one for one, other in zip(was, now, strict=True))
    worse, gained = (lost, won) if better else (won, lost)
    never = "sure" in what
    return Change(what, len(rows), sum(was), sum(now), worse, gained, never)


def as_kept(rows: Sequence[Row]) -> dict[str, object]:
    """What is kept of a run."""
    return {
        "clips": len(rows),
        "goals": {goal.what: _counted(goal, rows) for goal in _goals_but_time(rows)},
        "said": [[text, kind, voice, came] for (text, kind, voice), came in _by_sentence(rows)],
    }


def _by_sentence(rows: Sequence[Row]) -> list[tuple[tuple[str, str, str], dict[str, str]]]:
    """What came of each sentence, by the noises it was heard in; in an order that stays."""
    found: dict[tuple[str, str, str], dict[str, str]] = {}
    for row in sorted(rows, key=clip_name):
        found.setdefault((row.text, row.kind, row.voice), {})[row.setting] = outcome(row)
    return sorted(found.items())


def _was(said: Iterable[Sequence[Any]]) -> dict[ClipName, str]:
    """The other way round."""
    return {
        (text, voice, setting): one
        for text, _, voice, came in said
        for setting, one in came.items()
    }


def _goals_but_time(rows: Sequence[Row]) -> list[Goal]:
    return [goal for goal in goals(rows) if not goal.what.startswith("seconds")]


def _counted(goal: Goal, rows: Sequence[Row]) -> dict[str, object]:
    """A goal with the clips that its part is of."""
    if goal.what.startswith("talk"):
        of = sum(row.truth is None for row in rows)
    else:
        setting = goal.what.rpartition(",")[0]
        of = sum(row.setting == setting and row.truth is not None for row in rows)
    count = None if goal.reached is None else round(goal.reached * of)
    return {"count": count, "of": of, "bound": goal.bound, "met": goal.met}


def comparison(kept: Mapping[str, Any], rows: Sequence[Row]) -> tuple[str, bool]:
    """Markdown of one manner, and whether anything is worse."""
    before = _was(kept["said"])
    found = changes(before, rows)
    lines = ["| on the same clips | of | before | now | for the worse | for the better | |"]
    lines.append("|---|---:|---:|---:|---:|---:|---|")
    lines += [
        f"| {one.what} | {one.of} | {one.before} | {one.now} | {one.worse} | {one.better} "
        f"| {'WORSE' * one.is_worse}{', goal missed' * one.is_missed} |"
        for one in found
    ]
    lines += [
        f"Newly wrong and sure: {row.text} -> {row.heard} ({row.setting}, {row.voice})"
        for row in rows
        if outcome(row) == WRONG and before.get(clip_name(row), WRONG) != WRONG
    ]
    return "\n".join(lines), any(one.is_worse for one in found)


def as_text(kept: Mapping[str, Mapping[str, Any]]) -> str:
    """JSON with a line for each sentence, so that a change can be read."""
    parts = []
    for manner, told in kept.items():
        rest = json.dumps({name: value for name, value in told.items() if name != "said"}, indent=1)
        said = ",\n".join(json.dumps(one) for one in told["said"])
        parts.append(f'{json.dumps(manner)}: {rest[:-2]},\n "said": [\n{said}\n]}}')
    return "{" + ",\n".join(parts) + "}\n"


def main(arguments: list[str] | None = None) -> int:
    """Compare, or keep."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.speech.baseline")
    parser.add_argument("--words", type=Path, metavar="FILE", help="rows of a run in number words")
    parser.add_argument("--digits", type=Path, metavar="FILE", help="rows of one digit by digit")
    parser.add_argument("--keep", action="store_true", help="these are what later ones are held to")
    parser.add_argument("--file", type=Path, default=BASELINE, help=argparse.SUPPRESS)
    told = parser.parse_args(arguments)
    given = {name: file for name in ("words", "digits") if (file := getattr(told, name))}
    if not given:
        parser.error("which rows? --words FILE, --digits FILE or both")
    kept = json.loads(told.file.read_text("utf-8")) if told.file.exists() else {}
    worse = False
    for manner, file in given.items():
        rows = read_rows(file)
        print(f"## {manner}: {len(rows)} clips", goals_table(rows), sep="\n\n", end="\n\n")
        if told.keep:
            kept[manner] = as_kept(rows)
        elif manner in kept:
            table, is_worse = comparison(kept[manner], rows)
            worse = worse or is_worse
            print(table, end="\n\n")
        else:
            print(f"Nothing is kept of {manner}: --keep does so.\n")
    if told.keep:
        told.file.write_text(as_text(kept), "utf-8")
    else:
        print("WORSE." if worse else "No worse on any goal.")
    return int(worse)


if __name__ == "__main__":
    sys.exit(main())
