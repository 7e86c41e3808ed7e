"""While it is poured: one word each, and few words back."""

from __future__ import annotations

import pytest

from assistant.floor.pour.progress import progress_of
from tests.job.conftest import Site
from tests.job.pours_going_on import LEVEL, batches, pour, pouring, words


def test_start_says_what_stands_against_it_and_does_not_begin(site: type[Site]) -> None:
    floor = site(*LEVEL)
    reply = floor.told("start pour")
    assert reply.headline.startswith("Not started: ")
    assert any("No primer has been put on" in line for line in reply.details)
    assert all("To clear it" in line for line in reply.details[:3])
    assert floor.job.pour.started is None
    begun = floor.told("start pour anyway because the primer is under the old floor")
    assert floor.job.pour.started is not None
    assert "“the primer is under the old floor”" in " ".join(begun.details)
    assert floor.job.pour.start is not None
    assert any("primer" in each for each in floor.job.pour.start.against)


def test_draught_is_told_and_is_no_limit(site: type[Site]) -> None:
    """Uno's formula at 20 °C and 50 %: 0.0890 in still air; 8 km/h, three times that."""
    floor = site(*LEVEL, "air 20 degrees", "slab 20 degrees", "humidity 50 percent")
    told = " ".join(floor.told("start pour").details)
    assert "0.09 kg/m² an hour in still air, 0.27 in a draught of 8 km/h, each ±40 %" in told


def test_a_batch_says_used_of_planned_front_and_edge(site: type[Site]) -> None:
    floor = pouring(site)
    batches(floor, 1)
    # 2 of 40.32 bags of 12 m; the edge of the strip from now, 17 minutes
    assert floor.reply.headline == "2 of 41; edge 17 min; front 0.6 m."
    batches(floor, 2)
    assert floor.reply.headline == "6 of 41; edge 11 min; front 1.8 m; on time."
    assert pour(floor).keys() == {
        "bags_used", "bags_planned", "front_m", "strip", "wet_edge_min", "forecast_bags",
        "short_probability", "asks", "front_asked",
    }  # fmt: skip
    assert pour(floor)["bags_used"] == 6
    assert pour(floor)["bags_planned"] == pytest.approx(40.32)
    assert pour(floor)["front_m"] == pytest.approx(12 * 6 / 40.32, abs=0.02)
    assert pour(floor)["strip"] == 1
    assert pour(floor)["wet_edge_min"] == pytest.approx(11)
    low, mean, high = pour(floor)["forecast_bags"]
    assert low < 40 < high
    assert mean == pytest.approx(40.32, abs=0.5)
    assert pour(floor)["asks"] is None


def test_replies_while_pouring_have_few_words(site: type[Site]) -> None:
    floor = pouring(site)
    for number in range(19):
        batches(floor, 1, 3.4)
        assert words(floor.reply.headline) <= 12, floor.reply.headline
        assert words(floor.reply.say) <= 12, floor.reply.say
        if number % 5 == 4:
            reply = floor.told(f"strip {number // 5 + 1} done")
            assert words(reply.headline) <= 12, reply.headline
            assert words(reply.say) <= 12, reply.say
    for line in ("bags left 4", "spiked", "stop pour", "pour on"):
        assert words(floor.told(line).headline) <= 12


def test_what_was_poured_by_another_crew_is_held_to_its_own_pace(site: type[Site]) -> None:
    """Two mixers place two bags each 3 minutes, one each 6: who goes home makes nobody early."""
    floor = pouring(site)
    batches(floor, 6)
    floor.told("mixers 1")
    batches(floor, 1, 6)
    assert "on time" in floor.reply.headline
    batches(floor, 1, 8)
    assert "2 min behind" in floor.reply.headline
    floor.told("pump 60 bags per hour")
    batches(floor, 1, 2)  # a bag, which takes it a minute
    assert "17 of 41" in floor.reply.headline
    assert "3 min behind" in floor.reply.headline


