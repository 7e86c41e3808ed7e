"""What is looked at with the barrel ready: edge strip, joints, the mix's water and its flow."""

from __future__ import annotations

import pytest

from assistant.site.before_pour import against_pour
from tests.job.conftest import Site

LEVEL = (
    "room 12 by 8 metres", "grid 2 metres", "product example standard", "A1 -6", "F4 -6",
    "crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6", "start at column A",
)  # fmt: skip


def against(floor: Site) -> set[str]:
    return {reason.id for reason in against_pour(floor.job, floor.now)}


def test_the_edge_strip_and_each_joint_stand_against_the_pour_until_they_are_told(
    site: type[Site],
) -> None:
    floor = site(*LEVEL)
    assert "edge-strip" in against(floor)
    assert "joints" not in against(floor)
    assert floor.refused("joints carried through") == "No joint is told: joint A2 to F2."
    floor.told("edge strip in place", "joint A2 to F2")
    assert "edge-strip" not in against(floor)
    assert "joints" in against(floor)
    assert "1 joint carried through" in floor.told("joints carried through").headline
    assert "joints" not in against(floor)
    floor.told("joint A3 to F3")
    told = " ".join(floor.told("start pour").details)
    assert "Joint 2 is not told to be carried through" in told
    assert "then joints carried through" in told


def test_what_else_is_looked_at_is_told_with_what_clears_it(site: type[Site]) -> None:
    floor = site(*LEVEL, "opening 0.2 by 0.2 metres at 3 by 3 metres", "primer on floor")
    told = " ".join(floor.told("start pour").details)
    for what in ("is drying", "Opening 1", "No door has been read", "Not read: the air"):
        assert what in told, what
    assert told.count("To clear it") == len(floor.data["reasons"])


def test_one_figure_of_water_lies_inside_the_card(site: type[Site]) -> None:
    """The card has 4.75 to 5.25 L; 5.3 US quarts of 0.946352946 L are 5.0157 L."""
    floor = site(*LEVEL)
    for line, side in (("water 5.3 litres a bag", "over"), ("water 4.7 litres a bag", "under")):
        assert f"{side} the card's 4.75 to 5.25 L" in floor.refused(line)
        assert floor.refused(line).endswith("For the whole pour: water 5 litres a bag.")
    for line in ("water 4.75 litres a bag", "water 5.25 litres a bag"):
        assert floor.told(line).data["mix_water_l"] in (4.75, 5.25)
    assert floor.told("water 5.3 quarts a bag").data["mix_water_l"] == pytest.approx(5.0157)
    assert "water 5.3 quarts a bag" in site(*LEVEL, "readings in inches").refused(
        "water 5.8 quarts a bag"
    )
    assert site().told("water 9 litres a bag").data["mix_water_l"] == 9  # no card, no range


def test_it_is_told_at_every_mix_aloud_too(site: type[Site]) -> None:
    floor = site(*LEVEL)
    assert "litres" not in floor.told("water in").say
    floor.told("water 5 litres a bag")
    for _ in range(2):
        reply = floor.told("water in")
        assert "Five litres a bag." in reply.say
        assert "Water 5 L a bag." in reply.details
    floor.told("readings in inches")
    assert "quarts a bag." in floor.told("water in").say


def test_a_batch_with_water_in_quarts(site: type[Site]) -> None:
    """6 quarts are 5.678 L, over the card's 5.25."""
    floor = site(*LEVEL, "start pour anyway because this is a test")
    assert floor.told("batch 6 quarts a bag").data["batch"]["water_l"] == pytest.approx(5.6781)
    assert floor.ids == ["water-over"]


def test_the_flow_beside_the_card(site: type[Site]) -> None:
    """The card has 135 to 155 mm; 5 3/4 in are 146.05 mm."""
    floor = site(*LEVEL)
    for line, ids in (
        ("flow 135 millimetres", []), ("flow 155 millimetres", []), ("flow 5 3/4 in", []),
        ("flow 156 millimetres", ["flow-over"]), ("flow 134 millimetres", ["flow-under"]),
    ):  # fmt: skip
        floor.told(line)
        assert floor.ids == ids, line
    assert "No flow test is on the card" in str(
        site(*LEVEL, "product example gypsum").told("flow 145 millimetres").details
    )
    assert "30 to 600 mm" in floor.refused("flow 2 metres")


def test_why_bags_were_left_over_goes_on_record(site: type[Site]) -> None:
    floor = site(*LEVEL)
    assert "Nothing is poured yet" in floor.refused("left over because it was thin")
    floor.told("start pour anyway because this is a test", "batch 20 bags", "batch 18 bags",
               "bags left 3", "front at 12 metres")  # fmt: skip
    told = floor.told("pour finished")
    assert "3 bags left over, as counted." in told.details
    assert told.details[-1].startswith("Why? Left over because")
    reply = floor.told("left over because the corner was ground down")
    assert reply.data["left_over"] == {"bags": 3, "why": "the corner was ground down"}
    assert "because “the corner was ground down”" in " ".join(reply.details)


def test_after_the_pour_the_card_says_when_it_is_covered_and_heated(site: type[Site]) -> None:
    """24 hours and 168 on the card, from a clock that stands at the same minute each time."""
    floor = site(*LEVEL)
    told = " ".join(floor.told("pour finished").details)
    assert "Covered not before" in told
    assert "Heating in the floor warmed up from" in told
    floor.wait(60)
    rows = {row[0]: row[2] for row in floor.told("clocks").tables[0].rows}
    assert rows["covering"] == "23 hours"
    assert rows["heating"] == "167 hours"
    other = site(*LEVEL, "product example gypsum").told("pour finished")
    assert "The card does not say of covering or heating" in " ".join(other.details)


def test_a_pour_finished_without_a_batch_is_finished(site: type[Site]) -> None:
    reply = site(*LEVEL).told("pour finished")
    assert "left over" not in " ".join(reply.details)
    assert reply.tables == ()
