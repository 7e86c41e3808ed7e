"""
What becomes of one misread benchmark in the first set-up of a survey.

    python tests/benchmarks/misread_benchmarks.py [nets] [--seed N] [--show]

Nets of two to five set-ups over 12 points, one to three benchmarks (with a height that was given,
or read from the first set-up alone), ties on benchmarks and points, some set-ups closed by a second
look. Every reading has the instrument's honest noise; one look at a benchmark from the first set-up
is misread by 4 to 40 mm, as 40 read 56. Each line goes through the program as it is typed, and
whatever is asked about is confirmed, right or wrong: asked about is the chance to see the slip, all
else is what comes of it where nobody did.

The yardstick is a plain w-test: everything that was read in one adjustment, and what has the
largest w named where that is beyond the critical value. A blunder is controllable where that net
would show one of its size in four of five cases, and could tell it apart from all other readings.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import timedelta

import numpy as np

from assistant.decide import World, decide, resolve
from assistant.floor.heights import survey_of
from assistant.floor.places import places_of
from assistant.job import EMPTY, Job, next_number, record
from assistant.levels.adjustment import Adjustment, Known, PointObservations, adjust
from assistant.products.cards import cards_in, shipped_folder
from assistant.reply.times import UNTIMED
from grammar import understand

WORLD = World(cards_in(shipped_folder()))
NOISE_MM = 1.0
"""Repeatability; the display then shows whole millimetres."""
SHIFTED_MM = 3.0
"""A height that differs by more from what it is without the slip has been shifted by it; noise of
another set-up's reading alone comes to less, nineteen times in twenty."""
MINUTES = 0.5
"""From one reading to the next."""


@dataclass
class Net:
    """One survey as lines, and where in it the slip is."""

    lines: list[str] = field(default_factory=list)
    slip_line: int = -1
    """The line that is misread."""
    honest: str = ""
    """What that line would have been."""
    blunder_mm: int = 0


def nets(count: int, seed: int) -> Iterator[Net]:
    """So many random nets, always the same ones."""
    for each in np.random.SeedSequence(seed).spawn(count):
        yield _net(np.random.default_rng(each))


def _net(random: np.random.Generator) -> Net:
    points = list(places_of(_laid_out().layout).names)
    floor = {point: -18 + 4 * random.standard_normal() for point in points}
    marks = {number: float(random.integers(20, 80)) for number in range(1, random.integers(2, 5))}
    given = [number for number in marks if random.random() < 0.6]
    set_ups = int(random.integers(2, 6))
    net = Net([*LAYOUT, *(f"benchmark {n} at {marks[n]:.0f} mm above zero" for n in given)])
    zero, looks, read, known = 0.0, [], list[str](), list(marks)
    for number, part in enumerate(np.array_split(np.array(points), set_ups)):
        if number:
            zero = float(random.integers(-60, 60))
            net.lines.append("new set up")
        begun = [n for n in known if random.random() < 0.8] or known[:1]
        begin = [f"tie on benchmark {n} {_shown(random, marks[n] - zero):+d}" for n in begun]
        again = [
            f"check benchmark {n} {_shown(random, marks[n] - zero):+d}"
            for n in begun
            if random.random() < 0.4
        ]
        if not number:  # what is read from the first set-up, or was given, is known to the others
            known = [n for n in marks if n in given or n in begun]
        ties = list(random.choice(read, min(len(read), 2), replace=False)) if read else []
        walk: list[str] = [f"tie on {p} {_shown(random, floor[p] - zero):+d}" for p in ties]
        walk += [f"{p} {_shown(random, floor[p] - zero):+d}" for p in part]
        first = len(net.lines)
        net.lines += begin + walk + again
        if not number:
            looks = [row for row in range(first, len(net.lines)) if "benchmark" in net.lines[row]]
        read += [str(p) for p in part]
    return _misread(net, int(random.choice(looks)), random)


def _shown(random: np.random.Generator, mm: float) -> int:
    return round(mm + NOISE_MM * float(random.standard_normal()))


def _misread(net: Net, row: int, random: np.random.Generator) -> Net:
    net.honest, net.slip_line = net.lines[row], row
    words, value = net.honest.rsplit(" ", 1)
    net.blunder_mm = int(random.integers(4, 41)) * int(random.choice([-1, 1]))
    net.lines[row] = f"{words} {int(value) + net.blunder_mm:+d}"
    return net


LAYOUT = ("room 12 by 8 metres", "grid 3 metres")


def _laid_out() -> Job:
    return _told(EMPTY, LAYOUT)[0]


def _told(job: Job, lines: tuple[str, ...] | list[str]) -> tuple[Job, list[int]]:
    """The job after the lines, all confirmed; and which were asked about."""
    now, asked = UNTIMED, []
    for row, line in enumerate(lines):
        command = resolve(job, understand(line)[0])
        decision = decide(job, command, WORLD)
        if decision.ask is not None:
            asked.append(row)
            decision = decide(job, command, WORLD, confirmed=True)
        job = record(job, next_number(job), line, decision.events, now)
        now += timedelta(minutes=MINUTES)
    return job, asked