def test_in_an_inch_job_ahead_and_behind_fit_too(site: type[Site]) -> None:
    """6 of 40.32 bags of 12 m are 1.79 m, 5.9 ft: where the front should be, to half a foot."""
    floor = pouring(site)
    floor.told("readings in inches")
    batches(floor, 3)
    assert floor.reply.headline == "6 of 41; edge 11 min; front 6 ft; on time."
    batches(floor, 1, 6)
    assert floor.reply.headline == "8 of 41; edge 5 min; front 8 ft; 3 min behind."
    batches(floor, 4)
    assert floor.reply.headline == "16 of 41; edge 5 min; front 15.5 ft; 3 min behind."
    assert words(floor.reply.headline) <= 12
    floor.told("stop pour", "pour on", "strip 1 done")
    batches(floor, 1)
    assert words(floor.reply.headline) <= 12
    assert words(floor.reply.say) <= 12


def test_no_bags_left(site: type[Site]) -> None:
    for line in ("no bags left", "bags left 0", "0 bags left", "out of bags", "the bags are gone"):
        floor = pouring(site, "batch 20 bags", "front at 6 metres")
        reply = floor.told(line)
        assert reply.headline.startswith("0 bags left; SHORT by "), line
        assert floor.told("short").data["short"]["stops_at_m"] == pytest.approx(6, abs=0.01)


def test_bags_that_do_need_no_dam(site: type[Site]) -> None:
    floor = pouring(site, "batch 20 bags", "front at 6 metres", "bags left 60")
    assert floor.told("short").details[1:] == (
        "As expected the bags go to the end.", "With no bag more they do 95 times in 100.",
    )  # fmt: skip
    details = floor.told("bags left 21", "short").details
    assert "As expected the bags go to the end." in details
    assert any("So many more: " in line for line in details)
    assert not any("dam" in line for line in details)


def test_behind_and_ahead(site: type[Site]) -> None:
    floor = pouring(site)
    batches(floor, 5, 4)
    # four batches since the first took 16 minutes instead of 12
    assert "4 min behind" in floor.reply.headline
    assert "Four minutes behind" in floor.reply.say
    quick = pouring(site)
    batches(quick, 5, 2)
    assert "4 min ahead" in quick.reply.headline


def test_the_edge_of_the_strip_before_is_due_first(site: type[Site]) -> None:
    """Strips of five batches, one each 3 minutes: the sixth meets what the first laid, and then
    the second one's edge, laid 12 minutes before, is due first: 5 of 17 are left."""
    floor = pouring(site)
    batches(floor, 5)
    floor.told("strip 1 done")
    batches(floor, 1)
    assert pour(floor)["strip"] == 2
    assert pour(floor)["wet_edge_min"] == pytest.approx(17 - 12, abs=0.2)


def test_fronts_are_learnt_from(site: type[Site]) -> None:
    floor = pouring(site)
    batches(floor, 5)
    reply = floor.told("front at 2.8 metres")
    # 10 bags where 9.41 were planned
    assert "10 bags of 9.4 planned" in " ".join(reply.details)
    assert pour(floor)["forecast_bags"][1] > 41
    batches(floor, 5)
    floor.told("front at column C")
    assert pour(floor)["front_m"] == pytest.approx(5, abs=0.03)
    assert [round(part.to_m, 3) for part in progress_of(floor.job).parts] == [2.8, 5.0]


def test_a_front_goes_forward_and_stays_on_the_floor(site: type[Site]) -> None:
    floor = pouring(site)
    batches(floor, 4)
    floor.told("front at 3 metres")
    assert "was at 3 m already" in floor.refused("front at 2 metres")
    assert "12 m long" in floor.refused("front at 14 metres")
    assert "no column Z" in floor.refused("front at column Z")
    assert "already" in floor.refused("strip 1 done")
    assert "4 strips" in floor.refused("strip 9 done")


def test_bags_left_say_whether_they_do(site: type[Site]) -> None:
    floor = pouring(site)
    batches(floor, 5)
    floor.told("front at 3 metres")
    assert floor.told("bags left 40").data["pour"]["short_probability"] < 0.02
    reply = floor.told("bags left 22")
    assert reply.data["pour"]["short_probability"] > 0.98
    # 30.24 are planned for the rest: 8.24 bags are missing, nine whole ones
    assert reply.headline.startswith("22 bags left; SHORT by 9")
    assert "Short by nine bags." in reply.say


