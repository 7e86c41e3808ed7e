"""The plan of a pour, as it is asked for."""

from __future__ import annotations

from itertools import combinations, pairwise
from typing import Any

import pytest

from assistant.events.pour import PumpSet
from assistant.floor.tally import tally_of
from tests.job.conftest import Site

LEVEL = ("room 12 by 8 metres", "grid 2 metres", "product example standard", "A1 -6")
WALLS = (
    "wall east 12 metres", "wall north 8 metres", "wall west 12 metres", "wall south 8 metres",
    "close room", "grid 2 metres", "product example standard", "A1 -6",
)  # fmt: skip
CREW = ("crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6")


def strips(floor: Site) -> list[dict[str, Any]]:
    floor.told("plan")
    found: list[dict[str, Any]] = floor.data["strips"]
    return found


def test_without_a_rate_it_says_what_it_would_need_and_the_published_one(site: type[Site]) -> None:
    reply = site(*LEVEL).told("plan")
    assert reply.headline == "No plan yet: how fast you place it is not said."
    told = " ".join(reply.details)
    assert "one independent trade article" in told
    assert "139 m² an hour" in told
    assert reply.data["strips"] == reply.data["edge_lost"] == []
    assert reply.data["needs"]["lacks"] == ["mixers 2", "batches of 2 bags", "minutes per batch 6"]


def test_a_level_floor_is_cut_evenly(site: type[Site]) -> None:
    """12 by 8 m, 6 mm: 576 L, 40.32 bags of 15 L with 5 % waste; two mixers of two bags each 6
    minutes are 40 bags an hour, so 60.5 minutes; 17 are left of 20 after mixing. Exact."""
    floor = site(*LEVEL, *CREW)
    found = strips(floor)
    assert len(found) == 4
    assert floor.data["plan"]["minutes"] == pytest.approx(40.32 / 40 * 60)
    assert found[0].keys() >= {
        "id", "from_m", "to_m", "area_m2", "litres", "bags", "batches", "minutes", "start_min",
        "edge_wait_min", "edge_limit_min",
    }  # fmt: skip
    assert [strip["to_m"] for strip in found] == pytest.approx([3, 6, 9, 12])
    assert {strip["edge_limit_min"] for strip in found} == {17}
    assert sum(strip["litres"] for strip in found) == pytest.approx(576)
    tally = tally_of(floor.job)
    assert tally.material is not None
    assert sum(strip["bags"] for strip in found) == tally.material.bags
    assert sum(strip["batches"] for strip in found) == 21
    assert floor.reply.headline == "4 strips, 41 bags, 61 minutes."


def test_a_strip_by_itself(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW)
    reply = floor.told("plan strip 2")
    assert reply.headline == "Strip 2: 3 m to 6 m, 10 bags, 15 minutes."
    assert floor.refused("plan strip 9") == "The plan has 4 strips, not 9."


def test_a_pump_counts_until_mixers_are_told(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW)
    assert "80 bags" in floor.told("pump 80 bags per hour").headline
    assert floor.told("plan").data["plan"]["minutes"] == pytest.approx(40.32 / 80 * 60)
    floor.told("mixers 2")
    assert floor.told("plan").data["plan"]["minutes"] == pytest.approx(40.32 / 40 * 60)


def test_one_of_the_crew_spreads(site: type[Site]) -> None:
    floor = site(*LEVEL, "crew 3", "batches of 2 bags", "minutes per batch 6")
    assert "3 of 4" not in str(floor.told("mixers 2").details)
    assert any("2 of 4 mixers run" in line for line in floor.told("mixers 4").details)
    assert floor.data["placing"]["mixers"] == 2


