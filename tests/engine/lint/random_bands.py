"""Random measuring nodes as a person writes them: a plausible range and bands with open and closed ends.

The numbers are few, so that limits fall on each other, on the ends of the range and beyond it; tenths and
thirds are among them, which binary fractions do not hold.
"""

from fractions import Fraction
from random import Random
from typing import Final, NamedTuple

#: A limit as it is written: `from`, `over`, `upto` or `below`, and the number or reference behind it.
Written = tuple[str, str]

TENTHS: Final = ("-0.5", "0", "0.1", "0.2", "0.30", "0.5", "0.7", "1", "1.1", "2", "2.54", "3", "5.5")
THIRDS: Final = (*TENTHS, "1/3", "2/3", "4/3", "-1/3", "1/5", "254/100")
#: Mostly wider than the limits; some cut limits off, and one is a single number.
_RANGES: Final = (*((("-1", "6"),) * 5), ("-0.5", "5.5"), ("0", "2"), ("0.1", "1.1"), ("0.5", "0.5"))


class Node(NamedTuple):
    """One node: the least and greatest plausible number, and for each band its limits."""

    low: str
    high: str
    bands: tuple[tuple[Written | None, Written | None], ...]


def node(random: Random, numbers: tuple[str, ...], *, bare: bool = True) -> Node:
    """A node of up to six bands: most of them parted at the same numbers, the rest as chance has it.

    `bare` allows a band without a limit.
    """
    low, high = random.choice(_RANGES)
    bands = _parted(random, numbers) if random.random() < 0.7 else _scattered(random, numbers, bare=bare)
    return Node(low, high, tuple(bands))


def _scattered(
    random: Random, numbers: tuple[str, ...], *, bare: bool
) -> list[tuple[Written | None, Written | None]]:
    bands = [(_begin(random, numbers), _end(random, numbers)) for _ in range(random.randint(1, 4))]
    return [band if bare or any(band) else (None, ("upto", numbers[-1])) for band in bands]


def _parted(random: Random, numbers: tuple[str, ...]) -> list[tuple[Written | None, Written | None]]:
    """Bands that follow each other, whose shared limits are owned by one, by both or by neither."""
    cuts = sorted(random.sample(numbers, random.randint(1, 5)), key=_size)
    begins = [None, *((random.choice(("from", "over")), cut) for cut in cuts)]
    ends = [*((random.choice(("upto", "below")), cut) for cut in cuts), None]
    bands = list(zip(begins, ends, strict=True))
    if random.random() < 0.2:
        random.shuffle(bands)
    return bands


def _begin(random: Random, numbers: tuple[str, ...]) -> Written | None:
    return (random.choice(("from", "over")), random.choice(numbers)) if random.random() < 0.8 else None


def _end(random: Random, numbers: tuple[str, ...]) -> Written | None:
    return (random.choice(("upto", "below")), random.choice(numbers)) if random.random() < 0.8 else None


def _size(text: str) -> Fraction:
    """The number that is written; the sheet's, whatever it is, has its place in the midst."""
    return Fraction(2) if text.startswith("sheet") else Fraction(text)
