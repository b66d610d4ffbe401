"""The garage plate between outriggers. NDS 2018 3.3, 3.4."""

import numpy as np
from msgspec.structs import replace

from outrigger.actions.geometry import column, truss_spacing
from outrigger.actions.places import WALL_LINE
from outrigger.checks.loaded_member import (
    PLATE_GRADE,
    PLATE_SPECIES,
    PLATE_THICKNESS_IN,
    LoadedMember,
)
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array, Num
from outrigger.loads import row_of_loads as rows_of
from outrigger.marks.bays import over_openings
from outrigger.wood import bending, dressed, lumber, rectangle, shear
from outrigger.wood.adjusted import Conditions, adjusted, flat_use

PLATE = Kind("plate", "plate")
ALIKE = 1e-9  # spacings that are one
BENT, CUT = Link(PLATE, "bending", "bending"), Link(PLATE, "shear", "shear")
PAST = Kind("plate_past_the_end", "plate past the end mark", stands_at=WALL_LINE)
PAST_BENT, PAST_CUT = Link(PAST, "bending", "bending"), Link(PAST, "shear", "shear")
HEADER = Link(Kind("header", "header over the opening", stands_at=WALL_LINE), "", "")


@formula("W_open", "lb", clause="statics: roof and wall over the whole opening")
def on_header(w_line: Num, l_open: Num) -> Num:
    """Load of a header over an opening."""
    return w_line * l_open


@formula("V", "lb", clause="statics: one stud next to the outrigger, its trusses beyond")
def shear_from_stud(R_one: Num, n_end: Num, x_at: Num, s_row: Num, l_beam: Num) -> Num:
    """Shear of the plate by trusses that stand on studs, the first `x_at` from the outrigger."""
    return R_one * (n_end * (l_beam - x_at) / l_beam - n_end * (n_end - 1) / 2 * s_row / l_beam)


@formula("M", "lb-in", clause="statics: roof members at the end and inward, each half its bays")
def moment_past_the_end(w_line: Num, l_beam: Num, x_at: Num, s_row: Num, w_beam: Num) -> Num:
    """Moment of the plate over the end outrigger by what stands beyond it."""
    return w_line * ((l_beam**2 - x_at**2) / 2 + x_at * s_row / 2) + w_beam * l_beam**2 / 2


@formula("V", "lb", clause="statics: a roof member right beside the outrigger, all beyond it")
def shear_past_the_end(w_line: Num, l_beam: Num, s_row: Num, w_beam: Num) -> Num:
    """Shear of the plate by all that stands beyond the end outrigger."""
    return w_line * (l_beam + s_row / 2) + w_beam * l_beam


def plate(member: LoadedMember) -> list[Check]:
    """The garage plate between outriggers under trusses or studs. NDS 2018 3.3, 3.4.

    A simple span, flat plates sharing; where studs are not known to stand over the outriggers, or
    where it is said how far apart they are. Studs as far apart as the outriggers, one over each,
    bring it nothing; where the spacings do not fit, one stands over each outrigger and the others
    anywhere. Of a layout the longest bay beside the mark; over an opening it is a header's place.
    Past the end marks of a layout it is a cantilever, wherever studs stand.
    """
    wall, header = member.case.garage_wall, _header(member)
    if not member.case.garage_roof.bearing:
        return header
    header += Plate(member).past_the_end()
    if wall.studs_over_outriggers and wall.stud_spacing is None:
        return header
    return [*header, *Plate(member).rows()]


def _header(member: LoadedMember) -> list[Check]:
    """Over an opening of the layout no plate carries: what a header there has to, left open, of the
    longest opening of the run."""
    mark = member.batch.mark
    if mark is None or not np.any(mark.opening > 0):
        return []
    load = header_load(member, mark.opening)
    row = Check(
        link=HEADER,
        place=WALL_LINE,
        clause="statics",
        demand=load.value,
        capacity=None,
        unit="lb",
        steps=(load,),
        rule="open",
        why=(
            f"a header must carry this over the opening ({'; '.join(over_openings(member.case))}), "
            "half of it to each end, beside any point load there: it is not designed here, nor "
            'what it stands on; say header = "by others" in the opening where others design it'
        ),
    )
    return [member.over(row)]


def header_load(member: LoadedMember, opened: Array) -> Step:
    """What a header carries in every combination, lb, over a bay that an opening takes, in."""
    model, over = member.model, member.main.combinations
    lines = dict(model.loads.line)
    wall = member.batch.load("garage_wall.dead") * member.batch.load("garage_wall.height")
    lines["D"] = lines.get("D", np.zeros((1, 1))) + wall
    w = given("w_line", np.abs(over.combine(model.table(lines))), "lb/in", "", "roof and wall")
    return on_header.step(w_line=w, l_open=opened * model.shape.cos_along_wall)


