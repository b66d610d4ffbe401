"""Two programs on random designs: python tests/bench/bench_random_designs.py N SEED

N designs, twenty of each template, in batches of the program; every ratio that the two say more
than 0.1 % apart, with what was drawn, and the largest difference of all. Seconds are of the
processor, both programs together.
"""

import collections
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))
from second_program import compared, differ, furthest

EACH = 20


def run(count, seed):
    """Compare, and print what differs."""
    begun, designs, rows, worst = time.process_time(), 0, 0, (0.0, None)
    found = collections.Counter()
    try:
        for n, ours, other in compared(range(-(-count // EACH)), EACH, seed):
            designs, rows = designs + 1, rows + len(ours)
            worst = max(worst, furthest(ours, other), key=lambda one: one[0])
            for key, a, b, off in differ(ours, other):
                found[key[0].partition(":")[0], key[2]] += 1
                print(f"{key}: program {a:.6g}, second {b:.6g}, {off:.2%}\n  {n}")
    except KeyboardInterrupt:
        print("stopped")
    seconds = time.process_time() - begun
    print(f"{designs:,} designs, {rows:,} rows, {sum(found.values())} apart, {seconds:.1f} s")
    print(f"largest difference {worst[0]:.1e} at {worst[1]}")
    for kind, times in found.most_common():
        print(f"  {' '.join(kind)}: {times}")


if __name__ == "__main__":
    run(int(sys.argv[1]), int(sys.argv[2]))
