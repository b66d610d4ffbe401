"""A straight prismatic beam on any number of supports, rigid or spring, many cases in one call.

Signs, here and everywhere else: x is positive outward; loads are positive down; reactions are
positive up; a sagging moment is positive; deflection is positive down. Shear is V = dM/dx. A
couple is positive in the sense of a downward load beyond it: it makes the beam inside it hog.

Units: lb and in. EI in lb-in2. GA in lb is the shear stiffness with the shape factor already in
it (5/6 G b d for a rectangle); an infinite GA leaves shear deformation out.

Method: force method, any textbook of structural analysis. The two outermost supports carry the
statically determinate base beam; the supports between are the redundants, and their reactions
close the gaps between the base beam and them. With two supports nothing is left to solve. Every
load and reaction is a Macaulay term of the moment, size <x - at>^power / power!, so that shear,
moment, slope and deflection are its derivative and integrals: EI v'' = -M, and the shear part of
the deflection v_s' = V / GA. A couple has no shear: it reaches v_s through the reactions only.

Shapes: (cases, components), a component being one load pattern (dead, snow, ...). Every number
of a case comes from elementwise arithmetic in a fixed order, so that a case alone and the same
case inside a batch agree to the last bit.
"""

from collections.abc import Sequence
from typing import Literal, NamedTuple

import numpy as np
from msgspec import Struct
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]
Bools = NDArray[np.bool_]
Side = Literal["left", "right"]

CLOSEST = 1e-3  # of the distance between the outermost supports; nearer ones are refused


class Beam(Struct, frozen=True, eq=False):
    """A member on its supports. supports in, (n,) or (cases, n), ascending; EI lb-in2, start and
    end of the member in, GA lb, each a scalar or (cases,); stiffness of the supports lb/in,
    a scalar, (n,) or (cases, n), infinite where rigid. Checked when it is solved."""

    supports: ArrayLike
    EI: ArrayLike
    start: ArrayLike
    end: ArrayLike
    GA: ArrayLike = np.inf
    stiffness: ArrayLike = np.inf


class Point(Struct, frozen=True, eq=False):
    """A force at one place: at in, scalar or (cases,); force lb, scalar or (cases, components)."""

    at: ArrayLike
    force: ArrayLike


class Uniform(Struct, frozen=True, eq=False):
    """An even load: start, end in, scalar or (cases,); load lb/in, scalar or
    (cases, components)."""

    start: ArrayLike
    end: ArrayLike
    load: ArrayLike


class Ramp(Struct, frozen=True, eq=False):
    """A load that grows from nothing at start to its full size at end: start, end in, scalar or
    (cases,); load lb/in at end, scalar or (cases, components). One that falls is an even load
    less a ramp."""

    start: ArrayLike
    end: ArrayLike
    load: ArrayLike


class Couple(Struct, frozen=True, eq=False):
    """A moment at one place, positive in the sense of a downward load beyond it: at in, scalar or
    (cases,); moment lb-in, scalar or (cases, components)."""

    at: ArrayLike
    moment: ArrayLike


Load = Point | Uniform | Ramp | Couple
# size field, power of the Macaulay term, sign of the term at each place
_KINDS: dict[type, tuple[str, int, dict[str, int]]] = {
    Point: ("force", 1, {"at": -1}),
    Uniform: ("load", 2, {"start": -1, "end": 1}),
    Ramp: ("load", 3, {"start": -1, "end": 1}),
    Couple: ("moment", 0, {"at": 1}),
}


class _Term(NamedTuple):
    at: Array  # (1 or cases, 1)
    size: Array  # (1 or cases, 1 or components)
    power: int  # couple 0, force 1, even load 2, growing load 3
    on: slice = slice(None)  # the components beside each other that have a size


_Terms = tuple[_Term, ...]
_Shape = tuple[int, int]  # cases, components


class _Member(NamedTuple):
    supports: Array  # (n, 1 or cases, 1): the support comes first, each is a column of cases
    give: Array  # 1 / stiffness, in/lb, same shape
    bend: Array  # 1 / EI, (1 or cases, 1), as all that follow
    shear: Array  # 1 / GA
    start: Array
    end: Array


