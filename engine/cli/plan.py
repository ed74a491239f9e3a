"""`witnessmark plan`: the cheapest order of the tests of a matrix, proven; and the check of such a proof.

With `--json` one object is printed. Its `format` is 1 as long as what is told here stays:

- with `--from`: `tree`, `vehicle`, and of its `own` order `minutes` (expected) and `worst_minutes`;
- `matrix`, `goal`: what was planned (`expected` or `worst`);
- `expected_minutes`, `worst_minutes`, `lower_bound`: minutes; no plan has fewer than the bound by the goal;
- `proven`: whether the bound is met; `groups`: faults that no test tells apart;
- `plan`: a `test` with its `setups`, its `minutes` with theirs, and its `outcomes`, each a plan; or `faults`;
- `certificate`: the proof, as `engine/proof/plan/reliable.py` reads it: `claims` `[groups, marks, least]`,
  that of the start first; `dues` `[i, j, due]` of pairs of groups, in `scale` parts of a price, and for each
  test the `shares` that the first of every pair pays which it parts; `weights` where the goal is `worst`;
  `kinds`: the kind of each group, where numbers of groups are counted, else empty.
  Where tests may err: how many were looked ahead (`depth`).
"""

import argparse
import sys
from pathlib import Path
from typing import Final

from engine.cli.command import Command, add_json, json_text, parser
from engine.cli.matrices import matrix_named, plan_file
from engine.cli.planned import compared, summary, words
from engine.cli.searching import Watch
from engine.cli.trees_read import tree_named
from engine.errors import Failure
from engine.model.matrix import Matrix
from engine.plain import clean
from engine.planner.planning import Planned

_ABOUT = """\
Find the cheapest order of the tests of a matrix, and prove it. Printed is a
tree document for a trainer to word; what it costs is told on stderr. Ctrl-C
(or --seconds) ends the search: the best plan so far is printed, with a bound
that no plan undercuts.

--from TREE reads the questions, states and fits of a tree as a matrix, says how
far the tree's own order is from the cheapest, and prints that one, in words
and as a tree. What safety asks for stands in no fit: it is a question to you.

`witnessmark plan check FILE [MATRIX]` confirms a plan that was printed with
--json, from the matrix alone.

Exit code 0: done; 1: `check` found the plan or its proof wrong."""


def _parser() -> argparse.ArgumentParser:
    made = parser("plan", _ABOUT, "witnessmark plan rear-drive --json > plan.json")
    made.add_argument("words", nargs="*", metavar="MATRIX", help="a matrix by name or file; or `check FILE`")
    made.add_argument(
        "--from", dest="tree", metavar="TREE", help="hold a tree's own order against the cheapest"
    )
    made.add_argument(
        "--vehicle", metavar="SHEET", help="with --from: the vehicle (else the first that suits)"
    )
    made.add_argument(
        "--goal", choices=("expected", "worst"), default="expected", help="which minutes shall be few"
    )
    made.add_argument("--seconds", type=float, metavar="N", help="search no longer than this")
    made.add_argument("--library", type=Path, action="append", default=[], metavar="FOLDER", help="documents")
    add_json(made)
    return made


def _run(options: argparse.Namespace) -> int:
    if options.tree:
        return _held_against(options)
    if not options.words:
        raise Failure("No matrix is named.", "Name a matrix: `witnessmark plan rear-drive`.")
    first, *others = options.words
    if first == "check" and others:
        return _check(others, options.library)
    library, matrix = matrix_named(first, options.library)
    planned = _planned(matrix, options)
    for line in summary(planned):
        sys.stderr.write(clean(line, lines=False) + "\n")
    if options.json:
        from engine.report.plan import told

        print(json_text(told(matrix.id, planned)))
    else:
        from engine.report.plan_tree import tree_text

        sys.stdout.write(tree_text(matrix, planned.plan, library.shop))
    return 0


def _planned(matrix: Matrix, options: argparse.Namespace) -> Planned:
    """The plan, as far as the search came."""
    with Watch(options.seconds) as watch:
        from engine.planner.planning import UnpricedError, plan

        try:
            return plan(matrix, options.goal, watch.over, watch.told)
        except UnpricedError as error:
            cure = "Give `repair` minutes to every fault, and leave `--goal` away."
            raise Failure(str(error), cure) from None


def _held_against(options: argparse.Namespace) -> int:
    """A tree's own order beside the cheapest one of its own tests."""
    held = tree_named(options.tree, options.vehicle, [*options.library, *map(Path, options.words)])
    planned = _planned(held.read.matrix, options)
    for line in compared(held, planned):
        sys.stderr.write(clean(line, lines=False) + "\n")
    if options.json:
        from engine.report.plan import told

        own = {"minutes": float(held.read.expected), "worst_minutes": float(held.read.worst)}
        print(json_text({"tree": options.tree, "vehicle": held.sheet.name, "own": own} | told("", planned)))
    else:
        from engine.report.plan_tree import tree_text

        for line in words(held.read.matrix, planned.plan):
            print(clean(f"# {line}", lines=False))
        sys.stdout.write(tree_text(held.read.matrix, planned.plan, held.library.shop))
    return 0


def _check(words: list[str], folders: list[Path]) -> int:
    from engine.proof.plan.check import check

    made = plan_file(Path(words[0]))
    name = words[1] if len(words) > 1 else str(made.get("matrix", ""))
    _, matrix = matrix_named(name, folders)
    wrong = check(matrix, made)
    for line in wrong:
        print(clean(line, lines=False))
    if not wrong:
        proof = made["certificate"]
        claims = len(proof.get("claims", ()))
        how = f"{claims} claim{'s' * (claims > 1)}" if claims else f"a look {proof['depth']} tests ahead"
        print(f"The plan of `{name}` and its proof hold: {how} confirmed.")
    return 1 if wrong else 0


COMMAND: Final = Command(_parser, _run)
