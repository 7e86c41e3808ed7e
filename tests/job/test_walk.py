"""A walk from point to point: what is cached between readings must not change any answer."""

from __future__ import annotations

import dataclasses
from decimal import Decimal

import pytest

from assistant.answers import answer
from assistant.decide import World, decide, resolve
from assistant.floor import warnings
from assistant.floor.heights import reading_sd_mm, survey_of
from assistant.floor.interval import fit_of
from assistant.floor.order import interval_of
from assistant.floor.suspicion import surface_near, suspicion_about
from assistant.job import Job, fold, next_number, record
from assistant.products.cards import cards_in, shipped_folder
from grammar import understand
from grammar.commands import Reading
from grammar.commands.readings import TakeReading
from tests.job.conftest import Site

WORLD = World(cards_in(shipped_folder()))
FLOOR = ("room 12 by 8 metres", "grid 2 metres", "product example standard")
VALUES = {
    f"{column}{row}": 12 + (5 * ord(column) + 3 * row) % 7 + 2 * row
    for row in (1, 2, 3, 4)
    for column in "ABCDEF"
}


def lines() -> list[str]:
    said = list(FLOOR)
    for number, (point, value) in enumerate(VALUES.items()):
        if number == 12:
            said += ["new set up", "tie on C2 minus 21", "tie on F1 minus 30"]
        if number == 16:
            said += ["correct B2 -20", "strike point D2", "D2 -22", "grind C1 by 2 mm"]
        said.append(f"{point} -{value + (5 if number >= 12 else 0)}")
    return [*said, "finish 3 mm above zero", "A1 -40"]


def anew(job: Job) -> Job:
    """The same job, with nothing kept of what was worked out."""
    again = fold((one.number, one.said, one.events, one.time) for one in job.history)
    assert again == job
    assert not again.kept
    return again


@pytest.mark.slow
def test_a_reply_is_that_of_a_job_read_from_the_disk() -> None:
    job = fold(())
    for line in lines():
        command = resolve(job, understand(line)[0])
        decision = decide(job, command, WORLD, confirmed=True)
        after = record(job, next_number(job), line, decision.events)
        told = answer(job, after, command, decision.events, WORLD)
        fresh = answer(anew(job), anew(after), command, decision.events, WORLD)
        assert told == fresh, line
        job = after


@pytest.mark.slow
def test_what_is_suspected_is_what_a_job_read_from_the_disk_suspects() -> None:
    job = fold(())
    for line in lines():
        command = resolve(job, understand(line)[0])
        if isinstance(command, TakeReading) and command.point:
            for away in (0, 14, -60):
                number = command.reading.number + away
                reading = Reading(number, command.reading.unit, side_said=True)
                tried = dataclasses.replace(command, reading=reading)
                kept = suspicion_about(job, tried, command.point)
                fresh = suspicion_about(anew(job), tried, command.point)
                assert (kept is None) == (fresh is None)
                if kept is not None and fresh is not None:
                    assert kept.likely == fresh.likely
                    assert kept.expected_mm == pytest.approx(fresh.expected_mm, abs=1e-6)
                    assert kept.sd_mm == pytest.approx(fresh.sd_mm, abs=1e-6)
        decision = decide(job, command, WORLD, confirmed=True)
        job = record(job, next_number(job), line, decision.events)
        kept_fit, fresh_fit = fit_of(job), fit_of(anew(job))
        if kept_fit is not None and fresh_fit is not None:
            assert kept_fit.weights == pytest.approx(fresh_fit.weights, abs=1e-6)
            assert kept_fit.readings.columns == pytest.approx(fresh_fit.readings.columns)
            one, other = interval_of(job), interval_of(anew(job))
            assert one is not None
            assert other is not None
            assert one.volume_m3 == pytest.approx(other.volume_m3, rel=1e-6)
            assert one.bags == other.bags
    assert survey_of(job).heights_mm == survey_of(anew(job)).heights_mm
    assert surface_near(job, "C3") is not None


def test_a_reading_on_the_way_does_not_wait_for_the_surface_over_the_whole_floor(
    site: type[Site],
) -> None:
    """Of all warnings only the mean weight needs it, and that is given once all is read."""
    floor = site(*FLOOR, *(f"{point} -{value}" for point, value in list(VALUES.items())[:-1]))
    kept = [name for name in floor.job.kept if "surface" in name or "tally_of" in name]
    assert not kept
    floor.told("F4 -20")
    assert [name for name in floor.job.kept if "tally_of" in name]


def test_the_weight_is_one_of_all_warnings_and_nothing_else_is_missing(site: type[Site]) -> None:
    deep = [f"{point} -{value + 60}" for point, value in VALUES.items()]
    for said in (deep[:-1], deep):
        job = site(*FLOOR, *said).job
        every = warnings.all_warnings(job)
        assert [w.id for w in every if warnings.warning_kind(w) == "weight"]
        rest = tuple(w for w in every if warnings.warning_kind(w) != "weight")
        assert warnings.warnings_but_weight(job) == rest
    # Said unasked with the last reading, not on the way.
    assert "weight" not in site(*FLOOR, *deep[:-1]).ids
    assert "weight" in site(*FLOOR, *deep).ids


def test_a_reading_from_a_set_up_just_tied_is_less_surely_expected(site: type[Site]) -> None:
    """What its zero is unsure by, every reading from it is: by hand, two readings for the tie."""
    said = [f"{point} -{value}" for point, value in list(VALUES.items())[:-1]]
    odd = TakeReading("F4", Reading(Decimal(-90), "mm", side_said=True))
    one = suspicion_about(site(*FLOOR, *said).job, odd, "F4")
    job = site(*FLOOR, *said, "new set up", f"tie on A1 -{VALUES['A1']}").job
    other = suspicion_about(job, odd, "F4")
    assert one is not None
    assert other is not None
    zero_variance = 2 * reading_sd_mm(job) ** 2
    assert other.sd_mm**2 - one.sd_mm**2 == pytest.approx(zero_variance, rel=0.25)
