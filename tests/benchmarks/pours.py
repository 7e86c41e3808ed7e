"""How often the forecast of a pour is right: ``python -m tests.benchmarks.pours``.

``--batch 2`` pours in batches of two bags, a strip done with the batch that passes its edge;
where it is asked how far that batch came, the front is read.

Simulated pours in eight strips of 60 bags: the yield differs by 5 %, the zero by 3 % of the volume,
each strip by 6 %; and the same with a hole that nobody planned, of 4 bags, somewhere.
"""

from __future__ import annotations

import argparse

import numpy as np
from numpy.typing import NDArray

from assistant.pours.forecast import Expected, Forecast, forecast
from grammar.frozen import frozen_identity

STRIPS = 8
BAGS = 60.0
EXPECTED = Expected(ratio_sd=(0.05**2 + 0.03**2) ** 0.5)


@frozen_identity
class Pours:
    """Many simulated pours."""

    used: NDArray[np.float64]
    """(pours, strips) bags."""
    hole: NDArray[np.intp]
    """(pours,) the strip that has the hole; -1 for none."""
    hole_bags: float = 0.0
    batch: float = 0.0
    """Bags that are poured at once; 0 where each strip's own are known exactly."""

    @property
    def ends(self) -> NDArray[np.float64]:
        """Bags at the end of each."""
        ends: NDArray[np.float64] = self.used.sum(axis=1)
        return np.ceil(ends) if self.batch else ends

    @property
    def counted(self) -> NDArray[np.float64]:
        """(pours, strips) bags as they are counted, whole batches."""
        if not self.batch:
            return self.used
        till = np.ceil(self.used.cumsum(axis=1) / self.batch) * self.batch
        return np.diff(till, axis=1, prepend=0.0)

    def beyond(self, strip: int) -> NDArray[np.float64]:
        """(pours,) how much of the strip after a strip its last batch covers, in planned bags."""
        over = self.counted[:, : strip + 1].sum(axis=1) - self.used[:, : strip + 1].sum(axis=1)
        there = self.used[:, strip + 1] - self.hole_bags * (self.hole == strip + 1)
        past: NDArray[np.float64] = over / (there / (BAGS / STRIPS))
        return past.clip(1e-6, 0.9 * BAGS / STRIPS)


def simulated(count: int, hole_bags: float, seed: int, batch: float = 0.0) -> Pours:
    """Pours drawn by chance, each with a hole in one strip where it has bags."""
    random = np.random.default_rng(seed)
    ratio = 1 + random.normal(0, 0.05, count) + random.normal(0, 0.03, count)
    each = BAGS / STRIPS
    used = each * (ratio[:, None] + random.normal(0, 0.06, (count, STRIPS)))
    hole = random.integers(0, STRIPS, count) if hole_bags else np.full(count, -1)
    used[np.arange(count), hole] += hole_bags
    return Pours(np.maximum(used, 0.0), hole, hole_bags, batch)


@frozen_identity
class Told:
    """What was reported of pours, strip by strip; (pours, strips before the last)."""

    covered: NDArray[np.bool_]
    """The interval held the end, before a question was answered."""
    covered_after: NDArray[np.bool_]
    """The same once it was."""
    short: NDArray[np.bool_]
    asked: NDArray[np.bool_]
    front_asked: NDArray[np.bool_]
    """Whether it was asked how far the last batch came, and answered."""


class Parts:
    """What was reported of the parts of many pours, strip by strip."""

    def __init__(self, pours: Pours) -> None:
        count = len(pours.used)
        self._pours = pours
        self._planned = np.zeros((count, 0))
        self._used = np.zeros((count, 0))
        self._said = np.zeros((count, 0))
        self._read = np.zeros((count, 0), dtype=bool)
        """Whether the front was read, so that just what was poured lies behind it."""
        self._past = np.zeros(count)
        """Planned bags past the last edge, where the front was read."""

    def strip_done(self, strip: int) -> None:
        """Called done after the batch that passes its edge."""
        counted = self._pours.counted[:, strip]
        self._planned = np.column_stack([self._planned, BAGS / STRIPS - self._past])
        self._used = np.column_stack([self._used, counted])
        self._said = np.column_stack([self._said, np.zeros(len(counted))])
        self._read = np.column_stack([self._read, np.zeros(len(counted), dtype=bool)])
        self._past = np.zeros(len(counted))

    def hole_told(self, asked: NDArray[np.bool_], strip: int) -> None:
        """Whoever was asked tells what is so."""
        truth = np.where(self._pours.hole == strip, 1.0, -1.0)
        self._said[:, -1] = np.where(asked, truth, 0.0)

    def front_told(self, asked: NDArray[np.bool_], strip: int) -> None:
        """Whoever was asked reads the front where it stands, with no bag more."""
        self._past = np.where(asked, self._pours.beyond(strip), 0.0)
        self._planned[:, -1] += self._past
        self._read[:, -1] = asked

    def seen(self, expected: Expected) -> Forecast:
        """What the forecast says of each."""
        batch = self._pours.batch
        return forecast(
            self._planned,
            self._used,
            BAGS - self._planned.sum(axis=1),
            expected,
            lost=self._said,
            part=BAGS / STRIPS,
            beyond=np.where(self._read, 0.0, batch) if batch else None,
        )


