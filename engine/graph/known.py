"""What a walk knows already, as far as a later step asks for it again.

What was seen or read holds until something is done to the vehicle: the same question, put again in the same
words, has the same answer, and a reading of the same name lies where it lay. After a `do`, a step that sets
or clears a state, or a verdict, nothing is taken for known.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Final, NamedTuple

from engine.model.tree import Do, Step

#: (thing, the values that it may still have, as bits) of each thing of which something is known, in order.
Facts = tuple[tuple[int, int], ...]
#: What is known of a vehicle of which nothing is known.
NOTHING: Final[Facts] = ()


class Asking(NamedTuple):
    """A step that asks for something which is asked elsewhere too."""

    #: Which thing.
    thing: int
    #: All values of the thing.
    whole: int
    #: For each way out that tells something, in their order, the values that lead there.
    ways: tuple[int, ...]
    #: Of a reading, the limits in order and their unit: between two bits lies a limit, which is one itself.
    points: tuple[Fraction, ...] = ()
    unit: str = ""

    def left(self, facts: Facts) -> int:
        """The values that the thing may still have."""
        return next((values for thing, values in facts if thing == self.thing), self.whole)


class Known:
    """The things of one tree that are asked more than once, for one vehicle."""

    def __init__(
        self, askings: Mapping[tuple[str, str], Asking], ahead: Mapping[tuple[str, str], int]
    ) -> None:
        self.askings: Final = askings
        self._ahead = ahead

    def before(self, step: Step, facts: Facts) -> Facts:
        """What is known when a step is answered; one that changes the vehicle is answered afterwards."""
        return NOTHING if changes(step) else facts

    def after(self, procedure: str, step: Step, number: int, facts: Facts, *, aside: bool) -> Facts | None:
        """What is known once a step was left by the way of this number; None where it cannot be."""
        if changes(step, aside=aside):
            facts = NOTHING
        if aside:
            return facts
        asking = self.askings.get((procedure, step.name))
        if asking is None:
            return facts
        left = asking.left(facts) & asking.ways[number]
        return _with(facts, asking.thing, left) if left else None

    def needed(self, frames: Iterable[tuple[str, str]], facts: Facts) -> Facts:
        """What is known, without what no step from here on asks again before the vehicle is changed."""
        if not facts:
            return facts
        ahead = 0
        for frame in frames:
            ahead |= self._ahead.get(frame, 0)
        return tuple(fact for fact in facts if ahead >> fact[0] & 1)


def changes(step: Step, *, aside: bool = False) -> bool:
    """Whether the vehicle is another once the step was left: begun, work may have changed what it was to."""
    return isinstance(step, Do) or (not aside and bool(step.sets or step.clears))


def _with(facts: Facts, thing: int, values: int) -> Facts:
    return tuple(sorted((*(fact for fact in facts if fact[0] != thing), (thing, values))))


#: Where nothing is asked twice.
NOTHING_TWICE: Final = Known({}, {})
