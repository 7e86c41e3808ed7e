"""What a line left out, filled in: sides, units, and a value said again for a waiting one."""

from __future__ import annotations

from decimal import Decimal

import pytest

from assistant.decide.after_pour import check_after_pour, with_second_survey, with_what_is_poured
from assistant.decide.parts import Decision
from assistant.decide.proof.findings import measure_gap
from assistant.decide.proof.mending import mend, tell_promise
from assistant.decide.questions import YesOrNo
from assistant.decide.reading_repeated import Settlement, reading_on_side, said_again
from assistant.decide.unit_meant import ask_unit, is_unit_open
from assistant.decide.unsaid import with_side, with_unit
from assistant.errors import Refusal
from assistant.events.kinds import Event
from assistant.events.proof import PromiseMade
from assistant.events.readings import FinishedFloorBegun
from assistant.job import being_read
from grammar.commands import IN_PARTS, Command, Measure, Reading
from grammar.commands.material import ChooseProduct
from grammar.commands.proof import MeasureGap, Mend, TellPromise
from grammar.commands.readings import CorrectReading, TakeReading, TakeReadings
from grammar.commands.room import AddPoint, SetRoom
from tests.job.conftest import WORLD, Site, command_of


def reading(number: str, unit: str | None = "mm", said: bool = True) -> Reading:
    return Reading(Decimal(number), unit, said)


def test_only_a_half_beside_a_whole_number_needs_no_unit() -> None:
    for number, unit, is_open in (
        ("0.375", IN_PARTS, True), ("0.5", IN_PARTS, True), ("1.5", IN_PARTS, False),
        ("-1.5", IN_PARTS, False), ("4.5", IN_PARTS, False), ("4.375", IN_PARTS, True),
        ("2", IN_PARTS, True), ("0.375", "in", False), ("0.375", None, False),
    ):  # fmt: skip
        said = reading(number, unit)
        assert is_unit_open(said) is is_open, (number, unit)
        assert is_unit_open(TakeReading("B3", said)) is is_open
        assert is_unit_open(TakeReadings("B3", (reading("1"), said))) is is_open
        assert is_unit_open(Measure(Decimal(number), unit)) is is_open
    for other in ("3/8", 7, None, (), Reading):
        assert not is_unit_open(other)


def nothing(_command: Command) -> None:
    """Whatever it is, it could be taken."""


def test_a_fraction_is_asked_about_with_what_it_may_be() -> None:
    for number, shown, aloud in (
        ("-0.375", "is it 3/8 of an inch?", "Bravo three, is it three eighths of an inch?"),
        ("-1.375", "is it 1 3/8 inches?", "Bravo three, is it one and three eighths inches?"),
    ):
        question = ask_unit(TakeReading("B3", reading(number, IN_PARTS)), nothing).ask
        assert question is not None
        assert shown in question.text
        assert question.spoken.startswith(aloud), question.spoken

    # refused in one unit it may be the other; in both, it is refused
    def only(unit: str) -> object:
        def try_out(command: Command) -> None:
            assert isinstance(command, TakeReading)
            if command.reading.unit != unit:
                raise Refusal(f"not in {command.reading.unit}")

        return try_out

    command = TakeReading("B3", reading("-0.375", IN_PARTS))
    for unit in ("in", "mm"):
        assert ask_unit(command, only(unit)).ask is not None  # type: ignore[arg-type]
    with pytest.raises(Refusal, match="not in in"):
        ask_unit(command, only("ft"))  # type: ignore[arg-type]


def test_a_unit_goes_where_none_was_said() -> None:
    for unit, after in ((None, "in"), (IN_PARTS, "in"), ("mm", "mm"), ("ft", "ft")):
        assert with_unit(reading("3", unit), "in").unit == after
        assert with_unit(Measure(Decimal(3), unit), "in").unit == after
    several = TakeReadings("B3", (reading("1", None), reading("2", "mm")))
    assert [each.unit for each in with_unit(several, "in").readings] == ["in", "mm"]
    plain = TakeReading("B3", reading("1"))
    assert with_unit(plain, "in") is plain
    assert with_unit("words", "in") == "words"


