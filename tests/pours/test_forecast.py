"""The forecast: worked numbers of the conjugate normal, and how often it is right."""

import numpy as np
import pytest
from scipy.stats import truncnorm

from assistant.errors import SurveyError
from assistant.pours.forecast import Expected, forecast, ratio_sd
from tests.benchmarks.pours import Figures, figures

STEADY = Expected(0.08, hole_chance=0.0)
"""Without holes: the plain conjugate normal."""


def test_the_forecast_without_holes_is_the_conjugate_normal_as_worked_by_hand() -> None:
    """Prior 1, SD 0.08; strips of 4 bags that took 1.12, 1.05, 1.10, SD 0.06. Exact arithmetic."""
    worked = ((1.07680, 0.002304), (1.06634, 0.001405), (1.07579, 0.001011))
    used = (4.48, 4.20, 4.40)
    for strips, (mean, variance) in enumerate(worked, 1):
        left = 61 - 4 * strips
        seen = forecast([4] * strips, used[:strips], left, STEADY)
        assert float(seen.mean) == pytest.approx(sum(used[:strips]) + mean * left, abs=5e-4)
        # The ratio's part, and what the strips still to come differ: 0.06² · left · 4.
        sd = (variance * left**2 + 0.06**2 * left * 4) ** 0.5
        assert float(seen.sd) == pytest.approx(sd, abs=1e-3)
        low, high = seen.interval
        # 1.6449 is the normal's 95 % point, from any table
        assert (high - low) / 2 == pytest.approx(1.6449 * seen.sd, rel=1e-3)


def test_two_halves_tell_as_much_as_the_whole() -> None:
    whole = forecast([8, 8], [8.8, 8.4], 40, STEADY, part=8)
    halves = forecast([4, 4, 8], [4.4, 4.4, 8.4], 40, STEADY, part=8)
    assert float(halves.mean) == pytest.approx(float(whole.mean))
    assert float(halves.sd) == pytest.approx(float(whole.sd))


def test_before_the_first_bag_it_is_what_the_survey_says() -> None:
    seen = forecast([], [], 60, Expected(0.05))
    assert float(seen.mean) == pytest.approx(60)
    assert float(seen.sd) == pytest.approx(3.0, rel=0.2)
    assert float(seen.hole_chance) == 0
    assert not seen.asks


def test_once_all_is_poured_it_is_what_was_used() -> None:
    seen = forecast([30, 30], [33, 31], 0, Expected(0.05))
    assert [float(bags) for bags in seen.interval] == pytest.approx([64, 64], abs=1e-6)


def test_a_hole_is_asked_about_and_the_answer_decides() -> None:
    plan, used = [7.5, 7.5, 7.5], [7.6, 7.4, 11.5]
    open_still = forecast(plan, used, 37.5, Expected(0.058))
    assert open_still.asks
    assert float(open_still.hole_chance) > 0.9
    hole = forecast(plan, used, 37.5, Expected(0.058), lost=[0, 0, 1])
    deep = forecast(plan, used, 37.5, Expected(0.058), lost=[0, 0, -1])
    assert not hole.asks
    assert not deep.asks
    # the rest as planned, near enough, or deep as well
    assert float(hole.mean) == pytest.approx(26.5 + 37.5, abs=1.0)
    assert float(deep.mean) > float(hole.mean) + 3
    assert float(hole.chance_over(65)) < 0.5 < float(deep.chance_over(65))


def test_a_floor_that_runs_a_little_deep_is_not_asked_about() -> None:
    seen = forecast([7.5, 7.5], [8.1, 8.0], 45, Expected(0.058))
    assert not seen.asks
    assert float(seen.hole_chance) < 0.1


def test_a_bag_that_is_surely_missing_is_told_however_few_they_are() -> None:
    """55 of 60 are used, 6 planned ones are left and 5 there: short by one, 2 % of the bags."""
    seen = forecast([9] * 6, [9, 9, 9, 9, 9, 10], 6, Expected(0.05))
    assert float(seen.mean) - 60 < 0.03 * 60
    assert float(seen.chance_over(60)) > 0.9
    assert seen.short(60)
    assert not seen.short(62)


def test_the_zero_is_worth_more_than_the_yield() -> None:
    """1 mm of zero on 48 m² is 48 L, 3.2 bags of 15 L. Exact arithmetic."""
    volume = 0.9
    assert ratio_sd(volume, 0, 0.048, 0) * volume / 0.015 == pytest.approx(3.2)
    assert ratio_sd(volume, 0.03, 0.04, 0.05) == pytest.approx((0.05**2 / 0.81 + 0.05**2) ** 0.5)


def test_what_makes_no_sense_is_refused() -> None:
    for planned, used, left in (([4], [4, 5], 3), ([0], [1], 3), ([4], [-1], 3), ([4], [4], -1),
                                ([4], [np.nan], 3), ([4], [4], np.inf)):  # fmt: skip
        with pytest.raises(SurveyError):
            forecast(planned, used, left, STEADY)


