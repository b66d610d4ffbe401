"""One worker stands on one outrigger of the row above a member of the house, by hand and by force.

The level case of test_level_design_by_hand.py, outriggers 16 in apart. Of one of them, lb:

    edge: D 555.883 + 26.084 = 581.967 down, the worker 300 x (1 + 18.375 / 44) = 425.284 more
    back: before the roof is on D pulls 120.443, its own weight holds 0.6 x 215.64 / 44 = 2.941:
    117.503 up, the worker 300 x 18.375 / 44 = 125.284 more
"""

from itertools import product
from pathlib import Path

import numpy as np
import pytest
from in_combination import demand_in
from level_case import case, check, clip, designed
from published import printed

from outrigger.actions.combined import Combined
from outrigger.cases.read import read_case
from outrigger.checks.house_edge_self import one_more_off_support, relieved_shear_of_row
from outrigger.loads import gravity
from outrigger.loads import row_of_loads as rows_of
from outrigger.studies.runs import Run
from outrigger.verdict.design import design
from outrigger.verdict.envelopes import ASD, PULL, PUSH, envelopes

EXAMPLES = Path(__file__).parents[2] / "examples"
WITH_HIM, ROOF_OFF = "D + worker", "D + worker, before the roof is on"
CARRIES = {"D": "120 plf", "S": "180 plf", "Lr": "0 plf", "W_up": "0 plf"}
WOOD = {"species": "Spruce-Pine-Fir", "grade": "No. 2", "moisture": "dry"}
HEADER = {
    "kind": "header", "size": "2x10", "plies": 2, "span": "36 in", "end_bearing": "3 in",
    "stud": {"size": "2x6", "species": "Spruce-Pine-Fir", "grade": "Stud", "height": "84 in",
             "count": 2, "wind": "none"},
    "carries": CARRIES, "ends": {"rated_up": "450 lb", "rated_for": "wind"}, **WOOD,
}  # fmt: skip
PLATE = {
    "kind": "top plate on studs", "size": "2x6", "plies": 2, "span": "16 in", "carries": CARRIES,
    "ends": {"rated_up": "450 lb", "rated_for": "wind"}, **WOOD,
}  # fmt: skip
RAFTER = {
    "kind": "rafter", "size": "2x10", "species": "Spruce-Pine-Fir", "grade": "No. 2",
    "spacing": "22 in", "span": "12 ft",
}  # fmt: skip
S_HEADER, S_RAFTER = 3 * 9.25**2 / 6, 1.5 * 9.25**2 / 6


def demand(result, id, link, name=WITH_HIM, place=None):
    return demand_in(check(result, id, link, place), name)


# ---------------------------------------------------------------------------- by hand


def test_the_end_bay_of_a_long_wall():
    """rafters_and_studs.toml over 17 ft, mark 14, whose bay is 6 3/8 in. From the table of what is
    on one outrigger, at the back: dead of the garage side pulls 36.75 lb, the member's own weight
    holds 4.4244, the worker pulls 300 x (9.75 + 1.75) / 48 = 71.875. Before the roof is on 36.75 -
    0.6 x 4.4244 = 34.095 of each, 17 of them on 108 in, the middle one at mid-span: 17 x 54^2 / 108
    - 6.375 x 8 x 9 / 2 = 229.5 times, 7824.9 lb-in; the worker 71.875 x 108 / 4 = 1940.6: 9765.5 on
    a 2x12, 31.641 in3: 308.6 psi (with a worker on every one 769). One right at the end: 17 - 17 x
    16 / 2 x 6.375 / 108 = 8.9722 times 34.095 = 305.91, and 71.875: 377.8 lb (951)."""
    found = design(read_case(EXAMPLES / "rafters_and_studs.toml", ["layout.run=17ft"])[0])
    assert found.mark == 14
    bent = demand(found, "house_rafter", "bending, lifted", ROOF_OFF)
    assert bent == printed("308.6")
    assert demand(found, "house_rafter", "uplift at its bearing", ROOF_OFF) == printed("377.8")


