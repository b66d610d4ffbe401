"""Bad input to the beam: the error names the field and the value."""

import numpy as np
import pytest

from outrigger.statics.beam import Beam, Couple, Point, Uniform, solve

GOOD = {"supports": (0.0, 48.0), "EI": 1e7, "start": 0.0, "end": 72.0}


def refused(words, loads=(), **fields):
    with pytest.raises(ValueError) as error:
        solve(Beam(**(GOOD | fields)), list(loads))
    assert words in str(error.value), str(error.value)


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("supports", (48.0, 0.0), "supports = 0: must ascend"),
        ("supports", (0.0, 0.0), "supports = 0: must ascend"),
        ("supports", (0.0, 30.0, 30.0, 48.0), "supports = 30: must ascend"),
        ("supports", (0.0, 30.0, 30.01, 48.0), "supports = 30.01: must ascend"),
        ("supports", (0.0, 30.0, 20.0), "supports = 20: must ascend"),
        ("supports", (0.0,), "supports are 1 and stiffness 1: give 2 supports or more"),
        ("supports", (), "supports has the shape (0,)"),
        ("supports", 48.0, "supports has the shape (): give 1 or 2 dimensions"),
        ("supports", (0.0, np.nan), "supports = nan: must be a finite number"),
        ("supports", (0.0, np.inf), "supports = inf: must be a finite number"),
        ("supports", (0.0, "wall"), "supports = (0.0, 'wall'): must be numbers"),
        ("supports", ((0.0, 48.0), (48.0, 0.0)), "supports = 0 in row 1: must ascend"),
        ("supports", (-1.0, 48.0), "supports = -1: outside the member, which is 0 to 72 in"),
        ("supports", (0.0, 73.0), "supports = 73: outside the member, which is 0 to 72 in"),
        ("EI", 0.0, "EI = 0: must be above 0"),
        ("EI", -1e7, "EI = -1e+07: must be above 0"),
        ("EI", np.nan, "EI = nan: must be a finite number"),
        ("EI", np.inf, "EI = inf: must be a finite number"),
        ("EI", (1e7, 0.0), "EI = 0 in row 1: must be above 0"),
        ("EI", ((1e7,),), "EI has the shape (1, 1): give 0 or 1 dimensions"),
        ("EI", None, "EI = nan"),
        ("GA", 0.0, "GA = 0: must be above 0"),
        ("GA", np.nan, "GA = nan: must be a number"),
        ("stiffness", 0.0, "stiffness = 0: must be above 0"),
        ("stiffness", (np.inf, -5.0), "stiffness = -5: must be above 0"),
        ("stiffness", (1e4, np.nan), "stiffness = nan: must be a number"),
        ("stiffness", (1e4, 1e4, 1e4), "supports are 2 and stiffness 3"),
        ("start", 72.0, "start = 72: must be short of end"),
        ("start", np.nan, "start = nan: must be a finite number"),
        ("end", np.inf, "end = inf: must be a finite number"),
    ],
)
def test_beam(field, value, words):
    """One field of the beam at a time."""
    refused(words, **{field: value})


@pytest.mark.parametrize(
    ("load", "words"),
    [
        (Point(72.1, 1.0), "loads[1].at = 72.1: outside the member, which is 0 to 72 in"),
        (Point(-0.1, 1.0), "loads[1].at = -0.1: outside the member"),
        (Point(np.nan, 1.0), "loads[1].at = nan: must be a finite number"),
        (Point(10.0, np.nan), "loads[1].force = nan: must be a finite number"),
        (Point(10.0, (1.0, 2.0)), "loads[1].force has the shape (2,): give 0 or 2 dimensions"),
        (Point(((1.0,),), 1.0), "loads[1].at has the shape (1, 1): give 0 or 1 dimensions"),
        (Uniform(30.0, 20.0, 1.0), "loads[1].start = 30: must not be beyond end"),
        (Uniform(-1.0, 20.0, 1.0), "loads[1].start = -1: outside the member"),
        (Uniform(30.0, 80.0, 1.0), "loads[1].end = 80: outside the member"),
        (Uniform(0.0, 20.0, np.inf), "loads[1].load = inf: must be a finite number"),
        (Uniform((0.0, 30.0), 20.0, 1.0), "loads[1].start = 30 in row 1: must not be beyond end"),
        (Couple(99.0, 1.0), "loads[1].at = 99: outside the member"),
        (Couple(9.0, "x"), "loads[1].moment = 'x': must be numbers"),
    ],
)
def test_load(load, words):
    """The second of two loads is wrong and is the one named."""
    refused(words, [Point(1.0, 1.0), load])


def test_the_range_named_is_that_of_the_row():
    """Members of different length: the wrong one's ends are named."""
    words = "loads[0].at = 60 in row 1: outside the member, which is 2 to 50 in"
    supports = ((0.0, 48.0), (4.0, 48.0))
    refused(words, [Point(60.0, 1.0)], supports=supports, start=(0.0, 2.0), end=(72.0, 50.0))


def test_ends_of_the_member_are_inside():
    """Boundary: supports and loads may stand at both ends; a load may have no length."""
    loads = [Point(0.0, 1.0), Couple(72.0, 1.0), Uniform(0.0, 72.0, 1.0), Uniform(9.0, 9.0, 1.0)]
    held = solve(Beam((0.0, 72.0), 1e7, 0.0, 72.0), loads).reactions
    assert held.sum() == pytest.approx(1.0 + 72.0)


def test_shapes_that_differ():
    """Numbers of cases and of components must agree, or be 1."""
    refused("cases do not agree: {'supports': 3, 'EI': 2}", supports=[(0, 48)] * 3, EI=(1e7, 1e7))
    two, three = Point(9.0, np.ones((1, 2))), Point(9.0, np.ones((1, 3)))
    words = "components do not agree: {'loads[0].force': 2, 'loads[1].force': 3}"
    refused(words, [two, three])
    refused("cases do not agree", [Point((9.0, 9.0), 1.0), Point((9.0, 9.0, 9.0), 1.0)])


def test_places_asked_of_a_solution():
    """Each result refuses a place outside the member, and places that do not fit the cases."""
    one = solve(Beam(**GOOD), [Point(60.0, 1.0)])
    two = solve(Beam(**(GOOD | {"EI": (1e7, 2e7)})), [Point(60.0, 1.0)])
    for name in ("moment", "shear", "slope", "deflection"):
        with pytest.raises(ValueError, match=r"^x = 72\.5: outside the member, which is 0 to 72"):
            getattr(one, name)(72.5)
        with pytest.raises(ValueError, match=r"^x = nan: must be a finite number"):
            getattr(one, name)(np.nan)
        with pytest.raises(ValueError, match=r"^x has 3 places: give 1 or 2, one for a case"):
            getattr(two, name)((1.0, 2.0, 3.0))
    for name in ("moment", "shear"):
        with pytest.raises(ValueError, match=r'^side = \'both\': "left" or "right"'):
            getattr(one, name)(9.0, "both")
