"""What is wrong with how the blocks between the outriggers are fastened."""

import math
from collections.abc import Iterator
from typing import Any

from outrigger.base.errors import InputError
from outrigger.base.quantity import length
from outrigger.cases.faults import Fault, unread
from outrigger.fasteners.trade_names import read_fastener

LEAST = 2  # fasteners that keep a block from turning


def block_faults(member: Any) -> Iterator[Fault]:
    """Faults of both ways to fasten them; the member's own are told elsewhere."""
    if member.blocking_fastening:
        yield from _ends(member, member.blocking_fastening)
    if member.blocking_to_deck:
        yield from _to_deck(member, member.blocking_to_deck)


def _ends(member: Any, stated: Any) -> Iterator[Fault]:
    path = "outrigger.blocking_fastening"
    yield from unread(f"{path}.fastener", stated.fastener, read_fastener)
    if stated.driven != "toe-nailed":
        return
    if _kind(stated.fastener) not in (None, "nail"):
        text = (
            f'= "{stated.fastener}": toe-nails are nails, "ring shank nail 0.131 x 2 1/2 in" say.'
        )
        yield Fault(f"{path}.fastener", text)
    if stated.count < LEAST:
        text = (
            f"= {stated.count}: one nail keeps no block from turning; {LEAST} or more in each end."
        )
        yield Fault(f"{path}.count", text)
    _, deep = member.as_laid
    if stated.spread > deep:
        text = f"= {length(stated.spread)}: more than the outrigger is deep, {length(deep)}."
        yield Fault(f"{path}.spread", text)


def _to_deck(member: Any, stated: Any) -> Iterator[Fault]:
    path = "outrigger.blocking_to_deck"
    yield from unread(f"{path}.fastener", stated.fastener, read_fastener)
    if member.blocking == []:
        text = "stands beside blocking = []: there are no blocks; name them, or drop it."
        yield Fault(path, text)
    clear = member.spacing - member.as_laid[0]
    whole = math.floor(clear / stated.spacing + 1e-9)
    if whole < LEAST <= clear:  # outriggers that stand too close are told elsewhere
        text = (
            f"= {length(stated.spacing)}: leaves {whole} in a block {length(clear)} long, which "
            f"nothing keeps from turning. Allowed: to {length(clear / LEAST)}."
        )
        yield Fault(f"{path}.spacing", text)


def _kind(text: str) -> str | None:
    """Nail, screw and so on; None: the name of the fastener is not read."""
    try:
        return read_fastener(text).kind
    except InputError:
        return None
