"""The walk line by line: says the prompt, hears a line, gives a command, until somebody stops."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Final

from engine import api
from engine.cli.lines import HELP, closeness, lines, suspects, trail
from engine.cli.readings import Given, full, repeated, take, wanted
from engine.errors import Conflict, Refusal, StoreFailure
from engine.interview import command as ask
from engine.interview.question import (
    AskPrompt,
    CautionPrompt,
    DoPrompt,
    MeasurePrompt,
    Prompt,
    VerdictPrompt,
)
from engine.plain import clean
from engine.records.event import Measured, Undecided

Say = Callable[[str], None]
#: Gives the next line, or None where there is no more.
Hear = Callable[[str], str | None]

#: No number that a person types is longer.
_LONGEST: Final = 9
#: So much of a line that is no answer is shown again.
_SHOWN: Final = 40


@dataclass(frozen=True, slots=True)
class Aside:
    """Words that are no command of the walk: something to print, readings so far, or the wish to leave."""

    told: tuple[str, ...] = ()
    leave: bool = False
    given: Given | None = None


def talk(store: api.Store, job: api.Job, say: Say, hear: Hear) -> api.Job:
    """Walk until a person pauses, the input ends, or the verdict is accepted and nothing follows."""
    fresh, given = True, Given()
    while True:
        prompt = api.prompt(job)
        if fresh:
            _tell(say, lines(prompt))
        if isinstance(prompt, VerdictPrompt) and prompt.accepted and not _follows(prompt):
            return job
        heard = hear(_cue(prompt, given))
        meant = Aside(leave=True) if heard is None else understand(job, prompt, heard.strip(), given)
        if isinstance(meant, Aside):
            _tell(say, meant.told)
            if meant.leave:
                return job
            fresh, given = False, meant.given or given
            continue
        after, fresh = _give(store, job, meant, say)
        if isinstance(meant, ask.Note) and after.state.past == job.state.past:
            fresh = False  # the question, and what was typed for it, stand as before
        elif fresh or isinstance(meant, ask.Read | ask.Repeat):
            given = Given()
        if isinstance(meant, ask.Read | ask.Repeat) and after.state.undecided and fresh:
            fresh = False  # the question stands; what is new is that it was close
            _tell(say, closeness(api.prompt(after)))
        job = after


def _follows(prompt: VerdictPrompt) -> bool:
    return any(not ended for _, _, ended in prompt.follow)


def _tell(say: Say, told: Iterable[str]) -> None:
    for line in told:
        say(clean(line))


def _give(store: api.Store, job: api.Job, command: ask.Command, say: Say) -> tuple[api.Job, bool]:
    """Give a command: the job after it, and whether there is something new to ask.

    Whatever is refused, by the walk or by the store, leaves the job as it was.
    """
    try:
        after = api.act(store, job, command)
    except Conflict as conflict:
        _tell(say, [str(conflict)])
        return api.refresh(store, job), True
    except StoreFailure as failure:
        _tell(say, [f"Not kept: {failure}"])
        return job, False
    if isinstance(after, Refusal):
        _tell(say, [str(after)])
        return job, False
    _tell(say, (f"  {line}" for line in _sums(job, after, command)))
    _tell(say, ["Noted." if isinstance(command, ask.Note) else ""])
    return after, True


def _sums(job: api.Job, after: api.Job, command: ask.Command) -> tuple[str, ...]:
    event = after.entries[-1].event
    if isinstance(event, Measured | Undecided):
        return api.working(job, event.typed)
    return api.reckoned(after, command)


def _cue(prompt: Prompt, given: Given) -> str:
    match prompt:
        case CautionPrompt():
            return "u when understood: "
        case DoPrompt():
            return "u when done: "
        case AskPrompt():
            return f"1 to {len(prompt.choices)}: "
        case MeasurePrompt():
            blank = wanted(prompt, given)
            return f"{blank.name} in {blank.unit}: " if blank else f"1 to {len(prompt.blanks)}, or take: "
        case VerdictPrompt(accepted=False):
            return "u to accept the verdict: "
        case VerdictPrompt():
            return "number of a procedure to start, or pause: "


def understand(job: api.Job, prompt: Prompt, heard: str, given: Given) -> ask.Command | Aside:
    """What a line means at this prompt, with the readings given so far."""
    word, _, rest = heard.partition(" ")
    rest = rest.strip()
    match word.lower():
        case "pause":
            return Aside(leave=True)
        case "?" | "help":
            return Aside(tuple(HELP.splitlines()))
        case "trail":
            return Aside(tuple(trail(prompt.where)))
        case "suspects":
            return Aside(tuple(suspects(prompt.where)))
        case "advice":
            return Aside(api.advice(job))
        case "note":
            return ask.Note(rest)
        case "cannot":
            return ask.CannotTell(rest)
        case "back":
            return _back(job, rest)
    return _answer(prompt, heard, given)


def _back(job: api.Job, rest: str) -> ask.Command | Aside:
    number = _number(rest)
    if number is not None:
        return ask.StepBack(number)
    if rest:
        return Aside(("Type `back` and a number of the trail.",))
    if not job.state.past:
        return Aside(("There is nothing to step back to.",))
    return ask.StepBack(job.state.past[-1].line.sequence)


def _number(heard: str) -> int | None:
    """The whole number that was typed; None for anything else, however long."""
    return int(heard) if heard.isdecimal() and len(heard) <= _LONGEST else None


def _answer(prompt: Prompt, heard: str, given: Given) -> ask.Command | Aside:
    understood = heard.lower() in ("u", "understood", "done", "yes")
    number = _number(heard)
    match prompt:
        case MeasurePrompt():
            return _read(prompt, heard, given)
        case CautionPrompt() if understood:
            return ask.Acknowledge(prompt.caution.name)
        case DoPrompt() if understood:
            return ask.Confirm()
        case VerdictPrompt(accepted=False) if understood:
            return ask.Accept()
        case AskPrompt() if number is not None:
            return ask.Choose(number - 1)
        case VerdictPrompt(accepted=True) if number is not None and 0 < number <= len(prompt.follow):
            return ask.Follow(prompt.follow[number - 1][0])
    cue = _cue(prompt, given).strip(": ")
    return Aside((f"`{heard[:_SHOWN]}` is no answer here. Wanted: {cue}; `?` for help.",))


def _read(prompt: MeasurePrompt, heard: str, given: Given) -> ask.Command | Aside:
    """One more reading; once all are there, the command that gives them."""
    if prompt.close and heard.lower() == "take":
        return ask.Read(prompt.close.typed, insist=True, settle=True)
    blank = wanted(prompt, given)
    if blank is None:
        given, heard = repeated(prompt, heard)
        blank = wanted(prompt, given)
        if blank is None or not heard:
            return Aside(() if blank else tuple(closeness(prompt))[1:], given=given)
    given, told = take(given, blank, heard)
    if told or not full(prompt, given):
        return Aside((told,) if told else (), given=given)
    # each reading that is hard to believe has been given twice
    return (ask.Repeat if prompt.close else ask.Read)(given.typed, insist=True)
