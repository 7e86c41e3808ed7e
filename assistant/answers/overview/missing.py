"""What is still to be read, set or checked."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.events.proof import PromiseMade
from assistant.floor.heights import survey_of
from assistant.floor.places import places_of
from assistant.floor.ties import how_to_tie
from assistant.floor.walk import points_missing
from assistant.job import Job, WalkedRoom
from assistant.reply import wording
from assistant.reply.examples import GRID, ROOM, jambs_of, outside_of, place_of, reading_of
from assistant.reply.replies import Reply, SpokenSentence
from grammar.commands import Command
from grammar.commands.overview import AskMissing
from grammar.example import Worded, worded
from grammar.frozen import frozen


@frozen
class Lack:
    """Something the job still lacks, and what to say to give it."""

    id: str
    what: str
    how: tuple[Worded, ...]
    """What to say to give it, or the points that it is about."""
    count: int | None = None
    """How many are lacking, where they can be counted."""
    joint: str = ": "

    def message(self, unit: str) -> str:
        """Both, to read."""
        return wording.sentence(worded((self.what, self.joint, *self.how), unit))


def missing_told(moment: Moment, _command: AskMissing) -> Reply:
    job = moment.job
    lacks, points = missing_from_job(job), points_missing(job)
    messages = [lack.message(moment.unit) for lack in lacks]
    data: dict[str, Any] = {
        "missing": [
            {"id": lack.id, "message": message}
            for lack, message in zip(lacks, messages, strict=True)
        ],
        "points": list(points),
    }
    if wanted := _of_the_proof(job):
        data["proof"] = [{"id": lack.id, "message": lack.message(moment.unit)} for lack in wanted]
    besides = tuple(f"To prove it: {lack.message(moment.unit)}" for lack in wanted)
    if not lacks:
        return Reply("Nothing is missing.", details=besides, data=data)
    return Reply(
        f"{wording.counted(len(lacks), 'thing')} missing. First: {messages[0]}",
        (
            SpokenSentence(f"{wording.spoken_number(len(lacks))} missing"),
            SpokenSentence(f"first, {_spoken(lacks[0])}"),
        ),
        (*messages[1:], *besides),
        data=data,
    )


def _spoken(lack: Lack) -> str:
    """What is lacking, aloud, without how to give it."""
    if lack.count is not None:
        return wording.spoken_count(lack.count, "reading")
    return lack.what[0].lower() + lack.what[1:]


def missing_from_job(job: Job) -> list[Lack]:
    """All that the job still lacks, in the order of the work."""
    if job.slab is not None:
        # All else was needed for the pour.
        return [*_reading_lacks(job), *_line_lacks(job)]
    return [*_room_lacks(job), *_material_lacks(job), *_reading_lacks(job), *_door_lacks(job)]


def _room_lacks(job: Job) -> list[Lack]:
    room, lacks = job.layout.room, []
    if room is None:
        lacks.append(Lack("room", "The room", (ROOM, ", or wall by wall")))
    elif isinstance(room, WalkedRoom) and not room.closed:
        lacks.append(Lack("close-room", "The outline is open", ("close room",)))
    if not places_of(job.layout).names and job.layout.grid is None:
        lacks.append(Lack("grid", "The points", (GRID,)))
    return lacks


def _material_lacks(job: Job) -> list[Lack]:
    return [] if job.card else [Lack("product", "The product", ("product NAME",))]


def _reading_lacks(job: Job) -> list[Lack]:
    lacks = []
    if points := points_missing(job):
        left = wording.counted(len(points), "reading")
        lacks.append(Lack("readings", left, (wording.join_names(points),), len(points)))
    elif not job.readings:
        lacks.append(Lack("readings", "Readings", (reading_of("B3"),)))
    for number in survey_of(job).untied:
        what, how = f"A tie for set-up {number + 1}", how_to_tie(job, number)
        lacks.append(Lack(f"tie:{number + 1}", what, (how,), joint=". "))
    places = places_of(job.layout)
    lost = sorted(set(job.readings) - set(places.row) - set(places.covered))
    if lost:
        lacks.append(Lack("places", f"Places for {wording.join_names(lost)}", (place_of("NAME"),)))
    return lacks


def _line_lacks(job: Job) -> list[Lack]:
    """Lines that were begun and not ended."""
    lacks = []
    for number, line in sorted(job.proof.lines.items()):
        if not line.ended:
            values = f"{len(line.values)} of {line.holds}" if line.holds else f"{len(line.values)}"
            what = f"The end of line {number}, {values} values so far"
            lacks.append(Lack(f"line:{number}", what, (f"go on with line {number}",)))
    return lacks


def _of_the_proof(job: Job) -> list[Lack]:
    """What a proof of the finished floor wants besides; no reading waits for it."""
    if job.slab is None:
        return []
    lacks = []
    for number, door in sorted(job.doors.items()):
        if door.left is None:
            what = f"Door {number}, both jambs again"
            lacks.append(Lack(f"door-jambs:{number}", what, (jambs_of(number),)))
    if job.setting(PromiseMade) is None:
        how = ("promised flat, promised level, or promised both",)
        lacks.append(Lack("promise", "What was promised", how))
    return lacks


def _door_lacks(job: Job) -> list[Lack]:
    if not job.doors:
        return [Lack("doors", "The doors", (jambs_of(1),))]
    lacks = []
    for number, door in sorted(job.doors.items()):
        if door.left is None:
            what = f"Door {number}, both jambs"
            lacks.append(Lack(f"door-jambs:{number}", what, (jambs_of(number),)))
        if door.outside is None:
            what = f"Door {number}, the floor outside"
            lacks.append(Lack(f"door-outside:{number}", what, (outside_of(number),)))
        if door.point is None:
            lacks.append(
                Lack(f"door-place:{number}", f"Door {number}, where", (f"door {number} at B1",))
            )
    return lacks


ANSWERS: dict[type[Command], Answerer] = {
    AskMissing: missing_told,
}
