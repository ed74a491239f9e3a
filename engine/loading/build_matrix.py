"""From the data of a sound matrix to the model."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any, Final

from engine.loading.data import Map
from engine.loading.exact import exact, key_at, value_at
from engine.model.matrix import FAILS, PASSES, Fault, Matrix, Setup, Trial, TrialOutcome
from engine.model.place import Place

_NONE: Final[Map] = Map()


def matrix(file: str, data: Map) -> Matrix:
    """The matrix that a sound document describes.

    Names that it does not define stay as they are written: lint tells of them, with their places.
    """
    faults: Map = data["faults"]
    tests: Map = data["tests"]
    setups: Map = data.get("setups", _NONE)
    return Matrix(
        id=data["matrix"],
        title=data["title"],
        place=value_at(file, data, "matrix"),
        faults=tuple(_fault(name, held, key_at(file, faults, name)) for name, held in faults.items()),
        tests=tuple(_test(name, held, faults, key_at(file, tests, name)) for name, held in tests.items()),
        setups=tuple(
            Setup(name, held.get("name", name), exact(held["minutes"]), key_at(file, setups, name))
            for name, held in setups.items()
        ),
    )


def _fault(name: str, data: Map, place: Place) -> Fault:
    repair = exact(data["repair"]) if "repair" in data else None
    return Fault(name, data.get("name", name), exact(data["weight"]), repair, place)


def _test(name: str, data: Map, faults: Iterable[str], place: Place) -> Trial:
    return Trial(
        id=name,
        say=data.get("say", ""),
        minutes=exact(data["minutes"]),
        outcomes=_outcomes(data, faults),
        needs=tuple(data.get("needs", ())),
        drops=tuple(data.get("drops", ())),
        after=tuple(data.get("after", ())),
        place=place,
    )


def _outcomes(data: Mapping[str, Any], faults: Iterable[str]) -> tuple[TrialOutcome, ...]:
    """What comes of a test; one that passes or fails has these two outcomes, in this order."""
    if "outcomes" in data:
        return tuple(
            TrialOutcome(name, dict.fromkeys(named, Fraction(1))) for name, named in data["outcomes"].items()
        )
    if "fails" in data:
        chances = dict.fromkeys(data["fails"], Fraction(1))
    else:
        chances = {name: exact(chance) for name, chance in data["chances"].items()}
    passing = {name: 1 - chances.get(name, Fraction(0)) for name in faults}
    return (TrialOutcome(PASSES, _some(passing)), TrialOutcome(FAILS, _some(chances)))


def _some(chances: Mapping[str, Fraction]) -> Mapping[str, Fraction]:
    """The chances without those that are none."""
    return {name: chance for name, chance in chances.items() if chance}
