"""What is said of the site, read back and refused; as it was said, and as data."""

from __future__ import annotations

import pytest

from grammar.commands.site import Temperature
from tests.site.conftest import Morning

# what is typed, what is shown, what is spoken
READ_BACK = [
    ("air 21 degrees", "Air 21 °C.", "Air two one degrees Celsius."),
    ("air 70 degrees Fahrenheit", "Air 70 °F (21.1 °C).", "Air seven zero degrees Fahrenheit."),
    ("slab -3.5 C at B3", "Slab at B3 -3.5 °C.",
     "Slab at bravo three minus three point five degrees Celsius."),
    ("humidity 55 percent", "Humidity 55 %.", "Humidity five five percent."),
    ("slab humidity 78 percent at B3", "Slab humidity at B3 78 %.",
     "Slab humidity at bravo three seven eight percent. Over the usual limit, ask the data sheet."),
    ("moisture emission 3", "Moisture emission 3 lb/1000 ft² in 24 h (14.6 g/m²).",
     "Moisture emission three pounds a thousand square feet."),
    ("pH 9", "pH 9.", "PH nine."),
    ("floor is timber", "The floor is timber.", "The floor is timber."),
]  # fmt: skip


@pytest.mark.parametrize(("line", "shown", "spoken"), READ_BACK)
def test_read_back(morning: type[Morning], line: str, shown: str, spoken: str) -> None:
    reply = morning().say(line).reply
    assert reply.headline == shown
    assert reply.say == spoken


REFUSED = [
    ("humidity 101 percent", "at most 100 percent"),
    ("humidity 0 percent", "more than 0"),
    ("slab humidity 140 percent", "at most 100 percent"),
    ("slab 200 degrees", "from -30 to 50, as in slab 17 degrees"),
    ("slab 200 degrees fahrenheit", "from -22 to 122"),
    ("air 70 degrees", "air 70 degrees Fahrenheit"),
    ("air -31 degrees", "from -30 to 50"),
    ("pH 15", "from 0 to 14"),
    ("moisture emission 80", "from 0 to 50"),
    ("drying time 400 mm", "up to 300 mm"),
    ("drying time 0 mm", "up to 300 mm"),
    ("dew point", "humidity 55 percent"),
]


@pytest.mark.parametrize(("line", "right"), REFUSED)
def test_nonsense_is_refused_with_what_would_be_right(
    morning: type[Morning], line: str, right: str
) -> None:
    assert right in morning().refused(line)


def test_bounds_are_taken(morning: type[Morning]) -> None:
    morning("humidity 100 percent", "slab 50 degrees", "slab -30 degrees", "pH 0", "pH 14",
            "slab 122 degrees fahrenheit", "moisture emission 0", "drying time 300 mm")  # fmt: skip


def test_a_place_that_is_not_there(morning: type[Morning]) -> None:
    assert "no point Z9" in morning("room 8 by 6 metres", "grid 4 metres").refused("pH 9 at Z9")
    morning("pH 9 at Z9")  # before there are points, any name may be meant


def test_dew_point(morning: type[Morning]) -> None:
    floor = morning("air 20 degrees", "humidity 50 percent")
    floor.say("dew point")
    # WMO Guide No. 8, Annex 4.B (published source)
    assert floor.data["dew_point_c"] == pytest.approx(9.255, abs=0.0005)
    assert floor.data["margin_c"] is None
    floor.say("slab 12 degrees", "dew point")
    assert floor.data == pytest.approx({"dew_point_c": 9.255, "margin_c": 2.745}, abs=0.0005)
    assert [warning.id for warning in floor.turn.reply.warnings] == ["dew-point"]
    assert floor.turn.reply.say == (
        "Dew point nine point three degrees Celsius. The slab is two point seven above it."
    )


def test_fahrenheit_and_celsius_come_to_the_same(morning: type[Morning]) -> None:
    one = morning("air 20 degrees", "humidity 50 percent", "slab 15 degrees", "dew point").data
    other = morning("air 68 F", "humidity 50 percent", "slab 59 F", "dew point").data
    assert one == other


