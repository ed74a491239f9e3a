"""Matrices: faults, the tests that tell them apart, and what those tests ask of the vehicle."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Final, NamedTuple

from engine.model.place import Place

#: The outcomes of a test that passes or fails.
PASSES: Final = "passes"
FAILS: Final = "fails"


class Fault(NamedTuple):
    """What may be wrong, how often compared with others, and the minutes of its repair where known."""

    id: str
    name: str
    weight: Fraction
    repair: Fraction | None
    place: Place


class Setup(NamedTuple):
    """What is paid once before a test, and stands until a test drops it (`raised`)."""

    id: str
    name: str
    minutes: Fraction
    place: Place


class TrialOutcome(NamedTuple):
    """One outcome of a test, and the probability of it under each fault; what is left out is 0."""

    name: str
    chances: Mapping[str, Fraction]


class Trial(NamedTuple):
    """A test: its minutes, its outcomes, and what it asks of the vehicle."""

    id: str
    #: What to do and look at, in words; may be empty.
    say: str
    minutes: Fraction
    outcomes: tuple[TrialOutcome, ...]
    #: Set-ups that must stand.
    needs: tuple[str, ...]
    #: Set-ups that are lost by doing it.
    drops: tuple[str, ...]
    #: Tests that must have been done before.
    after: tuple[str, ...]
    place: Place

    @property
    def reliable(self) -> bool:
        """Whether every fault leads to one outcome only."""
        return all(chance in {0, 1} for outcome in self.outcomes for chance in outcome.chances.values())


class Matrix(NamedTuple):
    """Faults x tests, for the planner."""

    id: str
    title: str
    place: Place
    faults: tuple[Fault, ...]
    tests: tuple[Trial, ...]
    setups: tuple[Setup, ...]
