"""Shipped documents, damaged in every way there is: each is told, at a place, in a moment."""

import time
from collections.abc import Iterator
from functools import cache
from random import Random
from typing import Any, NamedTuple

import pytest
import yaml

from engine.errors import Problem
from engine.lint.runner import run as lint
from engine.loading.breaks import lines
from engine.loading.document import read
from engine.loading.leaf import File
from engine.loading.library import gather
from tests.engine.lint.planting import released
from tests.engine.loading.mutations import MUTATIONS
from tests.schema_files import decided, explained

#: What one complaint needs, without its rehearsals.
SHIPPED = tuple(file for path, file in released().items() if not path.startswith("rehearsals/"))


class Damaged(NamedTuple):
    """A damaged document, what was found in it, and the seconds of computing that it took."""

    name: str
    original: File
    content: bytes
    problems: tuple[Problem, ...]
    seconds: float


@cache
def damaged(kind: str) -> tuple[Damaged, ...]:
    """Every shipped document after one mutation of this kind."""
    return tuple(_damaged(kind, file) for file in SHIPPED)


def _damaged(kind: str, file: File) -> Damaged:
    name = f"{kind} {file.path}"
    mutated = MUTATIONS[kind](file.content.decode(), Random(name))
    content = mutated if isinstance(mutated, bytes) else mutated.encode()
    began = time.process_time()
    problems = found(File(file.path, file.path, content), file)
    return Damaged(name, file, content, problems, time.process_time() - began)


def found(changed: File, original: File) -> tuple[Problem, ...]:
    """What loading finds in the document; where that is nothing, what lint finds in its library."""
    alone = gather([changed]).problems
    if alone:
        return alone
    # no document refers to a complaint
    others = (file for file in SHIPPED if file.path != original.path and "complaints" not in file.path)
    library = gather([changed, *(file._replace(trusted=True) for file in others)])
    return tuple(finding.problem for finding in lint(library, frozenset([changed.shown])))


def strict(content: bytes) -> Any:
    """What another reader makes of a document; raises where it is none, or where a key stands twice."""
    root = yaml.compose(content, yaml.CSafeLoader)
    for node in _maps(root):
        keys = [key.value for key, _ in node.value]
        assert len(keys) == len(set(keys))
    return yaml.load(content, yaml.CSafeLoader)


def _maps(node: Any) -> Iterator[Any]:
    if isinstance(node, yaml.MappingNode):
        yield node
        yield from (inner for pair in node.value for part in pair for inner in _maps(part))
    elif isinstance(node, yaml.SequenceNode):
        yield from (inner for item in node.value for inner in _maps(item))


def unharmed(case: Damaged) -> bool:
    """Whether two other readers and the other validator take the document for sound, with all its targets."""
    data = strict(case.content)
    kind = next(key for key in data if key in case.original.content.decode().split("\n")[1])
    return not explained(f"{kind}.schema.json", data) and _targets(data) <= _named(data)


def _targets(node: Any) -> set[str]:
    if isinstance(node, list):
        return set().union(*map(_targets, node))
    if not isinstance(node, dict):
        return set()
    here = {value for key, value in node.items() if key in ("then", "unsure", "start")}
    return here.union(*(_targets(value) for value in node.values()))


def _named(data: Any) -> set[str]:
    return set(data.get("steps", {})) | set(data.get("outcomes", {}))


@pytest.mark.parametrize("kind", MUTATIONS)
def test_damage_is_told_or_there_is_none(kind: str) -> None:
    """Where nothing is found, independent readers find a sound document as well."""
    silent = [case for case in damaged(kind) if not case.problems]

    assert [case.name for case in silent if not unharmed(case)] == []


@pytest.mark.parametrize("kind", MUTATIONS)
def test_every_problem_has_a_place_and_a_cure(kind: str) -> None:
    """The file is named, line and column lie within the text, and neither message nor cure is empty."""
    lame = [
        (case.name, problem)
        for case in damaged(kind)
        for problem in case.problems
        if not (_placed(problem, case) and problem.message.strip() and problem.cure.strip() and problem.rule)
    ]

    assert lame == []


def _placed(problem: Problem, case: Damaged) -> bool:
    rows = lines(case.content.decode(errors="replace"))
    inside = 1 <= problem.line <= len(rows) and 1 <= problem.column <= len(rows[problem.line - 1]) + 1
    return problem.file == case.original.path and inside


@pytest.mark.parametrize("kind", MUTATIONS)
def test_damage_costs_no_time(kind: str) -> None:
    """No damaged document takes ten seconds, even on a busy machine; few take a tenth of one."""
    assert [case.name for case in damaged(kind) if case.seconds > 10] == []


@pytest.mark.parametrize("kind", MUTATIONS)
def test_both_validators_agree_on_damage(kind: str) -> None:
    """The validator that decides and the one that explains blame the same places."""
    short = [case for case in damaged(kind) if len(case.content) < 2_500]
    held = [(case.name, read(case.content, "a").data) for case in short]
    kinds = [(name, next((key for key in data or {} if key in _KINDS), ""), data) for name, data in held]

    assert [
        name
        for name, kind, data in kinds
        if kind and explained(f"{kind}.schema.json", data) != decided(f"{kind}.schema.json", data)
    ] == []


_KINDS = ("tree", "procedure", "vehicle", "matrix", "cautions", "states", "gauges", "facts")


def test_hundreds_of_damaged_documents_are_told() -> None:
    """So many that no kind of damage can hide in a handful."""
    assert sum(bool(case.problems) for kind in MUTATIONS for case in damaged(kind)) >= 600


ALWAYS = (
    *("cut-bytes", "tab", "control", "unseen", "byte", "quote", "behind-quote", "bracket", "brace", "deep"),
    *("alias", "tag", "merge", "list-key", "second-document", "second-kind", "format-two", "long-text"),
)


@pytest.mark.parametrize("kind", ALWAYS)
def test_damage_of_this_kind_is_always_told(kind: str) -> None:
    """None of these leaves a document as it was."""
    assert [case.name for case in damaged(kind) if not case.problems] == []


@pytest.mark.parametrize("kind", ["unknown-key", "renamed-target"])
def test_a_slip_in_a_tree_or_a_procedure_is_always_told(kind: str) -> None:
    """A key or a target that is spelt wrong never passes; in a sheet it may be a name of its own."""
    walked = [case for case in damaged(kind) if case.original.path.startswith(("complaints/", "procedures/"))]

    assert [case.name for case in walked if not case.problems and not _unasked(case)] == []


def _unasked(case: Damaged) -> bool:
    """Whether what was changed is the name of a source that nothing cites: another name is as good."""
    was, now = case.original.content.decode(), case.content.decode()
    changed = next(old for old, new in zip(lines(was), lines(now), strict=True) if old != new)
    return "{kind: " in changed and was.count(changed.split(":")[0].strip()) == 1
