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
    """

    def __init__(self, on_paired: Callable[[], None]) -> None:
        self.token = secrets.token_urlsafe(_BITS)
        self._on_paired = on_paired
        self._devices: set[str] = set()

    def exchange(self, token: str) -> str | None:
        """What a device shows from now on, for a token; None where that is none, or used up."""
        if len(self._devices) >= MOST_DEVICES:
            return None
        if not hmac.compare_digest(token.encode(), self.token.encode()):
            return None
        self.token = secrets.token_urlsafe(_BITS)
        device = secrets.token_urlsafe(_BITS)
        self._devices.add(device)
        self._on_paired()
        return device

    def knows(self, device: str) -> bool:
        """Whether a device was let in."""
        return any(hmac.compare_digest(device.encode(), each.encode()) for each in self._devices)


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
    """

    def __init__(self, app: App, hosts: Iterable[str], pairing: Pairing | None = None) -> None:
        self._app = app
        self._hosts = frozenset(hosts)
        self._pairing = pairing

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
        if self._pairing is not None and not self._pairing.knows(_cookie(scope)):
            await _answer(send, 403, "This device is not paired: scan the code in the terminal.")
            return
        await self._app(scope, receive, _guarded(send))

    def _refused(self, scope: Scope) -> tuple[int, str] | None:
        hosts = [value for name, value in scope["headers"] if name == b"host"]
        if len(hosts) != 1 or hosts[0].decode("latin-1") not in self._hosts:
            return 421, "This board goes by another name."
        if scope["method"] not in ("GET", "HEAD"):
            return 405, "A board is only looked at."
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
        more = [(b"location", b"/"), (b"set-cookie", cookie.encode())]
        await _answer(send, 303, "Paired.", more)


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
