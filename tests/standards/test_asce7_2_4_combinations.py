"""Load combinations of ASCE 7-16 and 7-22, sections 2.3 and 2.4, and of NDS 2018 for CD and lambda.

The factors are those of `outrigger prove`, with their sources; CD: NDS 2018 Table 2.3.2.
"""

from itertools import product

import pytest
from level_case import designed
from published import rows

from outrigger.loads.combinations import combinations
from outrigger.loads.parts import PARTS

ALL = frozenset(
    ("D", "D_back", "L", "Lr", "Lr_back", "S", "S_back", "W_up", "W_down", "W_back", "worker")
)
CD = {"D": 0.9, "L": 1.0, "S": 1.15, "Lr": 1.25, "worker": 1.25, "W_up": 1.6, "W_down": 1.6}

# id: D, L, Lr, S, W and, in LRFD, lambda without and with storage
TYPED = {}
for _row in rows("combinations"):
    _factors = [float(_row[name] or 0) for name in ("D", "L", "Lr", "S", "W")]
    _lam = [float(_row["lam"]), float(_row["lam_storage"] or _row["lam"])] if _row["lam"] else []
    TYPED.setdefault((_row["edition"], _row["method"]), {})[_row["id"]] = (*_factors, *_lam)
SETS = list(TYPED)


def subsets(edition, method):
    """Each typed combination with each subset of its transient loads: loads on the arm, CD or
    lambda."""
    for D, L, Lr, S, W, *lam in TYPED[edition, method].values():
        storages, winds = {0, L}, {("", 0)} | ({("W_up", W), ("W_down", W)} if W else set())
        roofs = {("", 0), *((r, f) for r, f in (("Lr", Lr), ("S", S)) if f)}
        for storage, (roof, roof_factor), (wind, wind_factor) in product(storages, roofs, winds):
            loads = {"D": D, "L": storage, roof: roof_factor, wind: wind_factor}
            loads = {part: factor for part, factor in loads.items() if factor}
            time = lam[bool(storage)] if lam else max(CD[part] for part in loads)
            yield loads, time


def on_arm(one):
    """Factors of a combination but for the back span."""
    return {p: f for p, f in by_part(one).items() if not p.endswith("_back")}


def by_part(one):
    return {part: factor for part, factor in zip(PARTS, one.factors, strict=True) if factor}


def key(loads, time):
    return tuple(sorted(loads.items())), time


@pytest.mark.parametrize(("edition", "method"), SETS)
def test_every_row_and_every_subset_with_its_own_time(edition, method):
    """ASCE 7 2.3.1 or 2.4.1, NDS 2018 2.3.2 and N.3.3: those and no others lie whole on the arm."""
    present = frozenset({"D", "D_back", "L", "Lr", "S", "W_up", "W_down"})
    found = {key(on_arm(c), c.time) for c in combinations(edition, method, present)}
    assert found == {key(*one) for one in subsets(edition, method)}


@pytest.mark.parametrize(("edition", "method"), SETS)
def test_the_back_span_is_loaded_or_not(edition, method):
    """For each subset: snow, live and wind of the back span there and not there, in all pairs, and
    its dead load as it is and helping at 0.6 (ASD) or 0.9 (LRFD)."""
    found = {key(by_part(c), c.time) for c in combinations(edition, method, ALL)}
    least = 0.6 if method == "ASD" else 0.9
    for loads, time in subsets(edition, method):
        dead = {loads["D"], min(loads["D"], least)}
        roof = next((p for p in ("Lr", "S") if p in loads), None)
        wind = next((p for p in ("W_up", "W_down") if p in loads), None)
        roofs = {0, loads[roof]} if roof else {0}
        winds = {0, loads[wind]} if wind else {0}
        for D_back, on_roof, on_wind in product(dead, roofs, winds):
            full = {**loads, "D_back": D_back}
            if on_roof:
                full[f"{roof}_back"] = on_roof
            if on_wind:
                full["W_back"] = on_wind
            assert key(full, time) in found, full