@pytest.fixture(
    scope="module", params=[0, 2, 4], ids=["exact bags", "batches of two", "batches of four"]
)
def simulated(request: pytest.FixtureRequest) -> Figures:
    """Of 1,500 pours; 4,000 are what ``python -m tests.benchmarks.pours`` simulates."""
    return figures(1500, seed=3, batch=request.param)


def test_the_interval_holds_the_end_as_often_as_it_says(simulated: Figures) -> None:
    assert ((simulated.covered > 0.87) & (simulated.covered < 0.93)).all()


def test_shortages_are_told_in_time_and_few_for_nothing(simulated: Figures) -> None:
    assert simulated.shortages_told >= 0.95
    assert simulated.false_warnings <= 0.10


def test_half_of_the_last_batch_lies_beyond_the_end() -> None:
    """8 bags, 2 of them the last batch, for 7 planned: 7 were taken, so the rest is as planned; a
    bag that is begun is used, half a bag more. Exact arithmetic."""
    known = Expected(0.08, hole_chance=0)
    seen = forecast([7], [8], 49, known, beyond=[2])
    assert float(seen.mean) == pytest.approx(7 + 49 + 0.5)
    assert float(seen.ratio) == pytest.approx(1)
    # read where it stood, the same bags run deep
    assert float(forecast([7], [8], 49, known).ratio) > 1.05
    # and at the end all that was poured was taken
    assert float(forecast([7], [8], 0, known, beyond=[2]).mean) == pytest.approx(8)


def test_a_hole_is_found_and_its_answer_puts_the_forecast_right(simulated: Figures) -> None:
    assert simulated.holes_asked >= 0.80
    assert (simulated.covered_unanswered >= 0.70).all()
    assert (simulated.covered_answered >= 0.80).all()


def test_where_a_front_would_decide_it_is_asked_for_once_or_twice_a_pour(
    simulated: Figures,
) -> None:
    """Without the fronts more than one pour in ten that the bags do for was warned of, and of holes
    counted by fours four in ten were asked about."""
    assert simulated.fronts_asked == 0 or 0.5 < simulated.fronts_asked < 2.0


def test_what_lies_beyond_an_end_is_what_the_batch_and_the_plan_leave() -> None:
    """8 bags, 2 of them the last batch, for 7.5 planned: the floor took between 6 and 8, of a
    normal round 7.5 with SD 0.08 · 7.5 and 0.06 · 7.5 together, 0.75; scipy's cut normal."""
    known = Expected(0.08, hole_chance=0)
    seen = forecast([7.5], [8], 52.5, known, beyond=[2], part=7.5)
    cut = truncnorm(-2.0, 0.5 / 0.75, loc=7.5, scale=0.75)
    assert np.asarray(seen.past) == pytest.approx([8 - cut.mean()])
    share = 0.08**2 * 7.5 / 0.75**2
    assert float(seen.ratio) == pytest.approx(1 + share * (cut.mean() - 7.5))
    assert float(seen.mean) == pytest.approx(cut.mean() + 52.5 * float(seen.ratio) + 0.5)
    # and what is left of the ratio's doubt goes with what is left of the batch's
    ratio_var = 0.08**2 - share * 0.08**2 * 7.5 + share**2 * cut.var()
    whole = cut.var() + 2 * 52.5 * share * cut.var() + 52.5**2 * ratio_var
    assert float(seen.sd) ** 2 == pytest.approx(whole + 0.06**2 * 52.5 * 7.5 + 1 / 12)


def test_bags_counted_far_off_the_plan_are_numbers_still() -> None:
    for used in ([80, 2], [2, 90], [40, 400], [2, 2]):
        seen = forecast([7.5, 7.5], used, 45, STEADY, beyond=[2, 2])
        low, high = seen.interval
        told = (low, high, seen.mean, seen.surprise_sd, np.asarray(seen.past))
        assert all(np.isfinite(each).all() for each in told), used
        assert low < seen.mean < high
        past = np.asarray(seen.past)
        assert ((past >= 0) & (past <= 2 + 1e-9)).all()


def test_each_pour_may_have_a_plan_of_its_own() -> None:
    plans, used, left = np.array([[7.0, 8.0], [9.0, 6.0]]), np.array([[8.0, 8], [8, 6]]), [45, 45]
    both = forecast(plans, used, left, STEADY, beyond=[2, 0], part=7.5)
    for row in range(2):
        alone = forecast(plans[row], used[row], 45, STEADY, beyond=[2, 0], part=7.5)
        assert float(both.mean[row]) == pytest.approx(float(alone.mean))
        assert float(both.sd[row]) == pytest.approx(float(alone.sd))


def test_in_one_pour_of_twenty_something_is_lost() -> None:
    """Our own choice, no source: of half the pour, whose use tells nothing, half of that."""
    seen = forecast([30], [30], 30, Expected(0.05, part_sd=50))
    assert float(seen.hole_chance) == pytest.approx(0.05 * 30 / 60, rel=1e-3)
