"""`witnessmark rehearse`: scripted walks held against the verdicts that they must end in."""

import argparse
import sys
from pathlib import Path
from typing import Any, Final

from engine.cli.command import Command, add_json, json_text, parser
from engine.cli.reviewed import under_review
from engine.loading.library import Library
from engine.plain import clean
from engine.proof.rehearse import Rehearsed, rehearse_all
from engine.proof.untried import untried
from engine.proof.unvisited import unvisited

#: What is left, by tree: ways that nothing visits, limits that nothing tries or that no reading can try.
_Missed = dict[str, dict[str, tuple[str, ...]]]
_CALLED: Final = {
    "unvisited": "never visited",
    "untried": "never tried",
    "out_of_reach": "out of reach",
}
_ABOUT = (
    "Walk every rehearsal and say which end elsewhere, what none visits, and which limits none tries.\n"
    "A limit is tried from below and from above by readings that one mark of a gauge would carry across it.\n"
    "With --draft, write rehearsals of a tree that go every way left over, a few ways each.\n"
    "They say what the tree does today; read whether that is what it should do.\n"
    "Exit code 0: all passed; 1: one did not."
)


def _parser() -> argparse.ArgumentParser:
    made = parser("rehearse", _ABOUT, "witnessmark rehearse trees")
    made.add_argument(
        "paths", nargs="*", type=Path, metavar="PATH", help="files and folders (else ./trees, else all)"
    )
    made.add_argument(
        "--draft", metavar="TREE", help="write what this tree lacks beside its other rehearsals"
    )
    add_json(made)
    return made


def _run(options: argparse.Namespace) -> int:
    library, files = under_review(options.paths)
    wanted = [r for r in library.rehearsals.values() if r.place.file in files]
    results = tuple(rehearse_all(library, wanted))
    broken = tuple(str(problem) for problem in library.problems if problem.file in files)
    for line in broken:
        sys.stderr.write(clean(line, lines=False) + "\n")
    if options.draft:
        return _draft(library, options.draft, files, results, json=options.json)
    missed = _missed(library, results)
    _print_json(results, missed) if options.json else _print_text(results, missed)
    return 1 if broken or not all(result.passed for result in results) else 0


def _draft(
    library: Library, tree: str, files: frozenset[str], results: tuple[Rehearsed, ...], *, json: bool
) -> int:
    from engine.cli.drafted import write_drafts
    from engine.proof.untried import done

    own = tuple(result for result in results if library.rehearsals[result.name].tree == tree)
    told = []
    for draft in write_drafts(library, tree, files, done(library, tree, own)):
        told.append({"file": str(draft.path), "verdict": draft.verdict})
        if not json:
            print(clean(f"{draft.path} -> {draft.verdict}", lines=False))
    if json:
        print(json_text({"written": told}))
    else:
        print(f"{len(told)} written." if told else "Nothing is left to be rehearsed.")
    return 0


def _missed(library: Library, results: tuple[Rehearsed, ...]) -> _Missed:
    """What no rehearsal visits or tries, by tree."""
    walked: dict[str, list[Rehearsed]] = {}
    for result in results:
        tree = library.rehearsals[result.name].tree
        if tree in library.trees:
            walked.setdefault(tree, []).append(result)
    limits = {tree: untried(library, tree, tuple(own)) for tree, own in walked.items()}
    return {
        "unvisited": {tree: unvisited(library, tree, tuple(own)) for tree, own in walked.items()},
        "untried": {tree: found.open for tree, found in limits.items()},
        "out_of_reach": {tree: found.beyond for tree, found in limits.items()},
    }


def _print_text(results: tuple[Rehearsed, ...], missed: _Missed) -> None:
    for result in results:
        if result.passed:
            print(f"passed  {result.name} -> {result.verdict}")
        else:
            print(clean(f"FAILED  {result.name}\n        {result.place}: {result.message}"))
    for what, called in _CALLED.items():
        for tree, left in missed[what].items():
            for way in left:
                print(clean(f"{called}  {tree}: {way}", lines=False))
    passed = sum(result.passed for result in results)
    what = "rehearsal" if len(results) == 1 else "rehearsals"
    print(f"{len(results)} {what}, {passed} passed, {len(results) - passed} failed.")


def _print_json(results: tuple[Rehearsed, ...], missed: _Missed) -> None:
    told: dict[str, Any] = {
        "rehearsals": [
            {
                "name": r.name,
                "place": str(r.place),
                "passed": r.passed,
                "verdict": r.verdict,
                "message": r.message,
            }
            for r in results
        ],
        **missed,
    }
    print(json_text(told))


COMMAND: Final = Command(_parser, _run)
