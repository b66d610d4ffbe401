"""The case file: read in every spelling, what is none, its digest, its sources, its schema."""

import json
import re
import tomllib

import pytest
from sample_case import (
    EVERY_KEY,
    EVERY_OTHER_KEY,
    SAMPLE,
    SMALLEST,
    case_of,
    changed,
    dropped,
    faults_of,
    named,
    paths,
    set_to,
    the_fault,
    without,
    written,
)

from outrigger.base.errors import InputError
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.read import read_case, read_text
from outrigger.cases.schema import schema
from outrigger.cases.validate import validate
from outrigger.verdict.design import design

WIDTH = 'width = "6 in"'


# What is read


@pytest.mark.parametrize("text", [EVERY_KEY, EVERY_OTHER_KEY, SAMPLE, SMALLEST])
def test_a_case_is_read_without_a_fault(text):
    """Every key of the file, each in every form it may take, and no more than is required."""
    assert faults_of(text) == []


def test_lengths_and_loads_arrive_in_pounds_and_inches():
    """By hand: 3'-6" is 42 in; 150 plf is 12.5 lb/in; 40 psf is 40/144 psi; none is 0."""
    case = case_of(EVERY_OTHER_KEY)
    assert (case.gap.width, case.outrigger.back_span) == (7.5, 42)
    assert (case.garage_roof.line.D, case.garage_roof.line.L) == (12.5, 0)
    assert case.snow.ground == pytest.approx(40 / 144, rel=1e-15)
    assert case.snow.drift.house_step == 108
    assert case.garage_roof.point[0].S == 1400
    assert case.house_roof.framing_at == [0.75, 16.5, 32.5]
    assert case_of(SAMPLE).garage_wall.along == 0


@pytest.mark.parametrize(
    ("key", "value", "read"),
    [
        ("outrigger__size", '"2 x 6"', "2x6"),
        ("outrigger__size", '"2X6"', "2x6"),
        ("outrigger__species", '"SPFs"', "Spruce-Pine-Fir (South)"),
        ("outrigger__species", '"DF-L"', "Douglas Fir-Larch"),
        ("outrigger__species", '"HF"', "Hem-Fir"),
        ("limits__live_deflection", '"L/240"', 240),
        ("limits__live_deflection", '"l / 360"', 360),
        ("limits__live_deflection", "360", 360),
        ("house_roof__pitch", '"4:12"', 4),
        ("house_roof__pitch", '"4/12"', 4),
        ("garage_roof__member_spacing", '"uniform"', "uniform"),
    ],
)
def test_a_value_as_the_trade_writes_it(key, value, read):
    table, name = key.split("__")
    assert getattr(getattr(case_of(set_to(SAMPLE, **{key: value})), table), name) == read


@pytest.mark.parametrize("date", ["2026-03-02", '"2026-03-02"'])
def test_a_date_with_and_without_quotes(date):
    text = changed(('revision = "0"', f'revision = "0"\ndate = {date}'))
    assert str(case_of(text).project.date) == "2026-03-02"


@pytest.mark.parametrize("grade", ['"#2"', '"No. 2"', '"No.2"', '"no 2"'])
def test_a_grade_as_stamped(grade):
    assert design(case_of(set_to(SAMPLE, outrigger__grade=grade))).wood.row.grade == "No. 2"


@pytest.mark.parametrize(
    "encoded",
    [
        SAMPLE.encode(),
        b"\xef\xbb\xbf" + SAMPLE.encode(),
        SAMPLE.encode("utf-16"),
        b"\xff\xfe" + SAMPLE.encode("utf-16-le"),
        b"\xfe\xff" + SAMPLE.encode("utf-16-be"),
        SAMPLE.replace("\n", "\r\n").encode(),
        b"\xef\xbb\xbf" + SAMPLE.replace("\n", "\r\n").encode(),
        SAMPLE.replace("\n", "\r\n").encode("utf-16"),
        SAMPLE.replace(" = ", "\t=\t").encode(),
        SAMPLE.rstrip("\n").encode(),
    ],
)
def test_byte_order_marks_and_line_ends_do_not_matter(tmp_path, encoded):
    path = tmp_path / "job.toml"
    path.write_bytes(encoded)
    assert read_case(path)[0] == case_of(SAMPLE)


