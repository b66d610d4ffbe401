"""How long `summary` takes as a whole process: PDF within 3 s, HTML within 2 s, the second run.

python tests/bench/bench_summary.py
"""

import subprocess
import sys
import tempfile
import time
from pathlib import Path

LIMITS = {".pdf": 3.0, ".html": 2.0, ".md": 2.0}
CASES = ("passes", "slope_across_the_rake", "bent_clips_into_rafters", "marks_on_the_plate")


def main() -> None:
    """Best of three after a first run, for each kind of file and each case."""
    examples = Path(__file__).parents[2] / "examples"
    with tempfile.TemporaryDirectory() as folder:
        for name in CASES:
            for ending, limit in LIMITS.items():
                taken = []
                for _ in range(4):
                    begun = time.perf_counter()
                    case, out = examples / f"{name}.toml", Path(folder) / f"out{ending}"
                    words = ["summary", str(case), "-o", str(out), "--overwrite"]
                    subprocess.run([sys.executable, "-m", "outrigger", *words], capture_output=True)
                    taken.append(time.perf_counter() - begun)
                best = min(taken[1:])
                print(f"{name:28} {ending:6} {best:5.2f} s, limit {limit:g} s")


if __name__ == "__main__":
    main()
