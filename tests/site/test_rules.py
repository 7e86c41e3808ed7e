"""What stands against a pour: each reason seen there, and seen cleared."""

from __future__ import annotations

import re

import pytest

from assistant.job.clocks import HOSE_MIN, PRIMER_MIN
from assistant.limits.site_limits import SITE_LIMITS
from tests.site.conftest import Morning


def test_an_empty_job_has_all_to_do(morning: type[Morning]) -> None:
    assert list(morning().reasons()) == [
        "substrate", "moisture-tests", "ph-test", "climate-missing", "room", "readings", "doors",
        "product", "primer",
    ]  # fmt: skip


def test_a_floor_with_all_checks_made_may_go(ready: Morning) -> None:
    assert ready.reasons() == {}
    reply = ready.turn.reply
    assert "Checked: the floor (concrete), 3 moisture tests" in reply.details[0]
    # it says who decides, and nowhere that anything is dry or safe
    assert any("local code" in line and "data sheet" in line for line in reply.details)
    said = " ".join((reply.first_line, reply.say, *reply.details)).casefold()
    assert not re.search(r"\b(is|are) (dry|safe|sound|adequate)\b", said)


# what is said on a floor that may go, the reason it brings, and what clears it
BRINGS = [
    ("slab 9 degrees", "slab-cold", "slab 17 degrees"),
    ("slab 31 degrees", "slab-warm", "slab 17 degrees"),
    ("air 31 degrees", "air-warm", "air 20 degrees"),
    ("air 49 degrees fahrenheit", "air-cold", "air 50 degrees fahrenheit"),
    ("slab 12.2 degrees", "dew-point", "slab 12.3 degrees"),  # dew point 9.255 °C, and 3 °C
    ("humidity 75 percent", "dew-point", "humidity 60 percent"),
    ("slab humidity 76 percent at A1", "slab-humidity", "slab humidity 75 percent at A1"),
    ("moisture emission 3.1 at A1", "emission", "moisture emission 3 at A1"),
    ("pH 10.5", "ph", "take that back"),
    ("pH 6.9", "ph", "take that back"),
    ("strike A1", "points-missing", "A1 -11"),
    ("finish 12 millimetres below zero", "high-spot", "finish 0 millimetres above zero"),
    ("lower finish 9 mm", "under-minimum", "raise finish 9 mm"),
    ("raise finish 18 mm", "over-maximum", "lower finish 18 mm"),
    ("door 2 left level right level", "door:2", "door 2 outside level"),
    ("door 1 outside plus 20", "door-step:1", "door 1 outside plus 4"),
    ("hose on floor", "hose-settling", "take that back"),
    ("primer on floor", "primer-drying", "take that back"),
    ("pour finished", "poured", "take that back"),
    ("floor is old adhesive", "old-adhesive", "accept adhesive because the laboratory found none"),
]


@pytest.mark.parametrize(("line", "id", "clearing"), BRINGS, ids=[f"{b}" for _, b, _ in BRINGS])
def test_a_reason_comes_and_goes(ready: Morning, line: str, id: str, clearing: str) -> None:
    ready.say(line)
    reason = ready.reasons()[id]
    for part in ("message", "source", "clears_by"):
        assert reason[part], part
    ready.say(clearing)
    assert id not in ready.reasons()


def test_at_a_limit_is_within_it(ready: Morning) -> None:
    ready.say("slab 10 degrees", "humidity 30 percent", "air 30 degrees", "slab 30 degrees")
    ready.say("pH 7", "pH 10", "slab humidity 75 percent at A1", "air 50 degrees fahrenheit")
    assert ready.reasons() == {}


def test_the_margin_itself_is_enough(ready: Morning) -> None:
    # saturated air has its own temperature for a dew point: 3 °C above it, exactly
    ready.say("humidity 100 percent", "air 17 degrees", "slab 20 degrees")
    assert "dew-point" not in ready.reasons()
    ready.say("slab 19.99 degrees")
    assert "dew-point" in ready.reasons()


def test_the_coldest_place_of_the_slab_counts(ready: Morning) -> None:
    ready.say("slab 11 degrees at A1", "slab 17 degrees at B2")
    assert "dew-point" in ready.reasons()
    ready.say("slab 16 degrees at A1")
    assert "dew-point" not in ready.reasons()


