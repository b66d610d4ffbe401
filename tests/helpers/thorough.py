"""How much the tests look at: OUTRIGGER_TESTS=thorough draws more and leaves nothing out."""

import os
import zlib
from itertools import product

import numpy as np

PROFILES = ("default", "thorough")
PROFILE = os.environ.get("OUTRIGGER_TESTS", "default")
assert PROFILE in PROFILES, f'OUTRIGGER_TESTS is "{PROFILE}"; known: {", ".join(PROFILES)}'
THOROUGH = PROFILE == "thorough"


def in_turn(one, other):
    """Pairs in which each of both stands, the longer once, the shorter over and over; every pair
    when thorough."""
    if THOROUGH:
        return list(product(one, other))
    count = max(len(one), len(other))
    return [(one[i % len(one)], other[i % len(other)]) for i in range(count)]


def spread(low, high, few=21, every=201):
    """Values from low to high, in order: both ends, the middle and some at random; all of an even
    row when thorough. The draw is the same in every run."""
    row = np.linspace(low, high, every)
    return row if THOROUGH else row[some(every, few, seed=f"{low} {high}")]


def some(count, few, seed=""):
    """Numbers from 0 to count - 1: the first, the middle, the last and others at random."""
    if THOROUGH or few >= count:
        return np.arange(count)
    always = {0, count // 2, count - 1}
    rest = np.setdiff1d(np.arange(count), list(always))
    drawn = np.random.default_rng(zlib.crc32(seed.encode())).choice(rest, few - 3, replace=False)
    return np.array(sorted([*always, *drawn]))
