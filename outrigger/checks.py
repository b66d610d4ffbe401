"""Every check of a level case: member, bearings, hold-downs, rules, movement.

One function for each check; `all_checks` lists them in the order of the load path.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from outrigger import by_hand, connections, loads, lumber, member
from outrigger.actions import BACK, EDGE, WALL_LINE, place_name
from outrigger.adjust import FORMULAS, Conditions, adjusted, factor_step, flat_use
from outrigger.case import Case, HoldDown
from outrigger.combine import Combined, Model, spans
from outrigger.formula import Array, Check, Num, Rule, Step, formula, given, greatest
from outrigger.geometry import column

SHEATHING_PSI = 360.0  # APA TT-001B: dry panel between two solids
SHEATHING_LRFD = 1.5  # by analogy with Fc_perp: KF phi = 1.67 x 0.90
FRAMING_PSI = 335.0  # taken where framing or plate species is not given, and listed
FRAMING_G = 0.36
BACK_BEARING_IN = 1.5
LEAST_CONTACT_IN = 1e-6  # no contact: the stress is then beyond any limit
PLATE_GRADE = "No. 3"  # taken for plates, whose grade the file does not say
PLATE_THICKNESS_IN = 1.5
COOL = "to 100 F"
RAFTER, RAFTER_TAIL, PANEL_ONLY = "rafter", "rafter tail", "panel only"


@dataclass(frozen=True, eq=False)
class Desk:
    """What the checks are worked from: the model, the conditions, the combined actions."""

    model: Model
    conditions: Conditions
    main: Combined  # the method's own combinations
    clips: Combined  # the ASD set, for listed values

    @property
    def case(self) -> Case:
        """What the user states."""
        return self.model.case

    @property
    def b(self) -> float:
        """Breadth of the member, in, all plies."""
        size = self.model.wood.size
        return (size.d if self.flat else size.b) * self.case.outrigger.plies

    @property
    def d(self) -> float:
        """Depth of the member along the load, in."""
        size = self.model.wood.size
        return size.b if self.flat else size.d

    @property
    def flat(self) -> bool:
        """Laid flat."""
        return self.case.outrigger.laid == "flat"

    def adjusted(self, name: str, Cb: Num | Step = 1.0) -> Step:
        """An adjusted design value of the member, over the distinct CD or lambda."""
        time: Num = 1.0 if name in ("E", "Emin", "Fc_perp") else self.main.set.times
        return adjusted(name, self.model.wood, self.conditions, time, Cb)

    def over(self, check: Check, actions: Combined | None = None) -> Check:
        """The check with the combinations of its actions."""
        chosen = (actions or self.main).set
        return replace(check, columns=chosen.columns, combinations=chosen.all)

    def force(self, symbol: str, value: Array, unit: str, note: str) -> Step:
        """A combined action as a step without its own arithmetic."""
        return given(symbol, value, unit, "statics", note)

    @cached_property
    def hand(self) -> by_hand.Hand | None:
        """The same actions by closed forms, where two supports carry the member."""
        return by_hand.hand(self.model, self.main.set)

    @cached_property
    def clip_hand(self) -> by_hand.Hand | None:
        """The same for the combinations of the listed values."""
        return self.hand if self.clips is self.main else by_hand.hand(self.model, self.clips.set)


@formula("M_roll", "lb-in", clause="statics")
def roll_moment(F_side: Num, d: Num) -> Num:
    """Moment that tips the member over sideways: a side force at its top."""
    return F_side * d


def any_load(value: object) -> bool:
    """Whether a stated load is not zero in some case."""
    return value is not None and bool(np.any(np.asarray(value) != 0))


def all_checks(desk: Desk) -> list[Check]:
    """Every check, in the order of the load path: wall line to house."""
    rows = [*wall_bearing(desk), *plate(desk), *bending(desk), *shear(desk)]
    rows += [*edge_bearing(desk), *back_bearing(desk), *hold_downs(desk), *splits(desk)]
    return [*rows, *rules(desk)]


def blocked(case: Case) -> list[Array] | None:
    """Distances of the blocked places from the edge into the house, in; None: not given."""
    if case.outrigger.blocking is None:
        return None
    named = {EDGE: column(0.0), BACK: column(case.outrigger.back_span)}
    return [
        named[p] if isinstance(p, str) else column(p)
        for p in case.outrigger.blocking
        if p != WALL_LINE
    ]


def bending(desk: Desk) -> list[Check]:
    """Strong axis at the edge and in the back span. NDS 2018 3.3."""
    size, b, d = desk.model.wood.size, desk.b, desk.d
    S = lumber.section_modulus.step(b=b, d=d)
    Fb_star, Emin_adj = desk.adjusted("Fb"), desk.adjusted("Emin")
    Cfu = flat_use(desk.model.wood, desk.flat)
    stops = blocked(desk.case)
    one_ply = size.d if desk.flat else size.b  # stability by the single ply
    # not blocked inward: free to the inner end; a hold-down is not blocking
    free = desk.model.shape.back_span + desk.model.shape.behind_back
    lines = np.concatenate(
        np.broadcast_arrays(column(0.0), free, *(np.minimum(x, free) for x in stops or [])), axis=1
    )
    lines = np.sort(lines, axis=1)
    lu_next = np.min(np.where(lines > 0, lines, np.inf), axis=1, keepdims=True)
    lu_longest = np.max(np.diff(lines, axis=1), axis=1, keepdims=True)
    CL = member.edge_stability(
        arm=desk.model.shape.arm,
        back_lu=lu_next,
        b=one_ply,
        d=d,
        Fb_star=Fb_star,
        Emin_adj=Emin_adj,
    )
    held = stops is None or any(np.all(x == 0) for x in stops) or d <= one_ply
    M = desk.force("M", desk.main.M[-1], "lb-in", "at the house edge")
    if desk.hand is not None:
        M = replace(desk.hand.moment(), value=desk.main.M[-1])
    at_edge = member.bending(place=EDGE, M=M, S=S, Fb_star=Fb_star, CL=CL, Cfu=Cfu, held=held)
    le = member.effective_length("either", "any loading not listed", lu_longest, d)
    CL_back = member.stability(le, one_ply, d, Fb_star, Emin_adj)
    inside = _largest([s.M_inside for s in spans(desk.model, desk.main)] + desk.main.M[:-1])
    M_back = desk.force("M", inside, "lb-in", "largest inside the back span")
    in_back = member.bending(place="back span", M=M_back, S=S, Fb_star=Fb_star, CL=CL_back, Cfu=Cfu)
    slender = [*member.slenderness_check(EDGE, CL), *member.slenderness_check("back span", CL_back)]
    return [desk.over(at_edge), desk.over(in_back), *_steepest(slender)]


def _largest(values: list[Array]) -> Array:
    """Largest size, element by element."""
    return np.asarray(greatest(*(np.abs(v) for v in values)))


def _steepest(rows: list[Check]) -> list[Check]:
    """One slenderness row: case by case the largest RB."""
    if not rows:
        return []
    largest = greatest(*(row.demand for row in rows))
    shown = max(rows, key=lambda row: float(np.ravel(row.demand)[0]))
    return [replace(shown, place=EDGE, demand=largest)]


def shear(desk: Desk) -> list[Check]:
    """Both sides of the edge and the rest of the back span, full V. NDS 2018 3.4.2."""
    Fv_adj = desk.adjusted("Fv")
    stretches = spans(desk.model, desk.main)
    elsewhere = [s.V_inner for s in stretches] + [s.V_outer for s in stretches[:-1]]
    sides = [
        (EDGE, "arm side", desk.main.V_arm),
        (EDGE, "house side", _largest([stretches[-1].V_outer, desk.main.V_house])),
        ("back span", "", _largest(elsewhere)),
    ]
    if "W_up" in desk.model.parts:  # the strip then works against the uplift
        sides.insert(1, ("arm", "by the wall", desk.main.V_wall))
    rows = []
    for place, link, V in sides:
        force = desk.force("V", V, "lb", link or "largest in the back span")
        if link == "arm side" and desk.hand is not None:
            force = replace(desk.hand.arm_shear(), value=V)
        row = member.shear(place=place, V=force, b=desk.b, d=desk.d, Fv_adj=Fv_adj)
        rows.append(desk.over(replace(row, link=link)))
    return rows


def _crushing(desk: Desk, place: str, id: str, layer: str, R: Step, length: Num, Cb: Step) -> Check:
    """The member crushed across its grain."""
    Fc = desk.adjusted("Fc_perp", Cb)
    row = member.bearing(
        id=id, place=place, link=layer, R=R, b=desk.b, l_bearing=length, Fc_perp_adj=Fc
    )
    return desk.over(row)


def _other_wood(desk: Desk, species: str | None) -> Step:
    """Fc_perp of a plate or of house framing, dry, Cb 1: the least of its grades."""
    if species is None:
        value, note, status = FRAMING_PSI, "species not given: 335 psi taken", ""
    else:
        rows = [g for g in lumber.grades(species) if g.kind in ("dimension", "southern pine")]
        least = min((g.values["Fc_perp"] for g in rows), key=lambda v: v.value)
        value, note, status = least.value, f"{species}, least of its grades, dry", least.status
    reference = given("Fc_perp", value, "psi", "NDS Supplement 2018", note, status)
    plain: dict[str, Num | Step] = {
        "Fc_perp": reference,
        "CM": 1.0,
        "Ct": 1.0,
        "Ci": 1.0,
        "Cb": 1.0,
    }
    chosen = FORMULAS["Fc_perp"][desk.conditions.method]
    for name in chosen.arguments[len(plain) :]:
        plain[name] = factor_step(name, "Fc_perp", desk.model.wood, desk.conditions, 1.0)
    return chosen.step(**plain)


def _layer(desk: Desk, id: str, place: str, link: str, R: Step, length: Num, cap: Step) -> Check:
    """Another layer of a bearing: sheathing, plate, framing."""
    row = member.bearing(
        id=id, place=place, link=link, R=R, b=desk.b, l_bearing=length, Fc_perp_adj=cap
    )
    return desk.over(row)


def _sheathing(desk: Desk, id: str, place: str, R: Step, length: Num) -> Check:
    """The roof sheathing under the member. APA TT-001B: no CD, no Cb; LRFD x 1.5 by analogy."""
    stated = desk.case.house_roof.sheathing_bearing
    value = SHEATHING_PSI if stated is None else stated
    note = "taken, dry panel between two solids" if stated is None else "as stated"
    if desk.conditions.method == "LRFD":
        value, note = value * SHEATHING_LRFD, f"{note}; x 1.5 for LRFD by analogy"
    cap = given("Fc_perp_adj", value, "psi", "APA TT-001B", note)
    row = _layer(desk, id, place, "sheathing", R, length, cap)
    if desk.conditions.wet and stated is None:
        why = "360 psi is for a dry panel: give house_roof.sheathing_bearing for wet service"
        return replace(row, clause="APA TT-001B", rule="open", why=why)
    return replace(row, clause="APA TT-001B")


def wall_bearing(desk: Desk) -> list[Check]:
    """Crushing under the garage wall: the outrigger and the plate. NDS 2018 3.10."""
    shape, set_ = desk.model.shape, desk.main.set
    parts = desk.model.parts
    on_line = desk.model.loads.wall_line
    cases = max(len(v) for v in on_line.values())
    table = np.zeros((cases, len(parts)))
    for i, part in enumerate(parts):
        if part in on_line:
            table[:, i] = on_line[part][:, 0]
    R = desk.force("R", set_.combine(table), "lb", "load of the garage wall")
    length = shape.wall_bearing
    plate = column(desk.case.gap.garage_plate)
    to_end = np.maximum(shape.tail - plate / 2, 0.0)
    Cb = member.bearing_area_factor(length, to_end)
    species = desk.case.garage_wall.plate_species
    return [
        _crushing(desk, WALL_LINE, "wall_bearing", "outrigger", R, length, Cb),
        _layer(
            desk, "wall_bearing", WALL_LINE, "garage plate", R, length, _other_wood(desk, species)
        ),
    ]


def contact(case: Case, depth: float) -> Array:
    """Length of contact at the edge, in: no longer than what is below, which begins at the face
    of the framing while the bearing begins at its setback; depth of the member, in."""
    length = column(case.gap.edge_bearing)
    below = case.house_roof.edge_support_width
    if below is not None:
        length = np.minimum(length, column(below) - column(case.gap.edge_setback))
    if case.house_roof.edge_support == RAFTER:
        length = np.minimum(length, depth)
    return np.maximum(length, 0.0)


def edge_bearing(desk: Desk) -> list[Check]:
    """Crushing at the house edge: outrigger, sheathing, framing below. NDS 2018 3.10."""
    R = desk.force("R", desk.main.R_edge, "lb", "pushes down on the house at the edge")
    if desk.hand is not None:
        R = replace(desk.hand.edge_push(), value=desk.main.R_edge)
    touching, shape = contact(desk.case, desk.d), desk.model.shape
    length = np.where(touching > 0, touching, LEAST_CONTACT_IN)
    nearer = np.minimum(shape.end, -shape.house_end) - length / 2
    Cb = member.bearing_area_factor(length, nearer)
    below = _other_wood(desk, desk.case.house_roof.framing_species)
    rows = [
        _crushing(desk, EDGE, "edge_bearing", "outrigger", R, length, Cb),
        _sheathing(desk, "edge_bearing", EDGE, R, length),
        _layer(desk, "edge_bearing", EDGE, "framing below", R, length, below),
    ]
    if np.any(touching == 0):
        why = "the bearing is set back past what is below it: nothing carries the edge"
        rows = [replace(row, why=why) for row in rows]
    support = desk.case.house_roof.edge_support
    if support == PANEL_ONLY:
        why = "nothing but the panel is below the edge: put a wall, blocking or framing under it"
        rows[1] = replace(rows[1], capacity=0.0, rule="fail", why=why)
    if support == RAFTER_TAIL:
        why = "a rafter tail bends under this load: the engineer must check the rafter"
        rows[2] = replace(rows[2], rule="open", why=why)
    return rows


def back_bearing(desk: Desk) -> list[Check]:
    """Crushing where a hold-down place is pushed down. NDS 2018 3.10, Cb 1."""
    rows = []
    Cb = given("Cb", 1.0, "", "NDS 2018 3.10.4", "1 taken")
    below = _other_wood(desk, desk.case.house_roof.framing_species)
    for (name, _), R in zip(desk.model.supports[:-1], desk.main.R, strict=False):
        if not np.any(R > 0):
            continue
        force = desk.force("R", R, "lb", f"pushes down at {name}")
        id, length = "back_bearing", BACK_BEARING_IN
        rows += [
            _crushing(desk, name, id, "outrigger", force, length, Cb),
            _sheathing(desk, id, name, force, length),
            _layer(desk, id, name, "framing below", force, length, below),
        ]
    return rows


def hold_downs(desk: Desk) -> list[Check]:
    """Uplift at each hold-down against its listed value; a missing edge tie. Listed value."""
    stated = {place_name(h.at, desk.case): h for h in desk.case.hold_down}
    rows = []
    for name, demand in desk.clips.uplift.items():
        hold = stated.get(name)
        rows.append(desk.over(_clip(desk, name, demand, hold), desk.clips))
    sets = [desk.clips] if desk.clips is desk.main else [desk.main, desk.clips]
    for actions in sets:  # 0.9D + W may lift where 0.6D + 0.6W does not
        if actions.no_tie is not None and np.any(actions.no_tie > 0):
            rows.append(desk.over(_missing_tie(actions.no_tie, bool(stated)), actions))
    return rows


def _clip(desk: Desk, name: str, demand: Array, hold: HoldDown | None) -> Check:
    id, clause = f"hold_down:{name}", "listed value"
    if hold is None:
        T = given("T_place", demand, "lb", "statics", f"uplift at {name}")
        why = "no hold-down is given here"
        return Check(id, name, clause, demand, None, "lb", (T,), "clip", "open", why)
    place = given("T_place", demand, "lb", "statics", f"uplift at {name}")
    if name == BACK and desk.clip_hand is not None:
        place = replace(desk.clip_hand.back_pull(), value=demand)
    T = connections.per_clip.step(T_place=place, n_clips=float(hold.count))
    if hold.rated_uplift is None:
        why = "no listed uplift is given, and clips built of fasteners are not computed yet"
        return Check(id, name, clause, T.value, None, "lb", (T,), "clip", "open", why)
    source = hold.rated_source or "source not given"
    listed = given("T_listed", column(hold.rated_uplift), "lb", "listing", source)
    cap = connections.rated_uplift(listed, hold.rated_for, desk.clips.set.times)
    rule, why = _listing_holds(desk, hold)
    if not np.any(np.asarray(cap.value)):
        why = "its listed value is none"
    return Check(id, name, clause, T.value, cap.value, "lb", (T, cap), "rated clip", rule, why)


def _listing_holds(desk: Desk, hold: HoldDown) -> tuple[Rule, str]:
    """Whether a listing is for this wood and this base; else it stays open, with the reason."""
    if hold.rated_wood is not None:
        listed = fastener_gravity(hold.rated_wood)
        framing = desk.case.house_roof.framing_species
        weakest = min(
            fastener_gravity(desk.model.wood.row.species),
            FRAMING_G if framing is None else fastener_gravity(framing),
        )
        if weakest < listed:
            why = f"listed for G {listed:g} ({hold.rated_wood}), but the wood here is G {weakest:g}"
            return "open", why
    if desk.conditions.wet or desk.conditions.temperature != COOL:
        return "open", "listed values are for dry, cool service: the listing must give this one"
    if hold.into == "sheathing only" and hold.rated_into == "framing":
        return "open", "listed into framing, but fastened into sheathing only"
    if hold.into == "framing" and hold.rated_into != "framing":
        return "open", f"listed into {hold.rated_into}, but fastened into framing"
    if hold.into == "sheathing only":
        return (
            "open",
            "sheathing only: what carries the panel on to the framing is not computed yet",
        )
    return "", ""


def fastener_gravity(species: str) -> float:
    """G of a species for fasteners; the table of design values where 12.3.3A has no row."""
    own = min(g.values["G"].value for g in lumber.grades(species))
    return loads.specific_gravity(species, own)


def _missing_tie(demand: Array, others: bool) -> Check:
    T = given("T_place", demand, "lb", "statics", "uplift at the edge that nothing holds")
    why = 'net uplift and no tie here: add [[hold_down]] with at = "edge"'
    capacity = 0.0 if others else None  # no hold-down given at all is not given, not none
    return Check(
        f"hold_down:{EDGE}", EDGE, "statics", demand, capacity, "lb", (T,), "no tie", "", why
    )


def splits(desk: Desk) -> list[Check]:
    """Tension across the grain at side-fastened hold-downs. NDS 2018 3.4.3.3, by analogy.

    Left out where the listing covers it, the tie goes over the top, or the height is not given.
    """
    rows = []
    for hold in desk.case.hold_down:
        name = place_name(hold.at, desk.case)
        height = hold.side_height
        if hold.rated_across_grain or not isinstance(height, float) or name not in desk.main.uplift:
            continue
        rows.append(_split(desk, name, height))
    return rows


def _split(desk: Desk, name: str, height: float) -> Check:
    shape = desk.model.shape
    x = dict(desk.model.supports)[name]
    near = np.minimum(shape.end - x, x - shape.house_end) < 5 * desk.d
    Fv_adj, d_e = desk.adjusted("Fv"), min(height, desk.d)
    V = given("V", desk.main.uplift[name], "lb", "statics", f"uplift at {name}")
    close = member.split_near_end.step(Fv_adj=Fv_adj, b=desk.b, d_e=d_e, d=desk.d)
    far = member.split_inside.step(Fv_adj=Fv_adj, b=desk.b, d_e=d_e)
    cap = np.where(near, close.value, far.value)
    chosen = close if np.all(near) else far
    row = Check(
        f"split:{name}", name, "NDS 2018 3.4.3.3", V.value, cap, "lb", (V, chosen), "side fasteners"
    )
    # the clause is for bolts and lags; for nails and screws by analogy, so over 1 is open
    why = "by analogy with lags and bolts: give a listing across the grain, or go over the top"
    return desk.over(replace(row, rule="analogy", why=why))


def rules(desk: Desk) -> list[Check]:
    """Sliding and tipping, and the roof's own form.

    Level without side forces nothing slides or tips. An earthquake's side force is an estimate for
    the engineer of record: the moment that the blocking at edge and back must carry on.
    """
    case, none = desk.case, np.zeros((1, 1))
    slide = Check("slide", EDGE, "statics", none, 1.0, "lb", ())
    roll = Check("roll_over", EDGE, "statics", none, 1.0, "lb-in", ())
    lateral = desk.model.loads.lateral
    if lateral is not None:
        moment = roll_moment.step(F_side=lateral, d=desk.d)
        why = "an estimate: the blocking and its nails must carry this moment; ask the engineer"
        roll = replace(
            roll, demand=moment.value, capacity=None, steps=(moment,), rule="open", why=why
        )
        across = "an estimate: side force on each outrigger; the clips' side rating is not held yet"
        slide = replace(
            slide, demand=lateral.value, capacity=None, steps=(lateral,), rule="open", why=across
        )
    pushed = any_load(case.garage_wall.out_of_plane_wind) or any_load(case.garage_wall.along)
    if case.house_roof.pitch or pushed:
        why = "forces along or across the outrigger are not computed yet"
        slide, roll = (
            replace(row, capacity=None, rule="open", why=row.why or why) for row in (slide, roll)
        )
    rows = [slide, roll]
    roof = desk.case.garage_roof
    if roof.bearing and roof.form == "untied rafters":
        why = (
            "untied rafters push the wall over: tie them, hang them on a ridge beam, or use trusses"
        )
        rows.append(Check("form", WALL_LINE, "statics", 1.0, 0.0, "", (), "", "fail", why))
    return rows


def plate(desk: Desk) -> list[Check]:
    """The garage plate between outriggers under one truss or stud. NDS 2018 3.3, 3.4.

    One reaction at mid-bay of a simple span, flat plates sharing; only where studs are not known
    to stand over the outriggers.
    """
    case = desk.case
    if case.garage_wall.studs_over_outriggers or not case.garage_roof.bearing:
        return []
    return Plate(desk).rows()


class Plate:
    """The garage plate as a flat beam of its own."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        wall = desk.case.garage_wall
        self.count = wall.plates
        species = wall.plate_species or "Spruce-Pine-Fir (South)"
        nominal = {3.5: "2x4", 5.5: "2x6", 7.25: "2x8", 9.25: "2x10", 11.25: "2x12"}
        width = float(np.max(column(desk.case.gap.garage_plate)))
        fits = [name for dressed, name in nominal.items() if dressed <= width]
        self.wood = lumber.wood(species, PLATE_GRADE, fits[-1] if fits else "2x4")
        self.b = self.wood.size.d * self.count
        self.d = PLATE_THICKNESS_IN
        self.conditions = Conditions(desk.conditions.method, flat=True)

    def force(self) -> Array:
        """One truss reaction, or the load of one spacing, (cases, combinations)."""
        desk = self.desk
        roof, on, shape = desk.case.garage_roof, desk.model.loads, desk.model.shape
        spacing = roof.member_spacing
        if spacing is None:
            spacing = 24.0 if roof.form == "trusses" else "uniform"
        reach = shape.spacing if spacing == "uniform" else column(spacing)
        columns = []
        for part in desk.model.parts:
            lines = [s for s in on.steps.get(part, []) if s.symbol == "w_roof"]
            total = sum((np.asarray(s.value) for s in lines), np.zeros((1, 1)))
            columns.append(total * reach)
        return desk.main.set.combine(np.concatenate(np.broadcast_arrays(*columns), axis=1))

    def rows(self) -> list[Check]:
        """Bending and shear."""
        desk, P = self.desk, np.abs(self.force())
        times = desk.main.set.times
        S = lumber.section_modulus.step(b=self.b, d=self.d)
        note = f"one truss at mid-bay, {self.count} flat {self.wood.size.name} {PLATE_GRADE} taken"
        M = given("M", P * desk.model.shape.spacing / 4, "lb-in", "statics, P s / 4", note)
        V = given("V", P / 2, "lb", "statics, P / 2", note)
        Fb_star = adjusted("Fb", self.wood, self.conditions, times)
        one = given("CL", 1.0, "", "NDS 2018 3.3.3.1", "flat")
        Cfu = flat_use(self.wood, True)
        bend = member.bending(place=WALL_LINE, M=M, S=S, Fb_star=Fb_star, CL=one, Cfu=Cfu)
        Fv_adj = adjusted("Fv", self.wood, self.conditions, times)
        cut = member.shear(place=WALL_LINE, V=V, b=self.b, d=self.d, Fv_adj=Fv_adj)
        return [
            desk.over(replace(bend, id="plate", link="bending")),
            desk.over(replace(cut, id="plate", link="shear")),
        ]
