"""The door of the checkers: it takes the one for the tests of the matrix, and compares what is told with it.

Tests that are reliable: `engine/proof/plan/reliable.py`; tests that may err: `engine/proof/plan/erring.py`.
"""

import sys
from collections.abc import Iterator, Mapping
from math import isclose
from typing import Any, Final

from engine.model.matrix import Matrix
from engine.model.table import alike, table
from engine.proof.plan.erring import Erring
from engine.proof.plan.reliable import figures

#: What is told of a plan, in the order of the checkers.
FIGURES: Final = "expected_minutes", "worst_minutes", "lower_bound", "proven"
#: What floating point numbers may be off, where chances are multiplied; prices of reliable tests are exact.
_ERRING: Final = 1e-7


def check(matrix: Matrix, made: Mapping[str, Any]) -> list[str]:
    """What is wrong with a plan, as `plan --json` prints it, or with its proof; empty where both hold."""
    # one frame or two for each test of the longest way, one for each fault
    deep = 1000 + 2 * len(matrix.tests) + len(matrix.faults)
    sys.setrecursionlimit(max(sys.getrecursionlimit(), deep))
    try:
        return [*_wrong(matrix, made)]
    except ValueError as error:
        return [f"This is no plan of the matrix: {error}."]
    except KeyError as error:
        return [f"This is no plan of the matrix: {error} is missing, or is not known."]
    except (ArithmeticError, AttributeError, IndexError, RecursionError, TypeError) as error:
        return [f"This is no plan of the matrix: it tells something that cannot be read ({error})."]


def _wrong(matrix: Matrix, made: Mapping[str, Any]) -> Iterator[str]:
    """What is told otherwise than it is."""
    reliable = all(test.reliable for test in matrix.tests)
    found = figures(table(matrix), made) if reliable else Erring(matrix).figures(made)
    for name, figure in zip(FIGURES, found, strict=True):
        if not isclose(figure, made[name], rel_tol=0 if reliable else _ERRING):
            yield f"{name} is {figure}, not {made[name]}."
    groups = [[*group] for group in alike(matrix) if len(group) > 1]
    if made["groups"] != groups:
        yield f"groups is {groups}, not {made['groups']}."
