"""Lines, at the ends of what is taken: spacings, runs, jumps, corrections and their ends."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from assistant.decide.proof import line_doubts
from assistant.decide.proof.line_doubts import _jumps, _too_many, _way
from assistant.decide.proof.lines import MOST_VALUES, USUAL_SPACING, line_meant
from assistant.decide.questions import YesOrNo
from assistant.decide.resolve import resolve
from assistant.errors import Refusal
from assistant.floor.line_doubt import LineDoubt
from assistant.job import being_read
from assistant.job.proof import ProofLine
from assistant.job.set_ups import Height
from grammar.commands import Measure, Reading
from grammar.commands.proof import CorrectLineValue, EndLine, TakeLineValues
from grammar.commands.walk import TakeSame
from tests.job.conftest import Site

ROOM = ("room 8 by 6 metres", "grid 2 metres")
LINE = "line 1 from 1 by 1 metres to 3 by 1 metres every 500 mm"
"""Two metres: five values."""


def open_line(floor: Site) -> ProofLine:
    line = being_read(floor.job).proof.line
    assert line is not None
    return line


def asked_or_taken(floor: Site, line: str) -> str:
    """What is asked about a line; empty where it is taken at once."""
    answer = floor.unconfirmed(line)
    return answer.text if isinstance(answer, YesOrNo) else ""


def test_without_a_spacing_a_line_has_that_of_the_standard() -> None:
    """E1155M reads every 300 mm, E1155 every 12 in."""
    assert USUAL_SPACING["mm"] == Measure(Decimal(300), "mm")
    for lines, spacing in (
        ((), USUAL_SPACING["mm"]),
        (("readings in inches",), USUAL_SPACING["in"]),
    ):
        floor = Site(*lines, *ROOM, "line 1 from A1 to D1")
        assert open_line(floor).spacing == spacing


def test_a_line_holds_two_values_at_least() -> None:
    for every, holds in (("2 m", 2), ("1 m", 3), ("500 mm", 5)):
        floor = Site(*ROOM, LINE.replace("500 mm", every))
        assert open_line(floor).holds == holds
    assert "shorter than its spacing of 2.1 m" in Site(*ROOM).refused(
        LINE.replace("500 mm", "2.1 m")
    )


def test_a_line_holds_two_thousand_values_at_most() -> None:
    assert MOST_VALUES == 2000
    for far, taken in ("1.999", True), ("2", False), ("2.001", False):
        line = f"line 1 from 1 by 1 metres to {1 + float(far):g} by 1 metres every 1 mm"
        if taken:
            assert open_line(Site(*ROOM, line)).holds == 2000
        else:
            assert "and a line has 2000 at most" in Site(*ROOM).refused(line)


def test_a_line_runs_from_one_place_to_another() -> None:
    floor = Site(*ROOM)
    assert "not from A1 to itself" in floor.refused("line 1 from A1 to A1")
    same = "line 1 from 1 by 1 metres to 1 by 1 metres"
    assert "from one place to another" in floor.refused(same)
    assert "from one place to another" not in asked_or_taken(floor, LINE)
    up = Site(*ROOM, "line 1 from 1 by 1 metres to 1 by 3 metres")
    assert open_line(up).length_m == 2


def test_a_line_beside_what_stands_there_may_touch_it_by_a_centimetre() -> None:
    room = (*ROOM, "column 0.4 by 0.4 metres at 4 by 2.2 metres")
    for y, asks in (("2.009", False), ("2.011", True), ("2.2", True), ("1.9", False)):
        line = f"line 1 from 3 by {y} metres to 5 by {y} metres every 500 mm"
        assert ("runs through column 1" in asked_or_taken(Site(*room), line)) is asks, y


def test_a_line_may_leave_the_floor_by_a_centimetre() -> None:
    for y, asks in (("0", False), ("-0.009", False), ("6.009", False), ("6.011", True)):
        if y.startswith("-"):
            continue  # places are taken from the corner on
        line = f"line 1 from 1 by 5 metres to 3 by {y} metres every 500 mm"
        assert ("leaves the floor" in asked_or_taken(Site(*ROOM), line)) is asks, y
    assert "off the floor" in Site(*ROOM).refused("line 1 from 9 by 7 m to 12 by 7 m every 500 mm")
    # where no room is given, a line may run anywhere
    assert asked_or_taken(Site(), "line 1 from 9 by 7 m to 12 by 7 m every 500 mm") == ""


def test_a_line_with_values_is_begun_anew_only_where_it_is_confirmed() -> None:
    floor = Site(*ROOM, LINE)
    assert asked_or_taken(floor, LINE) == ""
    floor.told("0")
    assert "Line 1 has 1 value already" in asked_or_taken(floor, LINE)
    assert asked_or_taken(floor, LINE.replace("line 1", "line 2")) == ""
    both = asked_or_taken(floor, "line 1 from 1 by 5 metres to 3 by 7 metres every 500 mm")
    assert "already" in both
    assert "leaves the floor" in both


def test_the_line_meant_is_the_one_named_or_the_one_that_is_read() -> None:
    floor = Site(*ROOM, LINE, LINE.replace("line 1", "line 7"))
    assert line_meant(floor.job, None).number == 7
    assert line_meant(floor.job, 1).number == 1
    with pytest.raises(Refusal, match=r"no line 2\. Lines: 1 and 7\."):
        line_meant(floor.job, 2)
    with pytest.raises(Refusal, match=r"no line 2\. It is begun so"):
        line_meant(Site(*ROOM).job, 2)
    with pytest.raises(Refusal, match="No line is being read"):
        line_meant(Site(*ROOM).job, None)


def test_one_naught_without_a_line_is_a_reading_without_its_point() -> None:
    floor = Site(*ROOM)
    assert "said with its point" in floor.refused("0")
    for line in ("values 0 -1", "values -1", "values 0 0"):
        assert "these values are of nothing" in floor.refused(line)


def read(*mm: float, set_ups: tuple[int, ...] = ()) -> ProofLine:
    stood = set_ups or (0,) * len(mm)
    heights = [
        Height(Measure(Decimal(str(value)), "mm"), Fraction(str(value)), at)
        for value, at in zip(mm, stood, strict=True)
    ]
    return ProofLine(1, Measure(Decimal(500), "mm"), values=tuple(heights))


def jumps(line: ProofLine, first: int, *values: float) -> str:
    readings = [Reading(Decimal(str(value)), "mm") for value in values]
    found = _jumps(Site(*ROOM).job, line, readings, first)
    return " ".join(text for text, _ in found)


def test_a_step_of_more_than_ten_millimetres_is_a_jump() -> None:
    for mm, jump in ((-10, False), (10, False), (-10.1, True), (10.1, True), (0, False)):
        assert bool(jumps(read(0), 1, mm)) is jump, mm
    assert jumps(read(), 0, -30) == ""  # the first has none before it
    assert jumps(read(), 0, 0, -11) == (
        "Line 1 jumps from point 1 to 2, down 11 mm: level, then 11 mm below."
    )
    assert jumps(read(0, 0), 2, 11, 0) == (
        "Line 1 jumps from point 2 to 3, up 11 mm and 3 to 4, down 11 mm: "
        "level, then 11 mm above, then level."
    )
    assert [_way(Fraction(step)) for step in (1, -1)] == ["up", "down"]


def test_a_value_put_right_is_held_against_both_beside_it() -> None:
    line = read(0, 0, 0, -30)
    assert jumps(line, 1, -11) == (
        "Line 1 jumps from point 1 to 2, down 11 mm and 2 to 3, up 11 mm: "
        "level, then 11 mm below, then level."
    )
    assert jumps(line, 0, -11) == (
        "Line 1 jumps from point 1 to 2, up 11 mm: 11 mm below, then level."
    )
    assert jumps(line, 2, -20) == (
        "Line 1 jumps from point 2 to 3, down 20 mm: level, then 20 mm below."
    )
    assert jumps(line, 3, -5) == ""  # the last jumps no more
    assert jumps(line, 2, -10) == (
        "Line 1 jumps from point 3 to 4, down 20 mm: 10 mm below, then 30 mm below."
    )
    assert jumps(line, 1, 0) == ""  # what jumps elsewhere is none of it


def test_values_of_two_set_ups_are_not_held_against_each_other() -> None:
    assert jumps(read(0, set_ups=(0,)), 1, -30)
    assert jumps(read(0, set_ups=(1,)), 1, -30) == ""
    # a value put right stays with the set-up that it was read from
    line = read(0, 0, 0, set_ups=(1, 1, 1))
    assert jumps(line, 1, -30).count("30 mm and") + jumps(line, 1, -30).count("30 mm:") == 2
    assert jumps(read(0, 0, 0, set_ups=(1, 0, 1)), 1, -30) == ""


def test_a_line_takes_as_many_values_as_its_run_holds() -> None:
    floor = Site(*ROOM, LINE, "values 0 0 0")
    line = open_line(floor)
    for count, over in ((5, False), (6, True), (4, False)):
        assert bool(_too_many(floor.job, line, count)) is over
    ((text, spoken),) = _too_many(floor.job, line, 6)
    assert text == (
        "Line 1 is 2 m, 5 values at its spacing; this would be 6. If it is through: end line."
    )
    assert spoken == "That would be six values; the line takes five."
    named = open_line(Site(*ROOM, "line 1 from A1 to B1 every 500 mm"))
    assert "Line 1 to B1 is 2 m" in _too_many(floor.job, named, 6)[0][0]
    # once more were confirmed, no more is asked about putting them right
    floor.told("values 0 0 0")
    assert _too_many(floor.job, open_line(floor), 6) == []
    assert _too_many(floor.job, open_line(floor), 7)
    assert _too_many(floor.job, read(*[0.0] * 99), 100) == []


def test_the_first_value_off_the_floor_around_is_told_with_how_many_more(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    job, line = Site(*ROOM).job, read(0, -1)
    readings = [Reading(Decimal(value), "mm") for value in (-9, -8, -7)]
    first, second = LineDoubt(4, -8.0, -1.4, 1.6), LineDoubt(5, -7.0, -1.4, 1.6, by_plan=True)
    around = "The floor around says 1 mm below the zero, give or take 3 mm."
    planned = "The planned finish says 1 mm below the zero, give or take 3 mm."
    for doubts, told in (
        ((), ""), ((first,), f"Line 1 point 4 8 mm below? {around}"),
        ((second,), f"Line 1 point 5 7 mm below? {planned}"),
        ((first, second), f"Line 1 point 4 8 mm below? {around} So are 1 more."),
    ):  # fmt: skip
        monkeypatch.setattr(line_doubts, "doubts_about", lambda *_of, doubts=doubts: doubts)
        found = line_doubts._off_floor(job, line, readings, 2)
        assert "".join(text for text, _ in found) == told
    ((_, spoken),) = found
    assert spoken.startswith("Point four, ")
    assert [line_doubts._way(Fraction(step)) for step in (Fraction(1, 2), -1)] == ["up", "down"]


def test_the_same_again_is_the_last_value_of_the_line() -> None:
    floor = Site(*ROOM, LINE, "values 0 -1 -2")
    same = resolve(floor.job, TakeSame(None))
    assert same == TakeLineValues((Reading(Decimal(-2), "mm"),), 1)
    for command, named in (
        (TakeLineValues((Reading(Decimal(-2), "mm"),)), 1), (EndLine(None), 1), (EndLine(7), 7),
        (CorrectLineValue(Reading(Decimal(-2), "mm"), 1), 1),
    ):  # fmt: skip
        assert resolve(floor.job, command).line == named  # type: ignore[attr-defined]
    with pytest.raises(Refusal, match="no value yet that could be the same"):
        resolve(Site(*ROOM, LINE).job, TakeSame(None))


def test_values_are_put_right_by_numbers_that_are_there() -> None:
    floor = Site(*ROOM, LINE, "values 0 -1 -2")
    for number, there in ((1, True), (3, True), (4, False)):
        line = f"line 1 point {number} is minus 3"
        if there:
            assert asked_or_taken(floor, line) == ""
        else:
            assert "has 3 values, and no number 4 to put right" in floor.refused(line)
    assert [float(each.mm) for each in open_line(floor).values] == [-3, -1, -3]


def test_a_value_far_from_the_zero_is_asked_about_by_its_number() -> None:
    floor = Site(*ROOM, LINE, "values 0 -1")
    assert "Line 1 point 4 450 mm below: that is far from the zero." in asked_or_taken(
        floor, "values -2 -450"
    )
    assert "Line 1 point 2 450 mm below" in asked_or_taken(floor, "line 1 point 2 is minus 450")
    question = floor.asked("5")
    assert question.text == "Line 1 point 3, 5 mm: below or above?"
    assert floor.asked("line 1 point 2 is 5").text.startswith("Line 1 point 2, 5 mm: below")


def test_a_line_ends_at_once_only_where_it_is_full() -> None:
    floor = Site(*ROOM, LINE)
    assert "no value yet" in floor.refused("end line")
    floor.told("values 0 -1 -2 -1")
    assert "Line 1 has 4 of 5 values, 1.5 m of 2 m." in floor.asked("end line").text
    floor.told("-1")
    assert asked_or_taken(floor, "end line") == ""
    assert "ended already" in floor.refused("end line 1")
    over = Site(*ROOM, LINE, "values 0 -1 -2 -1 -1 -1")
    assert asked_or_taken(over, "end line") == ""
    nowhere = Site("line 1 every 500 mm", "values 0 -1")
    assert asked_or_taken(nowhere, "end line") == ""
