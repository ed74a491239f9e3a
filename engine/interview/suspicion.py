"""How probable each suspect is, in words and numbers, and what moved it: what faces show of a belief."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

#: The least probability of each word. The limits are those of the guidance note on uncertainties for the
#: lead authors of the fifth IPCC assessment report (2010; from memory), which readers take them by.
_WORDS: Final = ((0.9, "very likely"), (0.66, "likely"), (0.33, "possible"), (0.1, "unlikely"))
#: What the tree does not name, as people are told of it.
SOMETHING_ELSE: Final = "Something else, not in this tree"
#: Said where no suspect is left.
CONTRADICTED: Final = (
    "No suspect of this tree explains all that was seen: something else is to blame, or an answer or a"
    " reading misled. Look at the trail again."
)


def word(share: float) -> str:
    """The word for a probability.

    >>> word(0.95), word(0.5), word(0.05), word(0)
    ('very likely', 'possible', 'very unlikely', 'ruled out')
    """
    if not share:
        return "ruled out"
    return next((name for least, name in _WORDS if share >= least), "very unlikely")


def number(share: float) -> str:
    """The number, never nearer to certain or impossible than it is.

    >>> number(0.624), number(0.997), number(0.001), number(0)
    ('62 %', 'over 99 %', 'under 1 %', '0 %')
    """
    if 0 < share < 0.01:
        return "under 1 %"
    return "over 99 %" if 0.99 < share < 1 else f"{round(share * 100)} %"


@dataclass(frozen=True, slots=True)
class Suspected:
    """One suspect, or what the tree does not name, and how probable it is that this is to blame."""

    title: str
    share: float
    #: Before the last sign that moved the suspects.
    was: float
    #: Whether a verdict that can still be reached convicts it.
    ahead: bool

    @property
    def told(self) -> str:
        """Word and number, and what it was where the number differs.

        >>> Suspected("Shaft", 0.62, 0.4, ahead=True).told
        'possible, 62 % (was 40 %)'
        """
        was = f" (was {number(self.was)})" if number(self.was) != number(self.share) else ""
        return f"{word(self.share)}, {number(self.share)}{was}"

    @property
    def short(self) -> str:
        """Name and number, where there is room for no more.

        >>> Suspected("Shaft", 0.62, 0.4, ahead=True).short
        'Shaft 62 %'
        """
        return f"{self.title} {number(self.share)}"


@dataclass(frozen=True, slots=True)
class Suspicion:
    """Every suspect of the tree and something else, the most probable first."""

    suspects: tuple[Suspected, ...]
    #: The answer that moved them last, and its question; both empty while none has.
    answer: str = ""
    question: str = ""
    #: Whether that answer is the last one that was given.
    fresh: bool = False
    #: Nothing that the tree names explains all that was seen.
    contradicted: bool = False
    #: A verdict was accepted.
    concluded: bool = False

    @property
    def ahead(self) -> tuple[Suspected, ...]:
        """Those whom a verdict that can still be reached convicts."""
        return tuple(one for one in self.suspects if one.ahead)

    @property
    def told(self) -> Iterator[str]:
        """A line each, and then what moved them."""
        for one in self.suspects:
            beyond = not (one.ahead or self.concluded or one.title == SOMETHING_ELSE)
            yield f"{one.title}: {one.told}" + ("; no verdict from here convicts it" if beyond else "")
        yield self.moved

    @property
    def moved(self) -> str:
        """What moved them last, or that nothing has; plain where what was seen contradicts itself."""
        if self.contradicted:
            return CONTRADICTED
        if not self.answer:
            return "So far by their weights in the tree alone; no answer has moved them."
        return f"Moved last by: {self.question} {self.answer}"


#: Where nothing is suspected.
NOTHING: Final = Suspicion(())


@dataclass(frozen=True, slots=True)
class Sureness:
    """How sure a verdict is of those it convicts."""

    share: float
    #: Below this the tree holds a verdict too weak to condemn.
    limit: float

    @property
    def weak(self) -> bool:
        """Whether it is too weak to condemn."""
        return self.share < self.limit

    @property
    def told(self) -> str:
        """In a sentence or two.

        >>> Sureness(0.62, 0.8).told
        'Possible, 62 %. Too weak to condemn: this tree wants 80 % before parts are replaced.'
        """
        said = f"{word(self.share).capitalize()}, {number(self.share)}."
        if not self.weak:
            return said
        return f"{said} Too weak to condemn: this tree wants {number(self.limit)} before parts are replaced."
