"""The page in a real browser: verdict, edits, cures, saving, what hostile text does, who can use
it."""

import json
import shutil
import tomllib
from pathlib import Path

import pytest
from pages import serving, watched
from sample_case import STATED, changed
from thorough import in_turn

HOSTILE = """<img src=x onerror="document.title='taken'">'"`{{ 7*7 }}</script><b>&amp;"""
EXAMPLES = Path(__file__).parents[2] / "examples"
LAYOUT = '\n[layout]\nrun = "16 ft"\ndatum = "north corner"\n'


@pytest.fixture
def job(tmp_path):
    return tmp_path / "job.toml"


def field(page, key):
    return page.locator(f'[data-key="{key}"]')


def answered(page, act):
    """Do something, and wait for the answer to it."""
    before = page.evaluate("document.body.dataset.answered")
    act()
    page.wait_for_function("(was) => document.body.dataset.answered !== was", arg=before)


def edit(page, key, value):
    """Type a value and leave its field."""

    def act():
        one = field(page, key)
        if one.evaluate("(one) => one.tagName") == "SELECT":
            one.select_option(value)
        else:
            one.fill(value)
            one.blur()

    answered(page, act)


def verdict(page):
    return page.inner_text("#verdict")


def fault(page, key):
    return page.inner_text(f"#{field(page, key).get_attribute('id')}-fault")


def test_first_verdict_and_edits(browser, job):
    """A gap that fails, a bad unit, an unknown size, a fraction, a deeper piece, a load emptied."""
    with serving(job, STATED) as address, watched(browser, address) as page:
        assert verdict(page).startswith("PASS")
        assert page.get_attribute("#verdict", "aria-live") == "polite"
        page.wait_for_function("() => document.querySelector('.drawing').naturalWidth > 300")
        edit(page, "gap.width", "10")
        assert verdict(page).startswith("FAIL: bending at the house wall")
        assert field(page, "gap.width").input_value() == "10 in"
        assert page.locator(".bars .fail b").first.inner_text() == "FAILS"
        edit(page, "gap.width", "12 parsecs")
        assert verdict(page).startswith("No verdict: 1 answer cannot be read")
        assert "not a length" in fault(page, "gap.width")
        assert field(page, "gap.width").get_attribute("aria-invalid") == "true"
        assert page.locator(".bars, .drawing").count() == 0
        edit(page, "gap.width", "7 1/2")
        assert verdict(page).startswith("PASS") and fault(page, "gap.width") == ""
        edit(page, "outrigger.size", "2x7")
        assert "no such size" in fault(page, "outrigger.size")
        edit(page, "outrigger.size", "2x8")
        assert verdict(page).startswith("PASS") and "2x8" in page.inner_text(".title")
        edit(page, "garage_roof.dead", "")
        assert verdict(page).startswith("OPEN: cannot say yet, roof dead load not given")
        page.click('.missing a[href="#f-garage-roof-dead"]')
        assert page.evaluate("document.activeElement.dataset.key") == "garage_roof.dead"
        assert float(page.get_attribute("body", "data-ms")) > 0


def test_a_verdict_does_not_outlive_its_inputs(browser, job):
    """As soon as a key is pressed it is gone; it stays gone where no answer comes."""
    with serving(job, STATED) as address:
        window = browser.new_context()
        page = window.new_page()
        page.goto(address)
        page.route("**/answer", lambda route: route.abort())
        field(page, "gap.width").press_sequentially("1")
        assert "no verdict yet" in verdict(page)
        assert page.is_disabled("#summary")
        page.wait_for_selector("#verdict:has-text('ended')")
        assert verdict(page).startswith("No verdict")
        assert page.inner_text("#answer").strip() == ""
        window.close()