@pytest.mark.parametrize(("edition", "method"), SETS)
def test_half_the_snow_on_one_part(edition, method):
    """ASCE 7 7.5: one part whole and the other half, both ways, in every combination that holds
    snow, wind up and wind down too, whether its suction acts on the back span or not."""
    found = {key(by_part(c), c.time) for c in combinations(edition, method, ALL)}
    for loads, time in subsets(edition, method):
        if "S" not in loads:
            continue
        S = loads["S"]
        wind = next((loads[p] for p in ("W_up", "W_down") if p in loads), 0)
        for (arm, back), suction in product(((S, S / 2), (S / 2, S)), {0, wind}):
            full = {**loads, "S": arm, "D_back": loads["D"], "S_back": back}
            full |= {"W_back": suction} if suction else {}
            assert key(full, time) in found, full


@pytest.mark.parametrize(("edition", "method"), SETS)
def test_suction_on_the_house_alone_and_live_load_on_the_house_alone(edition, method):
    """What turns the other way: D + Lr, D + S and D + W with the transient load on the back span
    only."""
    found = [by_part(c) for c in combinations(edition, method, ALL)]
    for part, back in (("Lr", "Lr_back"), ("S", "S_back"), ("W_up", "W_back")):
        alone = [f for f in found if back in f and set(f) == {"D", "D_back", back}]
        assert alone, part


@pytest.mark.parametrize(("edition", "method"), SETS)
@pytest.mark.parametrize("roof", ["Lr", "S"])
def test_the_house_loaded_and_the_garage_bare(edition, method, roof):
    """The back is pressed most by what lies on the house alone while wind lifts the garage; beside
    storage too, which relieves the back and leaves less compression."""
    found = [by_part(c) for c in combinations(edition, method, ALL)]
    bare = [f for f in found if f"{roof}_back" in f and roof not in f]
    assert any("W_up" in f and "W_back" not in f for f in bare)
    assert any("L" in f for f in bare)
    assert any("L" not in f for f in bare)


@pytest.mark.parametrize(("edition", "method"), SETS)
def test_suction_on_the_house_beside_snow_where_no_wind_presses(edition, method):
    """With wind down the arm is pressed too, which is more at the clip; without, suction alone."""
    for down, expected in (({"W_down"}, False), (set(), True)):
        present = (ALL - {"W_down"}) | down
        found = [by_part(c) for c in combinations(edition, method, frozenset(present))]
        alone = [
            f for f in found if f.keys() >= {"S", "W_back"} and not f.keys() & {"W_up", "W_down"}
        ]
        assert bool(alone) is expected


@pytest.mark.parametrize(("edition", "method"), SETS)
def test_wind_presses_the_house_or_sucks_at_it(edition, method):
    """Beside wind up and wind down alike, never both at once; what lies between is left out, but
    for pressure there alone."""
    present = frozenset(ALL | {"W_press_back"})
    found = [by_part(c) for c in combinations(edition, method, present)]
    for wind in ("W_up", "W_down"):
        ways = {frozenset(f.keys() & {"W_back", "W_press_back"}) for f in found if wind in f}
        assert ways == {frozenset({"W_back"}), frozenset({"W_press_back"})}
    pressing = [f for f in found if "W_press_back" in f]
    alone = [f for f in pressing if not f.keys() & {"W_up", "W_down"}]
    assert any("S" in f for f in alone)
    assert not any("W_back" in f for f in pressing)
    for f in pressing:
        assert f in alone or f["W_press_back"] in (f.get("W_up"), f.get("W_down"))
    only = frozenset(present - {"W_down", "W_back"})
    found = [by_part(c) for c in combinations(edition, method, only)]
    assert any("W_press_back" in f and "W_up" not in f for f in found)
    assert any("W_press_back" in f and "W_up" in f for f in found)


