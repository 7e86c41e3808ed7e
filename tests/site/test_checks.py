"""Every step's check, seen unmet and met."""

from __future__ import annotations

import pytest

from assistant.guide.looks import Check
from assistant.guide.steps import step_of, steps
from assistant.guide.walk import check_of
from tests.site.conftest import Morning
from tests.there import there

# the step; what has been done and is not enough, with what the reply then says; and what does it.
# "@10" lets ten minutes pass, "zero" reads the zero and finds it level, "open" opens the step.
POINTS = ("room 8 by 6 metres", "grid 4 metres")
READ = (*POINTS, "A1 -11", "-12", "-13", "-12")
LEVEL = ("A1 level", "B1 level", "B2 level", "A2 level")
STANDARD = ("product example standard",)
SEEN = [
    ("walk", (), "has not been told", ("floor is screed",)),
    ("moisture", (), "0 of 3 moisture tests made; the pH is not tested yet.", ("floor is tile",)),
    ("moisture", ("pH 9", "slab humidity 70 percent at A1", "slab humidity 70 percent at A2"),
     "2 of 3 moisture tests made; say", ("slab humidity 70 percent at A3",)),
    ("climate", ("air 20 degrees",), "Not read yet: slab and humidity.",
     ("slab 15 degrees", "humidity 50 percent")),
    ("climate", ("air 20 degrees", "slab 15 degrees", "humidity 50 percent", "@241"),
     "read again: air, slab and humidity", ("air 20 degrees", "slab 15 degrees",
                                            "humidity 50 percent")),
    ("outline", (), "No room yet", ("room 8 by 6 metres",)),
    ("outline", ("wall east 4 metres", "wall north 3 metres", "wall west 4 metres",
                 "wall south 3 metres"), "outline is open", ("close room",)),
    ("doors", (), "No door yet", ("door 1 left minus 2 right minus 3 outside plus 4",)),
    ("doors", ("door 1 outside plus 4",), "Door 1 lacks its jambs",
     ("door 1 left minus 2 right minus 3",)),
    ("doors", ("door 1 left minus 2 right minus 3",), "Door 1 lacks the floor outside",
     ("door 1 outside plus 4",)),
    ("product", (), "No product yet", STANDARD),
    ("grid", ("room 8 by 6 metres",), "No points yet", ("grid 4 metres",)),
    ("settle", (), "not on the floor yet", ("hose on floor", "@10")),
    ("settle", ("hose on floor", "@4"), "6 minutes more", ("@6",)),
    ("zero", (), "has not been checked", ("zero",)),
    ("readings", ("room 8 by 6 metres",), "no points to read", ("grid 4 metres", *READ[2:])),
    ("readings", READ[:4], "2 of 4 points are still missing; next is B2.", READ[4:]),
    ("readings", READ[:5], "1 of 4 points is still missing; next is A2.", READ[5:]),
    ("closing", ("zero",), "nothing to close", (*READ, "zero")),
    ("closing", ("zero", *READ), "not been read again", ("zero",)),
    ("finish", (), "No readings yet", (*STANDARD, *READ, "finish at zero")),
    ("finish", (*READ, "finish at zero"), "No product yet", STANDARD),
    ("finish", (*STANDARD, *READ), "assumed to be at the zero", ("finish at zero",)),
    ("finish", (*STANDARD, *READ, "raise finish 18 mm"),
     "1 point outside the limits of depth", ("lower finish 1 mm",)),
    ("pins", ("open",), "Only you can see that", ("done",)),
    ("order", ("open",), "No bags yet", (*STANDARD, *READ, "done")),
    ("order", ("open", *STANDARD, *READ), "of mix water and 6 L of primer; say done", ("done",)),
    ("prep", ("open",), "Only you can see that", ("done",)),
    ("primer", (), "No primer yet", ("primer on floor", "@180")),
    ("primer", (*STANDARD, *READ), "6 L in 1 coat by the card", ("primer on floor", "@180")),
    ("trial", STANDARD, "4.75 to 5.25 L of water to a bag by the card", ("water in",)),
    ("primer", (*STANDARD, "primer on floor", "@30"), "60 minutes more", ("@60",)),
    ("bays", ("open",), "Only you can see that", ("done",)),
    ("trial", (), "No mix yet", ("water in",)),
    ("ready", ("floor is timber", "accept moisture because metered", *STANDARD, *READ, "zero",
               "primer on floor", "@90", "air 20 degrees",
               "slab 17 degrees", "humidity 50 percent"), "Not yet, 1 reason. First: No door",
     ("door 1 left minus 2 right minus 3 outside plus 4",)),
    ("pour", ("water in",), "Not poured yet", ("pour finished",)),
    ("protect", STANDARD, "Not poured yet", ("pour finished", "@240")),
    ("protect", (*STANDARD, "pour finished", "@180"), "60 minutes more", ("@60",)),
    ("protect", ("pour finished", "@999"), "ask the data sheet", STANDARD),
    ("verify", READ, "once it is poured", ("pour finished", *LEVEL)),
    ("verify", (*READ, "pour finished", *LEVEL[:3]),
     "1 of 4 points of the finished floor still missing; next is A2.", LEVEL[3:]),
    ("edge", (*READ, "pour finished"), "No gap, line or scan", ("gap 1 mm under 2 metres at A1",)),
    ("edge", (*READ, "pour finished", "line 1 from A1 to B1 every 1 m", "0, 0"),
     "No gap, line or scan", ("0",)),
    ("edge", (*READ, "gap 1 mm under 2 metres at A1"), "once it is poured",
     ("pour finished", "gap 1 mm under 2 metres at A1")),
    ("held", ("spec SR1",), "What was promised is not said yet", ("promised level",)),
    ("held", ("promised flat",), "held to nothing yet", ("spec 3 mm under 2 metres",)),
    ("mend", READ, "Nothing of the finished floor is read", ("pour finished", *LEVEL)),
    ("mend", (*READ, "pour finished", *LEVEL[:3]), "1 point still to be read", LEVEL[3:]),
    ("mend", (*READ, "pour finished", *LEVEL[:3], LEVEL[3].replace("level", "plus 9")),
     "1 place on the punch list; first A2.", ("mended", LEVEL[3])),
    ("record", ("open",), "Only you can see that", ("done",)),
]  # fmt: skip