def test_on_a_header():
    """11 x 581.967 = 6401.6, 425.284 x 36 / 4 = 3827.6, 10 lb/in x 36^2 / 8 = 1620: 11,849 lb-in:
    276.98 psi. At the end 581.967 x 1.66667 + 425.284 + 180 = 1575.2 lb: 85.15 psi, and on its
    studs 1575.2 / 2 / 8.25 = 95.47."""
    found = designed(house_edge=HEADER)
    assert demand(found, "house_edge", "bending") == pytest.approx(276.98, abs=0.01)
    assert demand(found, "house_edge", "shear") == printed("85.15")
    assert demand(found, "house_edge", "stud") == printed("95.47")


def test_on_a_header_less_what_stands_near():
    """581.967 x 1.04167 = 606.22, 425.284 x 26.75 / 36 = 316.01, 10 x 8.75 = 87.5: 1009.73 lb:
    54.58 psi."""
    found = designed(house_edge={**HEADER, "near_support_relief": True})
    assert demand(found, "house_edge", "shear") == printed("54.58")


def test_on_a_plate_that_runs_on():
    """The stud: 1.375 x 581.967 + 425.284 + 5/4 x 10 x 16 = 1425.49 lb on 8.25 in2: 172.79 psi; one
    beside a stud as ever: 1007.251 + 100 = 1107.25 lb: 100.66 psi; at mid-span 1007.251 x 4 + 10 x
    16^2 / 8 = 4349.0 lb-in: 1054.3 psi."""
    found = designed(house_edge=PLATE)
    assert demand(found, "house_edge", "plate on the stud") == printed("172.79")
    assert demand(found, "house_edge", "shear") == printed("100.66")
    assert demand(found, "house_edge", "bending") == printed("1054.3")


def test_under_the_back_clips():
    """117.503 x 164 + 125.284 x 144 / 4 = 23,781 lb-in: 1111.7 psi; its tie 117.503 x 5 + 125.284 =
    712.80 lb. Under parallel rafters each outrigger has its own, and the worker on it: 242.787 x 36
    = 8740.3 lb-in: 408.6 psi."""
    found = designed(house_rafter=RAFTER)
    at = ("house_rafter", "bending, lifted", ROOF_OFF, "back")
    assert demand(found, *at) == pytest.approx(1111.7, abs=0.1)
    assert demand(found, "house_rafter", "uplift at its bearing", ROOF_OFF) == printed("712.80")
    beside = designed(house_rafter=RAFTER, house_roof__framing_parallel=True)
    assert demand(beside, *at) == printed("408.6")


@pytest.mark.parametrize(("link", "psi"), [("bending", "412.40"), ("plate on the stud", "51.55")])
def test_he_stands_on_one_piece_of_a_pair(link, psi):
    """What D + worker has more than D: 425.284 x 16 / 4 / 4.125, and 425.284 / 8.25."""
    run = {"run": "24 in", "double_at": [1], "start": "flush", "last": "flush"}
    over = designed(house_edge=PLATE, layout=run).worked.over_marks
    assert over.batch.pieces[0, 0] == 2
    (row,) = [c for c in over.checks if (c.id, c.link.id) == ("house_edge", link)]
    names = [c.text for c in row.combinations]
    with_him, without = (row.demand_at(0, names.index(name)) for name in (WITH_HIM, "D"))
    assert with_him - without == printed(psi)


def test_the_other_outriggers_print_as_ever():
    """Where the combination has no worker the lines are those of a row alone; where it has, he has
    lines of his own."""
    said = {}
    for name, changes in {
        "snow": {},
        "worker": {"snow__roof": "none", "house_roof__snow": "none", "garage_roof__live": "none",
                   "garage_roof__storage": "none", "wind__down": "none"},
    }.items():  # fmt: skip
        found = designed(house_edge=HEADER, **changes)
        (row,) = [r for r in found.rows if (r.id, r.link) == ("house_edge", "bending")]
        said[name] = row.combination, {s.symbol for top in row.steps for s in top.chain()}
    assert said["snow"][0] == "D + S"
    assert {"M", "R_one"} <= said["snow"][1]
    assert not {"M_row", "R_more", "R_worker"} & said["snow"][1]
    assert said["worker"][0] == WITH_HIM
    assert {"M", "M_row", "R_one", "R_more", "R_worker"} <= said["worker"][1]


