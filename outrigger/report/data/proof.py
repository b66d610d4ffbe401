"""The proof as plain data: counts, groups, sources, every value; and what is unverified."""

import math
from collections.abc import Sequence
from typing import Any

from outrigger import __version__
from outrigger.proof.compared import KINDS, Compared, Source, worst
from outrigger.proof.prove import Proof
from outrigger.proof.unverified import LISTED, Listing

PROGRAM = {"name": "outrigger", "version": __version__}


def as_data(proof: Proof) -> dict[str, Any]:
    """What `prove --json` prints."""
    return {
        "program": PROGRAM,
        "holds": proof.holds,
        "reproduced": len(proof.reproduced),
        "counts": proof.counts,
        "groups": [
            {
                "group": group.name,
                "title": group.title,
                "counts": {kind: proof.count(kind, rows)[1] for kind in KINDS},
                "within": {kind: proof.count(kind, rows)[0] for kind in KINDS},
                "worst": None if (one := worst(rows)) is None else _value(one),
            }
            for group, rows in proof.groups
        ],
        "sources": [_source(one) | {"reproduced": count} for one, count in proof.sources],
        "values": [_value(row) for row in proof.rows],
    }


def _source(one: Source) -> dict[str, Any]:
    return {
        "name": one.name,
        "author": one.author,
        "title": one.title,
        "edition": one.edition,
        "read": one.read,
    }


def _value(row: Compared) -> dict[str, Any]:
    return {
        "group": row.group,
        "source": row.source.name,
        "at": row.at,
        "of": row.of,
        "what": row.what,
        "printed": row.printed,
        "value": row.value,
        "here": _number(row.here),
        "unit": row.unit,
        "status": row.status,
        "kind": row.kind,
        "allowed": row.allowed,
        "off": _number(row.off),
        "within": row.within,
        "why": row.why,
        "differs": row.differs,
    }


def _number(value: float) -> float | None:
    """JSON has no word for what is no number."""
    return value if math.isfinite(value) else None


def unverified_data(listings: Sequence[Listing]) -> dict[str, Any]:
    """What `prove --unverified --json` prints."""
    return {
        "program": PROGRAM,
        "counts": {
            status: sum(len(one.of_status(status)) for one in listings) for status in LISTED
        },
        "tables": [
            {
                "table": one.name,
                "title": one.title,
                "rows": one.rows,
                "counts": {status: len(one.of_status(status)) for status in LISTED},
                "values": [{"row": v.row, "of": v.of, "status": v.status} for v in one.values],
            }
            for one in listings
        ],
    }