@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
@pytest.mark.parametrize(
    ("method", "dead", "load", "time", "helping"),
    [("ASD", 1.0, 1.0, 1.25, 0.6), ("LRFD", 1.2, 1.6, 0.8, 0.9)],
)
def test_one_worker_at_the_end(edition, method, dead, load, time, helping):
    """D + worker at CD 1.25, 1.2D + 1.6 worker at lambda 0.8; the back span's dead load whole,
    helping, and not there yet, when its own weight helps. Never with another transient load. ASCE
    7 Table 4.3-1, recalled."""
    found = [c for c in combinations(edition, method, ALL) if "worker" in by_part(c)]
    assert [(by_part(c), c.time) for c in found] == [
        ({"D": dead, "D_back": dead, "worker": load}, time),
        ({"D": dead, "D_back": helping, "worker": load}, time),
        ({"D": dead, "D_own": helping, "worker": load}, time),
    ]


@pytest.mark.parametrize(("edition", "method"), SETS)
def test_no_combination_stands_twice(edition, method):
    found = [(c.factors, c.time) for c in combinations(edition, method, ALL)]
    assert len(found) == len(set(found))


@pytest.mark.parametrize(("edition", "method"), SETS)
def test_each_name_tells_one_combination(edition, method):
    """Two columns of one name would read as one on the page; in LRFD lambda tells them apart."""
    texts = [(c.text, c.time) for c in combinations(edition, method, ALL)]
    assert len(texts) == len(set(texts))
    if method == "ASD":
        assert len({text for text, _ in texts}) == len(texts)


@pytest.mark.parametrize(("edition", "method"), SETS)
def test_roof_live_and_snow_never_together_and_no_rain(edition, method):
    for one in combinations(edition, method, ALL):
        loads = set(by_part(one))
        assert not (loads & {"Lr", "Lr_back"} and loads & {"S", "S_back"})
        assert not (loads & {"W_up"} and loads & {"W_down"})
        assert "rain" not in one.words
        assert "R" not in one.name.replace("Lr", "").split(" + ")


@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
@pytest.mark.parametrize(
    "gone", [{"Lr", "Lr_back"}, {"S", "S_back"}, {"L"}, {"W_up", "W_down", "W_back"}]
)
def test_an_absent_load_lends_no_CD(edition, gone):
    """Every demand that is left when a load is zero is also checked at the CD of what is there."""
    found = [(by_part(c), c.time) for c in combinations(edition, "ASD", ALL)]
    own = {**CD, "D_back": 0.9, "D_own": 0.9, "Lr_back": 1.25, "S_back": 1.15, "W_back": 1.6}
    for factors, _ in found:
        left = {part: f for part, f in factors.items() if part not in gone}
        time = max(own[part] for part in left)
        assert any(
            t <= time and {p: f for p, f in other.items() if p not in gone} == left
            for other, t in found
        ), left


def test_a_load_that_is_none_has_no_combination():
    """With no roof live load nothing but the worker is checked at 1.25."""
    result = designed(garage_roof__live="none")
    for one in result.main.combinations.all:
        assert "Lr" not in one.name
        assert one.time != 1.25 or "worker" in one.name


def test_only_its_own_edition():
    """7-16 has snow at 1.0 (ASD) and 1.6 (LRFD), 7-22 at 0.7 and 1.0: ASCE 7 2.3.1, 2.4.1."""
    most = {}
    for edition, method in SETS:
        factors = [by_part(c).get("S", 0) for c in combinations(edition, method, ALL)]
        most[edition, method] = max(factors)
    assert most == {
        ("ASCE 7-16", "ASD"): 1.0,
        ("ASCE 7-22", "ASD"): 0.7,
        ("ASCE 7-16", "LRFD"): 1.6,
        ("ASCE 7-22", "LRFD"): 1.0,
    }


def test_the_source_of_each_is_named_and_recalled_rows_are_marked():
    """7-22 ASD rows 1a, 2a, 5a, 7a are recalled."""
    found = combinations("ASCE 7-22", "ASD", ALL)
    recalled = {c.source for c in found if c.status == "MEMORY" and "worker" not in c.source}
    assert recalled <= {f"ASCE 7-22 2.4.1 combination {n}" for n in ("1a", "2a", "5a", "7a")}
    assert all(c.source for c in found)


def test_no_wind_down_where_there_is_none():
    result = designed(wind={"uplift": "none", "down": "none"}, house_roof__wind_uplift="none")
    assert not [c.text for c in result.main.combinations.all if "down" in c.name]
