"""Numbers of a pour from stand-ins for a job and a plan, so that each is seen by itself."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.floor.pour import progress as pour_progress
from assistant.floor.pour import stock as pour_stock
from assistant.floor.pour.progress import (
    _first_times,
    _strip_at,
    behind_min,
    edge_due,
    laid_at,
    strip_start_bags,
)
from assistant.floor.pour.short import _edge_before
from assistant.floor.pour.stock import (
    Stock,
    _at_hand,
    _forecast,
    _till,
    expected_of,
    product_at,
    ratio_of_rest,
    stocks_of,
)
from assistant.pours.forecast import Expected, forecast

NOON = datetime(2026, 5, 4, 12, tzinfo=UTC)


def job_of(*batches: tuple[float, int], fronts: tuple[Any, ...] = (), card: Any = None) -> Any:
    """Batches at so many minutes, of so many bags."""
    poured = [
        SimpleNamespace(time=NOON + timedelta(minutes=at), bags=bags, crew={})
        for at, bags in batches
    ]
    pour = SimpleNamespace(
        batches=poured, bags_used=sum(bags for _, bags in batches), fronts=fronts, stopped=None,
        started=NOON, worked=lambda since, until: until - since,
    )  # fmt: skip
    site = SimpleNamespace(clocks=())
    return SimpleNamespace(pour=pour, card=card, site=site, slab=None, finished=None)


def plan_of(*bags: float, waits: tuple[bool, ...] | None = None) -> Any:
    """A plan of strips of a metre; those that wait are all but the last where nobody says."""
    wait = waits or (*[True] * (len(bags) - 1), False)
    strips = [
        SimpleNamespace(
            number=number, planned_bags=each, from_m=number - 1.0, bay=1,
            strip=SimpleNamespace(edge_limit_min=17.0, edge_wait_min=5.0 if waits_ else None),
        )
        for number, (each, waits_) in enumerate(zip(bags, wait, strict=True), start=1)
    ]  # fmt: skip
    return SimpleNamespace(strips=tuple(strips), bays=1, bags=sum(bags), edge_limit_min=15.0,
                           whole=SimpleNamespace(volume_m3=2.0))  # fmt: skip


def minutes(at: datetime | None) -> float | None:
    return None if at is None else (at - NOON).total_seconds() / 60


def test_what_is_expected_of_a_pour(monkeypatch: pytest.MonkeyPatch) -> None:
    """A yield 5 % off, and 10 % of the volume where no interval is known."""
    monkeypatch.setattr(pour_stock, "while_unchanged", lambda _job, _name, work_out: work_out())
    for sd_m3, between in ((None, 0.10), (0.3, 0.15), (0.0, 0.0)):
        volume = None if sd_m3 is None else SimpleNamespace(sd_m3=sd_m3)
        monkeypatch.setattr(pour_stock, "volume_of", lambda _job, volume=volume: volume)
        found = expected_of(job_of(), plan_of(4, 4))
        assert found.ratio_sd == pytest.approx((0.05**2 + between**2) ** 0.5), sd_m3


def test_times_of_what_lies_past_so_many_bags() -> None:
    job = job_of((3, 2), (6, 2), (10, 4))
    for bags, at in ((0, 3), (1, 4.5), (2, 6), (3, 8), (4, 10), (9, 10)):
        assert minutes(laid_at(job, bags)) == pytest.approx(at), bags


def test_when_a_strip_was_begun_and_the_one_before_beside_it() -> None:
    """Two bags every two minutes; strips of four, four and half a bag."""
    plan = plan_of(4, 4, 0.5)
    for count, number, begun, beside in (
        (1, 1, 0, 0), (2, 1, 0, 0), (2, 2, None, 0), (3, 2, 4, 2), (4, 2, 4, 4), (6, 2, 4, 4),
        (4, 3, None, 4), (5, 3, 8, 8), (1, 2, None, 0),
    ):  # fmt: skip
        job = job_of(*[(2.0 * n, 2) for n in range(count)])
        one, other = _first_times(job, plan, plan.strips[number - 1])
        assert (minutes(one), minutes(other)) == (begun, beside), (count, number)


def test_a_strip_is_begun_with_its_first_bag() -> None:
    plan = plan_of(4, 4)
    begun, _ = _first_times(job_of((0, 4), (2, 1)), plan, plan.strips[1])
    assert minutes(begun) == 2
    not_yet, _ = _first_times(job_of((0, 4)), plan, plan.strips[1])
    assert not_yet is None


def test_the_last_edge_that_is_reached_and_was_not_before() -> None:
    """Strips of four bags, each a metre wide."""
    strips: Any = [SimpleNamespace(planned_bags=4.0, to_m=float(at)) for at in (1, 2, 3)]
    for poured, reached, edge in (
        (0, 3.2, None), (0, 4, 1), (0, 7.9, 1), (0, 8, 2), (3.5, 4.2, 1), (4, 7.9, None), (4, 8, 2),
        (4, 99, 3), (12, 99, None),
    ):  # fmt: skip
        plan: Any = SimpleNamespace(strips=strips)
        assert _edge_before(plan, poured, reached) == edge, (poured, reached)


def test_where_strips_begin_by_bags() -> None:
    from assistant.events.pour import StripPoured

    done = SimpleNamespace(at=StripPoured(1, 1.0), bags_used=7)
    plan = plan_of(4, 5, 6)
    for fronts, starts in (((), [0, 4, 9]), ((done,), [0, 7, 9])):
        job = job_of((0, 20), fronts=fronts)
        assert [strip_start_bags(job, plan, each) for each in plan.strips] == starts


def test_which_edge_is_due_first() -> None:
    """Two bags every two minutes, strips of four: an edge waits 17 minutes."""
    plan = plan_of(4, 4, 4)
    for count, number, due in ((1, 1, 17), (3, 2, 17 + 2), (5, 3, 17 + 6), (2, 1, 17)):
        job = job_of(*[(2.0 * n, 2) for n in range(count)])
        found = edge_due(job, plan, plan.strips[number - 1])
        assert minutes(found) == pytest.approx(due), (count, number)
    still = plan_of(4, 4, 4, waits=(False, False, False))
    assert edge_due(job_of((0, 2), (2, 2), (4, 2)), still, still.strips[1]) is None
    own = plan_of(4, 4, 4, waits=(False, True, False))
    found = edge_due(job_of((0, 2), (2, 2), (4, 2)), own, own.strips[1])
    assert minutes(found) == pytest.approx(4 + 17)
    assert edge_due(job_of(), plan, plan.strips[0]) is None
    card: Any = SimpleNamespace(working_time_min=20.0, mixing_min=3.0, slaking_min=None)
    for plan_, card_, wait in (
        (None, card, 17.0),
        (None, None, None),
        (plan, card, 15.0),
        (plan, None, 15.0),
    ):
        found = edge_due(job_of((0, 2), (6, 2), card=card_), plan_, None)
        assert minutes(found) == (None if wait is None else 6 + wait)


def test_minutes_behind(monkeypatch: pytest.MonkeyPatch) -> None:
    """Half a bag a minute: four bags since the first batch are eight minutes' work."""
    placing: Any = SimpleNamespace(bags_per_min=0.5)
    job = job_of((0, 2), (3, 2), (5, 2))
    for found, at, behind in (
        (placing, 10, 2),
        (placing, 8, 0),
        (placing, 5, -3),
        (None, 10, None),
    ):
        monkeypatch.setattr(pour_progress, "placing_of", lambda _job, found=found: found)
        assert behind_min(job, NOON + timedelta(minutes=at)) == behind
    monkeypatch.setattr(pour_progress, "placing_of", lambda _job: placing)
    assert behind_min(job_of((0, 2)), NOON) is None
    two = behind_min(job_of((0, 2), (1, 4)), NOON + timedelta(minutes=9))
    assert two == 1
    job.pour.started = None
    assert behind_min(job, NOON) is None


