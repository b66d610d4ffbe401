"""The pages in the tests: served in this process, opened in a real browser, asked without one."""

import asyncio
import json
import shutil
import threading
from contextlib import contextmanager

import pytest

from outrigger.cli.form import form
from outrigger.cli.lumber_and_new import STARTER_FILE
from outrigger.page.desk import Desk
from outrigger.page.server import application, served

HOST, KEY = "127.0.0.1:8000", "a-key"


def desk_of(path, text=None):
    """The desk of a file; without a text of one that is not there yet."""
    if text is not None:
        path.write_text(text, encoding="utf-8")
    return Desk(path, form, starter=STARTER_FILE.read_text(encoding="utf-8"))


def opened(path, text=None):
    """A desk, the text of its file and its stamp."""
    desk = desk_of(path, text)
    return desk, *desk.read()


@contextmanager
def serving(path, text=None):
    """The address of a page, served in a thread."""
    page = served(desk_of(path, text))
    thread = threading.Thread(target=page.run, daemon=True)
    thread.start()
    try:
        yield page.address
    finally:
        page.server.should_exit = True
        thread.join(10)


@contextmanager
def browser():
    """Chromium, by its driver; skipped with a word where there is none."""
    found = (shutil.which(one) for one in ("chromium", "chromium-browser", "google-chrome"))
    chromium = next(filter(None, found), None)
    if chromium is None:
        pytest.skip("no Chromium on this machine: install the package chromium to run this")
    driver = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    with driver.sync_playwright() as running:
        started = running.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        yield started
        started.close()


@contextmanager
def watched(browser, address, **options):
    """A page of a window of its own: nothing may be said on its console, nothing asked of anywhere
    but its own address."""
    window = browser.new_context(**{"viewport": {"width": 1280, "height": 900}, **options})
    page, wrong = window.new_page(), []
    page.on("pageerror", lambda error: wrong.append(f"error {error}"))
    page.on("console", lambda said: wrong.append(f"{said.type}: {said.text}"))
    page.on("request", lambda one: here(one.url) or wrong.append(f"asked for {one.url}"))

    def here(url):
        return url.startswith((address, "blob:", "data:"))

    page.goto(address)
    yield page
    said = [one for one in wrong if "409 (Conflict)" not in one]  # a refusal in words
    assert said == []
    window.close()


def ask(app, path, method="GET", body=b"", **headers):
    """One request of an application: its status, its headers, its body."""
    return asyncio.run(_ask(app, path, method, body, headers))


async def _ask(app, path, method, body, headers):
    path, _, query = path.partition("?")
    given = {"host": HOST, **{name.replace("_", "-"): one for name, one in headers.items()}}
    scope = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "method": method,
        "scheme": "http", "path": path, "raw_path": path.encode(), "root_path": "",
        "query_string": query.encode(), "client": ("127.0.0.1", 1), "server": ("127.0.0.1", 8000),
        "headers": [(k.encode(), v.encode()) for k, v in given.items()],
    }  # fmt: skip
    sent = []

    async def receive():
        return {"type": "http.request", "body": body, "more_body": False}

    async def send(message):
        sent.append(message)

    await app(scope, receive, send)
    start = next(one for one in sent if one["type"] == "http.response.start")
    content = b"".join(one.get("body", b"") for one in sent if one["type"] == "http.response.body")
    found = {name.decode().lower(): one.decode() for name, one in start["headers"]}
    return start["status"], found, content


def posted(app, path, sent, **headers):
    """What a request of the page's own answers."""
    named = {"content_type": "application/json", **headers}
    status, _, body = ask(app, f"/{KEY}/{path}", "POST", json.dumps(sent).encode(), **named)
    return status, json.loads(body) if status != 403 else body.decode()


def app_of(path, text=None):
    """The application of a file."""
    return application(desk_of(path, text), HOST, KEY)
