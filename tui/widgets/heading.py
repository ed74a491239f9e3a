"""The top of every screen of a job: whose vehicle, where in the tree, and how the vehicle stands now."""

from fractions import Fraction
from math import ceil

from textual.app import ComposeResult
from textual.containers import Vertical

from engine.interview.question import Spare, Where
from tui.widgets.words import Words


class Heading(Vertical):
    """The job, the place in the tree, the states that hold; without a trail beside it, the suspects."""

    DEFAULT_CSS = """
    Heading { dock: top; height: auto; width: 1fr; background: $panel; padding: 0 1; }
    Heading Words { height: 1; text-wrap: nowrap; text-overflow: ellipsis; }
    Heading #job { text-style: bold; }
    """

    def __init__(self, label: str, where: Where) -> None:
        super().__init__()
        self.label = label
        self.where = where

    def compose(self) -> ComposeResult:
        """One line each, cut where the screen ends."""
        where = self.where
        job = [part for part in (self.label, where.vehicle) if part]
        left = left_words(where.spare)
        yield Words(" · ".join(job), f" · {left}" if left else "", id="job")
        yield Words(" › ".join(where.inside), id="place")
        yield Words(states_words(where.states), id="states")
        yield Words(suspects_words(where.suspects), id="suspects")


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


def suspects_words(suspects: tuple[str, ...]) -> str:
    """The same with their names.

    >>> suspects_words(("Shaft sheared", "Coupling dead"))
    '2 suspects remain: Shaft sheared · Coupling dead'
    """
    return suspects_title(suspects) + (f": {' · '.join(suspects)}" if suspects else "")


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
