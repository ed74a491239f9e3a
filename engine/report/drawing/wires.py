"""Wires as paths: rounded at their bends, with an arrow where they come to a card."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

from engine.report.drawing.picture import Point
from engine.report.drawing.shapes import number

_BEND = 9.0


def path(points: Sequence[Point]) -> str:
    """The path along the points, its corners rounded."""
    corners = [_corner(*three) for three in zip(points, points[1:], points[2:], strict=False)]
    return "".join((f"M{_at(points[0])}", *corners, f"L{_at(points[-1])}"))


def arrow(points: Sequence[Point], size: float) -> str:
    """The arrow at the end of the points."""
    before, end = next(
        ((a, b) for a, b in reversed(list(pairwise(points))) if a != b), (points[0], points[-1])
    )
    x, y = _towards(end, before)
    foot = Point(end.x + x * size, end.y + y * size)
    sides = (
        Point(foot.x - y * size / 2, foot.y + x * size / 2),
        Point(foot.x + y * size / 2, foot.y - x * size / 2),
    )
    return f"M{_at(end)}L{_at(sides[0])}L{_at(sides[1])}Z"


def _corner(before: Point, corner: Point, after: Point) -> str:
    reach = min(_BEND, *(hypot(corner.x - p.x, corner.y - p.y) / 2 for p in (before, after)))
    begin, end = (_along(corner, point, reach) for point in (before, after))
    return f"L{_at(begin)}Q{_at(corner)} {_at(end)}"


def _along(start: Point, goal: Point, reach: float) -> Point:
    x, y = _towards(start, goal)
    return Point(start.x + x * reach, start.y + y * reach)


def _towards(start: Point, goal: Point) -> tuple[float, float]:
    """The direction from one point to another, of length 1; none where they are one."""
    far = hypot(goal.x - start.x, goal.y - start.y) or 1.0
    return (goal.x - start.x) / far, (goal.y - start.y) / far


def _at(point: Point) -> str:
    return f"{number(point.x)},{number(point.y)}"
