"""A page that talks: one conversation, whoever says it, over a network that may fail."""

from __future__ import annotations

import asyncio
import contextlib
import http.client
import json
import re
import socket
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from assistant.board.beside import BesideBoard, FollowedTalk
from assistant.board.serving import Board
from assistant.board.talk_routes import followed, line_in
from assistant.board.talk_shown import turn_shown
from assistant.conversation.conversation import Conversation
from assistant.conversation.shared import SharedTalk
from assistant.record.journal import Journal
from assistant.record.places import Folders
from assistant.terminal.opening import Opening
from assistant.terminal.screen import Screen
from assistant.wiring import converse, gather_cards
from tests.board.test_board import parsed

READY = ("room 12 by 8 metres", "grid 2 metres")
BIDI = "\u202e"
HOSTILE = (
    "note <script>alert(1)</script>",
    "note \"'><img src=x onerror=alert(1)>",
    'note =HYPERLINK("http://evil.example")',
    f"note {BIDI}drowssap \x1b[2J \x07 \u200b",
    "note data: x event: stands id: 7",
    "note " + "x" * 900,
)


def conversation_on(journal: Journal) -> Conversation:
    assert journal.path is not None
    folders = Folders(journal.path.parent)
    return converse(journal, gather_cards(None, ())[0], folders, remembers=False)


class Phone:
    """A paired device, without its browser."""

    def __init__(self, board: Board) -> None:
        self.port = int(board.address.rstrip("/").rpartition(":")[2])
        self.host = f"127.0.0.1:{self.port}"
        status, headers, _ = self.ask("GET", f"/pair/{board.code.rpartition('/')[2]}")
        assert (status, headers["location"]) == (303, "/talk")
        self.cookie = headers["set-cookie"].partition(";")[0]
        self.good = {
            "Host": self.host,
            "Origin": f"http://{self.host}",
            "Cookie": self.cookie,
            "Content-Type": "application/json",
        }
        self.seen = ""
        self.ids = 0

    def ask(
        self, method: str, path: str, headers: dict[str, str] | None = None, body: bytes = b""
    ) -> tuple[int, dict[str, str], bytes]:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        try:
            connection.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
            headers = {"Host": self.host} if headers is None else headers
            if body and "Transfer-Encoding" not in headers:
                headers = {"Content-Length": str(len(body)), **headers}
            for name, value in headers.items():
                connection.putheader(name, value)
            connection.endheaders()
            # Refused while it is still being sent, which is the point.
            with contextlib.suppress(BrokenPipeError, ConnectionResetError):
                connection.send(body)
            answer = connection.getresponse()
            return answer.status, dict(answer.getheaders()), answer.read()
        except (ConnectionResetError, http.client.RemoteDisconnected, http.client.IncompleteRead):
            return 0, {}, b""
        finally:
            connection.close()

    def body(self, text: str, id: str = "") -> bytes:
        self.ids += 1
        made = id or f"{id_part(self.cookie)}-{self.ids:08}"
        return json.dumps({"id": made, "text": text, "seen": self.seen}).encode()

    def say(self, text: str, id: str = "") -> tuple[int, Any]:
        status, _, told = self.ask("POST", "/say", self.good, self.body(text, id))
        return status, json.loads(told)

    def send_and_hang_up(self, text: str, id: str) -> None:
        """The line goes out, and the network goes down before its answer."""
        body = self.body(text, id)
        head = ["POST /say HTTP/1.1", *(f"{a}: {b}" for a, b in self.good.items())]
        head.append(f"Content-Length: {len(body)}")
        with socket.create_connection(("127.0.0.1", self.port)) as line:
            line.sendall("\r\n".join(head).encode() + b"\r\n\r\n" + body)


def id_part(cookie: str) -> str:
    return re.sub("[^A-Za-z0-9]", "", cookie)[-16:]


