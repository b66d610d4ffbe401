"""Effective wind area of what one outrigger carries. ASCE 7 26.2."""

from outrigger.formula.formula import formula
from outrigger.formula.numbers import Num, greatest


@formula("A_eff", "sf", clause="ASCE 7 26.2")
def roof_area(l_share_ft: Num, l_run_ft: Num, s_out_ft: Num, l_end_ft: Num) -> Num:
    """Effective wind area over an outrigger: the roof it takes, or the strip over itself."""
    return greatest(l_share_ft * l_run_ft, s_out_ft * l_end_ft)


@formula("A_eff", "sf", clause="ASCE 7 26.2")
def back_area(s_out_ft: Num, l_back_ft: Num) -> Num:
    """Effective wind area of the back span: spacing by span."""
    return s_out_ft * l_back_ft


@formula("A_eff", "sf", clause="ASCE 7 26.2")
def wall_area(h_wall_ft: Num, s_wall_ft: Num) -> Num:
    """Effective wind area of the wall on one outrigger: height, and spacing or a third of it."""
    return h_wall_ft * greatest(s_wall_ft, h_wall_ft / 3)
