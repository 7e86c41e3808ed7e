"""Things that take their time: how long, what they say, and that a restart forgets nothing."""

from __future__ import annotations

import pytest

from assistant.job.clocks import CLOCKS, Started, ringings, span_of
from assistant.reply.times import UNTIMED
from tests.site.conftest import Morning
from tests.there import there


def test_hose_and_primer_and_who_says_so() -> None:
    # one maker's advice; common practice, no source
    for clock, minutes, source in (
        ("hose", (5, 10), "one maker's advice, the card decides"),
        ("primer", (60, 180), "common practice, no source"),
    ):
        span = there(span_of(clock, None))
        assert (span.least.total_seconds() / 60, span.most.total_seconds() / 60) == minutes
        assert source in span.source


def test_mix_and_pour_by_the_card(morning: type[Morning]) -> None:
    card = morning().world.cards["example standard"]
    assert there(span_of("mix", card)).most.total_seconds() == 60 * card.working_time_min
    assert there(span_of("pour", card)).most.total_seconds() == 3600 * card.foot_traffic_h
    assert "example standard" in there(span_of("pour", card)).source
    assert span_of("mix", None) is span_of("pour", None) is None
    assert ringings(Started("mix", UNTIMED), None) == ()


def test_what_is_told_when_one_starts(morning: type[Morning]) -> None:
    reply = morning().say("hose on floor").reply
    assert reply.headline == "The hose lies on the floor; it settles until 07:10, 10 minutes."
    assert reply.say == "The hose lies on the floor. It settles until seven ten, ten minutes."
    assert reply.details == ("5 minutes to 10 minutes (one maker's advice, the card decides).",)


def test_without_a_card_a_mix_has_no_time(morning: type[Morning]) -> None:
    floor = morning("water in")
    assert "No product card" in floor.turn.reply.headline
    assert [caution.id for caution in floor.turn.reply.cautions]
    floor.say("clocks")
    assert floor.turn.reply.tables[0].rows == (("mix", "07:00", "not known"),)
    assert floor.data["clocks"][0]["left_min"] is None


def test_clocks_with_what_is_left(morning: type[Morning]) -> None:
    floor = morning("product example standard", "water in")
    floor.later(minutes=8).say("water in", "hose on floor")
    floor.later(minutes=2).say("clocks")
    assert floor.turn.reply.tables[0].rows == (
        ("mix", "07:00", "10 minutes"),
        ("mix", "07:08", "18 minutes"),
        ("hose settling", "07:08", "8 minutes"),
    )
    assert floor.turn.reply.say == (
        "Mix, ten minutes left. Mix, eighteen minutes left. Hose settling, eight minutes left."
    )
    assert [clock["left_min"] for clock in floor.data["clocks"]] == [10, 18, 8]


def test_a_started_hose_starts_anew(morning: type[Morning]) -> None:
    floor = morning("hose on floor").later(minutes=8)
    floor.say("hose on floor")
    assert len(floor.job.site.clocks) == 1
    floor.later(minutes=9).say("clocks")
    assert floor.data["clocks"][0]["left_min"] == 1


# --- they speak ------------------------------------------------------------------------------


def rung(floor: Morning) -> list[tuple[str, str]]:
    """Clock and minute of what was said at the last line."""
    return [(each["clock"], each["time"][11:16]) for each in floor.data.get("rung", [])]


def test_a_clock_that_ended_is_heard_at_the_next_line_and_once(morning: type[Morning]) -> None:
    floor = morning("hose on floor").later(minutes=4)
    floor.say("clocks")
    assert rung(floor) == []
    floor.later(minutes=1).say("clocks")
    assert rung(floor) == [("hose", "07:05")]
    floor.later(minutes=20).say("A1 -18")
    assert rung(floor) == [("hose", "07:10")]
    reply = floor.turn.reply
    assert reply.headline == "A1 18 mm below. Depth 18 mm."
    assert "Clock: The hose has lain 10 minutes. Set the zero, or check it." in reply.details
    assert reply.say.endswith("The hose has lain ten minutes. Set the zero, or check it.")
    floor.say("clocks")
    assert rung(floor) == []


def test_it_is_heard_also_where_the_line_is_not_taken(morning: type[Morning]) -> None:
    floor = morning("hose on floor").later(minutes=6)
    turn = floor.talk.hear("mumble mumble")
    assert not turn.ok
    assert "Clock: The hose has lain 5 minutes" in turn.reply.details[-1]


def test_a_clock_survives_a_restart(morning: type[Morning]) -> None:
    floor = morning("product example standard", "pour finished")
    floor.reopen()
    floor.later(hours=3).say("clocks")
    assert floor.turn.reply.tables[0].rows == (
        ("foot traffic", "07:00", "60 minutes"),
        ("covering", "07:00", "21 hours"),
        ("heating", "07:00", "165 hours"),
    )
    floor.later(hours=2)
    floor.reopen()
    assert floor.talk.rings
    assert "The pour has had 4 hours" in there(floor.talk.rung()).headline
    assert floor.talk.rung() is None


