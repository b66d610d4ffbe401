"""Trade names of fasteners, what is refused, and the sizes that follow. NDS 2018 Appendix L."""

import pytest

from outrigger.base.errors import InputError, RangeError
from outrigger.base.quantity import length as as_said
from outrigger.base.tables import STATUSES, load
from outrigger.fasteners.trade_names import bending_yield, read_fastener


@pytest.mark.parametrize(
    ("text", "kind", "D", "length"),
    [
        ("nail 0.148 x 1 1/2 in", "nail", 0.148, 1.5),
        ("nail 0.148 in x 1 1/2 in", "nail", 0.148, 1.5),
        ('nail .148 x 1-1/2"', "nail", 0.148, 1.5),
        ("0.148 x 3 in nail", "nail", 0.148, 3.0),
        ("10d common", "nail", 0.148, 3.0),
        ("10d common nail", "nail", 0.148, 3.0),
        ("10D Common Nails", "nail", 0.148, 3.0),
        ("10d common nail x 1 1/2 in", "nail", 0.148, 1.5),
        ("10d x 1 1/2 in", "nail", 0.148, 1.5),
        ("10d × 1½ in", "nail", 0.148, 1.5),
        ("8d x 1½”", "nail", 0.131, 1.5),
        ("16d box nail", "nail", 0.135, 3.5),
        ("16d sinker nail", "nail", 0.148, 3.25),
        ("8 penny common", "nail", 0.131, 2.5),
        ("16d galvanized common nail", "nail", 0.162, 3.5),
        ("ring shank nail 0.131 x 2 1/2 in", "nail", 0.131, 2.5),
        ("ring-shank nail 0.113 x 2 3/8 in", "nail", 0.113, 2.375),
        ("stainless nail 0.131 x 2 1/2 in", "nail", 0.131, 2.5),
        ("wood screw #10 x 2 1/2 in", "screw", 0.190, 2.5),
        ("#10 x 2 1/2 in wood screw", "screw", 0.190, 2.5),
        ("No. 10 wood screw x 2½ in", "screw", 0.190, 2.5),
        ("lag 1/4 in x 3 in", "lag", 0.25, 3.0),
        ("lag ¼ in x 3 in", "lag", 0.25, 3.0),
        ("lag screw 1/4 x 3 in", "lag", 0.25, 3.0),
        ('3/8" x 4" lag bolt', "lag", 0.375, 4.0),
        ("lag 5/16 in x 3 1/2 in", "lag", 0.3125, 3.5),
    ],
)
def test_trade_names(text, kind, D, length):
    found = read_fastener(text)
    assert (found.kind, found.D, found.length) == (kind, D, length)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("10d", "which nail? 10d common (0.148 x 3 in); 10d box (0.128 x 3 in); 10d sinker"),
        ("10d nail", "which nail? 10d common (0.148 x 3 in); 10d box"),
        ("10d x 3 in", "which nail? 10d common (0.148 x 3 in); 10d box (0.128 x 3 in)"),
        ("30d common", "which nail? 6d common (0.113 x 2 in); 8d common"),
        ("10d ring shank", "which nail? RSRS-01 ring shank nail (0.113 x 2 3/8 in)"),
        ("nail 0.15 x 3 in", "no nail of 0.15 in on file. Near: 8d common (0.131 x 2 1/2 in)"),
        ("nail 0.148", 'no length. Write it as "nail 0.148 x 3 in"'),
        ("nail 0.148 x 3", 'has no unit. Did you mean "3 in"?'),
        ("nail 0.148 x 2 ft", "a fastener 24 in long. Allowed: to 12 in."),
        ("nail 0.148 x 0 in", "a fastener 0 in long"),
        ("wood screw #10", 'no length. Write it as "wood screw #10 x 2 1/2 in"'),
        ("wood screw #11 x 2 in", "no wood screw #11 on file. It has: #6, #7, #8, #9, #10, #12"),
        ("lag 1/4", 'no length. Write it as "lag 1/4 in x 3 in"'),
        ("lag 1 in x 4 in", "no lag screw of 1 in on file. It has: 1/4 in, 5/16 in, 3/8 in"),
        ("#10 x 2 1/2 in", "not a screw of the tables"),
        ("screw #10 x 2 1/2 in", "A hardened screw of a maker has report values only"),
        ("structural screw 1/4 x 3 in", "A hardened screw of a maker has report values only"),
        ("hardened wood screw #10 x 3 in", "A hardened screw of a maker has report values only"),
        ("connector screw #9 x 1 1/2 in", "A hardened screw of a maker has report values only"),
        ("bolt 1/2 x 6 in", "not a fastener that is read here. Write one as"),
        ("10d finish nail", "not a fastener that is read here"),
        ("1/4 x 3 in", "not a fastener that is read here"),
        ("", "not a fastener that is read here"),
        ("nail", "not a fastener that is read here"),
    ],
)
def test_refused_in_words(text, words):
    with pytest.raises(InputError) as raised:
        read_fastener(text)
    assert words in str(raised.value)


