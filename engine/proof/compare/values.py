"""What the sheets and the shop say otherwise in another version."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any, Final

from engine.model.place import Place
from engine.model.shop import Shop
from engine.model.vehicle import Amount, Catalogue, Lubricant, Sheet
from engine.proof.compare.change import Change
from engine.quantity import Quantity, write


def sheet_changes(old: Sheet, new: Sheet) -> Iterator[Change]:
    """Every value of a sheet that moved, came or went."""
    if old.title != new.title:
        message = f"Title: {new.title} (was: {old.title})"
        yield Change(False, "title", new.name, "", message, old.place, new.place)  # noqa: FBT003  reason: the first field of a value
    facts = _facts(old), _facts(new)
    for what, was, now in (
        ("fact", *facts),
        ("limit", old.limits, new.limits),
        ("capacity", old.capacities, new.capacities),
        ("lubricant", old.lubricants, new.lubricants),
        ("torque", old.torques, new.torques),
        ("catalogue", old.catalogues, new.catalogues),
    ):
        yield from _values(what, new.name, was, now)


def _facts(sheet: Sheet) -> Mapping[str, tuple[str, Place]]:
    return {fact: (value, sheet.place) for fact, value in sheet.facts.items()}


def _values(what: str, name: str, old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[Change]:
    for key in (*old, *(key for key in new if key not in old)):
        was, now = old.get(key), new.get(key)
        if _bare(was) != _bare(now):
            message = f"The {what} `{key}` {_moved(_bare(was), _bare(now))}."
            yield Change(now is None, what, name, "", message, _place(was), _place(now))


def _moved(old: str, new: str) -> str:
    if not old:
        return f"was added: {new}"
    return f"is {new}, was {old}" if new else f"was removed (was {old})"


def _bare(value: Any) -> str:
    """A value in words without its place and source; empty where there is none."""
    match value:
        case Amount():
            return write(Quantity(value.value, value.unit))
        case Catalogue():
            return ", ".join(write(Quantity(size, value.unit)) for size in value.values)
        case Lubricant():
            return ", ".join(word for word in value[:3] if word)
        case (str(text), Place()):
            return text
        case _:
            return ""


def _place(value: Any) -> Place | None:
    if value is None:
        return None
    found: Place = value[-1]
    return found


#: What of each kind of word of the shop matters to the technician.
_SHOP: Final[tuple[tuple[str, Callable[[Shop], Mapping[str, Any]], Callable[[Any], str]], ...]] = (
    ("caution", lambda shop: shop.cautions, lambda c: f"{c.title}: {c.text}"),
    (
        "state",
        lambda shop: shop.states,
        lambda s: (
            f"{s.title}{', must be cleared' if s.must_clear else ''}"
            f"{', never with ' + ', '.join(s.excludes) if s.excludes else ''}"
        ),
    ),
    (
        "gauge",
        lambda shop: shop.gauges,
        lambda g: (
            f"{g.title}, shows {write(Quantity(g.resolution, g.unit))}, "
            f"uncertain by {write(Quantity(g.uncertainty, g.unit))}"
        ),
    ),
)


def shop_changes(old: Shop, new: Shop) -> Iterator[Change]:
    """Cautions, states and gauges that are told otherwise."""
    for what, of, told in _SHOP:
        was, now = of(old), of(new)
        for key in (*was, *(key for key in now if key not in was)):
            before, after = was.get(key), now.get(key)
            a, b = (told(value) if value else "" for value in (before, after))
            if a != b:
                place = before and before.place, after and after.place
                serious = what != "gauge" and after is None
                yield Change(serious, what, key, "", f"The {what} {_moved(a, b)}.", *place)
