"""The page that talks: what is said on it goes to the conversation, and what all say comes back."""

from __future__ import annotations

import asyncio
import json
import re
from collections.abc import AsyncIterator, Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assistant.board.following import BEAT_S, LOOK_S, event_text
from assistant.board.guard import DEVICE, MOST_SENT
from assistant.board.talk_shown import answer_shown, standing_shown, told_shown
from assistant.conversation.shared import SentLine, SharedTalk, Standing
from assistant.errors import LeadsmanError

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.routing import BaseRoute

SAY = "/say"
HOME = "/talk"
ANSWER_S = 20.0
"""How long a page waits for its answer before it asks again: some networks cut what is silent
for longer. The line waits on in its queue."""
MOST_STREAMS = 30
_HERE = Path(__file__).parent
_ID = re.compile(r"[A-Za-z0-9_-]{16,64}")
_MARK = re.compile(r"[0-9a-f-]{0,40}")


def talk_routes(talk: SharedTalk, name: Callable[[], str]) -> list[BaseRoute]:
    """The routes; `name` gives what the job is called now."""
    from starlette.responses import HTMLResponse, PlainTextResponse, Response, StreamingResponse
    from starlette.routing import Route

    streams: set[object] = set()

    async def page(_request: Request) -> Response:
        return HTMLResponse((_HERE / "talk.html").read_text("utf-8"))

    async def script(_request: Request) -> Response:
        return Response((_HERE / "talk.js").read_bytes(), media_type="text/javascript")

    def told(status: int, words: str) -> Response:
        return _json(status, {"told": words})

    def _json(status: int, data: dict[str, Any]) -> Response:
        return Response(json.dumps(data), status, media_type="application/json")

    async def say(request: Request) -> Response:
        body = b""
        async for chunk in request.stream():
            body += chunk
            if len(body) > MOST_SENT:
                return told(413, "That is too long for a line; nothing recorded.")
        line = line_in(body, request.scope[DEVICE])
        if line is None:
            return told(400, "That is no line as this page sends it; nothing recorded.")
        if len(line.text.splitlines()) > 1:
            return told(400, "One line at a time; nothing recorded.")
        try:
            waiting = asyncio.wrap_future(talk.send(line))
            # Shielded: a page that goes away takes nothing back.
            turn = await asyncio.wait_for(asyncio.shield(waiting), ANSWER_S)
        except TimeoutError:
            return told(202, "It waits for the program.")
        except LeadsmanError as why:
            return told(409, str(why))
        return _json(200, answer_shown(turn, talk.standing, name(), line.device))

    async def follow(request: Request) -> Response:
        if len(streams) >= MOST_STREAMS:
            return PlainTextResponse("Too many pages follow this talk.", status_code=503)
        mark = request.headers.get("last-event-id") or request.query_params.get("after", "")
        device = request.scope[DEVICE]
        after = mark if _MARK.fullmatch(mark) else ""
        return StreamingResponse(_counted(after, device), media_type="text/event-stream")

    async def _counted(after: str, device: str) -> AsyncIterator[str]:
        stream = object()
        streams.add(stream)
        try:
            async for text in followed(talk, name, after, device):
                yield text
        finally:
            streams.discard(stream)

    return [
        Route(HOME, page),
        Route("/talk.js", script),
        Route(SAY, say, methods=["POST"]),
        Route("/talk-events", follow),
    ]


def line_in(body: bytes, device: str) -> SentLine | None:
    """The line that a page sent; None where it is none."""
    try:
        sent = json.loads(body)
        id, text, seen = sent["id"], sent["text"], sent["seen"]
    except (ValueError, TypeError, KeyError, RecursionError):
        return None
    if not all(isinstance(each, str) for each in (id, text, seen)):
        return None
    if not (_ID.fullmatch(id) and _MARK.fullmatch(seen) and text.strip()):
        return None
    return SentLine(device, id, text, seen)


async def followed(
    talk: SharedTalk, name: Callable[[], str], after: str, device: str
) -> AsyncIterator[str]:
    """
    Server-sent events of a talk: what was said since a mark, how it stands, and signs of life.

    Both always come together, so that no page holds an answer without the question it led to.
    """
    yield "retry: 2000\n\n"
    shown: tuple[Standing, str] | None = None
    quiet_s = 0.0
    while True:
        standing = talk.standing
        if (standing, name()) != shown:
            for each in talk.told_since(after):
                if each.number <= standing.number:
                    yield event_text("told", told_shown(each))
            shown, after, quiet_s = (standing, name()), standing.mark, 0.0
            yield event_text("stands", standing_shown(standing, name(), device), standing.mark)
        await asyncio.sleep(LOOK_S)
        quiet_s += LOOK_S
        if quiet_s >= BEAT_S:
            quiet_s = 0.0
            yield event_text("beat", {})
