"""The local server of `show`: one page on 127.0.0.1, behind a key in its address.

It answers this machine alone, by its own name, to pages of its own; nothing goes out.
"""

import json
import secrets
import socket
from collections.abc import Awaitable, Callable
from contextlib import suppress
from hmac import compare_digest
from pathlib import Path
from typing import Any

import uvicorn
from markupsafe import Markup
from msgspec import Struct
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.routing import Mount, Route
from starlette.types import ASGIApp, Receive, Scope, Send

from outrigger.base.errors import InputError, OutriggerError
from outrigger.cases.read import parse
from outrigger.layout.layout import layout
from outrigger.page import papers
from outrigger.page.answer import rendered
from outrigger.page.desk import Answered, Desk, SupersededError
from outrigger.report import words
from outrigger.report.draw.plan import plan as plan_of
from outrigger.report.draw.section import section
from outrigger.report.draw.svg import svg

HOST = "127.0.0.1"
LARGEST = 1_000_000  # bytes of a request; a case file has a few thousand
HEADERS = {
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; "
    "img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin", "Cross-Origin-Opener-Policy": "same-origin",
    "Cache-Control": "no-store",
}  # fmt: skip
HERE = Path(__file__).parent
SVG = "image/svg+xml"
FILES = {"page.js": "text/javascript", "page.css": "text/css", "icon.svg": SVG}
Found = dict[str, Any]


