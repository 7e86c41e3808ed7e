"""Rows filled with values that are worded otherwise, that only sound so, or are one's own words."""

from __future__ import annotations

import pytest

from grammar.commands import Command
from grammar.contractions import in_full
from grammar.filling import asked_for, filled, lacking_of, slots_of
from grammar.in_pieces import readings_of
from grammar.language import short_form
from grammar.likely import rows_named
from grammar.values_meant import lines_of
from grammar.values_said import values_said
from grammar.words import split_words, without_courtesies


def _filled(row: str, line: str) -> Command | None:
    words = [split_words(line), *without_courtesies(split_words(line))][-1]
    words = in_full(words) or words
    for values in lines_of(line, words, ()):
        for phrase in rows_named(row):
            command, _ = filled(phrase, values, words, line)
            if command is not None:
                return command
    return None


def _asked(row: str, line: str) -> str:
    words = split_words(line)
    return next(
        (
            question
            for values in lines_of(line, words, ())
            for phrase in rows_named(row)
            if (question := lacking_of(phrase, values, words))
        ),
        "",
    )


@pytest.mark.parametrize(
    ("row", "line", "form"),
    [
        ("TakeReading", "See three minus ate.", "C3 -8"),
        ("GoTo", "Go to be too.", "go to B2"),
        ("AddJointAlong", "Joint along column see.", "joint along column C"),
        ("MeasureDoor", "Door too left minus for right minus ate.", "door 2 left -4 right -8"),
        ("SetRoom", "Room. For point five by three metres.", "room 4.5 by 3 m"),
        ("SetRoom", "Room twelve buy nine metres.", "room 12 by 9 m"),
        ("RaiseFinish", "Rays finish for millimetres.", "raise finish 4 mm"),
        ("TakeSlabHumidity", "Slab humidity seventy ate percent.", "slab humidity 78 percent"),
        ("SetPump", "Pump ate tea bags per hour.", "pump 80 bags per hour"),
        ("TakeAirTemperature", "Air ate teen degrees", "air 18 degrees"),
    ],
)
def test_what_a_phone_writes_is_tried_where_nothing_else_fills_a_row(
    row: str, line: str, form: str
) -> None:
    assert short_form(_filled(row, line)) == form  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("line", "form"),
    [
        (
            "pier 18 in by 24 in at 12 ft by 9 ft",
            "column 18 by 24 in at 12 by 9 ft",
        ),
        (
            "a cupboard 1.2 by 0.6 stands with its middle at 5 by 0.3 metres",
            "cabinet 1.2 by 0.6 m at 5 by 0.3 m",
        ),
        (
            "island 2 x 1 m near corner 3.2 x 2.4",
            "cabinet 2 by 1 m corner at 3.2 by 2.4 m",
        ),
        (
            "add a column, 0.4 by 0.6 metres, the corner towards A1 is 3.8 by 2.2 m",
            "column 0.4 by 0.6 m corner at 3.8 by 2.2 m",
        ),
        (
            "square pier 18 in at 10 ft by 8 ft",
            "square column 18 in at 10 by 8 ft",
        ),
        (
            "take off a square pier, 0.55 m each side, at 2 by 6 m",
            "square column 0.55 m at 2 by 6 m",
        ),
        (
            "Hole point two by point three. At for by two metres.",
            "hole 0.2 by 0.3 m at 4 by 2 m",
        ),
    ],
)
def test_a_thing_has_its_size_and_its_place(line: str, form: str) -> None:
    assert short_form(_filled("AddObstacle", line)) == form  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "line",
    [
        "shaft 1.2 x 0.8 at 6 x 4",
        "duct 400 x 150 at 3.5 by 1.5 m",
        "square column 0.5 at 4 x 3",
    ],
)
def test_a_size_without_a_unit_is_asked_about(line: str) -> None:
    # 400 beside metres is no number of them, and where no unit was said, none is made up.
    assert _filled("AddObstacle", line) is None
    assert "in which unit" in _asked("AddObstacle", line)


