"""Withdrawal and head pull-through: reference values. NDS 2018 12.2.

Lengths in, W lb/in, W_H lb. Numbers or arrays alike, except the fastener.
"""

import math

import numpy as np
from msgspec.structs import replace

from outrigger.base import tables
from outrigger.fasteners.dowel_bearing import deep_enough
from outrigger.fasteners.trade_names import Fastener
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num, least, where

HEADS, NET_THICKNESSES = (0.234, 0.500), (0.3125, 1.5)  # in; range of Table 12.2F


@formula("W", "lb/in", clause="NDS 2018 12.2.1, Eq. 12.2-1", constants={"1800": "lb/in^(7/4)"})
def lag_withdrawal(G: Num, D_nom: Num) -> Num:
    """Withdrawal of a lag screw from side grain."""
    return 1800 * G**1.5 * D_nom**0.75


@formula("W", "lb/in", clause="NDS 2018 12.2.2, Eq. 12.2-2", constants={"2850": "psi"})
def screw_withdrawal(G: Num, D_nom: Num) -> Num:
    """Withdrawal of a wood screw from side grain."""
    return 2850 * G**2 * D_nom


@formula("W", "lb/in", clause="NDS 2018 12.2.3, Eq. 12.2-3", constants={"1380": "psi"})
def nail_withdrawal(G: Num, D_nom: Num) -> Num:
    """Withdrawal of a smooth nail, bright or galvanized, from side grain."""
    return 1380 * G**2.5 * D_nom


@formula("W", "lb/in", clause="NDS 2018 12.2.3, Eq. 12.2-4", constants={"465": "psi"})
def stainless_withdrawal(G: Num, D_nom: Num) -> Num:
    """Withdrawal of a smooth nail of stainless steel from side grain."""
    return 465 * G**1.5 * D_nom


@formula("W", "lb/in", clause="NDS 2018 12.2.3, Eq. 12.2-5", constants={"1800": "psi"})
def ring_withdrawal(G: Num, D_nom: Num) -> Num:
    """Withdrawal of a ring shank nail of ASTM F1667, carbon steel, from side grain."""
    return 1800 * G**2 * D_nom


@formula("pt", "in", clause="NDS 2018 12.2.1.2")
def lag_threads(p: Num, T_thread: Num, E_tip: Num) -> Num:
    """Threads of a lag screw in the main member; the tip does not count."""
    return least(p, T_thread) - E_tip


@formula("pt", "in", clause="NDS 2018 12.2.2")
def screw_threads(p: Num, T_thread: Num) -> Num:
    """Threads of a wood screw in the main member; the tip counts."""
    return least(p, T_thread)


@formula("pt", "in", clause="NDS 2018 12.2.3")
def nail_shank(p: Num) -> Num:
    """Shank of a smooth nail in the main member: all of it."""
    return p


@formula("pt", "in", clause="NDS 2018 12.2.3")
def ring_shank(p: Num, t_ring: Num) -> Num:
    """Ring shank of a nail in the main member."""
    return least(p, t_ring)


@formula(
    "WH",
    "lb",
    clause="NDS 2018 12.2.5, Eq. 12.2-6a and b",
    constants={"690": "psi", "1725": "psi"},
)
def head_pull_through(pi: Num, DH: Num, G: Num, t_ns: Num) -> Num:
    """Pull-through of a round head; the second value, from 2.5 DH on, is the less there."""
    return least(690 * pi * DH * G**2 * t_ns, 1725 * pi * DH**2 * G**2)


def reference_withdrawal(fastener: Fastener, G: Num | Step) -> Step:
    """W of a fastener in side grain of wood of specific gravity G, lb per inch of pt.

    Not for a panel: its thickness is under the least penetration. A nail of stainless steel and a
    ring shank nail by equations that are recalled.
    """
    D = fastener.step("D_nom")
    if fastener.kind == "lag":
        return lag_withdrawal.step(G=G, D_nom=D)
    if fastener.kind == "screw":
        return screw_withdrawal.step(G=G, D_nom=D)
    if fastener.stainless:
        return replace(stainless_withdrawal.step(G=G, D_nom=D), status=tables.MEMORY)
    if fastener.ring:
        return replace(ring_withdrawal.step(G=G, D_nom=D), status=tables.MEMORY)
    return nail_withdrawal.step(G=G, D_nom=D)


def counted_length(fastener: Fastener, p: Num | Step, beyond: Num = 0.0) -> Step:
    """pt for a penetration p (in, tip included); 0 where the penetration does not count. `beyond`:
    what comes out of the main member on its far side, whose thread holds nothing."""
    if fastener.kind == "lag":
        tip = fastener.step("E_tip")
        step = lag_threads.step(p=p, T_thread=_inside(fastener, "T_thread", beyond), E_tip=tip)
    elif fastener.kind == "screw":
        step = screw_threads.step(p=p, T_thread=_inside(fastener, "T_thread", beyond))
    elif fastener.ring:
        step = ring_shank.step(p=p, t_ring=_inside(fastener, "t_ring", beyond))
    else:
        step = nail_shank.step(p=p)
    if fastener.kind == "screw" or fastener.ring:
        step = replace(step, status=tables.MEMORY)
    deep = deep_enough(fastener, p)
    if np.all(deep):
        return step
    note = "0 where the penetration is under the least that counts"
    return given("pt", where(deep, step.value, 0.0), "in", step.clause, note, step.status)


def _inside(fastener: Fastener, thread: str, beyond: Num) -> Step:
    """Thread or rings, less what of them comes out of the main member."""
    found = fastener.step(thread)
    if not np.any(np.asarray(beyond) > 0):
        return found
    left = np.maximum(np.asarray(found.value) - beyond, 0.0)[()]
    note = "less what comes out on the far side"
    return given(thread, left, "in", found.clause, note, found.status)


def pull_through(DH: Num | Step, G: Num | Step, t_ns: Num | Step) -> Step:
    """W_H of a round head through a wood or panel side member, lb.

    DH and t_ns in; G of the side member; t_ns what is left under the head. Not for a head on a
    steel plate: see `clip_leg.pull_over`.
    """
    pi = given("pi", math.pi, "", "", "circumference over diameter")
    return head_pull_through.step(pi=pi, DH=DH, G=G, t_ns=t_ns)


def outside_pull_through(DH: float, t_ns: float) -> str:
    """Why a head and a net thickness (in) lie outside Table 12.2F; "" when they do not."""
    if HEADS[0] <= DH <= HEADS[1] and NET_THICKNESSES[0] <= t_ns <= NET_THICKNESSES[1]:
        return ""
    return (
        f"head {DH:g} in, net thickness {t_ns:g} in: NDS 2018 Table 12.2F has round heads of "
        f"{HEADS[0]:.3f} to {HEADS[1]:.3f} in and 5/16 to 1 1/2 in"
    )
