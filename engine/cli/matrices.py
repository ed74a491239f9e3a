"""The matrix and the plan that a command names."""

import json
from pathlib import Path
from typing import Any

from engine.cli.reviewed import under_review
from engine.errors import Failure, Unreadable
from engine.lint.plannable import holes
from engine.loading.library import Library
from engine.model.matrix import Matrix
from engine.nearest import meant


def matrix_named(name: str, paths: list[Path]) -> tuple[Library, Matrix]:
    """A matrix that can be planned, by its file or by its name in these folders or the usual ones.

    :raises Failure: where there is none, or it has errors.
    """
    path = Path(name)
    if path.is_file():
        library, files = under_review([path])
        found = [each for each in library.matrices.values() if each.place.file in files]
        if not found:
            raise _unsound(library, files) or Failure(f"{name} is no matrix.", "Name a file of `matrix:`.")
        return library, _sound(library, found[0])
    library, files = under_review(paths)
    if name not in library.matrices:
        cure = meant(name, library.matrices) if library.matrices else "Name a folder with matrices."
        raise _unsound(library, files) or Failure(f"There is no matrix `{name}`.", cure)
    return library, _sound(library, library.matrices[name])


def plan_file(path: Path) -> dict[str, Any]:
    """A plan as `plan --json` printed it.

    :raises Failure: where it is none.
    """
    cure = "Give what `witnessmark plan MATRIX --json` printed."
    try:
        made = json.loads(path.read_bytes())
    except (ValueError, RecursionError) as error:
        raise Failure(f"{path} is no JSON: {error}.", cure) from None
    if not isinstance(made, dict):
        raise Failure(f"{path} is no plan.", cure)
    return made


def _sound(library: Library, matrix: Matrix) -> Matrix:
    problems = holes(library, matrix.id)
    if problems:
        raise Unreadable(problems)
    return matrix


def _unsound(library: Library, files: frozenset[str]) -> Failure | None:
    """That a matrix under review could not be read."""
    problems = tuple(problem for problem in library.problems if problem.file in files)
    return Unreadable(problems) if problems else None
