"""The calculation summary: read back from the PDF, worked out again, in three forms and on disk.

Four cases: everything passes, the clips fail, uplift without a tie, a rake in LRFD. Where a
calculation is done again, its formula is written here by hand and takes printed numbers only.
"""

import io
import re
import shutil
import subprocess
import unicodedata
from functools import cached_property
from pathlib import Path

import pypdf
import pytest
from msgspec.structs import replace
from thorough import THOROUGH

from outrigger.cases.read import parse, read_case, read_text
from outrigger.cli.common import SAMPLE_FILE
from outrigger.formula.text import line
from outrigger.report import verdict_words, words
from outrigger.report.summary import build as summary
from outrigger.report.summary.attached import attached
from outrigger.report.summary.unfactored import short
from outrigger.report.write import html as write_html
from outrigger.report.write import markdown as write_markdown
from outrigger.report.write import pdf as write_pdf
from outrigger.report.write import typeset
from outrigger.studies import curves as worked
from outrigger.studies.for_summary import findings
from outrigger.verdict import notes
from outrigger.verdict.design import design

EXAMPLES = Path(__file__).parents[2] / "examples"
FOUR = {
    "pass": ("passes", []),
    "clips": ("clip_listed_for_wind", []),
    "no tie": ("uplift_without_edge_tie", []),
    "rake": ("slope_across_the_rake", ["basis.method=LRFD"]),
}
VERDICTS = {"pass": "PASS", "clips": "FAIL", "no tie": "FAIL", "rake": None}
ALL = sorted(path.stem for path in EXAMPLES.glob("*.toml"))
SHORT = ["layout.run=8 ft",
         'layout.openings=[{ from = "3 ft", to = "4 ft", header = "by others" }]']  # fmt: skip
SHORTER = {"short plan": ("marks_on_the_plate", SHORT)}  # of a third of its run
# what prints otherwise than others: the four, what is open, the sample, a plan, bent clips, a
# row of three supports
KINDS = [*FOUR, "open_first_sketch", "sample", "short plan", "bent_clips_into_rafters",
         "row_of_clips"]  # fmt: skip


class Made:
    """A case with its document, its PDF and the text of each page."""

    def __init__(self, path, settings=(), sample=False):
        self.path = path
        case, overrides = read_case(path, settings)
        self.design = design(case)
        text = read_text(path)
        self.given = summary.Called(text, parse(text, path.name), sample, overrides)
        self.small = {}

    @cached_property
    def document(self):
        return summary.build(findings(self.design), self.given)

    @cached_property
    def pdf(self):
        return write_pdf.pdf(self.document)

    @cached_property
    def reader(self):
        return pypdf.PdfReader(io.BytesIO(self.pdf))

    def page(self, number):
        """The text of a page; what is set small on it is kept."""
        small = self.small[number] = []

        def visit(text, _, matrix, __, size):
            height = abs(size * matrix[3])
            if 0 < height < 8.9:
                small.append(text.strip())

        return plain(self.reader.pages[number - 1].extract_text(visitor_text=visit))

    @cached_property
    def pages(self):
        return [self.page(number) for number in range(1, len(self.reader.pages) + 1)]

    @cached_property
    def text(self):
        return "\n".join(self.pages)


def plain(text):
    """Letters of mathematics as letters; lines and blanks as one blank."""
    return " ".join(unicodedata.normalize("NFKC", text).replace("\u200b", "").split())


MADE = {}


def made(name):
    if name not in MADE:
        stem, settings = {**FOUR, **SHORTER}.get(name, (name, []))
        path = SAMPLE_FILE if name == "sample" else EXAMPLES / f"{stem}.toml"
        MADE[name] = Made(path, settings, name == "sample")
    return MADE[name]


each_of_four = pytest.mark.parametrize("name", FOUR)

N = r"(−?[\d,]+(?:\.\d+)?)"


def amount(text):
    return float(text.replace(",", "").replace("−", "-"))


