"""Some hundred designs and all their numbers, for tests/bench/mutate.py: whether a change that no
test noticed moves any of them.

The designs are every case file of the tree, by each method and edition and with its numbers drawn
anew, and the drawn designs of tests/laws/test_second_program.py.
"""

import hashlib
import json
from pathlib import Path

import numpy as np

FOLDERS = ("examples", "tests/data", "outrigger/proof/data/cases")
OTHER = ((), ("basis.method=LRFD",), ("basis.loads=ASCE 7-22", "snow=30 psf"))
ANEW, DRAWN = 2, 120  # designs of each file with other numbers; designs drawn wholly
DECIDES = ("verdict", "status")  # words that count as numbers


def digests():
    """Of every design: of its numbers, and of its words too."""
    return [_hashed(*one) for one in _told()]


def moved(before):
    """What differs from such digests: numbers, words or nothing."""
    words = "nothing"
    for one, other in zip(_told(), before, strict=True):
        numbers, every = _hashed(*one)
        if numbers != other[0]:
            return "numbers"
        words = words if every == other[1] else "words"
    return words


def _hashed(*texts):
    return [hashlib.sha256(text.encode()).hexdigest() for text in texts]


def _told():
    for design_of in _designs():
        try:
            data = design_of()
        except Exception as error:  # refused, or broken by the change
            yield type(error).__name__, f"{type(error).__name__} {error}"
        else:
            yield json.dumps(_numbers(data)), json.dumps(data)


def _numbers(data, key=""):
    """The data without its words; ten digits, since the order of a sum is no change."""
    if isinstance(data, dict):
        return {name: _numbers(value, name) for name, value in data.items()}
    if isinstance(data, list):
        return [_numbers(value, key) for value in data]
    if isinstance(data, float):
        return f"{data:.10g}"
    return data if not isinstance(data, str) or key in DECIDES else ""


def _designs():
    """What makes each design."""
    from random_cases import cases_of, tables_of, template

    from outrigger.cases.read import read_case
    from outrigger.cases.validate import validate
    from outrigger.report.data.check import as_data
    from outrigger.verdict.design import design

    for path in sorted(one for name in FOLDERS for one in Path(name).rglob("*.toml")):
        for words in OTHER:
            yield lambda path=path, words=words: as_data(design(read_case(path, words)[0]))
        for seed in range(ANEW):
            yield lambda path=path, seed=seed: as_data(design(_anew(read_case(path, ())[0], seed)))
    for seed in range(DRAWN):
        rng = np.random.default_rng([3, seed])
        drawn, _ = cases_of(template(rng), rng, 1)
        yield lambda one=drawn[0]: as_data(design(validate(tables_of(one), "drawn")))


def _anew(case, seed):
    """A case with each of its numbers up to half more or less, where that may be."""
    from outrigger.base.errors import InputError
    from outrigger.cases.batch import COLUMNS
    from outrigger.cases.paths import number_at, with_numbers

    rng = np.random.default_rng(seed)
    for path in COLUMNS:
        factor = float(rng.uniform(0.5, 1.5))
        try:
            if number := number_at(case, path):
                case = with_numbers(case, {path: number * factor})
        except InputError:
            continue
    return case
