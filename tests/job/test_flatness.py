"""What a floor is held to, and what its readings say of it, in an installer's own words.

Gaps and limits by exact arithmetic; the instrument's deviation is the program's usual one, 1 mm,
or what ``FINE`` says.
"""

from __future__ import annotations

from typing import Any

import pytest

from grammar import short_form, understand
from grammar.commands.flatness import ChooseSpec, SetOwnSpec
from tests.job.conftest import Site

ROOM = ("room 6 by 4 metres", "grid 0.5 metres")
"""Eleven columns by seven rows."""
FINE = ("instrument resolution 0.01 mm", "instrument repeatability 0.05 mm")
COARSE = ("room 12 by 8 metres", "grid 2 metres")


def _flat_but(changed: dict[str, float], columns: str, rows: int) -> list[str]:
    """Every point 10 mm below, but for a few."""
    points = [f"{column}{row}" for row in range(1, rows + 1) for column in columns]
    return [f"{point} -{10 + changed.get(point, 0):g}" for point in points]


def _dish(deep: float) -> dict[str, float]:
    """A hollow round F4, read every half metre: `deep` in the middle, less beside it."""
    sides = ("E4", "G4", "F3", "F5")
    return {"F4": deep, **dict.fromkeys(sides, deep / 2)}


def _verdicts(floor: Site) -> dict[str, Any]:
    return {row["id"].partition(": ")[2]: row["met"] for row in floor.told("verdicts").data["spec"]}


def test_the_largest_gap_under_a_straightedge_both_ways(site: type[Site]) -> None:
    floor = site(*ROOM, *_flat_but(_dish(6), "ABCDEFGHIJK", 7))
    reply = floor.told("straightedge 2 metres")
    assert reply.headline == "Largest gap under 2 m: 6 mm at F4."
    assert [row[0] for row in reply.tables[0].rows] == ["along the rows", "along the columns"]
    told = reply.data["straightedge"]
    assert (told["length_m"], told["gap_mm"], told["at_m"]) == (2.0, pytest.approx(6.0), [3.0, 2.0])
    assert told["direction"] == "along the rows"
    assert told["between_m"][0] < told["along_m"] < told["between_m"][1]
    assert "29 %" in " ".join(reply.details)
    # The usual edge, and feet.
    assert floor.told("straightedge").data == reply.data
    assert floor.told("straightedge 10 ft").data["straightedge"]["length_m"] == 3.048


def test_a_worse_gap_across_is_the_one_that_is_told(site: type[Site]) -> None:
    valley = {f"{column}4": 7.0 for column in "ABCDEFGHIJK"}
    floor = site(*ROOM, *_flat_but(valley, "ABCDEFGHIJK", 7))
    told = floor.told("straightedge 2 metres").data["straightedge"]
    assert (told["direction"], told["gap_mm"]) == ("along the columns", pytest.approx(7.0))


def test_a_crest_reads_nothing_and_says_so(site: type[Site]) -> None:
    floor = site("room 3 by 1 metres", "grid 0.5 metres", *FINE)
    floor.told("A1 -14", "B1 -11", "C1 -10", "D1 -11", "E1 -14")
    reply = floor.told("straightedge 2 metres")
    assert reply.headline == "No gap under 2 m."
    assert "crest" in reply.details[-1]
    sr = floor.told("spec SR1")
    assert sr.data["spec"][0]["value"] == 0.0
    assert any("crest 4 mm high" in detail for detail in sr.details)


@pytest.mark.slow
def test_two_tenths_over_with_readings_of_a_millimetre(site: type[Site]) -> None:
    lines = (*ROOM, *_flat_but(_dish(3.2), "ABCDEFGHIJK", 7))
    floor = site(*lines, "spec 3 mm under 2 metres")
    (row,) = floor.data["spec"]
    assert (row["met"], row["value"], row["limit"]) == (None, pytest.approx(3.2), 3.0)
    assert floor.reply.headline == "3 mm under 2 m: cannot be told from these readings."
    assert "finer instrument" in floor.reply.details[0]
    fine = site(*lines, *FINE, "spec 3 mm under 2 metres")
    assert fine.data["spec"][0]["met"] is False
    assert fine.reply.headline == "3 mm under 2 m: not met."


def test_what_would_settle_it_is_told(site: type[Site]) -> None:
    floor = site(*ROOM, *_flat_but(_dish(5), "ABCDEFGHIJK", 7), "spec 3 mm under 2 metres")
    assert floor.data["spec"][0]["met"] is None
    assert "F4" in floor.data["spec"][0]["tells"]
    assert "times each" in floor.data["spec"][0]["tells"]