# What is no case file


def test_a_missing_file(tmp_path):
    with pytest.raises(InputError, match=r"job\.toml: no such file.*outrigger new job\.toml"):
        read_text(tmp_path / "job.toml")


def test_a_folder(tmp_path):
    with pytest.raises(InputError, match="a folder"):
        read_text(tmp_path)


def test_two_megabytes(tmp_path):
    path = written(tmp_path, SAMPLE + "# a long comment\n" * 125_000)
    with pytest.raises(InputError, match="over 1000 kB: not a case file"):
        read_text(path)


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (bytes(range(256)) * 8, "not text in UTF-8"),
        (b"\x7fELF\x02\x01\x01" + bytes(64), "binary"),
        (b"%PDF-1.7\n\xe2\xe3\xcf\xd3\n", "a PDF, not a case file"),
        (SAMPLE.encode("utf-32"), "binary"),
        (SAMPLE.encode("utf-16-le"), "binary"),  # no mark says that it is UTF-16
        (b"\xff\xfe\x00", "not text in UTF-8"),
        ("width = “6 in”".encode("cp1252"), "not text in UTF-8"),
    ],
)
def test_a_binary_file(tmp_path, data, said):
    path = tmp_path / "job.toml"
    path.write_bytes(data)
    with pytest.raises(InputError, match=said):
        read_text(path)


def test_an_unreadable_file(tmp_path, monkeypatch):
    """The system refuses to read it, as for a file of another user."""
    path = written(tmp_path)

    def refuse(self, mode):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(type(path), "open", refuse)
    with pytest.raises(InputError, match=r"job\.toml: cannot be read: Permission denied"):
        read_text(path)


def test_a_name_that_is_too_long(tmp_path):
    with pytest.raises(InputError, match="cannot be read: File name too long"):
        read_text(tmp_path / ("a" * 300))


def test_an_empty_file_asks_for_what_is_required():
    """All of it at once, and nothing that is only asked."""
    found = faults_of("")
    required = {
        "project.name", "basis.loads", "gap.width", "gap.garage_plate", "gap.edge_bearing",
        "outrigger.species", "outrigger.grade", "outrigger.size", "outrigger.spacing",
        "outrigger.back_span", "garage_roof.span",
    }  # fmt: skip
    assert {fault.split()[0] for fault in found} == required
    assert all("is needed" in fault for fault in found)


def test_words_that_are_no_case_name_the_line():
    assert the_fault("a letter\n\nDear neighbour\n").startswith("line 1: a letter: cannot be read")


# Digest


def test_the_digest_is_twelve_hex_digits_and_stable():
    digests = {case_of(SAMPLE).digest for _ in range(3)}
    assert len(digests) == 1
    assert re.fullmatch(r"[0-9a-f]{12}", digests.pop())


def test_the_digest_is_of_what_is_said_and_not_of_how():
    """Spelling, order, comments and stated defaults do not change it."""
    same = [
        changed((WIDTH, 'width = "6\\""')),
        changed((WIDTH, "width = '1/2 ft'")),
        changed(('"2x6"', '"2 x 6"'), ('"Douglas Fir-Larch"', '"DF-L"')),
        changed(("live_deflection = 240", 'live_deflection = "L/240"')),
        changed(('edge_setback = "none"', 'edge_setback = "0 in"')),
        without(SAMPLE, "outrigger", "plies", "laid", "behind_back", "temperature"),
        without(SAMPLE, "basis", "method", "wood"),
        re.sub(r"(?m)\s*#.*$", "", SAMPLE),
    ]
    head, _, tail = SAMPLE.partition("[wind]")
    wind, _, rest = tail.partition("[seismic]")
    same.append(f"[wind]{wind}{head}[seismic]{rest}")
    for text in same:
        assert case_of(text).digest == case_of(SAMPLE).digest


