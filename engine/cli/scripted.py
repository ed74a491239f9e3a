"""A walk from an answers file: every question printed with its answer, every event kept."""

from engine import api
from engine.cli.lines import lines
from engine.cli.talk import Say
from engine.errors import Refusal
from engine.interview import command as ask
from engine.interview.question import AskPrompt, Prompt, VerdictPrompt
from engine.model.place import Place
from engine.model.rehearsal import Rehearsal
from engine.plain import clean
from engine.proof.script import Off, ended_elsewhere, following, parted


def scripted(store: api.Store, job: api.Job, script: Rehearsal, say: Say) -> int:
    """Walk the script to its verdict and accept it; the exit code is 1 where it does not get there."""
    left = script.lines
    while (move := following(job.state, left)) is not None:
        if isinstance(move, Off):
            return _stopped(say, job, parted(script, left), f"{move.message} {move.cure}")
        _tell(say, api.prompt(job), move.command)
        after = api.act(store, job, move.command)
        if isinstance(after, Refusal):
            return _stopped(say, job, parted(script, left), str(after))
        job, left = after, move.rest
    return _verdict(store, job, script, say)


def _tell(say: Say, prompt: Prompt, command: ask.Command) -> None:
    for line in lines(prompt):
        say(line)
    say(f"> {clean(_said(prompt, command), lines=False)}\n")


def _said(prompt: Prompt, command: ask.Command) -> str:
    match command:
        case ask.Acknowledge():
            return "understood"
        case ask.Confirm():
            return "done"
        case ask.Choose(answer) if isinstance(prompt, AskPrompt):
            return prompt.choices[answer].say
        case ask.Read(typed):
            return ", ".join(f"{name} {value}" if len(typed) > 1 else value for name, value in typed.items())
        case ask.CannotTell(reason):
            return f"cannot {reason}".strip()
        case ask.StepBack(to):
            return f"back {to}"
        case _:
            return ""


def _stopped(say: Say, job: api.Job, place: Place, why: str) -> int:
    say(clean(f"{place}: {why}", lines=False))
    case = clean(job.case, lines=False)
    say(f"The case is kept as far as it went: `witnessmark walk --case {case}` goes on from there.")
    return 1


def _verdict(store: api.Store, job: api.Job, script: Rehearsal, say: Say) -> int:
    prompt = api.prompt(job)
    for line in lines(prompt):
        say(line)
    if isinstance(prompt, VerdictPrompt) and not prompt.accepted:
        after = api.act(store, job, ask.Accept())
        job = job if isinstance(after, Refusal) else after
    say(f"> accepted\n\n`witnessmark report {clean(job.case, lines=False)}` prints the case.")
    if script.verdict and job.state.where != script.verdict:
        say(f"{script.place}: {ended_elsewhere(job.state.where, script.verdict)}")
        return 1
    return 0
