"""The words of a sheet, a shop document or a rehearsal that name something, with their places.

Trees and procedures keep theirs in the model; of these documents only lint wants to know.
"""

from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from engine.loading.data import Map, Mark
from engine.model.tree import Reference, References

#: Keys whose value names something, wherever they stand in a sheet or a shop document.
_LEAVES: Final = frozenset(("source", "unit"))
_SECTIONS: Final = {
    "vehicle": ("limits", "capacities", "lubricants", "torques"),
    "cautions": ("cautions",),
    "gauges": ("gauges",),
}

#: A reference with its kind.
_Found = tuple[str, Reference]


class Naming(NamedTuple):
    """What one document names, and the sources that it defines itself."""

    sources: tuple[str, ...]
    references: References


def naming(kind: str, data: Map) -> Naming:
    """Every word of a sound document of this kind that names something."""
    found = [*_below(data, _SECTIONS.get(kind, ()))]
    if kind == "vehicle":
        found += _facts(data["facts"])
    elif kind == "states":
        found += _excluded(data["states"])
    elif kind == "rehearsal":
        found += _walk(data)
    return Naming(tuple(data.get("sources", ())), _by_kind(found))


def _by_kind(found: Iterable[_Found]) -> References:
    out: dict[str, list[Reference]] = {}
    for kind, reference in found:
        out.setdefault(kind, []).append(reference)
    return out


def _reference(kind: str, name: str, mark: Mark) -> _Found:
    return kind, (name, mark.line + 1, mark.column + 1)


def _below(data: Map, keys: tuple[str, ...]) -> Iterator[_Found]:
    for key in keys:
        held = data.get(key)
        if isinstance(held, Map):
            yield from _below(held, tuple(held))
        elif key in _LEAVES and isinstance(held, str):
            yield _reference(key, held, data.marks[key][1])


def _facts(data: Map) -> Iterator[_Found]:
    for fact, value in data.items():
        key, held = data.marks[fact]
        yield _reference("fact", fact, key)
        yield _reference("value", f"{fact}={value}", held)


def _excluded(data: Map) -> Iterator[_Found]:
    for state in data.values():
        if "excludes" in state:
            marks = state["excludes"].marks
            yield from (_reference("state", n, m) for n, m in zip(state["excludes"], marks, strict=True))


def _walk(data: Map) -> Iterator[_Found]:
    yield from (_reference(kind, data[kind], data.marks[kind][1]) for kind in ("tree", "vehicle"))
    for line in data["answers"]:
        if "follow" in line:
            yield _reference("procedure", line["follow"], line.marks["follow"][1])