class Solution(Struct, frozen=True, eq=False):
    """What follows from the loads, each (cases, components). x is a scalar or (cases,); of a single
    case any number of places may be asked, one row each. `side` is the side of a jump that is
    wanted: "right" at the end of the member is past its last load. Places outside the member
    raise ValueError.

    reactions lb, (cases, components, n).
    """

    reactions: Array
    _settle: Array  # deflection at the first support and slope of the straight line that is added
    _turn: Array  # to the integrals of the moment
    _member: _Member
    _loads: _Terms

    def moment(self, x: ArrayLike, side: Side = "right") -> Array:
        """Moment, lb-in."""
        return _total(self._terms, self._place("x", x), 0, side)

    def moments(self, x: Array, side: Side = "right") -> Array:
        """Moment at places (places, cases, 1): (places, cases, components)."""
        for low_or_high in (x.min(axis=0), x.max(axis=0)):
            _refuse_outside("x", low_or_high, self._member)
        return _total(self._terms, x, 0, side)

    def shear(self, x: ArrayLike, side: Side = "right") -> Array:
        """Shear, lb."""
        return _total(self._terms, self._place("x", x), -1, side)

    def slope(self, x: ArrayLike) -> Array:
        """Turn of the section, radians, positive where deflection grows outward. Without the slant
        V / GA that shear adds to the axis, which jumps at a force."""
        return self._turn - self._member.bend * _total(self._terms, self._place("x", x), 1)

    def deflection(self, x: ArrayLike) -> Array:
        """Deflection from bending and shear, in."""
        at = self._place("x", x)
        line = self._settle + self._turn * (at - self._member.supports[0])
        bent: Array = line + _bent(self._member, self._terms, at)
        return bent

    @property
    def _terms(self) -> _Terms:
        supports = enumerate(self._member.supports)
        return (*self._loads, *(_Term(x, self.reactions[..., i], 1) for i, x in supports))

    def _place(self, name: str, x: ArrayLike) -> Array:
        column, cases = _column(name, x), len(self.reactions)
        if cases > 1 and len(column) not in (1, cases):
            raise ValueError(f"{name} has {len(column)} places: give 1 or {cases}, one for a case")
        _refuse_outside(name, column, self._member)
        return column


def solve(beam: Beam, loads: Sequence[Load]) -> Solution:
    """The beam under its loads, every support holding both ways. Linear: components may be added.

    Raises ValueError, naming the field and its value, for what is not a number, supports that do
    not ascend, a stiffness that is not positive, a load outside the member, shapes that differ.
    """
    member, terms, shape = _read(beam, loads)
    x, give, last = member.supports, member.give, len(member.supports) - 1
    a, b, span = x - x[0], x[-1] - x, x[-1] - x[0]
    forces = np.zeros((last + 1, *shape[::-1])).swapaxes(1, 2)  # the cases side by side in memory
    forces[0], forces[-1] = -_about(terms, x[-1]) / span, _about(terms, x[0]) / span
    free = _bent(member, terms, x)

    def line() -> tuple[Array, Array]:  # puts the bent beam on its two outermost supports
        inside = forces[0] * give[0] - free[0]
        outside = forces[-1] * give[-1] - free[-1]
        for force, arm in zip(forces[:-1], b[:-1], strict=True):
            outside = outside - force * _unit_bent(member, arm)
        return inside, (outside - inside) / span

    settle, turn = line()
    if last > 1:
        gap = free + forces[0] * _unit_bent(member, a) + settle + turn * a
        forces[1:-1] = _eliminate(_flexibility(member, a, b, give), gap[1:-1])
        for i in range(1, last):
            forces[0] -= forces[i] * (b[i] / span)
            forces[-1] -= forces[i] * (a[i] / span)
        settle, turn = line()
    return Solution(np.moveaxis(forces, 0, -1), settle, turn, member, terms)


