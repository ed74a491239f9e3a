"""One file by itself: read, checked against its schema and built, without a look at any other.

What a file holds depends on its bytes alone, so files may be read in any order, or by several processes.
"""

from collections.abc import Callable, Iterator, Mapping
from typing import Any, Final, NamedTuple

from engine.errors import Problem
from engine.loading import build, build_matrix, build_rehearsal, build_shop, build_vehicle, faults, schema
from engine.loading.data import Map
from engine.loading.document import read
from engine.loading.exact import key_at, value_at
from engine.loading.faults import clip
from engine.loading.naming import Naming, naming
from engine.model.acceptance import Acceptance
from engine.model.place import Place
from engine.nearest import meant

#: The key that begins a document tells its kind.
KINDS: Final = (
    "tree",
    "procedure",
    "vehicle",
    "rehearsal",
    "matrix",
    "cautions",
    "states",
    "gauges",
    "facts",
)
ONE: Final[Mapping[str, Callable[[str, Map], Any]]] = {
    "tree": build.tree,
    "procedure": build.procedure,
    "vehicle": build_vehicle.sheet,
    "rehearsal": build_rehearsal.rehearsal,
    "matrix": build_matrix.matrix,
}
MANY: Final[Mapping[str, Callable[[str, Map], Mapping[str, Any]]]] = {
    "cautions": build_shop.cautions,
    "states": build_shop.states,
    "gauges": build_shop.gauges,
    "facts": build_shop.facts,
}


class File(NamedTuple):
    """One file of a library: how its place is shown, its path inside the library, its bytes."""

    shown: str
    path: str
    content: bytes
    #: Checked when it was released (or when its case was opened): the schema need not decide again,
    #: and must not, lest a schema of today refuse a record of yesterday. Where a name is taken by an
    #: earlier document under review, a trusted one makes way.
    trusted: bool = False
    #: The pictures that it names and that are there, as it names them.
    pictures: frozenset[str] = frozenset()


class Held(NamedTuple):
    """Something that a file defines: its name, the place of its name, itself."""

    name: str
    place: Place
    value: Any


class Leaf(NamedTuple):
    """What one file holds, as far as it can be said without the others."""

    shown: str
    path: str
    trusted: bool
    text: str
    problems: tuple[Problem, ...]
    #: Empty where not even the kind could be told.
    kind: str = ""
    held: tuple[Held, ...] = ()
    #: Names that are there but could not be built, as `tree no-rear-drive` or `caution hot-parts`; the
    #: kind alone (`caution`) where not even its names could be read.
    broken: tuple[str, ...] = ()
    #: What the name of a file says that it holds, where it could not be read at all.
    unread: tuple[str, ...] = ()
    #: What a sheet, shop document, rehearsal or matrix names; of trusted files nothing.
    naming: Naming | None = None
    #: What lint may find in it, by its author's leave.
    accepted: tuple[Acceptance, ...] = ()
    #: The pictures that it names and that are there.
    pictures: frozenset[str] = frozenset()


def leaf(file: File) -> Leaf:
    """Read one file. Never raises, whatever its bytes.

    >>> leaf(File("a.yaml", "a.yaml", b"tre: x")).problems[0].cure
    'Did you mean `tree`?'
    """
    document = read(file.content, file.shown)
    bare = Leaf(file.shown, file.path, file.trusted, document.text, document.problems, pictures=file.pictures)
    if document.data is None:
        return bare._replace(unread=tuple(_guessed(file.path)))
    kind = next((k for k in document.data if k in ONE or k in MANY), None)
    if kind is None:
        return bare._replace(problems=(*document.problems, _no_kind(file.shown, document.data)))
    wrong = () if file.trusted else schema.check(kind, file.shown, document.data)
    if wrong:
        problems = (*document.problems, *wrong)
        return bare._replace(kind=kind, problems=problems, broken=tuple(_named(kind, document.data[kind])))
    return bare._replace(
        kind=kind,
        held=tuple(_built(kind, file.shown, document.data)),
        naming=None if file.trusted or kind in ("tree", "procedure") else naming(kind, document.data),
        accepted=tuple(_accepted(file.shown, document.data)),
    )


def _built(kind: str, shown: str, data: Map) -> Iterator[Held]:
    if kind in ONE:
        yield Held(data[kind], value_at(shown, data, kind), ONE[kind](shown, data))
    else:
        for name, value in MANY[kind](shown, data).items():
            yield Held(name, value.place, value)


def _accepted(shown: str, data: Map) -> Iterator[Acceptance]:
    for each in data.get("accept", ()):
        yield Acceptance(value_at(shown, each, "rule"), each["rule"], each.get("step", ""), each["reason"])


def _no_kind(file: str, data: Map) -> Problem:
    if not data:
        return faults.EMPTY.at(file, 1, 1)
    first = next(iter(data))
    message = f"`{clip(first)}` begins no kind of document."
    return Problem(*key_at(file, data, first), "unknown-kind", message, meant(clip(first), KINDS))


def _named(kind: str, held: Any) -> Iterator[str]:
    """What a broken document names: itself, or everything in it."""
    if kind in ONE and isinstance(held, str):
        yield f"{kind} {held}"
    elif kind in MANY:
        single = kind.removesuffix("s")
        yield from (f"{single} {name}" for name in held) if isinstance(held, Map) else (single,)


def _guessed(path: str) -> Iterator[str]:
    """What an unreadable file would hold: a document has the name of its file."""
    name = path.rpartition("/")[2].rpartition(".")[0]
    yield from (f"{kind} {name}" for kind in ONE)
    if name in MANY:
        yield name.removesuffix("s")