def half(text):
    """Half a unit of the last printed digit."""
    return 0.5 * 10.0 ** -len(text.partition(".")[2])


def found(name, pattern):
    """The printed numbers of the first line that fits, as text."""
    match = re.search(pattern.replace("#", N), made(name).text)
    assert match, pattern
    return match.groups()


# a line as the extracted text prints it, and its arithmetic by hand
BY_HAND = {
    "roof load": (r"Dead # psf × # ft / 2 # ", lambda q, L: q * L / 2),
    "share": (r"Dead [\d.]+ psf × [\d.]+ ft / 2 # # ft #", lambda w, s: w * s),
    "wall": (r"Dead # psf × # ft [\d.]+ # ft #", lambda q, h, s: q * h * s),
    "section": (r"A = b × d = # × # = # in", lambda b, d: b * d),
    "bending stress": (r"f ?b1? = M S = # # = # psi", lambda M, S: M / S),
    "slenderness": (r"d = # in, b = # in,[\s\S]{0,400}? l ?e in #(?: [\d.]+)* R ?B #",
                    lambda d, b, le: (le * d) ** 0.5 / b),
    "shear stress": (r"f ?v(?: ?,square)? = 3 × V 2 × b × d = 3 × # 2 × # × # = # psi",
                     lambda V, b, d: 3 * V / (2 * b * d)),
    "crushing": (r"f ?c⊥ = R b × l ?b = # # × # = # psi", lambda R, b, length: R / (b * length)),
    "creep": (r"Δ ?T = K ?cr × Δ ?LT \+ Δ ?ST = # × # \+ # = # in", lambda k, a, b: k * a + b),
    "limit of droop": (r"Δ ?limit = l n = # # = # in", lambda span, n: span / n),
    "per clip": (r"T ?clip = T n ?clips = # # = # lb", lambda T, n: T / n),
    "true E": (r"E ?true = 1\.03 × E ?′ = 1\.03 × # = # psi", lambda E: 1.03 * E),
}  # fmt: skip


@each_of_four
@pytest.mark.parametrize("what", BY_HAND)
def test_a_printed_calculation_can_be_done_again(name, what):
    """Twelve lines of each case; each number within half a unit of its last digit."""
    pattern, arithmetic = BY_HAND[what]
    *texts, result = found(name, pattern)
    numbers = [amount(text) for text in texts]
    exact = arithmetic(*numbers)
    carried = sum(
        abs(arithmetic(*(n + half(t) if i == j else n for j, n in enumerate(numbers))) - exact)
        for i, t in enumerate(texts)
        if "." in t
    )
    # five digits are printed of each number put in: what they carry comes on top
    assert amount(result) == pytest.approx(exact, abs=half(result) + 1.01 * carried)


@each_of_four
def test_every_ratio_of_the_second_page_is_load_over_limit(name):
    """From the printed load and limit alone."""
    rows = re.findall(rf"{N}( psi| lb| in|) {N}\2 (\d+\.\d\d)", made(name).pages[1])
    assert len(rows) >= 2
    for load, _, limit, used in rows:
        exact = amount(load) / amount(limit)
        carried = exact * (half(load) / max(amount(load), half(load)) + half(limit) / amount(limit))
        assert float(used) == pytest.approx(exact, abs=0.005 + carried)


@each_of_four
def test_each_page_says_which_and_of_how_many(name):
    one = made(name)
    count = len(one.pages)
    digest = words.digest(one.design.case.digest)
    for number, text in enumerate(one.pages, 1):
        assert f"page {number} of {count}" in text
        assert digest in text and "rev 0" in text
        assert ("preliminary until adopted, see cover" in text) == (number > 1)
        assert one.design.case.project.name in text


