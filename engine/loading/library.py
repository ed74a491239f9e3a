"""A library: every document of some folders, read, checked against its schema and built."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Final, NamedTuple

from engine.errors import Problem
from engine.loading import build, build_rehearsal, build_shop, build_vehicle, faults, schema
from engine.loading.data import Map
from engine.loading.document import read
from engine.loading.exact import key_at, value_at
from engine.loading.faults import clip
from engine.loading.naming import Naming, naming
from engine.model.place import Place
from engine.model.rehearsal import Rehearsal
from engine.model.shop import Shop
from engine.model.tree import Procedure, Tree
from engine.model.vehicle import Sheet
from engine.nearest import meant

#: The key that begins a document tells its kind.
KINDS: Final = ("tree", "procedure", "vehicle", "rehearsal", "cautions", "states", "gauges", "facts")
_ONE: Final[Mapping[str, Callable[[str, Map], Any]]] = {
    "tree": build.tree,
    "procedure": build.procedure,
    "vehicle": build_vehicle.sheet,
    "rehearsal": build_rehearsal.rehearsal,
}
_MANY: Final[Mapping[str, Callable[[str, Map], Mapping[str, Any]]]] = {
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


class Library(NamedTuple):
    """All documents that were found, by name, and every problem met on the way."""

    trees: Mapping[str, Tree]
    procedures: Mapping[str, Procedure]
    sheets: Mapping[str, Sheet]
    rehearsals: Mapping[str, Rehearsal]
    shop: Shop
    problems: tuple[Problem, ...]
    #: Names that are there but could not be built, as `tree no-rear-drive` or `caution hot-parts`; the
    #: kind alone (`caution`) where not even its names could be read.
    broken: frozenset[str]
    #: The text of every file, by its path inside the library.
    texts: Mapping[str, str]
    #: The path of each document, by `tree no-rear-drive`; of shop documents, by their kind.
    paths: Mapping[str, tuple[str, ...]]
    #: Where each file's places are shown, and its path inside the library.
    shown: Mapping[str, str]
    #: What each sheet, shop document and rehearsal names, by where it is shown; of trusted files nothing.
    namings: Mapping[str, Naming]


@dataclass(slots=True)
class _Shelf:
    """What a library is gathered into."""

    found: dict[str, dict[str, Any]] = field(default_factory=lambda: {kind: {} for kind in KINDS})
    problems: list[Problem] = field(default_factory=list)
    broken: set[str] = field(default_factory=set)
    #: Files that could not be read at all, by what their names say that they hold.
    unread: set[str] = field(default_factory=set)
    texts: dict[str, str] = field(default_factory=dict)
    shown: dict[str, str] = field(default_factory=dict)
    paths: dict[str, list[str]] = field(default_factory=dict)
    namings: dict[str, Naming] = field(default_factory=dict)

    def add(self, file: File) -> None:
        """Read one file and put what it holds on the shelf."""
        while file.path in self.texts:
            # two folders of one name: both texts must last as long as the cases that are opened on them
            file = file._replace(path=f"{file.path}~")
        document = read(file.content, file.shown)
        self.shown[file.shown] = file.path
        self.texts[file.path] = document.text
        self.problems.extend(document.problems)
        if document.data is None:
            self.unread.update(_guessed(file.path))
            return
        kind = next((k for k in document.data if k in _ONE or k in _MANY), None)
        if kind is None:
            self.problems.append(_no_kind(file.shown, document.data))
            return
        wrong = () if file.trusted else schema.check(kind, file.shown, document.data)
        self.problems.extend(wrong)
        if wrong:
            self.broken.update(_named(kind, document.data[kind]))
            return
        put = self._one if kind in _ONE else self._many
        put(kind, file, document.data)
        if not file.trusted and kind not in ("tree", "procedure"):
            self.namings[file.shown] = naming(kind, document.data)

    def _one(self, kind: str, file: File, data: Map) -> None:
        name = data[kind]
        if self._free(kind, name, value_at(file.shown, data, kind), file):
            self.found[kind][name] = _ONE[kind](file.shown, data)
            self.paths[f"{kind} {name}"] = [file.path]

    def _many(self, kind: str, file: File, data: Map) -> None:
        self.paths.setdefault(kind, []).append(file.path)
        for name, value in _MANY[kind](file.shown, data).items():
            if self._free(kind, name, value.place, file):
                self.found[kind][name] = value

    def _free(self, kind: str, name: str, place: Place, file: File) -> bool:
        first = self.found[kind].get(name)
        if first is None or file.trusted:
            return first is None
        message = f"The name `{name}` is already taken at {first.place}."
        self.problems.append(Problem(*place, "name-taken", message, "Give one of the two another name."))
        return False


def _no_kind(file: str, data: Map) -> Problem:
    if not data:
        return faults.EMPTY.at(file, 1, 1)
    first = next(iter(data))
    message = f"`{clip(first)}` begins no kind of document."
    return Problem(*key_at(file, data, first), "unknown-kind", message, meant(clip(first), KINDS))


def _named(kind: str, held: Any) -> Iterator[str]:
    """What a broken document names: itself, or everything in it."""
    if kind in _ONE and isinstance(held, str):
        yield f"{kind} {held}"
    elif kind in _MANY:
        single = kind.removesuffix("s")
        yield from (f"{single} {name}" for name in held) if isinstance(held, Map) else (single,)


def _guessed(path: str) -> Iterator[str]:
    """What an unreadable file would hold: a document has the name of its file."""
    name = path.rpartition("/")[2].rpartition(".")[0]
    yield from (f"{kind} {name}" for kind in _ONE)
    if name in _MANY:
        yield name.removesuffix("s")


def gather(files: Iterable[File]) -> Library:
    """The library that these files make. Pure: what the files hold is all that counts.

    >>> gather([File("a.yaml", "a.yaml", b"tre: x")]).problems[0].cure
    'Did you mean `tree`?'
    """
    shelf = _Shelf()
    for file in files:
        shelf.add(file)
    found = shelf.found
    there = {f"{kind} {name}" for kind in _ONE for name in found[kind]}
    return Library(
        trees=found["tree"],
        procedures=found["procedure"],
        sheets=found["vehicle"],
        rehearsals=found["rehearsal"],
        shop=Shop(found["cautions"], found["states"], found["gauges"], found["facts"]),
        problems=tuple(sorted(shelf.problems)),
        broken=frozenset(shelf.broken | (shelf.unread - there)),
        texts=shelf.texts,
        paths={name: tuple(paths) for name, paths in shelf.paths.items()},
        shown=shelf.shown,
        namings=shelf.namings,
    )
