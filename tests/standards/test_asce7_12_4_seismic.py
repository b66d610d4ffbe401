"""ASCE 7 12.4 and 12.8: vertical effect, upward case, estimated lateral force. By hand."""

import numpy as np
import pytest

from outrigger.base.errors import InputError
from outrigger.base.tables import MEMORY
from outrigger.formula.text import line
from outrigger.loads import seismic


def all_recalled(step):
    """Every formula and every value that was not given is marked as recalled."""
    return all(s.status == MEMORY for s in step.chain())


def test_vertical_effect_by_hand():
    """12.4.2.2: Ev = 0.2 x 1.0 x 500 lb = 100 lb; at allowable stress 0.7 x that, 0.14 SDS D."""
    step = seismic.vertical(SDS=1.0, D_dead=500.0)
    assert step.value == pytest.approx(100.0)
    assert 0.7 * step.value == pytest.approx(0.14 * 500)
    assert line(step).endswith("= 0.2 × 1 × 500 = 100 lb")
    assert all_recalled(step)


@pytest.mark.parametrize("category", ["D", "E", "F"])
def test_cantilever_upward_force_by_hand(category):
    """12.4.4: 0.2 x 500 lb = 100 lb, net, alone."""
    step = seismic.upward(category=category, D_dead=500.0)
    assert step.value == pytest.approx(100.0)
    assert step.note == f"category {category}, a case on its own"
    assert all_recalled(step)


@pytest.mark.parametrize("category", ["A", "B", "C"])
def test_no_upward_force_below_category_d(category):
    step = seismic.upward(category=category, D_dead=500.0)
    assert step.value == 0
    assert "asked for in D to F only" in step.note


def test_category_that_does_not_exist():
    with pytest.raises(InputError, match=r'category "G": not known\. Allowed: A, B, C, D, E, F'):
        seismic.upward(category="G", D_dead=500.0)


def test_lateral_estimate_by_hand():
    """SDS 1.3, W 600 lb: 1.3 / (6.5 / 1) = 0.2; 0.2 x 600 = 120 lb. Ie 1.25: 0.25, 150 lb."""
    step = seismic.lateral(SDS=1.3, W_seismic=600.0)
    assert step.inputs["C_seismic"].value == pytest.approx(0.2)
    assert step.value == pytest.approx(120.0)
    assert step.note == "an estimate for the engineer of record"
    assert all_recalled(step)
    assert seismic.lateral(SDS=1.3, W_seismic=600.0, I_e=1.25).value == pytest.approx(150.0)


def test_arrays_and_proportion():
    """Twice the weight is twice the force."""
    W = np.array([[300.0], [600.0]])
    for found in (
        seismic.vertical(SDS=0.5, D_dead=W),
        seismic.upward(category="D", D_dead=W),
        seismic.lateral(SDS=0.5, W_seismic=W),
    ):
        assert found.value[1, 0] == 2 * found.value[0, 0]
