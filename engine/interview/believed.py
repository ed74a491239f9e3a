"""What each event of a walk makes of the belief in its suspects.

An answer counts by its `fits`; a reading counts for every band that its true value may lie in, each as far as
that is probable. How a procedure was left counts where the step that runs it says so in `fits`: procedures
know no suspects, so nothing that is seen inside is a sign by itself, nor is what follows a verdict. What
could not be done or told is no sign.
"""

from collections.abc import Iterator, Mapping

from engine.belief.evidence import left, met, read, table
from engine.belief.update import Belief, prior, updated
from engine.errors import Refusal
from engine.graph.onward import Onward
from engine.interview.reading import taken, weighed
from engine.interview.state import Past, State
from engine.model.tree import Measure, Procedure, Run, Step, Tree
from engine.records.event import Answered, Measured


def begun(tree: Tree) -> Belief:
    """What is believed before anything was asked: the weights of the tree."""
    return prior({name: suspect.weight for name, suspect in tree.suspects.items()}, tree.elsewhere)


def answered(state: State, event: Answered | Measured) -> Belief:
    """The belief after the open step was answered."""
    suspects = state.belief.suspects
    if isinstance(event, Answered):
        return updated(state.belief, met(state.step, suspects, event.answer))
    if not table(state.step, suspects):
        return state.belief  # it tells nothing, whichever band it lies in
    return updated(state.belief, read(state.step, suspects, _probable(state, event)))


def left_by(state: State, run: Run, outcome: str) -> Belief:
    """The belief after a procedure was left; `state` stands at the step that ran it."""
    if not run.fits:
        return state.belief
    procedures = state.library.procedures
    met = _ends(procedures, Onward(procedures, state.sheet.facts), procedures[run.procedure])
    return updated(state.belief, left(run, state.belief.suspects, outcome, met))


def signs(state: State) -> Iterator[tuple[Past, Belief]]:
    """Each settled line that moved the belief, and the belief after it, oldest first."""
    settled = state.settled
    after = [*(past.before.belief for past in settled[1:]), state.belief][: len(settled)]
    for past, belief in zip(settled, after, strict=True):
        if belief.shares != past.before.belief.shares:
            yield past, belief


def _probable(state: State, event: Measured) -> tuple[float, ...]:
    """How probable each band is; the one that was chosen, where that cannot be told again."""
    step = state.step
    assert isinstance(step, Measure)
    each = taken(step, event.typed)
    found = each if isinstance(each, Refusal) else weighed(state, step, each)
    if isinstance(found, Refusal) or found.band != event.band:
        return tuple(float(band == event.band) for band in range(len(step.bands)))
    return found.sure.bands


def _ends(procedures: Mapping[str, Procedure], onward: Onward, procedure: Procedure) -> frozenset[str]:
    """The outcomes that this vehicle can come to with every step done and told."""
    met, waiting = set[str](), [procedure.start]
    while waiting:
        name = waiting.pop()
        if name not in met:
            met.add(name)
            step = procedure.steps.get(name)
            waiting += [] if step is None else _targets(procedures, onward, step)
    return frozenset(met & procedure.outcomes.keys())


def _targets(procedures: Mapping[str, Procedure], onward: Onward, step: Step) -> list[str]:
    if isinstance(step, Run):
        inner = _ends(procedures, onward, procedures[step.procedure])
        return [step.outcomes[outcome] for outcome in inner]
    return [way.then for way in onward.exits(step) if not way.aside]