class Served:
    """A board that talks, served while this thread has the conversation."""

    def __init__(self, journal: Journal) -> None:
        self.journal = journal
        self.talk = conversation_on(journal)
        self.shared = SharedTalk(self.talk, journal)
        followed_talk = FollowedTalk(self.talk, journal)
        self.board = Board(followed_talk, "127.0.0.1", 0, talk=self.shared)
        self.arrived = threading.Event()
        self.shared.wake = self.arrived.set
        self.board.start()

    def during(self, ask: Any) -> Any:
        """What a phone gets, while lines are taken here."""
        result: list[Any] = []
        phone = threading.Thread(target=lambda: result.append(ask()))
        phone.start()
        while phone.is_alive():
            self.arrived.wait(0.02)
            self.arrived.clear()
            self.take_all()
        phone.join()
        return result[0]

    def take_all(self) -> None:
        while self.shared.take_next() is not None:
            pass

    def phone(self) -> Phone:
        made = Phone(self.board)
        made.seen = self.shared.standing.mark
        return made

    def say(self, phone: Phone, text: str, id: str = "") -> Any:
        status, told = self.during(lambda: phone.say(text, id))
        assert status == 200, told
        phone.seen = self.shared.standing.mark
        return told

    def close(self) -> None:
        self.shared.close()
        self.board.close()


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    with Journal.open(tmp_path / "boat-shed.leadsman") as journal:
        made = Served(journal)
        for line in READY:
            made.talk.hear(line)
        yield made
        made.close()


def test_a_line_is_answered_and_on_record(served: Served) -> None:
    phone = served.phone()
    told = served.say(phone, "-12")
    assert told["ok"]
    assert told["lines"][0].startswith("A1 12 mm below")
    assert "Alfa one" in told["say"] or "alfa one" in told["say"]
    status, headers, page = phone.ask("GET", "/talk", phone.good)
    assert status == 200
    assert headers["cache-control"] == "no-store"
    assert headers["referrer-policy"] == "no-referrer"
    assert b"getUserMedia" not in page + phone.ask("GET", "/talk.js", phone.good)[2]
    assert phone.ask("GET", "/", phone.good)[0] == 200, "the board is there too"
    assert [each.device for each in served.journal.entries()][-1] == "phone 1"
    assert served.say(served.phone(), "B1 -13")["ok"]
    assert [each.device for each in served.journal.entries()][-1] == "phone 2"


def test_a_network_that_goes_down_loses_and_repeats_nothing(served: Served) -> None:
    phone = served.phone()
    phone.send_and_hang_up("-12", "the-first-of-them")
    while served.shared.is_empty:
        pass
    phone.send_and_hang_up("-12", "the-first-of-them")
    served.take_all()
    told = served.say(phone, "-12", "the-first-of-them")
    assert told["lines"][0].startswith("A1 12 mm below"), "the answer that got lost"
    assert served.journal.last_utterance() == 3
    assert served.say(phone, "-12", "the-first-of-them") == told
    assert served.say(phone, "-14")["lines"][0].startswith("B1")
    status, why = served.during(lambda: phone.say("-99", "the-first-of-them"))
    assert (status, "Another line" in why["told"]) == (409, True)


