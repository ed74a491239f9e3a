"""Hubs: a few groups of which every test that singles out two groups and more knows one.

Each such test uses up a hub at least, so however many groups are suspected, no more tests than there are hubs
take several of them at once.
"""

from collections.abc import Sequence
from random import Random
from typing import Final

from engine.planner.problem import members

#: So many times hubs are chosen; the fewest are taken.
_TRIES: Final = 10


def hubs(singled: Sequence[int], groups: int) -> int:
    """Few groups of which each of the sets that tests single out has one, if it has two groups and more.

    >>> hubs([0b0011, 0b0110, 0b1000], 4)
    2
    """
    several = [some for some in singled if some & (some - 1)]
    return min((_chosen(several, groups, rng) for rng in map(Random, range(_TRIES))), key=int.bit_count)


def _chosen(sets: Sequence[int], groups: int, rng: Random) -> int:
    """Those in most sets, one by one, ties left to chance; what the others make needless is left out."""
    left, found = sets, 0
    while left:
        hub = max(range(groups), key=lambda group: (sum(some >> group & 1 for some in left), rng.random()))
        found |= 1 << hub
        left = [some for some in left if not some >> hub & 1]
    for hub in members(found):
        if all(found & some & ~(1 << hub) for some in sets):
            found ^= 1 << hub
    return found
