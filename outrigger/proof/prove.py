"""The whole proof: every group, what is counted, what could not be reproduced."""

from collections.abc import Callable, Sequence
from functools import cached_property

from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.proof import (
    beams,
    cantilevers,
    combinations,
    connections,
    members,
    snow,
    spans,
    stability,
    values,
    whole,
    wind,
)
from outrigger.proof.compared import KINDS, PUBLISHED, Compared, Source, of_kind, worst

Part = Callable[[], list[Compared]]


class Group(Struct, frozen=True):
    """One line of the proof: its name to type, what it is, its parts."""

    name: str
    title: str
    parts: tuple[Part, ...]


def _single(group: str) -> Part:
    return lambda: values.single_values(group)


GROUPS = (
    Group(
        "lumber",
        "lumber values and spans",
        (
            values.design_values,
            values.sections,
            values.factors,
            spans.irc_spans,
            spans.deck_joists,
            cantilevers.cantilevers,
        ),
    ),
    Group("statics", "statics", (beams.closed_forms, beams.rows_of_spans, beams.by_sympy)),
    Group(
        "stability",
        "stability and interaction",
        (
            stability.effective_lengths,
            stability.bearing_areas,
            members.worked_members,
            _single("stability"),
        ),
    ),
    Group(
        "connections",
        "connections",
        (
            connections.lateral_values,
            connections.values_over_a_gap,
            connections.withdrawals,
            connections.pulls_through,
            connections.dowel_bearings,
            connections.group_actions,
            connections.worked_fasteners,
            _single("connections"),
        ),
    ),
    Group(
        "snow", "snow",
        (snow.worked_snow, snow.drift_heights, snow.windward_drifts, _single("snow")),
    ),
    Group(
        "wind",
        "wind",
        (
            wind.coefficients,
            wind.official_pressures,
            wind.worked_wind,
            wind.exposure,
            wind.envelope,
            wind.directional,
            _single("wind"),
        ),
    ),
    Group("combinations", "combinations", (combinations.load_factors, _single("combinations"))),
    Group("cases", "whole cases", (whole.whole_cases,)),
)  # fmt: skip


class Proof(Struct, frozen=True, dict=True):
    """Every value that was compared, by group."""

    groups: tuple[tuple[Group, tuple[Compared, ...]], ...]

    @cached_property
    def rows(self) -> tuple[Compared, ...]:
        """All of them."""
        return tuple(row for _, listed in self.groups for row in listed)

    @cached_property
    def off(self) -> list[Compared]:
        """What is held to its source and is not within its rounding."""
        return [row for row in self.rows if not row.differs and not row.within]

    @property
    def holds(self) -> bool:
        """Whether all of it is within rounding."""
        return not self.off

    @cached_property
    def reproduced(self) -> list[Compared]:
        """Published values within their rounding: none that was derived, fitted or recalled."""
        return [row for row in of_kind(self.rows, PUBLISHED) if row.within]

    @cached_property
    def sources(self) -> list[tuple[Source, int]]:
        """The sources of what is reproduced, each with its count, by author and title."""
        counts: dict[Source, int] = {}
        for row in self.reproduced:
            counts[row.source] = counts.get(row.source, 0) + 1
        return sorted(counts.items(), key=lambda one: (one[0].author.lower(), one[0].title))

    def count(self, kind: str, rows: Sequence[Compared] | None = None) -> tuple[int, int]:
        """How many of a kind are within rounding, and how many there are."""
        listed = of_kind(self.rows if rows is None else rows, kind)
        return sum(row.within for row in listed), len(listed)

    @property
    def counts(self) -> dict[str, int]:
        """How many there are of each kind."""
        return {kind: self.count(kind)[1] for kind in KINDS}

    @property
    def worst(self) -> Compared | None:
        """What is farthest off, as a share of what is allowed."""
        return worst(self.rows)


def group_of(name: str) -> Group:
    """The group of a name as typed.

    Raises:
        InputError: there is none.
    """
    found = next((one for one in GROUPS if one.name == name.lower()), None)
    if found is None:
        listed = ", ".join(one.name for one in GROUPS)
        raise InputError(f'group "{name}": there is none of that name. Groups: {listed}.')
    return found


def prove(groups: Sequence[Group] = GROUPS) -> Proof:
    """Works the published values again, by the functions that a check uses."""
    return Proof(tuple((one, tuple(row for part in one.parts for row in part())) for one in groups))