def test_a_cure_is_pressed_saved_and_read_back(browser, job):
    with serving(job, STATED) as address, watched(browser, address) as page:
        edit(page, "gap.width", "10")
        page.wait_for_selector("button.cure")
        words = page.inner_text("button.cure")
        settings = json.loads(page.get_attribute("button.cure", "data-settings"))
        answered(page, lambda: page.click("button.cure"))
        assert verdict(page).startswith("PASS")
        assert page.inner_text("#said").startswith(f"Done: {words}.")
        assert "rev 0 changed" in page.inner_text("#answer")
        answered(page, lambda: page.click("#undo"))
        assert verdict(page).startswith("FAIL")
        page.wait_for_selector("button.cure")
        answered(page, lambda: page.click("button.cure"))
        answered(page, lambda: page.click("#save"))
        assert page.inner_text("#said") == "Saved as revision 1."
        assert page.is_disabled("#save")
        text = job.read_text(encoding="utf-8")
        name, _, value = settings[0].partition("=")
        table, _, key = name.partition(".")
        said = tomllib.loads(text)
        assert (str(said[table][key]), said["gap"]["width"]) == (value, "10 in")
        assert text.splitlines()[0] == STATED.splitlines()[0]  # its remarks are kept
        page.reload()
        assert verdict(page).startswith("PASS")
        assert field(page, "project.revision").input_value() == "1"


def test_a_change_made_elsewhere(browser, job):
    with serving(job, STATED) as address, watched(browser, address) as page:
        edit(page, "gap.width", "5")
        by_editor = changed(('width = "6 in"', 'width = "4 in"'), text=STATED)
        job.write_text(by_editor, encoding="utf-8")
        page.click("#save")
        page.wait_for_selector("#said:has-text('elsewhere')")
        assert job.read_text(encoding="utf-8") == by_editor
        page.on("dialog", lambda dialog: dialog.accept())  # what is not saved is asked about
        with page.expect_navigation():
            page.click("#reload")
        assert field(page, "gap.width").input_value() == "4 in"


def test_a_base_is_changed_while_the_page_stands_there(browser, tmp_path):
    """Its verdict is gone by itself; a field that is emptied has the base's value again."""
    shutil.copytree(EXAMPLES / "linden_row", tmp_path / "job")
    left, base = tmp_path / "job" / "left.toml", tmp_path / "job" / "job.toml"
    with serving(left) as address, watched(browser, address) as page:
        assert "pass" in verdict(page)
        about = f"#{field(page, 'gap.width').get_attribute('id')}-stands"
        assert page.inner_text(about) == "from job.toml"
        edit(page, "gap.width", "5")
        assert page.inner_text(about) == "stated in left.toml; job.toml says 6 in"
        edit(page, "gap.width", "")
        assert field(page, "gap.width").input_value() == "6 in"
        assert page.inner_text("#said").endswith("6 in, from job.toml.")
        text = base.read_text(encoding="utf-8")
        new = changed(('width = "6 in"', 'width = "16 in"'), text=text)
        answered(page, lambda: base.write_text(new, encoding="utf-8"))
        assert "fail" in verdict(page)
        assert field(page, "gap.width").input_value() == "16 in"
        assert page.inner_text("#said").startswith("job.toml has been changed")
        page.wait_for_timeout(2500)
        assert page.get_attribute("body", "data-answered") == "4"  # told once


def test_a_fresh_file_is_filled_in(browser, job):
    """Nothing is stated at first; what is asked first is enough for a case that is open."""
    answers = {
        "project.name": "Mine", "basis.loads": "ASCE 7-16", "gap.width": "4",
        "gap.garage_plate": "3 1/2", "gap.edge_bearing": "3", "outrigger.size": "2x6",
        "outrigger.species": "DF-L", "outrigger.grade": "#2", "outrigger.spacing": "16",
        "outrigger.back_span": "30", "garage_roof.span": "22",
    }  # fmt: skip
    with serving(job) as address, watched(browser, address) as page:
        assert verdict(page).startswith("Nothing is stated yet")
        assert "To begin" in page.inner_text("#answer")
        assert "how wide is it" in fault(page, "gap.width").lower()
        for key, value in answers.items():
            edit(page, key, value)
        assert verdict(page).startswith("OPEN: cannot say yet")
        assert not page.locator('[data-key="house_edge.size"]').is_visible()
        edit(page, "house_roof.edge_support", "blocking")
        assert page.locator('[data-key="house_edge.size"]').is_visible()
        answered(page, lambda: page.click("#save"))
        assert job.exists() and page.inner_text("#said") == "Saved."


