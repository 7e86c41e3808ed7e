"""Looks at a zero, rule by rule: how far off, which was misread, and what is sound."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.floor.heights import heights_of, survey_of
from assistant.floor.sights import Sight, heights_from, sights_of, ties_and_benchmark_sights
from assistant.floor.soundness import (
    FIRST_ALONE,
    Soundness,
    _in_doubt_themselves,
    _moved,
    _tying,
    soundness,
)
from assistant.floor.zero_checks import (
    Watch,
    ZeroLook,
    _contradicted,
    _never_back,
    _off_mm,
    minutes_of,
    watch_zero,
)
from assistant.job.set_ups import Height, KnownMark, SurveyState
from assistant.reply.times import UNTIMED
from grammar.commands import Measure
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres")


def height(mm: float, set_up: int = 0, order: int = 0) -> Height:
    return Height(Measure(Decimal(str(mm)), "mm"), Fraction(str(mm)), set_up, order)


def look(on: str | int | None, mm: float, order: int = 0, set_up: int = 0) -> KnownMark:
    return KnownMark(on, height(mm, set_up, order), check=True)


STATE = SurveyState(offset_mm=Fraction(2), benchmarks={1: height(40)})


def off(mark: KnownMark, *marks: KnownMark, seen: Sequence[ZeroLook] = (), set_up: int = 0) -> Any:
    return _off_mm(STATE, set_up, mark, [*marks, mark], list(seen))


def test_how_far_off_a_look_finds_the_zero() -> None:
    """The instrument shows 2 mm at its zero."""
    assert off(look(None, 5)) == 3
    assert off(look(None, -1)) == -3
    assert off(look("A1", 5)) is None  # a tie on a point is no look
    assert off(look(1, 45)) == 3
    assert off(look(1, 39)) == -3


def test_a_mark_of_unknown_height_is_held_against_the_first_look_at_it() -> None:
    at_rest = (ZeroLook(0, 0, 0.0),)
    drifted = (ZeroLook(0, 0, 0.0), ZeroLook(3, 5, 2.0))
    for first, again, seen, come_to in (
        (look(7, 30, 5), look(7, 33, 9), at_rest, 3.0),
        (look(7, 30, 5), look(7, 26, 9), at_rest, -4.0),
        (look(7, 30, 5), look(7, 33, 9), drifted, 5.0),
        # what was found later than the first look at it counts nothing for it
        (look(7, 30, 2), look(7, 33, 9), drifted, 3.0),
        (look(7, 30, 3), look(7, 33, 9), drifted, 5.0),
    ):
        assert off(again, first, seen=seen) == come_to
    first = look(7, 30, 5)
    assert _off_mm(STATE, 0, first, [first], [ZeroLook(0, 0, 0.0)]) is None
    # an odd look before it: 3 mm is good, 4 is odd
    for jump, found in ((3.0, 6.0), (-3.0, 0.0), (4.0, None), (-4.0, None)):
        seen = (ZeroLook(0, 0, 0.0), ZeroLook(3, 5, jump))
        assert off(look(7, 33, 9), look(7, 30, 5), seen=seen) == found, jump


def test_from_a_later_set_up_a_benchmark_is_held_against_its_own_first_look() -> None:
    first, again = look(1, 2, 5, 1), look(1, 4, 9, 1)
    assert off(again, first, seen=(ZeroLook(4, 0, 0.0),), set_up=1) == 2
    assert _off_mm(STATE, 1, first, [first, again], [ZeroLook(4, 0, 0.0)]) is None


def contradicted(offs: Sequence[float], alone: Sequence[int], on: Sequence[int | None]) -> Any:
    seen = tuple(ZeroLook(n, n, o, b) for n, (o, b) in enumerate(zip(offs, on, strict=True)))
    corrected: Any = SimpleNamespace(alone=[bool(each) for each in alone])
    return _contradicted(SurveyState(), seen, corrected)


def test_a_look_is_misread_where_a_benchmark_reads_as_before_after_it() -> None:
    for offs, alone, on, row in (
        ((0, 16, 0), (0, 1, 0), (None, 1, 1), 1),
        ((0, 16, 3), (0, 1, 0), (None, 1, 1), 1), ((0, 16, 4), (0, 1, 0), (None, 1, 1), None),
        ((0, 16, -3), (0, 1, 0), (None, 1, 1), 1), ((0, 16, -4), (0, 1, 0), (None, 1, 1), None),
        ((0, 16, 0), (0, 1, 0), (None, 1, None), None),  # the zero, which was set again
        ((0, 16, 0), (0, 0, 0), (None, 1, 1), None), ((0, 0, 16), (0, 0, 1), (None, 1, 1), None),
        ((5, 16, 5), (1, 1, 0), (None, 1, 1), 1), ((0, 2, 16, 2), (0, 0, 1, 0), (None, 1, 1, 1), 2),
        ((16, 0), (1, 0), (None, 1), None),
    ):  # fmt: skip
        assert contradicted(offs, alone, on) == row, (offs, alone, on)


def test_times_never_go_back() -> None:
    assert _never_back([0, 5, 3, 4, 9]) == [0, 5, 5, 5, 9]
    assert _never_back([7]) == [7]
    assert _never_back([]) == []


def test_heights_of_one_utterance_keep_their_order() -> None:
    one, other = height(1, order=3), height(1, order=4)
    assert minutes_of(one) < minutes_of(other)
    assert minutes_of(one) == pytest.approx(3e-6)
    assert one.time == UNTIMED


def said(*lines: tuple[float, str]) -> Site:
    floor, now = Site(*FLOOR), 0.0
    for minutes, line in lines:
        floor.wait(minutes - now)
        floor.told(line)
        now = minutes
    return floor


def test_a_set_up_is_watched_from_its_first_height_or_its_beginning() -> None:
    floor = said((10, "A1 -20"), (20, "check zero +0"), (30, "new set up"), (40, "tie on A1 -50"),
                 (50, "check zero +1"))  # fmt: skip
    for number, begins, looks in ((0, 10, [20]), (1, 30, [50])):
        watch = survey_of(floor.job).watches[number]
        assert watch.seen[0].minutes == pytest.approx(begins, abs=1e-4)
        assert watch.seen[0].off_mm == 0
        assert [seen.minutes for seen in watch.seen[1:]] == pytest.approx(looks, abs=1e-4)
    # read before the time that its beginning was recorded with: the first height decides
    assert watch_zero(floor.job, 1, [height(0)]).seen[0].minutes == pytest.approx(0, abs=1e-4)
    assert watch_zero(floor.job, 0, []).seen[0].minutes == pytest.approx(0, abs=1e-4)


def test_what_is_brought_back_by_more_than_a_step_is_told() -> None:
    """A knock of 8 mm up or down; once the zero is set again, what is read needs nothing."""
    for knock, last, told in (
        (8, 8, True), (8, 2, True), (8, 1, False), (8, 0, False),
        (-8, -8, True), (-8, -2, True), (-8, -1, False), (-8, 0, False),
    ):  # fmt: skip
        floor = said(
            (0, "A1 -20"),
            (10, "check zero +0"),
            (20, f"check zero {knock:+d}"),
            (30, f"check zero {knock:+d}"),
            (40, f"check zero {last:+d}"),
            (45, "B1 -20"),
            (50, f"check zero {last:+d}"),
        )
        (watch,) = survey_of(floor.job).watches
        order = floor.job.readings["B1"].order
        assert (order in watch.after_step) is told, (knock, last)
        # brought back by what the zero was off (exact); within a step too
        assert watch.correction_mm.get(order, 0.0) == pytest.approx(-last), (knock, last)


# --- which set-ups and points are sound ------------------------------------------------------


def test_heights_from_a_set_up_are_all_that_was_read_from_it() -> None:
    floor = Site(*FLOOR, "A1 -18", "B1 -20", "B1 -21", "check zero +1", "new set up",
                 "tie on A1 -50", "C1 -40")  # fmt: skip
    for number, values in ((0, [-21, -20, -18, 1]), (1, [-50, -40])):
        assert sorted(float(each.mm) for each in heights_from(floor.job, number)) == values
    assert [mark.on for mark in ties_and_benchmark_sights(floor.job)] == ["A1"]


def test_sights_are_named_by_the_set_up_where_there_are_several() -> None:
    one = Site(*FLOOR, "A1 -18", "tie on benchmark 1 plus 40", "check benchmark 1 plus 41")
    watches = survey_of(one.job).watches
    assert [each.what for each in sights_of(one.job, watches)] == [
        "A1", "tie on benchmark 1", "check on benchmark 1"
    ]  # fmt: skip
    two = Site(*FLOOR, "instrument offset plus 2 mm", "A1 -18", "new set up", "tie on A1 -50")
    found = sights_of(two.job, survey_of(two.job).watches)
    assert [each.what for each in found] == ["A1 from set-up 1", "tie on A1 from set-up 2"]
    assert [each.exact_mm for each in found] == [-20, -52]
    assert [each.drift_mm for each in found] == [0, 0]


def test_the_ties_a_set_up_begins_with_are_those_before_its_first_point() -> None:
    for lines, tying in (
        (("tie on A1 -50", "tie on B1 -52", "C1 -40", "tie on D1 -40"), ["A1", "B1"]),
        (("C1 -40", "tie on A1 -50", "tie on B1 -52"), ["A1"]), (("C1 -40",), []),
        (("tie on A1 -50", "tie on B1 -52"), ["A1", "B1"]),
    ):  # fmt: skip
        job = Site(*FLOOR, "A1 -18", "B1 -20", "D1 -9", "new set up", *lines).job
        of = {mark.height.order: mark.on for mark in job.survey.marks}
        assert [of[order] for order in _tying(job, 1)] == tying, lines
        assert _tying(job, 0) == []


def test_what_was_read_since_the_last_good_look_may_have_moved() -> None:
    lines = (
        "A1 -18",
        "check zero +1",
        "B1 -20",
        "check zero +2",
        "C1 -20",
        "check zero +9",
        "D1 -9",
    )
    job = Site(*FLOOR, *lines).job
    watches = [watch_zero(job, 0, heights_from(job, 0))]
    orders = {height.order for height in _moved(job, watches, 0)}
    assert {name for name, read in job.readings.items() if read.order in orders} == {"C1", "D1"}
    unseen = Site(*FLOOR, *lines[::2]).job
    since = {height.order for height in _moved(unseen, [Watch(())], 0)}
    assert since >= {read.order for read in unseen.readings.values()}


def test_after_a_move_all_of_that_set_up_since_is_in_doubt_unless_it_stood() -> None:
    floor = Site(*FLOOR, "A1 -18", "check zero +1", "B1 -20", "reference moved", "tie on A1 -50",
                 "C1 -40")  # fmt: skip
    job = floor.job
    watches = [watch_zero(job, n, heights_from(job, n)) for n in (0, 1)]
    sights = sights_of(job, watches)
    order = {name: read.order for name, read in job.readings.items()}
    found = soundness(job, sights, watches, (0,), frozenset())
    look = job.survey.marks[0].height.order
    assert found.own == {look: "moved", order["B1"]: "moved"}
    assert found.set_ups == {0, 1}
    assert found.marks == {"A1", "C1"}
    assert soundness(job, sights, watches, (0,), frozenset({0})).own == {}
    borne_out = soundness(job, sights, watches, (0,), frozenset(), [order["B1"]])
    assert borne_out.own == {look: "moved"}
    assert "B1" in borne_out.marks
    b1 = next(sight for sight in sights if sight.on == "B1")
    assert found.counts(b1)  # it is all there is of B1
    assert heights_of(job).keys() == {"A1", "B1", "C1"}


def test_a_set_up_tied_on_what_is_sound_is_sound_and_what_it_reads_too() -> None:
    for lines, sound, marks in (
        (("new set up", "C1 -40"), {0}, {"A1"}),
        (("new set up", "tie on A1 -50", "C1 -40"), {0, 1}, {"A1", "C1"}),
        (("new set up", "tie on A1 -50", "C1 -40", "new set up", "tie on C1 -9", "D1 -9"),
         {0, 1, 2}, {"A1", "C1", "D1"}),
        (("new set up", "C1 -40", "new set up", "tie on C1 -9", "D1 -9"), {0}, {"A1"}),
        # the chain is found whichever end was named first
        (("new set up", "C1 -40", "new set up", "tie on C1 -9", "tie on A1 -50"), {0, 1, 2},
         {"A1", "C1"}),
    ):  # fmt: skip
        found = survey_of(Site(*FLOOR, "A1 -18", *lines).job).sound
        assert (set(found.set_ups), set(found.marks)) == (sound, marks), lines


def test_a_doubtful_reading_counts_unless_both_its_ends_are_sound() -> None:
    sound = Soundness({5: "moved"}, frozenset({0}), frozenset({"A1"}))
    for on, set_up, order, counts in (
        ("A1", 0, 5, False), ("A1", 0, 6, True), ("B1", 0, 5, True), ("A1", 1, 5, True),
        ("B1", 1, 5, True),
    ):  # fmt: skip
        sight = Sight("a reading", on, height(-18, set_up, order), Fraction(-18), 0.0)
        assert sound.counts(sight) is counts, (on, set_up, order)
    # The first zero is the datum, which nothing makes doubtful.
    assert FIRST_ALONE.set_ups == {0}


@pytest.mark.parametrize(("on", "tie_in_doubt"), [(None, True), (3, False)])
def test_ties_that_a_set_up_began_with_are_not_in_doubt_by_a_look_at_a_benchmark(
    on: int | None, tie_in_doubt: bool
) -> None:
    """A look at the zero itself knows nothing of how the zero was tied."""
    job = Site(*FLOOR, "A1 -18", "new set up", "tie on A1 -20", "B1 -30").job
    (tie,), point = _tying(job, 1), job.readings["B1"].order
    looks = (ZeroLook(tie, 0, 0.0, on), ZeroLook(point + 1, 9, 9.0, on))
    watches = [Watch(()), Watch(looks, doubtful=frozenset({tie, point}))]
    found = _in_doubt_themselves(job, watches, frozenset())
    assert found == dict.fromkeys((tie, point) if tie_in_doubt else (point,), "step")
    # With one look there is nothing to be off from.
    alone = [Watch(()), Watch(looks[:1], doubtful=frozenset({tie}))]
    assert _in_doubt_themselves(job, alone, frozenset()) == {tie: "step"}
