"""How much of what can be at fault is found, and how well it is told apart.

With lambda the rate (or weight) of each fault, as in IEEE 1522 (formulas from memory):

- FFD, fraction of faults detected: the sum of lambda over the detected, by the sum over all;
- FFI(L), fraction isolated to L or fewer: the sum of lambda over the detected whose ambiguity group has L
  faults or fewer, by the sum over the detected;
- mean ambiguity group size: the mean of the size of each detected fault's group, weighted by lambda;
- mean number of replacements by the groups of Procedure V of MIL-HDBK-472, notice 1 (from memory).
"""

from collections.abc import Hashable, Iterable, Mapping, Sequence
from fractions import Fraction
from typing import TypeVar

Fault = TypeVar("Fault", bound=Hashable)
#: The ambiguity group of each fault that is detected, the fault itself among it.
Groups = Mapping[Fault, frozenset[Fault]]


def signature_groups(matrix: Mapping[Fault, Sequence[int]]) -> dict[Fault, frozenset[Fault]]:
    """The groups of a fault/test matrix (1: the test fails on the fault).

    A fault that no test fails on is not detected; faults on which the same tests fail are one group.

    >>> groups = signature_groups({"shaft": (1, 0), "gear": (1, 0), "tyre": (0, 1), "plug": (0, 0)})
    >>> sorted(groups), sorted(groups["gear"])
    (['gear', 'shaft', 'tyre'], ['gear', 'shaft'])
    """
    alike: dict[tuple[int, ...], list[Fault]] = {}
    for fault, row in matrix.items():
        alike.setdefault(tuple(row), []).append(fault)
    return {fault: frozenset(same) for row, same in alike.items() if any(row) for fault in same}


def detected(rates: Mapping[Fault, Fraction], groups: Groups[Fault]) -> Fraction:
    """FFD.

    >>> detected({"shaft": Fraction(3), "plug": Fraction(1)}, {"shaft": frozenset(["shaft"])})
    Fraction(3, 4)
    """
    return _sum(rates, groups) / _sum(rates, rates)


def isolated(rates: Mapping[Fault, Fraction], groups: Groups[Fault], most: int) -> Fraction | None:
    """FFI(most); None where nothing is detected."""
    if not groups:
        return None
    small = (fault for fault, group in groups.items() if len(group) <= most)
    return _sum(rates, small) / _sum(rates, groups)


def mean_group(rates: Mapping[Fault, Fraction], groups: Groups[Fault]) -> Fraction | None:
    """Mean ambiguity group size; None where nothing is detected."""
    if not groups:
        return None
    sizes = (rates[fault] * len(group) for fault, group in groups.items())
    return sum(sizes, Fraction(0)) / _sum(rates, groups)


def replacements(isolation: Iterable[tuple[Fraction, int]]) -> Fraction:
    """Mean number of replacements: shares of the faults, and to how many items each share is isolated.

    The shares are in the order of the sizes. Within one the parts are replaced one by one, those of smaller
    groups first: a share isolated to N items after one isolated to M takes (M + N + 1) / 2 on average.

    >>> replacements([(Fraction(1), 3)])
    Fraction(2, 1)
    """
    mean, before = Fraction(0), 0
    for share, items in isolation:
        mean += share * (before + items + 1) / 2
        before = items
    return mean


def _sum(rates: Mapping[Fault, Fraction], faults: Iterable[Fault]) -> Fraction:
    return sum((rates[fault] for fault in faults), Fraction(0))
