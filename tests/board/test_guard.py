"""Who may look at a board: nobody by another name, without a code, or with anything but a look."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from typing import Any

from assistant.board.guard import COOKIE, DEVICE, MOST_DEVICES, MOST_SENT, Guard, Pairing

HOST = "192.168.0.7:8090"


async def inner(scope: Any, _receive: Any, send: Any) -> None:
    await send({"type": "http.response.start", "status": 200, "headers": []})
    await send({"type": "http.response.body", "body": scope.get(DEVICE, "board").encode()})


def asked(
    guard: Guard,
    path: str = "/",
    *,
    method: str = "GET",
    host: str | None = HOST,
    more: Sequence[tuple[str, str]] = (),
) -> tuple[int, dict[str, str], bytes]:
    """Status, headers and body of one request."""
    sent: list[dict[str, Any]] = []

    async def send(message: Any) -> None:
        sent.append(message)

    async def receive() -> Any:
        raise AssertionError("nothing that was sent along is read")

    headers = [] if host is None else [("host", host)]
    scope = {
        "type": "http",
        "method": method,
        "path": path,
        "headers": [(a.encode("latin-1"), b.encode("latin-1")) for a, b in (*headers, *more)],
    }
    asyncio.run(guard(scope, receive, send))
    start, body = sent
    return start["status"], {a.decode(): b.decode() for a, b in start["headers"]}, body["body"]


def test_only_its_own_name_and_only_a_look() -> None:
    guard = Guard(inner, [HOST])
    assert asked(guard)[0] == 200
    for host in (None, "evil.example", "192.168.0.7", "192.168.0.7:80", "localhost:8090"):
        assert asked(guard, host=host)[0] == 421, host
    assert asked(guard, more=[("host", "evil.example")])[0] == 421, "two names are none"
    for method in ("POST", "PUT", "DELETE", "OPTIONS", "TRACE", "x"):
        assert asked(guard, method=method)[0] == 405


def test_nothing_is_kept_told_on_or_framed() -> None:
    for status, headers, _ in (asked(Guard(inner, [HOST])), asked(Guard(inner, []))):
        assert status in (200, 421)
        assert headers["cache-control"] == "no-store"
        assert headers["referrer-policy"] == "no-referrer"
        assert headers["x-content-type-options"] == "nosniff"
        assert "default-src 'none'" in headers["content-security-policy"]
        assert "frame-ancestors 'none'" in headers["content-security-policy"]


def test_a_code_lets_one_device_in() -> None:
    told: list[str] = []
    pairing = Pairing(lambda: told.append("again"))
    guard = Guard(inner, [HOST], pairing)
    assert asked(guard)[0] == 403
    code = pairing.token
    for wrong in ("", "x", code[:-1], code + "x", code.upper(), "é", "../" + code):
        assert asked(guard, f"/pair/{wrong}")[0] == 403, wrong
    status, headers, _ = asked(guard, f"/pair/{code}")
    assert (status, headers["location"]) == (303, "/")
    assert told == ["again"], "there is a new code to print"
    cookie = headers["set-cookie"].partition(";")[0]
    assert "HttpOnly" in headers["set-cookie"]
    assert code not in cookie
    assert asked(guard, more=[("cookie", f"other=1; {cookie}")])[0] == 200
    assert asked(guard, f"/pair/{code}")[0] == 403, "used up"
    for wrong in (f"{COOKIE}=", f"{COOKIE}={code}", f"{cookie}x", "\x00", f"{COOKIE}=é"):
        assert asked(guard, more=[("cookie", wrong)])[0] == 403, wrong
    assert asked(guard, host="evil.example", more=[("cookie", cookie)])[0] == 421


def test_so_many_devices_and_no_more() -> None:
    pairing = Pairing(lambda: None)
    devices = [pairing.exchange(pairing.token) for _ in range(MOST_DEVICES)]
    assert all(device and pairing.knows(device) for device in devices)
    assert pairing.exchange(pairing.token) is None


def test_only_its_own_page_may_send_and_only_what_a_line_can_be() -> None:
    pairing = Pairing(lambda: None, lambda: "phone 7")
    guard = Guard(inner, [HOST], pairing, takes="/say", home="/talk")
    status, headers, _ = asked(guard, f"/pair/{pairing.token}")
    assert (status, headers["location"]) == (303, "/talk")
    good = {
        "cookie": headers["set-cookie"].partition(";")[0],
        "origin": f"http://{HOST}",
        "content-type": "application/json",
        "content-length": "20",
    }

    def sent(path: str = "/say", method: str = "POST", **other: str | None) -> int:
        wanted = {**good, **{name.replace("_", "-"): value for name, value in other.items()}}
        more = [(name, value) for name, value in wanted.items() if value is not None]
        status, _, said = asked(guard, path, method=method, more=more)
        if status == 200:
            assert said == b"phone 7"
        return status

    assert sent() == 200
    assert sent(content_type="application/json; charset=utf-8") == 200
    assert sent(content_length=None) == 200, "in pieces, which are counted as they come"
    assert sent(cookie=None) == 403
    for origin in (None, "null", "http://evil.example", f"https://{HOST}", f"http://{HOST}.evil",
                   "http://192.168.0.7", f"http://{HOST}/"):  # fmt: skip
        assert sent(origin=origin) == 403, origin
    for kind in (None, "text/plain", "application/x-www-form-urlencoded", "multipart/form-data"):
        assert sent(content_type=kind) == 415, kind
    for length in (str(MOST_SENT + 1), "10000000000", "-1", "x"):
        assert sent(content_length=length) == 413, length
    for path in ("/", "/say/", "/talk", "/events", "/pair/x"):
        assert sent(path) == 405, path
    for method in ("PUT", "DELETE", "PATCH", "OPTIONS"):
        assert sent(method=method) == 405, method
    unpaired = Guard(inner, [HOST], takes="/say")
    assert asked(unpaired, "/say", method="POST", more=list(good.items()))[0] == 405


def test_every_device_has_a_name_of_its_own() -> None:
    names = iter(("phone 1", "phone 2"))
    pairing = Pairing(lambda: None, lambda: next(names))
    first, second = (pairing.exchange(pairing.token) or "" for _ in range(2))
    assert (pairing.name_of(first), pairing.name_of(second)) == ("phone 1", "phone 2")
    assert pairing.names == ("phone 1", "phone 2")
    assert pairing.name_of("another") is None
