"""What several rules ask of a matrix."""

from collections import Counter
from collections.abc import Iterable
from fractions import Fraction
from typing import Final

from engine.model.matrix import FAILS, PASSES, Matrix, Trial

_NONE: Final = Fraction(0)
#: What a fault makes of a test: the probability of each of its outcomes.
Row = tuple[Fraction, ...]


def row(test: Trial, fault: str) -> Row:
    """What one fault makes of one test."""
    return tuple(outcome.chances.get(fault, _NONE) for outcome in test.outcomes)


def binary(test: Trial) -> bool:
    """Whether the test passes or fails, and has no outcomes of its own."""
    return [outcome.name for outcome in test.outcomes] == [PASSES, FAILS]


def whole(matrix: Matrix) -> bool:
    """Whether its tests name the faults that are there, each once; else one slip would be told twice."""
    faults = Counter(fault.id for fault in matrix.faults)
    return all(
        faults.keys() >= test.outcomes[1].chances.keys()
        if binary(test)
        else faults == Counter(name for outcome in test.outcomes for name in outcome.chances)
        for test in matrix.tests
    )


def listed(names: Iterable[str]) -> str:
    """Names as a sentence lists them.

    >>> listed(["shaft"]), listed(["shaft", "gear", "tyre"])
    ('`shaft`', '`shaft`, `gear` and `tyre`')
    """
    *first, last = (f"`{name}`" for name in names)
    return f"{', '.join(first)} and {last}" if first else last
