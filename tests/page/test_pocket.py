"""The page of gaps for a phone: one small file, with script and without."""

import json
import re
from html import unescape
from pathlib import Path

import pytest
from sample_case import STATED, changed

from outrigger.cases.read import read_case
from outrigger.report import verdict_words
from outrigger.verdict.design import design

ROOT = Path(__file__).parents[2]
FEW = ("--from", "4 in", "--to", "12 in", "--step", "4 in")
HOSTILE = "<img src=x onerror=alert(1)></script><script>document.title='taken'</script>"


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(STATED, encoding="utf-8")
    return path


def test_one_small_file(run, job, tmp_path):
    out = tmp_path / "gap.html"
    done = run("gap", job, "--pocket", out)
    assert done.returncode == 0
    text = unescape(out.read_text(encoding="utf-8"))
    assert len(text.encode()) < 60_000
    assert not re.search(r'(?:src|href)="', text) and "http://" not in text.replace(
        "http://www.w3.org/2000/svg", ""
    )
    assert "default-src 'none'" in text and "unsafe-" not in text
    again = run("gap", job, "--pocket", out)
    assert again.returncode == 2 and "there already" in again.stderr.replace("\n", " ")


def test_the_gap_of_the_case_is_a_stop(run, job, tmp_path):
    """At 16 in the north run fails, 1.03; a page of 2 to 12 in alone would begin with a pass."""
    rake = ROOT / "examples" / "linden_row" / "rake.toml"
    done = run("gap", rake, "--pocket", tmp_path / "p.html")
    assert done.returncode == 0
    text = (tmp_path / "p.html").read_text("utf-8")
    data = json.loads(re.search(r'id="data">(.*?)</script>', text, re.DOTALL)[1])
    assert [one["gap"] for one in data["gaps"]][-2:] == ["12 in", "16 in"]
    assert data["gaps"][-1]["status"] == "fail"
    assert f'max="{len(data["gaps"]) - 1}" step="1" value="{len(data["gaps"]) - 1}"' in text


def test_too_many_gaps(run, job, tmp_path, monkeypatch):
    monkeypatch.setattr("outrigger.page.pocket.LARGEST", 3_000)
    done = run("gap", job, *FEW, "--pocket", tmp_path / "gap.html")
    assert done.returncode == 2 and "Take a larger --step" in " ".join(done.stderr.split())
    assert not (tmp_path / "gap.html").exists()


def test_what_is_missing_is_no_answer(run, job, tmp_path):
    """Without snow it cannot say, at no gap."""
    text = re.sub(r"(?m)^ground = .*$", "", STATED)
    job.write_text(text, encoding="utf-8")
    run("gap", job, *FEW, "--pocket", tmp_path / "gap.html")
    page = (tmp_path / "gap.html").read_text(encoding="utf-8")
    assert "CANNOT SAY" in page and "works</td>" not in page


@pytest.fixture(scope="module")
def phone(run, tmp_path_factory):
    """A case with a hostile name, and its page."""
    folder = tmp_path_factory.mktemp("phone")
    job, out = folder / "job.toml", folder / "gap.html"
    job.write_text(changed(('name = "', f'name = "{HOSTILE} '), text=STATED), encoding="utf-8")
    run("gap", job, *FEW, "--pocket", out)
    return job, out


def test_on_a_phone_without_a_network(browser, phone):
    """Each stop says what `check` says at that gap; hostile names are text."""
    job, out = phone
    window = browser.new_context(viewport={"width": 390, "height": 800}, offline=True)
    page, wrong = window.new_page(), []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text))
    page.goto(out.as_uri())
    assert page.inner_text("#gap") == "6 in"
    assert HOSTILE in page.inner_text("h1") and page.title().startswith("<img")
    for stop, gap in ((0, "4 in"), (1, "6 in"), (2, "8 in"), (3, "12 in")):
        page.fill("#slider", str(stop))
        assert page.inner_text("#gap") == gap
        case, _ = read_case(job, [f"gap={gap}"])
        assert page.inner_text("#verdict") == verdict_words.verdict_line(design(case))
    assert page.locator("#drawing polygon").count() == 8  # six areas and two clips
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    assert wrong == []
    window.close()


def test_without_script_the_table_shows(browser, phone):
    window = browser.new_context(java_script_enabled=False, offline=True)
    page = window.new_page()
    page.goto(phone[1].as_uri())
    assert page.locator("tbody tr").count() == 4  # 6 in, as the case stands, among them
    assert page.is_visible("table") and not page.is_visible("#slider")
    window.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_who_can_use_it(browser, phone, scheme):
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe is not there")
    window = browser.new_context(viewport={"width": 390, "height": 800}, color_scheme=scheme)
    page = window.new_page()
    page.goto(phone[1].as_uri())
    page.fill("#slider", "2")
    page.evaluate("document.querySelector('#all').open = true")
    found = axe.Axe().run(page).response["violations"]
    assert [(one["id"], one["nodes"][0]["html"][:200]) for one in found] == []
    window.close()


def stops(run, tmp_path, name, text, *settings):
    """The stops of a page, and its texts."""
    job, out = tmp_path / "job.toml", tmp_path / "gap.html"
    job.write_text((ROOT / "examples" / f"{name}.toml").read_text("utf-8") + text, "utf-8")
    assert run("gap", job, *settings, *FEW, "--pocket", out).returncode == 0
    found = re.search(r'id="data">(.*?)</script>', out.read_text("utf-8"), re.DOTALL)
    data = json.loads(found[1])
    return data["gaps"], data["texts"]


def test_what_other_marks_use_more_of_is_told(run, tmp_path):
    """Beside mark 4, which bends the most, the end mark uses the most of the house rafter."""
    gaps, _ = stops(run, tmp_path, "rafters_and_studs", '\n[layout]\nrun = "20 ft"\n')
    assert any("Rows are of mark" in said and "house rafter" in said for said in gaps[0]["needs"])


def test_a_short_back_span_is_told_once(run, tmp_path):
    """20 in beside an arm of 4 + 3.75 in: less than three times 7 3/4 in."""
    gaps, texts = stops(run, tmp_path, "passes", "", "back_span=20in",
                        "house_roof.framing_spacing=20in")  # fmt: skip
    said = [texts[i] for i in gaps[0]["cautions"]]
    assert [one.startswith("The back span, 20 in, is less than three times") for one in said] == [
        True
    ]
