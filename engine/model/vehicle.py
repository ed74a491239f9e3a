"""The vehicle data sheet."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from engine.model.place import Place


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with its unit and the source it comes from."""

    value: Fraction
    unit: str
    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class Lubricant:
    """What a unit is filled with: grade, service class and a remark, as the sheet says them."""

    grade: str
    service: str
    remark: str
    source: str
    place: Place


@dataclass(frozen=True, slots=True)
class Sheet:
    """Everything that the trees may know of one kind of vehicle."""

    name: str
    place: Place
    title: str
    revision: int
    facts: Mapping[str, str]
    #: `unit.item.bound` -> amount, e.g. `rear-axle.level-below-hole.max`.
    limits: Mapping[str, Amount]
    capacities: Mapping[str, Amount]
    lubricants: Mapping[str, Lubricant]
    torques: Mapping[str, Amount]
