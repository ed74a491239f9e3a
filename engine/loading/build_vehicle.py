"""From the data of a sound vehicle sheet to the model."""

from collections.abc import Mapping

from engine.loading.data import Map
from engine.loading.exact import exact, key_at, value_at
from engine.model.vehicle import Amount, Catalogue, Lubricant, Sheet


def sheet(file: str, data: Map) -> Sheet:
    """The sheet that a sound document describes."""
    return Sheet(
        name=data["vehicle"],
        place=value_at(file, data, "vehicle"),
        title=data["title"],
        revision=data["revision"],
        facts=dict(data["facts"]),
        limits=_limits(file, data.get("limits")),
        capacities=_amounts(file, data.get("capacities")),
        lubricants=_lubricants(file, data.get("lubricants")),
        torques=_amounts(file, data.get("torques")),
        catalogues=_catalogues(file, data.get("catalogues")),
    )


def _catalogues(file: str, data: Map | None) -> Mapping[str, Catalogue]:
    return {
        name: Catalogue(tuple(map(exact, c["are"])), c["unit"], c["source"], key_at(file, data, name))
        for name, c in (data or {}).items()
        if data is not None
    }


def _amounts(file: str, data: Map | None, above: str = "") -> Mapping[str, Amount]:
    return {
        above + name: Amount(exact(a["is"]), a["unit"], a["source"], key_at(file, data, name))
        for name, a in (data or {}).items()
        if data is not None
    }


def _limits(file: str, data: Map | None) -> Mapping[str, Amount]:
    out: dict[str, Amount] = {}
    for unit, items in (data or {}).items():
        for item, bounds in items.items():
            out.update(_amounts(file, bounds, f"{unit}.{item}."))
    return out


def _lubricants(file: str, data: Map | None) -> Mapping[str, Lubricant]:
    return {
        name: Lubricant(o["grade"], o["service"], o.get("remark", ""), o["source"], key_at(file, data, name))
        for name, o in (data or {}).items()
        if data is not None
    }
