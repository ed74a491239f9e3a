"""The walk line by line: says the prompt, hears a line, gives a command, until somebody stops."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from engine import api
from engine.cli.lines import HELP, lines, trail
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

Say = Callable[[str], None]
#: Gives the next line, or None where there is no more.
Hear = Callable[[str], str | None]


@dataclass(frozen=True, slots=True)
class Aside:
    """Words that are no command of the walk: something to print, or the wish to leave."""

    told: tuple[str, ...] = ()
    leave: bool = False


def talk(store: api.Store, job: api.Job, say: Say, hear: Hear) -> api.Job:
    """Walk until a person pauses, the input ends, or the verdict is accepted and nothing follows."""
    fresh = True
    doubted: ask.Read | None = None
    while True:
        prompt = api.prompt(job)
        if fresh:
            _tell(say, lines(prompt))
        if isinstance(prompt, VerdictPrompt) and prompt.accepted and not _follows(prompt):
            return job
        heard = hear(_cue(prompt))
        meant = Aside(leave=True) if heard is None else understand(job, prompt, heard.strip(), hear)
        if isinstance(meant, Aside):
            _tell(say, meant.told)
            if meant.leave:
                return job
            fresh = False
            continue
        command = _sure(meant, doubted)
        job, fresh, doubt = _give(store, job, command, say)
        doubted = command if doubt and isinstance(command, ask.Read) else None


def _sure(command: ask.Command, doubted: ask.Read | None) -> ask.Command:
    """The same reading given once more is meant."""
    return ask.Read(doubted.typed, insist=True) if doubted is not None and command == doubted else command


def _follows(prompt: VerdictPrompt) -> bool:
    return any(not ended for _, _, ended in prompt.follow)


def _tell(say: Say, told: Iterable[str]) -> None:
    for line in told:
        say(line)


def _give(store: api.Store, job: api.Job, command: ask.Command, say: Say) -> tuple[api.Job, bool, bool]:
    """Give a command: the job after it, whether there is something new to ask, whether it was doubted.

    Whatever is refused, by the walk or by the store, leaves the job as it was.
    """
    try:
        after = api.act(store, job, command)
    except Conflict as conflict:
        say(str(conflict))
        return api.refresh(store, job), True, False
    except StoreFailure as failure:
        say(f"Not kept: {failure}")
        return job, False, False
    if isinstance(after, Refusal):
        say(str(after))
        return job, False, after.insist
    say("")
    return after, True, False


def _cue(prompt: Prompt) -> str:
    match prompt:
        case CautionPrompt():
            return "u when understood: "
        case DoPrompt():
            return "u when done: "
        case AskPrompt():
            return f"1 to {len(prompt.choices)}: "
        case MeasurePrompt(blanks=(blank,)):
            return f"{blank.name} in {blank.unit}: "
        case MeasurePrompt(blanks=blanks):
            return f"{len(blanks)} readings in {blanks[0].unit}; Enter to begin: "
        case VerdictPrompt(accepted=False):
            return "u to accept the verdict: "
        case VerdictPrompt():
            return "number of a procedure to start, or pause: "


def understand(job: api.Job, prompt: Prompt, heard: str, hear: Hear) -> ask.Command | Aside:
    """What a line means at this prompt."""
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
            return Aside(prompt.where.suspects or ("No suspect is left.",))
        case "note":
            return ask.Note(rest)
        case "cannot":
            return ask.CannotTell(rest)
        case "back":
            return _back(job, rest)
    return _answer(prompt, heard, hear)


def _back(job: api.Job, rest: str) -> ask.Command | Aside:
    if rest.isdecimal():
        return ask.StepBack(int(rest))
    if rest or not job.state.past:
        return Aside(
            ("There is nothing to step back to." if not rest else "Type `back` and a number of the trail.",)
        )
    return ask.StepBack(job.state.past[-1].line.sequence)


def _answer(prompt: Prompt, heard: str, hear: Hear) -> ask.Command | Aside:
    understood = heard.lower() in ("u", "understood", "done", "yes")
    match prompt:
        case MeasurePrompt(blanks=(blank,)):
            return _read(prompt, {blank.name: heard}, hear)
        case MeasurePrompt():
            return _read(prompt, {}, hear)
        case CautionPrompt() if understood:
            return ask.Acknowledge(prompt.caution.name)
        case DoPrompt() if understood:
            return ask.Confirm()
        case VerdictPrompt(accepted=False) if understood:
            return ask.Accept()
        case AskPrompt() if heard.isdecimal():
            return ask.Choose(int(heard) - 1)
        case VerdictPrompt(accepted=True) if heard.isdecimal() and 0 < int(heard) <= len(prompt.follow):
            return ask.Follow(prompt.follow[int(heard) - 1][0])
    return Aside((f"`{heard}` is no answer here. {_cue(prompt).strip(': ').capitalize()}; `?` for help.",))


def _read(prompt: MeasurePrompt, typed: dict[str, str], hear: Hear) -> ask.Command | Aside:
    """The readings, each asked for that has not been given."""
    for blank in prompt.blanks:
        if blank.name not in typed:
            heard = hear(f"  {blank.name} in {blank.unit}: ")
            if heard is None:
                return Aside(leave=True)
            typed[blank.name] = heard.strip()
    return ask.Read(typed)
