"""`witnessmark confirm`: after the repair, whether the complaint is gone and what the true cause was."""

import argparse
from typing import Final

from engine import api
from engine.cli.command import Command, add_json, add_store, json_text, parser
from engine.errors import Failure, Refusal
from engine.interview.command import Settle
from engine.model.tree import ELSEWHERE
from engine.plain import clean

_ABOUT = f"""\
Say of a case whose verdict was accepted what became of it: whether the
complaint is gone, and the true cause where it was found. The cause is a suspect
of the tree by its name, or `{ELSEWHERE}` for what the tree does not name. Where the
complaint is gone and no cause is said, it is the suspect that the verdict
convicts, if that is one alone. It may be said again when more is known; the last
word counts. `witnessmark learn` counts these cases."""


def _parser() -> argparse.ArgumentParser:
    made = parser("confirm", _ABOUT, "witnessmark confirm demo --fixed --cause coupling-dead")
    made.add_argument("case", metavar="CASE", help="the case's name, as `witnessmark cases` lists it")
    became = made.add_mutually_exclusive_group(required=True)
    became.add_argument("--fixed", action="store_true", help="the complaint is gone")
    became.add_argument("--not-fixed", action="store_true", help="the complaint is still there, or came back")
    made.add_argument("--cause", metavar="SUSPECT", default="", help="the true cause, where it was found")
    made.add_argument("--remark", metavar="TEXT", default="", help="what else is to be kept")
    add_json(made)
    add_store(made)
    return made


def _run(options: argparse.Namespace) -> int:
    store = api.open_store(options.store)
    try:
        job = api.resume(store, options.case)
        after = api.act(store, job, Settle(options.fixed, options.cause, options.remark))
    finally:
        store.close()
    if isinstance(after, Refusal):
        raise Failure(after.message, after.cure)
    kept = after.state.confirmed
    assert kept is not None
    if options.json:
        print(
            json_text({"case": after.case, "fixed": kept.fixed, "cause": kept.cause, "remark": kept.remark})
        )
    else:
        print(clean(f"Kept for {after.case}: {api.told(after)}", lines=False))
    return 0


COMMAND: Final = Command(_parser, _run)
