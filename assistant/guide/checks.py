"""The checks of the guide's steps, named in ``steps.toml``: each looks at the job.

The guide keeps no state of its own: work done before its step, after it, or undone again is
seen just the same. A check says what is there or missing; it never says that a floor is dry
or safe.
"""

from __future__ import annotations

from datetime import timedelta

from assistant.events.readings import FinishedFloorBegun, ReadingsTaken, ReadingTaken
from assistant.floor.geometry import area_of
from assistant.floor.heights import survey_of
from assistant.floor.interval import volume_of
from assistant.floor.order import USUAL_RISK_PERCENT, order_at
from assistant.floor.places import places_of
from assistant.floor.tally import tally_of
from assistant.floor.walk import next_point, points_missing
from assistant.floor.warnings import depth_findings
from assistant.guide.looks import Check, CheckContext, CheckFunction
from assistant.guide.proof_checks import (
    edge_laid,
    finished_floor_read,
    held_to_something,
    nothing_left_to_mend,
)
from assistant.job import Job, Utterance, clocks, in_force
from assistant.job.site import PH
from assistant.reply import wording
from assistant.reply.times import shown_length, spoken_length
from assistant.site.climate import dew_point_of, stale_readings, unread_climate
from assistant.site.rules import ready_to_pour
from assistant.site.slab import moisture_tests, takes_tests

# --- the site -------------------------------------------------------------------------


def floor_described(look: CheckContext) -> Check:
    """Whether it was said what the floor is."""
    substrate = look.job.site.substrate
    if substrate is None:
        return Check(False, "What the floor is has not been told: floor is concrete.")
    return Check(True, f"The floor is {substrate}.")


def slab_tested(look: CheckContext) -> Check:
    """Whether there are as many moisture and pH tests as the area requires."""
    job = look.job
    if not takes_tests(job):
        told = f"These tests are for bare concrete; this floor is {job.site.substrate}."
        return Check(True, f"{told} Its data sheets say what else to test.")
    tests = moisture_tests(job)
    made = f"{tests.most} of {wording.counted(tests.wanted, 'moisture test')} made"
    said = f"{wording.spoken_number(tests.most)} of {wording.spoken_count(tests.wanted, 'test')}"
    if not job.site.readings_of(PH):
        return Check(False, f"{made}; the pH is not tested yet.", f"{said} made, and no pH yet.")
    if not tests.enough:
        more = f"say slab humidity or moisture emission, and where, {tests.lacking} more."
        return Check(False, f"{made}; {more}", f"{said} made.")
    return Check(True, f"{made}, and the pH.", f"{said} made, and the pH.")


def climate_read(look: CheckContext) -> Check:
    """Whether air, slab and humidity were read, not too long ago."""
    site = look.job.site
    if missing := unread_climate(site):
        return Check(False, f"Not read yet: {wording.join_names(missing)}.")
    if old := stale_readings(site, look.now):
        return Check(False, f"Read too long ago, read again: {wording.join_names(old)}.")
    dew_point = dew_point_of(site)
    assert dew_point is not None  # all three were read
    margin = dew_point.margin_c or 0.0
    side = "above" if margin >= 0 else "below"
    away = wording.figure(abs(margin), 1)
    return Check(True, f"Read; the slab is {away} degrees Celsius {side} the dew point.")


# --- the survey -----------------------------------------------------------------------


def outline_told(look: CheckContext) -> Check:
    """Whether there is a room."""
    if look.job.layout.room is None:
        return Check(False, "No room yet: room 12 by 8 metres, or wall by wall.")
    area = area_of(look.job.layout)
    if area is None:
        return Check(False, "The outline is open: tell the next wall, or close room.")
    unit = look.job.reading_unit
    has = wording.area(area, unit), wording.spoken_area(area, unit)
    return Check(True, *(f"The floor has {each}." for each in has))


def doors_told(look: CheckContext) -> Check:
    """Whether there is a door, and each one has its jambs and the floor outside."""
    doors = look.job.doors
    if not doors:
        return Check(
            False,
            "No door yet: door 1 left minus 4 right minus 9 outside plus 2.",
            "No door has been read yet.",
        )
    for number, door in sorted(doors.items()):
        if door.left is None:
            return Check(False, f"Door {number} lacks its jambs.")
        if door.outside is None:
            return Check(False, f"Door {number} lacks the floor outside.")
    return Check(True, f"{wording.counted(len(doors), 'door')} read.")


def product_chosen(look: CheckContext) -> Check:
    """Whether there is a product card."""
    card = look.job.card
    if card is None:
        return Check(False, "No product yet: products lists the cards, product NAME chooses.",
                     "No product is chosen yet.")  # fmt: skip
    return Check(True, f"Product {card.name}.")


