"""Every symbol of the project: how it is written, its unit, its meaning.

Keys are the names used in the code. `_adj` is the primed value, `_star` the starred one.
Units: lb, in, psi, in2, in3, in4, lb-in, lb/in, lb-in2; the empirical formulas of ASCE 7 keep its
feet (ft, sf, psf, plf, pcf, mph); "" for a number without a unit.
"""

from outrigger.formula.notation_below import BELOW
from outrigger.formula.notation_fasteners import FASTENERS
from outrigger.formula.notation_snow import SNOW
from outrigger.formula.notation_wind import WIND
from outrigger.formula.symbol import Symbol

PRIME, STAR = "′", "*"


def symbol(key: str) -> Symbol:
    """The symbol of a name in the code.

    Raises:
        KeyError: the name is not in the notation.
    """
    return NOTATION[key]


def _primed(key: str, what: str) -> dict[str, Symbol]:
    """A reference value with its primed and, for Fb and Fc, its starred form."""
    plain = _REFERENCE[key]
    both = {
        key: plain,
        f"{key}_adj": Symbol(plain.base, plain.subscript, "psi", f"adjusted {what}", PRIME),
    }
    if key in ("Fb", "Fc"):
        left_out = "Cfu and CL" if key == "Fb" else "CP"
        meaning = f"reference {what} times every factor except {left_out}"
        both[f"{key}_star"] = Symbol(plain.base, plain.subscript, "psi", meaning, STAR)
    return both


_REFERENCE = {
    "Fb": Symbol("F", "b", "psi", "reference bending design value"),
    "Ft": Symbol("F", "t", "psi", "reference tension design value parallel to grain"),
    "Fv": Symbol("F", "v", "psi", "reference shear design value parallel to grain"),
    "Fc_perp": Symbol("F", "c⊥", "psi", "reference compression design value across the grain"),
    "Fc": Symbol("F", "c", "psi", "reference compression design value parallel to grain"),
    "E": Symbol("E", "", "psi", "reference modulus of elasticity"),
    "Emin": Symbol("E", "min", "psi", "reference modulus of elasticity for stability"),
}

