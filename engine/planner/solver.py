"""Linear programs, put to HiGHS (Huangfu and Hall, Math. Prog. Comp. 10:119-142, 2018) by interior points.

The answer is near the best and nearly within its limits, no more: whoever asks makes it exact.
"""

from collections.abc import Callable
from typing import Any, Final, NamedTuple

import highspy
import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Numbers = NDArray[np.int64]

_OPTIONS: Final[dict[str, str | float]] = {
    "solver": "ipm",
    "run_crossover": "off",
    "ipm_optimality_tolerance": 1e-4,
    "threads": 1,
}
#: With more entries it may take a second, and is asked all along whether to stop; that makes it slower.
_LONG: Final = 40_000


class Program(NamedTuple):
    """The least cost of unknowns that are zero or more, with every row at its limit or below."""

    #: One for each unknown.
    costs: Floats
    #: One for each row.
    limits: Floats
    #: The entries: in which row, of which unknown, times what.
    rows: Numbers
    columns: Numbers
    values: Floats


def solved(program: Program, stop: Callable[[], bool] = lambda: False) -> Floats:
    """The unknowns; none of them where it was told to stop before there was an answer.

    >>> row, each, times = np.array([0, 0]), np.array([0, 1]), np.array([1.0, 2])  # a + 2 b <= 4
    >>> np.round(solved(Program(-np.ones(2), np.array([4.0]), row, each, times)), 3)  # most of a + b
    array([4., 0.])
    """
    solver = _Quiet()
    for name, value in _OPTIONS.items():
        solver.setOptionValue(name, value)
    if len(program.values) > _LONG:
        solver.cbIpmInterrupt.subscribe(lambda event: event.interrupt(stop()))
    solver.passModel(_handed(program))
    solver.run()
    return np.array(solver.getSolution().col_value)


class _Quiet(highspy.Highs):
    """A solver that does not write its name among what is printed."""

    def enableCallbacks(self) -> Any:  # noqa: N802  reason: the library's name
        """It speaks as soon as it can be called back."""
        self.silent()
        return super().enableCallbacks()


def _handed(program: Program) -> highspy.HighsLp:
    """The same as the solver takes it, row by row."""
    order = np.argsort(program.rows, kind="stable")
    unknowns, rows = len(program.costs), len(program.limits)
    made = highspy.HighsLp()
    made.num_col_, made.num_row_ = unknowns, rows
    made.col_cost_, made.col_lower_ = program.costs, np.zeros(unknowns)
    made.col_upper_ = np.full(unknowns, highspy.kHighsInf)
    made.row_lower_, made.row_upper_ = np.full(rows, -highspy.kHighsInf), program.limits
    made.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    made.a_matrix_.start_ = np.searchsorted(program.rows[order], np.arange(rows + 1))
    made.a_matrix_.index_, made.a_matrix_.value_ = program.columns[order], program.values[order]
    return made