def points_set(look: CheckContext) -> Check:
    """Whether there are points to read."""
    count = len(places_of(look.job.layout).names)
    if not count:
        return Check(False, "No points yet: grid 2 metres.")
    return Check(True, f"{wording.counted(count, 'point')} to read.")


def instrument_settled(look: CheckContext) -> Check:
    """Whether a hose has settled long enough."""
    hose = clocks.latest_started(look.job.site.clocks, "hose")
    if hose is None:
        return Check(
            False, "The hose is not on the floor yet. For another instrument say next step again."
        )
    left = clocks.time_left(hose, look.job.card, look.now)
    if left:
        return _waits("The hose has to lie", left)
    return Check(True, "The hose has settled.")


def zero_checked(look: CheckContext) -> Check:
    """Whether the zero was checked."""
    if not _zero_checks(look.job):
        return Check(False, "The zero has not been checked yet: check zero level.")
    return Check(True, "The zero was checked.")


def points_read(look: CheckContext) -> Check:
    """Whether every point has a reading."""
    job = look.job
    missing, count = points_missing(job), len(places_of(job.layout).names)
    if not count:
        return Check(False, "There are no points to read yet: grid 2 metres.")
    if not missing:
        return Check(True, f"All {wording.counted(count, 'point')} are read.")
    following = next_point(job) or missing[0]
    are = "is" if len(missing) == 1 else "are"
    return Check(
        False,
        f"{len(missing)} of {wording.counted(count, 'point')} {are} still missing; "
        f"next is {following}.",
        f"{wording.spoken_number(len(missing))} of {wording.spoken_count(count, 'point')} "
        f"{are} still missing. Next is {wording.spoken_name(following)}.",
    )


def zero_closed(look: CheckContext) -> Check:
    """Whether the zero was read again after the last reading."""
    counted = [(u.number, event) for u in _until_poured(look.job) for event in u.events]
    read = [number for number, event in counted if isinstance(event, ReadingTaken | ReadingsTaken)]
    checked = _zero_checks(look.job)
    if not read:
        return Check(False, "No point has been read yet, so there is nothing to close.")
    if not checked or max(checked) < max(read):
        return Check(False, "The zero has not been read again after the last point.")
    if doubtful := tuple(survey_of(look.job).doubtful):
        count = wording.counted(len(doubtful), "point")
        return Check(
            False,
            f"The zero may have moved: {count} in doubt, {wording.join_names(doubtful, 4)}. "
            "Survey check tells more.",
            f"The zero may have moved, {wording.spoken_count(len(doubtful), 'point')} in doubt.",
        )
    return Check(True, "The zero was read again after the last point.")


def _until_poured(job: Job) -> list[Utterance]:
    """The utterances from the time when the slab was read."""
    counting = in_force(job.history)
    poured = (
        row
        for row, utterance in enumerate(counting)
        if any(isinstance(event, FinishedFloorBegun) for event in utterance.events)
    )
    return counting[: next(poured, None)]


ZERO_CHECKS = frozenset({"zero-checked", "benchmark-checked"})
"""Names of the events that close a survey by checking the zero or another known height."""


def _zero_checks(job: Job) -> list[int]:
    """Numbers of the utterances that checked the zero and still count."""
    return [
        utterance.number
        for utterance in _until_poured(job)
        if any(event.NAME in ZERO_CHECKS for event in utterance.events)
    ]


# --- the finish and the material ----------------------------------------------------------


def finish_fits(look: CheckContext) -> Check:
    """Whether the finish is set, and every point read has a depth that the product allows."""
    job = look.job
    if not job.readings:
        return Check(False, "No readings yet, so no depths.")
    if job.card is None:
        return Check(False, "No product yet, so no limits to hold the depths against.")
    found = depth_findings(job)
    if found:
        points = wording.counted(len(found), "point")
        return Check(False, f"{points} outside the limits of depth: warnings tells which.")
    if not job.finish_said:
        return Check(
            False,
            "The finish is assumed to be at the zero, as nobody has said it: finish at zero, or "
            "finish 4 millimetres above zero.",
            "The finish is only assumed to be at the zero. Say finish at zero, or what it is.",
        )
    return Check(True, "No point that was read is outside the product's depths.")