@pytest.mark.parametrize(
    ("row", "line", "form"),
    [
        ("TakeLine", "row 4 minus 20, 21, 19, 22", "row 4 -20 -21 -19 -22"),
        ("TakeLine", "column A 10 12 11 below", "row A -10 -12 -11"),
        ("TakeLine", "Row too minus ate minus nine minus seven.", "row 2 -8 -9 -7"),
        ("TakeRun", "carrying on: minus 9, minus 7, minus 6", "-9 -7 -6"),
        ("TakeRun", "take four in a row, minus 17, minus 16, plus 1", "-17 -16 +1"),
        ("TakeReadings", "A4 keeps going minus 12, minus 14, minus 13", "A4 -12 14 13"),
        ("TakeLineValues", "plus 2, plus 2, plus 1, zero", "values +2 +2 +1 level"),
        ("TakePoints", "A3 zero, A4 minus 1", "A3 level, A4 -1"),
        ("CorrectLineValue", "line 2, 7th value minus 3", "line 2 point 7 is -3"),
        ("CorrectLineValue", "point 8 on line 2, it reads -1", "line 2 point 8 is -1"),
        ("CorrectLineValue", "Line three point ate is zero", "line 3 point 8 is level"),
    ],
)
def test_heights_one_after_the_other(row: str, line: str, form: str) -> None:
    assert short_form(_filled(row, line)) == form  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("row", "line"),
    [
        ("TakeRun", "minus 3, 1, 9"),
        ("TakeLineValues", "next: 3, 2, 2, 1"),
        ("TakeLine", "row 2 minus 2, 0, 3"),
    ],
)
def test_a_sign_is_not_carried_where_that_is_not_clear(row: str, line: str) -> None:
    assert _filled(row, line) is None
    assert _asked(row, line).endswith("below or above?")


@pytest.mark.parametrize(
    ("row", "line"),
    [
        # A number that was said is left over, or stands for another thing.
        ("TakeRun", "minus ate, minus nothing, minus six"),
        ("AddZone/kind=rows", "rows 3 to 5 and rows 7 to 9 are the bar"),
        ("AddZone/kind=columns", "columns C to E, left of D1 to D8, are the bar"),
        ("SetPump", "one bag a minute through the pump"),
        ("SetBatchTime", "reckon 390 seconds between batches"),
        ("SetFall", "pitch 1/4 in per ft to C1"),
        ("SetFall", "1 in 60 towards A6"),
        ("TellFlow", "flow one forty eight hundred millimetres"),
        ("MeasureGap", "gap 4 mm, 5 mm and 6 mm under 2 m at A3"),
        ("RenameJob", "can you rename the job"),
        ("SetAddress", "address is, what is it again"),
        ("DropZone", "forget that it was a separate zone"),
        ("FinishOverHighest", "highest minus 3"),
        ("CorrectReading", "A1 is minus 5 and minus 15"),
    ],
)
def test_nothing_is_made_up(row: str, line: str) -> None:
    assert _filled(row, line) is None