# ---------------------------------------------------------------------------- what is handed over

BARE = {
    "snow__roof": "none", "house_roof__snow": "none", "garage_roof__live": "none",
    "garage_roof__storage": "none", "wind__down": "none", "wind__uplift": "none",
    "house_roof__wind_uplift": "none",
}  # fmt: skip


def test_a_foot_of_wall_is_told_of_those_without_him():
    """Nothing but dead load: the house wall gets 581.967 + 425.284 = 1007.25 lb from the one that
    has him, and along the wall 581.967 / 16 x 12 = 436.48 plf under D. The back clip pulls 242.787
    lb before the roof is on, along the roof 117.503 / 16 x 12 = 88.13 plf."""
    most = {(one.at, one.way): one for one in envelopes(designed(**BARE), (ASD,))}
    edge, back = most["edge", PUSH], most["back", PULL]
    assert (edge.alone, edge.combination, edge.line) == (True, WITH_HIM, ("D", "D"))
    assert (edge.force, edge.per_foot) == (printed("1007.25"), printed("436.48"))
    assert (back.force, back.per_foot) == (printed("242.787"), printed("88.13"))


def test_what_no_worker_governs_is_over_the_spacing():
    """D + 0.75L + 0.75S + 0.45W down, 1641.14 lb: over 16 in 1230.9 plf."""
    (edge,) = [o for o in envelopes(designed(), (ASD,)) if (o.at, o.way) == ("edge", PUSH)]
    assert not edge.alone
    assert edge.line == (edge.name, edge.combination)
    assert edge.per_foot == pytest.approx(edge.force / 16 * 12)


def test_all_of_a_run_has_one_worker():
    """16 outriggers of 20 ft: what all push in D + worker is the dead load of all and 425.284 lb of
    one of them."""
    one = Run("run", designed(layout={"run": "20 ft", "last": "flush"}, **BARE))
    found = {(t.at, t.way, t.level, t.case): t.force for t in one.totals}
    dead = sum(t.force for t in one.totals if (t.at, t.way, t.case) == ("edge", PUSH, "D"))
    assert found["edge", PUSH, ASD, ""] - dead == printed("425.284")


# ---------------------------------------------------------------------------- by force

SPANS = [(16.0, 16.0), (14.5, 16.0), (36.0, 16.0), (60.0, 24.0), (72.0, 12.0), (30.0, 19.2),
         (96.0, 19.2), (144.0, 16.0), (108.0, 6.375), (24.0, 20.0)]  # fmt: skip
FORCES = [(0.0, 300.0, 0.0), (120.0, 250.0, 4.0), (900.0, 200.0, 20.0), (40.0, 0.0, 1.0)]


def simple(span, loads, w):
    """Moments at the loads and mid-span, and the shears at both ends, of a simple span."""
    left = sum(P * (span - x) / span for x, P in loads) + w * span / 2
    right = sum(P for _, P in loads) + w * span - left

    def moment(at):
        return left * at - sum(P * (at - x) for x, P in loads if x < at) - w * at**2 / 2

    return max(moment(x) for x in [*(x for x, _ in loads), span / 2]), max(left, right)


def two_spans(span, loads, w):
    """What the middle support of two equal spans takes, and the larger shear beside it, by three
    moments; loads at x off it, left negative; right over it they stand beside it, either side."""
    found = []
    for side in (-1e-9, 1e-9):
        at = [(x or side, P) for x, P in loads]
        M = w * span**2 / 8
        M += sum(P * (span - abs(x)) * (span**2 - (span - abs(x)) ** 2) for x, P in at) / (
            4 * span**2
        )
        shears = [
            sum(P * (span - abs(x)) / span for x, P in at if x * sign > 0) + w * span / 2 + M / span
            for sign in (-1, 1)
        ]
        found.append((sum(shears), max(shears)))
    return max(R for R, _ in found), max(V for _, V in found)


