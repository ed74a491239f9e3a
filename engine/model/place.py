"""Where a value stands in a document."""

from typing import NamedTuple


class Place(NamedTuple):
    """A file with line and column, both counted from 1.

    >>> print(Place("trees/shop/gauges.yaml", 4, 3))
    trees/shop/gauges.yaml:4:3
    """

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"
