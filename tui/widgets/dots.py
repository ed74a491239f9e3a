"""A picture of dots, eight to a character cell, and the ticks of its axes."""

from collections.abc import Sequence
from math import ceil, floor, log10
from typing import Final

#: Dots of a cell across and down, and the first sign of the block that has one for every pattern of them.
ACROSS: Final = 2
DOWN: Final = 4
_BLANK: Final = 0x2800
#: The bit of each dot of a cell, by row and column.
_BITS: Final = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))


class Dots:
    """A field of dots, counted from its upper left.

    >>> field = Dots(2, 1)
    >>> field.line(0, 3, 3, 0)
    >>> field.rows()
    ['⡠⠊']
    """

    def __init__(self, width: int, height: int) -> None:
        self.width = width
        self.height = height
        self._cells = [[0] * width for _ in range(height)]

    def dot(self, x: int, y: int) -> None:
        """Set a dot; one that lies outside is left out."""
        if 0 <= x < self.width * ACROSS and 0 <= y < self.height * DOWN:
            self._cells[y // DOWN][x // ACROSS] |= _BITS[y % DOWN][x % ACROSS]

    def line(self, x: int, y: int, to_x: int, to_y: int) -> None:
        """Set the dots from one place to another."""
        steps = max(abs(to_x - x), abs(to_y - y), 1)
        for k in range(steps + 1):
            self.dot(round(x + (to_x - x) * k / steps), round(y + (to_y - y) * k / steps))

    def rows(self) -> list[str]:
        """The field as lines of signs; a cell without a dot is a space."""
        return ["".join(chr(_BLANK + cell) if cell else " " for cell in row) for row in self._cells]


def ticks(low: float, high: float, most: int) -> Sequence[float]:
    """Round numbers from `low` to `high`, no more than `most` of them, at even distances.

    >>> ticks(0, 5, 6), ticks(0, 809, 5)
    ((0.0, 1.0, 2.0, 3.0, 4.0, 5.0), (0.0, 200.0, 400.0, 600.0, 800.0))
    """
    if not high > low:
        return (float(low),)
    ten = 10.0 ** (floor(log10((high - low) / max(1, most))) - 1)
    steps = (ten * by * 10**power for power in range(5) for by in (1, 2, 5))
    step = next(step for step in steps if floor(high / step) - ceil(low / step) + 1 <= max(1, most))
    return tuple(k * step for k in range(ceil(low / step), floor(high / step) + 1))


def short(number: float) -> str:
    """A number as an axis shows it: four digits at most, thousands by a k.

    >>> short(0), short(0.25), short(1500), short(20000), short(-3e6)
    ('0', '0.25', '1500', '20k', '-3M')
    """
    for least, sign in ((1e6, "M"), (1e4, "k")):
        if abs(number) >= least:
            return f"{number / (1e6 if sign == 'M' else 1e3):.4g}{sign}"
    return f"{number:.4g}"
