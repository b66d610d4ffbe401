"""Load factors of ASCE 7 2.3.1 and 2.4.1, and lambda beside them, as the checks combine loads."""

import numpy as np

from outrigger.loads.combinations import Combination, combinations
from outrigger.loads.parts import PARTS
from outrigger.proof.compared import Compared
from outrigger.proof.read import compared, rows

GROUP = "combinations"
PRESENT = frozenset({"D", "D_back", "L", "Lr", "S", "W_up", "W_down"})
COLUMNS = {"D": "D", "L": "L", "Lr": "Lr", "S": "S", "W": "W_up"}


def load_factors() -> list[Compared]:
    """Each factor that a row prints, and lambda with and without storage."""
    found = []
    for row in rows("combinations"):
        every = combinations(row["edition"], row["method"], PRESENT)
        own = [one for one in every if one.id == row["id"] and not one.ours]
        name = f"{row['edition'].removeprefix('ASCE ')} {row['method']} {row['id']}"
        for column, part in COLUMNS.items():
            if row[column]:
                here = max((_factor(one, part) for one in own), default=np.nan)
                found.append(compared(GROUP, row, f"{name}: {column}", here, printed=row[column]))
        for column, storage in (("lam", False), ("lam_storage", True)):
            if row[column]:
                times = {one.time for one in own if bool(_factor(one, "L")) is storage} or {np.nan}
                both = {**row, "source": row["lam_source"], "at": row["lam_at"]}
                said = "lambda with storage" if storage else "lambda"
                found.append(
                    compared(
                        GROUP, both, f"{name}: {said}", max(times), printed=row[column],
                        status=row["lam_status"],
                    )
                )  # fmt: skip
    return found


def _factor(one: Combination, part: str) -> float:
    return float(one.factors[PARTS.index(part)])
