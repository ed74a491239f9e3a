"""A band in words: its limits, as numbers where they are known, and what it means."""

from engine.model.tree import Band, Limit
from engine.model.vehicle import Sheet
from engine.quantity import Quantity, write


def words(band: Band, unit: str, sheet: Sheet | None) -> str:
    """The limits and the meaning of a band; a limit of the sheet by its number where there is a sheet.

    A number of the sheet stands in the sheet's own unit, as the technician finds it there.
    """
    ends: list[str] = []
    if band.low is not None:
        ends.append(f"{'from' if band.low.owned else 'over'} {_limit(band.low, unit, sheet)}")
    if band.high is not None:
        ends.append(f"{'up to' if band.high.owned else 'below'} {_limit(band.high, unit, sheet)}")
    limits = ", ".join(ends)
    return f"{limits}: {band.say}" if band.say else limits


def _limit(limit: Limit, unit: str, sheet: Sheet | None) -> str:
    if limit.value is not None:
        return write(Quantity(limit.value, unit))
    name = limit.sheet or ""
    if sheet is None or name not in sheet.limits:
        return f"the sheet's {name}"
    amount = sheet.limits[name]
    return write(Quantity(amount.value, amount.unit))
