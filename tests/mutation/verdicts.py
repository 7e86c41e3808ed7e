"""What was seen of the places of a sample: kept in a file, and as figures."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from enum import StrEnum
from pathlib import Path

from tests.mutation.argued import Argued
from tests.mutation.places import Place
from tests.mutation.shares import share_in_words, share_of_all


class Verdict(StrEnum):
    """What the tests say of a broken place."""

    KILLED = "killed"
    LIVED = "lived"
    UNDECIDED = "undecided"


@dataclass(frozen=True, slots=True)
class Seen:
    """A place, and what the tests said."""

    place: Place
    verdict: Verdict


def read_seen(file: Path) -> list[Seen]:
    """As :func:`write_seen` kept it."""
    rows = json.loads(file.read_text(encoding="utf-8"))
    return [Seen(Place(**row["place"]), Verdict(row["verdict"])) for row in rows]


def write_seen(file: Path, seen: Sequence[Seen]) -> None:
    """For a later look at what was not killed."""
    rows = [{"verdict": one.verdict, "place": asdict(one.place)} for one in seen]
    file.write_text(json.dumps(rows, indent=1), encoding="utf-8")


def figures(seen: Sequence[Seen], rooms: Mapping[str, int], argued: Argued) -> str:
    """
    The share of killed in each room and in all; ``rooms`` gives how many places each has.

    What is argued and what was not decided is left out of the shares, and counted beside them.
    """
    lines, counts = [], []
    for room, places in rooms.items():
        of_room = [one for one in seen if is_in(one.place.path, room)]
        killed = sum(one.verdict is Verdict.KILLED for one in of_room)
        lived = [one for one in of_room if one.verdict is Verdict.LIVED]
        same = sum(bool(argued.why(one.place)) for one in lived)
        tried = killed + len(lived) - same
        counts.append((killed, tried, places))
        apart = f"{same} argued, {len(of_room) - killed - len(lived)} not decided"
        lines.append(
            f"{room}: {killed} of {tried} killed ({apart}), of {places} places; "
            + share_in_words(killed, tried)
        )
    killed, tried, _ = (sum(column) for column in zip(*counts, strict=True))
    return "\n".join([*lines, f"all: {killed} of {tried} killed; {share_of_all(counts)}"])


def is_in(path: str, room: str) -> bool:
    """Whether a module is one of a folder, or the one that is named."""
    return path == room or path.startswith(room.rstrip("/") + "/")
