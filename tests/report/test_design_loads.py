"""The list of design loads on the cover: what is stated and what follows, each with its level.

Levels are those of the contract of the case file; numbers are worked from the forces on one
outrigger, by statics, or stated.
"""

import re

import pytest
from sample_case import DRIFTED, SAMPLE, case_of, changed, set_to, without

from outrigger.actions.design_loads import NAMES, stated_loads
from outrigger.cases.below import Carries, Stud, WallTie
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.kinds import kind_of, level_of
from outrigger.cases.read import parse, read_case
from outrigger.cases.sections import SECTIONS, PointLoad, RoofLine
from outrigger.cli.common import SAMPLE_FILE
from outrigger.report.summary import build as summary
from outrigger.report.summary.criteria import criteria
from outrigger.report.write import markdown
from outrigger.studies.for_summary import findings
from outrigger.verdict.design import design

SERVICE = {
    "garage_roof.dead", "garage_roof.live", "garage_roof.storage", "garage_roof.strip_dead",
    "garage_roof.line.D", "garage_roof.line.L", "garage_roof.line.Lr", "garage_wall.dead",
    "house_roof.dead", "house_roof.live",
}  # fmt: skip
STRENGTH = {
    "garage_roof.line.W_up", "garage_roof.line.W_down", "house_roof.wind_uplift", "wind.uplift",
    "wind.down", "garage_wall.out_of_plane_wind", "garage_wall.along", "seismic.sds",
}  # fmt: skip
SNOW = {"garage_roof.line.S", "house_roof.snow", "snow.ground", "snow.roof", "snow.drift_line"}
SERVICE |= {f"house_edge.carries.{key}" for key in ("D", "L", "Lr")}
STRENGTH |= {"house_edge.carries.W_up", "house_edge.carries.W_down", "house_edge.stud.wind"}
SNOW |= {"house_edge.carries.S"}
TABLES = {
    **SECTIONS, "garage_roof.line": RoofLine, "garage_roof.point": PointLoad,
    "house_edge.carries": Carries, "house_edge.stud": Stud,
}  # fmt: skip
ROW = re.compile(r"\| ([^|]+) \| \*\*([^|]+)\*\* \| (\w*) \|")


def cover_of(text):
    """The front of a summary, to the arithmetic of the loads, as Markdown."""
    made = design(case_of(text))
    document = summary.build(findings(made), summary.Called(text, parse(text, "job.toml")))
    return markdown.markdown(document).partition("Arm and share")[0]


def rows_of(text):
    """The rows of the cover's table: name to value and level."""
    return {name: (value, level) for name, value, level in ROW.findall(cover_of(text))}


@pytest.mark.parametrize("path", sorted(SERVICE | STRENGTH | SNOW))
@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
def test_the_level_of_each_key(path, edition):
    table, _, key = path.rpartition(".")
    strength = path in STRENGTH or (path in SNOW and edition == "ASCE 7-22")
    assert level_of(TABLES[table], key, edition) == ("strength" if strength else "service")


def test_every_key_that_holds_a_load_states_its_level_and_stands_on_the_cover():
    """Pressures, line loads and forces are loads, but for what is a clip's."""
    loads = {
        f"{name}.{key}"
        for name, table in TABLES.items()
        for key in table.model_fields
        if kind_of(table, key) in ("pressure", "line load", "force") and table is not WallTie
    }
    levelled = {
        f"{name}.{key}"
        for name, table in TABLES.items()
        for key in table.model_fields
        if level_of(table, key, "ASCE 7-16")
    }
    assert levelled == loads | {"seismic.sds"}
    points = {path for path in loads if path.startswith("garage_roof.point.")}
    assert set(NAMES) == levelled - points | {"wind.speed"}
    assert not any(level_of(HoldDown, key, "ASCE 7-16") for key in HoldDown.model_fields)


def test_the_force_along_the_wall_is_at_strength_level():
    """It counts whole in a strength combination, and 0.6 of it in an allowable-stress one."""
    text = set_to(SAMPLE, garage_wall__along='"25 plf"', garage_wall__out_of_plane_wind='"20 psf"')
    rows = rows_of(text)
    assert rows["along the wall"] == ("25 plf", "strength")
    assert rows["wind square to the wall"] == ("20 psf", "strength")
    sliding = {r.combination for r in design(case_of(text)).rows if r.check.id == "slide"}
    assert any("0.6A" in combination for combination in sliding)