# --- what came of it -------------------------------------------------------------------------


def outcome(net: Net) -> tuple[dict[str, bool], dict[str, bool]]:
    """What the program and the plain w-test made of one net."""
    job, asked = _told(EMPTY, net.lines)
    honest = list(net.lines)
    honest[net.slip_line] = net.honest
    right, asked_of_honest = _told(EMPTY, honest)
    found, wanted = survey_of(job), survey_of(right)
    order = _order(net)
    named = [_is_slip(m.what, m.off_mm, net) for m in found.misfits]
    alone = found.watches[0].alone
    one_look = alone is not None and alone.order == order
    shifted = [
        point
        for point, height in wanted.heights_mm.items()
        if point not in found.doubtful
        and abs(float(found.heights_mm.get(point, height) - height)) > SHIFTED_MM
    ]
    result, labels = _plain(net)
    suspects = [labels[suspect.source.row] == net.slip_line for suspect in result.suspects]
    row = labels.index(net.slip_line)
    detectable = 1000 * float(result.w_test.detectable_m[row])
    apart = not suspects or len(suspects) == 1
    ours = {
        "asked about when said": net.slip_line in asked,
        "named, and it alone": named == [True],
        "told as one look that may be misread": one_look and not any(named),
        "one of several named": len(named) > 1 and any(named),
        "a good one blamed": any(not each for each in named) and not any(named),
        "a later line asked about": bool(set(asked) - set(asked_of_honest) - {net.slip_line}),
        "a height shifted, and not in doubt": bool(shifted),
        "nothing said at all": net.slip_line not in asked and not named and not one_look,
    }
    plain = {
        "controllable": abs(net.blunder_mm) >= detectable and apart,
        "named, and it alone": suspects == [True],
        "one of several named": len(suspects) > 1 and any(suspects),
        "a good one blamed": bool(suspects) and not any(suspects),
        "nothing said at all": not suspects,
    }
    return ours, plain


def _order(net: Net) -> int:
    """Which of all heights the misread one is."""
    heights = [line for line in net.lines[: net.slip_line] if _is_height(line)]
    return len(heights)


def _is_height(line: str) -> bool:
    return line not in LAYOUT and line != "new set up" and " at " not in line


def _is_slip(what: str, off_mm: float, net: Net) -> bool:
    number = net.lines[net.slip_line].split()[-2]
    where = f"on benchmark {number} from set-up 1"
    return what.endswith(where) and abs(off_mm - net.blunder_mm) < abs(net.blunder_mm) / 2


def _plain(net: Net) -> tuple[Adjustment, list[int]]:
    """All that was read, adjusted at once; and the line of each row."""
    rows: dict[str, int] = {}
    set_up, number = [], 0
    point, value, labels = [], [], []
    given: dict[int, float] = {}
    for line_number, line in enumerate(net.lines):
        if line == "new set up":
            number += 1
        elif line.startswith("benchmark"):
            given[rows.setdefault(line.split()[1], len(rows))] = float(line.split()[3]) / 1000
        elif _is_height(line):
            *_, on, read = line.split()
            set_up.append(number)
            point.append(rows.setdefault(on, len(rows)))
            value.append(float(read) / 1000)
            labels.append(line_number)
    sd = float(np.hypot(NOISE_MM, 1 / np.sqrt(12))) / 1000
    known = Known(list(given), list(given.values()))
    readings = PointObservations(set_up, point, value, sd)
    result = adjust(
        len(rows), number + 1, readings, known_points=known, known_zeros=Known([0], [0.0])
    )
    return result, labels


def main() -> None:
    """Print how often which came of it."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n\n")[0])
    parser.add_argument("nets", type=int, nargs="?", default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--show", action="store_true", help="the nets that come out wrong")
    asked = parser.parse_args()
    counts = {what: (Counter[str](), Counter[str]()) for what in ("all", "controllable")}
    for net in nets(asked.nets, asked.seed):
        ours, plain = outcome(net)
        for what, (mine, theirs) in counts.items():
            if what == "all" or plain["controllable"]:
                mine.update(key for key, yes in {**ours, "nets": True}.items() if yes)
                theirs.update(key for key, yes in plain.items() if yes)
        wrong = ours["a good one blamed"] or ours["a height shifted, and not in doubt"]
        if asked.show and (wrong or not any(list(ours.values())[1:4])):
            told = [key for key, yes in {**ours, **plain}.items() if yes]
            print(f"{net.blunder_mm:+d} on line {net.slip_line}: {'; '.join(net.lines)}: {told}")
    print(f"{'':38}{'all nets':>18}{'controllable':>18}")
    print(f"{'':38}{'program':>9}{'w-test':>9}{'program':>9}{'w-test':>9}")
    for key in ("nets", *ours, *(key for key in plain if key not in ours)):
        cells = "".join(
            f"{str(both[side].get(key, 0)) if key in judged else '':>9}"
            for both in counts.values()
            for side, judged in ((0, {*ours, "nets"}), (1, plain))
        )
        print(f"{key:38}{cells}")


if __name__ == "__main__":
    main()
