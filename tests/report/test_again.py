"""`summary --again`: the case inside a PDF gives the results inside; what PDFs are made to say."""

import io
import json
import re
import time
import zlib
from functools import cache
from pathlib import Path

import pypdf
import pytest
from pypdf.generic import (
    ArrayObject,
    DecodedStreamObject,
    DictionaryObject,
    NameObject,
    StreamObject,
    TextStringObject,
)

from outrigger.base.errors import InputError
from outrigger.report.summary import attached as inside
from outrigger.report.summary.again import compared
from outrigger.report.summary.attached import attached, carried
from outrigger.studies import for_summary

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.fixture(scope="module")
def summaries(tmp_path_factory):
    """A PDF that passes and one that fails."""
    from running import run

    folder = tmp_path_factory.mktemp("summaries")
    for name, case in (("pass", "passes"), ("fail", "clip_listed_for_wind")):
        run("summary", EXAMPLES / f"{case}.toml", "-o", folder / f"{name}.pdf")
    return {name: (folder / f"{name}.pdf").read_bytes() for name in ("pass", "fail")}


@pytest.fixture
def asked(tmp_path):
    """Says of some bytes, as of a file job.pdf."""

    def ask(pdf):
        path = tmp_path / "job.pdf"
        path.write_bytes(pdf)
        text, before = carried(path)
        return compared(path.name, before, for_summary.again(text, f"case in {path.name}"))

    return ask


def digest_of(pdf):
    """The digest that the pages print, in groups of four."""
    foot = pypdf.PdfReader(io.BytesIO(pdf)).pages[1].extract_text()
    return re.search(r"case ((?:[0-9a-f]{4} ){2}[0-9a-f]{4})", " ".join(foot.split()))[1]


def holding(*given, pages=None, kind=None):
    """A PDF with files attached: name and bytes of each."""
    writer = pypdf.PdfWriter()
    if pages is not None:
        writer.append(io.BytesIO(pages), import_outline=False)
    else:
        writer.add_blank_page(72, 72)
    names = ArrayObject()
    for name, data in given:
        stream = data if isinstance(data, StreamObject) else DecodedStreamObject()
        if stream is not data:
            stream.set_data(data)
        stream[NameObject("/Type")] = NameObject("/EmbeddedFile")
        if kind:
            stream[NameObject("/Subtype")] = NameObject(kind)
        reference = writer._add_object(stream)
        filed = DictionaryObject()
        filed[NameObject("/F")] = filed[NameObject("/UF")] = TextStringObject(name)
        filed[NameObject("/Type")] = NameObject("/Filespec")
        filed[NameObject("/EF")] = DictionaryObject({NameObject("/F"): reference})
        names += [TextStringObject(name), writer._add_object(filed)]
    files = DictionaryObject({NameObject("/Names"): names})
    root = writer._root_object
    root[NameObject("/Names")] = DictionaryObject({NameObject("/EmbeddedFiles"): files})
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def parts(pdf):
    """The two files in a summary."""
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    return [(name, reader.attachments[name][0]) for name in ("case.toml", "result.json")]