def test_fifty_rogues_change_nothing(served: Served) -> None:
    phone, other = served.phone(), served.phone()
    old = served.board.code
    before = [each.said for each in served.journal.entries()]
    good, body = phone.good, phone.body("A1 -12")

    def without(name: str, **other: str) -> dict[str, str]:
        return {**{key: value for key, value in good.items() if key != name}, **other}

    rogues: list[tuple[str, str, dict[str, str], bytes]] = [
        ("POST", "/say", without("Cookie"), body),
        ("POST", "/say", without("Cookie", Cookie="leadsman-board=x"), body),
        ("POST", "/say", without("Cookie", Cookie=f"leadsman-board={old[-22:]}"), body),
        ("POST", "/say", without("Cookie", Cookie=phone.cookie[:-1]), body),
        ("POST", "/say", without("Cookie", Cookie=phone.cookie.upper()), body),
        ("POST", "/say", without("Origin"), body),
        *(("POST", "/say", without("Origin", Origin=origin), body) for origin in (
            "null", "http://evil.example", f"https://{phone.host}", f"http://{phone.host}@evil",
            f"http://localhost:{phone.port + 1}", "http://127.0.0.1", "",
        )),
        *(("POST", "/say", without("Host", Host=host), body) for host in (
            "evil.example", f"evil.example:{phone.port}", "127.0.0.1", "192.168.0.7:8090", "",
        )),
        *(("POST", "/say", without("Content-Type", **{"Content-Type": kind}), body) for kind in (
            "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x",
        )),
        *(("POST", "/say", good, sent) for sent in (
            b"", b"{", b"[]", b"null", b"7", b"[" * 3000, b"\xff\xfe", b'{"id": 1}',
            b'{"id": "short", "text": "A1 -12", "seen": ""}',
            b'{"id": "../../../../etc/passwd", "text": "A1 -12", "seen": ""}',
            b'{"id": "0123456789abcdef", "text": ["A1 -12"], "seen": ""}',
            b'{"id": "0123456789abcdef", "text": "A1 -12\\nB1 -13", "seen": ""}',
            b'{"id": "0123456789abcdef", "text": "   ", "seen": ""}',
            b'{"id": "0123456789abcdef", "text": "A1 -12", "seen": "\\r\\nid: 9"}',
        )),
        ("POST", "/say", good, b"x" * 9_000),
        ("POST", "/say", good, b"x" * 10_000_000),
        ("POST", "/say", {**good, "Content-Length": "99999999999"}, b"x"),
        ("POST", "/say", {**good, "Transfer-Encoding": "chunked"}, chunked(body + b" " * 100_000)),
        *((method, "/say", good, body) for method in ("PUT", "PATCH", "DELETE", "GET")),
        *(("POST", path, good, body) for path in (
            "/", "/talk", "/events", "/talk-events", "/say/../say", "/say/", "//say", "/%2e%2e/say",
        )),
        ("GET", "/../../etc/passwd", good, b""),
        ("GET", "/talk.js/../../../guard.py", good, b""),
        ("GET", "/talk-events", without("Cookie"), b""),
        ("GET", old.replace(served.board.address, "/"), {"Host": "evil.example"}, b""),
        ("GET", "/pair/" + other.cookie.partition("=")[2], {"Host": phone.host}, b""),
    ]  # fmt: skip
    assert len(rogues) >= 50

    def all_of_them() -> list[tuple[int, bytes]]:
        return [phone.ask(*each)[::2] for each in rogues]

    answers = served.during(all_of_them)
    let_in = [
        (rogue[:3], status)
        for rogue, (status, _) in zip(rogues, answers, strict=True)
        if status not in (0, 400, 403, 404, 405, 413, 415, 421)
    ]
    assert not let_in
    assert not any(b"root:" in said or b"import" in said for _, said in answers)
    assert [each.said for each in served.journal.entries()] == before
    assert served.say(phone, "A1 -12")["ok"], "it still stands"


def chunked(content: bytes) -> bytes:
    return b"%x\r\n%s\r\n0\r\n\r\n" % (len(content), content)


def test_text_stays_text(served: Served) -> None:
    phone = served.phone()
    for line in HOSTILE:
        told = served.say(phone, line)
        assert told["said"].isprintable()
        assert all(each.isprintable() for each in told["lines"])
    for line in HOSTILE:
        shown = turn_shown(served.talk.hear(line))
        assert shown["say"].isprintable()

    async def stream() -> list[tuple[str, str, Any]]:
        found = []
        async for text in followed(served.shared, lambda: f"a{BIDI}<b>", "", "phone 1"):
            assert text.isascii()
            found.append(parsed(text))
            if found[-1][0] == "stands":
                return found
        raise AssertionError

    events = asyncio.run(stream())
    assert {kind for kind, _, _ in events} == {"", "told", "stands"}, "no event of their own"
    assert events[-1][2]["job"] == "a\\u202e<b>"
    script = (Path(__file__).parents[2] / "assistant/board/talk.js").read_text("utf-8")
    assert not re.search(r"innerHTML|insertAdjacent|document\.write|outerHTML|\beval\b", script)


