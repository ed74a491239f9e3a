"""How often each way out of a step is taken where one suspect is to blame.

- An answer, a band, or an outcome of a procedure that is run has the share that its `fits` gives the suspect.
  What the given shares leave of 1 is spread evenly over the answers that say nothing of the suspect.
- A step that says nothing of the suspect is split evenly over its answers or bands.
- Shares that cannot be added up to 1 (more than 1 given, or less with no answer left to take the rest) are
  taken in proportion; if all of them are 0, evenly.
- Who cannot do or tell goes by `unsure`, which has the share 0.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import TypeVar

from engine.model.tree import Ask, Measure, Run, Step

Fits = Mapping[str, Fraction]
#: Exact, or a good deal quicker.
Number = TypeVar("Number", Fraction, float)


def rows(step: Step) -> Sequence[Fits]:
    """What each answer, band or outcome of a step says of the suspects, in the order of the document.

    A run that says nothing of any suspect has no rows: how it is left then tells nothing by itself.
    """
    match step:
        case Ask():
            return [answer.fits for answer in step.answers]
        case Measure():
            return [band.fits for band in step.bands]
        case Run() if step.fits:
            return [step.fits.get(outcome, {}) for outcome in step.outcomes]
        case _:
            return ()


def shares(fits: Sequence[Fits], suspect: str) -> tuple[Fraction, ...]:
    """The share of each answer where this suspect is to blame; they add up to 1.

    >>> half = {"shaft": Fraction(1, 2)}
    >>> shares([half, {}, {}], "shaft")
    (Fraction(1, 2), Fraction(1, 4), Fraction(1, 4))
    >>> shares([half, {}, {}], "tyre")
    (Fraction(1, 3), Fraction(1, 3), Fraction(1, 3))
    """
    return split([row.get(suspect) for row in fits], Fraction(1))


def split(said: Sequence[Number | None], one: Number) -> tuple[Number, ...]:
    """The shares that `said` leaves, None where it is silent; `one` is 1 in the kind of number wanted.

    >>> split((0.5, None, None), 1.0)
    (0.5, 0.25, 0.25)
    """
    given = [share for share in said if share is not None]
    silent = len(said) - len(given)
    nothing = one - one
    whole = sum(given, nothing)
    rest = max(one - whole, nothing) / silent if silent else nothing
    total = whole + rest * silent
    if not total:
        return (one / len(said),) * len(said)
    shared = [rest if share is None else share for share in said]
    return tuple(shared if total == 1 else [share / total for share in shared])
