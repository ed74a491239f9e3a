"""What to do next by the numbers: which test tells most a minute, and whether to replace before testing on.

One step ahead and no further (see `engine.belief.entropy`), and all costs in minutes. The tree leads; this is
a second opinion for whoever asks.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from engine.belief.entropy import entropy, gain
from engine.belief.evidence import Table
from engine.belief.update import Belief


class Open(NamedTuple):
    """A step that is still open: its name, the fewest minutes until it is answered, and its table."""

    name: str
    minutes: float
    table: Table


class Worth(NamedTuple):
    """What a test is worth now."""

    name: str
    minutes: float
    #: The bits that it settles on average, and their part of all that are open, from 0 to 1.
    bits: float
    part: float

    @property
    def rate(self) -> float:
        """Bits a minute; a test that takes none is counted as one minute.

        >>> Worth("look", 4, 0.5, 0.25).rate
        0.125
        """
        return self.bits / max(1.0, self.minutes)


class Swap(NamedTuple):
    """Replacing what one suspect stands for before anything else is tested."""

    suspect: str
    #: Expected minutes that are lost where it was not to blame, and that are saved where it was.
    lost: float
    saved: float

    @property
    def pays(self) -> bool:
        """Whether more is saved than lost."""
        return self.saved > self.lost


def worth(belief: Belief, tests: Iterable[Open]) -> tuple[Worth, ...]:
    """The tests that settle something, the most bits a minute first.

    >>> two = Belief(("shaft", "elsewhere"), (0.5, 0.5))
    >>> [(w.name, w.part) for w in worth(two, [Open("look", 4, ((1, 0), (0, 1))), Open("ask", 1, ())])]
    [('look', 1.0)]
    """
    open_ = entropy(belief.shares)
    found = [
        Worth(t.name, t.minutes, bits := gain(belief, t.table), bits / open_ if open_ else 0) for t in tests
    ]
    return tuple(sorted((one for one in found if one.bits > 1e-9), key=lambda one: -one.rate))


def to_verdict(belief: Belief, minutes: Sequence[float]) -> float:
    """Expected minutes to a verdict, given those under each suspect, in the order of the belief.

    >>> to_verdict(Belief(("shaft", "elsewhere"), (0.75, 0.25)), (10, 30))
    15.0
    """
    return sum(share * took for share, took in zip(belief.shares, minutes, strict=True))


def swap(belief: Belief, minutes: Sequence[float], repairs: Mapping[str, float]) -> Swap | None:
    """The suspect whose repair, made now, saves most against testing on; None where no minutes are known.

    Made at once, a repair costs its minutes in vain wherever its suspect is not to blame, and saves the
    tests where it is. The tree is taken to find whoever is to blame. Proving the repair is left out: it
    follows either way.

    >>> swap(Belief(("fuse", "elsewhere"), (0.75, 0.25)), (20, 20), {"fuse": 8})
    Swap(suspect='fuse', lost=2.0, saved=15.0)
    """
    each = zip(belief.suspects, belief.shares, minutes, strict=True)
    found = [
        Swap(name, (1 - share) * repairs[name], share * took) for name, share, took in each if name in repairs
    ]
    return max(found, key=lambda one: one.saved - one.lost, default=None)