def bags_on_site(look: CheckContext) -> Check:
    """Whether the bags are known, and were said to be there."""
    material = tally_of(look.job).material
    if material is None:
        return Check(False, "No bags yet: it takes a room, readings and a product.")
    job, unit = look.job, look.job.reading_unit
    count, card = ordered_bags(job) or material.bags, job.card
    assert card is not None  # there is no material without one
    goes_with = [f"{wording.liquid(unit, *(count * each for each in card.water_l))} of mix water"]
    if material.primer_l is not None:
        goes_with.append(f"{wording.liquid(unit, material.primer_l)} of primer")
    bags = f"{wording.counted(count, 'bag')}, {wording.join_names(goes_with)}"
    said = f"{wording.spoken_count(count, 'bag')}, with water and primer"
    if not look.told_done:
        when = "say done when they are on the site."
        return Check(False, f"{bags}; {when}", f"{said}. Say done when they are on the site.")
    return Check(True, f"{bags}, on the site by your word.", f"{said}, on the site by your word.")


def ordered_bags(job: Job) -> int | None:
    """The bags to order; None where the floor between the points is not known yet."""
    return None if volume_of(job) is None else order_at(job, USUAL_RISK_PERCENT).bags


# --- the pour --------------------------------------------------------------------------------


def primer_waited(look: CheckContext) -> Check:
    """Whether the primer was applied and has had its time."""
    primer = clocks.latest_started(look.job.site.clocks, "primer")
    if primer is None:
        material = tally_of(look.job).material
        if material is None or material.primer_l is None:
            return Check(False, "No primer yet: primer on floor, when it is on.")
        takes = wording.liquid(look.job.reading_unit, material.primer_l)
        coats = wording.counted(look.job.card.primer_coats if look.job.card else 1, "coat")
        return Check(
            False,
            f"No primer yet: {takes} in {coats} by the card; primer on floor, when it is on.",
            "No primer yet. Say primer on floor, when it is on.",
        )
    if primer.ended is not None:
        return Check(True, "The floor has been poured over the primer.")
    left = clocks.time_left(primer, look.job.card, look.now)
    if left:
        return _waits("The primer has", left)
    return Check(True, "The primer has had its time; hand and eye decide, as its data sheet says.")


def mix_tried(look: CheckContext) -> Check:
    """Whether a mix was made."""
    if clocks.latest_started(look.job.site.clocks, "mix") is None:
        card, takes = look.job.card, ""
        if card is not None:
            water = wording.liquid(look.job.reading_unit, *card.water_l, places=2)
            takes = f"{water} of water to a bag by the card; "
        return Check(
            False,
            f"No mix yet: {takes}water in, when the water meets the powder.",
            "No mix yet. Say water in, when the water meets the powder.",
        )
    return Check(True, "A mix was made.")


def site_says_go(look: CheckContext) -> Check:
    """Whether nothing that is checked stands against the pour."""
    if clocks.latest_started(look.job.site.clocks, "pour") is not None:
        return Check(True, "The floor has been poured.")
    reasons = ready_to_pour(look.job, look.now).reasons
    if reasons:
        count = wording.counted(len(reasons), "reason")
        return Check(False, f"Not yet, {count}. First: {reasons[0].message}",
                     f"Not yet, {count}. Ready to pour tells them.")  # fmt: skip
    return Check(True, "Nothing that is checked stands against it; who answers for it decides.")


def pour_told(look: CheckContext) -> Check:
    """Whether the pour was said to be finished."""
    if clocks.latest_started(look.job.site.clocks, "pour") is None:
        return Check(False, "Not poured yet: pour finished, when it is.")
    return Check(True, "Poured.")


def foot_traffic_waited(look: CheckContext) -> Check:
    """Whether the card's time to foot traffic is over."""
    job = look.job
    pour = clocks.latest_started(job.site.clocks, "pour")
    if pour is None:
        return Check(False, "Not poured yet, so there is no time to wait for.")
    left = clocks.time_left(pour, job.card, look.now)
    if left is None:
        return Check(False, "No product card, so no time is known: ask the data sheet.")
    if left:
        return _waits("Until foot traffic it has", left)
    return Check(True, "The card's time to foot traffic is over; try it at the edge first.")


def your_word(look: CheckContext) -> Check:
    """A check that only a person can make."""
    if not look.told_done:
        return Check(False, "Only you can see that: say done when it is.")
    return Check(True, "Done, by your word.")


def _waits(what: str, left: timedelta) -> Check:
    return Check(False, f"{what} {shown_length(left)} more.", f"{what} {spoken_length(left)} more.")


CHECKS: dict[str, CheckFunction] = {
    check.__name__: check
    for check in (
        floor_described,
        slab_tested,
        climate_read,
        outline_told,
        doors_told,
        product_chosen,
        points_set,
        instrument_settled,
        zero_checked,
        points_read,
        zero_closed,
        finish_fits,
        bags_on_site,
        primer_waited,
        mix_tried,
        site_says_go,
        pour_told,
        foot_traffic_waited,
        finished_floor_read,
        edge_laid,
        held_to_something,
        nothing_left_to_mend,
        your_word,
    )
}
