"""Laws that hold whatever the numbers: balance, proportion, monotony, a batch equals its cases."""

from itertools import pairwise

import numpy as np
import pytest
from draws import few_draws
from hypothesis import given
from hypothesis import strategies as st
from level_case import TABLES, case, check, clip, designed, row
from thorough import spread

from outrigger.actions import by_hand
from outrigger.cases.batch import batch_of
from outrigger.cases.paths import with_numbers
from outrigger.loads import gravity as loads
from outrigger.loads import integrity
from outrigger.verdict.design import design, designs_of
from outrigger.wood.bending import SLENDERNESS

EDITIONS = ["ASCE 7-16", "ASCE 7-22"]
METHODS = ["ASD", "LRFD"]


def sixteenths(low, high):
    """Lengths as the file writes them."""
    return st.integers(low * 16, high * 16).map(lambda n: f"{n}/16 in")


def psf(high, least):
    """None at all, or from the least that a case file may write."""
    return st.integers(0, high).map(lambda n: f"{n} psf" if n >= least else "0 psf")


def behind(low, high):
    """None by the word, never by a nought; 1/2 in at the least."""
    return st.integers(low * 16, high * 16).map(lambda n: f"{n}/16 in" if n >= 8 else "none")


CALM = {"house_roof__wind_uplift": "none"}  # wind that lifts neither roof
CHANGES = st.fixed_dictionaries(
    {
        "gap__width": sixteenths(1, 24),
        "gap__edge_setback": sixteenths(0, 3),
        "outrigger__spacing": sixteenths(8, 48),
        "outrigger__back_span": sixteenths(24, 90),
        "outrigger__tail": sixteenths(0, 24),
        "outrigger__behind_back": behind(0, 30),
        "garage_roof__span": st.integers(6, 40).map(lambda n: f"{n} ft"),
        "garage_roof__overhang": sixteenths(0, 30),
        "garage_roof__dead": st.integers(5, 40).map(lambda n: f"{n} psf"),
        "garage_roof__live": psf(40, 10),
        "garage_roof__storage": psf(20, 1),
        "snow__roof": psf(90, 3),
        "wind__uplift": psf(60, 5),
        "wind__down": psf(30, 1),
        "house_roof__dead": psf(30, 2),
        "house_roof__live": psf(20, 10),
        "house_roof__snow": psf(60, 3),
        "house_roof__wind_uplift": psf(40, 5),
        "outrigger__blocking": st.just(["edge"]),
    }
).map(lambda found: found | CALM if found["wind__uplift"] == "0 psf" else found)
HELD = st.sampled_from(
    [
        [clip("back"), clip("edge")],
        [clip("back")],
        [clip("back"), clip("16 in"), clip("edge")],
        [clip("back"), clip("16 in")],
        [clip("back"), clip("20 in"), clip("9 in")],
    ]
)


@few_draws
@given(CHANGES, HELD)
def test_reactions_balance_the_loads_of_every_part(changes, held):
    """Sum of reactions = sum of loads; moment about the edge too. Loads summed here again."""
    result = designed(**changes, hold_down=held)
    model, shape, on = result.model, result.shape, result.loads
    a, end, back = (float(v[0, 0]) for v in (shape.arm, shape.end, shape.back_span))
    start, covered = float(shape.house_end[0, 0]), float(on.covered[0, 0])
    weight = float(on.self_weight[0, 0])
    for i, part in enumerate(model.parts):
        stretches = []  # (from, to, lb/in)
        force, moment = 0.0, 0.0
        if part in on.wall_line:
            force += float(on.wall_line[part][0, 0])
            moment += float(on.wall_line[part][0, 0]) * a
        if part == "D":
            stretches.append((0, end, float(on.strip["D"][0, 0]) + weight))
        elif part in on.strip:
            q = float(on.strip[part][0, 0])
            stretches += [(0, a - covered, q), (a, end, q)]
        if part in on.back:
            stretches.append((-back, 0, float(on.back[part][0, 0])))
        if part in ("D_back", "D_own"):
            stretches.append((start, 0, weight))
        if part == "worker":
            force, moment = 300.0, 300.0 * end
        for low, high, q in stretches:
            force += q * (high - low)
            moment += q * (high - low) * (high + low) / 2
        R = [float(r[0, i]) for r in model.whole.R]
        x = [float(at.ravel()[0]) for at in model.whole.x]
        size = abs(force) + abs(moment) / back + 1
        assert sum(R) == pytest.approx(force, abs=1e-9 * size)
        about = sum(r * at for r, at in zip(R, x, strict=True))
        assert about == pytest.approx(moment, abs=1e-7 * size * back)


