"""How probable a sign is under each suspect, from what a step says in `fits`.

What a step says nothing of goes each way equally often (see `engine.belief.shares`); so does everything where
something else is to blame, unless `fits` names `elsewhere`. That something could not be done or told here is
no sign.
"""

from collections.abc import Collection, Sequence
from functools import lru_cache

from engine.belief.shares import rows, split
from engine.model.tree import Run, Step

#: A row for each answer, band or outcome; in it a number for each suspect, in the order that was asked for.
Table = tuple[tuple[float, ...], ...]


@lru_cache(maxsize=512)  # a walk comes back to its steps, and what it says does not change
def table(step: Step, suspects: tuple[str, ...]) -> Table:
    """How often each way out of the step is taken under each suspect; empty where the step tells nothing.

    The columns add up to one.
    """
    said = rows(step)
    if not any(said):
        return ()
    rates = [{suspect: share.numerator / share.denominator for suspect, share in row.items()} for row in said]
    columns = [split([row.get(suspect) for row in rates], 1.0) for suspect in suspects]
    return tuple(zip(*columns, strict=True))


def met(step: Step, suspects: tuple[str, ...], chosen: int) -> tuple[float, ...]:
    """How often the answer, band or outcome with this number (from 0) is met under each suspect."""
    found = table(step, suspects)
    return found[chosen] if found else (1.0,) * len(suspects)


def left(step: Run, suspects: tuple[str, ...], outcome: str, met: Collection[str]) -> tuple[float, ...]:
    """How often a procedure is left by this outcome under each suspect, of those outcomes that are ever met.

    An outcome that only something which could not be done or told leads to is no sign.
    """
    if outcome not in met or not step.fits:
        return (1.0,) * len(suspects)
    said = [step.fits.get(end, {}) for end in step.outcomes if end in met]
    place = [end for end in step.outcomes if end in met].index(outcome)
    rates = [{suspect: float(share) for suspect, share in row.items()} for row in said]
    return tuple(split([row.get(suspect) for row in rates], 1.0)[place] for suspect in suspects)


def read(step: Step, suspects: tuple[str, ...], probable: Sequence[float]) -> tuple[float, ...]:
    """How often a reading is met under each suspect, where it may lie in any band as probably as this.

    A reading near a limit speaks for both bands, each as far as the true value may lie there (Jeffrey's rule
    for evidence that is itself uncertain, as a weighted sum of the bands' likelihoods).
    """
    found = table(step, suspects)
    if not found:
        return (1.0,) * len(suspects)
    return tuple(
        sum(probability * share for probability, share in zip(probable, column, strict=True))
        for column in zip(*found, strict=True)
    )
