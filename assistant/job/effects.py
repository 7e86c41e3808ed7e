"""What each event does to a job: the table at the end, and a function for each row."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from assistant.events.doors import (
    ClearanceMeasured,
    DoorMeasured,
    DoorPlaced,
    DoorRulesSet,
    DoorwayStepLimited,
    OutsideMeasured,
)
from assistant.events.finish import (
    FinishFeathered,
    FinishMoved,
    FinishSet,
    FinishSetAtDoor,
    FinishSetOverHighest,
)
from assistant.events.flatness import ScanImported
from assistant.events.kinds import Event, Setting
from assistant.events.material import ProductChosen
from assistant.events.notes import NoteTaken
from assistant.events.pour import BatchPoured
from assistant.events.proof import PointsMended
from assistant.events.readings import (
    FinishedFloorBegun,
    ReadingAccepted,
    ReadingCorrected,
    ReadingsBorneOut,
    ReadingsTaken,
    ReadingStruck,
    ReadingTaken,
    median,
)
from assistant.events.room import GridSet, PointPlaced, RoomClosed, RoomMeasured, WallMeasured
from assistant.events.set_ups import InstrumentRangeSet
from assistant.events.talk import ClockFoundBehind, UtteranceBroughtBack, UtteranceTakenBack
from assistant.events.things import DrainPlaced, ThingDropped
from assistant.events.walk import PointSkipped, WalkMoved, WalkTurned
from assistant.events.zones import ZoneAdded, ZoneDropped
from assistant.job.clocks import after_poured
from assistant.job.draft import Draft
from assistant.job.guide import GUIDE_EVENTS
from assistant.job.guide import after_event as guide_after
from assistant.job.layout import Place, Rectangle, WalkedRoom, Wall
from assistant.job.notes import RecordedNote
from assistant.job.pour import POUR_EVENTS
from assistant.job.pour import after_event as pour_after
from assistant.job.proof import PROOF_EVENTS
from assistant.job.proof import after_event as proof_after
from assistant.job.set_ups import (
    SURVEY_EVENTS,
    after_mending,
    after_reading,
    after_strike,
    with_fixed_height,
    without_fixed_height,
)
from assistant.job.set_ups import after_acceptance as reading_accepted
from assistant.job.set_ups import after_event as survey_after
from assistant.job.site import SITE_EVENTS
from assistant.job.site import after_event as site_after
from assistant.job.state import FinishSource
from assistant.job.things import THING_EVENTS
from assistant.job.things import after_event as things_after
from assistant.job.zones import ZONE_EVENTS, shapes_after, zones_after
from assistant.limits.door_rules import DOOR_RULES, USA
from assistant.products.cards import card_from_dict
from assistant.units.lengths import exact_mm

# --- where things lie --------------------------------------------------------------------


def _room_measured(draft: Draft, event: RoomMeasured) -> None:
    draft.layout = replace(draft.layout, room=Rectangle(event.first, event.second))


def _wall_measured(draft: Draft, event: WallMeasured) -> None:
    room = draft.layout.room
    going_on = isinstance(room, WalkedRoom) and not room.closed
    before = room.walls if isinstance(room, WalkedRoom) and going_on else ()
    walls = (*before, Wall(event.direction, event.length))
    draft.layout = replace(draft.layout, room=WalkedRoom(walls))


def _room_closed(draft: Draft, event: RoomClosed) -> None:
    room = draft.layout.room
    if isinstance(room, WalkedRoom):
        closed = WalkedRoom(room.walls, True, event.straight_wall_added)
        draft.layout = replace(draft.layout, room=closed)


def _grid_set(draft: Draft, event: GridSet) -> None:
    draft.layout = replace(draft.layout, grid=event)


def _point_placed(draft: Draft, event: PointPlaced) -> None:
    draft.own_points[event.point] = Place(event.first, event.second)
    draft.points_placed = True


# --- what is poured, to what finish, read with what --------------------------------------


def _instrument_range_set(draft: Draft, event: InstrumentRangeSet) -> None:
    draft.reach_mm = exact_mm(event.reach)


def _product_chosen(draft: Draft, event: ProductChosen) -> None:
    draft.changes["card"] = card_from_dict(event.card)


def _finish_set(draft: Draft, event: FinishSource) -> None:
    height = exact_mm(event.height)
    draft.changes.update(finish_mm=height, finish_said=True, finish_from=event)


def _finish_moved(draft: Draft, event: FinishMoved) -> None:
    before = draft.changes.get("finish_mm", draft.job.finish_mm)
    draft.changes.update(finish_mm=before + exact_mm(event.by), finish_said=True)


# --- readings ----------------------------------------------------------------------------


def _reading_taken(draft: Draft, event: ReadingTaken) -> None:
    draft.read(event.point, event.reading)


def _readings_taken(draft: Draft, event: ReadingsTaken) -> None:
    draft.read(event.point, median(event.readings), *event.readings)


def _reading_corrected(draft: Draft, event: ReadingCorrected) -> None:
    # The installer stays where they were: a correction does not move the walk.
    was = draft.readings.get(event.point) or draft.height(event.reading)
    now = draft.survey.put_right(was, event.reading)
    draft.readings[event.point] = now
    draft.survey = after_reading(draft.survey, event.point, now.mm, anew=False)


def _reading_accepted(draft: Draft, event: ReadingAccepted) -> None:
    reading = draft.readings.get(event.point)
    if reading is not None:
        draft.survey = reading_accepted(draft.survey, event.point, reading.mm)


def _readings_borne_out(draft: Draft, event: ReadingsBorneOut) -> None:
    orders = {
        point: draft.readings[point].order for point in event.points if point in draft.readings
    }
    draft.survey = replace(draft.survey, borne_out={**draft.survey.borne_out, **orders})


def _reading_struck(draft: Draft, event: ReadingStruck) -> None:
    draft.readings.pop(event.point, None)
    draft.survey = after_strike(draft.survey, event.point)


# --- the walk ----------------------------------------------------------------------------


def _walk_moved(draft: Draft, event: WalkMoved) -> None:
    draft.walk = replace(draft.walk, goes_to=event.point)
    draft.proof = replace(draft.proof, open_line=None)


def _point_skipped(draft: Draft, event: PointSkipped) -> None:
    skipped = {**draft.walk.skipped, event.point: event.reason}
    here = None if draft.walk.goes_to == event.point else draft.walk.goes_to
    draft.walk = replace(draft.walk, skipped=skipped, goes_to=here)


def _walk_turned(draft: Draft, event: WalkTurned) -> None:
    draft.layout = replace(draft.layout, walk_along=event.along)


def _finished_floor_begun(draft: Draft, _event: FinishedFloorBegun) -> None:
    draft.pour_over()


# --- doors -------------------------------------------------------------------------------


def _door_measured(draft: Draft, event: DoorMeasured) -> None:
    known = draft.door(event.door)
    outside = known.outside if event.outside is None else draft.height(event.outside)
    draft.doors[event.door] = replace(
        known, left=draft.height(event.left), right=draft.height(event.right), outside=outside
    )


def _outside_measured(draft: Draft, event: OutsideMeasured) -> None:
    draft.doors[event.door] = replace(draft.door(event.door), outside=draft.height(event.outside))


def _door_placed(draft: Draft, event: DoorPlaced) -> None:
    draft.doors[event.door] = replace(draft.door(event.door), point=event.point)


def _doorway_step_limited(draft: Draft, event: DoorwayStepLimited) -> None:
    rules = draft.settings.get(DoorRulesSet)
    country = rules.country if isinstance(rules, DoorRulesSet) else USA.id
    usual = DOOR_RULES[country].most_mm if event.usual else None
    draft.changes["step_limit_mm"] = usual if event.most is None else exact_mm(event.most)


def _clearance_measured(draft: Draft, event: ClearanceMeasured) -> None:
    known = draft.door(event.door)
    draft.doors[event.door] = replace(known, clearance=event.clearance)


# --- things on the floor ------------------------------------------------------------------


def _thing_event(draft: Draft, event: Event) -> None:
    things = draft.layout.things
    dropped = None
    if isinstance(event, ThingDropped) and event.kind == "drain":
        dropped = things.drain(event.number)
    draft.layout = replace(
        draft.layout, things=things_after(things, event, after_pour=draft.slab is not None)
    )
    # A drain is a height that the finish must meet, like any other.
    if isinstance(event, DrainPlaced):
        draft.survey = with_fixed_height(draft.survey, event.point, event.height)
    elif dropped is not None:
        draft.survey = without_fixed_height(draft.survey, dropped.point)


# --- zones --------------------------------------------------------------------------------


def _zone_event(draft: Draft, event: Event) -> None:
    if isinstance(event, ZoneAdded | ZoneDropped):
        draft.layout = replace(draft.layout, zones=shapes_after(draft.layout.zones, event))
    zones = draft.changes.get("zones", draft.job.zones)
    draft.changes["zones"] = zones_after(zones, event)


# --- what other rooms take up ------------------------------------------------------------


def _survey_event(draft: Draft, event: Event) -> None:
    draft.survey = survey_after(draft.survey, event, draft.time)


def _proof_event(draft: Draft, event: Event) -> None:
    draft.proof, draft.survey = proof_after(draft.proof, event, draft.survey, draft.time)
    if isinstance(event, PointsMended):
        for point in event.points:
            draft.readings.pop(point, None)
            # It is another floor there now, so it tells nothing of a zero that moved.
            draft.survey = after_mending(draft.survey, point)


def _site_event(draft: Draft, event: Event) -> None:
    draft.site = site_after(draft.site, event, draft.time)


def _pour_event(draft: Draft, event: Event) -> None:
    stood_still = draft.pour.stopped is not None
    draft.pour = pour_after(draft.pour, event, draft.time, draft.settings)
    if stood_still and draft.pour.stopped is None:
        draft.pour_on()
    if isinstance(event, BatchPoured):
        running = after_poured(draft.site.clocks, draft.time)
        draft.site = replace(draft.site, clocks=running)


def _guide_event(draft: Draft, event: Event) -> None:
    draft.guide = guide_after(draft.guide, event)


def _note_taken(draft: Draft, event: NoteTaken) -> None:
    draft.notes.append(RecordedNote(event.words, event.point, draft.time))


def _of_the_record(_draft: Draft, _event: Event) -> None:
    """Events of the record itself: a job is added up of what counts, so there is nothing to do."""


def _scan_imported(draft: Draft, event: ScanImported) -> None:
    scans = dict(draft.changes.get("scans", draft.job.scans))
    if event.file is not None:
        scans[event.finished] = event
    for finished in (False, True):
        if event.file is None and (event.either or finished == event.finished):
            scans.pop(finished, None)
    draft.changes["scans"] = scans


def take_all(draft: Draft, events: Sequence[Event], time: datetime) -> None:
    """Take up what happened at one time, in order."""
    draft.time = time
    for event in events:
        if isinstance(event, Setting):
            draft.settings[type(event)] = event
        else:
            TAKEN_BY[type(event)](draft, event)


TAKEN_BY: dict[type[Event], Callable[[Draft, Any], None]] = {
    ScanImported: _scan_imported,
    RoomMeasured: _room_measured,
    WallMeasured: _wall_measured,
    RoomClosed: _room_closed,
    GridSet: _grid_set,
    PointPlaced: _point_placed,
    InstrumentRangeSet: _instrument_range_set,
    ProductChosen: _product_chosen,
    FinishSet: _finish_set,
    FinishSetAtDoor: _finish_set,
    FinishSetOverHighest: _finish_set,
    FinishFeathered: _finish_set,
    FinishMoved: _finish_moved,
    ReadingTaken: _reading_taken,
    ReadingsTaken: _readings_taken,
    ReadingAccepted: _reading_accepted,
    ReadingsBorneOut: _readings_borne_out,
    ReadingCorrected: _reading_corrected,
    ReadingStruck: _reading_struck,
    WalkMoved: _walk_moved,
    PointSkipped: _point_skipped,
    WalkTurned: _walk_turned,
    FinishedFloorBegun: _finished_floor_begun,
    DoorMeasured: _door_measured,
    OutsideMeasured: _outside_measured,
    DoorPlaced: _door_placed,
    DoorwayStepLimited: _doorway_step_limited,
    ClearanceMeasured: _clearance_measured,
    NoteTaken: _note_taken,
    ClockFoundBehind: _of_the_record,
    UtteranceTakenBack: _of_the_record,
    UtteranceBroughtBack: _of_the_record,
    **dict.fromkeys(SURVEY_EVENTS, _survey_event),
    **dict.fromkeys(THING_EVENTS, _thing_event),
    **dict.fromkeys(ZONE_EVENTS, _zone_event),
    **dict.fromkeys(PROOF_EVENTS, _proof_event),
    **dict.fromkeys(SITE_EVENTS, _site_event),
    **dict.fromkeys(POUR_EVENTS, _pour_event),
    **dict.fromkeys(GUIDE_EVENTS, _guide_event),
}
