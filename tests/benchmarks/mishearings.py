"""Are slips of tongue and ear asked about, and true readings left alone?

``python tests/benchmarks/mishearings.py [FLOORS]`` walks over simulated floors reading by
reading. Each true reading is held against what has been read so far, as the conversation
does it, and so are the slips it might have become. The table says how many of them were
asked about; the goals are 95 % of the slips that change the value by more than three
standard deviations of a reading there, and 1 in 100 of the true readings at most.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path

# Before numpy is: small matrices are slower on several threads.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

sys.path.append(str(Path(__file__).parents[2]))

from assistant.events.kinds import Event
from assistant.events.readings import ReadingTaken
from assistant.events.room import PointPlaced, RoomMeasured
from assistant.floor.heights import reading_sd_mm
from assistant.floor.mishearings import CONFUSABLE_NUMBERS
from assistant.floor.places import places_of
from assistant.floor.suspicion import surface_near, suspicion_about
from assistant.job import EMPTY, Job, record
from assistant.levels.outliers import expected_reading
from grammar.commands import Measure, Reading
from grammar.commands.readings import TakeReading
from tests.benchmarks.floors import Floor, simulated

KINDS = ("teens and tens", "digit lost", "wrong sign", "wrong row")
FAR_SDS = 3.0
EVERY = 3
"""Every so manieth reading of a floor is tried with its slips; all are tried as they are."""


@dataclass
class Count:
    """How many there were, and how many were asked about."""

    tried: int = 0
    asked: int = 0

    def add(self, asked: bool) -> None:
        self.tried += 1
        self.asked += asked

    @property
    def share(self) -> float:
        return self.asked / self.tried if self.tried else float("nan")


@dataclass
class Result:
    """What came of some floors."""

    true: Count = field(default_factory=Count)
    far: dict[str, Count] = field(default_factory=lambda: {kind: Count() for kind in KINDS})
    """Slips by more than :data:`FAR_SDS`."""
    near: dict[str, Count] = field(default_factory=lambda: {kind: Count() for kind in KINDS})
    named: Count = field(default_factory=Count)
    """Slips asked about, with the true value among what was said to be likely."""

    @property
    def all_far(self) -> Count:
        return Count(
            sum(count.tried for count in self.far.values()),
            sum(count.asked for count in self.far.values()),
        )


def walked(numbers: range, floor_of: Callable[[int], Floor] = simulated) -> Result:
    """Walk over the floors with these numbers."""
    result = Result()
    for number in numbers:
        _walk(floor_of(number), np.random.default_rng([13, number]), result)
    return result


def _walk(floor: Floor, chance: np.random.Generator, result: Result) -> None:
    values = np.round((floor.readings_m - floor.finish_m) * 1000).astype(int).tolist()
    order = _to_and_fro(floor)
    names = [f"P{row + 1}" for row in range(len(order))]
    first, second = np.ptp(floor.outline_m, axis=0).tolist()
    placed = [_placed(n, floor.points_m[row]) for n, row in zip(names, order, strict=True)]
    job = record(EMPTY, 1, "", [RoomMeasured(_metres(first), _metres(second)), *placed])
    for step, (name, row) in enumerate(zip(names, order, strict=True)):
        value = values[row]
        if step:
            result.true.add(_asked(job, name, value) is not None)
            if step % EVERY == 0:
                _slips(job, name, value, _next_value(values, order, step), chance, result)
        taken: list[Event] = [ReadingTaken(name, Measure(Decimal(value), "mm"))]
        job = record(job, step + 2, "", taken)


def _slips(
    job: Job,
    name: str,
    value: int,
    next_value: int | None,
    chance: np.random.Generator,
    result: Result,
) -> None:
    near = surface_near(job, name, 1)
    assert near is not None
    expected, _ = expected_reading(near, places_of(job.layout).xy(name), reading_sd_mm(job) / 1000)
    sd_mm = float(expected.sd[0]) * 1000
    for kind, wrong in _wrong(value, next_value, chance):
        found = _asked(job, name, wrong)
        far = abs(wrong - value) > FAR_SDS * sd_mm
        (result.far if far else result.near)[kind].add(found is not None)
        if found is not None and far and kind != "wrong row":
            result.named.add(_true_among(found, value))


def _true_among(found: tuple[TakeReading, ...], value: int) -> bool:
    return any(command.reading.number == value for command in found)


def _wrong(
    value: int, next_value: int | None, chance: np.random.Generator
) -> Iterator[tuple[str, int]]:
    """What a reading may become on its way."""
    size, sign = abs(value), -1 if value < 0 else 1
    if Decimal(size) in CONFUSABLE_NUMBERS:
        yield "teens and tens", sign * int(CONFUSABLE_NUMBERS[Decimal(size)])
    digits = str(size)
    if len(digits) > 1:
        lost = int(chance.integers(len(digits)))
        yield "digit lost", sign * int(digits[:lost] + digits[lost + 1 :])
    if value:
        yield "wrong sign", -value
    if next_value is not None and next_value != value:
        yield "wrong row", next_value


def _asked(job: Job, name: str, value: int) -> tuple[TakeReading, ...] | None:
    """What is said to be likely instead; None where nothing is asked."""
    found = suspicion_about(job, TakeReading(name, Reading(Decimal(value), "mm")), name)
    if found is None:
        return None
    return tuple(command for command in found.likely if isinstance(command, TakeReading))


def _placed(name: str, place: np.ndarray) -> Event:
    x, y = (_metres(part) for part in place.tolist())
    return PointPlaced(name, x, y)


def _metres(length: float) -> Measure:
    return Measure(Decimal(f"{length:.4f}"), "m")


def _to_and_fro(floor: Floor) -> list[int]:
    """Rows of the points as one would walk them: in strips of a metre and a half."""
    strip = np.floor(floor.points_m[:, 1] / 1.5).astype(int)
    along = np.where(strip % 2 == 0, floor.points_m[:, 0], -floor.points_m[:, 0])
    return [int(row) for row in np.lexsort((along, strip))]


def _next_value(values: list[int], order: list[int], step: int) -> int | None:
    """A reading said for the wrong point is that of the point after it."""
    return values[order[step + 1]] if step + 1 < len(order) else None


def table(result: Result) -> str:
    """For reading."""
    lines = [f"{'':18}{'tried':>8}{'asked':>8}{'share':>9}"]

    def row(name: str, count: Count) -> None:
        lines.append(f"{name:18}{count.tried:8}{count.asked:8}{100 * count.share:8.1f} %")

    row("true readings", result.true)
    for kind in KINDS:
        row(kind, result.far[kind])
    row("all slips", result.all_far)
    row("true value named", result.named)
    for kind in KINDS:
        row(f"  {kind}, near", result.near[kind])
    return "\n".join(lines)


if __name__ == "__main__":
    floors = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    print(f"{floors} floors; slips by more than {FAR_SDS:g} standard deviations")
    print(table(walked(range(floors))))
