"""Supports that can only push: which are let go, what the others then carry, when nothing holds.

By hand from statics, and against every set of supports tried with the direct stiffness method of
stiffness_method.py.
"""

from itertools import combinations

import numpy as np
import pytest
from msgspec.structs import asdict
from one_way import solve_one_way
from stiffness_method import stiffness_method

from outrigger.statics.beam import Beam, Couple, Point, Uniform, solve

EXACT = 1e-12  # round-off only
EI = 2e7
KINDS = {"point": Point, "uniform": Uniform, "couple": Couple}


def test_uplift_at_the_tip_lifts_the_edge():
    """By hand: edge at 0, not tied; hold-downs at -16 and -48; net uplift of 300 lb at 24 outward.
    The edge lifts off. Moments about the hold-down at -48: the one at -16 pulls down
    300 x (24 + 48) / (48 - 16) = 675 lb, which is P (1 + (a + x1) / (x2 - x1)), as
    1 + (24 + 16) / 32 = 2.25; the one at -48 pushes up 675 - 300 = 375 lb."""
    P, a, x1, x2 = 300.0, 24.0, 16.0, 48.0
    ours = solve_one_way(Beam((-x2, -x1, 0), EI, -50, a), [Point(a, -P)], (True, True, False))
    assert P * (1 + (a + x1) / (x2 - x1)) == 675
    assert ours.stands.all()
    assert ours.reactions[0, 0] == pytest.approx([375, -675, 0], rel=EXACT)
    # all numbers are those of the released beam: nothing acts at 0
    assert ours.moment(-x1).item() == pytest.approx(P * (a + x1), rel=EXACT)
    assert ours.moment(0).item() == pytest.approx(P * a, rel=EXACT)
    assert ours.shear(-1).item() == pytest.approx(-P, rel=EXACT)
    assert ours.deflection((-x2, -x1))[:, 0] == pytest.approx([0, 0], abs=1e-15)
    # overhang formula, case a: P c^2 (L + c) / 3 EI with c = 24 + 16, L = 32
    tip = -P * 40**2 * (32 + 40) / (3 * EI)
    assert ours.deflection(a).item() == pytest.approx(tip, rel=EXACT)


def test_one_hold_down_and_no_edge_tie_does_not_stand():
    """By hand: with the edge gone one support is left. As if tied (case a of the closed forms):
    edge -P (1 + a / L) = -300 x 1.5 = -450 lb, hold-down P a / L = 150 lb."""
    ours = solve_one_way(Beam((-48, 0), EI, -50, 24), [Point(24, -300)], (True, False))
    tied = solve(Beam((-48, 0), EI, -50, 24), [Point(24, -300)])
    assert not ours.stands.any()
    assert ours.reactions[0, 0] == pytest.approx([150, -450], rel=EXACT)
    assert ours.reactions.tobytes() == tied.reactions.tobytes()
    assert ours.deflection(24).tobytes() == tied.deflection(24).tobytes()


def test_middle_support_lifts():
    """By hand: supports at 0, 40, 80, none tied; 400 lb at 10, 200 lb at 100. Moments about 80:
    R1 = (400 x 70 - 200 x 20) / 80 = 300, so R3 = 300. Were there no middle support, the beam would
    go up there: closed forms, case e, M0 = 200 x 20: 4,000 x 40 (80^2 - 40^2) / (6 EI 80) =
    1,600,000 / EI up; case d, c = 10, x = 40, L = 80: 400 x 10 x (-40) (-2 x 80 x 40 + 10^2 + 40^2)
    / (6 EI 80) = 1,566,667 / EI down."""
    beam, loads = Beam((0, 40, 80), EI, 0, 120), [Point(10, 400), Point(100, 200)]
    ours = solve_one_way(beam, loads, (False, False, False))
    assert ours.stands.all()
    assert solve(beam, loads).reactions[0, 0, 1] < 0
    assert ours.reactions[0, 0] == pytest.approx([300, 0, 300], rel=EXACT)
    clear = (4_700_000 / 3 - 1_600_000) / EI
    assert ours.deflection(40).item() == pytest.approx(clear, rel=1e-10)  # difference, 48 x larger


