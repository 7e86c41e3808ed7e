"""What settles a question and what does not, kind by kind, without a conversation around it."""

from __future__ import annotations

from decimal import Decimal

from assistant.decide.questions import (
    HowBig,
    HowHigh,
    Question,
    ReallySo,
    Sentence,
    WhichSide,
    WhichUnit,
    YesOrNo,
    _look_at_the_same,
    _says_more,
    meanings_of,
    reading_of,
)
from assistant.decide.reading_repeated import Settlement
from grammar.commands import IN_PARTS, Command, Reading
from grammar.commands.proof import TakeLineValues
from grammar.commands.readings import CorrectReading, TakeReading, TakeReadings
from grammar.commands.set_ups import CheckBenchmark, CheckZero, TieOnPoint
from grammar.commands.talk import ChooseSide, ChooseUnit, Confirm
from tests.job.conftest import Site, command_of


def reading(number: str, unit: str | None = "mm", said: bool = True) -> Reading:
    return Reading(Decimal(number), unit, said)


def take(number: str, point: str | None = "B3", unit: str | None = "mm", said: bool = True
         ) -> TakeReading:  # fmt: skip
    return TakeReading(point, reading(number, unit, said))


def sentence(*meanings: Command, text: str = "", was_bare: bool = False) -> Sentence:
    return Sentence(text, meanings, Site().job, was_bare)


def asks(kind: type[Question], command: Command) -> Question:
    return kind("text", "spoken", command)


SIDELESS = take("18", said=False)
PARTS = take("-0.375", unit=IN_PARTS)


def test_yes_settles_what_only_wants_a_yes() -> None:
    waiting = take("-50")
    for kind in (YesOrNo, ReallySo):
        assert asks(kind, waiting).settled_by_word(Confirm()) == Settlement(waiting, confirmed=True)
        assert kind.IS_SETTLED_BY_YES
    assert asks(YesOrNo, waiting).settled_by_word(ChooseSide("below")) is None
    assert asks(YesOrNo, waiting).settled_by_sentence(sentence(waiting)) is None
    assert asks(WhichSide, SIDELESS).settled_by_word(Confirm()) is None


def test_a_side_settles_what_asks_for_one() -> None:
    for side, number in (("below", "-18"), ("above", "18")):
        found = asks(WhichSide, SIDELESS).settled_by_word(ChooseSide(side))
        assert found == Settlement(take(number), confirmed=False)
        turned = asks(ReallySo, take("-18")).settled_by_word(ChooseSide(side))
        assert turned == Settlement(take(number), confirmed=side == "below")
    assert asks(ReallySo, CheckZero(reading("-18"))).settled_by_word(ChooseSide("above")) is None
    assert asks(ReallySo, take("-18")).settled_by_word(ChooseUnit("in")) is None


def test_a_unit_settles_what_asks_for_one_and_yes_means_inches() -> None:
    question = asks(WhichUnit, PARTS)
    for given, unit in ((Confirm(), "in"), (ChooseUnit("mm"), "mm"), (ChooseUnit("in"), "in")):
        assert question.settled_by_word(given) == Settlement(take("-0.375", unit=unit), False)
    bare = asks(WhichUnit, take("0.375", unit=IN_PARTS, said=False))
    side = bare.settled_by_word(ChooseSide("below"))
    assert side is not None
    assert side.command == take("-0.375", unit=IN_PARTS)


def test_the_same_size_said_with_its_side_is_the_answer() -> None:
    question = asks(WhichSide, SIDELESS)
    for said, answer in (
        (take("-18", None), take("-18")), (take("18", None), take("18")),
        (take("-19", None), None), (take("18", None, said=False), None),
        (take("-18", None, unit=None), take("-18")), (take("-18", None, unit="in"), None),
        (take("-18", "B3"), None), (take("-18", "C3"), None), (CheckZero(reading("-18")), None),
    ):  # fmt: skip
        found = question.settled_by_sentence(sentence(said))
        assert found == (None if answer is None else Settlement(answer, confirmed=False)), said
    # of a bare value an equal one may be the next point's
    assert question.settled_by_sentence(sentence(take("-18", None), was_bare=True)) is None
    assert question.settled_by_sentence(sentence(take("9", None), take("-18", None))) is not None
    about_zero = asks(WhichSide, CheckZero(reading("18", said=False)))
    assert about_zero.settled_by_sentence(sentence(take("-18", None))) is None


def test_the_same_size_said_with_its_unit_is_the_answer() -> None:
    question = asks(WhichUnit, PARTS)
    for said, answer in (
        (take("-0.375", None, unit="in"), take("-0.375", unit="in")),
        (take("-0.375", None, unit="mm"), take("-0.375")),
        (take("0.375", None, unit="in", said=False), take("-0.375", unit="in")),
        (take("0.375", None, unit="in"), None), (take("-0.375", None, unit=IN_PARTS), None),
    ):  # fmt: skip
        found = question.settled_by_sentence(sentence(said))
        assert found == (None if answer is None else Settlement(answer, confirmed=False)), said