@pytest.mark.parametrize("name", [*ALL, "sample"] if THOROUGH else KINDS)
def test_two_pages_stand_alone(name):
    """What an engineer signs by, whatever the case: one of each kind, or all. Beside a rake, where
    most is handed over, the questions may run on to the third."""
    one = made(name)
    second = one.page(2)
    if one.design.shape.tilt.way == "across":
        second += one.page(3)
    assert "Not permission to build" in second and "Load path" in second
    assert "Loads handed to the house" in second and "Not checked here" in second
    assert "Copy to the plans" in second and "Questions for the engineer" in second


@each_of_four
def test_the_cover(name):
    one = made(name)
    cover = one.pages[0]
    said = "PRELIMINARY: not for construction, bidding or permit until adopted by the engineer of"
    assert f"{said} record" in cover
    assert "adopted by" in cover and "license" in cover and "date" in cover
    assert plain(verdict_words.verdict_line(one.design)) in cover
    if VERDICTS[name]:
        assert VERDICTS[name] in cover
    for editions in ("ASCE 7-16", "NDS 2018", one.design.case.basis.method):
        assert editions in cover


def test_an_open_case_says_what_is_missing_and_who_has_it():
    one = made("open_first_sketch")
    first = one.design.not_given[0]
    assert "OPEN" in one.pages[0]
    assert plain(f"{first.key}: {first.question} Ask: {first.who}.") in one.pages[0]
    for missing in one.design.not_given:
        assert plain(missing.key) in one.text and missing.who in one.text


@each_of_four
def test_every_check_of_the_data_is_in_the_document(name):
    """Its arithmetic where it is used half or more, that of a clip from a tenth; else its place and
    name in a table."""
    one = made(name)
    most = {}
    for row in one.design.rows:
        if row.demand:
            most[row.id] = max(most.get(row.id, 0.0), row.ratio or 0.0)
            assert plain(words.what(row, engineers=True)) in one.text, row
    for check, used in most.items():
        if used >= (0.1 if check.startswith(("hold_down", "wall_tie")) else 0.5):
            assert re.search(rf"id {re.escape(check)}\b", one.text), check


@pytest.mark.parametrize("name", ALL)
def test_every_line_of_arithmetic_gives_its_value(name):
    """Each step of every example: what the formula makes of the printed inputs is the value, or
    the line says what was taken instead."""
    for check in made(name).design.checks:
        for top in check.steps:
            for step in top.chain():
                if step.formula is not None and step.taken(check.element()) is not None:
                    assert "taken as" in line(step, check.element())


@pytest.mark.parametrize("name", [*ALL, "sample"])
def test_the_beam_in_exact_fractions_agrees(name):
    """sympy's solution, another method, of every example: reactions, moment, droop."""
    one = made(name).design
    rows = worked.independent(one, worked.curves(one))
    assert len(rows) >= 4
    assert all(row.off < 1e-9 for row in rows)


def test_the_same_case_gives_the_same_bytes():
    one = made("pass")
    again = Made(one.path)
    assert again.pdf == one.pdf
    assert write_html.html(again.document) == write_html.html(one.document)
    assert write_markdown.markdown(again.document) == write_markdown.markdown(one.document)


@each_of_four
def test_the_pdf_is_tagged_named_and_has_bookmarks(name):
    root = made(name).reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"] and "/StructTreeRoot" in root
    assert root["/Lang"] == "en"
    assert b"<pdfuaid:part>1</pdfuaid:part>" in made(name).pdf  # held to PDF/UA-1 as it was made
    assert made(name).reader.metadata["/Title"].startswith("Outrigger calculation summary, ")
    titles = str(made(name).reader.outline)
    assert (
        "On one outrigger, unfactored" in titles
        and "The checks that govern" in titles
        and "Bending at the house wall" in titles
    )
    alts = set()

    def walk(node):
        node = node.get_object()
        if isinstance(node, list):
            for child in node:
                walk(child)
        elif isinstance(node, dict):
            if node.get("/S") in ("/Figure", "/Formula"):
                assert node.get("/Alt"), node
                alts.add(node["/S"])
            if "/K" in node:
                walk(node["/K"])

    walk(root["/StructTreeRoot"]["/K"])
    assert alts == {"/Figure", "/Formula"}


