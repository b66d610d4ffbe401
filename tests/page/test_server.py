"""The local server without a browser: who is let in, what replies bear, what papers it makes."""

import json
import re
import tomllib
from html import unescape

import pytest
from pages import HOST, KEY, app_of, ask, posted
from sample_case import STATED, changed


@pytest.fixture
def app(tmp_path):
    return app_of(tmp_path / "job.toml", STATED)


def state(app):
    """What the page starts with: text, stamp, token."""
    page = ask(app, f"/{KEY}/")[2].decode()
    found = re.findall(r'data-(text|stamp|token)="([^"]*)"', page)
    return {name: unescape(value) for name, value in found[:3]}


def test_the_page(app):
    status, headers, body = ask(app, f"/{KEY}/")
    assert status == 200
    policy = headers["content-security-policy"]
    assert policy.startswith("default-src 'none';") and "unsafe" not in policy
    assert headers["cache-control"] == "no-store" and headers["referrer-policy"] == "no-referrer"
    text = body.decode()
    assert "PASS" in text
    assert not re.search(r"<script>|<style|style=|onclick|https?://", text.partition("<form")[0])


def test_the_page_carries_the_cautions(tmp_path):
    """A back span of 18 in is under twice the arm; what is not checked, the engineer's line."""
    text = changed(('back_span = "4 ft"', 'back_span = "18 in"'), text=STATED)
    body = ask(app_of(tmp_path / "job.toml", text), f"/{KEY}/")[2].decode()
    said = " ".join(re.sub(r"<[^>]+>", " ", unescape(body)).split())
    assert "Caution: The back span, 18 in, is less than twice the arm" in said
    assert "a licensed engineer must verify and adopt it; local codes govern" in said
    assert "Not checked: " in said and "erection" in said


@pytest.mark.parametrize("host", ["example.org", "localhost:8000", "127.0.0.1", "127.0.0.1:81"])
def test_another_host_is_refused(app, host):
    """A name that someone lets point at this machine opens nothing."""
    assert ask(app, f"/{KEY}/", host=host)[0] == 403


@pytest.mark.parametrize("path", ["/", "/a-ke/", "/a-keyy/", "//", "/page.js", f"/{KEY.upper()}/"])
def test_another_key_is_refused(app, path):
    status, headers, body = ask(app, path)
    assert status == 403 and b"job" not in body
    assert "content-security-policy" in headers


@pytest.mark.parametrize(
    "headers",
    [{"origin": "http://example.org"}, {"origin": "null"}, {"sec_fetch_site": "cross-site"}],
)
def test_requests_of_other_pages_are_refused(app, headers, tmp_path):
    sent = {"text": "", "stamp": ""}
    assert posted(app, "save", sent, **headers)[0] == 403
    assert (tmp_path / "job.toml").read_text(encoding="utf-8") == STATED


@pytest.mark.parametrize(
    "body", [b"", b"[]", b"{}", b'{"text": 1, "stamp": ""}', b'{"text": "x", "stamp": ""}']
)
def test_what_is_no_request_of_the_page(app, body):
    status, _, said = ask(app, f"/{KEY}/answer", "POST", body, content_type="application/json")
    assert status == 409 and json.loads(said)["error"]


def test_a_form_of_another_page_is_no_request(app):
    """A plain form cannot send what this page sends."""
    status, _, said = ask(app, f"/{KEY}/save", "POST", b"{}", content_type="text/plain")
    assert status == 409 and b"not a request of this page" in said


def test_too_long(app):
    sent = {"text": "#" * 1_000_001, "stamp": ""}
    assert posted(app, "answer", sent)[1]["error"] == "too long for a case file."


def test_answer_cure_and_save(app, tmp_path):
    """A gap that fails, its first cure, saved: the file has both."""
    now = state(app)
    status, found = posted(app, "answer", now | {"typed": {"gap.width": "10"}})
    assert status == 200 and found["status"] == "fail" and found["ms"] > 0
    more = json.loads(ask(app, f"/{KEY}/more?of={found['token']}")[2])["html"]
    settings = json.loads(unescape(re.search(r'data-settings="([^"]*)"', more)[1]))
    sent = {"text": found["text"], "stamp": now["stamp"], "settings": settings}
    cured = posted(app, "cure", sent)[1]
    assert cured["status"] == "pass"
    saved = posted(app, "save", {"text": cured["text"], "stamp": now["stamp"]})[1]
    assert saved["told"] == "Saved as revision 1."
    written = tomllib.loads((tmp_path / "job.toml").read_text(encoding="utf-8"))
    name, _, value = settings[0].partition("=")
    table, _, key = name.partition(".")
    assert str(written[table][key]) == value
    assert written["gap"]["width"] == "10 in"


def test_papers(app):
    """The summary is of the saved file alone; the ask sheet of what stands there now."""
    now = state(app)
    status, headers, body = ask(app, f"/{KEY}/summary.pdf?of={now['token']}")
    assert status == 200 and body.startswith(b"%PDF")
    assert headers["content-disposition"] == 'attachment; filename="job-summary.pdf"'
    found = posted(app, "answer", now | {"typed": {"gap.width": "5"}})[1]
    status, _, said = ask(app, f"/{KEY}/summary.pdf?of={found['token']}")
    assert status == 409 and "Save first" in json.loads(said)["error"]
    assert ask(app, f"/{KEY}/ask.pdf?of={found['token']}")[2].startswith(b"%PDF")
    assert ask(app, f"/{KEY}/section.svg?of=nothing")[0] == 409


def test_pictures(tmp_path):
    text = f'{STATED}\n[layout]\nrun = "16 ft"\n'
    app = app_of(tmp_path / "job.toml", text)
    of = state(app)["token"]
    for path in (f"section.svg?of={of}", f"section.svg?of={of}&brief=1", f"plan.svg?of={of}"):
        status, headers, body = ask(app, f"/{KEY}/{path}")
        assert status == 200 and headers["content-type"].startswith("image/svg+xml")
        assert b"<script" not in body
    more = json.loads(ask(app, f"/{KEY}/more?of={of}")[2])["html"]
    assert "Plan and marks" in more and "Cut list" in more


def test_a_file_that_is_no_toml(tmp_path):
    app = app_of(tmp_path / "job.toml", changed(("[gap]", "[gap"), text=STATED))
    body = ask(app, f"/{KEY}/")[2].decode()
    assert "cannot be read" in body and "PASS" not in body


def test_a_mistake_of_the_program_is_no_verdict(tmp_path, monkeypatch):
    app = app_of(tmp_path / "job.toml", STATED)
    now = state(app)

    def broken(case):
        raise RuntimeError("a mistake")

    monkeypatch.setattr("outrigger.page.desk.design", broken)
    with pytest.raises(RuntimeError):  # told to whoever serves, after the reply
        posted(app, "answer", now)


def test_host_is_that_of_the_address():
    """The address that is printed is the one that is let in."""
    assert HOST.startswith("127.0.0.1:")
