"""How sure the volume is, what to order, and where to read next."""

from __future__ import annotations

import json
from decimal import Decimal

import pytest
from scipy.special import ndtr

from assistant.floor.heights import reading_sd_mm, survey_of
from assistant.floor.interval import volume_of
from assistant.floor.order import further_bags, interval_of, order_at
from tests.job.conftest import Site
from tests.there import there

FLOOR = ("room 12 by 8 metres", "grid 2 metres", "product example standard")
ROWS = tuple(
    f"{column}{row} -{14 + (3 * ord(column) + 5 * row) % 5}"
    for row in (1, 2, 3, 4)
    for column in "ABCDEF"
)


def test_the_tally_says_how_sure_it_is(site: type[Site]) -> None:
    floor = site(*FLOOR, *ROWS)
    tally = floor.told("tally").data["tally"]
    low, high = tally["volume_m3_interval"]
    assert low < tally["volume_m3"] < high
    assert low < tally["volume_m3_likeliest"] < high
    assert tally["bags_interval"][0] <= tally["bags"] <= tally["bags_interval"][1]
    # 95 % of a normal distribution lies within 1.96 standard deviations
    assert high - low == pytest.approx(2 * 1.96 * tally["mean_sd_mm"] / 1000 * 96, rel=0.2)
    first, last = tally["bags_interval"]
    assert f"{tally['bags']} bags, {first} to {last}." in floor.reply.headline
    json.dumps(floor.reply.data, allow_nan=False)


def test_more_readings_make_it_surer(site: type[Site]) -> None:
    few, many = site(*FLOOR, *ROWS[::3]), site(*FLOOR, *ROWS)
    wide = few.told("tally").data["tally"]["volume_m3_interval"]
    narrow = many.told("tally").data["tally"]["volume_m3_interval"]
    assert narrow[1] - narrow[0] < wide[1] - wide[0]


def test_with_few_points_it_says_why_it_does_not_know(site: type[Site]) -> None:
    tally = site(*FLOOR, *ROWS[:4]).told("tally").data["tally"]
    assert tally["volume_m3_interval"] is None
    assert tally["bags_interval"] is None
    assert tally["mean_sd_mm"] is None
    assert "takes 5 points on the floor; 4 so far" in tally["interval_reason"]
    nowhere = site("A1 -18", "B1 -18").told("tally").data["tally"]
    assert "needs the room" in nowhere["interval_reason"]


def test_without_a_product_there_are_no_bags_to_be_sure_of(site: type[Site]) -> None:
    floor = site("room 12 by 8 metres", "grid 2 metres", *ROWS)
    tally = floor.told("tally").data["tally"]
    assert tally["bags_interval"] is None
    assert tally["volume_m3_interval"] is not None
    assert "product" in floor.refused("order").lower()


def test_a_reading_does_not_wait_for_the_interval(site: type[Site]) -> None:
    floor = site(*FLOOR, *ROWS)
    assert not [name for name in floor.job.kept if "ordering" in name or "sureness" in name]


def test_an_instrument_that_is_worse_is_less_sure(site: type[Site]) -> None:
    fine, coarse = site(*FLOOR, *ROWS), site(*FLOOR, "instrument repeatability 6 mm", *ROWS)
    one, other = interval_of(fine.job), interval_of(coarse.job)
    assert one is not None
    assert other is not None
    assert other.mean_sd_mm > one.mean_sd_mm


def test_a_second_zero_is_common_to_all_read_from_it(site: type[Site]) -> None:
    """A tie is a reading like any other; its error does not go away with more points."""
    plain = site(*FLOOR, *ROWS)
    tied = site(*FLOOR, *ROWS[:6], "new set up", f"tie on A1 {ROWS[0].split()[1]}", *ROWS[6:])
    one, other = interval_of(plain.job), interval_of(tied.job)
    assert one is not None
    assert other is not None
    assert other.mean_sd_mm > one.mean_sd_mm + 0.2