def test_a_page_that_was_away_is_told_what_it_missed(served: Served) -> None:
    async def first(after: str) -> list[tuple[str, str, Any]]:
        found = []
        async for text in followed(served.shared, lambda: "shed", after, "phone 1"):
            found.append(parsed(text))
            if found[-1][0] == "stands":
                return found[1:]
        raise AssertionError

    served.talk.hear("-12")
    (_, mark, stands) = asyncio.run(first(""))[-1]
    assert mark == stands["mark"]
    served.talk.hear("18")
    back = asyncio.run(first(mark))
    assert [kind for kind, _, _ in back] == ["told", "stands"]
    assert back[0][2]["who"] == "keyboard"
    assert back[1][2]["question"] == "B1, 18 mm: below or above?"
    assert back[1][2]["answers"] == ["below", "above", "cancel that"]
    assert [kind for kind, _, _ in asyncio.run(first(back[1][1]))] == ["stands"]


@pytest.mark.parametrize(
    "body", [b"", b"{}", b"[1]", b'"x"', b'{"id":null,"text":"x","seen":""}', b"[" * 5000]
)
def test_what_is_no_line_is_none(body: bytes) -> None:
    assert line_in(body, "phone 1") is None


# --- beside the chat ------------------------------------------------------------------


class Kept:
    """A screen that can be read."""

    width = 80

    def __init__(self) -> None:
        self.lines: list[str] = []

    def write(self, line: Any) -> None:
        self.lines.append(str(line))

    @property
    def text(self) -> str:
        return "\n".join(self.lines)


def test_the_chat_has_its_board_beside_it(tmp_path: Path) -> None:
    shown = Kept()
    with Journal.open(tmp_path / "shed.leadsman") as journal:
        opening = Opening(lambda: conversation_on(journal), lambda: None)
        for line in READY:
            opening.conversation.hear(line)
        beside = BesideBoard(opening, journal, Screen(shown), 0)
        assert not beside.own("board")
        assert not beside.own("tally /board")
        for line, answer in (
            ("/board nonsense", "/board lan talk lets them talk"),
            ("/board off lan", "/board lan talk lets them talk"),
            ("/board code", "There is no board"),
            ("/board off", "There is no board"),
        ):
            shown.lines.clear()
            assert beside.own(line)
            assert answer in " ".join(shown.lines), line
        beside.own("/board")
        assert "on this machine. /board off ends it" in shown.text
        beside.own("/board talk")
        assert "can change the job" in " ".join(shown.lines)
        assert "▄" in shown.text, "the code to scan"
        assert beside.status().endswith("they can talk")
        board = beside._board
        assert board is not None
        phone = Phone(board)
        phone.seen = beside._talk.standing.mark if beside._talk else ""
        said: list[Any] = []
        thread = threading.Thread(target=lambda: said.append(phone.say("-12")))
        thread.start()
        while thread.is_alive():
            beside.wait(0.02)
            beside.take_all()
        thread.join()
        assert said[0][0] == 200
        assert "phone 1> -12" in shown.lines
        assert "(phone 1 is in. /board code lets in one more.)" in shown.lines
        assert ", 1 paired" in beside.status()
        beside.own("/board off")
        with pytest.raises(ConnectionRefusedError):
            phone.say("-13")
        beside.close()


def test_where_nobody_types_the_next_code_is_shown_by_itself(tmp_path: Path) -> None:
    shown = Kept()
    with Journal.open(tmp_path / "shed.leadsman") as journal:
        opening = Opening(lambda: conversation_on(journal), lambda: None)
        beside = BesideBoard(opening, journal, Screen(shown), 0, has_keyboard=False)
        beside.open("/board talk")
        board = beside._board
        assert board is not None
        first = board.code
        Phone(board)
        shown.lines.clear()
        beside.take_all()
        beside.close()
        assert shown.lines[0] == "(phone 1 is in.)"
        assert board.code in shown.text
        assert board.code != first


def test_a_plain_chat_says_why_devices_cannot_talk_there(tmp_path: Path) -> None:
    shown = Kept()
    with Journal.open(tmp_path / "shed.leadsman") as journal:
        opening = Opening(lambda: conversation_on(journal), lambda: None)
        beside = BesideBoard(opening, journal, Screen(shown), 0, takes_lines=False)
        assert beside.own("/board talk")
        assert "leadsman board --lan --talk" in " ".join(shown.lines)
        beside.close()
