"""How often each way out of a step is taken where one suspect is to blame.

- An answer or band has the share that its `fits` gives the suspect. What the given shares leave of 1 is
  spread evenly over the answers that say nothing of the suspect.
- A step that says nothing of the suspect is split evenly over its answers or bands.
- Shares that cannot be added up to 1 (more than 1 given, or less with no answer left to take the rest) are
  taken in proportion; if all of them are 0, evenly.
- Who cannot do or tell goes by `unsure`, which has the share 0.
"""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from engine.model.tree import Ask, Measure, Step

Fits = Mapping[str, Fraction]


def rows(step: Step) -> Sequence[Fits]:
    """What each answer or band of a step says of the suspects."""
    if isinstance(step, Ask):
        return [answer.fits for answer in step.answers]
    return [band.fits for band in step.bands] if isinstance(step, Measure) else ()


def shares(fits: Sequence[Fits], suspect: str) -> tuple[Fraction, ...]:
    """The share of each answer where this suspect is to blame; they add up to 1.

    >>> half = {"shaft": Fraction(1, 2)}
    >>> shares([half, {}, {}], "shaft")
    (Fraction(1, 2), Fraction(1, 4), Fraction(1, 4))
    >>> shares([half, {}, {}], "tyre")
    (Fraction(1, 3), Fraction(1, 3), Fraction(1, 3))
    """
    given = [row[suspect] for row in fits if suspect in row]
    if not given:
        return (Fraction(1, len(fits)),) * len(fits)
    silent = len(fits) - len(given)
    whole = sum(given, Fraction(0))
    rest = max(1 - whole, Fraction(0)) / silent if silent else Fraction(0)
    total = whole + rest * silent
    if not total:
        return (Fraction(1, len(fits)),) * len(fits)
    split = tuple(row.get(suspect, rest) for row in fits)
    return split if total == 1 else tuple(share / total for share in split)
