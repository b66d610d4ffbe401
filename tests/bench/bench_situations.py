"""Thirteen situations of a builder, each a few settings over one case: what comes out, and on which
line the verdict, the why and the cure stand at 80 and 40 columns. Run by hand:

    python tests/bench/bench_situations.py
"""

import re
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))

from running import run

BASE = Path(__file__).parents[2] / "examples" / "passes.toml"
SITUATIONS = {
    "mild, category B": ["check", "seismic.category=B", "seismic.sds=0.15"],
    "snow 60 psf": ["check", "snow=60psf"],
    "deep snow 120 psf": ["check", "snow=120psf"],
    "short back span": ["check", "back_span=12in"],
    "coast, no wall clip": ["check", "wind.uplift=60psf", "hold_down[edge].rated_uplift=none"],
    "category D": ["check", "seismic.category=D", "seismic.sds=1.0"],
    "gap 4 to 7 in": ["gap", "gap=7in"],
    "damp": ["check", "outrigger.moisture=wet"],
    "thin bearing": ["check", "gap.edge_bearing=1 1/2 in", "snow=35psf"],
    "rake": ["check", "house_roof.pitch=3:12", "house_roof.direction=across the slope"],
    "wide roof": ["check", "roof_span=30ft"],
    "other edition": ["check", "basis.loads=ASCE 7-22", "snow=30 psf"],
    "sizing": ["size"],
}


def line_of(lines, pattern):
    """The number of the first line that fits, from 1; - where none does."""
    return next((str(i) for i, line in enumerate(lines, 1) if re.search(pattern, line)), "-")


def main():
    print(f"{'situation':22} exit  sec | verdict why cure all | at 40: verdict why cure all")
    for name, (command, *settings) in SITUATIONS.items():
        cells = []
        for width in (80, 40):
            began = time.perf_counter()
            done = run(command, BASE, *settings, width=width)
            took = time.perf_counter() - began
            lines = done.stdout.splitlines()
            cells.append(
                f"{line_of(lines, 'SAMPLE: '):>7} "
                f"{line_of(lines, 'FAILS| open|=====|does it work'):>3} "
                f"{line_of(lines, 'cures it|cure it|Missing|Least at each'):>4} {len(lines):>3}"
            )
        print(f"{name:22} {done.returncode:>4} {took:4.1f} | {cells[0]} |        {cells[1]}")


if __name__ == "__main__":
    main()
