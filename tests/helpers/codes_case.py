"""The sample with a drift on the garage roof, keys changed: ground snow, step, wind
speed and seismic category.

2x6 DF-L No. 2 at 16 in, trusses at 24 in (one outrigger takes 24 in of wall), span 18 ft, gap 6 in,
arm 9.75 in, tail 1.75 in, back span 48 in; the house face stands 2 in outside the edge and 7.75 in,
0.64583 ft, inside the wall line.
"""

import copy
import json
import tomllib

import pytest
from in_combination import demand_in
from sample_case import DRIFTED

from outrigger.cases.batch import batch_of
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.paths import with_numbers
from outrigger.cases.validate import validate
from outrigger.verdict.design import design, designs_of

GONE = object()  # in place of a value: the key is left out
MODERN = {
    "basis__loads": "ASCE 7-22",
    "snow__importance": GONE,
    "snow__drift__winter_wind": 0.45,
}
STATED_WIND = {"wind": {"uplift": "30 psf", "down": "16 psf"}, "house_roof__wind_uplift": "20 psf"}
NO_DRIFT = {"snow__drift": "none", "snow__sliding": "none", "snow__on_house": "none"}
LINE = {"D": "135 plf", "L": "0 plf", "Lr": "180 plf", "S": "189 plf"}
LINE |= {"W_up": "300 plf", "W_down": "144 plf"}


def tables(**changes):
    """The sample's tables, keys changed: tables(snow__ground="40 psf")."""
    found = tomllib.loads(DRIFTED)
    for path, value in changes.items():
        *parents, key = path.split("__")
        table = found
        for parent in parents:
            table = table[parent]
        if value is GONE:
            table.pop(key, None)
        else:
            table[key] = copy.deepcopy(value)
    return found


def case(**changes):
    return validate(tables(**changes), "job.toml")


def designed(**changes):
    return design(case(**changes))


def pounds(result, part):
    return float(result.loads.wall_line[part][0, 0])


def strip_psf(result, part):
    """Pressure on the roof over the gap at the house face: 16 in of it, lb/in to psf."""
    return float(result.loads.strip[part][0, 0]) / 16 * 144


def back_psf(result, part):
    return float(result.loads.back[part][0, 0]) / 16 * 144


def said(result):
    return "\n".join(result.loads.reasons)


def asked(result):
    return {one.key for one in result.not_given}


def row(result, id, place=None, link=None):
    (found,) = (
        r
        for r in result.rows
        if r.check.id == id and place in (None, r.check.place) and link in (None, r.check.link.id)
    )
    return found


def in_combination(result, id, place, link, name):
    """Demand of a check in one combination."""
    return demand_in(row(result, id, place, link).check, name)


def toml(changed):
    """A case text from tables, enough for these cases."""
    lines, nested = [], []
    for name, table in changed.items():
        for one in table if isinstance(table, list) else [table]:
            lines.append(f"[[{name}]]" if isinstance(table, list) else f"[{name}]")
            for key, value in one.items():
                if isinstance(value, dict):
                    nested.append(f"[{name}.{key}]")
                    nested += [f"{k} = {json.dumps(v)}" for k, v in value.items()]
                else:
                    lines.append(f"{key} = {json.dumps(value)}")
    return "\n".join([*lines, *nested])


def the_fault(**changes):
    """The one fault of the changed sample, as printed."""
    with pytest.raises(CaseFaultsError) as told:
        case(**changes)
    (fault,) = told.value.faults
    return fault.message


def checked(run, folder, *arguments, **changes):
    """`check` on the changed sample, as a user runs it."""
    (folder / "job.toml").write_text(toml(tables(**changes)), encoding="utf-8")
    return run("check", "job.toml", *arguments, folder=folder)


def same_bits(base, field, values):
    together = designs_of(batch_of(base, {field: values}))
    for i, value in enumerate(values):
        alone = design(with_numbers(base, {field: value}))
        for many, one in zip(together.checks, alone.checks, strict=True):
            assert (many.id, many.place, many.link) == (one.id, one.place, one.link)
            a, b = together.row(many, i), alone.row(one)
            assert (a.ratio, a.status) == (b.ratio, b.status), (many.id, many.place, value)
