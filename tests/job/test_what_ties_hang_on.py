"""A tie on a doubtful point makes its set-up doubtful too, until there is a sound tie."""

from __future__ import annotations

import pytest

from assistant.floor.heights import survey_of
from assistant.job import finished_floor
from tests.job.a_floor import FLOOR, heights
from tests.job.conftest import Site
from tests.there import there

# --- what a tie hangs on ----------------------------------------------------------------------


def test_what_hangs_on_a_tie_in_doubt_is_in_doubt(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "B1 -17", "check zero level", "C1 -16", "reference moved",
                 "tie on C1 -26")  # fmt: skip
    assert floor.data["tie"]["sound"] is False
    assert "Charlie one is in doubt" in floor.reply.say
    floor.told("D1 -28", "E1 -27")
    assert survey_of(floor.job).doubtful == {"C1": "moved", "D1": "hangs", "E1": "hangs"}
    survey = floor.told("survey check").data["survey"]
    assert "hangs" in {suspect["why"] for suspect in survey["suspects"]}
    assert survey["verdict"] == "look at these"  # one sound tie brings them back


def test_doubt_is_carried_on_through_a_chain_and_a_sound_tie_ends_it(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "check zero level", "C1 -16", "reference moved",
                 "tie on C1 -26", "D1 -28", "new set up", "tie on D1 -38", "E1 -37")  # fmt: skip
    assert survey_of(floor.job).doubtful == {"C1": "moved", "D1": "hangs", "E1": "hangs"}
    floor.told("tie on A1 -38")
    # A1 is sound, so the third set-up is, and by its tie on D1 the second one, and its tie on C1.
    assert survey_of(floor.job).doubtful == {}
    assert heights(floor)["E1"] == -17


def test_a_reading_in_doubt_stays_out_where_a_sound_one_fixes_the_point(site: type[Site]) -> None:
    """C1 was read after the move, 10 mm too low: neither the zero nor its height follow it."""
    floor = site(*FLOOR, "A1 -18", "check zero level", "C1 -26", "reference moved",
                 "tie on A1 -28", "tie on C1 -26", "D1 -28")  # fmt: skip
    assert heights(floor) == {"A1": -18, "C1": -16, "D1": -18}
    assert survey_of(floor.job).misfits == ()
    assert survey_of(floor.job).doubtful == {}


def test_a_zero_that_stood_by_a_tie_in_doubt_is_not_known_to_have_stood(site: type[Site]) -> None:
    """The last of the readings in doubt reads the same again, as it would after a move too."""
    floor = site(*FLOOR, "A1 -18", "B1 -17", "reference moved", "tie on B1 -17")
    assert survey_of(floor.job).doubtful == {"A1": "moved", "B1": "moved"}


@pytest.mark.parametrize(
    ("lines", "offered", "never"),
    [
        (("A1 -18", "check zero level", "C1 -16"), "tie on A1", "tie on C1"),
        (("A1 -18", "benchmark 2 at 40 mm above zero", "C1 -16"), "tie on benchmark 2", "C1 minus"),
        (("tie on benchmark 3 plus 12", "check zero level", "C1 -16"), "tie on benchmark 3", "C1"),
        (("A1 -18", "B1 -16"), "benchmark 1 at level", "tie on B1"),
    ],
)
def test_only_what_is_sound_is_offered_to_tie_on(
    site: type[Site], lines: tuple[str, ...], offered: str, never: str
) -> None:
    floor = site(*FLOOR, *lines, "reference moved")
    told = floor.reply.details[-2]
    assert offered in told
    assert never not in told


def test_a_reading_that_was_asked_about_is_not_the_first_to_be_tied_on(site: type[Site]) -> None:
    """It was confirmed, and may be right; what nobody had to ask about is the better tie."""
    floor = site(*FLOOR, "A1 -18", "B1 -17", "C1 -16", "A2 -17", "B2 -18", "C2 -17", "A3 -16")
    floor.told("B3 -130")
    assert "tie on A3" in floor.told("new set up").details[-1]


def test_where_nothing_sound_is_left_it_says_so_and_what_to_do(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "B1 -16", "reference moved")
    assert floor.reply.details[-2].startswith("Nothing read is sound to tie on")
    assert "Nothing sound to tie on" in floor.reply.say
    floor.told("benchmark 1 at level", "tie on benchmark 1 plus 10", "C1 -8")
    assert heights(floor)["C1"] == -18
    assert "C1" not in survey_of(floor.job).doubtful


def test_what_a_set_up_was_tied_by_is_not_in_doubt_when_it_moves_later(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "B1 -17", "new set up", "tie on A1 -28", "tie on B1 -27",
                 "C1 -26", "reference moved", "tie on A1 -38", "D1 -36")  # fmt: skip
    assert survey_of(floor.job).doubtful == {"C1": "moved"}
    assert heights(floor) == {"A1": -18, "B1": -17, "C1": -16, "D1": -16}


def test_the_finished_floors_heights_hang_on_what_the_slabs_set_ups_do(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "check zero level", "C1 -16", "reference moved",
                 "tie on C1 -26", "D1 -28", "pour finished", "A1 level")  # fmt: skip
    assert survey_of(there(finished_floor(floor.job))).doubtful == {"A1": "hangs"}
