"""What a member of the house carries beside the outriggers, in the same load combinations.

Its line loads are stated by load case; a combination has the factor of each from what it holds of
that case on the outrigger, the larger of arm and back span. Where the house has a load that the
garage has not, the combinations are those of both together.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from outrigger.actions.model import Model
from outrigger.actions.sums import Combinations
from outrigger.formula.numbers import Array, Num, greatest
from outrigger.loads.combinations import HELPING_DEAD, PARTS, SNOW_CASES

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


@dataclass(frozen=True, eq=False)
class Factors:
    """Combinations over the parts of the outrigger, and what each counts of what lies beside it.

    `dead_down`, `dead_up`: of dead load where it harms, and where it helps against uplift;
    `of`: of every other load case. Each (1, combinations).
    """

    combinations: Combinations
    dead_down: Array
    dead_up: Array
    of: Mapping[str, Array]

    def down(self, lines: Mapping[str, Num]) -> Array:
        """All that presses, by the line load of each load case."""
        total = self.dead_down * lines.get("D", 0.0)
        for case in ("L", "Lr", "S", "S_house", "S_shed", "W_down"):
            total = total + self.of[case] * lines.get(case, 0.0)
        return total

    def up(self, lines: Mapping[str, Num]) -> Array:
        """Net upward: wind, less the dead load that is sure to be there; negative: none."""
        return self.of["W_up"] * lines.get("W_up", 0.0) - self.dead_up * lines.get("D", 0.0)


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
