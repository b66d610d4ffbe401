"""An estimate of the heat through the gap: insulation and wood side by side, parallel paths.

The outriggers cross the band with their grain along the flow of heat. Only the part of the band
as high as the outriggers is meant. R in h ft2 F/Btu; a conductivity of R 1 an inch is 1 in.
Nothing here is a thermal design: no joints, no air that moves, no metal.
"""

from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num

# taken: the file does not say what fills the gap; common practice, no source
FILL_PER_INCH = 4.0
ALONG_GRAIN = 1.8  # from memory: 1.5 to 2.8, Wood Handbook chapter 4
MOISTURE = 12.0  # percent, of wood indoors and out


@formula(
    "k_wood",
    "in",
    clause="Wood Handbook, chapter 4, from memory",
    constants={"1.34": "in", "0.028": "in", "0.129": "in"},
)
def conductivity(G: Num, mc: Num) -> Num:
    """Thermal conductivity of wood across the grain."""
    return G * (1.34 + 0.028 * mc) + 0.129


@formula("k_grain", "in", clause="Wood Handbook, chapter 4, from memory")
def along_grain(k_wood: Num, n_grain: Num) -> Num:
    """Thermal conductivity of wood along the grain."""
    return k_wood * n_grain


@formula("R_fill", "", clause="thickness over conductivity")
def of_insulation(r_inch: Num, w_gap: Num) -> Num:
    """Thermal resistance of the insulation across the gap."""
    return r_inch * w_gap


@formula("R_wood", "", clause="thickness over conductivity")
def of_wood(w_gap: Num, k_grain: Num) -> Num:
    """Thermal resistance of an outrigger along the gap."""
    return w_gap / k_grain


@formula("p_wood", "", clause="geometry")
def wood_part(b_all: Num, s_along: Num) -> Num:
    """Part of the band that is wood."""
    return b_all / s_along


@formula("R_band", "", clause="parallel paths")
def side_by_side(p_wood: Num, R_wood: Num, R_fill: Num) -> Num:
    """Thermal resistance of wood and insulation side by side."""
    return 1 / (p_wood / R_wood + (1 - p_wood) / R_fill)


def resistance(width: Num, breadth: float, spacing: Num, G: float) -> Step:
    """R of the band with the wood in it, an estimate.

    width, breadth of all plies, spacing in; G as for self weight. The insulation is taken as R 4
    an inch.
    """
    wood = of_wood.step(
        w_gap=width,
        k_grain=along_grain.step(
            k_wood=conductivity.step(G=G, mc=MOISTURE),
            n_grain=given("n_grain", ALONG_GRAIN, "", "Wood Handbook", "", "MEMORY"),
        ),
    )
    taken = given("r_inch", FILL_PER_INCH, "1/in", "common practice, no source", "R 4 an inch")
    fill = of_insulation.step(r_inch=taken, w_gap=width)
    part = wood_part.step(b_all=breadth, s_along=spacing)
    return side_by_side.step(p_wood=part, R_wood=wood, R_fill=fill)
