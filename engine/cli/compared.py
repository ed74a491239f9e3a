"""A comparison in words and as JSON: what moved first, then what may hurt, then the rest."""

from collections.abc import Iterator, Sequence
from typing import Any, Final

from engine.model.place import Place
from engine.proof.compare.change import Change
from engine.proof.compare.compare import Comparison, Ended
from engine.proof.compare.moves import Line
from engine.proof.compare.paths import Paths

#: Steps of an example that are told in full.
_LONG: Final = 8


def text(compared: Comparison) -> Iterator[str]:
    """The lines for a person."""
    yield from _moved(compared.moved)
    serious = [change for change in compared.changes if change.serious]
    other = [change for change in compared.changes if not change.serious]
    yield from _changes("Look at these:", serious)
    yield from _changes("Also changed:", other)
    for name, paths in compared.paths.items():
        yield from _paths(name, paths)
    moved = len(compared.moved)
    yield f"{_many(moved, 'verdict')} moved, {_many(len(compared.changes), 'other change')}."


def _many(count: int, thing: str) -> str:
    return f"{count} {thing}{'' if count == 1 else 's'}"


def _moved(moved: Sequence[Ended]) -> Iterator[str]:
    before: tuple[Line, ...] = ()
    for number, ended in enumerate(moved, 1):
        new = f"now in `{ended.moved.new}`" if ended.moved.new else "now nowhere"
        yield f"MOVED {number}. {ended.document}: ended in `{ended.moved.old}`, {new}."
        yield f"    on {', '.join(ended.vehicles)}"
        yield from _walk(ended.moved.walk, before)
        yield f"    was: {_place(ended.moved.old_place)}"
        if ended.moved.new:
            yield f"    is:  {_place(ended.moved.new_place)}"
        yield ""
        before = ended.moved.walk


def _walk(walk: Sequence[Line], before: Sequence[Line]) -> Iterator[str]:
    """The numbered lines; the beginning that the walk told before has too is not told again."""
    same = 0
    while same < min(len(walk), len(before)) and walk[same] == before[same]:
        same += 1
    if same > 1:
        yield f"    1-{same}. as before, to `{walk[same - 1].step}`"
    for number, line in enumerate(walk, 1):
        if number > same or same <= 1:
            yield f"    {number}. {line.step}: {line.answer}{_only(line)}  {_place(line.new or line.old)}"


def _only(line: Line) -> str:
    if line.old is None:
        return " (asked only now)"
    return " (no longer asked)" if line.new is None else ""


def _place(place: Place | None) -> str:
    return str(place) if place else "nowhere"


def _changes(title: str, changes: Sequence[Change]) -> Iterator[str]:
    if changes:
        yield title
        for change in changes:
            where = f"{change.document}/{change.step}" if change.step else change.document
            yield f"  {where}: {change.message}  {_place(change.new or change.old)}"
        yield ""


def _paths(name: str, paths: Paths) -> Iterator[str]:
    gained, lost = paths.new - paths.shared, paths.old - paths.shared
    now, was, more, fewer = (_count(number) for number in (paths.new, paths.old, gained, lost))
    yield f"Paths of {name}: {now}, were {was}; {more} gained, {fewer} lost."
    for word, walk in (("gained", paths.gained), ("lost", paths.lost)):
        if walk:
            told = [_answered(line) for line in walk]
            cut = (*told[:2], "...", *told[-5:]) if len(told) > _LONG else told
            yield f"  shortest {word}: {', '.join(cut)}"
    yield ""


def _count(number: int) -> str:
    """A count in full, or its power of two where nobody would read it: `2^99 or more`."""
    return f"{number:,}" if number < 10**15 else f"2^{number.bit_length() - 1} or more"


def _answered(line: Line) -> str:
    return f"{line.step} ({line.answer})" if line.answer else line.step


def data(old: str, new: str, compared: Comparison) -> dict[str, Any]:
    """The same for machines; its shape is told in `engine.cli.compare`."""
    return {
        "format": 1,
        "old": old,
        "new": new,
        "moved": [_ended(ended) for ended in compared.moved],
        "paths": {name: _counted(paths) for name, paths in compared.paths.items()},
        "changes": [
            {
                "serious": change.serious,
                "kind": change.kind,
                "document": change.document,
                "step": change.step,
                "message": change.message,
                "old-place": _where(change.old),
                "new-place": _where(change.new),
            }
            for change in compared.changes
        ],
    }


def _ended(ended: Ended) -> dict[str, Any]:
    moved = ended.moved
    return {
        "document": ended.document,
        "vehicles": list(ended.vehicles),
        "old": moved.old,
        "new": moved.new or None,
        "old-place": _where(moved.old_place),
        "new-place": _where(moved.new_place),
        "walk": _lines(moved.walk),
    }


def _counted(paths: Paths) -> dict[str, Any]:
    return {
        "old": _digits(paths.old),
        "new": _digits(paths.new),
        "shared": _digits(paths.shared),
        "shortest-gained": _lines(paths.gained),
        "shortest-lost": _lines(paths.lost),
    }


def _digits(number: int) -> int | str:
    """The number; as text in base 16 where it is longer than machines take for a number."""
    return number if number.bit_length() <= 53 else hex(number)


def _lines(walk: Sequence[Line]) -> list[dict[str, Any]]:
    return [
        {
            "step": line.step,
            "answer": line.answer,
            "old-place": _where(line.old),
            "new-place": _where(line.new),
        }
        for line in walk
    ]


def _where(place: Place | None) -> str | None:
    return str(place) if place else None