def test_every_area_has_its_tests(morning: type[Morning]) -> None:
    floor = morning("floor is concrete", "pH 9", "room 12 by 8 metres")  # 1033 ft²
    floor.say(*(f"slab humidity 70 percent at A{row}" for row in (1, 2, 3)))
    assert "3 of 4 moisture tests" in floor.reasons()["moisture-tests"]["message"]
    floor.say("slab humidity 70 percent at A3")  # the same place once more
    assert "moisture-tests" in floor.reasons()
    floor.say("slab humidity 70 percent at A4")
    assert "moisture-tests" not in floor.reasons()


def test_tests_of_two_kinds_do_not_add_up(morning: type[Morning]) -> None:
    floor = morning("floor is concrete", "slab humidity 70 percent at A1")
    floor.say("moisture emission 2 at A2", "moisture emission 2 at A3")
    assert "2 of 3" in floor.reasons()["moisture-tests"]["message"]


def test_a_floor_of_timber_is_not_asked_for_concrete_s_tests(morning: type[Morning]) -> None:
    reasons = morning("floor is timber").reasons()
    assert not {"moisture-tests", "ph-test", "substrate"} & set(reasons)


def test_what_was_read_hours_ago_is_read_again(ready: Morning) -> None:
    ready.later(hours=4)
    assert ready.reasons() == {}
    ready.later(minutes=1)
    assert list(ready.reasons()) == ["climate-stale"]
    ready.say("air 20 degrees", "slab 17 degrees")
    assert "the humidity" in ready.reasons()["climate-stale"]["message"]
    ready.say("humidity 50 percent")
    assert ready.reasons() == {}


def test_the_primer_waits_for_the_card_s_time(surveyed: Morning) -> None:
    surveyed.say("check zero level")
    assert list(surveyed.reasons()) == ["primer"]
    surveyed.say("primer on floor")
    assert surveyed.later(minutes=89).reasons()["primer-drying"]["clears_by"] == "wait 1 minute"
    assert "example standard" in surveyed.reasons()["primer-drying"]["source"]
    assert surveyed.later(minutes=1).reasons() == {}


def test_without_the_card_s_time_the_longest_that_is_usual(surveyed: Morning) -> None:
    surveyed.say("product example deep fill", "product example gypsum", "primer on floor")
    reason = surveyed.later(minutes=PRIMER_MIN[1] - 1).reasons()["primer-drying"]
    assert "common practice, no source" in reason["source"]
    assert "data sheet" in reason["source"]
    assert "primer-drying" not in surveyed.later(minutes=1).reasons()


def test_a_hose_has_settled_after_the_longest_that_is_usual(ready: Morning) -> None:
    ready.say("hose on floor")
    assert "hose-settling" in ready.later(minutes=HOSE_MIN[1] - 1).reasons()
    assert "hose-settling" not in ready.later(minutes=1).reasons()


def test_a_card_s_own_limits_count_instead(ready: Morning) -> None:
    from dataclasses import replace

    card = replace(
        ready.world.cards["example standard"],
        max_slab_humidity_percent=85.0, max_emission_lb=5.0, ph=(5.0, 12.0),
    )  # fmt: skip
    ready.world = replace(ready.world, cards={**ready.world.cards, "example standard": card})
    ready.reopen()
    ready.say("slab humidity 85 percent at A1", "moisture emission 5 at A1", "pH 12")
    assert set(ready.reasons()) == {"slab-humidity", "emission", "ph"}
    ready.say("product example standard")
    assert ready.reasons() == {}
    ready.say("slab humidity 85.1 percent at A1")
    assert "product card" in ready.reasons()["slab-humidity"]["source"]


def test_many_points_are_one_reason(ready: Morning) -> None:
    ready.say("raise finish 50 mm")
    reasons = ready.reasons()
    assert list(reasons) == ["over-maximum", "door-step:1", "weight"]
    assert reasons["over-maximum"]["message"].startswith("A1, B1, B2 and A2 are over")


def test_a_survey_whose_zero_moved_is_in_doubt(ready: Morning) -> None:
    ready.say("A1 -11", "reference moved")
    assert "A1" in ready.reasons()["survey-doubtful"]["message"]


