"""The walks that a library's rehearsals leave out: as few as will go every way that is left."""

from collections.abc import Iterable, Iterator, Mapping
from math import inf
from typing import NamedTuple

from engine.loading.library import Library
from engine.proof.drafts.standings import Edge, Goal, Standing, Standings, costs, route, standings
from engine.proof.drafts.ways import Visit
from engine.proof.first_walk import FirstWalk


class Draft(NamedTuple):
    """A rehearsal to be: the vehicle, the walk, and the way out that it was made for."""

    vehicle: str
    walk: FirstWalk
    meant: Visit


def drafted(library: Library, tree: str, vehicles: Iterable[str], done: frozenset[Goal]) -> Iterator[Draft]:
    """Walks that do all that is not done yet, the deepest first, shared among the vehicles."""
    maps = {vehicle: standings(library, tree, vehicle) for vehicle in vehicles}
    depths = {vehicle: costs(within, within.begin, frozenset()) for vehicle, within in maps.items()}
    goals = {vehicle: _goals(within, done) for vehicle, within in maps.items()}
    made = dict.fromkeys(maps, 0)
    while any(goals.values()):
        vehicle = min((each for each in maps if goals[each]), key=lambda each: made[each])
        meant, walk = _deepest(maps[vehicle], depths[vehicle], goals[vehicle])
        gone = _gone(maps[vehicle], walk)
        goals = {each: left - gone for each, left in goals.items()}
        made[vehicle] += 1
        yield Draft(vehicle, _script(maps[vehicle], walk), meant)


def _goals(within: Standings, done: frozenset[Goal]) -> frozenset[Goal]:
    """All that can be visited and tried on this vehicle and is not yet."""
    ways = (goal for edges in within.onward.values() for edge in edges for goal in edge.goals if goal[0][2])
    return frozenset((*ways, *map(_end, within.verdicts.values()))) - done


def _deepest(
    within: Standings, depth: Mapping[Standing, float], left: frozenset[Goal]
) -> tuple[Visit, tuple[Edge, ...]]:
    """The walk to the goal that lies furthest in, by as many others as will, and on to a verdict."""
    to = max(_nearest(within, depth, left).values(), key=lambda edge: depth[edge.origin], default=None)
    nearest = {name: spot for spot, name in sorted(within.verdicts.items(), key=lambda end: -depth[end[0]])}
    ends = (spot for name, spot in nearest.items() if _end(name) in left)
    end = max(ends, key=lambda spot: depth[spot], default=None)
    if to is None or (end is not None and depth[end] > depth[to.origin]):
        assert end is not None, "called with something left"
        return ("", within.verdicts[end], ""), _by(within, end, left)
    before = _by(within, to.origin, left)
    onward = costs(within, to.target, left)
    stop = min(within.verdicts, key=lambda spot: onward.get(spot, inf))
    return _visit(to), (*before, to, *route(within, to.target, stop, left))


def _nearest(within: Standings, depth: Mapping[Standing, float], left: frozenset[Goal]) -> dict[Goal, Edge]:
    """For each goal that is left, the way to it that lies least far in: no walk makes a detour to be deep."""
    found: dict[Goal, Edge] = {}
    for edge in (edge for edges in within.onward.values() for edge in edges):
        for goal in edge.goals & left:
            held = found.setdefault(goal, edge)
            if depth[edge.origin] < depth[held.origin]:
                found[goal] = edge
    return found


def _by(within: Standings, to: Standing, left: frozenset[Goal]) -> tuple[Edge, ...]:
    return route(within, within.begin, to, left)


def _gone(within: Standings, walk: tuple[Edge, ...]) -> frozenset[Goal]:
    """What a walk does: every way, the limits that it tries, and the verdicts that it stands at."""
    ends = (_end(within.verdicts[edge.target]) for edge in walk if edge.target in within.verdicts)
    return frozenset().union(ends, *(edge.goals for edge in walk))


def _end(verdict: str) -> Goal:
    return ("", verdict, ""), None


def _visit(edge: Edge) -> Visit:
    return next(visit for visit, _ in edge.goals)


def _script(within: Standings, walk: tuple[Edge, ...]) -> FirstWalk:
    lines = tuple(edge.line for edge in walk if edge.line)
    verdict = within.verdicts[walk[-1].target] if walk else ""
    return FirstWalk(lines, verdict)