def test_a_reading_says_more_by_its_side_or_its_unit() -> None:
    bare, sided = reading("18", said=False), reading("-18")
    for given, asked, more in (
        (sided, bare, True), (reading("18"), bare, True), (bare, bare, False),
        (sided, sided, False),
        (reading("-18", None), bare, True), (reading("-18", "in"), bare, False),
        (reading("-18", "in"), reading("18", None, False), True),
        (reading("18", "in", False), reading("18", None, False), True),
        (reading("-18", "in"), reading("-18", None), True),
        (reading("18", "in"), reading("-18", None), False),
        (reading("18", "in", False), reading("-18", None), True),
        (reading("-19"), bare, False), (reading("-18", IN_PARTS), bare, True),
        (reading("-18", None), reading("-18", None), False),
    ):  # fmt: skip
        assert _says_more(given, asked) is more, (given, asked)


def test_the_next_value_is_for_the_point_that_was_named() -> None:
    question = asks(HowHigh, command_of("how deep at B3"))
    found = question.settled_by_sentence(sentence(take("-18", None)))
    assert found == Settlement(take("-18"), confirmed=False)
    assert question.settled_by_sentence(sentence(take("-18", "C3"))) is None
    assert question.settled_by_sentence(sentence(CheckZero(reading("-18")))) is None
    assert question.settled_by_sentence(sentence(take("-1", "C3"), take("-18", None))) == found
    assert question.kept == ()
    assert question.settled_by_word(Confirm()) is None
    assert (question.is_an_offer, question.takes_a_value) == (True, False)


def test_a_size_settles_what_asks_how_big_a_thing_is() -> None:
    waiting = command_of("column at B3")
    question = asks(HowBig, waiting)
    found = question.settled_by_sentence(sentence(text="0.4 by 0.4 metres"))
    assert found is not None
    assert found.command == command_of("column 0.4 by 0.4 metres at B3")
    assert not found.confirmed
    round_ = question.settled_by_sentence(sentence(text="0.5 metres"))
    assert round_ is not None
    assert question.stays_open_for(round_.command)
    for other in ("", "yes", "B4 -18"):
        assert question.settled_by_sentence(sentence(text=other)) is None, other
    for line, same in (("column at B3", True), ("column 0.4 by 0.4 metres at B3", True),
                       ("column 0.4 by 0.4 metres at C3", False), ("B3 -18", False)):  # fmt: skip
        assert question.stays_open_for(command_of(line)) is same, line
    assert meanings_of("no phrase at all") == ()
    assert len(meanings_of("tally")) == 1


def test_what_a_value_alone_may_be_meant_for() -> None:
    values = TakeLineValues((reading("-9"),))
    for kind, command, may in (
        (YesOrNo, take("-50"), True), (YesOrNo, CheckZero(reading("9")), True),
        (YesOrNo, values, True), (YesOrNo, command_of("finish +450 mm"), False),
        (ReallySo, take("-50"), True), (ReallySo, CheckZero(reading("9")), False),
        (WhichSide, SIDELESS, True),
    ):  # fmt: skip
        assert asks(kind, command).takes_a_value is may, command


def test_a_reading_is_what_a_point_is_taken_or_put_right_with() -> None:
    assert reading_of(take("-50")) == reading("-50")
    assert reading_of(CorrectReading("B3", reading("-9"))) == reading("-9")
    assert reading_of(CheckZero(reading("9"))) is None


def test_two_lines_look_at_the_same_point_or_mark() -> None:
    run = TakeReadings("B3", (reading("-9"), reading("-8")))
    for one, other, same in (
        (take("-9"), take("-8"), True), (take("-9"), take("-9", "C3"), False),
        (take("-9"), CorrectReading("B3", reading("-8")), True), (take("-9"), run, True),
        (take("-9"), CheckZero(reading("9")), False),
        (CheckZero(reading("9")), CheckZero(reading("8")), True),
        (CheckZero(reading("9")), CheckBenchmark(1, reading("9")), False),
        (CheckBenchmark(1, reading("9")), CheckBenchmark(1, reading("8")), True),
        (CheckBenchmark(1, reading("9")), CheckBenchmark(2, reading("9")), False),
        (TieOnPoint("A1", reading("9")), TieOnPoint("A1", reading("8")), True),
        (TieOnPoint("A1", reading("9")), TieOnPoint("B1", reading("9")), False),
        (TieOnPoint("A1", reading("9")), CheckZero(reading("9")), False),
        (command_of("finish +4 mm"), command_of("finish +5 mm"), False),
        (CheckZero(reading("9")), take("9"), False),
    ):  # fmt: skip
        assert _look_at_the_same(one, other) is same, (one, other)


def test_what_a_question_stays_open_for() -> None:
    question = asks(WhichSide, SIDELESS)
    cases: tuple[tuple[Command, bool], ...] = (
        (SIDELESS, True), (take("-18"), True), (take("18"), True), (take("-17"), True),
        (take("-18", "C3"), False), (CheckZero(reading("9")), False),
    )  # fmt: skip
    for command, stays in cases:
        assert question.stays_open_for(command) is stays, command
    unit = asks(WhichUnit, CheckZero(reading("0.375", IN_PARTS, False)))
    for command, stays in (
        (CheckZero(reading("0.375", "in", False)), True),
        (CheckZero(reading("-0.375", "mm")), True),
        (CheckBenchmark(1, reading("0.375", "in")), False),
    ):  # fmt: skip
        assert unit.stays_open_for(command) is stays, command
    yes = asks(YesOrNo, command_of("finish +450 mm"))
    assert yes.stays_open_for(command_of("finish +450 mm"))
    assert not yes.stays_open_for(command_of("finish +451 mm"))
