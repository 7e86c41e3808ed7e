"""How far a point lies beyond the front of the pour, counted out by hand."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest
import shapely

from assistant.floor.pour import front as pour_front
from assistant.floor.pour.front import along_m, beyond_front_m
from assistant.floor.pour.plan import PourPlan
from assistant.job import Job
from tests.floor.plans import TWO_BAYS, batches, pouring

HALVES = replace(
    TWO_BAYS,
    floor=(
        replace(TWO_BAYS.floor[0], area=shapely.box(0, 0, 5, 1)),
        replace(TWO_BAYS.floor[1], area=shapely.box(0, 1, 5, 2), offset_m=0.4),
    ),
)
"""Side by side: up to a metre across the first bay, from there on the second."""


def beyond(
    monkeypatch: pytest.MonkeyPatch,
    place: tuple[float, float] | None,
    bay: int | None,
    front_m: float = 3.0,
    plan: PourPlan | None = HALVES,
    poured: int = 1,
) -> float:
    job: Any = SimpleNamespace(layout=None, pour=SimpleNamespace(batches=(None,) * poured))
    now = SimpleNamespace(bay=bay, front_m=front_m)
    monkeypatch.setattr(pour_front, "plan_known", lambda _: plan)
    monkeypatch.setattr(pour_front, "place_of_point", lambda *_: place)
    monkeypatch.setattr(pour_front, "progress_of", lambda _: now)
    return beyond_front_m(job, "B3")


def test_in_the_bay_of_the_front_it_is_what_lies_between(monkeypatch: pytest.MonkeyPatch) -> None:
    for place, far in (((3.5, 0.5), 0.5), ((1.0, 0.5), -2.0), ((3.0, 0.1), 0.0)):
        assert beyond(monkeypatch, place, 1) == pytest.approx(far)
        # Where nobody knows the bay it is the first one.
        assert beyond(monkeypatch, place, None) == pytest.approx(far)


def test_a_bay_behind_is_poured_and_one_to_come_is_not(monkeypatch: pytest.MonkeyPatch) -> None:
    assert beyond(monkeypatch, (4.9, 0.5), 2) == -1
    # All of the next one lies beyond the front: counted from where it begins.
    assert beyond(monkeypatch, (2.0, 1.5), 1) == pytest.approx(2.0)
    assert beyond(monkeypatch, (2.0, 1.5), 2) == pytest.approx(2.0 + 0.4 - 3.0)


def test_nothing_is_beyond_where_no_plan_place_or_front_is_known(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert beyond(monkeypatch, None, 1) == 0
    assert beyond(monkeypatch, (4.0, 0.5), 1, plan=None) == 0
    assert beyond(monkeypatch, (4.0, 0.5), 1, poured=0) == 0


def test_along_counts_from_where_the_bay_begins() -> None:
    bay = replace(TWO_BAYS.floor[0], offset_m=2.5)
    moved: Any = SimpleNamespace(fill=SimpleNamespace(from_m=-4.0), offset_m=2.5)
    assert along_m(TWO_BAYS, bay, (3.0, 7.0)) == pytest.approx(5.5)
    assert along_m(TWO_BAYS, moved, (3.0, 7.0)) == pytest.approx(9.5)


def test_on_a_floor_of_twelve_metres_six_bags_are_a_front_of_less_than_two() -> None:
    """3.36 bags to a metre: the points of column A, at 1 m, are poured, those of C, at 5 m, not."""
    floor = pouring()
    assert beyond_front_m(floor.job, "C1") == 0
    batches(floor, 3)
    job: Job = floor.job
    assert [beyond_front_m(job, name) for name in ("A1", "C1")] == pytest.approx(
        [1 - 6 / 3.36, 5 - 6 / 3.36], abs=0.02
    )