def _flexibility(member: _Member, a: Array, b: Array, give: Array) -> Array:
    """Deflection of the base beam at a redundant by a unit load at another, and its own give,
    (n - 2, n - 2, cases, 1). a and b reach from the inner and the outer support of the base."""
    span, ai, aj, bi, bj = a[-1], a[1:-1, None], a[None, 1:-1], b[1:-1, None], b[None, 1:-1]
    near, far, rest = np.minimum(ai, aj), np.maximum(ai, aj), np.minimum(bi, bj)
    # textbook: rest near (span^2 - rest^2 - near^2) / 6 EI span; written so that nothing cancels
    square = 2 * far * rest + (far - near) * (far + near)
    matrix: Array = rest * near / span * (square / 6 * member.bend + member.shear)
    matrix = matrix + (bi * bj * give[0] + ai * aj * give[-1]) / (span * span)
    for i in range(len(matrix)):
        matrix[i, i] += give[i + 1]
    return matrix


def _eliminate(matrix: Array, right: Array) -> Array:
    """Gauss-Jordan over all cases at once, elementwise so that batches repeat to the last bit. A
    flexibility matrix is symmetric and positive definite: no pivoting."""
    for k in range(len(matrix)):
        right[k] /= matrix[k, k]
        matrix[k] = matrix[k] / matrix[k, k]
        for i in (i for i in range(len(matrix)) if i != k):
            right[i] -= matrix[i, k] * right[k]
            matrix[i] = matrix[i] - matrix[i, k] * matrix[k]
    return right


def _power(d: Array, power: int) -> Array:
    """d^power / power! by multiplying: numpy's power may differ in its last bit with the length."""
    result = d if power else np.ones_like(d)
    for k in range(2, power + 1):
        result = result * d / k
    return result


def _total(terms: _Terms, x: Array, order: int, side: Side = "right") -> Array:
    """The moment at x, integrated `order` times; -1 is the shear."""
    if side not in ("left", "right"):
        raise ValueError(f'side = {side!r}: "left" or "right"')
    total = _nothing(terms, x)
    for at, size, power, on in terms:
        d = x - at
        if power + order > 0:
            if (d > 0).any():  # a load that begins beyond x everywhere adds nothing
                total[..., on] += size[..., on] * _power(np.maximum(d, 0.0), power + order)
        elif power + order == 0:
            total[..., on] += size[..., on] * (d >= 0 if side == "right" else d > 0)
    return total


def _about(terms: _Terms, x: Array) -> Array:
    """Moment of all the loads about x, of those beyond it too."""
    total = _nothing(terms, x)
    for at, size, power, on in terms:
        total[..., on] += size[..., on] * _power(x - at, power)
    return total


def _nothing(terms: _Terms, x: Array) -> Array:
    """Zeros in the shape of a sum over the terms at x, the cases side by side in memory."""
    shapes = (values.shape for term in terms for values in term[:2])
    return np.zeros(np.broadcast_shapes(x.shape, *shapes), order="F")


def _sized(size: Array) -> slice:
    """The components from the first to the last that have a size in some case."""
    which = np.flatnonzero(size.any(axis=0))
    if size.shape[-1] == 1 or not len(which):
        return slice(None)
    return slice(int(which[0]), int(which[-1]) + 1)


def _bent(member: _Member, terms: _Terms, x: Array) -> Array:
    """Deflection at x if the member is held straight and level at its start."""
    sheared = tuple(term for term in terms if term.power)
    return _total(sheared, x, 0) * member.shear - _total(terms, x, 2) * member.bend


def _unit_bent(member: _Member, d: Array) -> Array:
    """The same for a unit of upward force, at the distance d beyond it."""
    return d * member.shear - _power(d, 3) * member.bend