@each_of_four
def test_no_text_is_smaller_than_nine_points(name):
    """But subscripts, superscripts and the drawings' own scale."""
    small, apart = made(name).small, (1, *drawn_pages(name))
    assert len(small) == len(made(name).pages) > len(apart)
    found = [one for number, texts in small.items() if number not in apart for one in texts]
    assert any(found)  # subscripts, of one word each
    assert not [one for one in found if " " in one]


def drawn_pages(name):
    return [n for n, text in enumerate(made(name).pages, 1) if "shear, lb" in text]


def test_the_case_travels_in_the_pdf():
    one = made("clips")
    text, results = attached(one.pdf, "out.pdf")
    assert text.strip() == one.given.text.strip()
    assert one.reader.attachments["case.toml"][0].decode().strip() == one.given.text.strip()
    assert results["verdict"] == "fail"


def test_bold_text_in_markdown_opens_and_closes_at_letters():
    """Marks beside a blank on their inner side are printed as asterisks (CommonMark 6.2)."""
    for name in (*FOUR, "sample", "open_first_sketch"):
        said = write_markdown.markdown(made(name).document)
        for row in said.splitlines():
            marks = re.split(r"(?<!\\)\*\*", re.sub(r"`[^`]*`", "", row))
            assert len(marks) % 2 == 1, row
            for inside, behind in zip(marks[1::2], marks[2::2], strict=True):
                assert inside and inside == inside.strip(), row
                assert inside[-1].isalnum() or not behind[:1].isalnum(), row


def test_a_symbol_at_the_start_of_a_line_keeps_its_letters():
    """p is a load in psf and P a force in lb, h a height: what is asked names what was used."""
    one = made("sample")
    asked = notes.unverified(one.design)
    assert any(text[0].islower() for text in asked)
    texts = [item for section in one.document.sections for block in section.blocks
             for item in getattr(block, "items", ())]  # fmt: skip
    for text in asked:
        assert text in texts


NASTY = {
    "typst": "# $x^2$ *bold* _under_ #eval(\"1\") \\ [a] `b` @ref <label> // no",
    "html": "<script>alert(1)</script> & \"quotes\" 'single' </title>",
    "markdown": "| a | b | [link](http://x) ![i](y) ~~z~~ 1. one - two",
    "lines": "first\nsecond\r\n\tthird",
    "emoji": "roof \N{HOUSE BUILDING} and \N{GRINNING FACE}",
    "right to left": "\u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627 end",
    "turned": "abc \u202e fed",
    "long": "Long name " * 1000,
    "unbroken": "x" * 10_000,
}  # fmt: skip


def squeeze(text):
    """A text without blanks, so that it matters not where its lines end."""
    return re.sub(r"\s|\u200b", "", unicodedata.normalize("NFKC", text))


@pytest.fixture(scope="module")
def studied():
    """What is found of the case whose name is changed: the name is no number of it."""
    return findings(design(read_case(EXAMPLES / "passes.toml")[0]))


@pytest.mark.parametrize("kind", NASTY)
def test_text_comes_out_as_text(kind, studied):
    """The name of a job, as it is, in all three; nothing of it becomes markup."""
    name = NASTY[kind]
    case = studied.design.case
    case = case.model_copy(update={"project": case.project.model_copy(update={"name": name})})
    document = summary.build(replace(studied, design=design(case)), made("pass").given)
    wanted = words.printable(name)

    made_pdf = write_pdf.pdf(document)
    feet = [squeeze(typeset.printed(foot)) for foot in (document.foot, document.cover_foot)]
    expected, squeezed = squeeze(typeset.printed(wanted)), ""
    for page in pypdf.PdfReader(io.BytesIO(made_pdf)).pages[:6]:
        text = squeeze(page.extract_text())
        squeezed += re.sub(rf"({'|'.join(map(re.escape, feet))})page\d+of\d+$", "", text)
        if expected in squeezed:
            break
    if kind == "right to left":  # extracted in the order of sight or of sound
        assert set(expected) <= set(squeezed)
    else:
        assert expected in squeezed

    page = write_html.html(document)
    assert page.count("<script") == 0
    assert str(write_html.text(wanted)) in page
    pasted = write_markdown.markdown(document)
    assert write_markdown.text(wanted) in pasted
    assert "\n| project |" in pasted and "<script" not in pasted