def part(planned: float, used: int, lost: bool | None = None, beyond: int = 0) -> Any:
    return SimpleNamespace(planned_bags=planned, used_bags=used, lost=lost, beyond=beyond)


def test_the_forecast_takes_parts_as_they_were_told(monkeypatch: pytest.MonkeyPatch) -> None:
    expected = Expected(0.1)
    monkeypatch.setattr(pour_stock, "expected_of", lambda _job, _plan: expected)
    for plan, parts, strip in (
        (plan_of(10, 10, 10, 10), (), 10), (plan_of(10, 10, 10, 10), (part(10, 12),), 10),
        (plan_of(10, 10, 10, 10), (part(10, 18, True), part(10, 11, False, 2)), 10),
        (plan_of(20, 20), (part(20, 25),), 10),  # at least four, however few it has
        (plan_of(8, 8, 8, 8, 8), (part(8, 9),), 8), (plan_of(20, 20), (part(40, 41),), 10),
    ):  # fmt: skip
        used = sum(each.used_bags for each in parts)
        found = _forecast(job_of(), plan, parts, 40, used)
        said = {True: 1.0, False: -1.0, None: 0.0}
        planned = [each.planned_bags for each in parts]
        straight = forecast(
            planned, [float(each.used_bags) for each in parts], 40 - sum(planned), expected,
            lost=[said[each.lost] for each in parts], part=strip,
            beyond=[float(each.beyond) for each in parts],
        )  # fmt: skip
        assert float(found.mean) == pytest.approx(float(straight.mean)), parts
        assert float(found.sd) == pytest.approx(float(straight.sd)), parts