@pytest.mark.parametrize(
    ("row", "line", "form"),
    [
        ("AddZone/kind=rows", "the office is all of rows 7 to 9", "zone office rows 7 to 9"),
        ("AddZone/kind=columns", "call columns E to G shop", "zone shop columns E to G"),
        ("AddZone/kind=left", "all left of E1 to E6, bar", "zone bar left of E1 to E6"),
        (
            "AddZone/kind=below",
            "Below be three to ee three is the hall",
            "zone hall below B3 to E3",
        ),
        ("AddJointBetween", "joint between rows 3 and 4", "joint between 3 and 4"),
        ("MarkStep", "the slab steps down between row 4 and row 5", "step between 4 and 5"),
        (
            "AskWarmLeg",
            "half a metre of hose at 30, rest 19",
            "leg rising 0.5 m at 30 degrees rest at 19 degrees",
        ),
        (
            "AskWarmLeg",
            "2 foot leg at 85, rest at 68 fahrenheit",
            "leg rising 2 ft at 85 degrees fahrenheit rest at 68 degrees fahrenheit",
        ),
        ("MeasureGap", "gap 4 mm under 2 m at A3", "gap 4 mm under 2 m at A3"),
        ("MeasureGap", "at D4 a 2 metre edge shows 4 mm", "gap 4 mm under 2 m at D4"),
        ("SetOwnSpec", "the allowance is 3/16 of an inch over 6 feet", "spec 3/16 in under 6 ft"),
        ("TakeEmission", "3.8 pounds per 1000 sq ft a day", "moisture emission 3.8"),
        ("SetMixWater", "water 5200 ml", "water 5.2 litres a bag"),
        ("SetFall", "falls 12 mm/m to F2", "fall 1.2 percent towards F2"),
        ("AskOrder", "order, risk 1 in 50", "order risk 2 percent"),
        ("CheckBenchmark", "checking BM2, minus 1", "check benchmark 2 -1"),
        ("MeasureOutside", "put door 4's outside at minus 3 mm", "door 4 outside -3 mm"),
        ("AskLine", "let's see line 3 in full", "line 3"),
        ("CorrectReading", "A1 is minus 5 not minus 15", "correct A1 -5"),
        ("CorrectReading", "replace the minus 18 at C6 by minus 16", "correct C6 -16"),
        ("CorrectReading", "D2 reads eleven below rather than twelve", "correct D2 -11"),
        ("FinishOverHighest", "highest + 3", "finish 3 over highest"),
        ("FixHeight", "pin A5 to zero", "fix A5 at level"),
        ("DropZone", "get rid of that wetroom zone", "drop zone wetroom"),
        ("SetZoneFinish", "Bring zone studio to plus 2 mm", "finish in zone studio +2 mm"),
        ("PlaceDam", "dam at B", "dam at column B"),
        ("SetGrid", "space them evenly, 1 metre and a quarter", "grid 1.25 m"),
        ("MeasureDoor", "door 2 L -6 R -8", "door 2 left -6 right -8"),
    ],
)
def test_values_worded_otherwise(row: str, line: str, form: str) -> None:
    assert short_form(_filled(row, line)) == form  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("row", "line", "form"),
    [
        (
            "SetAddress",
            "This job is at 31 Orchard Rise, second floor.",
            "address 31 Orchard Rise, second floor",
        ),
        ("SetClient", "Put the client down as Mr Example.", "client Mr Example"),
        ("SetClient", "um, client's the fella that owns it", "client is the fella that owns it"),
        ("RenameJob", "I'd like the name changed to old dairy.", "rename job to old dairy"),
        ("CopyJob", "Make a copy of this job called hall upstairs.", "copy job to hall upstairs"),
        ("BringJobBack", "ward 6 back please", "bring back job ward 6"),
        (
            "AcceptReason/matter=weight",
            "Please accept the load, our structural man's approved it.",
            "accept weight because our structural man's approved it",
        ),
        ("SkipStep", "no doors here so skip this", "skip because no doors here"),
        ("TakeNote", "paint on the slab, note B1", "note at B1 paint on the slab"),
        (
            "TellLeftOver",
            "reason for the leftovers is that the ridge was planed off",
            "left over because the ridge was planed off",
        ),
    ],
)
def test_words_of_ones_own_are_kept_as_they_were_said(row: str, line: str, form: str) -> None:
    assert short_form(_filled(row, line)) == form  # type: ignore[arg-type]


def test_a_line_every_so_much_is_asked_for_its_unit() -> None:
    asked = _asked("StartLine", "run 2 from B2 to F2 each 300")
    assert asked == "Line 2 from B2 to F2 every 300: in which unit?"


def test_words_of_ones_own_are_taken_only_of_the_line_as_it_was_said() -> None:
    words = split_words("the client is the smithy")
    assert filled(rows_named("SetClient")[0], (), words) == (None, 0)


def test_what_only_sounds_like_a_point_is_named_in_what_is_asked() -> None:
    words = split_words("drain at see two")
    (row,) = (row for row in rows_named("AddDrain") if row.command.__name__ == "AddDrain")
    assert lacking_of(row, values_said(words)[0], words) == "Drain at C2 how high?"


def test_tens_and_a_digit_are_one_number_of_a_row() -> None:
    def point(line: str) -> str:
        pieces = next(iter(readings_of(split_words(line))))
        return next(piece.text for piece in pieces if piece.kind == "point")

    assert point("drain at b twenty three") == "b23"
    assert point("drain at b twenty minus nine") == "b20"
    assert point("drain at b twenty, three") == "b20"


@pytest.mark.parametrize(
    ("row", "question"),
    [
        ("AskBagsEnough", "How many bags?"),
        ("AskBagsReach", "How many bags?"),
        ("SetBatch", "Batches of how many bags?"),
        ("FinishStrip", "Strip which number done?"),
    ],
)
def test_what_is_counted_is_asked_for_by_how_many(row: str, question: str) -> None:
    (phrase,) = rows_named(row)
    (gap,) = (gap for gap, optional in slots_of(phrase.nodes) if not optional)
    assert asked_for(phrase, {}, [gap]) == question
