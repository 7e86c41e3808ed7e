"""The product and what to order: bags, water, primer, weight."""

from __future__ import annotations

import pytest

from assistant.events.material import ProductChosen
from tests.job.conftest import Site
from tests.there import there


def flat(depth_mm: int | str, room: str) -> tuple[str, ...]:
    """A floor of one depth everywhere."""
    return (f"room {room}", "grid 2 metres", f"A1 -{depth_mm}")


def test_a_product_is_told_with_its_depths_and_the_waste_that_is_assumed(site: type[Site]) -> None:
    reply = site().told("product example standard")
    assert reply.headline == "Product example standard: 3 mm to 30 mm deep."
    assert "Waste 5 % assumed; to set it: waste 7 percent." in reply.details


def test_the_whole_card_is_in_the_record(site: type[Site]) -> None:
    floor = site("product example standard")
    event = floor.job.history[-1].events[0]
    assert isinstance(event, ProductChosen)
    assert event.card["bag_kg"] == 25
    assert floor.job.card == floor.world.cards["example standard"]


def test_a_product_that_is_not_at_hand_is_refused_with_those_that_are(site: type[Site]) -> None:
    assert "example gypsum" in site().refused("product harbour grade")


def test_the_safety_words_come_with_the_first_product_only(site: type[Site]) -> None:
    floor = site()
    first = {caution.id for caution in floor.told("product example standard").cautions}
    assert {"lifting", "wet-cement"} <= first
    assert floor.told("product example deep fill").cautions == ()


@pytest.mark.parametrize(
    ("room", "waste", "bags"),
    [
        # 15 L bags (25 kg + 5 L at 2000 kg/m³): check values, exact arithmetic
        ("20 by 5 metres", 0, 67),
        ("20 by 5 metres", 5, 70),  # exactly 70.0: float noise must not make it 71
        ("20 by 5 metres", 10, 74),
        ("10 by 3.54 metres", 0, 24),
        ("10 by 3.54 metres", 5, 25),
        ("10 by 3.54 metres", 10, 26),
    ],
)
def test_bags_are_rounded_up_and_safe_against_float_noise(
    site: type[Site], room: str, waste: int, bags: int
) -> None:
    floor = site(*flat(10, room), "product example standard", f"waste {waste} percent")
    assert there(floor.tally.material).bags == bags
    assert floor.reply.headline == f"Waste {waste} %. {bags} bags."


def test_water_primer_and_pallets_go_with_the_bags(site: type[Site]) -> None:
    floor = site(*flat(10, "20 by 5 metres"), "product example standard", "waste 5 percent")
    made = there(floor.tally.material)
    # 70 bags at 4.75 to 5.25 L; 100 m² at 8 m²/L; 42 to a pallet (exact arithmetic)
    assert made.water_l == pytest.approx((332.5, 367.5))
    assert made.primer_l == pytest.approx(12.5)
    assert made.pallets == 2


def test_weight_is_told_both_ways_and_never_as_enough(site: type[Site]) -> None:
    floor = site(*flat(25, "20 by 5 metres"), "product example standard")
    reply = floor.told("weight")
    # 25 mm at 2000 kg/m³ is 50 kg/m², 10.241 lb/ft² (check values)
    assert reply.data["weight"]["mean_kg_per_m2"] == pytest.approx(50)
    assert reply.data["weight"]["mean_lb_per_ft2"] == pytest.approx(10.241, abs=5e-4)
    assert floor.ids == ["weight"]
    assert "structural engineer" in " ".join(reply.details)


def test_weight_without_what_it_takes_is_refused(site: type[Site]) -> None:
    assert site().refused("weight") == "No weight yet: it takes a room, readings and a product."


def test_waste_has_its_bounds(site: type[Site]) -> None:
    assert "from 0 to 100 percent" in site().refused("waste 101 percent")
    assert site().told("waste 100 percent").headline == "Waste 100 %."


# --- aggregate -------------------------------------------------------------------------------


def test_aggregate_makes_the_bag_go_further(site: type[Site]) -> None:
    floor = site(*flat(10, "20 by 5 metres"), "product example standard", "waste 0 percent")
    floor.told("aggregate 50 percent")
    # 15 L + 12.5 kg at 2650 kg/m³ = 19.717 L a bag (check values); 1000 L is 51 bags
    assert there(floor.tally.material).bags == 51
    assert there(floor.tally.material).aggregate_kg == pytest.approx(51 * 12.5)
    assert floor.told("no aggregate").headline == "Poured neat, no aggregate. 67 bags."


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        ((), "The product first"),
        (("product example gypsum",), "allows no aggregate"),
        (("product example standard",), "up to 50 %"),
    ],
)
def test_aggregate_that_the_card_does_not_allow_is_refused(
    site: type[Site], lines: tuple[str], why: str
) -> None:
    assert why in site(*lines).refused("aggregate 60 percent")


def test_a_product_that_takes_less_aggregate_is_poured_neat_again(site: type[Site]) -> None:
    floor = site("product example deep fill", "aggregate 80 percent")
    reply = floor.told("product example standard")
    assert floor.job.aggregate_percent == 0
    assert "Poured neat now: this card does not allow 80 % aggregate." in reply.details


def test_with_aggregate_the_deeper_maximum_counts(site: type[Site]) -> None:
    floor = site("product example standard", "A1 -45", "warnings")
    assert "over-maximum:A1" in floor.ids
    floor.told("aggregate 50 percent", "warnings")
    assert "over-maximum:A1" not in floor.ids
    floor.told("A1 -61")
    assert "over-aggregate-maximum:A1" in floor.ids


def test_products_are_listed_with_the_chosen_one_marked(site: type[Site]) -> None:
    reply = site("product example standard").told("products")
    assert reply.tables[0].rows[-2][0] == "example standard *"
    assert len(reply.data["products"]) == 4


def test_weight_is_not_called_out_until_every_point_is_read(site: type[Site]) -> None:
    floor = site("room 2.6 by 0.7 metres", "grid 2 metres", "product example standard")
    assert "weight" not in [w.id for w in floor.told("A1 -25").warnings]
    # It is there for whoever asks, and said once when the mean stands.
    assert "weight" in [w.id for w in floor.told("warnings").warnings]
    assert "weight" in [w.id for w in floor.told("B1 -25").warnings]
    assert "weight" not in [w.id for w in floor.told("B1 -24").warnings]
