"""The sources map that any document may have."""

from collections.abc import Mapping

from engine.loading.data import Map
from engine.loading.exact import key_at
from engine.model.tree import Source


def sources(file: str, data: Map | None) -> Mapping[str, Source]:
    """Each source by its name."""
    if data is None:
        return {}
    return {n: Source(n, s["kind"], s.get("cite", ""), key_at(file, data, n)) for n, s in data.items()}