def test_a_set_up_that_nothing_ties(ready: Morning) -> None:
    ready.say("new set up", "A1 -20")
    assert "set-up 2" in ready.reasons()["survey-untied"]["message"]
    ready.say("tie on B1 minus 21")
    assert "survey-untied" not in ready.reasons()


def test_ties_that_disagree(ready: Morning) -> None:
    ready.say("new set up", "tie on B1 minus 21")
    assert ready.talk.hear("tie on B2 minus 2").reply.ask
    ready.say("confirm", "A1 -20")
    assert "survey-misfits" in ready.reasons()


def test_an_emission_test_never_counts_on_a_leveller(morning: type[Morning]) -> None:
    floor = morning(*(f"moisture emission 2 at A{row}" for row in (1, 2, 3)))
    assert "moisture-tests" not in floor.reasons()
    floor.say("floor is levelling compound")
    assert "never made on a levelling compound" in floor.refused("moisture emission 2 at A4")
    floor.say("floor is concrete", "pour finished")
    assert "has been poured" in floor.refused("moisture emission 2 at A4")


def test_every_limit_has_a_source() -> None:
    for limit in SITE_LIMITS.values():
        assert limit.source
        assert limit.unit


@pytest.mark.parametrize(
    ("line", "id", "accepting", "worse"),
    [
        ("product example deep fill", "weight", "accept weight because the engineer has seen it",
         "lower finish 1 mm"),
        ("door 1 left minus 1 right minus 40", "door-across:1",
         "accept jambs because the joiner trims it", "door 1 left minus 1 right minus 41"),
        ("instrument range 10 mm", "out-of-range", "accept range because read twice", None),
    ],
)  # fmt: skip
def test_what_only_a_person_can_answer_for(
    ready: Morning, line: str, id: str, accepting: str, worse: str | None
) -> None:
    ready.say(line)
    if id == "weight":
        ready.say("finish 20 millimetres above zero")
    assert any(found.startswith(id) for found in ready.reasons())
    ready.say(accepting)
    assert ready.turn.recorded == ("reason-accepted",)
    assert not any(found.startswith(id) for found in ready.reasons())
    accepted = ready.data["ready"]["accepted"]
    assert accepted[0]["words"] == accepting.partition("because ")[2]
    ready.reopen()
    assert not any(found.startswith(id) for found in ready.reasons())
    if worse:
        ready.say(worse)
        assert any(found.startswith(id) for found in ready.reasons())


def test_an_acceptance_is_undone_like_anything_else(ready: Morning) -> None:
    ready.say("door 1 left minus 1 right minus 40", "accept jambs because seen", "take that back")
    assert "door-across:1" in ready.reasons()


def test_words_do_not_clear_the_age_of_a_test_and_it_is_not_called_nothing(ready: Morning) -> None:
    assert "tests-stale" in ready.later(days=31).reasons()
    told = ready.refused("accept moisture because it smells dry")
    assert "nothing that words can clear" in told


def test_nothing_is_accepted_unseen(ready: Morning) -> None:
    assert "Of the weight, nothing that words" in ready.refused("accept weight because it is fine")


def test_asbestos_is_not_cleared_by_another_name(ready: Morning) -> None:
    ready.say("floor is old adhesive", "floor is concrete")
    assert "old-adhesive" in ready.reasons()


@pytest.mark.parametrize("floor", ["timber", "tile", "levelling compound"])
def test_other_floors_want_moisture_on_record(morning: type[Morning], floor: str) -> None:
    job = morning(f"floor is {floor}")
    assert "moisture-other" in job.reasons()
    job.say("accept moisture because the floor layer metered it")
    assert "moisture-other" not in job.reasons()


def test_each_check_has_an_age(ready: Morning) -> None:
    ready.later(days=29, hours=22)  # the tests were made two hours before
    assert "tests-stale" not in ready.reasons()
    assert "tests-stale" in ready.later(minutes=1).reasons()


def test_the_zero_and_the_primer_have_an_age(ready: Morning) -> None:
    ready.later(hours=22)  # both are two hours old
    assert not {"zero-stale", "primer-stale"} & set(ready.reasons())
    assert {"zero-stale", "primer-stale"} <= set(ready.later(minutes=1).reasons())