def test_bays_beside_each_other_say_where_they_lie(site: type[Site]) -> None:
    """A dam along row 2: its points lie on its line, and count to the side that is poured first."""
    floor = site(*LEVEL, *CREW, "start at column A", "dam at row 2")
    order = "strips 1 to 2 at A1 to F2, then strips 3 to 5 at A3 to F4."
    assert f"In this order, with dams between: {order}" in floor.told("plan").details
    across = site(*LEVEL, *CREW, "start at column A", "dam at column C").told("plan")
    assert not any("dams between" in line for line in across.details)


def test_the_plan_shows_which_strips_are_done(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW, "start at column A", "start pour anyway because this is a test")
    waits = [row[-1] for row in floor.told("plan").tables[0].rows]
    assert waits == ["15 min", "15 min", "15 min", "-"]
    for lines, done in ((("batch 10 bags", "strip 1 done"), 1), (("batch 4 bags",), 1),
                        (("front at 5.9 metres",), 1), (("batch 6 bags", "front at 6 metres"), 2),
                        (("batch 20 bags", "strip 4 done"), 4)):  # fmt: skip
        floor.told(*lines)
        rows = floor.told("plan").tables[0].rows
        assert [row[-1] for row in rows] == ["done"] * done + waits[done:], lines
    # with another crew the strips are others, and what lies behind the front is done
    floor = site(*LEVEL, *CREW, "start at column A", "start pour anyway because this is a test",
                 "batch 10 bags", "strip 1 done", "mixers 1", "plan")  # fmt: skip
    assert [row[-1] for row in floor.reply.tables[0].rows][:3] == ["done", "done", "15 min"]


def test_what_if_says_why_another_mixer_alone_changes_nothing(site: type[Site]) -> None:
    floor = site(*LEVEL, "crew 1", "mixers 1", "batches of 2 bags", "minutes per batch 12")
    reply = floor.told("what if mixers 2")
    assert reply.headline == "mixers 2: nothing in the tally or the plan would change."
    idle = "1 of 2 mixer runs, as somebody has to spread: crew 3 would run both."
    assert reply.details[0] == idle
    assert idle not in floor.told("what if mixers 2 and crew 3").details
    part = floor.told("what if mixers 3 and crew 3")
    assert "strips" in part.headline
    assert "2 of 3 mixers run, as somebody has to spread: crew 4 would run all." in part.details
    assert idle in floor.told("mixers 2").details
    assert "mixer" not in str(floor.told("what if raise finish 1 mm").details)


def test_alone_it_says_the_largest_strip_that_stays_wet(site: type[Site]) -> None:
    """One mixer, 20 bags an hour for 17 minutes: 5.667 bags of 14.286 L net, 80.95 L; at 6 mm and
    8 m that is 1.687 m. Exact arithmetic."""
    floor = site(*LEVEL, *CREW)
    floor.told("crew 1")
    reply = floor.told("plan")
    assert reply.data["plan"]["widest_strip_m"] == pytest.approx(1.6865, abs=0.0005)
    assert reply.details[0].startswith("Alone you keep a strip of 1.69 m wet")


def test_the_way_goes_to_the_way_out(site: type[Site]) -> None:
    floor = site(*LEVEL, "door 1 at A2", "way out is door 1", *CREW)
    assert floor.told("plan").data["plan"]["start"] == "column F"
    floor.told("start at column A")
    told = " ".join(floor.told("plan").details)
    assert "The way out lies in strip 1" in told
    assert "strips 2 to 4 would leave over wet floor" in told


def test_a_wall_is_known_by_its_wind_where_walls_were_told(site: type[Site]) -> None:
    floor = site(*WALLS, *CREW, "F1 -12", "A4 -6", "F4 -12")
    floor.told("start at the west wall")
    west = [strip["litres"] / strip["area_m2"] for strip in strips(floor)]
    floor.told("start at the east wall")
    east = [strip["litres"] / strip["area_m2"] for strip in strips(floor)]
    assert west == sorted(west)
    assert east == sorted(east, reverse=True)
    floor.told("start at column F")
    assert [strip["litres"] / strip["area_m2"] for strip in strips(floor)] == east
    assert "Where north is" in site(*LEVEL).refused("start at the north wall")


