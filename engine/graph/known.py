"""What a walk knows already, as far as a later step asks for it again.

What was seen or read holds until something is done to the vehicle: the same question, put again in the same
words, has the same answer, and a reading of the same name lies where it lay. After a `do`, a step that sets
or clears a state, or a verdict, nothing is taken for known.
"""

from collections.abc import Mapping
from fractions import Fraction
from typing import Final, NamedTuple

from engine.model.tree import Do, Step

#: For each thing that is asked more than once, the values it may still have, as bits.
Facts = tuple[int, ...]


class Asking(NamedTuple):
    """A step that asks for something which is asked elsewhere too."""

    #: Which thing.
    thing: int
    #: For each way out that tells something, in their order, the values that lead there.
    ways: tuple[int, ...]
    #: Of a reading, the limits in order and their unit: between two bits lies a limit, which is one itself.
    points: tuple[Fraction, ...] = ()
    unit: str = ""


class Known:
    """The things of one tree that are asked more than once, for one vehicle."""

    def __init__(
        self,
        everything: Facts,
        askings: Mapping[tuple[str, str], Asking],
        ahead: Mapping[tuple[str, str], int],
    ) -> None:
        #: What is known of a vehicle of which nothing is known.
        self.nothing: Final = everything
        self.askings: Final = askings
        self._ahead = ahead

    def before(self, step: Step, facts: Facts) -> Facts:
        """What is known when a step is answered; one that changes the vehicle is answered afterwards."""
        return self.nothing if step.sets or step.clears else facts

    def after(self, procedure: str, step: Step, number: int, facts: Facts, *, aside: bool) -> Facts | None:
        """What is known once a step was left by the way of this number; None where it cannot be."""
        if not self.nothing:
            return facts
        if isinstance(step, Do):
            return self.nothing
        asking = self.askings.get((procedure, step.name))
        if aside:
            return facts
        facts = self.before(step, facts)
        if asking is None:
            return facts
        left = facts[asking.thing] & asking.ways[number]
        return (*facts[: asking.thing], left, *facts[asking.thing + 1 :]) if left else None

    def needed(self, frames: tuple[tuple[str, str], ...], facts: Facts) -> Facts:
        """What is known, without what no step from here on asks again."""
        if facts == self.nothing:
            return facts
        ahead = 0
        for frame in frames:
            ahead |= self._ahead.get(frame, 0)
        return tuple(
            fact if ahead >> thing & 1 else whole
            for thing, (fact, whole) in enumerate(zip(facts, self.nothing, strict=True))
        )


#: Where nothing is asked twice.
NOTHING_TWICE: Final = Known((), {}, {})