def test_what_was_understood_is_echoed():
    names = {
        "10d x 1 1/2 in": "10d short nail, 0.148 in x 1 1/2 in",
        "nail 0.148 x 1 1/2 in": "nail, 0.148 in x 1 1/2 in",
        "16D BOX": "16d box nail, 0.135 in x 3 1/2 in",
        "ring shank nail 0.131 x 2 1/2 in": "ring shank nail, 0.131 in x 2 1/2 in",
        "#10 x 2½ in wood screw": "wood screw #10, 0.19 in x 2 1/2 in",
        "lag 1/4 x 3 in": "lag screw, 1/4 in x 3 in",
    }
    assert {text: read_fastener(text).name for text in names} == names


def test_sizes_of_a_screw_and_a_lag():
    """NDS Tables L3 (No. 10, second-hand) and L2 (MEMORY; tip of 1/2 in second-hand): tip 2D of the
    screw, thread 2L/3 and L/2 + 1/2; the head of a lag across the flats (ASME B18.2.1)."""
    screw, lag = read_fastener("wood screw #10 x 3 in"), read_fastener("lag 1/2 in x 4 in")
    assert (screw.Dr, screw.head, screw.Fyb, screw.tip) == (0.152, 0.363, 80000, 0.38)
    assert (lag.Dr, lag.head, lag.Fyb, lag.tip) == (0.371, 0.75, 45000, 0.3125)
    threads = {
        "wood screw #10 x 3 in": 2.0,
        "wood screw #10 x 1 in": 0.76,  # 4D
        "lag 1/2 in x 4 in": 2.5,
        "lag 1/2 in x 12 in": 6.0,
        "lag 1/4 in x 1 in": 1.0,
    }
    for text, length in threads.items():
        assert read_fastener(text).step("T_thread").value == pytest.approx(length, rel=1e-12)
    assert (lag.step("D").value, screw.step("D_nom").value) == (0.371, 0.19)
    assert (lag.step("E_tip").status, read_fastener("lag 1/4 in x 3 in").step("E_tip").status) == (
        "SECOND-HAND",
        "MEMORY",
    )


def test_sizes_of_nails():
    """Table L4; tip 2D; a ring shank of 1 1/2 in by F1667, none in stainless steel."""
    nail = read_fastener("10d common")
    assert (nail.Dr, nail.head, nail.tip) == (0.148, 0.312, 0.296)
    assert (nail.step("D_nom").status, nail.step("DH").status) == ("SEEN", "MEMORY")
    assert read_fastener("ring shank nail 0.131 x 2 1/2 in").ring == 1.5
    other = read_fastener("ring shank nail 0.148 x 3 in")
    assert (other.ring, other.notes[0].endswith("counted as smooth")) == (0.0, True)
    stainless = read_fastener("stainless ring shank nail 0.131 x 2 1/2 in")
    assert (stainless.ring, stainless.step("Fyb").status) == (0.0, "MEMORY")
    longer = read_fastener("nail 0.148 x 2 1/2 in")  # heads on file: 0.312, 0.344, 0.375
    assert (longer.head, longer.notes) == (
        0.312,
        ("head 0.312 in taken: this length is not in the table",),
    )


