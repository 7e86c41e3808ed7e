"""The last value that is taken, and the first that is not: both sides of every bound."""

from __future__ import annotations

import pytest

from grammar import Misunderstood, short_form, understand

TAKEN = [
    ("room 5 ft 11 in by 8 ft", "room 5 ft 11 in by 8 ft"),
    ("room 5 ft 11 1/2 in by 8 ft", "room 5 ft 11 1/2 in by 8 ft"),
    # the unit is said once only where one unit is both numbers' own
    ("room 5 ft 6 in by 8 ft 6 in", "room 5 ft 6 in by 8 ft 6 in"),
    ("room 5 ft 6 in by 5 ft 6 in", "room 5 ft 6 in by 5 ft 6 in"),
    ("B1 -4", "B1 -4"),
    ("bravo ninety nine minus four", "B99 -4"),
    ("door 1 at B1", "door 1 at B1"),
    ("door 99 at B1", "door 99 at B1"),
    ("undo 1", "undo 1"),
    ("undo 99", "undo 99"),
    # thirty and sixty are the tens of parts of an inch
    ("B3 low three thirty seconds", "B3 -3/32"),
    ("B3 five sixty fourths of an inch below", "B3 -5/64 in"),
    # several readings of one height, the unit said once or not at all
    ("B3 -17 18 mm", "B3 -17 18 mm"),
    ("B3 -17 18", "B3 -17 18"),
    ("B3 +0 18 19 mm", "B3 +0 18 19 mm"),
]

REFUSED = [
    ("room 5 ft 12 in by 8 ft", "feet and inches go together as 13 ft 6 in"),
    ("room 5.5 ft 6 in by 8 ft", "feet and inches go together as 13 ft 6 in"),
    ("B0 -4", "points and doors are numbered from 1 to 99"),
    ("B100 -4", "points and doors are numbered from 1 to 99"),
    ("door 0 at B1", "readings and changes are counted in whole ones, from 1 to 99"),
    ("undo 0", "readings and changes are counted in whole ones, from 1 to 99"),
    ("B3 three twenty seconds of an inch below", None),
    ("B3 five thirty fourths of an inch below", None),
    ("B3 five sixty seconds of an inch below", None),
]


@pytest.mark.parametrize(("said", "understood"), TAKEN)
def test_the_last_that_is_taken(said: str, understood: str) -> None:
    meanings = understand(said)
    assert [short_form(meaning) for meaning in meanings] == [understood]
    assert understand(understood) == meanings


@pytest.mark.parametrize(("said", "rule"), REFUSED)
def test_the_first_that_is_not(said: str, rule: str | None) -> None:
    with pytest.raises(Misunderstood) as refused:
        understand(said)
    if rule is not None:
        assert any(rule in str(want) for want in refused.value.accepted)
