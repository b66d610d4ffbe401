"""Droop at the garage wall: the wood alone, and with slip of the back clip and crushing.

The sample: arm 9.75 in, back span 48 in. Its ratios, each worked elsewhere by hand: pull-out at the
back 86.5/301.9 = 0.2865; crushing at the edge under 1,254 lb on 1.5 x 3 in = 278.8 psi: outrigger
of 702.9 psi 0.3966, sheathing of 360 psi 0.7743, framing of 425 psi 0.6559.

Of the wood, EI 34.27e6 lb-in2, GA 708,125 lb, held by two supports:
    dead: P 310 lb, w 1.2744 lb/in, M 3,107 lb-in: point 0.00279, strip 0.00006, shear 0.00438,
    slope (0.001450 - 0.000103 + 0.000091) x 9.75 = 0.01403: 0.02127 in
    drifted snow: P 588 lb, w 5.55 lb/in falling, M 6,092 lb-in: 0.00530 + 0.00028 + 0.00860 +
    (0.002844 + 0.000179) x 9.75 = 0.04366 in
    1.5 x 0.02127 + 0.04366 = 0.0756 in
"""

import json

import numpy as np
import pytest
from codes_case import checked, designed, tables, toml
from level_case import designed as level
from sample_case import SMALLEST

SLIP = 0.125 * 0.2865 * 9.75 / 48  # 0.00728 in
CRUSH = 0.04 * (0.3966 + 0.7743 + 0.6559) * (1 + 9.75 / 48)  # 0.0879 in
WOOD = 0.0756


def test_wood_slip_and_crushing_of_the_sample():
    """0.0756 + 0.0073 + 0.0879 = 0.1708 in: more than twice the wood's."""
    found = designed().at_wall
    assert float(found.wood.value[0, 0]) == pytest.approx(WOOD, abs=0.0001)
    assert float(found.slip.value[0, 0]) == pytest.approx(SLIP, abs=0.00001)
    assert float(found.crush.value[0, 0]) == pytest.approx(CRUSH, abs=0.0001)
    assert float(found.whole.value[0, 0]) == pytest.approx(0.1708, abs=0.0002)


@pytest.mark.parametrize(
    ("stated", "slip"), [("none", 0.0), ("1/16 in", SLIP / 2), ("1/8 in", SLIP)]
)
def test_a_stated_slip_is_taken(stated, slip):
    found = designed(limits__clip_slip=stated).at_wall
    assert float(np.ravel(found.slip.value)[0]) == pytest.approx(slip, abs=0.00001)


def test_with_a_joint_it_is_the_joints_less_shrinkage_and_buildings():
    """3 % of 5.5 in: 0.033 in of shrinkage; 1/4 in of the buildings: the joint's own movement."""
    joint = {"joint_width": "1 in", "joint_class": 50, "below_clearance": "2 in"}
    joint |= {"moisture_change": "3 %", "clip_slip": "1/8 in", "building_movement": "1/4 in"}
    result = designed(**{f"limits__{key}": value for key, value in joint.items()})
    (row,) = (r for r in result.rows if r.check.link.id == "slip of the seal")
    whole = float(result.at_wall.whole.value[0, 0])
    assert row.demand == pytest.approx(whole + 0.033 + 0.25, abs=1e-9)


def test_it_stands_on_the_screen_in_the_data_and_in_the_summary(run, tmp_path):
    said = " ".join(checked(run, tmp_path, "--all").stdout.split())
    words = (
        "Droop at the garage wall: the wood alone 0.076 in; with slip of the back clip, 0.007 in "
        "(1/8 in at its listed value, taken), and crushing at the house wall, 0.088 in: 0.171 in."
    )
    assert words in said
    assert "Taken by default: clips slip 1/8 in at their listed value" in said
    data = json.loads(checked(run, tmp_path, "--json").stdout)["movement"]
    keys = ("droop_of_wood_in", "clip_slip_in", "crushing_in")
    assert data["droop_at_wall_in"] == pytest.approx(sum(data[key] for key in keys), abs=1e-12)
    (tmp_path / "job.toml").write_text(toml(tables()), encoding="utf-8")
    run("summary", "job.toml", "-o", "job.md", folder=tmp_path)
    assert words in " ".join((tmp_path / "job.md").read_text(encoding="utf-8").split())


def test_a_clip_without_a_value_slips_by_what_is_not_known(run, tmp_path):
    """Not given is not zero: said, and null in the data."""
    (tmp_path / "job.toml").write_text(SMALLEST, encoding="utf-8")
    said = " ".join(run("check", "--all", "job.toml", folder=tmp_path).stdout.split())
    assert "with slip of the back clip, not known, and crushing" in said
    data = json.loads(run("check", "job.toml", "--json", folder=tmp_path).stdout)["movement"]
    assert (data["clip_slip_in"], data["droop_at_wall_in"]) == (None, None)


def test_its_line_stands_with_its_numbers():
    """u = D + u_slip + u_crush, whatever the joint."""
    (total,) = (c for c in level().checks if c.id == "total_deflection")
    whole = total.steps[-1]
    assert list(whole.inputs) == ["D_T", "u_slip", "u_crush"]
