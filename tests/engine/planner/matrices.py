"""Matrices for the tests: written by hand, and random ones of every kind."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from random import Random

from engine.model.matrix import Fault, Matrix, Setup, Trial, TrialOutcome
from engine.model.place import Place

PLACE = Place("by-hand.yaml", 1, 1)


def matrix(
    weights: Mapping[str, object], tests: Sequence[Trial], setups: Mapping[str, object] | None = None
) -> Matrix:
    """A matrix from weights and minutes as they are written."""
    return Matrix(
        "by-hand",
        "By hand",
        PLACE,
        tuple(Fault(name, name, Fraction(str(weight)), None, PLACE) for name, weight in weights.items()),
        tuple(tests),
        tuple(Setup(name, name, Fraction(str(minutes)), PLACE) for name, minutes in (setups or {}).items()),
    )


def trial(
    name: str,
    minutes: object,
    outcomes: Mapping[str, Sequence[str]],
    *,
    needs: Sequence[str] = (),
    drops: Sequence[str] = (),
    after: Sequence[str] = (),
) -> Trial:
    """A reliable test: the faults behind each outcome."""
    found = tuple(TrialOutcome(o, {fault: Fraction(1) for fault in faults}) for o, faults in outcomes.items())
    return Trial(name, "", Fraction(str(minutes)), found, tuple(needs), tuple(drops), tuple(after), PLACE)


def table(weights: Mapping[str, object], rows: Mapping[str, str], minutes: Sequence[object]) -> Matrix:
    """A matrix of tests that pass or fail: for each fault a row of 0 and 1."""
    tests = [
        trial(
            f"t{k + 1}",
            price,
            {
                name: [f for f, row in rows.items() if row[k] == str(mark)]
                for name, mark in (("pass", "0"), ("fail", "1"))
            },
        )
        for k, price in enumerate(minutes)
    ]
    return matrix(weights, tests)


def asking(made: Matrix) -> Matrix:
    """The matrix, where some tests want the vehicle raised, some let it down, and some wait for a mark."""
    tests = [
        test._replace(
            needs=("raised",) if k % 3 == 0 else (),
            drops=("raised",) if k % 4 == 1 else (),
            after=("mark",) if k % 5 == 2 else (),
        )
        for k, test in enumerate(made.tests)
    ]
    tests.append(trial("mark", 3, {"done": [fault.id for fault in made.faults]}))
    return made._replace(tests=tuple(tests), setups=(Setup("raised", "raised", Fraction(8), PLACE),))


def sample(seed: int) -> Matrix:
    """A small random matrix: faults alike, tests that tell nothing, many outcomes, set-ups, precedence."""
    rng = Random(seed)
    faults = [f"f{k}" for k in range(rng.randint(1, 7))]
    setups = (
        {name: rng.choice([1, 2, "7/2"]) for name in ("raised", "parted")[: rng.randint(0, 2)]}
        if seed % 2
        else {}
    )
    tests = [_test(rng, k, faults, [*setups], ordered=seed % 3 == 0) for k in range(rng.randint(1, 6))]
    weights = {fault: rng.choice([1, 1, 2, 5, "1/3", "0.25"]) for fault in faults}
    return matrix(weights, tests, setups)


def _test(rng: Random, number: int, faults: Sequence[str], setups: Sequence[str], *, ordered: bool) -> Trial:
    """One random test; it waits only for earlier ones."""
    names = ["pass", "fail", "odd"][: rng.choice([2, 2, 2, 3])]
    row = {fault: rng.choice(names if rng.random() < 0.9 else names[:1]) for fault in faults}
    return trial(
        f"t{number}",
        rng.choice([1, 1, 2, 3, "1/2", "2.75"]),
        {name: [fault for fault in faults if row[fault] == name] for name in names},
        needs=[name for name in setups if rng.random() < 0.4],
        drops=[name for name in setups if rng.random() < 0.25],
        after=[f"t{k}" for k in range(number) if rng.random() < 0.3] if ordered else [],
    )
