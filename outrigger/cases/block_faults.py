"""What is wrong with how the blocks between the outriggers are fastened."""

import math
from collections.abc import Iterator
from typing import Any

from outrigger.base.errors import InputError
from outrigger.base.quantity import length
from outrigger.fasteners.trade_names import Fastener, read_fastener
from outrigger.wood import lumber

Told = tuple[str, str]  # key, and what is wrong with it
LEAST = 2  # fasteners that keep a block from turning


def block_faults(member: Any) -> Iterator[Told]:
    """Faults of both ways to fasten them; the member's own are told elsewhere."""
    if member.blocking_fastening:
        yield from _ends(member, member.blocking_fastening)
    if member.blocking_to_deck:
        yield from _to_deck(member, member.blocking_to_deck)


def _ends(member: Any, stated: Any) -> Iterator[Told]:
    path = "outrigger.blocking_fastening"
    found = _read(stated.fastener)
    if isinstance(found, str):
        yield f"{path}.fastener", found
    if stated.driven != "toe-nailed":
        return
    if isinstance(found, Fastener) and found.kind != "nail":
        text = (
            f'= "{stated.fastener}": toe-nails are nails, "ring shank nail 0.131 x 2 1/2 in" say.'
        )
        yield f"{path}.fastener", text
    if stated.count < LEAST:
        text = (
            f"= {stated.count}: one nail keeps no block from turning; {LEAST} or more in each end."
        )
        yield f"{path}.count", text
    deep = _as_laid(member)
    if deep is not None and stated.spread > deep[1]:
        text = f"= {length(stated.spread)}: more than the outrigger is deep, {length(deep[1])}."
        yield f"{path}.spread", text


def _to_deck(member: Any, stated: Any) -> Iterator[Told]:
    path = "outrigger.blocking_to_deck"
    found = _read(stated.fastener)
    if isinstance(found, str):
        yield f"{path}.fastener", found
    if member.blocking == []:
        yield path, "stands beside blocking = []: there are no blocks; name them, or drop it."
    laid = _as_laid(member)
    if laid is None:
        return
    clear = member.spacing - laid[0]
    whole = math.floor(clear / stated.spacing + 1e-9)
    if whole < LEAST <= clear:  # outriggers that stand too close are told elsewhere
        text = (
            f"= {length(stated.spacing)}: leaves {whole} in a block {length(clear)} long, which "
            f"nothing keeps from turning. Allowed: to {length(clear / LEAST)}."
        )
        yield f"{path}.spacing", text


def _read(text: str) -> Fastener | str:
    """A fastener, or what is wrong with its name."""
    try:
        return read_fastener(text)
    except InputError as error:
        said = str(error).removeprefix(f'"{text}": ')
        return f'= "{text}": {said}'


def _as_laid(member: Any) -> tuple[float, float] | None:
    """Breadth and depth of the member as it lies; None: its size is not read."""
    try:
        size = lumber.read_size(member.size)
    except InputError:
        return None
    if member.laid == "flat":
        return size.d * member.plies, size.b
    return size.b * member.plies, size.d