def test_short_says_what_can_still_be_done(site: type[Site]) -> None:
    """Strip 1 as planned; 22 bags are left for the 30.24 of three strips of 3 m, 6 mm deep."""
    floor = pouring(site)
    batches(floor, 5)
    floor.told("front at 3 metres", "bags left 22")
    reply = floor.told("short")
    found = reply.data["short"]
    assert found["from_m"] == pytest.approx(3)
    # 22 of about 30 bags of 9 m; 6 mm less 2 mm leaves 4 of 6 of the volume, 1 mm 5 of 6
    assert found["stops_at_m"] == pytest.approx(3 + 9 * 22 / 30.24, abs=0.2)
    assert found["lower_mm"] == 2
    assert found["least_left_mm"] == pytest.approx(4)
    assert found["dam_m"] == pytest.approx(9)
    assert found["more_bags"] >= 9
    assert "Lower the finish by 2 mm" in " ".join(reply.details)
    assert "Not short" in pouring(site).told("short").headline


def test_short_does_not_lower_the_finish_to_the_floor(site: type[Site]) -> None:
    """Two bags for 40.32: lower by all of the 6 mm would be no pour."""
    floor = pouring(site, "bags left 2")
    reply = floor.told("short")
    assert reply.data["short"]["lower_mm"] == 6
    assert "Lower the finish" not in " ".join(reply.details)
    assert "lower" not in reply.say
    assert "Stop at a dam" in " ".join(reply.details)


def test_water_over_the_card_stops(site: type[Site]) -> None:
    floor = pouring(site)
    floor.wait(3)
    reply = floor.told("batch 5.6 litres a bag")
    assert [warning.id for warning in reply.warnings] == ["water-over"]
    assert "Stop: too much water." in reply.say
    floor.wait(3)
    assert not floor.told("batch 5 litres a bag").warnings
    assert "over the card's" in floor.refused("water 6 litres a bag")
    assert floor.refused("water 60 litres a bag").startswith("A bag takes")


def test_batches_by_their_own_size(site: type[Site]) -> None:
    floor = pouring(site)
    floor.wait(3)
    assert floor.told("batch 3 bags").data["pour"]["bags_used"] == 3
    floor.wait(3)
    assert floor.told("batch").data["pour"]["bags_used"] == 5
    assert floor.told("take that back").say == "Undone: a batch of 2."
    assert progress_of(floor.job).used == 3


def test_without_a_plan_batches_and_fronts_are_kept(site: type[Site]) -> None:
    floor = site()
    assert "How many bags" in floor.refused("batch")
    assert floor.told("batch 2 bags").headline == "2 bags."
    floor.wait(5)
    floor.told("batch 2 bags")
    assert floor.told("front at 3 metres").headline == "Front 3 m; 4 bags."
    assert pour(floor)["forecast_bags"] is None
    floor.told("pour finished")
    assert "finished on record" in floor.refused("batch 2 bags")


def test_with_readings_and_no_pace_there_is_a_forecast(site: type[Site]) -> None:
    floor = site(*LEVEL[:9])
    floor.told("batch 10 bags")
    floor.told("front at 3 metres")
    assert pour(floor)["forecast_bags"][1] == pytest.approx(40.3, abs=0.5)
    assert pour(floor)["strip"] is None


def test_a_pour_that_stands_still_makes_nobody_late(site: type[Site]) -> None:
    floor = pouring(site)
    batches(floor, 3)
    reply = floor.told("stop pour because the mixer tripped")
    assert "“the mixer tripped”" in " ".join(reply.details)
    assert pour(floor)["wet_edge_min"] is None
    assert "stands still already" in floor.refused("stop pour")
    floor.wait(60)
    assert floor.told("pour on").headline == "On, after 60 minutes."
    assert pour(floor)["wet_edge_min"] == pytest.approx(17 - 6 - 60)
    batches(floor, 1)
    assert "on time" in floor.reply.headline
    assert " ".join(floor.reply.details) == (
        "The edge waited 63 minutes, of 17 minutes at most: look whether the mix still joins, or "
        "make it a joint."
    )
    assert pour(floor)["wet_edge_min"] == pytest.approx(17)
    batches(floor, 1)
    assert not floor.reply.details
    assert "does not stand still" in floor.refused("pour on")
    floor.told("stop pour because we go home")
    floor.wait(21 * 60 + 6)
    reply = floor.told("pour on")
    assert reply.headline == "On, after 21 hours 6 minutes."
    assert "The edge waited 21 hours 6 minutes, of 17" in reply.details[0]