def _read(beam: Beam, loads: Sequence[Load]) -> tuple[_Member, _Terms, _Shape]:
    """The beam, its loads as terms, (cases, components); ValueError for what is wrong."""
    x = _numbers("supports", beam.supports, (1, 2))
    k = _numbers("stiffness", beam.stiffness, (0, 1, 2), infinite=True)
    EI, GA = _column("EI", beam.EI), _column("GA", beam.GA, infinite=True)
    start, end = _column("start", beam.start), _column("end", beam.end)
    named = {"supports": x, "stiffness": k, "EI": EI, "GA": GA, "start": start, "end": end}
    places, sizes, terms = {"supports": x}, {}, []
    for i, load in enumerate(loads):
        of, power, ends = _KINDS[type(load)]
        name = f"loads[{i}].{of}"
        size = sizes[name] = _numbers(name, getattr(load, of), (0, 2))
        for end_of, sign in ends.items():
            name = f"loads[{i}].{end_of}"
            at = places[name] = _column(name, getattr(load, end_of))
            if not isinstance(load, Ramp):
                terms.append(_Term(at, sign * size, power, _sized(size)))
        if isinstance(load, Ramp):
            terms += _ramp(places[f"loads[{i}].start"], places[f"loads[{i}].end"], size)
    shape = (_count("cases", named | places | sizes, 0), _count("components", sizes, 1))
    if x.shape[1] < 2 or k.shape[1] not in (1, x.shape[1]):
        raise ValueError(
            f"supports are {x.shape[1]} and stiffness {k.shape[1]}: "
            "give 2 supports or more and one stiffness, or one for each support"
        )
    for name, values in (("EI", EI), ("GA", GA), ("stiffness", k)):
        _refuse(values <= 0, name, values, "must be above 0")
    _refuse(start >= end, "start", start, "must be short of end")
    near = x[:, 1:] - x[:, :-1] <= CLOSEST * (x[:, -1:] - x[:, :1])
    _refuse(near, "supports", x[:, 1:], "must ascend, apart by 1/1000 of the outermost two or more")
    give = np.tile(1 / k, (1, x.shape[1] // k.shape[1]))
    member = _Member(x.T[..., None], give.T[..., None], 1 / EI, 1 / GA, start, end)
    for name, values in places.items():
        _refuse_outside(name, values, member)
        if name.endswith(".start"):
            beyond = values > places[name.removesuffix("start") + "end"]
            _refuse(beyond, name, values, "must not be beyond end")
    return member, tuple(terms), shape


def _ramp(start: Array, end: Array, size: Array) -> list[_Term]:
    """Growth from start, and at the end the growth and the full size taken off again."""
    length = end - start
    growth = size / np.where(length > 0, length, np.inf)
    full = size * (length > 0)
    return [_Term(start, -growth, 3), _Term(end, growth, 3), _Term(end, full, 2)]


def _numbers(
    name: str, value: ArrayLike, dimensions: tuple[int, ...], infinite: bool = False
) -> Array:
    """Finite numbers with the case first: (1 or cases, 1 or more)."""
    try:
        values = np.asarray(value, dtype=np.float64)
    except (TypeError, ValueError):
        raise ValueError(f"{name} = {value!r}: must be numbers") from None
    if values.ndim not in dimensions or not values.size:
        allowed = " or ".join(map(str, dimensions))
        raise ValueError(f"{name} has the shape {values.shape}: give {allowed} dimensions")
    values = np.atleast_2d(values) if 2 in dimensions else values.reshape(-1, 1)
    if infinite:
        _refuse(np.isnan(values), name, values, "must be a number")
    else:
        _refuse(~np.isfinite(values), name, values, "must be a finite number")
    return values


def _column(name: str, value: ArrayLike, infinite: bool = False) -> Array:
    return _numbers(name, value, (0, 1), infinite)


def _count(what: str, named: dict[str, Array], axis: int) -> int:
    counts = {name: values.shape[axis] for name, values in named.items() if values.shape[axis] > 1}
    if len(set(counts.values())) > 1:
        raise ValueError(f"{what} do not agree: {counts}")
    return next(iter(counts.values()), 1)


def _refuse(bad: Bools, name: str, values: Array, why: str) -> None:
    if bad.any():
        value = np.broadcast_to(values, bad.shape)[bad][0]
        row = f" in row {np.argwhere(bad)[0][0]}" if len(bad) > 1 else ""
        raise ValueError(f"{name} = {value:g}{row}: {why}")


def _refuse_outside(name: str, x: Array, member: _Member) -> None:
    outside = (x < member.start) | (x > member.end)
    if outside.any():
        row = np.argwhere(outside)[0][0]
        low, high = member.start[row % len(member.start), 0], member.end[row % len(member.end), 0]
        _refuse(outside, name, x, f"outside the member, which is {low:g} to {high:g} in")
