"""What confirmed cases say of a tree: weights of its suspects, signs in its `fits`, verdicts that come back.

Half a case is added to each kind (Jeffreys; for several causes Dirichlet with one half each): the least that
may be said beforehand. Source: Brown, Cai and DasGupta, Statistical Science 16(2):101-133, 2001.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final, NamedTuple

from engine.belief.confirmed import Ended, came_back
from engine.belief.shares import rows, shares
from engine.beta import quantile
from engine.model.tree import Step, Tree

#: Cases of one suspect at one question from which on its signs are proposed: a sign that was met in none of
#: ten is met in fewer than 22 of 100 (Jeffreys, 95 %), which is worth more than a guess.
ENOUGH: Final = 10


class Interval(NamedTuple):
    """A share from counts: its mean, and where it lies with 95 %."""

    found: int
    of: int
    mean: float
    low: float
    high: float

    def holds(self, share: float) -> bool:
        """Whether a share lies in it."""
        return self.low <= share <= self.high


class Weight(NamedTuple):
    """A suspect: its share as the author set it, and as the cases say."""

    suspect: str
    title: str
    authored: float
    cases: Interval


class Sign(NamedTuple):
    """How often an answer or band (from 0) is met where a suspect is to blame: as authored, and as met."""

    step: str
    number: int
    suspect: str
    authored: float
    cases: Interval


class Return(NamedTuple):
    """A verdict: how many of its cases came back."""

    step: str
    verdict: str
    cases: Interval


class Learned(NamedTuple):
    """All that the cases of one tree say."""

    tree: str
    weights: tuple[Weight, ...]
    signs: tuple[Sign, ...]
    returns: tuple[Return, ...]
    #: Confirmed cases whose cause the tree does not name, and cases whose cause nobody knows.
    elsewhere: int
    unknown: int


def interval(found: int, of: int, kinds: int = 2) -> Interval:
    """Jeffreys' interval of so many of so many, and the mean where there are so many kinds.

    Found never, it begins at 0; found always, it ends at 1. Four of twenty:

    >>> [round(value, 6) for value in interval(4, 20)[2:]]
    [0.214286, 0.07152, 0.408226]
    """
    a, b = found + 0.5, of - found + 0.5
    low = quantile(0.025, a, b) if found else 0.0
    high = quantile(0.975, a, b) if found < of else 1.0
    return Interval(found, of, (found + 0.5) / (of + 0.5 * kinds), low, high)


def learned(tree: Tree, cases: Sequence[Ended]) -> Learned:
    """What the cases of this tree say of it."""
    own = [case for case in cases if case.tree == tree.name]
    known = [case for case in own if case.cause in tree.suspects]
    return Learned(
        tree.name,
        tuple(_weights(tree, Counter(case.cause for case in known), len(known))),
        tuple(_signs(tree, known)),
        tuple(_returns(own)),
        sum(1 for case in own if case.cause and case.cause not in tree.suspects),
        sum(1 for case in own if not case.cause),
    )


def _weights(tree: Tree, counts: Mapping[str, int], total: int) -> Iterator[Weight]:
    whole = sum(suspect.weight for suspect in tree.suspects.values())
    for name, suspect in tree.suspects.items():
        told = interval(counts.get(name, 0), total, len(tree.suspects))
        yield Weight(name, suspect.title, float(suspect.weight / whole), told)


def _signs(tree: Tree, cases: Sequence[Ended]) -> Iterator[Sign]:
    met = Counter((step, number, case.cause) for case in cases for step, number in case.signs)
    asked = Counter((step, case.cause) for case in cases for step, _ in case.signs)
    for (name, suspect), count in sorted(asked.items()):
        step = tree.steps.get(name)
        if step is not None and count >= ENOUGH and any(rows(step)):
            yield from _of_step(step, suspect, count, met)


def _of_step(step: Step, suspect: str, count: int, met: Mapping[tuple[str, int, str], int]) -> Iterator[Sign]:
    authored = shares(rows(step), suspect)
    for number, share in enumerate(authored):
        told = interval(met.get((step.name, number, suspect), 0), count, len(authored))
        yield Sign(step.name, number, suspect, float(share), told)


def _returns(cases: Sequence[Ended]) -> Iterator[Return]:
    back = came_back(cases)
    of = Counter(case.step for case in cases)
    returned = Counter(case.step for case in cases if case.case in back)
    titles = {case.step: case.verdict for case in cases}
    for step, count in sorted(of.items(), key=lambda pair: -returned[pair[0]] / pair[1]):
        yield Return(step, titles[step], interval(returned[step], count))


def proposed(tree: Tree, told: Learned) -> dict[str, Fraction]:
    """The weights that the cases propose, with the sum that the author's have, to three digits."""
    whole = float(sum(suspect.weight for suspect in tree.suspects.values()))
    return {weight.suspect: Fraction(f"{weight.cases.mean * whole:.3g}") for weight in told.weights}


def signs_proposed(told: Learned) -> dict[tuple[str, str], tuple[Fraction, ...]]:
    """By step and suspect, how often each answer or band is met: in hundredths that add up to 1."""
    held: dict[tuple[str, str], list[Sign]] = {}
    for sign in told.signs:
        held.setdefault((sign.step, sign.suspect), []).append(sign)
    return {key: _hundredths([sign.cases.mean for sign in signs]) for key, signs in held.items()}


def _hundredths(means: Sequence[float]) -> tuple[Fraction, ...]:
    """Rounded, with what rounding leaves given to the largest.

    >>> list(map(str, _hundredths([1 / 3, 1 / 3, 1 / 3])))
    ['17/50', '33/100', '33/100']
    """
    rounded = [round(mean * 100) for mean in means]
    rounded[rounded.index(max(rounded))] += 100 - sum(rounded)
    return tuple(Fraction(one, 100) for one in rounded)
