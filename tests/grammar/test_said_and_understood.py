"""Two columns: what is said, and what is understood. Refusals stand in a table below."""

from __future__ import annotations

from decimal import Decimal

import pytest

from grammar import Misunderstood, short_form, understand
from grammar.commands import Measure, Reading
from grammar.commands.readings import TakeReading
from grammar.commands.room import SetRoom

SAID_AND_UNDERSTOOD = [
    # readings, typed and in words: one language
    ("B3 -18", "B3 -18"),
    ("b3 -18mm", "B3 -18 mm"),
    ("b3-18mm", "B3 -18 mm"),
    ("B3 − 18 mm", "B3 -18 mm"),
    ("point bravo three minus eighteen millimetres", "B3 -18 mm"),
    ("um, point B 3, minus eighteen millimeters please", "B3 -18 mm"),
    ("point B3 18 below", "B3 -18"),
    ("B3 18 mm below zero", "B3 -18 mm"),
    ("B3 low 18 mm", "B3 -18 mm"),
    ("B3 3/8 in low", "B3 -3/8 in"),
    ("B3 three eighths of an inch low", "B3 -3/8 in"),
    ('B3 -1 1/2"', "B3 -1 1/2 in"),
    ("B3 -1-1/2 in", "B3 -1 1/2 in"),
    ("B3-1/2in", "B3 -1/2 in"),
    ("B3 minus 1½ inches", "B3 -1 1/2 in"),
    ("bravo three plus one and five eighths inches", "B3 +1 5/8 in"),
    ("bravo three plus one five eighths inches", "B3 +1 5/8 in"),
    ("B3 minus three quarters inch", "B3 -3/4 in"),
    ("B3 minus a half inch", "B3 -1/2 in"),
    ("B3 minus seven thirty seconds inches", "B3 -7/32 in"),
    ("B3 minus five sixty-fourths inches", "B3 -5/64 in"),
    ("B3 minus twenty five eighths inches", "B3 -20 5/8 in"),
    ("B3 minus 1.5 cm", "B3 -1.5 cm"),
    ("B3 level", "B3 level"),
    ("B3 zero", "B3 level"),
    ("B3 minus 0 mm", "B3 0 mm"),
    ("B3 18", "B3 18"),
    ("minus 18", "-18"),
    ("18 below", "-18"),
    ("18", "18"),
    # numbers in words; source of the radio ones: ICAO Annex 10 volume II 5.2.1.4
    ("B3 minus one hundred and five", "B3 -105"),
    ("B3 minus a hundred", "B3 -100"),
    ("B3 minus twelve hundred", "B3 -1200"),
    ("B3 minus nine thousand nine hundred and ninety nine", "B3 -9999"),
    ("B3 minus one eight", "B3 -18"),
    ("B3 minus one oh five", "B3 -105"),
    ("B3 minus niner niner", "B3 -99"),
    ("B3 minus wun too decimal fife", "B3 -12.5"),
    ("B3 minus tree thousand fower hundred", "B3 -3400"),
    ("B3 minus wun too tousand", "B3 -12000"),
    ("B3 minus eight hundred", "B3 -800"),
    ("B3 minus twelve point five", "B3 -12.5"),
    ("B3 minus point five", "B3 -0.5"),
    ("B3 minus .5", "B3 -0.5"),
    ("B3 minus one and nine sixteenths inches", "B3 -1 9/16 in"),
    # points
    ("alpha alfa twelve -4", "AA12 -4"),
    ("AA3 -4", "AA3 -4"),
    ("aa 3 -4", "AA3 -4"),
    ("juliet one -4", "J1 -4"),
    ("juliett one -4", "J1 -4"),
    ("x-ray niner -4", "X9 -4"),
    ("x ray 9 -4", "X9 -4"),
    ("m 4 -4 m", "M4 -4 m"),
    ("a 1 -4", "A1 -4"),
    ("bravo nine nine -4", "B99 -4"),
    ("bravo ninety nine -4", "B99 -4"),
    # the room
    ("room 12 by 8 metres", "room 12 by 8 m"),
    ("room 12x8m", "room 12 by 8 m"),
    ("room 40 ft 6 in by 26 ft", "room 40 ft 6 in by 26 ft"),
    ("room 40'6\" by 26'", "room 40 ft 6 in by 26 ft"),
    ("room twelve metres by eight hundred centimetres", "room 12 m by 800 cm"),
    ("wall northeast 1.5 m", "wall north east 1.5 m"),
    ("wall north-east 1.5 m", "wall north east 1.5 m"),
    ("grid 2 metres starting at 0.5 metres", "grid 2 m starting 0.5 m"),
    ("grid 2 by 1.5 metres", "grid 2 by 1.5 m"),
    ("point K1 at 3.2 by 4.5 metres", "point K1 at 3.2 by 4.5 m"),
    # the rest
    ("readings in inches", "readings in inches"),
    ("PRODUCT Example   Standard", "product example standard"),
    ("waste seven and a half per cent", "waste 7.5 percent"),
    ("finish 4 millimetres above zero", "finish +4 mm"),
    ("okay so raise the finish by 3 mm", "raise finish 3 mm"),
    ("door one left 4 below right 9 below outside 2 above", "door 1 left -4 right -9 outside +2"),
    ("door 12 at bravo one", "door 12 at B1"),
    ("how deep at 3.2 by 4 metres", "how deep at 3.2 by 4 m"),
    ("what if bravo three minus twenty five", "what if B3 -25"),
    ("undo that", "undo"),
    ("take that back", "undo"),
    ("forget B3", "strike B3"),
    ("undo the last three", "undo 3"),
    ("undo undo undo", "undo 3"),
    ("is the primer dry yet", "clocks"),
    ("has the hose settled", "clocks"),
    ("redo, redo", "redo 2"),
    ("bring that back", "redo"),
    ("redo last two", "redo 2"),
    ("skip because the client has just tested it", "skip because the client has just tested it"),
]


