"""Numbers of a document as exact fractions, and the places of their keys."""

from fractions import Fraction
from functools import lru_cache

from engine.loading.data import Map, Mark, Seq
from engine.model.place import Place


@lru_cache(maxsize=4096)  # the same few numbers stand in every document, and a fraction is slow to make
def exact(number: float) -> Fraction:
    """The number as written: a float's shortest form is what the author typed, up to 15 digits.

    >>> exact(0.2) == Fraction(1, 5)
    True
    """
    return Fraction(number) if isinstance(number, int) else Fraction(repr(number))


def at(file: str, mark: Mark) -> Place:
    """The place of a mark."""
    return Place(file, mark.line + 1, mark.column + 1)


def value_at(file: str, holder: Map, key: str) -> Place:
    """The place of the value under a key."""
    return at(file, holder.marks[key][1])


def key_at(file: str, holder: Map, key: str) -> Place:
    """The place of a key."""
    return at(file, holder.marks[key][0])


def item_at(file: str, holder: Seq, index: int) -> Place:
    """The place of an item of a list."""
    return at(file, holder.marks[index])