def placed(low, high, apart, one, more):
    """Rows moved along, the worker on each of its outriggers in turn, or on none of the span."""
    middle = (low + high) / 2
    starts = {*np.linspace(low, low + apart, 24, endpoint=False), low + 1e-9}
    starts |= {low + (middle - low + k * apart / 4) % apart for k in range(4)}
    for start in starts:
        x = [float(at) for at in np.arange(start, high + 1e-9, apart)]
        for who in range(-1, len(x)):
            yield [(at, one + more * (i == who)) for i, at in enumerate(x)]


@pytest.mark.parametrize(("place", "force"), [*product(SPANS, FORCES)])
def test_no_place_of_row_and_worker_does_more_on_a_simple_span(place, force):
    """Nor does the rule give more than a worker on every outrigger did."""
    (span, apart), (one, more, w) = place, force
    row = rows_of.worst_row(span, apart)

    def moment(each):
        return rows_of.moment_of_row(each, row.n, span, row.e, apart, row.q, w)

    def shear(each):
        return rows_of.end_shear_of_row(each, row.at_end, apart, span, w)

    M = float(rows_of.one_more_at_mid_span(moment(one), more, span))
    V = float(rows_of.one_more_beside_support(shear(one), more))
    found = [simple(span, loads, w) for loads in placed(0.0, span, apart, one, more) if loads]
    assert max(m for m, _ in found) <= M * (1 + 1e-9)
    assert max(v for _, v in found) <= V * (1 + 1e-9)
    assert float(moment(one + more)) * (1 + 1e-12) >= M
    assert float(shear(one + more)) * (1 + 1e-12) >= V
    if not one:  # then he alone stands there
        assert pytest.approx(more * span / 4) == M
        assert pytest.approx(more) == V


@pytest.mark.parametrize(("place", "force"), [*product(SPANS, FORCES)])
def test_nor_on_two_spans_that_run_on(place, force):
    (span, apart), (one, more, w) = place, force
    n, odd = rows_of.most_on_two_spans(span, apart)
    at_end = rows_of.worst_row(span, apart).at_end

    def on_support(each):
        return rows_of.on_middle_support(each, n, odd, apart, span, w)

    def shear(each):
        return rows_of.middle_shear_of_row(each, at_end, apart, span, w)

    R = float(rows_of.one_more_on_support(on_support(one), more))
    V = float(rows_of.one_more_beside_support(shear(one), more))
    rows = [*placed(-span, span, apart, one, more)]
    rows += [
        [(k * apart, one + more * (k == who)) for k in range(-9, 10) if abs(k * apart) < span]
        for who in range(-9, 10)
    ]
    found = [two_spans(span, loads, w) for loads in rows if loads]
    assert max(r for r, _ in found) <= R * (1 + 1e-6)  # beside it stands 1e-9 in off
    assert max(v for _, v in found) <= V * (1 + 1e-6)
    assert float(on_support(one + more)) * (1 + 1e-12) >= R
    assert float(shear(one + more)) * (1 + 1e-12) >= V


@pytest.mark.parametrize(("place", "force"), [*product(SPANS, FORCES)])
def test_nor_a_depth_off_the_support(place, force):
    """NDS 3.4.3.1: no load within d of the support counts, nor the even load there."""
    (span, apart), (one, more, w), d = place, force, 5.5
    left = max(np.ceil((span - d) / apart - 1e-9), 1.0)

    def shear(each):
        return relieved_shear_of_row(each, left, apart, span, w, d)

    V = float(one_more_off_support(shear(one), more, span, d))
    most = 0.0
    for loads in placed(0.0, span, apart, one, more):
        beyond = [(x, P) for x, P in loads if x >= d]
        most = max(most, sum(P * (span - x) / span for x, P in beyond) + w * (span / 2 - d))
    assert most <= V * (1 + 1e-9)
    assert float(shear(one + more)) * (1 + 1e-12) >= V


# ---------------------------------------------------------------------------- whole designs