@few_draws
@given(CHANGES, HELD, st.sampled_from(METHODS), st.sampled_from(EDITIONS))
def test_doubling_every_load_doubles_every_demand_and_no_capacity(changes, held, method, edition):
    """Self weight, worker and the least on a wall's face too. Nothing here is amplified: no axial
    force, no P-delta."""
    plain = case(**changes, hold_down=held, basis__method=method, basis__loads=edition)
    before = design(plain)
    pressures = {
        "garage_roof": ("dead", "live", "storage", "strip_dead"),
        "house_roof": ("dead", "live", "snow", "wind_uplift"),
        "garage_wall": ("dead",),
        "snow": ("roof",),
        "wind": ("uplift", "down"),
    }
    twice = {
        f"{section}.{key}": 2 * getattr(getattr(plain, section), key)
        for section, keys in pressures.items()
        for key in keys
    }
    own = loads.self_weight
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(loads, "self_weight", lambda wood, area: 2 * own(wood, area))
        patch.setattr(loads, "WORKER_LB", 600.0)
        patch.setattr(integrity, "LEAST_PSF", 2 * integrity.LEAST_PSF)
        after = design(with_numbers(plain, twice))
    for old, new in zip(before.checks, after.checks, strict=True):
        assert (old.id, old.place, old.link) == (new.id, new.place, new.link)
        factor = 1 if old.link == SLENDERNESS or old.id == "form" else 2
        assert new.demand == pytest.approx(factor * np.asarray(old.demand), rel=1e-9, abs=1e-9)
        if old.capacity is not None:
            assert np.asarray(new.capacity) == pytest.approx(np.asarray(old.capacity), rel=1e-12)


# What a longer arm may lower, and why. Uplift turns the other way: with more arm the push down of
# gravity combinations on a place that uplift or the back span's own load pulls up is less.
UPLIFT_CHECKS = ("hold_down:edge", "back_bearing")


def gravity_ratios(result):
    """Largest ratio of each gravity check in each case, combinations without wind up only."""
    found = {}
    for one in result.checks:
        if one.capacity is None or one.id.startswith(UPLIFT_CHECKS) or one.rule == "fail":
            continue
        if "deflection" in one.id or one.id == "joint" or not one.combinations:
            continue
        keep = [i for i, c in enumerate(one.combinations) if "W up" not in c.name]
        ratio = np.atleast_2d(one.ratio)[:, keep]
        key = (one.id, one.place, one.link.id)
        found[key] = np.broadcast_to(ratio.max(axis=1), (result.count,))
    return found


@few_draws
@given(CHANGES, st.sampled_from(METHODS), st.sampled_from(EDITIONS))
def test_a_longer_gap_never_lowers_a_gravity_ratio(changes, method, edition):
    """One clip at the back and a tie at the edge. Left out, each for its own reason: what is
    pushed or pulled by uplift (edge tie, bearing at the back, combinations with wind up), and
    droop, whose limit grows with the arm. Bearing under the wall does not change.

    Exception by design of the loads: an overhang that covers the arm covers no more of a longer
    one, so it is left at none. Bending in the back span goes by the load there and by the moment
    handed over: it too may fall, where sagging governs; so may shear there."""
    changes = {**changes, "garage_roof__overhang": "none"}
    del changes["gap__width"]
    plain = case(**changes, basis__method=method, basis__loads=edition)
    ratios = gravity_ratios(designs_of(batch_of(plain, {"gap.width": spread(1, 24, 12, every=47)})))
    for key, ratio in ratios.items():
        if key[1] != "back span":
            assert (np.diff(ratio) >= -1e-9).all(), key