OTHER = {  # another value for each kind of value
    "none": "1/4 in", "on edge": "flat", "dry": "wet", "to 100 F": "100 to 125 F",
    "trusses": "tied rafters", "gable": "hip", "wall": "blocking", "wind": "snow",
    "Spruce-Pine-Fir": "Hem-Fir", "Douglas Fir-Larch": "Hem-Fir", "No. 2": "No. 1", "2x6": "2x8",
    "ASD": "LRFD", "ASCE 7-16": "ASCE 7-22", "framing": "sheathing only", "edge": "16 in",
    "0:12": "1:12", "6:12": "5:12",
}  # fmt: skip
LOADS = {
    "live": "10 psf", "storage": "1 psf", "out_of_plane_wind": "5 psf", "along": "1 plf",
}  # fmt: skip


def another(key, value):
    """Another value that the key may take."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + 1
    if isinstance(value, list):
        return ["edge"]
    if value == "none" and key in LOADS:
        return LOADS[key]
    if key == "category":
        return "A"
    if key == "rated_into":
        return "framing"
    if value in OTHER and (value != "wind" or key == "rated_for"):
        return OTHER[value]
    if found := re.fullmatch(r"([\d/ ]+) (in|ft|psf|psi|lb)", value):
        return f"{found[1]}0 {found[2]}" if "/" in found[1] else f"{int(found[1]) + 1} {found[2]}"
    return value + " more"


def test_every_value_changes_the_digest():
    """Law: any one value of the sample changed gives another digest, all of them different."""
    raw = tomllib.loads(SAMPLE)
    seen = {validate(raw, "job.toml").digest: "the sample"}
    missed = []
    for path in paths(raw):
        *above, key = path
        left = dropped(raw)
        table = left
        for part in above:
            table = table[part]
        if named(path) in (
            "basis.wood",
            "snow.drift",
            "snow.sliding",
            "snow.unbalanced",
            "snow.on_house",
        ):
            continue  # one value only, or a table
        if named(path) == "hold_down[0].at":
            continue  # the back is needed
        table[key] = another(key, table[key])
        try:
            digest = validate(left, "job.toml").digest
        except CaseFaultsError as error:
            raise AssertionError(f"{path}: {error}") from None
        if digest in seen:
            missed.append((path, seen[digest]))
        seen[digest] = path
    assert missed == []


def test_project_text_and_sources_are_in_the_digest():
    plain = case_of(SAMPLE).digest
    for text in (
        changed(('revision = "0"', 'revision = "0"\nengineer_of_record = "B. Engineer"')),
        changed(('dead = "15 psf"', 'dead_source = "truss sheet 3"\ndead = "15 psf"')),
    ):
        assert case_of(text).digest != plain


def test_not_given_and_none_have_different_digests():
    assert case_of(without(SAMPLE, "garage_roof", "storage")).digest != case_of(SAMPLE).digest


# Sources


def test_a_source_beside_a_load():
    text = changed(
        ('dead = "15 psf"', 'dead = "15 psf"\ndead_source = "truss sheet 3, 2026-02-11"'),
        ('uplift = "26 psf"', 'uplift_source = "engineer, by letter"\nuplift = "26 psf"'),
    )
    case = case_of(text)
    assert case.sources == {
        "garage_roof.dead": "truss sheet 3, 2026-02-11",
        "wind.uplift": "engineer, by letter",
    }
    assert case.garage_roof == case_of(SAMPLE).garage_roof


def test_a_source_is_printed(run, tmp_path):
    text = changed(('dead = "15 psf"', 'dead = "15 psf"\ndead_source = "truss sheet 3"'))
    result = run("check", "--all", written(tmp_path, text))
    assert "garage_roof.dead from truss sheet 3" in " ".join(result.stdout.split())


def test_a_source_of_no_key_is_an_unknown_key():
    text = changed(('dead = "15 psf"', 'dead = "15 psf"\ndeed_source = "truss sheet 3"'))
    assert "garage_roof.deed_source no such key. Keys here: bearing, form" in the_fault(text)


# The schema


def names_of(schema):
    """Every property name in a JSON Schema."""
    if isinstance(schema, dict):
        yield from schema.get("properties", {})
        for part in schema.values():
            yield from names_of(part)
    elif isinstance(schema, list):
        for part in schema:
            yield from names_of(part)


def keys_of(raw):
    """Every key of a file's tables, at any depth."""
    if isinstance(raw, dict):
        yield from raw
        for part in raw.values():
            yield from keys_of(part)
    elif isinstance(raw, list):
        for part in raw:
            yield from keys_of(part)


