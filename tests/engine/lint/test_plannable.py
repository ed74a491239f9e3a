"""Whether a matrix can be planned: random documents with slips in them, and the planner as the judge."""

from collections.abc import Sequence
from functools import cache
from random import Random
from typing import Final

from engine.errors import Problem
from engine.lint.plannable import holes
from engine.loading.leaf import File
from engine.loading.library import Library, gather
from engine.planner.planning import plan
from engine.proof.plan.check import check
from engine.report.plan import told

COUNT: Final = 400
HEAD: Final = "matrix: m{0}\nformat: 1\nrevision: 1\ntitle: Matrix {0}\n"


def document(seed: int) -> str:
    """A small matrix; in about half of them there is a slip."""
    rng = Random(seed)
    faults = [f"f{number}" for number in range(rng.randint(1, 5))]
    setups = ["raised", "parted"][: rng.randint(1, 2)]
    tests = [f"t{number}" for number in range(rng.randint(1, 5))]
    lines = ["faults:", *(f"  {name}: {{weight: {rng.randint(1, 9)}}}" for name in faults)]
    lines += ["setups:", *(f"  {name}: {{minutes: {rng.randint(1, 20)}}}" for name in setups), "tests:"]
    lines += [f"  {name}: {{{_test(rng, k, faults, setups, tests)}}}" for k, name in enumerate(tests)]
    return HEAD.format(seed) + "\n".join(lines) + "\n"


def _test(
    rng: Random, number: int, faults: Sequence[str], setups: Sequence[str], tests: Sequence[str]
) -> str:
    slip = rng.random() < 0.15
    after = [rng.choice(tests)] if slip else [name for name in tests[:number] if rng.random() < 0.3]
    some = [*faults, "f9"] if slip and rng.random() < 0.3 else faults
    parts = [f"minutes: {rng.randint(1, 9)}", f"after: [{', '.join(after)}]"]
    parts += [
        f"{key}: [{', '.join(name for name in setups if rng.random() < 0.4)}]" for key in ("needs", "drops")
    ]
    if rng.random() < 0.5 or len(faults) < 2:
        return ", ".join((*parts, f"fails: [{', '.join(name for name in some if rng.random() < 0.5)}]"))
    return ", ".join((*parts, f"outcomes: {{{_outcomes(rng, some, slip=slip)}}}"))


def _outcomes(rng: Random, faults: Sequence[str], *, slip: bool) -> str:
    """The faults dealt out; with a slip, one of them to two or to none."""
    cut = rng.randint(1, len(faults) - 1)
    dealt = rng.sample(faults, len(faults))
    one, other = dealt[:cut], dealt[cut:]
    if slip and rng.random() < 0.5:
        one = [*one, other[0]]
    elif slip and len(one) > 1:
        one = one[1:]
    return f"this: [{', '.join(one)}], that: [{', '.join(other)}]"


@cache
def library() -> Library:
    """All of them, read like anybody's."""
    return gather(File(f"m{seed}.yaml", f"m{seed}.yaml", document(seed).encode()) for seed in range(COUNT))


@cache
def found() -> dict[str, tuple[Problem, ...]]:
    """What keeps each from being planned, each looked at in a library of its own."""
    alone = ((name, library()._replace(matrices={name: held})) for name, held in library().matrices.items())
    return {name: holes(each, name) for name, each in alone}


def test_what_has_no_holes_can_be_planned() -> None:
    """The planner plans it, and the plan holds before the independent checker."""
    whole = [library().matrices[name] for name, problems in found().items() if not problems]

    assert len(whole) > COUNT // 4
    assert [each.id for each in whole if check(each, told("m", plan(each)))] == []


def test_every_kind_of_hole_is_met() -> None:
    """So that none of them is let through unseen; nothing was wrong in reading."""
    kinds = {problem.rule for problems in found().values() for problem in problems}

    assert library().problems == ()
    assert kinds == {"unknown-name", "outcome-gap", "outcome-overlap", "tests-in-a-circle"}


def test_a_hole_has_its_place() -> None:
    """In the document that it is in."""
    told_of = [(name, problem) for name, problems in found().items() for problem in problems]

    assert [name for name, problem in told_of if problem.file != f"{name}.yaml" or problem.line < 5] == []