def test_a_character_without_a_glyph_prints_its_name():
    assert typeset.printed("a \N{HOUSE BUILDING}") == "a [house building]"
    assert typeset.printed("Δ ½ é") == "Δ ½ é"


def test_html_asks_for_nothing_and_runs_nothing():
    page = write_html.html(made("rake").document)
    assert "default-src 'none'" in page
    assert not re.search(r"<script|<link|<iframe|javascript:|@import|url\(", page)
    outside = re.findall(r'(?:src|href)="([^"]*)"', page)
    assert outside and all(o.startswith(("#", "data:image/svg+xml;base64,")) for o in outside)
    assert page.count("<math") > 100 and "<mfrac>" in page


def test_html_in_a_browser(tmp_path):
    """Chromium, headless: no console error, and the formulas have a size."""
    browser = next(
        (b for b in ("chromium", "chromium-browser", "google-chrome") if shutil.which(b)), None
    )
    if browser is None:
        pytest.skip("no Chromium on this machine: install the package chromium to run this")
    page = write_html.html(made("rake").document)
    path = tmp_path / "out.html"
    path.write_text(page, encoding="utf-8")
    flags = ["--headless", "--no-sandbox", "--disable-gpu", "--enable-logging=stderr", "--v=0"]
    flags += ["--no-first-run", "--disable-background-networking", "--disable-sync"]
    done = subprocess.run(
        [browser, *flags, "--dump-dom", path.as_uri()], capture_output=True, text=True, timeout=120
    )
    assert done.returncode == 0
    assert "CONSOLE" not in done.stderr
    assert done.stdout.count("<math") == page.count("<math")
    # laid out: a copy that may run a script writes down the size of its fractions and formulas
    measured = re.sub(r"<meta http-equiv[^>]*>", "", page).replace("</body>", f"{MEASURE}</body>")
    path.write_text(measured, encoding="utf-8")
    done = subprocess.run(
        [browser, *flags, "--dump-dom", path.as_uri()], capture_output=True, text=True, timeout=120
    )
    sizes = re.search(r'data-sizes="(\d+) (\d+) (\d+) (\d+)"', done.stdout)
    fractions, least_fraction, least_formula, over = map(int, sizes.groups())
    assert fractions == page.count("<mfrac>")
    assert least_fraction >= 20 and least_formula >= 5  # pixels: a fraction is two lines high
    assert over == 0  # nothing is wider than the page


MEASURE = """<script>
const high = (what) => [...document.querySelectorAll(what)].map(
  (one) => Math.floor(one.getBoundingClientRect().height));
const wide = [...document.querySelectorAll("math, table, img")].filter(
  (one) => one.getBoundingClientRect().right > document.body.getBoundingClientRect().right + 1);
document.body.dataset.sizes = [high("mfrac").length, Math.min(...high("mfrac")),
  Math.min(...high("math")), wide.length].join(" ");
</script>"""


