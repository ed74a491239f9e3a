"""The vehicle data sheet."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Final, NamedTuple

from engine.model.place import Place
from engine.model.value import Value
from engine.quantity import Quantity, dimension


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


class Catalogue(NamedTuple):
    """The sizes in which a part is to be had, with their unit and the source they come from."""

    values: tuple[Fraction, ...]
    unit: str
    source: str
    place: Place


_NOTHING: Final[Mapping[str, Catalogue]] = {}


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
    catalogues: Mapping[str, Catalogue] = _NOTHING

    def has(self, reference: str) -> bool:
        """Whether the sheet has the value that a reference (without its leading `sheet.`) names."""
        return reference in self.references()

    def value(self, reference: str) -> Quantity | tuple[Quantity, ...] | str | None:
        """The amount that a reference names, or a word of a lubricant.

        None where the sheet has none, or one in a unit that is none. A lubricant by its name alone is its
        grade; `.grade` and `.service` behind it name either. A catalogue gives every size.
        """
        section, _, name = reference.partition(".")
        if section == "lubricants":
            unit, _, part = name.partition(".")
            oil = self.lubricants.get(unit)
            return {"": oil.grade, "grade": oil.grade, "service": oil.service}.get(part) if oil else None
        if section == "catalogues":
            sizes = self.catalogues.get(name)
            if sizes is None or not dimension(sizes.unit):
                return None
            return tuple(Quantity(one, sizes.unit) for one in sizes.values)
        held = {"torques": self.torques, "capacities": self.capacities}.get(section)
        amount = self.limits.get(reference) if held is None else held.get(name)
        return Quantity(amount.value, amount.unit) if amount and dimension(amount.unit) else None

    def references(self) -> tuple[str, ...]:
        """Every value of the sheet as a reference would name it."""
        sections = (
            ("lubricants", self.lubricants),
            ("torques", self.torques),
            ("capacities", self.capacities),
            ("catalogues", self.catalogues),
        )
        words = (f"lubricants.{name}.{part}" for name in self.lubricants for part in ("grade", "service"))
        whole = (f"{section}.{name}" for section, held in sections for name in held)
        return (*self.limits, *whole, *words)
