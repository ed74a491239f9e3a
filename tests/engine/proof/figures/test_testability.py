"""Figures over a fault/test matrix, against published and computed values, as exact fractions."""

from fractions import Fraction

import pytest

from engine.proof.figures.testability import detected, isolated, mean_group, replacements, signature_groups

#: The example of Pattipati and Alexandridis, IEEE Trans. SMC 20(4), 1990, its five faults and five tests
#: (recalled from memory); the figures of two of its tests were computed by hand.
MATRIX = {"s1": "01001", "s2": "00110", "s3": "10011", "s4": "11000", "s5": "11110"}
RATES = {
    "s1": Fraction(1, 100),
    "s2": Fraction(2, 100),
    "s3": Fraction(10, 100),
    "s4": Fraction(5, 100),
    "s5": Fraction(12, 100),
}


def groups_by(tests: int) -> dict[str, frozenset[str]]:
    """The groups that the first so many tests leave."""
    return signature_groups({fault: [int(bit) for bit in row[:tests]] for fault, row in MATRIX.items()})


def test_two_tests_miss_one_fault_and_leave_two_together() -> None:
    """s2 fails no test; s4 and s5 fail the same."""
    groups = groups_by(2)

    assert sorted(groups) == ["s1", "s3", "s4", "s5"]
    assert groups["s4"] == groups["s5"] == {"s4", "s5"}


def test_two_tests_detect_28_of_30() -> None:
    """FFD 0.933333."""
    assert detected(RATES, groups_by(2)) == Fraction(28, 30)


def test_two_tests_isolate_11_of_28_to_one() -> None:
    """FFI(1) 0.392857."""
    assert isolated(RATES, groups_by(2), 1) == Fraction(11, 28)


def test_two_tests_isolate_all_to_two() -> None:
    """FFI(2) 1."""
    assert isolated(RATES, groups_by(2), 2) == 1


def test_two_tests_leave_45_by_28_together() -> None:
    """Mean ambiguity group size 1.607143."""
    assert mean_group(RATES, groups_by(2)) == Fraction(45, 28)


def test_five_tests_find_and_tell_apart_all() -> None:
    """FFD and FFI(1) are 1, every group has one fault."""
    groups = groups_by(5)

    assert [detected(RATES, groups), isolated(RATES, groups, 1), mean_group(RATES, groups)] == [1] * 3


def test_without_a_test_nothing_can_be_said_of_isolation() -> None:
    """Nothing detected leaves nothing to divide by."""
    groups = groups_by(0)

    assert detected(RATES, groups) == 0
    assert isolated(RATES, groups, 1) is None
    assert mean_group(RATES, groups) is None


@pytest.mark.parametrize(
    ("isolation", "mean"),
    [
        ([(90, 1), (5, 2), (5, 4)], Fraction(1175, 1000)),
        ([(100, 1)], Fraction(1)),
        ([(0, 1), (100, 2)], Fraction(2)),
    ],
)
def test_mean_number_of_replacements(isolation: list[tuple[int, int]], mean: Fraction) -> None:
    """MIL-HDBK-472, notice 1, Procedure V: [X1(N1+1) + X2(N1+N2+1) + X3(N2+N3+1)] / 200; 1.175 first."""
    assert replacements((Fraction(share, 100), items) for share, items in isolation) == mean
