"""Limits of depth of one's own beside the card's: named apart, and neither silences the other.

Depths by exact arithmetic; the example card allows 3 to 30 mm.
"""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from assistant.site.rules import limit_reasons
from grammar import short_form, understand
from grammar.commands.finish import OwnLimit
from tests.job.conftest import Site

FLOOR = ("room 6 by 4 metres", "grid 2 metres")
READ = ("A1 -18", "B1 -9", "C1 -10", "A2 -12", "B2 -11", "C2 -10")
CARD = "product example standard"


def test_a_stricter_limit_is_told_with_its_own_source(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, *READ)
    reply = floor.told("most depth 12 mm")
    assert reply.headline == "Your own most depth: 12 mm."
    assert reply.details == ("Stricter than the card's 30 mm.", "1 of 6 points is deeper: A1.")
    assert floor.ids == ["over-own-most:A1"]
    (warning,) = reply.warnings
    assert (warning.severity, warning.value, warning.limit) == ("caution", 18.0, 12.0)
    assert warning.source == "your own limit, as said"
    assert "Lower the finish by 6 mm" in warning.message
    assert reply.data["own_limits"] == {"least_mm": None, "most_mm": 12.0, "past": ["A1"]}


def test_a_looser_limit_never_silences_the_card(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, *READ, "A1 -35")
    assert "over-maximum:A1" in {w.id for w in floor.told("warnings").warnings}
    reply = floor.told("most depth 40 mm")
    assert reply.details[0] == "The card's 30 mm is stricter, and stays what counts."
    (deep,) = [w for w in floor.told("warnings").warnings if w.id.endswith(":A1")]
    assert (deep.id, deep.limit) == ("over-maximum:A1", 30.0)
    floor.told("least depth 1 mm", "B2 -2")
    assert "under-minimum:B2" in {w.id for w in floor.told("warnings").warnings}


def test_past_both_it_is_the_cards_that_is_told(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, "most depth 12 mm", "A1 -35")
    assert floor.ids == ["over-maximum:A1", "points-missing"]


@pytest.mark.parametrize(("depth", "within"), [("12 mm", True), ("11.9 mm", False)])
def test_the_limit_itself_is_allowed(site: type[Site], depth: str, within: bool) -> None:
    floor = site(*FLOOR, "A1 -12", f"most depth {depth}")
    assert ("over-own-most:A1" in floor.ids) is not within


def test_on_a_large_floor_a_few_are_shown_and_all_are_counted(site: type[Site]) -> None:
    points = [f"{column}{row}" for row in range(1, 7) for column in "ABCDEF"]
    floor = site("room 12 by 12 metres", "grid 2 metres", *(f"{point} -18" for point in points))
    reply = floor.told("most depth 12 mm")
    assert len(reply.warnings) == 4
    assert "36 of 36 points are deeper: A1, B1, C1, D1 and 32 more." in reply.details
    assert reply.details[-1] == "32 more like these: warnings."
    assert len(reply.data["own_limits"]["past"]) == 36
    assert reply.say == (
        "Your own most depth, one two millimetres. Over your own most depth at thirty six points."
    )
    assert len(floor.told("warnings").warnings) == 36


def test_without_a_card_it_counts_all_the_same(site: type[Site]) -> None:
    floor = site(*FLOOR, *READ)
    assert "come with its card" in floor.told("least depth 10 mm").details[0]
    assert floor.ids == ["under-own-least:B1"]


def test_a_limit_is_dropped_and_only_where_there_is_one(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, *READ, "most depth 12 mm")
    reply = floor.told("no most depth")
    assert reply.headline == "No most depth of your own any more."
    assert reply.details == ("The card's 30 mm stays.",)
    assert not floor.told("warnings").warnings
    assert "none is dropped" in floor.refused("no most depth")
    floor.told("undo")
    assert floor.job.own_limits.most_mm == 12


def test_the_least_is_not_over_the_most(site: type[Site]) -> None:
    floor = site("most depth 12 mm")
    assert "Your own most depth is 12 mm" in floor.refused("least depth 15 mm")
    assert "must be more than nothing" in floor.refused("least depth 0 mm")
    floor.told("least depth 12 mm")


