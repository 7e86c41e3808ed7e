"""Who may look at a board, and what may be asked of it."""

from __future__ import annotations

import hmac
import secrets
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from http.cookies import CookieError, SimpleCookie
from typing import Any

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

COOKIE = "leadsman-board"
PAIR = "/pair/"
MOST_DEVICES = 20
MOST_SENT = 8192
"""Bytes that a device may send at once: a line of a thousand characters, with its id."""
DEVICE = "leadsman.device"
"""Where an application finds the name of the device that asks."""
_BITS = 16
"""Bytes of a token, which nobody guesses in the time of a pour."""
_HEADERS = [
    (b"cache-control", b"no-store"),
    (b"referrer-policy", b"no-referrer"),
    (b"x-content-type-options", b"nosniff"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"x-frame-options", b"DENY"),
    (
        b"content-security-policy",
        b"default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; "
        b"img-src 'self' data:; connect-src 'self'; base-uri 'none'; "
        b"form-action 'none'; frame-ancestors 'none'",
    ),
]


class Pairing:
    """
    A token that lets one device in, and the devices that are in.

    Parameters
    ----------
    on_paired : callable
        Called when a device came in: the token is used up then, and there is another.
    new_name : callable, optional
        Gives a name for each; without it they have none.
    """

    def __init__(
        self, on_paired: Callable[[], None], new_name: Callable[[], str] = lambda: ""
    ) -> None:
        self.token = secrets.token_urlsafe(_BITS)
        self._on_paired = on_paired
        self._new_name = new_name
        self._devices: dict[str, str] = {}

    def exchange(self, token: str) -> str | None:
        """What a device shows from now on, for a token; None where that is none, or used up."""
        if len(self._devices) >= MOST_DEVICES:
            return None
        if not hmac.compare_digest(token.encode(), self.token.encode()):
            return None
        self.token = secrets.token_urlsafe(_BITS)
        device = secrets.token_urlsafe(_BITS)
        self._devices[device] = self._new_name()
        self._on_paired()
        return device

    def knows(self, device: str) -> bool:
        """Whether a device was let in."""
        return self.name_of(device) is not None

    def name_of(self, device: str) -> str | None:
        """The name of a device that was let in; None for any other."""
        for each, name in self._devices.items():
            if hmac.compare_digest(device.encode(), each.encode()):
                return name
        return None

    @property
    def names(self) -> tuple[str, ...]:
        """Of the devices that are in, in the order in which they came."""
        return tuple(self._devices.values())


class Guard:
    """
    Lets through what may be asked, and nothing else.

    Parameters
    ----------
    app : App
        What is asked then.
    hosts : iterable of str
        Names that the page goes by, with the port: a page of another name, that leads here, is
        refused.
    pairing : Pairing, optional
        Without it, every program of this machine may look.
    takes : str
        The one address that paired devices may send something to; nothing for none.
    home : str
        Where a device is led that has just been paired.
    """

    def __init__(
        self,
        app: App,
        hosts: Iterable[str],
        pairing: Pairing | None = None,
        *,
        takes: str = "",
        home: str = "/",
    ) -> None:
        self._app = app
        self._hosts = frozenset(hosts)
        self._pairing = pairing
        self._takes = takes
        self._home = home

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """As every ASGI application."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        refused = self._refused(scope)
        if refused is not None:
            await _answer(send, *refused)
            return
        path: str = scope["path"]
        if self._pairing is not None and path.startswith(PAIR):
            await self._pair(path.removeprefix(PAIR), send)
            return
        if self._pairing is not None:
            name = self._pairing.name_of(_cookie(scope))
            if name is None:
                told = "This device is not paired: scan the code in the terminal."
                await _answer(send, 403, told)
                return
            scope = {**scope, DEVICE: name}
        await self._app(scope, receive, _guarded(send))

    def _refused(self, scope: Scope) -> tuple[int, str] | None:
        hosts = _headers(scope, b"host")
        if len(hosts) != 1 or hosts[0] not in self._hosts:
            return 421, "This board goes by another name."
        if scope["method"] in ("GET", "HEAD"):
            return None
        if scope["method"] != "POST" or self._pairing is None or scope["path"] != self._takes:
            return 405, "A board is only looked at."
        # Every browser says of a page that sends something where it came from.
        if _headers(scope, b"origin") != [f"http://{hosts[0]}"]:
            return 403, "Only this board's own page may send something."
        kinds = [kind.partition(";")[0].strip() for kind in _headers(scope, b"content-type")]
        if kinds != ["application/json"]:
            return 415, "A line is sent as JSON."
        lengths = _headers(scope, b"content-length")
        if any(not each.isdigit() or int(each[:9]) > MOST_SENT for each in lengths):
            return 413, "That is too long for a line."
        return None

    async def _pair(self, token: str, send: Send) -> None:
        assert self._pairing is not None
        device = self._pairing.exchange(token)
        if device is None:
            await _answer(send, 403, "That code was used already: scan the one there is now.")
            return
        # Lax: the camera that opens the address is another program, and a strict one would not
        # be sent on the way here.
        cookie = f"{COOKIE}={device}; Path=/; HttpOnly; SameSite=Lax"
        more = [(b"location", self._home.encode()), (b"set-cookie", cookie.encode())]
        await _answer(send, 303, "Paired.", more)


def _headers(scope: Scope, wanted: bytes) -> list[str]:
    return [value.decode("latin-1") for name, value in scope["headers"] if name == wanted]


def _cookie(scope: Scope) -> str:
    for name, value in scope["headers"]:
        if name == b"cookie":
            try:
                found = SimpleCookie(value.decode("latin-1")).get(COOKIE)
            except CookieError:
                continue
            if found is not None:
                return found.value
    return ""


def _guarded(send: Send) -> Send:
    async def send_with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            message = {**message, "headers": [*message.get("headers", ()), *_HEADERS]}
        await send(message)

    return send_with_headers


async def _answer(
    send: Send, status: int, words: str, more: Iterable[tuple[bytes, bytes]] = ()
) -> None:
    # What came with the request is not read, so nothing else may follow on this connection.
    headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"connection", b"close")]
    headers += [*_HEADERS, *more]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": words.encode()})
