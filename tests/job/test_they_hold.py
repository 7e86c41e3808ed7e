"""Doubtful readings that are confirmed: some are read again, and confirm the others."""

from __future__ import annotations

from decimal import Decimal
from math import sqrt

import pytest
from scipy import stats

from assistant.floor.heights import survey_of
from assistant.floor.holding import MOST_CHANCE, holding_of
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres", "product example standard")
MOVED = (*FLOOR, "benchmark 1 at 40 mm above zero", "A1 -18", "B1 -17", "C1 -16", "D1 -18",
         "reference moved", "tie on benchmark 1 plus 30")  # fmt: skip
"""The zero stands 10 mm higher from then on; four readings are in doubt."""


def doubtful(floor: Site) -> list[str]:
    return list(survey_of(floor.job).doubtful)


def test_the_last_one_read_again_as_before_bears_out_all_of_them(site: type[Site]) -> None:
    floor = site(*MOVED)
    assert doubtful(floor) == ["A1", "B1", "C1", "D1"]
    floor.told("D1 -28")
    assert doubtful(floor) == ["A1", "B1", "C1"]  # nothing is cleared unasked
    reply = floor.told("they hold")
    assert reply.headline == "They hold: 3 readings in doubt no more, A1, B1 and C1."
    assert reply.say == "They hold. Three readings cleared."
    assert doubtful(floor) == []
    assert float(survey_of(floor.job).heights_mm["A1"]) == -18


def test_the_figures_are_those_of_two_one_sided_tests(site: type[Site]) -> None:
    """One difference of 0, its variance that of two readings and of the tie (exact arithmetic)."""
    floor = site(*MOVED, "D1 -28")
    floor.told("they hold")
    (told,) = floor.data["held"]["compared"]
    one = 1 + 1 / 12  # mm²: repeatability 1 mm, and steps of 1 mm
    assert told["points"] == ["D1"]
    assert told["mean_mm"] == 0
    assert told["sd_mm"] == pytest.approx(sqrt(2 * one + one))
    assert told["limit_mm"] == 3
    assert told["chance"] == pytest.approx(stats.norm.cdf(-3 / sqrt(3 * one)), rel=1e-6)
    assert f"{told['chance'] * 100:.1f} of 100 cases" in " ".join(floor.reply.details)


def test_with_more_read_again_the_tie_alone_is_left_in_the_variance(site: type[Site]) -> None:
    floor = site(*MOVED, "C1 -26", "D1 -28")
    one = 1 + 1 / 12
    (held,) = holding_of(floor.job)
    assert held.sd_mm == pytest.approx(sqrt(2 * one / 2 + one))


def test_readings_since_are_not_borne_out_by_one_before_them(site: type[Site]) -> None:
    floor = site(*MOVED, "B1 -27")
    reply = floor.told("they hold")
    assert floor.data["held"]["cleared"] == ["A1"]
    assert doubtful(floor) == ["C1", "D1"]
    assert "moved after B1. Read D1 again" in " ".join(reply.details)
    assert reply.say == "They hold. One reading cleared. Two readings still in doubt."


def test_a_point_read_twice_in_doubt_is_in_doubt_once(site: type[Site]) -> None:
    twice = [*MOVED[:-2], "B1 -17", *MOVED[-2:]]
    (held,) = holding_of(site(*twice).job)
    assert held.in_doubt == ("A1", "C1", "D1", "B1")  # as it was read last


def test_a_move_between_two_readings_clears_what_came_before_it(site: type[Site]) -> None:
    """B1 reads as before, D1 does not: the zero moved between them."""
    floor = site(*MOVED, "B1 -27", "D1 -18")
    reply = floor.told("they hold")
    assert floor.data["held"]["cleared"] == ["A1"]
    assert "D1 reads 10 mm above what it read before" in " ".join(reply.details)
    assert doubtful(floor) == ["C1"]


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        ((*FLOOR, "A1 -18"), "No reading is in doubt"),
        (MOVED, "none read again since from a sound zero. Read the last one again, D1"),
        ((*MOVED, "D1 -18"), "They do not hold"),
        ((*MOVED, "D1 -26"), "not sure enough yet"),
        ((*FLOOR, "A1 -18", "B1 -17", "reference moved", "tie on A1 -28", "B1 -27"),
         "A mark of known height will do"),
    ],
)  # fmt: skip
def test_what_does_not_hold_says_why_and_records_nothing(
    site: type[Site], lines: tuple[str, ...], why: str
) -> None:
    assert why in site(*lines).refused("they hold")


def test_what_is_not_sure_after_one_is_sure_after_more(site: type[Site]) -> None:
    """1.5 mm off by one reading may be a zero that moved by 3; by three, 0.5 mm, hardly."""
    floor = site(*MOVED, "D1 -26.5")
    assert "not sure enough" in floor.refused("they hold")
    floor.told("C1 -26", "B1 -27")
    floor.told("they hold")
    assert floor.data["held"]["compared"][0]["chance"] < MOST_CHANCE
    assert doubtful(floor) == []


def test_a_misread_one_among_more_that_agree_does_not_stand_in_their_way(site: type[Site]) -> None:
    floor = site(*MOVED, "B1 -17", "C1 -26", "D1 -28")
    assert "B1 reads 10 mm above" in " ".join(floor.told("they hold").details)
    assert doubtful(floor) == []


def test_readings_while_the_zero_moved_between_two_checks_hold_up_to_the_one_read_again(
    site: type[Site],
) -> None:
    floor = site(*FLOOR, "A1 -20", "check zero level", "B1 -19", "C1 -18", "D1 -18")
    floor.wait(5)
    floor.told("check zero plus 8")
    floor.wait(1)
    floor.told("check zero plus 8")
    floor.wait(1)
    floor.told("check zero level", "C1 -18")
    floor.wait(1)
    floor.told("check zero level")
    assert doubtful(floor) == ["B1", "D1"]
    floor.told("they hold")
    assert doubtful(floor) == ["D1"]


def test_a_tie_on_a_point_in_doubt_is_a_reading_of_it_again(site: type[Site]) -> None:
    floor = site(*MOVED, "tie on D1 -28")
    floor.told("they hold")
    assert doubtful(floor) == []


def test_undone_the_doubt_is_back_and_redone_it_is_gone(site: type[Site]) -> None:
    floor = site(*MOVED, "D1 -28", "they hold", "undo")
    assert doubtful(floor) == ["A1", "B1", "C1"]
    floor.told("redo")
    assert doubtful(floor) == []


def test_read_anew_in_doubt_later_it_is_in_doubt_again(site: type[Site]) -> None:
    floor = site(*MOVED, "D1 -28", "they hold", "A1 -28", "reference moved")
    assert "A1" in doubtful(floor)


def test_what_was_superseded_is_kept_and_what_was_put_right_is_not(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -18", "A1 -17", "correct A1 to -16", "B1 -15", "strike B1", "B1 -14")
    kept = floor.job.survey.superseded
    assert {point: [h.said.number for h in heights] for point, heights in kept.items()} == {
        "A1": [Decimal(-18)]
    }
