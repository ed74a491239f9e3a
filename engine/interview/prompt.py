"""What to ask now: the state as plain words and numbers for whoever shows it."""

from fractions import Fraction

from engine.graph.onward import NOTHING, Onward, Span, Spans
from engine.interview import limits
from engine.interview.aftermath import causes, outcome
from engine.interview.evolve import asked
from engine.interview.question import (
    AskPrompt,
    Blank,
    CautionPrompt,
    Choice,
    Close,
    DoPrompt,
    MeasurePrompt,
    Prompt,
    Scale,
    Spare,
    VerdictPrompt,
    Warn,
    Where,
)
from engine.interview.reading import range_words, undecided
from engine.interview.shown import shown
from engine.interview.state import State
from engine.interview.suspecting import sureness, suspected, titled
from engine.model.tree import Ask, Do, Measure, Run, Verdict, Wanted
from engine.quantity import Quantity, write
from engine.trade import registry


def prompt(state: State) -> Prompt:
    """What the walk asks now. Pure: the same state always asks the same."""
    where = _where(state)
    if state.pending:
        return _caution(state, where)
    step = state.step
    common = (where, asked(step), step.why, _shown(state), step.picture)
    match step:
        case Do():
            return DoPrompt(*common, step.minutes, bool(step.unsure))
        case Ask():
            choices = tuple(Choice(answer.say) for answer in step.answers)
            return AskPrompt(*common, step.minutes, choices, bool(step.unsure))
        case Measure():
            return _measure(state, step, where)
        case Verdict():
            return _verdict(state, step, where)
        case _:
            raise AssertionError(f"nobody answers a {type(step).__name__}")


def _shown(state: State) -> tuple[str, ...]:
    """What a calculator has just said, for the step that it leads to; then the step's values of the sheet."""
    also = state.past[-1].line.also if state.past and not state.accepted else ""
    told = (f"Worked out: {also}",) if also else ()
    return (*told, *shown(state.sheet, state.step.show))


def _caution(state: State, where: Where) -> CautionPrompt:
    first = state.library.shop.cautions[state.pending[0]]
    step = state.step
    coming = state.library.procedures[step.procedure].title if isinstance(step, Run) else asked(step)
    warn = Warn(first.name, first.title, first.text)
    return CautionPrompt(where, warn, len(state.pending) - 1, coming)


def _measure(state: State, step: Measure, where: Where) -> MeasurePrompt:
    calculator = registry.find(step.figure) if step.figure else None
    return MeasurePrompt(
        where=where,
        text=step.text,
        why=step.why,
        show=_shown(state),
        picture=step.picture,
        minutes=step.minutes,
        blanks=tuple(_blank(state, want) for want in step.readings),
        figure=calculator.title if calculator else "",
        scales=tuple(Scale(words, say) for words, say in limits.scale(step, state.sheet)),
        can_refuse=bool(step.unsure),
        close=_close(state, step),
    )


def _close(state: State, step: Measure) -> Close | None:
    if state.undecided is None:
        return None
    return undecided(state, step, state.undecided.typed)


def _blank(state: State, want: Wanted) -> Blank:
    gauge = state.library.shop.gauges[want.gauge]
    resolution = write(Quantity(gauge.resolution, gauge.unit))
    return Blank(want.name, want.unit, gauge.title, resolution, range_words(want), want.low, want.high)


def _verdict(state: State, step: Verdict, where: Where) -> VerdictPrompt:
    procedures = state.library.procedures
    return VerdictPrompt(
        where=where,
        verdict=step.text,
        why=step.why,
        show=_shown(state),
        picture=step.picture,
        convicts=tuple(state.tree.suspects[name].title for name in step.suspects),
        grade=step.grade,
        correction=step.correction,
        accepted=state.concluded,
        follow=tuple((name, procedures[name].title, state.followed.get(name, "")) for name in step.follow),
        sure=sureness(state, step),
        told=outcome(state.tree, state.confirmed) if state.confirmed else "",
        causes=_causes(state, step),
    )


def _causes(state: State, step: Verdict) -> tuple[tuple[str, str], ...]:
    """What can be named as the true cause of an accepted verdict, those that it convicts first."""
    if not state.concluded:
        return ()
    ordered = sorted(causes(state.tree), key=lambda name: name not in step.suspects)
    return tuple((name, titled(state.tree, name)) for name in ordered)


def _where(state: State) -> Where:
    states = state.library.shop.states
    spans = _spans(state)
    ahead = _ahead(state, spans)
    suspicion = suspected(state, ahead)
    return Where(
        title=state.tree.title,
        vehicle=state.sheet.title,
        step=state.where,
        inside=(state.tree.title, *(state.library.procedures[f.procedure].title for f in state.frames[1:])),
        trail=tuple(past.line for past in state.past),
        states=tuple(states[name].title for name in sorted(state.holds)),
        spare=_spare(spans),
        reminders=tuple(_reminder(state, name) for name in state.reminders),
        suspects=tuple(one.title for one in suspicion.ahead),
        notes=tuple(text for _, text in state.notes),
        suspicion=suspicion,
    )


def _reminder(state: State, name: str) -> str:
    title = state.library.shop.states[name].title
    if name in state.holds:
        return f"The walk now takes it to be so again, the vehicle may not be: {title}."
    return f"You stepped back past it, but the vehicle may still be so: {title}."


def _spans(state: State) -> Spans:
    """Minutes from the open step, out of every procedure, to each verdict that can still be reached."""
    if state.accepted:
        return {}
    onward = Onward(state.library.procedures, state.sheet.facts)
    spans = onward.spans(state.document, state.frames[-1].step)
    for frame in reversed(state.frames[:-1]):
        document = state.library.procedures[frame.procedure] if frame.procedure else state.tree
        step = document.steps[frame.step]
        if not isinstance(step, Run):
            break  # a procedure that follows a verdict ends there
        spans = onward.leave(document, step, spans)
    return spans


def _spare(spans: Spans) -> Spare:
    total: Span | None = None
    for span in spans.values():
        total = span if total is None else total.either(span)
    fewest, most = total or NOTHING
    return Spare(Fraction(fewest), Fraction(most))


def _ahead(state: State, spans: Spans) -> frozenset[str]:
    """The suspects that a verdict still within reach would convict."""
    names = (state.frames[0].step,) if state.concluded else spans
    steps = (state.tree.steps.get(name) for name in names)
    return frozenset(name for step in steps if isinstance(step, Verdict) for name in step.suspects)