def test_nothing_is_let_go_where_all_push():
    """By hand: a load on each support goes straight down; the linear numbers to the last bit."""
    beam, loads = Beam((0, 40, 80), EI, 0, 120), [Point(0, 10), Point(40, 20), Point(80, 30)]
    ours = solve_one_way(beam, loads, (False, False, False))
    assert ours.stands.all()
    assert ours.reactions[0, 0] == pytest.approx([10, 20, 30], rel=EXACT)
    assert ours.reactions.tobytes() == solve(beam, loads).reactions.tobytes()


def test_no_load_stands():
    """By hand: nothing pulls where nothing acts."""
    ours = solve_one_way(Beam((0, 40), EI, 0, 60), [Point(60, 0)], (False, False))
    assert ours.stands.all() and not ours.reactions.any()


@pytest.mark.parametrize(("at", "stands"), [(39.9, True), (40.0, True), (40.1, False)])
def test_load_at_the_outermost_support_and_a_step_to_each_side(at, stands):
    """By hand: supports at 0 and 40 that only push hold a load between them, not one beyond."""
    ours = solve_one_way(Beam((0, 40), EI, 0, 60), [Point(at, 100)], (False, False))
    assert ours.stands.item() is stands


def test_each_component_is_its_own_combination():
    """By hand: without load nothing acts; with 300 lb up at the tip the edge is let go and the
    hold-downs carry 375 and -675 as in the first test; each case and component on its own."""
    beam = Beam((-48, -16, 0), (EI, 2 * EI), -50, 24)
    force = [[-300.0, 0.0], [0.0, -300.0]]
    ours = solve_one_way(beam, [Point(24, force)], (True, True, False))
    released, none = pytest.approx([375, -675, 0], rel=EXACT), [0, 0, 0]
    assert ours.stands.all()
    assert ours.reactions[0, 0] == released and ours.reactions[1, 1] == released
    assert ours.reactions[0, 1].tolist() == none and ours.reactions[1, 0].tolist() == none
    softer, stiffer = ours.deflection(24)[0, 0], ours.deflection(24)[1, 1]
    assert softer == pytest.approx(2 * stiffer, rel=EXACT)  # deflection goes with 1 / EI


# --- every set of supports, by another method ----------------------------------------------------

LENGTH = 120.0


def random_case(rng, n, springs):
    """Supports on a grid of 4 in, three loads, some supports tied."""
    supports = np.sort(rng.choice(np.arange(0, LENGTH + 1, 4), n, replace=False))
    stiffness = [10 ** rng.uniform(3, 6) if springs and rng.random() < 0.6 else np.inf] * n
    loads = [
        ("point", rng.integers(0, 241) / 2, rng.normal(100, 500)),
        ("uniform", *np.sort(rng.integers(0, 241, 2)) / 2, rng.normal(3, 10)),
        ("couple", rng.integers(0, 241) / 2, rng.normal(0, 3000)),
    ]
    return supports, stiffness, loads, tuple(bool(p) for p in rng.random(n) < 0.3)


def every_set(supports, stiffness, loads, pulls):
    """All sets of untied supports let go with two or more left: those in which the rest push and
    the beam is clear of the others. Tolerances: round-off of the other method, with a margin."""
    n, found = len(supports), []
    untied = [i for i in range(n) if not pulls[i]]
    for gone in (g for count in range(n - 1) for g in combinations(untied, count)):
        kept = [i for i in range(n) if i not in gone]
        k = [stiffness[i] for i in kept]
        answer = stiffness_method(supports[kept], k, EI, 3e5, 0, LENGTH, loads, supports)
        reactions = np.zeros(n)
        reactions[kept] = answer.reactions
        clear = all(answer.deflection[supports[i]] <= 1e-9 for i in gone)
        if clear and all(reactions[i] >= -1e-7 for i in untied):
            found.append((reactions, answer))
    return found


