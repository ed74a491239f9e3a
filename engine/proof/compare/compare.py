"""Two versions of a library, compared for the technician."""

from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet
from itertools import chain
from typing import NamedTuple

from engine.errors import Failure
from engine.graph.view import called, entered
from engine.lint.rule import Scope, suits
from engine.loading.library import Library
from engine.model.tree import Document, Procedure, Tree
from engine.model.vehicle import Sheet
from engine.proof.compare.align import Alignment, align
from engine.proof.compare.change import Change
from engine.proof.compare.documents import document_changes
from engine.proof.compare.moves import Moved, Walks
from engine.proof.compare.paths import Paths, paths
from engine.proof.compare.side import Key, Names, Side
from engine.proof.compare.steps import Sheets
from engine.proof.compare.values import sheet_changes, shop_changes


class Version(NamedTuple):
    """One version: a library, and the documents of it that are compared, as `tree no-rear-drive`."""

    library: Library
    names: frozenset[str]


class Ended(NamedTuple):
    """A verdict that moved, with the vehicles on which it did."""

    document: str
    vehicles: tuple[str, ...]
    moved: Moved


class Comparison(NamedTuple):
    """All that changed, most important first."""

    moved: tuple[Ended, ...]
    #: By document; only where a path was gained or lost.
    paths: Mapping[str, Paths]
    changes: tuple[Change, ...]


class _Twin(NamedTuple):
    """A document in both versions."""

    old: Document
    new: Document
    #: Whether its text changed, and not only something that it leans on.
    changed: bool


def compare(old: Version, new: Version) -> Comparison:
    """Compare two versions; raises Failure where a document of them cannot be walked."""
    twins = tuple(_twins(old, new))
    same = _unchanged(old.library, new.library)
    moved = [ended for twin in twins for ended in _moved(old.library, new.library, twin, same)]
    moved += _lost(old, new)
    gone = tuple(_gone(old, new))
    changes = tuple(chain(gone, _changes(old, new, twins)))
    counted = {_title(t.new): _paths(t) for t in twins if t.changed}
    return Comparison(
        tuple(moved),
        {name: found for name, found in counted.items() if found.gained or found.lost},
        tuple(sorted(changes, key=lambda change: not change.serious)),
    )


def _title(document: Document) -> str:
    return f"{_kind(document)} {document.name}"


def _kind(document: Document) -> str:
    return "procedure" if isinstance(document, Procedure) else "tree"


def _held(library: Library, name: str) -> Document | None:
    kind, _, own = name.partition(" ")
    if kind == "tree":
        return library.trees.get(own)
    return library.procedures.get(own) if kind == "procedure" else None


def _twins(old: Version, new: Version) -> Iterator[_Twin]:
    for was, now in _pairs(old, new):
        a, b = _held(old.library, was), _held(new.library, now)
        if a is not None and b is not None:
            changed = _text(old.library, was) != _text(new.library, now)
            yield _Twin(a, b, changed)


def _pairs(old: Version, new: Version) -> Iterator[tuple[str, str]]:
    """The names of the documents that are compared with each other.

    Where no tree is among them, every tree is, since it may lean on what is.
    """
    was, now = set(old.names), set(new.names)
    if not any(name.startswith("tree ") for name in was | now):
        was |= {f"tree {name}" for name in old.library.trees}
        now |= {f"tree {name}" for name in new.library.trees}
    both = sorted(was & now)
    yield from ((name, name) for name in both)
    if not both or len(was) == len(now) == 1:
        for kind in ("tree ", "procedure ", "vehicle "):
            a = [name for name in was - now if name.startswith(kind)]
            b = [name for name in now - was if name.startswith(kind)]
            if len(a) == len(b) == 1:
                yield a[0], b[0]


def _text(library: Library, name: str) -> tuple[str, ...]:
    return tuple(library.texts[path] for path in library.paths.get(name, ()))


def _gone(old: Version, new: Version) -> Iterator[Change]:
    """Documents that came or went."""
    paired = tuple(_pairs(old, new))
    was, now = {a for a, _ in paired}, {b for _, b in paired}
    for name in sorted(old.names - was):
        document = _held(old.library, name)
        place = document.place if document else None
        yield Change(True, "document-removed", name, "", f"The {name} is no longer there.", place, None)  # noqa: FBT003  reason: the first field of a value
    for name in sorted(new.names - now):
        document = _held(new.library, name)
        place = document.place if document else None
        yield Change(False, "document-added", name, "", f"The {name} is new.", None, place)  # noqa: FBT003  reason: the first field of a value


def _changes(old: Version, new: Version, twins: tuple[_Twin, ...]) -> Iterator[Change]:
    sheets = _sheets(old.library, new.library)
    lean = any(
        _text(old.library, f"vehicle {a.name}") != _text(new.library, f"vehicle {b.name}") for a, b in sheets
    )
    for twin in twins:
        if twin.changed or lean:
            own = [pair for pair in sheets if suits_both(twin, pair)]
            yield from document_changes(twin.old, twin.new, align(twin.old, twin.new), own)
    for was, now in _pairs(old, new):
        a, b = (
            old.library.sheets.get(was.removeprefix("vehicle ")),
            new.library.sheets.get(now.removeprefix("vehicle ")),
        )
        if was.startswith("vehicle ") and a and b:
            yield from sheet_changes(a, b)
    if "shop" in old.names and "shop" in new.names:
        yield from shop_changes(old.library.shop, new.library.shop)


