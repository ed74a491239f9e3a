"""Moving on: from a target to the next step that somebody must see."""

from engine.interview.believed import left_by
from engine.interview.state import Frame, State
from engine.model.tree import Procedure, Run, Sort, Step, Verdict


def begin(state: State) -> State:
    """The walk at the first step that must be seen."""
    return _settle(state._replace(frames=(Frame("", state.tree.start),)))


def onward(state: State, target: str) -> State:
    """The walk after its open step led to a target of the same document."""
    return _settle(_to(_changed(state, state.step), target))


def enter(state: State, procedure: str) -> State:
    """The walk at the start of a procedure, on top of where it stands."""
    start = Frame(procedure, state.library.procedures[procedure].start)
    return _settle(state._replace(frames=(*state.frames, start), acknowledged=()))


def _to(state: State, target: str) -> State:
    frame = Frame(state.frames[-1].procedure, target)
    return state._replace(frames=(*state.frames[:-1], frame), acknowledged=())


def _changed(state: State, step: Step) -> State:
    """The vehicle after a step: what it sets holds, what it clears no longer does."""
    if not (step.sets or step.clears):
        return state
    return state._replace(holds=(state.holds - frozenset(step.clears)) | frozenset(step.sets))


def _settle(state: State) -> State:
    """Answer from the sheet, enter and leave procedures, until a step needs a person."""
    while True:
        document = state.document
        target = state.frames[-1].step
        if isinstance(document, Procedure) and target in document.outcomes:
            state = _leave(state, target)
            # an outcome may lead straight to an outcome of the procedure around it, which is no step
            if isinstance(state.document.steps.get(state.frames[-1].step), Verdict):
                return state
            continue
        step = document.steps[target]
        if isinstance(step, Sort):
            state = _to(state, step.cases[state.sheet.facts[step.fact]])
        elif isinstance(step, Run) and not state.pending:
            state = enter(state, step.procedure)
        else:
            return state


def _leave(state: State, outcome: str) -> State:
    """The walk back in the document that ran (or the verdict that followed) the procedure."""
    name = state.frames[-1].procedure
    state = state._replace(frames=state.frames[:-1], acknowledged=())
    step = state.step
    if isinstance(step, Run):
        state = state._replace(belief=left_by(state, step, outcome))
        return _to(_changed(state, step), step.outcomes[outcome])
    ended = state.library.procedures[name].outcomes[outcome]
    return state._replace(followed={**state.followed, name: ended})


def proceed(state: State) -> State:
    """The walk after a caution was read: a procedure that waited for it is entered."""
    return _settle(state)


def aside(state: State, target: str) -> State:
    """The walk after a step could not be done: it leads on, and the vehicle is as it was."""
    return _settle(_to(state, target))