def test_the_site_in_short(morning: type[Morning]) -> None:
    floor = morning("floor is concrete", "air 70 F")
    floor.later(minutes=75).say("slab humidity 70 percent at A1", "site")
    table = floor.turn.reply.tables[0]
    assert table.rows == (
        ("Air", "", "70 °F (21.1 °C)", "07:00"),
        ("Slab humidity", "A1", "70 %", "08:15"),
    )
    assert floor.data["site"]["readings"][0]["time"] == "2026-05-04T07:00:00+00:00"
    floor.later(days=1).say("site")
    assert floor.turn.reply.tables[0].rows[0][3] == "yesterday 07:00"


def test_drying_is_an_estimate_and_never_a_release(morning: type[Morning]) -> None:
    reply = morning().say("drying time 60 millimetres").reply
    assert reply.headline == "60 mm: about 60 to 80 days, an estimate and never a release."
    assert reply.say == "About sixty to eighty days, an estimate, never a release."
    assert sum("days by" in line for line in reply.details) == 3
    assert "data sheet decides" in reply.details[-1]
    # two fifths and one fifth
    probe = "A humidity probe in it sits 24 mm deep, 12 mm where it dries both ways"
    assert f"{probe} (ASTM F2170, from memory)." in reply.details
    assert reply.data == {"drying_days": {"least": 60.0, "most": 80.0}}


def test_how_deep_a_probe_sits_is_told_in_the_unit_of_the_slab(morning: type[Morning]) -> None:
    reply = morning().say("drying time 4 inches").reply
    assert "sits 1 5/8 in deep, 13/16 in where" in str(reply)  # 1.6 and 0.8, to a sixteenth


def test_old_adhesive_comes_with_its_caution(morning: type[Morning]) -> None:
    reply = morning().say("floor is old adhesive").reply
    assert [caution.id for caution in reply.cautions] == ["old-adhesive"]
    assert [warning.id for warning in reply.warnings] == ["old-adhesive"]


def test_ready_as_data(morning: type[Morning]) -> None:
    floor = morning()
    floor.say("ready to pour")
    ready = floor.data["ready"]
    assert ready["go"] is False
    for reason in ready["reasons"]:
        assert list(reason) == ["id", "message", "source", "clears_by"]
        assert all(isinstance(each, str) and each for each in reason.values())


def test_undone_and_brought_back(morning: type[Morning]) -> None:
    floor = morning("air 20 degrees", "air 30 degrees", "take that back")
    assert floor.turn.reply.say == "Undone: the air temperature."
    assert floor.job.site.readings[-1].value == 20
    floor.say("redo")
    assert floor.job.site.readings[-1].value == 30


def test_what_if_records_nothing(morning: type[Morning]) -> None:
    floor = morning("what if air 30 degrees", "what if primer on floor", "what if guide")
    assert floor.job.site.readings == ()
    assert floor.job.history == ()


def test_a_temperature_is_kept_as_it_was_said(morning: type[Morning]) -> None:
    floor = morning("air 70 F")
    floor.reopen()
    said = floor.job.site.readings[0].said
    assert isinstance(said, Temperature)
    assert (str(said.number), said.scale) == ("70", "F")


@pytest.mark.parametrize(
    "line",
    ["is the slab dry", "is the floor dry yet", "has the slab dried out", "is it dry enough"],
)
def test_whether_a_slab_is_dry_no_tool_can_say(morning: type[Morning], line: str) -> None:
    floor = morning()
    floor.say("room 12 by 8 metres")
    floor.say("slab humidity 78 percent at B3")
    turn = floor.say(line)
    assert turn.ok
    reply = turn.reply
    assert reply.headline.startswith("No tool can say that a slab is dry.")
    assert len(reply.say.split()) <= 10
    assert any("ready to pour" in each for each in reply.details)
    assert any(each.startswith("On record: 1 humidity test") for each in reply.details)
