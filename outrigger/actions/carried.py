"""What a member of the house carries beside the outriggers, in the same load combinations.

Its line loads are stated by load case; a combination has the factor of each from what it holds of
that case on the outrigger, the larger of arm and back span. Where the house has a load that the
garage has not, the combinations are those of both together.
"""

from collections.abc import Mapping

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.model import Model
from outrigger.actions.sums import Combinations
from outrigger.formula.formula import Terms
from outrigger.formula.numbers import Array, Bools, Num, greatest
from outrigger.loads.parts import PARTS, SNOW_CASES
from outrigger.loads.patterns import HELPING_DEAD

OF_CASE = {  # the parts of a combination that hold a load case
    "L": ("L",),
    "Lr": ("Lr", "Lr_back"),
    "S": ("S", *SNOW_CASES, "S_back"),
    "W_up": ("W_up", "W_back"),
    "S_house": ("S_house",),
    "S_shed": ("S_shed",),
    "W_down": ("W_down", "W_press_back"),
    "W": ("W_up", "W_down", "W_back", "W_press_back", "H_away", "H_toward"),
}
STANDS_FOR = {"W": "H_away"}  # the part that brings a case's combinations, where not its own name


class Factors(Struct, frozen=True, eq=False):
    """Combinations over the parts of the outrigger, and what each counts of what lies beside it.

    `dead_down`, `dead_up`: of dead load where it harms, and where it helps against uplift;
    `of`: of every other load case. Each (1, combinations).
    """

    combinations: Combinations
    dead_down: Array
    dead_up: Array
    of: Mapping[str, Array]

    @property
    def pressing(self) -> Mapping[str, Array]:
        """By load case, of what presses."""
        cases = ("L", "Lr", "S", "S_house", "S_shed", "W_down")
        return {"D": self.dead_down, **{case: self.of[case] for case in cases}}

    @property
    def lifting(self) -> Mapping[str, Array]:
        """Of wind, less the dead load that is sure to be there."""
        return {"W_up": self.of["W_up"], "D": -self.dead_up}

    def down(self, lines: Mapping[str, Num]) -> Array:
        """All that presses, by the line load of each load case."""
        return added(self.pressing, lines)

    def up(self, lines: Mapping[str, Num]) -> Array:
        """Net upward; negative: none."""
        return added(self.lifting, lines)


def added(factors: Mapping[str, Array], lines: Mapping[str, Num]) -> Array:
    """Factor times load, case by case."""
    none = np.zeros((1, 1))
    return np.asarray(sum((f * lines.get(case, 0.0) for case, f in factors.items()), none))


def terms(
    lines: Mapping[str, Num],
    lifted: Bools | Array,
    lifting: Mapping[str, Array],
    pressing: Mapping[str, Array],
) -> Terms | None:
    """The same as a sum to print, of the first case: lifted, by the factors that lift."""
    if not lines:
        return None
    none = np.zeros((1, 1))
    first = np.atleast_2d(lifted)[:1]
    ways = (np.where(first, lifting.get(c, none)[:1], pressing.get(c, none)[:1]) for c in lines)
    factors = np.concatenate(np.broadcast_arrays(*ways)).T
    loads = (np.reshape(np.asarray(line, dtype=float), (-1, 1)) for line in lines.values())
    amounts = np.concatenate(np.broadcast_arrays(*loads), axis=1)
    return Terms(tuple(lines), factors, amounts)


def factors_beside(model: Model, over: Combinations, cases: frozenset[str]) -> Factors:
    """The factors of load cases that lie beside the outriggers. `over`: the combinations of a
    method over the parts of the outrigger; `cases`: those that are not none."""
    parts, factors = over.parts, over.factors
    lacking = [c for c in cases if c in OF_CASE and not set(OF_CASE[c]) & set(parts)]
    if lacking:
        more = {STANDS_FOR.get(case, case) for case in lacking}
        parts = tuple(part for part in PARTS if part in more or part in over.parts)
        whole = model.combinations(over.method, parts)
        factors = whole.factors
        own = factors[:, [parts.index(part) for part in over.parts]]
        over = replace(over, all=whole.all, factors=own, times=whole.times)

    def most(names: tuple[str, ...]) -> Array:
        found = [factors[:, parts.index(name)][None, :] for name in names if name in parts]
        return np.asarray(greatest(np.zeros((1, len(factors))), *found))

    back = factors[:, parts.index("D_back")][None, :]
    return Factors(
        combinations=over,
        dead_down=most(("D", "D_back")),
        dead_up=np.clip(back, 0.0, HELPING_DEAD[over.method]),
        of={case: most(names) for case, names in OF_CASE.items()},
    )