def test_more_than_all_the_rest_was_to_take_is_a_part(monkeypatch: pytest.MonkeyPatch) -> None:
    expected = Expected(0.1)
    monkeypatch.setattr(pour_stock, "expected_of", lambda _job, _plan: expected)
    found = _forecast(job_of(), plan_of(10, 10, 10, 10), (part(20, 20),), 40, 60)
    straight = forecast([20, 20], [20.0, 40.0], 0.0, expected, lost=[0.0, -1.0], part=10,
                        beyond=[0.0, 0.0])  # fmt: skip
    assert float(found.mean) == pytest.approx(float(straight.mean))
    assert float(found.sd) == pytest.approx(float(straight.sd))


def test_one_bag_comes_to_what_is_expected_of_the_rest() -> None:
    one: Any = (part(10, 9),)
    for ratio, left, parts, come_to in (
        (0.9, 20.0, one, 0.9), (0.1, 20.0, one, 0.2), (0.9, 0.0, one, 1), (0.9, 0.5, one, 0.9),
        (0.9, 20.0, (), 1), (0.9, -1.0, one, 1),
    ):  # fmt: skip
        seen: Any = SimpleNamespace(ratio=ratio)
        assert ratio_of_rest(seen, parts, left) == come_to
    assert ratio_of_rest(None, one, 20.0) == 1


def of_products(*bays: tuple[str, float]) -> Any:
    """A plan of bays, each of a product and so many bags."""
    floor = [SimpleNamespace(bags=bags, alike=SimpleNamespace(card=SimpleNamespace(name=name)))
             for name, bags in bays]  # fmt: skip

    def bay_with(planned: float) -> Any:
        before = 0.0
        for bay in floor:
            before += bay.bags
            if planned < before:
                return bay
        return floor[-1]

    names = tuple(dict.fromkeys(name for name, _ in bays))
    return SimpleNamespace(floor=floor, bay_with=bay_with, products=names, strips=(),
                           bags=sum(bags for _, bags in bays))  # fmt: skip


def made(product: str, planned: float, used: int) -> Any:
    return SimpleNamespace(
        product=product, planned_bags=planned, used_bags=used, lost=None, beyond=0
    )


