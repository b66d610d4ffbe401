"""Connections: lateral values and yield modes, gaps, withdrawal, pull-through, bearing, rows.

Conventions of the lateral tables: Fe to 50 psi, root diameter of lags and screws, lm = p, one value
to 10 lb (lag) or 1 lb. The solved examples keep Fe unrounded.
"""

from collections.abc import Mapping
from typing import Any

from outrigger.base.tables import Row
from outrigger.fasteners import dowel_bearing, lateral, withdrawal, yield_modes
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.group import group_factor
from outrigger.fasteners.trade_names import Fastener, read_fastener
from outrigger.formula.formula import Step, given
from outrigger.proof.compared import HAIR, Compared
from outrigger.proof.read import compared, examples, rows, worked

GROUP = "connections"
KINDS = {"nail_smooth": "nail", "nail_ring": "nail", "wood_screw": "screw"}
NEAREST_PSI = 50  # to which Table 12.3.3 prints Fe
TENTH = 0.05 + HAIR  # lb, of the values that were computed to a tenth
E_PSI, D_IN, SPACING_IN = 1.4e6, 1.0, 4.0  # of Table 11.3.6A


def fastener_of(row: Mapping[str, str]) -> Fastener:
    """A fastener with the sizes the row states, long enough to reach anywhere."""
    D, kind = float(row["D_in"]), row["fastener"]
    return Fastener(
        name=row.get("designation", ""),
        kind=KINDS.get(kind, kind),  # type: ignore[arg-type]
        D=D,
        Dr=float(row.get("Dr_in") or D),
        length=100.0,
        head=0.3,
        Fyb=float(row.get("Fyb_psi") or 0),
        ring=100.0 if kind == "nail_ring" else 0.0,
    )


def bearing(fastener: Fastener, G: float, theta: float, nearest: int) -> Step:
    """Fe to the nearest 50 psi, as NDS Table 12.3.3 prints it along and across the grain."""
    step = dowel_bearing.in_wood(fastener, G, theta)
    if not nearest:
        return step
    return given("Fe", nearest * round(float(step.value) / nearest), "psi")


def joint_of(row: Mapping[str, str], nearest: int = NEAREST_PSI) -> tuple[Fastener, Layer, Layer]:
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


def nearest_of(row: Mapping[str, str]) -> int:
    """How Fe of a row is rounded: not at all in the solved examples."""
    return 0 if row["source"] == "Structural Wood Design Examples" else NEAREST_PSI


def lateral_values() -> list[Compared]:
    """Z of one fastener in single shear."""
    found = []
    for row in rows("lateral"):
        here = yield_modes.single_shear(*joint_of(row, nearest_of(row))).Z.value
        found.append(compared(GROUP, row, f"Z, {_joint(row)}", here, unit="lb"))
    return found


def _joint(row: Row) -> str:
    side = row["side"] if row["side"] == "steel" else f"G {row['G_side']}"
    angles = f"{row['theta_main_deg'] or 0}/{row['theta_side_deg'] or 0} deg"
    return f"{row['designation']}, side {side} {row['ts_in']} in, G {row['G_main']}, {angles}"


def values_over_a_gap() -> list[Compared]:
    """Short penetration and a gap: direct, less half the tip, and in proportion to 10 D."""
    found = []
    for row in rows("lateral_gap"):
        fastener, main, side = joint_of(row)
        p, gap = float(row["p_in"]), float(row["gap_in"])
        whole = yield_modes.single_shear(fastener, main, side, gap)
        routes = lateral.reference_lateral(fastener, main.Fe, side, p, gap=gap)
        prorated = routes.full.Z.value * dowel_bearing.proration(fastener, p).value
        name = f"{row['designation']}, steel {row['ts_in']} in, gap {row['gap_in']} in"
        for column, here, said in (
            ("Z_lm_equals_p", whole.Z.value, "lm = p"),
            ("Z_lm_p_minus_half_tip", routes.direct.Z.value, "less half the tip"),
            ("Z_10D_prorated", prorated, "in proportion to 10 D"),
        ):
            found.append(
                compared(GROUP, row, f"Z, {name}, {said}", here, unit="lb", printed=row[column],
                         allow=TENTH)
            )  # fmt: skip
    return found


def withdrawals() -> list[Compared]:
    """W an inch, or of the length that an example counts."""
    found = []
    for row in rows("withdrawal"):
        W = withdrawal.reference_withdrawal(fastener_of(row), float(row["G"])).value
        here = W * float(row["length_in"] or 1.0)
        what = f"withdrawal, {row['fastener'].replace('_', ' ')} {row['D_in']} in, G {row['G']}"
        found.append(compared(GROUP, row, what, here, unit=row["unit"]))
    return found


def pulls_through() -> list[Compared]:
    """Head pull-through."""
    found = []
    for row in rows("pull_through"):
        head, G, t = (float(row[name]) for name in ("DH_in", "G", "tns_in"))
        what = f"pull-through, head {row['DH_in']} in, G {row['G']}, {row['tns_in']} in"
        here = withdrawal.pull_through(head, G, t).value
        found.append(compared(GROUP, row, what, here, unit="lb"))
    return found


def dowel_bearings() -> list[Compared]:
    """Fe in wood and panels."""
    found = []
    for row in rows("dowel_bearing"):
        G: Any = dowel_bearing.panel_gravity(row["panel"]) if row["panel"] else float(row["G"])
        here = dowel_bearing.in_wood(
            read_fastener(row["fastener"]), G, float(row["theta_deg"])
        ).value
        what = f"Fe, {row['fastener']}, {row['panel'] or 'G ' + row['G']}, {row['theta_deg']} deg"
        found.append(compared(GROUP, row, what, here, unit="psi"))
    return found


def group_actions() -> list[Compared]:
    """Cg of a row of lags."""
    found = []
    for row in rows("group_action"):
        side = E_PSI * float(row["As_in2"])
        EA_s = given("EA_s", side, "lb")
        EA_m = given("EA_m", side / float(row["As_over_Am"]), "lb")
        here = group_factor(D_IN, int(row["lags"]), SPACING_IN, EA_m, EA_s).value
        what = f"Cg of {row['lags']}, As/Am {row['As_over_Am']}, As {row['As_in2']} in2"
        found.append(compared(GROUP, row, what, here))
    return found


def pull(g: Mapping[str, Any]) -> dict[str, Any]:
    """Withdrawal of a fastener by its trade name, through a side member."""
    fastener = read_fastener(g["fastener"])
    pt = withdrawal.counted_length(fastener, fastener.length - g["side_in"]).value
    W = withdrawal.reference_withdrawal(fastener, g["G"]).value
    return {"penetration, in": pt, "withdrawal, lb": W * pt}


def worked_fasteners() -> list[Compared]:
    """The examples that start from a trade name."""
    return [row for one in examples("fasteners") for row in worked(GROUP, one, pull(one.given))]
