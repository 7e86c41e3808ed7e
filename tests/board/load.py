"""
A board under load, as it is on a site: pages that follow, a network and a program that fail.

    python -m tests.board.load [EVENTS]

Three clients follow ``leadsman board`` through a network of the test's own, which is cut now and
then, while another program records readings (1,000 where no number is said). The board is killed
and started again on the way. It prints how long after a reading was on disk each client had it,
whether each had all of them once and in order, and what memory the board took. Then a real
browser sleeps through some of it, and wakes up.
"""

from __future__ import annotations

import contextlib
import http.client
import os
import re
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from pathlib import Path

from assistant.record.journal import Journal
from assistant.record.places import Folders
from assistant.wiring import converse, gather_cards
from tests.board.browser import browser, driver, is_there
from tests.board.test_board import told

CLIENTS = 3
CUT_EVERY, KILL_AT = 150, (0.35, 0.7)


class Network:
    """Between the clients and the board; can be cut, and mended."""

    def __init__(self, port: int) -> None:
        self.target = port
        self.up = True
        self._open: set[socket.socket] = set()
        self._listening = socket.create_server(("127.0.0.1", 0))
        self.port = int(self._listening.getsockname()[1])
        threading.Thread(target=self._accept, daemon=True).start()

    def _accept(self) -> None:
        while True:
            with contextlib.suppress(OSError):
                inside, _ = self._listening.accept()
                if not self.up:
                    inside.close()
                    continue
                try:
                    outside = socket.create_connection(("127.0.0.1", self.target), 2)
                except OSError:
                    inside.close()
                    continue
                self._open |= {inside, outside}
                for a, b in ((inside, outside), (outside, inside)):
                    threading.Thread(target=self._pass, args=(a, b), daemon=True).start()

    def _pass(self, a: socket.socket, b: socket.socket) -> None:
        with contextlib.suppress(OSError):
            while got := a.recv(65_536):
                b.sendall(got)
        for each in (a, b):
            self._open.discard(each)
            with contextlib.suppress(OSError):
                each.shutdown(socket.SHUT_RDWR)
            each.close()

    def cut(self) -> None:
        """Every connection is gone, and none is made."""
        self.up = False
        for each in list(self._open):
            with contextlib.suppress(OSError):
                each.shutdown(socket.SHUT_RDWR)

    def mend(self) -> None:
        """Connections can be made again."""
        self.up = True


class Client:
    """What a page does, without its browser."""

    def __init__(self, network: Network, host: str) -> None:
        self._network = network
        self._host = host
        self.had: dict[int, float] = {}
        self.twice = 0
        self.out_of_order = 0
        self.opened = 0
        self.last = ""
        self.ends = False
        self.thread = threading.Thread(target=self._follow, daemon=True)
        self.thread.start()

    def _follow(self) -> None:
        while not self.ends:
            with contextlib.suppress(OSError, http.client.HTTPException):
                self._stream()
            time.sleep(0.05)

    def _stream(self) -> None:
        line = http.client.HTTPConnection("127.0.0.1", self._network.port, timeout=8)
        with contextlib.closing(line):
            after = {"Last-Event-ID": self.last} if self.last else {}
            line.request("GET", "/events", headers={"Host": self._host, **after})
            answer = line.getresponse()
            assert answer.status == 200, answer.status
            self.opened += 1
            id, kind = "", ""
            while not self.ends and (read := answer.readline()):
                word, _, value = read.decode().rstrip("\n").partition(": ")
                if word == "id":
                    id = value
                elif word == "event":
                    kind = value
                elif not word and id:
                    self._came(kind, int(id))
                    id = ""

    def _came(self, kind: str, number: int) -> None:
        self.last = str(number)
        if kind != "said":
            return
        self.twice += number in self.had
        self.out_of_order += bool(self.had) and number < max(self.had)
        self.had.setdefault(number, time.monotonic())


class Program:
    """``leadsman board``, which can be killed and started again at its address."""

    def __init__(self, job: Path) -> None:
        self._job = job
        self.port = 0
        self.start()

    def start(self) -> None:
        """Start it, and wait until it listens."""
        self.program = subprocess.Popen(
            [sys.executable, "-m", "assistant", "board", "--job", str(self._job),
             "--port", str(self.port)],
            stdout=subprocess.PIPE, text=True,
            env={**os.environ, "LEADSMAN_HOME": str(self._job.parent)},
        )  # fmt: skip
        assert self.program.stdout is not None
        found = re.search(r"127\.0\.0\.1:(\d+)", self.program.stdout.readline())
        assert found
        self.port = int(found[1])

    def kill(self) -> None:
        """As the power does."""
        self.program.send_signal(signal.SIGKILL)
        self.program.wait()

    def memory_mb(self, what: str = "VmRSS") -> float:
        """What it holds now; ``VmHWM`` is the most that it held."""
        text = Path(f"/proc/{self.program.pid}/status").read_text()
        found = re.search(rf"{what}:\s+(\d+) kB", text)
        assert found
        return int(found[1]) / 1024


