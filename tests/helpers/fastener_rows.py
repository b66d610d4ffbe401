"""What the fastener tests share: a row of a published table as a fastener and a joint."""

import pytest

from outrigger.fasteners import dowel_bearing
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.trade_names import Fastener
from outrigger.formula.formula import given

KINDS = {"nail_smooth": "nail", "nail_ring": "nail", "wood_screw": "screw"}


def fastener_of(row):
    """A fastener with the sizes the row states, long enough to reach anywhere."""
    D, kind = float(row["D_in"]), row["fastener"]
    return Fastener(
        name=row.get("designation", ""),
        kind=KINDS.get(kind, kind),
        D=D,
        Dr=float(row.get("Dr_in") or D),
        length=100.0,
        head=0.3,
        Fyb=float(row.get("Fyb_psi") or 0),
        ring=100.0 if kind == "nail_ring" else 0.0,
    )


def bearing(fastener, G, theta, nearest):
    """Fe to the nearest 50 psi, as NDS Table 12.3.3 prints it along and across the grain."""
    step = dowel_bearing.in_wood(fastener, G, theta)
    return given("Fe", nearest * round(float(step.value) / nearest), "psi") if nearest else step


def joint_of(row, nearest=50):
    """Fastener, main and side layer of a row of the lateral tables; lm = p as they take it."""
    fastener = fastener_of(row)
    angles = float(row.get("theta_main_deg") or 0), float(row.get("theta_side_deg") or 0)
    if row["Fes_psi"]:
        Fes = given("Fe", float(row["Fes_psi"]), "psi")
    else:
        Fes = bearing(fastener, float(row["G_side"]), angles[1], nearest)
    Fem = bearing(fastener, float(row["G_main"]), angles[0], nearest)
    main = Layer(Fem, float(row["p_in"]), angles[0])
    return fastener, main, Layer(Fes, float(row["ts_in"]), angles[1])


def named(rows, *columns):
    """The rows as parameters, each named by its cells and the status of its number.

    A DERIVED number was computed apart from this program from the same equations: a regression.
    """
    cases = []
    for row in rows:
        status = "DERIVED regression" if row["status"] == "DERIVED" else row["status"]
        name = " ".join([*(row[c] for c in columns if row[c]), status])
        cases.append(pytest.param(row, id=name))
    return cases
