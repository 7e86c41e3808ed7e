"""One number of the job, asked for by itself: it is said first and alone."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from assistant.answers.figures.single import FIGURES
from assistant.floor.places import places_of
from assistant.floor.reach import lower_by_for
from assistant.reply.times import UNTIMED
from assistant.units.lengths import exact_mm, show_length
from grammar import short_form, understand
from grammar.commands.figures import AskFigure
from grammar.commands.finish import LowerFinish
from grammar.commands.talk import WhatIf
from grammar.phrases import PHRASES
from tests.job.conftest import Site
from tests.there import there

# A1 at 1 m by 1 m; every number below is exact arithmetic on these six readings.
FLOOR = ("room 6 by 4 metres", "grid 2 metres", "product example standard")
READ = ("A1 -8", "B1 -12", "C1 -20", "A2 -5", "B2 -9", "C2 -14")


def answer_of(floor: Site, line: str) -> dict[str, Any]:
    answer: dict[str, Any] = floor.told(line).data["answer"]
    return answer


@pytest.fixture
def read(site: type[Site]) -> Site:
    return site(*FLOOR, *READ)


def test_every_figure_has_a_phrase_and_every_phrase_a_figure() -> None:
    asked = {dict(phrase.fixed)["figure"] for phrase in PHRASES if phrase.command is AskFigure}
    assert asked == set(FIGURES)


@pytest.mark.parametrize(
    ("line", "name", "value", "unit"),
    [
        ("mean depth", "mean-depth", 68 / 6, "mm"),
        ("what's the average thickness", "mean-depth", 68 / 6, "mm"),
        ("deepest", "deepest", 20, "mm"),
        ("where's the lowest point", "deepest", 20, "mm"),
        ("where is the highest spot", "thinnest", 5, "mm"),
        ("area", "area", 24, "m²"),
        ("how big is the room", "area", 24, "m²"),
        ("points left", "points-left", 0, "points"),
        ("water a bag", "water-per-bag", 5.0, "L"),
        ("how much water per bag", "water-per-bag", 5.0, "L"),
        ("mixing time", "mixing-time", 3, "min"),
        ("pot life", "working-time", 20, "min"),
        ("how much primer", "primer", 3.0, "L"),
        ("when can I walk on it", "foot-traffic", 4, "h"),
        ("when can I tile", "covering", 24, "h"),
        ("finish height", "finish", 0, "mm"),
        ("difference A1 to C2", "difference", -6, "mm"),
        ("difference between C2 and A1", "difference", 6, "mm"),
        ("slope A1 to C1", "slope", -0.3, "%"),
    ],
)
def test_one_number_is_answered_alone(
    read: Site, line: str, name: str, value: float, unit: str
) -> None:
    assert answer_of(read, line) == {"id": name, "value": pytest.approx(value), "unit": unit}


def test_bags_litres_and_water_are_those_of_the_tally(read: Site) -> None:
    tally = read.told("tally").data["tally"]
    assert answer_of(read, "how many bags")["value"] == tally["bags"]
    assert answer_of(read, "how many litres")["value"] == pytest.approx(1000 * tally["volume_m3"])
    # 4.75 to 5.25 L a bag on the card
    assert answer_of(read, "how much water")["value"] == pytest.approx(5.0 * tally["bags"])


def test_the_first_spoken_words_are_the_number(read: Site) -> None:
    assert read.told("how many bags").say.startswith("Twenty")
    assert read.told("how many litres").say.startswith("Two hundred")
    assert read.told("water a bag").say == "Four point seven five to five point two five litres."
    assert read.told("mean depth").say.startswith("Mean one one")


def test_points_left_names_the_next(site: type[Site]) -> None:
    reply = site(*FLOOR, "A1 -8").told("how many left")
    assert reply.data["answer"]["value"] == 5
    assert reply.say == "Five left. Next, bravo one."


def test_working_time_left_is_that_of_the_mix_that_ends_first(read: Site) -> None:
    assert "No mix is running" in read.refused("time left")
    read.told("water in")
    read.wait(5)
    read.told("water in")
    read.wait(2)
    assert answer_of(read, "how long have I got")["value"] == pytest.approx(13)


def test_after_the_pour_times_count_from_it(read: Site) -> None:
    read.told("pour finished")
    read.wait(60)
    assert answer_of(read, "when can I walk on it")["value"] == pytest.approx(3)
    read.now = UNTIMED + timedelta(hours=30)
    assert answer_of(read, "covering time")["value"] == 0
    assert "moisture tests" in " ".join(read.told("covering time").details)


@pytest.mark.parametrize(
    ("lines", "line", "why"),
    [
        ((), "how many bags", "a room, readings and a product"),
        ((), "how many litres", "a room and readings"),
        ((), "area", "The room first"),
        ((), "mean depth", "No readings yet"),
        ((), "points left", "grid 2 metres"),
        ((), "water a bag", "product NAME"),
        (("product example gypsum",), "mixing time", "the bag does"),
        (("product example deep fill",), "covering time", "its data sheet does"),
        (FLOOR, "how much primer", "takes readings"),
        ((*FLOOR, *READ), "cost", "bag costs 24 euros"),
        ((*FLOOR, *READ), "difference A1 to A1", "Name two points"),
        ((*FLOOR, "A1 -8"), "difference A1 to B1", "B1 has no reading"),
        ((*FLOOR, *READ), "where is K9", "There is no point K9"),
        (("A1 -8", "B1 -4"), "slope A1 to B1", "have a place"),
    ],
)
def test_a_number_that_is_not_there_says_what_it_takes(
    site: type[Site], lines: tuple[str, ...], line: str, why: str
) -> None:
    assert why in site(*lines).refused(line)


def test_where_a_point_lies_and_the_way_there(read: Site) -> None:
    reply = read.told("A1 -8", "where is C2")
    assert reply.data["place"] == {"point": "C2", "x_m": 5.0, "y_m": 3.0}
    assert "From A1, read last: 4 m to the right and 2 m ahead." in reply.details


def test_bags_enough_counts_spare_and_short(read: Site) -> None:
    needed = answer_of(read, "how many bags")["value"]
    assert answer_of(read, f"are {needed} bags enough")["value"] == 0
    short = read.told(f"are {needed - 3} bags enough")
    assert short.data["answer"]["value"] == -3
    assert short.headline == "No, 3 bags short."
    assert "Just enough" in read.told(f"will {needed} bags be enough").headline


def test_bags_that_do_not_reach_tell_the_finish_that_they_would_make(read: Site) -> None:
    assert answer_of(read, "how far do 99 bags go")["value"] == 1
    reply = read.told("how far do 10 bags go")
    # 10 bags at 15 L, 5 % lost: 142.86 L of 272 L (the plane's 24 m² by hand is 11.33 mm mean)
    volume = read.told("tally").data["tally"]["volume_m3"]
    assert reply.data["answer"]["value"] == pytest.approx(0.150 / 1.05 / volume)
    lower = next(each for each in reply.details if "what if" in each)
    change = lower.partition("what if ")[2].rstrip(".")
    after = read.told(f"what if {change}").data["after"]
    assert after["bags"] <= 10
    one_less = float(change.split()[2]) - 1
    assert read.told(f"what if lower finish {one_less:.0f} mm").data["after"]["bags"] > 10


# --- what it costs ------------------------------------------------------------------------


def test_the_cost_follows_the_bags(read: Site) -> None:
    read.told("bag costs 24 euros")
    bags = answer_of(read, "how many bags")["value"]
    assert answer_of(read, "cost") == {"id": "cost", "value": 24.0 * bags, "unit": "euros"}
    assert read.told("tally").data["tally"]["cost"] == {"value": 24.0 * bags, "unit": "euros"}
    order = read.told("order").data["order"]
    assert order["cost"]["value"] == 24.0 * order["bags"]
    changed = read.told("what if raise finish 5 mm").tables[0].rows
    assert any(row[0] == "cost" for row in changed)


@pytest.mark.parametrize(
    ("line", "unit"),
    [("bag costs 24 euros", "euros"), ("bag costs €24", "€"), ("bag price 24 thalers", "thalers"),
     ("bag costs 24", "")],
)  # fmt: skip
def test_any_currency_word_will_do(read: Site, line: str, unit: str) -> None:
    read.told(line)
    assert answer_of(read, "cost")["unit"] == unit


def test_a_cost_is_undone_and_refused(read: Site) -> None:
    assert "more than nothing" in read.refused("bag costs 0 euros")
    read.told("bag costs 24 euros", "undo")
    assert "was not said" in read.refused("cost")


def test_a_count_of_bags_is_whole_and_small_enough_to_be_meant() -> None:
    assert understand("are two hundred bags enough")[0] == understand("are 200 bags enough")[0]
    for line in ("are 2.5 bags enough", "are 10000 bags enough"):
        with pytest.raises(Exception, match="bags"):
            understand(line)


def test_a_lower_finish_makes_the_bags_do_as_it_is_shown(site: type[Site]) -> None:
    floor = site(
        "readings in inches", "room 20 ft by 13 ft", "grid 6 ft", "product example standard"
    )
    points = list(places_of(floor.job.layout).names)
    floor.told(*(f"{point} -{1 + at % 3}/2" for at, point in enumerate(points)))
    for litres in range(50, 400, 10):
        lower = there(lower_by_for(floor.job, litres / 1000, "in"))
        shown = understand(f"lower finish {show_length(lower, 'in')}")[0]
        assert isinstance(shown, LowerFinish)
        assert exact_mm(shown.by) == lower  # rounded again it could be too little
        after = floor.told(short_form(WhatIf(shown))).data["after"]
        assert after["volume_m3"] <= litres / 1000 + 1e-9