def test_how_the_pour_goes(site: type[Site]) -> None:
    floor = pouring(site)
    batches(floor, 5)
    floor.told("front at 3 metres")
    reply = floor.told("how goes the pour")
    assert reply.headline.startswith("10 of 41; edge 5 min; front 3 m")
    assert reply.tables[0].title == "Poured"
    # a batch of two each 3 minutes, though 20 were said to be an hour's
    assert any(line.startswith("Placed so far: 40 bags an hour") for line in reply.details)
    assert "not begun" in site(*LEVEL).refused("how goes the pour")


def test_bags_over_the_plan_are_no_silence(site: type[Site]) -> None:
    """Without any front, once all planned bags are used it takes at least what was used."""
    floor = pouring(site)
    batches(floor, 20)
    assert pour(floor)["forecast_bags"][1] == pytest.approx(40.3, abs=0.5)
    batches(floor, 3)
    assert "over plan: front at?" in floor.reply.headline
    assert words(floor.reply.headline) <= 12
    assert pour(floor)["forecast_bags"][0] >= 45
    assert pour(floor)["short_probability"] == pytest.approx(1)
    floor.told("front at 6 metres")
    # half of the floor took 46: the rest is expected to take much more than planned
    assert pour(floor)["forecast_bags"][1] > 66


def test_short_is_told_with_the_batch_that_shows_it_and_once(site: type[Site]) -> None:
    floor = pouring(site, "bags left 42")
    told = []
    for _ in range(24):
        batches(floor, 1)
        told.append("short by" in floor.reply.say.lower())
    assert told.count(True) == 1
    assert "SHORT by" in " ".join(floor.reply.details) or told[-1] is False


def test_a_batch_is_as_large_as_the_last_where_no_size_was_said(site: type[Site]) -> None:
    floor = site()
    assert "How many bags" in floor.refused("batch")
    floor.told("batch 3 bags")
    floor.wait(5)
    assert floor.told("batch").headline.startswith("6 bags")
    floor.told("front at 3 metres")
    assert "was at 3 m already" in floor.refused("front at 2 metres")
    floor.told("front at 3.5 metres")


def test_fronts_in_an_inch_job_are_told_as_they_were_said(site: type[Site]) -> None:
    """3 ft is 0.9144 m: rounded to a centimetre first it came back as 2 ft 11 7/8 in."""
    floor = site("room 30 by 20 ft", "readings in inches", "grid 6 ft", "product example standard",
                 'A1 1/4" low', 'D3 1/4" low', "crew 3", "mixers 2", "batches of 2 bags",
                 "minutes per batch 6", "start pour anyway because this is a test",
                 "batch 4 bags", "front at 3 ft")  # fmt: skip
    assert "from 0 in to 3 ft." in " ".join(floor.reply.details)
    floor.told("stop pour")
    assert floor.reply.tables[0].rows[0][0] == "0 in to 3 ft"


def test_a_rate_is_learnt_from_batches_where_none_was_said(site: type[Site]) -> None:
    """Two bags each 4 minutes: 30 an hour."""
    floor = site(*LEVEL[:9])
    for _ in range(4):
        floor.wait(4)
        floor.told("batch 2 bags")
    told = " ".join(floor.told("plan").details)
    assert "30 bags an hour; pump 30 bags per hour plans with it" in told


def test_the_forecast_begins_with_the_tallys_volume(site: type[Site]) -> None:
    """Not with the kriged surface's, which is a little off it where the floor is uneven."""
    floor = site(*LEVEL[:3], "A1 -6", "B1 -9", "C2 -4", "D3 -14", "E4 -5", "F4 -11", "F1 -8",
                 "A4 -3", *LEVEL[9:])  # fmt: skip
    floor.told("start pour anyway because this is a test", "how goes the pour")
    tally = floor.tally
    assert tally.volume_m3 is not None
    # 15 L a bag less 5 % waste
    planned = tally.volume_m3 / (0.015 / 1.05)
    assert pour(floor)["bags_planned"] == pytest.approx(planned)
    # a hole that may be ahead is a quarter of a per cent
    assert pour(floor)["forecast_bags"][1] == pytest.approx(planned, rel=0.005)
