"""Design values, section properties and factors of sawn lumber; single values of a table."""

import importlib
from collections.abc import Mapping
from itertools import product
from typing import Any

from outrigger.base import tables
from outrigger.base.errors import TableError
from outrigger.base.tables import Row
from outrigger.proof.compared import Compared, farthest
from outrigger.proof.read import compared, rows
from outrigger.wood import adjusted as adjust
from outrigger.wood import dressed, lumber, rectangle
from outrigger.wood.adjusted import Conditions

GROUP = "lumber"
TIME = 1.0  # CD or lambda, which none of these factors takes


def design_values() -> list[Compared]:
    """Tabulated values as `wood` hands them to a check."""
    found = []
    for row in rows("lumber_values"):
        wood = lumber.wood(row["species"], row["grade"], row["size"])
        for name, value in wood.row.values.items():
            if row[name]:
                what = f"{name} of {row['species']} {row['grade']} {row['size']}"
                found.append(
                    compared(GROUP, row, what, value.value, unit=value.unit, printed=row[name])
                )
    return found


def sections() -> list[Compared]:
    """Section properties from the dressed sizes."""
    found = []
    for row in rows("sections"):
        size = dressed.read_size(row["size"])
        b, d = size.b, size.d
        worked = {
            "A": (rectangle.area(b, d), "in2"),
            "Sxx": (rectangle.section_modulus(b, d), "in3"),
            "Ixx": (rectangle.moment_of_inertia(b, d), "in4"),
            "Syy": (rectangle.section_modulus(d, b), "in3"),
            "Iyy": (rectangle.moment_of_inertia(d, b), "in4"),
        }
        for name, (here, unit) in worked.items():
            what = f"{name} of {row['size']}"
            found.append(compared(GROUP, row, what, here, unit=unit, printed=row[name]))
    return found


def factors() -> list[Compared]:
    """Each printed factor as it stands in an adjusted value: of all that it is for, the one that
    is farthest off."""
    found = []
    for row in rows("factors"):
        what = (
            f"{row['factor']} of {row['property']}, {row['species']} {row['grade']} {row['size']}"
        )
        what += f", {row['use']}" if row["use"] else ""
        found.append(compared(GROUP, row, what, farthest(row["value"], of_each(row))))
    return found


def of_each(row: Row) -> list[float]:
    """A factor of everything that a row is for."""
    columns = ("property", "species", "grade", "size", "use")
    return [factor(row["factor"], *one) for one in product(*(row[c].split("; ") for c in columns))]


def factor(symbol: str, name: str, species: str, grade: str, size: str, use: str) -> float:
    """One factor of one property, wood and use."""
    wood = lumber.wood(species, grade, size)
    if symbol == "CF":
        return float(wood.CF[name].value)
    if symbol == "Cfu":
        return float(adjust.flat_use(wood, True, "Cfu_Fb" if name == "Fb" else "Cfu_E").value)
    step = adjust.adjusted(name, wood, conditions(use), TIME).inputs[symbol]
    return float(step.value)  # type: ignore[union-attr]


def conditions(use: str) -> Conditions:
    """Conditions of use as a row says them: wet; wet 100 to 125 F.

    Raises:
        TableError: words that say none.
    """
    first, _, rest = use.partition(" ")
    if first in ("dry", "wet"):
        said: dict[str, Any] = {"wet": first == "wet"}
        if rest:
            said["temperature"] = rest
    elif use in ("incised", "repetitive"):
        said = {use: True}
    elif use == "LRFD":
        said = {"method": use}
    else:
        raise TableError(f"factors.csv: use {use!r}: not known.")
    return Conditions(**said)


def single_values(group: str) -> list[Compared]:
    """Single values of a group, where the program has them: in a table or by a name."""
    found = []
    for row in rows("single_values"):
        if row["group"] == group:
            found.append(compared(group, row, row["what"], _held(row), unit=row["unit"]))
    return found


def _held(row: Row) -> float:
    if row["module"]:
        found: Any = importlib.import_module(row["module"])
        for part in row["name"].split("."):
            found = found[part] if isinstance(found, Mapping) else getattr(found, part)
        return float(found)
    keys = dict(part.split("=", 1) for part in row["row"].split("; "))
    return float(tables.load(row["table"]).find(**keys)[row["column"]])
