"""A survey's rules one by one: zeros that stood, looks that were odd, verdicts, ties, words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from assistant.floor import survey_check
from assistant.floor.changed_by_checks import _by, drift_told
from assistant.floor.heights import (
    _exact,
    _height_mm,
    _known_zeros,
    _sound_zeros,
    _steady,
    _stood_still,
    above_datum_mm,
    survey_of,
)
from assistant.floor.holding import Held, Pair, _above_datum_mm, _stretch, holding_of
from assistant.floor.holding_words import _in_100, comparison_words, why_not
from assistant.floor.odd_looks import _before, _off_mm, cleared_orders, stood_until
from assistant.floor.sights import Sight
from assistant.floor.survey_check import (
    AGAIN,
    LOOK,
    TRUST,
    UNCHECKED,
    Finding,
    _beside_neighbours,
    jumping_points,
    verdict_of,
    zero_moved_words,
)
from assistant.floor.survey_warnings import survey_warnings
from assistant.floor.ties import (
    how_to_tie,
    how_to_tie_spoken,
    sound_benchmarks,
    sound_points,
    ways_to_tie,
)
from assistant.floor.zero_checks import Watch, ZeroLook
from assistant.floor.zone_warnings import _is_about
from assistant.job import being_read
from assistant.job.set_ups import Height, SetUp, SurveyState
from assistant.reply.replies import LimitWarning
from grammar.commands import Measure
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
ONE = (13 / 12) ** 0.5
"""Millimetres: the standard deviation of one reading of the usual instrument."""
nan = float("nan")


def height(mm: float, set_up: int = 0, order: int = 0) -> Height:
    return Height(Measure(Decimal(str(mm)), "mm"), Fraction(str(mm)), set_up, order)


def sight(on: str | int, mm: float, set_up: int = 0, order: int = 0, drift: float = 0.0) -> Sight:
    return Sight(str(on), on, height(mm, set_up, order), Fraction(str(mm)), drift)


# --- heights -----------------------------------------------------------------------------------


def test_a_zero_that_was_told_to_have_moved_stood_still_where_ties_find_it_as_before() -> None:
    """Within what a good look may be off by, 3 mm, and both of them sound."""
    moved, told = SetUp(after_move=True), SetUp()
    for set_ups, zeros, sound, stood in (
        ((told, moved), (0, 3), {0, 1}, {0}), ((told, moved), (0, -3), {0, 1}, {0}),
        ((told, moved), (0, Fraction("3.01")), {0, 1}, set()),
        ((told, told), (0, 0), {0, 1}, set()),
        ((told, moved), (0, None), {0, 1}, set()), ((told, moved), (None, 0), {0, 1}, set()),
        ((told, moved), (0, 0), {1}, set()), ((told, moved), (0, 0), {0}, set()),
        ((told, told, moved), (0, 40, 41), {0, 1, 2}, {1}),
        ((told, moved, moved), (0, 1, 2), {0, 1, 2}, {0, 1}),
    ):  # fmt: skip
        job: Any = SimpleNamespace(survey=SurveyState(set_ups=set_ups))
        found: Any = SimpleNamespace(zeros_mm=zeros)
        assert _stood_still(job, found, SimpleNamespace(set_ups=sound)) == stood, zeros  # type: ignore[arg-type]


def test_a_height_is_exact_by_one_reading_and_rounded_by_several() -> None:
    zeros: Any = (Fraction(0), Fraction(38), None)
    for read, adjusted, found in (
        ([sight("A1", -18)], -17.5, -18), ([sight("A1", -60, 1)], -21.0, -22),
        ([sight("A1", -18, drift=0.5)], -17.5, Fraction("-17.5")),
        ([sight("A1", -18), sight("A1", -19)], -18.5, Fraction("-18.5")),
        ([sight("A1", -9, 2)], -21.123456, Fraction("-21.12346")),
        ([sight("A1", -9, 2)], nan, None),
    ):  # fmt: skip
        assert _height_mm(read, zeros, adjusted) == found
    assert _exact(1 / 3) == Fraction(33333, 100000)
    assert _exact(nan) is None
    assert _steady(np.array([[0.001, -0.0], [nan, 1e-12]])) == [(1.0, 0.0), (0.0, 0.0)]
    assert _steady(np.array([[0.0010000004]])) == [(1.0,)]
    assert _steady(np.array([[0.001000001]])) == [(1.000001,)]


def test_zeros_of_a_finished_floor_are_known_from_the_slab() -> None:
    tied = (*FLOOR, "A1 -18", "new set up", "tie on A1 -56", "new set up")
    slab = Site(*tied).job
    assert np.asarray(_known_zeros(slab).number).tolist() == [0]
    finished = being_read(Site(*tied, "pour finished", "A1 level").job)
    known = _known_zeros(finished)
    assert np.asarray(known.number).tolist() == [0, 1]
    assert np.asarray(known.height_m).tolist() == pytest.approx([0, 0.038])
    assert _sound_zeros(slab) == {0}
    assert _sound_zeros(finished) == {0, 1}


def test_a_height_above_the_datum_wants_a_tie() -> None:
    job = Site(*FLOOR, "instrument offset plus 2 mm", "A1 -18", "new set up", "tie on A1 -56",
               "new set up").job  # fmt: skip
    for set_up, mm in ((0, -12), (1, 26), (2, None)):
        assert above_datum_mm(job, height(-10, set_up)) == mm, set_up


# --- odd looks ---------------------------------------------------------------------------------

FIRST, GOOD, ODD = ZeroLook(0, 0, 0.0), ZeroLook(3, 3, 1.0), ZeroLook(6, 6, 11.0)


def test_the_look_before_an_odd_one() -> None:
    assert _before(Watch((FIRST, GOOD, ODD), alone=ODD)) is GOOD
    assert _before(Watch((FIRST, GOOD, ODD), alone=GOOD)) is FIRST
    assert _before(Watch((FIRST, GOOD, ODD))) is None
    assert _before(Watch((FIRST, GOOD), alone=FIRST)) is None
    assert _before(Watch((FIRST, GOOD), alone=ODD)) is None


def found_with(**heights: float) -> Any:
    return SimpleNamespace(
        watches=(Watch((FIRST, GOOD, ODD), alone=ODD),), zeros_mm=(Fraction(0),), zero_sd_mm=(2.0,),
        heights_mm={name: Fraction(str(mm)) for name, mm in heights.items()},
        sd_mm=dict.fromkeys(heights, 3.0),
    )  # fmt: skip


def test_a_height_is_held_against_what_others_find_of_it() -> None:
    """95 of 100 are within 1.96 √(13/12 + 9 + 4) = 7.36 mm."""
    job: Any = SimpleNamespace(survey=SurveyState())
    off, noise = _off_mm(job, found_with(A1=-20), sight("A1", -18))
    assert off == 2
    assert noise == pytest.approx(1.96 * (13 / 12 + 9 + 4) ** 0.5)


def stood(
    read: Sequence[tuple[str, float, int]],
    heights: Mapping[str, float],
    set_ups: frozenset[int] = frozenset({0}),
) -> dict[int, int]:
    """What odd look was contradicted; heights that others find, and doubted readings by order."""
    job: Any = SimpleNamespace(survey=SurveyState())
    own = {order: "step" for *_, order in read if order != 99}
    sounds: Any = SimpleNamespace(set_ups=set_ups, own=own, marks={"A1", "B1", "C1"})
    return stood_until(
        job, found_with(**heights), sounds, [sight(on, mm, 0, o) for on, mm, o in read]
    )


def test_a_zero_stood_as_long_as_others_find_more_of_its_points_as_it_read_them() -> None:
    """The odd look is off by ten more than the one before it; ±7.36 mm is as read."""
    for read, heights, until in (
        ((("A1", -18, 5),), {"A1": -18}, {0: 5}), ((("A1", -18, 5),), {"A1": -30}, {}),
        ((("A1", -18, 5), ("B1", -18, 7)), {"A1": -18, "B1": -18}, {0: 7}),
        ((("A1", -18, 5), ("B1", -18, 7)), {"A1": -18, "B1": -40}, {}),
        ((("A1", -18, 5), ("B1", -18, 7), ("C1", -18, 8)), {"A1": -18, "B1": -18, "C1": -40},
         {0: 7}),
        # half way to where it moved it tells nothing, either way
        ((("A1", -18, 5),), {"A1": -22}, {}), ((("A1", -18, 5),), {"A1": -20}, {0: 5}),
        ((("A1", -18, 5),), {"A1": -14}, {0: 5}),
        # read before the good look, not doubted, not found by others
        ((("A1", -18, 2),), {"A1": -18}, {}), ((("A1", -18, 99),), {"A1": -18}, {}),
        ((("A1", -18, 3),), {"A1": -18}, {0: 3}), ((("D1", -18, 5),), {"D1": -18}, {}),
        ((("A1", -18, 5),), {"B1": -18}, {}), ((), {}, {}),
    ):  # fmt: skip
        assert stood(read, heights) == until, (read, heights)
    # one whose own zero nobody is sure of has nothing to be held against
    assert stood((("A1", -18, 5),), {"A1": -18}, frozenset({1})) == {}


def test_what_an_odd_look_leaves_free_of_doubt() -> None:
    """Heights of orders 4, 5, 7 and 8 are doubted since the good look, of order 3; 6 is odd."""
    watch = Watch((FIRST, GOOD, ODD), doubtful=frozenset({2, 4, 5, 6, 7, 8}), alone=ODD)
    job: Any = SimpleNamespace(survey=SurveyState())
    for until, orders in (
        ({0: 4}, {4}), ({0: 5}, {4, 5}), ({0: 7}, {4, 5, 7, 8}), ({}, set()),
    ):  # fmt: skip
        assert cleared_orders(job, [watch], until) == orders, until
    given: Any = SimpleNamespace(survey=SurveyState(benchmarks={1: height(40)}))
    for on, number, clears in ((None, 0, False), (1, 0, False), (2, 0, True), (1, 1, True)):
        odd = replace(ODD, on=on)
        on_it = Watch((FIRST, GOOD, odd), doubtful=frozenset({4}), alone=odd)
        found = cleared_orders(given, [on_it, on_it], {number: 5})
        assert (6 in found) is clears, (on, number)
    assert cleared_orders(job, [Watch((FIRST, GOOD))], {0: 5}) == set()
    first_is_odd = Watch((FIRST, GOOD), doubtful=frozenset({4}), alone=FIRST)
    assert cleared_orders(job, [first_is_odd], {0: 5}) == set()


# --- verdicts ----------------------------------------------------------------------------------


def verdict(monkeypatch: pytest.MonkeyPatch, lines: Sequence[str], *findings: Finding) -> str:
    monkeypatch.setattr(survey_check, "_findings", lambda _job: iter(findings))
    return verdict_of(replace(Site(*FLOOR, *lines).job)).verdict


def test_what_is_to_be_done_about_a_survey(monkeypatch: pytest.MonkeyPatch) -> None:
    """A third of the points, and more than one, are too many to read again."""
    names = [f"{c}{r}" for r in (1, 2) for c in "ABCDEF"]
    six = tuple(f"{name} -15" for name in names[:6])
    three = six[:3]

    def of(why: str, *points: str) -> Finding:
        return Finding(why, "so", points)

    for lines, findings, told in (
        (six, (of("neighbours", "A1"),), LOOK), (six, (of("neighbours", "A1", "B1"),), LOOK),
        (six, (of("neighbours", "A1", "B1", "C1"),), AGAIN),
        (six, (of("neighbours", "A1"), of("tie", "B1"), of("step", "C1")), AGAIN),
        (six, (of("neighbours", "A1"), of("tie", "A1"), of("step", "A1")), LOOK),
        (six, (of("hangs", *names[:6]),), LOOK), (three, (of("neighbours", "A1"),), LOOK),
        (three[:2], (of("neighbours", "A1"),), LOOK),
        (three, (of("neighbours", "A1", "B1"),), AGAIN),
        (six, (of("misfit"),), LOOK), (six, (of("misfit"), of("zero")), AGAIN),
        (six, (of("zero"), of("tie")), LOOK), (six, (), UNCHECKED),
    ):  # fmt: skip
        assert verdict(monkeypatch, lines, *findings) == told, findings
    checked = (*(f"{name} -15" for name in names), "check zero level")
    assert verdict(monkeypatch, checked) == TRUST
    assert verdict(monkeypatch, checked[:-1]) == UNCHECKED
    assert verdict(monkeypatch, (*six[:2], "check zero level")) == UNCHECKED


def test_doubts_by_a_single_odd_look_are_no_reason_to_survey_again() -> None:
    odd = Site(*FLOOR, "A1 -15", "B1 -15", "C1 -15", "check zero +9").job
    found = verdict_of(odd)
    assert {finding.why for finding in found.findings} >= {"step", "zero"}
    assert found.verdict == LOOK
    twice = Site(*FLOOR, "A1 -15", "B1 -15", "C1 -15", "check zero +9", "check zero +9").job
    assert verdict_of(twice).verdict == AGAIN


def test_a_zero_that_is_off_is_told_with_what_to_do() -> None:
    job = Site(*FLOOR, "A1 -15", "check zero +9").job
    told = zero_moved_words(job, 9.0)
    assert told.startswith("One look at the zero is off by 9 mm: misread, or the zero moved.")
    assert "(check zero, with" in told
    mark = Site(*FLOOR, "benchmark 1 at 40 mm above zero", "A1 -15", "check benchmark 1 +49").job
    assert "One look at benchmark 1 is off by 9 mm" in zero_moved_words(mark, -9.0)
    assert "(check benchmark 1, with" in zero_moved_words(mark, 9.0)
    twice = Site(*FLOOR, "A1 -15", "check zero +9", "check zero +9").job
    assert zero_moved_words(twice, 9.0).startswith("The zero is off by 9 mm. Set it again")


def test_what_is_off_is_told_by_size_and_side() -> None:
    job = Site(*FLOOR).job
    for mm, told in ((14.4, "14 mm above"), (-14.6, "15 mm below"), (0.6, "1 mm above")):
        assert f"B3 is about {told} what" in _beside_neighbours(job, "B3", mm).message
    inches = Site("readings in inches").job
    assert "1/8 in below" in _beside_neighbours(inches, "B3", -3.175).message
    assert [_by(mm, "mm") for mm in (0.24, -0.24, 1.0, -3.0)] == [
        "+0.2 mm",
        "-0.2 mm",
        "+1 mm",
        "-3 mm",
    ]
    assert drift_told(job) == []


def test_a_display_that_jumped_by_more_than_its_noise_is_told() -> None:
    """Two readings of 1 mm repeatability and steps of 1 mm."""
    for values, jumps in (("17, 18, 19", False), ("17, 18, 29", True)):
        job = Site(*FLOOR, f"B3 minus {values}").job
        found = list(jumping_points(job))
        assert bool(found) is jumps, values
        if found:
            assert found[0].points == ("B3",)
            assert found[0].message.startswith("B3 jumped by 12 mm; the instrument's own noise")
            assert [w.id for w in survey_warnings(job)] == ["restless:B3"]


def test_warnings_about_the_survey_are_each_of_its_set_up() -> None:
    untied = Site(*FLOOR, "A1 -15", "new set up", "B1 -20").job
    (warning,) = survey_warnings(untied)
    assert warning.id == "untied:2"
    assert "; B1 has no height till then." in warning.message
    two = Site(*FLOOR, "A1 -15", "new set up", "B1 -20", "C1 -20").job
    assert "; B1 and C1 have no height till then." in survey_warnings(two)[0].message
    for checks, kinds in (((3,), []), ((4, 4), ["zero-moved"]), ((-4, -4), ["zero-moved"])):
        job = Site(*FLOOR, "check zero level", *(f"check zero {mm:+d}" for mm in checks)).job
        assert [w.id for w in survey_warnings(job)] == kinds, checks
    assert survey_warnings(Site(*FLOOR, "A1 -15").job) == ()
    doubtful = survey_warnings(Site(*FLOOR, "A1 -15", "B1 -15", "reference moved", "tie on A1 -20",
                                    "C1 -9").job)  # fmt: skip
    assert [w.id for w in doubtful] == ["doubtful"]
    assert doubtful[0].message.startswith("A1 and B1: read while the zero may have moved.")
    assert "C1: set-up 2 is tied on what is in doubt itself" in doubtful[0].message


def test_a_warning_is_about_the_zone_of_its_point_or_door() -> None:
    job = Site(*FLOOR, "zone kitchen columns A to C", "A1 -15", "F1 -15", "door 1 outside -4",
               "door 1 at A1", "door 2 outside -4").job  # fmt: skip

    def zones(id: str) -> set[str]:
        warning = LimitWarning(id, "note", "so")
        return {zone for zone in ("kitchen", "rest") if _is_about(job, warning, zone)}

    for id, about in (
        ("high-spot:A1", {"kitchen"}), ("high-spot:F1", {"rest"}), ("weight", set()),
        ("points-missing", set()), ("zone-step:rest/kitchen", {"kitchen", "rest"}),
        ("zone-step:hall/kitchen", {"kitchen"}), ("door-step:1", {"kitchen"}),
        ("door-step:2", {"rest"}), ("door-leaf:7", {"rest"}), ("crack:1", {"rest"}),
        ("pin-spacing", {"kitchen", "rest"}), ("untied:2", {"rest"}),
    ):  # fmt: skip
        assert zones(id) == about, id


# --- ties --------------------------------------------------------------------------------------


def test_what_can_soundly_be_tied_on() -> None:
    for lines, benchmarks, points in (
        (("A1 -15", "B1 -16", "new set up"), (), ("A1", "B1")), (("new set up",), (), ()),
        (("A1 -15",), (), ()),  # nothing from another set-up
        (("benchmark 3 at 40 mm above zero", "A1 -15", "new set up"), (3,), ("A1",)),
        (("tie on benchmark 2 plus 12", "A1 -15", "new set up"), (2,), ("A1",)),
        (("A1 -15", "reference moved"), (), ()),
        (("A1 -15", "tie on benchmark 2 plus 12", "new set up", "tie on A1 -20", "B1 -9",
          "new set up"), (2,), ("A1", "B1")),
        (("A1 -15", "new set up", "B1 -9", "new set up"), (), ("A1",)),
    ):  # fmt: skip
        job = Site(*FLOOR, *lines).job
        assert (sound_benchmarks(job), sound_points(job)) == (benchmarks, points), lines
    first = Site(*FLOOR, "A1 -15", "B1 -16", "new set up", "tie on A1 -20", "C1 -9").job
    assert sound_points(first, 0) == ("C1",)
    assert sound_points(first, 1) == ("A1", "B1")


def test_how_to_tie_is_told_with_lines_to_say() -> None:
    for lines, told, spoken in (
        (("A1 -15", "B1 -16", "new set up"), "tie on B1", "Tie on bravo one."),
        (("benchmark 3 at 40 mm above zero", "A1 -15", "new set up"), "tie on benchmark 3",
         "Tie on benchmark three."),
        (("new set up",), "Nothing was read yet to tie it on.", "Tie it."),
        (("A1 -15", "reference moved"), "Nothing read is sound to tie on.",
         "Nothing sound to tie on. Name a benchmark."),
    ):  # fmt: skip
        job = Site(*FLOOR, *lines).job
        assert told in how_to_tie(job), lines
        assert how_to_tie_spoken(job) == spoken
    none = Site(*FLOOR, "benchmark 3 at 40 mm above zero", "new set up").job
    assert "benchmark 3" in ways_to_tie(none)
    bare = Site(*FLOOR, "new set up").job
    assert ways_to_tie(bare).startswith("benchmark 1 at level, then tie on benchmark 1")


# --- they hold ---------------------------------------------------------------------------------

MOVED = (*FLOOR, "benchmark 1 at 40 mm above zero", "A1 -18", "B1 -17", "C1 -16", "D1 -18",
         "reference moved", "tie on benchmark 1 plus 30")  # fmt: skip


def replace_pair(point: str) -> Pair:
    return Pair(point, height(-18), height(-18, 0, 9), 0.0, ())


def test_one_that_differs_before_one_that_agrees_takes_more_that_agree() -> None:
    for lines, cleared in (
        (("B1 -17", "C1 -26"), ()), (("B1 -17", "C1 -26", "D1 -28"), ("A1",)),
        (("C1 -26", "D1 -18"), ("A1", "B1")), (("B1 -27", "C1 -26", "D1 -28"), ("A1",)),
    ):  # fmt: skip
        (held,) = holding_of(Site(*MOVED, *lines).job)
        assert held.cleared == cleared, lines
        assert set(held.left) == set(held.in_doubt) - set(cleared)
    (none,) = holding_of(Site(*MOVED).job)
    assert (none.pairs, none.odd, none.cleared, none.chance) == ((), (), (), 1.0)
    assert (none.mean_mm, none.sd_mm) == (0.0, 0.0)
    assert none.limit_mm == pytest.approx(3)
    assert "Read the last one again, D1" in why_not(none)
    # all of them read again, and not sure yet: the last of them once more
    pairs = tuple(replace_pair(point) for point in ("A1", "B1"))
    both = Held(0, ("A1", "B1"), pairs, (), 1.0, 1.0, 3.0, 0.2)
    assert "Read one more of them again, B1, or" in why_not(both)
    assert "Read one more of them again, A1, or" in why_not(replace(both, pairs=pairs[1:]))
    (differs,) = holding_of(Site(*MOVED, "D1 -18").job)
    assert [pair.off_mm for pair in differs.odd] == [10]
    assert differs.limit_mm == pytest.approx(3)


def test_what_differs_is_told_by_its_side() -> None:
    job = Site(*FLOOR).job
    for off, told in ((0.5, "0.5 mm above"), (-0.5, "0.5 mm below"), (10.0, "10 mm above")):
        pair = Pair("A1", height(-18), height(-18, 0, 9), off, ())
        held = Held(0, ("A1",), (pair,), (pair,))
        assert comparison_words(job, held) == f"A1 reads {told} what it read before."
        assert "They do not hold" in why_not(held)
    equal = Pair("A1", height(-18), height(-18, 0, 9), 0.0, ())
    one = Held(0, ("A1",), (equal,), (), 0.5, 1.0, 3.0, 0.2)
    assert comparison_words(job, one).startswith("A1, read again, differs by 0.5 mm (standard")
    two = Held(0, ("A1", "B1"), (equal, replace(equal, point="B1")), (), -0.5, 1.0, 3.0, 0.2)
    assert comparison_words(job, two).startswith("A1 and B1, read again, differ on average by 0.5")
    assert "off by 3 mm, they would agree so well in 20 of 100 cases." in comparison_words(job, two)
    assert why_not(replace(one, cleared=("A1",))) == ""


def test_a_reading_is_held_against_with_its_drift_taken_out() -> None:
    floor = Site("instrument resolution 0.5 mm", "instrument repeatability 0.2 mm", *FLOOR)
    for minutes, line in ((0, "A1 -20"), (15, "B1 -20"), (15, "check zero +1.5")):
        floor.wait(minutes)
        floor.told(line)
    found = survey_of(floor.job)
    above = _above_datum_mm(floor.job, found, "B1", floor.job.readings["B1"])
    assert above == pytest.approx(-20.75, abs=1e-3)
    assert float(found.heights_mm["B1"]) == pytest.approx(above, abs=1e-4)


def test_a_run_of_readings_is_that_between_two_looks() -> None:
    watch = Watch((FIRST, GOOD, ODD), alone=ODD)
    found: Any = SimpleNamespace(watches=(watch,))
    for order, run in ((1, (0, 1)), (2, (0, 1)), (3, (0, 2)), (5, (0, 2)), (7, (0, 2))):
        assert _stretch(found, height(-18, 0, order)) == run, order


def test_chances_are_told_in_cases_of_a_hundred() -> None:
    for chance, told in ((0.001, "fewer than 1"), (0.0094, "fewer than 1"), (0.0096, "1"),
                         (0.012, "1.2"), (0.0946, "9.5"), (0.096, "10"), (0.25, "25")):  # fmt: skip
        assert _in_100(chance) == told, chance
