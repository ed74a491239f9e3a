"""What a command leads to: the events that it makes, or why it cannot be taken."""

from collections.abc import Mapping

from engine.errors import Refusal
from engine.interview import command as ask
from engine.interview.aftermath import LONGEST_NOTE, told
from engine.interview.reading import behind, measure
from engine.interview.reckoned import answered, besides
from engine.interview.state import State
from engine.model.tree import Ask, Do, Measure, Verdict
from engine.records import event as happened
from engine.trade.calculator import Sum

Decision = tuple[happened.Event, ...] | Refusal


def decide(state: State, command: ask.Command) -> Decision:
    """The events that a command makes of this state, in order; or a refusal that says the cure.

    Pure: neither clock nor disk, and the state is left as it was.
    """
    match command:
        case ask.StepBack(to):
            return _step_back(state, to)
        case ask.Note(text):
            return _note(state, text)
        case ask.Acknowledge(caution):
            return _acknowledge(state, caution)
        case ask.Settle():
            return told(state, command)
    if state.pending:
        titles = ", ".join(state.library.shop.cautions[name].title for name in state.pending)
        return Refusal(
            "caution", f"A caution stands before this step: {titles}.", "Read and acknowledge it first."
        )
    return _answer(state, command)


def _answer(state: State, command: ask.Command) -> Decision:
    match command:
        case ask.Confirm():
            return _confirm(state)
        case ask.Choose(answer):
            return _choose(state, answer)
        case ask.Read(typed, insist, settle):
            return _read(state, typed, insist=insist, settle=settle)
        case ask.Repeat(typed, insist):
            return _repeat(state, typed, insist=insist)
        case ask.CannotTell(reason):
            return _cannot_tell(state, reason)
        case ask.Accept():
            return _accept(state)
        case ask.Follow(procedure):
            return _follow(state, procedure)
        case _:
            raise AssertionError(f"{command} was decided above")


def _step_back(state: State, to: int) -> Decision:
    if any(past.line.sequence == to for past in state.past):
        return (happened.TakenBack(to),)
    return Refusal("not-there", f"Event {to} is no settled step of this walk.", "Choose a line of the trail.")


def _note(state: State, text: str) -> Decision:
    text = text.strip()
    if not text:
        return Refusal("empty", "The note is empty.", "Write something, or leave it.")
    if len(text) > LONGEST_NOTE:
        return Refusal("too-long", f"The note has {len(text)} characters.", f"Keep it to {LONGEST_NOTE}.")
    return (happened.Noted(state.where, text),)


def _acknowledge(state: State, caution: str) -> Decision:
    if caution in state.pending:
        return (happened.Cautioned(state.where, caution),)
    return Refusal("not-there", f"No caution `{caution}` stands before this step.", "Go on with the step.")


def _wrong_kind(state: State, wanted: str) -> Refusal:
    return Refusal("not-now", f"The step `{state.where}` does not take {wanted}.", "Answer what it asks.")


def _confirm(state: State) -> Decision:
    if isinstance(state.step, Do):
        return (happened.Done(state.where),)
    return _wrong_kind(state, "a plain `done`")


def _choose(state: State, answer: int) -> Decision:
    step = state.step
    if not isinstance(step, Ask):
        return _wrong_kind(state, "an answer from a list")
    if not 0 <= answer < len(step.answers):
        return Refusal("not-there", f"There is no answer {answer + 1}.", f"Choose 1 to {len(step.answers)}.")
    chosen = step.answers[answer]
    made = answered(step, chosen, state.sheet)
    also = besides(made) if isinstance(made, Sum) else ""
    return (happened.Answered(state.where, answer, chosen.say, also),)


def _read(state: State, typed: Mapping[str, str], *, insist: bool, settle: bool) -> Decision:
    step = state.step
    if not isinstance(step, Measure):
        return _wrong_kind(state, "a reading")
    found = measure(state, step, typed, insist=insist, settle=settle)
    return found if isinstance(found, Refusal) else (found,)


def _repeat(state: State, typed: Mapping[str, str], *, insist: bool) -> Decision:
    if state.undecided is None:
        return Refusal("not-now", "No reading here is too close to call.", "Give every reading of the step.")
    whole = behind(state.undecided.typed, typed)
    return whole if isinstance(whole, Refusal) else _read(state, whole, insist=insist, settle=False)


def _cannot_tell(state: State, reason: str) -> Decision:
    step = state.step
    if isinstance(step, Do | Ask | Measure) and step.unsure:
        return (happened.Unsure(state.where, reason.strip()[:LONGEST_NOTE]),)
    return Refusal("not-now", "This step has no way round it.", "Do it, step back, or pause the case.")


def _accept(state: State) -> Decision:
    step = state.step
    if not isinstance(step, Verdict):
        return _wrong_kind(state, "the acceptance of a verdict")
    if state.concluded:
        return Refusal("not-now", "The verdict is accepted already.", "Start a procedure, or leave the case.")
    return (happened.Concluded(state.where, step.text, step.suspects, step.grade, step.correction),)


def _follow(state: State, procedure: str) -> Decision:
    step = state.step
    if not state.concluded:
        return Refusal("not-now", "No verdict has been accepted yet.", "Accept the verdict first.")
    if not isinstance(step, Verdict):
        return Refusal("not-now", "A procedure is under way.", "Finish it first, or step back.")
    if procedure not in step.follow:
        names = ", ".join(step.follow) or "none"
        return Refusal("not-there", f"The verdict does not name `{procedure}`.", f"It names: {names}.")
    return (happened.Followed(procedure),)
