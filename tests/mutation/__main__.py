"""Break the code on purpose, one small thing at a time, and see whether a test turns red.

``python -m tests.mutation [ROOM …] --sample 250`` takes a sample of the places where a comparison,
a number, a sign or a condition can be broken, runs the tests that pass through each, and lists
what lived: a survivor is a rule that no test holds, or a change that makes no difference; those
of the second kind are argued in ``argued.toml``. Rooms are folders or modules (grammar,
assistant/floor, assistant/job/history.py); without one, all that decides.

Times are a processor's, so that other work on the machine changes no verdict. A process that
needs many times as much as whole code goes round for ever, which counts as killed; a run that
doesn't end though no processor is at work on it is not decided, and listed separately. First a
few are left whole: where a test turns red there, nothing is counted, and it ends with 2. Needs
``pip install -e '.[test,check]'`` and about three seconds for each place.
"""

from __future__ import annotations

import argparse
import random
import signal
import sys
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from tests.mutation.argued import Argued, read_argued
from tests.mutation.fork_server import Outcome, Server, Task
from tests.mutation.passing import ROOT, Passing, kept_or_found
from tests.mutation.places import Place, places_of
from tests.mutation.shares import drawn_from
from tests.mutation.verdicts import Seen, Verdict, figures, read_seen, write_seen

ROOMS = (
    "grammar",
    "assistant/decide",
    "assistant/pours",
    "assistant/record",
    "assistant/floor",
    "assistant/levels",
)


def main(argv: Sequence[str] | None = None) -> int:
    """Break, run, tell."""
    asked = _arguments(argv)
    rooms = {room: places_of(ROOT, room) for room in asked.rooms}
    argued = read_argued()
    passing = kept_or_found(asked.forks)
    before = _of_before(rooms, asked.again) if asked.again else []
    drawn = _still_there(rooms, before, argued) if asked.again else _drawn(rooms, asked)
    tasks = [_task(place, passing, asked) for place in drawn]
    sound = random.Random(asked.seed).sample(tasks, min(asked.sound, len(tasks)))
    # In any order, so that a run that is stopped early is a smaller sample of the same.
    random.Random(asked.seed).shuffle(tasks)
    tasks = [_whole(task) for task in sound] + tasks
    with ended_once():
        outcomes = _outcomes(tasks, asked.forks, argued)
        if red := sum(map(_is_red_though_whole, outcomes)):
            print(f"left whole: {red} red, so that no kill would mean anything: nothing counted")
            return 2
        now = [Seen(one.task.place, one.verdict) for one in outcomes if not one.task.whole]
        tried = {seen.place.name for seen in now}
        seen = [one for one in before if one.place.name not in tried] + now
        if asked.keep:
            write_seen(asked.keep, seen)
        print(figures(seen, {room: len(places) for room, places in rooms.items()}, argued))
        print(f"left whole: none of {sum(one.task.whole for one in outcomes)} red")
        print(f"{sum(one.seconds for one in outcomes) / max(1, len(outcomes)):.1f} s a place")
        return 0


def _outcomes(tasks: Sequence[Task], forks: int, argued: Argued) -> list[Outcome]:
    """What became of them, up to the first that was left whole and turned red."""
    found: list[Outcome] = []
    with tempfile.TemporaryDirectory() as folder:
        try:
            for outcome in _told(Server(ROOT, Path(folder), forks).run(tasks), argued):
                found.append(outcome)
                if _is_red_though_whole(outcome):
                    break
        except SystemExit:
            print(f"stopped after {len(found)} of {len(tasks)}", flush=True)
    return found


@contextmanager
def ended_once() -> Iterator[None]:
    """A signal to end makes it print what it found so far; a second one does not stop that."""

    def end(*_: object) -> None:
        for name in endings:
            signal.signal(name, signal.SIG_IGN)
        sys.exit(1)

    endings = [signal.SIGINT, signal.SIGTERM]
    # Begun by nohup, it does not end with the terminal that began it.
    if signal.getsignal(signal.SIGHUP) is not signal.SIG_IGN:
        endings.append(signal.SIGHUP)
    before = {name: signal.signal(name, end) for name in endings}
    try:
        yield
    finally:
        for name, handler in before.items():
            signal.signal(name, handler)


def _arguments(argv: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("rooms", nargs="*", default=list(ROOMS))
    parser.add_argument("--sample", type=int, default=250, help="places drawn; 0 takes all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--forks", type=int, default=1, help="at work side by side")
    parser.add_argument("--budget", type=float, default=10, metavar="S", help="of tests, a place")
    parser.add_argument("--sound", type=int, default=8, help="places left whole: none may turn red")
    parser.add_argument("--keep", type=Path, metavar="FILE", help="what was seen, for --again")
    parser.add_argument("--again", type=Path, metavar="FILE", help="only what was not killed in it")
    parser.add_argument("--also", nargs="*", default=[], metavar="FILE", help="tests written since")
    return parser.parse_args(argv)


def _drawn(rooms: dict[str, list[Place]], asked: argparse.Namespace) -> list[Place]:
    return drawn_from(rooms, asked.sample, random.Random(asked.seed))


def _of_before(rooms: dict[str, list[Place]], file: Path) -> list[Seen]:
    """What another run has seen, of code that is still as it was."""
    there = {place.name for places in rooms.values() for place in places}
    seen = read_seen(file)
    still = [one for one in seen if one.place.name in there]
    if len(still) < len(seen):
        print(f"{len(seen) - len(still)} of {len(seen)} places have changed, and are left out")
    return still


def _still_there(
    rooms: dict[str, list[Place]], before: Sequence[Seen], argued: Argued
) -> list[Place]:
    """What was not killed, and nobody has argued since."""
    wanted = {seen.place.name for seen in before if seen.verdict is not Verdict.KILLED}
    there = [place for places in rooms.values() for place in places if place.name in wanted]
    return [place for place in there if not argued.why(place)]


def _task(place: Place, passing: Passing, asked: argparse.Namespace) -> Task:
    tests = passing.through(place.path, place.line, asked.budget)
    files = sorted({test.split("::")[0] for test in tests}.union(asked.also))
    # Importing, collecting and the last test begun take less than half of what comes on top.
    limit_s = 30 + 2 * asked.budget
    return Task(place, files, tests, passing.known, asked.budget, limit_s, patience_s=20 * limit_s)


def _whole(task: Task) -> Task:
    return replace(task, whole=True)


def _told(outcomes: Iterable[Outcome], argued: Argued) -> Iterable[Outcome]:
    for number, outcome in enumerate(outcomes, start=1):
        place, verdict = outcome.task.place, outcome.verdict
        if outcome.task.whole:
            if _is_red_though_whole(outcome):
                print(f"RED THOUGH WHOLE ({outcome.code}): {place}\n{outcome.told}", flush=True)
        elif verdict is Verdict.UNDECIDED:
            print(f"NOT DECIDED ({outcome.code}): {place}\n{outcome.told}", flush=True)
        elif verdict is Verdict.LIVED:
            print(f"{'argued' if argued.why(place) else 'LIVES'}: {place}", flush=True)
        elif outcome.goes_round:
            print(f"killed, it goes round for ever: {place}", flush=True)
        if not number % 25:
            print(f"… {number} looked at", flush=True)
        yield outcome


def _is_red_though_whole(outcome: Outcome) -> bool:
    return outcome.task.whole and outcome.verdict is not Verdict.LIVED


if __name__ == "__main__":
    sys.exit(main())
