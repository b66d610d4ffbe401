"""Another method, same answer: the force method against the direct stiffness method.

stiffness_method.py shares no line with the program. Places lie on a grid of 1/4 in (1 in where
hypothesis picks them: beside soft springs the other method loses digits to shorter elements),
supports on a grid of 2 in. Each quantity is held to 1e-9 of its largest value on the beam; where
loads nearly cancel only their round-off is left, so the measure is never under a thousandth of
what the gross load does to a beam of that length.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import astuple
from stiffness_method import stiffness_method

from outrigger.statics.beam import Beam, Couple, Point, Uniform, solve

RELATIVE = 1e-9
LENGTH = 120.0
KINDS = {"point": Point, "uniform": Uniform, "couple": Couple}


def loads_of(tuples):
    return [KINDS[kind](*numbers) for kind, *numbers in tuples]


def gross(loads):
    """Loads without their signs, lb; a couple as a pair of forces at the ends."""
    force = {
        "point": lambda at, P: abs(P),
        "uniform": lambda s, e, w: abs(w) * (e - s),
        "couple": lambda at, M: abs(M) / LENGTH,
    }
    return sum(force[kind](*numbers) for kind, *numbers in loads)


def agrees(value, expected, floor):
    value, expected = np.asarray(value), np.asarray(expected)
    scale = max(np.abs(expected).max(), 1e-3 * floor)
    return np.abs(value - expected).max() <= RELATIVE * scale


def check(supports, stiffness, EI, GA, loads, places):
    """Every quantity of one beam, at every node of the other method and on both sides of it."""
    other = stiffness_method(supports, stiffness, EI, GA, 0, LENGTH, loads, places)
    ours = solve(Beam(supports, EI, 0, LENGTH, GA, stiffness), loads_of(loads))
    P, x = gross(loads), sorted(other.turn)
    assert agrees(ours.reactions[0, 0], other.reactions, P)
    turn, deflection = [other.turn[p] for p in x], [other.deflection[p] for p in x]
    assert agrees(ours.slope(x)[:, 0], turn, P * LENGTH**2 / EI)
    assert agrees(ours.deflection(x)[:, 0], deflection, P * LENGTH**3 / EI)
    for side, at in (("left", x[1:]), ("right", x[:-1])):
        assert agrees(ours.shear(at, side)[:, 0], [other.shear[p, side] for p in at], P)
        moment = [other.moment[p, side] for p in at]
        assert agrees(ours.moment(at, side)[:, 0], moment, P * LENGTH)


def random_beam(rng, n, springs, sheared):
    supports = np.sort(rng.choice(np.arange(0, LENGTH + 1, 2), n, replace=False))
    stiffness = np.full(n, np.inf)
    if springs:
        soft = rng.random(n) < 0.6
        stiffness[soft] = 10 ** rng.uniform(3, 6, soft.sum())
    GA = 10 ** rng.uniform(4, 6) if sheared else np.inf
    return supports, stiffness, 10 ** rng.uniform(6.5, 8.5), GA


def random_loads(rng):
    def place(count):
        return np.sort(rng.integers(0, int(LENGTH) * 4 + 1, count)) / 4

    loads = [("point", *place(1), rng.normal(0, 500)), ("couple", *place(1), rng.normal(0, 5000))]
    loads += [("uniform", *place(2), rng.normal(0, 20)) for _ in range(2)]
    count = rng.integers(1, 5)
    return [loads[i] for i in rng.permutation(4)[:count]], place(4)


@pytest.mark.parametrize("sheared", [False, True], ids=["bending", "bending and shear"])
@pytest.mark.parametrize("springs", [False, True], ids=["rigid", "springs"])
@pytest.mark.parametrize("n", [2, 3, 4, 5, 6])
def test_random_beams(n, springs, sheared):
    """Direct stiffness method, 40 seeded beams of each kind."""
    rng = np.random.default_rng([n, springs, sheared])
    for _ in range(40):
        loads, places = random_loads(rng)
        check(*random_beam(rng, n, springs, sheared), loads, places)


whole_inch = st.integers(0, int(LENGTH)).map(float)
size = st.floats(-1000, 1000).filter(lambda s: s == 0 or abs(s) > 1e-3)
one_load = st.one_of(
    st.tuples(st.just("point"), whole_inch, size),
    st.tuples(st.just("couple"), whole_inch, size),
    st.tuples(whole_inch, whole_inch, size).map(
        lambda t: ("uniform", min(t[0], t[1]), max(t[0], t[1]), t[2])
    ),
)


@st.composite
def beams(draw):
    even = st.integers(0, int(LENGTH) // 2).map(lambda i: 2.0 * i)
    supports = sorted(draw(st.sets(even, min_size=2, max_size=6)))
    spring = st.one_of(st.just(np.inf), st.floats(1e3, 1e6))
    stiffness = draw(st.lists(spring, min_size=len(supports), max_size=len(supports)))
    GA = draw(st.one_of(st.just(np.inf), st.floats(1e4, 1e6)))
    return supports, stiffness, draw(st.floats(3e6, 3e8)), GA


@given(beams(), st.lists(one_load, min_size=1, max_size=5), st.lists(whole_inch, max_size=3))
def test_any_beam(beam, loads, places):
    """Direct stiffness method, beams that hypothesis makes up."""
    check(*beam, loads, places)


def batch(rng, cases, n):
    """Random beams as one batch of three components, every input of its own."""
    supports = np.cumsum(rng.uniform(8, 30, (cases, n)), axis=1)
    stiffness = np.where(rng.random((cases, n)) < 0.5, np.inf, rng.uniform(1e3, 1e5, (cases, n)))
    start, end = supports[:, 0] - rng.uniform(0, 5, cases), supports[:, -1] + 40
    GA = np.where(rng.random(cases) < 0.5, np.inf, rng.uniform(1e5, 1e6, cases))
    beam = Beam(supports, rng.uniform(1e7, 1e8, cases), start, end, GA, stiffness)
    at = start + rng.random((3, cases)) * (end - start)
    sizes = rng.normal(0, 100, (4, cases, 3))
    loads = [Point(end - 5, sizes[0]), Uniform(at[:2].min(axis=0), at[:2].max(axis=0), sizes[1])]
    return beam, [*loads, Couple(at[2], sizes[2]), Uniform(start, end, sizes[3])], at


def case_of(thing, i):
    """One case of a batch, with a leading axis of one."""
    return type(thing)(*(np.asarray(value)[i : i + 1] for value in astuple(thing)))


@pytest.mark.parametrize("n", [2, 3, 5])
def test_a_case_alone_equals_the_case_in_a_batch_to_the_last_bit(n):
    """Law: a batch is nothing but its cases."""
    beam, loads, at = batch(np.random.default_rng(n), 37, n)
    whole = solve(beam, loads)
    for i in range(37):
        alone = solve(case_of(beam, i), [case_of(load, i) for load in loads])
        x = at[0, i]
        assert alone.reactions.tobytes() == whole.reactions[i].tobytes()
        for name in ("moment", "shear", "slope", "deflection"):
            single, of_batch = getattr(alone, name)(x), getattr(whole, name)(at[0])
            assert single.tobytes() == of_batch[i].tobytes()


@pytest.mark.parametrize("n", [2, 3, 4, 6])
def test_reactions_balance_the_loads(n):
    """Law: loads and reactions are in equilibrium, so shear and moment past the last are zero."""
    beam, loads, _ = batch(np.random.default_rng(n), 50, n)
    solved = solve(beam, loads)
    point, part, couple, even = loads
    start, end = np.asarray(beam.start)[:, None], np.asarray(beam.end)[:, None]
    length = np.asarray(part.end - part.start)[:, None]
    forces = point.force + part.load * length + even.load * (end - start)
    about_end = point.force * 5 - couple.moment + even.load * (end - start) ** 2 / 2
    about_end = about_end + part.load * length * (end - (part.start + part.end)[:, None] / 2)
    arms = end[..., None] - np.asarray(beam.supports)[:, None]
    lost = solved.reactions.sum(axis=2) - forces
    lost_moment = (solved.reactions * arms).sum(axis=2) - about_end
    scale = np.abs(solved.reactions).max()
    assert np.abs(lost).max() <= 1e-12 * scale
    assert np.abs(lost_moment).max() <= 1e-12 * scale * 200
    assert np.abs(solved.shear(beam.end)).max() <= 1e-12 * scale
    assert np.abs(solved.moment(beam.end)).max() <= 1e-12 * scale * 200


def test_shapes():
    """Results are (cases, components), whichever input brings the cases."""
    loads = [Point(110, [[1.0, 2.0, 3.0]]), Uniform(0, 50, 4.0)]
    for many in (
        {"EI": np.full(5, 1e7)},
        {"supports": np.tile((0.0, 30.0, 60.0), (5, 1))},
        {"GA": np.full(5, 1e5)},
        {"end": np.full(5, 120.0)},
        {"stiffness": np.full((5, 3), 1e4)},
    ):
        fields = {"supports": (0, 30, 60), "EI": 1e7, "start": 0, "end": 120} | many
        solved = solve(Beam(**fields), loads)
        results = (solved.moment(50), solved.shear(np.full(5, 50)), solved.slope(50))
        for result in (*results, solved.deflection(50)):
            assert result.shape == (5, 3)
        assert solved.reactions.shape == (5, 3, 3)
    one = solve(Beam((0, 60), 1e7, 0, 120), loads)
    assert one.moment(np.linspace(0, 120, 7)).shape == (7, 3)
    assert solve(Beam((0, 60), 1e7, 0, 120), []).reactions.tolist() == [[[0.0, 0.0]]]
