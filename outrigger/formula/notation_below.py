"""Symbols of what carries on: the house under the outriggers, the wall on them."""

from outrigger.formula.symbol import Symbol

BELOW: dict[str, Symbol] = {
    "R_one": Symbol("R", "one", "lb", "what one outrigger of the row brings, vertically"),
    "R_rest": Symbol("R", "rest", "lb", "what its other places bring, vertically"),
    "n_row": Symbol("n", "row", "", "outriggers on the span where its moment is largest"),
    "n_end": Symbol("n", "end", "", "outriggers on the span where one is right at its end"),
    "e_row": Symbol("e", "row", "in", "mid-span to the outrigger that the moment is under"),
    "q_row": Symbol("q", "row", "", "outriggers on that side of it"),
    "s_row": Symbol("s", "row", "in", "spacing of the outriggers"),
    "l_beam": Symbol("L", "", "in", "span of the member below"),
    "x_at": Symbol("x", "at", "in", "end of the member below to the edge of the outrigger"),
    "w_beam": Symbol("w", "", "lb/in", "what the member below carries already"),
    "R_stud": Symbol("R", "stud", "lb", "load on what stands between two spans"),
    "c_row": Symbol("c", "row", "in/lb", "mid-span deflection by a row of unit loads"),
    "n_fast": Symbol("n", "", "", "fasteners of one end"),
    "Z_end": Symbol("Z", "end", "lb", "adjusted lateral value of the fasteners of one end", "′"),
    "n_studs": Symbol("n", "studs", "", "studs that share it"),
    "N_stud": Symbol("N", "stud", "lb", "compression of one stud"),
    "w_stud": Symbol("w", "stud", "lb/in", "wind on one stud"),
    "h_stud": Symbol("h", "stud", "in", "height of the stud"),
}
