"""A walk that nobody keeps: it has neither clock nor chain, so it may be begun and thrown away at will."""

from engine.errors import Refusal
from engine.interview.command import Command
from engine.interview.decide import decide
from engine.interview.evolve import evolve
from engine.interview.state import State
from engine.records.event import Entry, Event


def taken(state: State, command: Command) -> State | Refusal:
    """The walk after a command, or why it cannot be taken."""
    decision = decide(state, command)
    if isinstance(decision, Refusal):
        return decision
    for event in decision:
        state = after(state, event)
    return state


def after(state: State, event: Event) -> State:
    """The walk after one more event."""
    return evolve(state, Entry("rehearsal", state.sequence + 1, "", event, ""))