class Guard:
    """Before anything else: the Host that was given out, the key, requests of this page's own; and
    the headers of every reply."""

    def __init__(self, app: ASGIApp, host: str, key: str) -> None:
        self.app, self.host, self.key = app, host, key

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One request."""
        if scope["type"] != "http":
            return
        if refusal := self._refusal(scope):
            reply = PlainTextResponse(refusal, 403, HEADERS)
            await reply(scope, receive, send)
            return

        async def with_headers(message: Any) -> None:
            if message["type"] == "http.response.start":
                given = [(k.lower().encode(), v.encode()) for k, v in HEADERS.items()]
                message = {**message, "headers": [*message["headers"], *given]}
            await send(message)

        await self.app(scope, receive, with_headers)

    def _refusal(self, scope: Scope) -> str:
        """Why a request is refused; empty: it is not."""
        headers = [tuple(one.decode("latin-1") for one in pair) for pair in scope["headers"]]
        if [one for name, one in headers if name == "host"] != [self.host]:
            return "Not at this address."
        key = scope["path"].split("/")[1]
        if not compare_digest(key.encode(), self.key.encode()):
            return "The address lacks its key. Take the one that outrigger show printed."
        given = dict(headers)
        if given.get("origin", f"http://{self.host}") != f"http://{self.host}":
            return "Not from this page."
        if given.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return "Not from this page."
        return ""


def application(desk: Desk, host: str, key: str, note: str = "") -> ASGIApp:
    """The page of a desk as an application; host: with its port; note: said at the start."""

    def page(request: Request) -> Response:
        return Response(_page(desk, note), media_type="text/html")

    def picture(request: Request) -> Response:
        result = desk.answered(_of(request)).design
        brief = "brief" in request.query_params
        drawn = section(result, result.case.project.invented, brief=brief)
        return Response(svg(drawn), media_type=SVG)

    def plan(request: Request) -> Response:
        laid = layout(desk.answered(_of(request)).design.case)
        return Response(svg(plan_of(laid, laid.case.project.invented)), media_type=SVG)

    def more(request: Request) -> Response:
        return JSONResponse({"html": desk.more(_of(request))})

    def stamp(request: Request) -> Response:
        return JSONResponse({"stamp": desk.stamp()})

    def paper(make: Callable[[Answered, Desk], tuple[str, bytes]]) -> Callable[[Request], Response]:
        def answered(request: Request) -> Response:
            name, made = make(desk.answered(_of(request)), desk)
            named = {"Content-Disposition": f'attachment; filename="{name}"'}
            return Response(made, media_type="application/pdf", headers=named)

        return answered

    def answer(sent: Sent) -> Found:
        return desk.answer(sent.text, sent.stamp, sent.typed)

    def cure(sent: Sent) -> Found:
        return desk.cured(sent.text, sent.stamp, sent.settings)

    def save(sent: Sent) -> Found:
        return desk.save(sent.text, sent.stamp)

    routes = [
        Route("/", page),
        *(Route(f"/{name}", _file(name)) for name in FILES),
        Route("/section.svg", picture),
        Route("/plan.svg", plan),
        Route("/more", more),
        Route("/stamp", stamp),
        Route("/ask.pdf", paper(papers.ask_sheet)),
        Route("/summary.pdf", paper(papers.summary)),
        Route("/answer", _posted(answer), methods=["POST"]),
        Route("/cure", _posted(cure), methods=["POST"]),
        Route("/save", _posted(save), methods=["POST"]),
    ]
    handlers = {OutriggerError: _in_words, SupersededError: _superseded, Exception: _mistake}
    app = Starlette(routes=[Mount(f"/{key}", routes=routes)], exception_handlers=handlers)
    return Guard(app, host, key)


class Served(Struct, frozen=True):
    """A page that is ready to be served: its address, and what serves it."""

    address: str
    at: socket.socket
    server: uvicorn.Server

    def run(self) -> None:
        """Serve until the server is told to end, by Ctrl-C say."""
        with self.at, suppress(KeyboardInterrupt):
            self.server.run(sockets=[self.at])


def served(desk: Desk, note: str = "") -> Served:
    """The page of a desk at a free port of this machine, behind a new key."""
    at = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    at.bind((HOST, 0))
    at.listen()
    host, key = f"{HOST}:{at.getsockname()[1]}", secrets.token_urlsafe(24)
    settings = uvicorn.Config(
        application(desk, host, key, note), log_level="critical", access_log=False,
        lifespan="off", ws="none", http="h11", loop="asyncio", server_header=False,
        timeout_graceful_shutdown=1,
    )  # fmt: skip
    return Served(f"http://{host}/{key}/", at, uvicorn.Server(settings))


def _page(desk: Desk, note: str) -> str:
    """The page: the form, with the answer to the file as it stands."""
    text, stamp = desk.read()
    try:
        parse(text, desk.path.name)
    except InputError as error:
        return rendered("broken.html.j2", file=desk.path.name, error=str(error))
    sheet = desk.sheet(text)
    form = desk.make(sheet.given)
    state = desk.answer(text, stamp, {})
    return rendered(
        "page.html.j2",
        file=words.printable(desk.path.name),
        base=words.printable(sheet.base_name),
        base_wrong=bool(sheet.wrong),
        form=form,
        state=state,
        html=Markup(state["html"]),  # a template that escapes every text has made it
        rest=sum(len(group.fields) for group in form.rest),
        note=note,
        engineer=words.ENGINEERS_LINE,
    )


def _file(name: str) -> Callable[[Request], Response]:
    """A file of the page itself."""
    content = (HERE / name).read_bytes()
    return lambda request: Response(content, media_type=FILES[name])


def _of(request: Request) -> str:
    """The answer that a picture or a paper is asked of."""
    return request.query_params.get("of", "")


class Sent(Struct, frozen=True):
    """What the page sends: the text of the file, the stamp it was read with, answers, settings."""

    text: str
    stamp: str
    typed: dict[str, str]
    settings: list[str]


def _sent(raw: bytes) -> Sent:
    """What the page sends, held to its form.

    Raises:
        InputError: another thing.
    """
    try:
        sent = json.loads(raw)
        text, stamp = sent["text"], sent["stamp"]
        typed, settings = sent.get("typed", {}), sent.get("settings", [])
        words_given = [text, stamp, *typed, *typed.values(), *settings]
    except (ValueError, LookupError, TypeError, AttributeError):
        raise InputError("not a request of this page. Load it again.") from None
    if not all(isinstance(one, str) for one in words_given):
        raise InputError("not a request of this page. Load it again.")
    parse(text, "the page")  # its error is in words
    return Sent(text, stamp, typed, settings)


def _posted(answer: Callable[[Sent], Found]) -> Callable[[Request], Awaitable[Response]]:
    """A request that sends the file's text, answered beside the others."""

    async def answered(request: Request) -> Response:
        kind = request.headers.get("content-type", "")
        if kind.partition(";")[0] != "application/json":
            raise InputError("not a request of this page. Load it again.")
        raw = b""
        async for part in request.stream():
            raw += part
            if len(raw) > LARGEST:
                raise InputError("too long for a case file.")
        return JSONResponse(await run_in_threadpool(lambda: answer(_sent(raw))))

    return answered


def _in_words(request: Request, error: Exception) -> Response:
    return JSONResponse({"error": str(error)}, 409)


def _superseded(request: Request, error: Exception) -> Response:
    return JSONResponse({"error": "a newer answer has been asked for."}, 409)


def _mistake(request: Request, error: Exception) -> Response:
    said = " ".join(f"{type(error).__name__}: {error}".split())[:300]
    text = (
        "a mistake of the program, not of your case; it says nothing about the case. Please report "
        f"it with the case file: {said}"
    )
    return JSONResponse({"error": text}, 500)
