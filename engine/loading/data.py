"""Plain YAML data that remembers where each key and value stands."""

from typing import Any, NamedTuple, Protocol

from engine.model.place import Place


class Mark(Protocol):
    """The parser's own mark; lines and columns count from 0."""

    @property
    def line(self) -> int:
        """The line, counted from 0."""

    @property
    def column(self) -> int:
        """The column in characters, counted from 0."""


class Spot(NamedTuple):
    """A mark of our own, where the parser has none."""

    line: int
    column: int


class Map(dict[str, Any]):
    """A mapping; `mark` is its own, `marks` gives for each key the key's mark and its value's.

    Both are set by whoever builds it: a constructor here would cost a tenth of the reading.
    """

    __slots__ = ("mark", "marks")
    mark: Mark
    marks: dict[str, tuple[Mark, Mark]]


class Seq(list[Any]):
    """A sequence; `marks` gives the mark of each item."""

    __slots__ = ("mark", "marks")
    mark: Mark
    marks: list[Mark]


def locate(file: str, root: Map | Seq, path: tuple[str | int, ...], *, key: bool = False) -> Place:
    """The place of the value at a path (of its key, where `key` says so), or of the nearest thing above it.

    >>> m = Map(minutes=3); m.mark = Spot(0, 0); m.marks = {"minutes": (Spot(4, 2), Spot(4, 11))}
    >>> print(locate("a.yaml", m, ("minutes",)), locate("a.yaml", m, ("minutes",), key=True))
    a.yaml:5:12 a.yaml:5:3
    """
    node: Any = root
    mark: Mark = root.mark
    for part in path:
        if isinstance(node, Map) and part in node.marks:
            mark = node.marks[str(part)][0 if key and part == path[-1] else 1]
        elif isinstance(node, Seq) and isinstance(part, int) and part < len(node.marks):
            mark = node.marks[part]
        else:
            break
        node = node[part]
    return Place(file, mark.line + 1, mark.column + 1)