def test_the_schema_names_every_key(run):
    schema = json.loads(run("new", "--schema").stdout)
    known = set(names_of(schema))
    for text in (EVERY_KEY, EVERY_OTHER_KEY):
        keys = {key for key in keys_of(tomllib.loads(text)) if not key.endswith("dead_source")}
        assert keys - known == set()
    assert schema["properties"].keys() >= tomllib.loads(EVERY_KEY).keys()


def test_the_schema_says_what_is_required():
    found = schema()
    sections = {
        name: found["else"]["properties"][name]["required"]
        for name in ("gap", "outrigger", "basis", "project")
    }
    assert sections == {
        "gap": ["width", "garage_plate", "edge_bearing"],
        "outrigger": ["species", "grade", "size", "spacing", "back_span"],
        "basis": ["loads"],
        "project": ["name"],
    }


def test_the_schema_names_no_table_that_the_file_refuses():
    for table in schema()["properties"].keys() - {"$schema"}:
        text = SAMPLE if f"[{table}]" in SAMPLE else f"{SAMPLE}\n[{table}]\n"
        assert not any("no such table" in fault for fault in faults_of(text)), table


def test_the_schema_allows_source_keys():
    assert "_source$" in schema()["properties"]["garage_roof"]["patternProperties"]


@pytest.mark.parametrize(
    ("written", "category", "letter"),
    [
        ("b", "B", "B"), ("D0", "D0", "D"), ("D1", "D1", "D"), ("d2", "D2", "D"),
        ("Category c", "C", "C"), ("F", "F", "F"), ("none", "none", "none"),
        ("None", "none", "none"),
    ],
)  # fmt: skip
def test_a_seismic_category_as_permits_print_it(written, category, letter):
    """The residential code splits D into D0, D1 and D2; ASCE 7 has D."""
    seismic = case_of(set_to(SAMPLE, seismic__category=f'"{written}"')).seismic
    assert (seismic.category, seismic.letter) == (category, letter)


def test_a_category_of_the_residential_code_designs_as_d_and_says_so():
    """Net uplift of 12.4.4 and the vertical effect are those of D; the loads name both."""
    found = {}
    for category in ("D2", "D"):
        text = set_to(SAMPLE, seismic__category=f'"{category}"\nsds = 1.0')
        found[category] = design(case_of(text))
    of_d2, of_d = found["D2"], found["D"]
    assert [row.ratio for row in of_d2.rows] == [row.ratio for row in of_d.rows]
    assert of_d2.loads.net_up == of_d.loads.net_up == 0.2
    said = [text for text in of_d2.loads.reasons if text.startswith("earthquake")]
    first = "earthquake: category D2 (designed as D), 0.2 SDS D = 0.2 D up and down; 0.2 D net up"
    assert len(said) == 1 and said[0].startswith(f"{first} alone; ")


@pytest.mark.parametrize("written", ["c", "C", " c "])
def test_wind_exposure_in_small_letters(written):
    text = changed(("[wind]", f'[wind]\nexposure = "{written}"'))
    assert case_of(text).wind.exposure == "C"


@pytest.mark.parametrize("written", ["D3", "G", "", "cd"])
def test_a_category_that_is_none(written):
    fault = the_fault(set_to(SAMPLE, seismic__category=f'"{written}"'))
    assert "seismic.category" in fault and '"D0", "D1", "D2"' in fault
