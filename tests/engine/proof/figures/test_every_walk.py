"""The figures of small random trees, against every walk through them taken one by one."""

from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from typing import Final

import pytest

from engine.model.tree import Run, Verdict
from engine.proof.figures.figures import figures
from tests.engine.proof.figures.small_trees import BOXES, SUSPECTS, Small, Walk, Walker, small

TRIED: Final = 2000
PARTS: Final = 4


@cache
def walked(seed: int, box: str) -> tuple[Small, dict[str, list[Walk]]]:
    """A random tree, and under each suspect every walk through it."""
    given = small(seed)
    return given, {suspect: Walker(given, box, suspect).tree() for suspect in SUSPECTS}


def counted(seed: int, box: str) -> tuple[object, ...]:
    """What the walks themselves say of the size, the minutes and the suspects."""
    given, walks = walked(seed, box)
    minutes = [walk.minutes for walk in walks["shaft"]]
    weights = {s: given.tree.suspects[s].weight for s in SUSPECTS}
    expected = sum(weights[s] * sum(walk.chance * walk.minutes for walk in walks[s]) for s in SUSPECTS) / sum(
        weights.values()
    )
    groups = {s: group for s in SUSPECTS if (group := accused(given, s, walks[s]))}
    steps = {step for walk in walks["shaft"] for step in walk.seen}
    return len(steps), len(minutes), min(minutes), max(minutes), expected, groups, *of(weights, groups)


def accused(given: Small, suspect: str, walks: Sequence[Walk]) -> tuple[str, ...]:
    """Whom every likely verdict that convicts the suspect convicts too."""
    ends = [given.tree.steps[walk.end] for walk in walks if walk.chance]
    lists = [end.suspects for end in ends if isinstance(end, Verdict) and suspect in end.suspects]
    return tuple(s for s in SUSPECTS if lists and all(s in convicted for convicted in lists))


def of(weights: dict[str, Fraction], groups: dict[str, tuple[str, ...]]) -> tuple[object, ...]:
    """FFD, FFI(1), FFI(2) and mean group size by their formulas."""
    found = sum(weights[s] for s in groups)
    fraction = Fraction(found) / sum(weights.values())
    if not groups:
        return fraction, None, None, None
    one = sum(weights[s] for s in groups if len(groups[s]) == 1)
    two = sum(weights[s] for s in groups if len(groups[s]) in (1, 2))
    mean = sum(weights[s] * len(groups[s]) for s in groups)
    return fraction, one / found, two / found, mean / found


def told(seed: int, box: str) -> tuple[object, ...]:
    """What the figures say of the same."""
    given, _ = walked(seed, box)
    f = figures(given.tree, given.procedures, {"box": box})
    fractions = f.detected, f.to_one, f.to_two, f.mean_group
    return f.steps, f.paths, f.fewest, f.most, f.expected, dict(f.groups), *fractions


@pytest.mark.parametrize("part", range(PARTS))
def test_figures_agree_with_every_walk(part: int) -> None:
    """Two thousand random trees with procedures that run procedures: exactly the same fractions."""
    seeds = range(part * TRIED // PARTS, (part + 1) * TRIED // PARTS)

    assert [s for s in seeds if told(s, BOXES[s % 2]) != counted(s, BOXES[s % 2])] == []


def test_chances_of_all_walks_make_one() -> None:
    """The walker's own chances add up to one, so that its means are means."""
    sums = {
        sum(walk.chance for walk in walks) for s in range(200) for walks in walked(s, "manual")[1].values()
    }

    assert sums == {Fraction(1)}


def test_the_random_trees_hold_everything() -> None:
    """Runs inside runs, procedures that tell suspects apart, missed suspects and groups are among them."""
    seeds = range(TRIED)
    given = [small(seed) for seed in seeds]
    nested = [
        g for g in given if any(isinstance(s, Run) for p in g.procedures.values() for s in p.steps.values())
    ]
    telling = [g for g in given if any(Walker(g, "manual", "gear").speaks(name) for name in g.procedures)]
    said = [figures(g.tree, g.procedures, {"box": "manual"}) for g in given]
    missed = [f for f in said if f.missed]
    grouped = [f for f in said if any(len(group) == 2 for group in f.groups.values())]

    assert all(len(some) >= 100 for some in (nested, telling, missed, grouped))