def test_a_mix_says_so_before_it_is_over(morning: type[Morning]) -> None:
    floor = morning("product example standard", "water in").later(minutes=15)
    reply = there(floor.talk.rung())
    assert reply.headline == "Clock: 5 minutes of working time left in that mix."
    assert reply.say == "Five minutes of working time left in that mix."
    assert "over after 20 minutes" in there(floor.later(minutes=5).talk.rung()).headline


def test_nothing_rings_where_nothing_was_started(morning: type[Morning]) -> None:
    floor = morning("A1 -18").later(days=3)
    assert not floor.talk.rings
    assert floor.talk.rung() is None


def test_an_undone_clock_is_silent(morning: type[Morning]) -> None:
    floor = morning("hose on floor", "take that back")
    assert floor.turn.reply.say == "Undone: the hose clock."
    assert floor.later(hours=1).talk.rung() is None
    floor.say("bring that back")  # brought back, with the time at which it was started
    floor.say("clocks")
    assert floor.data["clocks"][0]["over"]


@pytest.mark.parametrize("clock", CLOCKS)
def test_every_clock_has_something_to_say(morning: type[Morning], clock: str) -> None:
    card = morning().world.cards["example thin skim"]
    said = ringings(Started(clock, UNTIMED), card)
    assert said[-1].time - UNTIMED == there(span_of(clock, card)).most
    for each in said:
        assert "{" not in each.text + each.spoken


# --- primer, mix and pour ----------------------------------------------------------------


def test_a_mix_before_its_primer_is_dry_is_told(morning: type[Morning]) -> None:
    floor = morning("product example standard", "primer on floor").later(minutes=15)
    reply = floor.say("water in").reply
    assert reply.details[1] == (
        "The primer still has 75 minutes to go, of 45 minutes to 90 minutes (product card example "
        "standard)."
    )
    assert reply.say.endswith("The primer still has seventy five minutes to go.")
    # past the least of its time, who looks and touches may know better
    assert (
        "The primer may need 30 minutes more"
        in (floor.later(minutes=45).say("water in").reply.details[1])
    )
    floor.later(minutes=30).say("tally")
    assert "primer" not in floor.say("water in").reply.say


def test_a_mix_without_a_card_is_held_against_its_primer_too(morning: type[Morning]) -> None:
    reply = morning("primer on floor").later(minutes=60).say("water in").reply
    assert "No product card, so no time. The primer may need two hours more." in reply.say


def test_a_finished_pour_ends_mix_and_primer(morning: type[Morning]) -> None:
    floor = morning("product example standard", "primer on floor", "water in")
    floor.later(minutes=4).say("water in")
    reply = floor.later(minutes=3).say("pour finished").reply
    assert "Ended with it: mix and primer drying." in reply.details
    assert floor.later(minutes=60).talk.rung() is None
    floor.say("clocks")
    assert floor.turn.reply.headline == "1 clock running."
    left = {row[0]: row[2] for row in floor.turn.reply.tables[0].rows}
    assert left == {"primer drying": "ended", "mix": "ended", "foot traffic": "3 hours",
                    "covering": "23 hours", "heating": "167 hours"}  # fmt: skip
    assert [each["over"] for each in floor.data["clocks"]] == [True, True, True, False]
    # a lift more has clocks of its own
    floor.say("primer on floor", "water in", "clocks")
    assert floor.turn.reply.headline == "3 clocks running."
    floor.say("pour finished", "clocks")
    assert floor.turn.reply.headline == "1 clock running."


def test_an_undone_pour_lets_them_run_on(morning: type[Morning]) -> None:
    floor = morning("product example standard", "water in", "pour finished", "undo")
    assert "5 minutes of working time left" in there(floor.later(minutes=15).talk.rung()).headline


def test_a_pour_of_an_older_record_ended_nothing(morning: type[Morning]) -> None:
    from assistant.events.site import ClockStarted

    floor = morning("product example standard", "water in")
    floor.journal.append("pour finished", [ClockStarted("pour")], floor.time)
    floor.reopen()
    floor.say("clocks")
    assert floor.turn.reply.headline == "2 clocks running."


def test_the_guide_sees_primer_and_mix_after_the_pour(morning: type[Morning]) -> None:
    from assistant.guide.checks import CHECKS
    from assistant.guide.looks import CheckContext

    floor = morning("product example standard", "primer on floor", "water in", "pour finished")
    for check in ("primer_waited", "mix_tried", "pour_told"):
        assert CHECKS[check](CheckContext(floor.job, floor.time, "")).met, check