def test_a_side_goes_to_the_first_that_has_none() -> None:
    bare, said = reading("3", said=False), reading("-4")
    for side, number in (("below", -3), ("above", 3)):
        one = with_side(TakeReading("B3", bare), side)
        assert isinstance(one, TakeReading)
        assert one.reading == Reading(Decimal(number), "mm")
        assert one.reading.side_said
        run = with_side(TakeReadings("B3", (said, bare, bare)), side)
        assert isinstance(run, TakeReadings)
        assert run.readings[0] == said
        assert run.readings[1] == Reading(Decimal(number), "mm")
        assert run.readings[2] == bare
    assert with_side(TakeReading("B3", said), "above") == TakeReading("B3", said)
    minus = with_side(TakeReading("B3", reading("-3", said=False)), "above")
    assert isinstance(minus, TakeReading)
    assert minus.reading.number == 3


def test_the_same_value_again_confirms_and_another_replaces() -> None:
    job = Site().job
    waiting = TakeReading("B3", reading("-50"))
    for again, confirmed in (
        (reading("-50"), True), (reading("50", said=False), True), (reading("50"), False),
        (reading("-15"), False), (reading("-50", "in"), False), (reading("50", None, False), True),
        (reading("15", None, False), False),
    ):  # fmt: skip
        found = said_again(waiting, [TakeReading("B3", again)], job)
        assert found is not None
        assert found.confirmed is confirmed, again
        if not confirmed:
            assert isinstance(found.command, TakeReading)
            assert found.command.reading.number == again.number
            assert found.command.reading.unit == (again.unit or "mm")
    assert said_again(waiting, [TakeReading("B4", reading("-50"))], job) is None
    assert said_again(waiting, [], job) is None
    corrected = said_again(
        CorrectReading("B3", reading("-50")), [TakeReading("B3", reading("-9"))], job
    )
    assert corrected == Settlement(CorrectReading("B3", reading("-9")), confirmed=False)
    run = TakeReadings("B3", (reading("-9"), reading("-10")))
    assert said_again(waiting, [run], job) == Settlement(run, confirmed=False)


def test_of_several_values_the_middle_one_is_meant() -> None:
    job = Site().job
    waiting = TakeReadings("B3", (reading("-50"), reading("-52"), reading("-51")))
    for number, confirmed in (("-51", True), ("-50", False), ("-9", False)):
        found = said_again(waiting, [TakeReading("B3", reading(number))], job)
        assert found is not None
        assert found.confirmed is confirmed
        if not confirmed:
            assert found.command == TakeReading("B3", reading(number))


def test_parts_said_again_of_an_inch_are_parts_of_an_inch() -> None:
    job = Site().job
    waiting = TakeReading("B3", reading("-0.375", "in"))
    for number, unit, confirmed in (
        ("-0.375", IN_PARTS, True), ("0.375", IN_PARTS, False), ("-0.625", IN_PARTS, False),
    ):  # fmt: skip
        found = said_again(waiting, [TakeReading("B3", reading(number, unit))], job)
        assert found is not None
        assert found.confirmed is confirmed, number
        if not confirmed:
            assert isinstance(found.command, TakeReading)
            same = abs(Decimal(number)) == Decimal("0.375")
            assert found.command.reading.unit == ("in" if same else IN_PARTS)
    metric = TakeReading("B3", reading("-0.375", "mm"))
    found = said_again(metric, [TakeReading("B3", reading("-0.375", IN_PARTS))], job)
    assert found is not None
    assert not found.confirmed


def test_a_side_for_a_waiting_reading() -> None:
    for number, side, come_to, confirmed in (
        ("-50", "below", "-50", True), ("-50", "above", "50", False), ("50", "above", "50", True),
        ("50", "below", "-50", False),
    ):  # fmt: skip
        found = reading_on_side(TakeReading("B3", reading(number)), side)
        assert isinstance(found.command, TakeReading)
        assert (str(found.command.reading.number), found.confirmed) == (come_to, confirmed)


# --- once the slab is covered ---------------------------------------------------------------

ROOM = ("room 8 by 6 metres", "grid 2 metres", "product example standard", "A1 -18", "B1 -17")


def refused(job: object, command: Command) -> bool:
    try:
        check_after_pour(job, command)  # type: ignore[arg-type]
    except Refusal:
        return True
    return False


