"""Shares of one suspect that do not add up to one over the answers of a step.

`fits` says how often each answer (or band, or outcome of what is run) is met where that suspect is to blame.
One of them is always met, so the shares of a suspect may not exceed 1 together; and where every answer names
the suspect, no answer is left to take the rest, and they must make 1. Each share may be rounded to the
second place: 0.005 a share is forgiven, so that three times 0.33 will do. `unsure` is no answer and takes no
share.

Bad:

    - {say: Wet, then: seal, fits: {seal-worn: 0.8}}
    - {say: Dry, then: look-on, fits: {seal-worn: 0.4}}

Good:

    - {say: Wet, then: seal, fits: {seal-worn: 0.8}}
    - {say: Dry, then: look-on, fits: {seal-worn: 0.2}}
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Final

from engine.belief.shares import rows
from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Step

#: By how much a share that is rounded to the second place may be off.
_ROUNDED: Final = Fraction(1, 200)


def check(scope: Scope) -> Iterator[Found]:
    """Every suspect whose shares in one step are too much, or too little with no answer left for the rest."""
    for document in scope.documents:
        for step in document.steps.values():
            yield from _step(step, rows(step))


def _step(step: Step, rows: Sequence[Mapping[str, Fraction]]) -> Iterator[Found]:
    named = [name for row in rows for name in row]
    if len(rows) > 1 and len(set(named)) == len(named):
        return  # nobody has two shares to be added
    for suspect in dict.fromkeys(named):
        shares = [row[suspect] for row in rows if suspect in row]
        yield from _sum(step, suspect, shares, filled=len(shares) == len(rows))


def _sum(step: Step, suspect: str, shares: Sequence[Fraction], *, filled: bool) -> Iterator[Found]:
    whole, forgiven = sum(shares), len(shares) * _ROUNDED
    told = f"The shares of `{suspect}` in `{step.name}` add up to {float(whole):.6g}"
    if whole > 1 + forgiven:
        yield Found(step.place, f"{told}, which is more than 1.", "Correct its `fits`.")
    elif filled and whole < 1 - forgiven:
        cure = "Correct its `fits`, or leave the suspect out of one answer, which then takes the rest."
        yield Found(step.place, f"{told}, and no answer is left to take the rest.", cure)
