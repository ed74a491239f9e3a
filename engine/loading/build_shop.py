"""From the data of sound cautions, states, gauges and facts to the model."""

from collections.abc import Mapping
from typing import Any

from engine.loading.data import Map
from engine.loading.exact import exact, key_at
from engine.model.place import Place
from engine.model.shop import Caution, Fact, Gauge, State


def cautions(file: str, data: Map) -> Mapping[str, Caution]:
    """Each caution by its name."""
    held: Map = data["cautions"]
    return {n: _caution(n, c, key_at(file, held, n)) for n, c in held.items()}


def _caution(name: str, data: dict[str, Any], place: Place) -> Caution:
    return Caution(name, data["title"], data["text"], data["source"], place, tuple(data.get("words", ())))


def states(file: str, data: Map) -> Mapping[str, State]:
    """Each state by its name."""
    held: Map = data["states"]
    return {
        n: State(
            n, s["title"], bool(s.get("must-clear")), tuple(s.get("excludes", ())), key_at(file, held, n)
        )
        for n, s in held.items()
    }


def gauges(file: str, data: Map) -> Mapping[str, Gauge]:
    """Each gauge by its name."""
    held: Map = data["gauges"]
    return {n: _gauge(n, g, file, held) for n, g in held.items()}


def _gauge(name: str, data: dict[str, Any], file: str, held: Map) -> Gauge:
    return Gauge(
        name=name,
        title=data["title"],
        unit=data["unit"],
        resolution=exact(data["resolution"]),
        uncertainty=exact(data["uncertainty"]),
        source=data["source"],
        place=key_at(file, held, name),
    )


def facts(file: str, data: Map) -> Mapping[str, Fact]:
    """Each fact by its name."""
    held: Map = data["facts"]
    return {n: Fact(n, f["title"], dict(f["values"]), key_at(file, held, n)) for n, f in held.items()}