def test_bags_at_hand_are_of_the_product_that_was_poured_when_they_were_counted() -> None:
    """Ten bags of deep, twenty of thin; twelve used of the first until its end."""
    plan = of_products(("deep", 10.2), ("thin", 20.0))
    deep, thin = made("deep", 10.2, 12), made("thin", 8.0, 9)
    for counted, parts, of_deep, of_thin in (
        (None, (), (11, False), (20, False)), ((5, 0), (), (5, True), (20, False)),
        ((5, 3), (), (8, True), (20, False)), ((9, 12), (deep,), (11, False), (9, True)),
        ((9, 15), (deep,), (11, False), (12, True)),
        ((4, 21), (deep, thin), (11, False), (13, True)),
        ((5, 11), (deep,), (16, True), (20, False)),
    ):  # fmt: skip
        told = None if counted is None else SimpleNamespace(left=counted[0], used=counted[1])
        job: Any = SimpleNamespace(pour=SimpleNamespace(counted=told))
        assert _at_hand(job, plan, parts, "deep") == of_deep, (counted, parts)
        assert _at_hand(job, plan, parts, "thin") == of_thin, (counted, parts)
    one: Any = SimpleNamespace(pour=SimpleNamespace(counted=SimpleNamespace(left=5, used=3)))
    assert _at_hand(one, of_products(("deep", 10.2)), (), "deep") == (8, True)
    assert [product_at(plan, at) for at in (0, 10, 10.3, 99)] == ["deep", "deep", "thin", "thin"]
    for used, count in ((0, 0), (11, 0), (12, 1), (20, 1), (21, 2)):
        assert len(_till((deep, thin), SimpleNamespace(used=used))) == count, used  # type: ignore[arg-type]


def test_bags_since_the_last_front_are_of_the_product_that_is_poured(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(pour_stock, "expected_of", lambda _job, _plan: Expected(0.1))
    plan = of_products(("deep", 10.0), ("thin", 20.0), ("deep", 5.0))
    for parts, used, of_deep, of_thin in (
        ((), 4, 4, 0), ((made("deep", 10.0, 12),), 15, 12, 3),
        ((made("deep", 10.0, 12), made("thin", 20.0, 19)), 33, 14, 19),
    ):  # fmt: skip
        pour = SimpleNamespace(bags_used=used, counted=None)
        job: Any = SimpleNamespace(pour=pour)
        deep, thin = stocks_of(job, plan, parts)
        assert (deep.product, deep.used, deep.planned) == ("deep", of_deep, 15.0)
        assert (thin.product, thin.used, thin.planned) == ("thin", of_thin, 20.0)
        assert deep.since == of_deep - sum(p.used_bags for p in parts if p.product == "deep")
        assert (deep.counted, deep.at_hand, thin.at_hand) == (False, 15, 20)
        assert deep.left == 15 - of_deep


def test_what_a_stock_says_of_its_bags() -> None:
    seen: Any = SimpleNamespace(
        short=lambda bags: bags < 40, chance_short=lambda bags: 0.9 if bags < 40 else 0.1,
        front_tells=lambda bags: bags < 40, ratio=0.9,
    )  # fmt: skip
    part_: Any = made("deep", 10.0, 12)
    for at_hand, used, parts, short, chance, left, tells in (
        (39, 12, (part_,), True, 0.9, 27, True), (40, 12, (part_,), False, 0.1, 28, False),
        (None, 12, (part_,), False, None, None, False), (39, 13, (part_,), True, 0.9, 26, False),
        (39, 0, (), True, 0.9, 39, False), (9, 12, (part_,), True, 0.9, 0, True),
    ):  # fmt: skip
        stock = Stock("deep", used, 30.0, parts, seen, at_hand, counted=True)
        assert (stock.short, stock.short_probability, stock.left) == (short, chance, left)
        assert stock.front_tells is tells, (at_hand, used)
    assert Stock("deep", 12, 30.0, (part_,), seen, 40, counted=True).ratio == 0.9
    assert Stock("deep", 12, 10.0, (part_,), seen, 40, counted=True).ratio == 1.0


def test_the_strip_that_is_poured() -> None:
    plan = plan_of(6, 4, 6)
    for planned, done, number in (
        (0, 0, 1), (5.9, 0, 1), (6, 0, 2), (10, 0, 3), (99, 0, 3), (2, 6, 2), (2, 10, 3), (2, 5, 1)
    ):  # fmt: skip
        found = _strip_at(plan, planned, (part(done, 4),))
        assert found is not None
        assert found.number == number, (planned, done)
    assert _strip_at(SimpleNamespace(strips=()), 3, ()) is None  # type: ignore[arg-type]
