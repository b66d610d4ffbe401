"""Symbols of snow loads; units psf, ft, pcf, plf as ASCE 7 prints them."""

from outrigger.formula.symbol import Symbol

SNOW: dict[str, Symbol] = {
    # balanced
    "p_g": Symbol("p", "g", "psf", "ground snow load"),
    "Ce": Symbol("C", "e", "", "exposure factor of snow"),
    "C_thermal": Symbol("C", "t,snow", "", "thermal factor of snow"),
    "Is": Symbol("I", "s", "", "importance factor of snow, 7-16 only"),
    "R_roof": Symbol("R", "roof", "", "insulation value of the roof, h ft² °F / Btu"),
    "p_f": Symbol("p", "f", "psf", "flat-roof snow load"),
    "theta_snow": Symbol("θ", "", "deg", "slope of the roof"),
    "theta_knee": Symbol("θ", "knee", "deg", "slope at which snow starts to leave the roof"),
    "Cs": Symbol("C", "s", "", "slope factor of snow"),
    "p_s": Symbol("p", "s", "psf", "balanced snow load of the sloped roof"),
    "p_m_max": Symbol("p", "m,max", "psf", "largest minimum roof snow load, by risk category"),
    "p_m": Symbol("p", "m", "psf", "minimum snow load of a low-slope roof"),
    "p_back": Symbol("p", "back", "psf", "snow on the back span"),
    "p_rain": Symbol("p", "rain", "psf", "rain on snow, added to the balanced load only"),
    # drift
    "gamma_snow": Symbol("γ", "", "pcf", "density of snow"),
    "l_u": Symbol("ℓ", "u,snow", "ft", "fetch: length of roof that feeds the drift"),
    "W2": Symbol("W", "2", "", "winter wind: share of October to April over 10 mph"),
    "h_d": Symbol("h", "d", "ft", "drift height by the formula of the edition"),
    "h_step": Symbol("h", "step", "ft", "step from the lower to the upper roof"),
    "d_plumb": Symbol("d", "plumb", "ft", "depth of the outrigger, plumb"),
    "h_roof": Symbol("h", "roof", "ft", "from the garage wall to the top of its roof there"),
    "h_b": Symbol("h", "b", "ft", "height of the balanced snow on the lower roof"),
    "h_c": Symbol("h", "c", "ft", "clear height from the balanced snow to the upper roof"),
    "l_lower": Symbol("ℓ", "lower", "ft", "length of the lower roof, square to the step"),
    "s_gap": Symbol("s", "gap", "ft", "clear gap between the two structures"),
    "h_free": Symbol("h", "free", "ft", "height of the drift if the upper roof did not limit it"),
    "h_drift": Symbol("h", "drift", "ft", "height of the drift at the step, as loaded"),
    "w_drift": Symbol("w", "drift", "ft", "width of the drift, before the roof's end cuts it"),
    "p_d": Symbol("p", "d", "psf", "drift load at the step, on top of the balanced load"),
    # unbalanced
    "l_eave": Symbol("ℓ", "eave", "ft", "overhang of the garage roof, in feet"),
    "W_ridge": Symbol("W", "", "ft", "horizontal distance from eave to ridge"),
    "S_run": Symbol("S", "run", "", "run of the roof for a rise of one"),
    "p_windward": Symbol("p", "windward", "psf", "snow on the windward side of the ridge"),
    "p_leeward": Symbol("p", "leeward", "psf", "even snow on the leeward side of the ridge"),
    "p_ridge": Symbol("p", "ridge", "psf", "snow blown over the ridge, added on the leeward side"),
    "l_ridge": Symbol("ℓ", "ridge", "ft", "extent of the snow blown over the ridge"),
    # sliding
    "w_slide": Symbol("w", "slide", "plf", "snow sliding off the upper roof, per foot of eave"),
    "p_slide": Symbol("p", "slide", "psf", "sliding snow on the lower roof"),
    # reaction of a part of the garage roof
    "L_bearings": Symbol("L", "bearings", "ft", "span of the garage roof, in feet"),
    "x_0": Symbol("x", "0", "ft", "start of a load, from the wall line; negative on the overhang"),
    "x_1": Symbol("x", "1", "ft", "end of a load, from the wall line"),
    "q_0": Symbol("q", "0", "psf", "load at its start"),
    "q_1": Symbol("q", "1", "psf", "load at its end"),
    "w_snow": Symbol("w", "snow", "plf", "reaction on the garage wall, per foot of wall"),
}