def test_a_zero_never_checked_is_a_reason(surveyed: Morning) -> None:
    assert "zero-unchecked" in surveyed.reasons()
    surveyed.say("check zero level")
    assert "zero-unchecked" not in surveyed.reasons()


def test_standing_cautions_are_counted_first_and_listed(ready: Morning) -> None:
    ready.say("product example gypsum", "ready to pour")
    cautions = ready.data["ready"]["cautions"]
    assert [each["id"] for each in cautions] == ["pin-spacing"]
    assert "1 caution" in ready.turn.reply.headline
    assert any(cautions[0]["message"] in line for line in ready.turn.reply.details)


def test_what_was_not_checked_is_said_aloud(ready: Morning) -> None:
    ready.say("ready to pour")
    assert "Not checked" in ready.turn.reply.say


def test_a_good_test_is_not_blamed_for_a_bad_one(ready: Morning) -> None:
    assert [w.id for w in ready.say("pH 4").reply.warnings] == ["ph"]
    assert ready.say("pH 7").reply.warnings == ()
    assert "pH is 4" in ready.reasons()["ph"]["message"]


# --- each set-up, each reading, and what is only assumed ------------------------------------


def test_every_set_up_with_readings_wants_its_zero_checked(ready: Morning) -> None:
    ready.say("new set up", "tie on B1 minus 12", "A2 -12")
    told = ready.reasons()["zero-unchecked"]
    assert told["message"].startswith("The zero of set-up 2 was never checked")
    ready.say("check zero level")
    assert "zero-unchecked" not in ready.reasons()


def test_a_check_elsewhere_does_not_answer_for_a_set_up_that_is_gone(surveyed: Morning) -> None:
    surveyed.say("new set up", "tie on B1 minus 12", "A2 -12", "check zero level")
    assert "The zero of set-up 1 was" in surveyed.reasons()["zero-unchecked"]["message"]
    surveyed.say("accept zero because the foreman watched it")
    assert "zero-unchecked" not in surveyed.reasons()


def test_a_reading_that_the_survey_itself_doubts_is_a_reason(morning: type[Morning]) -> None:
    # Read before its set-up was tied, so that nothing could be held against it then.
    floor = morning(
        "product example standard", "room 8 by 6 metres", "grid 2 metres",
        "A1 -12", "minus 13", "minus 14", "minus 13", "D2 -12", "minus 12", "minus 11",
        "minus 13", "new set up", "A3 -23", "B3 -38", "C3 -22", "D3 -22",
        "tie on C2 -22", "tie on A1 -22",
    )  # fmt: skip
    assert floor.say("survey check").reply.headline == "Look at these: B3."
    assert floor.reasons()["survey-suspect"]["message"] == "B3 does not fit the floor around."
    floor.say("B3 -38")  # a second look that finds the same
    assert "survey-suspect" not in floor.reasons()


def test_readings_grow_old(ready: Morning) -> None:
    # thirty days: our own choice, no source
    ready.later(days=29)
    assert "readings-stale" not in ready.reasons()
    ready.later(days=2)
    told = ready.reasons()["readings-stale"]["message"]
    assert told.startswith("4 points read more than 30 days ago: A1, ")
    ready.say("correct A1 to minus 11")
    assert "readings-stale" in ready.reasons()
    ready.say("accept readings because the room was locked since")
    assert "readings-stale" not in ready.reasons()


def test_a_finish_that_nobody_said_is_told_as_assumed(ready: Morning) -> None:
    ready.say("ready to pour")
    assert ready.data["ready"]["finish_assumed"]
    assert any("assumed to be at the zero" in line for line in ready.turn.reply.details)
    ready.say("finish at zero", "ready to pour")
    assert not ready.data["ready"]["finish_assumed"]
    assert not any("assumed" in line for line in ready.turn.reply.details)


def test_the_worst_ph_is_the_one_farthest_outside_the_range(ready: Morning) -> None:
    # 7 to 10: 6 is one below, 10.5 half above, though it lies farther from neutral
    ready.say("pH 10.5 at A1", "pH 6 at B1")
    assert ready.reasons()["ph"]["message"] == "pH at B1 is 6, and 1 more, outside 7 to 10."