def told_of(pours: Pours, expected: Expected = EXPECTED) -> Told:
    """What the forecast says after each strip; a question is answered as it is."""
    parts, bags = Parts(pours), np.full(len(pours.used), BAGS)
    columns: list[list[NDArray[np.bool_]]] = []

    def held(seen: Forecast) -> NDArray[np.bool_]:
        low, high = seen.interval
        inside: NDArray[np.bool_] = (low <= pours.ends) & (pours.ends <= high)
        return inside

    for strip in range(STRIPS - 1):
        parts.strip_done(strip)
        before = parts.seen(expected)
        wanted = before.front_tells(bags) & ~before.asks
        if wanted.any():
            parts.front_told(wanted, strip)
            before = parts.seen(expected)
        parts.hole_told(before.asks, strip)
        after = parts.seen(expected)
        columns.append([held(before), held(after), after.short(bags), before.asks, wanted])
    return Told(*(np.stack(column, axis=1) for column in zip(*columns, strict=True)))


@frozen_identity
class Figures:
    """What became of it, as shares."""

    covered: NDArray[np.float64]
    """(strips,) of pours without a hole."""
    shortages_told: float
    """Of shortages over 5 %, before two thirds of the bags are gone."""
    false_warnings: float
    """Of pours that the bags were enough for."""
    holes_asked: float
    """Of holes, at their strip or the next."""
    asked_for_nothing: float
    """Of pours without one."""
    covered_before_hole: NDArray[np.float64]
    """(strips,) of pours with a hole, while it lies ahead: nothing can show it."""
    covered_unanswered: NDArray[np.float64]
    """(strips,) from its strip on, before the question is answered."""
    covered_answered: NDArray[np.float64]
    """(strips,) the same once it is."""
    fronts_asked: float
    """Fronts asked for, of a pour without a hole."""


def figures(count: int, seed: int = 1, batch: float = 0.0) -> Figures:
    """All figures, of so many pours without and with a hole."""
    plain, holed = (simulated(count, *drawn, batch) for drawn in ((0, seed), (4, seed + 1)))
    told, told_holed = told_of(plain), told_of(holed)
    gone = plain.counted.cumsum(axis=1)[:, :-1] < BAGS * 2 / 3
    ends, strips = plain.ends, np.arange(1, STRIPS)
    is_short = np.flatnonzero(ends > BAGS * 1.05)
    enough = np.flatnonzero(ends <= BAGS)
    in_time = _ever(told.short & gone)
    ahead: NDArray[np.bool_] = np.asarray(holed.hole[:, None] >= strips)
    known = holed.hole < STRIPS - 1
    at_hole: NDArray[np.bool_] = strips - 1 == holed.hole[:, None]
    near = at_hole | (strips - 2 == holed.hole[:, None])
    return Figures(
        told.covered_after.mean(axis=0),
        float(in_time[is_short].mean()),
        float(_ever(told.short)[enough].mean()),
        float(_ever(told_holed.asked & near)[known].mean()),
        float(_ever(told.asked).mean()),
        _share(told_holed.covered, ahead),
        _share(told_holed.covered, at_hole),
        _share(told_holed.covered_after, ~ahead),
        float(told.front_asked.sum(axis=1).mean()),
    )


def _ever(told: NDArray[np.bool_]) -> NDArray[np.bool_]:
    ever: NDArray[np.bool_] = np.asarray(told.any(axis=1))
    return ever


def _share(held: NDArray[np.bool_], of: NDArray[np.bool_]) -> NDArray[np.float64]:
    share: NDArray[np.float64] = (held & of).sum(axis=0) / np.maximum(of.sum(axis=0), 1)
    return share


def _percents(shares: NDArray[np.float64]) -> str:
    return " ".join(f"{100 * share:5.1f}" for share in shares)


def main() -> None:
    """Print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("count", nargs="?", type=int, default=4000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--batch", type=float, default=0.0, help="bags that are poured at once")
    asked = parser.parse_args()
    found = figures(asked.count, asked.seed, asked.batch)
    print(f"{asked.count} pours of {STRIPS} strips; after strip 1, 2 … {STRIPS - 1}, in per cent")
    print("covered at 90 %, no hole:      ", _percents(found.covered))
    print("with a hole still ahead:       ", _percents(found.covered_before_hole))
    print("at its strip, not yet answered:", _percents(found.covered_unanswered))
    print("from its strip on, answered:   ", _percents(found.covered_answered))
    print(f"shortages over 5 % told in time: {100 * found.shortages_told:.1f}")
    print(f"warned though enough:            {100 * found.false_warnings:.1f}")
    print(f"holes asked about in time:       {100 * found.holes_asked:.1f}")
    print(f"asked though there was none:     {100 * found.asked_for_nothing:.1f}")
    if asked.batch:
        print(f"fronts asked for, of a pour:     {found.fronts_asked:.2f}")


if __name__ == "__main__":
    main()