class Plate:
    """The garage plate as a flat beam of its own."""

    def __init__(self, member: LoadedMember) -> None:
        self.member = member
        wall = member.case.garage_wall
        self.count = wall.plates
        sizes = [dressed.read_size(f"2x{depth}") for depth in dressed.DEPTHS_IN]
        fits = [size.name for size in sizes if size.d <= member.case.gap.garage_plate]
        size = fits[-1] if fits else "2x4"
        self.wood = lumber.wood(wall.plate_species or PLATE_SPECIES, PLATE_GRADE, size)
        self.b = self.wood.size.d * self.count
        self.d = PLATE_THICKNESS_IN
        own = member.conditions
        self.conditions = Conditions(own.method, temperature=own.temperature, flat=True)

    @property
    def apart(self) -> Array:
        """How far apart the trusses stand, in; an even load as one for each spacing."""
        stated = truss_spacing(self.member.case)
        if stated == "uniform":
            return self.member.batch.column("outrigger.spacing")
        return column(stated)

    def studs_in_a_bay(self) -> Array | None:
        """The bay of the outriggers over the spacing of the studs; None: not said, or no stud is
        known to stand over an outrigger."""
        wall = self.member.case.garage_wall
        if not wall.studs_over_outriggers or wall.stud_spacing is None:
            return None
        return self.member.batch.bay / wall.stud_spacing

    def force(self) -> Array:
        """One truss reaction, or the load of one spacing, by its size, lb; none where every stud
        stands over an outrigger."""
        bays = self.studs_in_a_bay()
        between = 1.0 if bays is None else (np.abs(bays - 1) > ALIKE).astype(float)
        return between * self._force()

    def _force(self) -> Array:
        member = self.member
        model, apart = member.model, truss_spacing(member.case)
        reach = model.shape.plan_spacing if apart == "uniform" else column(apart)
        table = model.table({part: line * reach for part, line in model.loads.line.items()})
        return np.abs(member.main.combinations.combine(table))

    def moment(self) -> Step:
        """The trusses at their worst place."""
        bay = self.member.batch.bay
        row = rows_of.worst_row(bay, self.apart)
        note = (
            f"one truss or the load of one spacing, {self.count} flat {self.wood.size.name} "
            f"{PLATE_GRADE} taken"
        )
        return rows_of.moment_of_row.step(
            R_one=given("R_one", self.force(), "lb", "", note),
            n_row=row.n, l_beam=bay, e_row=row.e, s_row=self.apart, q_row=row.q, w_beam=0.0,
        )  # fmt: skip

    def end_shear(self) -> Step:
        """A truss at mid-bay; where it is said how far apart the studs are, on the stud next to
        the outrigger, or a depth from it where no stud is known to stand over that one."""
        wall, P = self.member.case.garage_wall, self.force()
        note = "one truss at mid-bay"
        if wall.stud_spacing is None:
            return given("V", P / 2, "lb", "statics, P / 2", note)
        bay = self.member.batch.bay
        bays = self.studs_in_a_bay()
        fits = bays is not None and np.abs(bays - np.round(bays)) <= ALIKE
        x = np.minimum(np.where(fits, wall.stud_spacing, self.d), bay)
        n = np.maximum(np.ceil((bay - x) / self.apart - rows_of.A_HAIR), 1.0)
        return shear_from_stud.step(
            R_one=given("R_one", P, "lb", "", "one truss or the load of one spacing"),
            n_end=n, x_at=x, s_row=self.apart, l_beam=bay,
        )  # fmt: skip

    def past_the_end(self) -> list[Check]:
        """Beyond the first and the last outrigger of a layout, to the ends of its run: a roof
        member stands at each end. None where the end outrigger stands there itself."""
        mark, model = self.member.batch.mark, self.member.model
        if mark is None or not np.any(mark.past > 0):
            return []
        beyond = mark.past * model.shape.cos_along_wall
        even = truss_spacing(self.member.case) == "uniform"
        apart = np.where(beyond > 0, 0.0 if even else self.apart, 0.0)
        over = self.member.main.combinations
        load = self.member.batch.load
        wall = {"D": load("garage_wall.dead") * load("garage_wall.height")}
        w_roof, w_wall = (np.abs(over.combine(model.table(by)))
                          for by in (dict(model.loads.line), wall))  # fmt: skip
        note = f"{self.count} flat {self.wood.size.name} {PLATE_GRADE} taken"
        on_it: dict[str, Num | Step] = {
            "w_line": given("w_line", w_roof, "lb/in", "", "the roof"),
            "l_beam": given("l_beam", beyond, "in", "", f"to the end of the run; {note}"),
            "s_row": given("s_row", apart, "in", "", "from one roof member to the next"),
            "w_beam": given("w_beam", w_wall, "lb/in", "", "the garage wall"),
        }
        x = given(
            "x_at", np.minimum(beyond, apart / 2), "in", "", "the innermost of them, at worst"
        )
        M = moment_past_the_end.step(**on_it, x_at=x)
        return self.bent_and_cut(PAST_BENT, PAST_CUT, M, shear_past_the_end.step(**on_it))

    def rows(self) -> list[Check]:
        """Bending and shear."""
        rows = self.bent_and_cut(BENT, CUT, self.moment(), self.end_shear())
        return [self.where_known(row) for row in rows]

    def bent_and_cut(self, bent: Link, cut: Link, M: Step, V: Step) -> list[Check]:
        """The two rows under a moment and a shear."""
        times = self.member.main.combinations.times
        S = rectangle.section_modulus.step(b=self.b, d=self.d)
        Fb_star = adjusted("Fb", self.wood, self.conditions, times)
        one = given("CL", 1.0, "", "NDS 2018 3.3.3.1", "flat")
        Cfu = flat_use(self.wood, True)
        found = [
            bending.bending(
                link=bent, place=WALL_LINE, M=M, S=S, Fb_star=Fb_star, CL=one, Cfu=Cfu
            ),
            shear.shear(
                link=cut, place=WALL_LINE, V=V, b=self.b, d=self.d,
                Fv_adj=adjusted("Fv", self.wood, self.conditions, times),
            ),
        ]  # fmt: skip
        return [self.member.over(row) for row in found]

    def where_known(self, row: Check) -> Check:
        """Over 1 open, not a failure, while nobody has said where the studs stand."""
        if self.member.case.garage_wall.studs_over_outriggers is not None:
            return row
        why = "not said whether a stud stands over every outrigger"
        return replace(row, rule="analogy", why=why)
