"""Everything beside its floor, in one run: python tests/bench/bench_all.py [ROUNDS] [CASE.toml]

Seconds of the processor, the system's part included, the medians of so many rounds turn by turn,
after one that compiles: each command as a whole process beside the empty program and beside
`check`, then designs in a batch beside the time to write each demand and ratio once. The other
benches beside this one say where the time goes.
"""

import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from bench_design import EMPTY, MB, SAMPLE, STATED, batch, floor

COMMANDS = {
    "check": (),
    "gap": (),
    "gap, 200 gaps": ("--from", "2.05 in", "--step", "0.05 in"),
    "size": (),
    "reserve": (),
    "card": (),
    "compare": ("spacing=12in",),
    "layout": ("layout.run=24 ft",),
    "summary to md": ("-o", "made.md", "--overwrite"),
    "summary to html": ("-o", "made.html", "--overwrite"),
    "summary to pdf": ("-o", "made.pdf", "--overwrite"),
}
DESIGNS = 4_000


def used(arguments, folder):
    """Seconds of the processor that a process takes."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    command = [sys.executable, *arguments]
    env = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    subprocess.run(command, capture_output=True, check=False, cwd=folder, env=env)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main():
    """Read the words of the command line, run, print."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 9
    case = [str(Path(sys.argv[2]).resolve())] if len(sys.argv) > 2 else []
    named = {"empty program": ("-c", EMPTY)}
    for name, words in COMMANDS.items():
        named[name] = ("-m", "outrigger", name.partition(" ")[0].rstrip(","), *case, *words)
    times = {name: [] for name in named}
    with tempfile.TemporaryDirectory() as folder:
        for _ in range(rounds + 1):
            for name, arguments in named.items():
                times[name].append(used(arguments, folder))
    found = {name: statistics.median(every[1:]) for name, every in times.items()}
    for name, seconds in found.items():
        beside = seconds / found["empty program"], seconds / found["check"]
        print(f"{name:16} {seconds:6.3f} s, {beside[0]:5.2f} x empty, {beside[1]:5.2f} x check")
    seconds = {}
    for path in (STATED, SAMPLE):
        batch(path, 300)
        seconds[path], _ = batch(path, DESIGNS)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / MB  # before the floors' own arrays
    for path in (STATED, SAMPLE):
        each = seconds[path] / DESIGNS * 1e6
        _, combinations, checks, least = floor(path)
        print(
            f"{path.stem:16} {each:6.1f} us a design, {each / combinations:.3f} a combination "
            f"({combinations}, {checks} checks), floor {least:.1f} us"
        )
    print(f"largest memory of the batches {peak:,.0f} MB; {time.strftime('%Y-%m-%d')}")


if __name__ == "__main__":
    main()