def test_the_command(run, tmp_path):
    case = str(EXAMPLES / "clip_listed_for_wind.toml")
    out = tmp_path / "out.pdf"
    done = run("summary", case, "-o", str(out))
    assert done.returncode == 1 and "SAMPLE: fail" in done.stdout and "written" in done.stdout
    first = out.read_bytes()
    done = run("summary", case, "-o", str(out))
    assert done.returncode == 2 and "--overwrite" in done.stderr and out.read_bytes() == first
    done = run("summary", case, "gap=5in", "-o", str(out), "--overwrite", "--since", case)
    status = run("check", case, "gap=5in").returncode
    assert done.returncode == status and out.read_bytes() != first
    text = plain("".join(page.extract_text() for page in pypdf.PdfReader(out).pages))
    assert "Set on the command line: gap 5 in, file says 6 in." in text
    assert "gap.width 6 in 5 in" in text and "Verdict: FAIL before" in text
    done = run("summary", "--again", str(out))
    assert done.returncode == 0 and "Same" in done.stdout
    assert [path.name for path in tmp_path.iterdir()] == ["out.pdf"]


@pytest.mark.parametrize(
    ("words_given", "said"),
    [
        ([], "Add -o out.pdf"),
        (["-o", "out.docx"], ".pdf, .html, .md"),
        (["-o", "nowhere/out.pdf"], "no such folder"),
        (["-o", "out.pdf", "--paper", "a3"], "letter, a4"),
        (["-o", "out.pdf", "--since", "missing.toml"], "missing.toml: no such file"),
    ],
)
def test_faults_name_the_fix(run, words_given, said, tmp_path):
    done = run("summary", EXAMPLES / "passes.toml", *words_given, folder=tmp_path)
    assert done.returncode == 2 and said in " ".join(done.stderr.split())
    assert not list(tmp_path.iterdir())


def test_the_sample_says_so_on_every_page(tmp_path):
    for page in made("sample").pages:
        assert "SAMPLE, not your job" in page
    assert "SAMPLE: pass" in made("sample").pages[0]
    for text in (write_html.html(made("sample").document),
                 write_markdown.markdown(made("sample").document)):  # fmt: skip
        assert text.count("SAMPLE, not your job") == 2


def test_a_list_in_two_columns_is_marked_so_that_a_phone_stacks_it():
    """The design loads alone: their head is the same twice."""
    (table,) = re.findall(r'<table class="pairs"[^>]*>', write_html.html(made("pass").document))
    assert "in two columns" in table


def test_a_small_number_of_the_table_of_loads_has_no_idle_digits():
    """-0.0091593 thousandths of an inch prints as -0.009, -0.88263 lb as -0.8826; of a large one
    nothing is rounded before its five digits are."""
    assert (short(-0.0091593, 3), short(-0.88263, 4)) == (-0.009, -0.8826)
    assert (short(30.57053, 4), short(111.29961, 3)) == (30.57053, 111.29961)


def test_a4_is_a4():
    box = pypdf.PdfReader(io.BytesIO(write_pdf.pdf(made("pass").document, "a4"))).pages[0].mediabox
    assert (round(float(box.width)), round(float(box.height))) == (595, 842)  # 210 x 297 mm
    box = made("pass").reader.pages[0].mediabox
    assert (float(box.width), float(box.height)) == (612, 792)  # 8 1/2 x 11 in


@pytest.mark.parametrize("kind", ["md", "html", "pdf"])
def test_no_text_of_the_file_steers_the_page(run, tmp_path, kind):
    """Where a listing was found stands beside its value, in words of the file: a control sequence
    of a terminal and a turn of the direction of reading are written out."""
    text = (EXAMPLES / "passes.toml").read_text(encoding="utf-8")
    hostile = r'rated_source = "sheet \\u009b31m\\u202eevil\\u007f"'
    text, found = re.subn(r'(?m)^rated_source = ".*"', hostile, text)
    assert found
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    run("summary", "job.toml", "-o", f"out.{kind}", folder=tmp_path)
    made = tmp_path / f"out.{kind}"
    if kind == "pdf":
        page = "".join(one.extract_text() for one in pypdf.PdfReader(made).pages)
    else:
        page = made.read_text(encoding="utf-8")
    assert "\\u009b31m\\u202eevil\\u007f" in squeeze(page)
    assert not re.search("[\x7f-\x9f\u202a-\u202e]", page)
