"""Rows of data as tables for a spreadsheet: flat rows, their CSV, a cut and a material list."""

import csv
import io
from collections.abc import Mapping, Sequence
from typing import Any

from outrigger.base.quantity import feet_and_inches
from outrigger.layout.layout import LaidOut

Cell = str | float | int | bool | None
STAMPED = ("digest", "open", "sample", "cautions", "not_checked")  # said once, above a table


def flat(row: Mapping[str, Any]) -> dict[str, Cell]:
    """A row without nesting: nested keys joined by a colon, lists in one text."""
    found: dict[str, Cell] = {}
    for key, value in row.items():
        if isinstance(value, Mapping):
            found |= {f"{key}:{name}": one for name, one in flat(value).items()}
        else:
            found[key] = " ".join(map(str, value)) if isinstance(value, list) else value
    return found


def plain(rows: Sequence[Mapping[str, Any]]) -> list[dict[str, Cell]]:
    """Rows for a table whose case, cautions and SAMPLE stand above it."""
    return [flat({k: v for k, v in row.items() if k not in STAMPED}) for row in rows]


def csv_of(rows: Sequence[Mapping[str, Cell]]) -> str:
    """Flat rows as CSV; blank where nothing is known."""
    text = io.StringIO()
    columns = dict.fromkeys(key for row in rows for key in row)
    writer = csv.DictWriter(text, list(columns), lineterminator="\n")
    writer.writeheader()
    for row in rows:
        writer.writerow({key: _written(value) for key, value in row.items()})
    return text.getvalue()


def _written(value: Cell) -> Cell:
    return str(value).lower() if isinstance(value, bool) else value


def cut_rows(laid: LaidOut) -> list[dict[str, Cell]]:
    """The cut list: what, how many, how long."""
    return [
        {
            "what": one.what,
            "count": one.count,
            "length_in": float(one.length),
            "length_ft_in": feet_and_inches(float(one.length)),
        }
        for one in laid.cuts
    ]


def stick_rows(laid: LaidOut) -> list[dict[str, Cell]]:
    """What is cut from which stock."""
    packing = laid.packing
    return [
        {
            "count": count,
            "stock_in": float(stick.stock),
            "stock_ft_in": feet_and_inches(float(stick.stock)),
            "cuts": " + ".join(
                f"{n} x {feet_and_inches(float(length))}"
                for n, length in zip(stick.cuts, packing.lengths, strict=True)
                if n
            ),
            "left_in": float(packing.offcut(stick)),
        }
        for stick, count in packing.sticks
    ]


def material_rows(laid: LaidOut) -> list[dict[str, Cell]]:
    """The material list: lumber by stock length, then clips, fasteners, sealing, flashing."""
    wood = laid.design.wood
    name = f"{wood.size.name} {wood.row.species} {wood.row.grade}"
    by_stock: dict[float, int] = {}
    for stick, count in laid.packing.sticks:
        by_stock[stick.stock] = by_stock.get(stick.stock, 0) + count
    rows: list[dict[str, Cell]] = [
        {"count": count, "what": name, "length_in": float(stock), "how": "stock"}
        for stock, count in by_stock.items()
    ]
    rows += [
        {"count": one.count, "what": one.what, "length_in": None, "how": one.how}
        for one in laid.items
    ]
    return rows


def laid_out(laid: LaidOut, marks: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """A layout as one object: marks, cut list, what is cut from which stock, material list."""
    stamped = {key: marks[0][key] for key in (*STAMPED, "verdict") if key in marks[0]}
    kept = [{k: v for k, v in row.items() if k not in stamped} for row in marks]
    return {
        **stamped,
        "marks": kept,
        "cut_list": cut_rows(laid),
        "stock": stick_rows(laid),
        "material_list": material_rows(laid),
    }


def lists(laid: LaidOut) -> list[dict[str, Cell]]:
    """Cut list and material list as rows of one table."""
    cut = [{"list": "cut", **row} for row in cut_rows(laid)]
    material = [{"list": "material", **row} for row in material_rows(laid)]
    return [*cut, *material]