@few_draws
@given(CHANGES, st.sampled_from(METHODS), st.sampled_from(EDITIONS))
def test_tighter_spacing_never_raises_a_gravity_ratio(changes, method, edition):
    """Every load on one outrigger but its own weight, the worker and a whole truss goes with the
    spacing. Left out: uplift, as above; shear and bending in the back span, and the clip and
    bearing where the back span's load helps: it shrinks with the spacing while a whole truss
    stays on the arm. With an even roof and no load on the back span nothing is left out."""
    none = {f"house_roof__{key}": "none" for key in ("dead", "live", "snow", "wind_uplift")}
    even = {"garage_roof__member_spacing": "uniform"}
    del changes["outrigger__spacing"]
    plain = case(**{**changes, **none, **even}, basis__method=method, basis__loads=edition)
    spacings = spread(8, 48, 15, every=81)
    swept = designs_of(batch_of(plain, {"outrigger.spacing": spacings}))
    for key, ratio in gravity_ratios(swept).items():
        assert (np.diff(ratio) >= -1e-9).all(), key


SWEPT = {
    "gap.width": (2.0, 12.0),
    "snow.roof": (1 / 144, 90 / 144),
    "outrigger.spacing": (8.0, 48.0),
    "outrigger.back_span": (24.0, 90.0),
    "garage_roof.span": (72.0, 480.0),
}


def by_key(result):
    return {(c.id, c.place, c.link.id): c for c in result.checks}


def same_bits(together, alone, number, steepest=False):
    """Demand, capacity and ratio of each check, to the last bit; the steepest RB only if asked."""
    many, single = by_key(together), by_key(alone)
    for key, one in single.items():
        if key[2] == "slenderness RB" and not steepest:
            continue
        for name in ("demand", "capacity", "ratio"):
            a, b = getattr(many[key], name), getattr(one, name)
            if a is None or b is None:
                assert a is None
                assert b is None
                continue
            a, b = np.atleast_2d(a), np.atleast_2d(b)
            a = a[number : number + 1] if len(a) == together.count else a
            a, b = np.broadcast_arrays(a, b)
            assert a.tobytes() == b.tobytes(), (key, name)
    for key in many.keys() - single.keys():  # nothing presses the back in this case
        if key[2] != "slenderness RB":
            assert key[0] in ("back_bearing", "hold_down:edge"), key
            assert np.max(np.atleast_2d(many[key].demand)[number]) == 0, key


FIELDS = list(SWEPT)
HELD_TWO_WAYS = {
    "tied": [clip("back"), clip("edge")],
    "loose": [clip("back"), clip("16 in")],
    "back only": [clip("back")],
}
JOINT = {
    "live_deflection": 240, "joint_width": "1/2 in", "joint_class": 50,
    "moisture_change": "6 %", "clip_slip": "1/8 in", "below_clearance": "1 in",
}  # fmt: skip


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("field", FIELDS)
@pytest.mark.parametrize("held", HELD_TWO_WAYS.values(), ids=HELD_TWO_WAYS)
def test_cases_in_one_call_equal_single_calls(held, field, method):
    """Bit for bit: a sweep and a check are one path. Bearing at the back and the missing tie stand
    only where a case of the batch needs them, so they may be missing from a case alone."""
    plain = case(hold_down=held, basis__method=method, limits=JOINT)
    values = spread(*SWEPT[field])
    together = designs_of(batch_of(plain, {field: values}))
    assert together.count == len(values) >= 21
    for i, value in enumerate(values):
        same_bits(together, design(with_numbers(plain, {field: value})), i)