def test_a_pour_starts_at_an_end(site: type[Site]) -> None:
    floor = site(*LEVEL)
    assert "column A or column F" in floor.refused("start at column C")
    assert "grid" in site("room 12 by 8 metres").refused("start at column A")


def test_deep_floors_lose_edges_and_each_saving_saves(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW, "correct A1 to -46")
    assert strips(floor)
    assert floor.data["edge_lost"]
    assert "LOST" in str(floor.reply.tables)
    saved = {each["change"]: each["size"] for each in floor.data["saved_by"]}
    assert set(saved) == {"mixers", "bays", "days"}
    mixers = round(saved["mixers"])
    floor.told(f"mixers {mixers}", f"crew {mixers + 1}", "plan")
    assert not floor.data["edge_lost"]
    # the least: one fewer would lose edges
    floor.told(f"mixers {mixers - 1}", "plan")
    assert floor.data["edge_lost"]


def test_bays_by_dams_along_the_way_shorten_the_front(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW, "correct A1 to -46")
    floor.told("dam at row 2", "dam at row 3", "plan")
    assert {strip["bay"] for strip in floor.data["strips"]} == {1, 2, 3}
    assert sum(strip["litres"] for strip in floor.data["strips"]) == pytest.approx(96 * 46)
    assert sum(strip["area_m2"] for strip in floor.data["strips"]) == pytest.approx(96)


def test_a_dam_across_ends_a_strip(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW, "dam at 4.5 metres")
    assert 4.5 in [strip["to_m"] for strip in strips(floor)]
    floor.told("no dams", "dam at column C")
    at_dam = [strip for strip in strips(floor) if strip["to_m"] == pytest.approx(5)]
    assert at_dam
    assert at_dam[0]["edge_wait_min"] is None
    assert floor.refused("dam at row 9").startswith("There is no row 9.")
    floor.told("no dams")
    assert floor.refused("no dams") == "There are no dams to take up."


def test_strips_as_wide_as_wished_and_narrower_ones_that_save(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW, "strips 2 metres wide")
    assert max(strip["to_m"] - strip["from_m"] for strip in strips(floor)) <= 2
    assert len(floor.data["strips"]) == 6


def test_what_if_tells_what_becomes_of_the_plan(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW)
    reply = floor.told("what if mixers 1")
    rows = {name: (now, then) for name, now, then in reply.tables[0].rows}
    assert rows["strips"] == ("4", "8")
    assert rows["pouring"] == ("61 minutes", "2 hours 1 minute")
    assert reply.say.startswith("Eight strips")
    assert len(strips(floor)) == 4


def test_bags_stand_on_floor_that_is_still_dry(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW, "way out is door 1")
    reply = floor.told("where do the bags go")
    assert reply.headline == "31 bags inside, each strip's past its far edge; 10 outside door 1."
    staged = reply.data["staging"]
    assert sum(each["bags"] for each in staged) == 41
    assert [each["past_m"] for each in staged] == pytest.approx([3, 6, 9, None])


def test_a_plan_needs_product_room_and_readings(site: type[Site]) -> None:
    assert "product first" in site().refused("plan")
    assert "room" in site("product example standard").refused("plan")
    assert "readings" in site("product example standard", "room 4 by 4 metres").refused("plan")
    high = site("product example standard", "room 4 by 4 metres", "grid 2 metres", "A1 plus 3")
    assert "Nothing is to be poured" in high.refused("plan")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("crew 40", "1 to 20"),
        ("mixers 40", "At most 10"),
        ("batches of 40 bags", "at most 20"),
        ("minutes per batch 90", "60 minutes"),
        ("pump 5000 bags per hour", "2000"),
    ],
)
def test_what_no_crew_has_is_refused(site: type[Site], line: str, told: str) -> None:
    assert told in site().refused(line)


