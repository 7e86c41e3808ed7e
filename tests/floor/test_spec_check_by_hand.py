"""Limits against readings, rule by rule, on lines written down by hand. Exact arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from assistant.flatness.verdicts import LimitVerdict
from assistant.floor.f_limits import whole_f
from assistant.floor.limit_check import LimitCheck
from assistant.floor.profiles import COLUMNS, GRID, LINE, ROWS, SCAN, Lines
from assistant.floor.spec_check import (
    _together,
    _Tried,
    _what_tells,
    _worst_of,
    found_of,
    held_to,
    overall_verdict,
    place_on,
)
from assistant.levels.arrays import FloatArray
from assistant.limits.specs import Spec, SpecLimit
from tests.job.conftest import Site

ROOM = ("room 6 by 4 metres", "grid 0.5 metres")
FINE = ("instrument resolution 0.01 mm", "instrument repeatability 0.05 mm")


def lines(
    kind: str = GRID,
    heights: Sequence[Sequence[float]] = ((0, 0, 0),),
    spacing: float = 0.5,
    direction: str = ROWS,
    turned: bool = False,
    names: tuple[tuple[str, ...], ...] = (("A1", "B1", "C1"),),
) -> Lines:
    table = np.array(heights, dtype=float)
    count, n = table.shape
    along: FloatArray = np.arange(n, dtype=np.float64) * spacing
    places = np.zeros((count, n, 2))
    places[:, :, 1 if turned else 0] = along
    places[:, :, 0 if turned else 1] = np.arange(count)[:, None]
    ids = tuple(f"{kind} {number + 1}" for number in range(count))
    return Lines(kind, direction, ids, along, table, places, names, 1.0)


def tried(
    met: bool | None,
    value: float | None = 1.0,
    edge: float = 2.0,
    limit: float = 3.0,
    each: int | None = None,
    **of: Any,
) -> _Tried:
    at = ("A1", "B1", "A1")
    return _Tried(lines(**of), LimitVerdict(met, each), value, limit, 1.0, at, edge)


SPEC = Spec("ours", "use", "a paper", "read", ())
GAP = SpecLimit("gap", Fraction(2), Fraction(3))


def found(met: bool | None) -> LimitCheck:
    return LimitCheck("ours: x", "ours", "x", met, 1.0, 2.0, "mm", None, "", "")


def test_all_limits_of_a_spec_and_each_of_its_ways() -> None:
    """A way that is met is called met; whether the whole is, only once the others have one."""
    for verdicts, of_all in (
        ((True, True), True), ((True, None), None), ((None, None), None),
        ((True, False), False), ((None, False), False), ((None,), None), ((), None),
    ):  # fmt: skip
        assert overall_verdict([found(met) for met in verdicts]) is of_all, verdicts


def test_what_the_floor_is_held_to() -> None:
    named = [spec.name for spec in held_to(Site(*ROOM, "spec SR1").job)]
    assert named == ["BS 8204 SR1"]
    (own,) = held_to(Site(*ROOM, "spec 3 mm under 2 m").job)
    assert (own.name, own.use, own.limits) == ("3 mm under 2 m", "your own limit", (GAP,))
    both = Site(*ROOM, "spec 1/8 in under 10 ft", "spec SR2").job
    assert [spec.name for spec in held_to(both)] == ["BS 8204 SR2", "1/8 in under 10 ft"]
    limit = held_to(both)[1].limits[0]
    assert (limit.length_m, limit.limit) == (Fraction(3048, 1000), Fraction(254, 80))
    assert held_to(Site(*ROOM, "spec SR2", "drop specs").job) == ()
    assert held_to(Site(*ROOM).job) == ()


def test_lines_together_are_met_where_every_one_that_the_edge_fits_is() -> None:
    for all_of_them, met in (
        ([], None),
        ([tried(True)], True), ([tried(None)], None), ([tried(False)], False),
        ([tried(True), tried(True, direction=COLUMNS)], True),
        ([tried(True), tried(None, direction=COLUMNS)], None),
        ([tried(True), tried(False, direction=COLUMNS)], False),
        # too short for the edge: it shows only what is not met
        ([tried(True), tried(None, edge=1.9)], True), ([tried(True, edge=1.9)], None),
        ([tried(True), tried(False, edge=1.9)], False),
        ([tried(True, edge=2.0 - 1e-7)], True), ([tried(True, edge=2.5)], True),
        # of two kinds of lines one that tells is enough
        ([tried(True, kind=LINE), tried(None)], True),
        ([tried(None, kind=SCAN), tried(None), tried(True)], None),
    ):  # fmt: skip
        assert _together(all_of_them, 2.0) is met, all_of_them


def worst(all_of_them: list[_Tried], notes: Sequence[str] = ()) -> LimitCheck:
    job = Site(*ROOM).job
    return _worst_of(job, SPEC, "gap under 2 m", 3.0, all_of_them, 2.0, list(notes))


def test_the_place_that_decides_is_the_furthest_over_of_those_that_say_so() -> None:
    out = worst([tried(True, 2.5), tried(False, 4.0, direction=COLUMNS), tried(False, 3.5)])
    assert (out.met, out.value, out.where) == (False, 4.0, f"A1, {COLUMNS}")
    # over by more, not larger: limits may differ
    out = worst([tried(False, 9.0, limit=8.5), tried(False, 4.0, direction=COLUMNS)])
    assert (out.value, out.limit) == (4.0, 3.0)
    # as far over with either: the larger
    out = worst([tried(False, 4.0), tried(False, 9.0, limit=8.0)])
    assert out.value == 9.0
    # "met" is said of what was met, not of what is open
    out = worst([tried(True, 1.0, kind=LINE), tried(None, 2.0)])
    assert (out.met, out.value, out.tells) == (True, 1.0, "")
    out = worst([tried(None, None), tried(None, 0.5)])
    assert out.value == 0.5  # none found is nothing, not one
    out = worst([tried(True, None), tried(True, 0.0)])
    assert (out.met, out.where) == (True, ROWS)
    out = worst([])
    assert (out.met, out.value, out.limit) == (None, None, 3.0)
    assert out.tells == "three readings in a row, on the grid or along a line"
    assert (out.id, out.source, out.unit) == ("ours: gap under 2 m", "a paper (read)", "mm")


def test_met_in_one_direction_is_said_and_not_where_both_were_read() -> None:
    one_way = "Met in the one direction that was read; the other was not."
    assert worst([tried(True)]).notes == (one_way,)
    assert worst([tried(True), tried(True, direction=COLUMNS, turned=True)]).notes == ()
    assert worst([tried(False)], ["so"]).notes == ("so",)
    assert worst([tried(None)]).notes == ()


def test_what_would_tell() -> None:
    job = Site(*ROOM).job

    def tells(length: float = 2.0, **of: Any) -> str:
        return _what_tells(job, tried(None, **of), length)

    assert tells(edge=1.5) == "readings in a line as long as 2 m"
    assert tells(each=4) == "A1, B1 read 4 times each in all"
    assert tells(each=4, edge=2.0 - 1e-7) == "A1, B1 read 4 times each in all"
    assert tells(each=4, kind=SCAN) == "a finer scan near A1, or a line read there"
    apart = tells(spacing=1.0)
    assert apart == "a line read every 0.3 m, as points 1 m apart show little under 2 m"
    # points half a metre apart miss 1 - cos 45° of a wave of 2 m, 29 %: of 3 mm, 0.88
    closer = "closer readings: 0.5 m apart they miss up to 29 % of a wave of 2 m"
    finer = "a finer instrument: the limit is nearer than these readings can tell"
    for value, told in ((3.0, closer), (2.2, closer), (2.1, finer), (3.1, finer), (None, finer)):
        assert tells(value=value) == told, value
    assert tells(each=26) == finer  # oftener than anybody would
    assert tells(value=None, limit=1.1) == finer  # nothing found is nothing, not one
    assert tells(each=26, kind=SCAN) == finer
    inches = Site("readings in inches", *ROOM).job
    told = _what_tells(inches, tried(None, spacing=1.0), 2.0)
    assert told.startswith("a line read every 1 ft")


def test_a_place_is_its_point_or_how_far_along() -> None:
    job = Site("room 6 by 4 metres").job
    grid = lines(heights=((0, 0, 0), (0, 0, 0)), names=(("A1", "B1", "C1"), ("A2", "", "C2")))
    for line, along, told in (
        (0, 0.5, "B1"), (0, 0.5 + 1e-7, "B1"), (0, 0.5 - 1e-7, "B1"), (1, 1.0, "C2"),
        (0, 0.6, "grid 1 at 0.6 m"), (1, 0.5, "grid 2 at 0.5 m"), (1, 0.25, "grid 2 at 0.25 m"),
    ):  # fmt: skip
        assert place_on(job, grid, line, along) == told, (line, along)
    assert place_on(job, lines(LINE), 0, 0.5) == "line 1 at 0.5 m"
    scan = lines(SCAN, heights=((0, 0, 0), (0, 0, 0)))
    told = place_on(job, scan, 1, 0.75)
    assert told == "0.8 m from the left wall, 1 m from the wall at row 1"
    nowhere = lines(SCAN)
    nowhere.places_m[:] = np.nan
    assert place_on(job, nowhere, 0, 0.5) == "scan 1 at 0.5 m"


def test_an_f_number_is_printed_whole() -> None:
    for number, shown in ((20.4, "20"), (20.5, "21"), (19.5, "20"), (0.2, "0"),
                          (float("inf"), "no bound")):  # fmt: skip
        assert whole_f(number) == shown


def flat(columns: str = "ABCDE", rows: int = 1, **changed: float) -> list[str]:
    points = [f"{column}{row}" for row in range(1, rows + 1) for column in columns]
    return [f"{point} -{10 + changed.get(point, 0):g}" for point in points]


def gap_of(limit: SpecLimit, *said: str) -> LimitCheck:
    spec = Spec("ours", "use", "a paper", "read", (limit,))
    (out,) = found_of(Site(*said).job, spec)
    return out


def test_no_gap_is_found_where_no_three_points_lie_under_the_edge() -> None:
    for length, value in ((1.0, None), (1.1, 0.0), (2.0, 0.0), (0.9, None)):
        limit = SpecLimit("gap", Fraction(str(length)), Fraction(3))
        out = gap_of(limit, *ROOM, *FINE, *flat())
        assert out.value == value, length
        assert out.test == f"gap under {length:g} m"
    # one that is found all the same is reported, and is the least there is
    wide = (
        "room 6 by 2 metres",
        "grid 1 metre starting 0 m",
        *FINE,
        "A1 level",
        "B1 -9",
        "C1 level",
    )
    assert gap_of(SpecLimit("gap", Fraction(2), Fraction(3)), *wide).value == pytest.approx(9)


def test_a_crest_higher_than_any_gap_is_told_where_only_contact_counts() -> None:
    crest = flat(A1=4, B1=1, D1=1, E1=4)
    contact, any_gap = (
        SpecLimit("gap", Fraction(2), Fraction(3), contact=c) for c in (True, False)
    )
    told = gap_of(contact, *ROOM, *FINE, *crest).notes
    assert any("A crest 4 mm high over 2 m reads 0 by ours" in note for note in told)
    assert not any("crest" in note for note in gap_of(any_gap, *ROOM, *FINE, *crest).notes)
    dish = gap_of(contact, *ROOM, *FINE, *flat(C1=9))
    assert not any("crest" in note for note in dish.notes)
    assert gap_of(contact, *ROOM).notes == ()
    even = gap_of(contact, *ROOM, *FINE, *flat(C1=0.5))  # half a millimetre down, and none up
    assert not any("crest" in note for note in even.notes)


def test_levels_by_neighbours_want_lines_evenly_read(monkeypatch: pytest.MonkeyPatch) -> None:
    three = Spec("ours", "use", "a paper", "read", held_to(
        Site(*ROOM, "spec DIN 18202 row 3").job)[0].limits[1:2])  # fmt: skip
    assert three.limits[0].test == "three points"
    even = ("room 12 by 8 metres", "grid 2 metres", *FINE, *flat("ABCDE", C1=25))
    (out,) = found_of(Site(*even).job, three)
    assert out.met is False
    assert out.value == pytest.approx(25)
    assert out.where == f"C1, {ROWS}"
    (nothing,) = found_of(Site(*even[:4]).job, three)
    assert (nothing.limit, nothing.value, nothing.sd) == (0.0, None, None)
    # a point off the middle of its neighbours by 1.1 % of the spacing; 0.9 % is nothing
    for late, value in ((0.045, None), (0.035, 25.0)):
        row = lines(heights=((0, -25, 0),), spacing=2.0)
        row.along_m[2] += late
        monkeypatch.setattr("assistant.floor.spec_check.lines_of", lambda _job, row=row: (row,))
        (out,) = found_of(Site(*even).job, three)
        assert out.value == (None if value is None else pytest.approx(value)), late


def test_how_far_off_the_finish_by_the_worst_point() -> None:
    spec = Spec("ours", "use", "a paper", "read", (SpecLimit("from finish", None, Fraction(15)),))

    def off(*said: str) -> LimitCheck:
        (out,) = found_of(Site("room 6 by 4 metres", "grid 2 metres", *said).job, spec)
        return out

    assert off().tells == "readings"
    assert (off().met, off().value) == (None, None)
    for said, met, value, where in (
        (("A1 -3", "B1 -30", "C1 +4"), False, 30, "B1"), (("A1 +30", "B1 -20"), False, 30, "A1"),
        (("A1 -5", "B1 +7"), True, 7, "B1"), (("A1 -15",), None, 15, "A1"),
        (("A1 -15", *FINE), None, 15, "A1"), (("A1 -16", *FINE), False, 16, "A1"),
        (("A1 -14", *FINE), True, 14, "A1"),
    ):  # fmt: skip
        out = off(*said)
        assert (out.met, out.value, out.where, out.limit) == (met, value, where, 15), said
        assert (out.tells == "") is (met is not None)
    # by 1 mm and a step of 1 mm, s = 1.04: one place takes (1.645 s / 0.6)² = 8.1 readings, the
    # worst of two (1.955 s / 0.6)² = 11.5; and a place counts from 15 - 2 s = 12.92 mm on
    assert off("A1 -15.6").tells == "A1 read 9 times in all"
    assert off("A1 -15.6", "B1 +13").tells == "A1 read 12 times in all"
    assert off("A1 -15.6", "B1 +12.9").tells == "A1 read 9 times in all"
