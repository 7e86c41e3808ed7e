"""Break the code on purpose, one small thing at a time, and see whether a test turns red.

``python -m tests.mutation [ROOM …] --sample 250`` takes a sample of the places where a comparison,
a number, a sign or a condition can be broken, runs the tests that pass through each, and lists
what lived: a survivor is a rule that no test holds, or a change that makes no difference; those
of the second kind are argued in ``argued.toml``. Rooms are folders or modules (grammar,
assistant/floor, assistant/job/history.py); without one, all that decides. Needs
``pip install -e '.[test,check]'`` and, on two cores, about three seconds for each.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import tempfile
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from pathlib import Path

from tests.mutation.argued import Argued, read_argued
from tests.mutation.fork_server import Outcome, Server, Task
from tests.mutation.passing import ROOT, Passing, kept_or_found
from tests.mutation.places import Place, places_of
from tests.mutation.shares import drawn_from, share_in_words, share_of_all

ROOMS = (
    "grammar",
    "assistant/decide",
    "assistant/pours",
    "assistant/record",
    "assistant/floor",
)


def main(argv: Sequence[str] | None = None) -> int:
    """Break, run, tell."""
    asked = _arguments(argv)
    rooms = {room: places_of(ROOT, room) for room in asked.rooms}
    argued = read_argued()
    passing = kept_or_found()
    drawn = _drawn(rooms, asked)
    tasks = [_task(place, passing, asked) for place in drawn]
    sound = random.Random(asked.seed).sample(tasks, min(asked.sound, len(tasks)))
    tasks += [_whole(task) for task in sound]
    # In any order, so that a run that is stopped early is a smaller sample of the same.
    random.Random(asked.seed).shuffle(tasks)
    outcomes: list[Outcome] = []
    with tempfile.TemporaryDirectory() as folder:
        server = Server(ROOT, Path(folder), asked.forks)
        try:
            outcomes.extend(_told(server.run(tasks), argued))
        except (KeyboardInterrupt, SystemExit):
            print(f"stopped after {len(outcomes)} of {len(tasks)}", flush=True)
    if asked.keep:
        kept = [asdict(outcome.task.place) for outcome in outcomes if _lived(outcome)]
        asked.keep.write_text(json.dumps(kept, indent=1), encoding="utf-8")
    return _figures(outcomes, rooms, argued)


def _arguments(argv: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("rooms", nargs="*", default=list(ROOMS))
    parser.add_argument("--sample", type=int, default=250, help="places drawn; 0 takes all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--forks", type=int, default=2, help="at work side by side")
    parser.add_argument("--budget", type=float, default=10, metavar="S", help="of tests, a place")
    parser.add_argument("--limit", type=float, default=400, metavar="S", help="until given up")
    parser.add_argument("--sound", type=int, default=8, help="places left whole: none may turn red")
    parser.add_argument("--keep", type=Path, metavar="FILE", help="the survivors, for --again")
    parser.add_argument("--again", type=Path, metavar="FILE", help="the survivors of a run only")
    parser.add_argument("--also", nargs="*", default=[], metavar="FILE", help="tests written since")
    return parser.parse_args(argv)


def _drawn(rooms: dict[str, list[Place]], asked: argparse.Namespace) -> list[Place]:
    if not asked.again:
        return drawn_from(rooms, asked.sample, random.Random(asked.seed))
    before = json.loads(asked.again.read_text(encoding="utf-8"))
    # Lines move as the code is mended; what stood there, and in which order, seldom does.
    wanted = {(row["path"], row["before"], row["after"], row["line"]) for row in before}
    return [
        place
        for places in rooms.values()
        for place in places
        if (place.path, place.before, place.after, place.line) in wanted
    ]


def _task(place: Place, passing: Passing, asked: argparse.Namespace) -> Task:
    tests = passing.through(place.path, place.line, asked.budget)
    files = sorted({test.split("::")[0] for test in tests}.union(asked.also))
    return Task(place, files, tests, passing.known, asked.limit)


def _whole(task: Task) -> Task:
    return Task(task.place, task.files, task.tests, task.known, task.limit_s, whole=True)


def _told(outcomes: Iterable[Outcome], argued: Argued) -> Iterable[Outcome]:
    for number, outcome in enumerate(outcomes, start=1):
        if outcome.task.whole and outcome.code != 0:
            print(f"RED THOUGH WHOLE: {outcome.task.place}\n{outcome.told}", flush=True)
        elif not outcome.sound and outcome.code != 5:
            print(
                f"NO TEST TOLD ({outcome.code}): {outcome.task.place}\n{outcome.told}", flush=True
            )
        elif _lived(outcome):
            why = argued.why(outcome.task.place)
            print(f"{'argued' if why else 'LIVES'}: {outcome.task.place}", flush=True)
        if not number % 25:
            print(f"… {number} looked at", flush=True)
        yield outcome


def _lived(outcome: Outcome) -> bool:
    return not outcome.task.whole and not outcome.killed


def _figures(outcomes: list[Outcome], rooms: dict[str, list[Place]], argued: Argued) -> int:
    whole = [outcome for outcome in outcomes if outcome.task.whole]
    broken = [outcome for outcome in outcomes if not outcome.task.whole]
    counts = {}
    for room, places in rooms.items():
        of_room = [outcome for outcome in broken if outcome.task.place in set(places)]
        killed = sum(outcome.killed for outcome in of_room)
        same = sum(_lived(o) and bool(argued.why(o.task.place)) for o in of_room)
        late = sum(outcome.code is None for outcome in of_room)
        tried = len(of_room) - same
        counts[room] = killed, tried, len(places)
        print(f"{room}: {killed} of {len(of_room)} killed ({late} by time)", end="")
        print(f", {same} argued, of {len(places)} places; {share_in_words(killed, tried)}")
    print(f"all: {share_of_all(counts.values())}")
    red = sum(outcome.code != 0 for outcome in whole)
    print(f"left whole: {red} of {len(whole)} red")
    print(f"{sum(outcome.seconds for outcome in outcomes) / max(1, len(outcomes)):.1f} s a place")
    return 1 if red else 0


if __name__ == "__main__":
    sys.exit(main())