def test_slenderness_in_a_batch_is_that_of_each_case():
    """Short back spans are steeper on the arm, long ones on the back span."""
    plain = case(outrigger__blocking=["edge"], gap__width="20 in")
    values = np.linspace(12.0, 90.0, 21)
    together = designs_of(batch_of(plain, {"outrigger.back_span": values}))
    for i, value in enumerate(values):
        alone = design(with_numbers(plain, {"outrigger.back_span": value}))
        same_bits(together, alone, i, steepest=True)


@pytest.mark.parametrize(
    "field",
    [
        "gap.width",
        "snow.roof",
        "outrigger.spacing",
        "outrigger.back_span",
        "garage_roof.span",
    ],
)
def test_the_plate_between_outriggers_in_a_batch(field):
    plain = case(garage_wall__studs_over_outriggers=False)
    values = np.linspace(*SWEPT[field], 7)
    together = designs_of(batch_of(plain, {field: values}))
    for i, value in enumerate(values):
        same_bits(together, design(with_numbers(plain, {field: value})), i)


@few_draws
@given(CHANGES, st.sampled_from(METHODS), st.sampled_from(EDITIONS))
def test_two_supports_equal_the_closed_forms(changes, method, edition):
    """M, V, uplift at the back and push at the edge, every combination, to 1e-9."""
    changes = {**changes, "garage_roof__overhang": "none"}
    result = designed(**changes, basis__method=method, basis__loads=edition)
    hand = by_hand.hand(result.model, result.main.combinations.factors, 7.25)
    pairs = [
        (hand.moment(), -result.main.M[-1]),
        (hand.arm_shear(), result.main.V_arm),
        (hand.back_pull(), -result.main.R[0]),
        (hand.edge_push(), result.main.R[-1]),
    ]
    for step, engine in pairs:
        size = np.abs(engine).max() + 1
        assert np.asarray(step.value) == pytest.approx(engine, abs=1e-9 * size)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("method", METHODS)
def test_method_and_edition_never_mix(method, edition):
    """ASD columns are CDs, LRFD columns lambdas; every source names the edition; clips are ASD."""
    result = designed(basis__method=method, basis__loads=edition)
    times = {"ASD": {0.9, 1.0, 1.15, 1.25, 1.6}, "LRFD": {0.6, 0.7, 0.8, 1.0}}
    chapter = {"ASD": "2.4.", "LRFD": "2.3."}
    for over, own in ((result.main.combinations, method), (result.clips.combinations, "ASD")):
        assert over.method == own
        assert set(over.times.ravel()) == times[own]
        for one in over.all:
            assert one.ours or one.source.startswith(f"{edition} {chapter[own]}")
    for one in result.checks:
        names = {s.symbol for top in one.steps for s in top.chain()}
        if one.id.startswith("hold_down"):
            assert one.combinations == result.clips.combinations.all
            assert not names & {"KF", "phi", "lam"}
        elif method == "ASD":
            assert not names & {"KF", "phi", "lam"}
        else:
            assert "CD" not in names


# In order of falling design values, Fb, Fv, Fc_perp, E, Emin and G alike (NDS Supplement 2018 4A)
WORSE = [("Douglas Fir-Larch", "No. 2"), ("Hem-Fir", "No. 2"), ("Northern Species", "No. 2")]
GRADES = ["Select Structural", "No. 1", "No. 2", "No. 3"]


def all_ratios(result):
    return {
        (c.id, c.place, c.link.id): float(np.max(c.ratio))
        for c in result.checks
        if c.capacity is not None and c.rule != "fail" and not c.link.missing
    }


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("size", ["2x6", "2x8", "2x10"])
@pytest.mark.parametrize("by", ["species", "grade"])
def test_worse_wood_never_lowers_a_ratio(by, size, method):
    """The weight falls with G: the loads are left as they were, self weight held at one value.
    Slenderness is of the shape only; clips of the listing only."""
    woods = WORSE if by == "species" else [("Hem-Fir", grade) for grade in GRADES]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(loads, "self_weight", lambda wood, area: 0.18719)
        ratios = [
            all_ratios(
                designed(
                    outrigger__species=species,
                    outrigger__grade=grade,
                    outrigger__size=size,
                    basis__method=method,
                )
            )
            for species, grade in woods
        ]
    for better, worse in pairwise(ratios):
        for key, ratio in better.items():
            assert worse[key] >= ratio - 1e-12, key


