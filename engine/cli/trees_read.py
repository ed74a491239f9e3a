"""The tree that a command names, read as a matrix on one vehicle."""

from pathlib import Path
from typing import NamedTuple

from engine.cli.reviewed import under_review
from engine.errors import Failure, Unreadable
from engine.lint.rule import suits
from engine.loading.library import Library
from engine.model.tree import Tree
from engine.model.vehicle import Sheet
from engine.nearest import meant
from engine.planner.of_tree import Read, read
from engine.proof.figures.figures import figures
from engine.proof.figures.vehicles import sound


class Held(NamedTuple):
    """A tree read on a vehicle."""

    library: Library
    sheet: Sheet
    read: Read


def tree_named(name: str, vehicle: str | None, paths: list[Path]) -> Held:
    """A sound tree by its name, on this vehicle or the first that suits.

    :raises Failure: where there is none, or it cannot be walked to its end.
    """
    library, files = under_review(paths)
    problems = tuple(problem for problem in library.problems if problem.file in files)
    if problems:
        raise Unreadable(problems)
    if name not in library.trees:
        raise Failure(f"There is no tree `{name}`.", meant(name, library.trees))
    tree = library.trees[name]
    sheet = _sheet(library, tree, vehicle)
    if not sound(tree, library.procedures, sheet.facts):
        raise Failure(
            f"`{name}` cannot be walked to its end on {sheet.name}.", "`witnessmark lint` says what is wrong."
        )
    missed = figures(tree, library.procedures, sheet.facts).missed
    named = [suspect for suspect in tree.suspects if suspect not in missed]
    if not named:
        raise Failure(f"`{name}` convicts nobody on {sheet.name}.", "Let a verdict name a suspect.")
    return Held(library, sheet, read(tree, library.procedures, sheet.facts, library.shop.states, named))


def _sheet(library: Library, tree: Tree, vehicle: str | None) -> Sheet:
    suiting = {name: sheet for name, sheet in library.sheets.items() if not suits(tree, sheet)}
    if not suiting:
        raise Failure(f"No vehicle here suits `{tree.name}`.", "Add a sheet with the facts of its `for`.")
    if vehicle is not None and vehicle not in suiting:
        raise Failure(f"`{tree.name}` is not for a vehicle `{vehicle}`.", meant(vehicle, suiting))
    return suiting[vehicle or next(iter(suiting))]
