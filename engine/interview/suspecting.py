"""What a walk suspects at this moment, as the plain words and numbers that every face shows."""

from engine.interview.believed import signs
from engine.interview.state import State
from engine.interview.suspicion import SOMETHING_ELSE, Sureness, Suspected, Suspicion
from engine.model.tree import ELSEWHERE, Tree, Verdict


def sureness(state: State, step: Verdict) -> Sureness | None:
    """How sure a verdict is; None where it convicts nobody."""
    if not step.suspects:
        return None
    return Sureness(state.belief.share(*step.suspects), float(state.tree.condemn))


def suspected(state: State, ahead: frozenset[str]) -> Suspicion:
    """Every suspect, the most probable first; of those that are as probable the first in the tree."""
    moved = next(reversed([*signs(state)]), None)
    was = moved[0].before.belief if moved else state.belief
    told = [
        Suspected(titled(state.tree, name), share, before, name in ahead)
        for name, share, before in zip(state.belief.suspects, state.belief.shares, was.shares, strict=True)
    ]
    return Suspicion(
        suspects=tuple(sorted(told, key=lambda one: -one.share)),
        answer=moved[0].line.answer if moved else "",
        question=moved[0].line.question if moved else "",
        fresh=moved is not None and moved[0] is state.settled[-1],
        contradicted=state.belief.contradicted,
        concluded=state.concluded,
    )


def titled(tree: Tree, name: str) -> str:
    """A suspect, or what the tree does not name, as people are told of it."""
    return SOMETHING_ELSE if name == ELSEWHERE else tree.suspects[name].title
