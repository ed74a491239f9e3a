"""One stop of a walk that shows something, with the place where it is written."""

from typing import NamedTuple

from engine.model.place import Place


class Stop(NamedTuple):
    """What is done there, and where a reader finds it.

    >>> print(Stop("raise: done", Place("tree.yaml", 11, 3)))
    raise: done (tree.yaml:11:3)
    """

    said: str
    place: Place

    def __str__(self) -> str:
        return f"{self.said} ({self.place})"