def test_hostile_text_is_text(browser, job):
    """In every field that takes any words: nothing of it runs, nothing of it becomes markup."""
    with serving(job, STATED + LAYOUT) as address, watched(browser, address) as page:
        typed = """(text) => [...document.querySelectorAll('input[data-key]')]
            .filter((one) => !one.readOnly)
            .map((one) => {
              one.value = text;
              one.dispatchEvent(new Event("input", { bubbles: true }));
            }).length"""
        answered(page, lambda: page.evaluate(typed, HOSTILE))
        assert page.locator("img[src='x']").count() == 0
        assert page.title() == "job.toml: outriggers"
        assert verdict(page).startswith("No verdict")
        # the words alone that the file takes: its case is whole, and says them
        page.on("dialog", lambda dialog: dialog.accept())
        page.reload()
        for key in ("project.name", "project.address", "layout.datum", "house_roof.dead_source"):
            page.evaluate("document.querySelector('#rest').open = true")
            edit(page, key, HOSTILE)
        page.wait_for_selector("table.marks")
        assert page.inner_text("#job-heading") == HOSTILE
        assert HOSTILE in page.inner_text("#marks")
        assert page.locator("#answer img").count() == 2  # section and plan
        answered(page, lambda: page.click("#save"))
        assert tomllib.loads(job.read_text(encoding="utf-8"))["project"]["name"] == HOSTILE


SCREENS = [(1280, "light"), (390, "dark")]


@pytest.mark.parametrize(("screen", "gap"), in_turn(SCREENS, ["nonsense", "10"]))
def test_who_can_use_it(browser, job, screen, gap):
    """No finding of axe, wide and narrow, light and dark; nothing wider than the window."""
    width, scheme = screen
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe is not there")
    view = {"viewport": {"width": width, "height": 900}, "color_scheme": scheme}
    with serving(job, STATED + LAYOUT) as address, watched(browser, address, **view) as page:
        page.wait_for_selector("table.marks")
        page.evaluate("(open) => { document.querySelector('#rest').open = open }", width == 1280)
        edit(page, "gap.width", gap)
        found = axe.Axe().run(page).response["violations"]
        assert [(one["id"], one["nodes"][0]["html"][:200]) for one in found] == []
        assert page.evaluate("document.documentElement.scrollWidth") == width


def test_by_keyboard_alone(browser, job):
    """Tab goes through the file's buttons, the answer and every question in order; each shows that
    it has the focus; nothing holds it."""
    with serving(job, STATED) as address, watched(browser, address) as page:
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.className") == "skip"
        page.keyboard.press("Enter")
        seen = []
        for _ in range(400):
            page.keyboard.press("Tab")
            key = page.evaluate("document.activeElement.dataset.key")
            if key is None and seen and page.evaluate("document.activeElement.id") != "form":
                break
            if key:
                seen.append(key)
        else:
            raise AssertionError("the focus is held")
        order = page.evaluate(
            "[...document.querySelectorAll('[data-key]')].filter((one) => one.checkVisibility())"
            ".map((one) => one.dataset.key)"
        )
        assert seen == order and seen[0] == "project.name"
        field(page, "gap.width").focus()
        outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
        assert outline == "solid"
        before = page.evaluate("document.body.dataset.answered")
        page.keyboard.press("Control+A")
        page.keyboard.type("10")
        page.wait_for_function("(was) => document.body.dataset.answered !== was", arg=before)
        assert verdict(page).startswith("FAIL")


def test_the_summary_is_downloaded(browser, job):
    with serving(job, STATED) as address, watched(browser, address) as page:
        with page.expect_download() as waited:
            page.click("#summary")
        assert waited.value.suggested_filename == "job-summary.pdf"
        assert waited.value.path().read_bytes().startswith(b"%PDF")
        edit(page, "gap.width", "5")
        page.click("#summary")
        page.wait_for_selector("#said:has-text('Save first')")


def test_on_paper(browser, job):
    """Printed, the buttons are gone and the verdict stands there once, not on every screenful."""
    with serving(job, STATED) as address, watched(browser, address) as page:
        page.emulate_media(media="print")
        assert not page.is_visible("#save") and page.is_visible("#verdict")
        assert page.locator(".bars .what").first.is_visible()
        position = "getComputedStyle(document.querySelector('header')).position"
        assert page.evaluate(position) == "static"
