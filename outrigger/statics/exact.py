"""A beam in exact fractions: a second solver beside the force method."""

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct


class Load(Struct, frozen=True):
    """A load on a beam: "point" lb and "couple" lb-in at `start`; "even" lb/in, and "growing" from
    nothing to lb/in, from `start` to `end`. In, down positive, a couple as a load beyond it."""

    kind: str
    start: float
    end: float
    size: float


class ExactBeam(Struct, frozen=True):
    """Reactions lb by support, moment lb-in just inside the last one, deflection in at a place."""

    reactions: tuple[float, ...]
    moment: float
    deflection: float


def exact_beam(
    supports: Sequence[float], loads: Sequence[Load], EI: float, GA: float, at: float
) -> ExactBeam:
    """A beam on rigid supports, each holding both ways, in exact fractions.

    Equilibrium and the deflections of nothing at the supports, with bending and shear, make one
    set of linear equations in the reactions and the two constants of the elastic line.

    Args:
        supports: x in, ascending.
        loads: of one combination.
        EI, GA: lb-in2, lb.
        at: x in of the wanted deflection.
    """
    places = [Fraction(x) for x in supports]
    terms: list[tuple[Fraction, Fraction, int]] = []  # at, size, power of the moment's term
    for load in loads:
        a, b, q = Fraction(load.start), Fraction(load.end), Fraction(load.size)
        if load.kind == "point":
            terms.append((a, -q, 1))
        elif load.kind == "couple":
            terms.append((a, q, 0))
        elif load.kind == "even":
            terms += [(a, -q / 2, 2), (b, q / 2, 2)]
        elif b > a:  # growing: its slope up to the end, where it stops whole
            terms += [(a, -q / (b - a) / 6, 3), (b, q / (b - a) / 6, 3), (b, q / 2, 2)]

    def bracket(x: Fraction, start: Fraction, power: int) -> Fraction:
        return (x - start) ** power if x > start else Fraction(0)

    def moment_of(x: Fraction, own: Sequence[tuple[Fraction, Fraction, int]]) -> Fraction:
        return sum((size * bracket(x, start, n) for start, size, n in own), Fraction(0))

    def bent(x: Fraction, own: Sequence[tuple[Fraction, Fraction, int]]) -> Fraction:
        """Deflection of the terms alone: bending twice integrated, and shear."""
        return sum(
            (
                -size * bracket(x, start, n + 2) / ((n + 1) * (n + 2)) / Fraction(EI)
                + (size * bracket(x, start, n) / Fraction(GA) if n else Fraction(0))
                for start, size, n in own
            ),
            Fraction(0),
        )

    far = max([Fraction(load.end) for load in loads] + [places[-1]]) + 1
    count = len(places)
    one, none = Fraction(1), Fraction(0)
    rows, right = list[list[Fraction]](), list[Fraction]()
    rows.append([far - x for x in places] + [none, none])  # no moment beyond the end
    right.append(-moment_of(far, terms))
    rows.append([far + 1 - x for x in places] + [none, none])
    right.append(-moment_of(far + 1, terms))
    for x in places:
        rows.append([bent(x, [(other, one, 1)]) for other in places] + [one, x])
        right.append(-bent(x, terms))
    solved = _solved([[*row, value] for row, value in zip(rows, right, strict=True)])
    whole = [*terms, *((x, R, 1) for x, R in zip(places, solved, strict=False))]
    x = Fraction(at)
    return ExactBeam(
        tuple(float(R) for R in solved[:count]),
        float(moment_of(places[-1], whole)),
        float(bent(x, whole) + solved[count] + solved[count + 1] * x),
    )


def _solved(rows: list[list[Fraction]]) -> list[Fraction]:
    """The unknowns of linear equations, each with its right side last: by elimination."""
    for at in range(len(rows)):
        lead = next(i for i in range(at, len(rows)) if rows[i][at])
        rows[at], rows[lead] = rows[lead], rows[at]
        rows[at] = [value / rows[at][at] for value in rows[at]]
        for i, row in enumerate(rows):
            if i != at and row[at]:
                rows[i] = [v - row[at] * w for v, w in zip(row, rows[at], strict=True)]
    return [row[-1] for row in rows]
