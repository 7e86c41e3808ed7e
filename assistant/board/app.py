"""The pages of a board, by starlette."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import AsyncIterator
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.board.following import Following
from assistant.board.guard import App
from assistant.errors import LeadsmanError
from assistant.handover.extras import needed

if TYPE_CHECKING:
    from starlette.applications import Starlette
    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.routing import BaseRoute

    from assistant.conversation.shared import SharedTalk

_HERE = Path(__file__).parent
MOST_STREAMS = 30
"""Pages that follow at once; a site has a dozen phones."""


def board_app(following: Following, talk: SharedTalk | None = None) -> App:
    """
    The application; LeadsmanError where starlette is not installed.

    Starting it starts following the job. With a talk it has a page to talk on, too.
    """
    with needed("A board", "board"):
        from starlette.applications import Starlette
        from starlette.responses import HTMLResponse, PlainTextResponse, Response, StreamingResponse
        from starlette.routing import Route
    streams: set[object] = set()

    async def page(_request: Request) -> Response:
        return HTMLResponse((_HERE / "page.html").read_text("utf-8"))

    async def script(_request: Request) -> Response:
        return Response((_HERE / "page.js").read_bytes(), media_type="text/javascript")

    async def plan(_request: Request) -> Response:
        from assistant.handover.pictures import picture_of

        try:
            svg, _ = await asyncio.to_thread(picture_of, following.seen.job, "")
        except LeadsmanError as why:
            return PlainTextResponse(str(why), status_code=404)
        return Response(svg, media_type="image/svg+xml")

    async def events(request: Request) -> Response:
        if len(streams) >= MOST_STREAMS:
            return PlainTextResponse("Too many pages follow this board.", status_code=503)
        after = request.headers.get("last-event-id") or request.query_params.get("after", "")
        number = int(after) if after.isascii() and after.isdigit() and len(after) < 9 else None
        return StreamingResponse(_counted(number), media_type="text/event-stream")

    async def _counted(number: int | None) -> AsyncIterator[str]:
        mark = object()
        streams.add(mark)
        try:
            async for text in following.events(number):
                yield text
        finally:
            streams.discard(mark)

    @contextlib.asynccontextmanager
    async def while_open(_app: Starlette) -> AsyncIterator[None]:
        task = asyncio.create_task(following.follow())
        try:
            yield
        finally:
            task.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await task

    routes: list[BaseRoute] = [
        Route("/", page),
        Route("/page.js", script),
        Route("/plan.svg", plan),
        Route("/events", events),
    ]
    if talk is not None:
        from assistant.board.talk_routes import talk_routes

        routes += talk_routes(talk, lambda: following.name)
    app: App = Starlette(routes=routes, lifespan=while_open)
    return app
