"""The bench as a web server for this machine alone: it answers GET, to its own names, and gives out what was made."""

import json
from collections.abc import AsyncIterator, Callable
from importlib.resources import files

from starlette.applications import Starlette
from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response, StreamingResponse
from starlette.routing import Route
from starlette.types import ASGIApp, Receive, Scope, Send

from foldproof.preview.bench import HTML, Bench

OWN = {"bench.html": HTML, "bench.css": "text/css; charset=utf-8", "bench.js": "text/javascript; charset=utf-8"}
PATIENCE = 0.5
"""Seconds between looks whether the bench is being closed."""
QUIET = 30
"""Looks after which a line is sent to a browser that has heard nothing."""
BENCH_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
SHEET_POLICY = (
    "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:; font-src data:; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'self'")
"""Of what was made: it holds all that it shows, and may ask for nothing."""
COMMON = {
    "Cache-Control": "no-store", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin", "Cross-Origin-Opener-Policy": "same-origin",
}
Closing = Callable[[], bool]


class Doorkeeper:
    """Lets in what this machine's own page asks, and nobody else.

    A page from elsewhere may reach 127.0.0.1 by a name of its own (DNS rebinding): its Host is not ours. Or by our
    name: then the browser says that the request comes from another site, in Origin or Sec-Fetch-Site.
    """

    def __init__(self, app: ASGIApp, port: int) -> None:
        self._app = app
        self._hosts = {f"127.0.0.1:{port}", f"localhost:{port}"}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, or refuse."""
        if scope["type"] != "http":
            return
        refused = self._refused(scope["method"], Headers(scope=scope))
        if refused:
            await PlainTextResponse(refused, 405 if scope["method"] not in ("GET", "HEAD") else 403, COMMON)(
                scope, receive, send)
        else:
            await self._app(scope, receive, send)

    def _refused(self, method: str, headers: Headers) -> str:
        if method not in ("GET", "HEAD"):
            return "The bench is only looked at."
        if len(headers.getlist("host")) != 1 or headers["host"].lower() not in self._hosts:
            return "The bench answers only to this machine's own name."
        origins = {f"http://{host}" for host in self._hosts}
        if any(origin.lower() not in origins for origin in headers.getlist("origin")):
            return "The bench answers only its own page."
        if any(site not in ("same-origin", "none") for site in headers.getlist("sec-fetch-site")):
            return "The bench answers only its own page."
        return ""


def application(bench: Bench, port: int, closing: Closing) -> ASGIApp:
    """The whole server."""
    def own(address: str, name: str) -> Route:
        data = (files("foldproof.preview") / name).read_bytes()

        async def answer(_: Request) -> Response:
            return Response(data, media_type=OWN[name], headers={**COMMON, "Content-Security-Policy": BENCH_POLICY})

        return Route(address, answer)

    async def made(request: Request) -> Response:
        found = bench.files.get(request.path_params["name"])
        if found is None:
            return PlainTextResponse("There is no such sheet on the bench.", 404, COMMON)
        return Response(
            found.data, media_type=found.media, headers={**COMMON, "Content-Security-Policy": SHEET_POLICY})

    async def told(_: Request) -> Response:
        return StreamingResponse(
            _telling(bench, closing), media_type="text/event-stream",
            headers={**COMMON, "Content-Security-Policy": BENCH_POLICY})

    routes = [
        own("/", "bench.html"), own("/bench.css", "bench.css"), own("/bench.js", "bench.js"), Route("/told", told),
        Route("/made/{name}", made),
    ]
    return Doorkeeper(Starlette(routes=routes), port)


async def _telling(bench: Bench, closing: Closing) -> AsyncIterator[str]:
    """What lies on the bench, again whenever it changes, until the bench is closed."""
    version, looks = -1, 0
    while not closing():
        if bench.version > version:
            version, looks = bench.version, 0
            yield f"data: {json.dumps(bench.told, ensure_ascii=False)}\n\n"
        await bench.after(version, PATIENCE)
        looks += 1
        if looks % QUIET == 0:
            yield ": still here\n\n"