def test_a_pin_grid_tells_nothing_under_2_metres_but_levels_by_neighbours(site: type[Site]) -> None:
    floor = site(*COARSE, *_flat_but({}, "ABCDE", 3), "spec DIN 18202 row 3")
    verdicts = _verdicts(floor)
    # The outer points are 4 m apart, where row 3 has 10 mm.
    limits = {row["id"].partition(": ")[2]: row["limit"] for row in floor.data["spec"]}
    assert limits["level by neighbours"] == 10
    assert verdicts["level by neighbours"] is True
    assert verdicts["gap under 2 m"] is None
    # Met by one of three ways is not met: the other two may see what this one passes over.
    told = floor.told("spec row 3")
    assert (
        told.headline == "DIN 18202 row 3: cannot be told in full; met, level by neighbours alone."
    )
    assert told.data["overall"] == [{"name": "DIN 18202 row 3", "met": None}]
    tells = {row["id"].partition(": ")[2]: row["tells"] for row in floor.data["spec"]}
    assert "a line read every 0.3 m" in tells["gap under 2 m"]


def test_points_too_far_apart_for_an_edge_do_not_say_that_there_is_no_gap(site: type[Site]) -> None:
    floor = site(*COARSE, *_flat_but({}, "ABCDE", 3), "straightedge 2 metres")
    assert floor.reply.headline == "Points 2 m apart cannot tell of gaps under 2 m."
    assert floor.data["straightedge"]["gap_mm"] is None
    row = floor.told("spec SR1").data["spec"][0]
    assert (row["met"], row["value"]) == (None, None)


def test_met_one_way_says_that_the_other_was_not_read(site: type[Site]) -> None:
    row = [f"{column}1 -10" for column in "ABCDEFGHIJK"]
    floor = site(*ROOM, *FINE, *row, "spec SR1")
    assert floor.data["spec"][0]["met"] is True
    assert any("one direction" in detail for detail in floor.reply.details)


def test_one_way_to_try_it_that_is_not_met_decides(site: type[Site]) -> None:
    floor = site(*COARSE, *_flat_but({"C2": 25.0}, "ABCDE", 3), "spec row 3")
    assert floor.reply.headline.startswith("DIN 18202 row 3: not met")
    assert _verdicts(floor)["level by neighbours"] is False


def test_f_numbers_are_refused_for_a_pin_grid(site: type[Site]) -> None:
    floor = site("room 6 by 4 metres", "grid 0.3 metres")
    row = [f"{column}1 -10" for column in "ABCDEFGHIJKLMNOPQRS"]
    reply = floor.told(*row, "flatness")
    assert reply.headline == "No FF or FL from these readings."
    assert (reply.data["ff"], reply.data["fl"], reply.data["supported"]) == (None, None, False)
    assert "never carries an F-number" in reply.data["why"]
    assert reply.data["lines"] == []
    aci = floor.told("spec ACI 117 flat")
    assert [each["met"] for each in aci.data["spec"]] == [None] * 4


def test_how_far_off_the_finish(site: type[Site]) -> None:
    floor = site(
        "room 6 by 4 metres", "grid 2 metres", "A1 -3", "B1 -30", "C1 +4", "spec departure"
    )
    (row,) = floor.data["spec"]
    assert (row["met"], row["value"], row["where"]) == (False, 30.0, "B1")
    floor.told("correct B1 to minus 15")
    assert floor.told("verdicts").data["spec"][0]["met"] is None
    floor.told("correct B1 to minus 5")
    assert floor.told("verdicts").data["spec"][0]["met"] is True


def test_specs_are_kept_undone_and_dropped(site: type[Site]) -> None:
    floor = site(*ROOM, "A1 -10", "B1 -10", "C1 -10", "spec SR2", "spec 1/8 in under 10 ft")
    assert floor.data["held_to"] == ["BS 8204 SR2", "1/8 in under 10 ft"]
    floor.told("undo")
    assert floor.told("verdicts").data["held_to"] == ["BS 8204 SR2"]
    assert floor.told("spec row 4").data["held_to"] == ["DIN 18202 row 4"]
    assert any("(chosen)" in row[0] for row in floor.told("specs").tables[0].rows)
    floor.told("drop specs")
    assert "held to nothing" in floor.refused("verdicts")
    assert "held to nothing" in floor.refused("drop specs")