def test_a_chain_of_set_ups_hands_its_errors_on(site: type[Site]) -> None:
    """Three zeros tied one to the next are as unsure as their ties together, not each alone."""
    read = dict(line.split() for line in ROWS)
    lines = list(FLOOR)
    for number, columns in enumerate(("AB", "CD", "EF")):
        if number:
            before = f"{'ABCD'[2 * number - 1]}1"
            lines += ["new set up", f"tie on {before} {read[before]}"]
        lines += [f"{name} {value}" for name, value in read.items() if name[0] in columns]
    chained = site(*lines)
    survey = survey_of(chained.job)
    # Exact arithmetic: a tie is two readings, so each zero adds twice a reading's variance.
    sd = reading_sd_mm(chained.job)
    assert survey.shared_mm["A2"] == pytest.approx((0, 0))
    assert survey.shared_mm["D2"] == pytest.approx((2**0.5 * sd, 0), abs=1e-5)
    assert survey.shared_mm["F2"] == pytest.approx((2**0.5 * sd, 2**0.5 * sd), abs=1e-5)
    assert survey.own_sd_mm["F2"] == pytest.approx(sd)
    # Read twice, and half a reading's variance its own.
    assert survey.own_sd_mm["B1"] == pytest.approx(sd / 2**0.5)
    # By hand: with a third of the floor to each set-up the mean depth is unsure by
    # sqrt((2/3)² + (1/3)²) of 1.5 mm at least, were nothing but the zeros unsure; the floor's
    # being one piece takes some of it off again.
    found, plain = interval_of(chained.job), interval_of(site(*FLOOR, *ROWS).job)
    assert found is not None
    assert plain is not None
    assert 0.7 < (found.mean_sd_mm**2 - plain.mean_sd_mm**2) ** 0.5 / (2**0.5 * sd) / 0.745 <= 1.02


# --- order --------------------------------------------------------------------------------


def test_order_for_a_risk(site: type[Site]) -> None:
    floor = site(*FLOOR, *ROWS)
    usual = floor.told("order").data["order"]
    assert usual["risk_percent"] == 5
    shy = floor.told("order risk 1 percent").data["order"]["bags"]
    bold = floor.told("order risk 40 percent").data["order"]["bags"]
    assert bold < usual["bags"] < shy or bold <= usual["bags"] <= shy
    assert shy > bold
    low, high = usual["bags_interval"]
    assert low <= usual["bags"] <= high
    risks = [row["risk_percent"] for row in usual["further"]]
    assert risks == sorted(risks, reverse=True)
    own = next(row for row in usual["further"] if row["bags"] == usual["bags"])
    assert own["risk_percent"] <= 5
    assert "1 time in 20" in floor.told("order").headline


@pytest.mark.parametrize("waste", [0, 10, 25])
def test_waste_is_part_of_the_risk(site: type[Site], waste: int) -> None:
    """What is spilled does not reach the floor, so it takes part in running short."""
    floor = site(*FLOOR, *ROWS, f"waste {waste} percent")
    volume, one = there(volume_of(floor.job)), there(floor.job.card).mix(0).yield_m3
    rows = floor.told("order").data["order"]["further"]
    assert len(rows) > 2
    for row in rows:
        # By hand: of the bags' yield a part of 1 / (1 + waste) reaches the floor; the volume is
        # about normal, with this mean and standard deviation.
        reaches = row["bags"] * one / (1 + waste / 100)
        short = 100 * (1 - ndtr((reaches - volume.mean_m3) / volume.sd_m3))
        assert row["risk_percent"] == pytest.approx(short, abs=1)


def test_an_order_is_the_fewest_bags_for_its_risk(site: type[Site]) -> None:
    """Waste included: one bag less would run short oftener than was said."""
    for waste in (0, 10, 25):
        floor = site(*FLOOR, *ROWS, f"waste {waste} percent")
        for risk in (1, 5, 20, 40):
            order = order_at(floor.job, Decimal(risk))
            assert order.risk_percent <= risk
            fewer = {row.bags: row for row in further_bags(floor.job, order.bags - 1)}
            assert fewer[order.bags - 1].risk_percent > risk


