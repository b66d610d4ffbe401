"""A back span that is short beside the arm: a caution wherever one is stated, found or offered.

Under the arm the back clip pulls more than the load presses (statics). That a back span should be
twice, better three times the arm is common practice, no source.
"""

from collections.abc import Mapping

import numpy as np
from msgspec import Struct

from outrigger.actions.geometry import geometry
from outrigger.cases.batch import batch_of
from outrigger.cases.model import Case
from outrigger.checks.loaded_member import COMMON
from outrigger.formula.numbers import Array


class ShortBack(Struct, frozen=True):
    """A caution: its mark beside a number, its words, and how many arms the back span is under."""

    mark: str
    words: str
    arms: float


SHORT_BACKS = (
    ShortBack("!!", "back span under the arm: the clip pulls more than the load", 1.0),
    ShortBack(
        "!", f"back span under twice the arm: strongly consider a longer one ({COMMON})", 2.0
    ),
    ShortBack("*", f"back span under three times the arm ({COMMON})", 3.0),
)


def short_back(back_span: float, arm: float) -> ShortBack | None:
    """The caution of a back span, in, beside an arm, in; None: it is three arms or more."""
    return next((one for one in SHORT_BACKS if back_span < one.arms * arm), None)


def short_backs(case: Case, values: Mapping[str, Array]) -> list[ShortBack | None]:
    """The same of a case over columns of gaps or back spans, (cases,) each."""
    shape = geometry(batch_of(case, values))
    count = max(len(column) for column in values.values())
    backs, arms = (np.broadcast_to(v.ravel(), count) for v in (shape.back_span, shape.arm))
    return [short_back(float(back), float(arm)) for back, arm in zip(backs, arms, strict=True)]


def mark(caution: ShortBack | None) -> str:
    """The mark of a caution, empty for none."""
    return "" if caution is None else caution.mark


def words(caution: ShortBack | None) -> str:
    """The words of a caution, empty for none."""
    return "" if caution is None else caution.words
