"""Snow of ASCE 7 chapter 7: worked examples, drift heights, the windward drift of 7-22."""

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from outrigger.formula.formula import Step
from outrigger.loads.combinations import Edition
from outrigger.loads.snow import roof
from outrigger.loads.snow.drift import drift_at_step
from outrigger.loads.snow.drift_height import density, drift_height
from outrigger.loads.snow.rules import slope_of
from outrigger.loads.snow.unbalanced import unbalanced
from outrigger.proof.compared import Compared
from outrigger.proof.read import column, compared, examples, rows, worked

GROUP = "snow"
OLD: Edition = "ASCE 7-16"
NEW: Edition = "ASCE 7-22"
HEIGHTS: dict[str, tuple[Edition, dict[str, Any]]] = {
    "hd_716_Is1_ft": (OLD, {"Is": 1.0}),
    **{f"hd_722_W2_{W2:.2f}_ft": (NEW, {"W2": W2}) for W2 in (0.35, 0.45, 0.55)},
}

Given = Mapping[str, Any]
Numbers = dict[str, Any]


def _named(step: Step, symbol: str) -> Any:
    """The first value of a symbol in the chain of a step."""
    return next(s for s in step.chain() if s.symbol == symbol).value


def _flat(g: Given) -> tuple[Any, Any]:
    """Ct and pf: of the roof's insulation in 7-22, stated, or the balanced snow itself."""
    if "pf_psf" in g:
        return None, g["pf_psf"]
    heated = "roof_r" in g
    Ct = roof.heated_thermal_factor(g["roof_r"], g["pg_psf"]) if heated else g["Ct"]
    more = {"Is": g["Is"]} if "Is" in g else {}
    pf = roof.flat_roof_snow(g["edition"], pg_psf=g["pg_psf"], Ce=g.get("Ce", 1.0), Ct=Ct, **more)
    return Ct, pf


def _value(one: Any) -> Any:
    return one.value if isinstance(one, Step) else one


def step(g: Given) -> Numbers:
    """A drift at a step between two roofs: one side of it."""
    Ct, pf = _flat(g)
    more = {key: g[key] for key in ("Is", "W2") if key in g}
    drift = drift_at_step(
        g["edition"], pg_psf=g["pg_psf"], ps_psf=pf, step_ft=g["step_ft"], upper_ft=g["upper_ft"],
        lower_ft=g["lower_ft"], **more,
    )  # fmt: skip
    (side,) = (one for one in drift.candidates if one.rule == g["side"])
    found = {
        "Ct": _value(Ct),
        "pf, psf": _value(pf),
        "hb, ft": _named(drift.clear, "h_b"),
        "hc, ft": drift.clear.value,
        "hc/hb": drift.clear.value / _named(drift.clear, "h_b"),
        "density, pcf": _named(drift.clear, "gamma_snow"),
        "surcharge, psf": side.peak.value,
        "peak, psf": side.peak.value + _value(pf),
        "width, ft": side.width.value,
    }
    if drift.applies:
        found["hd, ft"] = _named(side.peak, "h_d")
        found["height, ft"] = _named(side.peak, "h_drift")
    return found


def gable(g: Given) -> Numbers:
    """Unbalanced snow on a gable."""
    Ct, pf = _flat({**g, "pf_psf": g["ps_psf"]} if "ps_psf" in g else g)
    more = {key: g[key] for key in ("Is", "W2", "rafters") if key in g}
    case = unbalanced(
        g["edition"], pg_psf=g["pg_psf"], ps_psf=pf, slope_deg=slope_of(g["rise_in_12"]),
        span_ft=g["span_ft"], **more,
    )  # fmt: skip
    windward, leeward, over, extent = case.steps
    found = {
        "Ct": _value(Ct),
        "pf, psf": _value(pf),
        "windward, psf": windward.value,
        "leeward, psf": leeward.value,
        "over the ridge, psf": over.value,
        "extent, ft": extent.value,
    }
    if over.value:
        found["density, pcf"] = _named(over, "gamma_snow")
        found["hd, ft"] = _named(over, "h_d")
    return found


def heated(g: Given) -> Numbers:
    """Ct of a heated roof, between the cells of Table 7.3-3."""
    return {"Ct": roof.heated_thermal_factor(g["roof_r"], g["pg_psf"]).value}


def height(g: Given) -> Numbers:
    """Drift height."""
    hd = drift_height(
        g["edition"], pg_psf=g["pg_psf"], fetch_ft=g["fetch_ft"],
        gamma_pcf=density(g["pg_psf"]), Is=g["Is"],
    )  # fmt: skip
    return {"hd, ft": hd.value}


HOW: dict[str, Callable[[Given], Numbers]] = {
    one.__name__: one for one in (step, gable, heated, height)
}


def worked_snow() -> list[Compared]:
    """Every worked example of snow."""
    return [row for one in examples("snow") for row in worked(GROUP, one, HOW[one.how](one.given))]


def drift_heights() -> list[Compared]:
    """The two equations over fetch and ground snow, in one batch."""
    listed = rows("drift_heights")
    fetch, pg = column(listed, "lu_ft"), column(listed, "pg_psf")
    gamma = density(pg)
    densities = np.asarray(gamma.value)
    worked_out = {
        name: drift_height(edition, pg_psf=pg, fetch_ft=fetch, gamma_pcf=gamma, **more).value
        for name, (edition, more) in HEIGHTS.items()
    }
    found = []
    for i, row in enumerate(listed):
        at = f"fetch {row['lu_ft']} ft, {row['pg_psf']} psf"
        found.append(
            compared(GROUP, row, f"density, {at}", densities[i], unit="pcf",
                     printed=row["gamma_pcf"])
        )  # fmt: skip
        for name, values in worked_out.items():
            what = f"{name.removesuffix('_ft').replace('_', ' ')}, {at}"
            here = np.asarray(values)[i]
            found.append(compared(GROUP, row, what, here, unit="ft", printed=row[name]))
    return found


def windward_drifts() -> list[Compared]:
    """The windward drift of 7-22 at a low step, not cut at the clear height: at the wall line."""
    found = []
    for row in rows("windward_722"):
        pg, upper, lower, at_step = (
            float(row[name])
            for name in ("ground_psf", "house_roof_ft", "garage_roof_ft", "step_ft")
        )
        drift = drift_at_step(
            NEW, pg_psf=pg, ps_psf=0.7 * pg, step_ft=at_step, upper_ft=upper, lower_ft=lower,
            W2=0.55, gap_ft=0.5,
        )  # fmt: skip
        what = f"{row['ground_psf']} psf, garage {row['garage_roof_ft']} ft, step {at_step:g} ft"
        here = drift.governing().end_load_plf
        found.append(compared(GROUP, row, what, here, unit="plf", printed=row["uncut"]))
    return found