@cache  # of a gigabyte two seconds
def packed(size, letter):
    """So many bytes of one letter, packed."""
    packer = zlib.compressobj(9)
    parts = [packer.compress(letter * 2**20) for _ in range(size // 2**20)]
    return b"".join([*parts, packer.flush()])


def deflated(size, letter=b" "):
    """A stream that unpacks to so many bytes."""
    stream = StreamObject()
    stream._data = packed(size, letter)
    stream[NameObject("/Filter")] = NameObject("/FlateDecode")
    return stream


# What it says


@pytest.mark.parametrize("name", ["pass", "fail"])
def test_the_case_inside_gives_the_results_inside(summaries, asked, name):
    """And the digest of the pages, for the reader to compare; of the pages it says nothing."""
    same, text = asked(summaries[name])
    assert same
    assert f"job.pdf: case {digest_of(summaries[name])}\n" in text
    assert "Same: the case inside gives the results inside" in text and f"SAMPLE: {name}." in text
    assert "pages are not read" in text and "foot of each page" in text
    assert "as printed" not in text


def test_what_differs_is_said(summaries, asked):
    case, (name, results) = parts(summaries["pass"])
    other = results.replace(b'"verdict": "pass"', b'"verdict": "fail"')
    assert other != results
    same, text = asked(holding(case, (name, other)))
    assert not same and "verdict: was fail, is pass" in text


def test_pages_of_another_job(summaries, asked):
    """The pages of a failing summary around the files of a passing one: the digest tells."""
    pdf = holding(*parts(summaries["pass"]), pages=summaries["fail"])
    _, text = asked(pdf)
    assert f"case {digest_of(summaries['pass'])}" in text
    assert digest_of(pdf) == digest_of(summaries["fail"]) not in text


def test_files_that_only_stand_among_the_bytes(summaries, asked):
    """The files of a passing summary behind the end of a failing one: no reader lists them."""
    found = re.findall(
        rb"\d+ \d+ obj\s*<<(?:(?!endobj).)*?/Type\s*/EmbeddedFile.*?endobj",
        summaries["pass"], re.S,
    )  # fmt: skip
    assert len(found) == 2
    same, text = asked(summaries["fail"] + b"\n".join(found))
    assert same and "SAMPLE: fail." in text and digest_of(summaries["fail"]) in text


def test_a_rewritten_copy_is_as_good(summaries, asked):
    """By another program: other objects, nothing compressed, or all in streams of objects."""
    for plain in (True, False):
        writer = pypdf.PdfWriter(clone_from=io.BytesIO(summaries["fail"]))
        for page in writer.pages if plain else ():
            page.compress_content_streams()
        out = io.BytesIO()
        writer.write(out)
        same, text = asked(out.getvalue())
        assert same and "SAMPLE: fail." in text


@pytest.mark.parametrize("way", ["RC4-128", "AES-128", "AES-256"])
def test_a_sealed_copy_gives_its_case_back(summaries, asked, way):
    """Encrypted against changes, as sealed sets are: it opens without a password."""
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(summaries["pass"]))
    writer.encrypt("", "the owner's", algorithm=way)
    out = io.BytesIO()
    writer.write(out)
    same, text = asked(out.getvalue())
    assert same and "SAMPLE: pass." in text


def test_a_copy_with_a_password_is_refused(summaries, asked):
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(summaries["pass"]))
    writer.encrypt("secret", algorithm="AES-128")
    out = io.BytesIO()
    writer.write(out)
    with pytest.raises(InputError, match=r"encrypted\. Name a copy that opens"):
        asked(out.getvalue())


# Two of a kind


@pytest.mark.parametrize("name", ["case.toml", "other.toml", "result.json", "notes.json", "a.TOML"])
@pytest.mark.parametrize("before", [True, False])
def test_two_of_a_kind_are_refused(summaries, asked, name, before):
    own = parts(summaries["fail"])
    other = dict(parts(summaries["pass"]))["result.json" if "json" in name else "case.toml"]
    given = [(name, other), *own] if before else [*own, (name, other)]
    with pytest.raises(InputError, match="two files of the kind"):
        asked(holding(*given))


def test_a_file_that_is_two_to_two_readers(summaries, asked):
    """One entry with a stream for each of its names."""
    pdf = pypdf.PdfWriter(clone_from=io.BytesIO(holding(*parts(summaries["fail"]))))
    names = pdf._root_object["/Names"]["/EmbeddedFiles"]["/Names"]
    other = DecodedStreamObject()
    other.set_data(dict(parts(summaries["pass"]))["case.toml"])
    other[NameObject("/Type")] = NameObject("/EmbeddedFile")
    names[1].get_object()["/EF"][NameObject("/UF")] = pdf._add_object(other)
    out = io.BytesIO()
    pdf.write(out)
    with pytest.raises(InputError, match="two files of the kind"):
        asked(out.getvalue())


