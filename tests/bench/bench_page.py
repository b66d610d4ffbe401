"""How quick the local page is: `python tests/bench/bench_page.py [CASE.toml]`.

From the start of the process to the page with its first verdict, then the answers to edits as the
server measures them, and the processor's time of each.
"""

import os
import signal
import statistics
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

from outrigger.cli.form import form
from outrigger.page.desk import Desk

ROOT = Path(__file__).parents[2]
EDITS = 60


def first_page(case):
    """Seconds to the first page, and its bytes."""
    words = [sys.executable, "-m", "outrigger", "show", str(case), "--no-browser"]
    variables = os.environ | {"PYTHONPATH": str(ROOT)}
    begun = time.perf_counter()
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True, env=variables) as run:
        run.stdout.readline()
        page = urllib.request.urlopen(run.stdout.readline().strip()).read()
        seconds = time.perf_counter() - begun
        run.send_signal(signal.SIGINT)
    return seconds, len(page)


def edits(case):
    """Milliseconds of each answer: on the clock, of the processor."""
    desk = Desk(case, form)
    text, stamp = desk.read()
    desk.answer(text, stamp, {})
    clock, processor = [], []
    for i in range(EDITS):
        begun = time.process_time()
        clock.append(desk.answer(text, stamp, {"gap.width": f"{4 + i / 16} in"})["ms"])
        processor.append(1000 * (time.process_time() - begun))
    return clock, processor


if __name__ == "__main__":
    file = Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "examples" / "passes.toml"
    pages = [first_page(file) for _ in range(3)]
    print(f"first page: {min(s for s, _ in pages):.2f} s, {pages[0][1] / 1000:.0f} kB")
    for name, found in zip(("clock", "processor"), edits(file), strict=True):
        print(f"an edit, {name}: median {statistics.median(found):.0f}, least {min(found):.0f} ms")