NOTATION: dict[str, Symbol] = {
    **_primed("Fb", "bending design value"),
    **_primed("Ft", "tension design value parallel to grain"),
    **_primed("Fv", "shear design value parallel to grain"),
    **_primed("Fc_perp", "compression design value across the grain"),
    **_primed("Fc", "compression design value parallel to grain"),
    **_primed("E", "modulus of elasticity"),
    **_primed("Emin", "modulus of elasticity for stability"),
    # adjustment factors
    "CD": Symbol("C", "D", "", "load duration factor (ASD)"),
    "CM": Symbol("C", "M", "", "wet service factor"),
    "Ct": Symbol("C", "t", "", "temperature factor"),
    "CL": Symbol("C", "L", "", "beam stability factor"),
    "CL_arm": Symbol("C", "L,arm", "", "beam stability factor of the arm"),
    "CL_back": Symbol("C", "L,back", "", "beam stability factor of the back span"),
    "CF": Symbol("C", "F", "", "size factor"),
    "Cfu": Symbol("C", "fu", "", "flat use factor"),
    "Ci": Symbol("C", "i", "", "incising factor"),
    "Cr": Symbol("C", "r", "", "repetitive member factor"),
    "CP": Symbol("C", "P", "", "column stability factor"),
    "Cb": Symbol("C", "b", "", "bearing area factor"),
    "KF": Symbol("K", "F", "", "format conversion factor (LRFD)"),
    "phi": Symbol("φ", "", "", "resistance factor (LRFD)"),
    "lam": Symbol("λ", "", "", "time effect factor (LRFD)"),
    # section
    "b": Symbol("b", "", "in", "breadth of a bending member, dressed"),
    "d": Symbol("d", "", "in", "depth of a bending member, dressed"),
    "A": Symbol("A", "", "in2", "area of the cross section"),
    "S": Symbol("S", "", "in3", "section modulus"),
    "I": Symbol("I", "", "in4", "moment of inertia"),
    # bending and stability
    "M": Symbol("M", "", "lb-in", "bending moment"),
    "fb": Symbol("f", "b", "psi", "actual bending stress"),
    "lu": Symbol("ℓ", "u", "in", "unsupported length of the compression edge"),
    "le": Symbol("ℓ", "e", "in", "effective length"),
    "k_lu": Symbol("k", "ℓ", "", "coefficient of lu in the effective length"),
    "k_d": Symbol("k", "d", "", "coefficient of d in the effective length"),
    "RB": Symbol("R", "B", "", "slenderness ratio of a bending member"),
    "FbE": Symbol("F", "bE", "psi", "critical buckling design value, bending"),
    "FcE": Symbol("F", "cE", "psi", "critical buckling design value, compression"),
    "c": Symbol("c", "", "", "column constant, 0.8 for sawn lumber"),
    # shear and bearing
    "V": Symbol("V", "", "lb", "shear force"),
    "fv": Symbol("f", "v", "psi", "actual shear stress parallel to grain"),
    "R": Symbol("R", "", "lb", "reaction"),
    "l_bearing": Symbol("ℓ", "b", "in", "bearing length"),
    "fc_perp": Symbol("f", "c⊥", "psi", "actual compression stress across the grain"),
    "d_e": Symbol("d", "e", "in", "depth from the unloaded edge to the farthest fastener"),
    "Vr_adj": Symbol("V", "r", "lb", "adjusted design shear", PRIME),
    # axial
    "P": Symbol("P", "", "lb", "axial force or load on the garage wall"),
    "fc": Symbol("f", "c", "psi", "actual compression stress parallel to grain"),
    "ft": Symbol("f", "t", "psi", "actual tension stress parallel to grain"),
    "N_tension": Symbol("N", "t", "lb", "tension along the member"),
    "N_compression": Symbol("N", "c", "lb", "compression along the member"),
    "K_e": Symbol("K", "e", "", "coefficient of the effective length of a column"),
    "l_column": Symbol("ℓ", "", "in", "length between supports in one plane"),
    "r_column": Symbol("ℓe/d", "", "", "slenderness of a column in one plane"),
    "FcE1": Symbol("F", "cE1", "psi", "critical buckling design value, edgewise"),
    "FcE2": Symbol("F", "cE2", "psi", "critical buckling design value, flatwise"),
    "fb1": Symbol("f", "b1", "psi", "actual edgewise bending stress"),
    "fb2": Symbol("f", "b2", "psi", "actual flatwise bending stress"),
    "Fb1_adj": Symbol("F", "b1", "psi", "adjusted edgewise bending design value", PRIME),
    "Fb2_adj": Symbol("F", "b2", "psi", "adjusted flatwise bending design value", PRIME),
    "Fb1_tension": Symbol("F", "b1", "psi", "edgewise bending value, every factor but CL", STAR),
    "r_inter": Symbol("r", "", "", "interaction, at most 1"),
    "r_stable": Symbol("r", "stable", "", "stability, below 1"),
    # notches, shear near a bearing, torsion
    "h_notch": Symbol("h", "", "in", "depth of a notch"),
    "h_limit": Symbol("h", "limit", "in", "deepest notch allowed"),
    "d_n": Symbol("d", "n", "in", "depth left at a notch"),
    "e_notch": Symbol("e", "", "in", "reach of a notch inward of the bearing"),
    "V_full": Symbol("V", "full", "lb", "shear of all the loads"),
    "x_load": Symbol("x", "", "in", "face of the bearing to the load"),
    "l_near": Symbol("ℓ", "near", "in", "length of even load that is left out"),
    "T_arm": Symbol("T", "arm", "lb-in", "torque in the arm"),
    "T_ply": Symbol("T", "ply", "lb-in", "torque in one ply"),
    "n_plies": Symbol("n", "plies", "", "plies of the member"),
    "f_torsion": Symbol("f", "torsion", "psi", "shear stress of torsion"),
    "d_long": Symbol("d", "long", "in", "longer side of the cross section"),
    "b_short": Symbol("b", "short", "in", "shorter side of the cross section"),
    "fv_square": Symbol("f", "v,square", "psi", "shear stress, load square to the sheathing"),
    "fv_across": Symbol("f", "v,across", "psi", "shear stress, load across the member"),
    "F_theta": Symbol("F", "θ", "psi", "adjusted bearing value at an angle to grain", PRIME),
    "theta_grain": Symbol("θ", "grain", "deg", "angle between load and grain"),
    # movement
    "E_true": Symbol("E", "true", "psi", "modulus of elasticity without shear deflection"),
    "G_v": Symbol("G", "v", "psi", "modulus of rigidity"),
    "EI": Symbol("EI", "", "lb-in2", "bending stiffness"),
    "GA": Symbol("GA", "v", "lb", "shear stiffness, shape factor included"),
    "K_cr": Symbol("K", "cr", "", "creep factor for long-term deflection"),
    "D_LT": Symbol("Δ", "LT", "in", "immediate deflection under the long-term load"),
    "D_ST": Symbol("Δ", "ST", "in", "deflection under the short-term load"),
    "D_T": Symbol("Δ", "T", "in", "total deflection"),
    "D_wall": Symbol("Δ", "wall", "in", "droop at the garage wall"),
    "D_point": Symbol("Δ", "point", "in", "droop by the load on the garage wall, edge held"),
    "D_even": Symbol("Δ", "even", "in", "droop by the even load on the arm, edge held"),
    "D_shear": Symbol("Δ", "shear", "in", "droop by the shear of the arm"),
    "slope_edge": Symbol("s", "edge", "", "slope of the bent member at the house wall"),
    "M_behind": Symbol("M", "behind", "lb-in", "hogging moment at the back"),
    "l_limit": Symbol("ℓ", "", "in", "span of a deflection limit, twice the arm for a cantilever"),
    "n_limit": Symbol("n", "", "", "denominator of a deflection limit"),
    "D_limit": Symbol("Δ", "limit", "in", "deflection limit"),
    "a": Symbol("a", "", "in", "arm: house wall to wall line, along the member"),
    "L_b": Symbol("L", "b", "in", "back span: house wall to back hold-down"),
    "u_clip": Symbol("u", "clip", "in", "slip of a clip at its listed value"),
    "r_clip": Symbol("r", "clip", "", "ratio of the back clip"),
    "u_slip": Symbol("u", "slip", "in", "movement at the garage wall by slip of the back clip"),
    "r_layers": Symbol("r", "layers", "", "sum of the bearing ratios of the layers at the edge"),
    "u_crush": Symbol("u", "crush", "in", "movement at the garage wall by crushing at the edge"),
    "mc_change": Symbol("Δm.c.", "", "", "change of moisture content, percent"),
    "u_shrink": Symbol("u", "shrink", "in", "shrinkage of the depth"),
    "u_build": Symbol("u", "build", "in", "movement expected between the two buildings"),
    "u_droop": Symbol("u", "droop", "in", "droop at the garage wall, slip and crushing counted"),
    "u_wall": Symbol("u", "wall", "in", "movement at the garage wall"),
    "S_class": Symbol("S", "class", "", "movement class of the sealant, of its width"),
    "W_joint": Symbol("W", "joint", "in", "width of the sealed joint"),
    "u_joint": Symbol("u", "joint", "in", "slip that the sealant allows"),
    "x_gap": Symbol("x", "gap", "in", "clear width of the gap, horizontally"),
    "t_finish": Symbol("t", "finish", "in", "house finish at the gap"),
    "w_plate": Symbol("w", "plate", "in", "width of the garage plate"),
    "e_setback": Symbol("e", "setback", "in", "end of the edge bearing back from the house face"),
    "l_edge": Symbol("ℓ", "edge", "in", "length of bearing at the house wall"),
    "t": Symbol("t", "", "in", "tail: wall line to the end"),
    "b_b": Symbol("b", "back", "in", "member beyond the back hold-down"),
    "w_arm": Symbol("w", "arm", "lb/in", "even load on arm and tail: strip and self weight"),
    "w_fall": Symbol("w", "fall", "lb/in", "what a drift on the strip gains from face to end"),
    "x_face": Symbol("x", "face", "in", "house wall to the outer face of the house finish"),
    "W_end": Symbol("W", "end", "lb", "load at the end of the member"),
    "w_shed": Symbol("w", "shed", "lb/in", "snow slid off the garage, even to the wall line"),
    "M_strip": Symbol("M", "strip", "lb-in", "moment of the loads of the garage and the strip"),
    "V_strip": Symbol("V", "strip", "lb", "shear of the loads of the garage and the strip"),
    "w_load": Symbol("w", "", "lb/in", "even load of a roof right on one outrigger"),
    "w_back": Symbol("w", "back", "lb/in", "even load on the back span, self weight included"),
    "w_self": Symbol("w", "self", "lb/in", "self weight behind the back clip"),
    "M_edge": Symbol("M", "edge", "lb-in", "moment at the house wall, hogging"),
    "R_edge": Symbol("R", "edge", "lb", "push on the house at the edge"),
    # loads
    "q": Symbol("q", "", "psi", "load per plan area"),
    "l_span": Symbol("L", "roof", "in", "span of the garage roof between its bearing lines"),
    "q_overhang": Symbol("q", "overhang", "psi", "load per plan area of the overhang"),
    "l_overhang": Symbol("ℓ", "overhang", "in", "overhang of the garage roof beyond the wall line"),
    "l_share": Symbol("ℓ", "share", "in", "length of wall whose roof load one outrigger takes"),
    "w_roof": Symbol("w", "roof", "lb/in", "roof reaction on the garage wall"),
    "h_wall": Symbol("h", "wall", "in", "height of the garage wall"),
    "s_strip": Symbol("s", "strip", "in", "length of wall whose roof lies right on one outrigger"),
    "s_plan": Symbol("s", "", "in", "plan spacing of the outriggers"),
    "gamma_wood": Symbol("γ", "wood", "pcf", "density of the lumber"),
    "mc": Symbol("m.c.", "", "", "moisture content, percent"),
    "A_t": Symbol("A", "t", "sf", "tributary area"),
    "R_1": Symbol("R", "1", "", "reduction of roof live load by area"),
    "R_2": Symbol("R", "2", "", "reduction of roof live load by slope"),
    "F_rise": Symbol("F", "", "", "inches of roof rise in a foot"),
    "L_o": Symbol("L", "o", "psf", "unreduced roof live load"),
    "L_r": Symbol("L", "r", "psf", "roof live load"),
    **SNOW,
    **WIND,
    # slope, forces along and across
    "theta_roof": Symbol("θ", "roof", "deg", "slope of the house roof under the member"),
    "P_line": Symbol("P", "line", "lb", "vertical load on the garage wall, of one load case"),
    "P_square": Symbol("P", "square", "lb", "load square to the sheathing"),
    "F_along": Symbol("F", "along", "lb", "force along the member"),
    "F_across": Symbol("F", "across", "lb", "force across the member, in the sheathing's plane"),
    "H_wall": Symbol("H", "wall", "lb", "wind square to the garage wall on one outrigger"),
    "A_wall": Symbol("A", "wall", "lb", "force along the garage wall on one outrigger"),
    "w_along": Symbol("w", "along", "lb/in", "force along the garage wall"),
    "w_square": Symbol("w", "square", "lb/in", "wind square to the garage wall, at its foot"),
    "F_arm": Symbol("F", "arm", "lb", "force along the member, of the loads on the arm"),
    "F_back": Symbol("F", "back", "lb", "force along the member, of the loads on the back span"),
    "C_along": Symbol("C", "along", "lb-in", "couple of the forces along the member"),
    "M_load": Symbol("M", "load", "lb-in", "moment at the edge of the loads square to the member"),
    "M_roll": Symbol("M", "roll", "lb-in", "moment that tips the member over sideways"),
    "F_side": Symbol("F", "side", "lb", "side force at the top of the member"),
    # what holds the blocks between the outriggers
    "s_row": Symbol("s", "row", "in", "spacing of the outriggers, along the sheathing"),
    "L_block": Symbol("L", "block", "in", "length of a block, clear between two outriggers"),
    "s_spread": Symbol("s", "spread", "in", "between the outermost fasteners of a block's end"),
    "M_end": Symbol("M", "end", "lb-in", "moment at the end of the last block of a row"),
    "V_end": Symbol("V", "end", "lb", "shear at the end of the last block of a row"),
    "T_row": Symbol("T", "row", "lb", "uplift at a place of the last outrigger of a row"),
    "F_base": Symbol("F", "base", "lb", "force across that a block hands to the deck"),
    "n_block": Symbol("n", "block", "", "fasteners of one block, or of one of its ends"),
    "s_block": Symbol("s", "block", "in", "spacing of the fasteners along a block"),
    "T_roll": Symbol("T", "roll", "lb", "pull on one clip, with its part of the tipping moment"),
    "theta_toe": Symbol("θ", "toe", "deg", "slope of a toe-nail to the face that it lies along"),
    # hold-downs
    "T_listed": Symbol("T", "listed", "lb", "listed value of one clip"),
    "CD_listed": Symbol("C", "D,listed", "", "load duration factor of the listed column"),
    "T_cap": Symbol("T", "cap", "lb", "what one clip may carry"),
    "T_place": Symbol("T", "", "lb", "uplift at a place"),
    # hold-downs built of fasteners
    "n_f": Symbol("n", "f", "", "fasteners of one clip"),
    "Z_group": Symbol("Z", "group", "lb", "adjusted lateral value of a clip's fasteners", "′"),
    "Z_side": Symbol("Z", "side", "lb", "adjusted lateral value of a clip's side fasteners"),
    "Z_deck": Symbol("Z", "deck", "lb", "adjusted lateral value of a clip's deck fasteners"),
    "F_group": Symbol("F", "group", "lb", "force on the fasteners of one clip"),
    "U_clip": Symbol("U", "clip", "lb", "uplift on one clip"),
    "V_clip": Symbol("V", "clip", "lb", "side force on one clip, along and across together"),
    "A_washer": Symbol("A", "washer", "in2", "washer less its hole"),
    "D_washer": Symbol("D", "washer", "in", "outer diameter of the washer"),
    "D_hole": Symbol("D", "hole", "in", "hole for the shank"),
    "b_net": Symbol("b", "net", "in", "breadth left beside a hole"),
    "n_nails": Symbol("n", "nails", "", "the panel's own nails that carry one clip on"),
    "s_frame": Symbol("s", "frame", "in", "spacing of the house framing"),
    "s_nail": Symbol("s", "nail", "in", "spacing of the panel's own nails"),
    "w_most": Symbol("w", "most", "in", "widest leg counted"),
    "F_top": Symbol("F", "top", "lb", "force that the blocks carry on at the top of the member"),
    "M_panel": Symbol("M", "panel", "lb-in", "moment in the panel between its framing"),
    "F_listed": Symbol("F", "listed", "lb", "listed side value of one clip"),
    "F_place": Symbol("F", "place", "lb", "what the clips of a place may carry sideways"),
    "F_result": Symbol("F", "", "lb", "force along and across together"),
    "r_listed": Symbol("r", "", "", "pull and side force of a listed clip, together"),
    "R_across": Symbol("R", "across", "lb", "reaction across the member, in the sheathing's plane"),
    "V_across": Symbol("V", "across", "lb", "shear across the arm, just outside the edge"),
    "M_hold": Symbol("M", "hold", "lb-in", "moment that the member's own width resists"),
    "n_clips": Symbol("n", "clips", "", "clips at a place"),
    "T_clip": Symbol("T", "clip", "lb", "uplift on one clip"),
    **FASTENERS,
    **BELOW,
    # heat through the band in the gap; R in h ft2 F/Btu, and so a conductivity in in
    "w_gap": Symbol("w", "gap", "in", "clear width of the gap, along the member"),
    "r_inch": Symbol("r", "", "1/in", "thermal resistance of 1 in of insulation"),
    "k_wood": Symbol("k", "", "in", "thermal conductivity of wood across the grain"),
    "k_grain": Symbol("k", "grain", "in", "thermal conductivity of wood along the grain"),
    "n_grain": Symbol("n", "grain", "", "conductivity along the grain over that across it"),
    "R_fill": Symbol("R", "fill", "", "thermal resistance of the insulation in the gap"),
    "R_wood": Symbol("R", "wood", "", "thermal resistance of an outrigger along the gap"),
    "R_band": Symbol("R", "band", "", "thermal resistance of both, side by side"),
    "p_wood": Symbol("p", "wood", "", "part of the band that is wood"),
    "b_all": Symbol("b", "all", "in", "breadth of all plies"),
    "s_along": Symbol("s", "along", "in", "spacing of the outriggers"),
    # lumber
    "G": Symbol("G", "", "", "specific gravity, oven dry"),
}