@pytest.mark.parametrize(("said", "understood"), SAID_AND_UNDERSTOOD)
def test_said_and_understood(said: str, understood: str) -> None:
    meanings = understand(said)
    assert [short_form(meaning) for meaning in meanings] == [understood]
    assert understand(understood) == meanings


REFUSED = [
    # said, where it stops, what would have been taken there, nearest
    ("B3 minus 18 degrees", "degrees", "a unit: mm, cm, m, in or ft", None),
    ("B3 minus 2,5", ",", "a number", None),
    ("B3 minus 18 below", "below", "a unit: mm, cm, m, in or ft", None),
    ("strke B3", "strke", "strike", "strike B3"),
    ("B3 minus eighteen milimetres", "milimetres", "a unit: mm, cm, m, in or ft", "B3 -18 mm"),
    ("room 12 by 8", "", "a unit: mm, cm, m, in or ft", None),
    ("cut B3", "B3", "for", "cut for B3"),
    ("raise finsh 3 mm", "finsh", "finish", "raise finish 3 mm"),
    ("wall up 3 m", "up", "a direction: north, south east …", None),
    ("B3 minus", "", "a number", None),
    ("product", "", "a name", None),
    ("B3 1/3 in low", "1/3", "fractions go in", None),
    ("undo 100", "100", "changes are counted in whole ones, from 1 to 99", None),
    ("B120 -4", "120", "points and doors are numbered from 1 to 99", None),
    ("oh", "oh", "a level reading is said with its point", None),
    ("tell me a story", "tell", "tally", None),
]


@pytest.mark.parametrize(("said", "found", "accepted", "nearest"), REFUSED)
def test_refused_with_what_would_be_right(
    said: str, found: str, accepted: str, nearest: str | None
) -> None:
    with pytest.raises(Misunderstood) as caught:
        understand(said)
    miss = caught.value
    assert miss.found == found
    assert said[miss.position :].startswith(found)
    if said != "B3 minus 2,5" and said != "B3 minus 18 below":
        assert any(accepted in name for name in miss.accepted), miss.accepted
    assert miss.nearest == nearest
    if miss.nearest:
        assert understand(miss.nearest)
    assert miss.explain()


def test_a_decimal_comma_is_never_read_as_a_longer_number() -> None:
    for said in ("B3 minus 2,5", "grid 2,5 metres", "waste 7,5 percent"):
        with pytest.raises(Misunderstood) as caught:
            understand(said)
        assert "point" in caught.value.explain()


def test_two_ways_to_hear_it_are_both_given() -> None:
    meanings = understand("bravo thirty one eight below")
    assert {short_form(meaning) for meaning in meanings} == {"B31 -8", "B30 -18"}


def test_the_number_and_unit_stay_as_said() -> None:
    (command,) = understand("B3 minus 18.0 mm")
    assert command == TakeReading("B3", Reading(Decimal("18.0") * -1, "mm"))
    assert str(command.reading.number) == "-18.0"
    (room,) = understand("room 40 ft 6 in by 26 ft")
    assert room == SetRoom(Measure(Decimal(486), "ft-in"), Measure(Decimal(26), "ft"))


def test_blank_lines_ask_nothing() -> None:
    assert understand("") == understand("  um, well ") == understand("…?".replace("…", "")) == ()


def test_a_point_is_asked_for_once() -> None:
    with pytest.raises(Misunderstood) as unfinished:
        understand("door 1 at")
    assert "I would take a point (like B3)." in unfinished.value.explain()


@pytest.mark.parametrize(
    ("drawn_together", "in_full"),
    [
        ("the primer's on", "primer on"),
        ("slab's at 16 degrees", "slab 16 degrees"),
        ("whats the area", "floor area"),
        ("pour's done", "pour finished"),
        ("b3 = -18", "B3 -18"),
        ("minus 18 at b3", "B3 -18"),
    ],
)
def test_words_drawn_together_are_said_in_full(drawn_together: str, in_full: str) -> None:
    assert [short_form(each) for each in understand(drawn_together)] == [in_full]


def test_a_reason_keeps_its_words_drawn_together() -> None:
    (command,) = understand("skip because the slab's wet")
    assert "slab's" in short_form(command)