def test_in_inches(site: type[Site]) -> None:
    floor = site("readings in inches", *FLOOR, "A1 -3/4", "most depth 1/2")
    (warning,) = [w for w in floor.reply.warnings if w.id == "over-own-most:A1"]
    assert warning.message.startswith("A1 is 3/4 in deep, over your own most depth of 1/2 in.")


# --- where they count ---------------------------------------------------------------------


def test_the_best_finish_keeps_to_the_stricter_one(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, *READ)
    # Over the highest point, B1 at -9, by the card's 3 mm; then by 5 mm of one's own.
    assert floor.told("best finish").data["finish_mm"] == -6
    floor.told("least depth 5 mm")
    reply = floor.told("best finish")
    assert reply.data["finish_mm"] == -4
    assert reply.details[0] == "Held there: B1 wants 5 mm of material (your own limit)."
    floor.told("least depth 1 mm")
    reply = floor.told("best finish")
    assert reply.data["finish_mm"] == -6
    assert "your own" not in reply.details[0]


def test_a_conflict_says_whose_limits_stand_against_each_other(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, *READ, "most depth 6 mm")
    reply = floor.told("best finish")
    # A1 at -18 with 6 mm at most is a finish of -12, under B1's -9 + 3 (exact arithmetic).
    assert set(reply.data["conflict"]) == {"minimum:B1", "maximum:A1"}
    assert "A1 takes 6 mm at most (your own limit)" in reply.headline
    assert "B1 wants 3 mm of material" in reply.headline
    assert any("deeper than your own most depth" in each for each in reply.details)


def test_cut_list_and_map_tell_of_it(site: type[Site]) -> None:
    floor = site(*FLOOR, *READ, "most depth 12 mm")
    assert [w.id for w in floor.told("cut list").warnings] == ["over-own-most:A1"]
    drawn = floor.told("map").map
    assert drawn is not None
    assert {spot.point: spot.flag for spot in drawn.spots}["A1"] == "deep"


def test_it_stands_against_pouring_with_what_clears_it(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, *READ, "most depth 11 mm")
    now = datetime(2026, 3, 9, 9, tzinfo=UTC)
    (reason,) = limit_reasons(floor.job, now)
    assert reason.id == "over-own-most"
    assert reason.message.startswith("A1 and A2 are over your own most depth.")
    assert (reason.source, reason.clears_by) == (
        "your own limit, as said", "lower the finish, or no most depth",
    )  # fmt: skip
    floor.told("no most depth")
    assert not list(limit_reasons(floor.job, now))


def test_what_if_at_most_says_which_finish_would_do(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, *READ)
    reply = floor.told("what if at most 12 mm")
    assert reply.data["warnings_come"] == ["over-own-most:A1"]
    assert "The best finish would then be 6 mm below the zero." in reply.details
    assert floor.job.own_limits.most_mm is None
    reply = floor.told("what if nothing deeper than 6 mm")
    assert any(each.startswith("No level finish would meet it:") for each in reply.details)


@pytest.mark.parametrize(
    ("line", "end"),
    [("at most 12 mm", "most"), ("max depth 12 mm", "most"), ("no deeper than 12 mm", "most"),
     ("maximum depth of 12 mm", "most"), ("set the max depth to 12 mm", "most"),
     ("at least 12 mm deep", "least"), ("minimum depth 12 mm", "least"),
     ("no thinner than 12 mm", "least"), ("keep the least depth at 12 mm", "least")],
)  # fmt: skip
def test_ways_to_say_it(line: str, end: str) -> None:
    (command,) = understand(line)
    assert isinstance(command, OwnLimit)
    assert (command.end, short_form(command)) == (end, f"{end} depth 12 mm")


# --- running out to nothing ---------------------------------------------------------------

THIN = ("door 1 left -4 right -6",)


def _with_card(floor: Site, least_mm: float) -> None:
    """The example card, with another least depth."""
    from dataclasses import replace

    from assistant.job.state import Job

    assert floor.job.card is not None
    card = replace(floor.job.card, min_mm=least_mm)
    job: Job = replace(floor.job, card=card)
    floor.job = job


