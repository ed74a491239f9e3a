"""`witnessmark cases`: list, show, export, verify and rescue what the store holds."""

import argparse
from dataclasses import asdict
from pathlib import Path
from typing import Final

from engine import api
from engine.cli.command import Command, add_json, add_store, json_text, parser
from engine.cli.lines import suspects, trail
from engine.errors import Damaged, Failure
from engine.interview.question import VerdictPrompt
from engine.plain import clean
from engine.records.event import Entry

_ABOUT = """\
Without an action: list the cases, the one touched last first.
  show CASE     what was settled so far, line by line
  export CASE   the case as JSON, by schemas/case.schema.json
  verify        follow the chain of hashes of every case (or of one); exit code 1 where it breaks
  rescue FILE   read what can still be read out of a damaged store into the one named by --store"""


def _parser() -> argparse.ArgumentParser:
    made = parser("cases", _ABOUT, "witnessmark cases verify")
    made.add_argument(
        "action", nargs="?", default="list", choices=["list", "show", "export", "verify", "rescue"]
    )
    made.add_argument("case", nargs="?", metavar="CASE|FILE")
    add_json(made)
    add_store(made)
    return made


def _run(options: argparse.Namespace) -> int:
    store = api.open_store(options.store)
    try:
        if options.action == "list":
            return _list(store, as_json=options.json)
        if options.action == "verify":
            return _verify(store, options.case)
        if not options.case:
            raise Failure(
                f"`cases {options.action}` needs a name.", f"`witnessmark cases {options.action} CASE`."
            )
        return {"show": _show, "export": _export, "rescue": _rescue}[options.action](store, options.case)
    finally:
        store.close()


def _list(store: api.Store, *, as_json: bool) -> int:
    found = api.jobs(store)
    if as_json:
        print(json_text([asdict(line) for line in found]))
        return 0
    if not found:
        print("No case has been opened here yet.")
    for line in found:
        waits = ", a reading is too close to call" if line.waits else ""
        told = f", {line.confirmed}" if line.confirmed else ""
        standing = f"verdict: {line.verdict}{told}" if line.standing == "concluded" else f"open{waits}"
        words = (line.case, line.label, line.title, line.vehicle, line.last, standing)
        print(clean("  ".join(word for word in words if word), lines=False))
    return 0


def _show(store: api.Store, case: str) -> int:
    job = api.resume(store, case)
    print(clean(f"{job.case}  {job.state.tree.title}, {job.state.sheet.title}", lines=False))
    prompt = api.prompt(job)
    for line in trail(prompt.where):
        print(line)
    print("suspects:")
    for line in suspects(prompt.where):
        print(f"  {line}")
    if isinstance(prompt, VerdictPrompt) and prompt.sure:
        print(f"that the verdict is right: {prompt.sure.told}")
    if isinstance(prompt, VerdictPrompt) and prompt.told:
        print(clean(f"after the repair: {prompt.told}", lines=False))
    standing = ", verdict accepted" if job.state.concluded else ""
    waits = ", where a reading is too close to call and not decided" if job.state.undecided else ""
    print(f"now at {job.state.where}{standing}{waits}")
    return 0


def _export(store: api.Store, case: str) -> int:
    print(json_text(api.export(_entries(store, case))))
    return 0


def _entries(store: api.Store, case: str) -> tuple[Entry, ...]:
    entries = store.read(case)
    if not entries:
        raise Failure(f"There is no case {case} here.", "`witnessmark cases` lists those that are.")
    return entries


def _verify(store: api.Store, case: str | None) -> int:
    broken = 0
    for name in (case,) if case else store.cases():
        breaks = _breaks(store, name)
        broken += bool(breaks)
        print(f"{clean(name, lines=False)}: {'whole' if not breaks else 'BROKEN'}")
        for sentence in breaks:
            print(clean(f"  {sentence}", lines=False))
    return 1 if broken else 0


def _breaks(store: api.Store, case: str) -> tuple[str, ...]:
    """What is wrong with a case; that one cannot be read must not keep the others from being looked at."""
    try:
        return api.verify(_entries(store, case))
    except Damaged as damage:
        return (str(damage),)


def _rescue(store: api.Store, file: str) -> int:
    rescued = api.rescue(Path(file), store)
    events = "event" if rescued.entries == 1 else "events"
    cases = "case" if rescued.cases == 1 else "cases"
    told = f"Rescued {rescued.entries} {events} of {rescued.cases} {cases}"
    print(f"{told}; {rescued.lost} could not be read.")
    for sentence in rescued.told:
        print(clean(f"  {sentence}", lines=False))
    return 0 if not rescued.lost else 1


COMMAND: Final = Command(_parser, _run)