def test_before_anything_is_read_a_spec_is_only_kept(site: type[Site]) -> None:
    floor = site(*ROOM, "spec SR1")
    assert floor.reply.headline == "Held to BS 8204 SR1; nothing is read yet."
    assert "three readings in a row" in floor.refused("straightedge 2 metres")


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("spec nonsense", "There is no spec nonsense"),
        ("spec row", "Several specs are called row"),
        ("spec 2 metres under 3 mm", "The gap first, then the straightedge"),
        ("spec 0 mm under 2 metres", "more than nothing"),
        ("spec 3 mm under 20 metres", "200 mm to 10 m long"),
        ("straightedge 2 mm", "200 mm to 10 m long"),
    ],
)
def test_what_is_refused_says_what_would_be_right(site: type[Site], said: str, told: str) -> None:
    assert told in site(*ROOM).refused(said)


def test_a_limit_and_a_name_are_told_apart() -> None:
    (own,), (name,) = understand("spec 3 mm under 2 metres"), understand("SPEC DIN 18202 Row 3")
    assert isinstance(own, SetOwnSpec)
    assert isinstance(name, ChooseSpec)
    assert understand(short_form(own)) == (own,)
    assert understand(short_form(name)) == (name,)


def test_where_something_stands_no_edge_is_laid(site: type[Site]) -> None:
    lines = [line for line in _flat_but({}, "ABCDEFGHIJK", 7) if not line.startswith("F4 ")]
    floor = site(*ROOM, "column 0.4 by 0.4 metres at F4", *lines)
    assert floor.told("straightedge 2 metres").data["straightedge"]["gap_mm"] == 0.0


# --- on lines ---------------------------------------------------------------------------


LONG = ("room 12 by 9 metres", "grid 2 metres", *FINE)
# The first line of a US national laboratory's E1155M record of a concrete test pad, 5 May 2003,
# less 420 mm; its F-numbers by exact arithmetic with the constants from memory.
RECORD = "-1.383 -0.062 1.894 3.748 5.221 4.739 3.799 4.307 5.425 4.688 3.164 2.758 0.472 -3.262"


def _line(
    number: int, heights: str, where: str = "from 1 by 1 metres to 11 by 1 metres"
) -> list[str]:
    values = [f"{float(each):+g}" for each in heights.split()]
    breaths = [f"values {', '.join(values[at : at + 10])}" for at in range(0, len(values), 10)]
    return [f"line {number} {where} every 300 mm", *breaths, f"end line {number}"]


def test_f_numbers_of_a_line_of_the_laboratory_record(site: type[Site]) -> None:
    floor = site(*LONG, *_line(1, RECORD))
    reply = floor.told("flatness")
    assert reply.headline == "FF 29, FL 20 by the E1155 formula, not by its rules."
    (line,) = reply.data["lines"]
    assert (line["id"], line["n"]) == ("line 1", 14)
    assert (line["ff"], line["fl"]) == (
        pytest.approx(28.841, abs=1e-3),
        pytest.approx(20.21, abs=1e-3),
    )
    assert line["q"][:3] == pytest.approx([0.636, -0.102, -0.381], abs=0.0011)
    assert reply.data["ff"] == line["ff"]
    # Four differences over 3 m, where 69 are wanted (2√A, from memory).
    assert reply.data["supported"] is False
    assert "65 more" in reply.data["why"]
    assert any("Our own interval" in detail for detail in reply.details)
    assert any("from memory" in detail for detail in reply.details)


def test_lines_that_carry_no_f_number_say_why(site: type[Site]) -> None:
    short = floor = site(*LONG, *_line(1, " ".join(["0"] * 8)))
    assert "Line 1 has 8 readings; an F-number wants 12" in short.told("flatness").data["why"]
    floor = site(*LONG, "line 2 every 500 mm", "values " + "0, " * 13 + "0", "flatness")
    assert "Line 2 was read every 0.5 m" in floor.data["why"]


def test_a_level_line_divides_by_nothing(site: type[Site]) -> None:
    floor = site(*LONG, *_line(1, " ".join(["3"] * 14)), "flatness")
    assert floor.reply.headline.startswith("FF no bound, FL no bound")
    assert floor.data["ff"] is None
    # No errors were seen, though the readings have some: the answer says what they can show.
    assert floor.data["own_interval"]["ff"][0] < floor.data["by_errors"][0]
    tilted = site(*LONG, *_line(1, " ".join(f"{3 * i}" for i in range(14))), "flatness")
    assert (tilted.data["ff"], tilted.data["fl"]) == (None, pytest.approx(317.5 / 30))


