"""A walked case as a trail through its own tree: the steps visited, and the way taken out of each."""

from collections.abc import Sequence
from typing import NamedTuple

from engine.interview.state import State
from engine.model.tree import Ask, Do, Document, Measure, Run, Sort
from engine.records.event import Answered, Concluded, Done, Entry, Event, Measured, TakenBack, Unsure


class Visit(NamedTuple):
    """A step of the tree that the case came to."""

    step: str
    #: The way out taken, counted from 0 in the order of the text; None where the case stands or ended.
    way: int | None = None


def trail(entries: Sequence[Entry], state: State) -> tuple[Visit, ...]:
    """The visits of a case, from its first step to where it stands, `state` being where its entries led.

    What was stepped back over is no longer part of it; a procedure is one visit, whatever was done inside.
    """
    walk = _Walk(state)
    walk.settle(state.tree.start)
    for event in _standing(entries):
        walk.take(event)
    if walk.here != state.frames[0].step:
        walk.enter()  # the last caution before a procedure was read, and it ended without a question
    return (*walk.visits, Visit(state.frames[0].step))


def _standing(entries: Sequence[Entry]) -> list[Event]:
    """What settled a step and was not stepped back over, up to the verdict."""
    standing: list[Entry] = []
    for entry in entries:
        if isinstance(entry.event, TakenBack):
            to = entry.event.to
            standing = [kept for kept in standing if kept.sequence < to]
        else:
            standing.append(entry)
    events = [entry.event for entry in standing]
    ended = next((k for k, event in enumerate(events) if isinstance(event, Concluded)), len(events))
    return [event for event in events[:ended] if isinstance(event, Done | Answered | Measured | Unsure)]


class _Walk:
    """Where the trail has come to: the documents entered, outermost first, each with its step."""

    def __init__(self, state: State) -> None:
        self.state = state
        self.visits: list[Visit] = []
        self.frames: list[tuple[str, str]] = [("", state.tree.start)]

    @property
    def here(self) -> str:
        """The step of the tree."""
        return self.frames[0][1]

    def document(self) -> Document:
        """The document that the trail is in."""
        name = self.frames[-1][0]
        return self.state.library.procedures[name] if name else self.state.tree

    def take(self, event: Event) -> None:
        """Go the way that an event settled."""
        step = self.document().steps[self.frames[-1][1]]
        while isinstance(step, Run):  # its cautions have been read, else nothing would have been settled
            self.enter()
            step = self.document().steps[self.frames[-1][1]]
        match event, step:
            case Answered(), Ask():
                self.leave(event.answer, step.answers[event.answer].then)
            case Measured(), Measure():
                self.leave(event.band, step.bands[event.band].then)
            case Done(), Do():
                self.leave(0, step.then)
            case Unsure(), Do() | Ask() | Measure():
                ways = {Ask: "answers", Measure: "bands"}.get(type(step))
                self.leave(len(getattr(step, ways)) if ways else 1, step.unsure)

    def leave(self, way: int, target: str) -> None:
        """Leave the open step by one of its ways."""
        if len(self.frames) == 1:
            self.visits.append(Visit(self.here, way))
        self.settle(target)

    def enter(self) -> None:
        """Go into the procedure that the open step runs."""
        step = self.document().steps[self.frames[-1][1]]
        if isinstance(step, Run):
            self.frames.append((step.procedure, ""))
            self.settle(self.document().start)

    def settle(self, target: str) -> None:
        """Go on to a target: what the sheet answers, and the ends of procedures, need nobody."""
        document = self.document()
        self.frames[-1] = (self.frames[-1][0], target)
        step = document.steps.get(target)
        if isinstance(step, Sort):
            value = self.state.sheet.facts[step.fact]
            self.leave(list(step.cases).index(value), step.cases[value])
        elif isinstance(step, Run) and not step.cautions:
            self.enter()
        elif step is None and len(self.frames) > 1:
            self.frames.pop()
            run = self.document().steps[self.frames[-1][1]]
            assert isinstance(run, Run)
            self.leave(list(run.outcomes).index(target), run.outcomes[target])