def test_a_drawing_beside_them_does_not_matter(summaries, asked):
    assert asked(holding(*parts(summaries["pass"]), ("plan.svg", b"<svg/>")))[0]


# Results that no check wrote

CASE = (EXAMPLES / "passes.toml").read_bytes()


@pytest.mark.parametrize(
    "text",
    [
        b"", b"{", b"[1]", b"5", b"null", b'"x"', b"[" * 100_000, b'{"a":' * 100_000,
        b'{"a": ' + b"9" * 5000 + b"}", b'{"a": ' + b"9" * 400 + b"}", b'{"a": 1e999}',
        b'{"a": NaN}', b'{"verdict": "pass", "verdict": "fail"}', b"\xff\xfe", b"{}",
        b'{"program": 5, "digest": [], "checks": {"a": [[]]}}', b'{"sample": {"x": 1}}',
        b'{"a": ' + b'{"b": ' * 800 + b"1" + b"}" * 801,
        b'{"checks": [{"id": {"x": 1}, "place": [1]}]}', b"\xef\xbb\xbf{}", b"-" * 100,
    ],
    ids=range(21),
)  # fmt: skip
def test_broken_results_are_refused_or_differ(asked, text):
    """In words; never an error of Python, and never Same."""
    try:
        same, said = asked(holding(("case.toml", CASE), ("result.json", text)))
    except InputError as error:
        assert str(error).startswith("job.pdf: ")
    else:
        assert not same and "Differs" in said


def test_a_value_said_twice_does_not_hide_a_change(summaries, asked):
    """A row changed and then put right behind itself; a path that two keys spell."""
    case, (name, text) = parts(summaries["pass"])
    results = json.loads(text)
    row = results["checks"][0]
    results["checks"].insert(0, row | {"ratio": 0.1})
    assert not asked(holding(case, (name, json.dumps(results).encode())))[0]
    results = json.loads(text)
    results = {"governing.ratio": 0.1} | results
    assert not asked(holding(case, (name, json.dumps(results).encode())))[0]


def test_text_of_the_results_cannot_steer_the_terminal(summaries, tmp_path, run):
    case, (name, text) = parts(summaries["pass"])
    results = json.loads(text) | {"verdict": "\x1b[2J\nSame: PASS", "\x1b[H\u202ex\ny": "\r\n" * 9}
    (tmp_path / "job.pdf").write_bytes(holding(case, (name, json.dumps(results).encode())))
    done = run("summary", "--again", tmp_path / "job.pdf")
    assert done.returncode == 1
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]", done.stdout + done.stderr)
    assert "\nSame" not in done.stdout


@pytest.mark.parametrize("text", [b"", b"x", b'[gap]\n"" = 1\n', b"\xff", b"gap = 5\n", b"\0"])
def test_a_broken_case_is_refused(asked, text):
    with pytest.raises(InputError):
        asked(holding(("case.toml", text), ("result.json", b"{}")))


# PDFs that are none, and PDFs made to break their readers


@pytest.mark.parametrize("pdf", [b"", b"%PDF-1.7 nothing", b"x" * 10_000, b"%PDF-1.7\n%%EOF\n",
                                 b"%PDF-1.7\nstartxref\n0\n%%EOF", b"\0" * 100_000])  # fmt: skip
def test_what_is_no_pdf(asked, pdf):
    with pytest.raises(InputError, match=r"no PDF that can be read|no case and results in it"):
        asked(pdf)


def test_half_a_summary(summaries, asked):
    for share in (0.2, 0.5, 0.9, 0.99):
        try:
            asked(summaries["pass"][: int(share * len(summaries["pass"]))])
        except InputError:
            continue


def test_a_summary_without_its_files(summaries, asked):
    with pytest.raises(InputError, match="no case and results in it"):
        asked(holding(("plan.svg", b"<svg/>")))
    with pytest.raises(InputError, match="no case and results in it"):
        asked(holding(parts(summaries["pass"])[0]))


