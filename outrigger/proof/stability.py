"""Effective lengths of Table 3.3.3 and the bearing area factor, cell by cell."""

import numpy as np

from outrigger.proof.compared import Compared
from outrigger.proof.read import compared, rows
from outrigger.wood import bending
from outrigger.wood.bearing import bearing_area_factor

GROUP = "stability"
FAR_IN = 12.0  # of a bearing from the end of its member
AT = {"short": (5.0, "k_lu"), "long": (10.0, "k_lu"), "deep": (10.0, "k_d"),
      "over_14_3": (20.0, "k_lu")}  # lu/d at which a column counts  # fmt: skip
SAID = {"short": "lu, lu/d under 7", "long": "lu, from 7 on", "deep": "d, from 7 on",
        "over_14_3": "lu, over 14.3"}  # fmt: skip


def effective_lengths() -> list[Compared]:
    """Each coefficient of the table, at an lu/d where its column counts."""
    found = []
    for row in rows("effective_length"):
        for name, (slender, symbol) in AT.items():
            if row[name]:
                le = bending.effective_length(row["member"], row["loading"], slender, 1.0)
                what = f"{row['member']}, {row['loading']}: times {SAID[name]}"
                here = le.inputs[symbol].value  # type: ignore[union-attr]
                found.append(compared(GROUP, row, what, np.asarray(here), printed=row[name]))
    return found


def bearing_areas() -> list[Compared]:
    """Cb as the table rounds it."""
    found = []
    for row in rows("bearing_area"):
        Cb = bearing_area_factor(float(row["l_bearing_in"]), FAR_IN).value
        what = f"Cb of {row['l_bearing_in']} in"
        found.append(compared(GROUP, row, what, Cb, printed=row["Cb_table"]))
    return found
