"""What keeps a matrix from being planned: told before the search, not by a plan that is wrong."""

from typing import Final

from engine.errors import Problem
from engine.lint.registry import RULES
from engine.lint.runner import met
from engine.loading.library import Library

#: What is found while a file is read always bars the way; of the rules, those that say so.
_PASSED: Final = frozenset(rule.slug for rule in RULES if not rule.bars)


def holes(library: Library, matrix: str) -> tuple[Problem, ...]:
    """Every error of a matrix that is in the library; empty where it can be planned."""
    file = library.matrices[matrix].place.file
    return tuple(found.problem for found in met(library, frozenset((file,))) if found.rule not in _PASSED)