def test_a_straightedge_and_a_spec_along_lines(site: type[Site]) -> None:
    hollow = "0 0 0 -1 -3 -6 -3 -1 0 0 0 0 0 0"
    floor = site(*LONG, *_line(1, hollow), "straightedge 2 metres")
    told = floor.data["straightedge"]
    assert (told["line"], told["direction"]) == ("line 1", "along line 1")
    assert told["gap_mm"] == pytest.approx(6.0)
    assert told["at_m"] == [2.5, 1.0]
    assert floor.reply.headline == "Largest gap under 2 m: 6 mm at line 1 at 1.5 m."
    assert any("One direction only" in detail for detail in floor.reply.details)
    assert floor.told("spec SR1").data["spec"][0]["met"] is False
    assert floor.told("spec SR3").data["spec"][0]["met"] is True
    sr3 = floor.told("spec SR3").details
    assert any("Met in the one direction" in detail for detail in sr3)
    assert "Met along 1 line, 3.9 m in all: of the floor beside it says nothing." in sr3
    # A pin grid that shows nothing under the edge is no other direction.
    pins = site(*LONG, *_line(1, hollow), "A1 -1", "B1 -1", "C1 -1", "B2 -1", "A2 -1", "A3 -1",
                "spec SR3")  # fmt: skip
    assert pins.data["spec"][0]["met"] is True
    assert any("Met in the one direction" in detail for detail in pins.reply.details)
    across = _line(2, " ".join(["0"] * 14), "from 3 by 1 metres to 3 by 8 metres")
    floor.told(*across, "straightedge 2 metres")
    assert not any("One direction only" in detail for detail in floor.reply.details)


def test_an_f_number_that_readings_are_too_rough_for(site: type[Site]) -> None:
    rough = site("room 12 by 9 metres", "grid 2 metres", *_line(1, RECORD), "spec ACI 117 flat")
    ff = rough.data["spec"][0]
    assert (ff["met"], ff["value"]) == (None, pytest.approx(28.8, abs=0.1))
    assert "finer instrument" in ff["tells"]
    # Whole millimetres that repeat to 1 mm: √(13/12), so 116.078 / (3 · √6 · 1.04) and so on.
    told = rough.told("flatness")
    assert told.data["by_errors"] == pytest.approx([15.18, 71.89], abs=0.01)
    assert any("would have FF 15 and FL 72" in detail for detail in told.details)
    assert site(*LONG, *_line(1, RECORD), "flatness").data["by_errors"] is None
    # On too few readings for the standard it is neither met nor not.
    for name in ("flat", "conventional"):
        fine = site(*LONG, *_line(1, RECORD), f"spec ACI 117 {name}")
        assert fine.data["spec"][0]["met"] is None
        assert "65 more" in fine.data["spec"][0]["tells"]


def test_enough_lines_by_the_rules_give_a_verdict(site: type[Site]) -> None:
    waves = " ".join(f"{2 * (-1) ** (i // 2):g}" for i in range(34))
    lines = [
        line
        for number in range(1, 4)
        for line in _line(
            number, waves, f"from 1 by {2 * number} metres to 11 by {2 * number} metres"
        )
    ]
    floor = site(*LONG, *lines, "flatness")
    assert floor.data["why"] == ""
    assert floor.data["supported"] is True
    assert floor.reply.headline.endswith("by the E1155 formula.")
    # q is ±4 (exact): FF 116.078 / (3 · 4.02) = 9.6, so FF 20 is not reached.
    assert floor.data["ff"] == pytest.approx(9.6, abs=0.1)
    ff, fl, ff_of_parts, fl_of_parts = floor.told("spec ACI 117 conventional").data["spec"]
    assert (ff["met"], ff["limit"]) == (False, 20.0)
    # Of any part 3/5 of the overall (ACI 117-10, an excerpt): 12 and 9. The whole lies between
    # its parts, so where it does not reach them one part does not.
    assert (ff_of_parts["met"], ff_of_parts["limit"]) == (False, 12.0)
    assert (fl_of_parts["met"], fl_of_parts["limit"]) == (None, 9.0)
    assert "each part by themselves" in fl_of_parts["tells"]
    assert fl["met"] is (floor.told("flatness").data["fl"] >= 15)


def test_a_level_a_hair_within_its_limit_asks_for_a_finer_instrument(site: type[Site]) -> None:
    """Half a metre apart row 3 has 4 mm by the outer distance of 1 m (DIN 18202 table 3)."""
    floor = site(*ROOM, *_flat_but({"F4": 3.9}, "ABCDEFGHIJK", 7), "spec DIN 18202 row 3")
    rows = {row["id"].partition(": ")[2]: row for row in floor.data["spec"]}
    found = rows["level by neighbours"]
    assert (found["met"], found["value"]) == (None, pytest.approx(3.9))
    assert "finer instrument" in found["tells"]
    columns = ("Test", "Found", "Limit", "Good to", "Verdict", "Where")
    assert floor.reply.tables[0].columns == columns


