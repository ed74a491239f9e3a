"""`witnessmark rehearse`: scripted walks held against the verdicts that they must end in."""

import argparse
import sys
from pathlib import Path
from typing import Any, Final

from engine.cli.command import Command, add_json, json_text, parser
from engine.cli.reviewed import under_review
from engine.loading.library import Library
from engine.plain import clean
from engine.proof.rehearse import Rehearsed, rehearse_all, unvisited

_ABOUT = (
    "Walk every rehearsal and say which end elsewhere, and what no rehearsal visits.\n"
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

    own = (result for result in results if library.rehearsals[result.name].tree == tree)
    visited = frozenset[tuple[str, str, str]]().union(*(result.visited for result in own))
    told = []
    for draft in write_drafts(library, tree, files, visited):
        told.append({"file": str(draft.path), "verdict": draft.verdict})
        if not json:
            print(clean(f"{draft.path} -> {draft.verdict}", lines=False))
    if json:
        print(json_text({"written": told}))
    else:
        print(f"{len(told)} written." if told else "Nothing is left to be rehearsed.")
    return 0


def _missed(library: Library, results: tuple[Rehearsed, ...]) -> dict[str, tuple[str, ...]]:
    """What no rehearsal visits, by tree."""
    walked: dict[str, list[Rehearsed]] = {}
    for result in results:
        tree = library.rehearsals[result.name].tree
        if tree in library.trees:
            walked.setdefault(tree, []).append(result)
    return {tree: unvisited(library, tree, tuple(own)) for tree, own in walked.items()}


def _print_text(results: tuple[Rehearsed, ...], missed: dict[str, tuple[str, ...]]) -> None:
    for result in results:
        if result.passed:
            print(f"passed  {result.name} -> {result.verdict}")
        else:
            print(clean(f"FAILED  {result.name}\n        {result.place}: {result.message}"))
    for tree, ways in missed.items():
        for way in ways:
            print(clean(f"never visited  {tree}: {way}", lines=False))
    passed = sum(result.passed for result in results)
    what = "rehearsal" if len(results) == 1 else "rehearsals"
    print(f"{len(results)} {what}, {passed} passed, {len(results) - passed} failed.")


def _print_json(results: tuple[Rehearsed, ...], missed: dict[str, tuple[str, ...]]) -> None:
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
        "unvisited": missed,
    }
    print(json_text(told))


COMMAND: Final = Command(_parser, _run)
