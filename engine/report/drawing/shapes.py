"""The outline of each kind of card, so that they tell apart without any colour."""

from engine.report.drawing.chart import Kind


def outline(kind: Kind, grade: str, width: float, height: float) -> str:
    """The path around a card of this size, from its left upper corner.

    do: square corners. ask: round corners. sort: points to both sides. verdicts: repair cut at all corners,
    adjust at two, no fault with round ends, refer a point that leads away.
    """
    cut = min(14.0, height / 3)
    match kind, grade:
        case "ask", _:
            return _round(width, height, cut)
        case "sort", _:
            return _closed(
                (cut, 0),
                (width - cut, 0),
                (width, height / 2),
                (width - cut, height),
                (cut, height),
                (0, height / 2),
            )
        case "verdict", "repair":
            return _closed(
                (cut, 0), (width - cut, 0), (width, cut), (width, height - cut),
                (width - cut, height), (cut, height), (0, height - cut), (0, cut),
            )  # fmt: skip
        case "verdict", "adjust":
            return _closed(
                (cut, 0), (width, 0), (width, height - cut), (width - cut, height), (0, height), (0, cut)
            )
        case ("verdict", "no-fault") | ("outcome", _):
            return _round(width, height, min(26.0, height / 2))
        case "verdict", "refer":
            return _closed((0, 0), (width - cut, 0), (width, height / 2), (width - cut, height), (0, height))
        case _:
            return _closed((0, 0), (width, 0), (width, height), (0, height))


def inner(kind: Kind, grade: str, width: float, height: float) -> str:
    """What is drawn inside the outline: graduations of a gauge, the sides of a procedure, a second edge."""
    match kind, grade:
        case "measure", _:
            return "".join(_tick(number, width) for number in range(1, int((width - 4) // 8)))
        case "run", _:
            return f"M7,0V{number(height)}M{number(width - 7)},0V{number(height)}"
        case "missing", _:
            return f"M0,0L{number(width)},{number(height)}M0,{number(height)}L{number(width)},0"
        case _:
            return ""


def number(value: float) -> str:
    """A number as short as it can be written.

    >>> number(12.0), number(0.5)
    ('12', '0.5')
    """
    return f"{round(value, 1):g}" if abs(value) < 100_000 else f"{value:.1f}"


def _tick(count: int, width: float) -> str:
    long = 9 if count % 5 == 0 else 5
    return f"M{number(2 + 8 * count)},0V{min(long, width)}"


def _closed(*points: tuple[float, float]) -> str:
    return "M" + "L".join(f"{number(x)},{number(y)}" for x, y in points) + "Z"


def _round(width: float, height: float, radius: float) -> str:
    r, w, h = number(radius), number(width), number(height)
    right, low = number(width - radius), number(height - radius)
    turn = f"A{r},{r} 0 0 1 "
    return f"M{r},0H{right}{turn}{w},{r}V{low}{turn}{right},{h}H{r}{turn}0,{low}V{r}{turn}{r},0Z"
