"""Times whole designs in batches, and commands as whole processes. A script:
python tests/bench/bench_design.py

A case with its gap swept, every combination and every check, in chunks: one whose snow and wind
are stated (edge and back tied), and the sample, whose cases of snow and wind follow from the
codes. Then what one chunk spends its time on, and the floor: every demand and ratio of a design
in every combination written once, at the speed of one product of two arrays of a chunk. Then
`check` beside a one-command program that imports the same libraries and does nothing, and the
studies. Batches are in seconds of the processor; processes in seconds of the clock, compiled
modules kept.
"""

import cProfile
import os
import pstats
import resource
import statistics
import subprocess
import sys
import time
from pathlib import Path

import numpy as np

from outrigger.cases.batch import batch_of
from outrigger.cases.read import read_case
from outrigger.studies.search import designs
from outrigger.verdict.design import designs_of

ROOT = Path(__file__).parents[2]
STATED, SAMPLE = ROOT / "examples" / "passes.toml", ROOT / "outrigger" / "sample.toml"
AT_ONCE = 398  # cases, as a sweep of the sample runs
FAILS = ROOT / "examples" / "shear_in_a_weak_species.toml"
COUNTS = (200, 10_000, 100_000, 1_000_000)
EMPTY = """
import numpy, tabulate, typer
from pydantic import BaseModel
app = typer.Typer(rich_markup_mode=None, pretty_exceptions_enable=False, add_completion=False)
@app.command()
def nothing() -> None:
    pass
app()
"""
COMMANDS = {
    "check": ("-m", "outrigger", "check"),
    "check, one that fails": ("-m", "outrigger", "check", str(FAILS)),
    "gap": ("-m", "outrigger", "gap"),
    "gap, 200 gaps": ("-m", "outrigger", "gap", "--from", "2.05 in", "--step", "0.05 in"),
    "compare": ("-m", "outrigger", "compare"),
}
MB = 1e3  # of ru_maxrss, in kB


def batch(path, count):
    """Seconds for `count` designs, and how many of them work."""
    case, _ = read_case(path)
    gaps = np.linspace(2.0, 12.0, count)
    works, begun = 0, time.process_time()
    for _, result in designs(case, {"gap.width": gaps}):
        works += int(np.sum(result.works))
    return time.process_time() - begun, works


def shares(path):
    """Parts of the time of ten chunks by function, the largest first."""
    case, _ = read_case(path)
    profile = cProfile.Profile()
    profile.runcall(lambda: [r.works for _, r in designs(case, {"gap.width": wide(10)})])
    stats = pstats.Stats(profile)
    rows = [(own, name, file) for (file, _, name), (_, _, own, _, _) in stats.stats.items()]
    for own, name, file in sorted(rows, reverse=True)[:8]:
        print(f"  {own / stats.total_tt:5.0%} {Path(file).stem} {name}")


def wide(chunks):
    """Gaps enough for some chunks."""
    return np.linspace(2.0, 12.0, chunks * AT_ONCE)


def floor(path):
    """Microseconds a design would take if each demand and ratio were written once, no more."""
    case, _ = read_case(path)
    result = designs_of(batch_of(case, {"gap.width": wide(1)}))
    over = result.worked.main.combinations.all
    numbers = sum(2 * max(len(check.combinations), 1) for check in result.checks)
    a = np.ones((AT_ONCE, len(over)))
    out, begun = np.empty_like(a), time.perf_counter()
    for _ in range(200):
        np.multiply(a, a, out=out)
    each = (time.perf_counter() - begun) / 200 / a.size
    return numbers, len(over), len(result.checks), numbers * each * 1e6


def processes(named):
    """Seconds of each whole process, the medians of nine rounds after one that compiles."""
    env = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    times = {name: [] for name in named}
    for _ in range(10):  # turn by turn, so that a busy moment strikes all of them
        for name, arguments in named.items():
            begun = time.perf_counter()
            command = [sys.executable, *arguments]
            subprocess.run(command, capture_output=True, check=False, env=env)
            times[name].append(time.perf_counter() - begun)
    return {name: statistics.median(found[1:]) for name, found in times.items()}


if __name__ == "__main__":
    for path in (STATED, SAMPLE):
        batch(path, 1000)
        for count in COUNTS:
            seconds, works = batch(path, count)
            rate = seconds / count * 1e6
            print(f"{path.stem}, {count:>9,}: {seconds:7.3f} s, {rate:5.1f} us each, {works} work")
        numbers, combinations, checks, least = floor(path)
        print(f"  {combinations} combinations, {checks} checks: {numbers:,.0f} demands and ratios")
        print(f"  a design; floor {least:.1f} us. Time of a chunk by function:")
        shares(path)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / MB
    print(f"largest memory of it all {peak:,.0f} MB")
    seconds = processes({"empty program": ("-c", EMPTY), **COMMANDS})
    for name, each in seconds.items():
        print(f"{name} {each:.3f} s, {each / seconds['empty program']:.2f} times the empty program")
