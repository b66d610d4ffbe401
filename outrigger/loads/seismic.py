"""Seismic: vertical effect, the upward case of cantilevers, an estimate of the lateral force. lb.

ASCE 7 chapter 12, 7-16 and 7-22, strength level. Every value here is recalled: status MEMORY.
Not covered: integrity and anchorage (1.4.4: 0.2 of the wall's weight at strength level, not under
5 psf on its face, second-hand; 5 % of it was 7-05: `integrity`), diaphragms and
collectors (12.10), the separation of the two buildings (12.12.3), which outriggers that join them
may bridge.
"""

from msgspec.structs import replace

from outrigger.base.errors import InputError
from outrigger.base.tables import MEMORY
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num, greatest, least

CATEGORIES = ("A", "B", "C", "D", "E", "F")
UPWARD_FROM = "D"  # 12.4.4: seismic design categories D to F
R_LIGHT_FRAME = 6.5  # Table 12.2-1 A.15: light-frame wood walls with wood structural panels
IMPORTANCE = 1.0  # Table 1.5-2, risk category I or II


@formula("E_v", "lb", clause="ASCE 7 Eq. 12.4-4a")
def vertical_effect(SDS: Num, D_dead: Num) -> Num:
    """Vertical seismic load effect, acting up or down."""
    return 0.2 * SDS * D_dead


@formula("E_up", "lb", clause="ASCE 7 12.4.4")
def upward_force(D_dead: Num) -> Num:
    """Net upward force on a horizontal cantilever, a case on its own."""
    return 0.2 * D_dead


@formula("C_seismic", "", clause="ASCE 7 Eq. 12.8-2")
def response_coefficient(SDS: Num, R_system: Num, I_e: Num) -> Num:
    """Seismic response coefficient, short periods."""
    return SDS / (R_system / I_e)


@formula("F_E", "lb", clause="ASCE 7 Eq. 12.8-1")
def base_shear(C_seismic: Num, W_seismic: Num) -> Num:
    """Lateral force of the weight at the outrigger."""
    return C_seismic * W_seismic


@formula("k_a", "", clause="ASCE 7 Eq. 12.11-2", constants={"100": "ft"})
def diaphragm_factor(L_flex: Num) -> Num:
    """Amplification by a flexible diaphragm that holds the wall, 2 at most."""
    return least(1 + L_flex / 100, 2)


@formula("F_p", "lb", clause="ASCE 7 Eq. 12.11-1, and its least")
def wall_anchorage(SDS: Num, k_a: Num, I_e: Num, W_p: Num) -> Num:
    """Force square to a wall at what holds it."""
    return greatest(0.4 * SDS, 0.2) * k_a * I_e * W_p


IMPORTANCES = {"III": 1.25, "IV": 1.5}  # Table 1.5-2
MOST_KA = 2.0


def anchorage(*, SDS: Num, W_p: Num, run_ft: float | None, risk_category: str) -> Step:
    """Force of the weight W_p (lb) square to the wall, lb, strength level.

    run_ft: length of the flexible diaphragm that holds the wall, ft; None: the most is taken.
    """
    if run_ft is None:
        note = "length of the diaphragm not given (layout.run): the most taken"
        k_a = given("k_a", MOST_KA, "", "ASCE 7 12.11.2.1", note, MEMORY)
    else:
        k_a = _recalled(diaphragm_factor.step(L_flex=run_ft))
    value = IMPORTANCES.get(risk_category, IMPORTANCE)
    I_e = given("I_e", value, "", "ASCE 7 Table 1.5-2", risk_category or "risk category II", MEMORY)
    return _recalled(wall_anchorage.step(SDS=SDS, k_a=k_a, I_e=I_e, W_p=W_p))


def vertical(*, SDS: Num, D_dead: Num) -> Step:
    """Ev, lb, up or down; D_dead lb.

    Computed in every category: that Ev may be 0 where SDS is 0.125 or less is not used.
    """
    return _recalled(vertical_effect.step(SDS=SDS, D_dead=D_dead))


def upward(*, category: str, D_dead: Num) -> Step:
    """Net upward force on the cantilever, lb: 0.2 D in categories D to F, else 0; D_dead lb.

    A case on its own, with no other load. D_dead is the dead load on the cantilever.

    Raises:
        InputError: no such category.
    """
    if category not in CATEGORIES:
        raise InputError(
            f'seismic design category "{category}": not known. Allowed: {", ".join(CATEGORIES)}.'
        )
    if category < UPWARD_FROM:
        note = f"category {category}: asked for in D to F only"
        return given("E_up", 0.0, "lb", "ASCE 7 12.4.4", note, MEMORY)
    step = _recalled(upward_force.step(D_dead=D_dead))
    return replace(step, note=f"category {category}, a case on its own")


def lateral(
    *, SDS: Num, W_seismic: Num, R_system: float = R_LIGHT_FRAME, I_e: float = IMPORTANCE
) -> Step:
    """Lateral force of wall and roof at one outrigger, lb: an estimate for the engineer of record.

    F = SDS W / (R / Ie): base shear of the equivalent lateral force procedure at its plateau, with
    R 6.5 of light-frame wood shear walls and Ie 1. No reduction for a longer period, no increase
    for near faults, overstrength, redundancy, torsion or the height of the weight. W_seismic lb.
    """
    R = given("R_system", R_system, "", "ASCE 7 Table 12.2-1", "wood shear walls", MEMORY)
    importance = given("I_e", I_e, "", "ASCE 7 Table 1.5-2", "", MEMORY)
    C = _recalled(response_coefficient.step(SDS=SDS, R_system=R, I_e=importance))
    step = _recalled(base_shear.step(C_seismic=C, W_seismic=W_seismic))
    return replace(step, note="an estimate for the engineer of record")


def _recalled(step: Step) -> Step:
    return replace(step, status=MEMORY)