@few_draws
@given(CHANGES, HELD, st.sampled_from(METHODS), st.sampled_from(EDITIONS))
def test_a_pass_has_no_ratio_over_one_and_nothing_missing(changes, held, method, edition):
    """The word and the numbers come from one place."""
    result = designed(**changes, hold_down=held, basis__method=method, basis__loads=edition)
    ratios = [r.ratio for r in result.rows]
    if result.verdict == "pass":
        assert all(r is not None and r <= 1 for r in ratios)
        assert not result.not_given
        assert not result.not_covered
    if any(r is not None and r > 1 for r in ratios):
        assert result.verdict == "fail"


@few_draws
@given(CHANGES)
def test_more_of_any_gravity_load_never_lowers_the_push_at_the_edge(changes):
    """Roof, snow, storage and wall: all press the edge, wherever they lie."""
    plain = case(**changes)
    before = np.max(design(plain).main.R[-1])
    for field, more in [("garage_roof.live", 5 / 144), ("snow.roof", 5 / 144)]:
        section, key = field.split(".")
        value = getattr(getattr(plain, section), key) + more
        assert np.max(design(with_numbers(plain, {field: value})).main.R[-1]) >= before - 1e-9


def test_the_shared_case_is_not_changed_by_a_test():
    assert check(designed(), "hold_down:back").capacity is not None
    assert TABLES["gap"]["width"] == "7 in"


def test_lrfd_and_asd_rank_snow_dominated_designs_alike():
    """Under dead and snow alone the order of the members by their bending ratio is the same: LRFD
    has (1.2 D + 1.6 S) / (2.54 x 0.85 x 0.8) for (D + S) / 1.15 of ASD, near the same for all."""
    bare = {"garage_roof__live": "none", "house_roof__live": "none"}
    calm = {"wind": {"uplift": "none"}, **CALM, **bare}
    members = [
        {"outrigger__size": size, "snow__roof": snow, "gap__width": gap}
        for size in ("2x6", "2x8", "2x10")
        for snow in ("50 psf", "70 psf")
        for gap in ("4 in", "8 in")
    ]
    ratios = {
        method: [
            row(designed(basis__method=method, **one, **calm), "bending", "", "edge").ratio
            for one in members
        ]
        for method in ("ASD", "LRFD")
    }
    assert np.argsort(ratios["ASD"]).tolist() == np.argsort(ratios["LRFD"]).tolist()


@pytest.mark.parametrize("method", ["ASD", "LRFD"])
@pytest.mark.parametrize("way", ["down the slope", "across the slope"])
def test_a_sloped_sweep_equals_single_runs(method, way):
    """Forces along and across, both axes, a notch, shear relief: each gap alone and in a batch
    agree to the last bit."""
    gaps = np.array([3.0, 6.5, 7.0, 11.0, 18.0])
    base = case(
        basis__method=method, house_roof__pitch="5:12", house_roof__direction=way,
        garage_wall__out_of_plane_wind="20 psf", garage_wall__along="25 plf",
        outrigger__bottom_notch="1/2 in", outrigger__near_support_relief=True,
        outrigger__size="2x10", garage_roof__overhang="none",
    )  # fmt: skip
    swept = designs_of(batch_of(base, {"gap.width": gaps}))
    for i, gap in enumerate(gaps):
        alone = design(with_numbers(base, {"gap.width": gap}))
        for one, many in zip(alone.checks, swept.checks, strict=True):
            assert (one.id, one.place, one.link) == (many.id, many.place, many.link)
            assert one.status() == many.status(i)
            first, here = alone.row(one), swept.row(many, i)
            assert (first.demand, first.capacity, first.ratio) == (
                here.demand, here.capacity, here.ratio
            )  # fmt: skip