HELD = {
    "two": {},
    "row": {"hold_down": [clip("back"), clip("16 in"), clip("edge")]},
    "row, edge untied": {"hold_down": [clip("back"), clip("16 in"), clip("6 in")]},
    "edge untied": {"hold_down": [clip("back")]},
    "stiffness": {"hold_down": [clip("back", stiffness="9000 lb/in"),
                                clip("16 in", stiffness="9000 lb/in"),
                                clip("edge", stiffness="9000 lb/in")]},
    "slope": {"house_roof__pitch": "5:12", "house_roof__direction": "down the slope"},
    "pairs": {"layout": {"run": "8 ft", "double_at": [2]}},
    "no roof": {"house_roof__dead": "none"},
    "light": {"snow__roof": "none", "house_roof__snow": "none", "garage_roof__live": "none"},
}  # fmt: skip
BELOW = {
    "header": {"house_edge": HEADER},
    "plate": {"house_edge": {**PLATE, "span": "24 in"}},
    "relief": {"house_edge": {**HEADER, "near_support_relief": True, "span": "60 in"}},
    "rafter": {"house_rafter": {**RAFTER, "edge_tie": {"rated": "900 lb", "rated_for": "wind"}}},
}


def rows_below(result):
    return {
        (c.id, c.place, c.link.id): c
        for c in result.worked.over_marks.checks
        if c.id in ("house_edge", "house_rafter") and c.capacity is not None
    }


@pytest.mark.parametrize(("held", "below", "method"), [*product(HELD, BELOW, ("ASD", "LRFD"))])
def test_between_no_worker_and_one_on_every_outrigger(held, below, method, monkeypatch):
    """Whole designs, whatever holds them: no row has less than without the worker, in any of his
    combinations, and none is used more than with a worker on every outrigger of the row. What the
    row brings without him is what a design without any worker brings."""
    stated = case(**HELD[held], **BELOW[below], basis__method=method)
    found = rows_below(design(stated))
    with monkeypatch.context() as patch:
        patch.setattr(Combined, "no_worker", None)
        each = rows_below(design(stated))
    with monkeypatch.context() as patch:
        patch.setattr(gravity, "WORKER_LB", 0.0)
        none = rows_below(design(stated))
    assert found.keys() == each.keys()
    for key, row in found.items():
        assert np.all(row.largest_ratio <= each[key].largest_ratio * (1 + 1e-12)), key
        with_him = [i for i, c in enumerate(row.combinations) if "worker" in c.text]
        if key in none and with_him:
            have, least = (
                np.broadcast_to(c.demand, (len(each[key].largest_ratio), len(c.combinations)))
                for c in (row, none[key])
            )
            assert np.all(have[:, with_him] >= least[:, with_him] * (1 - 1e-12)), key


@pytest.mark.parametrize("held", ["two", "row", "row, edge untied", "stiffness", "no roof"])
def test_he_brings_what_his_own_outrigger_brings_more(held, monkeypatch):
    """Whatever shares: what a place takes of an outrigger with him, less what it takes without any
    worker, at mid-span; in all that has him, pushed on a header of 36 in and pulled on a rafter."""
    stated = case(**HELD[held], **BELOW["header"], **BELOW["rafter"])
    found = design(stated)
    with monkeypatch.context() as patch:
        patch.setattr(gravity, "WORKER_LB", 0.0)
        none = design(stated)
    names = [c.text for c in found.main.combinations.all]
    with_him = [i for i, name in enumerate(names) if "worker" in name]
    assert len(with_him) == 3
    for i in with_him:
        more = found.main.R_edge[0, i] - none.main.R_edge[0, i]
        bent = [at_column(one, "house_edge", "bending", "edge", i) for one in (found, none)]
        assert more > 0
        assert (bent[0] - bent[1]) * S_HEADER == pytest.approx(more * 36 / 4)
        for place in found.main.uplift:
            pulls = [one.main.uplift[place][0, i] for one in (found, none)]
            if place == "edge" or not pulls[1]:
                continue
            bent = [at_column(one, "house_rafter", "bending, lifted", place, i)
                    for one in (found, none)]  # fmt: skip
            if bent[1]:
                more = max(pulls[0] - pulls[1], 0.0)
                assert (bent[0] - bent[1]) * S_RAFTER == pytest.approx(more * 144 / 4)


def at_column(result, id, link, place, i):
    return check(result, id, link, place).demand_at(0, i)
