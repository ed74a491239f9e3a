"""The top of every screen of a job: whose vehicle, where in the tree, and how the vehicle stands now."""

from fractions import Fraction
from math import ceil

from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from engine.interview.question import Spare, Where
from engine.interview.suspicion import Suspicion
from tui.widgets.room import LOW, WIDE
from tui.widgets.words import words


class Heading(Widget):
    """One line each for the job, the place and the suspects, cut where the screen ends; the states whole.

    On a low screen only what safety needs is left; beside a trail the suspects stand there.
    """

    DEFAULT_CSS = "Heading { dock: top; height: auto; width: 1fr; background: $panel; padding: 0 1; }"

    def __init__(self, label: str, where: Where, *, beside: bool) -> None:
        super().__init__()
        self.label = label
        self.where = where
        #: Whether the trail stands beside the step where there is room for it.
        self.beside = beside

    def render(self) -> Content:
        """The lines, each no longer than the screen is wide."""
        return Content("\n").join(self._lines(self.size.width))

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  reason: the toolkit's signature
        """Two to four lines, and more where many states hold."""
        return len(self._lines(width))

    def _lines(self, width: int) -> list[Content]:
        where = self.where
        place = words(" › ".join(where.inside)).truncate(width, ellipsis=True)
        states = words(states_words(where.states)).wrap(max(8, width))
        if self.app.size.height < LOW:
            return [place, *states]
        parts = (self.label, where.vehicle, left_words(where.spare))
        job = words((" · ".join(part for part in parts if part), "bold")).truncate(width, ellipsis=True)
        if self.beside and self.app.size.width >= WIDE:
            return [job, place, *states]
        suspects = words(suspects_words(where.suspicion)).truncate(width, ellipsis=True)
        return [job, place, *states, suspects]


def states_words(states: tuple[str, ...]) -> str:
    """How the vehicle stands.

    >>> states_words(("Raised", "Engine running")), states_words(())
    ('Vehicle now: Raised · Engine running', 'Vehicle now: no state noted')
    """
    return "Vehicle now: " + (" · ".join(states) or "no state noted")


def suspects_title(suspects: tuple[str, ...]) -> str:
    """How many suspects no verdict behind us has cleared.

    >>> suspects_title(("a", "b")), suspects_title(())
    ('2 suspects remain', 'No suspect remains')
    """
    match len(suspects):
        case 0:
            return "No suspect remains"
        case 1:
            return "1 suspect remains"
        case count:
            return f"{count} suspects remain"


def suspects_words(suspicion: Suspicion) -> str:
    """The same with their names, the most probable first, and how probable each is.

    >>> from engine.interview.suspicion import Suspected
    >>> suspects_words(Suspicion((Suspected("Shaft sheared", 0.6, 0.5, ahead=True),)))
    '1 suspect remains: Shaft sheared 60 %'
    >>> suspects_words(Suspicion((), contradicted=True))
    'No suspect of this tree explains all that was seen (w)'
    """
    if suspicion.contradicted:
        return "No suspect of this tree explains all that was seen (w)"
    short = tuple(one.short for one in suspicion.ahead)
    return suspects_title(short) + (f": {' · '.join(short)}" if short else "")


def left_words(spare: Spare) -> str:
    """How long it may still take.

    >>> left_words(Spare(Fraction(12), Fraction(45))), left_words(Spare(Fraction(0), Fraction(0)))
    ('12 to 45 min left', '')
    """
    if not spare.most:
        return ""
    fewest, most = ceil(spare.fewest), ceil(spare.most)
    return f"{most} min left" if fewest == most else f"{fewest} to {most} min left"


def minutes_words(minutes: Fraction) -> str:
    """How long a step takes.

    >>> minutes_words(Fraction(5, 2)), minutes_words(Fraction(0))
    ('about 3 min', '')
    """
    return f"about {ceil(minutes)} min" if minutes else ""
