"""What this package raises: each error is an `OutriggerError` and the builtin that it is.

But one, which is a fault of the program and must never be taken for one of a case.
"""


class OutriggerError(Exception):
    """Any error this package raises on purpose. Its text is for people."""


class InputError(OutriggerError, ValueError):
    """A value that cannot be used: the text names the field, the value, and what is allowed."""


class TableError(OutriggerError, LookupError):
    """A row that a table does not have: the text names the table and the rows that it has."""


class RangeError(OutriggerError, ValueError):
    """A value outside the range of a provision: the text names the range."""


class ContradictionError(AssertionError):
    """Two ways to one number that do not agree: a fault of this program, never of a case."""
