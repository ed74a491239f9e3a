"""What keeps a tree from being walked on a vehicle: told before the first step, not at the one it breaks."""

from typing import Final

from engine.errors import Problem
from engine.graph.view import entered
from engine.lint.registry import RULES
from engine.lint.runner import met
from engine.loading.library import Library

#: What is found while a file is read always bars the way; of the rules, those that say so.
_BARRING: Final = tuple(rule for rule in RULES if rule.bars)
_SHOP = ("cautions", "states", "gauges", "facts")


def flaws(library: Library, tree: str, vehicle: str) -> tuple[Problem, ...]:
    """Every error that matters to a walk in the documents it may enter; empty where it can be walked."""
    files = _files(library, tree, vehicle)
    # what only walks of other trees do wrong in a procedure that this one enters, this one does not
    library = library._replace(trees={tree: library.trees[tree]})
    errors = _errors(library, files, vehicle)
    if errors or not library.broken:
        return errors
    # lint does not tell twice of a document that is there but broken; a walk must not come to one
    return library.problems if _errors(library._replace(broken=frozenset()), files, vehicle) else ()


def _files(library: Library, tree: str, vehicle: str) -> frozenset[str]:
    procedures = entered(library.trees[tree], library.procedures)
    names = (f"tree {tree}", f"vehicle {vehicle}", *_SHOP, *(f"procedure {name}" for name in procedures))
    paths = {path for name in names for path in library.paths.get(name, ())}
    return frozenset(shown for shown, path in library.shown.items() if path in paths)


def _errors(library: Library, files: frozenset[str], vehicle: str) -> tuple[Problem, ...]:
    return tuple(found.problem for found in met(library, files, vehicle, _BARRING))