def do(floor: Morning, id: str, line: str) -> None:
    if line.startswith("@"):
        floor.later(minutes=int(line[1:]))
    elif line == "zero":
        floor.check_zero()
    elif line == "open":
        floor.say("guide")
        while floor.job.guide.open != id:
            floor.say("skip because it is not looked at here")
    else:
        floor.say(line)


def look(floor: Morning, id: str) -> Check:
    return check_of(there(step_of(id)), floor.job, floor.time)


@pytest.mark.parametrize(
    ("id", "before", "told", "doing"), SEEN, ids=[f"{s[0]}: {s[2][:20]}" for s in SEEN]
)
def test_unmet_and_met(
    morning: type[Morning], id: str, before: tuple[str, ...], told: str, doing: tuple[str, ...]
) -> None:
    floor = morning()
    for line in before:
        do(floor, id, line)
    check = look(floor, id)
    assert not check.met
    assert told in check.message
    assert check.say
    for line in doing:
        do(floor, id, line)
    check = look(floor, id)
    assert check.met, check.message
    assert check.message


def test_the_step_and_the_order_give_the_same_bags(morning: type[Morning]) -> None:
    floor = morning(*STANDARD, "room 8 by 6 metres", "grid 3 metres", "A1 -11", "-19", "-5",
                    "-22", "-8", "-12")  # fmt: skip
    ordered = floor.say("order").reply.data["order"]["bags"]
    assert floor.say("tally").reply.data["tally"]["bags"] < ordered
    assert look(floor, "order").message.startswith(f"{ordered} bags, ")


def test_a_finish_that_was_taken_back_is_assumed_again(morning: type[Morning]) -> None:
    floor = morning(*STANDARD, *READ, "finish at zero")
    assert look(floor, "finish").met
    floor.say("take that back")
    assert "assumed" in look(floor, "finish").message


def test_every_step_s_check_was_seen() -> None:
    assert {seen[0] for seen in SEEN} == {step.id for step in steps()}


def test_what_is_done_is_undone(morning: type[Morning]) -> None:
    floor = morning(*READ)
    assert look(floor, "readings").met
    floor.say("strike B1")
    check = look(floor, "readings")
    assert check.message == "1 of 4 points is still missing; next is B1."
    assert check.say == "one of four points is still missing. Next is bravo one."


def test_a_check_of_another_known_height_closes_the_survey_too(morning: type[Morning]) -> None:
    from decimal import Decimal

    from assistant.events.set_ups import BenchmarkChecked
    from grammar.commands import Measure

    floor = morning(*READ)
    event = BenchmarkChecked(1, Measure(Decimal(40), "mm"))
    floor.journal.append("check benchmark 1 plus 40", [event], floor.time)
    floor.reopen()
    assert look(floor, "closing").met


def test_a_zero_that_moved_does_not_close_the_survey(morning: type[Morning]) -> None:
    floor = morning("check zero level", *READ).later(minutes=20)
    assert floor.talk.hear("check zero plus 30").reply.ask
    floor.say("confirm")
    check = look(floor, "closing")
    assert not check.met
    assert "4 points in doubt, A1, B1, B2 and A2" in check.message


def test_no_check_says_that_a_floor_is_dry_or_safe(ready: Morning) -> None:
    for step in steps():
        message = look(ready, step.id).message.casefold()
        assert " is dry" not in message
        assert " safe" not in message