def test_all_of_it_is_undone(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW)
    assert floor.told("take that back").say == "Undone: the minutes per batch."
    assert floor.told("plan").data["strips"] == []


def test_a_dam_lies_at_its_column_where_something_stands_along_the_first_wall(
    site: type[Site],
) -> None:
    """The floor begins at 0.6 m, column C lies at 5 m, 4.4 m from there: exact arithmetic."""
    floor = site(*LEVEL, *CREW, "start at column A", "cabinet 0.6 by 8 m corner at 0 by 0 metres",
                 "dam at column C")  # fmt: skip
    before = [each for each in strips(floor) if each["to_m"] <= 4.4 + 1e-9]
    assert before[-1]["to_m"] == pytest.approx(4.4)
    assert sum(each["area_m2"] for each in before) == pytest.approx(4.4 * 8)


def test_what_if_of_all_that_a_plan_is_made_of(site: type[Site]) -> None:
    floor = site(*LEVEL, *CREW, "door 1 at A2", "correct A1 to -9")
    for line, changes in (
        ("crew 2", "pouring"), ("batches of 3 bags", "pouring"), ("minutes per batch 4", "pouring"),
        ("pump 60 bags per hour", "pouring"), ("way out is door 1", "start"),
        ("start at column F", "start"), ("start at row 4", "start"),
        ("strips 1.5 metres wide", "strips"), ("dam at 4.5 metres", "longest edge wait"),
        ("dam at row 2", "strips"), ("mixers 1 and crew 2", "strips"),
    ):  # fmt: skip
        reply = floor.told(f"what if {line}")
        assert changes in {row[0] for row in reply.tables[0].rows}, line
        assert "Nothing is recorded." in reply.details, line
    assert floor.job.setting(PumpSet) is None


def test_no_other_cut_of_a_small_room_is_better_from_words_to_plan(site: type[Site]) -> None:
    """
    All cuts at whole steps of 5 cm into strips of half a metre and more, of planes 4 m broad.

    A plane's volume between two lines is exact arithmetic, so nothing of the program is used but
    the figures on the card: 15 L a bag less 5 % waste, and an edge that waits 17 minutes.
    """
    for length, near, far, bags_an_hour in ((3.0, 6, 18, 30), (2.6, 20, 8, 40), (3.0, 10, 10, 24)):
        # points at 0.5, 1.5, 2.5 m and so on; a plane is one beyond them too
        slope = (far - near) / length
        lines = [f"room {length:g} by 4 metres", "grid 1 metres starting 0.5 metres",
                 "product example standard"]  # fmt: skip
        columns = "ABC"[: int(length + 0.5)]
        for number, column in enumerate(columns):
            depth = near + slope * (0.5 + number)
            lines += [f"{column}{row} -{depth:.4f} mm" for row in (1, 2, 3, 4)]
        floor = site(*lines, f"pump {bags_an_hour} bags per hour", "start at column A")
        floor.told("plan")
        strips = floor.data["strips"]
        rate = bags_an_hour / 60 * 15 / 1.05

        def minutes(a: float, b: float, near: float = near, slope: float = slope,
                    rate: float = rate) -> float:  # fmt: skip
            return 4 * ((b - a) * near + slope * (b**2 - a**2) / 2) / rate

        best = (99, 1e9)
        steps = round(length / 0.05)
        for count in range(1, 6):
            for inner in combinations(range(1, steps), count - 1):
                cuts = (0, *inner, steps)
                if min(b - a for a, b in pairwise(cuts)) < 10:
                    continue
                waits = [minutes(0.05 * a, 0.05 * b) for a, b in pairwise(cuts)]
                if max(waits) <= 17:
                    best = min(best, (count, round(max(waits), 6)))
            if best[0] == count:
                break
        assert (len(strips), max(strip["minutes"] for strip in strips)) == pytest.approx(
            best, abs=0.01
        ), (length, near, far)
        assert not floor.data["edge_lost"]
