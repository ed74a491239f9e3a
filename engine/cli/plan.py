"""`witnessmark plan`: the cheapest order of the tests of a matrix, proven; and the check of such a proof.

With `--json` one object is printed. Its `format` is 1 as long as what is told here stays:

- `matrix`, `goal`: what was planned (`expected` or `worst`);
- `expected_minutes`, `worst_minutes`, `lower_bound`: minutes; no plan has fewer than the bound by the goal;
- `proven`: whether the bound is met; `groups`: faults that no test tells apart;
- `plan`: a `test` with its `setups`, its `minutes` with theirs, and its `outcomes`, each a plan; or `faults`;
- `certificate`: claims for `witnessmark plan check`, see `engine/proof/plan/check.py`.
"""

import argparse
import sys
from pathlib import Path
from typing import Final

from engine.cli.command import Command, add_json, json_text, parser
from engine.cli.matrices import matrix_named, plan_file
from engine.cli.planned import summary
from engine.cli.searching import Watch
from engine.errors import Failure
from engine.plain import clean

_ABOUT = """\
Find the cheapest order of the tests of a matrix, and prove it. Printed is a
tree document for a trainer to word; what it costs is told on stderr. Ctrl-C
(or --seconds) ends the search: the best plan so far is printed, with a bound
that no plan undercuts.

`witnessmark plan check FILE [MATRIX]` confirms a plan that was printed with
--json, from the matrix alone.

Exit code 0: done; 1: `check` found the plan or its proof wrong."""


def _parser() -> argparse.ArgumentParser:
    made = parser("plan", _ABOUT, "witnessmark plan rear-drive --json > plan.json")
    made.add_argument("words", nargs="+", metavar="MATRIX", help="a matrix by name or file; or `check FILE`")
    made.add_argument(
        "--goal", choices=("expected", "worst"), default="expected", help="which minutes shall be few"
    )
    made.add_argument("--seconds", type=float, metavar="N", help="search no longer than this")
    made.add_argument("--library", type=Path, action="append", default=[], metavar="FOLDER", help="documents")
    add_json(made)
    return made


def _run(options: argparse.Namespace) -> int:
    first, *others = options.words
    if first == "check" and others:
        return _check(others, options.library)
    library, matrix = matrix_named(first, options.library)
    with Watch(options.seconds) as watch:
        from engine.planner.planning import plan

        try:
            planned = plan(matrix, options.goal, watch.over, watch.told)
        except ValueError as error:
            raise Failure(
                str(error), "Give `repair` minutes to every fault, and leave `--goal` away."
            ) from None
    for line in summary(planned):
        sys.stderr.write(clean(line, lines=False) + "\n")
    if options.json:
        from engine.report.plan import told

        print(json_text(told(matrix.id, planned)))
    else:
        from engine.report.plan_tree import tree_text

        sys.stdout.write(tree_text(matrix, planned.plan, library.shop))
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
        how = f"{len(proof)} claims" if isinstance(proof, list) else f"a look {proof['depth']} tests ahead"
        print(f"The plan of `{name}` and its proof hold: {how} confirmed.")
    return 1 if wrong else 0


COMMAND: Final = Command(_parser, _run)