@pytest.mark.parametrize("springs", [False, True], ids=["rigid", "springs"])
@pytest.mark.parametrize("n", [2, 3, 4, 5])
def test_random_beams_against_every_set_of_supports(n, springs):
    """Direct stiffness method on every set: at most one state is in equilibrium, and it is ours, to
    1e-9 of the largest number of the beam."""
    rng, fell, let_go = np.random.default_rng([n, springs]), 0, 0
    for _ in range(30):
        supports, stiffness, loads, pulls = random_case(rng, n, springs)
        beam = Beam(supports, EI, 0, LENGTH, 3e5, stiffness)
        ours = solve_one_way(beam, [KINDS[kind](*numbers) for kind, *numbers in loads], pulls)
        found = every_set(supports, stiffness, loads, pulls)
        assert len(found) <= 1
        assert ours.stands.item() is bool(found)
        fell += not found
        if not found:
            continue
        reactions, answer = found[0]
        let_go += not reactions.all()
        scale = np.abs(reactions).max()
        assert ours.reactions[0, 0] == pytest.approx(reactions, rel=0, abs=1e-9 * scale)
        assert_same_lines(ours, answer)
    assert fell > 0 and (let_go > 0 or n == 2)  # both outcomes are met among the 30


def assert_same_lines(ours, answer):
    places = sorted(answer.deflection)
    y, turn = [answer.deflection[x] for x in places], [answer.turn[x] for x in places]
    M, V = ([line[x, "left"] for x in places[1:]] for line in (answer.moment, answer.shear))
    for value, expected in (
        (ours.deflection(places), y),
        (ours.slope(places), turn),
        (ours.moment(places[1:], "left"), M),
        (ours.shear(places[1:], "left"), V),
    ):
        scale = np.abs(expected).max()
        assert value[:, 0] == pytest.approx(expected, rel=0, abs=1e-9 * scale)


def batch(rng, cases, n, components):
    supports = np.cumsum(rng.uniform(8, 30, (cases, n)), axis=1)
    stiffness = np.where(rng.random((cases, n)) < 0.5, np.inf, rng.uniform(1e3, 1e5, (cases, n)))
    start, end = supports[:, 0] - 3, supports[:, -1] + 30
    beam = Beam(supports, rng.uniform(1e7, 1e8, cases), start, end, 3e5, stiffness)
    force = rng.normal(50, 300, (cases, components))
    return beam, [Point(end - 5, force), Uniform(start, end, rng.normal(1, 4, (cases, components)))]


@pytest.mark.parametrize("pulls", [(True, True, False), (False, True, False, True, False)])
def test_reactions_balance_the_loads(pulls):
    """Law: in every cell, standing or not, vertical forces and moments about the end are zero."""
    beam, loads = batch(np.random.default_rng(8), 60, len(pulls), 4)
    ours, end = solve_one_way(beam, loads, pulls), np.asarray(beam.end)
    length = (end - np.asarray(beam.start))[:, None]
    arms = (end[:, None] - np.asarray(beam.supports))[:, None, :]
    lost = ours.reactions.sum(axis=2) - loads[0].force - loads[1].load * length
    turning = (ours.reactions * arms).sum(axis=2)
    turning = turning - loads[0].force * 5 - loads[1].load * length**2 / 2
    scale = np.abs(ours.reactions).max()
    assert np.abs(lost).max() <= EXACT * scale
    assert np.abs(turning).max() <= EXACT * scale * length.max()
    untied = [i for i, tied in enumerate(pulls) if not tied]
    assert ours.reactions[ours.stands][:, untied].min() >= -1e-9 * scale
    assert (ours.reactions[ours.stands] == 0).any()  # some supports were let go


@pytest.mark.parametrize(
    "pulls", [(True, False), (True, True, False), (False, False, True, False), (False,) * 5]
)
def test_a_case_alone_equals_the_case_in_a_batch_to_the_last_bit(pulls):
    """Law: a batch is nothing but its cases, whatever is let go in them."""
    beam, loads = batch(np.random.default_rng(5), 41, len(pulls), 3)
    whole = solve_one_way(beam, loads, pulls)
    for i in range(41):
        alone = solve_one_way(case_of(beam, i), [case_of(load, i) for load in loads], pulls)
        assert alone.stands.tolist() == whole.stands[i : i + 1].tolist()
        assert alone.reactions.tobytes() == whole.reactions[i].tobytes()
        x = np.asarray(beam.end) - 20
        for name in ("moment", "shear", "slope", "deflection"):
            single, of_batch = getattr(alone, name)(x[i]), getattr(whole, name)(x)
            assert single.tobytes() == of_batch[i].tobytes()


def case_of(thing, i):
    """One case of a batch; what all cases share stays as it is."""
    fields = {name: np.asarray(value) for name, value in asdict(thing).items()}
    return type(thing)(**{n: v[i : i + 1] if v.ndim else v for n, v in fields.items()})
