"""Walks that are killed: run as `python -m tests.killed_walks STORE COUNT SEED`, prints one JSON line a walk.

Each walk is a real one, in a process of its own, on a real store; the process writes a number down a
pipe as soon as an event was acknowledged, and is killed with SIGKILL at a random instant after a
random one of them: however busy the machine is, the kills fall everywhere along the walk.
"""

import json
import os
import random
import signal
import sys
import time
from pathlib import Path

from engine import api
from engine.errors import Refusal
from engine.interview import command as ask
from engine.interview.command import Command
from engine.interview.state import State
from engine.loading.answers import answers
from engine.model.rehearsal import Rehearsal
from engine.model.tree import Verdict
from engine.proof.script import Go, following
from tests.once import read_once

ROOT = Path(__file__).parents[1]
SCRIPT = ROOT / "trees" / "rehearsals" / "coupling-dead-fellside.yaml"


def next_command(state: State, script: Rehearsal) -> Command | None:
    """What the script says at this step, wherever the walk was taken up again; None at its end."""
    if isinstance(state.step, Verdict) and not state.pending:
        return None if state.concluded else ask.Accept()
    lines = tuple(line for line in script.lines if line.at == state.where)
    move = following(state, lines)
    assert isinstance(move, Go), move
    return move.command


def to_verdict(store: api.Store, job: api.Job, script: Rehearsal, acknowledged: int | None = None) -> api.Job:
    """Walk on to the accepted verdict; each event's number goes down the pipe once it was acknowledged."""
    while (command := next_command(job.state, script)) is not None:
        after = api.act(store, job, command)
        assert not isinstance(after, Refusal), after
        job = after
        if acknowledged is not None:
            os.write(acknowledged, f"{job.entries[-1].sequence}\n".encode())
    return job


def _walk(url: str, held: api.Library, script: Rehearsal, case: str, acknowledged: int) -> None:
    store = api.open_store(url)
    job = api.open_job(store, held, script.tree, script.vehicle, case=case)
    os.write(acknowledged, b"1\n")
    to_verdict(store, job, script, acknowledged)
    store.close()


def _killed(url: str, held: api.Library, script: Rehearsal, case: str, kill: tuple[int, float] | None) -> int:
    """The number of the last event acknowledged before the kill, 0 for none; None: the walk is let end."""
    told, tell = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            _walk(url, held, script, case, tell)
        finally:
            os._exit(0)
    os.close(tell)
    with os.fdopen(told, "rb") as heard:
        if kill is not None:
            numbers = [int(heard.readline() or 0) for _ in range(kill[0])]
            time.sleep(kill[1])
            os.kill(child, signal.SIGKILL)
        else:
            numbers = []
        os.waitpid(child, 0)
        numbers += [int(line) for line in heard]
    return max(numbers, default=0)


def _unkilled(url: str, held: api.Library, script: Rehearsal) -> tuple[int, float]:
    """How many events a walk has and how long one takes here, in seconds, with all imported beforehand."""
    warm = api.open_store("memory:")
    to_verdict(warm, api.open_job(warm, held, script.tree, script.vehicle), script)
    began = time.monotonic()
    events = _killed(url, held, script, "timed", None)
    return events, (time.monotonic() - began) / events


def main() -> None:
    """Kill walks, and take each up again in this process as another window would."""
    read_once()
    url, count, seed = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    chance = random.Random(seed)
    held, script = api.library(), answers(SCRIPT)
    events, long = _unkilled(url, held, script)
    for number in range(count):
        case = f"walk-{number}"
        last = _killed(url, held, script, case, (chance.randint(0, events), chance.uniform(0, 2 * long)))
        store = api.open_store(url)
        entries = store.read(case)
        told = {"acknowledged": last, "kept": len(entries), "breaks": api.verify(entries)}
        if entries:
            store.append(entries[-1])  # what was repeated after a crash does no harm
            told["verdict"] = to_verdict(store, api.resume(store, case), script).state.where
            told["whole"] = api.verify(store.read(case)) == ()
        store.close()
        print(json.dumps(told), flush=True)


if __name__ == "__main__":
    main()
