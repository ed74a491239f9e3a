"""The vehicle data sheet."""

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from engine.model.place import Place
from engine.model.value import Value
from engine.quantity import Quantity


class Amount(NamedTuple):
    """A number with its unit and the source it comes from."""

    value: Fraction
    unit: str
    source: str
    place: Place


class Lubricant(NamedTuple):
    """What a unit is filled with: grade, service class and a remark, as the sheet says them."""

    grade: str
    service: str
    remark: str
    source: str
    place: Place


class Sheet(Value):
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

    def has(self, reference: str) -> bool:
        """Whether the sheet has the value that a reference (without its leading `sheet.`) names."""
        section, _, name = reference.partition(".")
        holders = {"lubricants": self.lubricants, "torques": self.torques, "capacities": self.capacities}
        return name in holders[section] if section in holders else reference in self.limits

    def value(self, reference: str) -> Quantity | str | None:
        """The amount that a reference names, or the grade of a lubricant; None where the sheet has none."""
        section, _, name = reference.partition(".")
        if section == "lubricants":
            return self.lubricants[name].grade if name in self.lubricants else None
        held = {"torques": self.torques, "capacities": self.capacities}.get(section)
        amount = self.limits.get(reference) if held is None else held.get(name)
        return Quantity(amount.value, amount.unit) if amount is not None else None

    def references(self) -> tuple[str, ...]:
        """Every value of the sheet as a reference would name it."""
        sections = (
            ("lubricants", self.lubricants),
            ("torques", self.torques),
            ("capacities", self.capacities),
        )
        return (*self.limits, *(f"{section}.{name}" for section, held in sections for name in held))
