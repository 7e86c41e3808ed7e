"""Power cuts, replayed: what the disk may hold at any moment of a session, opened again.

    python tests/power_cuts.py 2000 --seed 1

A session is recorded with strace (Debian's): every write, truncation, flush and change of a name. A
cut may come after any of them. What was flushed stays then; of what was not, any sector of 512
bytes may have reached the disk or not, in any order, one of them in part, and of the changes to
names the first few. Every state has to open with all lines that were answered before the cut, and
with at most the one that was being written on top.
"""

from __future__ import annotations

import argparse
import os
import random
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).parents[1]
SECTOR = 512
OPENINGS = 4
LINES_PER_OPENING = 6
CALLS = (
    "openat,write,writev,pwrite64,pwritev,fsync,fdatasync,ftruncate,truncate,unlink,unlinkat,"
    "rename,renameat,renameat2,link,linkat,fallocate,mmap"
)

SESSION = f"""
import os, sys
from decimal import Decimal
from pathlib import Path
from assistant.events.readings import ReadingTaken
from assistant.record.journal import Journal
from assistant.record.left_open import LeftOpen
from grammar.commands import Measure

for opening in range({OPENINGS}):
    with Journal.open(Path(sys.argv[1])) as journal:
        for _ in range({LINES_PER_OPENING}):
            number = journal.last_utterance() + 1
            if number % 5 == 0:
                journal.keep_open(LeftOpen(number - 1, "B3?", "B3 -130", (("B3 -130 mm", ""),)))
            point = "B" * (3000 if number % 4 == 0 else 1)
            event = ReadingTaken(point, Measure(Decimal(-number), "mm"))
            journal.append(f"line {{number}}", [event] * (number % 4))
            os.write(1, b"answered")
"""


# --- what was done to the disk ------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Call:
    """One thing that the session did: what, to which file, and with what."""

    what: str
    """``make``, ``write``, ``cut`` (to a size), ``flush``, ``unlink``, ``link``, ``rename`` or
    ``answered``."""
    name: str = ""
    """Of the file, in the folder of the job; empty for the folder."""
    other: str = ""
    at: int = 0
    data: bytes = b""


