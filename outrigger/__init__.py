"""Checks the small wood outriggers that carry a garage wall across an insulation gap.

    import outrigger

    case = outrigger.read_case("job.toml", "gap=7 in")
    result = outrigger.design(case)
    result.verdict, result.closest

Each name is loaded when it is first used: a command starts no slower for the library.
"""

TYPE_CHECKING = False  # as typing has it, which takes longer to load than Ctrl-C may wait
if TYPE_CHECKING:
    from typing import Any

    from outrigger.library import (
        Case,
        CaseFaultsError,
        CheckResult,
        Design,
        Fault,
        InputError,
        OutriggerError,
        RangeError,
        Sizes,
        Sweep,
        TableError,
        case,
        design,
        largest_gap,
        read_case,
        sizes,
        summary,
        sweep,
    )

__version__ = "0.1.0"

__all__ = [
    "Case",
    "CaseFaultsError",
    "CheckResult",
    "Design",
    "Fault",
    "InputError",
    "OutriggerError",
    "RangeError",
    "Sizes",
    "Sweep",
    "TableError",
    "__version__",
    "case",
    "design",
    "largest_gap",
    "read_case",
    "sizes",
    "summary",
    "sweep",
]


def __getattr__(name: str) -> "Any":
    if name not in __all__:
        raise AttributeError(f"module 'outrigger' has no attribute {name!r}")
    from outrigger import library

    value = globals()[name] = getattr(library, name)
    return value


def __dir__() -> list[str]:
    return sorted(__all__)