@contextlib.contextmanager
def recorded(job: Path, events: int) -> Iterator[Iterator[int]]:
    """Lines said in another program's place: each is on disk when its number comes."""
    with Journal.open(job) as journal:
        talk = converse(journal, gather_cards(None, ())[0], Folders(job.parent), remembers=False)

        def lines() -> Iterator[int]:
            names = [f"{letter}{row}" for row in range(1, 25) for letter in "ABCDEFGHIJKL"]
            for n in range(events):
                point = names[n % len(names)]
                word = "" if n < len(names) else "correct "
                to = "" if n < len(names) else "to "
                turn = talk.hear(f"{word}{point} {to}minus {12 + (n * 7) % 5} mm")
                if turn.reply.ask:
                    turn = talk.hear("confirm")
                assert turn.ok, turn.reply.headline
                yield journal.last_utterance()

        yield lines()


def main(events: int) -> None:
    """The campaign."""
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / "hall.leadsman"
        told(job, "room 24 by 48 metres", "grid 2 metres")
        program = Program(job)
        begun_mb = program.memory_mb()
        network = Network(program.port)
        clients = [Client(network, f"127.0.0.1:{program.port}") for _ in range(CLIENTS)]
        while not all(client.last for client in clients):
            time.sleep(0.05)
        recorded_at = run(job, events, program, network, clients)
        last = max(recorded_at)
        end = time.monotonic() + 60
        while not all(client.last == str(last) for client in clients) and time.monotonic() < end:
            time.sleep(0.05)
        for number, client in enumerate(clients, 1):
            missing = sorted(set(recorded_at) - set(client.had))
            calm = sorted(
                1000 * (client.had[n] - at) for n, (at, calm) in recorded_at.items()
                if calm and n in client.had
            )  # fmt: skip
            share = calm[int(len(calm) * 0.95)] if calm else float("nan")
            median = calm[len(calm) // 2] if calm else float("nan")
            print(f"client {number}: {len(client.had)} of {len(recorded_at)}, missing "
                  f"{missing[:5]}, twice {client.twice}, out of order {client.out_of_order}, "
                  f"opened {client.opened} times; after the reading: median {median:.0f} ms, "
                  f"95 % {share:.0f} ms ({len(calm)} while each had all before it)")  # fmt: skip
            client.ends = True
        now_mb, most_mb = program.memory_mb(), program.memory_mb("VmHWM")
        print(f"memory of the board: {begun_mb:.0f} MB at its start, {now_mb:.0f} MB at the end; "
              f"most since it was last started: {most_mb:.0f} MB")  # fmt: skip
        if is_there():
            sleep_through(job, program)
        program.program.send_signal(signal.SIGINT)
        program.program.wait(10)


def run(
    job: Path, events: int, program: Program, network: Network, clients: list[Client]
) -> dict[int, tuple[float, bool]]:
    """Record, cut and kill; when each was on disk, and whether the way was open then."""
    recorded_at: dict[int, tuple[float, bool]] = {}
    kills = [int(events * share) for share in KILL_AT]
    with recorded(job, events) as lines:
        for count, number in enumerate(lines, 1):
            now = time.monotonic()
            # While every client has all that was before, it is the board alone that takes time.
            calm = all(client.last == str(number - 1) for client in clients)
            recorded_at[number] = now, calm
            time.sleep(0.2 if count % 5 else 0.02)
            if count % CUT_EVERY == 0:
                network.cut()
            elif count % CUT_EVERY == 10:
                network.mend()
            if count in kills:
                program.kill()
            elif count - 8 in kills:
                program.start()
    network.mend()
    return recorded_at


def sleep_through(job: Path, program: Program) -> None:
    """A real page is put to sleep, the way to it fails, and it wakes up to all that came."""
    hide = """Object.defineProperty(document, "visibilityState",
      {value: arguments[0], configurable: true});
      document.dispatchEvent(new Event("visibilitychange"));"""
    with driver() as at, browser(at) as page:
        page.go(f"http://127.0.0.1:{program.port}/")
        page.until(lambda: "read" in page.text("#headline"))
        # Its stream ends and its clocks stand still, as a phone's do in a pocket.
        page.run(hide + "stream.close();", "hidden")
        with recorded(job, 3) as lines:
            last = list(lines)[-1]
        page.run("const past = Date.now() - 15000; heard = past; tick();")
        late = page.text("#age"), page.run("return document.getElementById('age').className")
        assert late[1] == "late", late
        page.run(hide, "visible")
        page.until(lambda: page.run("return last") == str(last), "what it missed")
        print(f"a page that slept said “{late[0]}” in red, and woke up to utterance {last}; "
              f"console: {page.console()}")  # fmt: skip


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