def test_the_worst_of_many_places_is_over_its_limit_by_more_than_errors_reach(
    site: type[Site],
) -> None:
    """77 points good to 1.04 mm: 1.8 deviations over are nothing, over 4 mm and over 3 mm."""
    rows = site(*ROOM, *_flat_but({"F4": 6.2}, "ABCDEFGHIJK", 7), "spec DIN 18202 row 3")
    found = {row["id"].partition(": ")[2]: row for row in rows.data["spec"]}
    assert found["level by neighbours"]["value"] == pytest.approx(6.2)
    assert found["level by neighbours"]["met"] is None
    gap = site(*ROOM, *_flat_but(_dish(5.8), "ABCDEFGHIJK", 7), "spec 3 mm under 2 metres")
    (row,) = gap.data["spec"]
    assert (row["value"] - 3) / row["sd"] > 2
    assert row["met"] is None


def test_of_the_parts_the_flattest_line_is_not_told_for_the_worst(site: type[Site]) -> None:
    smooth, rough = " ".join(["0"] * 13 + ["1"]), " ".join(["0", "2"] * 7)
    lines = (*_line(1, rough), *_line(2, smooth, "from 3 by 2 metres to 3 by 8 metres"))
    floor = site(*LONG, *lines, "spec ACI 117 conventional")
    found = {row["id"].partition(": ")[2]: row for row in floor.data["spec"]}
    of_parts = found["FF of any part at least"]
    assert of_parts["where"] == "line 1"
    assert of_parts["value"] < 12


def test_met_on_a_grid_and_along_a_line_is_not_told_as_of_lines_alone(site: type[Site]) -> None:
    line = _line(1, " ".join(["-10"] * 11), "from 1 by 1 metres to 5 by 1 metres")
    floor = site(*ROOM, *FINE, *_flat_but({}, "ABCDEFGHIJK", 7), *line, "spec SR3")
    assert floor.data["spec"][0]["met"] is True
    assert not any("Met along" in each for each in floor.reply.details)


def test_what_readings_are_good_to_is_told_in_inches_too(site: type[Site]) -> None:
    """Two deviations of a gap by readings of 0.05 mm are 0.005 in, which no sixteenth shows."""
    floor = site(*ROOM, *FINE, *_flat_but(_dish(6), "ABCDEFGHIJK", 7), "readings in inches")
    assert any("good to about 0.005 in" in each for each in floor.told("straightedge").details)
    (table,) = floor.told("spec SR1").tables
    assert table.rows[0][table.columns.index("Good to")] == "0.005 in"
    told = floor.told("instrument repeatability 0.1 mm").headline
    assert "repeats within 0.004 in (standard deviation)" in told
    assert "shows steps of 0.0004 in" in told


def test_lines_that_break_a_rule_are_what_has_to_be_told_anew(site: type[Site]) -> None:
    room = ("room 12 by 9 metres", *FINE)
    across = "line 1 from 0.7 by 0.7 metres to 11.3 by 8.3 metres every 300 mm"
    values = "line 1 values " + " ".join(["plus 1", "0", "minus 1", "0"] * 3)
    last = "line 1 values " + " ".join(["plus 1", "0", "minus 1", "0"] * 2)
    floor = site(*room, across, values, values, values, last)  # 44 values, 12.9 m
    told = " ".join(floor.told("spec ACI 117 conventional").details)
    assert "To tell FF at least: lines by the standard's rules, which these are not:" in told
    assert "a line runs from corner to corner" in told
    beside = "line 1 from 0.7 by 0.7 metres to 11.3 by 0.7 metres every 300 mm"
    floor = site(*room, beside, values, values, values)
    assert "corner to corner" not in " ".join(floor.told("flatness").details)


def test_an_instrument_too_coarse_for_an_f_number_is_told_as_that(site: type[Site]) -> None:
    """
    Errors of 1 mm, and of showing whole ones, are 1.04 mm: 116.08 / (3·√6·1.04) is FF 15 of a
    plane, so they show no FF 25. Exact arithmetic.
    """
    floor = site("room 12 by 9 metres")
    for number in range(1, 7):
        floor.told(f"line {number} from 1 by {number} metres to 11 by {number} metres every 300 mm")
        for _ in range(3):
            floor.told(f"line {number} values " + " ".join(["0"] * 11))
    told = " ".join(floor.told("spec ACI 117 moderately flat").details)
    plane = "by errors of such readings alone a plane has FF 15"
    assert f"To tell FF at least: a finer instrument: {plane}." in told
