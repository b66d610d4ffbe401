"""The beam against a general finite-element library: python tests/bench/bench_statics.py

1,000 random beams of 2 to 4 supports with an overhang, a point load, an even load on the arm and
one on everything, shear deformation off in both. The library is PyNiteFEA (extra "witness"), a
model of one member per beam. Timed for it: the analysis and reading reactions and tip deflection,
once, without building the models. Timed for ours: everything, from bare numbers to reactions and
tip deflection, the least of five, since one call is over in a millisecond.
Compared: all reactions, the tip deflection and the largest deflection among 41 places of each beam.
Exit status 1 where a difference is above 1e-9 or the ratio below 1,000; 2 without the library.
"""

import sys
from pathlib import Path
from time import perf_counter

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))  # runs uninstalled too

from outrigger.statics.beam import Beam, Point, Uniform, solve

CASES = 1000
PLACES = 41
LARGEST_DIFFERENCE = 1e-9
LEAST_RATIO = 1000


def random_beams(rng, cases, n):
    """Bare numbers of one batch, the edge at 0; x from the inner end."""
    gaps = rng.uniform(12, 40, (cases, n - 1))
    supports = np.concatenate(
        (np.cumsum(gaps[:, ::-1], axis=1)[:, ::-1] * -1, np.zeros((cases, 1))), 1
    )
    return {
        "supports": supports,
        "EI": rng.uniform(2e7, 4e7, cases),
        "start": supports[:, 0] - rng.uniform(1, 4, cases),
        "end": rng.uniform(16, 36, cases),
        "P": rng.uniform(100, 900, cases),
        "w": rng.uniform(0.2, 1, cases),
        "w_arm": rng.uniform(1, 6, cases),
    }


def ours(g):
    """A batch: point load 3 in from the end, even load up to it from 0, even load on everything."""
    beam = Beam(g["supports"], g["EI"], g["start"], g["end"])
    column = {name: g[name][:, None] for name in ("P", "w", "w_arm")}
    arm = Uniform(0, g["end"] - 3, column["w_arm"])
    return solve(
        beam, [Point(g["end"] - 3, column["P"]), arm, Uniform(g["start"], g["end"], column["w"])]
    )


def model(FEModel3D, g, i):
    """The same beam as one PyNite member along X, loads in -Y. Bending about z: Iz = EI / E."""
    fe, start, end = FEModel3D(), g["start"][i], g["end"][i]
    fe.add_material("wood", 1.0, 1.0, 0.3, 0.0)
    fe.add_section("section", 1.0e6, 1.0e6, g["EI"][i], 1.0e6)
    places = {"start": start, "end": end}
    places |= {f"R{j}": x for j, x in enumerate(g["supports"][i])}
    for name, x in places.items():
        fe.add_node(name, x, 0.0, 0.0)
    fe.add_member("m", "start", "end", "wood", "section")
    for name in places:
        if name.startswith("R"):
            fe.def_support(name, name == "R0", True, True, name == "R0", False, False)
    fe.def_support("start", False, False, True, False, True, False)
    fe.add_member_pt_load("m", "Fy", -g["P"][i], end - 3 - start)
    fe.add_member_dist_load("m", "Fy", -g["w_arm"][i], -g["w_arm"][i], -start, end - 3 - start)
    fe.add_member_dist_load("m", "Fy", -g["w"][i], -g["w"][i])
    return fe


def compare(batches):
    """Largest relative difference of reactions and deflections, and both times, in s."""
    from Pynite import FEModel3D

    different, library_time, our_time = {"reactions": 0.0, "deflections": 0.0}, 0.0, 0.0
    for g in batches:
        cases, n = g["supports"].shape
        times = []
        for _ in range(5):
            began = perf_counter()
            solved = ours(g)
            tip = solved.deflection(g["end"])
            times.append(perf_counter() - began)
        our_time += min(times)
        models = [model(FEModel3D, g, i) for i in range(cases)]
        began = perf_counter()
        reactions, tips = np.empty((cases, n)), np.empty(cases)
        for i, fe in enumerate(models):
            fe.analyze_linear(log=False, check_stability=False, check_statics=False)
            reactions[i] = [fe.nodes[f"R{j}"].RxnFY["Combo 1"] for j in range(n)]
            tips[i] = -fe.nodes["end"].DY["Combo 1"]
        library_time += perf_counter() - began
        part = np.linspace(0, 1, PLACES)
        length = g["end"] - g["start"]
        sampled = np.array(
            [
                [-fe.members["m"].deflection("dy", p * long, "Combo 1") for p in part]
                for fe, long in zip(models, length, strict=True)
            ]
        )
        at = [solved.deflection(g["start"] + p * length)[:, 0] for p in part[:-1]]
        lines = np.stack((*at, tip[:, 0]), axis=1)
        largest = np.abs(sampled).max(axis=1)
        for name, value, expected, scale in (
            ("reactions", solved.reactions[:, 0], reactions, np.abs(reactions).max(axis=1)),
            ("deflections", np.abs(lines).max(axis=1)[:, None], largest[:, None], largest),
            ("deflections", tip, tips[:, None], largest),
        ):
            gap = (np.abs(value - expected) / scale[:, None]).max()
            different[name] = max(different[name], float(gap))
    return different, library_time, our_time


def main():
    """Prints the differences, the times and the ratio; 0 where all are as wanted."""
    try:
        import Pynite  # noqa: F401
    except ImportError:
        print('PyNiteFEA is not installed: pip install -e ".[witness]" to compare with it.')
        return 2
    rng = np.random.default_rng(2024)
    batches = [random_beams(rng, cases, n) for n, cases in ((2, 334), (3, 333), (4, 333))]
    different, library_time, our_time = compare(batches)
    ratio = library_time / our_time
    for name, value in different.items():
        print(
            f"largest relative difference, {name}: {value:.1e} (at most {LARGEST_DIFFERENCE:.0e})"
        )
    print(f"PyNiteFEA, {CASES} beams: {library_time:.3f} s, analysis only")
    print(f"outrigger, {CASES} beams: {our_time * 1000:.3f} ms, 3 calls, all included")
    print(f"ratio: {ratio:,.0f} (at least {LEAST_RATIO:,})")
    return int(ratio < LEAST_RATIO or max(different.values()) > LARGEST_DIFFERENCE)


if __name__ == "__main__":
    sys.exit(main())
