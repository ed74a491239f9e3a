"""The figures of one tree on one kind of vehicle."""

from collections.abc import Mapping
from fractions import Fraction
from functools import reduce
from typing import NamedTuple

from engine.graph.minutes import Extent, extent
from engine.graph.onward import Onward, Span
from engine.model.tree import Procedure, Tree
from engine.proof.figures.chances import Chances
from engine.proof.figures.convicted import groups
from engine.proof.figures.testability import detected, isolated, mean_group


class Figures(NamedTuple):
    """How long a tree is, how long it takes, and how well it tells its suspects apart."""

    #: What the technician may come to, procedures included (see `engine.graph.minutes.Extent`).
    steps: int
    #: Different walks from the start to a verdict, by any answer, band, outcome or `unsure`.
    paths: int
    #: Minutes to a verdict, its own included and what follows it not: the quickest and the longest walk.
    fewest: Fraction
    most: Fraction
    #: The mean over the suspects by weight, walks being as likely as `chances` says.
    expected: Fraction
    #: FFD, FFI(1), FFI(2) and mean ambiguity group size (see `testability`); None where nothing is detected.
    detected: Fraction
    to_one: Fraction | None
    to_two: Fraction | None
    mean_group: Fraction | None
    #: The ambiguity group of each detected suspect, in the order of the tree.
    groups: Mapping[str, tuple[str, ...]]
    #: The suspects that are not detected.
    missed: tuple[str, ...]


def figures(tree: Tree, procedures: Mapping[str, Procedure], facts: Mapping[str, str]) -> Figures:
    """The figures of a sound tree (see `sound`) on vehicles with these facts."""
    onward = Onward(procedures, facts)
    size = extent(tree, procedures, onward)
    chances = Chances(tree, procedures, onward)
    outlooks = {name: chances.outlook(name) for name in tree.suspects}
    rates = {name: suspect.weight for name, suspect in tree.suspects.items()}
    weighted = (rates[name] * outlook.minutes for name, outlook in outlooks.items())
    found = groups(tree, {name: outlook.ends for name, outlook in outlooks.items()})
    span = _span(size)
    return Figures(
        steps=size.steps,
        paths=sum(walks.paths for walks in size.ends.values()),
        fewest=span.fewest,
        most=span.most,
        expected=sum(weighted, Fraction(0)) / sum(rates.values()),
        detected=detected(rates, found),
        to_one=isolated(rates, found, 1),
        to_two=isolated(rates, found, 2),
        mean_group=mean_group(rates, found),
        groups={
            name: tuple(other for other in tree.suspects if other in found[name])
            for name in tree.suspects
            if name in found
        },
        missed=tuple(name for name in tree.suspects if name not in found),
    )


def _span(size: Extent) -> Span:
    return reduce(Span.either, (walks.span for walks in size.ends.values()))
