"""The words of a sheet, a shop document, a rehearsal or a matrix that name something, with their places.

Trees and procedures keep theirs in the model; of these documents only lint wants to know.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Final, NamedTuple

from engine.loading.data import Map, Mark, Seq
from engine.model.tree import Reference, References

#: Keys whose value names something, wherever they stand in a sheet or a shop document.
_LEAVES: Final = frozenset(("source", "unit"))
_SECTIONS: Final = {
    "vehicle": ("limits", "capacities", "lubricants", "torques", "catalogues"),
    "cautions": ("cautions",),
    "gauges": ("gauges",),
    "matrix": ("faults", "setups", "tests"),
}
#: What the names below a section of a matrix are.
_OWN: Final = {"sources": "source", "faults": "fault", "setups": "setup", "tests": "test"}

#: A reference with its kind.
_Found = tuple[str, Reference]


class Naming(NamedTuple):
    """What one document names, and by their kind the names that it defines for itself alone."""

    own: Mapping[str, tuple[str, ...]]
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
    elif kind == "matrix":
        found += (each for test in data["tests"].values() for each in _asked(test))
    own = _OWN if kind == "matrix" else {"sources": "source"}
    return Naming({word: tuple(data.get(key, ())) for key, word in own.items()}, _by_kind(found))


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
            yield from _listed("state", state["excludes"])


def _walk(data: Map) -> Iterator[_Found]:
    yield from (_reference(kind, data[kind], data.marks[kind][1]) for kind in ("tree", "vehicle"))
    for line in data["answers"]:
        if "follow" in line:
            yield _reference("procedure", line["follow"], line.marks["follow"][1])


def _asked(test: Map) -> Iterator[_Found]:
    """What one test of a matrix names."""
    for key, kind in (("needs", "setup"), ("drops", "setup"), ("after", "test"), ("fails", "fault")):
        yield from _listed(kind, test.get(key))
    for named in test.get("outcomes", {}).values():
        yield from _listed("fault", named)
    for fault, marks in test["chances"].marks.items() if "chances" in test else ():
        yield _reference("fault", fault, marks[0])


def _listed(kind: str, names: Seq | None) -> Iterator[_Found]:
    if names:
        yield from (_reference(kind, name, mark) for name, mark in zip(names, names.marks, strict=True))
