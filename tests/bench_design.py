"""Times whole designs in batches, and the start of `check`. A script: python tests/bench_design.py

A case with its gap swept, every combination and every check, in chunks: one whose snow and wind
are stated, and the sample, whose cases of snow and wind follow from the codes. Then `check` as a
whole process beside a one-command program that imports the same libraries and does nothing.
"""

import statistics
import subprocess
import sys
import time
from pathlib import Path

import numpy as np

from outrigger.case_file import read_case
from outrigger.design import design

ROOT = Path(__file__).parents[1]
STATED, SAMPLE = ROOT / "examples" / "passes.toml", ROOT / "outrigger" / "sample.toml"
CHUNK = 1000  # cases in one call: 100,000 to 200,000 cells of cases x combinations
EMPTY = """
import numpy, tabulate, typer
from pydantic import BaseModel
app = typer.Typer(rich_markup_mode=None, pretty_exceptions_enable=False, add_completion=False)
@app.command()
def nothing() -> None:
    pass
app()
"""


def batch(path, count):
    """Seconds for `count` designs, and how many of them have no failing check."""
    case, _ = read_case(path)
    gaps = np.linspace(2.0, 12.0, count)
    works, begun = 0, time.perf_counter()
    for start in range(0, count, CHUNK):
        result = design(case.swept({"gap.width": gaps[start : start + CHUNK]}))
        ratios = np.stack([np.broadcast_to(c.worst()[0], (result.count,)) for c in result.checks])
        works += int(np.sum(np.all(ratios <= 1, axis=0)))
    return time.perf_counter() - begun, works


def process(*arguments):
    """Seconds of one whole process, the median of nine."""
    times = []
    for _ in range(9):
        begun = time.perf_counter()
        subprocess.run([sys.executable, *arguments], capture_output=True, check=True)
        times.append(time.perf_counter() - begun)
    return statistics.median(times)


if __name__ == "__main__":
    for path in (STATED, SAMPLE):
        for count in (201, 1_000, 10_000, 100_000):
            seconds, works = batch(path, count)
            rate = seconds / count * 1e6
            print(f"{path.stem}, {count:>7}: {seconds:.3f} s, {rate:.1f} us each, {works} work")
    check, empty = process("-m", "outrigger", "check"), process("-c", EMPTY)
    print(f"check {check:.3f} s, empty program {empty:.3f} s: {check / empty:.2f} times")