def test_room_and_grid_stay_once_a_slab_that_was_read_is_covered() -> None:
    before, after = Site(*ROOM).job, Site(*ROOM, "pour finished").job
    bare = Site(*ROOM[:3], "pour finished").job
    new_room = command_of("room 9 by 6 metres")
    assert isinstance(new_room, SetRoom)
    own = command_of("point A1 at 3 by 3 metres")
    new = command_of("point K1 at 3 by 3 metres")
    assert isinstance(own, AddPoint)
    for command, late in (
        (new_room, True),
        (own, True),
        (new, False),
        (command_of("tally"), False),
    ):
        assert not refused(before, command)
        assert not refused(bare, command)
        assert refused(after, command) is late, command


def test_a_plan_that_is_poured_is_changed_only_where_it_is_confirmed() -> None:
    before, after = Site(*ROOM).job, Site(*ROOM, "pour finished").job
    bare = Site(*ROOM[:3], "pour finished").job
    decision = Decision((FinishedFloorBegun(),))
    for line, asks in (("finish +4 mm", True), ("waste 10 percent", True), ("crew 3", False)):
        command = command_of(line)
        assert with_what_is_poured(before, command, decision) is decision
        assert with_what_is_poured(bare, command, decision) is decision
        found = with_what_is_poured(after, command, decision)
        assert isinstance(found.ask, YesOrNo) is asks, line
        assert found.events == decision.events
    product = ChooseProduct("example standard")
    assert with_what_is_poured(after, product, decision).ask is not None
    unknown = Site(*ROOM[:2], "A1 -18", "pour finished").job
    assert with_what_is_poured(unknown, product, decision) is decision
    assert with_what_is_poured(unknown, command_of("finish +4 mm"), decision).ask is not None
    asked = with_what_is_poured(after, product, decision)
    assert with_what_is_poured(after, product, asked) is asked


def test_the_second_survey_begins_with_what_is_read_first() -> None:
    before, after = Site(*ROOM).job, Site(*ROOM, "pour finished").job
    event: Event = PromiseMade(True, False)
    begun = with_second_survey(before, Decision((event,)))
    assert begun.events == (FinishedFloorBegun(), event)
    assert with_second_survey(after, Decision((event,))).events == (event,)
    assert with_second_survey(before, Decision()).events == ()


def test_what_was_promised_is_flat_or_level_or_both() -> None:
    for kind, flat, level in (("flat", True, False), ("level", False, True), ("both", True, True)):
        found = tell_promise(Site().job, TellPromise(kind), WORLD)
        assert found.events == (PromiseMade(flat, level),)


def test_a_gap_is_a_tenth_of_its_edge_at_most() -> None:
    job = Site(*ROOM).job
    for gap, under, is_taken in (
        ("0", "2000", True), ("200", "2000", True), ("201", "2000", False), ("-1", "2000", False),
        ("3", "10000", True), ("3", "10001", False),
    ):  # fmt: skip
        command = MeasureGap(Measure(Decimal(gap), "mm"), Measure(Decimal(under), "mm"), "C2")
        if is_taken:
            assert measure_gap(job, command, WORLD).events, gap
        else:
            with pytest.raises(Refusal):
                measure_gap(job, command, WORLD)


def test_what_is_mended_was_read_on_the_finished_floor() -> None:
    floor = Site(*ROOM, "pour finished", "A1 +9", "B1 level")
    shown = being_read(floor.job)
    (all_of_it,) = mend(shown, Mend(None), WORLD).events
    (one,) = mend(shown, Mend("B1"), WORLD).events
    assert (all_of_it.points, one.points) == (("A1",), ("B1",))  # type: ignore[attr-defined]
    with pytest.raises(Refusal, match="C1 has no reading"):
        mend(shown, Mend("C1"), WORLD)
    with pytest.raises(Refusal, match="not poured on record"):
        mend(Site(*ROOM).job, Mend(None), WORLD)
    flat = being_read(Site(*ROOM, "pour finished", "A1 level").job)
    with pytest.raises(Refusal, match="Nothing is on the punch list"):
        mend(flat, Mend(None), WORLD)
