"""The kind of floor, and its moisture and pH tests compared with the usual limits."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from fractions import Fraction

from assistant.floor.geometry import area_of
from assistant.floor.zones import cards_of
from assistant.job import Job, clocks
from assistant.job.site import EMISSION, PH, SLAB_HUMIDITY, SiteReading
from assistant.limits import site_limits as limits
from assistant.limits.limits import PRACTICE, Limit, card_source
from assistant.products.cards import Card
from assistant.reply import wording
from assistant.reply.side_by_side import figures
from assistant.site.moisture import least_tests
from assistant.site.reason import Reason, once_each
from grammar.frozen import frozen

ASBESTOS_SOURCE = (
    "OSHA interpretation letter of 2005-05-18 on floor covering and mastic; local law decides"
)

CEMENT = ("concrete", "screed")
"""Kinds of floor that the moisture and pH tests are meant for."""


@frozen
class MoistureTests:
    """How many tests were made, and how many the area requires."""

    wanted: int
    humidity: int
    emission: int

    @property
    def most(self) -> int:
        """Most tests of one kind; different kinds are not added up."""
        return max(self.humidity, self.emission)

    @property
    def enough(self) -> bool:
        """Whether there are enough tests of one kind."""
        return self.most >= self.wanted

    @property
    def lacking(self) -> int:
        """How many tests are still missing."""
        return max(0, self.wanted - self.most)


def takes_tests(job: Job) -> bool:
    """Whether moisture and pH are tested on this floor; yes until its kind is known."""
    return job.site.substrate is None or job.site.substrate in CEMENT


def moisture_tests(job: Job) -> MoistureTests:
    """Tests made and required."""
    return MoistureTests(
        least_tests(area_of(job.layout)),
        len(job.site.readings_of(SLAB_HUMIDITY)),
        len(emission_that_counts(job)),
    )


def emission_that_counts(job: Job) -> tuple[SiteReading, ...]:
    """The emission reading, or None on a kind of floor that the test is not meant for."""
    return job.site.readings_of(EMISSION) if takes_tests(job) else ()


def why_no_emission(job: Job) -> str | None:
    """Why no emission test may be made on this floor; None where it may."""
    if clocks.latest_started(job.site.clocks, "pour") is not None:
        return "the floor has been poured, and the test is never made on a levelling compound"
    substrate = job.site.substrate
    if substrate == "levelling compound":
        return "the test is never made on a levelling compound or a patch"
    if not takes_tests(job):
        return f"the test is for bare concrete, and the floor is {substrate}"
    return None


# --- reasons ----------------------------------------------------------------------------


def slab_reasons(job: Job, now: datetime) -> Iterable[Reason]:
    """A floor of unknown kind or for others to look at first, tests missing or past a limit."""
    yield from _substrate_reasons(job)
    if takes_tests(job):
        yield from _test_reasons(job)
        yield from _age_reasons(job, now)
        yield from _limit_reasons(job)
    elif not job.site.readings_of(SLAB_HUMIDITY):
        yield Reason(
            "moisture-other",
            f"No moisture of the {job.site.substrate}, or of what is under it, is on record.",
            f"{PRACTICE}; the data sheets of product and covering decide",
            "slab humidity 78 percent at B3 where there is a slab; else accept moisture because, "
            "and who has tested it",
        )


def _age_reasons(job: Job, now: datetime) -> Iterable[Reason]:
    """Tests that are too old: a leak, a winter or wet work may have come since."""
    tests = (
        *job.site.readings_of(SLAB_HUMIDITY),
        *emission_that_counts(job),
        *job.site.readings_of(PH),
    )
    old = [test for test in tests if now - test.time > limits.TESTS_STALE_AFTER]
    if old:
        days = max((now - test.time).days for test in old)
        yield Reason(
            "tests-stale",
            f"{wording.counted(len(old), 'test')} of moisture or pH older than "
            f"{limits.TESTS_STALE_AFTER.days} days, the oldest {wording.counted(days, 'day')}.",
            PRACTICE,
            "test again at the same places",
        )


def _substrate_reasons(job: Job) -> Iterable[Reason]:
    substrate = job.site.substrate
    if substrate is None:
        yield Reason(
            "substrate", "What the floor is has not been told.", PRACTICE, "floor is concrete",
        )  # fmt: skip
    if job.site.adhesive_told:
        yield Reason(
            "old-adhesive",
            "Old adhesive was met here. It may hold asbestos, and its looks prove nothing.",
            ASBESTOS_SOURCE,
            "testing and removal by licensed people as local code has it, then accept adhesive "
            "because, and who found what",
        )


def _test_reasons(job: Job) -> Iterable[Reason]:
    tests = moisture_tests(job)
    if not tests.enough:
        yield Reason(
            "moisture-tests",
            f"{tests.most} of {wording.counted(tests.wanted, 'moisture test')} made.",
            limits.TEST_COUNT_SOURCE,
            "slab humidity 78 percent at B3, or moisture emission 2.5 at B3, for "
            f"{tests.lacking} more",
        )
    if not job.site.readings_of(PH):
        yield Reason(
            "ph-test", "The pH of the surface is not tested.", limits.PH_TEST_SOURCE, "pH 9 at B3"
        )


def _limit_reasons(job: Job) -> Iterable[Reason]:
    """Of several products, whichever allows least."""
    return once_each(_card_reasons(job, card) for card in (*cards_of(job),) or (None,))


def _card_reasons(job: Job, card: Card | None) -> Iterable[Reason]:
    site = job.site
    most, source = _limit(card, "max_slab_humidity_percent", limits.SLAB_HUMIDITY)
    if wet := [each for each in site.readings_of(SLAB_HUMIDITY) if each.value > most]:
        worst, limit = _worst("Slab humidity", wet, " %", most)
        yield Reason(
            "slab-humidity",
            f"{worst}, over {limit} %.",
            source,
            _clears_moisture("max_slab_humidity_percent"),
        )
    most, source = _limit(card, "max_emission_lb", limits.EMISSION)
    if wet := [each for each in emission_that_counts(job) if each.value > most]:
        worst, limit = _worst("Moisture emission", wet, " lb", most)
        yield Reason(
            "emission",
            f"{worst}, over {limit} lb a thousand square feet in 24 hours.",
            source,
            _clears_moisture("max_emission_lb"),
        )
    yield from _ph_reasons(site.readings_of(PH), card)


def _ph_reasons(readings: Sequence[SiteReading], card: Card | None) -> Iterable[Reason]:
    least, most = limits.PH_LEAST.value, limits.PH_MOST.value
    source = limits.PH_MOST.source
    if card is not None and card.ph is not None:
        least, most = (Fraction(str(bound)) for bound in card.ph)
        source = card_source(card)
    if out := [each for each in readings if not least <= each.value <= most]:
        worst, low, high = _worst("pH", out, "", least, most)
        yield Reason(
            "ph",
            f"{worst}, outside {low} to {high}.",
            source,
            "clean and rinse the surface, let it dry and test again, or a primer that its "
            "data sheet allows; or put the data sheets' own range on the product card as ph",
        )


def _limit(card: Card | None, key: str, usual: Limit) -> tuple[Fraction, str]:
    """The card's own limit where it has one, else the usual one, and whose it is."""
    own = None if card is None else getattr(card, key)
    if card is None or own is None:
        return usual.value, usual.source
    return Fraction(str(own)), card_source(card)


def _worst(
    what: str, readings: Sequence[SiteReading], unit: str, *limits: Fraction
) -> tuple[str, ...]:
    """The worst reading and the limits it is past, in words that differ."""
    # A single limit is a maximum; two are a range, and the value farthest outside is the worst.
    least, most = (limits[0], limits[1]) if len(limits) > 1 else (Fraction(0), limits[0])
    worst = max(readings, key=lambda each: max(least - each.value, each.value - most))
    where = f" at {worst.point}" if worst.point else ""
    more = f", and {len(readings) - 1} more" if len(readings) > 1 else ""
    shown, *told = figures(2, worst.value, *limits)
    return (f"{what}{where} is {shown}{unit}{more}", *told)


def _clears_moisture(key: str) -> str:
    return (
        "let it dry and test again, or a moisture barrier as the data sheets have it; where the "
        f"strictest of them allows more, put that on the product card as {key}"
    )