@pytest.mark.parametrize("name", ["case.toml", "result.json"])
def test_a_little_that_unpacks_to_a_great_deal(asked, name):
    """1 GiB of one letter in 1 MB: refused at a limit, at once, and not kept in memory."""
    import tracemalloc

    pdf = holding((name, deflated(2**30)))
    assert len(pdf) < 2_000_000
    begun = time.monotonic()
    tracemalloc.start()
    with pytest.raises(InputError):
        asked(pdf)
    most = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert most < 400_000_000
    assert time.monotonic() - begun < 30


def test_a_case_over_the_limit_of_case_files(asked):
    with pytest.raises(InputError, match=r"the \.toml in it is over 1000 kB"):
        asked(holding(("case.toml", deflated(2 * 2**20, b"#"))))


def test_results_over_forty_times_the_largest(asked):
    """A check of 200 ft of marks has 50 kB of results; lists in lists take forty times their text
    in memory once they are read."""
    with pytest.raises(InputError, match=r"the \.json in it is over 2000 kB"):
        asked(holding(("case.toml", b"x = 1"), ("result.json", b'{"a": [' + b"[]," * 700_000)))


def test_two_hundred_thousand_marks(asked):
    """Of files that are none, in 4 MB: time in their number, not in its square."""
    begun = time.monotonic()
    with pytest.raises(InputError):
        asked(b"%PDF-1.7\n" + b"/Type /EmbeddedFile " * 200_000 + b"\n%%EOF")
    assert time.monotonic() - begun < 30


@pytest.mark.parametrize("kids", ["itself", "many"])
def test_a_tree_without_end(summaries, kids, monkeypatch):
    pdf = pypdf.PdfWriter(clone_from=io.BytesIO(holding(*parts(summaries["pass"]))))
    tree = pdf._root_object["/Names"]["/EmbeddedFiles"]
    node = pdf._add_object(DictionaryObject())
    below = [node] if kids == "itself" else [pdf._add_object(DictionaryObject()) for _ in range(50)]
    node.get_object()[NameObject("/Kids")] = ArrayObject(below)
    tree[NameObject("/Kids")] = ArrayObject([node])
    out = io.BytesIO()
    pdf.write(out)
    monkeypatch.setattr(inside, "MOST_NODES", 40)
    with pytest.raises(InputError, match="no end"):
        attached(out.getvalue(), "job.pdf")


def test_a_deep_tree_is_followed(summaries):
    """Names below kids below kids, as other programs write them."""
    pdf = pypdf.PdfWriter(clone_from=io.BytesIO(holding(*parts(summaries["pass"]))))
    names = pdf._root_object["/Names"]
    leaf = pdf._add_object(names["/EmbeddedFiles"])
    for _ in range(5):
        leaf = pdf._add_object(DictionaryObject({NameObject("/Kids"): ArrayObject([leaf])}))
    names[NameObject("/EmbeddedFiles")] = leaf
    out = io.BytesIO()
    pdf.write(out)
    assert attached(out.getvalue(), "job.pdf")[1]["verdict"] == "pass"


def test_one_byte_changed_anywhere(summaries):
    """Read, or refused in words."""
    pdf = holding(*parts(summaries["pass"]))
    for at in range(0, len(pdf), max(1, len(pdf) // 150)):
        broken = bytearray(pdf)
        broken[at] ^= 0x15
        try:
            attached(bytes(broken), "job.pdf")
        except InputError:
            continue


@pytest.mark.parametrize("more", [["job.toml"], ["-o", "other.pdf"], ["--since", "job.toml"]])
def test_a_file_beside_again_is_refused_and_not_passed_over(more, run, tmp_path):
    """It said "Same ... pass" of the PDF, and nothing of the case named beside it."""
    (tmp_path / "job.toml").write_bytes((EXAMPLES / "light_header.toml").read_bytes())
    done = run("summary", "--again", tmp_path / "none.pdf", *more, folder=tmp_path)
    assert done.returncode == 2
    assert "--again takes a summary's PDF alone" in done.stderr