def suits_both(twin: _Twin, sheets: Sheets) -> bool:
    """Whether each version of a document is for the vehicle as its own version describes it."""
    return _suits(twin.old, sheets[0]) and _suits(twin.new, sheets[1])


def _suits(document: Document, sheet: Sheet) -> bool:
    if isinstance(document, Tree):
        return suits(document, sheet) == ()
    return all(sheet.facts.get(fact) in values for fact, values in document.facts.items())


def _sheets(old: Library, new: Library) -> tuple[Sheets, ...]:
    return tuple((sheet, new.sheets[name]) for name, sheet in old.sheets.items() if name in new.sheets)


def _lost(old: Version, new: Version) -> Iterator[Ended]:
    """The trees that are no longer there: every verdict of theirs is now nowhere."""
    paired = {name for name, _ in _pairs(old, new)}
    for name in sorted(old.names - paired):
        document = _held(old.library, name)
        if isinstance(document, Tree):
            vehicles = tuple(n for n, sheet in old.library.sheets.items() if _suits(document, sheet))
            yield Ended(name, vehicles, Moved("any verdict", "", document.place, None, ()))


def _moved(old: Library, new: Library, twin: _Twin, same: AbstractSet[str]) -> Iterator[Ended]:
    """The moved verdicts of a document on every vehicle that both versions are for, and on which one was."""
    if _alike(old, new, twin, same):
        return
    for library, document in ((old, twin.old), (new, twin.new)):
        _walkable(library, document)
    aligned = _aligned(old, new, twin)
    found: dict[tuple[str, str], tuple[list[str], Moved]] = {}
    for sheets in _sheets(old, new):
        if not _suits(twin.old, sheets[0]):
            continue
        for moved in _on(old, new, _Course(twin, aligned, same), sheets):
            vehicles, shortest = found.setdefault((moved.old, moved.new), ([], moved))
            vehicles.append(sheets[0].name)
            if len(moved.walk) < len(shortest.walk):
                found[moved.old, moved.new] = (vehicles, moved)
    for vehicles, moved in found.values():
        yield Ended(_title(twin.new), tuple(vehicles), moved)


class _Course(NamedTuple):
    """What all vehicles share of a comparison."""

    twin: _Twin
    aligned: Mapping[str, Alignment]
    same: AbstractSet[str]


def _on(old: Library, new: Library, course: _Course, sheets: Sheets) -> tuple[Moved, ...]:
    """The moved verdicts on one vehicle."""
    twin, aligned, unchanged = course
    if not _suits(twin.new, sheets[1]):
        return (Moved("any verdict", "", twin.old.place, twin.new.place, ()),)
    limits = tuple({n: (a.value, a.unit) for n, a in sheet.limits.items()} for sheet in sheets)
    like = limits[0] == limits[1] and sheets[0].facts == sheets[1].facts
    whole = frozenset(unchanged if like else ())
    numbers: dict[Key, int] = {}
    back = {name: {b: a for a, b in one.steps.items()} for name, one in aligned.items()}
    was = Side(twin.old, old.procedures, sheets[0], whole, Names({}, numbers))
    now = Side(twin.new, new.procedures, sheets[1], whole, Names(back, numbers))
    return Walks(was, now, aligned).moved()


def _alike(old: Library, new: Library, twin: _Twin, procedures: AbstractSet[str]) -> bool:
    """Whether nothing that a walk through the document may meet has changed."""
    if twin.changed:
        return False
    names = {*entered(twin.old, old.procedures), *entered(twin.new, new.procedures)}
    return names <= procedures and all(
        _text(old, f"vehicle {a.name}") == _text(new, f"vehicle {b.name}") for a, b in _sheets(old, new)
    )


def _unchanged(old: Library, new: Library) -> frozenset[str]:
    """The procedures that are the same in both versions, whatever they run included."""
    same = {n for n in old.procedures if n in new.procedures and _same(old, new, f"procedure {n}")}
    return frozenset(n for n in same if _whole(old, n, same))


def _whole(library: Library, name: str, same: AbstractSet[str]) -> bool:
    """Whether all that a procedure may run is there and the same."""
    inner = (name, *entered(library.procedures[name], library.procedures))
    steps = (step for each in inner for step in library.procedures[each].steps.values())
    return all(run in same for step in steps for run in called(step))


def _same(old: Library, new: Library, name: str) -> bool:
    return _text(old, name) == _text(new, name)


def _aligned(old: Library, new: Library, twin: _Twin) -> Mapping[str, Alignment]:
    nothing = Alignment({}, {})
    names = {*entered(twin.old, old.procedures), *entered(twin.new, new.procedures)}
    found = {
        name: align(old.procedures[name], new.procedures[name])
        if name in old.procedures and name in new.procedures
        else nothing
        for name in names
    }
    return found | {"": align(twin.old, twin.new)}


def _walkable(library: Library, document: Document) -> None:
    scope = Scope(library)
    inner = (library.procedures[name] for name in entered(document, library.procedures))
    for each in (document, *inner):
        if not scope.ends(each):
            raise Failure(f"{each.place}: `{each.name}` goes round in a circle.", "Lint it, then compare.")
    if not scope.procedures_end:
        raise Failure(
            f"{document.place}: a procedure of `{document.name}` runs itself.", "Lint it, then compare."
        )


def _paths(twin: _Twin) -> Paths:
    return paths(twin.old, twin.new, align(twin.old, twin.new))