def test_feathering_needs_a_card_that_allows_nothing(site: type[Site]) -> None:
    floor = site(*FLOOR, *THIN)
    assert "The product first" in floor.refused("feather to door 1")
    floor.told(CARD)
    assert floor.refused("feather to door 1").startswith(
        "example standard may not run out to nothing: its card's least depth is 3 mm."
    )


def test_feathering_puts_the_finish_at_the_higher_jamb(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, *READ)
    _with_card(floor, 0)
    assert "The floor in door 1 is not read yet" in floor.refused("feather to door 1")
    reply = floor.told(*THIN, "feather to door 1")
    assert floor.job.finish_mm == -4
    assert "At the floor in door 1, where the pour runs out to nothing." in reply.details
    decided = {"by": "doorway", "door": 1, "height_mm": -4.0, "moved_since_mm": 0.0}
    assert reply.data["finish"]["decided"] == decided
    assert "feather:1" not in {w.id for w in floor.told("warnings").warnings}
    floor.told("door 1 left -1 right -6")
    assert any("3 mm higher now" in each for each in floor.reply.details)


def test_a_thicker_product_than_the_feathered_edge_is_stopped(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, *READ)
    _with_card(floor, 0)
    floor.told(*THIN, "feather to the door")
    floor.told(CARD)
    (stop,) = [w for w in floor.reply.warnings if w.id == "feather:1"]
    assert (stop.severity, stop.value, stop.limit) == ("stop", 0.0, 3.0)
    assert "by 3 mm" in stop.message
    floor.told("raise finish 3 mm")
    assert "feather:1" not in {w.id for w in floor.told("warnings").warnings}


def test_ones_own_least_depth_stands_against_feathering(site: type[Site]) -> None:
    floor = site(*FLOOR, CARD, *THIN)
    _with_card(floor, 0)
    floor.told("least depth 2 mm")
    assert "Your own least depth is 2 mm" in floor.refused("feather to door 1")


# --- the only door ------------------------------------------------------------------------


def test_the_only_door_needs_no_number(site: type[Site]) -> None:
    floor = site()
    assert "No door is known yet" in floor.refused("match the door")
    floor.told("door 3 outside plus 2", "match the door")
    assert floor.job.finish_mm == 2
    floor.told("door 1 outside plus 5")
    assert floor.refused("finish level with the door") == "Which door: 1 or 3?"


# --- what decided the finish --------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "headline", "assumed", "by"),
    [
        ((), "Finish at the zero, assumed, as nobody has set it.", True, "zero"),
        (("finish at zero",), "Finish at the zero, as it was said.", False, "height"),
        (("finish +4 mm",), "Finish 4 mm above the zero, as it was said.", False, "height"),
        (
            ("finish +4 mm", "raise finish 2 mm"),
            "Finish 6 mm above the zero, set 4 mm above the zero, then 2 mm higher.",
            False, "height",
        ),
        (
            ("lower finish 3 mm",),
            "Finish 3 mm below the zero, lowered from the zero, which was assumed.", False, "zero",
        ),
        (
            ("door 1 outside +2", "finish level with door 1"),
            "Finish 2 mm above the zero, level with the floor outside door 1.",
            False, "outside-door",
        ),
        (
            ("A1 -9", "finish 3 mm over the highest"),
            "Finish 6 mm below the zero, 3 mm over the highest point, A1.",
            False, "highest-point",
        ),
    ],
)  # fmt: skip
def test_what_was_assumed_and_what_decided_are_told_apart(
    site: type[Site], lines: tuple[str, ...], headline: str, assumed: bool, by: str
) -> None:
    floor = site(*FLOOR, *lines)
    reply = floor.told("what is the finish")
    assert reply.headline == headline
    assert reply.say.endswith("assumed.") is assumed
    told = reply.data["finish"]
    assert (told["assumed"], told["decided"]["by"]) == (assumed, by)
    assert floor.told("tally").data["finish"] == told


def test_the_tally_says_that_a_finish_is_assumed(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -9")
    assert "Finish at the zero, assumed: nobody has set it." in floor.told("tally").details
    floor.told("finish at zero")
    assert not any("assumed: nobody" in each for each in floor.told("tally").details)