def test_the_interval_in_bags_has_the_waste_in_it(site: type[Site]) -> None:
    plain, more = site(*FLOOR, *ROWS, "waste 0 percent"), site(*FLOOR, *ROWS, "waste 25 percent")
    one, other = there(interval_of(plain.job)), there(interval_of(more.job))
    assert one.volume_m3 == other.volume_m3
    # Exact arithmetic, to the bag that both are rounded up to.
    for few, many in zip(there(one.bags), there(other.bags), strict=True):
        assert many == pytest.approx(1.25 * few, abs=1.26)
        assert many > few


@pytest.mark.parametrize("line", ["order risk 0 percent", "order risk 60 percent"])
def test_a_risk_nobody_can_mean(site: type[Site], line: str) -> None:
    assert "from 0.1 to 50" in site(*FLOOR, *ROWS).refused(line)


def test_too_few_points_to_order_by(site: type[Site]) -> None:
    assert "takes 5 points" in site(*FLOOR, *ROWS[:3]).refused("order")


# --- hidden high spots ---------------------------------------------------------------------


def test_a_deep_pour_hides_nothing(site: type[Site]) -> None:
    reply = site(*FLOOR, "finish 20 mm above zero", *ROWS).told("hidden high spots")
    assert reply.data["hidden"]["chance"] < 0.01
    assert "hardly" in reply.say


def test_a_thin_pour_may_hide_something(site: type[Site]) -> None:
    """5 mm on average where 3 mm is the least."""
    reply = site(*FLOOR, "finish 11 mm below zero", *ROWS).told("hidden high spots")
    hidden = reply.data["hidden"]
    assert hidden["min_depth_mm"] == 3
    assert hidden["chance"] > 0.3
    place = hidden["places"][0]
    assert 0 <= place["x_m"] <= 12
    assert 0 <= place["y_m"] <= 8
    assert reply.tables[0].rows


# --- where next, and enough ---------------------------------------------------------------


def test_where_next_names_the_points_that_are_left(site: type[Site]) -> None:
    floor = site(*FLOOR, *(line for line in ROWS if line[0] in "ABC"))
    reply = floor.told("where next")
    points = [place["point"] for place in reply.data["next"]]
    assert len(points) == 3
    assert all(point[0] in "DEF" for point in points)
    # the far end tells more than what lies beside points that were read
    assert points[0][0] in "EF"
    assert reply.headline == f"Read next: {points[0]}."


def test_near_a_door_comes_first(site: type[Site]) -> None:
    read = [line for line in ROWS if not line.startswith(("A4", "F1"))]
    for door, point in (("A4", "A4"), ("F1", "F1")):
        floor = site(*FLOOR, *read, f"door 1 at {door}")
        assert floor.told("where next").data["next"][0]["point"] == point


def test_when_all_are_read_it_is_a_place(site: type[Site]) -> None:
    floor = site(*FLOOR, *ROWS, "door 1 at A1")
    reply = floor.told("where next")
    place = reply.data["next"][0]
    assert place["point"] is None
    assert "from the left wall" in reply.headline
    assert "from the door" in reply.headline
    assert "metres from the left wall" in reply.say


def test_with_few_points_it_is_the_next_in_the_walk(site: type[Site]) -> None:
    reply = site(*FLOOR, *ROWS[:2]).told("where next")
    assert [place["point"] for place in reply.data["next"]] == ["C1"]


def test_enough_or_not(site: type[Site]) -> None:
    sparse = site(*FLOOR, *ROWS[:6])
    assert sparse.told("enough").data["enough"] is False
    assert sparse.reply.say.startswith("Not yet.")
    full = site(*FLOOR, *ROWS)
    assert full.told("enough").data["enough"] is True
    assert full.reply.headline.startswith("Enough for the order")


def test_asks_about_nothing_are_refused(site: type[Site]) -> None:
    for line in ("order", "hidden high spots", "enough"):
        assert site(*FLOOR).refused(line)
    assert "The room first" in site().refused("where next")