def recorded(folder: Path) -> list[Call]:
    """What a session of several openings does to `folder`, in order."""
    path, trace = folder / "floor.leadsman", folder.parent / "trace"
    subprocess.run(
        ["strace", "-f", "-y", "-xx", "-s", "1000000", "-o", str(trace), "-e", f"trace={CALLS}",
         sys.executable, "-c", SESSION, str(path)],
        check=True, stdout=subprocess.DEVNULL, cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    calls = [call for line in trace.read_text().splitlines() for call in _calls(line, folder)]
    if sum(call.what == "answered" for call in calls) != OPENINGS * LINES_PER_OPENING:
        raise SystemExit("the session did not end, or strace did not show it")
    return calls


_LINE = re.compile(r"\d+ +(\w+)\((.*)\) += (-?\d+|\?)")
_TEXT = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')
_OPEN_FILE = re.compile(r"(-?\d+)<([^>]*)>")


def _calls(line: str, folder: Path) -> Iterator[Call]:
    found = _LINE.match(line)
    if found is None or found[3].startswith("-"):
        return
    call, told = found[1], found[2]
    texts = [bytes.fromhex(text.replace("\\x", "")) for text in _TEXT.findall(told)]
    file = _OPEN_FILE.search(told) if call == "mmap" else _OPEN_FILE.match(told)
    name = _name_in(folder, _unescaped(file[2]).decode()) if file else None
    if call == "write" and file and file[1] == "1" and texts[0].startswith(b"answered"):
        yield Call("answered")
    elif call in ("fsync", "fdatasync") and name is not None:
        yield Call("flush", name)
    elif call == "pwrite64" and name:
        yield Call("write", name, at=int(told.rpartition(", ")[2]), data=texts[0])
    elif call == "ftruncate" and name:
        yield Call("cut", name, at=int(told.rpartition(", ")[2]))
    elif call == "openat" and "O_CREAT" in told:
        if made := _name_in(folder, texts[0].decode()):
            yield Call("make", made)
    elif call in ("unlink", "link", "rename"):
        names = [_name_in(folder, text.decode()) or "" for text in texts]
        if all(names):
            yield Call(call, names[0], other=names[1] if len(names) > 1 else "")
    elif name and _writes_another_way(call, told):
        raise SystemExit(f"a way of writing that is not replayed: {line[:200]}")


def _writes_another_way(call: str, told: str) -> bool:
    mapped = call == "mmap" and "MAP_SHARED" in told and "PROT_WRITE" in told
    return mapped or call in ("write", "writev", "pwritev", "truncate", "fallocate")


def _unescaped(text: str) -> bytes:
    return bytes.fromhex(text.replace("\\x", "")) if text.startswith("\\x") else text.encode()


def _name_in(folder: Path, path: str) -> str | None:
    """Empty for the folder itself; None for what lies elsewhere."""
    if path == str(folder):
        return ""
    return path.removeprefix(f"{folder}/") if path.startswith(f"{folder}/") else None


# --- what the disk may hold ---------------------------------------------------------------------


@dataclass
class File:
    """What is surely on disk of a file, and what was done since."""

    flushed: bytes = b""
    since: list[Call] = field(default_factory=list)

    def as_written(self) -> bytes:
        """With all that was done."""
        return self._with(lambda _: (0, 1 << 62), keep_cuts=lambda: True)

    def after_a_cut(self, chance: random.Random) -> bytes:
        """With what reached the disk of it."""
        share = chance.choice((0.0, 0.2, 0.5, 0.8, 1.0))

        def reached(length: int) -> tuple[int, int]:
            if chance.random() < share:
                return 0, length
            if chance.random() < 0.1:  # torn: its start, or its end
                edge = chance.randrange(length + 1)
                return chance.choice(((0, edge), (edge, length)))
            return 0, 0

        return self._with(reached, keep_cuts=lambda: chance.random() < share)

    def _with(self, reached, keep_cuts) -> bytes:  # type: ignore[no-untyped-def]
        held = bytearray(self.flushed)
        for call in self.since:
            if call.what == "cut":
                if keep_cuts():
                    held = held[: call.at].ljust(call.at, b"\0")
                continue
            for start, sector in _sectors(call):
                first, last = reached(len(sector))
                part = sector[first:last]
                if part:
                    held = held.ljust(start + first, b"\0")
                    held[start + first : start + first + len(part)] = part
        return bytes(held)


def _sectors(call: Call) -> Iterator[tuple[int, bytes]]:
    place, end = call.at, call.at + len(call.data)
    while place < end:
        stop = min(end, (place // SECTOR + 1) * SECTOR)
        yield place, call.data[place - call.at : stop - call.at]
        place = stop


class Disk:
    """The folder of a job as calls come in."""

    def __init__(self) -> None:
        self.names: dict[str, File] = {}
        self._on_disk: dict[str, File] = {}
        self._renamed: list[Call] = []
        self._files: dict[int, File] = {}
        self.answered = 0

    def take(self, call: Call) -> None:
        """One more call."""
        if call.what == "answered":
            self.answered += 1
        elif call.what in ("write", "cut"):
            self.names[call.name].since.append(call)
        elif call.what == "flush" and call.name:
            file = self.names[call.name]
            file.flushed, file.since = file.as_written(), []
        elif call.what == "flush":
            self._on_disk, self._renamed = dict(self.names), []
        elif call.what != "make" or call.name not in self.names:
            made = File()
            _rename(self.names, call, made)
            self._files[len(self._renamed)] = made
            self._renamed.append(call)

    def after_a_cut(self, chance: random.Random) -> dict[str, bytes]:
        """What the files hold once the power is back."""
        names = dict(self._on_disk)
        done = chance.randrange(len(self._renamed) + 1)
        for place, call in enumerate(self._renamed[:done]):
            _rename(names, call, self._files[place])
        held: dict[int, bytes] = {}
        return {
            name: held.setdefault(id(file), file.after_a_cut(chance))
            for name, file in names.items()
        }


def _rename(names: dict[str, File], call: Call, made: File) -> None:
    if call.what == "make":
        names[call.name] = made
    elif call.what == "unlink":
        names.pop(call.name, None)
    elif call.name in names:
        names[call.other] = names[call.name]
        if call.what == "rename":
            del names[call.name]


# --- opened again -------------------------------------------------------------------------------


class LostError(Exception):
    """An answered line is not there, or one that nobody said is."""


def opened(folder: Path, held: dict[str, bytes]) -> list[str]:
    """The lines of the job as it opens; empty where there is none."""
    from assistant.record.journal import Journal

    for left in folder.iterdir():
        left.unlink()
    for name, data in held.items():
        (folder / name).write_bytes(data)
    if not (folder / "floor.leadsman").exists():
        return []
    with Journal.open(folder / "floor.leadsman") as journal:
        return [entry.said for entry in journal.entries()]


def cut_often(states: int, seed: int, *, flushes: bool = True) -> tuple[int, int]:
    """
    Lines answered in all states, and states in which something was unwritten or torn.

    Raises LostError or JournalError at the first that does not hold all it should. Without
    `flushes` the disk takes no notice of them, and that has to happen.
    """
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory() as kept:
        folder, again = Path(kept, "job"), Path(kept, "again")
        folder.mkdir()
        again.mkdir()
        calls = [call for call in recorded(folder) if flushes or call.what != "flush"]
        lines = torn = 0
        for state in range(states):
            disk = Disk()
            for call in calls[: chance.randrange(len(calls)) + 1]:
                disk.take(call)
            held = disk.after_a_cut(chance)
            torn += any(held.get(name) != file.as_written() for name, file in disk.names.items())
            found = opened(again, held)
            expected = [f"line {number + 1}" for number in range(len(found))]
            few = len(found) < disk.answered
            if found != expected or few or len(found) > disk.answered + 1:
                raise LostError(f"state {state}: {disk.answered} answered, found {found}")
            lines += disk.answered
    return lines, torn


def main() -> None:
    """The command line."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("states", type=int, nargs="?", default=2000)
    parser.add_argument("--seed", type=int, default=random.SystemRandom().randrange(10**6))
    options = parser.parse_args()
    lines, torn = cut_often(options.states, options.seed)
    print(f"{options.states} cuts, seed {options.seed}: {torn} with something unwritten or torn; "
          f"{lines} answered lines, none lost, every state opened")  # fmt: skip


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    main()