@pytest.mark.parametrize(
    ("D", "Fyb"),
    [(0.099, 100_000), (0.142, 100_000), (0.1421, 90_000), (0.177, 90_000), (0.1771, 80_000),
     (0.236, 80_000), (0.2361, 70_000), (0.273, 70_000), (0.2731, 60_000), (0.344, 60_000)],
)  # fmt: skip
def test_bending_yield_bands(D, Fyb):
    """NDS 2018 Table I1, quoted in public notes; the last band in XC (xcfem/xc)."""
    assert bending_yield(D) == (Fyb, "SECOND-HAND")


def test_outside_the_bands():
    for D in (0.098, 0.345):
        with pytest.raises(RangeError, match="lies outside the bands"):
            bending_yield(D)


def test_every_row_of_the_tables_is_read():
    """Every nail by its name and by its size, every screw, every lag."""
    for row in load("nails").rows:
        size = f"{row['D_in']} x {row['length_in']} in"
        by_size = read_fastener(f"{'ring shank ' if row['kind'] == 'ring' else ''}nail {size}")
        assert (by_size.D, by_size.length) == (float(row["D_in"]), float(row["length_in"]))
        if row["kind"] in ("common", "box", "sinker"):
            named = read_fastener(f"{row['size']} {row['kind']} nail")
            assert (named.D, named.head) == (float(row["D_in"]), float(row["head_in"]))
    for row in load("wood_screws").rows:
        assert read_fastener(f"wood screw #{row['number']} x 3 in").Dr == float(row["Dr_in"])
    for row in load("lag_screws").rows:
        assert read_fastener(f"lag {row['D_in']} x 3 in").Dr == float(row["Dr_in"])


FACTS = {
    "nails": ("head_status", "ring_status"),
    "lag_screws": ("tip_status", "head_status", "Fyb_status"),
    "clip_steel_safety": ("phi_status",),
}


@pytest.mark.parametrize("name", FACTS)
def test_every_status_is_legal(name):
    for row in load(name).rows:
        assert {row[c] for c in FACTS[name]} <= {*STATUSES, ""}


def test_laws_of_the_size_tables():
    """Root under the shank, head over it, tip under the length, D rises down the table."""
    for name in ("wood_screws", "lag_screws"):
        rows = load(name).rows
        assert all(float(r["Dr_in"]) < float(r["D_in"]) < float(r["head_in"]) for r in rows)
        diameters = [float(r["D_in"]) for r in rows]
        assert diameters == sorted(set(diameters))
    for kind in ("common", "box", "sinker"):
        rows = [r for r in load("nails").rows if r["kind"] == kind]
        for column in ("D_in", "length_in"):
            assert [float(r[column]) for r in rows] == sorted(float(r[column]) for r in rows)
    sheets = [float(r["t_in"]) for r in load("steel_sheets").rows]
    assert sheets == sorted(set(sheets))


def test_every_lag_has_a_washer_wider_than_its_head():
    lags, washers = load("lag_screws").rows, load("washers").rows
    assert [row["lag"] for row in washers] == [as_said(float(row["D_in"])) for row in lags]
    for lag, washer in zip(lags, washers, strict=True):
        assert float(washer["D_washer_in"]) > float(lag["head_in"])


FILES = [
    *("nails", "wood_screws", "lag_screws", "fyb_bands", "fastener_rules", "panels"),
    *("steel_sheets", "clip_steel", "clip_steel_safety", "connection_wet_service"),
    *("connection_temperature", "fastener_spacing", "washers"),
]


@pytest.mark.parametrize("name", FILES)
def test_header_status_agrees_with_the_rows(name):
    table = load(name)
    found = {r["status"] for r in table.rows}
    assert table.header["status"] == (found.pop() if len(found) == 1 else "per row")
    assert all(None not in r and None not in r.values() for r in table.rows)
