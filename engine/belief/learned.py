"""What confirmed cases say of a tree: weights of its suspects, and signs in its `fits`."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from engine.belief.confirmed import Ended
from engine.belief.interval import Interval, enough, interval
from engine.belief.shares import rows, shares
from engine.belief.update import prior
from engine.model.tree import ELSEWHERE, Step, Tree


class Weight(NamedTuple):
    """A suspect: its share as the author set it, and as the cases say."""

    suspect: str
    authored: float
    cases: Interval


class Sign(NamedTuple):
    """How often an answer or band (from 0) is met where a suspect is to blame: as authored, and as met."""

    step: str
    number: int
    suspect: str
    authored: float
    cases: Interval


class Learned(NamedTuple):
    """All that the cases of one tree say."""

    tree: str
    #: Every suspect, and last what the tree does not name.
    weights: tuple[Weight, ...]
    signs: tuple[Sign, ...]
    #: Cases whose cause is no suspect of the tree any more, and cases whose cause nobody knows.
    gone: int
    unknown: int

    @property
    def confirmed(self) -> int:
        """How many cases are counted."""
        return self.weights[0].cases.of if self.weights else 0

    @property
    def enough(self) -> int:
        """How many cases are enough to write the weights."""
        return enough(len(self.weights))


def learned(tree: Tree, cases: Sequence[Ended]) -> Learned:
    """What the cases of this tree say of it."""
    causes = {*tree.suspects, ELSEWHERE}
    own = [case for case in cases if case.tree == tree.name]
    known = [case for case in own if case.cause in causes]
    unknown = sum(not case.cause for case in own)
    return Learned(
        tree.name,
        tuple(_weights(tree, Counter(case.cause for case in known), len(known))),
        tuple(_signs(tree, known)),
        len(own) - len(known) - unknown,
        unknown,
    )


def _weights(tree: Tree, counts: Mapping[str, int], total: int) -> Iterator[Weight]:
    authored = prior({name: suspect.weight for name, suspect in tree.suspects.items()}, tree.elsewhere)
    for name, share in zip(authored.suspects, authored.shares, strict=True):
        yield Weight(name, share, interval(counts.get(name, 0), total, len(authored.suspects)))


def _signs(tree: Tree, cases: Sequence[Ended]) -> Iterator[Sign]:
    met = Counter((step, number, case.cause) for case in cases for step, number in case.signs)
    asked = Counter((step, case.cause) for case in cases for step, _ in case.signs)
    for (name, suspect), count in sorted(asked.items()):
        step = tree.steps.get(name)
        if step is not None and any(rows(step)) and count >= enough(len(rows(step))):
            yield from _of_step(step, suspect, count, met)


def _of_step(step: Step, suspect: str, count: int, met: Mapping[tuple[str, int, str], int]) -> Iterator[Sign]:
    authored = shares(rows(step), suspect)
    for number, share in enumerate(authored):
        told = interval(met.get((step.name, number, suspect), 0), count, len(authored))
        yield Sign(step.name, number, suspect, float(share), told)


def proposed(tree: Tree, told: Learned) -> dict[str, Fraction]:
    """The weights that the cases propose, to three digits; all together as heavy as the author's.

    `ELSEWHERE` is among them, whether or not the tree says its weight.
    """
    weights = [suspect.weight for suspect in tree.suspects.values()]
    whole = float(sum(weights) + (min(weights) if tree.elsewhere is None else tree.elsewhere))
    return {weight.suspect: Fraction(f"{weight.cases.mean * whole:.3g}") for weight in told.weights}


def signs_proposed(told: Learned) -> dict[tuple[str, str], tuple[Fraction, ...]]:
    """By step and suspect, how often each answer or band is met: in hundredths that add up to 1."""
    held: dict[tuple[str, str], list[Sign]] = {}
    for sign in told.signs:
        held.setdefault((sign.step, sign.suspect), []).append(sign)
    return {key: _hundredths([sign.cases.mean for sign in signs]) for key, signs in held.items()}


def _hundredths(means: Sequence[float]) -> tuple[Fraction, ...]:
    """Rounded, with what rounding leaves taken from or given to the largest.

    None becomes 0: what was never met so far can still be met, and 0 would rule the suspect out for good.

    >>> list(map(str, _hundredths([1 / 3, 1 / 3, 1 / 3])))
    ['17/50', '33/100', '33/100']
    >>> list(map(str, _hundredths([0.998, 0.002])))
    ['99/100', '1/100']
    """
    rounded = [max(1, round(mean * 100)) for mean in means]
    rounded[rounded.index(max(rounded))] += 100 - sum(rounded)
    return tuple(Fraction(one, 100) for one in rounded)