@pytest.mark.parametrize(
    ("edition", "level"), [("ASCE 7-16", "service"), ("ASCE 7-22", "strength")]
)
def test_snow_is_at_the_level_of_the_edition(edition, level):
    rows = rows_of(set_to(SAMPLE, basis__loads=f'"{edition}"', snow__roof='"25 psf"'))
    assert rows["roof snow"] == ("25 psf", level)
    assert rows["snow on the back span"][1] == level
    assert rows["dead, garage roof"] == ("15 psf", "service")


def test_wind_on_the_wall_from_a_wind_speed_stands_in_front():
    """plf of wall times the spacing of the outriggers is the force on one, both ways."""
    text = without(DRIFTED, "garage_wall", "out_of_plane_wind")
    on = design(case_of(text)).loads
    cover = cover_of(text)
    for way, part, sign in (("inward", "H_away", 1), ("outward", "H_toward", -1)):
        found = re.search(rf"wind square to the wall {way} (\d+) plf", cover)
        assert found, way
        force = sign * float(on.on_wall[part][0, 0])
        assert float(found[1]) == pytest.approx(force / (16 / 12), abs=0.5)
    assert cover.index("Derived, strength level") < cover.index("wind square to the wall inward")


def test_every_derived_load_stands_in_front_with_its_unit_and_level():
    text = without(DRIFTED, "garage_wall", "out_of_plane_wind")
    made, cover = design(case_of(text)), cover_of(text)
    assert {one.unit for one in made.loads.derived} == {"psf", "plf"}
    for level in ("service", "strength"):
        said = next(line for line in cover.splitlines() if f"Derived, {level} level" in line)
        for one in made.loads.derived:
            assert (one.name in said) == (one.level == level), one.name
            assert one.source in cover


def test_what_follows_from_a_stated_pressure_alone_is_no_derived_load():
    assert design(case_of(SAMPLE)).loads.derived == ()
    assert "Derived" not in cover_of(SAMPLE)


def test_snow_that_a_truss_sheet_stands_for_is_not_listed():
    """Beside line loads neither drift nor sliding of the garage roof is put on the wall line or the
    strip; what the garage brings to the house roof is no part of its sheet."""
    line = '[garage_roof.line]\nD = "135 plf"\nL = "none"\nLr = "180 plf"\nS = "189 plf"\n'
    line += 'W_up = "300 plf"\nW_down = "144 plf"\n\n'
    names = [
        one.name
        for one in design(
            case_of(changed(("[garage_wall]", f"{line}[garage_wall]"), text=DRIFTED))
        ).loads.derived
    ]
    assert "balanced roof snow" in names
    assert {n for n in names if "drift" in n or "unbalanced" in n or "sliding" in n} == {
        "drift on the house roof",
        "sliding onto the house roof",
    }


def test_each_part_of_a_point_load_has_its_own_level():
    point = '[[garage_roof.point]]\nat = "6 ft"\nfrom = "girder"\nD = "900 lb"\nW_up = "400 lb"\n\n'
    rows = rows_of(changed(("[garage_wall]", f"{point}[garage_wall]")))
    assert rows["dead, point load at 6 ft"] == ("900 lb", "service")
    assert rows["wind up, point load at 6 ft"] == ("400 lb", "strength")


def test_a_load_that_is_none_is_not_listed():
    case = case_of(set_to(SAMPLE, garage_roof__storage='"none"'))
    assert "garage_roof.storage" not in {one.key for one in stated_loads(case)}


def test_the_criteria_on_the_cover_are_the_derived_loads():
    """Each drift with the length that it lies on, not one of the symbols on the way to it: on the
    sample's house roof hd 1.339 ft, so that it lies on 6 hd = 8.0 ft (ASCE 7-16 7.7.2)."""
    made = design(read_case(SAMPLE_FILE)[0])
    rows = {name: value for row in criteria(made).rows for name, value in pairs(row)}
    assert rows["drift, house"] == "23.1 psf over 8.0 ft"
    drifts = [one for one in made.loads.derived if one.over_ft]
    assert len(drifts) == sum(" over " in str(value) for value in rows.values())


def pairs(row):
    return zip(row[::2], row[1::2], strict=True)
