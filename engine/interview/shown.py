"""Values of the vehicle's sheet in words, shown beside a step."""

from collections.abc import Iterable

from engine.model.vehicle import Amount, Lubricant, Sheet
from engine.quantity import Quantity, convert, partner, write, write_number


def shown(sheet: Sheet, references: Iterable[str]) -> tuple[str, ...]:
    """Each value with its name, as `Torque, propeller shaft flange: 45 N·m (33.19 lbf·ft)`."""
    return tuple(_one(sheet, reference) for reference in references)


def _one(sheet: Sheet, reference: str) -> str:
    section, _, name = reference.partition(".")
    if section == "lubricants":
        unit, _, part = name.partition(".")
        oil = sheet.lubricants[unit]
        told = {"grade": oil.grade, "service": oil.service}.get(part, _lubricant(oil))
        return f"Lubricant, {_plain(unit)}: {told}"
    if section == "catalogues":
        sizes = sheet.catalogues[name]
        return f"To be had, {_plain(name)}: {', '.join(map(write_number, sizes.values))} {sizes.unit}"
    if section == "torques":
        return f"Torque, {_plain(name)}: {both(sheet.torques[name])}"
    if section == "capacities":
        return f"Capacity, {_plain(name)}: {both(sheet.capacities[name])}"
    return f"{_plain(reference).capitalize()}: {both(sheet.limits[reference])}"


def both(amount: Amount) -> str:
    """An amount in its own unit and, where the trade uses two, in the other."""
    quantity = Quantity(amount.value, amount.unit)
    other = partner(amount.unit)
    return write(quantity) + (f" ({write(convert(quantity, other))})" if other else "")


def _lubricant(oil: Lubricant) -> str:
    return ", ".join(part for part in (oil.grade, oil.service, oil.remark) if part)


def _plain(name: str) -> str:
    return name.replace(".", ", ").replace("-", " ")
