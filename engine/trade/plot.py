"""A curve that says more than one number: what varies, from where to where, and what is shown of it."""

from typing import NamedTuple


class Plot(NamedTuple):
    """One curve of a calculator, or one for each value of a list that it gives."""

    #: The input that varies, by name, from `low` to `high` in its unit.
    over: str
    low: float
    high: float
    #: The output that is shown, by name.
    shows: str
    #: Where the output is a list: the input or output whose values tell its curves apart, by name.
    by: str = ""
